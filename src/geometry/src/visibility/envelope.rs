//! The nearest edge in every direction.

use std::cmp::Ordering;

use glam::DVec2;

use super::direction::{Directions, END, START, Spot};

/// Relative difference of two distances below which they count as equal: a few hundred times the rounding of the
/// quotient that they are made of. What is so near in one direction is told apart in the next.
const SAME_DISTANCE: f64 = 1e-13;

/// An edge that is not one: where things touch the eye itself, it sees nothing, at no distance.
pub(super) const EYE: u32 = u32::MAX;

/// An edge that faces the eye, anticlockwise about it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub from: Spot,
    pub to: Spot,
    /// The vector `m` with `m · x = 1` for every `x` on the edge's line, seen from the eye: along a direction `d` the
    /// line is at `d / (m · d)`, so that of two edges the one with the larger `m · d` is nearer.
    pub inverse: DVec2,
}

/// A stretch of an edge between two directions, with their keys.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub edge: u32,
    pub from: Spot,
    pub to: Spot,
    pub from_key: f64,
    pub to_key: f64,
}

impl Piece {
    pub(super) const fn is_eye(&self) -> bool {
        self.edge == EYE
    }

    pub(super) const fn starts_circle(&self) -> bool {
        self.from == START
    }

    pub(super) const fn ends_circle(&self) -> bool {
        self.to == END
    }

    /// Whether it spans more than a quarter turn, beyond any doubt about its width.
    pub(super) fn is_wide(&self) -> bool {
        self.to_key - self.from_key > 1.0
    }
}

/// All facing edges of a scene.
pub(super) struct Envelope {
    pub directions: Directions,
    pub edges: Vec<Edge>,
}

impl Envelope {
    /// The nearest pieces in order of direction, from runs of pieces each in that order; `runs` holds where each ends.
    pub(super) fn nearest(&mut self, mut pieces: Vec<Piece>, mut runs: Vec<usize>) -> Vec<Piece> {
        let mut merged: Vec<Piece> = Vec::with_capacity(pieces.len() + 16);
        while runs.len() > 1 {
            merged.clear();
            let mut ends = Vec::with_capacity(runs.len() / 2 + 1);
            let mut start = 0;
            for pair in runs.chunks(2) {
                let slice = |from: usize, to: usize| pieces.get(from..to).unwrap_or_default();
                match *pair {
                    [middle, end] => {
                        self.merge(slice(start, middle), slice(middle, end), &mut merged);
                        start = end;
                    }
                    [end] => {
                        merged.extend_from_slice(slice(start, end));
                        start = end;
                    }
                    _ => {}
                }
                ends.push(merged.len());
            }
            std::mem::swap(&mut pieces, &mut merged);
            runs = ends;
        }
        pieces
    }

    /// Merges two runs: where only one has an edge, that one; where both have, the nearer.
    fn merge(&mut self, a: &[Piece], b: &[Piece], out: &mut Vec<Piece>) {
        let first = out.len();
        let (mut rest_a, mut rest_b) = (a.iter().copied(), b.iter().copied());
        let (mut next_a, mut next_b) = (rest_a.next(), rest_b.next());
        while let (Some(p), Some(q)) = (&mut next_a, &mut next_b) {
            let starts = self.directions.order(p.from, p.from_key, q.from, q.from_key);
            // The one that starts earlier is alone until the other starts.
            if starts.is_ne() {
                let (early, late) = if starts.is_lt() { (&mut *p, &*q) } else { (&mut *q, &*p) };
                if self.directions.order(early.to, early.to_key, late.from, late.from_key).is_le() {
                    push(out, first, *early);
                    if starts.is_lt() {
                        next_a = rest_a.next()
                    } else {
                        next_b = rest_b.next()
                    }
                    continue;
                }
                push(out, first, Piece { to: late.from, to_key: late.from_key, ..*early });
                (early.from, early.from_key) = (late.from, late.from_key);
            }
            let ends = self.directions.order(p.to, p.to_key, q.to, q.to_key);
            let (to, to_key) = if ends.is_le() { (p.to, p.to_key) } else { (q.to, q.to_key) };
            self.nearer(Piece { to, to_key, ..*p }, Piece { to, to_key, ..*q }, first, out);
            let done = (ends.is_le(), ends.is_ge());
            (p.from, p.from_key, q.from, q.from_key) = (to, to_key, to, to_key);
            if done.0 {
                next_a = rest_a.next();
            }
            if done.1 {
                next_b = rest_b.next();
            }
        }
        for piece in next_a.into_iter().chain(rest_a).chain(next_b).chain(rest_b) {
            push(out, first, piece);
        }
    }

