//! The points of a region outside a room that are furthest from it, one for each room edge.

use std::collections::BTreeMap;

use glam::DVec2;

use super::Protrusion;
use crate::circle::Circle;
use crate::locate::{Located, locate_in};
use crate::polygon::{Polygon, ring_edges};
use crate::segment::Segment;

/// How exactly the largest distance along a line is found, mm: far below what anyone can measure, a few halvings above
/// rounding.
const DEPTH_MM: f64 = 1e-7;

/// So often is a stretch halved at most: 10 km to [`DEPTH_MM`] needs 47 halvings.
const HALVINGS: usize = 60;

/// Two edges whose distances differ by less, mm, are equally near: the last place of [`DEPTH_MM`] on both sides, and
/// more than the grid of a difference moves a corner.
const SAME_MM: f64 = 1e-6;

/// Of a hole with more edges than this (a round pillar), only so many are combined to find its middle.
const MOST_WALLS: usize = 12;

struct Edge {
    ring: usize,
    edge: usize,
    side: Segment,
}

pub(super) struct Deepest<'a> {
    room: &'a Polygon,
    edges: Vec<Edge>,
    /// The deepest place of each edge, with how many edges it is equally near to.
    found: BTreeMap<(usize, usize), (Protrusion, usize)>,
}

impl<'a> Deepest<'a> {
    pub(super) fn new(room: &'a Polygon) -> Self {
        let edges = room
            .rings()
            .enumerate()
            .flat_map(|(ring, corners)| {
                ring_edges(corners).enumerate().map(move |(edge, side)| Edge { ring, edge, side })
            })
            .collect();
        Self { room, edges, found: BTreeMap::new() }
    }

    pub(super) fn into_found(self) -> Vec<Protrusion> {
        self.found.into_values().map(|(own, _)| own).collect()
    }

    /// Notes a point that is known to lie outside the room, for the nearest edge, or for several equally near. Of edges
    /// that meet at the nearest corner, only the one that the point is more squarely before. Of places as deep as each other, as
    /// there are between two edges that run along one another, the one that most edges are equally near to is kept: rounding does
    /// not choose.
    fn note(&mut self, p: DVec2) {
        let all = self.edges.iter().map(|e| e.side.distance_to(p));
        let depth = all.fold(f64::INFINITY, f64::min);
        let near = self.edges.iter().filter(|e| e.side.distance_to(p) <= depth + SAME_MM).map(|e| {
            let along = (e.side.to - e.side.from).normalize_or_zero();
            (e, (p - e.side.from).perp_dot(along))
        });
        let near: Vec<(&Edge, f64)> = near.collect();
        let most = near.iter().map(|&(_, before)| before).fold(f64::NEG_INFINITY, f64::max);
        let least = most.min(depth - SAME_MM);
        let equally = near.len();
        for (e, _) in near.into_iter().filter(|&(_, before)| before >= least) {
            let here = Protrusion { ring: e.ring, edge: e.edge, depth, deepest: p };
            let (kept, many) = self.found.entry((e.ring, e.edge)).or_insert((here, equally));
            let is_as_deep = (depth - kept.depth).abs() <= SAME_MM;
            if if is_as_deep { equally > *many } else { depth > kept.depth } {
                *kept = Protrusion { depth: depth.max(kept.depth), ..here };
                *many = equally;
            }
        }
    }

    /// The deepest points along the boundary of a region outside the room.
    pub(super) fn look_along(&mut self, region: &Polygon) {
        for ring in region.rings() {
            for side in ring_edges(ring) {
                self.note(side.from);
                let p = self.furthest_on(&side);
                self.note(p);
            }
        }
    }

