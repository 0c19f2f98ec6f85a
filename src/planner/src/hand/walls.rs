//! How far what is in hand stands from the walls, as a person tapes it: square to the wall, to the nearest part.

use baywright_geometry::locate::{Located, locate};
use baywright_geometry::{DVec2, Outline, Prism, Segment};

use super::{around, solids};
use crate::assessment::Subject;
use crate::model::{Arrangement, Id};
use crate::scene::Scene;

/// A distance from a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct WallGap {
    /// The wall, by position.
    pub wall: usize,
    /// Its name.
    pub id: Id,
    /// From the wall's inner face to the nearest surface, square to the wall, mm; negative for what reaches through it.
    pub gap_mm: f64,
    /// Into the room, square to the wall, of length 1; bay frame.
    pub inward: DVec2,
}

/// Two walls are far enough from parallel to give two distances from this sine of the angle between them on: 30°. The
/// smallest angle that common practice still calls a corner, no source.
pub(super) const APART: f64 = 0.5;

/// Whether distances from two walls make a place: the directions into the room, square to each, are far enough from
/// parallel.
pub fn gives_a_place(one: DVec2, other: DVec2) -> bool {
    one.perp_dot(other).abs() >= APART
}

/// How a wall lies to what is in hand; the sooner it is taped from, the smaller.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Lies {
    /// It stands abreast of the wall, wholly or partly before it; or its middle is outside the room, and then from whichever
    /// side.
    Abreast,
    /// Abreast, but beyond the wall: the wall is of another part of the room.
    Beyond,
    /// Not abreast: only the wall's prolongation could be taped from.
    Aside,
}

/// The nearest wall that it stands abreast of, and the nearest one at least 30° from parallel to that: what a person would
/// tape from. At most two. Walls that it is not abreast of, or beyond while it is in the room, come after all others.
pub fn wall_gaps(arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Vec<WallGap> {
    let own = solids(arrangement, scene, subject);
    let Some(bounds) = around(own) else { return Vec::new() };
    let outside = locate(&arrangement.bay.room.clone().into(), bounds.centre()) == Located::Outside;
    let walls = arrangement.bay.room.edges().zip(&arrangement.bay.walls).enumerate();
    let mut all: Vec<(Lies, f64, usize, Seen, &Id)> = walls
        .filter_map(|(wall, (edge, id))| {
            let seen = Seen::of(own.iter().map(|solid| &solid.outline), &edge)?;
            let (lies, off) = seen.lies(outside);
            Some((lies, off, wall, seen, &id.id))
        })
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut all = all.into_iter().map(|(_, _, wall, seen, id)| seen.gap(wall, id));
    let Some(first) = all.next() else { return Vec::new() };
    let second = all.find(|other| gives_a_place(other.inward, first.inward));
    std::iter::once(first).chain(second).collect()
}

/// The distance from one wall, by position, whether it stands abreast of it or not. `None` if there is no such wall, or
/// nothing in hand.
pub fn gap_to_wall(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    wall: usize,
) -> Option<WallGap> {
    let edge = arrangement.bay.room.edges().nth(wall)?;
    let id = &arrangement.bay.walls.get(wall)?.id;
    let own: &[Prism] = solids(arrangement, scene, subject);
    Some(Seen::of(own.iter().map(|solid| &solid.outline), &edge)?.gap(wall, id))
}

/// Something as seen from a wall.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seen {
    /// Into the room, of length 1.
    pub inward: DVec2,
    /// Its least and greatest distance from the wall's inner face, mm; positive inside.
    pub depth: (f64, f64),
    /// From where to where it lies along the wall, mm from the wall's first corner.
    pub along: (f64, f64),
    /// The wall's length, mm.
    pub length: f64,
}

impl Seen {
    /// `None` if there is nothing to see, or the wall has no length.
    pub fn of<'a>(outlines: impl Iterator<Item = &'a Outline> + Clone, wall: &Segment) -> Option<Self> {
        // The room's corners run anticlockwise: its inside is on the left.
        let along = (wall.to - wall.from).try_normalize()?;
        let inward = along.perp();
        let (start, face) = (wall.from.dot(along), wall.from.dot(inward));
        let (low, high) = reach(outlines.clone(), inward)?;
        let (from, to) = reach(outlines, along)?;
        let length = wall.length();
        Some(Self { inward, depth: (low - face, high - face), along: (from - start, to - start), length })
    }

    /// Whether some of it lies between the two ends of the wall, seen square to it.
    pub fn is_abreast(&self) -> bool {
        self.along.0 < self.length && self.along.1 > 0.0
    }

    /// How it lies to the wall, and how far off it is, mm.
    fn lies(&self, outside: bool) -> (Lies, f64) {
        let (near, far) = self.depth;
        // What reaches through a wall is nearer to it than what only stands before one.
        let off = if far > 0.0 { near } else { -far };
        if !self.is_abreast() {
            let aside = (self.along.0 - self.length).max(-self.along.1);
            (Lies::Aside, aside.max(off))
        } else if far > 0.0 || outside {
            (Lies::Abreast, off)
        } else {
            (Lies::Beyond, off)
        }
    }

    fn gap(&self, wall: usize, id: &Id) -> WallGap {
        WallGap { wall, id: id.clone(), gap_mm: self.depth.0, inward: self.inward }
    }
}

/// How far outlines reach back and ahead along a direction of length 1; `None` if there are none.
pub(super) fn reach<'a>(outlines: impl Iterator<Item = &'a Outline>, way: DVec2) -> Option<(f64, f64)> {
    let all = outlines.map(|outline| match outline {
        Outline::Polygon(polygon) => polygon
            .outer()
            .iter()
            .map(|p| p.dot(way))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at))),
        Outline::Circle(circle) => {
            let at = circle.centre().dot(way);
            (at - circle.radius(), at + circle.radius())
        }
    });
    all.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}
