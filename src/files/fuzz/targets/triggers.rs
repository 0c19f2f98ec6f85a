//! Any bytes as a list of what asks for aimings: an answer, never a panic; what can be read can be written, and reads back
//! the same.
#![no_main]

use baywright_files::{parse_triggers, triggers_text};
use baywright_planner::words::Language;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let text = String::from_utf8_lossy(bytes);
    match parse_triggers("fuzz.ron", &text) {
        Ok(list) => {
            let written = triggers_text(&list).expect("what was read can be written");
            let again = parse_triggers("fuzz.ron", &written).expect("what was written can be read");
            assert_eq!(list, again);
        }
        Err(faults) => assert!(faults.iter().all(|fault| Language::English.file_fault(fault).ends_with('.'))),
    }
});
