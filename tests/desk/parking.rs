//! Where the car can stand: tinted on the floor, told by tape, parked by one press and undone; no frame waits for the search.

use std::path::Path;
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::view::Tab;
use baywright_drawing::Role;
use baywright_drawing::list::Shape;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose, Polygon};
use baywright_planner::place::{Fit, Offered, Search, offered};
use baywright_planner::words::{Language, Words};
use baywright_planner::{Severity, Subject};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::ask;
use crate::support::{count, desk, hold, middle, press, until_searched, usual};

fn parking(layout: &str) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new(layout), None));
    screen.key_press(Key::P);
    screen.step();
    screen.step();
    assert_eq!(screen.state().view().tab, Tab::Parking);
    screen
}

/// What the core says of what is shown.
fn of_core(screen: &Harness<'_, Desk>) -> Offered {
    offered(&screen.state().answer().judged, &|| false, &mut |_| {})
}

fn areas(screen: &Harness<'_, Desk>, role: Role) -> Vec<Vec<Vec<DVec2>>> {
    let items = screen.state().drawings().flat_map(|(own, _)| &own.items).filter(|item| item.role == role);
    let rings = items.filter_map(|item| match &item.shape {
        Shape::Area(rings) => Some(rings.clone()),
        _ => None,
    });
    rings.collect()
}

fn parked(screen: &Harness<'_, Desk>) -> PlanPose {
    screen.state().answer().arrangement.parked
}

/// The tint is the core's region for the heading in hand, in the drawing's frame, and says what it is of; another tab takes it away.
#[test]
fn the_floor_is_tinted_where_the_car_can_stand() {
    let mut screen = parking("hall");
    let answer = screen.state().answer();
    let places = Search::new(&answer.judged).places(answer.judged.parked.heading());
    assert!(!places.fits.is_empty());
    let drawn = areas(&screen, Role::PlaceFits);
    assert_eq!(drawn.len(), places.fits.shapes().len());
    let of_ring = |ring: &[DVec2]| Polygon::new(ring.to_vec(), Vec::new()).map_or(0.0, |own| own.area());
    let outer: f64 = drawn.iter().map(|rings| of_ring(&rings[0])).sum();
    let expected: f64 = places.fits.shapes().iter().map(|rings| of_ring(&rings[0])).sum();
    assert!((outer - expected).abs() < 1.0, "{outer} {expected} mm\u{b2}");
    let (top, _) = screen.state().drawings().next().unwrap();
    let here = top.bay_from_view * drawn[0][0][0];
    assert!(places.fits.to_edge(here) < 1e-6, "it lies where it is");
    assert!(
        screen.query_all_by_label_contains("here the front axle\u{2019}s middle can lie").next().is_some()
    );
    screen.key_press(Key::P);
    screen.step();
    screen.step();
    assert_eq!(screen.state().view().tab, Tab::Findings);
    assert!(areas(&screen, Role::PlaceFits).is_empty());
}

/// While the car is dragged and turned the tint is that of what is shown now, in the very frame.
#[test]
fn the_tint_follows_the_hand() {
    let mut screen = parking("clear-bay");
    let thing = middle(&screen, "the tool cabinet, top view");
    let before = screen.state().view().places.clone();
    // Out of its corner, into the room.
    hold(&mut screen, thing, thing + egui::Vec2::new(-60.0, 100.0));
    let answer = screen.state().answer();
    let now = Search::new(&answer.judged).places(answer.judged.parked.heading());
    let shown = screen.state().view().places.clone();
    assert_eq!(shown.as_deref(), Some(&now));
    assert_ne!(shown, before, "the cabinet is one of what decides it");
    let turned = Edit::Park(PlanPose::new(parked(&screen).origin(), 0.4));
    ask(&mut screen, Command::Bay(OfBay::Preview(vec![turned])));
    screen.step();
    let shown = screen.state().view().places.clone().unwrap();
    assert!((shown.heading_rad - 0.4).abs() < 1e-12);
}

