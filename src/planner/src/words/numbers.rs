//! Numbers and days as a workshop reads them: in its units, as its region writes them, whatever the language.

use baywright_geometry::angle;
use jiff::civil::Date;

use super::{Language, Words};
use crate::model::validate::number;

/// How lengths are shown. Files and sums stay in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Millimetres.
    #[default]
    Millimetres,
    /// Metres, to the millimetre.
    Metres,
    /// Feet, inches and sixteenths.
    FeetInches,
}

/// How numbers and days are written where the workshop is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Region {
    /// Before the tenths.
    pub decimal: Decimal,
    /// Between thousands.
    pub thousands: Thousands,
    /// In which order a day is written.
    pub days: Days,
}

/// What stands before the tenths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Decimal {
    /// 12.5
    #[default]
    Point,
    /// 12,5
    Comma,
}

/// What stands between thousands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Thousands {
    /// A thin space, as the international standard of units asks.
    #[default]
    ThinSpace,
    /// 1.250
    Point,
    /// 1,250
    Comma,
}

/// In which order a day is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Days {
    /// 2026-11-02, as ISO 8601 has it.
    #[default]
    YearMonthDay,
    /// 02.11.2026
    DayMonthYear,
    /// 11/02/2026
    MonthDayYear,
}

/// What a sentence is made with, whatever it is about: the language, and apart from it how lengths and numbers are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Locale {
    /// The language.
    pub language: Language,
    /// How lengths are shown.
    pub units: Units,
    /// How numbers and days are written.
    pub region: Region,
}

/// A share in per cent as it may be shown, without the sign.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Share {
    /// Less than this, and not nothing.
    Below(String),
    /// More than this, and not all.
    Above(String),
    /// So much.
    Of(String),
}

/// Thin, and never broken at the end of a line.
const THIN_SPACE: char = '\u{202f}';
const MM_PER_INCH: f64 = 25.4;
const SIXTEENTHS: u64 = 16;

impl Region {
    /// As the international standards have it: a point, thin spaces, the year first.
    pub const STANDARD: Self =
        Self { decimal: Decimal::Point, thousands: Thousands::ThinSpace, days: Days::YearMonthDay };

    /// Germany: a comma, thin spaces, the day first. DIN 1333 has the comma, DIN 5008 spaces between thousands and 02.11.2026
    /// (from memory).
    pub const GERMANY: Self =
        Self { decimal: Decimal::Comma, thousands: Thousands::ThinSpace, days: Days::DayMonthYear };

    /// A number to so many places.
    pub fn number(self, value: f64, places: usize) -> String {
        self.written(&format!("{value:.places$}"))
    }

    /// A sum of somebody's money, in whatever that is: to hundredths, unless it is whole.
    pub fn money(self, sum: f64) -> String {
        let is_whole = (sum - sum.round()).abs() < 0.005;
        self.number(sum, if is_whole { 0 } else { 2 })
    }

    /// A share in per cent: what is not nothing is never shown as "0 %", what is not all never as "100 %".
    pub(super) fn share(self, share: f64) -> Share {
        let value = share * 100.0;
        // Where a whole number would say nothing, little or all, a tenth is shown.
        let to_tenths =
            (value < 10.0 && (value - value.round()).abs() > 0.05) || (99.5..100.0).contains(&value);
        if value > 0.0 && value < 0.1 {
            Share::Below(self.number(0.1, 1))
        } else if (99.95..100.0).contains(&value) {
            Share::Above(self.number(99.9, 1))
        } else {
            Share::Of(self.number(value, usize::from(to_tenths)))
        }
    }

    /// The two things that a length may say which was typed with one comma or point before three digits, mm.
    pub fn readings(self, [thousands, decimal]: [f64; 2]) -> [String; 2] {
        let decimal = self.written(&number(decimal).replace('-', "\u{2212}"));
        [format!("{} mm", millimetres(thousands, self)), format!("{decimal} mm")]
    }

    /// Digits with a point, with this region's sign instead.
    fn written(self, digits: &str) -> String {
        match self.decimal {
            Decimal::Point => digits.to_owned(),
            Decimal::Comma => digits.replace('.', ","),
        }
    }

    /// A whole number, its thousands apart.
    pub(in crate::words) fn grouped(self, whole: f64) -> String {
        let between = match self.thousands {
            Thousands::ThinSpace => THIN_SPACE,
            Thousands::Point => '.',
            Thousands::Comma => ',',
        };
        let digits = format!("{:.0}", whole.abs());
        let mut text = String::new();
        for (i, digit) in digits.chars().enumerate() {
            if i > 0 && (digits.len() - i) % 3 == 0 {
                text.push(between);
            }
            text.push(digit);
        }
        if whole < 0.0 { format!("\u{2212}{text}") } else { text }
    }

