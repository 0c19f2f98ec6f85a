//! Several bays in one hall: drawn, named, set up in, gone from one to another, kept empty; each step undone.

use std::path::Path;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView, Part};
use baywright_desk::screen::view::Area;
use baywright_drawing::{Item, Role, Shape};
use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Id;
use baywright_planner::{Code, Quantity, Severity, Subject};
use egui::Vec2;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::sessions::{ask, press};
use crate::support::{demo, desk, drag, type_into, usual};

fn bays(screen: &Harness<'_, Desk>) -> Vec<String> {
    screen.state().document().layout().bay.bays.iter().map(|own| own.id.to_string()).collect()
}

fn shown(screen: &Harness<'_, Desk>) -> String {
    screen.state().document().shown().to_string()
}

fn in_bay(screen: &Harness<'_, Desk>) -> Option<Id> {
    screen.state().document().saved_arrangement().unwrap().in_bay.clone()
}

/// How severe each thing is that is told of other bays.
fn told(screen: &Harness<'_, Desk>) -> Vec<Severity> {
    let found = &screen.state().answer().assessment.findings;
    found.iter().filter(|own| own.code() == Code::BeyondBay).map(|own| own.severity).collect()
}

/// One more bay, drawn between two corners.
fn draw(screen: &mut Harness<'_, Desk>, at: usize, from: (f64, f64), to: (f64, f64)) {
    ask(screen, Command::Bay(OfBay::AddPart(Part::HallBay)));
    let area = Area::HallBay(at);
    ask(screen, Command::Bay(OfBay::DrawnArea(area, DVec2::from(from), DVec2::from(to))));
}

/// What was drawn by hand is still in hand: its form is what comes next.
#[test]
fn a_bay_that_was_drawn_stays_in_hand() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::Bay(OfBay::AddPart(Part::HallBay)));
    let before = screen.state().document().layout().bay.bays[0].outline.clone();
    press(&mut screen, "Draw it");
    let paper = screen.state().drawings().next().unwrap().1;
    drag(&mut screen, paper.center() - Vec2::splat(90.0), paper.center() + Vec2::splat(60.0));
    assert_ne!(screen.state().document().layout().bay.bays[0].outline, before);
    assert_eq!(screen.state().view().selected, Some(Subject::HallBay("bay 1".into())));
    press(&mut screen, "This set-up is made in this bay");
    assert_eq!(in_bay(&screen), Some("bay 1".into()));
}

/// From a room that is one bay to two bays in it with a set-up in each.
#[test]
fn two_bays_are_drawn_and_set_up_in() {
    let mut screen = usual(demo());
    let first = shown(&screen);
    assert!(screen.query_by_label("Bays in this hall").is_none());
    draw(&mut screen, 0, (0.0, 0.0), (12_000.0, 3_500.0));
    draw(&mut screen, 1, (0.0, 3_500.0), (12_000.0, 6_500.0));
    assert_eq!(bays(&screen), ["bay 1", "bay 2"]);
    screen.get_by_label("Bays in this hall");
    assert!(told(&screen).contains(&Severity::Care), "no bay is chosen");
    // This set-up is made in the second, whose form is open.
    press(&mut screen, "This set-up is made in this bay");
    assert_eq!(in_bay(&screen), Some("bay 2".into()));
    // In the first there is none yet: a press leads to its form, another makes one.
    press(&mut screen, "Go to bay 1");
    assert_eq!(screen.state().view().selected, Some(Subject::HallBay("bay 1".into())));
    assert_eq!(shown(&screen), first);
    press(&mut screen, "Set up in bay 1");
    assert_eq!(shown(&screen), "In bay 1");
    assert_eq!(in_bay(&screen), Some("bay 1".into()));
    let parked = screen.state().document().saved_arrangement().unwrap().parked.origin();
    assert_eq!(parked.y, 1_750.0, "in its middle");
    // And back, and there again: what was shown there last.
    press(&mut screen, "Go to bay 2");
    assert_eq!(shown(&screen), first);
    press(&mut screen, "Go to bay 1");
    assert_eq!(shown(&screen), "In bay 1");
    ask(&mut screen, Command::Bay(OfBay::Duplicate));
    let copy = shown(&screen);
    press(&mut screen, "Go to bay 2");
    press(&mut screen, "Go to bay 1");
    assert_eq!(shown(&screen), copy, "the last one");
    // One step each: the copy, the set-up, its bay, the drawing and the bays.
    for _ in 0..7 {
        ask(&mut screen, Command::Undo);
    }
    assert!(bays(&screen).is_empty() && in_bay(&screen).is_none());
    assert_eq!(shown(&screen), first);
    assert!(!screen.state().document().is_changed());
}

/// Another name is followed, what is removed is forgotten, in one step each.
#[test]
fn set_ups_follow_their_bay() {
    let mut screen = usual(desk(Path::new("hall"), None));
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::HallBay("aiming bay".into())))));
    type_into(&mut screen, "Name", "long bay");
    let layout = screen.state().document().layout().clone();
    assert_eq!(layout.arrangements[0].in_bay, Some("long bay".into()));
    assert_eq!(layout.arrangements[2].kept_empty, ["long bay".into()]);
    assert_eq!(screen.state().view().selected, Some(Subject::HallBay("long bay".into())));
    press(&mut screen, "Remove");
    let layout = screen.state().document().layout().clone();
    assert!(layout.arrangements[0].in_bay.is_none() && layout.arrangements[2].kept_empty.is_empty());
    ask(&mut screen, Command::Undo);
    ask(&mut screen, Command::Undo);
    assert!(!screen.state().document().is_changed());
}

