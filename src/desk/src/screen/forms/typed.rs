//! Figures as people type them: comma or point, with or without a unit, feet and inches with fractions.

use baywright_planner::words::Units;

/// Millimetres in an inch and a foot, exact since 1959.
const INCH: f64 = 25.4;
const FOOT: f64 = 304.8;

/// A length in mm from what was typed; without a unit it is in the unit that is shown (feet-and-inches: inches).
/// `None` if it is no length.
pub fn length(text: &str, units: Units) -> Option<f64> {
    let text = plain(text);
    let (sign, text) = signed(&text);
    let default = match units {
        Units::Millimetres => 1.0,
        Units::Metres => 1000.0,
        Units::FeetInches => INCH,
    };
    let mut rest = text;
    let mut total = 0.0;
    let mut parts = 0;
    while !rest.is_empty() {
        let (value, after) = leading_number(rest)?;
        let (unit, after) = leading_unit(after.trim_start());
        let each = match unit {
            "" if after.trim().is_empty() && parts == 0 => default,
            // "7 ft 6": what follows feet is inches.
            "" if after.trim().is_empty() => INCH,
            "mm" => 1.0,
            "cm" => 10.0,
            "m" => 1000.0,
            "in" | "\"" | "''" => INCH,
            "ft" | "'" => FOOT,
            _ => return None,
        };
        // Only feet may be followed by something.
        if parts > 0 && each != INCH {
            return None;
        }
        total += value * each;
        parts += 1;
        rest = after.trim_start();
        if !rest.is_empty() && (each != FOOT || parts > 1) {
            return None;
        }
    }
    (parts > 0).then_some(sign * total).filter(|mm| mm.is_finite())
}

/// An angle in degrees from what was typed. `None` if it is none.
pub fn degrees(text: &str) -> Option<f64> {
    let text = plain(text);
    let (sign, text) = signed(&text);
    let (value, after) = leading_number(text)?;
    matches!(after.trim(), "" | "°" | "deg").then_some(sign * value)
}

/// Lower case, no thin spaces between thousands, the minus sign of the keyboard.
fn plain(text: &str) -> String {
    let text =
        text.trim().to_lowercase().replace(['\u{2009}', '\u{202f}', '\u{a0}'], " ").replace('\u{2212}', "-");
    without_group_blanks(&text)
}

/// "3 600" is one number: a blank between a digit and three digits is left out, a fraction's is not.
fn without_group_blanks(text: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let digit = |i: usize| letters.get(i).is_some_and(char::is_ascii_digit);
    let mut out = String::with_capacity(text.len());
    for (i, &c) in letters.iter().enumerate() {
        let groups = c == ' '
            && i > 0
            && digit(i - 1)
            && (1..=3).all(|n| digit(i + n))
            && !digit(i + 4)
            && letters.get(i + 4) != Some(&'/');
        if !groups {
            out.push(c);
        }
    }
    out
}

fn signed(text: &str) -> (f64, &str) {
    match text.strip_prefix('-') {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// A number at the start: whole, decimal (comma or point), a fraction, or a whole number and a fraction.
fn leading_number(text: &str) -> Option<(f64, &str)> {
    let (first, after) = decimal(text)?;
    if let Some(below) = after.strip_prefix('/') {
        let (below, after) = decimal(below)?;
        return (below > 0.0).then(|| (first / below, after));
    }
    // "6 1/2"
    let next = after.trim_start();
    if next.len() < after.len()
        && let Some((above, rest)) = decimal(next)
        && let Some(below) = rest.strip_prefix('/')
        && let Some((below, rest)) = decimal(below)
    {
        return (below > 0.0 && above < below).then(|| (first + above / below, rest));
    }
    Some((first, after))
}

fn decimal(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(text.len());
    let (number, after) = text.split_at(end);
    let number = number.replace(',', ".");
    // "1.234.567" is no number; a lone point is none either.
    number.parse().ok().filter(|n: &f64| n.is_finite()).map(|n| (n, after))
}

fn leading_unit(text: &str) -> (&str, &str) {
    for unit in ["mm", "cm", "m", "in", "ft", "''", "'", "\""] {
        if let Some(after) = text.strip_prefix(unit)
            && !after.starts_with(char::is_alphabetic)
        {
            return (unit, after.strip_prefix('.').unwrap_or(after));
        }
    }
    ("", text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_people_type_them() {
        for (text, units, mm) in [
            ("250", Units::Millimetres, 250.0),
            (" 12,5 ", Units::Millimetres, 12.5),
            ("3 600", Units::Millimetres, 3600.0),
            ("3\u{2009}600 mm", Units::Millimetres, 3600.0),
            ("1.2 m", Units::Millimetres, 1200.0),
            ("1,2m", Units::FeetInches, 1200.0),
            ("45 cm", Units::Metres, 450.0),
            ("3.6", Units::Metres, 3600.0),
            ("-40", Units::Millimetres, -40.0),
            ("\u{2212}40 mm", Units::Millimetres, -40.0),
            ("7 ft 6 in", Units::FeetInches, 2286.0),
            ("7' 6\"", Units::Millimetres, 2286.0),
            ("7 ft 6", Units::FeetInches, 2286.0),
            ("6 1/2", Units::FeetInches, 165.1),
            ("1/2 in", Units::Millimetres, 12.7),
            ("2 ft 4 3/8 in", Units::FeetInches, 609.6 + 4.375 * 25.4),
            ("1 234 567", Units::Millimetres, 1_234_567.0),
        ] {
            let read = length(text, units);
            assert!(read.is_some_and(|read| (read - mm).abs() < 1e-9), "{text:?} {units:?}: {read:?}");
        }
    }

    #[test]
    fn what_is_no_length_is_none() {
        for text in [
            "",
            "mm",
            "abc",
            "1.2.3",
            "1,234,5",
            "12 kg",
            "1/0",
            "5 3/2 in",
            "12 mm 3",
            "1 m 20 cm",
            "NaN",
            "inf",
            "1e5",
            "--3",
        ] {
            assert_eq!(length(text, Units::Millimetres), None, "{text:?}");
        }
    }

    /// What is shown can be typed back, to what it shows.
    #[test]
    fn what_is_shown_reads_back() {
        for units in [Units::Millimetres, Units::Metres, Units::FeetInches] {
            let least = match units {
                Units::Millimetres => 0.5,
                Units::Metres => 0.5,
                Units::FeetInches => 25.4 / 32.0,
            };
            for mm in [0.0, 1.0, 12.7, 250.0, 999.0, 1000.0, 3600.0, 12_345.0, -1500.0, -25.4] {
                for text in [units.length(mm), units.bare(mm)] {
                    let read = length(&text, units);
                    assert!(read.is_some_and(|read| (read - mm).abs() <= least + 1e-9), "{text:?}: {read:?}");
                }
            }
        }
        assert_eq!(degrees("-12,5°"), Some(-12.5));
        assert_eq!(degrees("12 mm"), None);
    }
}
