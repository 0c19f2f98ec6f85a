//! The target, the field of view, the axis, the floor, the figures.

use baywright_planner::geometry::{DVec2, DVec3, PlanPose, angle};
use baywright_planner::model::*;
use baywright_planner::{
    Code, Facts, FloorFact, InSight, OffBy, OffPlace, OnRunways, Severity, Subject, Verdict, assess,
};

use crate::support::*;

/// The target set off its place by these: away, left seen from the sensor, up, turned (degrees), tipped (degrees).
fn off(kind: TargetKind, error: AimError, by: [f64; 5]) -> Arrangement {
    let [along, across, up, yaw, pitch] = by;
    let mut arrangement = clear();
    arrangement.aiming.placements[0].target = target(kind, error);
    arrangement.aiming.placements[0].tolerance = PlaceTolerance::default();
    arrangement.stands = vec![StandSet::At {
        place: PlanPose::new(
            DVec2::new(8_800.0 + along, 3_000.0 + across),
            angle::radians(180.0) + angle::radians(yaw),
        ),
        height: 500.0 + up,
        pitch: angle::radians(pitch),
    }];
    arrangement
}

fn azimuth_error(arrangement: &Arrangement) -> f64 {
    let assessment = assess(arrangement);
    let found = of(&assessment, Code::StandOffMark);
    let Facts::StandOffMark(OffPlace { azimuth_error, .. }) = found[0].facts else { panic!() };
    angle::degrees(azimuth_error)
}

/// Common practice, no source: 0.1° at 4 m is 7 mm across (4000 · tan 0.1° = 6.98 mm).
#[test]
fn a_reflector_aims_by_its_place() {
    let mm = 4000.0 * libm::tan(angle::radians(0.1));
    assert!((mm - 6.98).abs() < 0.005);
    let reflector = |across| off(TargetKind::CornerReflector, AimError::PLACE, [0.0, across, 0.0, 0.0, 0.0]);
    assert!((azimuth_error(&reflector(mm)) - 0.1).abs() < 1e-9);
    check(&reflector(6.9), Code::StandOffMark, Severity::Care, None);
    check(&reflector(-7.1), Code::StandOffMark, Severity::Stops, None);
    none(&reflector(3.4), Code::StandOffMark);
    // How it is turned does not matter.
    none(&off(TargetKind::CornerReflector, AimError::PLACE, [0.0, 0.0, 0.0, 5.0, 5.0]), Code::StandOffMark);
}

/// Common practice, no source: a tenth of a degree over a 500 mm plate is 0.9 mm between its two ends.
#[test]
fn a_plate_aims_by_its_squareness() {
    let plate = |by| off(TargetKind::Plate, AimError::SQUARENESS, by);
    let yaw = angle::degrees(libm::asin(0.873 / 500.0));
    assert!((yaw - 0.1).abs() < 1e-4);
    assert!((azimuth_error(&plate([0.0, 0.0, 0.0, yaw, 0.0])) - yaw).abs() < 1e-9);
    check(&plate([0.0, 0.0, 0.0, 0.11, 0.0]), Code::StandOffMark, Severity::Stops, None);
    let tipped = check(&plate([0.0, 0.0, 0.0, 0.0, -0.2]), Code::StandOffMark, Severity::Stops, None);
    let Facts::StandOffMark(OffPlace { about, .. }) = tipped.facts else { panic!() };
    assert_eq!(about, OffBy::Elevation);
    // Its place does not matter to the aim; only what the procedure allows counts.
    none(&plate([9.0, 9.0, 9.0, 0.0, 0.0]), Code::StandOffMark);
    // Where it says nothing, more than 10 mm is worth a second look.
    check(&plate([30.0, 12.0, 0.0, 0.0, 0.0]), Code::StandOffMark, Severity::Care, Some(30.0));
    let mut placed = plate([0.0, 30.0, 0.0, 0.0, 0.0]);
    placed.aiming.placements[0].tolerance.across = Some(20.0);
    check(&placed, Code::StandOffMark, Severity::Stops, Some(30.0));
}

