//! The one place where sentences are made, from codes and typed values, given language and units.
//!
//! A technician reads them standing, from an arm's length: short, the number first, no jargon, directions from the car.
//! Names are used as typed; only the start of a sentence is given its capital.

/// A table of texts: a struct with a field for each, and its English filling. Another language fills the same struct, and one
/// that lacks a text does not compile.
macro_rules! texts {
    ($table:ident, $about:literal; $($name:ident, $what:literal: $english:literal;)*) => {
        #[doc = $about]
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub struct $table {
            $(#[doc = $what] pub $name: &'static str,)*
        }

        const ENGLISH: $table = $table { $($name: $english,)* };
    };
}

pub mod drawing;
pub mod forms;
pub mod help;
pub mod rooms;
pub mod screen;
pub mod visits;

mod cure;
mod deeds;
mod finding;
mod marks;
mod names;
mod numbers;
mod summary;
pub use summary::letter;

use crate::model::Arrangement;

pub use deeds::Deed;
pub use numbers::Units;

/// The languages that sentences can be made in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Language {
    /// English.
    #[default]
    English,
}

/// Makes the sentences about one arrangement.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    arrangement: &'a Arrangement,
    units: Units,
    language: Language,
}

impl<'a> Words<'a> {
    /// Sentences about this arrangement.
    pub const fn new(arrangement: &'a Arrangement, units: Units, language: Language) -> Self {
        Self { arrangement, units, language }
    }

    /// The language in use.
    pub const fn language(&self) -> Language {
        self.language
    }

    /// The units in use.
    pub const fn units(&self) -> Units {
        self.units
    }
}

/// What was assumed, in one sentence: all of it if it is little, else the first of it and how much more.
pub(crate) fn assumed(names: &[String]) -> String {
    /// So many names are told.
    const MOST: usize = 6;
    if names.len() <= MOST {
        return format!("Assumed from the body class: {}.", listed(names));
    }
    let told: Vec<String> = names.iter().take(MOST - 2).cloned().collect();
    format!("Assumed, not entered: {} and {} more.", told.join(", "), names.len() - told.len())
}

/// The same text with a capital at its start.
pub fn sentence_start(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// "a", "a and b", "a, b and c".
pub(crate) fn listed(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}
