//! What a person did, in the list of things to undo.

use super::Words;
use crate::assessment::Step;
use crate::model::Id;

/// What a person did to a layout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Deed<'a> {
    /// Moved or turned a thing.
    Move(&'a Id),
    /// Changed a thing's size or heights.
    Size(&'a Id),
    /// Changed what is known of a thing.
    Describe(&'a Id),
    /// Gave a thing another name.
    Rename(&'a Id),
    /// Put a thing there.
    Add(&'a Id),
    /// Took a thing away.
    Remove(&'a Id),
    /// Parked the car elsewhere.
    Park,
    /// Moved a target.
    Stand,
    /// Shut a door.
    Shut(&'a Id),
    /// Opened a door.
    Open(&'a Id),
    /// Chose another car or aiming.
    Car,
    /// Looked at the profile again.
    Remember,
    /// Changed the bay: how, as it is read.
    Bay(&'a str),
    /// Moved a corner of the room.
    Corner,
    /// Made another arrangement like this one.
    Duplicate(&'a Id),
    /// Gave the arrangement another name.
    NameArrangement(&'a Id),
    /// Took the arrangement away.
    RemoveArrangement,
    /// Chose the aimings of a visit.
    Visit,
    /// Entered what was measured on this car.
    OnThisCar,
    /// Changed the picture under the plan.
    Underlay,
    /// Put the car on runways, or on the floor.
    Carried,
    /// Did what a cure says.
    Cure(&'a Step),
    /// Did what several cures say.
    Cures(&'a [Step]),
}

impl Words<'_> {
    sentences! { about:
        /// A deed as a person reads it beside "undo".
        deed(deed: Deed<'_>) -> String;
    }
}
