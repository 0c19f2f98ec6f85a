//! What was found where something else is allowed.

use baywright_geometry::{Bounds, DVec2};

use crate::model::Id;
use crate::model::validate::limits::Unit;

/// What was found. Lengths without a unit beside them are millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// A number, which may be none at all.
    Number(f64, Unit),
    /// A whole number.
    Whole(u64),
    /// A place from above.
    Point(DVec2),
    /// A coordinate of a sensor outside the car's body.
    OutsideBody(f64),
    /// So many of them.
    Count(usize, Counted),
    /// Another number of walls than of corners.
    WallsForCorners {
        /// How many walls.
        walls: usize,
        /// How many corners.
        corners: usize,
    },
    /// The place in its list of something that is not there, from 1.
    Position(Listed, usize),
    /// A mark that is found from one which comes later: the later one's place in the plan, from 1.
    LaterMark(usize),

    /// No figure, where this aiming counts a height from it.
    NeededBy(Id),
    /// A stand-off from the line through the front spots, where the plan lays no such two.
    FrontSpots,
    /// Nothing, where a text is asked for.
    EmptyText,
    /// A list without entries.
    EmptyList,
    /// An aiming without placements.
    NoPlacement,
    /// A floor survey without levels.
    NoLevel,
    /// A field that must be given is not there.
    NoField(&'static str),
    /// A field that stands there a second time.
    FieldTwice(&'static str),
    /// A field of a name that the format does not have.
    FieldNamed(Quote),

    /// A name, or a word of the file.
    Word(Quote),
    /// A text of the file, where something else is asked for.
    Text(Quote),
    /// A text of the file that is asked for and says what cannot be.
    Saying(Quote),
    /// A name that something else has already.
    Again(Quote),
    /// A name that something of the bay has already.
    TakenInBay(Quote),
    /// A car of which there is no profile.
    NoProfile(Quote),
    /// An aiming that is another one in the car's profile.
    NotAsInProfile(Id),
    /// A name that is whole, however long.
    Name(Id),
    /// A kind of sensor that is in the list already.
    KindAgain,
    /// A text that is too long: its characters.
    TextOf(usize),
    /// A text with a line break or another control character.
    ControlCharacter,
    /// A text with a character that is not seen and changes how the rest is read.
    HiddenCharacter(char),
    /// A text of which nothing is seen.
    NothingSeen,
    /// A text that starts or ends with a blank.
    BlankAtEnds(Quote),
    /// A text whose closing quote is missing: the line that it goes on to.
    TextToLine(u32),

    /// A room of this size.
    RoomOf(DVec2),
    /// A piece of floor of this size.
    AreaOf(DVec2),
    /// A shape of this size.
    ShapeOf(f64),
    /// A height range that is none.
    BottomAndTop {
        /// The lower end.
        bottom: f64,
        /// The upper end.
        top: f64,
    },
    /// Where an opening lies along its wall.
    AlongWall {
        /// Where it starts.
        from: f64,
        /// Where it ends.
        to: f64,
    },
    /// Two openings at one place.
    OpeningsOverlap(Id, Id),
    /// A car's outline that reaches so far.
    OutlineReaches(Bounds),
    /// A car that is longer or shorter than its parts.
    LengthAndParts {
        /// The length as it is given.
        length: f64,
        /// Front axle to rear axle.
        wheelbase: f64,
        /// From the front axle to the front.
        front: f64,
        /// From the rear axle to the rear.
        rear: f64,
    },
    /// The same by less than is refused.
    LengthAndSum {
        /// The length as it is given.
        length: f64,
        /// What its parts make.
        sum: f64,
    },

    /// A place that is no place.
    NoPlace,
    /// Two corners in a row at one place.
    CornerTwice,
    /// Two edges of one ring cross or touch: the corners from which they run.
    EdgesMeet {
        /// The hole whose ring it is, from 1; the outer ring if none.
        hole: Option<usize>,
        /// One corner.
        first: usize,
        /// The other one.
        second: usize,
    },
    /// A shape that covers nothing.
    NoArea,
    /// A hole that is not inside the outline: which, from 1.
    HoleOutside(usize),
    /// Two holes that lie in each other or cross: which, from 1.
    HolesOverlap(usize, usize),

    /// A target that stands, at a height for one that lies.
    StandingOnFloor,
    /// A target that lies, at a height for one that stands.
    MatAtHeight,
    /// A target that lies, with a stand.
    StandUnderMat,

    /// A number with a comma.
    WithComma(String),
    /// A number otherwise than files have it: as it stands there, in one line and short.
    Written(String),
    /// The end of the file.
    EndOfFile,
    /// Records deeper in each other than is read.
    TooDeep,
    /// A file without a version.
    NoVersion,
    /// A version that there never was.
    Version(u64),
    /// A version of a later program.
    NewerVersion(u64),
    /// A version that is no number.
    VersionNamed(Quote),
}

/// What is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counted {
    /// Entries of a list.
    Entries,
    /// Values in a record without names.
    Values,
    /// Points of an outline.
    Points,
    /// Corners of a shape.
    Corners,
    /// Corners of all shapes of a list.
    CornersInAll,
    /// Corners of one of its holes, counted from 1.
    CornersOfHole(usize),
    /// Holes of a shape.
    Holes,
    /// Things and pieces of floor of a bay times its arrangements.
    Placed,
    /// Target stands.
    Stands,
}

/// What is known by its place in a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Listed {
    /// A named point of a car's body.
    BodyPoint,
    /// A placement of an aiming.
    Placement,
    /// A wall of a room.
    Wall,
}

/// A piece of a file's own text, cut when it is long.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quote {
    text: String,
    is_cut: bool,
}

impl Quote {
    /// The longest piece that a sentence repeats, in characters.
    pub const LONGEST: usize = 60;

    /// A text, or as much of it as a sentence repeats.
    pub fn of(text: &str) -> Self {
        let short: String = text.chars().take(Self::LONGEST).collect();
        Self { is_cut: short.len() < text.len(), text: short }
    }

    /// What is told of it.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Whether there is more of it.
    pub const fn is_cut(&self) -> bool {
        self.is_cut
    }
}
