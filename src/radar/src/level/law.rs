//! The one law of levels.

use std::f64::consts::PI;

use baywright_geometry::{DVec3, Pose};

use super::antenna::Bearing;
use super::band::Band;
use super::sensor::Sensor;

/// What comes back to the sensor on one way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Received {
    /// The echo area at that distance, dBsm (dB over one square metre); endlessly low where there may be no echo at all.
    pub sigma_dbsm: Band,
    /// How far the wave goes out to it, by mirrors if there are any, mm.
    pub out_mm: f64,
    /// How far it comes back, mm.
    pub back_mm: f64,
    /// The direction in which it leaves the sensor, in the bay's frame, of any length.
    pub departs: DVec3,
    /// The direction from the sensor to where it comes from, in the bay's frame, of any length.
    pub comes_from: DVec3,
    /// All that it loses on both ways together, dB, at least 0: what mirrors let through or swallow, what hides it, a cover over it
    /// (twice the one-way loss). A cover in front of the *sensor* loses both the echo and the target alike and is left out.
    pub lost_db: Band,
    /// What the other polarisation changes, dB: [`polarised_db`].
    pub polarised_db: Band,
}

/// The echo area of a way by mirrors alone (from the sensor by one or two of them to itself), m²: πR², R half its length, mm, as
/// the image of the sensor stands twice as far away. Times the power that the mirrors reflect; for mirrors that are wide beside
/// √(λR), narrower ones are faces with an echo of their own.
pub fn mirrored_m2(range_mm: f64) -> f64 {
    let range = range_mm / 1000.0;
    PI * range * range
}

/// What a change of polarisation does to a level, dB: of an echo's power, `co_polar` (0 to 1; cos² 2τ for a dihedral whose edge is
/// tilted by τ against the wave) comes back as it was sent, and the rest in the other polarisation, which the sensor receives so
/// much lower. `None` for a share that is none.
pub fn polarised_db(co_polar: f64, isolation_db: Band) -> Option<Band> {
    if !(0.0..=1.0).contains(&co_polar) {
        return None;
    }
    let at = |isolation: f64| db(co_polar + (1.0 - co_polar) * from_db(isolation));
    Band::between(at(isolation_db.low()), at(isolation_db.high()))
}

/// How strong an echo is against the target's, dB: above 0 it is the stronger.
///
/// Radar equation, with all that both have in common gone: P ∝ σ G(out) G(back) / (out² back² L), which for a thing that is seen
/// straight is σ / R⁴ with σ *at that distance*. Valid in the far field of the antennas themselves (2D²/λ: 1.3 m for antennas 50 mm
/// wide at 77 GHz); the near field of the *thing* is in its σ. The band holds all that the sensor may be, each of whose patterns is
/// taken for both; it does not hold that the two waves add up, which is how they pull, not how strong they are.
///
/// `None` if a distance is not above 0, a figure is no number, or the target gives nothing at all.
pub fn against(echo: &Received, target: &Received, sensor: &Sensor, bay_from_sensor: &Pose) -> Option<Band> {
    let (echo_band, target_band) = (without_antennas(echo)?, without_antennas(target)?);
    if target_band.high() == f64::NEG_INFINITY {
        return None;
    }
    let seen = |of: &Received| {
        (Bearing::of(of.departs, bay_from_sensor), Bearing::of(of.comes_from, bay_from_sensor))
    };
    let ((out, back), (target_out, target_back)) = (seen(echo), seen(target));
    let gains = sensor.patterns().iter().filter_map(|pattern| {
        Band::of(pattern.two_way_db(out, back) - pattern.two_way_db(target_out, target_back))
    });
    let gain = gains.reduce(|all, one| all.around(&one))?;
    // Nothing is endlessly low, also against a target that may give nothing.
    let high = if echo_band.high() == f64::NEG_INFINITY {
        f64::NEG_INFINITY
    } else {
        echo_band.high() - target_band.low()
    };
    Band::between(echo_band.low() - target_band.high(), high)?.plus(&gain)
}

fn without_antennas(of: &Received) -> Option<Band> {
    let is_sound = [of.out_mm, of.back_mm].iter().all(|mm| *mm > 0.0 && mm.is_finite());
    let spread = is_sound.then(|| -20.0 * libm::log10(of.out_mm) - 20.0 * libm::log10(of.back_mm))?;
    let lost = Band::between(-of.lost_db.low(), -of.lost_db.high())?;
    of.sigma_dbsm.plus(&Band::of(spread)?)?.plus(&lost)?.plus(&of.polarised_db)
}

/// Decibels of a ratio of powers; of nothing they are endlessly low.
fn db(power_ratio: f64) -> f64 {
    10.0 * libm::log10(power_ratio)
}

