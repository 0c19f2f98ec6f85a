//! A circle in plan: a column, a drum.

use glam::DVec2;

use crate::angle;
use crate::bounds::Bounds;
use crate::fault::ShapeFault;
use crate::frame::PlanPose;
use crate::polygon::Polygon;
use crate::tolerance::{REACH_MM, SAGITTA_MM};

/// A disc with a positive radius.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    centre: DVec2,
    radius: f64,
}

impl Circle {
    /// A disc around `centre`.
    ///
    /// # Errors
    /// A figure that is not a number or out of reach, or a radius that is not positive.
    pub fn new(centre: DVec2, radius: f64) -> Result<Self, ShapeFault> {
        if !(centre.is_finite() && centre.abs().max_element() <= REACH_MM) {
            return Err(ShapeFault::OutOfReach { ring: 0, corner: 0 });
        }
        if !(radius > 0.0 && radius <= REACH_MM) {
            return Err(ShapeFault::NoRadius { radius });
        }
        Ok(Self { centre, radius })
    }

    /// The middle.
    pub const fn centre(&self) -> DVec2 {
        self.centre
    }

    /// The radius, always positive.
    pub const fn radius(&self) -> f64 {
        self.radius
    }

    /// The area.
    pub fn area(&self) -> f64 {
        std::f64::consts::PI * self.radius * self.radius
    }

    /// The box around it.
    pub fn bounds(&self) -> Bounds {
        let r = DVec2::splat(self.radius);
        Bounds { low: self.centre - r, high: self.centre + r }
    }

    /// From where to where along x a disc lies between two lines along x, at `low` and `high`, all in another frame, mm; `None` if
    /// it lies beside them or only touches one. With one line twice it is the chord on it.
    ///
    /// ```rust
    /// # use baywright_geometry::*;
    /// let disc = Circle::new(DVec2::new(10.0, 0.0), 5.0)?;
    /// let here = PlanPose::new(DVec2::ZERO, 0.0);
    /// // 3 mm off the middle half the chord is 4 mm.
    /// assert_eq!(disc.between_from(&here, 3.0, 9.0), Some((6.0, 14.0)));
    /// assert_eq!(disc.between_from(&here, 5.0, 9.0), None);
    /// # Ok::<(), ShapeFault>(())
    /// ```
    pub fn between_from(&self, to_from_own: &PlanPose, low: f64, high: f64) -> Option<(f64, f64)> {
        let centre = *to_from_own * self.centre;
        let beside = (low - centre.y).max(centre.y - high).max(0.0);
        let half = (beside < self.radius).then(|| (self.radius * self.radius - beside * beside).sqrt())?;
        Some((centre.x - half, centre.x + half))
    }

    /// The middle as a list of one point: the core of a disc is a convex set without sides.
    pub(crate) const fn core(&self) -> &[DVec2] {
        std::slice::from_ref(&self.centre)
    }

    /// The same disc with its middle at `centre`.
    pub(crate) const fn at(&self, centre: DVec2) -> Self {
        Self { centre, radius: self.radius }
    }

    /// How many corners a polygon around this circle needs to stay within [`SAGITTA_MM`] of it.
    fn corners(&self) -> usize {
        self.corners_within(SAGITTA_MM, 16)
    }

    fn corners_within(&self, within_mm: f64, least: usize) -> usize {
        // Circumscribed: a corner lies r (1/cos(π/n) - 1) outside, about r π²/(2 n²).
        let wanted = std::f64::consts::PI * (self.radius / (2.0 * within_mm)).sqrt();
        (libm::ceil(wanted) as usize).clamp(least, 4096)
    }

    /// A coarser regular polygon around the disc, for where many are put together: its corners lie outside by about this much at
    /// most, mm, which is positive.
    ///
    /// ```rust
    /// # use baywright_geometry::*;
    /// let drum = Circle::new(DVec2::ZERO, 290.0)?.circumscribed_within(0.4);
    /// let out = drum.outer().iter().map(|p| p.length()).fold(0.0, f64::max) - 290.0;
    /// assert!(out > 0.2 && out < 0.41 && drum.outer().len() < 70);
    /// # Ok::<(), ShapeFault>(())
    /// ```
    pub fn circumscribed_within(&self, by_mm: f64) -> Polygon {
        self.around_by(0.0, self.corners_within(by_mm, 8))
    }

    /// A regular polygon *around* the disc (it never hides a conflict), its corners at most [`SAGITTA_MM`] outside.
    pub fn circumscribed(&self) -> Polygon {
        self.around(0.0)
    }

    /// As [`Circle::circumscribed`], one of its edges square to the way to `p`: a point outside the disc is then outside
    /// the polygon too.
    pub(crate) fn circumscribed_towards(&self, p: DVec2) -> Polygon {
        let half = 0.5 * std::f64::consts::TAU / self.corners() as f64;
        self.around(angle::heading(p - self.centre) + half)
    }

    /// A regular polygon around the disc, its first corner at a heading.
    fn around(&self, first: f64) -> Polygon {
        self.around_by(first, self.corners())
    }

    fn around_by(&self, first: f64, n: usize) -> Polygon {
        let (_, cos) = libm::sincos(0.5 * std::f64::consts::TAU / n as f64);
        self.regular(n, self.radius / cos, first)
    }

    /// A regular polygon *inside* the disc, its edges at most [`SAGITTA_MM`] from it.
    pub(crate) fn inscribed(&self) -> Polygon {
        self.regular(self.corners(), self.radius, 0.0)
    }

    fn regular(&self, n: usize, radius: f64, first: f64) -> Polygon {
        let step = std::f64::consts::TAU / n as f64;
        let ring = (0..n)
            .map(|i| {
                let (sin, cos) = libm::sincos(first + step * i as f64);
                self.centre + radius * DVec2::new(cos, sin)
            })
            .collect();
        Polygon::from_convex_ring(ring)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stand_in_polygons_stay_within_the_sagitta() {
        for radius in [0.5, 60.0, 300.0, 5000.0] {
            let circle = Circle::new(DVec2::new(3.0, -2.0), radius).unwrap();
            for p in circle.circumscribed().outer() {
                let out = p.distance(circle.centre()) - radius;
                assert!(out > 0.0 && out <= SAGITTA_MM, "{radius}: {out}");
            }
            let ring = circle.inscribed();
            let mid = (ring.outer()[0] + ring.outer()[1]) * 0.5;
            assert!(radius - mid.distance(circle.centre()) <= SAGITTA_MM);
        }
    }

    #[test]
    fn a_circle_without_radius_is_refused() {
        for radius in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(Circle::new(DVec2::ZERO, radius).is_err());
        }
    }
}
