//! Files of older versions open, are brought up, and are kept when they are saved over.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use std::path::PathBuf;

use baywright_files::{
    EMBEDDED_LAYOUTS, EMBEDDED_PROFILES, LAYOUT_VERSION, layout_text, load_layout, load_profile,
    parse_layout, parse_profile, save_layout, save_profile,
};
use baywright_planner::model::sheet::{Inward, Rim, SheetUnit, Side, Told, Typed};
use baywright_planner::model::{Known, Metal, WheelsAt};
use baywright_planner::words::Language;

const FIRST_LAYOUT: &str = include_str!("old/v1/layout.ron");
const FIRST_PROFILE: &str = include_str!("old/v1/profile.ron");
const FIFTH_PROFILE: &str = include_str!("old/v5/profile.ron");
const SIXTH_PROFILE: &str = include_str!("old/v6/profile.ron");
const SEVENTH_PROFILE: &str = include_str!("old/v7/profile.ron");
const SECOND_PROFILE: &str = include_str!("old/v2/profile.ron");

fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("versions-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

#[test]
fn the_first_version_says_what_it_said() {
    let file = EMBEDDED_LAYOUTS.iter().find(|e| e.name == "crowded-bay").unwrap();
    let shipped = parse_layout("now", "crowded-bay", file.text).unwrap();
    let first = parse_layout("first", "crowded-bay", FIRST_LAYOUT).unwrap();
    // Only what is compared here must stay as it is shipped today.
    assert_eq!(first.bay.room, shipped.bay.room);
    assert_eq!(first.arrangements.len(), 4, "as the first version had it");
    assert!(first.underlay.is_none() && first.taped.is_none());
    assert!(first.arrangements.iter().all(|a| a.visit.is_empty()));
    assert!(parse_profile("first", "example-saloon", FIRST_PROFILE).is_ok());
    assert!(EMBEDDED_PROFILES.iter().any(|e| e.name == "example-saloon"));
    // What the second version added is no field of the first one.
    let mixed = FIRST_LAYOUT.replacen("name:", "taped: (start_turned_deg: 0, walls: []), name:", 1);
    let fault = Language::English.file_fault(&parse_layout("mixed", "x", &mixed).unwrap_err()[0]);
    assert!(fault.contains("taped"), "{fault}");
    assert!(parse_layout("mixed", "x", &mixed.replacen("version: 1", "version: 2", 1)).is_ok());
}

#[test]
fn an_older_file_is_kept_when_it_is_saved_over() {
    assert_eq!(LAYOUT_VERSION, 12);
    let folder = folder("kept");
    let path = folder.join("bay.ron");
    let copy = folder.join("bay.ron.v1.bak");
    std::fs::write(&path, FIRST_LAYOUT).unwrap();
    let layout = load_layout(&path).unwrap();
    let saved = save_layout(&path, &layout).unwrap();
    assert_eq!((saved.other_version, saved.backup), (Some(copy.clone()), None));
    assert_eq!(std::fs::read_to_string(&copy).unwrap(), FIRST_LAYOUT);
    assert!(std::fs::read_to_string(&path).unwrap().contains("version: 12,"));
    assert_eq!(load_layout(&path).unwrap(), layout);
    // The present version needs no copy; another old file does not overwrite the first copy.
    assert_eq!(save_layout(&path, &layout).unwrap().other_version, None);
    std::fs::write(&path, FIRST_LAYOUT.replacen("version: 1,", "version: 1, ", 1)).unwrap();
    let saved = save_layout(&path, &layout).unwrap();
    assert_eq!(saved.other_version, Some(folder.join("bay.ron.v1.2.bak")), "it is kept all the same");
    assert_eq!(saved.backup, None);
    assert_eq!(std::fs::read_to_string(&copy).unwrap(), FIRST_LAYOUT);
    // The same for a profile, which reads as the same car again.
    let path = folder.join("car.ron");
    std::fs::write(&path, FIRST_PROFILE).unwrap();
    let first = load_profile(&path).unwrap();
    let saved = save_profile(&path, &first.vehicle).unwrap();
    assert_eq!(saved.other_version, Some(folder.join("car.ron.v1.bak")));
    let second = load_profile(&path).unwrap();
    assert_eq!((second.vehicle, second.fingerprint), (first.vehicle, first.fingerprint));
    std::fs::remove_dir_all(folder).unwrap();
}

/// Texts of the second version that were made of a name and English words: what they mean, and the mark by which a layout
/// of that time remembers the profile (given by the program of that version).
#[test]
fn what_the_second_version_assumed_means_the_same() {
    use baywright_planner::model::assumed::{AimingPart, Assumed, SensorPart};
    let folder = folder("assumed");
    let path = folder.join("half.ron");
    std::fs::write(&path, SECOND_PROFILE).unwrap();
    let second = load_profile(&path).unwrap();
    let figures = second.vehicle.assumed.iter().filter(|figure| !matches!(figure, Assumed::Body(_)));
    let (radar, lidar) = ("radar".into(), "radar: height".into());
    let expected = [
        SensorPart::Height.of(&radar),
        SensorPart::Adjusted.of(&radar),
        SensorPart::Aside.of(&lidar),
        AimingPart::TargetHeight.of(&radar),
        AimingPart::ClearAlong.of(&radar),
        AimingPart::ClearHeight.of(&radar),
    ];
    assert_eq!(figures.cloned().collect::<Vec<_>>(), expected);
    assert_eq!(second.fingerprint, "eca9034a7dd05423");
    let saved = save_profile(&path, &second.vehicle).unwrap();
    assert_eq!(saved.other_version, Some(folder.join("half.ron.v2.bak")));
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(text.contains("version: 8,") && !text.contains("how it is set"), "{text}");
    let plain: String = text.split_whitespace().collect();
    assert!(plain.contains("Sensor(name:\"radar:height\",part:Aside,)"), "{text}");
    let third = load_profile(&path).unwrap();
    assert_eq!((third.vehicle, third.fingerprint), (second.vehicle, second.fingerprint));
    std::fs::remove_dir_all(folder).unwrap();
}

/// Up to version 4 the length and the height of what is kept clear were one figure: it is both, and the profile the same to a
/// layout. From then on each is by itself, and zones of an aiming's own are told.
#[test]
fn what_was_one_figure_of_the_fourth_version_is_both() {
    use baywright_planner::model::assumed::{AimingPart, ZonePart};
    let folder = folder("one-figure");
    let path = folder.join("car.ron");
    let with = |version: u32, assumed: &str| {
        let start = format!("version: {version}, assumed: [{assumed}],");
        std::fs::write(&path, FIRST_PROFILE.replacen("version: 1,", &start, 1)).unwrap();
        load_profile(&path)
    };
    let plain = with(5, "").unwrap();
    let (aiming, zone) = (&plain.vehicle.aimings[0].id, &plain.vehicle.aimings[0].zones[0].id);
    let [along, height] = [AimingPart::ClearAlong, AimingPart::ClearHeight].map(|part| part.of(aiming));
    let of_aiming = |part: &str| format!("Aiming(name: {:?}, part: {part})", aiming.as_str());
    let fourth = with(4, &of_aiming("ClearAlong")).unwrap();
    assert!(fourth.vehicle.is_assumed(&along) && fourth.vehicle.is_assumed(&height));
    let both = with(5, &[of_aiming("ClearAlong"), of_aiming("ClearHeight")].join(", ")).unwrap();
    assert_eq!((&both.vehicle, &both.fingerprint), (&fourth.vehicle, &fourth.fingerprint));
    let one = with(5, &of_aiming("ClearAlong")).unwrap();
    assert!(one.vehicle.is_assumed(&along) && !one.vehicle.is_assumed(&height));
    let other = with(5, &of_aiming("ClearHeight")).unwrap();
    let of_zone = |name: &str| format!("Zone(aiming: {:?}, name: {name:?}, part: Heights)", aiming.as_str());
    let own = with(5, &of_zone(zone.as_str())).unwrap();
    assert!(own.vehicle.is_assumed(ZonePart::Heights.of(aiming, zone)));
    let marks = [&plain, &fourth, &one, &other, &own].map(|own| &own.fingerprint);
    assert!(marks.iter().enumerate().all(|(i, own)| !marks[..i].contains(own)), "{marks:?}");
    // What is saved reads back as it was.
    save_profile(&path, &own.vehicle).unwrap();
    let again = load_profile(&path).unwrap();
    assert_eq!((again.vehicle, again.fingerprint), (own.vehicle, own.fingerprint));
    let faults = with(5, &of_zone("nowhere")).unwrap_err();
    let said = Language::English.file_fault(&faults[0]);
    assert!(said.contains("assumed[0].name: found \"nowhere\"; allowed is the name of a zone"), "{said}");
    std::fs::remove_dir_all(folder).unwrap();
}

/// Version 5 knew the sensor's centre only and no front spots: a file of it means what it meant, and layouts know it by the mark
/// that the program of that version gave it.
#[test]
fn what_the_fifth_version_counted_from_is_the_sensors_centre() {
    use baywright_planner::model::screw::{Screw, Upright};
    use baywright_planner::model::sheet::Side;
    use baywright_planner::model::{Datum, Edges, SensorPoint, TargetHeight};
    let folder = folder("fifth");
    let path = folder.join("car.ron");
    std::fs::write(&path, FIFTH_PROFILE).unwrap();
    let fifth = load_profile(&path).unwrap();
    assert_eq!(fifth.fingerprint, "0fac9bb3c0443ddb");
    assert!(fifth.vehicle.sensors.iter().all(|own| own.edges == Edges::default()));
    let placement = &fifth.vehicle.aimings[0].placements[0];
    assert_eq!(placement.height, TargetHeight::from_centre(0.0));
    assert_eq!(placement.stand_off.from, Datum::FrontBumper);
    let saved = save_profile(&path, &fifth.vehicle).unwrap();
    assert_eq!(saved.other_version, Some(folder.join("car.ron.v5.bak")));
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(
        text.contains("version: 8,") && !text.contains("edges") && !text.contains("point: Centre"),
        "{text}"
    );
    let sixth = load_profile(&path).unwrap();
    assert_eq!((&sixth.vehicle, &sixth.fingerprint), (&fifth.vehicle, &fifth.fingerprint));
    // What version 6 says is kept, and is another profile to a layout, figure by figure.
    let mut marks = vec![sixth.fingerprint];
    let mut car = sixth.vehicle;
    let mut kept = |car: &baywright_planner::model::Vehicle| {
        save_profile(&path, car).unwrap();
        let again = load_profile(&path).unwrap();
        assert_eq!(again.vehicle, *car);
        assert!(!marks.contains(&again.fingerprint));
        marks.push(again.fingerprint);
    };
    let edges =
        [(Some(45.5), None, None), (Some(45.5), Some(60.0), None), (Some(45.5), Some(60.0), Some(-12.0))];
    for (lower_below_mm, upper_above_mm, line_above_mm) in edges {
        car.sensors[0].edges = Edges { lower_below_mm, upper_above_mm, line_above_mm };
        kept(&car);
    }
    for point in [SensorPoint::LowerEdge, SensorPoint::UpperEdge, SensorPoint::Line] {
        car.aimings[0].placements[0].height = TargetHeight::FromSensor { point, offset_mm: -7.5 };
        kept(&car);
    }
    car.aimings[0].placements[0].stand_off.from = Datum::FrontSpots;
    kept(&car);
    // So is what version 8 says of screws, as far as it is known.
    let one = Screw { pitch_mm: Some(0.75), arm_mm: None, clockwise: Some(Upright::Down) };
    car.sensors[0].screws.up_down = one;
    kept(&car);
    car.sensors[0].screws.up_down.arm_mm = Some(62.5);
    kept(&car);
    car.sensors[0].screws.left_right =
        Screw { pitch_mm: Some(1.0), arm_mm: Some(80.0), clockwise: Some(Side::Left) };
    kept(&car);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn what_the_second_version_adds_is_judged() {
    let with = |added: &str| {
        let text = FIRST_LAYOUT.replacen("version: 1,", &format!("version: 2, {added},"), 1);
        parse_layout("f.ron", "f", &text).map_err(|faults| {
            assert_eq!(faults.len(), 1);
            Language::English.file_fault(&faults[0])
        })
    };
    let layout = with("underlay: (picture: \"plan.png\", mm_per_px: 4, at_mm: (-100, 0))").unwrap();
    assert_eq!(layout.underlay.unwrap().faded, 0.5);
    for (added, part) in [
        ("underlay: (picture: \"\", mm_per_px: 4, at_mm: (0, 0))", "underlay.picture: found an empty text"),
        ("owner: (square_metre: -1)", "owner.square_metre: found -1; allowed is 0 to 1000000000000"),
        ("owner: (store_mm: 20001)", "owner.store_mm: found 20001"),
        (
            "owner: (comes_in: [(car: \"a\", aiming: \"\", a_month: 1)])",
            "owner.comes_in[0].aiming: found an empty text",
        ),
        (
            "owner: (further: [(name: \"yard wall\", costs: 1e13)])",
            "owner.further[0].costs: found 10000000000000; allowed is 0 to 1000000000000",
        ),
        (
            "underlay: (picture: \"a\", mm_per_px: 0, at_mm: (0, 0))",
            "underlay.mm_per_px: found 0 mm; allowed is 0.001",
        ),
        (
            "underlay: (picture: \"a\", mm_per_px: 1, at_mm: (0, 0), faded: 2)",
            "underlay.faded: found 2; allowed is 0 to 1",
        ),
        (
            "taped: (start_turned_deg: 0, walls: [(length_mm: 5, turn_deg: 90)])",
            "taped.walls[0].length_mm: found 5 mm",
        ),
        ("taped: (start_turned_deg: 400, walls: [])", "taped.start_turned_deg: found 400"),
    ] {
        let fault = with(added).unwrap_err();
        assert!(fault.contains(part), "{fault}");
    }
    let visit = FIRST_LAYOUT.replacen("version: 1", "version: 2", 1);
    let visit = visit.replacen("parked:", "visit: [\"a\", \"b\", \"a\"], parked:", 1);
    let fault = Language::English.file_fault(&parse_layout("f.ron", "f", &visit).unwrap_err()[0]);
    assert!(fault.contains("visit[2]: found \"a\" again"), "{fault}");
}

/// Version 6 could not say that a procedure names no keep-clear zone: a file of it does not say so, and layouts know it by the mark
/// that the program of that version gave it. What version 7 says is kept, and is another profile to a layout.
#[test]
fn what_the_sixth_version_left_out_is_not_said() {
    let folder = folder("sixth");
    let path = folder.join("car.ron");
    std::fs::write(&path, SIXTH_PROFILE).unwrap();
    let sixth = load_profile(&path).unwrap();
    assert_eq!(sixth.fingerprint, "861176a46419a469");
    assert!(sixth.vehicle.aimings.iter().all(|own| !own.names_no_zone));
    let saved = save_profile(&path, &sixth.vehicle).unwrap();
    assert_eq!(saved.other_version, Some(folder.join("car.ron.v6.bak")));
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(text.contains("version: 8,") && !text.contains("names_no_zone"), "{text}");
    let seventh = load_profile(&path).unwrap();
    assert_eq!((&seventh.vehicle, &seventh.fingerprint), (&sixth.vehicle, &sixth.fingerprint));
    let mut car = seventh.vehicle;
    car.aimings[0].zones.clear();
    save_profile(&path, &car).unwrap();
    let left_out = load_profile(&path).unwrap();
    car.aimings[0].names_no_zone = true;
    save_profile(&path, &car).unwrap();
    let said = load_profile(&path).unwrap();
    assert_eq!(said.vehicle, car);
    assert_ne!(said.fingerprint, left_out.fingerprint);
    std::fs::remove_dir_all(folder).unwrap();
}

/// Version 7 could not say how far ride heights may be off: a file of it does not say so, and layouts know it by the mark that the
/// program of that version gave it. What version 8 says is kept, and is another profile to a layout.
#[test]
fn what_the_seventh_version_left_out_is_not_said() {
    let folder = folder("seventh");
    let path = folder.join("car.ron");
    std::fs::write(&path, SEVENTH_PROFILE).unwrap();
    let seventh = load_profile(&path).unwrap();
    assert_eq!(seventh.fingerprint, "861176a46419a469");
    assert_eq!(seventh.vehicle.ride_height_off_mm, None);
    let saved = save_profile(&path, &seventh.vehicle).unwrap();
    assert_eq!(saved.other_version, Some(folder.join("car.ron.v7.bak")));
    let eighth = load_profile(&path).unwrap();
    assert_eq!((&eighth.vehicle, &eighth.fingerprint), (&seventh.vehicle, &seventh.fingerprint));
    let mut car = eighth.vehicle;
    car.ride_heights = Some([380.0, 381.0, 375.0, 376.0]);
    save_profile(&path, &car).unwrap();
    let left_out = load_profile(&path).unwrap();
    assert_eq!(left_out.vehicle, car);
    car.ride_height_off_mm = Some(12.5);
    save_profile(&path, &car).unwrap();
    let said = load_profile(&path).unwrap();
    assert_eq!(said.vehicle, car);
    assert_ne!(said.fingerprint, left_out.fingerprint);
    car.ride_height_off_mm = Some(0.0);
    let fault = &baywright_planner::model::validate::vehicle(&car)[0];
    assert_eq!(fault.field, "body.ride_heights.allowed_mm");
    std::fs::remove_dir_all(folder).unwrap();
}

/// What version 11 of layouts says of one very car is kept as it was typed, and refused by field where it cannot be.
#[test]
fn what_was_measured_on_one_car_is_kept_as_typed() {
    let file = EMBEDDED_LAYOUTS.iter().find(|e| e.text.contains("arrangements:")).unwrap();
    let with = |added: &str| {
        let text = file.text.replacen("parked:", &format!("on_this_car: ({added}), parked:"), 1);
        parse_layout("f.ron", "f", &text).map_err(|faults| Language::English.file_fault(&faults[0]))
    };
    let all = "alignment_sheet: (date: \"2026-11-02\", by: \"wheel bay\", \
        toe: (unit: Millimetres, rim: Inches(16), rear_left: (value: 2.1, way: Out), rear_right: (value: 1)), \
        camber: (unit: DegreesMinutes, front_left: (value: 0, minutes: 45.5, way: In)), \
        set_back: (unit: Degrees, value: 0.2, way: Left), thrust: (value: 0.05, way: Right)), \
        wheels_at: Hub, arches_mm: (rear_left: 371.5), body_points: [(name: \"front badge\", at_mm: (900, 3.5))], \
        stood_still: [(from: \"cross\", to: \"rim\", start_mm: 1203, end_mm: 1204.5), (from: \"a\", to: \"b\", start_mm: 900)]";
    let told = with(all).unwrap();
    let car = told.arrangements[0].on_this_car.clone();
    let sheet = &car.sheet;
    assert_eq!((sheet.toe_unit, sheet.rim), (SheetUnit::Millimetres, Some(Rim::Inches(16.0))));
    assert_eq!(sheet.toe[2], Told::of(Typed::of(2.1), Inward::Out));
    assert!(sheet.toe[3].wants_way() && sheet.toe[0] == Told::default());
    assert_eq!(sheet.camber[0], Told::of(Typed { value: 0.0, minutes: 45.5 }, Inward::In));
    assert_eq!(
        (sheet.set_back_unit, sheet.set_back),
        (SheetUnit::Degrees, Told::of(Typed::of(0.2), Side::Left))
    );
    assert_eq!(sheet.thrust, Told::of(Typed::of(0.05), Side::Right));
    assert_eq!((car.wheels_at, car.arches_mm), (WheelsAt::Hub, [None, None, Some(371.5), None]));
    assert_eq!((car.stood.len(), car.stood[0].end_mm, car.stood[1].end_mm), (2, Some(1_204.5), None));
    let folder = folder("one-car");
    let path = folder.join("bay.ron");
    save_layout(&path, &told).unwrap();
    assert_eq!(load_layout(&path).unwrap().arrangements[0].on_this_car, car);
    for (wrong, said) in [
        (
            "alignment_sheet: (toe: (rear_left: (value: -0.1)))",
            "alignment_sheet.toe.rear_left.value: found -0.1°",
        ),
        (
            "alignment_sheet: (toe: (unit: DegreesMinutes, rear_left: (value: 0, minutes: 60)))",
            "rear_left.minutes: found 60",
        ),
        ("alignment_sheet: (thrust: (value: 0.1, minutes: 3))", "thrust.minutes: found 3"),
        ("alignment_sheet: (toe: (unit: Millimetres, rim: Millimetres(40.6)))", "toe.rim: found 40.6 mm"),
        ("arches_mm: (rear_left: 37)", "arches_mm.rear_left: found 37 mm"),
        ("body_points: [(name: \"\", at_mm: (0, 0))]", "body_points[0].name"),
        ("stood_still: [(from: \"a\", to: \"a\", start_mm: 900)]", "stood_still[0].to"),
        (
            "stood_still: [(from: \"a\", to: \"b\", start_mm: 900, end_mm: 9)]",
            "stood_still[0].end_mm: found 9 mm",
        ),
    ] {
        let fault = with(wrong).unwrap_err();
        assert!(fault.contains(said), "{fault}");
    }
    std::fs::remove_dir_all(folder).unwrap();
}

/// What version 3 of layouts added to things and floors: left out it means what it meant, and it is judged.
#[test]
fn what_a_thing_holds_and_what_is_proud_of_the_floor() {
    let file = EMBEDDED_LAYOUTS.iter().find(|e| e.name == "crowded-bay").unwrap();
    let plain = parse_layout("f.ron", "f", file.text).unwrap();
    assert!(plain.bay.things.iter().all(|thing| thing.metal.is_none()));
    assert_eq!(plain.bay.floor_features[0].proud_mm, 0.0);
    let with = |more: &str, proud: &str| {
        let text = file.text.replacen("effort:", &format!("{more} effort:"), 1);
        let text = text.replacen("kind: Drain,", &format!("kind: Drain, {proud}"), 1);
        parse_layout("f.ron", "f", &text).map_err(|faults| Language::English.file_fault(&faults[0]))
    };
    let told = with("metal: Frame,", "proud_mm: 12.5,").unwrap();
    assert!(told.bay.things.iter().any(|thing| thing.metal == Some(Metal::Frame)));
    assert_eq!(told.bay.floor_features[0].proud_mm, 12.5);
    let folder = folder("third");
    let path = folder.join("bay.ron");
    save_layout(&path, &told).unwrap();
    let again = load_layout(&path).unwrap();
    assert_eq!((&again.bay.things, &again.bay.floor_features), (&told.bay.things, &told.bay.floor_features));
    assert!(with("metal: Some,", "").unwrap_err().contains("metal"));
    let fault = with("", "proud_mm: 301,").unwrap_err();
    assert!(fault.contains("floor_features[0].proud_mm: found 301 mm; allowed is 0 to 300"), "{fault}");
    std::fs::remove_dir_all(folder).unwrap();
}

/// What version 4 of profiles added to aimings and targets: left out it means what it meant, and the profile has the mark that
/// it had; it reads back as it was written, and is judged.
#[test]
fn what_an_aiming_asks_of_the_alignment_and_who_stands_with_whom() {
    let profiles = EMBEDDED_PROFILES.iter().map(|e| parse_profile("f.ron", "f", e.text).unwrap());
    let mut profiles = profiles.filter(|own| own.vehicle.aimings.iter().any(|a| a.placements.len() > 1));
    let plain = profiles.next().unwrap();
    let aimings = || plain.vehicle.aimings.iter();
    assert!(aimings().all(|own| own.alignment == Default::default()));
    assert!(aimings().flat_map(|own| &own.placements).all(|own| own.with.is_none()));
    let folder = folder("fourth");
    let path = folder.join("car.ron");
    let mut car = plain.vehicle.clone();
    save_profile(&path, &car).unwrap();
    assert_eq!(load_profile(&path).unwrap().fingerprint, plain.fingerprint);
    let at = car.aimings.iter().position(|own| own.placements.len() > 1).unwrap();
    let aiming = &mut car.aimings[at];
    aiming.alignment.thrust_angle_rad = Some(baywright_planner::geometry::angle::radians(0.25));
    aiming.alignment.set_back_mm = Some(8.0);
    let second = aiming.placements[1].id.clone();
    aiming.placements[0].with = Some(vec![second]);
    aiming.placements[1].with = Some(Vec::new());
    save_profile(&path, &car).unwrap();
    let again = load_profile(&path).unwrap();
    assert_eq!(again.vehicle.aimings[at].placements, car.aimings[at].placements);
    assert_eq!(again.vehicle.aimings[at].alignment.set_back_mm, Some(8.0));
    assert_ne!(again.fingerprint, plain.fingerprint);
    let text = std::fs::read_to_string(&path).unwrap();
    for (was, now, part) in [
        ("set_back_mm: 8", "set_back_mm: 0", ".alignment.set_back_mm: found 0 mm; allowed is 0.1 to 200 mm"),
        ("thrust_angle_deg: 0.25", "thrust_angle_deg: 11", ".alignment.thrust_angle_deg: found 11"),
    ] {
        let faults = parse_profile("f.ron", "f", &text.replacen(was, now, 1)).unwrap_err();
        let fault = Language::English.file_fault(&faults[0]);
        assert!(fault.contains(part), "{fault}");
    }
    car.aimings[at].placements[0].with = Some(vec!["nobody".into(), "nobody".into()]);
    let faults = baywright_planner::model::validate::vehicle(&car);
    assert!(faults.iter().any(|fault| fault.field.ends_with("placements[0].with[0]")), "{faults:?}");
    std::fs::remove_dir_all(folder).unwrap();
}

/// What version 3 of layouts added to what was measured on a car.
#[test]
fn set_back_and_turning_circle() {
    let file = EMBEDDED_LAYOUTS.iter().find(|e| e.text.contains("arrangements:")).unwrap();
    let with = |added: &str| {
        let text = file.text.replacen("parked:", &format!("on_this_car: ({added}), parked:"), 1);
        parse_layout("f.ron", "f", &text).map_err(|faults| Language::English.file_fault(&faults[0]))
    };
    let told = with("set_back_mm: -6.5, turning_circle_mm: 11400").unwrap();
    let car = told.arrangements[0].on_this_car.clone();
    assert_eq!((car.set_back_mm, car.turning_circle_mm), (Some(-6.5), Some(11_400.0)));
    let folder = folder("on-this-car");
    let path = folder.join("bay.ron");
    save_layout(&path, &told).unwrap();
    assert_eq!(load_layout(&path).unwrap().arrangements[0].on_this_car, car);
    // The toe of one rear wheel alone is kept as that.
    let half = with("rear_toe: (right_deg: -0.25)").unwrap();
    let toe = half.arrangements[0].on_this_car.rear_toe;
    assert_eq!((toe.left_rad, toe.right_rad.map(f64::to_degrees)), (None, Some(-0.25)));
    assert_eq!(toe.both_rad(), None);
    save_layout(&path, &half).unwrap();
    assert!(std::fs::read_to_string(&path).unwrap().contains("rear_toe: (right_deg: -0.25)"));
    assert_eq!(load_layout(&path).unwrap().arrangements[0].on_this_car.rear_toe, toe);
    assert!(with("rear_toe: (left_deg: 11)").unwrap_err().contains("rear_toe.left_deg: found 11°"));
    assert!(with("set_back_mm: 201").unwrap_err().contains("on_this_car.set_back_mm: found 201 mm"));
    assert!(with("turning_circle_mm: 11.4").unwrap_err().contains("turning_circle_mm: found 11.4 mm"));
    std::fs::remove_dir_all(folder).unwrap();
}

/// Up to version 3 "by eye" meant ± 50 mm, said or not; now it means what the shop says. What an older file meant stays, told
/// apart from what is said now, also when it is saved.
#[test]
fn by_eye_in_an_older_file_stays_what_it_meant() {
    let thing = "(name: \"bin\", kind: Bin, shape: Round(diameter_mm: 500), at_mm: (0, 0), top_mm: 900, material: Steel, \
                 effort: OnePerson KNOWN)";
    let file = |version: u32| {
        let said = thing.replace("KNOWN", ", known: ByEye");
        let second = thing.replace("KNOWN", "").replacen("bin", "box", 1);
        let taped = thing.replace("KNOWN", ", known: Taped").replacen("bin", "bench", 1);
        format!(
            "(version: {version}, name: \"b\", source: Example, room: (corners_mm: [(-4000, -4000), (4000, -4000), (4000, \
             4000), (-4000, 4000)], walls: [(name: \"a\", material: Brick), (name: \"b\", material: Brick), (name: \"c\", \
             material: Brick), (name: \"d\", material: Brick)], ceiling_mm: 3000), things: [{said}, {second}, {taped}], \
             arrangements: [(name: \"one\", vehicle: \"car\", aiming: \"radar\", parked: (at_mm: (0, 0), heading_deg: 0), \
             moved: [(thing: \"bench\", at_mm: (1000, 0))])])"
        )
    };
    for version in 1..=3 {
        let layout = parse_layout("old", "old", &file(version)).unwrap();
        let known: Vec<Known> = layout.bay.things.iter().map(|own| own.place.known).collect();
        assert_eq!(known, [Known::ByEyeOlder, Known::ByEyeOlder, Known::Taped], "version {version}");
        assert_eq!(layout.bay.walls_known, Known::ByEyeOlder);
        let again = parse_layout("now", "old", &layout_text(&layout).unwrap()).unwrap();
        assert_eq!(again, layout);
    }
    // So does what such a file says of an arrangement's own building, put in by hand.
    let file_with_own = |version: u32| {
        let file = file(version);
        let (file, _) = file.split_once(", arrangements").unwrap();
        let (_, built) = file.split_once("source").unwrap();
        let own = format!(
            "arrangements: [(name: \"a\", vehicle: \"v\", aiming: \"a\", parked: (at_mm: (0, 0), heading_deg: 0), \
             building: (source{built}))]"
        );
        format!("{file}, {own})")
    };
    for version in 2..=3 {
        let layout = parse_layout("old", "old", &file_with_own(version)).unwrap();
        let own = layout.arrangements[0].building.as_ref().unwrap();
        assert_eq!((&own.things, own.walls_known), (&layout.bay.things, layout.bay.walls_known));
    }
    // Up to version 5 a moved thing of which nothing is said was known as well as at home.
    for version in 1..=5 {
        let layout = parse_layout("old", "old", &file(version)).unwrap();
        assert_eq!(layout.arrangements[0].moved[0].place.known, Known::Taped, "version {version}");
        let again = parse_layout("now", "old", &layout_text(&layout).unwrap()).unwrap();
        assert_eq!(again, layout);
    }
    let now = parse_layout("now", "now", &file(LAYOUT_VERSION)).unwrap();
    assert_eq!(now.bay.things[1].place.known, Known::ByEye);
    assert_eq!(now.bay.walls_known, Known::ByEye);
    assert_eq!(now.arrangements[0].moved[0].place.known, Known::ByEye);
    let again = parse_layout("now", "now", &layout_text(&now).unwrap()).unwrap();
    assert_eq!(again, now);
}

/// What version 7 of layouts added: a dimension reads back as it was written, also of a room whose corners go round clockwise;
/// what it lies on may be gone; what is wrong with it is said.
#[test]
fn a_dimension_that_is_kept_with_the_bay() {
    let file = EMBEDDED_LAYOUTS.iter().find(|e| e.name == "clear-bay").unwrap();
    let with = |added: &str| {
        let text =
            file.text.replacen("arrangements:", &format!("dimensions: [{added}],\n    arrangements:"), 1);
        parse_layout("f.ron", "f", &text).map_err(|faults| Language::English.file_fault(&faults[0]))
    };
    let plain = parse_layout("f.ron", "f", file.text).unwrap();
    assert!(plain.bay.dimensions.is_empty());
    let wall = plain.bay.walls[1].id.clone();
    let all = [
        format!("Corner(wall: \"{wall}\")"),
        format!("Wall(wall: \"{wall}\", along_mm: 1250.5)"),
        format!("SquareTo(wall: \"{wall}\")"),
        "Thing(thing: \"gone long ago\", point: Corner(2))".to_owned(),
        "Thing(thing: \"drum\", point: Rim(3))".to_owned(),
        "Thing(thing: \"drum\", point: Middle)".to_owned(),
        "Thing(thing: \"drum\", point: Edge(0))".to_owned(),
        "Mark(mark: \"A\")".to_owned(),
        "LaidMark(mark: \"5\")".to_owned(),
        "Wheel(RearRight)".to_owned(),
        "FrontAxle".to_owned(),
        "FrontBumper".to_owned(),
        "RearBumper".to_owned(),
        "BodyPoint(\"badge\")".to_owned(),
        "Sensor".to_owned(),
        "Target(placement: \"reflector\")".to_owned(),
    ];
    let one = |i: usize, on: &str| {
        format!("(name: \"d{i}\", from: (at_mm: (10, 20)), to: (on: {on}, at_mm: (30.25, -40)))")
    };
    let texts: Vec<String> = all.iter().enumerate().map(|(i, on)| one(i, on)).collect();
    let told = with(&texts.join(", ")).unwrap();
    assert_eq!(told.bay.dimensions.len(), all.len());
    assert!(told.bay.dimensions.iter().all(|own| own.ends[0].on.is_none() && own.ends[1].on.is_some()));
    let folder = folder("dimensions");
    let path = folder.join("bay.ron");
    save_layout(&path, &told).unwrap();
    assert_eq!(load_layout(&path).unwrap().bay.dimensions, told.bay.dimensions);
    // A file of version 6 has none and becomes one of version 7.
    let sixth = file.text.replacen("version: 8", "version: 6", 1);
    assert_eq!(parse_layout("f.ron", "f", &sixth).unwrap().bay, plain_named(&plain.bay, "f"));
    for (added, part) in [
        ("(name: \"\", from: (at_mm: (0, 0)), to: (at_mm: (1, 1)))", "dimensions[0].name: found"),
        ("(name: \"a\", from: (at_mm: (0, 0)))", "to"),
        ("(name: \"a\", from: (at_mm: (1e9, 0)), to: (at_mm: (1, 1)))", "dimensions[0].from.at_mm"),
        (
            "(name: \"a\", from: (on: Wall(wall: \"x\", along_mm: -1), at_mm: (0, 0)), to: (at_mm: (1, 1)))",
            "dimensions[0].from.on.along_mm: found -1 mm; allowed is 0 to 1000000",
        ),
        (
            "(name: \"a\", from: (on: Corner(wall: \"\"), at_mm: (0, 0)), to: (at_mm: (1, 1)))",
            "dimensions[0].from.on.wall",
        ),
    ] {
        let fault = with(added).unwrap_err();
        assert!(fault.contains(part), "{fault}");
    }
    let twice = [one(0, "Sensor"), one(0, "FrontAxle")].join(", ");
    assert!(with(&twice).unwrap_err().contains("dimensions[1].name"));
    std::fs::remove_dir_all(folder).unwrap();
}

fn plain_named(bay: &baywright_planner::model::Bay, id: &str) -> baywright_planner::model::Bay {
    baywright_planner::model::Bay { id: id.into(), ..bay.clone() }
}

/// In a file whose corners go round clockwise a wall starts at the corner that the file gives first: both ends are where the same
/// ends of the same room, listed the other way round, are.
#[test]
fn a_dimension_of_a_clockwise_room_lies_where_the_file_has_it() {
    let text = |corners: &str, walls: &str| {
        format!(
            "(version: 8, name: \"x\", source: Example, room: (corners_mm: [{corners}], walls: [{walls}], ceiling_mm: 3000),
            dimensions: [(name: \"d\", from: (on: Corner(wall: \"b\"), at_mm: (0, 0)),
                to: (on: Wall(wall: \"a\", along_mm: 1000), at_mm: (0, 0)))])"
        )
    };
    let named =
        |names: [&str; 4]| names.map(|name| format!("(name: \"{name}\", material: Brick)")).join(", ");
    let text = text("(0, 0), (0, 4000), (7000, 4000), (7000, 0)", &named(["a", "b", "c", "d"]));
    let bay = parse_layout("f.ron", "f", &text).unwrap().bay;
    let none = baywright_planner::geometry::DVec2::ZERO;
    let places = bay.dimensions[0].located(|on, other| on.on_room(&bay, other));
    let found = places.map(|at| at.unwrap_or(none));
    assert_eq!(found.map(|at| (at.x, at.y)), [(0.0, 4_000.0), (0.0, 1_000.0)]);
}

const SEVENTH_LAYOUT: &str = include_str!("old/v7/layout.ron");

/// What version 8 of layouts added: the bays of a hall, which an arrangement is made in and which are kept empty for it. A file
/// of version 7 has none, and means what it meant.
#[test]
fn the_bays_of_a_hall() {
    let plain = parse_layout("seventh", "lift-bay", SEVENTH_LAYOUT).unwrap();
    assert!(plain.bay.bays.is_empty());
    assert!(plain.arrangements.iter().all(|own| own.in_bay.is_none() && own.kept_empty.is_empty()));
    let again = parse_layout("now", "lift-bay", &layout_text(&plain).unwrap()).unwrap();
    assert_eq!(again, plain);
    let bays = "bays: [(name: \"bay 1\", corners_mm: [(0, 0), (9000, 0), (9000, 3000), (0, 3000)]), \
                (name: \"bay 2\", corners_mm: [(0, 3000), (9000, 3000), (9000, 6000), (0, 6000)])]";
    let with = |bays: &str, added: &str| {
        let text = SEVENTH_LAYOUT.replacen("version: 7,", &format!("version: 8, {bays},"), 1);
        let text = text.replacen("parked:", &format!("{added} parked:"), 1);
        parse_layout("f.ron", "f", &text).map_err(|faults| Language::English.file_fault(&faults[0]))
    };
    let hall = with(bays, "in_bay: \"bay 1\", kept_empty: [\"bay 2\"],").unwrap();
    assert_eq!(hall.bay.bays.len(), 2);
    assert_eq!(hall.arrangements[0].in_bay, Some("bay 1".into()));
    assert_eq!(hall.arrangements[0].kept_empty, ["bay 2".into()]);
    let folder = folder("hall");
    let path = folder.join("f.ron");
    save_layout(&path, &hall).unwrap();
    assert_eq!(load_layout(&path).unwrap(), hall);
    let many: Vec<String> =
        (0..31).map(|i| format!("(name: \"bay {i}\", corners_mm: [(0, 0), (900, 0), (900, 900)])")).collect();
    let many = format!("bays: [{}]", many.join(", "));
    for (bays, added, part) in [
        (bays, "in_bay: \"bay 3\",", "arrangements[0].in_bay: found \"bay 3\"; allowed is"),
        (bays, "kept_empty: [\"pit\"],", "arrangements[0].kept_empty[0]: found \"pit\"; allowed is"),
        (
            bays,
            "in_bay: \"bay 1\", kept_empty: [\"bay 1\"],",
            "arrangements[0].kept_empty[0]: found \"bay 1\" again",
        ),
        (
            "bays: [(name: \"street wall\", corners_mm: [(0, 0), (900, 0), (900, 900)])]",
            "",
            "bays[0].name: found \"street wall\" again",
        ),
        ("bays: [(name: \"a\", corners_mm: [(0, 0), (90, 0), (90, 900)])]", "", "bays[0].corners_mm: found"),
        ("bays: [(name: \"a\", corners_mm: [(0, 0), (90, 0)])]", "", "bays[0].corners_mm: found"),
        (&many, "", "bays: found 31 entries; allowed is at most 30"),
    ] {
        let fault = with(bays, added).unwrap_err();
        assert!(fault.contains(part), "{fault}");
    }
    std::fs::remove_dir_all(folder).unwrap();
}

const EIGHTH_LAYOUT: &str = include_str!("old/v8/layout.ron");

/// What version 9 of layouts added: doors that are kept shut while an arrangement is aimed. In a file of version 8 none is.
#[test]
fn doors_that_are_kept_shut() {
    let plain = parse_layout("eighth", "hall", EIGHTH_LAYOUT).unwrap();
    assert!(plain.arrangements.iter().all(|own| own.kept_shut.is_empty()));
    let again = parse_layout("now", "hall", &layout_text(&plain).unwrap()).unwrap();
    assert_eq!(again, plain);
    let with = |doors: &str| {
        let text = EIGHTH_LAYOUT.replacen("version: 8,", "version: 9,", 1);
        let text = text.replacen("parked:", &format!("kept_shut: [{doors}], parked:"), 1);
        parse_layout("f.ron", "f", &text).map_err(|faults| Language::English.file_fault(&faults[0]))
    };
    let kept = with("\"exit door\"").unwrap();
    assert_eq!(kept.arrangements[0].kept_shut, ["exit door".into()]);
    let folder = folder("kept-shut");
    let path = folder.join("f.ron");
    save_layout(&path, &kept).unwrap();
    assert_eq!(load_layout(&path).unwrap(), kept);
    for (doors, part) in [
        ("\"cellar door\"", "arrangements[0].kept_shut[0]: found \"cellar door\"; allowed is"),
        ("\"exit door\", \"exit door\"", "arrangements[0].kept_shut[1]: found \"exit door\" again"),
    ] {
        let fault = with(doors).unwrap_err();
        assert!(fault.contains(part), "{fault}");
    }
    std::fs::remove_dir_all(folder).unwrap();
}
