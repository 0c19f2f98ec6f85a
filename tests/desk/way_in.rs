//! How the car comes to what is offered: a line for each spot and for where it stands, the way drawn while the line is pointed at or has
//! the keyboard; nothing of it is a finding.

use std::path::Path;
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::view::Tab;
use baywright_drawing::Role;
use baywright_planner::edit::Edit;
use baywright_planner::place::offered;
use baywright_planner::way_in::{Way, Ways, ways};
use baywright_planner::words::{Language, Words};
use egui::Key;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::ask;
use crate::support::{desk, usual};

/// Frames until spots and ways are there.
fn until_found(screen: &mut Harness<'_, Desk>) {
    let start = Instant::now();
    screen.step();
    while screen.query_by_label("Stop").is_some()
        || screen.query_by_label_contains("Looking for the ways in").is_some()
        || screen.query_by_label_contains("Turning circle").is_none()
    {
        assert!(start.elapsed() < Duration::from_secs(180), "it never came");
        std::thread::sleep(Duration::from_millis(20));
        screen.step();
    }
    screen.step();
}

fn parking(layout: &str) -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new(layout), None));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Parking)));
    screen
}

fn of_core(screen: &Harness<'_, Desk>) -> Ways {
    let judged = &screen.state().answer().judged;
    let offers = offered(judged, &|| false, &mut |_| {}).offers;
    let spots = offers.iter().map(|own| own.spot.pose);
    let to: Vec<_> = std::iter::once(judged.parked).chain(spots).collect();
    ways(judged, &to, &|| false, &mut |_| {})
}

fn drawn(screen: &Harness<'_, Desk>, role: Role) -> usize {
    let items = screen.state().drawings().flat_map(|(own, _)| &own.items);
    items.filter(|item| item.role == role).count()
}

/// Each line is the core's, in both languages; the one that has the keyboard is drawn, and no longer than that.
#[test]
fn a_way_is_told_for_each_spot_and_drawn_while_it_is_looked_at() {
    let mut screen = parking("clear-bay");
    let findings = screen.state().answer().assessment.findings.len();
    until_found(&mut screen);
    let found = of_core(&screen);
    assert!(found.to.len() > 1 && found.turns.is_assumed);
    let Way::Driven(here) = &found.to[0] else { panic!("{:?}", found.to[0]) };
    for language in [Language::German, Language::English] {
        ask(&mut screen, Command::View(OfView::Language(language)));
        screen.step();
        let words = Words::new(&screen.state().answer().judged, screen.state().view().locale);
        for way in &found.to {
            let line = words.way(way);
            let told = [line.clone(), baywright_desk::screen::unbroken(line.clone())];
            let is_told = told.iter().any(|own| screen.query_all_by_label_contains(own).next().is_some());
            assert!(is_told, "{line}");
        }
        let turning = baywright_desk::screen::unbroken(words.turning(&found.turns));
        assert!(screen.query_by_label(&turning).is_some(), "{turning}");
    }
    assert_eq!((drawn(&screen, Role::WayIn), drawn(&screen, Role::WayInAxle)), (0, 0));
    let line = Words::new(&screen.state().answer().judged, screen.state().view().locale).way(&found.to[0]);
    let name = format!("{line}: Where the car stands now");
    screen.get_by_label(&name).focus();
    screen.step();
    screen.step();
    assert_eq!(screen.state().view().way_in.as_ref(), Some(here));
    screen.step();
    assert_eq!(drawn(&screen, Role::WayIn), here.swept.shapes().len());
    assert_eq!((drawn(&screen, Role::WayInAxle), drawn(&screen, Role::WayInTight)), (1, 1));
    let says = |item: &baywright_drawing::list::Item| match &item.shape {
        baywright_drawing::list::Shape::Text(text) => text.text.contains("where the car passes"),
        _ => false,
    };
    assert!(screen.state().drawings().flat_map(|(own, _)| &own.items).any(says));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Findings)));
    screen.step();
    assert_eq!(drawn(&screen, Role::WayIn), 0);
    assert_eq!(screen.state().answer().assessment.findings.len(), findings, "it is no finding");
    // The page no longer says that nobody asked.
    ask(&mut screen, Command::View(OfView::Tab(Tab::Parking)));
    screen.step();
    assert!(screen.query_all_by_label_contains("is not asked").next().is_none());
}

/// A door that is too narrow by a known figure; and the figure of this car's own turning circle instead of the assumed one.
#[test]
fn a_door_that_is_too_narrow_and_this_cars_own_circle() {
    let mut screen = parking("clear-bay");
    let judged = std::sync::Arc::clone(&screen.state().answer().judged);
    let mut bay = judged.bay.clone();
    bay.openings.retain(|own| own.id.as_str() == "roller door");
    bay.openings[0].width_mm = judged.vehicle.width_mm - 120.0;
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    until_found(&mut screen);
    let told = "The only door, the roller door, is 120\u{202f}mm too narrow.";
    let told = [told.to_owned(), told.replace('\u{202f}', "\u{a0}")];
    let is_told = told.iter().any(|own| screen.query_all_by_label(own).next().is_some());
    assert!(is_told, "{:?}", of_core(&screen).to);
    let mut own = judged.on_this_car.clone();
    own.turning_circle_mm = Some(11_400.0);
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::OnThisCar(own))));
    until_found(&mut screen);
    assert!(screen.query_by_label_contains("as entered for this car").is_some());
    assert!(screen.query_by_label_contains("assumed for such a car").is_none());
    screen.key_press(Key::P);
    screen.step();
}
