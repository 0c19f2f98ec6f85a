//! Measuring from point to point.

use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::hand::{Measured, lies_on, measured, measuring_point};
use baywright_planner::model::*;
use baywright_planner::{Scene, Subject};
use proptest::prelude::*;

use crate::awkward::{arrangement, boundary, config, place};
use crate::support::*;

#[test]
fn ahead_and_to_the_left_are_the_cars() {
    let mut arrangement = clear();
    arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_000.0), angle::radians(90.0));
    let scene = Scene::of(&arrangement);
    let found = measured(&scene, DVec2::new(1_000.0, 1_000.0), DVec2::new(1_300.0, 1_400.0));
    assert_eq!(found, Measured { distance_mm: 500.0, ahead_mm: 400.0, left_mm: -300.0 });
    assert_eq!(measured(&scene, DVec2::ZERO, DVec2::NAN), Measured::default());
    assert_eq!(measured(&scene, DVec2::splat(-1e308), DVec2::splat(1e308)), Measured::default());
}

#[test]
fn points_worth_measuring_from() {
    let mut arrangement = with(vec![
        cabinet("cabinet", (8_000.0, 5_000.0), 900.0, 450.0),
        column("column", (10_000.0, 1_000.0), 300.0),
    ]);
    arrangement.bay.marks = vec![PermanentMark::new("A".into(), DVec2::new(1_500.0, 4_800.0))];
    let scene = Scene::of(&arrangement);
    let thing = |name: &str| Subject::Thing(name.into());
    for (at, found, subject) in [
        ((8_440.0, 5_230.0), (8_450.0, 5_225.0), thing("cabinet")),
        ((8_010.0, 4_760.0), (8_000.0, 4_775.0), thing("cabinet")),
        ((10_020.0, 1_010.0), (10_000.0, 1_000.0), thing("column")),
        ((10_000.0, 1_160.0), (10_000.0, 1_150.0), thing("column")),
        ((1_490.0, 4_790.0), (1_500.0, 4_800.0), Subject::Mark("A".into())),
        ((4_010.0, 3_760.0), (4_000.0, 3_770.0), Subject::Car),
        ((4_860.0, 3_010.0), (4_850.0, 3_000.0), Subject::Car),
        ((4_795.0, 3_000.0), (4_800.0, 3_000.0), Subject::Sensor),
        // The target stands over the mark that is its place: the mark is what a tape is put to.
        ((8_790.0, 3_000.0), (8_800.0, 3_000.0), Subject::Mark("T".into())),
        ((11_990.0, 10.0), (12_000.0, 0.0), Subject::Wall("far wall".into())),
    ] {
        let got = measuring_point(&arrangement, &scene, at.into(), 50.0).unwrap();
        assert!(got.0.distance(found.into()) < 1e-9 && lies_on(&got.1) == subject, "{at:?}: {got:?}");
    }
    assert_eq!(measuring_point(&arrangement, &scene, DVec2::new(6_000.0, 1_500.0), 50.0), None);
    for (at, reach) in [(DVec2::NAN, 50.0), (DVec2::ZERO, f64::NAN), (DVec2::ZERO, -1.0)] {
        assert_eq!(measuring_point(&arrangement, &scene, at, reach), None);
    }
    // A target that was put elsewhere is no mark's.
    arrangement.stands = vec![StandSet::At {
        place: PlanPose::new(DVec2::new(9_500.0, 3_100.0), std::f64::consts::PI),
        height_mm: 500.0,
        pitch_rad: 0.0,
    }];
    let got = measuring_point(&arrangement, &Scene::of(&arrangement), DVec2::new(9_490.0, 3_100.0), 50.0);
    assert_eq!(got, Some((DVec2::new(9_500.0, 3_100.0), EndOn::Target("ahead".into()))));
}

proptest! {
    #![proptest_config(config(300))]

    #[test]
    fn nothing_nearer_is_left_out(arrangement in arrangement(), at in place(), reach in 0.0..400.0_f64) {
        let scene = Scene::of(&arrangement);
        let found = measuring_point(&arrangement, &scene, at, reach);
        let off = found.as_ref().map_or(reach, |(p, _)| p.distance(at));
        prop_assert!(off <= reach);
        for thing in &scene.things {
            if matches!(&thing.prism.outline, baywright_planner::geometry::Outline::Circle(_)) { continue }
            for (a, b) in boundary(&thing.prism.outline) {
                prop_assert!(a.distance(at).min(a.midpoint(b).distance(at)) >= off - 1e-9);
            }
        }
        let marks = arrangement.bay.marks.iter().map(|mark| mark.at).chain(scene.wheels);
        for point in marks.chain(arrangement.bay.room.outer().iter().copied()) {
            prop_assert!(point.distance(at) >= off - 1e-9);
        }
    }

    #[test]
    fn parts_make_the_whole(arrangement in arrangement(), from in place(), to in place()) {
        let found = measured(&Scene::of(&arrangement), from, to);
        let pose = arrangement.parked;
        prop_assert!((found.distance_mm - from.distance(to)).abs() < 1e-9);
        let back = pose.forward() * found.ahead_mm + pose.left() * found.left_mm;
        prop_assert!(back.distance(to - from) < 1e-9);
    }
}
