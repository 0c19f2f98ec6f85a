//! What two convex rings share.

use glam::DVec2;

use crate::polygon::ring_edges;
use crate::predicate::turn;

/// The ring common to two convex, anticlockwise rings; fewer than three corners if they share no area
/// (Sutherland and Hodgman 1974: one ring cut by the line of each side of the other).
///
/// ```rust
/// # use baywright_geometry::*;
/// # use baywright_geometry::convex::common;
/// let a = Polygon::rectangle(DVec2::ZERO, DVec2::splat(4.0))?;
/// let both = common(a.outer(), a.moved(DVec2::new(1.0, 3.0)).outer());
/// assert_eq!(Bounds::around(both), Some(Bounds { low: DVec2::new(1.0, 3.0), high: DVec2::splat(4.0) }));
/// assert!(common(a.outer(), &[]).is_empty() && common(&[], a.outer()).is_empty());
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn common(a: &[DVec2], b: &[DVec2]) -> Vec<DVec2> {
    // Without a side nothing would be cut off.
    if b.len() < 3 {
        return Vec::new();
    }
    let mut kept: Vec<DVec2> = Vec::with_capacity(a.len() + b.len());
    kept.extend(a);
    let mut cut: Vec<DVec2> = Vec::with_capacity(a.len() + b.len());
    for e in ring_edges(b) {
        cut_off(&mut kept, &mut cut, |p| turn(e.from, e.to, p));
    }
    kept
}

/// Leaves of a ring what lies inside a line or on it: where `inside`, which follows a point evenly, is not negative. `spare` is room to work in.
pub(super) fn cut_off(ring: &mut Vec<DVec2>, spare: &mut Vec<DVec2>, inside: impl Fn(DVec2) -> f64) {
    let Some(&last) = ring.last() else { return };
    spare.clear();
    let mut before = (last, inside(last));
    for &p in ring.iter() {
        let here = (p, inside(p));
        if (before.1 < 0.0 && here.1 > 0.0) || (before.1 > 0.0 && here.1 < 0.0) {
            spare.push(before.0 + (here.0 - before.0) * (before.1 / (before.1 - here.1)));
        }
        if here.1 >= 0.0 {
            spare.push(p);
        }
        before = here;
    }
    std::mem::swap(ring, spare);
}
