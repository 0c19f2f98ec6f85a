//! What is wrong with a file, in one sentence.

use super::allowed::{allowed, did_you_mean};
use super::drawing::drawing;
use super::found::found;
use crate::model::fault::{Choice, FileFault, FileKind, FileTrouble, Instead, PictureKind, Why, Wrong};
use crate::words::Lengths;
use crate::words::english::screen;

/// What is wrong with a file: where, what was found, what is allowed.
pub fn file_fault(fault: &FileFault) -> String {
    let mut sentence = fault.file.clone();
    if let Some(line) = fault.line {
        sentence += &format!(", line {line}");
    }
    if let Some(column) = fault.column {
        sentence += &format!(", column {column}");
    }
    if let Some(field) = fault.field() {
        sentence += &format!(", {field}");
    }
    match &*fault.wrong {
        Wrong::Inside(fault) => {
            format!(
                "{sentence}: found {}; allowed is {}.",
                found(fault, Lengths::InFile),
                allowed(&fault.allowed, Lengths::InFile)
            )
        }
        Wrong::Whole(trouble) => format!("{sentence}: {}.", self::trouble(trouble)),
    }
}

fn trouble(trouble: &FileTrouble) -> String {
    match trouble {
        FileTrouble::NotRead { kind, why, built_in } => format!(
            "{} cannot be read here: {}{}",
            a(*kind),
            self::why(*why, "there is no file of that name"),
            built_in.as_deref().map(built_in_bays).unwrap_or_default()
        ),
        FileTrouble::IsFolder(FileKind::Picture) => {
            "this is a folder; name the file of a picture in it".to_owned()
        }
        FileTrouble::IsFolder(FileKind::Drawing) => {
            "this is a folder; name the file of a drawing in it, which ends in .dxf".to_owned()
        }
        FileTrouble::IsFolder(FileKind::Attachment) => {
            "this is a folder; name the file in it that is to be attached".to_owned()
        }
        FileTrouble::IsFolder(kind) => {
            format!("this is a folder; name the file of {} in it, which ends in .ron", a(*kind))
        }
        FileTrouble::NoPlainFile(kind) => format!("this is no plain file; name the file of {}", a(*kind)),
        FileTrouble::TooLarge { kind: FileKind::Picture, bytes, most } => {
            format!("this file has {bytes} bytes; a picture of at most {most} bytes is read: make it smaller")
        }
        FileTrouble::TooLarge { kind: _, bytes, most } => {
            format!("this file has {bytes} bytes; at most {most} bytes are read")
        }
        FileTrouble::NoText(kind, byte) => {
            format!("the byte 0x{byte:02X} is no text; save {} as plain text in UTF-8", a(*kind))
        }
        FileTrouble::ControlCharacter(kind) => {
            format!("a control character, as in a file that is not text; {} is plain text", a(*kind))
        }
        FileTrouble::Empty(FileKind::Attachment) => "this is an empty file: nothing to attach".to_owned(),
        FileTrouble::Empty(kind) => {
            format!("this is an empty file; {} starts with `(version: 1,`", a(*kind))
        }
        FileTrouble::OtherKind { wanted, found } => {
            format!("this is {}, not {}", plainly(*found), plainly(*wanted))
        }
        FileTrouble::More(count) => format!("{count} more things are wrong like these"),
        FileTrouble::NameIsNoText => {
            "this file's name is no text; give it a name in plain letters".to_owned()
        }

        FileTrouble::NoAttachment => {
            "a file of this kind is not attached; pictures, PDF, text, CSV, XML and JSON are".to_owned()
        }

        FileTrouble::PictureKind(kind) => format!(
            "this is {}, which is not read here; save the picture as PNG or JPEG",
            picture_kind(*kind)
        ),
        FileTrouble::TooManyPixels { width, height, most_a_side, most } => format!(
            "this picture has {width} by {height} pixels; at most {most_a_side} a side and {} million in all are \
             read: make it smaller",
            most / 1_000_000
        ),
        FileTrouble::PictureManner => {
            "this picture is stored in a manner that is not read here; save it again as a plain PNG"
                .to_owned()
        }
        FileTrouble::PictureMemory => {
            "there is not enough memory for this picture; make it smaller".to_owned()
        }
        FileTrouble::PictureDamaged => {
            "this picture is damaged and cannot be read to its end; copy it again from where it came"
                .to_owned()
        }

        FileTrouble::Drawing(trouble) => drawing(trouble),

        FileTrouble::NotWritten(why) => format!(
            "this file cannot be written: {}; {}",
            self::why(*why, "there is no such folder"),
            what_to_do(why.instead())
        ),
        FileTrouble::FolderInItsPlace => {
            "this cannot be written: it is a folder; name a file in it, such as my-bay.ron".to_owned()
        }
        FileTrouble::NoPlainFileInItsPlace => {
            "this cannot be written: it is no plain file; choose another name".to_owned()
        }
        FileTrouble::Protected => {
            "this file cannot be written: it is protected against writing; save under another \
                                   name, or take the protection off"
                .to_owned()
        }
        FileTrouble::LinkToOtherKind(file) => format!(
            "this file cannot be written: it is a link to {file}, which is another kind of file than the link's name \
             says; choose another name"
        ),
        FileTrouble::IsInput => {
            "this file cannot be written: it is what this is made from; choose another name".to_owned()
        }
        FileTrouble::NotInText => {
            "this cannot be written as text; look for a figure that is no number".to_owned()
        }
        FileTrouble::NoHome => "no copy can be written: there is no home folder to write it into".to_owned(),
        FileTrouble::FullOfCopies => "this folder is full of kept copies; delete some".to_owned(),

        FileTrouble::NotHeld(why) => format!(
            "it cannot be noted here that a file is open: {}; do not open it in a second window",
            self::why(*why, "the folder is not there")
        ),
        FileTrouble::NotKept(why) => format!(
            "unsaved work cannot be kept here against a crash: {}; save your work soon",
            self::why(*why, "the folder is not there any more")
        ),

        FileTrouble::NoArrangement => {
            "this layout has no set-up to show; it needs one under `arrangements`".to_owned()
        }
        FileTrouble::CannotBeJudged => screen::TEXTS.cannot_be_judged.to_owned(),
    }
}

