//! The pictures in `screenshots`: each is compared, byte by byte, with what the program draws now.
//!
//! After a change that is meant to show, write them anew and look at them:
//!
//! ```text
//! BAYWRIGHT_WRITE_PICTURES=1 cargo test --test pictures
//! ```

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by panicking")]

use std::path::{Path, PathBuf};

use baywright_drawing::{
    Align, Drawing, Fit, Item, Lettering, Page, Projection, Role, Shape, Text, Theme, ViewState, flagged,
    picture, pinned, side_view, to_svg, top_view,
};
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::Arrangement;
use baywright_planner::{Assessment, Subject, assess};

/// Width of the pictures, px: as `baywright draw` makes them.
const WIDTH: f64 = 1100.0;

/// Layout, arrangement, whether the side view, theme, file.
const PICTURES: [(&str, &str, bool, Theme, &str); 7] = [
    ("crowded-bay", "As found", false, Theme::Light, "crowded-bay-top"),
    ("crowded-bay", "As found", true, Theme::Light, "crowded-bay-side"),
    ("crowded-bay", "As found", false, Theme::Dark, "crowded-bay-top-dark"),
    ("clear-bay", "Hatchback, forward radar", false, Theme::Light, "clear-bay-top"),
    ("clear-bay", "Estate, rear left corner radar", false, Theme::Light, "clear-bay-corner-radar-top"),
    ("hall", "The same, the aiming bay kept empty", false, Theme::Light, "hall-top"),
    ("lift-bay", "Van on the runways, forward radar", true, Theme::Light, "lift-bay-side"),
];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn arrangements(layout: &Path) -> Vec<(String, Arrangement)> {
    let today = jiff::civil::date(2026, 11, 20);
    let loaded = baywright_files::open(layout, Some(today)).unwrap_or_else(|faults| panic!("{faults:?}"));
    loaded.arrangements.into_iter().map(|(id, arrangement)| (id.to_string(), arrangement)).collect()
}

fn page(arrangement: &Arrangement, assessment: &Assessment, side: bool) -> Page {
    let projection = if side { Projection::Side } else { Projection::Top };
    let (state, fit) = (ViewState::default(), Fit::picture(WIDTH));
    picture(arrangement, assessment, &state, &[projection], fit, &Lettering::default())
}

fn view(arrangement: &Arrangement, assessment: &Assessment, side: bool, fit: Fit) -> Drawing {
    let view = if side { side_view } else { top_view };
    view(arrangement, assessment, &ViewState::default(), fit, &Lettering::default())
}

#[test]
fn pictures_are_what_is_drawn() {
    let write = std::env::var_os("BAYWRIGHT_WRITE_PICTURES").is_some_and(|wish| wish == "1");
    let mut stale = Vec::new();
    for (layout, name, side, theme, file) in PICTURES {
        let layout = root().join("bay-layouts").join(layout).with_extension("ron");
        let all = arrangements(&layout);
        let (_, arrangement) = all
            .iter()
            .find(|(id, _)| id == name)
            .unwrap_or_else(|| panic!("{}: no {name:?}", layout.display()));
        let svg = to_svg(&page(arrangement, &assess(arrangement), side), theme);
        let path: PathBuf = root().join("screenshots").join(file).with_extension("svg");
        if write {
            std::fs::write(&path, &svg).unwrap();
        } else if let Some(difference) = difference(&std::fs::read_to_string(&path).unwrap_or_default(), &svg)
        {
            stale.push(format!("{file}: {difference}"));
        }
    }
    assert!(stale.is_empty(), "look, and write anew with BAYWRIGHT_WRITE_PICTURES=1\n{}", stale.join("\n"));
}

/// The first line in which two texts differ.
fn difference(was: &str, is: &str) -> Option<String> {
    if was == is {
        return None;
    }
    let line = was
        .lines()
        .zip(is.lines())
        .position(|(a, b)| a != b)
        .unwrap_or(was.lines().count().min(is.lines().count()));
    Some(format!("line {}: was {:?}, is {:?}", line + 1, was.lines().nth(line), is.lines().nth(line)))
}

