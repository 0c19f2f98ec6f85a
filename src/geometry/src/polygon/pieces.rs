//! Convex pieces of a polygon: triangles cut at its own corners, joined again as far as they stay convex.

use std::collections::BTreeMap;

use glam::DVec2;

use super::signed_area;
use crate::predicate::{side, turn};

/// The convex pieces of a polygon that is not convex, ring after ring in one list.
///
/// The corners of a piece are corners of the polygon, so that a rigid move of the polygon moves its pieces alike.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Pieces {
    corners: Vec<DVec2>,
    /// Where each ring ends in `corners`.
    ends: Vec<usize>,
}

/// How far the areas of the triangles may miss the area of the polygon, as a share of it: rounding of some thousand
/// products, and far below any triangle that could have been lost.
const AREA_SHARE: f64 = 1e-11;

impl Pieces {
    /// Pieces that cover the rings (outer anticlockwise, holes clockwise) without overlap.
    pub(super) fn of(outer: &[DVec2], holes: &[Vec<DVec2>]) -> Self {
        let rings = triangles(outer, holes)
            .map_or_else(|| slabs(outer, holes), |(corners, triangles)| joined(&corners, triangles));
        let mut pieces = Self::default();
        for ring in rings {
            pieces.corners.extend(ring);
            pieces.ends.push(pieces.corners.len());
        }
        pieces
    }

    /// The same pieces, every corner moved.
    pub(super) fn mapped(&self, f: impl Fn(DVec2) -> DVec2) -> Self {
        Self { corners: self.corners.iter().map(|&p| f(p)).collect(), ends: self.ends.clone() }
    }

    /// The rings, anticlockwise.
    pub(super) fn rings(&self) -> impl Iterator<Item = &[DVec2]> {
        let starts = std::iter::once(0).chain(self.ends.iter().copied());
        starts.zip(&self.ends).filter_map(|(start, &end)| self.corners.get(start..end))
    }
}

/// Triangles by ear cutting, all anticlockwise; `None` if they do not cover the polygon's area, which ear cutting
/// in plain `f64` cannot promise.
fn triangles(outer: &[DVec2], holes: &[Vec<DVec2>]) -> Option<(Vec<DVec2>, Vec<[usize; 3]>)> {
    let origin = *outer.first()?;
    let mut corners: Vec<DVec2> = outer.to_vec();
    let mut starts = Vec::with_capacity(holes.len());
    for hole in holes {
        starts.push(corners.len());
        corners.extend(hole);
    }
    let flat: Vec<f64> = corners.iter().flat_map(|&p| (p - origin).to_array()).collect();
    let indices = earcutr::earcut(&flat, &starts, 2).ok()?;
    let mut area = 0.0;
    let mut triangles = Vec::with_capacity(indices.len() / 3);
    for triple in indices.chunks_exact(3) {
        let &[i, j, k] = triple else { continue };
        let (a, b, c) = (*corners.get(i)?, *corners.get(j)?, *corners.get(k)?);
        let twice = turn(a, b, c);
        if twice == 0.0 {
            continue;
        }
        area += 0.5 * twice.abs();
        triangles.push(if twice > 0.0 { [i, j, k] } else { [i, k, j] });
    }
    let whole = signed_area(outer) + holes.iter().map(|hole| signed_area(hole)).sum::<f64>();
    ((area - whole).abs() <= AREA_SHARE * whole).then_some((corners, triangles))
}

/// Joins neighbouring pieces across their common side while the joint stays convex (Hertel and Mehlhorn 1983: at most
/// four times the smallest possible number).
fn joined(corners: &[DVec2], triangles: Vec<[usize; 3]>) -> Vec<Vec<DVec2>> {
    let mut rings: Vec<Vec<usize>> = triangles.into_iter().map(|t| t.to_vec()).collect();
    // Which ring a directed side belongs to; sides of the polygon itself have no partner.
    let mut owner = BTreeMap::new();
    let mut sides = Vec::new();
    for (r, ring) in rings.iter().enumerate() {
        for (i, &from) in ring.iter().enumerate() {
            let to = ring[(i + 1) % ring.len()];
            owner.insert((from, to), r);
            sides.push((from, to));
        }
    }
    for (from, to) in sides {
        let (Some(&left), Some(&right)) = (owner.get(&(from, to)), owner.get(&(to, from))) else { continue };
        if left == right {
            continue;
        }
        let Some(joint) = joint(corners, &rings[left], &rings[right], from, to) else { continue };
        owner.remove(&(from, to));
        owner.remove(&(to, from));
        for &p in &rings[right] {
            for &q in &rings[right] {
                if let Some(ring) = owner.get_mut(&(p, q))
                    && *ring == right
                {
                    *ring = left;
                }
            }
        }
        rings[left] = joint;
        rings[right].clear();
    }
    rings
        .into_iter()
        .filter(|ring| !ring.is_empty())
        .map(|ring| ring.into_iter().filter_map(|i| corners.get(i).copied()).collect())
        .collect()
}

