//! Frames and the rigid transforms between them, named destination first: `bay_from_vehicle * point_in_vehicle`.
//!
//! Axes after ISO 8855: x forward, y left, z up; heading (yaw) anticlockwise about z, pitch positive nose *down* about
//! y, roll positive left side up about x; applied in the order yaw, pitch, roll (intrinsic z-y-x).

use std::ops::Mul;

use glam::{DMat3, DVec2, DVec3};

use crate::angle;

/// A rigid move in plan: turn by a heading, then shift.
///
/// ```rust
/// # use baywright_geometry::*;
/// // The car's nose points along the bay's y.
/// let bay_from_vehicle = PlanPose::new(DVec2::new(2000.0, 4000.0), angle::radians(90.0));
/// assert_eq!(bay_from_vehicle * DVec2::new(800.0, 300.0), DVec2::new(1700.0, 4800.0));
/// assert_eq!(bay_from_vehicle.inverse() * DVec2::new(1700.0, 4800.0), DVec2::new(800.0, 300.0));
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanPose {
    origin: DVec2,
    heading: f64,
    /// Cosine and sine of the heading, kept because every point needs them.
    turn: DVec2,
}

impl PlanPose {
    /// Where every point stays.
    pub const IDENTITY: Self = Self { origin: DVec2::ZERO, heading: 0.0, turn: DVec2::X };

    /// A frame whose origin lies at `origin` and whose x axis points along `heading` (radians, anticlockwise).
    pub fn new(origin: DVec2, heading: f64) -> Self {
        Self { origin, heading, turn: angle::direction(heading) }
    }

    /// A frame at `origin` whose x axis points towards another place; heading 0 if the two coincide.
    pub fn facing(origin: DVec2, towards: DVec2) -> Self {
        Self::new(origin, angle::heading(towards - origin))
    }

    /// Where the frame's origin lies in the destination.
    pub const fn origin(&self) -> DVec2 {
        self.origin
    }

    /// The heading of the frame's x axis in the destination, radians.
    pub const fn heading(&self) -> f64 {
        self.heading
    }

    /// The frame's x axis in the destination.
    pub const fn forward(&self) -> DVec2 {
        self.turn
    }

    /// The frame's y axis in the destination.
    pub fn left(&self) -> DVec2 {
        self.turn.perp()
    }

    /// A direction or difference, turned without being shifted.
    pub fn turned(&self, vector: DVec2) -> DVec2 {
        self.turn.rotate(vector)
    }

    /// The way back.
    pub fn inverse(&self) -> Self {
        let turn = DVec2::new(self.turn.x, -self.turn.y);
        Self { origin: -turn.rotate(self.origin), heading: -self.heading, turn }
    }

    /// The same frame shifted in the destination.
    pub fn shifted(&self, by: DVec2) -> Self {
        Self { origin: self.origin + by, ..*self }
    }
}

impl Mul<DVec2> for PlanPose {
    type Output = DVec2;

    // To apply a rigid move is to turn and then to shift: the plus is meant.
    #[allow(clippy::suspicious_arithmetic_impl)]
    fn mul(self, p: DVec2) -> DVec2 {
        self.origin + self.turn.rotate(p)
    }
}

impl Mul for PlanPose {
    type Output = Self;

    fn mul(self, inner: Self) -> Self {
        Self {
            origin: self * inner.origin,
            heading: angle::wrapped(self.heading + inner.heading),
            turn: self.turn.rotate(inner.turn),
        }
    }
}

/// A rigid move in space.
///
/// ```rust
/// # use baywright_geometry::*;
/// // A camera 1.4 m up that looks 10° down.
/// let bay_from_sensor = Pose::looking(DVec3::new(0.0, 0.0, 1400.0), 0.0, angle::radians(-10.0));
/// let seen = bay_from_sensor * DVec3::new(1000.0, 0.0, 0.0);
/// assert!((seen.z - (1400.0 - 173.648)).abs() < 1e-3);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    origin: DVec3,
    /// The frame's axes in the destination, as columns: unit vectors, square to one another.
    axes: DMat3,
}

impl Pose {
    /// A frame at `origin`, turned by heading, then pitched (positive nose down), then rolled (positive left up);
    /// radians.
    pub fn new(origin: DVec3, heading: f64, pitch: f64, roll: f64) -> Self {
        let (sy, cy) = angle::sin_cos(heading);
        let (sp, cp) = angle::sin_cos(pitch);
        let (sr, cr) = angle::sin_cos(roll);
        let yaw = DMat3::from_cols(DVec3::new(cy, sy, 0.0), DVec3::new(-sy, cy, 0.0), DVec3::Z);
        let pitch = DMat3::from_cols(DVec3::new(cp, 0.0, -sp), DVec3::Y, DVec3::new(sp, 0.0, cp));
        let roll = DMat3::from_cols(DVec3::X, DVec3::new(0.0, cr, sr), DVec3::new(0.0, -sr, cr));
        Self { origin, axes: yaw * pitch * roll }
    }

