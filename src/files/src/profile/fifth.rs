//! The step from version 5 of a vehicle profile to version 6, which says where a sensor's edges are, from which of its points a
//! target's height counts, and lets a stand-off start at the front spots. All of it may be left out, so that both are read as the
//! same record; what is left out means what it meant: the sensor's centre.

use super::ProfileFile;

/// The step to version 6.
pub fn sixth(fifth: ProfileFile) -> ProfileFile {
    ProfileFile { version: 6, ..fifth }
}
