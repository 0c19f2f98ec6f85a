//! Figures that are known within bounds.

/// From `low` to `high`, `low <= high`, in the unit of what it is of. Decibels of nothing are endlessly low, and against nothing
/// endlessly high; neither end is ever no number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    low: f64,
    high: f64,
}

impl Band {
    /// Nothing added, nothing taken.
    pub const NOTHING: Self = Self { low: 0.0, high: 0.0 };

    /// Between two figures, in any order; `None` if one is no number.
    pub fn between(one: f64, other: f64) -> Option<Self> {
        (!one.is_nan() && !other.is_nan()).then(|| Self { low: one.min(other), high: one.max(other) })
    }

    /// One figure; `None` if it is no number.
    pub fn of(figure: f64) -> Option<Self> {
        Self::between(figure, figure)
    }

    /// The least that it may be.
    pub const fn low(&self) -> f64 {
        self.low
    }

    /// The most that it may be.
    pub const fn high(&self) -> f64 {
        self.high
    }

    /// The least that holds both.
    pub fn around(&self, other: &Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }

    /// The sum of two figures that have nothing to do with each other; `None` of an endless one and one that is endless the other
    /// way.
    pub fn plus(&self, other: &Self) -> Option<Self> {
        Self::between(self.low + other.low, self.high + other.high)
    }
}
