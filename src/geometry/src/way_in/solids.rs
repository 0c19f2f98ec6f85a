//! What a car must not meet, and how near it comes.

use glam::DVec2;

use crate::bounds::Bounds;
use crate::frame::PlanPose;
use crate::polygon::ring_edges;
use crate::region::Region;
use crate::tolerance::TOUCH_MM;
use crate::way_in::cover::{around, parts};
use crate::way_in::drive::Piece;

/// No point of the car moves further than this between two places that are asked, mm: what is nearer than half of it to a
/// thing, and
/// not parted from it by a straight line, counts as met.
const FINEST: f64 = 0.5;

/// How much less room than there is may be told, mm.
pub(super) const TOLD_WITHIN: f64 = 0.5;

/// One convex thing, or one stretch of the edge of the floor.
struct Solid {
    ring: Vec<DVec2>,
    bounds: Bounds,
    /// Of each side its outward unit normal, and how far out along that it lies.
    sides: Vec<(DVec2, f64)>,
}

/// All things and the edge of the floor.
pub(super) struct Solids {
    all: Vec<Solid>,
    floor: Region,
    /// How far the car keeps from them, mm.
    keep: f64,
}

/// A piece in hand: from where, and which ring of the car.
#[derive(Clone, Copy)]
struct Run<'a> {
    ring: &'a [DVec2],
    from: PlanPose,
    piece: Piece,
}

impl Solids {
    pub fn new(obstacles: &[Vec<DVec2>], floor: Region, keep: f64) -> Self {
        let edges = floor.rings().flat_map(ring_edges).map(|e| vec![e.from, e.to]);
        let all = obstacles.iter().cloned().chain(edges).filter_map(Solid::new).collect();
        Self { all, floor, keep }
    }

    /// Around the floor.
    pub fn bounds(&self) -> Option<Bounds> {
        self.floor.bounds()
    }

    /// Whether the car may stand there (frame of the rear axle).
    pub fn stands_clear(&self, rings: &[Vec<DVec2>], rear: &PlanPose) -> bool {
        rings.iter().all(|ring| {
            let placed: Vec<DVec2> = ring.iter().map(|&p| *rear * p).collect();
            let centre = placed.iter().sum::<DVec2>() / placed.len() as f64;
            self.floor.holds(centre) && self.all.iter().all(|solid| self.keeps(solid.distance(&placed)))
        })
    }

    /// Whether the car meets nothing on the whole piece; it stands clear at its start.
    pub fn drives_clear(&self, rings: &[Vec<DVec2>], from: &PlanPose, piece: &Piece) -> bool {
        let count = parts(piece);
        let part = piece.part(count as f64);
        let all: Vec<&Solid> = self.all.iter().collect();
        let mut at = *from;
        (0..count).all(|_| {
            let start = at;
            at = part.end(&at);
            rings.iter().all(|ring| self.is_clear(&Run { ring, from: start, piece: part }, &all))
        })
    }

    fn keeps(&self, distance: f64) -> bool {
        distance >= self.keep - TOUCH_MM
    }

    fn is_clear(&self, run: &Run<'_>, among: &[&Solid]) -> bool {
        let near = run.not_parted(among, self.keep - TOUCH_MM);
        if near.is_empty() {
            return true;
        }
        let half = run.piece.part(2.0);
        let middle = half.end(&run.from);
        let placed: Vec<DVec2> = run.ring.iter().map(|&p| middle * p).collect();
        let travel = run.piece.travel(run.ring);
        let mut left = Vec::new();
        for solid in near {
            let distance = solid.distance(&placed);
            if !self.keeps(distance) {
                return false;
            }
            if !self.keeps(distance - 0.5 * travel) {
                left.push(solid);
            }
        }
        left.is_empty()
            || travel > FINEST
                && self.is_clear(&Run { piece: half, ..*run }, &left)
                && self.is_clear(&Run { from: middle, piece: half, ..*run }, &left)
    }

    /// The least distance of the car from anything on its way, mm: never more than there is, at most [`TOLD_WITHIN`] less.
    pub fn least_room(&self, rings: &[Vec<DVec2>], from: &PlanPose, pieces: &[Piece]) -> f64 {
        let mut at = *from;
        let mut runs = Vec::new();
        for piece in pieces {
            let count = parts(piece);
            let part = piece.part(count as f64);
            for _ in 0..count {
                runs.extend(rings.iter().map(|ring| Run { ring, from: at, piece: part }));
                at = part.end(&at);
            }
        }
        let all: Vec<&Solid> = self.all.iter().collect();
        // The ends of all first: what is near makes the rest short.
        let ends = runs.iter().flat_map(|run| all.iter().map(|solid| solid.distance(&run.placed())));
        let mut least = ends.fold(f64::INFINITY, f64::min);
        for run in &runs {
            run.nearer(&all, &mut least);
        }
        (least - TOLD_WITHIN).max(0.0)
    }

