//! What was done to a car that is being entered, found by comparing it with what it was.

use crate::model::assumed::{AimingPart, Assumed, BodyPart, SensorPart};
use crate::model::{Aiming, Id, Placement, Sensor, Vehicle};

/// What a person did to a car.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CarDeed {
    /// Gave it another name.
    Name,
    /// Gave it another short name, for its file.
    ShortName,
    /// Chose another class.
    Class,
    /// Told where the body's figures come from.
    Source,
    /// Changed a figure of the body.
    Body(BodyPart),
    /// Changed the ride heights.
    RideHeights,
    /// Changed the named points of the body.
    BodyPoints,
    /// Added or removed sensors, or changed their order.
    Sensors,
    /// Changed a sensor.
    Sensor(Id, SensorDeed),
    /// Added or removed aimings, or changed their order.
    Aimings,
    /// Changed an aiming.
    Aiming(Id, AimingDeed),
    /// Took an assumed figure as it stands.
    Took(Assumed),
    /// Left a figure open again.
    LeftOpen(Assumed),
}

/// What was changed of a sensor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SensorDeed {
    /// Its name.
    Name,
    /// A figure.
    Part(SensorPart),
    /// Where its edges lie.
    Edges,
    /// Its adjusting screws.
    Screws,
    /// Where its figures come from.
    Source,
}

/// What was changed of an aiming.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AimingDeed {
    /// Its name or title.
    Name,
    /// The sensor that it aims.
    Sensor,
    /// A figure.
    Part(AimingPart),
    /// Its targets came, went, or changed their order.
    Targets,
    /// What it asks of the car's alignment.
    Alignment,
    /// Which of its targets stand at the same time.
    Together,
    /// Its keep-clear zones.
    Zones,
    /// What to have ready.
    HaveReady,
    /// What to meet first.
    Conditions,
    /// Where its figures come from.
    Source,
}

impl CarDeed {
    /// What was done to make the one of the other, before anything that follows from it: the first difference; `None` where
    /// nothing differs.
    pub fn between(before: &Vehicle, after: &Vehicle) -> Option<Self> {
        names(before, after)
            .or_else(|| body(before, after))
            .or_else(|| sensors(&before.sensors, &after.sensors))
            .or_else(|| aimings(&before.aimings, &after.aimings))
            .or_else(|| assumed(&before.assumed, &after.assumed))
    }
}

fn names(before: &Vehicle, after: &Vehicle) -> Option<CarDeed> {
    first([
        (before.name != after.name, CarDeed::Name),
        (before.id != after.id, CarDeed::ShortName),
        (before.class != after.class, CarDeed::Class),
        (before.provenance != after.provenance, CarDeed::Source),
    ])
}

fn body(before: &Vehicle, after: &Vehicle) -> Option<CarDeed> {
    let part = BodyPart::ALL.into_iter().find(|part| !same_part(*part, before, after)).map(CarDeed::Body);
    let rest = || {
        first([
            (
                before.ride_heights != after.ride_heights
                    || before.ride_height_off_mm != after.ride_height_off_mm,
                CarDeed::RideHeights,
            ),
            (before.body_points != after.body_points, CarDeed::BodyPoints),
        ])
    };
    part.or_else(rest)
}

fn same_part(part: BodyPart, a: &Vehicle, b: &Vehicle) -> bool {
    match part {
        BodyPart::Length => a.length_mm == b.length_mm,
        BodyPart::Width => a.width_mm == b.width_mm,
        BodyPart::Height => a.height_mm == b.height_mm,
        BodyPart::Wheelbase => a.wheelbase_mm == b.wheelbase_mm,
        BodyPart::OverhangFront => a.overhang_front_mm == b.overhang_front_mm,
        BodyPart::OverhangRear => a.overhang_rear_mm == b.overhang_rear_mm,
        BodyPart::TyreDiameter => a.tyre_diameter_mm == b.tyre_diameter_mm,
        BodyPart::TyreWidth => {
            (a.tyre_width_mm, a.tyre_width_rear_mm) == (b.tyre_width_mm, b.tyre_width_rear_mm)
        }
        BodyPart::TrackFront => a.track_front_mm == b.track_front_mm,
        BodyPart::TrackRear => a.track_rear_mm == b.track_rear_mm,
        BodyPart::GroundClearance => a.ground_clearance_mm == b.ground_clearance_mm,
        BodyPart::Mirrors => a.mirrors == b.mirrors,
        BodyPart::OutlineTop => a.outline_top == b.outline_top,
        BodyPart::OutlineSide => a.outline_side == b.outline_side,
    }
}

