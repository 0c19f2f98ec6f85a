//! What goes to other programs and comes from them: DXF out and in, tables.

use std::ffi::OsString;
use std::path::Path;

use baywright_planner::words::Language;
use serde_json::Value;

use crate::run::{baywright, scratch};

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("text").replace('\u{202f}', " ")
}

fn named(path: &Path) -> &str {
    path.to_str().expect("a path")
}

/// The plan of a bay goes out, and the room and what stands in it come in again in their places.
#[test]
fn a_plan_that_went_out_comes_in_again() {
    let folder = scratch("exchange", "round");
    let (plan, again) = (folder.join("plan.dxf"), folder.join("again.ron"));
    let drawn = baywright(&["draw", "crowded-bay", "-o", named(&plan)]);
    assert_eq!(drawn.status.code(), Some(0), "{}", text(&drawn.stderr));
    let listed = baywright(&["import", named(&plan)]);
    assert_eq!(listed.status.code(), Some(0), "{}", text(&listed.stderr));
    let said = text(&listed.stdout);
    for part in ["drawn in millimetres", "Walls: ", "Movable things: ", "Keep-clear zones: ", "--room"] {
        assert!(said.contains(part), "{part}: {said}");
    }
    let made = baywright(&[
        "import",
        named(&plan),
        "--room",
        "Walls",
        "--things",
        "Movable things",
        "--things",
        "Fixed things",
        "--ceiling",
        "3100",
        "-o",
        named(&again),
    ]);
    assert_eq!(made.status.code(), Some(0), "{}", text(&made.stderr));
    let original = baywright_files::open(Path::new("crowded-bay"), None).expect("it opens");
    let loaded = baywright_files::open(&again, None).expect("it opens");
    assert!(!loaded.arrangements.is_empty());
    let (was, is) = (&original.layout.bay, &loaded.layout.bay);
    assert_eq!(is.ceiling_mm, 3_100.0);
    assert_eq!(is.room.outer().len(), was.room.outer().len());
    for corner in was.room.outer() {
        assert!(is.room.outer().iter().any(|own| own.distance(*corner) < 0.01), "{corner}");
    }
    // The first set-up of the file is what was drawn.
    let standing = &original.arrangements[0].1.bay.things;
    let low = |own: &&baywright_planner::model::Thing| own.span.bottom() < 1_000.0;
    assert!(standing.iter().filter(low).count() > 4);
    for own in standing.iter().filter(low) {
        let here = own.prism().outline.bounds();
        let same = |other: &&baywright_planner::model::Thing| {
            let there = other.prism().outline.bounds();
            there.low.distance(here.low) < 0.01 && there.high.distance(here.high) < 0.01
        };
        let found = is.things.iter().find(same).unwrap_or_else(|| panic!("{} is not there", own.id));
        // Its name is written on it.
        assert_eq!(found.id, own.id);
    }
    // Nobody's bay is replaced.
    let replaced = baywright(&["import", named(&plan), "--room", "Walls", "-o", named(&again)]);
    assert_eq!(replaced.status.code(), Some(3));
    assert!(text(&replaced.stderr).contains("exists"), "{}", text(&replaced.stderr));
    // A bay that is only drawn is never ready: floor and places are not known.
    let checked = baywright(&["check", named(&again), "--strict"]);
    assert_eq!(checked.status.code(), Some(1), "{}", text(&checked.stdout));
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn what_cannot_be_made_of_a_drawing_is_said() {
    let folder = scratch("exchange", "refused");
    let bay = folder.join("bay.ron");
    let old = "src/files/tests/dxf/old-r12.dxf";
    for (line, status, part) in [
        (&["import", old, "--room", "WALLS", "-o", named(&bay)][..], 2, "in which unit"),
        (&["import", old, "--room", "WALL", "--units", "mm", "-o", named(&bay)], 2, "did you mean WALLS?"),
        (&["import", old, "--room", "INNER", "--units", "m", "-o", "bay.txt"], 2, "ends in .ron"),
        (&["import", old, "--room", "WALLS"], 2, "--output"),
        (&["import", "README.md"], 2, "no DXF drawing"),
        (&["import", "no-such.dxf"], 2, "a DXF drawing cannot be read here"),
        (&["import", old, "--room", "WALLS", "--units", "mm", "--gap", "1", "-o", named(&bay)], 2, "6 mm"),
        (
            &["import", old, "--room", "WALLS", "--units", "mm", "--vehicle", "saloon", "-o", named(&bay)],
            2,
            "saloon",
        ),
        (&["import", old, "--room", "WALLS", "--units", "mm", "-o", "/no/such/bay.ron"], 3, "no such folder"),
    ] {
        let output = baywright(line);
        assert_eq!(output.status.code(), Some(status), "{line:?}: {}", text(&output.stderr));
        assert!(text(&output.stderr).contains(part), "{line:?}: {}", text(&output.stderr));
    }
    assert!(!bay.exists());
    let _ = std::fs::remove_dir_all(folder);
}

/// Everything that is said of a drawing is made by the words.
#[test]
fn what_is_said_of_a_drawing_is_made_by_the_words() {
    let folder = scratch("exchange", "words");
    let bay = folder.join("bay.ron");
    let said = |line: &[&str]| {
        let (mut out, mut errors) = (Vec::new(), Vec::new());
        let line = std::iter::once("baywright").chain(line.iter().copied()).map(OsString::from);
        baywright_desk::run_in(Language::Bracketed, None, line, &mut out, &mut errors);
        text(&[out, errors].concat())
    };
    let drawing = format!("{}/src/files/tests/dxf/old-r12.dxf", env!("CARGO_MANIFEST_DIR"));
    let listed = said(&["import", &drawing]);
    let made = said(&[
        "import",
        &drawing,
        "--room",
        "WALLS",
        "--walls",
        "INNER",
        "--things",
        "THINGS",
        "--units",
        "mm",
        "-o",
        named(&bay),
    ]);
    let refused = said(&["import", &drawing, "--room", "NONE", "--units", "mm", "-o", named(&bay)]);
    assert!(bay.exists() && made.contains("6 mm"), "{made}");
    for line in [listed, made, refused].iter().flat_map(|all| all.lines()) {
        assert!(line.contains('\u{27e6}') && line.ends_with('\u{27e7}'), "{line}");
    }
    let _ = std::fs::remove_dir_all(folder);
}

/// A row for each mark, target and distance, under the verdict; figures with a point whatever the units.
#[test]
fn marks_are_listed_as_a_table() {
    let folder = scratch("exchange", "marks");
    let table = folder.join("marks.csv");
    let output = baywright(&["marks", "clear-bay", "-o", named(&table)]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let written = std::fs::read_to_string(&table).expect("the table");
    assert_eq!(text(&baywright(&["marks", "clear-bay"]).stdout), written);
    let mut lines = written.lines();
    assert_eq!(
        lines.next(),
        Some("set_up,space,kind,name,to,x_mm,y_mm,height_mm,distance_mm,set_mm,set_within_mm")
    );
    let loaded = baywright_files::open(Path::new("clear-bay"), None).expect("it opens");
    let (id, arrangement) = &loaded.arrangements[0];
    let assessment = baywright_planner::assess(arrangement);
    let quoted = format!("\"{id}\",");
    assert!(id.as_str().contains(','), "a name that is quoted");
    let own: Vec<&str> = lines.filter_map(|line| line.strip_prefix(quoted.as_str())).collect();
    for mark in &assessment.scene.marks {
        let at = mark.at.expect("it has a place");
        let row = format!(
            ",mark,{},,{},{},,,,",
            mark.id,
            (at.x * 100.0).round() / 100.0,
            (at.y * 100.0).round() / 100.0
        );
        assert!(own.iter().any(|line| line.ends_with(&row)), "{row}");
    }
    // How high a target is set over its own floor, as every other sheet of the same set-up has it.
    let scene = &assessment.scene;
    for target in scene.targets.iter().filter(|own| !own.lies) {
        let set = baywright_planner::ground::height_to_set(arrangement, scene, &target.id).expect("levels");
        let figure = |mm: f64| (mm * 100.0).round() / 100.0;
        let row = format!(",{},{}", figure(set.height.value), figure(set.height.u95));
        assert!(own.iter().any(|line| line.contains(",target,") && line.ends_with(&row)), "{row}");
    }
    let readings = own.iter().filter(|line| line.contains(",tape-reading,")).count();
    assert_eq!(readings, assessment.scene.readings.len());
    assert!(
        own.iter().all(|line| line.starts_with("ready,") || line.starts_with("ready-with-care,")),
        "{own:?}"
    );
    let refused = baywright(&["marks", "clear-bay", "-o", named(&folder.join("marks.xls"))]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(text(&refused.stderr).contains("ends in .csv or .json"));
    let _ = std::fs::remove_dir_all(folder);
}

/// All that a mark sheet tells, as data: places in every frame, led back to the bay by the frames that are told too; distances that are
/// the table's and, rounded, the sheet's.
#[test]
fn a_mark_sheet_is_told_as_data() {
    let folder = scratch("exchange", "data");
    let [file, sheet] = ["marks.json", "sheet.svg"].map(|name| folder.join(name));
    let output = baywright(&["marks", "crowded-bay", "-o", named(&file)]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let written = std::fs::read_to_string(&file).expect("the data");
    let piped = baywright(&["marks", "crowded-bay", "--format", "json"]);
    assert!(piped.stdout == written.as_bytes(), "the same on standard output");
    let data: Value = serde_json::from_str(&written).expect("data");
    assert_eq!((&data["format"], &data["version"]), (&"baywright-marks".into(), &1.into()));
    let loaded = baywright_files::open(Path::new("crowded-bay"), None).expect("it opens");
    let set_ups = data["set_ups"].as_array().expect("a list");
    assert_eq!(set_ups.len(), loaded.arrangements.len());
    let figure = |of: &Value| of.as_f64().expect("a figure");
    for (own, (_, arrangement)) in set_ups.iter().zip(&loaded.arrangements) {
        let scene = baywright_planner::assess(arrangement).scene;
        assert_eq!(own["marks"].as_array().expect("a list").len(), scene.marks.len());
        for (told, mark) in own["marks"].as_array().expect("a list").iter().zip(&scene.marks) {
            let at = mark.at.expect("it has a place");
            assert!((figure(&told["at"]["bay_mm"][0]) - at.x).abs() < 1e-6);
            for name in ["vehicle", "axis"] {
                let (frame, place) = (&own["frames"][name], &told["at"][format!("{name}_mm")]);
                let turn = figure(&frame["heading_deg"]).to_radians();
                let (x, y) = (figure(&place[0]), figure(&place[1]));
                let back = [
                    figure(&frame["at_mm"][0]) + x * turn.cos() - y * turn.sin(),
                    figure(&frame["at_mm"][1]) + x * turn.sin() + y * turn.cos(),
                ];
                assert!((back[0] - at.x).hypot(back[1] - at.y) < 1e-3, "{name}: {back:?} {at}");
            }
        }
        let marks = own["marks"].as_array().expect("a list");
        for told in own["distances"].as_array().expect("a list") {
            let place = |end: usize| {
                let number = told["marks"][end].as_u64().expect("a number") as usize;
                let at = &marks[number - 1]["at"]["bay_mm"];
                (figure(&at[0]), figure(&at[1]))
            };
            let ((ax, ay), (bx, by)) = (place(0), place(1));
            let level = (ax - bx).hypot(ay - by);
            assert!((figure(&told["distance_mm"]) - level).abs() < 1.0, "{told}");
        }
        // A letter is A, B, C ..., in the order of the list.
        let findings = own["findings"].as_array().expect("a list");
        let letters: Vec<&str> = findings.iter().filter_map(|own| own["letter"].as_str()).collect();
        let expected: Vec<String> = (1..=letters.len()).map(baywright_planner::words::letter).collect();
        assert_eq!(letters, expected);
    }
    // What the sheet prints is the data's figure, rounded to a millimetre.
    let name = loaded.arrangements[0].0.as_str();
    let output = baywright(&["sheet", "crowded-bay", "-a", name, "-o", named(&sheet)]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let pages = text(&output.stdout);
    let printed = pages.lines().map(|own| std::fs::read_to_string(own).expect("a page"));
    let printed: String = printed.collect::<String>().replace(['\u{202f}', '\u{a0}'], "");
    for told in set_ups[0]["distances"].as_array().expect("a list") {
        let rounded = format!("{}", figure(&told["distance_mm"]).round());
        // With how far off it may read behind it.
        let starts = [format!(">{rounded} ±"), format!(">{rounded} * ±")];
        assert!(starts.iter().any(|own| printed.contains(own)), "{rounded}");
    }
    let _ = std::fs::remove_dir_all(folder);
}
