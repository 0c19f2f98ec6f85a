//! The habits of a command line: pipes, several files at once, nothing but the exit status.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;

/// An arrangement of the clear bay that is ready.
const READY: &str = "Saloon, forward radar";

/// Runs the program in a folder, with this on its standard input.
fn run_in(folder: &Path, arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(arguments)
        .args(["--date", "2026-11-20"])
        // Nobody's own settings.
        .env("XDG_DATA_HOME", scratch("no-settings"))
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    // A program that wants none of it may have ended.
    let _ = child.stdin.take().expect("a pipe").write_all(input);
    child.wait_with_output().expect("it ends")
}

fn run(arguments: &[&str], input: &[u8]) -> Output {
    run_in(Path::new(env!("CARGO_MANIFEST_DIR")), arguments, input)
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("text")
}

fn errors(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("text")
}

fn scratch(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("baywright-pipes-{}-{name}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a scratch folder");
    folder
}

fn shipped(name: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("bay-layouts").join(name))
        .expect("a shipped bay")
}

#[test]
fn a_layout_comes_through_a_pipe() {
    let crowded = shipped("crowded-bay.ron");
    let named = run(&["check", "bay-layouts/crowded-bay.ron"], b"");
    let piped = run(&["check", "-"], crowded.as_bytes());
    assert_eq!(piped.status.code(), Some(1), "{}", errors(&piped));
    assert_eq!(out(&piped), out(&named));
    let piped = run(&["check", "-", "--json"], crowded.as_bytes());
    let answer: Value = serde_json::from_slice(&piped.stdout).expect("JSON");
    assert_eq!(answer["file"], "-");
    // What is wrong with it is said with its line, as of a file.
    let wrong = crowded.replacen("version: ", "versoin: ", 1);
    let piped = run(&["check", "-"], wrong.as_bytes());
    assert_eq!(piped.status.code(), Some(2));
    assert!(errors(&piped).starts_with("standard input, line "), "{}", errors(&piped));
    for none in [&b""[..], b"\xff\xfe"] {
        assert_eq!(run(&["check", "-"], none).status.code(), Some(2));
    }
}

/// Cars are looked up as for a file in the folder that is worked in: `../vehicle-profiles` goes first.
#[test]
fn the_cars_of_a_piped_layout_are_those_of_the_folder() {
    let shop = scratch("cars");
    let (bays, cars) = (shop.join("bays"), shop.join("vehicle-profiles"));
    std::fs::create_dir_all(&bays).and_then(|()| std::fs::create_dir_all(&cars)).expect("folders");
    let crowded = shipped("crowded-bay.ron");
    std::fs::write(bays.join("here.ron"), &crowded).expect("a bay");
    let loaded = baywright_files::open(Path::new("crowded-bay"), None).expect("it opens");
    let car = loaded.arrangements[0].1.vehicle.id.to_string();
    let asked = ["check", "-"];
    assert_eq!(run_in(&bays, &asked, crowded.as_bytes()).status.code(), Some(1));
    std::fs::write(cars.join(format!("{car}.ron")), "(version: 1, name: 3)")
        .expect("a car that cannot be read");
    let piped = run_in(&bays, &asked, crowded.as_bytes());
    assert_eq!(piped.status.code(), Some(2), "{}", out(&piped));
    assert!(errors(&piped).contains(&format!("{car}.ron, line 1")), "{}", errors(&piped));
    let named = run_in(&bays, &["check", "here.ron"], b"");
    assert_eq!(errors(&named), errors(&piped));
    let _ = std::fs::remove_dir_all(shop);
}

#[test]
fn several_files_are_answered_in_turn() {
    let clear = run(&["check", "clear-bay"], b"");
    let crowded = run(&["check", "crowded-bay"], b"");
    let both = run(&["check", "clear-bay", "crowded-bay"], b"");
    assert_eq!(out(&both), format!("clear-bay:\n\n{}\ncrowded-bay:\n\n{}", out(&clear), out(&crowded)));
    assert_eq!(both.status.code(), Some(1));
    let ready = ["check", "clear-bay", "bay-layouts/clear-bay.ron", "-a", READY];
    assert_eq!(run(&ready, b"").status.code(), Some(0));
    // A file that cannot be read hides no other, and is worse than a space that is not ready.
    let with_none = run(&["check", "crowded-bay", "nowhere.ron", "clear-bay"], b"");
    assert_eq!(with_none.status.code(), Some(2));
    assert!(out(&with_none).contains(&out(&crowded)) && out(&with_none).ends_with(&out(&clear)));
    assert!(errors(&with_none).starts_with("nowhere.ron: "), "{}", errors(&with_none));
    let data = run(&["check", "crowded-bay", "nowhere.ron", "clear-bay", "--json"], b"");
    assert_eq!(data.status.code(), Some(2));
    let data: Value = serde_json::from_slice(&data.stdout).expect("JSON");
    assert_eq!(data["format"], "baywright-answers");
    assert_eq!(data["answers"].as_array().map(Vec::len), Some(2));
    for (name, answer) in ["crowded-bay", "clear-bay"].iter().zip(data["answers"].as_array().expect("two")) {
        let alone = run(&["check", name, "--json"], b"");
        assert_eq!(*answer, serde_json::from_slice::<Value>(&alone.stdout).expect("JSON"), "{name}");
    }
}

#[test]
fn a_picture_goes_to_standard_output() {
    let file = scratch("stream").join("a.svg");
    let drawn = ["draw", "crowded-bay", "--view", "top", "-o"];
    let written = run(&[&drawn[..], &[file.to_str().expect("a path")]].concat(), b"");
    assert_eq!(written.status.code(), Some(0), "{}", errors(&written));
    let streamed = run(&[&drawn[..], &["-"]].concat(), b"");
    assert_eq!(streamed.status.code(), Some(0), "{}", errors(&streamed));
    assert_eq!(out(&streamed), std::fs::read_to_string(&file).expect("a picture"));
    let piped = run(&["draw", "-", "--view", "top", "-o", "-"], shipped("crowded-bay.ron").as_bytes());
    assert_eq!(out(&piped), out(&streamed));
    let _ = std::fs::remove_file(file);
}

#[test]
fn quiet_prints_nothing_but_errors() {
    for (line, status) in [
        (&["check", "clear-bay", "-a", READY, "-q"][..], 0),
        (&["check", "crowded-bay", "--quiet"], 1),
        (&["check", "crowded-bay", "clear-bay", "--quiet", "--json"], 1),
    ] {
        let output = run(line, b"");
        assert_eq!(output.status.code(), Some(status), "{line:?}");
        assert!(output.stdout.is_empty() && output.stderr.is_empty(), "{line:?}");
    }
    let output = run(&["check", "nowhere.ron", "-q"], b"");
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty() && errors(&output).lines().count() == 1);
    let file = scratch("quiet").join("a.svg");
    let path = file.to_str().expect("a path");
    let output = run(&["draw", "crowded-bay", "--view", "top", "-q", "-o", path], b"");
    assert!(output.status.success() && output.stdout.is_empty() && file.exists());
    let _ = std::fs::remove_file(file);
}
