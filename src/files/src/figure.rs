//! Single values as they stand in a file: numbers that read well, and days.

use baywright_planner::geometry::{DVec2, DVec3, angle};
use jiff::civil::{Date, DateTime};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

/// Numbers are written to a millionth of their unit: a millionth of a millimetre is far below any tape, and a number
/// that was typed comes back as it was typed (0.3, never 0.30000000000000004).
const STEPS_PER_UNIT: f64 = 1e6;

/// A number in the unit that its field's name says.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Figure(pub f64);

impl Figure {
    /// An angle in degrees, from radians.
    pub fn degrees(radians: f64) -> Self {
        Self(angle::degrees(radians))
    }

    /// An angle in radians, from degrees.
    pub fn radians(self) -> f64 {
        angle::radians(self.0)
    }

    /// The number as it is written.
    pub fn rounded(self) -> f64 {
        let steps = self.0 * STEPS_PER_UNIT;
        // Too large to have steps, or not a number: as it is. Adding zero turns -0 into 0.
        if steps.abs() < 9e15 { steps.round() / STEPS_PER_UNIT + 0.0 } else { self.0 }
    }
}

impl From<f64> for Figure {
    fn from(value: f64) -> Self {
        Self(value)
    }
}

impl Serialize for Figure {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let value = self.rounded();
        if value.fract() == 0.0 && value.abs() < 9e15 {
            to.serialize_i64(value as i64)
        } else {
            to.serialize_f64(value)
        }
    }
}

impl<'de> Deserialize<'de> for Figure {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        // Brought to the steps in which it is written, so that a figure survives being saved and read to the last bit.
        f64::deserialize(from).map(|value| Self(Self(value).rounded()))
    }
}

/// A point from above, `(x, y)`.
pub type Point = (Figure, Figure);

/// A point in space, `(x, y, z)`.
pub type Place = (Figure, Figure, Figure);

/// A file's point as a vector.
pub fn vec2((x, y): Point) -> DVec2 {
    DVec2::new(x.0, y.0)
}

/// A file's place as a vector.
pub fn vec3((x, y, z): Place) -> DVec3 {
    DVec3::new(x.0, y.0, z.0)
}

/// A vector as a file's point.
pub fn point(p: DVec2) -> Point {
    (p.x.into(), p.y.into())
}

/// A vector as a file's place.
pub fn place(p: DVec3) -> Place {
    (p.x.into(), p.y.into(), p.z.into())
}

/// File points as vectors.
pub fn vecs(points: &[Point]) -> Vec<DVec2> {
    points.iter().copied().map(vec2).collect()
}

/// Vectors as file points.
pub fn points(vecs: &[DVec2]) -> Vec<Point> {
    vecs.iter().copied().map(point).collect()
}

/// What is expected where a day is, for `explain`.
pub const A_DAY: &str = "day";

/// A day, written `"2025-03-17"`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Day(pub Date);

impl Serialize for Day {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for Day {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let shape_is_right = text.len() == 10 && text.bytes().all(|b| b.is_ascii_digit() || b == b'-');
        match text.parse() {
            Ok(date) if shape_is_right => Ok(Self(date)),
            _ => Err(D::Error::invalid_value(serde::de::Unexpected::Other(&text), &A_DAY)),
        }
    }
}

/// A time of the shop's own clock, to a second, written `"2025-03-17T09:30:00"`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clock(pub DateTime);

/// What is expected where a time is, for `explain`.
pub const A_TIME: &str = "time";

impl Serialize for Clock {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let at = self.0;
        let (day, hour, minute, second) = (at.date(), at.hour(), at.minute(), at.second());
        to.collect_str(&format_args!("{day}T{hour:02}:{minute:02}:{second:02}"))
    }
}

impl<'de> Deserialize<'de> for Clock {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let shape_is_right = text.len() == 19
            && text.bytes().enumerate().all(|(i, own)| match i {
                4 | 7 => own == b'-',
                10 => own == b'T',
                13 | 16 => own == b':',
                _ => own.is_ascii_digit(),
            });
        match text.parse() {
            Ok(at) if shape_is_right => Ok(Self(at)),
            _ => Err(D::Error::invalid_value(serde::de::Unexpected::Other(&text), &A_TIME)),
        }
    }
}
