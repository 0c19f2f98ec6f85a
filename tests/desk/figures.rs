//! Figures in their fields: their units and fractions, where Enter leads, what undo and the wheel do there.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar, OfFile, OfView};
use baywright_desk::screen::page::Page;
use baywright_drawing::font::measure;
use baywright_drawing::{Shape, TextStyle, Weight};
use baywright_planner::Subject;
use baywright_planner::model::Vehicle;
use baywright_planner::model::assumed::ZonePart;
use baywright_planner::words::Units;
use egui::{Event, Key, Modifiers, MouseWheelSource, MouseWheelUnit, TouchPhase, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::{ask, press};
use crate::support::{demo, type_into, usual};

fn value(screen: &Harness<'_, Desk>, label: &str) -> String {
    screen.get_by_label(label).accesskit_node().value().unwrap_or_default()
}

fn in_hand(units: Units) -> Harness<'static, Desk> {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Units(units)));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("tool cabinet".into())))));
    screen
}

fn new_bay(units: Units) -> Harness<'static, Desk> {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Units(units)));
    ask(&mut screen, Command::File(OfFile::BeginBay));
    screen
}

/// 5 ft 6 3/16 in: with its signs and a set fraction in the field and on the drawing, and the same when it is left as it stands.
#[test]
fn feet_and_inches_are_set() {
    let mut screen = in_hand(Units::FeetInches);
    type_into(&mut screen, "length", "5 ft 6 3/16");
    let set = "5\u{2032} 6 \u{b3}\u{2044}\u{2081}\u{2086}\u{2033}";
    assert_eq!(value(&screen, "length"), set);
    let length = |screen: &Harness<'_, Desk>| {
        let things = &screen.state().answer().arrangement.bay.things;
        things.iter().find(|own| own.id.as_str() == "tool cabinet").unwrap().footprint.shape().clone()
    };
    let before = length(&screen);
    type_into(&mut screen, "length", set);
    assert_eq!(length(&screen), before);
    type_into(&mut screen, "width", "6\u{bd}");
    assert_eq!(value(&screen, "width"), "6 \u{bd}\u{2033}");
    let texts: Vec<String> = screen
        .state()
        .drawings()
        .flat_map(|(drawing, _)| &drawing.items)
        .filter_map(|item| match &item.shape {
            Shape::Dimension(dimension) => Some(dimension.text.text.clone()),
            Shape::Text(text) => Some(text.text.clone()),
            _ => None,
        })
        .collect();
    assert!(texts.iter().any(|text| text.contains('\u{2032}') && text.contains('\u{2033}')), "{texts:?}");
    assert!(!texts.iter().any(|text| text.contains(" ft ") || text.contains("/16")), "{texts:?}");
}

/// A size that is typed without a unit says which one it is in, once its field is left.
#[test]
fn a_bare_size_shows_its_unit() {
    for (units, offered, shown) in [
        (Units::Millimetres, "12\u{202f}000 mm", "9\u{202f}000 mm"),
        (Units::Metres, "12 m", "9000 m"),
        (Units::FeetInches, "40 ft", "9000 in"),
    ] {
        let mut screen = new_bay(units);
        assert_eq!(value(&screen, "Length"), offered);
        type_into(&mut screen, "Length", "9000");
        assert_eq!(value(&screen, "Length"), shown);
        type_into(&mut screen, "Length", "9 m");
        assert_eq!(value(&screen, "Length"), "9 m");
        press(&mut screen, "Wall by wall");
        type_into(&mut screen, "Wall 1, Length", "9000");
        assert_eq!(value(&screen, "Wall 1, Length"), shown);
    }
}

