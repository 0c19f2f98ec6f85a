//! What is written as data, field by field. The documentation of a field is its description in the schema.
//!
//! Field names and codes never change their meaning once shipped; new ones may be added.

use std::borrow::Cow;
use std::collections::BTreeMap;

use baywright_planner::proof::Said;
use baywright_planner::{Code, Severity, Verdict};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Serialize;

/// What `baywright check --json` writes to standard output for one file. Lengths in millimetres, angles in degrees, places in
/// the bay's frame: from a chosen corner of the floor, x along the long side, y to the left of x, z up.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Answer {
    /// Which kind of document this is.
    pub(super) format: AnswerFormat,
    /// The version of the format. New fields may be added without a new one.
    pub(super) version: u32,
    /// The file, as it was named; "-" for standard input.
    pub(super) file: String,
    /// The bay's name.
    pub(super) bay: String,
    /// By which settings of the shop it was judged.
    pub(super) shop: ShopUsed,
    /// The answer for each set-up that was asked about, in the file's order.
    pub(super) arrangements: Vec<One>,
}

/// One file.
#[derive(Serialize, JsonSchema)]
pub(super) enum AnswerFormat {
    #[serde(rename = "baywright-answer")]
    One,
}

/// What `baywright check --json` writes to standard output for several files: the answers that there are.
#[derive(Serialize, JsonSchema)]
pub(super) struct Answers<'a> {
    /// Which kind of document this is.
    pub(super) format: AnswersFormat,
    /// The version of the format.
    pub(super) version: u32,
    /// One for each file that could be answered for, in the order in which they were named.
    pub(super) answers: &'a [Answer],
}

/// Several files.
#[derive(Serialize, JsonSchema)]
pub(super) enum AnswersFormat {
    #[serde(rename = "baywright-answers")]
    Several,
}

/// By which settings of the shop it was judged.
#[derive(Serialize, JsonSchema)]
pub(super) struct ShopUsed {
    /// The file that they came from; null: the defaults.
    pub(super) file: Option<String>,
    /// A mark of all settings: the same settings have the same mark.
    pub(super) fingerprint: String,
    /// Each setting under the name that it has in a file, in the unit at the end of its name.
    pub(super) settings: BTreeMap<String, f64>,
    /// Which of them are the shop's own, and not the defaults.
    pub(super) own: Vec<String>,
}

/// An instrument of the shop's list whose figures count in a set-up.
#[derive(Serialize, JsonSchema)]
pub(super) struct InstrumentUsed {
    /// What the shop calls it.
    pub(super) name: String,
    /// What kind it is.
    pub(super) kind: String,
    /// Whether marks are laid or stands are set with it: it was named, or is the only one of its kind.
    pub(super) lays: bool,
    /// So many distances between marks were read with it.
    pub(super) readings: usize,
    /// By how many days its check is over on the day that is asked; null: it is not, or no day is known.
    pub(super) overdue_days: Option<i64>,
    /// How far off one reading may be, mm either way; null: it was not entered.
    pub(super) reading_mm: Option<f64>,
    /// How far off it may be over a metre, mm either way; null: it was not entered.
    pub(super) per_metre_mm: Option<f64>,
}

/// The answer for one set-up.
#[derive(Serialize, JsonSchema)]
pub(super) struct One {
    /// The set-up's name.
    pub(super) arrangement: String,
    /// The car's name.
    pub(super) vehicle: String,
    /// The aiming's name.
    pub(super) aiming: String,
    /// Whether the space is ready.
    pub(super) verdict: Judged,
    /// Whether any figure of the car is an example's, and none of a maker.
    pub(super) on_example_figures: bool,
    /// How the building differs from the bay's, if the set-up has its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) own_building: Option<Vec<Differs>>,
    /// The other aimings of the visit that it is in, and what the space is to each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) others_of_visit: Vec<OtherAiming>,
    /// The answer in a sentence.
    pub(super) sentence: String,
    /// What was found, the worst first.
    pub(super) findings: Vec<Found>,
    /// What of it can be done so that nothing stops the aiming any more; null: nothing that was found.
    pub(super) promise: Option<Promised>,
    /// The floor marks, in the order in which they are laid.
    pub(super) marks: Vec<Mark>,
    /// What a tape must read between marks.
    pub(super) readings: Vec<Reading>,
    /// The instruments of the shop's list whose figures count in it, in the list's order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) instruments: Vec<InstrumentUsed>,
    /// Where the targets are set.
    pub(super) targets: Vec<Target>,
    /// What was measured comes to; empty where nothing was.
    pub(super) measured: Vec<Told>,
}

