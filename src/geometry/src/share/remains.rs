//! What is left of a face when shadows are taken away: convex pieces, cut along the shadows' edges.

use glam::DVec2;

use crate::bounds::Bounds;
use crate::polygon::signed_area;
use crate::tolerance::TOUCH_MM;

/// Convex rings, anticlockwise, sharing no area.
pub(super) struct Remains {
    /// The rings' corners, one ring after the other: there can be thousands, and they change with every shadow.
    corners: Vec<DVec2>,
    pieces: Vec<Piece>,
    /// Pieces no larger than this are dropped.
    sliver: f64,
    scratch: Scratch,
}

/// One ring.
#[derive(Clone, Copy)]
struct Piece {
    start: usize,
    end: usize,
    bounds: Bounds,
}

/// Working space, kept so that it need not be asked for again.
#[derive(Default)]
struct Scratch {
    rest: Vec<DVec2>,
    left: Vec<DVec2>,
    right: Vec<DVec2>,
    /// The shadow's edges, in the order in which to cut.
    lines: Vec<Line>,
    crossed: Vec<Line>,
}

/// A line with its direction, a unit vector.
#[derive(Clone, Copy)]
struct Line {
    from: DVec2,
    along: DVec2,
}

impl Line {
    /// How far left of it a point lies.
    fn off(&self, p: DVec2) -> f64 {
        self.along.perp_dot(p - self.from)
    }
}

impl Remains {
    /// Starting from one convex ring, anticlockwise.
    pub(super) fn of(ring: &[DVec2], sliver: f64) -> Self {
        let mut all = Self { corners: Vec::new(), pieces: Vec::new(), sliver, scratch: Scratch::default() };
        all.add(ring);
        all
    }

    fn add(&mut self, ring: &[DVec2]) {
        if signed_area(ring) > self.sliver
            && let Some(bounds) = Bounds::around(ring.iter().copied())
        {
            let start = self.corners.len();
            self.corners.extend_from_slice(ring);
            self.pieces.push(Piece { start, end: self.corners.len(), bounds });
        }
    }

    fn rings(&self) -> impl Iterator<Item = &[DVec2]> {
        self.pieces.iter().map(|piece| self.ring(piece))
    }

    fn ring(&self, piece: &Piece) -> &[DVec2] {
        self.corners.get(piece.start..piece.end).unwrap_or_default()
    }

    /// The area left, mm².
    pub(super) fn area(&self) -> f64 {
        // An empty sum would be a negative zero.
        self.rings().map(signed_area).fold(0.0, |sum, area| sum + area)
    }

    pub(super) fn into_rings(self) -> Vec<Vec<DVec2>> {
        self.rings().map(tidy).collect()
    }

    /// Takes away a convex ring, anticlockwise.
    pub(super) fn subtract(&mut self, shadow: &[DVec2]) {
        let Some(bounds) = Bounds::around(shadow.iter().copied()) else { return };
        let mut scratch = std::mem::take(&mut self.scratch);
        scratch.lines.clear();
        scratch.lines.extend(spread(shadow));
        // What is cut goes to the end; what is gone leaves its corners behind until they outweigh the rest.
        let mut i = 0;
        let before = self.pieces.len();
        let mut standing = before;
        while i < standing {
            match self.pieces.get(i).copied() {
                Some(piece) if piece.bounds.meets(&bounds) && self.cut(&piece, &mut scratch) => {
                    // Its place is taken by one that still has to be looked at.
                    standing -= 1;
                    self.pieces.swap(i, standing);
                    self.pieces.swap_remove(standing);
                }
                _ => i += 1,
            }
        }
        self.scratch = scratch;
        self.compact();
    }

    /// Cuts one piece: what lies right of a shadow's edge stays, then of what lies left of it what lies right of the
    /// next, and so on; what lies left of all is hidden. Whether anything of it was; if not, nothing is changed.
    fn cut(&mut self, piece: &Piece, scratch: &mut Scratch) -> bool {
        let Scratch { rest, left, right, lines, crossed } = scratch;
        crossed.clear();
        let ring = self.ring(piece);
        for &line in lines.iter() {
            let (mut any_left, mut any_right) = (false, false);
            for &p in ring {
                let off = line.off(p);
                any_left |= off > 0.0;
                any_right |= off < 0.0;
            }
            if !any_left {
                return false;
            }
            if any_right {
                crossed.push(line);
            }
        }
        rest.clear();
        rest.extend_from_slice(ring);
        let (corners, pieces) = (self.corners.len(), self.pieces.len());
        for line in crossed.iter() {
            split(rest, line, left, right);
            self.add(right);
            if signed_area(left) <= self.sliver {
                // Nothing of the piece is hidden: it stays whole.
                self.corners.truncate(corners);
                self.pieces.truncate(pieces);
                return false;
            }
            std::mem::swap(rest, left);
        }
        true
    }