/// The longest figures that are typed fit their fields: six digits of millimetres; feet, inches and sixteenths.
#[test]
fn fields_are_as_wide_as_their_figures() {
    let style = TextStyle::new(13.0, Weight::Regular);
    let long = |units| match units {
        Units::FeetInches => "123\u{2032} 11 \u{b9}\u{2075}\u{2044}\u{2081}\u{2086}\u{2033}",
        _ => "123\u{202f}456.5 mm",
    };
    for units in [Units::Millimetres, Units::FeetInches] {
        let wide = measure(long(units), style) as f32;
        let fits = |screen: &Harness<'_, Desk>, label: &str| {
            let field = screen.get_by_label(label).rect().width();
            assert!(field >= wide + 8.0, "{label}: {field} px for {wide} px");
        };
        let screen = in_hand(units);
        for label in ["length", "width", "top"] {
            fits(&screen, label);
        }
        let mut screen = new_bay(units);
        fits(&screen, "Length");
        press(&mut screen, "Wall by wall");
        fits(&screen, "Wall 1, Length");
        let mut screen = usual(demo());
        ask(&mut screen, Command::View(OfView::Units(units)));
        ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
        for label in ["Length", "Wheelbase", "Stand-off"] {
            fits(&screen, label);
        }
    }
}

/// From the last figure of a new bay Enter leads to what they are for, and the next Enter does it.
#[test]
fn enter_on_the_last_field_reaches_what_makes_the_bay() {
    let made = |screen: &mut Harness<'_, Desk>| {
        assert!(screen.get_by_label("Make this bay").accesskit_node().is_focused());
        assert!(matches!(screen.state().view().page(), Some(Page::NewBay(_))), "not made unasked");
        screen.key_press(Key::Enter);
        screen.run();
        assert!(screen.state().view().page().is_none());
        screen.state().document().layout().bay.room.bounds().size()
    };
    let mut screen = new_bay(Units::Millimetres);
    type_into(&mut screen, "Width", "5200");
    // The keyboard is in the last field by now.
    screen.event(Event::Text("3100".into()));
    screen.step();
    screen.key_press(Key::Enter);
    screen.run();
    let size = made(&mut screen);
    assert_eq!((size.x, size.y), (12_000.0, 5_200.0));
    assert_eq!(screen.state().document().layout().bay.ceiling_mm, 3_100.0);
    // Wall by wall a length that is left empty ends them.
    let mut screen = new_bay(Units::Millimetres);
    press(&mut screen, "Wall by wall");
    for typed in ["9000", "", "4000", "", "9000", "", "4000", "", ""] {
        if !typed.is_empty() {
            screen.event(Event::Text(typed.into()));
            screen.step();
        }
        screen.key_press(Key::Enter);
        screen.run();
    }
    let size = made(&mut screen);
    assert_eq!((size.x, size.y), (9_000.0, 4_000.0));
    // What cannot be made yet is not reached.
    let mut screen = new_bay(Units::Millimetres);
    type_into(&mut screen, "Length", "nothing");
    type_into(&mut screen, "Clear height", "3100");
    assert!(!screen.get_by_label("Make this bay").accesskit_node().is_focused());
}

/// A zone that was added stands there with figures that nobody typed: its reach and its heights say so, each until it is typed.
#[test]
fn an_added_zone_is_assumed_until_it_is_typed() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    let mut own = car(&screen);
    let shown = screen.state().answer().arrangement.aiming.id.clone();
    own.aimings.iter_mut().find(|own| own.id == shown).unwrap().zones.clear();
    ask(&mut screen, Command::Car(OfCar::Change(Box::new(own))));
    screen.get_by_label("Keep-clear zones").click_accesskit();
    screen.run();
    screen.get_by_label("Add a zone").scroll_to_me();
    screen.run();
    press(&mut screen, "Add a zone");
    let marks = |screen: &Harness<'_, Desk>| {
        let own = car(screen);
        let zone = &own.aimings.iter().find(|own| own.id == shown).unwrap().zones[0].id;
        let marks = [ZonePart::Outline, ZonePart::Heights].map(|part| own.is_assumed(part.of(&shown, zone)));
        let told = ["assumed: To, along", "assumed: Up to"].map(|own| screen.query_by_label(own).is_some());
        assert_eq!(told, marks);
        marks
    };
    assert_eq!(marks(&screen), [true, true]);
    screen.get_by_label("Up to").scroll_to_me();
    screen.run();
    type_into(&mut screen, "Up to", "1800");
    assert_eq!(marks(&screen), [true, false]);
    screen.get_by_label("To, along").scroll_to_me();
    screen.run();
    type_into(&mut screen, "To, along", "6000");
    assert_eq!(marks(&screen), [false, false]);
    undo(&mut screen);
    assert_eq!(marks(&screen), [true, false], "undo brings the mark back");
}

