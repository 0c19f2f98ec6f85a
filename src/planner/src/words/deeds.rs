//! What a person did, in the list of things to undo.

use super::Words;
use crate::edit::Deed;
use crate::entry::CarDeed;

impl Words<'_> {
    sentences! { about:
        /// What was done to a layout, as a person reads it beside "undo".
        deed(deed: &Deed) -> String;
        /// What was done to a car, as a person reads it beside "undo".
        car_deed(deed: &CarDeed) -> String;
    }
}
