//! How texts are set: sizes, weights, widths, shortening.

use baywright_planner::geometry::DVec2;

/// How bold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// 400.
    Regular,
    /// 600.
    SemiBold,
    /// 700.
    Bold,
}

/// Height of the drawings' font's capitals and figures as a share of the type's size; the file's own figures.
pub(crate) const CAP_HEIGHT: f64 = 2048.0 / 2816.0;

/// A size and a weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TextStyle {
    /// Height of the type, px.
    pub size: f64,
    /// How bold.
    pub weight: Weight,
}

impl TextStyle {
    /// A style.
    pub const fn new(size: f64, weight: Weight) -> Self {
        Self { size, weight }
    }

    /// How far the baseline lies below the middle of a line of capitals and figures, px.
    pub const fn baseline_below_middle(&self) -> f64 {
        self.size * CAP_HEIGHT * 0.5
    }

    /// The height that a line of it takes, px.
    pub const fn line_height(&self) -> f64 {
        self.size * 1.25
    }
}

/// Which part of a text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Align {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// So far to a side, as a share of its length, a line leads away before the text at its end goes on to that side.
const ASIDE: f64 = 0.3;

impl Align {
    /// Of a text at the end of a line that leads there, a unit vector on the paper.
    pub(crate) fn led(way: DVec2) -> Self {
        if way.x > ASIDE {
            Self::Start
        } else if way.x < -ASIDE {
            Self::End
        } else {
            Self::Middle
        }
    }
}

/// Measures a text in a style, px.
pub type Measure<'a> = &'a dyn Fn(&str, TextStyle) -> f64;

/// The text on one line, without characters that cannot be shown or that reorder what follows.
pub fn clean(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_whitespace() && !matches!(c, '\u{a0}' | '\u{2009}' | '\u{202f}') { ' ' } else { c })
        .filter(|c| !c.is_control() && !matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}'))
        .filter(|c| !matches!(c, '\u{fffe}' | '\u{ffff}'))
        .collect()
}

/// A text and its width, px.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// The text, shortened if need be.
    pub text: String,
    /// Its width.
    pub width: f64,
}

/// The text, or as much of it as fits into `most` px with an ellipsis behind it; `None` if not even three letters do.
pub fn fitted(text: &str, style: TextStyle, most: f64, measure: Measure<'_>) -> Option<Fitted> {
    let text = clean(text);
    let width = measure(&text, style);
    if width <= most {
        return Some(Fitted { text, width });
    }
    // Shorter and shorter by halves: a beginning that fits is never wider than a longer one.
    let ends: Vec<usize> = text.char_indices().map(|(at, _)| at).skip(1).collect();
    let shortened = |letters: usize| {
        let end = letters.checked_sub(1).and_then(|i| ends.get(i)).copied().unwrap_or(0);
        let text = format!("{}…", text.get(..end).unwrap_or("").trim_end());
        let width = measure(&text, style);
        Fitted { text, width }
    };
    let (mut fits, mut too_long) = (LEAST_LETTERS, ends.len());
    let mut best = shortened(fits);
    if best.width > most || ends.len() < LEAST_LETTERS {
        return None;
    }
    while too_long > fits + 1 {
        let letters = (fits + too_long) / 2;
        let candidate = shortened(letters);
        if candidate.width <= most {
            (fits, best) = (letters, candidate);
        } else {
            too_long = letters;
        }
    }
    Some(best)
}

/// A name cut to fewer letters says nothing.
const LEAST_LETTERS: usize = 3;

#[cfg(test)]
mod tests {
    use super::*;

    const STYLE: TextStyle = TextStyle::new(10.0, Weight::Regular);

    fn ten_each(text: &str, _: TextStyle) -> f64 {
        10.0 * text.chars().count() as f64
    }

    #[test]
    fn short_texts_stay_and_long_ones_end_in_an_ellipsis() {
        let fit = |text, most| fitted(text, STYLE, most, &ten_each).map(|f| f.text);
        assert_eq!(fit("cabinet", 70.0).as_deref(), Some("cabinet"));
        assert_eq!(fit("cabinet", 69.0).as_deref(), Some("cabin…"));
        assert_eq!(fit("tool cabinet", 60.0).as_deref(), Some("tool…"), "no space before the ellipsis");
        assert_eq!(fit("cabinet", 40.0).as_deref(), Some("cab…"));
        assert_eq!(fit("cabinet", 39.0), None);
        assert_eq!(fit("шкаф инструментальный", 80.0).as_deref(), Some("шкаф ин…"));
    }

    #[test]
    fn what_cannot_be_shown_is_taken_out() {
        assert_eq!(clean("a\nb\tc\u{0}d\u{202e}e"), "a b cde");
        assert_eq!(clean("3\u{202f}600"), "3\u{202f}600");
    }
}
