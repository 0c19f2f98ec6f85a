//! How one shape lies in another.

use glam::DVec2;

use crate::convex::touch_within;
use crate::distance::{between_boundaries, runs_inside, to_boundary};
use crate::locate::{Located, locate_in};
use crate::outline::Outline;
use crate::overlap::polygon_overlaps;
use crate::polygon::Polygon;
use crate::predicate::side;

/// How a shape lies to one that might contain it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Containment {
    /// Wholly inside, further than [`crate::tolerance::TOUCH_MM`] from the boundary.
    Within,
    /// Wholly inside, touching the boundary.
    TouchingWithin,
    /// Some of it inside, some outside.
    Partly,
    /// No area of it inside; it may touch from outside.
    Outside,
}

/// How `inner` lies to `container`; the space of a hole is outside.
///
/// ```rust
/// # use baywright_geometry::*;
/// let room = Polygon::rectangle(DVec2::ZERO, DVec2::new(8000.0, 4000.0))?;
/// let drum = |x: f64| Circle::new(DVec2::new(x, 2000.0), 300.0).map(Outline::from);
/// assert_eq!(contains(&room, &drum(400.0)?), Containment::Within);
/// assert_eq!(contains(&room, &drum(300.0)?), Containment::TouchingWithin);
/// assert_eq!(contains(&room, &drum(200.0)?), Containment::Partly);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn contains(container: &Polygon, inner: &Outline) -> Containment {
    if !holds(container, inner) {
        return if polygon_overlaps(container, inner) { Containment::Partly } else { Containment::Outside };
    }
    let slack = touch_within(&container.bounds(), &inner.bounds());
    let gap = match inner {
        Outline::Circle(circle) => to_boundary(container, circle.centre()) - circle.radius(),
        Outline::Polygon(polygon) => between_boundaries(container, polygon, slack),
    };
    if gap > slack { Containment::Within } else { Containment::TouchingWithin }
}

/// Whether `inner` lies wholly inside, touching or not: the quicker question.
///
/// ```rust
/// # use baywright_geometry::*;
/// let room = Polygon::rectangle(DVec2::ZERO, DVec2::new(8000.0, 4000.0))?;
/// let drum = |x: f64| Circle::new(DVec2::new(x, 2000.0), 300.0).map(Outline::from);
/// assert!(holds(&room, &drum(300.0)?));
/// assert!(!holds(&room, &drum(299.0)?));
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn holds(container: &Polygon, inner: &Outline) -> bool {
    let slack = touch_within(&container.bounds(), &inner.bounds());
    match inner {
        Outline::Circle(circle) => {
            let gap = to_boundary(container, circle.centre()) - circle.radius();
            locate_in(container, circle.centre()) == Located::Inside && gap >= -slack
        }
        Outline::Polygon(polygon) => {
            if container.is_convex() && is_on_inner_sides(container, polygon) {
                return true;
            }
            // Where no edge of the container runs through the inside of the shape, all of its inside lies on one side.
            let crossed = container.edges().any(|e| runs_inside(polygon, &e, slack));
            !crossed && probe(polygon).is_some_and(|p| locate_in(container, p) != Located::Outside)
        }
    }
}

/// Whether no corner lies beyond the line of any edge of a convex container.
fn is_on_inner_sides(container: &Polygon, inner: &Polygon) -> bool {
    container.edges().all(|e| inner.outer().iter().all(|&p| side(e.from, e.to, p).is_ge()))
}

/// A point well inside the polygon: the middle of its largest convex piece.
fn probe(polygon: &Polygon) -> Option<DVec2> {
    let area = |ring: &&[DVec2]| crate::polygon::signed_area(ring);
    let ring = polygon.pieces().max_by(|a, b| area(a).total_cmp(&area(b)))?;
    Some(ring.iter().sum::<DVec2>() / ring.len() as f64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circle::Circle;
    use crate::locate::locate;

    fn frame() -> Polygon {
        let ring = |r: f64| [(-r, -r), (r, -r), (r, r), (-r, r)].map(DVec2::from).to_vec();
        Polygon::new(ring(10.), vec![ring(3.)]).unwrap()
    }

    #[test]
    fn places() {
        let frame = Outline::Polygon(frame());
        let disc: Outline = Circle::new(DVec2::ZERO, 5.).unwrap().into();
        for (p, in_frame, in_disc) in [
            ((0., 0.), Located::Outside, Located::Inside),
            ((3., 1.), Located::OnEdge, Located::Inside),
            ((3., 4.), Located::Inside, Located::OnEdge),
            ((10., 10.), Located::OnEdge, Located::Outside),
            ((10., f64::EPSILON * 8.), Located::OnEdge, Located::Outside),
            ((10.000000000000002, 0.), Located::Outside, Located::Outside),
        ] {
            assert_eq!(locate(&frame, p.into()), in_frame, "{p:?}");
            assert_eq!(locate(&disc, p.into()), in_disc, "{p:?}");
        }
    }

    #[test]
    fn containments() {
        use Containment::*;
        let disc = |x: f64, r: f64| Outline::from(Circle::new(DVec2::new(x, 0.), r).unwrap());
        let block = |low: f64, high: f64| {
            Outline::from(Polygon::rectangle(DVec2::splat(low), DVec2::splat(high)).unwrap())
        };
        for (inner, expected) in [
            (disc(6., 1.), Within),
            (disc(6.5, 3.5), TouchingWithin),
            (disc(6., 4.), Partly),
            (disc(0., 3.), Outside),
            (disc(0., 3.5), Partly),
            (disc(0., 50.), Partly),
            (block(4., 9.), Within),
            (block(3., 10.), TouchingWithin),
            (block(2., 9.), Partly),
            (block(-1., 1.), Outside),
            (block(-3., 3.), Outside),
            (block(-10., 10.), Partly),
            (block(20., 30.), Outside),
        ] {
            assert_eq!(contains(&frame(), &inner), expected, "{inner:?}");
        }
    }
}
