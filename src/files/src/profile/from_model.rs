//! From a vehicle to a profile's file.

use baywright_planner::model::assumed::figure;
use baywright_planner::model::{Radar, Sensor, SensorKind, Vehicle};

use super::{
    BodyFile, BodyPointFile, HERTZ_PER_GIGAHERTZ, MirrorsFile, ProfileFile, RideHeightsFile, SensorFile,
    SensorKindFile,
};
use crate::aiming;
use crate::figure::{Figure, place, points};

/// The file that describes a vehicle. Figures that were assumed are left out, so that they stay assumed.
pub fn file_of(vehicle: &Vehicle) -> ProfileFile {
    ProfileFile {
        version: crate::version::PROFILE,
        name: vehicle.name.clone(),
        class: vehicle.class.into(),
        source: (&vehicle.provenance).into(),
        body: body(vehicle),
        body_points: vehicle
            .body_points
            .iter()
            .map(|p| BodyPointFile { name: p.id.to_string(), at_mm: place(p.at) })
            .collect(),
        sensors: vehicle.sensors.iter().map(sensor).collect(),
        aimings: vehicle.aimings.iter().map(|a| aiming::file_of(a, vehicle)).collect(),
        assumed: vehicle
            .assumed
            .iter()
            .filter(|name| !figure::ALL.contains(&name.as_str()))
            .cloned()
            .collect(),
    }
}

fn body(car: &Vehicle) -> BodyFile {
    let entered = |name: &str| !car.assumed.iter().any(|a| a == name);
    let given = |name: &str, value: f64| entered(name).then_some(Figure(value));
    BodyFile {
        length_mm: given(figure::LENGTH, car.length),
        width_mm: given(figure::WIDTH, car.width),
        height_mm: given(figure::HEIGHT, car.height),
        wheelbase_mm: given(figure::WHEELBASE, car.wheelbase),
        overhang_front_mm: given(figure::OVERHANG_FRONT, car.overhang_front),
        overhang_rear_mm: given(figure::OVERHANG_REAR, car.overhang_rear),
        track_front_mm: given(figure::TRACK_FRONT, car.track_front),
        track_rear_mm: given(figure::TRACK_REAR, car.track_rear),
        tyre_diameter_mm: given(figure::TYRE_DIAMETER, car.tyre_diameter),
        tyre_width_mm: given(figure::TYRE_WIDTH, car.tyre_width),
        ground_clearance_mm: given(figure::GROUND_CLEARANCE, car.ground_clearance),
        mirrors: entered(figure::MIRRORS).then(|| MirrorsFile {
            width_mm: car.mirrors.width.into(),
            ahead_mm: car.mirrors.ahead.into(),
            height_mm: car.mirrors.height.into(),
        }),
        ride_heights: car.ride_heights.map(|[front_left, front_right, rear_left, rear_right]| {
            RideHeightsFile {
                front_left_mm: front_left.into(),
                front_right_mm: front_right.into(),
                rear_left_mm: rear_left.into(),
                rear_right_mm: rear_right.into(),
            }
        }),
        outline_top_mm: entered(figure::OUTLINE_TOP).then(|| points(&car.outline_top)),
        outline_side_mm: entered(figure::OUTLINE_SIDE).then(|| points(&car.outline_side)),
    }
}

fn sensor(sensor: &Sensor) -> SensorFile {
    SensorFile {
        name: sensor.id.to_string(),
        kind: kind(&sensor.kind),
        at_mm: place(sensor.at),
        azimuth_deg: Figure::degrees(sensor.azimuth),
        elevation_deg: Figure::degrees(sensor.elevation),
        view_azimuth_deg: Figure::degrees(sensor.view.azimuth_half * 2.0),
        view_elevation_deg: Figure::degrees(sensor.view.elevation_half * 2.0),
        adjusted: sensor.adjusted.into(),
        source: (&sensor.provenance).into(),
    }
}

fn kind(kind: &SensorKind) -> SensorKindFile {
    let figures = |radar: &Radar| {
        (
            Figure(radar.frequency / HERTZ_PER_GIGAHERTZ),
            Figure(radar.bandwidth / HERTZ_PER_GIGAHERTZ),
            Figure::degrees(radar.beam_azimuth),
            Figure::degrees(radar.beam_elevation),
        )
    };
    match kind {
        SensorKind::ForwardRadar(radar) => {
            let (frequency_ghz, bandwidth_ghz, beam_azimuth_deg, beam_elevation_deg) = figures(radar);
            SensorKindFile::ForwardRadar {
                frequency_ghz,
                bandwidth_ghz,
                beam_azimuth_deg,
                beam_elevation_deg,
            }
        }
        SensorKind::CornerRadar(radar) => {
            let (frequency_ghz, bandwidth_ghz, beam_azimuth_deg, beam_elevation_deg) = figures(radar);
            SensorKindFile::CornerRadar { frequency_ghz, bandwidth_ghz, beam_azimuth_deg, beam_elevation_deg }
        }
        SensorKind::ForwardCamera(camera) => SensorKindFile::ForwardCamera {
            pixels_across: camera.pixels_across,
            pixels_down: camera.pixels_down,
        },
        SensorKind::SurroundCamera(camera) => SensorKindFile::SurroundCamera {
            pixels_across: camera.pixels_across,
            pixels_down: camera.pixels_down,
        },
        SensorKind::Lidar => SensorKindFile::Lidar,
    }
}
