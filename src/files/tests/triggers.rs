//! Lists of what asks for aimings: the shop's own, the example, what is wrong with one.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

use std::path::PathBuf;

use baywright_files::{
    EMBEDDED_PROFILES, TRIGGERS_FILE, load_triggers, parse_profile, parse_triggers, save_triggers, triggers,
    triggers_text,
};
use baywright_planner::model::{
    Id, Provenance, SensorGroup, Trigger, TriggerList, Vehicle, aimings_for, validate,
};
use baywright_planner::words::Language;
use proptest::prelude::*;

fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("triggers-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

fn shipped_cars() -> Vec<Vehicle> {
    let car = |file: &baywright_files::Embedded| parse_profile(&file.label(), file.name, file.text).unwrap();
    EMBEDDED_PROFILES.iter().map(|file| car(file).vehicle).collect()
}

#[test]
fn the_example_says_that_it_is_one_and_reaches_every_kind_of_sensor() {
    let list = triggers(None).unwrap();
    assert!(list.name.contains("Example") && list.name.contains("common practice, no source"));
    assert!(list.name.contains("the vehicle maker's procedure decides"));
    assert_eq!(list.provenance, Provenance::Example);
    assert!(list.triggers.iter().all(|t| t.provenance == Provenance::Example));
    for group in SensorGroup::ALL {
        assert!(list.triggers.iter().any(|t| t.asks.contains(&group)), "{group:?}");
    }
    let text = triggers_text(&list).unwrap();
    assert!(text.starts_with("// ") && text.contains("the vehicle maker's procedure decides.\n"), "{text}");
    assert_eq!(parse_triggers("again", &text).unwrap(), list);
}

#[test]
fn the_documented_example_loads() {
    let guide = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../DEVELOPERS.md");
    let text = std::fs::read_to_string(guide).unwrap().replace('\r', "");
    let block = text.split("trigger list example\n\n```ron\n").nth(1).unwrap().split("```").next().unwrap();
    assert_eq!(parse_triggers("DEVELOPERS.md", block).unwrap().triggers.len(), 1);
}

/// A crash asks for every sensor: every aiming of every shipped car, each once.
#[test]
fn a_crash_asks_for_every_aiming_of_every_shipped_car() {
    let list = triggers(None).unwrap();
    for car in shipped_cars() {
        let visit = aimings_for(&car, &list, &["crash".into()]);
        let mut named: Vec<&Id> = visit.lines.iter().map(|l| &l.aiming).collect();
        let mut all: Vec<&Id> = car.aimings.iter().map(|a| &a.id).collect();
        named.sort_unstable();
        all.sort_unstable();
        assert_eq!(named, all, "{}", car.id);
        assert!(visit.missing.iter().all(|m| m.sensor.is_none()), "{}: {:?}", car.id, visit.missing);
    }
}

#[test]
fn corner_radars_go_with_their_own_bumper() {
    let list = triggers(None).unwrap();
    let aimed = |car: &str, work: &str| -> Vec<String> {
        let cars = shipped_cars();
        let car = cars.iter().find(|c| c.id.as_str() == car).unwrap();
        let visit = aimings_for(car, &list, &[work.into()]);
        let sensor = |id: &Id| car.aimings.iter().find(|a| a.id == *id).unwrap().sensor.to_string();
        visit.lines.iter().map(|l| sensor(&l.aiming)).collect()
    };
    assert_eq!(aimed("example-estate", "rear bumper"), ["rear left corner radar", "rear right corner radar"]);
    assert_eq!(aimed("example-estate", "front bumper"), ["forward radar"]);
    assert_eq!(
        aimed("example-van", "front bumper"),
        ["forward radar", "front left corner radar", "front right corner radar"]
    );
    assert_eq!(aimed("example-van", "windscreen"), ["forward camera"]);
    assert_eq!(aimed("example-van", "rear bumper"), Vec::<String>::new());
}

#[test]
fn the_shops_own_list_goes_first_and_a_bad_one_is_never_passed_over() {
    let folder = folder("own");
    let own = folder.join("data").join(TRIGGERS_FILE);
    let example = triggers(Some(&folder.join("data"))).unwrap();
    assert_eq!(example, triggers(None).unwrap(), "no folder yet");
    let mut list = example.clone();
    list.name = "Ours".to_owned();
    list.provenance = Provenance::Measured { by: "us".to_owned(), date: None };
    list.triggers.truncate(2);
    // The folder is made with the first list.
    assert_eq!(save_triggers(&own, &list).unwrap().backup, None);
    assert_eq!(triggers(Some(&folder.join("data"))).unwrap(), list);
    let text = std::fs::read_to_string(&own).unwrap();
    assert!(!text.contains("// An example"), "{text}");
    // A list that is not sound is not written, and the file stays.
    list.triggers[1].id = list.triggers[0].id.clone();
    let fault = Language::English.file_fault(&save_triggers(&own, &list).unwrap_err()[0]);
    assert!(fault.starts_with("triggers.ron, triggers[1].name: found \"windscreen\" again"), "{fault}");
    assert_eq!(std::fs::read_to_string(&own).unwrap(), text);
    // Comments by hand are kept beside.
    std::fs::write(&own, format!("// mine\n{text}")).unwrap();
    let backup = save_triggers(&own, &example).unwrap().backup.unwrap();
    assert!(std::fs::read_to_string(backup).unwrap().starts_with("// mine\n"));
    std::fs::write(&own, "(version: 1, nonsense").unwrap();
    assert_eq!(triggers(Some(&folder.join("data"))).unwrap_err().len(), 1);
    let names = std::fs::read_dir(folder.join("data")).unwrap().count();
    assert_eq!(names, 2, "the list and what was kept of it");
    std::fs::remove_dir_all(folder).unwrap();
}

const SOUND: &str = r#"(
    version: 1,
    name: "List",
    source: Example,
    triggers: [
        (name: "glass", title: "Glass replaced", asks: [ForwardCamera, Lidar], note: "n", source: Example),
        (name: "mirror", asks: [SurroundCamera], source: Maker(document: "d", date: "2026-01-31")),
    ],
)"#;

