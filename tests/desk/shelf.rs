//! What is on the shelf beside single things, doors on another wall, levels that are pasted, ends that lie on nothing.

use baywright_desk::screen::Desk;
use baywright_desk::screen::command::{Command, OfBay, OfView};
use baywright_planner::model::{Bay, Provenance, ThingKind};
use baywright_planner::{Facts, FloorFact, Severity, Subject};
use egui::{Modifiers, Vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

use crate::hand::press_at;
use crate::sessions::ask;
use crate::support::{demo, middle, paste_over, usual};

fn bay(screen: &Harness<'_, Desk>) -> Bay {
    screen.state().answer().arrangement.bay.clone()
}

#[test]
fn walls_columns_a_booth_and_a_whole_lift_are_one_step_each() {
    for (name, parts) in [("inner wall", 1), ("row of columns", 3), ("booth", 3), ("whole lift", 6)] {
        let mut screen = usual(demo());
        let (things, findings) =
            (bay(&screen).things.len(), screen.state().answer().assessment.findings.len());
        screen.get_by_label("+ Add").click();
        screen.run();
        screen.get_by_label(name).click();
        screen.run();
        assert_eq!(bay(&screen).things.len(), things + parts, "{name}");
        let view = screen.state().view();
        assert_eq!(view.also.len() + 1, parts, "{name}: all of it is in hand");
        assert!(screen.state().answer().assessment.findings.len() >= findings);
        ask(&mut screen, Command::Undo);
        assert!(!screen.state().document().is_changed(), "{name}: one step");
    }
}

#[test]
fn a_door_goes_to_another_wall_in_one_act() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Opening("roller door".into())))));
    let before = bay(&screen).openings.iter().find(|own| own.id.as_str() == "roller door").cloned().unwrap();
    screen.get_by_label("In the wall").click();
    screen.run();
    screen.get_by_label("yard wall").click();
    screen.run();
    let after = bay(&screen).openings.iter().find(|own| own.id.as_str() == "roller door").cloned().unwrap();
    assert_ne!(after.wall, before.wall);
    assert_eq!(bay(&screen).walls[after.wall].id.as_str(), "yard wall");
    assert_eq!(after.width_mm, before.width_mm);
    ask(&mut screen, Command::Undo);
    assert!(!screen.state().document().is_changed());
}

#[test]
fn levels_are_pasted_as_a_table_and_a_line_that_is_none_is_named() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    crate::sessions::press(&mut screen, "Floor levels");
    let paste = |screen: &mut Harness<'_, Desk>, text: &str| paste_over(screen, "Floor levels", text);
    paste(&mut screen, "x;y;level\n500;500;0\n11500;500;1,5\n11500;5500;lots\n500;5500;-0,5");
    screen.get_by_label_contains("Line 4, “11500;5500;lots”");
    assert!(!screen.state().document().is_changed());
    paste(&mut screen, "x;y;level\n500;500;0\n11500;500;1,5\n11500;5500;2\n500;5500;-0,5");
    let survey = bay(&screen).survey.expect("levels");
    let levels: Vec<f64> = survey.points.iter().map(|own| own.level_mm).collect();
    assert_eq!(levels, [0.0, 1.5, 2.0, -0.5]);
    // The table may be two years old: until somebody says its day it is of no known age, and that needs care.
    assert_eq!(survey.taken, None);
    assert!(screen.state().document().today().is_some());
    assert!(matches!(survey.provenance, Provenance::Measured { date: None, .. }), "{:?}", survey.provenance);
    let undated = |screen: &Harness<'_, Desk>| {
        let found = &screen.state().answer().assessment.findings;
        found
            .iter()
            .any(|own| own.facts == Facts::FloorLevels(FloorFact::Undated) && own.severity == Severity::Care)
    };
    assert!(undated(&screen));
    // Corrected it is so still; one press says that it was taken today.
    paste(&mut screen, "500;500;0\n11500;500;1,5\n11500;5500;2\n500;5500;-0,6");
    assert!(undated(&screen));
    screen.get_by_label("Today").scroll_to_me();
    screen.run();
    crate::sessions::press(&mut screen, "Today");
    assert_eq!(bay(&screen).survey.unwrap().taken, screen.state().document().today());
    assert!(!undated(&screen) && screen.query_by_label("Today").is_none());
    ask(&mut screen, Command::Undo);
    assert!(undated(&screen));
}

