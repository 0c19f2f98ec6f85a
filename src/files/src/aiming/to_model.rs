//! From an aiming's file to the model: names become positions.

use baywright_planner::geometry::marks::{Construction, Reach};
use baywright_planner::model::{
    AimError, AimTolerance, Aiming, AlignmentLimits, Datum, Exclusion, FloorRequirement, Id, KeepClear,
    MarkStep, PlaceTolerance, Placement, Stand, StandOff, Target, TargetHeight, TargetKind, ZoneFrame,
};

use super::{
    AimingFile, DatumFile, ExcludesFile, FrameFile, HeightFile, HowFile, PlaceToleranceFile, PlacementFile,
    StandFile, StandOffFile, TargetFile, ZoneFile,
};
use crate::figure::Figure;
use crate::shape::Faults;

/// The aiming that a file describes; `None` if something in it names nothing or makes no shape, which is then among
/// the faults.
pub fn aiming_of(path: &str, file: &AimingFile, body_points: &[&str], faults: &mut Faults) -> Option<Aiming> {
    let before = faults.0.len();
    let marks = Marks { file, body_points };
    let mark_plan = file
        .mark_plan
        .iter()
        .enumerate()
        .filter_map(|(i, step)| {
            let construction =
                marks.construction(&format!("{path}.mark_plan[{i}].how"), i, &step.how, faults)?;
            Some(MarkStep { id: id(&step.name), construction })
        })
        .collect();
    let placements = file
        .placements
        .iter()
        .enumerate()
        .filter_map(|(i, p)| placement(&format!("{path}.placements[{i}]"), p, faults))
        .collect();
    let zones = file
        .zones
        .iter()
        .enumerate()
        .filter_map(|(i, z)| zone(&format!("{path}.zones[{i}]"), z, faults))
        .collect();
    (faults.0.len() == before).then(|| Aiming {
        id: id(&file.name),
        name: file.title.clone().unwrap_or_else(|| file.name.clone()),
        sensor: id(&file.sensor),
        placements,
        mark_plan,
        tolerance: AimTolerance {
            azimuth_rad: file.tolerance.azimuth_deg.radians(),
            elevation_rad: file.tolerance.elevation_deg.radians(),
        },
        zones,
        names_no_zone: file.names_no_zone,
        floor: file.floor.map(|f| FloorRequirement {
            level_mm: f.level_mm.0,
            pitch_rad: f.pitch_deg.map(Figure::radians),
            roll_rad: f.roll_deg.map(Figure::radians),
        }),
        alignment: AlignmentLimits {
            thrust_angle_rad: file.alignment.thrust_angle_deg.map(Figure::radians),
            set_back_mm: file.alignment.set_back_mm.map(|own| own.0),
        },
        axis: file.axis.into(),
        working_room_mm: file.working_room_mm.map(|mm| mm.0),
        have_ready: file.have_ready.clone(),
        conditions: file.conditions.clone(),
        provenance: (&file.source).into(),
    })
}

fn id(name: &str) -> Id {
    name.into()
}

/// What the steps of a mark plan may name.
struct Marks<'a> {
    file: &'a AimingFile,
    body_points: &'a [&'a str],
}

impl Marks<'_> {
    fn construction(
        &self,
        path: &str,
        own: usize,
        how: &HowFile,
        faults: &mut Faults,
    ) -> Option<Construction> {
        let earlier = || self.file.mark_plan.iter().take(own).map(|m| m.name.as_str());
        let mut mark = |field: &str, name: &str| faults.find(&format!("{path}.{field}"), name, earlier());
        Some(match how {
            HowFile::WheelPoint { wheel } => Construction::WheelPoint { wheel: (*wheel).into() },
            HowFile::Outboard { wheel, distance_mm } => {
                Construction::Outboard { wheel: (*wheel).into(), distance: distance_mm.0 }
            }
            HowFile::BodyPoint { point } => Construction::BodyPoint {
                point: faults.find(&format!("{path}.point"), point, self.body_points.iter().copied())?,
            },
            HowFile::Prolong { from, through, by_mm } => {
                let (from, through) = (mark("from", from), mark("through", through));
                Construction::Prolong { from: from?, through: through?, reach: Reach::Length(by_mm.0) }
            }
            HowFile::ProlongAbreast { from, through, of } => {
                let (from, through) = (mark("from", from), mark("through", through));
                let targets = self.file.placements.iter().map(|p| p.name.as_str());
                let of = faults.find(&format!("{path}.of"), of, targets);
                Construction::Prolong { from: from?, through: through?, reach: Reach::AbreastOf(of?) }
            }
            HowFile::Middle { first, second } => {
                let (first, second) = (mark("first", first), mark("second", second));
                Construction::Middle { first: first?, second: second? }
            }
            HowFile::Foot { of, from, to } => {
                let (of, from, to) = (mark("of", of), mark("from", from), mark("to", to));
                Construction::Foot { of: of?, from: from?, to: to? }
            }
            HowFile::AlongAside { from, to, along_mm, aside_mm } => {
                let (from, to) = (mark("from", from), mark("to", to));
                Construction::AlongAside { from: from?, to: to?, along: along_mm.0, aside: aside_mm.0 }
            }
            HowFile::AtAngle { at, towards, angle_deg, distance_mm } => {
                let (at, towards) = (mark("at", at), mark("towards", towards));
                Construction::AtAngle {
                    at: at?,
                    towards: towards?,
                    angle: angle_deg.radians(),
                    distance: distance_mm.0,
                }
            }
            HowFile::Crossing { first, second } => {
                let first = (mark("first[0]", &first.0), mark("first[1]", &first.1));
                let second = (mark("second[0]", &second.0), mark("second[1]", &second.1));
                Construction::Crossing { first: (first.0?, first.1?), second: (second.0?, second.1?) }
            }
            HowFile::TwoDistances { first, from_first_mm, second, from_second_mm, side } => {
                let (first, second) = (mark("first", first), mark("second", second));
                Construction::TwoDistances {
                    first: first?,
                    from_first: from_first_mm.0,
                    second: second?,
                    from_second: from_second_mm.0,
                    side: (*side).into(),
                }
            }
        })
    }
}

