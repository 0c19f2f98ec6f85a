//! What a car's own body hides from its cameras: the bonnet ahead of a forward camera, the rear ahead of one that looks back.
//!
//! The body is taken as wide as it is needed, so that what passes beside the bonnet is not taken off. A camera that looks to
//! the side has nothing of the outline from the side ahead of it.

use baywright_geometry::{DVec2, DVec3};

use super::super::finding::{Basis, Facts, Finding, Quantity, Severity, Subject};
use super::super::ring::{area, clipped};
use super::super::{Context, finding};
use super::{HIDDEN_FROM, InSight};
use crate::model::assumed::{Assumed, BodyPart};
use crate::scene::PlacedTarget;

/// A pane bends outwards. Where the line of the body bends inwards by more than this, the pane ends and the bonnet begins
/// (common practice, no source).
const BEND_RAD: f64 = 4.0 * std::f64::consts::PI / 180.0;
/// A camera that looks further than this from straight ahead, or straight back, looks to the side.
const ASIDE_RAD: f64 = 60.0 * std::f64::consts::PI / 180.0;

/// What the car's own body hides of a target.
pub(super) fn hides(context: &Context<'_>, target: &PlacedTarget, findings: &mut Vec<Finding>) {
    let sensor = &context.arrangement.sensor;
    // Sensors behind a bumper see through it.
    if !sensor.kind.is_camera() {
        return;
    }
    let Some(ahead) = looks(sensor.azimuth_rad) else { return };
    let (Some(face), vehicle) = (&target.face, &context.arrangement.vehicle) else { return };
    let vehicle_from_bay = context.scene.bay_from_vehicle.inverse();
    // The frame in which the camera looks along x: from the front axle ahead, or back.
    let own = |p: DVec3| {
        let plan = vehicle_from_bay * p.truncate();
        DVec3::new(plan.x * ahead, plan.y * ahead, p.z - context.scene.carried_at_mm)
    };
    let eye = own(context.scene.sensor());
    let side: Vec<DVec2> = vehicle.outline_side.iter().map(|p| DVec2::new(p.x * ahead, p.y)).collect();
    let Some(slope) = steepest(&side, DVec2::new(eye.x, eye.z)) else { return };
    let ring = face.corners().map(own);
    let ahead_of_it = clipped(&ring, &|p| p.x - eye.x);
    let below = clipped(&ahead_of_it, &|p| slope * (p.x - eye.x) - (p.z - eye.z));
    let share = area(&below) / face.area();
    if share.is_nan() || share <= HIDDEN_FROM {
        return;
    }
    let assumed = vehicle.assumed.contains(&Assumed::from(BodyPart::OutlineSide));
    findings.push(
        finding(
            Facts::SightBlocked(InSight::OwnBody { assumed }),
            if assumed { Severity::Care } else { Severity::Stops },
            vec![Subject::Car, Subject::Target(target.id.clone())],
            target.centre(),
            Basis::Geometry,
        )
        .against(Quantity::Share(share.min(1.0)), Quantity::Share(0.0)),
    );
}

/// 1 if it looks ahead, -1 if it looks back, `None` if to the side.
fn looks(azimuth: f64) -> Option<f64> {
    let ahead = libm::cos(azimuth);
    (ahead.abs() >= libm::cos(ASIDE_RAD)).then(|| ahead.signum())
}

