//! What has the keyboard, and what can be pressed, is seen: in a small window too.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar, OfView};
use baywright_desk::screen::page::Page;
use baywright_desk::screen::view::Tab;
use baywright_drawing::Theme;
use baywright_planner::{Severity, Subject};
use egui::{Key, Modifiers, Rect, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::{ask, press};
use crate::support::{demo, screen, usual, wheel};

fn small() -> Harness<'static, Desk> {
    screen(demo(), Vec2::new(1280.0, 720.0), 1.0)
}

/// Where what has the keyboard stands.
fn focused(screen: &Harness<'_, Desk>) -> Rect {
    let id = screen.ctx.memory(egui::Memory::focused).expect("something has the keyboard");
    screen.ctx.read_response(id).expect("it is drawn").rect
}

/// Through all of the short form by Enter, from the top to the end; and once more with a second car, whose form begins at its
/// first field however far the last one was scrolled.
#[test]
fn what_enter_leads_to_is_in_sight() {
    let mut screen = small();
    for _ in 0..2 {
        ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
        screen.run();
        let mut seen = 0;
        while !screen.get_by_label("Keep this car").is_focused() {
            let rect = focused(&screen);
            assert!(rect.top() > 170.0 && rect.bottom() < 684.0, "field {seen}: {rect:?}");
            screen.key_press(Key::Enter);
            screen.run();
            seen += 1;
            assert!(seen < 60, "it ends");
        }
        assert!(seen > 15, "{seen}");
        ask(&mut screen, Command::Car(OfCar::DropAnyway));
    }
}

/// So is what Tab leads to, choices and ticks among it.
#[test]
fn what_tab_leads_to_is_in_sight() {
    let mut screen = small();
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    for _ in 0..30 {
        screen.key_press(Key::Tab);
        screen.run();
        let rect = focused(&screen);
        assert!(rect.top() > 0.0 && rect.bottom() < 720.0, "{rect:?}");
    }
}

/// In the list of what is found, too: Tab goes through every press of every card, down to the last and up again, and each is seen
/// where it stands. Cards that are not drawn while they are out of sight are not passed over.
#[test]
fn what_tab_leads_to_among_the_findings_is_in_sight() {
    let mut screen = small();
    let found = screen.state().answer().assessment.findings.clone();
    let told = found.iter().filter(|own| own.severity != Severity::Note);
    // "Show" and "Why this limit?" of each, and its way out where there is one.
    let presses = told.map(|own| 2 + usize::from(own.cure.is_some())).sum::<usize>();
    assert!(presses > 20, "{presses}: more than the window holds");
    screen.get_by_label_contains("Record").focus();
    screen.run();
    let in_sight = |screen: &Harness<'_, Desk>, what: usize| {
        let rect = focused(screen);
        // Within the panel of what is found, whole.
        let is_seen = rect.left() > 940.0 && rect.top() >= 146.0 && rect.bottom() <= 660.0;
        assert!(is_seen, "press {what}: {rect:?}");
        rect
    };
    let name = |screen: &Harness<'_, Desk>| {
        let all = screen.query_all(egui_kittest::kittest::By::new().predicate(|node| node.is_focused()));
        let names: Vec<String> = all.filter_map(|node| node.accesskit_node().label()).collect();
        names.concat()
    };
    let mut down = Vec::new();
    for press in 0..presses {
        screen.key_press(Key::Tab);
        screen.run();
        in_sight(&screen, press);
        down.push(name(&screen));
    }
    let mut different = down.clone();
    different.sort();
    different.dedup();
    assert_eq!(different.len(), presses, "{down:?}");
    // Coming from below, it is the last one that is reached.
    for modifiers in [Modifiers::NONE, Modifiers::NONE, Modifiers::SHIFT, Modifiers::SHIFT] {
        screen.key_press_modifiers(modifiers, Key::Tab);
        screen.run();
    }
    in_sight(&screen, presses);
    let mut up = vec![name(&screen)];
    for press in (0..presses - 1).rev() {
        screen.key_press_modifiers(Modifiers::SHIFT, Key::Tab);
        screen.run();
        in_sight(&screen, press);
        up.push(name(&screen));
    }
    up.reverse();
    assert_eq!(up, down);
}

