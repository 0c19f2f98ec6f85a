//! What dead sessions left behind.

use std::fs::File;
use std::io::{Read, Seek};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::SystemTime;

use baywright_planner::model::fault::FileFault;

use super::disk::{ENDING, NEW_ENDING, OnDisk};
use super::frame::{self, Entry};
use super::log::{Log, MOST_BYTES};
use super::{Record, Since, not_kept};
use crate::gate::{Gate, is_free};

/// So many journals are looked at, the newest first, and so many bytes of them are read in all: what is beyond stays
/// for the next start.
const MOST_FILES: usize = 64;
const MOST_READ: usize = 2 * MOST_BYTES;

/// How the name of a journal ends that was set aside.
const ASIDE_ENDING: &str = "journal-aside";
/// So many are set aside of one session's name.
const MOST_ASIDE: u32 = 1_000;

/// A work that a dead session left. As long as it is held, no other window is offered it.
#[derive(Debug)]
pub struct LeftBehind {
    /// The last state of the work that is whole.
    pub record: Record,
    /// What became of its file since, when this was looked for.
    pub since: Since,
    session: Arc<Mutex<Log<OnDisk>>>,
    /// Whether its file also holds what was not understood and could not be set aside: then it is never removed.
    stays: bool,
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
        let done = if settled && !self.stays { disk.remove() } else { written };
        done.map_err(|error| not_kept(disk.path(), &error))
    }
}

/// What dead sessions left.
#[derive(Debug, Default)]
pub struct Leftovers {
    /// The works that can be taken up, newest first.
    pub works: Vec<LeftBehind>,
    /// Where journals lie of which a part is damaged, or of a kind that only a later program knows. Nobody deletes them.
    pub not_understood: Vec<PathBuf>,
}

/// What dead sessions left in a folder. Journals of living sessions are left alone; journals in which nothing is left to
/// recover are removed; one that is not wholly understood is set aside as it is, and what is whole in it is offered.
pub fn left_behind(folder: &Path) -> Leftovers {
    let mut found = Leftovers::default();
    if !folder.is_dir() {
        return found;
    }
    let Ok(_gate) = Gate::enter(folder) else { return found };
    let mut files = named(folder, ENDING);
    files.sort_by(|a, b| b.cmp(a));
    let mut budget = MOST_READ;
    for (_, path) in files.into_iter().take(MOST_FILES) {
        of_session(folder, &path, &mut budget, &mut found);
    }
    // A new file that never came into its place: the old one is there and counts.
    for (_, path) in named(folder, NEW_ENDING).into_iter().take(MOST_FILES) {
        if File::open(&path).is_ok_and(|file| is_free(&file)) {
            let _ = std::fs::remove_file(&path);
        }
    }
    found.works.sort_by(|a, b| (b.record.at, &a.record.name).cmp(&(a.record.at, &b.record.name)));
    found
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

/// Adds what one journal holds; nothing if its session lives, or it cannot be read now.
fn of_session(folder: &Path, path: &Path, budget: &mut usize, found: &mut Leftovers) -> Option<()> {
    let mut file = File::options().read(true).append(true).open(path).ok()?;
    if !is_free(&file) {
        return None;
    }
    // A session that ended in order while we came here removed its file first and let go of it then: what we hold has no
    // name any more. Nobody can have taken the name since, that is done behind the gate.
    if !path.try_exists().unwrap_or(false) {
        return None;
    }
    let whole_length = usize::try_from(file.metadata().ok()?.len()).ok()?;
    let length = whole_length.min(MOST_BYTES);
    *budget = budget.checked_sub(length)?;
    let mut bytes = Vec::new();
    file.by_ref().take(length as u64).read_to_end(&mut bytes).ok()?;
    let read = frame::read(&bytes);
    let is_understood = read.is_understood && whole_length <= MOST_BYTES;
    let mut stays = false;
    if !is_understood {
        // One that cannot be set aside stays as it is where it is, and is looked at again at the next start; what is whole in
        // it is offered all the same.
        let aside = set_aside(folder, path, &file);
        stays = aside.is_err();
        found.not_understood.push(aside.as_ref().map_or(path, PathBuf::as_path).to_owned());
    }
    if read.live.is_empty() {
        if !stays {
            let _ = std::fs::remove_file(path);
        }
        return None;
    }
    let mut size = usize::try_from(file.seek(std::io::SeekFrom::End(0)).ok()?).ok()?;
    let mut ends_whole = read.ends_whole;
    let mut disk = OnDisk::taken_over(folder, path.to_owned(), file);
    let works: Vec<Entry> = read.live.values().cloned().map(Entry::Work).collect();
    if !is_understood && !stays {
        // From now on another file has this name, with only what is whole. If it cannot be written, the damaged one goes on
        // as it is, and its second name with it.
        let whole = works.iter().map(frame::written).collect::<std::io::Result<Vec<_>>>().ok()?.concat();
        if disk.replace_behind_gate(&whole).is_ok() {
            (size, ends_whole) = (whole.len(), true);
        }
    }
    let log = Log::after(disk, works, size, ends_whole).ok()?;
    let session = Arc::new(Mutex::new(log));
    found.works.extend(read.live.into_values().map(|record| LeftBehind {
        since: record.since(),
        record,
        session: Arc::clone(&session),
        stays,
    }));
    Some(())
}

/// Gives a journal a second name that no program of ours looks at, for its owner only.
fn set_aside(folder: &Path, path: &Path, file: &File) -> std::io::Result<PathBuf> {
    #[cfg(unix)]
    file.set_permissions(std::os::unix::fs::PermissionsExt::from_mode(0o600))?;
    let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let aside = (1..=MOST_ASIDE).map(|n| folder.join(format!("{stem}-{n}.{ASIDE_ENDING}")));
    for aside in aside {
        match std::fs::hard_link(path, &aside) {
            Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {}
            // Not every disk knows second names.
            Err(_) if !aside.try_exists()? => {
                std::fs::copy(path, &aside)?;
                File::open(&aside)?.sync_all()?;
                return Ok(aside);
            }
            done => return done.map(|()| aside),
        }
    }
    Err(std::io::ErrorKind::AlreadyExists.into())
}