    /// An angle in degrees: two places below one degree, else one.
    pub fn degrees(self, radians: f64) -> String {
        let value = zeroed(angle::degrees(radians), 0.0005);
        let places = if value.abs() < 0.095 {
            3
        } else if value.abs() < 1.0 {
            2
        } else {
            1
        };
        format!("{}°", self.number(value, places))
    }

    /// An angle in degrees as it can be typed: to a hundredth, below one degree, where toes and tolerances are, to a
    /// ten-thousandth; to no more places than that takes, and a tenth at least.
    pub fn degrees_to_type(self, degrees: f64) -> String {
        let to = |value: f64, places: usize| {
            let parts = libm::exp10(places as f64);
            (value * parts).round() / parts + 0.0
        };
        let most = if degrees.abs() < 1.0 { 4 } else { 2 };
        let rounded = to(degrees, most);
        let places = (1..most).find(|places| (to(rounded, *places) - rounded).abs() < 1e-9).unwrap_or(most);
        format!("{}°", self.number(rounded, places))
    }

    /// A day.
    pub fn day(self, day: Date) -> String {
        match self.days {
            Days::YearMonthDay => day.to_string(),
            Days::DayMonthYear => format!("{:02}.{:02}.{}", day.day(), day.month(), day.year()),
            Days::MonthDayYear => format!("{:02}/{:02}/{}", day.month(), day.day(), day.year()),
        }
    }
}

impl Locale {
    /// This language in these units, with numbers and days as they are written where it is spoken.
    pub const fn of(language: Language, units: Units) -> Self {
        Self { language, units, region: language.region() }
    }

    /// A length with its unit. Below 10 mm a tenth is shown, below 0.1 mm a hundredth.
    pub fn length(self, mm: f64) -> String {
        match self.units {
            Units::Millimetres => format!("{} mm", self.bare(mm)),
            Units::Metres => format!("{} m", self.bare(mm)),
            Units::FeetInches => self.bare(mm),
        }
    }

    /// A length with its unit that is never shown shorter than it is: how far to go at least. Up to a thousandth of what is
    /// shown it may be.
    pub fn at_least(self, mm: f64) -> String {
        const HAIR: f64 = 1e-3;
        let shown_mm = match self.units {
            Units::Millimetres if mm < 9.95 => 0.1,
            Units::Millimetres | Units::Metres => 1.0,
            Units::FeetInches => MM_PER_INCH / SIXTEENTHS as f64,
        };
        self.length((mm / shown_mm - HAIR).ceil() * shown_mm)
    }

    /// A length with its unit as it stands in a field: what was typed to a tenth of a millimetre keeps its tenth, so that leaving
    /// the field changes nothing.
    pub fn length_to_type(self, mm: f64) -> String {
        let tenths = (mm * 10.0).round() / 10.0;
        let is_typed = (mm - tenths).abs() < 1e-6 && (mm - mm.round()).abs() > 0.05;
        match self.units {
            Units::Millimetres if is_typed => {
                // Without signs between thousands: beside one for tenths they leave doubt.
                format!("{} mm", self.region.number(tenths, 1).replace('-', "\u{2212}"))
            }
            Units::Metres if is_typed => {
                format!("{} m", self.region.number(tenths / 1000.0, 4).replace('-', "\u{2212}"))
            }
            _ => self.length(mm),
        }
    }

    /// Millimetres to a tenth, in every unit: levels and shims are asked to less than a sixteenth of an inch.
    pub fn tenths(self, mm: f64) -> String {
        let tenths = (mm * 10.0).round();
        let (whole, rest) = ((tenths.abs() / 10.0).floor(), tenths.abs() % 10.0);
        let sign = if tenths < 0.0 { "\u{2212}" } else { "" };
        let digits = self.region.grouped(whole);
        let decimal = match self.region.decimal {
            Decimal::Point => '.',
            Decimal::Comma => ',',
        };
        format!("{sign}{digits}{decimal}{rest:.0} mm")
    }

    /// The same with its sign, if it is not nothing.
    pub fn signed_tenths(self, mm: f64) -> String {
        if (mm * 10.0).round() > 0.0 { format!("+{}", self.tenths(mm)) } else { self.tenths(mm) }
    }

    /// A number of millimetres with its sign and without its unit, to so many places.
    pub fn signed(self, mm: f64, places: usize) -> String {
        let text = self.region.number(mm.abs(), places);
        let is_nothing = text.chars().all(|c| !c.is_ascii_digit() || c == '0');
        match (is_nothing, mm > 0.0) {
            (true, _) => text,
            (false, true) => format!("+{text}"),
            (false, false) => format!("\u{2212}{text}"),
        }
    }

