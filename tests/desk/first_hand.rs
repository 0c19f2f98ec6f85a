//! Where a hand stumbles that has the program before it for the first time: what is said and not true any more, what moves under the
//! pointer, what leads nowhere, what is asked for nothing.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfFile, OfView};
use baywright_desk::screen::page::{Compare, Page};
use baywright_desk::screen::view::{Letters, Measuring, Tool};
use baywright_drawing::{Fit, Lettering, Projection, ViewState, picture};
use baywright_planner::Subject;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Thing;
use baywright_planner::words::{Units, letter};
use egui::{Event, Key, Modifiers, Rect, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::{ask, home, press, start};
use crate::support::{demo, drag, middle, screen, usual, wheel};
use crate::typing::{car, happen, key, letters, new_car};

fn said(screen: &Harness<'_, Desk>) -> String {
    screen.state().view().notice.as_ref().map_or_else(String::new, |notice| notice.text.clone())
}

/// The letters of what was found, in the order of the list.
fn lettered(screen: &Harness<'_, Desk>) -> Vec<String> {
    let answer = screen.state().answer();
    (0..answer.assessment.findings.len()).filter_map(|at| answer.letter(at)).collect()
}

fn in_order(count: usize) -> Vec<String> {
    (1..=count).map(letter).collect()
}

#[test]
fn what_was_said_goes_with_the_next_act() {
    let mut screen = usual(demo());
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run();
    assert!(said(&screen).starts_with("Nothing to undo"), "{}", said(&screen));
    // To look about makes nothing untrue.
    wheel(&mut screen, egui::pos2(600.0, 300.0), 1.0);
    assert!(said(&screen).starts_with("Nothing to undo"), "{}", said(&screen));
    let from = middle(&screen, "the trolley, top view");
    drag(&mut screen, from, from + Vec2::new(0.0, 60.0));
    assert_eq!(said(&screen), "", "something can be undone now");
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Minus);
    screen.run();
    assert!(said(&screen).contains("usual size"), "{}", said(&screen));
    ask(&mut screen, Command::View(OfView::Letters(Letters::LARGE)));
    assert_eq!(said(&screen), "");
    // What was refused is not wiped away by what only looks elsewhere, but by the next change.
    ask(&mut screen, Command::Say("It cannot be.".to_owned()));
    ask(&mut screen, Command::View(OfView::Select(None)));
    assert_eq!(said(&screen), "It cannot be.");
    ask(&mut screen, Command::Undo);
    assert_eq!(said(&screen), "");
}

#[test]
fn a_list_reads_from_a_on_whenever_nothing_is_held() {
    let mut screen = usual(demo());
    let before = lettered(&screen);
    assert_eq!(before, in_order(before.len()));
    press(&mut screen, "Do all of this");
    let after = lettered(&screen);
    assert!(after.len() < before.len());
    assert_eq!(after, in_order(after.len()));
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run();
    assert_eq!(lettered(&screen), before);
    // Let go of where it is out of the way: the same.
    let from = middle(&screen, "the tool cabinet, top view");
    drag(&mut screen, from, from - Vec2::new(0.0, 40.0));
    let after = lettered(&screen);
    assert_eq!(after, in_order(after.len()));
    // A picture that stands alone says the same for who cannot see it.
    let answer = screen.state().answer();
    let (state, fit) = (ViewState::default(), Fit::Whole { width: 900.0, most_height: 600.0 });
    let page =
        picture(&answer.judged, &answer.assessment, &state, &[Projection::Top], fit, &Lettering::default());
    assert!(page.description.contains(" A: ") && page.description.contains(" B: "), "{}", page.description);
    assert!(!page.description.contains(" 1: "), "{}", page.description);
}

