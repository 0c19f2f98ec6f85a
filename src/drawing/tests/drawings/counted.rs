//! What a height and a stand-off are counted from is where their dimensions start.

use baywright_drawing::{Dimension, Drawing, Fit, Lettering, Role, Shape, ViewState, side_view, top_view};
use baywright_planner::geometry::marks::Construction;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::{Arrangement, Datum, Edges, SensorPoint, TargetHeight, Wheel};
use baywright_planner::{Subject, assess};

use super::bay;

type View = fn(&Arrangement, &baywright_planner::Assessment, &ViewState, Fit, &Lettering<'_>) -> Drawing;

fn seen(arrangement: &Arrangement, view: View) -> Drawing {
    let assessment = assess(arrangement);
    view(arrangement, &assessment, &ViewState::default(), Fit::picture(1200.0), &Lettering::default())
}

fn dimensions(drawing: &Drawing) -> Vec<&Dimension> {
    let shapes = drawing.items.iter().map(|item| &item.shape);
    shapes.filter_map(|shape| if let Shape::Dimension(own) = shape { Some(own) } else { None }).collect()
}

/// The texts and tops of the heights of sensor and target.
fn heights(arrangement: &Arrangement) -> Vec<(String, f64)> {
    let drawing = seen(arrangement, side_view);
    let told = dimensions(&drawing).into_iter().map(|own| (own.text.text.clone(), own.to.y));
    told.filter(|(text, _)| text.contains("sensor") || text.contains("plate")).collect()
}

/// The sensor's centre is 520 mm up, its edges at 475 and 565, the line on it at 532.
fn by(point: SensorPoint, offset_mm: f64) -> Arrangement {
    let mut arrangement = bay::empty(false);
    arrangement.sensor.edges =
        Edges { lower_below_mm: Some(45.0), upper_above_mm: Some(45.0), line_above_mm: Some(12.0) };
    arrangement.aiming.placements[0].height = TargetHeight::FromSensor { point, offset_mm };
    arrangement
}

#[test]
fn a_height_starts_at_the_edge_that_is_meant() {
    for (point, offset, told) in [
        (SensorPoint::Centre, 0.0, vec![("520 sensor and plate", 520.0)]),
        (SensorPoint::Centre, 30.0, vec![("520 sensor", 520.0), ("550 plate", 550.0)]),
        (SensorPoint::LowerEdge, 0.0, vec![("475 sensor's lower edge and plate", 475.0)]),
        (
            SensorPoint::LowerEdge,
            30.0,
            vec![("475 sensor's lower edge", 475.0), ("505 plate, 30 above the lower edge", 505.0)],
        ),
        (
            SensorPoint::UpperEdge,
            -20.0,
            vec![("545 plate, 20 below the upper edge", 545.0), ("565 sensor's upper edge", 565.0)],
        ),
        (
            SensorPoint::Line,
            8.0,
            vec![("532 line on the sensor", 532.0), ("540 plate, 8 above the line", 540.0)],
        ),
        // The middle of the face is as high as the sensor's centre, and yet not by it.
        (
            SensorPoint::LowerEdge,
            45.0,
            vec![("475 sensor's lower edge", 475.0), ("520 plate, 45 above the lower edge", 520.0)],
        ),
    ] {
        let mut found = heights(&by(point, offset));
        found.sort_by(|a, b| a.0.cmp(&b.0));
        let expected: Vec<(String, f64)> = told.into_iter().map(|(text, up)| (text.to_owned(), up)).collect();
        assert_eq!(found, expected);
    }
}

#[test]
fn the_sensor_is_drawn_from_edge_to_edge_as_far_as_it_is_known() {
    let rings = |arrangement: &Arrangement| -> Vec<Bounds> {
        let drawing = seen(arrangement, side_view);
        let own = drawing.items.iter().filter(|item| item.role == Role::Sensor);
        assert!(own.clone().all(|item| item.subject == Some(Subject::Sensor)));
        let of = |shape: &Shape| {
            let mut points = Vec::new();
            shape.each_point(|p| points.push(p));
            if matches!(shape, Shape::Sign(_)) { None } else { Bounds::around(points) }
        };
        own.filter_map(|item| of(&item.shape)).collect()
    };
    assert!(rings(&bay::empty(false)).is_empty());
    let whole = rings(&by(SensorPoint::Centre, 0.0));
    assert_eq!(whole.len(), 2, "its face and the line on it");
    assert_eq!((whole[0].low.y, whole[0].high.y), (475.0, 565.0));
    assert!((whole[1].centre().y - 532.0).abs() < 1e-9);
    let mut half = by(SensorPoint::Centre, 0.0);
    half.sensor.edges = Edges { upper_above_mm: Some(45.0), ..Edges::default() };
    let half = rings(&half);
    assert_eq!((half.len(), half[0].low.y, half[0].high.y), (1, 520.0, 565.0));
}

/// The front wheels stand 10 mm apart each way along the car, the left spot twice as far out: worked out in the model's own test.
/// What is drawn starts there, and the line through the spots is drawn.
#[test]
fn a_stand_off_starts_at_the_line_through_the_front_spots() {
    let mut arrangement = bay::empty(false);
    let stand_off = |arrangement: &Arrangement| {
        let drawing = seen(arrangement, top_view);
        let all =
            dimensions(&drawing).into_iter().map(|own| (own.text.text.clone(), own.from.distance(own.to)));
        let told: Vec<_> = all.filter(|(text, _)| text.contains("plate face")).collect();
        let lines = drawing.items.iter().filter(|item| item.role == Role::CentreLine).count();
        (told, lines)
    };
    let from_axle = ("3\u{202f}600 front axle to plate face".to_owned(), 3_600.0);
    let (told, lines) = stand_off(&arrangement);
    assert!(
        told.len() == 1 && told[0].0 == from_axle.0 && (told[0].1 - from_axle.1).abs() < 1e-6,
        "{told:?}"
    );
    assert_eq!(lines, 1);
    arrangement.aiming.placements[0].stand_off.from = Datum::FrontSpots;
    let askew = DVec2::new(10.0, 0.0);
    let [left, right, rear_left, rear_right] = Wheel::ALL.map(|wheel| arrangement.vehicle.wheel_point(wheel));
    arrangement.on_this_car.wheels = Some([left + askew, right - askew, rear_left, rear_right]);
    arrangement.aiming.mark_plan[2].construction =
        Construction::Outboard { wheel: Wheel::FrontLeft, distance: 280.0 };
    let (told, lines) = stand_off(&arrangement);
    assert_eq!(told[0].0, "3\u{202f}600 front spots to plate face");
    assert!((told[0].1 - 3_600.0).abs() < 1e-6);
    assert_eq!(lines, 2, "the axis, and the line through the spots");
}
