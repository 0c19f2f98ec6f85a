//! What is asked of the record of a visit, and which of its sides is seen.

use std::path::PathBuf;

use baywright_planner::model::record::{AttachmentKind, StepId, What};
use baywright_planner::model::{Id, TriggerList, VisitLine};

/// What is seen of the record.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Side {
    /// The records of the bay.
    #[default]
    Records,
    /// One that is begun.
    Begin,
    /// A step.
    Step,
    /// What else can be done.
    More,
    /// Why a step does not apply.
    WhyNot,
    /// Why a step that applies is left out.
    LeftOut,
    /// Why it is signed, as this, although something is missing.
    Although(String),
    /// What was found.
    Findings,
    /// Why this finding of an aiming is accepted.
    Accept(Id, usize),
    /// Photographs and sheets.
    Papers,
    /// Why this one, by its hash, counts no more.
    Withdraw(String),
    /// Why this entry, by its number from 0, is struck out.
    Strike(usize),
    /// The one answer for the visit.
    WholeVisit,
    /// What was entered.
    Entries,
    /// Who enters.
    Who,
    /// What is still missing, and the end.
    Close,
    /// Why it is opened again.
    Reopen,
}

/// What is asked of the record.
#[derive(Clone, Debug, PartialEq)]
pub enum OfRecord {
    /// Lay its page.
    Lay,
    /// Begin one with what was typed.
    Begin,
    /// Take up the one that lies there.
    TakeUp(PathBuf),
    /// Put it away: another one can be begun or taken up.
    PutAway,
    /// Enter these.
    Enter(Vec<What>),
    /// Take back what was entered last in this window: it is struck out.
    Undo,
    /// Bring back what was taken back last.
    Redo,
    /// On from what was chosen: to the first box of the step that is empty, else the step is done.
    Onward,
    /// The step is done: what belongs to it is entered, and the next one is there.
    Done,
    /// Go to a step.
    Go(StepId),
    /// One step back.
    Back,
    /// Go on to the next step; nothing is entered.
    Forward,
    /// Show another side of the page.
    Side(Side),
    /// Type in the box of this number, from 0.
    Lead(usize),
    /// On from the box of this number to the next one; after the last the step is done.
    LeadOn(usize),
    /// Read with this tape from now on: one of the shop's list, or another one, whose name is typed.
    Tape(Option<Id>),
    /// The name of that other tape.
    TapeName(String),
    /// So warm is what is read with, °C.
    Warm(Option<f64>),
    /// Show the rest of the alignment sheet too, or not.
    Rest,
    /// Type in the box of the distance that settles most.
    NextTape,
    /// This one enters from now on.
    By(String),
    /// Ask the system for a file that shows such a thing.
    AskAttach(AttachmentKind),
    /// Attach these.
    Attach(Vec<(PathBuf, AttachmentKind)>),
    /// Try again to write it.
    SaveAgain,
    /// Read what lies on the disk now; what stands only here is dropped.
    ReadAgain,
    /// Lay the page of what is printed, with its file of proof.
    Print,
    /// Put the hash on the clipboard.
    CopyHead,
    /// The visit was chosen for this car by this work.
    Because(Id, Vec<VisitLine>, Box<TriggerList>),
}

impl OfRecord {
    /// Whether something is entered by it, or another record is in hand.
    pub(in crate::screen) const fn enters(&self) -> bool {
        matches!(
            self,
            Self::Begin
                | Self::TakeUp(_)
                | Self::Enter(_)
                | Self::Undo
                | Self::Redo
                | Self::Done
                | Self::Attach(_)
        )
    }
}
