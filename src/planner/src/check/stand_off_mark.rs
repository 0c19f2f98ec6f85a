//! A target that does not stand where it belongs, and what that does to the aim.
//!
//! Rule: the aim error that the target's place and turn cause stays within the aiming's tolerance, and place, height
//! and turn stay within what the procedure allows. What makes an aim error follows the target's kind: a corner
//! reflector aims by where it is, a plate larger than its mirror spot by its squareness, a board as its procedure
//! says. More than the shop's own share of a tolerance needs care, half of it by default: laying the marks and setting the
//! sensor want their share too. So does a place further off than the shop's own `target_off_mm` where the procedure
//! names no limit. A target that aims by its place alone may be turned, but still has to look at the sensor.
//! Limit: the aiming's tolerances.

use baywright_geometry::{DVec3, angle};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding};
use crate::model::{Placement, ShopFigure, TargetKind};
use crate::scene::{PlacedTarget, TargetPose};

/// How far a target that aims by its place may be turned or tipped where nobody says, rad: 20°. A corner reflector of three plates
/// sends back half as much about there, its pattern being some 40° wide between the -3 dB points (radar handbooks; from memory).
const TURNED_RAD: f64 = 20.0 * std::f64::consts::PI / 180.0;
/// Turned by as much it is looked at along one of its plates, and no wave meets all three, rad: the upright plates stand 45° to
/// either side of its middle.
const BLIND_RAD: f64 = std::f64::consts::FRAC_PI_4;

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
        let unlimited = off
            .unlimited(context, placement)
            .map(|(about, measured, limit)| (about, measured, limit, Severity::Care));
        let turned = off.turned(placement);
        let procedure = || Basis::Procedure(context.arrangement.aiming.provenance.clone());
        let judged = judged.map(|own| (own, procedure()));
        let unlimited = unlimited.map(|own| (own, Basis::Shop(ShopFigure::TargetOff)));
        let turned = turned.map(|own| (own, Basis::CommonPractice));
        // Of the same severity the first is told.
        let all = [judged.clone().filter(|(own, _)| own.3 == Severity::Stops), turned, unlimited, judged];
        let worst = all.into_iter().flatten().min_by_key(|((.., severity), _)| *severity);
        let Some(((about, measured, limit, severity), basis)) = worst else { continue };
        let quantity = |value: f64| match about {
            OffBy::Along | OffBy::Across | OffBy::Height => Quantity::Length(value.abs()),
            OffBy::Azimuth | OffBy::Elevation | OffBy::Yaw | OffBy::Pitch | OffBy::Roll => {
                Quantity::Angle(value.abs())
            }
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
    pub along_mm: f64,
    /// To the left seen from the sensor, mm.
    pub across_mm: f64,
    /// Too high, mm.
    pub height_mm: f64,
    /// Turned anticlockwise, radians.
    pub yaw_rad: f64,
    /// Tipped with the face down, radians.
    pub pitch_rad: f64,
    /// Error of the aim left or right, never negative, radians.
    pub azimuth_error_rad: f64,
    /// Error of the aim up or down, never negative, radians.
    pub elevation_error_rad: f64,
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
    /// Hung askew, one side higher.
    Roll,
}

impl OffPlace {
    fn of(placement: &Placement, target: &PlacedTarget, sensor: DVec3) -> Self {
        // A reflector aims by its centre, which swings up behind a face that is tipped down.
        let aims = |pose: &TargetPose| {
            let (sin, cos) = angle::sin_cos(pose.pitch_rad);
            let outward = (pose.place.forward() * cos).extend(-sin);
            pose.place.origin().extend(pose.height_mm) - outward * placement.target.centre_behind_mm
        };
        let (meant, set) = (aims(&target.meant), aims(&target.set));
        // Along and across as the sensor sees them: away from it, and to the left.
        let away = (meant - sensor).truncate().normalize_or(-target.meant.place.forward());
        let shift = (set - meant).truncate();
        let yaw = angle::wrapped(target.set.place.heading() - target.meant.place.heading());
        let pitch = target.set.pitch_rad - target.meant.pitch_rad;
        let azimuth = |p: DVec3| angle::heading((p - sensor).truncate());
        let elevation = |p: DVec3| libm::atan2(p.z - sensor.z, (p - sensor).truncate().length());
        let rule = placement.target.error;
        Self {
            along_mm: shift.dot(away),
            across_mm: away.perp_dot(shift),
            height_mm: set.z - meant.z,
            yaw_rad: yaw,
            pitch_rad: pitch,
            azimuth_error_rad: rule.by_place * angle::wrapped(azimuth(set) - azimuth(meant)).abs()
                + rule.by_squareness * yaw.abs(),
            elevation_error_rad: rule.by_place * (elevation(set) - elevation(meant)).abs()
                + rule.by_squareness * pitch.abs(),
            about: OffBy::Azimuth,
        }
    }

