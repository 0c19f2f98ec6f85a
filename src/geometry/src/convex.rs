//! Convex shapes: the hull of points, and the convex parts of which every outline is made.
//!
//! A part is a ring or a single point, rounded by a radius: a convex polygon, or a disc. Two parts share area when no
//! line parts them but for a strip as wide as the touching tolerance.

pub(crate) mod clip;
pub(crate) mod sum;
mod within;

use glam::DVec2;

use crate::angle;
use crate::bounds::Bounds;
use crate::outline::Outline;
use crate::polygon::{Polygon, ring_edges};
use crate::predicate::{side, turn};
use crate::segment::Segment;
use crate::tolerance::TOUCH_MM;

pub use clip::common;
pub use within::{inset, moves_within};

/// The smallest convex polygon around the points, exact; `None` if they enclose no area. Corners on a straight side
/// are left out.
///
/// ```rust
/// # use baywright_geometry::*;
/// let corners = [(0.0, 0.0), (400.0, 0.0), (100.0, 100.0), (0.0, 400.0)].map(DVec2::from);
/// assert_eq!(hull(&corners).map(|hull| hull.area()), Some(80_000.0));
/// assert!(hull(&corners[..2]).is_none());
/// ```
pub fn hull(points: &[DVec2]) -> Option<Polygon> {
    // Adding zero makes -0.0 equal 0.0 in the total order.
    let finite = points.iter().filter(|p| p.is_finite());
    let mut sorted: Vec<DVec2> = finite.map(|&p| p + DVec2::ZERO).collect();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    sorted.dedup();
    let mut ring = chain(sorted.iter().copied());
    let upper = chain(sorted.iter().rev().copied());
    // Each chain ends where the other starts.
    ring.pop();
    ring.extend(upper);
    ring.pop();
    (ring.len() >= 3).then(|| Polygon::from_convex_ring(ring))
}

/// How far outside the arc a corner of [`hull_grown`] may lie, mm: what no tape shows round the corner of something.
pub const ROUNDED_MM: f64 = 0.1;

/// A convex polygon around all that is within `by_mm` of the hull of the points: exactly that beside its sides, at most
/// [`ROUNDED_MM`] more around its corners. `None` if the points enclose no area or `by_mm` is negative.
///
/// ```rust
/// # use baywright_geometry::*;
/// let corners = [(0.0, 0.0), (400.0, 0.0), (0.0, 300.0)].map(DVec2::from);
/// let grown = hull_grown(&corners, 100.0).map(|grown| grown.area());
/// // Steiner's formula: the triangle's own area, its circumference times 100, and the disc.
/// let exact = 60_000.0 + 120_000.0 + 1e4 * std::f64::consts::PI;
/// assert!(grown.is_some_and(|area| (exact..exact + 50.0).contains(&area)));
/// ```
pub fn hull_grown(points: &[DVec2], by_mm: f64) -> Option<Polygon> {
    let hull = hull(points).filter(|_| by_mm >= 0.0)?;
    let ring = hull.outer();
    let before = ring.iter().cycle().skip(ring.len().checked_sub(1)?);
    let after = ring.iter().cycle().skip(1);
    // Two tangents at this angle meet that far outside the arc.
    let widest = 2.0 * libm::acos(by_mm / (by_mm + ROUNDED_MM));
    let mut grown = Vec::new();
    for ((&p, &before), &after) in ring.iter().zip(before).zip(after) {
        let (from, to) = (angle::heading(p - before), angle::heading(after - p));
        let turn = angle::wrapped(to - from);
        let parts = (turn / widest).ceil().max(1.0);
        let half = 0.5 * turn / parts;
        let out = by_mm / angle::sin_cos(half).1;
        // Out is to the right of the way round.
        grown.extend((0..parts as usize).map(|i| {
            let heading = from + (2.0 * i as f64 + 1.0) * half - std::f64::consts::FRAC_PI_2;
            p + angle::direction(heading) * out
        }));
    }
    // What rounding made of the corners is convex again.
    self::hull(&grown)
}

/// The moves after which one convex ring, or a line of two points, or a point, meets another that stays where it is: a convex
/// ring, anticlockwise, that has them inside; on its edge the two only touch (the Minkowski sum of the one and the other,
/// reflected). Both anticlockwise, without a corner twice.
///
/// ```rust
/// # use baywright_geometry::*;
/// # use baywright_geometry::convex::moves_to_meet;
/// let square = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)].map(DVec2::from);
/// let met = moves_to_meet(&square, &square);
/// assert_eq!(Bounds::around(met), Some(Bounds { low: DVec2::splat(-2.0), high: DVec2::splat(2.0) }));
/// ```
pub fn moves_to_meet(stays: &[DVec2], moves: &[DVec2]) -> Vec<DVec2> {
    sum::difference(stays, moves)
}

/// One side of the hull (Andrew's monotone chain): only turns to the left are kept.
fn chain(points: impl Iterator<Item = DVec2>) -> Vec<DVec2> {
    let mut kept: Vec<DVec2> = Vec::new();
    for p in points {
        while let [.., a, b] = kept.as_slice()
            && side(*a, *b, p).is_le()
        {
            kept.pop();
        }
        kept.push(p);
    }
    kept
}

