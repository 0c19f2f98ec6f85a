//! Whether a file on disk is still the one that was read or written.

use std::io::Read;
use std::path::Path;

use serde::{Deserialize, Serialize};

use crate::fingerprint::fnv1a;
use crate::text::LARGEST_FILE;

/// What a file held at one moment: enough to notice that someone else changed it. It stands in the recovery journal too, so
/// it is the same in every run and every version of the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum DiskMark {
    /// There was no file, or none that could be read.
    NotThere,
    /// A file that held bytes of this hash.
    Holds(u64),
}

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
        bytes.map_or(Self::NotThere, |bytes| Self::of_bytes(&bytes))
    }

    /// The mark of a file that holds just these bytes.
    pub fn of_bytes(bytes: &[u8]) -> Self {
        Self::Holds(fnv1a(bytes))
    }

    /// Whether there was a file that could be read.
    pub const fn is_there(self) -> bool {
        matches!(self, Self::Holds(_))
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
        assert_eq!(first, DiskMark::of_bytes(b"a"));
        std::fs::write(&path, "b").unwrap();
        assert_ne!(first, DiskMark::of(&path));
        std::fs::remove_file(&path).unwrap();
        assert_eq!(none, DiskMark::of(&path));
    }
}
