//! PDF, read back by a reader that shares no code with its writer: the `lopdf` library.

use baywright_drawing::{Fit, Lettering, Page, Projection, Theme, ViewState, picture, to_pdf};
use baywright_planner::assess;
use baywright_planner::model::{Arrangement, Shape, ThingKind};
use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object};

use super::bay;

/// Points for each mm: ISO 32000-1, 8.3.2.3 (from memory), 72 to the inch.
const POINTS_PER_MM: f64 = 72.0 / 25.4;

fn page(arrangement: &Arrangement, one_to: f64) -> Page {
    let (state, fit) = (ViewState::default(), Fit::True { one_to });
    let both = [Projection::Top, Projection::Side];
    picture(arrangement, &assess(arrangement), &state, &both, fit, &Lettering::default())
}

fn read(pages: &[Page]) -> Document {
    Document::load_mem(&to_pdf(pages, Theme::Light, "en").unwrap()).unwrap()
}

fn number(of: &Object) -> f64 {
    of.as_float().map(f64::from).or_else(|_| of.as_i64().map(|n| n as f64)).unwrap()
}

fn size(document: &Document, of: lopdf::ObjectId) -> (f64, f64) {
    let media = document.get_dictionary(of).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
    let all: Vec<f64> = media.iter().map(number).collect();
    (all[2] - all[0], all[3] - all[1])
}

#[test]
fn a_page_is_as_large_as_its_paper() {
    let pages = [page(&bay::crowded(), 50.0), page(&bay::empty(false), 100.0)];
    let document = read(&pages);
    let found: Vec<_> = document.get_pages().into_values().map(|id| size(&document, id)).collect();
    assert_eq!(found.len(), 2);
    for (page, (width, height)) in pages.iter().zip(found) {
        assert!((width - page.size.x * POINTS_PER_MM).abs() < 0.01, "{width}");
        assert!((height - page.size.y * POINTS_PER_MM).abs() < 0.01, "{height}");
    }
}

/// A bar of a metre by a fifth of one, square to the car, at 1 : 10 is 100 mm long on the paper.
#[test]
fn a_hundred_millimetres_are_a_hundred_millimetres() {
    let mut arrangement = bay::crowded();
    let bar = Shape::Rectangle { length_mm: 1000.0, width_mm: 200.0 };
    arrangement.bay.things.push(bay::thing("bar", ThingKind::Other, bar, (1500.0, 900.0), (0.0, 400.0)));
    let document = read(&[page(&arrangement, 10.0)]);
    let of = *document.get_pages().get(&1).unwrap();
    let content = Content::decode(&document.get_page_content(of).unwrap()).unwrap();
    // What is drawn before is scaled by the page's own matrix, the product of all that are in force.
    let (mut scales, mut scale): (Vec<f64>, f64) = (Vec::new(), 1.0);
    let (mut corners, mut bars): (Vec<(f64, f64)>, usize) = (Vec::new(), 0);
    for step in &content.operations {
        let at: Vec<f64> =
            step.operands.iter().filter_map(|own| own.as_float().ok().map(f64::from)).collect();
        match step.operator.as_str() {
            "q" => scales.push(scale),
            "Q" => scale = scales.pop().unwrap(),
            "cm" => scale *= at[0].abs(),
            "m" => corners = vec![(at[0], at[1])],
            "l" => corners.push((at[0], at[1])),
            "B" | "B*" | "f" | "f*" if corners.len() >= 4 => {
                let span = |of: fn(&(f64, f64)) -> f64| {
                    let all = corners.iter().map(of);
                    all.clone().fold(f64::MIN, f64::max) - all.fold(f64::MAX, f64::min)
                };
                let (long, wide) =
                    (span(|p| p.0) * scale / POINTS_PER_MM, span(|p| p.1) * scale / POINTS_PER_MM);
                bars += usize::from((long - 100.0).abs() < 0.1 && (wide - 20.0).abs() < 0.1);
            }
            _ => {}
        }
    }
    assert!(bars > 0, "no area of 100 by 20 mm");
}

fn each(document: &Document, wanted: &str) -> Vec<Dictionary> {
    let dictionaries = document.objects.values().filter_map(|own| own.as_dict().ok());
    let is = |own: &&Dictionary| {
        own.get(b"S").is_ok_and(|kind| kind.as_name().is_ok_and(|n| n == wanted.as_bytes()))
    };
    dictionaries.filter(is).cloned().collect()
}

/// Each view is a figure that is described, and the lines around it are read in order.
#[test]
fn it_can_be_listened_to() {
    let page = page(&bay::crowded(), 50.0);
    let document = read(std::slice::from_ref(&page));
    let catalog = document.catalog().unwrap();
    assert!(catalog.get(b"StructTreeRoot").is_ok());
    assert_eq!(catalog.get(b"Lang").unwrap().as_str().unwrap(), b"en");
    let figures = each(&document, "Figure");
    assert_eq!(figures.len(), 2, "the top view and the side view");
    assert!(figures.iter().all(|own| own.get(b"Alt").is_ok()));
    assert_eq!(each(&document, "H1").len(), 1);
    assert!(each(&document, "P").len() > 4);
}

/// Text is text: what is written around the views is found in the page's text.
#[test]
fn texts_are_found_as_texts() {
    let document = read(&[page(&bay::crowded(), 50.0)]);
    let text = document.extract_text(&[1]).unwrap();
    let text: String = text.split_whitespace().collect();
    for wanted in ["Spacenotready", "1:50", "100%hidden", "3600frontaxletoplateface"] {
        assert!(text.contains(wanted), "{wanted}: {text}");
    }
}

/// Every font is embedded, cut to what is used.
#[test]
fn fonts_are_embedded() {
    let document = read(&[page(&bay::crowded(), 50.0)]);
    let descriptors: Vec<_> = document
        .objects
        .values()
        .filter_map(|own| own.as_dict().ok())
        .filter(|own| own.get(b"Type").is_ok_and(|kind| kind.as_name().is_ok_and(|n| n == b"FontDescriptor")))
        .collect();
    assert!(descriptors.len() >= 2, "regular and bold");
    for own in descriptors {
        assert!(own.get(b"FontFile3").is_ok(), "{own:?}");
        let name = String::from_utf8_lossy(own.get(b"FontName").unwrap().as_name().unwrap()).into_owned();
        // Six letters and a plus: a subset (ISO 32000-1, 9.6.4, from memory).
        assert!(name.contains("+Inter"), "{name}");
    }
}

/// The same bytes every time.
#[test]
fn it_is_the_same_every_time() {
    let pages = [page(&bay::crowded(), 50.0)];
    assert_eq!(to_pdf(&pages, Theme::Light, "en"), to_pdf(&pages, Theme::Light, "en"));
}
