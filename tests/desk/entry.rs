//! What is typed from a sheet: sums, halves, what is refused, what is still to be typed, and texts to take along.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar, OfFile, OfView};
use baywright_planner::Subject;
use baywright_planner::geometry::{DVec2, Outline, Polygon};
use baywright_planner::model::assumed::AimingPart;
use baywright_planner::model::{Provenance, Shape, Vehicle};
use egui::{Event, Key, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::ask;
use crate::support::{demo, screen, type_into, usual};

fn value(screen: &Harness<'_, Desk>, label: &str) -> String {
    screen.get_by_label(label).accesskit_node().value().unwrap_or_default()
}

fn cabinet(screen: &Harness<'_, Desk>) -> baywright_planner::model::Thing {
    let things = &screen.state().answer().arrangement.bay.things;
    things.iter().find(|own| own.id.as_str() == "tool cabinet").unwrap().clone()
}

fn in_hand(thing: &str) -> Harness<'static, Desk> {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing(thing.into())))));
    screen
}

#[test]
fn sums_are_worked_out_and_a_half_is_kept() {
    let mut screen = in_hand("tool cabinet");
    type_into(&mut screen, "length", "2*300 + 5 cm");
    let Shape::Rectangle { length_mm, .. } = *cabinet(&screen).footprint.shape() else { panic!() };
    assert_eq!(length_mm, 650.0);
    type_into(&mut screen, "length", "650,5");
    let Shape::Rectangle { length_mm, .. } = *cabinet(&screen).footprint.shape() else { panic!() };
    assert_eq!((length_mm, value(&screen, "length")), (650.5, "650.5 mm".to_owned()));
    // Leaving the field as it stands changes nothing.
    type_into(&mut screen, "length", "650.5 mm");
    let Shape::Rectangle { length_mm: again, .. } = *cabinet(&screen).footprint.shape() else { panic!() };
    assert_eq!(again, 650.5);
}

/// What only the work as a whole refuses is told beside the field that it was typed in; it stays there to be put right.
#[test]
fn what_is_out_of_range_is_said_beside_its_field() {
    let mut screen = in_hand("tool cabinet");
    let before = cabinet(&screen);
    type_into(&mut screen, "length", "90 m + 90 m");
    assert_eq!(cabinet(&screen), before);
    assert_eq!(value(&screen, "length"), "90 m + 90 m");
    let said = screen.get_by_label_contains("is not possible");
    let field = screen.get_by_label("length");
    let below = said.rect().top() - field.rect().bottom();
    assert!((0.0..30.0).contains(&below), "{below}");
    assert_eq!(screen.state().view().notice, None, "not at the foot of the screen");
    // Something else typed there takes the reason away.
    type_into(&mut screen, "length", "700");
    assert!(screen.query_by_label_contains("is not possible").is_none());
}

fn car(screen: &Harness<'_, Desk>) -> Vehicle {
    Vehicle::clone(screen.state().document().draft().unwrap().car())
}

/// Choosing where figures come from is no fault; the document is typed once, at once, for car, radar and aiming.
#[test]
fn a_source_that_was_just_chosen_is_no_error() {
    let mut screen = screen(demo(), Vec2::new(1440.0, 1200.0), 1.0);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.get_by_label("Where these figures come from").click();
    screen.run();
    screen.get_by_label("maker's service information").click();
    screen.run();
    assert!(matches!(car(&screen).provenance, Provenance::Maker { .. }));
    assert!(screen.query_by_label_contains("nothing is entered").is_none());
    assert_eq!(
        screen.query_all_by_label_contains("Still to be typed").count(),
        2,
        "in the form and beside the verdict"
    );
    screen.get_by_label_contains("This is the answer for the car as it was before.");
    assert!(screen.query_by_label_contains("do not fit yet").is_none());

    // The keyboard is where it is to be typed.
    for letter in ["D", "2"] {
        screen.input_mut().events.push(Event::Text(letter.to_owned()));
        screen.step();
    }
    screen.key_press(Key::Enter);
    screen.run();
    let own = car(&screen);
    for source in [&own.provenance, &own.sensors[0].provenance, &own.aimings[0].provenance] {
        assert!(matches!(source, Provenance::Maker { document, .. } if document == "D2"), "{source:?}");
    }
    assert!(screen.query_by_label_contains("Still to be typed").is_none());
}

