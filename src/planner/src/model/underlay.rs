//! Where a picture under the plan lies, and how large it is.
//!
//! Pixels are those of the picture as its file has it, once turned upright: x to the right, y down, from its upper left
//! corner. A pixel's place is that of its own upper left corner.

use baywright_geometry::{DVec2, PlanPose};

use super::Underlay;
use super::validate::limits;

/// Why a scale cannot be had from two points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PictureScaleFault {
    /// The points are so near to each other that a slip of one pixel would count, or no points at all.
    TooNear {
        /// How far apart they are, pixels.
        apart_px: f64,
    },
    /// The distance is none that can be taped.
    NoDistance,
    /// A pixel would cover more or less than a layout can hold.
    OutOfLimits {
        /// How much it would cover, mm.
        mm_per_px: f64,
    },
}

impl PictureScaleFault {
    /// Nearer points are refused: pointing is good to a pixel, a tenth of this (common practice, no source).
    pub const LEAST_APART_PX: f64 = 10.0;
}

/// Between the pixels of a picture and the floor of the bay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PictureMap {
    /// Bay from the picture's own frame: origin in its lower left corner, x along its lower edge, y up, mm.
    bay_from_picture: PlanPose,
    mm_per_px: f64,
    height_px: f64,
}

impl PictureMap {
    /// The bay's place under a place of the picture.
    pub fn bay(&self, px: DVec2) -> DVec2 {
        self.bay_from_picture * (DVec2::new(px.x, self.height_px - px.y) * self.mm_per_px)
    }

    /// The picture's place over a place of the bay.
    pub fn px(&self, bay: DVec2) -> DVec2 {
        let up = self.bay_from_picture.inverse() * bay / self.mm_per_px;
        DVec2::new(up.x, self.height_px - up.y)
    }
}

impl Underlay {
    /// How much of the bay a pixel covers, mm, if two points of the picture are `distance` mm apart in the bay. The picture's
    /// lower left corner and turn stay as they are.
    ///
    /// # Errors
    /// Points that are too near to each other, a distance that is none, a scale that a layout cannot hold.
    pub fn scaled_by(points: [DVec2; 2], distance: f64) -> Result<f64, PictureScaleFault> {
        let [first, second] = points;
        let apart_px = first.distance(second);
        // Whatever is no number is refused too.
        if !(apart_px.is_finite() && apart_px >= PictureScaleFault::LEAST_APART_PX) {
            return Err(PictureScaleFault::TooNear { apart_px });
        }
        if !limits::DISTANCE.holds(distance) {
            return Err(PictureScaleFault::NoDistance);
        }
        let mm_per_px = distance / apart_px;
        if limits::MM_PER_PX.holds(mm_per_px) {
            Ok(mm_per_px)
        } else {
            Err(PictureScaleFault::OutOfLimits { mm_per_px })
        }
    }

    /// Where the pixels of the picture lie in the bay; `height_px` is the height of the picture as its file has it.
    pub fn bay_from_px(&self, height_px: f64) -> PictureMap {
        PictureMap {
            bay_from_picture: PlanPose::new(self.at, self.turned_rad),
            mm_per_px: self.mm_per_px,
            height_px,
        }
    }
}
