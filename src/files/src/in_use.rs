//! One file, two windows: who opens a file holds it, so that a second window can say that it is open elsewhere.
//!
//! The hold is a lock on a small file in the program's own folder, never on the user's file: saving replaces that one,
//! and others may want to read it. It ends with the process, however that ends.

use std::fs::File;
use std::path::{Path, PathBuf};

use baywright_planner::model::fault::{FileFault, FileTrouble};

use crate::fault::why;
use crate::fingerprint::fnv1a;
use crate::gate::{Gate, for_owner, is_free};
use crate::whole::canonical;

/// Whether a file could be held.
#[derive(Debug)]
pub enum Hold {
    /// Nobody else holds it: it is held until this is dropped, or the process dies.
    Held(Held),
    /// Another window holds it.
    InUseElsewhere,
}

/// A file that is held.
#[derive(Debug)]
pub struct Held {
    folder: PathBuf,
    lock: PathBuf,
    _file: File,
}

impl Drop for Held {
    fn drop(&mut self) {
        // Only behind the gate: somebody may just be opening the same small file. Without it, the next hold sweeps.
        if let Ok(_gate) = Gate::enter(&self.folder) {
            let _ = std::fs::remove_file(&self.lock);
        }
    }
}

/// How the name of a hold ends.
const ENDING: &str = "held";

/// Holds a file for this window, whether it exists yet or not. `folder` is where holds are kept: in the program's own
/// data folder. The same file by another way (a link, `..`) is the same file.
///
/// # Errors
/// The folder cannot be made or written; the file can be used all the same, but not held.
pub fn hold(folder: &Path, path: &Path) -> Result<Hold, FileFault> {
    let failed = |error: std::io::Error| {
        FileFault::whole(folder.display().to_string(), FileTrouble::NotHeld(why(&error)))
    };
    let _gate = Gate::enter(folder).map_err(failed)?;
    sweep(folder);
    let name = canonical(path);
    let lock = folder.join(format!("{:016x}.{ENDING}", fnv1a(name.as_os_str().as_encoded_bytes())));
    let file = for_owner(File::options().create(true).append(true)).open(&lock).map_err(failed)?;
    if !is_free(&file) {
        return Ok(Hold::InUseElsewhere);
    }
    Ok(Hold::Held(Held { folder: folder.to_owned(), lock, _file: file }))
}

/// Removes the holds of processes that died.
fn sweep(folder: &Path) {
    /// Nobody has more windows; what is beyond is swept the next time.
    const MOST: usize = 1_000;
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten().take(MOST) {
        let path = entry.path();
        let ours = path.extension().is_some_and(|e| e == ENDING);
        if ours
            && entry.file_type().is_ok_and(|kind| kind.is_file())
            && File::open(&path).is_ok_and(|file| file.try_lock().is_ok())
        {
            let _ = std::fs::remove_file(path);
        }
    }
}
