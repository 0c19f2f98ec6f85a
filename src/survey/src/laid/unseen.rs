//! What no reading would show: one mark that lies beside its place, and how far off it could put what is sought.
//!
//! Baarda's external reliability: of each mark the blunder that is found in four cases of five, and what of it stays in what is
//! sought. A mark that no distance checks may be laid a second time by itself ([`Again`]): what that says is held against what the
//! tape says, and the less counts.
//!
//! Sources: as of [`super`]; that two ways alike make a Rayleigh distribution of the distance, any handbook of statistics.

use baywright_geometry::DVec2;

use super::{Chances, What, spread};
use crate::budget::{Budget, Sought};
use crate::chances::{found_from, normal_beyond};
use crate::matrix::{Cholesky, Matrix, dot};
use crate::next_tape::{Candidate, Known};

/// A mark that was laid a second time by its own step, from the same marks and wheels, without a look at the first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Again {
    /// Which, by its position.
    pub mark: usize,
    /// How far apart both layings lie, mm, not negative.
    pub apart_mm: f64,
    /// How far apart both come to lie either way, standard, mm, not negative: see [`Budget::apart_u_mm`].
    pub u_mm: f64,
}

impl Again {
    /// Whether both layings are good ones, by how far they lie apart; a good pair is doubted with that chance.
    pub fn fits(&self, chances: &Chances) -> bool {
        self.apart_mm <= self.within_mm(chances)
    }

    /// So far apart two good layings lie at most, mm, but for that chance.
    pub fn within_mm(&self, chances: &Chances) -> f64 {
        self.u_mm * radius(chances.doubted)
    }

    /// So far the first laying may lie beside its place one way by the second, mm, in 95 of 100 cases, whichever way that is: what
    /// both lie apart that way is no more than what they lie apart, and chance hides more than 1.645 u in one case of twenty.
    pub fn beside_mm(&self) -> f64 {
        self.apart_mm + self.u_mm * normal_beyond(0.1)
    }
}

/// In standard uncertainties, how far from the middle a point with two alike ways lies with no more than that chance: 3.72 for
/// 0.001. Rayleigh's distribution: e^(-r²/2).
fn radius(chance: f64) -> f64 {
    (-2.0 * chance.ln()).sqrt()
}

/// What shows a mark that lies beside its place.
#[derive(Clone, Copy, Debug, Default)]
pub struct Shown<'a> {
    /// What was taped.
    pub taped: &'a [Candidate],
    /// What was laid a second time and came to lie where it lay.
    pub again: &'a [Again],
}

impl<'a> Shown<'a> {
    /// By the tape alone.
    pub const fn by_tape(taped: &'a [Candidate]) -> Self {
        Self { taped, again: &[] }
    }
}

/// How far off what is sought may be, in its unit, by one mark that lies beside its place and is not found: the worst over all marks,
/// each with what was built from it or alone, of a blunder that is found in four cases of five (Baarda's external reliability).
/// Infinite while a mark that it follows is not checked at all; `None` if it has no value or a distance is none.
pub fn unseen(budget: &Budget, shown: Shown<'_>, sought: &Sought, chances: &Chances) -> Option<f64> {
    let each = unseen_of_each(budget, shown, sought, chances)?;
    Some(each.into_iter().fold(0.0, f64::max))
}

/// The mark by which [`unseen`] is as large as it is, by its position, with that; `None` as there, or where nothing of it can go unseen.
pub fn worst_unseen(
    budget: &Budget,
    shown: Shown<'_>,
    sought: &Sought,
    chances: &Chances,
) -> Option<(usize, f64)> {
    // Two ways in which each mark may lie beside its place.
    let each = unseen_of_each(budget, shown, sought, chances)?;
    let marks = each.chunks(2).map(|own| own.iter().copied().fold(0.0, f64::max)).enumerate();
    // Of those that are alike the first: from it the others are laid.
    let worst = marks.reduce(|worst, own| if own.1 > worst.1 { own } else { worst });
    worst.filter(|(_, own)| *own > 0.0)
}

/// The distance that, taped next, leaves least unseen, each mark's counted up to `most`; `None` if none helps.
pub fn next_check(
    budget: &Budget,
    shown: Shown<'_>,
    candidates: &[Candidate],
    sought: &Sought,
    most: f64,
    chances: &Chances,
) -> Option<usize> {
    let left = |taped: &[Candidate]| {
        let each = unseen_of_each(budget, Shown { taped, ..shown }, sought, chances)?;
        Some(each.into_iter().map(|own| own.min(most)).sum::<f64>())
    };
    let now = left(shown.taped)?;
    let mut with = shown.taped.to_vec();
    let mut best: Option<(usize, f64)> = None;
    for (at, candidate) in candidates.iter().enumerate() {
        with.push(*candidate);
        let then = left(&with);
        with.pop();
        if let Some(then) = then
            && best.is_none_or(|(_, least)| then < least * (1.0 - 1e-9))
        {
            best = Some((at, then));
        }
    }
    best.filter(|(_, then)| *then < now * (1.0 - 1e-6)).map(|(at, _)| at)
}

