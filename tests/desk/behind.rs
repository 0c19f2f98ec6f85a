//! What stands behind the details of the marks: graphs, what would help, the plan drawn beside the linear law.

use std::path::Path;
use std::time::{Duration, Instant};

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfCar, OfView};
use baywright_desk::screen::view::Tab;
use baywright_planner::edit::Edit;
use baywright_planner::model::Taken;
use baywright_planner::words::Language;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use crate::sessions::ask;
use crate::support::{desk, usual};

fn by_key(screen: &mut Harness<'_, Desk>, label: &str) {
    screen.get_by_label(label).focus();
    screen.run();
    screen.key_press(egui::Key::Space);
    screen.run();
}

fn with_details() -> Harness<'static, Desk> {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    by_key(&mut screen, "Details");
    screen
}

/// Frames until something that is worked out beside them is there.
fn until(screen: &mut Harness<'_, Desk>, is_there: impl Fn(&Harness<'_, Desk>) -> bool) {
    let start = Instant::now();
    while !is_there(screen) {
        assert!(start.elapsed() < Duration::from_secs(60), "it never came");
        std::thread::sleep(Duration::from_millis(20));
        screen.step();
    }
}

fn tape_all(screen: &mut Harness<'_, Desk>, off: impl Fn(usize) -> f64) {
    let readings = screen.state().answer().assessment.scene.readings.clone();
    for (nth, own) in readings.into_iter().enumerate() {
        let read_mm = Some((own.distance_mm + off(nth)).round());
        ask(
            screen,
            Command::Bay(OfBay::Edit(Edit::Tape {
                from: own.from,
                to: own.to,
                read_mm,
                taken: Taken::default(),
            })),
        );
    }
}

fn graph(screen: &Harness<'_, Desk>, begins: &str) -> Option<String> {
    let all = screen.query_all_by_role(Role::Image);
    all.filter_map(|own| own.accesskit_node().label()).find(|own| own.starts_with(begins))
}

#[test]
fn graphs_are_there_once_the_details_are_open_and_say_what_they_show() {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    assert_eq!(graph(&screen, "Bars: "), None);
    by_key(&mut screen, "Details");
    let shares = graph(&screen, "Bars: ").unwrap();
    assert!(shares.contains(" %") && shares.contains("more: "), "{shares}");
    // Nothing was read: no test, and nothing that falls.
    assert_eq!((graph(&screen, "Points: "), graph(&screen, "Line: ")), (None, None));
    tape_all(&mut screen, |nth| if nth == 7 { 12.0 } else { 0.0 });
    until(&mut screen, |screen| graph(screen, "Line: ").is_some());
    let tests = graph(&screen, "Points: ").unwrap();
    let figure = |text: &str| text.rsplit(": ").next().unwrap().trim().parse::<f64>();
    let beyond = tests.split("; ").filter_map(|own| figure(own).ok()).filter(|own| own.abs() > 3.29);
    assert!(beyond.count() >= 1, "{tests}");
    let course = graph(&screen, "Line: ").unwrap();
    let count = screen.state().answer().judged.marks_taped.len();
    assert!(course.contains(&format!("{count}: ± ")) && course.contains(" 0: ± "), "{course}");
}

/// Neither the wheel nor the keyboard stays in a graph.
#[test]
fn a_graph_takes_no_key() {
    let mut screen = with_details();
    tape_all(&mut screen, |_| 0.0);
    until(&mut screen, |screen| {
        graph(screen, "Line: ").is_some() && screen.query_by_label_contains("Class I tape").is_some()
    });
    screen.get_by_label("Details").focus();
    screen.run();
    // Past three graphs and what would help: nothing in the graphs has the keyboard on the way.
    for _ in 0..8 {
        screen.key_press(egui::Key::Tab);
        screen.run();
        assert!(screen.query_all_by_role(Role::Image).all(|own| !own.is_focused()));
        if screen.get_by_label(Language::English.helps().draw).is_focused() {
            return;
        }
    }
    panic!("no way to the press by keys");
}

#[test]
fn what_would_help_is_listed_with_what_it_buys() {
    let mut screen = with_details();
    until(&mut screen, |screen| screen.query_by_label_contains("Class I tape").is_some());
    screen.get_by_label_contains("as laid: ±");
    let text = screen.get_by_label_contains("Class I tape").accesskit_node().value().unwrap_or_default();
    assert!(text.matches('±').count() == 2 && text.contains('\u{2192}'), "{text}");
    screen.get_by_label_contains("Wheel points found twice as well");
    screen.get_by_label_contains("A longer base is not among it");
}

/// The press draws beside the frame; the same plan has the same answer, and another plan none until it is asked for.
#[test]
fn a_plan_is_drawn_beside_the_law() {
    let said = |language: Language| {
        let mut screen = with_details();
        ask(&mut screen, Command::View(OfView::Language(language)));
        by_key(&mut screen, language.helps().draw);
        until(&mut screen, |screen| screen.query_by_label_contains("JCGM 101, ").is_some());
        let text = screen.get_by_label_contains("JCGM 101, ").accesskit_node().value().unwrap_or_default();
        (screen, text)
    };
    let (mut screen, first) = said(Language::English);
    assert!(first.contains("They agree within ±"), "{first}");
    assert_eq!(said(Language::English).1, first);
    assert!(said(Language::German).1.contains("Sie stimmen"));
    tape_all(&mut screen, |_| 0.0);
    assert!(screen.query_by_label_contains("They agree within").is_none());
    screen.get_by_label(Language::English.helps().draw);
}

/// Another plan is listed with what it buys, and one press begins to change the car by it; that is one step, and undone by one.
#[test]
fn another_plan_is_taken_by_one_press() {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    ask(&mut screen, Command::Bay(OfBay::Show("Estate, rear left corner radar".into())));
    let aiming = screen.state().answer().arrangement.aiming.id.clone();
    ask(&mut screen, Command::View(OfView::Tab(Tab::Marks)));
    by_key(&mut screen, "Details");
    until(&mut screen, |screen| {
        screen.query_by_label_contains("Change the plan, Laid another way").is_some()
    });
    screen.get_by_label_contains("lay marks another way only where it leaves that to you");
    let text = screen.get_by_label_contains("Change the plan, Laid another way").accesskit_node().label();
    let text = text.unwrap();
    assert!(text.matches('±').count() == 2 && text.contains("instead of"), "{text}");
    let before = screen.state().answer().arrangement.aiming.mark_plan.clone();
    screen.get_by_label_contains("Change the plan, Laid another way").focus();
    screen.run();
    screen.key_press(egui::Key::Space);
    screen.run();
    let plan = |screen: &Harness<'_, Desk>| {
        let car = screen.state().document().draft().unwrap().car();
        car.aimings.iter().find(|own| own.id == aiming).unwrap().mark_plan.clone()
    };
    let after = plan(&screen);
    assert!(after.len() >= before.len() && after != before);
    // What is drawn and judged is that plan.
    assert_eq!(screen.state().answer().arrangement.aiming.mark_plan, after);
    ask(&mut screen, Command::Undo);
    assert_eq!(plan(&screen), before);
    ask(&mut screen, Command::Redo);
    assert_eq!(plan(&screen), after);
    ask(&mut screen, Command::Car(OfCar::DropAnyway));
    assert_eq!(screen.state().answer().arrangement.aiming.mark_plan, before);
}
