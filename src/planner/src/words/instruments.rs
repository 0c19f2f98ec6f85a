//! A shop's instruments, how a reading was taken, marks laid twice, and marks that stay, in words.

use super::Words;
use crate::history::Drift;
use crate::model::{InstrumentFigure, InstrumentKind, MarkTaped, Taken};
use crate::proof::Hand;

/// What of a line of checks is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BadCheck<'a> {
    /// It has so many columns.
    Columns(usize),
    /// This is no day.
    NoDay(&'a str),
    /// No wall and no other mark that stays is called so.
    NoSource(&'a str),
    /// Both are from the same.
    OneSource,
    /// This is no length.
    NoLength(&'a str),
    /// There are more than are taken.
    TooMany,
}

texts! {
    instruments: InstrumentTexts, "Every fixed text about instruments and how a reading was taken.";
    heading, "The shop's own instruments.";
    about, "What the list is for.";
    none_yet, "There is none.";
    add, "Puts one into the list.";
    remove, "Takes it off the list.";
    name, "What an instrument is called.";
    kind, "What kind it is.";
    class, "Its class.";
    class_hint, "What that is.";
    serial, "Its serial number.";
    checked, "When it was checked last.";
    due, "When it is due.";
    day_hint, "How a day is typed.";
    not_a_day, "What was typed is no day.";
    taped_by, "Who reads the tape.";
    taped_by_hint, "What that is for.";
    with, "With what it is read.";
    with_any, "No instrument is named.";
    celsius, "How warm it is.";
    celsius_hint, "What that is for.";
    list_them, "Leads to the shop's instruments.";
    lay_again, "Says that the marks were laid a second time.";
    lay_again_why, "What that does.";
    marks_that_stay, "The marks that stay on the floor.";
    no_marks_that_stay, "There is none.";
    add_mark, "Puts one there.";
    remove_mark, "Takes it away.";
    checks, "What was measured whenever it was checked.";
    checks_hint, "How that is typed.";
    mark_x, "Where it is, along the bay.";
    mark_y, "Where it is, across the bay.";
}

impl InstrumentTexts {
    sentences! { instruments:
        /// What a kind of instrument is called.
        kind_of(kind: InstrumentKind) -> &'static str;
        /// What a figure of an instrument is called.
        figure(kind: InstrumentKind, figure: InstrumentFigure) -> &'static str;
        /// What counts where a figure is left empty.
        stands_in(figure: InstrumentFigure, value: &str) -> String;
        /// An instrument as the head of its own fields.
        headed(name: &str, kind: InstrumentKind, overdue: bool) -> String;
        /// How the next readings are taken, where the check of what they are taken with is overdue.
        overdue_beside(line: &str) -> String;
        /// An instrument was set.
        set(name: &str) -> String;
        /// An instrument was taken off the list.
        gone(name: &str) -> String;
        /// The name of a new one.
        new_name(kind: InstrumentKind) -> &'static str;
        /// What a box is for, and how what stands in it was read.
        with_how(hint: &str, how: &str) -> String;
        /// No temperature.
        no_temperature(text: &str) -> String;
        /// A line of checks is none, and why.
        bad_check(number: usize, what: BadCheck<'_>) -> String;
        /// The name of a new mark that stays.
        new_mark() -> &'static str;
    }
}

impl Words<'_> {
    sentences! { about:
        /// With what marks are laid and stands are set, and where the shop's own figures count.
        laid_with() -> String;
        /// What a tape that is not at 20 °C reads of a distance; `None` if its temperature is not known.
        reads_warm(taken: &Taken, reads_mm: f64) -> Option<String>;
        /// How the next readings are taken, on one line.
        next_taken(taken: &Taken) -> String;
        /// How a reading was taken; `None` where nothing is known of it. `warmth_mm` is by how much more it is at 20 °C.
        taken(taped: &MarkTaped, warmth_mm: Option<f64>) -> Option<String>;
        /// What two layings show.
        hand(hand: &Hand) -> String;
        /// How far a mark drifted, and between which checks.
        drifted(drift: &Drift) -> String;
        /// The same as a short note beside a mark that needs no care.
        drift_note(drift: &Drift) -> String;
        /// A check that says nowhere.
        check_says_nothing(day: jiff::civil::Date) -> String;
    }
}
