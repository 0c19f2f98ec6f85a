//! The limits, named. Each upper end is far beyond anything real and small enough that nothing computed from it
//! overflows or takes long. Each lower end is far below anything real and large enough that a figure typed in metres
//! or centimetres, where millimetres are asked for, is noticed if it can be: a room of 7 by 4 is refused. All are common
//! practice, no source.

/// A range of numbers in a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The lower end.
    pub low: f64,
    /// The upper end, allowed.
    pub high: f64,
    /// Whether the lower end itself is refused.
    pub above: bool,
    /// Their unit.
    pub unit: Unit,
}

/// The unit of a figure in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// A bare number.
    None,
    /// Lengths.
    Millimetres,
    /// Angles.
    Degrees,
    /// Frequencies.
    Gigahertz,
    /// Reflecting levels.
    Dbsm,
    /// Whole days.
    Days,
}

const BARE: Unit = Unit::None;
const MM: Unit = Unit::Millimetres;
const DEG: Unit = Unit::Degrees;
const GHZ: Unit = Unit::Gigahertz;
const DBSM: Unit = Unit::Dbsm;

impl Range {
    pub(in crate::model) const fn above(low: f64, high: f64, unit: Unit) -> Self {
        Self { low, high, above: true, unit }
    }

    pub(in crate::model) const fn from(low: f64, high: f64, unit: Unit) -> Self {
        Self { low, high, above: false, unit }
    }

    /// Whether a number is allowed; one that is not a number never is.
    pub fn holds(&self, value: f64) -> bool {
        (if self.above { value > self.low } else { value >= self.low }) && value <= self.high
    }
}

/// A coordinate: within ten kilometres, as the geometry's own reach.
pub const PLACE: Range = Range::from(-1e7, 1e7, MM);
/// A part of a stand, or where nothing smaller can be ruled out: up to 100 m.
pub const SIZE: Range = Range::above(0.0, 1e5, MM);
/// A size that may be nothing.
pub const SIZE_OR_NONE: Range = Range::from(0.0, 1e5, MM);
/// A height above the floor, pits included.
pub const HEIGHT: Range = Range::from(-1e4, 1e5, MM);
/// A room, either way: from a metre to a kilometre.
pub const ROOM: Range = Range::from(1e3, 1e6, MM);
/// A piece of floor that is used or kept free, either way.
pub const AREA: Range = Range::from(100.0, 1e6, MM);
/// The width of a door, window or gap, and from its lower to its upper edge.
pub const OPENING: Range = Range::from(100.0, 1e5, MM);
/// What is free beyond an opening, if anything is.
pub const FREE: Range = Range::from(100.0, 1e5, MM);
/// The top of a runway above the floor.
pub const RUNWAY_TOP: Range = Range::from(10.0, 1e4, MM);
/// How far a grate, a lip or a cover stands proud of the floor; what is taller is entered as a thing.
pub const PROUD: Range = Range::from(0.0, 300.0, MM);
/// A thing from above: its length, its diameter, the longer side of what is thin.
pub const THING: Range = Range::from(5.0, 1e5, MM);
/// Its shorter side: a sheet of steel that leans on a wall is 1 to 2 mm, and what hangs as foil is
/// entered as thick as that. Of a thing that was typed in metres both sides are less than any thing is long.
pub const THIN: Range = Range::from(1.0, 1e5, MM);
/// A thing from its bottom to its top. What lies thinner on the floor is entered as 3 mm: 1.9 for a cabinet in metres is noticed so.
pub const THICKNESS: Range = Range::from(3.0, 1e5, MM);

