//! What a figure with its uncertainty says against an allowance (JCGM 106, guarded acceptance): inside, outside, or that it cannot
//! be said.

use crate::chances::{K95, chi_squared_beyond, normal};

/// By which rule it is decided; told with every result.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Rule {
    /// Inside when all of the 95 % interval is, outside when none of it is (JCGM 106, 8.3.2, with the guard band U).
    #[default]
    Guarded,
}

/// What can be said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Said {
    /// |b| + U ≤ T, with so much to spare.
    Inside {
        /// T − |b| − U, not negative.
        to_spare: f64,
    },
    /// |b| − U > T, by so much.
    Outside {
        /// |b| − U − T, above nothing.
        by: f64,
    },
    /// Neither.
    CannotSay {
        /// By how much the uncertainty would have to fall for it to be inside; `None` if it is out itself.
        less_u: Option<f64>,
    },
    /// A figure is no number, or an uncertainty or an allowance is negative.
    NoFigure,
}

/// Decides about a deviation `b` with expanded uncertainty `u95` against an allowance either way, all in one unit.
///
/// ```
/// use baywright_survey::decide::{Rule, Said, decide};
/// assert!(matches!(decide(0.03, 0.05, 0.10, Rule::Guarded), Said::Inside { to_spare } if (to_spare - 0.02).abs() < 1e-12));
/// assert!(matches!(decide(0.06, 0.05, 0.10, Rule::Guarded), Said::CannotSay { .. }));
/// assert!(matches!(decide(-0.16, 0.05, 0.10, Rule::Guarded), Said::Outside { .. }));
/// ```
pub fn decide(b: f64, u95: f64, allowed: f64, rule: Rule) -> Said {
    let Rule::Guarded = rule;
    if !(b.is_finite() && (0.0..f64::INFINITY).contains(&u95) && (0.0..f64::INFINITY).contains(&allowed)) {
        return Said::NoFigure;
    }
    let off = b.abs();
    if off + u95 <= allowed {
        // The difference of figures that add up to the allowance may round below nothing.
        Said::Inside { to_spare: (allowed - off - u95).max(0.0) }
    } else if off - u95 > allowed {
        Said::Outside { by: off - u95 - allowed }
    } else {
        Said::CannotSay { less_u: (off <= allowed).then_some(off + u95 - allowed) }
    }
}

/// The chance that a normal figure lies between two limits (JCGM 106, 7.2.2); for those who want to see it. Not a decision.
pub fn chance_within(at: f64, u: f64, low: f64, high: f64) -> f64 {
    normal((high - at) / u) - normal((low - at) / u)
}

/// Whether two readings of one thing, at the start and at the end, differ by more than their uncertainties let them (95 %): the
/// car has moved. `None` if a figure is no number.
pub fn has_changed(start: f64, end: f64, u_each: f64) -> Option<bool> {
    let is_sound = start.is_finite() && end.is_finite() && u_each >= 0.0;
    is_sound.then(|| (end - start).abs() > K95 * std::f64::consts::SQRT_2 * u_each)
}

/// Whether a car has moved, by some distances each taped at the start and at the end to `u_each`: all their changes together are
/// beyond what they would be by chance once in twenty times (χ²). It tells a small move of the whole car better than each
/// distance alone. `None` without a distance or if a figure is no number.
///
/// ```
/// use baywright_survey::decide::has_moved;
/// // Each changed by 1.8 standard deviations of a change: by itself either may be chance, both together are not.
/// let by = 1.8 * 2.0_f64.sqrt();
/// assert_eq!(has_moved(&[(3000.0, 3000.0 + by), (2500.0, 2500.0 - by)], 1.0), Some(true));
/// assert_eq!(has_moved(&[(3000.0, 3000.0 + by), (2500.0, 2500.0)], 1.0), Some(false));
/// ```
pub fn has_moved(taped: &[(f64, f64)], u_each: f64) -> Option<bool> {
    let squares: f64 = taped.iter().map(|(start, end)| (end - start) * (end - start)).sum();
    let is_sound = !taped.is_empty() && squares.is_finite() && u_each > 0.0 && u_each.is_finite();
    let limit = chi_squared_beyond(0.05, taped.len() as f64);
    is_sound.then(|| squares / (2.0 * u_each * u_each) > limit)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// JCGM 106, 7.3.4: a breakdown voltage of -5.47 V, u 0.05 V, against at most -5.40 V conforms with 0.92; table 1: the guard
    /// bands in u that make 0.80, 0.85, 0.90, 0.95, 0.99, 0.999 are 0.84, 1.04, 1.28, 1.64, 2.33, 3.09 (from memory).
    #[test]
    fn published_chances() {
        let chance = chance_within(-5.47, 0.05, f64::NEG_INFINITY, -5.40);
        assert!((chance - 0.92).abs() < 0.005, "{chance}");
        for (chance, guard) in
            [(0.80, 0.84), (0.85, 1.04), (0.90, 1.28), (0.95, 1.64), (0.99, 2.33), (0.999, 3.09)]
        {
            assert!((chance_within(-guard, 1.0, f64::NEG_INFINITY, 0.0) - chance).abs() < 0.002);
        }
    }

    /// ISO 14253-1's zones, by hand: ±0.10 with U 0.05 accepts to 0.05 and rejects beyond 0.15.
    #[test]
    fn the_zones_meet_and_touching_is_inside() {
        let said = |b| decide(b, 0.5, 1.0, Rule::Guarded);
        assert_eq!(said(0.5), Said::Inside { to_spare: 0.0 });
        assert_eq!(said(-0.75), Said::CannotSay { less_u: Some(0.25) });
        assert_eq!(said(1.5), Said::CannotSay { less_u: None });
        assert_eq!(said(-1.75), Said::Outside { by: 0.25 });
        assert_eq!(decide(0.0, 2.0, 1.0, Rule::Guarded), Said::CannotSay { less_u: Some(1.0) });
        for bad in
            [(f64::NAN, 0.0, 1.0), (0.0, -1.0, 1.0), (0.0, 0.0, f64::INFINITY), (f64::INFINITY, 0.0, 1.0)]
        {
            assert_eq!(decide(bad.0, bad.1, bad.2, Rule::Guarded), Said::NoFigure);
        }
    }

    #[test]
    fn a_car_that_moved() {
        assert_eq!(has_changed(3000.0, 3002.0, 1.0), Some(false));
        assert_eq!(has_changed(3000.0, 3003.0, 1.0), Some(true));
        assert_eq!(has_changed(f64::NAN, 3003.0, 1.0), None);
        assert_eq!((has_moved(&[], 1.0), has_moved(&[(1.0, f64::NAN)], 1.0)), (None, None));
    }

    proptest! {
        /// Inside means that every value within U is; outside that none is.
        #[test]
        fn what_is_said_is_true(b in -3.0..3.0f64, u in 0.0..2.0f64, allowed in 0.0..2.0f64, at in -1.0..1.0f64) {
            let value = b + at * u;
            match decide(b, u, allowed, Rule::Guarded) {
                Said::Inside { to_spare } => prop_assert!(value.abs() <= allowed + 1e-12 && to_spare >= 0.0),
                Said::Outside { by } => prop_assert!(value.abs() > allowed - 1e-12 && by > 0.0),
                Said::CannotSay { less_u } => prop_assert_eq!(less_u.is_some(), b.abs() <= allowed),
                Said::NoFigure => prop_assert!(false),
            }
        }
    }
}
