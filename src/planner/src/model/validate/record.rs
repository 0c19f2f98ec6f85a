//! Invariants of a visit's record. What must hold between its entries is asked where one is added (`planner::record`).

use super::super::fault::{Allowed, Found, Quote, Syntax};
use super::super::record::{
    AcceptedFinding, Attachment, Begun, Decided, Decision, Entered, Entry, Instrument, MOST_ATTACHMENTS,
    MOST_ENTRIES, MakersDocument, ParkedAt, Reading, RoutineResult, StepId, StoodRead, ValueOf, ValueUnit,
    VisitRecord, Way, WayOut, What,
};
use super::super::{Id, MOST_STOOD};
use super::limits::{self, Range, Unit};
use super::{Faults, angle, on_car};

/// A temperature of a workshop, °C.
const TEMPERATURE: Range = Range::from(-40.0, 70.0, Unit::None);
/// A figure of a target, how far off it may be, either way, mm or degrees.
const OFF: Range = Range::from(-1e5, 1e5, Unit::None);
/// An uncertainty or an allowance, mm or degrees.
const SIZE: Range = Range::from(0.0, 1e5, Unit::None);
/// How far out a routine says that a sensor is, degrees.
const OUT: Range = Range::above(0.0, 90.0, Unit::Degrees);
/// Minutes of a line of labour: up to two days and nights.
const MINUTES: Range = Range::from(0.0, 2_880.0, Unit::None);
/// How many figures were open, or things lacked, where some did.
const OPEN: Range = Range::from(1.0, 10_000.0, Unit::None);
/// Which place of a visit it is.
const PLACE: Range = Range::from(1.0, 500.0, Unit::None);
/// So many things a finding is about at most.
const MOST_ABOUT: usize = 50;

pub(super) fn check(record: &VisitRecord, faults: &mut Faults) {
    begun("begun.said.", &record.begun, faults);
    faults.count("entries", record.entries.len(), MOST_ENTRIES);
    let attached = record.entries.iter().filter(|own| matches!(own.what, What::Attached(_))).count();
    faults.count("entries", attached, MOST_ATTACHMENTS);
    for (i, own) in record.entries.iter().enumerate() {
        if let What::Struck { entry, .. } = own.what {
            // Only what stands before it.
            let before = Range::from(0.0, i as f64 - 1.0, Unit::None);
            faults.number(format!("entries[{i}].said.what.entry"), entry as f64, &before);
        }
        entry(&format!("entries[{i}].said."), &record.begun, own, faults);
    }
}

/// `at` is empty, or ends in a point.
pub(super) fn begun(at: &str, begun: &Begun, faults: &mut Faults) {
    faults.name(format!("{at}job"), &begun.job);
    faults.name(format!("{at}car"), &begun.car);
    if let Some(plate) = &begun.plate {
        faults.name(format!("{at}plate"), plate);
    }
    faults.name(format!("{at}by"), &begun.by);
    faults.name(format!("{at}bay"), begun.bay.as_str());
    if let Some(layout) = &begun.layout {
        faults.text(format!("{at}layout"), layout, limits::LONGEST_TEXT);
    }
    faults.name(format!("{at}arrangement"), begun.arrangement.as_str());
    faults.name(format!("{at}vehicle"), begun.vehicle.as_str());
    if let Some(list) = &begun.list {
        faults.name(format!("{at}list.name"), &list.name);
        faults.source(&format!("{at}list.source"), &list.provenance);
    }
    if begun.lines.is_empty() {
        faults.add(format!("{at}lines"), Found::EmptyList, Allowed::AtLeastOne);
    }
    faults.count(format!("{at}lines").as_str(), begun.lines.len(), limits::MOST_PARTS);
    faults.unique(
        begun.lines.iter().enumerate().map(|(i, own)| (format!("{at}lines[{i}].aiming"), &own.aiming)),
    );
    for (i, line) in begun.lines.iter().enumerate() {
        let path = format!("{at}lines[{i}]");
        faults.name(format!("{path}.aiming"), line.aiming.as_str());
        faults.name(format!("{path}.title"), &line.title);
        faults.name(format!("{path}.sensor"), line.sensor.as_str());
        faults.source(&format!("{path}.source"), &line.provenance);
        faults.count(format!("{path}.because").as_str(), line.because.len(), limits::MOST_PARTS);
        for (j, because) in line.because.iter().enumerate() {
            let path = format!("{path}.because[{j}]");
            faults.name(format!("{path}.work"), &because.work);
            note(format!("{path}.note"), &because.note, faults);
            faults.source(&format!("{path}.source"), &because.provenance);
        }
    }
}

