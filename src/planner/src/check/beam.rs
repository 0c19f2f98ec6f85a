//! A radar's target within its beam, not only within its field of view.
//!
//! Rule: the middle of every target lies within the -3 dB width of the beam. Outside, less comes back the further it is off
//! the boresight: at half the full width 3 dB there and 3 dB back. From there on that needs care.
//! Limit: the beam widths in the profile. The loss is that of the usual Gaussian approximation of a main lobe,
//! 12 dB · (angle / full -3 dB width)² one way in each direction, added: the form of 3GPP TR 38.901, table 7.3-1, and of
//! Recommendation ITU-R M.2101 (both from memory), as [`baywright_radar::level::Pattern`] has it. The same table ends the lobe at 30 dB each way
//! (from memory): past [`MOST_LOSS_DB`] the form says nothing but that it is more.

use baywright_radar::level::{Bearing, Pattern};

use super::finding::{Basis, Code, Facts, Quantity, Severity, Subject};
use super::{Check, Context, Finding, finding};
use crate::model::Radar;

/// What is lost at the edge of the beam, there and back, dB: by definition of its width 3 dB each way.
const AT_EDGE_DB: f64 = 6.0;
/// Of more than this nothing is said but that it is more, dB, there and back: where the form ends.
pub const MOST_LOSS_DB: f64 = 60.0;
/// A hair under the edge, so that a target that was meant to be on it is not under it by rounding.
const HAIR_DB: f64 = 1e-9;

pub(super) const CHECK: Check = Check { codes: &[Code::OffBeam], whole, ..Check::NONE };

/// What comes back less than from the boresight, there and back, dB; no number for a beam without a width.
fn loss_db(to: Bearing, radar: &Radar) -> f64 {
    // No side lobes: where the form ends is said of what it gives.
    let pattern = Pattern::beams(radar.beam_azimuth_rad, radar.beam_elevation_rad, f64::MIN);
    pattern.map_or(f64::NAN, |own| -own.two_way_db(to, to))
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let sensor = &context.arrangement.sensor;
    let Some(radar) = sensor.kind.radar() else { return };
    let pose = &context.scene.bay_from_sensor;
    for target in &context.scene.targets {
        let to = Bearing::of(target.centre() - pose.origin(), pose);
        let loss_db = loss_db(to, radar);
        // No number: the beam has no width, which is refused elsewhere.
        if loss_db.is_nan() || loss_db < AT_EDGE_DB - HAIR_DB {
            continue;
        }
        let off = libm::hypot(to.azimuth, to.elevation);
        // How far off the boresight the beam's edge is in this direction.
        let edge = off * libm::sqrt(AT_EDGE_DB / loss_db);
        findings.push(
            finding(
                Facts::OffBeam { loss_db: loss_db.min(MOST_LOSS_DB) },
                Severity::Care,
                vec![Subject::Target(target.id.clone()), Subject::Sensor],
                target.centre(),
                Basis::Procedure(sensor.provenance.clone()),
            )
            .against(Quantity::Angle(off), Quantity::Angle(edge)),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::*;

    /// By definition of the width: 3 dB each way at its half, 12 at the whole of it; directions add.
    #[test]
    fn the_loss_follows_from_the_width() {
        let SensorKind::ForwardRadar(radar) = radar().kind else { panic!() };
        let lost = |azimuth: f64, elevation: f64| {
            let to = Bearing { azimuth: angle::radians(azimuth), elevation: angle::radians(elevation) };
            loss_db(to, &radar)
        };
        for (azimuth, elevation, expected) in [
            (0.0, 0.0, 0.0),
            (10.0, 0.0, 6.0),
            (-10.0, 0.0, 6.0),
            (0.0, 5.0, 6.0),
            (20.0, 0.0, 24.0),
            (10.0, -5.0, 12.0),
        ] {
            assert!((lost(azimuth, elevation) - expected).abs() < 1e-9, "{azimuth} {elevation}");
        }
    }

    /// The beam is 20° wide, the view 90°: a sensor that looks 10° aside has the target on the edge of its beam.
    #[test]
    fn a_target_beside_the_beam() {
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        arrangement.sensor.azimuth_rad = angle::radians(9.99);
        none(&arrangement, Code::OffBeam);
        for degrees in [10.0, 15.0] {
            arrangement.sensor.azimuth_rad = angle::radians(degrees);
            let found = check(&arrangement, Code::OffBeam, Severity::Care, Some(angle::radians(degrees)));
            assert!((number(found.limit.unwrap()) - angle::radians(10.0)).abs() < 1e-9);
            let Facts::OffBeam { loss_db } = found.facts else { panic!() };
            assert!((loss_db - 24.0 * (degrees / 20.0) * (degrees / 20.0)).abs() < 1e-9, "{loss_db}");
        }
        none(&arrangement, Code::FieldOfView);
        // Seven beams aside the form would give 1 176 dB: no sensor tells that from nothing at all.
        arrangement.sensor.azimuth_rad = angle::radians(140.0);
        let found = check(&arrangement, Code::OffBeam, Severity::Care, Some(angle::radians(140.0)));
        assert_eq!(found.facts, Facts::OffBeam { loss_db: MOST_LOSS_DB });
        assert!((number(found.limit.unwrap()) - angle::radians(10.0)).abs() < 1e-9);
        let told = crate::words::Words::new(&arrangement, Default::default()).detail(&found);
        assert!(told.starts_with("More than 60 dB less"), "{told}");
        arrangement.sensor.kind = SensorKind::Lidar;
        none(&arrangement, Code::OffBeam);
    }
}
