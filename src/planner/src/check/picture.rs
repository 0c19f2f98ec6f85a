//! Windows, open doors and gaps in a camera's picture.
//!
//! Rule: where a camera looks at an upright board, nothing that lets daylight in is in its picture, beside the board or behind
//! it: how much it matters depends on the day, so that it needs care. What the board or a thing hides of it is not taken off.
//! Limit: the camera's field of view in the profile; an even light over the board (common practice, no source).

use baywright_geometry::{DVec3, Pose};

use super::finding::{Basis, Code, Facts, Finding, Severity, Subject};
use super::ring::{area, clipped};
use super::{Check, Context, finding};
use crate::model::{Opening, Sensor};

/// Less than this of an opening, mm², is no light.
const LEAST_MM2: f64 = 1.0;
/// The nearest that a flat picture begins ahead of the lens, mm: nearer there is the windscreen.
const NEAREST_MM: f64 = 1.0;
/// A wide picture is asked at so many places each way, each as wide as what it stands for: none in it is missed.
const PLACES: u32 = 24;

pub(super) const CHECK: Check = Check { codes: &[Code::LightInPicture], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let sensor = &context.arrangement.sensor;
    if !sensor.kind.is_camera() || context.scene.targets.iter().all(|target| target.lies) {
        return;
    }
    let sensor_from_bay = context.scene.bay_from_sensor.inverse();
    for opening in context.arrangement.bay.openings.iter().filter(|own| own.lets_light_in()) {
        let Some(pane) = pane(context, opening) else { continue };
        if is_in_picture(sensor, &sensor_from_bay, pane) {
            let middle = (pane[0] + pane[2]) * 0.5;
            let subjects = vec![Subject::Opening(opening.id.clone()), Subject::Sensor];
            findings.push(finding(
                Facts::LightInPicture,
                Severity::Care,
                subjects,
                middle,
                Basis::CommonPractice,
            ));
        }
    }
}

/// The corners of an opening in turn, bay frame; `None` if the camera is on the other side of its wall.
fn pane(context: &Context<'_>, opening: &Opening) -> Option<[DVec3; 4]> {
    let line = context.arrangement.bay.opening_line(opening)?;
    let inward = (line.to - line.from).perp();
    let (bottom, top) = (opening.span.bottom(), opening.span.top());
    let is_inside = (context.scene.sensor().truncate() - line.from).dot(inward) > 0.0;
    is_inside.then(|| {
        [line.from.extend(bottom), line.to.extend(bottom), line.to.extend(top), line.from.extend(top)]
    })
}

fn is_in_picture(sensor: &Sensor, sensor_from_bay: &Pose, pane: [DVec3; 4]) -> bool {
    let corners = pane.map(|corner| *sensor_from_bay * corner);
    if sensor.has_flat_picture() { in_flat(sensor, corners) } else { in_wide(sensor, corners) }
}

/// What is left of the pane within the four planes through the lens and the picture's edges.
fn in_flat(sensor: &Sensor, corners: [DVec3; 4]) -> bool {
    let across = libm::tan(sensor.view.azimuth_half_rad);
    let upright = libm::tan(sensor.view.elevation_half_rad);
    let within: [&dyn Fn(DVec3) -> f64; 5] = [
        &|p| p.x - NEAREST_MM,
        &|p| p.x * across - p.y,
        &|p| p.x * across + p.y,
        &|p| p.x * upright - p.z,
        &|p| p.x * upright + p.z,
    ];
    let left = within.iter().fold(corners.to_vec(), |ring, side| clipped(&ring, side));
    area(&left) > LEAST_MM2
}

