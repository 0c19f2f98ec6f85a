//! English of the same: see `words/place.rs`.

use super::marks::wheel_name;
use super::names::the;
use super::{About, Language, sentence_start};
use crate::place::{Margin, Offer, Slack, Tyres};
use crate::words::place::PlaceTexts;

/// The fixed texts.
pub const TEXTS: PlaceTexts = PlaceTexts {
    language: Language::English,
    tab: "Parking",
    title: "Where can it stand?",
    title_why: "Tints the floor where the car can stand, its nose as it is now, and looks for the best spots in every heading (P)",
    fits: "Tinted: here the front axle\u{2019}s middle can lie, nose as it is now",
    or_undecided: "Tinted: here the front axle\u{2019}s middle can lie, nose as it is now; hatched: not decided",
    fits_nowhere: "Nose as it is now, the car can stand nowhere here",
    stops_everywhere: "Wherever the car stands, this stops the aiming:",
    nowhere: "No place of this room in any heading looked at, a degree apart. Moving things is the next question.",
    nowhere_decided: "No place of this room surely fits in any heading looked at; of some it is not decided: drag the car there to have it judged. Moving things is the next question.",
    only_just: "There are places where nothing stops, but none with a millimetre to spare on all sides. Moving things is the next question.",
    nowhere_so_far: "Nothing found in the headings looked at so far.",
    partial: "Stopped before all headings were looked at: there may be better spots.",
    older: "Of the bay as it was before the last change.",
    weighing: "Weighing the best places \u{2026}",
    look_again: "Look again",
    park: "Park it there",
    is_here: "The car stands there.",
    rule: "The best spot has most to spare along, across and turned, all at once. Nothing stops the aiming anywhere in that; what needs care is told once the car stands there.",
    measured_so: "Distances are taped to the middle of a tyre on the floor, square to the wall.",
    waits: "While a car is being entered the bay waits.",
};

/// How many headings were looked at.
pub fn looked_at(done: usize, all: usize) -> String {
    format!("Looked at {done} of {all} headings")
}

/// Which of the spots it is.
pub fn nth(nth: usize) -> String {
    match nth {
        0 => "Best spot".to_owned(),
        1 => "Second best".to_owned(),
        2 => "Third best".to_owned(),
        _ => format!("Spot {}", nth + 1),
    }
}

impl About<'_> {
    /// How a person parks at a spot.
    pub fn spot(&self, offer: &Offer) -> String {
        let nose = offer.by_tape.nose.as_ref().map(|own| format!("Nose to {}", self.subject(own)));
        let tyres = match &offer.by_tape.tyres {
            Some(Tyres { front, walls: [beside, across], rear }) => {
                let front = format!(
                    "{} tyre {} from {} and {} from {}",
                    wheel_name(*front),
                    self.length(beside.mm),
                    the(&beside.wall),
                    self.length(across.mm),
                    the(&across.wall)
                );
                match rear {
                    Some((rear, mm)) => {
                        format!(
                            "{front}, {} tyre {} from {}",
                            wheel_name(*rear),
                            self.length(*mm),
                            the(&beside.wall)
                        )
                    }
                    None => front,
                }
            }
            None => "no two walls can be taped to here: by the drawing".to_owned(),
        };
        match nose {
            Some(nose) => format!("{nose}; {tyres}."),
            None => format!("{}.", sentence_start(&tyres)),
        }
    }

    /// How far off the car may be there.
    pub fn spot_slack(&self, slack: &Slack) -> String {
        let Some([mm, degrees]) = self.spare(slack) else {
            return "Nothing to spare.".to_owned();
        };
        format!("± {mm} and ± {degrees} will do.")
    }

    /// Whether that is as much as the shop parks a car.
    pub fn spot_margin(&self, offer: &Offer, margin: &Margin) -> String {
        let by = format!(
            "± {}, ± {}; the shop\u{2019}s own margin",
            self.length(margin.mm),
            self.margin_of_angle(margin.rad)
        );
        if offer.meets {
            format!("Room enough for how cars are parked ({by}).")
        } else {
            format!("Tighter than cars are parked ({by}).")
        }
    }
}
