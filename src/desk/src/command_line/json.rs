//! `baywright check --json`: the same answer as data. Lengths in millimetres, angles in degrees, bay frame.

mod plan;
mod record;
mod schema;
mod shape;
mod sheet;
mod sheet_shape;
mod target;
mod trouble;

use std::io::{self, Write};
use std::path::Path;

use baywright_planner::difference::{Difference, of_own_building};
use baywright_planner::geometry::{DVec2, DVec3, angle};
use baywright_planner::model::{Arrangement, InstrumentKind, Layout, Shop, ShopFigure};
use baywright_planner::proof::{measured, used};
use baywright_planner::words::{Locale, Words};
use baywright_planner::{Assessment, Cure, Finding, Quantity, Step, Subject};

use crate::command_line::visit::others_of_visit;
use shape::{
    About, AnswerFormat, Answers, AnswersFormat, Causes, CodeName, Cured, Differs, Do, Found, InstrumentUsed,
    Kind, Mark, One, OtherAiming, Promised, Reading, ShopUsed, StepName, Told, Value, ValueUnit,
};

pub(crate) use plan::{PlanAnswer, write_plan};
pub(crate) use record::{RecordTold, told_record, told_record_check};
pub(crate) use schema::schema;
pub(crate) use shape::Answer;
pub(crate) use sheet::told_sheets;
pub(crate) use trouble::write_troubles;

/// The version of the formats.
const VERSION: u32 = 1;

/// The answer for one file, which is told so, by these settings of the shop and their file.
pub(crate) fn answer(
    file: String,
    layout: &Layout,
    used: (&Shop, Option<&Path>),
    answers: &[(&Arrangement, Assessment)],
    locale: Locale,
) -> Answer {
    Answer {
        format: AnswerFormat::One,
        version: VERSION,
        file,
        bay: layout.bay.name.clone(),
        shop: shop(used),
        arrangements: answers
            .iter()
            .map(|(arrangement, assessment)| one(layout, arrangement, assessment, locale))
            .collect(),
    }
}

/// Writes what was asked as one JSON document: the answer for a file, or a list of the answers that there are if several files
/// were named.
pub(crate) fn write(answers: &[Answer], several: bool, out: &mut dyn Write) -> io::Result<()> {
    match answers {
        [answer] if !several => serde_json::to_writer_pretty(&mut *out, answer)?,
        _ => {
            let answers = Answers { format: AnswersFormat::Several, version: VERSION, answers };
            serde_json::to_writer_pretty(&mut *out, &answers)?;
        }
    }
    writeln!(out)
}

fn shop((shop, file): (&Shop, Option<&Path>)) -> ShopUsed {
    let figures = || ShopFigure::ALL.iter();
    ShopUsed {
        file: file.map(|path| path.display().to_string()),
        fingerprint: shop.fingerprint(),
        settings: figures().map(|own| (own.name(), millionths(shop.get(*own)))).collect(),
        own: figures().filter(|own| shop.is_own(**own)).map(|own| own.name()).collect(),
    }
}

/// What a kind of instrument is called by other programs.
const fn instrument_name(kind: InstrumentKind) -> &'static str {
    match kind {
        InstrumentKind::SteelTape => "steel-tape",
        InstrumentKind::DistanceMeter => "distance-meter",
        InstrumentKind::LineLaser => "line-laser",
        InstrumentKind::PlumbLine => "plumb-line",
        InstrumentKind::DigitalLevel => "digital-level",
        InstrumentKind::Bubble => "bubble",
        InstrumentKind::LevelLaser => "level-laser",
        InstrumentKind::Square => "square",
        InstrumentKind::Other => "other",
    }
}

