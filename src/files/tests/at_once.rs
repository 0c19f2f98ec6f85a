//! What is done at the same time, in files: written and read again, seen in both set-ups, wrong names told with their line and field.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use std::path::{Path, PathBuf};

use baywright_files::{layout_text, parse_layout, save_layout};
use baywright_planner::words::Language;

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("baywright-beside-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// What version 12 of layouts lets an arrangement say: which others are done at the same time, in other bays of the hall.
#[test]
fn what_is_done_at_the_same_time() {
    let hall = baywright_files::open(Path::new("hall"), None).unwrap().layout;
    let [saloon, estate, kept] = [0, 1, 2].map(|at| hall.arrangements[at].id.clone());
    let with = |at: usize, names: &[&str]| {
        let mut layout = hall.clone();
        layout.arrangements[at].at_once = names.iter().map(|&own| own.into()).collect();
        layout
    };
    let both = with(0, &[estate.as_str()]);
    let again = parse_layout("f.ron", "hall", &layout_text(&both).unwrap()).unwrap();
    assert_eq!(again, both);
    assert!(layout_text(&both).unwrap().contains("at_once: ["));
    // Each has the other's car among its things, though one of them alone names the other.
    let folder = folder("at-once");
    let path = folder.join("hall.ron");
    save_layout(&path, &both).unwrap();
    let made = baywright_files::open(&path, None).unwrap().arrangements;
    for (own, other) in [(&saloon, Some(&estate)), (&estate, Some(&saloon)), (&kept, None)] {
        let (_, own) = made.iter().find(|(id, _)| id == own).unwrap();
        assert_eq!(own.beside.first().map(|own| &own.set_up), other);
        assert_eq!(own.bay.things.len() > hall.bay.things.len(), other.is_some());
    }
    std::fs::remove_dir_all(folder).unwrap();
    let text = layout_text(&both).unwrap();
    for (own, part) in [
        ("nobody", "arrangements[0].at_once[0]: found \"nobody\"; allowed is"),
        (saloon.as_str(), "arrangements[0].at_once[0]: found"),
    ] {
        let named = format!("at_once: [\"{own}\"]");
        let at = text.find("at_once: [").unwrap();
        let end = at + text[at..].find(']').unwrap() + 1;
        let wrong = format!("{}{named}{}", &text[..at], &text[end..]);
        let fault = parse_layout("f.ron", "hall", &wrong).unwrap_err();
        let fault = Language::English.file_fault(&fault[0]);
        assert!(fault.contains(part) && fault.starts_with("f.ron, line "), "{fault}");
    }
    // The same bay of the hall, twice the same, too many.
    for (at, names, part) in [
        (1, vec![kept.as_str()], "arrangements[1].at_once[0]: found"),
        (0, vec![estate.as_str(), estate.as_str()], "arrangements[0].at_once[1]: found"),
        (0, vec![estate.as_str(); 5], "arrangements[0].at_once: found 5 entries; allowed is at most 4"),
    ] {
        let text = layout_text(&with(at, &names)).map(|text| parse_layout("f.ron", "hall", &text));
        let faults = match text {
            Ok(parsed) => parsed.unwrap_err(),
            Err(faults) => faults,
        };
        let told: Vec<String> = faults.iter().map(|own| Language::English.file_fault(own)).collect();
        assert!(told.iter().any(|own| own.contains(part)), "{told:?}");
    }
}
