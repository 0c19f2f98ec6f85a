//! Distances of what is in hand, by figures worked out by hand.

use baywright_planner::geometry::{DVec2, PlanPose, angle};
use baywright_planner::hand::{Gap, gaps};
use baywright_planner::model::*;
use baywright_planner::{Scene, Subject};

use crate::support::*;

fn told(arrangement: &Arrangement, subject: &Subject) -> Vec<Gap> {
    gaps(arrangement, &Scene::of(arrangement), subject, 9)
}

fn wall(name: &str) -> Subject {
    Subject::Wall(name.into())
}

fn thing(name: &str) -> Subject {
    Subject::Thing(name.into())
}

/// What each distance is to, and how long it is.
fn figures(arrangement: &Arrangement, subject: &Subject) -> Vec<(Subject, f64)> {
    told(arrangement, subject).into_iter().map(|gap| (gap.what, gap.distance_mm)).collect()
}

/// From 7550 to 8450 and from 4250 to 4700.
fn cabinet_at_8000() -> Thing {
    cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0)
}

#[test]
fn the_car_alone_has_four_walls() {
    // From x = 600 to 4850 and from y = 2100 to 3900. The target on its mark goes along, so that it is in no way.
    let gaps = told(&clear(), &Subject::Car);
    let expected = [
        (wall("near wall"), (600.0, 3_000.0), (0.0, 3_000.0), 600.0),
        (wall("left wall"), (2_725.0, 3_900.0), (2_725.0, 6_000.0), 2_100.0),
        (wall("right wall"), (2_725.0, 2_100.0), (2_725.0, 0.0), 2_100.0),
        (wall("far wall"), (4_850.0, 3_000.0), (12_000.0, 3_000.0), 7_150.0),
    ];
    let expected = expected.map(|(what, from, to, distance)| Gap {
        from: from.into(),
        to: to.into(),
        distance_mm: distance,
        what,
    });
    assert_eq!(gaps, expected);
}

#[test]
fn a_target_that_was_put_somewhere_stays_there() {
    let mut arrangement = clear();
    let place = PlanPose::new(DVec2::new(8_800.0, 3_000.0), std::f64::consts::PI);
    arrangement.stands = vec![StandSet::At { place, height_mm: 500.0, pitch_rad: 0.0 }];
    // The target's face stands before its feet; the mast, 100 mm above the car, is hit by nothing.
    let ahead = figures(&arrangement, &Subject::Car).pop().unwrap();
    assert_eq!(ahead, (Subject::Stand("ahead".into()), 3_950.0));
}

#[test]
fn only_so_many_and_the_nearest_first() {
    let arrangement = with(vec![cabinet_at_8000()]);
    let scene = Scene::of(&arrangement);
    let all = gaps(&arrangement, &scene, &thing("cabinet"), 9);
    assert!(all.is_sorted_by(|a, b| a.distance_mm <= b.distance_mm));
    for most in 0..all.len() {
        assert_eq!(gaps(&arrangement, &scene, &thing("cabinet"), most), all[..most]);
    }
}

#[test]
fn what_stands_before_a_wall_comes_in_its_place() {
    let shelf = cabinet("shelf", (8_300.0, 5_500.0), 900.0, 450.0);
    let arrangement = with(vec![cabinet_at_8000(), shelf]);
    // To the left the shelf at y = 5275, to the right nothing stands but the wall, ahead and behind only walls. The feet of
    // the stand, from x = 8820 and up to y = 3300, are the nearest beside the shelf.
    let expected = [
        (thing("shelf"), 575.0),
        (wall("far wall"), 3_550.0),
        (wall("right wall"), 4_250.0),
        (wall("near wall"), 7_550.0),
    ];
    assert_eq!(figures(&arrangement, &thing("cabinet")), expected);
    let gap = &told(&arrangement, &thing("cabinet"))[0];
    // In the middle of what both share: x from 7850 to 8450 straight, or anywhere there for the shortest.
    assert!(gap.from.x >= 7_850.0 && gap.from.x <= 8_450.0 && gap.from.x == gap.to.x, "{gap:?}");
}

#[test]
fn the_nearest_may_stand_slantwise() {
    let mut arrangement = with(vec![cabinet_at_8000(), column("column", (9_000.0, 5_500.0), 300.0)]);
    // From its corner (8450, 4700) to the rim: hypot(550, 800) - 150.
    let gap =
        told(&arrangement, &thing("cabinet")).into_iter().find(|gap| gap.what == thing("column")).unwrap();
    let expected = 550.0_f64.hypot(800.0) - 150.0;
    assert!((gap.distance_mm - expected).abs() < 1e-9 && gap.from == DVec2::new(8_450.0, 4_700.0), "{gap:?}");
    // A lamp overhead is no neighbour and in no way to the wall.
    arrangement.bay.things[1].span = span(2_500.0, 2_600.0);
    arrangement.bay.things[1].place.at = PlanPose::new(DVec2::new(8_000.0, 5_500.0), 0.0);
    let figures = figures(&arrangement, &thing("cabinet"));
    assert!(figures.contains(&(wall("left wall"), 1_300.0)), "{figures:?}");
    assert!(figures.iter().all(|(what, _)| *what != thing("column")), "{figures:?}");
}

