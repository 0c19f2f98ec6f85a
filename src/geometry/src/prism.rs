//! Upright prisms: a plan outline standing over a height range.

use glam::DVec2;

use crate::fault::ShapeFault;
use crate::frame::PlanPose;
use crate::outline::Outline;
use crate::tolerance::{REACH_MM, TOUCH_MM};

/// A range of heights, mm, `bottom < top`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    bottom: f64,
    top: f64,
}

impl Span {
    /// Every height there is: for what is asked in plan only.
    pub(crate) const EVERY: Self = Self { bottom: -REACH_MM, top: REACH_MM };

    /// From `bottom` up to `top`.
    ///
    /// # Errors
    /// If the top is not above the bottom, or either is not a number or out of reach.
    pub fn new(bottom: f64, top: f64) -> Result<Self, ShapeFault> {
        if bottom < top && bottom.abs() <= REACH_MM && top.abs() <= REACH_MM {
            Ok(Self { bottom, top })
        } else {
            Err(ShapeFault::NoHeight { bottom, top })
        }
    }

    /// The lower end.
    pub const fn bottom(&self) -> f64 {
        self.bottom
    }

    /// The upper end, above the lower.
    pub const fn top(&self) -> f64 {
        self.top
    }

    /// How high it is.
    pub fn height(&self) -> f64 {
        self.top - self.bottom
    }

    /// Raised by `by`.
    pub fn raised(&self, by: f64) -> Self {
        Self { bottom: self.bottom + by, top: self.top + by }
    }

    /// The heights that both have; `None` if they are apart or only touch.
    pub fn shared(&self, other: &Self) -> Option<Self> {
        let bottom = self.bottom.max(other.bottom);
        let top = self.top.min(other.top);
        (top - bottom > TOUCH_MM).then_some(Self { bottom, top })
    }
}

/// Everything above an outline between two heights. It is never empty.
#[derive(Clone, Debug, PartialEq)]
pub struct Prism {
    /// Its shape from above.
    pub outline: Outline,
    /// Its heights.
    pub span: Span,
}

impl Prism {
    /// An outline over a height range.
    pub const fn new(outline: Outline, span: Span) -> Self {
        Self { outline, span }
    }

    /// The same prism elsewhere in plan; heights stay.
    pub fn placed(&self, to_from_own: &PlanPose) -> Self {
        Self { outline: self.outline.placed(to_from_own), span: self.span }
    }

    /// The same prism moved in plan.
    pub fn moved(&self, by: DVec2) -> Self {
        Self { outline: self.outline.moved(by), span: self.span }
    }
}
