//! A thing sized by one of its handles.

use baywright_geometry::{DVec2, PlanPose};

use crate::model::validate::limits;
use crate::model::{Shape, Thing};

/// The thing's new shape and place after one of its handles was drawn to a place of the bay. A handle is named by -1, 0 or
/// 1 along the thing's own x and y: a corner, or the middle of a side. The opposite side stays where it is; sizes are whole
/// millimetres within what a thing may have. A round thing is sized about its middle. `None` for the middle, and for
/// other outlines, which have no size of their own.
pub fn resized(thing: &Thing, handle: (i8, i8), to: DVec2) -> Option<(Shape, PlanPose)> {
    let (x, y) = (f64::from(handle.0.signum()), f64::from(handle.1.signum()));
    if (x == 0.0 && y == 0.0) || !to.is_finite() {
        return None;
    }
    let own = thing.place.inverse() * to;
    let allowed = |size: f64| size.round().clamp(limits::THING.low, limits::THING.high);
    match thing.shape {
        Shape::Rectangle { length, width } => {
            // From the side that stays to the handle.
            let grown =
                |way: f64, at: f64, size: f64| if way == 0.0 { size } else { allowed(way * at + size * 0.5) };
            let (new_length, new_width) = (grown(x, own.x, length), grown(y, own.y, width));
            let shift = DVec2::new(x * (new_length - length), y * (new_width - width)) * 0.5;
            let place = thing.place.shifted(thing.place.turned(shift));
            Some((Shape::Rectangle { length: new_length, width: new_width }, place))
        }
        Shape::Round { .. } => Some((Shape::Round { diameter: allowed(own.length() * 2.0) }, thing.place)),
        Shape::Outline(_) => None,
    }
}
