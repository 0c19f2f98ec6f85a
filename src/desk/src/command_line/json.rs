//! `baywright check --json`: the same answer as data. Lengths in millimetres, angles in degrees, bay frame.
//!
//! Field names and codes never change their meaning once shipped; new ones may be added.

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::Path;

use baywright_files::{Loaded, ShopInUse};
use baywright_planner::difference::{Difference, of_own_building};
use baywright_planner::geometry::{DVec2, DVec3, angle};
use baywright_planner::model::{Arrangement, Layout, ShopFigure};
use baywright_planner::words::{Locale, Words};
use baywright_planner::{Assessment, Cure, Finding, Quantity, Severity, Step, Subject, Verdict};
use serde::Serialize;

use crate::command_line::input::is_stream;
use crate::command_line::visit::others_of_visit;

/// The answer for one file.
#[derive(Serialize)]
pub(crate) struct Answer {
    format: &'static str,
    version: u32,
    file: String,
    bay: String,
    shop: ShopUsed,
    arrangements: Vec<One>,
}

/// By which settings of the shop it was judged: all figures, each under the name that it has in a file; where they came from, if
/// not the defaults.
#[derive(Serialize)]
struct ShopUsed {
    file: Option<String>,
    fingerprint: String,
    settings: BTreeMap<String, f64>,
    own: Vec<String>,
}

#[derive(Serialize)]
struct One {
    arrangement: String,
    vehicle: String,
    aiming: String,
    verdict: &'static str,
    on_example_figures: bool,
    /// How the building differs from the bay's, if the arrangement has its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    own_building: Option<Vec<Differs>>,
    /// The other aimings of the visit that it is in, and what the space is to each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    others_of_visit: Vec<OtherAiming>,
    sentence: String,
    findings: Vec<Found>,
    promise: Option<Promised>,
    marks: Vec<Mark>,
    readings: Vec<Reading>,
    targets: Vec<Target>,
}

#[derive(Serialize)]
struct OtherAiming {
    aiming: String,
    verdict: &'static str,
}

#[derive(Serialize)]
struct Differs {
    of: About,
    sentence: String,
}

#[derive(Serialize)]
struct Found {
    code: &'static str,
    severity: &'static str,
    subjects: Vec<About>,
    place_mm: [f64; 3],
    measured: Option<Value>,
    limit: Option<Value>,
    sentence: String,
    why: String,
    cure: Option<Cured>,
}

#[derive(Serialize)]
struct About {
    kind: &'static str,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    name: Vec<String>,
}

#[derive(Serialize)]
struct Value {
    value: f64,
    unit: &'static str,
}

#[derive(Serialize)]
struct Cured {
    #[serde(flatten)]
    step: Do,
    at_least_mm: Option<[f64; 2]>,
    causes: Vec<Causes>,
    sentence: String,
}

#[derive(Serialize)]
struct Do {
    step: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    of: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    by_mm: Option<[f64; 2]>,
}

#[derive(Serialize)]
struct Causes {
    code: &'static str,
    severity: &'static str,
    subjects: Vec<About>,
}

#[derive(Serialize)]
struct Promised {
    steps: Vec<Do>,
    verdict: &'static str,
}

#[derive(Serialize)]
struct Mark {
    name: String,
    at_mm: Option<[f64; 2]>,
    instruction: String,
}

#[derive(Serialize)]
struct Reading {
    from: String,
    to: String,
    distance_mm: f64,
}

#[derive(Serialize)]
struct Target {
    name: String,
    at_mm: [f64; 3],
    facing_deg: f64,
}

/// The answers for several files.
#[derive(Serialize)]
struct Answers<'a> {
    format: &'static str,
    version: u32,
    answers: &'a [Answer],
}

/// The answer for one file, which was named so.
pub(crate) fn answer(
    name: &Path,
    loaded: &Loaded,
    used: &ShopInUse,
    answers: &[(&Arrangement, Assessment)],
    locale: Locale,
) -> Answer {
    Answer {
        format: "baywright-answer",
        version: 1,
        file: if is_stream(name) { name.display().to_string() } else { loaded.file.clone() },
        bay: loaded.layout.bay.name.clone(),
        shop: shop(used),
        arrangements: answers
            .iter()
            .map(|(arrangement, assessment)| one(&loaded.layout, arrangement, assessment, locale))
            .collect(),
    }
}

/// Writes what was asked as one JSON document: the answer for a file, or a list of the answers that there are if several files
/// were named.
pub(crate) fn write(answers: &[Answer], several: bool, out: &mut dyn Write) -> io::Result<()> {
    match answers {
        [answer] if !several => serde_json::to_writer_pretty(&mut *out, answer)?,
        _ => {
            let answers = Answers { format: "baywright-answers", version: 1, answers };
            serde_json::to_writer_pretty(&mut *out, &answers)?;
        }
    }
    writeln!(out)
}

