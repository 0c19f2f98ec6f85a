//! By how much the aiming is stopped: figures that stand on the drawing whatever else does.
//!
//! A dimension where there is a line to measure along (from a zone's edge to the innermost point of what is in it, from a wall
//! to the outermost point of what goes through it); else the figure itself, led to its place.

use baywright_planner::geometry::{Bounds, DVec2, Polygon, Segment};
use baywright_planner::model::Id;
use baywright_planner::words::letter;
use baywright_planner::{Code, Facts, Quantity, Severity, Subject, TooLarge};

use super::Top;
use super::things::RINGED_PX;
use crate::finding::{Flagged, pinned, solids};
use crate::lettering::size;
use crate::list::Dimension;
use crate::role::Role;
use crate::text::Weight;
use crate::view::label::{TOO_DEAR, Wanted};
use crate::view::pen::Pen;
use crate::view::space::{FIRM, Taken, around};

/// A drawn depth and the finding's own must agree to this, mm, or it is not drawn.
const AGREE_MM: f64 = 0.5;
/// What it costs to stand at the other end of the thing.
const OTHER_END_COST: f64 = 8.0;
/// How many times as far off the thing a line is tried that is free nowhere nearer, before it is enlarged, and what that costs.
const FURTHER: f64 = 2.1;
const FURTHER_COST: f64 = 60.0;
/// What is smaller than this on the paper has its figure beside it, px before they are enlarged.
const NEAR_BODY_PX: f64 = 90.0;
/// What goes through one wall is told by the one that goes furthest.
type Through<'a> = (&'a Id, f64);

/// The figures of all that stops, the worst first as the findings are.
pub(super) fn figures(pen: &mut Pen<'_>, top: &Top<'_>) {
    let mut through: Vec<Through<'_>> = Vec::new();
    // What has no line of its own stands at its place or nowhere; a line's figure slides along it.
    let (lineless, along): (Vec<_>, Vec<_>) =
        pinned(top.assessment).partition(|told| !is_measured_along(told));
    for told in lineless.into_iter().chain(along) {
        let finding = told.finding;
        if finding.severity != Severity::Stops
            || finding.measured.is_none()
            || is_told(&told, top, &mut through)
        {
            continue;
        }
        let put = match finding.code() {
            Code::ZoneObject => so_far_in(pen, top, &told),
            Code::OutsideRoom => so_far_out(pen, top, &told),
            _ => false,
        };
        if !put {
            written(pen, top, &told);
        }
    }
}

/// Whether there may be a line to measure it along.
fn is_measured_along(told: &Flagged<'_>) -> bool {
    matches!(told.finding.code(), Code::ZoneObject | Code::OutsideRoom)
}

/// Whether another part of the set-up goes through the same wall, and as far.
fn is_told<'a>(told: &Flagged<'a>, top: &Top<'a>, through: &mut Vec<Through<'a>>) -> bool {
    let Some(wall) = wall_of(told) else { return false };
    let depth = |told: &Flagged<'_>| match told.finding.measured {
        Some(Quantity::Length(depth)) => depth,
        _ => 0.0,
    };
    if through.iter().any(|(own, _)| *own == wall) {
        return true;
    }
    let furthest = pinned(top.assessment).filter(|own| wall_of(own) == Some(wall)).map(|own| depth(&own));
    let furthest = furthest.fold(0.0, f64::max);
    if depth(told) < furthest {
        return true;
    }
    through.push((wall, furthest));
    false
}

/// The wall or door that part of the set-up goes through.
fn wall_of<'a>(told: &Flagged<'a>) -> Option<&'a Id> {
    match (told.finding.code(), told.finding.subjects.get(1)) {
        (Code::OutsideRoom, Some(Subject::Wall(id) | Subject::Opening(id))) => Some(id),
        _ => None,
    }
}

/// How far a thing is inside a zone. Whether it was put.
fn so_far_in(pen: &mut Pen<'_>, top: &Top<'_>, told: &Flagged<'_>) -> bool {
    let [Subject::Thing(thing), Subject::Zone(zone), ..] = told.finding.subjects.as_slice() else {
        return false;
    };
    let things = top.arrangement.bay.things.iter().zip(&top.scene.things);
    let Some((_, thing)) = things.into_iter().find(|(t, _)| t.id == *thing) else { return false };
    let Some(zone) = top.scene.zones.iter().find(|z| z.id == *zone) else { return false };
    let (thing, zone) = (thing.prism.outline.as_polygon(), zone.prism.outline.as_polygon());
    depth_in(pen, top, told, (&thing, &zone), Role::DimensionStops)
}

