//! A visit chosen from the work that is done on a car.

use baywright_desk::screen::command::{Command, OfBay};
use baywright_desk::screen::page::Page;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home, press, start};
use crate::support::type_into;

#[test]
fn a_visit_is_chosen_from_the_work_that_is_done() {
    let home = home("visit");
    let mut screen = start(&home);
    ask(&mut screen, Command::Bay(OfBay::ChooseCar("example-saloon".into())));
    ask(&mut screen, Command::BeginVisit);
    assert!(screen.query_by_label("Nothing is ticked yet.").is_some());
    // The list itself is changed without a text editor, and kept as the shop's own.
    press(&mut screen, "Change this list");
    type_into(&mut screen, "Work 1, name", "Glass fitted");
    let Some(Page::Visit(page)) = screen.state_mut().view_mut().page_mut() else { panic!("no page") };
    page.list.triggers.truncate(4);
    screen.run();
    press(&mut screen, "Keep as the shop's own list");
    let kept = baywright_files::triggers(Some(&home)).unwrap();
    assert_eq!((kept.triggers.len(), kept.triggers[0].title.as_str()), (4, "Glass fitted"));
    assert_eq!(kept.name, "The shop's own list");
    let Some(Page::Visit(page)) = screen.state().view().page().cloned() else { panic!("no page") };
    // The first few of the list: whatever this car has of it is to be aimed, each once.
    for trigger in page.list.triggers.iter().take(3) {
        screen.get_by_label(&trigger.title).click();
        screen.run();
    }
    press(&mut screen, "Aim these, in this order");
    // One step, that says what it was.
    assert_eq!(screen.state().undoes().as_deref(), Some("What the car is in for"));
    let chosen = screen.state().document().layout().clone();
    ask(&mut screen, Command::Undo);
    assert!(screen.state().document().saved_arrangement().unwrap().visit.is_empty());
    ask(&mut screen, Command::Redo);
    assert_eq!(*screen.state().document().layout(), chosen);
    let visit = screen.state().document().saved_arrangement().unwrap().visit.clone();
    let car = &screen.state().answer().arrangement.vehicle;
    assert!(!visit.is_empty() && visit.len() <= car.aimings.len());
    assert_eq!(screen.state().answer().arrangement.aiming.id, visit[0]);
    let place = format!("Aiming 1 of {}", visit.len());
    assert!(screen.query_all_by_label_contains(&place).next().is_some(), "{place}");
    // A car that lacks what the work asks for: that is said, and not that nothing is to be done.
    ask(&mut screen, Command::Bay(OfBay::ChooseCar("example-hatchback-small".into())));
    ask(&mut screen, Command::BeginVisit);
    press(&mut screen, "Glass fitted");
    assert!(screen.query_by_label_contains("none of them is entered for this car").is_some());
    assert!(screen.query_by_label_contains("nothing is to be aimed").is_none());
    ask(&mut screen, Command::Page(None));
    // Another car is not in for it.
    ask(&mut screen, Command::Bay(OfBay::ChooseCar("example-van".into())));
    assert!(screen.state().document().saved_arrangement().unwrap().visit.is_empty());
    crate::support::clear(home);
}
