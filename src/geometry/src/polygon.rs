//! A polygon with holes, checked once when it is made and right ever after.

mod pieces;
pub(crate) mod validate;

use glam::DVec2;

use crate::bounds::Bounds;
use crate::fault::ShapeFault;
use crate::frame::PlanPose;
use crate::predicate;
use crate::segment::Segment;

/// A polygon: one outer ring, anticlockwise, and any number of holes, clockwise.
///
/// Invariants, held by the constructors: at least three corners a ring, finite and within reach, no ring crosses or
/// touches itself, positive area, holes inside the outer ring and apart from one another (they may touch at corners).
#[derive(Clone, Debug, PartialEq)]
pub struct Polygon {
    outer: Vec<DVec2>,
    holes: Vec<Vec<DVec2>>,
    bounds: Bounds,
    /// The convex pieces if it is not convex itself: apart, since most are, and a polygon is moved about a lot.
    pieces: Option<Box<pieces::Pieces>>,
}

impl Polygon {
    /// A polygon from its rings, each given in either direction and not closed by repeating the first corner.
    ///
    /// # Errors
    /// The first reason found why the rings make no polygon.
    pub fn new(outer: Vec<DVec2>, holes: Vec<Vec<DVec2>>) -> Result<Self, ShapeFault> {
        validate::rings(&outer, &holes)?;
        Ok(Self::trusted(outer, holes))
    }

    /// A polygon without holes.
    ///
    /// # Errors
    /// As [`Polygon::new`].
    pub fn simple(outer: Vec<DVec2>) -> Result<Self, ShapeFault> {
        Self::new(outer, Vec::new())
    }

    /// An upright rectangle, `low` to `high`.
    ///
    /// # Errors
    /// As [`Polygon::new`]; a rectangle without width or height has no area.
    pub fn rectangle(low: DVec2, high: DVec2) -> Result<Self, ShapeFault> {
        if !(low.x < high.x && low.y < high.y) {
            return Err(ShapeFault::NoArea { ring: 0 });
        }
        Self::simple(vec![low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)])
    }

    /// From rings already known to be sound: orders them, finds the box and whether it is convex.
    pub(crate) fn trusted(mut outer: Vec<DVec2>, mut holes: Vec<Vec<DVec2>>) -> Self {
        if signed_area(&outer) < 0.0 {
            outer.reverse();
        }
        for hole in &mut holes {
            if signed_area(hole) > 0.0 {
                hole.reverse();
            }
        }
        let convex = holes.is_empty() && is_convex(&outer);
        let pieces = (!convex).then(|| Box::new(pieces::Pieces::of(&outer, &holes)));
        Self::assembled(outer, holes, pieces)
    }

    /// From a ring known to be convex and anticlockwise, such as the result of a clip or a hull.
    pub(crate) fn from_convex_ring(outer: Vec<DVec2>) -> Self {
        Self::assembled(outer, Vec::new(), None)
    }

    fn assembled(outer: Vec<DVec2>, holes: Vec<Vec<DVec2>>, pieces: Option<Box<pieces::Pieces>>) -> Self {
        let bounds =
            Bounds::around(outer.iter().copied()).unwrap_or(Bounds { low: DVec2::ZERO, high: DVec2::ZERO });
        Self { outer, holes, bounds, pieces }
    }

    /// The outer ring, anticlockwise, not closed.
    pub fn outer(&self) -> &[DVec2] {
        &self.outer
    }

    /// The holes, each clockwise, not closed.
    pub fn holes(&self) -> &[Vec<DVec2>] {
        &self.holes
    }

    /// The outer ring, then the holes: the inside lies left of every edge.
    pub fn rings(&self) -> impl Iterator<Item = &[DVec2]> {
        std::iter::once(self.outer.as_slice()).chain(self.holes.iter().map(Vec::as_slice))
    }

    /// Every edge; the inside lies left of it.
    pub fn edges(&self) -> impl Iterator<Item = Segment> + '_ {
        self.rings().flat_map(ring_edges)
    }

    /// The box around it.
    pub const fn bounds(&self) -> Bounds {
        self.bounds
    }

    /// Whether it has no hole and no dent (corners on a straight edge are allowed).
    pub const fn is_convex(&self) -> bool {
        self.pieces.is_none()
    }

    /// Convex rings, anticlockwise, that cover it exactly and share no area: itself when convex. Their corners are
    /// corners of the polygon, and a rigid move keeps them.
    pub fn pieces(&self) -> impl Iterator<Item = &[DVec2]> {
        let whole = self.is_convex().then_some(self.outer.as_slice());
        whole.into_iter().chain(self.pieces.iter().flat_map(|pieces| pieces.rings()))
    }

    /// Its area without the holes, always positive.
    pub fn area(&self) -> f64 {
        self.rings().map(signed_area).sum()
    }

    /// The same polygon elsewhere. A rigid move keeps it sound.
    pub fn placed(&self, to_from_own: &PlanPose) -> Self {
        self.mapped(|p| *to_from_own * p)
    }

    /// The same polygon moved.
    pub fn moved(&self, by: DVec2) -> Self {
        self.mapped(|p| p + by)
    }

    fn mapped(&self, f: impl Fn(DVec2) -> DVec2 + Copy) -> Self {
        let outer = self.outer.iter().map(|&p| f(p)).collect();
        let holes = self.holes.iter().map(|hole| hole.iter().map(|&p| f(p)).collect()).collect();
        Self::assembled(outer, holes, self.pieces.as_ref().map(|pieces| Box::new(pieces.mapped(f))))
    }
}

