//! The room and what open doors add to it: each lets through only what fits under its lintel and over its sill.

use baywright_geometry::distance::{Separation, distance_to_segment};
use baywright_geometry::{DVec2, Polygon, Prism, Segment, Span, boolean, overlap_region, overlaps};

use crate::model::{Arrangement, Id, Opening};

/// So far the ground beyond a door reaches back into the room, mm, so that rounding never parts the two: a tenth of what is spoken
/// of, and no tape shows it.
const JOINS_MM: f64 = 1e-3;

/// Farther than anything reaches, mm.
const FAR_MM: f64 = 1e5;

/// The room, alone and with the ground beyond its open doors.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    alone: Polygon,
    doors: Vec<OpenDoor>,
    /// The room with all of them.
    with_all: Polygon,
}

/// A door that stands open onto ground that is known to be free.
#[derive(Clone, Debug, PartialEq)]
struct OpenDoor {
    opening: Opening,
    /// Along the wall, the inside on its left.
    line: Segment,
    /// From the wall to where the ground is no longer known to be free, or a wall of the room itself stands.
    out: DVec2,
    /// The wall of the room at which the ground ends, by position.
    ends_at: Option<usize>,
    /// The ground beyond.
    beyond: Polygon,
}

impl Room {
    pub(super) fn of(arrangement: &Arrangement) -> Self {
        let bay = &arrangement.bay;
        let open = bay.openings.iter().filter(|opening| opening.is_open() && opening.free_beyond_mm > 0.0);
        let doors: Vec<OpenDoor> = open
            .filter_map(|opening| {
                let line = bay.opening_line(opening)?;
                // The inside lies left of a wall, so out is to the right.
                let along_out = -(line.to - line.from).normalize_or_zero().perp();
                let ends_at = before_a_wall(&bay.room, opening.wall, &line)
                    .filter(|(_, free)| *free < opening.free_beyond_mm);
                let free = ends_at.map_or(opening.free_beyond_mm, |(_, free)| free);
                let ends_at = ends_at.map(|(wall, _)| wall);
                let (back, out) = (along_out * -JOINS_MM, along_out * free);
                let corners = vec![line.from + back, line.from + out, line.to + out, line.to + back];
                let beyond = Polygon::simple(corners).ok()?;
                Some(OpenDoor { opening: opening.clone(), line, out, ends_at, beyond })
            })
            .collect();
        let with_all = joined(&bay.room, doors.iter().map(|door| &door.beyond));
        Self { alone: bay.room.clone(), doors, with_all }
    }

    /// How far the ground beyond an open door is free, mm: as was entered, or up to a wall of the room itself. None beyond a door
    /// that is shut or through which nothing is known to be free.
    pub fn free_beyond(&self, door: &Id) -> Option<f64> {
        self.doors.iter().find(|own| own.opening.id == *door).map(|own| own.out.length())
    }

    /// The room alone: its edges are the walls, in the bay's order.
    pub const fn walls(&self) -> &Polygon {
        &self.alone
    }

    /// The room with the ground beyond every open door, whatever its height: what a person sees from above.
    pub const fn with_open_doors(&self) -> &Polygon {
        &self.with_all
    }

    /// The doors that stand open onto ground that is known to be free, each with that ground.
    pub fn grounds(&self) -> impl Iterator<Item = (&Opening, &Polygon)> {
        self.doors.iter().map(|door| (&door.opening, &door.beyond))
    }

