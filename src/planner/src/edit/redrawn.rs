//! A bay whose room was drawn anew: what is kept of it, and what of the drawing comes into it.

use std::collections::BTreeSet;

use baywright_geometry::DVec2;

use crate::model::{Bay, Id, Material, Opening, Thing};

/// A wall, and an end of an opening, are where they were within this, mm: what a drawing and a tape are apart by (common practice, no
/// source).
const SAME_MM: f64 = 50.0;
/// So far may a wall of the drawing be turned against the one that it is the same as: the sine of about a degree.
const SAME_WAY: f64 = 0.02;

/// What came of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Redrawn {
    /// The bay in its new room.
    pub bay: Bay,
    /// Doors, windows and gaps that are in none of its walls any more, and so were left out.
    pub lost: Vec<Id>,
}

/// The bay with the room and the walls of another one, whose things are added. A wall that lies where one was keeps its name and what
/// it is made of; doors, windows and gaps stay where the new room has a wall; all else of the bay stays as it is. How well walls are
/// known, and where the room's figures come from, is the other one's. Names that are `taken` elsewhere, or in the bay, get a number.
/// Lengths mm, bay frame.
pub fn redrawn(before: &Bay, drawn: &Bay, taken: impl Fn(&str) -> bool) -> Redrawn {
    let mut bay = before.clone();
    bay.room = drawn.room.clone();
    bay.walls = drawn.walls.clone();
    bay.walls_known = drawn.walls_known;
    bay.provenance = drawn.provenance.clone();
    name_walls(&mut bay, before);
    let (kept, lost): (Vec<_>, Vec<_>) = before
        .openings
        .iter()
        .map(|own| in_new_wall(&bay, before, own).ok_or(&own.id))
        .partition(Result::is_ok);
    bay.openings = kept.into_iter().flatten().collect();
    let mut names: BTreeSet<String> = bay.names().map(ToString::to_string).collect();
    for own in &drawn.things {
        let id = Id::free(own.id.as_str(), " ", |name| names.contains(name) || taken(name));
        names.insert(id.to_string());
        bay.things.push(Thing { id, ..own.clone() });
    }
    Redrawn { bay, lost: lost.into_iter().filter_map(Result::err).cloned().collect() }
}

/// Walls where walls were are those; each of these gives its name once.
fn name_walls(bay: &mut Bay, before: &Bay) {
    let mut left: Vec<usize> = (0..before.walls.len()).collect();
    let kept: Vec<Option<(Id, Material)>> = (0..bay.walls.len())
        .map(|wall| {
            let at = left.iter().position(|&own| is_same(bay.wall_ends(wall), before.wall_ends(own)))?;
            let own = before.walls.get(left.remove(at))?;
            Some((own.id.clone(), own.material))
        })
        .collect();
    let is_kept = |name: &str| kept.iter().flatten().any(|(own, _)| own.as_str() == name);
    let mut given: Vec<Id> = Vec::new();
    for (wall, own) in bay.walls.iter_mut().zip(&kept) {
        if let Some((id, material)) = own {
            (wall.id, wall.material) = (id.clone(), *material);
        } else {
            wall.id = Id::free(wall.id.as_str(), " ", |name| {
                is_kept(name) || given.iter().any(|own| own.as_str() == name)
            });
            given.push(wall.id.clone());
        }
    }
}

/// Whether one wall lies along the other, if only in part.
fn is_same(one: Option<(DVec2, DVec2)>, other: Option<(DVec2, DVec2)>) -> bool {
    let (Some((from, to)), Some((a, b))) = (one, other) else { return false };
    let (way, other) = ((to - from).normalize_or_zero(), (b - a).normalize_or_zero());
    let off = |p: DVec2| way.perp_dot(p - from).abs();
    let along = |p: DVec2| way.dot(p - from);
    way.dot(other) > 0.0
        && way.perp_dot(other).abs() <= SAME_WAY
        && off(a) <= SAME_MM
        && off(b) <= SAME_MM
        && along(a) < from.distance(to)
        && along(b) > 0.0
}

