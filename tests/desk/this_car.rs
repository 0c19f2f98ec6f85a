//! What was measured on this very car: typed as sheet and tape have it, shown back as it was typed, and what follows from it told.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::view::Tab;
use baywright_planner::edit::Edit;
use baywright_planner::model::Wheel;
use baywright_planner::model::sheet::{Inward, Told, Typed};
use baywright_planner::proof::{Figure, MadeOf, Proof};
use baywright_planner::{Code, Subject, Verdict};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::ask;
use crate::support::{desk, usual, verdict};

fn car_in_hand() -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Car))));
    screen
}

/// Types into a field, wherever it is scrolled to, and presses Enter.
fn type_into(screen: &mut Harness<'_, Desk>, label: &str, text: &str) {
    screen.get_by_label(label).focus();
    screen.run();
    screen.key_combination_modifiers(Modifiers::COMMAND, &[Key::A]);
    screen.step();
    screen.get_by_label(label).type_text(text);
    screen.step();
    screen.key_press(Key::Enter);
    screen.run();
}

/// The next one in the picker that has the keyboard, so many times.
fn down(screen: &mut Harness<'_, Desk>, times: usize) {
    for _ in 0..times {
        screen.key_press(Key::ArrowDown);
        screen.run();
    }
}

/// What stands in a field.
fn shown(screen: &Harness<'_, Desk>, label: &str) -> String {
    let node = screen.get_by_label(label);
    node.accesskit_node().value().unwrap_or_default()
}

/// Opens what is folded away.
fn unfold(screen: &mut Harness<'_, Desk>, label: &str) {
    screen.get_by_label(label).focus();
    screen.run();
    screen.key_press(Key::Space);
    screen.run();
}

fn toe_degrees(screen: &Harness<'_, Desk>) -> Option<f64> {
    let car = &screen.state().answer().arrangement.on_this_car;
    car.told_rear_toe().left_rad.map(f64::to_degrees)
}

fn has(screen: &Harness<'_, Desk>, code: Code) -> bool {
    screen.state().answer().assessment.findings.iter().any(|own| own.code() == code)
}

/// Closed form: 2 mm at 16 inches is 0.282°. It stays 2 mm in its field; which way is asked for, and so is the rim.
#[test]
fn a_toe_is_typed_as_the_sheet_has_it() {
    let mut screen = car_in_hand();
    screen.get_by_label("Toe is in").focus();
    screen.run();
    down(&mut screen, 2);
    type_into(&mut screen, "Rear left toe", "2");
    assert_eq!(shown(&screen, "Rear left toe"), "2 mm");
    assert!(toe_degrees(&screen).is_none() && has(&screen, Code::SheetOpen));
    // Enter led to the question.
    down(&mut screen, 2);
    assert!(toe_degrees(&screen).is_none() && has(&screen, Code::SheetOpen), "at no rim yet");
    screen.get_by_label_contains("Not used until the diameter is typed");
    type_into(&mut screen, "At a diameter of", "16 in");
    assert!((toe_degrees(&screen).unwrap() + 0.282).abs() < 5e-4);
    assert_eq!(shown(&screen, "Rear left toe"), "2 mm");
    assert!(!has(&screen, Code::SheetOpen));
    // A sign says nothing: it is refused, and what stood there stays.
    type_into(&mut screen, "Rear left toe", "-2");
    screen.get_by_label_contains("Without a sign");
    assert!((toe_degrees(&screen).unwrap() + 0.282).abs() < 5e-4);
}

#[test]
fn degrees_and_minutes_stay_what_they_are() {
    let mut screen = car_in_hand();
    screen.get_by_label("Toe is in").focus();
    screen.run();
    down(&mut screen, 1);
    type_into(&mut screen, "Rear left toe", "15");
    screen.get_by_label_contains("Type degrees and minutes");
    type_into(&mut screen, "Rear left toe", "0 15");
    down(&mut screen, 1);
    assert_eq!(shown(&screen, "Rear left toe"), "0° 15\u{2032}");
    assert!((toe_degrees(&screen).unwrap() - 0.25).abs() < 1e-9);
    type_into(&mut screen, "Rear right toe", "0° 3'");
    down(&mut screen, 1);
    screen.get_by_label_contains("Thrust line: 0.10° to the right, by the rear toes");
}

/// A distance to the car is typed at the start, and again at the end: that it moved stops the aiming. Until then it is told as open
/// beside the marks. Marks that are laid anew need it anew.
#[test]
fn a_car_that_moved_is_told() {
    let mut screen = car_in_hand();
    unfold(&mut screen, "Has the car moved?");
    type_into(&mut screen, "1. At the start", "1203");
    assert_eq!(verdict(&screen), Verdict::Ready);
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    // Beside the marks, and in the form.
    let told = screen.query_all_by_label_contains("One distance to the car is still to be taped again");
    assert_eq!(told.count(), 2);
    type_into(&mut screen, "1. At the end", "1206");
    assert!(has(&screen, Code::CarMoved));
    assert_eq!(verdict(&screen), Verdict::NotReady);
    type_into(&mut screen, "1. At the end", "1203.5");
    assert_eq!(verdict(&screen), Verdict::Ready);
    assert!(!screen.state().answer().arrangement.on_this_car.stood.is_empty());
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::LayAnew)));
    assert!(screen.state().answer().arrangement.on_this_car.stood.is_empty());
}

/// Where marks are plumbed under wheels whose camber the sheet tells, what the tape should read and where the target comes to lie
/// follow it: of 2° left and 1° right the middle goes to the left by half of R·(sin 2° − sin 1°).
#[test]
fn camber_enters_where_hubs_are_plumbed() {
    let mut screen = car_in_hand();
    let mut car = screen.state().answer().arrangement.on_this_car.clone();
    let lean = |degrees: f64| Told::of(Typed::of(degrees), Inward::Out);
    car.sheet.camber = [lean(2.0), lean(1.0), lean(2.0), lean(1.0)];
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::OnThisCar(car))));
    screen.get_by_label_contains("By its camber a plumbed hub lies beside the tyre's middle");
    let answer = screen.state().answer();
    let radius = answer.arrangement.hub_height_mm();
    let off = answer.arrangement.plumbed_from_middle(Wheel::FrontLeft).y;
    assert!((off - radius * 2.0_f64.to_radians().sin()).abs() < 1e-9);
    // This plan lays spots outboard of the tyres themselves: it has no hub to plumb.
    let proof = Proof::of(&answer.judged, &answer.assessment.scene).unwrap();
    let of_marks = |own: &Figure| own.made_of.iter().all(|(of, by)| *of != MadeOf::Marks || *by == 0.0);
    assert!(proof.figures.iter().all(of_marks));
}

/// What the profile says of arches is held against what was taped, whichever language it is told in.
#[test]
fn arches_are_held_against_the_profile() {
    let mut screen = usual(desk(Path::new("clear-bay"), Some("Pickup, lidar")));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Car))));
    unfold(&mut screen, "Ride heights");
    for (label, text) in [("Front left arch", "455"), ("Front right arch", "455"), ("Rear left arch", "460")]
    {
        type_into(&mut screen, label, text);
    }
    assert!(has(&screen, Code::RideHeight));
    type_into(&mut screen, "Rear right arch", "480");
    screen.get_by_label_contains("nose up");
    screen.get_by_label_contains("Leans");
    type_into(&mut screen, "Rear left arch", "478");
    assert!(!has(&screen, Code::RideHeight));
}
