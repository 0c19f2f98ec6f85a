//! Two normal figures that go together, and how likely both lie in their ranges.

use super::within;

/// So many strips: the chance is good to six digits.
const STRIPS: usize = 96;
/// How many standard deviations count.
const REACH: f64 = 8.0;

/// From here to there; either may be endless.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Range {
    pub low: f64,
    pub high: f64,
}

impl Range {
    pub const ALL: Self = Self { low: f64::NEG_INFINITY, high: f64::INFINITY };

    pub const fn within(of: f64) -> Self {
        Self { low: -of, high: of }
    }

    pub const fn above(of: f64) -> Self {
        Self { low: of, ..Self::ALL }
    }

    pub const fn below(of: f64) -> Self {
        Self { high: of, ..Self::ALL }
    }
}

/// How far to the left and how far up, with their variances and what they have in common.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pair {
    pub mean: [f64; 2],
    pub variance: [f64; 2],
    pub common: f64,
}

impl Pair {
    /// The chance that both lie in their ranges: strips across the first (Simpson), in each the second as it follows it.
    pub fn chance(&self, sideways: Range, upright: Range) -> f64 {
        let ([x, y], [xx, yy]) = (self.mean, self.variance);
        if sideways == Range::ALL {
            return within(y, yy, upright);
        }
        if upright == Range::ALL || xx <= 0.0 {
            return within(x, xx, sideways) * within(y, yy, upright);
        }
        let u = xx.sqrt();
        let from = ((sideways.low - x) / u).max(-REACH);
        let to = ((sideways.high - x) / u).min(REACH);
        if from >= to {
            return within(x, xx, sideways) * within(y, yy, upright);
        }
        let slope = self.common / xx;
        let rest = (yy - self.common * slope).max(0.0);
        let step = (to - from) / STRIPS as f64;
        let at = |nth: usize| {
            let z = from + step * nth as f64;
            libm::exp(-0.5 * z * z) * within(y + slope * u * z, rest, upright)
        };
        let weight = |nth: usize| match nth {
            0 | STRIPS => 1.0,
            odd if odd % 2 == 1 => 4.0,
            _ => 2.0,
        };
        let sum: f64 = (0..=STRIPS).map(|nth| weight(nth) * at(nth)).sum();
        sum * step / 3.0 / std::f64::consts::TAU.sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Both above their means: ¼ + asin(r) / 2π, a closed form; and figures that have nothing in common multiply.
    #[test]
    fn a_quadrant_and_a_box() {
        for r in [0.0_f64, 0.3, 0.7, -0.6] {
            // One thing turns both, one only the second.
            let pair = Pair { mean: [2.0, 1.0 + r], variance: [4.0, 1.0], common: 2.0 * r };
            let found = pair.chance(Range::above(2.0), Range::above(1.0 + r));
            let expected = 0.25 + libm::asin(r) / std::f64::consts::TAU;
            assert!((found - expected).abs() < 1e-6, "{r}: {found} {expected}");
            assert!((pair.chance(Range::ALL, Range::ALL) - 1.0).abs() < 1e-9);
        }
        let pair = Pair { mean: [0.0; 2], variance: [1.0; 2], common: 0.0 };
        let one = within(0.0, 1.0, Range::within(1.0));
        assert!((one - 0.682_689_492).abs() < 1e-8);
        assert!((pair.chance(Range::within(1.0), Range::within(1.0)) - one * one).abs() < 1e-6);
        assert!(pair.chance(Range::above(6.0), Range::within(1.0)) > 0.0);
    }
}