/// How far the set-up reaches into another bay of its hall, where that can be measured along a line: what reaches furthest tells
/// it for all.
pub(super) fn into_other_bays(pen: &mut Pen<'_>, top: &Top<'_>) {
    for told in pinned(top.assessment) {
        let (Facts::BeyondBay { parts, .. }, [Subject::HallBay(bay), ..]) =
            (&told.finding.facts, told.finding.subjects.as_slice())
        else {
            continue;
        };
        let other = top.arrangement.bay.bays.iter().find(|own| own.id == *bay);
        let (Some(part), Some(other)) = (parts.first(), other) else { continue };
        let reaching = solids(top.arrangement, top.assessment, &part.of);
        reaching.iter().any(|solid| {
            let region = (&*solid.outline.as_polygon(), &other.outline);
            depth_in(pen, top, &told, region, Role::DimensionCare)
        });
    }
}

/// How far one is inside another: from its innermost point square to the edge by which it would leave, where that is the depth
/// that the finding tells. Whether it was put.
fn depth_in(
    pen: &mut Pen<'_>,
    top: &Top<'_>,
    told: &Flagged<'_>,
    (thing, zone): (&Polygon, &Polygon),
    role: Role,
) -> bool {
    let Some(Quantity::Length(depth)) = told.finding.measured else { return false };
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
        // Beside the thing, a little off one of its ends along the edge.
        let on_edge = thing.outer().iter().map(|p| (*p - edge.from).dot(along));
        let (least, most) = on_edge.fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)));
        let off = pen.length(9.0);
        let length = (edge.to - edge.from).dot(along);
        let foot = innermost - inward * deep(&innermost);
        let text = top.words.so_far_in(depth);
        let (high, low) = (most.min(length), least.max(0.0));
        let further = FURTHER * pen.enlarged;
        let places = [
            (0.0, high + off),
            (OTHER_END_COST, low - off),
            (FURTHER_COST, high + off * further),
            (OTHER_END_COST + FURTHER_COST, low - off * further),
        ];
        let places = places.map(|(extra, at)| (extra, edge.from + along * at));
        return put(pen, (top, role), told, (innermost, foot, inward), places, &text);
    }
    false
}

/// How far part of the set-up goes through a wall, square to it; or, where no place of the car helps, how much of the room is
/// missing, to the same end. Whether it was put.
fn so_far_out(pen: &mut Pen<'_>, top: &Top<'_>, told: &Flagged<'_>) -> bool {
    let finding = told.finding;
    let Some(Quantity::Length(depth)) = finding.measured else { return false };
    let outermost = finding.place.truncate();
    let Some(wall) = wall_at(top, outermost, depth) else { return false };
    let out = -(wall.to - wall.from).normalize_or_zero().perp();
    let missing = match &finding.facts {
        Facts::OutsideRoom { too_large, .. } => *too_large,
        _ => None,
    };
    let text = match missing {
        Some(missing) => top.words.room_too_small(missing),
        None => top.words.measure(finding).unwrap_or_default(),
    };
    let foot = outermost - out * missing.map_or(depth, TooLarge::missing_mm);
    let along = out.perp();
    let off = pen.length(14.0 * pen.enlarged);
    let places = [
        (0.0, outermost),
        (OTHER_END_COST, outermost + along * off),
        (OTHER_END_COST, outermost - along * off),
    ];
    put(pen, (top, Role::DimensionStops), told, (foot, outermost, out), places, &text)
}

/// The wall that a point lies so far beyond.
fn wall_at(top: &Top<'_>, p: DVec2, depth: f64) -> Option<Segment> {
    top.scene.room.walls().edges().find(|wall| {
        let along = (wall.to - wall.from).normalize_or_zero();
        let out = -(p - wall.from).dot(along.perp());
        (out - depth).abs() <= AGREE_MM
    })
}

