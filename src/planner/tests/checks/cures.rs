//! Cures, what they cause, and what is promised.

use baywright_planner::cure::apply;
use baywright_planner::geometry::{DVec2, overlap_area};
use baywright_planner::model::*;
use baywright_planner::{Code, Severity, Shorter, Step, Subject, Verdict, assess, judge};

use crate::support::*;

fn step(arrangement: &Arrangement, code: Code) -> Step {
    let assessment = assess(arrangement);
    of(&assessment, code)[0].cure.clone().unwrap().step
}

#[test]
fn the_shortest_way_out() {
    let arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0)]);
    let step = step(&arrangement, Code::ZoneObject);
    assert_eq!(step, Step::MoveThing { thing: "cabinet".into(), by: DVec2::new(0.0, 250.0) });
    assert_eq!(judge(&apply(&arrangement, &step)).verdict, Verdict::Ready);
}

#[test]
fn a_taped_thing_goes_further_to_be_sure() {
    let mut arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0)]);
    arrangement.bay.things[0].place.known = Known::Taped;
    let assessment = assess(&arrangement);
    let cure = of(&assessment, Code::ZoneObject)[0].cure.clone().unwrap();
    assert_eq!(cure.at_least, Some(Shorter::AsDrawn(DVec2::new(0.0, 250.0))));
    let by = DVec2::new(0.0, 270.0);
    assert_eq!(cure.step, Step::MoveThing { thing: "cabinet".into(), by });
    let sure = apply(&arrangement, &cure.step);
    assert_eq!(judge(&sure).verdict, Verdict::Ready);
}

/// In the way of the plate *and* in the zone: one move clears both, and it is the zone that decides how far.
#[test]
fn one_move_clears_every_stop() {
    let arrangement = with(vec![cabinet("trolley", (6_800.0, 3_100.0), 600.0, 400.0)]);
    let assessment = assess(&arrangement);
    for code in [Code::ZoneObject, Code::SightBlocked] {
        let cure = of(&assessment, code)[0].cure.clone().unwrap();
        // The near side is at 2900, the zone ends at 4500.
        assert_eq!(cure.step, Step::MoveThing { thing: "trolley".into(), by: DVec2::new(0.0, 1_600.0) });
    }
    let promise = assessment.promise.unwrap();
    assert_eq!(promise.steps.len(), 1);
    assert_eq!(promise.verdict, Verdict::Ready);
}

/// The cabinet is 250 mm inside the zone's left edge, at y = 4500; a wooden crate stands where it would come out. Past
/// the crate's end at x = 8200 it must go 650 mm along too: the way round is 696.4 mm, the zone's other sides are
/// 2250 mm and more away.
#[test]
fn the_way_round_is_shorter_than_the_next_way_out() {
    let mut crate_ = cabinet("crate", (7_800.0, 4_910.0), 800.0, 400.0);
    crate_.material = Material::Wood;
    let arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0), crate_]);
    let assessment = assess(&arrangement);
    let found = of(&assessment, Code::ZoneObject);
    let Some(Step::MoveThing { by, .. }) = found[0].cure.as_ref().map(|cure| &cure.step) else { panic!() };
    let least = 650.0_f64.hypot(250.0);
    assert!((by.length() - least.ceil()).abs() < 1e-9, "{by}");
    assert!(by.x >= 650.0 && by.y >= 250.0, "{by}");
}

/// The same with a zone in the place of the crate, which the cabinet is not in now.
#[test]
fn the_way_round_another_zone() {
    let mut arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0)]);
    let mut other = arrangement.aiming.zones[0].clone();
    other.id = "other".into();
    // In the vehicle frame: x from 7400 to 8200 and y from 4710 to 5110 in the bay.
    other.outline = rectangle((3_400.0, 1_710.0), (4_200.0, 2_110.0)).into();
    arrangement.aiming.zones.push(other);
    arrangement.vehicle.aimings[0] = arrangement.aiming.clone();
    let Step::MoveThing { by, .. } = step(&arrangement, Code::ZoneObject) else { panic!() };
    assert!((by.length() - 650.0_f64.hypot(250.0).ceil()).abs() < 1e-9, "{by}");
}

