//! What is to have, to do and to mind at each step.

use super::super::Part;
use super::super::holds::Holds;
use super::super::musts::{Asked, musts};
use super::asked::asked;
use super::{Beside, Caution, Need, Task, VisitStep, radiates, state};
use crate::assessment::Severity;
use crate::ground::height_to_set;
use crate::model::record::{StepId, StepKind, VisitRecord};
use crate::model::{Id, Provenance, TargetHeight};

/// All that steps are made from.
pub(super) struct All<'a> {
    pub record: &'a VisitRecord,
    pub holds: Holds<'a>,
    pub parts: &'a [Part<'a>],
    /// The aimings in the order of work.
    pub lines: Vec<&'a Id>,
}

impl<'a> All<'a> {
    /// The set-up of an aiming.
    pub fn part(&self, aiming: &Id) -> Option<Part<'a>> {
        self.parts.iter().find(|own| own.aiming() == aiming).copied()
    }

    /// Whether the car is parked anew for an aiming: it stands elsewhere for the one before. Where nothing is known of a set-up it stays.
    pub fn is_parked_for(&self, aiming: &Id) -> bool {
        let Some(at) = self.lines.iter().position(|own| *own == aiming) else { return false };
        let Some(before) = at.checked_sub(1).and_then(|at| self.lines.get(at)) else { return true };
        match (self.part(before), self.part(aiming)) {
            (Some(one), Some(other)) => {
                let (one, other) = (one.arrangement, other.arrangement);
                one.parked != other.parked || one.on_runways != other.on_runways || one.in_bay != other.in_bay
            }
            _ => false,
        }
    }

    /// For which aiming the car was parked where an aiming is done.
    pub fn parked_for(&self, aiming: &Id) -> Option<&'a Id> {
        let at = self.lines.iter().position(|own| *own == aiming)?;
        self.lines.iter().take(at + 1).rev().find(|own| self.is_parked_for(own)).copied()
    }

    /// A step with all that belongs to it.
    pub fn step(&self, id: StepId) -> VisitStep {
        let part = id.aiming.as_ref().and_then(|own| self.part(own));
        let parked_for = id.aiming.as_ref().and_then(|own| self.parked_for(own));
        let values = asked(self.holds, &id, part.as_ref());
        let elsewhere =
            |own: &Id| self.lines.first().is_some_and(|first| *first != own) && self.is_parked_for(own);
        let asked = Asked {
            holds: self.holds,
            parts: self.parts,
            parked_for,
            is_elsewhere: parked_for.is_some_and(elsewhere),
        };
        let unentered = values.iter().filter(|own| own.entered.is_none()).map(|own| own.of.clone());
        let open = musts(&asked, &id, unentered);
        VisitStep {
            needs: needs(id.kind, part.as_ref()),
            tasks: self.tasks(&id, part.as_ref()),
            cautions: cautions(id.kind, part.as_ref()),
            beside: beside(&id, part.is_some()),
            parked_for: parked_for.cloned(),
            state: state(&asked, &id, &values, open.len()),
            open,
            values,
            id,
        }
    }

    fn tasks(&self, id: &StepId, part: Option<&Part<'a>>) -> Vec<Task> {
        let aiming = part.map(|own| &own.arrangement.aiming);
        match id.kind {
            StepKind::Why => self.why(),
            StepKind::Procedure => vec![self.procedure(id), Task::NoteDocument],
            StepKind::ScanBefore => vec![Task::ReadFaults, Task::MendOtherFaults],
            StepKind::Sensor => {
                let line = id.aiming.as_ref().and_then(|own| self.record.begun.line(own));
                let look = line.map(|own| Task::LookAtSensor(own.sensor.clone()));
                look.into_iter().chain([Task::LookAtCover]).collect()
            }
            StepKind::TyresAndLoad => {
                let mut tasks = vec![Task::SetTyres, Task::EmptyCar];
                let conditions = self.parts.iter().flat_map(|own| &own.arrangement.aiming.conditions);
                for own in conditions {
                    let task = Task::Meet(own.clone());
                    if !tasks.contains(&task) {
                        tasks.push(task);
                    }
                }
                tasks
            }
            StepKind::RideHeights => vec![Task::MeasureArches],
            StepKind::Alignment => self.alignment(),
            StepKind::Floor => self.floor(),
            StepKind::Park => {
                vec![Task::Park, Task::Settle, Task::Straighten, Task::LayCrosses, Task::TapeCar]
            }
            StepKind::Clear => part.map(clear).unwrap_or_default(),
            StepKind::Marks => aiming.map(|own| Task::LayMarks(own.mark_plan.len())).into_iter().collect(),
            StepKind::CheckDistances => {
                part.map(|own| Task::TapeMarks(own.assessment.scene.readings.len())).into_iter().collect()
            }
            StepKind::Stand => {
                part.map(targets).unwrap_or_default().into_iter().chain([Task::SquareAndPlumb]).collect()
            }
            StepKind::Routine => vec![Task::StartRoutine, Task::KeepOff],
            StepKind::Result => vec![Task::TypeResult, Task::TapeCarAgain],
            StepKind::ScanAfter => vec![Task::ReadFaults],
            StepKind::Drive => vec![Task::DriveIfAsked],
            StepKind::Sign => vec![Task::GatherPapers, Task::LookThroughAndSign],
        }
    }

    fn why(&self) -> Vec<Task> {
        let mut tasks = Vec::new();
        for own in self.lines.iter().filter_map(|own| self.record.begun.line(own)) {
            if own.because.is_empty() {
                tasks.push(Task::AimingChosen(own.title.clone()));
            }
            for because in &own.because {
                tasks.push(Task::WorkAsksFor { work: because.work.clone(), aiming: own.title.clone() });
            }
        }
        for own in self.record.begun.lines.iter().flat_map(|own| &own.because) {
            let mind = Task::Mind(own.note.clone());
            if !own.note.is_empty() && !tasks.contains(&mind) {
                tasks.push(mind);
            }
        }
        tasks
    }

    fn procedure(&self, id: &StepId) -> Task {
        let line = id.aiming.as_ref().and_then(|own| self.record.begun.line(own));
        Task::OpenProcedure(match line.map(|own| &own.provenance) {
            Some(Provenance::Maker { document, date }) => Some((document.clone(), *date)),
            _ => None,
        })
    }

    /// The narrowest limits of all aimings.
    fn alignment(&self) -> Vec<Task> {
        let limits = || self.parts.iter().map(|own| own.arrangement.aiming.alignment);
        let thrust_rad = limits().filter_map(|own| own.thrust_angle_rad).reduce(f64::min);
        let set_back_mm = limits().filter_map(|own| own.set_back_mm).reduce(f64::min);
        let mut tasks = vec![Task::EnterAlignment];
        if thrust_rad.is_some() || set_back_mm.is_some() {
            tasks.push(Task::AlignmentLimits { thrust_rad, set_back_mm });
        }
        tasks
    }

    fn floor(&self) -> Vec<Task> {
        let Some(first) = self.parts.first().map(|own| own.arrangement) else {
            return vec![Task::SurveyFloor];
        };
        let Some(taken) = first.bay.survey.as_ref().and_then(|own| own.taken) else {
            return vec![Task::SurveyFloor];
        };
        let mut tasks = vec![Task::ConfirmSurvey(taken)];
        let days = first.today.and_then(|today| taken.until(today).ok()).map(|own| i64::from(own.get_days()));
        if let Some(days) = days.filter(|own| *own as f64 > first.shop.survey_age_days) {
            tasks.push(Task::SurveyTooOld(days));
        }
        tasks
    }
}

