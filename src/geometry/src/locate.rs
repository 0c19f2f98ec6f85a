//! Where a point lies: inside, on the edge, or outside.

use glam::DVec2;

use crate::convex::touch_within;
use crate::outline::Outline;
use crate::polygon::Polygon;
use crate::polygon::validate::winding;

/// Where a point lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Located {
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
/// assert_eq!(locate(&column, DVec2::new(149.0, 0.0)), Located::Inside);
/// assert_eq!(locate(&column, DVec2::new(150.0, 0.0)), Located::OnEdge);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn locate(outline: &Outline, p: DVec2) -> Located {
    match outline {
        Outline::Polygon(polygon) => locate_in(polygon, p),
        Outline::Circle(circle) => {
            let slack = touch_within(&circle.bounds(), &circle.bounds());
            let off = p.distance(circle.centre()) - circle.radius();
            if off.abs() <= slack {
                Located::OnEdge
            } else if off < 0.0 {
                Located::Inside
            } else {
                Located::Outside
            }
        }
    }
}

/// As [`locate`], for a polygon that is not an outline yet.
///
/// ```rust
/// # use baywright_geometry::*;
/// let room = Polygon::rectangle(DVec2::ZERO, DVec2::new(8000.0, 4000.0))?;
/// assert_eq!(locate_in(&room, DVec2::new(8000.0, 10.0)), Located::OnEdge);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn locate_in(polygon: &Polygon, p: DVec2) -> Located {
    if !polygon.bounds().holds(p) {
        return Located::Outside;
    }
    match winding(polygon.outer(), p) {
        None => return Located::OnEdge,
        Some(false) => return Located::Outside,
        Some(true) => {}
    }
    for hole in polygon.holes() {
        match winding(hole, p) {
            None => return Located::OnEdge,
            Some(true) => return Located::Outside,
            Some(false) => {}
        }
    }
    Located::Inside
}