/// A way out that is pressed by a key takes its card away; the keyboard goes to the next card's first press, and so one key after
/// the other clears what stops.
#[test]
fn the_keyboard_goes_on_to_the_next_card() {
    let mut screen = small();
    let first = "Move it: Tool cabinet is inside the keep-clear zone “metal-free area”";
    // One key leads there, from wherever the keyboard was.
    screen.key_press(Key::F6);
    screen.run();
    assert!(screen.get_by_label(first).is_focused());
    screen.key_press(Key::Enter);
    screen.run();
    assert!(screen.query_by_label(first).is_none());
    let next = screen.get_by_label("Move it: Trolley is inside the keep-clear zone “metal-free area”");
    assert!(next.is_focused());
    screen.key_press(Key::Enter);
    screen.run();
    assert_eq!(crate::support::count(&screen, Severity::Stops), 0);
    assert!(screen.ctx.memory(egui::Memory::focused).is_some());
    // By the pointer it stays where it was.
    let mut screen = small();
    press(&mut screen, first);
    assert!(screen.ctx.memory(egui::Memory::focused).is_none());
}

/// What is only read is scrolled by keys, too: Tab leads to it from its own tab, arrows and the keys for pages go through it.
#[test]
fn marks_and_texts_are_scrolled_by_keys() {
    let mut screen = small();
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    let first = |screen: &Harness<'_, Desk>| screen.get_by_label("The tape must read").rect().top();
    let top = first(&screen);
    // After the boxes that are typed in.
    screen.get_by_label("Marks, to scroll with the arrow keys").focus();
    screen.run();
    let whole = screen.get_by_label("Marks, to scroll with the arrow keys");
    assert!(whole.is_focused());
    screen.key_press(Key::ArrowDown);
    screen.run();
    assert!((first(&screen) - (top - 40.0)).abs() < 1.0, "{top} {}", first(&screen));
    screen.key_press(Key::Home);
    screen.run();
    assert!((first(&screen) - top).abs() < 1.0);
    screen.key_press(Key::End);
    screen.run();
    assert!(first(&screen) < top - 100.0);
    // Nothing in hand was moved by that.
    assert!(!screen.state().document().is_changed());
    // Of a page the page keys turn, wherever the keyboard is.
    ask(&mut screen, Command::Page(Some(Page::Help)));
    let seen = |screen: &Harness<'_, Desk>| -> Vec<i32> {
        let texts = screen.query_all_by_role(egui::accesskit::Role::Label);
        texts.map(|own| own.rect().top() as i32).collect()
    };
    let before = seen(&screen);
    screen.key_press(Key::PageDown);
    screen.run();
    assert_ne!(seen(&screen), before);
    screen.key_press(Key::PageUp);
    screen.run();
    assert_eq!(seen(&screen), before);
}

/// The menu of what can be added shows all of it where the window has room for it.
#[test]
fn all_that_can_be_added_is_in_sight() {
    let mut screen = small();
    press(&mut screen, "+ Add");
    screen.run();
    for name in ["cabinet", "something else", "low ceiling", "whole lift"] {
        let rect = screen.get_by_label(name).rect();
        assert!(rect.bottom() < 720.0, "{name}: {rect:?}");
    }
    // Nothing of it has to be scrolled to.
    let (first, last) = (screen.get_by_label("cabinet").rect(), screen.get_by_label("something else").rect());
    wheel(&mut screen, first.center(), -5.0);
    assert_eq!(screen.get_by_label("something else").rect(), last);
}

/// Rows of the list lie close to one another however far it is scrolled, and end where it ends.
#[test]
fn the_list_ends_with_its_last_row() {
    let mut screen = small();
    wheel(&mut screen, egui::pos2(100.0, 400.0), -100.0);
    let rows: Vec<Rect> =
        screen.get_all_by_role(egui::accesskit::Role::ListBoxOption).map(|row| row.rect()).collect();
    let last = rows.iter().map(|row| row.bottom()).fold(0.0, f32::max);
    assert!((660.0..690.0).contains(&last), "{last}: {rows:?}");
}