/// A text that may be empty.
fn note(field: String, text: &str, faults: &mut Faults) {
    if !text.is_empty() {
        faults.text(field, text, limits::LONGEST_TEXT);
    }
}

/// `at` is empty, or ends in a point.
pub(super) fn entry(at: &str, begun: &Begun, entry: &Entry, faults: &mut Faults) {
    faults.name(format!("{at}by"), &entry.by);
    let at = format!("{at}what");
    match &entry.what {
        What::StepDone { step } => step_of(&format!("{at}.step"), begun, step, faults),
        What::GonePast { step, open } => {
            step_of(&format!("{at}.step"), begun, step, faults);
            faults.number(format!("{at}.open"), *open as f64, &OPEN);
        }
        What::NotApplicable { step, why } | What::LeftOut { step, why } => {
            step_of(&format!("{at}.step"), begun, step, faults);
            faults.text(format!("{at}.why"), why, limits::LONGEST_TEXT);
        }
        What::TakenBack { step, why } => {
            step_of(&format!("{at}.step"), begun, step, faults);
            note(format!("{at}.why"), why, faults);
        }
        What::Value(own) => entered(&at, begun, own, faults),
        What::Reading(own) => reading(&at, begun, own, faults),
        What::Decided(own) => decided(&at, begun, own, faults),
        What::Alignment(own) => on_car::sheet(&format!("{at}.sheet"), own, faults),
        What::Stood(own) => stood(&at, begun, own, faults),
        What::Parked(own) => parked(&at, begun, own, faults),
        What::RideHeights { heights_mm } => {
            for (i, height) in heights_mm.iter().enumerate() {
                if let Some(height) = height {
                    faults.number(format!("{at}.heights_mm[{i}]"), *height, &limits::RIDE_HEIGHT);
                }
            }
        }
        What::FloorConfirmed { surveyed: _, instrument } => {
            instrument_of(&format!("{at}.instrument"), instrument.as_ref(), faults);
        }
        What::Routine { aiming, result, note: said } => {
            aiming_of(&format!("{at}.aiming"), begun, aiming, faults);
            if let RoutineResult::Failed { out } = result {
                ways(&format!("{at}.result.out"), out, faults);
            }
            note(format!("{at}.note"), said, faults);
        }
        What::Document(own) => document(&at, begun, own, faults),
        What::Attached(own) => attachment(&at, begun, own, faults),
        What::Withdrawn { sha256, why } => {
            hash(format!("{at}.sha256"), sha256, faults);
            faults.text(format!("{at}.why"), why, limits::LONGEST_TEXT);
        }
        What::Accepted(own) => accepted(&at, begun, own, faults),
        What::Signed { role, lacking, why } => {
            faults.name(format!("{at}.role"), role);
            if *lacking > 0 || !why.is_empty() {
                faults.number(format!("{at}.lacking"), *lacking as f64, &OPEN);
                faults.text(format!("{at}.why"), why, limits::LONGEST_TEXT);
            }
        }
        What::Labour { work, minutes } => {
            faults.text(format!("{at}.work"), work, limits::LONGEST_TEXT);
            faults.number(format!("{at}.minutes"), *minutes, &MINUTES);
        }
        What::Struck { entry: _, why } => note(format!("{at}.why"), why, faults),
        What::Closed | What::WentOn { .. } => {}
        What::Reopened { why } => faults.text(format!("{at}.why"), why, limits::LONGEST_TEXT),
    }
}

