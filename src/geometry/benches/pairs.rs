//! 10,000 pairs of plan shapes in a bay of 12 m by 8 m: distance and overlap area, beside two peers on the same data.
//!
//! The peers: `geo` (Euclidean distance of polygons, area of the boolean intersection) and `parry2d-f64` (distance of
//! convex polygons or compounds of our convex pieces, area of the polygon intersection).

// A bench may stop with a message.
#![allow(clippy::unwrap_used, missing_docs)]

use std::f64::consts::TAU;
use std::hint::black_box;

use baywright_geometry::{
    DVec2, Outline, PlanPose, Polygon, SeparatingMoves, distance, overlap_area, overlaps, separating_moves,
};
use criterion::{Criterion, criterion_group, criterion_main};
use geo::{Area, BooleanOps, Distance, Euclidean};
use parry2d_f64::math::{Pose, Vector};
use parry2d_f64::shape::{Compound, ConvexPolygon, SharedShape};

const PAIRS: usize = 10_000;

/// A small generator of our own (Knuth's MMIX constants), so that the data never change.
struct Dice(u64);

impl Dice {
    /// Uniform in 0 to 1.
    fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.roll()
    }
}

/// A third rectangles, a third L-shapes, a third stars of 5 to 12 corners, half of those with dents; 0.2 m to 5 m.
fn shape(dice: &mut Dice) -> Polygon {
    let (w, h) = (dice.between(200.0, 5000.0), dice.between(200.0, 2000.0));
    let corners: Vec<DVec2> = match (dice.roll() * 3.0) as u8 {
        0 => [(0., 0.), (w, 0.), (w, h), (0., h)].map(DVec2::from).to_vec(),
        1 => {
            let (x, y) = (w * dice.between(0.2, 0.8), h * dice.between(0.2, 0.8));
            [(0., 0.), (w, 0.), (w, y), (x, y), (x, h), (0., h)].map(DVec2::from).to_vec()
        }
        _ => {
            let n = 5 + (dice.roll() * 8.0) as usize;
            let dented = dice.roll() < 0.5;
            (0..n)
                .map(|i| {
                    let (sin, cos) = libm::sincos(TAU * i as f64 / n as f64);
                    let reach = if dented { dice.between(0.5, 1.0) } else { 1.0 };
                    DVec2::new(w * cos, h * sin) * (0.5 * reach)
                })
                .collect()
        }
    };
    Polygon::simple(corners).unwrap()
}

/// A third of the pairs on top of each other, a third near, a third anywhere in the bay.
fn pairs() -> Vec<(Polygon, Polygon)> {
    let mut dice = Dice(20_240_229);
    (0..PAIRS)
        .map(|i| {
            let at = DVec2::new(dice.between(0.0, 12_000.0), dice.between(0.0, 8_000.0));
            let a = shape(&mut dice).placed(&PlanPose::new(at, dice.between(0.0, TAU)));
            let reach = [1000.0, 3000.0, 12_000.0][i % 3];
            let off = DVec2::new(dice.between(-reach, reach), dice.between(-reach, reach));
            let b = shape(&mut dice).placed(&PlanPose::new(at + off, dice.between(0.0, TAU)));
            (a, b)
        })
        .collect()
}

fn to_geo(p: &Polygon) -> geo::Polygon<f64> {
    let ring = |ring: &[DVec2]| geo::LineString::from(ring.iter().map(|p| (p.x, p.y)).collect::<Vec<_>>());
    geo::Polygon::new(ring(p.outer()), Vec::new())
}

fn to_vectors(ring: &[DVec2]) -> Vec<Vector> {
    ring.iter().map(|p| Vector::new(p.x, p.y)).collect()
}

fn to_parry(p: &Polygon) -> SharedShape {
    let convex = |ring: &[DVec2]| {
        SharedShape::new(ConvexPolygon::from_convex_polyline_unmodified(to_vectors(ring)).unwrap())
    };
    if p.is_convex() {
        convex(p.outer())
    } else {
        SharedShape::new(Compound::new(p.pieces().map(|r| (Pose::IDENTITY, convex(r))).collect()))
    }
}

