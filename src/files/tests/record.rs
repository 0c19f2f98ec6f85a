//! Records of visits on disk: what is saved reads back, what was changed by hand is found, attachments are kept by their hash.

#![allow(clippy::unwrap_used, reason = "a test that cannot set itself up has failed")]

use std::path::PathBuf;

use baywright_files::{
    Kept, LARGEST_ATTACHMENT, attach, attached_path, free_record_path, kind_of, load_record, parse_record,
    read_attached, record_chain, record_json, record_text, records_in, save_record,
};
use baywright_planner::model::fault::FileKind;
use baywright_planner::model::record::{AttachmentKind, ChainBreak, HeadSaid, StepId, StepKind, What};
use baywright_planner::record::Refused;
use baywright_planner::words::Language;
use proptest::prelude::*;

#[path = "record/sample.rs"]
mod sample;

fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("record-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

fn kept() -> Kept {
    let whole = sample::record();
    let mut kept = Kept::begin(baywright_planner::model::record::VisitRecord {
        begun: whole.begun,
        entries: Vec::new(),
    });
    for own in whole.entries {
        kept.append(own).unwrap();
    }
    kept
}

fn broken(text: &str) -> Option<ChainBreak> {
    parse_record("x.visit.ron", text).unwrap().broken()
}

#[test]
fn what_is_saved_reads_back_and_can_go_on() {
    let kept = kept();
    let path = folder("back").join("2026-0117.visit.ron");
    save_record(&path, &kept).unwrap();
    let mut again = load_record(&path).unwrap();
    assert_eq!((again.record().clone(), again.head()), (kept.record().clone(), kept.head()));
    assert_eq!(again.broken(), None);
    assert_eq!(again, kept);
    assert_eq!(kind_of(&path), FileKind::Record);
    // The record that was begun with all its entries has the same chain.
    assert_eq!(Kept::begin(kept.record().clone()), kept);
    let before = again.head().to_owned();
    again.append(sample::entry(30, What::StepDone { step: StepId::of_visit(StepKind::Floor) })).unwrap();
    save_record(&path, &again).unwrap();
    let later = load_record(&path).unwrap();
    assert_eq!(later.broken(), None);
    let entries = later.record().entries.len();
    assert_eq!(later.said_by(&before), HeadSaid::Earlier { entries: entries - 1, since: 1 });
    assert_eq!(later.said_by(later.head()), HeadSaid::Same);
    assert_eq!(later.said_by(&"0".repeat(64)), HeadSaid::Unknown);
    assert!(!again.head().is_empty() && again.hash_of(0) != again.hash_of(1));
}

/// Every figure, word and line of the file that is not a hash is in the chain: whichever is changed by hand, the entry is named with its
/// line.
#[test]
fn what_was_changed_by_hand_is_found() {
    let text = record_text(&kept()).unwrap();
    assert_eq!(broken(&text), None);
    let line_of = |part: &str| {
        let at = text.find(part).unwrap();
        u32::try_from(1 + text[..at].matches('\n').count()).unwrap()
    };
    for (nth, was, is) in [
        (Some(14), "1932.5", "1931.5"),
        (Some(16), "u95: 1, ", "u95: 2, "),
        (Some(17), "(way: Left, by", "(way: Right, by"),
        (Some(0), "kind: Why", "kind: Floor"),
        (Some(1), "edition: \"B\"", "edition: \"C\""),
        (Some(22), "minutes: 54", "minutes: 84"),
        (Some(21), "surveyed again next week", "surveyed again next month"),
        (Some(19), "2026-11-20T09:19:00", "2026-11-19T09:19:00"),
        (None, "MADE UP 1", "MADE UP 2"),
    ] {
        let changed = text.replacen(was, is, 1);
        assert_ne!(changed, text, "{was}");
        let expected = ChainBreak { nth, line: Some(line_of(was)) };
        assert_eq!(broken(&changed), Some(expected), "{was}");
    }
    // How it is laid out, and comments, are no change.
    let laid_out = text.replace("said: (by:", "/* by hand */ said:\n (by:");
    assert_eq!(broken(&laid_out), None);
}

#[test]
fn entries_taken_out_moved_or_put_in_are_found() {
    let text = record_text(&kept()).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    let first = lines.iter().position(|line| line.contains("entries: [")).unwrap() + 1;
    let without: Vec<&str> =
        lines.iter().enumerate().filter(|(at, _)| *at != first + 4).map(|(_, line)| *line).collect();
    let nth = |text: &str| broken(text).and_then(|own| own.nth);
    assert_eq!(nth(&without.join("\n")), Some(4));
    let mut moved = lines.clone();
    moved.swap(first + 2, first + 3);
    assert_eq!(nth(&moved.join("\n")), Some(2));
    let mut twice = lines.clone();
    twice.insert(first + 6, lines[first + 5]);
    assert_eq!(nth(&twice.join("\n")), Some(6));
    // The last one taken out: the chain holds, and only the hash on paper tells it.
    let last = first + kept().record().entries.len() - 1;
    let shorter: Vec<&str> =
        lines.iter().enumerate().filter(|(at, _)| *at != last).map(|(_, line)| *line).collect();
    let shorter = parse_record("x", &shorter.join("\n")).unwrap();
    assert_eq!(shorter.broken(), None);
    assert_eq!(shorter.said_by(kept().head()), HeadSaid::Unknown);
}

/// A chain that is broken stays broken: saving a record once more mends nothing.
#[test]
fn saving_mends_no_chain() {
    let text = record_text(&kept()).unwrap().replacen("1932.5", "1931.5", 1);
    let mut opened = parse_record("x", &text).unwrap();
    opened.append(sample::entry(30, What::StepDone { step: StepId::of_visit(StepKind::Floor) })).unwrap();
    let path = folder("mends").join("x.visit.ron");
    save_record(&path, &opened).unwrap();
    assert_eq!(load_record(&path).unwrap().broken().unwrap().nth, Some(14));
    let chain = record_chain(&path).unwrap();
    assert_eq!((chain.job.as_str(), chain.broken.unwrap().nth), ("2026-0117", Some(14)));
}

/// Each line of the file is what is hashed: the chain of `tests/record/chain.visit.ron` was worked out by `tests/record/chain.py`, which
/// knows nothing but lines, SHA-256 and this rule, and the program makes the very same file.
#[test]
fn the_chain_is_that_of_an_independent_script() {
    let there = include_str!("record/chain.visit.ron");
    let ours = record_text(&kept()).unwrap();
    if std::env::var_os("BAYWRIGHT_WRITE_RECORD").is_some() {
        let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/record/chain.visit.ron");
        std::fs::write(path, &ours).unwrap();
        return;
    }
    assert_eq!(ours, there);
    let hashes = include_str!("record/chain.txt");
    let kept = kept();
    let count = kept.record().entries.len();
    let own: Vec<&str> = (0..count).filter_map(|nth| kept.hash_of(nth)).collect();
    // The first line is how it begins.
    assert_eq!(hashes.lines().skip(1).collect::<Vec<_>>(), own);
}

#[test]
fn what_cannot_be_is_refused_with_its_line() {
    let text = record_text(&kept()).unwrap();
    let refused = |was: &str, is: &str| {
        let changed = text.replacen(was, is, 1);
        assert_ne!(changed, text, "{was}");
        let faults = parse_record("x.visit.ron", &changed).unwrap_err();
        Language::English.file_fault(&faults[0])
    };
    // A decision that its own figures do not make.
    let said = refused("off: -0.03", "off: -0.3");
    assert!(said.contains("decision: found \"Inside\"; allowed is what follows from the figures"), "{said}");
    assert!(said.starts_with("x.visit.ron, line "), "{said}");
    for (was, is, part) in [
        ("version: 1", "version: 2", "made by a newer program"),
        ("kind: Why", "kind: Whim", "Whim"),
        ("T09:19:00", "T09:19", "a day and a time"),
        ("aiming: \"forward-radar\", from", "aiming: \"other\", from", "an aiming of this visit"),
        ("step: (kind: Why)", "step: (kind: Why, aiming: \"camera\")", "no aiming, since"),
        ("bytes: 3", "bytes: 3, extra: 1", "extra"),
        ("open: 1)", "open: 0)", "open: found"),
        ("lacking: 2, ", "", "lacking"),
        ("of: Faults, value: 2)", "of: Faults, value: 2.5)", "a whole number from 0 to 999"),
        ("file: \"stand.jpg\"", "file: \"../stand.jpg\"", "without folders"),
        ("sha256: \"ba78", "sha256: \"BA78", "64 small hexadecimal digits"),
        ("way: Up", "way: Right", "one way across"),
        ("read_mm: 1932.5", "read_mm: NaN", "NaN"),
    ] {
        let said = refused(was, is);
        assert!(said.contains(part), "{is}: {said}");
    }
    // Another kind of file is said to be that.
    let layout = baywright_files::EMBEDDED_LAYOUTS[0];
    let faults = parse_record("bay.ron", layout.text).unwrap_err();
    let said = Language::English.file_fault(&faults[0]);
    assert!(said.contains("this is a bay, not a record of a visit"), "{said}");
}

#[test]
fn what_makes_no_sense_is_not_entered() {
    let mut kept = Kept::begin(baywright_planner::model::record::VisitRecord {
        begun: sample::begun(),
        entries: Vec::new(),
    });
    let before = kept.clone();
    let step = sample::radar(StepKind::Marks);
    let back = What::TakenBack { step: step.clone(), why: String::new() };
    assert_eq!(kept.append(sample::entry(0, back)), Err(Refused::NothingToTakeBack(step)));
    assert_eq!(kept, before);
}

#[test]
fn attachments_lie_beside_the_record_by_their_hash() {
    let folder = folder("attach");
    let record = folder.join("2026-0117.visit.ron");
    let photo = folder.join("Stand 1.JPG");
    std::fs::write(&photo, b"abc").unwrap();
    let own = attach(&record, &photo, AttachmentKind::Photo, None).unwrap();
    assert_eq!((own.file.as_str(), own.bytes), ("Stand 1.JPG", 3));
    // NIST's own example.
    assert_eq!(own.sha256, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    let copy = attached_path(&record, &own);
    assert_eq!(copy, folder.join("2026-0117.visit").join(format!("{}.jpg", own.sha256)));
    assert_eq!(read_attached(&record, &own).unwrap(), b"abc");
    // Twice the same is once; a copy that was changed is none.
    assert_eq!(attach(&record, &photo, AttachmentKind::Photo, None).unwrap(), own);
    std::fs::write(&copy, b"abd").unwrap();
    assert_eq!(read_attached(&record, &own), None);
    attach(&record, &photo, AttachmentKind::Photo, None).unwrap();
    assert_eq!(read_attached(&record, &own).unwrap(), b"abc");
    std::fs::remove_file(&copy).unwrap();
    assert_eq!(read_attached(&record, &own), None);

    let refused = |name: &str, bytes: &[u8]| {
        let path = folder.join(name);
        std::fs::write(&path, bytes).unwrap();
        let fault = attach(&record, &path, AttachmentKind::Sheet, None).unwrap_err();
        Language::English.file_fault(&fault)
    };
    for (name, bytes, part) in [
        ("run.exe", &b"MZ"[..], "is not attached"),
        ("page.html", b"<html>", "is not attached"),
        (".pdf", b"%PDF", "is not attached"),
        ("none.pdf", b"", "nothing to attach"),
    ] {
        let said = refused(name, bytes);
        assert!(said.contains(part), "{name}: {said}");
    }
    let large = folder.join("large.pdf");
    std::fs::File::create(&large).unwrap().set_len(LARGEST_ATTACHMENT + 1).unwrap();
    let fault = attach(&record, &large, AttachmentKind::Sheet, None).unwrap_err();
    assert!(Language::English.file_fault(&fault).contains("67108865 bytes"));
    let fault = attach(&record, &folder.join("x.visit"), AttachmentKind::Sheet, None).unwrap_err();
    assert!(Language::English.file_fault(&fault).contains("is not attached"));
}

#[test]
fn a_new_record_replaces_none() {
    let folder = folder("free");
    let path = free_record_path(&folder, "2026/01 17");
    assert_eq!(path, folder.join("2026-01-17.visit.ron"));
    save_record(&path, &kept()).unwrap();
    let next = free_record_path(&folder, "2026/01 17");
    assert_eq!(next, folder.join("2026-01-17-2.visit.ron"));
    assert_eq!(records_in(&folder).unwrap(), [path]);
}

#[test]
fn all_of_it_is_told_as_json() {
    let json = record_json(&kept()).unwrap();
    let entries = json["entries"].as_array().unwrap();
    assert_eq!(entries.len(), kept().record().entries.len());
    assert_eq!(json["begun"]["said"]["job"], "2026-0117");
    assert_eq!(entries[14]["said"]["what"]["Reading"]["read_mm"], 1_932.5);
    assert_eq!(entries.last().unwrap()["hash"], kept().head());
}

/// What is struck out stands in the file, with the strike after it; one that strikes out nothing before it is named.
#[test]
fn a_strike_reads_back() {
    let mut kept = kept();
    let nth = kept.record().entries.iter().position(|own| matches!(own.what, What::Reading(_))).unwrap();
    kept.append(sample::entry(40, What::Struck { entry: nth, why: "read wrong".into() })).unwrap();
    let last = kept.record().entries.len() - 1;
    kept.append(sample::entry(41, What::Struck { entry: last, why: String::new() })).unwrap();
    let text = record_text(&kept).unwrap();
    assert!(text.contains(&format!("Struck(entry: {nth}, why: \"read wrong\")")), "{text}");
    let again = parse_record("x", &text).unwrap();
    assert_eq!(again.broken(), None);
    assert_eq!(again, kept);
    let ahead = text.replace(&format!("Struck(entry: {nth},"), "Struck(entry: 900,");
    let faults = parse_record("x", &ahead).unwrap_err();
    assert!(faults.iter().any(|own| format!("{own:?}").contains("what.entry")));
}

proptest! {
    /// Whatever text a person types is one entry in the file and comes back as it was, and the chain holds.
    #[test]
    fn any_text_comes_back(why in "\\PC{1,40}", minutes in 0_u32..2_880_000) {
        let mut kept = kept();
        let what = What::NotApplicable { step: sample::radar(StepKind::Marks), why };
        let labour = What::Labour { work: "work".into(), minutes: f64::from(minutes) / 1e3 };
        let is_taken = kept.append(sample::entry(40, what)).is_ok();
        kept.append(sample::entry(41, labour)).unwrap();
        let again = parse_record("x", &record_text(&kept).unwrap()).unwrap();
        prop_assert_eq!(again.broken(), None);
        prop_assert_eq!(again.record().entries.len(), sample::whats().len() + 1 + usize::from(is_taken));
        prop_assert_eq!(again, kept);
    }
}
