//! What saving asks, says and proposes: a file that another window has, one that holds all of it, one that somebody else changed;
//! work that an earlier session left.

use std::path::{Path, PathBuf};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfFile};
use baywright_desk::screen::page::{Page, Question};
use baywright_planner::model::ThingKind;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::hand::press_at;
use crate::sessions::{after_the_end, ask, home, press, start};
use crate::support::{desk, usual};

fn ctrl_s(screen: &mut Harness<'_, Desk>) {
    screen.key_press_modifiers(Modifiers::COMMAND, Key::S);
    screen.run();
}

fn change(screen: &mut Harness<'_, Desk>) {
    ask(screen, Command::Bay(OfBay::Add(ThingKind::Bin)));
    assert!(screen.state().document().is_changed());
}

/// A window on a file, with the same home as others.
fn window(home: &Path, file: &Path) -> Harness<'static, Desk> {
    let mut own = desk(file, None);
    own.live_in(home.to_owned());
    own.keep_everything();
    usual(own)
}

fn saved_bay(home: &Path) -> (Harness<'static, Desk>, PathBuf) {
    let mut screen = start(home);
    let path = home.join("bay.ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(path.clone(), false)));
    (screen, path)
}

fn text(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap()
}

#[test]
fn a_window_that_was_told_the_file_is_open_elsewhere_asks_before_it_saves() {
    let home = home("elsewhere");
    let (first, path) = saved_bay(&home);
    let before = text(&path);
    let mut second = window(&home, &path);
    second.get_by_label_contains("open in another window too");
    change(&mut second);
    ctrl_s(&mut second);
    assert_eq!(second.state().view().page(), Some(&Page::Ask(Question::OpenElsewhere)));
    press(&mut second, "Stay here");
    assert!(second.state().document().is_changed());
    assert_eq!(text(&path), before, "nothing was written");
    // Under another name, which is a free one beside it.
    ctrl_s(&mut second);
    press(&mut second, "Save as \u{2026}");
    let Some(Page::Save(page)) = second.state().view().page() else { panic!() };
    assert_eq!(Path::new(&page.path), home.join("bay 2.ron"));
    ask(&mut second, Command::Page(None));
    // All the same: then it is written, and the first one asks in its turn.
    ctrl_s(&mut second);
    press(&mut second, "Save it all the same");
    assert!(!second.state().document().is_changed() && text(&path) != before);
    let mut first = first;
    let between = text(&path);
    change(&mut first);
    ctrl_s(&mut first);
    assert_eq!(first.state().view().page(), Some(&Page::Ask(Question::ChangedOnDisk)));
    assert_eq!(text(&path), between);
    // Once the first window is closed nothing is asked any more.
    first.state_mut().wait_until_kept();
    drop(first);
    change(&mut second);
    ctrl_s(&mut second);
    assert!(second.state().view().page().is_none() && !second.state().document().is_changed());
    second.state_mut().wait_until_kept();
    drop(second);
    crate::support::clear(home);
}

#[test]
fn what_is_on_disk_as_it_is_is_not_written_again() {
    let home = home("nothing-to-save");
    let (mut screen, path) = saved_bay(&home);
    // A comment by hand, and the file opened so.
    std::fs::write(&path, format!("// Mine.\n{}", text(&path))).unwrap();
    ask(&mut screen, Command::File(OfFile::OpenAnyway(path.clone())));
    let before = text(&path);
    ctrl_s(&mut screen);
    screen.get_by_label_contains("Nothing to save");
    assert_eq!(text(&path), before);
    assert!(!home.join("bay.ron.bak").exists());
    // What was changed and undone is nothing either; what was changed is saved, with its comment put aside.
    change(&mut screen);
    ask(&mut screen, Command::Undo);
    ctrl_s(&mut screen);
    assert_eq!(text(&path), before);
    change(&mut screen);
    ctrl_s(&mut screen);
    assert!(text(&path) != before && home.join("bay.ron.bak").exists());
    // One that is gone is asked about, though nothing was changed.
    std::fs::remove_file(&path).unwrap();
    ctrl_s(&mut screen);
    assert_eq!(screen.state().view().page(), Some(&Page::Ask(Question::GoneFromDisk)));
    screen.state_mut().wait_until_kept();
    drop(screen);
    crate::support::clear(home);
}

#[test]
fn after_a_conflict_a_free_name_is_proposed() {
    let home = home("free-name");
    let (mut screen, path) = saved_bay(&home);
    std::fs::write(home.join("bay 2.ron"), "somebody's own").unwrap();
    change(&mut screen);
    std::fs::write(&path, text(&path).replace("waste bin", "paper bin")).unwrap();
    ctrl_s(&mut screen);
    press(&mut screen, "Save as \u{2026}");
    let proposed = |screen: &Harness<'_, Desk>| match screen.state().view().page() {
        Some(Page::Save(page)) => PathBuf::from(&page.path),
        other => panic!("{other:?}"),
    };
    assert_eq!(proposed(&screen), home.join("bay 3.ron"));
    // A name that was typed and is taken is asked about; another one is free.
    ask(&mut screen, Command::File(OfFile::SaveAs(home.join("bay 2.ron"), false)));
    press(&mut screen, "Another name");
    assert_eq!(proposed(&screen), home.join("bay 3.ron"));
    screen.key_press(Key::Enter);
    screen.run();
    assert!(home.join("bay 3.ron").exists() && text(&home.join("bay 2.ron")) == "somebody's own");
    screen.state_mut().wait_until_kept();
    drop(screen);
    crate::support::clear(home);
}

#[test]
fn work_that_was_not_saved_stays_in_sight_until_it_is_answered() {
    let home = home("stays");
    let (mut screen, path) = saved_bay(&home);
    change(&mut screen);
    screen.state_mut().wait_until_kept();
    drop(screen);
    // Somebody else saves to the file meanwhile.
    std::fs::write(&path, text(&path).replace("waste bin", "paper bin")).unwrap();
    let mut screen = after_the_end(&home);
    screen.get_by_label_contains("was saved again since then");
    press_at(&mut screen, egui::pos2(6.0, 880.0), Modifiers::NONE);
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(screen.state().view().page(), Some(&Page::LeftBehind), "it stays");
    // Closed by its own press it is kept, and offered where that says.
    press(&mut screen, "Close");
    assert!(screen.state().view().page().is_none());
    screen.get_by_label_contains("offered under Bay");
    screen.get_by_label_contains("Bay: ").click();
    screen.run();
    press(&mut screen, "Work that was not saved");
    press(&mut screen, "Discard: Bay: Crowded bay");
    assert!(screen.state().view().page().is_none());
    screen.state_mut().wait_until_kept();
    drop(screen);
    crate::support::clear(home);
}
