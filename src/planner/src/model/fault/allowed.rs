//! What is allowed where something else was found.

use baywright_geometry::{Bounds, DVec2};
use jiff::civil::Date;

use crate::model::Id;
use crate::model::validate::limits::{Range, Unit};
use crate::model::validate::nearest;

/// What is allowed. Lengths without a unit beside them are millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum Allowed {
    /// A number in a range.
    In(Range),
    /// Nothing, or a number in a range.
    NothingOr(Range),
    /// A size in a range, either way.
    EachWay(Range),
    /// So much above the bottom.
    AboveBottom(Range),
    /// Above a bottom that is there, up to an end.
    AboveBottomAt {
        /// The bottom.
        bottom: f64,
        /// The upper end.
        high: f64,
    },
    /// A whole number from one to another.
    Whole(u64, u64),
    /// So many entries at most.
    AtMost(usize),
    /// So many corners at most.
    AtMostCorners(usize),
    /// So many corners at least.
    Corners(usize),
    /// A text of so many characters at most, on one line, without blanks at its ends.
    TextUpTo(usize),

    /// One of these names.
    OneOf(Box<Choice>),
    /// One of these fields, and the one that was probably meant.
    Field(&'static [&'static str], Option<&'static str>),
    /// One of these kinds, and the one that was probably meant.
    Kind(&'static [&'static str], Option<&'static str>),
    /// A name that nothing else has; the field that has it now.
    UsedOnce(String),
    /// A name that nothing in the bay has.
    OwnName,
    /// Another mark than the one that it is taped from.
    OtherMark,
    /// What is there.
    OneThatIsThere,
    /// A wall of the room.
    WallOfRoom,
    /// An aiming of the car.
    AimingOfCar,
    /// The sensor of the aiming.
    SensorOfAiming(Id),
    /// The name of a sensor or an aiming of the car, and a part of it.
    NameAndPart,
    /// A sensor of the car by its name.
    SensorOfThisCar,
    /// An aiming of the car by its name.
    AimingOfThisCar,
    /// A zone of the aiming that is named beside it.
    ZoneOfAiming,
    /// Marks that come earlier.
    EarlierMarks,
    /// A plan with a spot outboard of each front tyre, for a stand-off from there.
    SpotAtEachFrontTyre,
    /// One or more.
    AtLeastOne,
    /// One or more, or no survey.
    AtLeastOneOrNoSurvey,
    /// A stand for each of so many placements.
    OneForEachPlacement(usize),
    /// A wall for each corner.
    OneForEachCorner,
    /// A kind of sensor, or a note in its stead.
    KindsOrNote,
    /// Each kind of sensor once.
    EachKindOnce,
    /// An aiming of the visit.
    AimingOfVisit,
    /// No aiming, of what is done once in a visit.
    NoAiming,
    /// What follows from the figures beside it.
    AsFiguresSay,
    /// A SHA-256 in small hexadecimal digits.
    Sha256,
    /// A file's name, without folders.
    FileName,
    /// Each way once, and not both of two opposite ones.
    EachWayOnce,
    /// Nothing at all.
    Nothing,
    /// None, since this field of the same record says so.
    NoneAsSaid(&'static str),

    /// Not below the same figure of what is taped, in this unit.
    FromTaped(f64, Unit),
    /// Below the car's length.
    BelowLength(f64),
    /// Below the car's width.
    BelowWidth(f64),
    /// Below the smaller track.
    BelowTrack(f64),
    /// Below the car's height and its wheelbase, whichever is less.
    BelowHeightAndWheelbase(f64),
    /// Below the car's height.
    BelowHeight(f64),
    /// The car's width or more.
    FromWidth(f64),
    /// The height of a stand's base or more.
    FromBase(f64),
    /// The radar's frequency or less.
    UpToFrequency,
    /// A length as the car's parts make it, within so much.
    LengthWithin(f64),
    /// The same length by both ways of reckoning.
    SameLength,
    /// An outline that reaches as far as the car does, within so much.
    OutlineReaching {
        /// How far the car reaches.
        size: Bounds,
        /// Within what.
        within: f64,
    },

    /// The floor or above.
    FromFloor,
    /// Up to the ceiling.
    UpToCeiling(f64),
    /// Within a wall of that length.
    WithinWall(f64),
    /// Openings beside or above each other.
    OpeningsApart,
    /// A corner above and to the right of this one.
    CornerBeyond(DVec2),
    /// Each corner once.
    EachCornerOnce,
    /// Edges that meet only at corners.
    EdgesApart,
    /// A shape that covers some floor.
    SomeArea,
    /// Holes inside the outline.
    HolesInside,
    /// Holes that lie apart.
    HolesApart,
    /// An outline without holes.
    NoHoles,
    /// A top above the bottom.
    TopAboveBottom,

    /// On the floor for a target that lies, and for no other.
    FloorForMat,
    /// Nothing for any other target than a corner reflector.
    OnlyForReflector,

    /// The number with a point for its comma.
    PointFor(String),
    /// The number without blanks.
    Unspaced(String),
    /// The number without its unit.
    Unitless(String),
    /// A kind without quotes.
    Unquoted(String),
    /// So many figures in a list.
    Figures(usize),
    /// A day.
    Day,
    /// A day and a time of day, to a second.
    Time,
    /// This day or a later one.
    DayFrom(Date),
    /// Versions from one to another; whether a newer program can read the file.
    Versions {
        /// The oldest.
        oldest: u32,
        /// The newest.
        newest: u32,
        /// Whether a newer program can read what was found.
        newer_can: bool,
    },
    /// What the text of a file must have at that place.
    Syntax(Syntax),
}

