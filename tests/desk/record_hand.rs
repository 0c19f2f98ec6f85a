//! The record by hand: what is chosen is seen before it is entered, what was entered is taken back, boxes are walked through in their order
//! and keep their places.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::Command;
use baywright_desk::screen::page::Page;
use baywright_desk::screen::record::{OfRecord, Side};
use baywright_planner::model::record::{RoutineResult, StepId, StepKind, What};
use baywright_planner::record::Holds;
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::record::{at, begun, on_to, pad, record, says, settle};
use crate::sessions::ask;

fn go(screen: &mut Harness<'_, Desk>, kind: StepKind) {
    let aiming = screen.state().answer().arrangement.aiming.id.clone();
    let step = if kind.is_of_aiming() { StepId::of_aiming(kind, aiming) } else { StepId::of_visit(kind) };
    ask(screen, Command::Record(OfRecord::Go(step)));
    screen.run_steps(4);
}

/// Ride heights without a figure are gone past, whatever the profile says of them.
#[test]
fn ride_heights_without_a_figure_are_not_done() {
    let (folder, mut screen) = begun("no-heights", "clear-bay");
    go(&mut screen, StepKind::RideHeights);
    pad(&mut screen, "\n\n\n\n");
    assert_eq!(at(&screen).kind, StepKind::Alignment);
    let own = record(&screen);
    let step = StepId::of_visit(StepKind::RideHeights);
    assert!(matches!(Holds::of(&own).step(&step).unwrap().what, What::GonePast { open: 4, .. }));
    // In the list it stands in the middle of a line.
    assert!(says(&screen, "Ride heights, gone past, 4 figures open"));
    drop(screen);
    crate::support::clear(folder);
}

/// At *Drive* a figure that is typed enters no answer; the box is one digit away, and what is chosen is dropped, changed, entered, taken back.
#[test]
fn a_digit_chooses_and_enter_enters() {
    let (folder, mut screen) = begun("drive", "clear-bay");
    go(&mut screen, StepKind::Drive);
    let before = record(&screen).entries.len();
    // Twelve kilometres, typed at once.
    pad(&mut screen, "1");
    assert!(says(&screen, "Chosen: No drive is asked for."));
    assert_eq!((record(&screen).entries.len(), at(&screen).kind), (before, StepKind::Drive));
    pad(&mut screen, "-");
    assert!(!says(&screen, "Chosen:"));
    assert_eq!(at(&screen).kind, StepKind::Drive, "minus drops what is chosen first");
    pad(&mut screen, "12");
    assert!(!says(&screen, "Chosen:"), "another digit leads elsewhere");
    pad(&mut screen, "12\n");
    let own = record(&screen);
    assert_eq!(Holds::of(&own).values().last().unwrap().what.value, 12.0);
    go(&mut screen, StepKind::Drive);
    pad(&mut screen, "1\n");
    let step = StepId::of_visit(StepKind::Drive);
    let said =
        |screen: &Harness<'_, Desk>| Holds::of(&record(screen)).step(&step).map(|own| own.what.clone());
    assert!(matches!(said(&screen), Some(What::NotApplicable { .. })));
    assert_eq!(at(&screen).kind, StepKind::Sign);
    // Taken back by one press: one sees where, and the record shows it.
    pad(&mut screen, "*");
    assert_eq!(at(&screen).kind, StepKind::Drive);
    assert!(says(&screen, "Taken back, and struck out in the record"));
    assert!(matches!(said(&screen), Some(What::StepDone { .. })));
    screen.key_press_modifiers(Modifiers { shift: true, ..Modifiers::COMMAND }, Key::Z);
    screen.run_steps(4);
    assert!(matches!(said(&screen), Some(What::NotApplicable { .. })), "and brought back");
    assert!(says(&screen, "Entered: No drive is asked for."));
    settle(&mut screen);
    drop(screen);
    crate::support::clear(folder);
}

