//! What is painted before what: of two faces that are seen in one direction the nearer one later.
//!
//! Faces are looked at on a plane a unit ahead of the sensor, where straight edges stay straight and one over the distance ahead runs
//! evenly over a flat face. Of two convex faces that do not run through one another the same one is nearer wherever both are seen, so
//! that one look at a place that they share decides.

use baywright_planner::geometry::polygon::signed_area;
use baywright_planner::geometry::{Bounds, DVec2, DVec3};

use crate::clip;

/// A face whose plane runs nearer past the sensor than this, mm, is seen edge on.
const EDGE_ON_MM: f64 = 1e-6;
/// Two faces that share less than this on the plane ahead share an edge: (0.002°)².
const EDGE: f64 = 1e-9;
/// Faces that are as near as that share of their distance are one.
const ALIKE: f64 = 1e-9;

/// A convex flat face on the plane a unit ahead: to the left, and up.
#[derive(Clone, Debug)]
pub(crate) struct Flat {
    ring: Vec<DVec2>,
    bounds: Bounds,
    normal: DVec3,
    offset: f64,
}

impl Flat {
    /// Of a convex flat ring of the sensor's frame, all of it ahead; `None` of what has no area or is seen edge on.
    pub fn of(ring: &[DVec3]) -> Option<Self> {
        let middle = ring.iter().sum::<DVec3>() / ring.len().max(1) as f64;
        let next = ring.iter().cycle().skip(1);
        let normal: DVec3 = ring.iter().zip(next).map(|(&a, &b)| (a - middle).cross(b - middle)).sum();
        let normal = normal.try_normalize()?;
        let offset = normal.dot(middle);
        let mut flat: Vec<DVec2> = ring.iter().map(|p| DVec2::new(p.y, p.z) / p.x).collect();
        let area = signed_area(&flat);
        if offset.abs() < EDGE_ON_MM || area.abs() < EDGE || !area.is_finite() {
            return None;
        }
        if area < 0.0 {
            flat.reverse();
        }
        let bounds = Bounds::around(flat.iter().copied())?;
        Some(Self { ring: flat, bounds, normal, offset })
    }

    /// One over how far ahead of the sensor it lies there.
    fn nearness(&self, at: DVec2) -> f64 {
        self.normal.dot(DVec3::new(1.0, at.x, at.y)) / self.offset
    }

    /// Whether it hides a part of another one, or is hidden by it; `None` where they share nothing.
    fn hides(&self, other: &Self) -> Option<bool> {
        if !self.bounds.meets(&other.bounds) {
            return None;
        }
        let edges = other.ring.iter().zip(other.ring.iter().cycle().skip(1));
        let mut shared = self.ring.clone();
        for (&from, &to) in edges {
            shared = clip::half_plane(&shared, from, (to - from).perp());
            if shared.len() < 3 {
                return None;
            }
        }
        if signed_area(&shared) < EDGE {
            return None;
        }
        let middle = shared.iter().sum::<DVec2>() / shared.len() as f64;
        let (own, its) = (self.nearness(middle), other.nearness(middle));
        ((own - its).abs() > ALIKE * own.abs().max(its.abs())).then_some(own > its)
    }
}

/// The order in which faces are painted, each made of convex pieces. Faces that hide one another in a ring, or run through one
/// another, have no right order: then the one that lies farther off comes first.
pub(crate) fn farthest_first(faces: &[&[Flat]]) -> Vec<usize> {
    let far = |own: &[Flat]| -> f64 {
        let near = own.iter().flat_map(|flat| flat.ring.iter().map(|&at| flat.nearness(at).abs()));
        1.0 / near.fold(f64::MIN_POSITIVE, f64::max)
    };
    let far: Vec<f64> = faces.iter().map(|own| far(own)).collect();
    let mut pieces: Vec<(usize, &Flat)> =
        faces.iter().enumerate().flat_map(|(at, own)| own.iter().map(move |flat| (at, flat))).collect();
    pieces.sort_by(|a, b| a.1.bounds.low.x.total_cmp(&b.1.bounds.low.x));
    // What is hidden by each, and how many hide or are behind it that are not painted yet.
    let mut before: Vec<Vec<usize>> = vec![Vec::new(); faces.len()];
    let mut waits_for = vec![0_usize; faces.len()];
    let mut add = |behind: usize, front: usize| {
        if let (Some(later), Some(count)) = (before.get_mut(behind), waits_for.get_mut(front)) {
            later.push(front);
            *count += 1;
        }
    };
    for (nth, (one, flat)) in pieces.iter().enumerate() {
        let beside = pieces.iter().skip(nth + 1);
        for (other, its) in beside.take_while(|(_, its)| its.bounds.low.x <= flat.bounds.high.x) {
            if one != other {
                match flat.hides(its) {
                    Some(true) => add(*other, *one),
                    Some(false) => add(*one, *other),
                    None => {}
                }
            }
        }
    }
    let mut left: Vec<usize> = (0..faces.len()).collect();
    let mut order = Vec::with_capacity(faces.len());
    let by_far = |a: usize, b: usize| match (far.get(a), far.get(b)) {
        (Some(one), Some(other)) => one.total_cmp(other),
        _ => std::cmp::Ordering::Equal,
    };
    while !left.is_empty() {
        let is_free = |own: &usize| waits_for.get(*own).is_none_or(|count| *count == 0);
        let farthest = |all: &mut dyn Iterator<Item = (usize, usize)>| {
            all.max_by(|a, b| by_far(a.1, b.1)).map(|(place, _)| place)
        };
        let mut free = left.iter().copied().enumerate().filter(|(_, own)| is_free(own));
        let place = farthest(&mut free).or_else(|| farthest(&mut left.iter().copied().enumerate()));
        let next = left.swap_remove(place.unwrap_or(0));
        for &front in before.get(next).into_iter().flatten() {
            if let Some(count) = waits_for.get_mut(front) {
                *count = count.saturating_sub(1);
            }
        }
        order.push(next);
    }
    order
}
