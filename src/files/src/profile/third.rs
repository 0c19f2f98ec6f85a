//! The step from version 3 of a vehicle profile to version 4. What version 4 added may be left out, so that both are read as
//! the same record; what is left out means what it meant.

use super::ProfileFile;

/// The step to version 4.
pub fn fourth(third: ProfileFile) -> ProfileFile {
    ProfileFile { version: 4, ..third }
}
