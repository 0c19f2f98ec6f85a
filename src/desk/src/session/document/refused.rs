//! Why something was not done to the work in hand.

use std::path::PathBuf;

use baywright_files::FileFault;
use baywright_planner::edit::EditFault;
use baywright_planner::model::Id;
use baywright_planner::model::fault::Fault;

/// An arrangement that cannot be opened with its car.
#[derive(Clone, Debug, PartialEq)]
pub struct Shut {
    /// The arrangement.
    pub arrangement: Id,
    /// The first thing of it that does not go with the car.
    pub fault: Box<Fault>,
}

/// Why a change was not made.
#[derive(Clone, Debug, PartialEq)]
pub enum Refused {
    /// It names what is not there, or makes no shape.
    Edit(EditFault),
    /// The layout would not be sound: the first thing that is wrong.
    Unsound(Fault),
    /// An arrangement would not go with its car any more.
    Shut(Shut),
}

/// Why a bay that was made here is not shown.
#[derive(Clone, Debug, PartialEq)]
pub enum NotMade {
    /// It is not sound: the first thing that is wrong.
    Unsound(Fault),
    /// There is nothing to show of it.
    Faults(Vec<FileFault>),
}

/// Why a layout was not saved.
#[derive(Clone, Debug, PartialEq)]
pub enum NotSaved {
    /// It has no place on disk yet.
    NoPlace,
    /// Someone else changed the file since it was read or written.
    ChangedOnDisk,
    /// The file was removed, moved or renamed since it was read or written.
    Gone,
    /// It could not be written.
    Faults(Vec<FileFault>),
}

/// Why a car that was entered was not kept.
#[derive(Clone, Debug, PartialEq)]
pub enum CarNotKept {
    /// It is not sound: the first thing that is wrong.
    Unsound(Fault),
    /// There is another car of that name.
    NameTaken(Id),
    /// Someone else changed its file since it was read.
    ChangedOnDisk(PathBuf),
    /// Its file was removed, moved or renamed since it was read.
    Gone(PathBuf),
    /// An arrangement of this layout does not go with it: it could not be opened any more.
    Shut(Shut),
    /// It could not be written.
    Faults(Vec<FileFault>),
}
