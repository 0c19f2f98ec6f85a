//! From an aiming to its file: positions become names.

use baywright_planner::geometry::marks::{Construction, Reach};
use baywright_planner::model::{
    Aiming, Datum, Exclusion, KeepClear, PlaceTolerance, Placement, Stand, StandOff, Target, TargetHeight,
    Vehicle, ZoneFrame,
};

use super::{
    AimToleranceFile, AimingFile, AimsByFile, AlignmentFile, DatumFile, ExcludesFile, FloorFile, FrameFile,
    HeightFile, HowFile, MarkFile, PlaceToleranceFile, PlacementFile, StandFile, StandOffFile, TargetFile,
    ZoneFile,
};
use crate::figure::Figure;
use crate::shape;

/// The file that describes an aiming of a vehicle.
pub fn file_of(aiming: &Aiming, vehicle: &Vehicle) -> AimingFile {
    AimingFile {
        name: aiming.id.to_string(),
        title: (aiming.name != aiming.id.as_str()).then(|| aiming.name.clone()),
        sensor: aiming.sensor.to_string(),
        source: (&aiming.provenance).into(),
        axis: aiming.axis.into(),
        tolerance: AimToleranceFile {
            azimuth_deg: Figure::degrees(aiming.tolerance.azimuth_rad),
            elevation_deg: Figure::degrees(aiming.tolerance.elevation_rad),
        },
        floor: aiming.floor.map(|f| FloorFile {
            level_mm: f.level_mm.into(),
            pitch_deg: f.pitch_rad.map(Figure::degrees),
            roll_deg: f.roll_rad.map(Figure::degrees),
        }),
        alignment: AlignmentFile {
            thrust_angle_deg: aiming.alignment.thrust_angle_rad.map(Figure::degrees),
            set_back_mm: aiming.alignment.set_back_mm.map(Figure),
        },
        working_room_mm: aiming.working_room_mm.map(Into::into),
        mark_plan: aiming
            .mark_plan
            .iter()
            .map(|step| MarkFile { name: step.id.to_string(), how: how(&step.construction, aiming, vehicle) })
            .collect(),
        placements: aiming.placements.iter().map(placement).collect(),
        zones: aiming.zones.iter().map(zone).collect(),
        names_no_zone: aiming.names_no_zone,
        have_ready: aiming.have_ready.clone(),
        conditions: aiming.conditions.clone(),
    }
}

fn how(construction: &Construction, aiming: &Aiming, vehicle: &Vehicle) -> HowFile {
    // A position that names nothing becomes an empty name: reading it back refuses it.
    let mark = |i: usize| aiming.mark_plan.get(i).map_or_else(String::new, |m| m.id.to_string());
    match *construction {
        Construction::WheelPoint { wheel } => HowFile::WheelPoint { wheel: wheel.into() },
        Construction::Outboard { wheel, distance } => {
            HowFile::Outboard { wheel: wheel.into(), distance_mm: distance.into() }
        }
        Construction::BodyPoint { point } => HowFile::BodyPoint {
            point: vehicle.body_points.get(point).map_or_else(String::new, |p| p.id.to_string()),
        },
        Construction::Prolong { from, through, reach: Reach::Length(by) } => {
            HowFile::Prolong { from: mark(from), through: mark(through), by_mm: by.into() }
        }
        Construction::Prolong { from, through, reach: Reach::AbreastOf(target) } => HowFile::ProlongAbreast {
            from: mark(from),
            through: mark(through),
            of: aiming.placements.get(target).map_or_else(String::new, |p| p.id.to_string()),
        },
        Construction::Middle { first, second } => {
            HowFile::Middle { first: mark(first), second: mark(second) }
        }
        Construction::Foot { of, from, to } => HowFile::Foot { of: mark(of), from: mark(from), to: mark(to) },
        Construction::AlongAside { from, to, along, aside } => HowFile::AlongAside {
            from: mark(from),
            to: mark(to),
            along_mm: along.into(),
            aside_mm: aside.into(),
        },
        Construction::AtAngle { at, towards, angle, distance } => HowFile::AtAngle {
            at: mark(at),
            towards: mark(towards),
            angle_deg: Figure::degrees(angle),
            distance_mm: distance.into(),
        },
        Construction::Crossing { first, second } => HowFile::Crossing {
            first: (mark(first.0), mark(first.1)),
            second: (mark(second.0), mark(second.1)),
        },
        Construction::TwoDistances { first, from_first, second, from_second, side } => {
            HowFile::TwoDistances {
                first: mark(first),
                from_first_mm: from_first.into(),
                second: mark(second),
                from_second_mm: from_second.into(),
                side: side.into(),
            }
        }
    }
}

