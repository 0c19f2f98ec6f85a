//! The echo of a column, a drum or a pipe: the side of a round cylinder, upright or tilted.

use std::f64::consts::PI;

use baywright_geometry::{DVec3, Wavelength};
use num_complex::Complex64;

use crate::fresnel_integral::fresnel;
use crate::level::Band;
use crate::seen::Seen;
use crate::wave::{LEAST_WAVES, dbsm_of, later};

/// How far the formula is from direct quadrature, and physical optics of a round side from the exact series, dB.
const WITHIN_DB: f64 = 0.1;

/// The side of a round cylinder; its ends are faces of their own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cylinder {
    middle: DVec3,
    axis: DVec3,
    radius: f64,
    length: f64,
}

impl Cylinder {
    /// About a middle, mm, along a direction of any length, of so much radius and length, mm. `None` if a figure is no number, or
    /// the direction, the radius or the length is none.
    pub fn new(middle: DVec3, along: DVec3, radius_mm: f64, length_mm: f64) -> Option<Self> {
        let is_sound = |mm: f64| mm > 0.0 && mm.is_finite();
        let axis = along.try_normalize()?;
        (middle.is_finite() && is_sound(radius_mm) && is_sound(length_mm)).then_some(Self {
            middle,
            axis,
            radius: radius_mm,
            length: length_mm,
        })
    }
}

/// The echo of a smooth conducting cylinder's side, at the distance of its nearest point.
///
/// Physical optics with exact ways: the round direction by its one bright line (stationary phase), the length by Fresnel integrals
/// of the exact detour, u = ±√(8(r - d)/λ), with the ends' amplitude corrected (Bleistein's uniform form). Derived here; within
/// 0.01 dB of direct quadrature over the lit half at 0.5 to 8 m (`tests/data/quadrature.py`). Limits: far off and from the side
/// 2πah²/λ (Knott, Shaeffer, Tuley, Radar Cross Section, ch. 14, from memory; two public texts print it wrongly with λ² or half of
/// it); a column longer than its first zone πd² a/(a + d), d to its side, a its radius.
///
/// For radii from 2.5 λ on (the exact series of Bessel functions is within 0.01 dB there at broadside, computed with scipy). Beside
/// the mirror spot the band holds what the edge at the nearer end may send back in either polarisation, and what both ends do with
/// their powers added, as for a face.
///
/// `None` for thinner ones, inside the cylinder, above its end within its radius, or nearer than ten wavelengths to its side.
pub fn echo(of: &Cylinder, sensor: DVec3, wave: Wavelength) -> Option<Seen> {
    let own = sensor - of.middle;
    let along = own.dot(of.axis);
    let out = own - of.axis * along;
    let far = out.length();
    let least = far - of.radius;
    let half = 0.5 * of.length;
    let beyond = (along.abs() - half).max(0.0);
    let range_mm = least.hypot(beyond);
    let is_seen = of.radius >= 2.5 * wave.mm() && least > 0.0 && range_mm >= LEAST_WAVES * wave.mm();
    if !(is_seen && range_mm.is_finite()) {
        return None;
    }
    let line = Line { radius: of.radius, far, least, wave: wave.mm() };
    let ends = [line.up_to(half - along), line.up_to(-half - along)];
    let ideal_dbsm = dbsm_of((ends[0] - ends[1]).norm(), range_mm, wave);
    let is_spot_on = beyond == 0.0;
    let band = if is_spot_on {
        Band::between(ideal_dbsm - WITHIN_DB, ideal_dbsm + WITHIN_DB)?
    } else {
        let q = beyond / range_mm;
        let other_db = 10.0 * libm::log10((1.0 + q) / (1.0 - q)) + WITHIN_DB;
        let whole = if along > half { line.up_to(f64::NEG_INFINITY) } else { line.up_to(f64::INFINITY) };
        let added = ends.iter().map(|end| (end - whole).norm_sqr()).sum::<f64>().sqrt();
        let high = ideal_dbsm.max(dbsm_of(added, range_mm, wave));
        Band::between(ideal_dbsm - other_db, high + other_db)?
    };
    let at = of.middle + out * (of.radius / far) + of.axis * along.clamp(-half, half);
    let incidence = libm::acos((least / range_mm).min(1.0));
    Some(Seen { range_mm, at, is_spot_on, incidences: vec![incidence], ideal_dbsm, sigma_dbsm: band })
}

/// The bright line of the side, mm.
struct Line {
    radius: f64,
    /// From the axis.
    far: f64,
    /// From the line.
    least: f64,
    wave: f64,
}

impl Line {
    /// What the line sends back from the point nearest to the sensor up to `to`, mm along it.
    fn up_to(&self, to: f64) -> Complex64 {
        let beside = self.amplitude(self.least) * (self.wave * self.least).sqrt() / 2.0;
        if to.is_infinite() {
            return Complex64::new(0.5, -0.5) * (beside * to.signum());
        }
        let way = self.least.hypot(to);
        let longer = to * to / (way + self.least);
        let u = libm::copysign((8.0 * longer / self.wave).sqrt(), to);
        let at = fresnel(u);
        let by_zones = Complex64::new(at.c, -at.s) * beside;
        if u.abs() < 1e-3 {
            return by_zones;
        }
        let there = self.amplitude(way) * self.wave * u * way / (4.0 * to);
        by_zones + later(0.5 * PI * u * u) * Complex64::new(0.0, (there - beside) / (PI * u))
    }

    /// Of a piece so far away: facing, distance, and the width of the bright line there.
    fn amplitude(&self, way: f64) -> f64 {
        let wide = (self.radius * self.wave / (2.0 * self.far)).sqrt();
        self.least * wide / (way * way * way.sqrt())
    }
}
