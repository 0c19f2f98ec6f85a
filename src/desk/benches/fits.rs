//! How long it takes to tell which of 50 aimings of the shipped cars fit in which of 10 bays, of which two have a surveyed floor, on
//! all processors; and what a frame of a drag works out of where the car can stand. After all that, how much memory it took at most.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a bench fails by panicking and prints what it measured"
)]

use std::hint::black_box;
use std::path::Path;

use baywright_desk::session::document::Document;
use baywright_files::Library;
use baywright_planner::geometry::{DVec2, PlanPose, Polygon};
use baywright_planner::matrix::{Line, Place, lines_of_car, row};
use baywright_planner::model::{
    Arrangement, FloorSurvey, HallBay, Known, Layout, LevelPoint, LevelsTaken, Provenance, Wall,
};
use baywright_planner::place::{Margin, Search};
use criterion::{Criterion, criterion_group, criterion_main};
use rayon::prelude::*;

/// The first set-up of a shipped layout, as it is judged.
fn set_up(layout: &Layout) -> Arrangement {
    Document::of(layout.clone(), None, None, &Library::built_in(), None).unwrap().arrangement().unwrap()
}

/// A hall of ten bays in two rows with columns between and things along its walls. The two bays at one end were surveyed each metre:
/// their floor falls, the one to a drain, and is a little uneven.
fn hall() -> (Layout, Vec<Place>) {
    let mut layout = baywright_files::open(Path::new("hall"), None).unwrap().layout;
    let bay = &mut layout.bay;
    let (length, width) = (5.0 * 11_000.0, 14_000.0);
    let box_of = |low: (f64, f64), high: (f64, f64)| Polygon::rectangle(low.into(), high.into()).unwrap();
    bay.room = box_of((0.0, 0.0), (length, width));
    bay.walls = ["yard", "far", "street", "near"]
        .map(|name| Wall { id: name.into(), material: bay.walls[0].material })
        .into();
    bay.openings.clear();
    bay.floor_features.clear();
    bay.keep_free.clear();
    bay.runways.clear();
    bay.dimensions.clear();
    bay.marks.clear();
    bay.bays = (0..10)
        .map(|nth| {
            let (x, y) = (11_000.0 * f64::from(nth % 5), 7_000.0 * f64::from(nth / 5));
            let outline = box_of((x + 100.0, y + 100.0), (x + 10_900.0, y + 6_900.0));
            HallBay { id: format!("bay {nth}").into(), outline }
        })
        .collect();
    let pattern = bay.things[0].clone();
    bay.things = (0..40)
        .map(|nth| {
            let x = 600.0 + (length - 1_200.0) * f64::from(nth) / 40.0;
            let y = match nth % 4 {
                0 => width * 0.5,
                2 => width - 350.0,
                _ => 300.0,
            };
            let at = PlanPose::new(DVec2::new(x, y), 0.0);
            let place = baywright_planner::model::Place { at, known: Known::Taped };
            baywright_planner::model::Thing { id: format!("thing {nth}").into(), place, ..pattern.clone() }
        })
        .collect();
    let points = (0..=11).flat_map(|x| (0..=14).map(move |y| (x, y))).map(|(x, y)| {
        let at = DVec2::new(f64::from(x), f64::from(y)) * 1_000.0;
        let uneven = f64::from((x * 7 + y * 5) % 11) * 0.1;
        LevelPoint { at, level_mm: uneven + 0.0008 * (at.y - 10_500.0).abs() - 0.0004 * at.x }
    });
    let points: Vec<LevelPoint> = points.collect();
    bay.survey = Some(FloorSurvey {
        taken: None,
        points: points.into(),
        how: LevelsTaken::default(),
        provenance: Provenance::Example,
    });
    layout.arrangements.truncate(1);
    let own = &mut layout.arrangements[0];
    own.parked = PlanPose::new(DVec2::new(5_000.0, 3_500.0), 0.0);
    (own.in_bay, own.on_runways) = (None, Vec::new());
    [&mut own.away, &mut own.kept_empty, &mut own.kept_shut].into_iter().for_each(Vec::clear);
    (own.moved, own.added, own.shut) = (Vec::new(), Vec::new(), Vec::new());
    let places = layout.bay.bays.iter().map(|own| Place::Bay(own.id.clone())).collect();
    (layout, places)
}

/// Each aiming of each shipped car, and again, until they are so many.
fn lines(layout: &Layout, count: usize) -> Vec<Line> {
    let (library, room_of) = (Library::built_in(), set_up(layout));
    let cars = library.names().into_iter().filter_map(|name| library.find(&name).unwrap());
    let all: Vec<Line> = cars.flat_map(|own| lines_of_car(layout, &room_of, &own.vehicle)).collect();
    assert!(!all.is_empty());
    all.iter().cycle().take(count).cloned().collect()
}

fn matrix(criterion: &mut Criterion) {
    let (layout, places) = hall();
    let lines = lines(&layout, 50);
    let margin = Margin::default();
    let mut group = criterion.benchmark_group("50 aimings of the shipped cars");
    group.sample_size(10);
    group.bench_function("10 bays, two of them surveyed", |b| {
        b.iter(|| -> usize {
            let rows = lines.par_iter().map(|own| row(own, &places, &margin, false, &|| false));
            rows.map(|own| own.cells.len()).sum()
        });
    });
    group.finish();
}

/// A thing is in the hand: all that does not go with the car is worked out anew in each frame, then the heading as it is.
fn tint(criterion: &mut Criterion) {
    let opened = |name: &str| set_up(&baywright_files::open(Path::new(name), None).unwrap().layout);
    let big = set_up(&hall().0);
    let mut group = criterion.benchmark_group("where it can stand, in a frame of a drag");
    for (name, own) in
        [("crowded bay", opened("crowded-bay")), ("drain bay, surveyed", opened("drain-bay")), ("hall", big)]
    {
        group.bench_function(name, |b| {
            b.iter(|| {
                let search = Search::new(black_box(&own));
                search.places(own.parked.heading()).fits.area()
            });
        });
        let search = Search::new(&own);
        group.bench_function(format!("{name}, the car in the hand"), |b| {
            b.iter(|| search.places(black_box(own.parked.heading() + 0.01)).fits.area());
        });
    }
    group.finish();
}

/// Linux tells what a program took at most.
fn memory(_: &mut Criterion) {
    let told = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    told.lines().filter(|own| own.starts_with("VmHWM")).for_each(|own| println!("memory at most: {own}"));
}

/// As in the program.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

criterion_group!(benches, matrix, tint, memory);
criterion_main!(benches);
