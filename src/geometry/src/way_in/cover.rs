//! What a car covers on one piece of its way, never less.

use glam::DVec2;

use crate::angle;
use crate::bounds::Bounds;
use crate::convex::{common, hull};
use crate::frame::PlanPose;
use crate::way_in::drive::Piece;

/// The most that a car turns between two places that are covered as one, radians.
const WIDEST: f64 = std::f64::consts::FRAC_PI_6;

/// By how much a corner of what is covered may lie outside the arc that the car's corner runs on, mm.
const OUTSIDE: f64 = 0.2;

/// Into how many equal parts a piece is cut so that the car turns little in each.
pub(super) fn parts(piece: &Piece) -> usize {
    (piece.turn().abs() / WIDEST).ceil().max(1.0) as usize
}

/// Points whose hull holds all places of a convex ring (frame of the rear axle) on a piece of at most a sixth of a half
/// turn: its
/// corners at both ends, and where the tangents at both ends of each corner's arc meet.
///
/// Each place of the ring is the hull of its corners, each corner runs on its arc, and an arc lies within the triangle of
/// its ends
/// and that point.
pub(super) fn around(ring: &[DVec2], from: &PlanPose, piece: &Piece, points: &mut Vec<DVec2>) {
    points.clear();
    let to = piece.end(from);
    points.extend(ring.iter().map(|&p| *from * p));
    points.extend(ring.iter().map(|&p| to * p));
    if let Some(centre) = piece.centre() {
        let about = *from * centre;
        let half = angle::direction(0.5 * piece.turn());
        // Turned by half the angle and as much further out as the tangents meet.
        let out = half / half.x;
        points.extend(ring.iter().map(|&p| about + out.rotate(*from * p - about)));
    }
}

/// Convex rings, anticlockwise, that hold all places of the given ones on a piece, and little else.
pub(super) fn rings(outline: &[Vec<DVec2>], from: &PlanPose, piece: &Piece) -> Vec<Vec<DVec2>> {
    let Some(centre) = piece.centre() else {
        return outline.iter().flat_map(|ring| steps(ring, from, piece, 1)).collect();
    };
    let slices = outline.iter().flat_map(|ring| sliced(ring, centre));
    slices
        .flat_map(|ring| {
            let far = ring.iter().map(|p| p.distance(centre)).fold(0.0, f64::max);
            let widest = 2.0 * libm::acos(far / (far + OUTSIDE));
            let count = (piece.turn().abs() / widest.min(WIDEST)).ceil().max(1.0) as usize;
            steps(&ring, from, piece, count)
        })
        .collect()
}

fn steps(ring: &[DVec2], from: &PlanPose, piece: &Piece, count: usize) -> Vec<Vec<DVec2>> {
    let part = piece.part(count as f64);
    let mut points = Vec::new();
    let step = |i: usize| {
        let start = Piece { length: part.length * i as f64, ..part }.end(from);
        around(ring, &start, &part, &mut points);
        hull(&points).map(|hull| hull.outer().to_vec())
    };
    (0..count).filter_map(step).collect()
}

/// A ring cut where a side is nearest to the turning centre. The places of such a side at both ends of a small turn cross
/// there, and
/// one hull around both would fill the notch between them.
fn sliced(ring: &[DVec2], centre: DVec2) -> Vec<Vec<DVec2>> {
    let Some(around) = Bounds::around(ring.iter().copied()) else { return Vec::new() };
    let foot = |e: crate::segment::Segment| {
        let along = e.to - e.from;
        let share = (centre - e.from).dot(along) / along.length_squared();
        (share > 0.0 && share < 1.0).then_some(e.from.x + along.x * share)
    };
    let mut cuts: Vec<f64> = crate::polygon::ring_edges(ring).filter_map(foot).collect();
    cuts.extend([around.low.x - 1.0, around.high.x + 1.0]);
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    let slice = |pair: &[f64]| {
        let (&from, &to) = (pair.first()?, pair.last()?);
        let (low, high) = (DVec2::new(from, around.low.y - 1.0), DVec2::new(to, around.high.y + 1.0));
        let strip = [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
        Some(common(ring, &strip)).filter(|cut| cut.len() >= 3)
    };
    cuts.windows(2).filter_map(slice).collect()
}
