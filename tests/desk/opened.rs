//! Whatever the window lets happen to a layout and its cars can be opened again; what cannot be opened shuts out nothing else.

use std::path::{Path, PathBuf};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfFile};
use baywright_desk::session::draft::Draft;
use baywright_planner::Code;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::assumed::BodyPart;
use baywright_planner::model::{OnThisCar, Vehicle};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::own::enter_car;
use crate::sessions::{ask, home, start};
use crate::support::{today, usual};

/// A car of one's own in the demo, which is saved in `home`.
fn with_own_car(home: &Path) -> (Harness<'static, Desk>, PathBuf) {
    let mut screen = start(home);
    enter_car(&mut screen);
    std::fs::create_dir_all(home.join("bay-layouts")).unwrap();
    let bay = home.join("bay-layouts/bay.ron");
    // The demo's other arrangements are of other cars.
    ask(&mut screen, Command::File(OfFile::SaveAs(bay.clone(), false)));
    (screen, bay)
}

fn change(screen: &mut Harness<'_, Desk>, change: impl FnOnce(&mut Vehicle)) {
    let mut car = Vehicle::clone(screen.state().document().draft().unwrap().car());
    change(&mut car);
    ask(screen, Command::Car(OfCar::Change(Box::new(car))));
}

/// The wheels as the profile has them, all of them found by a tape.
fn measured(screen: &Harness<'_, Desk>) -> OnThisCar {
    let car = &screen.state().answer().arrangement.vehicle;
    let wheels = baywright_planner::model::Wheel::ALL.map(|wheel| car.wheel_point(wheel));
    let back = wheels.map(|at| if at.x < -1.0 { at + DVec2::new(80.0, 0.0) } else { at });
    OnThisCar { wheels: Some(back), ..OnThisCar::default() }
}

fn edit(screen: &mut Harness<'_, Desk>, edit: Edit) {
    ask(screen, Command::Bay(OfBay::Edit(edit)));
}

fn longer(screen: &mut Harness<'_, Desk>) {
    ask(screen, Command::Car(OfCar::Begin(Begin::Change)));
    change(screen, |car| {
        car.enter(BodyPart::Wheelbase);
        car.wheelbase_mm += 130.0;
    });
    ask(screen, Command::Car(OfCar::Keep));
}

/// The layout is saved and read by the strictest reader there is.
fn opens(screen: &mut Harness<'_, Desk>, bay: &Path) {
    ask(screen, Command::Car(OfCar::DropAnyway));
    ask(screen, Command::File(OfFile::Save));
    assert!(!screen.state().document().is_changed());
    baywright_files::open(bay, today()).unwrap_or_else(|faults| panic!("{faults:?}"));
}

#[test]
fn a_car_that_another_arrangement_was_measured_with_is_not_kept_over() {
    let home = home("opened-measured");
    let (mut screen, bay) = with_own_car(&home);
    let profile =
        home.join(format!("vehicle-profiles/{}.ron", screen.state().answer().arrangement.vehicle.id));
    let first = screen.state().document().shown().clone();
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    let measured = measured(&screen);
    edit(&mut screen, Edit::OnThisCar(measured));
    let second = screen.state().document().shown().clone();
    let before = std::fs::read_to_string(&profile).unwrap();
    // Whether the measured one is shown or the other.
    for shown in [first, second.clone()] {
        ask(&mut screen, Command::Bay(OfBay::Show(shown)));
        longer(&mut screen);
        assert!(screen.state().document().draft().is_some());
        let said = format!(
            "Not kept: the set-up “{second}” does not go with it, the rear left wheel as measured, along"
        );
        screen.get_by_label_contains(&said);
        assert_eq!(std::fs::read_to_string(&profile).unwrap(), before);
        opens(&mut screen, &bay);
    }
    // What was measured is given up: now the car is kept, and what was given up does not come back unasked.
    edit(&mut screen, Edit::OnThisCar(OnThisCar::default()));
    longer(&mut screen);
    assert!(screen.state().document().draft().is_none());
    opens(&mut screen, &bay);
    ask(&mut screen, Command::Undo);
    ask(&mut screen, Command::Undo);
    screen.get_by_label_contains(&format!("the set-up “{second}” would not go with its car any more"));
    opens(&mut screen, &bay);
    // What keeps may be at its last note still.
    crate::support::clear(home);
}

