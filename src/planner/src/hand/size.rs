//! A thing sized by one of its handles.

use baywright_geometry::{DVec2, PlanPose};

use crate::model::validate::limits::THING;
use crate::model::{Shape, Thing, ThingKind};

/// The thing's new shape and place (bay from its own frame) after one of its handles was drawn to the place `to` of the
/// bay. A handle is numbered -1, 0 or 1 along the thing's own x and y: a corner of the box around it, or the middle of a
/// side. The opposite side stays where it is; the new size is whole millimetres, within what a thing may have. A round
/// thing is sized about its middle by any handle.
///
/// `None` for the middle, for a handle that is not there, and for other outlines, which have no size of their own.
pub fn resized(thing: &Thing, handle: (i8, i8), to: DVec2) -> Option<(Shape, PlanPose)> {
    let is_handle = matches!(handle, (-1..=1, -1..=1)) && handle != (0, 0);
    if !is_handle || !to.is_finite() {
        return None;
    }
    let side = DVec2::new(f64::from(handle.0), f64::from(handle.1));
    let own = thing.place.at.inverse() * to;
    match *thing.footprint.shape() {
        Shape::Rectangle { length_mm: length, width_mm: width } => {
            let size = DVec2::new(length, width);
            // From the side that stays to the pointer.
            let wanted = side * own + size * 0.5;
            let of = |side: f64, wanted: f64, now: f64| if side == 0.0 { Some(now) } else { allowed(wanted) };
            let new = DVec2::new(of(side.x, wanted.x, length)?, of(side.y, wanted.y, width)?);
            let shift = side * (new - size) * 0.5;
            let place = thing.place.at.shifted(thing.place.at.turned(shift));
            Some((Shape::Rectangle { length_mm: new.x, width_mm: new.y }, place))
        }
        Shape::Round { .. } => {
            // The corners of the box are further from the middle than its sides, yet mean the same diameter.
            let radius = side.dot(own) / side.length_squared();
            Some((Shape::Round { diameter_mm: allowed(2.0 * radius)? }, thing.place.at))
        }
        Shape::Outline(_) => None,
    }
}

/// The nearest size that any thing may have, whole millimetres; `None` if it is not a number. What is thinner is typed: at no scale
/// does a hand draw a sheet's thickness.
fn allowed(size: f64) -> Option<f64> {
    size.is_finite().then(|| size.clamp(THING.low, THING.high).round())
}

/// How small a thing of this kind ever is: its shorter side, or across, mm (common practice, no source). What is smaller was
/// drawn or typed by mistake, as far as one can tell: a person is asked, nothing is refused.
pub const fn least_size(kind: ThingKind) -> f64 {
    match kind {
        ThingKind::ParkedCar => 1_200.0,
        ThingKind::Bench => 300.0,
        ThingKind::Cabinet
        | ThingKind::ToolChest
        | ThingKind::Trolley
        | ThingKind::Drum
        | ThingKind::Person => 200.0,
        ThingKind::Shelf | ThingKind::LiftPost | ThingKind::Bin => 100.0,
        ThingKind::Column | ThingKind::Heater => 50.0,
        ThingKind::LiftArm => 40.0,
        ThingKind::Lamp | ThingKind::DoorTrack | ThingKind::Beam => 20.0,
        ThingKind::Fence => 2.0,
        ThingKind::Other => 0.0,
    }
}

/// Its shorter side, or across, mm.
fn shorter(shape: &Shape) -> f64 {
    match shape {
        Shape::Rectangle { length_mm, width_mm } => length_mm.min(*width_mm),
        Shape::Round { diameter_mm } => *diameter_mm,
        // Its corners are typed one by one.
        Shape::Outline(_) => f64::INFINITY,
    }
}

/// Whether a thing that becomes this shape is smaller than its kind ever is, and smaller than it was: its shorter side then, mm.
pub fn too_small(thing: &Thing, shape: &Shape) -> Option<f64> {
    let (was, now) = (shorter(thing.footprint.shape()), shorter(shape));
    (now < least_size(thing.kind) && now < was).then_some(now)
}