    /// Closes the gaps that cut pieces leave, once there are many.
    fn compact(&mut self) {
        let used: usize = self.pieces.iter().map(|piece| piece.end - piece.start).sum();
        if self.corners.len() > 64 && self.corners.len() > 2 * used {
            let mut corners = Vec::with_capacity(2 * used);
            for piece in &mut self.pieces {
                let start = corners.len();
                corners.extend_from_slice(self.corners.get(piece.start..piece.end).unwrap_or_default());
                (piece.start, piece.end) = (start, corners.len());
            }
            self.corners = corners;
        }
    }
}

/// A shadow's edges as lines: far apart ones first, then those half way between, and so on. Cut in this order, a round
/// shadow leaves a few large pieces about it and small ones close to it, instead of a fan of long ones.
fn spread(shadow: &[DVec2]) -> impl Iterator<Item = Line> + '_ {
    let n = shadow.len();
    let widest = n.next_power_of_two();
    let strides = std::iter::successors(Some(widest), |stride| (*stride > 1).then_some(stride / 2));
    let order = strides.flat_map(move |stride| {
        (0..n).step_by(stride).filter(move |i| stride == widest || !i.is_multiple_of(2 * stride))
    });
    order.filter_map(move |i| {
        let from = shadow.get(i).copied()?;
        let to = shadow.get(i + 1).or(shadow.first()).copied()?;
        let along = (to - from).try_normalize()?;
        Some(Line { from, along })
    })
}

/// A ring without corners that only touch the one before: cuts through one place leave several, some by rounding.
fn tidy(ring: &[DVec2]) -> Vec<DVec2> {
    let near = |a: DVec2, b: DVec2| a.distance_squared(b) <= TOUCH_MM * TOUCH_MM;
    let mut ring = ring.to_vec();
    ring.dedup_by(|next, kept| near(*next, *kept));
    while let ([first, .., last], true) = (ring.as_slice(), ring.len() > 3)
        && near(*first, *last)
    {
        ring.pop();
    }
    ring
}

/// The parts of a convex ring left and right of a line.
fn split(ring: &[DVec2], line: &Line, left: &mut Vec<DVec2>, right: &mut Vec<DVec2>) {
    left.clear();
    right.clear();
    let Some((&last, off_last)) = ring.last().map(|last| (last, line.off(*last))) else { return };
    let (mut p, mut at_p) = (last, off_last);
    for &q in ring {
        let at_q = line.off(q);
        if (at_p > 0.0 && at_q < 0.0) || (at_p < 0.0 && at_q > 0.0) {
            let meet = crossing(p, at_p, q, at_q);
            left.push(meet);
            right.push(meet);
        }
        if at_q >= 0.0 {
            left.push(q);
        }
        if at_q <= 0.0 {
            right.push(q);
        }
        (p, at_p) = (q, at_q);
    }
}

/// Where an edge crosses a line, from its ends' distances to it. Reckoned from the nearer end, so that a far one
/// costs no digits.
pub(super) fn crossing(p: DVec2, at_p: f64, q: DVec2, at_q: f64) -> DVec2 {
    if at_p.abs() <= at_q.abs() {
        p + (q - p) * (at_p / (at_p - at_q))
    } else {
        q + (p - q) * (at_q / (at_q - at_p))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(low: f64, high: f64) -> Vec<DVec2> {
        [(low, low), (high, low), (high, high), (low, high)].map(DVec2::from).to_vec()
    }

    #[test]
    fn a_hole_in_the_middle_leaves_a_frame() {
        let mut remains = Remains::of(&square(0.0, 10.0), 1e-9);
        remains.subtract(&square(4.0, 6.0));
        assert!((remains.area() - 96.0).abs() < 1e-12);
        // Again, and one that only touches: nothing changes.
        remains.subtract(&square(4.0, 6.0));
        remains.subtract(&square(10.0, 12.0));
        remains.subtract(&square(-5.0, 0.0));
        assert!((remains.area() - 96.0).abs() < 1e-12);
        remains.subtract(&square(-1.0, 11.0));
        assert_eq!(remains.area(), 0.0);
        assert!(remains.into_rings().is_empty());
    }

    #[test]
    fn many_cuts_leave_no_corner_behind() {
        let mut remains = Remains::of(&square(0.0, 100.0), 1e-9);
        for i in 0..50 {
            let low = f64::from(i) * 1.9;
            remains.subtract(&square(low, low + 1.5));
        }
        assert!((remains.area() - (1e4 - 50.0 * 2.25)).abs() < 1e-9);
        let kept: usize = remains.rings().map(<[DVec2]>::len).sum();
        assert!(remains.corners.len() <= 2 * kept);
    }
}
