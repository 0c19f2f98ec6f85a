//! With the floor in hand its levels are read, and touch nothing else that is.

use std::path::Path;

use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_drawing::{Projection, Role, Shape};
use baywright_planner::Subject;
use baywright_planner::words::Units;
use egui::Vec2;

use crate::legible::{letters, wrong};
use crate::sessions::ask;
use crate::support::{desk, screen};
use crate::walk::SIZES;

/// Every set-up of the bays whose floor was surveyed.
#[test]
fn levels_touch_no_name() {
    let (mut found, mut seen, mut told) = (Vec::new(), 0, 0);
    for (large, size, units) in SIZES
        .into_iter()
        .flat_map(|size| [(false, size, Units::Millimetres), (true, size, Units::FeetInches)])
    {
        for bay in ["clear-bay", "drain-bay"] {
            let mut screen = screen(desk(Path::new(bay), None), Vec2::from(size), 1.0);
            screen.state_mut().view_mut().letters = letters(large);
            screen.state_mut().view_mut().locale.units = units;
            let names: Vec<_> =
                screen.state().document().layout().arrangements.iter().map(|own| own.id.clone()).collect();
            for name in names {
                ask(&mut screen, Command::Bay(OfBay::Show(name.clone())));
                ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
                screen.run();
                let own = wrong(screen.state());
                let place = format!("{bay}, {name}, {size:?}, large {large}");
                found.extend(own.into_iter().map(|wrong| format!("{place}: {wrong}")));
                for (drawing, _) in screen.state().drawings() {
                    let levels = drawing.items.iter().filter(|item| item.role == Role::Level);
                    let (texts, points): (Vec<_>, Vec<_>) =
                        levels.partition(|item| matches!(item.shape, Shape::Text(_)));
                    if drawing.projection == Projection::Top {
                        assert!(!points.is_empty(), "{place}");
                        seen += points.len();
                        told += texts.len();
                        // As the list has them, in feet too: what is not nothing does not look like it.
                        let is_listed =
                            |shape: &Shape| matches!(shape, Shape::Text(text) if text.text.ends_with(" mm"));
                        assert!(texts.iter().all(|item| is_listed(&item.shape)), "{place}");
                    } else {
                        assert!(texts.is_empty() && points.is_empty());
                    }
                }
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    // Where there is room their figures are there: at most of the points.
    assert!(seen > 100 && told * 2 > seen, "{told} of {seen}");
}
