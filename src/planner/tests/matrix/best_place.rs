//! The one place that serves the most of a list.

use baywright_planner::matrix::{FitMap, Grid, Heard, Line, MOST_STEPS, best_place, fit_map, heard};
use baywright_planner::place::{Margin, Search, headings};

use crate::made::{grid, line, stands, two};
use crate::support::*;

fn all_heard(lines: &[Line]) -> (Grid, Vec<Heard>) {
    let searches: Vec<Search> = lines.iter().map(|own| Search::new(&own.arrangement)).collect();
    let weights: Vec<f64> = lines.iter().map(|own| own.weight).collect();
    let room = &lines[0].arrangement.bay.room;
    let grid = Grid::over(room.bounds(), 100.0);
    let invited = headings(room).into_iter().filter(|own| own.1);
    (grid, invited.map(|own| heard(&searches, &weights, &grid, own.0)).collect())
}

/// Five lines: two that ask for the room ahead, with beams of several lengths, and some behind.
fn list(size: (f64, f64)) -> Vec<Line> {
    let [ahead, back] = two();
    let mut long = ahead.clone();
    long.aiming.zones[0].outline = rectangle((900.0, -1_500.0), (7_400.0, 1_500.0)).into();
    let mut broad = back.clone();
    broad.aiming.zones[0].outline = rectangle((-5_000.0, -2_600.0), (-3_500.0, 2_600.0)).into();
    let mut none = back.clone();
    none.aiming.zones[0].outline = rectangle((-3_000.0, -1_000.0), (800.0, 1_000.0)).into();
    none.aiming.zones.clear();
    let weights = [1.0, 2.0, 0.5, 3.0, 1.0];
    let all = [ahead, back, long, broad, none].into_iter().zip(weights);
    all.map(|(mut own, weight)| {
        own.bay.room = rectangle((0.0, 0.0), size);
        own.bay.survey = None;
        own.bay.things.push(column("column", (size.0 * 0.75, 700.0), 300.0));
        Line { weight, ..line(own) }
    })
    .collect()
}

/// No pose of a coarse grid serves more, tried by the checks alone; and what is served is what the checks say.
#[test]
fn nothing_on_a_grid_serves_more() {
    for size in [(10_500.0, 4_600.0), (12_500.0, 5_600.0), (8_000.0, 4_000.0)] {
        let lines = list(size);
        let (_, heard) = all_heard(&lines);
        let best = best_place(&lines, &heard, &Margin::default()).unwrap();
        for (nth, verdict) in &best.serves {
            assert!(stands(&lines[*nth].arrangement, best.pose), "{size:?}: {nth} {verdict:?}");
        }
        let weight: f64 = best.serves.iter().map(|own| lines[own.0].weight).sum();
        assert!((weight - best.weight).abs() < 1e-12 && (best.of_weight - 7.5).abs() < 1e-12);
        for pose in grid(&lines[0].arrangement, 200.0) {
            let here: f64 =
                lines.iter().filter(|own| stands(&own.arrangement, pose)).map(|own| own.weight).sum();
            assert!(here <= best.weight + 1e-12, "{size:?}: {here} at {pose:?}, not {best:?}");
        }
    }
}

/// Each square tells how many lines one heading serves at its middle, and no square more than there is.
#[test]
fn the_map_counts_what_the_checks_find() {
    let lines = list((10_500.0, 4_600.0));
    let (grid, heard) = all_heard(&lines);
    let map = fit_map(grid, &heard, lines.len());
    assert_eq!((map.of, map.count.len()), (5, grid.columns * grid.rows));
    let mut seen = [0_usize; 6];
    // A prime step visits squares all over.
    for nth in (0..map.count.len()).step_by(97) {
        let at = grid.at(nth);
        let most = heard.iter().map(|own| {
            let pose = crate::geometry::PlanPose::new(at, own.heading_rad);
            lines.iter().filter(|own| stands(&own.arrangement, pose)).count()
        });
        let most = most.max().unwrap();
        let told = usize::from(map.count[nth]);
        assert!(told <= most, "{told} told, {most} there at {at}");
        // What is left undecided, or within a millimetre of an edge, may be more than is told: here it is nowhere much.
        seen[most - told] += 1;
    }
    assert!(seen[0] > 40 && seen[1..].iter().sum::<usize>() <= seen[0] / 20, "{seen:?}");
}

/// The steps of a map are the squares with so many or more, each within the one before; the last is that of the most.
#[test]
fn the_steps_of_a_map_are_its_squares() {
    let grid = Grid { first: DVec2::new(50.0, 50.0), step_mm: 100.0, columns: 12, rows: 7 };
    let count: Vec<u16> = (0..84_u16).map(|nth| (nth * 37 % 11).saturating_sub(2)).collect();
    let map = FitMap { grid, served: vec![0.0; 84], count: count.clone(), of: 11 };
    let steps = map.steps();
    assert_eq!(steps.len(), MOST_STEPS);
    assert_eq!((steps[0].0, steps[4].0), (1, 8));
    for (least, region) in &steps {
        let squares = count.iter().filter(|own| *own >= least).count();
        assert!((region.area() - 1e4 * squares as f64).abs() < 1.0, "{least}");
        for (nth, own) in count.iter().enumerate() {
            assert_eq!(region.holds(grid.at(nth)), own >= least);
            assert_eq!(map.at(grid.at(nth) + DVec2::new(30.0, -40.0)), *own);
        }
    }
    assert_eq!(map.at(DVec2::new(-10.0, 50.0)), 0);
    let none = FitMap { count: vec![0; 84], ..map };
    assert!(none.steps().is_empty());
}
