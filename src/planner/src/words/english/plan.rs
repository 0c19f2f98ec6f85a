//! English of the same: see `words/plan.rs`.

use super::names::the;
use super::{About, Language, sentence_start};
use crate::assessment::Verdict;
use crate::matrix::{BestPlace, Cell, Place, RoomSize, Stands};
use crate::place::Margin;
use crate::words::plan::PlanTexts;

/// The fixed texts.
pub const TEXTS: PlanTexts = PlanTexts {
    language: Language::English,
    plan: "Say where each car can stand to be aimed, which place serves the most of them, and how big an empty room must be",
    arrangement: "Only this set-up; with --car, the room is as this set-up has it",
    cars: "Instead of the set-ups: all aimings of this car; can be given several times",
    all_cars: "Instead of the set-ups: all aimings of all cars that the layout can name",
    a_car: "CAR",
    moves: "Say too what must move so that each set-up that is stopped can stand where it stands, and each aiming for which no place was found anywhere; takes longer",
    csv: "Write the table of aimings by places as CSV",
    json: "Write all of it as JSON",
    report: "Write the owner's report to print into this file, instead of the answer as text: .pdf, .svg or .png",
    a_report: "REPORT.pdf|.svg|.png",
    changes: "Say too what changes of the building unlock, anywhere in the room: each thing gone, each wall further out, each door \
              open onto free ground or walled up, and for the layout's sum those with a price together",
    further: "How much further out walls would stand and ground before doors be free, mm; 1000 where it is left out",
    after: "Exit status: 0 a place was found for every aiming, 1 for some none was found, 2 something given could not be read or \
            found, 3 something could not be written.\n\n\
            That none was found is no proof that there is none. Follow the vehicle maker's procedure. Nothing here says that a \
            sensor is aimed.",
    one_place: "One place for the most of them",
    no_place_for_any: "No place was found for any of them.",
    not_served: "Not there",
    empty_room: "How big an empty room must be",
    never_so: "“It never fits here” is proven for every place and heading of solids alone: the car and its target with its stand against \
               the room and what cannot be moved; all that can be moved counts as gone.",
    no_size: "One of them is stopped in any empty room: no size was found.",
    searched: "Looked at in headings a degree apart, with all things where they stand. Where no place was found there may be one in \
               between; --moves says what must move.",
};

pub fn head(bay: &str, aimings: usize) -> String {
    match aimings {
        1 => format!("{bay}: where one aiming can be done"),
        n => format!("{bay}: where {n} aimings can be done"),
    }
}

pub fn so_far(done: usize, all: usize, line: &str) -> String {
    format!("{done} of {all}: {line}")
}

pub fn no_such_car(name: &str, there: &[&str], meant: Option<&str>) -> String {
    let meant = meant.map_or_else(String::new, |own| format!(" Did you mean \"{own}\"?"));
    match there {
        [] => format!("There is no car \"{name}\", nor any other."),
        there => format!("There is no car \"{name}\".{meant} There are: {}.", there.join(", ")),
    }
}

pub fn no_aimings(car: &str) -> String {
    format!("The car \"{car}\" has no aiming to plan.")
}

impl About<'_> {
    /// A line of the list.
    pub fn plan_line(&self, is_saved: bool) -> String {
        let own = self.arrangement;
        let told = format!("{}, {}", own.vehicle.name, own.aiming.name);
        if is_saved { format!("{}: {told}", own.id) } else { told }
    }

    /// A place.
    pub fn plan_place(&self, place: &Place) -> String {
        match place {
            Place::Parked { of, .. } => format!("Where the car of \"{of}\" stands"),
            Place::Bay(bay) => format!("In {}", the(bay)),
            Place::Room => "Anywhere in the room".to_owned(),
        }
    }

    /// What is found at a place.
    pub fn plan_cell(&self, cell: &Cell, margin: &Margin) -> String {
        match cell {
            Cell::Fits(own) => {
                format!("{} {}", self.plan_verdict(own), self.plan_stands(own, margin))
            }
            Cell::AfterMoves { steps, verdict, .. } => {
                let then = match verdict {
                    Verdict::Ready => "ready",
                    Verdict::ReadyWithCare | Verdict::NotReady => "ready with care",
                };
                format!("{}; then it is {then}.", sentence_start(&self.steps(steps)))
            }
            Cell::Elsewhere(own) => {
                format!(
                    "Not here, but elsewhere in the room. {} {}",
                    self.plan_verdict(own),
                    self.plan_stands(own, margin)
                )
            }
            Cell::NoneFound(own) => {
                let found = match (own.is_partial, own.is_everywhere) {
                    (true, _) => "Stopped before a place was found.",
                    (false, true) => "No place found: it is stopped wherever the car stands.",
                    (false, false) => "No place found.",
                };
                let titles: Vec<String> =
                    own.stops.iter().take(3).map(|own| sentence_start(&self.title(own))).collect();
                match titles.as_slice() {
                    [] => found.to_owned(),
                    titles => format!("{found} {}.", titles.join("; ")),
                }
            }
        }
    }

    /// What the verdict is where a car stands.
    pub fn plan_verdict(&self, own: &Stands) -> String {
        match (own.verdict, own.care) {
            (Verdict::Ready, _) => "Ready.".to_owned(),
            (_, 1) => "Ready with care, one thing to mind.".to_owned(),
            (_, care) => format!("Ready with care, {care} things to mind."),
        }
    }

    fn plan_stands(&self, own: &Stands, margin: &Margin) -> String {
        let offer = own.offer(self.arrangement);
        [self.spot(&offer), self.spot_slack(&own.slack), self.spot_margin(&offer, margin)].join(" ")
    }

    /// The place that serves the most.
    pub fn plan_best(&self, best: &BestPlace, of: usize, margin: &Margin) -> String {
        let offer = best.offer(self.arrangement);
        let told =
            [self.spot(&offer), self.spot_slack(&best.slack), self.spot_margin(&offer, margin)].join(" ");
        format!("{} of {of} here. With {}: {told}", best.serves.len(), self.arrangement.vehicle.name)
    }

    /// The room's size.
    pub fn plan_room(&self, room: &RoomSize, margin: &Margin) -> String {
        let own = self.arrangement;
        format!(
            "{} by {} with nothing else in it and its doors shut, so that each car may be ± {} and ± {} off; {}, {} decides{}.",
            self.length(room.length_mm),
            self.length(room.width_mm),
            self.length(margin.mm),
            self.margin_of_angle(margin.rad),
            own.vehicle.name,
            own.aiming.name,
            self.in_store(room)
        )
    }
}