    /// What uses up most of its tolerance, if that is worth speaking of.
    fn worst(&self, context: &Context<'_>, placement: &Placement) -> Option<(OffBy, f64, f64)> {
        let care_from = context.arrangement.shop.tolerance_share;
        let aim = &context.arrangement.aiming.tolerance;
        let place = &placement.tolerance;
        [
            (OffBy::Azimuth, self.azimuth_error_rad, Some(aim.azimuth_rad)),
            (OffBy::Elevation, self.elevation_error_rad, Some(aim.elevation_rad)),
            (OffBy::Along, self.along_mm, place.along_mm),
            (OffBy::Across, self.across_mm, place.across_mm),
            (OffBy::Height, self.height_mm, place.height_mm),
            (OffBy::Yaw, self.yaw_rad, place.yaw_rad),
            (OffBy::Pitch, self.pitch_rad, place.pitch_rad),
        ]
        .into_iter()
        .filter_map(|(about, measured, limit)| Some((about, measured, limit?)))
        .filter(|(_, measured, limit)| measured.abs() > limit * care_from)
        .max_by(|a, b| (a.1.abs() / a.2).total_cmp(&(b.1.abs() / b.2)))
    }

    /// What is turned or tipped far though neither the procedure nor the aim has a limit for it.
    fn turned(&self, placement: &Placement) -> Option<(OffBy, f64, f64, Severity)> {
        if placement.target.error.by_squareness > 0.0 {
            return None;
        }
        let place = &placement.tolerance;
        let turns =
            [(OffBy::Yaw, self.yaw_rad, place.yaw_rad), (OffBy::Pitch, self.pitch_rad, place.pitch_rad)];
        let free = turns.into_iter().filter(|(_, by, limit)| limit.is_none() && by.abs() > TURNED_RAD);
        let (about, by, _) = free.max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?;
        let is_blind = placement.target.kind == TargetKind::CornerReflector && by.abs() > BLIND_RAD;
        Some(match is_blind {
            true => (about, by, BLIND_RAD, Severity::Stops),
            false => (about, by, TURNED_RAD, Severity::Care),
        })
    }

