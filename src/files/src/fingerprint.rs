//! A short mark of a profile's content, by which a layout notices that it changed.

use baywright_planner::model::Vehicle;
pub use baywright_planner::model::fnv1a;

use crate::parse::options;
use crate::profile;

/// The room to work in that an aiming asked for that said nothing, before it became a setting of the shop.
const WORKING_ROOM_MM: f64 = 600.0;

/// Sixteen hexadecimal digits made from everything that a profile says: its figures as they are written to files.
/// Comments, blanks and the order of fields do not count; figures that are assumed from the class do not count either,
/// since the profile does not say them. It guards against a changed file, not against malice.
pub fn fingerprint(vehicle: &Vehicle) -> String {
    // Writing plain records to memory does not fail; if it did, the empty text would match no remembered mark.
    // The mark is of what is said, not of the format that says it: layouts remember marks from version 1 on.
    let mut file = profile::ProfileFile { version: 1, ..profile::file_of(vehicle) };
    // Where an aiming said nothing of it, marks have been of the figure that held then.
    for aiming in &mut file.aimings {
        aiming.working_room_mm.get_or_insert(WORKING_ROOM_MM.into());
    }
    let file = profile::SecondProfileFile::from(file);
    let content = options().to_string(&file).unwrap_or_default();
    format!("{:016x}", fnv1a(content.as_bytes()))
}
