//! Floor plans: figures and coordinates are the layout's, the scale is true, and nothing stands on anything else.

use baywright_drawing::page::Content;
use baywright_drawing::sheet::{Paper, Sheet, Size};
use baywright_drawing::{PX_PER_PAPER_MM, Page, Role, Shape, Theme, to_pdf};
use baywright_planner::geometry::{Bounds, DVec2, Polygon, Span};
use baywright_planner::model::{
    Arrangement, Effort, FloorFeature, FloorFeatureKind, FloorRequirement, FloorSurvey, KeepFree,
    KeepFreeKind, LevelPoint, LevelsTaken, Material, Opening, OpeningKind, PermanentMark, Provenance, Runway,
    Shape as Footprint, ThingKind,
};
use baywright_planner::words::{Language, Locale, Units};
use lopdf::Document;
use lopdf::content::Content as Written;

use super::bay;
use super::sheets::{POINTS_PER_MM, long, made_in, number, texts};

const KINDS: [Sheet; 3] = [Sheet::Floor, Sheet::Concrete, Sheet::Electric];

fn rectangle(low: (f64, f64), high: (f64, f64)) -> Polygon {
    Polygon::rectangle(low.into(), high.into()).unwrap()
}

fn level(x: f64, y: f64, level_mm: f64) -> LevelPoint {
    LevelPoint { at: DVec2::new(x, y), level_mm }
}

/// A bay with something of each kind that a floor plan tells. The room is 12 by 6 m; the yard wall runs along y = 0, the street
/// wall along x = 0.
fn furnished() -> Arrangement {
    let mut own = bay::crowded();
    own.bay.marks = vec![
        PermanentMark::new("west stud".into(), DVec2::new(1_500.0, 700.0)),
        PermanentMark::new("east stud".into(), DVec2::new(9_250.0, 3_004.0)),
    ];
    own.bay.survey = Some(FloorSurvey {
        taken: None,
        points: vec![level(500.0, 600.0, 0.0), level(11_500.0, 600.0, 1.5), level(6_000.0, 5_400.0, -2.5)]
            .into(),
        how: LevelsTaken::default(),
        provenance: Provenance::Measured { by: "somebody".into(), date: None },
    });
    own.bay.floor_features = vec![FloorFeature {
        id: "channel".into(),
        kind: FloorFeatureKind::Drain,
        outline: rectangle((8_000.0, 200.0), (8_300.0, 1_400.0)),
        material: Material::Steel,
        proud_mm: 4.0,
    }];
    own.bay.runways = vec![Runway {
        id: "left runway".into(),
        outline: rectangle((500.0, 4_000.0), (5_000.0, 4_500.0)),
        top_mm: 300.0,
        survey: None,
    }];
    own.bay.keep_free = vec![KeepFree {
        id: "fuse board".into(),
        kind: KeepFreeKind::Panel,
        outline: rectangle((11_000.0, 2_000.0), (12_000.0, 2_800.0)),
    }];
    own.aiming.floor = Some(FloorRequirement::level(3.0));
    own
}

fn plain(text: &str) -> String {
    text.replace(['\u{202f}', '\u{a0}'], " ")
}

fn landscape(kind: Sheet, arrangement: &Arrangement) -> Vec<Page> {
    made_in(kind, arrangement, Paper::landscape(Size::A3), Locale::default())
}

/// All that is read on the pages, row by row.
fn rows(pages: &[Page]) -> Vec<Vec<String>> {
    let frames = pages.iter().flat_map(|page| &page.frames);
    let row = |frame: &baywright_drawing::page::Frame| {
        let items = frame.items().iter();
        items
            .filter_map(|item| if let Shape::Text(own) = &item.shape { Some(plain(&own.text)) } else { None })
            .collect()
    };
    frames.filter(|frame| !matches!(frame.content, Content::View(_))).map(row).collect()
}

/// Whether these stand beside one another in a row; what is too long for its cell stands there in several lines.
fn has(rows: &[Vec<String>], wanted: &[&str]) -> bool {
    let wanted = format!(" {} ", wanted.join(" "));
    rows.iter().any(|row| format!(" {} ", row.join(" ")).contains(&wanted))
}

fn said(rows: &[Vec<String>]) -> String {
    rows.iter().map(|row| row.join(" ")).collect::<Vec<_>>().join(" ")
}