fn one(layout: &Layout, arrangement: &Arrangement, assessment: &Assessment, locale: Locale) -> One {
    let words = Words::new(arrangement, locale);
    let scene = &assessment.scene;
    One {
        arrangement: arrangement.id.to_string(),
        vehicle: arrangement.vehicle.id.to_string(),
        aiming: arrangement.aiming.id.to_string(),
        verdict: assessment.verdict.into(),
        on_example_figures: assessment.on_example_figures,
        own_building: of_own_building(layout, &arrangement.id).map(|all| {
            let told = |own: &Difference| Differs { of: about(&own.of), sentence: words.difference(own) };
            all.iter().map(told).collect()
        }),
        others_of_visit: others_of_visit(layout, arrangement)
            .into_iter()
            .map(|(aiming, own)| OtherAiming { aiming, verdict: own.into() })
            .collect(),
        sentence: words.summary(assessment),
        findings: assessment.findings.iter().map(|finding| found(finding, &words)).collect(),
        promise: assessment.promise.as_ref().map(|promise| Promised {
            steps: promise.steps.iter().map(step).collect(),
            verdict: promise.verdict.into(),
        }),
        marks: scene
            .marks
            .iter()
            .enumerate()
            .map(|(index, mark)| Mark {
                name: mark.id.to_string(),
                at_mm: mark.at.ok().map(plan),
                instruction: words.instruction(index, scene),
            })
            .collect(),
        instruments: used(arrangement)
            .into_iter()
            .map(|used| InstrumentUsed {
                name: used.own.name.to_string(),
                kind: instrument_name(used.own.kind).to_owned(),
                lays: used.lays,
                readings: used.readings,
                overdue_days: arrangement.today.and_then(|day| used.own.overdue_on(day)),
                reading_mm: used.own.reading_mm.map(millionths),
                per_metre_mm: used.own.per_metre_mm.map(millionths),
            })
            .collect(),
        readings: scene
            .readings
            .iter()
            .map(|reading| Reading {
                from: reading.from.to_string(),
                to: reading.to.to_string(),
                distance_mm: hundredths(reading.distance_mm),
            })
            .collect(),
        targets: scene
            .targets
            .iter()
            .zip(&arrangement.aiming.placements)
            .map(|(target, placement)| target::told(target, placement))
            .collect(),
        measured: measured(arrangement, scene)
            .iter()
            .map(|own| Told { decision: own.said().into(), sentence: words.measured(own) })
            .collect(),
    }
}

fn found(finding: &Finding, words: &Words<'_>) -> Found {
    Found {
        code: CodeName(finding.code()),
        severity: finding.severity.into(),
        subjects: finding.subjects.iter().map(about).collect(),
        place_mm: space(finding.place),
        measured: finding.measured.map(value),
        limit: finding.limit.map(value),
        sentence: words.line(finding),
        why: words.why(finding),
        cure: finding.cure.as_ref().map(|cure| cured(cure, words.cure(finding).unwrap_or_default())),
    }
}

fn cured(cure: &Cure, sentence: String) -> Cured {
    Cured {
        step: step(&cure.step),
        at_least_mm: cure.at_least.map(|shorter| exact(shorter.by())),
        causes: cure.causes.iter().map(causes).collect(),
        sentence,
    }
}

fn causes(caused: &Finding) -> Causes {
    Causes {
        code: CodeName(caused.code()),
        severity: caused.severity.into(),
        subjects: caused.subjects.iter().map(about).collect(),
    }
}

