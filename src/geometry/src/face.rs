//! A flat rectangular target face in space: a board, a plate, a mat on the floor.

use glam::{DVec2, DVec3};

use crate::fault::ShapeFault;
use crate::frame::Pose;
use crate::tolerance::{REACH_MM, TOUCH_MM};

/// A rectangle in space that faces along its normal.
///
/// Its own coordinates are `u` to the left and `v` up, in millimetres from its middle, where left and up are those of
/// a frame whose x axis is the normal (somebody who looks *at* the face sees `u` grow to the right).
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    centre: DVec3,
    normal: DVec3,
    left: DVec3,
    up: DVec3,
    width: f64,
    height: f64,
}

impl Face {
    /// A face around `centre` whose outward normal, the side that a sensor looks at, has the plan heading `heading`
    /// (radians, anticlockwise) and is tipped down by `pitch` (radians; a mat on the floor has -π/2: normal up).
    /// `width` runs along the level axis, `height` along the other, both in millimetres.
    ///
    /// # Errors
    /// [`ShapeFault::OutOfReach`] if a figure is not a number or out of reach, [`ShapeFault::NoArea`] if width or
    /// height is not larger than [`TOUCH_MM`].
    pub fn new(centre: DVec3, heading: f64, pitch: f64, width: f64, height: f64) -> Result<Self, ShapeFault> {
        let figures = [centre.x, centre.y, centre.z, heading, pitch, width, height];
        if !figures.iter().all(|figure| figure.abs() <= REACH_MM) {
            return Err(ShapeFault::OutOfReach { ring: 0, corner: 0 });
        }
        if width <= TOUCH_MM || height <= TOUCH_MM {
            return Err(ShapeFault::NoArea { ring: 0 });
        }
        let own = Pose::new(centre, heading, pitch, 0.0);
        Ok(Self { centre, normal: own.forward(), left: own.left(), up: own.up(), width, height })
    }

    /// The same face, narrower by so much on either side, mm; `None` if nothing is left.
    pub fn narrowed(&self, by_mm: f64) -> Option<Self> {
        let width = self.width - 2.0 * by_mm;
        (width > TOUCH_MM).then(|| Self { width, ..self.clone() })
    }

    /// The middle.
    pub const fn centre(&self) -> DVec3 {
        self.centre
    }

    /// The unit vector out of the face, towards the side that a sensor looks at.
    pub const fn normal(&self) -> DVec3 {
        self.normal
    }

    /// The unit vector along the width, always level: to the left of somebody who looks along the normal.
    pub const fn left(&self) -> DVec3 {
        self.left
    }

    /// The unit vector along the height: up for an upright face.
    pub const fn up(&self) -> DVec3 {
        self.up
    }

    /// Its extent along [`Face::left`], always positive.
    pub const fn width(&self) -> f64 {
        self.width
    }

    /// Its extent along [`Face::up`], always positive.
    pub const fn height(&self) -> f64 {
        self.height
    }

    /// Its area, mm².
    pub fn area(&self) -> f64 {
        self.width * self.height
    }

    /// The four corners in space, anticlockwise as seen from in front, the one at low `u` and `v` first.
    pub fn corners(&self) -> [DVec3; 4] {
        self.own_ring().map(|p| self.point(p.x, p.y))
    }

    /// The four corners in the face's own coordinates, in the order of [`Face::corners`].
    pub fn own_ring(&self) -> [DVec2; 4] {
        let (u, v) = (0.5 * self.width, 0.5 * self.height);
        [DVec2::new(-u, -v), DVec2::new(u, -v), DVec2::new(u, v), DVec2::new(-u, v)]
    }

    /// The point of space at `u` along the width and `v` along the height from the middle.
    pub fn point(&self, u: f64, v: f64) -> DVec3 {
        self.centre + self.left * u + self.up * v
    }

    /// How far a point of space lies in front of the face's plane, mm; negative behind it.
    pub fn in_front(&self, p: DVec3) -> f64 {
        (p - self.centre).dot(self.normal)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::{FRAC_PI_2, PI};

    #[test]
    fn an_upright_board_ahead_of_the_car() {
        // Four metres ahead, facing back towards the car.
        let face = Face::new(DVec3::new(4000.0, 0.0, 600.0), PI, 0.0, 500.0, 300.0).unwrap();
        assert_eq!(face.normal(), DVec3::new(-1.0, 0.0, 0.0));
        assert_eq!(face.up(), DVec3::Z);
        assert_eq!(face.left(), DVec3::new(0.0, -1.0, 0.0));
        assert_eq!(face.corners()[0], DVec3::new(4000.0, 250.0, 450.0));
        assert_eq!(face.in_front(DVec3::ZERO), 4000.0);
        assert_eq!(face.area(), 150_000.0);
    }

    #[test]
    fn positive_pitch_tips_the_normal_down_and_a_mat_looks_up() {
        let tipped = Face::new(DVec3::ZERO, 0.0, 0.1, 1.0, 1.0).unwrap();
        assert!(tipped.normal().z < 0.0 && tipped.normal().x > 0.9);
        let mat = Face::new(DVec3::ZERO, 0.0, -FRAC_PI_2, 2.0, 1.0).unwrap();
        assert_eq!(mat.normal(), DVec3::Z);
        assert_eq!(mat.left(), DVec3::Y);
        assert!(mat.corners().iter().all(|corner| corner.z == 0.0));
    }

    #[test]
    fn axes_are_right_handed() {
        let face = Face::new(DVec3::new(1.0, 2.0, 3.0), 2.3, 0.4, 10.0, 20.0).unwrap();
        assert!(face.left().cross(face.up()).distance(face.normal()) < 1e-15);
    }

    #[test]
    fn a_face_without_area_or_number_is_refused() {
        for (width, height) in [(0.0, 1.0), (1.0, -1.0), (f64::NAN, 1.0), (1.0, f64::INFINITY)] {
            assert!(Face::new(DVec3::ZERO, 0.0, 0.0, width, height).is_err(), "{width} {height}");
        }
        assert!(Face::new(DVec3::splat(f64::NAN), 0.0, 0.0, 1.0, 1.0).is_err());
        assert!(Face::new(DVec3::ZERO, f64::INFINITY, 0.0, 1.0, 1.0).is_err());
        assert!(Face::new(DVec3::ZERO, 0.0, f64::NAN, 1.0, 1.0).is_err());
    }
}
