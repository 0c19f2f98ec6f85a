//! The chain: each hash is that of the one before and of what was said. It shows that something was changed, not who changed it: whoever
//! makes the file anew makes a new chain, which is why the last hash is printed on paper.

use baywright_planner::model::record::ChainBreak;
use ron::ser::PrettyConfig;
use serde::Serialize;
use sha2::{Digest, Sha256};

use super::file::RecordFile;
use crate::parse::options;
use crate::spot;

/// What stands for the hash before the first.
const NOTHING_BEFORE: &str = "0000000000000000000000000000000000000000000000000000000000000000";

/// A SHA-256 in small hexadecimal digits (FIPS 180-4).
pub fn sha256(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes))
}

pub fn hex(digest: &[u8]) -> String {
    use std::fmt::Write;
    digest.iter().fold(String::with_capacity(64), |mut text, byte| {
        // Writing into a text does not fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// What was said as it is hashed, which is also how it stands in the file: one line, a blank after each comma and colon, figures to a
/// millionth. How a file is laid out, and comments in it, do not count.
pub fn canonical(said: &impl Serialize) -> String {
    let line = PrettyConfig::new().depth_limit(0).struct_names(false);
    // Writing plain records to memory does not fail; an empty text would be a hash that is found wrong.
    options().to_string_pretty(said, line).unwrap_or_default()
}

/// The hash of what was said after another: of that one's 64 digits, a line break, and what was said.
pub fn next(before: Option<&str>, said: &impl Serialize) -> String {
    sha256(format!("{}\n{}", before.unwrap_or(NOTHING_BEFORE), canonical(said)).as_bytes())
}

/// The first that does not follow; `text` is the file's, for its line.
pub fn broken(file: &RecordFile, text: &str) -> Option<ChainBreak> {
    let line = |field: &str| spot::find(text, field).map(|(line, _)| line);
    if next(None, &file.begun.said) != file.begun.hash {
        return Some(ChainBreak { nth: None, line: line("begun.said") });
    }
    let mut before = file.begun.hash.as_str();
    for (nth, entry) in file.entries.iter().enumerate() {
        if next(Some(before), &entry.said) != entry.hash {
            return Some(ChainBreak { nth: Some(nth), line: line(&format!("entries[{nth}].said")) });
        }
        before = &entry.hash;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST, "Examples with Intermediate Values" for SHA-256 (FIPS 180-4): one block, two blocks; and from the byte-oriented test
    /// vectors of the same (SHAVS) the empty message.
    #[test]
    fn published_digests() {
        assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_eq!(
            sha256(b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"
        );
        assert_eq!(sha256(b""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
        assert_eq!(
            sha256(&vec![b'a'; 1_000_000]),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"
        );
    }
}
