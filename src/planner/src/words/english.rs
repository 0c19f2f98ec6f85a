//! English: every sentence and every text of it.
//!
//! Short, the number first, no jargon, directions from the car. Names are used as typed; only the start of a sentence is given
//! its capital.

pub mod codes;
pub mod command_line;
pub mod customer;
pub mod faults;
pub mod forms;
pub mod hand;
pub mod help;
pub mod imports;
pub mod layers;
pub mod rooms;
pub mod screen;
pub mod shop;
pub mod visits;

mod assumed;
mod beyond;
mod cure;
mod deeds;
mod detail;
mod differences;
mod dimension;
mod drawing;
mod finding;
mod floor;
mod marks;
mod measure;
mod names;
mod numbers;
mod off_place;
mod parts;
mod shut_door;
mod summary;
mod title;
mod unsure;

use super::drawing::Lies;
use super::{Language, Locale, Units, Words, sentence_start};
use crate::model::Arrangement;

/// Makes the sentences about one arrangement.
pub struct About<'a> {
    arrangement: &'a Arrangement,
    locale: Locale,
}

impl<'a> About<'a> {
    /// As these words are asked for.
    pub const fn of(words: &Words<'a>) -> Self {
        Self { arrangement: words.arrangement, locale: words.locale }
    }

    fn length(&self, mm: f64) -> String {
        self.locale.length(mm)
    }

    fn at_least(&self, mm: f64) -> String {
        self.locale.at_least(mm)
    }

    fn bare(&self, mm: f64) -> String {
        self.locale.bare(mm)
    }

    fn degrees(&self, radians: f64) -> String {
        self.locale.region.degrees(radians)
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
