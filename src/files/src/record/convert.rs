//! Between the file form of a record and the model.

use baywright_planner::geometry::PlanPose;
use baywright_planner::model::Id;
use baywright_planner::model::record as r;

use super::file::{
    AttachmentKindFile, BecauseFile, BegunFile, DecisionFile, EntryFile, InstrumentFile, LineFile,
    ProvenFile, ResultFile, RuleFile, StepFile, StepKindFile, ValueOfFile, WayFile, WayOutFile, WhatFile,
    WithinFile, WorkListFile,
};
use crate::figure::{Clock, Day, Figure, point, vec2};
use crate::layout::on_car;

/// Both ways, every variant named: adding one to either side does not compile until it stands here.
macro_rules! same {
    ($file:ident, $model:ty: $($name:ident = $own:ident),+ $(,)?) => {
        impl From<$file> for $model {
            fn from(file: $file) -> Self {
                match file { $($file::$name => Self::$own),+ }
            }
        }
        impl From<$model> for $file {
            fn from(model: $model) -> Self {
                match model { $(<$model>::$own => Self::$name),+ }
            }
        }
    };
}

same!(
    StepKindFile, r::StepKind: Why = Why, Procedure = Procedure, ScanBefore = ScanBefore, Sensor = Sensor,
    TyresAndLoad = TyresAndLoad, RideHeights = RideHeights, Alignment = Alignment, Floor = Floor, Park = Park, Clear = Clear,
    Marks = Marks, CheckDistances = CheckDistances, Stand = Stand, Routine = Routine, Result = Result, ScanAfter = ScanAfter,
    Drive = Drive, Sign = Sign
);
same!(ProvenFile, r::ProvenFigure: DirectionDeg = Direction, DistanceMm = Distance, AsideMm = Aside, TurnDeg = Turn);
same!(DecisionFile, r::Decision: Inside = Inside, Outside = Outside, CannotSay = CannotSay);
same!(RuleFile, r::DecisionRule: GuardedAcceptance = GuardedAcceptance);
same!(WayFile, r::Way: Left = Left, Right = Right, Up = Up, Down = Down);
same!(
    AttachmentKindFile, r::AttachmentKind: Photo = Photo, Scan = Scan, AlignmentSheet = AlignmentSheet, Sheet = Sheet
);

fn id(name: &str) -> Id {
    name.into()
}

fn value(own: Option<Figure>) -> Option<f64> {
    own.map(|own| own.0)
}

fn figure(own: Option<f64>) -> Option<Figure> {
    own.map(Figure)
}

fn count(own: usize) -> u32 {
    u32::try_from(own).unwrap_or(u32::MAX)
}

fn day(own: Option<Day>) -> Option<jiff::civil::Date> {
    own.map(|own| own.0)
}

pub fn begun_of(file: &BegunFile) -> r::Begun {
    let because = |own: &BecauseFile| r::Because {
        work: own.work.clone(),
        note: own.note.clone(),
        provenance: (&own.source).into(),
    };
    let line = |own: &LineFile| r::RecordLine {
        aiming: id(&own.aiming),
        title: own.title.clone(),
        sensor: id(&own.sensor),
        because: own.because.iter().map(because).collect(),
        provenance: (&own.source).into(),
    };
    let list = |own: &WorkListFile| r::WorkList { name: own.name.clone(), provenance: (&own.source).into() };
    r::Begun {
        job: file.job.clone(),
        car: file.car.clone(),
        plate: file.plate.clone(),
        by: file.by.clone(),
        at: file.at.0,
        bay: id(&file.bay),
        layout: file.layout.clone(),
        arrangement: id(&file.arrangement),
        vehicle: id(&file.vehicle),
        list: file.list.as_ref().map(list),
        lines: file.lines.iter().map(line).collect(),
    }
}

