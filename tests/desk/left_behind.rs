//! Work of earlier sessions that was not saved: the list of it is not passed by, whatever one of its works leads to.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfFile};
use baywright_desk::screen::page::{Begun, Leaving, Page, Question};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{after_the_end, ask, change_list, home, press, start};
use crate::support::type_into;

const BAY: &str = "Open it again: Bay: Crowded bay";
const CAR: &str = "Open it again: Car: Van of the flower shop";
const ROOM: &str = "Open it again: A bay that was begun: Back bay";
const LIST: &str = "Open it again: List of work: ";

/// A session ends with a bay changed, and with a car, a room and the list of work begun.
fn died_over_four(home: &Path) {
    let mut screen = start(home);
    press(&mut screen, "Do all of this");
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    type_into(&mut screen, "Name of the car", "Van of the flower shop");
    ask(&mut screen, Command::File(OfFile::BeginBayAnyway));
    type_into(&mut screen, "Name of the bay", "Back bay");
    change_list(&mut screen);
}

fn begin(name: &str) -> (std::path::PathBuf, Harness<'static, Desk>) {
    let home = home(name);
    died_over_four(&home);
    let screen = after_the_end(&home);
    (home, screen)
}

fn end(home: std::path::PathBuf, screen: Harness<'static, Desk>) {
    drop(screen);
    // What keeps may be at its last note still.
    crate::support::clear(home);
}

fn take_up(screen: &mut Harness<'_, Desk>, which: &str) {
    screen.get_by_label_contains(which).click();
    screen.run();
}

/// The list lies over the screen with these works, and no others.
#[track_caller]
fn lists(screen: &Harness<'_, Desk>, works: &[&str]) {
    assert_eq!(screen.state().view().page(), Some(&Page::LeftBehind));
    for work in [BAY, CAR, ROOM, LIST] {
        let is_there = screen.query_by_label_contains(work).is_some();
        assert_eq!(is_there, works.contains(&work), "{work}");
    }
}

fn escape(screen: &mut Harness<'_, Desk>) {
    screen.key_press(Key::Escape);
    screen.run();
}

#[test]
fn the_list_is_there_again_after_each_work_until_none_is_left() {
    let (home, mut screen) = begin("left-each");
    lists(&screen, &[BAY, CAR, ROOM, LIST]);
    take_up(&mut screen, CAR);
    lists(&screen, &[BAY, ROOM, LIST]);
    // The bay would take the car's place: that is asked about, and either answer leads back.
    take_up(&mut screen, BAY);
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::DropCar)));
    press(&mut screen, "Go on entering it");
    lists(&screen, &[BAY, ROOM, LIST]);
    take_up(&mut screen, BAY);
    press(&mut screen, "Drop the car");
    lists(&screen, &[BAY, ROOM, LIST]);
    assert!(screen.state().document().draft().is_none());
    take_up(&mut screen, BAY);
    lists(&screen, &[ROOM, LIST]);
    assert!(screen.state().document().is_changed(), "it is taken up");
    // What has a page of its own: closed, it is put aside.
    take_up(&mut screen, ROOM);
    assert!(matches!(screen.state().view().page(), Some(Page::NewBay(_))));
    escape(&mut screen);
    lists(&screen, &[LIST]);
    take_up(&mut screen, LIST);
    assert!(matches!(screen.state().view().page(), Some(Page::Visit(_))));
    escape(&mut screen);
    assert_eq!(screen.state().view().page(), None, "nothing is left");
    end(home, screen);
}

#[test]
fn staying_or_saving_first_leads_back_to_the_list() {
    let (home, mut screen) = begin("left-unsaved");
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    let at = |screen: &mut Harness<'_, Desk>| {
        take_up(screen, BAY);
        assert!(matches!(
            screen.state().view().page(),
            Some(Page::Ask(Question::Unsaved(Leaving::TakeUp(_))))
        ));
    };
    at(&mut screen);
    press(&mut screen, "Stay here");
    lists(&screen, &[BAY, CAR, ROOM, LIST]);
    // A name is asked for; stepping back from that is stepping back from what it was to lead to.
    at(&mut screen);
    press(&mut screen, "Save first");
    assert!(matches!(screen.state().view().page(), Some(Page::Save(_))));
    escape(&mut screen);
    lists(&screen, &[BAY, CAR, ROOM, LIST]);
    at(&mut screen);
    press(&mut screen, "Save first");
    let file = home.join("mine.ron").display().to_string();
    let Some(Page::Save(page)) = screen.state_mut().view_mut().page_mut() else {
        panic!("no name is asked for")
    };
    page.path.clone_from(&file);
    screen.run();
    press(&mut screen, "Save");
    assert!(Path::new(&file).exists());
    lists(&screen, &[CAR, ROOM, LIST]);
    assert!(screen.state().document().path().is_none(), "the one that was left is open");
    // What is on disk already: nothing is to be saved, and the list is there as before.
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("other.ron"), false)));
    lists(&screen, &[CAR, ROOM, LIST]);
    ask(&mut screen, Command::File(OfFile::Save));
    lists(&screen, &[CAR, ROOM, LIST]);
    end(home, screen);
}

#[test]
fn a_bay_that_is_made_or_dropped_leads_back_to_the_list() {
    let (home, mut screen) = begin("left-made");
    take_up(&mut screen, ROOM);
    press(&mut screen, "Make this bay");
    assert_eq!(screen.state().document().layout().bay.name, "Back bay");
    lists(&screen, &[BAY, CAR, LIST]);
    // Asked to close meanwhile: the list that was begun is dropped, the work on the bay is stayed with.
    take_up(&mut screen, LIST);
    ask(&mut screen, Command::Quit);
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::DropBegun(Begun::List))));
    press(&mut screen, "Close without it");
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::Unsaved(Leaving::Quit))));
    press(&mut screen, "Stay here");
    lists(&screen, &[BAY, CAR]);
    end(home, screen);
}

/// Closed by a person it waits in the menu: no page that is closed later leads back to it. What cannot be taken up stays in it.
#[test]
fn who_closes_the_list_is_not_led_back_to_it() {
    let (home, mut screen) = begin("left-closed");
    press(&mut screen, "Close");
    assert_eq!(screen.state().view().page(), None);
    ask(&mut screen, Command::File(OfFile::BeginBayAnyway));
    type_into(&mut screen, "Name of the bay", "Third bay");
    escape(&mut screen);
    assert_eq!(screen.state().view().page(), None);
    screen.get_by_label_contains("Bay: ").click();
    screen.run();
    press(&mut screen, "Work that was not saved");
    take_up(&mut screen, ROOM);
    screen.get_by_label_contains("Another bay is begun.");
    lists(&screen, &[BAY, CAR, ROOM, LIST]);
    take_up(&mut screen, CAR);
    lists(&screen, &[BAY, ROOM, LIST]);
    end(home, screen);
}
