//! The proof that a set-up fits nowhere in a room: what it consists of, and who checks it ([`check`]).
//!
//! Plain figures. Lengths are whole micrometres, headings whole millionths of a degree, so that no gap hides between two cells and
//! no figure can be none. Points are `[x, y]`. The set-up is in the vehicle frame, as it moves: x forward, y left, origin on the
//! floor under the middle of the front axle; what stands is in the bay frame. A heading is anticlockwise from the bay's x. It
//! rests on solid against solid and on the room only.
//!
//! This room uses nothing of the others: who doubts the search reads [`check`] alone.

pub mod check;

pub use check::{MARGIN_UM, MOST_CELLS, Refused, check};

/// All the way round, millionths of a degree.
pub const ROUND_UDEG: i64 = 360_000_000;

/// Something convex between two heights.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Solid {
    /// What it is a part of, for who reads it.
    pub of: String,
    /// Its corners, anticlockwise, µm.
    pub ring: Vec<[i64; 2]>,
    /// From its underside to its top over the bay's floor, µm.
    pub heights: [i64; 2],
}

/// A box along the bay's axes, from one value to another in x and in y, both included, µm.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Area {
    /// Along x.
    pub x: [i64; 2],
    /// Along y.
    pub y: [i64; 2],
}

/// Places and headings, all of which are barred by one pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// The places of the vehicle frame's origin.
    pub places: Area,
    /// The headings, millionths of a degree, both included, from 0 to [`ROUND_UDEG`].
    pub headings: [i64; 2],
    /// Which part of the set-up, by position.
    pub part: usize,
    /// Which of what stands it meets, by position.
    pub against: usize,
}

/// The proof.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Proof {
    /// The solids of the set-up, vehicle frame.
    pub set_up: Vec<Solid>,
    /// What stands, bay frame: what cannot be moved, and what lies outside the room.
    pub stands: Vec<Solid>,
    /// A box about the room and the ground beyond its open doors: nothing of the set-up may be outside of it.
    pub room: Area,
    /// All places that the cells cover, with all headings: none is left at which the set-up would lie in the room's box.
    pub places: Area,
    /// The cells.
    pub cells: Vec<Cell>,
}
