//! What is in hand, and where.

use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::hand::{own_outlines, pose_of};
use baywright_planner::{Scene, Subject};
use proptest::prelude::*;

use crate::awkward::{arrangement, boundary, config, movable, slack};
use crate::support::*;

#[test]
fn only_things_targets_and_the_car_can_be_moved() {
    let mut arrangement = with(vec![cabinet("cabinet", (8_000.0, 5_000.0), 900.0, 450.0)]);
    arrangement.bay.things[0].locked = true;
    let scene = Scene::of(&arrangement);
    let stand = PlanPose::new(DVec2::new(8_800.0, 3_000.0), std::f64::consts::PI);
    for (subject, pose, outlines) in [
        (Subject::Car, Some(arrangement.parked), 1),
        (Subject::Thing("cabinet".into()), Some(PlanPose::new(DVec2::new(8_000.0, 5_000.0), 0.0)), 1),
        // Face, feet and mast.
        (Subject::Stand("ahead".into()), Some(stand), 3),
        (Subject::Target("ahead".into()), Some(stand), 3),
        (Subject::Thing("nothing".into()), None, 0),
        (Subject::Stand("nothing".into()), None, 0),
        (Subject::Wall("left wall".into()), None, 0),
        (Subject::Zone("beam".into()), None, 0),
        (Subject::Sensor, None, 0),
    ] {
        assert_eq!(pose_of(&arrangement, &scene, &subject), pose, "{subject:?}");
        assert_eq!(own_outlines(&arrangement, &scene, &subject).len(), outlines, "{subject:?}");
    }
    // The face's front lies on the target's own y axis, and the base is as the aiming has it.
    let own = own_outlines(&arrangement, &scene, &Subject::Stand("ahead".into()));
    assert_eq!((own[0].bounds().low, own[0].bounds().high), ((-20.0, -250.0).into(), (0.0, 250.0).into()));
    assert_eq!(own[1], rectangle((-500.0, -300.0), (-20.0, 300.0)).into());
}

proptest! {
    #![proptest_config(config(200))]

    /// The outlines put where it stands are those of what is there.
    #[test]
    fn outlines_and_place_make_what_is_in_the_scene(arrangement in arrangement()) {
        let scene = Scene::of(&arrangement);
        let slack = slack(&arrangement) * 10.0;
        for subject in movable(&arrangement) {
            let pose = pose_of(&arrangement, &scene, &subject).unwrap();
            let there: Vec<_> = match &subject {
                Subject::Car => scene.car.clone(),
                Subject::Thing(id) => {
                    let at = arrangement.bay.things.iter().position(|own| own.id == *id).unwrap();
                    vec![scene.things[at].prism.clone()]
                }
                _ => scene.targets[0].solids.clone(),
            };
            let own = own_outlines(&arrangement, &scene, &subject);
            prop_assert_eq!(own.len(), there.len());
            for (own, there) in own.iter().zip(&there) {
                let pairs = boundary(&own.placed(&pose)).into_iter().zip(boundary(&there.outline));
                for ((a, _), (b, _)) in pairs {
                    prop_assert!(a.distance(b) <= slack, "{a} {b}");
                }
            }
        }
    }
}
