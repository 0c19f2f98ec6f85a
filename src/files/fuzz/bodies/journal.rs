//! Any bytes as the journal of a dead session: what can be read of it is listed and can be forgotten, never a panic.

use baywright_files::{LARGEST_FILE, left_behind};

/// Asks of these bytes all that is promised; whether a work could be read.
pub fn ask(bytes: &[u8]) -> bool {
    let folder = std::env::temp_dir().join(format!("baywright-fuzz-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let path = folder.join("1-1.journal");
    std::fs::write(&path, bytes).expect("a file");
    let found = left_behind(&folder);
    for aside in &found.not_understood {
        assert!(std::fs::read(aside).is_ok_and(|kept| kept == bytes), "kept as it was");
        std::fs::remove_file(aside).expect("a file");
    }
    let is_found = !found.works.is_empty();
    for left in found.works {
        assert!(left.record.text.len() as u64 <= LARGEST_FILE);
        left.forget().expect("what was found can be forgotten");
    }
    assert!(!path.exists(), "what is settled is swept away");
    is_found
}
