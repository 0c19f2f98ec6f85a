//! Invariants of a vehicle profile.

use baywright_geometry::{Bounds, DVec2, DVec3, Polygon, angle};

use super::super::assumed::BodyPart;
use super::super::fault::{Allowed, Found};
use super::super::{Aiming, Sensor, SensorKind, SensorPoint, TargetHeight, Vehicle};
use super::limits::{self, Range, Unit};
use super::{Faults, aiming, screws, shape_fault};

pub(super) fn check(car: &Vehicle, faults: &mut Faults) {
    faults.name("name", car.id.as_str());
    faults.name("name", &car.name);
    faults.source("source", &car.provenance);
    body(car, faults);
    faults.count("body_points", car.body_points.len(), limits::MOST_PARTS);
    for (i, point) in car.body_points.iter().enumerate() {
        faults.name(format!("body_points[{i}].name"), point.id.as_str());
        on_car(&format!("body_points[{i}].at_mm"), point.at, 0.0, car, faults);
    }
    faults.unique(car.body_points.iter().enumerate().map(|(i, p)| (format!("body_points[{i}].name"), &p.id)));
    faults.count("sensors", car.sensors.len(), limits::MOST_PARTS);
    for (i, sensor) in car.sensors.iter().enumerate() {
        check_sensor(&format!("sensors[{i}]"), sensor, car, faults);
    }
    faults.unique(car.sensors.iter().enumerate().map(|(i, s)| (format!("sensors[{i}].name"), &s.id)));
    faults.count("aimings", car.aimings.len(), limits::MOST_PARTS);
    for (i, item) in car.aimings.iter().enumerate() {
        aiming::check(&format!("aimings[{i}]"), item, car, faults);
    }
    faults.unique(car.aimings.iter().enumerate().map(|(i, a)| (format!("aimings[{i}].name"), &a.id)));
}

