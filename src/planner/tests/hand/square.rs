//! Headings drawn onto right angles.

use std::f64::consts::{FRAC_PI_2, PI};

use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::hand::squared;
use baywright_planner::{Scene, Subject};
use proptest::prelude::*;

use crate::awkward::{arrangement, config, heading, movable};
use crate::support::*;

#[test]
fn along_the_axes_it_is_exactly_what_a_person_types() {
    let arrangement = with(vec![cabinet("cabinet", (8_000.0, 5_000.0), 900.0, 450.0)]);
    let scene = Scene::of(&arrangement);
    let thing = Subject::Thing("cabinet".into());
    for (wanted, square) in
        [(0.03, 0.0), (1.55, FRAC_PI_2), (-1.6, -FRAC_PI_2), (3.1, PI), (-3.12, PI), (6.30, 0.0)]
    {
        let got = squared(&arrangement, &scene, &thing, wanted, 0.05);
        assert_eq!(got, square, "{wanted}");
    }
    assert_eq!(squared(&arrangement, &scene, &thing, 0.06, 0.05), 0.06);
    assert_eq!(squared(&arrangement, &scene, &thing, 0.06, f64::NAN), 0.06);
    assert_eq!(squared(&arrangement, &scene, &thing, f64::NAN, 0.05), 0.0);
}

#[test]
fn things_are_squared_to_the_car_and_the_car_only_to_walls() {
    let mut arrangement = with(vec![cabinet("cabinet", (8_000.0, 5_000.0), 900.0, 450.0)]);
    let askew = angle::radians(10.0);
    arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_000.0), askew);
    let scene = Scene::of(&arrangement);
    let at = |subject: &Subject, wanted: f64| squared(&arrangement, &scene, subject, wanted, 0.05);
    assert_eq!(at(&Subject::Thing("cabinet".into()), askew - 0.04), askew);
    assert_eq!(at(&Subject::Stand("ahead".into()), askew + PI + 0.01), angle::wrapped(askew - PI));
    assert_eq!(at(&Subject::Car, askew - 0.04), askew - 0.04);
    assert_eq!(at(&Subject::Car, 0.04), 0.0);
}

proptest! {
    #![proptest_config(config(500))]

    #[test]
    fn square_or_untouched(
        arrangement in arrangement(),
        wanted in prop_oneof![heading(), -20.0..20.0_f64],
        reach in prop_oneof![Just(0.0), 0.0..0.1_f64, Just(10.0)],
    ) {
        let scene = Scene::of(&arrangement);
        for subject in movable(&arrangement) {
            let got = squared(&arrangement, &scene, &subject, wanted, reach);
            let walls = arrangement.bay.room.edges().map(|edge| (edge.to - edge.from).normalize());
            let mut ways: Vec<DVec2> = walls.collect();
            if subject != Subject::Car {
                ways.push(scene.bay_from_vehicle.forward());
            }
            let own = angle::direction(got);
            let off = |way: &DVec2, own: DVec2| way.perp_dot(own).abs().min(way.dot(own).abs());
            let is_square = ways.iter().any(|way| off(way, own) < 1e-15 * 4.0);
            // How far the wanted heading is from the nearest right angle.
            let wanted_way = angle::direction(wanted);
            let least = ways.iter().map(|way| libm::asin(off(way, wanted_way).min(1.0))).fold(9.0, f64::min);
            prop_assert!(angle::wrapped(got - wanted).abs() <= reach + 1e-12 || got == wanted);
            prop_assert!((angle::wrapped(got - wanted).abs() - least).abs() < 1e-9 || got == wanted);
            if least < reach - 1e-9 {
                prop_assert!(is_square, "{got} from {wanted}");
                prop_assert!(got > -PI && got <= PI);
            } else if least > reach + 1e-9 {
                prop_assert_eq!(got, wanted);
            }
            if is_square {
                prop_assert_eq!(squared(&arrangement, &scene, &subject, got, reach), got);
            }
        }
    }
}
