//! Exact yes/no answers: on which side, do two edges cross. No tolerance, no coordinate computed.

use std::cmp::Ordering;

use glam::DVec2;

use crate::segment::Segment;

fn coord(p: DVec2) -> robust::Coord<f64> {
    robust::Coord { x: p.x, y: p.y }
}

/// Twice the signed area of the triangle `a b c`, with an exact sign: positive if `c` lies left of `a → b`.
///
/// ```rust
/// # use baywright_geometry::*;
/// use predicate::turn;
/// assert_eq!(turn(DVec2::ZERO, DVec2::X, DVec2::Y), 1.0);
/// ```
pub fn turn(a: DVec2, b: DVec2, c: DVec2) -> f64 {
    robust::orient2d(coord(a), coord(b), coord(c))
}

/// On which side of `a → b` the point `c` lies: `Greater` left, `Less` right, `Equal` exactly on the line.
///
/// ```rust
/// # use baywright_geometry::*;
/// use std::cmp::Ordering;
/// assert_eq!(predicate::side(DVec2::ZERO, DVec2::X, DVec2::new(5.0, -1e-300)), Ordering::Less);
/// ```
pub fn side(a: DVec2, b: DVec2, c: DVec2) -> Ordering {
    turn(a, b, c).partial_cmp(&0.0).unwrap_or(Ordering::Equal)
}

/// How two segments meet, decided exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meeting {
    /// They share no point.
    Apart,
    /// They share one point, and at least one end lies on the other.
    Touch,
    /// They share one point, inside both.
    Cross,
    /// They share a stretch.
    Overlap,
}

/// How two segments meet.
///
/// ```rust
/// # use baywright_geometry::*;
/// use predicate::{Meeting, meeting};
/// let wall = Segment::new(DVec2::ZERO, DVec2::new(4000.0, 0.0));
/// assert_eq!(meeting(&wall, &Segment::new(DVec2::new(9.0, -1.0), DVec2::new(9.0, 1.0))), Meeting::Cross);
/// assert_eq!(meeting(&wall, &Segment::new(DVec2::new(9.0, 0.0), DVec2::new(9.0, 1.0))), Meeting::Touch);
/// ```
pub fn meeting(p: &Segment, q: &Segment) -> Meeting {
    let q_from = side(p.from, p.to, q.from);
    let q_to = side(p.from, p.to, q.to);
    if q_from == q_to && q_from != Ordering::Equal {
        return Meeting::Apart;
    }
    let p_from = side(q.from, q.to, p.from);
    let p_to = side(q.from, q.to, p.to);
    if p_from == p_to && p_from != Ordering::Equal {
        return Meeting::Apart;
    }
    let collinear = [q_from, q_to, p_from, p_to].iter().all(|&s| s == Ordering::Equal);
    if collinear {
        return meeting_on_one_line(p, q);
    }
    if [q_from, q_to, p_from, p_to].contains(&Ordering::Equal) { Meeting::Touch } else { Meeting::Cross }
}

/// Both on one line (or one of them a point on the other's line): compare along the longer axis.
fn meeting_on_one_line(p: &Segment, q: &Segment) -> Meeting {
    let spread = (p.to - p.from).abs().max((q.to - q.from).abs());
    let key = |v: DVec2| if spread.x >= spread.y { v.x } else { v.y };
    let other = |v: DVec2| if spread.x >= spread.y { v.y } else { v.x };
    if spread == DVec2::ZERO {
        return if p.from == q.from { Meeting::Touch } else { Meeting::Apart };
    }
    let (p_low, p_high) = (key(p.from).min(key(p.to)), key(p.from).max(key(p.to)));
    let (q_low, q_high) = (key(q.from).min(key(q.to)), key(q.from).max(key(q.to)));
    let (low, high) = (p_low.max(q_low), p_high.min(q_high));
    // Two points apart across the axis cannot both be on a line of some length; only two points could.
    let both_points = p.from == p.to && q.from == q.to;
    if low > high || (both_points && other(p.from) != other(q.from)) {
        Meeting::Apart
    } else if low == high {
        Meeting::Touch
    } else {
        Meeting::Overlap
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seg(a: (f64, f64), b: (f64, f64)) -> Segment {
        Segment::new(a.into(), b.into())
    }

    fn check(p: Segment, q: Segment, expected: Meeting) {
        for (p, q) in [(p, q), (q, p)] {
            for (p, q) in [(p, q), (Segment::new(p.to, p.from), q)] {
                assert_eq!(meeting(&p, &q), expected, "{p:?} {q:?}");
            }
        }
    }

    #[test]
    fn meetings() {
        check(seg((0., 0.), (2., 2.)), seg((0., 2.), (2., 0.)), Meeting::Cross);
        check(seg((0., 0.), (2., 2.)), seg((1., 1.), (2., 0.)), Meeting::Touch);
        check(seg((0., 0.), (2., 0.)), seg((2., 0.), (4., 0.)), Meeting::Touch);
        check(seg((0., 0.), (2., 0.)), seg((1., 0.), (4., 0.)), Meeting::Overlap);
        check(seg((0., 0.), (2., 0.)), seg((3., 0.), (4., 0.)), Meeting::Apart);
        check(seg((0., 0.), (2., 0.)), seg((0., 1.), (2., 1.)), Meeting::Apart);
        check(seg((1., 0.), (1., 0.)), seg((0., 0.), (2., 0.)), Meeting::Touch);
        check(seg((1., 1e-300), (1., 1e-300)), seg((0., 0.), (2., 0.)), Meeting::Apart);
        check(seg((1., 1.), (1., 1.)), seg((1., 1.), (1., 1.)), Meeting::Touch);
    }

    /// A crossing so flat that rounded arithmetic calls it parallel.
    #[test]
    fn a_flat_crossing_is_seen() {
        let ulp = f64::EPSILON;
        check(seg((0., 0.), (1., 1.)), seg((0., ulp), (1., 1. - ulp)), Meeting::Cross);
    }
}
