//! Which way a thing goes, as whoever carries it sees it: towards the walls.

use baywright_geometry::{DVec2, Polygon, Segment, angle};

use crate::model::{Arrangement, Id};
use crate::place::invited;

/// Less than this aside, half a millimetre, is straight.
const STRAIGHT_MM: f64 = 0.5;

/// A part of a move.
#[derive(Clone, Debug, PartialEq)]
pub struct Towards {
    /// How far, mm.
    pub mm: f64,
    /// The wall that it goes towards.
    pub wall: Id,
}

/// A move of a thing as its parts along the room's own directions, the longer first: each towards the wall that is there first,
/// seen from the thing's middle.
pub(super) fn towards(arrangement: &Arrangement, thing: &Id, by: DVec2) -> Vec<Towards> {
    let Some(own) = arrangement.bay.things.iter().find(|own| own.id == *thing) else { return Vec::new() };
    let from = own.place.at.origin();
    let ways = invited(&arrangement.bay.room).map(angle::direction);
    let parts = ways.into_iter().filter_map(|way| {
        let mm = by.dot(way);
        let wall = met(&arrangement.bay.room, from, way).and_then(|nth| arrangement.bay.walls.get(nth))?;
        (mm >= STRAIGHT_MM).then(|| Towards { mm, wall: wall.id.clone() })
    });
    let mut parts: Vec<Towards> = parts.collect();
    parts.sort_by(|a, b| b.mm.total_cmp(&a.mm));
    parts
}

/// The first wall that is met on a way.
fn met(room: &Polygon, from: DVec2, way: DVec2) -> Option<usize> {
    let walls = room.edges().take(room.outer().len()).enumerate();
    let all = walls.filter_map(|(nth, wall): (usize, Segment)| {
        let along = wall.to - wall.from;
        let across = way.perp_dot(along);
        if across.abs() < 1e-9 {
            return None;
        }
        let by = wall.from - from;
        let (mm, share) = (by.perp_dot(along) / across, by.perp_dot(way) / across);
        (mm >= 0.0 && (0.0..=1.0).contains(&share)).then_some((nth, mm))
    });
    all.min_by(|a, b| a.1.total_cmp(&b.1)).map(|own| own.0)
}