fn unseen_of_each(
    budget: &Budget,
    Shown { taped, again }: Shown<'_>,
    sought: &Sought,
    chances: &Chances,
) -> Option<Vec<f64>> {
    /// 80 of 100, by Baarda.
    const POWER: f64 = 0.8;
    let prior = Known::as_laid(budget);
    let (_, mut slope) = sought.of(budget.expected())?;
    slope.push(0.0);
    let rows: Vec<Vec<f64>> = taped.iter().map(|own| Some(prior.row(own)?.1)).collect::<Option<Vec<_>>>()?;
    let inverse = if taped.is_empty() { None } else { Some(Cholesky::of(&spread(&prior, &rows, taped))?) };
    let follows: Vec<f64> = rows.iter().map(|row| prior.covariance().between(row, &slope)).collect();
    let found_at = found_from(chances.doubted, POWER);
    let of = |what: What| {
        let ways = what.ways(budget);
        let met: Vec<Vec<f64>> =
            ways.iter().map(|way| rows.iter().map(|row| dot(row, way)).collect()).collect();
        let solved: Vec<Vec<f64>> = met
            .iter()
            .map(|met| inverse.as_ref().map_or_else(Vec::new, |inverse| inverse.solve(met)))
            .collect();
        // What of it stays in what is sought once the readings have pulled at it.
        let stays: Vec<f64> =
            ways.iter().zip(&solved).map(|(way, solved)| dot(&slope, way) - dot(&follows, solved)).collect();
        if stays.iter().all(|own| own.abs() < 1e-15) {
            return 0.0;
        }
        let cell =
            |a: usize, b: usize| met.get(a).zip(solved.get(b)).map_or(0.0, |(met, solved)| dot(met, solved));
        // A way that nothing shows counts for as much as stays of it: nothing, if it does not move what is sought.
        let hair = 1e-9 * (0..ways.len()).map(|at| cell(at, at)).sum::<f64>();
        let shows = Matrix::of(ways.len(), ways.len(), |a, b| cell(a, b) + if a == b { hair } else { 0.0 });
        // The worst direction: the largest of (b·v)² over vᵀQv.
        let worst = |of: &Matrix| {
            Cholesky::of(of).map_or(f64::INFINITY, |own| dot(&stays, &own.solve(&stays)).max(0.0).sqrt())
        };
        let by_tape = found_at * worst(&shows);
        // Laid again it is no further off than both layings let it be, whatever the tape shows.
        let mark = what.mark().unwrap_or(usize::MAX);
        let within = again.iter().filter(|own| own.mark == mark).map(Again::beside_mm).reduce(f64::min);
        within.map_or(by_tape, |within| {
            let own = |at: usize| {
                let way = |row: usize| ways.get(at).and_then(|way| way.get(row)).copied().unwrap_or_default();
                DVec2::new(way(2 * mark), way(2 * mark + 1))
            };
            by_tape.min(within * worst(&Matrix::of(ways.len(), ways.len(), |a, b| own(a).dot(own(b)))))
        })
    };
    let marks = 0..budget.places().len();
    Some(marks.flat_map(|mark| [What::Mislaid(mark), What::Alone(mark)]).map(of).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dice::Dice;
    use crate::laid::testing::{SHOP, plan, read};
    use baywright_geometry::marks::{Construction, Givens, Reach};

    /// Untaped, anything may go unseen; every distance taped lowers it, and what is found by brute force over all directions of each
    /// blunder is no worse.
    #[test]
    fn what_may_go_unseen_falls_with_every_tape() {
        let budget = plan();
        let sought = Sought::Bearing { mark: 6, from: DVec2::new(770.0, 0.0) };
        let mut all: Vec<Candidate> = read(budget.places(), |_| 0.0).iter().map(|own| own.of).collect();
        let unchecked = unseen(&budget, Shown::by_tape(&all), &sought, &Chances::default()).unwrap();
        assert_eq!(unchecked, f64::INFINITY, "nothing is taped to the last mark");
        all.extend([(2, 6), (3, 6), (4, 6), (5, 6)].map(|(from, to)| {
            let mm = budget.places()[from].distance(budget.places()[to]);
            Candidate { from, to, u_mm: SHOP.tape.of(mm), tape: 0 }
        }));
        let own = |taped: &[Candidate]| {
            unseen(&budget, Shown::by_tape(taped), &sought, &Chances::default()).unwrap()
        };
        assert_eq!(own(&[]), f64::INFINITY);
        let mut taped = Vec::new();
        let mut before = f64::INFINITY;
        let mut left = all.clone();
        while let Some(next) =
            next_check(&budget, Shown::by_tape(&taped), &left, &sought, 0.1, &Chances::default())
        {
            taped.push(left.remove(next));
            assert!(own(&taped) <= before);
            before = own(&taped);
        }
        assert!(own(&all) < 0.02, "{}", own(&all));
        assert!(taped.len() >= 5 && before < 0.02, "{} {before}", taped.len());
        // A mark shifted alone along many directions by what is found in four cases of five.
        let prior = Known::as_laid(&budget);
        let (_, mut slope) = sought.of(budget.places()).unwrap();
        slope.push(0.0);
        for turn in 0..90 {
            let (sin, cos) = (f64::from(turn) * 2.0_f64.to_radians()).sin_cos();
            for mark in 0..7 {
                let mut way = vec![0.0; 15];
                (way[2 * mark], way[2 * mark + 1]) = (cos, sin);
                let rows: Vec<Vec<f64>> = all.iter().map(|own| prior.row(own).unwrap().1).collect();
                let inverse = Cholesky::of(&spread(&prior, &rows, &all)).unwrap();
                let met: Vec<f64> = rows.iter().map(|row| dot(row, &way)).collect();
                let shows = dot(&met, &inverse.solve(&met)).sqrt();
                // What the best estimate makes of readings that are off by that.
                let mut known = prior.clone();
                for (own, met) in all.iter().zip(&met) {
                    let expected = prior.expects(own).unwrap().read_mm;
                    known = known.once_read(own, expected + met * 4.132148 / shows).unwrap();
                }
                let off: f64 = (0..7)
                    .map(|at| {
                        let by = known.places()[at] - budget.places()[at];
                        slope[2 * at] * by.x + slope[2 * at + 1] * by.y
                    })
                    .sum();
                let stays = (dot(&slope, &way) * 4.132148 / shows - off).abs();
                assert!(stays <= own(&all) * 1.01 + 1e-5, "{mark} {turn} {stays} {}", own(&all));
            }
        }
    }

    /// Two body points, a line prolonged through both: that one of the points was plumbed beside its place turns all of it, and no
    /// distance shows that. Laid again, it shows; simulated, a blunder of that size is found in about four cases of five.
    #[test]
    fn what_no_tape_shows_is_shown_by_laying_it_again() {
        let wheels = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
        let points = vec![DVec2::new(-3_700.0, 0.0), DVec2::new(800.0, 0.0)];
        let givens = Givens::new(wheels, DVec2::X, [205.0; 4], points, vec![]).unwrap();
        let plan = [
            Construction::BodyPoint { point: 0 },
            Construction::BodyPoint { point: 1 },
            Construction::Prolong { from: 0, through: 1, reach: Reach::Length(2_360.0) },
            Construction::AlongAside { from: 1, to: 2, along: 2_360.0, aside: -280.0 },
        ];
        let budget = Budget::of(&plan, &givens, &SHOP).unwrap();
        let sought = Sought::Bearing { mark: 3, from: DVec2::new(700.0, -280.0) };
        let all = [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)].map(|(from, to)| {
            let mm = budget.places()[from].distance(budget.places()[to]);
            Candidate { from, to, u_mm: SHOP.tape.of(mm), tape: 0 }
        });
        let chances = Chances::default();
        let own =
            |again: &[Again]| worst_unseen(&budget, Shown { taped: &all, again }, &sought, &chances).unwrap();
        let again = |mark| Again { mark, apart_mm: 1.0, u_mm: budget.apart_u_mm(mark).unwrap() };
        // Plumbed twice, 0.7 mm each time.
        assert!((again(0).u_mm - 0.7 * 2.0_f64.sqrt()).abs() < 1e-9);
        assert!((again(0).beside_mm() - 2.628).abs() < 1e-3);
        let so_far = |apart_mm| Again { apart_mm, ..again(0) };
        assert!(so_far(3.67).fits(&chances) && !so_far(3.69).fits(&chances));
        // Three marks on one line are alike in that: one after the other.
        let mut laid_again = Vec::new();
        let mut left = own(&[]);
        let before = left.1;
        while left.1.to_degrees() > 0.2 {
            assert!(laid_again.iter().all(|own: &Again| own.mark != left.0), "{left:?}");
            laid_again.push(again(left.0));
            left = own(&laid_again);
        }
        assert!(before.to_degrees() > 1.0, "{before}: nothing shows it");
        assert!((1..=3).contains(&laid_again.len()), "{laid_again:?}");
        // By chance: what the second laying says of a first that lies beside its place is right in 95 of 100 cases or more.
        let (mut dice, all) = (Dice::of(7, 0), 4_000);
        for beside in [0.0, 1.0, 5.0] {
            let right = (0..all).filter(|_| {
                let apart = DVec2::new(dice.normal(), dice.normal()) * again(0).u_mm + DVec2::X * beside;
                so_far(apart.length()).beside_mm() >= beside
            });
            let share = right.count() as f64 / f64::from(all);
            assert!(share >= 0.945, "{beside} {share}");
        }
    }
}
