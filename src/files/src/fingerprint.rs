//! A short mark of a profile's content, by which a layout notices that it changed.

use baywright_planner::model::Vehicle;

use crate::parse::options;
use crate::profile;

/// Sixteen hexadecimal digits made from everything that a profile says: its figures as they are written to files.
/// Comments, blanks and the order of fields do not count; figures that are assumed from the class do not count either,
/// since the profile does not say them. It guards against a changed file, not against malice.
pub fn fingerprint(vehicle: &Vehicle) -> String {
    // Writing plain records to memory does not fail; if it did, the empty text would match no remembered mark.
    // The mark is of what is said, not of the format that says it: layouts remember marks from version 1 on.
    let file = profile::ProfileFile { version: 1, ..profile::file_of(vehicle) };
    let file = profile::SecondProfileFile::from(file);
    let content = options().to_string(&file).unwrap_or_default();
    format!("{:016x}", fnv1a(content.as_bytes()))
}

/// The 64-bit FNV-1a hash (Fowler, Noll, Vo; offset basis and prime from memory of the published constants, held by
/// the published test values below).
pub fn fnv1a(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, &byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Values of the authors' test suite (from memory).
    #[test]
    fn published_values() {
        assert_eq!(fnv1a(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fnv1a(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv1a(b"foobar"), 0x8594_4171_f739_67e8);
    }
}
