//! The limits, named. Each is far beyond anything real and small enough that nothing computed from it overflows or
//! takes long.

use super::number;

/// A range of numbers in a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The lower end.
    pub low: f64,
    /// The upper end, allowed.
    pub high: f64,
    /// Whether the lower end itself is refused.
    pub above: bool,
    /// The unit with a leading blank, for sentences.
    pub unit: &'static str,
}

impl Range {
    const fn above(low: f64, high: f64, unit: &'static str) -> Self {
        Self { low, high, above: true, unit }
    }

    const fn from(low: f64, high: f64, unit: &'static str) -> Self {
        Self { low, high, above: false, unit }
    }

    /// Whether a number is allowed; one that is not a number never is.
    pub fn holds(&self, value: f64) -> bool {
        (if self.above { value > self.low } else { value >= self.low }) && value <= self.high
    }

    /// What is allowed, in words.
    pub fn allowed(&self) -> String {
        let (low, high, unit) = (number(self.low), number(self.high), self.unit);
        if self.above {
            format!("above {low} and up to {high}{unit}")
        } else {
            format!("{low} to {high}{unit}")
        }
    }
}

/// A coordinate: within ten kilometres, as the geometry's own reach.
pub const PLACE: Range = Range::from(-1e7, 1e7, " mm");
/// A size of a thing: up to 100 m.
pub const SIZE: Range = Range::above(0.0, 1e5, " mm");
/// A size that may be nothing.
pub const SIZE_OR_NONE: Range = Range::from(0.0, 1e5, " mm");
/// A height above the floor, pits included.
pub const HEIGHT: Range = Range::from(-1e4, 1e5, " mm");
/// The length of a car: the longest bus is below 30 m.
pub const CAR_LENGTH: Range = Range::above(0.0, 3e4, " mm");
/// The width or height of a car.
pub const CAR_WIDTH: Range = Range::above(0.0, 6e3, " mm");
/// Ground clearance.
pub const CLEARANCE: Range = Range::from(0.0, 2e3, " mm");
/// A place on a car.
pub const ON_CAR: Range = Range::from(-3e4, 3e4, " mm");
/// Ceiling.
pub const CEILING: Range = Range::above(0.0, 1e5, " mm");
/// How well a place is known.
pub const KNOWN: Range = Range::from(0.0, 1e4, " mm");
/// A stand-off or a taped length.
pub const DISTANCE: Range = Range::above(0.0, 1e5, " mm");
/// A length along or aside, either way.
pub const OFFSET: Range = Range::from(-1e5, 1e5, " mm");
/// A tolerance of place.
pub const TOLERANCE: Range = Range::above(0.0, 1e4, " mm");
/// A floor level or a floor tolerance.
pub const LEVEL: Range = Range::from(-2e3, 2e3, " mm");
/// What a floor may differ by.
pub const FLOOR: Range = Range::above(0.0, 1e3, " mm");
/// A heading, bearing or turn.
pub const TURN: Range = Range::from(-360.0, 360.0, "°");
/// Up or down.
pub const ELEVATION: Range = Range::from(-90.0, 90.0, "°");
/// A whole field of view or beam. A surround camera may see 180° and more.
pub const VIEW: Range = Range::above(0.0, 360.0, "°");
/// Up and down, at most from straight up to straight down.
pub const VIEW_UPRIGHT: Range = Range::above(0.0, 180.0, "°");
/// A tolerance of angle.
pub const ANGLE_TOLERANCE: Range = Range::above(0.0, 90.0, "°");
/// Toe of one wheel.
pub const TOE: Range = Range::from(-10.0, 10.0, "°");
/// Radar frequency.
pub const FREQUENCY: Range = Range::from(1.0, 1000.0, " GHz");
/// Radar bandwidth.
pub const BANDWIDTH: Range = Range::above(0.0, 100.0, " GHz");
/// A share.
pub const SHARE: Range = Range::from(0.0, 10.0, "");
/// A reflecting level.
pub const REFLECTING: Range = Range::from(-100.0, 100.0, " dBsm");

/// Wheelbase and overhangs may differ from the length by this: each is printed to 5 mm at best, and there are three.
pub const LENGTH_SLACK_MM: f64 = 10.0;
/// An outline may differ from the car's size by this, for the same reason.
pub const OUTLINE_SLACK_MM: f64 = 10.0;
/// A sensor may stick out of the car's box by this: roof lidars and trim.
pub const SENSOR_SLACK_MM: f64 = 300.0;
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
/// Most things in a bay, and most surveyed levels.
pub const MOST_THINGS: usize = 10_000;
/// Most doors, drains, runways, kept-free areas, permanent marks.
pub const MOST_FIXTURES: usize = 2_000;
/// Most arrangements in a layout.
pub const MOST_ARRANGEMENTS: usize = 500;
