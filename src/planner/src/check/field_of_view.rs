//! The target within what the sensor sees.
//!
//! Rule: the middle of every target lies within the sensor's field of view; for a camera, every corner does too, since
//! it must see the whole pattern. A radar target of which only the edge is outside needs care. The picture of a forward
//! camera is a rectangle in the plane of the picture, as long as it is not too wide; that of a wider one, or of one of those
//! that look all round, is bent by its lens, of which nothing is known: it goes by angles, and a note says so.
//! Limit: the sensor's field of view in the profile.

use baywright_geometry::DVec3;

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::model::Sensor;

/// A ten-thousandth of a degree: below what any procedure speaks of.
const SPEAKS_FROM_RAD: f64 = 1.7e-6;

pub(super) const CHECK: Check =
    Check { codes: &[Code::FieldOfView, Code::ViewByAngles], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let sensor = &context.arrangement.sensor;
    if sensor.kind.is_camera() && !sensor.has_flat_picture() {
        let basis = Basis::Procedure(sensor.provenance.clone());
        let at = context.scene.sensor();
        findings.push(finding(Facts::ViewByAngles, Severity::Note, vec![Subject::Sensor], at, basis));
    }
    let sensor_from_bay = context.scene.bay_from_sensor.inverse();
    for target in &context.scene.targets {
        let Some(face) = &target.face else { continue };
        let outside = |p: DVec3| outside(sensor_from_bay * p, sensor);
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
///
/// In a flat picture both are angles of the picture's own plane, `|y / x|` and `|z / x|`; what is beside or behind the camera
/// is more than 90° off. Else the elevation is that above the plane of azimuths.
fn outside(p: DVec3, sensor: &Sensor) -> Option<(f64, f64)> {
    let view = &sensor.view;
    let ahead = if sensor.has_flat_picture() { p.x } else { libm::hypot(p.x, p.y) };
    let azimuth = libm::atan2(p.y, p.x).abs();
    let elevation = libm::atan2(p.z, ahead).abs();
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

    /// A corner 28° aside and tan 21° of its distance ahead up: 18.7° above the level, yet above the edge of a flat picture
    /// that sees 20° up. atan(tan 21° · cos 28°) = 18.72°.
    #[test]
    fn a_flat_picture_has_straight_edges() {
        let mut arrangement = clear();
        let ahead = 4_000.0;
        let (aside, up) = (ahead * libm::tan(angle::radians(28.0)), ahead * libm::tan(angle::radians(21.0)));
        let target = &mut arrangement.aiming.placements[0].target;
        (target.width_mm, target.height_mm) = (2.0 * aside, 2.0 * up);
        arrangement.sensor.view.azimuth_half_rad = angle::radians(30.0);
        arrangement.sensor.view.elevation_half_rad = angle::radians(20.0);
        // Lidar goes by angles; the middle of an upper edge is 21° up for it as well, but only corners are asked.
        arrangement.sensor.kind = SensorKind::Lidar;
        none(&arrangement, Code::FieldOfView);
        let camera = Camera { pixels_across: 1280, pixels_down: 960 };
        arrangement.sensor.kind = SensorKind::ForwardCamera(camera);
        let found = check(&arrangement, Code::FieldOfView, Severity::Stops, Some(angle::radians(21.0)));
        assert!((number(found.limit.unwrap()) - angle::radians(20.0)).abs() < 1e-12);
        none(&arrangement, Code::ViewByAngles);
        // Behind the camera nothing is in its picture, though y / x would be small.
        arrangement.sensor.azimuth_rad = angle::radians(180.0);
        check(&arrangement, Code::FieldOfView, Severity::Stops, None);
    }

    /// From 170° on a lens bends the picture: angles are asked, and that is said once.
    #[test]
    fn a_wide_picture_goes_by_angles_and_says_so() {
        let mut arrangement = clear();
        let camera = Camera { pixels_across: 1280, pixels_down: 960 };
        arrangement.sensor.kind = SensorKind::ForwardCamera(camera);
        arrangement.sensor.view.azimuth_half_rad = angle::radians(84.9);
        none(&arrangement, Code::ViewByAngles);
        arrangement.sensor.view.azimuth_half_rad = angle::radians(85.1);
        check(&arrangement, Code::ViewByAngles, Severity::Note, None);
        arrangement.sensor.view.azimuth_half_rad = angle::radians(60.0);
        arrangement.sensor.kind = SensorKind::SurroundCamera(camera);
        check(&arrangement, Code::ViewByAngles, Severity::Note, None);
    }
}
