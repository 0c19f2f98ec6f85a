//! What the hand does: distances, snaps, sizes, against figures worked out by hand and against dense walking.

use baywright_planner::assessment::Subject;
use baywright_planner::geometry::distance::Separation;
use baywright_planner::geometry::{DVec2, PlanPose, angle, distance, overlaps};
use baywright_planner::hand::{
    SnapKind, gap_to_wall, gaps, lies_on, measured, measuring_point, own_outlines, pose_of, resized, snapped,
    squared, wall_gaps,
};
use baywright_planner::model::{Arrangement, PermanentMark, Place, Shape, Thing};
use baywright_planner::{Scene, assess};
use proptest::prelude::*;

use crate::support::{cabinet, column, with};

fn thing(name: &str) -> Subject {
    Subject::Thing(name.into())
}

fn scene(arrangement: &Arrangement) -> Scene {
    assess(arrangement).scene
}

/// A cabinet of 900 by 450 at (7000, 4000): 2 000 mm and a bit to everything around it.
fn alone() -> Arrangement {
    with(vec![
        cabinet("cabinet", (9_000.0, 4_800.0), 900.0, 450.0),
        cabinet("other", (11_000.0, 4_800.0), 400.0, 450.0),
    ])
}

#[test]
fn distances_run_straight_to_the_nearest_thing_or_wall() {
    let arrangement = alone();
    let found = gaps(&arrangement, &scene(&arrangement), &thing("cabinet"), 4);
    let to = |what: &Subject| found.iter().find(|gap| gap.what == *what).map(|gap| gap.distance_mm);
    // 6000 - 4800 - 225; 11000 - 200 - 9450; 4800 - 225 to the right wall, past the beam; behind it nothing but the wall.
    assert_eq!(to(&Subject::Wall("left wall".into())), Some(975.0));
    assert_eq!(to(&thing("other")), Some(1_350.0));
    assert_eq!(to(&Subject::Wall("near wall".into())), Some(8_550.0));
    assert!(found.windows(2).all(|pair| pair[0].distance_mm <= pair[1].distance_mm));
    // Face to face the distance stands in the middle.
    let gap = found.iter().find(|gap| gap.what == thing("other")).unwrap();
    assert!((gap.from - DVec2::new(9_450.0, 4_800.0)).length() < 1e-9, "{gap:?}");
    assert!((gap.to - DVec2::new(10_800.0, 4_800.0)).length() < 1e-9, "{gap:?}");
}

#[test]
fn what_hangs_above_is_no_neighbour_and_what_overlaps_has_no_distance() {
    let mut lamp = cabinet("lamp", (10_000.0, 4_800.0), 400.0, 400.0);
    lamp.span = crate::support::span(2_000.0, 2_500.0);
    let arrangement = with(vec![
        cabinet("cabinet", (9_000.0, 4_800.0), 900.0, 450.0),
        lamp,
        column("drum", (9_400.0, 4_800.0), 300.0),
    ]);
    let found = gaps(&arrangement, &scene(&arrangement), &thing("cabinet"), 4);
    assert!(found.iter().all(|gap| gap.what != thing("lamp") && gap.what != thing("drum")), "{found:?}");
}

#[test]
fn walls_are_taped_square_to_the_nearest_part() {
    let arrangement = alone();
    let scene = scene(&arrangement);
    let walls = wall_gaps(&arrangement, &scene, &thing("cabinet"));
    let names: Vec<(&str, f64)> = walls.iter().map(|wall| (wall.id.as_str(), wall.gap_mm)).collect();
    assert_eq!(names, [("left wall", 975.0), ("far wall", 2_550.0)]);
    assert_eq!(gap_to_wall(&arrangement, &scene, &thing("cabinet"), 3).unwrap().gap_mm, 8_550.0);
    assert_eq!(gap_to_wall(&arrangement, &scene, &thing("cabinet"), 9), None);
    assert_eq!(gap_to_wall(&arrangement, &scene, &Subject::Floor, 0), None);
}

