//! The commands, run as programs.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;

/// A day on which the shipped floor surveys are in date.
const DAY: &str = "2026-11-20";

fn baywright(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(arguments)
        .args(["--date", DAY])
        // Nobody's own settings.
        .env("XDG_DATA_HOME", scratch("no-settings"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("the program runs")
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("text").replace('\u{202f}', " ")
}

fn errors(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("text")
}

fn scratch(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("baywright-test-{}-{name}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a scratch folder");
    folder
}

#[test]
fn check_answers_for_every_arrangement() {
    let output = baywright(&["check", "bay-layouts/crowded-bay.ron"]);
    assert_eq!(output.status.code(), Some(1), "{}", errors(&output));
    let text = out(&output);
    assert!(text.contains("Space not ready (on example figures)."), "{text}");
    assert!(text.contains("Stops the aiming:") && text.contains("Needs care:"), "{text}");
    assert!(text.contains("The vehicle maker's procedure decides."), "{text}");
    let layout = baywright_files::open(Path::new("bay-layouts/crowded-bay.ron"), None).expect("it opens");
    for (id, _) in &layout.arrangements {
        assert!(text.contains(&format!("\u{201c}{id}\u{201d}")), "{id} is missing in {text}");
    }
}

#[test]
fn check_one_arrangement() {
    let layout = baywright_files::open(Path::new("bay-layouts/clear-bay.ron"), None).expect("it opens");
    let name = layout.arrangements[0].0.to_string();
    let output = baywright(&["check", "bay-layouts/clear-bay.ron", "--arrangement", &name]);
    assert_eq!(output.status.code(), Some(0), "{}", out(&output));
    assert_eq!(out(&output).matches("Space ready").count(), 1, "{}", out(&output));
    let output = baywright(&["check", "bay-layouts/clear-bay.ron", "--arrangement", "nowhere"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(errors(&output).contains("no set-up \"nowhere\""), "{}", errors(&output));
}

/// A wooden chest beside the bonnet is nothing to the radar, and in the way of the camera that the same car is in for.
#[test]
fn the_other_aimings_of_a_visit_are_answered_for() {
    let folder = scratch("visit");
    let clear = std::fs::read_to_string("bay-layouts/clear-bay.ron").expect("it is there");
    let chest = "things: [(name: \"chest\", kind: ToolChest, shape: Rectangle(length_mm: 300, width_mm: 300), \
        at_mm: (6300, 4000), bottom_mm: 0, top_mm: 1500, material: Wood, known: Within(mm: 1), effort: OnePerson), ";
    let aiming = "aiming: \"forward radar, reflector\",";
    let visit = format!("{aiming} visit: [\"forward radar, reflector\", \"forward camera, board\"],");
    let path = folder.join("clear-bay.ron");
    let text = clear.replacen("things: [", chest, 1).replacen(aiming, &visit, 1);
    std::fs::write(&path, text).expect("it can be written");
    let asked = ["check", path.to_str().expect("a plain name"), "-a", "Saloon, forward radar"];
    let output = baywright(&asked);
    let said = out(&output);
    assert!(
        said.contains("Space ready") && said.contains("The car is in for one aiming more:"),
        "{said}{}",
        errors(&output)
    );
    assert!(said.contains("Forward camera, board: Space not ready"), "{said}");
    assert_eq!(output.status.code(), Some(1), "{said}");
    let output = baywright(&[&asked[..], &["--json"]].concat());
    let answer: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let other = &answer["arrangements"][0]["others_of_visit"][0];
    assert_eq!(other["verdict"], "not-ready", "{other}");
    std::fs::remove_dir_all(folder).expect("it is ours");
}

#[test]
fn strict_counts_care_as_not_ready() {
    let asked = ["check", "bay-layouts/lift-bay.ron", "-a", "Saloon on the runways, forward radar"];
    assert_eq!(baywright(&asked).status.code(), Some(0), "{}", out(&baywright(&asked)));
    assert_eq!(baywright(&[&asked[..], &["--strict"]].concat()).status.code(), Some(1));
    // The worst over all arrangements counts.
    assert_eq!(baywright(&asked[..2]).status.code(), Some(1));
}

#[test]
fn json_says_the_same() {
    let output = baywright(&["check", "bay-layouts/crowded-bay.ron", "--json"]);
    assert_eq!(output.status.code(), Some(1));
    let answer: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(answer["format"], "baywright-answer");
    let text = out(&baywright(&["check", "bay-layouts/crowded-bay.ron"]));
    let mut findings = 0;
    for arrangement in answer["arrangements"].as_array().expect("arrangements") {
        assert!(arrangement["marks"].as_array().is_some_and(|marks| marks.len() >= 4));
        for finding in arrangement["findings"].as_array().expect("findings") {
            let sentence = finding["sentence"].as_str().expect("a sentence").replace('\u{202f}', " ");
            assert!(text.contains(&sentence), "{sentence} is not in the text");
            assert!(finding["place_mm"].as_array().is_some_and(|place| place.len() == 3));
            findings += 1;
        }
    }
    assert!(findings > 5, "{findings}");
}

#[test]
fn what_cannot_be_read_or_found() {
    let output = baywright(&["check", "bay-layouts/nowhere.ron"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        errors(&output).contains("nowhere.ron") && errors(&output).lines().count() == 1,
        "{}",
        errors(&output)
    );
    assert!(output.stdout.is_empty());
    let said = errors(&output);
    assert!(
        said.contains("there is no file of that name; built-in bays are clear-bay, crowded-bay"),
        "{said}"
    );
    assert!(!said.contains("os error"), "{said}");
    assert_eq!(baywright(&["chek"]).status.code(), Some(2));
    assert_eq!(baywright(&["--help"]).status.code(), Some(0));
    let folder = scratch("bad");
    let bad = folder.join("bad.ron");
    std::fs::write(&bad, "(version: 1, name: 3)").expect("a bad file");
    let output = baywright(&["check", bad.to_str().expect("a path")]);
    assert_eq!(output.status.code(), Some(2));
    assert!(errors(&output).contains("line 1"), "{}", errors(&output));
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn draw_writes_a_picture() {
    let folder = scratch("draw");
    for view in ["top", "side"] {
        let picture = folder.join(format!("{view}.svg"));
        let path = picture.to_str().expect("a path");
        let output = baywright(&["draw", "bay-layouts/crowded-bay.ron", "--view", view, "-o", path]);
        assert_eq!(output.status.code(), Some(0), "{}", errors(&output));
        let svg = std::fs::read_to_string(&picture).expect("the picture");
        assert!(svg.starts_with("<svg") || svg.starts_with("<?xml"), "{}", &svg[..80]);
        assert!(svg.contains("Space not ready"));
    }
    let page = folder.join("top.pdf");
    let path = page.to_str().expect("a path");
    let output = baywright(&["draw", "crowded-bay", "--view", "top", "-o", path]);
    assert_eq!(output.status.code(), Some(0), "{}", errors(&output));
    assert!(std::fs::read(&page).expect("the page").starts_with(b"%PDF-1.7"));
    let output = baywright(&[
        "draw",
        "crowded-bay",
        "--view",
        "top",
        "-o",
        folder.join("no/such.svg").to_str().expect("a path"),
    ]);
    assert_eq!(output.status.code(), Some(3));
    assert_eq!(errors(&output).lines().count(), 1, "{}", errors(&output));
    // Nothing half written is left behind.
    assert_eq!(std::fs::read_dir(&folder).expect("the folder").count(), 3);
    let _ = std::fs::remove_dir_all(folder);
}

/// A picture of another kind is not promised by its name.
#[test]
fn draw_writes_nothing_but_svg_pdf_and_dxf() {
    let folder = scratch("ending");
    for name in ["x.png", "x", "x.svg.gz"] {
        let picture = folder.join(name);
        let path = picture.to_str().expect("a path");
        let output = baywright(&["draw", "crowded-bay", "--view", "top", "-o", path]);
        assert_eq!(output.status.code(), Some(2), "{name}");
        let said = errors(&output);
        assert_eq!(
            said,
            format!(
                "{path}: drawings are written as SVG, PDF or DXF; give a name that ends in .svg, .pdf or .dxf.\n"
            )
        );
        assert!(!picture.exists(), "{name}");
    }
    let _ = std::fs::remove_dir_all(folder);
}

/// A link whose name promises a picture does not lead to a bay that somebody measured.
#[cfg(unix)]
#[test]
fn draw_does_not_follow_a_link_to_a_layout() {
    let folder = scratch("link");
    let layout = folder.join("mine.ron");
    std::fs::copy("bay-layouts/crowded-bay.ron", &layout).expect("a layout");
    let before = std::fs::read(&layout).expect("the layout");
    let link = folder.join("plan.svg");
    std::os::unix::fs::symlink("mine.ron", &link).expect("a link");
    // A layout may have any name.
    let odd = folder.join("odd.svg");
    std::fs::copy("bay-layouts/crowded-bay.ron", &odd).expect("a layout");
    for (layout, picture, said) in [
        (
            &layout,
            &link,
            "mine.ron, which is another kind of file than the link's name says; choose another name.",
        ),
        (&odd, &odd, "it is what this is made from; choose another name."),
    ] {
        let [layout, picture] = [layout, picture].map(|path| path.to_str().expect("a path"));
        let output = baywright(&["draw", layout, "--view", "top", "-o", picture]);
        assert_eq!(output.status.code(), Some(3));
        assert!(errors(&output).trim_end().ends_with(said), "{}", errors(&output));
        assert_eq!(std::fs::read(layout).expect("the layout"), before);
    }
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn without_a_display_the_demo_answers() {
    let folder = scratch("demo");
    // What others put into a folder that all share is not followed.
    let theirs = folder.join("theirs");
    std::fs::write(&theirs, "theirs").expect("another file");
    #[cfg(unix)]
    for view in ["top", "side"] {
        let planted = folder.join(format!("baywright-crowded-bay-{view}.svg"));
        std::os::unix::fs::symlink(&theirs, planted).expect("a link");
    }
    let output = Command::new(env!("CARGO_BIN_EXE_baywright"))
        // From any folder: the demo is built in.
        .current_dir(&folder)
        .env("TMPDIR", &folder)
        .env("XDG_DATA_HOME", folder.join("data"))
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .output()
        .expect("the program runs");
    assert_eq!(output.status.code(), Some(0), "{}", errors(&output));
    let text = out(&output);
    assert!(text.starts_with("No window can be opened (there is no display)"), "{text}");
    assert!(text.contains("Space not ready"), "{text}");
    let (_, drawn) = text.split_once("Drawn to scale: ").expect("where the pictures lie");
    let drawn: Vec<PathBuf> = drawn.trim().split(" and ").map(PathBuf::from).collect();
    assert_eq!(drawn.len(), 2, "{text}");
    for (picture, view) in drawn.iter().zip(["top", "side"]) {
        assert!(picture.ends_with(format!("crowded-bay-{view}.svg")), "{text}");
        assert!(picture.starts_with(&folder) && picture.metadata().is_ok_and(|file| file.len() > 1_000));
        // In a folder of their own, which nobody else can have prepared or looks into.
        let own = picture.parent().expect("a folder");
        assert_ne!(own, folder);
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            assert_eq!(own.metadata().expect("the folder").permissions().mode() & 0o777, 0o700);
        }
    }
    assert_eq!(std::fs::read_to_string(&theirs).expect("the other file"), "theirs");
    let _ = std::fs::remove_dir_all(folder);
}

/// A car of the same name may lie where nobody could look, and is not the one that is answered for: that is said once, beside the
/// answer. Where the cars lie in a place that goes before it, nothing is missed.
#[test]
fn a_folder_of_cars_that_is_passed_over_is_said() {
    let folder = scratch("passed-over");
    let data = folder.join("data");
    // A file in the place of the folder: so it is for every user, on every system that has such a place.
    std::fs::create_dir_all(data.join("baywright")).expect("a folder");
    std::fs::write(data.join("baywright").join("vehicle-profiles"), "no folder").expect("a file");
    let layout = folder.join("bays").join("mine.ron");
    std::fs::create_dir_all(folder.join("bays")).expect("a folder");
    std::fs::copy("bay-layouts/crowded-bay.ron", &layout).expect("a copy");
    let layout = layout.display().to_string();
    let run = |data: &std::path::Path, arguments: &[&str]| {
        Command::new(env!("CARGO_BIN_EXE_baywright"))
            .args(arguments)
            .args(["--date", DAY])
            .env("XDG_DATA_HOME", data)
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .expect("the program runs")
    };
    let none = folder.join("none");
    let (said, plain) = (run(&data, &["check", &layout, &layout]), run(&none, &["check", &layout, &layout]));
    assert_eq!((&said.stdout, said.status.code()), (&plain.stdout, plain.status.code()));
    assert!(errors(&plain).is_empty(), "{}", errors(&plain));
    let line = errors(&said);
    assert_eq!(line.lines().count(), 1, "{line}");
    assert!(line.contains("vehicle-profiles: a folder of vehicle profiles cannot be read here"), "{line}");
    assert!(line.trim_end().ends_with("one of the same name in there is not looked at."), "{line}");
    let json = run(&data, &["check", &layout, "--json"]);
    let told: Value = serde_json::from_slice(&json.stderr).expect("one document");
    assert_eq!(told["errors"].as_array().map(Vec::len), Some(1), "{told}");
    assert_eq!(told["errors"][0]["kind"], "cannot-read");
    let beside = run(&data, &["check", "bay-layouts/crowded-bay.ron"]);
    assert!(errors(&beside).is_empty(), "{}", errors(&beside));
    let _ = std::fs::remove_dir_all(folder);
}

/// A file without a command is opened, as "open" does it; a command that was mistyped is no file.
#[test]
fn a_file_alone_is_opened() {
    let folder = scratch("alone");
    let run = |arguments: &[&str]| {
        let output = Command::new(env!("CARGO_BIN_EXE_baywright"))
            .args(arguments)
            .env("XDG_DATA_HOME", &folder)
            .env_remove("DISPLAY")
            .env_remove("WAYLAND_DISPLAY")
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .expect("the program runs");
        assert_eq!(output.status.code(), Some(2));
        assert!(output.stdout.is_empty());
        errors(&output)
    };
    for layout in ["crowded-bay", "bay-layouts/crowded-bay.ron"] {
        let said = run(&[layout]);
        assert!(said.starts_with("No window can be opened (there is no display)"), "{said}");
        assert_eq!(said, run(&["open", layout]));
    }
    let said = run(&["no-such-bay.ron"]);
    assert!(said.starts_with("no-such-bay.ron: ") && said == run(&["open", "no-such-bay.ron"]), "{said}");
    assert!(run(&["chek"]).contains("'check'"));
    // Nothing was shown, so nothing is remembered.
    assert_eq!(std::fs::read_dir(&folder).expect("the folder").count(), 0);
    let _ = std::fs::remove_dir_all(folder);
}

/// Who works in a folder that somebody removed is told so, and not that something is not allowed.
#[cfg(unix)]
#[test]
fn a_folder_that_was_removed_is_said() {
    let folder = scratch("removed");
    let script = format!(
        "cd {folder} && rmdir {folder} && {program} draw crowded-bay --view top -o a.svg",
        folder = folder.display(),
        program = env!("CARGO_BIN_EXE_baywright")
    );
    let output = Command::new("sh").args(["-c", &script]).output().expect("a shell");
    assert_eq!(output.status.code(), Some(3));
    let said = errors(&output);
    assert!(said.contains("a.svg: this file cannot be written: ") && said.contains("folder"), "{said}");
    assert!(!said.contains("permission"), "{said}");
}

/// What the README shows is what is printed, but for the breaks of its lines.
#[test]
fn the_readme_shows_what_is_printed() {
    let readme =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/README.md")).expect("README.md");
    let shown =
        readme.split("```text\n").nth(1).and_then(|rest| rest.split("```").next()).expect("an example");
    let joined =
        |text: &str| text.split([' ', '\n']).filter(|word| !word.is_empty()).collect::<Vec<_>>().join(" ");
    let output = baywright(&["check", "bay-layouts/crowded-bay.ron", "-a", "As found"]);
    let printed = String::from_utf8(output.stdout).expect("text");
    assert!(joined(&printed).starts_with(&joined(shown)), "{}", joined(&printed));
}

/// A full disk or a closed pipe must not end in a panic.
#[test]
fn an_answer_that_cannot_be_written() {
    let full = Path::new("/dev/full");
    if !full.exists() {
        return;
    }
    let output = Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(["check", "clear-bay"])
        .stdout(std::fs::OpenOptions::new().write(true).open(full).expect("a full device"))
        .output()
        .expect("the program runs");
    assert_eq!(output.status.code(), Some(3), "{}", errors(&output));
    assert_eq!(errors(&output).lines().count(), 1, "{}", errors(&output));
}

/// One file, two shops: what is judged by is said with the answer, and a file never stands for another unseen.
#[test]
fn check_by_the_settings_of_a_shop() {
    let data = scratch("settings");
    let run = |arguments: &[&str]| {
        Command::new(env!("CARGO_BIN_EXE_baywright"))
            .args(arguments)
            .args(["--date", DAY])
            .env("XDG_DATA_HOME", &data)
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .output()
            .expect("the program runs")
    };
    let json = |arguments: &[&str]| -> Value {
        let output = run(&[&["check", "clear-bay", "--json"], arguments].concat());
        serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{}", errors(&output)))
    };
    let verdicts = |answer: &Value| -> Vec<String> {
        let arrangements = answer["arrangements"].as_array().expect("arrangements");
        arrangements.iter().map(|own| own["verdict"].as_str().expect("a verdict").to_owned()).collect()
    };
    // Nothing is set: the defaults, and no file.
    let plain = json(&[]);
    assert_eq!(
        (&plain["shop"]["file"], &plain["shop"]["settings"]["by_eye_mm"]),
        (&Value::Null, &150.0.into())
    );
    assert_eq!(plain["shop"]["own"], Value::Array(Vec::new()));
    let ready = |answer: &Value| verdicts(answer).iter().filter(|own| *own == "ready").count();
    assert!(ready(&plain) > 10, "{plain}");
    // A file that is named.
    let wide = data.join("wide.ron");
    let text = "(version: 1, by_eye_mm: 900, car_planned_mm: 900, taped_mm: 200, survey_age_days: 1)";
    std::fs::write(&wide, text).expect("settings");
    let named = json(&["--shop", &wide.display().to_string()]);
    assert_eq!(named["shop"]["file"], wide.display().to_string().as_str());
    assert_eq!(named["shop"]["settings"]["taped_mm"], 200.0);
    assert_eq!(named["shop"]["own"].as_array().map(Vec::len), Some(4), "{named}");
    assert_ne!(named["shop"]["fingerprint"], plain["shop"]["fingerprint"]);
    assert_eq!(ready(&named), 0, "{named}");
    // The shop's own document, where the window keeps it.
    let own = data.join("baywright").join("shop.ron");
    std::fs::create_dir_all(own.parent().expect("a folder")).expect("a folder");
    std::fs::write(&own, text).expect("settings");
    assert_eq!(json(&[])["shop"]["file"], own.display().to_string().as_str());
    // One that cannot be read is no default; one that is named goes first.
    std::fs::write(&own, "(version: 1, by_eye_mm: 0.15)").expect("settings");
    for command in [&["check", "clear-bay"][..], &["draw", "clear-bay", "--view", "top", "-o", "never.svg"]] {
        let output = run(command);
        assert_eq!(output.status.code(), Some(2), "{}", out(&output));
        assert!(
            errors(&output).contains("by_eye_mm: found 0.15 mm; allowed is 10 to 1000 mm"),
            "{}",
            errors(&output)
        );
    }
    assert_eq!(json(&["--shop", &wide.display().to_string()])["shop"]["settings"]["by_eye_mm"], 900.0);
    assert_eq!(run(&["check", "clear-bay", "--shop", "nowhere.ron"]).status.code(), Some(2));
    // A layout that remembers other settings says so.
    let layout = data.join("bay.ron");
    let mut bay = baywright_files::open(Path::new("clear-bay"), None).expect("it opens").layout;
    bay.shop_fingerprint = Some(baywright_planner::model::Shop::default().fingerprint());
    baywright_files::save_layout(&layout, &bay).expect("saved");
    std::fs::remove_file(&own).expect("removed");
    let says =
        |output: &Output| out(output).contains("Judged by other shop settings than when it was saved.");
    let file = layout.display().to_string();
    assert!(!says(&run(&["check", &file])));
    assert!(says(&run(&["check", &file, "--shop", &wide.display().to_string()])));
    let _ = std::fs::remove_dir_all(data);
}

/// An arrangement in a building of its own says so, and how that differs from the bay's, in both forms of the answer.
#[test]
fn check_says_that_a_building_is_planned() {
    use baywright_planner::edit::Edit;
    let mut layout =
        baywright_files::open(std::path::Path::new("crowded-bay"), None).expect("a layout").layout;
    let here = layout.arrangements[1].id.clone();
    Edit::PlanBuilding.apply_in(&mut layout, &here).expect("a building");
    let mut bay = layout.bay_of(&layout.arrangements[1]).into_owned();
    bay.push_wall(1, -600.0).expect("room");
    Edit::Bay { bay: Box::new(bay), renamed: None }.apply_in(&mut layout, &here).expect("a wall moved");
    let path = scratch("planned").join("planned.ron");
    baywright_files::save_layout(&path, &layout).expect("saved");
    let file = path.display().to_string();
    let text = baywright(&["check", &file, "--arrangement", here.as_str()]);
    let text = out(&text);
    for part in [
        "“Trolley and cabinet moved”, building as planned: ",
        "   -  The building is as planned for this set-up.",
        "The building is this set-up's own, as planned. Against the bay's:\n",
        "   -  Office wall: 600 mm further out\n",
        "   -  Yard wall: 12 600 mm long instead of 12 000 mm\n",
    ] {
        assert!(text.contains(part), "{part}\n{text}");
    }
    let json = baywright(&["check", &file, "--json"]);
    let answer: Value = serde_json::from_slice(&json.stdout).expect("JSON");
    let own = &answer["arrangements"][1];
    assert_eq!(own["own_building"].as_array().map(Vec::len), Some(3), "{own}");
    assert_eq!(own["own_building"][1]["of"]["name"][0], "office wall");
    assert_eq!(own["own_building"][1]["sentence"], "Office wall: 600 mm further out");
    let codes = |own: &Value| {
        own["findings"].as_array().expect("findings").iter().any(|f| f["code"] == "own-building")
    };
    assert!(codes(own));
    let other = &answer["arrangements"][0];
    assert!(other.get("own_building").is_none() && !codes(other), "{other}");
    // The drawing is titled so, too.
    let drawn = path.with_extension("svg");
    let drawn_to = drawn.display().to_string();
    let written = baywright(&["draw", &file, "--view", "top", "-a", here.as_str(), "-o", &drawn_to]);
    assert!(written.status.success(), "{}", errors(&written));
    assert!(std::fs::read_to_string(&drawn).expect("a drawing").contains("building as planned"));
}

/// What was measured is told with its figures, its decision and by which rule, also where all is inside.
#[test]
fn check_tells_what_was_measured() {
    let text = std::fs::read_to_string("bay-layouts/clear-bay.ron").expect("it is there");
    let place = "parked: (at_mm: (4100, 3500), heading_deg: 0),";
    // Between the marks of its plan as they are meant, to the millimetre.
    let read = [
        ("3", "5", 3600),
        ("4", "6", 3600),
        ("3", "6", 4118),
        ("4", "5", 4118),
        ("5", "6", 2000),
        ("1", "5", 6150),
        ("2", "6", 6150),
        ("1", "6", 6467),
        ("2", "5", 6467),
        ("5", "7", 1000),
        ("6", "7", 1000),
        ("3", "7", 3736),
        ("4", "7", 3736),
    ];
    let read = read.map(|(from, to, mm)| format!("(from: \"{from}\", to: \"{to}\", read_mm: {mm})"));
    let taped = format!("{place}\n            marks_taped: [{}],", read.join(", "));
    let folder = scratch("measured");
    let file = folder.join("taped.ron");
    std::fs::write(&file, text.replacen(place, &taped, 1)).expect("it is written");
    let cars = folder.join("vehicle-profiles");
    std::fs::create_dir_all(&cars).expect("a folder");
    let car = "vehicle-profiles/example-hatchback-small.ron";
    std::fs::copy(car, folder.join(car)).expect("copied");
    let file = file.display().to_string();
    let asked = ["check", &file, "--arrangement", "Hatchback, forward radar"];
    let answer = out(&baywright(&asked)).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(answer.contains("As measured: - "), "{answer}");
    assert!(answer.contains(": inside, ") && answer.contains("JCGM 106"), "{answer}");
    let json = baywright(&[&asked[..], &["--json"]].concat());
    let json: Value = serde_json::from_slice(&json.stdout).expect("JSON");
    let told = json["arrangements"][0]["measured"].as_array().expect("a list");
    assert!(!told.is_empty() && told.iter().all(|own| own["decision"] == "inside"), "{told:?}");
    // As planned nothing is told.
    let planned =
        baywright(&["check", "bay-layouts/clear-bay.ron", "--arrangement", "Hatchback, forward radar"]);
    assert!(!out(&planned).contains("As measured"));
    std::fs::remove_dir_all(folder).expect("it goes");
}
