//! The point of an upright thing over which a path from one point to another is shortest.
//!
//! |Ap| + |pB| is convex in p, so over a flat face the best point of its plane decides if it lies in the face, and
//! the face's edges decide if not. Both are closed forms: mirror one end in the plane, or swing it about the edge.

use glam::{DVec2, DVec3};

use crate::angle;
use crate::blocker::plan_depth;
use crate::circle::Circle;
use crate::outline::Outline;
use crate::prism::Span;

/// A point, and how much longer than the direct path the path over it is, mm, never negative.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Detour {
    pub at: DVec3,
    pub excess: f64,
}

impl Detour {
    fn better(self, other: Self) -> Self {
        if other.excess < self.excess { other } else { self }
    }
}

/// The shortest detour from `a` to `b` over a point of the surface of an outline over a height range.
pub(super) fn shortest_path(a: DVec3, b: DVec3, outline: &Outline, span: &Span) -> Detour {
    let path = Path { a, b, direct: a.distance(b) };
    let best = match outline {
        Outline::Circle(circle) => over_rim(&path, circle, span),
        Outline::Polygon(polygon) => {
            let walls = polygon.edges().map(|edge| {
                let low = over_edge(&path, edge.from.extend(span.bottom()), edge.to.extend(span.bottom()));
                let high = over_edge(&path, edge.from.extend(span.top()), edge.to.extend(span.top()));
                let upright = over_height(&path, edge.from, span);
                low.better(high).better(upright).better(over_wall(&path, edge.from, edge.to, span))
            });
            walls.fold(
                path.over(polygon.outer().first().copied().unwrap_or_default().extend(span.top())),
                Detour::better,
            )
        }
    };
    [span.bottom(), span.top()].into_iter().fold(best, |best, height| {
        let over = path.over(path.over_plane(DVec3::Z, height));
        if over.excess < best.excess && plan_depth(outline, over.at.truncate()) >= 0.0 { over } else { best }
    })
}

struct Path {
    a: DVec3,
    b: DVec3,
    direct: f64,
}

impl Path {
    fn over(&self, p: DVec3) -> Detour {
        let excess = self.a.distance(p) + p.distance(self.b) - self.direct;
        // Rounding can take the direct path itself a little below zero.
        Detour { at: p, excess: excess.max(0.0) }
    }

    /// The best point of the plane `normal · p = offset`: where the line to the mirrored end crosses it.
    fn over_plane(&self, normal: DVec3, offset: f64) -> DVec3 {
        let (p, q) = (normal.dot(self.a) - offset, normal.dot(self.b) - offset);
        let (a, b) = (self.a - normal * p, self.b - normal * q);
        a + (b - a) * weight(p.abs(), q.abs())
    }
}

/// Where between two feet the path bends, when the ends are `p` and `q` away from them: in proportion.
fn weight(p: f64, q: f64) -> f64 {
    if p + q > 0.0 { p / (p + q) } else { 0.0 }
}

/// Over a straight edge.
fn over_edge(path: &Path, from: DVec3, to: DVec3) -> Detour {
    let along = to - from;
    let length = along.length();
    if length == 0.0 {
        return path.over(from);
    }
    let unit = along / length;
    let (s, t) = ((path.a - from).dot(unit), (path.b - from).dot(unit));
    let off = |p: DVec3, s: f64| (p - from - unit * s).length();
    let (p, q) = (off(path.a, s), off(path.b, t));
    // An end on the edge's own line with the other too: any point between the feet serves; the nearer one is taken.
    let best = s + (t - s) * weight(p, q);
    let clamped = best.clamp(0.0, length);
    path.over(if clamped >= length { to } else { from + unit * clamped })
}

/// Over the upright line at a plan point.
fn over_height(path: &Path, q: DVec2, span: &Span) -> Detour {
    let off = |p: DVec3| p.truncate().distance(q);
    let best = path.a.z + (path.b.z - path.a.z) * weight(off(path.a), off(path.b));
    path.over(q.extend(best.clamp(span.bottom(), span.top())))
}

