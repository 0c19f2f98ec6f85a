//! Invariants of an aiming.

use std::borrow::Cow;

use baywright_geometry::Outline;
use baywright_geometry::marks::{Construction, Reach};

use super::super::fault::{Allowed, Counted, Found, Listed};
use super::super::{
    Aiming, Datum, Exclusion, Id, Placement, Target, TargetHeight, TargetKind, Vehicle, ZoneFrame,
};
use super::limits;
use super::{Faults, extent};

pub(super) fn check(path: &str, aiming: &Aiming, car: &Vehicle, faults: &mut Faults) {
    faults.name(format!("{path}.name"), aiming.id.as_str());
    faults.name(format!("{path}.title"), &aiming.name);
    faults.known(format!("{path}.sensor"), &aiming.sensor, car.sensors.iter().map(|s| &s.id));
    faults.source(&format!("{path}.source"), &aiming.provenance);
    faults.angle(
        format!("{path}.tolerance.azimuth_deg"),
        aiming.tolerance.azimuth_rad,
        &limits::ANGLE_TOLERANCE,
    );
    faults.angle(
        format!("{path}.tolerance.elevation_deg"),
        aiming.tolerance.elevation_rad,
        &limits::ANGLE_TOLERANCE,
    );
    if let Some(floor) = &aiming.floor {
        faults.number(format!("{path}.floor.level_mm"), floor.level_mm, &limits::FLOOR);
        for (field, tilt) in [("pitch_deg", floor.pitch_rad), ("roll_deg", floor.roll_rad)] {
            if let Some(tilt) = tilt {
                faults.angle(format!("{path}.floor.{field}"), tilt, &limits::ANGLE_TOLERANCE);
            }
        }
    }
    if let Some(thrust) = aiming.alignment.thrust_angle_rad {
        faults.angle(format!("{path}.alignment.thrust_angle_deg"), thrust, &limits::THRUST_LIMIT);
    }
    if let Some(back) = aiming.alignment.set_back_mm {
        faults.number(format!("{path}.alignment.set_back_mm"), back, &limits::SET_BACK_LIMIT);
    }
    if let Some(room) = aiming.working_room_mm {
        faults.number_or_none(format!("{path}.working_room_mm"), room, &limits::WORKING_ROOM);
    }
    marks(path, aiming, car, faults);
    placements(path, aiming, car, faults);
    zones(path, aiming, faults);
    for (field, lines) in [("have_ready", &aiming.have_ready), ("conditions", &aiming.conditions)] {
        faults.count(&format!("{path}.{field}"), lines.len(), limits::MOST_LINES);
        for (i, line) in lines.iter().enumerate() {
            faults.text(format!("{path}.{field}[{i}]"), line, limits::LONGEST_TEXT);
        }
    }
}

fn marks(path: &str, aiming: &Aiming, car: &Vehicle, faults: &mut Faults) {
    faults.count(&format!("{path}.mark_plan"), aiming.mark_plan.len(), limits::MOST_PARTS);
    faults.unique(
        aiming.mark_plan.iter().enumerate().map(|(i, m)| (format!("{path}.mark_plan[{i}].name"), &m.id)),
    );
    for (i, step) in aiming.mark_plan.iter().enumerate() {
        let path = format!("{path}.mark_plan[{i}]");
        faults.name(format!("{path}.name"), step.id.as_str());
        let how = format!("{path}.how");
        if let Some(later) = step.construction.uses().into_iter().find(|&used| used >= i) {
            faults.add(how.clone(), Found::LaterMark(later + 1), Allowed::EarlierMarks);
        }
        construction(&how, &step.construction, aiming, car, faults);
    }
}

fn construction(how: &str, construction: &Construction, aiming: &Aiming, car: &Vehicle, faults: &mut Faults) {
    let mut number = |field: &str, value, range| faults.number(format!("{how}.{field}"), value, range);
    match *construction {
        Construction::WheelPoint { .. }
        | Construction::Middle { .. }
        | Construction::Foot { .. }
        | Construction::Crossing { .. } => {}
        Construction::Outboard { distance, .. } => number("distance_mm", distance, &limits::SIZE_OR_NONE),
        Construction::BodyPoint { point } => {
            if point >= car.body_points.len() {
                let found = Found::Position(Listed::BodyPoint, point + 1);
                faults.add(format!("{how}.point"), found, Allowed::OneThatIsThere);
            }
        }
        Construction::Prolong { reach: Reach::Length(by), .. } => number("by_mm", by, &limits::OFFSET),
        Construction::Prolong { reach: Reach::AbreastOf(target), .. } => {
            if target >= aiming.placements.len() {
                let found = Found::Position(Listed::Placement, target + 1);
                faults.add(format!("{how}.of"), found, Allowed::OneThatIsThere);
            }
        }
        Construction::AlongAside { along, aside, .. } => {
            number("along_mm", along, &limits::OFFSET);
            number("aside_mm", aside, &limits::OFFSET);
        }
        Construction::AtAngle { angle, distance, .. } => {
            number("distance_mm", distance, &limits::DISTANCE);
            faults.angle(format!("{how}.angle_deg"), angle, &limits::TURN);
        }
        Construction::TwoDistances { from_first, from_second, .. } => {
            number("from_first_mm", from_first, &limits::DISTANCE);
            number("from_second_mm", from_second, &limits::DISTANCE);
        }
    }
}

