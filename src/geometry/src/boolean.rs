//! Union, difference and intersection of polygons, for the few questions without a closed form, and for drawing.
//!
//! Done on 64-bit integers. The grid is a power of two fine enough to lose nothing that matters (2⁻⁵⁰ of the drawing's
//! size) and coarse enough that every result is an exact `f64`: what the integer sweep found sound stays sound.

use glam::DVec2;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{IntOverlayOptions, Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;

use crate::bounds::Bounds;
use crate::polygon::{Polygon, signed_area};

/// What the polygons cover together, as polygons that share no area.
///
/// ```rust
/// # use baywright_geometry::*;
/// let square = |low: f64, high: f64| Polygon::rectangle(DVec2::splat(low), DVec2::splat(high));
/// let both = union(&[square(0.0, 20.0)?, square(10.0, 30.0)?]);
/// assert_eq!((both.len(), both[0].area()), (1, 700.0));
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn union(polygons: &[Polygon]) -> Vec<Polygon> {
    let subject: Vec<&Polygon> = polygons.iter().collect();
    overlay(&subject, &[], OverlayRule::Subject)
}

/// What `a` covers and `b` does not.
///
/// ```rust
/// # use baywright_geometry::*;
/// let square = |low: f64, high: f64| Polygon::rectangle(DVec2::splat(low), DVec2::splat(high));
/// let frame = difference(&square(0.0, 20.0)?, &square(5.0, 15.0)?);
/// assert_eq!((frame[0].area(), frame[0].holes().len()), (300.0, 1));
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn difference(a: &Polygon, b: &Polygon) -> Vec<Polygon> {
    overlay(&[a], &[b], OverlayRule::Difference)
}

/// What both cover.
///
/// ```rust
/// # use baywright_geometry::*;
/// let square = |low: f64, high: f64| Polygon::rectangle(DVec2::splat(low), DVec2::splat(high));
/// assert_eq!(intersection(&square(0.0, 20.0)?, &square(10.0, 30.0)?)[0].area(), 100.0);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn intersection(a: &Polygon, b: &Polygon) -> Vec<Polygon> {
    overlay(&[a], &[b], OverlayRule::Intersect)
}

/// The grid on which an overlay is worked.
struct Grid {
    origin: DVec2,
    step: f64,
}

impl Grid {
    fn around(bounds: &Bounds) -> Self {
        let furthest = bounds.low.abs().max(bounds.high.abs()).max_element();
        let size = bounds.size().max_element();
        // Fifty bits for the drawing itself; no finer than the last place of its furthest coordinate.
        let bits = (exponent(size) - 50).max(exponent(furthest) - 52);
        let step = libm::ldexp(1.0, bits);
        let origin = (bounds.centre() / step).round() * step;
        Self { origin, step }
    }

    fn int(&self, p: DVec2) -> IntPoint<i64> {
        let p = ((p - self.origin) / self.step).round();
        IntPoint::new(p.x as i64, p.y as i64)
    }

    fn float(&self, p: &IntPoint<i64>) -> DVec2 {
        self.origin + DVec2::new(p.x as f64, p.y as f64) * self.step
    }
}

/// The power of two just above a size.
fn exponent(size: f64) -> i32 {
    libm::frexp(size).1.max(-200)
}

fn overlay(subject: &[&Polygon], clip: &[&Polygon], rule: OverlayRule) -> Vec<Polygon> {
    let all = subject.iter().chain(clip);
    let Some(bounds) = all.map(|p| p.bounds()).reduce(Bounds::union) else { return Vec::new() };
    let rings =
        |of: &[&Polygon]| of.iter().flat_map(|p| p.rings().map(<[DVec2]>::to_vec)).collect::<Vec<_>>();
    let shapes = shapes(&bounds, &rings(subject), &rings(clip), rule);
    shapes
        .into_iter()
        .filter_map(|shape| {
            let mut rings = shape.into_iter();
            Some(Polygon::trusted(rings.next()?, rings.collect()))
        })
        .collect()
}

