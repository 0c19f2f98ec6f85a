//! All that is promised, done by one press in a set-up of its own.

use baywright_desk::screen::command::{Command, OfBay};
use baywright_planner::Severity;
use egui::Vec2;
use egui_kittest::kittest::Queryable;

use crate::legible::letters;
use crate::support::{demo, screen, usual};

/// All that is promised is done in a copy by one press; what was there stays to be compared with.
#[test]
fn what_is_promised_is_done_in_a_set_up_of_its_own() {
    let mut screen = usual(demo());
    let before = screen.state().document().layout().arrangements.len();
    screen.get_by_label("In a new set-up").click();
    screen.run();
    let layout = screen.state().document().layout();
    assert_eq!(layout.arrangements.len(), before + 1);
    assert_eq!(screen.state().answer().assessment.count(Severity::Stops), 0);
    assert_ne!(screen.state().document().shown().as_str(), "As found");
    let ctx = screen.ctx.clone();
    screen.state_mut().ask(&ctx, Command::Bay(OfBay::Show("As found".into())));
    screen.run();
    assert!(screen.state().answer().assessment.count(Severity::Stops) > 0);
    // One step: undone once, nothing of it is there.
    screen.state_mut().ask(&ctx, Command::Undo);
    screen.run();
    assert_eq!(screen.state().document().layout().arrangements.len(), before);
    assert!(!screen.state().document().is_changed());
}

/// In every window it is one press.
#[test]
fn a_set_up_of_its_own_is_one_press_in_small_windows_too() {
    for (size, large) in [((1280.0, 720.0), true), ((730.0, 411.0), false)] {
        let mut screen = screen(demo(), Vec2::from(size), 1.0);
        screen.state_mut().view_mut().letters = letters(large);
        screen.run();
        screen.get_by_label("In a new set-up").click();
        screen.run();
        assert_eq!(screen.state().document().shown().as_str(), "As found, after the moves", "{size:?}");
        assert_eq!(screen.state().answer().assessment.count(Severity::Stops), 0, "{size:?}");
    }
}
