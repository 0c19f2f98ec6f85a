//! Heights on the side view: sensor and target, the runways, the room.

use std::collections::BTreeSet;

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::{Placement, SensorPoint, TargetHeight};
use baywright_planner::scene::{self, PlacedTarget};

use super::Side;
use crate::list::{Dimension, Text};
use crate::role::Role;
use crate::text::Align;
use crate::view::fit::WALL_PX;
use crate::view::pen::Pen;

/// Heights that differ by less than this are shown as one, mm: less than a tape shows.
const ONE_HEIGHT_MM: f64 = 0.5;
/// From the target, or the zone's end, to the first upright dimension, px; and to the next.
const FIRST_PX: f64 = 22.0;
const NEXT_PX: f64 = 16.0;

pub(super) fn heights(pen: &mut Pen<'_>, side: &Side<'_>) {
    let targets = side.scene.targets.iter().zip(&side.arrangement.aiming.placements);
    let standing: Vec<_> = targets.filter(|(target, _)| !target.lies).collect();
    // Up to where the targets' heights count from: an edge, where the procedure says so.
    let mut points: BTreeSet<SensorPoint> =
        standing.iter().filter_map(|(_, placement)| counted_from(placement)).collect();
    if points.is_empty() {
        points.insert(SensorPoint::Centre);
    }
    if let [(target, placement)] = standing.as_slice()
        && side.scene.targets.len() == 1
        && is_one(side, target, placement)
    {
        points.remove(&counted_from(placement).unwrap_or_default());
    }
    // An edge is told near the sensor: further off it would be taken for the target's.
    let edges = points.iter().filter(|point| **point != SensorPoint::Centre);
    edges.for_each(|point| of_sensor(pen, side, *point, NEAR_PLACES));
    for (target, placement) in standing {
        of_target(pen, side, target, placement);
    }
    if points.contains(&SensorPoint::Centre) {
        of_sensor(pen, side, SensorPoint::Centre, MOST_PLACES);
    }
    if side.scene.carried_at_mm > 0.0 {
        let up = side.scene.carried_at_mm;
        let car =
            side.scene.car.iter().map(|solid| side.along(&solid.outline).0).fold(f64::INFINITY, f64::min);
        if car.is_finite() {
            let places: Vec<f64> = (0..6)
                .map(|i| car - pen.length((16.0 + 16.0 * f64::from(i)) * pen.enlarged))
                .filter(|x| *x > side.room.0 + pen.length(8.0))
                .collect();
            let at = DVec2::new(car, up);
            put(pen, Role::Dimension, None, at, &places, &[side.words.runway_height(up)]);
        }
    }
    room(pen, side);
}

/// So many places are tried for the height of a point of the sensor, and so many near it.
const MOST_PLACES: u8 = 12;
const NEAR_PLACES: u8 = 5;

/// The height of a point of the sensor, at the best of so many places ahead of it.
fn of_sensor(pen: &mut Pen<'_>, side: &Side<'_>, point: SensorPoint, count: u8) {
    let height = scene::sensor_point_height(side.arrangement, point);
    let Some(height) = height.filter(|height| *height > 0.0) else { return };
    let sensor = side.at(side.scene.sensor());
    let places: Vec<f64> = (0..count)
        .map(|i| sensor.x + side.ahead * pen.length((FIRST_PX + NEXT_PX * f64::from(i)) * pen.enlarged))
        .collect();
    let texts = [side.words.sensor_height(height, point), side.words.sensor_height_alone(height, point)];
    let top = DVec2::new(sensor.x, height);
    put(pen, Role::Dimension, Some(Subject::Sensor), top, &places, &texts);
}

/// Whether a target stands as high as the point of the sensor that its height counts from.
fn is_one(side: &Side<'_>, target: &PlacedTarget, placement: &Placement) -> bool {
    let point = counted_from(placement).unwrap_or_default();
    let from = scene::sensor_point_height(side.arrangement, point);
    from.is_some_and(|from| (target.set.height_mm - from).abs() < ONE_HEIGHT_MM)
}

fn of_target(pen: &mut Pen<'_>, side: &Side<'_>, target: &PlacedTarget, placement: &Placement) {
    let (centre, kind) = (side.at(target.centre()), placement.target.kind);
    let point = counted_from(placement).unwrap_or_default();
    // As it stands, which need not be as it is meant.
    let from = scene::sensor_point_height(side.arrangement, point);
    let above = from.map(|from| (point, centre.y - from));
    // Of two that read alike each says whose it is.
    let is_alike = |own: &&PlacedTarget| {
        !own.lies && own.id != target.id && (own.centre().z - centre.y).abs() < ONE_HEIGHT_MM
    };
    let (text, brief) = if side.scene.targets.iter().any(|own| is_alike(&own)) {
        (side.words.target_height_of(centre.y, placement, above), None)
    } else if is_one(side, target, placement) {
        (side.words.one_height(centre.y, kind, point), None)
    } else {
        let brief = side.words.target_height(centre.y, kind, None);
        (side.words.target_height(centre.y, kind, above), Some(brief))
    };
    let texts = [Some(text), brief].into_iter().flatten().collect::<Vec<_>>();
    let places = ahead_of(pen, side, centre.x);
    put(pen, Role::Dimension, Some(Subject::Target(target.id.clone())), centre, &places, &texts);
}

