//! From a profile's file to a vehicle.

use baywright_planner::geometry::DVec2;
use baywright_planner::model::class::{Figures, figure};
use baywright_planner::model::validate::{self, Fault, limits};
use baywright_planner::model::{
    BodyPoint, Camera, FieldOfView, Id, Mirrors, Radar, Sensor, SensorKind, Vehicle, VehicleClass,
};

use super::{BodyFile, ProfileFile, SensorFile, SensorKindFile};
use crate::aiming;
use crate::figure::{Figure, Point, vec3, vecs};
use crate::shape::Faults;

/// The vehicle that a file describes, checked. `id` is the file's stem.
///
/// # Errors
/// Everything found wrong.
pub fn vehicle_of(file: &ProfileFile, id: Id) -> Result<Vehicle, Vec<Fault>> {
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
            let allowed = format!("at most {}", limits::MOST_OUTLINE_POINTS);
            faults.add(format!("body.outline_{field}_mm"), format!("{count} points"), allowed);
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
    let faults = validate::vehicle(&vehicle);
    if !faults.is_empty() {
        return Err(faults);
    }
    vehicle.body = vehicle.solids();
    Ok(vehicle)
}

/// The body with what was left out taken from the class, and noted.
fn body(file: &BodyFile, class: VehicleClass, id: Id) -> Vehicle {
    let mut assumed = Vec::new();
    let mut given = |value: Option<Figure>, name: &str, otherwise: f64| match value {
        Some(value) => value.0,
        None => {
            assumed.push(name.to_owned());
            Figure(otherwise).rounded()
        }
    };
    let width = file.width_mm.0;
    let (diameter, tyre) = class.tyre();
    let tyre_diameter = given(file.tyre_diameter_mm, figure::TYRE_DIAMETER, diameter);
    let tyre_width = given(file.tyre_width_mm, figure::TYRE_WIDTH, tyre);
    let track_front = given(file.track_front_mm, figure::TRACK_FRONT, class.track(width, tyre_width));
    let track_rear = given(file.track_rear_mm, figure::TRACK_REAR, class.track(width, tyre_width));
    let ground_clearance =
        given(file.ground_clearance_mm, figure::GROUND_CLEARANCE, class.ground_clearance());
    let figures = Figures {
        width,
        height: file.height_mm.0,
        wheelbase: file.wheelbase_mm.0,
        overhang_front: file.overhang_front_mm.0,
        overhang_rear: file.overhang_rear_mm.0,
        ground_clearance,
    };
    let mirrors = match &file.mirrors {
        Some(m) => Mirrors { width: m.width_mm.0, ahead: m.ahead_mm.0, height: m.height_mm.0 },
        None => {
            assumed.push(figure::MIRRORS.to_owned());
            class.mirrors(&figures)
        }
    };
    let mut shape = |points: &Option<Vec<Point>>, name: &str, otherwise: &dyn Fn() -> Vec<DVec2>| match points
    {
        Some(points) => vecs(points),
        None => {
            assumed.push(name.to_owned());
            otherwise()
        }
    };
    let outline_top = shape(&file.outline_top_mm, figure::OUTLINE_TOP, &|| class.outline_top(&figures));
    let outline_side = shape(&file.outline_side_mm, figure::OUTLINE_SIDE, &|| class.outline_side(&figures));
    Vehicle {
        id,
        name: String::new(),
        class,
        length: file.length_mm.0,
        width,
        mirrors,
        height: figures.height,
        wheelbase: figures.wheelbase,
        track_front,
        track_rear,
        overhang_front: figures.overhang_front,
        overhang_rear: figures.overhang_rear,
        tyre_diameter,
        tyre_width,
        ground_clearance,
        ride_heights: file
            .ride_heights
            .map(|r| [r.front_left_mm.0, r.front_right_mm.0, r.rear_left_mm.0, r.rear_right_mm.0]),
        outline_top,
        outline_side,
        assumed,
        body_points: Vec::new(),
        sensors: Vec::new(),
        aimings: Vec::new(),
        provenance: baywright_planner::model::Provenance::Example,
        body: Vec::new(),
    }
}

fn sensor(file: &SensorFile) -> Sensor {
    let radar = |frequency: Figure, bandwidth: Figure, azimuth: Figure, elevation: Figure| Radar {
        frequency: frequency.0 * super::HERTZ_PER_GIGAHERTZ,
        bandwidth: bandwidth.0 * super::HERTZ_PER_GIGAHERTZ,
        beam_azimuth: azimuth.radians(),
        beam_elevation: elevation.radians(),
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
        azimuth: file.azimuth_deg.radians(),
        elevation: file.elevation_deg.radians(),
        view: FieldOfView {
            azimuth_half: file.view_azimuth_deg.radians() * 0.5,
            elevation_half: file.view_elevation_deg.radians() * 0.5,
        },
        adjusted: file.adjusted.into(),
        provenance: (&file.source).into(),
    }
}
