//! How a record lies in the journal's bytes, and how whole records are found among anything else.
//!
//! A record is a mark of four bytes, the length and the checksum of what follows, a checksum of these twelve, and then
//! a head of one line in JSON and the text as it is. Two bytes of the mark never occur in UTF-8, so no text can be taken
//! for a record.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::io;

use baywright_planner::model::fault::Why;
use serde::{Deserialize, Serialize};

use super::{Record, Work};
use crate::disk_mark::DiskMark;
use crate::fault::own;
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
        /// Not in the journals of older programs.
        #[serde(default)]
        id: Option<String>,
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
                id: record.id.clone(),
                at: record.at,
            };
            (head, record.text.as_str())
        }
        Entry::Settled(number) => (Head::Settled { number: *number }, ""),
    };
    let head = serde_json::to_string(&head)?;
    let refused = |why: Why| own(io::ErrorKind::InvalidInput, why);
    if text.len() as u64 > LARGEST_FILE {
        return Err(refused(Why::WorkTooLarge));
    }
    if head.len() >= LARGEST_HEAD {
        return Err(refused(Why::WorkNameTooLong));
    }
    let payload = [head.as_bytes(), b"\n", text.as_bytes()].concat();
    let length = u32::try_from(payload.len()).map_err(|_| refused(Why::WorkTooLarge))?;
    let mut bytes = Vec::with_capacity(BEFORE + payload.len());
    bytes.extend(MARK);
    bytes.extend(length.to_le_bytes());
    bytes.extend(crc32fast::hash(&payload).to_le_bytes());
    bytes.extend(crc32fast::hash(&bytes).to_le_bytes());
    bytes.extend(payload);
    Ok(bytes)
}

/// What the bytes of a journal hold.
#[derive(Debug)]
pub struct Read {
    /// The last whole record of each work that was not settled, by number.
    pub live: BTreeMap<u32, Record>,
    /// Whether everything was understood. The beginning of a record at the very end is no harm: the program died while it
    /// wrote that, and had not said yet that it is kept. Nor are zeros, where a disk made room for what was never written.
    pub is_understood: bool,
    /// Whether it ends with a whole record, so that another one may be added behind it.
    pub ends_whole: bool,
}

/// Reads whole records among anything else; the work is in proportion to the number of bytes, whatever they are.
pub fn read(bytes: &[u8]) -> Read {
    let mut live = BTreeMap::new();
    let mut is_understood = true;
    // Bytes that look like many long records must not be summed up over and over.
    let mut budget = bytes.len().saturating_mul(4);
    // Where to look for the next mark, and where the last whole record ended.
    let (mut from, mut whole_to) = (0, 0);
    let part = |from: usize, to: usize| bytes.get(from..to).unwrap_or_default();
    let rest = |from: usize| bytes.get(from..).unwrap_or_default();
    while let Some(at) = rest(from).windows(MARK.len()).position(|window| window == MARK) {
        let at = from + at;
        let Some((entry, length)) = first(rest(at), &mut budget) else {
            from = at + MARK.len();
            continue;
        };
        is_understood &= are_zeros(part(whole_to, at)) && entry.is_some();
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
        from = at + length;
        whole_to = from;
    }
    let end = rest(whole_to);
    let is_understood = is_understood && (are_zeros(end) || is_begun(end));
    Read { live, is_understood, ends_whole: end.is_empty() }
}

fn are_zeros(bytes: &[u8]) -> bool {
    bytes.iter().all(|&byte| byte == 0)
}

/// Whether these bytes are the beginning of a record, and not all of it.
fn is_begun(bytes: &[u8]) -> bool {
    if bytes.len() < BEFORE {
        return bytes.iter().zip(MARK).all(|(&byte, mark)| byte == mark);
    }
    bytes.starts_with(&MARK) && before(bytes).is_some_and(|(length, _, after)| after.len() < length)
}

