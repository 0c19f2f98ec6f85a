//! How the house is built: the arrows between crates, the top level, the length of files, what DEVELOPERS.md names.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;

use baywright_planner::Code;

pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Which of our own crates each crate uses, besides for its tests, and which of them it may use.
#[test]
fn data_flows_one_way() {
    let metadata = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--no-deps", "--offline"])
        .current_dir(root())
        .output()
        .expect("cargo metadata runs");
    assert!(metadata.status.success(), "{}", String::from_utf8_lossy(&metadata.stderr));
    let metadata: serde_json::Value =
        serde_json::from_slice(&metadata.stdout).expect("cargo metadata is JSON");
    let arrows: BTreeMap<String, Vec<String>> = metadata["packages"]
        .as_array()
        .expect("packages")
        .iter()
        .map(|package| {
            let uses = package["dependencies"]
                .as_array()
                .expect("dependencies")
                .iter()
                .filter(|d| d["kind"].is_null())
                .filter_map(|d| Some(d["name"].as_str()?.strip_prefix("baywright-")?.to_owned()))
                .collect();
            let name = package["name"].as_str().expect("name");
            (name.strip_prefix("baywright-").unwrap_or("the program").to_owned(), uses)
        })
        .collect();
    let allowed: BTreeMap<&str, &[&str]> = BTreeMap::from([
        ("geometry", &[] as &[&str]),
        ("never", &[]),
        ("survey", &["geometry"]),
        ("radar", &["geometry", "survey"]),
        ("planner", &["geometry", "survey", "never", "radar"]),
        ("drawing", &["planner"]),
        ("files", &["planner"]),
        ("desk", &["planner", "drawing", "files"]),
        ("the program", &["desk"]),
    ]);
    for (name, uses) in &arrows {
        let may = allowed.get(name.as_str()).unwrap_or_else(|| panic!("no arrows are stated for {name}"));
        for used in uses {
            assert!(may.contains(&used.as_str()), "{name} must not use {used}");
        }
    }
    assert_eq!(arrows.len(), allowed.len(), "{arrows:?}");
}

/// Who checks a proof that nothing fits has little to read: it fits on four pages, and uses nothing of what made the proof.
#[test]
fn the_checker_of_proofs_is_short_and_alone() {
    let file = root().join("src/never/src/check.rs");
    let text = std::fs::read_to_string(file).expect("the checker");
    assert!(text.lines().count() <= 200, "{}", text.lines().count());
    for used in text.lines().filter(|line| line.trim_start().starts_with("use ")) {
        assert!(used.starts_with("use crate::{"), "{used}");
    }
    assert!(!text.contains("baywright"));
}

/// The core does no input or output, reads no clock, starts no thread, and does not know the screen.
#[test]
fn the_core_stays_pure() {
    let banned = [
        "std::fs",
        "std::net",
        "std::time",
        "std::thread",
        "std::env",
        "println!",
        "eprintln!",
        "SystemTime",
        "Zoned",
    ];
    for crate_ in ["geometry", "survey", "never", "radar", "planner", "drawing"] {
        for file in rust_files(&root().join("src").join(crate_).join("src")) {
            let text = std::fs::read_to_string(&file).expect("a source file");
            let code = text.split("#[cfg(test)]").next().unwrap_or_default();
            for word in banned {
                assert!(!code.contains(word), "{} has {word}", file.display());
            }
        }
    }
}

/// Every question to the disk is asked in the room of the files.
#[test]
fn the_desk_asks_no_disk() {
    let banned = [
        "std::fs",
        "{fs",
        ".exists()",
        ".try_exists()",
        ".is_file()",
        ".is_dir()",
        ".is_symlink()",
        "canonicalize",
        "metadata",
        "read_dir",
        "read_link",
        "create_dir",
        "temp_dir",
        "current_dir",
        "home_dir",
    ];
    for file in rust_files(&root().join("src/desk/src")) {
        let text = std::fs::read_to_string(&file).expect("a source file");
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        for word in banned {
            assert!(!code.contains(word), "{} has {word}", file.display());
        }
    }
}

