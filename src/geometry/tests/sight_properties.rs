//! What must hold for every eye, target and crowd of things, however awkwardly they stand.

// A test may stop with a message.
#![allow(clippy::unwrap_used)]

#[allow(dead_code, reason = "shared with the other property tests, each of which needs a part of it")]
mod awkward;

use awkward::{config, outline};
use baywright_geometry::blocker::{LineOfSight, first_blocker};
use baywright_geometry::share::{SegmentShare, Share, VisibleFace, segment_share, target_share};
use baywright_geometry::{
    Circle, DVec2, DVec3, Face, Outline, PlanPose, Polygon, Prism, Segment, Span, overlap_area, overlaps,
    sight_shadow_plan,
};
use proptest::prelude::*;

/// A eye, a face and things, all in units of `unit` mm.
#[derive(Clone, Debug)]
struct Scene {
    eye: DVec3,
    face: Face,
    things: Vec<Prism>,
    unit: f64,
}

fn scaled(outline: &Outline, k: f64) -> Outline {
    let all = |ring: &[DVec2]| ring.iter().map(|&p| p * k).collect::<Vec<_>>();
    match outline {
        Outline::Polygon(p) => {
            Polygon::new(all(p.outer()), p.holes().iter().map(|hole| all(hole)).collect()).unwrap().into()
        }
        Outline::Circle(c) => Circle::new(c.centre() * k, c.radius() * k).unwrap().into(),
    }
}

/// A thing on the grid of the scene, or anywhere: about, before, behind and beside eye and face; flush with other
/// things, with the eye, with the face.
fn thing() -> impl Strategy<Value = Prism> {
    let place = prop_oneof![
        (-4..40_i32, -10..11_i32, 0..4_i32).prop_map(|(x, y, quarter)| {
            PlanPose::new(
                DVec2::new(f64::from(x), f64::from(y)),
                f64::from(quarter) * std::f64::consts::FRAC_PI_2,
            )
        }),
        (-4.0..40.0_f64, -10.0..10.0_f64, -3.0..3.0_f64)
            .prop_map(|(x, y, heading)| PlanPose::new(DVec2::new(x, y), heading)),
    ];
    let span = prop_oneof![
        (-4..5_i32, 1..9_i32).prop_map(|(z, h)| (f64::from(z), f64::from(z + h))),
        (-6.0..5.0_f64, 0.1..6.0_f64).prop_map(|(z, h)| (z, z + h)),
    ];
    (outline(), place, span).prop_map(|(outline, place, (low, high))| {
        Prism::new(outline.placed(&place), Span::new(low, high).unwrap())
    })
}

/// The face stands upright at x = 32, is tilted, or lies on the floor; the eye is on the grid or anywhere.
fn scene() -> impl Strategy<Value = Scene> {
    let eye = prop_oneof![
        Just(DVec3::ZERO),
        (-2..3_i32, -2..3_i32, -2..3_i32).prop_map(|(x, y, z)| DVec3::new(x.into(), y.into(), z.into())),
        (-2.0..2.0_f64, -2.0..2.0_f64, -2.0..2.0_f64).prop_map(|(x, y, z)| DVec3::new(x, y, z)),
    ];
    let turn = prop_oneof![
        2 => Just((std::f64::consts::PI, 0.0)),
        1 => Just((0.0, -std::f64::consts::FRAC_PI_2)),
        2 => (2.2..4.0_f64, -1.2..1.2_f64),
    ];
    let size = prop_oneof![Just((8.0, 4.0)), (0.1..12.0_f64, 0.1..12.0_f64)];
    let unit = prop::sample::select(&[0.1, 1.0, 100.0, 1e4][..]);
    (eye, turn, size, unit, prop::collection::vec(thing(), 0..8)).prop_map(
        |(eye, (heading, pitch), (width, height), unit, things)| {
            let low = if pitch == -std::f64::consts::FRAC_PI_2 { -4.0 } else { 0.0 };
            let centre = DVec3::new(32.0, 0.0, low) * unit;
            let things = things
                .iter()
                .map(|thing| {
                    let span = Span::new(thing.span.bottom() * unit, thing.span.top() * unit).unwrap();
                    Prism::new(scaled(&thing.outline, unit), span)
                })
                .collect();
            let face = Face::new(centre, heading, pitch, width * unit, height * unit).unwrap();
            Scene { eye: eye * unit, face, things, unit }
        },
    )
}

impl Scene {
    fn things(&self) -> Vec<&Prism> {
        self.things.iter().collect()
    }

    fn seen(&self) -> Option<VisibleFace> {
        match target_share(self.eye, &self.face, &self.things()) {
            Share::Seen(seen) => Some(seen),
            _ => None,
        }
    }
}

