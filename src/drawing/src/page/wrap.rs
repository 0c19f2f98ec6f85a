//! Breaks texts into lines.

use baywright_planner::words::stand_together;

use crate::lettering::Lettering;
use crate::text::{TextStyle, fitted};

/// Breaks a text into lines; the last of `most_lines` ends in an ellipsis if there is more.
pub(crate) fn wrapped(
    text: &str,
    style: TextStyle,
    most: f64,
    most_lines: usize,
    lettering: &Lettering<'_>,
) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let parts = unbroken(text);
    let mut words = parts.iter().map(String::as_str).peekable();
    while words.peek().is_some() && lines.len() + 1 < most_lines {
        let mut line = String::new();
        while let Some(word) = words.peek() {
            let longer = if line.is_empty() { (*word).to_owned() } else { format!("{line} {word}") };
            if !line.is_empty() && lettering.width_of(&longer, style) > most {
                break;
            }
            line = longer;
            words.next();
        }
        lines.push(line);
    }
    let rest: Vec<&str> = words.collect();
    if !rest.is_empty() {
        lines.push(rest.join(" "));
    }
    lines.iter().filter_map(|line| Some(fitted(line, style, most, lettering.measure)?.text)).collect()
}

/// The words of a text; what stands together, as a number and its unit, is one word.
pub(crate) fn unbroken(text: &str) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match parts.last_mut() {
            Some(last) if stand_together(last, word) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => parts.push(word.to_owned()),
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::Weight;

    #[test]
    fn a_number_keeps_its_unit() {
        assert_eq!(unbroken("by 250 mm, limit 0 %"), ["by", "250 mm,", "limit", "0 %"]);
        assert_eq!(unbroken("2 m of 12 things in it"), ["2 m", "of", "12", "things", "in", "it"]);
        let style = TextStyle::new(13.0, Weight::Regular);
        for most in 60..300 {
            let lines = wrapped(
                "Move it by 250 mm to 1 200 mm, 30 % of it",
                style,
                f64::from(most),
                9,
                &Lettering::default(),
            );
            assert!(lines.iter().skip(1).all(|l| !l.starts_with("mm") && !l.starts_with('%')), "{lines:?}");
        }
    }
}
