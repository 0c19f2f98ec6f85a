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
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub(super) struct Pair {
    mean: [f64; 2],
    variance: [f64; 2],
    common: f64,
}

impl Pair {
    /// One thing more that turns both.
    pub fn add(&mut self, mean: f64, variance: f64, (left, up): (f64, f64)) {
        let ([x, y], [xx, yy]) = (self.mean, self.variance);
        self.mean = [x + left * mean, y + up * mean];
        self.variance = [xx + left * left * variance, yy + up * up * variance];
        self.common += left * up * variance;
    }

    /// One of both alone.
    pub const fn one(&self, is_up: bool) -> (f64, f64) {
        let ([x, y], [xx, yy]) = (self.mean, self.variance);
        if is_up { (y, yy) } else { (x, xx) }
    }

    /// One of both was read.
    pub fn learn(&mut self, is_up: bool, value: f64, u: f64) {
        let (mean, variance) = self.one(is_up);
        let (both, off) = (variance + u * u, value - mean);
        let ([x, y], [xx, yy]) = (self.mean, self.variance);
        let (own, other) = (variance / both, self.common / both);
        let less = self.common * self.common / both;
        if is_up {
            (self.mean, self.variance) =
                ([x + other * off, y + own * off], [(xx - less).max(0.0), yy * (1.0 - own)]);
        } else {
            (self.mean, self.variance) =
                ([x + own * off, y + other * off], [xx * (1.0 - own), (yy - less).max(0.0)]);
        }
        self.common *= 1.0 - own;
    }

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
            let mut pair = Pair::default();
            // One thing turns both, one only the second.
            pair.add(2.0, 4.0, (1.0, 0.5 * r));
            pair.add(1.0, 1.0 - r * r, (0.0, 1.0));
            let found = pair.chance(Range::above(2.0), Range::above(1.0 + r));
            let expected = 0.25 + libm::asin(r) / std::f64::consts::TAU;
            assert!((found - expected).abs() < 1e-6, "{r}: {found} {expected}");
            assert!((pair.chance(Range::ALL, Range::ALL) - 1.0).abs() < 1e-9);
        }
        let mut pair = Pair::default();
        pair.add(0.0, 1.0, (1.0, 0.0));
        pair.add(0.0, 1.0, (0.0, 1.0));
        let one = within(0.0, 1.0, Range::within(1.0));
        assert!((one - 0.682_689_492).abs() < 1e-8);
        assert!((pair.chance(Range::within(1.0), Range::within(1.0)) - one * one).abs() < 1e-6);
        assert!(pair.chance(Range::above(6.0), Range::within(1.0)) > 0.0);
    }

    /// The best estimate from two that go together.
    #[test]
    fn what_is_read_of_one_tells_of_the_other() {
        let mut pair = Pair::default();
        pair.add(0.0, 4.0, (1.0, 1.0));
        pair.add(0.0, 1.0, (0.0, 1.0));
        pair.learn(false, 3.0, 0.0);
        assert_eq!((pair.one(false), pair.one(true)), ((3.0, 0.0), (3.0, 1.0)));
    }
}
