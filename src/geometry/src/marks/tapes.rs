//! Where two tapes meet: the places at two distances from two points.

use glam::DVec2;

/// Tapes meet that miss each other by no more than this, mm: below what a tape shows (it reads to 1 mm). Points no
/// further apart are one point for a tape.
pub const TAPES_MEET_MM: f64 = 0.5;

/// Why two tapes give no place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TapeFault {
    /// A distance that is negative, infinite or no number.
    NoDistance {
        /// What was given, mm.
        distance: f64,
    },
    /// A point that is infinite or no number.
    NoPoint,
    /// The two points are one for a tape, and both distances alike: every direction would do.
    OnePoint,
    /// The two distances are too short to meet.
    TooFarApart {
        /// What is missing, mm.
        gap: f64,
    },
    /// One distance is so much longer than the other that the circles lie in each other.
    Nested {
        /// What is too much, mm.
        excess: f64,
    },
}

impl std::fmt::Display for TapeFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{self:?}")
    }
}

impl std::error::Error for TapeFault {}

/// The two places at `from_first` from the point `first` and `from_second` from `second`, all in mm: the one on the left of
/// the line from the first point to the second, then the one on its right. They coincide where the tapes only just meet;
/// tapes that miss each other by no more than [`TAPES_MEET_MM`] meet half way.
///
/// # Errors
/// Why there is no such place.
///
/// ```rust
/// # use baywright_geometry::*;
/// // 3-4-5.
/// let [left, right] = two_distances(DVec2::ZERO, 3000.0, DVec2::new(5000.0, 0.0), 4000.0)?;
/// assert!(left.distance(DVec2::new(1800.0, 2400.0)) < 1e-9 && right.distance(DVec2::new(1800.0, -2400.0)) < 1e-9);
/// let short = two_distances(DVec2::ZERO, 3000.0, DVec2::new(5000.0, 0.0), 1990.0);
/// assert_eq!(short, Err(TapeFault::TooFarApart { gap: 10.0 }));
/// # Ok::<(), TapeFault>(())
/// ```
pub fn two_distances(
    first: DVec2,
    from_first: f64,
    second: DVec2,
    from_second: f64,
) -> Result<[DVec2; 2], TapeFault> {
    for distance in [from_first, from_second] {
        if !(distance.is_finite() && distance >= 0.0) {
            return Err(TapeFault::NoDistance { distance });
        }
    }
    let base = second - first;
    if !base.is_finite() {
        return Err(TapeFault::NoPoint);
    }
    let length = base.length();
    let gap = length - from_first - from_second;
    if gap > TAPES_MEET_MM {
        return Err(TapeFault::TooFarApart { gap });
    }
    let excess = (from_first - from_second).abs() - length;
    if excess > TAPES_MEET_MM {
        return Err(TapeFault::Nested { excess });
    }
    if length <= TAPES_MEET_MM {
        return Err(TapeFault::OnePoint);
    }
    let (along, aside) = if gap > 0.0 || excess > 0.0 {
        // They miss each other: half way between the two circles, on the line. (The cosine rule would lead away from both
        // where the points lie close together.)
        let on_first = if from_second > from_first + length { -from_first } else { from_first };
        let on_second = length + if from_first > from_second + length { from_second } else { -from_second };
        (0.5 * (on_first + on_second), 0.0)
    } else {
        // The cosine rule; rounding may take a square of nothing below zero.
        let along = (from_first * from_first - from_second * from_second + length * length) / (2.0 * length);
        (along, (from_first * from_first - along * along).max(0.0).sqrt())
    };
    let way = base / length;
    let foot = first + way * along;
    Ok([foot + way.perp() * aside, foot - way.perp() * aside])
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const FIRST: DVec2 = DVec2::new(100.0, 200.0);
    const SECOND: DVec2 = DVec2::new(1_100.0, 200.0);

    #[test]
    fn tapes_that_miss_by_less_than_they_show_meet_on_the_line() {
        for (from_first, from_second, x) in [
            (600.0, 400.0, 700.0),
            (600.0, 399.6, 700.2),
            (1_400.0, 400.0, 1_500.0),
            (1_400.4, 400.0, 1_500.2),
            (400.0, 1_400.4, -300.2),
        ] {
            let [left, right] = two_distances(FIRST, from_first, SECOND, from_second).unwrap();
            assert_eq!(left, right);
            assert!(left.distance(DVec2::new(x, 200.0)) < 1e-9, "{left}");
            assert!((left.distance(FIRST) - from_first).abs() <= 0.5 * TAPES_MEET_MM);
            assert!((left.distance(SECOND) - from_second).abs() <= 0.5 * TAPES_MEET_MM);
        }
        // From two points a millimetre apart too: the cosine rule would lead 2 m away.
        let [near, _] = two_distances(DVec2::ZERO, 5_001.4, DVec2::X, 5_000.0).unwrap();
        assert!(near.distance(DVec2::new(5_001.2, 0.0)) < 1e-9, "{near}");
    }

    #[test]
    fn what_cannot_meet_is_refused_with_what_is_wrong() {
        let check = |from_first: f64, from_second: f64, expected: TapeFault| {
            assert_eq!(two_distances(FIRST, from_first, SECOND, from_second), Err(expected));
        };
        check(600.0, 399.0, TapeFault::TooFarApart { gap: 1.0 });
        check(1_401.0, 400.0, TapeFault::Nested { excess: 1.0 });
        check(400.0, 1_401.0, TapeFault::Nested { excess: 1.0 });
        check(-1.0, 1_001.0, TapeFault::NoDistance { distance: -1.0 });
        check(1_001.0, f64::INFINITY, TapeFault::NoDistance { distance: f64::INFINITY });
        let none = two_distances(FIRST, f64::NAN, SECOND, 1.0);
        assert!(matches!(none, Err(TapeFault::NoDistance { distance }) if distance.is_nan()));
        assert_eq!(two_distances(FIRST, 5.0, FIRST, 5.0), Err(TapeFault::OnePoint));
        assert_eq!(two_distances(FIRST, 5.0, FIRST, 7.0), Err(TapeFault::Nested { excess: 2.0 }));
        assert_eq!(two_distances(FIRST, 5.0, DVec2::NAN, 7.0), Err(TapeFault::NoPoint));
        assert_eq!(two_distances(DVec2::splat(f64::INFINITY), 5.0, SECOND, 7.0), Err(TapeFault::NoPoint));
    }

    proptest! {
        /// Both places are at both distances, the left one on the left.
        #[test]
        fn both_places_are_at_both_distances(
            ax in -1e4f64..1e4, ay in -1e4f64..1e4, bx in -1e4f64..1e4, by in -1e4f64..1e4,
            px in -1e4f64..1e4, py in -1e4f64..1e4,
        ) {
            let (a, b, p) = (DVec2::new(ax, ay), DVec2::new(bx, by), DVec2::new(px, py));
            prop_assume!(a.distance(b) > 10.0);
            let (from_a, from_b) = (a.distance(p), b.distance(p));
            let [left, right] = two_distances(a, from_a, b, from_b).unwrap();
            for q in [left, right] {
                prop_assert!((a.distance(q) - from_a).abs() < 1e-4);
                prop_assert!((b.distance(q) - from_b).abs() < 1e-4);
            }
            prop_assert!((b - a).perp_dot(left - a) >= -1e-3);
            prop_assert!((b - a).perp_dot(right - a) <= 1e-3);
            prop_assert!(left.distance(p).min(right.distance(p)) < 0.1);
        }
    }
}
