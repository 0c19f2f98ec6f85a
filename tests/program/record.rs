//! `baywright record`: a record that was changed by hand is found, whatever was changed; what stands in it, as text, as data, on paper.

use std::path::Path;

use baywright_files::{attach, attached_path};
use baywright_planner::model::record::AttachmentKind;
use serde_json::Value;

use crate::run::{baywright, scratch};

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("text").replace('\u{202f}', " ")
}

/// The record whose chain an independent script worked out, and that script's last hash.
fn record() -> (String, String) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/files/tests/record");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).expect("the record");
    let hashes = read("chain.txt");
    (read("chain.visit.ron"), hashes.lines().last().expect("a hash").to_owned())
}

fn put(name: &str, text: &str) -> String {
    let path = scratch("record", "files").join(name);
    std::fs::write(&path, text).expect("a file");
    path.to_str().expect("a path").to_owned()
}

#[test]
fn a_record_is_held_against_the_hash_on_paper() {
    let (whole, head) = record();
    let file = put("whole.visit.ron", &whole);
    let said = baywright(&["record", "check", &file, "--head", &head]);
    assert_eq!(said.status.code(), Some(0), "{}", text(&said.stderr));
    assert!(text(&said.stdout).contains("each follows from the one before"));
    assert!(text(&said.stdout).contains("not by whom"));
    // As it stands on paper, in groups and in capitals.
    let groups: Vec<String> = head
        .to_uppercase()
        .as_bytes()
        .chunks(8)
        .map(|own| String::from_utf8_lossy(own).into_owned())
        .collect();
    assert_eq!(baywright(&["record", "check", &file, "--head", &groups.join(" ")]).status.code(), Some(0));
    assert_eq!(baywright(&["record", "check", &file]).status.code(), Some(0));
    // What is no hash is refused in a sentence of its own.
    let said = baywright(&["record", "check", &file, "--head", "abc"]);
    assert_eq!(said.status.code(), Some(2));
    assert!(text(&said.stderr).contains("give the 64 digits of the hash"), "{}", text(&said.stderr));
    // Another hash; that of an earlier entry.
    let said = baywright(&["record", "check", &file, "--head", &"0".repeat(64)]);
    assert_eq!(said.status.code(), Some(1));
    assert!(text(&said.stdout).contains("none of this record's"), "{}", text(&said.stdout));
    let earlier = whole.split("hash: \"").nth(5).and_then(|rest| rest.get(..64)).expect("a hash");
    let said = baywright(&["record", "check", &file, "--head", earlier]);
    assert_eq!(said.status.code(), Some(1));
    assert!(text(&said.stdout).contains("with 4 entries"), "{}", text(&said.stdout));
}

#[test]
fn what_was_changed_is_named() {
    let (whole, head) = record();
    let lines: Vec<&str> = whole.lines().collect();
    let first = lines.iter().position(|own| own.contains("entries: [")).expect("entries") + 1;
    let without = |at: usize| {
        let kept = lines.iter().enumerate().filter(|(nth, _)| *nth != at).map(|(_, own)| *own);
        kept.collect::<Vec<_>>().join("\n")
    };
    let mut moved = lines.clone();
    moved.swap(first + 3, first + 4);
    let cases = [
        ("figure", whole.replacen("1932.5", "1931.5", 1), "entry 15 of 28", 15),
        ("plate", whole.replacen("MADE UP 1", "MADE UP 2", 1), "how it begins", 0),
        ("removed", without(first + 4), "entry 5 of 27", 5),
        ("reordered", moved.join("\n"), "entry 4 of 28", 4),
    ];
    for (name, changed, part, nth) in cases {
        assert_ne!(changed, whole, "{name}");
        let file = put(&format!("{name}.visit.ron"), &changed);
        for command in ["check", "show"] {
            let said = baywright(&["record", command, &file]);
            assert_eq!(said.status.code(), Some(1), "{name}: {}", text(&said.stderr));
            assert!(text(&said.stdout).contains(part), "{name}: {}", text(&said.stdout));
        }
        let said = baywright(&["record", "check", &file, "--head", &head, "--format", "json"]);
        assert_eq!(said.status.code(), Some(1));
        let told: Value = serde_json::from_slice(&said.stdout).expect("data");
        assert_eq!(
            (&told["follows"], &told["first_broken"]),
            (&Value::from(false), &Value::from(nth)),
            "{name}"
        );
    }
    // The last one taken off leaves a chain that holds; the paper tells it.
    let file = put("shorter.visit.ron", &without(first + 27));
    assert_eq!(baywright(&["record", "check", &file]).status.code(), Some(0));
    assert_eq!(baywright(&["record", "check", &file, "--head", &head]).status.code(), Some(1));
}

