//! Sentences: what a technician reads.

use baywright_planner::at_once::pair;
use baywright_planner::model::*;
use baywright_planner::words::{Locale, Units, Words};
use baywright_planner::{Code, Quantity, Subject, assess};

use crate::support::*;

fn plain(text: &str) -> String {
    text.replace('\u{202f}', " ")
}

#[test]
fn a_finding_reads_well() {
    let mut arrangement = with(vec![cabinet("tool cabinet", (8_000.0, 4_475.0), 900.0, 450.0)]);
    arrangement.bay.things[0].place.known = Known::Taped;
    let assessment = assess(&arrangement);
    let words = Words::new(&arrangement, Locale::default());
    let found = of(&assessment, Code::ZoneObject)[0];
    assert_eq!(
        plain(&words.line(found)),
        "Tool cabinet is inside the keep-clear zone “beam”: 250 mm inside. Steel, from 0 mm to 1 000 mm above the \
         floor; the zone is to be clear of metal."
    );
    assert_eq!(
        plain(&words.cure(found).unwrap()),
        "Move the tool cabinet 270 mm towards the car's left. 250 mm would do if all stood exactly as drawn; the rest is \
         for how well places are known."
    );
    assert_eq!(
        plain(&words.summary(&assessment)),
        "One point stops the aiming. Move the tool cabinet, and the space is ready."
    );
}

#[test]
fn a_name_that_ends_in_a_figure_does_not_run_into_the_length() {
    let arrangement = with(vec![cabinet("drum 2", (8_000.0, 4_475.0), 900.0, 450.0)]);
    let assessment = assess(&arrangement);
    let words = Words::new(&arrangement, Default::default());
    let cure = words.cure(of(&assessment, Code::ZoneObject)[0]).unwrap();
    assert!(plain(&cure).contains("drum 2 by 250 mm"), "{cure}");
}

/// A name that is one already, or was typed with its article, gets no second one.
#[test]
fn no_name_has_two_articles() {
    for (name, told) in [("drain", "the drain"), ("drain 2", "drain 2"), ("The drain", "The drain")] {
        let mut arrangement = clear();
        arrangement.bay.floor_features = vec![FloorFeature {
            id: name.into(),
            kind: FloorFeatureKind::Pit,
            outline: rectangle((3_900.0, 3_650.0), (4_100.0, 3_850.0)),
            material: Material::Concrete,
            proud_mm: 0.0,
        }];
        let assessment = assess(&arrangement);
        let words = Words::new(&arrangement, Locale::default());
        let title = words.title(of(&assessment, Code::WheelPlace)[0]);
        assert_eq!(title, format!("The front left wheel stands on {told}"));
    }
}

/// A target that stands on the line is not laid nothing aside of it, and no turn is no turn to the left.
#[test]
fn nothing_aside_is_not_said() {
    use baywright_planner::geometry::marks::Construction;
    let mut arrangement = clear();
    let told = |how: Construction, arrangement: &mut Arrangement| {
        arrangement.aiming.mark_plan[1].construction = how;
        let words = Words::new(arrangement, Locale::default());
        plain(&words.instruction(1, &assess(arrangement).scene))
    };
    let aside = |along: f64, aside: f64| Construction::AlongAside { from: 0, to: 2, along, aside };
    let on_line = told(aside(500.0, 0.0), &mut arrangement);
    assert!(on_line.contains("tape 500 mm, on the line through both."), "{on_line}");
    assert!(told(aside(0.0, 0.0), &mut arrangement).contains("on mark 1."));
    let beside = told(aside(500.0, -20.0), &mut arrangement);
    assert!(beside.contains("20 mm square to the line, on its right"), "{beside}");
    let turned = |angle: f64| Construction::AtAngle { at: 0, towards: 2, angle, distance: 500.0 };
    let straight = told(turned(0.0), &mut arrangement);
    assert!(straight.ends_with("from mark 1 towards mark 3 tape 500 mm."), "{straight}");
    assert!(told(turned(0.5), &mut arrangement).contains("to the left of the line"));
}

