//! The steps of a visit, made from its aimings, the bay and what is found of the set-ups.

mod asked;
mod tasks;

use jiff::civil::Date;

use super::musts::{Asked, Must};
use super::{Part, holds::Holds};
use crate::assessment::{Severity, Step};
use crate::model::record::{Decision, RoutineResult, StepId, StepKind, ValueOf, VisitRecord, What, Within};
use crate::model::{Id, SensorKind, TargetKind};

/// One step of a visit.
#[derive(Clone, Debug, PartialEq)]
pub struct VisitStep {
    /// Which.
    pub id: StepId,
    /// What to have ready.
    pub needs: Vec<Need>,
    /// What to do, in order.
    pub tasks: Vec<Task>,
    /// The cautions that it needs.
    pub cautions: Vec<Caution>,
    /// The figures to enter, in order.
    pub values: Vec<AskedValue>,
    /// What it must have and has not: while there is any it is not done.
    pub open: Vec<Must>,
    /// Which drawing stands beside it.
    pub beside: Beside,
    /// The aiming for which the car was parked where the step is done, of a step of an aiming.
    pub parked_for: Option<Id>,
    /// How it stands.
    pub state: StepState,
}

/// How a step stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StepState {
    /// Nothing was said of it.
    Open,
    /// It is done, with all that it must have.
    Done,
    /// Somebody went on from it, and so many figures are open.
    GonePast(usize),
    /// It applies, and is left out, and why.
    LeftOut(String),
    /// It does not apply, and why.
    NotApplicable(String),
    /// Whatever else was said of it: a figure is not what it may be, a target is outside what is allowed, the routine failed.
    OutOfRange,
    /// It was done, and is open again.
    TakenBack,
}

impl StepState {
    /// Whether nothing more is to be done about it: no step that was gone past or left out is such a one.
    pub const fn is_settled(&self) -> bool {
        matches!(self, Self::Done | Self::NotApplicable(_))
    }
}

/// A figure to enter.
#[derive(Clone, Debug, PartialEq)]
pub struct AskedValue {
    /// Of what: with it goes the unit.
    pub of: ValueOf,
    /// What it may be; open where nobody says.
    pub allowed: Within,
    /// What was entered last.
    pub entered: Option<f64>,
}

impl AskedValue {
    /// Whether what was entered is what it may be; so is what was not entered.
    pub fn is_in_range(&self) -> bool {
        self.entered.is_none_or(|own| self.allowed.holds(own))
    }
}

/// Something to have ready.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Need {
    /// The maker's own procedure.
    MakersDocument,
    /// A scan tool.
    ScanTool,
    /// Something that holds the battery's voltage.
    BatterySupport,
    /// A tyre gauge.
    TyreGauge,
    /// A tape measure.
    TapeMeasure,
    /// The alignment sheet of this car.
    AlignmentSheet,
    /// Chocks.
    Chocks,
    /// Masking tape and a pen, for crosses on the floor.
    CrossTape,
    /// Plumb line, line laser or string, masking tape, a fine pen.
    LayingTools,
    /// A target, and what holds it.
    Target(Id, TargetKind),
    /// A level for the pole or the face.
    Level,
    /// In the procedure's own words.
    OfProcedure(String),
}

