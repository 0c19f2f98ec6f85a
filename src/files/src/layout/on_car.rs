//! What was measured on one very car, in a file: as it was typed, each figure in its own unit with the way that it goes.

use baywright_planner::model::sheet::{
    AlignmentSheet, Inward, Rim, SET_BACK_UNIT, SheetUnit, Side, Told, Typed,
};
use baywright_planner::model::{OnThisCar, RearToe, Stood, WheelsAt};
use serde::{Deserialize, Serialize};

use super::is_zero;
use crate::figure::{Day, Figure, Place, Point, place, point, vec2, vec3};

/// What was measured on this very car.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OnThisCarFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sensor_at_mm: Option<Place>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rear_toe: Option<RearToeFile>,
    /// Positive if the right front wheel stands further back.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set_back_mm: Option<Figure>,
    /// Its diameter, between kerbs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turning_circle_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wheels_mm: Option<WheelsFile>,
    #[serde(default, skip_serializing_if = "WheelsAtFile::is_middle")]
    pub wheels_at: WheelsAtFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub alignment_sheet: Option<SheetFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub arches_mm: Option<ArchesFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub body_points: Vec<PlumbedFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stood_still: Vec<StoodFile>,
}

/// The wheel points of this car, vehicle frame.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WheelsFile {
    pub front_left: Point,
    pub front_right: Point,
    pub rear_left: Point,
    pub rear_right: Point,
}

/// Which point of a wheel they are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum WheelsAtFile {
    #[default]
    TyreMiddle,
    Hub,
}

impl WheelsAtFile {
    fn is_middle(&self) -> bool {
        *self == Self::TyreMiddle
    }
}

/// Toe of the rear wheels, positive toe-in; of one of them alone while the other one's is not known.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RearToeFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_deg: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right_deg: Option<Figure>,
}

/// Wheel arch edges above the wheels' middles.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ArchesFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub front_left: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub front_right: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rear_left: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rear_right: Option<Figure>,
}

/// A point of the body as it was plumbed to the floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlumbedFile {
    pub name: String,
    pub at_mm: Point,
}

/// A distance from the floor to the car.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StoodFile {
    pub from: String,
    pub to: String,
    pub start_mm: Figure,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub end_mm: Option<Figure>,
}

/// An alignment sheet.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SheetFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<Day>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub toe: Option<WheelsToldFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub camber: Option<WheelsToldFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set_back: Option<SideToldFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thrust: Option<SideToldFile>,
}

/// A figure of each wheel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WheelsToldFile {
    #[serde(default)]
    pub unit: UnitFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rim: Option<RimFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub front_left: Option<InwardToldFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub front_right: Option<InwardToldFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rear_left: Option<InwardToldFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rear_right: Option<InwardToldFile>,
}

/// The unit of a figure.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum UnitFile {
    #[default]
    Degrees,
    DegreesMinutes,
    Millimetres,
    Inches,
}

/// The diameter at which toes are given.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum RimFile {
    Millimetres(Figure),
    Inches(Figure),
}

/// A figure of a wheel.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InwardToldFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value: Option<Figure>,
    #[serde(default, skip_serializing_if = "is_zero")]
    pub minutes: Figure,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub way: Option<InwardFile>,
}

/// A figure of the whole car.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SideToldFile {
    #[serde(default)]
    pub unit: UnitFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value: Option<Figure>,
    #[serde(default, skip_serializing_if = "is_zero")]
    pub minutes: Figure,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub way: Option<SideFile>,
}

/// Which way a toe points or a camber leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum InwardFile {
    In,
    Out,
}

/// A side of the car.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SideFile {
    Left,
    Right,
}

/// Kinds of a file and of the model that are named alike.
macro_rules! alike {
    ($file:ty, $model:ty, $($kind:ident),*) => {
        impl From<$file> for $model {
            fn from(own: $file) -> Self {
                match own { $(<$file>::$kind => Self::$kind,)* }
            }
        }
        impl From<$model> for $file {
            fn from(own: $model) -> Self {
                match own { $(<$model>::$kind => Self::$kind,)* }
            }
        }
    };
}

