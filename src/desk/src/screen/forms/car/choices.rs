//! What can be chosen in the form's lists.

use baywright_planner::geometry::marks::{Construction, Reach, WhichSide};
use baywright_planner::model::{
    Aiming, Datum, End, Exclusion, Id, SensorPoint, TargetHeight, TargetKind, Vehicle, Wheel, ZoneFrame,
};

/// Where a stand-off may start on a car.
pub(super) fn datums(car: &Vehicle) -> Vec<Datum> {
    let fixed = [
        Datum::FrontAxle,
        Datum::FrontSpots,
        Datum::FrontBumper,
        Datum::Sensor,
        Datum::RearAxle,
        Datum::RearBumper,
    ];
    let wheels = Wheel::ALL.map(Datum::Wheel);
    let points = car.body_points.iter().map(|point| Datum::BodyPoint(point.id.clone()));
    fixed.into_iter().chain(wheels).chain(points).collect()
}

pub(super) const ENDS: [End; 2] = [End::Face, End::ReflectorCentre];

pub(super) const TARGETS: [TargetKind; 5] = [
    TargetKind::CornerReflector,
    TargetKind::Plate,
    TargetKind::Board,
    TargetKind::Mat,
    TargetKind::ActiveDevice,
];

/// How a target's height may be given; the number stays where there is one.
pub(super) fn heights(now: TargetHeight) -> [TargetHeight; 6] {
    let (value, offset_mm) = match now {
        TargetHeight::Absolute(height) => (height, 0.0),
        TargetHeight::FromSensor { offset_mm, .. } => (USUAL_HEIGHT_MM, offset_mm),
        TargetHeight::OnFloor => (USUAL_HEIGHT_MM, 0.0),
    };
    let from = |point| TargetHeight::FromSensor { point, offset_mm };
    [
        from(SensorPoint::Centre),
        from(SensorPoint::LowerEdge),
        from(SensorPoint::UpperEdge),
        from(SensorPoint::Line),
        TargetHeight::Absolute(value),
        TargetHeight::OnFloor,
    ]
}

/// A target's height to start from, mm.
const USUAL_HEIGHT_MM: f64 = 500.0;

/// What a zone may go with.
pub(super) fn frames(aiming: &Aiming) -> Vec<ZoneFrame> {
    let targets = aiming.placements.iter().map(|own| ZoneFrame::Target(own.id.clone()));
    [ZoneFrame::Vehicle, ZoneFrame::Sensor].into_iter().chain(targets).collect()
}

/// What a zone may keep out; the level stays where there is one.
pub(super) const fn excluded(now: Exclusion) -> [Exclusion; 5] {
    let level = if let Exclusion::Reflecting(level) = now { level } else { 10.0 };
    [Exclusion::Metal, Exclusion::Anything, Exclusion::Reflecting(level), Exclusion::People, Exclusion::Light]
}

/// Ways of finding a mark that can be used at this place of a plan, each made with the nearest marks before it.
pub(super) fn ways(at: usize, car: &Vehicle) -> Vec<Construction> {
    let before = |back: usize| at.saturating_sub(back);
    let mut ways = vec![
        Construction::Outboard { wheel: Wheel::FrontLeft, distance: 150.0 },
        Construction::WheelPoint { wheel: Wheel::FrontLeft },
    ];
    if !car.body_points.is_empty() {
        ways.push(Construction::BodyPoint { point: 0 });
    }
    if at >= 2 {
        let (first, second) = (before(2), before(1));
        ways.extend([
            Construction::Prolong { from: first, through: second, reach: Reach::Length(3_000.0) },
            Construction::Middle { first, second },
            Construction::AlongAside { from: first, to: second, along: 0.0, aside: 1_000.0 },
            Construction::AtAngle { at: first, towards: second, angle: 0.785, distance: 2_000.0 },
            Construction::TwoDistances {
                first,
                from_first: 2_000.0,
                second,
                from_second: 2_000.0,
                side: WhichSide::Left,
            },
        ]);
    }
    if at >= 3 {
        ways.push(Construction::Foot { of: before(3), from: before(2), to: before(1) });
    }
    if at >= 4 {
        let (first, second) = ((before(4), before(3)), (before(2), before(1)));
        ways.push(Construction::Crossing { first, second });
    }
    ways
}

/// "name", "name 2", ...
pub(super) fn free<'a>(wanted: &str, taken: impl Iterator<Item = &'a Id> + Clone) -> Id {
    Id::free(wanted, " ", |name| taken.clone().any(|own| own.as_str() == name))
}
