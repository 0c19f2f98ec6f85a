//! Whose a place of the paper seems to be: what stands on a body, or nearer to it than to its own, is read as that one's.
//!
//! Boxes of things, car and targets in a net of square cells. Everything here is px, y down.

use std::cell::Cell;
use std::collections::BTreeMap;

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

/// Width of a cell, px; a net of more cells than this in one direction is made coarser.
const CELL_PX: f64 = 56.0;
const MOST_CELLS: f64 = 64.0;
/// How far a box may reach onto another's body before it is seen, px.
const SLACK_PX: f64 = 2.0;
/// Two gaps that differ by less are alike to the eye, px.
const ALIKE_PX: f64 = 3.0;
/// Whoever reads what stands at one body looks this much further for another, px.
const BETWEEN_PX: f64 = 14.0;

/// So many bodies are looked at for one drawing, the shipped bays at less than a tenth of that; after that nothing is read as
/// another's, so that dense bays are drawn in bounded work.
const MOST_LOOKS: u64 = 2_000_000;

/// What it costs to be read as another body's.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Astray {
    /// To stand on it.
    pub on_other: f64,
    /// To stand nearer to it than to its own.
    pub nearer: f64,
    /// To stand between the two, hardly nearer to its own.
    pub between: f64,
}

pub(crate) struct Bodies {
    area: Bounds,
    columns: usize,
    rows: usize,
    cells: Vec<Vec<u32>>,
    boxes: Vec<Bounds>,
    numbers: BTreeMap<Subject, u32>,
    looks_left: Cell<u64>,
}

/// A target and its stand are one body, and the sensor is the car's.
fn body_of(subject: &Subject) -> Subject {
    match subject {
        Subject::Stand(id) => Subject::Target(id.clone()),
        Subject::Sensor => Subject::Car,
        own => own.clone(),
    }
}

impl Bodies {
    /// None in an area of paper.
    pub fn new(area: Bounds) -> Self {
        let count =
            (area.size().max(DVec2::ONE) / CELL_PX).ceil().clamp(DVec2::ONE, DVec2::splat(MOST_CELLS));
        let (columns, rows) = (count.x as usize, count.y as usize);
        Self {
            area,
            columns,
            rows,
            cells: vec![Vec::new(); columns * rows],
            boxes: Vec::new(),
            numbers: BTreeMap::new(),
            looks_left: Cell::new(MOST_LOOKS),
        }
    }

    /// Puts a body down. One that is put down twice is where it was first.
    pub fn take(&mut self, subject: &Subject, place: Bounds) {
        let number = self.boxes.len() as u32;
        if !self.area.meets(&place) || self.numbers.contains_key(&body_of(subject)) {
            return;
        }
        self.numbers.insert(body_of(subject), number);
        self.boxes.push(place);
        for cell in self.cells_of(&place) {
            if let Some(cell) = self.cells.get_mut(cell) {
                cell.push(number);
            }
        }
    }

    /// The number of a subject's body, if it has one on the paper.
    pub fn number(&self, subject: Option<&Subject>) -> Option<u32> {
        self.numbers.get(&body_of(subject?)).copied()
    }

    /// The box around a subject's body, if it has one on the paper.
    pub fn place(&self, subject: Option<&Subject>) -> Option<Bounds> {
        self.boxes.get(self.number(subject)? as usize).copied()
    }

    /// What it costs that a box of `own` (by its number; `None` if it is about no body) is read as another's. `about` is what it is
    /// about if that is seen through, and no body.
    pub fn cost(&self, own: Option<u32>, about: Option<&Bounds>, place: &Bounds, astray: Astray) -> f64 {
        let body = own.and_then(|own| self.boxes.get(own as usize)).or(about);
        let gap = body.map_or(0.0, |own| between(own, place));
        let reach = (gap - ALIKE_PX).max(0.0);
        let alike = if body.is_some() && astray.between > 0.0 { gap + BETWEEN_PX } else { reach };
        let mut cost: f64 = 0.0;
        for cell in self.cells_of(&place.grown(alike)) {
            let Some(numbers) = self.cells.get(cell) else { continue };
            if self.looks_left.get() == 0 {
                return 0.0;
            }
            self.looks_left.set(self.looks_left.get().saturating_sub(1 + numbers.len() as u64));
            for &number in numbers {
                let Some(other) = self.boxes.get(number as usize).filter(|_| own != Some(number)) else {
                    continue;
                };
                if other.meets(&place.grown(-SLACK_PX)) {
                    return astray.on_other;
                }
                let apart = between(other, place);
                if apart < reach {
                    cost = cost.max(astray.nearer);
                } else if apart < alike {
                    cost = cost.max(astray.between);
                }
            }
        }
        cost
    }

