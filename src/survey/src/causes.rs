//! When the routine failed: what here could explain it, by likelihood, and the one check that separates the first two best.
//!
//! Each thing that may be out is a [`Part`]: how it turns the sensor's sight of the target, how far it is out as a rule, how far
//! if something went wrong with it and how often that happens, and what was read of it. One thing is taken to have gone wrong,
//! all others to be out as a rule: for each, how likely what was read and what the routine said would be (Bayes; all but the
//! routine's own limit is normal, so that nothing is drawn by chance). Priors are the shop's; what was measured outweighs them.
//!
//! Only what is among the parts is weighed: that something else stopped the routine (a fault in the car, a thing that echoes) is
//! for the caller to say. Angles are radians: the target is seen too far to the left, too far up, of where it should be.

mod beyond;

use crate::chances::normal;
use crate::input::Figure;
use beyond::{Pair, Range};

/// So many parts at most; the rest is left out.
pub const MOST_PARTS: usize = 200;

/// What a cause is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// A floor mark lies wrongly.
    Mark,
    /// The floor under a wheel or under the stand is not as surveyed.
    Floor,
    /// The car pushes itself another way than its sheet says.
    ThrustLine,
    /// The car moved after it was measured.
    CarMoved,
    /// The stand: its place, its height, its face.
    Stand,
    /// The sensor's own bracket is bent, or its cover sits wrongly.
    Bracket,
}

/// One thing that may be out, in its own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// What cause it belongs to.
    pub cause: Cause,
    /// How far to the left the target is seen for each unit, radians.
    pub left_per_unit: f64,
    /// How far up, radians.
    pub up_per_unit: f64,
    /// How far it is out as a rule: standard uncertainty, by the instruments or as the shop found it.
    pub usual: f64,
    /// How far if something went wrong with it: standard deviation.
    pub wrong: f64,
    /// How often something goes wrong with it, beside the others: any unit.
    pub often: f64,
    /// What was read of it, and how surely: what was measured, not assumed.
    pub read: Option<Figure>,
    /// How surely one more check would tell; infinite where there is none.
    pub check_u: f64,
}

/// What the routine said of one direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Told {
    /// Nothing.
    Nothing,
    /// That it is fine.
    Fine,
    /// That it is out to the left (up).
    Above,
    /// That it is out to the right (down).
    Below,
    /// How far, to the left (up) positive.
    By(Figure),
}

/// What the routine said. With [`Told::Nothing`] of both: only that it failed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Routine {
    /// To the left and right.
    pub sideways: Told,
    /// Up and down.
    pub upright: Told,
    /// From where on it fails, either way, radians.
    pub allowed: f64,
}

/// A cause in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ranked {
    /// The cause.
    pub cause: Cause,
    /// Which of its parts is the likeliest, by its position.
    pub part: usize,
    /// How far that is out then, in its own unit, with its standard uncertainty.
    pub out: Figure,
    /// How likely it is, of all that was weighed: 0 to 1.
    pub chance: f64,
    /// Whether its likeliest part was measured on this visit, or only assumed.
    pub is_measured: bool,
}

/// A check that separates two causes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    /// Of which part.
    pub part: usize,
    /// How often the two would still be mixed up after it, at most: 0 to ½.
    pub mixed_up: f64,
}

/// What there is to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranking {
    /// The causes, the likeliest first.
    pub causes: Vec<Ranked>,
    /// Whether the first is likely enough to be named alone: [`SURE_FROM`].
    pub is_clear: bool,
    /// The one check that separates the first two best; `None` where none tells them apart better than a guess.
    pub check: Option<Check>,
}

/// A cause that is as likely as this is named alone. Common practice, no source.
pub const SURE_FROM: f64 = 0.8;

/// A check after which two causes are mixed up as often as this separates nothing.
const SEPARATES_NOTHING: f64 = 0.45;

/// What each part is, if one of them went wrong.
struct Supposed {
    log_likely: f64,
    /// Of each part, mean and variance.
    parts: Vec<(f64, f64)>,
}

