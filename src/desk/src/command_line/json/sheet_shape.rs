//! All that a mark sheet tells, as data, field by field. The documentation of a field is its description in the schema.
//!
//! Field names never change their meaning once shipped; new ones may be added.

use schemars::JsonSchema;
use serde::Serialize;

use super::shape::{Found, Judged, Promised, ShopUsed, Target};

/// What `baywright marks` writes as JSON. A field's unit ends its name: `_mm` millimetres, `_deg` degrees, anticlockwise as seen from
/// above. Figures are not rounded beyond a millionth. Frames: `bay` has its origin at a chosen corner of the floor, x along the long
/// side, y to the left of x, z up; `vehicle` under the middle of the front axle, x forward, y left; `axis` abreast of the front axle,
/// x straight ahead by the aiming's reference; `sensor` in the sensor, x along its boresight, y left, z up.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Sheets {
    /// Which kind of document this is.
    pub(super) format: SheetsFormat,
    /// The version of the format. New fields may be added without a new one.
    pub(super) version: u32,
    /// The file, as it was named; "-" for standard input.
    pub(super) file: String,
    /// The bay's name.
    pub(super) bay: String,
    /// By which settings of the shop it was judged.
    pub(super) shop: ShopUsed,
    /// Each set-up that was asked about, in the file's order.
    pub(super) set_ups: Vec<SetUp>,
}

/// What `baywright marks` writes.
#[derive(Serialize, JsonSchema)]
pub(super) enum SheetsFormat {
    #[serde(rename = "baywright-marks")]
    Marks,
}

/// A set-up.
#[derive(Serialize, JsonSchema)]
pub(super) struct SetUp {
    /// Its name.
    pub(super) set_up: String,
    /// The car's name.
    pub(super) vehicle: String,
    /// The aiming's name.
    pub(super) aiming: String,
    /// Whether the space is ready.
    pub(super) verdict: Judged,
    /// Whether any figure of the car is an example's, and none of a maker.
    pub(super) on_example_figures: bool,
    /// How the other frames lie in the bay.
    pub(super) frames: Frames,
    /// The floor marks, in the order in which they are laid.
    pub(super) marks: Vec<LaidMark>,
    /// What a tape must read between marks, diagonals too.
    pub(super) distances: Vec<Distance>,
    /// Where targets are set, and their stands.
    pub(super) targets: Vec<SetTarget>,
    /// Marks that stay on the floor.
    pub(super) permanent_points: Vec<Point>,
    /// Dimensions that were measured and kept.
    pub(super) dimensions: Vec<Kept>,
    /// The floor's levels as surveyed; null: it was not.
    pub(super) levels: Option<Levels>,
    /// What was found, the worst first.
    pub(super) findings: Vec<Lettered>,
    /// What is to be moved and done first, and what the space is then; null: nothing that was found.
    pub(super) moves: Option<Promised>,
    /// The car's figures that nobody entered, in words.
    pub(super) assumed: Vec<String>,
}

/// How frames lie in the bay.
#[derive(Serialize, JsonSchema)]
pub(super) struct Frames {
    pub(super) vehicle: FrameAt,
    pub(super) axis: FrameAt,
    /// The sensor's own place.
    pub(super) sensor_at_mm: [f64; 3],
    /// The two walls that all is taped from on a floor plan.
    pub(super) walls: [String; 2],
}

/// A frame's origin and where its x axis runs.
#[derive(Serialize, JsonSchema)]
pub(super) struct FrameAt {
    pub(super) at_mm: [f64; 2],
    pub(super) heading_deg: f64,
}

/// A place on the floor, in each frame.
#[derive(Serialize, JsonSchema)]
pub(super) struct Place {
    pub(super) bay_mm: [f64; 2],
    pub(super) vehicle_mm: [f64; 2],
    pub(super) axis_mm: [f64; 2],
    pub(super) sensor_mm: [f64; 3],
    /// How far it is from each of the two walls of `frames`, square to them; negative behind one.
    pub(super) off_walls_mm: [f64; 2],
}

/// A floor mark.
#[derive(Serialize, JsonSchema)]
pub(super) struct LaidMark {
    /// The number that it has on sheets and drawings.
    pub(super) number: usize,
    pub(super) name: String,
    /// Where it lies; null if it cannot be found by its recipe.
    pub(super) at: Option<Place>,
    /// How high above the bay's floor what it lies on is: the top of a runway, or 0.
    pub(super) lies_mm: f64,
    /// How it is laid.
    pub(super) instruction: String,
}

/// What a tape must read between two marks.
#[derive(Serialize, JsonSchema)]
pub(super) struct Distance {
    /// The numbers of both marks.
    pub(super) marks: [Option<usize>; 2],
    /// Their names.
    pub(super) names: [String; 2],
    pub(super) distance_mm: f64,
    /// The figures that it rests on and that nobody entered, in words.
    pub(super) rests_on_assumed: Vec<String>,
}

/// A height to set over the floor there.
#[derive(Serialize, JsonSchema)]
pub(super) struct SetOverFloor {
    /// How high the middle of the face is set.
    pub(super) height_mm: f64,
    /// How surely, 95 %.
    pub(super) within_mm: f64,
    /// How much more that is than over a level floor; negative: less.
    pub(super) more_than_level_mm: f64,
    /// Whether it rests on the sensor's height as the profile has it, which was not measured on this car.
    pub(super) by_profile: bool,
}

/// Where a target is set.
#[derive(Serialize, JsonSchema)]
pub(super) struct SetTarget {
    #[serde(flatten)]
    pub(super) told: Target,
    /// The middle of its face as it is meant, on the floor below it, in each frame.
    pub(super) meant_at: Place,
    /// How high the middle of its face is to be over a level floor.
    pub(super) meant_height_mm: f64,
    /// How high it is set over the floor where it stands, by the surveyed levels; null where those are not known.
    pub(super) set_over_floor: Option<SetOverFloor>,
    /// Whether it lies on the floor and has no stand.
    pub(super) lies_on_floor: bool,
    /// How far the middle of its face is from the sensor, in space.
    pub(super) from_sensor_mm: f64,
}

/// A point that stays.
#[derive(Serialize, JsonSchema)]
pub(super) struct Point {
    pub(super) name: String,
    pub(super) at: Place,
    /// How far from there it may be laid, mm either way; null: as well as the shop lays marks.
    pub(super) laid_within_mm: Option<f64>,
    /// The permanent point that a line on the floor goes to from here; null: no line.
    pub(super) line_to: Option<String>,
}

/// A dimension that was kept.
#[derive(Serialize, JsonSchema)]
pub(super) struct Kept {
    pub(super) name: String,
    pub(super) from_bay_mm: [f64; 2],
    pub(super) to_bay_mm: [f64; 2],
    pub(super) distance_mm: f64,
}

/// Levels as surveyed.
#[derive(Serialize, JsonSchema)]
pub(super) struct Levels {
    /// The day, YYYY-MM-DD; null: not given.
    pub(super) taken: Option<String>,
    /// Each point and its level above the bay's zero.
    pub(super) points: Vec<LevelAt>,
}

/// One level.
#[derive(Serialize, JsonSchema)]
pub(super) struct LevelAt {
    pub(super) bay_mm: [f64; 2],
    pub(super) level_mm: f64,
}

/// A finding with its letter.
#[derive(Serialize, JsonSchema)]
pub(super) struct Lettered {
    /// The letter that it has on sheets and drawings; null: it has none, as what is only to be known.
    pub(super) letter: Option<String>,
    #[serde(flatten)]
    pub(super) found: Found,
}
