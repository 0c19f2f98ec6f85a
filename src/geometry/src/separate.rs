//! Moves in plan that bring a shape clear of others.
//!
//! The moves that leave the mover in conflict are the inside of a *forbidden region*: the union of the Minkowski sums
//! of every convex part of an obstacle with every convex part of the mover turned about its origin. A shortest move
//! ends on the boundary of that region, at the foot of a perpendicular on one side or in the notch between two. These
//! places are computed and tried directly, so that a pocket which fits exactly is found too.

mod forbidden;
mod notch;

use glam::DVec2;

use crate::angle;
use crate::convex::touch_within;
use crate::outline::Outline;
use crate::overlap::overlaps;
use forbidden::Forbidden;

/// Two moves whose lengths differ by less count as equally short, and two that end nearer than this are one: a
/// millionth of a millimetre, far above rounding, far below anything that can be laid out.
pub const EQUAL_MOVES_MM: f64 = 1e-6;

/// The shortest ways out of a conflict.
#[derive(Clone, Debug, PartialEq)]
pub enum SeparatingMoves {
    /// There is no conflict.
    AlreadyApart,
    /// There is, and these moves end it.
    Moves {
        /// Their length, mm.
        length: f64,
        /// All moves of that length, by heading from 0 anticlockwise. A disc in the middle of a disc could leave in every
        /// direction: then the four along the axes.
        moves: Vec<DVec2>,
    },
}

/// The shortest moves after which `mover` shares no area with any of the obstacles. Afterwards they touch, or fit within
/// [`crate::tolerance::TOUCH_MM`].
pub fn separating_moves(obstacles: &[&Outline], mover: &Outline) -> SeparatingMoves {
    if !obstacles.iter().any(|obstacle| overlaps(obstacle, mover)) {
        return SeparatingMoves::AlreadyApart;
    }
    let region = Region::new(obstacles, mover);
    let mut feet = region.feet();
    feet.retain(|&t| region.is_free(t));
    let bound = feet.iter().map(|t| t.length()).fold(f64::INFINITY, f64::min) + EQUAL_MOVES_MM;
    let mut moves = feet;
    moves.extend(region.notches(bound).into_iter().filter(|&t| t.length() <= bound && region.is_free(t)));
    let length = moves.iter().map(|t| t.length()).fold(f64::INFINITY, f64::min);
    moves.retain(|t| t.length() <= length + EQUAL_MOVES_MM);
    let mut moves = distinct(moves);
    let turn = |t: DVec2| angle::heading(t).rem_euclid(std::f64::consts::TAU);
    moves.sort_by(|a, b| turn(*a).total_cmp(&turn(*b)));
    SeparatingMoves::Moves { length, moves }
}

/// Every locally shortest move: one for each side of the forbidden region whose nearest point cannot be bettered
/// nearby, and one for each notch. Ascending by length; empty if there is no conflict.
pub fn exits(obstacles: &[&Outline], mover: &Outline) -> Vec<DVec2> {
    if !obstacles.iter().any(|obstacle| overlaps(obstacle, mover)) {
        return Vec::new();
    }
    local_minima(obstacles, mover)
}

/// As [`exits`], without asking whether there is a conflict.
pub(crate) fn local_minima(obstacles: &[&Outline], mover: &Outline) -> Vec<DVec2> {
    let region = Region::new(obstacles, mover);
    let mut moves = region.feet();
    moves.extend(region.notches(f64::INFINITY));
    moves.retain(|&t| region.is_free(t));
    distinct(moves)
}

/// Ascending by length (ties by x, then y); of those that end at one place, the shortest.
fn distinct(mut moves: Vec<DVec2>) -> Vec<DVec2> {
    let key = |t: DVec2| (t.length(), t.x, t.y);
    moves.sort_by(|a, b| {
        let (a, b) = (key(*a), key(*b));
        a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.total_cmp(&b.2))
    });
    let mut kept: Vec<DVec2> = Vec::with_capacity(moves.len());
    for t in moves {
        let near = |k: &&DVec2| t.length() - k.length() <= EQUAL_MOVES_MM;
        if !kept.iter().rev().take_while(near).any(|k| k.distance(t) <= EQUAL_MOVES_MM) {
            kept.push(t);
        }
    }
    kept
}

/// The forbidden region as the convex sets whose union it is.
struct Region {
    sets: Vec<Forbidden>,
    /// How deep in a set a move may end and still be free: half of what counts as touching, so that the moved shape, with
    /// its own rounding, touches too.
    slack: f64,
}

impl Region {
    fn new(obstacles: &[&Outline], mover: &Outline) -> Self {
        let around = mover.bounds();
        let slack = obstacles.iter().map(|o| touch_within(&o.bounds(), &around)).fold(0.0, f64::max) * 0.5;
        let sets = obstacles.iter().flat_map(|o| forbidden::sets(o, mover, slack)).collect();
        Self { sets, slack }
    }

    fn is_free(&self, t: DVec2) -> bool {
        !self.sets.iter().any(|set| set.holds(t, self.slack))
    }

    /// The boundary points of each set that are nearest to staying put, going outwards.
    fn feet(&self) -> Vec<DVec2> {
        self.sets.iter().flat_map(Forbidden::feet).collect()
    }

    /// The notches between two sets, no further than `bound`.
    fn notches(&self, bound: f64) -> Vec<DVec2> {
        notch::between(&self.sets, bound, self.slack)
    }
}
