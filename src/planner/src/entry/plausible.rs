//! What is allowed and yet unlikely, or allowed in a file and not in a form: the slips that a hand makes.
//!
//! Limits refuse what no car has; this warns of what hardly any has. All ranges are common practice, no source: they are
//! only ever a question, "is this right?".

use baywright_geometry::angle;

use crate::model::fault::{Allowed, Fault, Found};
use crate::model::validate::limits::{LENGTH_SLACK_MM, Range, Unit};
use crate::model::{SensorKind, TargetHeight, Vehicle};

const fn usual(low: f64, high: f64) -> Range {
    Range { low, high, above: false, unit: Unit::Millimetres }
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
    for (part, field, value, low, high) in [
        (P::Length, "length_mm", car.length_mm, 2_400.0, 7_500.0),
        (P::Width, "width_mm", car.width_mm, 1_400.0, 2_300.0),
        (P::Height, "height_mm", car.height_mm, 1_100.0, 3_200.0),
        (P::Wheelbase, "wheelbase_mm", car.wheelbase_mm, 1_800.0, 4_600.0),
        (P::OverhangFront, "overhang_front_mm", car.overhang_front_mm, 300.0, 1_400.0),
        (P::OverhangRear, "overhang_rear_mm", car.overhang_rear_mm, 300.0, 2_200.0),
        (P::TrackFront, "track_front_mm", car.track_front_mm, 1_200.0, 1_900.0),
        (P::TrackRear, "track_rear_mm", car.track_rear_mm, 1_200.0, 1_900.0),
        (P::TyreDiameter, "tyre_diameter_mm", car.tyre_diameter_mm, 500.0, 900.0),
        (P::TyreWidth, "tyre_width_mm", car.tyre_width_mm, 125.0, 345.0),
        (P::GroundClearance, "ground_clearance_mm", car.ground_clearance_mm, 80.0, 320.0),
    ] {
        if !car.is_assumed(part) {
            ask(&mut found, format!("body.{field}"), value, usual(low, high));
        }
    }
    let sum = car.wheelbase_mm + car.overhang_front_mm + car.overhang_rear_mm;
    let off = (sum - car.length_mm).abs();
    // More is refused at the door.
    if off > SAME_MM && off <= LENGTH_SLACK_MM {
        found.push(Fault {
            field: "body.length_mm".to_owned(),
            found: Found::LengthAndSum { length: car.length_mm, sum },
            allowed: Allowed::SameLength,
        });
    }
    for (i, sensor) in car.sensors.iter().enumerate() {
        let (low, high) = match sensor.kind {
            SensorKind::ForwardRadar(_) | SensorKind::CornerRadar(_) => (200.0, 1_200.0),
            SensorKind::ForwardCamera(_) => (900.0, 2_600.0),
            SensorKind::SurroundCamera(_) => (300.0, 2_000.0),
            SensorKind::Lidar => (200.0, 3_000.0),
        };
        let at = format!("sensors[{i}].at_mm");
        ask(&mut found, format!("{at}[2]"), sensor.at.z, usual(low, high));
        let edges = [
            ("lower_below_mm", sensor.edges.lower_below_mm),
            ("upper_above_mm", sensor.edges.upper_above_mm),
        ];
        for (field, edge) in edges {
            if let Some(edge) = edge {
                ask(&mut found, format!("sensors[{i}].edges.{field}"), edge, usual(10.0, 150.0));
            }
        }
        if matches!(sensor.kind, SensorKind::ForwardRadar(_)) {
            ask(&mut found, format!("{at}[1]"), sensor.at.y, usual(-500.0, 500.0));
        }
    }
    for (i, aiming) in car.aimings.iter().enumerate() {
        let path = format!("aimings[{i}]");
        let mut ask = |field: String, value: f64, range: Range| {
            ask(&mut found, format!("{path}.{field}"), value, range);
        };
        for (field, radians) in
            [("azimuth_deg", aiming.tolerance.azimuth_rad), ("elevation_deg", aiming.tolerance.elevation_rad)]
        {
            let degrees = (angle::degrees(radians) * 1e6).round() / 1e6;
            ask(
                format!("tolerance.{field}"),
                degrees,
                Range { low: 0.02, high: 3.0, above: false, unit: Unit::Degrees },
            );
        }
        if let Some(floor) = aiming.floor {
            ask("floor.level_mm".to_owned(), floor.level_mm, usual(0.5, 50.0));
        }
        for (j, placement) in aiming.placements.iter().enumerate() {
            let field = format!("placements[{j}]");
            ask(
                format!("{field}.stand_off.distance_mm"),
                placement.stand_off.distance_mm,
                usual(500.0, 12_000.0),
            );
            if let TargetHeight::Absolute(height) = placement.height {
                ask(format!("{field}.height.height_mm"), height, usual(150.0, 2_500.0));
            }
        }
    }
    found
}

/// A number that is not what is usual; what is none at all is refused elsewhere.
fn ask(faults: &mut Vec<Fault>, field: String, value: f64, range: Range) {
    if value.is_finite() && !range.holds(value) {
        faults.push(Fault { field, found: Found::Number(value, range.unit), allowed: Allowed::In(range) });
    }
}

/// Lengths that differ by less are the same: no tape shows it.
const SAME_MM: f64 = 0.5;

/// What a form refuses beside what is no sound vehicle at all: a sensor outside the body. Files may hold more, since an
/// older program wrote them.
pub fn refused(car: &Vehicle) -> Vec<Fault> {
    let mut found = Vec::new();
    let half = car.width_mm.max(car.mirrors.width_mm) * 0.5 + STICKS_OUT_MM;
    let ranges = [
        usual(car.rear() - STICKS_OUT_MM, car.front() + STICKS_OUT_MM),
        usual(-half, half),
        usual(50.0, car.height_mm + ABOVE_ROOF_MM),
    ];
    for (i, sensor) in car.sensors.iter().enumerate() {
        for (part, (value, range)) in sensor.at.to_array().into_iter().zip(ranges).enumerate() {
            if !range.holds(value) {
                found.push(Fault {
                    field: format!("sensors[{i}].at_mm[{part}]"),
                    found: Found::OutsideBody(value),
                    allowed: Allowed::In(range),
                });
            }
        }
    }
    found
}
