//! The licence texts in the program are those of the libraries that are linked into it.
//!
//! After a change of libraries write them anew:
//!
//! ```text
//! BAYWRIGHT_WRITE_LICENCES=1 cargo test --test program licences
//! ```

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A library: name, version, licence expression, folder.
struct Library {
    title: String,
    licence: String,
    folder: PathBuf,
}

#[test]
fn licences_of_all_libraries_are_inside() {
    let libraries = linked();
    assert!(libraries.len() > 100, "{} libraries", libraries.len());
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/desk/licences.txt");
    if std::env::var_os("BAYWRIGHT_WRITE_LICENCES").is_some_and(|wish| wish == "1") {
        std::fs::write(&path, text(&libraries)).expect("licences.txt is written");
    }
    let held = std::fs::read_to_string(&path).expect("licences.txt");
    let names: BTreeSet<&str> = held.lines().filter_map(|line| line.strip_prefix("== ")).collect();
    let wanted: BTreeSet<&str> = libraries.iter().map(|library| library.title.as_str()).collect();
    let lacking: Vec<_> = wanted.difference(&names).collect();
    let idle: Vec<_> = names.difference(&wanted).collect();
    assert!(
        lacking.is_empty() && idle.is_empty(),
        "write them anew; lacking {lacking:?}, no longer linked {idle:?}"
    );
    for library in &libraries {
        assert!(!library.licence.is_empty(), "{} states no licence", library.title);
        let binds = library.licence.contains("GPL") && !library.licence.contains(" OR ");
        assert!(!binds, "{} is under {}", library.title, library.licence);
    }
}

#[test]
fn the_program_prints_them() {
    let output =
        Command::new(env!("CARGO_BIN_EXE_baywright")).arg("licences").output().expect("the program runs");
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).expect("text");
    for part in ["SIL OPEN FONT LICENSE", "== egui ", "Permission is hereby granted"] {
        assert!(text.contains(part), "{part}");
    }
}

/// Every library that is linked into the program on Linux, with its own and those of others left out that are only for
/// building or testing.
fn linked() -> Vec<Library> {
    let output = Command::new(env!("CARGO"))
        .args([
            "metadata",
            "--format-version",
            "1",
            "--offline",
            "--filter-platform",
            "x86_64-unknown-linux-gnu",
        ])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .expect("cargo metadata runs");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let metadata: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let text = |value: &serde_json::Value| value.as_str().unwrap_or_default().to_owned();
    let list = |value: &serde_json::Value| value.as_array().cloned().unwrap_or_default();
    let packages: BTreeMap<String, serde_json::Value> =
        list(&metadata["packages"]).into_iter().map(|package| (text(&package["id"]), package)).collect();
    let uses: BTreeMap<String, Vec<String>> = list(&metadata["resolve"]["nodes"])
        .into_iter()
        .map(|node| {
            let normal = |dependency: &serde_json::Value| {
                list(&dependency["dep_kinds"]).iter().any(|kind| kind["kind"].is_null())
            };
            let used = list(&node["deps"]).iter().filter(|d| normal(d)).map(|d| text(&d["pkg"])).collect();
            (text(&node["id"]), used)
        })
        .collect();
    let root = text(&metadata["resolve"]["root"]);
    let (mut reached, mut next) = (BTreeSet::new(), vec![root]);
    while let Some(id) = next.pop() {
        if reached.insert(id.clone()) {
            next.extend(uses.get(&id).into_iter().flatten().cloned());
        }
    }
    let mut libraries: Vec<Library> = reached
        .iter()
        .filter_map(|id| packages.get(id))
        .filter(|package| !package["source"].is_null())
        .map(|package| Library {
            title: format!("{} {}", text(&package["name"]), text(&package["version"])),
            licence: text(&package["license"]),
            folder: PathBuf::from(text(&package["manifest_path"]))
                .parent()
                .map(Path::to_owned)
                .unwrap_or_default(),
        })
        .collect();
    libraries.sort_by(|a, b| a.title.cmp(&b.title));
    libraries
}

/// The licences: for each text the libraries that are under it.
fn text(libraries: &[Library]) -> String {
    let mut by_text: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for library in libraries {
        let texts = texts_in(&library.folder, &library.licence);
        let texts = if texts.is_empty() { vec![format!("Licence: {}\n", library.licence)] } else { texts };
        for text in texts {
            by_text.entry(text).or_default().push(format!("== {}", library.title));
        }
    }
    let mut out = String::new();
    for (text, titles) in by_text {
        writeln!(out, "{}\n\n{}\n", titles.join("\n"), text.trim()).expect("a text");
    }
    out
}

/// The licence files of a library: of several to choose from, the MIT licence.
fn texts_in(folder: &Path, licence: &str) -> Vec<String> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .into_iter()
        .flatten()
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| {
            let name = path.file_name().unwrap_or_default().to_string_lossy().to_uppercase();
            path.is_file()
                && ["LICENSE", "LICENCE", "COPYING", "NOTICE", "UNLICENSE"]
                    .iter()
                    .any(|n| name.starts_with(n))
        })
        .collect();
    files.sort();
    let mit: Vec<PathBuf> =
        files.iter().filter(|path| path.to_string_lossy().to_uppercase().ends_with("MIT")).cloned().collect();
    if licence.contains("MIT") && licence.contains("OR") && !mit.is_empty() {
        files = mit;
    }
    files
        .iter()
        .filter_map(|path| std::fs::read_to_string(path).ok())
        .map(|text| text.lines().map(str::trim_end).collect::<Vec<_>>().join("\n"))
        .collect()
}
