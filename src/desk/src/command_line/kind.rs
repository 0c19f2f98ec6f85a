//! Of what kind a trouble is, and what it is about.

use schemars::JsonSchema;
use serde::Serialize;

/// What kind of thing went wrong. Those of the command line: what was given is no command, no option, lacks, or is not among
/// what is allowed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Kind {
    UnknownCommand,
    UnknownOption,
    MissingArgument,
    WrongArgument,
    /// There is no file of that name.
    NoSuchFile,
    /// The system does not let it be read, or it is no plain file, or too large.
    CannotRead,
    /// It is no text, or empty.
    NoText,
    /// It is a file of this program of another kind: a car where a bay is asked for.
    OtherFile,
    /// It is no picture that is read.
    Picture,
    /// It is no drawing of another program that is read, or no room can be made of it as asked.
    Drawing,
    /// It cannot be written.
    CannotWrite,
    /// So many more of the same kind are not told one by one.
    More,
    /// The text of the file is not as the format has it.
    Syntax,
    /// A version of the format that is not read.
    Version,
    MissingField,
    UnknownField,
    /// A field, or a name, that is there twice.
    Twice,
    /// A figure outside its range.
    OutOfRange,
    /// Too few or too many of them.
    Count,
    /// A name of nothing that is there.
    UnknownName,
    /// A text that is no name, or too long.
    Text,
    /// A shape that is none.
    Shape,
    /// Figures that do not go together.
    Misfit,
    /// No set-up of that name, or none at all.
    NoArrangement,
    /// A set-up that nothing can be said of.
    CannotBeJudged,
    /// No window can be opened.
    NoWindow,
}

/// Where it is and what it is about, in words; what is not known is left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct About {
    pub(crate) file: Option<String>,
    pub(crate) line: Option<u32>,
    pub(crate) column: Option<u32>,
    pub(crate) field: Option<String>,
    pub(crate) found: Option<String>,
    pub(crate) allowed: Option<String>,
    pub(crate) meant: Option<String>,
}
