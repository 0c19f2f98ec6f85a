//! The journal's file on a real disk.

use std::fs::File;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use baywright_planner::model::fault::Why;

use super::log::Medium;
use crate::fault::own;
use crate::gate::{Gate, for_owner, lock, sync_folder};

/// How the name of a journal ends. Another format of records takes another ending, so that no older program takes such a
/// journal for an empty one and sweeps it away.
pub const ENDING: &str = "journal";
/// How the name of a journal ends that is not in its place yet.
pub const NEW_ENDING: &str = "journal-new";

/// A journal's file, locked as long as it is open.
#[derive(Debug)]
pub struct OnDisk {
    folder: PathBuf,
    path: PathBuf,
    file: File,
}

impl OnDisk {
    /// A new empty file in a folder.
    pub fn start(folder: &Path) -> io::Result<Self> {
        /// So many sessions of one process number are tried: the older ones died and are still to be dealt with.
        const MOST: u32 = 1_000;
        let _gate = Gate::enter(folder)?;
        let process = std::process::id();
        for n in 1..=MOST {
            let path = folder.join(format!("{process}-{n}.{ENDING}"));
            match for_owner(File::options().create_new(true).append(true)).open(&path) {
                Ok(file) => {
                    lock(&file);
                    // The folder itself may be new.
                    if let Some(above) = folder.parent() {
                        let _ = sync_folder(above);
                    }
                    sync_folder(folder)?;
                    return Ok(Self { folder: folder.to_owned(), path, file });
                }
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                Err(error) => return Err(error),
            }
        }
        Err(own(io::ErrorKind::AlreadyExists, Why::FullOfJournals))
    }

    /// A file that another session left; the caller has locked it.
    pub fn taken_over(folder: &Path, path: PathBuf, file: File) -> Self {
        Self { folder: folder.to_owned(), path, file }
    }

    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// As [`Medium::replace`], for whoever holds the folder's gate already.
    pub fn replace_behind_gate(&mut self, bytes: &[u8]) -> io::Result<()> {
        let new = self.path.with_extension(NEW_ENDING);
        let whole = || {
            // Not truncated before it is ours: nobody else writes this name, but a session of the same number may have.
            let mut file = for_owner(File::options().create(true).append(true)).open(&new)?;
            lock(&file);
            file.set_len(0)?;
            file.write_all(bytes)?;
            file.sync_all()?;
            std::fs::rename(&new, &self.path)?;
            Ok(file)
        };
        self.file = whole().inspect_err(|_: &io::Error| {
            // Half a file takes room that a full disk needs.
            let _ = std::fs::remove_file(&new);
        })?;
        sync_folder(&self.folder)
    }

    /// Removes the file.
    pub fn remove(&self) -> io::Result<()> {
        match std::fs::remove_file(&self.path) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
            // If a power cut brings it back, old work is offered once more: no harm.
            _ => Ok(()),
        }
    }
}

impl Medium for OnDisk {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        // Somebody may have tidied the folder away: what goes into a file without a name is lost.
        if !self.path.try_exists()? {
            return Err(io::ErrorKind::NotFound.into());
        }
        self.file.write(bytes)
    }

    fn sync(&mut self) -> io::Result<()> {
        self.file.sync_data()
    }

    fn replace(&mut self, bytes: &[u8]) -> io::Result<()> {
        let _gate = Gate::enter(&self.folder)?;
        self.replace_behind_gate(bytes)
    }
}
