//! Invariants of an arrangement: of its parts, and between them.

use super::super::Arrangement;
use super::super::fault::{Allowed, Counted, Found};
use super::limits;
use super::{Faults, bay, layout, vehicle};

pub(super) fn check(all: &Arrangement, faults: &mut Faults) {
    faults.name("name", all.id.as_str());
    bay::check("bay.", &all.bay, faults);
    for fault in super::vehicle(&all.vehicle) {
        faults.add(format!("vehicle.{}", fault.field), fault.found, fault.allowed);
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
    layout::parked_known("parked.known", all.parked_known, faults);
    layout::on_this_car("on_this_car", &all.on_this_car, faults);
    if let Some(at) = all.on_this_car.sensor_at {
        vehicle::on_car("on_this_car.sensor_at_mm", at, limits::LOWEST_SENSOR_MM, &all.vehicle, faults);
    }
    if all.stands.len() != all.aiming.placements.len() {
        let allowed = Allowed::OneForEachPlacement(all.aiming.placements.len());
        faults.add("stands", Found::Count(all.stands.len(), Counted::Stands), allowed);
    }
    for (i, set) in all.stands.iter().enumerate() {
        layout::stand(&format!("stands[{i}].set"), set, faults);
    }
}
