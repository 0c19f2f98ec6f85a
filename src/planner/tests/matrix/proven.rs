//! That a line never fits, where no place was found for it.

use std::sync::Arc;

use baywright_planner::matrix::{Cell, Line, Place, Planned, Settled, row, settled};
use baywright_planner::never::check;
use baywright_planner::place::Margin;
use baywright_planner::place::never::{Given, Never, Stays, never, short as missing};

use crate::geometry::PlanPose;
use crate::made::line;
use crate::support::*;

fn in_room(length: f64, width: f64) -> Line {
    let mut own = clear();
    own.bay.room = rectangle((0.0, 0.0), (length, width));
    own.bay.survey = None;
    own.bay.things.clear();
    line(own)
}

fn planned(lines: Vec<Line>, places: Vec<Place>) -> Planned {
    let margin = Margin::default();
    let rows: Vec<_> = lines.iter().map(|own| row(own, &places, &margin, true, &|| false)).collect();
    let mut all = Planned::begun(lines.into(), places.into(), margin);
    all.rows = rows.into_iter().map(|own| Some(Arc::new(own))).collect();
    all
}

/// A room that is shorter than the car has no place for it, and that is proven; one that has a place is not said to have none; one that
/// is too short only for what the beam needs is left open, for a proof speaks of solids; what is stopped is no answer.
#[test]
fn a_car_that_is_longer_than_its_room_never_fits() {
    let go = |own: &Line| settled(own, &|| false, &mut |_| {});
    let short = in_room(3_000.0, 3_000.0);
    let Settled::Never(why) = go(&short) else { panic!("it is proven") };
    // What is missing is what the proof itself tells.
    let given = Given::of(&short.arrangement, Stays::Fixed);
    let Never::Proven(proof) = never(&given, 20_000, &|| false, &mut |_| {}) else { panic!("it is proven") };
    assert_eq!(check(&proof), Ok(()));
    assert_eq!(why.as_deref(), missing(&given, &proof, &|| false).as_ref());
    assert_eq!(go(&in_room(12_000.0, 6_000.0)), Settled::Open);
    assert_eq!(settled(&short, &|| true, &mut |_| {}), Settled::Stopped);
}

/// It is told of the cells in which no place was found, and of no other; nothing of a place at which other runways carry the car.
#[test]
fn only_a_cell_without_a_place_is_told_never() {
    let short = in_room(3_000.0, 3_000.0);
    let fits = in_room(12_000.0, 6_000.0);
    let parked = |on_runways| Place::Parked {
        of: "set-up".into(),
        pose: PlanPose::new(DVec2::new(1_500.0, 1_500.0), 0.0),
        on_runways,
        in_bay: None,
    };
    let places = vec![parked(Vec::new()), parked(vec!["left".into()]), Place::Room];
    let mut all = planned(vec![short, fits], places);
    assert!(all.is_found_nowhere(0) && !all.is_found_nowhere(1) && !all.is_found_nowhere(2));
    assert!(all.never(0, 2).is_none(), "nobody asked yet");
    // Were it said of both, only that of which no place was found is told it.
    all.proven.insert(0, None);
    all.proven.insert(1, None);
    let told = |line: usize| [0, 1, 2].map(|place| all.never(line, place).is_some());
    assert_eq!(told(0), [true, false, true]);
    assert!(matches!(all.cell(1, 2), Some(Cell::Fits(_))));
    assert!(!told(1)[2]);
    // As long as moves are not looked for there, nothing is asked.
    let first = all.rows[0].clone().unwrap();
    all.rows[0] = Some(Arc::new(baywright_planner::matrix::Row { has_moves: false, ..(*first).clone() }));
    assert!(!all.is_found_nowhere(0));
}

/// The best cell of a line is the one that is ready with the most to spare, whatever stands before it.
#[test]
fn the_best_cell_of_a_line() {
    let fits = in_room(12_000.0, 6_000.0);
    let bad = Place::Parked {
        of: "corner".into(),
        pose: PlanPose::new(DVec2::new(100.0, 100.0), 0.0),
        on_runways: Vec::new(),
        in_bay: None,
    };
    let all = planned(vec![fits, in_room(3_000.0, 3_000.0)], vec![bad.clone(), Place::Room, bad]);
    let (at, cell) = all.best_cell(0).unwrap();
    assert!(at == 1 && matches!(cell, Cell::Fits(own) if own.meets_margin));
    assert!(matches!(all.best_cell(1), Some((_, Cell::NoneFound(_)))));
    assert_eq!(all.best_cell(7), None);
}