/// The same thing, a round one thicker by what its stand-in polygon may be.
fn grown(thing: &Prism) -> Prism {
    match &thing.outline {
        Outline::Circle(c) => {
            Prism::new(Circle::new(c.centre(), c.radius() + 0.0101).unwrap().into(), thing.span)
        }
        Outline::Polygon(_) => thing.clone(),
    }
}

/// How far inside a convex ring a point lies; negative outside.
fn depth(ring: &[DVec2], p: DVec2) -> f64 {
    (0..ring.len())
        .map(|i| {
            let (a, b) = (ring[i], ring[(i + 1) % ring.len()]);
            (b - a).normalize_or_zero().perp_dot(p - a)
        })
        .fold(f64::INFINITY, f64::min)
}

/// What remains of rounding and of slivers in a share.
const SHARE_SLACK: f64 = 1e-7;

proptest! {
    #![proptest_config(config(1500))]

    #[test]
    fn a_share_adds_up(scene in scene()) {
        let Some(seen) = scene.seen() else { return Ok(()) };
        prop_assert!((0.0..=1.0).contains(&seen.share));
        let area = |ring: &Vec<DVec2>| baywright_geometry::polygon::signed_area(ring);
        let visible: f64 = seen.visible.iter().map(area).sum();
        prop_assert!((visible / scene.face.area() - seen.share).abs() < 1e-9);
        prop_assert!(seen.visible.iter().all(|ring| area(ring) > 0.0));
        prop_assert!(seen.hidden_by.is_empty() == (seen.share == 1.0) || seen.share > 1.0 - SHARE_SLACK);
        prop_assert!(seen.hidden_by.windows(2).all(|w| w[0].share > w[1].share || (w[0].share == w[1].share && w[0].thing < w[1].thing)));
        let worst = seen.hidden_by.first().map_or(0.0, |h| h.share);
        let sum: f64 = seen.hidden_by.iter().map(|h| h.share).sum();
        prop_assert!(worst <= 1.0 - seen.share + SHARE_SLACK, "{seen:?}");
        prop_assert!(sum >= 1.0 - seen.share - SHARE_SLACK, "{seen:?}");
    }

    #[test]
    fn another_thing_never_raises_the_share(scene in scene(), thing in thing()) {
        let Some(before) = scene.seen() else { return Ok(()) };
        let mut more = scene.clone();
        more.things.push(Prism::new(
            scaled(&thing.outline, scene.unit),
            Span::new(thing.span.bottom() * scene.unit, thing.span.top() * scene.unit).unwrap(),
        ));
        let Some(after) = more.seen() else { return Ok(()) };
        prop_assert!(after.share <= before.share + SHARE_SLACK, "{} {}", before.share, after.share);
        // Nor does the order of the things matter.
        more.things.reverse();
        let turned = more.seen().map_or(2.0, |seen| seen.share);
        prop_assert!((turned - after.share).abs() <= SHARE_SLACK, "{} {}", after.share, turned);
    }

    #[test]
    fn moving_everything_changes_nothing(scene in scene(), heading in -3.0..3.0_f64, x in -40.0..40.0_f64) {
        let Some(before) = scene.seen() else { return Ok(()) };
        let pose = PlanPose::new(DVec2::new(x, 7.0 - x) * scene.unit, heading);
        let rise = 0.3 * x * scene.unit;
        let lift = |p: DVec3| (pose * p.truncate()).extend(p.z + rise);
        let face = &scene.face;
        let normal = face.normal();
        let pitch = libm::asin(-normal.z.clamp(-1.0, 1.0));
        let plan = face.left().truncate();
        let own = libm::atan2(-plan.x, plan.y);
        let moved = Scene {
            eye: lift(scene.eye),
            face: Face::new(lift(face.centre()), own + heading, pitch, face.width(), face.height()).unwrap(),
            things: scene
                .things
                .iter()
                .map(|thing| Prism::new(thing.outline.placed(&pose), thing.span.raised(rise)))
                .collect(),
            unit: scene.unit,
        };
        let Some(after) = moved.seen() else { return Ok(()) };
        // A eye that touches a thing may be carried a rounding's width off it.
        if first_blocker(scene.eye, scene.eye, &scene.things()) != LineOfSight::Clear {
            return Ok(());
        }
        // Round things: the tangents that stand in for them start elsewhere on the rim.
        let thick = Scene { things: scene.things.iter().map(grown).collect(), ..scene.clone() };
        let least = thick.seen().map_or(0.0, |seen| seen.share.min(before.share));
        let thick = Scene { things: moved.things.iter().map(grown).collect(), ..moved.clone() };
        let least_after = thick.seen().map_or(0.0, |seen| seen.share.min(after.share));
        prop_assert!(after.share >= least - 1e-6 && before.share >= least_after - 1e-6, "{} {}", before.share, after.share);
    }

    /// Rays, each asked of the first-blocker query, which knows nothing of shadows.
    #[test]
    fn every_ray_agrees(scene in scene(), rays in prop::collection::vec((-0.5..0.5_f64, -0.5..0.5_f64), 24)) {
        let Some(seen) = scene.seen() else { return Ok(()) };
        let grown: Vec<Prism> = scene.things.iter().map(grown).collect();
        let margin = 1e-6 * (scene.face.width() + scene.face.height());
        for (u, v) in rays {
            let p = DVec2::new(u * scene.face.width(), v * scene.face.height());
            let clear = seen.visible.iter().map(|ring| depth(ring, p)).fold(f64::NEG_INFINITY, f64::max);
            let to = scene.face.point(p.x, p.y);
            // What stands in the plane of the face, or beyond, does not count.
            let to = to + (scene.eye - to) * 1e-9;
            if clear > margin {
                let found = first_blocker(scene.eye, to, &scene.things());
                prop_assert!(!matches!(found, LineOfSight::Blocked { .. } | LineOfSight::EyeInside { .. } | LineOfSight::TargetInside { .. }), "{p} {found:?}");
            } else if clear < -margin {
                let found = first_blocker(scene.eye, to, &grown.iter().collect::<Vec<_>>());
                prop_assert!(matches!(found, LineOfSight::Blocked { .. } | LineOfSight::EyeInside { .. } | LineOfSight::TargetInside { .. }), "{p} {found:?}");
            }
        }
    }

    #[test]
    fn the_plan_region_tells_who_hides(scene in scene()) {
        for thing in &scene.things {
            let Share::Seen(seen) = target_share(scene.eye, &scene.face, &[thing]) else { continue };
            let region = sight_shadow_plan(scene.eye, &scene.face, &thing.span);
            let area = region.clone().map_or(0.0, |region| overlap_area(&region.into(), &thing.outline));
            if area > 1e-3 * scene.unit * scene.unit {
                prop_assert!(seen.share < 1.0, "{area} shared, nothing hidden");
            }
            if seen.share < 1.0 - 1e-6 {
                prop_assert!(region.is_some_and(|region| overlaps(&region.into(), &grown(thing).outline)), "{}", seen.share);
            }
        }
    }

    /// Things that reach far above and below, an upright face, a level eye: space and plan are one question.
    #[test]
    fn plan_and_space_agree(scene in scene(), turn in 2.2..4.0_f64) {
        let tall = Span::new(-1e3 * scene.unit, 1e3 * scene.unit).unwrap();
        let things: Vec<Prism> = scene.things.iter().map(|thing| Prism::new(thing.outline.clone(), tall)).collect();
        let outlines: Vec<&Outline> = things.iter().map(|thing| &thing.outline).collect();
        let centre = DVec3::new(32.0 * scene.unit, 0.0, 0.0);
        let face = Face::new(centre, turn, 0.0, scene.face.width(), scene.face.height()).unwrap();
        let [right, left, ..] = face.corners().map(|corner| corner.truncate());
        let all: Vec<&Prism> = things.iter().collect();
        let space = target_share(scene.eye, &face, &all);
        let plan = segment_share(scene.eye.truncate(), &Segment::new(right, left), &outlines);
        match (space, plan) {
            (Share::Seen(seen), SegmentShare::Seen(in_plan)) => {
                let share = in_plan.share;
                let round = outlines.iter().any(|o| matches!(o, Outline::Circle(_)));
                let thick: Vec<Outline> = things.iter().map(|thing| grown(thing).outline).collect();
                let thick: Vec<&Outline> = thick.iter().collect();
                let least = match segment_share(scene.eye.truncate(), &Segment::new(right, left), &thick) {
                    SegmentShare::Seen(seen) => seen.share,
                    _ => 0.0,
                };
                // Where the eye touches a thing, rounding turns its shadow a little.
                let touches = first_blocker(scene.eye, scene.eye, &all) != LineOfSight::Clear;
                let slack = if touches { 1e-4 } else { SHARE_SLACK };
                prop_assert!(seen.share <= share + slack, "{} {}", seen.share, share);
                prop_assert!(seen.share >= least - slack, "{} {}", seen.share, least);
                prop_assert!(round || seen.hidden_by.len() == in_plan.hidden_by.len() || in_plan.hidden_by.iter().any(|h| h.share < 1e-6));
            }
            (Share::EyeInside { thing: a }, SegmentShare::EyeInside { thing: b }) => prop_assert_eq!(a, b),
            (Share::Behind, _) => {}
            (space, plan) => prop_assert!(false, "{space:?} {plan:?}"),
        }
    }
}
