//! The target within what the sensor sees.
//!
//! Rule: the middle of every target lies within the sensor's field of view; for a camera, every corner does too, since
//! it must see the whole pattern. A radar target of which only the edge is outside needs care.
//! Limit: the sensor's field of view in the profile.

use baywright_geometry::DVec3;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::model::FieldOfView;

/// A ten-thousandth of a degree: below what any procedure speaks of.
const SPEAKS_FROM_RAD: f64 = 1.7e-6;

pub(super) const CHECK: Check = Check { codes: &[Code::FieldOfView], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let sensor = &context.arrangement.sensor;
    let sensor_from_bay = context.scene.bay_from_sensor.inverse();
    for target in &context.scene.targets {
        let Some(face) = &target.face else { continue };
        let outside = |p: DVec3| outside(sensor_from_bay * p, &sensor.view);
        let middle = outside(face.centre());
        let corners = face.corners().into_iter().filter_map(outside);
        let worst = corners.chain(middle).max_by(|a, b| (a.0 - a.1).total_cmp(&(b.0 - b.1)));
        let Some((angle, half)) = worst else { continue };
        let must_see_all = sensor.kind.radar().is_none();
        let severity = if middle.is_some() || must_see_all { Severity::Stops } else { Severity::Care };
        findings.push(
            finding(
                Facts::FieldOfView,
                severity,
                vec![Subject::Target(target.id.clone()), Subject::Sensor],
                target.centre(),
                Basis::Procedure(sensor.provenance.clone()),
            )
            .against(Quantity::Angle(angle), Quantity::Angle(half)),
        );
    }
}

/// The angle off boresight and the half angle that it exceeds, the worse of the two ways; `None` if seen.
fn outside(p: DVec3, view: &FieldOfView) -> Option<(f64, f64)> {
    let azimuth = libm::atan2(p.y, p.x).abs();
    let elevation = libm::atan2(p.z, libm::hypot(p.x, p.y)).abs();
    [(azimuth, view.azimuth_half_rad), (elevation, view.elevation_half_rad)]
        .into_iter()
        .filter(|(angle, half)| angle - half > SPEAKS_FROM_RAD)
        .max_by(|a, b| (a.0 - a.1).total_cmp(&(b.0 - b.1)))
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    #[test]
    fn a_target_beside_the_view() {
        let mut arrangement = clear();
        arrangement.sensor.view.azimuth_half_rad = angle::radians(3.0);
        // The plate's edge is seen 250 mm aside at 4000: 3.576°. Its middle is straight ahead.
        let found = check(&arrangement, Code::FieldOfView, Severity::Care, Some(libm::atan2(250.0, 4000.0)));
        assert!((number(found.limit.unwrap()) - angle::radians(3.0)).abs() < 1e-12);
        arrangement.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
        check(&arrangement, Code::FieldOfView, Severity::Stops, None);
        arrangement.sensor.view.azimuth_half_rad = angle::radians(3.6);
        none(&arrangement, Code::FieldOfView);
        arrangement.sensor.azimuth_rad = angle::radians(170.0);
        check(&arrangement, Code::FieldOfView, Severity::Stops, None);
    }
}
