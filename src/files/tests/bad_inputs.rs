//! Bad inputs: each gives clear sentences with file, line, field, what was found and what is allowed; none panics.
//!
//! Each case changes one place of a sound file. A row names the case, the text that is replaced, what replaces it, and
//! pieces that the only sentence must hold.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

mod bad;

use bad::{LAYOUT, PROFILE, check_layout, check_profile, fault_of, only, plain};
use baywright_files::{load_profile, open, parse_layout};
use baywright_planner::model::Bay;

/// name, what is replaced in the sound profile, by what, what the sentence holds.
const PROFILES: &[(&str, &str, &str, &[&str])] = &[
    (
        "not a number",
        "length_mm: 4000",
        "length_mm: NaN",
        &["line 8", "body.length_mm", "NaN", "1500 to 30000 mm"],
    ),
    ("infinite", "height_mm: 1450", "height_mm: inf", &["line 10", "body.height_mm", "inf", "6000 mm"]),
    (
        "too large for a car",
        "width_mm: 1750",
        "width_mm: 1e300",
        &["body.width_mm", "1e300", "500 to 6000 mm"],
    ),
    (
        "too large for a number",
        "width_mm: 1750",
        "width_mm: 1e400",
        &["body.width_mm", "inf", "500 to 6000 mm"],
    ),
    (
        "negative width",
        "width_mm: 1750",
        "width_mm: -1750",
        &["line 9", "body.width_mm", "-1750 mm", "500 to 6000 mm"],
    ),
    ("zero length", "length_mm: 4000", "length_mm: 0", &["body.length_mm", "found 0 mm", "1500 to 30000 mm"]),
    (
        "wheelbase longer than the car",
        "wheelbase_mm: 2500",
        "wheelbase_mm: 4100",
        &["line 11", "body.wheelbase_mm", "4100 mm", "less than the length of 4000 mm"],
    ),
    (
        "figures that do not add up",
        "overhang_rear_mm: 700",
        "overhang_rear_mm: 720",
        &["body.length_mm", "2500 + 800 + 720", "4020 mm", "within 10 mm"],
    ),
    (
        "track wider than the car",
        "track_front_mm: 1500",
        "track_front_mm: 1800",
        &["body.track_front_mm", "1800 mm", "less than the width of 1750 mm"],
    ),
    (
        "unknown field",
        "height_mm: 1450",
        "heigth_mm: 1450",
        &["line 10", "body.heigth_mm", "field named \"heigth_mm\"", "height_mm"],
    ),
    (
        "missing field",
        "wheelbase_mm: 2500,",
        "",
        &["line 7", "body.wheelbase_mm", "no wheelbase_mm", "must be given"],
    ),
    (
        "field twice",
        "height_mm: 1450,",
        "height_mm: 1450, height_mm: 1450,",
        &["line 10", "body.height_mm", "again", "once"],
    ),
    (
        "decimal comma",
        "height_mm: 1450",
        "height_mm: 1450,5",
        &["line 10", "1450,5 with a comma", "decimal point: 1450.5"],
    ),
    (
        "decimal comma in a place",
        "at_mm: (760, 0, 520)",
        "at_mm: (760,5, 0, 520)",
        &["line 20", "sensors[0].at_mm", "760,5 with a comma", "760.5"],
    ),
    (
        "a text for a number",
        "length_mm: 4000",
        "length_mm: \"4 m\"",
        &["line 8", "body.length_mm", "4 m", "a number"],
    ),
    (
        "a number for a text",
        "name: \"Test car\"",
        "name: 5",
        &["line 3", "name", "5", "text in double quotes"],
    ),
    (
        "unknown class",
        "class: Saloon",
        "class: Racer",
        &["line 4", "class", "\"Racer\"", "SmallHatchback, Saloon"],
    ),
    (
        "unknown kind of sensor",
        "kind: Lidar",
        "kind: Sonar",
        &["line 19", "sensors[0].kind", "\"Sonar\"", "ForwardRadar", "Lidar"],
    ),
    (
        "unknown field in a kind",
        "kind: Lidar",
        "kind: ForwardCamera(pixels_across: 5, pixels: 5)",
        &["sensors[0].kind", "pixels", "pixels_down"],
    ),
    (
        "beam of nothing",
        "kind: Lidar",
        "kind: ForwardRadar(frequency_ghz: 77, bandwidth_ghz: 1, beam_azimuth_deg: 0, beam_elevation_deg: 5)",
        &["line 19", "sensors[0].kind.beam_azimuth_deg", "0°", "above 0"],
    ),
    (
        "view of nothing",
        "view_azimuth_deg: 60",
        "view_azimuth_deg: 0",
        &["line 21", "sensors[0].view_azimuth_deg", "found 0°", "above 0 and up to 360°"],
    ),
    (
        "sensor off the car",
        "at_mm: (760, 0, 520)",
        "at_mm: (760, 5000, 520)",
        &["line 20", "sensors[0].at_mm[1]", "5000 mm"],
    ),
    (
        "unknown sensor of an aiming",
        "sensor: \"eye\"",
        "sensor: \"ear\"",
        &["aimings[0].sensor", "\"ear\"", "allowed is \"eye\""],
    ),
    (
        "unknown mark in a step",
        "from: \"1\", through: \"2\"",
        "from: \"1\", through: \"9\"",
        &["aimings[0].mark_plan[2].how.through", "\"9\"", "\"1\" or \"2\""],
    ),
    (
        "a later mark in a step",
        "from: \"1\", through: \"2\"",
        "from: \"3\", through: \"2\"",
        &["aimings[0].mark_plan[2].how.from", "\"3\"", "\"1\" or \"2\""],
    ),
    (
        "unknown body point",
        "BodyPoint(point: \"badge\")",
        "BodyPoint(point: \"star\")",
        &["aimings[0].mark_plan[1].how.point", "\"star\"", "\"badge\""],
    ),
    (
        "unknown body point of a stand-off",
        "from: FrontAxle",
        "from: BodyPoint(\"star\")",
        &["aimings[0].placements[0].stand_off.from", "\"star\"", "\"badge\""],
    ),
    (
        "unknown mark of a placement",
        "mark: \"3\"",
        "mark: \"8\"",
        &["aimings[0].placements[0].mark", "\"8\"", "\"3\""],
    ),
    (
        "unknown placement of a zone",
        "frame: Target(\"board\")",
        "frame: Target(\"wall\")",
        &["aimings[0].zones[0].frame", "\"wall\"", "\"board\""],
    ),
    (
        "zone upside down",
        "bottom_mm: 0, top_mm: 1500",
        "bottom_mm: 1500, top_mm: 0",
        &["aimings[0].zones[0].top_mm", "found 0 mm", "above the bottom at 1500 mm"],
    ),
    (
        "circle of nothing",
        "Rectangle(from_mm: (-500, -500), to_mm: (500, 500))",
        "Round(middle_mm: (0, 0), diameter_mm: 0)",
        &["aimings[0].zones[0].outline.diameter_mm", "found 0 mm", "above 0"],
    ),
    (
        "rectangle turned about",
        "to_mm: (500, 500)",
        "to_mm: (-600, 500)",
        &["aimings[0].zones[0].outline.to_mm", "(-600, 500)", "larger x"],
    ),
    (
        "standing target on the floor",
        "height: Absolute(height_mm: 900)",
        "height: OnFloor",
        &["aimings[0].placements[0].height", "standing target on the floor", "mat"],
    ),
    (
        "two sensors of one name",
        "sensors: [",
        "sensors: [(name: \"eye\", kind: Lidar, at_mm: (0, 0, 500), view_azimuth_deg: 10, view_elevation_deg: 10, adjusted: Screw, source: Example),",
        &["sensors[1].name", "\"eye\" again", "sensors[0].name has it already"],
    ),
    (
        "a day that is none",
        "source: Example,\n    body",
        "source: Maker(document: \"x\", date: \"2025-02-30\"),\n    body",
        &["line 5", "source.date", "2025-02-30", "a day that exists"],
    ),
    (
        "a clumsy outline",
        "tyre_width_mm: 200,",
        "tyre_width_mm: 200, outline_top_mm: [(800, 0), (0, 875), (0, -875), (-3200, 0)],",
        &["body.outline_top_mm", "crosses or touches", "meet only at its corners"],
    ),
    (
        "an outline smaller than the car",
        "tyre_width_mm: 200,",
        "tyre_width_mm: 200, outline_top_mm: [(800, -500), (800, 500), (-3200, 500), (-3200, -500)],",
        &["body.outline_top_mm", "(800, 500)", "(800, 875)", "within 10 mm"],
    ),
    (
        "version of a newer program",
        "version: 1",
        "version: 2",
        &["line 2", "version", "made by a newer program", "allowed is 1"],
    ),
    (
        "a car in metres",
        "length_mm: 4000",
        "length_mm: 4.0",
        &["body.length_mm", "found 4 mm", "1500 to 30000 mm"],
    ),
    (
        "a tyre in metres",
        "tyre_diameter_mm: 600",
        "tyre_diameter_mm: 0.6",
        &["tyre_diameter_mm", "200 to 3000 mm"],
    ),
    (
        "a stand-off in metres",
        "distance_mm: 3000",
        "distance_mm: 3",
        &["stand_off.distance_mm", "100 to 100000 mm"],
    ),
    (
        "a sensor in metres",
        "(760, 0, 520)",
        "(760, 0, 0.52)",
        &["sensors[0].at_mm[2]", "0.52 mm", "50 to 1750 mm"],
    ),
    (
        "working room in metres",
        "axis: ThrustLine,",
        "axis: ThrustLine, working_room_mm: 0.6,",
        &["working_room_mm", "0.6 mm", "0, or 100 to 100000 mm"],
    ),
    (
        "a misspelt wheel",
        "wheel: FrontLeft",
        "wheel: FrontLet",
        &["\"FrontLet\"", "(did you mean FrontLeft?)"],
    ),
    ("version 0", "version: 1", "version: 0", &["line 2", "version", "found version 0", "allowed is 1"]),
    ("no version", "version: 1,", "", &["line 1", "version", "no version", "must be given"]),
];

