//! The step from version 7 of a bay layout to version 8, which holds the `bays` of a hall and, of an arrangement, which it is
//! made in and which are kept empty. They may be left out, so that both are read as the same record.

use super::LayoutFile;

/// The step to version 8.
pub fn eighth(seventh: LayoutFile) -> LayoutFile {
    LayoutFile { version: 8, ..seventh }
}
