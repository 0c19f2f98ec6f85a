//! When a routine failed: what it said is typed on a page, what could explain it stands there, and a check that is made counts.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::page::Page;
use baywright_desk::screen::view::Tab;
use baywright_planner::edit::Edit;
use baywright_planner::failed::{Suspect, ToCheck, Way, Whose};
use baywright_planner::geometry::DVec2;
use baywright_planner::words::Language;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::ask;
use crate::support::{desk, type_into, usual};

fn page(screen: &Harness<'_, Desk>) -> baywright_desk::screen::page::FailedPage {
    match screen.state().view().page() {
        Some(Page::Failed(page)) => (**page).clone(),
        other => panic!("{other:?}"),
    }
}

fn on_marks() -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    screen
}

fn open(screen: &mut Harness<'_, Desk>) {
    screen.get_by_label("The routine failed \u{2026}").focus();
    screen.run();
    screen.key_press(egui::Key::Space);
    screen.run();
    weighed(screen);
}

fn choose(screen: &mut Harness<'_, Desk>, label: &str) {
    screen.get_by_label(label).click();
    screen.run();
    weighed(screen);
}

/// Frames until what stands there is weighed, and of what stands there.
fn weighed(screen: &mut Harness<'_, Desk>) {
    let start = std::time::Instant::now();
    while screen.state().weighed().is_none_or(|(_, is_older)| is_older) {
        assert!(start.elapsed() < std::time::Duration::from_secs(60), "it never came");
        std::thread::sleep(std::time::Duration::from_millis(10));
        screen.step();
    }
    screen.run();
}

fn typed(screen: &mut Harness<'_, Desk>, label: &str, text: &str) {
    type_into(screen, label, text);
    weighed(screen);
}

fn found(screen: &Harness<'_, Desk>) -> baywright_planner::failed::Explained {
    screen.state().weighed().unwrap().0.clone().unwrap()
}

#[test]
fn what_it_said_is_typed_and_what_could_be_is_ranked() {
    let mut screen = on_marks();
    open(&mut screen);
    // Only that it failed: something can be said, but not what.
    screen.get_by_label_contains("Cannot tell yet");
    choose(&mut screen, "Left and right, left");
    // A way is nobody's until it is said whose.
    screen.get_by_label_contains("Say first whose way it is");
    choose(&mut screen, "where the target is seen");
    typed(&mut screen, "By how much, sideways", "0.6");
    let own = page(&screen);
    assert_eq!(own.said.whose, Some(Whose::Target));
    let Way::Above(Some(by)) = own.said.sideways else { panic!("{:?}", own.said) };
    assert!((by.to_degrees() - 0.6).abs() < 1e-9);
    screen.get_by_label_contains("Check first: ");
    screen.get_by_label_contains("Of the sensor itself nothing is said");
    // In minutes of arc it is the same.
    typed(&mut screen, "By how much, sideways", "36'");
    let Way::Above(Some(by)) = page(&screen).said.sideways else { panic!() };
    assert!((by.to_degrees() - 0.6).abs() < 1e-9);
    // What is no turn stays in its field, with the reason; so does what no routine tells.
    typed(&mut screen, "By how much, sideways", "left");
    screen.get_by_label_contains("is no angle");
    typed(&mut screen, "By how much, sideways", "0.4");
    assert!(screen.query_by_label_contains("is no angle").is_none());
    // The routine's own limit takes the place of the aiming's.
    let before = found(&screen);
    typed(&mut screen, "The routine's own limit", "0.2");
    let after = found(&screen);
    assert_ne!(before.allowed, after.allowed);
    assert!((after.allowed[0].to_degrees() - 0.2).abs() < 1e-9);
}

/// What is proposed is checked and typed, until one thing is named; what was typed is there again when one comes back.
#[test]
fn checks_lead_to_the_cause() {
    let mut screen = on_marks();
    open(&mut screen);
    choose(&mut screen, "where the target is seen");
    choose(&mut screen, "Up and down, up");
    choose(&mut screen, "Left and right, fine");
    typed(&mut screen, "By how much, up or down", "0.5");
    for _ in 0..8 {
        let own = found(&screen);
        if own.is_clear {
            break;
        }
        match own.check {
            Some(ToCheck::Part { at: Suspect::StandHeight, .. }) => {
                choose(&mut screen, "too high");
                typed(&mut screen, "By how much", "35");
            }
            Some(ToCheck::Part { .. }) => choose(&mut screen, "as it was"),
            other => panic!("{other:?}"),
        }
    }
    let own = page(&screen);
    let found = found(&screen);
    assert!(found.is_clear && !own.looked.is_empty(), "{own:?}");
    screen.get_by_label_contains("Likeliest by far");
    screen.key_press(egui::Key::Escape);
    screen.run();
    assert_eq!(screen.state().view().page(), None);
    open(&mut screen);
    assert_eq!(page(&screen).looked, own.looked);
    // Taken back, it counts no more.
    let name = format!("Take back, {}", {
        let answer = screen.state().answer();
        let locale = screen.state().view().locale;
        baywright_planner::words::Words::new(&answer.judged, locale).looked(&own.looked[0])
    });
    choose(&mut screen, &name);
    assert_eq!(page(&screen).looked.len(), own.looked.len() - 1);
}

