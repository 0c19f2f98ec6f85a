//! Ways by mirrors in a hall of cabinets: by one mirror among 40 things (wanted: 2 ms), by two among 40 and among 300.
//!
//! Scenes are made by a small fixed generator, so that every run times the same ones.

// A bench may stop with a message.
#![allow(clippy::unwrap_used, missing_docs)]

use std::f64::consts::{FRAC_PI_2, PI};
use std::hint::black_box;

use baywright_geometry::{DVec2, DVec3, Face, PlanPose, Polygon, Prism, Span};
use baywright_radar::paths::{Mirror, Room, mirror_ghosts, target_ghosts};
use criterion::{Criterion, criterion_group, criterion_main};

/// A plain linear congruential generator: the same numbers everywhere.
struct Dice(u64);

impl Dice {
    /// Evenly between two numbers.
    fn roll(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1_u64 << 53) as f64)
    }
}

const SENSOR: DVec3 = DVec3::new(-9000.0, 100.0, 500.0);
const TARGET: DVec3 = DVec3::new(-6000.0, -100.0, 700.0);

/// Cabinets beside a lane in a hall of 24 m by 14 m: five faces each, and the hall's own six.
fn hall(things: usize) -> (Vec<Mirror>, Vec<Prism>) {
    let mut dice = Dice(7);
    let (mut mirrors, mut solids) = (Vec::new(), Vec::new());
    for _ in 0..things {
        let side = if dice.roll(0.0, 1.0) < 0.5 { -1.0 } else { 1.0 };
        let at = DVec2::new(dice.roll(-11_500.0, 11_500.0), side * dice.roll(1200.0, 6500.0));
        let turn = if dice.roll(0.0, 1.0) < 0.7 { 0.0 } else { dice.roll(-PI, PI) };
        let (wide, deep) = (0.5 * dice.roll(200.0, 700.0), 0.5 * dice.roll(200.0, 500.0));
        let high = dice.roll(600.0, 2100.0);
        let place = PlanPose::new(at, turn);
        let ring = [(-wide, -deep), (wide, -deep), (wide, deep), (-wide, deep)];
        let ring = ring.map(|(x, y)| place * DVec2::new(x, y));
        let outline = Polygon::simple(ring.to_vec()).unwrap();
        solids.push(Prism::new(outline.into(), Span::new(0.0, high).unwrap()));
        for (nth, out, width) in [(0.0, wide, deep), (1.0, deep, wide), (2.0, wide, deep), (3.0, deep, wide)]
        {
            let turned = turn + nth * FRAC_PI_2;
            let own = PlanPose::new(DVec2::ZERO, nth * FRAC_PI_2) * DVec2::new(out, 0.0);
            let centre = (place * own).extend(0.5 * high);
            mirrors.push(Mirror::front(Face::new(centre, turned, 0.0, 2.0 * width, high).unwrap()));
        }
        let lid = Face::new(at.extend(high), turn, -FRAC_PI_2, 2.0 * deep, 2.0 * wide).unwrap();
        mirrors.push(Mirror::front(lid));
    }
    for (x, y, z, heading, pitch, width, height) in [
        (12_000.0, 0.0, 2000.0, PI, 0.0, 14_000.0, 4000.0),
        (-12_000.0, 0.0, 2000.0, 0.0, 0.0, 14_000.0, 4000.0),
        (0.0, 7000.0, 2000.0, -FRAC_PI_2, 0.0, 24_000.0, 4000.0),
        (0.0, -7000.0, 2000.0, FRAC_PI_2, 0.0, 24_000.0, 4000.0),
        (0.0, 0.0, 0.0, 0.0, -FRAC_PI_2, 14_000.0, 24_000.0),
        (0.0, 0.0, 4000.0, 0.0, FRAC_PI_2, 14_000.0, 24_000.0),
    ] {
        mirrors.push(Mirror::front(Face::new(DVec3::new(x, y, z), heading, pitch, width, height).unwrap()));
    }
    (mirrors, solids)
}

fn ways(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("ways");
    for things in [40, 300] {
        let (mirrors, solids) = hall(things);
        let blockers: Vec<&Prism> = solids.iter().collect();
        let room = Room { mirrors: &mirrors, blockers: &blockers, longest_mm: 40_000.0 };
        // A scene in which nothing is found would time nothing.
        let (one, two) = (room.singles(SENSOR, TARGET).len(), room.doubles(SENSOR, TARGET).len());
        assert!(one > 4 && two > 10, "{one} {two}");
        group.bench_function(format!("by one mirror, {things} things"), |b| {
            b.iter(|| {
                let mut ways = room.singles(SENSOR, TARGET);
                ways.extend(room.direct(SENSOR, TARGET));
                let around = mirror_ghosts(SENSOR, &room.singles(SENSOR, SENSOR));
                (target_ghosts(SENSOR, black_box(&ways)), around)
            });
        });
        group.sample_size(20);
        group.bench_function(format!("by two mirrors, {things} things"), |b| {
            b.iter(|| {
                let mut ways = room.doubles(SENSOR, TARGET);
                ways.extend(room.direct(SENSOR, TARGET));
                let around = mirror_ghosts(SENSOR, &room.doubles(SENSOR, SENSOR));
                (target_ghosts(SENSOR, black_box(&ways)), around)
            });
        });
    }
    group.finish();
}

criterion_group!(benches, ways);
criterion_main!(benches);
