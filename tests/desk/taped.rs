//! Things placed by what a tape reads, and how well their places are known then.

use baywright_desk::screen::command::{Command, OfView};
use baywright_planner::Subject;
use baywright_planner::model::Known;
use egui::Vec2;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, press};
use crate::support::{demo, drag, middle, type_into, usual};

/// What is taped from the car is in the bay where the car is, no better known than that.
#[test]
fn a_thing_that_is_placed_from_a_wheel_is_known_as_the_car_is() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
    press(&mut screen, "Place it by tape");
    screen.query_all_by_label("Place it by tape").last().unwrap().click();
    screen.run();
    press(&mut screen, "from a wheel");
    type_into(&mut screen, "Ahead", "1500");
    type_into(&mut screen, "Aside", "1000");
    press(&mut screen, "Put it there");
    let arrangement = &screen.state().answer().arrangement;
    let place = arrangement.bay.things.iter().find(|own| own.id.as_str() == "trolley").unwrap().place;
    let (mm, rad) = arrangement.shop.parked_within(arrangement.parked_known);
    let far = place.at.origin().distance(arrangement.parked.origin());
    let within = mm + rad * far + arrangement.shop.within(Known::Taped);
    assert!(matches!(place.known, Known::Within(own) if own >= within && own < within + 1.0), "{place:?}");
}

#[test]
fn a_thing_is_placed_from_two_corners_and_is_taped_then() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
    press(&mut screen, "Place it by tape");
    let before = screen.state().answer().arrangement.bay.things[0].clone();
    assert_eq!(before.id.as_str(), "trolley");
    // 3-4-5 from the corner at the bay's origin: 4 000 along, 3 000 across, seen from (0, 0) and (12 000, 0).
    type_into(&mut screen, "Distance 1", "5000");
    type_into(&mut screen, "Distance 2", "8544.004");
    press(&mut screen, "Put it there");
    let after = screen.state().answer().arrangement.bay.things[0].clone();
    let at = after.place.at.origin();
    assert!((at.x - 4_000.0).abs() < 0.01 && (at.y - 3_000.0).abs() < 0.01, "{at}");
    assert_eq!(after.place.known, Known::Taped);
    // Dragged, it is known by eye again; undone, it is taped.
    let from = middle(&screen, "the trolley, top view");
    drag(&mut screen, from, from + Vec2::new(30.0, 0.0));
    assert_eq!(screen.state().answer().arrangement.bay.things[0].place.known, Known::ByEye);
    ask(&mut screen, Command::Undo);
    assert_eq!(screen.state().answer().arrangement.bay.things[0].place.known, Known::Taped);
    // Tapes that do not meet say so.
    type_into(&mut screen, "Distance 2", "1000");
    assert!(screen.query_by_label_contains("do not meet").is_some());
}