#[test]
fn a_board_adds_both_without_sign() {
    let both = AimError { by_place: 1.0, by_squareness: 0.5 };
    for yaw in [0.2, -0.2] {
        let board =
            off(TargetKind::Board, both, [0.0, 4000.0 * libm::tan(angle::radians(0.1)), 0.0, yaw, 0.0]);
        assert!((azimuth_error(&board) - 0.2).abs() < 1e-9);
    }
}

#[test]
fn height_tips_the_aim_of_a_reflector() {
    let found = check(
        &off(TargetKind::CornerReflector, AimError::PLACE, [0.0, 0.0, 10.0, 0.0, 0.0]),
        Code::StandOffMark,
        Severity::Stops,
        Some(libm::atan2(10.0, 4000.0)),
    );
    let Facts::StandOffMark(OffPlace { height, about, .. }) = found.facts else { panic!() };
    assert_eq!((height, about), (10.0, OffBy::Elevation));
}

/// The centre of a reflector lies behind its mouth: tipped down by 3° and left at its height otherwise, the centre 80 mm
/// behind rises by 80 sin 3° = 4.187 mm and comes 80 (1 - cos 3°) = 0.11 mm nearer.
#[test]
fn a_tipped_reflector_lifts_its_centre() {
    let mut tipped = off(TargetKind::CornerReflector, AimError::PLACE, [0.0, 0.0, 0.0, 0.0, 3.0]);
    tipped.aiming.placements[0].target.centre_behind = 80.0;
    tipped.aiming.placements[0].tolerance.height = Some(4.0);
    let rise = 80.0 * libm::sin(angle::radians(3.0));
    let found = check(&tipped, Code::StandOffMark, Severity::Stops, Some(rise));
    let Facts::StandOffMark(OffPlace { along, height, elevation_error, .. }) = found.facts else { panic!() };
    assert!(
        (height - rise).abs() < 1e-9 && (along + 80.0 * (1.0 - libm::cos(angle::radians(3.0)))).abs() < 1e-9
    );
    assert!((elevation_error - libm::atan2(rise, 4080.0 + along)).abs() < 1e-9);
}

#[test]
fn a_target_beside_the_view() {
    let mut arrangement = clear();
    arrangement.sensor.view.azimuth_half = angle::radians(3.0);
    // The plate's edge is seen 250 mm aside at 4000: 3.576°. Its middle is straight ahead.
    let found = check(&arrangement, Code::FieldOfView, Severity::Care, Some(libm::atan2(250.0, 4000.0)));
    assert!((number(found.limit.unwrap()) - angle::radians(3.0)).abs() < 1e-12);
    arrangement.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
    check(&arrangement, Code::FieldOfView, Severity::Stops, None);
    arrangement.sensor.view.azimuth_half = angle::radians(3.6);
    none(&arrangement, Code::FieldOfView);
    arrangement.sensor.azimuth = angle::radians(170.0);
    check(&arrangement, Code::FieldOfView, Severity::Stops, None);
}

#[test]
fn a_target_turned_away() {
    let arrangement = off(TargetKind::Plate, AimError::SQUARENESS, [0.0, 0.0, 0.0, 180.0, 0.0]);
    let assessment = assess(&arrangement);
    assert_eq!(of(&assessment, Code::SightBlocked)[0].facts, Facts::SightBlocked(InSight::FacesAway));
}

/// The marks of the test car by closed form: outboard spots at ±1020, prolonged to x = 800 + 4000 = 4800 ahead of the
/// axle; their middle lies under the plate.
#[test]
fn the_mark_plan_leads_under_the_plate() {
    let scene = assess(&clear()).scene;
    let at = |id: &str| scene.marks.iter().find(|mark| mark.id.as_str() == id).unwrap().at.unwrap();
    assert!(at("1").distance(DVec2::new(1_400.0, 4_020.0)) < 1e-9);
    assert!(at("6").distance(DVec2::new(8_800.0, 1_980.0)) < 1e-9);
    assert!(at("T").distance(scene.targets[0].meant.place.origin()) < 1e-9);
    let diagonal = scene.readings.iter().find(|r| r.from.as_str() == "1" && r.to.as_str() == "6").unwrap();
    assert!((diagonal.distance - libm::hypot(7_400.0, 2_040.0)).abs() < 1e-9);
}

