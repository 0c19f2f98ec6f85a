//! What is allowed and yet unlikely, or allowed in a file and not in a form: the slips that a hand makes.
//!
//! Limits refuse what no car has; this warns of what hardly any has. All ranges are common practice, no source: they are
//! only ever a question, "is this right?".

use baywright_geometry::angle;

use crate::model::validate::limits::{LENGTH_SLACK_MM, Range};
use crate::model::validate::{Fault, number};
use crate::model::{SensorKind, TargetHeight, Vehicle};

const fn usual(low: f64, high: f64, unit: &'static str) -> Range {
    Range { low, high, above: false, unit }
}

/// A sensor of a form may stick out of the car's box by this: trim, and rounding of a drawing.
const STICKS_OUT_MM: f64 = 30.0;
/// And above the roof by this: a roof lidar's housing.
const ABOVE_ROOF_MM: f64 = 250.0;

/// What is unlikely in a car's figures: the field by its path, what was found, what is usual. Assumed figures are not asked
/// about.
pub fn unlikely(car: &Vehicle) -> Vec<Fault> {
    use crate::model::assumed::BodyPart as P;
    let mut found = Vec::new();
    let mut ask = |field: String, value: f64, range: Range| {
        if value.is_finite() && !range.holds(value) {
            found.push(Fault {
                field,
                found: format!("{}{}", number(value), range.unit),
                allowed: range.allowed(),
            });
        }
    };
    for (part, field, value, low, high) in [
        (P::Length, "length_mm", car.length, 2_400.0, 7_500.0),
        (P::Width, "width_mm", car.width, 1_400.0, 2_300.0),
        (P::Height, "height_mm", car.height, 1_100.0, 3_200.0),
        (P::Wheelbase, "wheelbase_mm", car.wheelbase, 1_800.0, 4_600.0),
        (P::OverhangFront, "overhang_front_mm", car.overhang_front, 300.0, 1_400.0),
        (P::OverhangRear, "overhang_rear_mm", car.overhang_rear, 300.0, 2_200.0),
        (P::TrackFront, "track_front_mm", car.track_front, 1_200.0, 1_900.0),
        (P::TrackRear, "track_rear_mm", car.track_rear, 1_200.0, 1_900.0),
        (P::TyreDiameter, "tyre_diameter_mm", car.tyre_diameter, 500.0, 900.0),
        (P::TyreWidth, "tyre_width_mm", car.tyre_width, 125.0, 345.0),
        (P::GroundClearance, "ground_clearance_mm", car.ground_clearance, 80.0, 320.0),
    ] {
        if !car.is_assumed(part) {
            ask(format!("body.{field}"), value, usual(low, high, " mm"));
        }
    }
    let sum = car.wheelbase + car.overhang_front + car.overhang_rear;
    let off = (sum - car.length).abs();
    // More is refused at the door.
    if off > SAME_MM && off <= LENGTH_SLACK_MM {
        found.push(Fault {
            field: "body.length_mm".to_owned(),
            found: format!(
                "{} mm, while wheelbase and overhangs make {} mm",
                number(car.length),
                number(sum)
            ),
            allowed: "the same length both ways".to_owned(),
        });
    }
    for (i, sensor) in car.sensors.iter().enumerate() {
        let (low, high) = match sensor.kind {
            SensorKind::ForwardRadar(_) | SensorKind::CornerRadar(_) => (200.0, 1_200.0),
            SensorKind::ForwardCamera(_) => (900.0, 2_600.0),
            SensorKind::SurroundCamera(_) => (300.0, 2_000.0),
            SensorKind::Lidar => (200.0, 3_000.0),
        };
        let mut ask = |part: usize, value: f64, range: Range| {
            if value.is_finite() && !range.holds(value) {
                let found_text = format!("{}{}", number(value), range.unit);
                found.push(Fault {
                    field: format!("sensors[{i}].at_mm[{part}]"),
                    found: found_text,
                    allowed: range.allowed(),
                });
            }
        };
        ask(2, sensor.at.z, usual(low, high, " mm"));
        if matches!(sensor.kind, SensorKind::ForwardRadar(_)) {
            ask(1, sensor.at.y, usual(-500.0, 500.0, " mm"));
        }
    }
    for (i, aiming) in car.aimings.iter().enumerate() {
        let path = format!("aimings[{i}]");
        let mut ask = |field: String, value: f64, range: Range| {
            if value.is_finite() && !range.holds(value) {
                let found_text = format!("{}{}", number(value), range.unit);
                found.push(Fault {
                    field: format!("{path}.{field}"),
                    found: found_text,
                    allowed: range.allowed(),
                });
            }
        };
        for (field, radians) in
            [("azimuth_deg", aiming.tolerance.azimuth), ("elevation_deg", aiming.tolerance.elevation)]
        {
            let degrees = (angle::degrees(radians) * 1e6).round() / 1e6;
            ask(format!("tolerance.{field}"), degrees, usual(0.02, 3.0, "°"));
        }
        for (j, placement) in aiming.placements.iter().enumerate() {
            let field = format!("placements[{j}]");
            ask(
                format!("{field}.stand_off.distance_mm"),
                placement.stand_off.distance,
                usual(500.0, 12_000.0, " mm"),
            );
            if let TargetHeight::Absolute(height) = placement.height {
                ask(format!("{field}.height.height_mm"), height, usual(150.0, 2_500.0, " mm"));
            }
        }
    }
    found
}

/// Lengths that differ by less are the same: no tape shows it.
const SAME_MM: f64 = 0.5;

/// What a form refuses beside what is no sound vehicle at all: a sensor outside the body. Files may hold more, since an
/// older program wrote them.
pub fn refused(car: &Vehicle) -> Vec<Fault> {
    let mut found = Vec::new();
    let half = car.width.max(car.mirrors.width) * 0.5 + STICKS_OUT_MM;
    let ranges = [
        usual(car.rear() - STICKS_OUT_MM, car.front() + STICKS_OUT_MM, " mm"),
        usual(-half, half, " mm"),
        usual(50.0, car.height + ABOVE_ROOF_MM, " mm"),
    ];
    for (i, sensor) in car.sensors.iter().enumerate() {
        for (part, (value, range)) in sensor.at.to_array().into_iter().zip(ranges).enumerate() {
            if !range.holds(value) {
                found.push(Fault {
                    field: format!("sensors[{i}].at_mm[{part}]"),
                    found: format!("{} mm, outside the body", number(value)),
                    allowed: range.allowed(),
                });
            }
        }
    }
    found
}
