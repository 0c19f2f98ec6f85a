//! What a set of things takes, so that sets can be put in an order: hands before money, or money before hands.

use std::ops::{Add, Sub};

/// What is taken, what counts first and what counts among equals. Of sets this is the sum.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost {
    pub first: u64,
    pub second: u64,
}

/// What counts first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum By {
    /// Hands; among equals money.
    Hands,
    /// Money, where hands alone do nothing; among equals hands.
    Money,
}

impl By {
    /// The cost of so many hands and so many hundredths of the owner's money.
    pub(super) fn cost(self, hands: u32, hundredths: u64) -> Cost {
        match self {
            Self::Hands => Cost { first: hands.into(), second: hundredths },
            Self::Money => Cost { first: hundredths, second: hands.into() },
        }
    }
}

impl Add for Cost {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        let sum = |a: u64, b: u64| a.saturating_add(b);
        Self { first: sum(self.first, other.first), second: sum(self.second, other.second) }
    }
}

impl Sub for Cost {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        let rest = |a: u64, b: u64| a.saturating_sub(b);
        Self { first: rest(self.first, other.first), second: rest(self.second, other.second) }
    }
}