/// The steepest line from the eye over the body ahead of it, as rise over run; `None` if nothing of the body is ahead. The
/// eye looks along x; what it looks through, from its own height down to where the body bends inwards, hides nothing.
fn steepest(side: &[DVec2], eye: DVec2) -> Option<f64> {
    // The body's line from the roof over the front down and back.
    let mut line = side.to_vec();
    if baywright_geometry::polygon::signed_area(side) > 0.0 {
        line.reverse();
    }
    let count = line.len();
    let at = |i: usize| line.get(i % count.max(1)).copied();
    let goes_down = |i: usize| {
        let (from, to) = (at(i)?, at(i + 1)?);
        let crossing = from.x + (to.x - from.x) * ((from.y - eye.y) / (from.y - to.y));
        (from.y > eye.y && to.y <= eye.y && crossing > eye.x).then_some((i, crossing))
    };
    let first = (0..count).filter_map(goes_down).min_by(|a, b| a.1.total_cmp(&b.1));
    let hides_from = match first {
        // Nothing ahead is as high as the eye: all of it may hide.
        None => 0,
        Some((pane, _)) => {
            let bends_in = |i: &usize| {
                let (Some(a), Some(b), Some(c)) = (at(*i), at(i + 1), at(i + 2)) else { return false };
                let (down, on) = (b - a, c - b);
                libm::atan2(down.perp_dot(on), down.dot(on)) > BEND_RAD
            };
            // Without a bend the pane is all that is ahead.
            (pane..pane + count).find(bends_in)? + 1
        }
    };
    let ahead = (hides_from..hides_from + count).map_while(at).take(count);
    let above = first.map_or(f64::NEG_INFINITY, |(_, crossing)| crossing);
    let counts = ahead.filter(|p| p.x > eye.x && (p.y <= eye.y || p.x > above));
    // Once round: what is behind the bend again is the pane itself.
    let pane =
        first.map(|(pane, _)| (pane + 1..hides_from).filter_map(at).collect::<Vec<_>>()).unwrap_or_default();
    counts.filter(|p| !pane.contains(p)).map(|p| (p.y - eye.y) / (p.x - eye.x)).max_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::testing::*;

    /// Ahead of the axle: a roof at 1450, a pane in two parts from (-1000, 1400) over (-500, 1200) to its foot at
    /// (0, 950), a bonnet to (800, 850), the front at 850.
    const SIDE: [(f64, f64); 9] = [
        (-3_400.0, 150.0),
        (850.0, 150.0),
        (850.0, 700.0),
        (800.0, 850.0),
        (0.0, 950.0),
        (-500.0, 1_200.0),
        (-1_000.0, 1_400.0),
        (-1_500.0, 1_450.0),
        (-3_400.0, 1_450.0),
    ];

    fn camera() -> Arrangement {
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        arrangement.vehicle.outline_side = SIDE.map(DVec2::from).into();
        arrangement.sensor.kind = SensorKind::ForwardCamera(Camera { pixels_across: 1280, pixels_down: 960 });
        arrangement.sensor.at = DVec3::new(-900.0, 0.0, 1_300.0);
        let placement = &mut arrangement.aiming.placements[0];
        placement.target.kind = TargetKind::Board;
        placement.stand_off.from = Datum::FrontAxle;
        arrangement
    }

    /// From (-900, 1300) the foot of the pane is the steepest: it falls 350 in 900, the bonnet's end 450 in 1700, which is
    /// less steep: -0.2647. 4900 mm ahead, at x = 4000, that is 1300 - 1297.06 = 2.94 mm above the floor.
    #[test]
    fn the_bonnet_hides_what_is_low() {
        let side: Vec<DVec2> = SIDE.map(DVec2::from).into();
        let eye = DVec2::new(-900.0, 1_300.0);
        let slope = steepest(&side, eye).unwrap();
        assert!((slope - -450.0 / 1_700.0).abs() < 1e-12, "{slope}");
        // The other way round it is the same body.
        let turned: Vec<DVec2> = side.iter().rev().copied().collect();
        assert_eq!(steepest(&turned, eye), Some(slope));
        // On the roof's height all of the body ahead is lower; beyond the front there is none.
        assert!(steepest(&side, DVec2::new(-1_400.0, 1_460.0)).unwrap() > slope);
        assert_eq!(steepest(&side, DVec2::new(900.0, 650.0)), None);
    }

    #[test]
    fn a_board_that_the_bonnet_hides() {
        let mut arrangement = camera();
        // The board is 500 mm high, 1500 mm ahead of the axle: 2400 ahead of the camera the line is at 664.7 mm.
        arrangement.aiming.placements[0].stand_off.distance_mm = 1_500.0;
        arrangement.aiming.placements[0].height = TargetHeight::Absolute(1_000.0);
        none(&arrangement, Code::SightBlocked);
        arrangement.aiming.placements[0].height = TargetHeight::Absolute(700.0);
        let line = 1_300.0 - 2_400.0 * 450.0 / 1_700.0;
        let hidden = (line - 450.0) / 500.0;
        let found = check(&arrangement, Code::SightBlocked, Severity::Stops, Some(hidden));
        assert_eq!(found.subjects[0], Subject::Car);
        arrangement.vehicle.assumed.push(BodyPart::OutlineSide.into());
        check(&arrangement, Code::SightBlocked, Severity::Care, Some(hidden));
        // A radar behind the bumper, or in the same place, is not hidden by the body.
        arrangement.sensor.kind = radar().kind;
        none(&arrangement, Code::SightBlocked);
    }

    /// A camera at the very nose, or flush in the upright front, has nothing ahead of it.
    #[test]
    fn a_camera_in_the_front_sees_down() {
        let side: Vec<DVec2> = SIDE.map(DVec2::from).into();
        assert_eq!(steepest(&side, DVec2::new(840.0, 500.0)), None);
    }
}
