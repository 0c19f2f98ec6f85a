//! Lines that stay on the floor: those of the bay, and those that are proposed, with their points and numbers.

use super::Top;
use crate::lettering::size;
use crate::role::Role;
use crate::sign::SignKind;
use crate::text::Weight;
use crate::view::pen::{MARK_PX, Pen};
use crate::view::space::{FIRM, Taken, around};
use baywright_planner::Subject;
use baywright_planner::geometry::DVec2;

/// The lines from one mark that stays to another.
pub(super) fn kept(pen: &mut Pen<'_>, top: &Top<'_>) {
    for (from, ends) in top.arrangement.bay.floor_lines() {
        let subject = Some(Subject::Mark(from.id.clone()));
        pen.line(Role::FloorLine, subject, ends.map(|p| top.at(p)).to_vec());
    }
}

/// What is proposed.
pub(super) fn proposed(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some(floor) = &top.state.staying else { return };
    for line in &floor.lines {
        let ends = line.ends.iter().filter_map(|&end| floor.points.get(end)).map(|own| top.at(own.at));
        pen.line(Role::PlaceEdge, None, ends.collect());
    }
    for point in &floor.points {
        let at = top.at(point.at);
        pen.sign(Role::PlaceEdge, None, at, SignKind::BoxedCross, MARK_PX);
        let px = pen.px(at);
        pen.space.take(around(px, DVec2::splat(2.0 * MARK_PX * pen.enlarged + 2.0)), Taken::Firm);
    }
}

/// The numbers of its points. One that has no free place is left out: the list has it.
pub(super) fn numbers(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some(floor) = &top.state.staying else { return };
    let style = pen.style(size::LABEL, Weight::SemiBold);
    let off = MARK_PX * pen.enlarged + 4.0;
    for (point, number) in floor.points.iter().zip(1..) {
        let text = pen.measured(&format!("{number}"), style);
        let places = Pen::round_about(pen.px(top.at(point.at)), off, style);
        if let Some((_, at, align)) =
            pen.cheapest(text.width, style, places).filter(|(cost, ..)| *cost < FIRM)
        {
            pen.put_level(Role::Label, None, text, style, (at, align));
        }
    }
}
