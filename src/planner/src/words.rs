//! The one place where sentences are made, from codes and typed values, given language and units.
//!
//! A technician reads them standing, from an arm's length: short, the number first, no jargon, directions from the car.
//! Names are used as typed; only the start of a sentence is given its capital.

#[macro_use]
mod dispatch;

pub mod aims;
pub mod another_plan;
pub mod clearing;
pub mod command_line;
pub mod customer;
pub mod drawing;
pub mod echoes;
pub mod failed;
pub mod fits;
pub mod floor_sheets;
pub mod forms;
pub mod ground;
pub mod hand;
pub mod help;
pub mod helps;
pub mod imports;
pub mod instruments;
pub mod layers;
pub mod never;
pub mod on_paper;
pub mod owner_report;
pub mod permanent;
pub mod place;
pub mod plan;
pub mod proof;
pub mod proof_file;
pub mod record;
pub mod record_command;
pub mod record_page;
pub mod room_drawing;
pub mod rooms;
pub mod screen;
pub mod screws;
pub mod sheet_command;
pub mod sheets;
pub mod shop;
pub mod stand;
pub mod this_car;
pub mod visits;
pub mod way_in;

mod about;
mod bracketed;
mod deeds;
mod differences;
mod english;
mod german;
mod lengths;
mod letter;
mod matter;
mod numbers;
mod together;

use crate::check::finding::Code;
use crate::model::Arrangement;
use crate::model::fault::{Allowed, Fault, FileFault};

pub use lengths::Lengths;
pub use letter::letter;
pub use numbers::{Days, Decimal, Locale, Region, Thousands, Units};
pub use together::stand_together;

/// The languages that sentences can be made in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// German.
    German,
    /// English in brackets and longer: for tests, offered to nobody.
    Bracketed,
}

impl Language {
    /// Those that a person may choose.
    pub const OFFERED: [Self; 2] = [Self::English, Self::German];

    /// Its tag, as RFC 5646 has it: `en`, `de`; of the one for tests one for private use.
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
            Self::Bracketed => "x-bracketed",
        }
    }

    /// The offered one that a tag names.
    pub fn of_tag(tag: &str) -> Option<Self> {
        Self::OFFERED.into_iter().find(|own| own.tag() == tag)
    }

    /// How numbers and days are written where it is spoken, where nobody says otherwise.
    pub const fn region(self) -> Region {
        match self {
            Self::English | Self::Bracketed => Region::STANDARD,
            Self::German => Region::GERMANY,
        }
    }

    /// What is wrong with a file, in one sentence: where, what was found, what is allowed.
    pub fn file_fault(self, fault: &FileFault) -> String {
        said!(self, faults::file_fault(fault))
    }

    /// What was found where something else is allowed, as it stands within that sentence.
    pub fn found(self, fault: &Fault) -> String {
        said!(self, faults::found(fault, Lengths::InFile))
    }

    /// What is allowed there, as it stands within that sentence.
    pub fn allowed(self, allowed: &Allowed) -> String {
        said!(self, faults::allowed(allowed, Lengths::InFile))
    }

    /// What a finding's code means, in one sentence.
    pub fn code(self, code: Code) -> &'static str {
        said!(self, codes::code(code))
    }
}

/// Makes the sentences about one arrangement.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    arrangement: &'a Arrangement,
    locale: Locale,
}

impl<'a> Words<'a> {
    /// Sentences about this arrangement.
    pub const fn new(arrangement: &'a Arrangement, locale: Locale) -> Self {
        Self { arrangement, locale }
    }

    /// What they are about.
    pub const fn arrangement(&self) -> &'a Arrangement {
        self.arrangement
    }

    /// The language, units and region in use.
    pub const fn locale(&self) -> Locale {
        self.locale
    }
}

/// The same text with a capital at its start.
pub fn sentence_start(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
