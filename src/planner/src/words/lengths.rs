//! How the lengths in a sentence about data are written: as a file has them, or as the screen shows them.

use super::{Locale, Units};
use crate::model::validate::number;

const INCH_MM: f64 = 25.4;
const FOOT_MM: f64 = 304.8;

/// How lengths are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lengths {
    /// In millimetres, to a millionth: whoever changes the file finds the figure there.
    InFile,
    /// As lengths are shown on the screen and typed there.
    Shown(Locale),
}

impl Lengths {
    /// A length with its unit, mm.
    pub fn of(self, mm: f64) -> String {
        match self.units() {
            Units::Millimetres => format!("{} mm", number(mm)),
            Units::Metres => format!("{} m", number(mm / 1000.0)),
            // What a sixteenth of an inch cannot tell is told in millimetres, which may be typed as well.
            Units::FeetInches if mm != 0.0 && mm.abs() < INCH_MM * 0.25 => format!("{} mm", number(mm)),
            Units::FeetInches => self.shown(mm),
        }
    }

    /// The same without its unit, where another with the same unit follows (feet and inches keep theirs), mm.
    pub fn bare(self, mm: f64) -> String {
        match self.units() {
            Units::Millimetres => number(mm),
            Units::Metres => number(mm / 1000.0),
            Units::FeetInches => self.of(mm),
        }
    }

    /// The ends of a range, mm, the second with the unit of both. In feet and inches they lie within it, rounded as coarsely as
    /// their size lets one type them.
    pub fn within(self, low: f64, high: f64) -> (String, String) {
        let step = |mm: f64| match mm.abs() {
            size if size < FOOT_MM => INCH_MM / 16.0,
            size if size < 100.0 * FOOT_MM => INCH_MM,
            _ => FOOT_MM,
        };
        // What is a whole step but for the last bits is not rounded away from it.
        const HAIR: f64 = 1e-9;
        if self.units() == Units::FeetInches {
            let up = |mm: f64| (mm / step(mm) - HAIR).ceil() * step(mm);
            let down = |mm: f64| (mm / step(mm) + HAIR).floor() * step(mm);
            let is_small = |mm: f64| mm.abs() < INCH_MM * 0.25;
            let low = if is_small(low) { low } else { up(low) };
            return (self.of(low), self.of(if is_small(high) { high } else { down(high) }));
        }
        (self.bare(low), self.of(high))
    }

    const fn units(self) -> Units {
        match self {
            Self::InFile => Units::Millimetres,
            Self::Shown(locale) => locale.units,
        }
    }

    fn shown(self, mm: f64) -> String {
        match self {
            Self::InFile => number(mm),
            Self::Shown(locale) => locale.length(mm),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(units: Units) -> Lengths {
        Lengths::Shown(Locale { units, ..Locale::default() })
    }

    #[test]
    fn a_length_is_said_as_it_is_typed() {
        assert_eq!(Lengths::InFile.of(292.1), "292.1 mm");
        assert_eq!(shown(Units::Millimetres).of(292.1), "292.1 mm");
        assert_eq!(shown(Units::Metres).of(292.1), "0.2921 m");
        assert_eq!(shown(Units::FeetInches).of(292.1), "11 \u{bd}\u{2033}");
        assert_eq!(shown(Units::FeetInches).of(0.1), "0.1 mm");
        assert_eq!(shown(Units::FeetInches).of(0.0), "0\u{2033}");
    }

    /// No end of a range is said wider than it is.
    #[test]
    fn what_is_said_of_a_range_lies_within_it() {
        let (low, high) = shown(Units::FeetInches).within(500.0, 6_000.0);
        assert_eq!((low.as_str(), high.as_str()), ("1\u{2032} 8\u{2033}", "19\u{2032} 8\u{2033}"));
        let (low, high) = shown(Units::FeetInches).within(0.1, 1e6);
        assert_eq!((low.as_str(), high.as_str()), ("0.1 mm", "3280\u{2032} 0\u{2033}"));
        let (low, high) = shown(Units::FeetInches).within(-500.0, 500.0);
        assert_eq!((low.as_str(), high.as_str()), ("\u{2212}1\u{2032} 7\u{2033}", "1\u{2032} 7\u{2033}"));
        assert_eq!(shown(Units::Metres).within(500.0, 6_000.0), ("0.5".to_owned(), "6 m".to_owned()));
        assert_eq!(
            shown(Units::Millimetres).within(500.0, 6_000.0),
            ("500".to_owned(), "6000 mm".to_owned())
        );
    }
}