pub fn begun_file(model: &r::Begun) -> BegunFile {
    let because = |own: &r::Because| BecauseFile {
        work: own.work.clone(),
        note: own.note.clone(),
        source: (&own.provenance).into(),
    };
    let line = |own: &r::RecordLine| LineFile {
        aiming: own.aiming.to_string(),
        title: own.title.clone(),
        sensor: own.sensor.to_string(),
        because: own.because.iter().map(because).collect(),
        source: (&own.provenance).into(),
    };
    let list = |own: &r::WorkList| WorkListFile { name: own.name.clone(), source: (&own.provenance).into() };
    BegunFile {
        job: model.job.clone(),
        car: model.car.clone(),
        plate: model.plate.clone(),
        by: model.by.clone(),
        at: Clock(model.at),
        bay: model.bay.to_string(),
        layout: model.layout.clone(),
        arrangement: model.arrangement.to_string(),
        vehicle: model.vehicle.to_string(),
        list: model.list.as_ref().map(list),
        lines: model.lines.iter().map(line).collect(),
    }
}

pub fn entry_of(file: &EntryFile) -> r::Entry {
    r::Entry { by: file.by.clone(), at: file.at.0, what: what_of(&file.what) }
}

pub fn entry_file(model: &r::Entry) -> EntryFile {
    EntryFile { by: model.by.clone(), at: Clock(model.at), what: what_file(&model.what) }
}

fn step_of(file: &StepFile) -> r::StepId {
    r::StepId { kind: file.kind.into(), aiming: file.aiming.as_deref().map(id) }
}

fn step_file(model: &r::StepId) -> StepFile {
    StepFile { kind: model.kind.into(), aiming: model.aiming.as_ref().map(Id::to_string) }
}

fn instrument_of(file: &InstrumentFile) -> r::Instrument {
    r::Instrument {
        name: file.name.clone(),
        serial: file.serial.clone(),
        due: day(file.due),
        is_unlisted: file.unlisted,
    }
}

fn instrument_file(model: &r::Instrument) -> InstrumentFile {
    InstrumentFile {
        name: model.name.clone(),
        serial: model.serial.clone(),
        due: model.due.map(Day),
        unlisted: model.is_unlisted,
    }
}

