//! Questions in plan only, against walks along the line of sight that know nothing of shadows, edges' crossings or
//! events: every step asks, by its own even-odd rule, whether it stands inside a thing.

// A test may stop with a message.
#![allow(clippy::unwrap_used)]

#[allow(dead_code, reason = "shared with the other property tests, each of which needs a part of it")]
mod awkward;

use awkward::{config, outline};
use baywright_geometry::{
    DVec2, LineOfSight, Outline, PlanPose, Segment, SegmentShare, Stretch, first_blocker_in_plan,
    segment_share,
};
use proptest::prelude::*;

/// Steps of a walk.
const STEPS: u32 = 4000;

/// What rounding may make of a place, mm: the shapes are a few millimetres large.
const SLACK_MM: f64 = 1e-7;

#[derive(Clone, Debug)]
struct Scene {
    eye: DVec2,
    target: Segment,
    things: Vec<Outline>,
}

/// Eye and target on the grid or anywhere; things about, before and beyond them.
fn scene() -> impl Strategy<Value = Scene> {
    let grid = |x: i32, y: i32| DVec2::new(x.into(), y.into());
    let place = prop_oneof![
        (-4..24_i32, -10..11_i32, 0..4_i32).prop_map(move |(x, y, quarter)| {
            PlanPose::new(grid(x, y), f64::from(quarter) * std::f64::consts::FRAC_PI_2)
        }),
        (-4.0..24.0_f64, -10.0..10.0_f64, -3.0..3.0_f64)
            .prop_map(|(x, y, heading)| PlanPose::new(DVec2::new(x, y), heading)),
    ];
    let thing = (outline(), place).prop_map(|(outline, place)| outline.placed(&place));
    let eye = prop_oneof![
        Just(DVec2::ZERO),
        (-3..4_i32, -3..4_i32).prop_map(move |(x, y)| grid(x, y)),
        (-3.0..3.0_f64, -3.0..3.0_f64).prop_map(|(x, y)| DVec2::new(x, y)),
    ];
    let target = prop_oneof![
        Just(Segment::new(DVec2::new(20.0, -4.0), DVec2::new(20.0, 4.0))),
        (12.0..24.0_f64, -6.0..6.0_f64, 12.0..24.0_f64, -6.0..6.0_f64)
            .prop_map(|(a, b, c, d)| Segment::new(DVec2::new(a, b), DVec2::new(c, d))),
    ];
    (eye, target, prop::collection::vec(thing, 0..6)).prop_map(|(eye, target, things)| Scene {
        eye,
        target,
        things,
    })
}

impl Scene {
    fn things(&self) -> Vec<&Outline> {
        self.things.iter().collect()
    }
}

