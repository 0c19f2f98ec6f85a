//! The room from above for who paints, pours or wires: as its walls lie, with running dimensions along its sides and what the
//! trade is about.

mod chain;
mod datum;

use baywright_planner::geometry::{Bounds, DVec2, PlanPose};
use baywright_planner::model::Arrangement;
use baywright_planner::{Assessment, assess};

use super::state::{FloorLevel, ViewState};
use super::top::floor;
use super::trade::Trade;
use super::{Fit, Shown};
use crate::lettering::Lettering;
use crate::list::{Drawing, PX_PER_PAPER_MM, Placing, Projection};
use chain::Chains;

pub use datum::Datum;

/// What a floor plan is of: the set-up with only what the trade is shown, nothing found of it.
#[derive(Clone, Debug)]
pub(crate) struct Shell {
    pub trade: Trade,
    pub arrangement: Arrangement,
    pub assessment: Assessment,
    pub datum: Datum,
}

impl Shell {
    pub fn of(arrangement: &Arrangement, trade: Trade) -> Self {
        let mut own = arrangement.clone();
        own.bay.things.retain(|thing| trade.shows(thing));
        own.bay.keep_free.retain(|keep| trade.shows_free(keep.kind));
        let assessment = Assessment { findings: Vec::new(), promise: None, ..assess(&own) };
        let datum = Datum::of(&own.bay);
        Self { trade, arrangement: own, assessment, datum }
    }
}

/// How a floor plan lies on its paper.
#[derive(Clone, Debug)]
pub(crate) struct Planned {
    /// 1 : so many.
    pub one_to: f64,
    /// Its size with all that stands around it, px.
    pub size: DVec2,
    bay_from_view: PlanPose,
    held: Bounds,
    chains: Chains,
}

impl Planned {
    /// How many figures have no room beside it.
    pub const fn left_out(&self) -> usize {
        self.chains.left_out
    }

    /// At the largest scale at which all of it fits into a room of the paper, px: the first wall of the two that all is measured
    /// from along the foot, or upright at the left where it can be drawn larger so. `scale` gives the largest standard scale for a
    /// size in a room, both mm.
    pub fn of(
        shell: &Shell,
        room: DVec2,
        lettering: &Lettering<'_>,
        scale: impl Fn(DVec2, DVec2) -> f64,
    ) -> Self {
        let level = Self::turned(shell, shell.datum.pose, room, lettering, &scale);
        let quarter = PlanPose::new(DVec2::ZERO, std::f64::consts::FRAC_PI_2);
        let upright = Self::turned(shell, shell.datum.pose * quarter, room, lettering, &scale);
        if upright.one_to < level.one_to { upright } else { level }
    }

    fn turned(
        shell: &Shell,
        bay_from_view: PlanPose,
        room: DVec2,
        lettering: &Lettering<'_>,
        scale: &impl Fn(DVec2, DVec2) -> f64,
    ) -> Self {
        let view_from_bay = bay_from_view.inverse();
        let corners = shell.arrangement.bay.room.outer().iter().map(|&p| view_from_bay * p);
        let held = Bounds::around(corners).unwrap_or(Bounds { low: DVec2::ZERO, high: DVec2::ONE });
        let at = |one_to: f64| {
            let chains = Chains::of(shell, &bay_from_view, PX_PER_PAPER_MM / one_to, lettering);
            let size = held.size() * (PX_PER_PAPER_MM / one_to) + chains.around();
            Self { one_to, size, bay_from_view, held, chains }
        };
        let mut own = at(scale(held.size(), room / PX_PER_PAPER_MM));
        // At a smaller scale more figures stand in each other's way, so that more rows of them are needed. Each turn is at a
        // smaller scale, of which there are few.
        loop {
            let inner = ((room - own.chains.around()).max(DVec2::ONE)) / PX_PER_PAPER_MM;
            let one_to = scale(held.size(), inner);
            if one_to <= own.one_to {
                return own;
            }
            own = at(one_to);
        }
    }

    /// The plan, drawn. `level` says what stands beside a surveyed point: its number, its level.
    pub fn drawing(
        &self,
        shell: &Shell,
        lettering: &Lettering<'_>,
        level: impl Fn(usize, f64) -> String,
    ) -> Drawing {
        let points = shell.arrangement.bay.survey.iter().flat_map(|own| own.points.iter());
        let levels = points.zip(1..).map(|(own, n)| FloorLevel { at: own.at, text: level(n, own.level_mm) });
        let levels = if shell.trade == Trade::Concrete { levels.collect() } else { Vec::new() };
        let contours = shell.trade == Trade::Concrete;
        let state = ViewState { held: Some(self.bay_from_view), levels, contours, ..ViewState::default() };
        let shown = Shown::new(&shell.arrangement, &shell.assessment, &state, lettering);
        let px_per_mm = PX_PER_PAPER_MM / self.one_to;
        let fit = Fit::Window {
            size: self.size,
            px_per_mm,
            middle: self.held.centre() + self.chains.off_middle() / px_per_mm,
        };
        let window = shown.window(Projection::Top, fit, DVec2::ZERO);
        let pen = floor::draw(&shown, window, shell.trade, |pen| self.chains.draw(pen, &self.held));
        let mut items = pen.items;
        // Stable: items of one layer keep the order in which they were drawn.
        items.sort_by_key(|item| item.role.layer());
        let Placing { origin, px_per_mm } = window.placing;
        let (size, bay_from_view) = (self.size, self.bay_from_view);
        Drawing { projection: Projection::Top, size, px_per_mm, origin, bay_from_view, items }
    }
}
