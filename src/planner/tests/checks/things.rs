//! Things in zones, in sight, near the path, on marks, in runs, near the car.

use baywright_planner::geometry::marks::{Construction, Tool};
use baywright_planner::model::*;
use baywright_planner::{Code, Facts, InSight, InZone, Severity, Subject, Verdict, assess, words};

use crate::support::*;

#[test]
fn an_empty_surveyed_bay_is_ready() {
    let assessment = assess(&clear());
    assert_eq!(assessment.verdict, Verdict::Ready, "{:#?}", assessment.findings);
    assert!(assessment.findings.is_empty(), "{:#?}", assessment.findings);
}

/// The zone's left edge lies at y = 3000 + 1500. A cabinet 450 deep whose near side is at 4250 is 250 mm inside.
#[test]
fn a_cabinet_250_mm_inside() {
    let arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0)]);
    let found = check(&arrangement, Code::ZoneObject, Severity::Stops, Some(250.0));
    assert_eq!(found.subjects, [Subject::Thing("cabinet".into()), Subject::Zone("beam".into())]);
    let Facts::ZoneObject(InZone { heights: Some(heights), area, .. }) = found.facts else { panic!() };
    assert_eq!((heights.bottom(), heights.top()), (0.0, 1000.0));
    assert!((area - 900.0 * 250.0).abs() < 1e-3, "{area}");
    assert_eq!(assess(&arrangement).verdict, Verdict::NotReady);
}

#[test]
fn touching_a_zone_is_not_a_conflict() {
    none(&with(vec![cabinet("cabinet", (8_000.0, 4_725.0), 900.0, 450.0)]), Code::ZoneObject);
    none(&with(vec![cabinet("cabinet", (8_000.0, 4_725.0), 900.0, 450.0)]), Code::ZoneNear);
}

#[test]
fn above_a_zone_is_not_inside() {
    let mut heater = cabinet("heater", (8_000.0, 3_000.0), 900.0, 450.0);
    heater.span = span(1500.0, 1900.0);
    none(&with(vec![heater.clone()]), Code::ZoneObject);
    heater.span = span(1499.0, 1900.0);
    check(&with(vec![heater]), Code::ZoneObject, Severity::Stops, None);
}

#[test]
fn wood_may_stand_where_metal_may_not() {
    let mut bench = cabinet("bench", (8_000.0, 4_475.0), 900.0, 450.0);
    bench.material = Material::Wood;
    none(&with(vec![bench.clone()]), Code::ZoneObject);
    bench.material = Material::Unknown;
    check(&with(vec![bench.clone()]), Code::ZoneUnjudged, Severity::Care, Some(250.0));
    let mut arrangement = with(vec![bench]);
    arrangement.aiming.zones[0].excludes = Exclusion::Reflecting(-10.0);
    check(&arrangement, Code::ZoneUnjudged, Severity::Care, Some(250.0));
}

#[test]
fn people_and_lamps_have_their_own_zones() {
    let mut person = cabinet("colleague", (8_000.0, 4_475.0), 500.0, 450.0);
    person.material = Material::Person;
    person.kind = ThingKind::Person;
    let mut arrangement = with(vec![person]);
    none(&arrangement, Code::ZoneObject);
    arrangement.aiming.zones[0].excludes = Exclusion::People;
    check(&arrangement, Code::ZoneObject, Severity::Stops, Some(250.0));
    arrangement.aiming.zones[0].excludes = Exclusion::Light;
    none(&arrangement, Code::ZoneObject);
    arrangement.bay.things[0].kind = ThingKind::Lamp;
    check(&arrangement, Code::ZoneObject, Severity::Stops, Some(250.0));
}

/// A window in the far wall, into which the zone reaches: daylight cannot be judged.
#[test]
fn a_window_in_a_light_zone_needs_care() {
    let mut arrangement = clear();
    arrangement.bay.openings = vec![Opening {
        id: "window".into(),
        kind: OpeningKind::Window,
        wall: 1,
        from: 2_000.0,
        width: 1_000.0,
        span: span(1_000.0, 2_000.0),
        material: Material::Glass,
        shut: true,
        free_beyond: 0.0,
        is_exit: false,
    }];
    arrangement.aiming.zones[0].excludes = Exclusion::Light;
    none(&arrangement, Code::ZoneUnjudged);
    arrangement.aiming.zones[0].outline = rectangle((900.0, -1_500.0), (9_000.0, 1_500.0)).into();
    check(&arrangement, Code::ZoneUnjudged, Severity::Care, None);
    arrangement.bay.openings[0].span = span(1_500.0, 2_000.0);
    none(&arrangement, Code::ZoneUnjudged);
}

