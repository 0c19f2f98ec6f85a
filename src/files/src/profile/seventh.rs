//! The step from version 7 of a vehicle profile to version 8, in which the ride heights may say how far each may be off
//! (`allowed_mm`). It may be left out, so that both are read as the same record; left out nothing is said of it.

use super::ProfileFile;

/// The step to version 8.
pub fn eighth(seventh: ProfileFile) -> ProfileFile {
    ProfileFile { version: 8, ..seventh }
}
