//! How far several parts are out, together: what reads of more than one of them makes them go together.

use super::log_density;
use crate::matrix::Matrix;

/// Means and their covariance.
#[derive(Clone, Debug)]
pub(super) struct Together {
    mean: Vec<f64>,
    covariance: Matrix,
}

/// Some of the parts, and how much of each.
type Of = [(usize, f64)];

impl Together {
    /// Each by itself about nothing, with these variances.
    pub fn apart(variances: &[f64]) -> Self {
        Self { mean: vec![0.0; variances.len()], covariance: Matrix::diagonal(variances) }
    }

    /// So much of the parts, added: mean and variance.
    pub fn of(&self, of: &Of) -> (f64, f64) {
        let mean = of.iter().map(|(part, by)| by * self.mean.get(*part).copied().unwrap_or_default()).sum();
        (mean, self.common(of, of).max(0.0))
    }

    /// What two such sums have in common.
    pub fn common(&self, one: &Of, other: &Of) -> f64 {
        let row = |(part, by): &(usize, f64)| {
            by * other.iter().map(|(other, of)| of * self.covariance.at(*part, *other)).sum::<f64>()
        };
        one.iter().map(row).sum()
    }

    /// The same as if one of them had had so much more variance before anything was read, where it had `before`, which is not 0: what was
    /// read need not be worked in again. With the logarithm of how much likelier what was read is then.
    pub fn with_more(&self, part: usize, before: f64, more: f64) -> (Self, f64) {
        let mean = self.mean.get(part).copied().unwrap_or_default();
        let variance = self.covariance.at(part, part);
        if !(before > 0.0 && more > 0.0) {
            return (self.clone(), 0.0);
        }
        // Its own weight is less by so much; what the readings say of it stays.
        let less = more / (before * (before + more));
        let left = (1.0 - less * variance).max(f64::MIN_POSITIVE);
        let size = self.mean.len();
        let pulls: Vec<f64> = (0..size).map(|own| self.covariance.at(own, part)).collect();
        let pull = |own: usize| pulls.get(own).copied().unwrap_or_default();
        let moved =
            self.mean.iter().enumerate().map(|(at, own)| own + pull(at) * less * mean / left).collect();
        let covariance =
            Matrix::of(size, size, |a, b| self.covariance.at(a, b) + pull(a) * pull(b) * less / left);
        // What the readings say of it by themselves: how much, and which way.
        let (tells, way) = ((before - variance) / (before * before), mean / before);
        let wider = 1.0 + more * tells;
        let likelier = 0.5 * (more * way * way / wider - libm::log(wider));
        (Self { mean: moved, covariance }, likelier)
    }

    /// Such a sum was read as this, so surely: the logarithm of how likely that was (but for what is the same of all).
    pub fn learn(&mut self, of: &Of, value: f64, u: f64) -> f64 {
        let size = self.mean.len();
        let pulls: Vec<f64> = (0..size)
            .map(|part| of.iter().map(|(other, by)| by * self.covariance.at(part, *other)).sum())
            .collect();
        let (mean, variance) = self.of(of);
        let (off, both) = (value - mean, variance + u * u);
        for (own, pull) in self.mean.iter_mut().zip(&pulls) {
            *own += pull * off / both;
        }
        let cell = |at: usize| pulls.get(at).copied().unwrap_or_default();
        self.covariance = Matrix::of(size, size, |a, b| self.covariance.at(a, b) - cell(a) * cell(b) / both);
        log_density(off, both)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: x and y of variance 4 and 1; their sum is read as 3 without doubt: x is 3·4/5, y 3·1/5, and what is left of each
    /// is 4/5, the other way round.
    #[test]
    fn what_is_read_of_a_sum_tells_of_both() {
        let mut both = Together::apart(&[4.0, 1.0]);
        both.learn(&[(0, 1.0), (1, 1.0)], 3.0, 0.0);
        let near = |found: f64, expected: f64| (found - expected).abs() < 1e-12;
        let ((x, xx), (y, yy)) = (both.of(&[(0, 1.0)]), both.of(&[(1, 1.0)]));
        assert!(near(x, 2.4) && near(y, 0.6) && near(xx, 0.8) && near(yy, 0.8));
        assert!(near(both.common(&[(0, 1.0)], &[(1, 1.0)]), -0.8));
        assert!(near(both.of(&[(0, 2.0), (1, 2.0)]).0, 6.0) && both.of(&[(0, 1.0), (1, 1.0)]).1 < 1e-12);
    }

    /// In whatever order it is read.
    #[test]
    fn the_order_does_not_matter() {
        let (one, other) = ([(0, 1.0), (1, -2.0)], [(1, 1.0), (2, 0.5)]);
        let mut there = Together::apart(&[1.0, 2.0, 3.0]);
        let mut back = there.clone();
        let first = there.learn(&one, 1.0, 0.3) + there.learn(&other, -0.5, 0.2);
        let second = back.learn(&other, -0.5, 0.2) + back.learn(&one, 1.0, 0.3);
        assert!((first - second).abs() < 1e-12);
        for part in 0..3 {
            let ((a, aa), (b, bb)) = (there.of(&[(part, 1.0)]), back.of(&[(part, 1.0)]));
            assert!((a - b).abs() < 1e-12 && (aa - bb).abs() < 1e-12);
        }
    }
}
