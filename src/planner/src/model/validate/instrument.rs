//! Invariants of a shop's instruments, and of how a reading was taken.

use super::super::fault::{Allowed, Found, Quote};
use super::super::{
    CheckFrom, Instrument, InstrumentFigure, MOST_CHECKS, MOST_INSTRUMENTS, PermanentMark, Taken,
};
use super::{Faults, limits};

pub(super) fn check(list: &[Instrument], faults: &mut Faults) {
    faults.count("instruments", list.len(), MOST_INSTRUMENTS);
    for (i, own) in list.iter().take(MOST_INSTRUMENTS).enumerate() {
        let path = format!("instruments[{i}]");
        faults.name(format!("{path}.name"), own.name.as_str());
        for (field, text) in [("class", &own.class), ("serial", &own.serial)] {
            if let Some(text) = text {
                faults.text(format!("{path}.{field}"), text, limits::LONGEST_NAME);
            }
        }
        for figure in InstrumentFigure::ALL {
            if let Some(value) = own.figure(figure) {
                faults.number(format!("{path}.{}", figure.field()), value, &figure.range());
            }
        }
        // It is not over before it begins.
        if let (Some(checked), Some(due)) = (own.checked, own.due)
            && due < checked
        {
            faults.add(
                format!("{path}.due"),
                Found::Text(Quote::of(&due.to_string())),
                Allowed::DayFrom(checked),
            );
        }
    }
    let names = list.iter().take(MOST_INSTRUMENTS).enumerate();
    faults.unique(names.map(|(i, own)| (format!("instruments[{i}].name"), &own.name)));
}

/// What was measured when a mark that stays was checked. What it was measured from may have gone since: then it says nothing.
pub(super) fn mark_checks(path: &str, mark: &PermanentMark, faults: &mut Faults) {
    faults.count(path, mark.checks.len(), MOST_CHECKS);
    for (i, own) in mark.checks.iter().take(MOST_CHECKS).enumerate() {
        for (field, name) in [("with", &own.with), ("who", &own.who)] {
            if let Some(name) = name {
                faults.name(format!("{path}[{i}].{field}"), name.as_str());
            }
        }
        for (nth, read) in own.read.iter().enumerate() {
            let from = format!("{path}[{i}].read[{nth}].from");
            let (CheckFrom::Wall(name) | CheckFrom::Mark(name)) = &read.from;
            faults.name(&from, name.as_str());
            if read.from == CheckFrom::Mark(mark.id.clone()) {
                faults.add(from, Found::Text(Quote::of(name.as_str())), Allowed::OtherMark);
            }
            let field = format!("{path}[{i}].read[{nth}].read_mm");
            faults.number(field, read.read_mm, &limits::MARK_TAPED);
        }
    }
}

/// Whether the instrument is in the shop's list is asked when it is judged, not here: a list changes.
pub(super) fn taken(path: &str, own: &Taken, faults: &mut Faults) {
    for (field, name) in [("with", &own.with), ("who", &own.who)] {
        if let Some(name) = name {
            faults.name(format!("{path}.{field}"), name.as_str());
        }
    }
    if let Some(celsius) = own.temperature_c {
        faults.number(format!("{path}.temperature_c"), celsius, &Taken::TEMPERATURE);
    }
}
