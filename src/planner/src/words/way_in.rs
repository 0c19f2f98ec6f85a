//! How the car comes to a spot, in words.

use super::Words;
use crate::way_in::{Turns, Way};

texts! {
    way_in: WayTexts, "Every fixed text about how the car comes to a spot.";
    where_it_stands, "The way to where the car stands now.";
    looking, "The ways are being looked for.";
    taken_as_free, "What is taken as free, and what is not in the way.";
    beside_it, "The caution beside a way that is driven.";
    in_the_drawing, "In the drawing: what is shown of the way.";
}

impl Words<'_> {
    sentences! { about:
        /// How the car comes there, in one line.
        way(way: &Way) -> String;
        /// How tight it turns, and where that comes from.
        turning(turns: &Turns) -> String;
    }
}
