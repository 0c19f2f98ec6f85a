//! How a record lies in the journal's bytes, and how whole records are found among anything else.
//!
//! A record is a mark of four bytes, the length and the checksum of what follows, a checksum of these twelve, and then
//! a head of one line in JSON and the text as it is. Two bytes of the mark never occur in UTF-8, so no text can be taken
//! for a record.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::io;

use serde::{Deserialize, Serialize};

use super::{Record, Work};
use crate::disk_mark::DiskMark;
use crate::text::LARGEST_FILE;

const MARK: [u8; 4] = [0xF7, b'B', b'J', 0xFB];
const BEFORE: usize = 16;

/// A head is a name, a path and a few numbers: more is no head.
const LARGEST_HEAD: usize = 64 * 1024;

/// What can be written into a journal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Entry {
    /// The state of a work.
    Work(Record),
    /// The work of this number needs no recovery any more.
    Settled(u32),
}

impl Entry {
    /// Which work it is about.
    pub const fn number(&self) -> u32 {
        match self {
            Self::Work(record) => record.number,
            Self::Settled(number) => *number,
        }
    }
}

#[derive(Serialize, Deserialize)]
enum Head {
    Work {
        number: u32,
        kind: Work,
        /// As the system spells it: not every path is text.
        path: Option<OsString>,
        /// Not in the journals of older programs.
        #[serde(default)]
        mark: Option<DiskMark>,
        name: String,
        at: u64,
    },
    Settled {
        number: u32,
    },
}

/// The bytes of a record.
///
/// # Errors
/// The text or its name and path are too large.
pub fn written(entry: &Entry) -> io::Result<Vec<u8>> {
    let (head, text) = match entry {
        Entry::Work(record) => {
            let head = Head::Work {
                number: record.number,
                kind: record.kind,
                path: record.path.clone().map(Into::into),
                mark: record.mark,
                name: record.name.clone(),
                at: record.at,
            };
            (head, record.text.as_str())
        }
        Entry::Settled(number) => (Head::Settled { number: *number }, ""),
    };
    let head = serde_json::to_string(&head)?;
    let too_large = |what: &str| io::Error::new(io::ErrorKind::InvalidInput, format!("{what} is too large"));
    if text.len() as u64 > LARGEST_FILE {
        return Err(too_large("the work"));
    }
    if head.len() >= LARGEST_HEAD {
        return Err(too_large("the name or the path of the work"));
    }
    let payload = [head.as_bytes(), b"\n", text.as_bytes()].concat();
    let length = u32::try_from(payload.len()).map_err(|_| too_large("the work"))?;
    let mut bytes = Vec::with_capacity(BEFORE + payload.len());
    bytes.extend(MARK);
    bytes.extend(length.to_le_bytes());
    bytes.extend(crc32fast::hash(&payload).to_le_bytes());
    bytes.extend(crc32fast::hash(&bytes).to_le_bytes());
    bytes.extend(payload);
    Ok(bytes)
}

/// The last whole record of each work that was not settled, by number. Anything else in the bytes is passed over; the
/// work is in proportion to their number, whatever they are.
pub fn live(bytes: &[u8]) -> BTreeMap<u32, Record> {
    let mut live = BTreeMap::new();
    // Bytes that look like many long records must not be summed up over and over.
    let mut budget = bytes.len().saturating_mul(4);
    let mut rest = bytes;
    while let Some(at) = rest.windows(MARK.len()).position(|window| window == MARK) {
        let (_, from_mark) = rest.split_at(at);
        let Some((entry, length)) = first(from_mark, &mut budget) else {
            rest = from_mark.get(MARK.len()..).unwrap_or_default();
            continue;
        };
        match entry {
            Some(Entry::Work(record)) => {
                live.insert(record.number, record);
            }
            Some(Entry::Settled(number)) => {
                live.remove(&number);
            }
            // Whole, but of a kind that this program does not know.
            None => {}
        }
        rest = from_mark.get(length..).unwrap_or_default();
    }
    live
}