#[test]
fn ticks_stay_under_the_pointer_and_are_kept() {
    let home = home("ticks");
    let mut screen = start(&home);
    ask(&mut screen, Command::BeginVisit);
    let Some(Page::Visit(page)) = screen.state().view().page().cloned() else { panic!("no page") };
    let titles: Vec<String> = page.list.triggers.iter().map(|own| own.title.clone()).collect();
    let places = |screen: &Harness<'_, Desk>| -> Vec<Rect> {
        titles.iter().map(|title| screen.get_by_label(title).rect()).collect()
    };
    let before = places(&screen);
    for title in &titles {
        screen.get_by_label(title).click();
        screen.run();
        assert_eq!(places(&screen), before, "after {title}");
    }
    // Scrolled to its end and left by Escape: come back to, it begins at its beginning, and nothing was forgotten.
    wheel(&mut screen, egui::pos2(720.0, 400.0), -200.0);
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(screen.state().view().page(), None);
    ask(&mut screen, Command::BeginVisit);
    let Some(Page::Visit(again)) = screen.state().view().page().cloned() else { panic!("no page") };
    assert_eq!(again.chosen.len(), titles.len());
    assert_eq!(places(&screen), before);
    // Taken, they are done; and another car is in for something else.
    screen.get_by_label("Aim these, in this order").scroll_to_me();
    screen.run();
    press(&mut screen, "Aim these, in this order");
    ask(&mut screen, Command::BeginVisit);
    let chosen = |screen: &Harness<'_, Desk>| match screen.state().view().page() {
        Some(Page::Visit(page)) => page.chosen.len(),
        other => panic!("{other:?}"),
    };
    assert_eq!(chosen(&screen), 0);
    screen.get_by_label(&titles[0]).click();
    screen.run();
    screen.key_press(Key::Escape);
    screen.run();
    ask(&mut screen, Command::Bay(OfBay::ChooseCar("example-saloon".into())));
    ask(&mut screen, Command::BeginVisit);
    assert_eq!(chosen(&screen), 0);
    drop(screen);
    crate::support::clear(home);
}

fn thing(screen: &Harness<'_, Desk>, name: &str) -> Thing {
    let things = &screen.state().answer().arrangement.bay.things;
    things.iter().find(|own| own.id.as_str() == name).cloned().unwrap()
}

#[test]
fn a_taped_distance_is_entered_of_what_is_locked() {
    for large in [false, true] {
        let mut screen = screen(demo(), Vec2::new(1280.0, 720.0), 1.0);
        if large {
            screen.state_mut().view_mut().letters = Letters::LARGE;
            screen.run();
        }
        assert!(thing(&screen, "column").locked);
        let findings = &screen.state().answer().assessment.findings;
        let taped = |own: &baywright_planner::Finding| {
            own.cure.as_ref().is_some_and(|cure| matches!(cure.step, baywright_planner::Step::Tape { .. }))
        };
        let at = findings.iter().position(taped).expect("a place is to be taped");
        ask(&mut screen, Command::Bay(OfBay::Cure(at)));
        assert!(!said(&screen).contains("locked"), "{}", said(&screen));
        let focused = screen.ctx.memory(egui::Memory::focused).expect("a field has the keyboard");
        let place = screen.ctx.read_response(focused).unwrap();
        assert!(place.interact_rect.height() > 0.9 * place.rect.height(), "it is in sight: {:?}", place.rect);
        let before = thing(&screen, "column").place;
        happen(&mut screen, &[letters("1234"), key(Key::Enter)].concat(), 1);
        let after = thing(&screen, "column").place;
        assert!(before.at.origin().distance(after.at.origin()) > 1.0, "it stands where the tape has it");
        assert!(thing(&screen, "column").locked, "and the hand still leaves it alone");
    }
}

