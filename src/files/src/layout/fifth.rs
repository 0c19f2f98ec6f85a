//! The step from version 5 of a bay layout to version 6. Up to version 5 a moved thing of which nothing was said was known as
//! well as its place at home; since then it stands by eye. What an older file meant stays. Both are read as the same record.

use super::{LayoutFile, ThingFile};

/// The step to version 6.
pub fn sixth(mut fifth: LayoutFile) -> LayoutFile {
    fifth.version = 6;
    for arrangement in &mut fifth.arrangements {
        let home: &[ThingFile] = arrangement.building.as_ref().map_or(&fifth.things, |own| &own.things);
        for moved in arrangement.moved.iter_mut().filter(|moved| moved.known.is_none()) {
            // One that is not there is refused by its name.
            moved.known = home.iter().find(|thing| thing.name == moved.thing).map(|thing| thing.known);
        }
    }
    fifth
}
