//! The file of proof: nothing on it is cut, off the paper or on anything else, however long its names and many its entries; the last hash
//! stands on every page.

use baywright_drawing::Lettering;
use baywright_drawing::sheet::{About, Paper, ProofOf, Size, proof_file};
use baywright_planner::model::Provenance;
use baywright_planner::model::record::{
    AcceptedFinding, Attachment, AttachmentKind, Because, Begun, ChainBreak, Decided, Decision, DecisionRule,
    Entry, Instrument, ProvenFigure, Reading, RecordLine, VisitRecord, What, WorkList,
};
use baywright_planner::words::{Language, Locale, Units};

use super::sheets::{long, texts, wrong};

const HEAD: &str = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

/// A visit with names as long as they may be, and so many readings.
fn record(readings: u32) -> VisitRecord {
    let source = || Provenance::Measured { by: long("who "), date: None };
    let because =
        |n: u32| Because { work: long(&format!("work {n} ")), note: String::new(), provenance: source() };
    let line = |n: u32| RecordLine {
        aiming: format!("aiming {n}").into(),
        title: long(&format!("Aiming {n} ")),
        sensor: long("sensor ").into(),
        because: (0..3).map(because).collect(),
        provenance: source(),
    };
    let at = "2026-11-20T09:30:00".parse().unwrap();
    let begun = Begun {
        job: long("job "),
        car: long("car "),
        plate: Some(long("plate ")),
        by: long("by "),
        at,
        bay: long("bay ").into(),
        layout: None,
        arrangement: "now".into(),
        vehicle: "car".into(),
        list: Some(WorkList { name: long("list "), provenance: source() }),
        lines: (0..3).map(line).collect(),
    };
    let tape = || Instrument { name: long("tape "), serial: long("serial "), due: None, is_unlisted: false };
    let mut whats: Vec<What> = (0..readings)
        .map(|n| {
            What::Reading(Reading {
                aiming: format!("aiming {}", n % 3).into(),
                from: format!("{n}").into(),
                to: format!("{}", n + 1).into(),
                read_mm: 1_000.0 + f64::from(n),
                instrument: Some(tape()),
                temperature_c: Some(20.0),
            })
        })
        .collect();
    whats.push(What::Decided(Decided {
        aiming: "aiming 0".into(),
        placement: long("target ").into(),
        of: ProvenFigure::Direction,
        off: 0.03,
        u95: 0.05,
        allowed: 0.1,
        unseen: Some(0.0),
        taped: 7,
        decision: Decision::Inside,
        rule: DecisionRule::GuardedAcceptance,
    }));
    whats.push(What::Accepted(AcceptedFinding {
        aiming: "aiming 0".into(),
        code: "zone-object".into(),
        about: Vec::new(),
        measured: None,
        in_english: "The tool cabinet is inside the keep-clear zone. ".repeat(20).trim().into(),
        in_german: "Der Werkzeugschrank steht in der Freizone. ".repeat(20).trim().into(),
        why: "It is empty and made of wood. ".repeat(30).trim().into(),
    }));
    whats.push(What::Attached(Attachment {
        file: format!("{}.pdf", long("scan-")),
        sha256: HEAD.into(),
        bytes: 3,
        kind: AttachmentKind::Scan,
        step: None,
    }));
    whats.push(What::Labour { work: "Radar aimed".into(), minutes: 54.0 });
    whats.push(What::Signed {
        role: long("technician "),
        lacking: 3,
        why: "The customer waits. ".repeat(20).trim().into(),
    });
    let entries = whats.into_iter().map(|what| Entry { by: "A. Nyone".into(), at, what });
    VisitRecord { begun, entries: entries.collect() }
}

#[test]
fn nothing_is_cut_and_the_hash_is_on_every_page() {
    let about = About { day: "2026-11-28".into(), shop: long("shop "), ..About::default() };
    for (readings, size) in [(0, Size::A4), (200, Size::A4), (12, Size::Letter), (40, Size::A3)] {
        for language in Language::OFFERED {
            let record = record(readings);
            let of = ProofOf { record: &record, head: HEAD, broken: None, parts: &[] };
            let units = if size == Size::Letter { Units::FeetInches } else { Units::Millimetres };
            let lettering = Lettering { locale: Locale::of(language, units), ..Lettering::default() };
            let paper = Paper::portrait(size);
            let pages = proof_file(&of, paper, &about, &lettering);
            assert!(pages.len() > 1);
            for page in &pages {
                let found = wrong(page, paper);
                assert!(found.is_empty(), "{readings} {size:?} {language:?}: {found:#?}");
                let all: String = texts(page).iter().map(|own| own.text.replace(' ', "")).collect();
                assert!(all.contains(HEAD), "a page without the hash");
            }
        }
    }
}

/// A record whose chain is broken says so on paper, before anything else.
#[test]
fn a_broken_chain_is_said_on_paper() {
    let record = record(3);
    let said = |broken| {
        let of = ProofOf { record: &record, head: HEAD, broken, parts: &[] };
        let pages = proof_file(&of, Paper::portrait(Size::A4), &About::default(), &Lettering::default());
        pages.iter().flat_map(texts).map(|own| own.text.to_owned()).collect::<Vec<_>>().join(" ")
    };
    assert!(!said(None).contains("does not follow"));
    let text = said(Some(ChainBreak { nth: Some(1), line: Some(9) }));
    assert!(text.contains("does not follow"), "{text}");
    assert!(text.find("does not follow") < text.find("From the work to the sensors"), "{text}");
}
