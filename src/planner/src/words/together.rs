//! What of a text stands on one line, whoever breaks it.

/// Units that stay on the line of their number.
const UNITS: [&str; 11] = ["mm", "m", "cm", "ft", "in", "%", "dBsm", "\u{b0}", "min", "s", "kg"];
const FEET: char = '\u{2032}';
const INCHES: char = '\u{2033}';
const TIMES: char = '\u{d7}';
const ACROSS: char = '\u{d8}';

/// Before how far off a figure may be.
const WITHIN: char = '±';

/// Whether a text is not broken between two of its words: a number keeps its unit, what it may be off its sign, a size its sides, feet their inches, inches
/// their fraction. `before` may be all that stands together up to there.
pub fn stand_together(before: &str, after: &str) -> bool {
    let Some(last) = before.chars().last() else { return false };
    let Some(next) = after.chars().next() else { return false };
    let unit = after.trim_end_matches([',', '.', ':', ';', ')', '?', '!', '\u{201d}', '\u{201c}']);
    let begins_figure = next.is_ascii_digit() || is_fraction(next);
    match last {
        FEET if begins_figure => true,
        TIMES | ACROSS | WITHIN => begins_figure,
        _ if after == "\u{d7}" => last.is_ascii_digit() || is_fraction(last) || matches!(last, FEET | INCHES),
        _ => last.is_ascii_digit() && (UNITS.contains(&unit) || is_fraction(next)),
    }
}

/// Whether a fraction as it is set begins with this: one character, or the first of the raised figures.
const fn is_fraction(letter: char) -> bool {
    matches!(letter, '\u{bc}'..='\u{be}' | '\u{b9}' | '\u{b2}' | '\u{b3}' | '\u{2070}'..='\u{2079}' | '\u{215b}'..='\u{215e}')
}

#[cfg(test)]
mod tests {
    use super::stand_together;

    /// A text with a bar where it may be broken.
    fn broken(text: &str) -> String {
        let mut out = String::new();
        for word in text.split(' ') {
            if !out.is_empty() {
                let last = out.rsplit('|').next().unwrap();
                out.push(if stand_together(last, word) { ' ' } else { '|' });
            }
            out.push_str(word);
        }
        out
    }

    #[test]
    fn a_number_keeps_its_unit_and_a_size_its_sides() {
        assert_eq!(broken("by 250 mm, limit 0 %"), "by|250 mm,|limit|0 %");
        assert_eq!(broken("a plate, 500 \u{d7} 500 mm, clean"), "a|plate,|500 \u{d7} 500 mm,|clean");
        assert_eq!(
            broken("5\u{2032} 6 \u{bd}\u{2033} \u{d7} 3 \u{b3}\u{2044}\u{2081}\u{2086}\u{2033} wide"),
            "5\u{2032} 6 \u{bd}\u{2033} \u{d7} 3 \u{b3}\u{2044}\u{2081}\u{2086}\u{2033}|wide"
        );
        assert_eq!(broken("\u{d8} 120 mm of steel"), "\u{d8} 120 mm|of|steel");
        assert_eq!(broken("14\u{2032} long, 12 things made there"), "14\u{2032}|long,|12|things|made|there");
    }
}