fn placements(path: &str, aiming: &Aiming, car: &Vehicle, faults: &mut Faults) {
    faults.count(&format!("{path}.placements"), aiming.placements.len(), limits::MOST_PARTS);
    if aiming.placements.is_empty() {
        faults.add(format!("{path}.placements"), Found::NoPlacement, Allowed::AtLeastOne);
    }
    faults.unique(
        aiming.placements.iter().enumerate().map(|(i, p)| (format!("{path}.placements[{i}].name"), &p.id)),
    );
    for (i, item) in aiming.placements.iter().enumerate() {
        placement(&format!("{path}.placements[{i}]"), item, aiming, car, faults);
    }
}

fn placement(path: &str, placement: &Placement, aiming: &Aiming, car: &Vehicle, faults: &mut Faults) {
    faults.name(format!("{path}.name"), placement.id.as_str());
    target(&format!("{path}.target"), &placement.target, faults);
    if let Some(with) = &placement.with {
        faults.count(&format!("{path}.with"), with.len(), limits::MOST_PARTS);
        let others = || aiming.placements.iter().map(|own| &own.id).filter(|id| **id != placement.id);
        for (i, id) in with.iter().enumerate() {
            faults.known(format!("{path}.with[{i}]"), id, others());
        }
        faults.unique(with.iter().enumerate().map(|(i, id)| (format!("{path}.with[{i}]"), id)));
    }
    let off = &placement.stand_off;
    if let Datum::BodyPoint(point) = &off.from {
        faults.known(format!("{path}.stand_off.from"), point, car.body_points.iter().map(|p| &p.id));
    }
    if off.from == Datum::FrontSpots && aiming.front_spots().is_none() {
        faults.add(format!("{path}.stand_off.from"), Found::FrontSpots, Allowed::SpotAtEachFrontTyre);
    }
    faults.number(format!("{path}.stand_off.distance_mm"), off.distance_mm, &limits::STAND_OFF);
    faults.angle(format!("{path}.stand_off.bearing_deg"), off.bearing_rad, &limits::TURN);
    faults.number(format!("{path}.stand_off.aside_mm"), off.aside_mm, &limits::OFFSET);
    match placement.height {
        TargetHeight::Absolute(height) => {
            faults.number(format!("{path}.height.height_mm"), height, &limits::TARGET_HEIGHT);
        }
        // Where the point is, is asked of the sensor.
        TargetHeight::FromSensor { offset_mm, .. } => {
            faults.number(format!("{path}.height.offset_mm"), offset_mm, &limits::OFFSET);
        }
        TargetHeight::OnFloor => {}
    }
    let lies = placement.height == TargetHeight::OnFloor;
    if lies != (placement.target.kind == TargetKind::Mat) {
        let found = if lies { Found::StandingOnFloor } else { Found::MatAtHeight };
        faults.add(format!("{path}.height"), found, Allowed::FloorForMat);
    }
    faults.angle(format!("{path}.turned_deg"), placement.turned_rad, &limits::TURN);
    if let Some(mark) = &placement.mark {
        faults.known(format!("{path}.mark"), mark, aiming.mark_plan.iter().map(|m| &m.id));
    }
    let tolerance = &placement.tolerance;
    for (field, value) in [
        ("along_mm", tolerance.along_mm),
        ("across_mm", tolerance.across_mm),
        ("height_mm", tolerance.height_mm),
    ] {
        if let Some(value) = value {
            faults.number(format!("{path}.tolerance.{field}"), value, &limits::TOLERANCE);
        }
    }
    for (field, value) in [("yaw_deg", tolerance.yaw_rad), ("pitch_deg", tolerance.pitch_rad)] {
        if let Some(value) = value {
            faults.angle(format!("{path}.tolerance.{field}"), value, &limits::ANGLE_TOLERANCE);
        }
    }
}

