//! Sheets in the window: chosen, seen as they will be printed, saved.

use std::path::Path;
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfFile, Over};
use baywright_desk::screen::page::Page;
use baywright_desk::session::document::Document;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::Arrangement;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

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
pub fn on_paper(desk: Desk) -> Harness<'static, Desk> {
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

/// Types where it is to be saved, and saves.
fn save_as(screen: &mut Harness<'_, Desk>, path: &Path) {
    type_path(screen, path);
    press(screen, "Save");
}

/// Types where it is to be saved.
pub fn type_path(screen: &mut Harness<'_, Desk>, path: &Path) {
    let field = |screen: &Harness<'_, Desk>| {
        let all: Vec<_> = screen.query_all_by_role(Role::TextInput).collect();
        let own = all.into_iter().find(|own| {
            own.accesskit_node().label().is_some_and(|name| name.starts_with("The ending decides"))
        });
        own.expect("where it is saved").rect().center()
    };
    let at = field(screen);
    screen.drag_at(at);
    screen.step();
    screen.drop_at(at);
    screen.run();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::A);
    screen.run();
    screen.event(egui::Event::Text(path.display().to_string()));
    screen.run();
}

/// Until the pages are made, and those in sight drawn in the screen's own dots.
pub fn settle(screen: &mut Harness<'_, Desk>) {
    wait(screen, "settled pages", |screen| screen.state().is_paper_settled());
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
    let pdf = folder.join("sheets.pdf");
    save_as(&mut screen, &pdf);
    wait(&mut screen, "the file", |screen| screen.query_by_label_contains("Written:").is_some());
    // By another's reader: as many pages as were seen, each as large as its paper.
    let read = lopdf::Document::load(&pdf).unwrap();
    assert_eq!(read.get_pages().len(), pages);
    for (number, page) in read.get_pages() {
        let sides = read.get_dictionary(page).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
        let side = |at: usize| f64::from(sides[at].as_float().unwrap()) / 72.0 * 25.4;
        let (width, height) = (side(2) - side(0), side(3) - side(1));
        assert!((width - 210.0).abs() < 0.1 && (height - 297.0).abs() < 0.1, "{number}: {width} {height}");
    }
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
    // What it would replace is named, file by file; the first alone is no answer for the second.
    if pages > 1 {
        let second = folder.join("sheet-2.png");
        wait(&mut screen, "all pictures", |screen| screen.query_by_label_contains("files written").is_some());
        std::fs::remove_file(&png).unwrap();
        press(&mut screen, "Save");
        wait(&mut screen, "the refusal", |screen| screen.query_by_label_contains("there already").is_some());
        screen.get_by_label_contains(&second.display().to_string());
        assert!(!png.exists(), "nothing is written in part");
    }
    // The picture is there before its end is told.
    wait(&mut screen, "the end", |screen| screen.state().is_paper_settled());
    save_as(&mut screen, &folder.join("sheet.doc"));
    screen.get_by_label_contains("allowed are names that end in");
    assert!(!folder.join("sheet.doc").exists());
    clear(folder);
}

/// The plan, marks and distances, and the answer as data are saved from the same page, without a sheet.
#[test]
fn data_for_other_programs_is_saved_under_the_same_name() {
    let folder = home("on-paper-data");
    let mut screen = on_paper(demo());
    press(&mut screen, "Mark sheet");
    made(&mut screen);
    save_as(&mut screen, &folder.join("bay.dxf"));
    for (press_of, ending) in [("", "dxf"), ("Marks (CSV)", "csv"), ("All (JSON)", "json")] {
        if !press_of.is_empty() {
            press(&mut screen, press_of);
        }
        let path = folder.join("bay").with_extension(ending);
        wait(&mut screen, ending, |_| path.exists());
        wait(&mut screen, ending, |screen| screen.state().is_paper_settled());
    }
    baywright_files::read_dxf(&folder.join("bay.dxf")).unwrap();
    let table = std::fs::read_to_string(folder.join("bay.csv")).unwrap();
    assert!(table.starts_with("set_up,space,kind,name") && table.contains("tape-reading"), "{table}");
    let data: serde_json::Value =
        serde_json::from_slice(&std::fs::read(folder.join("bay.json")).unwrap()).unwrap();
    let set_ups = data["set_ups"].as_array().unwrap();
    assert_eq!(set_ups.len(), screen.state().document().layout().arrangements.len());
    clear(folder);
}

