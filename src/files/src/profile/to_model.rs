//! From a profile's file to a vehicle.

use baywright_planner::model::assumed::{Assumed, BodyPart};
use baywright_planner::model::fault::{Allowed, Counted, Fault, Found, Quote};
use baywright_planner::model::validate::{self, limits};
use baywright_planner::model::{
    BodyPoint, Camera, Edges, FieldOfView, Id, Mirrors, Radar, Sensor, SensorKind, Vehicle, VehicleClass,
};

use super::{AssumedFile, BodyFile, ProfileFile, SensorFile, SensorKindFile};
use crate::aiming;
use crate::figure::{Figure, vec3, vecs};
use crate::shape::Faults;

/// The vehicle that a file describes, checked. `id` is the file's stem.
///
/// # Errors
/// Everything found wrong.
pub fn vehicle_of(file: &ProfileFile, id: Id) -> Result<Vehicle, Vec<Fault>> {
    let mut vehicle = draft_of(file, id)?;
    let faults = validate::vehicle(&vehicle);
    if !faults.is_empty() {
        return Err(faults);
    }
    vehicle.make_solids();
    Ok(vehicle)
}

/// The same for a car that is still being entered: its figures need not fit yet, so it has no solids.
///
/// # Errors
/// What no car can be made of: outlines that make no shape, names of what is not there.
pub fn draft_of(file: &ProfileFile, id: Id) -> Result<Vehicle, Vec<Fault>> {
    let mut faults = Faults::default();
    let body_points: Vec<BodyPoint> = file
        .body_points
        .iter()
        .map(|p| BodyPoint { id: p.name.as_str().into(), at: vec3(p.at_mm) })
        .collect();
    let sensors = file.sensors.iter().map(sensor).collect();
    let names: Vec<&str> = file.body_points.iter().map(|p| p.name.as_str()).collect();
    let aimings: Vec<_> = file
        .aimings
        .iter()
        .enumerate()
        .filter_map(|(i, a)| aiming::aiming_of(&format!("aimings[{i}]"), a, &names, &mut faults))
        .collect();
    // An outline with too many points is refused before anything is made of it.
    for (field, points) in [("top", &file.body.outline_top_mm), ("side", &file.body.outline_side_mm)] {
        let count = points.as_ref().map_or(0, Vec::len);
        if count > limits::MOST_OUTLINE_POINTS {
            let allowed = Allowed::AtMost(limits::MOST_OUTLINE_POINTS);
            let found = Found::Count(count, Counted::Points);
            faults.add(format!("body.outline_{field}_mm"), found, allowed);
        }
    }
    if !faults.0.is_empty() {
        return Err(faults.0);
    }
    let mut vehicle = body(&file.body, file.class.into(), id);
    vehicle.name.clone_from(&file.name);
    vehicle.provenance = (&file.source).into();
    vehicle.body_points = body_points;
    vehicle.sensors = sensors;
    vehicle.aimings = aimings;
    // Names of what is not there, or stands there as entered, say nothing.
    for (i, own) in file.assumed.iter().enumerate() {
        let (figure, name, allowed) = match own {
            AssumedFile::Sensor { name, part } => {
                (Assumed::Sensor(name.as_str().into(), (*part).into()), name, Allowed::SensorOfThisCar)
            }
            AssumedFile::Aiming { name, part } => {
                (Assumed::Aiming(name.as_str().into(), (*part).into()), name, Allowed::AimingOfThisCar)
            }
            AssumedFile::Zone { aiming, name, part } => {
                let part = (*part).into();
                (
                    Assumed::Zone(aiming.as_str().into(), name.as_str().into(), part),
                    name,
                    Allowed::ZoneOfAiming,
                )
            }
        };
        if vehicle.has_part(&figure) {
            vehicle.leave_open(figure);
        } else {
            faults.add(format!("assumed[{i}].name"), Found::Word(Quote::of(name)), allowed);
        }
    }
    if faults.0.is_empty() { Ok(vehicle) } else { Err(faults.0) }
}