#[test]
fn a_plan_that_leads_elsewhere_says_so() {
    use baywright_planner::geometry::marks::{Construction, Reach};
    let mut arrangement = clear();
    for (step, from) in [(4, 0), (5, 1)] {
        arrangement.aiming.mark_plan[step].construction =
            Construction::Prolong { from, through: from + 2, reach: Reach::Length(4_800.5) };
    }
    none(&arrangement, Code::MarkOffTarget);
    arrangement.aiming.mark_plan[5].construction =
        Construction::Prolong { from: 1, through: 3, reach: Reach::Length(4_804.0) };
    check(&arrangement, Code::MarkOffTarget, Severity::Stops, Some(2.25));
    // A plan along the wheels cannot serve an aiming along a thrust line of 0.1°.
    let mut arrangement = clear();
    arrangement.aiming.axis = ReferenceAxis::ThrustLine;
    arrangement.on_this_car.rear_toe = Some((0.0, angle::radians(0.2)));
    check(&arrangement, Code::MarkOffTarget, Severity::Stops, None);
}

#[test]
fn a_step_that_cannot_be_done_says_so() {
    use baywright_planner::geometry::marks::Construction;
    let mut arrangement = clear();
    arrangement.aiming.mark_plan[6].construction = Construction::Crossing { first: (0, 2), second: (1, 3) };
    check(&arrangement, Code::MarkFault, Severity::Stops, None);
}

#[test]
fn the_thrust_line_moves_the_target() {
    let mut arrangement = clear();
    arrangement.aiming.axis = ReferenceAxis::ThrustLine;
    check(&arrangement, Code::AxisUnknown, Severity::Care, None);
    // (0.2 - 0) / 2 = 0.1° to the left.
    arrangement.on_this_car.rear_toe = Some((0.0, angle::radians(0.2)));
    none(&arrangement, Code::AxisUnknown);
    let scene = assess(&arrangement).scene;
    let expected = 3_000.0 + 4_000.0 * libm::sin(angle::radians(0.1));
    assert!((scene.targets[0].meant.place.origin().y - expected).abs() < 1e-9);
}

#[test]
fn figures_measured_on_the_car_count() {
    let mut arrangement = clear();
    arrangement.on_this_car.sensor_at = Some(DVec3::new(810.0, -5.0, 520.0));
    check(&arrangement, Code::MeasuredOnCar, Severity::Note, None);
    let scene = assess(&arrangement).scene;
    assert!(scene.sensor().distance(DVec3::new(4_810.0, 2_995.0, 520.0)) < 1e-9);
    assert!((scene.targets[0].meant.height - 520.0).abs() < 1e-9);
}

#[test]
fn the_floor() {
    let fact = |arrangement: &Arrangement| {
        let found = check(arrangement, Code::FloorLevels, Severity::Care, None);
        let Facts::FloorLevels(fact) = found.facts else { panic!() };
        fact
    };
    let mut arrangement = clear();
    arrangement.bay.survey.as_mut().unwrap().points[2].level = 5.0;
    none(&arrangement, Code::FloorLevels);
    arrangement.bay.survey.as_mut().unwrap().points[2].level = 5.1;
    assert_eq!(fact(&arrangement), FloorFact::NotJudged);
    let mut arrangement = clear();
    arrangement.today = Some(jiff::civil::date(2027, 6, 2));
    assert_eq!(fact(&arrangement), FloorFact::OutOfDate);
    arrangement.today = Some(jiff::civil::date(2027, 6, 1));
    none(&arrangement, Code::FloorLevels);
    arrangement.today = Some(jiff::civil::date(2026, 5, 31));
    assert_eq!(fact(&arrangement), FloorFact::Future);
    arrangement.bay.survey.as_mut().unwrap().taken = None;
    assert_eq!(fact(&arrangement), FloorFact::Undated);
    let mut arrangement = clear();
    arrangement.bay.survey.as_mut().unwrap().points.retain(|point| point.at.x < 7_000.0);
    assert_eq!(fact(&arrangement), FloorFact::NotCovered);
    arrangement.bay.survey = None;
    assert_eq!(fact(&arrangement), FloorFact::Unknown);
    assert_eq!(assess(&arrangement).verdict, Verdict::ReadyWithCare);
}

