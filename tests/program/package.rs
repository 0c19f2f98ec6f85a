//! What a desktop is told of the program, held against the program and against itself.

use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src/desk/package")
}

fn read(name: &str) -> String {
    std::fs::read_to_string(folder().join(name)).expect(name)
}

fn value<'a>(entry: &'a str, key: &str) -> &'a str {
    let found = entry.lines().find_map(|line| line.strip_prefix(key)?.strip_prefix('='));
    found.unwrap_or_else(|| panic!("{key}"))
}

fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    let (_, rest) = text.split_once(from).expect(from);
    rest.split_once(to).expect(to).0
}

#[test]
fn the_desktop_entry_starts_this_program() {
    let entry = read("baywright.desktop");
    assert!(entry.starts_with("[Desktop Entry]\n"));
    // The window says whose it is by this name (`window.rs`).
    assert_eq!(value(&entry, "StartupWMClass"), "baywright");
    assert_eq!(value(&entry, "Icon"), "baywright");
    let mut started = value(&entry, "Exec").split(' ');
    assert_eq!(started.next(), Some("baywright"));
    let command = started.next().expect("a command");
    let help = std::process::Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args([command, "--help"])
        .output()
        .expect("it runs");
    assert!(help.status.success(), "{command}");
    assert!(String::from_utf8(help.stdout).expect("text").contains(&format!("baywright {command}")));
}

#[test]
fn one_kind_of_file_is_named_alike_everywhere() {
    let kind = "text/x-baywright-layout";
    assert_eq!(value(&read("baywright.desktop"), "MimeType"), format!("{kind};"));
    let info = read("app.baywright.baywright.metainfo.xml");
    assert_eq!(between(&info, "<mediatype>", "</mediatype>"), kind);
    assert_eq!(between(&info, "<id>", "</id>"), "app.baywright.baywright");
    assert_eq!(between(&info, "<launchable type=\"desktop-id\">", "</launchable>"), "baywright.desktop");
    let layouts = read("baywright-layouts.xml");
    assert_eq!(between(&layouts, "<mime-type type=\"", "\""), kind);
    assert_eq!(between(&layouts, "<glob pattern=\"*.", "\""), "ron");
}

/// What the packages need of the system is what the guide says that the window needs.
#[test]
fn the_package_asks_for_what_the_guide_names() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let guide = std::fs::read_to_string(root.join("README.md")).expect("README.md");
    let told = guide.lines().find(|line| line.contains("# the window")).expect("the window's line");
    let told: Vec<&str> = told.split(' ').filter(|word| word.starts_with("lib")).collect();
    let build = read("build");
    let asked = build.lines().find_map(|line| line.strip_prefix("Depends: ")).expect("Depends");
    let asked: Vec<&str> = asked.split(", ").collect();
    assert!(told.len() > 5);
    for library in told {
        assert!(asked.contains(&library), "{library}");
    }
}
