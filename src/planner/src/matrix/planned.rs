//! All that is answered of a list, as it comes: rows first, then the map and the one place, then the room.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::curve::Curve;
use super::{BestPlace, Cell, FitMap, Line, Needs, Place, Proven, Row, Stands};
use crate::assessment::Verdict;
use crate::place::Margin;

/// What is answered of a list so far. What is shared is so because the whole of it is handed on with each row that comes.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// What was asked about.
    pub lines: Arc<[Line]>,
    /// Where.
    pub places: Arc<[Place]>,
    /// How far off its place the shop parks a car.
    pub margin: Margin,
    /// An answer for each line, in their order; `None` as long as it is not there.
    pub rows: Vec<Option<Arc<Row>>>,
    /// How many of the list each place of the room serves; `None` as long as it is not there.
    pub map: Option<Arc<FitMap>>,
    /// The place that serves the most, as far as one was found.
    pub best: Option<Arc<BestPlace>>,
    /// Whether it was looked for.
    pub is_best_looked_for: bool,
    /// How big an empty room must be; `None` as long as it is not there.
    pub room: Option<Arc<Curve>>,
    /// What each line needs of an empty room, `None` of one that fits in none; empty as long as that is not there.
    pub needs: Arc<[Option<Needs>]>,
    /// How deep a strip along a wall of that room is kept for what is in store, mm.
    pub store_mm: f64,
    /// The lines of which it is proven that they fit nowhere in the room, by position, as far as that was looked for.
    pub proven: BTreeMap<usize, Proven>,
    /// Whether it was stopped before its end.
    pub is_partial: bool,
}

/// How many of a list fit at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FitThere {
    /// So many lines.
    pub lines: usize,
    /// Of so many.
    pub of: usize,
    /// How many jobs a month that serves: one that is several lines is served by any of them.
    pub a_month: f64,
    /// Of how many.
    pub of_a_month: f64,
}

impl Planned {
    /// What was found of a line at a place, both by position; `None` as long as it is not there.
    pub fn cell(&self, line: usize, place: usize) -> Option<&Cell> {
        self.rows.get(line)?.as_ref()?.cells.get(place)?.as_ref()
    }

    /// Whether a proof may be found that a line never fits: no place of the room was found for it.
    pub fn is_found_nowhere(&self, line: usize) -> bool {
        let at = self.places.iter().position(|own| *own == Place::Room);
        let cell = at.and_then(|at| self.cell(line, at));
        let has_moves = self.rows.get(line).is_some_and(|own| own.as_ref().is_some_and(|row| row.has_moves));
        has_moves && matches!(cell, Some(Cell::NoneFound(own)) if !own.is_partial)
    }

    /// What is proven of a line that never fits at a place, where none was found for it: nothing of a place at which other runways
    /// carry the car, of which the proof does not speak.
    pub fn never(&self, line: usize, place: usize) -> Option<&Proven> {
        let own = self.lines.get(line)?;
        let is_told = match self.places.get(place)? {
            Place::Parked { on_runways, .. } => *on_runways == own.arrangement.on_runways,
            Place::Bay(_) | Place::Room => true,
        };
        let is_open = matches!(self.cell(line, place), Some(Cell::NoneFound(_)));
        (is_told && is_open).then(|| self.proven.get(&line)).flatten()
    }

    /// Of a line the place at which it does best, and what was found there: ready, with least to mind, with most to spare.
    pub fn best_cell(&self, line: usize) -> Option<(usize, &Cell)> {
        let cells = (0..self.places.len()).filter_map(|at| Some((at, self.cell(line, at)?)));
        let rank = |own: &Cell| match own {
            Cell::Fits(own) => (
                if own.meets_margin { 0 } else { 1 },
                usize::from(own.verdict != Verdict::Ready),
                own.care,
                -own.slack.mm,
            ),
            Cell::AfterMoves { steps, .. } => (2, 0, steps.len(), 0.0),
            Cell::Elsewhere(_) => (3, 0, 0, 0.0),
            Cell::NoneFound(own) => (4, usize::from(own.is_partial), own.stops.len(), 0.0),
        };
        cells.reduce(|best, own| if rank(own.1) < rank(best.1) { own } else { best })
    }

    /// Whether a line fits at a place as it is, with as much to spare as cars are parked off.
    pub fn fits(&self, line: usize, place: usize) -> bool {
        matches!(self.cell(line, place), Some(Cell::Fits(own)) if own.meets_margin)
    }

    /// Of each line how it fits at a place as it is, with as much to spare as cars are parked off; `None` of one that does not.
    pub fn fitting(&self, place: usize) -> Vec<Option<Stands>> {
        let own = |nth: usize| match self.cell(nth, place) {
            Some(Cell::Fits(own)) if own.meets_margin => Some(own.clone()),
            _ => None,
        };
        (0..self.lines.len()).map(own).collect()
    }

    /// How many of the list fit at a place.
    pub fn fit_there(&self, place: usize) -> FitThere {
        let fits: Vec<bool> = (0..self.lines.len()).map(|nth| self.fits(nth, place)).collect();
        let lines = fits.iter().filter(|own| **own).count();
        let served =
            |own: &Line| self.lines.iter().zip(&fits).any(|(other, fits)| *fits && own.is_same_job(other));
        // Adding to a nought of its own: the sum of none is not below it.
        let a_month = self.lines.iter().filter(|own| served(own)).fold(0.0, |sum, own| sum + own.weight);
        let of_a_month = self.lines.iter().fold(0.0, |sum, own| sum + own.weight);
        FitThere { lines, of: self.lines.len(), a_month, of_a_month }
    }

    /// Whether the owner said how often any of the list comes in, other than once.
    pub fn is_weighted(&self) -> bool {
        let of_job = |own: &Line| {
            self.lines.iter().filter(|other| own.is_same_job(other)).fold(0.0, |sum, own| sum + own.weight)
        };
        self.lines.iter().any(|own| (of_job(own) - 1.0).abs() > 1e-9)
    }

    /// Nothing is answered yet.
    pub fn begun(lines: Arc<[Line]>, places: Arc<[Place]>, margin: Margin) -> Self {
        let rows = vec![None; lines.len()];
        let (map, best, room, needs) = (None, None, None, Arc::default());
        Self {
            lines,
            places,
            margin,
            rows,
            map,
            best,
            is_best_looked_for: false,
            room,
            needs,
            store_mm: 0.0,
            proven: BTreeMap::new(),
            is_partial: false,
        }
    }
}