/// The same for the sound layout.
const LAYOUTS: &[(&str, &str, &str, &[&str])] = &[
    (
        "room that crosses itself",
        "[(0, 0), (6000, 0), (6000, 4000), (0, 4000)]",
        "[(0, 0), (6000, 4000), (6000, 0), (0, 4000)]",
        &["line 6", "room.corners_mm", "room.corners_mm[0] crosses", "room.corners_mm[2]"],
    ),
    (
        "room with two corners",
        "[(0, 0), (6000, 0), (6000, 4000), (0, 4000)]",
        "[(0, 0), (6000, 0)]",
        &["room.corners_mm", "2 corners", "3 corners or more"],
    ),
    (
        "a corner out of reach",
        "(6000, 4000), (0",
        "(6e300, 4000), (0",
        &["line 6", "room.corners_mm[2]", "6e300", "-10000000 to 10000000 mm"],
    ),
    (
        "a wall too few",
        "(name: \"d\", material: Brick),",
        "",
        &["room.walls", "3 walls for 4 corners", "one wall for each corner"],
    ),
    (
        "no ceiling",
        "ceiling_mm: 3000",
        "ceiling_mm: 0",
        &["line 13", "room.ceiling_mm", "found 0 mm", "1000 to 100000 mm"],
    ),
    (
        "unknown wall",
        "wall: \"a\"",
        "wall: \"z\"",
        &["line 16", "openings[0].wall", "\"z\"", "\"a\", \"b\", \"c\" or \"d\""],
    ),
    (
        "door beyond its wall",
        "from_mm: 1000",
        "from_mm: 5000",
        &["openings[0].width_mm", "from 5000 to 7000 mm", "the wall's 6000 mm"],
    ),
    (
        "doors that overlap",
        "openings: [",
        "openings: [(name: \"gap\", kind: Gap, wall: \"a\", from_mm: 900, width_mm: 500, top_mm: 2000, material: Wood, shut: false),",
        &["openings[1]", "\"door\" overlaps \"gap\"", "side by side"],
    ),
    (
        "door higher than the ceiling",
        "top_mm: 2500",
        "top_mm: 3500",
        &["openings[0].top_mm", "3500 mm", "the ceiling's 3000 mm"],
    ),
    (
        "unknown material",
        "material: Wood",
        "material: Cheese",
        &["openings[0].material", "\"Cheese\"", "Steel, Aluminium"],
    ),
    (
        "thing upside down",
        "top_mm: 900",
        "top_mm: -5",
        &["line 21", "things[0].top_mm", "-5 mm", "above the bottom at 0 mm"],
    ),
    (
        "round thing of nothing",
        "Round(diameter_mm: 400)",
        "Round(diameter_mm: 0)",
        &["things[0].shape.diameter_mm", "found 0 mm", "5 to 100000 mm"],
    ),
    (
        "two things of one name",
        "name: \"bin\"",
        "name: \"drum\"",
        &["things[2].name", "\"drum\" again", "things[0].name has it already"],
    ),
    (
        "a thing named as a wall",
        "name: \"bin\"",
        "name: \"a\"",
        &["things[2].name", "\"a\" again", "room.walls[0].name"],
    ),
    (
        "a name without letters",
        "name: \"bin\"",
        "name: \"\"",
        &["things[2].name", "an empty text", "1 to 120 characters"],
    ),
    ("a huge name", "name: \"bin\"", bad::HUGE_NAME, &["things[2].name", "a text of", "1 to 120 characters"]),
    (
        "unknown vehicle",
        "vehicle: \"car\"",
        "vehicle: \"cart\"",
        &["line 29", "arrangements[0].vehicle", "\"cart\"", "no profile", "\"car\""],
    ),
    (
        "a vehicle in another folder",
        "vehicle: \"car\"",
        "vehicle: \"../profiles/car\"",
        &["arrangements[0].vehicle", "no profile"],
    ),
    (
        "unknown aiming",
        "aiming: \"look\"",
        "aiming: \"peek\"",
        &["line 30", "arrangements[0].aiming", "\"peek\"", "\"look\""],
    ),
    (
        "unknown thing moved",
        "moved: [(thing: \"drum\"",
        "moved: [(thing: \"drums\"",
        &["arrangements[0].moved[0].thing", "\"drums\"", "\"drum\", \"bench\" or \"bin\""],
    ),
    (
        "unknown thing away",
        "away: [\"bench\"]",
        "away: [\"desk\"]",
        &["arrangements[0].away[0]", "\"desk\"", "\"drum\", \"bench\" or \"bin\""],
    ),
    (
        "unknown door",
        "(door: \"door\", shut: false)",
        "(door: \"gate\", shut: false)",
        &["arrangements[0].doors[0].door", "\"gate\"", "\"door\""],
    ),
    (
        "unknown placement",
        "placement: \"board\"",
        "placement: \"mat\"",
        &["arrangements[0].stands[0].placement", "\"mat\"", "\"board\""],
    ),
    (
        "unknown runway",
        "away: [",
        "on_runways: [\"ramp\"], away: [",
        &["arrangements[0].on_runways[0]", "\"ramp\"", "nothing of the kind"],
    ),
    (
        "heading beyond a turn",
        "heading_deg: 0",
        "heading_deg: 3600",
        &["line 31", "arrangements[0].parked.heading_deg", "3600°", "-360 to 360°"],
    ),
    (
        "a car too far away",
        "at_mm: (3000, 2000), heading",
        "at_mm: (inf, 2000), heading",
        &["arrangements[0].parked.at_mm[0]", "inf", "-10000000 to 10000000"],
    ),
    (
        "two arrangements of one name",
        "arrangements: [",
        "arrangements: [(name: \"first\", vehicle: \"car\", aiming: \"look\", parked: (at_mm: (3000, 2000), heading_deg: 0)),",
        &["arrangements[1].name", "\"first\" again"],
    ),
    (
        "a level that is no level",
        "arrangements: [",
        "survey: (source: Example, points: [(at_mm: (0, 0), level_mm: 9000)]), arrangements: [",
        &["survey.points[0].level_mm", "9000 mm", "-2000 to 2000 mm"],
    ),
    ("a missing bracket", "things: [", "things: ", &["things", "a list in [ and ]"]),
    ("a missing comma", "name: \"bench\",", "name: \"bench\"", &["line 22", "things[1]", "a comma"]),
    ("a missing colon", "ceiling_mm: 3000", "ceiling_mm 3000", &["line 13", "colon"]),
    (
        "an unclosed text",
        "name: \"bench\",",
        "name: \"bench,",
        &["line 22", "text that goes on to line 24", "its closing double quote is probably missing"],
    ),
    (
        "an unclosed text far above",
        "name: \"Test bay\"",
        "name: \"Test bay",
        &["line 3,", "text that goes on to line 8", "double quote is probably missing"],
    ),
    (
        "the last text unclosed",
        "door: \"door\"",
        "door: \"door",
        &["line 34", "double quote is probably missing"],
    ),
    ("a text not opened", "name: \"bench\",", "name: bench\",", &["line 22", "text in double quotes"]),
    (
        "thousands apart",
        "ceiling_mm: 3000",
        "ceiling_mm: 3 000",
        &["line 13", "3 000", "3000: no spaces in numbers"],
    ),
    (
        "thousands apart in a place",
        "at_mm: (5500, 400)",
        "at_mm: (5 500, 400)",
        &["5 500", "5500: no spaces in numbers"],
    ),
    (
        "a unit",
        "length_mm: 900,",
        "length_mm: 900mm,",
        &["line 22", "900mm", "900: no unit here, the field's name has it"],
    ),
    ("a unit apart", "heading_deg: 0)", "heading_deg: 0 deg)", &["0 deg", "0: no unit here"]),
    ("a unit as a sign", "ceiling_mm: 3000", "ceiling_mm: 10'", &["10'", "10: no unit here"]),
    (
        "thousands with a comma",
        "ceiling_mm: 3000",
        "ceiling_mm: 3,000",
        &["3,000 with a comma", "no comma: 3000"],
    ),
    ("a kind in small letters", "material: Wood", "material: wood", &["\"wood\"", "(did you mean Wood?)"]),
    ("a misspelt kind", "kind: Drum", "kind: Drumm", &["\"Drumm\"", "(did you mean Drum?)"]),
    ("a kind in quotes", "kind: Drum", "kind: \"Drum\"", &["the text \"Drum\"", "without quotes: Drum"]),
    ("a misspelt field", "ceiling_mm", "cieling_mm", &["room.cieling_mm", "(did you mean ceiling_mm?)"]),
    (
        "a misspelt wall",
        "wall: \"a\"",
        "wall: \"A\"",
        &["openings[0].wall", "\"A\"", "(did you mean \"a\"?)"],
    ),
    (
        "a misspelt thing",
        "thing: \"drum\"",
        "thing: \"durm\"",
        &["moved[0].thing", "(did you mean \"drum\"?)"],
    ),
    ("a misspelt aiming", "aiming: \"look\"", "aiming: \"lok\"", &["\"lok\"", "(did you mean \"look\"?)"]),
    (
        "a room in metres",
        "[(0, 0), (6000, 0), (6000, 4000), (0, 4000)]",
        "[(0, 0), (6, 0), (6, 4), (0, 4)]",
        &["room.corners_mm", "a room of 6 by 4 mm", "1000 to 1000000 mm each way"],
    ),
    (
        "a ceiling in metres",
        "ceiling_mm: 3000",
        "ceiling_mm: 2.9",
        &["room.ceiling_mm", "2.9 mm", "1000 to 100000 mm"],
    ),
    (
        "a thing in metres",
        "length_mm: 900, width_mm: 400",
        "length_mm: 0.9, width_mm: 400",
        &["things[1].shape.length_mm", "0.9 mm", "5 to 100000 mm"],
    ),
    (
        "a height in metres",
        "top_mm: 800",
        "top_mm: 0.8",
        &["things[1].top_mm", "0.8 mm", "3 to 100000 mm above the bottom"],
    ),
    (
        "a door in metres",
        "width_mm: 2000",
        "width_mm: 2",
        &["openings[0].width_mm", "found 2 mm", "100 to 100000 mm"],
    ),
    ("an unclosed comment", "things: [", "/* things: [", &["comment that is closed"]),
    (
        "rubbish after the end",
        "\n// the end",
        "\n)))",
        &["line 36", "nothing after the file's last closing bracket"],
    ),
    ("nesting without end", "things: [", bad::DEEP, &["line 19", "things[0]", "a record in ( and )"]),
];

