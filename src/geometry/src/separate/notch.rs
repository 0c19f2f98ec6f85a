//! Where the boundaries of two forbidden sets cross and the way between them leads only further out.

use glam::DVec2;

use super::forbidden::{Forbidden, Round, Wall};
use crate::bounds::Bounds;

/// How far outside the angle between two normals a move may point and still count as squeezed between them, as a share
/// of its length: rounding of unit vectors.
const SQUEEZE: f64 = 1e-9;

/// Sides whose directions differ by less, radians, have no crossing worth computing.
const PARALLEL: f64 = 1e-12;

/// One side of a set: straight or round.
enum Side<'a> {
    Wall(&'a Wall),
    Round(&'a Round),
}

struct Entry<'a> {
    set: usize,
    side: Side<'a>,
    bounds: Bounds,
}

/// All notches between sides of different sets, no further than `bound` from staying put.
pub(super) fn between(sets: &[Forbidden], bound: f64, slack: f64) -> Vec<DVec2> {
    let mut entries: Vec<Entry<'_>> = Vec::new();
    for (set, forbidden) in sets.iter().enumerate() {
        for wall in &forbidden.walls {
            let (from, to) = (wall.side.from, wall.side.to);
            let bounds = Bounds { low: from.min(to), high: from.max(to) }.grown(slack);
            entries.push(Entry { set, side: Side::Wall(wall), bounds });
        }
        for round in &forbidden.rounds {
            let reach = DVec2::splat(round.radius);
            let bounds = Bounds { low: round.centre - reach, high: round.centre + reach }.grown(slack);
            entries.push(Entry { set, side: Side::Round(round), bounds });
        }
    }
    let here = Bounds { low: DVec2::ZERO, high: DVec2::ZERO };
    entries.retain(|e| e.bounds.gap_squared(&here) <= bound * bound);
    entries.sort_by(|a, b| a.bounds.low.x.total_cmp(&b.bounds.low.x));
    let mut found = Vec::new();
    for (i, a) in entries.iter().enumerate() {
        let near = entries.iter().skip(i + 1).take_while(|b| b.bounds.low.x <= a.bounds.high.x);
        for b in near.filter(|b| b.set != a.set && b.bounds.meets(&a.bounds)) {
            crossings(&a.side, &b.side, slack, &mut found);
        }
    }
    found
}

/// Adds the crossings of two sides that are notches.
fn crossings(a: &Side<'_>, b: &Side<'_>, slack: f64, found: &mut Vec<DVec2>) {
    let mut add = |t: DVec2, m: DVec2, n: DVec2| {
        if squeezed(t, m, n) {
            found.push(t);
        }
    };
    match (a, b) {
        (Side::Wall(a), Side::Wall(b)) => {
            if let Some(t) = walls_cross(a, b, slack) {
                add(t, a.out, b.out);
            }
        }
        (Side::Wall(wall), Side::Round(round)) | (Side::Round(round), Side::Wall(wall)) => {
            for t in wall_meets_round(wall, round, slack) {
                add(t, wall.out, (t - round.centre) / round.radius);
            }
        }
        (Side::Round(a), Side::Round(b)) => {
            for t in rounds_meet(a, b) {
                add(t, (t - a.centre) / a.radius, (t - b.centre) / b.radius);
            }
        }
    }
}

/// Whether `t` points between the outward normals `m` and `n`, so that every way on from it that enters neither set
/// leads further out.
fn squeezed(t: DVec2, m: DVec2, n: DVec2) -> bool {
    let cross = m.perp_dot(n);
    if cross.abs() < PARALLEL {
        return false;
    }
    let least = -SQUEEZE * t.length();
    t.perp_dot(n) / cross >= least && m.perp_dot(t) / cross >= least
}

fn walls_cross(a: &Wall, b: &Wall, slack: f64) -> Option<DVec2> {
    let cross = a.along.perp_dot(b.along);
    if cross.abs() < PARALLEL {
        return None;
    }
    let off = b.side.from - a.side.from;
    let on_a = off.perp_dot(b.along) / cross;
    let on_b = off.perp_dot(a.along) / cross;
    let within = |share: f64, wall: &Wall| share >= -slack && share <= wall.side.length() + slack;
    (within(on_a, a) && within(on_b, b)).then(|| a.side.from + a.along * on_a)
}

fn wall_meets_round(wall: &Wall, round: &Round, slack: f64) -> Vec<DVec2> {
    let off = round.centre - wall.side.from;
    let middle = off.dot(wall.along);
    let aside = off.dot(wall.out);
    if aside.abs() > round.radius + slack {
        return Vec::new();
    }
    let half = ((round.radius - aside) * (round.radius + aside)).max(0.0).sqrt();
    [middle - half, middle + half]
        .into_iter()
        .filter(|&share| share >= -slack && share <= wall.side.length() + slack)
        .map(|share| wall.side.from + wall.along * share)
        .filter(|&t| round.faces((t - round.centre) / round.radius))
        .collect()
}

fn rounds_meet(a: &Round, b: &Round) -> Vec<DVec2> {
    let off = b.centre - a.centre;
    let far = off.length();
    if far == 0.0 || far > a.radius + b.radius || far < (a.radius - b.radius).abs() {
        return Vec::new();
    }
    let along = off / far;
    let share = (far * far + (a.radius - b.radius) * (a.radius + b.radius)) / (2.0 * far);
    let half = ((a.radius - share) * (a.radius + share)).max(0.0).sqrt();
    [half, -half]
        .into_iter()
        .map(|h| a.centre + along * share + along.perp() * h)
        .filter(|&t| a.faces((t - a.centre) / a.radius) && b.faces((t - b.centre) / b.radius))
        .collect()
}
