//! The step from version 11 of a bay layout to version 12, which tells of a mark that stays how well it is to be laid and to which other
//! mark a line goes from it, and what the owner says of the bay (`owner`). All may be left out, so that both are read as the same record.

use super::LayoutFile;

/// The step to version 12.
pub fn twelfth(eleventh: LayoutFile) -> LayoutFile {
    LayoutFile { version: 12, ..eleventh }
}
