//! Where the views lie on the paper: their frames, their common scale, the room around them.

use baywright_planner::geometry::{Bounds, DVec2, PlanPose};
use baywright_planner::model::{Arrangement, SensorKind};
use baywright_planner::{Assessment, Scene};

use crate::furniture::Lines;
use crate::paper::{Fit, Furniture, Paper};
use crate::view::state::{Axis, Turned, ViewState};

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
/// Things further than this from the room do not make the paper larger, mm: they are cut off and their flags stand at
/// the edge.
const FAR_MM: f64 = 3000.0;
/// The view's title, px before texts are enlarged.
const VIEW_TITLE_PX: f64 = 26.0;

/// The frames and the scale of both views, worked out once for a paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extents {
    /// Along what the side view is taken.
    pub along: Axis,
    /// How the top view lies.
    pub turned: Turned,
    /// Bay from the top view's frame.
    pub bay_from_top: PlanPose,
    /// Bay from the side view's axis.
    pub bay_from_side: PlanPose,
    /// px for each mm, in both views.
    pub px_per_mm: f64,
    /// How much larger than usual texts and signs are.
    pub(crate) enlarged: f64,
    /// What the top view holds, its own frame, mm.
    pub(crate) top: Bounds,
    /// What the side view holds along its axis, mm.
    pub(crate) side: (f64, f64),
    /// The highest thing shown in the side view above the floor, mm.
    pub(crate) height: f64,
}

/// Where one view stands on the paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Placed {
    /// The paper's size, px.
    pub size: DVec2,
    /// The part of it for the view, px.
    pub plan: Bounds,
    /// Where the view's origin lies, px.
    pub origin: DVec2,
}

impl Extents {
    /// The layout of an assessed arrangement on a paper.
    pub fn of(
        arrangement: &Arrangement,
        assessment: &Assessment,
        state: &ViewState,
        paper: &Paper<'_>,
    ) -> Self {
        let scene = &assessment.scene;
        let along = state.along.unwrap_or(match arrangement.sensor.kind {
            SensorKind::CornerRadar(_) => Axis::SightLine,
            _ => Axis::Centreline,
        });
        let sight_line = sight_line(scene);
        let bay_from_side = match along {
            Axis::Centreline => scene.bay_from_vehicle,
            Axis::SightLine => sight_line,
        };
        let bay_from_top = state.held.unwrap_or(match state.turned {
            Turned::ToCar => scene.bay_from_vehicle,
            Turned::ToRoom => PlanPose::IDENTITY,
            Turned::ToSightLine => sight_line,
        });
        let top = extent(scene, &bay_from_top);
        let side = extent(scene, &bay_from_side);
        let height = arrangement.bay.ceiling.max(scene.carried_at + arrangement.vehicle.height);
        let enlarged = paper.enlarged();
        let margin = margin(enlarged);
        let px_per_mm = match paper.fit {
            Fit::Window { px_per_mm, .. } => px_per_mm,
            Fit::Whole { width, most_height } => {
                // The wider of the two views decides, so that both have one scale.
                let across = top.size().x.max(side.size().x);
                let room = DVec2::new(width, most_height) - margin.0 - margin.1;
                (room.x / across).min(room.y / top.size().y)
            }
        };
        let px_per_mm = if px_per_mm.is_finite() { px_per_mm.clamp(LEAST_SCALE, 100.0) } else { LEAST_SCALE };
        Self {
            along,
            turned: state.turned,
            bay_from_top,
            bay_from_side,
            px_per_mm,
            enlarged,
            top,
            side: (side.low.x, side.high.x),
            height,
        }
    }

    /// Where the top view stands on a paper of its own.
    pub(crate) fn place_top(&self, paper: &Paper<'_>, lines: &Lines) -> Placed {
        let margin = margin(self.enlarged);
        match paper.fit {
            Fit::Window { size, middle, .. } => self.window(size, middle),
            Fit::Whole { width, .. } => {
                let above = self.above(paper, lines) + self.view_title(paper);
                let high = self.top.size().y * self.px_per_mm + margin.0 + margin.1;
                let size = DVec2::new(width, above + high + self.below(paper, lines));
                let plan = Bounds { low: DVec2::new(0.0, above), high: DVec2::new(width, above + high) };
                Placed { size, plan, origin: self.origin_of(plan, margin) }
            }
        }
    }