fn cautions(kind: StepKind, part: Option<&Part<'_>>) -> Vec<Caution> {
    let is_radar = part.is_none_or(|own| radiates(&own.arrangement.sensor.kind));
    match kind {
        StepKind::Why | StepKind::Procedure => vec![Caution::MakerDecides],
        StepKind::Sensor => vec![Caution::TrainedPeople, Caution::MakerDecides],
        StepKind::RideHeights => vec![Caution::ChockFirst, Caution::NotOnAJack],
        StepKind::Floor => vec![Caution::LocalCodes],
        StepKind::Park => vec![Caution::ChockFirst],
        StepKind::Clear => vec![Caution::TripAndExits],
        StepKind::Marks => vec![Caution::ChockFirst, Caution::LookAwayFromLaser],
        StepKind::CheckDistances => vec![Caution::ChockFirst],
        StepKind::Stand => vec![Caution::TripAndExits],
        StepKind::Routine if is_radar => vec![Caution::MakerDecides, Caution::RadarRadiates],
        StepKind::Routine => vec![Caution::MakerDecides],
        StepKind::Drive => vec![Caution::OnTheRoad],
        StepKind::Result | StepKind::Sign => vec![Caution::SaysNothingOfSensor],
        StepKind::ScanBefore | StepKind::TyresAndLoad | StepKind::Alignment | StepKind::ScanAfter => {
            Vec::new()
        }
    }
}

