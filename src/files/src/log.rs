//! The log: what went wrong in the window, a line each, kept for whoever is asked for help. It lies in the platform's own folder
//! for the state of programs, is its owner's only, and never grows beyond two files of [`LARGEST`] bytes.

use std::fs::OpenOptions;
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use crate::gate::{Gate, for_owner};

/// The name of its file.
const NAME: &str = "log.txt";
/// The name that it has when a new one is begun; the one before that is thrown away.
const OLD: &str = "log-old.txt";
/// When it has so many bytes a new one is begun.
const LARGEST: u64 = 128 * 1024;
/// So many bytes of a sentence are kept.
const LONGEST_LINE: usize = 2_000;

/// Where the log is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LogFile {
    folder: PathBuf,
}

impl LogFile {
    /// In the platform's own folder for the state of programs (`$XDG_STATE_HOME/baywright`; elsewhere than on Linux the folder
    /// for a program's local data); `None` if the user has no home.
    pub fn own() -> Option<Self> {
        let folders = directories::ProjectDirs::from("", "", "baywright")?;
        let folder = folders.state_dir().unwrap_or_else(|| folders.data_local_dir());
        Some(Self::in_folder(folder.to_owned()))
    }

    /// In a folder, which need not exist.
    pub const fn in_folder(folder: PathBuf) -> Self {
        Self { folder }
    }

    /// Adds a line: a time, and what happened then. Line breaks and other control characters of it are spaces.
    ///
    /// # Errors
    /// The line is not written.
    pub fn add(&self, at: &str, what: &str) -> io::Result<()> {
        // Another window neither writes nor begins a new file meanwhile.
        let _gate = Gate::enter(&self.folder)?;
        let path = self.folder.join(NAME);
        let long = match plain_length(&path) {
            Ok(long) => long,
            Err(error) if error.kind() == ErrorKind::NotFound => 0,
            Err(error) => return Err(error),
        };
        if long >= LARGEST {
            std::fs::rename(&path, self.folder.join(OLD))?;
        }
        let line = format!("{at}  {}\n", in_one_line(what));
        let mut file = for_owner(OpenOptions::new().create(true).append(true)).open(&path)?;
        file.write_all(line.as_bytes())
    }
}

/// How many bytes a file has. A link, which may lead anywhere, a folder or a device is refused.
fn plain_length(path: &Path) -> io::Result<u64> {
    let about = std::fs::symlink_metadata(path)?;
    if about.is_file() { Ok(about.len()) } else { Err(ErrorKind::InvalidInput.into()) }
}

fn in_one_line(what: &str) -> String {
    let mut line: String = what.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    if line.len() > LONGEST_LINE {
        line.truncate(line.floor_char_boundary(LONGEST_LINE));
        line.push('\u{2026}');
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scratch(name: &str) -> PathBuf {
        std::env::temp_dir().join(format!("baywright-logs-{}-{name}", std::process::id()))
    }

    #[test]
    fn it_is_bounded_and_whole_lines() {
        let folder = scratch("bounded");
        let log = LogFile::in_folder(folder.clone());
        log.add("t", "one\ntwo\u{1b}[2J").unwrap();
        assert_eq!(std::fs::read_to_string(folder.join(NAME)).unwrap(), "t  one two [2J\n");
        for i in 0..400 {
            log.add("t", &format!("{i} {}", "\u{e9}".repeat(5_000))).unwrap();
        }
        let [new, old] = [NAME, OLD].map(|name| std::fs::read_to_string(folder.join(name)).unwrap());
        for text in [&new, &old] {
            assert!(text.len() as u64 <= LARGEST + LONGEST_LINE as u64 + 16, "{}", text.len());
            assert!(text.ends_with("\u{2026}\n") && text.lines().all(|line| line.starts_with("t  ")));
        }
        assert!(new.lines().last().unwrap().starts_with("t  399 "));
        // That, and the gate.
        assert_eq!(std::fs::read_dir(&folder).unwrap().count(), 3);
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[cfg(unix)]
    #[test]
    fn it_is_its_owners_only_and_follows_no_link() {
        use std::os::unix::fs::PermissionsExt;
        let folder = scratch("owner");
        let log = LogFile::in_folder(folder.clone());
        log.add("t", "one").unwrap();
        let mode = |path: &Path| path.metadata().unwrap().permissions().mode() & 0o777;
        assert_eq!((mode(&folder.join(NAME)), mode(&folder)), (0o600, 0o700));
        let other = folder.join("other");
        std::fs::rename(folder.join(NAME), &other).unwrap();
        std::os::unix::fs::symlink("other", folder.join(NAME)).unwrap();
        assert!(log.add("t", "two").is_err());
        assert_eq!(std::fs::read_to_string(other).unwrap(), "t  one\n");
        std::fs::remove_dir_all(folder).unwrap();
    }
}