    /// Where the side view stands on a paper of its own.
    pub(crate) fn place_side(&self, paper: &Paper<'_>, lines: &Lines) -> Placed {
        match paper.fit {
            Fit::Window { size, middle, .. } => self.window(size, middle),
            Fit::Whole { width, .. } => {
                let above = self.above(paper, lines) + self.view_title(paper);
                let placed = self.side_below(width, above);
                let bottom = placed.plan.high.y;
                Placed { size: DVec2::new(width, bottom + self.below(paper, lines)), ..placed }
            }
        }
    }

    /// Where both stand on one paper, the top view over the side view.
    pub(crate) fn place_both(&self, paper: &Paper<'_>, lines: &Lines) -> (Placed, Placed) {
        let top = self.place_top(paper, lines);
        let Fit::Whole { width, .. } = paper.fit else { return (top, self.place_side(paper, lines)) };
        let mut side = self.side_below(width, top.plan.high.y + self.view_title(paper));
        // One axis: where both show the same one, the side view stands exactly under the top view.
        if self.bay_from_top == self.bay_from_side {
            side.origin.x = top.origin.x;
        }
        let size = DVec2::new(width, side.plan.high.y + self.below(paper, lines));
        (Placed { size, ..top }, Placed { size, ..side })
    }

    /// The origin that puts the middle of what is held into the middle between unequal margins.
    fn origin_of(&self, plan: Bounds, (large, small): (f64, f64)) -> DVec2 {
        let shift = 0.5 * (large - small);
        plan.centre() + DVec2::new(shift, -shift) - self.flipped(self.top.centre())
    }

    fn side_below(&self, width: f64, above: f64) -> Placed {
        let px = self.px_per_mm;
        let floor = above + SIDE_TOP_PX * self.enlarged + self.height * px;
        let plan = Bounds {
            low: DVec2::new(0.0, above),
            high: DVec2::new(width, floor + SIDE_BOTTOM_PX * self.enlarged),
        };
        let middle = 0.5 * (self.side.0 + self.side.1);
        let (large, small) = margin(self.enlarged);
        let x = 0.5 * (width + large - small) - middle * px;
        Placed { size: plan.high, plan, origin: DVec2::new(x, floor) }
    }

    fn window(&self, size: DVec2, middle: DVec2) -> Placed {
        let plan = Bounds { low: DVec2::ZERO, high: size.max(DVec2::ONE) };
        Placed { size: plan.high, plan, origin: plan.centre() - self.flipped(middle) }
    }

    fn flipped(&self, p: DVec2) -> DVec2 {
        DVec2::new(p.x, -p.y) * self.px_per_mm
    }

    fn above(&self, paper: &Paper<'_>, lines: &Lines) -> f64 {
        if paper.furniture == Furniture::Sheet { lines.above() * self.enlarged } else { 0.0 }
    }

    fn view_title(&self, paper: &Paper<'_>) -> f64 {
        if paper.furniture == Furniture::Sheet { VIEW_TITLE_PX * self.enlarged } else { 0.0 }
    }

