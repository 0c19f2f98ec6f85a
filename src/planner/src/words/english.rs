//! English: every sentence and every text of it.
//!
//! Short, the number first, no jargon, directions from the car. Names are used as typed; only the start of a sentence is given
//! its capital.

pub mod aims;
pub mod another_plan;
pub mod clearing;
pub mod codes;
pub mod command_line;
pub mod customer;
pub mod echoes;
pub mod failed;
pub mod faults;
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
pub mod record_open;
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
mod what_was_read;

mod assumed;
mod beside;
mod beyond;
mod car_unlikely;
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

use std::ops::Deref;

use super::drawing::Lies;
use super::matter::Matter;
use super::{Language, Units, Words, sentence_start};

/// Makes the sentences about one arrangement.
pub struct About<'a>(Matter<'a>);

impl<'a> About<'a> {
    /// As these words are asked for.
    pub const fn of(words: &Words<'a>) -> Self {
        Self(Matter { arrangement: words.arrangement, locale: words.locale })
    }
}

impl<'a> Deref for About<'a> {
    type Target = Matter<'a>;

    fn deref(&self) -> &Matter<'a> {
        &self.0
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
