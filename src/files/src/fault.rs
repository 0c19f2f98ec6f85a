//! What is wrong with a file, in one sentence.

use std::fmt;
use std::io::ErrorKind;

pub use baywright_planner::model::validate::quoted;

/// One thing wrong with one file: where, what was found, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFault {
    /// The file, as it was named to the program; a built-in file is "NAME.ron (built in)".
    pub file: String,
    /// The line, from 1, where it is known.
    pub line: Option<u32>,
    /// The column, from 1, counted in characters.
    pub column: Option<u32>,
    /// The field's path, such as `sensors[0].at_mm`.
    pub field: Option<String>,
    /// What was found there; the whole sentence, without its full stop, if nothing is said to be allowed.
    pub found: String,
    /// What is allowed there; empty if `found` says everything.
    pub allowed: String,
}

impl FileFault {
    /// A fault of the file as a whole: what is wrong and what to do, in words of its own.
    pub fn whole(file: &str, sentence: impl Into<String>) -> Self {
        Self {
            file: file.to_owned(),
            line: None,
            column: None,
            field: None,
            found: sentence.into(),
            allowed: String::new(),
        }
    }
}

/// What Unix systems call EIO; it has no kind of its own.
const DISK_FAULT: i32 = 5;

/// Why the system refused a file, in plain words; `missing` is what is not there.
pub fn why(error: &std::io::Error, missing: &str) -> String {
    match error.kind() {
        ErrorKind::NotFound => missing.to_owned(),
        ErrorKind::PermissionDenied => "permission is refused".to_owned(),
        ErrorKind::IsADirectory => "it is a folder".to_owned(),
        ErrorKind::NotADirectory => "what should be a folder is a file".to_owned(),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "the disk is full".to_owned(),
        ErrorKind::FileTooLarge => "files as large as this are not allowed here".to_owned(),
        ErrorKind::InvalidFilename => {
            "the name, or the whole path, is longer than the disk allows".to_owned()
        }
        ErrorKind::InvalidInput if error.to_string().contains("NUL") => {
            "the name holds a character that no name may hold (NUL)".to_owned()
        }
        _ if error.raw_os_error() == Some(DISK_FAULT) && cfg!(unix) => {
            "the disk does not answer as it should; it may be failing, or was taken out".to_owned()
        }
        ErrorKind::ReadOnlyFilesystem => "the disk is read-only".to_owned(),
        _ => {
            // The system's own words, without its number for them.
            let words = error.to_string();
            let plain = words.split(" (os error").next().unwrap_or_default().to_lowercase();
            format!("the system says: {plain}")
        }
    }
}

impl fmt::Display for FileFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if let Some(line) = self.line {
            write!(f, ", line {line}")?;
        }
        if let Some(column) = self.column {
            write!(f, ", column {column}")?;
        }
        if let Some(field) = &self.field {
            write!(f, ", {field}")?;
        }
        if self.allowed.is_empty() {
            write!(f, ": {}.", self.found)
        } else {
            write!(f, ": found {}; allowed is {}.", self.found, self.allowed)
        }
    }
}

impl std::error::Error for FileFault {}

/// Names for a sentence: `"a", "b" or "c"`, cut when there are many.
pub fn one_of<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    const MOST_NAMES: usize = 12;
    let mut names: Vec<&str> = names.into_iter().collect();
    let more = names.len().saturating_sub(MOST_NAMES);
    names.truncate(MOST_NAMES);
    let mut quoted: Vec<String> = names.into_iter().map(quoted).collect();
    if more > 0 {
        quoted.push(format!("{more} more"));
    }
    match quoted.split_last() {
        None => "nothing, since there is none".to_owned(),
        Some((only, [])) => only.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
    }
}
