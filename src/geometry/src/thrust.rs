//! Which way a car's rear axle pushes it, and the reference axis that follows from it.
//!
//! Toe is per wheel, in radians, positive toe-in: the wheel's front end points towards the middle of the car.

use glam::DVec2;

use crate::angle;
use crate::frame::PlanPose;

/// The heading of the thrust line in the vehicle frame, radians, anticlockwise-positive: half the difference of the rear
/// wheels' toe, right less left. Zero if both toe in alike.
///
/// A left rear wheel that toes in more than the right one pushes the tail to the right, and there the line points:
///
/// ```rust
/// # use baywright_geometry::*;
/// let heading = thrust_heading(angle::radians(0.20), angle::radians(0.04));
/// assert!((angle::degrees(heading) - -0.08).abs() < 1e-12);
/// ```
pub fn thrust_heading(rear_left_toe: f64, rear_right_toe: f64) -> f64 {
    (rear_right_toe - rear_left_toe) * 0.5
}

/// The thrust line as a reference axis: vehicle from axis. It passes the middle of the rear axle, `wheelbase` behind the
/// vehicle frame's origin; its own origin lies on it as far before that axle, so abreast of the front one.
///
/// ```rust
/// # use baywright_geometry::*;
/// let vehicle_from_axis = thrust_axis(2700.0, angle::radians(0.1));
/// // It starts at the rear axle's middle ...
/// assert!((vehicle_from_axis * DVec2::new(-2700.0, 0.0)).distance(DVec2::new(-2700.0, 0.0)) < 1e-9);
/// // ... and a target 4 m before the front axle stands 11.7 mm to the left of the centreline: 6700 mm · sin 0.1°.
/// assert!(((vehicle_from_axis * DVec2::new(4000.0, 0.0)).y - 11.694).abs() < 1e-3);
/// ```
pub fn thrust_axis(wheelbase: f64, thrust_heading: f64) -> PlanPose {
    let rear = DVec2::new(-wheelbase, 0.0);
    PlanPose::new(rear + angle::direction(thrust_heading) * wheelbase, thrust_heading)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Closed form: a toe-in of t turns the left wheel's plane to the heading -t, the right one's to +t; the axle goes where
    /// the bisector of the two planes points.
    #[test]
    fn the_thrust_line_bisects_the_rear_wheels_planes() {
        for (left, right) in [(0.0, 0.0), (0.2, 0.2), (0.3, -0.1), (-0.25, 0.5), (0.0, 1.5)] {
            let (left, right) = (angle::radians(left), angle::radians(right));
            let bisector = angle::direction(-left) + angle::direction(right);
            assert!((thrust_heading(left, right) - angle::heading(bisector)).abs() < 1e-15);
            assert_eq!(thrust_heading(right, left), -thrust_heading(left, right), "the mirrored car");
        }
    }

    #[test]
    fn the_axis_passes_the_rear_axle_and_no_toe_is_the_centreline() {
        assert_eq!(thrust_axis(2700.0, 0.0), PlanPose::IDENTITY);
        for heading in [-0.02, 0.001, 0.3] {
            let axis = thrust_axis(2700.0, heading);
            let rear = DVec2::new(-2700.0, 0.0);
            let off = rear - axis.origin();
            assert!(off.perp_dot(axis.forward()).abs() < 1e-9, "the rear axle's middle lies on it");
            assert!((off.length() - 2700.0).abs() < 1e-9);
            assert!((angle::heading(-off) - heading).abs() < 1e-12);
        }
    }
}
