//! What surveyed levels say of a set-up and of the floor by itself, in words.

use super::Words;
use crate::ground::{CarStands, Even, Ground, Judged, LevelKnown, MarkLevel, SetHeight};
use crate::model::FloorSurvey;

texts! {
    ground: GroundTexts, "Every fixed text about what levels say.";
    title, "The page.";
    not_surveyed, "No level is known: what they would say.";
    not_here, "Levels are known, but not at the wheels and the target.";
    enter_levels, "Leads to where levels are entered.";
    enter_levels_why, "What it does.";
    heights_unknown, "No target's height to set is known.";
    drain, "That a fall is expected in many workshops.";
    details, "Opens the figures behind the answer.";
    rule, "By which rule it is decided.";
    of_the_car, "Over how each tyre stands.";
    of_the_marks, "Over the levels at the marks.";
    of_the_floor, "Over how even the floor is.";
    of_the_levels, "On a sheet: over what the levels come to.";
    contractor, "Over the one line that is for who levels the floor.";
    show, "Draws the lines of one level, and the profile.";
    show_why, "What that draws.";
    no_even, "Between the car and its targets too few levels are known for that.";
    sensor_by_profile, "The height rests on the sensor's as its profile has it.";
    taken_with, "The label of the field of the instrument.";
    taken_with_hint, "What may be typed there.";
    taken_by, "The label of the field of who took the levels.";
    taken_by_hint, "What may be typed there.";
    within, "The label of the field of how far a level may be off.";
    within_hint, "What may be typed there.";
}

impl GroundTexts {
    sentences! { ground:
        /// The profile's factor, beside it in the side view.
        profile(times: usize) -> String;
        /// Between which levels lines lie, beside them in the top view.
        contours(interval: &str) -> String;
    }
}

impl Words<'_> {
    sentences! { about:
        /// How the car stands lengthwise, with what that comes to.
        pitch(car: &CarStands) -> String;
        /// How it stands sideways.
        roll(car: &CarStands) -> String;
        /// How high a target is set.
        height_to_set(height: &SetHeight) -> String;
        /// Which tyre stands low, and what is laid under the wheels; `None` if nothing needs to be.
        shims(car: &CarStands) -> Option<String>;
        /// How far levels at all that stands there differ.
        spread(spread: &Judged) -> String;
        /// How surely a level is known, of what survey.
        levels_known(known: &LevelKnown, survey: Option<&FloorSurvey>) -> String;
        /// How much a figure of the car is, without what is asked: twist.
        twist(car: &CarStands) -> String;
        /// How a tyre stands against the plane of all four, by its position.
        tyre(car: &CarStands, at: usize) -> String;
        /// The level at a mark.
        mark_level(own: &MarkLevel) -> String;
        /// How even the floor is, a sentence each.
        evenness(even: &Even) -> Vec<String>;
        /// One line for who levels the floor: what it must be, and what it is.
        for_contractor(ground: &Ground) -> String;
        /// A level as it stands beside its line in a drawing: to the places that its interval has.
        contour(level_mm: f64, interval_mm: f64) -> String;
    }
}
