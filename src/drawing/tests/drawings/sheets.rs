//! Sheets of real paper: their size, their bar, what stands on them and that nothing stands on anything else.

use baywright_drawing::page::Content;
use baywright_drawing::sheet::{About, Answered, Of, Paper, Sheet, Size, sheet};
use baywright_drawing::{
    Align, Item, Lettering, PX_PER_PAPER_MM, Page, Role, Shape, TextStyle, Theme, ViewState, to_pdf, to_svg,
};
use baywright_planner::assess;
use baywright_planner::geometry::marks::{Construction, Wheel};
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::{Arrangement, MarkStep, ShopFace, SquareBy, StandRead};
use baywright_planner::proof::{FigureOf, NextTape, Proof};
use baywright_planner::words::{Language, Locale, Units, Words};
use lopdf::content::Content as Written;
use lopdf::{Document, Object};

use super::bay;

/// The height of the font's capitals as a share of the type's size: its own figures, see `fonts/README.md`.
const CAPITALS: f64 = 2048.0 / 2816.0;

fn about() -> About {
    About {
        day: "2026-11-28".to_owned(),
        file: "bay.ron".to_owned(),
        shop: "Example workshop".to_owned(),
        revision: "B".to_owned(),
        record: String::new(),
    }
}

pub(super) fn made_in(kind: Sheet, arrangement: &Arrangement, paper: Paper, locale: Locale) -> Vec<Page> {
    let (said, state, face) = (assess(arrangement), ViewState::default(), ShopFace::default());
    let was = bay::crowded();
    let said_then = assess(&was);
    let now = Answered { arrangement, assessment: &said, name: "Now" };
    let before = Answered { arrangement: &was, assessment: &said_then, name: "As opened" };
    let before = (kind == Sheet::Findings).then_some(before);
    let of = Of { now, before, state: &state, face: &face };
    sheet(kind, &of, paper, &about(), &Lettering { locale, ..Lettering::default() })
}

fn made(kind: Sheet, arrangement: &Arrangement) -> Vec<Page> {
    made_in(kind, arrangement, Paper::portrait(Size::A4), Locale::default())
}

/// A name as long as names may be in a list that is read, of one word.
pub(super) fn long(begin: &str) -> String {
    format!("{begin}{}", "abcdefghij ".repeat(9))
        .chars()
        .take(60)
        .collect::<String>()
        .trim()
        .replace(' ', "-")
}

/// The crowded bay with the longest names and two hundred things.
fn full() -> Arrangement {
    let mut own = bay::crowded();
    own.bay.name = long("Bay ");
    own.id = long("Set up ").as_str().into();
    own.vehicle.name = long("Car ");
    own.aiming.name = long("Aiming ");
    for n in 0..200 {
        let at = (400.0 + 1_100.0 * f64::from(n % 10), 300.0 + 280.0 * f64::from(n / 10));
        own.bay.things.push(bay::cabinet(&long(&format!("thing {n} ")), at));
    }
    own
}

/// A text as it lies on its page.
pub(super) struct Lying<'a> {
    pub text: &'a str,
    style: TextStyle,
    /// px of the page, as high as its capitals.
    pub place: Bounds,
    is_in_view: bool,
}

pub(super) fn texts(page: &Page) -> Vec<Lying<'_>> {
    let mut all = Vec::new();
    for frame in &page.frames {
        let placing = frame.placing();
        let is_in_view = matches!(frame.content, Content::View(_));
        for item in frame.items() {
            let text = match &item.shape {
                Shape::Text(text) => text,
                Shape::Dimension(own) => &own.text,
                _ => continue,
            };
            let at = placing.paper_point(text.at);
            let begins = match text.align {
                Align::Start => 0.0,
                Align::Middle => -0.5 * text.width,
                Align::End => -text.width,
            };
            let half = text.style.size * CAPITALS * 0.5;
            let turned = |x: f64, y: f64| {
                let (sin, cos) = (-text.angle).sin_cos();
                at + DVec2::new(x * cos - y * sin, x * sin + y * cos)
            };
            let corners = [
                turned(begins, -half),
                turned(begins + text.width, -half),
                turned(begins, half),
                turned(begins + text.width, half),
            ];
            let place = Bounds::around(corners).unwrap();
            all.push(Lying { text: &text.text, style: text.style, place, is_in_view });
        }
    }
    all
}

