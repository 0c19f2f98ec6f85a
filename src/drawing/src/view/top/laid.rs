//! The top view as it is worked by on the floor: the car, the marks with their numbers, the targets, and what is to be moved first;
//! all else pale or left out.

use baywright_planner::Step;
use baywright_planner::geometry::DVec2;

use super::things::Named;
use super::told::pale;
use super::{Top, aiming, car, room, things};
use crate::role::Role;
use crate::view::Shown;
use crate::view::fit::Window;
use crate::view::pen::Pen;

/// Draws it into a window; `lines` run from each mark to the window's edge, view frame, mm.
pub(crate) fn draw<'a>(shown: &Shown<'a>, window: Window, lines: &[[DVec2; 2]]) -> Pen<'a> {
    let mut pen = Pen::new(shown.lettering, window);
    let steps = shown.assessment.promise.iter().flat_map(|own| &own.steps);
    let top = Top {
        arrangement: shown.arrangement,
        assessment: shown.assessment,
        scene: &shown.assessment.scene,
        state: shown.state,
        words: &shown.words,
        view_from_bay: shown.extents.bay_from_top.inverse(),
        blamed: steps.filter_map(moved).chain(crate::finding::stopping(shown.assessment)).collect(),
        has_things: true,
    };
    room::draw(&mut pen, &top);
    let is_left_out = |role| matches!(role, Role::KeepFree | Role::OtherBay | Role::OwnBay | Role::Grid);
    pen.items.retain(|item| !is_left_out(item.role));
    aiming::axis(&mut pen, &top);
    aiming::runs(&mut pen, &top);
    for ends in lines {
        pen.line(Role::Dimension, None, ends.to_vec());
    }
    aiming::targets(&mut pen, &top);
    aiming::marks(&mut pen, &top);
    car::draw(&mut pen, &top);
    things::draw(&mut pen, &top);
    pale(&mut pen, &top);
    aiming::mark_numbers(&mut pen, &top);
    things::names(&mut pen, &top, Named::Stopping);
    aiming::target_names(&mut pen, &top);
    pen
}

/// What a step moves or takes away.
pub(crate) const fn moved(step: &Step) -> Option<&baywright_planner::model::Id> {
    match step {
        Step::MoveThing { thing, .. } | Step::TakeAway { thing } => Some(thing),
        _ => None,
    }
}
