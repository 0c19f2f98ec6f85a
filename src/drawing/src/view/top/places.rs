//! Where the car can stand, its nose as it is now: a quiet tint of the floor, with where it stands now and what the tint is of.

use super::Top;
use super::contours::in_corner;
use crate::list::Shape;
use crate::role::Role;
use crate::view::pen::Pen;

/// Radius of the point where the middle of the front axle lies now, px.
const NOW_PX: f64 = 4.5;

/// The tint, its edge, and the point.
pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some(places) = &top.state.places else { return };
    for (region, role) in [(&places.fits, Role::PlaceFits), (&places.undecided, Role::PlaceOpen)] {
        for shape in region.shapes() {
            pen.push(role, None, Shape::Area(shape.iter().map(|ring| top.ring(ring)).collect()));
        }
    }
    // Much of it may lie under the car.
    for ring in places.fits.rings() {
        let closed = ring.iter().chain(ring.first()).map(|&p| top.at(p));
        pen.line(Role::PlaceEdge, None, closed.collect());
    }
    let now = top.at(top.arrangement.parked.origin());
    let radius = pen.length(NOW_PX);
    pen.push(Role::PlaceNow, None, Shape::Disc { centre: now, radius });
}

/// What the tint is of, in a corner that is free.
pub(super) fn told(pen: &mut Pen<'_>, top: &Top<'_>) {
    let Some(places) = &top.state.places else { return };
    let texts = top.words.locale().language.place();
    let text = match (places.fits.is_empty(), places.undecided.is_empty()) {
        (true, true) => texts.fits_nowhere,
        (false, true) => texts.fits,
        (_, false) => texts.or_undecided,
    };
    in_corner(pen, top, text);
}
