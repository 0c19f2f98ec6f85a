//! The file form of a vehicle profile, version 8. Apart from the model, so that either may change without the other.

mod fifth;
mod first;
mod fourth;
mod from_model;
mod screws;
mod second;
mod seventh;
mod sixth;
mod third;
mod to_model;

use serde::{Deserialize, Serialize};

use crate::aiming::AimingFile;
use crate::figure::{Figure, Place, Point};
use crate::source::SourceFile;
use crate::text::Text;
use crate::version::{self, Reader};
use first::FirstProfileFile;
use screws::ScrewsFile;

pub use from_model::file_of;
pub use second::SecondProfileFile;
pub use to_model::{draft_of, vehicle_of};

/// Every version of vehicle profiles that can be read, the present one last.
pub const VERSIONS: &[Reader<ProfileFile>] = &[
    Reader {
        version: 1,
        read: |text| SecondProfileFile::from(text.parse::<FirstProfileFile>()?).third(text).map(from_third),
    },
    Reader { version: 2, read: |text| text.parse::<SecondProfileFile>()?.third(text).map(from_third) },
    Reader { version: 3, read: |text| text.parse().map(from_third) },
    Reader { version: 4, read: |text| text.parse().map(from_fourth) },
    Reader { version: 5, read: |text| text.parse().map(from_fifth) },
    Reader { version: 6, read: |text| text.parse().map(from_sixth) },
    Reader { version: 7, read: |text| text.parse().map(seventh::eighth) },
    Reader { version: version::PROFILE, read: Text::parse },
];

fn from_third(third: ProfileFile) -> ProfileFile {
    from_fourth(third::fourth(third))
}

fn from_fourth(fourth: ProfileFile) -> ProfileFile {
    from_fifth(fourth::fifth(fourth))
}

fn from_fifth(fifth: ProfileFile) -> ProfileFile {
    from_sixth(fifth::sixth(fifth))
}

fn from_sixth(sixth: ProfileFile) -> ProfileFile {
    seventh::eighth(sixth::seventh(sixth))
}

/// Frequencies are gigahertz in files and hertz in the model.
const HERTZ_PER_GIGAHERTZ: f64 = 1e9;

/// A whole profile file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ProfileFile {
    pub version: u32,
    pub name: String,
    pub class: ClassFile,
    pub source: SourceFile,
    pub body: BodyFile,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub body_points: Vec<BodyPointFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sensors: Vec<SensorFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub aimings: Vec<AimingFile>,
    /// Figures of sensors, aimings and their zones that stand here and were never entered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub assumed: Vec<AssumedFile>,
}

/// A figure of a sensor, an aiming or a zone that was never entered: whose, and which. What is assumed of the body does not stand
/// in the file at all.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum AssumedFile {
    Sensor { name: String, part: SensorPartFile },
    Aiming { name: String, part: AimingPartFile },
    Zone { aiming: String, name: String, part: ZonePartFile },
}

/// What can be assumed of a sensor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SensorPartFile {
    Ahead,
    Aside,
    Height,
    Boresight,
    View,
    Kind,
    Adjusted,
}

/// What can be assumed of an aiming.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum AimingPartFile {
    StandOff,
    Target,
    TargetHeight,
    PlaceTolerance,
    Azimuth,
    Elevation,
    ClearAside,
    ClearAlong,
    Floor,
    WorkingRoom,
    MarkPlan,
    Axis,
    ClearHeight,
}

/// What can be assumed of a zone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ZonePartFile {
    Outline,
    Heights,
}

/// Body classes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ClassFile {
    SmallHatchback,
    Saloon,
    Estate,
    TallCar,
    Van,
    Pickup,
    PeopleCarrier,
    Other,
}

/// The figures of the body. What may be left out is assumed from the class.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BodyFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wheelbase_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overhang_front_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overhang_rear_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub track_front_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub track_rear_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tyre_diameter_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tyre_width_mm: Option<Figure>,
    /// As the front ones if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tyre_width_rear_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ground_clearance_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mirrors: Option<MirrorsFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ride_heights: Option<RideHeightsFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outline_top_mm: Option<Vec<Point>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outline_side_mm: Option<Vec<Point>>,
}

/// The door mirrors.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MirrorsFile {
    pub width_mm: Figure,
    pub ahead_mm: Figure,
    pub height_mm: Figure,
}

/// Ride heights at the four arches.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RideHeightsFile {
    pub front_left_mm: Figure,
    pub front_right_mm: Figure,
    pub rear_left_mm: Figure,
    pub rear_right_mm: Figure,
    /// How far each may be off on a car that is aimed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub allowed_mm: Option<Figure>,
}

/// A named point of the body.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BodyPointFile {
    pub name: String,
    pub at_mm: Place,
}

/// A sensor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SensorFile {
    pub name: String,
    pub kind: SensorKindFile,
    pub at_mm: Place,
    #[serde(default, skip_serializing_if = "EdgesFile::is_empty")]
    pub edges: EdgesFile,
    #[serde(default)]
    pub azimuth_deg: Figure,
    #[serde(default)]
    pub elevation_deg: Figure,
    /// Whole angle from left to right.
    pub view_azimuth_deg: Figure,
    /// Whole angle from top to bottom.
    pub view_elevation_deg: Figure,
    pub adjusted: AdjustedFile,
    #[serde(default, skip_serializing_if = "ScrewsFile::is_empty")]
    pub screws: ScrewsFile,
    pub source: SourceFile,
}

/// How far a sensor's edges and a line on it are from its centre, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EdgesFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lower_below_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub upper_above_mm: Option<Figure>,
    /// Negative below.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line_above_mm: Option<Figure>,
}

impl EdgesFile {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// What kind of sensor it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum SensorKindFile {
    ForwardRadar {
        frequency_ghz: Figure,
        bandwidth_ghz: Figure,
        beam_azimuth_deg: Figure,
        beam_elevation_deg: Figure,
    },
    CornerRadar {
        frequency_ghz: Figure,
        bandwidth_ghz: Figure,
        beam_azimuth_deg: Figure,
        beam_elevation_deg: Figure,
    },
    ForwardCamera {
        pixels_across: u32,
        pixels_down: u32,
    },
    SurroundCamera {
        pixels_across: u32,
        pixels_down: u32,
    },
    Lidar,
}

/// How a sensor's aim is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum AdjustedFile {
    Screw,
    Shim,
    Software,
    NotAtAll,
}
