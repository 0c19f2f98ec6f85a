//! The echo of a ball.

use std::f64::consts::PI;

use baywright_geometry::{DVec3, Wavelength};

use crate::level::Band;
use crate::seen::Seen;
use crate::wave::{LEAST_WAVES, dbsm, number};

/// The exact series swings by that much about the optical figure from ka = 16 on, dB.
const WITHIN_DB: f64 = 0.3;

/// The echo of a smooth conducting ball about `middle`, mm, at the distance d of its nearest point.
///
/// σ = πa² (d/(a + d))²: the mirror spot of a round mirror (from memory), πa² far off. For ka of 16 and more: the exact series of
/// Mie is 0.27 dB off there, below 0.05 dB from ka = 60 on (computed with scipy); the band is ±0.3 dB.
///
/// `None` for smaller balls, inside, nearer than ten wavelengths, or for figures that are no numbers.
pub fn echo(middle: DVec3, radius_mm: f64, sensor: DVec3, wave: Wavelength) -> Option<Seen> {
    let far = middle.distance(sensor);
    let range_mm = far - radius_mm;
    let is_seen = radius_mm * number(wave) >= 16.0 && range_mm >= LEAST_WAVES * wave.mm();
    if !(is_seen && far.is_finite()) {
        return None;
    }
    let radius = radius_mm / 1000.0;
    let nearer = range_mm / far;
    let ideal_dbsm = dbsm(PI * radius * radius * nearer * nearer);
    Some(Seen {
        range_mm,
        at: middle + (sensor - middle) * (radius_mm / far),
        is_spot_on: true,
        incidences: vec![0.0],
        ideal_dbsm,
        sigma_dbsm: Band::between(ideal_dbsm - WITHIN_DB, ideal_dbsm + WITHIN_DB)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use baywright_geometry::wavelength;

    /// Mie's series at 77 GHz, dBsm, by scipy's spherical Bessel functions.
    #[test]
    fn the_exact_series_lies_in_the_band() {
        let wave = wavelength(77e9).unwrap();
        for (radius, exact) in [
            (10.0, -35.2959),
            (25.0, -27.1106),
            (37.5, -23.5285),
            (50.0, -21.0563),
            (100.0, -15.0280),
            (150.0, -11.5065),
        ] {
            let found = echo(DVec3::X * 1e9, radius, DVec3::ZERO, wave).unwrap();
            assert!(found.sigma_dbsm.low() <= exact && exact <= found.sigma_dbsm.high(), "{found:?}");
        }
        assert_eq!(echo(DVec3::X * 1e4, 9.0, DVec3::ZERO, wave), None);
        assert_eq!(echo(DVec3::X * 1e4, f64::NAN, DVec3::ZERO, wave), None);
        assert_eq!(echo(DVec3::X * 90.0, 100.0, DVec3::ZERO, wave), None);
    }

    /// A ball so large that it is a wall: πR².
    #[test]
    fn a_huge_ball_is_a_wall() {
        let wave = wavelength(77e9).unwrap();
        let found = echo(DVec3::X * 1e10, 1e10 - 3000.0, DVec3::ZERO, wave).unwrap();
        assert!((found.ideal_dbsm - 14.5139).abs() < 1e-3, "{found:?}");
    }
}
