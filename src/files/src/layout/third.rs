//! The step from version 3 of a bay layout to version 4. Up to version 3 "by eye" meant ± 50 mm; since then it means what the
//! shop's settings say. What an older file meant stays, and is told apart from what is said now. What version 4 added may be
//! left out, so that both are read as the same record.

use super::{KnownFile, LayoutFile, RoomFile, ThingFile};

/// The step to version 4. A building of an arrangement's own, of version 5, can only have been put in by hand: by eye means
/// the same in all of a file.
pub fn fourth(mut third: LayoutFile) -> LayoutFile {
    third.version = 4;
    as_meant_in(&mut third.room, &mut third.things);
    for arrangement in &mut third.arrangements {
        if let Some(own) = &mut arrangement.building {
            as_meant_in(&mut own.room, &mut own.things);
        }
        for moved in &mut arrangement.moved {
            moved.known = moved.known.map(as_meant);
        }
        for thing in &mut arrangement.added {
            thing.known = as_meant(thing.known);
        }
    }
    third
}

fn as_meant_in(room: &mut RoomFile, things: &mut [ThingFile]) {
    room.walls_known = as_meant(room.walls_known);
    for thing in things {
        thing.known = as_meant(thing.known);
    }
}

const fn as_meant(known: KnownFile) -> KnownFile {
    match known {
        KnownFile::ByEye => KnownFile::ByEyeOlder,
        other => other,
    }
}
