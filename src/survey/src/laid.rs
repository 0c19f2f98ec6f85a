//! What the tape says of marks that are laid: where they likely are, and whether a reading or a mark does not fit.
//!
//! What is known beforehand is the plan's budget, with all that its marks have in common; the readings are held against it and
//! against each other. While they fit, budget and readings together say where the marks are. If they do not, every explanation is
//! weighed: one reading misread, or one mark beside its place, with all that was built from it or alone. The likelihoods of these compare as Bayes
//! has it, each blunder being thought of as seldom ([`Chances::blunder`]) and of some size ([`Chances::blunder_mm`]); the one is
//! named that leaves the others little chance, else it is said that this cannot be told. What is named, or may be meant, gives no
//! support to the marks: the reading is left out, the mark's laying forgotten, and the uncertainty grows as it must.
//!
//! Lengths are mm, in the vehicle frame from above.
//!
//! Sources: W. Baarda, *A testing procedure for use in geodetic networks* (1968) for the test of each reading against all others
//! (3.29 at a chance of 0.001), from memory; the comparison of explanations is Bayes' rule with normal distributions.

#[cfg(test)]
mod testing;
mod unseen;

use baywright_geometry::DVec2;

use crate::budget::{Budget, Origin};
use crate::chances::{chi_squared_beyond, normal_beyond};
use crate::matrix::{Cholesky, Matrix, dot};
use crate::next_tape::{Candidate, Known};

pub use unseen::{Again, Shown, next_check, unseen, worst_unseen};

/// So many readings are weighed, so that an answer comes while one types.
pub const MOST_READ: usize = 200;

/// A distance that was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Read {
    /// Between which marks, how surely.
    pub of: Candidate,
    /// What the tape read, mm.
    pub read_mm: f64,
}

/// By what explanations are weighed. The defaults are common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chances {
    /// How often readings that are all good may be doubted: 0.001.
    pub doubted: f64,
    /// How often one reading is misread, or one mark mislaid: 0.01.
    pub blunder: f64,
    /// How large such a blunder is as a rule, standard, mm: 20.
    pub blunder_mm: f64,
    /// How likely an explanation must be to be named alone: 0.9.
    pub named_from: f64,
}

impl Default for Chances {
    fn default() -> Self {
        Self { doubted: 0.001, blunder: 0.01, blunder_mm: 20.0, named_from: 0.9 }
    }
}

/// What may be wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wrong {
    /// A reading, by its position: it reads so much too long, mm; negative too short.
    Reading {
        /// Which.
        nth: usize,
        /// By how much.
        reads_long_mm: f64,
        /// Standard uncertainty of that, mm.
        u_mm: f64,
    },
    /// A mark: it lies so far from where it is meant, mm, with standard uncertainty either way.
    Mark {
        /// Which.
        mark: usize,
        /// Where to it is off.
        by: DVec2,
        /// Standard uncertainty, mm, of the larger of both.
        u_mm: f64,
    },
}

/// Whether all fits.
#[derive(Clone, Debug, PartialEq)]
pub enum Fit {
    /// Nothing was read.
    Unread,
    /// All that was read fits what it may be.
    Fits,
    /// This explains what does not, and nothing else does as well.
    One(Wrong),
    /// Any of these may explain it, the likeliest first.
    CannotTell(Vec<Wrong>),
    /// No single one explains it; the likeliest is told.
    MoreThanOne(Wrong),
}

/// What is known of laid marks once they are taped.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// Where they are, how surely; a reading or a mark that does not fit gives it no support.
    pub known: Known,
    /// Whether all fits.
    pub fit: Fit,
    /// Each reading's test figure, Baarda's w, from all others and the budget: beyond [`Laid::limit`] it does not fit.
    pub tests: Vec<f64>,
    /// The limit of each test: 3.29 for a chance of 0.001.
    pub limit: f64,
}

/// One explanation: what it opens, and how well it explains.
struct Explanation {
    what: What,
    /// Logarithm of its likelihood with its chance beforehand, over that of nothing being wrong.
    weight: f64,
    /// What is left of the readings' squares.
    rest: f64,
    freedom: usize,
}

