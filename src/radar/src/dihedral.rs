//! The echo of two flat faces that meet at a right angle, or nearly.

use baywright_geometry::{DVec2, DVec3, Wavelength};

use crate::face::aperture;
use crate::level::Band;
use crate::seen::Seen;
use crate::wave::{LEAST_WAVES, dbsm_of};

/// How far the formula is from iterated physical optics, dB.
const WITHIN_DB: f64 = 1.1;

/// Two rectangles that meet along an edge: the corner of a room, a cabinet against a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dihedral {
    /// The middle of the edge, mm.
    pub middle: DVec3,
    /// Along the edge, of any length but none.
    pub edge: DVec3,
    /// From the edge along the first face: the part of it across the edge counts.
    pub first: DVec3,
    /// How wide the first face is, mm.
    pub first_mm: f64,
    /// How wide the second is, mm; it lies anticlockwise of the first, looked at against the edge's direction.
    pub second_mm: f64,
    /// How long both are along the edge, mm.
    pub length_mm: f64,
    /// By how much the angle between them is more than a right one, radians; negative for a sharper one.
    pub open_by: f64,
}

/// The echo by both faces, one after the other, of smooth conductors, at the distance of the edge's nearest point.
///
/// The two faces act as one flat face across the line of sight through the edge, as wide as both faces see each other's image: to
/// either side min(w₁ sin φ, w₂ cos φ), φ the angle of the sensor from the first face (from memory; 8πw²h²/λ² far off and
/// symmetric). Not a right angle: what leaves turns by twice the error on either side, which moves the middle of each half's zones
/// by R times the error. Derived here. The band is what iterated physical optics, vector fields and edges that bend the wave, shows
/// for 16 corners of 60 to 400 mm at 0.6 to 6 m (`tests/data/bounces.py`), 0.1 to 17 zones w²/(λR) to either side: ±1.1 dB; for
/// errors of up to half a degree, 20 to 70° from the first face. Beyond the edge's ends the figure is too high by up to 10 dB:
/// there the band says that there may be nothing.
///
/// A wave whose field is tilted by τ against the edge comes back as it was sent with cos² 2τ of its power: [`co_polar`]. What each
/// face sends back alone is its own echo ([`crate::face`]).
///
/// `None` if the sensor is not between the faces, the error is above 0.1, or a figure is none or no number, or the sensor is nearer
/// than twice the faces' widths.
pub fn echo(of: &Dihedral, sensor: DVec3, wave: Wavelength) -> Option<Seen> {
    let is_sound = |mm: f64| mm > 0.0 && mm.is_finite();
    let up = of.edge.try_normalize()?;
    let first = (of.first - up * of.first.dot(up)).try_normalize()?;
    let own = sensor - of.middle;
    let (x, y, z) = (own.dot(first), own.dot(up.cross(first)), own.dot(up));
    let (far, from_first) = (x.hypot(y), libm::atan2(y, x));
    let from_second = std::f64::consts::FRAC_PI_2 + of.open_by - from_first;
    let is_between = from_first > 0.0 && from_second > 0.0 && of.open_by.abs() <= 0.1;
    let widest = of.first_mm.max(of.second_mm);
    let is_far = far >= (2.0 * widest).max(LEAST_WAVES * wave.mm()) && own.is_finite();
    if !(is_sound(of.first_mm) && is_sound(of.second_mm) && is_sound(of.length_mm) && is_between && is_far) {
        return None;
    }
    let wide = (of.first_mm * libm::sin(from_first)).min(of.second_mm * libm::sin(from_second));
    let half = 0.5 * of.length_mm;
    let aside = far * of.open_by;
    let sum = 2.0 * aperture(DVec2::new(aside, -half - z), DVec2::new(aside + wide, half - z), far, wave);
    let beyond = (z.abs() - half).max(0.0);
    let range_mm = far.hypot(beyond);
    let ideal_dbsm = dbsm_of(sum, range_mm, wave);
    let low = if beyond == 0.0 { ideal_dbsm - WITHIN_DB } else { f64::NEG_INFINITY };
    let quarter = std::f64::consts::FRAC_PI_2;
    Some(Seen {
        range_mm,
        at: of.middle + up * z.clamp(-half, half),
        is_spot_on: beyond == 0.0,
        incidences: vec![quarter - from_first, (quarter - from_second).max(0.0)],
        ideal_dbsm,
        sigma_dbsm: Band::between(low, ideal_dbsm + WITHIN_DB)?,
    })
}

/// How much of the power comes back as it was sent, 0 to 1, of a wave whose electric field is tilted by so much, radians, against
/// the edge as it is seen along the line of sight: cos² 2τ (from memory). The field across the edge comes back turned about, the
/// field along it does not.
pub fn co_polar(tilt: f64) -> f64 {
    let cos = libm::cos(2.0 * tilt);
    cos * cos
}