    /// The nearer of two pieces over one sector, or each where it is.
    fn nearer(&mut self, p: Piece, q: Piece, first: usize, out: &mut Vec<Piece>) {
        if p.is_eye() || q.is_eye() {
            push(out, first, if p.is_eye() { p } else { q });
            return;
        }
        let at_from = self.closer(p.edge, q.edge, p.from);
        let at_to = self.closer(p.edge, q.edge, p.to);
        let winner = if at_from >= 0.0 && at_to >= 0.0 {
            p
        } else if at_from <= 0.0 && at_to <= 0.0 {
            q
        } else {
            if let Some((spot, key)) = self.crossing(&p, &q) {
                let (before, after) = if at_from > 0.0 { (p, q) } else { (q, p) };
                push(out, first, Piece { to: spot, to_key: key, ..before });
                push(out, first, Piece { from: spot, from_key: key, ..after });
                return;
            }
            // They cross within rounding of one end: the other end decides.
            if at_from.abs().max(at_to.abs()) == at_from.max(at_to) { p } else { q }
        };
        push(out, first, winner);
    }

    /// By how much of its inverse distance `p` is closer than `q` in a direction; exactly zero if they are the same
    /// within [`SAME_DISTANCE`].
    fn closer(&self, p: u32, q: u32, spot: Spot) -> f64 {
        let off = self.directions.off(spot);
        let (at_p, at_q) = (self.inverse(p, spot, off), self.inverse(q, spot, off));
        let share = (at_p - at_q) / at_p.max(at_q);
        if share.abs() <= SAME_DISTANCE { 0.0 } else { share }
    }

    /// The inverse distance of an edge in a direction, in units of `off`: exactly one at its own ends.
    fn inverse(&self, edge: u32, spot: Spot, off: DVec2) -> f64 {
        match self.edges.get(edge as usize) {
            Some(edge) if edge.from == spot || edge.to == spot => 1.0,
            Some(edge) => edge.inverse.dot(off),
            None => 0.0,
        }
    }

    /// The direction in which two edges are equally near, if it lies strictly within the sector.
    fn crossing(&mut self, p: &Piece, q: &Piece) -> Option<(Spot, f64)> {
        let (edge_p, edge_q) = (self.edges.get(p.edge as usize)?, self.edges.get(q.edge as usize)?);
        let along = (edge_p.inverse - edge_q.inverse).perp().normalize_or_zero();
        let ends =
            self.directions.off(p.from).normalize_or_zero() + self.directions.off(p.to).normalize_or_zero();
        let along = if along.dot(ends) < 0.0 { -along } else { along };
        let off = along / edge_p.inverse.dot(along);
        if !off.is_finite() || off.dot(along) <= 0.0 {
            return None;
        }
        let spot = self.directions.add_off(off);
        let key = self.directions.key(spot);
        let after = self.directions.order(p.from, p.from_key, spot, key) == Ordering::Less;
        let before = self.directions.order(spot, key, p.to, p.to_key) == Ordering::Less;
        (after && before).then_some((spot, key))
    }

    /// Where an edge lies in a direction: its own corners exactly.
    pub(super) fn on_edge(&self, edge: u32, spot: Spot) -> DVec2 {
        match self.edges.get(edge as usize) {
            None => self.directions.eye(),
            Some(edge) if edge.from == spot || edge.to == spot => self.directions.at(spot),
            Some(edge) => {
                let off = self.directions.off(spot);
                let at = self.directions.eye() + off / edge.inverse.dot(off);
                if at.is_finite() { at } else { self.directions.at(edge.from) }
            }
        }
    }
}

/// Appends a piece to the run that starts at `first`, joined to the last one if it carries on with the same edge.
fn push(out: &mut Vec<Piece>, first: usize, piece: Piece) {
    if out.len() > first
        && let Some(last) = out.last_mut()
        && last.edge == piece.edge
        && last.to == piece.from
    {
        (last.to, last.to_key) = (piece.to, piece.to_key);
        return;
    }
    out.push(piece);
}
