//! How far an echo that the sensor cannot tell from the target pulls the bearing that it measures.
//!
//! Both add up as waves: for one echo of amplitude `g` beside a target of 1, `Δ` aside and `φ` apart in phase, a bearing taken in
//! the linear part of the beam is drawn by Re(g e^jφ Δ / (1 + g e^jφ)) = Δ (g² + g cos φ) / (1 + g² + 2 g cos φ). Worst is φ = π,
//! where it is -g/(1 - g) Δ, away from the echo. (From memory; it follows from the sum of the two phasors, and a simulated chirp
//! and array with bearings by phase monopulse and by a beam scan agree: `tests/pull.rs`.) Valid within one range cell and for
//! separations that are small beside the beam; larger ones pull less than this says, as the beam is not linear any more. The phase
//! turns once around in half a wavelength of path (1.9 mm at 77 GHz), so that the worst case is what to reckon with.
//!
//! Angles are radians, positive in the direction in which `Δ` is; levels dB against the target's.

use crate::level::Band;

/// From here on an echo is near enough to the target's own level for a routine to take it for the target: about -6 dB, where the
/// pull is as large as the separation itself (common practice, no source).
pub const MAY_TAKE_DB: f64 = -6.0;

/// The ratio of amplitudes of a level in dB: 0.501 for -6 dB.
pub fn amplitude(level_db: f64) -> f64 {
    libm::pow(10.0, level_db / 20.0)
}

/// An echo beside the target that the sensor cannot tell from it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unresolved {
    /// Its amplitude over the target's, at least 0.
    pub amplitude: f64,
    /// How far aside of the target it lies, radians.
    pub apart: f64,
}

/// How far the bearing may be drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pull {
    /// No less and no more than this, radians: the worst to either side.
    Within {
        /// At or below 0.
        least: f64,
        /// At or above 0.
        most: f64,
    },
    /// As far as one likes: the echoes may cancel the target.
    NoBound,
}

impl Pull {
    /// The largest of both sides, radians; endless without a bound.
    pub fn worst(&self) -> f64 {
        match self {
            Self::Within { least, most } => most.max(-least),
            Self::NoBound => f64::INFINITY,
        }
    }
}

/// What an echo may do to the aim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Effect {
    /// It is too weak to be taken for the target; it draws the bearing by at most this.
    Pulls(Pull),
    /// It may be taken for the target: no number of degrees says how bad that is.
    MayBeTaken {
        /// Whether it is as strong as that for all that its level may be.
        is_sure: bool,
    },
}

/// The pull at one phase, radians, exactly: several echoes at once, each with its phase against the target's (radians). `None`
/// where all of them together cancel the target, or a figure is none.
pub fn at_phases(echoes: impl IntoIterator<Item = (Unresolved, f64)>) -> Option<f64> {
    let (mut drawn, mut sum) = ([0.0, 0.0], [1.0, 0.0]);
    for (echo, phase) in echoes {
        let (sin, cos) = libm::sincos(phase);
        let (re, im) = (echo.amplitude * cos, echo.amplitude * sin);
        drawn = [drawn[0] + re * echo.apart, drawn[1] + im * echo.apart];
        sum = [sum[0] + re, sum[1] + im];
    }
    let power = sum[0] * sum[0] + sum[1] * sum[1];
    let pull = (drawn[0] * sum[0] + drawn[1] * sum[1]) / power;
    pull.is_finite().then_some(pull)
}

/// How far one echo may draw the bearing, over all phases: from -g/(1 - g) Δ to g/(1 + g) Δ. No bound from equal levels on, and for
/// figures that are none.
pub fn alone(echo: &Unresolved) -> Pull {
    let g = echo.amplitude;
    if !((0.0..1.0).contains(&g) && echo.apart.is_finite()) {
        return Pull::NoBound;
    }
    let (away, towards) = (-g / (1.0 - g) * echo.apart, g / (1.0 + g) * echo.apart);
    Pull::Within { least: away.min(towards), most: away.max(towards) }
}

