//! The first start, and the next ones: what the window begins with.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfFile};
use baywright_desk::screen::page::Page;
use baywright_desk::session::first::First;
use baywright_files::WINDOW_FILE;
use baywright_planner::model::JudgedBy;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home, press};
use crate::support::{today, usual};

const DEMO: &str = "crowded-bay";

pub fn first(home: &Path) -> First {
    asked(home, None)
}

fn asked(home: &Path, layout: Option<&Path>) -> First {
    First::of(Some(home), layout, Path::new(DEMO), JudgedBy::from(today())).unwrap()
}

/// A window as the program opens it, in a home of its own.
pub fn window(home: &Path, first: First) -> Harness<'static, Desk> {
    let mut desk = Desk::new(first.document).expect("an answer");
    desk.live_in(home.to_owned());
    desk.begin_with(first.remembered, first.is_new, &first.why_not);
    desk.keep_everything();
    usual(desk)
}

#[test]
fn the_first_start_says_what_it_shows_and_where_ones_own_begins() {
    for (way, leads_to) in [
        ("Enter my car", "a car"),
        ("Open my bay", "a file"),
        ("Draw my bay", "a room"),
        ("Look round the invented shop", ""),
    ] {
        let home = home("first");
        assert!(first(&home).is_new);
        let mut screen = window(&home, first(&home));
        screen.get_by_label("This is an invented shop");
        press(&mut screen, way);
        let page = screen.state().view().page();
        match leads_to {
            "a car" => assert!(screen.state().document().draft().is_some() && page.is_none()),
            "a file" => assert!(matches!(page, Some(Page::Open(_)))),
            "a room" => assert!(matches!(page, Some(Page::NewBay(_)))),
            _ => assert_eq!(page, None),
        }
        // Only the first time.
        drop(screen);
        let next = first(&home);
        assert!(!next.is_new);
        assert_eq!(next.document.layout().bay.name, "Crowded bay");
        crate::support::clear(home);
    }
}

#[test]
fn the_next_start_begins_with_the_last_bay_and_set_up() {
    let home = home("next");
    let path = home.join("mine.ron");
    std::fs::copy(Path::new(env!("CARGO_MANIFEST_DIR")).join("bay-layouts/crowded-bay.ron"), &path).unwrap();
    // Whoever asks for a file is not told what the program is.
    let named = asked(&home, Some(&path));
    assert!(!named.is_new);
    let mut screen = window(&home, named);
    assert_eq!(screen.state().view().page(), None);
    let other = screen.state().document().layout().arrangements[1].id.clone();
    ask(&mut screen, Command::Bay(OfBay::Show(other.clone())));
    drop(screen);
    let again = first(&home);
    assert!(!again.is_new && again.why_not.is_empty());
    assert_eq!((again.document.path(), again.document.shown()), (Some(path.as_path()), &other));

    // A built-in bay is one, too.
    drop(window(&home, asked(&home, Some(Path::new("clear-bay")))));
    assert_eq!(first(&home).document.layout().bay.name, "Clear bay");
    // A bay that was made and never saved can be opened nowhere.
    drop(window(&home, asked(&home, Some(&path))));
    let mut screen = window(&home, first(&home));
    let mut made = baywright_planner::model::Layout::clone(screen.state().document().layout());
    made.bay.id = "made-here".into();
    ask(&mut screen, Command::File(OfFile::NewBay(Box::new(made))));
    assert_eq!(screen.state().document().path(), None);
    drop(screen);
    assert_eq!(first(&home).document.path(), Some(path.as_path()));
    crate::support::clear(home);
}

#[test]
fn what_cannot_be_opened_any_more_is_told_and_the_demo_stands_in_for_it() {
    let home = home("gone");
    let path = home.join("mine.ron");
    std::fs::copy(Path::new(env!("CARGO_MANIFEST_DIR")).join("bay-layouts/clear-bay.ron"), &path).unwrap();
    drop(window(&home, asked(&home, Some(&path))));
    assert_eq!(first(&home).document.layout().bay.name, "Clear bay");
    std::fs::remove_file(&path).unwrap();
    let gone = first(&home);
    assert!(!gone.is_new && !gone.why_not.is_empty());
    assert_eq!(gone.document.layout().bay.name, "Crowded bay");
    let screen = window(&home, gone);
    assert_eq!(screen.state().view().page(), None);
    screen.get_by_label_contains("mine.ron");
    drop(screen);

    // Nor is anything guessed from what is damaged; it begins anew.
    std::fs::write(home.join(WINDOW_FILE), "(version: 1, last").unwrap();
    let damaged = first(&home);
    assert!(!damaged.is_new && damaged.why_not.len() == 1);
    assert_eq!(damaged.document.layout().bay.name, "Crowded bay");
    drop(window(&home, damaged));
    assert!(first(&home).why_not.is_empty());
    crate::support::clear(home);
}
