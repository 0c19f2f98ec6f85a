//! Figures as people type them: comma or point, with or without a unit, feet and inches with fractions, sums of them and multiples.

use baywright_planner::model::validate::number;
use baywright_planner::words::Units;

/// Millimetres in an inch and a foot, exact since 1959.
const INCH: f64 = 25.4;
const FOOT: f64 = 304.8;

/// What a typed length says, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Length {
    /// One thing.
    One(f64),
    /// In millimetres or centimetres "1,200" may be 1 200 or 1.2, and "1.200" too: it depends on where one learned to write.
    /// Nobody's tape shows a thousandth; in metres three places are what it does show.
    Two([f64; 2]),
    /// Where feet and inches are shown "14-6" is fourteen feet six on a drawing, and eight inches for who takes something off.
    Dash([f64; 2]),
}

/// A length from what was typed; without a unit it is in the unit that is shown (feet-and-inches: inches). Lengths may be added and
/// taken off one another, each with its own unit or none, and multiplied by bare numbers: `1200+35`, `2*300`, `4'-6"` is four feet
/// six. `None` if it is no length.
pub fn length(text: &str, units: Units) -> Option<Length> {
    let text = plain(text);
    // Between feet and inches a dash that touches both joins them.
    let text = text.replace("'-", "' ").replace("ft-", "ft ");
    if let Some(two) = dashed(&text, units) {
        return Some(two);
    }
    let mut total = Length::One(0.0);
    let mut rest = text.as_str();
    let mut sign = 1.0;
    loop {
        let (own, after) = split(rest);
        total = total.and(product(own, units)?, sign);
        match after {
            None => break,
            Some((of_sign, after)) => (sign, rest) = (of_sign, after),
        }
    }
    match total {
        Length::One(mm) => mm.is_finite(),
        Length::Two(lengths) | Length::Dash(lengths) => lengths.iter().all(|mm| mm.is_finite()),
    }
    .then_some(total)
}

/// Bare feet, a dash and bare inches below a foot, as drawings have them: `14-6`, `14-6 1/2"`.
fn dashed(text: &str, units: Units) -> Option<Length> {
    let (feet, inches) = text.split_once('-')?;
    let feet = feet.trim();
    let is_bare = !feet.is_empty() && feet.chars().all(|c| c.is_ascii_digit());
    if units != Units::FeetInches || !is_bare || inches.starts_with(char::is_whitespace) {
        return None;
    }
    let inches = inches.strip_suffix('"').or_else(|| inches.strip_suffix("in")).unwrap_or(inches).trim();
    let (inches, after) = leading_number(inches)?;
    let feet: f64 = feet.parse().ok()?;
    (after.trim().is_empty() && inches < 12.0)
        .then_some(Length::Dash([feet * FOOT + inches * INCH, (feet - inches) * INCH]))
}

/// A figure of a table, mm: a bare number, in the unit that is shown (feet-and-inches: inches), or a length with its unit.
pub fn of_table(text: &str, units: Units) -> Option<f64> {
    // A minus as it comes out of tables is one too.
    let plain = text.trim().trim_matches(',').replace(',', ".").replace('\u{2212}', "-");
    let has_unit = || text.contains(|c: char| c.is_alphabetic() || "'\"\u{2032}\u{2033}".contains(c));
    // A point parts no thousands in a table, with its unit or without; of a comma nobody knows.
    let in_mm = plain.strip_suffix("mm").filter(|_| !text.contains(','));
    let bare = in_mm.map_or(plain.as_str(), str::trim_end);
    let each = match units {
        _ if in_mm.is_some() => 1.0,
        Units::Millimetres => 1.0,
        Units::Metres => 1_000.0,
        Units::FeetInches => INCH,
    };
    let number = bare.parse().ok().map(|number: f64| number * each);
    let read = number.or_else(|| match length(text, units) {
        // A fraction says its unit, or is one of inches.
        Some(Length::One(mm)) if has_unit() || units == Units::FeetInches => Some(mm),
        _ => None,
    });
    read.filter(|mm: &f64| mm.is_finite())
}

