//! What must move where no place fits, or for the place where the car stands: asked by a press, told in both languages, drawn where it
//! goes, done by one press, undone by one.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::view::Tab;
use baywright_planner::clearing::{Asked, Cleared, Surety, Way, Where, cleared};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose, Polygon};
use baywright_planner::model::{Bay, Effort, Known, OwnerFigures, Place, Thing, say_cost};
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
    with_spare(effort, DVec2::new(120.0, 1_400.0), 0.5)
}

/// The same with a room that is larger than the set-up by so much, mm, the cabinet at this share of its length.
fn with_spare(effort: Effort, spare: DVec2, along: f64) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    let judged = &screen.state().answer().judged;
    let (low, high) = reach(judged);
    let size = high - low + spare;
    // In the middle of the room, so that all of it lies inside.
    let middle = PlanPose::new(size * 0.5 - (low + high) * 0.5, 0.0);
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
    let at = PlanPose::new(DVec2::new(size.x * along, size.y * 0.5), 0.0);
    bay.things = vec![Thing { effort, place: Place { at, known: Known::Taped }, ..cabinet }];
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Park(middle))));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Parking)));
    screen.step();
    until_searched(&mut screen);
    screen
}

fn of_core(screen: &Harness<'_, Desk>, at: Where) -> Cleared {
    let judged = &screen.state().answer().judged;
    let asked = Asked { at, headings: &headings(&judged.bay.room), costs: &[] };
    cleared(judged, &asked, &|| false, &mut |_| {})
}

/// What goes is told in both languages, with this beside it, and drawn where it goes; the screen speaks English afterwards.
fn told_and_drawn(
    screen: &mut Harness<'_, Desk>,
    way: &Way,
    beside: &dyn Fn(&Words<'_>, Language) -> Vec<String>,
) {
    for language in [Language::German, Language::English] {
        ask(screen, Command::View(OfView::Language(language)));
        screen.step();
        screen.step();
        let words = Words::new(&screen.state().answer().judged, screen.state().view().locale);
        let goes = way.moves.iter().map(|own| format!("\u{2022} {}", words.goes(own)));
        for text in goes.chain(beside(&words, language)) {
            let text = baywright_desk::screen::unbroken(text);
            assert!(screen.query_all_by_label(&text).next().is_some(), "{text}");
        }
    }
    let steps: Vec<Step> = way.moves.iter().map(|own| own.step.clone()).collect();
    assert_eq!(screen.state().view().to_do, steps);
}

/// The car stands where a cabinet is in its beam, and there is room elsewhere: what must move for this place is offered, told in both
/// languages, drawn, done by one press that leaves the car alone, undone by one.
#[test]
fn what_must_move_for_this_place_is_done_and_undone() {
    let mut screen = with_spare(Effort::OnePerson, DVec2::new(3_500.0, 3_500.0), 0.72);
    assert!(count(&screen, Severity::Stops) > 0);
    assert!(screen.query_by_label("What must move?").is_none(), "it fits elsewhere");
    press(&mut screen, "What must move to stand here?");
    until_searched(&mut screen);
    let pose = screen.state().answer().judged.parked;
    let found = of_core(&screen, Where::Here(pose));
    let way = found.way.as_ref().expect("the cabinet goes");
    assert_eq!((found.surety, way.moves.len(), way.offer.meets), (Surety::Proven, 1, true));
    told_and_drawn(&mut screen, way, &|_, language| {
        let texts = language.clearing();
        [texts.title_here, texts.stays_here, texts.proven_here_well].map(str::to_owned).to_vec()
    });
    let before = screen.state().answer().arrangement.clone();
    press(&mut screen, "Move all of it");
    assert_eq!(count(&screen, Severity::Stops), 0);
    assert_eq!(screen.state().answer().arrangement.parked, pose);
    assert!(screen.state().view().to_do.is_empty(), "it is done");
    assert!(screen.query_by_label("What must move to stand here?").is_none(), "nothing stops it");
    screen.key_combination_modifiers(egui::Modifiers::COMMAND, &[Key::Z]);
    screen.step();
    assert_eq!(screen.state().answer().arrangement, before, "in one step");
}

/// What no hands move is proposed only at a cost that was entered, and as what needs a builder.
#[test]
fn a_builder_is_told_apart() {
    let mut screen = with_spare(Effort::Fixed, DVec2::new(3_500.0, 3_500.0), 0.72);
    assert!(screen.query_by_label("What must move to stand here?").is_none(), "nothing could go");
    let mut owner = OwnerFigures::default();
    say_cost(&mut owner.without, &"tool cabinet".into(), Some(1_250.0));
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Owner(Box::new(owner)))));
    until_searched(&mut screen);
    press(&mut screen, "What must move to stand here?");
    until_searched(&mut screen);
    let texts = Language::English.clearing();
    for text in [texts.no_hands_proven, texts.builder_care, "taken out by a builder", "It costs 1"] {
        assert!(screen.query_by_label_contains(text).is_some(), "{text}");
    }
    press(&mut screen, "Move all of it");
    assert_eq!(count(&screen, Severity::Stops), 0);
}

#[test]
fn what_must_move_is_told_drawn_done_and_undone() {
    let mut screen = tight(Effort::OnePerson);
    press(&mut screen, "What must move?");
    until_searched(&mut screen);
    let found = of_core(&screen, Where::Anywhere);
    let way = found.way.as_ref().expect("the cabinet goes");
    assert_eq!((found.surety, way.moves.len()), (Surety::Proven, 1));
    told_and_drawn(&mut screen, way, &|words, language| {
        vec![words.spot(&way.offer), language.clearing().proven.to_owned()]
    });
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
    ask(&mut screen, Command::View(OfView::WhatMoves(Where::Anywhere)));
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
