//! How long a matrix takes: 50 aimings by 10 bays of a hall, places searched, on all processors; and the place that serves the most.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

#[path = "../src/check/testing.rs"]
#[allow(dead_code, unused_imports)]
mod support;

use baywright_planner::geometry::{PlanPose, angle};
use baywright_planner::matrix::{Grid, Heard, Line, Place, best_place, heard, row};
use baywright_planner::model::HallBay;
use baywright_planner::place::{Margin, Search, headings};
use baywright_planner::*;
use criterion::{Criterion, criterion_group, criterion_main};
use rayon::prelude::*;
use support::{cabinet, clear, column, rectangle};

/// A hall of ten bays in two rows with a row of columns between, and things along its walls.
fn list(count: usize) -> (Vec<Line>, Vec<Place>) {
    let mut own = clear();
    let (length, width) = (5.0 * 11_000.0, 14_000.0);
    own.bay.room = rectangle((0.0, 0.0), (length, width));
    own.bay.survey = None;
    own.bay.bays.clear();
    for nth in 0..10 {
        let (x, y) = (11_000.0 * f64::from(nth % 5), 7_000.0 * f64::from(nth / 5));
        let outline = rectangle((x + 100.0, y + 100.0), (x + 10_900.0, y + 6_900.0));
        own.bay.bays.push(HallBay { id: format!("bay {nth}").as_str().into(), outline });
    }
    for nth in 0..40 {
        let x = 600.0 + (length - 1_200.0) * f64::from(nth) / 40.0;
        own.bay.things.push(match nth % 4 {
            0 => column(&format!("column {nth}"), (x, width * 0.5), 300.0),
            1 | 3 => cabinet(&format!("cabinet {nth}"), (x, 300.0), 900.0, 450.0),
            _ => cabinet(&format!("bench {nth}"), (x, width - 350.0), 1_400.0, 600.0),
        });
    }
    let lines = (0..count).map(|nth| {
        let mut own = own.clone();
        let reach = 4_800.0 + 60.0 * (nth % 25) as f64;
        let aside = 1_200.0 + 40.0 * (nth % 7) as f64;
        let zone = &mut own.aiming.zones[0];
        zone.outline = rectangle((900.0, -aside), (reach, aside)).into();
        own.parked = PlanPose::new(own.parked.origin(), angle::radians(90.0 * (nth % 4) as f64));
        Line { arrangement: own, is_saved: false, weight: 1.0 }
    });
    let places = own.bay.bays.iter().map(|own| Place::Bay(own.id.clone())).collect();
    (lines.collect(), places)
}

fn matrix(criterion: &mut Criterion) {
    let (lines, places) = list(50);
    let margin = Margin::default();
    let mut group = criterion.benchmark_group("50 aimings");
    group.sample_size(10);
    group.bench_function("10 bays", |b| {
        b.iter(|| -> usize {
            let rows = lines.par_iter().map(|own| row(own, &places, &margin, false, &|| false));
            rows.map(|own| own.cells.len()).sum()
        });
    });
    group.bench_function("one place for the most", |b| {
        b.iter(|| {
            let searches: Vec<Search> = lines.par_iter().map(|own| Search::new(&own.arrangement)).collect();
            let room = &lines[0].arrangement.bay.room;
            let weights = vec![1.0; lines.len()];
            let grid = Grid::over(room.bounds(), 100.0);
            let all: Vec<f64> = headings(room).into_iter().filter(|own| own.1).map(|own| own.0).collect();
            let heard: Vec<Heard> =
                all.par_iter().map(|own| heard(&searches, &weights, &grid, *own)).collect();
            best_place(&lines, &heard, &margin)
        });
    });
    group.finish();
}

criterion_group!(benches, matrix);
criterion_main!(benches);
