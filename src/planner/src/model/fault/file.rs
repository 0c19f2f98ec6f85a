//! What is wrong with a file.

use super::{Choice, DrawingTrouble, Fault};

/// One thing wrong with one file.
#[derive(Clone, Debug, PartialEq)]
pub struct FileFault {
    /// The file, as it was named to the program.
    pub file: String,
    /// The line, from 1, where it is known.
    pub line: Option<u32>,
    /// The column, from 1, counted in characters.
    pub column: Option<u32>,
    /// What is wrong.
    pub wrong: Box<Wrong>,
}

/// What is wrong with a file.
#[derive(Clone, Debug, PartialEq)]
pub enum Wrong {
    /// Something in it.
    Inside(Fault),
    /// The file as a whole.
    Whole(FileTrouble),
}

impl FileFault {
    /// A fault of the file as a whole.
    pub fn whole(file: impl Into<String>, trouble: FileTrouble) -> Self {
        Self { file: file.into(), line: None, column: None, wrong: Box::new(Wrong::Whole(trouble)) }
    }

    /// A fault in the file, at a line and column from 1 if they are known.
    pub fn inside(file: impl Into<String>, place: Option<(u32, u32)>, fault: Fault) -> Self {
        let (line, column) = place.unzip();
        Self { file: file.into(), line, column, wrong: Box::new(Wrong::Inside(fault)) }
    }

    /// The field that it is about, if it is about one.
    pub fn field(&self) -> Option<&str> {
        match &*self.wrong {
            Wrong::Inside(fault) => Some(fault.field.as_str()).filter(|field| !field.is_empty()),
            Wrong::Whole(_) => None,
        }
    }
}

/// What is wrong with a file as a whole.
#[derive(Clone, Debug, PartialEq)]
pub enum FileTrouble {
    /// The system does not let it be read.
    NotRead {
        /// What was to be read.
        kind: FileKind,
        /// Why it cannot be.
        why: Why,
        /// The built-in ones that could be read in its stead.
        built_in: Option<Box<Choice>>,
    },
    /// It is a folder.
    IsFolder(FileKind),
    /// It is a device, a pipe or the like.
    NoPlainFile(FileKind),
    /// It is larger than is read.
    TooLarge {
        /// What was to be read.
        kind: FileKind,
        /// How large it is.
        bytes: u64,
        /// How large it may be.
        most: u64,
    },
    /// It is no text: the byte that is none.
    NoText(FileKind, u8),
    /// It holds a control character.
    ControlCharacter(FileKind),
    /// Nothing is in it.
    Empty(FileKind),
    /// It is a file of ours of another kind.
    OtherKind {
        /// What was to be read.
        wanted: FileKind,
        /// What it is.
        found: FileKind,
    },
    /// So many more faults like those before.
    More(usize),
    /// Its name is no text.
    NameIsNoText,

    /// It is of a kind that is not attached to a record.
    NoAttachment,

    /// It is a picture of a kind that is not read, or none.
    PictureKind(PictureKind),
    /// It has more pixels than are read.
    TooManyPixels {
        /// Pixels across.
        width: u32,
        /// Pixels from top to bottom.
        height: u32,
        /// As many as it may have a side.
        most_a_side: u32,
        /// As many as it may have in all.
        most: u64,
    },
    /// It is a picture stored as it is not read here.
    PictureManner,
    /// It is a picture for which there is not enough memory.
    PictureMemory,
    /// It is a picture that is damaged.
    PictureDamaged,

    /// It is a drawing for another program of which no room can be made.
    Drawing(DrawingTrouble),

    /// The system does not let it be written.
    NotWritten(Why),
    /// A folder is where it would be written.
    FolderInItsPlace,
    /// A device or the like is where it would be written.
    NoPlainFileInItsPlace,
    /// It is protected against writing.
    Protected,
    /// It is a link to this file, which is of another kind than the link's name says.
    LinkToOtherKind(String),
    /// It is what the output is made from.
    IsInput,
    /// It cannot be put into text.
    NotInText,
    /// There is no folder in which a copy could be written.
    NoHome,
    /// The folder has as many copies as it may have.
    FullOfCopies,

    /// It cannot be noted in this folder that a file is open.
    NotHeld(Why),
    /// Unsaved work cannot be kept here against a crash.
    NotKept(Why),

