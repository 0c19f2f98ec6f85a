//! Invariants of what was measured on one very car beyond its sensor and its wheels.

use super::super::sheet::{AlignmentSheet, Rim, SheetUnit, Typed};
use super::super::{MOST_STOOD, OnThisCar, Stood};
use super::Faults;
use super::limits;
use crate::model::fault::{Allowed, Found, Quote};

/// The wheels as a file names them, in the order of [`super::super::Wheel::ALL`].
pub(super) const WHEELS: [&str; 4] = ["front_left", "front_right", "rear_left", "rear_right"];

pub(super) fn check(path: &str, car: &OnThisCar, faults: &mut Faults) {
    sheet(&format!("{path}.alignment_sheet"), &car.sheet, faults);
    for (wheel, arch) in WHEELS.iter().zip(car.arches_mm) {
        if let Some(arch) = arch {
            faults.number(format!("{path}.arches_mm.{wheel}"), arch, &limits::RIDE_HEIGHT);
        }
    }
    faults.count(&format!("{path}.body_points"), car.body_points.len(), limits::MOST_PARTS);
    for (i, (id, at)) in car.body_points.iter().take(limits::MOST_PARTS).enumerate() {
        faults.name(format!("{path}.body_points[{i}].name"), id.as_str());
        for (axis, value) in at.to_array().into_iter().enumerate() {
            faults.number(format!("{path}.body_points[{i}].at_mm[{axis}]"), value, &limits::ON_CAR);
        }
    }
    let names = car.body_points.iter().enumerate();
    faults.unique(names.map(|(i, (id, _))| (format!("{path}.body_points[{i}].name"), id)));
    faults.count(&format!("{path}.stood_still"), car.stood.len(), MOST_STOOD);
    for (i, own) in car.stood.iter().take(MOST_STOOD).enumerate() {
        stood(&format!("{path}.stood_still[{i}]"), own, faults);
    }
}

pub(super) fn stood(path: &str, own: &Stood, faults: &mut Faults) {
    faults.name(format!("{path}.from"), own.from.as_str());
    faults.name(format!("{path}.to"), own.to.as_str());
    if own.from == own.to {
        let found = Found::Text(Quote::of(own.to.as_str()));
        faults.add(format!("{path}.to"), found, Allowed::OtherMark);
    }
    faults.number(format!("{path}.start_mm"), own.start_mm, &limits::MARK_TAPED);
    if let Some(end) = own.end_mm {
        faults.number(format!("{path}.end_mm"), end, &limits::MARK_TAPED);
    }
}

pub(super) fn sheet(path: &str, sheet: &AlignmentSheet, faults: &mut Faults) {
    if let Some(by) = &sheet.by {
        faults.name(format!("{path}.by"), by);
    }
    match sheet.rim {
        Some(Rim::Millimetres(mm)) => faults.number(format!("{path}.toe.rim"), mm, &limits::RIM),
        Some(Rim::Inches(inches)) => faults.number(format!("{path}.toe.rim"), inches, &limits::RIM_INCHES),
        None => {}
    }
    for (group, unit, all) in
        [("toe", sheet.toe_unit, &sheet.toe), ("camber", sheet.camber_unit, &sheet.camber)]
    {
        for (wheel, told) in WHEELS.iter().zip(all) {
            figure(&format!("{path}.{group}.{wheel}"), unit, told.reads, faults);
        }
    }
    figure(&format!("{path}.set_back"), sheet.set_back_unit, sheet.set_back.reads, faults);
    figure(&format!("{path}.thrust"), sheet.thrust_unit, sheet.thrust.reads, faults);
}

fn figure(path: &str, unit: SheetUnit, reads: Option<Typed>, faults: &mut Faults) {
    let Some(reads) = reads else { return };
    let range = match unit {
        SheetUnit::Degrees | SheetUnit::DegreesMinutes => &limits::SHEET_DEGREES,
        SheetUnit::Millimetres => &limits::SHEET_MM,
        SheetUnit::Inches => &limits::SHEET_INCHES,
    };
    faults.number(format!("{path}.value"), reads.value, range);
    let minutes =
        if unit == SheetUnit::DegreesMinutes { &limits::SHEET_MINUTES } else { &limits::NO_MINUTES };
    faults.number(format!("{path}.minutes"), reads.minutes, minutes);
}
