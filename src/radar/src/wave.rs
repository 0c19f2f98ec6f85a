//! Waves with their phase: what the rooms of the shapes have in common.

use std::f64::consts::PI;

use baywright_geometry::Wavelength;
use num_complex::Complex64;

/// Gauss-Legendre nodes on [-1, 1] with their weights (numpy's `leggauss(8)`): good for one turn of a phase to 1e-8.
pub const NODES: [(f64, f64); 8] = [
    (-0.960_289_856_497_536_2, 0.101_228_536_290_376_26),
    (-0.796_666_477_413_626_7, 0.222_381_034_453_374_47),
    (-0.525_532_409_916_329, 0.313_706_645_877_887_27),
    (-0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_27),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_47),
    (0.960_289_856_497_536_2, 0.101_228_536_290_376_26),
];

/// What the nearest piece of a thing must at least be away, wavelengths: nearer than that the wave is no ray yet.
pub const LEAST_WAVES: f64 = 10.0;

/// e^(-jφ), φ radians: a wave that went so much further.
pub fn later(phase: f64) -> Complex64 {
    let (sin, cos) = libm::sincos(phase);
    Complex64::new(cos, -sin)
}

/// 2π/λ, radians for each mm.
pub fn number(wave: Wavelength) -> f64 {
    2.0 * PI / wave.mm()
}

/// The echo area σ = 4πR⁴|I|²/λ² in dBsm, of a sum I = ∬ cos θ e^(-2jkr)/r² dA over what sends back (so far without
/// unit) and the distance R, mm, by which the level falls off; endlessly low for a sum of nothing.
pub fn dbsm_of(sum: f64, range_mm: f64, wave: Wavelength) -> f64 {
    let size = range_mm * range_mm * sum / (wave.mm() * 1000.0);
    dbsm(4.0 * PI * size * size)
}

/// Decibels over one square metre.
pub fn dbsm(m2: f64) -> f64 {
    10.0 * libm::log10(m2)
}
