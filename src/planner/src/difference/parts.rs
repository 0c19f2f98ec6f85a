//! The differences of one part: of two of one kind that go by one name.

use baywright_geometry::{DVec2, PlanPose, Polygon, Span, angle};

use super::{Change, Figure, Kind, OfThisCar, SAME_MM, SAME_RAD};
use crate::model::sheet::SET_BACK_UNIT;
use crate::model::{
    AlignmentSheet, FloorFeature, HallBay, KeepFree, Material, OnThisCar, Opening, RearToe, Runway, StandSet,
    Thing, Told,
};

/// The two if they are not the same.
fn other<T: PartialEq + Copy>(was: T, now: T, change: impl FnOnce([T; 2]) -> Change) -> Option<Change> {
    (was != now).then(|| change([was, now]))
}

pub(super) fn length(figure: Figure, was: f64, now: f64) -> Option<Change> {
    ((was - now).abs() >= SAME_MM).then_some(Change::Length(figure, [was, now]))
}

fn heights(was: &Span, now: &Span) -> Option<Change> {
    let [was, now] = [was, now].map(|own| [own.bottom(), own.top()]);
    let differs = was.iter().zip(now).any(|(was, now)| (was - now).abs() >= SAME_MM);
    differs.then_some(Change::Heights([was, now]))
}

/// Elsewhere, or turned.
pub(super) fn moved(was: &PlanPose, now: &PlanPose) -> Option<Change> {
    let (by, turned) = (now.origin() - was.origin(), angle::wrapped(now.heading() - was.heading()));
    (by.length() >= SAME_MM || turned.abs() >= SAME_RAD).then_some(Change::Moved(by, turned))
}

/// Where a target stands.
pub(super) fn stand(was: &StandSet, now: &StandSet) -> Vec<Change> {
    match (was, now) {
        (StandSet::OnMark, StandSet::OnMark) => Vec::new(),
        (StandSet::OnMark, StandSet::At { .. }) => vec![Change::OnMark(false)],
        (StandSet::At { .. }, StandSet::OnMark) => vec![Change::OnMark(true)],
        (
            StandSet::At { place: was_at, height_mm: was_mm, pitch_rad: was_rad },
            StandSet::At { place, height_mm, pitch_rad },
        ) => {
            let tipped = (was_rad - pitch_rad).abs() >= SAME_RAD;
            let tipped = tipped.then_some(Change::Tipped([*was_rad, *pitch_rad]));
            let height = length(Figure::TargetHeight, *was_mm, *height_mm);
            moved(was_at, place).into_iter().chain(height).chain(tipped).collect()
        }
    }
}

/// What was measured on a car.
pub(super) fn on_this_car(was: &OnThisCar, now: &OnThisCar) -> Vec<Change> {
    fn of<T: PartialEq>(what: OfThisCar, was: Option<&T>, now: Option<&T>) -> Option<Change> {
        (was != now).then(|| Change::OnThisCar(what, [was.is_some(), now.is_some()]))
    }
    // Of one wheel or of both.
    let toe = |of: &OnThisCar| Some(of.told_rear_toe()).filter(|own| *own != RearToe::default());
    let set_back = |of: &OnThisCar| {
        let told = of.sheet_to_type();
        told.set_back.reads.map(|reads| (reads, told.set_back.way, told.set_back_unit))
    };
    // What is told of by itself is left out of the rest of the sheet.
    let rest = |of: &OnThisCar| {
        let mut sheet = of.sheet_to_type();
        let [front_left, front_right, ..] = sheet.toe;
        sheet.toe = [front_left, front_right, Told::default(), Told::default()];
        (sheet.set_back, sheet.set_back_unit) = (Told::default(), SET_BACK_UNIT);
        Some(sheet).filter(|own| *own != AlignmentSheet::default())
    };
    let wheels = |of: &OnThisCar| of.wheels.map(|wheels| (wheels, of.wheels_at));
    let arches = |of: &OnThisCar| Some(of.arches_mm).filter(|own| *own != [None; 4]);
    fn some<T>(all: &Vec<T>) -> Option<&Vec<T>> {
        Some(all).filter(|all| !all.is_empty())
    }
    let all = [
        of(OfThisCar::Sensor, was.sensor_at.as_ref(), now.sensor_at.as_ref()),
        of(OfThisCar::RearToe, toe(was).as_ref(), toe(now).as_ref()),
        of(OfThisCar::SetBack, set_back(was).as_ref(), set_back(now).as_ref()),
        of(OfThisCar::Sheet, rest(was).as_ref(), rest(now).as_ref()),
        of(OfThisCar::TurningCircle, was.turning_circle_mm.as_ref(), now.turning_circle_mm.as_ref()),
        of(OfThisCar::Wheels, wheels(was).as_ref(), wheels(now).as_ref()),
        of(OfThisCar::Arches, arches(was).as_ref(), arches(now).as_ref()),
        of(OfThisCar::BodyPoints, some(&was.body_points), some(&now.body_points)),
        of(OfThisCar::Stood, some(&was.stood), some(&now.stood)),
    ];
    all.into_iter().flatten().collect()
}