#[test]
fn a_round_thing_meets_with_its_rim() {
    let mut arrangement =
        with(vec![column("drum", (3_000.0, 4_600.0), 600.0), column("post", (3_400.0, 5_600.0), 200.0)]);
    arrangement.parked = PlanPose::new(DVec2::new(9_000.0, 3_000.0), 0.0);
    arrangement.aiming.placements.clear();
    arrangement.stands.clear();
    // Straight left: the middles are 400 apart across, 1000 along; the discs touch 400 apart when they are 0 apart along.
    let gaps = told(&arrangement, &thing("drum"));
    let expected = 400.0_f64.hypot(1_000.0) - 400.0;
    assert!((gaps[0].distance_mm - expected).abs() < 1e-9 && gaps[0].what == thing("post"), "{gaps:?}");
    assert!(
        (gaps[1].distance_mm - 1_100.0).abs() < 1e-9 && gaps[1].what == wall("left wall"),
        "clear of it: {gaps:?}"
    );
    arrangement.bay.things[1].place.at = PlanPose::new(DVec2::new(3_240.0, 5_600.0), 0.0);
    let gaps = told(&arrangement, &thing("drum"));
    // 240 apart across: straight left they touch after 1000 - √(400² - 240²) = 680, but nearer still slantwise.
    let expected = 240.0_f64.hypot(1_000.0) - 400.0;
    assert!((gaps[0].distance_mm - expected).abs() < 1e-9, "{gaps:?}");
    assert!(!gaps.iter().any(|gap| gap.what == wall("left wall")), "it stands in the way: {gaps:?}");
}

#[test]
fn what_is_touched_or_in_has_no_distance() {
    // Against the left wall, flush with a shelf on its right hand side, and inside another.
    let flush = cabinet("flush", (8_900.0, 5_775.0), 900.0, 450.0);
    let around = Thing { span: span(1_000.0, 2_000.0), ..cabinet("over", (8_000.0, 5_700.0), 400.0, 600.0) };
    let arrangement = with(vec![cabinet("own", (8_000.0, 5_775.0), 900.0, 450.0), flush, around]);
    // Ahead it is flush: nothing to say, and not to the wall behind that either. Of what is over it nothing.
    let figures = figures(&arrangement, &thing("own"));
    assert_eq!(
        figures.iter().map(|(what, _)| what.clone()).collect::<Vec<_>>(),
        [Subject::Stand("ahead".into()), wall("right wall"), wall("near wall")]
    );
}

#[test]
fn what_only_grazes_is_passed() {
    // Its right side is in one line with the neighbour's left side.
    let beside = cabinet("beside", (10_000.0, 4_025.0), 900.0, 450.0);
    let arrangement = with(vec![cabinet_at_8000(), beside]);
    let ahead = figures(&arrangement, &thing("cabinet"));
    assert!(ahead.contains(&(wall("far wall"), 3_550.0)), "{ahead:?}");
    let mut arrangement = arrangement;
    arrangement.bay.things[1].place.at = PlanPose::new(DVec2::new(10_000.0, 4_025.1), 0.0);
    let ahead = figures(&arrangement, &thing("cabinet"));
    assert!(!ahead.iter().any(|(what, _)| *what == wall("far wall")), "{ahead:?}");
}

#[test]
fn directions_are_the_cars() {
    let mut arrangement = with(vec![cabinet_at_8000()]);
    let turn = angle::radians(30.0);
    arrangement.parked = PlanPose::new(DVec2::new(3_000.0, 2_500.0), turn);
    arrangement.stands = vec![StandSet::At {
        place: PlanPose::new(DVec2::new(500.0, 500.0), 0.0),
        height_mm: 500.0,
        pitch_rad: 0.0,
    }];
    for gap in told(&arrangement, &thing("cabinet")) {
        let Subject::Wall(id) = &gap.what else { continue };
        let by = Scene::of(&arrangement).in_car_directions(gap.to - gap.from);
        assert!(by.x.abs() < 1e-9 || by.y.abs() < 1e-9, "{gap:?} runs {by}");
        // From the corner that is nearest that way: ahead (8450, 4250 or 4700) up to y = 6000 or x = 12000.
        let expected = match id.as_str() {
            "left wall" => 1_300.0 / turn.cos(),
            "right wall" => 4_250.0 / turn.cos(),
            "far wall" => 3_550.0 / turn.cos(),
            _ => 7_550.0 / turn.cos(),
        };
        assert!(gap.distance_mm <= expected + 1e-9, "{gap:?}, {expected}");
    }
}

#[test]
fn outside_the_room_no_wall_is_near() {
    let arrangement = with(vec![cabinet("cabinet", (13_000.0, 3_000.0), 900.0, 450.0)]);
    let figures = figures(&arrangement, &thing("cabinet"));
    assert_eq!(figures, [(Subject::Stand("ahead".into()), 13_000.0 - 450.0 - 9_300.0)]);
    let through = with(vec![cabinet("cabinet", (12_000.0, 5_000.0), 900.0, 450.0)]);
    let walls: Vec<Subject> = told(&through, &thing("cabinet")).into_iter().map(|gap| gap.what).collect();
    assert!(!walls.contains(&wall("far wall")) && walls.contains(&wall("left wall")), "{walls:?}");
}
