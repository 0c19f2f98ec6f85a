//! The recovery journal: what was changed and not saved yet, kept so that no crash or power cut loses it.
//!
//! One file per running session in the program's own folder. Records are only ever added; when the file has grown it is
//! replaced, whole or not at all, by one that holds the last record of each work. A living session holds a lock on its
//! file: a file that nobody holds was left behind by a session that died.

mod disk;
mod frame;
mod left;
mod log;

#[cfg(test)]
mod faults;

use std::io;
use std::path::{Path, PathBuf};

use baywright_planner::model::Layout;
use baywright_planner::model::fault::{FileFault, FileTrouble};

use crate::disk_mark::DiskMark;
use crate::fault::why;
use crate::open::{load_layout, parse_layout};
use disk::OnDisk;
use frame::Entry;
pub use left::{LeftBehind, Leftovers, left_behind};
use log::Log;

/// What kind of work a record keeps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
pub enum Work {
    /// A bay layout.
    Layout,
    /// A vehicle profile that is being edited.
    Profile,
    /// A room that is being typed, wall by wall, and is no layout yet; its text is the caller's own.
    Room,
    /// A shop's settings.
    Shop,
    /// A shop's list of the work after which something is to be aimed.
    Triggers,
}

/// What became of the file of a work since the work was noted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Since {
    /// It is as it was read or written then; or there is none, or nobody noted what it held.
    Unwritten,
    /// It holds this very work.
    Same,
    /// Something else was written to it.
    Written,
    /// It is not there any more.
    Gone,
}

/// The state of one work at one moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Record {
    /// Which work of the session: the caller counts them. It stays the same when the work is renamed or saved elsewhere.
    pub number: u32,
    /// What kind of work it is.
    pub kind: Work,
    /// Where it lies on disk, if it was ever saved.
    pub path: Option<PathBuf>,
    /// What that file held when it was read or written last; `None` in a journal of a program that did not note it yet.
    pub mark: Option<DiskMark>,
    /// Its name on the screen.
    pub name: String,
    /// The short name by which its file is to go, where that is entered apart: a car's. `None` in an older program's journal.
    pub id: Option<String>,
    /// Its whole text, as it would be saved; of a draft that is not sound yet, any text up to
    /// [`LARGEST_FILE`](crate::LARGEST_FILE).
    pub text: String,
    /// When it was so, in seconds since 1970, by the caller's clock.
    pub at: u64,
}

impl Record {
    /// What its file holds if nobody else changed it since: what was read, or this very work if it was saved just before the
    /// end. Where no mark was noted only the text is known: what differs from it may be someone else's.
    pub fn unchanged(&self) -> Option<DiskMark> {
        let path = self.path.as_deref()?;
        let (saved, there) = (DiskMark::of_bytes(self.text.as_bytes()), DiskMark::of(path));
        Some(if there == saved || self.is_saved_in(path) { there } else { self.mark.unwrap_or(saved) })
    }

    /// What became of its file since it was noted.
    fn since(&self) -> Since {
        let Some(path) = self.path.as_deref() else { return Since::Unwritten };
        let there = DiskMark::of(path);
        if !there.is_there() {
            return if self.mark.is_some_and(DiskMark::is_there) { Since::Gone } else { Since::Unwritten };
        }
        if there == DiskMark::of_bytes(self.text.as_bytes()) || self.is_saved_in(path) {
            return Since::Same;
        }
        if self.mark.is_some_and(|mark| mark != there) { Since::Written } else { Since::Unwritten }
    }

    /// Whether a file holds this very layout: it is judged anew when it is saved, so by which settings is no difference.
    fn is_saved_in(&self, path: &Path) -> bool {
        let Some(there) = Some(path).filter(|_| self.kind == Work::Layout).and_then(|p| load_layout(p).ok())
        else {
            return false;
        };
        let kept = parse_layout(&self.name, there.bay.id.as_str(), &self.text);
        let apart = |layout: Layout| Layout { shop_fingerprint: None, ..layout };
        kept.is_ok_and(|kept| apart(kept) == apart(there))
    }
}

/// The journal of one running session. It may be sent to a thread of its own, since each note waits for the disk.
#[derive(Debug)]
pub struct Journal {
    log: Log<OnDisk>,
    path: PathBuf,
}

impl Journal {
    /// Starts the journal of a session in a folder, which is made if it is not there.
    ///
    /// # Errors
    /// The folder or the file cannot be made.
    pub fn start(folder: &Path) -> Result<Self, FileFault> {
        let medium = OnDisk::start(folder).map_err(|error| not_kept(folder, &error))?;
        Ok(Self { path: medium.path().to_owned(), log: Log::new(medium) })
    }

    /// Keeps the state of a work. When it returns without fault, the record is on the disk and survives a crash of
    /// the program and a power cut. After a fault everything that was kept before is kept still.
    ///
    /// # Errors
    /// The text is too large, or the disk refuses.
    pub fn note(&mut self, record: &Record) -> Result<(), FileFault> {
        self.log.write(Entry::Work(record.clone())).map_err(|error| not_kept(&self.path, &error))
    }

    /// Says that a work was saved or given up: there is nothing of it to recover any more, until the next note.
    ///
    /// # Errors
    /// The disk refuses; the work is then offered for recovery, which does no harm.
    pub fn settled(&mut self, number: u32) -> Result<(), FileFault> {
        self.log.write(Entry::Settled(number)).map_err(|error| not_kept(&self.path, &error))
    }

    /// Ends the session in order: the journal is removed. A journal that is only dropped stays, and is found by
    /// [`left_behind`].
    ///
    /// # Errors
    /// The file cannot be removed.
    pub fn close(self) -> Result<(), FileFault> {
        self.log.into_medium().remove().map_err(|error| not_kept(&self.path, &error))
    }
}

fn not_kept(path: &Path, error: &io::Error) -> FileFault {
    FileFault::whole(path.display().to_string(), FileTrouble::NotKept(why(error)))
}