/// Ahead of the cabinet a wooden crate's side slants: between it and the zone's edge is a pocket so sharp that no place
/// straight beyond its tip is clear, only one a little aside.
#[test]
fn a_pocket_that_cannot_be_rounded_up() {
    // The zone's edge is y = 4500; the crate's long side runs from (8600, 4300) up and back to (8200, 6000).
    let shape = Shape::Outline(
        [(0.0, 0.0), (800.0, 0.0), (800.0, 1_700.0), (-400.0, 1_700.0)].map(DVec2::from).into(),
    );
    let mut crate_ = cabinet("crate", (8_600.0, 4_300.0), 1.0, 1.0);
    (crate_.footprint, crate_.material) = (Footprint::new(shape).unwrap(), Material::Wood);
    let arrangement = with(vec![cabinet("cabinet", (8_000.3, 4_475.4), 900.0, 450.0), crate_]);
    let step = step(&arrangement, Code::ZoneObject);
    let after = apply(&arrangement, &step);
    assert_eq!(judge(&after).count(Severity::Stops), 0, "{step:?}");
    let Step::MoveThing { by, .. } = step else { panic!("{step:?}") };
    // Its left front corner, at (8450.3, 4700.4), meets the slant first once it is clear of the zone at y = 4950: there
    // the slant is at x = 8600 - 650 · 400 / 1700 = 8447.06, so that it must go back by 3.3 mm and out by 249.6 mm.
    assert!(by.length() < 253.0 && by.y >= 249.6 && by.x <= -3.2, "{by}");
}

/// To the left stands another cabinet: the way out is the other side, or further.
#[test]
fn a_way_out_that_hits_nothing() {
    let arrangement = with(vec![
        cabinet("cabinet", (8_000.0, 4_400.0), 900.0, 450.0),
        cabinet("shelf", (8_000.0, 5_200.0), 900.0, 700.0),
    ]);
    let step = step(&arrangement, Code::ZoneObject);
    let after = apply(&arrangement, &step);
    assert_eq!(judge(&after).verdict, Verdict::Ready, "{step:?}");
    let Step::MoveThing { by, .. } = step else { panic!("{step:?}") };
    assert!(by.length() > 325.0, "straight left is taken: {by}");
}

/// Entered 7 mm into the wall and 93 mm into the zone: the shortest way out of the zone leads 100 mm into the wall. What is
/// in something a little is not sent through it.
#[test]
fn a_thing_that_is_in_the_wall_a_little_is_not_sent_through_it() {
    let arrangement = with(vec![cabinet("cabinet", (8_000.0, 5_207.0), 900.0, 1_600.0)]);
    let step = step(&arrangement, Code::ZoneObject);
    let after = apply(&arrangement, &step);
    for thing in &after.bay.things {
        let far = thing.prism().outline.bounds().high.y;
        assert!(far <= 6_007.01, "{far} after {step:?}");
    }
    assert_eq!(judge(&after).count(Severity::Stops), 0, "{step:?}");
}

/// The same with another thing in the place of the wall, entered 5 mm in one another.
#[test]
fn a_thing_that_is_in_another_a_little_is_not_sent_through_it() {
    let mut shelf = cabinet("shelf", (8_000.0, 5_220.0), 3_000.0, 1_200.0);
    shelf.material = Material::Wood;
    let arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_400.0), 900.0, 450.0), shelf]);
    let step = step(&arrangement, Code::ZoneObject);
    let after = apply(&arrangement, &step);
    let deepest = |arrangement: &Arrangement| {
        let solids: Vec<_> = arrangement.bay.things.iter().map(Thing::prism).collect();
        solids.get(1).map_or(0.0, |other| overlap_area(&solids[0].outline, &other.outline))
    };
    assert!(deepest(&after) <= deepest(&arrangement) + 1.0, "{step:?}");
    assert_eq!(judge(&after).count(Severity::Stops), 0, "{step:?}");
}

#[test]
fn walled_in_it_is_taken_out() {
    let mut arrangement = with(vec![cabinet("long cabinet", (6_000.0, 4_475.0), 11_900.0, 450.0)]);
    arrangement.bay.things.push(cabinet("shelf", (6_000.0, 5_300.0), 11_900.0, 1_100.0));
    arrangement.bay.things.push(cabinet("bench", (6_000.0, 700.0), 11_900.0, 1_300.0));
    let step = step(&arrangement, Code::ZoneObject);
    assert_eq!(step, Step::TakeAway { thing: "long cabinet".into() });
}

