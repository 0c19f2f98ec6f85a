//! What may be where: of what is drawn clear of each other, whose places are not known well enough to be sure of it.

use baywright_geometry::{DVec2, DVec3, Outline, angle};

use super::finding::{Code, Subject};
use super::{Context, SPEAKS_FROM_MM};
use crate::model::{Arrangement, ParkedKnown};

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
    /// The same if the car's place were taped, mm.
    pub if_taped_mm: f64,
}

impl Meets {
    /// Something whose own place is known to so much, mm.
    pub(super) fn new(
        context: &Context<'_>,
        what: Subject,
        may_be: MayBe,
        reach_mm: f64,
        known_mm: f64,
    ) -> Self {
        let Arrangement { shop, parked_known, .. } = context.arrangement;
        let (now, taped) = (shop.parked_within(*parked_known), shop.parked_within(ParkedKnown::Taped));
        let sin = |rad: f64| angle::sin_cos(rad).0;
        // What the heading makes of it goes as the sine of what that is known to.
        let turned = (reach_mm - known_mm - now.0).max(0.0);
        let share = if now.1 > 0.0 { (sin(taped.1) / sin(now.1)).min(1.0) } else { 1.0 };
        let if_taped_mm = known_mm + taped.0.min(now.0) + turned * share;
        Self { what, may_be, reach_mm, if_taped_mm }
    }

    /// Whether it would be clear if the car's place were taped.
    pub(super) fn is_settled_by_tape(&self) -> bool {
        self.may_be.gap_mm >= self.if_taped_mm - SPEAKS_FROM_MM
    }
}

/// How far a point of the set-up may be from where it is drawn, mm, if it is so far from the axle, mm. Of two long edges that
/// run side by side it is that of the far end: the nearest points are no farther from the axle than others that are as near.
pub(crate) fn sway(arrangement: &Arrangement, from_axle_mm: f64) -> f64 {
    arrangement.sway_mm(from_axle_mm)
}

/// The same if the car's place were so known.
pub(crate) fn sway_if(arrangement: &Arrangement, known: ParkedKnown, from_axle_mm: f64) -> f64 {
    let (mm, rad) = arrangement.shop.parked_within(known);
    mm + from_axle_mm * angle::sin_cos(rad).0
}

/// How far the farthest point of an outline is from a point, mm.
pub(crate) fn farthest_of(outline: &Outline, from: DVec2) -> f64 {
    match outline {
        Outline::Circle(circle) => circle.centre().distance(from) + circle.radius(),
        Outline::Polygon(polygon) => polygon.outer().iter().map(|p| p.distance(from)).fold(0.0, f64::max),
    }
}
