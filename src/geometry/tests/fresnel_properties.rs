//! The first Fresnel zone against dense sampling, for awkward obstacles and paths.

// A test may stop with a message.
#![allow(clippy::unwrap_used)]

#[allow(dead_code, reason = "shared with the other property tests, each of which needs a part of it")]
mod awkward;

use awkward::{config, outline};
use baywright_geometry::{
    DVec2, DVec3, FresnelClearance, Outline, PlanPose, Prism, Span, Wavelength, fresnel_clearance,
    fresnel_clearance_in_plan, fresnel_plan,
};
use proptest::prelude::*;

/// So long that every obstacle here enters the zone, and the answer names its place.
const LONG: f64 = 1e9;

fn wave(mm: f64) -> Wavelength {
    Wavelength::new(mm).unwrap()
}

fn thing() -> impl Strategy<Value = Prism> {
    let place = prop_oneof![
        (-8..9_i32, -8..9_i32, 0..4_i32).prop_map(|(x, y, quarter)| {
            PlanPose::new(
                DVec2::new(f64::from(x), f64::from(y)),
                f64::from(quarter) * std::f64::consts::FRAC_PI_2,
            )
        }),
        (-9.0..9.0_f64, -9.0..9.0_f64, -3.0..3.0_f64)
            .prop_map(|(x, y, heading)| PlanPose::new(DVec2::new(x, y), heading)),
    ];
    (outline(), place, -6.0..5.0_f64, 0.1..6.0_f64)
        .prop_map(|(outline, place, z, h)| Prism::new(outline.placed(&place), Span::new(z, z + h).unwrap()))
}

/// On the grid (in line with edges, over corners, right above one another) or anywhere.
fn end() -> impl Strategy<Value = DVec3> {
    prop_oneof![
        (-9..10_i32, -9..10_i32, -4..5_i32).prop_map(|(x, y, z)| DVec3::new(x.into(), y.into(), z.into())),
        (-12.0..12.0_f64, -12.0..12.0_f64, -6.0..6.0_f64).prop_map(|(x, y, z)| DVec3::new(x, y, z)),
    ]
}

fn detour(a: DVec3, b: DVec3, p: DVec3) -> f64 {
    a.distance(p) + p.distance(b) - a.distance(b)
}

/// How far a point is from a prism's solid.
fn off(thing: &Prism, p: DVec3) -> f64 {
    let plan = match baywright_geometry::distance_to_point(&thing.outline, p.truncate()) {
        baywright_geometry::Separation::Apart { gap, .. } => gap,
        _ => 0.0,
    };
    let rise = (thing.span.bottom() - p.z).max(p.z - thing.span.top()).max(0.0);
    plan.hypot(rise)
}

/// Points all over the surface: along edges and rims at all heights, and across lid and floor.
fn surface(thing: &Prism) -> Vec<DVec3> {
    let rim: Vec<DVec2> = match &thing.outline {
        Outline::Circle(c) => (0..360)
            .map(|i| {
                let (sin, cos) = libm::sincos(f64::from(i).to_radians());
                c.centre() + DVec2::new(cos, sin) * c.radius()
            })
            .collect(),
        Outline::Polygon(p) => {
            p.edges().flat_map(|e| (0..24).map(move |i| e.at(f64::from(i) / 24.0))).collect()
        }
    };
    let bounds = thing.outline.bounds();
    let inner = (0..900).map(|i| {
        let share = DVec2::new(f64::from(i % 30), f64::from(i / 30)) / 29.0;
        bounds.low + bounds.size() * share
    });
    let inner: Vec<DVec2> = inner
        .filter(|&p| off(thing, p.extend(thing.span.bottom())) == 0.0)
        .chain(rim.iter().copied())
        .collect();
    let (low, high) = (thing.span.bottom(), thing.span.top());
    let walls =
        rim.iter().flat_map(|&p| (0..=16).map(move |i| p.extend(low + (high - low) * f64::from(i) / 16.0)));
    walls.chain(inner.iter().flat_map(|&p| [p.extend(low), p.extend(high)])).collect()
}

