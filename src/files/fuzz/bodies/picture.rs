//! Any bytes as a picture: a picture within bounds or a sentence, never a panic.

use baywright_files::{MOST_PX_SHOWN, decode_picture};
use baywright_planner::words::Language;

/// Asks of these bytes all that is promised; whether they are a picture.
pub fn ask(bytes: &[u8]) -> bool {
    match decode_picture("fuzz.png", bytes) {
        Ok(picture) => {
            assert!(picture.width.max(picture.height) <= MOST_PX_SHOWN);
            let pixels = u64::from(picture.width) * u64::from(picture.height);
            assert_eq!(picture.rgba.len() as u64, pixels * 4);
            true
        }
        Err(fault) => {
            assert!(Language::English.file_fault(&fault).ends_with('.'));
            false
        }
    }
}
