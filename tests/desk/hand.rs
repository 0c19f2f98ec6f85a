//! The hand on one thing: what is small can be grabbed, the keyboard reaches what was chosen, menus need no pointer.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_planner::Subject;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Shape, Thing};
use egui::{Key, Modifiers, Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::ask;
use crate::support::{demo, drag, middle, type_into, usual};

/// A thing of this name as it is on the screen.
pub fn thing(screen: &Harness<'_, Desk>, name: &str) -> Thing {
    let things = &screen.state().answer().arrangement.bay.things;
    things.iter().find(|own| own.id.as_str() == name).cloned().unwrap_or_else(|| panic!("no {name}"))
}

/// How a thing is named where it stands on the drawing.
pub fn on_top(name: &str) -> String {
    format!("the {name}, top view")
}

/// Presses its row in the list.
pub fn choose(screen: &mut Harness<'_, Desk>, name: &str) {
    let row = format!("{}{}, ", name[..1].to_uppercase(), &name[1..]);
    screen.get_by_label_contains(&row).click();
    screen.run();
}

pub fn press_at(screen: &mut Harness<'_, Desk>, at: Pos2, modifiers: Modifiers) {
    screen.hover_at(at);
    screen.event(egui::Event::ModifiersChanged(modifiers));
    screen.step();
    for pressed in [true, false] {
        screen.event(egui::Event::PointerButton {
            pos: at,
            button: egui::PointerButton::Primary,
            pressed,
            modifiers,
        });
        screen.step();
    }
    screen.event(egui::Event::ModifiersChanged(Modifiers::NONE));
    screen.run();
}

fn selected(screen: &Harness<'_, Desk>) -> Option<Subject> {
    screen.state().view().selected.clone()
}

fn size(screen: &Harness<'_, Desk>, name: &str) -> Shape {
    thing(screen, name).footprint.shape().clone()
}

/// Eight px of the drawing or fewer in each direction: smaller than its own handles.
fn with_a_small_box() -> Harness<'static, Desk> {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Bay(OfBay::Add(baywright_planner::model::ThingKind::Other)));
    for label in ["length", "width"] {
        type_into(&mut screen, label, "100");
    }
    screen
}

#[test]
fn the_first_drag_of_a_small_thing_moves_it_and_never_sizes_it() {
    let mut screen = with_a_small_box();
    assert_eq!(selected(&screen), Some(Subject::Thing("something else".into())).or(selected(&screen)));
    let Some(Subject::Thing(id)) = selected(&screen) else { panic!("nothing in hand") };
    let name = id.as_str();
    let seen = screen.get_by_label(&on_top(name)).rect();
    assert!(seen.width() < 16.0, "{seen:?}");
    // From everywhere on it: its middle, its corners, its sides.
    for (x, y) in [(0.5, 0.5), (0.1, 0.1), (0.9, 0.1), (0.9, 0.9), (0.1, 0.9), (0.5, 0.1), (0.9, 0.5)] {
        let (before, shape) = (thing(&screen, name).place.at.origin(), size(&screen, name));
        let seen = screen.get_by_label(&on_top(name)).rect();
        let from = seen.min + Vec2::new(x, y) * seen.size();
        drag(&mut screen, from, from + Vec2::new(30.0, 20.0));
        assert_eq!(size(&screen, name), shape, "from {x}, {y}");
        assert!(thing(&screen, name).place.at.origin().distance(before) > 100.0, "from {x}, {y}");
        screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        screen.run();
    }
}

