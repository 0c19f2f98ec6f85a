//! Where a point lies: inside, on the edge, or outside.

use glam::DVec2;

use crate::convex::touch_within;
use crate::outline::Outline;
use crate::polygon::Polygon;
use crate::polygon::validate::winding;

/// Where a point lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Strictly inside.
    Inside,
    /// On the boundary.
    OnEdge,
    /// Strictly outside.
    Outside,
}

/// Where a point lies to an outline: exact for a polygon; for a circle the edge is [`crate::tolerance::TOUCH_MM`] wide
/// on both sides.
///
/// ```rust
/// # use baywright_geometry::*;
/// let column = Outline::from(Circle::new(DVec2::ZERO, 150.0)?);
/// assert_eq!(locate(&column, DVec2::new(149.0, 0.0)), Place::Inside);
/// assert_eq!(locate(&column, DVec2::new(150.0, 0.0)), Place::OnEdge);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn locate(outline: &Outline, p: DVec2) -> Place {
    match outline {
        Outline::Polygon(polygon) => locate_in(polygon, p),
        Outline::Circle(circle) => {
            let slack = touch_within(&circle.bounds(), &circle.bounds());
            let off = p.distance(circle.centre()) - circle.radius();
            if off.abs() <= slack {
                Place::OnEdge
            } else if off < 0.0 {
                Place::Inside
            } else {
                Place::Outside
            }
        }
    }
}

/// Where a point lies to a polygon, exactly.
pub(crate) fn locate_in(polygon: &Polygon, p: DVec2) -> Place {
    if !polygon.bounds().holds(p) {
        return Place::Outside;
    }
    match winding(polygon.outer(), p) {
        None => return Place::OnEdge,
        Some(false) => return Place::Outside,
        Some(true) => {}
    }
    for hole in polygon.holes() {
        match winding(hole, p) {
            None => return Place::OnEdge,
            Some(true) => return Place::Outside,
            Some(false) => {}
        }
    }
    Place::Inside
}