/// How deep two shapes may reach into each other and still only touch: [`TOUCH_MM`], or what the rounding of their
/// coordinates makes of a distance if that is more (beyond some 280 m from the origin).
pub(crate) fn touch_within(a: &Bounds, b: &Bounds) -> f64 {
    let furthest = |b: &Bounds| b.low.abs().max(b.high.abs()).max_element();
    TOUCH_MM.max(16.0 * f64::EPSILON * furthest(a).max(furthest(b)))
}

/// A convex part of an outline.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Part<'a> {
    /// A convex ring, anticlockwise, or one point.
    pub core: &'a [DVec2],
    /// By how much the core is rounded: the radius of a disc, zero for a polygon.
    pub radius: f64,
    /// The box around the rounded core.
    pub bounds: Bounds,
}

/// The convex parts of an outline: they cover it and share no area.
pub(crate) fn parts(outline: &Outline) -> impl Iterator<Item = Part<'_>> {
    let (polygon, circle) = match outline {
        Outline::Polygon(polygon) => (Some(polygon), None),
        Outline::Circle(circle) => (None, Some(circle)),
    };
    let disc =
        circle.map(|circle| Part { core: circle.core(), radius: circle.radius(), bounds: circle.bounds() });
    disc.into_iter().chain(polygon.into_iter().flat_map(pieces))
}

/// The convex parts of a polygon.
pub(crate) fn pieces(polygon: &Polygon) -> impl Iterator<Item = Part<'_>> {
    let whole = polygon.bounds();
    polygon.pieces().map(move |core| {
        let own = if polygon.is_convex() { None } else { Bounds::around(core.iter().copied()) };
        Part { core, radius: 0.0, bounds: own.unwrap_or(whole) }
    })
}

impl Part<'_> {
    /// Whether the two reach into each other by more than `slack`.
    pub(crate) fn shares_area(&self, other: &Self, slack: f64) -> bool {
        let depth = self.bounds.high.min(other.bounds.high) - self.bounds.low.max(other.bounds.low);
        if depth.min_element() <= slack {
            return false;
        }
        match (self.core, other.core) {
            ([a], [b]) => a.distance(*b) < self.radius + other.radius - slack,
            ([centre], ring) => disc_enters(*centre, self.radius - slack, ring),
            (ring, [centre]) => disc_enters(*centre, other.radius - slack, ring),
            _ => !self.parts_from(other.core, slack) && !other.parts_from(self.core, slack),
        }
    }

    /// Whether all of `ring` lies beyond one side of this one, but for `slack`.
    fn parts_from(&self, ring: &[DVec2], slack: f64) -> bool {
        let extent = self.bounds.size().max_element();
        ring_edges(self.core).any(|e| {
            let along_squared = (e.to - e.from).length_squared();
            let beyond = |p: &DVec2| {
                let left = turn(e.from, e.to, *p);
                left <= 0.0 || left * left <= slack * slack * along_squared
            };
            ring.iter().all(beyond) && bears(&e, self.core, extent, slack)
        })
    }
}

/// Whether a disc and a convex ring share more than a boundary point.
fn disc_enters(centre: DVec2, radius: f64, ring: &[DVec2]) -> bool {
    holds(ring, centre) || ring_edges(ring).any(|e| e.distance_to(centre) < radius)
}

/// Whether the point lies in the convex ring, edges included; exact.
pub(crate) fn holds(ring: &[DVec2], p: DVec2) -> bool {
    ring_edges(ring).all(|e| turn(e.from, e.to, p) >= 0.0)
}

/// A side shorter than this share of its ring has a direction too coarse to be trusted without a look at the ring.
const SHORT_SIDE: f64 = 1e-3;

/// Whether the whole ring really lies left of the line through one of its sides. Rounding after a turn can tilt a very
/// short side so that its line cuts the ring.
pub(crate) fn bears(e: &Segment, ring: &[DVec2], extent: f64, slack: f64) -> bool {
    let length = e.length();
    length > SHORT_SIDE * extent || ring.iter().all(|&p| turn(e.from, e.to, p) >= -slack * length)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hull_keeps_only_corners() {
        let points = [(0., 0.), (2., 0.), (4., 0.), (4., 4.), (2., 2.), (0., 4.), (0., 0.), (2., 4.)];
        let polygon = hull(&points.map(DVec2::from)).unwrap();
        assert_eq!(polygon.outer().len(), 4);
        assert_eq!(polygon.area(), 16.0);
    }

    #[test]
    fn points_on_a_line_have_no_hull() {
        let line: Vec<DVec2> = (0..9).map(|i| DVec2::new(0.1, 0.3) * f64::from(i)).collect();
        assert!(hull(&line[..2]).is_none());
        assert!(hull(&[DVec2::ONE; 5]).is_none());
        assert!(hull(&[]).is_none());
        assert!(hull(&[DVec2::ZERO, DVec2::ONE, DVec2::new(3.0, 3.0)]).is_none());
    }
}
