//! Drawings of other programs: files that another's writer wrote (`dxf/README.md`), and some by hand.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failing expectation is how a test speaks"
)]

use std::path::{Path, PathBuf};

use baywright_files::{DxfBay, DxfChoice, DxfDrawing, DxfNames, DxfUnit, NotRead, parse_dxf, read_dxf};
use baywright_planner::geometry::DVec2;
use baywright_planner::model::fault::{DrawingTrouble, FileFault, FileTrouble, LeftOut, TooMuch, Wrong};
use baywright_planner::model::{Shape, Thing};
use baywright_planner::words::Language;

/// What is read may be off by, mm.
const OFF_MM: f64 = 0.01;

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/dxf").join(name)
}

fn read(name: &str) -> DxfDrawing {
    read_dxf(&path(name)).unwrap()
}

fn choice(room: &str, walls: &[&str], things: &[&str], unit: DxfUnit) -> DxfChoice {
    let owned = |all: &[&str]| all.iter().map(|own| (*own).to_owned()).collect();
    DxfChoice {
        room: room.to_owned(),
        outline: None,
        walls: owned(walls),
        things: owned(things),
        mm_per_unit: unit.mm(),
        gap_mm: 10.0,
        wall_mm: 100.0,
        ceiling_mm: 3_000.0,
        low_at: None,
    }
}

fn bay(drawing: &DxfDrawing, choice: &DxfChoice) -> Result<DxfBay, FileFault> {
    let names = DxfNames {
        room_wall: &|n| format!("wall {n}"),
        inner_wall: &|n| format!("inner wall {n}"),
        thing: &|n| format!("thing {n}"),
    };
    drawing.bay(choice, &names, "bay".into(), "Bay".to_owned())
}

fn trouble(of: &FileFault) -> &DrawingTrouble {
    match &*of.wrong {
        Wrong::Whole(FileTrouble::Drawing(trouble)) => trouble,
        other => panic!("{other:?}"),
    }
}

/// The corners of the room, from whichever it begins with.
fn room(made: &DxfBay, meant: &[(f64, f64)]) {
    let found = made.bay.room.outer();
    assert_eq!(found.len(), meant.len(), "{found:?}");
    let first = DVec2::from(meant[0]);
    let from = found.iter().position(|own| own.distance(first) < OFF_MM).expect("the first corner");
    for (i, meant) in meant.iter().enumerate() {
        let own = found[(from + i) % found.len()];
        assert!(own.distance(DVec2::from(*meant)) < OFF_MM, "{own} for {meant:?}");
    }
}

/// The middle of a thing and the corners that it has there.
fn standing(thing: &Thing) -> Vec<DVec2> {
    let outline = thing.footprint.outline().placed(&thing.place.at);
    match outline {
        baywright_planner::geometry::Outline::Polygon(own) => own.outer().to_vec(),
        baywright_planner::geometry::Outline::Circle(own) => vec![own.centre()],
    }
}

fn has(made: &DxfBay, meant: &[(f64, f64)]) -> Thing {
    let meant: Vec<DVec2> = meant.iter().map(|own| DVec2::from(*own)).collect();
    let same = |own: &&Thing| {
        let found = standing(own);
        found.len() == meant.len() && meant.iter().all(|p| found.iter().any(|own| own.distance(*p) < OFF_MM))
    };
    let all: Vec<_> = made.bay.things.iter().map(|own| (own.id.to_string(), standing(own))).collect();
    made.bay.things.iter().find(same).cloned().unwrap_or_else(|| panic!("{meant:?} is not in {all:#?}"))
}

/// The room with an alcove of the script, mm.
const ALCOVE: [(f64, f64); 8] = [
    (0.0, 0.0),
    (12_000.0, 0.0),
    (12_000.0, 6_000.0),
    (8_000.0, 6_000.0),
    (8_000.0, 7_000.0),
    (6_000.0, 7_000.0),
    (6_000.0, 6_000.0),
    (0.0, 6_000.0),
];