fn needs(kind: StepKind, part: Option<&Part<'_>>) -> Vec<Need> {
    let aiming = part.map(|own| &own.arrangement.aiming);
    match kind {
        StepKind::Procedure => {
            let ready = aiming.into_iter().flat_map(|own| &own.have_ready).cloned().map(Need::OfProcedure);
            std::iter::once(Need::MakersDocument).chain(ready).collect()
        }
        StepKind::ScanBefore | StepKind::ScanAfter => vec![Need::ScanTool, Need::BatterySupport],
        StepKind::TyresAndLoad => vec![Need::TyreGauge],
        StepKind::RideHeights => vec![Need::TapeMeasure],
        StepKind::Alignment => vec![Need::AlignmentSheet],
        StepKind::Park => vec![Need::Chocks, Need::CrossTape, Need::TapeMeasure],
        StepKind::Marks => vec![Need::LayingTools],
        StepKind::CheckDistances => vec![Need::TapeMeasure],
        StepKind::Stand => {
            let targets = aiming.into_iter().flat_map(|own| &own.placements);
            let targets = targets.map(|own| Need::Target(own.id.clone(), own.target.kind));
            targets.chain([Need::Level, Need::TapeMeasure]).collect()
        }
        StepKind::Routine => vec![Need::ScanTool, Need::BatterySupport, Need::MakersDocument],
        StepKind::Why
        | StepKind::Sensor
        | StepKind::Floor
        | StepKind::Clear
        | StepKind::Result
        | StepKind::Drive
        | StepKind::Sign => Vec::new(),
    }
}

fn beside(id: &StepId, is_known: bool) -> Beside {
    let Some(aiming) = id.aiming.as_ref().filter(|_| is_known) else { return Beside::Nothing };
    match id.kind {
        StepKind::Park | StepKind::Clear | StepKind::Routine => Beside::TopView(aiming.clone()),
        StepKind::Marks | StepKind::CheckDistances => Beside::MarkPlan(aiming.clone()),
        StepKind::Stand => Beside::Stand(aiming.clone()),
        _ => Beside::Nothing,
    }
}

/// What the promise does, and a look at what it does not cure; without a promise a look at each finding.
fn clear(part: &Part<'_>) -> Vec<Task> {
    let promised = part.assessment.promise.as_ref().map(|own| own.steps.as_slice()).unwrap_or_default();
    let done = promised.iter().filter(|own| !own.asks_for_more()).cloned().map(Task::Do);
    let left = part.assessment.findings.iter().enumerate().filter(|(_, finding)| {
        let is_cured = finding.severity == Severity::Stops && !promised.is_empty();
        finding.severity != Severity::Note && !is_cured
    });
    done.chain(left.map(|(nth, _)| Task::LookAt(nth))).collect()
}

fn targets(part: &Part<'_>) -> Vec<Task> {
    let placements = part.arrangement.aiming.placements.iter().zip(&part.assessment.scene.targets);
    let set = placements.map(|(placement, placed)| {
        let by_levels = height_to_set(part.arrangement, &part.assessment.scene, &placement.id);
        let meant = (placement.height != TargetHeight::OnFloor).then_some(placed.meant.height_mm);
        Task::SetTarget {
            placement: placement.id.clone(),
            mark: placement.mark.clone(),
            height_mm: by_levels.as_ref().map(|own| own.height.value).or(meant),
            by_levels_mm: by_levels.map(|own| own.height.u95),
        }
    });
    set.collect()
}
