//! Sizing by handles.

use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::hand::resized;
use baywright_planner::model::validate::limits::THING;
use baywright_planner::model::*;
use proptest::prelude::*;

use crate::awkward::{config, heading, place};
use crate::support::*;

fn shaped(shape: Shape, at: PlanPose) -> Thing {
    let thing = cabinet("thing", (0.0, 0.0), 1.0, 1.0);
    Thing { footprint: Footprint::new(shape).unwrap(), place: Place { at, ..thing.place }, ..thing }
}

#[test]
fn a_side_is_drawn_out_and_the_other_stays() {
    // From x = 7550 to 8450, y = 4250 to 4700.
    let thing = cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0);
    let to = |x: f64, y: f64| DVec2::new(x, y);
    let rectangle = |length, width| Shape::Rectangle { length_mm: length, width_mm: width };
    for (handle, at, shape, middle) in [
        ((1, 0), to(8_600.4, 9_999.0), rectangle(1_050.0, 450.0), (8_075.0, 4_475.0)),
        ((-1, 0), to(7_400.0, 0.0), rectangle(1_050.0, 450.0), (7_925.0, 4_475.0)),
        ((0, -1), to(0.0, 4_200.0), rectangle(900.0, 500.0), (8_000.0, 4_450.0)),
        ((1, 1), to(8_350.0, 4_800.0), rectangle(800.0, 550.0), (7_950.0, 4_525.0)),
        // Past the side that stays: as small as a thing may be.
        ((1, 0), to(7_000.0, 4_475.0), rectangle(5.0, 450.0), (7_552.5, 4_475.0)),
        ((0, 1), to(8_000.0, 1e6), rectangle(900.0, 1e5), (8_000.0, 54_250.0)),
    ] {
        let place = PlanPose::new(middle.into(), 0.0);
        assert_eq!(resized(&thing, handle, at), Some((shape, place)), "{handle:?}");
    }
}

#[test]
fn a_round_thing_grows_about_its_middle() {
    let thing = column("drum", (1_000.0, 1_000.0), 400.0);
    for (handle, at) in [((1, 0), (1_300.0, 1_050.0)), ((0, -1), (900.0, 700.0)), ((-1, 1), (700.0, 1_300.0))]
    {
        let (shape, place) = resized(&thing, handle, at.into()).unwrap();
        assert_eq!((shape, place), (Shape::Round { diameter_mm: 600.0 }, thing.place.at), "{handle:?}");
    }
}

#[test]
fn there_is_nothing_to_draw_at() {
    let thing = cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0);
    for handle in [(0, 0), (2, 0), (0, -2), (i8::MIN, 1)] {
        assert_eq!(resized(&thing, handle, DVec2::ZERO), None);
    }
    for to in [DVec2::NAN, DVec2::INFINITY, DVec2::new(0.0, f64::NEG_INFINITY)] {
        assert_eq!(resized(&thing, (1, 1), to), None);
    }
    let corners = [(0.0, 0.0), (100.0, 0.0), (0.0, 100.0)].map(DVec2::from).to_vec();
    assert_eq!(resized(&shaped(Shape::Outline(corners), PlanPose::IDENTITY), (1, 0), DVec2::ONE), None);
}

proptest! {
    #![proptest_config(config(2_000))]

    #[test]
    fn the_opposite_side_stays_and_the_size_is_one_that_may_be_typed(
        length in 5.0..3_000.0_f64,
        width in prop_oneof![Just(5.0), 5.0..90_000.0_f64],
        at in place(),
        heading in heading(),
        handle in (-1..=1_i8, -1..=1_i8),
        to in prop_oneof![place(), (-1e9..1e9_f64, -1e9..1e9_f64).prop_map(DVec2::from)],
    ) {
        let thing = shaped(Shape::Rectangle { length_mm: length, width_mm: width }, PlanPose::new(at, heading));
        let Some((shape, place)) = resized(&thing, handle, to) else {
            prop_assert_eq!(handle, (0, 0));
            return Ok(());
        };
        let Shape::Rectangle { length_mm: long, width_mm: wide } = shape else { panic!("{shape:?}") };
        let side = DVec2::new(f64::from(handle.0), f64::from(handle.1));
        for (side, new, old) in [(side.x, long, length), (side.y, wide, width)] {
            if side == 0.0 {
                prop_assert_eq!(new, old);
            } else {
                prop_assert!(THING.holds(new) && new == new.round(), "{}", new);
            }
        }
        prop_assert_eq!(place.heading(), thing.place.at.heading());
        // The side or corner opposite the handle, and along an edge both ends of it.
        let slack = 1e-9 + 1e-13 * at.abs().max_element() + 1e-12 * to.abs().max_element().min(1e6);
        let (old, new) = (DVec2::new(length, width) * 0.5, DVec2::new(long, wide) * 0.5);
        for end in [-1.0, 1.0] {
            let corner = DVec2::new(
                if handle.0 == 0 { end } else { -side.x },
                if handle.1 == 0 { end } else { -side.y },
            );
            let (before, after) = (thing.place.at * (corner * old), place * (corner * new));
            prop_assert!(before.distance(after) <= slack, "{before} {after}");
        }
        // The handle is under the pointer, as far as it may.
        let (own, handle_at) = (place.inverse() * to, side * new);
        let axes = [(side.x, own.x, handle_at.x, long), (side.y, own.y, handle_at.y, wide)];
        for (side, own, at, size) in axes {
            if side != 0.0 && size > THING.low && size < THING.high {
                prop_assert!((own - at).abs() <= 0.5 + 1e-6, "{own} {at}");
            }
        }
    }

    #[test]
    fn what_is_sized_in_one_go_is_sized_in_two(
        at in place(), heading in heading(), first in place(), then in place(),
    ) {
        let thing = shaped(Shape::Rectangle { length_mm: 600.0, width_mm: 400.0 }, PlanPose::new(at, heading));
        let (shape, place) = resized(&thing, (1, -1), first).unwrap();
        let between = Thing { footprint: Footprint::new(shape).unwrap(), place: Place { at: place, ..thing.place }, ..thing.clone() };
        let once = resized(&thing, (1, -1), then).unwrap();
        let twice = resized(&between, (1, -1), then).unwrap();
        let size = |shape: &Shape| match *shape {
            Shape::Rectangle { length_mm: length, width_mm: width } => DVec2::new(length, width),
            _ => panic!("{shape:?}"),
        };
        // Half a millimetre may be rounded the other way.
        prop_assert!((size(&once.0) - size(&twice.0)).abs().max_element() <= 1.0);
        prop_assert!(once.1.origin().distance(twice.1.origin()) <= 1.0);
    }
}