/// What undo takes back once a changed car is kept is not the car's file: it is that the set-up goes by the new figures.
#[test]
fn undo_says_what_it_takes_back_of_a_car_that_was_changed() {
    let home = home("opened-figures");
    let (mut screen, bay) = with_own_car(&home);
    let id = screen.state().answer().arrangement.vehicle.id.clone();
    let profile = home.join(format!("vehicle-profiles/{id}.ron"));
    let asks = |screen: &Harness<'_, Desk>| {
        let found = &screen.state().answer().assessment.findings;
        found.iter().position(|own| own.code() == Code::ProfileChanged)
    };
    let said = Some(format!("Take the figures of {id} as they are now"));
    longer(&mut screen);
    assert_eq!((screen.state().undoes(), asks(&screen)), (said.clone(), None));
    let kept = std::fs::read_to_string(&profile).unwrap();
    ask(&mut screen, Command::Undo);
    assert!(asks(&screen).is_some(), "the set-up goes by the older ones again");
    assert_eq!(std::fs::read_to_string(&profile).unwrap(), kept, "the car is as it was kept");
    assert_eq!(screen.state().redoes(), said);
    // Somebody else changes the car while the bay is shut: the card takes the figures as they are, by the same name.
    opens(&mut screen, &bay);
    std::fs::write(&profile, kept.replace("1790", "1795")).unwrap();
    ask(&mut screen, Command::File(OfFile::Open(bay)));
    let found = asks(&screen).expect("it is told");
    ask(&mut screen, Command::Bay(OfBay::Cure(found)));
    assert_eq!((screen.state().undoes(), asks(&screen)), (said, None));
    ask(&mut screen, Command::Undo);
    assert!(asks(&screen).is_some());
    crate::support::clear(home);
}

#[test]
fn an_aiming_that_is_taken_from_a_car_leaves_its_visit() {
    let home = home("opened-visit");
    let (mut screen, bay) = with_own_car(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    change(&mut screen, |car| {
        let mut second = car.aimings[0].clone();
        second.id = "second".into();
        car.aimings.push(second);
    });
    ask(&mut screen, Command::Car(OfCar::Keep));
    let aiming = screen.state().answer().arrangement.aiming.id.clone();
    edit(&mut screen, Edit::Visit(vec![aiming, "second".into()]));
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    change(&mut screen, |car| {
        car.aimings.remove(0);
        car.forget_what_is_gone();
    });
    ask(&mut screen, Command::Car(OfCar::Keep));
    assert!(screen.state().document().draft().is_none());
    assert_eq!(screen.state().document().saved_arrangement().unwrap().visit, ["second".into()]);
    assert_eq!(screen.state().answer().arrangement.aiming.id.as_str(), "second");
    opens(&mut screen, &bay);
    // What keeps may be at its last note still.
    crate::support::clear(home);
}

#[test]
fn a_car_without_an_aiming_is_not_kept_over_the_one_that_is_shown() {
    let home = home("opened-none");
    let (mut screen, bay) = with_own_car(&home);
    let aiming = screen.state().answer().arrangement.aiming.id.clone();
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    // As the form does with the last sensor.
    change(&mut screen, |car| {
        car.sensors.clear();
        car.aimings.clear();
        car.forget_what_is_gone();
    });
    ask(&mut screen, Command::Car(OfCar::Keep));
    assert!(screen.state().document().draft().is_some());
    screen.get_by_label_contains(&format!("needs “{aiming}” of this car"));
    opens(&mut screen, &bay);
    // What keeps may be at its last note still.
    crate::support::clear(home);
}

#[test]
fn an_arrangement_that_does_not_go_with_its_car_shuts_out_no_other() {
    let home = home("opened-in-part");
    let (mut screen, bay) = with_own_car(&home);
    let first = screen.state().document().shown().clone();
    let measured = measured(&screen);
    edit(&mut screen, Edit::OnThisCar(measured.clone()));
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    let second = screen.state().document().shown().clone();
    edit(&mut screen, Edit::OnThisCar(OnThisCar::default()));
    ask(&mut screen, Command::File(OfFile::Save));
    let id = screen.state().answer().arrangement.vehicle.id.clone();
    drop(screen);
    // Somebody corrects the car, with another bay open or by hand.
    let profile = home.join(format!("vehicle-profiles/{id}.ron"));
    let mut car = baywright_files::load_profile(&profile).unwrap().vehicle;
    let mut draft = Draft::new(car.clone(), None, None);
    car.enter(BodyPart::Wheelbase);
    car.wheelbase_mm += 130.0;
    draft.change(car);
    baywright_files::save_profile(&profile, draft.car()).unwrap();
    // `check` answers for all of a file or for nothing of it.
    assert!(baywright_files::open(&bay, today()).is_err());
    let mut screen = usual(crate::support::desk(&bay, None));
    assert_ne!(*screen.state().document().shown(), first);
    let said = format!("The set-up “{first}” is kept as it is and cannot be shown");
    screen.get_by_label_contains(&said);
    ask(&mut screen, Command::Bay(OfBay::Show(second.clone())));
    ask(&mut screen, Command::Bay(OfBay::Show(first.clone())));
    screen.get_by_label_contains(&said);
    assert_eq!(*screen.state().document().shown(), second);
    // It is saved with the rest as it was.
    edit(&mut screen, Edit::Duplicate("third".into()));
    ask(&mut screen, Command::File(OfFile::Save));
    let saved = baywright_files::load_layout(&bay).unwrap();
    assert!(saved.arrangements.iter().any(|own| own.id == first && own.on_this_car == measured));
    assert!(saved.arrangements.iter().any(|own| own.id.as_str() == "third"));
    // What keeps may be at its last note still.
    crate::support::clear(home);
}
