//! A made-up disk that loses, tears, takes little and refuses; and what must hold on it.

use std::collections::BTreeMap;
use std::io;

use proptest::prelude::*;

use super::frame::{Entry, read};
use super::log::{Log, Medium};
use super::{Record, Work};

/// What the disk does at one operation.
#[derive(Clone, Copy, Debug)]
enum Mood {
    Fine,
    /// Takes only some of the bytes; the writer must go on.
    Short(usize),
    /// Takes some bytes, then is full.
    Full(usize),
    /// The wait for the disk fails. What was to be written is lost for good, though it can be read until the power goes.
    Fault,
    /// The new file is there, but whether its name is, nobody knows.
    NameUnsure,
}

/// A file: what is on the disk, and what is still in memory only.
#[derive(Clone, Debug, Default)]
struct Inode {
    kept: Vec<u8>,
    cached: Vec<u8>,
}

/// A disk that follows its moods in turn.
#[derive(Debug)]
struct Faulty {
    moods: Vec<Mood>,
    at: usize,
    now: Inode,
    /// The file that has the name if the power goes now, if that is another one.
    named: Option<Inode>,
}

impl Faulty {
    fn mood(&mut self) -> Mood {
        let mood = self.moods.get(self.at).copied().unwrap_or(Mood::Fine);
        self.at += 1;
        mood
    }

    /// What lies there after a power cut: what was kept, and of the rest as much as `torn` says.
    fn after_power_cut(&self, torn: Torn) -> Vec<u8> {
        let inode = self.named.as_ref().unwrap_or(&self.now);
        let mut bytes = inode.kept.clone();
        let rest = &inode.cached;
        match torn {
            Torn::Nothing => {}
            Torn::Prefix(length) => bytes.extend(rest.iter().take(length % (rest.len() + 1))),
            Torn::Sectors(mask, fill) => {
                for (i, sector) in rest.chunks(SECTOR).enumerate() {
                    if mask >> (i % 32) & 1 == 1 {
                        bytes.extend(sector);
                    } else {
                        bytes.extend(sector.iter().map(|_| fill));
                    }
                }
            }
        }
        bytes
    }
}

/// Small, so that small records are torn too.
const SECTOR: usize = 16;

#[derive(Clone, Copy, Debug)]
enum Torn {
    Nothing,
    Prefix(usize),
    Sectors(u32, u8),
}

fn full() -> io::Error {
    io::ErrorKind::StorageFull.into()
}

impl Medium for Faulty {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let take = match self.mood() {
            Mood::Short(most) => most.clamp(1, bytes.len()),
            Mood::Full(some) => {
                self.now.cached.extend(bytes.iter().take(some % bytes.len()));
                return Err(full());
            }
            _ => bytes.len(),
        };
        self.now.cached.extend(&bytes[..take]);
        Ok(take)
    }

    fn sync(&mut self) -> io::Result<()> {
        let pending = std::mem::take(&mut self.now.cached);
        if matches!(self.mood(), Mood::Fault | Mood::Full(_)) {
            // As systems do: the pages count as written from now on, and are not.
            self.now.kept.extend(pending.iter().map(|_| 0));
            return Err(io::Error::from_raw_os_error(5));
        }
        self.now.kept.extend(pending);
        Ok(())
    }

    fn replace(&mut self, bytes: &[u8]) -> io::Result<()> {
        match self.mood() {
            Mood::Full(_) => return Err(full()),
            Mood::Fault => return Err(io::Error::from_raw_os_error(5)),
            Mood::NameUnsure => {
                let old = std::mem::take(&mut self.now);
                self.named.get_or_insert(old);
                self.now.kept = bytes.to_vec();
                return Err(io::Error::from_raw_os_error(5));
            }
            Mood::Fine | Mood::Short(_) => {}
        }
        self.named = None;
        self.now = Inode { kept: bytes.to_vec(), cached: Vec::new() };
        Ok(())
    }
}

fn record(number: u32, at: u64, length: usize) -> Record {
    // No two are alike, so a mixture of two would be noticed.
    let text = format!("{at} ").repeat(length);
    Record {
        number,
        kind: Work::Layout,
        path: None,
        mark: None,
        name: format!("bay {number}"),
        id: None,
        text,
        at,
    }
}

fn mood() -> impl Strategy<Value = Mood> {
    prop_oneof![
        6 => Just(Mood::Fine),
        2 => (1_usize..60).prop_map(Mood::Short),
        1 => (0_usize..400).prop_map(Mood::Full),
        1 => Just(Mood::Fault),
        1 => Just(Mood::NameUnsure),
    ]
}

fn torn() -> impl Strategy<Value = Torn> {
    prop_oneof![
        Just(Torn::Nothing),
        (0_usize..2_000).prop_map(Torn::Prefix),
        (any::<u32>(), prop_oneof![Just(0), Just(0xFF), any::<u8>()]).prop_map(|(m, f)| Torn::Sectors(m, f)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Whatever the disk did, a power cut after any step leaves every acknowledged record, or a later whole one of the
    /// same work; and nothing is presented that was not written just so.
    #[test]
    fn what_was_acknowledged_is_recovered(
        moods in prop::collection::vec(mood(), 0..60),
        steps in prop::collection::vec((0_u32..3, any::<bool>(), 0_usize..40), 1..25),
        torn in torn(),
    ) {
        let disk = Faulty { moods, at: 0, now: Inode::default(), named: None };
        let mut log = Log::new(disk).compacting_beyond(700);
        // The last acknowledged entry of each work, and all that were tried after it.
        let mut sure: BTreeMap<u32, Option<Record>> = BTreeMap::new();
        let mut tried: BTreeMap<u32, Vec<Option<Record>>> = BTreeMap::new();
        for (at, (number, settle, length)) in steps.into_iter().enumerate() {
            let record = record(number, at as u64, length);
            let (entry, state) = if settle && at % 3 == 0 {
                (Entry::Settled(number), None)
            } else {
                (Entry::Work(record.clone()), Some(record))
            };
            match log.write(entry) {
                Ok(()) => {
                    sure.insert(number, state);
                    tried.remove(&number);
                }
                Err(_) => tried.entry(number).or_default().push(state),
            }
            for torn in [torn, Torn::Nothing] {
                let found = read(&log.medium().after_power_cut(torn)).live;
                for number in 0..3 {
                    let found = found.get(&number).cloned();
                    let expected = sure.get(&number).cloned().flatten();
                    let later = tried.get(&number).is_some_and(|tried| tried.contains(&found));
                    prop_assert!(found == expected || later, "{:?} instead of {:?}", found, expected);
                }
            }
        }
    }

    /// Any bytes are read without a panic, and bytes that are no journal hold no work.
    #[test]
    fn any_bytes_are_read(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        prop_assert!(read(&bytes).live.is_empty());
    }
}