    /// The point of a segment furthest from the room's boundary. The distance to one edge is convex along the segment,
    /// so on a stretch no point is further than the nearest edge's larger end: stretches that cannot win are dropped.
    fn furthest_on(&self, side: &Segment) -> DVec2 {
        let ends = |p: DVec2| -> Vec<f64> { self.edges.iter().map(|e| e.side.distance_to(p)).collect() };
        let least = |all: &[f64]| all.iter().copied().fold(f64::INFINITY, f64::min);
        let bound =
            |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(&a, &b)| a.max(b)).fold(f64::INFINITY, f64::min);
        let (from, to) = (ends(side.from), ends(side.to));
        let mut best = if least(&from) >= least(&to) { (least(&from), 0.0) } else { (least(&to), 1.0) };
        let mut open = vec![(0.0, from, 1.0, to)];
        for _ in 0..HALVINGS {
            let mut next = Vec::new();
            for (s, at_s, t, at_t) in open {
                if bound(&at_s, &at_t) <= best.0 + DEPTH_MM {
                    continue;
                }
                let middle = 0.5 * (s + t);
                let at_middle = ends(side.at(middle));
                if least(&at_middle) > best.0 {
                    best = (least(&at_middle), middle);
                }
                next.push((s, at_s, middle, at_middle.clone()));
                next.push((middle, at_middle, t, at_t));
            }
            open = next;
            if open.is_empty() {
                break;
            }
        }
        side.at(best.1)
    }

    /// A hole or dent of the room that the thing fills is deepest where three edges are equally far. The edges tried are
    /// those nearest to the region's boundary, and then those that prove nearer at the places found.
    pub(super) fn look_between_walls(&mut self, region: &Polygon) {
        let probes = region.edges().flat_map(|side| [side.from, side.at(0.5)]);
        let mut walls: Vec<usize> = probes.filter_map(|p| self.nearest(p)).collect();
        walls.sort_unstable();
        walls.dedup();
        let step = walls.len().div_ceil(MOST_WALLS).max(1);
        let mut walls: Vec<usize> = walls.into_iter().step_by(step).collect();
        // The first wall that has not been combined with those before it.
        let mut fresh = 0;
        while fresh < walls.len() {
            let found = self.between(&walls, fresh, region);
            fresh = walls.len();
            for p in found {
                if let Some(i) = self.nearest(p)
                    && walls.len() < 2 * MOST_WALLS
                    && !walls.contains(&i)
                {
                    walls.push(i);
                }
                self.note(p);
            }
        }
    }

    /// The edge nearest to `p`; of several, the first.
    fn nearest(&self, p: DVec2) -> Option<usize> {
        let far = |i: usize| self.edges.get(i).map_or(f64::INFINITY, |e| e.side.distance_to(p));
        (0..self.edges.len()).min_by(|&i, &j| far(i).total_cmp(&far(j)))
    }

    /// The points within the region that are equally far beyond three of the walls, the last of them a fresh one.
    fn between(&self, walls: &[usize], fresh: usize, region: &Polygon) -> Vec<DVec2> {
        let sides: Vec<&Segment> = walls.iter().filter_map(|&i| self.edges.get(i)).map(|e| &e.side).collect();
        let mut found = Vec::new();
        for (k, c) in sides.iter().enumerate().skip(fresh.max(2)) {
            for (j, b) in sides.iter().enumerate().take(k) {
                for a in sides.iter().take(j) {
                    let inside = |p: &DVec2| locate_in(region, *p) == Located::Inside;
                    found.extend(equally_far(a, b, c).filter(inside));
                }
            }
        }
        found
    }

    /// The points of a disc that lie furthest out past each edge and each corner.
    pub(super) fn look_at_rim(&mut self, circle: &Circle) {
        let sides: Vec<Segment> = self.edges.iter().map(|e| e.side).collect();
        for side in sides {
            let out = -(side.to - side.from).normalize_or_zero().perp();
            let past_corner = (circle.centre() - side.from).normalize_or_zero();
            for out in [out, past_corner] {
                let p = circle.centre() + out * circle.radius();
                if locate_in(self.room, p) == Located::Outside {
                    self.note(p);
                }
            }
        }
    }
}

/// The point at one distance beyond the lines of three edges, on their outer side.
fn equally_far(a: &Segment, b: &Segment, c: &Segment) -> Option<DVec2> {
    let out = |s: &Segment| -(s.to - s.from).normalize_or_zero().perp();
    let (m, n, o) = (out(a), out(b), out(c));
    // (p - a)·m = (p - b)·n = (p - c)·o
    let (u, v) = (m - n, m - o);
    let (r, s) = (a.from.dot(m) - b.from.dot(n), a.from.dot(m) - c.from.dot(o));
    let cross = u.perp_dot(v);
    (cross.abs() > 1e-12).then(|| DVec2::new(r * v.y - s * u.y, s * u.x - r * v.x) / cross)
}
