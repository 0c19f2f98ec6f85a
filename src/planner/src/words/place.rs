//! Where a car can stand, and how it is parked there, in words.

use super::Words;
use crate::place::{Margin, Offer, Slack};

texts! {
    place: PlaceTexts, "Every fixed text about where a car can stand.";
    tab, "The panel's name.";
    title, "What the panel answers; shows it.";
    title_why, "What that shows.";
    fits, "In the drawing: what is tinted.";
    or_undecided, "In the drawing: what is tinted, and what is hatched.";
    fits_nowhere, "In the drawing: nothing is tinted.";
    stops_everywhere, "Over what stops the aiming wherever the car stands.";
    nowhere, "No place fits in any heading.";
    nowhere_decided, "No place surely fits in any heading, some are undecided.";
    only_just, "Places fit, but with nothing to spare.";
    nowhere_so_far, "No spot was found before the search was stopped.";
    partial, "Not all headings were looked at.";
    older, "What is offered is of the bay as it was before.";
    weighing, "All headings were looked at, the best places are weighed.";
    look_again, "Looks anew.";
    park, "Parks the car there.";
    is_here, "The car stands there.";
    rule, "What makes a spot the best, and what is not asked.";
    measured_so, "To what distances are taped.";
    waits, "Parking waits while a car is being entered.";
}

impl PlaceTexts {
    sentences! { place:
        /// How many of how many headings were looked at.
        looked_at(done: usize, all: usize) -> String;
        /// Which of the spots it is, from 0.
        nth(nth: usize) -> String;
    }
}

impl Words<'_> {
    sentences! { about:
        /// How a person parks at a spot.
        spot(offer: &Offer) -> String;
        /// How far off the car may be there.
        spot_slack(slack: &Slack) -> String;
        /// That this is less than the shop parks a car, or that it is enough.
        spot_margin(offer: &Offer, margin: &Margin) -> String;
    }
}