/// Wherever arrows lead in a menu a ring shows it, on what is chosen already too, in light and in dark.
#[test]
fn what_has_the_keyboard_in_a_menu_has_a_ring() {
    for theme in [Theme::Light, Theme::Dark] {
        let mut screen = small();
        ask(&mut screen, Command::View(OfView::Theme(theme)));
        screen.get_by_label_contains("Bay: ").click();
        screen.run();
        let beam = theme.palette().beam;
        for _ in 0..8 {
            screen.key_press(Key::ArrowDown);
            screen.run();
            let own = focused(&screen);
            let image = screen.render().unwrap();
            let at = image.get_pixel(own.left() as u32 + 1, own.center().y as u32).0;
            let off = beam.rgb.iter().zip(at).map(|(a, b)| a.abs_diff(b)).max();
            assert!(off.unwrap() < 40, "{theme:?} {own:?}: {at:?}");
        }
    }
}

/// What is taken in hand at the end of the list stays in sight there, though the list makes room for its figures.
#[test]
fn what_is_chosen_stays_in_sight_in_the_list() {
    let mut screen = small();
    screen.get_by_label_contains("Strip lamp, plastic").click();
    screen.run();
    let row = screen.get_by_label_contains("Strip lamp, plastic").rect();
    assert!(row.bottom() < 400.0 && row.top() > 130.0, "{row:?}");
    // Chosen on the drawing it comes into sight, too.
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    let row = screen.get_by_label_contains("Room, 12").rect();
    assert!(row.bottom() < 400.0 && row.top() > 130.0, "{row:?}");
}

/// Whether something of this role can have the keyboard.
fn is_pressed(role: egui::accesskit::Role) -> bool {
    use egui::accesskit::Role as R;
    matches!(role, R::Button | R::Link | R::TextInput | R::CheckBox | R::ComboBox | R::RadioButton)
}

/// Nothing becomes wider, narrower, higher or lower because it has the keyboard.
#[test]
fn the_keyboard_moves_nothing() {
    let mut screen = usual(demo());
    let sizes = |screen: &Harness<'_, Desk>| {
        let all = screen.root().children_recursive();
        let own = all.filter(|node| is_pressed(node.accesskit_node().role()));
        own.map(|node| (node.accesskit_node().id(), node.rect())).collect::<Vec<_>>()
    };
    let (mut stops, mut seen, mut ways_out) = (std::collections::BTreeSet::new(), 0, 0);
    for _ in 0..120 {
        let before = sizes(&screen);
        let in_hand = screen.state().view().selected.clone();
        screen.key_press(Key::Tab);
        screen.run();
        // On the drawing, what has the keyboard comes in hand, with a form of its own.
        if in_hand != screen.state().view().selected {
            continue;
        }
        stops.insert(format!("{:?}", screen.ctx.memory(egui::Memory::focused)));
        let of_card = |name: Option<String>| name.is_some_and(|own| own.starts_with("Move it: "));
        let focused = screen.query_all(egui_kittest::kittest::By::new().predicate(|node| node.is_focused()));
        ways_out += focused.filter(|node| of_card(node.accesskit_node().label())).count();
        for (id, now) in sizes(&screen) {
            let Some((_, then)) = before.iter().find(|(own, _)| *own == id) else { continue };
            seen += 1;
            let by = (now.size() - then.size()).abs();
            // A scrolled list cuts what stands at its edge.
            let is_whole =
                now.top() > 150.0 && now.bottom() < 850.0 && then.top() > 150.0 && then.bottom() < 850.0;
            assert!(by.max_elem() < 0.1 || !is_whole, "{then:?}, with the keyboard {now:?}");
            assert!((now.left() - then.left()).abs() < 0.1, "{then:?}, then {now:?}");
        }
    }
    assert!(stops.len() > 60 && seen > 1_000 && ways_out > 1, "{} stops, {seen}, {ways_out}", stops.len());
}
