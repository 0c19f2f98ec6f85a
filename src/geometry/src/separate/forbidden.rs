//! One convex set of forbidden moves: a convex part of an obstacle less a convex part of the mover.

use glam::DVec2;

use crate::bounds::Bounds;
use crate::convex::{Part, bears, parts, sum};
use crate::outline::Outline;
use crate::polygon::ring_edges;
use crate::segment::Segment;

/// A straight side of the set.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wall {
    pub side: Segment,
    /// Unit vector along the side.
    pub along: DVec2,
    /// Unit vector out of the set.
    pub out: DVec2,
}

/// A rounded corner of the set, or a whole disc.
#[derive(Clone, Copy, Debug)]
pub(super) struct Round {
    pub centre: DVec2,
    pub radius: f64,
    /// Unit normals where the arc starts and ends, anticlockwise; `None` for a whole disc.
    pub between: Option<(DVec2, DVec2)>,
}

impl Round {
    /// Whether the arc has a point in this direction from its centre, give or take a rounding.
    pub(super) fn faces(&self, out: DVec2) -> bool {
        // An arc of a convex corner spans less than half a turn.
        self.between.is_none_or(|(from, to)| from.perp_dot(out) >= -1e-12 && out.perp_dot(to) >= -1e-12)
    }
}

/// A convex set of moves: a polygon, a disc, or a polygon rounded by a disc.
pub(super) struct Forbidden {
    ring: Vec<DVec2>,
    radius: f64,
    /// How deep a move may end in the set and still be free.
    slack: f64,
    pub bounds: Bounds,
    pub walls: Vec<Wall>,
    pub rounds: Vec<Round>,
}

/// The sets for one obstacle.
pub(super) fn sets(obstacle: &Outline, mover: &Outline, slack: f64) -> Vec<Forbidden> {
    parts(obstacle)
        .flat_map(|o| parts(mover).map(move |m| (o, m)))
        .filter_map(|(o, m)| Forbidden::new(&o, &m, slack))
        .collect()
}

impl Forbidden {
    fn new(obstacle: &Part<'_>, mover: &Part<'_>, slack: f64) -> Option<Self> {
        let ring = sum::difference(obstacle.core, mover.core);
        let radius = obstacle.radius + mover.radius;
        let core = Bounds::around(ring.iter().copied())?;
        let extent = core.size().max_element();
        let mut walls: Vec<Wall> = Vec::new();
        if ring.len() >= 3 {
            for e in ring_edges(&ring) {
                let along = (e.to - e.from).normalize_or_zero();
                if along != DVec2::ZERO && bears(&e, &ring, extent, slack) {
                    let out = -along.perp();
                    let side = Segment::new(e.from + out * radius, e.to + out * radius);
                    walls.push(Wall { side, along, out });
                }
            }
        }
        let rounds = if radius > 0.0 { rounds(&ring, &walls, radius) } else { Vec::new() };
        Some(Self { ring, radius, slack, bounds: core.grown(radius), walls, rounds })
    }

    /// Whether a move ends in the set, deeper than its slack.
    pub(super) fn holds(&self, t: DVec2) -> bool {
        if !self.bounds.holds(t) {
            return false;
        }
        match (self.ring.as_slice(), self.radius > 0.0) {
            ([centre], _) => t.distance(*centre) < self.radius - self.slack,
            (_, false) => self.walls.iter().all(|w| (w.side.from - t).dot(w.out) > self.slack),
            (ring, true) => {
                self.walls.iter().all(|w| (w.side.from - t).dot(w.out) >= self.radius)
                    || ring_edges(ring).any(|e| e.distance_to(t) < self.radius - self.slack)
            }
        }
    }

    /// Unit vectors along the sides on which `t` lies, within `slack`.
    pub(super) fn tangents(&self, t: DVec2, slack: f64) -> Vec<DVec2> {
        let walls = self.walls.iter().filter(|w| w.side.distance_to(t) <= slack).map(|w| w.along);
        let rounds = self
            .rounds
            .iter()
            .map(|r| (r, t - r.centre))
            .filter(|(r, off)| (off.length() - r.radius).abs() <= slack && r.faces(*off / r.radius))
            .map(|(_, off)| off.normalize_or_zero().perp());
        walls.chain(rounds).collect()
    }

    /// The points of each side nearest to staying put, where going on outwards is going further. A foot may miss its
    /// side by the slack: two sides on one line must not lose one that falls on their joint.
    pub(super) fn feet(&self) -> Vec<DVec2> {
        let walls = self.walls.iter().filter_map(|w| {
            let height = w.side.from.dot(w.out);
            let share = -w.side.from.dot(w.along);
            let reached = share >= -self.slack && share <= w.side.length() + self.slack;
            (height > 0.0 && reached).then(|| w.out * height)
        });
        let mut feet: Vec<DVec2> = walls.collect();
        for round in &self.rounds {
            let far = round.centre.length();
            if far < 1e-12 * round.radius {
                let all = [DVec2::X, DVec2::Y, DVec2::NEG_X, DVec2::NEG_Y];
                feet.extend(all.into_iter().filter(|&d| round.faces(d)).map(|d| d * round.radius));
            } else if far < round.radius {
                let out = -round.centre / far;
                if round.faces(out) {
                    feet.push(out * (round.radius - far));
                }
            }
        }
        feet
    }
}

/// The arcs between the rounded sides of a ring.
fn rounds(ring: &[DVec2], walls: &[Wall], radius: f64) -> Vec<Round> {
    if let [centre] = ring {
        return vec![Round { centre: *centre, radius, between: None }];
    }
    let n = walls.len();
    (0..n)
        .filter_map(|i| {
            let (before, after) = (walls.get(i)?, walls.get((i + 1) % n)?);
            let centre = after.side.from - after.out * radius;
            Some(Round { centre, radius, between: Some((before.out, after.out)) })
        })
        .collect()
}