type Row = (&'static str, &'static str, &'static str, &'static [&'static str]);

/// Spoils a sound text by each row and collects what is wrong with the sentences.
fn check_rows(rows: &[Row], sound: &str, check: impl Fn(&str) -> Vec<String>) {
    let wrong: Vec<String> = rows
        .iter()
        .filter_map(|(name, from, to, parts)| {
            assert!(sound.contains(from), "{name}: the sound file has no {from:?}");
            fault_of(name, &check(&sound.replacen(from, to, 1)), parts)
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_bad_profile_gives_one_clear_sentence() {
    check_rows(PROFILES, PROFILE, check_profile);
}

#[test]
fn every_bad_layout_gives_one_clear_sentence() {
    check_rows(LAYOUTS, LAYOUT, |text| check_layout(text.as_bytes()));
}

#[test]
fn the_sound_files_are_sound() {
    assert_eq!(check_profile(PROFILE), Vec::<String>::new());
    assert_eq!(check_layout(LAYOUT.as_bytes()), Vec::<String>::new());
    // A byte-order mark, Windows line ends and a clockwise room are fine.
    assert_eq!(check_profile(&format!("\u{feff}{}", PROFILE.replace('\n', "\r\n"))), Vec::<String>::new());
}

#[test]
fn files_that_are_no_files() {
    let cut = LAYOUT.len() * 2 / 3;
    only("truncated", &check_layout(&LAYOUT.as_bytes()[..cut]), &["line 2", "allowed is"]);
    plain("empty", &check_layout(b""), &["an empty file", "(version: 1,"]);
    plain("blank", &check_layout(b" \n\t\r\n "), &["an empty file", "(version: 1,"]);
    plain("only a byte-order mark", &check_layout(b"\xef\xbb\xbf"), &["an empty file"]);
    plain(
        "binary",
        &check_layout(b"\x7fELF\x02\x01\x01\0\0\0"),
        &["line 1", "control character", "plain text"],
    );
    plain("not UTF-8", &check_layout(b"(version: 1,\n name: \"B\xfchne\")"), &["line 2", "0xFC", "UTF-8"]);
    only("a list instead of a record", &check_layout(b"[1, 2, 3]"), &["line 1", "a record in ( and )"]);
    only("a lone number", &check_layout(b"42"), &["line 1", "a record in ( and )"]);
    let open = "(".repeat(200_000);
    only("nothing but brackets", &check_layout(open.as_bytes()), &["line 1"]);
    let huge = vec![b' '; usize::try_from(baywright_files::LARGEST_FILE).unwrap() + 1];
    plain("too large", &check_layout(&huge), &["8388609 bytes", "at most 8388608 bytes"]);
}

/// What is no readable file is said in plain words, with what to do.
#[test]
fn files_that_are_not_there() {
    let folder = bad::folder();
    let told = |path: &std::path::Path| -> Vec<String> {
        open(path, None).unwrap_err().iter().map(ToString::to_string).collect()
    };
    plain(
        "not there",
        &told(&folder.join("crowded-bax.ron")),
        &[
            "crowded-bax.ron: ",
            "there is no file of that name",
            "built-in bays are clear-bay, crowded-bay",
            "did you mean crowded-bay?",
        ],
    );
    plain("no folder", &told(&folder.join("none/bay.ron")), &["there is no file of that name"]);
    plain(
        "a folder",
        &told(&folder.join("bay-layouts")),
        &["this is a folder; name the file of a bay layout in it"],
    );
    plain(
        "a file for a folder",
        &{
            std::fs::write(folder.join("file"), "").unwrap();
            told(&folder.join("file/bay.ron"))
        },
        &["cannot be read"],
    );
    #[cfg(unix)]
    plain(
        "a device",
        &told(std::path::Path::new("/dev/null")),
        &["this is no plain file; name the file of a bay layout"],
    );
    let unwritten = baywright_files::write_whole(&folder.join("no/such.svg"), b"x").unwrap_err();
    plain(
        "not written",
        &[unwritten.to_string()],
        &["such.svg: ", "there is no such folder; choose a place"],
    );
    let profile = load_profile(&folder.join("car.ron")).unwrap_err();
    plain(
        "no profile",
        &[profile[0].to_string()],
        &["a vehicle profile cannot be read here: there is no file"],
    );
    std::fs::remove_dir_all(folder).unwrap();
}

/// Figures and places are those of the file, though the model goes round the room the other way.
#[test]
fn a_clockwise_room_is_reported_as_it_stands_in_the_file() {
    let clockwise = LAYOUT.replacen(
        "[(0, 0), (6000, 0), (6000, 4000), (0, 4000)]",
        "[(0, 0), (0, 4000), (6000, 4000), (6000, 0)]",
        1,
    );
    assert_eq!(check_layout(clockwise.as_bytes()), Vec::<String>::new());
    let spoilt = |from: &str, to: &str| {
        assert!(clockwise.contains(from));
        check_layout(clockwise.replacen(from, to, 1).as_bytes())
    };
    only(
        "an opening beyond its wall",
        &spoilt("from_mm: 1000", "from_mm: 3000"),
        &["line 16", "openings[0].width_mm: found an opening from 3000 to 5000 mm", "the wall's 4000 mm"],
    );
    only(
        "far beyond",
        &spoilt("from_mm: 1000", "from_mm: 5600"),
        &["from 5600 to 7600 mm", "the wall's 4000 mm"],
    );
    only(
        "before its wall",
        &spoilt("from_mm: 1000", "from_mm: -10"),
        &["openings[0].from_mm: found -10 mm", "0 to"],
    );
    only("too narrow", &spoilt("width_mm: 2000", "width_mm: 2"), &["openings[0].width_mm: found 2 mm"]);
    only("no number", &spoilt("from_mm: 1000", "from_mm: NaN"), &["openings[0].from_mm: found NaN"]);
    only("beyond by less than counts", &spoilt("from_mm: 1000", "from_mm: 2002"), &["from 2002 to 4002 mm"]);
    assert_eq!(spoilt("from_mm: 1000", "from_mm: 2000.5"), Vec::<String>::new());
    // Walls by their place in the file.
    only("a wall without a name", &spoilt("name: \"b\"", "name: \"\""), &["line 9", "room.walls[1].name"]);
    only(
        "two walls of a name",
        &spoilt("name: \"d\"", "name: \"a\""),
        &["room.walls[", "\"a\" again", "room.walls["],
    );
    let twice = spoilt("name: \"d\"", "name: \"a\"");
    assert!(twice[0].contains("room.walls[0].name") && twice[0].contains("room.walls[3].name"), "{twice:?}");
}

/// A wall's name, material and openings stay with its two corners when a clockwise room is turned.
#[test]
fn names_of_walls_follow_when_a_room_is_turned() {
    let same = LAYOUT
        .replacen(
            "[(0, 0), (6000, 0), (6000, 4000), (0, 4000)]",
            "[(0, 0), (0, 4000), (6000, 4000), (6000, 0)]",
            1,
        )
        .replacen("(name: \"a\", material: Brick)", "(name: \"d\", material: Brick)", 1)
        .replacen("(name: \"b\", material: Brick)", "(name: \"c\", material: Glass)", 1)
        .replacen("(name: \"c\", material: Brick)", "(name: \"b\", material: Brick)", 1)
        .replacen(
            "(name: \"d\", material: Brick),\n        ],",
            "(name: \"a\", material: Brick),\n        ],",
            1,
        )
        // 1000 to 3000 of 6000 from one end is 3000 to 5000 from the other.
        .replacen("from_mm: 1000", "from_mm: 3000", 1);
    let plain = LAYOUT.replacen("(name: \"c\", material: Brick)", "(name: \"c\", material: Glass)", 1);
    let bay = |text: &str| parse_layout("bay.ron", "bay", text).unwrap().bay;
    let (plain, turned) = (bay(&plain), bay(&same));
    let walls = |bay: &Bay| -> Vec<(String, String, [String; 2])> {
        let mut walls: Vec<_> = bay
            .room
            .edges()
            .zip(&bay.walls)
            .map(|(edge, wall)| {
                (
                    wall.id.to_string(),
                    format!("{:?}", wall.material),
                    [edge.from.to_string(), edge.to.to_string()],
                )
            })
            .collect();
        walls.sort();
        walls
    };
    assert_eq!(walls(&plain), walls(&turned));
    let door = |bay: &Bay| {
        let door = &bay.openings[0];
        let wall = bay.room.edges().nth(door.wall).unwrap();
        (
            bay.walls[door.wall].id.clone(),
            wall.at(door.from / wall.length()),
            wall.at((door.from + door.width) / wall.length()),
        )
    };
    assert_eq!(door(&plain), door(&turned));
}

#[test]
fn a_million_points_are_refused_at_once() {
    let points = "(0,0),".repeat(1_000_000);
    let text = LAYOUT.replacen("[(0, 0), (6000, 0), (6000, 4000), (0, 4000)]", &format!("[{points}]"), 1);
    let sentences = check_layout(text.as_bytes());
    assert!(
        sentences.iter().any(|s| s.contains("1000000 corners") && s.contains("at most 10000")),
        "{sentences:?}"
    );
}

#[test]
fn every_fault_is_reported_at_once() {
    let text = PROFILE.replacen("length_mm: 4000", "length_mm: -1", 1).replacen(
        "width_mm: 1750",
        "width_mm: NaN",
        1,
    );
    let sentences = check_profile(&text.replacen("view_azimuth_deg: 60", "view_azimuth_deg: 400", 1));
    assert_eq!(sentences.len(), 3, "{sentences:#?}");
    // A flood is cut.
    let things: String = (0..300)
        .map(|i| format!("(name: \"t{i}\", kind: Bin, shape: Round(diameter_mm: -1), at_mm: (0, 0), top_mm: 1, material: Wood, effort: Fixed),"))
        .collect();
    let sentences = check_layout(LAYOUT.replacen("things: [", &format!("things: [{things}"), 1).as_bytes());
    assert_eq!(sentences.len(), 51);
    assert!(sentences.last().unwrap().contains("250 more"), "{sentences:#?}");
}