#[test]
fn release_12_loose_lines_an_old_polyline_and_a_wall_of_one_line() {
    let drawing = read("old-r12.dxf");
    assert_eq!(drawing.unit, None);
    let asked = drawing.unit_or(None).unwrap_err();
    assert!(matches!(trouble(&asked), DrawingTrouble::NoUnit(_)));
    let told: Vec<_> = drawing.layers.iter().map(|own| (own.name.as_str(), own.lines, own.notes)).collect();
    assert_eq!(told, [("INNER", 5, 0), ("THINGS", 1, 1), ("WALLS", 8, 0)]);
    let kinds: Vec<_> =
        drawing.not_read.iter().map(|own| (own.kind.as_deref(), own.why, own.count)).collect();
    assert_eq!(kinds, [(Some("POINT"), LeftOut::Kind, 1), (Some("SOLID"), LeftOut::Kind, 1)]);
    let text = std::fs::read_to_string(path("old-r12.dxf")).unwrap();
    for NotRead { kind, lines, .. } in &drawing.not_read {
        let line = text.lines().nth(lines[0] as usize).unwrap();
        assert_eq!(Some(line), kind.as_deref(), "the line of its code, before its name");
    }
    // In large and small letters alike.
    let made = bay(&drawing, &choice("walls", &["INNER"], &["THINGS"], DxfUnit::Millimetres)).unwrap();
    room(&made, &ALCOVE);
    let [gap] = made.closed[..] else { panic!("{:?}", made.closed) };
    assert!((gap.size_mm - 6.0).abs() < OFF_MM && gap.at.distance(DVec2::new(11_997.0, 0.0)) < OFF_MM);
    assert_eq!((made.thickened, made.unclosed, made.outside, made.moved), (1, 0, 0, DVec2::ZERO));
    has(&made, &[(2_000.0, 2_000.0), (5_000.0, 2_000.0), (5_000.0, 2_120.0), (2_000.0, 2_120.0)]);
    has(&made, &[(8_950.0, 0.0), (9_050.0, 0.0), (9_050.0, 2_000.0), (8_950.0, 2_000.0)]);
    let drum = has(&made, &[(3_000.0, 4_500.0)]);
    assert_eq!((drum.id.as_str(), drum.footprint.shape()), ("drum", &Shape::Round { diameter_mm: 585.0 }));
    // As tall as the room, until somebody says better.
    assert_eq!((drum.span.bottom(), drum.span.top()), (0.0, 3_000.0));
}

/// Release 2000 in inches, 100 km from the origin: moved to it, the quarter turn within a millimetre.
#[test]
fn inches_a_bulge_and_a_far_origin() {
    let drawing = read("inches-r2000.dxf");
    assert_eq!(drawing.unit, Some(DxfUnit::Inches));
    let made = bay(&drawing, &choice("Room", &[], &[], DxfUnit::Inches)).unwrap();
    let low = made.bay.room.bounds().low;
    assert!(low.length() < 1.0, "{low}");
    assert!(made.moved.distance(DVec2::new(-101_600_000.0, 6_350_000.0)) < 1.0, "{}", made.moved);
    let size = made.bay.room.bounds().size();
    assert!(size.distance(DVec2::new(10_160.0, 5_080.0)) < OFF_MM, "{size}");
    let centre = DVec2::new(360.0 * 25.4, 160.0 * 25.4) + low;
    let corners = made.bay.room.outer();
    let on_arc: Vec<&DVec2> =
        corners.iter().filter(|own| (own.distance(centre) - 1_016.0).abs() < OFF_MM).collect();
    assert!(on_arc.len() > 10, "{corners:?}");
    for pair in on_arc.windows(2).filter(|pair| pair[0].distance(*pair[1]) < 200.0) {
        assert!(1_016.0 - ((*pair[0] + *pair[1]) * 0.5).distance(centre) < 1.0);
    }
    // What is missing of the rectangle is a square less a quarter of a circle.
    let meant = 10_160.0 * 5_080.0 - 1_016.0 * 1_016.0 * (1.0 - std::f64::consts::FRAC_PI_4);
    assert!((made.bay.room.area() - meant).abs() < 1_600.0 * 1.0, "{}", made.bay.room.area() - meant);
}

/// Release 2010 in metres: blocks turned, mirrored, stretched, in rows and in one another.
#[test]
fn blocks_wherever_they_are_put() {
    let drawing = read("blocks-r2010.dxf");
    assert_eq!(drawing.unit, Some(DxfUnit::Metres));
    let off = drawing.layers.iter().find(|own| own.name == "off").unwrap();
    assert!(off.is_hidden);
    let mut why: Vec<_> = drawing.not_read.iter().map(|own| (own.kind.clone().unwrap(), own.why)).collect();
    why.sort();
    let meant = [("CIRCLE", LeftOut::Tilted), ("HATCH", LeftOut::Kind), ("INSERT", LeftOut::NoBlock)];
    assert_eq!(why, meant.map(|(kind, why)| (kind.to_owned(), why)));
    let made = bay(&drawing, &choice("A-WALL", &[], &["F"], DxfUnit::Metres)).unwrap();
    room(&made, &ALCOVE);
    assert_eq!(made.bay.things.len(), 9);
    // A cabinet of 900 by 450 mm whose base point is its corner.
    let at = |x: f64, y: f64| [(x, y), (x + 900.0, y), (x + 900.0, y + 450.0), (x, y + 450.0)];
    has(&made, &at(1_000.0, 1_000.0));
    for (column, row) in [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)] {
        has(&made, &at(7_000.0 + 2_000.0 * column, 2_000.0 + 1_000.0 * row));
    }
    // Mirrored about its base point, and twice as deep.
    has(&made, &[(6_000.0, 1_000.0), (5_100.0, 1_000.0), (5_100.0, 1_900.0), (6_000.0, 1_900.0)]);
    let (sin, cos) = 30_f64.to_radians().sin_cos();
    let turned = |x: f64, y: f64| (4_000.0 + x * cos - y * sin, 1_000.0 + x * sin + y * cos);
    has(&made, &[turned(0.0, 0.0), turned(900.0, 0.0), turned(900.0, 450.0), turned(0.0, 450.0)]);
    // The pair: its base point is its origin.
    has(&made, &at(1_000.0, 4_000.0));
    has(&made, &[(3_000.0, 4_000.0), (3_000.0, 4_900.0), (2_550.0, 4_900.0), (2_550.0, 4_000.0)]);
    let named: Vec<&str> = made.bay.things.iter().map(|own| own.id.as_str()).collect();
    assert!(named.contains(&"cabinet") && named.contains(&"cabinet 9"), "{named:?}");
}

