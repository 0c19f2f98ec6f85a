//! Lines of one level of the floor, with their figures where they cover nothing that is read.

use baywright_planner::geometry::DVec2;
use baywright_planner::model::Contour;

use super::Top;
use crate::lettering::size;
use crate::role::Role;
use crate::text::{Align, Weight};
use crate::view::contours::{Parts, of, parts_in, told};
use crate::view::pen::Pen;
use crate::view::space::FIRM;

/// Two figures of one line are at least so far apart, px.
const APART_PX: f64 = 260.0;
/// No line has more of them.
const MOST_FIGURES: usize = 3;
/// What tells the interval stands so far from the edge of the paper or of the room, px.
const EDGE_PX: f64 = 12.0;

/// The lines.
pub(super) fn lines(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some((_, lines)) = drawn(top) else { return };
    for Contour { from, to, .. } in lines {
        pen.line(Role::Contour, None, vec![top.at(from), top.at(to)]);
    }
}

/// Their figures, once all else is written: on the longest part of a line that is seen and free.
pub(super) fn figures(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some((interval, lines)) = drawn(top) else { return };
    let style = pen.style(size::SMALL, Weight::SemiBold);
    let mut rest = lines.as_slice();
    let mut by_level: Vec<(f64, Vec<(Parts, f64)>)> = Vec::new();
    while let [first, after @ ..] = rest {
        let seen = parts_in([first.from, first.to].map(|p| pen.px(top.at(p))), &pen.window);
        let own = by_level.iter_mut().find(|own| own.0 == first.level_mm);
        match (own, seen) {
            (Some(own), Some(seen)) => own.1.push(seen),
            (None, Some(seen)) => by_level.push((first.level_mm, vec![seen])),
            (_, None) => {}
        }
        rest = after;
    }
    for (level, mut places) in by_level {
        // The longest first; of as long ones the first to the left, so that the same comes out every time.
        let order = |a: &(Parts, f64), b: &(Parts, f64)| {
            let ([a, ..], [b, ..], longer) = (a.0, b.0, b.1.total_cmp(&a.1));
            longer.then(a.x.total_cmp(&b.x)).then(a.y.total_cmp(&b.y))
        };
        places.sort_by(order);
        let text = pen.measured(&top.words.contour(level, interval), style);
        let mut put: Vec<DVec2> = Vec::new();
        // Beside the middle of its parts only where none of these is free, so that no line stays without its figure.
        let middles = places.iter().map(|([middle, ..], _)| (*middle, MOST_FIGURES));
        let beside = places.iter().flat_map(|([_, rest @ ..], _)| rest.iter().map(|at| (*at, 1)));
        for (at, most) in middles.chain(beside) {
            if put.len() >= most {
                continue;
            }
            if put.len() >= MOST_FIGURES || put.iter().any(|own| own.distance(at) < APART_PX * pen.enlarged) {
                continue;
            }
            let place = std::iter::once((0.0, at, Align::Middle));
            let free = pen.cheapest(text.width, style, place).filter(|(cost, ..)| *cost < FIRM);
            if let Some((_, at, align)) = free {
                pen.put_level(Role::LabelSoft, None, text.clone(), style, (at, align));
                put.push(at);
            }
        }
    }
}

/// How far the lines are apart, in a corner that is free.
pub(super) fn interval(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some((interval, _)) = drawn(top) else { return };
    in_corner(pen, top, &told(top.words.locale(), interval));
}

/// What is told of the whole drawing, in a corner that is free.
pub(super) fn in_corner(pen: &mut Pen<'_>, top: &Top<'_>, text: &str) {
    let style = pen.style(size::SMALL, Weight::SemiBold);
    let text = pen.measured(text, style);
    let (low, high) = (pen.window.low + EDGE_PX, pen.window.high - EDGE_PX);
    let ring = top.ring(top.scene.room.walls().outer());
    let room = baywright_planner::geometry::Bounds::around(ring.iter().map(|p| pen.px(*p)));
    let room = room.map_or((low, high), |own| (own.low.max(low) + EDGE_PX, own.high.min(high) - EDGE_PX));
    let corners = [(room, 0.0), ((low, high), 1.0)].into_iter().flat_map(|((low, high), extra)| {
        let (middle, rows) = ((low.x + high.x) * 0.5, [high.y, low.y]);
        rows.into_iter().flat_map(move |y| {
            [(low.x, Align::Start), (high.x, Align::End), (middle, Align::Middle)]
                .map(|(x, align)| (extra, DVec2::new(x, y), align))
        })
    });
    if let Some((_, at, align)) = pen.cheapest(text.width, style, corners).filter(|(cost, ..)| *cost < FIRM) {
        pen.put_level(Role::LabelSoft, None, text, style, (at, align));
    }
}

fn drawn(top: &Top<'_>) -> Option<(f64, Vec<Contour>)> {
    let survey = top.arrangement.bay.survey.as_ref().filter(|_| top.state.contours)?;
    of(&survey.points)
}
