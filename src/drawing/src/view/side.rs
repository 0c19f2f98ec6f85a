//! The side view: x along the axis, y up from the floor, seen from the axis's right, or from its left where the paper lies as
//! the room lies and the axis runs against that. Everything stands exactly under itself in the top view turned the same way.

mod aiming;
mod car;
mod dimensions;
mod echo;
mod profile;
mod room;
mod things;

use std::collections::BTreeSet;

use baywright_planner::geometry::{Bounds, DVec2, DVec3, Outline, PlanPose};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::words::Words;
use baywright_planner::{Assessment, Scene};

use crate::finding::{blamed, pinned};
use crate::list::Projection;
use crate::view::Shown;
use crate::view::fit::{WALL_PX, Window};
use crate::view::pen::Pen;
use crate::view::state::ViewState;
use crate::view::top::emphasis;

/// What the parts of the side view are drawn from.
pub(crate) struct Side<'a> {
    pub arrangement: &'a Arrangement,
    pub assessment: &'a Assessment,
    pub scene: &'a Scene,
    pub state: &'a ViewState,
    pub words: &'a Words<'a>,
    pub bay_from_axis: PlanPose,
    pub axis_from_bay: PlanPose,
    /// Which way along the view ahead is: 1, or -1 where it is seen from the axis's left.
    pub ahead: f64,
    /// From the wall behind to the wall ahead, where the axis meets them, mm along the axis.
    pub room: (f64, f64),
    /// The things that findings are about.
    pub blamed: BTreeSet<&'a Id>,
}

impl Side<'_> {
    /// A place of the bay in the view.
    pub fn at(&self, p: DVec3) -> DVec2 {
        DVec2::new((self.axis_from_bay * p.truncate()).x, p.z)
    }

    /// From where to where an outline reaches along the axis.
    pub fn along(&self, outline: &Outline) -> (f64, f64) {
        let extent = self.extent(outline);
        (extent.low.x, extent.high.x)
    }

    /// The box around an outline in the axis's own directions: x along it, y to its left.
    pub fn extent(&self, outline: &Outline) -> Bounds {
        let middle = self.axis_from_bay * outline.bounds().centre();
        match outline {
            Outline::Polygon(polygon) => {
                Bounds::around(polygon.outer().iter().map(|&p| self.axis_from_bay * p))
            }
            Outline::Circle(circle) => {
                let (centre, r) = (self.axis_from_bay * circle.centre(), DVec2::splat(circle.radius()));
                Some(Bounds { low: centre - r, high: centre + r })
            }
        }
        .unwrap_or(Bounds { low: middle, high: middle })
    }
}

/// An upright rectangle as a ring.
pub(crate) fn rectangle(x: (f64, f64), y: (f64, f64)) -> Vec<DVec2> {
    vec![DVec2::new(x.0, y.0), DVec2::new(x.1, y.0), DVec2::new(x.1, y.1), DVec2::new(x.0, y.1)]
}

/// The underside of the floor as drawn, px: names stand over the floor or under it, never across.
pub(crate) fn under_floor(pen: &Pen<'_>) -> f64 {
    pen.px(DVec2::ZERO).y + WALL_PX
}

/// Draws the side view into a window.
pub(crate) fn draw<'a>(shown: &Shown<'a>, window: Window) -> Pen<'a> {
    let Shown { arrangement, assessment, state, ref words, ref extents, .. } = *shown;
    let mut pen = Pen::new(shown.lettering, window);
    let bay_from_axis = extents.bay_from_side;
    let side = Side {
        arrangement,
        assessment,
        scene: &assessment.scene,
        state,
        words,
        bay_from_axis,
        axis_from_bay: bay_from_axis.inverse(),
        ahead: if extents.from_left { -1.0 } else { 1.0 },
        room: room::between_walls(&assessment.scene, &bay_from_axis).unwrap_or(extents.side),
        blamed: blamed(assessment),
    };
    let in_view = things::shown(&side);
    room::draw(&mut pen, &side, &in_view);
    aiming::zones(&mut pen, &side);
    car::draw(&mut pen, &side);
    let drawn = things::draw(&mut pen, &side, in_view);
    aiming::draw(&mut pen, &side);
    profile::line(&mut pen, &side);
    echo::draw(&mut pen, &side);
    for told in pinned(assessment).map(|told| state.numbered(told)) {
        pen.keep_tip(&told, side.at(told.finding.place));
    }
    pen.keep_to(shown.earlier, Projection::Side);
    for told in pinned(assessment).map(|told| state.numbered(told)) {
        pen.keep_flag(&told, side.at(told.finding.place));
    }
    // From here on places are searched for.
    dimensions::heights(&mut pen, &side);
    things::overlaps(&mut pen, &side, &drawn);
    for told in pinned(assessment).map(|told| state.numbered(told)) {
        pen.flag(&told, side.at(told.finding.place));
    }
    things::names(&mut pen, &side, &drawn, true);
    aiming::names(&mut pen, &side);
    things::names(&mut pen, &side, &drawn, false);
    room::names(&mut pen, &side);
    profile::figures(&mut pen, &side);
    emphasis(&mut pen.items, state);
    pen
}