#[test]
fn what_is_no_record_is_refused() {
    let (whole, _) = record();
    let newer = put("newer.visit.ron", &whole.replacen("version: 1", "version: 2", 1));
    for command in ["check", "show"] {
        let said = baywright(&["record", command, &newer]);
        assert_eq!(said.status.code(), Some(2));
        assert!(text(&said.stderr).contains("made by a newer program"), "{}", text(&said.stderr));
    }
    let said = baywright(&["record", "check", "bay-layouts/crowded-bay.ron"]);
    assert_eq!(said.status.code(), Some(2));
    assert!(text(&said.stderr).contains("this is a bay, not a record of a visit"), "{}", text(&said.stderr));
    let said = baywright(&["record", "show", "not-there.visit.ron", "--json"]);
    assert_eq!(said.status.code(), Some(2));
    let told: Value = serde_json::from_slice(&said.stderr).expect("data");
    assert_eq!(told["errors"][0]["kind"], "no-such-file", "{told}");
    assert_eq!(baywright(&["record"]).status.code(), Some(2));
}

#[test]
fn all_of_it_is_shown() {
    let (whole, head) = record();
    let file = put("shown.visit.ron", &whole);
    let said = text(&baywright(&["record", "show", &file]).stdout);
    for part in [
        "Job 2026-0117",
        "Forward radar (Front bumper taken off)",
        "direction: 0.030° right ± 0.050° (95 %), allowed ± 0.100°: inside, 0.020° to spare.",
        "distance: 2.0 mm too far ± 1.0 mm (95 %), allowed ± 5.0 mm: cannot say, a mark out of place could go unseen.",
        "Height of target reflector: 611.5 mm, allowed 598 mm to 602 mm: out of range.",
        "failed, out 1.2° to the left and upwards.",
        "Rear left toe 0° 6\u{2032}, toed in",
        "Thrust angle, printed 0.05°, which way not said, not used",
        "cross 1 to left front rim reads 1 203 mm at the start, 1203.5 mm at the end: the car stood still.",
        "The car stands at place 2",
        "Gone past, one figure open: Scan before.",
        "Left out: Scan after (no scan tool today).",
        "borrowed (not in the shop's list)",
        "Signed as technician although 2 things are missing, because: the car is fetched today",
        "goes on with “The floor was surveyed too long ago”",
        "Still missing",
        "The bay's file is not at hand",
        "borrowed is none of the shop's list",
        "Forward radar: something was taped since the figures were decided.",
        "It does not say that a sensor is aimed.",
        head.as_str(),
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
    let said = text(&baywright(&["--language", "de", "record", "show", &file]).stdout);
    assert!(said.contains("weiter trotz „Der Boden wurde vor zu langer Zeit vermessen“"), "{said}");
    assert!(said.contains("Richtung: 0,030° rechts ± 0,050° (95 %), erlaubt ± 0,100°: innerhalb"), "{said}");
    let data: Value =
        serde_json::from_slice(&baywright(&["record", "show", &file, "--format", "json"]).stdout)
            .expect("data");
    assert_eq!(data["format"], "baywright-record");
    assert_eq!(data["record"]["entries"].as_array().map(Vec::len), Some(28));
    let missing = data["missing"].as_array().expect("what is missing");
    assert!(missing.iter().any(|own| own.as_str().is_some_and(|own| own.contains("left out, because"))));
    assert_eq!(data["set_ups_at_hand"], false);
    let out = scratch("record", "files").join("told.json");
    let said = baywright(&["record", "show", &file, "-o", out.to_str().expect("a path")]);
    assert_eq!(said.status.code(), Some(0), "{}", text(&said.stderr));
    let written: Value = serde_json::from_slice(&std::fs::read(&out).expect("it")).expect("data");
    assert_eq!(written, data);
    // It never replaces what it is made from.
    assert_ne!(baywright(&["record", "show", &file, "-o", &file]).status.code(), Some(0));
    assert_eq!(std::fs::read_to_string(&file).expect("the record"), whole);
}

/// On every page of the file of proof stands the last hash, in groups; nowhere a chance, nowhere a claim.
#[test]
fn the_file_of_proof_holds_the_hash_on_every_page() {
    let (whole, head) = record();
    let file = put("proof.visit.ron", &whole);
    for (language, word) in [("en", "File of proof"), ("de", "Nachweismappe")] {
        let to = scratch("record", "files").join(format!("proof-{language}.svg"));
        let said = baywright(&[
            "--language",
            language,
            "record",
            "sheet",
            &file,
            "-o",
            to.to_str().expect("a path"),
        ]);
        assert_eq!(said.status.code(), Some(0), "{}", text(&said.stderr));
        let pages: Vec<String> =
            text(&said.stdout).lines().map(|own| std::fs::read_to_string(own).expect("a page")).collect();
        assert!(pages.len() > 1, "{} pages", pages.len());
        for page in &pages {
            let groups: Vec<&str> =
                head.as_bytes().chunks(8).filter_map(|own| std::str::from_utf8(own).ok()).collect();
            assert!(groups.iter().all(|own| page.contains(own)), "a page without the hash");
            assert!(page.contains(word));
        }
        let all = pages.concat();
        for never in ["probab", "chance", "Wahrscheinlichkeit"] {
            assert!(!all.contains(never), "{never}");
        }
    }
    let pdf = scratch("record", "files").join("proof.pdf");
    let said = baywright(&["record", "sheet", &file, "-o", pdf.to_str().expect("a path"), "--paper", "a4"]);
    assert_eq!(said.status.code(), Some(0), "{}", text(&said.stderr));
    assert!(std::fs::read(&pdf).expect("a PDF").starts_with(b"%PDF"));
}

/// What lies in an attachment's place and is not it is an edit; one that is not there is told.
#[test]
fn what_was_put_in_an_attachments_place_is_told() {
    let (whole, _) = record();
    let attached = whole.lines().find(|own| own.contains("what: Attached(")).expect("an attachment");
    let field = |name: &str| {
        let rest = attached.split(&format!("{name}: \"")).nth(1).expect("the field");
        rest.split('"').next().expect("its text").to_owned()
    };
    let (name, hash) = (field("file"), field("sha256"));
    // Further on it is withdrawn: without what was entered after it the chain holds, too.
    let upto = whole.lines().position(|own| own == attached).expect("the line");
    let end = whole.lines().skip(upto).position(|own| own.trim() == "],").expect("the end of the entries");
    let lines: Vec<&str> = whole.lines().collect();
    let kept = [&lines[..=upto], &lines[upto + end..]].concat().join("\n");
    let file = put("swapped.visit.ron", &kept);
    let said = baywright(&["record", "check", &file]);
    assert_eq!(said.status.code(), Some(0));
    assert!(
        text(&said.stdout).contains(&format!("{name} is not beside the record")),
        "{}",
        text(&said.stdout)
    );
    let folder = scratch("record", "files").join("swapped.visit");
    std::fs::create_dir_all(&folder).expect("a folder");
    let ending = Path::new(&name).extension().and_then(|own| own.to_str()).expect("an ending").to_lowercase();
    std::fs::write(folder.join(format!("{hash}.{ending}")), b"another").expect("a file");
    let said = baywright(&["record", "check", &file]);
    assert_eq!(said.status.code(), Some(1));
    assert!(text(&said.stdout).contains("is not what was attached"), "{}", text(&said.stdout));
    let said = baywright(&["record", "check", &file, "--format", "json"]);
    let told: Value = serde_json::from_slice(&said.stdout).expect("data");
    assert_eq!(told["attachments_changed"][0], Value::from(name));
}

/// A photograph that lies beside its record stands in the file of proof byte by byte; one that was put in its place, or is cut off, is told.
#[test]
fn a_photograph_is_in_the_file_of_proof() {
    let (whole, _) = record();
    let all = image::RgbImage::from_fn(64, 48, |x, y| image::Rgb([(x * 4) as u8, (y * 5) as u8, 90]));
    let mut jpeg = Vec::new();
    image::codecs::jpeg::JpegEncoder::new(&mut jpeg).encode_image(&all).expect("a picture");
    let attached = whole.lines().find(|own| own.contains("what: Attached(")).expect("an attachment");
    let known = attached.split("sha256: \"").nth(1).and_then(|own| own.get(..64)).expect("its hash");
    // The chain is broken by it, which is said too; the sheet is made all the same.
    let lines = whole.lines().filter(|own| !own.contains("what: Withdrawn("));
    let without = lines.collect::<Vec<_>>().join("\n");
    let made = |name: &str, taken: &[u8], swapped: bool| {
        let file = scratch("record", "files").join(format!("{name}.visit.ron"));
        let from = scratch("record", "files").join(format!("{name}.jpg"));
        std::fs::write(&from, taken).expect("a file");
        let own = attach(&file, &from, AttachmentKind::Photo, None).expect("an attachment");
        if swapped {
            std::fs::write(attached_path(&file, &own), &taken[1..]).expect("a file");
        }
        std::fs::write(&file, without.replace(known, &own.sha256)).expect("a record");
        let to = scratch("record", "files").join(format!("{name}.pdf"));
        let [file, out] = [&file, &to].map(|own| own.to_str().expect("a path"));
        let said = baywright(&["record", "sheet", file, "-o", out]);
        assert!(said.stderr.is_empty(), "{}", text(&said.stderr));
        std::fs::read(&to).expect("a PDF")
    };
    let holds = |pdf: &[u8]| pdf.windows(jpeg.len()).any(|own| own == jpeg);
    assert!(holds(&made("photo", &jpeg, false)));
    let cut = &jpeg[..jpeg.len() / 2];
    for (name, taken, swapped) in [("photo-cut", cut, false), ("photo-swapped", &jpeg, true)] {
        let pdf = made(name, taken, swapped);
        let document = lopdf::Document::load_mem(&pdf).expect("a PDF");
        let images = document.objects.values().filter(|own| {
            let dict = own.as_stream().map(|own| &own.dict);
            dict.and_then(|own| own.get(b"Subtype"))
                .and_then(|own| own.as_name())
                .is_ok_and(|own| own == b"Image")
        });
        assert_eq!(images.count(), 0, "{name}");
    }
}