    /// How far a point is from the nearest thing or edge of the floor, mm; 0 within a thing.
    pub fn room_at(&self, p: DVec2) -> f64 {
        let room = |solid: &Solid| {
            let inside = solid.ring.len() > 2 && solid.sides.iter().all(|&(n, out)| p.dot(n) <= out);
            let far = ring_edges(&solid.ring).map(|e| e.distance_to(p)).fold(f64::INFINITY, f64::min);
            if inside { 0.0 } else { far }
        };
        self.all.iter().map(room).fold(f64::INFINITY, f64::min)
    }
}

impl Run<'_> {
    fn placed(&self) -> Vec<DVec2> {
        self.ring.iter().map(|&p| self.from * p).collect()
    }

    /// Which things no straight line parts from all that is covered, by so much.
    fn not_parted<'s>(&self, among: &[&'s Solid], gap: f64) -> Vec<&'s Solid> {
        let mut points = Vec::with_capacity(3 * self.ring.len());
        around(self.ring, &self.from, &self.piece, &mut points);
        let Some(bounds) = Bounds::around(points.iter().copied()) else { return Vec::new() };
        let reach = bounds.grown(gap.max(0.0));
        let mut near: Vec<&Solid> = among.iter().copied().filter(|s| s.bounds.meets(&reach)).collect();
        near.retain(|solid| solid.sides.iter().all(|&(n, out)| lowest(&points, n) - out < gap));
        if near.is_empty() {
            return near;
        }
        let turn = 0.5 * self.piece.turn();
        let headings = if turn == 0.0 { 1 } else { 3 };
        for i in 0..headings {
            let turned = PlanPose::new(DVec2::ZERO, self.from.heading() + turn * f64::from(i));
            for e in ring_edges(self.ring) {
                let out = turned.turned(-(e.to - e.from).perp().normalize_or_zero());
                part_along(&mut near, &points, out, gap);
            }
        }
        let along = (self.piece.end(&self.from).origin() - self.from.origin()).normalize_or_zero();
        part_along(&mut near, &points, along.perp(), gap);
        part_along(&mut near, &points, -along.perp(), gap);
        near
    }

    /// Lowers `least` to what is found nearer on this run.
    fn nearer(&self, among: &[&Solid], least: &mut f64) {
        let near = self.not_parted(among, *least - TOLD_WITHIN);
        if near.is_empty() {
            return;
        }
        let half = self.piece.part(2.0);
        let middle = half.end(&self.from);
        let placed: Vec<DVec2> = self.ring.iter().map(|&p| middle * p).collect();
        let travel = self.piece.travel(self.ring);
        let mut left = Vec::new();
        for solid in near {
            let distance = solid.distance(&placed);
            *least = least.min(distance);
            if distance - 0.5 * travel < *least - TOLD_WITHIN {
                left.push(solid);
            }
        }
        if !left.is_empty() && *least > 0.0 {
            Run { piece: half, ..*self }.nearer(&left, least);
            Run { from: middle, piece: half, ..*self }.nearer(&left, least);
        }
    }
}

impl Solid {
    /// `None` of a ring without a corner.
    fn new(ring: Vec<DVec2>) -> Option<Self> {
        let bounds = Bounds::around(ring.iter().copied())?;
        let side = |e: crate::segment::Segment| {
            let out = -(e.to - e.from).perp().normalize_or_zero();
            (out != DVec2::ZERO).then(|| (out, out.dot(e.from)))
        };
        let sides = ring_edges(&ring).filter_map(side).collect();
        Some(Self { ring, bounds, sides })
    }

    /// How far it is from a convex ring with an area, mm; negative if they share some, 0 if they touch.
    fn distance(&self, other: &[DVec2]) -> f64 {
        let outside = self.sides.iter().map(|&(n, out)| lowest(other, n) - out);
        let mut apart = outside.fold(f64::NEG_INFINITY, f64::max);
        for e in ring_edges(other) {
            let out = -(e.to - e.from).perp().normalize_or_zero();
            if out != DVec2::ZERO {
                apart = apart.max(lowest(&self.ring, out) - out.dot(e.from));
            }
        }
        if apart <= 0.0 {
            return apart;
        }
        let from_own = ring_edges(&self.ring).flat_map(|e| other.iter().map(move |&p| e.distance_to(p)));
        let from_other = ring_edges(other).flat_map(|e| self.ring.iter().map(move |&p| e.distance_to(p)));
        from_own.chain(from_other).fold(f64::INFINITY, f64::min)
    }
}

/// Drops what lies further out along a unit vector than all points, by so much; nothing along none.
fn part_along(near: &mut Vec<&Solid>, points: &[DVec2], out: DVec2, gap: f64) {
    if out != DVec2::ZERO {
        let far = -lowest(points, -out);
        near.retain(|solid| lowest(&solid.ring, out) - far < gap);
    }
}

/// How far along a direction the first of some points lies.
fn lowest(points: &[DVec2], direction: DVec2) -> f64 {
    points.iter().map(|p| p.dot(direction)).fold(f64::INFINITY, f64::min)
}