/// What a side of a rectangle may be, mm, beside its other side.
pub const fn side(own_mm: f64, other_mm: f64) -> &'static Range {
    if own_mm < other_mm { &THIN } else { &THING }
}
/// The length of a car: the shortest is above 1.5 m, the longest bus below 30 m.
pub const CAR_LENGTH: Range = Range::from(1.5e3, 3e4, MM);
/// Front axle to rear axle.
pub const WHEELBASE: Range = Range::from(1e3, 3e4, MM);
/// From an axle to the end of the car.
pub const OVERHANG: Range = Range::from(0.0, 3e4, MM);
/// The width or height of a car, with mirrors too.
pub const CAR_WIDTH: Range = Range::from(500.0, 6e3, MM);
/// Between the middles of two tyres of an axle.
pub const TRACK: Range = Range::from(300.0, 6e3, MM);
/// Across a tyre, from the side.
pub const TYRE_DIAMETER: Range = Range::from(200.0, 3e3, MM);
/// The width of a tyre.
pub const TYRE_WIDTH: Range = Range::from(40.0, 1.5e3, MM);
/// The middle of the mirrors above the ground.
pub const MIRROR_HEIGHT: Range = Range::from(200.0, 6e3, MM);
/// Wheel arch edge above the wheel's middle.
pub const RIDE_HEIGHT: Range = Range::from(50.0, 3e3, MM);
/// How far that may be off.
pub const RIDE_OFF: Range = Range::from(0.5, 200.0, MM);
/// A camber or toe as a sheet has it, decimal degrees, without a sign.
pub const SHEET_DEGREES: Range = Range::from(0.0, 15.0, DEG);
/// Minutes of an angle: 60 are a degree.
pub const SHEET_MINUTES: Range = Range::from(0.0, 59.999_999, BARE);
/// A figure that has none.
pub const NO_MINUTES: Range = Range::from(0.0, 0.0, BARE);
/// Between the edges of a rim, or of a set-back.
pub const SHEET_MM: Range = Range::from(0.0, 200.0, MM);
/// The same in inches.
pub const SHEET_INCHES: Range = Range::from(0.0, 8.0, BARE);
/// The diameter at which a sheet gives its toes.
pub const RIM: Range = Range::from(203.2, 1016.0, MM);
/// The same in inches.
pub const RIM_INCHES: Range = Range::from(8.0, 40.0, BARE);
/// Ground clearance.
pub const CLEARANCE: Range = Range::from(20.0, 2e3, MM);
/// A place on a car.
pub const ON_CAR: Range = Range::from(-3e4, 3e4, MM);
/// The lowest that a sensor sits above the ground.
pub const LOWEST_SENSOR_MM: f64 = 50.0;
/// From a sensor's centre to its upper or lower edge.
pub const EDGE: Range = Range::above(0.0, 300.0, MM);
/// How far one turn of an adjusting screw moves it.
pub const SCREW_PITCH: Range = Range::from(0.1, 10.0, MM);
/// From an adjusting screw to its pivot.
pub const SCREW_ARM: Range = Range::from(5.0, 500.0, MM);
/// How much of the bay a pixel of a picture covers: from a close photograph to a map.
pub const MM_PER_PX: Range = Range::from(0.001, 1e3, MM);
/// What the owner says that something costs, in whatever money.
pub const MONEY: Range = Range::from(0.0, 1e12, BARE);
/// How often something comes in a month.
pub const A_MONTH: Range = Range::from(0.0, 1e5, BARE);
/// How deep a strip of a room is that is kept for what is in store.
pub const IN_STORE: Range = Range::from(0.0, 2e4, MM);
/// How faded a picture is.
pub const FADED: Range = Range::from(0.0, 1.0, BARE);
/// What a tape reads between two floor marks.
pub const MARK_TAPED: Range = Range::from(10.0, 1e5, MM);
/// How well a mark that stays is to be laid: one that may lie further off serves no car.
pub const MARK_WITHIN: Range = Range::from(0.1, 10.0, MM);
/// How far apart a mark lies that was laid twice.
pub const MARK_APART: Range = Range::from(0.0, 500.0, MM);
/// A height or a distance that is read of a stand, and how far off a line it may be.
pub const STAND_READ: Range = Range::from(-2e4, 2e4, MM);
/// How far apart the ends are between which a stand's squareness is read, and how far a mirror is.
pub const STAND_APART: Range = Range::from(50.0, 5e4, MM);
/// How far a pole leans.
pub const LEAN: Range = Range::from(-20.0, 20.0, DEG);
/// How far one level of a survey may be off.
pub const LEVEL_READ: Range = Range::from(0.05, 20.0, MM);
/// The length of a wall as taped: a jamb of a centimetre is one too.
pub const TAPED_WALL: Range = Range::from(10.0, 1e6, MM);
/// Ceiling.
pub const CEILING: Range = Range::from(1e3, 1e5, MM);
/// How well a place is known.
pub const KNOWN: Range = Range::from(0.0, 1e4, MM);
/// How well it is known which way a parked car points, degrees either way: more is no parking place.
pub const PARKED_TURN: Range = Range::from(0.0, 10.0, DEG);
/// A stand-off.
pub const STAND_OFF: Range = Range::from(100.0, 1e5, MM);
/// A taped length.
pub const DISTANCE: Range = Range::from(10.0, 1e5, MM);
/// Room to walk and work in, if any is asked for.
pub const WORKING_ROOM: Range = Range::from(100.0, 1e5, MM);
/// The width or height of a target's face, the size of a zone or of a stand's foot.
pub const TARGET: Range = Range::from(10.0, 1e5, MM);
/// The height of the middle of a target's face above what carries the wheels.
pub const TARGET_HEIGHT: Range = Range::from(50.0, 1e5, MM);
/// A length along or aside, either way.
pub const OFFSET: Range = Range::from(-1e5, 1e5, MM);
/// A tolerance of place.
pub const TOLERANCE: Range = Range::from(0.1, 1e4, MM);
/// A floor level or a floor tolerance.
pub const LEVEL: Range = Range::from(-2e3, 2e3, MM);
/// What a floor may differ by.
pub const FLOOR: Range = Range::from(0.1, 1e3, MM);
/// A heading, bearing or turn.
pub const TURN: Range = Range::from(-360.0, 360.0, DEG);
/// Up or down.
pub const ELEVATION: Range = Range::from(-90.0, 90.0, DEG);
/// A whole field of view or beam. A surround camera may see 180° and more.
pub const VIEW: Range = Range::above(0.0, 360.0, DEG);
/// Up and down, at most from straight up to straight down.
pub const VIEW_UPRIGHT: Range = Range::above(0.0, 180.0, DEG);
/// A tolerance of angle.
pub const ANGLE_TOLERANCE: Range = Range::above(0.0, 90.0, DEG);
/// Toe of one wheel.
pub const TOE: Range = Range::from(-10.0, 10.0, DEG);
/// A limit of the thrust angle.
pub const THRUST_LIMIT: Range = Range::above(0.0, 10.0, DEG);
/// A limit of the set-back.
pub const SET_BACK_LIMIT: Range = Range::from(0.1, 200.0, MM);
/// A set-back as an alignment sheet gives it.
pub const SET_BACK: Range = Range::from(-200.0, 200.0, MM);
/// A turning circle between kerbs.
pub const TURNING_CIRCLE: Range = Range::from(3e3, 5e4, MM);
/// Radar frequency.
pub const FREQUENCY: Range = Range::from(1.0, 1000.0, GHZ);
/// Radar bandwidth.
pub const BANDWIDTH: Range = Range::above(0.0, 100.0, GHZ);
/// A share.
pub const SHARE: Range = Range::from(0.0, 10.0, BARE);
/// A reflecting level.
pub const REFLECTING: Range = Range::from(-100.0, 100.0, DBSM);