/// What is wrong with how a page's texts lie.
pub(super) fn wrong(page: &Page, paper: Paper) -> Vec<String> {
    let margin = DVec2::splat((paper.margin_mm() - 0.5) * PX_PER_PAPER_MM);
    let size = paper.size_mm() * PX_PER_PAPER_MM;
    let inside = Bounds { low: margin, high: size - margin };
    let mut found = Vec::new();
    let all = texts(page);
    for (at, own) in all.iter().enumerate() {
        let is_inside = inside.holds(own.place.low) && inside.holds(own.place.high);
        if !own.is_in_view && !is_inside {
            found.push(format!("{:?} is off the paper at {:?}", own.text, own.place));
        }
        if own.text.ends_with('…') && !own.is_in_view {
            found.push(format!("{:?} is cut", own.text));
        }
        // What is drawn in a view keeps its texts apart by itself; nothing around it lies on it.
        for other in all.iter().skip(at + 1).filter(|other| !(own.is_in_view && other.is_in_view)) {
            let (a, b) = (own.place.grown(-0.5), other.place.grown(-0.5));
            let over = a.low.max(b.low);
            let is_over = (a.high.min(b.high) - over).min_element() > 0.0;
            // What a view draws beyond its own edge is cut off there.
            let is_seen = |own: &Lying<'_>| {
                !own.is_in_view
                    || page.frames.iter().any(|frame| {
                        let place = Bounds {
                            low: frame.place.low * PX_PER_PAPER_MM,
                            high: frame.place.high * PX_PER_PAPER_MM,
                        };
                        frame.is_view() && place.holds(over)
                    })
            };
            if is_over && is_seen(own) && is_seen(other) {
                found.push(format!("{:?} lies on {:?}", own.text, other.text));
            }
        }
    }
    for frame in &page.frames {
        let paper = Bounds { low: DVec2::ZERO, high: paper.size_mm() }.grown(1e-6);
        if !(paper.holds(frame.place.low) && paper.holds(frame.place.high)) {
            found.push(format!("a frame reaches off the paper: {:?}", frame.place));
        }
    }
    found
}

/// On every paper, one way up and the other, in millimetres and feet, nothing is off the paper, cut or on anything else.
#[test]
fn nothing_is_cut_and_nothing_lies_on_anything_else() {
    let feet = Locale { units: Units::FeetInches, ..Locale::default() };
    let mut found = Vec::new();
    for arrangement in [bay::crowded(), bay::empty(true), full()] {
        for kind in Sheet::ALL {
            for (size, locale) in Size::ALL.into_iter().zip([Locale::default(), feet].into_iter().cycle()) {
                for paper in [Paper::portrait(size), Paper::landscape(size)] {
                    let pages = made_in(kind, &arrangement, paper, locale);
                    assert!((1..120).contains(&pages.len()), "{} pages of {kind:?}", pages.len());
                    for (at, page) in pages.iter().enumerate() {
                        assert_eq!(page.size, paper.size_mm());
                        let of = |what| format!("{kind:?} {} page {at}: {what}", size.name());
                        found.extend(wrong(page, paper).into_iter().map(of));
                    }
                }
            }
        }
    }
    assert!(found.is_empty(), "{} of them: {:#?}", found.len(), &found[..found.len().min(20)]);
}

/// Letters of 9 points, 72 to the inch, have capitals so high, mm.
const NINE_POINTS: f64 = 9.0 / 72.0 * 25.4 * CAPITALS;

/// No capital is lower than 2.5 mm on the paper; on a mark sheet, which is one page if it can be, none than letters of 9 points have,
/// and numbers and figures in its view are 3.5 mm high.
#[test]
fn all_of_it_can_be_read() {
    let high = |style: TextStyle| style.size * CAPITALS / PX_PER_PAPER_MM;
    for kind in Sheet::ALL {
        for page in made(kind, &bay::crowded()) {
            for own in texts(&page) {
                let least = if kind == Sheet::Marks { NINE_POINTS } else { 2.5 };
                assert!(high(own.style) > least - 0.001, "{:?} is {:.2} mm high", own.text, high(own.style));
                if kind == Sheet::Marks && own.is_in_view {
                    assert!(high(own.style) > 3.3, "{:?} is {:.2} mm high", own.text, high(own.style));
                }
            }
        }
    }
}

