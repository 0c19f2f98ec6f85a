//! What is in the way of a car that is driven in: walls, what stands or hangs there, runways that do not carry it, pits.

use baywright_geometry::{DVec2, Outline, Polygon, Segment, boolean};

use super::body::Body;
use super::door::{Door, WALL_MM};
use crate::assessment::Subject;
use crate::check::{Context, GOES_OVER_MM};
use crate::model::{Arrangement, Effort};
use crate::scene::Scene;

/// Of a wall less of its depth than this, mm², is none: then it is a line.
const NO_DEPTH_MM2: f64 = 1.0;

/// One convex ring, bay frame, that the car keeps off.
#[derive(Clone, Debug)]
pub(super) struct Standing {
    pub of: Subject,
    pub ring: Vec<DVec2>,
    /// The rings of the car that it is in the way of, bit by bit.
    pub meets: u64,
    /// Whether one person rolls or carries it aside.
    pub by_hand: bool,
    /// How well its place is known, mm either way.
    pub known_mm: f64,
}

/// All of it. Not in the way are people, what is driven over, what the car passes under or over, the runways that carry it, and what
/// is only set up once it stands there.
pub(super) fn standing(
    arrangement: &Arrangement,
    scene: &Scene,
    doors: &[Door],
    body: &Body,
) -> Vec<Standing> {
    let mut all = Vec::new();
    let mut put = |of: Subject, rings: Vec<Vec<DVec2>>, meets: u64, by_hand: bool, known_mm: f64| {
        let rings = rings.into_iter().filter(|_| meets != 0);
        all.extend(rings.map(|ring| Standing { of: of.clone(), ring, meets, by_hand, known_mm }));
    };
    let walls_known = arrangement.shop.within(arrangement.bay.walls_known);
    for (nth, edge) in scene.room.walls().edges().enumerate() {
        let of = arrangement.bay.walls.get(nth).map_or(Subject::Floor, |own| Subject::Wall(own.id.clone()));
        for stretch in without_doors(&edge, doors.iter().filter(|own| own.wall == nth)) {
            let rings = with_depth(&stretch, scene.room.walls());
            put(of.clone(), rings, body.meets_walls(), false, walls_known);
        }
    }
    let context = Context::new(arrangement, scene);
    for (thing, placed) in arrangement.bay.things.iter().zip(&scene.things) {
        if thing.is_person() || placed.prism.span.top() <= GOES_OVER_MM {
            continue;
        }
        let by_hand = thing.effort == Effort::OnePerson && !thing.locked;
        let meets = body.meets(&placed.prism.span);
        put(Subject::Thing(thing.id.clone()), pieces(&placed.prism.outline), meets, by_hand, placed.known_mm);
    }
    let low = context.proud_features().chain(context.idle_runways());
    for (of, own) in low.filter(|(_, own)| own.span.top() > GOES_OVER_MM) {
        put(of, pieces(&own.outline), body.meets(&own.span), false, walls_known);
    }
    for (of, hole) in context.pits() {
        put(of, pieces(&hole.outline), body.wheels(), false, walls_known);
    }
    all
}

/// The convex pieces of an outline; of what is round a polygon around it.
fn pieces(outline: &Outline) -> Vec<Vec<DVec2>> {
    outline.as_polygon().pieces().map(<[DVec2]>::to_vec).collect()
}

/// What of a wall is left between the doors that the car may come through.
fn without_doors<'a>(wall: &Segment, doors: impl Iterator<Item = &'a Door>) -> Vec<Segment> {
    let from = |p: DVec2| p.distance(wall.from);
    let mut doors: Vec<&Segment> = doors.map(|own| &own.line).collect();
    doors.sort_by(|a, b| from(a.from).total_cmp(&from(b.from)));
    let mut left = Vec::new();
    let mut at = wall.from;
    for door in doors {
        if from(door.from) > from(at) {
            left.push(Segment::new(at, door.from));
        }
        if from(door.to) > from(at) {
            at = door.to;
        }
    }
    if from(wall.to) > from(at) {
        left.push(Segment::new(at, wall.to));
    }
    left
}

/// A stretch of wall as deep as a wall is, outwards, where the room leaves it that; else as a line.
fn with_depth(stretch: &Segment, room: &Polygon) -> Vec<Vec<DVec2>> {
    let out = -(stretch.to - stretch.from).normalize_or_zero().perp() * WALL_MM;
    let ring = vec![stretch.from, stretch.from + out, stretch.to + out, stretch.to];
    let line = vec![stretch.from, stretch.to];
    let Ok(deep) = Polygon::simple(ring) else { return vec![line] };
    let left = boolean::difference(&deep, room);
    let mut rings: Vec<Vec<DVec2>> =
        left.iter().flat_map(|own| own.pieces().map(<[DVec2]>::to_vec).collect::<Vec<_>>()).collect();
    let lost = deep.area() - left.iter().map(Polygon::area).sum::<f64>();
    if lost > NO_DEPTH_MM2 {
        rings.push(line);
    }
    rings
}
