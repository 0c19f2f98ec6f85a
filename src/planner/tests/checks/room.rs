//! Walls, doors, ceilings, drains and pits.

use baywright_planner::geometry::{DVec2, PlanPose, Polygon};
use baywright_planner::model::*;
use baywright_planner::{Code, Severity, Step, Subject, assess};

use crate::support::*;

fn parked_at(x: f64) -> Arrangement {
    let mut arrangement = clear();
    arrangement.parked = PlanPose::new(DVec2::new(x, 3_000.0), 0.0);
    arrangement
}

/// The zone ends 5800 mm ahead of the axle, the room at 12 000.
#[test]
fn a_zone_through_the_wall() {
    none(&parked_at(6_200.0), Code::OutsideRoom);
    let found = check(&parked_at(6_300.0), Code::OutsideRoom, Severity::Stops, Some(100.0));
    assert_eq!(found.subjects, [Subject::Zone("beam".into()), Subject::Wall("far wall".into())]);
    assert_eq!(found.cure.unwrap().step, Step::MoveCar { by: DVec2::new(-100.0, 0.0) });
}

/// 5 mm from the wall, which is known to 20 mm.
#[test]
fn a_zone_that_may_reach_into_the_wall() {
    let mut arrangement = parked_at(6_195.0);
    none(&arrangement, Code::ZoneNear);
    arrangement.bay.walls_known = Known::Taped;
    let found = check(&arrangement, Code::ZoneNear, Severity::Care, Some(5.0));
    assert_eq!(found.subjects[0], Subject::Wall("far wall".into()));
    arrangement.parked = PlanPose::new(DVec2::new(6_180.0, 3_000.0), 0.0);
    none(&arrangement, Code::ZoneNear);
}

#[test]
fn a_people_zone_ends_at_the_wall() {
    let mut arrangement = parked_at(6_300.0);
    arrangement.aiming.zones[0].excludes = Exclusion::People;
    none(&arrangement, Code::OutsideRoom);
}

#[test]
fn a_door_is_a_wall_while_it_is_shut() {
    let mut arrangement = parked_at(6_300.0);
    arrangement.bay.openings = vec![Opening {
        id: "roller door".into(),
        kind: OpeningKind::RollerDoor,
        wall: 1,
        from: 1_000.0,
        width: 4_000.0,
        span: span(0.0, 2_800.0),
        material: Material::Steel,
        shut: true,
        free_beyond: 2_000.0,
        is_exit: false,
    }];
    let found = check(&arrangement, Code::OutsideRoom, Severity::Stops, Some(100.0));
    assert_eq!(found.subjects[1], Subject::Opening("roller door".into()));
    assert_eq!(found.cure.unwrap().step, Step::OpenDoor { door: "roller door".into() });
    arrangement.bay.openings[0].shut = false;
    none(&arrangement, Code::OutsideRoom);
    arrangement.bay.openings[0].free_beyond = 60.0;
    check(&arrangement, Code::OutsideRoom, Severity::Stops, Some(40.0));
}

#[test]
fn the_car_through_a_wall() {
    // The rear is 3400 behind the axle.
    let found = check(&parked_at(3_390.0), Code::CarClash, Severity::Stops, Some(10.0));
    assert_eq!(found.subjects[0], Subject::Wall("near wall".into()));
    check(&parked_at(3_500.0), Code::WorkingRoom, Severity::Care, Some(100.0));
}

#[test]
fn a_bay_that_is_too_short_says_so() {
    let mut arrangement = clear();
    arrangement.bay.room = rectangle((0.0, 0.0), (9_000.0, 6_000.0));
    let assessment = assess(&arrangement);
    let found = of(&assessment, Code::OutsideRoom);
    // 3400 behind the axle, 5800 ahead of it.
    assert!(
        found.iter().any(|f| f.facts
            == baywright_planner::Facts::OutsideRoom(Some(baywright_planner::TooLarge::Long {
                needs: 9_200.0,
                there: 9_000.0
            }))),
        "{found:#?}"
    );
    assert!(assessment.promise.is_none());
}

/// An L-shaped room: the inner corner at (6000, 3100) stands between sensor and target.
#[test]
fn a_corner_of_the_room_hides_the_target() {
    let mut arrangement = clear();
    let corners = [
        (0.0, 0.0),
        (12_000.0, 0.0),
        (12_000.0, 6_000.0),
        (7_000.0, 6_000.0),
        (7_000.0, 3_050.0),
        (6_000.0, 3_050.0),
        (6_000.0, 6_000.0),
        (0.0, 6_000.0),
    ];
    arrangement.bay.room = Polygon::simple(corners.map(DVec2::from).into()).unwrap();
    let wall = |i: usize| Wall { id: format!("wall {i}").into(), material: Material::Brick };
    arrangement.bay.walls = (0..corners.len()).map(wall).collect();
    let assessment = assess(&arrangement);
    assert!(of(&assessment, Code::SightBlocked).iter().any(|f| matches!(f.subjects[0], Subject::Wall(_))));
}

#[test]
fn drains_and_pits() {
    let feature = |kind, low, high| FloorFeature {
        id: "drain".into(),
        kind,
        outline: rectangle(low, high),
        material: Material::Steel,
    };
    let mut arrangement = clear();
    // Mark 3 at (4000, 4020).
    arrangement.bay.floor_features =
        vec![feature(FloorFeatureKind::Drain, (3_900.0, 3_950.0), (4_100.0, 4_050.0))];
    check(&arrangement, Code::MarkPlace, Severity::Stops, None);
    arrangement.bay.floor_features[0].kind = FloorFeatureKind::Joint;
    check(&arrangement, Code::MarkPlace, Severity::Care, None);
    // Under the stand's feet.
    arrangement.bay.floor_features =
        vec![feature(FloorFeatureKind::Pit, (9_100.0, 3_100.0), (9_200.0, 3_200.0))];
    check(&arrangement, Code::StandClash, Severity::Stops, None);
}

#[test]
fn low_ceilings() {
    let mut arrangement = clear();
    arrangement.bay.ceiling = 1_450.0;
    let assessment = assess(&arrangement);
    let found = of(&assessment, Code::HeadRoom);
    assert!(found.iter().any(|f| f.severity == Severity::Stops && f.subjects.contains(&Subject::Car)));
    arrangement.bay.ceiling = 2_200.0;
    check(&arrangement, Code::HeadRoom, Severity::Care, Some(2_200.0));
}
