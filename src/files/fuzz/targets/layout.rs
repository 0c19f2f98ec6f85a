//! Any bytes as a bay layout: an answer, never a panic; what can be read can be written, and reads back the same.
#![no_main]

use baywright_files::{layout_text, parse_layout};
use baywright_planner::words::Language;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let text = String::from_utf8_lossy(bytes);
    match parse_layout("fuzz.ron", "fuzz", &text) {
        Ok(layout) => {
            let written = layout_text(&layout).expect("what was read can be written");
            let again = parse_layout("fuzz.ron", "fuzz", &written).expect("what was written can be read");
            assert_eq!(layout, again);
        }
        Err(faults) => assert!(faults.iter().all(|fault| Language::English.file_fault(fault).ends_with('.'))),
    }
});
