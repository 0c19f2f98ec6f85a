//! What must move so that a car can stand, in words.

use super::Words;
use crate::clearing::{Move, Way};

texts! {
    clearing: ClearingTexts, "Every fixed text about what must move.";
    ask, "Has it looked for.";
    ask_why, "What that does.";
    title, "Over a way to make room.";
    looking, "The sets are looked at.";
    then_park, "Before how the car is parked then.";
    do_it, "Does all of it.";
    proven, "No set that takes less leaves the car a place.";
    best_found, "One that takes less may.";
    partial, "Not all was looked at.";
    nothing_goes, "Nothing in the bay can be moved.";
    never, "It fits nowhere even with all gone that can go.";
    not_found, "No way was found.";
    rule, "What is counted, and what is not asked.";
    then_ready, "Nothing needs care then.";
    then_care, "Something needs care then.";
    look_again, "Looks anew.";
}

impl ClearingTexts {
    sentences! { clearing:
        /// How many of how many headings were looked at.
        looked_at(done: usize, all: usize) -> String;
    }
}

impl Words<'_> {
    sentences! { about:
        /// One thing that goes, as a sentence.
        goes(own: &Move) -> String;
        /// What all of it takes.
        way_takes(way: &Way) -> String;
    }
}
