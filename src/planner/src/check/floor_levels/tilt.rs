//! How the car stands on its floor.

use baywright_geometry::{DVec3, angle};
use baywright_survey::{Stance, stance};

use super::{by_the_car, care_of, no_cure};
use crate::check::finding::{Finding, Quantity, Severity, Subject};
use crate::check::{Context, FloorFact};
use crate::ground;
use crate::ground::spots::{Spot, Spots};

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

/// A figure of how the car stands.
#[derive(Clone, Copy)]
pub(super) struct Figure {
    pub(super) value: f64,
    /// How surely, as far as the levels are uncertain.
    pub(super) within: f64,
    /// By how much more it may be off if the car stands elsewhere.
    pub(super) moved: f64,
}

impl Figure {
    /// The same of what is made of it; `of` leaves nought at nought.
    pub(super) fn map(self, of: impl Fn(f64) -> f64) -> Self {
        Self { value: of(self.value), within: of(self.within), moved: of(self.moved) }
    }

    /// The most that it may be, either way.
    pub(super) fn most(&self) -> f64 {
        self.value.abs() + self.within + self.moved
    }
}

/// How the car stands on its wheel points, and how it would if one of them were higher.
pub(super) struct Wheels {
    stance: Stance,
    /// By what is uncertain of its level, each wheel in turn; none where nothing is of any.
    within: [Option<Stance>; 4],
    /// By what the car's place makes of it, in the same way.
    moved: [Option<Stance>; 4],
}

impl Wheels {
    pub(super) fn of(context: &Context<'_>, spots: &Spots<'_>) -> Option<Self> {
        let known = |spot: &Spot| {
            let level = spot.level?;
            Some((spot.at.extend(level.level_mm), level.within_mm, spot.moved_mm))
        };
        let known: Vec<(DVec3, f64, f64)> = spots.wheels.iter().filter_map(known).collect();
        Self::on(known.try_into().ok()?, context.scene.bay_from_vehicle.heading())
    }

    /// Of the four wheel points with their levels, in [`Wheel::ALL`]'s order: how surely each is known, and what the car's place makes
    /// of it, mm; the car's heading in their frame, radians.
    ///
    /// [`Wheel::ALL`]: crate::model::Wheel::ALL
    pub(super) fn on(known: [(DVec3, f64, f64); 4], heading_rad: f64) -> Option<Self> {
        let points = known.map(|own| own.0);
        let ahead = angle::direction(heading_rad);
        let higher = |by: [f64; 4], wheel: usize| {
            let mut points = points;
            if let Some((point, by)) = points.get_mut(wheel).zip(by.get(wheel)) {
                point.z += by;
            }
            stance(&points, ahead)
        };
        let each = |by: [f64; 4]| match by.iter().any(|by| *by > 0.0) {
            true => [0, 1, 2, 3].map(|wheel| higher(by, wheel)),
            false => [None; 4],
        };
        Some(Self {
            stance: stance(&points, ahead)?,
            within: each(known.map(|own| own.1)),
            moved: each(known.map(|own| own.2)),
        })
    }

    /// What a figure of the stance is and how surely, each wheel's level being off by what is uncertain of it in turn; and by
    /// how much more it may be off, each being off by what the car's place makes of it at once.
    pub(super) fn figure(&self, of: impl Fn(&Stance) -> f64) -> Figure {
        let value = of(&self.stance);
        let off = |other: &Option<Stance>| other.as_ref().map_or(0.0, |other| (of(other) - value).abs());
        let within = self.within.iter().map(|other| off(other).powi(2)).sum::<f64>().sqrt();
        Figure { value, within, moved: self.moved.iter().map(off).sum() }
    }
}

pub(super) fn tilt(context: &Context<'_>, spots: &Spots<'_>, wheels: &Wheels, findings: &mut Vec<Finding>) {
    let Some(floor) = context.arrangement.aiming.floor else { return };
    let told = ground::tilted(context.arrangement, context.scene, spots);
    let [pitch, roll] = told.map_or([None; 2], |both| both.map(Some));
    let here = context.scene.bay_from_vehicle.origin();
    for (limit, figure, told, ways) in [
        (floor.pitch_rad, wheels.figure(|stance| stance.pitch_rad), pitch, [Tilt::NoseDown, Tilt::NoseUp]),
        (floor.roll_rad, wheels.figure(|stance| stance.roll_rad), roll, [Tilt::LeftUp, Tilt::RightUp]),
    ] {
        let Some(limit) = limit else { continue };
        let by = figure.value;
        let way = if by >= 0.0 { ways[0] } else { ways[1] };
        let say = |fact: FloorFact, by: f64| {
            care_of(context, fact, vec![Subject::Car], here)
                .against(Quantity::Angle(by), Quantity::Angle(limit))
        };
        if by.abs() > limit + SPEAKS_FROM_RAD {
            let tilted = no_cure(say(FloorFact::Tilted(way), by.abs()));
            findings.push(Finding { severity: Severity::Stops, ..tilted });
        } else if figure.most() > limit + SPEAKS_FROM_RAD {
            let found = say(FloorFact::MaybeTilted(way), figure.most());
            findings.push(by_the_car(context, found, figure.most() - limit, figure.moved));
        } else if let Some(told) = told.filter(|own| !own.is_inside()) {
            // What the tab of the floor cannot say is inside.
            let most = told.value.abs() + told.u95;
            if most > limit + SPEAKS_FROM_RAD {
                findings.push(say(FloorFact::MaybeTilted(way), most));
            }
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
