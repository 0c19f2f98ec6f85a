//! How far one sees: a fan and a line that end at what hides what lies behind it, and the shadow on the target.
//!
//! Only for drawing, in the plane of a view: what hides, and how much, is said by the findings.

use baywright_planner::Subject;
use baywright_planner::geometry::{DVec2, angle};
use baywright_planner::model::Id;

use crate::role::Role;
use crate::view::pen::Pen;
use crate::view::space::Taken;

/// Steps of a fan's arc, radians: about three degrees.
const FAN_STEP: f64 = 0.05;
/// Beside a corner of what hides, a ray is sent past it on both sides, radians.
const BESIDE: f64 = 1e-6;
/// So many rays are sent at a target, and so few where what hides has very many edges.
const RAYS: u32 = 256;
const FEWEST_RAYS: u32 = 16;
/// So many times at most a ray is held against an edge, so that dense bays are drawn in bounded work: beyond it a fan goes past
/// corners as its own steps fall.
const MOST_CROSSINGS: usize = 250_000;
/// A shadow is drawn this thick on a target, px.
const SHADOW_PX: f64 = 5.0;

/// What is seen from `eye` within `half` (radians) on both sides of `ahead`, as a ring that begins at the eye: to `reach`, mm,
/// or to the first ring that hides.
pub(crate) fn fan(eye: DVec2, ahead: f64, half: f64, reach: f64, hiders: &[Vec<DVec2>]) -> Vec<DVec2> {
    let steps = 2 + (half / FAN_STEP) as u32;
    let even = (0..=steps).map(|i| half * (2.0 * f64::from(i) / f64::from(steps) - 1.0));
    let edges = edges(hiders);
    let is_bounded = 2 * edges.saturating_mul(edges) <= MOST_CROSSINGS;
    let corners = hiders.iter().flatten().filter(|_| is_bounded).flat_map(|&corner| {
        let at = angle::wrapped(angle::heading(corner - eye) - ahead);
        [at - BESIDE, at + BESIDE]
    });
    let mut turns: Vec<f64> = even.chain(corners.filter(|turn| turn.abs() <= half)).collect();
    turns.sort_by(f64::total_cmp);
    let rays = turns.into_iter().map(|turn| {
        let end = eye + angle::direction(ahead + turn) * reach;
        eye.lerp(end, seen(eye, end, hiders))
    });
    std::iter::once(eye).chain(rays).collect()
}

fn edges(hiders: &[Vec<DVec2>]) -> usize {
    hiders.iter().map(Vec::len).sum()
}

/// The share of the way from `eye` to `end` before the first ring that hides; 1 if none does.
fn seen(eye: DVec2, end: DVec2, hiders: &[Vec<DVec2>]) -> f64 {
    let way = end - eye;
    let mut share = 1.0_f64;
    for ring in hiders {
        for (&a, &b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            let edge = b - a;
            let across = way.perp_dot(edge);
            if across == 0.0 {
                continue;
            }
            let (on_way, on_edge) = ((a - eye).perp_dot(edge) / across, (a - eye).perp_dot(way) / across);
            if (0.0..=1.0).contains(&on_edge) && on_way >= 0.0 {
                share = share.min(on_way);
            }
        }
    }
    share
}

/// The line from the sensor to a target: full as far as it is seen along, and dashed behind what hides.
pub(crate) fn sight_line(pen: &mut Pen<'_>, target: &Id, (eye, to): (DVec2, DVec2), hiders: &[Vec<DVec2>]) {
    let subject = Some(Subject::Target(target.clone()));
    let stop = eye.lerp(to, seen(eye, to, hiders));
    pen.line(Role::SightLine, subject.clone(), vec![eye, stop]);
    if stop != to {
        pen.line(Role::SightLineHidden, subject, vec![stop, to]);
    }
    pen.take_line(eye, to, Taken::Wall);
}

