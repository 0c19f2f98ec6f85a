//! How high a target's own floor lies against the plane of the wheels.

use baywright_geometry::DVec2;

use super::tilt::{Figure, Wheels};
use super::{by_the_car, care_of, no_cure, of_procedure, subject};
use crate::check::finding::{Basis, Finding, Quantity, Severity};
use crate::check::wheels::UNEVEN_MM;
use crate::check::{Context, FloorFact, SPEAKS_FROM_MM};
use crate::ground::spots::Spot;

/// Straight down is looked at no more, rad: what lies higher or lower there is not seen elsewhere.
const STEEPEST_RAD: f64 = 1.57;

/// How far off in height a target may be, as the procedure says or as its place makes the aim go off; else, where nothing is
/// asked of the floor either, as far as one wheel may stand higher than the others. With whose figure it is.
pub(super) fn height_limit(context: &Context<'_>, index: usize) -> Option<(f64, Basis)> {
    let own = own_limit(context, index).map(|limit| (limit, of_procedure(context)));
    let unasked = || context.arrangement.aiming.floor.is_none().then_some((UNEVEN_MM, Basis::CommonPractice));
    own.or_else(unasked)
}

fn own_limit(context: &Context<'_>, index: usize) -> Option<f64> {
    let (arrangement, scene) = (context.arrangement, context.scene);
    let placement = arrangement.aiming.placements.get(index)?;
    if let Some(limit) = placement.tolerance.height_mm {
        return Some(limit);
    }
    let by_place = placement.target.error.by_place;
    let target = scene.targets.get(index)?;
    let away = target.centre().truncate().distance(scene.sensor().truncate());
    // Under an angle of this many times its share the aim is off by its tolerance.
    let seen = (by_place > 0.0).then(|| (arrangement.aiming.tolerance.elevation_rad / by_place).min(1.0))?;
    if !target.lies {
        return Some(away * libm::tan(seen));
    }
    // Down on a mat a camera looks under an angle; of both ways the nearer.
    let above = scene.sensor().z - target.centre().z;
    let down = libm::atan2(above, away);
    let higher = above - away * libm::tan(down - seen);
    let steeper = (down + seen).min(STEEPEST_RAD);
    Some(higher.min(away * libm::tan(steeper) - above).max(0.0))
}

/// How high the plane of the wheels lies where a target stands.
pub(super) fn over_plane(wheels: &Wheels, target: DVec2) -> Figure {
    wheels.figure(|stance| stance.plane.at(target))
}

pub(super) fn target_height(
    context: &Context<'_>,
    wheels: &Wheels,
    index: usize,
    target: &Spot,
) -> Option<Finding> {
    let level = target.level?;
    let (limit, basis) = height_limit(context, index)?;
    let plane = over_plane(wheels, target.at);
    let (off, within) = (level.level_mm - plane.value, libm::hypot(plane.within, level.within_mm));
    let moved = plane.moved + target.moved_mm;
    let most = off.abs() + within + moved;
    let high = off > 0.0;
    let lies = context.scene.targets.get(index)?.lies;
    // Under a raised car that is said of the mat already, whatever the floor.
    if lies && context.is_raised() {
        return None;
    }
    let say = |fact: FloorFact, by: f64| {
        let found = care_of(context, fact, vec![subject(&target.of)], target.at);
        let found = Finding { basis: basis.clone(), ..found };
        found.against(Quantity::Length(by), Quantity::Length(limit))
    };
    let (is_off, may_be_off) = match lies {
        true => (FloorFact::MatOff { high }, FloorFact::MatMaybeOff { high }),
        false => (FloorFact::TargetOff { high }, FloorFact::TargetMaybeOff { high }),
    };
    if off.abs() > limit + SPEAKS_FROM_MM {
        let found = no_cure(say(is_off, off.abs()));
        let stops = lies && basis != Basis::CommonPractice;
        Some(if stops { Finding { severity: Severity::Stops, ..found } } else { found })
    } else {
        (most > limit + SPEAKS_FROM_MM)
            .then(|| by_the_car(context, say(may_be_off, most), most - limit, moved))
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
        arrangement.aiming.placements[0].vertical = VerticalReference::WheelsPlane;
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

    /// A plate aims by its squareness, and nothing is asked of the floor: 27 mm lower than the wheels' plane it is still no
    /// target for this car.
    #[test]
    fn a_floor_of_which_nothing_is_asked_is_no_step() {
        let step = |mm: f64| {
            let mut arrangement = with_levels(|p| if p.x > 6_000.0 { -mm } else { 0.0 });
            arrangement.aiming.floor = None;
            arrangement
        };
        only(&step(27.0), FloorFact::TargetOff { high: false }, Severity::Care, Some(27.0));
        none(&step(20.0), Code::FloorLevels);
    }

    /// A mat whose middle lies 1500 mm ahead of a camera 500 mm up: it looks 18.43° down. A tenth of a degree less is 500 -
    /// 1500 · tan 18.335° = 2.9 mm higher. The floor ahead of the car is 4 mm up.
    #[test]
    fn a_mat_is_no_higher_than_the_wheels() {
        let mut arrangement = with_levels(|p| if p.x > 4_900.0 { 4.0 } else { 0.0 });
        arrangement.aiming.zones.clear();
        arrangement.aiming.mark_plan.clear();
        arrangement.aiming.floor = None;
        arrangement.sensor.kind =
            SensorKind::SurroundCamera(Camera { pixels_across: 1_280, pixels_down: 960 });
        let placement = &mut arrangement.aiming.placements[0];
        placement.target = Target { stand: None, ..target(TargetKind::Mat, AimError::PLACE) };
        (placement.target.depth_mm, placement.target.width_mm) = (1.0, 1_000.0);
        (placement.height, placement.mark) = (TargetHeight::OnFloor, None);
        placement.stand_off.distance_mm = 1_500.0;
        let found = facts(&arrangement);
        assert_eq!(found, [(FloorFact::MatOff { high: true }, Severity::Stops)]);
        let limit = |mm: f64| {
            let mut arrangement = arrangement.clone();
            arrangement.aiming.placements[0].tolerance.height_mm = Some(mm);
            facts(&arrangement)
        };
        assert_eq!(limit(3.9), [(FloorFact::MatOff { high: true }, Severity::Stops)]);
        // Beside a step the levels are not that well known.
        assert_eq!(limit(4.1), [(FloorFact::MatMaybeOff { high: true }, Severity::Care)]);
        assert!(limit(8.0).is_empty());
        survey_of(&mut arrangement, |points| points.iter_mut().for_each(|p| p.level_mm *= 0.3));
        none(&arrangement, Code::FloorLevels);
    }
}
