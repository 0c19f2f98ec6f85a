//! The step from version 6 of a vehicle profile to version 7, in which an aiming may say that its procedure names no keep-clear zone
//! (`names_no_zone`). It may be left out, so that both are read as the same record; left out it is not said.

use super::ProfileFile;

/// The step to version 7.
pub fn seventh(sixth: ProfileFile) -> ProfileFile {
    ProfileFile { version: 7, ..sixth }
}
