//! The file of proof: nothing on it is cut, off the paper or on anything else, however long its names and many its entries; the last hash
//! stands on every page.

use baywright_drawing::Lettering;
use baywright_drawing::page::Content;
use baywright_drawing::sheet::{About, Paper, ProofOf, Size, proof_file};
use baywright_drawing::{Page, Theme, to_pdf, to_svg};
use baywright_planner::model::Provenance;
use baywright_planner::model::record::{
    AcceptedFinding, Attachment, AttachmentKind, Because, Begun, ChainBreak, Decided, Decision, DecisionRule,
    Entered, Entry, Instrument, ProvenFigure, Reading, RecordLine, StepId, StepKind, ValueOf, VisitRecord,
    What, Within, WorkList,
};
use baywright_planner::record::{Picture, PictureForm, Shown, Turned};
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
            let of = ProofOf { record: &record, head: HEAD, broken: None, parts: &[], shown: &[] };
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
        let of = ProofOf { record: &record, head: HEAD, broken, parts: &[], shown: &[] };
        let pages = proof_file(&of, Paper::portrait(Size::A4), &About::default(), &Lettering::default());
        pages.iter().flat_map(texts).map(|own| own.text.to_owned()).collect::<Vec<_>>().join(" ")
    };
    assert!(!said(None).contains("does not follow"));
    let text = said(Some(ChainBreak { nth: Some(1), line: Some(9) }));
    assert!(text.contains("does not follow"), "{text}");
    assert!(text.find("does not follow") < text.find("From the work to the sensors"), "{text}");
}

/// A PNG of 4 by 2 red dots, made by zlib and struct of Python.
const PNG: [u8; 73] = [
    0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00, 0x00, 0x00, 0x0d, 0x49, 0x48, 0x44, 0x52, 0x00,
    0x00, 0x00, 0x04, 0x00, 0x00, 0x00, 0x02, 0x08, 0x02, 0x00, 0x00, 0x00, 0xf0, 0xca, 0xea, 0x34, 0x00,
    0x00, 0x00, 0x10, 0x49, 0x44, 0x41, 0x54, 0x78, 0xda, 0x63, 0x38, 0x21, 0x27, 0x07, 0x47, 0x0c, 0xc8,
    0x1c, 0x00, 0x6f, 0x0a, 0x08, 0x21, 0xee, 0xa4, 0x7d, 0xf9, 0x00, 0x00, 0x00, 0x00, 0x49, 0x45, 0x4e,
    0x44, 0xae, 0x42, 0x60, 0x82,
];

fn picture(turned: Turned) -> Picture {
    Picture {
        form: PictureForm::Png,
        bytes: PNG.to_vec().into(),
        width: 4,
        height: 2,
        turned,
        is_smaller: false,
    }
}

fn attached(record: &mut VisitRecord, files: &[&str]) {
    let at = "2026-11-20T12:00:00".parse().unwrap();
    record.entries.retain(|own| !matches!(own.what, What::Attached(_)));
    for file in files {
        let what = What::Attached(Attachment {
            file: (*file).to_owned(),
            sha256: format!("{:064x}", file.len()),
            bytes: 1_234,
            kind: AttachmentKind::Photo,
            step: Some(StepId::of_visit(StepKind::ScanBefore)),
        });
        record.entries.push(Entry { by: "A. Nyone".into(), at, what });
    }
}

fn said(pages: &[Page]) -> String {
    pages.iter().flat_map(texts).map(|own| own.text.to_owned()).collect::<Vec<_>>().join(" ")
}

