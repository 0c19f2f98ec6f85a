//! Licence texts of what is inside the program.

use baywright_drawing::font;

/// All of them, one after another.
pub fn text() -> String {
    format!(
        "The typeface Inter, cut to the letters that are used:\n\n{}\n\n{}\n\n{}",
        font::LICENCE.trim(),
        OTHER_FONTS,
        CRATES.trim()
    )
}

/// Letters and signs that Inter lacks come from the fonts that the screen's library brings.
const OTHER_FONTS: &str = "Letters that Inter lacks are set in Ubuntu Light (Ubuntu Font Licence 1.0), Hack (MIT and \
                           Bitstream Vera licences), Noto Emoji (SIL Open Font Licence 1.1) and emoji-icon-font (MIT), as \
                           the library epaint_default_fonts carries them.";

/// Every library that is linked in, with its licence; made by the test that holds it to the lock file.
const CRATES: &str = include_str!("../licences.txt");
