//! A target that is set by the plumb line before a car that stands tilted.
//!
//! Rule: what is upright by the plumb line is not upright for a car whose wheels' plane is tilted. Seen from the car it is tipped
//! by the pitch of that plane along the line from sensor to target, which a plate aims by; and as high as it stands over the
//! plane it is shifted along and across, which a reflector aims by (the sensor, which goes with the car, is not shifted with
//! it). A printed board hangs askew in the picture by the roll as well.
//! Limit: the aiming's tolerances and the target's own. Where the aiming says how far the floor may be tilted that way, that is
//! the limit, and the check of the car's own tilt has it. For a board's roll the aim's up/down tolerance stands in, which needs
//! care at most (common practice, no source).

use baywright_geometry::angle;
use baywright_survey::Stance;

use super::tilt::{Figure, SPEAKS_FROM_RAD, Wheels};
use super::{by_the_car, care_of, no_cure};
use crate::check::finding::{Finding, Quantity, Severity, Subject};
use crate::check::{Context, FloorFact, OffBy, SPEAKS_FROM_MM};
use crate::model::{TargetKind, VerticalReference};

/// What is off, by how much, how surely, and how far it may be.
pub(super) struct Off {
    by: OffBy,
    pub(super) value: f64,
    within: f64,
    /// By how much more if the car stands elsewhere.
    pub(super) moved: f64,
    pub(super) limit: f64,
    pub(super) stops: bool,
}

impl Off {
    /// From what share of the limit on it is spoken of.
    pub(super) fn slack(&self) -> f64 {
        if is_length(self.by) { SPEAKS_FROM_MM } else { SPEAKS_FROM_RAD }
    }

    fn is_off(&self) -> bool {
        self.value > self.limit + self.slack()
    }

    fn may_be_off(&self) -> bool {
        self.most() > self.limit + self.slack()
    }

    fn most(&self) -> f64 {
        self.value + self.within + self.moved
    }

    fn share(&self) -> f64 {
        self.most() / self.limit
    }
}

const fn is_length(by: OffBy) -> bool {
    match by {
        OffBy::Along | OffBy::Across | OffBy::Height => true,
        OffBy::Azimuth | OffBy::Elevation | OffBy::Yaw | OffBy::Pitch | OffBy::Roll => false,
    }
}

/// The worst that the tilt of the plane of the wheels makes of one target.
pub(super) fn target_plumb(context: &Context<'_>, wheels: &Wheels, index: usize) -> Option<Finding> {
    let all = offs(context, wheels, index)?;
    let target = context.scene.targets.get(index)?;
    let worst = |of: fn(&Off) -> bool| {
        all.iter().filter(|own| of(own)).max_by(|a, b| a.share().total_cmp(&b.share()))
    };
    let say = |fact: FloorFact, off: &Off, by: f64| {
        let quantity =
            |value: f64| if is_length(off.by) { Quantity::Length(value) } else { Quantity::Angle(value) };
        let of = vec![Subject::Target(target.id.clone())];
        care_of(context, fact, of, target.set.place.origin()).against(quantity(by), quantity(off.limit))
    };
    if let Some(off) = worst(|own| own.stops && own.is_off()).or_else(|| worst(Off::is_off)) {
        let found = no_cure(say(FloorFact::PlumbOff(off.by), off, off.value));
        return Some(if off.stops { Finding { severity: Severity::Stops, ..found } } else { found });
    }
    let off = worst(Off::may_be_off)?;
    let found = say(FloorFact::PlumbMaybeOff(off.by), off, off.most());
    Some(by_the_car(context, found, off.most() - off.limit, off.moved))
}

/// All that the tilt does to one target; `None` of one that is not set by the plumb line.
pub(super) fn offs(context: &Context<'_>, wheels: &Wheels, index: usize) -> Option<Vec<Off>> {
    let (aiming, scene) = (&context.arrangement.aiming, context.scene);
    let (placement, target) = (aiming.placements.get(index)?, scene.targets.get(index)?);
    if placement.vertical == VerticalReference::WheelsPlane || target.lies {
        return None;
    }
    let line = target.centre().truncate() - scene.sensor().truncate();
    let away = line.length();
    let (aside, ahead) = angle::sin_cos(angle::heading(line) - scene.bay_from_vehicle.heading());
    let is_limited =
        |of: fn(&crate::model::FloorRequirement) -> Option<f64>| aiming.floor.as_ref().and_then(of).is_some();
    // A tilt for which the aiming has a limit is the car's own affair.
    let pitch_counts = if is_limited(|floor| floor.pitch_rad) { 0.0 } else { 1.0 };
    let roll_counts = if is_limited(|floor| floor.roll_rad) { 0.0 } else { 1.0 };
    let rises =
        |stance: &Stance| roll_counts * stance.roll_rad * aside - pitch_counts * stance.pitch_rad * ahead;
    let leans =
        |stance: &Stance| roll_counts * stance.roll_rad * ahead + pitch_counts * stance.pitch_rad * aside;
    let upright = |figure: Figure| Figure { value: figure.value.abs(), ..figure };
    let (tip, lean) = (upright(wheels.figure(rises)), upright(wheels.figure(leans)));
    let over = (target.set.height_mm - scene.carried_at_mm).abs();
    let own = &placement.tolerance;
    let rule = placement.target.error;
    let seen = |across: f64| libm::atan2(across, away);
    let off = |by, figure: Figure, limit: Option<f64>| {
        let Figure { value, within, moved } = figure;
        Some(Off { by, value, within, moved, limit: limit?, stops: true })
    };
    let aim = &aiming.tolerance;
    let roll_limit = own.pitch_rad.unwrap_or(aim.elevation_rad);
    let roll = (placement.target.kind == TargetKind::Board).then_some(roll_limit);
    let shifted = |by: f64| over * by;
    let all = [
        off(OffBy::Pitch, tip, own.pitch_rad),
        off(OffBy::Along, tip.map(shifted), own.along_mm),
        off(OffBy::Across, lean.map(shifted), own.across_mm),
        off(OffBy::Elevation, tip.map(|by| rule.by_squareness * by), Some(aim.elevation_rad)),
        off(OffBy::Azimuth, lean.map(|by| rule.by_place * seen(shifted(by))), Some(aim.azimuth_rad)),
        off(OffBy::Roll, lean, roll).map(|own| Off { stops: false, ..own }),
    ];
    Some(all.into_iter().flatten().collect())
}

