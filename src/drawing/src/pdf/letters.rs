//! Letters as the font has them, one after the other at the widths that they were measured with.

use std::sync::OnceLock;

use krilla::text::{Font, GlyphId, KrillaGlyph};

use crate::font::{self, FONT_BOLD, FONT_REGULAR, FONT_SEMI_BOLD};
use crate::text::{TextStyle, Weight};

/// What stands for a letter that the font does not have; the text itself keeps the letter.
const STAND_IN: char = '\u{25a1}';

/// The font of a weight; `None` only if its file cannot be read, which a test rules out.
pub(super) fn font(weight: Weight) -> Option<Font> {
    static FONTS: OnceLock<[Option<Font>; 3]> = OnceLock::new();
    let fonts = FONTS.get_or_init(|| {
        [FONT_REGULAR, FONT_SEMI_BOLD, FONT_BOLD].map(|file| Font::new(krilla::Data::from(file), 0))
    });
    let [regular, semi_bold, bold] = fonts;
    match weight {
        Weight::Regular => regular.clone(),
        Weight::SemiBold => semi_bold.clone(),
        Weight::Bold => bold.clone(),
    }
}

/// A text's letters with their widths, as shares of the size.
pub(super) fn glyphs(text: &str, style: TextStyle) -> Vec<KrillaGlyph> {
    let file = match style.weight {
        Weight::Regular => FONT_REGULAR,
        Weight::SemiBold => FONT_SEMI_BOLD,
        Weight::Bold => FONT_BOLD,
    };
    let Ok(face) = ttf_parser::Face::parse(file, 0) else { return Vec::new() };
    let of = |letter: char| {
        face.glyph_index(letter).or_else(|| face.glyph_index(STAND_IN)).or_else(|| face.glyph_index('?'))
    };
    let one = TextStyle::new(1.0, style.weight);
    let letters = text.char_indices().filter_map(|(at, letter)| {
        let end = at + letter.len_utf8();
        let wide = font::measure(text.get(at..end)?, one);
        let own = GlyphId::new(u32::from(of(letter)?.0));
        Some(KrillaGlyph::new(own, wide as f32, 0.0, 0.0, 0.0, at..end, None))
    });
    letters.collect()
}