/// A level of reflection is told as it was entered.
#[test]
fn a_level_of_echo_is_not_rounded_away() {
    let arrangement = clear();
    let words = Words::new(&arrangement, Locale::default());
    let told = |level: f64| words.keeps_clear_of(Exclusion::Reflecting(level));
    assert!(told(-10.0).contains("above \u{2212}10 dBsm (that of 0.1 m²)"), "{}", told(-10.0));
    assert!(told(-0.5).contains("above \u{2212}0.5 dBsm"), "{}", told(-0.5));
    assert!(told(-0.01).contains("above 0 dBsm"), "{}", told(-0.01));
}

#[test]
fn every_sentence_is_whole() {
    for seed in 0..40 {
        let mut arrangement = crate::totality::crowded(seed, 15);
        arrangement.bay.survey = None;
        all_whole(&arrangement);
    }
}

/// What is asked of the way in, of people, of room at the target, of marks, tape and glass.
#[test]
fn every_sentence_of_the_room_is_whole() {
    let told = |change: fn(&mut Arrangement), code: Code| {
        let mut arrangement = clear();
        change(&mut arrangement);
        assert!(!of(&assess(&arrangement), code).is_empty(), "{code:?}");
        all_whole(&arrangement);
    };
    let pit = |arrangement: &mut Arrangement, low: (f64, f64), high: (f64, f64), proud_mm: f64| {
        let kind = if proud_mm > 0.0 { FloorFeatureKind::Joint } else { FloorFeatureKind::Pit };
        let (id, material, outline) = ("spot".into(), Material::Concrete, rectangle(low, high));
        arrangement.bay.floor_features.push(FloorFeature { id, kind, outline, material, proud_mm });
    };
    for (low, high) in [((6_000.0, 2_600.0), (8_000.0, 3_400.0)), ((6_000.0, 5_600.0), (8_000.0, 5_900.0))] {
        let mut arrangement = clear();
        pit(&mut arrangement, low, high, 0.0);
        assert!(!of(&assess(&arrangement), Code::OpenPit).is_empty());
        all_whole(&arrangement);
    }
    told(
        |own| {
            own.sensor.kind = SensorKind::SurroundCamera(Camera { pixels_across: 1_280, pixels_down: 960 });
            own.aiming.placements[0].height = TargetHeight::OnFloor;
            own.bay.walls[0].material = Material::Glass;
        },
        Code::LightOnMat,
    );
    told(
        |own| {
            own.aiming.zones[0].excludes = Exclusion::People;
            own.bay.things = vec![cabinet("colleague", (7_000.0, 5_000.0), 400.0, 400.0)];
            (own.bay.things[0].kind, own.bay.things[0].material) = (ThingKind::Person, Material::Person);
        },
        Code::PersonNear,
    );
    told(
        |own| {
            own.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1_280, pixels_down: 960 });
            own.bay.things = vec![cabinet("colleague", (11_000.0, 3_000.0), 400.0, 400.0)];
            (own.bay.things[0].kind, own.bay.things[0].material) = (ThingKind::Person, Material::Person);
        },
        Code::PersonNear,
    );
    told(
        |own| {
            own.sensor.kind = SensorKind::Lidar;
            own.aiming.zones.clear();
            own.bay.things = vec![cabinet("colleague", (7_000.0, 4_200.0), 400.0, 400.0)];
            (own.bay.things[0].kind, own.bay.things[0].material) = (ThingKind::Person, Material::Person);
        },
        Code::PersonNear,
    );
    for (y, kept) in [(3_700.0, false), (3_700.0, true), (3_000.0, true), (5_500.0, false)] {
        let mut arrangement = clear();
        arrangement.bay.openings = vec![Opening { material: Material::Steel, ..side_door() }];
        arrangement.parked = PlanPose::new(DVec2::new(4_000.0, y), 0.0);
        arrangement.kept_shut.extend(kept.then(|| "side door".into()));
        assert!(!of(&assess(&arrangement), Code::ShutDoor).is_empty(), "{y} {kept}");
        all_whole(&arrangement);
    }
    for (at, differs) in [((-3_000.0, 3_000.0), vec![]), ((-30_000.0, 0.0), vec![Id::from("gate")])] {
        let parked = PlanPose::new(DVec2::from(at), 0.0);
        let other = Arrangement { id: "the other one".into(), parked, ..clear() };
        let arrangement = pair(clear(), other, Default::default(), differs);
        assert!(!of(&assess(&arrangement), Code::Beside).is_empty(), "{at:?}");
        all_whole(&arrangement);
    }
    told(|own| own.aiming.placements[0].mark = None, Code::MarkMissing);
    told(|own| own.aiming.zones.clear(), Code::ZonesMissing);
    told(
        |own| {
            own.aiming.zones.clear();
            own.aiming.names_no_zone = true;
        },
        Code::NoZoneNamed,
    );
    told(|own| own.aiming.tolerance.azimuth_rad = 1e-4, Code::MarkUnsure);
    told(
        |own| {
            own.aiming.zones[0].excludes = Exclusion::People;
            own.bay.openings = vec![open_door(2, 4_000.0, 2_400.0, 0.0)];
            own.parked = PlanPose::new(DVec2::new(4_000.0, 3_800.0), 0.0);
        },
        Code::WalkIn,
    );
    told(
        |own| {
            own.aiming.zones[0].excludes = Exclusion::People;
            let (id, kind, outline) =
                ("lane".into(), KeepFreeKind::Exit, rectangle((7_000.0, 0.0), (8_000.0, 6_000.0)));
            own.bay.keep_free = vec![KeepFree { id, kind, outline }];
        },
        Code::WalkIn,
    );
    told(
        |own| {
            own.bay.openings = vec![open_door(3, 1_800.0, 2_400.0, 0.0)];
            own.bay.things = vec![cabinet("beam", (500.0, 3_000.0), 200.0, 2_400.0)];
            (own.bay.things[0].span, own.bay.things[0].effort) = (span(1_400.0, 1_700.0), Effort::Fixed);
        },
        Code::WayIn,
    );
    let mut arrangement = clear();
    arrangement.bay.openings = vec![open_door(3, 1_800.0, 2_400.0, 0.0)];
    pit(&mut arrangement, (100.0, 1_000.0), (400.0, 5_000.0), 0.0);
    assert!(!of(&assess(&arrangement), Code::WayIn).is_empty());
    all_whole(&arrangement);
    let mut arrangement = clear();
    pit(&mut arrangement, (4_100.0, 3_000.0), (4_200.0, 5_000.0), 20.0);
    assert!(!of(&assess(&arrangement), Code::TapeOver).is_empty());
    all_whole(&arrangement);
    let mut arrangement = clear();
    pit(&mut arrangement, (8_000.0, 2_500.0), (8_700.0, 3_500.0), 0.0);
    assert!(!of(&assess(&arrangement), Code::StandRoom).is_empty());
    all_whole(&arrangement);
    told(
        |own| {
            own.bay.things = vec![
                cabinet("left shelf", (9_000.0, 3_850.0), 2_000.0, 300.0),
                cabinet("right shelf", (9_000.0, 2_175.0), 2_000.0, 350.0),
            ];
        },
        Code::StandRoom,
    );
    told(
        |own| {
            own.sensor.kind = SensorKind::Lidar;
            own.bay.walls[1].material = Material::Glass;
        },
        Code::GlassBehind,
    );
}