#[cfg(test)]
mod tests {
    use crate::OffBy;
    use crate::check::floor_levels::testing::*;
    use crate::check::testing::*;

    /// Nothing is asked of the floor; it falls as given.
    fn falls(kind: TargetKind, error: AimError, level: impl Fn(DVec2) -> f64) -> Arrangement {
        let mut arrangement = with_levels(level);
        arrangement.aiming.floor = None;
        arrangement.aiming.placements[0].target = target(kind, error);
        arrangement.aiming.placements[0].tolerance = PlaceTolerance::default();
        arrangement
    }

    fn said(arrangement: &Arrangement) -> Vec<(OffBy, Severity)> {
        let of = |(fact, severity)| match fact {
            FloorFact::PlumbOff(by) | FloorFact::PlumbMaybeOff(by) => Some((by, severity)),
            _ => None,
        };
        facts(arrangement).into_iter().filter_map(of).collect()
    }

    /// 2 mm a metre along the car are 0.115°, more than the 0.1° that the aim may be off: a plumb plate is not square to it.
    #[test]
    fn a_plumb_plate_before_a_tilted_car() {
        let plate = |fall: f64| falls(TargetKind::Plate, AimError::SQUARENESS, move |p| -fall * p.x);
        let found = check(&plate(0.002), Code::FloorLevels, Severity::Stops, Some(libm::atan(0.002)));
        assert_eq!(found.facts, Facts::FloorLevels(FloorFact::PlumbOff(OffBy::Elevation)));
        assert!(said(&plate(0.001_7)).is_empty());
        // Its own tolerance, if it is less.
        let mut strict = plate(0.001_7);
        strict.aiming.placements[0].tolerance.pitch_rad = Some(angle::radians(0.09));
        assert_eq!(said(&strict), [(OffBy::Pitch, Severity::Stops)]);
        // Set by the plane of the wheels it is square; and where the aiming limits the floor's fall, that is the limit.
        let mut square = plate(0.002);
        square.aiming.placements[0].vertical = VerticalReference::WheelsPlane;
        assert!(said(&square).is_empty());
        let mut limited = plate(0.002);
        limited.aiming.floor =
            Some(FloorRequirement { level_mm: 40.0, pitch_rad: Some(angle::radians(0.2)), roll_rad: None });
        assert!(said(&limited).is_empty());
        // A fall across the car turns it about the line of sight, which is nothing to a plate.
        let aside = falls(TargetKind::Plate, AimError::SQUARENESS, |p| 0.05 * p.y);
        assert!(said(&aside).is_empty());
    }

    /// 5 % across: a reflector 500 mm up, plumb over its mark, is 500 · 0.05 = 25 mm aside of where the tilted car looks, at 4 m
    /// 0.36°. A board hangs askew by 2.9°.
    #[test]
    fn a_plumb_reflector_before_a_car_that_leans() {
        let reflector = |fall: f64| falls(TargetKind::CornerReflector, AimError::PLACE, move |p| fall * p.y);
        let found =
            of(&assess(&reflector(0.05)), Code::FloorLevels).first().map(|found| (*found).clone()).unwrap();
        assert_eq!(found.facts, Facts::FloorLevels(FloorFact::PlumbOff(OffBy::Azimuth)));
        let off = number(found.measured.unwrap());
        assert!((off - libm::atan2(500.0 * libm::atan(0.05), 4_000.0)).abs() < 1e-9, "{off}");
        // 0.1° at 4 m are 6.98 mm: 500 mm at 1.396 %.
        assert!(said(&reflector(0.013_9)).is_empty());
        assert_eq!(said(&reflector(0.014_1)), [(OffBy::Azimuth, Severity::Stops)]);
        let mut across = reflector(0.013);
        across.aiming.placements[0].tolerance.across_mm = Some(6.0);
        assert_eq!(said(&across), [(OffBy::Across, Severity::Stops)]);
        let board = falls(TargetKind::Board, AimError::SQUARENESS, |p| 0.01 * p.y);
        assert_eq!(said(&board), [(OffBy::Roll, Severity::Care)]);
    }
}
