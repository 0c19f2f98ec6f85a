//! The step from version 6 of a bay layout to version 7, which keeps `dimensions`. They may be left out, so that both are read as
//! the same record.

use super::LayoutFile;

/// The step to version 7.
pub fn seventh(sixth: LayoutFile) -> LayoutFile {
    LayoutFile { version: 7, ..sixth }
}