/// From the yard wall first, then from the street wall: the long one and the one at its left end.
#[test]
fn points_are_where_the_layout_has_them() {
    let found = rows(&landscape(Sheet::Floor, &furnished()));
    assert!(has(&found, &["From yard wall", "From street wall"]), "{found:#?}");
    assert!(has(&found, &["P1", "west stud", "700 mm", "1 500 mm"]), "{found:#?}");
    assert!(has(&found, &["P2", "east stud", "3 004 mm", "9 250 mm"]));
    // The mark between the two that are prolonged ahead of the car lies on its middle line.
    assert!(has(&found, &["7", "mark 7 of this set-up", "3 000 mm"]), "{found:#?}");
    assert!(has(&found, &["middle line, at the wall behind", "3 000 mm", "0 mm"]));
    assert!(has(&found, &["middle line, at the wall ahead", "3 000 mm", "12 000 mm"]));
    assert!(has(&found, &["fuse board, corner 3", "2 800 mm", "12 000 mm"]));
    // The zone of the aiming, given from the front axle at x = 4 300.
    assert!(has(&found, &["metal-free area, corner 1", "1 500 mm", "5 250 mm"]));
}

#[test]
fn the_floor_is_told_in_the_contractors_terms() {
    let mut arrangement = furnished();
    let found = rows(&landscape(Sheet::Concrete, &arrangement));
    let all = said(&found);
    assert!(all.contains("may differ by 3 mm at most"), "{all}");
    assert!(has(&found, &["2", "600 mm", "11 500 mm", "+1.5 mm"]), "{found:#?}");
    assert!(has(&found, &["3", "5 400 mm", "6 000 mm", "\u{2212}2.5 mm"]));
    assert!(all.contains("the highest +1.5 mm at no. 2, the lowest \u{2212}2.5 mm at no. 3"), "{all}");
    assert!(all.contains("The day of the survey is not entered."));
    assert!(has(&found, &["channel", "drain", "200 to 1 400 mm", "8 000 to 8 300 mm", "4 mm"]));
    assert!(has(&found, &["left runway", "4 000 to 4 500 mm", "500 to 5 000 mm", "300 mm", "no"]));
    arrangement.bay.survey = None;
    arrangement.aiming.floor = None;
    let all = said(&rows(&landscape(Sheet::Concrete, &arrangement)));
    assert!(all.contains("The floor was not surveyed"), "{all}");
    assert!(all.contains("floor limit is not entered"), "{all}");
    assert!(!all.contains("may differ by"), "{all}");
}

/// However many levels stand on the plan, all walls keep the names that everything is measured from, and no line of one level stands without
/// its figure.
#[test]
fn walls_and_lines_keep_what_they_are_read_by() {
    let mut arrangement = furnished();
    let levels = (0..13).flat_map(|x| {
        (0..7).map(move |y| {
            level(f64::from(x) * 1_000.0, f64::from(y) * 1_000.0, f64::from(x) * 5.0 + f64::from(y))
        })
    });
    let levels: Vec<LevelPoint> = levels.collect();
    arrangement.bay.survey =
        arrangement.bay.survey.map(|survey| FloorSurvey { points: levels.into(), ..survey });
    for (size, locale) in [
        (Size::A4, Locale::default()),
        (Size::A3, Locale::of(Language::German, Units::Millimetres)),
        (Size::Letter, Locale { units: Units::FeetInches, ..Locale::default() }),
    ] {
        let pages = made_in(Sheet::Concrete, &arrangement, Paper::portrait(size), locale);
        let first = texts(&pages[0]);
        for wall in &arrangement.bay.walls {
            let is_there = first.iter().any(|own| own.text.contains(wall.id.as_str()));
            assert!(is_there, "{size:?}: {} is not named", wall.id);
        }
        // From 0 to 66 mm a line each 10 mm.
        for line in ["+10", "+20", "+30", "+40", "+50", "+60"] {
            assert!(first.iter().any(|own| own.text == line), "{size:?}: {line} has no figure");
        }
    }
}

/// On paper in feet what stands in millimetres says why.
#[test]
fn millimetres_beside_feet_are_explained() {
    let feet = Locale { units: Units::FeetInches, ..Locale::default() };
    let said_in =
        |locale| said(&rows(&made_in(Sheet::Concrete, &furnished(), Paper::landscape(Size::A4), locale)));
    assert!(said_in(feet).contains("a sixteenth of an inch is too coarse"));
    assert!(!said_in(Locale::default()).contains("a sixteenth of an inch"));
    assert_eq!(
        plain(&feet.height(519.65)),
        "1\u{2032} 8 \u{2077}\u{2044}\u{2081}\u{2086}\u{2033} (519.7 mm)"
    );
}