#[derive(Clone, Copy, PartialEq)]
enum What {
    Reading(usize),
    /// Laid beside its place, and what was built from it with it.
    Mislaid(usize),
    /// Beside its place alone: drawn anew, or wiped and guessed.
    Alone(usize),
}

impl What {
    /// Whether both speak of one mark.
    fn is_of_one_mark(self, other: Self) -> bool {
        self.mark().is_some() && self.mark() == other.mark()
    }

    const fn mark(self) -> Option<usize> {
        match self {
            Self::Mislaid(mark) | Self::Alone(mark) => Some(mark),
            Self::Reading(_) => None,
        }
    }

    /// How the state goes with it, each way scaled so that the mark itself goes 1 mm.
    fn ways(self, budget: &Budget) -> Vec<Vec<f64>> {
        match self {
            Self::Reading(_) => Vec::new(),
            Self::Mislaid(mark) => directions(budget, mark),
            Self::Alone(mark) => alone(budget, mark),
        }
    }
}

/// What was read, held against the budget of a plan. `None` if a reading is none, the readings are more than [`MOST_READ`], or
/// what is assumed contradicts itself.
pub fn laid(budget: &Budget, read: &[Read], chances: &Chances) -> Option<Laid> {
    let prior = Known::as_laid(budget);
    let limit = normal_beyond(chances.doubted);
    if read.is_empty() {
        return Some(Laid { known: prior, fit: Fit::Unread, tests: Vec::new(), limit });
    }
    if read.len() > MOST_READ {
        return None;
    }
    let held = Held::of(&prior, read)?;
    let count = read.len();
    let is_fit = held.squares <= chi_squared_beyond(chances.doubted, count as f64)
        && held.tests.iter().all(|test| test.abs() <= limit);
    if is_fit {
        let known = opened(&prior, read, &[], budget)?;
        return Some(Laid { known, fit: Fit::Fits, tests: held.tests, limit });
    }
    let mut all: Vec<Explanation> = (0..count)
        .map(What::Reading)
        .chain((0..budget.places().len()).flat_map(|mark| [What::Mislaid(mark), What::Alone(mark)]))
        .filter_map(|what| held.explain(what, budget, chances))
        .collect();
    all.sort_by(|a, b| b.weight.total_cmp(&a.weight));
    let first = all.first()?;
    let total: f64 = all.iter().map(|own| (own.weight - first.weight).exp()).sum();
    // What no single blunder brings to rest is more than one.
    let fits = |own: &Explanation| own.rest <= chi_squared_beyond(chances.doubted, own.freedom.max(1) as f64);
    if !fits(first) {
        let known = opened(&prior, read, &[first.what], budget)?;
        let wrong = wrong(&prior, read, first.what, budget)?;
        return Some(Laid { known, fit: Fit::MoreThanOne(wrong), tests: held.tests, limit });
    }
    let mut named: Vec<What> = Vec::new();
    let mut sum = 0.0;
    for own in &all {
        if sum >= chances.named_from * total {
            break;
        }
        sum += (own.weight - first.weight).exp();
        named.push(own.what);
    }
    let known = opened(&prior, read, &named, budget)?;
    // A mark that went alone, or with what was built from it, is one mark.
    let told = named
        .iter()
        .enumerate()
        .filter(|(at, own)| named.iter().take(*at).all(|before| !own.is_of_one_mark(*before)));
    let mut wrongs: Vec<Wrong> = told.filter_map(|(_, own)| wrong(&prior, read, *own, budget)).collect();
    let fit = match wrongs.len() {
        0 => return None,
        1 => Fit::One(wrongs.remove(0)),
        _ => Fit::CannotTell(wrongs),
    };
    Some(Laid { known, fit, tests: held.tests, limit })
}

