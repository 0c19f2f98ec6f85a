//! Does it fit nowhere? Looks for a proof ([`crate::never::Proof`]) that at every place and heading the solids of the set-up meet
//! what stands or lie out of the room; who checks it is another.
//!
//! Only solid against solid and room: keep-clear zones, sights, marks, runs, levels and what stands proud of the floor are left
//! out, so that what is proven here is so whatever is said of those. What is not proven may fit or not.

mod boxes;
mod document;
mod given;
mod search;
mod short;
mod solid;

use baywright_geometry::{DVec2, PlanPose, angle};

use crate::never::{MOST_CELLS, Proof};

use solid::Convex;

pub use document::Document;
pub use given::{APART_UM, Given, Stays, is_of};
pub use short::{Short, short};

/// A pair that meets by less than this, mm, bars nothing here: a little more than who checks it asks for.
const MEETS_MM: f64 = 0.2;
/// Corners lie along a line if they are no farther off it, mm.
const ON_MM: f64 = 1.0;
/// So far past what must be covered places are looked at, mm.
const PAST_MM: f64 = 1.0;

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

/// Looks for a proof, of so many cells at most ([`MOST_CELLS`] and no more). `is_stopped` is asked now and then; `tell` is told
/// how much of all places and headings is ruled out, from 0 to 1.
pub fn never(
    given: &Given,
    most_cells: usize,
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(f64),
) -> Never {
    let (set_up, stands) = given.solids();
    let proof = Proof { set_up, stands, room: given.room, places: given.places(), cells: Vec::new() };
    search::search(proof, most_cells.min(MOST_CELLS), is_stopped, tell)
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

    /// Where on the face of what stands a pair at a pose is deepest.
    pub(super) fn face(&self, pose: &PlanPose, (part, against): (usize, usize)) -> Option<DVec2> {
        let (part, other) = (self.parts.get(part)?, self.others.get(against)?);
        let (by, away) = part.depth_at(pose, other)?;
        let turned: Vec<DVec2> = part.ring.iter().map(|&p| *pose * p).collect();
        // A corner of the set-up in a face of the other, or the other way about.
        let of_part = foremost(&turned, -away) + away * by;
        let of_other = foremost(&other.ring, away);
        let is_on = other.sides.iter().all(|&(out, lies)| out.dot(of_part) - lies < ON_MM);
        Some(if is_on { of_part } else { of_other })
    }

    /// How deep the deepest are at a pose, mm; 0 if none meet.
    pub(super) fn deepest_at(&self, pose: &PlanPose) -> f64 {
        self.at(pose).first().map_or(0.0, |own| own.0)
    }
}

/// The middle of those corners of a ring that lie farthest along a way.
fn foremost(ring: &[DVec2], way: DVec2) -> DVec2 {
    let most = ring.iter().map(|p| way.dot(*p)).fold(f64::MIN, f64::max);
    let all: Vec<DVec2> = ring.iter().copied().filter(|p| way.dot(*p) > most - ON_MM).collect();
    all.iter().sum::<DVec2>() / all.len().max(1) as f64
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