/// Puts a dimension at the best of some lines. Whether one of them keeps off what must stay seen.
fn put<const N: usize>(
    pen: &mut Pen<'_>,
    (top, role): (&Top<'_>, Role),
    told: &Flagged<'_>,
    (from, to, along): (DVec2, DVec2, DVec2),
    through: [(f64, DVec2); N],
    text: &str,
) -> bool {
    let direction = top.view_from_bay.turned(along);
    let subject = told.finding.subjects.first();
    let kept = pen.moving_dimension(role, subject, (top.at(from), top.at(to)), direction, text);
    // A line through another figure is hidden by it.
    let is_free = |(cost, own): &(f64, Dimension)| {
        let (a, b) = (pen.px(own.line_from), pen.px(own.line_to));
        *cost < TOO_DEAR && pen.space.cost_over_read(a, b) == 0.0
    };
    // Cheaper than any other.
    let mut best = kept.filter(is_free).map(|(_, own)| (f64::NEG_INFINITY, own));
    for (extra, through) in through {
        if best.as_ref().is_some_and(|(least, _)| extra >= *least) {
            continue;
        }
        let dimension = pen.dimension(top.at(from), top.at(to), direction, top.at(through), text);
        let (worse, dimension) = pen.text_freest(dimension);
        let (a, b) = (pen.px(dimension.line_from), pen.px(dimension.line_to));
        let across = pen.space.cost_over_read(a, b);
        let cost = pen.text_cost(&dimension.text) + worse + extra + across;
        if best.as_ref().is_none_or(|(least, _)| cost < *least) {
            best = Some((cost, dimension));
        }
    }
    let Some((_, dimension)) = best.filter(|(cost, _)| *cost < FIRM) else { return false };
    // Across a wall a figure is hard to read: the line stands alone, and the figure is led to it.
    let is_out = told.finding.code() == Code::OutsideRoom;
    if is_out && pen.text_cost(&dimension.text) >= Taken::Wall.cost() {
        let line = vec![dimension.line_from, dimension.line_to];
        pen.take_line(dimension.line_from, dimension.line_to, Taken::Line);
        pen.line(role, subject.cloned(), line);
        return false;
    }
    pen.put_dimension(role, subject.cloned(), dimension);
    if let Some(item) = pen.items.last_mut() {
        item.finding = Some(told.index);
    }
    true
}

/// The figure in words near its place, led to it.
fn written(pen: &mut Pen<'_>, top: &Top<'_>, told: &Flagged<'_>) {
    let text = match &told.finding.facts {
        Facts::OutsideRoom { too_large: Some(missing), .. } => Some(top.words.room_too_small(*missing)),
        _ => top.words.measure(told.finding),
    };
    let Some(text) = text else { return };
    let window = pen.window.grown(-6.0);
    let px = pen.px(top.at(told.finding.place.truncate())).clamp(window.low, window.high.max(window.low));
    let style = pen.style(size::LABEL, Weight::Bold);
    let before = pen.items.len();
    // Beside what it is about where that is small, else near the place itself.
    let most = NEAR_BODY_PX * pen.enlarged;
    let body = pen.bodies.place(told.finding.subjects.first());
    let body = body.filter(|own| own.size().max_element() < most && pen.window.holds(own.centre()));
    let is_ringed = told.finding.subjects.first().is_some_and(|own| top.state.told.contains(own));
    let body = body.map(|own| if is_ringed { own.grown(RINGED_PX) } else { own });
    let place: Bounds = body.unwrap_or_else(|| around(px, DVec2::splat(10.0 * pen.enlarged)));
    let wanted = Wanted {
        text: &text,
        brief: None,
        role: Role::DimensionStops,
        subject: told.finding.subjects.first().cloned(),
        style,
        around: place,
        most_width: f64::INFINITY,
        must: true,
        inside: false,
        body: None,
        led: true,
        most_cost: TOO_DEAR,
        under: None,
    };
    let numbered = top.state.numbered(*told);
    let tip = pen.tip_mm(&numbered, top.at(told.finding.place.truncate()));
    let is_put = pen.figure_kept(&wanted, &letter(numbered.number), tip) || pen.name(wanted);
    if is_put && let Some(item) = pen.items.get_mut(before..).and_then(<[_]>::last_mut) {
        item.finding = Some(told.index);
    }
}
