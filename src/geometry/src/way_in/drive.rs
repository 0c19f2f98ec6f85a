//! How a car moves: along one arc or straight at a time.

use glam::DVec2;

use crate::angle;
use crate::frame::PlanPose;

/// One piece of a way: the steering held, so far.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// One over the radius that the middle of the rear axle runs on, 1/mm: positive to the left, 0 straight.
    pub curvature: f64,
    /// How far the middle of the rear axle runs, mm: positive forwards, negative backwards.
    pub length: f64,
}

impl Piece {
    /// By how much the car turns, radians, anticlockwise.
    pub fn turn(&self) -> f64 {
        self.curvature * self.length
    }

    /// Whether it is driven forwards.
    pub fn is_forwards(&self) -> bool {
        self.length >= 0.0
    }

    /// One of several equal parts of it.
    pub(super) fn part(&self, of: f64) -> Self {
        Self { length: self.length / of, ..*self }
    }

    /// The same in a mirror.
    pub(super) fn mirrored(&self) -> Self {
        Self { curvature: -self.curvature, ..*self }
    }

    /// What the car turns about, in the frame of the rear axle; `None` on a straight.
    pub(super) fn centre(&self) -> Option<DVec2> {
        (self.curvature != 0.0).then(|| DVec2::new(0.0, 1.0 / self.curvature))
    }

    /// Where the frame of the rear axle is after it.
    pub fn end(&self, from: &PlanPose) -> PlanPose {
        match self.centre() {
            None => from.shifted(from.forward() * self.length),
            Some(centre) => {
                let about = *from * centre;
                let turn = angle::direction(self.turn());
                PlanPose::new(about + turn.rotate(from.origin() - about), from.heading() + self.turn())
            }
        }
    }

    /// How far any of some points of the rear axle's frame moves at most, mm.
    pub(super) fn travel(&self, points: &[DVec2]) -> f64 {
        match self.centre() {
            None => self.length.abs(),
            Some(centre) => {
                let far = points.iter().map(|p| p.distance(centre)).fold(0.0, f64::max);
                far * self.turn().abs()
            }
        }
    }
}

/// How often a way changes between forwards and backwards.
pub(super) fn changes(pieces: impl Iterator<Item = Piece>) -> usize {
    let mut before = None;
    let mut changes = 0;
    for piece in pieces.filter(|piece| piece.length != 0.0) {
        changes += usize::from(before.is_some_and(|forwards| forwards != piece.is_forwards()));
        before = Some(piece.is_forwards());
    }
    changes
}