#[test]
fn a_handle_beside_a_small_thing_sizes_it_by_as_much_as_it_is_drawn() {
    let mut screen = with_a_small_box();
    let Some(Subject::Thing(id)) = selected(&screen) else { panic!("nothing in hand") };
    let name = id.as_str().to_owned();
    // Zoomed in, so that a px is a few millimetres; still small.
    let seen = screen.get_by_label(&on_top(&name)).rect();
    let px = 1.0 / screen.state().view().camera.map_or(seen.width() as f64 / 100.0, |own| own.px_per_mm);
    let before = size(&screen, &name);
    // It has one, at a corner beside which nothing is written.
    let ways = [(1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)].map(|(x, y)| Vec2::new(x, y));
    let sized = ways.into_iter().filter(|&way| {
        ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing(name.as_str().into())))));
        let corner = seen.center() + (seen.size() * 0.5 + Vec2::splat(14.0)) * way;
        if size(&screen, &name) == before {
            drag(&mut screen, corner, corner + 20.0 * way);
        }
        size(&screen, &name) != before
    });
    assert!(sized.count() > 0, "no handle at any corner");
    let Shape::Rectangle { length_mm, width_mm } = size(&screen, &name) else { panic!() };
    let grown = 20.0 * px;
    assert!((length_mm - 100.0 - grown).abs() < 2.0 * px, "{length_mm}, not {grown} more");
    assert!((width_mm - 100.0 - grown).abs() < 2.0 * px, "{width_mm}, not {grown} more");
}

#[test]
fn a_size_below_what_such_a_thing_can_be_is_asked_about() {
    let mut screen = usual(demo());
    choose(&mut screen, "trolley");
    let before = size(&screen, "trolley");
    type_into(&mut screen, "width", "20");
    screen.get_by_label_contains("hardly ever less than");
    // Escape is no answer: the old size is back, and there is nothing to undo.
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(size(&screen, "trolley"), before);
    assert_eq!(screen.state().undoes(), None);
    type_into(&mut screen, "width", "20");
    screen.get_by_label("It is that small").click();
    screen.run();
    assert!(matches!(size(&screen, "trolley"), Shape::Rectangle { width_mm: 20.0, .. }));
    assert_eq!(screen.state().undoes().as_deref(), Some("Size of trolley"));
    // Drawn by hand it is asked too: from one side onto the other.
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run();
    assert_eq!(size(&screen, "trolley"), before);
    choose(&mut screen, "work bench");
    let bench = size(&screen, "work bench");
    let seen = screen.get_by_label(&on_top("work bench")).rect();
    drag(&mut screen, seen.right_center(), seen.left_center() + Vec2::new(4.0, 0.0));
    assert_ne!(size(&screen, "work bench"), bench, "it is shown");
    screen.get_by_label("Put the old size back").click();
    screen.run();
    assert_eq!(size(&screen, "work bench"), bench);
    assert_eq!(screen.state().undoes(), None);
}

#[test]
fn arrows_move_what_was_chosen_in_the_list() {
    let mut screen = usual(demo());
    // The keyboard is on something else of the drawing.
    screen.get_by_label(&on_top("waste bin")).focus();
    screen.run();
    choose(&mut screen, "trolley");
    let (trolley, bin) = (thing(&screen, "trolley").place, thing(&screen, "waste bin").place);
    for _ in 0..3 {
        screen.key_press(Key::ArrowRight);
        screen.step();
    }
    screen.key_press(Key::ArrowDown);
    screen.run();
    let by = thing(&screen, "trolley").place.at.origin() - trolley.at.origin();
    assert!((by - DVec2::new(30.0, -10.0)).length() < 1e-6, "{by}");
    assert_eq!(thing(&screen, "waste bin").place, bin);
    assert_eq!(selected(&screen), Some(Subject::Thing("trolley".into())));
    // A second press leaves it in hand; Escape lets go, and arrows walk through the list again.
    choose(&mut screen, "trolley");
    assert_eq!(selected(&screen), Some(Subject::Thing("trolley".into())));
    screen.key_press(Key::Escape);
    screen.run();
    assert_eq!(selected(&screen), None);
}

