//! What may be entered, and what makes no sense.

use super::holds::Holds;
use crate::model::fault::Fault;
use crate::model::record::{Decision, Entry, MOST_ATTACHMENTS, MOST_ENTRIES, StepId, VisitRecord, What};
use crate::model::validate;

/// Why something is not entered.
#[derive(Clone, Debug, PartialEq)]
pub enum Refused {
    /// The record is closed.
    Closed,
    /// It is open: there is nothing to open again.
    NotClosed,
    /// It has as many entries as it may.
    Full(usize),
    /// It has as many attachments as it may.
    FullOfAttachments(usize),
    /// Something of it makes no sense: where, what was found, what is allowed. Paths start with `by` or `what.`.
    NotSound(Vec<Fault>),
    /// A decision that its own figures do not make.
    DoesNotFollow {
        /// What was to be entered.
        said: Decision,
        /// What follows.
        follows: Decision,
    },
    /// This file is attached already, under this name.
    AttachedAlready(String),
    /// No attachment that counts has this hash.
    NotAttached(String),
    /// This step is open: there is nothing to take back.
    NothingToTakeBack(StepId),
    /// There is no entry of this number, from 0, that counts and can be struck out.
    NothingToStrike(usize),
    /// The same person has signed as the same, and nothing was entered since.
    SignedAlready,
}

/// What is told of an entry that was taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Told {
    /// The figure is not what it may be. It is kept as it was entered, and its step is out of range.
    pub out_of_range: bool,
}

/// Enters something at the end of a record.
///
/// # Errors
/// It makes no sense; then the record is as it was. That a figure is out of its range is no such thing: it is kept, and told.
pub fn append(record: &mut VisitRecord, entry: Entry) -> Result<Told, Refused> {
    if record.entries.len() >= MOST_ENTRIES {
        return Err(Refused::Full(MOST_ENTRIES));
    }
    let holds = Holds::of(record);
    match (&entry.what, holds.is_closed()) {
        (What::Reopened { .. }, true) => {}
        (_, true) => return Err(Refused::Closed),
        (What::Reopened { .. }, false) => return Err(Refused::NotClosed),
        (_, false) => {}
    }
    if let What::Decided(own) = &entry.what
        && let Some(follows) = own.follows()
        && follows != own.decision
    {
        return Err(Refused::DoesNotFollow { said: own.decision, follows });
    }
    let faults = validate::record_entry(&record.begun, &entry);
    if !faults.is_empty() {
        return Err(Refused::NotSound(faults));
    }
    against_the_rest(&holds, &entry)?;
    let out_of_range = match &entry.what {
        What::Value(own) => !own.is_in_range(),
        What::Stood(own) => own.moved(),
        _ => false,
    };
    record.entries.push(entry);
    Ok(Told { out_of_range })
}

fn against_the_rest(holds: &Holds<'_>, entry: &Entry) -> Result<(), Refused> {
    match &entry.what {
        What::Attached(own) => {
            if let Some(there) = holds.attachment(&own.sha256) {
                return Err(Refused::AttachedAlready(there.file.clone()));
            }
            if holds.all_attached() >= MOST_ATTACHMENTS {
                return Err(Refused::FullOfAttachments(MOST_ATTACHMENTS));
            }
        }
        What::Withdrawn { sha256, .. } if holds.attachment(sha256).is_none() => {
            return Err(Refused::NotAttached(sha256.clone()));
        }
        What::TakenBack { step, .. } if !holds.is_settled(step) => {
            return Err(Refused::NothingToTakeBack(step.clone()));
        }
        What::Struck { entry, .. } if !holds.can_be_struck(*entry) => {
            return Err(Refused::NothingToStrike(*entry));
        }
        What::Signed { role, .. } if holds.is_signed_last(&entry.by, role) => {
            return Err(Refused::SignedAlready);
        }
        What::Withdrawn { .. }
        | What::TakenBack { .. }
        | What::Struck { .. }
        | What::Signed { .. }
        | What::StepDone { .. }
        | What::GonePast { .. }
        | What::LeftOut { .. }
        | What::NotApplicable { .. }
        | What::Value(_)
        | What::Reading(_)
        | What::Decided(_)
        | What::Alignment(_)
        | What::Stood(_)
        | What::Parked(_)
        | What::RideHeights { .. }
        | What::FloorConfirmed { .. }
        | What::Routine { .. }
        | What::Document(_)
        | What::Accepted(_)
        | What::Labour { .. }
        | What::Closed
        | What::WentOn { .. }
        | What::Reopened { .. } => {}
    }
    Ok(())
}
