//! How the car comes to a spot: what it passes over, the way of its rear axle, where it is tightest.

use super::Top;
use super::contours::in_corner;
use crate::list::Shape;
use crate::role::Role;
use crate::view::pen::Pen;

/// Radius of the point where it is tightest, px.
const TIGHT_PX: f64 = 4.5;

/// The way.
pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some(way) = &top.state.way_in else { return };
    for shape in way.swept.shapes() {
        pen.push(Role::WayIn, None, Shape::Area(shape.iter().map(|ring| top.ring(ring)).collect()));
    }
    for ring in way.swept.rings() {
        let closed = ring.iter().chain(ring.first()).map(|&p| top.at(p));
        pen.line(Role::WayInEdge, None, closed.collect());
    }
    pen.line(Role::WayInAxle, None, top.ring(&way.axle));
    if let Some(least) = &way.least {
        let radius = pen.length(TIGHT_PX);
        pen.push(Role::WayInTight, None, Shape::Disc { centre: top.at(least.at), radius });
    }
}

/// What is shown, in a corner that is free.
pub(super) fn told(pen: &mut Pen<'_>, top: &Top<'_>) {
    if top.state.way_in.is_some() {
        in_corner(pen, top, top.words.locale().language.way_in().in_the_drawing);
    }
}