/// The mark sheet of the bay with things in the way is one page on the paper of either office, in either language, in millimetres and
/// in feet.
#[test]
fn the_mark_sheet_is_one_page() {
    for language in [Language::English, Language::German] {
        for units in [Units::Millimetres, Units::FeetInches] {
            for size in [Size::A4, Size::Letter] {
                let paper = Paper::portrait(size);
                let pages = made_in(Sheet::Marks, &bay::crowded(), paper, Locale::of(language, units));
                assert_eq!(pages.len(), 1, "{language:?} {units:?} {size:?}");
            }
        }
    }
    // Where it cannot be, the picture and the distances stand on the first.
    let pages = made(Sheet::Marks, &full());
    let first = &pages[0];
    assert!(first.views().count() > 0);
    assert!(pages.len() == 1 || first.frames.iter().any(|own| matches!(own.content, Content::Row(_))));
}

pub(super) fn number(of: &Object) -> f64 {
    of.as_float().map(f64::from).or_else(|_| of.as_i64().map(|n| n as f64)).unwrap()
}

/// Points for each mm: ISO 32000-1, 8.3.2.3 (from memory), 72 to the inch.
pub(super) const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// The bar is 100 mm long on the paper, read back from the PDF: ten parts of 10 mm, one after another.
#[test]
fn the_bar_is_a_hundred_millimetres() {
    for kind in
        [Sheet::Marks, Sheet::Findings, Sheet::Customer, Sheet::Floor, Sheet::Concrete, Sheet::Electric]
    {
        let pages = made(kind, &bay::crowded());
        let document = Document::load_mem(&to_pdf(&pages, Theme::Print, "en").unwrap()).unwrap();
        let mut bars = 0;
        for (_, id) in document.get_pages() {
            let written = Written::decode(&document.get_page_content(id).unwrap()).unwrap();
            let (mut scales, mut scale): (Vec<f64>, f64) = (Vec::new(), 1.0);
            let mut corners: Vec<(f64, f64)> = Vec::new();
            let mut parts: Vec<(f64, f64)> = Vec::new();
            for step in &written.operations {
                let at: Vec<f64> =
                    step.operands.iter().filter(|own| own.as_name().is_err()).filter_map(read).collect();
                match step.operator.as_str() {
                    "q" => scales.push(scale),
                    "Q" => scale = scales.pop().unwrap(),
                    "cm" => scale *= at[0].abs(),
                    "m" => corners = vec![(at[0], at[1])],
                    "l" => corners.push((at[0], at[1])),
                    "B" | "B*" | "f" | "f*" if corners.len() >= 4 => {
                        let mm = |px: f64| px * scale / POINTS_PER_MM;
                        let xs = || corners.iter().map(|p| p.0);
                        let ys = || corners.iter().map(|p| p.1);
                        let (low, high) = (xs().fold(f64::MAX, f64::min), xs().fold(f64::MIN, f64::max));
                        let thick = ys().fold(f64::MIN, f64::max) - ys().fold(f64::MAX, f64::min);
                        if (mm(high - low) - 10.0).abs() < 0.01 && (mm(thick) - 1.4).abs() < 0.01 {
                            parts.push((mm(low), mm(high)));
                        }
                    }
                    _ => {}
                }
            }
            for bar in parts.chunks(10) {
                let (from, to) = (bar.first().unwrap().0, bar.last().unwrap().1);
                assert_eq!(bar.len(), 10, "{kind:?}");
                assert!((to - from - 100.0).abs() < 0.1, "{kind:?}: {}", to - from);
                assert!(bar.windows(2).all(|pair| (pair[0].1 - pair[1].0).abs() < 0.01), "{bar:?}");
                bars += 1;
            }
        }
        assert!(bars > 0, "{kind:?} has no bar");
    }
}