/// The rear left wheel stands at (1400, 3770), the target at (8800, 3000): nearest are the points at (1000, 4000) and
/// (9000, 3000).
#[test]
fn a_floor_that_is_not_level_at_wheels_and_target_stops() {
    let stops = |arrangement: &Arrangement, spread: f64| {
        let found = check(arrangement, Code::FloorLevels, Severity::Stops, Some(spread));
        assert_eq!(found.facts, Facts::FloorLevels(FloorFact::Uneven));
        assert!(found.cure.is_none(), "no survey makes a floor level");
        assert_eq!(assess(arrangement).verdict, Verdict::NotReady);
    };
    let low_at = |x: f64, y: f64, level: f64| {
        let mut arrangement = clear();
        for point in &mut arrangement.bay.survey.as_mut().unwrap().points {
            if point.at == DVec2::new(x, y) {
                point.level = -level;
            }
        }
        arrangement
    };
    stops(&low_at(1_000.0, 4_000.0, 5.1), 5.1);
    stops(&low_at(9_000.0, 3_000.0, 54.0), 54.0);
    none(&low_at(1_000.0, 4_000.0, 5.0), Code::FloorLevels);
    // A fall all along: 1.5 mm a metre over the 8 m from the rear wheels' points to the target's.
    let mut falling = clear();
    for point in &mut falling.bay.survey.as_mut().unwrap().points {
        point.level = 0.0015 * point.at.x;
    }
    stops(&falling, 12.0);
    // On runways the wheels do not stand on that floor.
    let mut raised = low_at(1_000.0, 4_000.0, 5.1);
    let runway = |name: &str, y: f64| Runway {
        id: name.into(),
        outline: rectangle((1_000.0, y - 300.0), (4_600.0, y + 300.0)),
        top: 150.0,
    };
    raised.bay.runways = vec![runway("left runway", 3_770.0), runway("right runway", 2_230.0)];
    raised.on_runways = vec!["left runway".into(), "right runway".into()];
    let found = check(&raised, Code::FloorLevels, Severity::Care, Some(5.1));
    assert_eq!(found.facts, Facts::FloorLevels(FloorFact::NotJudged));
}

#[test]
fn runways_carry_the_car() {
    let mut arrangement = clear();
    arrangement.bay.runways = vec![
        Runway {
            id: "left runway".into(),
            outline: rectangle((500.0, 3_500.0), (5_000.0, 4_000.0)),
            top: 400.0,
        },
        Runway {
            id: "right runway".into(),
            outline: rectangle((500.0, 2_000.0), (5_000.0, 2_500.0)),
            top: 400.0,
        },
    ];
    arrangement.on_runways = vec!["left runway".into(), "right runway".into()];
    let assessment = assess(&arrangement);
    assert_eq!(assessment.scene.carried_at, 400.0);
    assert!((assessment.scene.sensor().z - 900.0).abs() < 1e-9);
    none(&arrangement, Code::WheelOffRunway);
    // The left tyre's outer edge, at y = 3000 + 770 + 100, passes the runway's at 4000 by 1 mm.
    arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_131.0), 0.0);
    assert_eq!(of(&assess(&arrangement), Code::WheelOffRunway).len(), 2);
    arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_130.0), 0.0);
    none(&arrangement, Code::WheelOffRunway);
    arrangement.parked = PlanPose::new(DVec2::new(4_000.0, 3_000.0), angle::radians(12.0));
    assert!(!of(&assess(&arrangement), Code::WheelOffRunway).is_empty());
}

/// The same runways when the car stands on the floor between them: steel in the way of the car, the zone, the sight.
#[test]
fn runways_that_carry_nothing_are_steel() {
    let runway = |low, high, top| Runway { id: "runway".into(), outline: rectangle(low, high), top };
    let mut arrangement = clear();
    arrangement.bay.runways = vec![runway((5_500.0, 4_300.0), (7_000.0, 4_800.0), 400.0)];
    check(&arrangement, Code::ZoneObject, Severity::Stops, Some(200.0));
    arrangement.bay.runways = vec![runway((2_000.0, 3_890.0), (4_000.0, 4_400.0), 400.0)];
    check(&arrangement, Code::CarClash, Severity::Stops, Some(10.0));
    arrangement.bay.runways = vec![runway((6_799.999, 2_000.0), (6_800.001, 4_000.0), 500.0)];
    let hidden = check(&arrangement, Code::SightBlocked, Severity::Stops, None);
    assert!((number(hidden.measured.unwrap()) - 0.5).abs() < 1e-4);
}

