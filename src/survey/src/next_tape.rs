//! While marks are laid: which distance to tape next, and when it is enough.
//!
//! What is known of the marks is where they are with a joint covariance, to begin with the budget's: a tape tells where two marks
//! lie to each other, and says nothing of what moves both. A reading makes the known smaller by the best linear estimate (Gauss,
//! Kalman); marks lie millimetres from where they are meant and metres from each other, so nothing more is needed. Which distance
//! is worth most can be told before it is read, for the covariance that it leaves does not depend on what it reads.
//!
//! The state is x and y of each mark in turn, mm, then the common scale of the tape that they are laid with, a ratio, then that of
//! each tape that they are checked with ([`crate::budget::CheckTape`]).

mod ahead;

use baywright_geometry::DVec2;

use crate::budget::{Budget, Origin, Sought};
use crate::matrix::{Matrix, dot};
use ahead::Told;

/// So many distances are weighed; what is beyond them is not looked at.
pub const MOST_CANDIDATES: usize = 500;

/// A distance that can be taped: a straight run that nothing blocks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// From this mark.
    pub from: usize,
    /// To this one.
    pub to: usize,
    /// Standard uncertainty of the reading alone, mm.
    pub u_mm: f64,
    /// Which tape reads it: 0 for the one that the marks are laid with, else the nth of [`Budget::checked_with`], from 1.
    pub tape: usize,
}

/// What is known of laid marks.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// Where they likely are.
    places: Vec<DVec2>,
    /// By how much each tape is likely longer than it says, a ratio: the one that the marks are laid with first.
    scales: Vec<f64>,
    covariance: Matrix,
    /// How many distances it rests on.
    taped: usize,
}

/// What a distance should read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// mm.
    pub read_mm: f64,
    /// Standard uncertainty of the difference between this and what will be read, mm: of the marks to each other and of the
    /// reading.
    pub u_mm: f64,
}

impl Expected {
    /// How far off a reading may be in 95 of 100 cases if all is as assumed, mm.
    pub fn allowance_mm(&self) -> f64 {
        crate::chances::K95 * self.u_mm
    }
}

/// What is to become surer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wish {
    /// Something about the target.
    Target(Sought),
    /// The place of a weak mark.
    Mark(usize),
}

/// When it is enough.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stop {
    /// At this standard uncertainty of what is wished, in its unit; 0 for never.
    pub at_u: f64,
    /// When the best distance would lower it by less than this share: 0.01.
    pub least_share: f64,
    /// How much worse than the best a distance may be to be taken for its shorter tape, as a share of the uncertainty left: 0.01.
    pub for_less_work: f64,
}

impl Default for Stop {
    fn default() -> Self {
        Self { at_u: 0.0, least_share: 0.01, for_less_work: 0.01 }
    }
}

/// What to do next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Next {
    /// Tape this.
    Tape {
        /// Which of the candidates.
        candidate: usize,
        /// What it should read.
        expected: Expected,
        /// The standard uncertainty of what is wished after it.
        u_then: f64,
    },
    /// It is as sure as was asked.
    Enough,
    /// No distance helps any more, or there is none.
    NothingHelps,
}

/// How what a tape reads of a distance follows what may be off of a plan: for each of the budget's inputs, in their order, mm for a
/// unit. `None` if it is no distance.
pub fn follows(budget: &Budget, candidate: &Candidate) -> Option<Vec<f64>> {
    let (_, row) = Known::as_laid(budget).row(candidate)?;
    let [marks @ .., scale] = row.as_slice() else { return None };
    let by_marks = budget.follows().transposed().times_column(marks);
    let own = |(by, origin): (f64, &Origin)| by + if origin.is_scale() { *scale } else { 0.0 };
    Some(by_marks.into_iter().zip(budget.origins()).map(own).collect())
}

impl Known {
    /// As laid, by the budget.
    pub fn as_laid(budget: &Budget) -> Self {
        let scales = vec![0.0; 1 + budget.check_tapes().len()];
        Self { places: budget.expected().to_vec(), scales, covariance: budget.with_scales(), taped: 0 }
    }

    /// Marks with x and y of each in turn, then the tape's scale, by a covariance; `None` if its size is not theirs or a figure is
    /// none.
    pub fn of(places: Vec<DVec2>, covariance: Matrix) -> Option<Self> {
        let size = 2 * places.len() + 1;
        let is_sound = covariance.rows() == size && covariance.columns() == size && covariance.is_finite();
        (is_sound && places.iter().all(|place| place.is_finite())).then_some(Self {
            places,
            scales: vec![0.0],
            covariance,
            taped: 0,
        })
    }

    /// Where the marks likely are.
    pub fn places(&self) -> &[DVec2] {
        &self.places
    }

    /// Their covariance, and that of the scales.
    pub const fn covariance(&self) -> &Matrix {
        &self.covariance
    }