/// How deep a point lies in a shape, by even-odd and the distance to its edges; negative outside.
fn depth(outline: &Outline, p: DVec2) -> f64 {
    match outline {
        Outline::Circle(circle) => circle.radius() - p.distance(circle.centre()),
        Outline::Polygon(polygon) => {
            let (mut inside, mut near) = (false, f64::INFINITY);
            for edge in polygon.edges() {
                let (a, b) = (edge.from, edge.to);
                inside ^= (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
                let along = b - a;
                let share = ((p - a).dot(along) / along.length_squared()).clamp(0.0, 1.0);
                near = near.min((a + along * share).distance(p));
            }
            if inside { near } else { -near }
        }
    }
}

/// The first step of a walk that stands deeper than rounding in something, as a share of the way.
fn walk(eye: DVec2, to: DVec2, things: &[Outline]) -> Option<f64> {
    (0..=STEPS)
        .map(|i| f64::from(i) / f64::from(STEPS))
        .find(|&share| things.iter().any(|thing| depth(thing, eye.lerp(to, share)) > SLACK_MM))
}

proptest! {
    #![proptest_config(config(400))]

    #[test]
    fn no_step_stands_in_a_thing_before_the_first_blocker(scene in scene(), share in 0.0..1.0_f64) {
        let to = scene.target.at(share);
        let length = scene.eye.distance(to);
        let walked = walk(scene.eye, to, &scene.things);
        match first_blocker_in_plan(scene.eye, to, &scene.things()) {
            LineOfSight::EyeInside { thing } => prop_assert!(depth(&scene.things[thing], scene.eye) > 0.0),
            LineOfSight::TargetInside { thing } => prop_assert!(depth(&scene.things[thing], to) > 0.0),
            LineOfSight::Blocked { thing, at, distance } => {
                prop_assert!(walked.is_none_or(|share| share * length > distance - SLACK_MM), "{walked:?} before {distance}");
                prop_assert!((scene.eye.distance(at) - distance).abs() < 1e-9);
                prop_assert!(depth(&scene.things[thing], at).abs() < SLACK_MM, "it is entered at its boundary");
                // Somewhere beyond, the line is inside what it entered.
                let way = (to - scene.eye) / length;
                let beyond = (0..60).map(|i| at + way * (1e-9 * 1.5_f64.powi(i)).min(to.distance(at)));
                let deepest = beyond.map(|p| depth(&scene.things[thing], p)).fold(0.0, f64::max);
                prop_assert!(deepest > 1e-10, "{deepest}");
            }
            LineOfSight::Grazing { thing, at } => {
                prop_assert!(walked.is_none(), "{walked:?}");
                prop_assert!(depth(&scene.things[thing], at).abs() < SLACK_MM);
            }
            LineOfSight::Clear => prop_assert!(walked.is_none(), "{walked:?}"),
        }
    }

    /// The stretches are the share, in order and apart, together and for each thing alone; and a walk to any point of the
    /// target, clear of their ends, meets something exactly if the point lies in one of them.
    #[test]
    fn hidden_stretches_are_what_the_share_leaves(scene in scene(), points in prop::collection::vec(0.0..1.0_f64, 12)) {
        let SegmentShare::Seen(seen) = segment_share(scene.eye, &scene.target, &scene.things()) else { return Ok(()) };
        let sum = |all: &[Stretch]| all.iter().map(Stretch::share).sum::<f64>();
        prop_assert!((sum(&seen.hidden) + seen.share - 1.0).abs() < 1e-8, "{seen:?}");
        let within = |inner: &Stretch| seen.hidden.iter().any(|own| own.from <= inner.from && inner.to <= own.to);
        for hider in &seen.hidden_by {
            prop_assert!((sum(&hider.hidden) - hider.share).abs() < 1e-12, "{hider:?}");
            prop_assert!(hider.hidden.iter().all(within), "{seen:?}");
        }
        for all in seen.hidden_by.iter().map(|hider| &hider.hidden).chain([&seen.hidden]) {
            prop_assert!(all.iter().all(|own| 0.0 <= own.from && own.from < own.to && own.to <= 1.0), "{all:?}");
            prop_assert!(all.windows(2).all(|pair| pair[0].to < pair[1].from), "{all:?}");
        }
        for share in points {
            // What stands on the target's line, or beyond it, does not count; nor does what the eye touches.
            let to = scene.target.at(share);
            let near_end = |own: &Stretch| (own.from - share).abs() < 1e-3 || (own.to - share).abs() < 1e-3;
            if seen.hidden.iter().any(near_end) {
                continue;
            }
            let hidden = seen.hidden.iter().any(|own| own.from < share && share < own.to);
            let before = to + (scene.eye - to) * 1e-6;
            let walked = walk(scene.eye, before, &scene.things);
            if walked.is_some() {
                prop_assert!(hidden, "{share}: {walked:?} {seen:?}");
            } else if hidden {
                // A thing thinner than a step: the exact query finds it.
                let found = first_blocker_in_plan(scene.eye, before, &scene.things());
                prop_assert!(matches!(found, LineOfSight::Blocked { .. } | LineOfSight::TargetInside { .. }), "{share}: {found:?} {seen:?}");
            }
        }
    }
}