/// A fixed column inside the zone by 200 mm: the car moves, not the column.
#[test]
fn a_column_makes_the_car_move() {
    let mut arrangement = with(vec![column("column", (8_000.0, 4_360.0), 120.0)]);
    arrangement.aiming.working_room_mm = Some(0.0);
    let assessment = assess(&arrangement);
    let cure = of(&assessment, Code::ZoneObject)[0].cure.clone().unwrap();
    assert_eq!(cure.at_least, Some(Shorter::AsDrawn(DVec2::new(0.0, -200.0))));
    // Nobody parks to the millimetre, however well the place was known where the car stood: 30 mm, and half a degree at the
    // 4.4 m from the front axle to the column's far side.
    assert_eq!(cure.step, Step::MoveCar { by: DVec2::new(0.0, -269.0) });
    assert_eq!(assessment.promise.unwrap().verdict, Verdict::Ready);
}

/// The same column, placed by eye: the car goes further by what both places are uncertain by, and is promised to.
#[test]
fn the_car_goes_further_from_what_is_known_by_eye() {
    let mut arrangement = with(vec![column("column", (8_000.0, 4_360.0), 120.0)]);
    arrangement.aiming.working_room_mm = Some(0.0);
    arrangement.bay.things[0].place.known = Known::ByEye;
    let assessment = assess(&arrangement);
    let cure = of(&assessment, Code::ZoneObject)[0].cure.clone().unwrap();
    assert_eq!(cure.at_least, Some(Shorter::AsDrawn(DVec2::new(0.0, -200.0))));
    // Two millimetres more: half a degree of what may be 220 mm farther away.
    let by = DVec2::new(0.0, -271.0 - arrangement.shop.by_eye_mm);
    assert_eq!(cure.step, Step::MoveCar { by });
    let promise = assessment.promise.unwrap();
    assert_eq!(promise.steps, vec![Step::MoveCar { by }]);
    assert_eq!(promise.verdict, Verdict::Ready);
}

#[test]
fn what_a_cure_would_cause_is_said() {
    // Moving the car 200 mm right brings the body's right side, at y = 2100 - 200, near the bench at 1850.
    let mut arrangement = with(vec![
        column("column", (8_000.0, 4_360.0), 120.0),
        cabinet("bench", (2_000.0, 1_150.0), 600.0, 600.0),
    ]);
    arrangement.aiming.working_room_mm = Some(600.0);
    let assessment = assess(&arrangement);
    let cure = of(&assessment, Code::ZoneObject)[0].cure.clone().unwrap();
    assert!(
        cure.causes.iter().any(|c| c.code() == Code::WorkingRoom
            && c.severity == Severity::Care
            && c.subjects[0] == Subject::Thing("bench".into())),
        "{cure:?}"
    );
}

#[test]
fn a_stand_goes_back_to_its_mark() {
    use baywright_planner::geometry::{PlanPose, angle};
    let mut arrangement = clear();
    arrangement.stands = vec![StandSet::At {
        place: PlanPose::new(DVec2::new(8_700.0, 3_000.0), angle::radians(180.0)),
        height_mm: 500.0,
        pitch_rad: 0.0,
    }];
    let step = step(&arrangement, Code::StandOffMark);
    assert_eq!(step, Step::StandOnMark { placement: "ahead".into() });
    assert_eq!(judge(&apply(&arrangement, &step)).verdict, Verdict::Ready);
}

/// A move that is offered for a stop clears every stop of that thing.
#[test]
fn offered_moves_clear_the_thing() {
    let mut tried = 0;
    for seed in 0..200_u64 {
        let arrangement = crate::totality::crowded(seed, 8);
        for finding in assess(&arrangement).findings {
            let (Some(id), Some(cure)) = (finding.culprit().cloned(), finding.cure.clone()) else { continue };
            if finding.severity != Severity::Stops || !matches!(cure.step, Step::MoveThing { .. }) {
                continue;
            }
            tried += 1;
            let after = judge(&apply(&arrangement, &cure.step));
            let still: Vec<_> = after
                .findings
                .iter()
                .filter(|f| f.severity == Severity::Stops && f.culprit() == Some(&id))
                .collect();
            assert!(still.is_empty(), "seed {seed}: {still:#?} after {cure:?}");
        }
    }
    assert!(tried > 100, "only {tried} moves were tried");
}

/// Fifteen trolleys in a row along the edge of the zone: each has its way out, whatever it is called.
#[test]
fn what_has_a_way_out_does_not_depend_on_names_or_number() {
    let row = |name: &dyn Fn(usize) -> String| {
        let trolleys =
            (0..15).map(|i| cabinet(&name(i), (5_200.0 + 300.0 * i as f64, 4_400.0), 200.0, 300.0));
        with(trolleys.collect())
    };
    for arrangement in [row(&|i| format!("trolley {i:02}")), row(&|i| format!("trolley {:02}", 14 - i))] {
        let assessment = assess(&arrangement);
        let stops = of(&assessment, Code::ZoneObject);
        assert_eq!(stops.len(), 15);
        for found in stops {
            let cure = found.cure.as_ref().unwrap_or_else(|| panic!("{found:?}"));
            assert!(matches!(&cure.step, Step::MoveThing { by, .. } if by.length() <= 251.0), "{cure:?}");
        }
        assert_eq!(assessment.promise.as_ref().map(|promise| promise.steps.len()), Some(15));
    }
}

