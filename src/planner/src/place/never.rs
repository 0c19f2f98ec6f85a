//! Does it fit nowhere? Looks for a proof ([`crate::never::Proof`]) that at every place and heading the solids of the set-up meet
//! what stands or lie out of the room; who checks it is another.
//!
//! Only solid against solid and room: keep-clear zones, sights, marks, runs, levels and what stands proud of the floor are left
//! out, so that what is proven here is so whatever is said of those. What is not proven may fit or not.

mod boxes;
mod document;
mod given;
mod short;
mod solid;

use std::collections::VecDeque;

use baywright_geometry::{DVec2, PlanPose, angle};

use crate::never::{Cell, MOST_CELLS, Proof, ROUND_UDEG};

use boxes::Boxed;
use solid::Convex;

pub use document::Document;
pub use given::{APART_UM, Given, Stays, is_of};
pub use short::{Short, short};

/// A pair that meets by less than this, mm, bars nothing here: a little more than who checks it asks for.
const MEETS_MM: f64 = 0.2;
/// So far past what must be covered places are looked at, mm.
const PAST_MM: f64 = 1.0;
/// So many of the pairs that are deepest in one another at the middle of a cell are asked about all of it.
const ASKED: usize = 6;

/// Headings are parted until a cell has no more than so many, millionths of a degree: of more hardly anything can be said at once.
const MOST_UDEG: i64 = ROUND_UDEG / 64;

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub enum Never {
    /// It fits nowhere.
    Proven(Box<Proof>),
    /// At this pose (bay from vehicle) no solid meets anything: as far as solids go it fits.
    Free(PlanPose),
    /// Not proven: of so many cells more would be needed.
    NotProven,
    /// It was stopped.
    Stopped,
}

/// Looks for a proof, of so many cells at most ([`MOST_CELLS`] and no more). `is_stopped` is asked now and then.
pub fn never(given: &Given, most_cells: usize, is_stopped: &dyn Fn() -> bool) -> Never {
    let (set_up, stands) = given.solids();
    let parts: Vec<Convex> = set_up.iter().map(Convex::of).collect();
    let others: Vec<Convex> = stands.iter().map(Convex::of).collect();
    let pairs: Vec<(usize, usize)> = (0..parts.len())
        .flat_map(|part| (0..others.len()).map(move |against| (part, against)))
        .filter(|&(part, against)| {
            parts.get(part).zip(others.get(against)).is_some_and(|(a, b)| a.shares_height(b))
        })
        .collect();
    let most_cells = most_cells.min(MOST_CELLS);
    let places = given.places();
    let mut proof = Proof { set_up, stands, room: given.room, places, cells: Vec::new() };
    let start = Boxed { places, headings: [0, ROUND_UDEG] };
    let mut open: VecDeque<(Boxed, (usize, usize))> = VecDeque::from([(start, (0, 0))]);
    while let Some((own, before)) = open.pop_front() {
        if is_stopped() {
            return Never::Stopped;
        }
        if proof.cells.len() + open.len() >= most_cells {
            return Never::NotProven;
        }
        let bars = |&(part, against): &(usize, usize), own: &Boxed, least: f64| {
            let both = parts.get(part).zip(others.get(against));
            both.map_or(f64::MIN, |(part, other)| own.meets_by(part, other, least))
        };
        let is_pair = pairs.contains(&before);
        let mut best = is_pair.then(|| (bars(&before, &own, f64::MIN), before));
        if best.is_none_or(|(by, _)| by < MEETS_MM) {
            let middle = own.middle();
            let mut deepest: Vec<(f64, (usize, usize))> = pairs
                .iter()
                .map(|&pair| (bars(&pair, &middle, MEETS_MM), pair))
                .filter(|own| own.0 >= MEETS_MM)
                .collect();
            if deepest.is_empty() {
                return Never::Free(middle.pose());
            }
            deepest.sort_by(|a, b| b.0.total_cmp(&a.0));
            let asked = deepest.iter().take(ASKED).map(|&(_, pair)| (bars(&pair, &own, f64::MIN), pair));
            best = asked.max_by(|a, b| a.0.total_cmp(&b.0));
        }
        let Some((by, pair)) = best else { return Never::NotProven };
        if by >= MEETS_MM {
            let (part, against) = pair;
            proof.cells.push(Cell { places: own.places, headings: own.headings, part, against });
            continue;
        }
        // Along what it gains the most by.
        let is_wide = own.headings[1] - own.headings[0] > MOST_UDEG;
        let first = if is_wide { 2 } else { 0 };
        let gains = (first..3).map(|along| (bars(&pair, &own.narrowed(along), f64::MIN), along));
        let Some(along) = gains.max_by(|a, b| a.0.total_cmp(&b.0)).map(|own| own.1) else {
            return Never::NotProven;
        };
        let Some(halves) = own.halves(along) else { return Never::NotProven };
        open.extend(halves.map(|half| (half, pair)));
    }
    Never::Proven(Box::new(proof))
}

/// What is asked of one pose after another: which solids meet there.
pub(super) struct Meeting {
    parts: Vec<Convex>,
    others: Vec<Convex>,
}

/// How deep a pair is in one another, mm, the way that parts the set-up from what stands, and the pair by position.
pub(super) type Met = (f64, DVec2, (usize, usize));

impl Meeting {
    pub(super) fn of(given: &Given) -> Self {
        let (set_up, stands) = given.solids();
        let convex = |all: &[crate::never::Solid]| all.iter().map(Convex::of).collect();
        Self { parts: convex(&set_up), others: convex(&stands) }
    }

    /// The pairs that meet at a pose, the deepest first.
    pub(super) fn at(&self, pose: &PlanPose) -> Vec<Met> {
        let mut met: Vec<Met> = Vec::new();
        for (nth, part) in self.parts.iter().enumerate() {
            for (against, other) in self.others.iter().enumerate().filter(|own| part.shares_height(own.1)) {
                if let Some((by, away)) = part.depth_at(pose, other).filter(|own| own.0 >= MEETS_MM) {
                    met.push((by, away, (nth, against)));
                }
            }
        }
        met.sort_by(|a, b| b.0.total_cmp(&a.0));
        met
    }

    /// How deep the deepest are at a pose, mm; 0 if none meet.
    pub(super) fn deepest_at(&self, pose: &PlanPose) -> f64 {
        self.at(pose).first().map_or(0.0, |own| own.0)
    }
}

/// Whole micrometres of millimetres.
fn um(mm: f64) -> i64 {
    (mm * 1_000.0).round() as i64
}

/// Millimetres of micrometres.
fn mm(um: i64) -> f64 {
    um as f64 * 1e-3
}

/// Cosine and sine of a heading in millionths of a degree.
fn towards(udeg: i64) -> DVec2 {
    let (sin, cos) = angle::sin_cos(angle::radians(udeg as f64 * 1e-6));
    DVec2::new(cos, sin)
}
