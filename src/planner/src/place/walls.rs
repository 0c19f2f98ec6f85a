//! The room round the set-up: what must lie in the room's hull, and what must not meet what of that hull is no room.

use baywright_geometry::convex::hull;
use baywright_geometry::{DVec2, Polygon, Span, boolean};

use super::pairs::{Barred, Pairs};
use super::solids::SetUp;
use crate::scene::Room;

/// What must lie inside a convex ring.
#[derive(Clone, Debug)]
pub(super) struct Held {
    /// The ring, bay frame.
    pub ring: Vec<DVec2>,
    /// Corners of all of it, vehicle frame.
    pub moves: Vec<DVec2>,
}

/// A part of the room, with what is kept in it.
struct Group {
    room: Polygon,
    parts: Vec<Barred>,
}

/// All that the walls keep in.
pub(super) fn held(set_up: &SetUp<'_>, pairs: &mut Pairs) -> Vec<Held> {
    let room = &set_up.scene.room;
    let mut groups: Vec<Group> = Vec::new();
    for (parts, span) in set_up.inside() {
        let parts: Vec<Barred> = parts.into_iter().map(|ring| Barred { ring, sure: true }).collect();
        behind_doors(room, &span, &parts, pairs);
        group(&mut groups, &room.holding(&span), parts);
    }
    // What lies on the floor goes through a door whose sill does.
    if let Ok(flat) = Span::new(0.0, 1.0) {
        let on_floor = room.holding(&flat).into_owned();
        let spots = set_up.on_floor().into_iter().map(|at| Barred { ring: vec![at], sure: true });
        group(&mut groups, &on_floor, spots.collect());
        // A run may pass where a door stands open though nothing is known of the ground there.
        let no_door = !set_up.arrangement.bay.openings.iter().any(|own| own.is_open());
        let lines = set_up.lines().into_iter().map(|ring| Barred { ring, sure: no_door });
        if let Some(own) = groups.iter_mut().find(|own| own.room == on_floor) {
            own.parts.extend(lines);
        }
    }
    let held = |own: Group| {
        let hull = hull(own.room.outer())?;
        // What is surely inside counts; a line lies in the hull if its ends do.
        let sure = own.parts.iter().filter(|part| part.ring.len() != 2);
        let moves: Vec<DVec2> = sure.flat_map(|part| part.ring.clone()).collect();
        for notch in boolean::difference(&hull, &own.room) {
            let pieces: Vec<Vec<DVec2>> = notch.pieces().map(<[DVec2]>::to_vec).collect();
            pairs.add(&pieces, own.parts.clone());
        }
        Some(Held { ring: hull.outer().to_vec(), moves: outermost(moves) })
    };
    groups.into_iter().filter_map(held).collect()
}

/// The corners that matter for what all of them lie in.
fn outermost(corners: Vec<DVec2>) -> Vec<DVec2> {
    hull(&corners).map_or(corners, |hull| hull.outer().to_vec())
}

fn group(groups: &mut Vec<Group>, room: &Polygon, parts: Vec<Barred>) {
    if parts.is_empty() {
        return;
    }
    match groups.iter_mut().find(|own| own.room == *room) {
        Some(own) => own.parts.extend(parts),
        None => groups.push(Group { room: room.clone(), parts }),
    }
}

/// What goes out by an open door and through the wall of the room at which the ground ends may stop.
fn behind_doors(room: &Room, span: &Span, parts: &[Barred], pairs: &mut Pairs) {
    let bars: Vec<Barred> = parts.iter().map(|own| Barred { sure: false, ..own.clone() }).collect();
    for wall in room.walls_behind_doors(span) {
        let lines: Vec<Vec<DVec2>> =
            room.wall_at(wall, span).into_iter().map(|own| vec![own.from, own.to]).collect();
        pairs.add(&lines, bars.clone());
    }
}