/// Over an upright wall; a point of no use if the best one of its plane lies beyond it (its edges then decide).
fn over_wall(path: &Path, from: DVec2, to: DVec2, span: &Span) -> Detour {
    let along = to - from;
    let squared = along.length_squared();
    let normal = along.perp().normalize_or_zero();
    let best = path.over_plane(normal.extend(0.0), normal.dot(from));
    let share = (best.truncate() - from).dot(along) / squared;
    let within = (0.0..=1.0).contains(&share) && (span.bottom()..=span.top()).contains(&best.z);
    if within { path.over(best) } else { Detour { at: best, excess: f64::INFINITY } }
}

/// How many angles round a rim are tried before the best of them are refined.
const RIM_STEPS: usize = 48;

/// Refinement stops at this bracket, rad: the path is flat at its shortest, so that its length is then good to the
/// square of it times the radius, far below rounding.
const RIM_ANGLE: f64 = 1e-9;

/// Angles tried round a rim are no nearer to each other than this, rad.
const RIM_APART: f64 = 1e-9;

/// Over the round wall of a cylinder.
///
/// For one angle the best height is a closed form; what is left is a function of the angle, searched from evenly
/// spread angles and those where a narrow valley can hide (towards both ends, where the plan line crosses the rim or
/// comes nearest), each local best refined by golden section.
fn over_rim(path: &Path, circle: &Circle, span: &Span) -> Detour {
    let at = |turn: f64| {
        let (sin, cos) = libm::sincos(turn);
        over_height(path, circle.centre() + circle.radius() * DVec2::new(cos, sin), span)
    };
    let step = std::f64::consts::TAU / RIM_STEPS as f64;
    let mut turns: Vec<f64> = (0..RIM_STEPS).map(|i| angle::wrapped(step * i as f64)).collect();
    let (a, b) = (path.a.truncate() - circle.centre(), path.b.truncate() - circle.centre());
    turns.extend([angle::heading(a), angle::heading(b)]);
    let along = b - a;
    let squared = along.length_squared();
    if squared > 0.0 {
        let foot = -a.dot(along) / squared;
        let off = (a + along * foot).length_squared();
        let half = ((circle.radius() * circle.radius() - off).max(0.0) / squared).sqrt();
        turns.extend([foot - half, foot, foot + half].map(|share| angle::heading(a + along * share)));
        for height in [span.bottom(), span.top()] {
            let best = path.over_plane(DVec3::Z, height).truncate() - circle.centre();
            turns.push(angle::heading(best));
        }
    }
    turns.sort_by(f64::total_cmp);
    // Of two a rounding apart the wrong one can come out as the better, and what it is refined between leaves the best out.
    turns.dedup_by(|after, before| *after - *before < RIM_APART);
    let found: Vec<Detour> = turns.iter().map(|&turn| at(turn)).collect();
    let n = turns.len();
    let mut best = at(0.0);
    for i in 0..n {
        let (before, after) = ((i + n - 1) % n, (i + 1) % n);
        if found[i].excess <= found[before].excess && found[i].excess <= found[after].excess {
            let low = turns[before] - if before > i { std::f64::consts::TAU } else { 0.0 };
            let high = turns[after] + if after < i { std::f64::consts::TAU } else { 0.0 };
            best = best.better(found[i]).better(refined(&at, low, high));
        }
    }
    best
}

/// Golden section between two angles.
fn refined(at: &impl Fn(f64) -> Detour, mut low: f64, mut high: f64) -> Detour {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let mut p = high - GOLDEN * (high - low);
    let mut q = low + GOLDEN * (high - low);
    let (mut at_p, mut at_q) = (at(p), at(q));
    while high - low > RIM_ANGLE {
        if at_p.excess <= at_q.excess {
            (high, q, at_q) = (q, p, at_p);
            p = high - GOLDEN * (high - low);
            at_p = at(p);
        } else {
            (low, p, at_p) = (p, q, at_q);
            q = low + GOLDEN * (high - low);
            at_q = at(q);
        }
    }
    at_p.better(at_q)
}
