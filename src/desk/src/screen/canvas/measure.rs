//! The measuring tool: from one point to another, in either view.

use baywright_drawing::list::Dimension;
use baywright_drawing::{Align, Drawing, Projection, TextStyle, Weight, font, list::Text};
use baywright_planner::geometry::DVec2;
use baywright_planner::hand::{measured, measuring_end};

use crate::screen::view::Measuring;
use crate::session::answer::Answer;

/// A point worth measuring from is found from this far, px.
const REACH_PX: f64 = 10.0;

/// The measurement after a press at a place of a view's paper.
pub(super) fn next(
    now: Measuring,
    side: Projection,
    drawing: &Drawing,
    px: DVec2,
    answer: &Answer,
) -> Measuring {
    let in_side_view = side == Projection::Side;
    let other = now.from.filter(|_| now.to.is_none() && now.in_side_view == in_side_view);
    let (point, is_free) = end(side, drawing, px, answer, other);
    match (now.from, now.to) {
        (Some(_), None) if now.in_side_view == in_side_view => {
            Measuring { to: Some(point), free_end: now.free_end || is_free, ..now }
        }
        _ => Measuring { in_side_view, from: Some(point), to: None, free_end: is_free },
    }
}

/// Where a measurement would start or end there: in the bay, or along the axis and above the floor.
/// `other` is where it starts, if it does.
pub(super) fn point(
    side: Projection,
    drawing: &Drawing,
    px: DVec2,
    answer: &Answer,
    other: Option<DVec2>,
) -> DVec2 {
    end(side, drawing, px, answer, other).0
}

/// The same, and whether it lies on nothing that has a place of its own.
fn end(
    side: Projection,
    drawing: &Drawing,
    px: DVec2,
    answer: &Answer,
    other: Option<DVec2>,
) -> (DVec2, bool) {
    let here = drawing.view_point(px);
    match side {
        Projection::Side => (here, true),
        Projection::Top => {
            let in_bay = drawing.bay_from_view * here;
            let reach = REACH_PX / drawing.px_per_mm;
            measuring_end(&answer.arrangement, &answer.assessment.scene, in_bay, reach, other)
                .map_or((in_bay, true), |(at, _)| (at, false))
        }
    }
}

/// A place of a measurement on the paper of its view, mm.
pub(super) fn in_view(drawing: &Drawing, side: Projection, point: DVec2) -> DVec2 {
    match side {
        Projection::Side => point,
        Projection::Top => drawing.bay_from_view.inverse() * point,
    }
}

/// The measurement as a dimension of the drawing.
pub(super) fn dimension(
    drawing: &Drawing,
    side: Projection,
    from: DVec2,
    to: DVec2,
    text: String,
) -> Dimension {
    let (a, b) = (in_view(drawing, side, from), in_view(drawing, side, to));
    let style = TextStyle::new(12.0, Weight::SemiBold);
    let width = font::measure(&text, style);
    let text = Text { at: (a + b) * 0.5, text, style, align: Align::Middle, angle: 0.0, width, masked: true };
    Dimension { from: a, to: b, line_from: a, line_to: b, text }
}

/// What was measured: straight, and in its two directions.
pub(super) fn values(answer: &Answer, side: Projection, from: DVec2, to: DVec2) -> (f64, f64, f64) {
    match side {
        Projection::Side => ((to - from).length(), to.x - from.x, to.y - from.y),
        Projection::Top => {
            let found = measured(&answer.assessment.scene, from, to);
            (found.distance_mm, found.ahead_mm, found.left_mm)
        }
    }
}
