//! The step from version 9 of a bay layout to version 10, which tells of an arrangement what the tape read between the marks that
//! were laid for it. That may be left out, so that both are read as the same record.

use super::LayoutFile;

/// The step to version 10.
pub fn tenth(ninth: LayoutFile) -> LayoutFile {
    LayoutFile { version: 10, ..ninth }
}