/// The spots are the core's, told in both languages; a press parks the car at one, nothing stops it there, undo brings back.
#[test]
fn a_spot_is_told_parked_by_a_press_and_undone() {
    let mut screen = parking("hall");
    until_searched(&mut screen);
    let found = of_core(&screen);
    assert!(!found.offers.is_empty());
    let before = parked(&screen);
    for language in [Language::English, Language::German] {
        ask(&mut screen, Command::View(OfView::Language(language)));
        screen.step();
        let answer = screen.state().answer();
        let words = Words::new(&answer.judged, screen.state().view().locale);
        for offer in &found.offers {
            for text in [words.spot(offer), words.spot_slack(&offer.spot.slack)] {
                let text = baywright_desk::screen::unbroken(text);
                assert!(screen.query_all_by_label(&text).next().is_some(), "{text}");
            }
        }
    }
    ask(&mut screen, Command::View(OfView::Language(Language::English)));
    screen.step();
    // What has the keyboard shows the car there.
    screen.get_by_label("Park it there: Best spot").focus();
    screen.step();
    screen.step();
    assert_eq!(screen.state().view().spot, Some(found.offers[0].spot.pose));
    press(&mut screen, "Park it there: Best spot");
    assert_eq!(parked(&screen), found.offers[0].spot.pose);
    assert_eq!(count(&screen, Severity::Stops), 0);
    until_searched(&mut screen);
    assert!(screen.query_by_label("The car stands there.").is_some(), "it is still the best");
    screen.key_combination_modifiers(egui::Modifiers::COMMAND, &[Key::Z]);
    screen.step();
    assert_eq!(parked(&screen), before);
}

/// Distances that are told are those of the car parked there: a tape from the tyre's middle square to each wall's line.
#[test]
fn what_is_told_is_what_a_tape_reads_there() {
    for layout in ["hall", "crowded-bay", "clear-bay"] {
        let screen = usual(desk(Path::new(layout), None));
        let arrangement = &screen.state().answer().judged;
        for offer in of_core(&screen).offers {
            let tyres = offer.by_tape.tyres.as_ref().expect("two walls of a room");
            for own in &tyres.walls {
                let nth = arrangement.bay.walls.iter().position(|wall| wall.id == own.wall).unwrap();
                let edge = arrangement.bay.room.edges().nth(nth).unwrap();
                let tyre = offer.spot.pose * arrangement.wheel_point(tyres.front);
                let along = (edge.to - edge.from).normalize();
                assert!((along.perp_dot(tyre - edge.from) - own.mm).abs() < 1e-6, "{layout}: {own:?}");
            }
            assert!(matches!(offer.by_tape.nose, Some(Subject::Wall(_) | Subject::Opening(_))));
        }
    }
}

/// No frame waits for the search, a stop leaves what was found marked as partial, and after a change what is offered is older.
#[test]
fn the_search_is_stopped_and_what_it_found_is_marked() {
    let mut screen = usual(desk(Path::new("hall"), None));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Parking)));
    let start = Instant::now();
    screen.step();
    assert!(screen.query_by_label("Stop").is_some(), "it is looked for beside the frame");
    assert!(start.elapsed() < Duration::from_secs(2));
    ask(&mut screen, Command::View(OfView::StopLooking));
    until_searched(&mut screen);
    assert!(screen.query_by_label_contains("Stopped before all headings").is_some());
    press(&mut screen, "Look again");
    until_searched(&mut screen);
    assert!(screen.query_by_label_contains("Stopped before all headings").is_none());
    let park = "Park it there: Best spot";
    assert!(!screen.get_by_label(park).accesskit_node().is_disabled());
    let by = Edit::Park(parked(&screen).shifted(DVec2::new(120.0, 0.0)));
    ask(&mut screen, Command::Bay(OfBay::Edit(by)));
    if screen.query_by_label("Stop").is_some() {
        assert!(screen.query_by_label_contains("before the last change").is_some());
        assert!(screen.get_by_label(park).accesskit_node().is_disabled(), "it need not fit any more");
    }
    until_searched(&mut screen);
    assert!(screen.query_by_label_contains("before the last change").is_none());
}

/// A room that is too short in every heading says so, and does not say that it never fits.
#[test]
fn where_nothing_fits_the_next_question_is_told() {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    let mut bay = screen.state().answer().judged.bay.clone();
    let small = [(0.0, 0.0), (5_200.0, 0.0), (5_200.0, 3_000.0), (0.0, 3_000.0)].map(DVec2::from);
    bay.room = Polygon::new(small.to_vec(), Vec::new()).unwrap();
    bay.openings.clear();
    bay.survey = None;
    bay.floor_features.clear();
    bay.marks.clear();
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Parking)));
    screen.step();
    until_searched(&mut screen);
    let answer = screen.state().answer();
    let search = Search::new(&answer.judged);
    let here = answer.judged.parked;
    assert_eq!(search.places(here.heading()).at(here.origin()), Fit::Not);
    assert!(of_core(&screen).offers.is_empty());
    assert!(screen.query_by_label_contains("Moving things is the next question").is_some());
}
