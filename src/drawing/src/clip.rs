//! Cutting lines and rings at straight edges.

use baywright_planner::geometry::{Bounds, DVec2, Polygon};

/// The part of a ring on the side of a line to which `inward` points. A ring that is not convex may leave edges that
/// lie on the cut; filled, they do not show.
pub(crate) fn half_plane(ring: &[DVec2], on: DVec2, inward: DVec2) -> Vec<DVec2> {
    let depth = |p: DVec2| (p - on).dot(inward);
    let next = ring.iter().cycle().skip(1);
    let mut kept = Vec::with_capacity(ring.len() + 2);
    for (&a, &b) in ring.iter().zip(next) {
        let (da, db) = (depth(a), depth(b));
        if da >= 0.0 {
            kept.push(a);
        }
        if (da >= 0.0) != (db >= 0.0) {
            kept.push(a + (b - a) * (da / (da - db)));
        }
    }
    kept
}

/// The part of a ring in a box.
pub(crate) fn ring_in_box(ring: &[DVec2], area: &Bounds) -> Vec<DVec2> {
    let cuts =
        [(area.low, DVec2::X), (area.low, DVec2::Y), (area.high, DVec2::NEG_X), (area.high, DVec2::NEG_Y)];
    cuts.into_iter().fold(ring.to_vec(), |ring, (on, inward)| half_plane(&ring, on, inward))
}

/// The part of a straight line in a box, if any.
pub(crate) fn segment_in_box(from: DVec2, to: DVec2, area: &Bounds) -> Option<(DVec2, DVec2)> {
    let along = to - from;
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for (start, step, low, high) in
        [(from.x, along.x, area.low.x, area.high.x), (from.y, along.y, area.low.y, area.high.y)]
    {
        if step == 0.0 {
            if start < low || start > high {
                return None;
            }
            continue;
        }
        let (a, b) = ((low - start) / step, (high - start) / step);
        enter = enter.max(a.min(b));
        leave = leave.min(a.max(b));
    }
    (enter <= leave).then(|| (from + along * enter, from + along * leave))
}

/// Where a straight line through `on` along `along` (a unit vector) enters and leaves a polygon: pairs of distances from
/// `on`, in order. A line that runs along an edge may count it or not: only for drawing.
pub(crate) fn line_in_polygon(polygon: &Polygon, on: DVec2, along: DVec2) -> Vec<(f64, f64)> {
    let side = |p: DVec2| along.perp_dot(p - on);
    let mut hits: Vec<f64> = polygon
        .edges()
        .filter_map(|edge| {
            let (a, b) = (side(edge.from), side(edge.to));
            ((a < 0.0) != (b < 0.0)).then(|| (edge.at(a / (a - b)) - on).dot(along))
        })
        .collect();
    hits.sort_by(f64::total_cmp);
    hits.chunks_exact(2).filter_map(|pair| Some((*pair.first()?, *pair.last()?))).collect()
}

/// A ring pushed outwards (to the right of its edges) by `by` everywhere; corners stay sharp unless they would run far
/// out. One corner of the result for each corner of the ring.
pub(crate) fn pushed_out(ring: &[DVec2], by: f64) -> Vec<DVec2> {
    let before = ring.iter().cycle().skip(ring.len().saturating_sub(1));
    let after = ring.iter().cycle().skip(1);
    ring.iter()
        .zip(before)
        .zip(after)
        .map(|((&p, &a), &b)| {
            let (n, m) = (-(p - a).normalize_or_zero().perp(), -(b - p).normalize_or_zero().perp());
            // The corner of the two pushed edges; a very sharp one is held within three times the distance.
            let sum = n + m;
            p + sum * (2.0 * by / sum.length_squared().max(LEAST_MITRE))
        })
        .collect()
}

/// Squared length of the sum of two unit normals below which a corner is held back.
const LEAST_MITRE: f64 = 0.45;

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(points: &[(f64, f64)]) -> Vec<DVec2> {
        points.iter().map(|&p| p.into()).collect()
    }

    #[test]
    fn pushing_out_a_square_and_an_l() {
        let square = ring(&[(0., 0.), (4., 0.), (4., 4.), (0., 4.)]);
        assert_eq!(pushed_out(&square, 1.0), ring(&[(-1., -1.), (5., -1.), (5., 5.), (-1., 5.)]));
        let l = ring(&[(0., 0.), (4., 0.), (4., 2.), (2., 2.), (2., 4.), (0., 4.)]);
        assert_eq!(pushed_out(&l, 1.0)[3], DVec2::new(3.0, 3.0), "at a dent the two faces meet further in");
    }

    #[test]
    fn a_line_through_an_l() {
        let l = Polygon::simple(ring(&[(0., 0.), (4., 0.), (4., 2.), (2., 2.), (2., 4.), (0., 4.)])).unwrap();
        assert_eq!(line_in_polygon(&l, DVec2::new(-3.0, 1.0), DVec2::X), vec![(3.0, 7.0)]);
        assert_eq!(line_in_polygon(&l, DVec2::new(0.0, 3.0), DVec2::X), vec![(0.0, 2.0)]);
        assert!(line_in_polygon(&l, DVec2::new(0.0, 9.0), DVec2::X).is_empty());
    }

    #[test]
    fn cutting() {
        let area = Bounds { low: DVec2::ZERO, high: DVec2::ONE };
        assert_eq!(
            segment_in_box(DVec2::new(-1.0, 0.5), DVec2::new(3.0, 0.5), &area),
            Some((DVec2::new(0.0, 0.5), DVec2::new(1.0, 0.5)))
        );
        assert_eq!(segment_in_box(DVec2::new(-1.0, 2.0), DVec2::new(3.0, 2.0), &area), None);
        let cut = ring_in_box(&ring(&[(-1., -1.), (2., -1.), (2., 2.), (-1., 2.)]), &area);
        assert_eq!(Bounds::around(cut), Some(area));
    }
}
