//! What a step of a visit must have, and what was entered of the car itself: see `words/record.rs`.

use super::listed;
use super::marks::wheel_name;
use super::this_car;
use crate::model::record::{AcceptedFinding, Begun, ParkedAt, StoodRead, ValueOf};
use crate::model::sheet::{AlignmentSheet, SheetLacks, SheetPart, SheetUnit, Side, Told};
use crate::model::{Stood, Wheel};
use crate::record::Must;
use crate::words::Locale;
use crate::words::record::{entered_length, title_of};

pub fn value(of: &ValueOf) -> String {
    match of {
        ValueOf::Faults => "Faults listed".to_owned(),
        ValueOf::TyrePressure(wheel) => format!("Tyre pressure, {}", wheel_name(*wheel)),
        ValueOf::TargetHeight(placement) => format!("Height of target {placement}"),
        ValueOf::Driven => "Driven".to_owned(),
    }
}

/// What crosses are for is the trade's; where they lie best is common practice, no source.
pub const LAY_CROSSES: &str = "Stick two crosses on the floor that stay to the end, where no mark comes: cross 1 about a metre slantwise ahead of the left front \
     wheel, cross 2 about a metre slantwise behind the right rear wheel.";

/// In the middle of a sentence.
pub fn must(own: &Must) -> String {
    match own {
        Must::Value(ValueOf::Driven) => "how far it was driven".to_owned(),
        Must::Value(ValueOf::Faults) => "how many faults are listed".to_owned(),
        Must::Value(of) => inside(&value(of)),
        Must::Document => "title of the maker's document".to_owned(),
        Must::Edition => "its edition".to_owned(),
        Must::Dated => "the date on it".to_owned(),
        Must::Arch(wheel) => inside(&this_car::arch_of(*wheel)),
        Must::Sheet(part) => inside(&this_car::part(*part)),
        Must::SheetOpen(part, SheetLacks::Way) => format!("{}: which way", inside(&this_car::part(*part))),
        Must::SheetOpen(part, SheetLacks::Rim) => {
            format!("{}: at which diameter", inside(&this_car::part(*part)))
        }
        Must::Survey => "a floor survey with its day".to_owned(),
        Must::Parked => "that the car stands at its other place".to_owned(),
        Must::CarAtStart(nth) => format!("distance {nth} to the car, at the start"),
        Must::CarAtEnd(nth) => format!("distance {nth} to the car, at the end"),
        Must::Decided => "what the marks prove, after the last tape".to_owned(),
        Must::Instrument(1) => "with which tape one distance was read".to_owned(),
        Must::Instrument(count) => format!("with which tape {count} distances were read"),
        Must::Result => "what the routine said".to_owned(),
        Must::Signature => "a signature".to_owned(),
    }
}

/// A name that begins small in the middle of a sentence.
fn inside(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

pub fn gone_past(open: usize) -> String {
    match open {
        1 => "gone past, one figure open".to_owned(),
        n => format!("gone past, {n} figures open"),
    }
}

pub fn struck(nth: usize, why: &str) -> String {
    let why = if why.is_empty() { String::new() } else { format!(" ({why})") };
    format!("Struck out: entry {}{why}. It stays where it stands and counts no more.", nth + 1)
}

pub fn nothing_to_strike(nth: usize) -> String {
    format!(
        "Entry {} cannot be struck out: it does not count, or says something of the record itself.",
        nth + 1
    )
}

/// One after the other, in the middle of a sentence.
pub fn all_open(open: &[Must]) -> String {
    open.iter().map(must).collect::<Vec<_>>().join("; ")
}

pub fn distance_to_car(own: &Stood) -> String {
    format!("{} to {}", own.from, own.to)
}

pub fn stood(locale: Locale, begun: &Begun, own: &StoodRead) -> String {
    let of = distance_to_car(&own.stood);
    let start = entered_length(locale, own.stood.start_mm);
    let title = title_of(begun, &own.aiming);
    let Some(end) = own.stood.end_mm else {
        return format!("{title}: {of} reads {start} at the start.");
    };
    let end = entered_length(locale, end);
    let said = match own.within_mm.map(|within| locale.region.number(within, 1)) {
        None => String::new(),
        Some(within) if own.moved() => format!(": the car moved, the tape explains {within} mm"),
        Some(_) => ": the car stood still".to_owned(),
    };
    format!("{title}: {of} reads {start} at the start, {end} at the end{said}.")
}

pub fn accepted(own: &AcceptedFinding) -> String {
    own.in_english.clone()
}

pub fn moved(locale: Locale, own: &StoodRead) -> String {
    let by = own.stood.moved_mm().unwrap_or_default().abs();
    format!(
        "The car moved by {}, and the tape explains {} mm: park and settle it, lay the marks anew. The figure is kept.",
        entered_length(locale, by),
        locale.region.number(own.within_mm.unwrap_or_default(), 1)
    )
}

pub fn parked(locale: Locale, begun: &Begun, own: &ParkedAt) -> String {
    let titles: Vec<String> = own.aimings.iter().map(|id| title_of(begun, id).to_owned()).collect();
    let at = own.parked.origin();
    let as_set_up = own.set_up.as_ref().map(|id| format!(", as in the set-up “{id}”")).unwrap_or_default();
    format!(
        "The car stands at place {} ({}, {} from the bay's corner{as_set_up}), for {}.",
        own.place,
        locale.length(at.x.round()),
        locale.length(at.y.round()),
        listed(&titles)
    )
}

/// A figure of a sheet as it has it, with its way.
fn told<W: Copy>(
    locale: Locale,
    part: SheetPart,
    unit: SheetUnit,
    told: &Told<W>,
    way: impl Fn(W) -> &'static str,
) -> Option<String> {
    let reads = told.reads?;
    let name = this_car::part(part);
    let figure = locale.sheet_figure(unit, reads);
    Some(match told.way {
        _ if reads.is_nothing() => format!("{name} {figure}"),
        Some(own) => format!("{name} {figure}, {}", way(own)),
        None => format!("{name} {figure}, which way not said, not used"),
    })
}

/// Figures of a sheet as it has them, each with its way.
pub fn sheet(locale: Locale, own: &AlignmentSheet) -> String {
    let mut parts: Vec<String> = Vec::new();
    parts.extend(own.taken.map(|day| format!("of {}", locale.region.day(day))));
    parts.extend(own.by.as_ref().map(|by| format!("by {by}")));
    let side = |of: fn(Side) -> &'static str| of;
    for (wheel, own_toe) in Wheel::ALL.into_iter().zip(&own.toe) {
        parts.extend(told(locale, SheetPart::Toe(wheel), own.toe_unit, own_toe, this_car::toe_way));
    }
    for (wheel, camber) in Wheel::ALL.into_iter().zip(&own.camber) {
        parts.extend(told(locale, SheetPart::Camber(wheel), own.camber_unit, camber, this_car::camber_way));
    }
    let back = side(this_car::back_way);
    parts.extend(told(locale, SheetPart::SetBack, own.set_back_unit, &own.set_back, back));
    let thrust = side(this_car::thrust_way);
    parts.extend(told(locale, SheetPart::Thrust, own.thrust_unit, &own.thrust, thrust));
    if parts.is_empty() {
        return "Alignment sheet without figures.".to_owned();
    }
    format!("Alignment sheet: {}.", parts.join("; "))
}

pub fn signed(role: &str, lacking: usize, why: &str) -> String {
    match lacking {
        0 => format!("Signed as {role}."),
        1 => format!("Signed as {role} although one thing is missing, because: {why}"),
        n => format!("Signed as {role} although {n} things are missing, because: {why}"),
    }
}
