//! What must hold for every room, crowd of things and eye, however awkwardly they stand.

// A test may stop with a message.
#![allow(clippy::unwrap_used)]

#[allow(dead_code, reason = "shared with the other property tests, each of which needs a part of it")]
mod awkward;

use awkward::{config, polygon};
use baywright_geometry::polygon::signed_area;
use baywright_geometry::{DVec2, Outline, PlanPose, Polygon, Segment, Visibility, visibility};
use proptest::prelude::*;

#[derive(Clone, Debug)]
struct Scene {
    room: Polygon,
    things: Vec<Polygon>,
    eye: DVec2,
}

fn scaled(polygon: &Polygon, k: f64) -> Polygon {
    let all = |ring: &[DVec2]| ring.iter().map(|&p| p * k).collect::<Vec<_>>();
    Polygon::new(all(polygon.outer()), polygon.holes().iter().map(|hole| all(hole)).collect()).unwrap()
}

fn scene() -> impl Strategy<Value = Scene> {
    let place = prop_oneof![
        (-20..21_i32, -20..21_i32, 0..4_i32).prop_map(|(x, y, quarter)| {
            let at = DVec2::new(f64::from(x), f64::from(y)) * 0.5;
            PlanPose::new(at, f64::from(quarter) * std::f64::consts::FRAC_PI_2)
        }),
        (-9.0..9.0_f64, -9.0..9.0_f64, -3.0..3.0_f64)
            .prop_map(|(x, y, heading)| PlanPose::new(DVec2::new(x, y), heading)),
    ];
    let things = prop::collection::vec((polygon(), place), 0..7);
    // Where the eye stands: anywhere, on the grid, or on the k-th corner or edge of all.
    let eye = (0..4_u8, 0..500_usize, -9.0..9.0_f64, -9.0..9.0_f64);
    let whole = (prop_oneof![Just(0.0), -3.0..3.0_f64], prop::sample::select(&[1.0, 1.0, 1e3, 1e-2][..]));
    (polygon(), things, eye, whole).prop_map(|(room, things, (kind, k, x, y), (heading, unit))| {
        let room = scaled(&room, 3.0);
        let things: Vec<Polygon> = things.iter().map(|(thing, place)| thing.placed(place)).collect();
        let edges: Vec<Segment> = std::iter::once(&room).chain(&things).flat_map(|p| p.edges()).collect();
        let edge = edges[k % edges.len()];
        let eye = match kind {
            0 => DVec2::new(x, y),
            1 => DVec2::new(x, y).round(),
            2 => edge.from,
            _ => edge.at(0.5),
        };
        let pose = PlanPose::new(DVec2::new(heading, -heading) * 100.0, heading);
        let place = |p: &Polygon| scaled(&p.placed(&pose), unit);
        Scene { room: place(&room), things: things.iter().map(place).collect(), eye: pose * eye * unit }
    })
}

/// Even-odd over all rings.
fn inside(polygon: &Polygon, p: DVec2) -> bool {
    let crossings = polygon.edges().filter(|e| {
        (e.from.y > p.y) != (e.to.y > p.y)
            && p.x < e.from.x + (p.y - e.from.y) / (e.to.y - e.from.y) * (e.to.x - e.from.x)
    });
    crossings.count() % 2 == 1
}

impl Scene {
    fn seen(&self) -> Visibility {
        let things: Vec<Outline> = self.things.iter().cloned().map(Outline::from).collect();
        visibility(self.eye, &self.room, &things.iter().collect::<Vec<_>>())
    }

    fn size(&self) -> f64 {
        self.room.bounds().size().max_element()
    }

    fn edges(&self) -> impl Iterator<Item = Segment> + '_ {
        std::iter::once(&self.room).chain(&self.things).flat_map(Polygon::edges)
    }

    fn free(&self, p: DVec2) -> bool {
        inside(&self.room, p) && !self.things.iter().any(|thing| inside(thing, p))
    }

    /// How far a ray gets, by trying every edge.
    fn reach(&self, way: DVec2) -> f64 {
        if !self.free(self.eye + way * (1e-6 * self.size())) {
            return 0.0;
        }
        reach(self.eye, way, self.edges(), 1e-6 * self.size())
    }
}