fn target(path: &str, target: &Target, faults: &mut Faults) {
    faults.number(format!("{path}.width_mm"), target.width_mm, &limits::TARGET);
    faults.number(format!("{path}.height_mm"), target.height_mm, &limits::TARGET);
    faults.number(format!("{path}.depth_mm"), target.depth_mm, &limits::SIZE_OR_NONE);
    faults.number(format!("{path}.centre_behind_mm"), target.centre_behind_mm, &limits::SIZE_OR_NONE);
    if target.centre_behind_mm > 0.0 && target.kind != TargetKind::CornerReflector {
        faults.length(format!("{path}.centre_behind_mm"), target.centre_behind_mm, Allowed::OnlyForReflector);
    }
    faults.number(format!("{path}.aims_by.place"), target.error.by_place, &limits::SHARE);
    faults.number(format!("{path}.aims_by.squareness"), target.error.by_squareness, &limits::SHARE);
    if let Some(stand) = &target.stand {
        size(&format!("{path}.stand.base"), &stand.base, faults);
        faults.number(format!("{path}.stand.base_height_mm"), stand.base_height_mm, &limits::SIZE);
        faults.number(format!("{path}.stand.mast_mm"), stand.mast_mm, &limits::SIZE);
        faults.number(format!("{path}.stand.mast_behind_mm"), stand.mast_behind_mm, &limits::OFFSET);
        faults.number(format!("{path}.stand.top_mm"), stand.top_mm, &limits::TARGET);
        if stand.top_mm < stand.base_height_mm {
            faults.length(
                format!("{path}.stand.top_mm"),
                stand.top_mm,
                Allowed::FromBase(stand.base_height_mm),
            );
        }
        for (field, reach) in [("lowest_mm", stand.lowest_mm), ("highest_mm", stand.highest_mm)] {
            if let Some(reach) = reach {
                faults.number(format!("{path}.stand.{field}"), reach, &limits::TARGET_HEIGHT);
            }
        }
        if let (Some(bottom), Some(top)) = (stand.lowest_mm, stand.highest_mm)
            && top < bottom
        {
            let found = Found::BottomAndTop { bottom, top };
            faults.add(format!("{path}.stand.highest_mm"), found, Allowed::TopAboveBottom);
        }
        if target.kind == TargetKind::Mat {
            faults.add(format!("{path}.stand"), Found::StandUnderMat, Allowed::Nothing);
        }
    }
}

/// A shape near a target or a car, of bounded size.
fn size(field: &str, outline: &Outline, faults: &mut Faults) {
    let size = extent(outline).max_element();
    if !limits::TARGET.holds(size) {
        faults.add(field, Found::ShapeOf(size), Allowed::In(limits::TARGET));
    }
}

fn zones(path: &str, aiming: &Aiming, faults: &mut Faults) {
    if aiming.names_no_zone && !aiming.zones.is_empty() {
        let found = Found::Count(aiming.zones.len(), Counted::Entries);
        faults.add(format!("{path}.zones"), found, Allowed::NoneAsSaid("names_no_zone"));
    }
    faults.count(&format!("{path}.zones"), aiming.zones.len(), limits::MOST_PARTS);
    let outlines = aiming.zones.iter().map(|zone| Cow::Borrowed(&zone.outline));
    faults.corners((&format!("{path}.zones"), "outline.corners_mm"), outlines, limits::MOST_CORNERS_OF_ZONES);
    faults.unique(aiming.zones.iter().enumerate().map(|(i, z)| (format!("{path}.zones[{i}].name"), &z.id)));
    let placements: Vec<&Id> = aiming.placements.iter().map(|p| &p.id).collect();
    for (i, zone) in aiming.zones.iter().enumerate() {
        let path = format!("{path}.zones[{i}]");
        faults.name(format!("{path}.name"), zone.id.as_str());
        if let ZoneFrame::Target(target) = &zone.frame {
            faults.known(format!("{path}.frame"), target, placements.iter().copied());
        }
        size(&format!("{path}.outline"), &zone.outline, faults);
        faults.number(format!("{path}.bottom_mm"), zone.span.bottom(), &limits::HEIGHT);
        faults.number(format!("{path}.top_mm"), zone.span.top(), &limits::HEIGHT);
        if !limits::TARGET.holds(zone.span.top() - zone.span.bottom()) {
            let allowed = Allowed::AboveBottom(limits::TARGET);
            faults.length(format!("{path}.top_mm"), zone.span.top(), allowed);
        }
        if let Exclusion::Reflecting(level) = zone.excludes {
            faults.number(format!("{path}.excludes.level_dbsm"), level, &limits::REFLECTING);
        }
    }
}
