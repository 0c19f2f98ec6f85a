//! What stands in a field is taken before it is saved, kept or left; what is not taken is not passed over.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar, OfFile, OfView};
use baywright_planner::Subject;
use egui::{Event, Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, home, press, start};
use crate::support::{clear, demo, screen, type_into, usual};
use crate::typing::{happen, key};

const CTRL: Modifiers = Modifiers::COMMAND;

/// Types into a field and leaves the keyboard in it.
fn begin_to_type(screen: &mut Harness<'_, Desk>, label: &str, text: &str) {
    screen.get_by_label(label).scroll_to_me();
    screen.run();
    screen.get_by_label(label).click();
    screen.run();
    screen.key_press_modifiers(CTRL, Key::A);
    screen.step();
    screen.event(Event::Text(text.into()));
    screen.run();
    assert!(screen.get_by_label(label).is_focused());
}

fn bin_in_hand(screen: &mut Harness<'_, Desk>) {
    ask(screen, Command::View(OfView::Select(Some(Subject::Thing("waste bin".into())))));
}

#[test]
fn what_is_being_typed_is_saved_with_the_rest() {
    let home = home("typed and saved");
    let mut screen = start(&home);
    let path = home.join("mine.ron");
    ask(&mut screen, Command::File(OfFile::SaveAs(path.clone(), false)));
    bin_in_hand(&mut screen);
    begin_to_type(&mut screen, "from neighbour's wall", "4900");
    screen.key_press_modifiers(CTRL, Key::S);
    screen.run();
    assert!(!screen.state().document().is_changed());
    let saved = baywright_files::load_layout(&path).unwrap();
    assert_eq!(saved.arrangements, screen.state().document().layout().arrangements);
    assert!(screen.state().undoes().is_some());
    // What cannot be read is not passed over: its reason stands beside it, and nothing is saved yet.
    type_into(&mut screen, "from neighbour's wall", "4800");
    begin_to_type(&mut screen, "from neighbour's wall", "a good deal");
    screen.key_press_modifiers(CTRL, Key::S);
    screen.run();
    screen.get_by_label_contains("“a good deal” is no length");
    assert!(screen.state().document().is_changed());
    clear(home);
}

/// So that it is told if somebody changes that car's file.
#[test]
fn a_new_bay_remembers_its_car() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::File(OfFile::BeginBay));
    press(&mut screen, "Make this bay");
    let document = screen.state().document();
    let own = document.saved_arrangement().unwrap();
    let car = document.cars().iter().find(|car| car.vehicle.id == own.vehicle).unwrap();
    assert_eq!(own.vehicle_fingerprint.as_ref(), Some(&car.fingerprint));
}

/// By a key and by the window's own cross.
#[test]
fn what_is_being_typed_is_asked_about_before_the_program_closes() {
    for by_key in [true, false] {
        let mut screen = usual(demo());
        bin_in_hand(&mut screen);
        begin_to_type(&mut screen, "from neighbour's wall", "4900");
        if by_key {
            screen.key_press_modifiers(CTRL, Key::Q);
        } else {
            let viewport = screen.input_mut().viewports.entry(egui::ViewportId::ROOT).or_default();
            viewport.events.push(egui::ViewportEvent::Close);
        }
        screen.run();
        screen.get_by_label("Save changes?");
        assert!(screen.state().document().is_changed(), "by key: {by_key}");
    }
}

/// Enter leads through the form to the press that keeps the car; Ctrl+S is the car's while one is entered.
#[test]
fn enter_leads_from_the_last_field_to_keeping_the_car() {
    let home = home("enter keeps");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.run();
    for _ in 0..40 {
        if screen.get_by_label("Keep this car").is_focused() {
            break;
        }
        screen.key_press(Key::Enter);
        screen.run();
    }
    assert!(screen.get_by_label("Keep this car").is_focused());
    screen.key_press(Key::Enter);
    screen.run();
    assert!(screen.state().document().draft().is_none());
    assert_eq!(std::fs::read_dir(home.join("vehicle-profiles")).unwrap().count(), 1);
    // The bay is not asked about: it was the car that was in hand.
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.run();
    begin_to_type(&mut screen, "Name of the car", "Second");
    screen.key_press_modifiers(CTRL, Key::S);
    screen.run();
    assert!(screen.state().view().page().is_none() && screen.state().document().draft().is_none());
    assert_eq!(screen.state().answer().arrangement.vehicle.name, "Second");
    clear(home);
}

