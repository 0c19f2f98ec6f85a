//! Any bytes as a shop's settings: an answer, never a panic; what can be read can be written, and reads back the same. What is
//! written holds every setting once, however much was given.

use baywright_files::{parse_shop, shop_text};
use baywright_planner::model::{ShopFigure, WorkStep};
use baywright_planner::words::Language;

/// Asks of these bytes all that is promised; whether they are settings.
pub fn ask(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    match parse_shop("fuzz.ron", &text) {
        Ok(shop) => {
            let written = shop_text(&shop).expect("what was read can be written");
            // A name and a path may be as long as they were given, each letter written as an escape at most.
            let face = [&shop.face.name, &shop.face.picture].map(|own| own.as_ref().map_or(0, String::len));
            // What is listed of instruments is as long as what was given of them, but for its lines.
            let listed =
                if shop.instruments.is_empty() { 0 } else { 600 * shop.instruments.len() + 10 * text.len() };
            let most = 900 + 200 * ShopFigure::ALL.len() + 10 * face.iter().sum::<usize>() + listed;
            assert!(written.len() <= most, "{} bytes", written.len());
            let again = parse_shop("fuzz.ron", &written).expect("what was written can be read");
            assert_eq!(shop, again);
            true
        }
        Err(faults) => {
            assert!(faults.iter().all(|fault| Language::English.file_fault(fault).ends_with('.')));
            // One of each setting, one of each two that do not fit together, or one of the text.
            assert!(
                !faults.is_empty()
                    && faults.len()
                        <= 2 * ShopFigure::ALL.len()
                            + 2
                            + WorkStep::ALL.len()
                            + text.matches("name").count() * 8,
                "{} faults",
                faults.len()
            );
            false
        }
    }
}