fn aiming_of(field: &str, begun: &Begun, aiming: &Id, faults: &mut Faults) {
    if begun.line(aiming).is_none() {
        faults.add(field, Found::Word(Quote::of(aiming.as_str())), Allowed::AimingOfVisit);
    }
}

fn step_of(at: &str, begun: &Begun, step: &StepId, faults: &mut Faults) {
    let field = format!("{at}.aiming");
    match (&step.aiming, step.kind.is_of_aiming()) {
        (Some(aiming), true) => aiming_of(&field, begun, aiming, faults),
        (None, false) => {}
        (Some(aiming), false) => {
            faults.add(field, Found::Word(Quote::of(aiming.as_str())), Allowed::NoAiming);
        }
        (None, true) => faults.add(field, Found::EmptyText, Allowed::AimingOfVisit),
    }
}

fn entered(at: &str, begun: &Begun, own: &Entered, faults: &mut Faults) {
    step_of(&format!("{at}.step"), begun, &own.step, faults);
    if let ValueOf::TargetHeight(placement) = &own.of {
        faults.name(format!("{at}.of.placement"), placement.as_str());
    }
    let possible = own.of.possible();
    faults.number(format!("{at}.value"), own.value, &possible);
    if own.of.unit() == ValueUnit::Count && possible.holds(own.value) && own.value.fract() != 0.0 {
        let found = Found::Number(own.value, Unit::None);
        faults.add(
            format!("{at}.value"),
            found,
            Allowed::Syntax(Syntax::WholeNumberUpTo(possible.high as u32)),
        );
    }
    for (part, end) in [("low", own.allowed.low), ("high", own.allowed.high)] {
        if let Some(end) = end {
            faults.number(format!("{at}.allowed.{part}"), end, &OFF);
        }
    }
}

fn reading(at: &str, begun: &Begun, own: &Reading, faults: &mut Faults) {
    aiming_of(&format!("{at}.aiming"), begun, &own.aiming, faults);
    faults.name(format!("{at}.from"), own.from.as_str());
    faults.name(format!("{at}.to"), own.to.as_str());
    faults.number(format!("{at}.read_mm"), own.read_mm, limits::mark_taped(own.from == own.to));
    instrument_of(&format!("{at}.instrument"), own.instrument.as_ref(), faults);
    if let Some(temperature) = own.temperature_c {
        faults.number(format!("{at}.temperature_c"), temperature, &TEMPERATURE);
    }
}

fn instrument_of(at: &str, instrument: Option<&Instrument>, faults: &mut Faults) {
    let Some(own) = instrument else { return };
    faults.name(format!("{at}.name"), &own.name);
    if !own.serial.is_empty() {
        faults.name(format!("{at}.serial"), &own.serial);
    }
}

fn decided(at: &str, begun: &Begun, own: &Decided, faults: &mut Faults) {
    aiming_of(&format!("{at}.aiming"), begun, &own.aiming, faults);
    faults.name(format!("{at}.placement"), own.placement.as_str());
    let before = faults.list.len();
    faults.number(format!("{at}.off"), own.off, &OFF);
    faults.number(format!("{at}.u95"), own.u95, &SIZE);
    faults.number(format!("{at}.allowed"), own.allowed, &SIZE);
    if let Some(unseen) = own.unseen {
        faults.number(format!("{at}.unseen"), unseen, &SIZE);
    }
    if own.of.is_angle() && own.off.abs() > 180.0 {
        faults.number(format!("{at}.off"), own.off, &Range::from(-180.0, 180.0, Unit::Degrees));
    }
    if faults.list.len() == before && own.follows() != Some(own.decision) {
        let said = match own.decision {
            Decision::Inside => "Inside",
            Decision::Outside => "Outside",
            Decision::CannotSay => "CannotSay",
        };
        faults.add(format!("{at}.decision"), Found::Word(Quote::of(said)), Allowed::AsFiguresSay);
    }
}

fn stood(at: &str, begun: &Begun, own: &StoodRead, faults: &mut Faults) {
    aiming_of(&format!("{at}.aiming"), begun, &own.aiming, faults);
    faults.number(format!("{at}.nth"), own.nth as f64, &Range::from(1.0, MOST_STOOD as f64, Unit::None));
    on_car::stood(&format!("{at}.stood"), &own.stood, faults);
    if let Some(within) = own.within_mm {
        faults.number(format!("{at}.within_mm"), within, &SIZE);
    }
}

