//! German of the same: see `words/record.rs`.

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
        ValueOf::Faults => "Fehlereinträge".to_owned(),
        ValueOf::TyrePressure(wheel) => format!("Reifendruck {}", wheel_name(*wheel)),
        ValueOf::TargetHeight(placement) => format!("Höhe von Ziel {placement}"),
        ValueOf::Driven => "Gefahren".to_owned(),
    }
}

/// What crosses are for is the trade's; where they lie best is common practice, no source.
pub const LAY_CROSSES: &str = "Zwei Kreuze auf den Boden kleben, die bis zum Ende bleiben, wo keine Marke hinkommt: Kreuz 1 etwa einen Meter schräg vor das linke \
     Vorderrad, Kreuz 2 etwa einen Meter schräg hinter das rechte Hinterrad.";

/// In the middle of a sentence.
pub fn must(own: &Must) -> String {
    match own {
        Must::Value(ValueOf::Driven) => "die gefahrene Strecke".to_owned(),
        Must::Value(of) => value(of),
        Must::Document => "Titel der Anleitung des Herstellers".to_owned(),
        Must::Edition => "ihre Ausgabe".to_owned(),
        Must::Dated => "ihr Datum".to_owned(),
        Must::Arch(wheel) => this_car::arch_of(*wheel),
        Must::Sheet(part) => this_car::part(*part),
        Must::SheetOpen(part, SheetLacks::Way) => format!("{}: in welche Richtung", this_car::part(*part)),
        Must::SheetOpen(part, SheetLacks::Rim) => {
            format!("{}: bei welchem Durchmesser", this_car::part(*part))
        }
        Must::Survey => "eine Bodenvermessung mit ihrem Tag".to_owned(),
        Must::Parked => "dass das Fahrzeug an seinem anderen Platz steht".to_owned(),
        Must::CarAtStart(nth) => format!("Maß {nth} zum Fahrzeug, am Anfang"),
        Must::CarAtEnd(nth) => format!("Maß {nth} zum Fahrzeug, am Ende"),
        Must::Decided => "was die Marken belegen, nach dem letzten Maß".to_owned(),
        Must::Instrument(1) => "mit welchem Bandmaß ein Maß genommen wurde".to_owned(),
        Must::Instrument(count) => format!("mit welchem Bandmaß {count} Maße genommen wurden"),
        Must::Result => "was die Routine meldet".to_owned(),
        Must::Signature => "eine Unterschrift".to_owned(),
    }
}

pub fn gone_past(open: usize) -> String {
    match open {
        1 => "übergangen, eine Angabe offen".to_owned(),
        n => format!("übergangen, {n} Angaben offen"),
    }
}

pub fn struck(nth: usize, why: &str) -> String {
    let why = if why.is_empty() { String::new() } else { format!(" ({why})") };
    format!("Gestrichen: Eintrag {}{why}. Er bleibt stehen, wo er steht, und zählt nicht mehr.", nth + 1)
}

pub fn nothing_to_strike(nth: usize) -> String {
    format!(
        "Eintrag {} kann nicht gestrichen werden: Er zählt nicht, oder er sagt etwas vom Protokoll selbst.",
        nth + 1
    )
}

/// One after the other, in the middle of a sentence.
pub fn all_open(open: &[Must]) -> String {
    open.iter().map(must).collect::<Vec<_>>().join("; ")
}

pub fn distance_to_car(own: &Stood) -> String {
    format!("{} bis {}", own.from, own.to)
}

pub fn stood(locale: Locale, begun: &Begun, own: &StoodRead) -> String {
    let of = distance_to_car(&own.stood);
    let start = entered_length(locale, own.stood.start_mm);
    let title = title_of(begun, &own.aiming);
    let Some(end) = own.stood.end_mm else {
        return format!("{title}: {of} am Anfang {start}.");
    };
    let end = entered_length(locale, end);
    let said = match own.within_mm.map(|within| locale.region.number(within, 1)) {
        None => String::new(),
        Some(within) if own.moved() => {
            format!(": Das Fahrzeug hat sich bewegt, das Bandmaß erklärt {within} mm")
        }
        Some(_) => ": Das Fahrzeug hat still gestanden".to_owned(),
    };
    format!("{title}: {of} am Anfang {start}, am Ende {end}{said}.")
}

pub fn accepted(own: &AcceptedFinding) -> String {
    own.in_german.clone()
}

pub fn moved(locale: Locale, own: &StoodRead) -> String {
    let by = own.stood.moved_mm().unwrap_or_default().abs();
    format!(
        "Das Fahrzeug hat sich um {} bewegt, das Bandmaß erklärt {} mm: neu einparken, setzen lassen, Marken neu anlegen. Der Wert bleibt \
         stehen.",
        entered_length(locale, by),
        locale.region.number(own.within_mm.unwrap_or_default(), 1)
    )
}

pub fn parked(locale: Locale, begun: &Begun, own: &ParkedAt) -> String {
    let titles: Vec<String> = own.aimings.iter().map(|id| title_of(begun, id).to_owned()).collect();
    let at = own.parked.origin();
    let as_set_up =
        own.set_up.as_ref().map(|id| format!(", wie in der Aufstellung „{id}“")).unwrap_or_default();
    format!(
        "Das Fahrzeug steht an Platz {} ({}, {} von der Ecke des Messplatzes{as_set_up}), für {}.",
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
        None => format!("{name} {figure}, Richtung nicht gesagt, nicht verwendet"),
    })
}

/// Figures of a sheet as it has them, each with its way.
pub fn sheet(locale: Locale, own: &AlignmentSheet) -> String {
    let mut parts: Vec<String> = Vec::new();
    parts.extend(own.taken.map(|day| format!("vom {}", locale.region.day(day))));
    parts.extend(own.by.as_ref().map(|by| format!("von {by}")));
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
        return "Achsvermessung ohne Werte.".to_owned();
    }
    format!("Achsvermessung: {}.", parts.join("; "))
}

pub fn signed(role: &str, lacking: usize, why: &str) -> String {
    match lacking {
        0 => format!("Unterschrieben als {role}."),
        1 => format!("Unterschrieben als {role}, obwohl eines fehlt, weil: {why}"),
        n => format!("Unterschrieben als {role}, obwohl {n} Dinge fehlen, weil: {why}"),
    }
}
