//! Lists that are made for a question.

use baywright_planner::matrix::{Cell, Line, Place, Stands, row};
use baywright_planner::place::{Margin, stood};

use crate::geometry::PlanPose;
use crate::support::*;
use crate::{Severity, judge};

pub fn line(arrangement: Arrangement) -> Line {
    Line { arrangement, is_saved: true, weight: 1.0 }
}

/// Of each line how it fits at a place now, with as much to spare as cars are parked off.
pub fn now(lines: &[Line], place: &Place, margin: &Margin) -> Vec<Option<Stands>> {
    let of = |line: &Line| match row(line, std::slice::from_ref(place), margin, false, &|| false)
        .cells
        .remove(0)
    {
        Some(Cell::Fits(own)) if own.meets_margin => Some(own),
        _ => None,
    };
    lines.iter().map(of).collect()
}

/// Ahead, with its beam and its target; and one that asks room behind the car alone.
pub fn two() -> [Arrangement; 2] {
    let ahead = clear();
    let mut back = ahead.clone();
    back.id = "back".into();
    back.aiming.zones[0].outline = rectangle((-6_000.0, -1_800.0), (-3_500.0, 1_200.0)).into();
    back.aiming.placements.clear();
    back.aiming.mark_plan.clear();
    back.stands.clear();
    [ahead, back]
}

/// Whether the checks find nothing that stops with the car at a pose.
pub fn stands(own: &Arrangement, pose: PlanPose) -> bool {
    judge(&stood(own, pose)).count(Severity::Stops) == 0
}

/// Poses of a grid over a room at the four headings along its walls and a few degrees more.
pub fn grid(own: &Arrangement, step: f64) -> Vec<PlanPose> {
    let bounds = own.bay.room.bounds();
    let size = bounds.size() / step;
    let mut all = Vec::new();
    for degrees in [0.0, 90.0, 180.0, 270.0, 2.0, 178.0] {
        for (x, y) in (0..size.x as usize).flat_map(|x| (0..size.y as usize).map(move |y| (x, y))) {
            // Never on a round figure, where walls and things are.
            let at = bounds.low + DVec2::new(x as f64 + 0.513, y as f64 + 0.487) * step;
            all.push(PlanPose::new(at, angle::radians(degrees)));
        }
    }
    all
}
