//! How far a mark is off that is built from marks that are each a little off.

use glam::DVec2;

use super::construct::lay_off;
use super::{Construction, Givens};

/// How far off, in one direction, a mark may be if it and each mark before it is laid `off_mm` beside its place along the
/// frame and as much across it: all of it added as squares, each being its own (JCGM 100, 5.1). mm, not negative. `towards`
/// is the direction in the frame of `givens`, a unit vector. What a mark is off is passed on to those that are built from it,
/// whatever made it so: a tape that was read wrongly is a mark that lies wrongly.
///
/// `None` of a mark that cannot be found, or that could not be found if one of the others were off as far.
///
/// A line of 1 m prolonged by 4 m: the new mark is off by √(5² + 4² + 1) times as much.
///
/// ```rust
/// # use baywright_geometry::{DVec2, marks::*};
/// let points = [(0.0, 0.0), (1_000.0, 0.0)].map(DVec2::from).to_vec();
/// let givens = Givens::new([DVec2::ZERO; 4], DVec2::X, [205.0; 4], points, Vec::new())?;
/// let plan = [
///     Construction::BodyPoint { point: 0 },
///     Construction::BodyPoint { point: 1 },
///     Construction::Prolong { from: 0, through: 1, reach: Reach::Length(4_000.0) },
/// ];
/// let aside = may_be_off(&plan, &givens, 2, DVec2::Y, 0.01).unwrap();
/// assert!((aside / 0.01 - 42.0_f64.sqrt()).abs() < 1e-6);
/// # Ok::<(), GivensFault>(())
/// ```
pub fn may_be_off(
    plan: &[Construction],
    givens: &Givens,
    mark: usize,
    towards: DVec2,
    off_mm: f64,
) -> Option<f64> {
    carried(plan.get(..=mark)?, givens, towards, off_mm, |laid| laid.last().copied())
}

/// The same of how far one mark may lie further in a direction than another, each off as in [`may_be_off`]: what is common to
/// both moves them together and turns nothing. Over their distance it is how far the line from one to the other may turn.
///
/// Two points 2 m apart, each 1 mm off: one may be √2 mm further ahead than the other.
///
/// ```rust
/// # use baywright_geometry::{DVec2, marks::*};
/// let points = [(0.0, -1_000.0), (0.0, 1_000.0)].map(DVec2::from).to_vec();
/// let givens = Givens::new([DVec2::ZERO; 4], DVec2::X, [205.0; 4], points, Vec::new())?;
/// let plan = [Construction::BodyPoint { point: 0 }, Construction::BodyPoint { point: 1 }];
/// let ahead = may_be_off_from(&plan, &givens, (0, 1), DVec2::X, 1.0).unwrap();
/// assert!((ahead - 2.0_f64.sqrt()).abs() < 1e-9);
/// # Ok::<(), GivensFault>(())
/// ```
pub fn may_be_off_from(
    plan: &[Construction],
    givens: &Givens,
    (first, second): (usize, usize),
    towards: DVec2,
    off_mm: f64,
) -> Option<f64> {
    let plan = plan.get(..=first.max(second))?;
    carried(plan, givens, towards, off_mm, |laid| Some(*laid.get(second)? - *laid.get(first)?))
}

/// How far what is `seen` of the marks moves in a direction, each of them off in turn. Marks that it has no part in may be lost.
fn carried(
    plan: &[Construction],
    givens: &Givens,
    towards: DVec2,
    off_mm: f64,
    seen: impl Fn(&[DVec2]) -> Option<DVec2>,
) -> Option<f64> {
    let laid = |off: &dyn Fn(usize) -> DVec2| {
        // Not a number stands for one that is not found: what rests on it is not found either.
        let marks = lay_off(plan, givens, off).into_iter().map(|mark| mark.unwrap_or(DVec2::NAN));
        seen(&marks.collect::<Vec<_>>()).filter(|at| at.is_finite())
    };
    let meant = laid(&|_| DVec2::ZERO)?;
    let mut squares = 0.0;
    for step in 0..plan.len() {
        for way in [DVec2::X, DVec2::Y] {
            // Where a crossing is flat, one way makes more of it than the other.
            let by = |off: f64| {
                let there = laid(&|own| if own == step { way * off } else { DVec2::ZERO })?;
                Some((there - meant).dot(towards).abs())
            };
            squares += by(off_mm)?.max(by(-off_mm)?).powi(2);
        }
    }
    Some(squares.sqrt())
}