#[test]
fn tab_and_enter_lead_from_a_thing_to_its_fields_and_f2_to_its_name() {
    let is_in_name = |screen: &Harness<'_, Desk>| screen.get_by_label("name").accesskit_node().is_focused();
    // Chosen in the list.
    let mut screen = usual(demo());
    choose(&mut screen, "trolley");
    screen.key_press(Key::Tab);
    screen.run();
    assert!(is_in_name(&screen), "from the list");
    // Chosen on the drawing.
    let mut screen = usual(demo());
    let at = middle(&screen, &on_top("trolley"));
    press_at(&mut screen, at, Modifiers::NONE);
    screen.key_press(Key::Tab);
    screen.run();
    assert!(is_in_name(&screen), "from the drawing");
    // Walked to by the keyboard.
    let mut screen = usual(demo());
    screen.get_by_label(&on_top("trolley")).focus();
    screen.run();
    screen.key_press(Key::Enter);
    screen.run();
    assert!(is_in_name(&screen), "by Enter");
    // Renamed with nothing but keys.
    let mut screen = usual(demo());
    choose(&mut screen, "trolley");
    screen.key_press(Key::F2);
    screen.run();
    assert!(is_in_name(&screen), "by F2");
    screen.get_by_label("name").type_text("tea trolley");
    screen.step();
    screen.key_press(Key::Enter);
    screen.run();
    assert_eq!(selected(&screen), Some(Subject::Thing("tea trolley".into())));
}

#[test]
fn a_menu_is_walked_by_arrows_and_pressed_by_enter() {
    let mut screen = usual(demo());
    screen.get_by_label("Show").focus();
    screen.run();
    screen.key_press(Key::Enter);
    screen.run();
    screen.key_press(Key::ArrowDown);
    screen.run();
    assert!(screen.get_by_label("Light").accesskit_node().is_focused());
    screen.key_press(Key::ArrowDown);
    screen.run();
    assert!(screen.get_by_label("Dark").accesskit_node().is_focused());
    screen.key_press(Key::Enter);
    screen.run();
    assert_eq!(screen.state().view().theme, baywright_drawing::Theme::Dark);
    assert!(screen.query_by_label("Light").is_none(), "it closes");
    assert!(screen.get_by_label("Show").accesskit_node().is_focused(), "the keyboard is where it was");
    // Escape leaves it as well.
    screen.key_press(Key::Enter);
    screen.run();
    screen.key_press(Key::ArrowDown);
    screen.run();
    screen.key_press(Key::Escape);
    screen.run();
    assert!(screen.query_by_label("Light").is_none(), "it closes");
    assert!(screen.get_by_label("Show").accesskit_node().is_focused());
}

#[test]
fn a_picker_of_a_form_is_walked_by_arrows_and_pressed_by_enter() {
    let mut screen = usual(demo());
    choose(&mut screen, "trolley");
    let before = thing(&screen, "trolley").effort;
    screen.get_by_label("to move it").focus();
    screen.run();
    screen.key_press(Key::Enter);
    screen.run();
    for _ in 0..2 {
        screen.key_press(Key::ArrowDown);
        screen.run();
    }
    screen.key_press(Key::Enter);
    screen.run();
    assert_ne!(thing(&screen, "trolley").effort, before);
}

#[test]
fn the_menu_of_what_is_in_hand_opens_by_the_right_button_and_by_keys() {
    let mut screen = usual(demo());
    let at = middle(&screen, &on_top("trolley"));
    screen.hover_at(at);
    screen.step();
    for pressed in [true, false] {
        let button = egui::PointerButton::Secondary;
        screen.event(egui::Event::PointerButton { pos: at, button, pressed, modifiers: Modifiers::NONE });
        screen.step();
    }
    screen.run();
    assert_eq!(selected(&screen), Some(Subject::Thing("trolley".into())));
    screen.get_by_label("Turn a quarter to the left").click();
    screen.run();
    assert!((thing(&screen, "trolley").place.at.heading().to_degrees() - 90.0).abs() < 1e-9);
    assert!(screen.state().view().menu.is_none(), "it closes");
    for (modifiers, key) in [(Modifiers::SHIFT, Key::F10), (Modifiers::NONE, Key::Menu)] {
        let before = thing(&screen, "trolley").place.at.heading();
        screen.key_press_modifiers(modifiers, key);
        screen.run();
        screen.get_by_label("Turn a quarter to the right");
        screen.key_press(Key::ArrowDown);
        screen.run();
        screen.key_press(Key::Enter);
        screen.run();
        let turned = thing(&screen, "trolley").place.at.heading() - before;
        assert!((turned.to_degrees().rem_euclid(360.0) - 90.0).abs() < 1e-9, "{key:?}: {turned}");
        assert!(screen.state().view().menu.is_none(), "it closes");
    }
    // Escape closes it and lets go of nothing.
    screen.key_press(Key::Menu);
    screen.run();
    screen.key_press(Key::Escape);
    screen.run();
    assert!(screen.query_by_label("Cut (Ctrl+X)").is_none());
    assert_eq!(selected(&screen), Some(Subject::Thing("trolley".into())));
}