/// Half way to the target the first zone's radius is 62.4 mm at 77 GHz: an idle runway whose top is 40 mm under the line
/// of sight enters it, though it hides nothing of a target that is only 20 mm high.
#[test]
fn an_idle_runway_in_the_first_fresnel_zone() {
    let mut arrangement = clear();
    arrangement.aiming.zones.clear();
    arrangement.aiming.placements[0].target.height = 20.0;
    let outline = rectangle((6_300.0, 2_700.0), (7_300.0, 3_300.0));
    arrangement.bay.runways = vec![Runway { id: "runway".into(), outline, top: 460.0 }];
    let found = check(&arrangement, Code::FresnelEntered, Severity::Care, None);
    assert_eq!(found.subjects[0], Subject::Runway("runway".into()));
    assert!((number(found.measured.unwrap()) - 40.0 / 62.3972).abs() < 1e-3, "{:?}", found.measured);
}

/// Seen from the rear right wheel's point at (1400, 2230): a pit under its tread stops, a grate needs care.
#[test]
fn wheels_on_bad_ground() {
    let mut arrangement = clear();
    let feature = |kind| FloorFeature {
        id: "pit".into(),
        kind,
        outline: rectangle((1_500.0, 2_100.0), (1_700.0, 2_200.0)),
        material: Material::Steel,
    };
    arrangement.bay.floor_features = vec![feature(FloorFeatureKind::Pit)];
    let found = check(&arrangement, Code::WheelPlace, Severity::Stops, None);
    assert_eq!(found.facts, Facts::WheelPlace(Wheel::RearRight));
    arrangement.bay.floor_features = vec![feature(FloorFeatureKind::Drain)];
    check(&arrangement, Code::WheelPlace, Severity::Care, None);
    arrangement.parked = PlanPose::new(DVec2::new(4_600.0, 3_000.0), 0.0);
    none(&arrangement, Code::WheelPlace);
}

/// references.md §8: thrust heading (right - left) / 2, and its offset at 2700 and 5000 mm.
#[test]
fn thrust_line_offsets() {
    for (left, right, at_2700, at_5000) in [
        (0.1, 0.1, 0.0, 0.0),
        (0.2, 0.0, -4.71239, -8.72666),
        (0.0, 0.2, 4.71239, 8.72666),
        (-0.05, 0.15, 4.71239, 8.72666),
        (0.3, -0.1, -9.42482, -17.45336),
    ] {
        let mut arrangement = clear();
        arrangement.aiming.axis = ReferenceAxis::ThrustLine;
        arrangement.on_this_car.rear_toe = Some((angle::radians(left), angle::radians(right)));
        let axis = assess(&arrangement).scene.bay_from_axis;
        let rear = DVec2::new(4_000.0 - 2_600.0, 3_000.0);
        for (distance, offset) in [(2_700.0, at_2700), (5_000.0, at_5000)] {
            // Where the axis crosses a line square to the car, so far ahead of the rear axle.
            let along = (rear.x + distance - axis.origin().x) / axis.ahead().x;
            let crossing = axis.origin() + axis.ahead() * along;
            assert!((crossing.y - rear.y - offset).abs() < 1e-4, "{left} {right} at {distance}");
        }
    }
}

#[test]
fn conditions_and_examples_are_notes() {
    let mut arrangement = clear();
    arrangement.aiming.conditions = vec!["tyres at their pressures".into(), "boot empty".into()];
    arrangement.aiming.provenance = Provenance::Example;
    arrangement.loading.profile_changed = true;
    arrangement.vehicle.assumed = vec!["tyre width".into()];
    let assessment = assess(&arrangement);
    assert!(assessment.on_example_figures);
    let texts: Vec<_> = of(&assessment, Code::Condition).iter().map(|f| f.facts.clone()).collect();
    assert_eq!(
        texts,
        [Facts::Condition("tyres at their pressures".into()), Facts::Condition("boot empty".into())]
    );
    check(&arrangement, Code::ProfileChanged, Severity::Care, None);
    check(&arrangement, Code::ExampleFigures, Severity::Note, None);
    check(&arrangement, Code::AssumedFigures, Severity::Note, None);
}
