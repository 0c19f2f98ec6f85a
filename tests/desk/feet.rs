//! A shop that works in feet and inches: what is typed as drawings have it, and what is said of it.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar, OfFile, OfView};
use baywright_desk::screen::unbroken;
use baywright_planner::words::Units;
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, press};
use crate::support::{blames, demo, type_into, usual};

fn in_feet() -> Harness<'static, Desk> {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Units(Units::FeetInches)));
    screen
}

/// "14-6" is asked about, and the room is made from the answer.
#[test]
fn a_dash_between_feet_and_inches_is_asked_about() {
    let mut screen = in_feet();
    ask(&mut screen, Command::File(OfFile::BeginBay));
    type_into(&mut screen, "Length", "26' 4 1/2");
    type_into(&mut screen, "Width", "14-6");
    // Nothing is made of it until it is answered.
    press(&mut screen, "Make this bay");
    assert!(screen.state().view().page().is_some());
    press(&mut screen, "14\u{2032} 6\u{2033}: Width");
    press(&mut screen, "Make this bay");
    let size = screen.state().answer().arrangement.bay.room.bounds().size();
    assert!((size.x - 8_039.1).abs() < 1e-6 && (size.y - 4_419.6).abs() < 1e-6, "{size:?}");
}

/// What no room is stands on the page, in the units that are shown, and nothing is made of it.
#[test]
fn a_room_that_cannot_be_is_told_on_its_page() {
    let mut screen = in_feet();
    ask(&mut screen, Command::File(OfFile::BeginBay));
    type_into(&mut screen, "Width", "8");
    screen.get_by_label_contains("A room of 40\u{2032} 0\u{2033} by 8\u{2033} is not possible");
    assert!(screen.query_by_label_contains("corners_mm").is_none());
    press(&mut screen, "Make this bay");
    assert!(screen.state().view().page().is_some());
    type_into(&mut screen, "Width", "20'");
    assert!(screen.query_by_label_contains("is not possible").is_none());
}

/// What a figure of a car may be, and what it usually is, is said in feet and inches, and one thing at a time.
#[test]
fn limits_of_a_figure_are_said_in_feet() {
    let mut screen = in_feet();
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    type_into(&mut screen, "Wheelbase", "70");
    let asked = "5\u{2032} 10\u{2033}; usual is 5\u{2032} 11\u{2033} to 15\u{2032} 1\u{2033}.";
    screen.get_by_label_contains(&unbroken(asked));
    type_into(&mut screen, "Width", "11");
    assert!(screen.query_all_by_label_contains("11\u{2033} is not possible").next().is_some());
    assert!(screen.query_by_label_contains("11\u{2033}; usual").is_none());
    assert!(["\u{a0}mm", " mm"].iter().all(|unit| screen.query_by_label_contains(unit).is_none()));
    type_into(&mut screen, "Width", "70");
    type_into(&mut screen, "Stand-off", "-4");
    screen.get_by_label_contains("Forward radar aiming, Stand-off: ");
}

/// A new car's first field is its name, the next its first figure; its file is called as it is.
#[test]
fn a_name_and_a_sheet_are_typed_one_after_another() {
    let mut screen = in_feet();
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    // Past the class of the body and where the figures come from, as they stand.
    for typed in ["Jo's wagon", "", "", "15' 3 1/2", "5' 10 3/8"] {
        screen.event(egui::Event::Text(typed.to_owned()));
        screen.key_press(Key::Enter);
        screen.run();
    }
    let car = screen.state().document().draft().unwrap().car().clone();
    assert_eq!((car.name.as_str(), car.id.as_str()), ("Jo's wagon", "jo-s-wagon"));
    assert!((car.length_mm - 4_660.9).abs() < 1e-6 && (car.width_mm - 1_787.525).abs() < 1e-6);
}

/// In a stall without room to spare something new stands beside the car and not before the sensor, and its name, its place and
/// the next thing's are typed one after another.
#[test]
fn something_new_is_in_nobodys_way_in_a_tight_stall_and_is_typed_by_enter() {
    let mut screen = in_feet();
    ask(&mut screen, Command::File(OfFile::BeginBay));
    type_into(&mut screen, "Length", "26' 4 1/2");
    type_into(&mut screen, "Width", "14' 6");
    press(&mut screen, "Make this bay");
    press(&mut screen, "+ Add");
    press(&mut screen, "trolley");
    for code in ["zone-object", "sight-blocked"] {
        assert!(!blames(&screen, "trolley", code), "{code}");
    }
    screen.key_press(Key::F2);
    screen.run();
    for typed in ["tool box", "2' 0", "1' 6"] {
        screen.event(egui::Event::Text(typed.to_owned()));
        screen.key_press(Key::Enter);
        screen.run();
    }
    let things = &screen.state().answer().arrangement.bay.things;
    let size = things[0].prism().outline.bounds();
    assert_eq!(things[0].id.as_str(), "tool box");
    let room = screen.state().answer().arrangement.bay.room.bounds();
    let gaps = [size.low.y, room.high.y - size.high.y, size.low.x, room.high.x - size.high.x];
    for wanted in [609.6, 457.2] {
        assert!(gaps.iter().any(|gap| (gap - wanted).abs() < 1e-6), "{wanted} in {gaps:?}");
    }
}
