//! Whether a file on disk is still the one that was read or written.

use std::hash::{DefaultHasher, Hasher};
use std::io::Read;
use std::path::Path;

use crate::text::LARGEST_FILE;

/// What a file held at one moment: enough to notice that someone else changed it. Good within one run of the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DiskMark(Option<u64>);

impl DiskMark {
    /// The mark of what a file holds now; a file that is not there, or cannot be read, has a mark of its own.
    pub fn of(path: &Path) -> Self {
        let fits = std::fs::metadata(path).is_ok_and(|about| about.is_file() && about.len() <= LARGEST_FILE);
        // Bounded also if it grows in the meantime.
        let read = || {
            let mut bytes = Vec::new();
            std::fs::File::open(path)?.take(LARGEST_FILE).read_to_end(&mut bytes)?;
            std::io::Result::Ok(bytes)
        };
        let bytes = if fits { read().ok() } else { None };
        Self(bytes.map(|bytes| {
            let mut hasher = DefaultHasher::new();
            hasher.write(&bytes);
            hasher.finish()
        }))
    }

    /// Whether there was a file that could be read.
    pub const fn is_there(self) -> bool {
        self.0.is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_is_noticed() {
        let path = std::env::temp_dir().join(format!("baywright-mark-{}.ron", std::process::id()));
        let none = DiskMark::of(&path);
        assert!(!none.is_there());
        std::fs::write(&path, "a").unwrap();
        let first = DiskMark::of(&path);
        assert!(first.is_there() && first != none && first == DiskMark::of(&path));
        std::fs::write(&path, "b").unwrap();
        assert_ne!(first, DiskMark::of(&path));
        std::fs::remove_file(&path).unwrap();
        assert_eq!(none, DiskMark::of(&path));
    }
}