fn reach(eye: DVec2, way: DVec2, edges: impl Iterator<Item = Segment>, from: f64) -> f64 {
    edges
        .filter_map(|e| {
            let along = e.to - e.from;
            let turned = way.perp_dot(along);
            let distance = (e.from - eye).perp_dot(along) / turned;
            let share = (e.from - eye).perp_dot(way) / turned;
            ((0.0..=1.0).contains(&share) && distance > from).then_some(distance)
        })
        .fold(f64::INFINITY, f64::min)
}

fn ring_edges(ring: &[DVec2]) -> impl Iterator<Item = Segment> + '_ {
    (0..ring.len()).map(|i| Segment::new(ring[i], ring[(i + 1) % ring.len()]))
}

proptest! {
    #![proptest_config(config(3000))]

    #[test]
    fn every_ray_ends_where_the_region_does(scene in scene(), rays in prop::collection::vec(0.0..std::f64::consts::TAU, 40)) {
        let ring = match scene.seen() {
            Visibility::Sees(ring) => ring,
            Visibility::EyeOutside => {
                prop_assert!(!inside(&scene.room, scene.eye));
                return Ok(());
            }
            Visibility::EyeInside { thing } => {
                prop_assert!(inside(&scene.things[thing], scene.eye));
                return Ok(());
            }
        };
        let size = scene.size();
        prop_assert!(ring.iter().all(|p| p.is_finite()));
        prop_assert!(ring.is_empty() || signed_area(&ring) > 0.0, "{ring:?}");
        // Anticlockwise about the eye, no corner twice.
        for e in ring_edges(&ring) {
            prop_assert!((e.from - scene.eye).perp_dot(e.to - scene.eye) >= -1e-9 * size * size, "{e:?} {ring:?}");
            prop_assert!(e.length() > 1e-9, "{e:?}");
        }
        for turn in rays {
            let way = |turn: f64| DVec2::new(libm::cos(turn), libm::sin(turn));
            let expected = scene.reach(way(turn));
            // A ray that passes a corner within rounding has no answer.
            let beside = [turn - 1e-6, turn + 1e-6].map(|turn| scene.reach(way(turn)));
            if beside.iter().any(|b| (b - expected).abs() > 1e-2 * expected.max(1e-3 * size)) {
                continue;
            }
            let found = if ring.is_empty() { 0.0 } else { reach(scene.eye, way(turn), ring_edges(&ring), 1e-7 * size) };
            let found = if found.is_finite() { found } else { 0.0 };
            prop_assert!((found - expected).abs() <= 1e-6 * size, "turn {turn}: {found} not {expected}\n{ring:?}");
        }
    }

    /// A corner of the region is seen: a little before it nothing stands in the way.
    #[test]
    fn every_corner_is_seen(scene in scene()) {
        let Visibility::Sees(ring) = scene.seen() else { return Ok(()) };
        for corner in &ring {
            let off = *corner - scene.eye;
            for edge in scene.edges() {
                // Strictly across the sight line, clear of its ends.
                let along = edge.to - edge.from;
                let turned = off.perp_dot(along);
                let share = (edge.from - scene.eye).perp_dot(off) / turned;
                let at = (edge.from - scene.eye).perp_dot(along) / turned;
                let across = (1e-7..1.0 - 1e-7).contains(&share) && (1e-7..1.0 - 1e-7).contains(&at);
                let flat = turned.abs() < 1e-7 * off.length() * along.length();
                prop_assert!(!across || flat, "{corner} behind {edge:?}");
            }
        }
    }

    #[test]
    fn the_order_of_things_and_a_turn_change_nothing(scene in scene(), heading in -3.0..3.0_f64) {
        let Visibility::Sees(ring) = scene.seen() else { return Ok(()) };
        let pose = PlanPose::new(DVec2::new(3.0, 4.0) * scene.size(), heading);
        let things = scene.things.iter().rev().map(|thing| thing.placed(&pose)).collect();
        let moved = Scene { room: scene.room.placed(&pose), things, eye: pose * scene.eye };
        // A turn can carry an eye on a boundary just off it.
        if let Visibility::Sees(turned) = moved.seen() {
            let (a, b) = (signed_area(&ring), signed_area(&turned));
            prop_assert!((a - b).abs() <= 1e-6 * scene.size() * scene.size(), "{a} {b}");
        }
    }
}