    /// A height that is set: to a tenth of a millimetre; in feet as it is read off a tape, with that in brackets.
    pub fn height(self, mm: f64) -> String {
        match self.units {
            Units::FeetInches => format!("{} ({})", self.length(mm), self.tenths(mm)),
            Units::Millimetres | Units::Metres => self.tenths(mm),
        }
    }

    /// The same as [`Locale::length`] without its unit (feet and inches keep theirs).
    pub fn bare(self, mm: f64) -> String {
        match self.units {
            Units::Millimetres => millimetres(mm, self.region),
            // Rounded to whole millimetres first, so that metres and millimetres never differ.
            Units::Metres => self.region.number(zeroed(mm.round() / 1000.0, 0.0005), 3),
            Units::FeetInches => feet_inches(mm),
        }
    }
}

/// No "-0".
fn zeroed(value: f64, smallest: f64) -> f64 {
    if value.abs() < smallest { 0.0 } else { value }
}

fn millimetres(mm: f64, region: Region) -> String {
    let size = mm.abs();
    if (0.005..0.1).contains(&size) {
        region.number(mm, 2)
    } else if size < 9.95 && (size - size.round()).abs() >= 0.05 {
        region.number(mm, 1)
    } else {
        region.grouped(zeroed(mm.round(), 0.5))
    }
}

/// Feet and inches to a sixteenth, with their signs and a set fraction: 5\u{2032} 6 \u{b3}\u{2044}\u{2081}\u{2086}\u{2033}.
fn feet_inches(mm: f64) -> String {
    let all = (mm.abs() / MM_PER_INCH * SIXTEENTHS as f64).round() as u64;
    let (feet, rest) = (all / (12 * SIXTEENTHS), all % (12 * SIXTEENTHS));
    let (inches, sixteenths) = (rest / SIXTEENTHS, rest % SIXTEENTHS);
    let inches = match (inches, fraction(sixteenths)) {
        (0, Some(fraction)) => fraction,
        (inches, Some(fraction)) => format!("{inches} {fraction}"),
        (inches, None) => inches.to_string(),
    };
    let sign = if mm < 0.0 && all > 0 { "\u{2212}" } else { "" };
    if feet > 0 {
        format!("{sign}{feet}\u{2032} {inches}\u{2033}")
    } else {
        format!("{sign}{inches}\u{2033}")
    }
}

/// So many sixteenths as a set fraction, in its lowest terms: halves, quarters and eighths are one character, which every font
/// with fractions has; sixteenths are made of raised and lowered figures around the fraction slash.
fn fraction(sixteenths: u64) -> Option<String> {
    let one = match sixteenths {
        2 => '\u{215b}',
        4 => '\u{bc}',
        6 => '\u{215c}',
        8 => '\u{bd}',
        10 => '\u{215d}',
        12 => '\u{be}',
        14 => '\u{215e}',
        odd => {
            let above = match odd {
                1 => "\u{b9}",
                3 => "\u{b3}",
                5 => "\u{2075}",
                7 => "\u{2077}",
                9 => "\u{2079}",
                11 => "\u{b9}\u{b9}",
                13 => "\u{b9}\u{b3}",
                15 => "\u{b9}\u{2075}",
                _ => return None,
            };
            return Some(format!("{above}\u{2044}\u{2081}\u{2086}"));
        }
    };
    Some(one.to_string())
}