/// The figures that the car's box is made of. What is assumed from the class follows from them.
fn main_figures(car: &Vehicle) -> [(&'static str, f64, Range); 6] {
    [
        ("length_mm", car.length_mm, limits::CAR_LENGTH),
        ("width_mm", car.width_mm, limits::CAR_WIDTH),
        ("height_mm", car.height_mm, limits::CAR_WIDTH),
        ("wheelbase_mm", car.wheelbase_mm, limits::WHEELBASE),
        ("overhang_front_mm", car.overhang_front_mm, limits::OVERHANG),
        ("overhang_rear_mm", car.overhang_rear_mm, limits::OVERHANG),
    ]
}

fn has_box(car: &Vehicle) -> bool {
    main_figures(car).iter().all(|(_, value, range)| range.holds(*value))
}

fn body(car: &Vehicle, faults: &mut Faults) {
    let before = faults.list.len();
    for (field, value, range) in main_figures(car) {
        faults.number(format!("body.{field}"), value, &range);
    }
    let has_box = faults.list.len() == before;
    for (field, part, value, range) in [
        ("track_front_mm", BodyPart::TrackFront, car.track_front_mm, &limits::TRACK),
        ("track_rear_mm", BodyPart::TrackRear, car.track_rear_mm, &limits::TRACK),
        ("tyre_diameter_mm", BodyPart::TyreDiameter, car.tyre_diameter_mm, &limits::TYRE_DIAMETER),
        ("tyre_width_mm", BodyPart::TyreWidth, car.tyre_width_mm, &limits::TYRE_WIDTH),
        ("ground_clearance_mm", BodyPart::GroundClearance, car.ground_clearance_mm, &limits::CLEARANCE),
        ("mirrors.width_mm", BodyPart::Mirrors, car.mirrors.width_mm, &limits::CAR_WIDTH),
        ("mirrors.ahead_mm", BodyPart::Mirrors, car.mirrors.ahead_mm, &limits::ON_CAR),
        ("mirrors.height_mm", BodyPart::Mirrors, car.mirrors.height_mm, &limits::MIRROR_HEIGHT),
    ] {
        // A figure that was assumed from a wrong one is not a second fault.
        if has_box || !car.is_assumed(part) {
            faults.number(format!("body.{field}"), value, range);
        }
    }
    if let Some(width) = car.tyre_width_rear_mm {
        faults.number("body.tyre_width_rear_mm", width, &limits::TYRE_WIDTH);
    }
    let arches = ["front_left_mm", "front_right_mm", "rear_left_mm", "rear_right_mm"];
    for (field, value) in arches.iter().zip(car.ride_heights.iter().flatten()) {
        faults.number(format!("body.ride_heights.{field}"), *value, &limits::RIDE_HEIGHT);
    }
    if let Some(off) = car.ride_height_off_mm {
        faults.number("body.ride_heights.allowed_mm", off, &limits::RIDE_OFF);
    }
    if faults.list.len() == before {
        proportions(car, faults);
    }
}

/// How the figures fit one another: asked only when each is sound by itself.
fn proportions(car: &Vehicle, faults: &mut Faults) {
    let sum = car.wheelbase_mm + car.overhang_front_mm + car.overhang_rear_mm;
    if car.wheelbase_mm >= car.length_mm {
        faults.length("body.wheelbase_mm", car.wheelbase_mm, Allowed::BelowLength(car.length_mm));
    } else if (sum - car.length_mm).abs() > limits::LENGTH_SLACK_MM {
        let found = Found::LengthAndParts {
            length: car.length_mm,
            wheelbase: car.wheelbase_mm,
            front: car.overhang_front_mm,
            rear: car.overhang_rear_mm,
        };
        faults.add("body.length_mm", found, Allowed::LengthWithin(limits::LENGTH_SLACK_MM));
    }
    for (field, track) in [("track_front_mm", car.track_front_mm), ("track_rear_mm", car.track_rear_mm)] {
        if track >= car.width_mm {
            faults.length(format!("body.{field}"), track, Allowed::BelowWidth(car.width_mm));
        }
    }
    let (track, low) = (car.track_front_mm.min(car.track_rear_mm), car.height_mm.min(car.wheelbase_mm));
    for (field, value, limit, allowed) in [
        ("tyre_width_mm", car.tyre_width_mm, track, Allowed::BelowTrack(track)),
        ("tyre_width_rear_mm", car.tyre_width_rear_mm.unwrap_or(0.0), track, Allowed::BelowTrack(track)),
        ("tyre_diameter_mm", car.tyre_diameter_mm, low, Allowed::BelowHeightAndWheelbase(low)),
        ("ground_clearance_mm", car.ground_clearance_mm, car.height_mm, Allowed::BelowHeight(car.height_mm)),
    ] {
        if value >= limit {
            faults.length(format!("body.{field}"), value, allowed);
        }
    }
    if car.mirrors.width_mm < car.width_mm {
        faults.length("body.mirrors.width_mm", car.mirrors.width_mm, Allowed::FromWidth(car.width_mm));
    }
    let half = car.width_mm * 0.5;
    let (front, rear) = (car.front(), car.rear());
    let top_box = Bounds { low: DVec2::new(rear, -half), high: DVec2::new(front, half) };
    outline("body.outline_top_mm", &car.outline_top, top_box, faults);
    let side_box =
        Bounds { low: DVec2::new(rear, car.ground_clearance_mm), high: DVec2::new(front, car.height_mm) };
    outline("body.outline_side_mm", &car.outline_side, side_box, faults);
}

/// An outline must be a shape and as large as the car: a smaller one would let things through the body.
fn outline(field: &str, points: &[DVec2], size: Bounds, faults: &mut Faults) {
    faults.count(field, points.len(), limits::MOST_OUTLINE_POINTS);
    if points.len() > limits::MOST_OUTLINE_POINTS {
        return;
    }
    match Polygon::simple(points.to_vec()) {
        Err(fault) => faults.list.push(shape_fault(field, points, &fault)),
        Ok(polygon) => {
            let found = polygon.bounds();
            let off = (found.low - size.low).abs().max((found.high - size.high).abs()).max_element();
            if off > limits::OUTLINE_SLACK_MM {
                let allowed = Allowed::OutlineReaching { size, within: limits::OUTLINE_SLACK_MM };
                faults.add(field, Found::OutlineReaches(found), allowed);
            }
        }
    }
}

/// A place on the car must lie in its box, a little more allowed, and no lower than `lowest` above the ground.
pub(super) fn on_car(field: &str, at: DVec3, lowest: f64, car: &Vehicle, faults: &mut Faults) {
    let slack = limits::SENSOR_SLACK_MM;
    let half = car.width_mm.max(car.mirrors.width_mm) * 0.5 + slack;
    let ranges = if !has_box(car) {
        // Nothing is known of the car's box: only that no car is longer than this.
        [limits::ON_CAR; 3]
    } else {
        [
            Range {
                low: car.rear() - slack,
                high: car.front() + slack,
                above: false,
                unit: Unit::Millimetres,
            },
            Range { low: -half, high: half, above: false, unit: Unit::Millimetres },
            Range { low: lowest, high: car.height_mm + slack, above: false, unit: Unit::Millimetres },
        ]
    };
    for (i, (value, range)) in at.to_array().into_iter().zip(ranges).enumerate() {
        faults.number(format!("{field}[{i}]"), value, &range);
    }
}

fn check_sensor(path: &str, sensor: &Sensor, car: &Vehicle, faults: &mut Faults) {
    faults.name(format!("{path}.name"), sensor.id.as_str());
    on_car(&format!("{path}.at_mm"), sensor.at, limits::LOWEST_SENSOR_MM, car, faults);
    faults.angle(format!("{path}.azimuth_deg"), sensor.azimuth_rad, &limits::TURN);
    faults.angle(format!("{path}.elevation_deg"), sensor.elevation_rad, &limits::ELEVATION);
    faults.angle(format!("{path}.view_azimuth_deg"), sensor.view.azimuth_half_rad * 2.0, &limits::VIEW);
    faults.angle(
        format!("{path}.view_elevation_deg"),
        sensor.view.elevation_half_rad * 2.0,
        &limits::VIEW_UPRIGHT,
    );
    edges(&format!("{path}.edges"), sensor, car, faults);
    screws::check(&format!("{path}.screws"), &sensor.screws, faults);
    match &sensor.kind {
        SensorKind::ForwardRadar(radar) | SensorKind::CornerRadar(radar) => {
            faults.number(format!("{path}.kind.frequency_ghz"), radar.frequency_hz / 1e9, &limits::FREQUENCY);
            faults.number(format!("{path}.kind.bandwidth_ghz"), radar.bandwidth_hz / 1e9, &limits::BANDWIDTH);
            if radar.bandwidth_hz > radar.frequency_hz {
                let found = Found::Number(radar.bandwidth_hz / 1e9, Unit::Gigahertz);
                faults.add(format!("{path}.kind.bandwidth_ghz"), found, Allowed::UpToFrequency);
            }
            // A beam is part of what the radar sees.
            for (name, beam, view) in [
                ("azimuth", radar.beam_azimuth_rad, sensor.view.azimuth_half_rad * 2.0),
                ("elevation", radar.beam_elevation_rad, sensor.view.elevation_half_rad * 2.0),
            ] {
                let view = angle::degrees(view);
                let high = if view > 0.0 { (view * 1e6).round() / 1e6 } else { 180.0 };
                let range = Range { high: high.min(180.0), ..limits::VIEW_UPRIGHT };
                faults.angle(format!("{path}.kind.beam_{name}_deg"), beam, &range);
            }
        }
        SensorKind::ForwardCamera(camera) | SensorKind::SurroundCamera(camera) => {
            for (name, pixels) in [("across", camera.pixels_across), ("down", camera.pixels_down)] {
                if !(1..=100_000).contains(&pixels) {
                    let found = Found::Whole(pixels.into());
                    faults.add(format!("{path}.kind.pixels_{name}"), found, Allowed::Whole(1, 100_000));
                }
            }
        }
        SensorKind::Lidar => {}
    }
    faults.source(&format!("{path}.source"), &sensor.provenance);
}

/// Where a sensor's edges lie: the lower one above the ground, a line between those that are known. One that a target's height
/// is counted from must be entered; nothing stands in for it.
fn edges(path: &str, sensor: &Sensor, car: &Vehicle, faults: &mut Faults) {
    let edges = &sensor.edges;
    let lower =
        Range { high: limits::EDGE.high.min(sensor.at.z.max(limits::LOWEST_SENSOR_MM)), ..limits::EDGE };
    let most = limits::EDGE.high;
    let line = Range {
        low: -edges.lower_below_mm.unwrap_or(most),
        high: edges.upper_above_mm.unwrap_or(most),
        above: false,
        unit: Unit::Millimetres,
    };
    for (field, point, value, range) in [
        ("lower_below_mm", SensorPoint::LowerEdge, edges.lower_below_mm, lower),
        ("upper_above_mm", SensorPoint::UpperEdge, edges.upper_above_mm, limits::EDGE),
        ("line_above_mm", SensorPoint::Line, edges.line_above_mm, line),
    ] {
        let counts = |own: &&Aiming| {
            let from = |height: TargetHeight| matches!(height, TargetHeight::FromSensor { point: own, .. } if own == point);
            own.sensor == sensor.id && own.placements.iter().any(|own| from(own.height))
        };
        match value {
            Some(value) => faults.number(format!("{path}.{field}"), value, &range),
            None => {
                if let Some(aiming) = car.aimings.iter().find(counts) {
                    faults.add(
                        format!("{path}.{field}"),
                        Found::NeededBy(aiming.id.clone()),
                        Allowed::In(range),
                    );
                }
            }
        }
    }
}