fn all_whole(arrangement: &Arrangement) {
    let assessment = assess(arrangement);
    for units in [Units::Millimetres, Units::Metres, Units::FeetInches] {
        let words = Words::new(arrangement, Locale { units, ..Locale::default() });
        for finding in &assessment.findings {
            for text in [Some(words.line(finding)), words.cure(finding), Some(words.why(finding))]
                .into_iter()
                .flatten()
            {
                assert!(text.ends_with('.'), "{text}");
                assert!(
                    ["the the ", "..", "  ", " ,", " ."].iter().all(|slip| !text.contains(slip)),
                    "{text}"
                );
                assert!(!text.contains("NaN") && !text.contains("inf "), "{text}");
                assert!(text.starts_with(|c: char| c.is_uppercase() || c.is_ascii_digit()), "{text}");
            }
        }
    }
}

#[test]
fn marks_are_told_as_work() {
    let arrangement = clear();
    let words = Words::new(&arrangement, Locale::default());
    let all: Vec<String> =
        (0..7).map(|i| plain(&words.instruction(i, &assess(&arrangement).scene))).collect();
    assert_eq!(
        all[0],
        "Mark 1: 150 mm outboard of the rear left tyre's outer side, square to the car, level with the wheel's middle."
    );
    assert_eq!(
        all[4],
        "Mark 5: line laser or string through marks 1 and 3, then tape 4 800 mm on beyond mark 3."
    );
    assert_eq!(all[6], "Mark T: half way between marks 5 and 6; check it from both.");
}

