//! What is left of a face when shadows are taken away: convex pieces, cut along the shadows' edges.

use glam::DVec2;

use crate::bounds::Bounds;
use crate::polygon::signed_area;
use crate::tolerance::TOUCH_MM;

/// Convex rings, anticlockwise, sharing no area.
pub(super) struct Remains {
    pieces: Vec<Piece>,
    /// Pieces no larger than this are dropped.
    sliver: f64,
}

struct Piece {
    ring: Vec<DVec2>,
    bounds: Bounds,
}

impl Piece {
    fn new(ring: Vec<DVec2>, sliver: f64) -> Option<Self> {
        let bounds = Bounds::around(ring.iter().copied())?;
        (signed_area(&ring) > sliver).then_some(Self { ring, bounds })
    }
}

impl Remains {
    /// Starting from one convex ring, anticlockwise.
    pub(super) fn of(ring: &[DVec2], sliver: f64) -> Self {
        Self { pieces: Piece::new(ring.to_vec(), 0.0).into_iter().collect(), sliver }
    }

    /// The area left, mm².
    pub(super) fn area(&self) -> f64 {
        self.pieces.iter().map(|piece| signed_area(&piece.ring)).sum()
    }

    pub(super) fn into_rings(self) -> Vec<Vec<DVec2>> {
        self.pieces.into_iter().map(|piece| tidy(piece.ring)).collect()
    }

    /// Takes away a convex ring, anticlockwise.
    pub(super) fn subtract(&mut self, shadow: &[DVec2]) {
        let Some(bounds) = Bounds::around(shadow.iter().copied()) else { return };
        let mut kept = Vec::with_capacity(self.pieces.len() + 4);
        for piece in self.pieces.drain(..) {
            if piece.bounds.meets(&bounds) {
                cut(piece, shadow, self.sliver, &mut kept);
            } else {
                kept.push(piece);
            }
        }
        self.pieces = kept;
    }
}

/// The parts of one piece outside the shadow: what lies right of its first edge, then of the second what is left of
/// the first, and so on. What lies left of all of them is hidden.
fn cut(piece: Piece, shadow: &[DVec2], sliver: f64, kept: &mut Vec<Piece>) {
    let mut rest = piece.ring.clone();
    let mut outside = Vec::new();
    for (i, &from) in shadow.iter().enumerate() {
        let to = shadow.get(i + 1).or(shadow.first()).copied().unwrap_or(from);
        let (left, right) = split(&rest, from, to);
        outside.extend(Piece::new(right, sliver));
        if signed_area(&left) <= sliver {
            // Nothing of the piece is hidden: it stays whole.
            kept.push(piece);
            return;
        }
        rest = left;
    }
    kept.append(&mut outside);
}

/// A ring without corners that only touch the one before: cuts through one place leave several, some by rounding.
fn tidy(mut ring: Vec<DVec2>) -> Vec<DVec2> {
    let near = |a: DVec2, b: DVec2| a.distance_squared(b) <= TOUCH_MM * TOUCH_MM;
    ring.dedup_by(|next, kept| near(*next, *kept));
    while let ([first, .., last], true) = (ring.as_slice(), ring.len() > 3)
        && near(*first, *last)
    {
        ring.pop();
    }
    ring
}

/// The parts of a convex ring left and right of a line.
fn split(ring: &[DVec2], from: DVec2, to: DVec2) -> (Vec<DVec2>, Vec<DVec2>) {
    let along = (to - from).normalize_or_zero();
    let off = |p: DVec2| along.perp_dot(p - from);
    let (mut left, mut right) = (Vec::with_capacity(ring.len() + 1), Vec::with_capacity(ring.len() + 1));
    for (i, &p) in ring.iter().enumerate() {
        let q = ring.get(i + 1).or(ring.first()).copied().unwrap_or(p);
        let (at_p, at_q) = (off(p), off(q));
        if at_p >= 0.0 {
            left.push(p);
        }
        if at_p <= 0.0 {
            right.push(p);
        }
        if (at_p > 0.0 && at_q < 0.0) || (at_p < 0.0 && at_q > 0.0) {
            let meet = crossing(p, at_p, q, at_q);
            left.push(meet);
            right.push(meet);
        }
    }
    (left, right)
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
}
