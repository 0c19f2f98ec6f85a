//! Every tolerance of the crate, named, each with its reason.

/// Things nearer than this touch: far below anything a tape can read, far above the rounding of `f64` coordinates
/// of a hall 100 m long (about 1.5e-11 mm).
pub const TOUCH_MM: f64 = 1e-9;

/// How far a polygon that stands in for a circle may lie from it: a hundredth of a millimetre, a tenth of what the
/// finest workshop scale shows.
pub const SAGITTA_MM: f64 = 0.01;

/// No coordinate may be further from its origin than this: ten kilometres, larger than any building; it keeps the
/// products of two coordinates exact enough for [`TOUCH_MM`] to mean something.
pub const REACH_MM: f64 = 1e7;

/// No ring may have more corners than this: a hundred times the most intricate room, and small enough that a check
/// of all its edges stays instant.
pub const MOST_CORNERS: usize = 10_000;
