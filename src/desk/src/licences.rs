//! Licence texts of what is inside the program.

use baywright_drawing::font;
use baywright_planner::words::Language;

/// All of them, one after another. Letters and signs that the typeface lacks come from the fonts that the screen's library
/// brings.
pub fn text(language: Language) -> String {
    let texts = language.command_line();
    let typeface = font::LICENCE.trim();
    format!("{}\n\n{typeface}\n\n{}\n\n{}", texts.typeface, texts.other_fonts, CRATES.trim())
}

/// Every library that is linked in, with its licence; made by the test that holds it to the lock file.
const CRATES: &str = include_str!("../licences.txt");
