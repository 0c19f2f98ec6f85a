//! What is typed is not lost, what is refused stays with its reason, and what was not taped is not known as taped.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfView};
use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{Circle, DVec2, Outline};
use baywright_planner::model::{Known, Place, Thing, Vehicle};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::ask;
use crate::support::{demo, drag, middle, type_into, usual};

fn select(screen: &mut Harness<'_, Desk>, row: &str) {
    screen.get_by_label_contains(row).click();
    screen.run();
}

fn thing(screen: &Harness<'_, Desk>, name: &str) -> Thing {
    let things = &screen.state().answer().arrangement.bay.things;
    things.iter().find(|own| own.id.as_str() == name).cloned().unwrap()
}

fn value(screen: &Harness<'_, Desk>, label: &str) -> String {
    screen.get_by_label(label).accesskit_node().value().unwrap_or_default()
}

#[test]
fn one_typed_distance_makes_no_place_known_two_do() {
    let mut screen = usual(demo());
    select(&mut screen, "Trolley, ");
    let walls: Vec<String> = {
        let bay = &screen.state().answer().arrangement.bay;
        let labels = bay.walls.iter().map(|wall| format!("from {}", wall.id));
        labels.filter(|label| screen.query_by_label(label).is_some()).collect()
    };
    let [first, second] = walls.as_slice() else { panic!("{walls:?}") };
    // By eye, wherever it was: moved by a hand.
    screen.key_press(Key::ArrowUp);
    screen.run();
    assert_eq!(thing(&screen, "trolley").place.known, Known::ByEye);
    type_into(&mut screen, first, "1300");
    assert_eq!(thing(&screen, "trolley").place.known, Known::ByEye, "one direction is not a place");
    type_into(&mut screen, first, "1310");
    assert_eq!(thing(&screen, "trolley").place.known, Known::ByEye, "the same one again neither");
    type_into(&mut screen, second, "1400");
    assert_eq!(thing(&screen, "trolley").place.known, Known::Taped);
    // Drawn larger by the hand, its sides are where nobody has taped; back by undo they are.
    // So small a thing has its handles beside it.
    let corner = screen.get_by_label("the trolley, top view").rect().right_bottom() + egui::Vec2::splat(14.0);
    let size = |screen: &Harness<'_, Desk>| thing(screen, "trolley").footprint.shape().clone();
    let was = size(&screen);
    drag(&mut screen, corner, corner + egui::Vec2::splat(24.0));
    assert_ne!(size(&screen), was, "the corner was in the hand");
    assert_eq!(thing(&screen, "trolley").place.known, Known::ByEye);
    screen.get_by_label("Undo").click();
    screen.run();
    assert_eq!(thing(&screen, "trolley").place.known, Known::Taped);
    // A copy stands where nobody has taped.
    screen.key_press_modifiers(Modifiers::COMMAND, Key::D);
    screen.run();
    assert_eq!(thing(&screen, "trolley 2").place.known, Known::ByEye);
    assert_eq!(thing(&screen, "trolley").place.known, Known::Taped);
}

#[test]
fn what_is_refused_stays_in_its_field_with_the_reason() {
    let mut screen = usual(demo());
    select(&mut screen, "Trolley, ");
    let before = value(&screen, "top");
    type_into(&mut screen, "top", "tall");
    screen.get_by_label_contains("is no length");
    assert_eq!(value(&screen, "top"), "tall");
    // Also when another field is gone to and filled.
    type_into(&mut screen, "turned", "12");
    assert_eq!(value(&screen, "top"), "tall");
    screen.get_by_label_contains("is no length");
    // Escape puts back what was there, and the thing stays in hand.
    screen.get_by_label("top").click();
    screen.run();
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(value(&screen, "top"), before);
    assert!(screen.query_by_label_contains("is no length").is_none());
    assert_eq!(screen.state().view().selected, Some(Subject::Thing("trolley".into())));
}

#[test]
fn escape_in_a_field_does_not_take_the_thing_out_of_the_hand() {
    let mut screen = usual(demo());
    select(&mut screen, "Trolley, ");
    let before = thing(&screen, "trolley");
    screen.get_by_label("top").click();
    screen.run();
    screen.get_by_label("top").type_text("9");
    screen.step();
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(screen.state().view().selected, Some(Subject::Thing("trolley".into())));
    assert_eq!(thing(&screen, "trolley"), before);
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(screen.state().view().selected, None);
}