/// Rows to write revisions in begin no page of their own where fewer of them have room.
#[test]
fn revisions_alone_make_no_page() {
    let is_alone = |page: &Page| {
        let headings = page.frames.iter().filter(|own| matches!(own.content, Content::Heading(_)));
        let first = texts(page).first().is_some_and(|own| own.text == "Revisions");
        headings.count() == 1 && first
    };
    let mut arrangement = furnished();
    let mut alone = 0;
    for n in 0..24 {
        arrangement.bay.marks.push(PermanentMark::new(
            format!("stud {n}").as_str().into(),
            DVec2::new(2_000.0 + 300.0 * f64::from(n), 4_800.0),
        ));
        let pages = made_in(Sheet::Floor, &arrangement, Paper::portrait(Size::A4), Locale::default());
        alone += usize::from(pages.last().is_some_and(is_alone));
    }
    // A page that is full to its last two lines still has none.
    assert!(alone <= 3, "{alone} of 24");
}

/// A floor's tenths are not lost to sixteenths of an inch.
#[test]
fn levels_keep_their_tenths_in_feet() {
    let feet = Locale { units: Units::FeetInches, ..Locale::default() };
    let found = rows(&made_in(Sheet::Concrete, &furnished(), Paper::landscape(Size::Tabloid), feet));
    assert!(said(&found).contains("+1.5 mm"), "{found:#?}");
}

#[test]
fn what_is_wired_is_as_entered() {
    let mut arrangement = furnished();
    let found = rows(&landscape(Sheet::Electric, &arrangement));
    assert!(said(&found).contains("a layout has no sockets"));
    // 1 500 by 120 about (6 000, 4 300).
    let lamp = ["lamp", "lamp", "4 240 to 4 360 mm", "5 250 to 6 750 mm", "2 850 mm", "2 950 mm"];
    assert!(has(&found, &lamp), "{found:#?}");
    assert!(has(&found, &["fuse board", "2 000 to 2 800 mm", "11 000 to 12 000 mm"]));
    // 3 200 wide, from 1 400 along the street wall, whose first corner is its right end seen from inside; it is 6 000 long.
    let door = ["roller door", "roller door", "street wall", "1 400 mm", "4 600 mm", "0 mm", "2 700 mm"];
    assert!(has(&found, &door), "{found:#?}");
    assert!(!said(&found).contains("trolley"), "what is pushed about is not wired to");
    arrangement.bay.things.clear();
    arrangement.bay.keep_free.clear();
    let all = said(&rows(&landscape(Sheet::Electric, &arrangement)));
    assert!(all.matches("None entered.").count() >= 3, "{all}");
}

/// The figures along the sides of the plan, each with where it stands along its side, mm.
fn figures(page: &Page, is_upright: bool) -> Vec<(f64, String)> {
    let view = page.views().next().unwrap();
    let texts =
        view.items.iter().filter(|item| item.role == Role::Dimension).filter_map(|item| match &item.shape {
            Shape::Text(own) if (own.angle.abs() > 1.0) == is_upright => Some(own),
            _ => None,
        });
    texts.map(|own| (if is_upright { own.at.y } else { own.at.x }, plain(&own.text))).collect()
}

#[test]
fn figures_stand_where_they_say() {
    let page = &landscape(Sheet::Electric, &furnished())[0];
    let upright = figures(page, true);
    let has = |all: &[(f64, String)], mm: f64, text: &str| {
        all.iter().any(|(at, said)| (at - mm).abs() < 1e-6 && said == text)
    };
    for (mm, text) in [(0.0, "0"), (1_400.0, "1 400"), (4_600.0, "4 600"), (6_000.0, "6 000")] {
        assert!(has(&upright, mm, text), "{text}: {upright:?}");
    }
    let level = figures(page, false);
    // The column, 120 across, about x = 6 300; the whole length at the middle.
    for (mm, text) in [(6_240.0, "6 240"), (6_360.0, "6 360"), (12_000.0, "12 000"), (6_000.0, "12 000")] {
        assert!(has(&level, mm, text), "{text}: {level:?}");
    }
}