/// A figure that was refused is not lost with its form: the keyboard goes back to it, from the last field too.
#[test]
fn a_car_is_not_kept_past_what_was_refused() {
    let home = home("refused and kept");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.run();
    begin_to_type(&mut screen, "Kept clear ahead", "far");
    screen.key_press(Key::Enter);
    screen.run();
    assert!(screen.get_by_label("Kept clear ahead").is_focused());
    for by_key in [true, false] {
        screen.get_by_label("Length").focus();
        screen.run();
        if by_key {
            screen.key_press_modifiers(CTRL, Key::S);
            screen.run();
        } else {
            press(&mut screen, "Keep this car");
        }
        screen.get_by_label_contains("Not kept yet: “far” was not taken in its field");
        assert!(screen.state().document().draft().is_some());
        assert!(screen.get_by_label("Kept clear ahead").is_focused(), "by key: {by_key}");
    }
    screen.key_press(Key::Escape);
    screen.run();
    press(&mut screen, "Keep this car");
    assert!(screen.state().document().draft().is_none());
    clear(home);
}

/// Opened by a key a picker has the keyboard at what is chosen, wherever in its list that is; and gives it back.
#[test]
fn a_picker_begins_at_what_is_chosen() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.run();
    for (keys, class) in [(&[Key::ArrowDown, Key::ArrowDown][..], "estate"), (&[Key::ArrowUp], "saloon")] {
        screen.get_by_label("Body class").focus();
        screen.run();
        screen.key_press(Key::Enter);
        screen.run();
        for key in keys {
            screen.key_press(*key);
            screen.run();
        }
        screen.key_press(Key::Enter);
        screen.run();
        let words = baywright_planner::words::Language::English.forms();
        assert_eq!(words.class_of(screen.state().document().draft().unwrap().car().class), class);
        assert!(screen.get_by_label("Body class").is_focused());
    }
}

/// What a card asks to be entered has the keyboard, unfolded and in sight, whatever was in hand and however far that was scrolled.
#[test]
fn how_leads_to_the_levels() {
    let mut screen = screen(demo(), egui::Vec2::new(1280.0, 720.0), 1.0);
    bin_in_hand(&mut screen);
    screen.get_by_label("to move it").scroll_to_me();
    screen.run();
    // What comes in hand next begins at its beginning.
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
    screen.run();
    let name = screen.get_by_label("name").rect();
    assert!((380.0..480.0).contains(&name.top()), "{name:?}");
    screen.get_by_label("How: Floor not surveyed here").focus();
    screen.run();
    screen.key_press(Key::Enter);
    screen.run();
    let role = egui::accesskit::Role::MultilineTextInput;
    let levels = screen.get_by_role_and_label(role, "Floor levels");
    assert!(levels.is_focused());
    assert!(levels.rect().top() > 370.0 && levels.rect().bottom() < 684.0, "{:?}", levels.rect());
}

/// However fast they come, all in one frame: each arrow has its turn, and Enter presses where they led.
#[test]
fn arrows_in_a_menu_are_counted() {
    for pace in [1, 1_000] {
        let mut screen = usual(demo());
        screen.get_by_label("Show").focus();
        screen.run();
        let keys = [Key::Enter, Key::ArrowDown, Key::ArrowDown, Key::Enter].into_iter().flat_map(key);
        happen(&mut screen, &keys.collect::<Vec<_>>(), pace);
        assert_eq!(screen.state().view().theme, baywright_drawing::Theme::Dark, "{pace} in a frame");
    }
}
