//! A target that does not stand where it belongs, and what that does to the aim.
//!
//! Rule: the aim error that the target's place and turn cause stays within the aiming's tolerance, and place, height
//! and turn stay within what the procedure allows. What makes an aim error follows the target's kind: a corner
//! reflector aims by where it is, a plate larger than its mirror spot by its squareness, a board as its procedure
//! says. More than half of a tolerance needs care: laying the marks and setting the sensor want their share too
//! (common practice, no source).
//! Limit: the aiming's tolerances.

use baywright_geometry::{DVec3, angle};

use super::{Check, Context, finding};
use crate::assessment::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use crate::model::Placement;
use crate::scene::{PlacedTarget, TargetPose};

/// From this share of a tolerance on, care is needed.
const CARE_FROM: f64 = 0.5;
/// Further off than this needs care even where the procedure names no limit: a target's place is asked within 1 to
/// 10 mm (common practice, no source).
const UNLIMITED_MM: f64 = 10.0;

pub(super) const CHECK: Check = Check { codes: &[Code::StandOffMark], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let sensor = context.scene.sensor();
    for (placement, target) in context.arrangement.aiming.placements.iter().zip(&context.scene.targets) {
        if target.set == target.meant {
            continue;
        }
        let off = OffPlace::of(placement, target, sensor);
        let judged = off.worst(context, placement).map(|(about, measured, limit)| {
            let severity = if measured.abs() > limit { Severity::Stops } else { Severity::Care };
            (about, measured, limit, severity)
        });
        let unlimited =
            off.unlimited(placement).map(|(about, measured, limit)| (about, measured, limit, Severity::Care));
        let stops = judged.filter(|(_, _, _, severity)| *severity == Severity::Stops);
        let Some((about, measured, limit, severity)) = stops.or(unlimited).or(judged) else { continue };
        let basis = match (stops.is_none(), unlimited) {
            (true, Some(_)) => Basis::CommonPractice,
            _ => Basis::Procedure(context.arrangement.aiming.provenance.clone()),
        };
        let quantity = |value: f64| match about {
            OffBy::Along | OffBy::Across | OffBy::Height => Quantity::Length(value.abs()),
            OffBy::Azimuth | OffBy::Elevation | OffBy::Yaw | OffBy::Pitch => Quantity::Angle(value.abs()),
        };
        findings.push(
            finding(
                Facts::StandOffMark(OffPlace { about, ..off }),
                severity,
                vec![Subject::Stand(target.id.clone()), Subject::Target(target.id.clone())],
                target.centre(),
                basis,
            )
            .against(quantity(measured), quantity(limit)),
        );
    }
}

/// How a target stands off its place, in the target's own directions, and what that does to the aim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffPlace {
    /// Away from the sensor, mm.
    pub along: f64,
    /// To the left seen from the sensor, mm.
    pub across: f64,
    /// Too high, mm.
    pub height: f64,
    /// Turned anticlockwise, radians.
    pub yaw: f64,
    /// Tipped with the face down, radians.
    pub pitch: f64,
    /// Error of the aim left or right, never negative, radians.
    pub azimuth_error: f64,
    /// Error of the aim up or down, never negative, radians.
    pub elevation_error: f64,
    /// Which of these the finding is about.
    pub about: OffBy,
}

/// What about a target is off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OffBy {
    /// The aim error left or right.
    Azimuth,
    /// The aim error up or down.
    Elevation,
    /// The place along.
    Along,
    /// The place across.
    Across,
    /// The height.
    Height,
    /// The turn.
    Yaw,
    /// The tip.
    Pitch,
}

impl OffPlace {
    fn of(placement: &Placement, target: &PlacedTarget, sensor: DVec3) -> Self {
        // A reflector aims by its centre, which swings up behind a face that is tipped down.
        let aims = |pose: &TargetPose| {
            let (sin, cos) = angle::sin_cos(pose.pitch);
            let outward = (pose.place.ahead() * cos).extend(-sin);
            pose.place.origin().extend(pose.height) - outward * placement.target.centre_behind
        };
        let (meant, set) = (aims(&target.meant), aims(&target.set));
        // Along and across as the sensor sees them: away from it, and to the left.
        let away = (meant - sensor).truncate().normalize_or(-target.meant.place.ahead());
        let shift = (set - meant).truncate();
        let yaw = angle::wrapped(target.set.place.heading() - target.meant.place.heading());
        let pitch = target.set.pitch - target.meant.pitch;
        let azimuth = |p: DVec3| angle::heading((p - sensor).truncate());
        let elevation = |p: DVec3| libm::atan2(p.z - sensor.z, (p - sensor).truncate().length());
        let rule = placement.target.error;
        Self {
            along: shift.dot(away),
            across: away.perp_dot(shift),
            height: set.z - meant.z,
            yaw,
            pitch,
            azimuth_error: rule.by_place * angle::wrapped(azimuth(set) - azimuth(meant)).abs()
                + rule.by_squareness * yaw.abs(),
            elevation_error: rule.by_place * (elevation(set) - elevation(meant)).abs()
                + rule.by_squareness * pitch.abs(),
            about: OffBy::Azimuth,
        }
    }

    /// What uses up most of its tolerance, if that is worth speaking of.
    fn worst(&self, context: &Context<'_>, placement: &Placement) -> Option<(OffBy, f64, f64)> {
        let aim = &context.arrangement.aiming.tolerance;
        let place = &placement.tolerance;
        [
            (OffBy::Azimuth, self.azimuth_error, Some(aim.azimuth)),
            (OffBy::Elevation, self.elevation_error, Some(aim.elevation)),
            (OffBy::Along, self.along, place.along),
            (OffBy::Across, self.across, place.across),
            (OffBy::Height, self.height, place.height),
            (OffBy::Yaw, self.yaw, place.yaw),
            (OffBy::Pitch, self.pitch, place.pitch),
        ]
        .into_iter()
        .filter_map(|(about, measured, limit)| Some((about, measured, limit?)))
        .filter(|(_, measured, limit)| measured.abs() > limit * CARE_FROM)
        .max_by(|a, b| (a.1.abs() / a.2).total_cmp(&(b.1.abs() / b.2)))
    }

    /// What is far off though the procedure names no limit for it.
    fn unlimited(&self, placement: &Placement) -> Option<(OffBy, f64, f64)> {
        let place = &placement.tolerance;
        [
            (OffBy::Along, self.along, place.along),
            (OffBy::Across, self.across, place.across),
            (OffBy::Height, self.height, place.height),
        ]
        .into_iter()
        .filter(|(_, measured, limit)| limit.is_none() && measured.abs() > UNLIMITED_MM)
        .map(|(about, measured, _)| (about, measured, UNLIMITED_MM))
        .max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
    }
}