alike!(UnitFile, SheetUnit, Degrees, DegreesMinutes, Millimetres, Inches);
alike!(InwardFile, Inward, In, Out);
alike!(SideFile, Side, Left, Right);
alike!(WheelsAtFile, WheelsAt, TyreMiddle, Hub);

/// What a file says of it.
pub fn to_model(file: &OnThisCarFile) -> OnThisCar {
    OnThisCar {
        sensor_at: file.sensor_at_mm.map(vec3),
        rear_toe: file.rear_toe.map(rear_toe).unwrap_or_default(),
        set_back_mm: file.set_back_mm.map(|mm| mm.0),
        turning_circle_mm: file.turning_circle_mm.map(|mm| mm.0),
        wheels: file.wheels_mm.map(|w| [w.front_left, w.front_right, w.rear_left, w.rear_right].map(vec2)),
        wheels_at: file.wheels_at.into(),
        sheet: Box::new(file.alignment_sheet.as_ref().map(sheet).unwrap_or_default()),
        arches_mm: file.arches_mm.map_or([None; 4], |own| {
            [own.front_left, own.front_right, own.rear_left, own.rear_right].map(|mm| mm.map(|mm| mm.0))
        }),
        body_points: file.body_points.iter().map(|own| (own.name.as_str().into(), vec2(own.at_mm))).collect(),
        stood: file.stood_still.iter().map(stood).collect(),
    }
}

/// The same for a file; `None` where nothing was measured.
pub fn file_of(own: &OnThisCar) -> Option<OnThisCarFile> {
    let [front_left, front_right, rear_left, rear_right] = own.arches_mm.map(|mm| mm.map(Figure));
    let arches = ArchesFile { front_left, front_right, rear_left, rear_right };
    let rear_toe = RearToeFile {
        left_deg: own.rear_toe.left_rad.map(Figure::degrees),
        right_deg: own.rear_toe.right_rad.map(Figure::degrees),
    };
    (*own != OnThisCar::default()).then(|| OnThisCarFile {
        sensor_at_mm: own.sensor_at.map(place),
        rear_toe: (own.rear_toe != RearToe::default()).then_some(rear_toe),
        set_back_mm: own.set_back_mm.map(Figure),
        turning_circle_mm: own.turning_circle_mm.map(Figure),
        wheels_mm: own.wheels.map(|wheels| {
            let [front_left, front_right, rear_left, rear_right] = wheels.map(point);
            WheelsFile { front_left, front_right, rear_left, rear_right }
        }),
        wheels_at: own.wheels_at.into(),
        alignment_sheet: (*own.sheet != AlignmentSheet::default()).then(|| file_of_sheet(&own.sheet)),
        arches_mm: (own.arches_mm != [None; 4]).then_some(arches),
        body_points: own
            .body_points
            .iter()
            .map(|(id, at)| PlumbedFile { name: id.to_string(), at_mm: point(*at) })
            .collect(),
        stood_still: own.stood.iter().map(file_of_stood).collect(),
    })
}

/// A distance from the floor to the car.
pub fn stood(file: &StoodFile) -> Stood {
    Stood {
        from: file.from.as_str().into(),
        to: file.to.as_str().into(),
        start_mm: file.start_mm.0,
        end_mm: file.end_mm.map(|mm| mm.0),
    }
}

/// The same for a file.
pub fn file_of_stood(own: &Stood) -> StoodFile {
    StoodFile {
        from: own.from.to_string(),
        to: own.to.to_string(),
        start_mm: Figure(own.start_mm),
        end_mm: own.end_mm.map(Figure),
    }
}

fn rear_toe(file: RearToeFile) -> RearToe {
    let [left_rad, right_rad] = [file.left_deg, file.right_deg].map(|own| own.map(Figure::radians));
    RearToe { left_rad, right_rad }
}

