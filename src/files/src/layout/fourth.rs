//! The step from version 4 of a bay layout to version 5, in which an arrangement may have its own `building`. It may be left
//! out, so that both are read as the same record.

use super::LayoutFile;

/// The step to version 5.
pub fn fifth(fourth: LayoutFile) -> LayoutFile {
    LayoutFile { version: 5, ..fourth }
}
