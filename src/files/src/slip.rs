//! Numbers as people write them elsewhere: with a comma, with a blank between thousands, with their unit.

use baywright_planner::model::fault::{Allowed, Found};

/// A number that was written otherwise than files have it, near to the place `start` to `end` where the reader stopped:
/// what was found and what to write instead.
pub fn in_number(text: &str, start: usize, end: usize) -> Option<(Found, Allowed)> {
    let comma =
        decimal_comma(text, start).or_else(|| decimal_comma(text, end)).or_else(|| comma_in_list(text, end));
    if let Some(number) = comma {
        return Some((Found::WithComma(number.clone()), Allowed::PointFor(number)));
    }
    after_number(text, start).or_else(|| after_number(text, end))
}

/// What stands behind a number and does not belong there: more digits after a blank, or a unit.
fn after_number(text: &str, at: usize) -> Option<(Found, Allowed)> {
    // The reader stops before the blank, or after it.
    let rest = text.get(at..)?;
    let at = at + (rest.len() - rest.trim_start_matches(is_blank).len());
    let (before, rest) = (text.get(..at)?, text.get(at..)?);
    let number = before.trim_end_matches(is_blank);
    let blank = before.get(number.len()..)?;
    let digits = number.trim_end_matches(|c: char| c.is_ascii_digit() || c == '.');
    // A digit in a name is no number.
    let own = |c: char| !(c.is_alphanumeric() || c == '_');
    let number = number.get(digits.len()..).filter(|n| n.starts_with(|c: char| c.is_ascii_digit()))?;
    if !digits.chars().next_back().is_none_or(own) {
        return None;
    }
    let sign = if digits.ends_with('-') { "-" } else { "" };
    let end = rest.find(|c: char| c.is_whitespace() || ",)]}:".contains(c)).unwrap_or(rest.len());
    let more = rest.get(..end).filter(|more| !more.is_empty() && more.len() < 20)?;
    let written = format!("{sign}{number}{blank}{more}");
    let of_number = |c: char| c.is_ascii_digit() || ".'\u{2019}".contains(c);
    if more.chars().all(of_number) && more.ends_with(|c: char| c.is_ascii_digit()) {
        let plain: String = format!("{sign}{number}{more}");
        let plain: String = plain.chars().filter(|c| !"'\u{2019}".contains(*c)).collect();
        return Some((Found::Written(written), Allowed::Unspaced(plain)));
    }
    let is_unit = more.chars().all(|c| c.is_alphabetic() || "°\"'²³/".contains(c)) && !more.starts_with('/');
    is_unit.then(|| (Found::Written(written), Allowed::Unitless(format!("{sign}{number}"))))
}

/// A blank within a line, however narrow.
fn is_blank(c: char) -> bool {
    c.is_whitespace() && c != '\n' && c != '\r'
}

/// The same anywhere in the list of figures that ends at a place, if other commas in it have a blank after them, so
/// that this one stands out.
fn comma_in_list(text: &str, at: usize) -> Option<String> {
    let before = text.get(..at)?;
    let list = before.get(before.rfind(['(', '['])?..)?;
    let comma = list.match_indices(',').map(|(i, _)| i).find(|i| {
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        digit(list.get(..*i).and_then(|s| s.chars().next_back()))
            && digit(list.get(i + 1..).and_then(|s| s.chars().next()))
    })?;
    list.contains(", ").then(|| decimal_comma(list, comma)).flatten()
}

/// A number with a comma in it just before or at a place, such as `6,5`: digits, comma, digits without a blank.
fn decimal_comma(text: &str, at: usize) -> Option<String> {
    let part = |c: char| c.is_ascii_digit() || c == ',';
    let before: String = text.get(..at)?.chars().rev().take_while(|&c| part(c)).collect();
    let before: String = before.chars().rev().collect();
    let after: String = text.get(at..)?.chars().take_while(|&c| part(c)).collect();
    let number = format!("{before}{after}");
    let (whole, rest) = number.trim_end_matches(',').split_once(',')?;
    let digits = |s: &str| !s.is_empty() && s.chars().all(|c| c.is_ascii_digit());
    (digits(whole) && digits(rest)).then(|| format!("{whole},{rest}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The reader stops at `|`.
    fn check(text: &str) -> Option<(Found, Allowed)> {
        let at = text.find('|').unwrap();
        in_number(&text.replacen('|', "", 1), at, at)
    }

    fn told(text: &str) -> (Found, Allowed) {
        check(text).unwrap()
    }

    /// A number as it is written, and without blanks.
    fn spaced(written: &str, plain: &str) -> (Found, Allowed) {
        (Found::Written(written.to_owned()), Allowed::Unspaced(plain.to_owned()))
    }

    /// A number as it is written, and without its unit.
    fn with_unit(written: &str, number: &str) -> (Found, Allowed) {
        (Found::Written(written.to_owned()), Allowed::Unitless(number.to_owned()))
    }

    fn with_comma(number: &str) -> (Found, Allowed) {
        (Found::WithComma(number.to_owned()), Allowed::PointFor(number.to_owned()))
    }

    #[test]
    fn slips_in_numbers_are_seen() {
        assert_eq!(told("a_mm: 7 |000,"), spaced("7 000", "7000"));
        assert_eq!(told("a_mm: 7| 000,"), spaced("7 000", "7000"));
        assert_eq!(told("a_mm: 7\u{202f}|000,"), spaced("7\u{202f}000", "7000"));
        assert_eq!(told("a_mm: 7|'000,"), spaced("7'000", "7000"));
        assert_eq!(told("(-7 |000, 5)"), spaced("-7 000", "-7000"));
        assert_eq!(told("a_mm: 900|mm,"), with_unit("900mm", "900"));
        assert_eq!(told("a_mm: 900 |mm,"), with_unit("900 mm", "900"));
        assert_eq!(told("a_deg: 2.5|°)"), with_unit("2.5°", "2.5"));
        assert_eq!(told("a_mm: 6,5|,"), with_comma("6,5"));
        assert_eq!(told("a_mm: 7,000|,"), with_comma("7,000"));
    }

    #[test]
    fn other_places_are_no_slips() {
        for text in [
            "|",
            "a|",
            "a: 5|",
            "a: 5|,",
            "a: 5|\n b: 6",
            "mark7 |b",
            "a: 5 |// note",
            "(1, |2)",
            "\"7\" |mm",
        ] {
            assert_eq!(check(text), None, "{text}");
        }
    }
}
