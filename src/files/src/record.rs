//! Records of visits: `NAME.visit.ron` beside the bay's layout, version 1, with its chain of hashes.
//!
//! A record is saved after every entry, so that nothing of it waits in a journal. What stood in the file when it was read keeps the hashes
//! that stood there, whatever they say: a chain that is broken stays broken, however often the record is saved.

mod attach;
mod chain;
mod convert;
mod file;
mod shown;

use std::path::{Path, PathBuf};

use baywright_planner::model::fault::{FileFault, FileKind, FileTrouble};
use baywright_planner::model::record::{ChainBreak, Entry, HeadSaid, VisitRecord};
use baywright_planner::model::validate;
use baywright_planner::record::{Refused, Told, append};
use ron::ser::PrettyConfig;

use crate::kind::or_other_kind;
use crate::parse::options;
use crate::text::Text;
use crate::version::{self, Reader};
use crate::whole::write_whole;
use convert::{begun_file, begun_of, entry_file, entry_of};
use file::{Hashed, RecordFile};

pub use attach::{
    LARGEST_ATTACHMENT, LostAttachment, attach, attached_path, lost_attachments, read_attached,
};
pub use shown::shown_attachments;

/// How the name of a record's file ends.
pub const RECORD_ENDING: &str = ".visit.ron";

/// Every version of records that can be read, the present one last.
const VERSIONS: &[Reader<RecordFile>] = &[Reader { version: version::RECORD, read: Text::parse }];

const HEAD: &str = "// The record of a visit, by Baywright: millimetres, degrees, the shop's own clock. Entries are only ever added; each hash\n\
     // holds the one before, so that a change by hand shows.\n";

/// A record with the hashes that it was read with, or was given since.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    record: VisitRecord,
    /// That of how it begins, then one for each entry.
    hashes: Vec<String>,
    broken: Option<ChainBreak>,
}

impl Kept {
    /// A record that is begun now.
    pub fn begin(record: VisitRecord) -> Self {
        let mut hashes = vec![chain::next(None, &begun_file(&record.begun))];
        for entry in &record.entries {
            hashes.push(chain::next(hashes.last().map(String::as_str), &entry_file(entry)));
        }
        Self { record, hashes, broken: None }
    }

    /// The record.
    pub const fn record(&self) -> &VisitRecord {
        &self.record
    }

    /// The hash of the last entry, or of the beginning where there is none: it stands for all.
    pub fn head(&self) -> &str {
        self.hashes.last().map_or("", String::as_str)
    }

    /// The hash of an entry, by its place from 0.
    pub fn hash_of(&self, nth: usize) -> Option<&str> {
        self.hashes.get(nth + 1).map(String::as_str)
    }

    /// The first entry that does not follow from what stands before it, as it was read; `None`: all do.
    pub const fn broken(&self) -> Option<ChainBreak> {
        self.broken
    }

    /// What a hash on paper says of this record.
    pub fn said_by(&self, head: &str) -> HeadSaid {
        said_by(&self.hashes, head)
    }

    /// Enters something at its end.
    ///
    /// # Errors
    /// It makes no sense; then it is as it was.
    pub fn append(&mut self, entry: Entry) -> Result<Told, Refused> {
        let hash = chain::next(self.hashes.last().map(String::as_str), &entry_file(&entry));
        let told = append(&mut self.record, entry)?;
        self.hashes.push(hash);
        Ok(told)
    }

    fn file(&self) -> RecordFile {
        let entries = self.record.entries.iter().zip(self.hashes.iter().skip(1));
        let hashed =
            |(entry, hash): (&Entry, &String)| Hashed { hash: hash.clone(), said: entry_file(entry) };
        RecordFile {
            version: version::RECORD,
            begun: Hashed {
                hash: self.hashes.first().cloned().unwrap_or_default(),
                said: begun_file(&self.record.begun),
            },
            entries: entries.map(hashed).collect(),
        }
    }
}

fn said_by(hashes: &[String], head: &str) -> HeadSaid {
    // As it is typed from paper, where it stands in groups.
    let head: String = head.chars().filter(|own| !own.is_whitespace()).collect::<String>().to_lowercase();
    match hashes.iter().rposition(|own| *own == head) {
        Some(at) if at + 1 == hashes.len() => HeadSaid::Same,
        Some(at) => HeadSaid::Earlier { entries: at, since: hashes.len() - at - 1 },
        None => HeadSaid::Unknown,
    }
}

/// What the chain of a record's file says, without asking whether what stands in it makes sense.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordChain {
    /// The job.
    pub job: String,
    /// How many entries there are.
    pub entries: usize,
    /// The hash of the last.
    pub head: String,
    /// The first that does not follow; `None`: all do.
    pub broken: Option<ChainBreak>,
    hashes: Vec<String>,
}

impl RecordChain {
    /// What a hash on paper says of it.
    pub fn said_by(&self, head: &str) -> HeadSaid {
        said_by(&self.hashes, head)
    }
}

