//! What was taped between marks and what it proves, in words.

use baywright_survey::decide::Said;

use super::Words;
use crate::model::Id;
use crate::proof::{Doubt, Figure, FigureOf, Measured, NextTape, Off, Origin, Row};

/// What of a line of readings is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BadTape<'a> {
    /// It has so many columns.
    Columns(usize),
    /// No mark of the plan is called so.
    NoMark(&'a str),
    /// Both ends are one mark.
    OneMark,
    /// This is no length.
    NoLength(&'a str),
    /// This is no day and time.
    NoMoment(&'a str),
    /// This is no temperature.
    NoTemperature(&'a str),
}

texts! {
    proof: ProofTexts, "Every fixed text about what was taped between marks.";
    title, "The page.";
    as_measured, "Over all that is said of what was measured.";
    read, "The column of what was read.";
    should_read, "The column of what it should read.";
    allowance, "The column of how far off it may read.";
    says_nothing_of_sensor, "What the answer is about, and what it is not.";
    rule, "By which rule it is decided.";
    read_file, "Opens the system's own window for a file of readings.";
    read_file_why, "What it does.";
    lay_anew, "Takes all readings away.";
    lay_anew_why, "What that does.";
    squareness_open, "A plate's squareness that no join of marks gives.";
    details, "Opens the figures behind the answer.";
    test, "The column of each reading's test.";
    costs, "Over the share of each step.";
    enough, "Nothing more is to be taped.";
    nothing_helps, "No tape makes it surer.";
    fits, "All that was read fits.";
    unread, "Nothing was read yet.";
}

impl ProofTexts {
    sentences! { proof:
        /// How many readings are of marks that are not in the plan.
        strange(count: usize) -> String;
        /// A distance, what it should read and how far off it may.
        should(from: &str, to: &str, length: &str, allowance: &str) -> String;
        /// The name of a box to type in: what the tape read between two marks.
        box_of(from: &str, to: &str) -> String;
        /// A mark that is laid a second time, and how far apart both may lie.
        again_within(mark: &str, within: &str) -> String;
        /// What a box is for in which that is entered.
        box_of_again(mark: &str) -> String;
        /// Draws how far beside their places the marks lie, so many times larger.
        draw_as_laid(times: usize) -> String;
        /// A line of a file is no reading, and why.
        bad_tape_in(file: &str, number: usize, what: BadTape<'_>) -> String;
        /// A file has none, or more than are taken.
        so_many_tapes_in(file: &str, found: usize, most: usize) -> String;
        /// What was read.
        tapes_read(file: &str, count: usize) -> String;
        /// How many distances were read of how many.
        so_many(read: usize, of: usize) -> String;
    }
}

impl Words<'_> {
    /// What a distance should read, or how far apart a mark may lie that is laid a second time; and what the box for it is for.
    pub fn tape_row(&self, row: &Row) -> [String; 2] {
        let locale = self.locale();
        let texts = locale.language.proof();
        let (from, to) = (row.from.as_str(), row.to.as_str());
        if row.is_again() {
            return [texts.again_within(from, &locale.length(row.allowance_mm)), texts.box_of_again(from)];
        }
        let allowance = locale.bare(row.allowance_mm);
        [texts.should(from, to, &locale.length(row.should_mm), &allowance), texts.box_of(from, to)]
    }

    /// What a figure comes to by what was measured, in one sentence with its decision.
    pub fn measured(&self, own: &Measured) -> String {
        match own {
            Measured::Marks(figure) => self.laid(figure),
            Measured::Stand(stand, figure) => {
                format!("{}. {}", self.stand_title(stand), self.stand_figure(figure))
            }
        }
    }

    sentences! { about:
        /// What a figure of a target comes to, in one sentence with its decision.
        laid(figure: &Figure) -> String;
        /// What does not fit, in one sentence with what to do; `None` if all does.
        doubt(doubt: &Doubt) -> Option<String>;
        /// A mark that was laid twice, how far apart both lie and may lie, mm.
        laid_twice(mark: &Id, apart_mm: f64, within_mm: f64) -> String;
        /// What to tape next.
        next_tape(next: &NextTape) -> String;
        /// The same where figures stand beside it: of which it speaks, and which no distance between marks settles.
        next_tape_of(next: &NextTape, figures: &[Figure]) -> String;
        /// What a mark or a reading is off by.
        off_by_tape(off: &Off) -> String;
        /// Where an uncertainty comes from.
        origin(origin: &Origin) -> String;
        /// What of a target is asked.
        asked_of_target(of: FigureOf) -> &'static str;
    }
}

/// Figures that cannot be told: those that no distance between the marks settles, and the others.
pub(super) fn stuck_and_open(figures: &[Figure]) -> [Vec<&Figure>; 2] {
    let open = figures.iter().filter(|own| !matches!(own.said, Said::Inside { .. } | Said::Outside { .. }));
    let (stuck, open) = open.partition(|own| own.is_unchecked() && own.no_tape_shows);
    [stuck, open]
}
