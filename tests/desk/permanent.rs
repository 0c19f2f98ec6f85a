//! Lines that stay on the floor: proposed beside the frame, drawn and told, kept by a press, moved, told to serve no more, undone.

use std::path::Path;
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::view::Tab;
use baywright_drawing::Role;
use baywright_drawing::list::Shape;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::permanent::OnFloor;
use baywright_planner::words::{Language, Words};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::ask;
use crate::support::{desk, press, until_searched, usual};

/// As a person comes there: the tab of parking, and the press under the spots.
fn proposed(layout: &str) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new(layout), None));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Parking)));
    screen.step();
    press(&mut screen, "Lines that stay \u{2026}");
    until_searched(&mut screen);
    screen
}

fn shown(screen: &Harness<'_, Desk>) -> OnFloor {
    screen.state().view().staying.as_deref().cloned().expect("something is proposed")
}

fn lines(screen: &Harness<'_, Desk>, role: Role) -> Vec<[DVec2; 2]> {
    let (top, _) = screen.state().drawings().next().unwrap();
    let own = top.items.iter().filter(|item| item.role == role).filter_map(|item| match &item.shape {
        Shape::Line(points) if points.len() == 2 => Some([0, 1].map(|nth| top.bay_from_view * points[nth])),
        _ => None,
    });
    own.collect()
}

/// What is proposed is drawn where it is, told in both languages with two distances and how well it is laid, and in the bay after one
/// press, with its lines; undo takes all of it back.
#[test]
fn lines_are_proposed_kept_and_taken_back() {
    let mut screen = proposed("hall");
    let floor = shown(&screen);
    assert!(floor.lines.len() >= 2 && floor.points.len() >= 5, "{floor:?}");
    let drawn = lines(&screen, Role::PlaceEdge);
    for line in &floor.lines {
        let ends = line.ends.map(|end| floor.points[end].at);
        let is_there = drawn.iter().any(|own| own.iter().zip(ends).all(|(a, b)| a.distance(b) < 1e-6));
        assert!(is_there, "{ends:?}");
    }
    for language in [Language::German, Language::English] {
        ask(&mut screen, Command::View(OfView::Language(language)));
        screen.step();
        let state = screen.state();
        let words = Words::new(&state.answer().judged, state.view().locale);
        for point in &floor.points {
            assert!(point.walls.is_some());
            let laid = state.view().locale.laid_within(point.within_mm);
            let text = baywright_desk::screen::unbroken(format!("{}; {laid}", words.point_from_walls(point)));
            assert!(screen.query_all_by_label(&text).next().is_some(), "{text}");
        }
    }
    let before = screen.state().answer().judged.bay.marks.clone();
    press(&mut screen, "Keep them in the bay");
    let bay = screen.state().answer().judged.bay.clone();
    assert_eq!(bay.floor_lines().count(), floor.lines.len());
    for point in &floor.points {
        let mark = bay.marks.iter().find(|own| own.at.distance(point.at) <= 1.0).expect("it is kept");
        assert_eq!(mark.laid_within_mm, Some(point.within_mm));
    }
    until_searched(&mut screen);
    assert!(screen.query_by_label("All of it is in the bay.").is_some(), "the same is proposed as before");
    assert_eq!(lines(&screen, Role::FloorLine).len(), floor.lines.len());
    screen.key_combination_modifiers(egui::Modifiers::COMMAND, &[Key::Z]);
    screen.step();
    assert_eq!(screen.state().answer().judged.bay.marks, before);
    press(&mut screen, "Put them away");
    assert!(screen.state().view().staying.is_none() && lines(&screen, Role::PlaceEdge).len() < drawn.len());
}

/// A kept mark that is moved by hand beyond what it may be off is told beside its point.
#[test]
fn a_mark_that_was_moved_is_told() {
    let mut screen = proposed("clear-bay");
    press(&mut screen, "Keep them in the bay");
    let floor = shown(&screen);
    let mut bay = screen.state().answer().judged.bay.clone();
    let at = floor.points[0].at;
    let mark = bay.marks.iter_mut().find(|own| own.at == at).unwrap();
    mark.at.y += floor.points[0].within_mm + 12.0;
    let name = mark.id.to_string();
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    screen.step();
    until_searched(&mut screen);
    assert!(screen.query_by_label_contains(&format!("In the bay \"{name}\" lies")).is_some());
    assert!(!screen.get_by_label("Keep them in the bay").accesskit_node().is_disabled());
    press(&mut screen, "Keep them in the bay");
    until_searched(&mut screen);
    assert!(screen.query_by_label("All of it is in the bay.").is_some());
}

/// No frame waits for the search; what was stopped says so and can be looked for again.
#[test]
fn the_search_of_lines_can_be_stopped() {
    let mut screen = usual(desk(Path::new("hall"), None));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Parking)));
    ask(&mut screen, Command::View(OfView::StayingLines(true)));
    let start = Instant::now();
    screen.step();
    assert!(start.elapsed() < Duration::from_secs(2));
    ask(&mut screen, Command::View(OfView::StopLooking));
    until_searched(&mut screen);
    assert!(screen.query_by_label_contains("Stopped before its end").is_some());
    press(&mut screen, "Look again");
    until_searched(&mut screen);
    assert!(screen.query_by_label_contains("Stopped before its end").is_none());
}