#[test]
fn what_is_being_typed_is_taken_when_the_canvas_is_pressed() {
    let mut screen = usual(demo());
    let elsewhere = middle(&screen, "the tool cabinet, top view");
    select(&mut screen, "Trolley, ");
    screen.get_by_label("top").click();
    screen.run();
    screen.key_combination_modifiers(Modifiers::COMMAND, &[Key::A]);
    screen.step();
    screen.get_by_label("top").type_text("777");
    screen.step();
    screen.hover_at(elsewhere);
    screen.step();
    screen.drag_at(elsewhere);
    screen.drop_at(elsewhere);
    screen.run();
    assert_eq!(thing(&screen, "trolley").span.top(), 777.0);
    assert_ne!(screen.state().view().selected, Some(Subject::Thing("trolley".into())));
}

/// Typed the other way round, the corners would make the same room with its doors in other walls.
#[test]
fn corners_typed_the_other_way_round_are_refused_with_the_reason() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    let before = screen.state().document().layout().clone();
    let label = "Corners";
    let shown = value(&screen, label);
    let reversed: Vec<&str> = shown.lines().rev().collect();
    screen.get_by_label(label).focus();
    screen.run();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::A);
    screen.step();
    screen.event(egui::Event::Paste(reversed.join("\n")));
    screen.run();
    assert_eq!(value(&screen, label), reversed.join("\n"));
    screen.get_by_label("Name of the bay").focus();
    screen.run();
    screen.get_by_label_contains("in the order in which they stood here");
    assert_eq!(*screen.state().document().layout(), before);
}

/// A hand that moves a thing measures nothing.
#[test]
fn what_is_known_badly_is_known_no_better_for_being_moved() {
    let mut screen = usual(demo());
    select(&mut screen, "Trolley, ");
    let own = thing(&screen, "trolley");
    let place = Place { known: Known::Within(500.0), ..own.place };
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Place { thing: own.id, place })));
    let known = |screen: &Harness<'_, Desk>| thing(screen, "trolley").place.known;
    screen.key_press(Key::ArrowUp);
    screen.run();
    assert_eq!(known(&screen), Known::Within(500.0));
    screen.key_press(Key::OpenBracket);
    screen.run();
    assert_eq!(known(&screen), Known::Within(500.0));
    type_into(&mut screen, "turned", "12");
    assert_eq!(known(&screen), Known::Within(500.0));
    let from = middle(&screen, "the trolley, top view");
    drag(&mut screen, from, from + egui::Vec2::new(0.0, 60.0));
    assert_eq!(known(&screen), Known::Within(500.0));
}

fn refused(screen: &mut Harness<'_, Desk>, label: &str, typed: &str, why: &str) {
    let before = value(screen, label);
    let layout = screen.state().document().layout().clone();
    screen.get_by_label(label).scroll_to_me();
    screen.run();
    type_into(screen, label, typed);
    assert_eq!(value(screen, label), typed, "{label}: what was typed stays");
    assert!(screen.query_all_by_label_contains(why).next().is_some(), "{label}: {why}");
    assert_eq!(*screen.state().document().layout(), layout);
    screen.get_by_label(label).click();
    screen.run();
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(value(screen, label), before);
}

#[test]
fn heights_and_sides_that_make_no_shape_stay_in_their_fields() {
    let mut screen = usual(demo());
    let opening = screen.state().answer().arrangement.bay.openings[0].clone();
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Opening(opening.id)))));
    let low = format!("{}", opening.span.bottom() - 10.0);
    refused(&mut screen, "Up to", &low, "must be above the underside");
    let area = screen.state().answer().arrangement.bay.floor_features[0].clone();
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::FloorFeature(area.id)))));
    let left = format!("{}", area.outline.bounds().low.x);
    refused(&mut screen, "To, along", &left, "two sides would meet");
}