/// The first part of a sum, and the sign and the text of the rest. A sign at the start of a part is its own.
fn split(text: &str) -> (&str, Option<(f64, &str)>) {
    let mut before = None;
    for (at, letter) in text.char_indices() {
        let sign = match letter {
            '+' => Some(1.0),
            '-' => Some(-1.0),
            _ => None,
        };
        // After nothing, or after a sign that multiplies, it belongs to the number behind it.
        if let Some(sign) = sign
            && before.is_some_and(|last| last != '*')
            && let (Some(own), Some(rest)) = (text.get(..at), text.get(at + 1..))
        {
            return (own, Some((sign, rest)));
        }
        if !letter.is_whitespace() {
            before = Some(if is_times(letter) { '*' } else { letter });
        }
    }
    (text, None)
}

const fn is_times(letter: char) -> bool {
    matches!(letter, '*' | '\u{d7}' | '\u{b7}')
}

/// A length, multiplied by any number of bare numbers.
fn product(text: &str, units: Units) -> Option<Length> {
    let parts: Vec<&str> = text.split(is_times).collect();
    let bare = |text: &str| {
        let (sign, text) = signed(text.trim());
        let (value, after) = leading_number(text)?;
        after.trim().is_empty().then_some(sign * value)
    };
    // The one with a unit is the length; where none has one, the first is.
    let at = parts.iter().position(|own| bare(own).is_none()).unwrap_or(0);
    let own = single(parts.get(at)?.trim(), units)?;
    let others = parts.iter().enumerate().filter(|(i, _)| *i != at);
    let by = others.map(|(_, own)| bare(own)).try_fold(1.0, |all, own| Some(all * own?))?;
    Some(Length::One(0.0).and(own, by))
}

impl Length {
    /// This and so many times another one.
    fn and(self, other: Self, by: f64) -> Self {
        let both = |own: Self| match own {
            Self::One(mm) => [mm; 2],
            Self::Two(lengths) | Self::Dash(lengths) => lengths,
        };
        let ([a, b], [c, d]) = (both(self), both(other));
        match (self, other) {
            (Self::One(_), Self::One(_)) => Self::One(a + by * c),
            _ => Self::Two([a + by * c, b + by * d]),
        }
    }
}

/// One length, with its sign.
fn single(text: &str, units: Units) -> Option<Length> {
    let (sign, text) = signed(text);
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
        if each < 1000.0
            && each.fract() == 0.0
            && parts == 0
            && after.trim().is_empty()
            && let Some(thousands) = as_thousands(rest)
        {
            return Some(Length::Two([thousands, value].map(|value| sign * value * each)));
        }
        total += value * each;
        parts += 1;
        rest = after.trim_start();
        if !rest.is_empty() && (each != FOOT || parts > 1) {
            return None;
        }
    }
    (parts > 0).then_some(sign * total).filter(|mm| mm.is_finite()).map(Length::One)
}

/// A text in millimetres that says this length and nothing else.
pub fn surely(mm: f64) -> String {
    let number = number(mm);
    // A fourth place leaves no doubt.
    let place = if as_thousands(number.trim_start_matches('-')).is_some() { "0" } else { "" };
    format!("{number}{place} mm")
}

/// The number at the start of a text, if its one comma or point may be there to part thousands: one to three digits before
/// it, not beginning with a nought, three after it.
fn as_thousands(text: &str) -> Option<f64> {
    let (before, after) = text.split_once([',', '.'])?;
    let digits = |text: &str| text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    let (whole, group) = (digits(before), digits(after));
    let rest = after.get(group..)?;
    let parts = whole == before.len() && (1..=3).contains(&whole) && !before.starts_with('0') && group == 3;
    (parts && !rest.starts_with([',', '.', '/']))
        .then(|| format!("{before}{}", after.get(..group)?).parse().ok())?
}

/// An angle in degrees from what was typed. `None` if it is none.
pub fn degrees(text: &str) -> Option<f64> {
    let text = plain(text);
    let (sign, text) = signed(&text);
    let (value, after) = leading_number(text)?;
    matches!(after.trim(), "" | "°" | "deg").then_some(sign * value)
}