/// A column of 120 mm whose near side is 20 mm from the zone, placed by eye (± 50 mm).
#[test]
fn a_column_known_by_eye_may_be_inside() {
    let mut arrangement = with(vec![column("column", (8_000.0, 4_580.0), 120.0)]);
    none(&arrangement, Code::ZoneNear);
    arrangement.bay.things[0].known = Known::ByEye;
    let found = check(&arrangement, Code::ZoneNear, Severity::Care, Some(20.0));
    assert_eq!(number(found.limit.unwrap()), 50.0);
    arrangement.bay.things[0].known = Known::Taped;
    none(&arrangement, Code::ZoneNear);
}

/// Half way to the target, the sight on a plate of 500 mm is 250 mm wide and 250 mm high, its middle 500 mm up. A
/// trolley as high as 500 mm and wider than that hides the lower half of the plate.
#[test]
fn a_trolley_hides_half_the_plate() {
    let mut trolley = cabinet("trolley", (6_800.0, 3_000.0), 0.002, 600.0);
    trolley.span = span(0.0, 500.0);
    trolley.material = Material::Wood;
    let arrangement = with(vec![trolley]);
    let assessment = assess(&arrangement);
    let found = of(&assessment, Code::SightBlocked);
    assert_eq!(found.len(), 1);
    assert!((number(found[0].measured.unwrap()) - 0.5).abs() < 1e-4, "{:?}", found[0].measured);
}

#[test]
fn under_the_sight_nothing_is_hidden() {
    let mut trolley = cabinet("trolley", (6_800.0, 3_000.0), 400.0, 600.0);
    trolley.material = Material::Wood;
    // The sight's lower edge at the trolley's far end, 2200 mm from the sensor: 500 - 250 · 2200 / 4000.
    trolley.span = span(0.0, 500.0 - 250.0 * 2200.0 / 4000.0);
    none(&with(vec![trolley.clone()]), Code::SightBlocked);
    trolley.span = span(0.0, 500.0 - 250.0 * 2200.0 / 4000.0 + 1.0);
    check(&with(vec![trolley]), Code::SightBlocked, Severity::Stops, None);
}

#[test]
fn a_thing_over_the_sensor() {
    let mut cover = cabinet("cover", (4_830.0, 3_000.0), 100.0, 300.0);
    cover.material = Material::Plastic;
    let found = check(&with(vec![cover]), Code::SightBlocked, Severity::Stops, Some(1.0));
    assert_eq!(found.facts, Facts::SightBlocked(InSight::CoversSensor));
}

/// What covers the sensor does not keep quiet about what else is in the way: each stops the aiming by itself.
#[test]
fn a_thing_over_the_sensor_and_one_on_the_way() {
    let mut cover = cabinet("cover", (4_830.0, 3_000.0), 100.0, 300.0);
    let mut second = cabinet("second cover", (4_810.0, 3_000.0), 100.0, 300.0);
    let mut wall = cabinet("on the way", (6_800.0, 3_000.0), 100.0, 2_000.0);
    for thing in [&mut cover, &mut second, &mut wall] {
        thing.material = Material::Plastic;
    }
    let assessment = assess(&with(vec![cover, second, wall]));
    let found = of(&assessment, Code::SightBlocked);
    let mut inside = 0;
    for found in &found {
        assert!((number(found.measured.unwrap()) - 1.0).abs() < 1e-9);
        inside += usize::from(found.facts == Facts::SightBlocked(InSight::CoversSensor));
    }
    assert_eq!((found.len(), inside), (3, 2), "{found:#?}");
}

/// What hides so little that it is not spoken of is still judged by the first Fresnel zone: every thing in the way is
/// reported by one of the two.
#[test]
fn a_sliver_is_left_to_the_fresnel_zone() {
    // Half way, a target of 20 mm leaves the sight 10 mm wide: the box reaches 0.00001 mm into it.
    let mut arrangement = with(vec![cabinet("box", (6_800.0, 3_105.0 - 1e-5), 0.002, 200.0)]);
    arrangement.bay.things[0].material = Material::Wood;
    arrangement.aiming.placements[0].target.width = 20.0;
    none(&arrangement, Code::SightBlocked);
    check(&arrangement, Code::FresnelEntered, Severity::Stops, None);
}