/// The shipped hall: what reaches into the next bay needs care; kept empty, it is a note.
#[test]
fn a_bay_is_kept_empty_by_a_tick() {
    let mut screen = usual(desk(Path::new("hall"), None));
    assert_eq!(told(&screen), [], "the aiming bay holds all of its set-up");
    ask(&mut screen, Command::Bay(OfBay::Show("Estate, rear left corner radar, in the service bay".into())));
    assert_eq!(told(&screen), [Severity::Care]);
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::HallBay("aiming bay".into())))));
    press(&mut screen, "Keep it empty while this set-up is aimed");
    assert_eq!(told(&screen), [Severity::Note]);
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Car))));
    screen.get_by_label("Kept empty while this is aimed");
    ask(&mut screen, Command::Undo);
    assert_eq!(told(&screen), [Severity::Care]);
}

/// In the shipped hall, a set-up that reaches into the bay beside its own: the room lies straight, both bays are named, and how
/// far it reaches is drawn.
#[test]
fn what_reaches_into_another_bay_is_seen() {
    let mut screen = usual(desk(Path::new("hall"), None));
    ask(&mut screen, Command::Bay(OfBay::Show("Estate, rear left corner radar, in the service bay".into())));
    let (top, _) = screen.state().drawings().next().unwrap();
    let heading = top.bay_from_view.heading();
    let quarter = std::f64::consts::FRAC_PI_2;
    assert!((heading / quarter - (heading / quarter).round()).abs() < 1e-6, "{heading}");
    for name in ["aiming bay", "service bay"] {
        let own = Some(Subject::HallBay(name.into()));
        let is_name = |item: &&Item| item.subject == own && matches!(item.shape, Shape::Text(_));
        assert_eq!(top.items.iter().filter(is_name).count(), 1, "{name}");
    }
    let figures = top.items.iter().filter(|item| item.role == Role::DimensionCare);
    let figures: Vec<&str> = figures
        .filter_map(|item| match &item.shape {
            Shape::Dimension(own) => Some(own.text.text.as_str()),
            _ => None,
        })
        .collect();
    let [figure] = figures[..] else { panic!("{figures:?}") };
    let found = &screen.state().answer().assessment.findings;
    let found = found.iter().find(|own| own.code() == Code::BeyondBay).unwrap();
    let Some(Quantity::Length(depth)) = found.measured else { panic!("{found:?}") };
    let digits: String = figure.chars().filter(char::is_ascii_digit).collect();
    assert_eq!(digits, format!("{depth:.0}"));
}

/// A shut door that may be opened onto the set-up has a press, and its form a tick: it is kept shut, in one step that is undone.
#[test]
fn a_door_is_kept_shut_by_a_press_and_by_a_tick() {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    let doors = |screen: &Harness<'_, Desk>| -> Vec<Severity> {
        let found = screen.state().answer().assessment.findings.iter();
        found.filter(|own| own.code() == Code::ShutDoor).map(|own| own.severity).collect()
    };
    assert_eq!(doors(&screen), []);
    let mut bay = screen.state().document().layout().bay.clone();
    bay.openings[1].wall = 2;
    bay.openings[1].from_mm = 4_000.0;
    bay.openings[1].width_mm = 2_500.0;
    bay.openings[1].material = baywright_planner::model::Material::Steel;
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Bay { bay: Box::new(bay), renamed: None })));
    assert_eq!(doors(&screen), [Severity::Care]);
    let name = screen.state().answer().assessment.findings.iter().find(|own| own.code() == Code::ShutDoor);
    let title =
        baywright_planner::words::Words::new(&screen.state().answer().arrangement, Default::default())
            .title(name.unwrap());
    press(&mut screen, &format!("Keep it shut: {title}"));
    assert_eq!(doors(&screen), [Severity::Note]);
    ask(&mut screen, Command::Undo);
    assert_eq!(doors(&screen), [Severity::Care]);
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Opening("exit door".into())))));
    press(&mut screen, "Keep it shut while this set-up is aimed");
    assert_eq!(doors(&screen), [Severity::Note]);
    press(&mut screen, "Keep it shut while this set-up is aimed");
    assert_eq!(doors(&screen), [Severity::Care]);
}

/// What reaches into another bay has a press: that bay is kept empty, in one step that is undone.
#[test]
fn the_other_bay_is_kept_empty_by_a_press() {
    let mut screen = usual(desk(Path::new("hall"), None));
    press(&mut screen, "Go to the service bay");
    assert_eq!(told(&screen), [Severity::Care]);
    press(&mut screen, "Keep it empty: The set-up reaches into the aiming bay");
    assert_eq!(told(&screen), [Severity::Note]);
    let kept = screen.state().document().saved_arrangement().unwrap().kept_empty.clone();
    assert_eq!(kept, ["aiming bay".into()]);
    ask(&mut screen, Command::Undo);
    assert_eq!(told(&screen), [Severity::Care]);
}