/// Three windows of 1 004.5 mm, one beside another: each alone would be 1 005 wide, and all of them are 3 014, not 3 015.
#[test]
fn what_was_rounded_does_not_add_up() {
    let mut arrangement = bay::empty(false);
    let window = |n: u8| Opening {
        id: format!("window {n}").as_str().into(),
        kind: OpeningKind::Window,
        wall: 0,
        from_mm: 1_004.5 * f64::from(n),
        width_mm: 1_004.5,
        span: Span::new(900.0, 2_000.0).unwrap(),
        material: Material::Glass,
        shut: true,
        free_beyond_mm: 0.0,
        is_exit: false,
    };
    arrangement.bay.openings = (0..3).map(window).collect();
    let told = figures(&landscape(Sheet::Floor, &arrangement)[0], false);
    let told: Vec<&str> = told.iter().map(|(_, text)| text.as_str()).collect();
    for wanted in ["0", "1 005", "2 009", "3 014"] {
        assert!(told.contains(&wanted), "{wanted}: {told:?}");
    }
    assert!(!told.contains(&"3 015"));
}

/// The floor of 12 by 6 m is as large on the paper as the scale says, within 0.1 mm, read back from the PDF.
#[test]
fn the_scale_is_true_on_paper() {
    for (size, kind) in Size::ALL.into_iter().zip(KINDS.into_iter().cycle()) {
        for paper in [Paper::portrait(size), Paper::landscape(size)] {
            let pages = made_in(kind, &furnished(), paper, Locale::default());
            let one_to = pages[0].views().next().unwrap().one_to();
            let document = Document::load_mem(&to_pdf(&pages[..1], Theme::Print, "en").unwrap()).unwrap();
            let id = *document.get_pages().get(&1).unwrap();
            let written = Written::decode(&document.get_page_content(id).unwrap()).unwrap();
            let (mut scales, mut scale): (Vec<f64>, f64) = (Vec::new(), 1.0);
            let (mut ring, mut found): (Vec<DVec2>, bool) = (Vec::new(), false);
            for step in &written.operations {
                let is_figure = |own: &&lopdf::Object| own.as_float().is_ok() || own.as_i64().is_ok();
                let at: Vec<f64> = step.operands.iter().filter(is_figure).map(number).collect();
                match step.operator.as_str() {
                    "q" => scales.push(scale),
                    "Q" => scale = scales.pop().unwrap(),
                    "cm" => scale *= at[0].abs(),
                    "m" => ring = vec![DVec2::new(at[0], at[1])],
                    "l" => ring.push(DVec2::new(at[0], at[1])),
                    "B" | "B*" | "f" | "f*" if ring.len() >= 4 => {
                        let mm = Bounds::around(ring.iter().copied()).unwrap().size() * scale / POINTS_PER_MM;
                        let wanted = DVec2::new(12_000.0, 6_000.0) / one_to;
                        let is = |wanted: DVec2| (mm - wanted).abs().max_element() < 0.1;
                        found |= is(wanted) || is(DVec2::new(wanted.y, wanted.x));
                    }
                    _ => {}
                }
            }
            assert!(found, "{kind:?} on {}: no floor at 1 : {one_to}", size.name());
        }
    }
}

/// A hall of long names and two hundred columns, marks and levels.
fn full() -> Arrangement {
    let mut own = furnished();
    own.bay.name = long("Bay ");
    for wall in &mut own.bay.walls {
        wall.id = long(wall.id.as_str()).as_str().into();
    }
    let mut levels = Vec::new();
    for n in 0..200_u32 {
        let at = (400.0 + 1_100.0 * f64::from(n % 10), 300.0 + 280.0 * f64::from(n / 10));
        let shape = Footprint::Round { diameter_mm: 90.0 };
        let mut column =
            bay::thing(&long(&format!("column {n} ")), ThingKind::Column, shape, at, (0.0, 3_000.0));
        column.effort = Effort::Fixed;
        own.bay.things.push(column);
        own.bay.marks.push(PermanentMark::new(
            long(&format!("stud {n} ")).as_str().into(),
            DVec2::new(at.0 + 200.0, at.1),
        ));
        levels.push(level(at.0 + 300.0, at.1 + 90.0, f64::from(n % 7) - 3.0));
    }
    own.bay.survey = own.bay.survey.map(|survey| FloorSurvey { points: levels.into(), ..survey });
    own
}