/// The whole record that these bytes start with, and its length.
fn first(bytes: &[u8], budget: &mut usize) -> Option<(Option<Entry>, usize)> {
    let (before, after) = bytes.split_at_checked(BEFORE)?;
    let number = |at: usize| Some(u32::from_le_bytes(before.get(at..at + 4)?.try_into().ok()?));
    let (length, sum, own_sum) = (number(4)? as usize, number(8)?, number(12)?);
    if crc32fast::hash(before.get(..12)?) != own_sum {
        return None;
    }
    let payload = after.get(..length)?;
    *budget = budget.checked_sub(length)?;
    (crc32fast::hash(payload) == sum).then(|| (entry(payload), BEFORE + length))
}

fn entry(payload: &[u8]) -> Option<Entry> {
    let end = payload.iter().take(LARGEST_HEAD).position(|&b| b == b'\n')?;
    let (head, text) = payload.split_at(end);
    Some(match serde_json::from_slice(head).ok()? {
        Head::Work { number, kind, path, mark, name, at } => {
            let text = std::str::from_utf8(text.get(1..)?).ok()?.to_owned();
            Entry::Work(Record { number, kind, path: path.map(Into::into), mark, name, text, at })
        }
        Head::Settled { number } => Entry::Settled(number),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn record(number: u32, text: &str) -> Record {
        Record {
            number,
            kind: Work::Profile,
            path: Some("/bays/ä.ron".into()),
            mark: Some(DiskMark::of_bytes(b"as it was read")),
            name: "a\n\"b\"".into(),
            text: text.into(),
            at: 7,
        }
    }

    #[test]
    fn records_come_back_and_the_last_one_counts() {
        let entries = [
            Entry::Work(record(1, "old")),
            Entry::Work(record(2, "two\nlines")),
            Entry::Work(record(1, "new")),
            Entry::Work(record(3, "gone")),
            Entry::Settled(3),
        ];
        let bytes: Vec<u8> = entries.iter().flat_map(|e| written(e).unwrap()).collect();
        let expected = BTreeMap::from([(1, record(1, "new")), (2, record(2, "two\nlines"))]);
        assert_eq!(live(&bytes), expected);
        // The same with rubbish before, between and after.
        let first = written(&entries[0]).unwrap();
        let broken = [b"rubbish", &first[..20], &MARK, &bytes[..], &MARK, &first[..first.len() - 1]].concat();
        assert_eq!(live(&broken), expected);
    }

    /// As it was written before marks were noted.
    #[test]
    fn an_older_record_without_a_mark_is_read() {
        let head = r#"{"Work":{"number":1,"kind":"Layout","path":null,"name":"a","at":7}}"#;
        let Some(Entry::Work(read)) = entry(format!("{head}\ntext").as_bytes()) else { panic!("not read") };
        assert_eq!((read.mark, read.text.as_str()), (None, "text"));
        // Nothing is known but the text: whatever else lies there may be someone else's.
        let known = Record { path: Some("/no/such/file.ron".into()), ..read };
        assert_eq!(known.unchanged(), Some(DiskMark::of_bytes(b"text")));
    }

    #[test]
    fn what_is_too_large_is_refused() {
        let largest = usize::try_from(LARGEST_FILE).unwrap();
        assert!(written(&Entry::Work(record(1, &"x".repeat(largest)))).is_ok());
        assert!(written(&Entry::Work(record(1, &"x".repeat(largest + 1)))).is_err());
        let named = Record { name: "x".repeat(LARGEST_HEAD), ..record(1, "") };
        assert!(written(&Entry::Work(named)).is_err());
    }

    #[test]
    fn bytes_made_to_take_long_do_not() {
        // Every mark announces a long record, with the right checksum of its head and the wrong one of the rest.
        let mut one = MARK.to_vec();
        one.extend(3_000_000_u32.to_le_bytes());
        one.extend([0; 4]);
        one.extend(crc32fast::hash(&one).to_le_bytes());
        let bytes = one.repeat(4_000_000 / BEFORE);
        let start = std::time::Instant::now();
        assert!(live(&bytes).is_empty());
        assert!(start.elapsed().as_secs() < 5);
    }
}
