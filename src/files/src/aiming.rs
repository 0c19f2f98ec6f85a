//! The file form of an aiming, version 1. Marks, targets and body points are referred to by name.

mod from_model;
mod to_model;

use serde::{Deserialize, Serialize};

use crate::figure::{Figure, Point};
use crate::source::SourceFile;

pub use from_model::file_of;
pub use to_model::aiming_of;

/// One sensor by one procedure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AimingFile {
    pub name: String,
    /// The name on the screen; the name itself if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    pub sensor: String,
    pub source: SourceFile,
    pub axis: AxisFile,
    pub tolerance: AimToleranceFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub floor: Option<FloorFile>,
    #[serde(default, skip_serializing_if = "AlignmentFile::is_empty")]
    pub alignment: AlignmentFile,
    /// 600 mm if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub working_room_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub mark_plan: Vec<MarkFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub placements: Vec<PlacementFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub zones: Vec<ZoneFile>,
    /// From version 7 of profiles.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub names_no_zone: bool,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub have_ready: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub conditions: Vec<String>,
}

/// What "straight ahead" means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum AxisFile {
    GeometricCentreline,
    ThrustLine,
}

/// How far the aim may be off, either way.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AimToleranceFile {
    pub azimuth_deg: Figure,
    pub elevation_deg: Figure,
}

/// What is asked of the car's alignment, either way.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AlignmentFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thrust_angle_deg: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set_back_mm: Option<Figure>,
}

impl AlignmentFile {
    fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// What is asked of the floor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FloorFile {
    pub level_mm: Figure,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pitch_deg: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roll_deg: Option<Figure>,
}

/// One mark.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkFile {
    pub name: String,
    pub how: HowFile,
}

/// How a mark is found. Marks are named and must come earlier.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum HowFile {
    WheelPoint {
        wheel: WheelFile,
    },
    Outboard {
        wheel: WheelFile,
        distance_mm: Figure,
    },
    BodyPoint {
        point: String,
    },
    Prolong {
        from: String,
        through: String,
        by_mm: Figure,
    },
    ProlongAbreast {
        from: String,
        through: String,
        of: String,
    },
    Middle {
        first: String,
        second: String,
    },
    Foot {
        of: String,
        from: String,
        to: String,
    },
    AlongAside {
        from: String,
        to: String,
        along_mm: Figure,
        aside_mm: Figure,
    },
    AtAngle {
        at: String,
        towards: String,
        angle_deg: Figure,
        distance_mm: Figure,
    },
    Crossing {
        first: (String, String),
        second: (String, String),
    },
    TwoDistances {
        first: String,
        from_first_mm: Figure,
        second: String,
        from_second_mm: Figure,
        side: HandFile,
    },
}

/// A wheel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum WheelFile {
    FrontLeft,
    FrontRight,
    RearLeft,
    RearRight,
}

/// A side of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum HandFile {
    Left,
    Right,
}

/// One target at one place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlacementFile {
    pub name: String,
    pub target: TargetFile,
    pub stand_off: StandOffFile,
    pub height: HeightFile,
    #[serde(default, skip_serializing_if = "HeightsFromFile::is_floor")]
    pub heights_from: HeightsFromFile,
    pub vertical: VerticalFile,
    #[serde(default)]
    pub turned_deg: Figure,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mark: Option<String>,
    #[serde(default)]
    pub tolerance: PlaceToleranceFile,
    /// Those that stand at the same time: mats together and others in turn if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with: Option<Vec<String>>,
}

/// A target.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TargetFile {
    pub kind: TargetKindFile,
    pub width_mm: Figure,
    /// For a mat, its length away from the car.
    pub height_mm: Figure,
    pub depth_mm: Figure,
    #[serde(default)]
    pub centre_behind_mm: Figure,
    /// By kind if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub aims_by: Option<AimsByFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stand: Option<StandFile>,
}

/// What kind of target.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum TargetKindFile {
    CornerReflector,
    Plate,
    Board,
    Mat,
    ActiveDevice,
}

/// Shares of the target's errors that become errors of the aim.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AimsByFile {
    pub place: Figure,
    pub squareness: Figure,
}

/// What holds a target.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StandFile {
    pub base: OutlineFile,
    pub base_height_mm: Figure,
    pub mast_mm: Figure,
    pub mast_behind_mm: Figure,
    pub top_mm: Figure,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lowest_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub highest_mm: Option<Figure>,
}

/// A shape from above.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum OutlineFile {
    /// Upright, from its corner with the smallest x and y to the opposite one.
    Rectangle {
        from_mm: Point,
        to_mm: Point,
    },
    Round {
        middle_mm: Point,
        diameter_mm: Figure,
    },
    Corners {
        corners_mm: Vec<Point>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        holes_mm: Vec<Vec<Point>>,
    },
}

/// A distance from car to target.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StandOffFile {
    pub from: DatumFile,
    pub to: EndFile,
    pub distance_mm: Figure,
    #[serde(default)]
    pub bearing_deg: Figure,
    #[serde(default)]
    pub aside_mm: Figure,
    pub along: AlongFile,
}

/// Where a stand-off starts.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum DatumFile {
    FrontAxle,
    RearAxle,
    Wheel(WheelFile),
    Sensor,
    FrontBumper,
    RearBumper,
    BodyPoint(String),
    FrontSpots,
}

/// Where a stand-off ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum EndFile {
    Face,
    ReflectorCentre,
}

/// How a stand-off is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum AlongFile {
    Floor,
    Level,
}

/// Height of the middle of the target's face.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum HeightFile {
    Absolute {
        height_mm: Figure,
    },
    FromSensor {
        #[serde(default, skip_serializing_if = "PointFile::is_centre")]
        point: PointFile,
        offset_mm: Figure,
    },
    OnFloor,
}

/// A point of the sensor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum PointFile {
    #[default]
    Centre,
    LowerEdge,
    UpperEdge,
    Line,
}

impl PointFile {
    // The signature that serde asks for.
    fn is_centre(&self) -> bool {
        *self == Self::Centre
    }
}

/// From which plane heights are given.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum HeightsFromFile {
    #[default]
    Floor,
    Wheels,
}

impl HeightsFromFile {
    // The signature that serde asks for.
    fn is_floor(&self) -> bool {
        *self == Self::Floor
    }
}

/// Against what upright is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum VerticalFile {
    Gravity,
    WheelsPlane,
}

/// How near to its place a target must stand, either way.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlaceToleranceFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub along_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub across_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height_mm: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub yaw_deg: Option<Figure>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pitch_deg: Option<Figure>,
}

/// A keep-clear zone.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ZoneFile {
    pub name: String,
    pub frame: FrameFile,
    pub outline: OutlineFile,
    pub bottom_mm: Figure,
    pub top_mm: Figure,
    #[serde(default, skip_serializing_if = "HeightsFromFile::is_floor")]
    pub heights_from: HeightsFromFile,
    pub excludes: ExcludesFile,
}

/// The frame that a zone is drawn in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FrameFile {
    Vehicle,
    Sensor,
    Target(String),
}

/// What may not be in a zone.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum ExcludesFile {
    Anything,
    Metal,
    Reflecting { level_dbsm: Figure },
    People,
    Light,
}
