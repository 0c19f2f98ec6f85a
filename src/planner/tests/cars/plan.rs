//! Mark plans that are changed step by step: every mark stays where it was.

use baywright_planner::entry::starter::StartKind;
use baywright_planner::geometry::DVec2;
use baywright_planner::geometry::marks::{Construction, Givens, Reach, WhichSide, lay};
use baywright_planner::model::{Aiming, MarkStep, PlanFault, Vehicle, VehicleClass, Wheel};
use proptest::prelude::*;

fn aiming() -> Aiming {
    let mut car = Vehicle::of_class(VehicleClass::Saloon);
    car.start_sensor(StartKind::ForwardRadar, "radar".into());
    car.start_aiming(&"radar".into(), "aiming".into());
    car.aimings.remove(0)
}

/// Where the marks lie, by name.
fn places(aiming: &Aiming) -> Vec<(String, Option<DVec2>)> {
    let wheels = [(0.0, 750.0), (0.0, -750.0), (-2_700.0, 750.0), (-2_700.0, -750.0)];
    let targets = vec![DVec2::new(3_600.0, 0.0)];
    let givens = Givens::new(wheels.map(DVec2::from), DVec2::X, [205.0; 4], Vec::new(), targets).unwrap();
    let plan: Vec<Construction> = aiming.mark_plan.iter().map(|step| step.construction).collect();
    let laid = lay(&plan, &givens);
    let mut all: Vec<_> =
        aiming.mark_plan.iter().zip(laid).map(|(step, at)| (step.id.to_string(), at.ok())).collect();
    all.sort_by(|a, b| a.0.cmp(&b.0));
    all
}

#[test]
fn what_others_need_stays_and_what_they_do_not_goes() {
    let mut own = aiming();
    let before = places(&own);
    // 7 stands half way between 5 and 6, and the plate over 7.
    assert_eq!(own.remove_mark(4), Err(PlanFault::Used));
    assert_eq!(own.remove_mark(6), Err(PlanFault::Used));
    assert_eq!(own.swap_marks(5), Err(PlanFault::OutOfOrder));
    assert_eq!(own.swap_marks(6), Err(PlanFault::NoSuch));
    own.swap_marks(4).unwrap();
    own.swap_marks(0).unwrap();
    assert_eq!(places(&own), before);
    // A mark that nobody needs goes, and the rest stays.
    own.mark_plan.insert(
        0,
        MarkStep { id: "spare".into(), construction: Construction::WheelPoint { wheel: Wheel::FrontLeft } },
    );
    for step in own.mark_plan.iter_mut().skip(1) {
        step.construction = step.construction.with_uses(|_, mark| mark + 1);
    }
    own.remove_mark(0).unwrap();
    assert_eq!(places(&own), before);
    own.rename_mark(6, "middle".into());
    assert_eq!(own.placements[0].mark.as_ref().unwrap().as_str(), "middle");
    assert_eq!(own.use_mark(2, 0, 5), Err(PlanFault::OutOfOrder));
    own.use_mark(6, 0, 1).unwrap();
    assert_eq!(own.mark_plan[6].construction.uses()[0], 1);
}

#[test]
fn targets_take_their_marks_and_zones_along() {
    let mut own = aiming();
    let mut far = own.placements[0].clone();
    far.id = "far plate".into();
    far.mark = None;
    own.placements.push(far);
    own.swap_placements(0, 1);
    let abreast = |own: &Aiming| {
        own.mark_plan
            .iter()
            .filter_map(|step| match step.construction {
                Construction::Prolong { reach: Reach::AbreastOf(target), .. } => Some(target),
                _ => None,
            })
            .collect::<Vec<_>>()
    };
    assert_eq!(abreast(&own), [1, 1], "the marks still go abreast of the plate");
    assert!(!own.remove_placement(1), "marks are found from it");
    assert!(own.remove_placement(0));
    assert_eq!(abreast(&own), [0, 0]);
    assert!(!own.remove_placement(0), "one target stays");
}

proptest! {
    /// However the order is changed, marks stay where they were, or the change is refused and nothing changes.
    #[test]
    fn any_order_leaves_every_mark_in_its_place(swaps in proptest::collection::vec(0usize..9, 0..40)) {
        let mut own = aiming();
        own.mark_plan.push(MarkStep {
            id: "8".into(),
            construction: Construction::TwoDistances {
                first: 0, from_first: 3_000.0, second: 3, from_second: 3_000.0, side: WhichSide::Left,
            },
        });
        let before = places(&own);
        for at in swaps {
            let was = own.clone();
            if own.swap_marks(at).is_err() {
                prop_assert_eq!(&own, &was);
            }
            for (i, step) in own.mark_plan.iter().enumerate() {
                prop_assert!(step.construction.uses().iter().all(|&mark| mark < i));
            }
        }
        prop_assert_eq!(places(&own), before);
    }
}