/// A list that one of a few is picked from is drawn in one place, so that all of them go by the same keys.
#[test]
fn there_is_one_picker() {
    let mut drawn = Vec::new();
    for file in rust_files(&root().join("src")) {
        if std::fs::read_to_string(&file).expect("a source file").contains("ComboBox") {
            drawn.push(file);
        }
    }
    assert_eq!(drawn, [root().join("src/desk/src/screen/forms/picked.rs")]);
}

/// The work in hand needs no screen: nothing of the session reaches one.
#[test]
fn the_session_does_not_reach_the_screen() {
    let session = root().join("src/desk/src/session");
    let files = rust_files(&session);
    assert!(files.len() >= 8, "{files:?}");
    for file in files {
        let text = std::fs::read_to_string(&file).expect("a source file");
        for word in ["crate::screen", "crate::window", "crate::command_line", "egui", "eframe"] {
            assert!(!text.contains(word), "{} has {word}", file.display());
        }
    }
}

/// The model is plain data: what helps a person to enter it uses it, never the other way round.
#[test]
fn the_model_knows_nothing_of_its_entry() {
    for file in rust_files(&root().join("src/planner/src/model")) {
        let text = std::fs::read_to_string(&file).expect("a source file");
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        assert!(!code.contains("entry::"), "{} uses entry", file.display());
    }
}

/// What validates and what reads files finds values: the sentences are the words' own.
#[test]
fn no_sentence_outside_the_words() {
    // The first lines of a saved file, and the text reader's own words for a length. How profiles of version 2 named what was
    // assumed is read, never said.
    let known = ["// ", "a tuple of size "];
    let model = root().join("src/planner/src/model");
    let mut files = rust_files(&root().join("src/files/src"));
    // Tests of the journal on a made-up disk.
    files.retain(|file| !file.ends_with("journal/faults.rs") && !file.ends_with("profile/second.rs"));
    files.extend(["fault", "validate"].iter().flat_map(|folder| rust_files(&model.join(folder))));
    files.extend(["fault.rs", "validate.rs", "../entry/plausible.rs"].map(|file| model.join(file)));
    assert!(files.len() > 40, "{files:?}");
    let words = |text: &str| {
        let all: Vec<&str> = text.split(' ').collect();
        let is_word = |part: &str| part.len() > 1 && part.chars().all(char::is_alphabetic);
        all.windows(2).any(|pair| pair.iter().all(|part| is_word(part.trim_matches([',', ';', '.']))))
    };
    for file in files {
        let text = std::fs::read_to_string(&file).expect("a source file");
        let code = text.split("\nmod tests").next().unwrap_or_default();
        let lines =
            code.lines().map(str::trim).filter(|line| !line.starts_with("//") && !line.contains("#["));
        for literal in lines.flat_map(|line| line.split('"').skip(1).step_by(2)) {
            let is_known = known.iter().any(|known| literal.starts_with(known));
            assert!(is_known || !words(literal), "{} says {literal:?}", file.display());
        }
    }
}

#[test]
fn the_top_level_is_as_stated() {
    let allowed = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "src",
        "tests",
        "bay-layouts",
        "vehicle-profiles",
        "screenshots",
    ];
    let mut found: Vec<String> = std::fs::read_dir(root())
        .expect("the top level")
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .filter(|name| !name.starts_with('.') && name != "target")
        .collect();
    found.sort();
    let mut expected: Vec<String> = allowed.map(str::to_owned).into();
    expected.sort();
    assert_eq!(found, expected);
}

#[test]
fn no_file_is_longer_than_700_lines() {
    for file in rust_files(&root().join("src")).into_iter().chain(rust_files(&root().join("tests"))) {
        let lines = std::fs::read_to_string(&file).expect("a source file").lines().count();
        assert!(lines <= 700, "{} has {lines} lines", file.display());
    }
}

