//! Lines and points that stay on the floor, in words.

use super::{Locale, Words};
use crate::model::Id;
use crate::permanent::{Parked, Point, PointOf, Target};

texts! {
    permanent: PermanentTexts, "Every fixed text about lines and points that stay on the floor.";
    open, "Shows the fewest for the list.";
    open_why, "What that shows.";
    put_away, "Takes them off the drawing.";
    title, "Over what is proposed.";
    about, "Of what list it is, and what is asked.";
    none, "There is no set-up with a place.";
    partial, "The search was stopped before its end.";
    older, "It is of the bay as it was before.";
    fewest, "No fewer places serve the list.";
    greedy, "There may be fewer places.";
    points, "Over the points of a place.";
    how_laid, "How the figures are to be read.";
    targets, "Over what of the targets' marks stays.";
    keep, "Puts all of it into the bay.";
    kept, "All of it is in the bay.";
    keep_why, "What is in the bay then.";
    is_kept, "Beside a point that is in the bay.";
    waits, "It cannot be kept while a car is being entered.";
    laid_within, "How well a mark that stays is to be laid.";
    laid_within_hint, "What counts where that is left empty.";
    line_to, "To which mark a line goes from it.";
    no_line, "No line goes from it.";
    floor_lines, "A heading: the lines between points that stay.";
    from, "Over the point that a line starts at.";
    to, "Over the point that it goes to.";
    long, "Over how long it is.";
    within_about, "On the sheet, what counts for a point without such a figure.";
}

impl PermanentTexts {
    sentences! { permanent:
        /// How many lines of the list were looked at.
        looked_at(done: usize, all: usize) -> String;
        /// A place to park by its number, from 1.
        place(number: usize) -> String;
        /// What a point is called in the bay, its place by its number, from 1.
        name(place: usize, of: PointOf) -> String;
        /// How many places, lines and points there are.
        counted(places: usize, lines: usize, points: usize) -> String;
        /// The set-ups that a place serves.
        serves(set_ups: &[String]) -> String;
        /// A set-up and how often a month it comes in, as it is written.
        so_often(set_up: &str, a_month: &str) -> String;
        /// How often a month cars are parked at a place, as it is written.
        used(a_month: &str) -> String;
        /// The set-ups that no place was found for.
        without(set_ups: &[String]) -> String;
    }

    /// Whether there could be fewer places, if that is to be said.
    pub fn how(&self, parked: &Parked) -> &'static str {
        match parked.how {
            crate::permanent::How::Fewest => self.fewest,
            crate::permanent::How::Greedy => self.greedy,
        }
    }
}

impl Words<'_> {
    sentences! { about:
        /// How far a point is from two walls.
        point_from_walls(point: &Point) -> String;
        /// What lies or stands where a point is to be painted.
        point_lies_on(point: &Point) -> Option<String>;
        /// That the mark of a point was moved so far that it does not serve any more, mm.
        point_moved(mark: &Id, by_mm: f64) -> String;
        /// What of a target stays.
        target_stays(target: &Target) -> String;
    }
}

impl Locale {
    /// How well something is to be laid, mm either way: in millimetres whatever is shown else, since a sixteenth of an inch is too coarse.
    pub fn laid_within(self, mm: f64) -> String {
        let places = usize::from(mm < 10.0 && (mm - mm.round()).abs() > 0.05);
        format!("\u{b1} {} mm", self.region.number(mm, places))
    }
}
