//! The step from version 2 of a bay layout to version 3. What version 3 and later ones added may be left out, so that all are
//! read as the same record; what is left out means what it meant.

use super::LayoutFile;

/// The step to version 3.
pub fn third(second: LayoutFile) -> LayoutFile {
    LayoutFile { version: 3, ..second }
}
