//! What the floor's levels say, and what was read of a stand: told in front, drawn when asked for, entered by typing, undone.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::view::Tab;
use baywright_drawing::Role;
use baywright_planner::edit::Edit;
use baywright_planner::ground::Ground;
use baywright_planner::model::StandRead;
use baywright_planner::words::{Language, Words};
use baywright_planner::{Code, Verdict};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::ask;
use crate::support::{desk, usual, verdict};

fn on_tab(tab: Tab) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    ask(&mut screen, Command::View(OfView::Tab(tab)));
    screen
}

fn ground(screen: &Harness<'_, Desk>) -> Option<Ground> {
    let answer = screen.state().answer();
    Ground::of(&answer.judged, &answer.assessment.scene)
}

fn roles(screen: &Harness<'_, Desk>, is: fn(Role) -> bool) -> usize {
    screen.state().drawings().flat_map(|(own, _)| &own.items).filter(|item| is(item.role)).count()
}

/// What stands in front is the answer's own, in both languages, and says what is assumed.
#[test]
fn the_answer_stands_in_front() {
    let mut screen = on_tab(Tab::Floor);
    for language in [Language::English, Language::German] {
        ask(&mut screen, Command::View(OfView::Language(language)));
        let found = ground(&screen).expect("the clear bay is surveyed");
        let car = found.car.expect("all four wheels");
        let answer = screen.state().answer();
        let words = Words::new(&answer.judged, screen.state().view().locale);
        let said = [words.pitch(&car), words.roll(&car), words.height_to_set(&found.heights[0])];
        for text in said.map(baywright_desk::screen::unbroken) {
            screen.get_by_label(&text);
        }
        assert_eq!(found.known.by, baywright_planner::ground::KnownBy::Assumed);
    }
}

/// Lines of one level and the profile are there when asked for, and not before.
#[test]
fn levels_are_drawn_when_asked_for() {
    let mut screen = on_tab(Tab::Floor);
    let lines = |screen: &Harness<'_, Desk>| {
        (roles(screen, |own| own == Role::Contour), roles(screen, |own| own == Role::Profile))
    };
    assert_eq!(lines(&screen), (0, 0));
    screen.get_by_label("Floor: contours and profile").click();
    screen.run();
    let (contours, profile) = lines(&screen);
    assert!(contours > 0 && profile > 0, "{contours} {profile}");
    ask(&mut screen, Command::View(OfView::Contours(false)));
    assert_eq!(lines(&screen), (0, 0));
}

/// Without levels it is told what they would say, and one press leads to where they are entered.
#[test]
fn without_levels_it_leads_to_them() {
    let mut screen = on_tab(Tab::Floor);
    let mut bay = screen.state().answer().judged.bay.clone();
    bay.survey = None;
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    assert_eq!(ground(&screen), None);
    screen.get_by_label_contains("No levels are entered");
    screen.get_by_label("Enter levels \u{2026}").click();
    screen.run();
    assert!(screen.state().view().list_open);
    assert_eq!(screen.state().view().selected, Some(baywright_planner::Subject::Floor));
}

/// A height that is read 40 mm too high stops; undone, the space is as before; with the marks laid anew it is gone.
#[test]
fn what_is_read_of_a_stand_is_judged() {
    let mut screen = on_tab(Tab::Marks);
    assert_eq!(verdict(&screen), Verdict::Ready);
    screen.get_by_label("Pole leans away").focus();
    screen.run();
    screen.get_by_label("Pole leans away").type_text("2");
    screen.step();
    screen.key_press(Key::Enter);
    screen.run();
    let read = |screen: &Harness<'_, Desk>| screen.state().answer().judged.stands_read.clone();
    let own = read(&screen);
    assert_eq!(own.len(), 1);
    assert!((own[0].leans_away_rad.expect("typed") - 2.0_f64.to_radians()).abs() < 1e-9);
    // The rest was not read.
    let has = |screen: &Harness<'_, Desk>, code: Code| {
        screen.state().answer().assessment.findings.iter().any(|own| own.code() == code)
    };
    assert!(has(&screen, Code::StandUnproven));
    assert_eq!(verdict(&screen), Verdict::ReadyWithCare);
    let left = StandRead { leans_left_rad: Some(0.0), ..own[0].clone() };
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::ReadStand(left))));
    assert!(has(&screen, Code::StandSetOff), "a plate that is tipped by 2° aims by as much");
    assert_eq!(verdict(&screen), Verdict::NotReady);
    screen.get_by_label_contains("It says nothing about the sensor");
    ask(&mut screen, Command::Undo);
    ask(&mut screen, Command::Undo);
    assert!(read(&screen).is_empty());
    assert_eq!(verdict(&screen), Verdict::Ready);
    ask(&mut screen, Command::Redo);
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::LayAnew)));
    assert!(read(&screen).is_empty());
}