/// By angles, as the field of view of a wide lens is given.
fn in_wide(sensor: &Sensor, corners: [DVec3; 4]) -> bool {
    let [from, to, _, up] = corners;
    let (along, up) = (to - from, up - from);
    let half_cell = 0.5 * libm::hypot(along.length(), up.length()) / f64::from(PLACES);
    let share = |i: u32| (f64::from(i) + 0.5) / f64::from(PLACES);
    let mut places = (0..PLACES).flat_map(|i| (0..PLACES).map(move |j| (i, j)));
    places.any(|(i, j)| {
        let p = from + along * share(i) + up * share(j);
        // The angle under which the farthest point of this place's share is seen from its middle.
        let wide = libm::atan2(half_cell, p.length());
        let azimuth = libm::atan2(p.y, p.x).abs();
        let elevation = libm::atan2(p.z, libm::hypot(p.x, p.y)).abs();
        azimuth <= sensor.view.azimuth_half_rad + wide && elevation <= sensor.view.elevation_half_rad + wide
    })
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// A camera 1200 mm up, 800 mm ahead of the axle, with a picture of 60° by 40°, and a window in the far wall.
    fn camera() -> Arrangement {
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        arrangement.aiming.placements[0].target.kind = TargetKind::Board;
        arrangement.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
        arrangement.sensor.at.z = 1_200.0;
        arrangement.sensor.view.azimuth_half_rad = angle::radians(30.0);
        arrangement.sensor.view.elevation_half_rad = angle::radians(20.0);
        arrangement.bay.openings = vec![Opening {
            id: "window".into(),
            kind: OpeningKind::Window,
            wall: 1,
            from_mm: 2_500.0,
            width_mm: 1_000.0,
            span: span(1_000.0, 2_000.0),
            material: Material::Glass,
            shut: true,
            free_beyond_mm: 0.0,
            is_exit: false,
        }];
        arrangement
    }

    #[test]
    fn a_window_behind_the_board() {
        let mut arrangement = camera();
        let found = check(&arrangement, Code::LightInPicture, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Opening("window".into()), Subject::Sensor]);
        // 7200 mm away the picture is 7200 · tan 20° = 2620.6 mm high above the lens: it ends at 3820.6.
        arrangement.bay.ceiling_mm = 6_000.0;
        arrangement.bay.openings[0].span = span(3_821.0, 5_000.0);
        none(&arrangement, Code::LightInPicture);
        arrangement.bay.openings[0].span = span(3_820.0, 5_000.0);
        check(&arrangement, Code::LightInPicture, Severity::Care, None);
        arrangement.sensor.kind = radar().kind;
        none(&arrangement, Code::LightInPicture);
    }

    /// The left wall, 3000 mm aside, comes into the picture 3000 / tan 30° = 5196.2 mm ahead of the lens: at x = 9996.2.
    #[test]
    fn a_door_beside_the_board() {
        let mut arrangement = camera();
        let door = &mut arrangement.bay.openings[0];
        // The wall runs from x = 12 000 back.
        (door.wall, door.from_mm, door.width_mm) = (2, 2_004.0, 1_000.0);
        (door.kind, door.material) = (OpeningKind::RollerDoor, Material::Steel);
        none(&arrangement, Code::LightInPicture);
        arrangement.bay.openings[0].shut = false;
        none(&arrangement, Code::LightInPicture);
        arrangement.bay.openings[0].from_mm = 2_003.0;
        check(&arrangement, Code::LightInPicture, Severity::Care, None);
        arrangement.bay.openings[0].shut = true;
        none(&arrangement, Code::LightInPicture);
    }

    /// A wide picture goes by angles: 95° to the left it still sees what is a little behind it, not what is far behind.
    #[test]
    fn a_wide_picture() {
        let mut arrangement = camera();
        arrangement.sensor.view.azimuth_half_rad = angle::radians(95.0);
        arrangement.sensor.view.elevation_half_rad = angle::radians(70.0);
        let door = &mut arrangement.bay.openings[0];
        (door.wall, door.from_mm) = (2, 7_300.0);
        check(&arrangement, Code::LightInPicture, Severity::Care, None);
        arrangement.bay.openings[0].from_mm = 7_700.0;
        none(&arrangement, Code::LightInPicture);
    }
}
