//! What is written when, and what is done after the disk refused.

use std::collections::BTreeMap;
use std::io;

use baywright_planner::model::fault::Why;

use super::frame::{Entry, written};
use crate::fault::own;

/// The few operations that a journal needs of a disk. Tests put a disk here that loses, tears and refuses.
pub trait Medium {
    /// Adds bytes at the end; says how many were taken.
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize>;
    /// Waits until everything that was added is on the disk.
    fn sync(&mut self) -> io::Result<()>;
    /// Puts a file of these bytes in the place of the present one, whole or not at all, and waits until it is there.
    fn replace(&mut self, bytes: &[u8]) -> io::Result<()>;
}

/// A journal beyond this is rewritten with what counts still.
pub const COMPACT_BEYOND: usize = 16 * 1024 * 1024;
/// All works together: three of the largest and some more.
pub const MOST_LIVE: usize = 32 * 1024 * 1024;
/// No journal grows beyond this, so no reader needs to read more.
pub const MOST_BYTES: usize = 96 * 1024 * 1024;

/// A journal on some medium.
#[derive(Debug)]
pub struct Log<M> {
    medium: M,
    /// The bytes of the last record of each work that is not settled.
    live: BTreeMap<u32, Vec<u8>>,
    size: usize,
    /// Not so after the disk refused something: then nobody knows what lies at the end, or whether what seemed to be
    /// written is there, and the next record goes into a new file with all that count.
    sound: bool,
    compact_beyond: usize,
}

impl<M: Medium> Log<M> {
    /// A journal on an empty medium.
    pub const fn new(medium: M) -> Self {
        Self { medium, live: BTreeMap::new(), size: 0, sound: true, compact_beyond: COMPACT_BEYOND }
    }

    /// A journal that goes on where another one ended: these works are in it, `size` bytes are taken. One that does not end
    /// with a whole record is not added to: the next record goes into a new file with all that count.
    ///
    /// # Errors
    /// A work is too large.
    pub fn after(
        medium: M,
        works: impl IntoIterator<Item = Entry>,
        size: usize,
        ends_whole: bool,
    ) -> io::Result<Self> {
        let live = works.into_iter().map(|entry| Ok((entry.number(), written(&entry)?)));
        let live = live.collect::<io::Result<_>>()?;
        Ok(Self { medium, live, size, sound: ends_whole, compact_beyond: COMPACT_BEYOND })
    }

    /// Compacts earlier than usual.
    #[cfg(test)]
    pub fn compacting_beyond(mut self, bytes: usize) -> Self {
        self.compact_beyond = bytes;
        self
    }

    /// Whether nothing in it needs recovery.
    pub fn is_settled(&self) -> bool {
        self.live.is_empty()
    }

    /// The medium itself.
    pub fn into_medium(self) -> M {
        self.medium
    }

    /// The medium itself, while the journal goes on.
    pub const fn medium(&mut self) -> &mut M {
        &mut self.medium
    }

    /// Writes an entry; when this returns it is on the disk.
    ///
    /// # Errors
    /// It is too large or the disk refuses; what was written before is there still.
    pub fn write(&mut self, entry: Entry) -> io::Result<()> {
        let bytes = written(&entry)?;
        let number = entry.number();
        let others = self.live.iter().filter(|(n, _)| **n != number).map(|(_, b)| b.len()).sum::<usize>();
        let needed = match entry {
            Entry::Work(_) => others + bytes.len(),
            Entry::Settled(_) => others,
        };
        if needed > MOST_LIVE && matches!(entry, Entry::Work(_)) {
            return Err(own(io::ErrorKind::InvalidInput, Why::TooMuchWork));
        }
        if self.size + bytes.len() > MOST_BYTES {
            self.sound = false;
        }
        let added = if self.sound { self.add(&bytes) } else { Ok(()) };
        let was_added = self.sound && added.is_ok();
        self.sound = was_added;
        let before = match entry {
            Entry::Work(_) => self.live.insert(number, bytes),
            Entry::Settled(_) => self.live.remove(&number),
        };
        if !was_added && let Err(error) = self.renew() {
            // Not kept: what counted before counts still.
            match before {
                Some(before) => self.live.insert(number, before),
                None => self.live.remove(&number),
            };
            return Err(added.err().unwrap_or(error));
        }
        if self.size > self.compact_beyond && self.size > needed.saturating_mul(2) {
            // A refusal here loses nothing; the next record tries again.
            let _ = self.renew();
        }
        Ok(())
    }

    fn add(&mut self, bytes: &[u8]) -> io::Result<()> {
        let mut rest = bytes;
        while !rest.is_empty() {
            match self.medium.write(rest) {
                Ok(0) => return Err(io::ErrorKind::WriteZero.into()),
                Ok(taken) => rest = rest.get(taken..).unwrap_or_default(),
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                Err(error) => return Err(error),
            }
        }
        self.medium.sync()?;
        self.size += bytes.len();
        Ok(())
    }

    /// A new file with only what counts.
    fn renew(&mut self) -> io::Result<()> {
        let whole: Vec<u8> = self.live.values().flatten().copied().collect();
        // If this fails, the old file may be there or the new one: both hold what counts, but nothing may be added.
        self.sound = false;
        self.medium.replace(&whole)?;
        self.size = whole.len();
        self.sound = true;
        Ok(())
    }
}
