//! How far a mark is off that is built from marks that are each a little off.

use glam::DVec2;

use super::construct::{lay, lay_again, shift};
use super::{Construction, Givens, MarkFault};

/// How far something moves, as each mark that it is built from is laid a little off, along the frame and across it.
#[derive(Clone, Debug, PartialEq)]
pub struct MayBeOff {
    /// For each mark and each of the two, how far it moves if the mark is off one way and the other, mm.
    moves: Vec<[DVec2; 2]>,
}

impl MayBeOff {
    /// How far it may be off in a direction of the frame, a unit vector: all of it added as squares, each mark being off by its own
    /// (JCGM 100, 5.1). mm, not negative.
    pub fn towards(&self, towards: DVec2) -> f64 {
        // Where a crossing is flat, one way makes more of it than the other.
        let most = |[one, other]: &[DVec2; 2]| one.dot(towards).abs().max(other.dot(towards).abs());
        self.moves.iter().map(|ways| most(ways).powi(2)).sum::<f64>().sqrt()
    }
}

/// What of a plan may be off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sought {
    /// A mark's place.
    Mark(usize),
    /// How far the second mark lies further in a direction than the first: what is common to both moves them together and turns
    /// nothing. Over their distance it is how far the line from one to the other may turn.
    Apart(usize, usize),
}

impl Sought {
    fn marks(self) -> impl Iterator<Item = usize> {
        let (last, first) = match self {
            Self::Mark(mark) => (mark, None),
            Self::Apart(first, second) => (second, Some(first)),
        };
        first.into_iter().chain([last])
    }

    /// Where it is among these marks.
    fn among(self, marks: &[Result<DVec2, MarkFault>]) -> Option<DVec2> {
        let at = |index: usize| marks.get(index)?.ok();
        let found = match self {
            Self::Mark(mark) => at(mark)?,
            Self::Apart(first, second) => at(second)? - at(first)?,
        };
        found.is_finite().then_some(found)
    }
}

/// How far off each of what is `sought` may be if each mark of a plan is laid `off_mm` beside its place along the frame of
/// `givens` and as much across it. What a mark is off is passed on to those that are built from it, whatever made it so: a tape
/// that was read wrongly is a mark that lies wrongly.
///
/// `None` of what cannot be found, or could not be found if one of the marks that lead to it were off as far.
///
/// A line of 1 m prolonged by 4 m: the new mark is off by √(5² + 4² + 1) times as much; and of the two points that it was prolonged
/// from, one may lie √2 times as much further aside than the other.
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
/// let [new, base] = may_be_off(&plan, &givens, [Sought::Mark(2), Sought::Apart(0, 1)], 0.01);
/// assert!((new.unwrap().towards(DVec2::Y) / 0.01 - 42.0_f64.sqrt()).abs() < 1e-6);
/// assert!((base.unwrap().towards(DVec2::Y) / 0.01 - 2.0_f64.sqrt()).abs() < 1e-6);
/// # Ok::<(), GivensFault>(())
/// ```
pub fn may_be_off<const N: usize>(
    plan: &[Construction],
    givens: &Givens,
    sought: [Sought; N],
    off_mm: f64,
) -> [Option<MayBeOff>; N] {
    let of: Vec<usize> = sought.into_iter().flat_map(Sought::marks).collect();
    let last = of.iter().copied().max().unwrap_or(0).min(plan.len().saturating_sub(1));
    let plan = plan.get(..=last).unwrap_or_default();
    let as_meant = lay(plan, givens);
    let mut marks = as_meant.clone();
    let needed = built_from(plan, &of);
    let meant = sought.map(|one| one.among(&as_meant));
    let mut found =
        meant.map(|meant| meant.map(|_| MayBeOff { moves: Vec::with_capacity(2 * needed.len()) }));
    for (nth, (step, _)) in needed.iter().enumerate() {
        let on_it = built_on(needed.get(nth..).unwrap_or_default());
        for way in [DVec2::X, DVec2::Y] {
            let [one, other] = [off_mm, -off_mm].map(|off| {
                // What does not rest on it lies where it lay.
                marks.copy_from_slice(&as_meant);
                shift(&mut marks, *step, way * off);
                on_it.iter().for_each(|step| lay_again(&mut marks, plan, givens, *step));
                sought.map(|one| one.among(&marks))
            });
            let ways = one.into_iter().zip(other).zip(meant);
            for (found, ((one, other), meant)) in found.iter_mut().zip(ways) {
                let by = |at: Option<DVec2>| Some(at? - meant?);
                match (&mut *found, by(one), by(other)) {
                    (Some(found), Some(one), Some(other)) => found.moves.push([one, other]),
                    _ => *found = None,
                }
            }
        }
    }
    found
}

/// The marks that some are built from, and these themselves, in the plan's order, each with those that it is built from.
fn built_from(plan: &[Construction], of: &[usize]) -> Vec<(usize, Vec<usize>)> {
    let mut is_used = vec![false; plan.len()];
    let mut all = Vec::new();
    for (index, step) in plan.iter().enumerate().rev() {
        if is_used.get(index).is_some_and(|used| *used) || of.contains(&index) {
            let uses = step.uses();
            for own in &uses {
                if let Some(used) = is_used.get_mut(*own) {
                    *used = true;
                }
            }
            all.push((index, uses));
        }
    }
    all.reverse();
    all
}

/// Of these marks those that are built on the first, or on what is.
fn built_on(marks: &[(usize, Vec<usize>)]) -> Vec<usize> {
    let mut moved: Vec<usize> = marks.first().map(|(first, _)| *first).into_iter().collect();
    for (index, uses) in marks.iter().skip(1) {
        if uses.iter().any(|own| moved.contains(own)) {
            moved.push(*index);
        }
    }
    moved.split_off(1.min(moved.len()))
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

    fn off(plan: &[Construction], givens: &Givens, mark: usize, off_mm: f64) -> Option<MayBeOff> {
        let [found] = may_be_off(plan, givens, [Sought::Mark(mark)], off_mm);
        found
    }

    /// The middle of two is off by √(¼ + ¼ + 1) times as much, either way.
    #[test]
    fn the_middle_of_two() {
        let (mut plan, givens) = points(&[(0.0, 0.0), (2_000.0, 0.0)]);
        plan.push(Construction::Middle { first: 0, second: 1 });
        for towards in [DVec2::X, DVec2::Y, DVec2::new(0.6, 0.8)] {
            let off = off(&plan, &givens, 2, 1.0).unwrap().towards(towards);
            assert!((off - 1.5_f64.sqrt()).abs() < 1e-9, "{off}");
        }
        assert_eq!(off(&plan, &givens, 3, 1.0), None);
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
        let off = off(&plan, &givens, 4, small).unwrap().towards(DVec2::X) / small;
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
        assert_eq!(off(&plan, &givens, 2, 1.0), None);
        plan[2] = tapes(1_500.0);
        assert!(off(&plan, &givens, 2, 1.0).unwrap().towards(DVec2::Y) < 3.0);
        plan[2] = Construction::Prolong { from: 0, through: 0, reach: Reach::Length(1.0) };
        assert_eq!(off(&plan, &givens, 2, 1.0), None);
    }
}
