//! What a record still lacks before it is closed.

use super::found::open_findings;
use super::holds::Holds;
use super::steps::{StepState, VisitStep};
use super::{Part, is_overdue};
use crate::assessment::Severity;
use crate::model::Id;
use crate::model::record::{Decision, RoutineResult, StepId, VisitRecord};

/// Something that is missing or not right.
#[derive(Clone, Debug, PartialEq)]
pub enum Lack {
    /// A step is open.
    StepOpen(StepId),
    /// A step is out of range.
    StepOutOfRange(StepId),
    /// No document of the maker is named for an aiming.
    NoDocument(Id),
    /// No figure of an aiming was decided.
    NotDecided(Id),
    /// A target of an aiming is outside, or it cannot be said that it is inside: so many figures.
    NotInside(Id, usize),
    /// Something was taped after the figures of an aiming were decided.
    DecidedBefore(Id),
    /// The routine of an aiming failed.
    RoutineFailed(Id),
    /// What the routine of an aiming said was not entered.
    NoResult(Id),
    /// So many findings that stop an aiming, or need care, and that nobody goes on with: first those that stop.
    FindingsOpen {
        /// Of which aiming.
        aiming: Id,
        /// How many stop it.
        stop: usize,
        /// How many need care.
        care: usize,
    },
    /// An instrument was to be checked before it was used: its name and serial number.
    Overdue(String, String),
    /// Nobody signed what is there now.
    NotSigned,
}

/// What a record lacks, in the order of the visit. `steps` are those of [`super::steps()`], `parts` as given there.
pub fn lacks(record: &VisitRecord, steps: &[VisitStep], parts: &[Part<'_>]) -> Vec<Lack> {
    let holds = Holds::of(record);
    let of_step = |own: &VisitStep| match own.state {
        StepState::Open | StepState::TakenBack => Some(Lack::StepOpen(own.id.clone())),
        StepState::OutOfRange => Some(Lack::StepOutOfRange(own.id.clone())),
        StepState::Done | StepState::NotApplicable(_) => None,
    };
    let mut lacks: Vec<Lack> = steps.iter().filter_map(of_step).collect();
    let open = open_findings(record, parts);
    for line in &record.begun.lines {
        lacks.extend(of_aiming(holds, &line.aiming));
        let left = || open.iter().filter(|own| own.aiming == line.aiming && own.accepted.is_none());
        let stop = left().filter(|own| own.finding.severity == Severity::Stops).count();
        let care = left().count() - stop;
        if stop + care > 0 {
            lacks.push(Lack::FindingsOpen { aiming: line.aiming.clone(), stop, care });
        }
    }
    let overdue = holds.instruments().into_iter().filter(|(own, used)| is_overdue(own, *used));
    lacks.extend(overdue.map(|(own, _)| Lack::Overdue(own.name.clone(), own.serial.clone())));
    if holds.signed().is_empty() {
        lacks.push(Lack::NotSigned);
    }
    lacks
}

fn of_aiming(holds: Holds<'_>, aiming: &Id) -> Vec<Lack> {
    let mut lacks = Vec::new();
    if holds.documents(aiming).is_empty() {
        lacks.push(Lack::NoDocument(aiming.clone()));
    }
    let decided = holds.decided(aiming);
    let not_inside = decided.iter().filter(|own| own.held.what.decision != Decision::Inside).count();
    if decided.is_empty() {
        lacks.push(Lack::NotDecided(aiming.clone()));
    } else if decided.iter().any(|own| own.is_older) {
        lacks.push(Lack::DecidedBefore(aiming.clone()));
    } else if not_inside > 0 {
        lacks.push(Lack::NotInside(aiming.clone(), not_inside));
    }
    match holds.routine(aiming) {
        None => lacks.push(Lack::NoResult(aiming.clone())),
        Some((RoutineResult::Failed { .. }, ..)) => lacks.push(Lack::RoutineFailed(aiming.clone())),
        Some((RoutineResult::Passed, ..)) => {}
    }
    lacks
}
