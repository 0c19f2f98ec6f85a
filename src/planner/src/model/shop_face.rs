//! What a shop says of itself to a customer: its name, its picture, and how long each step of an aiming takes it. None of it
//! changes an answer, and none of it has a default: what a shop has not said is not said for it.

use super::validate::limits::{Range, Unit};
use super::{InstrumentList, Shop};

/// A step of the work that a customer can watch, in the order in which it is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WorkStep {
    /// Clear the floor.
    Clear,
    /// Put the car in its place.
    Park,
    /// Lay the marks.
    Lay,
    /// Set up the target.
    Stand,
    /// Run the aiming.
    Aim,
    /// Put things back.
    PutBack,
}

impl WorkStep {
    /// All of them, in their order.
    pub const ALL: [Self; 6] = [Self::Clear, Self::Park, Self::Lay, Self::Stand, Self::Aim, Self::PutBack];

    /// How many minutes a step may take: up to a day, common practice, no source.
    pub const MINUTES: Range = Range { low: 0.0, high: 1_440.0, above: false, unit: Unit::None };

    /// Its field in a file.
    pub const fn field(self) -> &'static str {
        match self {
            Self::Clear => "clear_min",
            Self::Park => "park_min",
            Self::Lay => "lay_min",
            Self::Stand => "stand_min",
            Self::Aim => "aim_min",
            Self::PutBack => "put_back_min",
        }
    }
}

/// What a shop says of itself.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopFace {
    /// Its name; up to 120 characters on one line.
    pub name: Option<String>,
    /// The file of its picture: beside the shop's own document, unless it says where.
    pub picture: Option<String>,
    /// How long each step takes it.
    pub minutes: Minutes,
}

/// How long each step takes a shop; see [`ShopFace::minutes`].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Minutes([Option<f64>; WorkStep::ALL.len()]);

impl ShopFace {
    /// How long a step takes, minutes, 0 to 1 440; `None` if the shop has not said it.
    pub fn minutes(&self, step: WorkStep) -> Option<f64> {
        self.minutes.0.get(step as usize).copied().flatten()
    }

    /// The same with another time for a step.
    #[must_use]
    pub fn with_minutes(mut self, step: WorkStep, minutes: Option<f64>) -> Self {
        if let Some(own) = self.minutes.0.get_mut(step as usize) {
            *own = minutes;
        }
        self
    }

    /// How long these steps take together, minutes; `None` if the shop has not said it of every one, or there are none.
    pub fn minutes_of(&self, steps: impl IntoIterator<Item = WorkStep>) -> Option<f64> {
        let mut steps = steps.into_iter().peekable();
        steps.peek()?;
        steps.map(|step| self.minutes(step)).sum()
    }
}

/// The whole document of a shop: what it holds itself to, and what it says of itself.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShopDocument {
    /// What every answer is judged by.
    pub shop: Shop,
    /// What customers are told.
    pub face: ShopFace,
    /// What it measures with.
    pub instruments: InstrumentList,
}

/// Settings of a shop that says nothing of itself.
impl From<Shop> for ShopDocument {
    fn from(shop: Shop) -> Self {
        Self { shop, ..Self::default() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minutes_are_summed_only_if_each_is_known() {
        let face = ShopFace::default().with_minutes(WorkStep::Park, Some(10.0));
        let face = face.with_minutes(WorkStep::Aim, Some(15.5));
        assert_eq!(face.minutes_of([WorkStep::Park, WorkStep::Aim]), Some(25.5));
        assert_eq!(face.minutes_of([WorkStep::Park, WorkStep::Lay]), None);
        assert_eq!(face.minutes_of([]), None);
        for (place, step) in WorkStep::ALL.into_iter().enumerate() {
            assert_eq!(step as usize, place);
        }
    }
}
