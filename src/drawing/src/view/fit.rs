//! At which scale a view is drawn, and in how large a window.

use baywright_planner::geometry::{Bounds, DVec2};

use super::extents::Extents;
use crate::lettering::Lettering;
use crate::list::{PX_PER_PAPER_MM, Placing, Projection};

/// Thickness of a wall as drawn, px. It says nothing of the real wall.
pub(crate) const WALL_PX: f64 = 11.0;
/// Left of and below the room: walls, their names, the overall dimensions. Above and right of it: dimensions only
/// where the set-up reaches out of the room on the other side.
const MARGIN_PX: f64 = 62.0;
const SMALL_MARGIN_PX: f64 = 46.0;
/// Above the side view: the ceiling.
const SIDE_TOP_PX: f64 = 20.0;
/// Below it: the floor and, under it, what the axis is.
const SIDE_BOTTOM_PX: f64 = 34.0;
/// A drawing never shrinks below this many px for each mm: a bay of ten kilometres on a metre of paper.
const LEAST_SCALE: f64 = 1e-5;
/// Nor does it grow beyond this many: a millimetre as wide as a thumb.
const MOST_SCALE: f64 = 100.0;

/// At which scale a view is drawn, and in how large a window.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fit {
    /// All of it, as large as fits into a box: a window as wide as the box and as high as the drawing needs. px.
    Whole {
        /// Width of the box.
        width: f64,
        /// Its height.
        most_height: f64,
    },
    /// A window that the hand moves and zooms.
    Window {
        /// Its size, px.
        size: DVec2,
        /// px for each mm.
        px_per_mm: f64,
        /// What lies in its middle, mm in the view's own frame.
        middle: DVec2,
    },
    /// All of it at a true scale, in a window as large as that needs: a millimetre of the paper is so many of the bay.
    True {
        /// How many: 50 for 1 : 50.
        one_to: f64,
    },
}

impl Fit {
    /// A picture that stands alone, `width` px wide.
    pub const fn picture(width: f64) -> Self {
        Self::Whole { width, most_height: width * 0.8 }
    }
}

/// The window of one view: all of the paper that it knows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Window {
    /// Its area on the paper, px, y down.
    pub area: Bounds,
    /// How the view lies on the paper.
    pub placing: Placing,
}

impl Extents {
    /// The window of a view, its upper left corner at a place of the paper, px.
    ///
    /// Names and flags search for their places in px of the paper: moved there afterwards, sums would round otherwise, and
    /// now and then a name would find another place than in a window of the same size elsewhere.
    pub(crate) fn window(
        &self,
        projection: Projection,
        fit: Fit,
        corner: DVec2,
        lettering: &Lettering<'_>,
    ) -> Window {
        let enlarged = lettering.enlarged();
        let (large, small) = margin(enlarged);
        // The wider of the two views decides, so that both have one scale and one width.
        let across = self.top.size().x.max(self.side.1 - self.side.0);
        let (px_per_mm, width) = match fit {
            Fit::Window { size, px_per_mm, middle } => {
                let area = Bounds { low: corner, high: corner + size.max(DVec2::ONE) };
                let px_per_mm = bounded(px_per_mm);
                let origin = area.centre() - flipped(middle) * px_per_mm;
                return Window { area, placing: Placing { origin, px_per_mm } };
            }
            Fit::Whole { width, most_height } => {
                let room = DVec2::new(width, most_height) - large - small;
                (bounded((room.x / across).min(room.y / self.top.size().y)), width)
            }
            Fit::True { one_to } => {
                let px_per_mm = bounded(PX_PER_PAPER_MM / one_to);
                (px_per_mm, across * px_per_mm + large + small)
            }
        };
        match projection {
            // The middle of what is held lies in the middle between unequal margins.
            Projection::Top => {
                let size = DVec2::new(width, self.top.size().y * px_per_mm + large + small);
                let area = Bounds { low: corner, high: corner + size };
                let shift = 0.5 * (large - small);
                let middle = area.centre() + DVec2::new(shift, -shift);
                let origin = middle - flipped(self.top.centre()) * px_per_mm;
                Window { area, placing: Placing { origin, px_per_mm } }
            }
            Projection::Side => {
                let floor = corner.y + SIDE_TOP_PX * enlarged + self.height * px_per_mm;
                let high = DVec2::new(corner.x + width, floor + SIDE_BOTTOM_PX * enlarged);
                let middle = 0.5 * (self.side.0 + self.side.1);
                let x = corner.x + 0.5 * (width + large - small) - middle * px_per_mm;
                let origin = DVec2::new(x, floor);
                Window { area: Bounds { low: corner, high }, placing: Placing { origin, px_per_mm } }
            }
        }
    }
}