fn what_of(file: &WhatFile) -> r::What {
    use r::What as M;
    match file {
        WhatFile::StepDone { step } => M::StepDone { step: step_of(step) },
        WhatFile::GonePast { step, open } => M::GonePast { step: step_of(step), open: *open as usize },
        WhatFile::LeftOut { step, why } => M::LeftOut { step: step_of(step), why: why.clone() },
        WhatFile::NotApplicable { step, why } => M::NotApplicable { step: step_of(step), why: why.clone() },
        WhatFile::TakenBack { step, why } => M::TakenBack { step: step_of(step), why: why.clone() },
        WhatFile::Value { step, of, value: own, allowed } => M::Value(r::Entered {
            step: step_of(step),
            of: match of {
                ValueOfFile::Faults => r::ValueOf::Faults,
                ValueOfFile::TyrePressureBar { wheel } => r::ValueOf::TyrePressure((*wheel).into()),
                ValueOfFile::TargetHeightMm { placement } => r::ValueOf::TargetHeight(id(placement)),
                ValueOfFile::DrivenKm => r::ValueOf::Driven,
            },
            value: own.0,
            allowed: r::Within { low: value(allowed.low), high: value(allowed.high) },
        }),
        WhatFile::Reading { aiming, from, to, read_mm, instrument, temperature_c } => {
            M::Reading(r::Reading {
                aiming: id(aiming),
                from: id(from),
                to: id(to),
                read_mm: read_mm.0,
                instrument: instrument.as_ref().map(instrument_of),
                temperature_c: value(*temperature_c),
            })
        }
        WhatFile::Decided { aiming, placement, of, off, u95, allowed, unseen, taped, decision, rule } => {
            M::Decided(r::Decided {
                aiming: id(aiming),
                placement: id(placement),
                of: (*of).into(),
                off: off.0,
                u95: u95.0,
                allowed: allowed.0,
                unseen: value(*unseen),
                taped: *taped as usize,
                decision: (*decision).into(),
                rule: (*rule).into(),
            })
        }
        WhatFile::Alignment { sheet } => M::Alignment(Box::new(on_car::sheet(sheet))),
        WhatFile::Stood { aiming, nth, stood, within_mm } => M::Stood(r::StoodRead {
            aiming: id(aiming),
            nth: *nth as usize,
            stood: on_car::stood(stood),
            within_mm: value(*within_mm),
        }),
        WhatFile::Parked { aimings, place, at_mm, heading_deg, set_up } => M::Parked(r::ParkedAt {
            aimings: aimings.iter().map(|own| id(own)).collect(),
            place: *place as usize,
            parked: PlanPose::new(vec2(*at_mm), heading_deg.radians()),
            set_up: set_up.as_deref().map(id),
        }),
        WhatFile::RideHeights { front_left_mm, front_right_mm, rear_left_mm, rear_right_mm } => {
            M::RideHeights {
                heights_mm: [*front_left_mm, *front_right_mm, *rear_left_mm, *rear_right_mm].map(value),
            }
        }
        WhatFile::FloorConfirmed { surveyed, instrument } => {
            M::FloorConfirmed { surveyed: surveyed.0, instrument: instrument.as_ref().map(instrument_of) }
        }
        WhatFile::Routine { aiming, result, note } => M::Routine {
            aiming: id(aiming),
            result: match result {
                ResultFile::Passed => r::RoutineResult::Passed,
                ResultFile::Failed { out } => r::RoutineResult::Failed {
                    out: out
                        .iter()
                        .map(|own| r::WayOut { way: own.way.into(), by_rad: own.by_deg.map(Figure::radians) })
                        .collect(),
                },
            },
            note: note.clone(),
        },
        WhatFile::Document { aiming, document, edition, date } => M::Document(r::MakersDocument {
            aiming: id(aiming),
            document: document.clone(),
            edition: edition.clone(),
            date: day(*date),
        }),
        WhatFile::Attached { file, sha256, bytes, kind, step } => M::Attached(r::Attachment {
            file: file.clone(),
            sha256: sha256.clone(),
            bytes: *bytes,
            kind: (*kind).into(),
            step: step.as_ref().map(step_of),
        }),
        WhatFile::Withdrawn { sha256, why } => M::Withdrawn { sha256: sha256.clone(), why: why.clone() },
        WhatFile::Accepted { aiming, code, about, measured, in_english, in_german, why } => {
            M::Accepted(r::AcceptedFinding {
                aiming: id(aiming),
                code: code.clone(),
                about: about.clone(),
                measured: value(*measured),
                in_english: in_english.clone(),
                in_german: in_german.clone(),
                why: why.clone(),
            })
        }
        WhatFile::Signed { role, lacking, why } => {
            M::Signed { role: role.clone(), lacking: *lacking as usize, why: why.clone() }
        }
        WhatFile::Struck { entry, why } => M::Struck { entry: *entry as usize, why: why.clone() },
        WhatFile::Labour { work, minutes } => M::Labour { work: work.clone(), minutes: minutes.0 },
        WhatFile::Closed => M::Closed,
        WhatFile::WentOn { entry } => M::WentOn { entry: entry.map(|own| own as usize) },
        WhatFile::Reopened { why } => M::Reopened { why: why.clone() },
    }
}