/// What is shown never contradicts the verdict beside it: a value and its limit that differ look different, and what is not
/// nothing does not look like nothing.
#[test]
fn a_figure_never_contradicts_its_verdict() {
    let mut arrangement = with(vec![cabinet("cabinet", (8_000.0, 4_475.0), 900.0, 450.0)]);
    arrangement.bay.things[0].place.known = Known::Taped;
    let found = of(&assess(&arrangement), Code::ZoneObject)[0].clone();
    let near =
        baywright_planner::Finding { facts: baywright_planner::Facts::ZoneNear(Vec::new()), ..found.clone() };
    let length = Quantity::Length;
    let angle = |degrees: f64| Quantity::Angle(degrees.to_radians());
    for (units, finding, measured, limit, said) in [
        (Units::Millimetres, &found, length(5.004), length(5.0), "5.004 mm inside, limit 5.000 mm"),
        (Units::Millimetres, &found, length(250.0), length(0.0), "250 mm inside"),
        (Units::Metres, &found, length(5.2), length(5.0), "0.0052 m inside, limit 0.0050 m"),
        (Units::FeetInches, &found, length(25.8), length(25.4), "1.02 in inside, limit 1.00 in"),
        // 4 mm are less than ³⁄₁₆ of an inch, and are not told as that.
        (Units::FeetInches, &found, length(5.9), length(4.0), "0.232 in inside, limit 0.157 in"),
        (Units::Millimetres, &near, length(0.003), length(20.0), "clear by 0.003 mm, wants 20.000 mm"),
        (Units::Millimetres, &near, length(0.0), length(20.0), "clear by 0 mm, wants 20 mm"),
        (Units::Millimetres, &found, angle(0.2004), angle(0.2), "0.2004° inside, limit 0.2000°"),
        (
            Units::Millimetres,
            &found,
            Quantity::Ratio(0.598),
            Quantity::Ratio(0.6),
            "0.598 inside, limit 0.600",
        ),
        (Units::Millimetres, &found, length(5.0), length(5.0), "5 mm inside, limit 5 mm"),
    ] {
        let finding =
            baywright_planner::Finding { measured: Some(measured), limit: Some(limit), ..finding.clone() };
        let words = Words::new(&arrangement, Locale { units, ..Locale::default() });
        assert_eq!(plain(&words.measure(&finding).unwrap()), said);
    }
}

