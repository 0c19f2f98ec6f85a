//! Set-ups that are done at the same time in two bays of a hall: chosen by a tick in either, seen in both, undone, nobody's to move.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::{DVec2, PlanPose};
use baywright_planner::model::{BesidePart, Id};
use baywright_planner::{Code, Severity, Subject};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, press};
use crate::support::{desk, usual};

const SALOON: &str = "Saloon, forward radar, in the aiming bay";
const ESTATE: &str = "Estate, rear left corner radar, in the service bay";

/// What stops for what is done beside it.
fn stops(screen: &Harness<'_, Desk>) -> Vec<Code> {
    let found = screen.state().answer().assessment.findings.iter();
    found.filter(|own| own.severity == Severity::Stops).map(|own| own.code()).collect()
}

fn beside(screen: &Harness<'_, Desk>) -> Vec<Id> {
    screen.state().answer().arrangement.beside.iter().map(|own| own.set_up.clone()).collect()
}

/// A metre further back the saloon's rear is in the wedge that the estate keeps clear: told in both, from a tick in either, until that is
/// undone. By hand: the wedge's near edge is at x = 11 046 where the saloon's left side is (y = 3 370), the saloon's rear at about 11 400.
#[test]
fn a_tick_in_one_is_seen_in_both() {
    let mut screen = usual(desk(Path::new("hall"), Some(SALOON)));
    let back = PlanPose::new(DVec2::new(7_600.0, 2_450.0), std::f64::consts::PI);
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Park(back))));
    assert_eq!(stops(&screen), []);
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Car))));
    screen.get_by_label("At the same time, in other bays");
    let tick = format!("{ESTATE} (service bay)");
    screen.get_by_label(&tick).focus();
    screen.run();
    screen.key_press(egui::Key::Space);
    screen.run();
    assert_eq!(beside(&screen), [Id::from(ESTATE)]);
    assert_eq!(stops(&screen), [Code::Beside], "it stands in what the estate keeps clear");
    ask(&mut screen, Command::Bay(OfBay::Show(ESTATE.into())));
    assert_eq!(beside(&screen), [Id::from(SALOON)]);
    assert!(stops(&screen).contains(&Code::ZoneObject));
    // A car that is parked further off in the one is further off in the other.
    let pose = screen.state().document().saved_arrangement().unwrap().parked;
    let away = PlanPose::new(pose.origin() + DVec2::new(-40.0, 0.0), pose.heading());
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Park(away))));
    ask(&mut screen, Command::Bay(OfBay::Show(SALOON.into())));
    let own = &screen.state().answer().arrangement;
    let (car, _) = &own.beside[0].parts[0];
    assert_eq!(own.part_beside(car).unwrap().1, &BesidePart::Car);
    for _ in 0..3 {
        ask(&mut screen, Command::Undo);
    }
    ask(&mut screen, Command::Bay(OfBay::Show(SALOON.into())));
    assert!(beside(&screen).is_empty() && stops(&screen).is_empty());
    assert!(!screen.state().document().is_changed());
}

/// What stands there for the other one is in no list, and its form leads to where it is moved.
#[test]
fn what_stands_there_is_the_others() {
    let mut screen = usual(desk(Path::new("hall"), Some(SALOON)));
    let things = screen.state().answer().arrangement.bay.things.len();
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::AtOnce(vec![ESTATE.into()]))));
    let own = &screen.state().answer().arrangement;
    assert!(own.bay.things.len() > things);
    assert_eq!(own.own_things().count(), things);
    let car = own.beside[0].parts[0].0.clone();
    assert!(screen.query_by_label(car.as_str()).is_none());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing(car)))));
    assert!(screen.query_by_label("Remove").is_none());
    press(&mut screen, "Show that set-up");
    assert_eq!(screen.state().document().shown().as_str(), ESTATE);
    // Gone with its set-up.
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::RemoveArrangement)));
    ask(&mut screen, Command::Bay(OfBay::Show(SALOON.into())));
    assert!(beside(&screen).is_empty());
}
