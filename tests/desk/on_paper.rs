//! Sheets in the window: chosen, seen as they will be printed, saved.

use std::path::Path;
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::page::Page;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{home, press};
use crate::support::{clear, demo, usual};

/// Goes on frame by frame until this is so.
fn wait(screen: &mut Harness<'_, Desk>, what: &str, is_so: impl Fn(&Harness<'_, Desk>) -> bool) {
    let start = Instant::now();
    while !is_so(screen) {
        assert!(start.elapsed() < Duration::from_secs(60), "{what}");
        std::thread::sleep(Duration::from_millis(5));
        screen.step();
    }
    screen.run();
}

/// The page with what is printed, once its pages are made.
fn on_paper(desk: Desk) -> Harness<'static, Desk> {
    let mut screen = usual(desk);
    screen.key_press_modifiers(Modifiers::COMMAND, Key::P);
    screen.run();
    assert_eq!(screen.state().view().page(), Some(&Page::OnPaper));
    made(&mut screen);
    screen
}

fn made(screen: &mut Harness<'_, Desk>) {
    screen.step();
    wait(screen, "the pages", |screen| screen.state().pages_to_print().is_some());
}

fn seen(screen: &Harness<'_, Desk>) -> usize {
    screen.query_all_by_label_contains("Page ").count()
}

#[test]
fn the_sheets_that_are_chosen_are_seen_page_by_page() {
    let mut screen = on_paper(demo());
    let marks = screen.state().pages_to_print().unwrap();
    assert!(marks > 0);
    assert_eq!(seen(&screen), marks);
    screen.get_by_label_contains("Page 1 of");
    press(&mut screen, "Findings report");
    made(&mut screen);
    let both = screen.state().pages_to_print().unwrap();
    assert!(both > marks);
    assert_eq!(seen(&screen), both);
    press(&mut screen, "Mark sheet");
    press(&mut screen, "Findings report");
    made(&mut screen);
    assert_eq!(screen.state().pages_to_print(), Some(0));
    screen.get_by_label("Choose one sheet or more.");
    // What was chosen is there again, and nothing of the work was changed.
    press(&mut screen, "Mark sheet");
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(screen.state().view().page(), None);
    assert!(!screen.state().document().is_changed() && screen.state().undoes().is_none());
    screen.key_press_modifiers(Modifiers::COMMAND, Key::P);
    screen.run();
    made(&mut screen);
    assert_eq!(screen.state().pages_to_print(), Some(marks));
}

/// A file's own first bytes say what it is.
fn starts(path: &Path, with: &[u8]) -> bool {
    std::fs::read(path).is_ok_and(|own| own.starts_with(with))
}

#[test]
fn sheets_are_saved_as_their_names_end_and_replace_nothing_unasked() {
    let folder = home("on-paper");
    std::fs::create_dir_all(&folder).unwrap();
    let mut screen = on_paper(demo());
    let pages = screen.state().pages_to_print().unwrap();
    let save_as = |screen: &mut Harness<'_, Desk>, path: &Path| {
        let field = "The ending decides: .pdf is one file of all pages; .svg and .png are one for each page";
        let field = screen.get_by_role_and_label(Role::TextInput, field);
        field.click();
        screen.run();
        screen.key_press_modifiers(Modifiers::COMMAND, Key::A);
        screen.run();
        screen
            .get_by_role_and_label(
                Role::TextInput,
                "The ending decides: .pdf is one file of all pages; .svg and .png are one for each page",
            )
            .type_text(&path.display().to_string());
        screen.run();
        press(screen, "Save");
    };
    let pdf = folder.join("sheets.pdf");
    save_as(&mut screen, &pdf);
    wait(&mut screen, "the file", |screen| screen.query_by_label_contains("Written:").is_some());
    assert!(starts(&pdf, b"%PDF"));
    let before = std::fs::read(&pdf).unwrap();
    // Once more: it is there, and is replaced when that is said.
    std::fs::write(&pdf, "other").unwrap();
    press(&mut screen, "Save");
    wait(&mut screen, "the refusal", |screen| screen.query_by_label_contains("is there already").is_some());
    assert_eq!(std::fs::read(&pdf).unwrap(), b"other");
    press(&mut screen, "Replace it");
    wait(&mut screen, "the file", |screen| screen.query_by_label_contains("Written:").is_some());
    assert_eq!(std::fs::read(&pdf).unwrap(), before);
    // A picture of each page.
    save_as(&mut screen, &folder.join("sheet.png"));
    let png = if pages > 1 { folder.join("sheet-1.png") } else { folder.join("sheet.png") };
    wait(&mut screen, "a picture", |_| starts(&png, b"\x89PNG"));
    save_as(&mut screen, &folder.join("sheet.doc"));
    screen.get_by_label_contains("allowed are names that end in");
    assert!(!folder.join("sheet.doc").exists());
    clear(folder);
}