/// The invented length and height of the area are marked each until it is typed; the spots are one figure for all of them.
#[test]
fn the_short_form_holds_the_sheet_of_a_forward_radar() {
    let mut screen = screen(demo(), Vec2::new(1440.0, 1200.0), 1.0);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    let [along, height] =
        [AimingPart::ClearAlong, AimingPart::ClearHeight].map(|part| part.of(&car(&screen).aimings[0].id));
    screen.get_by_label("assumed: Kept clear up to");
    screen.get_by_label("assumed: Kept clear ahead");
    type_into(&mut screen, "Kept clear up to", "1450");
    assert!(car(&screen).is_assumed(&along), "its length is invented still");
    assert!(!car(&screen).is_assumed(&height), "its height is not");
    assert!(screen.query_by_label("assumed: Kept clear up to").is_none());
    assert_eq!(car(&screen).aimings[0].zones[0].span.top(), 1_450.0);
    type_into(&mut screen, "Kept clear ahead", "5000");
    let own = car(&screen);
    assert!(!own.is_assumed(&along) && screen.query_by_label("assumed: Kept clear ahead").is_none());
    let bounds = own.aimings[0].zones[0].outline.bounds();
    assert!((bounds.high.x - own.front() - 5_000.0).abs() < 1e-6);
    // A figure that is typed later moves it no more.
    type_into(&mut screen, "Stand-off", "4000");
    assert_eq!(car(&screen).aimings[0].zones[0].outline.bounds(), bounds);
    for label in
        ["Target", "Measured from", "Measured to", "Height of its middle, from", "Above the sensor's centre"]
    {
        screen.get_by_label(label);
    }
}

/// A width that makes no area is refused beside its field, and its figure stays assumed; an area that one figure for both sides
/// would change is told in the long form.
#[test]
fn the_area_of_the_short_form_is_changed_by_what_is_typed_only() {
    let mut screen = screen(demo(), Vec2::new(1440.0, 1200.0), 1.0);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    let before = car(&screen);
    for typed in ["0", "-1350"] {
        type_into(&mut screen, "Kept clear each side", typed);
        screen.get_by_label_contains("The two sides would meet");
        screen.get_by_label("assumed: Kept clear each side");
        assert_eq!(car(&screen), before, "{typed}");
    }
    let mut uneven = before;
    // As somebody entered it.
    let aiming = uneven.aimings[0].id.clone();
    uneven.enter(AimingPart::ClearAside.of(&aiming));
    uneven.enter(AimingPart::ClearAlong.of(&aiming));
    let zone = &mut uneven.aimings[0].zones[0];
    let bounds = zone.outline.bounds();
    let further = bounds.high + DVec2::new(0.0, 400.0);
    zone.outline = Outline::Polygon(Polygon::rectangle(bounds.low, further).unwrap());
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(uneven.clone()))));
    assert!(screen.query_by_label("Kept clear each side").is_none());
    screen.get_by_label_contains("1 area to keep clear is entered under Everything");
    assert_eq!(car(&screen).aimings[0].zones, uneven.aimings[0].zones);
}

#[test]
fn enter_leads_on_from_the_name_of_a_bay() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::File(OfFile::BeginBay));
    for text in ["Back bay", "7000 mm", "4000 mm", "3000 mm"] {
        screen.input_mut().events.push(Event::Text(text.to_owned()));
        screen.step();
        screen.key_press(Key::Enter);
        screen.run();
    }
    let field = |label| value(&screen, label);
    assert_eq!(
        [field("Name of the bay"), field("Length"), field("Width"), field("Clear height")],
        ["Back bay", "7000 mm", "4000 mm", "3000 mm"]
    );
}

/// A finding can be marked with the pointer and copied.
#[test]
fn the_text_of_a_finding_can_be_copied() {
    let mut screen = usual(demo());
    let title = screen.get_by_label("Tool cabinet is inside the keep-clear zone “metal-free area”").rect();
    let (from, to) = (title.left_top() + Vec2::new(1.0, 6.0), title.right_bottom() - Vec2::new(1.0, 4.0));
    crate::support::drag(&mut screen, from, to);
    screen.input_mut().events.push(Event::Copy);
    screen.step();
    let copied = screen.output().platform_output.commands.iter().find_map(|own| match own {
        egui::OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    });
    let copied = copied.expect("a text on the clipboard");
    assert!(copied.contains("cabinet is inside the keep-clear zone"), "{copied}");
}

/// What is said of the row that was left pushes the form, not the row that is typed in now.
#[test]
fn a_message_does_not_push_the_row_that_is_typed_in() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.get_by_label("Stand-off").scroll_to_me();
    screen.run();
    screen.get_by_label("Tyre width").click();
    screen.run();
    let before = screen.get_by_label("Tyre width").rect();
    // A track wider than the car: said under its own row, above.
    let mut own = car(&screen);
    own.track_front_mm = 9_000.0;
    own.enter(baywright_planner::model::assumed::BodyPart::TrackFront);
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(own))));
    assert!(screen.query_all_by_label_contains("is not possible").count() >= 1);
    let after = screen.get_by_label("Tyre width").rect();
    assert!((after.top() - before.top()).abs() < 1.0, "{before:?} {after:?}");
}

