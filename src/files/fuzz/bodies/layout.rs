//! Any bytes as a bay layout: an answer, never a panic; what can be read can be written, and reads back the same, and what is
//! asked of it with a shipped car is answered with work and words that are bounded by what was given.

use baywright_files::{EMBEDDED_PROFILES, FileFault, layout_text, parse_layout, parse_profile};
use baywright_planner::model::{Layout, Vehicle};
use baywright_planner::words::Language;
use baywright_planner::{Assessment, assess};

/// Asks of these bytes all that is promised; whether they are a layout.
pub fn ask(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    match parse_layout("fuzz.ron", "fuzz", &text) {
        Ok(layout) => {
            let written = layout_text(&layout).expect("what was read can be written");
            assert!(written.len() <= most_written(text.len()), "{} bytes of {}", written.len(), text.len());
            let again = parse_layout("fuzz.ron", "fuzz", &written).expect("what was written can be read");
            assert_eq!(layout, again);
            assessed(&layout);
            true
        }
        Err(faults) => {
            said(&faults, text.len());
            false
        }
    }
}

/// A field has its name, and a number all its digits: no more comes of a byte than this.
const fn most_written(given: usize) -> usize {
    60 * given + 2_000
}

/// Faults are sentences, and of any number of them a person is told some.
fn said(faults: &[FileFault], given: usize) {
    assert!(faults.iter().all(|fault| Language::English.file_fault(fault).ends_with('.')));
    assert!(
        !faults.is_empty() && faults.len() <= 2 * given + 100,
        "{} faults of {given} bytes",
        faults.len()
    );
}

/// Every arrangement, with whichever shipped car it fits.
fn assessed(layout: &Layout) {
    for (car, fingerprint) in cars() {
        for saved in &layout.arrangements {
            if let Ok(arrangement) = layout.resolve(saved, car, fingerprint, None) {
                let bay = &arrangement.bay;
                let entries = bay.things.len()
                    + bay.openings.len()
                    + bay.floor_features.len()
                    + bay.runways.len()
                    + bay.keep_free.len()
                    + bay.marks.len()
                    + bay.walls.len();
                bounded(&assess(&arrangement), entries);
            }
        }
    }
}

/// The shipped cars, each with its fingerprint, read once.
fn cars() -> &'static [(Vehicle, String)] {
    static CARS: std::sync::OnceLock<Vec<(Vehicle, String)>> = std::sync::OnceLock::new();
    CARS.get_or_init(|| {
        let read = |own: &baywright_files::Embedded| parse_profile(&own.label(), own.name, own.text).ok();
        EMBEDDED_PROFILES.iter().filter_map(read).map(|own| (own.vehicle, own.fingerprint)).collect()
    })
}

/// How much is found of so many entries, and how often a cure is looked for and how much is said of what it leads to: counts,
/// which are the same on every machine.
fn bounded(assessment: &Assessment, entries: usize) {
    let findings = assessment.findings.len();
    assert!(findings <= 16 * entries + 200, "{findings} findings of {entries} entries");
    let cures = assessment.findings.iter().filter_map(|finding| finding.cure.as_ref());
    let causes: usize = cures.map(|cure| cure.causes.len()).sum();
    assert!(causes <= 40 * 60, "{causes} consequences");
}
