//! What the same hand makes of the same thing twice: its own repeatability, in place of an assumed one.

use baywright_geometry::DVec2;

use crate::chances::chi_squared_beyond;

/// How well a hand repeats itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repeats {
    /// Standard uncertainty of one laying in each direction, mm.
    pub u_mm: f64,
    /// Degrees of freedom: how many differences it rests on. Of a few it is known badly; [`crate::input::Input::t`] takes it.
    pub freedom: f64,
}

impl Repeats {
    /// Whether an assumed uncertainty, mm, is smaller than these differences let it be (χ², 5 %): what rests on it flatters.
    pub fn is_beyond(&self, assumed_mm: f64) -> bool {
        self.freedom * (self.u_mm / assumed_mm).powi(2) > chi_squared_beyond(0.05, self.freedom)
    }
}

/// From marks that were laid twice, in the same order: the difference of two layings has twice the variance of one, in each of
/// the two directions. What shifted all of them is in it: it is the hand's too. `None` of none, of lists that differ in length,
/// or if a figure is no number.
///
/// By hand: four marks, each 2 mm aside the second time: √(4·4 / (2·8)) = 1 mm.
///
/// ```
/// use baywright_survey::repeat::laid_twice;
/// let first = [(0., 0.), (1000., 0.), (0., 2000.), (1000., 2000.)].map(|p| p.into());
/// let second = [(2., 0.), (998., 0.), (0., 2002.), (1000., 1998.)].map(|p| p.into());
/// let found = laid_twice(&first, &second).unwrap();
/// assert_eq!((found.u_mm, found.freedom), (1.0, 8.0));
/// assert!(found.is_beyond(0.6) && !found.is_beyond(1.0));
/// ```
pub fn laid_twice(first: &[DVec2], second: &[DVec2]) -> Option<Repeats> {
    if first.is_empty() || first.len() != second.len() {
        return None;
    }
    let squares: f64 = first.iter().zip(second).map(|(one, other)| one.distance_squared(*other)).sum();
    let freedom = 2.0 * first.len() as f64;
    squares.is_finite().then(|| Repeats { u_mm: (squares / (2.0 * freedom)).sqrt(), freedom })
}

/// The same of readings, mm, such as distances taped twice.
pub fn read_twice(first: &[f64], second: &[f64]) -> Option<Repeats> {
    if first.is_empty() || first.len() != second.len() {
        return None;
    }
    let squares: f64 = first.iter().zip(second).map(|(one, other)| (one - other) * (one - other)).sum();
    let freedom = first.len() as f64;
    squares.is_finite().then(|| Repeats { u_mm: (squares / (2.0 * freedom)).sqrt(), freedom })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dice::Dice;

    /// Over many hands the mean of the variances is that of one laying, and a hand as assumed is doubted once in twenty times.
    #[test]
    fn the_hand_that_laid_them() {
        let mut dice = Dice::of(2, 2);
        let (mut sum, mut doubted, mut sum_read) = (0.0, 0, 0.0);
        let hands = 4_000;
        for _ in 0..hands {
            let mut lay = || -> Vec<DVec2> {
                (0..5).map(|_| DVec2::new(0.8 * dice.normal(), 0.8 * dice.normal())).collect()
            };
            let (first, second) = (lay(), lay());
            let found = laid_twice(&first, &second).unwrap();
            sum += found.u_mm * found.u_mm / f64::from(hands);
            doubted += i32::from(found.is_beyond(0.8));
            let x = |of: &[DVec2]| of.iter().map(|at| at.x).collect::<Vec<_>>();
            sum_read += read_twice(&x(&first), &x(&second)).unwrap().u_mm.powi(2) / f64::from(hands);
        }
        assert!((sum - 0.64).abs() < 0.02 && (sum_read - 0.64).abs() < 0.03, "{sum} {sum_read}");
        assert!((f64::from(doubted) / f64::from(hands) - 0.05).abs() < 0.015, "{doubted}");
    }

    #[test]
    fn what_makes_no_sense_has_no_answer() {
        assert_eq!((laid_twice(&[], &[]), read_twice(&[1.0], &[])), (None, None));
        assert_eq!(laid_twice(&[DVec2::NAN], &[DVec2::ZERO]), None);
    }
}
