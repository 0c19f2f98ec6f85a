//! Distances on the top view: stand-offs with both ends named, how far things are in, the room's size, and whatever is
//! in hand.

use baywright_planner::Subject;
use baywright_planner::geometry::{DVec2, angle};
use baywright_planner::model::{End, Placement};
use baywright_planner::scene::PlacedTarget;
use baywright_planner::{Code, Quantity, Severity};

use super::Top;
use crate::finding::Flagged;
use crate::layout::WALL_PX;
use crate::pen::Pen;
use crate::role::Role;
use crate::space::FIRM;

/// A drawn depth and the finding's own must agree to this, mm, or it is not drawn.
const AGREE_MM: f64 = 0.5;
/// From the walls out to the overall dimensions, px.
const ROOM_OFF_PX: f64 = 36.0;

/// Distances of what is in hand.
pub(super) fn live(pen: &mut Pen<'_>, top: &Top<'_>) {
    for live in &top.state.live {
        let (from, to) = (top.at(live.from), top.at(live.to));
        let along = (to - from).normalize_or_zero();
        if along == DVec2::ZERO || !along.is_finite() {
            continue;
        }
        let dimension = pen.dimension(from, to, along, from, &live.text);
        pen.put_dimension(Role::LiveDimension, top.state.selected.clone(), dimension);
    }
}

/// Both ends of a stand-off in the bay, and its direction. The end is where the target belongs, by its procedure; the
/// start follows from it, because distance, direction and offset are the procedure's own figures.
fn ends(top: &Top<'_>, placement: &Placement, target: &PlacedTarget) -> (DVec2, DVec2, DVec2) {
    let stand_off = &placement.stand_off;
    let meant = &target.meant.place;
    let away = angle::direction(top.scene.bay_from_axis.heading() + stand_off.bearing);
    let behind = match stand_off.to {
        End::Face => 0.0,
        End::ReflectorCentre => placement.target.centre_behind,
    };
    let end = meant.origin() - meant.ahead() * behind;
    (end - away * stand_off.distance - away.perp() * stand_off.aside, end, away)
}

pub(super) fn stand_offs(pen: &mut Pen<'_>, top: &Top<'_>) {
    let mut told: Vec<(DVec2, DVec2)> = Vec::new();
    for (placement, target) in top.arrangement.aiming.placements.iter().zip(&top.scene.targets) {
        let (from, to, along) = ends(top, placement, target);
        let same = |(f, t): &(DVec2, DVec2)| {
            let (df, dt) = (from - *f, to - *t);
            df.dot(along).abs() < AGREE_MM && dt.dot(along).abs() < AGREE_MM
        };
        // Two targets abreast need it told once.
        if told.iter().any(same) {
            continue;
        }
        told.push((from, to));
        let (from, to) = (top.at(from), top.at(to));
        let along = top.view_from_bay.turned(along);
        let text = top.words.stand_off(placement);
        // Beside the car and its marks, on whichever side and as near as it stands free.
        let straight_on =
            along.dot(top.view_from_bay.turned(top.scene.bay_from_axis.ahead())).abs() > STRAIGHT_ON;
        let half = if straight_on { top.arrangement.vehicle.width * 0.5 } else { pen.length(10.0) };
        let mut best: Option<(f64, crate::list::Dimension)> = None;
        for step in 0..STEPS {
            for side in [-1.0, 1.0] {
                let off = half + pen.length((FIRST_OFF_PX + STEP_PX * f64::from(step)) * pen.enlarged);
                let through = from + along.perp() * (side * off);
                let dimension = pen.dimension(from, to, along, through, &text);
                let cost = line_cost(pen, &dimension)
                    + f64::from(step) * STEP_COST
                    + if side > 0.0 { LEFT_COST } else { 0.0 };
                if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                    best = Some((cost, dimension));
                }
            }
        }
        if let Some((_, dimension)) = best {
            pen.put_dimension(Role::Dimension, Some(Subject::Target(target.id.clone())), dimension);
        }
    }
}

/// Cosine above which a stand-off runs along the car, and its dimension stands beside the car.
const STRAIGHT_ON: f64 = 0.9;
/// How many places beside the car are tried on each side, how far the first is off the body and the next off it, px.
const STEPS: u8 = 6;
/// What a step further off costs, and to stand on the car's left: a mask over a line is better than a far dimension.
const STEP_COST: f64 = 12.0;
const LEFT_COST: f64 = 8.0;
const FIRST_OFF_PX: f64 = 26.0;
const STEP_PX: f64 = 14.0;

