//! What a record still lacks before it is closed.

use super::found::open_findings;
use super::holds::Holds;
use super::musts::Must;
use super::steps::{StepState, VisitStep};
use super::{Part, is_overdue};
use crate::assessment::Severity;
use crate::model::Id;
use crate::model::record::{Decision, RoutineResult, StepId, StepKind, VisitRecord};

/// Something that is missing or not right.
#[derive(Clone, Debug, PartialEq)]
pub enum Lack {
    /// A step is open.
    StepOpen(StepId),
    /// A step was gone past, and these are open.
    GonePast(StepId, Vec<Must>),
    /// A step that applies is left out, and why.
    LeftOut(StepId, String),
    /// A step is out of range.
    StepOutOfRange(StepId),
    /// One that is out of range has these open too.
    OpenToo(StepId, Vec<Must>),
    /// Distances were read with a tape that is none of the shop's list.
    Unlisted(String),
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
    let of_step = |own: &VisitStep| match &own.state {
        StepState::Open | StepState::TakenBack => vec![Lack::StepOpen(own.id.clone())],
        StepState::GonePast(_) => vec![Lack::GonePast(own.id.clone(), own.open.clone())],
        StepState::LeftOut(why) => vec![Lack::LeftOut(own.id.clone(), why.clone())],
        StepState::OutOfRange => {
            let out = Lack::StepOutOfRange(own.id.clone());
            let open = (!own.open.is_empty()).then(|| Lack::OpenToo(own.id.clone(), own.open.clone()));
            std::iter::once(out).chain(open).collect()
        }
        StepState::Done | StepState::NotApplicable(_) => Vec::new(),
    };
    let mut lacks: Vec<Lack> = steps.iter().flat_map(of_step).collect();
    let open = open_findings(record, parts);
    for line in &record.begun.lines {
        // What was gone past at its step is told there.
        let told = |kind: StepKind| {
            let id = StepId::of_aiming(kind, line.aiming.clone());
            steps.iter().any(|own| own.id == id && matches!(own.state, StepState::GonePast(_)))
        };
        lacks.extend(of_aiming(holds, &line.aiming).into_iter().filter(|own| match own {
            Lack::NoDocument(_) => !told(StepKind::Procedure),
            Lack::NotDecided(_) | Lack::DecidedBefore(_) => !told(StepKind::CheckDistances),
            Lack::NoResult(_) => !told(StepKind::Result),
            _ => true,
        }));
        let left = || open.iter().filter(|own| own.aiming == line.aiming && own.accepted.is_none());
        let stop = left().filter(|own| own.finding.severity == Severity::Stops).count();
        let care = left().count() - stop;
        if stop + care > 0 {
            lacks.push(Lack::FindingsOpen { aiming: line.aiming.clone(), stop, care });
        }
    }
    let overdue = holds.instruments().into_iter().filter(|(own, used)| is_overdue(own, *used));
    lacks.extend(overdue.map(|(own, _)| Lack::Overdue(own.name.clone(), own.serial.clone())));
    let mut unlisted: Vec<&str> = Vec::new();
    for own in record.begun.lines.iter().flat_map(|own| holds.readings(&own.aiming)) {
        let with = own.what.instrument.as_ref().filter(|own| own.is_unlisted).map(|own| own.name.as_str());
        unlisted.extend(with.filter(|name| !unlisted.contains(name)));
    }
    lacks.extend(unlisted.into_iter().map(|own| Lack::Unlisted(own.to_owned())));
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

/// What lacks when somebody signs: all but what signing itself does.
pub fn lacks_to_sign(record: &VisitRecord, steps: &[VisitStep], parts: &[Part<'_>]) -> Vec<Lack> {
    let of_signing = |own: &Lack| match own {
        Lack::NotSigned => true,
        Lack::StepOpen(step) | Lack::GonePast(step, _) => step.kind == StepKind::Sign,
        _ => false,
    };
    lacks(record, steps, parts).into_iter().filter(|own| !of_signing(own)).collect()
}
