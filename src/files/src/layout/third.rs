//! The step from version 3 of a bay layout to version 4. Up to version 3 "by eye" meant ± 50 mm; since then it means what the
//! shop's settings say. What an older file meant stays, and is told apart from what is said now. What version 4 added may be
//! left out, so that both are read as the same record.

use super::{KnownFile, LayoutFile};

/// The step to version 4.
pub fn fourth(mut third: LayoutFile) -> LayoutFile {
    third.version = 4;
    third.room.walls_known = as_meant(third.room.walls_known);
    for thing in &mut third.things {
        thing.known = as_meant(thing.known);
    }
    for arrangement in &mut third.arrangements {
        for moved in &mut arrangement.moved {
            moved.known = as_meant(moved.known);
        }
        for thing in &mut arrangement.added {
            thing.known = as_meant(thing.known);
        }
    }
    third
}

const fn as_meant(known: KnownFile) -> KnownFile {
    match known {
        KnownFile::ByEye => KnownFile::ByEyeOlder,
        other => other,
    }
}
