//! What is on the floor, by hand.

use baywright_planner::matrix::Line;
use baywright_planner::model::{AimError, PlaceTolerance, ReferenceAxis, TargetKind};
use baywright_planner::permanent::{Asked, Direction, How, PointOf, Proposal, Stay, proposed};

use crate::made::{line, two};
use crate::support::*;

pub fn of(lines: &[Line]) -> Proposal {
    proposed(lines, &Asked::of(&lines[0].arrangement.shop), &|| false, &mut |_| {})
}

/// A room of some size with nothing in it and no levels.
pub fn in_room(mut own: Arrangement, size: (f64, f64)) -> Arrangement {
    own.bay.room = rectangle((0.0, 0.0), size);
    own.bay.survey = None;
    own
}

/// One car that is aimed ahead and behind from one spot: one line under its middle, one under its front axle, one point under its rear
/// axle. All of it lies on the lines of the car as it is parked, and each distance is that of a point to a wall's line.
#[test]
fn two_aimings_of_one_car_share_their_lines() {
    let lines: Vec<Line> = two().map(|own| line(in_room(own, (14_000.0, 6_000.0)))).into();
    let Proposal { parked, floor } = of(&lines);
    assert_eq!((parked.places.len(), parked.how, parked.is_partial), (1, How::Fewest, false));
    assert!(parked.without.is_empty());
    let place = &parked.places[0];
    assert_eq!(place.serves.iter().map(|own| own.0).collect::<Vec<_>>(), [0, 1]);
    assert_eq!((floor.lines.len(), floor.points.len()), (2, 5));
    let in_car = |nth: usize| place.pose.inverse() * floor.points[nth].at;
    for (nth, of) in [
        PointOf::LineEnd { is_ahead: false },
        PointOf::LineEnd { is_ahead: true },
        PointOf::AxleEnd { is_left: true },
        PointOf::AxleEnd { is_left: false },
        PointOf::RearAxle { wheelbase_mm: 2_600.0 },
    ]
    .into_iter()
    .enumerate()
    {
        assert_eq!(floor.points[nth].of, of);
    }
    assert_eq!(floor.lines.iter().map(|own| own.ends).collect::<Vec<_>>(), [[0, 1], [2, 3]]);
    for nth in [0, 1, 4] {
        assert!(in_car(nth).y.abs() < 1e-6, "{nth}: {}", in_car(nth));
    }
    for nth in [2, 3] {
        assert!(in_car(nth).x.abs() < 1e-6, "{nth}: {}", in_car(nth));
    }
    // Half a width of 900 mm and 300 more; a metre behind the rear at -3 400; half a metre past the target at 800 + 4 000.
    assert!((in_car(2).y - 1_200.0).abs() < 1e-6 && (in_car(3).y + 1_200.0).abs() < 1e-6);
    assert!((in_car(0).x + 4_400.0).abs() < 1e-6, "{}", in_car(0));
    assert!((in_car(1).x - 5_300.0).abs() < 1e-6, "{}", in_car(1));
    assert!((in_car(4).x + 2_600.0).abs() < 1e-6);
    let bay = &lines[0].arrangement.bay;
    let names: Vec<_> = floor.points[0].walls.clone().unwrap().map(|own| own.wall).into();
    for point in &floor.points {
        let walls = point.walls.as_ref().unwrap();
        for own in walls {
            let nth = bay.walls.iter().position(|wall| wall.id == own.wall).unwrap();
            let edge = bay.room.edges().nth(nth).unwrap();
            let along = (edge.to - edge.from).normalize();
            assert!((along.perp_dot(point.at - edge.from) - own.mm).abs() < 1e-9, "{point:?}");
        }
        assert_eq!(walls.clone().map(|own| own.wall).to_vec(), names, "all from the same two");
        assert!(point.lies_on.is_none() && point.within_mm >= 1.0 && point.at == point.at.round());
    }
}