/// Pictures stand on the paper, upright and in their own shape, whole on it and with their names; what is no picture, or not what was attached,
/// is told in its place.
#[test]
fn pictures_are_printed_and_what_is_not_is_told() {
    let files =
        ["one.png", "side.png", "sheet.pdf", "lost", "changed", "bad.jpg", "huge.jpg", "more.png", "odd.jpg"];
    let mut record = record(2);
    attached(&mut record, &files);
    let odd = Picture { form: PictureForm::Jpeg, ..picture(Turned::default()) };
    let shown = [
        Shown::Picture(picture(Turned::default())),
        Shown::Picture(Picture { is_smaller: true, ..picture(Turned { quarters: 1, is_mirrored: false }) }),
        Shown::ByName,
        Shown::Lost,
        Shown::Changed,
        Shown::NotRead,
        Shown::TooLarge(20_000, 30_000),
        Shown::TooMany,
        // Bytes that the writer does not take.
        Shown::Picture(odd),
    ];
    for (language, parts) in [
        (
            Language::English,
            [
                "sheet.pdf is not printed here",
                "lost is not printed: it is not beside the record any more",
                "changed is not printed: what lies beside the record has another hash",
                "bad.jpg is not printed: it cannot be read as a picture",
                "huge.jpg is not printed: 20000 × 30000 pixels",
                "more.png is not printed: 60 pictures",
                "odd.jpg is not printed: it cannot be read",
                "Printed from a smaller picture",
            ],
        ),
        (
            Language::German,
            [
                "sheet.pdf ist hier nicht gedruckt",
                "lost ist nicht gedruckt: die Datei liegt nicht mehr beim Protokoll",
                "changed ist nicht gedruckt: was beim Protokoll liegt, hat einen anderen Prüfwert",
                "bad.jpg ist nicht gedruckt: als Bild nicht lesbar",
                "huge.jpg ist nicht gedruckt: 20000 × 30000 Bildpunkte",
                "more.png ist nicht gedruckt: 60 Bilder",
                "odd.jpg ist nicht gedruckt: als Bild nicht lesbar",
                "Aus einem kleineren Bild davon gedruckt",
            ],
        ),
    ] {
        let of = ProofOf { record: &record, head: HEAD, broken: None, parts: &[], shown: &shown };
        let lettering =
            Lettering { locale: Locale::of(language, Units::Millimetres), ..Lettering::default() };
        let paper = Paper::portrait(Size::A4);
        let pages = proof_file(&of, paper, &About::default(), &lettering);
        pages.iter().for_each(|page| assert_eq!(wrong(page, paper), Vec::<String>::new()));
        let text = said(&pages);
        for part in parts {
            assert!(text.contains(part), "{part}: {text}");
        }
        let sizes: Vec<f64> = pages
            .iter()
            .flat_map(|page| &page.frames)
            .filter(|own| matches!(own.content, Content::Photo(_)))
            .map(|own| own.place.size().x / own.place.size().y)
            .collect();
        assert_eq!(sizes.len(), 2);
        assert!((sizes[0] - 2.0).abs() < 1e-9 && (sizes[1] - 0.5).abs() < 1e-9, "{sizes:?}");
        let pdf = to_pdf(&pages, Theme::Print, language.tag()).unwrap();
        let document = lopdf::Document::load_mem(&pdf).unwrap();
        let images = document.objects.values().filter(|own| {
            let dict = own.as_stream().map(|own| &own.dict);
            dict.and_then(|own| own.get(b"Subtype"))
                .and_then(|own| own.as_name())
                .is_ok_and(|own| own == b"Image")
        });
        // The same dots are held once, wherever they stand.
        assert_eq!(images.count(), 1);
        let svg: String = pages.iter().map(|page| to_svg(page, Theme::Print)).collect();
        assert_eq!(svg.matches("data:image/png;base64,iVBORw0KGgo").count(), 2);
        pages.iter().for_each(|page| drop(roxmltree::Document::parse(&to_svg(page, Theme::Print)).unwrap()));
    }
}

/// What stands on the first page, and what each table tells apart.
#[test]
fn who_pays_finds_the_answer_first() {
    let mut record = record(3);
    let line = &mut record.begun.lines[0];
    line.provenance = Provenance::Example;
    let at = "2026-11-20T08:00:00".parse().unwrap();
    for (kind, value) in [(StepKind::ScanBefore, 2.0), (StepKind::ScanAfter, 0.0)] {
        let step = StepId::of_visit(kind);
        let what = What::Value(Entered { step, of: ValueOf::Faults, value, allowed: Within::default() });
        record.entries.insert(0, Entry { by: "A. Nyone".into(), at, what });
    }
    let tape = |name: &str, due: Option<&str>, is_unlisted: bool| Instrument {
        name: name.into(),
        serial: String::new(),
        due: due.map(|own| own.parse().unwrap()),
        is_unlisted,
    };
    let tapes = [
        tape("due tape", Some("2027-01-01"), false),
        tape("late tape", Some("2026-01-01"), false),
        tape("lent tape", None, true),
        tape("bare tape", None, false),
    ];
    for (nth, own) in tapes.into_iter().enumerate() {
        let what = What::Reading(Reading {
            aiming: "aiming 0".into(),
            from: "9".into(),
            to: format!("{}", 20 + nth).into(),
            read_mm: 1_000.5,
            instrument: Some(own),
            temperature_c: None,
        });
        record.entries.insert(0, Entry { by: "A. Nyone".into(), at, what });
    }
    let of = ProofOf { record: &record, head: HEAD, broken: None, parts: &[], shown: &[] };
    let pages = proof_file(&of, Paper::portrait(Size::A4), &About::default(), &Lettering::default());
    let (first, all) = (said(&pages[..1]), said(&pages));
    for part in ["In short", "although 3 things are missing", "Some figures are examples", "of 1 figure"] {
        assert!(first.contains(part), "{part}: {first}");
    }
    let tidy = |own: &str| own.replace('\u{202f}', " ");
    for part in [
        "Car profile: car. Set-up: now.",
        "Scan before Faults listed 2",
        "Scan after Faults listed 0",
        "late tape – 2026-01-01 2026-11-20 overdue for its check",
        "due tape – 2027-01-01 2026-11-20 in time",
        "lent tape – – 2026-11-20 not in the shop's list",
        "bare tape – – 2026-11-20 no check day known",
        "Signs as Name Date Signature by pen",
        "Must be Read",
        "1 000.5 mm",
    ] {
        assert!(tidy(&all).contains(part), "{part}: {all}");
    }
}