    /// It is a layout without an arrangement.
    NoArrangement,
    /// It is a layout whose arrangement cannot be judged.
    CannotBeJudged,
}

/// What a file is to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// A bay layout.
    Layout,
    /// A vehicle profile.
    Profile,
    /// A folder of vehicle profiles.
    ProfileFolder,
    /// A list of what asks for aimings.
    TriggerList,
    /// A shop's settings.
    Shop,
    /// A picture.
    Picture,
    /// A table of floor levels.
    Levels,
    /// A drawing of another program (DXF).
    Drawing,
    /// The record of a visit.
    Record,
    /// A file that is attached to one.
    Attachment,
    /// Any file of ours.
    Any,
}

/// What a file is that is no picture which is read here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureKind {
    /// An empty file.
    Empty,
    /// A GIF picture.
    Gif,
    /// A BMP picture.
    Bmp,
    /// A TIFF picture.
    Tiff,
    /// A WebP picture.
    WebP,
    /// A HEIC picture.
    Heic,
    /// An AVIF picture.
    Avif,
    /// A PDF document.
    Pdf,
    /// A DWG drawing.
    Dwg,
    /// An SVG or another XML file.
    Xml,
    /// No picture that is known.
    None,
}

/// Why the system, or the program itself, refuses something with a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// It, or its folder, is not there.
    NotThere,
    /// Permission is refused.
    Permission,
    /// It is a folder.
    IsFolder,
    /// What should be a folder is a file.
    NoFolder,
    /// The disk, or one's share of it, is full.
    DiskFull,
    /// Files as large as this are not allowed.
    FileTooLarge,
    /// The name or the path is too long.
    NameTooLong,
    /// The name holds a NUL.
    NulInName,
    /// The disk fails.
    DiskFails,
    /// The disk is read-only.
    ReadOnly,
    /// The system takes what was asked for as wrong.
    Invalid,
    /// It is there already.
    Exists,
    /// Something else uses it.
    Busy,
    /// It is a program that runs.
    Running,
    /// Too many files are open.
    TooManyOpen,
    /// Links that lead in a circle.
    LinksInCircle,
    /// It lies on another disk.
    OtherDisk,
    /// It lies on another machine, where it changed.
    Stale,
    /// The other machine does not answer in time.
    TimedOut,
    /// There is not enough memory.
    Memory,
    /// The disk does not know how to do that.
    Unsupported,
    /// The system interrupted it.
    Interrupted,
    /// Nothing more was written.
    WroteNothing,
    /// It ended too early.
    EndedEarly,
    /// Another window of the program does not let go of the folder.
    GateShut,
    /// There is too much unsaved work at once.
    TooMuchWork,
    /// The folder is full of what dead sessions left.
    FullOfJournals,
    /// The work is too large to be kept.
    WorkTooLarge,
    /// The name or path of the work is too long to be kept.
    WorkNameTooLong,
    /// Something else: the system's own number for it, if it has one.
    Other(Option<i32>),
}

/// What may help against a refusal to write.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Instead {
    /// Room on the disk, or another disk.
    Room,
    /// Another name.
    OtherName,
    /// Another place.
    OtherPlace,
}

impl Why {
    /// What may help, if this is why a file cannot be written.
    pub const fn instead(self) -> Instead {
        match self {
            Self::DiskFull => Instead::Room,
            Self::NameTooLong | Self::NulInName | Self::Invalid => Instead::OtherName,
            Self::NotThere
            | Self::Permission
            | Self::IsFolder
            | Self::NoFolder
            | Self::FileTooLarge
            | Self::DiskFails
            | Self::ReadOnly
            | Self::Exists
            | Self::Busy
            | Self::Running
            | Self::TooManyOpen
            | Self::LinksInCircle
            | Self::OtherDisk
            | Self::Stale
            | Self::TimedOut
            | Self::Memory
            | Self::Unsupported
            | Self::Interrupted
            | Self::WroteNothing
            | Self::EndedEarly
            | Self::GateShut
            | Self::TooMuchWork
            | Self::FullOfJournals
            | Self::WorkTooLarge
            | Self::WorkNameTooLong
            | Self::Other(_) => Instead::OtherPlace,
        }
    }
}
