//! All that is answered of a list, as it comes: rows first, then the map and the one place, then the room.

use std::sync::Arc;

use super::curve::Curve;
use super::{BestPlace, Cell, FitMap, Line, Needs, Place, Row};
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

    /// Whether a line fits at a place as it is, with as much to spare as cars are parked off.
    pub fn fits(&self, line: usize, place: usize) -> bool {
        matches!(self.cell(line, place), Some(Cell::Fits(own)) if own.meets_margin)
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
            is_partial: false,
        }
    }
}