/// Where an item stands on the paper, px, if nothing else may cover it.
fn kept_free(drawing: &Drawing, item: &Item) -> Option<(Bounds, String)> {
    let (at, half, what) = match &item.shape {
        Shape::Sign(sign) if matches!(item.role, Role::Flag(_)) => {
            (sign.at, DVec2::splat(sign.reach), format!("flag {}", sign.text))
        }
        Shape::Sign(sign) if item.role == Role::Mark => {
            (sign.at, DVec2::splat(sign.reach), "a mark".to_owned())
        }
        _ => return None,
    };
    let at = drawing.paper_point(at);
    Some((Bounds { low: at - half, high: at + half }, what))
}

/// The shipped layouts' arrangements.
fn shipped() -> Vec<(String, Arrangement)> {
    let mut layouts: Vec<PathBuf> = std::fs::read_dir(root().join("bay-layouts"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "ron"))
        .collect();
    layouts.sort();
    layouts.iter().flat_map(|layout| arrangements(layout)).collect()
}

/// Whether a finding with a number is about a thing.
fn blamed(assessment: &Assessment, subject: &Subject) -> bool {
    matches!(subject, Subject::Thing(_))
        && flagged(assessment).any(|told| told.finding.subjects.contains(subject))
}

/// Every shipped arrangement: all things from above, from the side those that findings are about; all flags, no flag
/// on another flag or mark, or off the paper.
#[test]
fn every_shipped_arrangement_is_drawn_whole() {
    let mut drawn = 0;
    for (name, arrangement) in shipped() {
        let assessment = assess(&arrangement);
        for side in [false, true] {
            let page = page(&arrangement, &assessment, side);
            let drawing = page.views().next().unwrap();
            for thing in &arrangement.bay.things {
                let subject = Subject::Thing(thing.id.clone());
                if !side || blamed(&assessment, &subject) {
                    assert!(drawing.showing(&subject).next().is_some(), "{name}: {} is not drawn", thing.id);
                }
            }
            let kept: Vec<_> = drawing.items.iter().filter_map(|item| kept_free(drawing, item)).collect();
            let flags = kept.iter().filter(|(_, what)| what.starts_with("flag"));
            assert_eq!(flags.clone().count(), pinned(&assessment).count(), "{name}");
            for (i, (place, what)) in
                kept.iter().enumerate().filter(|(_, (_, what))| what.starts_with("flag"))
            {
                let inside = DVec2::ZERO.cmple(place.low) & place.high.cmple(drawing.size);
                assert!(inside.all(), "{name}: {what} is off the paper");
                for (j, (other, other_what)) in kept.iter().enumerate() {
                    let apart = place.low.cmpge(other.high) | other.low.cmpge(place.high);
                    assert!(i == j || apart.any(), "{name}, side view {side}: {what} covers {other_what}");
                }
            }
            drawn += 1;
        }
    }
    assert!(drawn >= 20, "{drawn} pictures");
}

/// The places on a text's middle line, px, from end to end, and half the height of its capitals.
fn text_places(drawing: &Drawing, text: &Text) -> (Vec<DVec2>, f64) {
    let (sin, cos) = text.angle.sin_cos();
    let along = DVec2::new(cos, -sin) * text.width;
    let start = match text.align {
        Align::Start => 0.0,
        Align::Middle => -0.5,
        Align::End => -1.0,
    };
    let at = drawing.paper_point(text.at);
    let steps = (text.width / 3.0).ceil().max(1.0);
    let places = (0..=steps as u32).map(|i| at + along * (start + f64::from(i) / steps)).collect();
    (places, text.style.size * 0.5)
}

/// The box of a shape's corners on the paper, px.
fn shape_box(drawing: &Drawing, shape: &Shape) -> Bounds {
    let mut all: Option<Bounds> = None;
    shape.each_point(|p| {
        let p = drawing.paper_point(p);
        let one = Bounds { low: p, high: p };
        all = Some(all.map_or(one, |b| b.union(one)));
    });
    all.unwrap()
}

