//! Any bytes as a shop's settings: an answer, never a panic; what can be read can be written, and reads back
//! the same.
#![no_main]

use baywright_files::{parse_shop, shop_text};
use baywright_planner::words::Language;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let text = String::from_utf8_lossy(bytes);
    match parse_shop("fuzz.ron", &text) {
        Ok(shop) => {
            let written = shop_text(&shop).expect("what was read can be written");
            let again = parse_shop("fuzz.ron", &written).expect("what was written can be read");
            assert_eq!(shop, again);
        }
        Err(faults) => assert!(faults.iter().all(|fault| Language::English.file_fault(fault).ends_with('.'))),
    }
});
