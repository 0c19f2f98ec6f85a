//! The first Fresnel zone: how clear of an obstacle a radio path is.
//!
//! Source: Recommendation ITU-R P.526, section 2: Fresnel ellipsoids (equation 1: AM + MB = AB + n λ/2) and their
//! radius (equation 2: R = √(n λ d₁ d₂ / (d₁ + d₂))). Its line of sight asks that no obstacle be within the first
//! ellipsoid; its section 2.3 lets diffraction begin where less than 0.6 of the radius is clear.

mod nearest;

use glam::DVec3;

use crate::blocker::{Passage, passage};
use crate::prism::Prism;

/// The share of the first zone's radius that must stay clear for free-space propagation (ITU-R P.526 section 2.3).
///
/// "Nothing is lost at 0.6" is the convention of the *approximate* knife-edge loss (equation 31), which is zero from
/// there on. The exact half-plane value at 0.6 is -0.374 dB, a small gain; the exact loss is zero at 0.550.
pub const CLEAR_SHARE: f64 = 0.6;

/// Speed of light in vacuum, mm/s. Exact by the definition of the metre (SI).
const LIGHT_MM_PER_S: f64 = 299_792_458_000.0;

/// The wavelength in mm of a frequency in hertz, which must be positive.
pub fn wavelength(frequency_hz: f64) -> f64 {
    LIGHT_MM_PER_S / frequency_hz.max(f64::MIN_POSITIVE)
}

/// The radius in mm of the `n`th Fresnel zone, at the distances `d1` and `d2` from the two ends of the path, all in mm
/// (ITU-R P.526 equation 2). It is an approximation for d₁, d₂ ≫ λ; zero at the ends.
pub fn zone_radius(wavelength: f64, d1: f64, d2: f64, n: u32) -> f64 {
    let squared = f64::from(n) * wavelength * d1 * d2 / (d1 + d2);
    // Nothing between the ends, or distances without sense: no radius.
    if squared > 0.0 { squared.sqrt() } else { 0.0 }
}

/// How clear of one obstacle a radio path is. `ratio` is the clearance as a share of the first zone's radius:
/// √(excess / (λ/2)), where the excess is how much longer than the direct path the shortest one over a point of the
/// obstacle is.
#[derive(Clone, Debug, PartialEq)]
pub enum FresnelClearance {
    /// The obstacle stays out of the first zone: `ratio >= 1`.
    Clear {
        /// Clearance over radius.
        ratio: f64,
    },
    /// The obstacle reaches into the first zone, or touches the direct line: `0 <= ratio < 1`.
    Entered {
        /// Clearance over radius.
        ratio: f64,
        /// The point of the obstacle whose path is shortest.
        at: DVec3,
    },
    /// The direct line passes through the obstacle, or an end of it lies inside.
    Crossed {
        /// Where the line enters it.
        at: DVec3,
    },
}

/// How clear of `thing` the path from `from` to `to` is, at a wavelength in mm, which must be positive.
pub fn fresnel_clearance(from: DVec3, to: DVec3, wavelength: f64, thing: &Prism) -> FresnelClearance {
    if let Passage::Enters { share } = passage(&thing.outline, &thing.span, from, to) {
        return FresnelClearance::Crossed { at: from + (to - from) * share };
    }
    let nearest = nearest::shortest_path(from, to, thing);
    let half = 0.5 * wavelength.max(f64::MIN_POSITIVE);
    let ratio = (nearest.excess / half).sqrt();
    if ratio < 1.0 {
        FresnelClearance::Entered { ratio, at: nearest.at }
    } else {
        FresnelClearance::Clear { ratio }
    }
}

#[cfg(test)]
mod tests;
