//! The first Fresnel zone: how clear of an obstacle a radio path is. The two ends may be swapped.
//!
//! Source: Recommendation ITU-R P.526, section 2: Fresnel ellipsoids (equation 1: AM + MB = AB + n λ/2) and their
//! radius (equation 2: R = √(n λ d₁ d₂ / (d₁ + d₂))). Its line of sight asks that no obstacle be within the first
//! ellipsoid; its section 2.3 lets diffraction begin where less than 0.6 of the radius is clear.

mod nearest;

use glam::{DVec2, DVec3};

use crate::blocker::{Passage, passage};
use crate::outline::Outline;
use crate::prism::{Prism, Span};

/// The share of the first zone's radius that must stay clear for free-space propagation (ITU-R P.526 section 2.3).
///
/// "Nothing is lost at 0.6" is the convention of the *approximate* knife-edge loss (equation 31), which is zero from
/// there on. The exact half-plane value at 0.6 is -0.374 dB, a small gain; the exact loss is zero at 0.550.
pub const CLEAR_SHARE: f64 = 0.6;

/// Speed of light in vacuum, mm/s. Exact by the definition of the metre (SI).
pub const LIGHT_MM_PER_S: f64 = 299_792_458_000.0;

/// Why there is no wavelength.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WaveFault {
    /// A frequency that is not positive, infinite or no number.
    Frequency {
        /// What was given, hertz.
        hz: f64,
    },
    /// A wavelength that is not positive, infinite or no number.
    Length {
        /// What was given, mm.
        mm: f64,
    },
}

impl std::fmt::Display for WaveFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{self:?}")
    }
}

impl std::error::Error for WaveFault {}

/// A wavelength: positive and finite.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Wavelength {
    mm: f64,
}

impl Wavelength {
    /// So many millimetres.
    ///
    /// # Errors
    /// If that is not a positive number.
    pub fn new(mm: f64) -> Result<Self, WaveFault> {
        if mm > 0.0 && mm.is_finite() { Ok(Self { mm }) } else { Err(WaveFault::Length { mm }) }
    }

    /// How long it is, mm.
    pub const fn mm(self) -> f64 {
        self.mm
    }
}

/// The wavelength of a frequency in hertz, in vacuum.
///
/// # Errors
/// If the frequency is not a positive number, or so small or large that no wavelength is.
///
/// ```rust
/// # use baywright_geometry::*;
/// assert!((wavelength(77e9)?.mm() - 3.893409).abs() < 1e-6);
/// assert_eq!(wavelength(0.0), Err(WaveFault::Frequency { hz: 0.0 }));
/// # Ok::<(), WaveFault>(())
/// ```
pub fn wavelength(frequency_hz: f64) -> Result<Wavelength, WaveFault> {
    let fault = WaveFault::Frequency { hz: frequency_hz };
    Wavelength::new(LIGHT_MM_PER_S / frequency_hz).map_err(|_| fault)
}

/// The radius in mm of the `n`th Fresnel zone, at the distances `d1` and `d2` in mm from the two ends of the path (ITU-R
/// P.526 equation 2). It is an approximation for d₁, d₂ ≫ λ. There is no zone at the ends, nor beyond them (a distance that
/// is negative, or none): 0.
///
/// ```rust
/// # use baywright_geometry::*;
/// // Half way along 4 m at 77 GHz.
/// assert!((zone_radius(wavelength(77e9)?, 2000.0, 2000.0, 1) - 62.4).abs() < 0.01);
/// # Ok::<(), WaveFault>(())
/// ```
pub fn zone_radius(wavelength: Wavelength, d1: f64, d2: f64, n: u32) -> f64 {
    if d1 > 0.0 && d2 > 0.0 { (f64::from(n) * wavelength.mm * d1 * d2 / (d1 + d2)).sqrt() } else { 0.0 }
}

