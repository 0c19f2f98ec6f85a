//! Every control and everything on the canvas has an accessible name, and the keyboard reaches all of it.

use egui::Key;
use egui::accesskit::Action;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::support::{demo, usual};

#[test]
fn nothing_that_can_be_pressed_or_typed_is_nameless() {
    let screen = usual(demo());
    let mut controls = 0;
    for node in screen.root().children_recursive() {
        let node = node.accesskit_node();
        let pressable = node.data().supports_action(Action::Click)
            || node.data().supports_action(Action::Focus)
            || node.is_text_input();
        // A scroll bar is named by what it scrolls; the screen's library makes it.
        let pressable = pressable && node.role() != egui::accesskit::Role::ScrollBar;
        if !pressable {
            continue;
        }
        controls += 1;
        let named = node.label().is_some_and(|label| !label.trim().is_empty())
            || node.value().is_some_and(|value| !value.trim().is_empty())
            || node.labelled_by().next().is_some();
        assert!(named, "a {:?} without a name at {:?}", node.role(), node.bounding_box());
    }
    assert!(controls > 60, "{controls}");
}

#[test]
fn everything_in_the_bay_has_a_name_in_both_views() {
    let screen = usual(demo());
    for thing in &screen.state().answer().arrangement.bay.things {
        screen.get_by_label(&format!("the {}, top view", thing.id));
    }
    screen.get_by_label("mark 1, top view");
    for name in ["the car", "the target stand", "the trolley"] {
        screen.get_by_label(&format!("{name}, top view"));
        screen.get_by_label(&format!("{name}, side view"));
    }
}

#[test]
fn tab_reaches_everything_and_what_it_reaches_is_in_hand() {
    let mut screen = usual(demo());
    let mut reached = std::collections::BTreeSet::new();
    for _ in 0..400 {
        screen.key_press(Key::Tab);
        screen.step();
        screen.run();
        let focused = screen.root().children_recursive().find_map(|node| {
            let node = node.accesskit_node();
            node.is_focused().then(|| node.label().unwrap_or_default())
        });
        if let Some(name) = focused {
            reached.insert(name);
        }
    }
    for name in ["the trolley, top view", "the car, top view", "Undo", "Measure", "Do all of this"] {
        // "Undo" is off as long as there is nothing to undo.
        assert!(reached.contains(name) || name == "Undo", "{name} is not reached; reached are {reached:#?}");
    }
}
