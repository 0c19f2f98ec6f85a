//! A target as data: where it is set, and from where on the car its height and its stand-off are counted.

use baywright_planner::geometry::angle;
use baywright_planner::model::{Datum, HeightsFrom, Placement, SensorPoint, TargetHeight, Wheel};
use baywright_planner::scene::PlacedTarget;

use super::shape::{Height, HeightFrom, StandOff, StartsAt, Target};
use super::{millionths, plan, space};

pub(super) fn told(target: &PlacedTarget, placement: &Placement) -> Target {
    Target {
        name: target.id.to_string(),
        at_mm: space(target.centre()),
        facing_deg: millionths(angle::degrees(target.set.place.heading())),
        height: height(placement),
        stand_off: stand_off(placement, target),
    }
}

fn height(placement: &Placement) -> Option<Height> {
    let (from, by_mm) = match placement.height {
        TargetHeight::FromSensor { point, offset_mm } => {
            let point = match point {
                SensorPoint::Centre => HeightFrom::SensorCentre,
                SensorPoint::LowerEdge => HeightFrom::SensorLowerEdge,
                SensorPoint::UpperEdge => HeightFrom::SensorUpperEdge,
                SensorPoint::Line => HeightFrom::SensorLine,
            };
            (point, offset_mm)
        }
        TargetHeight::Absolute(height_mm) => match placement.heights_from {
            HeightsFrom::Floor => (HeightFrom::Floor, height_mm),
            HeightsFrom::Wheels => (HeightFrom::Wheels, height_mm),
        },
        TargetHeight::OnFloor => return None,
    };
    Some(Height { from, by_mm: millionths(by_mm) })
}

fn stand_off(placement: &Placement, target: &PlacedTarget) -> StandOff {
    let (from, of) = match &placement.stand_off.from {
        Datum::FrontAxle => (StartsAt::FrontAxle, None),
        Datum::FrontSpots => (StartsAt::FrontSpots, None),
        Datum::RearAxle => (StartsAt::RearAxle, None),
        Datum::Wheel(wheel) => (StartsAt::Wheel, Some(wheel_name(*wheel).to_owned())),
        Datum::Sensor => (StartsAt::Sensor, None),
        Datum::FrontBumper => (StartsAt::FrontBumper, None),
        Datum::RearBumper => (StartsAt::RearBumper, None),
        Datum::BodyPoint(id) => (StartsAt::BodyPoint, Some(id.to_string())),
    };
    let distance_mm = millionths(placement.stand_off.distance_mm);
    StandOff { from, of, starts_at_mm: plan(target.starts_at), distance_mm }
}

const fn wheel_name(wheel: Wheel) -> &'static str {
    match wheel {
        Wheel::FrontLeft => "front-left",
        Wheel::FrontRight => "front-right",
        Wheel::RearLeft => "rear-left",
        Wheel::RearRight => "rear-right",
    }
}
