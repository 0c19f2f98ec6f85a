//! The file form of a bay layout, version 12. Walls, doors, things, runways, cars and aimings are referred to by name.

mod building;
mod dimensions;
mod eighth;
mod eleventh;
mod fifth;
mod first;
mod fourth;
mod from_model;
mod ninth;
pub(crate) mod on_car;
mod owner;
mod second;
mod seventh;
mod sixth;
mod stand_read;
mod tenth;
mod things;
mod third;
mod to_model;

use serde::{Deserialize, Serialize};

use crate::figure::{Clock, Day, Figure, Point, vec2};
use crate::instrument::MarkCheckFile;
use crate::source::SourceFile;
use crate::text::Text;
use crate::version::{self, Reader};

pub use building::BuildingFile;
pub use dimensions::DimensionFile;
pub use from_model::file_of;
pub use on_car::OnThisCarFile;
pub use owner::OwnerFile;
pub use stand_read::StandReadFile;
pub use things::{things_of, things_text};
pub use to_model::layout_of;

/// Every version of bay layouts that can be read, the present one last.
pub const VERSIONS: &[Reader<LayoutFile>] = &[
    Reader {
        version: 1,
        read: |text| text.parse::<first::LayoutFirst>().map(|first| of_second(first.into())),
    },
    Reader { version: 2, read: |text| text.parse().map(of_second) },
    Reader { version: 3, read: |text| text.parse().map(of_third) },
    Reader { version: 4, read: |text| text.parse().map(of_fourth) },
    Reader { version: 5, read: |text| text.parse().map(of_fifth) },
    Reader { version: 6, read: |text| text.parse().map(of_sixth) },
    Reader { version: 7, read: |text| text.parse().map(of_seventh) },
    Reader { version: 8, read: |text| text.parse().map(of_eighth) },
    Reader { version: 9, read: |text| text.parse().map(of_ninth) },
    Reader { version: 10, read: |text| text.parse().map(of_tenth) },
    Reader { version: 11, read: |text| text.parse().map(eleventh::twelfth) },
    Reader { version: version::LAYOUT, read: Text::parse },
];

fn of_second(file: LayoutFile) -> LayoutFile {
    of_third(second::third(file))
}

fn of_third(file: LayoutFile) -> LayoutFile {
    of_fourth(third::fourth(file))
}

fn of_fourth(file: LayoutFile) -> LayoutFile {
    of_fifth(fourth::fifth(file))
}

fn of_fifth(file: LayoutFile) -> LayoutFile {
    of_sixth(fifth::sixth(file))
}

fn of_sixth(file: LayoutFile) -> LayoutFile {
    of_seventh(sixth::seventh(file))
}

fn of_seventh(file: LayoutFile) -> LayoutFile {
    of_eighth(seventh::eighth(file))
}

fn of_eighth(file: LayoutFile) -> LayoutFile {
    of_ninth(eighth::ninth(file))
}

fn of_ninth(file: LayoutFile) -> LayoutFile {
    of_tenth(ninth::tenth(file))
}

fn of_tenth(file: LayoutFile) -> LayoutFile {
    eleventh::twelfth(tenth::eleventh(file))
}

/// A whole layout file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LayoutFile {
    pub version: u32,
    pub name: String,
    pub source: SourceFile,
    pub room: RoomFile,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub openings: Vec<OpeningFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub floor_features: Vec<FloorFeatureFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub runways: Vec<RunwayFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub things: Vec<ThingFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub keep_free: Vec<KeepFreeFile>,
    /// The bays of a hall; left out, all of the room is one bay.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bays: Vec<HallBayFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub survey: Option<SurveyFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub marks: Vec<PermanentMarkFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub dimensions: Vec<DimensionFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub arrangements: Vec<ArrangementFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub underlay: Option<UnderlayFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taped: Option<TapedFile>,
    /// What the owner says; from version 12.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub owner: Option<OwnerFile>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shop_fingerprint: Option<String>,
}

/// A picture under the plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UnderlayFile {
    pub picture: String,
    pub mm_per_px: Figure,
    pub at_mm: Point,
    #[serde(default, skip_serializing_if = "is_zero")]
    pub turned_deg: Figure,
    #[serde(default = "half_faded")]
    pub faded: Figure,
}

