//! What may be in the way, and what is said of it.

use crate::check::testing::*;
use crate::scene::Scene;

/// A shelf hangs 9 mm into the body, 1500 mm high, and 0.5 mm beside what stands on its roof: it is in the car, and nothing is
/// to be said of perhaps.
#[test]
fn what_is_surely_in_the_car_is_not_said_to_be_perhaps() {
    let mut arrangement = with(vec![cabinet("shelf", (1_200.5, 3_000.0), 400.0, 400.0)]);
    arrangement.bay.things[0].place.known = Known::Within(1.0);
    let body = arrangement.vehicle.solids()[0].clone();
    let box_on_it =
        Prism::new(rectangle((-3_400.0, -900.0), (-3_000.0, 900.0)).into(), span(1_500.0, 1_700.0));
    arrangement.vehicle.body = vec![body, box_on_it].into();
    let hung = |bottom: f64| {
        let mut own = arrangement.clone();
        own.bay.things[0].span = span(bottom, 1_700.0);
        own
    };
    check(&hung(1_491.0), Code::CarClash, Severity::Stops, Some(9.0));
    none(&hung(1_491.0), Code::PlaceUnsure);
    check(&hung(1_601.0), Code::PlaceUnsure, Severity::Care, Some(0.5));
}

/// Mark 3 at (4000, 4020) on the very edge of a lip that stands 10 mm proud lies on it, and is not "clear by 0 mm" beside it
/// as well; 5 mm beside it that is said.
#[test]
fn a_mark_on_a_lip_is_said_once() {
    let lip = |low: f64| {
        let mut arrangement = clear();
        arrangement.bay.walls_known = Known::Within(20.0);
        arrangement.bay.floor_features = vec![FloorFeature {
            id: "lip".into(),
            kind: FloorFeatureKind::Joint,
            outline: rectangle((3_900.0, low), (4_100.0, 4_300.0)),
            material: Material::Concrete,
            proud_mm: 10.0,
        }];
        let all = assess(&arrangement).findings;
        let about = |f: &&Finding| f.subjects.contains(&Subject::Mark("3".into()));
        all.iter().filter(about).map(Finding::code).collect::<Vec<_>>()
    };
    assert_eq!(lip(4_020.0), [Code::MarkPlace]);
    assert_eq!(lip(4_025.0), [Code::PlaceUnsure]);
}

/// A wooden cabinet that may stand in the zone, with what is known of its place.
fn wood(at: (f64, f64), length: f64, width: f64, known: f64) -> Arrangement {
    let mut thing = cabinet("cabinet", at, length, width);
    thing.material = Material::Wood;
    thing.place.known = Known::Within(known);
    with(vec![thing])
}

fn all_of(found: &Finding) -> &[crate::MayBe] {
    match &found.facts {
        Facts::ZoneNear(all) | Facts::PlaceUnsure(all) => all,
        other => panic!("{other:?}"),
    }
}