impl Words<'_> {
    /// A length with its unit.
    pub fn length(&self, mm: f64) -> String {
        self.locale.length(mm)
    }

    /// The same without its unit (feet and inches keep theirs).
    pub fn bare(&self, mm: f64) -> String {
        self.locale.bare(mm)
    }

    /// A number to so many places.
    pub fn number(&self, value: f64, places: usize) -> String {
        self.locale.region.number(value, places)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(units: Units, mm: f64) -> String {
        Locale { units, ..Locale::default() }.length(mm)
    }

    #[test]
    fn lengths() {
        let mm = |v| shown(Units::Millimetres, v).replace(THIN_SPACE, "_");
        assert_eq!(mm(250.0), "250 mm");
        assert_eq!(mm(0.0), "0 mm");
        assert_eq!(mm(-0.0), "0 mm");
        assert_eq!(mm(6.98), "7 mm");
        assert_eq!(mm(0.873), "0.9 mm");
        assert_eq!(mm(0.02), "0.02 mm");
        assert_eq!(mm(9.96), "10 mm");
        assert_eq!(mm(3600.4), "3_600 mm");
        assert_eq!(mm(1234567.0), "1_234_567 mm");
        assert_eq!(mm(-1500.0), "\u{2212}1_500 mm");
        assert_eq!(shown(Units::Metres, 3600.0), "3.600 m");
    }

    #[test]
    fn a_tenth_that_was_typed_stands_in_its_field() {
        let mm = |v| Locale::default().length_to_type(v);
        assert_eq!(mm(650.5), "650.5 mm");
        assert_eq!(mm(-1_200.5), "\u{2212}1200.5 mm");
        assert_eq!(mm(650.0), shown(Units::Millimetres, 650.0));
        // What was worked out and not typed is shown as everywhere.
        assert_eq!(mm(361.5837), "362 mm");
        assert_eq!(Locale { units: Units::Metres, ..Locale::default() }.length_to_type(1_200.5), "1.2005 m");
    }

    #[test]
    fn feet_and_inches() {
        let ft = |v| shown(Units::FeetInches, v);
        assert_eq!(ft(2286.0), "7\u{2032} 6\u{2033}");
        assert_eq!(ft(711.2), "2\u{2032} 4\u{2033}");
        assert_eq!(ft(12.7), "\u{bd}\u{2033}");
        assert_eq!(ft(1.6), "\u{b9}\u{2044}\u{2081}\u{2086}\u{2033}");
        assert_eq!(ft(304.79), "1\u{2032} 0\u{2033}");
        assert_eq!(ft(-25.4), "\u{2212}1\u{2033}");
        // 5 ft 6 3/16 in.
        assert_eq!(ft(1_681.162_5), "5\u{2032} 6 \u{b3}\u{2044}\u{2081}\u{2086}\u{2033}");
    }

    /// 102 mm are 4 in and 0.4 mm more: who moves it by what is nearest moves it too little.
    #[test]
    fn a_move_is_not_shown_shorter_than_it_is() {
        let least = |units, mm| Locale { units, ..Locale::default() }.at_least(mm);
        assert_eq!(shown(Units::FeetInches, 102.0), "4\u{2033}");
        assert_eq!(least(Units::FeetInches, 102.0), "4 \u{b9}\u{2044}\u{2081}\u{2086}\u{2033}");
        assert_eq!(least(Units::FeetInches, 101.6), "4\u{2033}");
        assert_eq!(least(Units::Millimetres, 70.2), "71 mm");
        assert_eq!(least(Units::Millimetres, 250.000_1), "250 mm");
        assert_eq!(least(Units::Millimetres, 1.01), "1.1 mm");
        assert_eq!(least(Units::Metres, 70.2), "0.071 m");
    }

    #[test]
    fn angles() {
        let degrees = |radians| Region::default().degrees(radians);
        assert_eq!(degrees(angle::radians(0.1)), "0.10°");
        assert_eq!(degrees(angle::radians(0.05)), "0.050°");
        assert_eq!(degrees(angle::radians(12.34)), "12.3°");
    }

    #[test]
    fn angles_are_shown_as_they_can_be_typed() {
        let shown = |degrees| Region::default().degrees_to_type(degrees);
        assert_eq!(shown(12.0), "12.0°");
        assert_eq!(shown(-0.000_01), "0.0°");
        assert_eq!(shown(-0.001), "-0.001°");
        assert_eq!(shown(0.125), "0.125°");
        assert_eq!(shown(0.1 + 0.2), "0.3°");
        assert_eq!(shown(12.125), "12.13°");
        assert_eq!(shown(0.25), "0.25°");
        assert_eq!(shown(179.999), "180.0°");
    }

    #[test]
    fn a_region_writes_its_own_way() {
        let day = jiff::civil::date(2026, 11, 2);
        let middle =
            Region { decimal: Decimal::Comma, thousands: Thousands::Point, days: Days::DayMonthYear };
        let metres = Locale { units: Units::Metres, region: middle, ..Locale::default() };
        let millimetres = Locale { units: Units::Millimetres, ..metres };
        assert_eq!(metres.length(3600.0), "3,600 m");
        assert_eq!(millimetres.length(3600.0), "3.600 mm");
        assert_eq!(millimetres.length(2.5), "2,5 mm");
        assert_eq!(middle.degrees(angle::radians(12.34)), "12,3°");
        assert_eq!(middle.day(day), "02.11.2026");
        let west = Region { thousands: Thousands::Comma, days: Days::MonthDayYear, ..Region::default() };
        let west_mm = Locale { region: west, ..Locale::default() };
        assert_eq!(west_mm.length(-3600.0), "\u{2212}3,600 mm");
        assert_eq!(west.day(day), "11/02/2026");
        assert_eq!(Region::default().day(day), "2026-11-02");
        assert_eq!(Region::default(), Region::STANDARD);
        let german = Locale::of(Language::German, Units::Millimetres);
        assert_eq!(german.length(3600.0), "3\u{202f}600 mm");
        assert_eq!(german.length(2.5), "2,5 mm");
        assert_eq!(german.region.day(day), "02.11.2026");
    }
}
