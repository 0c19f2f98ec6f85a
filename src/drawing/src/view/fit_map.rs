//! How many of a list each place of the room serves, as a shaded plan: the room with its things, no aiming of it.

use std::cell::Cell;

use baywright_planner::Assessment;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::matrix::FitMap;
use baywright_planner::model::Arrangement;

use super::Shown;
use super::state::{Turned, ViewState};
use super::told::{drawing, largest};
use super::top::fit_map;
use crate::lettering::Lettering;
use crate::list::{Drawing, PX_PER_PAPER_MM, Projection};
use crate::view::{Fit, TOLD_MARGIN_PX};

/// The map in a box so wide and so high, px, as the room lies. The car of the set-up is drawn where it stands if that is the place
/// that is told of (`has_car`).
pub fn fit_map_view(
    map: &FitMap,
    (arrangement, assessment): (&Arrangement, &Assessment),
    has_car: bool,
    (width, height): (f64, f64),
    lettering: &Lettering<'_>,
) -> Drawing {
    let fit = |held: Bounds| largest(held, DVec2::new(width, height));
    shaded(map, (arrangement, assessment), has_car, fit, lettering)
}

/// The same to a scale, which it gives too: a millimetre of the paper is so many of a room of this size, mm.
pub(crate) fn fit_map_to_scale(
    map: &FitMap,
    (arrangement, assessment): (&Arrangement, &Assessment),
    has_car: bool,
    scale: impl Fn(DVec2) -> f64,
    lettering: &Lettering<'_>,
) -> (Drawing, f64) {
    let used = Cell::new(1.0);
    let fit = |held: Bounds| {
        used.set(scale(held.size()));
        let px_per_mm = PX_PER_PAPER_MM / used.get();
        let size = held.size() * px_per_mm + DVec2::splat(2.0 * TOLD_MARGIN_PX);
        Fit::Window { size, px_per_mm, middle: held.centre() }
    };
    let drawing = shaded(map, (arrangement, assessment), has_car, fit, lettering);
    (drawing, used.get())
}

fn shaded(
    map: &FitMap,
    (arrangement, assessment): (&Arrangement, &Assessment),
    has_car: bool,
    fit: impl Fn(Bounds) -> Fit,
    lettering: &Lettering<'_>,
) -> Drawing {
    let state = ViewState { turned: Turned::ToRoom, ..ViewState::default() };
    let shown = Shown::new(arrangement, assessment, &state, lettering);
    let view_from_bay = shown.extents.bay_from_top.inverse();
    let corners = arrangement.bay.room.outer().iter().map(|&p| view_from_bay * p);
    let held = Bounds::around(corners).unwrap_or(Bounds { low: DVec2::ZERO, high: DVec2::ONE });
    let window = shown.window(Projection::Top, fit(held), DVec2::ZERO);
    let pen = fit_map::draw(&shown, window, map, has_car);
    drawing(pen, window.area.size(), window.placing, shown.extents.bay_from_top, window.area.low)
}
