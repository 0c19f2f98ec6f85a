//! How high a target's own floor lies against the plane of the wheels.

use super::spots::Spot;
use super::tilt::Wheels;
use super::{care_of, no_cure};
use crate::check::finding::{Finding, Quantity};
use crate::check::{Context, FloorFact, SPEAKS_FROM_MM};

/// How far off in height a target may be, as the procedure says or as its place makes the aim go off.
fn height_limit(context: &Context<'_>, index: usize) -> Option<f64> {
    let (arrangement, scene) = (context.arrangement, context.scene);
    let placement = arrangement.aiming.placements.get(index)?;
    if let Some(limit) = placement.tolerance.height_mm {
        return Some(limit);
    }
    let by_place = placement.target.error.by_place;
    let away = scene.targets.get(index)?.centre().truncate().distance(scene.sensor().truncate());
    // Under an angle of this many times its share the aim is off by its tolerance.
    let seen = (by_place > 0.0).then(|| (arrangement.aiming.tolerance.elevation_rad / by_place).min(1.0))?;
    Some(away * libm::tan(seen))
}

pub(super) fn target_height(
    context: &Context<'_>,
    wheels: &Wheels,
    index: usize,
    target: &Spot,
) -> Option<Finding> {
    let (level, limit) = (target.level?, height_limit(context, index)?);
    if context.scene.targets.get(index)?.lies {
        return None;
    }
    let (plane, plane_within) = wheels.figure(|stance| stance.plane.at(target.at));
    let (off, within) = (level.level_mm - plane, libm::hypot(plane_within, level.within_mm));
    let high = off > 0.0;
    let say = |fact: FloorFact, by: f64| {
        care_of(context, fact, vec![target.of.clone()], target.at)
            .against(Quantity::Length(by), Quantity::Length(limit))
    };
    if off.abs() > limit + SPEAKS_FROM_MM {
        Some(no_cure(say(FloorFact::TargetOff { high }, off.abs())))
    } else {
        (off.abs() + within > limit + SPEAKS_FROM_MM)
            .then(|| say(FloorFact::TargetMaybeOff { high }, off.abs() + within))
    }
}

#[cfg(test)]
mod tests {
    use crate::check::floor_levels::testing::*;
    use crate::check::testing::*;

    /// By hand: the floor falls by 2 mm a metre up to x = 5 m and is level beyond. The plane of the wheels at the target,
    /// 4.8 m ahead of the front axle, lies 9.6 mm below the front wheels; the floor there 2 mm.
    #[test]
    fn the_height_of_a_target_is_meant_above_the_plane_of_the_wheels() {
        let mut arrangement = with_levels(|p| -0.002 * p.x.min(5_000.0));
        arrangement.aiming.floor = Some(FloorRequirement::level(40.0));
        none(&arrangement, Code::FloorLevels);
        let limits = |height: f64| {
            let mut arrangement = arrangement.clone();
            arrangement.aiming.placements[0].tolerance.height_mm = Some(height);
            arrangement
        };
        only(&limits(7.5), FloorFact::TargetOff { high: true }, Severity::Care, Some(7.6));
        none(&limits(12.0), Code::FloorLevels);
        // A reflector aims by its place: 0.1° at 4 m are 7 mm.
        arrangement.aiming.placements[0].target.error = AimError::PLACE;
        only(&arrangement, FloorFact::TargetOff { high: true }, Severity::Care, Some(7.6));
    }
}
