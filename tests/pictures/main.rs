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
    Drawing, Item, Paper, Role, Shape, Theme, ViewState, flagged, side_view, to_svg, top_view,
};
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::Arrangement;
use baywright_planner::{Assessment, Subject, assess};

/// Width of the pictures, px: as `baywright draw` makes them.
const WIDTH: f64 = 1100.0;

/// Layout, arrangement, whether the side view, theme, file.
const PICTURES: [(&str, &str, bool, Theme, &str); 6] = [
    ("crowded-bay", "As found", false, Theme::Light, "crowded-bay-top"),
    ("crowded-bay", "As found", true, Theme::Light, "crowded-bay-side"),
    ("crowded-bay", "As found", false, Theme::Dark, "crowded-bay-top-dark"),
    ("clear-bay", "Hatchback, forward radar", false, Theme::Light, "clear-bay-top"),
    ("clear-bay", "Estate, rear left corner radar", false, Theme::Light, "clear-bay-corner-radar-top"),
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

fn picture(arrangement: &Arrangement, assessment: &Assessment, side: bool) -> Drawing {
    let view = if side { side_view } else { top_view };
    view(arrangement, assessment, &ViewState::default(), &Paper::picture(WIDTH))
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
        let svg = to_svg(&picture(arrangement, &assess(arrangement), side), theme);
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

/// Every shipped arrangement: all things and flags on both pictures, no flag on another flag or mark, or off the paper.
#[test]
fn every_shipped_arrangement_is_drawn_whole() {
    let mut layouts: Vec<PathBuf> = std::fs::read_dir(root().join("bay-layouts"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "ron"))
        .collect();
    layouts.sort();
    let mut drawn = 0;
    for (name, arrangement) in layouts.iter().flat_map(|layout| arrangements(layout)) {
        let assessment = assess(&arrangement);
        for side in [false, true] {
            let drawing = picture(&arrangement, &assessment, side);
            for thing in &arrangement.bay.things {
                let subject = Subject::Thing(thing.id.clone());
                assert!(drawing.showing(&subject).next().is_some(), "{name}: {} is not drawn", thing.id);
            }
            let kept: Vec<_> = drawing.items.iter().filter_map(|item| kept_free(&drawing, item)).collect();
            let flags = kept.iter().filter(|(_, what)| what.starts_with("flag"));
            assert_eq!(flags.clone().count(), flagged(&assessment).count(), "{name}");
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
    assert!(drawn >= 20, "{drawn} pictures of {} layouts", layouts.len());
}