    /// A level frame: a plan pose raised to `height`.
    pub fn level(plan: &PlanPose, height: f64) -> Self {
        let (forward, left) = (plan.forward(), plan.left());
        Self {
            origin: plan.origin().extend(height),
            axes: DMat3::from_cols(forward.extend(0.0), left.extend(0.0), DVec3::Z),
        }
    }

    /// A frame at `origin` looking along an azimuth (positive left) and an elevation (positive up), not rolled.
    pub fn looking(origin: DVec3, azimuth: f64, elevation: f64) -> Self {
        // Elevation is up, pitch is nose down.
        Self::new(origin, azimuth, -elevation, 0.0)
    }

    /// Where the frame's origin lies in the destination.
    pub const fn origin(&self) -> DVec3 {
        self.origin
    }

    /// The frame's x axis in the destination.
    pub const fn forward(&self) -> DVec3 {
        self.axes.x_axis
    }

    /// The frame's y axis in the destination.
    pub const fn left(&self) -> DVec3 {
        self.axes.y_axis
    }

    /// The frame's z axis in the destination.
    pub const fn up(&self) -> DVec3 {
        self.axes.z_axis
    }

    /// A direction, turned without being shifted.
    pub fn turned(&self, vector: DVec3) -> DVec3 {
        self.axes * vector
    }

    /// The way back.
    pub fn inverse(&self) -> Self {
        let axes = self.axes.transpose();
        Self { origin: -(axes * self.origin), axes }
    }
}

impl Mul<DVec3> for Pose {
    type Output = DVec3;

    fn mul(self, p: DVec3) -> DVec3 {
        self.origin + self.axes * p
    }
}

impl Mul for Pose {
    type Output = Self;

    fn mul(self, inner: Self) -> Self {
        Self { origin: self * inner.origin, axes: self.axes * inner.axes }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// references.md §8 (rotation check, computed with numpy and scipy 'ZYX'): yaw 2°, pitch -1°, roll 0.5°.
    #[test]
    fn iso_8855_rotation() {
        let sensor = Pose::new(
            DVec3::new(3.7, 0.1, 0.6),
            angle::radians(2.0),
            angle::radians(-1.0),
            angle::radians(0.5),
        );
        let rows = [
            [0.999238614955, -0.035050374104, -0.017136559077],
            [0.03489418134, 0.999347458119, -0.009330276538],
            [0.017452406437, 0.008725206405, 0.99980962402],
        ];
        for (r, row) in rows.iter().enumerate() {
            for (c, value) in row.iter().enumerate() {
                assert!((sensor.axes.col(c)[r] - value).abs() < 1e-11, "row {r} column {c}");
            }
        }
        let hit = sensor * DVec3::new(3.5, 0.0, 0.0);
        let expected = DVec3::new(7.197335152, 0.222129635, 0.661083423);
        assert!(hit.distance(expected) < 1e-8, "a negative pitch raises the nose: {hit}");
    }

    #[test]
    fn there_and_back() {
        let plan = PlanPose::new(DVec2::new(1200.0, -34.5), 2.1);
        let p = DVec2::new(-7.0, 4000.0);
        assert!((plan.inverse() * (plan * p)).distance(p) < 1e-9);
        let there = plan * plan.inverse();
        assert!(there.origin().length() < 1e-9 && there.heading().abs() < 1e-12);
        let pose = Pose::new(DVec3::new(1.0, 2.0, 3.0), 0.3, -0.2, 0.1);
        let q = DVec3::new(100.0, -50.0, 7.0);
        assert!((pose.inverse() * (pose * q)).distance(q) < 1e-9);
    }

    #[test]
    fn composition_applies_the_inner_first() {
        let outer = PlanPose::new(DVec2::new(10.0, 0.0), angle::radians(90.0));
        let inner = PlanPose::new(DVec2::new(5.0, 0.0), angle::radians(90.0));
        let p = DVec2::new(1.0, 2.0);
        assert!(((outer * inner) * p).distance(outer * (inner * p)) < 1e-12);
        assert_eq!(outer * DVec2::new(1.0, 0.0), DVec2::new(10.0, 1.0));
    }
}
