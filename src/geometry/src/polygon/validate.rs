//! What makes rings a polygon: one validator, typed and located, decided by exact predicates.

use glam::DVec2;

use super::{ring_edges, signed_area};
use crate::bounds::Bounds;
use crate::fault::ShapeFault;
use crate::predicate::{Meeting, meeting, side};
use crate::segment::Segment;
use crate::tolerance::{MOST_CORNERS, REACH_MM};

/// The first reason why these rings make no polygon.
pub(super) fn rings(outer: &[DVec2], holes: &[Vec<DVec2>]) -> Result<(), ShapeFault> {
    ring(0, outer)?;
    for (i, hole) in holes.iter().enumerate() {
        ring(i + 1, hole)?;
    }
    for (i, hole) in holes.iter().enumerate() {
        if rings_cross(outer, hole) || !ring_within(hole, outer) {
            return Err(ShapeFault::HoleOutside { ring: i + 1 });
        }
        for (j, other) in holes.iter().enumerate().take(i) {
            if rings_cross(other, hole) || ring_within(hole, other) || ring_within(other, hole) {
                return Err(ShapeFault::HolesOverlap { first: j + 1, second: i + 1 });
            }
        }
    }
    Ok(())
}

fn ring(ring: usize, corners: &[DVec2]) -> Result<(), ShapeFault> {
    let n = corners.len();
    if n < 3 {
        return Err(ShapeFault::TooFewCorners { ring, corners: n });
    }
    if n > MOST_CORNERS {
        return Err(ShapeFault::TooManyCorners { ring, corners: n });
    }
    for (corner, p) in corners.iter().enumerate() {
        if !(p.is_finite() && p.abs().max_element() <= REACH_MM) {
            return Err(ShapeFault::OutOfReach { ring, corner });
        }
    }
    if let Some(i) = (0..n).find(|&i| corners[i] == corners[(i + 1) % n]) {
        return Err(ShapeFault::RepeatedCorner { ring, corner: (i + 1) % n });
    }
    if corners.iter().all(|&p| side(corners[0], corners[1], p).is_eq()) {
        return Err(ShapeFault::NoArea { ring });
    }
    crossing(ring, corners)?;
    // A ring that crosses nowhere and is not all on one line encloses something; this guards against underflow.
    if signed_area(corners) == 0.0 {
        return Err(ShapeFault::NoArea { ring });
    }
    Ok(())
}

/// Edges sorted by their left end, so that only those whose x ranges meet are compared.
fn crossing(ring: usize, corners: &[DVec2]) -> Result<(), ShapeFault> {
    let n = corners.len();
    let edges: Vec<Segment> = ring_edges(corners).collect();
    let low_x = |i: usize| edges[i].from.x.min(edges[i].to.x);
    let high_x = |i: usize| edges[i].from.x.max(edges[i].to.x);
    let mut order: Vec<usize> = (0..n).collect();
    order.sort_by(|&a, &b| low_x(a).total_cmp(&low_x(b)));
    for (k, &i) in order.iter().enumerate() {
        for &j in order[k + 1..].iter().take_while(|&&j| low_x(j) <= high_x(i)) {
            let (first, second) = (i.min(j), i.max(j));
            let neighbours = second == first + 1 || (first == 0 && second == n - 1);
            let allowed = if neighbours { Meeting::Touch } else { Meeting::Apart };
            if meeting(&edges[first], &edges[second]) != allowed {
                return Err(ShapeFault::SelfCrossing { ring, first, second });
            }
        }
    }
    Ok(())
}

/// Whether two rings properly cross or share a stretch; touching at points is allowed.
fn rings_cross(a: &[DVec2], b: &[DVec2]) -> bool {
    let boxes = (Bounds::around(a.iter().copied()), Bounds::around(b.iter().copied()));
    if let (Some(a), Some(b)) = boxes
        && !a.meets(&b)
    {
        return false;
    }
    ring_edges(a).any(|p| ring_edges(b).any(|q| matches!(meeting(&p, &q), Meeting::Cross | Meeting::Overlap)))
}

/// Whether `inner`, known not to cross `outer`, lies inside it: its first corner or edge middle that is not on the
/// boundary decides.
fn ring_within(inner: &[DVec2], outer: &[DVec2]) -> bool {
    let probes = ring_edges(inner).flat_map(|e| [e.from, e.at(0.5)]);
    for p in probes {
        match winding(outer, p) {
            Some(inside) => return inside,
            None => continue,
        }
    }
    // Every probe lies on the outer ring: the two are the same ring, or the inner one is inscribed corner to corner.
    true
}