fn half_faded() -> Figure {
    baywright_planner::model::UNDERLAY_FADED.into()
}

/// How the room was taped.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TapedFile {
    pub start_turned_deg: Figure,
    pub walls: Vec<TapedWallFile>,
}

/// One wall as taped.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TapedWallFile {
    pub length_mm: Figure,
    pub turn_deg: Figure,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
}

/// The room. Wall `i` runs from corner `i` to the next one.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoomFile {
    pub corners_mm: Vec<Point>,
    pub walls: Vec<WallFile>,
    pub ceiling_mm: Figure,
    #[serde(default)]
    pub walls_known: KnownFile,
}

impl RoomFile {
    /// How long a wall is, by its position, mm.
    fn wall_length(&self, wall: usize) -> Option<f64> {
        let from = vec2(*self.corners_mm.get(wall)?);
        let to = vec2(*self.corners_mm.get((wall + 1) % self.corners_mm.len())?);
        Some(from.distance(to))
    }
}

/// One wall.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WallFile {
    pub name: String,
    pub material: MaterialFile,
}

/// What something is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum MaterialFile {
    Steel,
    Aluminium,
    Mesh,
    CarBody,
    Foil,
    Concrete,
    Brick,
    Plasterboard,
    Wood,
    Glass,
    Plastic,
    Rubber,
    Cloth,
    Person,
    Unknown,
}

/// How much metal something holds, whatever its face is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum MetalFile {
    None,
    Frame,
    All,
    Unknown,
}

/// How well a place is known. Left out, it counts as placed by eye: the more careful.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum KnownFile {
    Taped,
    #[default]
    ByEye,
    /// By eye in a file of version 3 or older, and not looked at since: ± 50 mm.
    ByEyeOlder,
    Within {
        mm: Figure,
    },
}

/// An opening in a wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpeningFile {
    pub name: String,
    pub kind: OpeningKindFile,
    pub wall: String,
    pub from_mm: Figure,
    pub width_mm: Figure,
    #[serde(default)]
    pub bottom_mm: Figure,
    pub top_mm: Figure,
    pub material: MaterialFile,
    pub shut: bool,
    #[serde(default)]
    pub free_beyond_mm: Figure,
    #[serde(default)]
    pub is_exit: bool,
}

/// What closes an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum OpeningKindFile {
    RollerDoor,
    SwingDoor,
    Window,
    Gap,
}

/// A place in the floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FloorFeatureFile {
    pub name: String,
    pub kind: FloorFeatureKindFile,
    pub corners_mm: Vec<Point>,
    pub material: MaterialFile,
    #[serde(default, skip_serializing_if = "is_zero")]
    pub proud_mm: Figure,
}

/// What a place in the floor is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum FloorFeatureKindFile {
    Drain,
    Pit,
    Joint,
}

/// A raised runway.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RunwayFile {
    pub name: String,
    pub corners_mm: Vec<Point>,
    pub top_mm: Figure,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub survey: Option<SurveyFile>,
}

/// A thing that stands, hangs or lies.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ThingFile {
    pub name: String,
    pub kind: ThingKindFile,
    pub shape: ShapeFile,
    /// Its own origin in the bay: the middle of a rectangle or a round thing.
    pub at_mm: Point,
    #[serde(default, skip_serializing_if = "is_zero")]
    pub turned_deg: Figure,
    #[serde(default)]
    pub bottom_mm: Figure,
    pub top_mm: Figure,
    pub material: MaterialFile,
    /// As the material says if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub metal: Option<MetalFile>,
    #[serde(default)]
    pub known: KnownFile,
    pub effort: EffortFile,
    #[serde(default, skip_serializing_if = "is_false")]
    pub locked: bool,
}

fn is_zero(figure: &Figure) -> bool {
    figure.rounded() == 0.0
}

fn is_false(yes: &bool) -> bool {
    !yes
}

/// What a thing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ThingKindFile {
    Cabinet,
    ToolChest,
    Bench,
    Shelf,
    Trolley,
    Column,
    LiftPost,
    LiftArm,
    Drum,
    ParkedCar,
    Fence,
    Bin,
    Person,
    Lamp,
    Heater,
    DoorTrack,
    Beam,
    Other,
}

/// A thing's shape in its own frame.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum ShapeFile {
    Rectangle { length_mm: Figure, width_mm: Figure },
    Round { diameter_mm: Figure },
    Outline { corners_mm: Vec<Point> },
}

