//! Dimensions that are kept with the bay: measured by presses, kept by a key, they follow, stay, and are undone.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_desk::screen::view::Tool;
use baywright_planner::Subject;
use baywright_planner::edit::Edit;
use baywright_planner::geometry::DVec2;
use baywright_planner::hand::{KeptEnd, kept, kept_ends};
use baywright_planner::model::{EndOn, KeptDimension, Place, ThingPoint};
use egui::{Key, Modifiers, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::hand::{press_at, thing};
use crate::sessions::ask;
use crate::support::{demo, middle, usual};

fn dimensions(screen: &Harness<'_, Desk>) -> Vec<KeptDimension> {
    screen.state().answer().arrangement.bay.dimensions.clone()
}

fn ends(screen: &Harness<'_, Desk>) -> [KeptEnd; 2] {
    let answer = screen.state().answer();
    kept_ends(&answer.arrangement, &answer.assessment.scene, &answer.arrangement.bay.dimensions[0])
}

/// From the middle of the cabinet to a mark, with the tool in hand.
fn measured(screen: &mut Harness<'_, Desk>) {
    if screen.state().view().tool == Tool::WhichSide {
        screen.key_press(Key::M);
        screen.run();
    }
    let from = middle(screen, "the tool cabinet, top view");
    press_at(screen, from, Modifiers::NONE);
    let to = middle(screen, "mark 6, top view");
    press_at(screen, to, Modifiers::NONE);
}

#[test]
fn a_dimension_is_kept_by_a_key_and_follows_what_it_lies_on() {
    let mut screen = usual(demo());
    // Before something was measured there is nothing to keep, and that is said.
    screen.key_press(Key::M);
    screen.run();
    screen.key_press(Key::K);
    screen.run();
    screen.get_by_label_contains("Measure from one point to another first");
    screen.key_press(Key::M);
    screen.run();
    measured(&mut screen);
    screen.key_press(Key::K);
    screen.run();
    let kept = dimensions(&screen);
    assert_eq!(kept.len(), 1);
    let on = EndOn::Thing { thing: "tool cabinet".into(), point: ThingPoint::Middle };
    assert_eq!(kept[0].ends[0].on, Some(on));
    assert_eq!(kept[0].ends[1].on, Some(EndOn::LaidMark("6".into())));
    assert_eq!(screen.state().undoes(), Some("Keep dimension 1".to_owned()));
    // It is on the drawing and in the list, by its name.
    screen.key_press(Key::M);
    screen.run();
    screen.get_by_label("dimension 1, top view");
    ask(&mut screen, Command::View(OfView::Search));
    screen.event(egui::Event::Text("kept dimension".to_owned()));
    screen.run();
    screen.get_by_label_contains("Dimension 1, kept dimension");
    ask(&mut screen, Command::View(OfView::EndSearch));
    // The cabinet goes elsewhere, the end with it; the other one goes with the car.
    let own = thing(&screen, "tool cabinet");
    let by = DVec2::new(-300.0, 150.0);
    let place = Place { at: own.place.at.shifted(by), ..own.place };
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Place { thing: own.id.clone(), place })));
    assert_eq!(ends(&screen)[0], KeptEnd { at: place.at.origin(), is_gone: false });
    let before = ends(&screen)[1].at;
    let pose = screen.state().answer().arrangement.parked.shifted(by);
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Park(pose))));
    assert!(ends(&screen)[1].at.distance(before + by) < 1e-6);
    // It is taken out: its end stays where it was, and says so.
    ask(&mut screen, Command::Bay(OfBay::Edit(Edit::Remove(own.id))));
    assert_eq!(ends(&screen)[0], KeptEnd { at: place.at.origin(), is_gone: true });
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Dimension("dimension 1".into())))));
    screen.get_by_label_contains("Stays where it was: the tool cabinet is not there now.");
    ask(&mut screen, Command::Undo);
    assert!(!ends(&screen)[0].is_gone);
    // All of it was three more steps.
    for _ in 0..3 {
        ask(&mut screen, Command::Undo);
    }
    assert!(dimensions(&screen).is_empty() && !screen.state().document().is_changed());
}

#[test]
fn a_kept_dimension_is_renamed_and_removed() {
    let mut screen = usual(demo());
    measured(&mut screen);
    screen.get_by_label("Keep").click();
    screen.run();
    measured(&mut screen);
    screen.get_by_label("Keep").click();
    screen.run();
    let names: Vec<String> = dimensions(&screen).iter().map(|own| own.id.to_string()).collect();
    assert_eq!(names, ["dimension 1", "dimension 2"]);
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Dimension("dimension 2".into())))));
    crate::support::type_into(&mut screen, "name", "cabinet to mark");
    assert_eq!(dimensions(&screen)[1].id.as_str(), "cabinet to mark");
    let in_hand = Subject::Dimension("cabinet to mark".into());
    assert_eq!(screen.state().view().selected, Some(in_hand), "it stays in hand under its new name");
    // A name that is taken is refused beside its field.
    crate::support::type_into(&mut screen, "name", "dimension 1");
    assert_eq!(dimensions(&screen)[1].id.as_str(), "cabinet to mark");
    screen.key_press(Key::Escape);
    screen.run();
    screen.get_by_label("Remove").click();
    screen.run();
    assert_eq!(dimensions(&screen).len(), 1);
    ask(&mut screen, Command::Undo);
    assert_eq!(dimensions(&screen).len(), 2);
}

