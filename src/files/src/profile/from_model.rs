//! From a vehicle to a profile's file.

use baywright_planner::model::assumed::{Assumed, BodyPart};
use baywright_planner::model::{Radar, Sensor, SensorKind, Vehicle};

use super::screws::ScrewsFile;
use super::{
    AssumedFile, BodyFile, BodyPointFile, EdgesFile, HERTZ_PER_GIGAHERTZ, MirrorsFile, ProfileFile,
    RideHeightsFile, SensorFile, SensorKindFile,
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
        assumed: vehicle.assumed.iter().filter_map(assumed).collect(),
    }
}

/// What is assumed of the body is left out of the file, so that it stays open.
fn assumed(figure: &Assumed) -> Option<AssumedFile> {
    match figure {
        Assumed::Body(_) => None,
        Assumed::Sensor(id, part) => Some(AssumedFile::Sensor { name: id.to_string(), part: (*part).into() }),
        Assumed::Aiming(id, part) => Some(AssumedFile::Aiming { name: id.to_string(), part: (*part).into() }),
        Assumed::Zone(aiming, id, part) => {
            Some(AssumedFile::Zone { aiming: aiming.to_string(), name: id.to_string(), part: (*part).into() })
        }
    }
}

fn body(car: &Vehicle) -> BodyFile {
    let entered = |part: BodyPart| !car.is_assumed(part);
    let given = |part: BodyPart, value: f64| entered(part).then_some(Figure(value));
    BodyFile {
        length_mm: given(BodyPart::Length, car.length_mm),
        width_mm: given(BodyPart::Width, car.width_mm),
        height_mm: given(BodyPart::Height, car.height_mm),
        wheelbase_mm: given(BodyPart::Wheelbase, car.wheelbase_mm),
        overhang_front_mm: given(BodyPart::OverhangFront, car.overhang_front_mm),
        overhang_rear_mm: given(BodyPart::OverhangRear, car.overhang_rear_mm),
        track_front_mm: given(BodyPart::TrackFront, car.track_front_mm),
        track_rear_mm: given(BodyPart::TrackRear, car.track_rear_mm),
        tyre_diameter_mm: given(BodyPart::TyreDiameter, car.tyre_diameter_mm),
        tyre_width_mm: given(BodyPart::TyreWidth, car.tyre_width_mm),
        tyre_width_rear_mm: car.tyre_width_rear_mm.map(Figure),
        ground_clearance_mm: given(BodyPart::GroundClearance, car.ground_clearance_mm),
        mirrors: entered(BodyPart::Mirrors).then(|| MirrorsFile {
            width_mm: car.mirrors.width_mm.into(),
            ahead_mm: car.mirrors.ahead_mm.into(),
            height_mm: car.mirrors.height_mm.into(),
        }),
        ride_heights: car.ride_heights.map(|[front_left, front_right, rear_left, rear_right]| {
            RideHeightsFile {
                front_left_mm: front_left.into(),
                front_right_mm: front_right.into(),
                rear_left_mm: rear_left.into(),
                rear_right_mm: rear_right.into(),
                allowed_mm: car.ride_height_off_mm.map(Figure),
            }
        }),
        outline_top_mm: entered(BodyPart::OutlineTop).then(|| points(&car.outline_top)),
        outline_side_mm: entered(BodyPart::OutlineSide).then(|| points(&car.outline_side)),
    }
}

fn sensor(sensor: &Sensor) -> SensorFile {
    SensorFile {
        name: sensor.id.to_string(),
        kind: kind(&sensor.kind),
        at_mm: place(sensor.at),
        edges: EdgesFile {
            lower_below_mm: sensor.edges.lower_below_mm.map(Figure),
            upper_above_mm: sensor.edges.upper_above_mm.map(Figure),
            line_above_mm: sensor.edges.line_above_mm.map(Figure),
        },
        azimuth_deg: Figure::degrees(sensor.azimuth_rad),
        elevation_deg: Figure::degrees(sensor.elevation_rad),
        view_azimuth_deg: Figure::degrees(sensor.view.azimuth_half_rad * 2.0),
        view_elevation_deg: Figure::degrees(sensor.view.elevation_half_rad * 2.0),
        adjusted: sensor.adjusted.into(),
        screws: ScrewsFile::of(&sensor.screws),
        source: (&sensor.provenance).into(),
    }
}

fn kind(kind: &SensorKind) -> SensorKindFile {
    let figures = |radar: &Radar| {
        (
            Figure(radar.frequency_hz / HERTZ_PER_GIGAHERTZ),
            Figure(radar.bandwidth_hz / HERTZ_PER_GIGAHERTZ),
            Figure::degrees(radar.beam_azimuth_rad),
            Figure::degrees(radar.beam_elevation_rad),
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
