//! The record of one visit of a car: what was to be done, and what was done, read and decided, in the order in which it was.
//!
//! It is a document of its own beside the bay's layout: several visits share one bay. Nothing in it is ever taken out or changed; what is
//! taken back, measured again or withdrawn is another entry after it ([`crate::record`] says what holds). It tells what was entered and worked
//! out; of the sensor it says nothing.

mod chain;
mod decided;
mod entered;
mod step;

use jiff::civil::DateTime;

use super::{Id, Provenance};

pub use chain::{ChainBreak, HeadSaid};
pub use decided::{Decided, Decision, DecisionRule, ProvenFigure};
pub use entered::{
    AcceptedFinding, Attachment, AttachmentKind, Entered, Entry, Instrument, MakersDocument, ParkedAt,
    Reading, RoutineResult, StoodRead, Way, WayOut, What,
};
pub use step::{CAR_CHECKS, StepId, StepKind, ValueOf, ValueUnit, Within};

/// So many entries a record may have: ten of the longest visits.
pub const MOST_ENTRIES: usize = 5_000;
/// So many attachments.
pub const MOST_ATTACHMENTS: usize = 200;

/// What the visit is, as it was begun. Times are those of the shop's own clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Begun {
    /// The shop's number of the job.
    pub job: String,
    /// The car, as the shop refers to it.
    pub car: String,
    /// Its number plate, if it was entered.
    pub plate: Option<String>,
    /// Who began the record.
    pub by: String,
    /// When.
    pub at: DateTime,
    /// The bay's name.
    pub bay: Id,
    /// The layout's file, seen from the record's own; `None` of a built-in bay or one that was not saved.
    pub layout: Option<String>,
    /// The set-up that it was begun from.
    pub arrangement: Id,
    /// The car's profile.
    pub vehicle: Id,
    /// The list that says which work asks for which sensors, and where it comes from; `None` where the aimings were chosen without one.
    pub list: Option<WorkList>,
    /// The visit's aimings, in the order of work.
    pub lines: Vec<RecordLine>,
}

/// The list of work by which the aimings were chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkList {
    /// Its name.
    pub name: String,
    /// Where it comes from.
    pub provenance: Provenance,
}

/// One aiming of the visit.
#[derive(Clone, Debug, PartialEq)]
pub struct RecordLine {
    /// Its name in the profile.
    pub aiming: Id,
    /// Its name on the screen.
    pub title: String,
    /// The sensor.
    pub sensor: Id,
    /// The work that asks for it; none where it was chosen by itself.
    pub because: Vec<Because>,
    /// Where the aiming's figures come from.
    pub provenance: Provenance,
}

/// Work that asks for an aiming: a line of the repair.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Because {
    /// The work, as the list names it on the screen.
    pub work: String,
    /// What else the list says to mind; may be empty.
    pub note: String,
    /// Where that entry of the list comes from.
    pub provenance: Provenance,
}

/// A visit with all that was entered of it.
#[derive(Clone, Debug, PartialEq)]
pub struct VisitRecord {
    /// What it is.
    pub begun: Begun,
    /// What was entered, in that order.
    pub entries: Vec<Entry>,
}

impl Begun {
    /// The line of an aiming.
    pub fn line(&self, aiming: &Id) -> Option<&RecordLine> {
        self.lines.iter().find(|own| own.aiming == *aiming)
    }
}
