//! Numbers as a workshop reads them.

use baywright_geometry::angle;

use super::Words;

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

/// Thin, and never broken at the end of a line.
const THIN_SPACE: char = '\u{202f}';
const MM_PER_INCH: f64 = 25.4;
const SIXTEENTHS: u64 = 16;

impl Units {
    /// A length with its unit. Below 10 mm a tenth is shown, below 0.1 mm a hundredth.
    pub fn length(self, mm: f64) -> String {
        match self {
            Self::Millimetres => format!("{} mm", self.bare(mm)),
            Self::Metres => format!("{} m", self.bare(mm)),
            Self::FeetInches => self.bare(mm),
        }
    }

    /// The same without its unit (feet and inches keep theirs).
    pub fn bare(self, mm: f64) -> String {
        match self {
            Self::Millimetres => millimetres(mm),
            // Rounded to whole millimetres first, so that metres and millimetres never differ.
            Self::Metres => format!("{:.3}", zeroed(mm.round() / 1000.0, 0.0005)),
            Self::FeetInches => feet_inches(mm),
        }
    }
}

/// No "-0".
fn zeroed(value: f64, smallest: f64) -> f64 {
    if value.abs() < smallest { 0.0 } else { value }
}

fn millimetres(mm: f64) -> String {
    let size = mm.abs();
    if (0.005..0.1).contains(&size) {
        format!("{mm:.2}")
    } else if size < 9.95 && (size - size.round()).abs() >= 0.05 {
        format!("{mm:.1}")
    } else {
        grouped(zeroed(mm.round(), 0.5))
    }
}

/// A whole number with a thin space between thousands.
fn grouped(whole: f64) -> String {
    let digits = format!("{:.0}", whole.abs());
    let mut text = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i) % 3 == 0 {
            text.push(THIN_SPACE);
        }
        text.push(digit);
    }
    if whole < 0.0 { format!("\u{2212}{text}") } else { text }
}

fn feet_inches(mm: f64) -> String {
    let all = (mm.abs() / MM_PER_INCH * SIXTEENTHS as f64).round() as u64;
    let (feet, rest) = (all / (12 * SIXTEENTHS), all % (12 * SIXTEENTHS));
    let (inches, sixteenths) = (rest / SIXTEENTHS, rest % SIXTEENTHS);
    let fraction = (sixteenths > 0).then(|| {
        // Halves, quarters and eighths are said as such.
        let shared = [8, 4, 2].into_iter().find(|by| sixteenths % by == 0).unwrap_or(1);
        format!("{}/{}", sixteenths / shared, SIXTEENTHS / shared)
    });
    let inches = match (inches, fraction) {
        (0, Some(fraction)) => format!("{fraction} in"),
        (inches, Some(fraction)) => format!("{inches} {fraction} in"),
        (inches, None) => format!("{inches} in"),
    };
    let sign = if mm < 0.0 && all > 0 { "\u{2212}" } else { "" };
    if feet > 0 { format!("{sign}{feet} ft {inches}") } else { format!("{sign}{inches}") }
}

/// An angle in degrees: two places below one degree, else one.
pub(crate) fn degrees(radians: f64) -> String {
    let value = zeroed(angle::degrees(radians), 0.0005);
    if value.abs() < 0.095 {
        format!("{value:.3}°")
    } else if value.abs() < 1.0 {
        format!("{value:.2}°")
    } else {
        format!("{value:.1}°")
    }
}

impl Words<'_> {
    /// A length with its unit.
    pub fn length(&self, mm: f64) -> String {
        self.units.length(mm)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths() {
        let mm = |v| Units::Millimetres.length(v).replace(THIN_SPACE, "_");
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
        assert_eq!(Units::Metres.length(3600.0), "3.600 m");
    }

    #[test]
    fn feet_and_inches() {
        let ft = |v| Units::FeetInches.length(v);
        assert_eq!(ft(2286.0), "7 ft 6 in");
        assert_eq!(ft(711.2), "2 ft 4 in");
        assert_eq!(ft(12.7), "1/2 in");
        assert_eq!(ft(1.6), "1/16 in");
        assert_eq!(ft(304.79), "1 ft 0 in");
        assert_eq!(ft(-25.4), "\u{2212}1 in");
    }

    #[test]
    fn angles() {
        assert_eq!(degrees(angle::radians(0.1)), "0.10°");
        assert_eq!(degrees(angle::radians(0.05)), "0.050°");
        assert_eq!(degrees(angle::radians(12.34)), "12.3°");
    }
}