/// The long form is walked by its sections too: each unfolds, with all that it lies in, and comes into sight.
#[test]
fn the_long_form_leads_to_each_section() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::Change)));
    ask(&mut screen, Command::Car(OfCar::Whole(true)));
    let in_sight = |screen: &Harness<'_, Desk>, label: &str| {
        let mut all = screen.query_all_by_label(label).map(|own| own.rect());
        all.any(|rect| rect.top() > 80.0 && rect.bottom() < 900.0)
    };
    let title = screen.state().answer().arrangement.aiming.name.clone();
    assert!(!in_sight(&screen, "Add a zone") && !in_sight(&screen, "Add a mark"));
    for (section, shows) in [
        ("Keep-clear zones", "Add a zone"),
        ("Door mirrors", "Width over mirrors"),
        ("Forward radar", "Looks to the left by"),
        ("Floor marks, in order", "Add a mark"),
        (title.as_str(), "To have ready"),
    ] {
        press(&mut screen, "Go to");
        let entry = format!("Go to: {section}");
        // Of several aimings each has its own; the shown one is the first.
        screen.query_all_by_label(&entry).next().unwrap_or_else(|| panic!("no {entry}")).click_accesskit();
        screen.run();
        assert!(in_sight(&screen, shows), "{section}");
    }
}

fn car(screen: &Harness<'_, Desk>) -> Vehicle {
    Vehicle::clone(screen.state().document().draft().unwrap().car())
}

fn undo(screen: &mut Harness<'_, Desk>) {
    screen.key_combination_modifiers(Modifiers::COMMAND, &[Key::Z]);
    screen.run();
}

/// In a field in which nothing was typed Ctrl+Z undoes what was done, or says why not: in a form, in a search, on a page.
#[test]
fn undo_in_an_untouched_field_does_something_or_says_why_not() {
    let things = |screen: &Harness<'_, Desk>| screen.state().answer().arrangement.bay.things.len();
    let mut screen = in_hand(Units::Millimetres);
    let before = things(&screen);
    let seek = |screen: &mut Harness<'_, Desk>| {
        screen.key_combination_modifiers(Modifiers::COMMAND, &[Key::F]);
        screen.run();
    };
    screen.key_press(Key::Delete);
    screen.run();
    assert_eq!(things(&screen), before - 1);
    seek(&mut screen);
    undo(&mut screen);
    assert_eq!(things(&screen), before, "the search was empty");
    // What is typed there is undone there.
    screen.key_combination_modifiers(Modifiers::COMMAND, &[Key::Z]);
    screen.run();
    let said = screen.state().view().notice.clone().expect("why not").text;
    assert!(said.starts_with("Nothing to undo"), "{said}");
    let mut screen = new_bay(Units::Millimetres);
    screen.get_by_label("Length").click();
    screen.run();
    undo(&mut screen);
    let said = screen.state().view().notice.clone().expect("why not").text;
    assert!(said.starts_with("Nothing was typed in this field"), "{said}");
    assert_eq!(value(&screen, "Length"), "12\u{202f}000 mm");
}

/// The wheel over a field, with the keyboard in it or not, changes no figure.
#[test]
fn the_wheel_over_a_field_changes_nothing() {
    let mut screen = in_hand(Units::Millimetres);
    let figures =
        |screen: &Harness<'_, Desk>| ["length", "width", "underside", "top"].map(|own| value(screen, own));
    let before = (figures(&screen), screen.state().answer().arrangement.bay.things.clone());
    for with_keyboard in [false, true] {
        for label in ["length", "top"] {
            if with_keyboard {
                screen.get_by_label(label).click();
                screen.run();
            }
            let at = screen.get_by_label(label).rect().center();
            screen.hover_at(at);
            screen.step();
            for way in [1.0, -1.0, 1.0] {
                screen.event(Event::MouseWheel {
                    unit: MouseWheelUnit::Line,
                    delta: Vec2::new(0.0, way),
                    phase: TouchPhase::Move,
                    source: MouseWheelSource::Unknown,
                    modifiers: Modifiers::NONE,
                });
                screen.step();
            }
            screen.run();
            assert_eq!(
                (figures(&screen), screen.state().answer().arrangement.bay.things.clone()),
                before,
                "{label}"
            );
        }
    }
}