/// Ranks what could explain a failed routine; `None` if a figure makes no sense or nothing that may be out explains it at all.
///
/// The car was measured before and after and stood still, the bracket was not: the target seen 0.4° to the left is the bracket's.
///
/// ```
/// use baywright_survey::{causes::*, input::Figure};
/// let part = |cause, read, check_u| Part {
///     cause, left_per_unit: 1.0, up_per_unit: 0.0, usual: 0.0005, wrong: 0.005, often: 1.0, read, check_u,
/// };
/// let still = Figure { value: 0.0002, u: 0.0005 };
/// let parts = [part(Cause::CarMoved, Some(still), 0.0005), part(Cause::Bracket, None, 0.002)];
/// let seen = Told::By(Figure { value: 0.4_f64.to_radians(), u: 0.0005 });
/// let found = rank(&parts, &Routine { sideways: seen, upright: Told::Fine, allowed: 0.002 }).unwrap();
/// assert_eq!(found.causes[0].cause, Cause::Bracket);
/// assert!(found.is_clear && found.causes[0].chance > 0.99);
/// ```
pub fn rank(parts: &[Part], routine: &Routine) -> Option<Ranking> {
    let parts = parts.get(..parts.len().min(MOST_PARTS))?;
    if parts.is_empty() || !parts.iter().all(Part::is_sound) || !routine.is_sound() {
        return None;
    }
    let supposed: Vec<Supposed> = (0..parts.len()).map(|wrong| suppose(parts, routine, wrong)).collect();
    let most = supposed.iter().map(|one| one.log_likely).fold(f64::NEG_INFINITY, f64::max);
    if !most.is_finite() {
        return None;
    }
    let likely = |of: &Supposed| libm::exp(of.log_likely - most);
    let all: f64 = supposed.iter().map(likely).sum();
    let mut causes: Vec<Ranked> = Vec::new();
    for (at, (part, one)) in parts.iter().zip(&supposed).enumerate() {
        let chance = likely(one) / all;
        let (value, variance) = one.parts.get(at).copied().unwrap_or_default();
        let own = Ranked {
            cause: part.cause,
            part: at,
            out: Figure { value, u: variance.max(0.0).sqrt() },
            chance,
            is_measured: part.read.is_some(),
        };
        match causes.iter_mut().find(|ranked| ranked.cause == part.cause) {
            Some(there) => {
                let sum = there.chance + chance;
                let before = supposed.get(there.part).map_or(0.0, |of| likely(of) / all);
                if chance > before {
                    *there = own;
                }
                there.chance = sum;
            }
            None => causes.push(own),
        }
    }
    causes.sort_by(|a, b| b.chance.total_cmp(&a.chance).then(a.cause.cmp(&b.cause)));
    let is_clear = causes.first().is_some_and(|first| first.chance >= SURE_FROM);
    let check = match causes.as_slice() {
        [first, second, ..] => best_check(parts, &supposed, first.part, second.part),
        _ => None,
    };
    Some(Ranking { causes, is_clear, check })
}

impl Part {
    fn is_sound(&self) -> bool {
        let is_size = |figure: f64| (0.0..f64::INFINITY).contains(&figure);
        self.left_per_unit.is_finite()
            && self.up_per_unit.is_finite()
            && [self.usual, self.wrong, self.often].into_iter().all(is_size)
            && self.read.is_none_or(is_read)
            && self.check_u > 0.0
    }
}

/// A reading has an uncertainty above nothing.
fn is_read(reading: Figure) -> bool {
    reading.is_sound() && reading.u > 0.0
}

impl Routine {
    fn is_sound(&self) -> bool {
        let is = |told: &Told| !matches!(told, Told::By(reading) if !is_read(*reading));
        is(&self.sideways) && is(&self.upright) && self.allowed > 0.0 && self.allowed.is_finite()
    }
}