/// The layout, the picture under its plan and the shop's are never replaced, whatever is answered.
#[test]
fn what_it_is_made_from_is_never_replaced() {
    let folder = home("on-paper-input");
    let mut screen = crate::by_hand::with_a_picture(&folder);
    let picture = std::fs::read(folder.join("plan.png")).unwrap();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::P);
    screen.run();
    press(&mut screen, "Mark sheet");
    press(&mut screen, "Mark sheet, to fill in");
    made(&mut screen);
    assert_eq!(screen.state().pages_to_print(), Some(1), "what this test is made for");
    let ctx = screen.ctx.clone();
    for over in [Over::Nothing, Over::Named, Over::All] {
        screen.state_mut().ask(&ctx, Command::File(OfFile::SaveSheets(folder.join("plan.png"), over)));
        screen.step();
        wait(&mut screen, "the end", |screen| screen.state().is_paper_settled());
        screen.get_by_label_contains("it is what this is made from");
        assert!(screen.query_by_label("Replace it").is_none());
        assert_eq!(std::fs::read(folder.join("plan.png")).unwrap(), picture);
    }
    drop(screen);
    clear(folder);
}

/// Where there is no room for a file, its sentence is read, and which were written before it.
#[test]
fn what_could_not_be_written_is_said_with_what_was() {
    let folder = home("on-paper-failed");
    let mut screen = on_paper(demo());
    press(&mut screen, "Findings report");
    made(&mut screen);
    let pages = screen.state().pages_to_print().unwrap();
    assert!(pages > 1);
    // A folder lies where the second page would be.
    let names: Vec<_> = (1..=pages).map(|at| folder.join(format!("s-{at}.svg"))).collect();
    let several = if pages > 9 { folder.join("s-02.svg") } else { names[1].clone() };
    std::fs::create_dir_all(&several).unwrap();
    let ctx = screen.ctx.clone();
    screen.state_mut().ask(&ctx, Command::File(OfFile::SaveSheets(folder.join("s.svg"), Over::All)));
    wait(&mut screen, "the refusal", |screen| {
        screen.query_by_label_contains("Written before that:").is_some()
    });
    screen.get_by_label_contains(&several.display().to_string());
    assert!(screen.query_by_label("Replace it").is_none(), "that would not help");
    save_as(&mut screen, Path::new("/no-such-folder/sheets.pdf"));
    wait(&mut screen, "the refusal", |screen| screen.query_by_label_contains("/no-such-folder").is_some());
    clear(folder);
}

/// What is to be printed cannot be written: that is said, and nothing is given to the system.
#[test]
fn what_could_not_be_printed_is_said() {
    let home = home("on-paper-print");
    let mut screen = crate::sessions::start(&home);
    screen.key_press_modifiers(Modifiers::COMMAND, Key::P);
    screen.run();
    made(&mut screen);
    // A folder lies where the PDF would be.
    std::fs::create_dir_all(home.join("printed/crowded-bay.pdf")).unwrap();
    press(&mut screen, "Open to print");
    wait(&mut screen, "the refusal", |screen| {
        screen.query_by_label_contains("printed/crowded-bay.pdf: ").is_some()
    });
    assert!(screen.query_by_label("Replace it").is_none());
    drop(screen);
    clear(home);
}

