//! English: every sentence and every text of it.
//!
//! Short, the number first, no jargon, directions from the car. Names are used as typed; only the start of a sentence is given
//! its capital.

pub mod faults;
pub mod forms;
pub mod help;
pub mod rooms;
pub mod screen;
pub mod visits;

mod assumed;
mod cure;
mod deeds;
mod drawing;
mod finding;
mod marks;
mod names;
mod numbers;
mod summary;

use super::drawing::Lies;
use super::{Language, Units, Words, sentence_start};
use crate::model::Arrangement;

/// Makes the sentences about one arrangement.
pub struct About<'a> {
    arrangement: &'a Arrangement,
    units: Units,
}

impl<'a> About<'a> {
    /// As these words are asked for.
    pub const fn of(words: &Words<'a>) -> Self {
        Self { arrangement: words.arrangement, units: words.units }
    }

    fn length(&self, mm: f64) -> String {
        self.units.length(mm)
    }
}

/// "a", "a and b", "a, b and c".
pub(super) fn listed(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}
