//! Any bytes as a bay layout: an answer, never a panic; what can be read can be written, and reads back the same, and what is
//! asked of it with a shipped car is answered within the time and the memory that the fuzzer allows one input.
#![no_main]

use baywright_files::{EMBEDDED_PROFILES, layout_text, parse_layout, parse_profile};
use baywright_planner::assess;
use baywright_planner::model::Layout;
use baywright_planner::words::Language;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let text = String::from_utf8_lossy(bytes);
    match parse_layout("fuzz.ron", "fuzz", &text) {
        Ok(layout) => {
            let written = layout_text(&layout).expect("what was read can be written");
            let again = parse_layout("fuzz.ron", "fuzz", &written).expect("what was written can be read");
            assert_eq!(layout, again);
            assessed(&layout);
        }
        Err(faults) => assert!(faults.iter().all(|fault| Language::English.file_fault(fault).ends_with('.'))),
    }
});

/// Every arrangement, with whichever shipped car it fits.
fn assessed(layout: &Layout) {
    let cars = EMBEDDED_PROFILES.iter().filter_map(|own| parse_profile(&own.label(), own.name, own.text).ok());
    for car in cars {
        for saved in &layout.arrangements {
            if let Ok(arrangement) = layout.resolve(saved, &car.vehicle, &car.fingerprint, None) {
                let _ = assess(&arrangement);
            }
        }
    }
}