/// The ring around both, if convex. `left` holds the side `from → to`, `right` the side `to → from`.
fn joint(corners: &[DVec2], left: &[usize], right: &[usize], from: usize, to: usize) -> Option<Vec<usize>> {
    let mut ring = opened_at(left, to)?;
    ring.extend(opened_at(right, from)?.get(1..right.len() - 1)?);
    let n = ring.len();
    let convex_at = |corner: usize| {
        let i = ring.iter().position(|&c| c == corner)?;
        let (a, b, c) = (ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n]);
        Some(side(*corners.get(a)?, *corners.get(b)?, *corners.get(c)?).is_ge())
    };
    (convex_at(from)? && convex_at(to)?).then_some(ring)
}

/// The ring turned so that it starts at `first`.
fn opened_at(ring: &[usize], first: usize) -> Option<Vec<usize>> {
    let i = ring.iter().position(|&c| c == first)?;
    Some(ring.iter().cycle().skip(i).take(ring.len()).copied().collect())
}

/// Trapezoids between the heights of all corners: always right within rounding, but more of them and with corners of
/// their own. The way out when ear cutting fails.
fn slabs(outer: &[DVec2], holes: &[Vec<DVec2>]) -> Vec<Vec<DVec2>> {
    let edges: Vec<_> = std::iter::once(outer)
        .chain(holes.iter().map(Vec::as_slice))
        .flat_map(super::ring_edges)
        .filter(|e| e.from.y != e.to.y)
        .map(|e| if e.from.y < e.to.y { (e.from, e.to) } else { (e.to, e.from) })
        .collect();
    let mut heights: Vec<f64> = edges.iter().flat_map(|&(low, high)| [low.y, high.y]).collect();
    heights.sort_by(f64::total_cmp);
    heights.dedup();
    let x_at = |(low, high): (DVec2, DVec2), y: f64| {
        if y == low.y {
            low.x
        } else if y == high.y {
            high.x
        } else {
            low.x + (high.x - low.x) * ((y - low.y) / (high.y - low.y))
        }
    };
    let mut rings = Vec::new();
    for pair in heights.windows(2) {
        let &[low, high] = pair else { continue };
        let mut across: Vec<_> = edges
            .iter()
            .filter(|e| e.0.y <= low && e.1.y >= high)
            .map(|&e| (x_at(e, low), x_at(e, high)))
            .collect();
        across.sort_by(|a, b| (a.0 + a.1).total_cmp(&(b.0 + b.1)));
        for sides in across.chunks_exact(2) {
            let &[left, right] = sides else { continue };
            let mut ring = vec![DVec2::new(left.0, low), DVec2::new(right.0, low)];
            ring.extend([DVec2::new(right.1, high), DVec2::new(left.1, high)]);
            ring.dedup();
            if ring.first() == ring.last() {
                ring.pop();
            }
            if ring.len() >= 3 && signed_area(&ring) > 0.0 {
                rings.push(ring);
            }
        }
    }
    rings
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::polygon::Polygon;

    fn ring(points: &[(f64, f64)]) -> Vec<DVec2> {
        points.iter().map(|&p| p.into()).collect()
    }

    fn check(outer: &[(f64, f64)], holes: &[&[(f64, f64)]], most: usize) {
        let polygon = Polygon::new(ring(outer), holes.iter().map(|h| ring(h)).collect()).unwrap();
        let pieces: Vec<_> = polygon.pieces().collect();
        assert!(pieces.len() <= most, "{} pieces", pieces.len());
        for piece in &pieces {
            assert!(crate::polygon::is_convex(piece), "{piece:?}");
        }
        let area: f64 = pieces.iter().map(|p| signed_area(p)).sum();
        assert!((area - polygon.area()).abs() < 1e-12 * area);
        let slabs = slabs(polygon.outer(), polygon.holes());
        let area: f64 = slabs.iter().map(|p| signed_area(p)).sum();
        assert!((area - polygon.area()).abs() < 1e-12 * area, "slabs");
    }

    #[test]
    fn pieces_are_convex_and_cover_the_polygon() {
        check(&[(0., 0.), (4., 0.), (4., 3.)], &[], 1);
        check(&[(0., 0.), (2., 0.), (2., 1.), (1., 1.), (1., 2.), (0., 2.)], &[], 2);
        // A C, a comb, a ring, and two holes that touch.
        check(&[(0., 0.), (4., 0.), (4., 1.), (1., 1.), (1., 3.), (4., 3.), (4., 4.), (0., 4.)], &[], 3);
        let square: &[(f64, f64)] = &[(0., 0.), (8., 0.), (8., 8.), (0., 8.)];
        check(square, &[&[(2., 2.), (4., 2.), (4., 4.), (2., 4.)]], 5);
        check(
            square,
            &[&[(2., 2.), (4., 2.), (4., 4.), (2., 4.)], &[(4., 4.), (6., 4.), (6., 6.), (4., 6.)]],
            10,
        );
    }
}