/// How clear of one obstacle a radio path is: in space, or in plan with `DVec2` for its places.
///
/// `ratio` measures it by the ellipsoids of ITU-R P.526 equation 1, AM + MB = AB + n λ/2: it is √n for the smallest of
/// them that touches the obstacle, that is √(excess / (λ/2)), where the excess is how much longer than the direct path the
/// shortest one over a point of the obstacle is. Where equation 2 holds, that is the obstacle's distance from the direct line
/// over the first zone's radius there: 1 touches the first zone, 0.6 ([`CLEAR_SHARE`]) is where diffraction begins.
#[derive(Clone, Debug, PartialEq)]
pub enum FresnelClearance<Point = DVec3> {
    /// The obstacle stays out of the first zone: `ratio >= 1`.
    Clear {
        /// The square root of the excess over half a wavelength.
        ratio: f64,
    },
    /// The obstacle reaches into the first zone, or touches the direct line: `0 <= ratio < 1`.
    Entered {
        /// The square root of the excess over half a wavelength.
        ratio: f64,
        /// The point of the obstacle whose path is shortest.
        at: Point,
    },
    /// The direct line passes through the obstacle, or an end of it lies inside.
    Crossed {
        /// Where the line enters it.
        at: Point,
    },
}

/// How clear of `thing` the radio path from `eye` to `target` is.
///
/// The upright edge of a cabinet 31.2 mm beside the middle of a path of 4 m at 77 GHz stands half the first zone's radius
/// off:
///
/// ```rust
/// # use baywright_geometry::*;
/// let (eye, target) = (DVec3::new(0.0, 0.0, 500.0), DVec3::new(4000.0, 0.0, 500.0));
/// let outline = Polygon::rectangle(DVec2::new(1999.0, 31.2), DVec2::new(2001.0, 500.0))?;
/// let cabinet = Prism::new(outline.into(), Span::new(0.0, 1800.0)?);
/// let found = fresnel_clearance(eye, target, wavelength(77e9)?, &cabinet);
/// assert!(matches!(found, FresnelClearance::Entered { ratio, .. } if (ratio - 0.5).abs() < 1e-3), "{found:?}");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn fresnel_clearance(
    eye: DVec3,
    target: DVec3,
    wavelength: Wavelength,
    thing: &Prism,
) -> FresnelClearance {
    of_solid(eye, target, wavelength, &thing.outline, &thing.span)
}

/// As [`fresnel_clearance`], in plan only: the thing counts at every height.
///
/// ```rust
/// # use baywright_geometry::*;
/// let column = Outline::from(Circle::new(DVec2::new(2000.0, 131.2), 100.0)?);
/// let found = fresnel_clearance_in_plan(DVec2::ZERO, DVec2::new(4000.0, 0.0), wavelength(77e9)?, &column);
/// assert!(matches!(found, FresnelClearance::Entered { ratio, .. } if (ratio - 0.5).abs() < 1e-3), "{found:?}");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn fresnel_clearance_in_plan(
    eye: DVec2,
    target: DVec2,
    wavelength: Wavelength,
    thing: &Outline,
) -> FresnelClearance<DVec2> {
    match of_solid(eye.extend(0.0), target.extend(0.0), wavelength, thing, &Span::EVERY) {
        FresnelClearance::Clear { ratio } => FresnelClearance::Clear { ratio },
        FresnelClearance::Entered { ratio, at } => FresnelClearance::Entered { ratio, at: at.truncate() },
        FresnelClearance::Crossed { at } => FresnelClearance::Crossed { at: at.truncate() },
    }
}

fn of_solid(
    eye: DVec3,
    target: DVec3,
    wavelength: Wavelength,
    outline: &Outline,
    span: &Span,
) -> FresnelClearance {
    if let Passage::Enters { share } = passage(outline, span, eye, target) {
        return FresnelClearance::Crossed { at: eye + (target - eye) * share };
    }
    let nearest = nearest::shortest_path(eye, target, outline, span);
    let ratio = (nearest.excess / (0.5 * wavelength.mm)).sqrt();
    if ratio < 1.0 {
        FresnelClearance::Entered { ratio, at: nearest.at }
    } else {
        FresnelClearance::Clear { ratio }
    }
}

#[cfg(test)]
mod tests;