/// A number without a unit; `None` for anything else.
pub fn bare_number(text: &str) -> Option<f64> {
    plain(text).trim().replace(',', ".").parse().ok().filter(|own: &f64| own.is_finite())
}

/// A whole number as people write one, in groups of three or not; `None` for anything else, also for what a comma or a point
/// parts otherwise.
pub fn whole(text: &str) -> Option<f64> {
    let text = plain(text);
    let groups: Vec<&str> = text.split([',', '.']).collect();
    let (first, rest) = groups.split_first()?;
    let is_grouped = rest.is_empty() || (first.len() <= 3 && rest.iter().all(|own| own.len() == 3));
    let digits = groups.concat();
    let is_number = !first.is_empty() && digits.len() <= 12 && digits.chars().all(|c| c.is_ascii_digit());
    if is_number && is_grouped { digits.parse().ok() } else { None }
}

/// Lower case, no thin spaces between thousands, the minus sign, the signs of feet and inches and the fractions of the keyboard.
fn plain(text: &str) -> String {
    let text =
        text.trim().to_lowercase().replace(['\u{2009}', '\u{202f}', '\u{a0}'], " ").replace('\u{2212}', "-");
    let text = text
        .replace(['\u{2032}', '\u{2018}', '\u{2019}'], "'")
        .replace(['\u{2033}', '\u{201c}', '\u{201d}'], "\"");
    without_group_blanks(&unset(&text))
}

