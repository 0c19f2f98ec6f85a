//! Dimensions that are kept with a bay, in its file and from there.

use baywright_planner::model::{CarPoint, DimensionEnd, EndOn, KeptDimension, ThingPoint};
use serde::{Deserialize, Serialize};

use super::RoomFile;
use crate::aiming::WheelFile;
use crate::figure::{Figure, Point, point, vec2};

/// A dimension.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DimensionFile {
    pub name: String,
    pub from: DimensionEndFile,
    pub to: DimensionEndFile,
}

/// One end of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DimensionEndFile {
    /// What it follows; left out, it is a place on the floor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<EndOnFile>,
    /// Where it lies, or lay last.
    pub at_mm: Point,
}

/// What an end lies on. A wall starts at its first corner as the file gives the corners.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum EndOnFile {
    Corner { wall: String },
    Wall { wall: String, along_mm: Figure },
    SquareTo { wall: String },
    Thing { thing: String, point: ThingPointFile },
    Mark { mark: String },
    LaidMark { mark: String },
    Wheel(WheelFile),
    FrontAxle,
    FrontBumper,
    RearBumper,
    BodyPoint(String),
    Sensor,
    Target { placement: String },
}

/// A point of a thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ThingPointFile {
    Middle,
    Corner(usize),
    Edge(usize),
    Rim(usize),
}

/// The dimensions of a file whose room is this one, clockwise or not.
pub(super) fn dimensions_of(
    file: &[DimensionFile],
    room: &RoomFile,
    is_clockwise: bool,
) -> Vec<KeptDimension> {
    let end = |end: &DimensionEndFile| DimensionEnd {
        on: end.on.as_ref().map(|on| {
            let on = end_on(on);
            if is_clockwise { turned(on, room) } else { on }
        }),
        at: vec2(end.at_mm),
    };
    let one = |own: &DimensionFile| KeptDimension {
        id: own.name.as_str().into(),
        ends: [end(&own.from), end(&own.to)],
    };
    file.iter().map(one).collect()
}

/// What an end of a clockwise file lies on in the turned room, where each wall runs the other way.
fn turned(on: EndOn, room: &RoomFile) -> EndOn {
    let count = room.corners_mm.len();
    let place = |name: &str| room.walls.iter().position(|own| own.name == name);
    match on {
        // The corner is the one at which the wall before it, turned, starts.
        EndOn::Corner(wall) => {
            let before =
                place(wall.as_str()).and_then(|at| room.walls.get((at + count.max(1) - 1) % count.max(1)));
            EndOn::Corner(before.map_or(wall, |own| own.name.as_str().into()))
        }
        EndOn::Wall { wall, along_mm } => {
            let at = place(wall.as_str());
            let length = at.and_then(|at| room.wall_length(at));
            let along_mm = length.map_or(along_mm, |length| Figure(length - along_mm).rounded().max(0.0));
            EndOn::Wall { wall, along_mm }
        }
        other => other,
    }
}

fn end_on(file: &EndOnFile) -> EndOn {
    match file {
        EndOnFile::Corner { wall } => EndOn::Corner(wall.as_str().into()),
        EndOnFile::Wall { wall, along_mm } => {
            EndOn::Wall { wall: wall.as_str().into(), along_mm: along_mm.0 }
        }
        EndOnFile::SquareTo { wall } => EndOn::SquareTo(wall.as_str().into()),
        EndOnFile::Thing { thing, point } => EndOn::Thing {
            thing: thing.as_str().into(),
            point: match *point {
                ThingPointFile::Middle => ThingPoint::Middle,
                ThingPointFile::Corner(i) => ThingPoint::Corner(i),
                ThingPointFile::Edge(i) => ThingPoint::Edge(i),
                ThingPointFile::Rim(i) => ThingPoint::Rim(i),
            },
        },
        EndOnFile::Mark { mark } => EndOn::Mark(mark.as_str().into()),
        EndOnFile::LaidMark { mark } => EndOn::LaidMark(mark.as_str().into()),
        EndOnFile::Wheel(own) => EndOn::Car(CarPoint::Wheel((*own).into())),
        EndOnFile::FrontAxle => EndOn::Car(CarPoint::FrontAxle),
        EndOnFile::FrontBumper => EndOn::Car(CarPoint::FrontBumper),
        EndOnFile::RearBumper => EndOn::Car(CarPoint::RearBumper),
        EndOnFile::BodyPoint(name) => EndOn::Car(CarPoint::Named(name.as_str().into())),
        EndOnFile::Sensor => EndOn::Sensor,
        EndOnFile::Target { placement } => EndOn::Target(placement.as_str().into()),
    }
}

/// The dimensions as a file has them.
pub(super) fn files_of(dimensions: &[KeptDimension]) -> Vec<DimensionFile> {
    let end =
        |end: &DimensionEnd| DimensionEndFile { on: end.on.as_ref().map(file_on), at_mm: point(end.at) };
    let one = |own: &KeptDimension| {
        let [from, to] = &own.ends;
        DimensionFile { name: own.id.to_string(), from: end(from), to: end(to) }
    };
    dimensions.iter().map(one).collect()
}

fn file_on(on: &EndOn) -> EndOnFile {
    match on {
        EndOn::Corner(wall) => EndOnFile::Corner { wall: wall.to_string() },
        EndOn::Wall { wall, along_mm } => {
            EndOnFile::Wall { wall: wall.to_string(), along_mm: (*along_mm).into() }
        }
        EndOn::SquareTo(wall) => EndOnFile::SquareTo { wall: wall.to_string() },
        EndOn::Thing { thing, point } => EndOnFile::Thing {
            thing: thing.to_string(),
            point: match *point {
                ThingPoint::Middle => ThingPointFile::Middle,
                ThingPoint::Corner(i) => ThingPointFile::Corner(i),
                ThingPoint::Edge(i) => ThingPointFile::Edge(i),
                ThingPoint::Rim(i) => ThingPointFile::Rim(i),
            },
        },
        EndOn::Mark(mark) => EndOnFile::Mark { mark: mark.to_string() },
        EndOn::LaidMark(mark) => EndOnFile::LaidMark { mark: mark.to_string() },
        EndOn::Car(CarPoint::Wheel(wheel)) => EndOnFile::Wheel((*wheel).into()),
        EndOn::Car(CarPoint::FrontAxle) => EndOnFile::FrontAxle,
        EndOn::Car(CarPoint::FrontBumper) => EndOnFile::FrontBumper,
        EndOn::Car(CarPoint::RearBumper) => EndOnFile::RearBumper,
        EndOn::Car(CarPoint::Named(name)) => EndOnFile::BodyPoint(name.to_string()),
        EndOn::Sensor => EndOnFile::Sensor,
        EndOn::Target(placement) => EndOnFile::Target { placement: placement.to_string() },
    }
}