/// Something to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Task {
    /// A line of the repair asks for an aiming: its name on the screen.
    WorkAsksFor {
        /// The work.
        work: String,
        /// The aiming.
        aiming: String,
    },
    /// An aiming is done without a line of the repair.
    AimingChosen(String),
    /// What else the list of work says to mind.
    Mind(String),
    /// Open the maker's procedure; what the profile names, with its day.
    OpenProcedure(Option<(String, Option<Date>)>),
    /// Write down its title, edition and date.
    NoteDocument,
    /// Read out the faults and keep the print-out.
    ReadFaults,
    /// Mend other faults first.
    MendOtherFaults,
    /// Look at the sensor, its bracket and its seat.
    LookAtSensor(Id),
    /// Look at what covers it: filler, metal tape, stickers, plates.
    LookAtCover,
    /// Tyres of one size, at their pressures.
    SetTyres,
    /// Empty, nobody aboard, fuel as the maker says.
    EmptyCar,
    /// In the procedure's own words.
    Meet(String),
    /// Measure from each wheel's middle to the edge of its arch.
    MeasureArches,
    /// Put in the rear toe and the set-back.
    EnterAlignment,
    /// A limit of the alignment, from the procedure: thrust angle, radians; set-back, mm.
    AlignmentLimits {
        /// Largest thrust angle, radians either way.
        thrust_rad: Option<f64>,
        /// Largest set-back, mm either way.
        set_back_mm: Option<f64>,
    },
    /// Confirm the survey of this day.
    ConfirmSurvey(Date),
    /// The survey is older than the shop lets one be, so many days.
    SurveyTooOld(i64),
    /// Survey the floor: there is no survey, or one without a day.
    SurveyFloor,
    /// Put aside what is in the way.
    Do(Step),
    /// A finding that stops it, or needs care, and has no such step: its place among the findings of the aiming.
    LookAt(usize),
    /// Park where the set-up has the car.
    Park,
    /// Roll it in straight, let the springs settle.
    Settle,
    /// Wheels straight ahead, brake and chocks.
    Straighten,
    /// Lay the two crosses on the floor from which it is taped.
    LayCrosses,
    /// Tape two distances from something fixed to the car, so that it is known later whether it has moved.
    TapeCar,
    /// Lay so many marks.
    LayMarks(usize),
    /// Tape the distances between them until it is enough; the first of so many.
    TapeMarks(usize),
    /// Put a target on its mark.
    SetTarget {
        /// Whose.
        placement: Id,
        /// On which mark, if it has one.
        mark: Option<Id>,
        /// The middle of its face above the floor, mm; `None` of one that lies.
        height_mm: Option<f64>,
        /// How surely the floor's levels give that, mm, 95 %; `None` where it is over a level floor, for want of them.
        by_levels_mm: Option<f64>,
    },
    /// Square to the axis, pole plumb.
    SquareAndPlumb,
    /// Start the maker's routine by the scan tool.
    StartRoutine,
    /// Nobody touches the car or walks before the sensor while it runs.
    KeepOff,
    /// Type what it said.
    TypeResult,
    /// Tape the two distances to the car again.
    TapeCarAgain,
    /// Drive, if the procedure asks for it.
    DriveIfAsked,
    /// Put everything back, gather the papers.
    GatherPapers,
    /// Look through the record and sign.
    LookThroughAndSign,
}

/// A caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// The vehicle maker's procedure decides.
    MakerDecides,
    /// Brake and chock before anybody lies down near the car.
    ChockFirst,
    /// Nobody under a car that stands on a jack alone.
    NotOnAJack,
    /// Look away from the laser, keep it off shiny panels and below eye level.
    LookAwayFromLaser,
    /// A radar in this mode radiates: keep the distance that its maker asks.
    RadarRadiates,
    /// Airbags and high voltage behind bumpers: by people trained for it.
    TrainedPeople,
    /// Cords and stands are to trip over; exits, extinguishers and panels stay free.
    TripAndExits,
    /// On the road by whoever is allowed to, as the law and the maker say.
    OnTheRoad,
    /// Floors and walls: local codes and licensed people.
    LocalCodes,
    /// The record does not say that the sensor is aimed.
    SaysNothingOfSensor,
}

/// Which drawing stands beside a step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Beside {
    /// None.
    Nothing,
    /// The bay from above, as this aiming's set-up has it.
    TopView(Id),
    /// The marks of an aiming.
    MarkPlan(Id),
    /// The target on its stand, from the side.
    Stand(Id),
}