    /// What is far off though the procedure names no limit for it.
    fn unlimited(&self, context: &Context<'_>, placement: &Placement) -> Option<(OffBy, f64, f64)> {
        let unlimited = context.arrangement.shop.target_off_mm;
        let place = &placement.tolerance;
        [
            (OffBy::Along, self.along_mm, place.along_mm),
            (OffBy::Across, self.across_mm, place.across_mm),
            (OffBy::Height, self.height_mm, place.height_mm),
        ]
        .into_iter()
        .filter(|(_, measured, limit)| limit.is_none() && measured.abs() > unlimited)
        .map(|(about, measured, _)| (about, measured, unlimited))
        .max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    fn azimuth_error(arrangement: &Arrangement) -> f64 {
        let assessment = assess(arrangement);
        let found = of(&assessment, Code::StandOffMark);
        let Facts::StandOffMark(OffPlace { azimuth_error_rad: azimuth_error, .. }) = found[0].facts else {
            panic!()
        };
        angle::degrees(azimuth_error)
    }

    /// Common practice, no source: 0.1° at 4 m is 7 mm across (4000 · tan 0.1° = 6.98 mm).
    #[test]
    fn a_reflector_aims_by_its_place() {
        let mm = 4000.0 * libm::tan(angle::radians(0.1));
        assert!((mm - 6.98).abs() < 0.005);
        let reflector =
            |across| off(TargetKind::CornerReflector, AimError::PLACE, [0.0, across, 0.0, 0.0, 0.0]);
        assert!((azimuth_error(&reflector(mm)) - 0.1).abs() < 1e-9);
        check(&reflector(6.9), Code::StandOffMark, Severity::Care, None);
        check(&reflector(-7.1), Code::StandOffMark, Severity::Stops, None);
        none(&reflector(3.4), Code::StandOffMark);
        // How it is turned does not matter.
        none(
            &off(TargetKind::CornerReflector, AimError::PLACE, [0.0, 0.0, 0.0, 5.0, 5.0]),
            Code::StandOffMark,
        );
    }

    /// Common practice, no source: a tenth of a degree over a 500 mm plate is 0.9 mm between its two ends.
    #[test]
    fn a_plate_aims_by_its_squareness() {
        let plate = |by| off(TargetKind::Plate, AimError::SQUARENESS, by);
        let yaw = angle::degrees(libm::asin(0.873 / 500.0));
        assert!((yaw - 0.1).abs() < 1e-4);
        assert!((azimuth_error(&plate([0.0, 0.0, 0.0, yaw, 0.0])) - yaw).abs() < 1e-9);
        check(&plate([0.0, 0.0, 0.0, 0.11, 0.0]), Code::StandOffMark, Severity::Stops, None);
        let tipped = check(&plate([0.0, 0.0, 0.0, 0.0, -0.2]), Code::StandOffMark, Severity::Stops, None);
        let Facts::StandOffMark(OffPlace { about, .. }) = tipped.facts else { panic!() };
        assert_eq!(about, OffBy::Elevation);
        // Its place does not matter to the aim; only what the procedure allows counts.
        none(&plate([9.0, 9.0, 9.0, 0.0, 0.0]), Code::StandOffMark);
        // Where it says nothing, more than 10 mm is worth a second look.
        check(&plate([30.0, 12.0, 0.0, 0.0, 0.0]), Code::StandOffMark, Severity::Care, Some(30.0));
        let mut placed = plate([0.0, 30.0, 0.0, 0.0, 0.0]);
        placed.aiming.placements[0].tolerance.across_mm = Some(20.0);
        check(&placed, Code::StandOffMark, Severity::Stops, Some(30.0));
    }

    #[test]
    fn a_board_adds_both_without_sign() {
        let both = AimError { by_place: 1.0, by_squareness: 0.5 };
        for yaw in [0.2, -0.2] {
            let board =
                off(TargetKind::Board, both, [0.0, 4000.0 * libm::tan(angle::radians(0.1)), 0.0, yaw, 0.0]);
            assert!((azimuth_error(&board) - 0.2).abs() < 1e-9);
        }
    }

    #[test]
    fn height_tips_the_aim_of_a_reflector() {
        let found = check(
            &off(TargetKind::CornerReflector, AimError::PLACE, [0.0, 0.0, 10.0, 0.0, 0.0]),
            Code::StandOffMark,
            Severity::Stops,
            Some(libm::atan2(10.0, 4000.0)),
        );
        let Facts::StandOffMark(OffPlace { height_mm: height, about, .. }) = found.facts else { panic!() };
        assert_eq!((height, about), (10.0, OffBy::Elevation));
    }

    /// The centre of a reflector lies behind its mouth: tipped down by 3° and left at its height otherwise, the centre 80 mm
    /// behind rises by 80 sin 3° = 4.187 mm and comes 80 (1 - cos 3°) = 0.11 mm nearer.
    #[test]
    fn a_tipped_reflector_lifts_its_centre() {
        let mut tipped = off(TargetKind::CornerReflector, AimError::PLACE, [0.0, 0.0, 0.0, 0.0, 3.0]);
        tipped.aiming.placements[0].target.centre_behind_mm = 80.0;
        tipped.aiming.placements[0].tolerance.height_mm = Some(4.0);
        let rise = 80.0 * libm::sin(angle::radians(3.0));
        let found = check(&tipped, Code::StandOffMark, Severity::Stops, Some(rise));
        let Facts::StandOffMark(OffPlace {
            along_mm: along,
            height_mm: height,
            elevation_error_rad: elevation_error,
            ..
        }) = found.facts
        else {
            panic!()
        };
        assert!(
            (height - rise).abs() < 1e-9
                && (along + 80.0 * (1.0 - libm::cos(angle::radians(3.0)))).abs() < 1e-9
        );
        assert!((elevation_error - libm::atan2(rise, 4080.0 + along)).abs() < 1e-9);
    }

    /// However a reflector is turned its place stays, but at 20° half of its echo is gone, and at 45° it is looked at along a plate.
    #[test]
    fn a_reflector_still_looks_at_the_sensor() {
        let turned =
            |yaw, pitch| off(TargetKind::CornerReflector, AimError::PLACE, [0.0, 0.0, 0.0, yaw, pitch]);
        for (yaw, pitch) in [(19.9, 0.0), (0.0, -19.9)] {
            none(&turned(yaw, pitch), Code::StandOffMark);
        }
        for (yaw, pitch) in [(20.1, 0.0), (0.0, -20.1), (-44.0, 0.0)] {
            check(&turned(yaw, pitch), Code::StandOffMark, Severity::Care, None);
        }
        let found =
            check(&turned(80.0, 0.0), Code::StandOffMark, Severity::Stops, Some(angle::radians(80.0)));
        let Facts::StandOffMark(OffPlace { about, .. }) = found.facts else { panic!() };
        assert_eq!(about, OffBy::Yaw);
        // What the procedure allows is allowed.
        let mut allowed = turned(25.0, 0.0);
        allowed.aiming.placements[0].tolerance.yaw_rad = Some(angle::radians(60.0));
        none(&allowed, Code::StandOffMark);
    }
}