fn placement(path: &str, file: &PlacementFile, faults: &mut Faults) -> Option<Placement> {
    let target = target(&format!("{path}.target"), &file.target, faults)?;
    Some(Placement {
        id: id(&file.name),
        target,
        stand_off: stand_off(&file.stand_off),
        height: match file.height {
            HeightFile::Absolute { height_mm } => TargetHeight::Absolute(height_mm.0),
            HeightFile::FromSensor { point, offset_mm } => {
                TargetHeight::FromSensor { point: point.into(), offset_mm: offset_mm.0 }
            }
            HeightFile::OnFloor => TargetHeight::OnFloor,
        },
        heights_from: file.heights_from.into(),
        vertical: file.vertical.into(),
        turned_rad: file.turned_deg.radians(),
        mark: file.mark.as_deref().map(id),
        tolerance: tolerance(&file.tolerance),
        with: file.with.as_ref().map(|with| with.iter().map(|own| id(own)).collect()),
    })
}

fn target(path: &str, file: &TargetFile, faults: &mut Faults) -> Option<Target> {
    let kind: TargetKind = file.kind.into();
    let stand = match &file.stand {
        Some(s) => Some(stand(&format!("{path}.stand"), s, faults)?),
        None => None,
    };
    Some(Target {
        kind,
        width_mm: file.width_mm.0,
        height_mm: file.height_mm.0,
        depth_mm: file.depth_mm.0,
        centre_behind_mm: file.centre_behind_mm.0,
        error: file.aims_by.map_or(AimError::usual(kind), |e| AimError {
            by_place: e.place.0,
            by_squareness: e.squareness.0,
        }),
        stand,
    })
}

fn stand(path: &str, file: &StandFile, faults: &mut Faults) -> Option<Stand> {
    Some(Stand {
        base: faults.outline(&format!("{path}.base"), &file.base)?,
        base_height_mm: file.base_height_mm.0,
        mast_mm: file.mast_mm.0,
        mast_behind_mm: file.mast_behind_mm.0,
        top_mm: file.top_mm.0,
        lowest_mm: file.lowest_mm.map(|mm| mm.0),
        highest_mm: file.highest_mm.map(|mm| mm.0),
    })
}

fn stand_off(file: &StandOffFile) -> StandOff {
    StandOff {
        from: match &file.from {
            DatumFile::FrontAxle => Datum::FrontAxle,
            DatumFile::RearAxle => Datum::RearAxle,
            DatumFile::Wheel(wheel) => Datum::Wheel((*wheel).into()),
            DatumFile::Sensor => Datum::Sensor,
            DatumFile::FrontBumper => Datum::FrontBumper,
            DatumFile::RearBumper => Datum::RearBumper,
            DatumFile::BodyPoint(name) => Datum::BodyPoint(id(name)),
            DatumFile::FrontSpots => Datum::FrontSpots,
        },
        to: file.to.into(),
        distance_mm: file.distance_mm.0,
        bearing_rad: file.bearing_deg.radians(),
        aside_mm: file.aside_mm.0,
        along: file.along.into(),
    }
}

fn tolerance(file: &PlaceToleranceFile) -> PlaceTolerance {
    PlaceTolerance {
        along_mm: file.along_mm.map(|f| f.0),
        across_mm: file.across_mm.map(|f| f.0),
        height_mm: file.height_mm.map(|f| f.0),
        yaw_rad: file.yaw_deg.map(Figure::radians),
        pitch_rad: file.pitch_deg.map(Figure::radians),
    }
}

fn zone(path: &str, file: &ZoneFile, faults: &mut Faults) -> Option<KeepClear> {
    let outline = faults.outline(&format!("{path}.outline"), &file.outline);
    let span = faults.span(path, file.bottom_mm, file.top_mm);
    Some(KeepClear {
        id: id(&file.name),
        frame: match &file.frame {
            FrameFile::Vehicle => ZoneFrame::Vehicle,
            FrameFile::Sensor => ZoneFrame::Sensor,
            FrameFile::Target(placement) => ZoneFrame::Target(id(placement)),
        },
        outline: outline?,
        span: span?,
        heights_from: file.heights_from.into(),
        excludes: match file.excludes {
            ExcludesFile::Anything => Exclusion::Anything,
            ExcludesFile::Metal => Exclusion::Metal,
            ExcludesFile::Reflecting { level_dbsm } => Exclusion::Reflecting(level_dbsm.0),
            ExcludesFile::People => Exclusion::People,
            ExcludesFile::Light => Exclusion::Light,
        },
    })
}