    fn below(&self, paper: &Paper<'_>, lines: &Lines) -> f64 {
        if paper.furniture == Furniture::Sheet { lines.below() * self.enlarged } else { 0.0 }
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
    /// and gaps already taken off; `narrow` says that margins may be smaller.
    pub fn windows(&self, area: DVec2, narrow: bool) -> Windows {
        let (large, small) = margin(self.enlarged);
        let (large, small) = if narrow { (large * NARROW, small * NARROW) } else { (large, small) };
        let upright = (SIDE_TOP_PX + SIDE_BOTTOM_PX) * self.enlarged;
        let top = self.top.size();
        let across = top.x.max(self.side.1 - self.side.0);
        let fits = ((area.x - large - small) / across)
            .min((area.y - large - small - upright) / (top.y + self.height));
        let px = if fits.is_finite() { fits.clamp(LEAST_SCALE, 100.0) } else { LEAST_SCALE };
        // What is left over is shared as the views share the rest.
        let (top_needs, side_needs) = (top.y * px + large + small, self.height * px + upright);
        let share = top_needs / (top_needs + side_needs);
        let top_height = (area.y * share).clamp(0.0, area.y.max(0.0));
        let shift = 0.5 * (large - small) / px;
        let middle_x = if self.bay_from_top == self.bay_from_side {
            self.top.centre().x
        } else {
            0.5 * (self.side.0 + self.side.1)
        };
        let lift = 0.5 * (SIDE_TOP_PX - SIDE_BOTTOM_PX) * self.enlarged / px;
        Windows {
            px_per_mm: px,
            top_height,
            side_height: (area.y - top_height).max(0.0),
            top_middle: self.top.centre() - DVec2::splat(shift),
            side_middle: DVec2::new(middle_x - shift, self.height * 0.5 + lift),
        }
    }

    /// Whether both views have one axis, so that everything stands exactly under itself.
    pub fn one_axis(&self) -> bool {
        self.bay_from_top == self.bay_from_side
    }
}

/// Margins shrink to this share where there is little room.
const NARROW: f64 = 0.72;

/// The larger margin and the smaller one, px.
fn margin(enlarged: f64) -> (f64, f64) {
    let grown = |px: f64| WALL_PX + (px - WALL_PX) * enlarged;
    (grown(MARGIN_PX), grown(SMALL_MARGIN_PX))
}

/// From the sensor straight to the first target, in plan; where the sensor looks if there is none.
fn sight_line(scene: &Scene) -> PlanPose {
    let sensor = scene.sensor().truncate();
    let ahead = scene.bay_from_sensor.forward().truncate();
    let target = scene.targets.first().map(|t| t.centre().truncate() - sensor).filter(|d| d.length() > 1.0);
    PlanPose::facing(sensor, sensor + target.unwrap_or(ahead))
}

/// The box around all that is drawn, bay frame, mm; what lies very far from the room is cut off.
pub(crate) fn drawn_box(scene: &Scene) -> Bounds {
    let room = scene.room.with_open_doors().bounds().union(scene.room.walls().bounds());
    let near = room.grown(FAR_MM);
    let targets = scene.targets.iter().flat_map(|t| &t.solids).map(|s| s.outline.bounds());
    let things = scene.things.iter().map(|t| t.bounds);
    let zones = scene.zones.iter().map(|z| z.bounds);
    std::iter::once(scene.car_bounds)
        .chain(targets)
        .chain(things)
        .chain(zones)
        .map(|b| Bounds { low: b.low.clamp(near.low, near.high), high: b.high.clamp(near.low, near.high) })
        .fold(room, Bounds::union)
}

/// What a view turned so holds: the room and everything at or near it.
fn extent(scene: &Scene, bay_from_view: &PlanPose) -> Bounds {
    let view_from_bay = bay_from_view.inverse();
    let near = scene.room.with_open_doors().bounds().union(scene.room.walls().bounds()).grown(FAR_MM);
    let corners = |b: &Bounds| {
        [b.low, DVec2::new(b.high.x, b.low.y), b.high, DVec2::new(b.low.x, b.high.y)]
            .map(|p| view_from_bay * p)
    };
    let held =
        |b: Bounds| Bounds { low: b.low.clamp(near.low, near.high), high: b.high.clamp(near.low, near.high) };
    let rooms = scene
        .room
        .with_open_doors()
        .outer()
        .iter()
        .chain(scene.room.walls().outer())
        .map(|&p| view_from_bay * p);
    let targets = scene.targets.iter().flat_map(|t| &t.solids).map(|s| s.outline.bounds());
    let things = scene.things.iter().map(|t| t.bounds);
    let zones = scene.zones.iter().map(|z| z.bounds);
    let others = std::iter::once(scene.car_bounds).chain(targets).chain(things).chain(zones);
    // A box that lies within the room's own box makes nothing larger; most do.
    let inner = scene.room.walls().bounds();
    let outside = others.filter(|b| !(inner.holds(b.low) && inner.holds(b.high)));
    // Beyond what reaches out of the room stand the room's dimensions, as long as the room.
    let (walls, all) = (scene.room.walls().bounds(), drawn_box(scene));
    let dimensions = [
        Bounds { low: DVec2::new(walls.low.x, all.low.y), high: DVec2::new(walls.high.x, all.high.y) },
        Bounds { low: DVec2::new(all.low.x, walls.low.y), high: DVec2::new(all.high.x, walls.high.y) },
    ];
    let dimensions = dimensions.iter().flat_map(corners);
    let points = rooms.chain(outside.flat_map(|b| corners(&held(b)))).chain(dimensions);
    Bounds::around(points).unwrap_or(Bounds { low: DVec2::ZERO, high: DVec2::ONE })
}
