//! How the view of what is worked on lies on a mark sheet, and how its running dimensions stand along its edges.

use baywright_planner::geometry::DVec2;
use baywright_planner::words::Units;

use super::lines::WORK_MM;
use super::of::Of;
use super::plan::{Lies, nose_up};
use super::scale::largest_scale;
use crate::lettering::{Lettering, size};
use crate::list::PX_PER_PAPER_MM;
use crate::text::CAP_HEIGHT;
use crate::view::{Fit, ViewState, worked_on};

/// The strips along the left and the lower edge in which the running dimensions stand, px before they are enlarged.
const BESIDE_PX: f64 = 82.0;
/// The same where a figure is in feet, inches and sixteenths.
const BESIDE_FEET_PX: f64 = 145.0;
const BELOW_PX: f64 = 40.0;

/// How the view lies.
pub(super) struct Working<'a> {
    /// Its letters: what is read while working.
    pub lettering: Lettering<'a>,
    pub lies: Lies,
    pub fit: Fit,
}

/// The view of what is worked on in a room of the paper, px, at the largest standard scale that leaves room for its strips.
pub(super) fn working<'a>(of: &Of<'_>, room: DVec2, lettering: &Lettering<'a>) -> Working<'a> {
    // Numbers of marks and dimensions have the size of labels.
    let least = WORK_MM * PX_PER_PAPER_MM / CAP_HEIGHT * Lettering::LEAST_TEXT / size::LABEL;
    let own = Lettering { least_text: least * lettering.enlarged(), ..*lettering };
    let by = lettering.enlarged();
    let beside = if lettering.locale.units == Units::FeetInches { BESIDE_FEET_PX } else { BESIDE_PX };
    let inner = (room - DVec2::new(beside, BELOW_PX) * by).max(DVec2::ONE);
    let lies = |state: ViewState| {
        // With what is to be moved, unless all would have to be drawn smaller for it.
        let [own, more] = worked_on(of.now.arrangement, of.now.assessment, &state);
        let [one_to, smaller] = [own, more].map(|held| largest_scale(held.size(), inner / PX_PER_PAPER_MM));
        Lies { one_to, held: if smaller == one_to { more } else { own }, state }
    };
    let ahead = lies(ViewState { held: None, ..of.state.clone() });
    let upright = nose_up(&of.now.assessment.scene.bay_from_vehicle);
    let upright = lies(ViewState { held: Some(upright), ..of.state.clone() });
    let lies = if upright.one_to < ahead.one_to { upright } else { ahead };
    let px_per_mm = PX_PER_PAPER_MM / lies.one_to;
    // All the width there is, so that walls and doors are seen beside it; no higher than it needs.
    let size = DVec2::new(inner.x, (lies.held.size().y * px_per_mm).min(inner.y));
    let fit = Fit::Window { size, px_per_mm, middle: lies.held.centre() };
    Working { lettering: own, lies, fit }
}
