//! The record of a visit in hand: where it lies, what of it is on the disk, what is to be written still.
//!
//! It is written after each entry, in a thread of its own and one writing after the other, so that no frame waits for the disk. What the
//! disk refuses stays here and is tried again. What somebody else wrote meanwhile is never written over.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use baywright_files::{DiskMark, FileFault, Held, Hold, Kept, hold, load_record, save_record};
use baywright_planner::model::record::{Entry, VisitRecord, What};
use baywright_planner::record::{Refused, Told};

use crate::session::job::{Job, News, Wake};

/// Why what was entered is not on the disk.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum NotWritten {
    /// Somebody else wrote the file since it was read or written here.
    ChangedOnDisk,
    /// The disk refuses it.
    Faults(Vec<FileFault>),
    /// The program met a fault of its own: in what words.
    Fault(String),
}

/// Why nothing more may be entered here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Shut {
    /// Another window has it open.
    Elsewhere,
    /// Somebody else wrote the file.
    ChangedOnDisk,
    /// An entry was changed since it was written, from 0, or how it begins, and nobody went on all the same.
    Changed(Option<usize>),
}

/// The record in hand.
#[derive(Debug)]
pub(crate) struct RecordInHand {
    path: PathBuf,
    /// Shared with what is written and printed of it.
    kept: Arc<Kept>,
    /// What lies there as it was read or written last.
    mark: DiskMark,
    /// Held as long as it is in hand.
    _held: Option<Held>,
    is_elsewhere: bool,
    writing: Job<Result<DiskMark, NotWritten>>,
    is_dirty: bool,
    trouble: Option<NotWritten>,
    tried: Option<Instant>,
}

/// It is tried again after so long.
const AGAIN: Duration = Duration::from_secs(5);
/// The program's end waits for the disk no longer than this.
const LONGEST_WAIT: Duration = Duration::from_secs(10);

impl RecordInHand {
    /// A record that is begun now, to be kept there; `holds` is the folder of what windows hold.
    pub fn begin(path: PathBuf, record: VisitRecord, holds: Option<&Path>, wake: &Wake) -> Self {
        let mut own = Self::of(path, Kept::begin(record), holds);
        own.is_dirty = true;
        own.write(wake);
        own
    }

    /// A record that lies there.
    ///
    /// # Errors
    /// Everything found wrong with it.
    pub fn take_up(path: &Path, holds: Option<&Path>) -> Result<Self, Vec<FileFault>> {
        Ok(Self::of(path.to_owned(), load_record(path)?, holds))
    }

    fn of(path: PathBuf, kept: Kept, holds: Option<&Path>) -> Self {
        // One that cannot be held can be used all the same, as a layout can.
        let hold = holds.and_then(|folder| hold(folder, &path).ok());
        let (held, is_elsewhere) = match hold {
            Some(Hold::Held(held)) => (Some(held), false),
            Some(Hold::InUseElsewhere) => (None, true),
            None => (None, false),
        };
        Self {
            mark: DiskMark::of(&path),
            path,
            kept: Arc::new(kept),
            _held: held,
            is_elsewhere,
            writing: Job::default(),
            is_dirty: false,
            trouble: None,
            tried: None,
        }
    }

    /// The record.
    pub fn record(&self) -> &VisitRecord {
        self.kept.record()
    }

    /// The record with its hashes.
    pub const fn kept(&self) -> &Arc<Kept> {
        &self.kept
    }

    /// Where it lies.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The hash that stands for all of it.
    pub fn head(&self) -> &str {
        self.kept.head()
    }

    /// Why nothing more is entered here; that it is closed is its own affair.
    pub fn shut(&self) -> Option<Shut> {
        if self.is_elsewhere {
            return Some(Shut::Elsewhere);
        }
        if self.trouble == Some(NotWritten::ChangedOnDisk) {
            return Some(Shut::ChangedOnDisk);
        }
        let broken = self.kept.broken()?.nth;
        let after = broken.unwrap_or(0);
        let went_on = self
            .record()
            .entries
            .iter()
            .skip(after)
            .any(|own| matches!(own.what, What::WentOn { entry } if entry == broken));
        (!went_on).then_some(Shut::Changed(broken))
    }

    /// Enters something at the end, and has it written.
    ///
    /// # Errors
    /// It makes no sense; all is as it was.
    pub fn enter(&mut self, entry: Entry, wake: &Wake) -> Result<Told, Refused> {
        let told = Arc::make_mut(&mut self.kept).append(entry)?;
        self.is_dirty = true;
        self.write(wake);
        Ok(told)
    }

    /// Tries again to write what the disk refused.
    pub fn try_again(&mut self, wake: &Wake) {
        if self.trouble != Some(NotWritten::ChangedOnDisk) {
            self.write(wake);
        }
    }

    fn write(&mut self, wake: &Wake) {
        // One after the other: what comes meanwhile is written when this has ended.
        if self.writing.is_running() || !self.is_dirty || self.is_elsewhere {
            return;
        }
        self.is_dirty = false;
        self.tried = Some(Instant::now());
        let (path, kept, mark) = (self.path.clone(), Arc::clone(&self.kept), self.mark);
        self.writing.start("record", 1, wake, move |_| written(&path, &kept, mark));
    }

    /// Takes in what came of writing; the trouble, when it begins or is another.
    pub fn hear(&mut self, wake: &Wake) -> Option<NotWritten> {
        let mut new = None;
        for news in self.writing.news() {
            let written = match news {
                News::Done(written) | News::SoFar(written) => written,
                News::Failed(words) => Err(NotWritten::Fault(words)),
            };
            match written {
                Ok(mark) => {
                    self.mark = mark;
                    self.trouble = None;
                    self.write(wake);
                }
                Err(why) => {
                    self.is_dirty = true;
                    if self.trouble.as_ref() != Some(&why) {
                        new = Some(why.clone());
                    }
                    self.trouble = Some(why);
                }
            }
        }
        if self.trouble.is_some() && self.tried.is_some_and(|at| at.elapsed() >= AGAIN) {
            self.try_again(wake);
        }
        new
    }

    /// Why what was entered last is not on the disk.
    pub const fn trouble(&self) -> Option<&NotWritten> {
        self.trouble.as_ref()
    }

    /// Whether all of it is on the disk.
    pub const fn is_saved(&self) -> bool {
        !self.is_dirty && !self.writing.is_running() && self.trouble.is_none()
    }

    /// Waits until all of it is on the disk, or the disk refuses it: before it is put away.
    pub fn finish(&mut self) -> bool {
        let wake: Wake = Arc::new(|| {});
        let start = Instant::now();
        if !self.writing.is_running() {
            self.try_again(&wake);
        }
        while self.writing.is_running() && start.elapsed() < LONGEST_WAIT {
            self.hear(&wake);
            std::thread::sleep(Duration::from_millis(1));
        }
        self.is_saved()
    }
}

fn written(path: &Path, kept: &Kept, mark: DiskMark) -> Result<DiskMark, NotWritten> {
    // One that is gone is written anew: nothing of it is lost by that.
    let now = DiskMark::of(path);
    if now != mark && now.is_there() {
        return Err(NotWritten::ChangedOnDisk);
    }
    save_record(path, kept).map_err(NotWritten::Faults)?;
    Ok(DiskMark::of(path))
}