fn sensors(before: &[Sensor], after: &[Sensor]) -> Option<CarDeed> {
    match one_of(before, after, |own| &own.id) {
        Differ::Not => None,
        Differ::List => Some(CarDeed::Sensors),
        Differ::One(old, new) => Some(CarDeed::Sensor(new.id.clone(), of_sensor(old, new))),
    }
}

fn of_sensor(old: &Sensor, new: &Sensor) -> SensorDeed {
    let part = |differs: bool, part: SensorPart| (differs, SensorDeed::Part(part));
    let looks = (old.azimuth_rad, old.elevation_rad) != (new.azimuth_rad, new.elevation_rad);
    first([
        (old.id != new.id, SensorDeed::Name),
        part(old.kind != new.kind, SensorPart::Kind),
        part(old.at.x != new.at.x, SensorPart::Ahead),
        part(old.at.y != new.at.y, SensorPart::Aside),
        part(old.at.z != new.at.z, SensorPart::Height),
        (old.edges != new.edges, SensorDeed::Edges),
        (old.screws != new.screws, SensorDeed::Screws),
        part(looks, SensorPart::Boresight),
        part(old.view != new.view, SensorPart::View),
        part(old.adjusted != new.adjusted, SensorPart::Adjusted),
    ])
    .unwrap_or(SensorDeed::Source)
}

fn aimings(before: &[Aiming], after: &[Aiming]) -> Option<CarDeed> {
    match one_of(before, after, |own| &own.id) {
        Differ::Not => None,
        Differ::List => Some(CarDeed::Aimings),
        Differ::One(old, new) => Some(CarDeed::Aiming(new.id.clone(), of_aiming(old, new))),
    }
}

fn of_aiming(old: &Aiming, new: &Aiming) -> AimingDeed {
    let part = |differs: bool, part: AimingPart| (differs, AimingDeed::Part(part));
    let own = || {
        first([
            ((&old.id, &old.name) != (&new.id, &new.name), AimingDeed::Name),
            (old.sensor != new.sensor, AimingDeed::Sensor),
            part(old.axis != new.axis, AimingPart::Axis),
            part(old.tolerance.azimuth_rad != new.tolerance.azimuth_rad, AimingPart::Azimuth),
            part(old.tolerance.elevation_rad != new.tolerance.elevation_rad, AimingPart::Elevation),
            part(old.floor != new.floor, AimingPart::Floor),
            part(old.working_room_mm != new.working_room_mm, AimingPart::WorkingRoom),
            (old.alignment != new.alignment, AimingDeed::Alignment),
        ])
    };
    let rest = || {
        first([
            ((&old.zones, old.names_no_zone) != (&new.zones, new.names_no_zone), AimingDeed::Zones),
            part(old.mark_plan != new.mark_plan, AimingPart::MarkPlan),
            (old.have_ready != new.have_ready, AimingDeed::HaveReady),
            (old.conditions != new.conditions, AimingDeed::Conditions),
        ])
    };
    let targets = || match one_of(&old.placements, &new.placements, |own| &own.id) {
        Differ::Not => None,
        Differ::List => Some(AimingDeed::Targets),
        Differ::One(old, new) if old.with != new.with => Some(AimingDeed::Together),
        Differ::One(old, new) => Some(AimingDeed::Part(of_placement(old, new))),
    };
    own().or_else(targets).or_else(rest).unwrap_or(AimingDeed::Source)
}

fn of_placement(old: &Placement, new: &Placement) -> AimingPart {
    first([
        (old.stand_off != new.stand_off, AimingPart::StandOff),
        (old.target != new.target, AimingPart::Target),
        (
            (old.height, old.vertical, old.heights_from) != (new.height, new.vertical, new.heights_from),
            AimingPart::TargetHeight,
        ),
        (old.tolerance != new.tolerance, AimingPart::PlaceTolerance),
    ])
    .unwrap_or(AimingPart::Target)
}

fn assumed(before: &[Assumed], after: &[Assumed]) -> Option<CarDeed> {
    let gone = before.iter().find(|figure| !after.contains(figure)).cloned().map(CarDeed::Took);
    gone.or_else(|| after.iter().find(|figure| !before.contains(figure)).cloned().map(CarDeed::LeftOpen))
}

/// The first of these that is so.
fn first<T, const N: usize>(cases: [(bool, T); N]) -> Option<T> {
    cases.into_iter().find(|case| case.0).map(|case| case.1)
}

/// How two lists of named parts differ.
enum Differ<'a, T> {
    /// Not at all.
    Not,
    /// Parts came or went, or have another order.
    List,
    /// In one part: as it was, as it is.
    One(&'a T, &'a T),
}