/// How both views lie in one area of a screen, the top view over the side view.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Windows {
    /// px for each mm, in both views.
    pub px_per_mm: f64,
    /// Height of the top view's window, px.
    pub top_height: f64,
    /// Height of the side view's window, px.
    pub side_height: f64,
    /// What lies in the middle of the top view, its own frame, mm.
    pub top_middle: DVec2,
    /// What lies in the middle of the side view: along its axis and above the floor, mm.
    pub side_middle: DVec2,
}

impl Extents {
    /// The windows in which all of both views is seen as large as can be. `area` is what there is for both, px, titles
    /// and gaps already taken off; `narrow` says that margins may be smaller. Where only one view stands in the area, `alone`
    /// says which: it has all of it, and so has the other, unseen.
    pub fn windows(
        &self,
        area: DVec2,
        narrow: bool,
        alone: Option<Projection>,
        lettering: &Lettering<'_>,
    ) -> Windows {
        let enlarged = lettering.enlarged();
        let (large, small) = margin(enlarged);
        let (large, small) = if narrow { (large * NARROW, small * NARROW) } else { (large, small) };
        let upright = (SIDE_TOP_PX + SIDE_BOTTOM_PX) * enlarged;
        let top = self.top.size();
        let along = self.side.1 - self.side.0;
        let (across, high, margins) = match alone {
            None => (top.x.max(along), top.y + self.height, large + small + upright),
            Some(Projection::Top) => (top.x, top.y, large + small),
            Some(Projection::Side) => (along, self.height, upright),
        };
        let px = bounded(((area.x - large - small) / across).min((area.y - margins) / high));
        // What is left over is shared as the views share the rest.
        let (top_needs, side_needs) = (top.y * px + large + small, self.height * px + upright);
        let share = top_needs / (top_needs + side_needs);
        let top_height = (area.y * share).clamp(0.0, area.y.max(0.0));
        let (top_height, side_height) = match alone {
            None => (top_height, (area.y - top_height).max(0.0)),
            Some(_) => (area.y.max(0.0), area.y.max(0.0)),
        };
        let shift = 0.5 * (large - small) / px;
        let middle_x = if self.one_axis() { self.top.centre().x } else { 0.5 * (self.side.0 + self.side.1) };
        let lift = 0.5 * (SIDE_TOP_PX - SIDE_BOTTOM_PX) * enlarged / px;
        Windows {
            px_per_mm: px,
            top_height,
            side_height,
            top_middle: self.top.centre() - DVec2::splat(shift),
            side_middle: DVec2::new(middle_x - shift, self.height * 0.5 + lift),
        }
    }
}

/// Margins shrink to this share where there is little room.
const NARROW: f64 = 0.72;

/// The larger margin and the smaller one, px.
pub(crate) fn margin(enlarged: f64) -> (f64, f64) {
    let grown = |px: f64| WALL_PX + (px - WALL_PX) * enlarged;
    (grown(MARGIN_PX), grown(SMALL_MARGIN_PX))
}

/// A scale that can be drawn.
fn bounded(px_per_mm: f64) -> f64 {
    if px_per_mm.is_finite() { px_per_mm.clamp(LEAST_SCALE, MOST_SCALE) } else { LEAST_SCALE }
}

/// Upside down: on paper y runs down.
fn flipped(p: DVec2) -> DVec2 {
    DVec2::new(p.x, -p.y)
}