/// Reads the chain of a record's file.
///
/// # Errors
/// It is no record that can be read.
pub fn record_chain(path: &Path) -> Result<RecordChain, FileFault> {
    let text = Text::read(path, FileKind::Record)?;
    let file = record_file(&text)?;
    let hashes = hashes_of(&file);
    Ok(RecordChain {
        broken: chain::broken(&file, &text.text),
        entries: file.entries.len(),
        head: hashes.last().cloned().unwrap_or_default(),
        job: file.begun.said.job,
        hashes,
    })
}

/// Loads a record.
///
/// # Errors
/// Everything found wrong with it. That its chain is broken is no such thing: [`Kept::broken`] tells it.
pub fn load_record(path: &Path) -> Result<Kept, Vec<FileFault>> {
    record_in(&Text::read(path, FileKind::Record).map_err(|fault| vec![fault])?)
}

/// A record from a text in hand; `file` names it in sentences.
///
/// # Errors
/// As [`load_record`].
pub fn parse_record(file: &str, text: &str) -> Result<Kept, Vec<FileFault>> {
    record_in(&Text::of_bytes(file, text.as_bytes().to_vec(), FileKind::Record).map_err(|fault| vec![fault])?)
}

fn record_file(text: &Text) -> Result<RecordFile, FileFault> {
    or_other_kind(text, FileKind::Record, version::read(text, VERSIONS))
}

fn hashes_of(file: &RecordFile) -> Vec<String> {
    std::iter::once(&file.begun.hash).chain(file.entries.iter().map(|own| &own.hash)).cloned().collect()
}

fn record_in(text: &Text) -> Result<Kept, Vec<FileFault>> {
    let file = record_file(text).map_err(|fault| vec![fault])?;
    let record = VisitRecord {
        begun: begun_of(&file.begun.said),
        entries: file.entries.iter().map(|own| entry_of(&own.said)).collect(),
    };
    let faults = validate::visit_record(&record);
    if !faults.is_empty() {
        return Err(text.located(faults));
    }
    Ok(Kept { broken: chain::broken(&file, &text.text), hashes: hashes_of(&file), record })
}

/// The text of a record's file.
///
/// # Errors
/// The record breaks an invariant, so that its file could not be read again.
pub fn record_text(kept: &Kept) -> Result<String, Vec<FileFault>> {
    let name = format!("{}{RECORD_ENDING}", kept.record.begun.job);
    let faults = validate::visit_record(&kept.record);
    if !faults.is_empty() {
        return Err(Text::new(name, "").located(faults));
    }
    // Beyond this depth a record stands on one line, as it is hashed.
    let pretty = PrettyConfig::new().new_line("\n").indentor("    ").depth_limit(2).struct_names(false);
    let body = options()
        .to_string_pretty(&kept.file(), pretty)
        .map_err(|_| vec![FileFault::whole(&name, FileTrouble::NotInText)])?;
    let text = format!("{HEAD}{body}\n");
    parse_record(&name, &text)?;
    Ok(text)
}

/// The whole record as JSON: the fields of its file.
///
/// # Errors
/// It cannot be put into text.
pub fn record_json(kept: &Kept) -> Result<serde_json::Value, FileFault> {
    let name = format!("{}{RECORD_ENDING}", kept.record.begun.job);
    serde_json::to_value(kept.file()).map_err(|_| FileFault::whole(name, FileTrouble::NotInText))
}

/// Saves a record: the file is replaced whole or left as it was, a symbolic link keeps pointing to it, its mode stays.
///
/// # Errors
/// The record breaks an invariant, or the file cannot be written.
pub fn save_record(path: &Path, kept: &Kept) -> Result<(), Vec<FileFault>> {
    write_whole(path, record_text(kept)?.as_bytes()).map_err(|fault| vec![fault])
}

/// Where the record of a job is kept: in the layout's folder, by the job's number; a number is added while the name is taken.
pub fn free_record_path(folder: &Path, job: &str) -> PathBuf {
    let stem: String =
        job.chars().map(|c| if c.is_alphanumeric() || matches!(c, '-' | '_') { c } else { '-' }).collect();
    let stem = if stem.is_empty() { "visit".to_owned() } else { stem };
    let numbered = (2..).map(|n: usize| format!("{stem}-{n}"));
    let mut names = std::iter::once(stem.clone()).chain(numbered);
    let is_free = |name: &String| {
        let at = |ending: &str| std::fs::symlink_metadata(folder.join(format!("{name}{ending}"))).is_err();
        at(RECORD_ENDING) && at(attach::FOLDER_ENDING)
    };
    let name = names.find(is_free).unwrap_or(stem);
    folder.join(format!("{name}{RECORD_ENDING}"))
}

/// The records of a folder, by name.
///
/// # Errors
/// The folder cannot be read.
pub fn records_in(folder: &Path) -> Result<Vec<PathBuf>, FileFault> {
    let failed = |error: std::io::Error| {
        FileFault::whole(folder.display().to_string(), crate::text::not_read(FileKind::Record, &error))
    };
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        if path.is_file() && path.to_string_lossy().ends_with(RECORD_ENDING) {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}
