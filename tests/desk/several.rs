//! Several things in hand: chosen by Shift, by a frame, by Ctrl+A; whatever is done with them is one step.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::hand::Order;
use egui::{Event, Key, Modifiers, Pos2, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::hand::{choose, on_top, press_at, thing};
use crate::sessions::ask;
use crate::support::{demo, drag, middle, usual};

/// The names of all that is in hand, in the order of the alphabet.
fn chosen(screen: &Harness<'_, Desk>) -> Vec<String> {
    let view = screen.state().view();
    let mut names: Vec<String> = view
        .selected
        .iter()
        .chain(&view.also)
        .map(|own| match own {
            Subject::Thing(id) => id.to_string(),
            other => format!("{other:?}"),
        })
        .collect();
    names.sort();
    names
}

/// These are in hand.
fn with(names: &[&str]) -> Harness<'static, Desk> {
    let mut screen = usual(demo());
    let all = names.iter().map(|name| Subject::Thing((*name).into())).collect();
    ask(&mut screen, Command::View(OfView::SelectAll(all)));
    screen.run();
    screen
}

fn at(screen: &Harness<'_, Desk>, name: &str) -> DVec2 {
    thing(screen, name).place.at.origin()
}

fn around(screen: &Harness<'_, Desk>, name: &str) -> Bounds {
    thing(screen, name).prism().outline.bounds()
}

fn undone(screen: &mut Harness<'_, Desk>) {
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run();
    assert!(!screen.state().document().is_changed(), "one step, and all is as it was");
}

#[test]
fn shift_and_a_press_is_one_more_or_one_less() {
    let mut screen = usual(demo());
    let (trolley, bin) = (middle(&screen, &on_top("trolley")), middle(&screen, &on_top("waste bin")));
    press_at(&mut screen, trolley, Modifiers::NONE);
    press_at(&mut screen, bin, Modifiers::SHIFT);
    assert_eq!(chosen(&screen), ["trolley", "waste bin"]);
    screen.get_by_label("2 chosen");
    press_at(&mut screen, trolley, Modifiers::SHIFT);
    assert_eq!(chosen(&screen), ["waste bin"]);
    // In the list as well.
    screen.event(Event::ModifiersChanged(Modifiers::SHIFT));
    choose(&mut screen, "trolley");
    screen.event(Event::ModifiersChanged(Modifiers::NONE));
    assert_eq!(chosen(&screen).len(), 2);
    screen.key_press(Key::Escape);
    screen.run();
    assert!(chosen(&screen).is_empty());
}

#[test]
fn a_frame_on_the_floor_chooses_what_lies_in_it_and_ctrl_a_everything() {
    let mut screen = usual(demo());
    let seen = |screen: &Harness<'_, Desk>, name: &str| screen.get_by_label(&on_top(name)).rect();
    let bin = seen(&screen, "waste bin");
    // From a corner at which nothing is written, not even its name.
    let around = bin.expand(4.0);
    let is_free = |at: Pos2| {
        let (drawing, paper) = screen.state().drawings().next().unwrap();
        let px = at - paper.min;
        let px = DVec2::new(f64::from(px.x), f64::from(px.y));
        drawing.pick(px, 4.0).is_none_or(|own| own.subject.is_none())
    };
    let corners = [
        (around.left_top(), around.right_bottom()),
        (around.right_top(), around.left_bottom()),
        (around.left_bottom(), around.right_top()),
        (around.right_bottom(), around.left_top()),
    ];
    let (from, to) = corners.into_iter().find(|(from, _)| is_free(*from)).expect("a free corner");
    drag(&mut screen, from, to);
    assert!(chosen(&screen).contains(&"waste bin".to_owned()), "{:?}", chosen(&screen));
    assert!(!screen.state().document().is_changed());
    assert_eq!(screen.state().view().camera, None, "the paper stays");
    screen.key_press_modifiers(Modifiers::COMMAND, Key::A);
    screen.run();
    assert_eq!(chosen(&screen).len(), screen.state().answer().arrangement.bay.things.len());
}

#[test]
fn several_are_dragged_nudged_and_turned_as_one_step() {
    let names = ["trolley", "waste bin"];
    let mut screen = with(&names);
    let before = names.map(|name| at(&screen, name));
    let from = middle(&screen, &on_top("trolley"));
    drag(&mut screen, from, from + Vec2::new(20.0, 10.0));
    let by = names.map(|name| at(&screen, name)).into_iter().zip(before).map(|(now, was)| now - was);
    let by: Vec<DVec2> = by.collect();
    assert!(by[0].length() > 50.0 && by[0].distance(by[1]) < 1.5, "{by:?}");
    assert_eq!(screen.state().undoes().as_deref(), Some("Move 2 things"));
    undone(&mut screen);

    screen.key_press_modifiers(Modifiers::SHIFT, Key::ArrowRight);
    screen.run();
    for (name, was) in names.into_iter().zip(before) {
        assert!((at(&screen, name) - was - DVec2::new(100.0, 0.0)).length() < 1e-6, "{name}");
    }
    undone(&mut screen);

    ask(&mut screen, Command::Bay(OfBay::Turn(std::f64::consts::FRAC_PI_2)));
    let apart = |places: [DVec2; 2]| places[1] - places[0];
    let (was, now) = (apart(before), apart(names.map(|name| at(&screen, name))));
    assert!(now.distance(was.perp()) < 2.0, "{now} is not {was} turned");
    undone(&mut screen);
}

