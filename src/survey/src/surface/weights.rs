//! Weights of a convex polygon's corners for a place within it: they are not negative, add up to one, follow a plane
//! exactly, and on an edge are those of the straight line.
//!
//! Of a triangle these are its barycentric coordinates; of more corners mean value coordinates: M. S. Floater, "Mean
//! value coordinates", Computer Aided Geometric Design 20 (2003), formula from memory.

use baywright_geometry::DVec2;

use super::spots::Spot;

/// Gives each corner with its weight for a place within them or on an edge; corners of no weight may be left out. The corners
/// run anticlockwise. The weights are as large as they come, and what they add up to is returned.
pub(super) fn weigh(corners: &[Spot], place: DVec2, mut give: impl FnMut(&Spot, f64)) -> f64 {
    let next = || corners.iter().cycle().skip(1).take(corners.len());
    // On an edge, or so near that what follows would divide by next to nothing.
    for (a, b) in corners.iter().zip(next()) {
        let (edge, from) = (b.at - a.at, place - a.at);
        let squared = edge.length_squared();
        if edge.perp_dot(from).abs() <= 1e-9 * squared {
            let along = from.dot(edge) / squared;
            if (0.0..=1.0).contains(&along) {
                give(a, 1.0 - along);
                give(b, along);
                return 1.0;
            }
        }
    }
    // tan(α / 2) of the angle under which an edge is seen.
    let tangent = |a: DVec2, b: DVec2| {
        let (a, b) = (a - place, b - place);
        (a.length() * b.length() - a.dot(b)) / a.perp_dot(b)
    };
    let Some((first, last)) = corners.first().zip(corners.last()) else { return 0.0 };
    let (mut before, mut sum) = (tangent(last.at, first.at), 0.0);
    for (corner, after) in corners.iter().zip(next()) {
        let after = tangent(corner.at, after.at);
        let weight = (before + after) / corner.at.distance(place);
        give(corner, weight);
        (before, sum) = (after, sum + weight);
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The weights of the corners, adding up to one.
    fn weights(corners: &[DVec2], place: DVec2) -> Vec<f64> {
        let spot = |at: &DVec2| Spot { at: *at, level_mm: 0.0, within_mm: 0.0 };
        let mut own = vec![0.0; corners.len()];
        let spots: Vec<Spot> = corners.iter().map(spot).collect();
        let sum = weigh(&spots, place, |corner, weight| {
            own[corners.iter().position(|at| *at == corner.at).unwrap()] = weight;
        });
        own.into_iter().map(|weight| weight / sum).collect()
    }

    proptest! {
        #[test]
        fn they_add_up_and_follow_a_plane(
            angles in prop::collection::btree_set(0u32..360, 3..9), share in prop::collection::vec(0.01..1.0f64, 9),
            size in prop::sample::select(vec![1.0, 1e3, 1e5]),
        ) {
            let corners: Vec<DVec2> = angles
                .iter()
                .map(|a| baywright_geometry::angle::direction(baywright_geometry::angle::radians(f64::from(*a))) * size)
                .collect();
            let total: f64 = share.iter().take(corners.len()).sum();
            let place: DVec2 = corners.iter().zip(&share).map(|(c, s)| *c * (s / total)).sum();
            let weights = weights(&corners, place);
            prop_assert!((weights.iter().sum::<f64>() - 1.0).abs() < 1e-9);
            prop_assert!(weights.iter().all(|w| *w >= -1e-12), "{weights:?}");
            let back: DVec2 = corners.iter().zip(&weights).map(|(c, w)| *c * *w).sum();
            prop_assert!(back.distance(place) < 1e-6 * size, "{back} {place}");
        }
    }

    #[test]
    fn in_the_middle_of_a_square_all_count_alike() {
        let square = [(0., 0.), (2., 0.), (2., 2.), (0., 2.)].map(DVec2::from);
        assert!(weights(&square, DVec2::ONE).iter().all(|w| (w - 0.25).abs() < 1e-15));
        assert_eq!(weights(&square, DVec2::new(0.5, 0.0)), [0.75, 0.25, 0.0, 0.0]);
    }
}