#[test]
fn a_zone_that_makes_no_shape_or_has_a_name_of_another_says_so() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    let mut car = Vehicle::clone(screen.state().document().draft().unwrap().car());
    let shown = screen.state().answer().arrangement.aiming.id.clone();
    let aiming = car.aimings.iter_mut().find(|own| own.id == shown).unwrap();
    let mut round = aiming.zones[0].clone();
    round.id = "round".into();
    round.outline = Outline::Circle(Circle::new(DVec2::new(3_000.0, 0.0), 400.0).unwrap());
    aiming.zones = vec![round.clone()];
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(car.clone()))));
    screen.get_by_label("Keep-clear zones").click_accesskit();
    screen.run();
    refused(&mut screen, "Diameter", "0", "wider than nothing");
    let top = format!("{}", round.span.bottom());
    refused(&mut screen, "Up to", &top, "must be above the underside");
    // Two of them: one takes no name that the other has.
    let aiming = car.aimings.iter_mut().find(|own| own.id == shown).unwrap();
    let mut second = round;
    second.id = "second".into();
    aiming.zones.push(second);
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(car))));
    screen.get_by_label("second").click_accesskit();
    screen.run();
    screen.query_all_by_label("Name").last().unwrap().focus();
    screen.run();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::A);
    screen.step();
    screen.event(egui::Event::Text("round".into()));
    screen.step();
    screen.key_press(Key::Enter);
    screen.run();
    screen.get_by_label_contains("Something here is called “round” already");
    let zones = &screen.state().document().draft().unwrap().car().aimings;
    let zones = &zones.iter().find(|own| own.id == shown).unwrap().zones;
    assert_eq!(zones[1].id.as_str(), "second");
}

/// No part of a car takes a name that another of its kind has, and none drops what was typed without a word.
#[test]
fn a_part_of_a_car_that_takes_the_name_of_another_says_so() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    let mut car = Vehicle::clone(screen.state().document().draft().unwrap().car());
    let aiming = car.aimings.iter().position(|own| own.id == screen.state().answer().arrangement.aiming.id);
    // One of a kind more, by names that nothing else has; the whole form with that part alone in sight.
    let aiming = aiming.unwrap();
    let mut second = car.sensors[0].clone();
    second.id = "sensor two".into();
    car.sensors.push(second);
    let mut second = car.aimings[aiming].clone();
    (second.id, second.name) = ("aiming two".into(), "Aiming two".into());
    car.aimings.push(second);
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(car.clone()))));
    screen.run();
    let (sensor, other) = (car.sensors[0].id.clone(), car.aimings[aiming].id.clone());
    for (shown, taken) in [("sensor two", sensor), ("aiming two", other)] {
        type_into(&mut screen, "Search", "name");
        let field = screen
            .query_all_by_label("Name")
            .find(|own| own.accesskit_node().value().as_deref() == Some(shown));
        field.unwrap_or_else(|| panic!("a field with {shown}")).focus();
        screen.run();
        screen.key_press_modifiers(Modifiers::COMMAND, Key::A);
        screen.step();
        screen.event(egui::Event::Text(taken.to_string()));
        screen.step();
        screen.key_press(Key::Enter);
        screen.run();
        screen.get_by_label_contains(&format!("Something here is called “{taken}” already"));
        assert_eq!(**screen.state().document().draft().unwrap().car(), car, "{shown}");
    }
}

/// Of a row that is hidden by a search the next one has nothing: Up in a name steps no figure.
#[test]
fn a_hidden_figure_is_not_stepped_in_the_row_after_it() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    let before = screen.state().document().draft().unwrap().car().clone();
    type_into(&mut screen, "Search", "name");
    let names: Vec<String> = ["Name", "Title"]
        .into_iter()
        .flat_map(|label| screen.query_all_by_label(label).map(|own| own.accesskit_node().value()))
        .flatten()
        .collect();
    assert!(names.len() > 2, "{names:?}");
    for at in 0..screen.query_all_by_label("Name").count() {
        screen.query_all_by_label("Name").nth(at).unwrap().focus();
        screen.run();
        screen.key_press(Key::ArrowUp);
        screen.run();
        assert_eq!(*screen.state().document().draft().unwrap().car(), before, "name {at}");
    }
}

/// The field above is drawn first: it has the keyboard by then.
#[test]
fn what_is_typed_is_taken_when_a_field_above_it_is_gone_to() {
    let mut screen = usual(demo());
    select(&mut screen, "Trolley, ");
    screen.get_by_label("top").click();
    screen.run();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::A);
    screen.step();
    screen.event(egui::Event::Text("700".into()));
    screen.step();
    screen.get_by_label("turned").click();
    screen.run();
    assert_eq!(thing(&screen, "trolley").span.top(), 700.0);
}
