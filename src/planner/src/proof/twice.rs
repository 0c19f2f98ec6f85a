//! Marks that were laid twice: what the hand makes of it.
//!
//! The same distances were taped after each laying; what both layings have in common (the tape's scale, a laser that drifts, a
//! square that is none) is in both alike and does not show. So the differences are held against what the *hand* alone makes of
//! them: laying on and reading off, the middle of a line, plumbing. Wheel points are left out of it: who finds them again adds to
//! the differences, who does not shows nothing of them, and either way no more is claimed than was shown.
//!
//! What was shown is one factor on the hand's figures. It rests on few differences and is not known well: it is taken as much larger
//! as Student's t is than the normal's at 95 %. It replaces what was assumed from [`ENOUGH`] differences on; one that says that what
//! was assumed flatters counts at once.

use baywright_geometry::DVec2;
use baywright_geometry::marks::{Construction, Givens};
use baywright_survey::budget::{Budget, Instruments, Tape};
use baywright_survey::matrix::{Cholesky, Matrix};
use baywright_survey::repeat::{Repeats, read_twice};

use super::tapes::Tapes;
use crate::model::Arrangement;
use crate::scene::Scene;

/// From so many distances on, taped after both layings, the hand's own repeatability replaces the assumed one: with five a factor
/// is known to a third (common practice, no source).
pub const ENOUGH: usize = 5;

/// No hand is taken to be more than so much better than assumed, however well a few differences agree: a tape is read to the
/// millimetre (common practice, no source).
pub(super) const LEAST: f64 = 0.5;

/// What two layings show of the hand that laid them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hand {
    /// How many distances were taped after both.
    pub distances: usize,
    /// By how much they differ, root of the mean square, mm.
    pub differ_mm: f64,
    /// By how much they were to differ by what was assumed, wheel points found anew too, root of the mean square, mm.
    pub assumed_mm: f64,
    /// Whether they differ by more than what was assumed lets them (χ², 5 %): what rests on it flattered.
    pub flattered: bool,
    /// By what the assumed figures of the hand are multiplied; `None` while it rests on too little.
    pub counts: Option<f64>,
}

/// What the layings of a set-up show; `None` if no distance was taped after both.
pub(super) fn of(
    arrangement: &Arrangement,
    scene: &Scene,
    (plan, givens): (&[Construction], &Givens),
    (shop, tapes): (&Instruments, &Tapes<'_>),
) -> Option<Hand> {
    let mut both = Vec::new();
    for own in &scene.readings {
        let read = |all: &[crate::model::MarkTaped]| {
            let taped = all.iter().find(|taped| taped.is_between(&own.from, &own.to))?;
            Some(tapes.corrected_mm(taped))
        };
        let at = |id: &crate::model::Id| scene.marks.iter().position(|mark| mark.id == *id);
        if let (Some(first), Some(second)) = (read(&arrangement.laid_before), read(&arrangement.marks_taped))
        {
            both.push(Both { from: at(&own.from)?, to: at(&own.to)?, first, second });
        }
    }
    if both.is_empty() {
        return None;
    }
    let squares: f64 = both.iter().map(|own| (own.first - own.second).powi(2)).sum();
    let count = both.len() as f64;
    let hand = hand_alone(shop);
    let bare = Instruments { wheel_aside_mm: 0.0, wheel_along_mm: 0.0, ..hand };
    let (whole, assumed) = held(&both, plan, givens, &hand)?;
    let (own, _) = held(&both, plan, givens, &bare)?;
    let flattered = whole.is_beyond(1.0);
    let widened = own.u_mm * student(own.freedom);
    let counts = match (flattered, both.len() >= ENOUGH) {
        (true, _) => Some(widened.max(1.0)),
        (false, true) => Some(widened.max(LEAST)),
        (false, false) => None,
    };
    Some(Hand {
        distances: both.len(),
        differ_mm: (squares / count).sqrt(),
        assumed_mm: (2.0 * assumed / count).sqrt(),
        flattered,
        counts,
    })
}

/// Student's t over the normal's quantile, 95 %.
fn student(freedom: f64) -> f64 {
    baywright_survey::chances::t_beyond(0.05, freedom) / super::K
}

/// What a hand that was shown lays and tapes with.
pub(super) fn by_hand(shop: &Instruments, factor: f64) -> Instruments {
    Instruments {
        tape: Tape { read_mm: shop.tape.read_mm * factor, ..shop.tape },
        line_mm: shop.line_mm * factor,
        plumb_mm: shop.plumb_mm * factor,
        ..*shop
    }
}

/// Only what differs from one laying to the next.
fn hand_alone(shop: &Instruments) -> Instruments {
    Instruments {
        tape: Tape { read_mm: shop.tape.read_mm, ..Instruments::PERFECT.tape },
        line_mm: shop.line_mm,
        plumb_mm: shop.plumb_mm,
        wheel_aside_mm: shop.wheel_aside_mm,
        wheel_along_mm: shop.wheel_along_mm,
        ..Instruments::PERFECT
    }
}

struct Both {
    from: usize,
    to: usize,
    first: f64,
    second: f64,
}

/// How the differences compare with what is expected of them: 1 for a hand as assumed. And the sum of the variances of one laying,
/// mm².
fn held(both: &[Both], plan: &[Construction], givens: &Givens, hand: &Instruments) -> Option<(Repeats, f64)> {
    let budget = Budget::of(plan, givens, hand).ok()?;
    let size = budget.covariance().rows();
    let row = |own: &Both| {
        let way = (*budget.places().get(own.to)? - *budget.places().get(own.from)?).try_normalize()?;
        let mut row = vec![0.0; size];
        for (mark, way) in [(own.from, -way), (own.to, way)] {
            row.iter_mut().skip(2 * mark).zip(DVec2::to_array(&way)).for_each(|(cell, by)| *cell += by);
        }
        Some(row)
    };
    let rows: Vec<Vec<f64>> = both.iter().map(row).collect::<Option<_>>()?;
    let read = hand.tape.read_mm.powi(2);
    let cell = |a: usize, b: usize| {
        rows.get(a).zip(rows.get(b)).map_or(0.0, |(a, b)| budget.covariance().between(a, b))
    };
    let spread = Matrix::of(rows.len(), rows.len(), |a, b| cell(a, b) + if a == b { read } else { 0.0 });
    let lower = Cholesky::of(&spread)?;
    let whitened = |of: fn(&Both) -> f64| lower.forward(&both.iter().map(of).collect::<Vec<f64>>());
    let sum = (0..rows.len()).map(|at| spread.at(at, at)).sum();
    Some((read_twice(&whitened(|own| own.first), &whitened(|own| own.second))?, sum))
}