fn reads(value: Option<Figure>, minutes: Figure) -> Option<Typed> {
    let is_there = value.is_some() || minutes.0 != 0.0;
    is_there.then(|| Typed { value: value.unwrap_or_default().0, minutes: minutes.0 })
}

fn inward(file: Option<InwardToldFile>) -> Told<Inward> {
    let told =
        |own: InwardToldFile| Told { reads: reads(own.value, own.minutes), way: own.way.map(Into::into) };
    file.map(told).unwrap_or_default()
}

fn wheels(file: &WheelsToldFile) -> [Told<Inward>; 4] {
    [file.front_left, file.front_right, file.rear_left, file.rear_right].map(inward)
}

/// An alignment sheet.
pub fn sheet(file: &SheetFile) -> AlignmentSheet {
    let (toe, camber) = (file.toe.unwrap_or_default(), file.camber.unwrap_or_default());
    let rim = toe.rim.map(|own| match own {
        RimFile::Millimetres(mm) => Rim::Millimetres(mm.0),
        RimFile::Inches(inches) => Rim::Inches(inches.0),
    });
    let side =
        |own: &SideToldFile| Told { reads: reads(own.value, own.minutes), way: own.way.map(Into::into) };
    let unit = |own: Option<SideToldFile>, usual: SheetUnit| own.map_or(usual, |own| own.unit.into());
    AlignmentSheet {
        taken: file.date.map(|day| day.0),
        by: file.by.clone(),
        toe_unit: toe.unit.into(),
        rim,
        toe: wheels(&toe),
        camber_unit: camber.unit.into(),
        camber: wheels(&camber),
        set_back_unit: unit(file.set_back, SET_BACK_UNIT),
        set_back: file.set_back.as_ref().map(side).unwrap_or_default(),
        thrust_unit: unit(file.thrust, SheetUnit::Degrees),
        thrust: file.thrust.as_ref().map(side).unwrap_or_default(),
    }
}

fn wheels_of(unit: SheetUnit, rim: Option<RimFile>, all: &[Told<Inward>; 4]) -> Option<WheelsToldFile> {
    let [front_left, front_right, rear_left, rear_right] = all.map(|own| {
        (own != Told::default()).then(|| InwardToldFile {
            value: own.reads.map(|typed| Figure(typed.value)),
            minutes: Figure(own.reads.unwrap_or_default().minutes),
            way: own.way.map(Into::into),
        })
    });
    let file = WheelsToldFile { unit: unit.into(), rim, front_left, front_right, rear_left, rear_right };
    (file != WheelsToldFile::default()).then_some(file)
}

fn side_of(unit: SheetUnit, usual: SheetUnit, own: &Told<Side>) -> Option<SideToldFile> {
    (*own != Told::default() || unit != usual).then(|| SideToldFile {
        unit: unit.into(),
        value: own.reads.map(|typed| Figure(typed.value)),
        minutes: Figure(own.reads.unwrap_or_default().minutes),
        way: own.way.map(Into::into),
    })
}

/// The same for a file.
pub fn file_of_sheet(sheet: &AlignmentSheet) -> SheetFile {
    let rim = sheet.rim.map(|own| match own {
        Rim::Millimetres(mm) => RimFile::Millimetres(Figure(mm)),
        Rim::Inches(inches) => RimFile::Inches(Figure(inches)),
    });
    SheetFile {
        date: sheet.taken.map(Day),
        by: sheet.by.clone(),
        toe: wheels_of(sheet.toe_unit, rim, &sheet.toe),
        camber: wheels_of(sheet.camber_unit, None, &sheet.camber),
        set_back: side_of(sheet.set_back_unit, SET_BACK_UNIT, &sheet.set_back),
        thrust: side_of(sheet.thrust_unit, SheetUnit::Degrees, &sheet.thrust),
    }
}
