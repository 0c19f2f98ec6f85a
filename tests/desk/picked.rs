//! Pickers: in every form by arrows, letters and Enter.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Begin, Command, OfCar, OfView};
use baywright_planner::Subject;
use baywright_planner::model::{Material, Thing};
use egui::{Key, Role};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::{ask, home, start};
use crate::support::{clear, demo, usual};
use crate::typing::{happen, letters};

fn trolley(screen: &Harness<'_, Desk>) -> Thing {
    let things = &screen.state().answer().arrangement.bay.things;
    things.iter().find(|own| own.id.as_str() == "trolley").unwrap().clone()
}

/// What has the keyboard, by its role and name.
fn in_hand(screen: &Harness<'_, Desk>) -> Option<(Role, String)> {
    let all = screen.query_all(egui_kittest::kittest::By::new().predicate(|node| node.is_focused()));
    all.map(|node| (node.accesskit_node().role(), node.accesskit_node().label().unwrap_or_default())).next()
}

/// In the form of a thing a letter chooses, an arrow goes on from there, each one step to undo; and the thing stays where it is.
#[test]
fn what_a_thing_is_made_of_is_chosen_by_a_letter() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Thing("trolley".into())))));
    screen.run();
    let before = trolley(&screen);
    screen.get_by_label("made of").focus();
    screen.run();
    happen(&mut screen, &letters("g"), 1);
    screen.run();
    assert_eq!(trolley(&screen).material, Material::Glass);
    screen.key_press(Key::ArrowUp);
    screen.run();
    let glass = Material::ALL.iter().position(|own| *own == Material::Glass).unwrap();
    assert_eq!(trolley(&screen).material, Material::ALL[glass - 1]);
    assert_eq!(trolley(&screen).place, before.place);
    for _ in 0..2 {
        ask(&mut screen, Command::Undo);
    }
    screen.run();
    assert_eq!(trolley(&screen), before);
}

/// In the short form of a car Enter stops at each picker on its way, and each is chosen by a letter there.
#[test]
fn enter_stops_at_each_picker_of_a_form() {
    let home = home("picked-stops");
    let mut screen = start(&home);
    ask(&mut screen, Command::Car(OfCar::Begin(Begin::New)));
    screen.run();
    let pickers =
        screen.get_all_by_role(Role::ComboBox).map(|own| own.accesskit_node().label().unwrap_or_default());
    let pickers: Vec<String> = pickers.collect();
    let (mut stops, mut is_first) = (Vec::new(), true);
    for _ in 0..60 {
        let (role, name) = in_hand(&screen).expect("something has the keyboard");
        if role == Role::Button {
            break;
        }
        if role == Role::ComboBox && std::mem::take(&mut is_first) {
            // The kind of body: chosen by its letter, and no step further by that.
            let class = |screen: &Harness<'_, Desk>| screen.state().document().draft().unwrap().car().class;
            let before = class(&screen);
            happen(&mut screen, &letters("v"), 1);
            assert_ne!(class(&screen), before);
            assert_eq!(in_hand(&screen), Some((role, name.clone())));
        }
        stops.push((role, name));
        screen.key_press(Key::Enter);
        screen.run();
        assert!(!egui::Popup::is_any_open(&screen.ctx), "{stops:?}");
    }
    let stopped = stops.iter().filter(|(role, _)| *role == Role::ComboBox).map(|(_, name)| name.clone());
    let stopped: Vec<String> = stopped.collect();
    // Where nobody said where the figures come from Enter leads there once more.
    let (last, others) = stopped.split_last().unwrap();
    assert_eq!(last, "Where these figures come from");
    let in_form = |name: &&String| pickers.contains(name);
    assert_eq!(others.iter().filter(in_form).count(), others.len());
    assert!(others.len() > 4, "{stops:?}");
    let texts = stops.iter().filter(|(role, _)| *role != Role::ComboBox).count();
    assert!(texts > 8, "{stops:?}");
    clear(home);
}
