//! Reflection and transmission of a half space and of a plate.

use std::f64::consts::{FRAC_PI_2, PI};

use baywright_geometry::Wavelength;
use num_complex::Complex64;

/// A figure for each polarisation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Polarised {
    /// TE: the electric field across the plane of incidence.
    pub te: Complex64,
    /// TM: the electric field in the plane of incidence.
    pub tm: Complex64,
}

/// What a plate does to a wave: amplitudes against the wave that falls on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Across {
    /// What comes back.
    pub reflected: Polarised,
    /// What goes through.
    pub through: Polarised,
}

impl Polarised {
    /// The shares of the power, TE and TM, 0 to 1.
    pub fn powers(&self) -> [f64; 2] {
        [self.te.norm_sqr(), self.tm.norm_sqr()]
    }

    /// The share of the power that comes back of a wave whose field is tilted by so much, radians, against TE: both parts come back
    /// each in its own way, TE with cos², TM with sin².
    pub fn power(&self, tilt: f64) -> f64 {
        let (sin, cos) = libm::sincos(tilt);
        cos * cos * self.te.norm_sqr() + sin * sin * self.tm.norm_sqr()
    }

    /// Of that, the share that comes back polarised as a mirror of metal would send it. At 0° it is all of it: there the two
    /// figures are the same but for the sign, by the way in which TM is counted.
    pub fn as_a_mirror(&self, tilt: f64) -> f64 {
        let (sin, cos) = libm::sincos(tilt);
        (self.te * (cos * cos) - self.tm * (sin * sin)).norm_sqr()
    }
}

/// What the surface of a half space of η reflects of a plane wave from air, at `angle` radians from the normal (Recommendation
/// ITU-R P.2040-3, equations 37a and b). Smooth, even, not magnetic. `None` for an angle outside 0 to π/2, or an η without figures
/// or that would make the wave stronger.
pub fn half_space(eta: Complex64, angle: f64) -> Option<Polarised> {
    let is_sound = (0.0..=FRAC_PI_2).contains(&angle) && eta.is_finite() && eta.im <= 0.0 && eta.re > 0.0;
    let (sin, cos) = libm::sincos(angle);
    let root = inside(eta, sin);
    let polarised =
        Polarised { te: (-root + cos) / (root + cos), tm: (eta * cos - root) / (eta * cos + root) };
    (is_sound && polarised.te.is_finite() && polarised.tm.is_finite()).then_some(polarised)
}

/// What a plate `thick_mm` thick in air reflects and lets through (equations 43a, 43b and 44): all bounces in it. As for
/// [`half_space`]; `None` also for a thickness below 0.
pub fn slab(eta: Complex64, thick_mm: f64, angle: f64, wave: Wavelength) -> Option<Across> {
    let surface = half_space(eta, angle)?;
    let q = inside(eta, libm::sin(angle)) * (2.0 * PI * thick_mm / wave.mm());
    let once = turned(q);
    let of = |r: Complex64| {
        let round = once * once;
        let whole = Complex64::ONE - r * r * round;
        // A plate without thickness is none; at grazing its surface reflects all, and so does it.
        if whole.norm_sqr() == 0.0 {
            return (Complex64::ZERO, Complex64::ONE);
        }
        (r * (Complex64::ONE - round) / whole, (Complex64::ONE - r * r) * once / whole)
    };
    let (te, tm) = (of(surface.te), of(surface.tm));
    let across =
        Across { reflected: Polarised { te: te.0, tm: tm.0 }, through: Polarised { te: te.1, tm: tm.1 } };
    (thick_mm >= 0.0 && thick_mm.is_finite()).then_some(across)
}

/// √(η - sin²), with a part that dies away inwards.
fn inside(eta: Complex64, sin: f64) -> Complex64 {
    let root = (eta - sin * sin).sqrt();
    if root.im > 0.0 { -root } else { root }
}

/// e^(-jq).
fn turned(q: Complex64) -> Complex64 {
    let (sin, cos) = libm::sincos(q.re);
    Complex64::new(cos, -sin) * libm::exp(q.im)
}
