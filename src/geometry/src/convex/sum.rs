//! The Minkowski sum of convex rings.

use glam::DVec2;

/// All differences `p - q` of a point of the convex ring (or point) `a` and one of `b`: the moves that make `b` meet
/// `a`. Anticlockwise; a point if both are points.
pub(crate) fn difference(a: &[DVec2], b: &[DVec2]) -> Vec<DVec2> {
    match (a, b) {
        ([], _) | (_, []) => Vec::new(),
        (_, [q]) => a.iter().map(|&p| p - *q).collect(),
        ([p], _) => b.iter().map(|&q| *p - q).collect(),
        _ => merged(a, b),
    }
}

/// Both rings' sides in the order of their headings, from the lowest corner on. `-b` has the sides of `b` reversed in
/// sign, and its lowest corner is the highest of `b`.
fn merged(a: &[DVec2], b: &[DVec2]) -> Vec<DVec2> {
    let (n, m) = (a.len(), b.len());
    let (i0, j0) = (lowest(a, 1.0), lowest(b, -1.0));
    let mut ring = Vec::with_capacity(n + m);
    let (mut i, mut j) = (0, 0);
    while i < n || j < m {
        let (p, q) = (a[(i0 + i) % n], b[(j0 + j) % m]);
        ring.push(p - q);
        let along_a = a[(i0 + i + 1) % n] - p;
        let along_b = q - b[(j0 + j + 1) % m];
        let cross = along_a.perp_dot(along_b);
        if j >= m || (i < n && cross > 0.0) {
            i += 1;
        } else if i >= n || cross < 0.0 {
            j += 1;
        } else {
            i += 1;
            j += 1;
        }
    }
    ring
}

/// Which corner of `sign * ring` is lowest, and of those leftmost.
fn lowest(ring: &[DVec2], sign: f64) -> usize {
    let key = |p: DVec2| (sign * p.y, sign * p.x);
    let mut best = 0;
    for (i, &p) in ring.iter().enumerate() {
        if key(p) < key(ring[best]) {
            best = i;
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::polygon::signed_area;

    #[test]
    fn square_and_triangle() {
        let square: Vec<DVec2> = [(0., 0.), (2., 0.), (2., 2.), (0., 2.)].map(DVec2::from).to_vec();
        let triangle: Vec<DVec2> = [(0., 0.), (1., 0.), (0., 1.)].map(DVec2::from).to_vec();
        let sum = difference(&square, &triangle);
        assert_eq!(sum.len(), 5);
        // area(A + B) = area A + area B + 2 V(A, B), the mixed area of a square of side 2 and this triangle is 2.
        assert!((signed_area(&sum) - 8.5).abs() < 1e-12);
        assert_eq!(difference(&square, &[DVec2::ONE])[0], -DVec2::ONE);
        assert!(signed_area(&difference(&[DVec2::ONE], &triangle)) > 0.0);
    }
}
