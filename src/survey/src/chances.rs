//! The few distributions that the judging of measurements needs: how likely, and beyond which figure only so often. All by
//! `libm`, so that the same bits come out on every machine.
//!
//! Good to about ten digits; a figure that makes no sense (a chance outside of 0 to 1, no freedom) gives NaN.

/// So many standard uncertainties either way hold 95 of 100 of what is normal: the two-sided 95 % quantile.
pub const K95: f64 = 1.959_963_984_540_054;

/// How many halvings find a figure between two: more change nothing.
const HALVINGS: usize = 80;
/// How many terms of a series or fraction are taken at most. Each is enough for any freedom that a bay has.
const MOST_TERMS: usize = 2_000;
const SMALL: f64 = 1e-300;

/// Of the standard normal distribution: the chance of a figure up to this one.
pub fn normal(z: f64) -> f64 {
    0.5 * libm::erfc(-z * std::f64::consts::FRAC_1_SQRT_2)
}

/// The figure that a standard normal one is beyond, on either side, with this chance.
///
/// ```
/// use baywright_survey::chances::normal_beyond;
/// assert!((normal_beyond(0.001) - 3.290527).abs() < 1e-6);
/// assert!((normal_beyond(0.05) - 1.959964).abs() < 1e-6);
/// ```
pub fn normal_beyond(chance: f64) -> f64 {
    figure(chance, 0.0, 40.0, |z| 2.0 * normal(-z))
}

/// The figure that Student's t with these degrees of freedom is beyond, on either side, with this chance. Endless freedom is
/// the normal distribution.
///
/// ```
/// use baywright_survey::chances::t_beyond;
/// assert!((t_beyond(0.05, 16.0) - 2.119905).abs() < 1e-6);
/// assert!((t_beyond(0.01, 16.0) - 2.920782).abs() < 1e-6);
/// ```
pub fn t_beyond(chance: f64, freedom: f64) -> f64 {
    if freedom > 1e6 {
        return normal_beyond(chance);
    }
    if freedom.is_nan() || freedom <= 0.0 {
        return f64::NAN;
    }
    // P(|t| > x) = I(f / (f + x²); f/2, 1/2). As a share of the way to infinity, so that one search does for all freedoms.
    let tail = |s: f64| {
        let x = s / (1.0 - s);
        beta_share(freedom / (freedom + x * x), freedom * 0.5, 0.5)
    };
    let s = figure(chance, 0.0, 1.0 - 1e-15, tail);
    s / (1.0 - s)
}

/// The figure that χ² with these degrees of freedom is beyond with this chance.
///
/// ```
/// use baywright_survey::chances::chi_squared_beyond;
/// assert!((chi_squared_beyond(0.05, 6.0) - 12.59159).abs() < 1e-5);
/// ```
pub fn chi_squared_beyond(chance: f64, freedom: f64) -> f64 {
    if !(freedom > 0.0 && freedom.is_finite()) {
        return f64::NAN;
    }
    let most = freedom + 60.0 * (2.0 * freedom).sqrt() + 200.0;
    figure(chance, 0.0, most, |x| 1.0 - gamma_share(freedom * 0.5, x * 0.5))
}

/// Pope's τ: what a residual over its own standard deviation, both from the same adjustment, is beyond with this chance, on
/// either side. With one degree of freedom it is 1 always, and tells nothing.
///
/// ```
/// use baywright_survey::chances::tau_beyond;
/// assert!((tau_beyond(0.001, 14.0) - 2.844972).abs() < 1e-6);
/// assert_eq!(tau_beyond(0.001, 1.0), 1.0);
/// ```
pub fn tau_beyond(chance: f64, freedom: f64) -> f64 {
    if freedom == 1.0 {
        return 1.0;
    }
    let t = t_beyond(chance, freedom - 1.0);
    t * freedom.sqrt() / (freedom - 1.0 + t * t).sqrt()
}

/// How far off its middle a normal test figure must be to be found with this power, where it is wrongly found with this chance:
/// 4.13 for 0.001 and 0.8.
///
/// ```
/// use baywright_survey::chances::found_from;
/// assert!((found_from(0.001, 0.8) - 4.132148).abs() < 1e-6);
/// ```
pub fn found_from(chance: f64, power: f64) -> f64 {
    let limit = normal_beyond(chance);
    figure(1.0 - power, 0.0, limit + 40.0, |off| 1.0 - normal(off - limit) - normal(-off - limit))
}

