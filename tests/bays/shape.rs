//! The oracle's own plane geometry, on rings of corners: by counting crossings and walking edges, nothing cleverer.

use baywright_planner::geometry::DVec2;

/// A ring of corners, not closed.
pub type Ring = Vec<DVec2>;

/// How far apart points are taken along an edge, mm.
const STEP_MM: f64 = 40.0;

/// Corners on a circle that stand for it: all of the ring lies in the circle.
const ROUND: u32 = 48;

pub fn round(centre: DVec2, radius: f64) -> Ring {
    let turn = |i: u32| std::f64::consts::TAU * f64::from(i) / f64::from(ROUND);
    (0..ROUND).map(|i| centre + DVec2::new(turn(i).cos(), turn(i).sin()) * radius).collect()
}

pub fn rectangle(low: DVec2, high: DVec2) -> Ring {
    vec![low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)]
}

/// A rectangle beside a line: from so far to so far along it, and to the left of it.
pub fn rectangle_on(from: DVec2, to: DVec2, along: (f64, f64), left: (f64, f64)) -> Ring {
    let way = (to - from) / from.distance(to);
    let aside = DVec2::new(-way.y, way.x);
    let corners = [(along.0, left.0), (along.1, left.0), (along.1, left.1), (along.0, left.1)];
    corners.map(|(x, y)| from + way * x + aside * y).to_vec()
}

/// A frame in plan, by its own sine and cosine.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    pub at: DVec2,
    pub heading: f64,
}

impl Frame {
    pub fn new(at: DVec2, heading: f64) -> Self {
        Self { at, heading }
    }

    pub fn turn(&self, p: DVec2) -> DVec2 {
        let (s, c) = self.heading.sin_cos();
        DVec2::new(c * p.x - s * p.y, s * p.x + c * p.y)
    }

    pub fn out(&self, p: DVec2) -> DVec2 {
        self.at + self.turn(p)
    }

    pub fn into_own(self, p: DVec2) -> DVec2 {
        Self::new(DVec2::ZERO, -self.heading).turn(p - self.at)
    }

    pub fn ring(&self, ring: &[DVec2]) -> Ring {
        ring.iter().map(|&p| self.out(p)).collect()
    }
}

pub fn edges(ring: &[DVec2]) -> impl Iterator<Item = (DVec2, DVec2)> + '_ {
    ring.iter().zip(ring.iter().cycle().skip(1)).map(|(&a, &b)| (a, b))
}

/// The point of an edge nearest to `p`.
pub fn nearest_on((a, b): (DVec2, DVec2), p: DVec2) -> DVec2 {
    let along = b - a;
    let length = along.dot(along);
    if length == 0.0 { a } else { a + along * ((p - a).dot(along) / length).clamp(0.0, 1.0) }
}

pub fn nearest(ring: &[DVec2], p: DVec2) -> DVec2 {
    let of_edges = edges(ring).map(|edge| nearest_on(edge, p));
    of_edges.min_by(|a, b| a.distance(p).total_cmp(&b.distance(p))).unwrap_or(p)
}

/// Whether a ray to the right crosses the ring an odd number of times.
pub fn holds(ring: &[DVec2], p: DVec2) -> bool {
    let crosses = |(a, b): (DVec2, DVec2)| {
        (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)
    };
    edges(ring).filter(|&edge| crosses(edge)).count() % 2 == 1
}

/// How deep a point lies in a ring, mm; negative outside.
pub fn depth_of(ring: &[DVec2], p: DVec2) -> f64 {
    let far = nearest(ring, p).distance(p);
    if holds(ring, p) { far } else { -far }
}

/// Points along a line, its ends among them.
pub fn along(a: DVec2, b: DVec2, step: f64) -> impl Iterator<Item = DVec2> {
    let steps = (a.distance(b) / step).ceil().clamp(1.0, 2_000.0) as u32;
    (0..=steps).map(move |i| a + (b - a) * (f64::from(i) / f64::from(steps)))
}

pub fn points(ring: &[DVec2]) -> impl Iterator<Item = DVec2> + '_ {
    edges(ring).flat_map(|(a, b)| along(a, b, STEP_MM))
}

/// A box around points, grown.
pub fn around(ring: &[DVec2], by: f64) -> (DVec2, DVec2) {
    let low = ring.iter().fold(DVec2::INFINITY, |low, p| low.min(*p));
    let high = ring.iter().fold(DVec2::NEG_INFINITY, |high, p| high.max(*p));
    (low - DVec2::splat(by), high + DVec2::splat(by))
}

pub fn boxes_meet(a: (DVec2, DVec2), b: (DVec2, DVec2)) -> bool {
    a.0.x <= b.1.x && b.0.x <= a.1.x && a.0.y <= b.1.y && b.0.y <= a.1.y
}

/// How far apart the boxes around two rings are, mm; no less than that are the rings.
pub fn box_gap(a: &[DVec2], b: &[DVec2]) -> f64 {
    let (a, b) = (around(a, 0.0), around(b, 0.0));
    (a.0 - b.1).max(b.0 - a.1).max(DVec2::ZERO).length()
}

/// How deep one ring surely is in the other, mm: the deepest of the points that were looked at; zero or less if none is.
pub fn depth(a: &[DVec2], b: &[DVec2]) -> f64 {
    if !boxes_meet(around(a, 0.0), around(b, 0.0)) {
        return f64::NEG_INFINITY;
    }
    let deepest = |of: &[DVec2], other: &[DVec2]| {
        points(of).map(|p| depth_of(other, p)).fold(f64::NEG_INFINITY, f64::max)
    };
    deepest(a, b).max(deepest(b, a))
}

/// How far apart two rings are, mm; zero if one has a corner in the other or their edges cross.
pub fn gap(a: &[DVec2], b: &[DVec2]) -> f64 {
    let cross = |p: (DVec2, DVec2), q: (DVec2, DVec2)| {
        let side = |l: (DVec2, DVec2), x: DVec2| (l.1 - l.0).perp_dot(x - l.0);
        side(p, q.0) * side(p, q.1) < 0.0 && side(q, p.0) * side(q, p.1) < 0.0
    };
    let corner_in = a.iter().any(|&p| holds(b, p)) || b.iter().any(|&p| holds(a, p));
    if corner_in || edges(a).any(|p| edges(b).any(|q| cross(p, q))) {
        return 0.0;
    }
    let far = |of: &[DVec2], other: &[DVec2]| {
        of.iter().map(|&p| nearest(other, p).distance(p)).fold(f64::INFINITY, f64::min)
    };
    far(a, b).min(far(b, a))
}

/// How far a ring is from a line, mm; zero if the line enters it.
pub fn gap_to_line(ring: &[DVec2], a: DVec2, b: DVec2) -> f64 {
    gap(ring, &[a, b])
}

/// How much of a line runs deeper than `margin` in a ring, mm, by points along it.
pub fn inside_of(ring: &[DVec2], a: DVec2, b: DVec2, margin: f64) -> bool {
    boxes_meet(around(ring, 0.0), around(&[a, b], 0.0))
        && along(a, b, 2.0).any(|p| depth_of(ring, p) > margin)
}