#[test]
fn they_are_lined_up_spaced_out_and_put_in_a_row_as_one_step() {
    let names = ["trolley", "waste bin", "oil drum"];
    // The demo's car points along the bay's x.
    let edges =
        |screen: &Harness<'_, Desk>, of: fn(&Bounds) -> f64| names.map(|name| of(&around(screen, name)));
    let level = |all: [f64; 3]| all.iter().all(|own| (own - all[0]).abs() < 1.5);
    for (label, of) in [
        ("front edges", (|own| own.high.x) as fn(&Bounds) -> f64),
        ("rear edges", |own| own.low.x),
        ("left edges", |own| own.high.y),
        ("right edges", |own| own.low.y),
        ("in a line along the car", |own| own.centre().y),
        ("in a line across the car", |own| own.centre().x),
    ] {
        let mut screen = with(&names);
        assert!(!level(edges(&screen, of)), "{label}: nothing to do");
        screen.get_by_label(label).click();
        screen.run();
        assert!(level(edges(&screen, of)), "{label}: {:?}", edges(&screen, of));
        assert_eq!(screen.state().undoes().as_deref(), Some("Move 3 things"));
        undone(&mut screen);
    }
    for (label, order) in [("Same gap between all", Order::SpacedOut), ("Side by side in a row", Order::Row)]
    {
        let mut screen = with(&names);
        screen.get_by_label(label).click();
        screen.run();
        let boxes = names.map(|name| around(&screen, name));
        let along = |axis: DVec2| {
            let mut all = boxes.map(|own| (axis.dot(own.low), axis.dot(own.high)));
            all.sort_by(|a, b| a.0.total_cmp(&b.0));
            [all[1].0 - all[0].1, all[2].0 - all[1].1]
        };
        let gaps = [along(DVec2::X), along(DVec2::Y)];
        let wanted = |gaps: &[f64; 2]| match order {
            Order::Row => gaps.iter().all(|gap| (gap - 50.0).abs() < 1.5),
            _ => (gaps[0] - gaps[1]).abs() < 1.5,
        };
        assert!(gaps.iter().any(wanted), "{label}: {gaps:?}");
        undone(&mut screen);
    }
}

#[test]
fn they_are_removed_and_copied_as_one_step_and_a_copy_is_in_nobodys_way() {
    let names = ["trolley", "waste bin"];
    let mut screen = with(&names);
    let count = screen.state().answer().arrangement.bay.things.len();
    let stops = screen.state().answer().assessment.findings.len();
    screen.key_press(Key::Delete);
    screen.run();
    assert_eq!(screen.state().answer().arrangement.bay.things.len(), count - 2);
    assert_eq!(screen.state().undoes().as_deref(), Some("Remove 2 things"));
    undone(&mut screen);
    let mut screen = with(&names);
    let apart = at(&screen, "waste bin") - at(&screen, "trolley");
    screen.key_press_modifiers(Modifiers::COMMAND, Key::D);
    screen.run();
    assert_eq!(chosen(&screen), ["trolley 2", "waste bin 2"]);
    assert!((at(&screen, "waste bin 2") - at(&screen, "trolley 2")).distance(apart) < 2.0);
    undone(&mut screen);
    // The trolley stands in the zone and the copy of it does not: it is in no finding, and on no mark.
    let mut screen = with(&["trolley"]);
    screen.key_press_modifiers(Modifiers::COMMAND, Key::D);
    screen.run();
    let findings = &screen.state().answer().assessment.findings;
    assert_eq!(findings.len(), stops, "nothing new is found");
    let copy = Subject::Thing("trolley 2".into());
    assert!(!findings.iter().any(|found| found.subjects.contains(&copy)));
}

/// What the program put on the clipboard in the frames of this.
fn clipped(screen: &mut Harness<'_, Desk>, event: Event) -> String {
    screen.event(event);
    screen.step();
    let copied = |command: &egui::OutputCommand| match command {
        egui::OutputCommand::CopyText(text) => Some(text.clone()),
        _ => None,
    };
    screen.output().platform_output.commands.iter().find_map(copied).expect("something on the clipboard")
}

#[test]
fn things_go_to_another_bay_by_the_clipboard() {
    let mut screen = with(&["trolley", "waste bin"]);
    let text = clipped(&mut screen, Event::Copy);
    assert!(text.contains("name: \"trolley\"") && text.contains("at_mm:"), "{text}");
    assert!(!screen.state().document().is_changed());
    let cut = clipped(&mut screen, Event::Cut);
    assert_eq!(cut, text);
    assert_eq!(screen.state().undoes().as_deref(), Some("Remove 2 things"));

    let mut other = usual(crate::support::desk(std::path::Path::new("clear-bay"), None));
    let count = other.state().answer().arrangement.bay.things.len();
    let findings = other.state().answer().assessment.findings.len();
    let view = other.get_by_role_and_label(egui::accesskit::Role::Canvas, "Top view").rect();
    let pointer = Pos2::new(view.max.x - 160.0, view.max.y - 90.0);
    other.hover_at(pointer);
    other.step();
    other.event(Event::Paste(text));
    other.run();
    assert_eq!(other.state().answer().arrangement.bay.things.len(), count + 2);
    assert_eq!(other.state().answer().assessment.findings.len(), findings, "in nobody's way");
    assert_eq!(other.state().undoes().as_deref(), Some("Add 2 things"));
    undone(&mut other);
    // Anything else on the clipboard is said to be nothing for a bay.
    other.event(Event::Paste("a shopping list".into()));
    other.run();
    other.get_by_label_contains("nothing that can be put into a bay");
    assert!(!other.state().document().is_changed());
}
