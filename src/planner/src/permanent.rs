//! Lines and points that stay on the floor: the fewest that serve a list of aimings from the fewest places to park.
//!
//! A place to park is one at which nothing stops any of its aimings while the car is as far off as the shop parks one *and* the lines are
//! as far off as they may be laid: along the room's walls, where a line can be painted. On the floor there are then, for each: the line
//! under the middle of the cars, the line under their front axles, a point under each rear axle, and the marks of those targets that can
//! stay. What coincides is one. Each is told by two distances square to two walls, and with how well it must be laid.
//!
//! **How well.** A car on the lines is off by what they are off and by how it is put on them. Nothing stops it if both together are within
//! the place's slack. A target's mark that stays proves something only if mark, lines and car together are within what the target may be
//! off: each of the three is given a third of that (ours, no source). Where a third is finer than a tape does, the mark cannot stay: it is
//! laid from the wheels each time.

mod floor;
mod kept;
mod parking;

use crate::matrix::Line;

pub use floor::{Direction, FloorLine, MOST_MM, OnFloor, Point, PointOf, Serves, Stay, Target};
pub use kept::{Kept, is_kept, kept_in};
pub use parking::{Asked, How, MOST_EXACT, Parked, ParkingPlace, fewest};

/// What is proposed for a list.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// Where cars are parked, and for what.
    pub parked: Parked,
    /// What is on the floor then.
    pub floor: OnFloor,
}

/// The fewest lines and points for a list; `tell` hears of how many of its lines it is known where they fit.
pub fn proposed(
    lines: &[Line],
    asked: &Asked,
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(usize),
) -> Proposal {
    let parked = fewest(lines, asked, is_stopped, tell);
    let floor = OnFloor::of(lines, &parked.places, asked);
    Proposal { parked, floor }
}