/// Whether `p` lies inside the ring; `None` if on it. Crossing count with exact sides.
pub(crate) fn winding(ring: &[DVec2], p: DVec2) -> Option<bool> {
    let mut inside = false;
    for e in ring_edges(ring) {
        if on_edge(&e, p) {
            return None;
        }
        if (e.from.y > p.y) != (e.to.y > p.y) {
            let left = side(e.from, e.to, p).is_gt();
            if left == (e.to.y > e.from.y) {
                inside = !inside;
            }
        }
    }
    Some(inside)
}

fn on_edge(e: &Segment, p: DVec2) -> bool {
    let low = e.from.min(e.to);
    let high = e.from.max(e.to);
    low.cmple(p).all() && p.cmple(high).all() && side(e.from, e.to, p).is_eq()
}

#[cfg(test)]
mod tests {
    use super::super::Polygon;
    use super::*;

    fn points(points: &[(f64, f64)]) -> Vec<DVec2> {
        points.iter().map(|&p| p.into()).collect()
    }

    fn check(outer: &[(f64, f64)], holes: &[&[(f64, f64)]], expected: Result<(), ShapeFault>) {
        let holes = holes.iter().map(|h| points(h)).collect();
        assert_eq!(Polygon::new(points(outer), holes).map(|_| ()), expected);
    }

    const SQUARE: &[(f64, f64)] = &[(0., 0.), (8., 0.), (8., 8.), (0., 8.)];

    #[test]
    fn faults_are_typed_and_located() {
        use ShapeFault::*;
        check(SQUARE, &[], Ok(()));
        check(&[(0., 0.), (1., 0.)], &[], Err(TooFewCorners { ring: 0, corners: 2 }));
        check(&[(0., 0.), (1., 0.), (f64::NAN, 1.)], &[], Err(OutOfReach { ring: 0, corner: 2 }));
        check(&[(0., 0.), (1e300, 0.), (1., 1.)], &[], Err(OutOfReach { ring: 0, corner: 1 }));
        check(&[(0., 0.), (1., 0.), (1., 0.), (0., 1.)], &[], Err(RepeatedCorner { ring: 0, corner: 2 }));
        check(&[(0., 0.), (1., 0.), (2., 0.)], &[], Err(NoArea { ring: 0 }));
        check(
            &[(0., 0.), (2., 2.), (2., 0.), (0., 2.)],
            &[],
            Err(SelfCrossing { ring: 0, first: 0, second: 2 }),
        );
        // A spike: out and back along the same line.
        check(
            &[(0., 0.), (4., 0.), (2., 0.), (2., 2.)],
            &[],
            Err(SelfCrossing { ring: 0, first: 0, second: 1 }),
        );
        // A corner that touches an edge far along the ring.
        check(
            &[(0., 0.), (4., 0.), (4., 4.), (2., 0.), (0., 4.)],
            &[],
            Err(SelfCrossing { ring: 0, first: 0, second: 3 }),
        );
    }

    #[test]
    fn holes_must_lie_inside_and_apart() {
        use ShapeFault::*;
        let inside: &[(f64, f64)] = &[(1., 1.), (3., 1.), (3., 3.), (1., 3.)];
        check(SQUARE, &[inside], Ok(()));
        check(SQUARE, &[&[(9., 9.), (10., 9.), (10., 10.)]], Err(HoleOutside { ring: 1 }));
        check(SQUARE, &[&[(7., 1.), (9., 1.), (9., 3.)]], Err(HoleOutside { ring: 1 }));
        check(SQUARE, &[inside, &[(2., 2.), (5., 2.), (5., 5.)]], Err(HolesOverlap { first: 1, second: 2 }));
        check(
            SQUARE,
            &[inside, &[(1.5, 1.5), (2., 1.5), (2., 2.)]],
            Err(HolesOverlap { first: 1, second: 2 }),
        );
        check(SQUARE, &[inside, inside], Err(HolesOverlap { first: 1, second: 2 }));
        // Touching at one corner is allowed.
        check(SQUARE, &[inside, &[(3., 3.), (5., 3.), (5., 5.)]], Ok(()));
    }
}