/// How far several echoes may draw the bearing together, over all phases: at most Σ gΔ / (1 - Σ g), as no sum of phasors is longer
/// than its parts nor shorter than 1 less them. The bound of one of them is [`alone`]'s; that of several is reached only if all lie
/// on one side. No bound if their amplitudes add up to the target's.
pub fn together(echoes: &[Unresolved]) -> Pull {
    if let [only] = echoes {
        return alone(only);
    }
    let sum: f64 = echoes.iter().map(|echo| echo.amplitude).sum();
    let drawn: f64 = echoes.iter().map(|echo| echo.amplitude * echo.apart.abs()).sum();
    if !(sum < 1.0 && drawn.is_finite() && echoes.iter().all(|echo| echo.amplitude >= 0.0)) {
        return Pull::NoBound;
    }
    let most = drawn / (1.0 - sum);
    Pull::Within { least: -most, most }
}

/// What an echo of this level, so far aside, may do: by the most that its level may be.
pub fn effect(level_db: Band, apart: f64) -> Effect {
    if level_db.high() >= MAY_TAKE_DB {
        return Effect::MayBeTaken { is_sure: level_db.low() >= MAY_TAKE_DB };
    }
    Effect::Pulls(alone(&Unresolved { amplitude: amplitude(level_db.high()), apart }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn echo(level_db: f64, apart: f64) -> Unresolved {
        Unresolved { amplitude: amplitude(level_db), apart }
    }

    /// references (computed): worst -0.111 Δ, -0.462 Δ, -1.005 Δ at -20, -10, -6 dB.
    #[test]
    fn the_worst_of_one_echo() {
        for (level, expected) in [(-20.0, -0.111), (-10.0, -0.462), (-6.0, -1.005)] {
            let Pull::Within { least, most } = alone(&echo(level, 1.0)) else { panic!("{level}") };
            assert!((least - expected).abs() < 5e-4, "{level}: {least}");
            assert!((at_phases([(echo(level, 1.0), PI)]).unwrap() - least).abs() < 1e-12);
            assert!((at_phases([(echo(level, 1.0), 0.0)]).unwrap() - most).abs() < 1e-12);
        }
        let mirrored = alone(&echo(-10.0, -2.0));
        assert!(matches!(mirrored, Pull::Within { most, .. } if (most - 0.925).abs() < 1e-3), "{mirrored:?}");
        assert_eq!(alone(&echo(0.0, 1.0)), Pull::NoBound);
        assert_eq!(alone(&echo(f64::NAN, 1.0)), Pull::NoBound);
        assert_eq!(alone(&echo(-20.0, f64::NAN)), Pull::NoBound);
        // Where both cancel to the last bit there is no bearing at all.
        assert_eq!(at_phases([(Unresolved { amplitude: 1.0, apart: f64::INFINITY }, PI)]), None);
        assert_eq!(at_phases([(echo(-10.0, f64::NAN), 0.0)]), None);
    }

    #[test]
    fn from_about_six_decibels_on_it_may_be_taken_for_the_target() {
        let band = |low, high| Band::between(low, high).unwrap();
        assert_eq!(effect(band(-12.0, -5.0), 0.1), Effect::MayBeTaken { is_sure: false });
        assert_eq!(effect(band(-6.0, 3.0), 0.1), Effect::MayBeTaken { is_sure: true });
        let Effect::Pulls(pull) = effect(band(-40.0, -10.0), 0.1) else { panic!() };
        assert!((pull.worst() - 0.0462).abs() < 1e-4);
        let Effect::Pulls(none) = effect(band(f64::NEG_INFINITY, f64::NEG_INFINITY), 0.1) else { panic!() };
        assert_eq!(none.worst(), 0.0);
    }

    #[test]
    fn no_more_than_equal_amplitudes_together() {
        let three = [echo(-10.0, 0.1); 3];
        assert!(
            matches!(together(&three), Pull::Within { most, .. } if most > 0.5),
            "{:?}",
            together(&three)
        );
        assert_eq!(together(&[echo(-10.0, 0.1); 4]), Pull::NoBound);
        assert_eq!(together(&[]), Pull::Within { least: -0.0, most: 0.0 });
        assert_eq!(together(&[Unresolved { amplitude: -3.0, apart: 0.1 }, echo(-3.0, 0.1)]), Pull::NoBound);
    }
}