#[test]
fn a_corner_pulls_in_both_directions_and_a_mark_outdoes_it() {
    let mut arrangement = alone();
    let subject = thing("cabinet");
    let wanted = PlanPose::new(DVec2::new(11_530.0, 5_790.0), 0.0);
    arrangement.bay.things.pop();
    let snap = snapped(&arrangement, &scene(&arrangement), &subject, wanted, 60.0);
    assert_eq!(snap.place.origin(), DVec2::new(11_550.0, 5_775.0));
    assert_eq!(snap.onto.len(), 2);
    arrangement.bay.marks = vec![PermanentMark::new("A".into(), DVec2::new(11_540.0, 5_790.0))];
    let snap = snapped(&arrangement, &scene(&arrangement), &subject, wanted, 60.0);
    assert_eq!(snap.place.origin(), DVec2::new(11_540.0, 5_790.0));
    assert_eq!(snap.onto[0].kind, SnapKind::Mark("A".into()));
    // Held off, nothing pulls.
    let free = snapped(&arrangement, &scene(&arrangement), &subject, wanted, 0.0);
    assert_eq!((free.place, free.onto.len()), (wanted, 0));
}

#[test]
fn a_stand_finds_its_place_and_the_car_a_permanent_mark() {
    let mut arrangement = with(vec![]);
    let stand = Subject::Stand("ahead".into());
    let meant = scene(&arrangement).targets[0].meant.place;
    let wanted = PlanPose::new(meant.origin() + DVec2::new(20.0, -15.0), meant.heading());
    let snap = snapped(&arrangement, &scene(&arrangement), &stand, wanted, 40.0);
    assert_eq!(snap.place.origin(), meant.origin());
    assert_eq!(snap.onto[0].kind, SnapKind::Place("ahead".into()));
    // The front left wheel point: 770 mm to the left of the front axle's middle.
    arrangement.bay.marks = vec![PermanentMark::new("B".into(), DVec2::new(4_100.0, 3_900.0))];
    let wanted = PlanPose::new(DVec2::new(4_110.0, 3_120.0), 0.0);
    let snap = snapped(&arrangement, &scene(&arrangement), &Subject::Car, wanted, 40.0);
    assert!((snap.place.origin() - DVec2::new(4_100.0, 3_130.0)).length() < 1e-9, "{:?}", snap.place);
}

#[test]
fn edges_come_in_line_with_those_of_other_things() {
    let arrangement = with(vec![
        cabinet("cabinet", (9_000.0, 4_000.0), 900.0, 450.0),
        cabinet("other", (10_400.0, 4_700.0), 400.0, 800.0),
    ]);
    // Its upper edge at 4000 + 225 + 860 = 5085, the other's at 5100.
    let wanted = PlanPose::new(DVec2::new(9_003.0, 4_860.0), 0.0);
    let snap = snapped(&arrangement, &scene(&arrangement), &thing("cabinet"), wanted, 50.0);
    assert_eq!(snap.place.origin(), DVec2::new(9_003.0, 4_875.0));
    assert_eq!(snap.onto[0].kind, SnapKind::Edge(thing("other")));
}

#[test]
fn headings_come_square_to_walls_and_car_exactly() {
    let mut arrangement = alone();
    arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_000.0), angle::radians(20.0));
    let scene = scene(&arrangement);
    let degrees = |wanted: f64, subject: &Subject| {
        angle::degrees(squared(&arrangement, &scene, subject, angle::radians(wanted), angle::radians(3.0)))
    };
    assert!(degrees(88.0, &thing("cabinet")) - 90.0 == 0.0);
    assert!((degrees(22.0, &thing("cabinet")) - 20.0).abs() < 1e-12);
    assert!((degrees(-68.0, &thing("cabinet")) + 70.0).abs() < 1e-12);
    assert!((degrees(22.0, &Subject::Car) - 22.0).abs() < 1e-12);
    assert!((degrees(1.0, &Subject::Car)).abs() < 1e-12);
    assert!((degrees(45.0, &thing("cabinet")) - 45.0).abs() < 1e-12);
}

