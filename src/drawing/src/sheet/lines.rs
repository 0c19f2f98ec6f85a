//! Sizes of type on a sheet, and texts broken into lines of them.

use crate::lettering::Lettering;
use crate::list::PX_PER_PAPER_MM;
use crate::page::wrap::unbroken;
use crate::text::{CAP_HEIGHT, TextStyle, Weight, clean};

/// Heights of capitals, mm, of the steps of ISO 3098 (from memory): what is read while working, from an arm's length; what else is
/// read; a sheet's own title.
pub(super) const WORK_MM: f64 = 3.5;
pub(super) const READ_MM: f64 = 2.5;
pub(super) const TITLE_MM: f64 = 5.0;
/// A row that is written in by hand, mm.
pub(super) const WRITTEN_MM: f64 = 7.4;
/// From line to line, as a share of the type's size.
pub(super) const PITCH: f64 = 1.28;

/// A style whose capitals are so high, mm, before it is enlarged as wished.
pub(super) fn style(lettering: &Lettering<'_>, capitals_mm: f64, weight: Weight) -> TextStyle {
    TextStyle::new(capitals_mm * PX_PER_PAPER_MM / CAP_HEIGHT * lettering.enlarged(), weight)
}

/// From line to line, px.
pub(super) const fn pitch(style: TextStyle) -> f64 {
    style.size * PITCH
}

/// A text in lines of at most so many px. Nothing is cut: what is wider than a line is broken.
pub(super) fn lines(text: &str, style: TextStyle, most: f64, lettering: &Lettering<'_>) -> Vec<String> {
    let fits = |text: &str| lettering.width_of(text, style) <= most;
    let mut parts: Vec<String> = Vec::new();
    for part in unbroken(&clean(text)) {
        if fits(&part) {
            parts.push(part);
        } else {
            // What should stand together, or a long name, in as many parts as it takes.
            part.split(' ').for_each(|word| parts.extend(broken(word, fits)));
        }
    }
    let mut all: Vec<String> = Vec::new();
    for part in parts {
        match all.last_mut() {
            Some(line) if fits(&format!("{line} {part}")) => {
                line.push(' ');
                line.push_str(&part);
            }
            _ => all.push(part),
        }
    }
    all
}

/// A word, in parts that fit if it does not.
fn broken(word: &str, fits: impl Fn(&str) -> bool) -> Vec<String> {
    let mut parts = vec![String::new()];
    for letter in word.chars() {
        let Some(part) = parts.last_mut() else { break };
        part.push(letter);
        if !fits(part) && part.chars().count() > 1 {
            part.pop();
            parts.push(letter.to_string());
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_cut_and_nothing_is_too_wide() {
        let lettering = Lettering::default();
        let style = style(&lettering, READ_MM, Weight::Regular);
        let text = format!("Move {} by 250 mm", "W".repeat(60));
        for most in [20.0, 60.0, 100.0, 300.0] {
            let lines = lines(&text, style, most, &lettering);
            assert!(lines.iter().all(|line| lettering.width_of(line, style) <= most), "{lines:?}");
            let whole: String = lines.concat().replace(' ', "");
            assert_eq!(whole, text.replace(' ', ""), "{most}");
        }
    }
}