/// The covariance of what is read less what is expected.
fn spread(prior: &Known, rows: &[Vec<f64>], taped: &[Candidate]) -> Matrix {
    let pulls: Vec<Vec<f64>> = rows.iter().map(|row| prior.covariance().times_column(row)).collect();
    let own = |nth: usize| taped.get(nth).map_or(0.0, |one| one.u_mm * one.u_mm);
    Matrix::of(rows.len(), rows.len(), |a, b| {
        let joint = rows.get(a).zip(pulls.get(b)).map_or(0.0, |(row, pull)| dot(row, pull));
        joint + if a == b { own(a) } else { 0.0 }
    })
}

/// The readings against what they should be.
struct Held {
    /// How each follows the state.
    rows: Vec<Vec<f64>>,
    /// Of what was read less what was expected.
    inverse: Cholesky,
    /// The covariance's inverse times what was missed.
    pulled: Vec<f64>,
    squares: f64,
    tests: Vec<f64>,
}

impl Held {
    fn of(prior: &Known, read: &[Read]) -> Option<Self> {
        let mut rows = Vec::with_capacity(read.len());
        let mut missed = Vec::with_capacity(read.len());
        for one in read {
            if !one.read_mm.is_finite() {
                return None;
            }
            rows.push(prior.row(&one.of)?.1);
            missed.push(one.read_mm - prior.expects(&one.of)?.read_mm);
        }
        let taped: Vec<Candidate> = read.iter().map(|one| one.of).collect();
        let spread = spread(prior, &rows, &taped);
        let inverse = Cholesky::of(&spread)?;
        let pulled = inverse.solve(&missed);
        let whole = inverse.inverse();
        let squares = dot(&missed, &pulled);
        let tests = pulled.iter().enumerate().map(|(nth, pull)| pull / whole.at(nth, nth).sqrt()).collect();
        Some(Self { rows, inverse, pulled, squares, tests })
    }

    /// How well one blunder explains what was missed: its likelihood over that of none.
    fn explain(&self, what: What, budget: &Budget, chances: &Chances) -> Option<Explanation> {
        let ways: Vec<Vec<f64>> = match what {
            What::Reading(nth) => {
                vec![(0..self.rows.len()).map(|own| f64::from(u8::from(own == nth))).collect()]
            }
            What::Mislaid(_) | What::Alone(_) => what
                .ways(budget)
                .iter()
                .map(|way| self.rows.iter().map(|row| dot(row, way)).collect::<Vec<f64>>())
                .filter(|way| way.iter().any(|own| own.abs() > 1e-9))
                .collect(),
        };
        let size = ways.len();
        if size == 0 {
            return None;
        }
        let solved: Vec<Vec<f64>> = ways.iter().map(|way| self.inverse.solve(way)).collect();
        let gram =
            |a: usize, b: usize| ways.get(a).zip(solved.get(b)).map_or(0.0, |(way, solved)| dot(way, solved));
        let met: Vec<f64> = ways.iter().map(|way| dot(way, &self.pulled)).collect();
        // As large as it is as a rule, or as this one would have to be: a slip of a metre is a slip too. A hair, so that a way that
        // nothing shows is one of nothing.
        let hair = 1e-9 * (0..size).map(|at| gram(at, at)).sum::<f64>();
        let alone = Matrix::of(size, size, |a, b| gram(a, b) + if a == b { hair } else { 0.0 });
        let size_of = Cholesky::of(&alone)?.solve(&met);
        let largest = size_of.iter().map(|own| own.abs()).fold(chances.blunder_mm, f64::max);
        let precision = largest.powi(-2);
        let with_prior = Matrix::of(size, size, |a, b| gram(a, b) + if a == b { precision } else { 0.0 });
        let inverse = Cholesky::of(&with_prior)?;
        let gained = dot(&met, &inverse.solve(&met));
        let explained = dot(&met, &size_of);
        let grown: f64 = (0..size).map(|at| 2.0 * inverse.lower().at(at, at).ln()).sum::<f64>()
            - size as f64 * precision.ln();
        let weight = 0.5 * (gained - grown) + chances.blunder.ln();
        let freedom = self.rows.len().saturating_sub(size);
        Some(Explanation { what, weight, rest: (self.squares - explained).max(0.0), freedom })
    }
}