#[test]
fn the_developers_guide_names_every_crate_and_every_check() {
    let guide = std::fs::read_to_string(root().join("DEVELOPERS.md")).expect("DEVELOPERS.md");
    for entry in std::fs::read_dir(root().join("src")).expect("src") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            assert!(guide.contains(&format!("`src/{name}`")), "DEVELOPERS.md does not name src/{name}");
        }
    }
    for code in Code::ALL {
        let name = format!("`{}`", code.as_str());
        let row = guide.lines().find(|line| line.starts_with('|') && line.contains(&name));
        let row = row.unwrap_or_else(|| panic!("DEVELOPERS.md does not name the finding {name}"));
        let files = row.split('`').filter(|part| part.ends_with(".rs"));
        let is_its_check = |file: &str| {
            let text = std::fs::read_to_string(root().join("src/planner/src/check").join(file));
            let text = text.unwrap_or_else(|_| panic!("{name}: there is no check {file}"));
            let codes = text.split_once("codes: &[").and_then(|(_, rest)| rest.split_once(']'));
            codes.is_some_and(|(codes, _)| codes.contains(&format!("Code::{code:?}")))
        };
        assert!(files.into_iter().any(is_its_check), "{name} is not of the check that its row names: {row}");
    }
}

/// Nothing unfinished, nothing switched off.
#[test]
fn nothing_is_left_undone() {
    let marks = [["to", "do!("].concat(), ["unimpl", "emented!("].concat(), ["#[ig", "nore"].concat()];
    for file in rust_files(&root().join("src")).into_iter().chain(rust_files(&root().join("tests"))) {
        let text = std::fs::read_to_string(&file).expect("a source file");
        for mark in &marks {
            assert!(!text.contains(mark.as_str()), "{} has {mark}", file.display());
        }
    }
}

/// `cargo bench -- ARGUMENTS` hands them to everything that counts as a bench. Libraries and programs do unless they say
/// otherwise, and refuse what is meant for the benches.
#[test]
fn only_benches_are_given_the_arguments_of_cargo_bench() {
    let crates = std::fs::read_dir(root().join("src")).expect("src");
    let folders = crates.map(|entry| entry.expect("an entry").path()).filter(|path| path.is_dir());
    for folder in folders.chain([root().to_owned()]) {
        let manifest = folder.join("Cargo.toml");
        let text = std::fs::read_to_string(&manifest).expect("a manifest");
        let targets =
            || text.split("\n[").filter(|part| part.starts_with("lib]") || part.starts_with("[bin]]"));
        let declared = targets().count();
        let sources = ["lib.rs", "main.rs"].map(|name| folder.join("src").join(name).is_file());
        assert_eq!(declared, sources.iter().filter(|there| **there).count(), "{}", manifest.display());
        for target in targets() {
            assert!(target.lines().any(|line| line == "bench = false"), "{}: [{target}", manifest.display());
        }
    }
}

/// A page is laid and taken away by `Desk::lay` alone, as the field is its file's own; only who draws pages lifts one meanwhile. What
/// was said at the foot is wiped by `Desk::forget_said` alone.
#[test]
fn pages_have_one_door_and_what_was_said_goes_in_one_place() {
    let screen = root().join("src/desk/src/screen");
    let sources: Vec<(String, String)> = rust_files(&root().join("src/desk/src"))
        .into_iter()
        .map(|file| {
            let text = std::fs::read_to_string(&file).expect("a source file");
            (file.strip_prefix(&screen).unwrap_or(&file).display().to_string(), text)
        })
        .collect();
    let having = |marks: &[&str]| {
        let of = |text: &str| marks.iter().map(|mark| text.matches(mark).count()).sum::<usize>();
        let found =
            sources.iter().map(|(file, text)| (file.as_str(), of(text))).filter(|(_, count)| *count > 0);
        found.collect::<std::collections::BTreeMap<_, _>>()
    };
    assert_eq!(having(&["notice = None", "notice.take"]), [("apply.rs", 1)].into());
    assert_eq!(having(&["fn forget_said"]), [("apply.rs", 1)].into());
    assert_eq!(having(&["lift_page(", "put_page_back("]), [("pages.rs", 2), ("view/laid.rs", 2)].into());
    assert_eq!(having(&["fn lay(&mut self"]), [("view/laid.rs", 1)].into());
    assert_eq!(having(&["    page: Option<Page>,"]), [("view.rs", 1)].into(), "nobody else's field");
}

pub fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files.extend(rust_files(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            files.push(path);
        }
    }
    files
}
