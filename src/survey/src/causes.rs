//! When the routine failed: what here could explain it, by likelihood, and the one check that separates the first two best.
//!
//! Each thing that may be out is a [`Part`]: how it turns the sensor's sight of the target, how far it is out as a rule, how far
//! if something went wrong with it and how often that happens. What was read is of one part, or of several at once, as a tape
//! reads of two marks and all that they were laid from ([`Probe`]). One thing is taken to have gone wrong,
//! all others to be out as a rule: for each, how likely what was read and what the routine said would be (Bayes; all but the
//! routine's own limit is normal, so that nothing is drawn by chance). Priors are the shop's; what was measured outweighs them.
//!
//! Only what is among the parts is weighed: that something else stopped the routine (a fault in the car, a thing that echoes) is
//! for the caller to say. Angles are radians: the target is seen too far to the left, too far up, of where it should be.

mod beyond;
mod together;

use crate::chances::normal;
use crate::input::Figure;
use beyond::{Pair, Range};
use together::Together;

/// So many parts at most; the rest is left out.
pub const MOST_PARTS: usize = 400;

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
    /// How often something goes wrong with it, beside the others: any unit. Never: it only adds to what the others are out.
    pub often: f64,
}

/// What a reading is of, and how surely it is read.
#[derive(Clone, Debug, PartialEq)]
pub struct Probe {
    /// Of which parts, by their positions, and what a unit of each makes of what is read; all that is added.
    pub of: Vec<(usize, f64)>,
    /// Standard uncertainty of the reading alone, above nothing, in the unit of what is read.
    pub u: f64,
}

impl Probe {
    /// Of one part alone, in its own unit.
    pub fn of_part(part: usize, u: f64) -> Self {
        Self { of: vec![(part, 1.0)], u }
    }

    fn is_sound(&self, parts: usize) -> bool {
        let is_part = |(part, by): &(usize, f64)| *part < parts && by.is_finite();
        self.of.iter().all(is_part) && self.u > 0.0 && self.u.is_finite()
    }
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
    /// Whether its likeliest part was measured on this visit (what was read makes it half as unsure, in squares, or better), or
    /// only assumed.
    pub is_measured: bool,
}

/// A check that separates two causes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check {
    /// Which, by its position among those that were offered.
    pub nth: usize,
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
    /// The logarithm of how likely what the routine said was, by what had been read: what weighs one ranking of it against another.
    pub log_fits: f64,
}

/// A cause that is as likely as this is named alone. Common practice, no source.
pub const SURE_FROM: f64 = 0.8;

/// A check after which two causes are mixed up as often as this separates nothing.
const SEPARATES_NOTHING: f64 = 0.45;

/// What there is, if one of them went wrong.
struct Supposed {
    /// By what was read alone, and by what the routine said too.
    log_read: f64,
    log_likely: f64,
    /// How far it is out then.
    out: Figure,
    /// Whether what was read tells of the one that went wrong.
    is_measured: bool,
}