fn read(of: &Object) -> Option<f64> {
    (of.as_float().is_ok() || of.as_i64().is_ok()).then(|| number(of))
}

fn text_of(pages: &[Page]) -> String {
    let document = Document::load_mem(&to_pdf(pages, Theme::Print, "en").unwrap()).unwrap();
    let numbers: Vec<u32> = document.get_pages().into_keys().collect();
    let text = document.extract_text(&numbers).unwrap();
    text.split_whitespace().collect()
}

/// Text is text, in the order in which it is read; what is filled in by hand says nothing of the set-up.
#[test]
fn texts_stand_in_their_order() {
    let own = bay::crowded();
    let text = text_of(&made(Sheet::Marks, &own));
    let mut from = 0;
    for wanted in [
        "Marksheet",
        "Spacenotready",
        "Measurethisbar",
        "Movefirst",
        "Laythemarks",
        "Mark7",
        "Settheplate",
        "Readwiththetape",
        "Readby",
    ] {
        let at = text[from..].find(wanted).unwrap_or_else(|| panic!("{wanted} after {from}: {text}"));
        from += at;
    }
    for wanted in ["Baybyhand", "Examplecar", "2026-11-28", "bay.ron", "Exampleworkshop", "Revision"] {
        assert!(text.contains(wanted), "{wanted}");
    }
    let blank = text_of(&made(Sheet::Blank, &own));
    for unwanted in ["Baybyhand", "Examplecar", "3600", "2026"] {
        assert!(!blank.contains(unwanted), "{unwanted}: {blank}");
    }
    assert!(blank.contains("Readwiththetape") && blank.contains("Sketch"));
    let findings = text_of(&made(Sheet::Findings, &bay::empty(false)));
    for wanted in ["Asopened:Spacenotready", "Now:", "Different(", "Gone("] {
        assert!(findings.contains(wanted), "{wanted}: {findings}");
    }
    let customer = text_of(&made(Sheet::Customer, &own));
    // Before and after, why each step is there, and what is not promised.
    for wanted in [
        "Thesensormustseeonly",
        "Sothesensorseesonlyitstarget.",
        "Itdoesnotsaythatthecar",
        "Today",
        "Whenwehaveclearedit",
        "Wegetthespaceright.",
    ] {
        assert!(customer.contains(wanted), "{wanted}: {customer}");
    }
}

/// Pages are tagged and every one is in the contents; fonts are embedded.
#[test]
fn sheets_can_be_listened_to() {
    let own = bay::crowded();
    let pages: Vec<Page> = Sheet::ALL.into_iter().flat_map(|kind| made(kind, &own)).collect();
    let document = Document::load_mem(&to_pdf(&pages, Theme::Print, "en").unwrap()).unwrap();
    let dictionaries = || document.objects.values().filter_map(|own| own.as_dict().ok());
    let of = |key: &[u8], name: &[u8]| {
        dictionaries()
            .filter(|own| own.get(key).is_ok_and(|kind| kind.as_name().is_ok_and(|n| n == name)))
            .count()
    };
    assert_eq!(of(b"S", b"H1"), pages.len());
    assert!(of(b"S", b"Figure") >= 5);
    let fonts = dictionaries().filter(|own| own.get(b"FontFile3").is_ok()).count();
    assert!(fonts >= 2 && fonts == of(b"Type", b"FontDescriptor"), "{fonts}");
    let outlined = dictionaries().filter(|own| own.get(b"Title").is_ok() && own.get(b"Dest").is_ok()).count();
    assert_eq!(outlined, pages.len());
}

fn letters(pages: &[Page], is_one: fn(Role) -> bool) -> Vec<String> {
    let items = pages.iter().flat_map(|page| &page.frames).flat_map(|frame| frame.items());
    let mut all: Vec<String> = items
        .filter_map(|item| match &item.shape {
            Shape::Sign(sign) if is_one(item.role) => Some(sign.text.clone()),
            _ => None,
        })
        .collect();
    all.sort();
    all.dedup();
    all
}

