//! Files that belong to a visit: copied beside its record, by their hash, so that none replaces another and none is changed unseen.

use std::io::Read;
use std::path::{Path, PathBuf};

use baywright_planner::model::fault::{FileFault, FileKind, FileTrouble};
use baywright_planner::model::record::{Attachment, AttachmentKind, StepId, VisitRecord};
use baywright_planner::record::Holds;

use super::RECORD_ENDING;
use super::chain::sha256;
use crate::text::not_read;
use crate::whole::{not_written, write_whole};

/// No attachment may be larger: a photograph has some 5 MB, a scan of many pages 20.
pub const LARGEST_ATTACHMENT: u64 = 64 * 1024 * 1024;

/// How the name of the folder beside a record ends: `NAME.visit` beside `NAME.visit.ron`.
pub const FOLDER_ENDING: &str = ".visit";

/// Endings of what may be attached: pictures, sheets, tables and texts. A program, a web page or an archive is none of a visit's papers.
const ENDINGS: [&str; 15] = [
    "png", "jpg", "jpeg", "heic", "webp", "tif", "tiff", "gif", "bmp", "pdf", "txt", "csv", "xml", "json",
    "log",
];

/// Copies a file beside the record and tells what to enter for it. One that lies there already is left as it is, if it still holds what its
/// hash says.
///
/// # Errors
/// It cannot be read, is empty, too large, or of a kind that is not taken; or the copy cannot be written.
pub fn attach(
    record: &Path,
    from: &Path,
    kind: AttachmentKind,
    step: Option<StepId>,
) -> Result<Attachment, FileFault> {
    let named = from.display().to_string();
    let name = from.file_name().and_then(|own| own.to_str());
    let name = name.ok_or_else(|| FileFault::whole(&named, FileTrouble::NameIsNoText))?;
    let ending = ending_of(name).ok_or_else(|| FileFault::whole(&named, FileTrouble::NoAttachment))?;
    let bytes = read_bounded(from)?;
    if bytes.is_empty() {
        return Err(FileFault::whole(named, FileTrouble::Empty(FileKind::Attachment)));
    }
    let hash = sha256(&bytes);
    let folder = folder_of(record);
    std::fs::create_dir_all(&folder).map_err(|error| not_written(&folder, &error))?;
    let to = folder.join(format!("{hash}.{ending}"));
    let is_there = read_bounded(&to).is_ok_and(|own| own == bytes);
    if !is_there {
        write_whole(&to, &bytes)?;
    }
    Ok(Attachment { file: name.to_owned(), sha256: hash, bytes: bytes.len() as u64, kind, step })
}

/// Where the copy of an attachment lies.
pub fn attached_path(record: &Path, attachment: &Attachment) -> PathBuf {
    let ending = ending_of(&attachment.file).unwrap_or("bin");
    folder_of(record).join(format!("{}.{ending}", attachment.sha256))
}

/// What an attachment's copy holds; `None` if it is not there any more, or holds something else than its hash says.
pub fn read_attached(record: &Path, attachment: &Attachment) -> Option<Vec<u8>> {
    let bytes = read_bounded(&attached_path(record, attachment)).ok()?;
    (sha256(&bytes) == attachment.sha256).then_some(bytes)
}

/// An attachment that counts and is not as it was attached.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LostAttachment {
    /// Its own name.
    pub file: String,
    /// Whether something else lies in its place; else nothing that can be read does.
    pub is_changed: bool,
}

/// The attachments of a record that are not there as they were attached.
pub fn lost_attachments(path: &Path, record: &VisitRecord) -> Vec<LostAttachment> {
    let all = Holds::of(record).attachments().into_iter().map(|own| own.what);
    let lost = all.filter(|own| read_attached(path, own).is_none());
    lost.map(|own| LostAttachment {
        file: own.file.clone(),
        is_changed: read_bounded(&attached_path(path, own)).is_ok(),
    })
    .collect()
}

fn folder_of(record: &Path) -> PathBuf {
    let name = record.file_name().map(|own| own.to_string_lossy().into_owned()).unwrap_or_default();
    let stem = name.strip_suffix(RECORD_ENDING).or_else(|| name.strip_suffix(".ron")).unwrap_or(&name);
    record.with_file_name(format!("{stem}{FOLDER_ENDING}"))
}

/// The ending of a file's name, if what is called so may be attached.
fn ending_of(name: &str) -> Option<&'static str> {
    let own = name.rsplit_once('.').filter(|(stem, _)| !stem.is_empty())?.1.to_lowercase();
    ENDINGS.into_iter().find(|ending| *ending == own)
}

fn read_bounded(path: &Path) -> Result<Vec<u8>, FileFault> {
    let file = path.display().to_string();
    let io = |error: std::io::Error| FileFault::whole(&file, not_read(FileKind::Attachment, &error));
    let about = std::fs::metadata(path).map_err(io)?;
    if about.is_dir() {
        return Err(FileFault::whole(file, FileTrouble::IsFolder(FileKind::Attachment)));
    }
    if !about.is_file() {
        return Err(FileFault::whole(file, FileTrouble::NoPlainFile(FileKind::Attachment)));
    }
    let mut bytes = Vec::new();
    // One byte more than allowed shows a file that grew in the meantime.
    let opened = std::fs::File::open(path).map_err(io)?;
    opened.take(LARGEST_ATTACHMENT + 1).read_to_end(&mut bytes).map_err(io)?;
    let size = (bytes.len() as u64).max(about.len());
    if size > LARGEST_ATTACHMENT {
        let (kind, most) = (FileKind::Attachment, LARGEST_ATTACHMENT);
        return Err(FileFault::whole(file, FileTrouble::TooLarge { kind, bytes: size, most }));
    }
    Ok(bytes)
}
