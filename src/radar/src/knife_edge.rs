//! A straight edge that reaches into a beam, or nearly.
//!
//! Source: Recommendation ITU-R P.526, section 4.1: a thin absorbing half-plane, λ far less than the distances.

mod shift;

use baywright_geometry::Wavelength;

use crate::fresnel_integral::fresnel;
pub use shift::{Edge, Shift, shift};

/// How far an edge reaches into a path, ν, dimensionless: positive where it covers the straight line. `h` mm over the line, `d1`
/// and `d2` mm from the ends (P.526 equation 26; for angles below about 0.2 rad). `None` if a distance is not positive and finite,
/// or the height is not finite.
pub fn reach(h_mm: f64, d1_mm: f64, d2_mm: f64, wave: Wavelength) -> Option<f64> {
    let is = |d: f64| d > 0.0 && d.is_finite();
    let nu = h_mm * libm::sqrt(2.0 / wave.mm() * (1.0 / d1_mm + 1.0 / d2_mm));
    (is(d1_mm) && is(d2_mm) && nu.is_finite()).then_some(nu)
}

/// The loss behind an edge, dB, one way, by the Fresnel integrals (P.526 equation 30); negative, a gain, between ν −0.778 and
/// −1.616. Figures are good to 1e-9 dB up to ν 100.
pub fn loss_exact_db(nu: f64) -> f64 {
    let at = fresnel(nu);
    let (real, imaginary) = (1.0 - at.c - at.s, at.c - at.s);
    -20.0 * libm::log10(libm::hypot(real, imaginary) / 2.0)
}

/// The loss behind an edge, dB, one way, by the approximation for ν > −0.78, and 0 below (P.526 equation 31): within 0.123 dB of
/// the exact from −0.78 to 30.
pub fn loss_approximate_db(nu: f64) -> f64 {
    if nu <= -0.78 {
        return 0.0;
    }
    let over = nu - 0.1;
    6.9 + 20.0 * libm::log10(libm::sqrt(over * over + 1.0) + over)
}