/// What is left of some rings when others are taken away, as shapes: each its outer ring, anticlockwise, then its holes. Of both
/// lists outer rings wind anticlockwise and holes clockwise.
pub(crate) fn left_of(from: &[Vec<DVec2>], taken: &[Vec<DVec2>]) -> Vec<Vec<Vec<DVec2>>> {
    let bounds = Bounds::around(from.iter().chain(taken).flatten().copied());
    bounds.map_or_else(Vec::new, |bounds| shapes(&bounds, from, taken, OverlayRule::Difference))
}

/// What some rings cover and others do too, in the same way.
pub(crate) fn common_to(some: &[Vec<DVec2>], others: &[Vec<DVec2>]) -> Vec<Vec<Vec<DVec2>>> {
    let bounds = Bounds::around(some.iter().chain(others).flatten().copied());
    bounds.map_or_else(Vec::new, |bounds| shapes(&bounds, some, others, OverlayRule::Intersect))
}

/// The shapes that an overlay makes of rings: of each its outer ring, anticlockwise, then its holes.
fn shapes(
    bounds: &Bounds,
    subject: &[Vec<DVec2>],
    clip: &[Vec<DVec2>],
    rule: OverlayRule,
) -> Vec<Vec<Vec<DVec2>>> {
    let grid = Grid::around(bounds);
    let corners = subject.iter().chain(clip).map(Vec::len).sum();
    let mut sweep = Overlay::<i64>::new_custom(corners, IntOverlayOptions::ogc(), Default::default());
    for (rings, role) in [(subject, ShapeType::Subject), (clip, ShapeType::Clip)] {
        for ring in rings {
            sweep.add_path_iter(ring.iter().map(|&p| grid.int(p)), role);
        }
    }
    // Outer rings wind once, holes against them: whatever has a winding number is covered.
    let shapes = sweep.overlay(rule, FillRule::NonZero);
    shapes
        .iter()
        .filter_map(|shape| {
            let mut rings = shape.iter().map(|ring| ring.iter().map(|p| grid.float(p)).collect::<Vec<_>>());
            let outer = rings.next().filter(|ring| has_area(ring))?;
            Some(std::iter::once(outer).chain(rings.filter(|ring| has_area(ring))).collect())
        })
        .collect()
}

fn has_area(ring: &[DVec2]) -> bool {
    ring.len() >= 3 && signed_area(ring) != 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(low: f64, high: f64) -> Polygon {
        Polygon::rectangle(DVec2::splat(low), DVec2::splat(high)).unwrap()
    }

    #[test]
    fn a_square_out_of_a_square_leaves_a_ring() {
        let left = difference(&square(0., 10.), &square(4., 6.));
        assert_eq!(left.len(), 1);
        assert_eq!((left[0].holes().len(), left[0].area()), (1, 96.));
        assert!(difference(&square(4., 6.), &square(0., 10.)).is_empty());
        assert_eq!(intersection(&left[0], &square(5., 20.))[0].area(), 24.);
    }

    #[test]
    fn what_touches_at_a_corner_stays_two() {
        let both = union(&[square(0., 1.), square(1., 2.)]);
        assert_eq!(both.len(), 2);
        let whole = |polygons: &[Polygon]| union(polygons).iter().map(Polygon::area).sum::<f64>();
        assert_eq!(whole(&[square(0., 2.), square(1., 3.)]), 7.);
        assert_eq!(whole(&[]), 0.);
    }

    /// Corners that are no round numbers come back to the last place.
    #[test]
    fn coordinates_survive_the_grid() {
        let p = square(0.1, 1e4 / 3.0);
        let same = union(std::slice::from_ref(&p));
        for a in p.outer() {
            assert!(same[0].outer().iter().any(|b| a.distance(*b) < 1e-11), "{a}");
        }
    }
}
