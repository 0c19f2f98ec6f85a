//! Echoes of 1,000 faces, 200 columns and 20 corner reflectors, once over; `echoes.py` beside it does the same in numpy and scipy.
//!
//! Scenes are made by a small fixed generator, the same in both, and both tell the sum of their levels, so that they time the same
//! work.

// A bench may stop with a message.
#![allow(clippy::unwrap_used, clippy::print_stderr, missing_docs)]

use baywright_geometry::{DVec3, Face, wavelength};
use baywright_radar::cylinder::{self, Cylinder};
use baywright_radar::face;
use baywright_radar::trihedral::{self, Mouth, Trihedral};
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

fn echoes(criterion: &mut Criterion) {
    let wave = wavelength(77e9).unwrap();
    let mut dice = Dice(7);
    let faces: Vec<(Face, DVec3)> = (0..1000)
        .map(|_| {
            let (w, h) = (dice.roll(100.0, 1800.0), dice.roll(100.0, 1800.0));
            let sensor =
                DVec3::new(dice.roll(800.0, 6000.0), dice.roll(-1500.0, 1500.0), dice.roll(-900.0, 900.0));
            (Face::new(DVec3::ZERO, 0.0, 0.0, w, h).unwrap(), sensor)
        })
        .collect();
    let columns: Vec<(Cylinder, DVec3)> = (0..200)
        .map(|_| {
            let (a, h) = (dice.roll(20.0, 300.0), dice.roll(200.0, 2200.0));
            let sensor = DVec3::new(a + dice.roll(800.0, 6000.0), 0.0, dice.roll(-1500.0, 1500.0));
            (Cylinder::new(DVec3::ZERO, DVec3::Z, a, h).unwrap(), sensor)
        })
        .collect();
    let corners: Vec<(Trihedral, DVec3)> = (0..20)
        .map(|_| {
            let a = dice.roll(50.0, 200.0);
            let aside = DVec3::new(1.0, dice.roll(-0.3, 0.3), dice.roll(-0.3, 0.3)).normalize();
            let of = Trihedral::looking(DVec3::ZERO, DVec3::X, a, Mouth::Triangular).unwrap();
            (of, aside * dice.roll(1200.0, 6000.0))
        })
        .collect();
    let by_faces =
        || faces.iter().filter_map(|(of, at)| face::echo(of, *at, wave)).map(|it| it.ideal_dbsm).sum::<f64>();
    let by_columns = || {
        columns
            .iter()
            .filter_map(|(of, at)| cylinder::echo(of, *at, wave))
            .map(|it| it.ideal_dbsm)
            .sum::<f64>()
    };
    let by_corners = || {
        corners
            .iter()
            .filter_map(|(of, at)| trihedral::echo(of, *at, wave))
            .map(|it| it.ideal_dbsm)
            .sum::<f64>()
    };
    eprintln!("levels: {:.6} {:.6} {:.6}", by_faces(), by_columns(), by_corners());
    let mut group = criterion.benchmark_group("echoes");
    group.sample_size(30);
    group.bench_function("1000 faces", |b| b.iter(by_faces));
    group.bench_function("200 columns", |b| b.iter(by_columns));
    group.bench_function("20 corner reflectors", |b| b.iter(by_corners));
    group.bench_function("all of them", |b| b.iter(|| by_faces() + by_columns() + by_corners()));
    group.finish();
}

criterion_group!(benches, echoes);
criterion_main!(benches);
