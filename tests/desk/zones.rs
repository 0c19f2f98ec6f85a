//! An aiming without keep-clear zones: its card leads to where they are entered, or to where it is said that there are none.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar};
use baywright_planner::model::Vehicle;
use baywright_planner::{Code, Severity};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home, press, start};

const ENTER: &str = "Enter them: No keep-clear zone is entered for this aiming";
const NONE: &str = "The procedure names none";

/// A car of one's own whose zones nobody entered.
fn zoneless(screen: &mut Harness<'_, Desk>) {
    ask(screen, Command::Car(OfCar::Begin(Begin::Change)));
    let mut car = Vehicle::clone(screen.state().document().draft().unwrap().car());
    car.aimings.iter_mut().for_each(|own| own.zones.clear());
    ask(screen, Command::Car(OfCar::Change(Box::new(car))));
    ask(screen, Command::Car(OfCar::Keep));
    assert!(screen.state().document().draft().is_none(), "it is kept");
}

fn found(screen: &Harness<'_, Desk>, code: Code) -> Option<Severity> {
    let findings = &screen.state().answer().assessment.findings;
    findings.iter().find(|own| own.code() == code).map(|own| own.severity)
}

/// The press on the card, then what it leads to: in sight, in the aiming that is shown.
fn enter(screen: &mut Harness<'_, Desk>) {
    screen.get_by_label(ENTER).scroll_to_me();
    screen.run();
    press(screen, ENTER);
    screen.run();
    for label in [NONE, "Add a zone"] {
        let rect = screen.get_by_label(label).rect();
        assert!(rect.top() > 100.0 && rect.bottom() < 880.0 && rect.left() < 600.0, "{label} at {rect}");
    }
}

#[test]
fn the_card_of_missing_zones_leads_to_where_they_are_entered() {
    let home = home("zones-entered");
    let mut screen = start(&home);
    zoneless(&mut screen);
    assert_eq!(found(&screen, Code::ZonesMissing), Some(Severity::Care));
    enter(&mut screen);
    press(&mut screen, "Add a zone");
    let shown = screen.state().answer().arrangement.aiming.id.clone();
    let car = screen.state().document().draft().unwrap().car();
    let zones: Vec<usize> = car.aimings.iter().map(|own| own.zones.len()).collect();
    let at = car.aimings.iter().position(|own| own.id == shown).unwrap();
    assert!(zones.iter().enumerate().all(|(i, own)| *own == usize::from(i == at)), "{zones:?}");
    assert!(screen.query_by_label(NONE).is_none(), "there is one");
    crate::support::clear(home);
}

#[test]
fn a_procedure_that_names_none_is_said_once_and_needs_no_care() {
    let home = home("zones-none");
    let mut screen = start(&home);
    zoneless(&mut screen);
    enter(&mut screen);
    press(&mut screen, NONE);
    assert_eq!(found(&screen, Code::ZonesMissing), None);
    assert_eq!(found(&screen, Code::NoZoneNamed), Some(Severity::Note));
    // Back and forth, as every figure of the car.
    press(&mut screen, "Undo");
    assert_eq!(found(&screen, Code::ZonesMissing), Some(Severity::Care));
    press(&mut screen, "Do again");
    assert_eq!(found(&screen, Code::NoZoneNamed), Some(Severity::Note));
    ask(&mut screen, Command::Car(OfCar::Keep));
    assert_eq!(found(&screen, Code::NoZoneNamed), Some(Severity::Note));
    let kept: Vec<String> = std::fs::read_dir(home.join("vehicle-profiles"))
        .unwrap()
        .map(|file| std::fs::read_to_string(file.unwrap().path()).unwrap())
        .collect();
    assert!(kept.iter().any(|text| text.contains("names_no_zone: true")), "{kept:?}");
    // A zone that is added takes it away: both would be said.
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    ask(&mut screen, Command::Car(OfCar::Whole(true)));
    crate::forms::unfold(&mut screen);
    screen.get_all_by_label("Add a zone").next().unwrap().scroll_to_me();
    screen.run();
    screen.get_all_by_label("Add a zone").next().unwrap().click();
    screen.run();
    let car = screen.state().document().draft().unwrap().car();
    assert!(car.aimings.iter().all(|own| !own.names_no_zone || own.zones.is_empty()));
    assert!(car.aimings.iter().any(|own| own.zones.len() == 1 && !own.names_no_zone));
    crate::support::clear(home);
}