/// The length and the checksum of what follows, and what does; `None` if they do not have the checksum of their own.
fn before(bytes: &[u8]) -> Option<(usize, u32, &[u8])> {
    let (before, after) = bytes.split_at_checked(BEFORE)?;
    let number = |at: usize| Some(u32::from_le_bytes(before.get(at..at + 4)?.try_into().ok()?));
    let (length, sum, own_sum) = (number(4)? as usize, number(8)?, number(12)?);
    (crc32fast::hash(before.get(..12)?) == own_sum).then_some((length, sum, after))
}

/// The whole record that these bytes start with, and its length.
fn first(bytes: &[u8], budget: &mut usize) -> Option<(Option<Entry>, usize)> {
    let (length, sum, after) = before(bytes)?;
    let payload = after.get(..length)?;
    *budget = budget.checked_sub(length)?;
    (crc32fast::hash(payload) == sum).then(|| (entry(payload), BEFORE + length))
}

fn entry(payload: &[u8]) -> Option<Entry> {
    let end = payload.iter().take(LARGEST_HEAD).position(|&b| b == b'\n')?;
    let (head, text) = payload.split_at(end);
    Some(match serde_json::from_slice(head).ok()? {
        Head::Work { number, kind, path, mark, name, id, at } => {
            let text = std::str::from_utf8(text.get(1..)?).ok()?.to_owned();
            Entry::Work(Record { number, kind, path: path.map(Into::into), mark, name, id, text, at })
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
            id: Some("a-b".into()),
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
        let found = read(&bytes);
        assert!(found.is_understood);
        assert_eq!(found.live, expected);
        // The same with rubbish before, between and after.
        let first = written(&entries[0]).unwrap();
        let broken = [b"rubbish", &first[..20], &MARK, &bytes[..], &MARK, &first[..first.len() - 1]].concat();
        let found = read(&broken);
        assert!(!found.is_understood);
        assert_eq!(found.live, expected);
    }

    /// As it was written before marks and short names were noted.
    #[test]
    fn an_older_record_without_a_mark_is_read() {
        let head = r#"{"Work":{"number":1,"kind":"Layout","path":null,"name":"a","at":7}}"#;
        let Some(Entry::Work(read)) = entry(format!("{head}\ntext").as_bytes()) else { panic!("not read") };
        assert_eq!((read.mark, read.id.as_deref(), read.text.as_str()), (None, None, "text"));
        // Nothing is known but the text: whatever else lies there may be someone else's.
        let known = Record { path: Some("/no/such/file.ron".into()), ..read };
        assert_eq!(known.unchanged(), Some(DiskMark::of_bytes(b"text")));
    }

    #[test]
    fn damage_is_told_from_a_write_that_was_cut_short() {
        let [one, two] = [1, 2].map(|number| written(&Entry::Work(record(number, "text"))).unwrap());
        for cut in 0..two.len() {
            assert!(read(&[&one[..], &two[..cut]].concat()).is_understood, "{cut}");
        }
        assert!(read(&[&one[..], &[0; 4_096]].concat()).is_understood);
        for at in 0..two.len() {
            let mut flipped = two.clone();
            flipped[at] ^= 1;
            let found = read(&[&flipped[..], &one[..]].concat());
            assert!(!found.is_understood && found.live.contains_key(&1), "{at}");
        }
        let mut later = String::from_utf8(two[BEFORE..].to_vec()).unwrap();
        later = later.replace("Profile", "Sketch");
        let mut bytes = MARK.to_vec();
        bytes.extend(u32::try_from(later.len()).unwrap().to_le_bytes());
        bytes.extend(crc32fast::hash(later.as_bytes()).to_le_bytes());
        bytes.extend(crc32fast::hash(&bytes).to_le_bytes());
        bytes.extend(later.as_bytes());
        bytes.extend(&one);
        let found = read(&bytes);
        assert!(!found.is_understood && found.live.len() == 1, "of a kind that is not known");
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
        assert!(read(&bytes).live.is_empty());
        assert!(start.elapsed().as_secs() < 5);
    }
}
