//! How long it takes to find where a car can stand: for the heading in hand, for all of them, and for the best spot.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

#[path = "../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

#[path = "../tests/place/areas.rs"]
#[allow(dead_code, unused_imports)]
mod areas;

use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::model::{Arrangement, Exclusion, HeightsFrom, KeepClear, LevelPoint, ZoneFrame};
use baywright_planner::place::{Margin, Search, best_spots};
use baywright_planner::*;
use criterion::{Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use support::{cabinet, clear, column, rectangle, span};

/// The clear bay's set-up with a body of many slabs, mirrors and tyres, three zones, stand, marks and runs, in a hall with so many
/// things along its walls and a few in the middle.
fn bay(count: usize) -> Arrangement {
    let mut own = clear();
    let nose = [(-3_400.0, 300.0), (850.0, 300.0), (850.0, 700.0), (700.0, 850.0), (-100.0, 950.0)];
    let tail = [(-800.0, 1_450.0), (-2_200.0, 1_500.0), (-3_100.0, 1_200.0), (-3_400.0, 900.0)];
    own.vehicle.outline_side = nose.into_iter().chain(tail).map(DVec2::from).collect();
    own.vehicle.make_solids();
    let (length, width) = (12_000.0 + 200.0 * count as f64, 7_000.0);
    own.bay.room = rectangle((0.0, 0.0), (length, width));
    let zone = |id: &str, low, high, frame| KeepClear {
        id: id.into(),
        frame,
        outline: rectangle(low, high).into(),
        span: span(0.0, 1_500.0),
        heights_from: HeightsFrom::Floor,
        excludes: Exclusion::Metal,
    };
    own.aiming.zones = vec![
        zone("beam", (900.0, -1_500.0), (4_800.0, 1_500.0), ZoneFrame::Vehicle),
        zone("behind", (-1_500.0, -1_500.0), (0.0, 1_500.0), ZoneFrame::Target("ahead".into())),
        zone("near sensor", (0.0, -300.0), (1_000.0, 300.0), ZoneFrame::Sensor),
    ];
    for i in 0..count {
        let along = 400.0 + (length - 800.0) * i as f64 / count as f64;
        let y = match i % 7 {
            0 => 1_900.0,
            1 | 3 | 5 => 300.0,
            _ => width - 300.0,
        };
        let mut thing = match i % 5 {
            0 => column(&format!("column {i}"), (along, y), 150.0),
            _ => cabinet(&format!("cabinet {i}"), (along, y), 600.0, 450.0),
        };
        thing.place.at = PlanPose::new(thing.place.at.origin(), 0.03 * (i % 7) as f64);
        own.bay.things.push(thing);
    }
    own
}

fn places(criterion: &mut Criterion) {
    for count in [5, 10, 20, 40] {
        let arrangement = bay(count);
        let search = Search::new(&arrangement);
        let mut group = criterion.benchmark_group(format!("{count} things"));
        group.sample_size(10);
        group.bench_function("made ready", |b| b.iter(|| Search::new(black_box(&arrangement))));
        group.bench_function("one heading", |b| b.iter(|| search.places(black_box(0.1))));
        group.bench_function("72 headings", |b| {
            b.iter(|| {
                let areas = (0..72).map(|i| search.places(angle::radians(5.0 * f64::from(i))).fits.area());
                areas.sum::<f64>()
            });
        });
        group.bench_function("360 headings", |b| {
            b.iter(|| {
                let areas = (0..360).map(|i| search.places(angle::radians(f64::from(i))).fits.area());
                areas.sum::<f64>()
            });
        });
        group.bench_function("best spot", |b| {
            b.iter(|| best_spots(black_box(&search), &Margin::default(), &|| false, &mut |_| {}));
        });
        group.finish();
    }
}

/// The areas that an independent library works out too (`tests/place/areas.py` tells its time): all headings of all bays.
fn beside_another(criterion: &mut Criterion) {
    let searches: Vec<Search> = areas::cases().iter().map(|own| Search::new(&own.arrangement)).collect();
    criterion.bench_function("1,728 areas", |b| {
        b.iter(|| {
            let headings = (0..72).map(|i| angle::radians(5.0 * f64::from(i)));
            let all = searches.iter().flat_map(|own| headings.clone().map(|at| own.places(at).fits.area()));
            all.sum::<f64>()
        });
    });
}

/// A floor that falls to a drain and is a little uneven, surveyed each metre.
fn falling(criterion: &mut Criterion) {
    let mut own = bay(10);
    let points = (0..15).flat_map(|x| (0..8).map(move |y| (x, y))).map(|(x, y)| {
        let at = DVec2::new(f64::from(x), f64::from(y)) * 1_000.0;
        let uneven = f64::from((x * 7 + y * 5) % 11) * 0.1;
        LevelPoint { at, level_mm: uneven - 0.004 * at.x + 0.002 * at.y }
    });
    own.bay.survey.as_mut().unwrap().points = points.collect();
    let search = Search::new(&own);
    let mut group = criterion.benchmark_group("a floor that falls");
    group.sample_size(10);
    group.bench_function("one heading", |b| b.iter(|| search.places(black_box(0.1))));
    group.bench_function("best spot", |b| {
        b.iter(|| best_spots(black_box(&search), &Margin::default(), &|| false, &mut |_| {}));
    });
    group.finish();
}

/// A hall of ten bays with things along its walls and columns between, one end of which was surveyed each metre, 180 levels in all: the
/// heading in hand, as the car is drawn about, and with all that does not go with it made anew, as a thing is.
fn hall(criterion: &mut Criterion) {
    let mut own = bay(0);
    let (length, width) = (55_000.0, 14_000.0);
    own.bay.room = rectangle((0.0, 0.0), (length, width));
    for nth in 0..40 {
        let x = 600.0 + (length - 1_200.0) * f64::from(nth) / 40.0;
        own.bay.things.push(match nth % 4 {
            0 => column(&format!("column {nth}"), (x, width * 0.5), 300.0),
            1 | 3 => cabinet(&format!("cabinet {nth}"), (x, 300.0), 900.0, 450.0),
            _ => cabinet(&format!("bench {nth}"), (x, width - 350.0), 1_400.0, 600.0),
        });
    }
    let points = (0..12).flat_map(|x| (0..15).map(move |y| (x, y))).map(|(x, y)| {
        let at = DVec2::new(f64::from(x), f64::from(y)) * 1_000.0;
        let uneven = f64::from((x * 7 + y * 5) % 11) * 0.1;
        LevelPoint { at, level_mm: uneven + 0.0008 * (at.y - 10_500.0).abs() - 0.0004 * at.x }
    });
    own.bay.survey.as_mut().unwrap().points = points.collect();
    let mut group = criterion.benchmark_group("a hall with 180 levels");
    group.sample_size(10);
    let search = Search::new(&own);
    group.bench_function("one heading", |b| b.iter(|| search.places(black_box(0.01))));
    group.bench_function("one heading, made ready", |b| {
        b.iter(|| Search::new(black_box(&own)).places(0.0));
    });
    group.finish();
}

criterion_group!(benches, places, falling, hall, beside_another);
criterion_main!(benches);