/// Steel 100 mm inside the zone's left edge. Beside it, where the shortest way out leads, something is built into the floor: an
/// idle runway 150 mm high, an open pit, or a kerb.
#[test]
fn nothing_is_moved_onto_what_is_built_into_the_floor() {
    let chest = || with(vec![cabinet("chest", (8_000.0, 4_500.0 + 200.0 - 100.0), 400.0, 400.0)]);
    let moved = |arrangement: &Arrangement| match step(arrangement, Code::ZoneObject) {
        Step::MoveThing { by, .. } => by,
        other => panic!("{other:?}"),
    };
    assert!((moved(&chest()) - DVec2::new(0.0, 100.0)).length() < 1e-9);
    let outline = rectangle((7_000.0, 4_650.0), (9_500.0, 5_250.0));
    let feature = |kind, proud_mm| FloorFeature {
        id: "built".into(),
        kind,
        outline: outline.clone(),
        material: Material::Concrete,
        proud_mm,
    };
    let mut runway = chest();
    runway.bay.runways =
        vec![Runway { id: "built".into(), outline: outline.clone(), top_mm: 150.0, survey: None }];
    let mut pit = chest();
    pit.bay.floor_features = vec![feature(FloorFeatureKind::Pit, 0.0)];
    let mut kerb = chest();
    kerb.bay.floor_features = vec![feature(FloorFeatureKind::Joint, 200.0)];
    for built in [runway, pit, kerb] {
        let by = moved(&built);
        let chest = built.bay.things[0].prism().moved(by);
        assert!(overlap_area(&chest.outline, &outline.clone().into()) == 0.0, "{by}");
    }
    // A joint that is flush is no obstacle.
    let mut flush = chest();
    flush.bay.floor_features = vec![feature(FloorFeatureKind::Joint, 0.0)];
    assert!((moved(&flush) - DVec2::new(0.0, 100.0)).length() < 1e-9);
}

/// The cabinet of the shortest way out, 250 mm inside, with something fixed along the way out on which it is not entered: no
/// thing goes through that, or over an open pit.
#[test]
fn nothing_is_moved_through_what_stays() {
    let mut arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0)]);
    let aside = |arrangement: &Arrangement| match step(arrangement, Code::ZoneObject) {
        Step::MoveThing { by, .. } => by.y > 0.0 && by.x.abs() < 1.0,
        _ => false,
    };
    assert!(aside(&arrangement));
    // A screen 10 mm thick right behind it, across its whole way.
    let mut screen = cabinet("screen", (8_000.0, 4_730.0), 4_000.0, 10.0);
    screen.effort = Effort::Fixed;
    arrangement.bay.things.push(screen);
    assert!(!aside(&arrangement));
    arrangement.bay.things.pop();
    arrangement.bay.floor_features = vec![FloorFeature {
        id: "pit".into(),
        kind: FloorFeatureKind::Pit,
        outline: rectangle((6_000.0, 4_710.0), (10_000.0, 4_740.0)),
        material: Material::Concrete,
        proud_mm: 0.0,
    }];
    assert!(!aside(&arrangement));
}

/// A rack that cannot be moved clear goes out by the door, if it fits through one; where no door is entered it is not asked.
#[test]
fn what_fits_through_no_door_is_not_taken_out() {
    let mut arrangement = with(vec![cabinet("rack", (6_500.0, 3_000.0), 3_000.0, 5_800.0)]);
    assert_eq!(step(&arrangement, Code::ZoneObject), Step::TakeAway { thing: "rack".into() });
    arrangement.bay.openings = vec![open_door(1, 500.0, 900.0, 5_000.0)];
    let assessment = assess(&arrangement);
    let cures = assessment.findings.iter().filter_map(|f| f.cure.as_ref());
    assert!(!cures.into_iter().any(|cure| matches!(cure.step, Step::TakeAway { .. })));
    arrangement.bay.openings = vec![open_door(1, 500.0, 3_000.0, 5_000.0)];
    assert_eq!(step(&arrangement, Code::ZoneObject), Step::TakeAway { thing: "rack".into() });
}
