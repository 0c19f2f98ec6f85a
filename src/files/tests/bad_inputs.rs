//! Bad inputs: each gives clear sentences with file, line, field, what was found and what is allowed; none panics.
//!
//! Each case changes one place of a sound file. A row names the case, the text that is replaced, what replaces it, and
//! pieces that the only sentence must hold.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

mod bad;

use bad::layouts::LAYOUTS;
use bad::profiles::PROFILES;
use bad::{LAYOUT, PROFILE, Row, check_layout, check_profile, fault_of, only, plain, said};
use baywright_files::{load_profile, open, parse_layout};
use baywright_planner::model::Bay;

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
    only("a list instead of a record", &check_layout(b"[1, 2, 3]"), &["line 1", "one ( ... )"]);
    only("a lone number", &check_layout(b"42"), &["line 1", "one ( ... )"]);
    let open = "(".repeat(200_000);
    only("nothing but brackets", &check_layout(open.as_bytes()), &["line 1"]);
    let huge = vec![b' '; usize::try_from(baywright_files::LARGEST_FILE).unwrap() + 1];
    plain("too large", &check_layout(&huge), &["8388609 bytes", "at most 8388608 bytes"]);
}

/// A visit came with version 2.
#[test]
fn a_visit_names_aimings_of_its_own_car() {
    let second = LAYOUT.replacen("version: 1", "version: 2", 1);
    let with = |visit: &str| {
        assert!(second.contains("parked: ("));
        check_layout(second.replacen("parked: (", &format!("visit: {visit}, parked: ("), 1).as_bytes())
    };
    assert_eq!(with("[\"look\"]"), Vec::<String>::new());
    only(
        "an aiming that the car has not",
        &with("[\"look\", \"lok\"]"),
        &["line ", "arrangements[0].visit[1]: found \"lok\"", "(did you mean \"look\"?)"],
    );
    only("a thing", &with("[\"a\"]"), &["arrangements[0].visit[0]: found \"a\"", "allowed is \"look\""]);
}

/// What is no readable file is said in plain words, with what to do.
#[test]
fn files_that_are_not_there() {
    let folder = bad::folder();
    let told =
        |path: &std::path::Path| -> Vec<String> { open(path, None).unwrap_err().iter().map(said).collect() };
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
    plain("not written", &[said(&unwritten)], &["such.svg: ", "there is no such folder; choose a place"]);
    let profile = load_profile(&folder.join("car.ron")).unwrap_err();
    plain("no profile", &[said(&profile[0])], &["a vehicle profile cannot be read here: there is no file"]);
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
            wall.at(door.from_mm / wall.length()),
            wall.at((door.from_mm + door.width_mm) / wall.length()),
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