#[test]
fn it_is_asked_from_the_menu_and_in_german() {
    let mut screen = on_marks();
    ask(&mut screen, Command::View(OfView::Language(Language::German)));
    let texts = Language::German.failed();
    screen.get_by_label(texts.ask).focus();
    screen.run();
    screen.key_press(egui::Key::Space);
    screen.run();
    weighed(&mut screen);
    screen.get_by_label_contains("Was es erklären könnte");
    screen.get_by_label_contains("Über den Sensor selbst");
}

/// While it is weighed anew, what was weighed before is there, and says that it is older: in every frame, however many that takes.
#[test]
fn what_is_older_says_so() {
    let mut screen = on_marks();
    open(&mut screen);
    for label in ["Left and right, left", "Left and right, right", "Left and right, fine"] {
        screen.get_by_label(label).click();
        let start = std::time::Instant::now();
        loop {
            screen.step();
            let older = screen.state().weighed().map(|(_, is_older)| is_older);
            let is_said = screen.query_by_label_contains("What follows is older").is_some();
            assert_eq!(is_said, older == Some(true), "{label}");
            if older == Some(false) {
                break;
            }
            assert!(start.elapsed() < std::time::Duration::from_secs(60), "it never came");
        }
        weighed(&mut screen);
        assert!(screen.query_by_label_contains("What follows is older").is_none());
    }
    screen.get_by_label_contains("Cannot tell yet");
}

/// The hatchback's radar has screws of 1 mm pitch, 74 mm and 58 mm from their pivots (made up): 74 · tan 0.1° = 0.129 turns, of 0.6°
/// six times as many. What is fine, or not said, is told nothing of; nor is anything without screws.
#[test]
fn turns_of_a_screw_are_told_where_the_profile_has_one() {
    let mut screen = on_marks();
    open(&mut screen);
    let turns = |screen: &Harness<'_, Desk>, of: &str| screen.query_all_by_label_contains(of).count();
    assert_eq!(turns(&screen, "turns of its screw"), 0);
    choose(&mut screen, "where the target is seen");
    choose(&mut screen, "Left and right, left");
    assert_eq!(
        turns(
            &screen,
            "A tenth of a degree left or right is 0.13 turns of its screw; clockwise moves the beam right."
        ),
        1
    );
    type_into(&mut screen, "By how much, sideways", "0.6");
    assert_eq!(turns(&screen, "0.13 turns of its screw, 0.60° are 0.77; clockwise moves the beam right."), 1);
    assert_eq!(turns(&screen, "Turn only as the maker's procedure says."), 1);
    choose(&mut screen, "Up and down, up");
    assert_eq!(
        turns(
            &screen,
            "A tenth of a degree up or down is 0.10 turns of its screw; clockwise moves the beam up."
        ),
        1
    );
    choose(&mut screen, "Left and right, fine");
    choose(&mut screen, "Up and down, fine");
    assert_eq!(turns(&screen, "turns of its screw"), 0);
}

/// Beside what was taped too, once something is off; and nothing of it where the car's own software aims.
#[test]
fn turns_are_told_beside_marks_that_are_off() {
    let mut screen = on_marks();
    let said = "put right there, not by the screw";
    assert!(screen.query_by_label_contains(said).is_none());
    // Mark 5 lies 6 mm too far ahead: the plate on the middle of 5 and 6, 2 m apart, looks aside by 0.17°.
    let scene = screen.state().answer().assessment.scene.clone();
    let at = |id: &str| {
        let at = scene.marks.iter().find(|own| own.id.as_str() == id).unwrap().at.unwrap();
        if id == "5" { at + scene.bay_from_vehicle.turned(DVec2::new(6.0, 0.0)) } else { at }
    };
    for own in &scene.readings {
        let edit = Edit::Tape {
            from: own.from.clone(),
            to: own.to.clone(),
            read_mm: Some(at(own.from.as_str()).distance(at(own.to.as_str())).round()),
            taken: Default::default(),
        };
        ask(&mut screen, Command::Bay(OfBay::Edit(edit)));
    }
    screen.get_by_label_contains(said);
    screen.get_by_label_contains("turns of its screw");
}
