//! Pages: frames on paper in mm, views at a true scale.

use baywright_drawing::page::Content;
use baywright_drawing::{
    Align, Drawing, Fit, Lettering, PX_PER_PAPER_MM, Page, Projection, Role, Shape, Theme, ViewState,
    picture, to_svg,
};
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::{Arrangement, Shape as ThingShape, ThingKind};
use baywright_planner::{Subject, assess};

use super::bay;

/// A box of a metre by half a metre, square to the car, off everything.
fn with_a_metre() -> Arrangement {
    let mut arrangement = bay::crowded();
    let metre = ThingShape::Rectangle { length_mm: 1000.0, width_mm: 500.0 };
    arrangement.bay.things.push(bay::thing("metre", ThingKind::Other, metre, (1500.0, 900.0), (0.0, 400.0)));
    arrangement
}

fn at_scale(arrangement: &Arrangement, projections: &[Projection], one_to: f64) -> Page {
    let (state, fit) = (ViewState::default(), Fit::True { one_to });
    picture(arrangement, &assess(arrangement), &state, projections, fit, &Lettering::default())
}

fn metre() -> Subject {
    Subject::Thing("metre".into())
}

/// How large a drawing shows the metre on the paper, mm.
fn drawn(drawing: &Drawing) -> DVec2 {
    drawing.box_of(&metre()).unwrap().size() / PX_PER_PAPER_MM
}

/// How large the SVG shows it, mm: its numbers are px, of which CSS Values and Units 4 (section 6.2) puts 96 to the inch of
/// 25.4 mm.
fn written(svg: &str) -> DVec2 {
    let document = roxmltree::Document::parse(svg).unwrap();
    let root = document.root_element();
    // The view box is as large as the paper, so a number is a px.
    let size = format!("0 0 {} {}", root.attribute("width").unwrap(), root.attribute("height").unwrap());
    assert_eq!(root.attribute("viewBox"), Some(size.as_str()));
    let body = document
        .descendants()
        .find(|node| node.has_tag_name("path") && node.attribute("data-subject") == Some("thing:metre"));
    let numbers: Vec<f64> = body
        .unwrap()
        .attribute("d")
        .unwrap()
        .split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-')))
        .filter_map(|number| number.parse().ok())
        .collect();
    let corners = numbers.chunks_exact(2).map(|pair| DVec2::new(pair[0], pair[1]));
    Bounds::around(corners).unwrap().size() / 96.0 * 25.4
}

/// SVG's numbers are rounded to a hundredth of a px at both ends, mm.
const ROUNDED_MM: f64 = 0.01 / 96.0 * 25.4;

/// At 1 : 50 a metre is 20 mm of paper.
#[test]
fn a_true_scale_is_true() {
    let arrangement = with_a_metre();
    for (one_to, wanted) in [(50.0, 20.0), (20.0, 50.0), (100.0, 10.0), (33.0, 1000.0 / 33.0)] {
        let page = at_scale(&arrangement, &[Projection::Top], one_to);
        let drawing = page.views().next().unwrap();
        assert!((drawing.one_to() - one_to).abs() < 1e-9);
        assert!((drawn(drawing) - DVec2::new(wanted, 0.5 * wanted)).length() < 1e-9, "{}", drawn(drawing));
        let svg = to_svg(&page, Theme::Light);
        let written = written(&svg);
        assert!((written.x - wanted).abs() <= ROUNDED_MM, "1 : {one_to}: {written}");
        assert!((written.y - 0.5 * wanted).abs() <= ROUNDED_MM, "1 : {one_to}: {written}");
        assert!(svg.contains(&format!("Scale 1 : {one_to} ")), "the scale is told");
    }
}

/// At a true scale the window is as large as all that the view holds needs.
#[test]
fn a_true_scale_shows_all() {
    let arrangement = with_a_metre();
    let mut last = DVec2::ZERO;
    for one_to in [100.0, 50.0, 20.0] {
        let page = at_scale(&arrangement, &[Projection::Top, Projection::Side], one_to);
        for drawing in page.views() {
            super::list::check(&arrangement, &assess(&arrangement), drawing);
            for item in drawing.items.iter().filter(|item| item.role == Role::WallLine) {
                item.shape
                    .each_point(|p| assert!(drawing.window().holds(drawing.paper_point(p)), "{item:?}"));
            }
        }
        // 12 m by 6 m of room, within.
        assert!((page.size * one_to).cmpge(DVec2::new(12_000.0, 6_000.0)).all(), "{}", page.size);
        assert!(page.size.cmpgt(last).all(), "a larger scale needs more paper");
        last = page.size;
    }
}

