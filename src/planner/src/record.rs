//! The record of a visit at work: how one begins, what may be entered, what of it holds, which steps there are and in what state, the one
//! answer for the whole visit, and what is still missing.
//!
//! Everything here is pure: the record and the set-ups go in, plain data comes out. Nothing that was entered is ever taken away: of two
//! entries of the same the later one holds. Nothing here says of a sensor that it is aimed.

mod answer;
mod append;
mod begin;
mod found;
mod holds;
mod lacks;
mod musts;
mod proven;
mod set_ups;
mod shown;
mod steps;

use crate::assessment::Assessment;
use crate::model::{Arrangement, Id};

pub use answer::{PartAnswer, PlaceAnswer, VisitAnswer, Way, answer};
pub use append::{Refused, Told, append};
pub use begin::{BeginWith, begin};
pub use found::{OpenFinding, about, accept, measured, open_findings};
pub use holds::{DecidedNow, Held, Holds, is_overdue};
pub use lacks::{Lack, lacks, lacks_to_sign};
pub use musts::Must;
pub use proven::proven;
pub use set_ups::{in_order, place_of, set_up, taped};
pub use shown::{MOST_SHOWN, Picture, PictureForm, Shown, Turned};
pub use steps::{AskedValue, Beside, Caution, Need, StepState, Task, VisitStep, steps};

/// One aiming of a visit as its set-up stands, with what is found of it.
#[derive(Clone, Copy, Debug)]
pub struct Part<'a> {
    /// The set-up.
    pub arrangement: &'a Arrangement,
    /// Its answer.
    pub assessment: &'a Assessment,
}

impl<'a> Part<'a> {
    /// Which aiming it is.
    pub const fn aiming(&self) -> &'a Id {
        &self.arrangement.aiming.id
    }
}

#[cfg(test)]
mod tests;
