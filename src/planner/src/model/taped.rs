//! Distances between floor marks as a tape read them.

use super::{Id, Taken};

/// So many readings of marks an arrangement may have.
pub const MOST_TAPED: usize = 200;

/// What a tape read between two marks of the plan, as they were laid for this car where it stands; or between both layings of one.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkTaped {
    /// From this mark.
    pub from: Id,
    /// To this one.
    pub to: Id,
    /// What the tape read, mm, as it read it: nothing is corrected in it.
    pub read_mm: f64,
    /// By whom, when, with what.
    pub taken: Taken,
}

impl MarkTaped {
    /// A reading of which nothing else is known.
    pub fn new(from: Id, to: Id, read_mm: f64) -> Self {
        Self { from, to, read_mm, taken: Taken::default() }
    }

    /// Whether it is of a mark to itself: laid a second time from the plan, how far it comes to lie from where it was laid first.
    pub fn is_again(&self) -> bool {
        self.from == self.to
    }

    /// Whether it is between these two, whichever way.
    pub fn is_between(&self, one: &Id, other: &Id) -> bool {
        (self.from == *one && self.to == *other) || (self.from == *other && self.to == *one)
    }
}
