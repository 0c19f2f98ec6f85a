//! Flat rings of corners in space: cut by a plane, and how large they are.

use baywright_geometry::DVec3;

/// The part of a ring where `side` is not negative.
pub(super) fn clipped(ring: &[DVec3], side: &dyn Fn(DVec3) -> f64) -> Vec<DVec3> {
    let next = ring.iter().cycle().skip(1);
    let mut left = Vec::with_capacity(ring.len() + 1);
    for (&a, &b) in ring.iter().zip(next) {
        let (own, other) = (side(a), side(b));
        if own >= 0.0 {
            left.push(a);
        }
        if (own >= 0.0) != (other >= 0.0) {
            left.push(a + (b - a) * (own / (own - other)));
        }
    }
    left
}

/// The area of a flat ring.
pub(super) fn area(ring: &[DVec3]) -> f64 {
    let Some(&first) = ring.first() else { return 0.0 };
    let pairs = ring.iter().zip(ring.iter().skip(1));
    let twice: DVec3 = pairs.map(|(&a, &b)| (a - first).cross(b - first)).sum();
    twice.length() * 0.5
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_a_square() {
        let square = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)].map(|(y, z)| DVec3::new(7.0, y, z));
        assert_eq!(area(&square), 4.0);
        assert_eq!(area(&clipped(&square, &|p| p.y - 0.5)), 3.0);
        assert_eq!(area(&clipped(&square, &|p| 2.0 - p.y - p.z)), 2.0);
        assert_eq!(area(&clipped(&square, &|p| p.y - 3.0)), 0.0);
    }
}