    /// The cells that a box touches.
    fn cells_of(&self, place: &Bounds) -> impl Iterator<Item = usize> + use<> {
        let per_px = DVec2::new(self.columns as f64, self.rows as f64) / self.area.size().max(DVec2::ONE);
        let (columns, rows) = (self.columns, self.rows);
        let area_low = self.area.low;
        let cell = move |p: DVec2| {
            let p = (p - area_low) * per_px;
            // Cut off towards zero; what lies beside the net belongs to its edge.
            ((p.x as usize).min(columns.saturating_sub(1)), (p.y as usize).min(rows.saturating_sub(1)))
        };
        let (first, last) = (cell(place.low), cell(place.high));
        (first.1..=last.1).flat_map(move |row| (first.0..=last.0).map(move |column| row * columns + column))
    }
}

/// The gap between two boxes, px; nothing where they meet.
fn between(a: &Bounds, b: &Bounds) -> f64 {
    (a.low - b.high).max(b.low - a.high).max(DVec2::ZERO).length()
}

#[cfg(test)]
mod tests {
    use baywright_planner::geometry::Bounds;

    use super::*;

    const ASTRAY: Astray = Astray { on_other: 100.0, nearer: 10.0, between: 0.0 };

    fn square(x: f64, y: f64, half: f64) -> Bounds {
        let middle = DVec2::new(x, y);
        Bounds { low: middle - half, high: middle + half }
    }

    fn two() -> Bodies {
        let mut bodies = Bodies::new(Bounds { low: DVec2::ZERO, high: DVec2::new(400.0, 300.0) });
        bodies.take(&Subject::Thing("bin".into()), square(100.0, 100.0, 10.0));
        bodies.take(&Subject::Target("plate".into()), square(200.0, 100.0, 10.0));
        bodies
    }

    #[test]
    fn what_stands_on_another_or_nearer_to_it_is_read_as_its() {
        let bodies = two();
        let bin = bodies.number(Some(&Subject::Thing("bin".into())));
        let cost = |x: f64| bodies.cost(bin, None, &square(x, 100.0, 5.0), ASTRAY);
        assert_eq!([cost(100.0), cost(120.0), cost(140.0)], [0.0; 3]);
        assert_eq!([cost(170.0), cost(200.0), cost(230.0)], [10.0, 100.0, 10.0]);
    }

    #[test]
    fn what_stands_between_two_is_hardly_its_own() {
        let bodies = two();
        let bin = bodies.number(Some(&Subject::Thing("bin".into())));
        let astray = Astray { between: 4.0, ..ASTRAY };
        let cost = |x: f64| bodies.cost(bin, None, &square(x, 100.0, 5.0), astray);
        assert_eq!([cost(120.0), cost(140.0), cost(146.0), cost(160.0)], [0.0, 0.0, 4.0, 10.0]);
        // On the far side of its own nothing is between.
        assert_eq!(cost(60.0), 0.0);
    }

    #[test]
    fn a_target_and_its_stand_are_one_body() {
        let bodies = two();
        let stand = bodies.number(Some(&Subject::Stand("plate".into())));
        assert_eq!(bodies.cost(stand, None, &square(200.0, 100.0, 5.0), ASTRAY), 0.0);
        // About no body: only what it stands on counts.
        assert_eq!(bodies.cost(None, None, &square(230.0, 100.0, 5.0), ASTRAY), 0.0);
        assert_eq!(bodies.cost(None, None, &square(100.0, 100.0, 5.0), ASTRAY), 100.0);
    }
}
