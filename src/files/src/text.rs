//! Reading a file's text, bounded and checked.

use std::io::Read;
use std::path::Path;

use baywright_planner::model::fault::{Fault, FileFault, FileKind, FileTrouble};

use crate::fault::why;
use crate::spot;

/// No file may be larger: a hundred times the largest layout by hand, and read in a moment.
pub const LARGEST_FILE: u64 = 8 * 1024 * 1024;

/// The text of a file and the name it goes by in sentences.
#[derive(Clone, Debug)]
pub struct Text {
    /// As named to the program.
    pub file: String,
    /// Without byte-order mark.
    pub text: String,
}

impl Text {
    /// A text that is already in hand.
    pub fn new(file: impl Into<String>, text: &str) -> Self {
        Self { file: file.into(), text: text.strip_prefix('\u{feff}').unwrap_or(text).to_owned() }
    }

    /// Reads a file.
    ///
    /// # Errors
    /// Not there, not a file, not readable, too large, not text, empty.
    pub fn read(path: &Path, kind: FileKind) -> Result<Self, FileFault> {
        let file = path.display().to_string();
        let io = |error: std::io::Error| FileFault::whole(&file, not_read(kind, &error));
        let about = std::fs::metadata(path).map_err(io)?;
        if about.is_dir() {
            return Err(FileFault::whole(&file, FileTrouble::IsFolder(kind)));
        }
        if !about.is_file() {
            return Err(FileFault::whole(&file, FileTrouble::NoPlainFile(kind)));
        }
        if about.len() > LARGEST_FILE {
            return Err(too_large(&file, kind, about.len()));
        }
        // A file that grew in the meantime is found too large all the same.
        Self::read_from(&file, &mut std::fs::File::open(path).map_err(io)?, kind)
    }

    /// Reads what comes to its end, or until it is too much.
    ///
    /// # Errors
    /// Not readable, too large, not text, empty.
    pub fn read_from(file: &str, from: &mut dyn Read, kind: FileKind) -> Result<Self, FileFault> {
        let mut bytes = Vec::new();
        // One byte more than allowed shows that there is more.
        from.take(LARGEST_FILE + 1)
            .read_to_end(&mut bytes)
            .map_err(|error| FileFault::whole(file, not_read(kind, &error)))?;
        Self::of_bytes(file, bytes, kind)
    }

    /// The text in some bytes.
    ///
    /// # Errors
    /// Too large, not text, empty.
    pub fn of_bytes(file: &str, bytes: Vec<u8>, kind: FileKind) -> Result<Self, FileFault> {
        if bytes.len() as u64 > LARGEST_FILE {
            return Err(too_large(file, kind, bytes.len() as u64));
        }
        let text = String::from_utf8(bytes).map_err(|error| {
            let good = error.utf8_error().valid_up_to();
            let bytes = error.as_bytes();
            let lines = 1 + bytes.iter().take(good).filter(|&&b| b == b'\n').count();
            let byte = bytes.get(good).copied().unwrap_or_default();
            FileFault {
                line: u32::try_from(lines).ok(),
                ..FileFault::whole(file, FileTrouble::NoText(kind, byte))
            }
        })?;
        let text = Self::new(file, &text);
        if let Some(at) = text.text.find(|c: char| c.is_control() && !matches!(c, '\n' | '\r' | '\t')) {
            let (line, column) = spot::line_and_column(&text.text, at);
            return Err(FileFault {
                line: Some(line),
                column: Some(column),
                ..FileFault::whole(file, FileTrouble::ControlCharacter(kind))
            });
        }
        if text.text.trim().is_empty() {
            return Err(FileFault::whole(file, FileTrouble::Empty(kind)));
        }
        Ok(text)
    }

    /// Faults of the model, located in this text. A long list is cut.
    pub fn located(&self, faults: Vec<Fault>) -> Vec<FileFault> {
        /// Nobody reads more; locating each costs a walk through the file.
        const MOST_FAULTS: usize = 50;
        let count = faults.len();
        let mut located: Vec<FileFault> = faults
            .into_iter()
            .take(MOST_FAULTS)
            .map(|fault| {
                let place = spot::find(&self.text, &fault.field);
                FileFault::inside(&self.file, place, fault)
            })
            .collect();
        if count > MOST_FAULTS {
            located.push(FileFault::whole(&self.file, FileTrouble::More(count - MOST_FAULTS)));
        }
        located
    }
}

fn too_large(file: &str, kind: FileKind, bytes: u64) -> FileFault {
    FileFault::whole(file, FileTrouble::TooLarge { kind, bytes, most: LARGEST_FILE })
}

/// Why a file cannot be read.
pub fn not_read(kind: FileKind, error: &std::io::Error) -> FileTrouble {
    FileTrouble::NotRead { kind, why: why(error), built_in: None }
}