/// Set fractions as they are typed: "6\u{bd}" is "6 1/2", raised and lowered figures around a fraction slash are figures.
fn unset(text: &str) -> String {
    const RAISED: [char; 10] = [
        '\u{2070}', '\u{b9}', '\u{b2}', '\u{b3}', '\u{2074}', '\u{2075}', '\u{2076}', '\u{2077}', '\u{2078}',
        '\u{2079}',
    ];
    const LOWERED: [char; 10] = [
        '\u{2080}', '\u{2081}', '\u{2082}', '\u{2083}', '\u{2084}', '\u{2085}', '\u{2086}', '\u{2087}',
        '\u{2088}', '\u{2089}',
    ];
    const WHOLE: [(char, &str); 7] = [
        ('\u{bd}', "1/2"),
        ('\u{bc}', "1/4"),
        ('\u{be}', "3/4"),
        ('\u{215b}', "1/8"),
        ('\u{215c}', "3/8"),
        ('\u{215d}', "5/8"),
        ('\u{215e}', "7/8"),
    ];
    let figure = |own: char| RAISED.iter().chain(&LOWERED).position(|sign| *sign == own).map(|at| at % 10);
    let mut out = String::with_capacity(text.len());
    let mut last = ' ';
    for own in text.chars() {
        let whole = WHOLE.iter().find(|(sign, _)| *sign == own);
        // What begins a fraction stands apart from the number before it.
        if last.is_ascii_digit() && (whole.is_some() || RAISED.contains(&own)) {
            out.push(' ');
        }
        match (whole, figure(own)) {
            (Some((_, text)), _) => out.push_str(text),
            (None, Some(figure)) => out.push_str(&figure.to_string()),
            (None, None) if own == '\u{2044}' => out.push('/'),
            (None, None) => out.push(own),
        }
        last = own;
    }
    out
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
    use baywright_planner::words::Locale;

    use super::*;

    /// What a text says, if it is one thing.
    fn one(text: &str, units: Units) -> Option<f64> {
        match length(text, units) {
            Some(Length::One(mm)) => Some(mm),
            _ => None,
        }
    }

    /// As they are shown in any region, and never a thousandth of what was meant.
    #[test]
    fn whole_numbers_in_groups_or_not() {
        for typed in ["1000", "1,000", "1.000", "1 000", "1\u{202f}000", " 1000 "] {
            assert_eq!(whole(typed), Some(1_000.0), "{typed}");
        }
        assert_eq!(whole("365"), Some(365.0));
        for typed in ["", "1.5", "1,00", "1000.000", "-3", "+3", "3 days", "1,", ",100", "1e3"] {
            assert_eq!(whole(typed), None, "{typed}");
        }
    }

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
            // As they are shown, with and without the blank, and with the marks that a keyboard may make of quotes.
            ("5\u{2032} 6 \u{b3}\u{2044}\u{2081}\u{2086}\u{2033}", Units::Millimetres, 1_681.162_5),
            ("5\u{2032}6\u{b3}\u{2044}\u{2081}\u{2086}\u{2033}", Units::FeetInches, 1_681.162_5),
            ("6\u{bd}\u{2033}", Units::Millimetres, 165.1),
            ("\u{215e}\u{2033}", Units::Millimetres, 22.225),
            ("7\u{2019} 6\u{201d}", Units::Millimetres, 2_286.0),
            ("6 \u{b9}\u{b9}\u{2044}\u{2081}\u{2086} in", Units::Millimetres, 6.687_5 * 25.4),
        ] {
            let read = one(text, units);
            assert!(read.is_some_and(|read| (read - mm).abs() < 1e-9), "{text:?} {units:?}: {read:?}");
        }
    }

    /// Sums and multiples, each part with its unit or in the one that is shown.
    #[test]
    fn lengths_are_added_and_multiplied() {
        use Units::{FeetInches, Metres, Millimetres};
        for (text, units, mm) in [
            ("1200+35", Millimetres, 1_235.0),
            ("1200 - 35", Millimetres, 1_165.0),
            ("2*300", Millimetres, 600.0),
            ("2 \u{d7} 300 mm + 5 cm", Millimetres, 650.0),
            ("300*2.5", Millimetres, 750.0),
            ("1.2 m + 35 mm", Metres, 1_235.0),
            ("1.2+0.5", Metres, 1_700.0),
            ("-40+15", Millimetres, -25.0),
            ("3*-10", Millimetres, -30.0),
            ("4'-6\"", Millimetres, 1_371.6),
            ("4'-6 1/2\"", FeetInches, 1_384.3),
            ("4 ft-6", FeetInches, 1_371.6),
            ("4' - 6\"", Millimetres, 1_066.8),
            ("2*4'-6\"", FeetInches, 2_743.2),
            ("7 ft 6 in + 1/2 in", Millimetres, 2_298.7),
            ("650,5+0,5", Millimetres, 651.0),
            ("1 200+35", Millimetres, 1_235.0),
        ] {
            let read = one(text, units);
            assert!(read.is_some_and(|read| (read - mm).abs() < 1e-9), "{text:?} {units:?}: {read:?}");
        }
        for text in ["1200+", "+", "2*", "*2", "2 m * 3 m", "1+2 kg", "3*2 kg"] {
            assert_eq!(length(text, Millimetres), None, "{text:?}");
        }
        // A part that may be two things makes the whole so.
        assert_eq!(length("1,200+35", Millimetres), Some(Length::Two([1_235.0, 36.2])));
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
            "\u{b3}\u{2044}",
            "\u{2032}",
            "3 \u{bd}/2",
        ] {
            assert_eq!(length(text, Units::Millimetres), None, "{text:?}");
        }
    }

    /// A dash between bare feet and bare inches is asked about; with a unit, or blanks around it, it is what it says.
    #[test]
    fn a_dash_between_feet_and_inches_is_not_guessed() {
        use Units::{FeetInches, Millimetres};
        for (text, mm) in [
            ("14-6", [4_419.6, 203.2]),
            ("15-3 1/2", [4_660.9, 292.1]),
            ("7-0\"", [2_133.6, 177.8]),
            ("3-11.5 in", [1_206.5, -215.9]),
        ] {
            let Some(Length::Dash(read)) = length(text, FeetInches) else { panic!("{text:?}") };
            assert!(read.iter().zip(mm).all(|(read, mm)| (read - mm).abs() < 1e-9), "{text:?}: {read:?}");
        }
        for (text, units, mm) in [
            ("14-6", Millimetres, 8.0),
            ("14 - 6", FeetInches, 8.0 * 25.4),
            ("14'-6", FeetInches, 4_419.6),
            ("40-12", FeetInches, 28.0 * 25.4),
            ("14-6mm", FeetInches, 14.0 * 25.4 - 6.0),
            ("-6", FeetInches, -6.0 * 25.4),
        ] {
            let read = one(text, units);
            assert!(read.is_some_and(|read| (read - mm).abs() < 1e-9), "{text:?} {units:?}: {read:?}");
        }
    }

    /// A comma or a point before three digits, where a tape has no thousandths.
    #[test]
    fn thousands_or_thousandths_are_not_guessed() {
        use Units::{FeetInches, Metres, Millimetres};
        for (text, units, mm) in [
            ("1,200", Millimetres, [1_200.0, 1.2]),
            ("1.200", Millimetres, [1_200.0, 1.2]),
            (" -1,200 ", Millimetres, [-1_200.0, -1.2]),
            ("\u{2212}1.200 mm", Millimetres, [-1_200.0, -1.2]),
            ("12,345", Millimetres, [12_345.0, 12.345]),
            ("123.456mm", Millimetres, [123_456.0, 123.456]),
            ("1,000", Millimetres, [1_000.0, 1.0]),
            ("1,200 mm", Metres, [1_200.0, 1.2]),
            ("1.200 mm", FeetInches, [1_200.0, 1.2]),
            ("1.200 cm", Metres, [12_000.0, 12.0]),
        ] {
            let read = length(text, units);
            assert_eq!(read, Some(Length::Two(mm)), "{text:?} {units:?}");
            // Each answer is one that is not asked about again.
            for mm in mm {
                let sure = surely(mm);
                assert_eq!(length(&sure, units), Some(Length::One(mm)), "{text:?}: {sure:?}");
            }
        }
        for (text, units, mm) in [
            // A nought is no thousand; four digits are no group, nor are two or four behind.
            ("0.125", Millimetres, 0.125),
            ("0,125 mm", Millimetres, 0.125),
            ("012,345", Millimetres, 12.345),
            ("1234,567", Millimetres, 1_234.567),
            ("8544.004", Millimetres, 8_544.004),
            ("1,20", Millimetres, 1.2),
            ("1,2000", Millimetres, 1.2),
            ("1,2", Millimetres, 1.2),
            // Blanks say which it is.
            ("1 200", Millimetres, 1_200.0),
            ("1 200,5", Millimetres, 1_200.5),
            ("12 345.678", Millimetres, 12_345.678),
            // Metres to the millimetre, inches to the thousandth: as they are written.
            ("1.200", Metres, 1_200.0),
            ("1,200", Metres, 1_200.0),
            ("1.200 m", Millimetres, 1_200.0),
            ("1.125", FeetInches, 28.575),
            ("1.125 in", Millimetres, 28.575),
            ("2 ft 1.125 in", Millimetres, 638.175),
        ] {
            let read = one(text, units);
            assert!(read.is_some_and(|read| (read - mm).abs() < 1e-9), "{text:?} {units:?}: {read:?}");
        }
        // Two of them part no thousands that were meant for sure, and are no number.
        for text in ["1,234,567", "1.234,5", "1,234.5", ",200", "1,200/2,500"] {
            assert!(!matches!(length(text, Millimetres), Some(Length::Two(_))), "{text:?}");
        }
        assert_eq!(degrees("1,200"), Some(1.2));
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
                let shown = Locale { units, ..Locale::default() };
                for text in [shown.length(mm), shown.bare(mm)] {
                    let read = one(&text, units);
                    assert!(read.is_some_and(|read| (read - mm).abs() <= least + 1e-9), "{text:?}: {read:?}");
                }
            }
        }
        // Each fraction of an inch, exactly.
        let inches = Locale { units: Units::FeetInches, ..Locale::default() };
        for sixteenths in 0..24 * 16 {
            let mm = f64::from(sixteenths) * 25.4 / 16.0;
            let shown = inches.length(mm);
            let read = one(&shown, Units::Millimetres);
            assert!(read.is_some_and(|read| (read - mm).abs() < 1e-9), "{shown:?}: {read:?}");
        }
        assert_eq!(degrees("-12,5°"), Some(-12.5));
        assert_eq!(degrees("12 mm"), None);
    }
}
