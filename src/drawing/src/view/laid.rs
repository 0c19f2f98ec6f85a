//! What marks are laid by: the view from above with their numbers, and running dimensions from one origin along its edges.
//!
//! Running, because a chain of rounded distances adds up to what nobody tapes: ISO 129-1 (from memory) calls it superimposed running
//! dimensioning. Along the car it starts at the rearmost mark, where the tape is hooked; across it, at the line straight ahead.

use baywright_planner::Assessment;
use baywright_planner::geometry::{Bounds, DVec2, PlanPose};
use baywright_planner::model::Arrangement;

use super::state::ViewState;
use super::top::laid;
use super::{Fit, Shown, Window};
use crate::lettering::Lettering;
use crate::list::{Drawing, Item, Placing, Projection, Shape};
use crate::role::Role;

/// Marks nearer to one another than this along an edge have one figure there, mm.
const ONE_MM: f64 = 0.5;
/// The edge's own line is drawn inside it, px.
const EDGE_PX: f64 = 0.5;
/// Round what is worked on, mm.
const AROUND_MM: f64 = 120.0;
/// Of the car, this far off it, what is to be moved first is seen too, mm.
const MOVED_MM: f64 = 3_000.0;

/// A figure of a running dimension.
#[derive(Clone, Debug, PartialEq)]
pub struct Running {
    /// Where its line meets the view's edge, px from the view's upper left corner, along that edge.
    pub at_px: f64,
    /// How far from the origin, mm; never negative.
    pub mm: f64,
}

/// The view and its running dimensions.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// The view.
    pub drawing: Drawing,
    /// Under its lower edge.
    pub below: Vec<Running>,
    /// Beside its left edge.
    pub beside: Vec<Running>,
}

/// What is worked on, as a view turned so sees it, its own frame, mm: the car, the marks, the targets; and the same with what is to
/// be moved first.
pub(crate) fn worked_on(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
) -> [Bounds; 2] {
    let scene = &assessment.scene;
    let view_from_bay = super::Extents::of(arrangement, assessment, state).bay_from_top.inverse();
    let solids = scene.car.iter().chain(scene.targets.iter().flat_map(|own| &own.solids));
    let corners = solids.flat_map(|solid| solid.outline.as_polygon().outer().to_vec());
    let meant = scene.targets.iter().map(|own| own.meant.place.origin());
    let marks = scene.marks.iter().filter_map(|own| own.at.ok());
    let all = corners.chain(meant).chain(marks).map(|p| view_from_bay * p);
    let own = Bounds::around(all).unwrap_or(Bounds { low: DVec2::ZERO, high: DVec2::ONE }).grown(AROUND_MM);
    let near = own.grown(MOVED_MM);
    let moved = assessment.promise.iter().flat_map(|own| &own.steps).filter_map(laid::moved);
    let things = || arrangement.bay.things.iter().zip(&scene.things);
    let moved = moved.flat_map(|id| things().filter(move |(own, _)| own.id == *id));
    let corners = moved.flat_map(|(_, placed)| placed.prism.outline.as_polygon().outer().to_vec());
    let corners = corners.map(|p| view_from_bay * p).filter(|p| near.holds(*p));
    [own, Bounds::around(corners.chain([own.low, own.high])).unwrap_or(own)]
}

/// What is told beside the left edge of a view that lies so, mm: no more than [`laid_view`] tells there.
pub(crate) fn told_beside(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
) -> impl Iterator<Item = f64> {
    let scene = &assessment.scene;
    let axis = scene.bay_from_axis;
    let across = is_level(&super::Extents::of(arrangement, assessment, state).bay_from_top.inverse(), &axis);
    let marks: Vec<DVec2> =
        scene.marks.iter().filter_map(|own| own.at.ok()).map(|at| axis.inverse() * at).collect();
    let rearmost = marks.iter().map(|own| own.x).fold(f64::INFINITY, f64::min);
    marks.into_iter().map(move |own| if across { own.y.abs() } else { own.x - rearmost })
}

/// Whether the line straight ahead lies rather level than upright in a view.
fn is_level(view_from_bay: &PlanPose, axis: &PlanPose) -> bool {
    view_from_bay.turned(axis.forward()).x.abs() > std::f64::consts::FRAC_1_SQRT_2
}

/// Distances from one origin, those that are one told once, from the nearest on.
pub(crate) fn running(places: impl IntoIterator<Item = f64>, origin: f64) -> Vec<f64> {
    let mut all: Vec<f64> =
        places.into_iter().map(|place| place - origin).filter(|own| own.is_finite()).collect();
    all.sort_by(f64::total_cmp);
    all.dedup_by(|later, earlier| *later - *earlier < ONE_MM);
    all
}

