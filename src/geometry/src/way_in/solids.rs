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
    /// Which of the obstacles; none of the edge of the floor.
    nth: Option<usize>,
    /// The rings of the car that it is in the way of, bit by bit.
    meets: u64,
}

/// The bit of a ring of the car: those past the last one meet all that meets anything there.
pub(super) fn bit(ring: usize) -> u64 {
    1 << ring.min(63)
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
    bit: u64,
    from: PlanPose,
    piece: Piece,
}

impl Solids {
    /// Obstacles, each with the rings of the car that it meets (all, where that is missing), and the edge of the floor, which meets
    /// every ring that does not lie within another.
    pub fn new(
        obstacles: &[Vec<DVec2>],
        meets: &[u64],
        floor: Region,
        rings: &[Vec<DVec2>],
        keep: f64,
    ) -> Self {
        let outer = outermost(rings);
        let meets = meets.iter().copied().chain(std::iter::repeat(u64::MAX));
        let things = obstacles.iter().cloned().zip(meets).enumerate();
        let things = things.filter_map(|(nth, (ring, meets))| Solid::new(ring, Some(nth), meets));
        let edges = floor.rings().flat_map(ring_edges);
        let edges = edges.filter_map(|e| Solid::new(vec![e.from, e.to], None, outer));
        let all = things.chain(edges).collect();
        Self { all, floor, keep }
    }

    /// Around the floor.
    pub fn bounds(&self) -> Option<Bounds> {
        self.floor.bounds()
    }

    /// Whether the car may stand there (frame of the rear axle).
    pub fn stands_clear(&self, rings: &[Vec<DVec2>], rear: &PlanPose) -> bool {
        rings.iter().enumerate().all(|(nth, ring)| {
            let placed: Vec<DVec2> = ring.iter().map(|&p| *rear * p).collect();
            let centre = placed.iter().sum::<DVec2>() / placed.len() as f64;
            let met = self.all.iter().filter(|solid| solid.meets & bit(nth) != 0);
            self.floor.holds(centre) && met.into_iter().all(|solid| self.keeps(solid.distance(&placed)))
        })
    }

