//! "As planned, wall moved": a building for one arrangement alone, seen as such wherever it is changed, compared, given up and
//! made the bay's.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::page::{Compare, Page, Question, With};
use baywright_desk::screen::unbroken;
use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::model::Bay;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{after_the_end, ask, home, press, start};
use crate::support::{demo, type_into, usual};

const PLAN: &str = "Plan the building for this set-up only";
const GIVE_UP: &str = "Back to the bay's building";
const ADOPT: &str = "Make it the bay's building";
/// What stands beside the verdict.
pub const SIGN: &str = "building as planned";

fn select(screen: &mut Harness<'_, Desk>, subject: Subject) {
    ask(screen, Command::View(OfView::Select(Some(subject))));
}

fn show(screen: &mut Harness<'_, Desk>, arrangement: &str) {
    ask(screen, Command::Bay(OfBay::Show(arrangement.into())));
}

fn seen(screen: &Harness<'_, Desk>) -> Bay {
    screen.state().answer().arrangement.bay.clone()
}

fn is_said(screen: &Harness<'_, Desk>, text: &str) -> bool {
    screen.query_by_label_contains(text).is_some()
}

/// The demo's second arrangement, its office wall 600 mm further out in a building of its own, the wall in hand.
pub fn planned(screen: &mut Harness<'_, Desk>) {
    show(screen, "Trolley and cabinet moved");
    select(screen, Subject::Wall("office wall".into()));
    assert!(is_said(screen, "The bay's: changed in every set-up"));
    assert!(screen.query_by_label(SIGN).is_none());
    press(screen, PLAN);
    assert!(is_said(screen, "As planned: changed in this set-up alone"));
    screen.get_by_label(SIGN);
    type_into(screen, "Push into the room", "-600");
}

#[test]
fn a_wall_moved_in_one_arrangement_stays_with_it() {
    let mut screen = usual(demo());
    let before = seen(&screen).room;
    planned(&mut screen);
    let out = |bay: &Bay| bay.room.bounds().size().x - before.bounds().size().x;
    assert!((out(&seen(&screen)) - 600.0).abs() < 1e-6);
    assert_eq!(screen.state().document().layout().bay.room, before);
    // The others are in the bay's building, and say so.
    show(&mut screen, "As found");
    assert_eq!(seen(&screen).room, before);
    assert!(screen.query_by_label(SIGN).is_none());
    select(&mut screen, Subject::Wall("office wall".into()));
    assert!(is_said(&screen, "The bay's: changed in every set-up"));
    // A door put in there is the bay's, and not the planned building's.
    ask(
        &mut screen,
        Command::Bay(OfBay::AddPart(baywright_desk::screen::command::Part::Opening(
            baywright_planner::model::OpeningKind::Gap,
        ))),
    );
    let count = screen.state().document().layout().bay.openings.len();
    show(&mut screen, "Trolley and cabinet moved");
    assert_eq!(seen(&screen).openings.len() + 1, count);
}

/// The sign leads to what differs; the list says it with its figures.
#[test]
fn the_sign_leads_to_what_differs() {
    let mut screen = usual(demo());
    planned(&mut screen);
    press(&mut screen, SIGN);
    assert_eq!(screen.state().view().selected, Some(Subject::Floor));
    assert!(is_said(&screen, "Against the bay's:"));
    screen.get_by_label(&unbroken("Office wall: 600 mm further out"));
    type_into(&mut screen, "Clear height", "3250");
    screen.get_by_label(&unbroken("Room: ceiling at 3\u{202f}250 mm instead of 3\u{202f}000 mm"));
}

#[test]
fn two_buildings_are_compared_in_words() {
    let mut screen = usual(demo());
    planned(&mut screen);
    ask(
        &mut screen,
        Command::Page(Some(Page::Compare(Compare { with: Some(With::Other("As found".into())) }))),
    );
    screen.get_by_label(&unbroken("Office wall: 600 mm further out"));
    let longer = screen.query_all_by_label_contains("long instead of").count();
    assert_eq!(longer, 2, "the walls beside it");
    assert!(screen.query_all_by_label(SIGN).count() >= 1);
    // The other way round it is the bay's that is further in.
    press(&mut screen, "Show this one");
    ask(
        &mut screen,
        Command::Page(Some(Page::Compare(Compare {
            with: Some(With::Other("Trolley and cabinet moved".into())),
        }))),
    );
    screen.get_by_label(&unbroken("Office wall: 600 mm further in"));
}