/// Each kind of difference in words, the figures of both where there are two; none is empty, and none says nothing for something.
#[test]
fn differences_read_well() {
    use baywright_planner::difference::{Change, Difference, Figure, Kind};
    use baywright_planner::geometry::{DVec2, angle};
    let arrangement = clear();
    let words = Words::new(&arrangement, Locale::default());
    let said = |of: Subject, what: Change| plain(&words.difference(&Difference { of, what }));
    let wall = || Subject::Wall("street wall".into());
    let door = || Subject::Opening("roller door".into());
    let bench = || Subject::Thing("bench".into());
    let round = |diameter_mm| Box::new(Shape::Round { diameter_mm });
    for (of, what, expected) in [
        (wall(), Change::FurtherOut(600.0), "Street wall: 600 mm further out"),
        (wall(), Change::FurtherOut(-0.004), "Street wall: 0.004 mm further in"),
        (
            wall(),
            Change::Length(Figure::WallLength, [5_400.0, 6_000.0]),
            "Street wall: 6 000 mm long instead of 5 400 mm",
        ),
        (
            wall(),
            Change::Ends([0.0, 500.0]),
            "Street wall: runs otherwise, with its ends 0 mm and 500 mm from where they were",
        ),
        (
            wall(),
            Change::Material([Material::Brick, Material::Mesh]),
            "Street wall: made of: wire mesh instead of brick",
        ),
        (wall(), Change::Name("wall 1".into()), "Street wall: was called “wall 1”"),
        (
            Subject::Floor,
            Change::Length(Figure::Ceiling, [3_000.0, 3_000.3]),
            "Room: ceiling at 3000.3 mm instead of 3000.0 mm",
        ),
        (
            Subject::Floor,
            Change::Known([Known::Taped, Known::Within(7.0)]),
            "Room: walls known: ± 7 mm instead of taped, ± 20 mm",
        ),
        (door(), Change::New, "Roller door: new"),
        (door(), Change::Gone, "Roller door: not there any more"),
        (
            door(),
            Change::Kind([OpeningKind::RollerDoor, OpeningKind::Window].map(Kind::Opening)),
            "Roller door: window instead of roller door",
        ),
        (
            door(),
            Change::Heights([[0.0, 2_500.0], [0.0, 2_700.0]]),
            "Roller door: from 0 mm to 2 700 mm above the floor instead of from 0 mm to 2 500 mm",
        ),
        (door(), Change::Wall(["a".into(), "b".into()]), "Roller door: in “b” instead of “a”"),
        (door(), Change::Shut(false), "Roller door: open now"),
        (
            bench(),
            Change::Moved(DVec2::new(0.0, -300.0), angle::radians(-15.0)),
            "Bench: 300 mm towards the car's right, turned 15.0° clockwise",
        ),
        (bench(), Change::Moved(DVec2::ZERO, angle::radians(15.0)), "Bench: turned 15.0° anticlockwise"),
        (
            bench(),
            Change::Shape([round(500.0), round(400.0)]),
            "Bench: 400 mm across instead of 500 mm across",
        ),
        (
            bench(),
            Change::Metal([None, Some(Metal::Frame)]),
            "Bench: metal in it: a frame or studs instead of as its face says",
        ),
        (
            bench(),
            Change::Outline([DVec2::new(900.0, 400.0); 2]),
            "Bench: another outline, of the same size: 900 mm × 400 mm",
        ),
        (bench(), Change::Locked(true), "Bench: locked now"),
        (bench(), Change::Locked(false), "Bench: not locked any more"),
        (
            Subject::Car,
            Change::Carried([vec!["lift, left".into(), "lift, right".into()], Vec::new()]),
            "Car: on the floor instead of on “lift, left” and “lift, right”",
        ),
        (Subject::Car, Change::Moved(DVec2::new(150.0, 0.0), 0.0), "Car: 150 mm towards the car's front"),
    ] {
        assert_eq!(said(of, what), expected);
    }
}
