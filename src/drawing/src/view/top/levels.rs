//! Levels of the floor that is in hand: a point each, with its figure where that covers nothing that is read.

use baywright_planner::geometry::DVec2;

use super::Top;
use crate::lettering::size;
use crate::list::Shape;
use crate::role::Role;
use crate::text::Weight;
use crate::view::pen::Pen;
use crate::view::space::{FIRM, Taken, around};

/// Reach of a point, px.
const POINT_PX: f64 = 3.0;
/// Between a point and its figure, px.
const OFF_PX: f64 = 6.0;

/// The points: no name stands on one.
pub(super) fn points(pen: &mut Pen<'_>, top: &Top<'_>) {
    let reach = POINT_PX * pen.enlarged;
    for at in top.state.levels.iter().map(|level| top.at(level.at)) {
        let px = pen.px(at);
        if pen.window.holds(px) {
            pen.push(Role::Level, None, Shape::Disc { centre: at, radius: pen.length(reach) });
            pen.space.take(around(px, DVec2::splat(2.0 * reach)), Taken::Firm);
        }
    }
}

/// Their figures, once all else is written, so that nothing moves when the floor comes in hand. One that has no free place is left
/// out: the list has it.
pub(super) fn figures(pen: &mut Pen<'_>, top: &Top<'_>) {
    let style = pen.style(size::SMALL, Weight::SemiBold);
    let off = POINT_PX * pen.enlarged + OFF_PX;
    for level in &top.state.levels {
        let px = pen.px(top.at(level.at));
        if !pen.window.holds(px) {
            continue;
        }
        let text = pen.measured(&level.text, style);
        // Over the point's right first, as a figure is set beside a point on a plan; then round about it.
        let places = Pen::round_about(px, off, style);
        let best = pen.cheapest(text.width, style, places);
        if let Some((_, at, align)) = best.filter(|(cost, ..)| *cost < FIRM) {
            pen.put_level(Role::Level, None, text, style, (at, align));
        }
    }
}
