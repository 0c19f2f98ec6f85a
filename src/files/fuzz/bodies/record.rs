//! Any bytes as the record of a visit: an answer, never a panic; what can be read can be written, and reads back the same, its chain as whole
//! or as broken as it was.

use baywright_files::{parse_record, record_json, record_text};
use baywright_planner::words::Language;

/// Asks of these bytes all that is promised; whether they are a record whose chain holds.
pub fn ask(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    match parse_record("fuzz.visit.ron", &text) {
        Ok(kept) => {
            let written = record_text(&kept).expect("what was read can be written");
            // Each entry has its hash and its names beside what was given.
            let most = 2_000 + 400 * kept.record().entries.len() + 12 * bytes.len();
            assert!(written.len() <= most, "{} bytes", written.len());
            let again = parse_record("fuzz.visit.ron", &written).expect("what was written can be read");
            assert_eq!((again.record(), again.head()), (kept.record(), kept.head()));
            assert_eq!(again.broken().map(|own| own.nth), kept.broken().map(|own| own.nth));
            assert!(record_json(&kept).is_ok());
            kept.broken().is_none()
        }
        Err(faults) => {
            assert!(!faults.is_empty() && faults.len() <= 51, "{} faults", faults.len());
            assert!(faults.iter().all(|fault| Language::English.file_fault(fault).ends_with('.')));
            false
        }
    }
}