#[test]
fn undo_does_something_or_says_why_not() {
    let mut screen = usual(demo());
    screen.key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
    screen.run();
    screen.get_by_label_contains("Nothing to undo");
    screen.key_press_modifiers(egui::Modifiers::COMMAND, Key::Y);
    screen.run();
    screen.get_by_label_contains("Nothing to do again");
}

/// A distance between marks that an invented figure goes into says so beside it.
#[test]
fn a_tape_reading_says_what_it_rests_on() {
    let mut screen = usual(demo());
    screen.get_by_label("Marks").click();
    screen.run();
    assert!(screen.query_by_label_contains("rests on the assumed").is_none(), "all of it is entered");
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    let said = screen.query_all_by_label_contains("rests on the assumed").count();
    assert!(said > 0);
    assert!(screen.query_all_by_label_contains("front track").count() > 0);
    type_into(&mut screen, "Front track", "1540");
    assert_eq!(screen.query_all_by_label_contains("assumed front track").count(), 0);
}

/// The long form is searched by the names of its rows, folded away or not.
#[test]
fn the_long_form_is_searched() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    ask(&mut screen, Command::Car(OfCar::Whole(true)));
    assert!(screen.query_by_label("Bandwidth, GHz").is_none(), "folded away");
    type_into(&mut screen, "Search", "bandwidth");
    assert!(screen.get_by_label("Bandwidth, GHz").rect().bottom() < 900.0);
    assert!(screen.query_by_label("Wheelbase").is_none());
    screen.get_by_label("Search").click();
    screen.run();
    screen.key_combination_modifiers(egui::Modifiers::COMMAND, &[Key::A]);
    screen.key_press(Key::Backspace);
    screen.run();
    screen.get_by_label("Wheelbase");
}

/// The drawing, not the screen: nothing of the panels, nothing that is in hand.
#[test]
fn the_drawing_is_copied_as_a_picture() {
    let mut screen = usual(demo());
    let copied = |screen: &mut Harness<'_, Desk>| {
        screen.get_by_label("Show").click();
        screen.run();
        screen.get_by_label("Copy picture").click();
        // It is made off the frame.
        for _ in 0..500 {
            std::thread::sleep(std::time::Duration::from_millis(10));
            screen.step();
            let commands = &screen.output().platform_output.commands;
            let picture = commands.iter().find_map(|own| match own {
                egui::OutputCommand::CopyImage(picture) => Some(picture.clone()),
                _ => None,
            });
            if let Some(picture) = picture {
                return picture;
            }
        }
        panic!("no picture on the clipboard")
    };
    let picture = copied(&mut screen);
    assert_eq!(picture.size[0], 1_600);
    assert!(picture.size[1] > 700 && picture.pixels.iter().all(|own| own.a() == 255));
    // It is drawn on: the car's body, and letters that are darker than any hatch.
    let colours: std::collections::BTreeSet<[u8; 4]> =
        picture.pixels.iter().map(|own| own.to_array()).collect();
    assert!(colours.len() > 200, "{}", colours.len());
    screen.run();
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
    assert_eq!(copied(&mut screen), picture, "what is in hand is not on it");
}

/// A sheet, or a room, is typed from its first field to its last with Enter alone: no press is needed between.
#[test]
fn a_room_and_a_car_are_typed_by_enter_alone() {
    let mut screen = usual(demo());
    let typed = |screen: &mut Harness<'_, Desk>, text: &str| {
        screen.event(egui::Event::Text(text.to_owned()));
        screen.step();
        screen.key_press(Key::Enter);
        screen.run();
    };
    screen.key_press_modifiers(egui::Modifiers::COMMAND, Key::N);
    screen.run();
    for text in ["My stall", "11000", "5500", "3200"] {
        typed(&mut screen, text);
    }
    assert!(screen.state().view().page().is_some(), "one more Enter makes it");
    screen.key_press(Key::Enter);
    screen.run();
    let bay = &screen.state().document().layout().bay;
    assert_eq!((bay.name.as_str(), bay.ceiling_mm), ("My stall", 3_200.0));
    assert_eq!(bay.room.bounds().size().y, 5_500.0);
    let ctx = screen.ctx.clone();
    screen.state_mut().ask(&ctx, Command::Car(OfCar::Begin(Begin::New)));
    screen.run();
    typed(&mut screen, "Flower van");
    // The class of the body and where the figures come from stay as they are.
    for _ in 0..2 {
        screen.key_press(Key::Enter);
        screen.run();
    }
    for text in ["4301", "1791"] {
        typed(&mut screen, text);
    }
    let car = screen.state().document().draft().unwrap().car();
    assert_eq!((car.name.as_str(), car.length_mm, car.width_mm), ("Flower van", 4_301.0, 1_791.0));
}
