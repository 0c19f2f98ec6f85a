//! The doors to the views: what is seen from above or from the side, as a drawing list in a window of its own.

mod alike;
mod bodies;
mod boxes;
mod contours;
mod extents;
mod fit;
mod fit_map;
mod flag;
mod floor;
mod from_sensor;
mod keep;
mod label;
mod laid;
mod pen;
mod shade;
mod side;
mod space;
mod state;
mod steady;
mod told;
mod top;
mod trade;
mod zone;

use baywright_planner::Assessment;
use baywright_planner::geometry::DVec2;
use baywright_planner::model::Arrangement;
use baywright_planner::words::Words;

use crate::lettering::Lettering;
use crate::list::{Drawing, Placing, Projection};

pub(crate) use contours::interval as contour_interval;
pub use extents::Extents;
use fit::Window;
pub(crate) use fit::margin;
pub use fit::{Fit, Windows};
pub(crate) use fit_map::fit_map_to_scale;
pub use fit_map::fit_map_view;
pub use floor::Datum;
pub(crate) use floor::{Planned, Shell};
pub use from_sensor::{LookedAt, on_top, sensor_view};
pub(crate) use laid::{Laid, Running, laid_view, told_beside, worked_on};
use pen::Pen;
pub use state::{Axis, FloorLevel, LiveDimension, Turned, ViewState};
pub use told::told_view;
pub(crate) use told::{TOLD_MARGIN_PX, told_to_scale};
pub(crate) use top::floor::wall_to_wall;
pub use trade::Trade;

/// The top view of an assessed arrangement.
pub fn top_view(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    fit: Fit,
    lettering: &Lettering<'_>,
) -> Drawing {
    view_after(&[], Projection::Top, arrangement, assessment, state, fit, lettering)
}

/// The side view of an assessed arrangement.
pub fn side_view(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    fit: Fit,
    lettering: &Lettering<'_>,
) -> Drawing {
    view_after(&[], Projection::Side, arrangement, assessment, state, fit, lettering)
}

/// A view as it is drawn while something is in hand: nothing jumps. What is written keeps its place beside what it names where
/// earlier drawings of the same view have it; the first of them rather. With none of them it is drawn as ever.
pub fn view_after(
    earlier: &[&Drawing],
    projection: Projection,
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    fit: Fit,
    lettering: &Lettering<'_>,
) -> Drawing {
    let shown = Shown::new(arrangement, assessment, state, lettering);
    Shown { earlier, ..shown }.view(projection, fit)
}

/// What is shown: all that views are drawn from but their windows.
pub(crate) struct Shown<'a> {
    pub arrangement: &'a Arrangement,
    pub assessment: &'a Assessment,
    pub state: &'a ViewState,
    pub lettering: &'a Lettering<'a>,
    pub words: Words<'a>,
    pub extents: Extents,
    /// Earlier drawings whose places are kept to.
    pub earlier: &'a [&'a Drawing],
}

impl<'a> Shown<'a> {
    pub fn new(
        arrangement: &'a Arrangement,
        assessment: &'a Assessment,
        state: &'a ViewState,
        lettering: &'a Lettering<'a>,
    ) -> Self {
        let words = Words::new(arrangement, lettering.locale);
        let extents = Extents::of(arrangement, assessment, state);
        Self { arrangement, assessment, state, lettering, words, extents, earlier: &[] }
    }

    /// The window of a view, its upper left corner at a place of the paper, px.
    pub fn window(&self, projection: Projection, fit: Fit, corner: DVec2) -> Window {
        self.extents.window(projection, fit, corner, self.lettering)
    }

    fn view(&self, projection: Projection, fit: Fit) -> Drawing {
        self.drawing(projection, self.window(projection, fit, DVec2::ZERO))
    }

    /// A view, drawn in a window.
    pub fn drawing(&self, projection: Projection, window: Window) -> Drawing {
        let (pen, bay_from_view) = match projection {
            Projection::Top => (top::draw(self, window), self.extents.bay_from_top),
            Projection::Side => (side::draw(self, window), self.extents.bay_from_side),
        };
        let Pen { mut items, kept, .. } = pen;
        // Stable: items of one layer keep the order in which they were drawn.
        items.sort_by_key(|item| item.role.layer());
        let Window { area, placing: Placing { origin, px_per_mm } } = window;
        let (size, origin) = (area.size(), origin - area.low);
        let mut drawing = Drawing { projection, size, px_per_mm, origin, bay_from_view, items };
        drawing.keep_places(&kept);
        drawing
    }
}
