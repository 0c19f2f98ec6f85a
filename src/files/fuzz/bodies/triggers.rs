//! Any bytes as a list of what asks for aimings: an answer, never a panic; what can be read can be written, and reads back
//! the same.

use baywright_files::{parse_triggers, triggers_text};
use baywright_planner::words::Language;

/// Asks of these bytes all that is promised; whether they could be read.
pub fn ask(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    match parse_triggers("fuzz.ron", &text) {
        Ok(list) => {
            let written = triggers_text(&list).expect("what was read can be written");
            let again = parse_triggers("fuzz.ron", &written).expect("what was written can be read");
            assert_eq!(list, again);
            true
        }
        Err(faults) => {
            assert!(faults.iter().all(|fault| Language::English.file_fault(fault).ends_with('.')));
            false
        }
    }
}