/// The point of the sensor that a target's height counts from; `None` where it counts from none.
const fn counted_from(placement: &Placement) -> Option<SensorPoint> {
    match placement.height {
        TargetHeight::FromSensor { point, .. } => Some(point),
        TargetHeight::Absolute(_) | TargetHeight::OnFloor => None,
    }
}

/// The height of the room: it gives way to what the aiming asks.
fn room(pen: &mut Pen<'_>, side: &Side<'_>) {
    let ceiling = side.arrangement.bay.ceiling_mm;
    let room = side.words.dimension(ceiling);
    let inset = pen.length(46.0 * pen.enlarged);
    let next = pen.length(NEXT_PX * pen.enlarged);
    let behind = side.room.0 + pen.length(26.0 * pen.enlarged);
    let places: Vec<f64> = (0..3)
        .flat_map(|i| [side.room.1 - inset - next * f64::from(i), behind + next * f64::from(i)])
        .collect();
    put(pen, Role::Dimension, Some(Subject::Ceiling), DVec2::new(side.room.1, ceiling), &places, &[room]);
}

/// Where the height of a target may stand: ahead of it, then ahead of the zones about it, then behind.
fn ahead_of(pen: &Pen<'_>, side: &Side<'_>, x: f64) -> Vec<f64> {
    // All counted ahead, whichever way that is on the paper.
    let ahead = side.ahead;
    let (x, wall) = (x * ahead, (side.room.0 * ahead).max(side.room.1 * ahead));
    let end = |(low, high): (f64, f64)| (low * ahead).max(high * ahead);
    let zone_ends = side.scene.zones.iter().map(|z| end(side.along(&z.prism.outline))).filter(|end| *end > x);
    let first = pen.length(FIRST_PX * pen.enlarged);
    let next = pen.length(NEXT_PX * pen.enlarged);
    let ends: Vec<f64> = zone_ends.map(|end| end + first * 0.6).collect();
    let after = (0..6).map(|i| x + first + next * f64::from(i));
    let before = (0..20).map(|i| x - first - next * f64::from(i));
    let near_wall = |x: &f64| *x < wall - next;
    let all = ends.into_iter().chain(after).filter(near_wall).chain(before);
    all.map(|x| x * ahead).collect()
}

/// What it costs a height's text to stand on the left of its line, above it, or below the floor.
const LEFT_COST: f64 = 6.0;
const ABOVE_COST: f64 = 9.0;
const BELOW_COST: f64 = 36.0;
/// And half way between its middle and an end.
const QUARTER_COST: f64 = 3.0;

/// What it costs to say it more briefly.
const BRIEF_COST: f64 = 45.0;

/// An upright dimension from the floor to `top`, at the first of the places that costs least, with the first of the texts that
/// has room: each says less than the one before.
fn put(
    pen: &mut Pen<'_>,
    role: Role,
    subject: Option<Subject>,
    top: DVec2,
    places: &[f64],
    texts: &[String],
) {
    let foot = DVec2::new(top.x, 0.0);
    let says: Vec<&str> = texts.iter().map(String::as_str).collect();
    if let Some(still) = pen.still_dimension(role, subject.as_ref(), (foot, top), &says) {
        pen.put_dimension(role, subject, still);
        return;
    }
    let mut best: Option<(f64, Dimension)> = None;
    let off = pen.length(6.0);
    let below = pen.length(WALL_PX + 9.0 * pen.enlarged);
    let above = pen.length(10.0 * pen.enlarged);
    let tries = texts.iter().enumerate().flat_map(|(said, text)| {
        places.iter().enumerate().map(move |(i, &x)| (said as f64 * BRIEF_COST + i as f64 * 2.0, x, text))
    });
    for (place_cost, x, text) in tries {
        if best.as_ref().is_some_and(|(least, _)| place_cost >= *least) {
            continue;
        }
        let dimension = pen.dimension(foot, top, DVec2::Y, DVec2::new(x, 0.0), text);
        let (a, b) = (pen.px(dimension.line_from), pen.px(dimension.line_to));
        let line = Bounds { low: a.min(b), high: a.max(b) }.grown(3.0);
        let line_cost = place_cost + pen.space.cost(line);
        // Read level, beside the line or beyond one of its ends.
        let tries = [
            (0.0, DVec2::new(x + off, top.y * 0.5), Align::Start),
            (QUARTER_COST, DVec2::new(x + off, top.y * 0.75), Align::Start),
            (QUARTER_COST, DVec2::new(x + off, top.y * 0.25), Align::Start),
            (LEFT_COST, DVec2::new(x - off, top.y * 0.5), Align::End),
            (ABOVE_COST, DVec2::new(x, top.y + above), Align::Middle),
            (BELOW_COST, DVec2::new(x, -below), Align::Middle),
        ];
        let half = pen.length(dimension.text.style.line_height() * 0.5);
        // Over the floor or under it, never across.
        let is_clear = |at: &DVec2| at.y < 0.0 || at.y >= half;
        for (extra, at, align) in tries.into_iter().filter(|(_, at, _)| is_clear(at)) {
            let text = Text { at, align, angle: 0.0, ..dimension.text.clone() };
            let cost = extra + line_cost + pen.text_cost(&text);
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, Dimension { text, ..dimension.clone() }));
            }
        }
    }
    if let Some((_, dimension)) = best {
        pen.put_dimension(role, subject, dimension);
    }
}
