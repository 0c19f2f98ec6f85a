//! Places, circles and colours as the writer takes them.

use baywright_planner::geometry::DVec2;
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder};
use krilla::num::NormalizedF32;
use krilla::paint::{self, FillRule};

use crate::theme::Colour;

/// Beyond this no printer prints: a place further out is drawn at the edge of it, px.
const FARTHEST_PX: f64 = 1e7;
/// The handles of a quarter circle, as a share of its radius.
const QUARTER: f64 = 0.552_284_749_831;

/// A place as the writer takes it.
pub(super) fn point(p: DVec2) -> (f32, f32) {
    let p = p.clamp(DVec2::splat(-FARTHEST_PX), DVec2::splat(FARTHEST_PX));
    (p.x as f32, p.y as f32)
}

/// A circle of four curves, off by less than a thousandth of its radius at most.
pub(super) fn circle(centre: DVec2, radius: f64) -> Option<Path> {
    let radius = radius.max(0.0);
    let mut path = PathBuilder::new();
    let (x, y) = point(centre + DVec2::X * radius);
    path.move_to(x, y);
    for (from, to) in [
        (DVec2::X, DVec2::Y),
        (DVec2::Y, DVec2::NEG_X),
        (DVec2::NEG_X, DVec2::NEG_Y),
        (DVec2::NEG_Y, DVec2::X),
    ] {
        let ((x1, y1), (x2, y2)) =
            (point(centre + (from + to * QUARTER) * radius), point(centre + (to + from * QUARTER) * radius));
        let (x, y) = point(centre + to * radius);
        path.cubic_to(x1, y1, x2, y2, x, y);
    }
    path.close();
    path.finish()
}

/// A colour as the writer takes it.
pub(super) fn paint(colour: Colour) -> paint::Paint {
    let [r, g, b] = colour.rgb;
    rgb::Color::new(r, g, b).into()
}

/// How opaque it is.
pub(super) fn opacity(colour: Colour) -> NormalizedF32 {
    NormalizedF32::new(colour.opacity.clamp(0.0, 1.0)).unwrap_or(NormalizedF32::ONE)
}

/// An area of one colour.
pub(super) fn fill(colour: Colour) -> paint::Fill {
    paint::Fill { paint: paint(colour), opacity: opacity(colour), rule: FillRule::NonZero }
}