    /// What a distance should read; `None` if it is none.
    pub fn expects(&self, candidate: &Candidate) -> Option<Expected> {
        let (length, row) = self.row(candidate)?;
        let variance = self.covariance.between(&row, &row) + candidate.u_mm * candidate.u_mm;
        let scale = self.scales.get(candidate.tape)?;
        Some(Expected { read_mm: length * (1.0 - scale), u_mm: variance.max(0.0).sqrt() })
    }

    /// How what is read follows the state. A tape that is longer than it says reads less.
    pub(crate) fn row(&self, candidate: &Candidate) -> Option<(f64, Vec<f64>)> {
        let Candidate { from, to, u_mm, tape } = *candidate;
        let span = *self.places.get(to)? - *self.places.get(from)?;
        let length = span.length();
        let way = span.try_normalize()?;
        if !(u_mm > 0.0 && u_mm.is_finite()) {
            return None;
        }
        let mut row = vec![0.0; self.covariance.rows()];
        for (mark, way) in [(from, -way), (to, way)] {
            row.iter_mut().skip(2 * mark).zip(way.to_array()).for_each(|(cell, by)| *cell += by);
        }
        *row.get_mut(2 * self.places.len() + tape)? = -length;
        Some((length, row))
    }

    /// The same if the state may, besides, be off along one way, by so much standard.
    pub(crate) fn less_sure(&self, way: &[f64], by: f64) -> Self {
        let cell = |at: usize| way.get(at).copied().unwrap_or_default() * by;
        let size = self.covariance.rows();
        let covariance = Matrix::of(size, size, |a, b| self.covariance.at(a, b) + cell(a) * cell(b));
        Self { covariance, ..self.clone() }
    }

    /// What is known once a distance is taped, whatever it read; `None` if it is none.
    pub fn once_taped(&self, candidate: &Candidate) -> Option<Self> {
        self.learned(candidate, None)
    }

    /// What is known once a distance read this, mm.
    pub fn once_read(&self, candidate: &Candidate, read_mm: f64) -> Option<Self> {
        read_mm.is_finite().then(|| self.learned(candidate, Some(read_mm)))?
    }

    fn learned(&self, candidate: &Candidate, read_mm: Option<f64>) -> Option<Self> {
        let (length, row) = self.row(candidate)?;
        let pulls = self.covariance.times_column(&row);
        let variance = dot(&row, &pulls) + candidate.u_mm * candidate.u_mm;
        let size = self.covariance.rows();
        let cell = |at: usize| pulls.get(at).copied().unwrap_or_default();
        let covariance =
            Matrix::of(size, size, |a, b| self.covariance.at(a, b) - cell(a) * cell(b) / variance);
        let scale = self.scales.get(candidate.tape)?;
        let missed = read_mm.map_or(0.0, |read| read - length * (1.0 - scale)) / variance;
        let places = self.places.iter().enumerate();
        let places = places.map(|(mark, at)| *at + DVec2::new(cell(2 * mark), cell(2 * mark + 1)) * missed);
        Some(Self {
            places: places.collect(),
            scales: self
                .scales
                .iter()
                .enumerate()
                .map(|(tape, own)| own + cell(2 * self.places.len() + tape) * missed)
                .collect(),
            covariance,
            taped: self.taped + 1,
        })
    }

    /// The standard uncertainty of what is wished; `None` if it has no value.
    pub fn u(&self, wish: &Wish) -> Option<f64> {
        Some(self.u_of(&self.slopes(wish)?))
    }

    fn u_of(&self, slopes: &[Vec<f64>]) -> f64 {
        slopes.iter().map(|slope| self.covariance.between(slope, slope)).sum::<f64>().max(0.0).sqrt()
    }

    /// What is sought, with its standard uncertainty; `None` if it has no value.
    pub fn value(&self, sought: &Sought) -> Option<(f64, f64)> {
        let (value, _) = sought.of(&self.places)?;
        Some((value, self.u(&Wish::Target(*sought))?))
    }

    /// The combinations of the state whose variances add up to what is wished.
    fn slopes(&self, wish: &Wish) -> Option<Vec<Vec<f64>>> {
        let whole = |mut slope: Vec<f64>| {
            slope.push(0.0);
            slope
        };
        match wish {
            Wish::Target(sought) => Some(vec![whole(sought.of(&self.places)?.1)]),
            Wish::Mark(mark) => {
                self.places.get(*mark)?;
                let axis =
                    |axis: usize| (0..2 * self.places.len()).map(move |at| f64::from(u8::from(at == axis)));
                Some([2 * mark, 2 * mark + 1].map(|at| whole(axis(at).collect())).to_vec())
            }
        }
    }

