//! One process at a time in a folder of the program's own, while names in it are made, replaced or removed.

use std::fs::{DirBuilder, File, OpenOptions, TryLockError};
use std::io;
use std::path::Path;
use std::time::Duration;

use baywright_planner::model::fault::Why;

use crate::fault::own;

/// The file whose lock is the gate. It stays for good: removing it would let two processes hold two gates.
const NAME: &str = "lock";

/// So often it is tried, and so long it is waited between: two seconds in all. What is done behind the gate takes
/// milliseconds; a process that is stopped inside must not stop all others.
const TRIES: u32 = 200;
const BETWEEN: Duration = Duration::from_millis(10);

/// The gate is held until this is dropped, or the process dies.
pub struct Gate {
    _lock: File,
}

impl Gate {
    /// Enters a folder, which is made if it is not there.
    ///
    /// # Errors
    /// The folder cannot be made or written, or another process does not leave it.
    pub fn enter(folder: &Path) -> io::Result<Self> {
        own_folder(folder)?;
        let mut options = File::options();
        options.create(true).truncate(false).write(true);
        let lock = for_owner(&mut options).open(folder.join(NAME))?;
        for _ in 0..TRIES {
            match lock.try_lock() {
                // A disk that knows no locks has no gate: better a journal without it than no journal.
                Ok(()) | Err(TryLockError::Error(_)) => return Ok(Self { _lock: lock }),
                Err(TryLockError::WouldBlock) => std::thread::sleep(BETWEEN),
            }
        }
        Err(own(io::ErrorKind::TimedOut, Why::GateShut))
    }
}

/// Makes a folder of the program's own with all above it, for its owner only; one that is there already is made so. What is
/// not the owner's to change stays as it is: the disk may know no owners.
pub fn own_folder(folder: &Path) -> io::Result<()> {
    let mut builder = DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder)?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let about = std::fs::metadata(folder)?;
        if about.is_dir() && about.permissions().mode() & 0o077 != 0 {
            let _ = std::fs::set_permissions(folder, PermissionsExt::from_mode(0o700));
        }
    }
    Ok(())
}

/// Has a new file made for its owner only.
pub fn for_owner(options: &mut OpenOptions) -> &mut OpenOptions {
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(options, 0o600);
    options
}

/// Puts the names in a folder on the disk: a file whose name is lost in a power cut is lost with it.
///
/// # Errors
/// The disk refuses.
pub fn sync_folder(folder: &Path) -> io::Result<()> {
    // Elsewhere a folder cannot be opened as a file; the system keeps names by itself.
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}

/// Locks a file that nobody else can have locked; on a disk that knows no locks it stays without.
pub fn lock(file: &File) {
    let _ = file.try_lock();
}

/// Whether nobody holds a lock on this open file: it is held from now on, or the disk knows no locks.
pub fn is_free(file: &File) -> bool {
    !matches!(file.try_lock(), Err(TryLockError::WouldBlock))
}
