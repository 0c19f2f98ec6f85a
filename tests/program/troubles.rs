//! What goes wrong, as data.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

use serde_json::{Value, json};

fn run(line: &[&str], input: &str) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(line)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("XDG_DATA_HOME", std::env::temp_dir().join("baywright-no-settings-of-anybody"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    program.stdin.take().expect("an input").write_all(input.as_bytes()).expect("it is read");
    program.wait_with_output().expect("it ends")
}

fn errors(output: &Output) -> Vec<Value> {
    let text = String::from_utf8_lossy(&output.stderr);
    let document: Value = serde_json::from_str(&text).unwrap_or_else(|why| panic!("{why}: {text}"));
    assert_eq!((&document["format"], &document["version"]), (&json!("baywright-errors"), &json!(1)));
    let errors = document["errors"].as_array().expect("a list").clone();
    assert!(!errors.is_empty());
    let schema: Value = serde_json::from_slice(&run(&["schema"], "").stdout).expect("a schema");
    assert!(jsonschema::draft202012::new(&schema).expect("a schema").is_valid(&document), "{text}");
    errors
}

/// Each kind of thing that can be typed wrongly, with its place; the exit status and the sentence are those without `--json`.
#[test]
fn what_goes_wrong_is_data_with_its_place() {
    let shipped = std::fs::read_to_string("bay-layouts/crowded-bay.ron").expect("it is there");
    let spoilt = |from: &str, to: &str| {
        assert!(shipped.contains(from), "{from}");
        shipped.replacen(from, to, 1)
    };
    let line = |text: &str, word: &str| {
        json!(text.lines().position(|line| line.contains(word)).expect("it is there") + 1)
    };
    let file = ["check", "-", "--json"];
    let unknown = spoilt("ceiling_mm:", "cieling_mm:");
    let twice = spoilt("top_mm: ", "top_mm: 9000000, top_mm: ");
    let large = spoilt("ceiling_mm: ", "ceiling_mm: 9000000, // ");
    for (text, kind, at, field) in [
        (&unknown, "unknown-field", line(&unknown, "cieling_mm"), "room"),
        (&twice, "twice", line(&twice, "9000000"), "openings"),
        (&large, "out-of-range", line(&large, "9000000"), "room.ceiling_mm"),
        (&"(version: 6,\nname: 3)".to_owned(), "syntax", json!(2), "name"),
        (&"(version: 99)".to_owned(), "version", json!(1), "version"),
        (&String::new(), "no-text", Value::Null, ""),
    ] {
        let output = run(&file, text);
        assert_eq!(output.status.code(), Some(2));
        assert!(output.stdout.is_empty());
        let all = errors(&output);
        let first = &all[0];
        assert_eq!((&first["kind"], &first["line"]), (&json!(kind), &at), "{first}");
        assert_eq!(first["file"], "standard input");
        if field.is_empty() {
            assert!(first["field"].is_null() && first["found"].is_null() && first["allowed"].is_null());
        } else {
            assert!(first["field"].as_str().is_some_and(|own| own.starts_with(field)), "{first}");
            assert!(first["found"].is_string() && first["allowed"].is_string(), "{first}");
        }
        let plain = run(&file[..2], text);
        assert_eq!(plain.status.code(), output.status.code());
        let sentences: Vec<&str> = all.iter().filter_map(|own| own["sentence"].as_str()).collect();
        let plain = String::from_utf8_lossy(&plain.stderr).into_owned();
        assert_eq!(plain.lines().collect::<Vec<_>>(), sentences);
    }
    assert_eq!(errors(&run(&file, &unknown))[0]["meant"], "ceiling_mm");
}

#[test]
fn what_is_not_there_is_data_with_what_was_meant() {
    let folder = std::env::temp_dir().join(format!("baywright-troubles-{}", std::process::id()));
    let picture: PathBuf = folder.join("no/such/a.svg");
    let picture = picture.to_str().expect("a plain name");
    for (line, status, expected) in [
        (
            &["check", "crowdde-bay", "--json"][..],
            2,
            json!({ "kind": "no-such-file", "file": "crowdde-bay", "meant": "crowded-bay" }),
        ),
        (
            &["check", "crowded-bay", "-a", "as fuond", "--json"],
            2,
            json!({ "kind": "no-arrangement", "found": "as fuond", "meant": "As found" }),
        ),
        (
            &["check", "crowded-bay", "--jsn", "--json"],
            2,
            json!({ "kind": "unknown-option", "found": "--jsn", "meant": "--json", "file": null }),
        ),
        (&["chek", "--json"], 2, json!({ "kind": "unknown-command", "found": "chek", "meant": "check" })),
        (&["check", "--json"], 2, json!({ "kind": "missing-argument" })),
        (
            &["draw", "crowded-bay", "--json", "--view", "topp", "-o", "-"],
            2,
            json!({ "kind": "wrong-argument", "found": "topp", "meant": "top", "allowed": "top, side" }),
        ),
        (
            &["draw", "crowded-bay", "--json", "--view", "top", "-o", "a.png"],
            2,
            json!({ "kind": "wrong-argument", "file": "a.png" }),
        ),
        (
            &["draw", "crowded-bay", "--json", "--view", "top", "-o", picture],
            3,
            json!({ "kind": "cannot-write", "file": picture }),
        ),
        (
            &["check", "crowded-bay", "-q", "--json", "--shop", "none.ron"],
            2,
            json!({ "kind": "no-such-file" }),
        ),
    ] {
        let output = run(line, "");
        assert_eq!(output.status.code(), Some(status), "{line:?}");
        assert!(output.stdout.is_empty(), "{line:?}");
        let all = errors(&output);
        assert_eq!(all.len(), 1, "{line:?}: {all:?}");
        for (key, value) in expected.as_object().expect("fields") {
            assert_eq!(&all[0][key], value, "{line:?}: {}", all[0]);
        }
    }
}

/// Of several files the answers are on one stream, what went wrong on the other, each one document.
#[test]
fn answers_and_errors_go_their_own_ways() {
    let output = run(&["check", "nowhere.ron", "clear-bay", "nowhere-else.ron", "--json"], "");
    assert_eq!(output.status.code(), Some(2));
    let answers: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(answers["answers"].as_array().map(Vec::len), Some(1));
    let files: Vec<Value> = errors(&output).iter().map(|own| own["file"].clone()).collect();
    assert_eq!(files, ["nowhere.ron", "nowhere-else.ron"]);
    // Nothing went wrong: nothing is said.
    let output = run(&["check", "clear-bay", "--json"], "");
    assert!(output.stderr.is_empty());
}