#[test]
fn a_handle_sizes_and_the_opposite_side_stays() {
    let mut own = cabinet("cabinet", (5_000.0, 4_000.0), 900.0, 450.0);
    own.place.at = PlanPose::new(DVec2::new(5_000.0, 4_000.0), angle::radians(90.0));
    // Turned by 90°, its own x points along the bay's y.
    let (shape, place) = resized(&own, (1, 0), DVec2::new(5_123.0, 4_700.0)).unwrap();
    assert_eq!(shape, Shape::Rectangle { length_mm: 1_150.0, width_mm: 450.0 });
    assert!((place.origin() - DVec2::new(5_000.0, 4_125.0)).length() < 1e-9);
    // Never smaller than a thing may be, however far the hand goes back.
    let (shape, _) = resized(&own, (1, 0), DVec2::new(5_000.0, -9_000.0)).unwrap();
    assert_eq!(shape, Shape::Rectangle { length_mm: 5.0, width_mm: 450.0 });
    assert_eq!(resized(&own, (0, 0), DVec2::ZERO), None);
    let drum = column("drum", (5_000.0, 4_000.0), 300.0);
    let (shape, place) = resized(&drum, (1, 0), DVec2::new(5_400.0, 4_000.0)).unwrap();
    assert_eq!((shape, place), (Shape::Round { diameter_mm: 800.0 }, drum.place.at));
}

#[test]
fn distances_are_measured_in_the_cars_directions_too() {
    let mut arrangement = alone();
    arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_000.0), angle::radians(90.0));
    let found = measured(&scene(&arrangement), DVec2::new(0.0, 0.0), DVec2::new(-300.0, 400.0));
    assert!((found.distance_mm - 500.0).abs() < 1e-9);
    assert!((found.ahead_mm - 400.0).abs() < 1e-9 && (found.left_mm - 300.0).abs() < 1e-9, "{found:?}");
    let arrangement = alone();
    let near = measuring_point(&arrangement, &scene(&arrangement), DVec2::new(9_455.0, 5_020.0), 30.0);
    let near = near.map(|(at, on)| (at, lies_on(&on)));
    assert_eq!(near, Some((DVec2::new(9_450.0, 5_025.0), thing("cabinet"))));
    assert_eq!(measuring_point(&arrangement, &scene(&arrangement), DVec2::new(2_000.0, 600.0), 30.0), None);
}