/// Release 2018 in centimetres: which face of the walls is the room is asked.
#[test]
fn both_faces_of_a_wall_are_asked_about_and_never_the_outer_taken_unasked() {
    let drawing = read("new-r2018.dxf");
    assert_eq!(drawing.unit, Some(DxfUnit::Centimetres));
    let mut choice = choice("W\u{e4}nde", &[], &["Dinge"], DxfUnit::Centimetres);
    let asked = bay(&drawing, &choice).unwrap_err();
    let DrawingTrouble::SeveralOutlines { outlines, .. } = trouble(&asked) else { panic!("{asked:?}") };
    assert_eq!(outlines[0], (DVec2::new(9_400.0, 5_400.0), DVec2::new(-200.0, -200.0)));
    assert_eq!(outlines[1], (DVec2::new(9_000.0, 5_000.0), DVec2::ZERO));
    choice.outline = Some(4);
    let none = bay(&drawing, &choice).unwrap_err();
    assert_eq!(trouble(&none), &DrawingTrouble::NoSuchOutline { number: 4, count: 3 });
    choice.outline = Some(2);
    let made = bay(&drawing, &choice).unwrap();
    room(&made, &[(0.0, 0.0), (9_000.0, 0.0), (9_000.0, 5_000.0), (0.0, 5_000.0)]);
    // The column on the same layer is in the way; the outer face is not.
    has(&made, &[(4_000.0, 2_000.0), (4_400.0, 2_000.0), (4_400.0, 2_400.0), (4_000.0, 2_400.0)]);
    assert_eq!(made.bay.things.len(), 3);
    // The arc from below: about (100, 400) cm, from its left end up to its top.
    let named: Vec<&str> = made.bay.things.iter().map(|own| own.id.as_str()).collect();
    assert_eq!(named, ["inner wall 1", "thing 2", "Werkbank im Bogen"]);
    let bench = &made.bay.things[2];
    let corners = standing(bench);
    let centre = DVec2::new(1_000.0, 4_000.0);
    assert!(corners.iter().all(|own| own.distance(centre) < 500.0 + OFF_MM));
    assert!(corners.iter().any(|own| own.distance(DVec2::new(500.0, 4_000.0)) < OFF_MM), "{corners:?}");
    assert!(corners.iter().any(|own| own.distance(DVec2::new(1_000.0, 4_500.0)) < OFF_MM), "{corners:?}");
    // The ellipse of 120 by 60 cm.
    let oval = &made.bay.things[1];
    let bounds = oval.footprint.outline().placed(&oval.place.at).bounds();
    assert!(bounds.centre().distance(DVec2::new(7_000.0, 3_000.0)) < 1.0, "{bounds:?}");
    assert!(bounds.size().distance(DVec2::new(1_200.0, 600.0)) < 2.0, "{bounds:?}");
}

/// Groups of a file by hand.
fn file(entities: &str) -> String {
    format!("  0\nSECTION\n  2\nENTITIES\n{entities}  0\nENDSEC\n  0\nEOF\n")
}

fn fault(bytes: &[u8]) -> (Option<u32>, DrawingTrouble, String) {
    let fault = parse_dxf("x.dxf", bytes).unwrap_err();
    (fault.line, trouble(&fault).clone(), Language::English.file_fault(&fault))
}