/// Where a falling chance comes to this one.
fn figure(chance: f64, low: f64, high: f64, falling: impl Fn(f64) -> f64) -> f64 {
    if !(chance > 0.0 && chance < 1.0) {
        return f64::NAN;
    }
    let (mut low, mut high) = (low, high);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if falling(middle) > chance { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// The incomplete beta function as a share of the whole, by Lentz's continued fraction (from memory: every handbook of numerical
/// methods).
fn beta_share(x: f64, a: f64, b: f64) -> f64 {
    if x <= 0.0 || x >= 1.0 {
        return x.clamp(0.0, 1.0);
    }
    let front =
        libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b) + a * libm::log(x) + b * libm::log1p(-x);
    let front = libm::exp(front);
    if x < (a + 1.0) / (a + b + 2.0) {
        front * beta_fraction(x, a, b) / a
    } else {
        1.0 - front * beta_fraction(1.0 - x, b, a) / b
    }
}

fn beta_fraction(x: f64, a: f64, b: f64) -> f64 {
    let away = |figure: f64| if figure.abs() < SMALL { SMALL } else { figure };
    let mut c = 1.0;
    let mut d = 1.0 / away(1.0 - (a + b) * x / (a + 1.0));
    let mut found = d;
    for m in 1..MOST_TERMS {
        let m = m as f64;
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / away(1.0 + even * d);
        c = away(1.0 + even / c);
        found *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / away(1.0 + odd * d);
        c = away(1.0 + odd / c);
        found *= d * c;
        if (d * c - 1.0).abs() < 1e-15 {
            break;
        }
    }
    found
}

/// The incomplete gamma function as a share of the whole, by its series: all terms have one sign.
fn gamma_share(a: f64, x: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    let mut term = 1.0 / a;
    let mut sum = term;
    for n in 1..MOST_TERMS {
        term *= x / (a + n as f64);
        sum += term;
        if term < sum * 1e-17 {
            break;
        }
    }
    (sum * libm::exp(a * libm::log(x) - x - libm::lgamma(a))).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// scipy.stats, as computed for the tables of the tests.
    #[test]
    fn as_an_independent_library_says() {
        for (chance, expected) in [(0.001, 3.290527), (0.01, 2.575829), (0.05, 1.959964)] {
            assert!((normal_beyond(chance) - expected).abs() < 1e-6);
        }
        // The published figure leaves out the far side, which counts only where the limit is near.
        for (chance, expected, within) in
            [(0.001, 4.132148, 1e-6), (0.01, 3.417451, 1e-6), (0.05, 2.801585, 5e-6)]
        {
            assert!((found_from(chance, 0.8) - expected).abs() < within);
        }
        for (chance, freedom, expected) in [
            (0.05, 3.0, 1.645448),
            (0.05, 5.0, 1.814349),
            (0.05, 10.0, 1.903909),
            (0.05, 14.0, 1.923128),
            (0.05, 30.0, 1.944666),
            (0.01, 3.0, 1.714730),
            (0.01, 5.0, 2.050921),
            (0.01, 10.0, 2.323598),
            (0.01, 14.0, 2.398944),
            (0.01, 30.0, 2.495594),
            (0.001, 3.0, 1.730319),
            (0.001, 5.0, 2.178082),
            (0.001, 10.0, 2.678598),
            (0.001, 14.0, 2.844972),
            (0.001, 30.0, 3.078456),
        ] {
            assert!((tau_beyond(chance, freedom) - expected).abs() < 1e-6, "{chance} {freedom}");
        }
        assert!((t_beyond(0.0455, 16.0) - 2.168943).abs() < 1e-4);
        assert!((t_beyond(0.05, 1.0) - 12.706205).abs() < 1e-5);
        assert!((t_beyond(0.05, f64::INFINITY) - 1.959964).abs() < 1e-6);
        assert!((chi_squared_beyond(0.001, 1.0) - 3.290527_f64.powi(2)).abs() < 1e-5);
    }

    #[test]
    fn what_makes_no_sense_is_no_number() {
        for chance in [0.0, 1.0, -1.0, f64::NAN] {
            assert!(normal_beyond(chance).is_nan() && t_beyond(chance, 5.0).is_nan());
        }
        assert!(t_beyond(0.05, 0.0).is_nan() && chi_squared_beyond(0.05, -2.0).is_nan());
        assert!(tau_beyond(0.05, 0.5).is_nan() && found_from(0.05, 2.0).is_nan());
    }
}
