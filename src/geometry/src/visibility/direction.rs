//! Directions about the eye, in exact order.

use std::cmp::Ordering;

use glam::DVec2;

use crate::predicate;

/// Index of a direction.
pub(super) type Spot = u32;

/// The direction along x, in which the circle starts.
pub(super) const START: Spot = 0;

/// The same direction, in which the circle ends.
pub(super) const END: Spot = 1;

/// Two keys nearer than this may be in the wrong order; further apart they are right. A key is made of a difference, a
/// sum, a quotient and another sum, each good to half a unit in the last place of a number below 4: 2e-15 together.
const SURE: f64 = 1e-14;

/// Directions from the eye, each through a point.
pub(super) struct Directions {
    eye: DVec2,
    points: Vec<Point>,
}

#[derive(Clone, Copy)]
struct Point {
    /// Where the point is.
    at: DVec2,
    /// The same, from the eye.
    off: DVec2,
}

impl Directions {
    pub(super) fn new(eye: DVec2) -> Self {
        // Any point straight along x will do.
        let point = Point { at: eye + DVec2::X, off: DVec2::X };
        Self { eye, points: vec![point, point] }
    }

    pub(super) const fn eye(&self) -> DVec2 {
        self.eye
    }

    pub(super) fn reserve(&mut self, more: usize) {
        self.points.reserve(more);
    }

    /// Adds the direction towards a point.
    pub(super) fn add(&mut self, at: DVec2) -> Spot {
        self.points.push(Point { at, off: at - self.eye });
        (self.points.len() - 1) as Spot
    }

    /// Adds a direction by a vector from the eye.
    pub(super) fn add_off(&mut self, off: DVec2) -> Spot {
        self.points.push(Point { at: self.eye + off, off });
        (self.points.len() - 1) as Spot
    }

    fn point(&self, spot: Spot) -> Point {
        self.points.get(spot as usize).copied().unwrap_or(Point { at: self.eye, off: DVec2::X })
    }

    /// The point through which the direction was given.
    pub(super) fn at(&self, spot: Spot) -> DVec2 {
        self.point(spot).at
    }

    /// The same, from the eye.
    pub(super) fn off(&self, spot: Spot) -> DVec2 {
        self.point(spot).off
    }

    /// A number from 0 to 4 that grows with the angle from x, and costs no arctangent.
    pub(super) fn key(&self, spot: Spot) -> f64 {
        if spot == END {
            return 4.0;
        }
        let off = self.off(spot);
        let share = off.x / (off.x.abs() + off.y.abs());
        if off.y >= 0.0 { 1.0 - share } else { 3.0 + share }
    }

    /// The exact order of two directions with their keys. Neighbours of the circle's cut are never compared across it.
    pub(super) fn order(&self, a: Spot, a_key: f64, b: Spot, b_key: f64) -> Ordering {
        if a_key + SURE < b_key {
            Ordering::Less
        } else if a_key > b_key + SURE {
            Ordering::Greater
        } else if a == b {
            Ordering::Equal
        } else {
            predicate::side(self.eye, self.at(b), self.at(a))
        }
    }
}