    /// The distance to tape next, of those that can be taped (the first [`MOST_CANDIDATES`] of them). It looks up to four ahead:
    /// two distances may be worth much together that are worth little alone (both diagonals), and whoever stops after two or
    /// three is to have lost little.
    pub fn next(&self, candidates: &[Candidate], wish: &Wish, stop: &Stop) -> Next {
        let Some(slopes) = self.slopes(wish) else { return Next::NothingHelps };
        let now = self.u_of(&slopes);
        if now <= stop.at_u {
            return Next::Enough;
        }
        let each = candidates.iter().enumerate().take(MOST_CANDIDATES);
        let rows: Vec<(usize, f64, Vec<f64>)> = each
            .filter_map(|(at, candidate)| self.row(candidate).map(|(length, row)| (at, length, row)))
            .collect();
        let mut told = self.told(&rows, candidates, &slopes);
        let mut kept: Vec<usize> = (0..rows.len()).collect();
        if kept.len() > ahead::TOGETHER {
            kept = told.best_pairs();
            told = told.only(&kept);
        }
        // Whoever has taped nothing yet tapes two at least; what counts are the sets of two to four in all.
        let firsts =
            told.firsts(2_usize.saturating_sub(self.taped).max(1), 4_usize.saturating_sub(self.taped).max(2));
        let Some(best) = firsts.iter().map(|first| first.left_after_two).reduce(f64::min) else {
            return Next::NothingHelps;
        };
        if best.sqrt() > now * (1.0 - stop.least_share) {
            return Next::NothingHelps;
        }
        // Of those that are as good the one that helps at once, then the shortest tape.
        let least = firsts.iter().map(|first| first.worst).fold(f64::INFINITY, f64::min);
        let good: Vec<_> =
            firsts.iter().filter(|first| first.worst <= least * (1.0 + stop.for_less_work)).collect();
        let at_once = good.iter().map(|first| first.left).fold(f64::INFINITY, f64::min);
        let more = (1.0 + stop.for_less_work).powi(2);
        let own = |first: &&ahead::First| kept.get(first.candidate).and_then(|at| rows.get(*at));
        let length = |first: &&ahead::First| own(first).map_or(f64::INFINITY, |(_, length, _)| *length);
        let chosen = good.into_iter().filter(|first| first.left <= at_once * more);
        let chosen =
            chosen.min_by(|a, b| length(a).total_cmp(&length(b)).then(a.candidate.cmp(&b.candidate)));
        let found = chosen.and_then(|first| {
            let (candidate, ..) = own(&first)?;
            let expected = self.expects(candidates.get(*candidate)?)?;
            Some(Next::Tape { candidate: *candidate, expected, u_then: first.left.sqrt() })
        });
        found.unwrap_or(Next::NothingHelps)
    }

    /// The distances in their own terms.
    fn told(&self, rows: &[(usize, f64, Vec<f64>)], candidates: &[Candidate], slopes: &[Vec<f64>]) -> Told {
        let pulls: Vec<Vec<f64>> = rows.iter().map(|(.., row)| self.covariance.times_column(row)).collect();
        let of = |a: usize, b: &[f64]| pulls.get(a).map_or(0.0, |pulls| dot(pulls, b));
        let row = |at: usize| rows.get(at).map_or(&[][..], |(.., row)| row.as_slice());
        let own = rows.iter().map(|(at, ..)| candidates.get(*at).map_or(0.0, |c| c.u_mm * c.u_mm));
        Told::new(
            Matrix::of(rows.len(), rows.len(), |a, b| of(a, row(b))),
            Matrix::of(rows.len(), slopes.len(), |a, g| slopes.get(g).map_or(0.0, |slope| of(a, slope))),
            own.collect(),
            self.u_of(slopes).powi(2),
        )
    }
}

#[cfg(test)]
mod tests {
    use baywright_geometry::marks::{Construction, Givens, Reach, Wheel};

    use super::*;
    use crate::budget::Instruments;

    /// What the inputs make of a distance, each by itself, adds up to what the marks and the tape are unsure of it together.
    #[test]
    fn a_distance_follows_the_inputs() {
        let wheels = [(0., 780.), (0., -780.), (-2550., 780.), (-2550., -780.)].map(DVec2::from);
        let givens = Givens::new(wheels, DVec2::X, [205.0; 4], vec![], vec![]).unwrap();
        let ahead = |from, through| Construction::Prolong { from, through, reach: Reach::Length(3600.0) };
        let mut plan: Vec<Construction> = Wheel::ALL.map(|wheel| Construction::WheelPoint { wheel }).to_vec();
        plan.extend([ahead(2, 0), ahead(3, 1), Construction::Middle { first: 4, second: 5 }]);
        let tape = crate::budget::Tape { read_mm: 0.4, scale: 1e-4, ..Instruments::PERFECT.tape };
        let shop = Instruments { tape, wheel_aside_mm: 1.0, laser_mm_per_m: 0.2, ..Instruments::PERFECT };
        let budget = Budget::of(&plan, &givens, &shop).unwrap();
        let candidate = Candidate { from: 0, to: 5, u_mm: 0.4, tape: 0 };
        let by = follows(&budget, &candidate).unwrap();
        let variance: f64 = by.iter().zip(budget.inputs()).map(|(by, input)| (by * input.u).powi(2)).sum();
        let expected = Known::as_laid(&budget).expects(&candidate).unwrap();
        assert!((variance + 0.16 - expected.u_mm.powi(2)).abs() < 1e-9 * variance);
        assert_eq!(follows(&budget, &Candidate { to: 0, ..candidate }), None);
    }
}