/// An end near a wall lies on it, square from where the dimension starts.
#[test]
fn a_dimension_to_a_wall_stays_square_to_it() {
    let mut screen = usual(demo());
    screen.key_press(Key::M);
    screen.run();
    let (from, other) = (middle(&screen, "mark 6, top view"), middle(&screen, "mark 5, top view"));
    press_at(&mut screen, from, Modifiers::NONE);
    let answer = screen.state().answer();
    let mark = |name: &str| {
        let own = answer.assessment.scene.marks.iter().find(|own| own.id.as_str() == name);
        own.unwrap().at.unwrap()
    };
    let at = mark("6");
    // Straight to the nearest wall.
    let walls = answer.arrangement.bay.room.edges();
    let wall = walls.min_by(|a, b| a.distance_to(at).total_cmp(&b.distance_to(at))).unwrap();
    let along = (wall.to - wall.from).normalize();
    let foot = wall.from + along * (at - wall.from).dot(along);
    // The paper is the floor seen from above, y down: turned and scaled, by two marks.
    let by = DVec2::new(f64::from((other - from).x), -f64::from((other - from).y));
    let turned = |p: DVec2| {
        let of = mark("5") - at;
        let share = DVec2::new(by.dot(of), of.perp_dot(by)) / of.length_squared();
        share.rotate(p)
    };
    let off = turned(foot - at);
    let to = from + Vec2::new(off.x as f32, -off.y as f32);
    press_at(&mut screen, to, Modifiers::NONE);
    screen.key_press(Key::K);
    screen.run();
    let kept = dimensions(&screen);
    assert!(matches!(kept[0].ends[1].on, Some(EndOn::SquareTo(_))), "{kept:?}");
    assert!((ends(&screen)[1].at - foot).length() < 1e-6);
}

/// What goes with a car and its aiming is not there with another: the end stays where it was, and that is said of it.
#[test]
fn an_end_on_another_cars_mark_stays_and_says_so() {
    let mut screen = usual(demo());
    measured(&mut screen);
    screen.get_by_label("Keep").click();
    screen.run();
    let before = ends(&screen)[1];
    assert!(!before.is_gone);
    // The saloon's marks are four.
    ask(&mut screen, Command::Bay(OfBay::ChooseCar("example-saloon".into())));
    assert_eq!(ends(&screen)[1], KeptEnd { at: before.at, is_gone: true });
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Dimension("dimension 1".into())))));
    screen.get_by_label_contains(
        "Stays where it was: no mark 6 is laid for the car and the aiming shown here.",
    );
    ask(&mut screen, Command::View(OfView::Select(None)));
    ask(&mut screen, Command::View(OfView::Search));
    screen.event(egui::Event::Text("loose end".to_owned()));
    screen.run();
    screen.get_by_label_contains("Dimension 1, kept dimension");
}

/// A drawing crowded with twenty kept dimensions: nothing that is read lies on anything else, and no figure of what stops the
/// aiming is hidden.
#[test]
fn twenty_kept_dimensions_hide_nothing() {
    for (size, large) in [((1280.0, 720.0), false), ((1280.0, 720.0), true), ((2560.0, 1440.0), false)] {
        let mut screen = crate::support::screen(demo(), Vec2::from(size), 1.0);
        let ctx = screen.ctx.clone();
        screen.state_mut().view_mut().letters = crate::legible::letters(large);
        let scene = &screen.state().answer().assessment.scene;
        let middles: Vec<DVec2> = scene.things.iter().map(|own| own.bounds.centre()).collect();
        let marks: Vec<DVec2> = scene.marks.iter().filter_map(|own| own.at.as_ref().ok().copied()).collect();
        let pairs = middles.iter().flat_map(|from| marks.iter().map(move |to| (*from, *to)));
        for (i, (from, to)) in pairs.step_by(3).take(20).enumerate() {
            let answer = screen.state().answer();
            let id = format!("dimension {}", i + 1).as_str().into();
            let own = kept(&answer.arrangement, &answer.assessment.scene, id, from, to);
            screen.state_mut().ask(&ctx, Command::Bay(OfBay::Edit(Edit::KeepDimension(own))));
        }
        screen.run();
        assert_eq!(dimensions(&screen).len(), 20);
        let wrong = crate::legible::wrong(screen.state());
        assert!(wrong.is_empty(), "{size:?}, large {large}: {wrong:#?}");
        // Most of their figures are there, and each is in the list.
        let told = crate::legible::kept_figures(screen.state());
        assert!(told >= if large { 3 } else { 8 }, "{size:?}, large {large}: {told}");
    }
}
