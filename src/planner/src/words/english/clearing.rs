//! English of the same: see `words/clearing.rs`.

use super::names::the;
use super::{About, Language, listed, sentence_start};
use crate::assessment::Step;
use crate::clearing::{Move, Way};
use crate::model::Effort;
use crate::words::clearing::ClearingTexts;

/// The fixed texts.
pub const TEXTS: ClearingTexts = ClearingTexts {
    language: Language::English,
    ask: "What must move?",
    ask_why: "Looks for what takes the least to move so that the car can stand, where each thing goes, and where the car is parked then",
    title: "What must move",
    looking: "Trying where things can go \u{2026}",
    then_park: "Then park:",
    do_it: "Move all and park it there",
    proven: "Proven: nothing that takes less leaves the car a place, in any heading a degree apart. How far things go is the shortest found.",
    best_found: "The best found. That less would not do is not proven.",
    partial: "Stopped before all was tried: less may do.",
    nothing_goes: "Nothing in this bay can be moved, and with all where it is the car fits nowhere in any heading looked at.",
    never: "Even with everything gone that can be moved the car fits nowhere in any heading looked at, a degree apart.",
    not_found: "No way was found to move things so that the car can stand. That is no proof that there is none.",
    rule: "Least is what takes the fewest hands: one person counts 1, two people 2, a fork lift 4, and out of the bay twice that. Things are moved without a turn, lift arms are left as they are; how they get there, whether the car can be driven there, and what they then stand in the way of in other bays or set-ups, is not asked.",
    then_ready: "Then nothing stops the aiming.",
    then_care: "Then nothing stops the aiming; something needs care, which is told once it is done.",
    look_again: "Try again",
};

/// How many headings were looked at.
pub fn looked_at(done: usize, all: usize) -> String {
    format!("Looked at {done} of {all} headings without each thing")
}

impl About<'_> {
    /// One thing that goes.
    pub fn goes(&self, own: &Move) -> String {
        match &own.step {
            Step::MoveThing { thing, .. } if !own.towards.is_empty() => {
                let parts = own.towards.iter();
                let parts =
                    parts.map(|part| format!("{} towards {}", self.at_least(part.mm), the(&part.wall)));
                // A name that ends in a figure would run into the length.
                let by_how_much = if thing.as_str().ends_with(char::is_numeric) { " by" } else { "" };
                let parts: Vec<String> = parts.collect();
                format!("Move {}{by_how_much} {}.", the(thing), listed(&parts))
            }
            step => format!("{}.", sentence_start(&self.step(step))),
        }
    }

    /// What all of it takes.
    pub fn way_takes(&self, way: &Way) -> String {
        let hands = match self.hardest(way) {
            Some(Effort::ForkLift) => "It takes a fork lift.",
            Some(Effort::TwoPeople) => "It takes two people.",
            Some(Effort::OnePerson) => "One person can do it.",
            Some(Effort::Fixed) | None => return String::new(),
        };
        match way.moves.len() {
            0 | 1 => hands.to_owned(),
            n => format!("{n} things go. {hands}"),
        }
    }
}