/// What a file is to be.
const fn a(kind: FileKind) -> &'static str {
    match kind {
        FileKind::Layout => "a bay layout",
        FileKind::Profile => "a vehicle profile",
        FileKind::ProfileFolder => "a folder of vehicle profiles",
        FileKind::TriggerList => "a list of what asks for aimings",
        FileKind::Shop => "a shop's settings",
        FileKind::Picture => "a picture",
        FileKind::Levels => "a table of floor levels",
        FileKind::Drawing => "a DXF drawing",
        FileKind::Record => "a record of a visit",
        FileKind::Attachment => "an attachment",
        FileKind::Any => "a file",
    }
}

/// The same for who has the wrong file in hand.
const fn plainly(kind: FileKind) -> &'static str {
    match kind {
        FileKind::Layout => "a bay",
        FileKind::Profile => "a car",
        other => a(other),
    }
}

fn built_in_bays(choice: &Choice) -> String {
    let names: Vec<&str> = choice.names.iter().map(|id| id.as_str()).collect();
    let meant = did_you_mean(choice.meant.as_ref().map(|id| id.as_str()));
    format!("; built-in bays are {}{meant}", names.join(", "))
}

const fn picture_kind(kind: PictureKind) -> &'static str {
    match kind {
        PictureKind::Empty => "an empty file",
        PictureKind::Gif => "a GIF picture",
        PictureKind::Bmp => "a BMP picture",
        PictureKind::Tiff => "a TIFF picture",
        PictureKind::WebP => "a WebP picture",
        PictureKind::Heic => "a HEIC picture",
        PictureKind::Avif => "an AVIF picture",
        PictureKind::Pdf => "a PDF document",
        PictureKind::Dwg => "a DWG drawing",
        PictureKind::Xml => "an SVG or another XML file",
        PictureKind::None => "no picture",
    }
}

/// What to do about a file that cannot be written.
const fn what_to_do(instead: Instead) -> &'static str {
    match instead {
        Instead::Room => "make room on it, or save on another one",
        Instead::OtherName => "choose another name",
        Instead::OtherPlace => "choose a place where you may write",
    }
}

/// Why something is refused; `missing` is what is not there.
fn why(why: Why, missing: &str) -> String {
    let system = match why {
        Why::NotThere => return missing.to_owned(),
        Why::Permission => return "permission is refused".to_owned(),
        Why::IsFolder => return "it is a folder".to_owned(),
        Why::NoFolder => return "what should be a folder is a file".to_owned(),
        Why::DiskFull => return "the disk is full".to_owned(),
        Why::FileTooLarge => return "files as large as this are not allowed here".to_owned(),
        Why::NameTooLong => {
            return "the name, or the whole path, is too long for a file to be written whole".to_owned();
        }
        Why::NulInName => return "the name holds a character that no name may hold (NUL)".to_owned(),
        Why::DiskFails => {
            return "the disk does not answer as it should; it may be failing, or was taken out".to_owned();
        }
        Why::ReadOnly => return "the disk is read-only".to_owned(),
        Why::Other(Some(number)) => return format!("the system says: error {number}"),
        Why::Other(None) => return "the system does not say why".to_owned(),
        Why::Invalid => "invalid argument",
        Why::Exists => "file exists",
        Why::Busy => "device or resource busy",
        Why::Running => "text file busy",
        Why::TooManyOpen => "too many open files",
        Why::LinksInCircle => "too many levels of symbolic links",
        Why::OtherDisk => "invalid cross-device link",
        Why::Stale => "stale file handle",
        Why::TimedOut => "connection timed out",
        Why::Memory => "cannot allocate memory",
        Why::Unsupported => "operation not supported",
        Why::Interrupted => "interrupted system call",
        Why::WroteNothing => "write zero",
        Why::EndedEarly => "unexpected end of file",
        Why::GateShut => "another window of the program does not let go of it",
        Why::TooMuchWork => "there is too much unsaved work at once",
        Why::FullOfJournals => "the folder is full of journals of dead sessions",
        Why::WorkTooLarge => "the work is too large",
        Why::WorkNameTooLong => "the name or the path of the work is too large",
    };
    format!("the system says: {system}")
}