/// The view of what is worked on, with its running dimensions.
pub(crate) fn laid_view(
    arrangement: &Arrangement,
    assessment: &Assessment,
    state: &ViewState,
    fit: Fit,
    lettering: &Lettering<'_>,
) -> Laid {
    let shown = Shown::new(arrangement, assessment, state, lettering);
    let window = shown.window(Projection::Top, fit, DVec2::ZERO);
    let Window { area, placing } = window;
    let view_from_bay = shown.extents.bay_from_top.inverse();
    let scene = &assessment.scene;
    let axis = scene.bay_from_axis;
    // In the frame of the line straight ahead: x along the car, y to its left.
    let marks: Vec<DVec2> =
        scene.marks.iter().filter_map(|own| own.at.ok()).map(|at| axis.inverse() * at).collect();
    let rearmost = marks.iter().map(|own| own.x).fold(f64::INFINITY, f64::min);
    let view_of = |p: DVec2| view_from_bay * (axis * p);
    let edge = |p: DVec2| placing.paper_point(p);
    let is_level = is_level(&view_from_bay, &axis);
    // The mark whose line is drawn: of several at one place the one that is nearest to the edge.
    let mut lines = Vec::new();
    let mut told = |along_car: bool| -> Vec<Running> {
        let part = |p: &DVec2| if along_car { p.x } else { p.y };
        let origin = if along_car { rearmost } else { 0.0 };
        let zero = (!along_car && !marks.is_empty()).then_some(0.0);
        let goes_down = along_car == is_level;
        let far = |p: &DVec2| {
            let px = edge(view_of(*p));
            if goes_down { area.high.y - px.y } else { px.x - area.low.x }
        };
        running(marks.iter().map(part).chain(zero), origin)
            .into_iter()
            .map(|mm| {
                let own = marks.iter().filter(|p| (part(p) - origin - mm).abs() < ONE_MM);
                let nearest = own.min_by(|a, b| far(a).total_cmp(&far(b)));
                let axis_at = if along_car { DVec2::new(origin + mm, 0.0) } else { DVec2::new(rearmost, mm) };
                let from = edge(view_of(*nearest.unwrap_or(&axis_at)));
                let to =
                    if goes_down { DVec2::new(from.x, area.high.y) } else { DVec2::new(area.low.x, from.y) };
                if nearest.is_some() && area.grown(1.0).holds(from) {
                    lines.push([from, to].map(|px| placing.list_point(px)));
                }
                let at_px = if goes_down { to.x - area.low.x } else { to.y - area.low.y };
                Running { at_px, mm: mm.abs() }
            })
            .collect()
    };
    let (along, across) = (told(true), told(false));
    let (below, beside) = if is_level { (along, across) } else { (across, along) };
    let pen = laid::draw(&shown, window, &lines);
    let mut items = pen.items;
    let [low, high] = [area.low + DVec2::splat(EDGE_PX), area.high - DVec2::splat(EDGE_PX)]
        .map(|px| placing.list_point(px));
    let edge = [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y), low];
    items.push(Item { role: Role::Rule, subject: None, finding: None, shape: Shape::Line(edge.to_vec()) });
    // Stable: items of one layer keep the order in which they were drawn.
    items.sort_by_key(|item| item.role.layer());
    let Placing { origin, px_per_mm } = placing;
    let bay_from_view = shown.extents.bay_from_top;
    let drawing = Drawing {
        projection: Projection::Top,
        size: area.size(),
        px_per_mm,
        origin: origin - area.low,
        bay_from_view,
        items,
    };
    Laid { drawing, below, beside }
}

#[cfg(test)]
mod tests {
    use baywright_planner::words::{Locale, Units};

    use super::*;

    /// Three times 1 004.5 mm, rounded half up: each distance alone says 1 005, and all of it is 3 014, not three times 1 005.
    #[test]
    fn running_figures_do_not_add_up_what_was_rounded() {
        let each = 1_004.5;
        let marks = [0.0, each, 2.0 * each, 3.0 * each];
        let locale = Locale { units: Units::Millimetres, ..Locale::default() };
        let said = |mm: f64| locale.bare(mm).replace('\u{202f}', " ");
        assert_eq!(said(each), "1 005");
        let told: Vec<String> = running(marks, 0.0).into_iter().map(said).collect();
        assert_eq!(told, ["0", "1 005", "2 009", "3 014"]);
        assert_eq!(running([5.0, 5.2, 1.0], 1.0), [0.0, 4.0], "what is one is told once");
    }
}