/// What no text on a mask may cover, with whose it is.
fn never_covered(drawing: &Drawing, assessment: &Assessment) -> Vec<(Bounds, Option<Subject>, String)> {
    let item = |item: &Item| {
        let subject = item.subject.clone();
        let what = format!("{:?} {subject:?}", item.role);
        match (item.role, &item.shape) {
            (Role::Thing(_) | Role::QuietThing(_) | Role::ThingAside(_) | Role::Overhead, shape)
                if subject.as_ref().is_some_and(|s| blamed(assessment, s)) =>
            {
                Some((shape_box(drawing, shape), subject, what))
            }
            (Role::Target | Role::Mat, shape) => Some((shape_box(drawing, shape), None, what)),
            (Role::Mark | Role::Leader(_), Shape::Sign(sign)) => {
                let at = drawing.paper_point(sign.at);
                Some((Bounds { low: at - sign.reach, high: at + sign.reach }, None, what))
            }
            _ => None,
        }
    };
    drawing.items.iter().filter_map(item).collect()
}

/// On every shipped arrangement, as a picture and on a screen: no text on a mask covers a thing that a finding is about,
/// a mark, a target or the place at which a flag points; only a thing's own name may stand in it. And each such thing
/// has its name.
#[test]
fn no_text_covers_what_a_finding_is_about() {
    let screen =
        |px_per_mm: f64, middle: DVec2| Fit::Window { size: DVec2::new(1180.0, 640.0), px_per_mm, middle };
    let mut checked = 0;
    let mut wrong = Vec::new();
    for (name, arrangement) in shipped() {
        let assessment = assess(&arrangement);
        let middle = |side: bool| {
            let drawing = view(&arrangement, &assessment, side, Fit::picture(WIDTH));
            drawing.view_point(drawing.window().centre())
        };
        for side in [false, true] {
            let fits = [Fit::picture(WIDTH), screen(0.075, middle(side)), screen(0.085, middle(side))];
            for (which, fit) in fits.into_iter().enumerate() {
                let drawing = view(&arrangement, &assessment, side, fit);
                let kept = never_covered(&drawing, &assessment);
                for item in &drawing.items {
                    let text = match &item.shape {
                        Shape::Text(text) => text,
                        Shape::Dimension(dimension) => &dimension.text,
                        _ => continue,
                    };
                    if !text.masked {
                        continue;
                    }
                    let (places, half) = text_places(&drawing, text);
                    for (other, subject, what) in &kept {
                        let own = subject.is_some() && *subject == item.subject && item.role == Role::Label;
                        // Above and below the middle line only: a text may end where the other begins.
                        let other = Bounds {
                            low: other.low - DVec2::new(0.0, half),
                            high: other.high + DVec2::new(0.0, half),
                        };
                        let covers = places
                            .iter()
                            .any(|&p| p.cmpgt(other.low + 0.1).all() && p.cmplt(other.high - 0.1).all());
                        // A mark in the middle of a mat has its number there.
                        let on_mat =
                            matches!(item.subject, Some(Subject::Mark(_))) && what.starts_with("Mat");
                        if !own && !on_mat && covers {
                            let text = &text.text;
                            wrong.push(format!("{name}, side {side}, paper {which}: {text:?} over {what}"));
                        }
                        checked += 1;
                    }
                }
                for (_, subject, _) in kept.iter().filter(|(_, subject, _)| subject.is_some()) {
                    let named = drawing.items.iter().any(|item| {
                        item.subject == *subject
                            && matches!(item.shape, Shape::Text(_))
                            && item.role == Role::Label
                    });
                    if !named {
                        wrong.push(format!("{name}, side {side}, paper {which}: no name for {subject:?}"));
                    }
                }
            }
        }
    }
    assert!(checked > 1000, "{checked}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