/// A figure of a target by what was measured.
#[derive(Serialize, JsonSchema)]
pub(super) struct Told {
    /// Whether it is inside what is allowed, with all of its 95 % range (JCGM 106, guarded acceptance).
    pub(super) decision: Decision,
    /// The figure with its uncertainty and what is allowed, in a sentence.
    pub(super) sentence: String,
}

/// What is decided of a figure.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Decision {
    Inside,
    Outside,
    CannotSay,
}

impl From<Said> for Decision {
    fn from(said: Said) -> Self {
        match said {
            Said::Inside { .. } => Self::Inside,
            Said::Outside { .. } => Self::Outside,
            Said::CannotSay { .. } | Said::NoFigure => Self::CannotSay,
        }
    }
}

/// Whether the space is ready. It speaks of the space, never of the car or the sensor.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Judged {
    Ready,
    ReadyWithCare,
    NotReady,
}

impl From<Verdict> for Judged {
    fn from(verdict: Verdict) -> Self {
        match verdict {
            Verdict::Ready => Self::Ready,
            Verdict::ReadyWithCare => Self::ReadyWithCare,
            Verdict::NotReady => Self::NotReady,
        }
    }
}

/// How bad it is: "stops" makes the space not ready, "care" ready with care.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum HowBad {
    Stops,
    Care,
    Note,
}

impl From<Severity> for HowBad {
    fn from(severity: Severity) -> Self {
        match severity {
            Severity::Stops => Self::Stops,
            Severity::Care => Self::Care,
            Severity::Note => Self::Note,
        }
    }
}

/// Another aiming that the car is in for.
#[derive(Serialize, JsonSchema)]
pub(super) struct OtherAiming {
    /// Its name.
    pub(super) aiming: String,
    /// Whether the space is ready for it.
    pub(super) verdict: Judged,
}

/// One difference between the set-up's own building and the bay's.
#[derive(Serialize, JsonSchema)]
pub(super) struct Differs {
    /// What differs.
    pub(super) of: About,
    /// How.
    pub(super) sentence: String,
}

/// One thing wrong or worth knowing.
#[derive(Serialize, JsonSchema)]
pub(super) struct Found {
    /// What was found.
    pub(super) code: CodeName,
    /// How bad it is.
    pub(super) severity: HowBad,
    /// What it is about.
    pub(super) subjects: Vec<About>,
    /// Where, in millimetres of the bay's frame.
    pub(super) place_mm: [f64; 3],
    /// What was measured against the limit.
    pub(super) measured: Option<Value>,
    /// The limit.
    pub(super) limit: Option<Value>,
    /// It as a sentence.
    pub(super) sentence: String,
    /// Where the limit comes from, as a sentence.
    pub(super) why: String,
    /// A way out that was tried.
    pub(super) cure: Option<Cured>,
}

/// A finding's code.
#[derive(Clone, Copy)]
pub(super) struct CodeName(pub(super) Code);

impl Serialize for CodeName {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.as_str())
    }
}

impl JsonSchema for CodeName {
    fn schema_name() -> Cow<'static, str> {
        "Code".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let codes: Vec<&str> = Code::ALL.iter().map(|code| code.as_str()).collect();
        json_schema!({
            "description": "What was found. `baywright explain CODE` says what a code means; later versions may know more.",
            "type": "string",
            "enum": codes,
        })
    }
}

/// What something is about.
#[derive(Serialize, JsonSchema)]
pub(super) struct About {
    /// What it is.
    pub(super) kind: Kind,
    /// Its name; of a straight run the names of both its ends.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) name: Vec<String>,
}

/// What something is.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Kind {
    Car,
    Thing,
    Zone,
    Target,
    Stand,
    Sensor,
    Wall,
    Opening,
    FloorFeature,
    Runway,
    KeepFree,
    Bay,
    Mark,
    Dimension,
    Run,
    Ceiling,
    Floor,
    Figures,
}

