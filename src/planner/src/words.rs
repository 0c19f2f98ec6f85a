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

mod english;
mod numbers;

use crate::model::Arrangement;

pub use english::deeds::Deed;
pub use english::summary::letter;
pub use english::{drawing, forms, help, rooms, screen, visits};
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

/// The same text with a capital at its start.
pub fn sentence_start(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
