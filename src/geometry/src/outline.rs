//! A plan shape: a polygon or a circle.

use glam::DVec2;

use crate::bounds::Bounds;
use crate::circle::Circle;
use crate::frame::PlanPose;
use crate::polygon::Polygon;

/// The shape of a thing seen from above.
#[derive(Clone, Debug, PartialEq)]
pub enum Outline {
    /// Straight edges, possibly with holes.
    Polygon(Polygon),
    /// A disc.
    Circle(Circle),
}

impl Outline {
    /// The box around it.
    pub fn bounds(&self) -> Bounds {
        match self {
            Self::Polygon(polygon) => polygon.bounds(),
            Self::Circle(circle) => circle.bounds(),
        }
    }

    /// The box around it in another frame, along that frame's axes.
    ///
    /// ```rust
    /// # use baywright_geometry::*;
    /// let bench = Outline::from(Polygon::rectangle(DVec2::ZERO, DVec2::new(2000.0, 600.0))?);
    /// let turned = PlanPose::new(DVec2::new(100.0, 0.0), std::f64::consts::FRAC_PI_2);
    /// let around = bench.bounds_from(&turned);
    /// assert!((around.size() - DVec2::new(600.0, 2000.0)).length() < 1e-9);
    /// # Ok::<(), ShapeFault>(())
    /// ```
    pub fn bounds_from(&self, to_from_own: &PlanPose) -> Bounds {
        match self {
            Self::Polygon(polygon) => Bounds::around(polygon.outer().iter().map(|&p| *to_from_own * p))
                .unwrap_or_else(|| polygon.bounds()),
            Self::Circle(circle) => circle.at(*to_from_own * circle.centre()).bounds(),
        }
    }

    /// Its area, always positive.
    pub fn area(&self) -> f64 {
        match self {
            Self::Polygon(polygon) => polygon.area(),
            Self::Circle(circle) => circle.area(),
        }
    }

    /// The same shape elsewhere.
    pub fn placed(&self, to_from_own: &PlanPose) -> Self {
        match self {
            Self::Polygon(polygon) => Self::Polygon(polygon.placed(to_from_own)),
            Self::Circle(circle) => Self::Circle(circle.at(*to_from_own * circle.centre())),
        }
    }

    /// The same shape moved.
    pub fn moved(&self, by: DVec2) -> Self {
        match self {
            Self::Polygon(polygon) => Self::Polygon(polygon.moved(by)),
            Self::Circle(circle) => Self::Circle(circle.at(circle.centre() + by)),
        }
    }

    /// A polygon that holds the shape: itself, or one around the disc within [`crate::tolerance::SAGITTA_MM`].
    pub fn as_polygon(&self) -> std::borrow::Cow<'_, Polygon> {
        match self {
            Self::Polygon(polygon) => std::borrow::Cow::Borrowed(polygon),
            Self::Circle(circle) => std::borrow::Cow::Owned(circle.circumscribed()),
        }
    }
}

impl From<Polygon> for Outline {
    fn from(polygon: Polygon) -> Self {
        Self::Polygon(polygon)
    }
}

impl From<Circle> for Outline {
    fn from(circle: Circle) -> Self {
        Self::Circle(circle)
    }
}