/// How likely all that is known would be, if this part went wrong.
fn suppose(parts: &[Part], routine: &Routine, wrong: usize) -> Supposed {
    let often = parts.get(wrong).map_or(0.0, |part| part.often);
    let mut log_likely = libm::log(often);
    let mut own: Vec<(f64, f64)> = Vec::with_capacity(parts.len());
    for (at, part) in parts.iter().enumerate() {
        let mut variance = part.usual * part.usual;
        if at == wrong {
            variance += part.wrong * part.wrong;
        }
        match part.read {
            None => own.push((0.0, variance)),
            Some(Figure { value, u }) => {
                let both = variance + u * u;
                log_likely += log_density(value, both);
                own.push((value * variance / both, variance * u * u / both));
            }
        }
    }
    let seen = |parts: &[(f64, f64)], of: &[Part]| {
        let mut pair = Pair::default();
        for ((mean, variance), part) in parts.iter().zip(of) {
            pair.add(*mean, *variance, (part.left_per_unit, part.up_per_unit));
        }
        pair
    };
    let mut pair = seen(&own, parts);
    // What it said in figures is one more reading of all parts together.
    let [sideways, upright] = [routine.sideways, routine.upright].map(|told| match told {
        Told::Nothing | Told::By(_) => Range::ALL,
        Told::Fine => Range::within(routine.allowed),
        Told::Above => Range::above(routine.allowed),
        Told::Below => Range::below(-routine.allowed),
    });
    for (is_up, told) in [(false, routine.sideways), (true, routine.upright)] {
        if let Told::By(Figure { value, u }) = told {
            let (mean, variance) = pair.one(is_up);
            let both = variance + u * u;
            log_likely += log_density(value - mean, both);
            pair.learn(is_up, value, u);
        }
    }
    learn_of_parts(&mut own, parts, routine);
    let is_told = |told: Told| matches!(told, Told::Above | Told::Below | Told::By(_));
    let region = if is_told(routine.sideways) || is_told(routine.upright) {
        pair.chance(sideways, upright)
    } else {
        // It failed, so not both are fine.
        let fine = Range::within(routine.allowed);
        pair.chance(sideways, upright) - pair.chance(fine, fine)
    };
    Supposed { log_likely: log_likely + libm::log(region.max(f64::MIN_POSITIVE)), parts: own }
}

/// What the routine said in figures, as it tells of each part.
fn learn_of_parts(own: &mut [(f64, f64)], parts: &[Part], routine: &Routine) {
    for (told, is_up) in [(routine.sideways, false), (routine.upright, true)] {
        let Told::By(Figure { value, u }) = told else { continue };
        let per_unit = |part: &Part| if is_up { part.up_per_unit } else { part.left_per_unit };
        let of = |cell: &(f64, f64), part: &Part| (cell.0 * per_unit(part), cell.1 * per_unit(part).powi(2));
        let sums = own.iter().zip(parts).map(|(cell, part)| of(cell, part));
        let (mean, variance) = sums.fold((0.0, u * u), |sum, cell| (sum.0 + cell.0, sum.1 + cell.1));
        // Parts that it makes go together are taken apart again: it is only asked how far each is out by itself.
        for (cell, part) in own.iter_mut().zip(parts) {
            let gain = cell.1 * per_unit(part) / variance;
            *cell = (cell.0 + gain * (value - mean), cell.1 * (1.0 - gain * per_unit(part)));
        }
    }
}

/// Of a normal figure about nothing.
fn log_density(off: f64, variance: f64) -> f64 {
    if variance > 0.0 { -0.5 * (off * off / variance + libm::log(variance)) } else { f64::NEG_INFINITY }
}

/// The check after which two suppositions are mixed up the least, by Bhattacharyya's bound: ½·exp(−D) (from memory).
fn best_check(parts: &[Part], supposed: &[Supposed], first: usize, second: usize) -> Option<Check> {
    let (first, second) = (supposed.get(first)?, supposed.get(second)?);
    let each = parts.iter().enumerate().filter(|(_, part)| part.check_u.is_finite());
    let checks = each.filter_map(|(at, part)| {
        let noise = part.check_u * part.check_u;
        let of = |one: &Supposed| one.parts.get(at).map(|(mean, variance)| (*mean, variance + noise));
        let ((m, s), (n, t)) = (of(first)?, of(second)?);
        let apart = 0.25 * (m - n) * (m - n) / (s + t) + 0.5 * libm::log((s + t) / (2.0 * (s * t).sqrt()));
        Some(Check { part: at, mixed_up: 0.5 * libm::exp(-apart) })
    });
    let best = checks.min_by(|a, b| a.mixed_up.total_cmp(&b.mixed_up).then(a.part.cmp(&b.part)))?;
    (best.mixed_up < SEPARATES_NOTHING).then_some(best)
}