/// Ranks what could explain a failed routine, by what was read and by what it said; with the best of the checks that could be made.
/// `None` if a figure makes no sense or nothing that may be out explains it at all.
///
/// The car was measured before and after and stood still, the bracket was not: the target seen 0.4° to the left is the bracket's.
///
/// ```
/// use baywright_survey::{causes::*, input::Figure};
/// let part = |cause| Part {
///     cause, left_per_unit: 1.0, up_per_unit: 0.0, usual: 0.0005, wrong: 0.005, often: 1.0,
/// };
/// let parts = [part(Cause::CarMoved), part(Cause::Bracket)];
/// let stood_still = [(Probe::of_part(0, 0.0005), 0.0002)];
/// let seen = Told::By(Figure { value: 0.4_f64.to_radians(), u: 0.0005 });
/// let said = Routine { sideways: seen, upright: Told::Fine, allowed: 0.002 };
/// let found = rank(&parts, &stood_still, &[], &said).unwrap();
/// assert_eq!(found.causes[0].cause, Cause::Bracket);
/// assert!(found.is_clear && found.causes[0].chance > 0.99);
/// ```
pub fn rank(parts: &[Part], read: &[(Probe, f64)], checks: &[Probe], routine: &Routine) -> Option<Ranking> {
    let count = parts.len();
    let are_sound = parts.iter().all(Part::is_sound)
        && read.iter().all(|(probe, value)| probe.is_sound(count) && value.is_finite())
        && checks.iter().all(|probe| probe.is_sound(count));
    if parts.is_empty() || count > MOST_PARTS || !are_sound || !routine.is_sound() {
        return None;
    }
    // What never goes wrong is not supposed to have.
    let base = Base::of(parts, read, routine);
    let supposed: Vec<Option<Supposed>> = (0..count)
        .map(|wrong| {
            let goes = parts.get(wrong).is_some_and(|part| part.often > 0.0);
            goes.then(|| base.suppose(wrong).0)
        })
        .collect();
    let all = || supposed.iter().flatten();
    let most = all().map(|one| one.log_likely).fold(f64::NEG_INFINITY, f64::max);
    if !most.is_finite() {
        return None;
    }
    let likely = |of: &Supposed| libm::exp(of.log_likely - most);
    let total: f64 = all().map(likely).sum();
    let mut causes: Vec<Ranked> = Vec::new();
    for (at, (part, one)) in parts.iter().zip(&supposed).enumerate() {
        let Some(one) = one else { continue };
        let chance = likely(one) / total;
        let own = Ranked { cause: part.cause, part: at, out: one.out, chance, is_measured: one.is_measured };
        match causes.iter_mut().find(|ranked| ranked.cause == part.cause) {
            Some(there) => {
                let sum = there.chance + chance;
                let before = supposed.get(there.part).and_then(Option::as_ref).map_or(0.0, likely) / total;
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
        [first, second, ..] => base.best_check(checks, [first.part, second.part]),
        _ => None,
    };
    // Of all that was read alone: what is common to both is no part of what the routine said.
    let most_read = all().map(|one| one.log_read).fold(f64::NEG_INFINITY, f64::max);
    let total_read: f64 = all().map(|one| libm::exp(one.log_read - most_read)).sum();
    let log_fits = most + libm::log(total) - most_read - libm::log(total_read);
    Some(Ranking { causes, is_clear, check, log_fits })
}

/// The check that separates two parts best, each supposed to have gone wrong; as [`Ranking::check`]. `None` too if a figure makes no
/// sense.
pub fn separates(
    parts: &[Part],
    read: &[(Probe, f64)],
    checks: &[Probe],
    routine: &Routine,
    two: [usize; 2],
) -> Option<Check> {
    let count = parts.len();
    let are_sound = parts.iter().all(Part::is_sound)
        && read.iter().all(|(probe, value)| probe.is_sound(count) && value.is_finite())
        && checks.iter().all(|probe| probe.is_sound(count))
        && two.iter().all(|part| *part < count);
    let is_sound = are_sound && count <= MOST_PARTS && routine.is_sound();
    is_sound.then(|| Base::of(parts, read, routine).best_check(checks, two)).flatten()
}

impl Part {
    fn is_sound(&self) -> bool {
        let is_size = |figure: f64| (0.0..f64::INFINITY).contains(&figure);
        self.left_per_unit.is_finite()
            && self.up_per_unit.is_finite()
            && [self.usual, self.wrong, self.often].into_iter().all(is_size)
    }
}

impl Routine {
    fn is_sound(&self) -> bool {
        let is = |told: &Told| !matches!(told, Told::By(said) if !(said.is_sound() && said.u > 0.0));
        is(&self.sideways) && is(&self.upright) && self.allowed > 0.0 && self.allowed.is_finite()
    }
}

/// All parts as they are as a rule, with what was read: what each supposition starts from, so that a reading is worked in once and not
/// once for each part.
struct Base<'a> {
    parts: &'a [Part],
    routine: &'a Routine,
    /// What each part's variance is before anything is read.
    before: Vec<f64>,
    together: Together,
    left: Vec<(usize, f64)>,
    up: Vec<(usize, f64)>,
    /// How likely what was read is if nothing went wrong.
    log_read: f64,
}

/// A part that is never out as a rule is out by this share of what it is when it went wrong, in squares: far below anything that is
/// read, and enough to be told from nothing.
const LEAST_USUAL: f64 = 1e-6;

impl<'a> Base<'a> {
    fn of(parts: &'a [Part], read: &[(Probe, f64)], routine: &'a Routine) -> Self {
        let own = |part: &Part| {
            let least = if part.often > 0.0 { LEAST_USUAL * part.wrong.powi(2) } else { 0.0 };
            part.usual.powi(2).max(least)
        };
        let before: Vec<f64> = parts.iter().map(own).collect();
        let mut together = Together::apart(&before);
        let log_read = read.iter().map(|(probe, value)| together.learn(&probe.of, *value, probe.u)).sum();
        let seen = |per_unit: fn(&Part) -> f64| {
            parts.iter().map(per_unit).enumerate().filter(|(_, by)| *by != 0.0).collect::<Vec<_>>()
        };
        let [left, up] = [seen(|part| part.left_per_unit), seen(|part| part.up_per_unit)];
        Self { parts, routine, before, together, left, up, log_read }
    }

    /// How likely all that is known would be, if this part went wrong; and what is known of all of them then.
    fn suppose(&self, wrong: usize) -> (Supposed, Together) {
        let Routine { sideways, upright, allowed } = *self.routine;
        let (often, more) = self.parts.get(wrong).map_or((0.0, 0.0), |part| (part.often, part.wrong.powi(2)));
        let before = self.before.get(wrong).copied().unwrap_or_default();
        let (mut together, log_more) = self.together.with_more(wrong, before, more);
        let log_read = libm::log(often) + self.log_read + log_more;
        let mut log_likely = log_read;
        let is_measured = together.of(&[(wrong, 1.0)]).1 < 0.5 * (before + more);
        // What it said in figures is one more reading of all parts together.
        for (told, of) in [(sideways, &self.left), (upright, &self.up)] {
            if let Told::By(Figure { value, u }) = told {
                log_likely += together.learn(of, value, u);
            }
        }
        let [across, over] = [sideways, upright].map(|told| match told {
            Told::Nothing | Told::By(_) => Range::ALL,
            Told::Fine => Range::within(allowed),
            Told::Above => Range::above(allowed),
            Told::Below => Range::below(-allowed),
        });
        let [(x, xx), (y, yy)] = [&self.left, &self.up].map(|of| together.of(of));
        let pair = Pair { mean: [x, y], variance: [xx, yy], common: together.common(&self.left, &self.up) };
        let is_told = |told: Told| matches!(told, Told::Above | Told::Below | Told::By(_));
        let region = if is_told(sideways) || is_told(upright) {
            pair.chance(across, over)
        } else {
            // It failed, so not both are fine.
            let fine = Range::within(allowed);
            pair.chance(across, over) - pair.chance(fine, fine)
        };
        log_likely += libm::log(region.max(f64::MIN_POSITIVE));
        let (value, variance) = together.of(&[(wrong, 1.0)]);
        (Supposed { log_read, log_likely, out: Figure { value, u: variance.sqrt() }, is_measured }, together)
    }

    fn best_check(&self, checks: &[Probe], [first, second]: [usize; 2]) -> Option<Check> {
        best_check(checks, &self.suppose(first).1, &self.suppose(second).1)
    }
}

/// Of a normal figure about nothing.
fn log_density(off: f64, variance: f64) -> f64 {
    if variance > 0.0 { -0.5 * (off * off / variance + libm::log(variance)) } else { f64::NEG_INFINITY }
}

/// The check after which two suppositions are mixed up the least, by Bhattacharyya's bound: ½·exp(−D) (from memory).
fn best_check(checks: &[Probe], first: &Together, second: &Together) -> Option<Check> {
    let each = checks.iter().enumerate().map(|(nth, probe)| {
        let of = |one: &Together| {
            let (mean, variance) = one.of(&probe.of);
            (mean, variance + probe.u * probe.u)
        };
        let ((m, s), (n, t)) = (of(first), of(second));
        let apart = 0.25 * (m - n) * (m - n) / (s + t) + 0.5 * libm::log((s + t) / (2.0 * (s * t).sqrt()));
        Check { nth, mixed_up: 0.5 * libm::exp(-apart) }
    });
    let best = each.min_by(|a, b| a.mixed_up.total_cmp(&b.mixed_up).then(a.nth.cmp(&b.nth)))?;
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

    const fn part(cause: Cause, wrong: f64) -> Part {
        Part { cause, left_per_unit: 1.0, up_per_unit: 0.0, usual: 1.0, wrong, often: 1.0 }
    }

    const fn said(sideways: Told, upright: Told) -> Routine {
        Routine { sideways, upright, allowed: 2.0 }
    }

    /// By hand: two parts of variance 1, one of which went wrong by 3: what is seen has variance 1 + 1 + 9 either way, so both
    /// are as likely, twice as often makes it twice as likely.
    #[test]
    fn what_tells_nothing_leaves_the_priors() {
        let (a, mut b) = (part(Cause::Mark, 3.0), part(Cause::Bracket, 3.0));
        b.often = 2.0;
        for sideways in [Told::Nothing, Told::Above, Told::By(Figure { value: 5.0, u: 0.1 })] {
            let found = rank(&[a, b], &[], &[], &said(sideways, Told::Nothing)).unwrap();
            assert_eq!(found.causes[0].cause, Cause::Bracket);
            assert!((found.causes[0].chance - 2.0 / 3.0).abs() < 1e-9, "{found:?}");
            assert!(!found.is_clear && !found.causes[0].is_measured);
        }
    }

    /// By hand: a reading of 0 with u 1 of the first: N(0; 0, 1 + 9 + 1) against N(0; 0, 1 + 1) for the read, and what is seen,
    /// 6, is N(6; 0, 10/11 + 1) against N(6; 0, 1/2 + 10) (without the routine's own u, next to nothing).
    #[test]
    fn a_reading_clears_what_it_read() {
        let parts = [part(Cause::CarMoved, 3.0), part(Cause::Bracket, 3.0)];
        let still = [(Probe::of_part(0, 1.0), 0.0)];
        let by = Told::By(Figure { value: 6.0, u: 1e-6 });
        let found = rank(&parts, &still, &[], &said(by, Told::Nothing)).unwrap();
        let density = |off: f64, variance: f64| libm::exp(-0.5 * off * off / variance) / variance.sqrt();
        let (moved, bent) =
            (density(0.0, 11.0) * density(6.0, 10.0 / 11.0 + 1.0), density(0.0, 2.0) * density(6.0, 10.5));
        assert_eq!(found.causes[0].cause, Cause::Bracket);
        assert!((found.causes[0].chance - bent / (bent + moved)).abs() < 1e-9);
        // How far it is out: 6 shared between 10 and ½ of variance.
        assert!((found.causes[0].out.value - 6.0 * 10.0 / 10.5).abs() < 1e-6);
        assert!(!found.causes[0].is_measured && found.causes[1].is_measured);
    }

    /// What is read of the difference of two marks cannot say which of them it was: each is half, and what is seen decides.
    #[test]
    fn a_reading_of_two_at_once_leaves_both() {
        let mut still = part(Cause::Stand, 3.0);
        still.left_per_unit = 0.0;
        let parts = [part(Cause::Mark, 3.0), still, part(Cause::Bracket, 3.0)];
        let apart = [(Probe { of: vec![(0, 1.0), (1, -1.0)], u: 0.1 }, 9.0)];
        let unsaid = rank(&parts, &apart, &[], &said(Told::Nothing, Told::Fine)).unwrap();
        let chance = |found: &Ranking, cause| {
            found.causes.iter().find(|own| own.cause == cause).map_or(0.0, |own| own.chance)
        };
        assert!(chance(&unsaid, Cause::Bracket) < 0.01, "{unsaid:?}");
        assert!(chance(&unsaid, Cause::Stand) > 0.01, "{unsaid:?}");
        let by = Told::By(Figure { value: 9.0, u: 0.1 });
        let found = rank(&parts, &apart, &[], &said(by, Told::Fine)).unwrap();
        assert!(found.causes[0].cause == Cause::Mark && found.is_clear, "{found:?}");
        assert!((found.causes[0].out.value - 9.0).abs() < 1.0 && found.causes[0].is_measured);
    }

    /// Of a part that nothing shows, the check is the one that tells: the bracket cannot be checked, the car can.
    #[test]
    fn the_check_is_of_what_differs() {
        let parts = [part(Cause::Mark, 0.0), part(Cause::CarMoved, 3.0), part(Cause::Bracket, 3.0)];
        let by = Told::By(Figure { value: 8.0, u: 0.5 });
        let checks = [Probe::of_part(0, 1.0), Probe::of_part(1, 1.0)];
        let found = rank(&parts, &[], &checks, &said(by, Told::Fine)).unwrap();
        let check = found.check.unwrap();
        assert!(check.nth == 1 && check.mixed_up < 0.1, "{check:?}");
        assert_eq!(rank(&parts, &[], &checks[..1], &said(by, Told::Fine)).unwrap().check, None);
    }

    /// A way of its own to the same: each part supposed from nothing on, every reading worked in anew.
    #[test]
    fn readings_worked_in_once_say_the_same_as_worked_in_for_each() {
        let mut parts: Vec<Part> = (0..7).map(|at| part(Cause::Mark, 2.0 + f64::from(at))).collect();
        for (at, own) in parts.iter_mut().enumerate() {
            own.usual = 0.3 + 0.2 * at as f64;
            own.left_per_unit = 1.0 - 0.25 * at as f64;
            own.cause = [Cause::Mark, Cause::Floor, Cause::CarMoved, Cause::Stand][at % 4];
        }
        let read: Vec<(Probe, f64)> = (0..9)
            .map(|at: usize| {
                let of = vec![(at % 7, 1.0), ((2 * at + 3) % 7, -0.7)];
                (Probe { of, u: 0.4 }, if at.is_multiple_of(3) { 2.5 } else { -0.2 })
            })
            .collect();
        let routine = said(Told::By(Figure { value: 4.0, u: 0.5 }), Told::Nothing);
        let slow = |parts: &[Part], wrong: usize| {
            let own = |at: usize, part: &Part| {
                part.usual.powi(2) + if at == wrong { part.wrong.powi(2) } else { 0.0 }
            };
            let before: Vec<f64> = parts.iter().enumerate().map(|(at, part)| own(at, part)).collect();
            let mut together = Together::apart(&before);
            let mut likely = 0.0;
            for (probe, value) in &read {
                likely += together.learn(&probe.of, *value, probe.u);
            }
            let left: Vec<(usize, f64)> = parts.iter().map(|own| own.left_per_unit).enumerate().collect();
            likely += together.learn(&left, 4.0, 0.5);
            (likely, together.of(&[(wrong, 1.0)]))
        };
        // A part that is never out as a rule is a little: it may move the others by as much.
        for (usual, within) in [(0.9, 1e-9), (0.0, 0.02)] {
            parts[3].usual = usual;
            let base = Base::of(&parts, &read, &routine);
            let fast: Vec<Supposed> = (0..7).map(|wrong| base.suppose(wrong).0).collect();
            for (wrong, own) in fast.iter().enumerate() {
                let ((likely, (out, variance)), first) = (slow(&parts, wrong), slow(&parts, 0).0);
                let off = own.log_likely - fast[0].log_likely - (likely - first);
                assert!(off.abs() < within, "{wrong}: {off}");
                assert!(
                    (own.out.value - out).abs() < within && (own.out.u - variance.sqrt()).abs() < within,
                    "{wrong}"
                );
            }
        }
    }

    /// A hundred steps and two hundred readings of them are ranked while one waits for a tape to be rolled up.
    #[test]
    fn a_long_plan_is_ranked_in_bounded_time() {
        let parts: Vec<Part> = (0..230).map(|at| part(Cause::Mark, 2.0 + f64::from(at % 5))).collect();
        let probe = |at: usize| Probe { of: (0..120).map(|own| ((own + at) % 230, 0.5)).collect(), u: 0.4 };
        let read: Vec<(Probe, f64)> = (0..200).map(|at| (probe(at), 0.1)).collect();
        let checks: Vec<Probe> = (0..2_000).map(probe).collect();
        let routine = said(Told::Above, Told::Nothing);
        let start = std::time::Instant::now();
        assert!(rank(&parts, &read, &checks, &routine).is_some());
        assert!(start.elapsed() < std::time::Duration::from_secs(20), "{:?}", start.elapsed());
    }

    /// Two rankings of one routine: what it said is likelier where less has to be out for it, and what was read counts on neither side.
    #[test]
    fn what_fits_better_weighs_more() {
        let routine = said(Told::By(Figure { value: 6.0, u: 0.5 }), Told::Fine);
        let fits = |wrong: f64| {
            rank(&[part(Cause::Mark, wrong), part(Cause::Bracket, wrong)], &[], &[], &routine)
                .unwrap()
                .log_fits
        };
        assert!(fits(6.0) > fits(0.5) + 1.0, "{} {}", fits(6.0), fits(0.5));
        // By hand: N(6; 0, 1 + 1 + 36 + 0.25), but for what is the same of all.
        let by_hand = |variance: f64| -0.5 * (36.0 / variance + libm::log(variance));
        assert!((fits(6.0) - by_hand(38.25)).abs() < 1e-6);
    }

    #[test]
    fn what_makes_no_sense_has_no_ranking() {
        let routine = Routine { sideways: Told::Nothing, upright: Told::Nothing, allowed: 1.0 };
        let good = part(Cause::Mark, 3.0);
        let of = |part: Part, routine: &Routine| rank(&[part], &[], &[], routine);
        assert!(of(good, &routine).is_some());
        assert_eq!(rank(&[], &[], &[], &routine), None);
        assert_eq!(of(Part { usual: f64::NAN, ..good }, &routine), None);
        assert_eq!(of(Part { often: 0.0, ..good }, &routine), None);
        assert_eq!(of(good, &Routine { allowed: 0.0, ..routine }), None);
        let bad = Told::By(Figure { value: f64::NAN, u: 1.0 });
        assert_eq!(of(good, &Routine { upright: bad, ..routine }), None);
        for probe in [Probe::of_part(1, 1.0), Probe::of_part(0, 0.0)] {
            assert_eq!(rank(&[good], &[], std::slice::from_ref(&probe), &routine), None);
            assert_eq!(rank(&[good], &[(probe, 1.0)], &[], &routine), None);
        }
        assert_eq!(rank(&[good], &[(Probe::of_part(0, 1.0), f64::NAN)], &[], &routine), None);
    }
}