fn step(step: &Step) -> Do {
    let (name, of, by) = match step {
        Step::MoveThing { thing, by } => (StepName::MoveThing, Some(thing), Some(*by)),
        Step::TurnThing { thing, .. } => (StepName::TurnThing, Some(thing), None),
        Step::TakeAway { thing } => (StepName::TakeAway, Some(thing), None),
        Step::MoveCar { by } => (StepName::MoveCar, None, Some(*by)),
        Step::StandOnMark { placement } => (StepName::StandOnMark, Some(placement), None),
        Step::KeepEmpty { bay } => (StepName::KeepEmpty, Some(bay), None),
        Step::KeepShut { door } => (StepName::KeepShut, Some(door), None),
        Step::OpenDoor { door } => (StepName::OpenDoor, Some(door), None),
        Step::Tape { thing } => (StepName::Tape, Some(thing), None),
        Step::TapeCar => (StepName::TapeCar, None, None),
        Step::SurveyFloor => (StepName::SurveyFloor, None, None),
        Step::EnterFigures => (StepName::EnterFigures, None, None),
        Step::EnterAlignment => (StepName::EnterAlignment, None, None),
        Step::SayHeightsFrom => (StepName::SayHeightsFrom, None, None),
        Step::EnterZones => (StepName::EnterZones, None, None),
        Step::MeasureOnCar(_) => (StepName::MeasureOnCar, None, None),
        Step::ReviewProfile => (StepName::ReviewProfile, None, None),
    };
    let by_deg = match step {
        Step::TurnThing { by_rad, .. } => Some(angle::degrees(*by_rad)),
        _ => None,
    };
    Do { step: name, of: of.map(ToString::to_string), by_mm: by.map(exact), by_deg }
}

fn about(subject: &Subject) -> About {
    let (kind, names) = match subject {
        Subject::Car => (Kind::Car, vec![]),
        Subject::Thing(id) => (Kind::Thing, vec![id]),
        Subject::Zone(id) => (Kind::Zone, vec![id]),
        Subject::Target(id) => (Kind::Target, vec![id]),
        Subject::Stand(id) => (Kind::Stand, vec![id]),
        Subject::Sensor => (Kind::Sensor, vec![]),
        Subject::Wall(id) => (Kind::Wall, vec![id]),
        Subject::Opening(id) => (Kind::Opening, vec![id]),
        Subject::FloorFeature(id) => (Kind::FloorFeature, vec![id]),
        Subject::Runway(id) => (Kind::Runway, vec![id]),
        Subject::KeepFree(id) => (Kind::KeepFree, vec![id]),
        Subject::HallBay(id) => (Kind::Bay, vec![id]),
        Subject::Mark(id) => (Kind::Mark, vec![id]),
        Subject::Dimension(id) => (Kind::Dimension, vec![id]),
        Subject::Run(from, to) => (Kind::Run, vec![from, to]),
        Subject::Ceiling => (Kind::Ceiling, vec![]),
        Subject::Floor => (Kind::Floor, vec![]),
        Subject::Figures => (Kind::Figures, vec![]),
    };
    About { kind, name: names.into_iter().map(ToString::to_string).collect() }
}

fn value(quantity: Quantity) -> Value {
    match quantity {
        Quantity::Length(mm) => Value { value: hundredths(mm), unit: ValueUnit::Mm },
        Quantity::Angle(radians) => {
            Value { value: millionths(angle::degrees(radians)), unit: ValueUnit::Deg }
        }
        Quantity::Share(share) => Value { value: millionths(share), unit: ValueUnit::Share },
        Quantity::Ratio(ratio) => Value { value: millionths(ratio), unit: ValueUnit::Ratio },
        Quantity::Days(days) => Value { value: days as f64, unit: ValueUnit::Days },
    }
}

fn plan(p: DVec2) -> [f64; 2] {
    [hundredths(p.x), hundredths(p.y)]
}

/// A move, finer than a place: rounded to hundredths it might end a hair inside what it clears.
fn exact(by: DVec2) -> [f64; 2] {
    [millionths(by.x), millionths(by.y)]
}

fn space(p: DVec3) -> [f64; 3] {
    [hundredths(p.x), hundredths(p.y), hundredths(p.z)]
}

/// Rounded before text, so that every machine writes the same; and no "-0".
fn hundredths(value: f64) -> f64 {
    (value * 100.0).round() / 100.0 + 0.0
}

fn millionths(value: f64) -> f64 {
    (value * 1e6).round() / 1e6 + 0.0
}