#[test]
fn letters_in_an_open_menu_begin_nothing() {
    let mut screen = usual(demo());
    for menu in ["Car: ", "mm \u{25bc}"] {
        screen.get_all_by_label_contains(menu).next().expect("it is in the bar").click();
        screen.run();
        assert!(egui::Popup::is_any_open(&screen.ctx), "{menu}");
        for pace in [1, 1_000] {
            happen(&mut screen, &letters("mk0m"), pace);
            assert_eq!(screen.state().view().tool, Tool::WhichSide, "{menu}");
        }
        screen.key_press(Key::Escape);
        screen.run();
        // All in one frame: the letter comes after the press that opens it.
        let pos = screen.get_all_by_label_contains(menu).next().unwrap().rect().center();
        let press = |pressed| Event::PointerButton {
            pos,
            button: egui::PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        };
        let at_once = [vec![Event::PointerMoved(pos), press(true), press(false)], letters("m")].concat();
        happen(&mut screen, &at_once, 1_000);
        assert!(egui::Popup::is_any_open(&screen.ctx), "{menu}");
        assert_eq!(screen.state().view().tool, Tool::WhichSide, "{menu}");
        screen.key_press(Key::Escape);
        screen.run();
    }
    // What was taken up is laid down by who goes elsewhere.
    let measure = || Command::View(OfView::Tool(Tool::Measure(Measuring::default())));
    ask(&mut screen, measure());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    assert_eq!(screen.state().view().tool, Tool::WhichSide);
    ask(&mut screen, Command::Car(OfCar::DropAnyway));
    ask(&mut screen, measure());
    screen.key_press(Key::F1);
    screen.run();
    assert_eq!(screen.state().view().tool, Tool::WhichSide);
}

#[test]
fn escape_in_a_field_takes_back_what_was_typed_and_no_more() {
    for pace in [1, 3] {
        let mut screen = usual(demo());
        new_car(&mut screen);
        let before = car(&screen).length_mm;
        happen(&mut screen, &[letters("4"), letters("5"), key(Key::Escape)].concat(), pace);
        assert_eq!(car(&screen).length_mm, before);
        let length = screen.get_by_label("Length").accesskit_node().value().unwrap_or_default();
        assert!(!length.starts_with("45"), "{length}");
        // What is typed next is typed here.
        happen(&mut screen, &[letters("4512"), key(Key::Enter)].concat(), pace);
        assert_eq!(car(&screen).length_mm, 4_512.0, "{pace}");
        // Where nothing was typed it lets go, as ever.
        happen(&mut screen, &key(Key::Escape), 1);
        assert!(!screen.ctx.text_edit_focused());
        assert_eq!(screen.state().view().tool, Tool::WhichSide);
    }
}

#[test]
fn what_cannot_be_opened_asks_for_nothing() {
    let home = home("cannot-open");
    let mut screen = start(&home);
    let from = middle(&screen, "the trolley, top view");
    drag(&mut screen, from, from + Vec2::new(0.0, 60.0));
    let car = Path::new(env!("CARGO_MANIFEST_DIR")).join("vehicle-profiles/example-van.ron");
    let bad = home.join("hello.ron");
    std::fs::write(&bad, "hello").unwrap();
    for (path, why) in [(&car, "this is a car, not a bay"), (&bad, "saved by this program")] {
        ask(&mut screen, Command::File(OfFile::Open(path.clone())));
        let Some(Page::Open(page)) = screen.state().view().page() else {
            panic!("{:?}", screen.state().view().page())
        };
        let [fault] = page.faults.as_slice() else { panic!("{:?}", page.faults) };
        assert!(fault.contains(why), "{fault}");
        ask(&mut screen, Command::Page(None));
        assert!(screen.state().document().is_changed());
    }
    // What can be is asked about first.
    ask(&mut screen, Command::File(OfFile::Open("clear-bay".into())));
    assert!(matches!(screen.state().view().page(), Some(Page::Ask(_))));
    drop(screen);
    crate::support::clear(home);
}

