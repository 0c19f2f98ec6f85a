//! All that is answered of a list, as it comes: rows first, then the map and the one place, then the room.

use std::sync::Arc;

use super::curve::Curve;
use super::{BestPlace, FitMap, Line, Needs, Place, Row};
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

impl Planned {
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