/// A figure.
#[derive(Serialize, JsonSchema)]
pub(super) struct Value {
    pub(super) value: f64,
    pub(super) unit: ValueUnit,
}

/// What a figure is in; a share is of 1.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum ValueUnit {
    Mm,
    Deg,
    Share,
    Ratio,
    Days,
}

/// A way out that was tried, and what it would cause.
#[derive(Serialize, JsonSchema)]
pub(super) struct Cured {
    #[serde(flatten)]
    pub(super) step: Do,
    /// The shorter move that just clears it as drawn, or it alone, in millimetres along x and y.
    pub(super) at_least_mm: Option<[f64; 2]>,
    /// What would be found then that is not found now.
    pub(super) causes: Vec<Causes>,
    /// It as a sentence.
    pub(super) sentence: String,
}

/// Something to do.
#[derive(Serialize, JsonSchema)]
pub(super) struct Do {
    /// What is to be done.
    pub(super) step: StepName,
    /// With what, by its name, if it has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) of: Option<String>,
    /// How far it is moved, in millimetres along x and y.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) by_mm: Option<[f64; 2]>,
    /// How far it is turned, in degrees, anticlockwise from above.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) by_deg: Option<f64>,
}

/// What is to be done.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum StepName {
    MoveThing,
    TurnThing,
    TakeAway,
    MoveCar,
    StandOnMark,
    OpenDoor,
    KeepEmpty,
    KeepShut,
    Tape,
    TapeCar,
    SurveyFloor,
    EnterFigures,
    EnterAlignment,
    SayHeightsFrom,
    EnterZones,
    MeasureOnCar,
    ReviewProfile,
}

/// What a way out would cause instead.
#[derive(Serialize, JsonSchema)]
pub(super) struct Causes {
    pub(super) code: CodeName,
    pub(super) severity: HowBad,
    pub(super) subjects: Vec<About>,
}

/// What can be done so that nothing stops the aiming any more, assessed with all of it done.
#[derive(Serialize, JsonSchema)]
pub(super) struct Promised {
    pub(super) steps: Vec<Do>,
    /// Whether the space is ready then.
    pub(super) verdict: Judged,
}

/// A floor mark.
#[derive(Serialize, JsonSchema)]
pub(super) struct Mark {
    pub(super) name: String,
    /// Where it lies; null if it cannot be found by its recipe.
    pub(super) at_mm: Option<[f64; 2]>,
    /// How it is laid.
    pub(super) instruction: String,
}

/// What a tape must read between two marks.
#[derive(Serialize, JsonSchema)]
pub(super) struct Reading {
    pub(super) from: String,
    pub(super) to: String,
    pub(super) distance_mm: f64,
}

/// Where a target is set.
#[derive(Serialize, JsonSchema)]
pub(super) struct Target {
    pub(super) name: String,
    /// The middle of its face.
    pub(super) at_mm: [f64; 3],
    /// Where its face looks, anticlockwise from the bay's x.
    pub(super) facing_deg: f64,
    /// From what the procedure counts the height of its middle; null for one that lies on the floor.
    pub(super) height: Option<Height>,
    /// From where the procedure measures its stand-off.
    pub(super) stand_off: StandOff,
}

/// From what a height is counted.
#[derive(Serialize, JsonSchema)]
pub(super) struct Height {
    /// From there ...
    pub(super) from: HeightFrom,
    /// ... so many millimetres up; negative below.
    pub(super) by_mm: f64,
}

/// What a height is counted from: a point of the sensor, or the plane of the floor or of the wheels.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum HeightFrom {
    SensorCentre,
    SensorLowerEdge,
    SensorUpperEdge,
    SensorLine,
    Floor,
    Wheels,
}

/// A stand-off as the procedure gives it.
#[derive(Serialize, JsonSchema)]
pub(super) struct StandOff {
    /// Where on the car it starts.
    pub(super) from: StartsAt,
    /// Which wheel, or the name of the body point.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) of: Option<String>,
    /// Where that is on the floor.
    pub(super) starts_at_mm: [f64; 2],
    /// How long it is.
    pub(super) distance_mm: f64,
}

/// Where on a car a stand-off starts.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum StartsAt {
    FrontAxle,
    FrontSpots,
    RearAxle,
    Wheel,
    Sensor,
    FrontBumper,
    RearBumper,
    BodyPoint,
}
