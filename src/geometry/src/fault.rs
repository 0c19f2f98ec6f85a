//! Why a shape was refused, and where.

/// One reason why points do not make a shape. Rings count from 0 (the outer one), corners and edges from 0 in the
/// order they were given; edge `i` runs from corner `i` to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ShapeFault {
    /// A ring needs at least three corners.
    TooFewCorners {
        /// Which ring.
        ring: usize,
        /// How many corners it has.
        corners: usize,
    },
    /// More corners than [`crate::tolerance::MOST_CORNERS`].
    TooManyCorners {
        /// Which ring.
        ring: usize,
        /// How many corners it has.
        corners: usize,
    },
    /// A coordinate is not a number, infinite, or beyond [`crate::tolerance::REACH_MM`].
    OutOfReach {
        /// Which ring.
        ring: usize,
        /// Which corner.
        corner: usize,
    },
    /// Two corners in a row at the same place.
    RepeatedCorner {
        /// Which ring.
        ring: usize,
        /// The second of the two.
        corner: usize,
    },
    /// Two edges of one ring cross, overlap or touch where they are not neighbours.
    SelfCrossing {
        /// Which ring.
        ring: usize,
        /// One edge.
        first: usize,
        /// The other edge.
        second: usize,
    },
    /// The ring encloses nothing.
    NoArea {
        /// Which ring.
        ring: usize,
    },
    /// A hole that is not inside the outer ring, or crosses it.
    HoleOutside {
        /// Which ring.
        ring: usize,
    },
    /// Two holes cross, or one lies in the other.
    HolesOverlap {
        /// One hole.
        first: usize,
        /// The other hole.
        second: usize,
    },
    /// A circle whose radius is not a positive number.
    NoRadius {
        /// What was given.
        radius: f64,
    },
    /// A height range whose top is not above its bottom, or that is not a number.
    NoHeight {
        /// The lower end.
        bottom: f64,
        /// The upper end.
        top: f64,
    },
}

impl std::fmt::Display for ShapeFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{self:?}")
    }
}

impl std::error::Error for ShapeFault {}
