//! Any bytes as a vehicle profile: an answer, never a panic; what can be read can be written, and reads back the same.

use baywright_files::{draft_text, parse_draft, parse_profile, profile_text};
use baywright_planner::words::Language;

/// Asks of these bytes all that is promised; whether they could be read.
pub fn ask(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    // As the journal has a car that is still being entered.
    if let Ok(car) = parse_draft("fuzz.ron", "fuzz", &text) {
        let written = draft_text(&car).expect("what was read can be written");
        // By its text: what is no number does not equal itself.
        let again = parse_draft("fuzz.ron", "fuzz", &written).expect("what was written can be read");
        assert_eq!(written, draft_text(&again).expect("and written again"));
    }
    match parse_profile("fuzz.ron", "fuzz", &text) {
        Ok(profile) => {
            let written = profile_text(&profile.vehicle).expect("what was read can be written");
            let again = parse_profile("fuzz.ron", "fuzz", &written).expect("what was written can be read");
            assert_eq!(profile.vehicle, again.vehicle);
            true
        }
        Err(faults) => {
            assert!(faults.iter().all(|fault| Language::English.file_fault(fault).ends_with('.')));
            false
        }
    }
}
