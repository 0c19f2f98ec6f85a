//! Whatever the planner can assess can be drawn.

use std::time::Instant;

use baywright_drawing::{Axis, Fit, Lettering, Projection, Shape, Theme, Turned, ViewState, picture, to_svg};
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::judge;
use baywright_planner::model::{Material, Shape as ThingShape, StandSet, Thing, ThingKind};
use proptest::prelude::*;

use super::bay;
use super::list::{check, views};

#[test]
fn a_thousand_things() {
    let mut arrangement = bay::empty(false);
    for i in 0..1000_u32 {
        let (column, row) = (f64::from(i % 50), f64::from(i / 50));
        let at = (120.0 + 240.0 * column, 150.0 + 300.0 * row);
        let shape = ThingShape::Rectangle { length_mm: 90.0, width_mm: 60.0 };
        arrangement.bay.things.push(bay::thing(
            &format!("box {i}"),
            ThingKind::Other,
            shape,
            at,
            (0.0, 400.0),
        ));
    }
    let assessment = judge(&arrangement);
    let findings = assessment.findings.len();
    for drawing in
        views(&arrangement, &assessment, &ViewState::default(), Fit::picture(1200.0), &Lettering::default())
    {
        // A body, perhaps a name, for each thing; a flag, a line and a dot, perhaps overlap and depth for each finding.
        assert!(drawing.items.len() < 500 + 3 * 1000 + 8 * findings, "{} items", drawing.items.len());
        assert!(
            drawing.items.iter().all(|item| !matches!(&item.shape, Shape::Area(rings) if rings.is_empty()))
        );
    }
    for projection in [Projection::Top, Projection::Side] {
        let state = ViewState::default();
        let fit = Fit::picture(1200.0);
        let page = picture(&arrangement, &assessment, &state, &[projection], fit, &Lettering::default());
        assert!(to_svg(&page, Theme::Light).len() < 2_000_000);
    }
}

#[test]
fn forty_findings_have_forty_flags() {
    let mut arrangement = bay::empty(false);
    for i in 0..40_u32 {
        let (column, row) = (f64::from(i % 10), f64::from(i / 10));
        let shape = ThingShape::Rectangle { length_mm: 120.0, width_mm: 90.0 };
        let at = (5500.0 + 330.0 * column, 1700.0 + 400.0 * row + if row >= 2.0 { 900.0 } else { 0.0 });
        arrangement.bay.things.push(bay::thing(&format!("bin {i}"), ThingKind::Bin, shape, at, (0.0, 300.0)));
    }
    let assessment = judge(&arrangement);
    assert!(assessment.findings.len() >= 40, "{}", assessment.findings.len());
    for drawing in
        views(&arrangement, &assessment, &ViewState::default(), Fit::picture(1200.0), &Lettering::default())
    {
        check(&arrangement, &assessment, &drawing);
    }
}

/// Not a measurement: that nothing grows with the square of the number of things.
#[test]
fn ten_times_the_things_take_not_a_hundred_times_as_long() {
    let filled = |count: u32| {
        let mut arrangement = bay::empty(false);
        for i in 0..count {
            let at = (150.0 + 230.0 * f64::from(i % 50), 100.0 + 50.0 * f64::from(i / 50));
            let shape = ThingShape::Rectangle { length_mm: 40.0, width_mm: 30.0 };
            // Overhead, so that nothing is found and only the drawing is timed.
            arrangement.bay.things.push(bay::thing(
                &format!("t{i}"),
                ThingKind::Beam,
                shape,
                at,
                (2900.0, 2950.0),
            ));
        }
        let assessment = judge(&arrangement);
        let (state, lettering) = (ViewState::default(), Lettering::default());
        (0..5)
            .map(|_| {
                let start = Instant::now();
                std::hint::black_box(views(
                    &arrangement,
                    &assessment,
                    &state,
                    Fit::picture(1200.0),
                    &lettering,
                ));
                start.elapsed()
            })
            .min()
            .unwrap()
    };
    let (few, many) = (filled(200), filled(2000));
    assert!(many < few * 40, "200: {few:?}, 2000: {many:?}");
}

prop_compose! {
    pub fn any_thing()(
        kind in prop::sample::select(vec![ThingKind::Cabinet, ThingKind::ParkedCar, ThingKind::Person, ThingKind::Lamp, ThingKind::Other]),
        material in prop::sample::select(Material::ALL.to_vec()),
        size in (1.0..4000.0_f64, 1.0..2000.0_f64),
        round: bool,
        at in (-2000.0..14_000.0_f64, -2000.0..8_000.0_f64),
        heading in -7.0..7.0_f64,
        bottom in prop_oneof![Just(0.0), 0.0..3500.0_f64],
        height in 1.0..3000.0_f64,
        name in ".{0,40}",
    ) -> Thing {
        let shape = if round { ThingShape::Round { diameter_mm: size.0 } } else { ThingShape::Rectangle { length_mm: size.0, width_mm: size.1 } };
        let mut thing = bay::thing(&name, kind, shape, at, (bottom, bottom + height));
        thing.material = material;
        thing.place.at = PlanPose::new(at.into(), heading);
        thing
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn whatever_can_be_judged_can_be_drawn(
        things in prop::collection::vec(any_thing(), 0..12),
        corner: bool,
        parked in (-3000.0..15_000.0_f64, -3000.0..9_000.0_f64),
        heading in -7.0..7.0_f64,
        stand in prop::option::of((-1e4..2e4_f64, -1e4..2e4_f64, -4.0..4.0_f64, 0.0..3000.0_f64, -2.0..2.0_f64)),
        turned in prop::sample::select(vec![Turned::ToCar, Turned::ToRoom, Turned::ToSightLine]),
        along in prop::option::of(prop::sample::select(vec![Axis::Centreline, Axis::SightLine])),
        width in prop::sample::select(vec![300.0, 900.0, 2400.0]),
        least_text in prop::sample::select(vec![11.0, 18.0, f64::NAN]),
        zoom in prop::option::of((1e-6..50.0_f64, -1e5..1e5_f64, -1e5..1e5_f64)),
        one_to in prop::option::of(prop_oneof![-100.0..1e6_f64, Just(0.0), Just(f64::NAN), 20.0..500.0_f64]),
    ) {
        let mut arrangement = bay::empty(corner);
        arrangement.bay.things = things;
        arrangement.parked = PlanPose::new(parked.into(), heading);
        if let Some((x, y, heading, height, pitch)) = stand {
            arrangement.stands = vec![StandSet::At { place: PlanPose::new(DVec2::new(x, y), heading), height_mm: height, pitch_rad: pitch }];
        }
        let assessment = judge(&arrangement);
        let lettering = Lettering { least_text, ..Lettering::default() };
        let fit = match zoom {
            Some((px_per_mm, x, y)) => {
                Fit::Window { size: DVec2::new(width, 500.0), px_per_mm, middle: DVec2::new(x, y) }
            }
            None => one_to.map_or(Fit::picture(width), |one_to| Fit::True { one_to }),
        };
        let state = ViewState { turned, along, ..ViewState::default() };
        for projections in [&[Projection::Top] as &[_], &[Projection::Side], &[Projection::Top, Projection::Side]] {
            let page = picture(&arrangement, &assessment, &state, projections, fit, &lettering);
            for item in page.frames.iter().flat_map(|frame| frame.items()) {
                item.shape.each_point(|p| assert!(p.is_finite(), "{item:?}"));
            }
            let svg = to_svg(&page, Theme::Dark);
            prop_assert!(!svg.contains("NaN"));
            prop_assert!(roxmltree::Document::parse(&svg).is_ok());
        }
    }
}
