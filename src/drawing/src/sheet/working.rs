//! How the view of what is worked on lies on a mark sheet, and how its running dimensions stand along its edges.

use baywright_planner::geometry::DVec2;
use baywright_planner::words::Words;

use super::flow::px;
use super::frame::Sheeted;
use super::lines::WORK_MM;
use super::of::Of;
use super::plan::{Lies, nose_up};
use super::scale::largest_scale;
use crate::lettering::{Lettering, size};
use crate::list::PX_PER_PAPER_MM;
use crate::text::{CAP_HEIGHT, TextStyle, Weight};
use crate::view::{Fit, ViewState, told_beside, worked_on};

/// Beside the figures along the left edge: their line, their ticks and what leads to them, mm.
const BESIDE_MM: f64 = 7.0;
/// The strip along the lower edge, px before it is enlarged.
const BELOW_PX: f64 = 40.0;

/// How the view lies.
pub(super) struct Working<'a> {
    /// Its letters: what is read while working.
    pub lettering: Lettering<'a>,
    pub lies: Lies,
    pub fit: Fit,
}

/// The view of what is worked on in a room of the paper, px, at the largest standard scale that leaves room for its strips; with
/// what is to be moved first if that is wished, unless all would have to be drawn smaller for it.
pub(super) fn working<'a>(of: &Of<'_>, room: DVec2, on: &Sheeted<'a>, with_moved: bool) -> Working<'a> {
    let lettering = on.lettering;
    // Numbers of marks and dimensions have the size of labels.
    let least = WORK_MM * PX_PER_PAPER_MM / CAP_HEIGHT * Lettering::LEAST_TEXT / size::LABEL;
    let own = Lettering { least_text: least * lettering.enlarged(), ..*lettering };
    let lies = |state: ViewState| {
        let beside = px(BESIDE_MM) + widest_beside(of, &state, on.words, &own);
        let inner = (room - DVec2::new(beside, BELOW_PX * own.enlarged())).max(DVec2::ONE);
        let [alone, more] = worked_on(of.now.arrangement, of.now.assessment, &state);
        let [one_to, smaller] = [alone, more].map(|held| largest_scale(held.size(), inner / PX_PER_PAPER_MM));
        let held = if with_moved && smaller == one_to { more } else { alone };
        (Lies { one_to, held, state }, inner)
    };
    let ahead = lies(ViewState { held: None, ..of.state.clone() });
    let upright = nose_up(&of.now.assessment.scene.bay_from_vehicle);
    let upright = lies(ViewState { held: Some(upright), ..of.state.clone() });
    let (lies, inner) = if upright.0.one_to < ahead.0.one_to { upright } else { ahead };
    let px_per_mm = PX_PER_PAPER_MM / lies.one_to;
    // All the width there is, so that walls and doors are seen beside it; no higher than it needs.
    let size = DVec2::new(inner.x, (lies.held.size().y * px_per_mm).min(inner.y));
    let fit = Fit::Window { size, px_per_mm, middle: lies.held.centre() };
    Working { lettering: own, lies, fit }
}

/// How wide the widest figure along the left edge is, px.
fn widest_beside(of: &Of<'_>, state: &ViewState, words: &Words<'_>, lettering: &Lettering<'_>) -> f64 {
    let style = figures(lettering);
    let told = told_beside(of.now.arrangement, of.now.assessment, state);
    told.map(|mm| lettering.width_of(&words.dimension(mm), style)).fold(0.0, f64::max)
}

/// How running figures are written.
pub(super) fn figures(lettering: &Lettering<'_>) -> TextStyle {
    lettering.style(size::LABEL, Weight::SemiBold)
}
