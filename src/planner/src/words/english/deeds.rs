//! What a person did, in the list of things to undo.

use super::{About, Deed, sentence_start};
use crate::assessment::Severity;

impl About<'_> {
    /// A deed as a person reads it beside "undo".
    pub fn deed(&self, deed: Deed<'_>) -> String {
        match deed {
            Deed::Move(thing) => format!("Move {thing}"),
            Deed::Size(thing) => format!("Size of {thing}"),
            Deed::Describe(thing) => format!("Facts about {thing}"),
            Deed::Rename(thing) => format!("Rename {thing}"),
            Deed::Add(thing) => format!("Add {thing}"),
            Deed::Remove(thing) => format!("Remove {thing}"),
            Deed::Park => "Park the car".to_owned(),
            Deed::Stand => "Move the target stand".to_owned(),
            Deed::Shut(door) => format!("Shut {door}"),
            Deed::Open(door) => format!("Open {door}"),
            Deed::Car => "Another car or aiming".to_owned(),
            Deed::Remember => "Profile looked at again".to_owned(),
            Deed::Bay(what) => what.to_owned(),
            Deed::Corner => "Move a corner of the room".to_owned(),
            Deed::Duplicate(name) => format!("New arrangement {name}"),
            Deed::NameArrangement(name) => format!("Name the arrangement {name}"),
            Deed::RemoveArrangement => "Remove an arrangement".to_owned(),
            Deed::Visit => "What the car is in for".to_owned(),
            Deed::OnThisCar => "Measured on this car".to_owned(),
            Deed::Underlay => "Picture of the plan".to_owned(),
            Deed::Carried => "What the car stands on".to_owned(),
            Deed::Cure(step) => sentence_start(&self.step(step)),
            Deed::Cures(steps) => sentence_start(&self.steps(steps)),
        }
    }

    /// The heading over all findings of one severity.
    pub const fn heading(&self, severity: Severity) -> &'static str {
        match severity {
            Severity::Stops => "Stops the aiming",
            Severity::Care => "Needs care",
            Severity::Note => "To know and to have ready",
        }
    }
}
