//! The step from version 4 of a vehicle profile to version 5, where the length and the height of what is kept clear are assumed each
//! by itself, and what is assumed of an aiming's own zones is told.

use super::{AimingPartFile, AssumedFile, ProfileFile};

/// The step to version 5: what was one figure is both.
pub fn fifth(fourth: ProfileFile) -> ProfileFile {
    let both = |own: AssumedFile| {
        let height = match &own {
            AssumedFile::Aiming { name, part: AimingPartFile::ClearAlong } => {
                Some(AssumedFile::Aiming { name: name.clone(), part: AimingPartFile::ClearHeight })
            }
            _ => None,
        };
        std::iter::once(own).chain(height)
    };
    ProfileFile { version: 5, assumed: fourth.assumed.into_iter().flat_map(both).collect(), ..fourth }
}
