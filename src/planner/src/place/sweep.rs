//! A heading, or all headings and places within a box.

use baywright_geometry::{Bounds, DVec2, PlanPose, angle, hull};

/// More than rounding makes of a place, mm.
const HAIR_MM: f64 = 1e-6;

/// The headings and shifts that a part of the set-up is asked for at once.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sweep {
    low: PlanPose,
    high: PlanPose,
    /// Shifts along and across the car at the middle heading, mm either way.
    by_mm: f64,
    /// The car's own directions there.
    middle: PlanPose,
    /// By how much a turning point passes the line between its ends, as a share of its distance from the origin.
    bulge: f64,
}

impl Sweep {
    /// One heading, radians.
    pub(super) fn at(heading_rad: f64) -> Self {
        let pose = PlanPose::new(DVec2::ZERO, heading_rad);
        Self { low: pose, high: pose, by_mm: 0.0, middle: pose, bulge: 0.0 }
    }

    /// All headings from one to another, radians, no more than a few degrees apart, and all shifts of so many mm along and across the
    /// car as it stands at a third.
    pub(super) fn between(low_rad: f64, high_rad: f64, along_rad: f64, by_mm: f64) -> Self {
        let pose = |heading: f64| PlanPose::new(DVec2::ZERO, heading);
        let bulge = 1.0 - angle::sin_cos((high_rad - low_rad) * 0.5).1;
        Self { low: pose(low_rad), high: pose(high_rad), by_mm, middle: pose(along_rad), bulge }
    }

    /// The middle of its headings, radians.
    pub(super) fn heading_rad(&self) -> f64 {
        (self.low.heading() + self.high.heading()) * 0.5
    }

    /// Half of what its headings are apart, radians, and its shifts, mm either way.
    pub(super) fn reach(&self) -> (f64, f64) {
        ((self.high.heading() - self.low.heading()) * 0.5, self.by_mm)
    }

    /// All that a part of the set-up, a convex ring, a line or a point, fills of the plan, about the origin: itself, or a convex
    /// ring around it wherever it may be.
    pub(super) fn of(&self, ring: &[DVec2]) -> Vec<DVec2> {
        if self.by_mm <= 0.0 && self.bulge <= 0.0 {
            return ring.iter().map(|&p| self.low.turned(p)).collect();
        }
        let (ahead, left) = (self.middle.forward(), self.middle.left());
        let around = |p: DVec2| {
            let by = self.by_mm + self.bulge * p.length() + HAIR_MM;
            let (ahead, left) = (ahead * by, left * by);
            self.ends().map(move |pose| {
                let p = pose.turned(p);
                [p + ahead + left, p + ahead - left, p - ahead + left, p - ahead - left]
            })
        };
        let corners: Vec<DVec2> = ring.iter().flat_map(|&p| around(p).flatten()).collect();
        hull(&corners).map_or(corners, |hull| hull.outer().to_vec())
    }

    /// A box around the same.
    pub(super) fn around(&self, ring: &[DVec2]) -> Option<Bounds> {
        let far = ring.iter().map(|p| p.length()).fold(0.0, f64::max);
        let by = (self.by_mm + self.bulge * far + HAIR_MM) * std::f64::consts::SQRT_2;
        let corners = ring.iter().flat_map(|&p| self.ends().map(move |pose| pose.turned(p)));
        Some(Bounds::around(corners)?.grown(by))
    }

    /// The first and the last heading, if they are two.
    fn ends(&self) -> impl Iterator<Item = PlanPose> + use<> {
        let high = (self.low != self.high).then_some(self.high);
        std::iter::once(self.low).chain(high)
    }
}
