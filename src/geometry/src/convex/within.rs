//! Convex rings made smaller.

use glam::DVec2;

use super::clip::cut_off;
use crate::bounds::Bounds;
use crate::polygon::ring_edges;

/// The moves after which all of one shape, given by corners, lies inside a convex ring or on it: a convex ring, anticlockwise;
/// empty if there is none, or no area of them (the erosion of the ring by the shape).
///
/// ```rust
/// # use baywright_geometry::*;
/// # use baywright_geometry::convex::moves_within;
/// let room = [(0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (0.0, 4.0)].map(DVec2::from);
/// let car = [(-2.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-2.0, 1.0)].map(DVec2::from);
/// let places = Bounds::around(moves_within(&room, &car));
/// assert_eq!(places, Some(Bounds { low: DVec2::new(2.0, 1.0), high: DVec2::new(7.0, 3.0) }));
/// assert!(moves_within(&car, &room).is_empty());
/// ```
pub fn moves_within(ring: &[DVec2], moves: &[DVec2]) -> Vec<DVec2> {
    let Some(own) = Bounds::around(moves.iter().copied()) else { return ring.to_vec() };
    shrunk(ring, own, |inward| moves.iter().map(|q| inward.dot(*q)).fold(f64::INFINITY, f64::min))
}

/// A convex ring with each side so much further in, mm: all that is so far inside; empty if nothing is.
///
/// ```rust
/// # use baywright_geometry::*;
/// # use baywright_geometry::convex::inset;
/// let room = [(0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (0.0, 4.0)].map(DVec2::from);
/// let inner = Bounds::around(inset(&room, 1.0));
/// assert_eq!(inner, Some(Bounds { low: DVec2::new(1.0, 1.0), high: DVec2::new(7.0, 3.0) }));
/// assert!(inset(&room, 2.5).is_empty());
/// ```
pub fn inset(ring: &[DVec2], by_mm: f64) -> Vec<DVec2> {
    let here = Bounds { low: DVec2::ZERO, high: DVec2::ZERO };
    shrunk(ring, here, |_| -by_mm)
}

/// All points left of every side after each was moved against its inward normal by what `least` says, at most as far as `own` reaches.
fn shrunk(ring: &[DVec2], own: Bounds, least: impl Fn(DVec2) -> f64) -> Vec<DVec2> {
    let Some(around) = Bounds::around(ring.iter().copied()) else { return Vec::new() };
    // Wider than every place can be.
    let (low, high) = (around.low - own.high - DVec2::ONE, around.high - own.low + DVec2::ONE);
    let mut kept = vec![low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
    let mut cut = Vec::with_capacity(ring.len() + 4);
    for side in ring_edges(ring) {
        let inward = (side.to - side.from).normalize_or_zero().perp();
        if inward == DVec2::ZERO {
            continue;
        }
        let limit = inward.dot(side.from) - least(inward);
        cut_off(&mut kept, &mut cut, |p| inward.dot(p) - limit);
    }
    kept.dedup();
    if kept.len() > 1 && kept.first() == kept.last() {
        kept.pop();
    }
    if kept.len() < 3 { Vec::new() } else { kept }
}