fn one_of<'a, T: PartialEq>(before: &'a [T], after: &'a [T], id: fn(&T) -> &Id) -> Differ<'a, T> {
    let named = |list: &[T], name: &Id| list.iter().any(|own| id(own) == name);
    let Some((old, new)) = before.iter().zip(after).find(|(old, new)| old != new) else {
        return if before.len() == after.len() { Differ::Not } else { Differ::List };
    };
    // The same part, or one whose name is new in place of one whose name is gone.
    let same = id(old) == id(new) || !named(before, id(new)) && !named(after, id(old));
    if before.len() == after.len() && same { Differ::One(old, new) } else { Differ::List }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry::starter::StartKind;
    use crate::model::{Datum, Provenance, VehicleClass};

    #[test]
    fn what_was_done_is_what_differs() {
        let mut car = Vehicle::of_class(VehicleClass::Saloon);
        car.start_sensor(StartKind::ForwardRadar, "radar".into());
        car.start_sensor(StartKind::Lidar, "lidar".into());
        car.start_aiming(&"radar".into(), "aiming".into());
        assert_eq!(CarDeed::between(&car, &car), None);
        type Change = fn(&mut Vehicle);
        let radar = |deed| CarDeed::Sensor("radar".into(), deed);
        let aiming = |deed| CarDeed::Aiming("aiming".into(), deed);
        let cases: [(Change, CarDeed); 22] = [
            (|car| car.name = "other".to_owned(), CarDeed::Name),
            (|car| car.class = VehicleClass::Van, CarDeed::Class),
            (
                |car| {
                    car.enter(BodyPart::Wheelbase);
                    car.wheelbase_mm += 10.0;
                },
                CarDeed::Body(BodyPart::Wheelbase),
            ),
            (|car| car.mirrors.width_mm += 10.0, CarDeed::Body(BodyPart::Mirrors)),
            (|car| car.ride_heights = Some([380.0; 4]), CarDeed::RideHeights),
            (|car| car.start_sensor(StartKind::Lidar, "third".into()), CarDeed::Sensors),
            (|car| car.sensors.swap(0, 1), CarDeed::Sensors),
            (|car| car.sensors[0].at.z += 1.0, radar(SensorDeed::Part(SensorPart::Height))),
            (|car| car.sensors[0].edges.lower_below_mm = Some(45.0), radar(SensorDeed::Edges)),
            (|car| car.sensors[0].screws.up_down.pitch_mm = Some(1.0), radar(SensorDeed::Screws)),
            (|car| car.change_sensor_kind(0, StartKind::Lidar), radar(SensorDeed::Part(SensorPart::Kind))),
            (|car| car.rename_sensor(0, "front".into()), CarDeed::Sensor("front".into(), SensorDeed::Name)),
            (
                |car| car.sensors[0].provenance = Provenance::Published { source: "a book".to_owned() },
                radar(SensorDeed::Source),
            ),
            (|car| car.aimings.clear(), CarDeed::Aimings),
            (|car| car.aimings[0].zones.clear(), aiming(AimingDeed::Zones)),
            (
                |car| car.aimings[0].working_room_mm = Some(601.0),
                aiming(AimingDeed::Part(AimingPart::WorkingRoom)),
            ),
            (|car| car.aimings[0].placements.clear(), aiming(AimingDeed::Targets)),
            (|car| car.aimings[0].alignment.set_back_mm = Some(5.0), aiming(AimingDeed::Alignment)),
            (|car| car.aimings[0].placements[0].with = Some(Vec::new()), aiming(AimingDeed::Together)),
            (
                |car| car.aimings[0].placements[0].stand_off.from = Datum::Sensor,
                aiming(AimingDeed::Part(AimingPart::StandOff)),
            ),
            (
                |car| {
                    car.enter(SensorPart::Height.of(&"radar".into()));
                },
                CarDeed::Took(SensorPart::Height.of(&"radar".into())),
            ),
            (
                |car| {
                    car.enter(BodyPart::Width);
                    car.width_mm = 1_900.0;
                },
                CarDeed::Body(BodyPart::Width),
            ),
        ];
        for (change, expected) in cases {
            let mut after = car.clone();
            change(&mut after);
            assert_eq!(CarDeed::between(&car, &after), Some(expected));
        }
        let mut entered = car.clone();
        entered.enter(BodyPart::OutlineTop);
        let open = CarDeed::LeftOpen(BodyPart::OutlineTop.into());
        assert_eq!(CarDeed::between(&entered, &car), Some(open));
    }
}