/// What a dimension would cover: its text, and marks or texts under its line.
fn line_cost(pen: &Pen<'_>, dimension: &crate::list::Dimension) -> f64 {
    let mut cost = pen.space.cost(pen.text_box(&dimension.text));
    let (from, to) = (pen.px(dimension.line_from), pen.px(dimension.line_to));
    let steps = (from.distance(to) / 16.0).clamp(1.0, 64.0) as usize;
    for i in 0..=steps {
        let p = from.lerp(to, i as f64 / steps as f64);
        if pen.space.cost(crate::space::around(p, DVec2::splat(6.0))) >= FIRM {
            cost += FIRM * 0.01;
        }
    }
    cost
}

/// How far a thing is inside a zone: from its innermost point square to the edge by which it would leave, where that
/// is the depth that the finding tells.
pub(super) fn so_far_in(pen: &mut Pen<'_>, top: &Top<'_>, told: &Flagged<'_>) {
    let finding = told.finding;
    let (Code::ZoneObject, Severity::Stops, Some(Quantity::Length(depth))) =
        (finding.code, finding.severity, finding.measured)
    else {
        return;
    };
    let [Subject::Thing(thing), Subject::Zone(zone), ..] = finding.subjects.as_slice() else { return };
    let things = top.arrangement.bay.things.iter().zip(&top.scene.things);
    let Some((_, thing)) = things.into_iter().find(|(t, _)| t.id == *thing) else { return };
    let Some(zone) = top.scene.zones.iter().find(|z| z.id == *zone) else { return };
    let (thing, zone) = (thing.prism.outline.as_polygon(), zone.prism.outline.as_polygon());
    for edge in zone.edges() {
        let along = (edge.to - edge.from).normalize_or_zero();
        let inward = along.perp();
        let deep = |p: &DVec2| (*p - edge.from).dot(inward);
        let Some(innermost) = thing.outer().iter().copied().max_by(|a, b| deep(a).total_cmp(&deep(b))) else {
            continue;
        };
        if (deep(&innermost) - depth).abs() > AGREE_MM {
            continue;
        }
        // On the end of the thing that lies further along the edge, a little off it.
        let reach = thing.outer().iter().map(|p| (*p - edge.from).dot(along)).fold(f64::MIN, f64::max);
        let clear = reach.min((edge.to - edge.from).dot(along)) + pen.length(9.0);
        let foot = innermost - inward * deep(&innermost);
        let through = edge.from + along * clear;
        let (from, to, through) = (top.at(innermost), top.at(foot), top.at(through));
        let along = top.view_from_bay.turned(inward);
        let dimension = pen.dimension(from, to, along, through, &top.words.so_far_in(depth));
        let subject = finding.subjects.first().cloned();
        let place = pen.text_box(&dimension.text);
        if pen.space.cost(place) < FIRM {
            pen.put_dimension(Role::DimensionStops, subject, dimension);
            if let Some(item) = pen.items.last_mut() {
                item.finding = Some(told.index);
            }
        }
        return;
    }
}

/// The room's length and width, outside its walls.
pub(super) fn room(pen: &mut Pen<'_>, top: &Top<'_>) {
    let bounds = top.scene.room.walls().bounds();
    let off = pen.length(WALL_PX + (ROOM_OFF_PX - WALL_PX) * pen.enlarged);
    let (low, high) = (bounds.low, bounds.high);
    // Of the two sides that each could stand on, the one further down or further left on the paper.
    let down = |p: DVec2| top.view_from_bay.turned(p);
    let below = if down(DVec2::NEG_Y).y <= 0.0 { (low.y, -1.0) } else { (high.y, 1.0) };
    let upright = down(DVec2::NEG_Y).y.abs() > down(DVec2::NEG_X).y.abs();
    let aside = {
        let to_low = down(DVec2::NEG_X);
        let wanted = if upright { to_low.x <= 0.0 } else { to_low.y <= 0.0 };
        if wanted { (low.x, -1.0) } else { (high.x, 1.0) }
    };
    let long = (
        DVec2::new(low.x, below.0),
        DVec2::new(high.x, below.0),
        DVec2::X,
        DVec2::new(low.x, below.0 + below.1 * off),
    );
    let wide = (
        DVec2::new(aside.0, low.y),
        DVec2::new(aside.0, high.y),
        DVec2::Y,
        DVec2::new(aside.0 + aside.1 * off, low.y),
    );
    for (from, to, along, through) in [long, wide] {
        let text = top.words.dimension((to - from).dot(along));
        let (from, to, through) = (top.at(from), top.at(to), top.at(through));
        let dimension = pen.dimension(from, to, top.view_from_bay.turned(along), through, &text);
        pen.put_dimension(Role::Dimension, None, dimension);
    }
}