/// The steps of a visit. `parts` are its aimings in the order of work: that of the answer for the visit
/// ([`super::VisitAnswer::order`]), or of the record's lines. Lines without a part come after them, with what is known without their set-up.
/// Those that are done in one place stand together: the car is parked once for them. What is done once is there once.
pub fn steps(record: &VisitRecord, parts: &[Part<'_>]) -> Vec<VisitStep> {
    let lines = order(record, parts);
    let all = tasks::All { record, holds: Holds::of(record), parts, lines };
    let mut ids = vec![StepId::of_visit(StepKind::Why)];
    let each = |kind| all.lines.iter().map(move |line| StepId::of_aiming(kind, (*line).clone()));
    ids.extend(each(StepKind::Procedure));
    ids.push(StepId::of_visit(StepKind::ScanBefore));
    ids.extend(each(StepKind::Sensor));
    for kind in [StepKind::TyresAndLoad, StepKind::RideHeights, StepKind::Alignment, StepKind::Floor] {
        ids.push(StepId::of_visit(kind));
    }
    for aiming in &all.lines {
        ids.extend(of_aiming(&all, aiming));
    }
    for kind in [StepKind::ScanAfter, StepKind::Drive, StepKind::Sign] {
        ids.push(StepId::of_visit(kind));
    }
    ids.into_iter().map(|id| all.step(id)).collect()
}

/// The aimings of the record in the order of work.
fn order<'a>(record: &'a VisitRecord, parts: &[Part<'a>]) -> Vec<&'a Id> {
    let known = parts.iter().map(Part::aiming).filter(|own| record.begun.line(own).is_some());
    let mut lines: Vec<&'a Id> = Vec::new();
    for aiming in known.chain(record.begun.lines.iter().map(|own| &own.aiming)) {
        if !lines.contains(&aiming) {
            lines.push(aiming);
        }
    }
    lines
}

/// What is done for one aiming, where the car stands for it.
fn of_aiming(all: &tasks::All<'_>, aiming: &Id) -> Vec<StepId> {
    let part = all.part(aiming);
    let mut kinds = Vec::new();
    let is_clear = |own: &Part<'_>| own.assessment.findings.iter().all(|own| own.severity == Severity::Note);
    if part.is_some_and(|own| !is_clear(&own)) {
        kinds.push(StepKind::Clear);
    }
    if all.is_parked_for(aiming) {
        kinds.push(StepKind::Park);
    }
    // Without its set-up nobody knows that there are none.
    if part.is_none_or(|own| !own.arrangement.aiming.mark_plan.is_empty()) {
        kinds.push(StepKind::Marks);
    }
    if part.is_none_or(|own| !own.assessment.scene.readings.is_empty()) {
        kinds.push(StepKind::CheckDistances);
    }
    kinds.extend([StepKind::Stand, StepKind::Routine, StepKind::Result]);
    kinds.into_iter().map(|kind| StepId::of_aiming(kind, aiming.clone())).collect()
}

/// How a step stands by what was entered.
fn state(asked: &Asked<'_, '_>, id: &StepId, values: &[AskedValue], open: usize) -> StepState {
    let holds = asked.holds;
    let said = holds.step(id).map(|own| &own.what);
    if let Some(What::NotApplicable { why, .. }) = said {
        return StepState::NotApplicable(why.clone());
    }
    let then = |own: &AskedValue| holds.value(id, &own.of).is_none_or(|own| own.what.is_in_range());
    let is_out = values.iter().any(|own| !own.is_in_range() || !then(own));
    let is_worse = match (id.kind, &id.aiming) {
        (StepKind::CheckDistances, Some(aiming)) => {
            holds.decided(aiming).iter().any(|own| own.held.what.decision == Decision::Outside)
        }
        (StepKind::Result, Some(aiming)) => {
            let failed = |said: &RoutineResult| matches!(said, RoutineResult::Failed { .. });
            holds.routine(aiming).is_some_and(|(said, ..)| failed(said))
                || holds.stood(aiming).iter().any(|own| own.what.moved())
        }
        _ => false,
    };
    match said {
        _ if is_out || is_worse => StepState::OutOfRange,
        Some(What::LeftOut { why, .. }) => StepState::LeftOut(why.clone()),
        Some(What::StepDone { .. } | What::GonePast { .. }) if open > 0 => StepState::GonePast(open),
        Some(What::StepDone { .. } | What::GonePast { .. }) => StepState::Done,
        Some(What::TakenBack { .. }) => StepState::TakenBack,
        _ => StepState::Open,
    }
}

/// Whether a sensor sends out what keeps people away from it.
const fn radiates(kind: &SensorKind) -> bool {
    matches!(kind, SensorKind::ForwardRadar(_) | SensorKind::CornerRadar(_))
}