#[test]
fn what_is_no_text_drawing_is_said_to_be_that() {
    for (bytes, meant) in [
        (&b"any Binary DXF\r\n\x1a\0\0\0"[..], DrawingTrouble::Binary),
        (b"AC1032\0\0\0\0", DrawingTrouble::Dwg),
        (b"", DrawingTrouble::NoDxf),
        (b"Dear customer,\nit is done.\n", DrawingTrouble::NoDxf),
        (b"  0\nLINE\n", DrawingTrouble::NoDxf),
    ] {
        let (_, found, said) = fault(bytes);
        assert_eq!(found, meant);
        assert!(said.starts_with("x.dxf") && said.ends_with('.'), "{said}");
    }
    let whole = file("  0\nLINE\n 10\n0\n 20\n0\n 11\n1\n 21\n1\n");
    assert_eq!(parse_dxf("x.dxf", whole.as_bytes()).unwrap().layers.len(), 1);
    // Wherever it is cut it is said to be cut, but where only the end of the last line is missing.
    for end in 16..whole.len() - 1 {
        let (line, found, _) = fault(&whole.as_bytes()[..end]);
        assert!(matches!(found, DrawingTrouble::Cut | DrawingTrouble::NoCode(_)), "{end}: {found:?}");
        assert!(line.is_some());
    }
    let (line, found, said) = fault(file("  0\nLINE\nten\n0\n").as_bytes());
    assert!(matches!(found, DrawingTrouble::NoCode(_)));
    assert_eq!(line, Some(7));
    assert!(said.contains("line 7") && said.contains("\"ten\""), "{said}");
}

/// Blocks in themselves, in one another sixteen deep and more, and a few bytes that would draw millions of lines.
#[test]
fn a_few_bytes_do_not_become_millions_of_lines() {
    let insert = |of: &str, more: &str| format!("  0\nINSERT\n  2\n{of}\n 10\n0\n 20\n0\n{more}");
    let block =
        |name: &str, what: &str| format!("  0\nBLOCK\n  2\n{name}\n 10\n0\n 20\n0\n{what}  0\nENDBLK\n");
    let with = |blocks: &str, entities: &str| {
        format!("  0\nSECTION\n  2\nBLOCKS\n{blocks}  0\nENDSEC\n{}", file(entities))
    };
    let own = with(&block("a", &insert("b", "")), &insert("a", ""));
    let drawing = parse_dxf("x.dxf", own.as_bytes()).unwrap();
    assert_eq!(drawing.not_read[0].why, LeftOut::NoBlock);
    let round =
        with(&[block("a", &insert("b", "")), block("b", &insert("a", ""))].concat(), &insert("a", ""));
    let drawing = parse_dxf("x.dxf", round.as_bytes()).unwrap();
    assert_eq!((drawing.not_read[0].why, drawing.layers.len()), (LeftOut::TooDeep, 0));
    // Ten of ten of ten ... of nothing at all.
    let mut blocks = block("0", "");
    for depth in 1..12 {
        blocks += &block(&depth.to_string(), &insert(&(depth - 1).to_string(), "").repeat(10));
    }
    let (_, found, _) = fault(with(&blocks, &insert("11", "")).as_bytes());
    assert!(matches!(found, DrawingTrouble::TooMuch(TooMuch::Pieces(_))));
    let (_, found, _) = fault(with(&block("a", ""), &insert("a", " 70\n32767\n 71\n32767\n")).as_bytes());
    assert!(matches!(found, DrawingTrouble::TooMuch(TooMuch::Pieces(_))));
}

#[test]
fn what_does_not_close_is_told_with_its_gap_and_a_layer_with_those_that_are_there() {
    let line = |a: (i32, i32), b: (i32, i32)| {
        format!("  0\nLINE\n  8\nW\n 10\n{}\n 20\n{}\n 11\n{}\n 21\n{}\n", a.0, a.1, b.0, b.1)
    };
    let all = [
        line((0, 0), (9_000, 0)),
        line((9_000, 0), (9_000, 4_000)),
        line((9_000, 4_000), (0, 4_000)),
        line((0, 4_000), (0, 900)),
    ];
    let drawing = parse_dxf("x.dxf", file(&all.concat()).as_bytes()).unwrap();
    let mut choice = choice("W", &[], &[], DxfUnit::Millimetres);
    let open = bay(&drawing, &choice).unwrap_err();
    let DrawingTrouble::NoOutline { gap: Some((size, at)), .. } = trouble(&open) else { panic!("{open:?}") };
    assert_eq!((*size, *at), (900.0, DVec2::new(0.0, 450.0)));
    assert!(Language::English.file_fault(&open).contains("900 mm"));
    choice.gap_mm = 1_000.0;
    let made = bay(&drawing, &choice).unwrap();
    assert_eq!(made.bay.room.area(), 36e6);
    assert_eq!(made.closed.iter().map(|own| own.size_mm).collect::<Vec<_>>(), [900.0]);
    choice.room = "V".to_owned();
    let no_such = Language::English.file_fault(&bay(&drawing, &choice).unwrap_err());
    assert!(no_such.contains("no layer \"V\"") && no_such.contains("\"W\""), "{no_such}");
}