fn from_db(decibels: f64) -> f64 {
    libm::pow(10.0, decibels / 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::level::{Known, Pattern};

    fn seen(m2: f64, mm: f64) -> Received {
        let sigma_dbsm = Band::of(db(m2)).unwrap();
        let (departs, comes_from) = (DVec3::X, DVec3::X);
        let (lost_db, polarised_db) = (Band::NOTHING, Band::NOTHING);
        Received { sigma_dbsm, out_mm: mm, back_mm: mm, departs, comes_from, lost_db, polarised_db }
    }

    fn level(echo: &Received, target: &Received) -> Option<Band> {
        let ahead = Pose::looking(DVec3::ZERO, 0.0, 0.0);
        against(echo, target, &Sensor::of(&Known::default()).unwrap(), &ahead)
    }

    /// references: a large steel wall at 1.5, 2 and 3 m (σ = πR²) against a reflector of 13.5 dBsm at 1.5 m: -5.0, -7.5, -11.0 dB.
    #[test]
    fn a_large_wall_against_a_reflector() {
        for (mm, expected) in [(1500.0, -5.0), (2000.0, -7.5), (3000.0, -11.0)] {
            let wall = seen(mirrored_m2(mm), mm);
            let found = level(&wall, &seen(from_db(13.5), 1500.0)).unwrap();
            assert!(
                (found.low() - expected).abs() < 0.05 && found.high() - found.low() < 1e-9,
                "{mm}: {found:?}"
            );
        }
    }

    /// Friis over 2R and the radar equation with πR² give one power (references: -30.177598 dBm of 10 dBm, 25 dBi, 5 m, 77 GHz):
    /// the level against a thing of 1 m² at 1 m, whose power is known from the same table (-81.169696 dBm without gain).
    #[test]
    fn the_law_is_the_radar_equation() {
        let found = level(&seen(mirrored_m2(5000.0), 5000.0), &seen(1.0, 1000.0)).unwrap();
        assert!((found.low() - (-30.177_598 - 10.0 - 50.0 + 81.169_696)).abs() < 1e-5, "{found:?}");
        // 10 m² at 5 m: -39.128497 dBm, in the same manner.
        let found = level(&seen(10.0, 5000.0), &seen(1.0, 1000.0)).unwrap();
        assert!((found.low() - (-39.128_497 - 10.0 - 50.0 + 81.169_696)).abs() < 1e-5, "{found:?}");
    }

    /// An echo aside is weaker by the antennas, by more the narrower they are: a band, unless the pattern is known.
    #[test]
    fn what_is_not_known_of_the_sensor_is_a_band() {
        let aside = Received {
            departs: DVec3::new(1.0, 1.0, 0.0),
            comes_from: DVec3::new(1.0, 1.0, 0.0),
            ..seen(1.0, 1000.0)
        };
        let found = level(&aside, &seen(1.0, 1000.0)).unwrap();
        // 45° in a view of 100°: 2 × -12 × 0.45²; in one of 20° the floor, twice -30.
        assert!((found.high() + 4.86).abs() < 1e-9 && (found.low() + 60.0).abs() < 1e-9, "{found:?}");
        let known = Known { pattern: Some(Pattern::beams(2.0, 0.2, -20.0).unwrap()), ..Known::default() };
        let pose = Pose::looking(DVec3::ZERO, 0.0, 0.0);
        let found = against(&aside, &seen(1.0, 1000.0), &Sensor::of(&known).unwrap(), &pose).unwrap();
        assert_eq!(found.low(), found.high());
    }

    /// references: 1, 0.5, 0 of the power of a dihedral at 0, 22.5, 45° comes back as sent; what is left then is what leaks.
    #[test]
    fn the_other_polarisation_leaks() {
        let isolation = Band::between(-30.0, -20.0).unwrap();
        let at = |tilt: f64| polarised_db((2.0 * tilt.to_radians()).cos().powi(2), isolation).unwrap();
        assert_eq!(at(0.0), Band::NOTHING);
        assert!(
            (at(22.5).low() + 3.01).abs() < 0.05 && (at(22.5).high() + 2.97).abs() < 0.05,
            "{:?}",
            at(22.5)
        );
        assert!((at(45.0).low() + 30.0).abs() < 1e-9 && (at(45.0).high() + 20.0).abs() < 1e-9);
        assert_eq!(polarised_db(1.1, isolation), None);
        assert_eq!(polarised_db(f64::NAN, isolation), None);
    }

    #[test]
    fn awkward_echoes() {
        let target = seen(1.0, 2000.0);
        for mm in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(level(&seen(1.0, mm), &target), None);
            assert_eq!(level(&target, &seen(1.0, mm)), None);
        }
        let nothing = seen(0.0, 2000.0);
        let perhaps = Received { sigma_dbsm: Band::between(f64::NEG_INFINITY, 0.0).unwrap(), ..target };
        assert_eq!(level(&nothing, &target).unwrap().high(), f64::NEG_INFINITY);
        assert_eq!(level(&target, &nothing), None);
        assert_eq!(level(&target, &perhaps).unwrap().high(), f64::INFINITY);
        assert_eq!(level(&nothing, &perhaps).unwrap().high(), f64::NEG_INFINITY);
        assert_eq!(level(&perhaps, &target).unwrap().low(), f64::NEG_INFINITY);
    }
}