/// ITU-R P.526 through references.md §1: at 77 GHz, 2 m from both ends, the first zone's radius is 62.3972 mm. A narrow
/// target leaves the sight thin there, so that a thing beside it enters the zone and hides nothing.
#[test]
fn the_first_fresnel_zone() {
    let beside = |gap: f64| {
        let mut arrangement = with(vec![cabinet("box", (6_800.0, 3_000.0 + gap + 100.0), 0.002, 200.0)]);
        arrangement.bay.things[0].material = Material::Wood;
        arrangement.aiming.placements[0].target.width = 20.0;
        arrangement
    };
    none(&beside(62.5), Code::FresnelEntered);
    check(&beside(62.3), Code::FresnelEntered, Severity::Care, None);
    check(&beside(0.601 * 62.3972), Code::FresnelEntered, Severity::Care, None);
    let found = check(&beside(0.599 * 62.3972), Code::FresnelEntered, Severity::Stops, None);
    assert!((number(found.measured.unwrap()) - 0.599).abs() < 1e-3, "{:?}", found.measured);
}

#[test]
fn a_camera_has_no_fresnel_zone() {
    let mut arrangement = with(vec![cabinet("box", (6_800.0, 3_130.0), 10.0, 200.0)]);
    arrangement.bay.things[0].material = Material::Wood;
    arrangement.aiming.placements[0].target.width = 20.0;
    assert!(!of(&assess(&arrangement), Code::FresnelEntered).is_empty());
    arrangement.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
    none(&arrangement, Code::FresnelEntered);
}

#[test]
fn the_car_against_a_thing() {
    // The body's left side is at y = 3900; a bench that begins at 3880 is 20 mm too close.
    let mut arrangement = with(vec![cabinet("bench", (2_000.0, 4_180.0), 600.0, 600.0)]);
    check(&arrangement, Code::CarClash, Severity::Stops, Some(20.0));
    // Under the body's edge, lower than the sill.
    arrangement.bay.things[0].span = span(0.0, 149.0);
    none(&arrangement, Code::CarClash);
}

#[test]
fn room_to_work() {
    let mut arrangement = with(vec![cabinet("bench", (2_000.0, 4_600.0), 600.0, 600.0)]);
    let found = check(&arrangement, Code::WorkingRoom, Severity::Care, Some(400.0));
    assert_eq!(found.facts, Facts::WorkingRoom(baywright_planner::CarSide::Left));
    arrangement.bay.things[0].place =
        baywright_planner::geometry::PlanPose::new((2_000.0, 4_800.0).into(), 0.0);
    none(&arrangement, Code::WorkingRoom);
}

#[test]
fn the_stand_against_a_thing() {
    // The feet reach from 20 to 500 mm behind the face at x = 8800.
    let mut box_ = cabinet("box", (9_200.0, 3_300.0), 200.0, 100.0);
    box_.span = span(0.0, 300.0);
    box_.material = Material::Wood;
    check(&with(vec![box_.clone()]), Code::StandClash, Severity::Stops, Some(50.0));
    box_.span = span(60.0, 300.0);
    none(&with(vec![box_]), Code::StandClash);
}

/// The foot of a perpendicular may fall on another mark: the run is named by the marks of its own step.
#[test]
fn a_run_is_named_by_its_own_marks() {
    // W under the front left tyre; X where the diagonals cross; M between the front spots, where the foot D falls too.
    let mut arrangement = with(vec![cabinet("drum", (3_400.0, 3_000.0), 300.0, 300.0)]);
    let step = |id: &str, construction| MarkStep { id: id.into(), construction };
    let plan = &mut arrangement.aiming.mark_plan;
    plan.truncate(4);
    plan.extend([
        step("W", Construction::WheelPoint { wheel: Wheel::FrontLeft }),
        step("X", Construction::Crossing { first: (2, 1), second: (3, 0) }),
        step("M", Construction::Middle { first: 2, second: 3 }),
        step("D", Construction::Foot { of: 4, from: 5, to: 6 }),
    ]);
    arrangement.aiming.placements[0].mark = None;
    let assessment = assess(&arrangement);
    let runs: Vec<_> = of(&assessment, Code::RunBlocked).iter().map(|f| f.subjects.clone()).collect();
    let of_the_foot = [Subject::Thing("drum".into()), Subject::Run("X".into(), "D".into())];
    assert!(runs.iter().any(|subjects| *subjects == of_the_foot), "{runs:?}");
    assert!(
        !runs.iter().any(|subjects| subjects.contains(&Subject::Run("X".into(), "M".into()))),
        "{runs:?}"
    );
}

