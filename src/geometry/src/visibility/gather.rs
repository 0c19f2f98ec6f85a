//! The edges that face the eye, in runs, and where things touch the eye.

use glam::DVec2;

use super::direction::{Directions, END, START, Spot};
use super::envelope::{EYE, Edge, Piece};
use crate::polygon::Polygon;
use crate::predicate;
use crate::segment::Segment;
use crate::tolerance::TOUCH_MM;

/// What the eye may see.
pub(super) struct Scene {
    pub directions: Directions,
    pub edges: Vec<Edge>,
    /// Runs of pieces, each in order of direction.
    pub pieces: Vec<Piece>,
    /// Where each run ends.
    pub runs: Vec<usize>,
    eye: DVec2,
}

impl Scene {
    pub(super) fn new(eye: DVec2) -> Self {
        let directions = Directions::new(eye);
        Self { directions, edges: Vec::new(), pieces: Vec::new(), runs: Vec::new(), eye }
    }

    /// Adds a polygon: the room (its inside is free) or a thing (its outside is). Whether the eye is where it may be:
    /// in the room, out of the thing, or on the boundary.
    pub(super) fn add(&mut self, polygon: &Polygon, room: bool) -> bool {
        let mut inside = false;
        let mut touches = false;
        let mut behind = Vec::new();
        for ring in polygon.rings() {
            touches |= self.add_ring(ring, room, &mut inside, &mut behind);
        }
        self.add_contacts(behind, room);
        touches || inside == room
    }

    /// Adds the facing edges of a ring, whose inside lies left; whether it touches the eye.
    fn add_ring(
        &mut self,
        ring: &[DVec2],
        room: bool,
        inside: &mut bool,
        behind: &mut Vec<(Spot, Spot)>,
    ) -> bool {
        let Some((&first, &last)) = ring.first().zip(ring.last()) else { return false };
        let n = ring.len();
        self.directions.reserve(n + 4);
        let base = self.directions.add(first);
        for &corner in ring.iter().skip(1) {
            self.directions.add(corner);
        }
        let at = |i: usize| base + (i % n) as Spot;
        let mut touched = false;
        let next_of = ring.iter().skip(1).chain([&first]);
        let mut before = last;
        // For a thing the free side is the right one: taken the other way round, its facing edges too turn
        // anticlockwise about the eye.
        let mut facing: Vec<(usize, f64)> = Vec::with_capacity(n);
        for (i, (&from, &to)) in ring.iter().zip(next_of).enumerate() {
            let turn = predicate::turn(from, to, self.eye);
            if (from.y > self.eye.y) != (to.y > self.eye.y) && (turn > 0.0) == (to.y > from.y) {
                *inside = !*inside;
            }
            let edge = Segment::new(from, to);
            let near = turn * turn <= (TOUCH_MM * TOUCH_MM) * (to - from).length_squared();
            if near && edge.distance_to(self.eye) <= TOUCH_MM {
                touched = true;
                behind.extend(self.contact(before, &edge, (at(i + n - 1), at(i), at(i + 1))));
            } else if (turn > 0.0) == room && turn != 0.0 {
                facing.push((i, turn.abs()));
            }
            before = from;
        }
        if room {
            facing.iter().for_each(|&(i, turn)| self.add_edge(at(i), at(i + 1), turn));
        } else {
            facing.iter().rev().for_each(|&(i, turn)| self.add_edge(at(i + 1), at(i), turn));
        }
        self.end_run();
        touched
    }

    /// Adds one facing edge; `turn` is twice the area of its triangle with the eye.
    fn add_edge(&mut self, from: Spot, to: Spot, turn: f64) {
        let along = self.directions.at(to) - self.directions.at(from);
        let inverse = DVec2::new(along.y, -along.x) / turn;
        // So thin a triangle is no view at all.
        if inverse.is_finite() {
            let edge = self.edges.len() as u32;
            self.edges.push(Edge { from, to, inverse });
            self.add_sector(edge, from, to);
        }
    }

    /// The sector right of the boundary, outside the polygon, where an edge or the corner at its start touches the eye.
    fn contact(&self, before: DVec2, edge: &Segment, spots: (Spot, Spot, Spot)) -> Option<(Spot, Spot)> {
        let near = |p: DVec2| p.distance_squared(self.eye) <= TOUCH_MM * TOUCH_MM;
        let (previous, from, to) = spots;
        if near(edge.from) {
            (!near(before) && !near(edge.to)).then_some((previous, to))
        } else {
            // A corner at the end of this edge is left to the next one.
            (!near(edge.to)).then_some((from, to))
        }
    }

    /// What the polygon hides right where it touches the eye: for the room, each sector outside it; for a thing, all
    /// that lies between those sectors (two holes of it can meet at the eye).
    fn add_contacts(&mut self, mut outside: Vec<(Spot, Spot)>, room: bool) {
        if !room {
            outside.sort_by(|a, b| {
                self.directions.order(a.0, self.directions.key(a.0), b.0, self.directions.key(b.0))
            });
            let next = outside.iter().cycle().skip(1).map(|sector| sector.0);
            outside = outside.iter().zip(next).map(|(sector, next)| (sector.1, next)).collect();
        }
        for (from, to) in outside {
            let keys = (self.directions.key(from), self.directions.key(to));
            if self.directions.order(from, keys.0, to, keys.1).is_ne() {
                self.end_run();
                self.add_sector(EYE, from, to);
                self.end_run();
            }
        }
    }

    /// Adds a piece from one direction anticlockwise to another, cut where the circle starts.
    fn add_sector(&mut self, edge: u32, from: Spot, to: Spot) {
        let (from_key, to_key) = (self.directions.key(from), self.directions.key(to));
        let order = self.directions.order(from, from_key, to, to_key);
        if order.is_lt() {
            self.add_piece(Piece { edge, from, to, from_key, to_key });
        } else {
            self.add_piece(Piece { edge, from, to: END, from_key, to_key: 4.0 });
            if to_key > 0.0 {
                self.add_piece(Piece { edge, from: START, to, from_key: 0.0, to_key });
            }
        }
    }

    fn add_piece(&mut self, piece: Piece) {
        let start = self.runs.last().copied().unwrap_or(0);
        if let Some(last) = self.pieces.get(start..).and_then(<[Piece]>::last)
            && self.directions.order(last.to, last.to_key, piece.from, piece.from_key).is_gt()
        {
            self.end_run();
        }
        self.pieces.push(piece);
    }

    fn end_run(&mut self) {
        if self.pieces.len() > self.runs.last().copied().unwrap_or(0) {
            self.runs.push(self.pieces.len());
        }
    }
}