/// No text lies on another, in the plan or around it, none is off the paper, and none in a table is cut: every paper, millimetres
/// and feet, long names and two hundred of everything.
#[test]
fn nothing_on_a_plan_lies_on_anything_else() {
    let feet = Locale { units: Units::FeetInches, ..Locale::default() };
    let mut wrong = Vec::new();
    for (name, arrangement) in [("plain", bay::empty(true)), ("furnished", furnished()), ("full", full())] {
        for kind in KINDS {
            for (size, locale) in Size::ALL.into_iter().zip([Locale::default(), feet].into_iter().cycle()) {
                for paper in [Paper::portrait(size), Paper::landscape(size)] {
                    for (at, page) in made_in(kind, &arrangement, paper, locale).iter().enumerate() {
                        let of = format!("{name} {kind:?} {} page {at}", size.name());
                        let size = paper.size_mm() * PX_PER_PAPER_MM;
                        let all = texts(page);
                        let inside = Bounds { low: DVec2::ZERO, high: size };
                        for (i, own) in all.iter().enumerate() {
                            if !(inside.holds(own.place.low) && inside.holds(own.place.high)) {
                                wrong.push(format!("{of}: {:?} off the paper", own.text));
                            }
                            for other in &all[i + 1..] {
                                let (a, b) = (own.place.grown(-0.5), other.place.grown(-0.5));
                                let over = a.high.min(b.high) - a.low.max(b.low);
                                if over.min_element() > 0.0 {
                                    wrong.push(format!("{of}: {:?} on {:?}", own.text, other.text));
                                }
                            }
                        }
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} of them: {:#?}", wrong.len(), &wrong[..wrong.len().min(20)]);
}

/// The largest standard scale: at the next larger one the room alone, with its figures, would not go on the page.
#[test]
fn larger_paper_gives_a_larger_plan() {
    let one_to = |size: Size| landscape_on(size).views().next().unwrap().one_to();
    let all: Vec<f64> = [Size::A4, Size::A3, Size::A1].into_iter().map(one_to).collect();
    assert!(all.windows(2).all(|pair| pair[1] < pair[0]), "{all:?}");
}

fn landscape_on(size: Size) -> Page {
    made_in(Sheet::Concrete, &furnished(), Paper::landscape(size), Locale::default()).remove(0)
}

/// Points that say how well they are laid stand with both distances and that, a line from point to point with its length, in both languages
/// and with the sheet's revision; where none says so there is no such column.
#[test]
fn lines_that_stay_are_told_to_who_paints() {
    let mut arrangement = furnished();
    arrangement.bay.marks[0].laid_within_mm = Some(9.4);
    arrangement.bay.marks[0].line_to = Some("east stud".into());
    let in_language = |language, arrangement: &Arrangement| {
        let locale = Locale::of(language, Units::Millimetres);
        rows(&made_in(Sheet::Floor, arrangement, Paper::landscape(Size::A3), locale))
    };
    let found = in_language(Language::English, &arrangement);
    assert!(has(&found, &["P1", "west stud", "700 mm", "1 500 mm", "\u{b1} 9.4 mm"]), "{found:#?}");
    assert!(has(&found, &["P2", "east stud", "3 004 mm", "9 250 mm"]));
    // √(7 750² + 2 304²), by hand.
    assert!(has(&found, &["P1 west stud", "P2 east stud", "8 085 mm"]), "{found:#?}");
    let all = said(&found);
    assert!(
        all.contains("Lines between permanent points") && all.contains("as well as the shop lays marks"),
        "{all}"
    );
    assert!(found.iter().any(|row| row.first().is_some_and(|own| own == "B")), "its revision: {found:#?}");
    let german = in_language(Language::German, &arrangement);
    assert!(
        has(&german, &["700 mm", "1500 mm", "\u{b1} 9,4 mm"]) || said(&german).contains("\u{b1} 9,4 mm"),
        "{german:#?}"
    );
    assert!(said(&german).contains("Linien zwischen bleibenden Punkten"));
    // The line is drawn where it is.
    let pages = landscape(Sheet::Floor, &arrangement);
    let items = pages.iter().flat_map(|page| &page.frames).flat_map(|frame| frame.items());
    assert_eq!(items.filter(|own| own.role == Role::FloorLine).count(), 1);
    let before = said(&in_language(Language::English, &furnished()));
    assert!(!before.contains("To be laid within") && !before.contains("Lines between permanent"), "{before}");
}
