//! The drawings' font and the widths of its letters.
//!
//! Inter, SIL Open Font License 1.1; how the files were made is in `fonts/README.md`, the licence in `fonts/OFL.txt`.
//! Figures have tabular widths. Pairs are not kerned: the widths are plain sums, so any program gets the same ones.

use std::sync::OnceLock;

use crate::text::{TextStyle, Weight};

/// The font's name, as pictures ask for it.
pub const FAMILY: &str = "Inter";
/// The regular font file.
pub const FONT_REGULAR: &[u8] = include_bytes!("../fonts/Inter-Regular.otf");
/// The semi-bold font file.
pub const FONT_SEMI_BOLD: &[u8] = include_bytes!("../fonts/Inter-SemiBold.otf");
/// The bold font file.
pub const FONT_BOLD: &[u8] = include_bytes!("../fonts/Inter-Bold.otf");
/// The font's licence, to be shown with it.
pub const LICENCE: &str = include_str!("../fonts/OFL.txt");

/// Width of a letter that the font does not have, as a share of the size: about a capital's.
const OTHER_WIDTH: f64 = 0.65;
/// The same for the scripts of East Asia, whose signs fill a square.
const SQUARE_WIDTH: f64 = 1.0;

/// Width of a text in px. It never fails: letters that the font does not have get a likely width.
pub fn measure(text: &str, style: TextStyle) -> f64 {
    let widths = match style.weight {
        Weight::Regular => REGULAR.get_or_init(|| Widths::of(FONT_REGULAR)),
        Weight::SemiBold => SEMI_BOLD.get_or_init(|| Widths::of(FONT_SEMI_BOLD)),
        Weight::Bold => BOLD.get_or_init(|| Widths::of(FONT_BOLD)),
    };
    text.chars().map(|c| widths.of_letter(c)).sum::<f64>() * style.size
}

static REGULAR: OnceLock<Widths> = OnceLock::new();
static SEMI_BOLD: OnceLock<Widths> = OnceLock::new();
static BOLD: OnceLock<Widths> = OnceLock::new();

/// Widths as shares of the size: the common letters in a table by number, the rest sorted.
struct Widths {
    common: Vec<f64>,
    others: Vec<(char, f64)>,
}

impl Widths {
    const COMMON: u32 = 0x180;

    fn of(file: &'static [u8]) -> Self {
        let mut own: Vec<(char, f64)> = ttf_parser::Face::parse(file, 0)
            .map(|face| {
                let unit = f64::from(face.units_per_em());
                // The blocks that the files were cut to; see fonts/README.md.
                let letters =
                    (0x20..=0x530).chain(0x1e00..=0x1eff).chain(0x2000..=0x2713).filter_map(char::from_u32);
                letters
                    .filter_map(|c| {
                        let advance = face.glyph_hor_advance(face.glyph_index(c)?)?;
                        Some((c, f64::from(advance) / unit))
                    })
                    .collect()
            })
            .unwrap_or_default();
        own.sort_by_key(|&(c, _)| c);
        let find = |c: char| {
            own.binary_search_by_key(&c, |&(c, _)| c).ok().and_then(|i| own.get(i)).map(|&(_, w)| w)
        };
        let common =
            (0..Self::COMMON).map(|n| char::from_u32(n).and_then(find).unwrap_or(OTHER_WIDTH)).collect();
        Self { common, others: own.into_iter().filter(|&(c, _)| u32::from(c) >= Self::COMMON).collect() }
    }

    fn of_letter(&self, c: char) -> f64 {
        if let Some(width) = self.common.get(c as usize) {
            return *width;
        }
        let found = self.others.binary_search_by_key(&c, |&(c, _)| c).ok();
        found.and_then(|i| self.others.get(i)).map_or_else(|| likely(c), |&(_, width)| width)
    }
}

fn likely(c: char) -> f64 {
    if matches!(u32::from(c), 0x1100..=0x11ff | 0x2e80..=0xd7ff | 0xf900..=0xfaff | 0xff00..=0xff60 | 0x1f000..)
    {
        SQUARE_WIDTH
    } else {
        OTHER_WIDTH
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const STYLES: [TextStyle; 3] = [
        TextStyle::new(11.5, Weight::Regular),
        TextStyle::new(11.5, Weight::SemiBold),
        TextStyle::new(26.0, Weight::Bold),
    ];

    #[test]
    fn figures_are_tabular() {
        for style in STYLES {
            let eight = measure("8", style);
            for figure in "0123456789".chars() {
                let width = measure(&figure.to_string(), style);
                // The semi-bold and bold files differ by at most 5 of 2816 units.
                assert!((width - eight).abs() < 0.002 * style.size, "{figure} {width} {eight}");
            }
        }
    }

    /// The advance widths in the font file's own `hmtx` table, read with fontTools: figures 1824 of 2816 units.
    #[test]
    fn widths_are_the_files_own() {
        let style = TextStyle::new(2816.0, Weight::Regular);
        assert_eq!(measure("0000", style), 4.0 * 1824.0);
    }

    #[test]
    fn bolder_is_wider_and_unknown_letters_have_a_width() {
        let widths = STYLES.map(|style| measure("Space not ready", TextStyle { size: 10.0, ..style }));
        assert!(widths[0] < widths[1] && widths[1] < widths[2], "{widths:?}");
        assert_eq!(measure("漢字", STYLES[0]), 23.0);
        assert!(measure("\u{5d0}\u{10ffff}", STYLES[0]) > 0.0);
        assert_eq!(measure("", STYLES[0]), 0.0);
    }
}