/// Whatever the scale: the frames lie on the paper, none on another, what is in them is in them, and a view holds nothing
/// of what stands around it.
#[test]
fn frames_keep_to_their_places() {
    for arrangement in [bay::empty(false), bay::empty(true), bay::crowded()] {
        let assessment = assess(&arrangement);
        for fit in [
            Fit::picture(400.0),
            Fit::picture(1200.0),
            Fit::True { one_to: 50.0 },
            Fit::True { one_to: 400.0 },
        ] {
            for lettering in [11.0, 18.0].map(|least_text| Lettering { least_text, ..Lettering::default() }) {
                for projections in [&[Projection::Side] as &[_], &[Projection::Top, Projection::Side]] {
                    let state = ViewState::default();
                    let page = picture(&arrangement, &assessment, &state, projections, fit, &lettering);
                    let paper = Bounds { low: DVec2::ZERO, high: page.size }.grown(1e-9);
                    for (i, frame) in page.frames.iter().enumerate() {
                        assert!(paper.holds(frame.place.low) && paper.holds(frame.place.high), "{i}");
                        for other in &page.frames[..i] {
                            let apart = frame.place.low.cmpge(other.place.high - 1e-9)
                                | other.place.low.cmpge(frame.place.high - 1e-9);
                            assert!(apart.any(), "frame {i} on another");
                        }
                        assert!(frame.items().iter().all(|item| item.role.is_furniture() != frame.is_view()));
                        if !frame.is_view() {
                            inside(frame.place.size(), frame.items());
                        }
                    }
                    assert_eq!(page.views().count(), projections.len());
                    let tables = page.frames.iter().filter(|f| matches!(f.content, Content::Table(_)));
                    assert_eq!(tables.count(), 1, "the key");
                }
            }
        }
    }
}

/// Where our letters are not installed and widths are not kept, as some viewers do, another sans-serif is up to a third wider: the
/// verdict and the titles of views run into nothing.
#[test]
fn wider_letters_run_into_nothing() {
    const WIDER: f64 = 1.33;
    for arrangement in [bay::empty(false), bay::crowded()] {
        let assessment = assess(&arrangement);
        let (state, projections) = (ViewState::default(), [Projection::Top, Projection::Side]);
        let fit = Fit::picture(1100.0);
        let page = picture(&arrangement, &assessment, &state, &projections, fit, &Lettering::default());
        let mut looked = 0;
        for frame in page.frames.iter().filter(|frame| !frame.is_view()) {
            let texts = || {
                frame.items().iter().filter_map(|item| match &item.shape {
                    Shape::Text(text) => Some((item.role, text)),
                    _ => None,
                })
            };
            let leads = |role| matches!(role, Role::Verdict | Role::Title);
            for (_, lead) in texts().filter(|(role, text)| leads(*role) && text.align == Align::Start) {
                looked += 1;
                let end = lead.at.x + lead.width / PX_PER_PAPER_MM * WIDER;
                let high = 0.5 * lead.style.size / PX_PER_PAPER_MM;
                for (_, other) in texts().filter(|(_, other)| !std::ptr::eq(*other, lead)) {
                    let share = match other.align {
                        Align::Start => 0.0,
                        Align::Middle => 0.5,
                        Align::End => 1.0,
                    };
                    let start = other.at.x - other.width / PX_PER_PAPER_MM * share;
                    let is_beside = (other.at.y - lead.at.y).abs() < high && start > lead.at.x;
                    assert!(!is_beside || start >= end, "“{}” runs into “{}”", lead.text, other.text);
                }
            }
        }
        assert!(looked >= 4, "{looked}");
    }
}

/// All items lie in a frame of this size, whose list is in mm from its lower left corner.
fn inside(size: DVec2, items: &[baywright_drawing::Item]) {
    let frame = Bounds { low: DVec2::ZERO, high: size }.grown(1e-9);
    for item in items {
        item.shape.each_point(|p| assert!(frame.holds(p), "{item:?} in {size}"));
        if let Shape::Text(text) = &item.shape {
            let half = 0.5 * text.style.size / PX_PER_PAPER_MM;
            assert!(
                frame.holds(text.at + DVec2::Y * half) && frame.holds(text.at - DVec2::Y * half),
                "{text:?}"
            );
        }
    }
}