#[test]
fn up_and_down_step_the_figure_in_a_field() {
    let mut screen = usual(demo());
    choose(&mut screen, "trolley");
    let top = |screen: &Harness<'_, Desk>| thing(screen, "trolley").span.top();
    let before = top(&screen);
    screen.get_by_label("top").click();
    screen.run();
    for (modifiers, key) in [
        (Modifiers::NONE, Key::ArrowUp),
        (Modifiers::NONE, Key::ArrowUp),
        (Modifiers::SHIFT, Key::ArrowUp),
        (Modifiers::ALT, Key::ArrowDown),
    ] {
        screen.key_press_modifiers(modifiers, key);
        screen.run();
    }
    assert_eq!(top(&screen), before + 119.0);
    // The keyboard is still there, and what is typed replaces what it says.
    screen.get_by_label("top").type_text("700");
    screen.step();
    screen.key_press(Key::Enter);
    screen.run();
    assert_eq!(top(&screen), 700.0);
    screen.get_by_label("turned").click();
    screen.run();
    screen.key_press(Key::ArrowDown);
    screen.run();
    assert!((thing(&screen, "trolley").place.at.heading().to_degrees() + 1.0).abs() < 1e-9);
}

/// A slow screen gets a quick flick in one frame: press, way and release. It is a drag all the same, from where it was pressed to
/// where it was let go, and not to where the pointer went afterwards; and a press that hardly moved is a press.
#[test]
fn a_flick_within_one_frame_is_a_drag_and_a_press_within_one_is_a_press() {
    let button = |pos, pressed| egui::Event::PointerButton {
        pos,
        button: egui::PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    let moved = egui::Event::PointerMoved;
    let name = "waste bin";
    // What a drag frame by frame makes of it.
    let mut slowly = usual(demo());
    let from = middle(&slowly, &on_top(name));
    let was = thing(&slowly, name).place.at;
    let to = from + Vec2::new(37.0, -23.0);
    drag(&mut slowly, from, to);
    let there = thing(&slowly, name).place.at;
    assert!(there.origin().distance(was.origin()) > 200.0);
    let away = to + Vec2::new(-260.0, 120.0);
    let frames: [&[&[egui::Event]]; 5] = [
        &[&[moved(from), button(from, true), moved(to), button(to, false)]],
        // Nothing is told of the way: the release alone says where it ended.
        &[&[moved(from), button(from, true), button(to, false)]],
        // Pressed in one frame; the way and the release in the next.
        &[&[moved(from), button(from, true)], &[moved(to), button(to, false)]],
        &[&[moved(from), button(from, true)], &[moved(to)], &[button(to, false), moved(away)]],
        &[&[moved(from), button(from, true), moved(away), moved(to), button(to, false), moved(away)]],
    ];
    for (way, frames) in frames.into_iter().enumerate() {
        let mut screen = usual(demo());
        for events in frames {
            screen.input_mut().events.extend(events.iter().cloned());
            screen.step();
        }
        screen.run();
        assert_eq!(thing(&screen, name).place.at, there, "in way {way}");
        assert_eq!(selected(&screen), Some(Subject::Thing(name.into())));
        assert!(screen.state().undoes().is_some(), "one step");
        ask(&mut screen, Command::Undo);
        assert_eq!(thing(&screen, name).place.at, was);
        assert!(screen.state().undoes().is_none(), "one step");
    }
    let mut screen = usual(demo());
    let by = from + Vec2::new(2.0, 1.0);
    screen.input_mut().events.extend([moved(from), button(from, true), moved(by), button(by, false)]);
    screen.run();
    assert_eq!(selected(&screen), Some(Subject::Thing(name.into())), "a press is a press");
    assert_eq!(thing(&screen, name).place.at, was);
    assert!(screen.state().undoes().is_none());
}