/// A wall as it runs.
#[derive(Clone, Copy)]
pub(super) struct WallAt {
    pub ends: [DVec2; 2],
    pub material: Material,
}

pub(super) fn wall(was: &WallAt, now: &WallAt) -> Vec<Change> {
    let [from, to] = was.ends;
    let long = |ends: [DVec2; 2]| ends[0].distance(ends[1]);
    let shifts = [now.ends[0] - from, now.ends[1] - to];
    // The room lies to the left of a wall: to its right is out.
    let out = -(to - from).normalize_or_zero().perp();
    let [first, second] = shifts.map(|by| by.dot(out));
    let place = if (first - second).abs() >= SAME_MM {
        Some(Change::Ends(shifts.map(DVec2::length)))
    } else if first.abs() >= SAME_MM {
        Some(Change::FurtherOut(first))
    } else {
        None
    };
    // A wall that runs as it did may be longer at either end, or stand along itself.
    let size = length(Figure::WallLength, long(was.ends), long(now.ends));
    let along = shifts.map(|by| by.length() >= SAME_MM) == [true; 2];
    let slid = (place.is_none() && size.is_none() && along).then(|| Change::Ends(shifts.map(DVec2::length)));
    let material = other(was.material, now.material, Change::Material);
    [place, size, slid, material].into_iter().flatten().collect()
}

/// `walls` are the names of the walls that the two are in; none where such a wall only has another name.
pub(super) fn opening(was: &Opening, now: &Opening, walls: Option<Change>) -> Vec<Change> {
    [
        other(Kind::Opening(was.kind), Kind::Opening(now.kind), Change::Kind),
        walls,
        length(Figure::FromCorner, was.from_mm, now.from_mm),
        length(Figure::Width, was.width_mm, now.width_mm),
        heights(&was.span, &now.span),
        other(was.material, now.material, Change::Material),
        (was.shut != now.shut).then_some(Change::Shut(now.shut)),
        length(Figure::FreeBeyond, was.free_beyond_mm, now.free_beyond_mm),
        (was.is_exit != now.is_exit).then_some(Change::Exit(now.is_exit)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The same outline elsewhere, or another one.
fn outline(was: &Polygon, now: &Polygon) -> Option<Change> {
    let (before, after) = (was.outer(), now.outer());
    let by = after.first().zip(before.first()).map_or(DVec2::ZERO, |(after, before)| *after - *before);
    let pairs = || before.iter().zip(after);
    let is_same_shape = before.len() == after.len()
        && pairs().all(|(before, after)| (*before + by).distance(*after) < SAME_MM);
    if !is_same_shape {
        return Some(Change::Outline([was.bounds().size(), now.bounds().size()]));
    }
    (by.length() >= SAME_MM).then_some(Change::Moved(by, 0.0))
}

pub(super) fn feature(was: &FloorFeature, now: &FloorFeature) -> Vec<Change> {
    [
        other(Kind::Feature(was.kind), Kind::Feature(now.kind), Change::Kind),
        outline(&was.outline, &now.outline),
        other(was.material, now.material, Change::Material),
        length(Figure::Proud, was.proud_mm, now.proud_mm),
    ]
    .into_iter()
    .flatten()
    .collect()
}

pub(super) fn runway(was: &Runway, now: &Runway) -> Vec<Change> {
    [
        outline(&was.outline, &now.outline),
        length(Figure::RunwayTop, was.top_mm, now.top_mm),
        (was.survey != now.survey).then_some(Change::Levels),
    ]
    .into_iter()
    .flatten()
    .collect()
}

pub(super) fn keep_free(was: &KeepFree, now: &KeepFree) -> Vec<Change> {
    let kind = other(Kind::KeepFree(was.kind), Kind::KeepFree(now.kind), Change::Kind);
    kind.into_iter().chain(outline(&was.outline, &now.outline)).collect()
}

pub(super) fn hall_bay(was: &HallBay, now: &HallBay) -> Vec<Change> {
    outline(&was.outline, &now.outline).into_iter().collect()
}

pub(super) fn thing(was: &Thing, now: &Thing) -> Vec<Change> {
    let shapes = [was, now].map(|own| own.footprint.shape());
    [
        other(Kind::Thing(was.kind), Kind::Thing(now.kind), Change::Kind),
        moved(&was.place.at, &now.place.at),
        (shapes[0] != shapes[1]).then(|| Change::Shape(shapes.map(|own| Box::new(own.clone())))),
        heights(&was.span, &now.span),
        other(was.material, now.material, Change::Material),
        other(was.metal, now.metal, Change::Metal),
        other(was.place.known, now.place.known, Change::Known),
        other(was.effort, now.effort, Change::Effort),
        (was.locked != now.locked).then_some(Change::Locked(now.locked)),
    ]
    .into_iter()
    .flatten()
    .collect()
}
