//! The Fresnel integrals C and S.
//!
//! Definition: Recommendation ITU-R P.526, section 2.7, with the argument π s²/2.

use std::f64::consts::PI;

/// From here on the auxiliary functions are used, below it the power series.
const FAR: f64 = 1.6;

/// f(x)·π·x as a Chebyshev series in 2 (1.6/x)² − 1: computed with mpmath, 40 digits.
const F_FAR: [f64; 23] = [
    0.9863363201440892,
    -0.017434711935667774,
    -0.0032843323295990833,
    0.00047917600017883833,
    -1.8619619802379467e-05,
    -8.150918540032402e-06,
    2.587726789013415e-06,
    -3.9252934992232015e-07,
    -2.1512431919364245e-09,
    2.2836876754584742e-08,
    -8.499726763291014e-09,
    1.842151876873228e-09,
    -1.409508168172263e-10,
    -8.882961905190672e-11,
    5.4765892555348864e-11,
    -1.8743019440517345e-11,
    4.1638179593038524e-12,
    -2.414655884484344e-13,
    -3.278027409579456e-13,
    2.1341331333863226e-13,
    -8.459062549380565e-14,
    2.372763092932497e-14,
    -3.5165353565159447e-15,
];
/// g(x)·π²·x³ likewise.
const G_FAR: [f64; 27] = [
    0.9409999566964287,
    -0.07323801495965342,
    -0.011080882163852846,
    0.0029448994832483783,
    -0.00027899517938683355,
    -3.806033430512676e-05,
    2.31347749560821e-05,
    -5.402791752102135e-06,
    5.174171446117134e-07,
    1.6576137404669198e-07,
    -1.0664447578788885e-07,
    3.316459682688467e-08,
    -5.963027554403364e-09,
    -2.1851665767503924e-10,
    7.012039577320227e-10,
    -3.434593625980914e-10,
    1.0849588331952686e-10,
    -2.094174491870192e-11,
    -1.0173533894786215e-12,
    3.215055432435972e-12,
    -1.8090293935122656e-12,
    6.863533836314422e-13,
    -1.8272372599934587e-13,
    1.9767025312510778e-14,
    1.381874056907891e-14,
    -1.219167244116743e-14,
    6.135499072640078e-15,
];

/// C and S of one argument.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fresnel {
    /// ∫ cos(π s²/2) ds from 0 to the argument.
    pub c: f64,
    /// ∫ sin(π s²/2) ds from 0 to the argument.
    pub s: f64,
}

/// C(x) and S(x), dimensionless, each within 1e-12; odd in x; ±½ at the ends; no number of no number.
///
/// ```
/// let at = baywright_radar::fresnel_integral::fresnel(1.0);
/// assert!((at.c - 0.779893).abs() < 1e-6 && (at.s - 0.438259).abs() < 1e-6);
/// ```
pub fn fresnel(x: f64) -> Fresnel {
    let size = x.abs();
    let (c, s) = if size < FAR { series(size) } else { far(size) };
    Fresnel { c: libm::copysign(c, x), s: libm::copysign(s, x) }
}

/// Both power series, of 0 ≤ x < 1.6.
fn series(x: f64) -> (f64, f64) {
    let z = 0.5 * PI * x * x;
    let (mut c, mut s, mut term) = (0.0, 0.0, x);
    for n in 0..16 {
        let order = 4.0 * f64::from(n);
        c += term / (order + 1.0);
        term *= z / (2.0 * f64::from(n) + 1.0);
        s += term / (order + 3.0);
        term *= -z / (2.0 * f64::from(n) + 2.0);
    }
    (c, s)
}

/// By the auxiliary functions f and g: C = ½ + f sin − g cos, S = ½ − f cos − g sin.
fn far(x: f64) -> (f64, f64) {
    // Beyond this both are ½ to the last figure, and the phase would mean nothing.
    if x > 1e12 {
        return (0.5, 0.5);
    }
    let share = FAR / x;
    let at = 2.0 * share * share - 1.0;
    let f = chebyshev(&F_FAR, at) / (PI * x);
    let g = chebyshev(&G_FAR, at) / (PI * PI * x * x * x);
    // Whole turns of π x²/2 are those of x² mod 4.
    let (sin, cos) = libm::sincos(0.5 * PI * libm::fmod(x * x, 4.0));
    (0.5 + f * sin - g * cos, 0.5 - f * cos - g * sin)
}

/// A Chebyshev series at −1 ≤ x ≤ 1 by Clenshaw's rule.
fn chebyshev(of: &[f64], x: f64) -> f64 {
    let (mut first, mut second) = (0.0, 0.0);
    for figure in of.iter().skip(1).rev() {
        (first, second) = (2.0 * x * first - second + figure, first);
    }
    x * first - second + of.first().copied().unwrap_or(0.0)
}