/// The edges of a ring, the last one back to the first corner.
pub(crate) fn ring_edges(ring: &[DVec2]) -> impl Iterator<Item = Segment> + '_ {
    let n = ring.len();
    (0..n).map(move |i| Segment::new(ring[i], ring[(i + 1) % n]))
}

/// Area of a ring, positive if anticlockwise. Taken about the first corner, so that a far origin costs no digits.
pub fn signed_area(ring: &[DVec2]) -> f64 {
    let Some(&origin) = ring.first() else { return 0.0 };
    0.5 * ring_edges(ring).map(|e| (e.from - origin).perp_dot(e.to - origin)).sum::<f64>()
}

pub(crate) fn is_convex(ring: &[DVec2]) -> bool {
    let n = ring.len();
    (0..n).all(|i| predicate::turn(ring[i], ring[(i + 1) % n], ring[(i + 2) % n]) >= 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(f64, f64)]) -> Vec<DVec2> {
        points.iter().map(|&p| p.into()).collect()
    }

    #[test]
    fn rings_are_turned_the_right_way() {
        let square = ring(&[(0., 0.), (0., 4.), (4., 4.), (4., 0.)]);
        let hole = ring(&[(1., 1.), (2., 1.), (2., 2.), (1., 2.)]);
        let polygon = Polygon::new(square, vec![hole]).unwrap();
        assert!(signed_area(polygon.outer()) > 0.0);
        assert!(signed_area(&polygon.holes()[0]) < 0.0);
        assert_eq!(polygon.area(), 15.0);
        assert!(!polygon.is_convex());
    }

    #[test]
    fn far_from_the_origin_the_area_keeps_its_digits() {
        let at = DVec2::new(9e6, -9e6);
        let polygon = Polygon::rectangle(at, at + DVec2::new(0.5, 0.25)).unwrap();
        assert_eq!(polygon.area(), 0.125);
    }

    #[test]
    fn convexity() {
        assert!(Polygon::rectangle(DVec2::ZERO, DVec2::ONE).unwrap().is_convex());
        let l = ring(&[(0., 0.), (2., 0.), (2., 1.), (1., 1.), (1., 2.), (0., 2.)]);
        assert!(!Polygon::simple(l).unwrap().is_convex());
        let straight = ring(&[(0., 0.), (1., 0.), (2., 0.), (2., 2.), (0., 2.)]);
        assert!(Polygon::simple(straight).unwrap().is_convex());
    }
}
