//! What dead sessions left behind.

use std::fs::File;
use std::io::{Read, Seek};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::SystemTime;

use super::disk::{ENDING, NEW_ENDING, OnDisk};
use super::frame::{self, Entry};
use super::log::{Log, MOST_BYTES};
use super::{Record, not_kept};
use crate::fault::FileFault;
use crate::gate::{Gate, is_free};

/// So many journals are looked at, the newest first, and so many bytes of them are read in all: what is beyond stays
/// for the next start.
const MOST_FILES: usize = 64;
const MOST_READ: usize = 2 * MOST_BYTES;

/// A work that a dead session left. As long as it is held, no other window is offered it.
#[derive(Debug)]
pub struct LeftBehind {
    /// The last state of the work that is whole.
    pub record: Record,
    session: Arc<Mutex<Log<OnDisk>>>,
}

impl LeftBehind {
    /// Deletes the work from what was left: it was recovered and saved, or is not wanted. Until then it is offered at
    /// every start.
    ///
    /// # Errors
    /// The disk refuses; it is then offered again.
    pub fn forget(self) -> Result<(), FileFault> {
        let mut session = self.session.lock().unwrap_or_else(PoisonError::into_inner);
        let written = session.write(Entry::Settled(self.record.number));
        let settled = session.is_settled();
        let disk = session.medium();
        let done = if settled { disk.remove() } else { written };
        done.map_err(|error| not_kept(disk.path(), &error))
    }
}

/// The works that dead sessions left in a folder, newest first. What cannot be read is passed over; journals of living
/// sessions are left alone; journals in which nothing is left to recover are removed.
pub fn left_behind(folder: &Path) -> Vec<LeftBehind> {
    if !folder.is_dir() {
        return Vec::new();
    }
    let Ok(_gate) = Gate::enter(folder) else { return Vec::new() };
    let mut files = named(folder, ENDING);
    files.sort_by(|a, b| b.cmp(a));
    let mut budget = MOST_READ;
    let mut left = Vec::new();
    for (_, path) in files.into_iter().take(MOST_FILES) {
        left.extend(of_session(folder, &path, &mut budget).unwrap_or_default());
    }
    // A new file that never came into its place: the old one is there and counts.
    for (_, path) in named(folder, NEW_ENDING).into_iter().take(MOST_FILES) {
        if File::open(&path).is_ok_and(|file| is_free(&file)) {
            let _ = std::fs::remove_file(&path);
        }
    }
    left.sort_by(|a, b| (b.record.at, &a.record.name).cmp(&(a.record.at, &b.record.name)));
    left
}

/// The plain files of an ending in a folder, with the time of their last change.
fn named(folder: &Path, ending: &str) -> Vec<(Option<SystemTime>, PathBuf)> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    entries
        // Not through links, and never a pipe: opening one waits for somebody at its other end.
        .filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_file()))
        .map(|entry| (entry.metadata().and_then(|about| about.modified()).ok(), entry.path()))
        .filter(|(_, path)| path.extension().is_some_and(|e| e == ending))
        .collect()
}

/// What one journal holds; nothing if its session lives, or it cannot be read.
fn of_session(folder: &Path, path: &Path, budget: &mut usize) -> Option<Vec<LeftBehind>> {
    let mut file = File::options().read(true).append(true).open(path).ok()?;
    if !is_free(&file) {
        return None;
    }
    // A session that ended in order while we came here removed its file first and let go of it then: what we hold has no
    // name any more. Nobody can have taken the name since, that is done behind the gate.
    if !path.try_exists().unwrap_or(false) {
        return None;
    }
    let length = usize::try_from(file.metadata().ok()?.len()).ok()?.min(MOST_BYTES);
    *budget = budget.checked_sub(length)?;
    let mut bytes = Vec::new();
    file.by_ref().take(length as u64).read_to_end(&mut bytes).ok()?;
    let records = frame::live(&bytes);
    if records.is_empty() {
        let _ = std::fs::remove_file(path);
        return None;
    }
    let size = usize::try_from(file.seek(std::io::SeekFrom::End(0)).ok()?).ok()?;
    let disk = OnDisk::taken_over(folder, path.to_owned(), file);
    let log = Log::after(disk, records.values().cloned().map(Entry::Work), size).ok()?;
    let session = Arc::new(Mutex::new(log));
    let of = |record| LeftBehind { record, session: Arc::clone(&session) };
    Some(records.into_values().map(of).collect())
}
