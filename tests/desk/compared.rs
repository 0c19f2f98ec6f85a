//! Two set-ups compared, and the bay with what it was when it was opened.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfBay, OfCar, OfFile};
use baywright_desk::screen::page::{Compare, Page, With};
use baywright_drawing::{Fit, Lettering, Shape, Turned, ViewState, top_view};
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Vehicle;
use baywright_planner::{Subject, Verdict};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::legible::{MOST_FAR_PX, far_figures};
use crate::own::enter_car;
use crate::sessions::{ask, home, press, start};
use crate::support::{demo, usual};

/// What was changed where it stands is compared with what it was when the bay was opened, though nobody made a copy.
#[test]
fn as_opened_is_always_there_to_compare_with() {
    let mut screen = usual(demo());
    let found = screen.state().answer().assessment.findings.len();
    press(&mut screen, "Do all of this");
    ask(&mut screen, Command::Page(Some(Page::Compare(Default::default()))));
    screen.get_by_label("As opened");
    screen.get_by_label("Gone (3)");
    screen.get_by_label("3 points stop the aiming, 5 need care.");
    ask(&mut screen, Command::Page(None));
    // A copy of it was not there then: it comes from the one that it was made from.
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    let with = Some(With::Opened);
    ask(&mut screen, Command::Page(Some(Page::Compare(Compare { with }))));
    screen.get_by_label("As opened: As found");
    screen.get_by_label("Gone (3)");
    assert!(found > screen.state().answer().assessment.findings.len());
}

/// In the small pictures each figure of what stops stands by its line or its thing, and what is found goes by its whole name.
#[test]
fn figures_stand_by_their_things_in_small_pictures() {
    let screen = usual(demo());
    let answer = screen.state().answer();
    let told = ["trolley", "tool cabinet"].map(|id| Subject::Thing(id.into())).to_vec();
    let state = ViewState { turned: Turned::ToRoom, told, ..ViewState::default() };
    let middle = answer.judged.bay.room.bounds().centre();
    for (size, px_per_mm) in [((596.0, 304.0), 0.0373), ((596.0, 333.0), 0.0421)] {
        let fit = Fit::Window { size: DVec2::from(size), px_per_mm, middle };
        let drawing = top_view(&answer.judged, &answer.assessment, &state, fit, &Lettering::default());
        let far = far_figures(&drawing, &answer.assessment, MOST_FAR_PX);
        assert!(far.is_empty(), "{size:?}: {far:#?}");
        let texts = drawing.items.iter().filter_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.text.as_str()),
            _ => None,
        });
        let texts: Vec<&str> = texts.collect();
        for whole in ["trolley", "tool cabinet", "parked car", "oil drum", "waste bin"] {
            assert!(texts.contains(&whole), "{size:?}: no “{whole}” in {texts:?}");
        }
    }
}

#[test]
fn before_and_after_moving_the_cabinet() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    assert_eq!(screen.state().document().shown().as_str(), "As found 2");
    press(&mut screen, "Do all of this");
    ask(&mut screen, Command::Page(Some(Page::Compare(Default::default()))));
    assert!(screen.query_by_label("Gone (3)").is_some());
    // The moves go past what the places of the things and of the car are uncertain by: nothing new is to be minded.
    assert!(screen.query_by_label("New (0)").is_some());
    assert!(screen.query_by_label("In both (5)").is_some());
    press(&mut screen, "Show this one");
    assert_eq!(screen.state().document().shown().as_str(), "As found");
    // Undone twice, the copy is gone and something is still shown.
    ask(&mut screen, Command::Bay(OfBay::Show("As found 2".into())));
    for _ in 0..2 {
        ask(&mut screen, Command::Undo);
    }
    assert_eq!(screen.state().document().shown().as_str(), "As found");
    assert!(!screen.state().document().is_changed() && !screen.state().answer().stale);
}

/// The set-up as it was opened is judged by the car that there is now, also where the car was changed while nobody looked.
#[test]
fn what_is_compared_with_is_judged_by_the_car_as_it_is_now() {
    let home = home("compared-car");
    let mut screen = start(&home);
    enter_car(&mut screen);
    std::fs::create_dir_all(home.join("bay-layouts")).unwrap();
    let bay = home.join("bay-layouts/bay.ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(bay.clone(), false)));
    ask(&mut screen, Command::File(OfFile::Open(bay)));
    let with = || Command::Page(Some(Page::Compare(Compare { with: Some(With::Opened) })));
    let nothing_new = |screen: &Harness<'_, Desk>| screen.query_by_label("New (0)").is_some();
    ask(&mut screen, with());
    assert!(nothing_new(&screen));
    ask(&mut screen, Command::Page(None));
    // So large a car wants more of the room than there is.
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    let mut car = Vehicle::clone(screen.state().document().draft().unwrap().car());
    for placement in car.aimings.iter_mut().flat_map(|own| &mut own.placements) {
        placement.stand_off.distance_mm += 20_000.0;
    }
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(car))));
    ask(&mut screen, Command::Car(OfCar::Keep));
    assert!(screen.state().document().draft().is_none());
    ask(&mut screen, with());
    assert!(screen.state().answer().assessment.verdict == Verdict::NotReady);
    assert!(nothing_new(&screen), "the one is judged by the car as it was");
    drop(screen);
    crate::support::clear(home);
}
