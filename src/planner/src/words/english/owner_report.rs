//! English of the same: see `words/owner_report.rs`.

use super::{About, Language};
use crate::assessment::Finding;
use crate::matrix::{Along, Strip};
use crate::place::Margin;
use crate::words::owner_report::OwnerReport;

/// The fixed texts.
pub const TEXTS: OwnerReport = OwnerReport {
    language: Language::English,
    title: "Owner's report",
    bay: "Bay",
    list: "List",
    partial: "Not all was looked at: what is missing here is no answer.",
    in_short: "In short",
    in_room: "In this room",
    not_looked: "Not looked at.",
    which_where: "Which aiming fits where",
    number: "No.",
    place: "Place",
    found: "Found",
    by_tape: "By tape; what is moved; what stops",
    each_place: "Each aiming at its best place",
    as_above: "The best place is where it is ready, with least to mind, then with most to spare. Distances are taped to the middle of a tyre \
               on the floor, square to the wall.",
    map: "How many each place serves",
    least: "Served there",
    floor: "Floor",
    share: "Of the room",
    wider_or_longer: "Other empty rooms that serve the same list, each as short as its width allows",
    area: "Area",
    decides: "Decided by",
    drawn: "Drawn: the aiming that decides, in the smallest room.",
    changes: "Changes of the building, in order of worth",
    change: "Change",
    unlocks: "Unlocks",
    which: "Which",
    eases: "Less to mind",
    costs: "Costs",
    not_asked: "What was not asked",
    care_is_counted: "What needs care is named here: the findings report of a set-up tells how much and what to do.",
    no_proof: "That no place was found is no proof that there is none, unless it says “never”.",
    never_so: "“Never” is proven for every place and heading, of solids alone: the car and its target with its stand against the room and \
               what cannot be moved; all that can be moved counts as gone.",
    together: "Together, for what can be spent",
    way: "Whether a car can be driven to its place, and through which door, was not asked.",
    empty_is_empty: "The size of an empty room leaves out doors, columns, all that stands or hangs in it, and how level its floor is.",
    entered: "Costs are as the owner entered them; nothing here is an offer.",
    who_decides: "Whether a wall, a door, a column or a floor may be changed is for who built it and for licensed people to say, as local \
                  building, fire and electrical codes have it.",
};

pub fn of_list(bay: &str, aimings: usize, places: usize) -> String {
    format!("{bay}: {}", counted(aimings, places))
}

pub fn counted(aimings: usize, places: usize) -> String {
    let aimings = if aimings == 1 { "1 aiming".to_owned() } else { format!("{aimings} aimings") };
    let places = if places == 1 { "1 place".to_owned() } else { format!("{places} places") };
    format!("{aimings}, {places}")
}

pub fn somewhere([fit, tight, moves, none, open]: [usize; 5], all: usize) -> String {
    let mut told = format!("{fit} of {all} can be done as it is");
    if tight > 0 {
        told.push_str(&format!(", {tight} more where a car must be parked more surely than the shop does"));
    }
    if moves > 0 {
        told.push_str(&format!(", {moves} more once things are moved"));
    }
    if none > 0 {
        told.push_str(&format!("; for {none} no place was found"));
    }
    if open > 0 {
        told.push_str(&format!("; {open} not looked at to the end"));
    }
    told.push('.');
    told
}

pub fn places_of(from: usize, to: usize, all: usize) -> String {
    if from == to { format!("Place {from} of {all}") } else { format!("Places {from} to {to} of {all}") }
}

pub fn not_there(numbers: &str) -> String {
    format!("Not there: {numbers}.")
}

pub fn square_metres(figure: &str) -> String {
    format!("{figure} m²")
}

pub fn at_least(count: usize, all: usize) -> String {
    if count == all { format!("{count} of {all}") } else { format!("{count} of {all}, or more") }
}

pub fn first_change(change: &str, count: usize) -> String {
    format!(
        "Of the changes that were asked about, one at a time, this comes first: {change}. It unlocks {count}."
    )
}

pub fn changes_at(place: &str, fit: usize, all: usize, further: &str) -> String {
    format!(
        "{place}: {fit} of {all} fit now. Asked: each thing taken away, each wall of the room {further} further out, each door open with \
         as much more ground free beyond it, each door or window walled up, one at a time."
    )
}

pub fn together_for(sum: &str, changes: &[&str], costs: &str, count: usize, which: &str) -> String {
    let they = if changes.len() == 1 { ["It costs", "unlocks"] } else { ["They cost", "unlock"] };
    format!(
        "For {sum} at most: {}. {} {costs} and {} {count}: {which}.",
        changes.join(" + "),
        they[0],
        they[1]
    )
}

pub fn together_none(sum: &str) -> String {
    format!("For {sum} at most nothing with a price unlocks any.")
}

pub fn others_unlock_none(count: usize) -> String {
    if count == 1 {
        "1 other change unlocks none.".to_owned()
    } else {
        format!("{count} other changes unlock none.")
    }
}

pub fn beyond(cost: &str) -> String {
    format!("{cost}, more than is to be spent")
}

pub fn described(bay: &str, aimings: usize) -> String {
    match aimings {
        1 => format!("{bay} from above, with the places that serve the aiming"),
        _ => format!(
            "{bay} from above, with how many of {aimings} aimings each place serves; and the smallest empty room"
        ),
    }
}

impl About<'_> {
    /// What the words in the cells say.
    pub fn report_words(&self, margin: &Margin) -> String {
        format!(
            "Ready: nothing stops it there. With care: nothing stops it, something is to be minded. Tight: a car would have to be parked more \
             surely than within ± {} and ± {}, the shop's own margin. After moves: once things are moved. Elsewhere: not there, but elsewhere \
             in the room. None found: no place was found. Never: it is proven that there is none. Stopped: something stops it wherever the car \
             stands.",
            self.length(margin.mm),
            self.margin_of_angle(margin.rad)
        )
    }

    /// What the strip is.
    pub fn report_store(&self, strip: &Strip) -> String {
        let along = match strip.along {
            Along::Length => "the length",
            Along::Width => "the width",
        };
        let depth = self.length(strip.depth_mm);
        format!("The hatched strip along {along} of the room, {depth} deep, is for what is in store.")
    }

    /// What is to be minded.
    pub fn report_care(&self, care: &[&Finding]) -> String {
        let mut titles: Vec<String> = Vec::new();
        for title in care.iter().map(|own| self.title(own)) {
            if !titles.contains(&title) {
                titles.push(title);
            }
        }
        format!("To mind: {}.", titles.join("; "))
    }
}
