//! A way in through a hall of 20 by 12 m with 40 things in it.
//!
//! Wanted: an answer within a few tenths of a second, also where none is found. The halls are made by a small fixed generator.

// A bench may stop with a message.
#![allow(clippy::unwrap_used, missing_docs)]

use std::f64::consts::{FRAC_PI_2, TAU};
use std::hint::black_box;

use baywright_geometry::way_in::{Car, Goal, Limits, Question, Start, Turning, way_in};
use baywright_geometry::{DVec2, PlanPose, Region, Segment};
use criterion::{Criterion, criterion_group, criterion_main};

/// A plain linear congruential generator: the same numbers everywhere.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 11) as f64 / (1_u64 << 53) as f64)
    }
}

fn rectangle(x: (f64, f64), y: (f64, f64)) -> Vec<DVec2> {
    [(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)].map(DVec2::from).to_vec()
}

fn bench(c: &mut Criterion) {
    let outline = rectangle((-3400.0, 810.0), (-872.5, 872.5));
    let car = Car::new(&[outline], 2550.0, Turning::InnerRadius { radius: 4000.0 }).unwrap();
    let rings = [
        rectangle((0.0, 20e3), (0.0, 12e3)),
        rectangle((-301.0, 1.0), (4000.0, 7000.0)),
        rectangle((-9e3, -300.0), (0.0, 12e3)),
    ];
    let floor = Region::left(&rings, &[]);
    let mut dice = Dice(7);
    // Along the walls and among them, but none before the door and at the goal.
    let mut obstacles = Vec::new();
    while obstacles.len() < 40 {
        let at = DVec2::new(dice.roll(3e3, 20e3), dice.roll(0.0, 12e3));
        let own = PlanPose::new(at, dice.roll(0.0, TAU));
        if at.distance(DVec2::new(15e3, 8e3)) > 4e3 && (at.y - 5.5e3).abs() > 2e3 {
            let (w, h) = (dice.roll(100.0, 600.0), dice.roll(100.0, 600.0));
            let ring = rectangle((-w, w), (-h, h));
            obstacles.push(ring.into_iter().map(|p| own * p).collect::<Vec<_>>());
        }
    }
    let sill = Segment::new(DVec2::new(0.0, 4000.0), DVec2::new(0.0, 7000.0));
    let starts = [Start { pose: PlanPose::new(DVec2::new(-1500.0, 5500.0), 0.0), sill }];
    let pillars: Vec<Vec<DVec2>> = (0..6)
        .map(|i| rectangle((10e3, 10.3e3), (2e3 * f64::from(i) + 300.0, 2e3 * f64::from(i) + 500.0)))
        .collect();
    let mut group = c.benchmark_group("a way in, 40 things");
    group.sample_size(10);
    for (name, heading, things) in [
        ("straight ahead", 0.0, &obstacles),
        ("across", FRAC_PI_2, &obstacles),
        ("across, behind a row of pillars", FRAC_PI_2, &pillars),
    ] {
        let pose = PlanPose::new(DVec2::new(15e3, 8e3), heading);
        let goal = Goal { pose, slack: 30.0, slack_heading: 0.009 };
        let question = Question {
            car: &car,
            obstacles: things,
            meets: &[],
            floor: &floor,
            keep: 50.0,
            starts: &starts,
            goal,
            limits: Limits { most_places: 6_000, ..Limits::default() },
        };
        group.bench_function(name, |x| x.iter(|| way_in(black_box(&question), &|| false)));
    }
    group.finish();
}

criterion_group!(benches, bench);
criterion_main!(benches);