/// What it takes to move a thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum EffortFile {
    OnePerson,
    TwoPeople,
    ForkLift,
    Fixed,
}

/// An area to be kept free.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KeepFreeFile {
    pub name: String,
    pub kind: KeepFreeKindFile,
    pub corners_mm: Vec<Point>,
}

/// One of several bays in a hall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HallBayFile {
    pub name: String,
    pub corners_mm: Vec<Point>,
}

/// What an area is kept free for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum KeepFreeKindFile {
    Exit,
    Panel,
    Extinguisher,
}

/// The floor's levels.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SurveyFile {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub taken: Option<Day>,
    /// With which instrument, by whom, and how far each level may be off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within_mm: Option<Figure>,
    pub source: SourceFile,
    pub points: Vec<LevelFile>,
}

/// One surveyed level.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LevelFile {
    pub at_mm: Point,
    pub level_mm: Figure,
}

/// A mark that stays.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PermanentMarkFile {
    pub name: String,
    pub at_mm: Point,
    /// How far from there it may be laid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub laid_within_mm: Option<Figure>,
    /// The mark that a line on the floor goes to from here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line_to: Option<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub checks: Vec<MarkCheckFile>,
}

/// A saved arrangement.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ArrangementFile {
    pub name: String,
    /// The profile: its file's name without `.ron`.
    pub vehicle: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vehicle_fingerprint: Option<String>,
    pub aiming: String,
    pub parked: ParkedFile,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub on_runways: Vec<String>,
    /// The bay of the hall that it is made in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub in_bay: Option<String>,
    /// Other bays of the hall that are kept empty while this is aimed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kept_empty: Vec<String>,
    /// Doors that are kept shut while this is aimed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kept_shut: Vec<String>,
    /// Other set-ups that are done at the same time, in other bays of the hall.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub at_once: Vec<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on_this_car: Option<OnThisCarFile>,
    /// What the tape read between the marks that were laid.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub marks_taped: Vec<MarkTapedFile>,
    /// What was read when they were laid the first time.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub laid_before: Vec<MarkTapedFile>,
    /// What was read of the stands as they were set.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stands_read: Vec<StandReadFile>,
    /// Its own building; left out, it is in the bay's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub building: Option<BuildingFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stands: Vec<StandAtFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub moved: Vec<MovedFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub away: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub added: Vec<ThingFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub doors: Vec<DoorFile>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub visit: Vec<String>,
}

/// Where the car stands: the middle of its front axle, and which way its nose points.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ParkedFile {
    pub at_mm: Point,
    pub heading_deg: Figure,
    #[serde(default, skip_serializing_if = "ParkedKnownFile::is_planned")]
    pub known: ParkedKnownFile,
}

/// How well that is known. Left out, the car is to be parked there: the more careful.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum ParkedKnownFile {
    #[default]
    Planned,
    Taped,
    Within {
        mm: Figure,
        deg: Figure,
    },
}

impl ParkedKnownFile {
    fn is_planned(&self) -> bool {
        *self == Self::Planned
    }
}

/// What a tape read between two marks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkTapedFile {
    pub from: String,
    pub to: String,
    pub read_mm: Figure,
    /// With which instrument of the shop.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub who: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Clock>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature_c: Option<Figure>,
}

/// Where the stand of one placement is. Left out, a stand is on its mark.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StandAtFile {
    pub placement: String,
    pub set: SetFile,
}

/// Where a stand is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum SetFile {
    OnMark,
    At {
        /// The floor under the middle of the face.
        at_mm: Point,
        /// Where the face looks.
        heading_deg: Figure,
        /// Of the middle of the face, above the floor.
        height_mm: Figure,
        /// Positive if the face looks down.
        #[serde(default, skip_serializing_if = "is_zero")]
        pitch_deg: Figure,
    },
}

/// A thing that stands elsewhere.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MovedFile {
    pub thing: String,
    pub at_mm: Point,
    #[serde(default, skip_serializing_if = "is_zero")]
    pub turned_deg: Figure,
    /// How well that place is known, however well its place at home is; by eye, where nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub known: Option<KnownFile>,
}

/// A door that is open or shut, other than the bay says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DoorFile {
    pub door: String,
    pub shut: bool,
}