/// The chance that a normal figure lies in a range.
fn within(mean: f64, variance: f64, range: Range) -> f64 {
    let Range { low, high } = range;
    if variance <= 0.0 {
        return f64::from(u8::from(low <= mean && mean <= high));
    }
    let u = variance.sqrt();
    // From the side where it is small, so that a small chance keeps its figures.
    if low > mean {
        normal((mean - low) / u) - normal((mean - high) / u)
    } else {
        normal((high - mean) / u) - normal((low - mean) / u)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(cause: Cause, wrong: f64, read: Option<Figure>) -> Part {
        Part {
            cause,
            left_per_unit: 1.0,
            up_per_unit: 0.0,
            usual: 1.0,
            wrong,
            often: 1.0,
            read,
            check_u: 1.0,
        }
    }

    /// By hand: two parts of variance 1, one of which went wrong by 3: what is seen has variance 1 + 1 + 9 either way, so both
    /// are as likely, twice as often makes it twice as likely.
    #[test]
    fn what_tells_nothing_leaves_the_priors() {
        let (a, mut b) = (part(Cause::Mark, 3.0, None), part(Cause::Bracket, 3.0, None));
        b.often = 2.0;
        for sideways in [Told::Nothing, Told::Above, Told::By(Figure { value: 5.0, u: 0.1 })] {
            let found = rank(&[a, b], &Routine { sideways, upright: Told::Nothing, allowed: 2.0 }).unwrap();
            assert_eq!(found.causes[0].cause, Cause::Bracket);
            assert!((found.causes[0].chance - 2.0 / 3.0).abs() < 1e-9, "{found:?}");
            assert!(!found.is_clear);
        }
    }

    /// By hand: a reading of 0 with u 1 of the first: N(0; 0, 1 + 9 + 1) against N(0; 0, 1 + 1) for the read, and what is seen,
    /// 6, is N(6; 0, 10/11 + 1) against N(6; 0, 1/2 + 10) (without the routine's own u, next to nothing).
    #[test]
    fn a_reading_clears_what_it_read() {
        let still = Some(Figure { value: 0.0, u: 1.0 });
        let parts = [part(Cause::CarMoved, 3.0, still), part(Cause::Bracket, 3.0, None)];
        let by = Told::By(Figure { value: 6.0, u: 1e-6 });
        let found = rank(&parts, &Routine { sideways: by, upright: Told::Nothing, allowed: 2.0 }).unwrap();
        let density = |off: f64, variance: f64| libm::exp(-0.5 * off * off / variance) / variance.sqrt();
        let (moved, bent) =
            (density(0.0, 11.0) * density(6.0, 10.0 / 11.0 + 1.0), density(0.0, 2.0) * density(6.0, 10.5));
        assert_eq!(found.causes[0].cause, Cause::Bracket);
        assert!((found.causes[0].chance - bent / (bent + moved)).abs() < 1e-9);
        // How far it is out: 6 shared between 10 and ½ of variance.
        assert!((found.causes[0].out.value - 6.0 * 10.0 / 10.5).abs() < 1e-6);
    }

    /// Of a part that nothing shows, the check is the one that tells: the bracket cannot be checked, the car can.
    #[test]
    fn the_check_is_of_what_differs() {
        let mut bracket = part(Cause::Bracket, 3.0, None);
        bracket.check_u = f64::INFINITY;
        let parts = [part(Cause::Mark, 0.0, None), part(Cause::CarMoved, 3.0, None), bracket];
        let by = Told::By(Figure { value: 8.0, u: 0.5 });
        let found = rank(&parts, &Routine { sideways: by, upright: Told::Fine, allowed: 2.0 }).unwrap();
        let check = found.check.unwrap();
        assert!(check.part == 1 && check.mixed_up < 0.1, "{check:?}");
    }

    #[test]
    fn what_makes_no_sense_has_no_ranking() {
        let routine = Routine { sideways: Told::Nothing, upright: Told::Nothing, allowed: 1.0 };
        let good = part(Cause::Mark, 3.0, None);
        assert!(rank(&[good], &routine).is_some());
        assert_eq!(rank(&[], &routine), None);
        assert_eq!(rank(&[Part { usual: f64::NAN, ..good }], &routine), None);
        assert_eq!(rank(&[Part { often: 0.0, ..good }], &routine), None);
        assert_eq!(rank(&[good], &Routine { allowed: 0.0, ..routine }), None);
        let bad = Told::By(Figure { value: f64::NAN, u: 1.0 });
        assert_eq!(rank(&[good], &Routine { upright: bad, ..routine }), None);
    }
}
