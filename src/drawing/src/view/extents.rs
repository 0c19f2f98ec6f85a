//! What the views hold: their frames in the bay and how far everything in them reaches.

use baywright_planner::geometry::{Bounds, DVec2, PlanPose, angle};
use baywright_planner::model::{Arrangement, SensorKind};
use baywright_planner::{Assessment, Scene};

use super::state::{Axis, Turned, ViewState};

/// Things further than this from the room do not make the drawing larger, mm: they are cut off and their flags stand at
/// the edge.
const FAR_MM: f64 = 3000.0;

/// How both views lie in the bay and what they hold; they know nothing of paper.
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
    /// Whether the side view runs against its axis, and is seen from its left: so that on a paper that lies as the room lies
    /// both views run one way.
    pub from_left: bool,
    /// What the top view holds, its own frame, mm.
    pub(crate) top: Bounds,
    /// What the side view holds along its axis, mm.
    pub(crate) side: (f64, f64),
    /// The highest thing shown in the side view above the floor, mm.
    pub(crate) height: f64,
}

impl Extents {
    /// The extents of an assessed arrangement.
    pub fn of(arrangement: &Arrangement, assessment: &Assessment, state: &ViewState) -> Self {
        let scene = &assessment.scene;
        let along = state.along.unwrap_or(match arrangement.sensor.kind {
            SensorKind::CornerRadar(_) => Axis::SightLine,
            _ => Axis::Centreline,
        });
        let sight_line = sight_line(scene);
        let axis = match along {
            Axis::Centreline => scene.bay_from_vehicle,
            Axis::SightLine => sight_line,
        };
        let bay_from_side = if state.turned == Turned::ToRoom { as_the_room(axis) } else { axis };
        let from_left = bay_from_side.forward().dot(axis.forward()) < 0.0;
        let bay_from_top = state.held.unwrap_or(match state.turned {
            Turned::ToCar => scene.bay_from_vehicle,
            Turned::ToRoom => PlanPose::IDENTITY,
            Turned::ToSightLine => sight_line,
        });
        let top = extent(scene, &bay_from_top);
        let side = extent(scene, &bay_from_side);
        let height = arrangement.bay.ceiling_mm.max(scene.carried_at_mm + arrangement.vehicle.height_mm);
        Self {
            along,
            turned: state.turned,
            bay_from_top,
            bay_from_side,
            from_left,
            top,
            side: (side.low.x, side.high.x),
            height,
        }
    }

    /// The extents of both views on one paper, and how the top view lies then. A side view along the sight line wants the top view
    /// turned to that, so that everything stands under itself; but not where the room would lie slantwise in much more paper.
    pub fn of_both(arrangement: &Arrangement, assessment: &Assessment, state: &ViewState) -> (Turned, Self) {
        let own = Self::of(arrangement, assessment, state);
        if own.along != Axis::SightLine || state.turned != Turned::ToCar {
            return (state.turned, own);
        }
        let turned = ViewState { turned: Turned::ToSightLine, ..state.clone() };
        let to_line = Self::of(arrangement, assessment, &turned);
        let paper = |of: &Self| of.top.size().x * of.top.size().y;
        if paper(&to_line) <= MORE_PAPER * paper(&own) {
            (turned.turned, to_line)
        } else {
            (state.turned, own)
        }
    }

    /// Whether both views have one axis, so that everything stands exactly under itself.
    pub fn one_axis(&self) -> bool {
        let (top, side) = (&self.bay_from_top, &self.bay_from_side);
        top == side || (top.heading() == side.heading() && (top.inverse() * side.origin()).x == 0.0)
    }
}

/// The share of paper that a turned room may take more for its views to stand under one another.
const MORE_PAPER: f64 = 1.3;

/// An axis as the side view follows it on a paper that lies as the room lies: along the bay's own x, under the top view, where
/// it runs along that; else turned round if it runs against it.
fn as_the_room(axis: PlanPose) -> PlanPose {
    let ahead = axis.forward();
    if ahead.y.abs() <= ALONG {
        PlanPose::new(DVec2::new(0.0, axis.origin().y), 0.0)
    } else if ahead.x < -ALONG {
        PlanPose::new(axis.origin(), angle::wrapped(axis.heading() + std::f64::consts::PI))
    } else {
        axis
    }
}

/// An axis whose sine against the bay's x is no more runs along it.
const ALONG: f64 = 1e-9;

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