fn placement(placement: &Placement) -> PlacementFile {
    PlacementFile {
        name: placement.id.to_string(),
        target: target(&placement.target),
        stand_off: stand_off(&placement.stand_off),
        height: match placement.height {
            TargetHeight::Absolute(height) => HeightFile::Absolute { height_mm: height.into() },
            TargetHeight::FromSensor { point, offset_mm } => {
                HeightFile::FromSensor { point: point.into(), offset_mm: offset_mm.into() }
            }
            TargetHeight::OnFloor => HeightFile::OnFloor,
        },
        heights_from: placement.heights_from.into(),
        vertical: placement.vertical.into(),
        turned_deg: Figure::degrees(placement.turned_rad),
        mark: placement.mark.as_ref().map(ToString::to_string),
        tolerance: tolerance(&placement.tolerance),
        with: placement.with.as_ref().map(|with| with.iter().map(ToString::to_string).collect()),
    }
}

fn target(target: &Target) -> TargetFile {
    TargetFile {
        kind: target.kind.into(),
        width_mm: target.width_mm.into(),
        height_mm: target.height_mm.into(),
        depth_mm: target.depth_mm.into(),
        centre_behind_mm: target.centre_behind_mm.into(),
        aims_by: Some(AimsByFile {
            place: target.error.by_place.into(),
            squareness: target.error.by_squareness.into(),
        }),
        stand: target.stand.as_ref().map(stand),
    }
}

fn stand(stand: &Stand) -> StandFile {
    StandFile {
        base: shape::file_of(&stand.base),
        base_height_mm: stand.base_height_mm.into(),
        mast_mm: stand.mast_mm.into(),
        mast_behind_mm: stand.mast_behind_mm.into(),
        top_mm: stand.top_mm.into(),
        lowest_mm: stand.lowest_mm.map(Figure),
        highest_mm: stand.highest_mm.map(Figure),
    }
}

fn stand_off(off: &StandOff) -> StandOffFile {
    StandOffFile {
        from: match &off.from {
            Datum::FrontAxle => DatumFile::FrontAxle,
            Datum::RearAxle => DatumFile::RearAxle,
            Datum::Wheel(wheel) => DatumFile::Wheel((*wheel).into()),
            Datum::Sensor => DatumFile::Sensor,
            Datum::FrontBumper => DatumFile::FrontBumper,
            Datum::RearBumper => DatumFile::RearBumper,
            Datum::BodyPoint(name) => DatumFile::BodyPoint(name.to_string()),
            Datum::FrontSpots => DatumFile::FrontSpots,
        },
        to: off.to.into(),
        distance_mm: off.distance_mm.into(),
        bearing_deg: Figure::degrees(off.bearing_rad),
        aside_mm: off.aside_mm.into(),
        along: off.along.into(),
    }
}

fn tolerance(tolerance: &PlaceTolerance) -> PlaceToleranceFile {
    PlaceToleranceFile {
        along_mm: tolerance.along_mm.map(Figure),
        across_mm: tolerance.across_mm.map(Figure),
        height_mm: tolerance.height_mm.map(Figure),
        yaw_deg: tolerance.yaw_rad.map(Figure::degrees),
        pitch_deg: tolerance.pitch_rad.map(Figure::degrees),
    }
}

fn zone(zone: &KeepClear) -> ZoneFile {
    ZoneFile {
        name: zone.id.to_string(),
        frame: match &zone.frame {
            ZoneFrame::Vehicle => FrameFile::Vehicle,
            ZoneFrame::Sensor => FrameFile::Sensor,
            ZoneFrame::Target(placement) => FrameFile::Target(placement.to_string()),
        },
        outline: shape::file_of(&zone.outline),
        bottom_mm: zone.span.bottom().into(),
        top_mm: zone.span.top().into(),
        heights_from: zone.heights_from.into(),
        excludes: match zone.excludes {
            Exclusion::Anything => ExcludesFile::Anything,
            Exclusion::Metal => ExcludesFile::Metal,
            Exclusion::Reflecting(level) => ExcludesFile::Reflecting { level_dbsm: level.into() },
            Exclusion::People => ExcludesFile::People,
            Exclusion::Light => ExcludesFile::Light,
        },
    }
}
