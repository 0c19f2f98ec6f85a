//! Writing a file whole or not at all.

use std::fs::{File, TryLockError};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

use atomic_write_file::AtomicWriteFile;
use baywright_planner::model::fault::{FileFault, FileTrouble, Why};

use crate::fault::why;

/// Writes a file whole or not at all: a drawing, an answer. A symbolic link keeps pointing to it, its mode stays.
///
/// # Errors
/// The file cannot be written; what was there is there still.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), FileFault> {
    filled(path, |file| file.write_all(bytes))
}

/// As [`write_whole`]; what fills the file is given, so that a test can give a full disk.
fn filled(path: &Path, fill: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> Result<(), FileFault> {
    let failed = |error: io::Error| not_written(path, &error);
    let real = behind_links(path);
    may_be_replaced(path, &real)?;
    sweep(&real);
    let mut file = AtomicWriteFile::open(&real).map_err(failed)?;
    // Nobody who sweeps takes a file away that is still being written.
    let _ = file.as_file().try_lock();
    fill(&mut file).map_err(failed)?;
    file.commit().map_err(failed)
}

/// Replacing asks the folder only, not the file: what must not be replaced is looked at first. It would turn a device
/// into a plain file, and overwrite what somebody protected.
fn may_be_replaced(path: &Path, real: &Path) -> Result<(), FileFault> {
    let refused = |trouble| Err(FileFault::whole(path.display().to_string(), trouble));
    match std::fs::metadata(real) {
        Ok(about) if about.is_dir() => refused(FileTrouble::FolderInItsPlace),
        Ok(about) if !about.is_file() => refused(FileTrouble::NoPlainFileInItsPlace),
        Ok(about) if about.permissions().readonly() => refused(FileTrouble::Protected),
        Ok(_) => Ok(()),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(()),
        Err(error) => Err(not_written(path, &error)),
    }
}

/// Why a file cannot be written. Of a folder that was removed while one worked in it, systems say this or that.
pub fn not_written(path: &Path, error: &io::Error) -> FileFault {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    let there = folder.map_or_else(|| std::env::current_dir().map(|_| ()), |own| own.metadata().map(|_| ()));
    let is_gone = there.is_err_and(|error| error.kind() == ErrorKind::NotFound);
    let why = if is_gone { Why::NotThere } else { why(error) };
    FileFault::whole(path.display().to_string(), FileTrouble::NotWritten(why))
}

/// The file that a symbolic link leads to, even if it does not exist yet.
pub fn behind_links(path: &Path) -> PathBuf {
    /// As many links in a row as Linux itself follows.
    const MOST_LINKS: usize = 40;
    let mut path = path.to_owned();
    for _ in 0..MOST_LINKS {
        let Ok(target) = std::fs::read_link(&path) else { break };
        path = path.parent().unwrap_or(Path::new("")).join(target);
    }
    path
}

/// One spelling for every way to a file; a file that is not there yet goes by its folder's.
pub fn canonical(path: &Path) -> PathBuf {
    let real = behind_links(path);
    if let Ok(whole) = real.canonicalize() {
        return whole;
    }
    let folder = real.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match (folder.canonicalize(), real.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => std::path::absolute(&real).unwrap_or(real),
    }
}

/// How long litter must have lain there untouched: a file that another program is just writing is never taken away.
const UNTOUCHED: Duration = Duration::from_secs(2);

/// Removes what a process that was killed in the last moment of a save of this file left beside it: the whole new file,
/// under a name that is not its own yet. Whatever could be something else stays.
fn sweep(real: &Path) {
    let folder = real.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let Some(name) = real.file_name().and_then(|n| n.to_str()) else { return };
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let found = entry.file_name();
        if found.to_str().is_some_and(|found| is_litter_of(name, found)) && is_abandoned(&entry) {
            let _ = std::fs::remove_file(entry.path());
        }
    }
}

/// `.NAME.` and six letters and digits as they are drawn by lot. Six small letters may be a word and six digits a date
/// (one in two hundred draws): such a file stays.
fn is_litter_of(name: &str, found: &str) -> bool {
    let lot = found.strip_prefix('.').and_then(|f| f.strip_prefix(name)).and_then(|f| f.strip_prefix('.'));
    lot.is_some_and(|lot| {
        lot.len() == 6
            && lot.bytes().all(|b| b.is_ascii_alphanumeric())
            && !lot.bytes().all(|b| b.is_ascii_lowercase())
            && !lot.bytes().all(|b| b.is_ascii_digit())
    })
}

