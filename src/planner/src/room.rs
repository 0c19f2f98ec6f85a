//! A room as a person tapes it: length, turn, length, turn ... round to the start. How far it fails to close, how that is
//! spread, which wall would explain it.
//!
//! The walk keeps the room on its left: turns are positive to the left, and a room's turns make a full turn. Lengths in mm,
//! angles in radians, the first corner at the origin, the first wall along `start`.

use baywright_geometry::{DVec2, angle};

/// One wall as it was taped, and the turn at its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// The wall's length, mm.
    pub length_mm: f64,
    /// How far one turns at its end, to the left, radians; a corner that sticks out into the room turns to the right.
    pub turn_rad: f64,
}

/// A walk round a room.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// The corners as taped: the first one, then each wall's end; the last should be the first again.
    pub places: Vec<DVec2>,
    /// From where the walk began to where it ended: what the tape left open, mm.
    pub gap: DVec2,
    /// By how much the turns fail to make one full turn, radians, positive if they make more.
    pub turn_gap_rad: f64,
    /// All lengths together, mm.
    pub perimeter_mm: f64,
}

/// Walks round a room as it was taped; `start` is the direction of the first wall.
pub fn walk(start: f64, legs: &[Leg]) -> Walk {
    let mut places = vec![DVec2::ZERO];
    let (mut at, mut heading) = (DVec2::ZERO, start);
    for leg in legs {
        let (sin, cos) = angle::sin_cos(heading);
        at += DVec2::new(cos, sin) * leg.length_mm;
        places.push(at);
        heading += leg.turn_rad;
    }
    let turned: f64 = legs.iter().map(|leg| leg.turn_rad).sum();
    Walk {
        places,
        gap: at,
        turn_gap_rad: turned - std::f64::consts::TAU,
        perimeter_mm: legs.iter().map(|leg| leg.length_mm).sum(),
    }
}

/// The corners with the gap spread over the walls by their lengths: the compass rule of land surveying, which is right where
/// lengths and turns are known equally well (Bowditch; the correction of each leg is the gap times its length over the
/// perimeter). The turns are first made to close, each by the same share, as is usual before the rule.
pub fn spread(start: f64, legs: &[Leg]) -> Vec<DVec2> {
    let count = legs.len();
    if count == 0 {
        return Vec::new();
    }
    let each = walk(start, legs).turn_gap_rad / count as f64;
    let level: Vec<Leg> = legs.iter().map(|leg| Leg { turn_rad: leg.turn_rad - each, ..*leg }).collect();
    let walked = walk(start, &level);
    if walked.perimeter_mm <= 0.0 {
        return Vec::new();
    }
    let mut so_far = 0.0;
    let mut corners = Vec::with_capacity(count);
    for (place, leg) in walked.places.iter().zip(&level) {
        corners.push(*place - walked.gap * (so_far / walked.perimeter_mm));
        so_far += leg.length_mm;
    }
    corners
}

/// What alone would explain the gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Slip {
    /// A wall's length, by position, and what it would have to be, mm.
    Length {
        /// The wall.
        wall: usize,
        /// The length that closes the room.
        would_be: f64,
    },
    /// The turn at the end of a wall, by position, and what it would have to be, radians.
    Turn {
        /// The wall at whose end one turns.
        wall: usize,
        /// The turn that closes the room.
        would_be: f64,
    },
}

/// A slip with what it would leave open.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Explains {
    /// What would be wrong.
    pub slip: Slip,
    /// The gap that stays when it is put right, mm.
    pub leaves: f64,
}

/// A single slip explains a gap if what stays is below this share of it.
const EXPLAINED: f64 = 0.2;

/// Which single wall, or single turn, would explain the gap, the best first. If the gap is below `least` mm the tape's own
/// spread explains it, and only turns that make no full turn need the last one to be another. A length can be told from another wall's only if no other wall runs the same way; all that
/// explain it are given.
pub fn slips(start: f64, legs: &[Leg], least: f64) -> Vec<Explains> {
    let walked = walk(start, legs);
    let gap = walked.gap.length();
    let turns_open = walked.turn_gap_rad.abs() > TURN_SLACK;
    if gap < least {
        // Nothing hangs on the last turn but the turns' own sum.
        let last = legs.len().checked_sub(1).filter(|_| turns_open);
        return last
            .zip(legs.last())
            .map(|(wall, leg)| Explains {
                slip: Slip::Turn { wall, would_be: angle::wrapped(leg.turn_rad - walked.turn_gap_rad) },
                leaves: gap,
            })
            .into_iter()
            .collect();
    }
    let mut found = Vec::new();
    let mut heading = start;
    for (wall, leg) in legs.iter().enumerate() {
        let (sin, cos) = angle::sin_cos(heading);
        let along = DVec2::new(cos, sin);
        let by = -walked.gap.dot(along);
        let leaves = (walked.gap + along * by).length();
        if leaves <= gap * EXPLAINED && leg.length_mm + by > 0.0 {
            found.push(Explains { slip: Slip::Length { wall, would_be: leg.length_mm + by }, leaves });
        }
        heading += leg.turn_rad;
        // Turning what follows about this corner brings the end nearest to the start on a circle.
        if let Some(&corner) = walked.places.get(wall + 1)
            && wall + 1 < legs.len()
        {
            let (end, begin) = (walked.gap - corner, -corner);
            let leaves = (end.length() - begin.length()).abs();
            if leaves <= gap * EXPLAINED && end.length() > 0.0 && begin.length() > 0.0 {
                let by = angle::wrapped(angle::heading(begin) - angle::heading(end));
                found.push(Explains {
                    slip: Slip::Turn { wall, would_be: angle::wrapped(leg.turn_rad + by) },
                    leaves,
                });
            }
        }
    }
    // A turn that was read wrongly also leaves the turns open; one that was not, does not.
    found.retain(|own| matches!(own.slip, Slip::Turn { .. }) == turns_open);
    found.sort_by(|a, b| a.leaves.total_cmp(&b.leaves));
    found
}

/// Turns that make a full turn within this are right: half a degree.
pub const TURN_SLACK: f64 = std::f64::consts::PI / 360.0;