/// As they are read off the drawing: a mark's number there, and the level at it.
#[test]
fn levels_are_told_by_the_numbers_of_the_marks() {
    let mut screen = usual(demo());
    ask(&mut screen, Command::View(OfView::Select(Some(Subject::Floor))));
    crate::sessions::press(&mut screen, "Floor levels");
    paste_over(&mut screen, "Floor levels", "5; 0\n6;-1,5\n99;2");
    screen.get_by_label_contains("Line 3, “99;2”");
    paste_over(&mut screen, "Floor levels", "5; 0\n6;-1,5");
    let marks: Vec<_> =
        screen.state().answer().assessment.scene.marks.iter().map(|own| own.at.unwrap()).collect();
    let levels = |screen: &Harness<'_, Desk>| {
        let survey = bay(screen).survey.expect("levels");
        survey.points.iter().map(|own| (own.at, own.level_mm)).collect::<Vec<_>>()
    };
    assert_eq!(levels(&screen), [(marks[4], 0.0), (marks[5], -1.5)]);
    // A file was written by somebody who saw another drawing, or none: its marks are those that stay on the floor.
    let file = crate::sessions::home("levels-by-number").with_extension("csv");
    std::fs::write(&file, "mark;level\n5;2\n").unwrap();
    ask(&mut screen, Command::Bay(OfBay::ReadLevels { of: None, path: file.clone() }));
    let said = screen.state().view().notice.clone().expect("it is said");
    assert!(said.wrong && said.text.contains("a mark that stays on the floor"), "{said:?}");
    assert_eq!(levels(&screen), [(marks[4], 0.0), (marks[5], -1.5)]);
    std::fs::remove_file(file).unwrap();
}

#[test]
fn a_measurement_says_when_an_end_lies_on_nothing() {
    let mut screen = usual(demo());
    screen.get_by_label("Measure").click();
    screen.run();
    let mark = middle(&screen, "mark 5, top view");
    press_at(&mut screen, mark, Modifiers::NONE);
    let other = middle(&screen, "mark 6, top view");
    press_at(&mut screen, other, Modifiers::NONE);
    assert!(screen.query_by_label_contains("an end lies on no corner or mark").is_none());
    press_at(&mut screen, mark, Modifiers::NONE);
    press_at(&mut screen, other + Vec2::new(25.0, 45.0), Modifiers::NONE);
    screen.get_by_label_contains("an end lies on no corner or mark");
}

/// Beside a short word in the menu of things is that word's own place: a press there is not lost.
#[test]
fn every_entry_of_the_menu_is_as_wide_as_its_column() {
    let mut screen = usual(demo());
    screen.get_by_label("+ Add").click();
    screen.run();
    let widest = screen.get_by_label("parked car").rect();
    let bin = screen.get_by_label("bin").rect();
    assert!((bin.width() - widest.width()).abs() < 1.0, "{bin:?} {widest:?}");
    let before = screen.state().answer().arrangement.bay.things.len();
    let beside = egui::pos2(bin.right() - 4.0, bin.center().y);
    press_at(&mut screen, beside, Modifiers::NONE);
    assert_eq!(screen.state().answer().arrangement.bay.things.len(), before + 1);
}

#[test]
fn what_comes_from_the_shelf_stands_in_nobodys_way() {
    // There is no room for a second parked car.
    let kinds = ThingKind::ALL.into_iter().filter(|kind| *kind != ThingKind::ParkedCar);
    for kind in kinds {
        let mut screen = usual(demo());
        let before = screen.state().answer().assessment.findings.clone();
        ask(&mut screen, Command::Bay(OfBay::Add(kind)));
        let answer = screen.state().answer();
        let new = answer.arrangement.bay.things.last().unwrap().id.clone();
        let blamed: Vec<_> =
            answer.assessment.findings.iter().filter(|f| f.culprit() == Some(&new)).collect();
        assert!(blamed.is_empty(), "{kind:?}: {blamed:?}");
        assert_eq!(answer.assessment.findings.len(), before.len(), "{kind:?}");
    }
}