/// A plain file that nobody holds or has just touched.
fn is_abandoned(entry: &std::fs::DirEntry) -> bool {
    let Ok(about) = entry.metadata() else { return false };
    let age = about.modified().ok().and_then(|at| at.elapsed().ok());
    about.is_file()
        && age.is_some_and(|age| age >= UNTOUCHED)
        && File::open(entry.path()).is_ok_and(|file| match file.try_lock() {
            Ok(()) => true,
            Err(TryLockError::WouldBlock | TryLockError::Error(_)) => false,
        })
}

#[cfg(test)]
mod tests {
    use baywright_planner::words::Language;

    use super::*;

    fn said(fault: &FileFault) -> String {
        Language::English.file_fault(fault)
    }

    fn folder(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("baywright-whole-{}-{name}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        std::fs::create_dir_all(&folder).unwrap();
        folder
    }

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn a_full_disk_leaves_the_old_file() {
        let folder = folder("full");
        let path = folder.join("bay.ron");
        std::fs::write(&path, "old").unwrap();
        // The system's own full disk, met halfway.
        let full = |file: &mut dyn Write| {
            file.write_all(b"half of the new")?;
            File::options().write(true).open("/dev/full")?.write_all(b"x")
        };
        let fault = filled(&path, full).unwrap_err();
        let sentence =
            "this file cannot be written: the disk is full; make room on it, or save on another one";
        assert_eq!(said(&fault), format!("{}: {sentence}.", path.display()));
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "old");
        assert_eq!(names(&folder), ["bay.ron"]);
        std::fs::remove_dir_all(folder).unwrap();
    }

    /// Errors that a test cannot bring about everywhere: permission does not bind the superuser.
    #[test]
    fn what_the_system_may_say() {
        let said_of = |kind: ErrorKind| said(&not_written(Path::new("b.ron"), &kind.into()));
        for (kind, part) in [
            (ErrorKind::PermissionDenied, "permission is refused; choose a place where you may write"),
            (ErrorKind::ReadOnlyFilesystem, "the disk is read-only; choose a place where you may write"),
            (ErrorKind::QuotaExceeded, "the disk is full; make room on it, or save on another one"),
            (
                ErrorKind::NotADirectory,
                "what should be a folder is a file; choose a place where you may write",
            ),
            (ErrorKind::NotFound, "there is no such folder; choose a place where you may write"),
        ] {
            assert_eq!(said_of(kind), format!("b.ron: this file cannot be written: {part}."));
        }
        let fault = said(&not_written(Path::new("b.ron"), &io::Error::from_raw_os_error(5)));
        assert!(
            !fault.contains("os error") && fault.contains("the disk does not answer as it should"),
            "{fault}"
        );
    }

    #[test]
    fn only_abandoned_litter_of_this_file_is_swept() {
        let folder = folder("litter");
        let old = std::time::SystemTime::now() - UNTOUCHED * 2;
        let all = [
            ".bay.ron.x7Qw2Z",
            ".bay.ron.backup",
            ".bay.ron.241105",
            ".bay.ron.x7Qw2",
            "bay.ron.x7Qw2Z",
            ".bays.ron.x7Qw2Z",
            ".bay.ron.h8Ld3R",
            ".bay.ron.n8W3rr",
        ];
        let open: Vec<File> = all
            .iter()
            .map(|name| {
                let file = File::create(folder.join(name)).unwrap();
                file.set_modified(old).unwrap();
                file
            })
            .collect();
        open[6].try_lock().unwrap();
        open[7].set_modified(std::time::SystemTime::now()).unwrap();
        write_whole(&folder.join("bay.ron"), b"x").unwrap();
        let mut expected: Vec<&str> = all[1..].to_vec();
        expected.push("bay.ron");
        expected.sort_unstable();
        assert_eq!(names(&folder), expected);
        std::fs::remove_dir_all(folder).unwrap();
    }
}
