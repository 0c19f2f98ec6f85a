//! How long an answer takes: the live checks run in the drag's own frame.
//!
//! `judge` is the findings alone, `assess` adds the cures with what they would cause, and the promise.
//! What the hand asks beside that in each frame of a drag comes after.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

#[path = "../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

use baywright_planner::echoes::{With, seen};
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::hand::{gaps, measuring_point, snapped, wall_gaps};
use baywright_planner::model::{Arrangement, Exclusion, HeightsFrom, KeepClear, Known, Place, ZoneFrame};
use baywright_planner::*;
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use support::{cabinet, clear, column, rectangle, span};

/// A bay with `count` things along its walls and a tenth of them, ten at most, in the way of something. Three zones, one sensor.
fn bay(count: usize) -> Arrangement {
    let mut arrangement = clear();
    // A hall large enough that the things stand side by side, as things do.
    let length = (400.0 * count as f64 + 1_000.0).max(12_000.0);
    arrangement.bay.room = rectangle((0.0, 0.0), (length, 6_000.0));
    let zone = |id: &str, low, high, frame| KeepClear {
        id: id.into(),
        frame,
        outline: rectangle(low, high).into(),
        span: span(0.0, 1_500.0),
        heights_from: HeightsFrom::Floor,
        excludes: Exclusion::Metal,
    };
    arrangement.aiming.zones = vec![
        zone("beam", (900.0, -1_500.0), (4_800.0, 1_500.0), ZoneFrame::Vehicle),
        zone("behind", (-1_500.0, -1_500.0), (0.0, 1_500.0), ZoneFrame::Target("ahead".into())),
        zone("near sensor", (0.0, -300.0), (1_000.0, 300.0), ZoneFrame::Sensor),
    ];
    let in_the_way = (count / 10).min(10);
    for i in 0..count {
        let thing = if i < in_the_way {
            let at = (5_200.0 + 450.0 * i as f64, if i % 2 == 0 { 4_450.0 } else { 1_600.0 });
            cabinet(&format!("cabinet {i}"), at, 400.0, 350.0)
        } else {
            let along = 300.0 + 800.0 * ((i - in_the_way) / 2) as f64;
            let y = if i % 2 == 0 { 5_700.0 } else { 300.0 };
            if i % 5 == 0 {
                column(&format!("column {i}"), (along, y), 300.0)
            } else {
                cabinet(&format!("cabinet {i}"), (along, y), 600.0, 450.0)
            }
        };
        let turned = PlanPose::new(thing.place.at.origin(), 0.02 * (i % 7) as f64);
        arrangement.bay.things.push(baywright_planner::model::Thing {
            place: Place { at: turned, known: Known::Taped },
            ..thing
        });
    }
    arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_000.0), 0.01);
    arrangement
}

fn answers(criterion: &mut Criterion) {
    for count in [40, 300, 1_000] {
        let arrangement = bay(count);
        let stops = judge(&arrangement).count(baywright_planner::Severity::Stops);
        let mut group = criterion.benchmark_group(format!("{count} things, {stops} stops"));
        group.bench_function("judge", |b| b.iter(|| judge(black_box(&arrangement))));
        group.bench_function("assess", |b| b.iter(|| assess(black_box(&arrangement))));
        group.finish();
    }
}

/// What the hand asks in each frame of a drag: a thing in the crowd, and the car, which is of as many solids as any.
fn in_hand(criterion: &mut Criterion) {
    for count in [40, 300, 1_000] {
        let mut arrangement = bay(count);
        let nose = [(-3_400.0, 300.0), (850.0, 300.0), (850.0, 700.0), (700.0, 850.0), (-100.0, 950.0)];
        let tail = [(-800.0, 1_450.0), (-2_200.0, 1_500.0), (-3_100.0, 1_200.0), (-3_400.0, 900.0)];
        arrangement.vehicle.outline_side = nose.into_iter().chain(tail).map(DVec2::from).collect();
        arrangement.vehicle.make_solids();
        let scene = judge(&arrangement).scene;
        let thing = arrangement.bay.things.get(count / 2).unwrap();
        let things = [
            ("a thing", Subject::Thing(thing.id.clone()), thing.place.at),
            ("the car", Subject::Car, arrangement.parked),
        ];
        for (name, subject, place) in things {
            let wanted = place.shifted(DVec2::new(13.0, -7.0));
            let mut group = criterion.benchmark_group(format!("{count} things, {name} in hand"));
            group.bench_function("gaps", |b| b.iter(|| gaps(black_box(&arrangement), &scene, &subject, 5)));
            group.bench_function("snapped", |b| {
                b.iter(|| snapped(black_box(&arrangement), &scene, &subject, wanted, 60.0));
            });
            group.bench_function("wall gaps", |b| {
                b.iter(|| wall_gaps(black_box(&arrangement), &scene, &subject))
            });
            group.bench_function("measuring point", |b| {
                b.iter(|| measuring_point(black_box(&arrangement), &scene, wanted.origin(), 80.0));
            });
            group.finish();
        }
    }
}

/// What the radar would see: what findings are made of in each frame, what the list shows, and what is worked out beside the frame.
fn echoes(criterion: &mut Criterion) {
    for count in [40, 300, 1_000] {
        let arrangement = bay(count);
        let scene = judge(&arrangement).scene;
        let mut group = criterion.benchmark_group(format!("{count} things, echoes"));
        for (name, with) in [
            ("what matters", With::WhatMatters),
            ("by one mirror", With::OneMirror),
            ("by two", With::TwoMirrors),
        ] {
            if count > 300 && with == With::TwoMirrors {
                continue;
            }
            group.bench_function(name, |b| b.iter(|| seen(black_box(&arrangement), &scene, with)));
        }
        group.finish();
    }
}

criterion_group!(benches, answers, in_hand, echoes);
criterion_main!(benches);