    /// Whether the car meets nothing on the whole piece; it stands clear at its start.
    pub fn drives_clear(&self, rings: &[Vec<DVec2>], from: &PlanPose, piece: &Piece) -> bool {
        let count = parts(piece);
        let part = piece.part(count as f64);
        let ends: Vec<PlanPose> =
            (0..=count).map(|nth| Piece { length: part.length * nth as f64, ..part }.end(from)).collect();
        // No corner is further from the box around the ends than the car reaches and an arc bulges.
        let Some(around) = Bounds::around(ends.iter().map(PlanPose::origin)) else { return false };
        let reach = rings.iter().flatten().map(|p| p.length()).fold(0.0, f64::max);
        let around = around.grown(reach + 0.5 * part.length.abs() + self.keep);
        let near: Vec<&Solid> = self.all.iter().filter(|solid| solid.bounds.meets(&around)).collect();
        rings.iter().enumerate().all(|(nth, ring)| {
            let own: Vec<&Solid> = near.iter().copied().filter(|solid| solid.meets & bit(nth) != 0).collect();
            let mut starts = ends.iter().take(count);
            own.is_empty()
                || starts.all(|&from| self.is_clear(&Run { ring, bit: bit(nth), from, piece: part }, &own))
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

    /// The least distance of the car from an obstacle on its way, mm: never more than there is, at most [`TOLD_WITHIN`] less; and
    /// which one that is, with its nearest point.
    pub fn least_room(
        &self,
        rings: &[Vec<DVec2>],
        from: &PlanPose,
        pieces: &[Piece],
    ) -> (f64, Option<(usize, DVec2)>) {
        let mut at = *from;
        let mut runs = Vec::new();
        for piece in pieces {
            let count = parts(piece);
            let part = piece.part(count as f64);
            for _ in 0..count {
                let own = rings.iter().enumerate();
                runs.extend(own.map(|(nth, ring)| Run { ring, bit: bit(nth), from: at, piece: part }));
                at = part.end(&at);
            }
        }
        let still = Piece { curvature: 0.0, length: 0.0 };
        let last = rings.iter().enumerate();
        runs.extend(last.map(|(nth, ring)| Run { ring, bit: bit(nth), from: at, piece: still }));
        let all: Vec<&Solid> = self.all.iter().filter(|solid| solid.nth.is_some()).collect();
        let mut least = Least { mm: f64::INFINITY, to: None };
        // The ends of all first: what is near makes the rest short.
        for run in &runs {
            let placed = run.placed();
            for solid in all.iter().filter(|solid| solid.meets & run.bit != 0) {
                least.hear(solid, &placed);
            }
        }
        for run in &runs {
            run.nearer(&all, &mut least);
        }
        let to = least.to.and_then(|(solid, placed)| Some((solid.nth?, solid.nearest_to(&placed)?)));
        ((least.mm - TOLD_WITHIN).max(0.0), to)
    }

    /// How far a point is from the nearest thing that meets a ring of the car, or from the edge of the floor, mm; 0 within a thing.
    pub fn room_at(&self, p: DVec2, ring: usize) -> f64 {
        let room = |solid: &Solid| {
            let inside = solid.ring.len() > 2 && solid.sides.iter().all(|&(n, out)| p.dot(n) <= out);
            let far = ring_edges(&solid.ring).map(|e| e.distance_to(p)).fold(f64::INFINITY, f64::min);
            if inside { 0.0 } else { far }
        };
        let met = self.all.iter().filter(|solid| solid.nth.is_none() || solid.meets & bit(ring) != 0);
        met.map(room).fold(f64::INFINITY, f64::min)
    }
}

/// What was nearest so far, and how the ring lay then.
struct Least<'s> {
    mm: f64,
    to: Option<(&'s Solid, Vec<DVec2>)>,
}

impl<'s> Least<'s> {
    /// Takes it in; how far it is.
    fn hear(&mut self, solid: &'s Solid, placed: &[DVec2]) -> f64 {
        let mm = solid.distance(placed);
        if mm < self.mm {
            (self.mm, self.to) = (mm, Some((solid, placed.to_vec())));
        }
        mm
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
        let mut near: Vec<&Solid> =
            among.iter().copied().filter(|s| s.meets & self.bit != 0 && s.bounds.meets(&reach)).collect();
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
    fn nearer<'s>(&self, among: &[&'s Solid], least: &mut Least<'s>) {
        let near = self.not_parted(among, least.mm - TOLD_WITHIN);
        if near.is_empty() {
            return;
        }
        let half = self.piece.part(2.0);
        let middle = half.end(&self.from);
        let placed: Vec<DVec2> = self.ring.iter().map(|&p| middle * p).collect();
        let travel = self.piece.travel(self.ring);
        let mut left = Vec::new();
        for solid in near {
            let distance = least.hear(solid, &placed);
            if distance - 0.5 * travel < least.mm - TOLD_WITHIN {
                left.push(solid);
            }
        }
        if !left.is_empty() && least.mm > 0.0 {
            Run { piece: half, ..*self }.nearer(&left, least);
            Run { from: middle, piece: half, ..*self }.nearer(&left, least);
        }
    }
}

impl Solid {
    /// `None` of a ring without a corner.
    fn new(ring: Vec<DVec2>, nth: Option<usize>, meets: u64) -> Option<Self> {
        let bounds = Bounds::around(ring.iter().copied())?;
        let side = |e: crate::segment::Segment| {
            let out = -(e.to - e.from).perp().normalize_or_zero();
            (out != DVec2::ZERO).then(|| (out, out.dot(e.from)))
        };
        let sides = ring_edges(&ring).filter_map(side).collect();
        Some(Self { ring, bounds, sides, nth, meets })
    }

    /// Its point that is nearest to a ring; `None` of a ring without a corner.
    fn nearest_to(&self, other: &[DVec2]) -> Option<DVec2> {
        let own =
            ring_edges(&self.ring).flat_map(|e| other.iter().map(move |&p| (e.distance_to(p), e.nearest(p))));
        let others = ring_edges(other).flat_map(|e| self.ring.iter().map(move |&p| (e.distance_to(p), p)));
        own.chain(others).min_by(|a, b| a.0.total_cmp(&b.0)).map(|own| own.1)
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

/// The rings that do not lie within an earlier one or in a larger one, bit by bit.
pub(super) fn outermost(rings: &[Vec<DVec2>]) -> u64 {
    let within = |inner: &[DVec2], outer: &[DVec2]| {
        let left = |p: &DVec2| ring_edges(outer).all(|e| (e.to - e.from).perp_dot(*p - e.from) >= 0.0);
        inner.iter().all(left)
    };
    let is_inside = |nth: usize, ring: &[DVec2]| {
        let mut others = rings.iter().enumerate().filter(|(other, _)| *other != nth);
        others.any(|(other, outer)| within(ring, outer) && (other < nth || !within(outer, ring)))
    };
    let outer = rings.iter().enumerate().filter(|(nth, ring)| !is_inside(*nth, ring));
    outer.map(|(nth, _)| bit(nth)).fold(0, |all, own| all | own)
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