/// A plate 4 800 mm before the front axle that may be 10 mm off: a third is 3.33 mm, and a car whose axles, 2 600 mm apart, are each off
/// by one is off there by 1 + 2 · 4 800 / 2 600: 0.71 mm, finer than a tape. One that may be 40 mm off leaves the car 2.84 mm and the
/// lines 13.33 / √2. It aims by its squareness, 0.1°: a third of that over the wheelbase leaves each axle 0.76 mm.
#[test]
fn a_mark_stays_if_a_tape_is_fine_enough() {
    let with = |change: &dyn Fn(&mut Arrangement)| {
        let [mut own, _] = two().map(|own| in_room(own, (14_000.0, 6_000.0)));
        change(&mut own);
        of(&[line(own)])
    };
    let told = with(&|_| {});
    let needs = 10.0 / 3.0 / (1.0 + 2.0 * 4_800.0 / 2_600.0);
    let Stay::TooFine { needs_mm } = told.floor.targets[0].stay else { panic!("{:?}", told.floor.targets) };
    assert!((needs_mm - needs).abs() < 1e-9, "{needs_mm}");
    assert!(!told.floor.points.iter().any(|own| matches!(own.of, PointOf::Target { .. })));
    let rough = |own: &mut Arrangement| {
        own.aiming.placements[0].tolerance =
            PlaceTolerance { along_mm: Some(40.0), across_mm: Some(40.0), ..Default::default() };
    };
    let told = with(&rough);
    let Stay::Stays { car_mm, direction } = told.floor.targets[0].stay else { panic!() };
    assert!((car_mm - 4.0 * needs).abs() < 1e-9 && direction == Direction::FromWheels, "{car_mm}");
    let marks: Vec<_> =
        told.floor.points.iter().filter(|own| matches!(own.of, PointOf::Target { .. })).collect();
    assert_eq!(marks.len(), 1);
    assert_eq!(marks[0].serves[0].mark, Some("T".into()));
    // A third of 40 is more than any line is laid worse.
    assert!((marks[0].within_mm - 10.0).abs() < 1e-9);
    let line_mm = told.floor.points[0].within_mm;
    assert!((line_mm - (40.0 / 3.0 / 2.0_f64.sqrt() * 10.0).floor() / 10.0).abs() < 1e-9, "{line_mm}");
    let pose = told.parked.places[0].pose;
    assert!((pose.inverse() * marks[0].at).distance(DVec2::new(4_800.0, 0.0)) < 1e-6);
    // Of a degree a third leaves each axle 7.6 mm; the ends of the join, 2 040 mm apart, 5.9 mm.
    let told = with(&|own| {
        rough(own);
        own.aiming.tolerance.azimuth_rad = angle::radians(1.0);
    });
    let Stay::Stays { car_mm, direction } = told.floor.targets[0].stay else { panic!() };
    assert!((car_mm - 4.0 * needs).abs() < 1e-9 && direction == Direction::Stays);
    let marks: Vec<_> =
        told.floor.points.iter().filter(|own| matches!(own.of, PointOf::Target { .. })).collect();
    assert_eq!(marks.len(), 3);
    let of_join = (angle::radians(1.0) / 3.0 * 2_040.0 / 2.0 * 10.0).floor() / 10.0;
    assert!(marks[1..].iter().all(|own| (own.within_mm - of_join).abs() < 1e-9), "{of_join} {marks:?}");
    // What follows this very car's thrust line stays nowhere; and of a reflector no direction is asked.
    let told = with(&|own| {
        rough(own);
        own.aiming.axis = ReferenceAxis::ThrustLine;
        own.on_this_car.rear_toe = RearToe::of(0.0, 0.0);
    });
    assert_eq!(told.floor.targets[0].stay, Stay::ThrustLine);
    let told = with(&|own| {
        own.aiming.tolerance.azimuth_rad = angle::radians(1.0);
        own.aiming.placements[0].target = target(TargetKind::CornerReflector, AimError::PLACE);
        rough(own);
    });
    let Stay::Stays { direction, .. } = told.floor.targets[0].stay else { panic!() };
    assert_eq!(direction, Direction::NotAsked);
}

/// Cars of one wheelbase share the point under their rear axles, however wide; one 200 mm longer has its own.
#[test]
fn a_point_for_each_wheelbase() {
    let [_, own] = two().map(|own| in_room(own, (14_000.0, 6_000.0)));
    let mut wide = own.clone();
    (wide.vehicle.width_mm, wide.vehicle.track_front_mm, wide.vehicle.track_rear_mm) =
        (1_900.0, 1_600.0, 1_620.0);
    let mut long = own.clone();
    long.vehicle.wheelbase_mm = 2_800.0;
    let told = of(&[line(own), line(wide), line(long)]);
    let rear: Vec<_> =
        told.floor.points.iter().filter(|own| matches!(own.of, PointOf::RearAxle { .. })).collect();
    assert_eq!(told.parked.places.len(), 1);
    assert_eq!((rear.len(), rear[0].serves.len(), rear[1].serves.len()), (2, 2, 1));
    assert!((rear[0].at.distance(rear[1].at) - 200.0).abs() < 1e-6);
    assert_eq!(told.floor.lines.len(), 2);
    // Beside the widest.
    let pose = told.parked.places[0].pose;
    assert!(((pose.inverse() * told.floor.points[2].at).y - 1_250.0).abs() < 1e-6);
}

/// Ahead 5 800 mm and behind 6 000 mm do not both go into 10 500 mm: two places, of which no line is one but that on which both stand.
#[test]
fn two_that_need_two_places() {
    let [ahead, mut back] = two().map(|own| in_room(own, (10_500.0, 4_600.0)));
    back.aiming.zones[0].outline = rectangle((-6_000.0, -1_500.0), (-3_500.0, 1_500.0)).into();
    let told = of(&[line(ahead), line(back)]);
    assert_eq!((told.parked.places.len(), told.parked.how), (2, How::Fewest));
    let apart = told.parked.places[0].pose.inverse() * told.parked.places[1].pose.origin();
    let is_one_line = apart.y.abs() <= 1.0;
    assert_eq!(told.floor.lines.len(), if is_one_line { 3 } else { 4 }, "{apart}");
    assert!(told.floor.points.iter().any(|own| own.place == 1));
}

/// In a room that is too small for one, that is told, and the other is served.
#[test]
fn what_is_served_nowhere_is_told() {
    let [ahead, back] = two().map(|own| in_room(own, (8_000.0, 4_600.0)));
    let told = of(&[line(ahead), line(back)]);
    assert_eq!((told.parked.places.len(), told.parked.without.clone()), (1, vec![0]));
    assert_eq!(of(&[line(in_room(clear(), (5_000.0, 3_000.0)))]).floor.points, []);
}