/// Nothing is printed of an answer that is older than what is drawn.
#[test]
fn nothing_is_printed_of_an_older_answer() {
    let assess = |arrangement: &Arrangement| {
        let parked = arrangement.parked.origin().x;
        assert!(parked < 6_000.0, "planted");
        baywright_planner::assess(arrangement)
    };
    let document = Document::open(Path::new("crowded-bay"), crate::support::today()).unwrap();
    let mut screen = on_paper(Desk::with(document, assess).unwrap());
    let pages = screen.state().pages_to_print();
    assert!(pages > Some(0));
    let ctx = screen.ctx.clone();
    let park = Edit::Park(PlanPose::new(DVec2::new(7_000.0, 3_000.0), 0.0));
    screen.state_mut().ask(&ctx, Command::Bay(OfBay::Edit(park)));
    made(&mut screen);
    assert!(screen.state().answer().stale, "what this test is made for");
    assert_eq!(screen.state().pages_to_print(), Some(0));
    assert!(screen.get_by_role_and_label(Role::Button, "Open to print").accesskit_node().is_disabled());
    assert!(screen.get_by_role_and_label(Role::Button, "Marks (CSV)").accesskit_node().is_disabled());
    screen.state_mut().ask(&ctx, Command::Undo);
    made(&mut screen);
    assert_eq!(screen.state().pages_to_print(), pages);
}

/// Nothing is saved of pages that are others by now: the system's window may have been open meanwhile.
#[test]
fn what_was_not_seen_is_not_saved() {
    let folder = home("on-paper-stale");
    let mut screen = on_paper(demo());
    let ctx = screen.ctx.clone();
    let path = folder.join("late.pdf");
    screen.get_by_label("Findings report").click();
    screen.step();
    // In the frame in which another sheet was chosen its pages are not made yet.
    screen.state_mut().ask(&ctx, Command::File(OfFile::SaveSheets(path.clone(), Over::Named)));
    screen.step();
    screen.get_by_label_contains("Nothing was saved: the pages are others by now.");
    made(&mut screen);
    assert!(!path.exists());
    // A file of that very name was asked about by the system.
    std::fs::write(&path, "other").unwrap();
    screen.state_mut().ask(&ctx, Command::File(OfFile::SaveSheets(path.clone(), Over::Named)));
    wait(&mut screen, "the file", |_| starts(&path, b"%PDF"));
    clear(folder);
}

/// Pages are scrolled and sized by keys, and drawn in the screen's own dots.
#[test]
fn pages_are_looked_at_by_keys() {
    let mut screen = on_paper(demo());
    let first = |screen: &Harness<'_, Desk>| screen.get_by_label_contains("Page 1 of").rect();
    let before = first(&screen);
    for key in [Key::Plus, Key::Plus] {
        screen.key_press(key);
        screen.run();
    }
    let larger = first(&screen);
    assert!((larger.width() / before.width() - 1.25 * 1.25).abs() < 0.01, "{before} {larger}");
    screen.key_press(Key::PageDown);
    screen.run();
    let down = first(&screen);
    assert!(down.top() < larger.top() - 100.0, "{larger} {down}");
    screen.key_press(Key::PageUp);
    screen.run();
    assert_eq!(first(&screen).top(), larger.top());
    // Tab leads there, and arrows scroll.
    screen.get_by_label("Pages, to scroll").focus();
    screen.step();
    screen.key_press(Key::ArrowDown);
    screen.run();
    assert_eq!(first(&screen).top(), larger.top() - 40.0);
    screen.key_press(Key::Minus);
    screen.run();
    assert!(first(&screen).width() < larger.width());
    wait(&mut screen, "sharp pages", |screen| screen.state().is_paper_settled());
}

/// From the page for the customer one press leads to the same on paper.
#[test]
fn the_customers_page_leads_to_paper() {
    let mut screen = usual(demo());
    for by_key in [false, true] {
        screen.key_press(Key::F5);
        screen.run();
        if by_key {
            screen.key_press_modifiers(Modifiers::COMMAND, Key::P);
            screen.run();
        } else {
            press(&mut screen, "On paper \u{2026}");
        }
        assert_eq!(screen.state().view().page(), Some(&Page::OnPaper));
        made(&mut screen);
        assert!(screen.state().pages_to_print() > Some(0));
        screen.key_press(Key::Escape);
        screen.run();
        assert_eq!(
            screen.state().view().page(),
            Some(&Page::Customer(0)),
            "one goes back to where one came from"
        );
        screen.key_press(Key::Escape);
        screen.run();
        assert_eq!(screen.state().view().page(), None);
    }
}