/// The body with what was left out taken from the class, and noted.
fn body(file: &BodyFile, class: VehicleClass, id: Id) -> Vehicle {
    let mut car = Vehicle { id, assumed: Vec::new(), ..Vehicle::of_class(class) };
    let mut given = |value: Option<Figure>, part: BodyPart, into: &mut f64| match value {
        Some(value) => *into = value.0,
        None => car.assumed.push(part.into()),
    };
    given(file.length_mm, BodyPart::Length, &mut car.length_mm);
    given(file.width_mm, BodyPart::Width, &mut car.width_mm);
    given(file.height_mm, BodyPart::Height, &mut car.height_mm);
    given(file.wheelbase_mm, BodyPart::Wheelbase, &mut car.wheelbase_mm);
    given(file.overhang_front_mm, BodyPart::OverhangFront, &mut car.overhang_front_mm);
    given(file.overhang_rear_mm, BodyPart::OverhangRear, &mut car.overhang_rear_mm);
    given(file.tyre_diameter_mm, BodyPart::TyreDiameter, &mut car.tyre_diameter_mm);
    given(file.tyre_width_mm, BodyPart::TyreWidth, &mut car.tyre_width_mm);
    car.tyre_width_rear_mm = file.tyre_width_rear_mm.map(|mm| mm.0);
    given(file.track_front_mm, BodyPart::TrackFront, &mut car.track_front_mm);
    given(file.track_rear_mm, BodyPart::TrackRear, &mut car.track_rear_mm);
    given(file.ground_clearance_mm, BodyPart::GroundClearance, &mut car.ground_clearance_mm);
    match &file.mirrors {
        Some(m) => {
            car.mirrors =
                Mirrors { width_mm: m.width_mm.0, ahead_mm: m.ahead_mm.0, height_mm: m.height_mm.0 };
        }
        None => car.assumed.push(BodyPart::Mirrors.into()),
    }
    for (points, part, into) in [
        (&file.outline_top_mm, BodyPart::OutlineTop, &mut car.outline_top),
        (&file.outline_side_mm, BodyPart::OutlineSide, &mut car.outline_side),
    ] {
        match points {
            Some(points) => *into = vecs(points),
            None => car.assumed.push(part.into()),
        }
    }
    car.ride_heights = file
        .ride_heights
        .map(|r| [r.front_left_mm.0, r.front_right_mm.0, r.rear_left_mm.0, r.rear_right_mm.0]);
    car.ride_height_off_mm = file.ride_heights.and_then(|own| own.allowed_mm).map(|mm| mm.0);
    car.assume();
    car
}

fn sensor(file: &SensorFile) -> Sensor {
    let radar = |frequency: Figure, bandwidth: Figure, azimuth: Figure, elevation: Figure| Radar {
        frequency_hz: frequency.0 * super::HERTZ_PER_GIGAHERTZ,
        bandwidth_hz: bandwidth.0 * super::HERTZ_PER_GIGAHERTZ,
        beam_azimuth_rad: azimuth.radians(),
        beam_elevation_rad: elevation.radians(),
    };
    let kind = match file.kind {
        SensorKindFile::ForwardRadar {
            frequency_ghz,
            bandwidth_ghz,
            beam_azimuth_deg,
            beam_elevation_deg,
        } => SensorKind::ForwardRadar(radar(
            frequency_ghz,
            bandwidth_ghz,
            beam_azimuth_deg,
            beam_elevation_deg,
        )),
        SensorKindFile::CornerRadar {
            frequency_ghz,
            bandwidth_ghz,
            beam_azimuth_deg,
            beam_elevation_deg,
        } => {
            SensorKind::CornerRadar(radar(frequency_ghz, bandwidth_ghz, beam_azimuth_deg, beam_elevation_deg))
        }
        SensorKindFile::ForwardCamera { pixels_across, pixels_down } => {
            SensorKind::ForwardCamera(Camera { pixels_across, pixels_down })
        }
        SensorKindFile::SurroundCamera { pixels_across, pixels_down } => {
            SensorKind::SurroundCamera(Camera { pixels_across, pixels_down })
        }
        SensorKindFile::Lidar => SensorKind::Lidar,
    };
    Sensor {
        id: file.name.as_str().into(),
        kind,
        at: vec3(file.at_mm),
        edges: Edges {
            lower_below_mm: file.edges.lower_below_mm.map(|mm| mm.0),
            upper_above_mm: file.edges.upper_above_mm.map(|mm| mm.0),
            line_above_mm: file.edges.line_above_mm.map(|mm| mm.0),
        },
        azimuth_rad: file.azimuth_deg.radians(),
        elevation_rad: file.elevation_deg.radians(),
        view: FieldOfView {
            azimuth_half_rad: file.view_azimuth_deg.radians() * 0.5,
            elevation_half_rad: file.view_elevation_deg.radians() * 0.5,
        },
        adjusted: file.adjusted.into(),
        screws: file.screws.to_model(),
        provenance: (&file.source).into(),
    }
}