#[test]
fn sizes_of_targets_are_in_the_unit_that_is_shown_and_cars_go_by_their_names() {
    let mut screen = usual(demo());
    let ready = |screen: &Harness<'_, Desk>| {
        let answer = screen.state().answer();
        let locale = screen.state().view().locale;
        let words = baywright_planner::words::Words::new(&answer.judged, locale);
        let all = answer.assessment.findings.iter().map(|own| words.line(own));
        all.filter(|line| {
            line.contains("500 ×") || line.contains("steel tape") || line.contains("plate target")
        })
        .collect::<Vec<_>>()
        .join("; ")
    };
    assert!(ready(&screen).contains("500 × 500 mm"), "{}", ready(&screen));
    ask(&mut screen, Command::View(OfView::Units(Units::FeetInches)));
    assert!(!ready(&screen).contains("500"), "{}", ready(&screen));
    assert!(ready(&screen).contains("steel tape 10 m"), "{}", ready(&screen));
    ask(&mut screen, Command::Bay(OfBay::ChooseCar("example-saloon".into())));
    let (undo, name) = (screen.state().undoes().unwrap(), &screen.state().answer().arrangement.vehicle.name);
    assert!(undo.contains(name.as_str()) && !undo.contains("example-saloon"), "{undo}");
}

#[test]
fn corners_in_feet_are_typed_as_every_other_length() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Units(Units::FeetInches)));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    let room = |screen: &Harness<'_, Desk>| screen.state().answer().arrangement.bay.room.outer().to_vec();
    let before = room(&screen);
    let role = egui::accesskit::Role::MultilineTextInput;
    let shown = screen.get_by_role_and_label(role, "Corners").accesskit_node().value().unwrap_or_default();
    assert!(shown.contains('\u{2032}'), "in feet: {shown}");
    assert!(screen.query_by_label_contains("in inches, such as").is_some(), "the hint names the unit");
    // One corner 12 inches further out, the others as they stand there: none of them moves by what is not shown of it.
    let mut lines: Vec<String> = shown.lines().map(str::to_owned).collect();
    let wanted = before[2] + DVec2::new(304.8, 0.0);
    lines[2] = format!("{}; {} mm", wanted.x / 25.4, wanted.y);
    crate::support::paste_over(&mut screen, "Corners", &lines.join("\n"));
    let after = room(&screen);
    assert!(after[2].distance(wanted) < 1e-6, "{after:?}");
    assert!((0..before.len()).filter(|at| *at != 2).all(|at| after[at] == before[at]), "{after:?}");
}

#[test]
fn a_large_window_and_a_small_one_show_what_there_is() {
    // The list takes what the figures leave over.
    let mut large = screen(demo(), Vec2::new(2560.0, 1440.0), 1.0);
    ask(&mut large, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
    let things = large.state().answer().arrangement.bay.things.clone();
    for own in &things {
        let name = baywright_planner::words::sentence_start(own.id.as_str());
        let row = large.get_all_by_label_contains(&format!("{name}, ")).next().unwrap().rect();
        assert!(row.bottom() < 1_440.0, "{name}: {row:?}");
    }
    let lowest = large.get_by_label("Remove").rect().bottom();
    assert!(lowest > 1_100.0, "its figures end at {lowest}: a third of the panel is empty");
    // What lies below the fold is told.
    let mut small = usual(demo());
    small.state_mut().view_mut().letters = Letters::LARGE;
    small.run();
    ask(&mut small, Command::Bay(OfBay::Duplicate));
    press(&mut small, "Do all of this");
    ask(&mut small, Command::Page(Some(Page::Compare(Compare::default()))));
    let all = small.ctx.content_rect();
    let show = small.get_by_label("Show this one").rect();
    let more = small.get_by_label("More below ↓").rect();
    assert!(all.contains_rect(show) && all.contains_rect(more) && show.bottom() < more.top());
    for _ in 0..6 {
        if let Some(more) = small.query_by_label("More below ↓") {
            more.click();
            small.run();
        }
    }
    assert!(small.query_by_label("More below ↓").is_none(), "the end is reached");
    assert!(small.get_by_label_contains("In both").rect().top() < more.top());
}
