//! What is driven: an outline on two axles that turns no tighter than it can.

use glam::DVec2;

use crate::bounds::Bounds;
use crate::frame::PlanPose;
use crate::polygon::{is_convex, ring_edges, signed_area};

/// How tight a car turns: the figure that is at hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Turning {
    /// The radius of the circle that the inner side of the body runs around at full lock, measured on the line of the rear
    /// axle.
    InnerRadius {
        /// That radius, mm; 0 or more.
        radius: f64,
    },
    /// The turning circle as data sheets have it: the diameter of what the outer front tyre rolls on at full lock.
    KerbToKerb {
        /// That diameter, mm.
        circle: f64,
        /// From outside to outside of the front tyres, mm.
        track: f64,
    },
}

/// Why there is no such car.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CarFault {
    /// No ring was given.
    NoOutline,
    /// A ring that is not convex and anticlockwise, with an area and finite corners.
    NotConvex {
        /// Which, from 0.
        ring: usize,
    },
    /// The wheelbase is no positive length.
    NoWheelbase {
        /// What was given, mm.
        wheelbase: f64,
    },
    /// With these figures the rear axle's middle would turn about itself, or there is no such circle.
    NoTurning,
}

impl std::fmt::Display for CarFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{self:?}")
    }
}

impl std::error::Error for CarFault {}

/// A car as it is driven slowly: without slip, so that it turns about a point on the line of its rear axle.
#[derive(Clone, Debug, PartialEq)]
pub struct Car {
    /// In a frame of its own, whose origin is the middle of the rear axle.
    rings: Vec<Vec<DVec2>>,
    wheelbase: f64,
    radius: f64,
}

impl Car {
    /// A car from its outline: convex rings, anticlockwise, mm, in the vehicle frame (origin under the middle of the front
    /// axle, x
    /// forward, y left), its wheelbase, mm, and how it turns.
    ///
    /// # Errors
    /// Which of them makes no car.
    pub fn new(outline: &[Vec<DVec2>], wheelbase: f64, turning: Turning) -> Result<Self, CarFault> {
        if !(wheelbase.is_finite() && wheelbase > 0.0) {
            return Err(CarFault::NoWheelbase { wheelbase });
        }
        let sound = |ring: &Vec<DVec2>| {
            ring.len() >= 3
                && ring.iter().all(|p| p.is_finite())
                && signed_area(ring) > 0.0
                && is_convex(ring)
        };
        if let Some(ring) = outline.iter().position(|ring| !sound(ring)) {
            return Err(CarFault::NotConvex { ring });
        }
        let around = Bounds::around(outline.iter().flatten().copied()).ok_or(CarFault::NoOutline)?;
        let half_width = around.low.y.abs().max(around.high.y.abs());
        let radius = match turning {
            Turning::InnerRadius { radius } if radius >= 0.0 => radius + half_width,
            Turning::InnerRadius { .. } => return Err(CarFault::NoTurning),
            Turning::KerbToKerb { circle, track } if track >= 0.0 => {
                let outer = 0.5 * circle;
                libm::sqrt(outer * outer - wheelbase * wheelbase) - 0.5 * track
            }
            Turning::KerbToKerb { .. } => return Err(CarFault::NoTurning),
        };
        if !(radius.is_finite() && radius > 0.0) {
            return Err(CarFault::NoTurning);
        }
        let behind = DVec2::new(wheelbase, 0.0);
        let rings = outline.iter().map(|ring| ring.iter().map(|&p| p + behind).collect()).collect();
        Ok(Self { rings, wheelbase, radius })
    }

    /// The radius that the middle of the rear axle runs on at full lock, mm.
    pub const fn radius(&self) -> f64 {
        self.radius
    }

    /// How far the outline reaches from the turning centre at full lock, mm: the circle that its outermost corner runs on.
    ///
    /// ```rust
    /// # use baywright_geometry::*;
    /// # use baywright_geometry::way_in::{Car, CarFault, Turning};
    /// // A rectangle 1 745 wide, 810 in front of its front axle, 2 550 from axle to axle, its inner side on 4 000:
    /// // √((4 000 + 1 745)² + (2 550 + 810)²).
    /// let outline = [(-3400.0, -872.5), (810.0, -872.5), (810.0, 872.5), (-3400.0, 872.5)].map(DVec2::from);
    /// let car = Car::new(&[outline.to_vec()], 2550.0, Turning::InnerRadius { radius: 4000.0 })?;
    /// assert_eq!(car.outer_radius().round(), 6655.0);
    /// # Ok::<(), CarFault>(())
    /// ```
    pub fn outer_radius(&self) -> f64 {
        let far = |centre: DVec2| self.corners().map(|p| p.distance(centre)).fold(0.0, f64::max);
        far(DVec2::new(0.0, self.radius)).max(far(DVec2::new(0.0, -self.radius)))
    }

    /// The nearest that the outline comes to the turning centre at full lock, mm; 0 if it turns within itself.
    pub fn inner_radius(&self) -> f64 {
        let centres = [self.radius, -self.radius].map(|y| DVec2::new(0.0, y));
        let near = |ring: &Vec<DVec2>, centre: DVec2| {
            let inside = ring_edges(ring).all(|e| (e.to - e.from).perp_dot(centre - e.from) >= 0.0);
            let far = ring_edges(ring).map(|e| e.distance_to(centre)).fold(f64::INFINITY, f64::min);
            if inside { 0.0 } else { far }
        };
        let all = self.rings.iter().flat_map(|ring| centres.map(|centre| near(ring, centre)));
        all.fold(f64::INFINITY, f64::min)
    }

    /// The outline in the frame of the rear axle.
    pub(super) fn rings(&self) -> &[Vec<DVec2>] {
        &self.rings
    }

    fn corners(&self) -> impl Iterator<Item = DVec2> + '_ {
        self.rings.iter().flatten().copied()
    }

    /// The frame of the rear axle for a pose of the vehicle frame.
    pub(super) fn rear(&self, pose: &PlanPose) -> PlanPose {
        PlanPose::new(*pose * DVec2::new(-self.wheelbase, 0.0), pose.heading())
    }

    /// The vehicle frame for the frame of the rear axle.
    pub(super) fn front(&self, rear: &PlanPose) -> PlanPose {
        PlanPose::new(*rear * DVec2::new(self.wheelbase, 0.0), rear.heading())
    }

    /// The middle of its box, in the frame of the rear axle.
    pub(super) fn middle(&self) -> DVec2 {
        Bounds::around(self.corners()).map_or(DVec2::ZERO, |around| around.centre())
    }

    /// The same car seen in a mirror along its length.
    pub(super) fn mirrored(&self) -> Self {
        let ring = |ring: &Vec<DVec2>| ring.iter().rev().map(|p| DVec2::new(p.x, -p.y)).collect();
        Self { rings: self.rings.iter().map(ring).collect(), ..*self }
    }
}
