//! Where the figures of one's own car come from: reached and chosen by the keyboard, and said to be open while nobody chose.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar};
use baywright_planner::model::Provenance;
use baywright_planner::{Code, Severity, Verdict};
use egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home, start};
use crate::support::{clear, verdict};
use crate::typing::{happen, key, letters};

const PICKER: &str = "Where these figures come from";

/// Enter from the first figure on, until it leads to what is asked for.
fn enter_until(screen: &mut Harness<'_, Desk>, label: &str) {
    for _ in 0..40 {
        if screen.get_by_label(label).is_focused() {
            return;
        }
        screen.key_press(Key::Enter);
        screen.run();
    }
    panic!("Enter does not lead to {label}");
}

fn source(screen: &Harness<'_, Desk>) -> Provenance {
    screen.state().document().draft().unwrap().car().provenance.clone()
}

#[test]
fn what_nobody_chose_is_not_called_an_example() {
    let home = home("source-open");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.run();
    enter_until(&mut screen, PICKER);
    assert_eq!(source(&screen), Provenance::NotGiven);
    // Enter leads on from it as from any field, and opens nothing.
    enter_until(&mut screen, "Keep this car");
    screen.key_press(Key::Enter);
    screen.run();
    let arrangement = &screen.state().answer().arrangement;
    for own in
        [&arrangement.vehicle.provenance, &arrangement.sensor.provenance, &arrangement.aiming.provenance]
    {
        assert_eq!(*own, Provenance::NotGiven);
    }
    let found = &screen.state().answer().assessment.findings;
    let found: Vec<_> = found.iter().filter(|own| own.code() == Code::SourceNotGiven).collect();
    assert!(found.len() == 1 && found[0].severity == Severity::Care, "{found:?}");
    assert_ne!(verdict(&screen), Verdict::Ready);
    // Kept so, and read so.
    let id = arrangement.vehicle.id.clone();
    let kept = baywright_files::load_profile(&home.join(format!("vehicle-profiles/{id}.ron"))).unwrap();
    assert_eq!(kept.vehicle.provenance, Provenance::NotGiven);
    clear(home);
}

#[test]
fn a_source_is_chosen_by_an_arrow_or_by_its_first_letter() {
    let home = home("source-keys");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.run();
    enter_until(&mut screen, PICKER);
    screen.key_press(Key::ArrowDown);
    screen.run();
    assert!(matches!(source(&screen), Provenance::Maker { .. }), "{:?}", source(&screen));
    // The next one is an arrow further, and a letter goes on from there.
    screen.key_press(Key::ArrowDown);
    screen.run();
    assert!(matches!(source(&screen), Provenance::Measured { .. }), "{:?}", source(&screen));
    assert!(screen.get_by_label(PICKER).is_focused());
    happen(&mut screen, &letters("p"), 1);
    assert!(matches!(source(&screen), Provenance::Published { .. }), "{:?}", source(&screen));
    happen(&mut screen, &letters("m"), 1);
    assert!(matches!(source(&screen), Provenance::Maker { .. }), "{:?}", source(&screen));
    // Enter goes on to what goes with it.
    screen.key_press(Key::Enter);
    screen.run();
    assert!(screen.get_by_label("Document").is_focused());
    let tool = screen.state().view().tool;
    assert!(matches!(tool, baywright_desk::screen::view::Tool::WhichSide), "the letter is the picker's");
    clear(home);
}

/// Enter leads on only from the picker that Enter led to: come to in another way it opens, as every picker does.
#[test]
fn a_picker_that_was_led_to_once_opens_by_enter_when_it_is_come_to_by_tab() {
    let home = home("source-opens");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.run();
    enter_until(&mut screen, PICKER);
    screen.key_press(Key::Tab);
    screen.run();
    screen.key_press_modifiers(Modifiers::SHIFT, Key::Tab);
    screen.run();
    assert!(screen.get_by_label(PICKER).is_focused());
    screen.key_press(Key::Enter);
    screen.run();
    screen.get_by_label("printed elsewhere").click();
    screen.run();
    // Chosen in the list it is meant: what goes with it is typed next.
    assert!(screen.get_by_label("Printed where").is_focused());
    clear(home);
}

/// While a search leaves only other rows, Enter in the last of them leads to what it was all typed for, and to no row that is not
/// there: none takes the keyboard once the search is gone.
#[test]
fn a_source_that_a_search_hides_is_not_led_to() {
    let home = home("source-sought");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    ask(&mut screen, Command::Car(OfCar::Whole(true)));
    screen.run();
    screen.get_by_label("Search").click();
    screen.run();
    happen(&mut screen, &letters("wheelbase"), 1);
    screen.get_by_label("Wheelbase").click();
    screen.run();
    enter_until(&mut screen, "Keep this car");
    screen.get_by_label("Search").click();
    screen.run();
    let gone = [
        vec![egui::Event::Key {
            key: Key::A,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers: Modifiers::COMMAND,
        }],
        key(Key::Delete),
    ];
    happen(&mut screen, &gone.concat(), 1);
    assert!(screen.query_all_by_label(PICKER).all(|picker| !picker.is_focused()));
    assert!(screen.get_by_label("Search").is_focused());
    clear(home);
}