/// How the state follows a mark's own laying, each way scaled so that the mark itself goes 1 mm: what was built from it goes with it.
fn directions(budget: &Budget, mark: usize) -> Vec<Vec<f64>> {
    let size = 2 * budget.places().len() + 1;
    let is_own = |origin: &Origin| match origin {
        Origin::Along(step) | Origin::Across(step) => *step == mark,
        _ => false,
    };
    let columns = budget.origins().iter().enumerate().filter(|(_, origin)| is_own(origin));
    let mut ways: Vec<Vec<f64>> = columns
        .filter_map(|(column, _)| {
            let cell = |row: usize| budget.follows().at(row, column);
            let own = DVec2::new(cell(2 * mark), cell(2 * mark + 1)).length();
            (own > 0.0)
                .then(|| (0..size).map(|row| if row + 1 == size { 0.0 } else { cell(row) / own }).collect())
        })
        .collect();
    if ways.len() != 2 {
        // What no step tells apart lies off either way by itself.
        ways = alone(budget, mark);
    }
    ways
}

/// The mark goes along x and along y, and nothing with it.
fn alone(budget: &Budget, mark: usize) -> Vec<Vec<f64>> {
    let size = 2 * budget.places().len() + 1;
    let way = |at: usize| (0..size).map(|row| f64::from(u8::from(row == at))).collect();
    vec![way(2 * mark), way(2 * mark + 1)]
}

/// What is known with some readings left out and the laying of some marks forgotten: all that any of these may be is open.
fn opened(prior: &Known, read: &[Read], named: &[What], budget: &Budget) -> Option<Known> {
    /// Standard, mm: nothing is known of it, and figures stay figures.
    const FORGOTTEN_MM: f64 = 1e3;
    let mut known = prior.clone();
    for way in named.iter().flat_map(|own| own.ways(budget)) {
        known = known.less_sure(&way, FORGOTTEN_MM);
    }
    for (nth, one) in read.iter().enumerate() {
        if !named.contains(&What::Reading(nth)) {
            known = known.once_read(&one.of, one.read_mm)?;
        }
    }
    Some(known)
}

