//! The echo of a flat rectangular face at the distance at which it stands.
//!
//! Most faces in a bay stand far nearer than 2D²/λ, where the lobes of textbooks hold: 4πA²/λ² gives a sheet of 1 m at 3 m +59
//! dBsm, of which +15 are left. Physical optics with exact ways is what counts here (`face/rim.rs`).

mod rim;

use std::f64::consts::TAU;

use baywright_geometry::{DVec2, DVec3, Face, Wavelength};
use num_complex::Complex64;

use crate::level::Band;
use crate::seen::Seen;
use crate::wave::{LEAST_WAVES, dbsm_of, number};
use rim::{Over, Side};

/// The model itself differs from direct quadrature of the same integral by less than that, dB.
const WITHIN_DB: f64 = 0.05;
/// What waves along the face add beside the mirror spot, dB, and by so much sin² of the incidence.
const BESIDE_DB: f64 = 0.3;
const STEEP_DB: f64 = 4.0;
/// Sides that are seen along their plane are taken to send back at most so many times what physical optics has.
const MOST_FOR_GRAZING: f64 = 30.0;

/// The echo of a smooth, flat, conducting face, at the distance of its nearest point. `sensor` in the frame of the face, mm.
///
/// The figure is σ = 4πR⁴/λ² |∬ cos θ e^(-2jkr)/r² dA|², R to the nearest point: physical optics with exact ways, summed along
/// the rim. Limits: 4πA²/λ² far off, πR² for a wide face with the mirror spot on it.
///
/// The band holds, besides the figure (within 0.05 dB of direct quadrature at 0.5 to 8 m):
/// * both polarisations, along the height and along the width. The sides of the rim do not send back as physical optics has them:
///   at the angle whose cosine is q between the line of sight and the face across the side, an edge of a thin conductor gives
///   √((1-q)/(1+q)) times as much for a wave along it and √((1+q)/(1-q)) for one across (ratio of Keller's coefficient of a
///   half-plane to that of physical optics, both for a wave that goes back where it came from; J. B. Keller, Geometrical theory of
///   diffraction, 1962, from memory). Some tenths of a dB with the mirror spot on the face; 1.5 dB at 10° beside it, 5 dB at 30°.
/// * beyond the mirror spot a floor: what the sides send back with their powers added. They cancel only in a plane that is true to
///   a small part of λ; no face in a shop is silent between its lobes.
/// * beyond the mirror spot 0.35 + 4 sin² θ dB, θ the incidence, for waves that go along the face from side to side and back: with
///   them the band holds strips solved by the method of moments, 10 to 25 λ wide, from 3 to 60° (`tests/data/strips.py`).
///
/// Not in it: that the face is bent or dented (0.5 mm is an eighth of a wave at 77 GHz), ribs and handles, the material
/// ([`crate::material`]).
///
/// `None` if the sensor is not in front of the face, lies in its plane, or is less than ten wavelengths from it, or no number.
pub fn echo(face: &Face, sensor: DVec3, wave: Wavelength) -> Option<Seen> {
    let height = face.in_front(sensor);
    let own = sensor - face.centre();
    let foot = DVec2::new(own.dot(face.left()), own.dot(face.up()));
    let half = DVec2::new(face.width(), face.height()) * 0.5;
    let nearest = foot.clamp(-half, half);
    let range_mm = height.hypot((foot - nearest).length());
    if !(height > 1e-6 * range_mm && range_mm >= LEAST_WAVES * wave.mm() && range_mm.is_finite()) {
        return None;
    }
    let sums = Sums::of(foot, half, Over { height, number: number(wave) });
    let is_spot_on = foot == nearest;
    let as_dbsm = |sum: f64| dbsm_of(sum / (2.0 * number(wave)), range_mm, wave);
    let ideal_dbsm = as_dbsm(sums.ideal());
    let polarised = [sums.polarised(true), sums.polarised(false)].map(as_dbsm);
    let floor = if is_spot_on { f64::NEG_INFINITY } else { as_dbsm(sums.added()) };
    let incidence = libm::acos((height / range_mm).min(1.0));
    let sin = libm::sin(incidence);
    let within = if is_spot_on { WITHIN_DB } else { WITHIN_DB + BESIDE_DB + STEEP_DB * sin * sin };
    let low = polarised.iter().copied().fold(ideal_dbsm, f64::min);
    let high = polarised.iter().copied().fold(ideal_dbsm, f64::max).max(floor);
    Some(Seen {
        range_mm,
        at: face.point(nearest.x, nearest.y),
        is_spot_on,
        incidences: vec![incidence],
        ideal_dbsm,
        sigma_dbsm: Band::between(low - within, high + within)?,
    })
}

/// The same integral over a rectangle that a corner opens to the sensor, from one of its corners to the other about the sensor's
/// foot in its plane, `height` mm under the sensor: I without its phase.
pub(crate) fn aperture(from: DVec2, to: DVec2, height: f64, wave: Wavelength) -> f64 {
    let (half, middle) = ((to - from) * 0.5, (to + from) * 0.5);
    Sums::of(-middle, half, Over { height, number: number(wave) }).ideal() / (2.0 * number(wave))
}

/// What the mirror spot and each of the four sides send back.
struct Sums {
    spot: f64,
    /// Right, top, left, bottom, as seen in the face's own coordinates; with q for each.
    sides: [(Complex64, f64); 4],
}

impl Sums {
    fn of(foot: DVec2, half: DVec2, over: Over) -> Self {
        let (low, high) = (-half - foot, half - foot);
        let sides = [
            Side { aside: high.x, from: low.y, to: high.y },
            Side { aside: high.y, from: -high.x, to: -low.x },
            Side { aside: -low.x, from: -high.y, to: -low.y },
            Side { aside: -low.y, from: low.x, to: high.x },
        ];
        let turn: f64 = sides.iter().map(Side::turn).sum();
        // The turns about a foot outside cancel but for rounding.
        let spot = over.spot(if turn.abs() < 1e-9 * TAU { 0.0 } else { turn });
        Self { spot, sides: sides.map(|side| (over.side(&side), side.aside / side.aside.hypot(over.height))) }
    }

    fn ideal(&self) -> f64 {
        self.sides.iter().fold(Complex64::from(self.spot), |sum, (side, _)| sum + side).norm()
    }

    /// For a wave whose electric field lies along the height, or along the width.
    fn polarised(&self, along_height: bool) -> f64 {
        let mut sum = Complex64::from(self.spot);
        for (nth, (side, q)) in self.sides.iter().enumerate() {
            let is_along = (nth % 2 == 0) == along_height;
            let share = if is_along { (1.0 - q) / (1.0 + q) } else { (1.0 + q) / (1.0 - q) };
            sum += side * share.sqrt().min(MOST_FOR_GRAZING);
        }
        sum.norm()
    }

    /// The sides alone, their powers added.
    fn added(&self) -> f64 {
        self.sides.iter().map(|(side, _)| side.norm_sqr()).sum::<f64>().sqrt()
    }
}
