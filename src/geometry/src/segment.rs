//! A straight line between two points.

use glam::DVec2;

/// A straight line from `from` to `to`; the two may coincide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// Where it starts.
    pub from: DVec2,
    /// Where it ends.
    pub to: DVec2,
}

impl Segment {
    /// From one point to another.
    pub const fn new(from: DVec2, to: DVec2) -> Self {
        Self { from, to }
    }

    /// From end to end.
    pub fn length(&self) -> f64 {
        self.from.distance(self.to)
    }

    /// The point at share `t` of its length; 0 is the start, 1 the end.
    pub fn at(&self, t: f64) -> DVec2 {
        self.from.lerp(self.to, t)
    }

    /// The share of its length, within 0 to 1, at which it is nearest to `p`; 0 if it has no length.
    pub fn nearest_share(&self, p: DVec2) -> f64 {
        let along = self.to - self.from;
        let squared = along.length_squared();
        if squared > 0.0 { ((p - self.from).dot(along) / squared).clamp(0.0, 1.0) } else { 0.0 }
    }

    /// The point of it nearest to `p`.
    pub fn nearest(&self, p: DVec2) -> DVec2 {
        let t = self.nearest_share(p);
        // The ends exactly, so that a distance to a corner does not depend on the edge it was found from.
        if t >= 1.0 { self.to } else { self.from + (self.to - self.from) * t }
    }

    /// Distance from `p` to its nearest point.
    pub fn distance_to(&self, p: DVec2) -> f64 {
        self.nearest(p).distance(p)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// references.md §10: the point (12, 3) is √13 from the segment (0, 0)-(10, 0).
    #[test]
    fn distance_past_the_end() {
        let s = Segment::new(DVec2::ZERO, DVec2::new(10.0, 0.0));
        assert!((s.distance_to(DVec2::new(12.0, 3.0)) - 13.0_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn a_segment_of_no_length_is_a_point() {
        let s = Segment::new(DVec2::ONE, DVec2::ONE);
        assert_eq!(s.distance_to(DVec2::new(4.0, 5.0)), 5.0);
    }
}
