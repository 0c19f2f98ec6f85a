//! Any bytes as a picture: a picture within bounds or a sentence, never a panic.
#![no_main]

use baywright_files::{MOST_PX_SHOWN, decode_picture};
use baywright_planner::words::Language;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| match decode_picture("fuzz.png", bytes) {
    Ok(picture) => {
        assert!(picture.width.max(picture.height) <= MOST_PX_SHOWN);
        assert_eq!(picture.rgba.len() as u64, u64::from(picture.width) * u64::from(picture.height) * 4);
    }
    Err(fault) => assert!(Language::English.file_fault(&fault).ends_with('.')),
});