/// A finding's letter is the one that it has on the screen: in the view, and in the list.
#[test]
fn letters_are_those_of_the_screen() {
    let own = bay::crowded();
    let (said, face) = (assess(&own), ShopFace::default());
    // As the hand left them: not as they are counted.
    let numbers: Vec<Option<usize>> = (0..said.findings.len()).map(|at| Some(at + 5)).collect();
    let state = ViewState { numbers: numbers.into(), ..ViewState::default() };
    let now = Answered { arrangement: &own, assessment: &said, name: "Now" };
    let of = Of { now, before: None, state: &state, face: &face };
    let pages =
        sheet(Sheet::Findings, &of, Paper::portrait(Size::A4), &About::default(), &Lettering::default());
    let listed = letters(&pages, |role| matches!(role, Role::KeySign(_)));
    let drawn = letters(&pages, |role| matches!(role, Role::Flag(_)));
    assert!(!drawn.is_empty() && drawn.iter().all(|own| listed.contains(own)), "{drawn:?} {listed:?}");
    assert!(!listed.contains(&"A".to_owned()) && listed.contains(&"E".to_owned()), "{listed:?}");
}

/// A page is the same bytes every time, as SVG too.
#[test]
fn a_sheet_is_the_same_every_time() {
    let own = bay::crowded();
    for kind in Sheet::ALL {
        let (one, other) = (made(kind, &own), made(kind, &own));
        assert_eq!(to_pdf(&one, Theme::Print, "en"), to_pdf(&other, Theme::Print, "en"));
        let svg = |pages: &[Page]| pages.iter().map(|page| to_svg(page, Theme::Print)).collect::<String>();
        assert_eq!(svg(&one), svg(&other));
        roxmltree::Document::parse(&to_svg(&one[0], Theme::Print)).unwrap();
    }
}

/// What is told by colour is told by shape or by lightness too: printed in black alone, signs of what stops and what needs care are not
/// alike, and every ink is far from the paper.
#[test]
fn black_alone_is_enough() {
    let items: Vec<Item> = [Sheet::Marks, Sheet::Findings]
        .into_iter()
        .flat_map(|kind| made(kind, &bay::crowded()))
        .flat_map(|page| page.frames)
        .flat_map(|frame| frame.items().to_vec())
        .collect();
    let paper = Theme::Print.palette().paper.luminance();
    for item in &items {
        if let Shape::Text(_) = item.shape {
            let ink = Theme::Print.paint(item.role).text.luminance();
            assert!((paper + 0.05) / (ink + 0.05) > 7.0, "{:?}", item.role);
        }
    }
    let kinds = |is_one: fn(&Role) -> bool| {
        let signs = items.iter().filter(|item| is_one(&item.role)).filter_map(|item| match &item.shape {
            Shape::Sign(sign) => Some(sign.kind),
            _ => None,
        });
        signs.collect::<std::collections::BTreeSet<_>>()
    };
    use baywright_planner::Severity;
    let stops = kinds(|role| matches!(role, Role::Flag(Severity::Stops)));
    let care = kinds(|role| matches!(role, Role::Flag(Severity::Care) | Role::KeySign(Severity::Care)));
    assert!(!stops.is_empty() && stops.is_disjoint(&care), "{stops:?} {care:?}");
}

/// A technician who plumbs hubs reads on paper by how much each lies beside its tyre: R·sin γ, 310 mm and 2° are 11 mm; without a
/// sheet, or of a plan that plumbs none, nothing is said of it.
#[test]
fn the_mark_sheet_tells_the_cambers_that_count() {
    use baywright_planner::geometry::marks::Construction;
    use baywright_planner::model::Wheel;
    use baywright_planner::model::sheet::{Inward, Told, Typed};
    let told = |arrangement: &Arrangement| {
        let pages = made(Sheet::Marks, arrangement);
        let all: Vec<String> = pages.iter().flat_map(texts).map(|own| own.text.to_owned()).collect();
        all.join(" ")
    };
    let said = "a plumbed hub lies beside the tyre's middle";
    let mut own = bay::crowded();
    own.on_this_car.sheet.camber[0] = Told::of(Typed::of(2.0), Inward::Out);
    assert!(!told(&own).contains(said), "no hub is plumbed");
    own.aiming.mark_plan[0].construction = Construction::WheelPoint { wheel: Wheel::FrontLeft };
    assert!(told(&own).contains(said), "{}", told(&own));
    own.on_this_car.sheet.camber[0] = Told::default();
    assert!(!told(&own).contains(said));
}

