//! What is saved reads back as it was, whole or not at all.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

use std::path::PathBuf;

use baywright_files::{
    EMBEDDED_LAYOUTS, EMBEDDED_PROFILES, FileFault, layout_text, load_layout, load_profile, parse_layout,
    parse_profile, profile_text, save_layout, save_profile,
};
use baywright_planner::geometry::{DVec2, PlanPose, Span, angle};
use baywright_planner::model::sheet::{AlignmentSheet, Inward, Rim, SheetUnit, Side, Told, Typed};
use baywright_planner::model::{
    CheckFrom, CheckRead, ComesIn, CostOf, Effort, Footprint, HallBay, Id, Known, Layout, LineOver,
    MarkCheck, MarkTaped, Material, Metal, Moved, OnThisCar, OwnerFigures, ParkedKnown, PermanentMark, Place,
    RearToe, SavedArrangement, Shape, SquareBy, StandRead, StandSet, Stood, Taken, TapedRoom, TapedWall,
    Thing, ThingKind, Underlay, WheelsAt, validate::limits,
};
use baywright_planner::words::Language;
use proptest::prelude::*;

/// A folder of its own below the build folder.
fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("saving-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// What is said of the first fault.
fn said(faults: &[FileFault]) -> String {
    Language::English.file_fault(&faults[0])
}

fn shipped_layout(name: &str) -> Layout {
    let file = EMBEDDED_LAYOUTS.iter().find(|e| e.name == name).unwrap();
    parse_layout(&file.label(), file.name, file.text).unwrap()
}

#[test]
fn every_shipped_file_survives_saving() {
    for file in EMBEDDED_LAYOUTS {
        let layout = parse_layout(&file.label(), file.name, file.text).unwrap();
        let again = parse_layout("again", file.name, &layout_text(&layout).unwrap()).unwrap();
        assert_eq!(layout, again, "{}", file.name);
    }
    for file in EMBEDDED_PROFILES {
        let profile = parse_profile(&file.label(), file.name, file.text).unwrap();
        let again = parse_profile("again", file.name, &profile_text(&profile.vehicle).unwrap()).unwrap();
        assert_eq!(profile.vehicle, again.vehicle, "{}", file.name);
        assert_eq!(profile.fingerprint, again.fingerprint, "{}", file.name);
    }
}

#[test]
fn numbers_read_well() {
    let mut layout = shipped_layout("crowded-bay");
    layout.bay.things[0].place.at = PlanPose::new(DVec2::new(0.1 + 0.2, -0.0), angle::radians(0.1 + 0.2));
    let text = layout_text(&layout).unwrap();
    assert!(text.contains("at_mm: (0.3, 0)") && text.contains("turned_deg: 0.3,"), "{text}");
    assert!(text.contains("length_mm: 600") && !text.contains("600.0") && !text.contains("000000"), "{text}");
    assert!(text.starts_with("// "), "a saved example still warns");
    assert!(text.contains("Never use them on a car"));
}

#[test]
fn comments_by_hand_are_kept_beside_whenever_there_are_some() {
    let folder = folder("comments");
    let path = folder.join("bay.ron");
    let file = EMBEDDED_LAYOUTS.iter().find(|e| e.name == "crowded-bay").unwrap();
    std::fs::write(&path, file.text).unwrap();
    let mut layout = load_layout(&path).unwrap();
    layout.bay.ceiling_mm = 3100.0;
    let backup = folder.join("bay.ron.bak");
    assert_eq!(save_layout(&path, &layout).unwrap().backup, Some(backup.clone()));
    assert_eq!(std::fs::read_to_string(&backup).unwrap(), file.text);
    assert_eq!(load_layout(&path).unwrap(), layout);
    // The second save has nothing to keep, and leaves the first backup alone.
    assert_eq!(save_layout(&path, &layout).unwrap().backup, None);
    assert_eq!(std::fs::read_to_string(&backup).unwrap(), file.text);
    // Somebody writes comments into it once more: they are kept as well, beside the first.
    let again =
        format!("// The compressor is on hire until May.\n{}", std::fs::read_to_string(&path).unwrap());
    std::fs::write(&path, &again).unwrap();
    let second = folder.join("bay.ron.2.bak");
    assert_eq!(save_layout(&path, &layout).unwrap().backup, Some(second.clone()));
    // What lies there word for word needs no further copy.
    for kept in [&again, file.text] {
        std::fs::write(&path, kept).unwrap();
        assert_eq!(save_layout(&path, &layout).unwrap().backup, None);
    }
    assert_eq!(std::fs::read_to_string(&second).unwrap(), again);
    assert_eq!(std::fs::read_to_string(&backup).unwrap(), file.text);
    // Nothing else is left lying about.
    let left: Vec<_> = std::fs::read_dir(&folder).unwrap().map(|e| e.unwrap().file_name()).collect();
    assert_eq!(left.len(), 3, "{left:?}");
    std::fs::remove_dir_all(folder).unwrap();
}

#[cfg(unix)]
#[test]
fn links_and_modes_stay() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let folder = folder("links");
    let real = folder.join("real.ron");
    let link = folder.join("car.ron");
    let file = EMBEDDED_PROFILES.iter().find(|e| e.name == "example-saloon").unwrap();
    std::fs::write(&real, file.text).unwrap();
    std::fs::set_permissions(&real, std::fs::Permissions::from_mode(0o640)).unwrap();
    symlink("real.ron", &link).unwrap();
    let mut vehicle = load_profile(&link).unwrap().vehicle;
    vehicle.name = "Another name".into();
    save_profile(&link, &vehicle).unwrap();
    assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(std::fs::metadata(&real).unwrap().permissions().mode() & 0o777, 0o640);
    assert_eq!(load_profile(&real).unwrap().vehicle.name, "Another name");
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn what_could_not_be_read_again_is_not_written() {
    let folder = folder("refused");
    let path = folder.join("bay.ron");
    let layout = shipped_layout("clear-bay");
    save_layout(&path, &layout).unwrap();
    let mut bad = layout.clone();
    bad.bay.ceiling_mm = f64::NAN;
    let faults = save_layout(&path, &bad).unwrap_err();
    assert!(said(&faults).contains("room.ceiling_mm: found NaN"), "{faults:?}");
    assert_eq!(load_layout(&path).unwrap().bay.ceiling_mm, layout.bay.ceiling_mm);
    let nowhere = folder.join("no/such/folder/bay.ron");
    let faults = save_layout(&nowhere, &layout).unwrap_err();
    assert!(said(&faults).contains("cannot be written"), "{faults:?}");
    assert!(save_layout(&folder, &layout).is_err(), "a folder is no file");
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_clockwise_room_is_turned_with_its_walls_and_doors() {
    let text = |corners: &str, walls: &str, from: f64| {
        format!(
            "(version: 1, name: \"b\", source: Example, room: (corners_mm: {corners}, walls: [{walls}], ceiling_mm: \
             3000), openings: [(name: \"door\", kind: Gap, wall: \"south\", from_mm: {from}, width_mm: 1000, \
             top_mm: 2000, material: Wood, shut: false)])"
        )
    };
    let wall = |name: &str| format!("(name: \"{name}\", material: Brick),");
    let anticlockwise = text(
        "[(0, 0), (6000, 0), (6000, 4000), (0, 4000)]",
        &["south", "east", "north", "west"].map(wall).concat(),
        500.0,
    );
    // The same room the other way round: walls west, north, east, south; the door from the south wall's east end.
    let clockwise = text(
        "[(0, 0), (0, 4000), (6000, 4000), (6000, 0)]",
        &["west", "north", "east", "south"].map(wall).concat(),
        4500.0,
    );
    let place = |layout: &Layout| {
        let opening = &layout.bay.openings[0];
        let edge = layout.bay.room.edges().nth(opening.wall).unwrap();
        let along = (edge.to - edge.from).normalize();
        (layout.bay.walls[opening.wall].id.to_string(), edge.from + along * opening.from_mm)
    };
    let a = parse_layout("a", "b", &anticlockwise).unwrap();
    let c = parse_layout("c", "b", &clockwise).unwrap();
    assert_eq!(place(&a), ("south".to_owned(), DVec2::new(500.0, 0.0)));
    assert_eq!(place(&c), place(&a));
    // Every wall keeps its two corners.
    for layout in [&a, &c] {
        for (wall, edge) in layout.bay.walls.iter().zip(layout.bay.room.edges()) {
            let middle = (edge.from + edge.to) * 0.5;
            let expected = match wall.id.as_str() {
                "south" => DVec2::new(3000.0, 0.0),
                "east" => DVec2::new(6000.0, 2000.0),
                "north" => DVec2::new(3000.0, 4000.0),
                _ => DVec2::new(0.0, 2000.0),
            };
            assert_eq!(middle, expected, "{}", wall.id);
        }
    }
    // Faults of a clockwise room name the wall as the file has it.
    let faults = parse_layout("c", "b", &clockwise.replace("\"north\"", "\"\"")).unwrap_err();
    assert!(said(&faults).contains("room.walls[1].name"), "{faults:?}");
}

/// A figure as a file holds it: to a millionth, awkward ones included.
fn figure(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        (low..=high).prop_map(|x| (x * 1e6).round() / 1e6),
        (low..=high).prop_map(|x| (x * 10.0).round() / 10.0),
        (low..=high).prop_map(f64::round),
    ]
    .prop_filter("in range", move |x| (low..=high).contains(x))
}

fn pose() -> impl Strategy<Value = PlanPose> {
    (figure(-9e6, 9e6), figure(-9e6, 9e6), figure(-360.0, 360.0))
        .prop_map(|(x, y, degrees)| PlanPose::new(DVec2::new(x, y), angle::radians(degrees)))
}

fn thing(name: &'static str) -> impl Strategy<Value = Thing> {
    // What a file may hold: below the lower ends a figure is refused, as other tests hold.
    let size = || figure(limits::THING.low, 9e4);
    let shape = prop_oneof![
        (size(), size()).prop_map(|(length, width)| Shape::Rectangle { length_mm: length, width_mm: width }),
        (size(), figure(limits::THIN.low, limits::THING.low))
            .prop_map(|(length, width)| Shape::Rectangle { length_mm: length, width_mm: width }),
        size().prop_map(|diameter| Shape::Round { diameter_mm: diameter }),
        (size(), size()).prop_map(|(x, y)| Shape::Outline(vec![
            DVec2::ZERO,
            DVec2::new(x, 0.0),
            DVec2::new(x, y)
        ])),
    ];
    let known = prop_oneof![
        Just(Known::Taped),
        Just(Known::ByEye),
        Just(Known::ByEyeOlder),
        figure(0.0, 1e4).prop_map(Known::Within)
    ];
    let heights = (figure(-9e3, 4e4), figure(limits::THICKNESS.low, 4e4))
        .prop_map(|(bottom, height)| (bottom, ((bottom + height) * 1e6).round() / 1e6))
        .prop_filter("thick enough", |(bottom, top)| limits::THICKNESS.holds(top - bottom));
    let metal = prop::option::of(prop::sample::select(Metal::ALL.to_vec()));
    (shape, pose(), heights, known, metal, any::<bool>()).prop_map(
        move |(shape, at, (bottom, top), known, metal, locked)| Thing {
            id: Id::from(name),
            kind: ThingKind::Other,
            footprint: Footprint::new(shape).unwrap(),
            place: Place { at, known },
            span: Span::new(bottom, top).unwrap(),
            material: Material::Unknown,
            effort: Effort::ForkLift,
            metal,
            locked,
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// load(save(x)) == x, to the last bit, for every layout whose figures have at most six decimals.
    #[test]
    fn layouts_come_back_to_the_last_bit(
        first in thing("first \"quoted\" \\ thing, ä"),
        second in thing("second"),
        parked in pose(),
        stand in pose(),
        height in figure(0.0, 9e4),
        pitch in figure(-90.0, 90.0),
        toe in (figure(-10.0, 10.0), figure(-10.0, 10.0)),
        at in (figure(-9e3, 9e3), figure(-9e3, 9e3), figure(0.0, 9e3)),
        on_mark in any::<bool>(),
    ) {
        let mut layout = shipped_layout("crowded-bay");
        layout.bay.things = vec![first];
        let bay = |name: &str| HallBay { id: name.into(), outline: layout.bay.room.clone() };
        layout.bay.bays = ["bay 1", "bay 2"].map(bay).to_vec();
        let place = Place { at: stand, known: Known::Taped };
        let moved = Moved { thing: layout.bay.things[0].id.clone(), place };
        let set = StandSet::At { place: stand, height_mm: height, pitch_rad: angle::radians(pitch) };
        layout.arrangements = vec![SavedArrangement {
            id: "only".into(),
            vehicle: "example-saloon".into(),
            vehicle_fingerprint: None,
            aiming: "x".into(),
            parked,
            parked_known: if on_mark { ParkedKnown::Taped } else { ParkedKnown::Within { mm: at.2, rad: angle::radians(2.5) } },
            on_runways: vec![],
            in_bay: on_mark.then(|| "bay 1".into()),
            kept_empty: if on_mark { vec!["bay 2".into()] } else { vec![] },
            kept_shut: if on_mark { vec!["exit door".into()] } else { vec![] },
            at_once: Vec::new(),
            on_this_car: OnThisCar {
                sensor_at: Some(at.into()),
                rear_toe: RearToe { left_rad: Some(angle::radians(toe.0)), right_rad: on_mark.then(|| angle::radians(toe.1)) },
                set_back_mm: Some(toe.0),
                turning_circle_mm: None,
                wheels: Some([DVec2::new(at.0, at.1), DVec2::new(at.1, at.0), DVec2::new(at.0, at.2), DVec2::new(at.2, at.1)]),
                wheels_at: if on_mark { WheelsAt::Hub } else { WheelsAt::TyreMiddle },
                sheet: Box::new(AlignmentSheet {
                    by: on_mark.then(|| "somebody".to_owned()),
                    toe_unit: if on_mark { SheetUnit::DegreesMinutes } else { SheetUnit::Inches },
                    rim: (!on_mark).then_some(Rim::Inches(16.5)),
                    toe: [Told { reads: on_mark.then_some(Typed { value: 1.0, minutes: 7.25 }), way: None }; 4],
                    camber: [Told::of(Typed::of(toe.0.abs()), Inward::Out); 4],
                    set_back: Told { reads: None, way: Some(Side::Left) },
                    ..AlignmentSheet::default()
                }),
                arches_mm: [Some(380.25), None, Some(371.0), None],
                body_points: vec![("front badge".into(), DVec2::new(at.0, toe.1))],
                stood: vec![Stood { from: "a".into(), to: "b".into(), start_mm: 900.5, end_mm: on_mark.then_some(901.0) }],
            },
            marks_taped: vec![MarkTaped {
                taken: Taken {
                    with: on_mark.then(|| "tape 1".into()),
                    who: Some("A".into()),
                    at: Some(jiff::civil::date(2026, 3, 17).at(8, 30, 5, 0)),
                    temperature_c: on_mark.then(|| toe.0.round()),
                },
                ..MarkTaped::new("1".into(), "2".into(), 1_000.0 + toe.0.round())
            }],
            laid_before: vec![MarkTaped::new("1".into(), "2".into(), 1_002.0)],
            stands_read: vec![StandRead {
                line_mm: Some(toe.0.round()),
                leans_left_rad: Some(angle::radians(toe.0)),
                square_by: if on_mark { SquareBy::Mirror } else { SquareBy::Bar },
                line_over: if on_mark { LineOver::Floor } else { LineOver::Sensor },
                ..StandRead::of("y".into())
            }],
            building: None,
            stands: vec![("y".into(), if on_mark { StandSet::OnMark } else { set })],
            moved: vec![moved],
            away: vec![],
            added: vec![second],
            shut: vec![("roller door".into(), false)],
            visit: vec!["x".into(), "another".into()],
        }];
        layout.bay.marks.push(PermanentMark {
            checks: vec![MarkCheck {
                on: jiff::civil::date(2026, 3, 17),
                who: on_mark.then(|| "A".into()),
                with: Some("tape 1".into()),
                read: [
                    CheckRead { from: CheckFrom::Wall("a wall".into()), read_mm: 1_000.0 },
                    CheckRead { from: CheckFrom::Mark("another".into()), read_mm: 1_000.0 + toe.0.round() },
                ],
            }],
            laid_within_mm: on_mark.then_some(2.5),
            line_to: (!on_mark).then(|| "another".into()),
            ..PermanentMark::new("a stud".into(), DVec2::new(at.0, at.1))
        });
        layout.owner = OwnerFigures {
            square_metre: Some(900.0),
            to_spend: Some(20_000.0),
            store_mm: Some(812.5),
            comes_in: vec![ComesIn { car: "example-saloon".into(), aiming: "forward radar".into(), a_month: 6.5 }],
            without: vec![CostOf { name: "column".into(), costs: 4_000.0 }],
            further: vec![CostOf { name: "yard wall".into(), costs: 60_000.0 }],
            walled_up: vec![CostOf { name: "side door".into(), costs: 1_800.0 }],
            open_onto: vec![CostOf { name: "gate".into(), costs: 0.5 }],
        };
        layout.underlay = Some(Underlay {
            picture: "plan of the hall.png".into(),
            mm_per_px: 2.5,
            at: stand.origin(),
            turned_rad: stand.heading(),
            faded: 0.5,
        });
        let wall = |length, name: Option<&str>| TapedWall { length_mm: length, turn_rad: angle::radians(toe.0), name: name.map(Id::from) };
        layout.taped = Some(TapedRoom {
            start_turned_rad: angle::radians(pitch),
            walls: vec![wall(5_000.0, Some("street")), wall(10.0, None)],
        });
        layout.shop_fingerprint = Some("0123456789abcdef".into());
        let text = layout_text(&layout).unwrap();
        let again = parse_layout("again", "crowded-bay", &text).unwrap();
        prop_assert_eq!(&layout, &again);
        prop_assert_eq!(text, layout_text(&again).unwrap());
    }

    /// Whatever stands in a file, reading it gives a layout or sentences, never a panic.
    #[test]
    fn any_damage_is_answered(
        at in 0_usize..4000,
        cut in 0_usize..40,
        put in prop_oneof![
            Just(""), Just("("), Just(")"), Just("["), Just("]"), Just(","), Just("\""), Just("/*"), Just("//"),
            Just("NaN"), Just("-1e308"), Just("Some("), Just("r#\""), Just("é"), Just("#![enable(unwrap_newtypes)]"),
        ],
    ) {
        for file in [EMBEDDED_LAYOUTS[0], EMBEDDED_PROFILES[1]] {
            let mut text: Vec<u8> = file.text.bytes().collect();
            let from = at.min(text.len());
            let to = (from + cut).min(text.len());
            text.splice(from..to, put.bytes());
            let text = String::from_utf8_lossy(&text);
            for fault in parse_layout("f", "f", &text).err().into_iter().flatten() {
                prop_assert!(Language::English.file_fault(&fault).ends_with('.'));
            }
            for fault in parse_profile("f", "f", &text).err().into_iter().flatten() {
                prop_assert!(Language::English.file_fault(&fault).ends_with('.'));
            }
        }
    }
}

/// A car of which hardly anything was entered is saved without what was assumed, and reads back as it was.
#[test]
fn a_car_just_begun_survives_saving() {
    use baywright_planner::entry::starter::StartKind;
    use baywright_planner::model::assumed::{BodyPart, SensorPart};
    use baywright_planner::model::{Vehicle, VehicleClass};
    for class in VehicleClass::ALL {
        for kind in StartKind::ALL {
            let mut car = Vehicle::of_class(class);
            car.start_sensor(kind, "sensor".into());
            car.start_aiming(&"sensor".into(), "aiming".into());
            car.enter(BodyPart::Width);
            car.enter(SensorPart::Height.of(&"sensor".into()));
            car.make_solids();
            let text = profile_text(&car).unwrap();
            assert!(text.contains("width_mm") && !text.contains("wheelbase_mm"), "{text}");
            let again = parse_profile("again", car.id.as_str(), &text).unwrap().vehicle;
            assert_eq!(again, car, "{class:?} {kind:?}");
        }
    }
    let text = profile_text(&Vehicle::of_class(VehicleClass::Van)).unwrap();
    for (version, assumed, place) in [
        (2, "\"nothing: height\"", "assumed[0].name"),
        (2, "\"radar: colour\"", "assumed[0]: found \"radar: colour\""),
        (3, "Sensor(name: \"nothing\", part: Height)", "assumed[0].name: found \"nothing\""),
        (3, "Aiming(name: \"nothing\", part: Height)", "assumed[0].part"),
        (3, "\"nothing: height\"", "assumed[0]"),
    ] {
        let bad = text.replace("version: 8,", &format!("version: {version}, assumed: [{assumed}],"));
        let faults = parse_profile("bad.ron", "bad", &bad).unwrap_err();
        assert!(said(&faults).contains(place), "{faults:?}");
    }
}

/// A sensor and an aiming of one name are two things: what is assumed of the one does not go with the other.
#[test]
fn a_sensor_named_like_an_aiming_can_be_renamed_and_kept() {
    use baywright_planner::entry::starter::StartKind;
    use baywright_planner::model::{Vehicle, VehicleClass};
    let mut car = Vehicle::of_class(VehicleClass::Saloon);
    car.start_sensor(StartKind::ForwardRadar, "radar".into());
    car.start_aiming(&"radar".into(), "radar".into());
    car.rename_sensor(0, "front".into());
    car.make_solids();
    for text in [profile_text(&car).unwrap(), baywright_files::draft_text(&car).unwrap()] {
        assert_eq!(parse_profile("again", car.id.as_str(), &text).unwrap().vehicle, car);
    }
}