#[test]
fn what_is_wrong_is_said_with_its_place() {
    assert_eq!(parse_triggers("t.ron", SOUND).unwrap().triggers[1].title, "mirror");
    let rows: &[(&str, &str, &[&str])] = &[
        ("version: 1", "version: 2", &["line 2", "version 2, made by a newer program", "1"]),
        ("version: 1,", "", &["no version"]),
        ("name: \"List\"", "name: \"\"", &["line 3", "name: found an empty text"]),
        ("source: Example,\n", "", &["source: found no source"]),
        ("ForwardCamera", "ForwardCamra", &["line 6", "triggers[0].asks[0]", "did you mean ForwardCamera?"]),
        ("ForwardCamera", "\"ForwardCamera\"", &["line 6", "a kind without quotes: ForwardCamera"]),
        (
            "Camera, Lidar",
            "Camera, ForwardCamera",
            &["line 6", "triggers[0].asks[1]", "each kind of sensor once"],
        ),
        ("[SurroundCamera]", "[]", &["line 7", "triggers[1].asks: found an empty list", "a note"]),
        ("asks: [SurroundCamera],", "", &["line 7", "triggers[1].asks: found no asks"]),
        (
            "\"mirror\"",
            "\"glass\"",
            &["line 7", "triggers[1].name: found \"glass\" again", "triggers[0].name"],
        ),
        ("note: \"n\"", "notes: \"n\"", &["line 6", "did you mean note?"]),
        ("note: \"n\"", "note: \"a\\nb\"", &["line 6", "triggers[0].note", "a line break"]),
        ("document: \"d\"", "document: \"\"", &["line 7", "triggers[1].source.document", "an empty text"]),
        ("2026-01-31", "2026-01-32", &["line 7", "a day that exists"]),
    ];
    for (from, to, parts) in rows {
        assert!(SOUND.contains(from), "{from}");
        let faults = parse_triggers("t.ron", &SOUND.replacen(from, to, 1)).unwrap_err();
        assert_eq!(faults.len(), 1, "{to}: {faults:?}");
        let sentence = Language::English.file_fault(&faults[0]);
        for part in *parts {
            assert!(sentence.contains(part), "{to}: no {part:?} in: {sentence}");
        }
        assert!(sentence.contains("; allowed is ") && sentence.ends_with('.'), "{sentence}");
    }
    let gone = load_triggers(&folder("none").join("t.ron")).unwrap_err();
    let gone = Language::English.file_fault(&gone[0]);
    assert!(gone.contains("a list of what asks for aimings cannot be read here: there is no file"), "{gone}");
}

fn any_text() -> impl Strategy<Value = String> {
    "[a-zA-Z0-9äß\"\\\\(){}\\[\\],:/*'“☃-]([a-zA-Z0-9äß \"\\\\(){}\\[\\],:/*'“☃-]{0,20}[a-z\"\\\\)])?"
}

fn any_source() -> impl Strategy<Value = Provenance> {
    prop_oneof![
        Just(Provenance::Example),
        any_text().prop_map(|source| Provenance::Published { source }),
        any_text().prop_map(|by| Provenance::Measured { by, date: Some(jiff::civil::date(2026, 2, 28)) }),
        any_text().prop_map(|document| Provenance::Maker { document, date: None }),
    ]
}

fn any_list() -> impl Strategy<Value = TriggerList> {
    let asks = prop::sample::subsequence(SensorGroup::ALL.to_vec(), 1..=6).prop_shuffle();
    let note = prop_oneof![Just(String::new()), any_text()];
    let trigger = (any_text(), asks, note, any_source());
    (any_text(), any_source(), prop::collection::vec(trigger, 0..6)).prop_map(|(name, provenance, all)| {
        let triggers = all.into_iter().enumerate().map(|(i, (title, asks, note, provenance))| Trigger {
            id: format!("{title} {i}").into(),
            title,
            asks,
            note,
            provenance,
        });
        TriggerList { name, triggers: triggers.collect(), provenance }
    })
}

proptest! {
    #[test]
    fn what_is_saved_reads_back_as_it_was(list in any_list()) {
        prop_assert_eq!(validate::trigger_list(&list), []);
        let text = triggers_text(&list).unwrap();
        prop_assert_eq!(parse_triggers("t.ron", &text).unwrap(), list);
    }
}