/// Things anywhere: turned, touching, tiny, huge, outside the room, in one another.
fn any_thing(name: &'static str) -> impl Strategy<Value = Thing> {
    let size = prop_oneof![Just(5.0), Just(450.0), 5.0..5_000.0_f64];
    let at = prop_oneof![
        (0.0..12_000.0_f64, 0.0..6_000.0_f64),
        (-20_000.0..40_000.0_f64, -20_000.0..40_000.0_f64),
        (Just(6_000.0), Just(3_000.0)),
    ];
    let turned = prop_oneof![Just(0.0), Just(90.0), Just(45.0), -360.0..360.0_f64];
    (size.clone(), size, at, turned, any::<bool>()).prop_map(move |(length, width, at, turned, round)| {
        if round {
            return column(name, at, length);
        }
        let thing = cabinet(name, at, length, width);
        Thing {
            place: Place { at: PlanPose::new(at.into(), angle::radians(turned)), ..thing.place },
            ..thing
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    /// Walking that far is free, a millimetre further is not: the outline then overlaps what was named.
    #[test]
    fn a_gap_is_how_far_it_can_go(
        own in any_thing("own"),
        others in prop::collection::vec(any_thing("other"), 1..4),
    ) {
        let others: Vec<Thing> = others
            .into_iter()
            .enumerate()
            .map(|(i, thing)| Thing { id: format!("other {i}").into(), ..thing })
            .collect();
        let arrangement = with(std::iter::once(own.clone()).chain(others).collect());
        let scene = scene(&arrangement);
        for gap in gaps(&arrangement, &scene, &thing("own"), 4) {
            prop_assert!(gap.distance_mm.is_finite() && gap.distance_mm > 0.0);
            prop_assert!((gap.from.distance(gap.to) - gap.distance_mm).abs() < 1e-6);
            let way = (gap.to - gap.from) / gap.distance_mm;
            let outline = own.prism().outline;
            let Subject::Thing(id) = &gap.what else { continue };
            let placed = arrangement.bay.things.iter().position(|t| t.id == *id).unwrap();
            let other = &scene.things[placed].prism.outline;
            // A circle stands in as a polygon whose sagitta is 0.01 mm at most.
            prop_assert!(!overlaps(&outline.moved(way * (gap.distance_mm - 0.1)), other), "{gap:?}");
            let touched = outline.moved(way * gap.distance_mm);
            let near = match distance(&touched, other) {
                Separation::Apart { gap, .. } => gap < 0.1,
                Separation::Touching { .. } | Separation::Overlapping => true,
            };
            prop_assert!(near, "{gap:?}");
        }
    }

    /// What is drawn onto a wall touches it; nothing is drawn further than the reach in either direction.
    #[test]
    fn a_snap_is_near_and_flush(own in any_thing("own"), at in (0.0..12_000.0_f64, 0.0..6_000.0_f64), reach in 1.0..300.0_f64) {
        let arrangement = with(vec![own.clone(), cabinet("other", (9_000.0, 4_800.0), 900.0, 450.0)]);
        let scene = scene(&arrangement);
        let wanted = PlanPose::new(at.into(), own.place.at.heading());
        let snap = snapped(&arrangement, &scene, &thing("own"), wanted, reach);
        prop_assert_eq!(snap.place.heading(), wanted.heading());
        let shift = snap.place.origin() - wanted.origin();
        // Two lines at 17° at the least: their crossing is at most 1 / sin 17° as far as both together.
        prop_assert!(shift.length() <= reach * 2.0 / 0.29, "{shift} for {reach}");
        prop_assert!(!snap.onto.is_empty() || shift == DVec2::ZERO);
        for onto in &snap.onto {
            if let SnapKind::Wall(id) = &onto.kind {
                let mut moved = arrangement.clone();
                moved.bay.things[0].place.at = snap.place;
                let wall = moved.bay.walls.iter().position(|wall| wall.id == *id).unwrap();
                let gap = gap_to_wall(&moved, &self::scene(&moved), &thing("own"), wall).unwrap().gap_mm;
                prop_assert!(gap.abs() < 1e-6, "{gap}");
            }
        }
    }

    /// The corner opposite the handle stays where it is, whatever the hand does.
    #[test]
    fn sizing_keeps_the_opposite_corner(
        own in any_thing("own"),
        x in -1_i8..=1,
        y in -1_i8..=1,
        to in (-20_000.0..40_000.0_f64, -20_000.0..40_000.0_f64),
    ) {
        let Some((shape, place)) = resized(&own, (x, y), to.into()) else {
            prop_assert!((x, y) == (0, 0));
            return Ok(());
        };
        let corner = |shape: &Shape, place: &PlanPose| match *shape {
            Shape::Rectangle { length_mm: length, width_mm: width } => {
                *place * (DVec2::new(-f64::from(x) * length, -f64::from(y) * width) * 0.5)
            }
            _ => place.origin(),
        };
        prop_assert!(corner(&shape, &place).distance(corner(own.footprint.shape(), &own.place.at)) < 1e-6);
        prop_assert!(shape.outline().is_ok());
    }

    /// Everything has an answer, wherever it is.
    #[test]
    fn nothing_here_fails(own in any_thing("own"), wanted in -1e9..1e9_f64) {
        let arrangement = with(vec![own]);
        let scene = scene(&arrangement);
        for subject in [thing("own"), thing("none"), Subject::Car, Subject::Stand("ahead".into()), Subject::Floor] {
            let known = pose_of(&arrangement, &scene, &subject).is_some();
            prop_assert_eq!(!own_outlines(&arrangement, &scene, &subject).is_empty(), known);
            for wall in wall_gaps(&arrangement, &scene, &subject) {
                prop_assert!(wall.gap_mm.is_finite() && (wall.inward.length() - 1.0).abs() < 1e-12);
            }
            prop_assert!(squared(&arrangement, &scene, &subject, wanted, 0.05).is_finite());
        }
    }
}