fn parked(at: &str, begun: &Begun, own: &ParkedAt, faults: &mut Faults) {
    if own.aimings.is_empty() {
        faults.add(format!("{at}.aimings"), Found::EmptyList, Allowed::AtLeastOne);
    }
    for (i, aiming) in own.aimings.iter().enumerate() {
        aiming_of(&format!("{at}.aimings[{i}]"), begun, aiming, faults);
    }
    faults.unique(own.aimings.iter().enumerate().map(|(i, id)| (format!("{at}.aimings[{i}]"), id)));
    faults.number(format!("{at}.place"), own.place as f64, &PLACE);
    for (axis, value) in own.parked.origin().to_array().into_iter().enumerate() {
        faults.number(format!("{at}.at_mm[{axis}]"), value, &limits::PLACE);
    }
    faults.angle(format!("{at}.heading_deg"), own.parked.heading(), &limits::TURN);
    if let Some(set_up) = &own.set_up {
        faults.name(format!("{at}.set_up"), set_up.as_str());
    }
}

fn ways(at: &str, out: &[WayOut], faults: &mut Faults) {
    let across = |way: Way| matches!(way, Way::Left | Way::Right);
    for (i, own) in out.iter().enumerate() {
        if out.iter().take(i).any(|earlier| across(earlier.way) == across(own.way)) {
            faults.add(
                format!("{at}[{i}].way"),
                Found::Count(out.len(), super::Counted::Entries),
                Allowed::EachWayOnce,
            );
        }
        if let Some(by) = own.by_rad {
            let degrees = angle::degrees(by);
            faults.number(format!("{at}[{i}].by_deg"), degrees, &OUT);
        }
    }
}

fn document(at: &str, begun: &Begun, own: &MakersDocument, faults: &mut Faults) {
    aiming_of(&format!("{at}.aiming"), begun, &own.aiming, faults);
    faults.text(format!("{at}.document"), &own.document, limits::LONGEST_TEXT);
    if !own.edition.is_empty() {
        faults.name(format!("{at}.edition"), &own.edition);
    }
}

fn attachment(at: &str, begun: &Begun, own: &Attachment, faults: &mut Faults) {
    faults.name(format!("{at}.file"), &own.file);
    if own.file.contains(['/', '\\', ':']) || own.file.starts_with('.') {
        faults.add(format!("{at}.file"), Found::Word(Quote::of(&own.file)), Allowed::FileName);
    }
    hash(format!("{at}.sha256"), &own.sha256, faults);
    if let Some(step) = &own.step {
        step_of(&format!("{at}.step"), begun, step, faults);
    }
}

fn hash(field: String, hash: &str, faults: &mut Faults) {
    if hash.len() != 64 || !hash.bytes().all(|own| matches!(own, b'0'..=b'9' | b'a'..=b'f')) {
        faults.add(field, Found::Word(Quote::of(hash)), Allowed::Sha256);
    }
}

fn accepted(at: &str, begun: &Begun, own: &AcceptedFinding, faults: &mut Faults) {
    aiming_of(&format!("{at}.aiming"), begun, &own.aiming, faults);
    faults.name(format!("{at}.code"), &own.code);
    faults.count(format!("{at}.about").as_str(), own.about.len(), MOST_ABOUT);
    for (i, about) in own.about.iter().enumerate() {
        faults.text(format!("{at}.about[{i}]"), about, limits::LONGEST_TEXT);
    }
    if let Some(measured) = own.measured {
        faults.number(format!("{at}.measured"), measured, &Range::from(-1e12, 1e12, Unit::None));
    }
    faults.text(format!("{at}.in_english"), &own.in_english, limits::LONGEST_TEXT);
    faults.text(format!("{at}.in_german"), &own.in_german, limits::LONGEST_TEXT);
    faults.text(format!("{at}.why"), &own.why, limits::LONGEST_TEXT);
}
