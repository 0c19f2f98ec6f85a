//! What the chain of hashes in a record's file says. The hashes themselves are the file's.

/// The first of a record's entries that does not follow from what stands before it: it, or what it stands on, was changed, moved or taken
/// out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ChainBreak {
    /// Which, from 0; `None`: how the record begins.
    pub nth: Option<usize>,
    /// Its line in the file, from 1, if it is known.
    pub line: Option<u32>,
}

/// What a hash that stands on paper says of a record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeadSaid {
    /// It is the record's own: nothing was entered since.
    Same,
    /// It is that of the record when it had fewer entries.
    Earlier {
        /// So many it had then.
        entries: usize,
        /// So many were entered since.
        since: usize,
    },
    /// This record never had it.
    Unknown,
}