/// Wheelbase and overhangs may differ from the length by this: each is printed to 5 mm at best, and there are three.
pub const LENGTH_SLACK_MM: f64 = 10.0;
/// An outline may differ from the car's size by this, for the same reason.
pub const OUTLINE_SLACK_MM: f64 = 10.0;
/// A sensor may stick out of the car's box by this: roof lidars and trim.
pub const SENSOR_SLACK_MM: f64 = 300.0;
/// A wheel point as measured on a car may be so far from where the profile has it, either way.
pub const WHEEL_SLACK_MM: f64 = 100.0;
/// An opening may stick out of its wall by this: rounding of a drawing.
pub const WALL_SLACK_MM: f64 = 1.0;

/// Longest name, in characters.
pub const LONGEST_NAME: usize = 120;
/// Longest other text, in characters.
pub const LONGEST_TEXT: usize = 1_000;
/// Most points of a car's outline.
pub const MOST_OUTLINE_POINTS: usize = 500;
/// Most sensors, aimings, body points, placements, marks, zones of one profile or aiming: a hundred times what any
/// car has.
pub const MOST_PARTS: usize = 500;
/// Most lines of things to have ready, or conditions.
pub const MOST_LINES: usize = 100;
/// Most walls of a room.
pub const MOST_WALLS: usize = 2_000;
/// Most things in a bay: ten times a hall's full.
pub const MOST_THINGS: usize = 2_000;
/// Most surveyed levels.
pub const MOST_LEVELS: usize = 10_000;
/// Most corners of the outline of a thing, a piece of floor, a zone or a stand's base: what is as jagged as that is measured
/// by its hull anyway.
pub const MOST_CORNERS: usize = 200;
/// Most corners of the outlines of all things together, and of all pieces of floor. What a round thing costs is a corner's.
pub const MOST_CORNERS_IN_ALL: usize = 8_000;
/// Most corners of all zones of an aiming together: each is compared with each of the things.
pub const MOST_CORNERS_OF_ZONES: usize = 500;
/// Most things of a bay times its arrangements: each arrangement is assessed with all of them.
pub const MOST_PLACED: usize = 20_000;
/// Most doors, drains, runways, kept-free areas, permanent marks.
pub const MOST_FIXTURES: usize = 2_000;
/// Most dimensions that are kept with a bay: more could not be read on a drawing.
pub const MOST_DIMENSIONS: usize = 500;
/// Most bays in one hall: each is compared with all that an aiming uses.
pub const MOST_BAYS: usize = 30;
/// Most set-ups that are done at the same time as one: each is judged with it.
pub const MOST_AT_ONCE: usize = 4;
/// Most corners of all bays of a hall together.
pub const MOST_CORNERS_OF_BAYS: usize = 300;
/// How far along a wall an end of a dimension lies.
pub const ALONG_WALL: Range = Range::from(0.0, 1e6, MM);
/// Most arrangements in a layout.
pub const MOST_ARRANGEMENTS: usize = 500;

/// What may be read between two marks, or of one to where it was laid first.
pub const fn mark_taped(is_again: bool) -> &'static Range {
    if is_again { &MARK_APART } else { &MARK_TAPED }
}