    /// Where something of these heights can be: a door lets through only what lies wholly between its sill and lintel.
    pub fn holding(&self, span: &Span) -> std::borrow::Cow<'_, Polygon> {
        let passed = || self.doors.iter().filter(|door| door.opening.lets_through(span));
        match passed().count() {
            0 => std::borrow::Cow::Borrowed(&self.alone),
            all if all == self.doors.len() => std::borrow::Cow::Borrowed(&self.with_all),
            _ => std::borrow::Cow::Owned(joined(&self.alone, passed().map(|door| &door.beyond))),
        }
    }

    /// What of a wall stands in the way of something of these heights: all of it but the open doors that let it through.
    pub fn wall_at(&self, wall: usize, span: &Span) -> Vec<Segment> {
        let Some(edge) = self.alone.edges().nth(wall) else { return Vec::new() };
        let mut passed: Vec<&OpenDoor> = self.passed(wall, span).collect();
        if passed.is_empty() {
            return vec![edge];
        }
        let from = |p: DVec2| p.distance(edge.from);
        passed.sort_by(|a, b| from(a.line.from).total_cmp(&from(b.line.from)));
        let mut pieces = Vec::new();
        let mut at = edge.from;
        for door in passed {
            if from(door.line.from) > from(at) {
                pieces.push(Segment::new(at, door.line.from));
            }
            if from(door.line.to) > from(at) {
                at = door.line.to;
            }
        }
        if from(edge.to) > from(at) {
            pieces.push(Segment::new(at, edge.to));
        }
        pieces
    }

    /// Where the ground ends that is known to be free beyond the open doors of a wall that let something of these heights
    /// through: beside each door and as far out as was entered.
    pub fn ground_ends_at(&self, wall: usize, span: &Span) -> Vec<Segment> {
        let ends = self.passed(wall, span).map(|door| {
            let (from, to) = (door.line.from + door.out, door.line.to + door.out);
            [Segment::new(door.line.from, from), Segment::new(from, to), Segment::new(to, door.line.to)]
        });
        ends.flatten().collect()
    }

    /// The open doors of a wall through which something of these heights just passes: each door's line, and how much is left
    /// under its lintel if that is less than `within_mm`.
    pub fn just_under(
        &self,
        wall: usize,
        span: &Span,
        within_mm: f64,
    ) -> impl Iterator<Item = (Segment, f64)> {
        let passed = self.passed(wall, span).map(|door| (door.line, door.opening.span.top() - span.top()));
        passed.filter(move |(_, left)| *left < within_mm)
    }

    /// The walls of the room itself at which the ground beyond an open door ends, and that something goes through which went out
    /// by that door: each with how far it goes past it, mm, and where it is farthest.
    pub fn passed_behind_doors(&self, solid: &Prism) -> Vec<(usize, f64, DVec2)> {
        let mut passed = Vec::new();
        for door in self.doors.iter().filter(|door| door.opening.lets_through(&solid.span)) {
            let Some(wall) = door.ends_at else { continue };
            let way = door.out.normalize_or_zero();
            let stands = self.wall_at(wall, &solid.span);
            let meets =
                |piece: &Segment| distance_to_segment(&solid.outline, piece) == Separation::Overlapping;
            if !overlaps(&solid.outline, &door.beyond.clone().into()) || !stands.iter().any(meets) {
                continue;
            }
            let (from, to) = (door.line.from + door.out, door.line.to + door.out);
            let far = way * FAR_MM;
            let Ok(behind) = Polygon::simple(vec![from, from + far, to + far, to]) else { continue };
            let past = overlap_region(&solid.outline, &behind.into());
            let past = past.iter().flat_map(|piece| piece.outer().iter().map(|&p| ((p - from).dot(way), p)));
            passed.extend(past.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(depth, at)| (wall, depth, at)));
        }
        passed
    }

    /// The walls of the room itself, by position, at which the ground ends beyond an open door that lets something of these heights
    /// through.
    pub fn walls_behind_doors(&self, span: &Span) -> impl Iterator<Item = usize> {
        self.doors.iter().filter(|own| own.opening.lets_through(span)).filter_map(|own| own.ends_at)
    }

    /// The ends of a wall, and the corners of the ground beyond its open doors.
    pub fn corners_of(&self, wall: usize) -> Vec<DVec2> {
        let ends = self.alone.edges().nth(wall).map(|edge| [edge.from, edge.to]);
        let doors = self.doors.iter().filter(|door| door.opening.wall == wall);
        let beyond = doors.flat_map(|door| [door.line.from + door.out, door.line.to + door.out]);
        ends.into_iter().flatten().chain(beyond).collect()
    }

    fn passed(&self, wall: usize, span: &Span) -> impl Iterator<Item = &OpenDoor> {
        self.doors.iter().filter(move |door| door.opening.wall == wall && door.opening.lets_through(span))
    }
}