#[test]
fn given_up_made_the_bays_and_undone() {
    let mut screen = usual(demo());
    let before = seen(&screen).room;
    planned(&mut screen);
    let planned = seen(&screen).room;
    press(&mut screen, GIVE_UP);
    assert_eq!(seen(&screen).room, before);
    assert!(screen.query_by_label(SIGN).is_none());
    ask(&mut screen, Command::Undo);
    assert_eq!(seen(&screen).room, planned);
    screen.get_by_label(SIGN);
    // Another like it has the same building, and keeps it while this one's becomes the bay's.
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    screen.get_by_label(SIGN);
    show(&mut screen, "Trolley and cabinet moved");
    select(&mut screen, Subject::Floor);
    press(&mut screen, ADOPT);
    assert!(screen.query_by_label(SIGN).is_none());
    assert_eq!(screen.state().document().layout().bay.room, planned);
    show(&mut screen, "As found");
    assert_eq!(seen(&screen).room, planned);
    show(&mut screen, "Trolley and cabinet moved 2");
    screen.get_by_label(SIGN);
    press(&mut screen, SIGN);
    assert!(is_said(&screen, "so far it is as the bay's"));
    for _ in 0..4 {
        ask(&mut screen, Command::Undo);
    }
    assert!(!screen.state().document().is_changed());
    assert!(screen.state().document().layout().arrangements.iter().all(|own| own.building.is_none()));
}

/// A thing's size goes with the building that it stands in, and the form says so.
#[test]
fn a_fixed_thing_has_another_size_here_only() {
    let mut screen = usual(demo());
    planned(&mut screen);
    select(&mut screen, Subject::Thing("column".into()));
    assert!(is_said(&screen, "Size and facts: changed in this set-up alone."));
    type_into(&mut screen, "across", "300");
    let across = |screen: &Harness<'_, Desk>| {
        let bay = seen(screen);
        bay.things.iter().find(|own| own.id.as_str() == "column").unwrap().footprint.shape().clone()
    };
    assert_eq!(across(&screen), baywright_planner::model::Shape::Round { diameter_mm: 300.0 });
    show(&mut screen, "As found");
    assert_eq!(across(&screen), baywright_planner::model::Shape::Round { diameter_mm: 120.0 });
    select(&mut screen, Subject::Thing("column".into()));
    assert!(is_said(&screen, "Part of the building: place, size and facts are the bay's, in every set-up."));
}

/// What was planned is kept by the journal like everything else.
#[test]
fn it_survives_the_end_of_the_program() {
    let home = home("building");
    let mut screen = start(&home);
    planned(&mut screen);
    let room = seen(&screen).room;
    screen.state_mut().wait_until_kept();
    drop(screen);
    let mut screen = after_the_end(&home);
    ask(&mut screen, Command::File(baywright_desk::screen::command::OfFile::TakeUp(0)));
    show(&mut screen, "Trolley and cabinet moved");
    assert_eq!(seen(&screen).room, room);
    screen.get_by_label(SIGN);
    drop(screen);
    crate::support::clear(home);
}

/// What other arrangements would forget by it is said before.
#[test]
fn made_the_bays_it_takes_nothing_from_others_unsaid() {
    let mut screen = usual(demo());
    planned(&mut screen);
    let mut bay = screen.state().document().bay().into_owned();
    bay.things.retain(|own| own.id.as_str() != "waste bin");
    show(&mut screen, "As found");
    let bin = seen(&screen).things.into_iter().find(|own| own.id.as_str() == "waste bin").unwrap();
    let place = bin.place.shifted(baywright_planner::geometry::DVec2::new(100.0, 0.0));
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Place { thing: bin.id.clone(), place })));
    show(&mut screen, "Trolley and cabinet moved");
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    let before = screen.state().document().layout().clone();
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    press(&mut screen, ADOPT);
    screen.get_by_label_contains("they forget it");
    screen.get_by_label_contains("As found: waste bin");
    assert_eq!(*screen.state().document().layout(), before, "not yet");
    press(&mut screen, "Stay here");
    assert_eq!(*screen.state().document().layout(), before);
    press(&mut screen, ADOPT);
    let question = screen.state().view().page().cloned();
    assert!(matches!(question, Some(Page::Ask(Question::AdoptBuilding(_)))));
    ask(&mut screen, Command::Page(None));
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::AdoptBuilding)));
    let layout = screen.state().document().layout();
    assert!(layout.arrangements[0].moved.iter().all(|own| own.thing != bin.id));
}
