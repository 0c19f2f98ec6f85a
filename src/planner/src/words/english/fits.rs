//! English of the same: see `words/fits.rs`.

use super::{About, Language, sentence_start};
use crate::matrix::{Along, DoorStays, Place, RoomSize};
use crate::words::fits::FitsTexts;

/// The fixed texts.
pub const TEXTS: FitsTexts = FitsTexts {
    language: Language::English,
    page: "What fits where\u{2026}",
    page_why: "All aimings of a list by all places of the bay: which is ready where, the place for the most of them, how big a room must \
               be (F7)",
    on_paper_why: "The owner's report to print or to send: what is found so far, the map, the room, the changes that were looked at",
    of_what: "Of",
    set_ups: "the set-ups of this bay",
    their_cars: "all aimings of this bay’s cars",
    all_cars: "all aimings of all cars",
    visit: "the aimings of this visit",
    car_and_aiming: "Car and aiming",
    anywhere: "Anywhere in the room",
    ready: "ready",
    with_care: "with care",
    tight: "tight",
    after_moves: "after moves",
    elsewhere: "elsewhere",
    none_found: "none found",
    never: "never",
    stopped: "stopped",
    not_looked: "not looked at",
    waiting: "\u{2026}",
    fit_here: "Fit here",
    a_month: "a month",
    one: "The chosen one",
    most: "Most in one place",
    how_big: "How big a room",
    buys: "What a change buys",
    choose: "Press a cell: what was found there stands here, with its drawing.",
    choose_line: "Press a cell of a line: its car is drawn in the smallest room for all.",
    show_it: "Show it in the bay",
    show_it_why: "Opens the set-up; where its car stands elsewhere now, a copy of it with the car there, one step to undo",
    map_told: "The darker, the more of the list can be aimed with the middle of the front axle there, the car along or across the room; \
               each number is the least of its shade. The car that is drawn stands at the one place.",
    point: "Point at a place: how many of the list it serves stands here.",
    fewest: "All of them from the fewest places",
    fewest_proven: "At headings along and across the room fewer do not serve them.",
    fewest_greedy: "Fewer places may do: of so long a list not all ways were tried.",
    none_served: "No place along or across the room serves any of them.",
    no_list: "There is no aiming to look at.",
    rooms: "A room on the curve or beyond it serves all of the list; with nothing else in it, its doors shut.",
    wide: "width",
    long: "length",
    narrower: "One narrower",
    wider: "One wider",
    adds: "What each adds to the smallest room",
    no_room: "stopped in any empty room; not counted",
    comes_in: "comes in so often a month",
    weights_told: "What is not said counts as once.",
    price: "Price of a square metre",
    store: "Depth in store along one wall",
    store_told: "For stands, boards and mats that are put away: a strip along one wall, be it the longer or the shorter, that no aiming \
                 reaches into. Nothing said: none.",
    in_store: "in store",
    buys_told: "Each wall of the room further out, each thing taken away, each door open onto free ground, each door or window walled up, one \
                at a time: which of the list then fit that do not now, and which of the others have less to mind where they stand. Choose \
                a column by pressing one of its cells.",
    further: "Walls, and free ground before doors, further out by",
    look: "Look at all changes",
    costs_name: "costs",
    to_spend: "To spend at most",
    by_worth: "most first",
    for_money: "most for the money first",
    beyond: "more than is to be spent",
    nothing_locked: "All of the list fit there as it is: there is nothing to unlock.",
    unlocks_none: "No single change unlocks any.",
    only_one: "Whether a wall or a column may go, or a door be walled up, is for who built it and for the local fire code to say.",
    alone_none: "Unlock none alone",
    alone_none_told: "With a price they are looked at together with others.",
    together: "Together for what can be spent",
    together_look: "Look at changes together",
    together_needs: "Say what can be spent and what two or more changes cost: then these are looked at together.",
    together_none: "Nothing that can be had for it unlocks any.",
    together_told: "The best of all single changes and all pairs with a price, then one more at a time. Another three or more may unlock \
                    more.",
    partial: "Stopped: not all was looked at.",
    again: "Look again",
    searched: "“Tight”: the car would have to be parked more exactly than the shop does. “After moves”: things would have to go first. \
               “Elsewhere”: not at this place, but somewhere in the room. Else all things stay where they stand. Headings a degree apart \
               were looked at: where none was found there may be a place at a heading in between.",
};

pub fn looked_at(done: usize, all: usize) -> String {
    format!("{done} of {all} looked at")
}