/// What was read of a stand stands before what it comes to, in both languages, with a line for who read it.
#[test]
fn what_was_read_of_a_stand_is_told() {
    let mut arrangement = bay::crowded();
    let placement = arrangement.aiming.placements[0].id.clone();
    arrangement.stands_read = vec![StandRead {
        line_mm: Some(12.0),
        offset_mm: Some(583.5),
        square_by: SquareBy::Bar,
        left_mm: Some(900.0),
        right_mm: Some(902.0),
        apart_mm: Some(1_500.0),
        leans_left_rad: Some((-0.2_f64).to_radians()),
        ..StandRead::of(placement)
    }];
    for (language, wanted) in [
        (
            Language::English,
            "Line's height read from: the sensor; Line over that: 12 mm; Face over the line: 583.5 mm; Square by: a long bar; To the left \
             end: 900 mm; To the right end: 902 mm; Bar's length: 1 500 mm; Pole leans left: \u{2212}0.2°.",
        ),
        (Language::German, "Linie darüber: 12 mm"),
    ] {
        let locale = Locale::of(language, Units::Millimetres);
        let pages = made_in(Sheet::Marks, &arrangement, Paper::portrait(Size::A4), locale);
        let all: Vec<&str> = pages.iter().flat_map(texts).map(|own| own.text).collect();
        let all = all.join(" ").replace('\u{202f}', " ");
        assert!(all.contains(wanted), "{language:?}: {all}");
    }
}

/// Of which figures the next tape speaks is said where one stands beside it that no tape settles.
#[test]
fn the_next_tape_says_of_which_figure_it_speaks() {
    let mut arrangement = bay::crowded();
    // A target's figures follow from the mark that lies under it.
    arrangement.aiming.placements[0].mark = Some("7".into());
    let assessment = assess(&arrangement);
    let proof = Proof::of(&arrangement, &assessment.scene).unwrap();
    let words = Words::new(&arrangement, Locale::default());
    let mut figures = vec![proof.figures[0].clone(); 2];
    (figures[0].of, figures[1].of) = (FigureOf::Direction, FigureOf::Distance);
    figures.iter_mut().for_each(|own| own.no_tape_shows = false);
    let next = NextTape::Tape { from: "3".into(), to: "4".into() };
    let plain = words.next_tape(&next);
    assert_eq!(words.next_tape_of(&next, &figures), plain);
    figures[0].no_tape_shows = true;
    let said = words.next_tape_of(&next, &figures);
    let named = |at: usize| format!("{}: {}", figures[at].placement, words.asked_of_target(figures[at].of));
    assert!(said.starts_with(&plain) && said.contains("That is for") && said.contains("no distance settles"));
    assert!(said.find(&named(1)) < said.find(&named(0)), "{said}");
    figures.iter_mut().for_each(|own| own.no_tape_shows = true);
    assert!(words.next_tape_of(&next, &figures).contains("makes figures surer"));
}

/// Where the view is lower than the figures beside it need, they stand clear of what is said over it.
#[test]
fn figures_beside_a_low_view_keep_off_what_stands_over_it() {
    let mut found = Vec::new();
    for extra in [3, 5, 7] {
        let mut arrangement = bay::crowded();
        for n in 0..extra {
            let (wheel, distance) = (Wheel::FrontLeft, 30.0 + 17.0 * f64::from(n));
            let construction = Construction::Outboard { wheel, distance };
            let id = format!("{}", 8 + n).as_str().into();
            arrangement.aiming.mark_plan.push(MarkStep { id, construction });
        }
        for paper in [Paper::portrait(Size::A4), Paper::landscape(Size::A4), Paper::portrait(Size::Letter)] {
            for page in made_in(Sheet::Marks, &arrangement, paper, Locale::default()) {
                found
                    .extend(wrong(&page, paper).into_iter().map(|what| format!("{extra} {paper:?}: {what}")));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}
