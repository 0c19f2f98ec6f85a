//! Files made by hand to be nasty, and files that fuzzing found interesting: each is answered, none with a panic. The same
//! is asked of them as the fuzz targets ask. All together take a second or two; the test allows 60 on a slow machine.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot set itself up has failed")]

use std::path::{Path, PathBuf};
use std::time::Instant;

use baywright_files::{
    FileFault, MOST_PX_SHOWN, decode_picture, draft_text, layout_text, left_behind, parse_draft,
    parse_layout, parse_profile, parse_shop, parse_triggers, profile_text, shop_text, triggers_text,
};
use baywright_planner::words::Language;

fn files(kind: &str) -> Vec<(PathBuf, Vec<u8>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/corpus").join(kind);
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    paths.sort();
    assert!(paths.len() >= 20, "{kind}: only {} files", paths.len());
    paths.into_iter().map(|path| (path.clone(), std::fs::read(path).unwrap())).collect()
}

/// Whether what is said of a fault is a whole sentence.
fn ends(fault: &FileFault) -> bool {
    Language::English.file_fault(fault).ends_with('.')
}

fn in_time(start: Instant) {
    assert!(start.elapsed().as_secs() < 60, "{:?}", start.elapsed());
}

#[test]
fn layouts_are_answered() {
    let start = Instant::now();
    let mut sound = 0;
    for (path, bytes) in files("layout") {
        match parse_layout("f.ron", "f", &String::from_utf8_lossy(&bytes)) {
            Ok(layout) => {
                let text = layout_text(&layout).unwrap_or_else(|f| panic!("{}: {:?}", path.display(), f[0]));
                assert_eq!(parse_layout("f.ron", "f", &text).as_ref(), Ok(&layout), "{}", path.display());
                sound += 1;
            }
            Err(faults) => assert!(faults.iter().all(ends), "{}", path.display()),
        }
    }
    assert!(sound >= 3, "only {sound} files are sound");
    in_time(start);
}

#[test]
fn profiles_are_answered() {
    let start = Instant::now();
    let mut sound = 0;
    for (path, bytes) in files("profile") {
        if let Ok(car) = parse_draft("f.ron", "f", &String::from_utf8_lossy(&bytes)) {
            let text = draft_text(&car).unwrap_or_else(|f| panic!("{}: {:?}", path.display(), f[0]));
            // By its text: what is no number does not equal itself.
            let again = parse_draft("f.ron", "f", &text).unwrap();
            assert_eq!(draft_text(&again).unwrap(), text, "{}", path.display());
        }
        match parse_profile("f.ron", "f", &String::from_utf8_lossy(&bytes)) {
            Ok(profile) => {
                let text = profile_text(&profile.vehicle)
                    .unwrap_or_else(|f| panic!("{}: {:?}", path.display(), f[0]));
                let again = parse_profile("f.ron", "f", &text).unwrap();
                assert_eq!(again.vehicle, profile.vehicle, "{}", path.display());
                sound += 1;
            }
            Err(faults) => assert!(faults.iter().all(ends), "{}", path.display()),
        }
    }
    assert!(sound >= 3, "only {sound} files are sound");
    in_time(start);
}

#[test]
fn trigger_lists_are_answered() {
    let start = Instant::now();
    let mut sound = 0;
    for (path, bytes) in files("triggers") {
        match parse_triggers("f.ron", &String::from_utf8_lossy(&bytes)) {
            Ok(list) => {
                let text = triggers_text(&list).unwrap_or_else(|f| panic!("{}: {:?}", path.display(), f[0]));
                assert_eq!(parse_triggers("f.ron", &text).as_ref(), Ok(&list), "{}", path.display());
                sound += 1;
            }
            Err(faults) => assert!(faults.iter().all(ends), "{}", path.display()),
        }
    }
    assert!(sound >= 3, "only {sound} files are sound");
    in_time(start);
}

#[test]
fn shop_settings_are_answered() {
    let start = Instant::now();
    let mut sound = 0;
    for (path, bytes) in files("shop") {
        match parse_shop("f.ron", &String::from_utf8_lossy(&bytes)) {
            Ok(shop) => {
                let text = shop_text(&shop).unwrap_or_else(|f| panic!("{}: {:?}", path.display(), f[0]));
                assert_eq!(parse_shop("f.ron", &text).as_ref(), Ok(&shop), "{}", path.display());
                sound += 1;
            }
            Err(faults) => assert!(faults.iter().all(ends), "{}", path.display()),
        }
    }
    assert!(sound >= 6, "only {sound} files are sound");
    in_time(start);
}

#[test]
fn pictures_are_answered() {
    let start = Instant::now();
    let mut sound = 0;
    for (path, bytes) in files("picture") {
        match decode_picture("f.png", &bytes) {
            Ok(picture) => {
                assert!(picture.width.max(picture.height) <= MOST_PX_SHOWN, "{}", path.display());
                let pixels = u64::from(picture.width) * u64::from(picture.height);
                assert_eq!(picture.rgba.len() as u64, pixels * 4, "{}", path.display());
                sound += 1;
            }
            Err(fault) => assert!(ends(&fault), "{}", path.display()),
        }
    }
    assert!(sound >= 3, "only {sound} files are sound");
    in_time(start);
}

#[test]
fn journals_are_answered() {
    let start = Instant::now();
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("corpus-{}-journal", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    let mut found = 0;
    for (path, bytes) in files("journal") {
        let journal = folder.join("1-1.journal");
        std::fs::write(&journal, bytes).unwrap();
        for left in left_behind(&folder).works {
            left.forget().unwrap();
            found += 1;
        }
        assert!(!journal.exists(), "{}", path.display());
    }
    assert!(found >= 8, "only {found} works are found");
    std::fs::remove_dir_all(folder).unwrap();
    in_time(start);
}
