//! The step from version 8 of a bay layout to version 9, which tells of an arrangement which doors are kept shut while it is
//! aimed. That may be left out, so that both are read as the same record.

use super::LayoutFile;

/// The step to version 9.
pub fn ninth(eighth: LayoutFile) -> LayoutFile {
    LayoutFile { version: 9, ..eighth }
}