/// Where the ground beyond a door comes to a wall of the room itself, the other side of an inner wall or another wing of the
/// building: which wall, by position, and how far out, mm.
fn before_a_wall(room: &Polygon, wall: usize, door: &Segment) -> Option<(usize, f64)> {
    let along = (door.to - door.from).normalize_or_zero();
    // What lies in the door's width, without its edges: the jamb's own wall goes along them.
    let (low, high) = (JOINS_MM, door.from.distance(door.to) - JOINS_MM);
    let ends = room.edges().enumerate().filter(|(edge, _)| *edge != wall).filter_map(|(edge, line)| {
        // Along the door, and outwards from it.
        let own = |p: DVec2| DVec2::new((p - door.from).dot(along), -(p - door.from).dot(along.perp()));
        let (from, to) = (own(line.from), own(line.to));
        if from.x.max(to.x) <= low || from.x.min(to.x) >= high {
            return None;
        }
        let run = to.x - from.x;
        let at = |x: f64| from.lerp(to, ((x - from.x) / run).clamp(0.0, 1.0)).y;
        let (p, q) = if run.abs() > JOINS_MM { (at(low), at(high)) } else { (from.y, to.y) };
        // Inside the room it is no end of the ground. The wall stays one only if the ground does not join what is behind it.
        (p.max(q) > JOINS_MM).then(|| (edge, (p.min(q) - JOINS_MM).max(0.0)))
    });
    ends.min_by(|a, b| a.1.total_cmp(&b.1))
}

fn joined<'a>(room: &Polygon, beyond: impl Iterator<Item = &'a Polygon>) -> Polygon {
    let all: Vec<Polygon> = std::iter::once(room.clone()).chain(beyond.cloned()).collect();
    if all.len() == 1 {
        return room.clone();
    }
    // The ground beyond a door reaches into the room along the whole door: together they are one piece, the largest.
    let pieces = boolean::union(&all).into_iter();
    pieces.max_by(|a, b| a.area().total_cmp(&b.area())).unwrap_or_else(|| room.clone())
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;
    use crate::scene::Scene;

    /// A door of 3 m in the far wall, 2 m of ground beyond it: 6 m² more, whichever way the bay lies.
    #[test]
    fn the_ground_beyond_a_door_is_not_lost_in_a_bay_at_an_angle() {
        for degrees in 0..180 {
            let at = DVec2::new(-7_321.4, 1_987.6 + f64::from(degrees));
            let turn = PlanPose::new(at, angle::radians(f64::from(degrees) + 0.37));
            let mut arrangement = clear();
            arrangement.bay.room = arrangement.bay.room.placed(&turn);
            arrangement.bay.openings = vec![Opening {
                id: "door".into(),
                kind: OpeningKind::RollerDoor,
                wall: 1,
                from_mm: 1_500.0,
                width_mm: 3_000.0,
                span: span(0.0, 2_500.0),
                material: Material::Steel,
                shut: false,
                free_beyond_mm: 2_000.0,
                is_exit: false,
            }];
            let room = Scene::of(&arrangement).room;
            let more = room.with_open_doors().area() - room.walls().area();
            assert!((more - 6e6).abs() < 1.0, "{degrees}: {more}");
        }
    }
    /// A yard of 1500 mm between two wings: 5 m are said to be free, and the other wing's wall stands there.
    #[test]
    fn the_ground_beyond_a_door_ends_at_the_buildings_own_wall() {
        for degrees in 0..90 {
            let turn =
                PlanPose::new(DVec2::new(312.0, -4_567.0), angle::radians(f64::from(degrees) * 4.0 + 0.3));
            let mut arrangement = clear();
            let corners = [
                (0.0, 0.0),
                (12_000.0, 0.0),
                (12_000.0, 9_000.0),
                (0.0, 9_000.0),
                (0.0, 7_500.0),
                (10_000.0, 7_500.0),
                (10_000.0, 6_000.0),
                (0.0, 6_000.0),
            ];
            let room = crate::geometry::Polygon::simple(corners.map(DVec2::from).to_vec()).unwrap();
            arrangement.bay.room = room.placed(&turn);
            // In the wall from (10 000, 6 000) to (0, 6 000), whose inside is below it.
            arrangement.bay.openings = vec![open_door(6, 4_000.0, 3_000.0, 5_000.0)];
            let door = arrangement.bay.openings[0].id.clone();
            let room = Scene::of(&arrangement).room;
            let free = room.free_beyond(&door).unwrap();
            assert!((free - 1_500.0).abs() < 0.01, "{degrees}: {free}");
            assert!((room.with_open_doors().area() - room.walls().area() - 4.5e6).abs() < 10.0, "{degrees}");
            // In an outer wall nothing ends it.
            arrangement.bay.openings = vec![open_door(0, 4_000.0, 3_000.0, 5_000.0)];
            let free = Scene::of(&arrangement).room.free_beyond(&door).unwrap();
            assert!((free - 5_000.0).abs() < 1e-6, "{degrees}: {free}");
        }
    }
}
