//! What a disk can refuse: one clear sentence, and what was there stays.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use std::path::{Path, PathBuf};

use baywright_files::{EMBEDDED_LAYOUTS, parse_layout, save_layout};
use baywright_planner::words::Language;

fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("refused-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// What is said when a bay is saved there: always one sentence.
fn said(path: &Path) -> String {
    let file = EMBEDDED_LAYOUTS[0];
    let layout = parse_layout(&file.label(), file.name, file.text).unwrap();
    let faults = save_layout(path, &layout).unwrap_err();
    assert_eq!(faults.len(), 1);
    let sentence = Language::English.file_fault(&faults[0]);
    assert!(sentence.ends_with('.') && !sentence.contains("os error"), "{sentence}");
    sentence.rsplit_once(": this ").unwrap().1.to_owned()
}

#[test]
fn places_where_nothing_can_be_saved() {
    let folder = folder("places");
    assert_eq!(said(&folder), "cannot be written: it is a folder; name a file in it, such as my-bay.ron.");
    let long = folder.join(format!("{}.ron", "n".repeat(300)));
    let too_long = "file cannot be written: the name, or the whole path, is too long for a file to be written whole; choose another \
                    name.";
    assert_eq!(said(&long), too_long);
    // A name that fits by itself, but not with what is put around it until the file is whole.
    let nearly = folder.join(format!("{}.ron", "n".repeat(248)));
    assert_eq!(said(&nearly), too_long);
    let mut deep = folder.clone();
    for _ in 0..60 {
        deep.push("d".repeat(100));
    }
    assert_eq!(said(&deep.join("bay.ron")), too_long);
    assert_eq!(
        said(&folder.join("gone").join("bay.ron")),
        "file cannot be written: there is no such folder; choose a place where you may write."
    );
    std::fs::write(folder.join("file"), "").unwrap();
    assert_eq!(
        said(&folder.join("file").join("bay.ron")),
        "file cannot be written: what should be a folder is a file; choose a place where you may write."
    );
    assert_eq!(
        said(&folder.join("a\0b.ron")),
        "file cannot be written: the name holds a character that no name may hold (NUL); choose another name."
    );
    // Nothing was left lying about.
    let left: Vec<_> = std::fs::read_dir(&folder).unwrap().map(|e| e.unwrap().file_name()).collect();
    assert_eq!(left, ["file"]);
    std::fs::remove_dir_all(folder).unwrap();
}

/// The owner's protection counts, also for the superuser, whom the system would let through.
#[test]
fn a_protected_file_stays() {
    let folder = folder("protected");
    let path = folder.join("bay.ron");
    std::fs::write(&path, "mine").unwrap();
    let mut mode = std::fs::metadata(&path).unwrap().permissions();
    mode.set_readonly(true);
    std::fs::set_permissions(&path, mode).unwrap();
    assert_eq!(
        said(&path),
        "file cannot be written: it is protected against writing; save under another name, or take the protection off."
    );
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "mine");
    std::fs::remove_dir_all(folder).unwrap();
}

/// A folder where one may not write; the superuser may everywhere, for whom the sentence alone is held by another test.
#[cfg(unix)]
#[test]
fn a_folder_without_permission() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder("permission");
    std::fs::set_permissions(&folder, std::fs::Permissions::from_mode(0o555)).unwrap();
    if std::fs::write(folder.join("probe"), "").is_err() {
        let sentence = said(&folder.join("bay.ron"));
        assert!(sentence.contains("permission is refused; choose a place where you may write"), "{sentence}");
    }
    std::fs::set_permissions(&folder, std::fs::Permissions::from_mode(0o755)).unwrap();
    std::fs::remove_dir_all(folder).unwrap();
}

#[cfg(target_os = "linux")]
#[test]
fn a_device_is_not_turned_into_a_file() {
    assert_eq!(said(Path::new("/dev/full")), "cannot be written: it is no plain file; choose another name.");
    assert!(!std::fs::metadata("/dev/full").unwrap().is_file());
}