fn parry_area(a: &[Vector], b: &[Vector]) -> f64 {
    let mut area = 0.0;
    let mut ring: Vec<DVec2> = Vec::new();
    // A failure to trace the intersection counts as no area: the peer is timed here, not judged.
    let _ = parry2d_f64::transformation::polygons_intersection(a, b, |p, q| match (p, q) {
        (Some(at), _) => {
            let p = at.to_point(a);
            ring.push(DVec2::new(p.x, p.y));
        }
        (None, Some(at)) => {
            let p = at.to_point(b);
            ring.push(DVec2::new(p.x, p.y));
        }
        (None, None) => {
            area += baywright_geometry::polygon::signed_area(&ring).abs();
            ring.clear();
        }
    });
    area
}

fn bench(c: &mut Criterion) {
    let pairs = pairs();
    let ours: Vec<(Outline, Outline)> =
        pairs.iter().map(|(a, b)| (a.clone().into(), b.clone().into())).collect();
    let geos: Vec<_> = pairs.iter().map(|(a, b)| (to_geo(a), to_geo(b))).collect();
    let shapes: Vec<_> = pairs.iter().map(|(a, b)| (to_parry(a), to_parry(b))).collect();
    let rings: Vec<_> = pairs.iter().map(|(a, b)| (to_vectors(a.outer()), to_vectors(b.outer()))).collect();

    // The answers must agree before their times mean anything.
    let mut overlapping = 0;
    for ((a, b), (p, q)) in ours.iter().zip(&geos) {
        let (area, other) = (overlap_area(a, b), p.intersection(q).unsigned_area());
        assert!((area - other).abs() < 1.0, "area {area} and {other}");
        let (gap, other) = (distance(a, b).gap(), Euclidean.distance(p, q));
        assert!((gap - other).abs() < 1e-6, "distance {gap} and {other}");
        overlapping += usize::from(overlaps(a, b));
    }
    let share = overlapping * 100 / PAIRS;
    assert!((20..60).contains(&share), "{share} % of the pairs overlap");

    let mut group = c.benchmark_group("10000 pairs");
    group.sample_size(20);
    let ours_both = |(a, b): &(Outline, Outline)| distance(a, b).gap() + overlap_area(a, b);
    group.bench_function("distance and area, ours", |x| {
        x.iter(|| black_box(&ours).iter().map(ours_both).sum::<f64>());
    });
    group.bench_function("distance and area, geo", |x| {
        let both = |(a, b): &(geo::Polygon<f64>, geo::Polygon<f64>)| {
            Euclidean.distance(a, b) + a.intersection(b).unsigned_area()
        };
        x.iter(|| black_box(&geos).iter().map(both).sum::<f64>());
    });
    let parry_distance = |(a, b): &(SharedShape, SharedShape)| -> f64 {
        let at = Pose::IDENTITY;
        parry2d_f64::query::distance(&at, a.as_ref(), &at, b.as_ref()).map_or(0.0, |d| d.distance)
    };
    group.bench_function("distance and area, parry2d", |x| {
        x.iter(|| {
            let gaps: f64 = black_box(&shapes).iter().map(parry_distance).sum();
            gaps + black_box(&rings).iter().map(|(a, b)| parry_area(a, b)).sum::<f64>()
        });
    });
    group.bench_function("distance, ours", |x| {
        x.iter(|| black_box(&ours).iter().map(|(a, b)| distance(a, b).gap()).sum::<f64>());
    });
    group.bench_function("distance, geo", |x| {
        x.iter(|| black_box(&geos).iter().map(|(a, b)| Euclidean.distance(a, b)).sum::<f64>());
    });
    group.bench_function("distance, parry2d", |x| {
        x.iter(|| black_box(&shapes).iter().map(parry_distance).sum::<f64>());
    });
    group.bench_function("area, ours", |x| {
        x.iter(|| black_box(&ours).iter().map(|(a, b)| overlap_area(a, b)).sum::<f64>());
    });
    group.bench_function("area, geo", |x| {
        x.iter(|| black_box(&geos).iter().map(|(a, b)| a.intersection(b).unsigned_area()).sum::<f64>());
    });
    group.bench_function("separating moves, ours", |x| {
        let length = |(a, b): &(Outline, Outline)| match separating_moves(&[a], b) {
            SeparatingMoves::AlreadyApart => 0.0,
            SeparatingMoves::Moves { length, .. } => length,
        };
        x.iter(|| black_box(&ours).iter().map(length).sum::<f64>());
    });
    group.finish();
}

criterion_group!(benches, bench);
criterion_main!(benches);