/// An opening in the wall of the new room that has both its ends.
fn in_new_wall(bay: &Bay, before: &Bay, opening: &Opening) -> Option<Opening> {
    let line = before.opening_line(opening)?;
    (0..bay.walls.len()).find_map(|wall| {
        let (from, to) = bay.wall_ends(wall)?;
        let (way, length) = ((to - from).normalize_or_zero(), from.distance(to));
        let is_on = |p: DVec2| {
            let along = way.dot(p - from);
            way.perp_dot(p - from).abs() <= SAME_MM && along >= -SAME_MM && along <= length + SAME_MM
        };
        let from_mm = way.dot(line.from - from).clamp(0.0, (length - opening.width_mm).max(0.0));
        let fits = is_on(line.from) && is_on(line.to) && opening.width_mm <= length;
        (fits && way.dot(line.to - line.from) > 0.0).then(|| Opening { wall, from_mm, ..opening.clone() })
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::layout;
    use super::*;
    use crate::model::Provenance;

    fn drawn(corners: &[(f64, f64)], like: &Bay) -> Bay {
        let corners = corners.iter().map(|&(x, y)| DVec2::new(x, y)).collect();
        let source = Provenance::Published { source: "hall.dxf".to_owned() };
        let unnamed = (&[][..], |n: usize| format!("wall {n}"));
        let mut bay =
            Bay::of_corners("drawn".into(), "drawn".to_owned(), corners, unnamed, 4_000.0, source).unwrap();
        bay.things = vec![Thing { id: "cabinet".into(), ..like.things[0].clone() }];
        bay
    }

    /// The room is 40 mm longer in the drawing, and its far end goes out: three walls stay, with their names; the door goes along.
    #[test]
    fn walls_doors_and_things_stay_where_they_are() {
        let before = layout().0.bay;
        let size = before.room.bounds().size();
        let (x, y) = (size.x, size.y);
        let low = before.room.bounds().low;
        assert_eq!(low, DVec2::ZERO, "what this test is made for");
        let longer = drawn(&[(-20.0, 0.0), (x + 3_000.0, 0.0), (x + 3_000.0, y), (-20.0, y)], &before);
        let after = redrawn(&before, &longer, |name| name == "cabinet 2");
        assert_eq!(after.lost, []);
        assert_eq!(after.bay.room, longer.room);
        let named = |bay: &Bay| bay.walls.iter().map(|own| own.id.to_string()).collect::<Vec<_>>();
        let (old, new) = (named(&before), named(&after.bay));
        assert_eq!([&new[0], &new[2], &new[3]], [&old[0], &old[2], &old[3]]);
        assert!(!old.contains(&new[1]), "{new:?}");
        assert_eq!(after.bay.walls[0].material, before.walls[0].material);
        let (was, is) = (&before.openings[0], &after.bay.openings[0]);
        assert_eq!(after.bay.opening_line(is).unwrap().from, before.opening_line(was).unwrap().from);
        let things: Vec<&str> = after.bay.things.iter().map(|own| own.id.as_str()).collect();
        assert_eq!(things, ["cabinet", "cabinet 3"], "one is taken elsewhere");
        assert_eq!(after.bay.ceiling_mm, before.ceiling_mm);
        assert_eq!(after.bay.survey, before.survey);
    }

    #[test]
    fn a_door_without_a_wall_is_told() {
        let before = layout().0.bay;
        let elsewhere = drawn(&[(0.0, 500.0), (9_000.0, 500.0), (9_000.0, 6_500.0), (0.0, 6_500.0)], &before);
        let after = redrawn(&before, &elsewhere, |_| false);
        assert_eq!(after.lost, [before.openings[0].id.clone()]);
        assert!(after.bay.openings.is_empty());
        // In a wall that ends within it there is no room for it either.
        let shorter = drawn(&[(0.0, 0.0), (2_500.0, 0.0), (2_500.0, 4_000.0), (0.0, 4_000.0)], &before);
        assert_eq!(redrawn(&before, &shorter, |_| false).lost.len(), 1);
    }
}