fn what_file(model: &r::What) -> WhatFile {
    use WhatFile as F;
    use r::What as M;
    match model {
        M::StepDone { step } => F::StepDone { step: step_file(step) },
        M::GonePast { step, open } => F::GonePast { step: step_file(step), open: count(*open) },
        M::LeftOut { step, why } => F::LeftOut { step: step_file(step), why: why.clone() },
        M::NotApplicable { step, why } => F::NotApplicable { step: step_file(step), why: why.clone() },
        M::TakenBack { step, why } => F::TakenBack { step: step_file(step), why: why.clone() },
        M::Value(own) => F::Value {
            step: step_file(&own.step),
            of: match &own.of {
                r::ValueOf::Faults => ValueOfFile::Faults,
                r::ValueOf::TyrePressure(wheel) => ValueOfFile::TyrePressureBar { wheel: (*wheel).into() },
                r::ValueOf::TargetHeight(own) => ValueOfFile::TargetHeightMm { placement: own.to_string() },
                r::ValueOf::Driven => ValueOfFile::DrivenKm,
            },
            value: own.value.into(),
            allowed: WithinFile { low: figure(own.allowed.low), high: figure(own.allowed.high) },
        },
        M::Reading(own) => F::Reading {
            aiming: own.aiming.to_string(),
            from: own.from.to_string(),
            to: own.to.to_string(),
            read_mm: own.read_mm.into(),
            instrument: own.instrument.as_ref().map(instrument_file),
            temperature_c: figure(own.temperature_c),
        },
        M::Decided(own) => F::Decided {
            aiming: own.aiming.to_string(),
            placement: own.placement.to_string(),
            of: own.of.into(),
            off: own.off.into(),
            u95: own.u95.into(),
            allowed: own.allowed.into(),
            unseen: figure(own.unseen),
            taped: count(own.taped),
            decision: own.decision.into(),
            rule: own.rule.into(),
        },
        M::Alignment(own) => F::Alignment { sheet: Box::new(on_car::file_of_sheet(own)) },
        M::Stood(own) => F::Stood {
            aiming: own.aiming.to_string(),
            nth: count(own.nth),
            stood: on_car::file_of_stood(&own.stood),
            within_mm: figure(own.within_mm),
        },
        M::Parked(own) => F::Parked {
            aimings: own.aimings.iter().map(Id::to_string).collect(),
            place: count(own.place),
            at_mm: point(own.parked.origin()),
            heading_deg: Figure::degrees(own.parked.heading()),
            set_up: own.set_up.as_ref().map(Id::to_string),
        },
        M::RideHeights { heights_mm } => {
            let [front_left_mm, front_right_mm, rear_left_mm, rear_right_mm] = heights_mm.map(figure);
            F::RideHeights { front_left_mm, front_right_mm, rear_left_mm, rear_right_mm }
        }
        M::FloorConfirmed { surveyed, instrument } => F::FloorConfirmed {
            surveyed: Day(*surveyed),
            instrument: instrument.as_ref().map(instrument_file),
        },
        M::Routine { aiming, result, note } => F::Routine {
            aiming: aiming.to_string(),
            result: match result {
                r::RoutineResult::Passed => ResultFile::Passed,
                r::RoutineResult::Failed { out } => ResultFile::Failed {
                    out: out
                        .iter()
                        .map(|own| WayOutFile {
                            way: own.way.into(),
                            by_deg: own.by_rad.map(Figure::degrees),
                        })
                        .collect(),
                },
            },
            note: note.clone(),
        },
        M::Document(own) => F::Document {
            aiming: own.aiming.to_string(),
            document: own.document.clone(),
            edition: own.edition.clone(),
            date: own.date.map(Day),
        },
        M::Attached(own) => F::Attached {
            file: own.file.clone(),
            sha256: own.sha256.clone(),
            bytes: own.bytes,
            kind: own.kind.into(),
            step: own.step.as_ref().map(step_file),
        },
        M::Withdrawn { sha256, why } => F::Withdrawn { sha256: sha256.clone(), why: why.clone() },
        M::Accepted(own) => F::Accepted {
            aiming: own.aiming.to_string(),
            code: own.code.clone(),
            about: own.about.clone(),
            measured: figure(own.measured),
            in_english: own.in_english.clone(),
            in_german: own.in_german.clone(),
            why: own.why.clone(),
        },
        M::Signed { role, lacking, why } => {
            F::Signed { role: role.clone(), lacking: count(*lacking), why: why.clone() }
        }
        M::Struck { entry, why } => F::Struck { entry: count(*entry), why: why.clone() },
        M::Labour { work, minutes } => F::Labour { work: work.clone(), minutes: (*minutes).into() },
        M::Closed => F::Closed,
        M::WentOn { entry } => F::WentOn { entry: entry.and_then(|own| u32::try_from(own).ok()) },
        M::Reopened { why } => F::Reopened { why: why.clone() },
    }
}
