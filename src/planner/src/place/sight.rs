//! Where something would hide part of a target: at most, and surely.
//!
//! It hides nothing outside the region of [`sight_shadow_plan`]. A target is called hidden from a share on ([`HIDDEN_FROM`]), so
//! that what only reaches into that region with a corner, or hardly above its lower edge, may hide less: it surely hides more
//! where a point of it is in the same region for a face narrower by [`IN_MM`] on either side and for heights less by a depth,
//! and so far from its own edge as well. All rays within that of the point are blocked then, over that depth: on the face, which
//! lies further on, an area of no less than the product.

use baywright_geometry::convex::inset;
use baywright_geometry::face::Face;
use baywright_geometry::{DVec2, DVec3, Span, sight_shadow_plan};

use super::pairs::{Barred, Pairs};
use crate::check::HIDDEN_FROM;

/// How far a point is from all edges in plan so that what it hides is not a hair, mm.
const IN_MM: f64 = 1.0;

/// A sensor that looks at a face, vehicle frame.
pub(super) struct Sight {
    pub eye: DVec3,
    pub face: Face,
}

impl Sight {
    /// The region of the plan in which something of these heights hides something.
    fn at_most(&self, heights: &Span) -> Option<Vec<DVec2>> {
        Some(sight_shadow_plan(self.eye, &self.face, heights)?.outer().to_vec())
    }

    /// All that it is seen through, with the heights of that: a hair more of a level one.
    pub(super) fn in_all(&self) -> Option<(Vec<DVec2>, Span)> {
        let heights = self.face.corners().map(|p| p.z);
        let all = || heights.into_iter().chain([self.eye.z]);
        let low = all().fold(f64::INFINITY, f64::min).max(0.0);
        let high = all().fold(f64::NEG_INFINITY, f64::max).max(low + 1.0);
        let span = Span::new(low, high).ok()?;
        Some((self.at_most(&span)?, span))
    }

    /// The region in which a point of it surely does.
    fn surely(&self, heights: &Span) -> Option<Vec<DVec2>> {
        let corners = self.face.corners();
        let all = || corners.iter().map(|p| p.z).chain([self.eye.z]);
        let (lowest, highest) =
            (all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max));
        // Twice the share, over both sides of the point.
        let depth = HIDDEN_FROM * self.face.area() / IN_MM;
        let away = corners.iter().map(|p| p.truncate().distance(self.eye.truncate()));
        let steep = 2.0 * (highest - lowest) / away.fold(f64::INFINITY, f64::min).max(IN_MM);
        let less = depth + steep * IN_MM;
        // What ends beyond all that is looked through hides to its end.
        let bottom = if heights.bottom() <= lowest { heights.bottom() } else { heights.bottom() + less };
        let top = if heights.top() >= highest { heights.top() } else { heights.top() - less };
        let (narrow, within) = (self.face.narrowed(IN_MM)?, Span::new(bottom, top).ok()?);
        Some(sight_shadow_plan(self.eye, &narrow, &within)?.outer().to_vec())
    }

    /// What something of these heights may hide nothing of goes among the rest; where it surely does, with itself made smaller.
    pub(super) fn bars(&self, pairs: &mut Pairs, stays: &[Vec<DVec2>], heights: &Span) -> Option<Barred> {
        let ring = self.at_most(heights)?;
        if let Some(surely) = self.surely(heights) {
            let smaller: Vec<Vec<DVec2>> =
                stays.iter().map(|own| inset(own, IN_MM)).filter(|own| !own.is_empty()).collect();
            pairs.add(&smaller, vec![Barred { ring: surely, sure: true }]);
        }
        Some(Barred { ring, sure: false })
    }
}