/// Marks 1 to 4 lie 150 mm outboard of the tyres: y = 3000 ± (770 + 100 + 150). Mark 3 is at (4000, 4020).
#[test]
fn a_thing_on_a_mark_and_in_a_run() {
    let arrangement = with(vec![cabinet("drum", (4_000.0, 4_220.0), 300.0, 500.0)]);
    let found = check(&arrangement, Code::MarkPlace, Severity::Stops, None);
    assert_eq!(found.subjects[1], Subject::Mark("3".into()));
    let assessment = assess(&with(vec![cabinet("drum", (6_000.0, 4_220.0), 300.0, 500.0)]));
    let runs = of(&assessment, Code::RunBlocked);
    assert_eq!(runs.len(), 1);
    assert_eq!(runs[0].subjects[1], Subject::Run("1".into(), "5".into()));
    // Over the laser's light it is not in the way.
    let mut shelf = cabinet("shelf", (6_000.0, 4_220.0), 300.0, 500.0);
    shelf.span = span(100.0, 900.0);
    none(&with(vec![shelf]), Code::RunBlocked);
    assert_eq!(words_tool(), [Tool::Tape, Tool::LineLaser]);
}

fn words_tool() -> [Tool; 2] {
    let scene = assess(&clear()).scene;
    let tool = |mark: usize| scene.runs.iter().find(|run| run.mark == mark).unwrap().run.tool;
    [tool(6), tool(4)]
}

/// A place typed with a nought too many, and two things in one place.
#[test]
fn things_that_cannot_be_there() {
    let found = check(
        &with(vec![cabinet("cabinet", (7_450.0, 44_750.0), 900.0, 450.0)]),
        Code::ThingPlace,
        Severity::Care,
        Some(44_750.0 + 225.0 - 6_000.0),
    );
    assert_eq!(found.subjects[1], Subject::Wall("left wall".into()));
    // Let into the wall by 50 mm it may be.
    none(&with(vec![cabinet("shelf", (7_450.0, 5_825.0), 900.0, 450.0)]), Code::ThingPlace);
    let both =
        [cabinet("one", (1_000.0, 500.0), 600.0, 400.0), cabinet("other", (1_550.0, 600.0), 600.0, 400.0)];
    check(&with(both.clone().into()), Code::ThingPlace, Severity::Care, Some(50.0));
    let mut above = both;
    above[1].span = span(1_000.0, 1_500.0);
    none(&with(above.into()), Code::ThingPlace);
}

#[test]
fn head_room() {
    let mut arm = cabinet("hoist arm", (2_000.0, 3_000.0), 400.0, 400.0);
    arm.span = span(1560.0, 1700.0);
    check(&with(vec![arm.clone()]), Code::HeadRoom, Severity::Care, Some(60.0));
    arm.span = span(1490.0, 1700.0);
    check(&with(vec![arm.clone()]), Code::CarClash, Severity::Stops, None);
    arm.place = baywright_planner::geometry::PlanPose::new((2_000.0, 4_300.0).into(), 0.0);
    arm.span = span(1900.0, 2200.0);
    let found = check(&with(vec![arm]), Code::HeadRoom, Severity::Care, Some(1900.0));
    assert_eq!(number(found.limit.unwrap()), 2032.0);
}

#[test]
fn the_way_out() {
    let mut arrangement = with(vec![cabinet("bin", (500.0, 400.0), 600.0, 600.0)]);
    arrangement.bay.keep_free = vec![KeepFree {
        id: "way out".into(),
        kind: KeepFreeKind::Exit,
        outline: rectangle((0.0, 0.0), (1_000.0, 1_000.0)),
    }];
    check(&arrangement, Code::KeepFree, Severity::Care, Some(700.0));
    // The same before an exit door: 900 wide and 711.2 deep.
    arrangement.bay.keep_free.clear();
    arrangement.bay.openings = vec![Opening {
        id: "back door".into(),
        kind: OpeningKind::SwingDoor,
        wall: 0,
        from: 200.0,
        width: 900.0,
        span: span(0.0, 2000.0),
        material: Material::Wood,
        shut: true,
        free_beyond: 0.0,
        is_exit: true,
    }];
    check(&arrangement, Code::KeepFree, Severity::Care, Some(600.0));
    let text = words::Words::new(&arrangement, Default::default(), Default::default());
    let assessment = assess(&arrangement);
    assert!(text.line(of(&assessment, Code::KeepFree)[0]).contains("Local rules decide"));
}
