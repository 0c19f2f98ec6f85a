//! The first five minutes, done by a program: open, drag, see the finding go, undo, apply a cure, type, save, reload.

use std::path::{Path, PathBuf};
use std::process::Command;

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command as Ask, OfBay};
use baywright_desk::screen::unbroken;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::{Id, StandSet};
use baywright_planner::{Severity, Verdict};
use egui::{Key, Modifiers, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::support::{blames, count, demo, desk, drag, hold, middle, type_into, usual, verdict, wheel};

/// A folder of its own below the build folder.
fn folder(name: &str) -> PathBuf {
    let folder =
        PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("desk-{}-{name}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(folder.join("bay-layouts")).unwrap();
    folder
}

#[test]
fn a_cabinet_is_dragged_out_of_the_zone_and_back_by_undo() {
    let mut screen = usual(demo());
    assert_eq!(verdict(&screen), Verdict::NotReady);
    assert!(blames(&screen, "tool cabinet", "zone-object"));
    let stops = count(&screen, Severity::Stops);
    let from = middle(&screen, "the tool cabinet, top view");
    let to = from - Vec2::new(0.0, 40.0);
    // The finding goes in the very frame of the drag, before the pointer is let go.
    hold(&mut screen, from, to);
    assert!(!blames(&screen, "tool cabinet", "zone-object"));
    assert_eq!(screen.state().undoes(), None, "no step while the pointer is down");
    screen.drop_at(to);
    screen.step();
    screen.run();
    assert_eq!(count(&screen, Severity::Stops), stops - 1);
    assert_eq!(screen.state().undoes().as_deref(), Some("Move tool cabinet"));
    screen.get_by_label("Undo").click();
    screen.run();
    assert!(blames(&screen, "tool cabinet", "zone-object"));
    assert!(!screen.state().document().is_changed());
    screen.get_by_label("Do again").click();
    screen.run();
    assert!(!blames(&screen, "tool cabinet", "zone-object"));
}

#[test]
fn escape_puts_back_what_is_dragged() {
    let mut screen = usual(demo());
    let from = middle(&screen, "the trolley, top view");
    hold(&mut screen, from, from + Vec2::new(0.0, 120.0));
    assert!(screen.state().document().is_changed());
    screen.key_press(Key::Escape);
    screen.step();
    screen.drop_at(from);
    screen.run();
    assert!(!screen.state().document().is_changed());
    assert_eq!(screen.state().undoes(), None);
}

#[test]
fn a_cure_is_applied_by_one_press_and_the_promise_by_another() {
    let mut screen = usual(demo());
    screen.get_by_label("Move it: Tool cabinet is inside the keep-clear zone “metal-free area”").click();
    screen.run();
    assert!(!blames(&screen, "tool cabinet", "zone-object"));
    let done = screen.state().undoes().unwrap();
    assert!(done.starts_with("Move the tool cabinet 338 mm"), "{done}");
    screen.get_by_label("Do all of this").click();
    screen.run();
    assert_eq!(verdict(&screen), Verdict::ReadyWithCare);
    assert_eq!(count(&screen, Severity::Stops), 0);
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    screen.run();
    assert!(!screen.state().document().is_changed());
}

#[test]
fn every_figure_can_be_typed() {
    let mut screen = usual(demo());
    select(&mut screen, "trolley");
    type_into(&mut screen, "from office wall", "1200,5");
    let trolley = thing(&screen, "trolley");
    assert!(
        (trolley.place.at.origin().x - (12_000.0 - 1_200.5 - 300.0)).abs() < 1e-6
            || trolley.place.at.origin() != DVec2::new(6300.0, 3260.0)
    );
    type_into(&mut screen, "top", "45 cm");
    assert_eq!(thing(&screen, "trolley").span.top(), 450.0);
    type_into(&mut screen, "turned", "12.5");
    assert!((thing(&screen, "trolley").place.at.heading().to_degrees() - 12.5).abs() < 1e-9);
    type_into(&mut screen, "length", "2 ft");
    let shape = thing(&screen, "trolley").footprint.shape().clone();
    let baywright_planner::model::Shape::Rectangle { length_mm: length, .. } = shape else { panic!() };
    assert!((length - 609.6).abs() < 1e-9);
    // What cannot be read is said, and nothing changes.
    let before = screen.state().document().layout().clone();
    type_into(&mut screen, "top", "tall");
    assert_eq!(*screen.state().document().layout(), before);
    screen.get_by_label_contains("is no length");
    // Nor can the top come below the underside.
    type_into(&mut screen, "top", "-5");
    assert_eq!(*screen.state().document().layout(), before);
    // The keyboard went on to a field further down, and the form with it.
    wheel(&mut screen, egui::pos2(100.0, 700.0), 50.0);
    type_into(&mut screen, "name", "column");
    assert_eq!(*screen.state().document().layout(), before, "the name is taken");
    type_into(&mut screen, "name", "шкаф на колёсах");
    assert!(
        screen.state().answer().arrangement.bay.things.iter().any(|t| t.id.as_str() == "шкаф на колёсах")
    );
}

#[test]
fn the_stand_is_typed_off_its_mark_and_put_back() {
    let mut screen = usual(desk(Path::new("clear-bay"), None));
    assert_ne!(verdict(&screen), Verdict::NotReady);
    let placement = screen.state().answer().arrangement.aiming.placements[0].id.clone();
    screen.get_by_label_contains("Target stand, ").click();
    screen.run();
    type_into(&mut screen, "to the left", "60");
    let own = screen.state().document().saved_arrangement().unwrap().clone();
    assert!(
        matches!(own.stands[..], [(ref id, StandSet::At { .. })] if *id == placement),
        "{:?}",
        own.stands
    );
    let target = &screen.state().answer().assessment.scene.targets[0];
    let sensor = screen.state().answer().assessment.scene.sensor();
    let away = (target.meant_centre() - sensor).truncate().normalize();
    let shift = (target.centre() - target.meant_centre()).truncate();
    assert!((away.perp_dot(shift) - 60.0).abs() < 0.5, "left of the line from the sensor: {shift}");
    screen.get_by_label("Put it on its mark").click();
    screen.run();
    assert!(screen.state().document().saved_arrangement().unwrap().stands.is_empty());
}

#[test]
fn arrows_nudge_and_brackets_turn() {
    let mut screen = usual(demo());
    select(&mut screen, "trolley");
    let start = thing(&screen, "trolley").place.at;
    screen.key_press(Key::ArrowRight);
    screen.step();
    screen.key_press_modifiers(Modifiers::SHIFT, Key::ArrowUp);
    screen.step();
    screen.key_press_modifiers(Modifiers::ALT, Key::ArrowLeft);
    screen.step();
    screen.run();
    let moved = thing(&screen, "trolley").place.at;
    // The nose of the demo's car points along the bay's x: the paper lies as the bay.
    let by = moved.origin() - start.origin();
    assert!((by - DVec2::new(9.0, 100.0)).length() < 1e-6, "{by}");
    screen.key_press(Key::OpenBracket);
    screen.run();
    assert!((thing(&screen, "trolley").place.at.heading().to_degrees() - 1.0).abs() < 1e-9);
    // As a system says it that names what is written, and as one that names the key.
    for (key, turned) in [(Key::OpenCurlyBracket, 16.0), (Key::CloseBracket, 1.0)] {
        screen.key_press_modifiers(Modifiers::SHIFT, key);
        screen.run();
        let heading = thing(&screen, "trolley").place.at.heading().to_degrees();
        assert!((heading - turned).abs() < 1e-9, "{heading}, not {turned}");
    }
}

#[test]
fn things_are_added_copied_and_removed() {
    let mut screen = usual(demo());
    let before = screen.state().answer().arrangement.bay.things.len();
    screen.get_by_label("+ Add").click();
    screen.run();
    screen.get_by_label("tool chest").click();
    screen.run();
    assert_eq!(screen.state().answer().arrangement.bay.things.len(), before + 1);
    screen.key_press_modifiers(Modifiers::COMMAND, Key::D);
    screen.run();
    let names: Vec<String> =
        screen.state().answer().arrangement.bay.things.iter().map(|t| t.id.to_string()).collect();
    assert!(
        names.contains(&"tool chest".to_owned()) && names.contains(&"tool chest 2".to_owned()),
        "{names:?}"
    );
    screen.key_press(Key::Delete);
    screen.run();
    assert_eq!(screen.state().answer().arrangement.bay.things.len(), before + 1);
    screen.get_by_label("Undo").click();
    screen.run();
    assert_eq!(screen.state().answer().arrangement.bay.things.len(), before + 2);
}

#[test]
fn what_is_saved_is_what_check_answers_for() {
    let folder = folder("save");
    let path = folder.join("bay-layouts/mine.ron");
    let mut screen = usual(demo());
    select(&mut screen, "trolley");
    type_into(&mut screen, "turned", "30");
    screen.get_by_label("Move it: Tool cabinet is inside the keep-clear zone “metal-free area”").click();
    screen.run();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::S);
    screen.run();
    type_into(&mut screen, "Save as (.ron)", &path.display().to_string());
    assert!(path.exists() && !screen.state().document().is_changed());
    let shown = screen.state().answer().assessment.clone();
    // Another desk reads the same, to the last finding.
    let again = usual(desk(&path, None));
    assert_eq!(again.state().answer().assessment.findings, shown.findings);
    // And so does the program without a screen.
    let output = Command::new(env!("CARGO_BIN_EXE_baywright"))
        .args(["check", "--json", "--date", "2026-11-20", "--arrangement", "As found"])
        .arg(&path)
        .output()
        .unwrap();
    let said: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let findings = said["arrangements"][0]["findings"].as_array().unwrap();
    let codes: Vec<&str> = findings.iter().map(|f| f["code"].as_str().unwrap()).collect();
    let on_screen: Vec<&str> = shown.findings.iter().map(|f| f.code().as_str()).collect();
    assert_eq!(codes, on_screen);
    assert_eq!(output.status.code(), Some(1));
    crate::support::clear(folder);
}

#[test]
fn work_is_not_lost_without_a_question() {
    let mut screen = usual(demo());
    select(&mut screen, "trolley");
    screen.key_press(Key::ArrowRight);
    screen.run();
    screen.get_by_label("Bay: Crowded bay *").click();
    screen.run();
    screen.get_by_label("Clear bay").click();
    screen.run();
    screen.get_by_label("Save changes?");
    screen.get_by_label_contains("changes that are not saved");
    screen.get_by_label("Stay here").click();
    screen.run();
    assert_eq!(screen.state().document().layout().bay.name, "Crowded bay");
    screen.get_by_label("Bay: Crowded bay *").click();
    screen.run();
    screen.get_by_label("Clear bay").click();
    screen.run();
    screen.get_by_label("Do not save").click();
    screen.run();
    assert_eq!(screen.state().document().layout().bay.name, "Clear bay");
}

/// A bay of one's own in a folder, opened and changed.
fn changed_in(folder: &Path) -> (PathBuf, Harness<'static, Desk>) {
    let path = folder.join("bay-layouts/bay.ron");
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("bay-layouts/crowded-bay.ron");
    std::fs::copy(shipped, &path).unwrap();
    let mut screen = usual(desk(&path, None));
    select(&mut screen, "trolley");
    screen.key_press(Key::ArrowRight);
    screen.run();
    (path, screen)
}

#[test]
fn a_file_changed_by_someone_else_is_not_replaced_without_a_question() {
    let folder = folder("changed");
    let (path, mut screen) = changed_in(&folder);
    let theirs = std::fs::read_to_string(&path).unwrap().replace("ceiling_mm: 3000", "ceiling_mm: 3050");
    std::fs::write(&path, &theirs).unwrap();
    screen.key_press_modifiers(Modifiers::COMMAND, Key::S);
    screen.run();
    screen.get_by_label_contains("Someone else has changed this file");
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    screen.get_by_label("Replace it").click();
    screen.run();
    assert_ne!(std::fs::read_to_string(&path).unwrap(), theirs);
    assert!(!screen.state().document().is_changed());
    crate::support::clear(folder);
}

/// Whoever changed nothing here since takes what the other one wrote, by one press; with changes of one's own it is asked first.
#[test]
fn what_someone_else_wrote_is_opened() {
    for (with_changes, is_there) in [(false, true), (true, true), (false, false)] {
        let folder = folder("theirs");
        let (path, mut screen) = changed_in(&folder);
        screen.key_press_modifiers(Modifiers::COMMAND, Key::S);
        screen.run();
        if with_changes {
            screen.key_press(Key::ArrowRight);
            screen.run();
        }
        let text = std::fs::read_to_string(&path).unwrap();
        let theirs = text.replace("ceiling_mm: 3000", "ceiling_mm: 3050");
        assert_ne!(text, theirs);
        // Where they still have the set-up that is in hand, it is shown; else their first one.
        let (first, second) = {
            let all = &screen.state().document().layout().arrangements;
            (all[0].id.clone(), all[1].id.clone())
        };
        crate::sessions::ask(&mut screen, Ask::Bay(OfBay::Show(second.clone())));
        assert_eq!(screen.state().document().shown(), &second);
        let named = |id: &Id| format!("name: \"{id}\"");
        let theirs =
            if is_there { theirs } else { theirs.replace(&named(&second), &named(&"their own".into())) };
        std::fs::write(&path, &theirs).unwrap();
        screen.event(egui::Event::WindowFocused(true));
        screen.run();
        screen.get_by_label_contains("Someone else changed this file since you opened it");
        screen.key_press_modifiers(Modifiers::COMMAND, Key::S);
        screen.run();
        screen.get_by_label("Open theirs").click();
        screen.run();
        if with_changes {
            screen.get_by_label("Do not save").click();
            screen.run();
        }
        assert!(screen.state().view().page().is_none() && !screen.state().document().is_changed());
        assert_eq!(
            screen.state().document().layout().bay.ceiling_mm,
            3_050.0,
            "with changes: {with_changes}"
        );
        assert_eq!(screen.state().document().shown(), if is_there { &second } else { &first });
        assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
        crate::support::clear(folder);
    }
}

/// Nobody's work is replaced where there is no file any more: that is what is said, and one press puts it back.
#[test]
fn a_file_that_is_gone_is_said_to_be_gone() {
    let folder = folder("gone");
    let (path, mut screen) = changed_in(&folder);
    std::fs::remove_file(&path).unwrap();
    // When one comes back to the window, too.
    screen.event(egui::Event::WindowFocused(true));
    screen.run();
    screen.get_by_label_contains("The file of this bay is not there any more");
    screen.key_press_modifiers(Modifiers::COMMAND, Key::S);
    screen.run();
    screen
        .get_by_label_contains("is not there any more: it was removed, moved or renamed since it was opened");
    assert!(screen.query_by_label_contains("Someone else").is_none());
    screen.get_by_label("Save it there again").click();
    screen.run();
    assert!(path.exists() && !screen.state().document().is_changed());
    crate::support::clear(folder);
}

#[test]
fn a_file_that_cannot_be_read_says_why_and_the_work_stays() {
    let folder = folder("unreadable");
    let path = folder.join("bay-layouts/bad.ron");
    std::fs::write(&path, "(version: 1, name: 5)").unwrap();
    let mut screen = usual(demo());
    screen.key_press_modifiers(Modifiers::COMMAND, Key::O);
    screen.run();
    type_into(&mut screen, "A bay layout (.ron)", &path.display().to_string());
    screen.get_by_label_contains("bad.ron, line 1");
    assert_eq!(screen.state().document().layout().bay.name, "Crowded bay");
    crate::support::clear(folder);
}

#[test]
fn another_car_and_aiming_are_chosen_in_the_bar() {
    let mut screen = usual(demo());
    screen.get_by_label_contains("Car: Example hatchback").click();
    screen.run();
    screen.get_by_label("Example estate").click();
    screen.run();
    assert_eq!(screen.state().answer().arrangement.vehicle.id.as_str(), "example-estate");
    assert_eq!(screen.state().undoes().as_deref(), Some("Another car, Example estate"));
    screen.key_press(Key::Escape);
    screen.run();
    let other = screen.state().answer().arrangement.vehicle.aimings[1].name.clone();
    screen.get_by_label_contains("Aiming: ").click();
    screen.run();
    screen.get_by_label(&other).click();
    screen.run();
    assert_eq!(screen.state().answer().arrangement.aiming.name, other);
}

#[test]
fn the_measuring_tool_measures() {
    let mut screen = usual(demo());
    screen.get_by_label("Measure").click();
    screen.run();
    let (a, b) = (middle(&screen, "mark 5, top view"), middle(&screen, "mark 6, top view"));
    for at in [a, b] {
        screen.drag_at(at);
        screen.step();
        screen.drop_at(at);
        screen.step();
        screen.run();
    }
    // The same as the tape must read between the two marks.
    let scene = &screen.state().answer().assessment.scene;
    let reading = scene.readings.iter().find(|r| r.from.as_str() == "5" && r.to.as_str() == "6").unwrap();
    let words = baywright_planner::words::Words::new(
        &screen.state().answer().arrangement,
        screen.state().view().locale,
    );
    let expected = unbroken(words.length(reading.distance_mm));
    screen.get_by_label_contains(&format!("{expected}: "));
}

#[test]
fn a_car_that_is_dragged_stays_under_the_hand_and_takes_its_marks_along() {
    let mut screen = usual(demo());
    let mark = screen.state().answer().assessment.scene.marks[0].at.unwrap();
    let parked = screen.state().answer().arrangement.parked;
    let from = middle(&screen, "the car, top view");
    let by = Vec2::new(-20.0, 15.0);
    hold(&mut screen, from, from + by);
    let held = middle(&screen, "the car, top view");
    let parked_now = screen.state().answer().arrangement.parked.origin() - parked.origin();
    assert!((held - (from + by)).length() < 12.0, "{held} {from} {parked_now}");
    screen.drop_at(from + by);
    screen.step();
    screen.run();
    let moved = screen.state().answer().arrangement.parked.origin() - parked.origin();
    assert!(moved.x < -50.0 && moved.y < -30.0, "{moved}");
    let now = screen.state().answer().assessment.scene.marks[0].at.unwrap();
    assert!((now - mark - moved).length() < 1e-6);
}

#[test]
fn the_side_view_moves_things_along_the_axis_only() {
    let mut screen = usual(demo());
    let start = thing(&screen, "trolley").place.at.origin();
    let from = middle(&screen, "the trolley, side view");
    drag(&mut screen, from, from + Vec2::new(30.0, -40.0));
    let by = thing(&screen, "trolley").place.at.origin() - start;
    assert!(by.x > 100.0 && by.y.abs() < 1e-6, "{by}");
}

#[test]
fn showing_a_finding_rings_its_place_and_why_names_its_source() {
    let mut screen = usual(demo());
    screen.get_by_label("Show: Trolley is in the way of the plate").click();
    screen.run();
    let pointed = screen.state().view().pointed.unwrap();
    assert_eq!(screen.state().answer().assessment.findings[pointed].code().as_str(), "sight-blocked");
    screen.get_by_label("Why this limit? Trolley is in the way of the plate").click();
    screen.run();
    screen.get_by_label_contains("what is hidden cannot be seen");
}

#[test]
fn units_and_sizes_are_chosen() {
    let mut screen = usual(demo());
    screen.get_by_label("mm ▼").click();
    screen.run();
    screen.get_by_label("Feet and inches").click();
    screen.run();
    let inside = "9 \u{b9}\u{b3}\u{2044}\u{2081}\u{2086}\u{2033} inside";
    assert!(screen.query_all_by_label_contains(inside).next().is_some(), "the cabinet's 250 mm");
    screen.key_press(Key::Escape);
    screen.run();
    screen.get_by_label("Show").click();
    screen.run();
    screen.get_by_label("Dark").click();
    screen.run();
    assert_eq!(screen.state().view().theme, baywright_drawing::Theme::Dark);
}

fn select(screen: &mut egui_kittest::Harness<'_, baywright_desk::screen::Desk>, name: &str) {
    let row = format!("{}, ", capital(name));
    screen.get_by_label_contains(&row).click();
    screen.run();
}

fn capital(name: &str) -> String {
    name[..1].to_uppercase() + &name[1..]
}

fn thing(
    screen: &egui_kittest::Harness<'_, baywright_desk::screen::Desk>,
    name: &str,
) -> baywright_planner::model::Thing {
    let things = &screen.state().answer().arrangement.bay.things;
    things.iter().find(|t| t.id.as_str() == name).cloned().unwrap()
}