#[cfg(test)]
mod tests {
    use super::super::{Reach, WhichSide};
    use super::*;

    fn points(at: &[(f64, f64)]) -> (Vec<Construction>, Givens) {
        let plan = (0..at.len()).map(|point| Construction::BodyPoint { point }).collect();
        let at = at.iter().map(|&p| DVec2::from(p)).collect();
        (plan, Givens::new([DVec2::ZERO; 4], DVec2::X, [0.0; 4], at, Vec::new()).unwrap())
    }

    /// The middle of two is off by √(¼ + ¼ + 1) times as much, either way.
    #[test]
    fn the_middle_of_two() {
        let (mut plan, givens) = points(&[(0.0, 0.0), (2_000.0, 0.0)]);
        plan.push(Construction::Middle { first: 0, second: 1 });
        for towards in [DVec2::X, DVec2::Y, DVec2::new(0.6, 0.8)] {
            let off = may_be_off(&plan, &givens, 2, towards, 1.0).unwrap();
            assert!((off - 1.5_f64.sqrt()).abs() < 1e-9, "{off}");
        }
        assert_eq!(may_be_off(&plan, &givens, 3, DVec2::X, 1.0), None);
    }

    /// Two lines that cross at an angle of 2·a, each through two marks L apart, the nearer at distance D from the crossing: each
    /// moves aside there by ((1 + D/L)² + (D/L)²)^½ times as much, and the crossing along the bisector by that / (2·sin a) of
    /// each, by a formula of plane trigonometry.
    #[test]
    fn a_flat_crossing_makes_much_of_little() {
        let (a, near, long) = (5.0_f64.to_radians(), 1_000.0, 500.0);
        let on = |angle: f64, far: f64| (-far * angle.cos(), -far * angle.sin());
        let (mut plan, givens) =
            points(&[on(a, near + long), on(a, near), on(-a, near + long), on(-a, near)]);
        plan.push(Construction::Crossing { first: (0, 1), second: (2, 3) });
        let small = 1e-3;
        let off = may_be_off(&plan, &givens, 4, DVec2::X, small).unwrap() / small;
        let r = near / long;
        let aside = libm::hypot(1.0 + r, r);
        let expected = libm::hypot(aside / (2.0 * a.sin()) * std::f64::consts::SQRT_2, 1.0);
        assert!((off / expected - 1.0).abs() < 1e-3, "{off} {expected}");
    }

    /// Circles that barely meet do not meet if one middle is a millimetre further off.
    #[test]
    fn tapes_that_barely_meet_give_no_mark() {
        let (mut plan, givens) = points(&[(0.0, 0.0), (2_000.0, 0.0)]);
        let tapes = |from_second: f64| Construction::TwoDistances {
            first: 0,
            from_first: 1_000.0,
            second: 1,
            from_second,
            side: WhichSide::Left,
        };
        plan.push(tapes(1_000.0));
        assert_eq!(may_be_off(&plan, &givens, 2, DVec2::Y, 1.0), None);
        plan[2] = tapes(1_500.0);
        assert!(may_be_off(&plan, &givens, 2, DVec2::Y, 1.0).unwrap() < 3.0);
        plan[2] = Construction::Prolong { from: 0, through: 0, reach: Reach::Length(1.0) };
        assert_eq!(may_be_off(&plan, &givens, 2, DVec2::Y, 1.0), None);
    }
}
