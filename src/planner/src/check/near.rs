//! What may be where: of what is drawn clear of each other, whose places are not known well enough to be sure of it.

use baywright_geometry::{DVec2, DVec3, Outline, angle};

use super::finding::{Code, Subject};
use crate::model::Arrangement;

/// What something may be in.
#[derive(Clone, Debug, PartialEq)]
pub struct MayBe {
    /// What claims the place.
    pub of: Subject,
    /// What would be found of it there.
    pub code: Code,
    /// How far away from there it is drawn, mm; 0 if it touches or is in by less than a tape shows.
    pub gap_mm: f64,
    /// Where that is, bay frame, mm.
    pub at: DVec3,
}

/// Something of the room that the set-up may meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Meets {
    /// What it is.
    pub what: Subject,
    /// What of the set-up may meet it, and how near that is drawn.
    pub may_be: MayBe,
    /// How near may be too near: what is known of both places, mm.
    pub reach_mm: f64,
}

/// How far a point of the set-up may be from where it is drawn, mm, if it is so far from the axle, mm. Of two long edges that
/// run side by side it is that of the far end: the nearest points are no farther from the axle than others that are as near.
pub(crate) fn sway(arrangement: &Arrangement, from_axle_mm: f64) -> f64 {
    let (mm, rad) = arrangement.shop.parked_within(arrangement.parked_known);
    mm + from_axle_mm * angle::sin_cos(rad).0
}

/// How far the farthest point of an outline is from a point, mm.
pub(crate) fn farthest_of(outline: &Outline, from: DVec2) -> f64 {
    match outline {
        Outline::Circle(circle) => circle.centre().distance(from) + circle.radius(),
        Outline::Polygon(polygon) => polygon.outer().iter().map(|p| p.distance(from)).fold(0.0, f64::max),
    }
}