/// What the routine said is seen as chosen, then as entered, and changed by another digit; no digit changes what it means.
#[test]
fn the_result_is_seen() {
    let (folder, mut screen) = begun("result", "clear-bay");
    go(&mut screen, StepKind::Result);
    let aiming = at(&screen).aiming.unwrap();
    let said =
        |screen: &Harness<'_, Desk>| Holds::of(&record(screen)).routine(&aiming).map(|(own, ..)| own.clone());
    pad(&mut screen, "1");
    assert_eq!(said(&screen), None);
    pad(&mut screen, "2\n");
    assert!(matches!(said(&screen), Some(RoutineResult::Failed { out }) if out.is_empty()));
    assert_eq!(at(&screen).kind, StepKind::Result, "which way it was out may be said");
    pad(&mut screen, "1\n");
    assert_eq!(said(&screen), Some(RoutineResult::Passed), "1 is what it was");
    go(&mut screen, StepKind::Result);
    assert!(says(&screen, "Entered: Passed."));
    pad(&mut screen, "2\n3\n5\n\n");
    pad(&mut screen, "0.3\n");
    let Some(RoutineResult::Failed { out }) = said(&screen) else { panic!("passed") };
    assert_eq!(out.len(), 2);
    assert_eq!(at(&screen).kind, StepKind::ScanAfter);
    drop(screen);
    crate::support::clear(folder);
}

/// Enter walks down the distances in their order, the one that settles most next; which one is read is said, and what it came to.
#[test]
fn distances_are_walked_through_in_their_order() {
    let (folder, mut screen) = begun("walk-tapes", "clear-bay");
    go(&mut screen, StepKind::CheckDistances);
    assert!(says(&screen, "Now "), "which one is to be read");
    pad(&mut screen, "1\n\n\n");
    let tops = |screen: &Harness<'_, Desk>| {
        let mut all: Vec<(f32, String)> = screen
            .query_all_by_label_contains("Read from mark")
            .filter(|own| own.accesskit_node().role() == egui::accesskit::Role::TextInput)
            .map(|own| (own.rect().top(), own.accesskit_node().label().unwrap_or_default()))
            .collect();
        all.sort_by(|one, other| one.0.total_cmp(&other.0));
        all.into_iter().map(|own| own.1).collect::<Vec<_>>()
    };
    for nth in 0..3 {
        let (from, to) = screen.state().record_tape().unwrap();
        let name = format!("Read from mark {from} to mark {to}");
        assert_eq!(tops(&screen).iter().position(|own| *own == name), Some(nth), "{:?}", tops(&screen));
        assert!(says(&screen, &format!("Now {from}\u{2013}{to}: must read")));
        let readings = &screen.state().answer().assessment.scene.readings;
        let should = readings.iter().find(|own| own.from == from && own.to == to).unwrap().distance_mm;
        pad(&mut screen, &format!("{}\n", should.round()));
        assert!(says(&screen, &format!("{from}\u{2013}{to} reads")), "what it came to");
        assert!(says(&screen, "within that"));
        if screen.state().record_tape().is_none() {
            break;
        }
    }
    drop(screen);
    crate::support::clear(folder);
}

/// A distance that is rubbed out is struck out in the record, of the drawn set-up in the bay too, and is there again by one press.
#[test]
fn a_reading_is_taken_out_and_brought_back() {
    let (folder, mut screen) = begun("strike", "clear-bay");
    go(&mut screen, StepKind::CheckDistances);
    pad(&mut screen, "1\n\n\n");
    let (from, to) = screen.state().record_tape().unwrap();
    pad(&mut screen, "1900\n");
    let aiming = at(&screen).aiming.unwrap();
    let count = |screen: &Harness<'_, Desk>| Holds::of(&record(screen)).readings(&aiming).len();
    let taped = |screen: &Harness<'_, Desk>| screen.state().answer().arrangement.marks_taped.len();
    assert_eq!((count(&screen), taped(&screen)), (1, 1));
    let name = format!("Read from mark {from} to mark {to}");
    screen.get_by_role_and_label(egui::accesskit::Role::TextInput, &name).focus();
    screen.run_steps(3);
    screen.key_press(Key::Backspace);
    screen.run_steps(3);
    pad(&mut screen, "\n");
    let own = record(&screen);
    assert!(matches!(own.entries.last().unwrap().what, What::Struck { .. }), "{:?}", own.entries.last());
    assert!(own.entries.iter().any(|own| matches!(own.what, What::Reading(_))), "nothing is lost");
    assert_eq!((count(&screen), taped(&screen)), (0, 0));
    pad(&mut screen, "*");
    assert_eq!((count(&screen), taped(&screen)), (1, 1));
    // From the list of entries too, with a reason.
    let nth = record(&screen).entries.iter().position(|own| matches!(own.what, What::Reading(_))).unwrap();
    ask(&mut screen, Command::Record(OfRecord::Side(Side::Strike(nth))));
    screen.run_steps(3);
    pad(&mut screen, "2\n");
    assert_eq!((count(&screen), taped(&screen)), (0, 0));
    let own = record(&screen);
    assert!(
        matches!(&own.entries.last().unwrap().what, What::Struck { entry, why } if *entry == nth && !why.is_empty())
    );
    settle(&mut screen);
    assert!(says(&screen, "Struck out"));
    drop(screen);
    crate::support::clear(folder);
}

