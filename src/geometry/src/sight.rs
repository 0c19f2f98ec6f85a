//! Where, in plan, a thing of some height range would stand in the way of a view or of a radio path.

use glam::{DVec2, DVec3};

use crate::convex::hull;
use crate::face::Face;
use crate::polygon::Polygon;
use crate::prism::Span;
use crate::tolerance::TOUCH_MM;

mod zone;

pub use zone::fresnel_plan;

/// The plan region in which a thing of height range `span` hides something of `face` from `eye`: the thing hides
/// something exactly if its outline shares area with the region. `None` if nothing of that height range can, or the
/// eye lies on or behind the face's plane.
///
/// It is the plan projection of that part of the pyramid from the eye to the face whose heights the span has.
///
/// What hangs at 525 mm and above can hide a board at the eye's own height only on the far half of the way:
///
/// ```rust
/// # use baywright_geometry::*;
/// let eye = DVec3::new(0.0, 0.0, 500.0);
/// let board = Face::new(DVec3::new(4000.0, 0.0, 500.0), std::f64::consts::PI, 0.0, 200.0, 100.0)?;
/// let hanging = Span::new(525.0, 2000.0)?;
/// let region = sight_shadow_plan(eye, &board, &hanging);
/// assert!(region.is_some_and(|region| (region.bounds().low.x - 2000.0).abs() < 1e-9));
/// assert!(sight_shadow_plan(eye, &board, &Span::new(600.0, 2000.0)?).is_none());
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn sight_shadow_plan(eye: DVec3, face: &Face, span: &Span) -> Option<Polygon> {
    if face.in_front(eye) <= TOUCH_MM {
        return None;
    }
    let corners = face.corners();
    let heights = || corners.iter().map(|p| p.z).chain([eye.z]);
    let (lowest, highest) =
        (heights().fold(f64::INFINITY, f64::min), heights().fold(f64::NEG_INFINITY, f64::max));
    if highest - span.bottom() <= TOUCH_MM || span.top() - lowest <= TOUCH_MM {
        return None;
    }
    let mut points: Vec<DVec2> = Vec::with_capacity(16);
    let within = |z: f64| span.bottom() <= z && z <= span.top();
    points.extend(corners.iter().chain([&eye]).filter(|p| within(p.z)).map(|p| p.truncate()));
    for (i, &corner) in corners.iter().enumerate() {
        let next = corners.get(i + 1).or(corners.first()).copied().unwrap_or(corner);
        for (from, to) in [(corner, next), (eye, corner)] {
            for height in [span.bottom(), span.top()] {
                let (p, q) = (from.z - height, to.z - height);
                if (p < 0.0 && q > 0.0) || (p > 0.0 && q < 0.0) {
                    points.push((from + (to - from) * (p / (p - q))).truncate());
                }
            }
        }
    }
    hull(&points)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::{FRAC_PI_2, PI};

    #[test]
    fn a_level_view_at_three_heights() {
        let eye = DVec3::new(0.0, 0.0, 500.0);
        let face = Face::new(DVec3::new(1000.0, 0.0, 500.0), PI, 0.0, 200.0, 100.0).unwrap();
        let plan = |bottom, top| sight_shadow_plan(eye, &face, &Span::new(bottom, top).unwrap());
        // All heights: the whole triangle.
        assert!((plan(0.0, 2000.0).unwrap().area() - 100_000.0).abs() < 1e-6);
        // From 525 up: the pyramid's upper half reaches that half way along.
        let high = plan(525.0, 2000.0).unwrap();
        assert!((high.bounds().low.x - 500.0).abs() < 1e-9);
        assert!((high.area() - 75_000.0).abs() < 1e-6);
        // What only touches it from above or below.
        assert!(plan(550.0, 2000.0).is_none() && plan(0.0, 450.0).is_none());
        assert!(plan(0.0, 450.1).is_some());
    }

    #[test]
    fn a_mat_seen_from_above() {
        let mat = Face::new(DVec3::new(1000.0, 0.0, 0.0), 0.0, -FRAC_PI_2, 400.0, 200.0).unwrap();
        let eye = DVec3::new(0.0, 0.0, 1000.0);
        let plan = sight_shadow_plan(eye, &mat, &Span::new(0.0, 100.0).unwrap()).unwrap();
        assert!((plan.bounds().low.x - 810.0).abs() < 1e-9 && (plan.bounds().high.x - 1100.0).abs() < 1e-9);
        assert!(
            sight_shadow_plan(DVec3::new(0.0, 0.0, -1.0), &mat, &Span::new(-9.0, 100.0).unwrap()).is_none()
        );
    }
}