/// What the text of a file must have at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Syntax {
    /// A value for a field that must be given.
    Value,
    /// Each field once.
    EachFieldOnce,
    /// A number.
    Number,
    /// A whole number.
    WholeNumber,
    /// A whole number that is not too large.
    WholeNumberUpTo(u32),
    /// True or false.
    TrueOrFalse,
    /// A text.
    Text,
    /// A text with its closing quote.
    ClosedText,
    /// A text that ends on its own line.
    TextOnOneLine,
    /// A list.
    List,
    /// The end of a list.
    EndOfList,
    /// A comma between two entries.
    Comma,
    /// A colon after a field's name.
    Colon,
    /// A record.
    Record,
    /// The end of a record.
    EndOfRecord,
    /// The name of a field or of a kind.
    FieldOrKind,
    /// A kind that has no figures.
    KindAlone,
    /// A comment that is closed.
    ClosedComment,
    /// A number without underscores at its ends.
    NoUnderscores,
    /// A backslash only where one may be.
    Backslash,
    /// No line of settings for the reader.
    NoSettings,
    /// Records no deeper than the formats have them.
    LessDeep,
    /// Nothing after the end.
    NothingMore,
    /// All brackets closed.
    ClosedBrackets,
    /// What the formats describe.
    AsDescribed,
    /// The text is no record at all.
    WholeFile,
}

/// The names among which one is asked for: the first of them, how many more there are, and the one that was probably meant.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// The first of the names.
    pub names: Vec<Id>,
    /// How many more there are.
    pub more: usize,
    /// The one that was probably meant.
    pub meant: Option<Id>,
}

impl Choice {
    /// So many names are told.
    pub const MOST: usize = 12;

    /// The choice among these names of someone who wrote `found`.
    pub fn near<'a>(found: &str, names: impl IntoIterator<Item = &'a Id>) -> Self {
        let names: Vec<&Id> = names.into_iter().collect();
        let meant = nearest(found, names.iter().map(|id| id.as_str())).map(Id::from);
        let more = names.len().saturating_sub(Self::MOST);
        Self { names: names.into_iter().take(Self::MOST).cloned().collect(), more, meant }
    }
}

impl Allowed {
    /// One of these names, for someone who wrote `found`.
    pub fn one_of<'a>(found: &str, names: impl IntoIterator<Item = &'a Id>) -> Self {
        Self::OneOf(Box::new(Choice::near(found, names)))
    }
}
