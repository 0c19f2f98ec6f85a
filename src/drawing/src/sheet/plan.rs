//! A view from above on a sheet, at the largest standard scale that fits.

use baywright_planner::Assessment;
use baywright_planner::geometry::{Bounds, DVec2, PlanPose, angle};
use baywright_planner::model::Arrangement;

use super::lines::READ_MM;
use super::scale::largest_scale;
use crate::lettering::Lettering;
use crate::list::{Drawing, PX_PER_PAPER_MM};
use crate::text::CAP_HEIGHT;
use crate::view::{Extents, Fit, ViewState, margin, top_view};

/// The letters of views on sheets: no text in them has lower capitals than what is read.
pub(super) fn in_views<'a>(lettering: &Lettering<'a>) -> Lettering<'a> {
    let least = READ_MM * PX_PER_PAPER_MM / CAP_HEIGHT * lettering.enlarged();
    Lettering { least_text: least, ..*lettering }
}

/// How a view from above lies on the paper, and at which scale.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Lies {
    /// How the view is asked for.
    pub state: ViewState,
    /// 1 : so many.
    pub one_to: f64,
    /// What is seen, in the view's own frame, mm.
    pub held: Bounds,
}

impl Lies {
    /// The size of its paper with room for what stands around it, px.
    pub fn size(&self, lettering: &Lettering<'_>) -> DVec2 {
        let (large, small) = around(lettering);
        self.held.size() * (PX_PER_PAPER_MM / self.one_to) + DVec2::splat(large + small)
    }

    /// The window of it.
    pub fn fit(&self, size: DVec2, lettering: &Lettering<'_>) -> Fit {
        let (large, small) = around(lettering);
        let px_per_mm = PX_PER_PAPER_MM / self.one_to;
        let middle = self.held.centre() - DVec2::splat(0.5 * (large - small) / px_per_mm);
        Fit::Window { size, px_per_mm, middle }
    }
}

/// What stands around a bay takes less on a sheet than on a screen, where names run on into it; the larger side and the smaller, px.
fn around(lettering: &Lettering<'_>) -> (f64, f64) {
    const SHARE: f64 = 0.72;
    let (large, small) = margin(lettering.enlarged());
    (large * SHARE, small * SHARE)
}

/// How the whole bay lies in a room of the paper, px: with the car's nose to the right or upwards, whichever lets it be drawn larger,
/// and takes less paper where both do alike.
pub(super) fn whole_bay(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    room: DVec2,
    lettering: &Lettering<'_>,
) -> Lies {
    let (large, small) = around(lettering);
    let room = (room - DVec2::splat(large + small)).max(DVec2::ONE) / PX_PER_PAPER_MM;
    let lies = |state: ViewState| {
        let held = Extents::of(arrangement, assessment, &state).top;
        Lies { one_to: largest_scale(held.size(), room), held, state }
    };
    let ahead = lies(ViewState { held: None, ..state.clone() });
    let upright =
        lies(ViewState { held: Some(nose_up(&assessment.scene.bay_from_vehicle)), ..state.clone() });
    let is_better = upright.one_to < ahead.one_to
        || (upright.one_to == ahead.one_to && upright.held.size().y < ahead.held.size().y);
    if is_better { upright } else { ahead }
}

/// The bay from a view in which the car's nose is up.
pub(super) fn nose_up(bay_from_vehicle: &PlanPose) -> PlanPose {
    let heading = angle::wrapped(bay_from_vehicle.heading() - std::f64::consts::FRAC_PI_2);
    PlanPose::new(bay_from_vehicle.origin(), heading)
}

/// The whole bay from above.
pub(super) fn plan(
    arrangement: &Arrangement,
    assessment: &Assessment,
    lies: &Lies,
    size: DVec2,
    lettering: &Lettering<'_>,
) -> Drawing {
    let own = in_views(lettering);
    top_view(arrangement, assessment, &lies.state, lies.fit(size, &own), &own)
}
