//! What a card asks a person to find out: its "How" leads the keyboard to the row in which that is typed; what is known of the
//! alignment is what was typed there.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar};
use baywright_planner::Step;
use baywright_planner::model::{ReferenceAxis, Vehicle};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{By, NodeT, Queryable};

use crate::sessions::{after_the_end, ask, home, start};
use crate::support::{clear, demo, desk, type_into, usual};

/// The name of what has the keyboard.
fn focused(screen: &Harness<'_, Desk>) -> String {
    let node =
        screen.query_all(By::new().predicate(|node| node.is_focused())).next().expect("something has it");
    let own = node.accesskit_node();
    let name = own.labelled_by().next().and_then(|label| label.label().or(label.value()));
    name.or(own.label()).unwrap_or_default()
}

/// Presses the way out of the first finding that is cured by this step.
fn press_how(screen: &mut Harness<'_, Desk>, step: &Step) {
    let found = &screen.state().answer().assessment.findings;
    let is_own = |cured: &Step| cured == step;
    let index = found.iter().position(|own| own.cure.as_ref().is_some_and(|cure| is_own(&cure.step)));
    ask(screen, Command::Bay(OfBay::Cure(index.expect("a finding that asks for it"))));
    screen.run();
}

#[test]
fn how_leads_to_where_the_car_stands() {
    let mut screen = usual(desk(Path::new("lift-bay"), Some("Saloon on the runways, forward camera")));
    press_how(&mut screen, &Step::TapeCar);
    let name = focused(&screen);
    assert!(name.starts_with("from "), "{name}");
    // A thing's place the same, past its name; also of what is locked: the hand does not move it, a tape does.
    let mut screen = usual(demo());
    let found = &screen.state().answer().assessment.findings;
    let mut steps = found.iter().filter_map(|own| Some(&own.cure.as_ref()?.step));
    let tape = steps.find(|step| matches!(step, Step::Tape { .. })).cloned();
    let tape = tape.expect("something is not taped");
    press_how(&mut screen, &tape);
    screen.get_by_label_contains("Type what the tape reads on the left");
    let name = focused(&screen);
    assert!(name.starts_with("from "), "{name}");
}

/// One wheel's toe is no thrust line: nobody typed that the other's is nothing.
#[test]
fn how_leads_to_the_alignment_and_half_of_it_is_not_known() {
    let home = home("alignment");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    let mut car = Vehicle::clone(screen.state().document().draft().unwrap().car());
    for aiming in &mut car.aimings {
        aiming.axis = ReferenceAxis::ThrustLine;
    }
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(car))));
    ask(&mut screen, Command::Car(OfCar::Keep));
    screen.run();
    assert!(screen.state().document().draft().is_none());
    press_how(&mut screen, &Step::EnterAlignment);
    assert_eq!(focused(&screen), "Rear left toe");
    let known = |screen: &Harness<'_, Desk>| {
        screen.state().answer().arrangement.on_this_car.told_rear_toe().both_rad()
    };
    let is_asked = |screen: &Harness<'_, Desk>| {
        let found = &screen.state().answer().assessment.findings;
        found.iter().any(|own| own.cure.as_ref().is_some_and(|cure| cure.step == Step::EnterAlignment))
    };
    assert!(known(&screen).is_none() && is_asked(&screen));
    type_into(&mut screen, "Rear left toe", "0.1");
    // Which way is asked, never taken from a sign; Enter led to the question.
    screen.get_by_label_contains("Not used until you say which way");
    screen.key_press(Key::ArrowDown);
    screen.run();
    assert!(screen.query_by_label_contains("Not used until you say which way").is_none());
    screen.get_by_label_contains("of one rear wheel alone says nothing yet");
    assert!(known(&screen).is_none() && is_asked(&screen));
    // It is entered all the same: undo takes it back, and "How" asks for the other one.
    let half =
        |screen: &Harness<'_, Desk>| screen.state().answer().arrangement.on_this_car.told_rear_toe().left_rad;
    assert_eq!(screen.state().undoes().as_deref(), Some("Measured on this car"));
    ask(&mut screen, Command::Undo);
    assert!(half(&screen).is_none() && screen.query_by_label_contains("alone says nothing yet").is_none());
    ask(&mut screen, Command::Redo);
    assert!((half(&screen).unwrap().to_degrees() - 0.1).abs() < 1e-9);
    press_how(&mut screen, &Step::EnterAlignment);
    assert_eq!(focused(&screen), "Rear right toe");
    // The program dies with its window, and what was entered is there after it.
    screen.state_mut().wait_until_kept();
    drop(screen);
    let mut screen = after_the_end(&home);
    screen.get_by_label_contains("Open it again: Bay: ").click();
    screen.run();
    assert!((half(&screen).unwrap().to_degrees() - 0.1).abs() < 1e-9 && is_asked(&screen));
    press_how(&mut screen, &Step::EnterAlignment);
    screen.get_by_label_contains("of one rear wheel alone says nothing yet");
    type_into(&mut screen, "Rear right toe", "0,12");
    screen.key_press(Key::ArrowDown);
    screen.run();
    let (left, right) = known(&screen).unwrap();
    assert!((left.to_degrees() - 0.1).abs() < 1e-9 && (right.to_degrees() - 0.12).abs() < 1e-9);
    assert!(!is_asked(&screen) && screen.query_by_label_contains("alone says nothing yet").is_none());
    // One step back, and no thrust line is known.
    ask(&mut screen, Command::Undo);
    assert!(known(&screen).is_none());
    ask(&mut screen, Command::Redo);
    screen.get_by_label("Rear left toe").click();
    screen.run();
    screen.key_combination_modifiers(Modifiers::COMMAND, &[Key::A]);
    screen.key_press(Key::Delete);
    screen.key_press(Key::Enter);
    screen.run();
    assert!(known(&screen).is_none() && is_asked(&screen));
    clear(home);
}