proptest! {
    #![proptest_config(config(600))]

    #[test]
    fn no_point_of_the_surface_is_nearer_than_the_answer(thing in thing(), a in end(), b in end()) {
        match fresnel_clearance(a, b, wave(LONG), &thing) {
            FresnelClearance::Entered { ratio, at } => {
                let excess = ratio * ratio * LONG * 0.5;
                // It is attained on the thing itself, so it is no less than the true least; and no sample is less.
                prop_assert!(off(&thing, at) < 1e-9, "{at} is off by {}", off(&thing, at));
                prop_assert!((detour(a, b, at) - excess).abs() < 1e-9, "{} {excess}", detour(a, b, at));
                for p in surface(&thing) {
                    prop_assert!(detour(a, b, p) >= excess - 1e-9, "{p}: {} less than {excess} at {at}", detour(a, b, p));
                }
                // Either end may be asked first.
                match fresnel_clearance(b, a, wave(LONG), &thing) {
                    FresnelClearance::Entered { ratio: back, .. } => {
                        prop_assert!((back * back - ratio * ratio).abs() * LONG * 0.5 < 1e-9);
                    }
                    other => prop_assert!(false, "{other:?}"),
                }
            }
            FresnelClearance::Crossed { at } => {
                prop_assert!(off(&thing, at) < 1e-7, "{at}");
                prop_assert!(detour(a, b, at) < 1e-7, "{at}");
            }
            FresnelClearance::Clear { ratio } => prop_assert!(false, "{ratio}"),
        }
    }

    #[test]
    fn the_plan_region_lies_close_around_the_zone(
        a in end(),
        b in end(),
        wavelength in 0.01..30.0_f64,
        share in 0.3..1.0_f64,
        (z, h) in (-8.0..6.0_f64, 0.05..9.0_f64),
        picks in prop::collection::vec((0.0..std::f64::consts::TAU, 0.0..1.0_f64), 64),
    ) {
        // Metres instead of millimetres.
        let (a, b) = (a * 300.0, b * 300.0);
        let span = Span::new(z * 300.0, (z + h) * 300.0).unwrap();
        let plan = fresnel_plan(a, b, wave(wavelength), share, &span);
        let excess = 0.5 * wavelength * share * share;
        let apart = a.distance(b);
        let (long, short) = (0.5 * (apart + excess), 0.5 * (excess * (2.0 * apart + excess)).sqrt());
        let along = (b - a).normalize_or(DVec3::X);
        let (side, over) = along.any_orthonormal_pair();
        for (turn, at) in picks {
            // A point on the ellipsoid, and in it.
            let across = (1.0 - (2.0 * at - 1.0).powi(2)).sqrt();
            let p = a.midpoint(b)
                + along * (long * (2.0 * at - 1.0))
                + (side * turn.cos() + over * turn.sin()) * (short * across);
            prop_assert!((detour(a, b, p) - excess).abs() < 1e-6 * (1.0 + excess));
            if span.bottom() <= p.z && p.z <= span.top() {
                let Some(plan) = &plan else { return Err(TestCaseError::fail(format!("{p} has no region"))) };
                let deep = plan.edges().map(|e| (e.to - e.from).normalize().perp_dot(p.truncate() - e.from));
                prop_assert!(deep.fold(f64::INFINITY, f64::min) > -1e-7, "{p} outside {plan:?}");
            }
        }
        // Every corner lies near the zone: a thin column there, as high as the span, comes within it when it is as
        // thick as the polygon may be outside.
        for corner in plan.iter().flat_map(|plan| plan.outer()) {
            let circle = baywright_geometry::Circle::new(*corner, 0.51).unwrap();
            let found = fresnel_clearance(a, b, wave(wavelength), &Prism::new(circle.into(), span));
            let ratio = match found {
                FresnelClearance::Clear { ratio } | FresnelClearance::Entered { ratio, .. } => ratio,
                FresnelClearance::Crossed { .. } => 0.0,
            };
            prop_assert!(ratio <= share * (1.0 + 1e-6), "{corner}: {ratio} not {share}");
        }
    }

    /// In plan: no point of the outline is nearer than the answer, and the answer lies on it.
    #[test]
    fn in_plan_no_point_of_the_outline_is_nearer(thing in thing(), a in end(), b in end()) {
        let (a, b) = (a.truncate(), b.truncate());
        let detour = |p: DVec2| a.distance(p) + p.distance(b) - a.distance(b);
        match fresnel_clearance_in_plan(a, b, wave(LONG), &thing.outline) {
            FresnelClearance::Entered { ratio, at } => {
                let excess = ratio * ratio * LONG * 0.5;
                prop_assert!(baywright_geometry::distance_to_point(&thing.outline, at).gap() < 1e-9, "{at}");
                prop_assert!((detour(at) - excess).abs() < 1e-9, "{} {excess}", detour(at));
                for p in surface(&thing) {
                    prop_assert!(detour(p.truncate()) >= excess - 1e-9, "{p}: {} less than {excess} at {at}", detour(p.truncate()));
                }
            }
            FresnelClearance::Crossed { at } => {
                prop_assert!(baywright_geometry::distance_to_point(&thing.outline, at).gap() < 1e-7, "{at}");
                prop_assert!(detour(at) < 1e-7, "{at}");
            }
            FresnelClearance::Clear { ratio } => prop_assert!(false, "{ratio}"),
        }
    }

    /// What enters the zone reaches the region.
    #[test]
    fn the_plan_region_tells_who_enters(thing in thing(), a in end(), b in end(), wavelength in 0.01..3.0_f64) {
        let region = fresnel_plan(a, b, wave(wavelength), 1.0, &thing.span);
        let entered = !matches!(fresnel_clearance(a, b, wave(wavelength), &thing), FresnelClearance::Clear { .. });
        if entered && a.distance(b) > 0.0 {
            let apart = region.as_ref().map_or(f64::INFINITY, |region| {
                baywright_geometry::distance(&region.clone().into(), &thing.outline).gap()
            });
            prop_assert!(apart < 1e-6, "{apart}");
        }
    }
}
