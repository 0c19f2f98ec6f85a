//! Invariants of an arrangement: of its parts, and between them.

use super::super::fault::{Allowed, Counted, Found};
use super::super::{Arrangement, Wheel};
use super::limits;
use super::on_car::WHEELS;
use super::{Faults, bay, layout, stand_read, vehicle};

pub(super) fn check(all: &Arrangement, faults: &mut Faults) {
    faults.name("name", all.id.as_str());
    bay::check("bay.", &all.bay, faults);
    for fault in super::vehicle(&all.vehicle) {
        faults.add(format!("vehicle.{}", fault.field), fault.found, fault.allowed);
    }
    for fault in super::shop(&all.shop) {
        faults.add(format!("shop.{}", fault.field), fault.found, fault.allowed);
    }
    for fault in super::instruments(&all.instruments) {
        faults.add(format!("shop.{}", fault.field), fault.found, fault.allowed);
    }
    if !all.vehicle.aimings.contains(&all.aiming) {
        faults.add("aiming", Found::NotAsInProfile(all.aiming.id.clone()), Allowed::AimingOfCar);
    }
    if all.sensor.id != all.aiming.sensor || !all.vehicle.sensors.contains(&all.sensor) {
        let own = Allowed::SensorOfAiming(all.aiming.sensor.clone());
        faults.add("sensor", Found::Name(all.sensor.id.clone()), own);
    }
    faults.place("parked.at_mm", all.parked.origin());
    faults.angle("parked.heading_deg", all.parked.heading(), &limits::TURN);
    for (i, id) in all.on_runways.iter().enumerate() {
        faults.known(format!("on_runways[{i}]"), id, all.bay.runways.iter().map(|r| &r.id));
    }
    let doors = || all.bay.openings.iter().filter(|own| own.kind.is_door()).map(|own| &own.id);
    for (i, id) in all.kept_shut.iter().enumerate() {
        faults.known(format!("kept_shut[{i}]"), id, doors());
    }
    layout::bays_of("", all.in_bay.as_ref(), &all.kept_empty, &all.bay, faults);
    layout::parked_known("parked.known", all.parked_known, faults);
    layout::on_this_car("on_this_car", &all.on_this_car, faults);
    layout::marks_taped("marks_taped", &all.marks_taped, faults);
    layout::marks_taped("laid_before", &all.laid_before, faults);
    stand_read::check("stands_read", &all.stands_read, faults);
    if let Some(at) = all.on_this_car.sensor_at {
        // Its lower edge is above the ground too.
        let lowest = all.sensor.edges.lower_below_mm.unwrap_or(0.0).max(limits::LOWEST_SENSOR_MM);
        vehicle::on_car("on_this_car.sensor_at_mm", at, lowest, &all.vehicle, faults);
    }
    wheels(all, faults);
    if all.stands.len() != all.aiming.placements.len() {
        let allowed = Allowed::OneForEachPlacement(all.aiming.placements.len());
        faults.add("stands", Found::Count(all.stands.len(), Counted::Stands), allowed);
    }
    for (i, set) in all.stands.iter().enumerate() {
        layout::stand(&format!("stands[{i}].set"), set, faults);
    }
}

/// Wheels that were measured stand near where the profile has them: further off it is another car, or a figure mistyped.
fn wheels(all: &Arrangement, faults: &mut Faults) {
    for ((wheel, name), at) in Wheel::ALL.into_iter().zip(WHEELS).zip(all.on_this_car.wheels.iter().flatten())
    {
        let expected = all.vehicle.wheel_point(wheel).to_array();
        for (i, (value, expected)) in at.to_array().into_iter().zip(expected).enumerate() {
            let slack = limits::WHEEL_SLACK_MM;
            let near = limits::Range {
                low: expected - slack,
                high: expected + slack,
                above: false,
                unit: limits::Unit::Millimetres,
            };
            faults.number(format!("on_this_car.wheels_mm.{name}[{i}]"), value, &near);
        }
    }
}
