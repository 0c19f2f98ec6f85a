//! How a command ended.

use std::io::{self, ErrorKind};

use crate::command_line::trouble::{Errors, Trouble};

/// How a command ended; over several answers the worst counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// The space is ready, or what was asked for is done.
    Ready,
    /// The space is not ready.
    NotReady,
    /// Something given to the program could not be read or found.
    NotRead,
    /// Something could not be written.
    NotWritten,
}

impl Outcome {
    /// The program's exit status.
    pub const fn status(self) -> u8 {
        match self {
            Self::Ready => 0,
            Self::NotReady => 1,
            Self::NotRead => 2,
            Self::NotWritten => 3,
        }
    }
}

/// The outcome of writing to the terminal. A reader that went away (as `head` does) is no fault.
pub(crate) fn said(written: io::Result<()>, errors: &mut Errors<'_>) -> Outcome {
    match written {
        Ok(()) => Outcome::Ready,
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Outcome::Ready,
        Err(error) => {
            errors.tell(Trouble::NotPrinted(error.to_string()));
            Outcome::NotWritten
        }
    }
}