/// A column of 120 mm whose near side is 20 mm from the zone, placed by eye.
#[test]
fn a_column_known_by_eye_may_be_inside() {
    let mut arrangement = with(vec![column("column", (8_000.0, 4_580.0), 120.0)]);
    none(&arrangement, Code::ZoneNear);
    arrangement.bay.things[0].place.known = Known::ByEye;
    let found = check(&arrangement, Code::ZoneNear, Severity::Care, Some(20.0));
    assert_eq!(number(found.limit.unwrap()), arrangement.shop.by_eye_mm);
    assert_eq!(found.subjects, [Subject::Thing("column".into()), Subject::Zone("beam".into())]);
    arrangement.bay.things[0].place.known = Known::Taped;
    none(&arrangement, Code::ZoneNear);
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

/// The zone, from y = 1500 to 4500 and 1500 mm high, runs 100 mm out through an open door.
fn through_a_door(from: f64, width: f64, lintel: f64, known: f64) -> Arrangement {
    let mut arrangement = parked_at(6_300.0);
    arrangement.bay.openings =
        vec![Opening { span: span(0.0, lintel), ..open_door(1, from, width, 1_000.0) }];
    arrangement.bay.walls_known = Known::Within(known);
    arrangement
}

#[test]
fn what_goes_through_a_door_is_near_its_jambs_and_its_lintel() {
    let wall = Subject::Wall("far wall".into());
    none(&through_a_door(1_400.0, 3_200.0, 2_500.0, 20.0), Code::ZoneNear);
    // 5 mm beside the left jamb, 100 mm beside the right one.
    none(&through_a_door(1_400.0, 3_105.0, 2_500.0, 4.0), Code::ZoneNear);
    let jamb = through_a_door(1_400.0, 3_105.0, 2_500.0, 20.0);
    assert_eq!(check(&jamb, Code::ZoneNear, Severity::Care, Some(5.0)).subjects[0], wall);
    // 5 mm under the lintel.
    none(&through_a_door(1_400.0, 3_200.0, 1_505.0, 4.0), Code::ZoneNear);
    let lintel = through_a_door(1_400.0, 3_200.0, 1_505.0, 20.0);
    assert_eq!(check(&lintel, Code::ZoneNear, Severity::Care, Some(5.0)).subjects[0], wall);
    // The ground ends 5 mm further on.
    let mut ends = through_a_door(1_400.0, 3_200.0, 2_500.0, 20.0);
    ends.bay.openings[0].free_beyond_mm = 105.0;
    check(&ends, Code::ZoneNear, Severity::Care, Some(5.0));
    // An open door that nothing reaches is no wall.
    let mut before = parked_at(6_195.0);
    before.bay.walls_known = Known::Within(20.0);
    before.bay.openings = vec![open_door(1, 1_400.0, 3_200.0, 1_000.0)];
    none(&before, Code::ZoneNear);
}

/// A beam over the roof, which is 1500 mm high, and one over the stand's mast.
#[test]
fn what_hangs_over_the_car_or_a_stand() {
    let mast = Scene::of(&clear()).targets[0].solids.iter().map(|own| own.span.top()).fold(0.0, f64::max);
    for (at, top) in [((2_000.0, 3_000.0), 1_500.0), ((8_850.0, 3_000.0), mast)] {
        let hanging = |gap: f64, known: f64| {
            let mut arrangement = wood(at, 3_000.0, 100.0, known);
            arrangement.bay.things[0].kind = ThingKind::Beam;
            arrangement.bay.things[0].span = span(top + gap, 2_900.0);
            arrangement
        };
        none(&hanging(120.0, 119.9), Code::PlaceUnsure);
        check(&hanging(120.0, 150.0), Code::PlaceUnsure, Severity::Care, Some(120.0));
    }
}

#[test]
fn a_ceiling_just_over_the_roof() {
    let mut arrangement = clear();
    arrangement.bay.ceiling_mm = 1_510.0;
    none(&arrangement, Code::PlaceUnsure);
    arrangement.bay.walls_known = Known::Within(20.0);
    let found = check(&arrangement, Code::PlaceUnsure, Severity::Care, Some(10.0));
    assert_eq!(found.subjects[0], Subject::Ceiling);
    assert!(found.subjects.contains(&Subject::Car));
}

/// The car may be on a runway; its target's feet may not come to stand on one: they begin 20 mm behind the face, at 8820.
#[test]
fn a_stand_beside_the_runway_that_carries_the_car() {
    let runway = |id: &str, low: f64| Runway {
        id: id.into(),
        outline: rectangle((500.0, low), (8_815.0, low + 500.0)),
        top_mm: 40.0,
        survey: None,
    };
    let mut arrangement = clear();
    arrangement.bay.runways = vec![runway("left runway", 3_500.0), runway("right runway", 2_000.0)];
    arrangement.on_runways = vec!["left runway".into(), "right runway".into()];
    none(&arrangement, Code::PlaceUnsure);
    arrangement.aiming.placements[0].target.stand.as_mut().unwrap().base =
        rectangle((-500.0, -600.0), (-20.0, 400.0)).into();
    arrangement.bay.walls_known = Known::Within(20.0);
    let found = check(&arrangement, Code::PlaceUnsure, Severity::Care, Some(5.0));
    assert!(all_of(&found).iter().all(|one| one.code == Code::StandClash), "{found:#?}");
}

/// The mark at (4000, 4020): a drain's edge 10 mm beside it that may lie elsewhere.
#[test]
fn a_drain_that_may_be_under_a_mark() {
    let mut arrangement = clear();
    arrangement.bay.floor_features = vec![FloorFeature {
        id: "drain".into(),
        kind: FloorFeatureKind::Drain,
        outline: rectangle((3_900.0, 4_030.0), (4_100.0, 4_200.0)),
        material: Material::Plastic,
        proud_mm: 0.0,
    }];
    none(&arrangement, Code::PlaceUnsure);
    arrangement.bay.walls_known = Known::Within(20.0);
    let found = check(&arrangement, Code::PlaceUnsure, Severity::Care, Some(10.0));
    assert_eq!(found.subjects, [Subject::FloorFeature("drain".into()), Subject::Mark("3".into())]);
    none(&arrangement, Code::CarPlace);
}

/// The sight is 500 mm wide at the target, 4 m off, and nothing at the sensor: 125 mm either side half way. The near
/// side of a cabinet a hair long stands 1 mm beside it.
#[test]
fn a_cabinet_beside_the_sight() {
    let beside = |known| wood((6_800.0, 3_126.0 + 200.0), 0.002, 400.0, known);
    none(&beside(0.0), Code::PlaceUnsure);
    let found = check(&beside(50.0), Code::PlaceUnsure, Severity::Care, None);
    let sight = all_of(&found).iter().find(|one| one.code == Code::SightBlocked).unwrap();
    // Square to the edge of the sight, which runs off at 1 in 16.
    let (along, beside) = (4_000.0_f64, 250.0_f64);
    let expected = 1.0 * along / along.hypot(beside);
    assert!((sight.gap_mm - expected).abs() < 0.01, "{} {expected}", sight.gap_mm);
    assert_eq!(sight.of, Subject::Target("ahead".into()));
}

/// The feet reach 500 mm behind the face at x = 8800, 300 mm to either side.
#[test]
fn a_cabinet_behind_the_stand() {
    none(&wood((9_310.0 + 200.0, 3_000.0), 400.0, 400.0, 9.9), Code::PlaceUnsure);
    let found = check(
        &wood((9_310.0 + 200.0, 3_000.0), 400.0, 400.0, 50.0),
        Code::PlaceUnsure,
        Severity::Care,
        Some(10.0),
    );
    assert_eq!(all_of(&found)[0].of, Subject::Stand("ahead".into()));
}

/// Between the car's right side at y = 2100 and the run at y = 1980: one finding names both.
#[test]
fn one_thing_is_one_finding() {
    let arrangement = wood((2_500.0, 2_040.0), 300.0, 80.0, 150.0);
    let found = check(&arrangement, Code::PlaceUnsure, Severity::Care, None);
    let codes: std::collections::BTreeSet<_> = all_of(&found).iter().map(|one| one.code).collect();
    assert!(codes.contains(&Code::CarClash) && codes.contains(&Code::RunBlocked), "{codes:?}");
    assert_eq!(found.subjects.len(), all_of(&found).len() + 1);
    let smallest = all_of(&found).iter().map(|one| one.gap_mm).fold(f64::INFINITY, f64::min);
    assert_eq!(number(found.measured.unwrap()), smallest);
}

/// Exact touching is clear; 0.005 mm of overlap, which no check speaks of for itself, needs care.
#[test]
fn there_is_no_silent_gap() {
    let steel = |into: f64| with(vec![cabinet("cabinet", (8_000.0, 4_725.0 - into), 900.0, 450.0)]);
    assert!(assess(&steel(0.0)).findings.iter().all(|f| f.culprit().is_none()));
    for into in [0.001, 0.005, 0.009] {
        check(&steel(into), Code::ZoneNear, Severity::Care, Some(0.0));
        none(&steel(into), Code::ZoneObject);
    }
    check(&steel(0.02), Code::ZoneObject, Severity::Stops, None);
    // The same of the stand, and of the car's side.
    let behind = |into: f64| wood((9_300.0 + 200.0 - into, 3_000.0), 400.0, 400.0, 0.0);
    none(&behind(0.0), Code::PlaceUnsure);
    check(&behind(0.005), Code::PlaceUnsure, Severity::Care, Some(0.0));
    check(&behind(0.02), Code::StandClash, Severity::Stops, None);
    let aside = |into: f64| {
        let mut arrangement = wood((2_500.0, 3_900.0 + 300.0 - into), 500.0, 600.0, 0.0);
        arrangement.aiming.mark_plan.clear();
        arrangement
    };
    none(&aside(0.0), Code::PlaceUnsure);
    check(&aside(0.005), Code::PlaceUnsure, Severity::Care, Some(0.0));
    check(&aside(0.02), Code::CarClash, Severity::Stops, None);
}

/// A wooden chest under the sight: from the sensor at 500 mm to the target's lower edge at 250 mm, 4 m away, the line of
/// sight is 375 mm high half way. Its far edge is 2 050 mm away: 371.875 mm.
#[test]
fn a_chest_just_under_the_sight() {
    let chest = |top: f64, known: f64| {
        let mut bay = wood((6_800.0, 3_000.0), 100.0, 100.0, known);
        bay.bay.things[0].span = span(0.0, top);
        bay
    };
    let found = check(&chest(361.875, 20.0), Code::PlaceUnsure, Severity::Care, None);
    let gap = number(found.measured.unwrap());
    assert!((gap - 10.0).abs() < 0.02, "{gap}");
    for (top, known) in [(361.875, 9.9), (341.0, 20.0)] {
        none(&chest(top, known), Code::PlaceUnsure);
    }
    check(&chest(373.0, 20.0), Code::SightBlocked, Severity::Stops, None);
}

/// Cabinets against each other and against the wall are known no better, and nobody minds.
#[test]
fn a_row_of_cabinets_against_the_wall() {
    let mut row: Vec<Thing> = (0..5)
        .map(|i| cabinet(&format!("cabinet {i}"), (1_000.0 + 900.0 * f64::from(i), 5_775.0), 900.0, 450.0))
        .collect();
    for own in &mut row {
        own.place.known = Known::ByEye;
    }
    let mut arrangement = with(row);
    arrangement.bay.walls_known = Known::Taped;
    let assessment = assess(&arrangement);
    assert!(assessment.findings.iter().all(|f| f.severity == Severity::Note), "{:#?}", assessment.findings);
}
