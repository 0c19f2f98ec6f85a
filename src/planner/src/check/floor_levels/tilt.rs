//! How the car stands on its floor.

use baywright_geometry::{DVec2, DVec3, angle};
use baywright_survey::{Stance, stance};

use super::spots::Spots;
use super::{care_of, no_cure};
use crate::check::finding::{Finding, Quantity, Severity, Subject};
use crate::check::{Context, FloorFact};

/// Angles are spoken of from six millionths of a degree on: as far below what a level reads as [`SPEAKS_FROM_MM`].
pub(super) const SPEAKS_FROM_RAD: f64 = 1e-7;

/// Which way something is tilted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tilt {
    /// Nose down.
    NoseDown,
    /// Nose up.
    NoseUp,
    /// Left side up.
    LeftUp,
    /// Right side up.
    RightUp,
}

/// The wheel points with their levels, and how the car stands on them.
pub(super) struct Wheels {
    points: [DVec3; 4],
    within: [f64; 4],
    ahead: DVec2,
    stance: Stance,
}

impl Wheels {
    pub(super) fn of(context: &Context<'_>, spots: &Spots<'_>) -> Option<Self> {
        let known: Vec<(DVec3, f64)> = spots
            .wheels
            .iter()
            .filter_map(|spot| spot.level.map(|level| (spot.at.extend(level.level_mm), level.within_mm)))
            .collect();
        let known: [(DVec3, f64); 4] = known.try_into().ok()?;
        let (points, within) = (known.map(|(point, _)| point), known.map(|(_, within)| within));
        let ahead = angle::direction(context.scene.bay_from_vehicle.heading());
        Some(Self { points, within, ahead, stance: stance(&points, ahead)? })
    }

    /// What a figure of the stance is and how surely, each wheel's level being off by what is uncertain of it in turn.
    pub(super) fn figure(&self, of: impl Fn(&Stance) -> f64) -> (f64, f64) {
        let value = of(&self.stance);
        let off = |wheel: usize| {
            let mut points = self.points;
            if let (Some(point), Some(within)) = (points.get_mut(wheel), self.within.get(wheel)) {
                point.z += within;
            }
            stance(&points, self.ahead).map_or(0.0, |other| of(&other) - value)
        };
        (value, (0..4).map(|wheel| off(wheel) * off(wheel)).sum::<f64>().sqrt())
    }
}

pub(super) fn tilt(context: &Context<'_>, wheels: &Wheels, findings: &mut Vec<Finding>) {
    let Some(floor) = context.arrangement.aiming.floor else { return };
    let here = context.scene.bay_from_vehicle.origin();
    for (limit, (by, within), ways) in [
        (floor.pitch_rad, wheels.figure(|stance| stance.pitch_rad), [Tilt::NoseDown, Tilt::NoseUp]),
        (floor.roll_rad, wheels.figure(|stance| stance.roll_rad), [Tilt::LeftUp, Tilt::RightUp]),
    ] {
        let Some(limit) = limit else { continue };
        let way = if by >= 0.0 { ways[0] } else { ways[1] };
        let say = |fact: FloorFact, by: f64| {
            care_of(context, fact, vec![Subject::Car], here)
                .against(Quantity::Angle(by), Quantity::Angle(limit))
        };
        if by.abs() > limit + SPEAKS_FROM_RAD {
            let tilted = no_cure(say(FloorFact::Tilted(way), by.abs()));
            findings.push(Finding { severity: Severity::Stops, ..tilted });
        } else if by.abs() + within > limit + SPEAKS_FROM_RAD {
            findings.push(say(FloorFact::MaybeTilted(way), by.abs() + within));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::check::floor_levels::testing::*;
    use crate::check::testing::*;

    /// By hand: 2 mm a metre nose down are 0.115°; the floor may be 40 mm out.
    #[test]
    fn how_the_car_stands() {
        let tilted = |limit: Option<f64>, level: fn(DVec2) -> f64| {
            let mut arrangement = with_levels(level);
            let limit = limit.map(angle::radians);
            arrangement.aiming.floor =
                Some(FloorRequirement { level_mm: 40.0, pitch_rad: limit, roll_rad: limit });
            arrangement.aiming.placements[0].tolerance.height_mm = Some(50.0);
            arrangement
        };
        let by = libm::atan(0.002);
        type Fall = fn(DVec2) -> f64;
        let cases: [(Fall, Tilt); 4] = [
            (|p| -0.002 * p.x, Tilt::NoseDown),
            (|p| 0.002 * p.x, Tilt::NoseUp),
            (|p| 0.002 * p.y, Tilt::LeftUp),
            (|p| -0.002 * p.y, Tilt::RightUp),
        ];
        for (level, tilt) in cases {
            only(&tilted(Some(0.11), level), FloorFact::Tilted(tilt), Severity::Stops, Some(by));
            none(&tilted(Some(0.12), level), Code::FloorLevels);
            // Without a limit for the car's own tilt that of its target counts, if it is set by the plumb line.
            let mut unlimited = tilted(None, level);
            unlimited.aiming.placements[0].vertical = VerticalReference::WheelsPlane;
            none(&unlimited, Code::FloorLevels);
        }
        // The same fall on a floor that is wavy by half a millimetre: 0.121°, and what may be hidden between the points.
        let wavy = |p: DVec2| -0.002 * p.x + if (p.x / 1_000.0) % 2.0 > 0.5 { 0.5 } else { 0.0 };
        let found = facts(&tilted(Some(0.123), wavy));
        assert_eq!(found, [(FloorFact::MaybeTilted(Tilt::NoseDown), Severity::Care)]);
    }
}