/// How large a blunder is by all that was read beside it.
fn wrong(prior: &Known, read: &[Read], what: What, budget: &Budget) -> Option<Wrong> {
    match what {
        What::Reading(nth) => {
            let one = read.get(nth)?;
            let expected = opened(prior, read, &[what], budget)?.expects(&one.of)?;
            Some(Wrong::Reading { nth, reads_long_mm: one.read_mm - expected.read_mm, u_mm: expected.u_mm })
        }
        What::Mislaid(mark) | What::Alone(mark) => {
            let known = opened(prior, read, &[what], budget)?;
            let by = *known.places().get(mark)? - *budget.expected().get(mark)?;
            let cell = |a, b| known.covariance().at(2 * mark + a, 2 * mark + b);
            let u_mm = crate::network::Ellipse::of(cell(0, 0), cell(0, 1), cell(1, 1)).long_mm;
            Some(Wrong::Mark { mark, by, u_mm })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::testing::{TAPED, plan, read};
    use super::*;

    #[test]
    fn what_was_read_as_meant_fits_and_makes_the_marks_surer() {
        let budget = plan();
        let laid = laid(&budget, &read(budget.places(), |_| 0.0), &Chances::default()).unwrap();
        assert_eq!(laid.fit, Fit::Fits);
        assert!(laid.tests.iter().all(|test| test.abs() < 1.0));
        let before = Known::as_laid(&budget);
        let mark = crate::next_tape::Wish::Mark(6);
        assert!(laid.known.u(&mark).unwrap() < before.u(&mark).unwrap());
    }

    #[test]
    fn each_reading_misread_by_twelve_is_named_or_cannot_be_told() {
        let budget = plan();
        let mut named = 0;
        for bad in 0..TAPED.len() {
            let off = |nth| if nth == bad { 12.0 } else { 0.0 };
            let laid = laid(&budget, &read(budget.places(), off), &Chances::default()).unwrap();
            match laid.fit {
                Fit::One(Wrong::Reading { nth, reads_long_mm, .. }) => {
                    assert_eq!(nth, bad);
                    assert!((reads_long_mm - 12.0).abs() < 3.0, "{reads_long_mm}");
                    named += 1;
                }
                Fit::CannotTell(all) => {
                    assert!(all.iter().any(|own| matches!(own, Wrong::Reading { nth, .. } if *nth == bad)));
                }
                other => panic!("{bad}: {other:?}"),
            }
        }
        assert!(named >= 10, "{named}");
    }

    /// Mark 5 drawn 12 mm aside, all else as meant; what was built from it goes with it.
    #[test]
    fn a_mark_that_was_mislaid_is_named_with_how_it_lies() {
        let budget = plan();
        for (mark, by) in [(4, DVec2::new(0.0, 12.0)), (5, DVec2::new(-9.0, 0.0)), (2, DVec2::new(10.0, 6.0))]
        {
            let mut places = budget.places().to_vec();
            for way in directions(&budget, mark) {
                let own = DVec2::new(way[2 * mark], way[2 * mark + 1]);
                let so_much = by.dot(own);
                for (at, place) in places.iter_mut().enumerate() {
                    *place += DVec2::new(way[2 * at], way[2 * at + 1]) * so_much;
                }
            }
            let laid = laid(&budget, &read(&places, |_| 0.0), &Chances::default()).unwrap();
            let is_it = |own: &Wrong| matches!(own, Wrong::Mark { mark: own, .. } if *own == mark);
            match &laid.fit {
                Fit::One(Wrong::Mark { mark: own, by: found, .. }) => {
                    assert_eq!(*own, mark);
                    assert!(found.distance(by) < 3.0, "{found} {by}");
                }
                Fit::CannotTell(all) => assert!(all.iter().any(is_it), "{mark} {all:?}"),
                other => panic!("{mark}: {other:?}"),
            }
            let seen = laid.known.places()[mark];
            assert!(seen.distance(places[mark]) < 3.0, "{mark} {seen} {}", places[mark]);
        }
    }

    /// Typed into the box of another distance: metres off, and named all the same.
    #[test]
    fn a_slip_of_metres_is_named() {
        let budget = plan();
        for bad in 0..TAPED.len() {
            let off = |nth| if nth == bad { -1_900.0 } else { 0.0 };
            let laid = laid(&budget, &read(budget.places(), off), &Chances::default()).unwrap();
            let is_it = |own: &Wrong| matches!(own, Wrong::Reading { nth, .. } if *nth == bad);
            match &laid.fit {
                Fit::One(own) => assert!(is_it(own), "{bad} {own:?}"),
                Fit::CannotTell(all) => assert!(all.iter().any(is_it), "{bad} {all:?}"),
                other => panic!("{bad}: {other:?}"),
            }
        }
    }

    #[test]
    fn two_that_do_not_fit_are_more_than_one() {
        let budget = plan();
        let off = |nth| match nth {
            2 => 40.0,
            8 => -35.0,
            _ => 0.0,
        };
        let laid = laid(&budget, &read(budget.places(), off), &Chances::default()).unwrap();
        assert!(matches!(laid.fit, Fit::MoreThanOne(_)), "{:?}", laid.fit);
    }

    #[test]
    fn nothing_read_is_as_laid_and_nonsense_is_none() {
        let budget = plan();
        assert_eq!(laid(&budget, &[], &Chances::default()).unwrap().fit, Fit::Unread);
        let mut bad = read(budget.places(), |_| 0.0);
        bad[0].read_mm = f64::NAN;
        assert_eq!(laid(&budget, &bad, &Chances::default()), None);
        bad[0].of.to = 99;
        assert_eq!(laid(&budget, &bad, &Chances::default()), None);
    }
}