pub fn of_all(some: &str, all: &str) -> String {
    format!("{some} of {all}")
}

pub fn served_there(some: usize, all: usize) -> String {
    format!("{some} of {all} here")
}

pub fn park_for(nth: usize, lines: &[&str], spot: &str) -> String {
    format!("{}. {}: {spot}", nth + 1, lines.join("; "))
}

pub fn nowhere_for(lines: &[&str]) -> String {
    format!("No place with room enough to park: {}.", lines.join("; "))
}

pub fn cell(line: &str, place: &str, found: &str) -> String {
    format!("{line}; {place}: {found}")
}

pub fn costs(sum: &str) -> String {
    format!("It costs {sum} at that price.")
}

pub fn by(long: &str, wide: &str) -> String {
    format!("{long} by {wide}")
}

pub fn no_number(typed: &str) -> String {
    format!("“{typed}” is no number from 0 on: nothing was changed.")
}

pub fn no_depth(typed: &str, most: &str) -> String {
    format!("“{typed}” is no depth from 0 to {most}: nothing was changed.")
}

pub fn without(thing: &str) -> String {
    format!("Without the {thing}")
}

pub fn wall_further(wall: &str, by: &str) -> String {
    format!("{} {by} further out", sentence_start(wall))
}

pub fn walled_up(opening: &str) -> String {
    format!("{} walled up", sentence_start(opening))
}

pub fn open_onto(door: &str, free: &str) -> String {
    format!("{} open while this is aimed, the ground beyond it free for {free}", sentence_start(door))
}

pub fn door_stays(opening: &str, why: DoorStays) -> String {
    let why = match why {
        DoorStays::Exit => "it is a way out, or one leads to it",
        DoorStays::WayIn => "people, or a car of the list, have no other way in",
        DoorStays::Used => "an aiming of the list stands out of it",
    };
    format!("{} was not asked to be walled up: {why}.", sentence_start(opening))
}

pub fn eases(lines: &[&str]) -> String {
    format!("less to mind for {}: {}", lines.len(), lines.join("; "))
}

pub fn unlocks(lines: &[&str]) -> String {
    match lines {
        [] => "unlocks none".to_owned(),
        [one] => format!("unlocks 1: {one}"),
        all => format!("unlocks {}: {}", all.len(), all.join("; ")),
    }
}

pub fn together_are(changes: &[&str], costs: &str, lines: &[&str]) -> String {
    format!("{}: {costs} in all, {}", changes.join(" + "), unlocks(lines))
}

pub fn asked_at(place: &str, fit: usize, all: usize) -> String {
    format!("{place}: {fit} of {all} fit now.")
}

pub fn parked_there(of: &str) -> String {
    format!("{of}, parked anew")
}

impl About<'_> {
    /// A place over a column.
    pub fn fits_place(&self, place: &Place) -> String {
        match place {
            Place::Parked { of, .. } => format!("As in “{of}”"),
            Place::Bay(bay) => sentence_start(bay.as_str()),
            Place::Room => TEXTS.anywhere.to_owned(),
        }
    }

    /// A room of the curve.
    pub fn fits_room(&self, room: &RoomSize) -> String {
        let own = self.arrangement;
        format!(
            "{} by {}, {} m²: as long as {}, {} needs at that width{}.",
            self.length(room.length_mm),
            self.length(room.width_mm),
            self.locale.region.number(room.area() * 1e-6, 1),
            own.vehicle.name,
            own.aiming.name,
            self.in_store(room)
        )
    }

    /// What of a room is kept for what is in store, at the end of a sentence; nothing if none is.
    pub(super) fn in_store(&self, room: &RoomSize) -> String {
        room.strip.as_ref().map_or_else(String::new, |own| {
            let along = match own.along {
                Along::Length => "its length",
                Along::Width => "its width",
            };
            format!("; {} deep along {along} in store", self.length(own.depth_mm))
        })
    }

    /// What a line adds.
    pub fn fits_adds(&self, adds_mm2: f64, alone: &RoomSize) -> String {
        let square_metres = |mm2: f64| self.locale.region.number(mm2 * 1e-6, 1);
        let adds = if adds_mm2 < 5e4 {
            "adds nothing".to_owned()
        } else {
            format!("without it {} m² less", square_metres(adds_mm2))
        };
        format!("{adds}; alone {} by {}", self.length(alone.length_mm), self.length(alone.width_mm))
    }
}
