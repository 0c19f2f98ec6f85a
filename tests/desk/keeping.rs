//! A car of one's own is changed, and kept or refused.

use baywright_desk::screen::Desk;
use baywright_desk::screen::car::Begin;
use baywright_desk::screen::command::Command;
use baywright_planner::model::Vehicle;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::own::{ask, enter_car, home, start};

fn change(screen: &mut Harness<'_, Desk>, change: impl FnOnce(&mut Vehicle)) {
    let mut car = Vehicle::clone(screen.state().document().draft().unwrap().car());
    change(&mut car);
    ask(screen, Command::ChangeCar("A change".into(), Box::new(car)));
}

#[test]
fn a_car_whose_file_someone_else_changed_is_not_replaced() {
    let home = home("car-changed");
    let mut screen = start(&home);
    enter_car(&mut screen);
    let id = screen.state().answer().arrangement.vehicle.id.clone();
    let path = home.join(format!("vehicle-profiles/{id}.ron"));
    ask(&mut screen, Command::BeginCar(Begin::Change));
    change(&mut screen, |car| car.name = "Mine".into());
    // Somebody mends a figure meanwhile.
    let theirs = std::fs::read_to_string(&path).unwrap().replace("4300", "4310");
    assert!(theirs.contains("4310"));
    std::fs::write(&path, &theirs).unwrap();
    ask(&mut screen, Command::KeepCar);
    assert!(screen.query_by_label_contains("someone else changed").is_some());
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    // The way out that the sentence names.
    change(&mut screen, |car| car.id = "mine".into());
    ask(&mut screen, Command::KeepCar);
    assert!(screen.state().document().draft().is_none());
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    assert_eq!(screen.state().answer().arrangement.vehicle.name, "Mine");
    std::fs::remove_dir_all(home).unwrap();
}

#[test]
fn an_aiming_that_another_arrangement_needs_is_not_renamed_away() {
    let home = home("car-needed");
    let mut screen = start(&home);
    enter_car(&mut screen);
    // Both arrangements show the car from now on.
    ask(&mut screen, Command::Duplicate);
    std::fs::create_dir_all(home.join("bay-layouts")).unwrap();
    let bay = home.join("bay-layouts/bay.ron");
    ask(&mut screen, Command::SaveAs(bay.clone(), false));
    let aiming = screen.state().answer().arrangement.aiming.id.clone();
    ask(&mut screen, Command::BeginCar(Begin::Change));
    change(&mut screen, |car| car.rename_aiming(0, "after a new radar".into()));
    ask(&mut screen, Command::KeepCar);
    assert!(screen.state().document().draft().is_some());
    assert!(screen.query_by_label_contains(&format!("needs “{aiming}” of this car")).is_some());
    assert!(crate::support::desk(&bay, None).answer().arrangement.aiming.id == aiming, "it still opens");
    std::fs::remove_dir_all(home).unwrap();
}