/// The stretches of a face, from one end to the other, that are hidden from the eye: in shares of it.
fn hidden(eye: DVec2, [a, b]: [DVec2; 2], hiders: &[Vec<DVec2>]) -> Vec<(f64, f64)> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    let most = u32::try_from(MOST_CROSSINGS / edges(hiders).max(1)).unwrap_or(RAYS);
    let rays = most.clamp(FEWEST_RAYS, RAYS);
    let step = 1.0 / f64::from(rays);
    for i in 0..rays {
        let from = f64::from(i) * step;
        if seen(eye, a.lerp(b, from + 0.5 * step), hiders) >= 1.0 {
            continue;
        }
        match found.last_mut() {
            Some(last) if from - last.1 < 0.5 * step => last.1 = from + step,
            _ => found.push((from, from + step)),
        }
    }
    found
}

/// The shadow that falls on a target's face, and what lies in it before the face.
pub(crate) fn on_target(pen: &mut Pen<'_>, target: &Id, eye: DVec2, ends: [DVec2; 2], hiders: &[Vec<DVec2>]) {
    let subject = Some(Subject::Target(target.clone()));
    let behind = (ends[1] - ends[0]).perp().normalize_or_zero();
    let behind =
        if behind.dot(ends[0] - eye) < 0.0 { -behind } else { behind } * pen.length(SHADOW_PX * pen.enlarged);
    for (from, to) in hidden(eye, ends, hiders) {
        let rays = [0.0, 0.25, 0.5, 0.75, 1.0].map(|share| ends[0].lerp(ends[1], from + (to - from) * share));
        let near = rays.map(|ray| {
            // A hair inside, so that a ray along a corner of what hides meets it.
            let inside = ray.lerp((rays[0] + rays[4]) * 0.5, 1e-3);
            eye.lerp(inside, seen(eye, inside, hiders))
        });
        let ring = near.into_iter().chain([rays[4], rays[0]]).collect();
        pen.ring(Role::Shadow, subject.clone(), ring);
        let bar = vec![rays[0], rays[4], rays[4] + behind, rays[0] + behind];
        pen.ring(Role::ShadowOnTarget, subject.clone(), bar);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> Vec<DVec2> {
        [(4.0, -1.0), (6.0, -1.0), (6.0, 1.0), (4.0, 1.0)].map(|(x, y)| DVec2::new(x, y)).to_vec()
    }

    #[test]
    fn one_sees_to_the_near_side_of_what_hides() {
        assert_eq!(seen(DVec2::ZERO, DVec2::new(8.0, 0.0), &[square()]), 0.5);
        assert_eq!(seen(DVec2::ZERO, DVec2::new(8.0, 4.0), &[square()]), 1.0);
        assert_eq!(seen(DVec2::ZERO, DVec2::new(2.0, 0.0), &[square()]), 1.0, "it stands behind the target");
        assert_eq!(seen(DVec2::ZERO, DVec2::new(-8.0, 0.0), &[square()]), 1.0, "it stands on the other side");
    }

    /// By similar triangles: the near side's corners, at 4 ahead and 1 aside, cast their shadow at 2 aside on a face 8 ahead.
    #[test]
    fn the_shadow_is_as_wide_as_similar_triangles_say() {
        let face = [DVec2::new(8.0, -4.0), DVec2::new(8.0, 4.0)];
        let shadow = hidden(DVec2::ZERO, face, &[square()]);
        let [(from, to)] = shadow[..] else { panic!("{shadow:?}") };
        assert!((from - 0.25).abs() < 0.01 && (to - 0.75).abs() < 0.01, "{from} {to}");
    }

    #[test]
    fn a_fan_keeps_to_this_side_of_what_hides() {
        let fan = fan(DVec2::ZERO, 0.0, 0.5, 10.0, &[square()]);
        let straight: Vec<&DVec2> = fan.iter().skip(1).filter(|p| p.y.abs() < 0.24 * p.x).collect();
        assert!(straight.len() > 2 && straight.iter().all(|p| (p.x - 4.0).abs() < 1e-9), "{fan:?}");
        assert!(
            fan.iter().skip(1).filter(|p| p.y.abs() > 0.26 * p.x).all(|p| (p.length() - 10.0).abs() < 1e-9)
        );
    }
}