/// Whatever is typed or chosen, no box moves while one is in another.
#[test]
fn boxes_keep_their_places() {
    let (folder, mut screen) = begun("places", "clear-bay");
    go(&mut screen, StepKind::Alignment);
    let top = |screen: &Harness<'_, Desk>, name: &str| {
        let all = screen.query_all_by_label_contains(name);
        all.map(|own| own.rect().top()).fold(f32::INFINITY, f32::min)
    };
    let before = top(&screen, "Rear right toe");
    assert!(before.is_finite());
    pad(&mut screen, "\n0.1");
    screen.key_press(Key::Tab);
    screen.run_steps(4);
    assert_eq!(top(&screen, "Rear right toe"), before);
    drop(screen);
    crate::support::clear(folder);
}

/// What is printed is left for where one came from.
#[test]
fn from_paper_one_goes_back_to_the_record() {
    let (folder, mut screen) = begun("paper-back", "clear-bay");
    on_to(&mut screen, StepKind::ScanBefore);
    let here = at(&screen);
    screen.key_press_modifiers(Modifiers::COMMAND, Key::P);
    screen.run_steps(4);
    assert_eq!(screen.state().view().page(), Some(&Page::OnPaper));
    screen.key_press(Key::Escape);
    screen.run_steps(4);
    assert_eq!(screen.state().view().page(), Some(&Page::Record));
    assert_eq!(at(&screen), here);
    screen.key_press(Key::Escape);
    screen.run_steps(4);
    assert_eq!(screen.state().view().page(), None);
    drop(screen);
    crate::support::clear(folder);
}

/// In large letters the head is a line or two, and the step's name stays in sight however far one scrolled.
#[test]
fn in_large_letters_the_steps_name_stays_in_sight() {
    let (folder, mut screen) = begun("large", "clear-bay");
    screen.set_pixels_per_point(1.75);
    screen.set_size(egui::vec2(1024.0 / 1.75, 700.0 / 1.75));
    screen.run_steps(4);
    go(&mut screen, StepKind::Park);
    let title = |screen: &Harness<'_, Desk>| screen.get_by_label("Park, settle, straighten").rect();
    assert!(title(&screen).top() < 60.0, "{:?}", title(&screen));
    // Boxes stand below what is told: the keyboard is there, and the name too.
    let at_top = title(&screen);
    pad(&mut screen, "1203\n");
    assert_eq!(title(&screen), at_top);
    drop(screen);
    crate::support::clear(folder);
}

/// The state of a step is what the record holds.
#[test]
fn what_is_taken_back_opens_its_step() {
    let (folder, mut screen) = begun("reopen-step", "clear-bay");
    assert_eq!(at(&screen).kind, StepKind::Why);
    pad(&mut screen, "\n");
    assert_eq!(at(&screen).kind, StepKind::Procedure);
    let entries = record(&screen).entries.len();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run_steps(4);
    // In a box of words that is the box's own.
    assert_eq!(record(&screen).entries.len(), entries);
    go(&mut screen, StepKind::ScanBefore);
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run_steps(4);
    assert_eq!(at(&screen).kind, StepKind::Why);
    assert!(says(&screen, "Open"));
    drop(screen);
    crate::support::clear(folder);
}
