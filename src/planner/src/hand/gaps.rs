//! How far what is in hand may go straight ahead, to the left, back and to the right of the car before it meets
//! something.

use baywright_geometry::{Bounds, DVec2, Outline, Prism, Segment, overlaps};

use super::{others, solids};
use crate::assessment::Subject;
use crate::model::Arrangement;
use crate::scene::Scene;

/// A free distance from what is in hand to what it would meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// On what is in hand, bay frame, mm.
    pub from: DVec2,
    /// On what it would meet, bay frame, mm.
    pub to: DVec2,
    /// Between the two, mm, above zero.
    pub distance: f64,
    /// What it would meet.
    pub what: Subject,
}

/// Less than this is no distance that could be shown, mm.
const LEAST_MM: f64 = 0.5;
/// Two ways to touch that differ by less than this are one, mm.
const SAME_MM: f64 = 1e-6;

/// The free distances in the car's four directions, the nearest first and at most `most` of them: how far each could be
/// moved straight that way. Only what shares its heights is met; walls are met at every height.
pub fn gaps(arrangement: &Arrangement, scene: &Scene, subject: &Subject, most: usize) -> Vec<Gap> {
    let own = solids(arrangement, scene, subject);
    let ahead = scene.bay_from_vehicle.ahead();
    let left = scene.bay_from_vehicle.left();
    let mut all: Vec<Gap> = [ahead, left, -ahead, -left]
        .into_iter()
        .filter_map(|way| gap(arrangement, scene, subject, &own, way))
        .collect();
    all.retain(|gap| gap.distance >= LEAST_MM);
    all.sort_by(|a, b| a.distance.total_cmp(&b.distance));
    all.truncate(most);
    all
}

/// The free distance one way; `None` if nothing is met that way, or something is met already.
fn gap(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    own: &[Prism],
    way: DVec2,
) -> Option<Gap> {
    let mut touch = Touch { way, best: None };
    for solid in own {
        let edges = edges(&solid.outline);
        let band = Band::of(&edges, way)?;
        for (index, wall) in arrangement.bay.room.edges().enumerate() {
            let id = arrangement.bay.walls.get(index).map(|wall| wall.id.clone());
            if let Some(id) = id.filter(|_| band.may_meet(&[wall.from, wall.to], way)) {
                touch.try_edges(&edges, &[wall], &Subject::Wall(id));
            }
        }
        for (of, other) in others(arrangement, scene, subject) {
            let shares = solid.span.shared(&other.span).is_some();
            if shares
                && band.may_meet(&corners(&other.outline.bounds()), way)
                // What it overlaps already is a finding, not a distance.
                && !overlaps(&solid.outline, &other.outline)
            {
                touch.try_edges(&edges, &self::edges(&other.outline), &of);
            }
        }
    }
    let mut best = touch.best?;
    // Face to face: the distance is shown in the middle of what both share.
    best.from = best.ends.0.midpoint(best.ends.1);
    Some(Gap {
        from: best.from,
        to: best.from + way * best.distance,
        distance: best.distance,
        what: best.what,
    })
}

struct Touch {
    way: DVec2,
    best: Option<Best>,
}

struct Best {
    from: DVec2,
    /// The two outermost places on what is in hand from which it is this far.
    ends: (DVec2, DVec2),
    distance: f64,
    what: Subject,
}

impl Touch {
    /// Two shapes moved towards each other meet first where a corner of one meets an edge of the other.
    fn try_edges(&mut self, own: &[Segment], other: &[Segment], what: &Subject) {
        for edge in own {
            for against in other {
                if let Some(far) = hit(edge.from, self.way, against) {
                    self.take(edge.from, far, what);
                }
            }
        }
        for edge in other {
            for corner in [edge.from, edge.to] {
                for against in own {
                    if let Some(far) = hit(corner, -self.way, against) {
                        self.take(corner - self.way * far, far, what);
                    }
                }
            }
        }
    }

    fn take(&mut self, from: DVec2, distance: f64, what: &Subject) {
        match &mut self.best {
            Some(best) if distance > best.distance + SAME_MM => {}
            Some(best) if distance > best.distance - SAME_MM => {
                if best.what == *what {
                    let side = |p: DVec2| self.way.perp_dot(p);
                    if side(from) < side(best.ends.0) {
                        best.ends.0 = from;
                    }
                    if side(from) > side(best.ends.1) {
                        best.ends.1 = from;
                    }
                }
            }
            _ => self.best = Some(Best { from, ends: (from, from), distance, what: what.clone() }),
        }
    }
}

/// How far from a point along a unit vector an edge is met; not if it lies behind or runs along.
fn hit(from: DVec2, way: DVec2, edge: &Segment) -> Option<f64> {
    let (a, b) = (edge.from - from, edge.to - from);
    let (side_a, side_b) = (way.perp_dot(a), way.perp_dot(b));
    if side_a == side_b || (side_a > 0.0 && side_b > 0.0) || (side_a < 0.0 && side_b < 0.0) {
        return None;
    }
    let on = a + (b - a) * (side_a / (side_a - side_b));
    let far = on.dot(way);
    (far >= 0.0 && far.is_finite()).then_some(far)
}

/// The strip that what is in hand sweeps.
struct Band {
    low: f64,
    high: f64,
    /// Its hindmost place along the way.
    start: f64,
}

impl Band {
    fn of(edges: &[Segment], way: DVec2) -> Option<Self> {
        let side = |p: DVec2| way.perp_dot(p);
        let all = || edges.iter().map(|edge| edge.from);
        let low = all().map(side).reduce(f64::min)?;
        let high = all().map(side).reduce(f64::max)?;
        let start = all().map(|p| p.dot(way)).reduce(f64::min)?;
        Some(Self { low, high, start })
    }

    fn may_meet(&self, points: &[DVec2], way: DVec2) -> bool {
        let sides = points.iter().map(|&p| way.perp_dot(p));
        let (low, high) = sides.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), s| (l.min(s), h.max(s)));
        low < self.high && high > self.low && points.iter().any(|p| p.dot(way) > self.start)
    }
}

fn corners(bounds: &Bounds) -> [DVec2; 4] {
    let (low, high) = (bounds.low, bounds.high);
    [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)]
}

fn edges(outline: &Outline) -> Vec<Segment> {
    outline.as_polygon().edges().collect()
}
