//! English: every sentence and every text of it.

pub mod drawing;
pub mod forms;
pub mod help;
pub mod rooms;
pub mod screen;
pub mod visits;

pub(super) mod deeds;
pub(super) mod summary;

mod cure;
mod finding;
mod marks;
mod names;

use super::{Language, Units, Words, numbers, sentence_start};

/// What was assumed, in one sentence: all of it if it is little, else the first of it and how much more.
pub(super) fn assumed(names: &[String]) -> String {
    /// So many names are told.
    const MOST: usize = 6;
    if names.len() <= MOST {
        return format!("Assumed from the body class: {}.", listed(names));
    }
    let told: Vec<String> = names.iter().take(MOST - 2).cloned().collect();
    format!("Assumed, not entered: {} and {} more.", told.join(", "), names.len() - told.len())
}

/// "a", "a and b", "a, b and c".
pub(super) fn listed(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}
