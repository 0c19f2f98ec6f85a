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
    ask_here: "What must move to stand here?",
    ask_here_why: "Looks for what takes the least to move so that nothing stops the aiming with the car at this very place, and where each thing goes",
    title: "What must move",
    title_here: "What must move to stand here",
    looking: "Trying where things can go \u{2026}",
    then_park: "Then park:",
    stays_here: "The car stays where it stands.",
    do_it: "Move all and park it there",
    do_here: "Move all of it",
    proven: "Proven: nothing that takes less leaves the car a place, in any heading a degree apart. How far things go is the shortest found.",
    proven_here: "Proven: nothing that takes less makes this place ready. How far things go is the shortest found.",
    proven_here_well: "Proven: nothing that takes less makes this place ready with as much to spare as parking takes. How far things go is the shortest found.",
    best_found: "The best found. That less would not do is not proven.",
    cheapest: "Proven: of all that takes as few hands nothing costs less.",
    maybe_cheaper: "That nothing else for as few hands costs less is not proven.",
    no_hands_proven: "It needs a builder. Proven: what hands can move makes no room.",
    no_hands_found: "It needs a builder: moving what hands can move was not found to make room.",
    builder_proven: "Proven: nothing that costs less makes room, of what has a cost entered and what hands can move.",
    builder_care: "Whether it may go, and what it carries, is for a licensed engineer and the local building code to say.",
    partial: "Stopped before all was tried: less may do.",
    nothing_goes: "Nothing in this bay can be moved, and with all where it is the car fits nowhere in any heading looked at.",
    never: "Even with everything gone that can be moved the car fits nowhere in any heading looked at, a degree apart.",
    not_found: "No way was found to move things so that the car can stand. That is no proof that there is none.",
    remains: "With everything gone that can be moved this still stops the aiming:",
    rule: "Least is what takes the fewest hands: one person counts 1, two people 2, a fork lift 4, and out of the bay twice that. Things are moved without a turn, lift arms are left as they are; how they get there, whether the car can be driven there, and what they then stand in the way of in other bays or set-ups, is not asked.",
    then_ready: "Then nothing stops the aiming.",
    then_care: "Then nothing stops the aiming; something needs care, which is told once it is done.",
    money_rule: "Costs are what was entered under What fits where for having a thing gone; a thing with no cost entered counts as nothing.",
    look_again: "Try again",
    must_move: "What must move",
    to_stand_here: "To stand where the car stands now",
    to_stand_anywhere: "To stand anywhere in the room",
    nothing_moves: "Nothing has to move.",
};

/// How many headings were looked at.
pub fn looked_at(done: usize, all: usize) -> String {
    format!("Looked at {done} of {all} headings without each thing")
}

/// How many things were looked at.
pub fn looked_at_here(done: usize, all: usize) -> String {
    format!("Looked at {done} of {all} things that can be moved")
}

/// For how many lines it was answered.
pub fn lines_done(done: usize, all: usize) -> String {
    format!("What must move: {done} of {all}")
}

/// What it takes to move something; nothing of what is fixed.
pub(super) const fn takes(effort: Effort) -> Option<&'static str> {
    match effort {
        Effort::ForkLift => Some("It takes a fork lift."),
        Effort::TwoPeople => Some("It takes two people."),
        Effort::OnePerson => Some("One person can do it."),
        Effort::Fixed => None,
    }
}

impl About<'_> {
    /// One thing that goes.
    pub fn goes(&self, own: &Move) -> String {
        match &own.step {
            Step::TakeAway { thing } if own.needs_builder => {
                format!("Have {} taken out by a builder.", the(thing))
            }
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
        let Some(hands) = self.hardest(way).and_then(takes) else { return String::new() };
        if way.by_builder().next().is_some() {
            return format!("The rest goes by hand. {hands}");
        }
        match way.moves.len() {
            0 | 1 => hands.to_owned(),
            n => format!("{n} things go. {hands}"),
        }
    }

    /// What all of it costs.
    pub fn way_costs(&self, way: &Way) -> String {
        let Some(money) = way.money else { return String::new() };
        let sum = self.locale.region.money(money.sum);
        match (money.unsaid, way.moves.len()) {
            (0, 1) => format!("It costs {sum}, as entered."),
            (0, _) => format!("Together it costs {sum}, as entered."),
            (1, _) => format!("It costs {sum}, as entered, and one of the things has no cost entered."),
            (n, _) => format!("It costs {sum}, as entered, and {n} of the things have no cost entered."),
        }
    }
}