fn shop(used: &ShopInUse) -> ShopUsed {
    let figures = || ShopFigure::ALL.iter();
    ShopUsed {
        file: used.path.as_ref().map(|path| path.display().to_string()),
        fingerprint: used.shop.fingerprint(),
        settings: figures().map(|own| (own.name(), millionths(used.shop.get(*own)))).collect(),
        own: figures().filter(|own| used.shop.is_own(**own)).map(|own| own.name()).collect(),
    }
}

fn one(layout: &Layout, arrangement: &Arrangement, assessment: &Assessment, locale: Locale) -> One {
    let words = Words::new(arrangement, locale);
    let scene = &assessment.scene;
    One {
        arrangement: arrangement.id.to_string(),
        vehicle: arrangement.vehicle.id.to_string(),
        aiming: arrangement.aiming.id.to_string(),
        verdict: verdict(assessment.verdict),
        on_example_figures: assessment.on_example_figures,
        own_building: of_own_building(layout, &arrangement.id).map(|all| {
            let told = |own: &Difference| Differs { of: about(&own.of), sentence: words.difference(own) };
            all.iter().map(told).collect()
        }),
        others_of_visit: others_of_visit(layout, arrangement)
            .into_iter()
            .map(|(aiming, own)| OtherAiming { aiming, verdict: verdict(own) })
            .collect(),
        sentence: words.summary(assessment),
        findings: assessment.findings.iter().map(|finding| found(finding, &words)).collect(),
        promise: assessment.promise.as_ref().map(|promise| Promised {
            steps: promise.steps.iter().map(step).collect(),
            verdict: verdict(promise.verdict),
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
            .map(|target| Target {
                name: target.id.to_string(),
                at_mm: space(target.centre()),
                facing_deg: millionths(angle::degrees(target.set.place.heading())),
            })
            .collect(),
    }
}

fn found(finding: &Finding, words: &Words<'_>) -> Found {
    Found {
        code: finding.code().as_str(),
        severity: severity(finding.severity),
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
        at_least_mm: cure.at_least.map(exact),
        causes: cure.causes.iter().map(causes).collect(),
        sentence,
    }
}

fn causes(caused: &Finding) -> Causes {
    Causes {
        code: caused.code().as_str(),
        severity: severity(caused.severity),
        subjects: caused.subjects.iter().map(about).collect(),
    }
}

fn step(step: &Step) -> Do {
    let (name, of, by) = match step {
        Step::MoveThing { thing, by } => ("move-thing", Some(thing), Some(*by)),
        Step::TakeAway { thing } => ("take-away", Some(thing), None),
        Step::MoveCar { by } => ("move-car", None, Some(*by)),
        Step::StandOnMark { placement } => ("stand-on-mark", Some(placement), None),
        Step::OpenDoor { door } => ("open-door", Some(door), None),
        Step::Tape { thing } => ("tape", Some(thing), None),
        Step::TapeCar => ("tape-car", None, None),
        Step::SurveyFloor => ("survey-floor", None, None),
        Step::EnterFigures => ("enter-figures", None, None),
        Step::EnterAlignment => ("enter-alignment", None, None),
        Step::ReviewProfile => ("review-profile", None, None),
    };
    Do { step: name, of: of.map(ToString::to_string), by_mm: by.map(exact) }
}

fn about(subject: &Subject) -> About {
    let (kind, names) = match subject {
        Subject::Car => ("car", vec![]),
        Subject::Thing(id) => ("thing", vec![id]),
        Subject::Zone(id) => ("zone", vec![id]),
        Subject::Target(id) => ("target", vec![id]),
        Subject::Stand(id) => ("stand", vec![id]),
        Subject::Sensor => ("sensor", vec![]),
        Subject::Wall(id) => ("wall", vec![id]),
        Subject::Opening(id) => ("opening", vec![id]),
        Subject::FloorFeature(id) => ("floor-feature", vec![id]),
        Subject::Runway(id) => ("runway", vec![id]),
        Subject::KeepFree(id) => ("keep-free", vec![id]),
        Subject::Mark(id) => ("mark", vec![id]),
        Subject::Dimension(id) => ("dimension", vec![id]),
        Subject::Run(from, to) => ("run", vec![from, to]),
        Subject::Ceiling => ("ceiling", vec![]),
        Subject::Floor => ("floor", vec![]),
        Subject::Figures => ("figures", vec![]),
    };
    About { kind, name: names.into_iter().map(ToString::to_string).collect() }
}

fn value(quantity: Quantity) -> Value {
    match quantity {
        Quantity::Length(mm) => Value { value: hundredths(mm), unit: "mm" },
        Quantity::Angle(radians) => Value { value: millionths(angle::degrees(radians)), unit: "deg" },
        Quantity::Share(share) => Value { value: millionths(share), unit: "share" },
        Quantity::Ratio(ratio) => Value { value: millionths(ratio), unit: "ratio" },
        Quantity::Days(days) => Value { value: days as f64, unit: "days" },
    }
}

const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Ready => "ready",
        Verdict::ReadyWithCare => "ready-with-care",
        Verdict::NotReady => "not-ready",
    }
}

const fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Stops => "stops",
        Severity::Care => "care",
        Severity::Note => "note",
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
