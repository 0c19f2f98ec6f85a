//! What must move where no place fits: asked by a press, told in both languages, drawn where it goes, done by one press, undone
//! by one.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::view::Tab;
use baywright_planner::clearing::{Cleared, Surety, cleared};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose, Polygon};
use baywright_planner::model::{Bay, Effort, Known, Place, Thing};
use baywright_planner::place::{headings, reach};
use baywright_planner::words::{Language, Words};
use baywright_planner::{Severity, Step};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::ask;
use crate::support::{count, desk, press, until_searched, usual};

/// The clear bay with a room that is hardly larger than the set-up, and a cabinet where it would stand.
fn tight(effort: Effort) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    let judged = &screen.state().answer().judged;
    let (low, high) = reach(judged);
    let size = high - low + DVec2::new(120.0, 1_400.0);
    let mut bay: Bay = judged.bay.clone();
    let ring = [(0.0, 0.0), (size.x, 0.0), (size.x, size.y), (0.0, size.y)].map(DVec2::from);
    bay.room = Polygon::new(ring.to_vec(), Vec::new()).unwrap();
    bay.walls.truncate(4);
    bay.openings.clear();
    bay.survey = None;
    bay.floor_features.clear();
    bay.marks.clear();
    bay.keep_free.clear();
    bay.dimensions.clear();
    let cabinet = bay.things.iter().find(|own| own.id.as_str() == "tool cabinet").unwrap().clone();
    let at = PlanPose::new(DVec2::new(size.x * 0.5, size.y * 0.5), 0.0);
    bay.things = vec![Thing { effort, place: Place { at, known: Known::Taped }, ..cabinet }];
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Parking)));
    screen.step();
    until_searched(&mut screen);
    screen
}

fn of_core(screen: &Harness<'_, Desk>) -> Cleared {
    let judged = &screen.state().answer().judged;
    cleared(judged, &headings(&judged.bay.room), &|| false, &mut |_| {})
}

#[test]
fn what_must_move_is_told_drawn_done_and_undone() {
    let mut screen = tight(Effort::OnePerson);
    press(&mut screen, "What must move?");
    until_searched(&mut screen);
    let found = of_core(&screen);
    let way = found.way.as_ref().expect("the cabinet goes");
    assert_eq!((found.surety, way.moves.len()), (Surety::Proven, 1));
    for language in [Language::English, Language::German] {
        ask(&mut screen, Command::View(OfView::Language(language)));
        screen.step();
        let answer = screen.state().answer();
        let words = Words::new(&answer.judged, screen.state().view().locale);
        let goes = way.moves.iter().map(|own| format!("\u{2022} {}", words.goes(own)));
        for text in goes.chain([words.spot(&way.offer), language.clearing().proven.to_owned()]) {
            let text = baywright_desk::screen::unbroken(text);
            assert!(screen.query_all_by_label(&text).next().is_some(), "{text}");
        }
    }
    ask(&mut screen, Command::View(OfView::Language(Language::English)));
    screen.step();
    screen.step();
    // Before and after on the drawing.
    let steps: Vec<Step> = way.moves.iter().map(|own| own.step.clone()).collect();
    assert_eq!(screen.state().view().to_do, steps);
    assert_eq!(screen.state().view().spot, Some(way.offer.spot.pose));
    let before = screen.state().answer().arrangement.clone();
    assert!(count(&screen, Severity::Stops) > 0);
    press(&mut screen, "Move all and park it there");
    assert_eq!(count(&screen, Severity::Stops), 0);
    assert_eq!(screen.state().answer().arrangement.parked, way.offer.spot.pose);
    assert!(screen.state().view().to_do.is_empty(), "it is done");
    screen.key_combination_modifiers(egui::Modifiers::COMMAND, &[Key::Z]);
    screen.step();
    assert_eq!(screen.state().answer().arrangement, before, "in one step");
}

#[test]
fn that_nothing_can_go_is_said_and_a_stop_is_marked() {
    let mut screen = tight(Effort::Fixed);
    press(&mut screen, "What must move?");
    until_searched(&mut screen);
    assert!(screen.query_by_label_contains("Nothing in this bay can be moved").is_some());
    let mut screen = tight(Effort::TwoPeople);
    ask(&mut screen, Command::View(OfView::WhatMoves));
    screen.step();
    ask(&mut screen, Command::View(OfView::StopLooking));
    until_searched(&mut screen);
    assert!(screen.query_by_label_contains("Stopped before all was tried").is_some());
    assert!(screen.state().view().to_do.is_empty());
    press(&mut screen, "Try again");
    until_searched(&mut screen);
    assert!(screen.query_by_label_contains("Stopped before all was tried").is_none());
    let press = screen.get_by_label("Move all and park it there");
    assert!(!press.accesskit_node().is_disabled());
    // Of another bay it is not shown: it is asked anew.
    let by = Edit::Park(screen.state().answer().arrangement.parked.shifted(DVec2::new(20.0, 0.0)));
    ask(&mut screen, Command::Bay(OfBay::Edit(by)));
    until_searched(&mut screen);
    assert!(screen.query_by_label("Move all and park it there").is_none());
    assert!(screen.state().view().to_do.is_empty() && screen.query_by_label("What must move?").is_some());
}
