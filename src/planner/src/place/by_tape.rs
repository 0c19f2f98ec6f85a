//! How a person parks a car at a spot: what its nose looks at, and how far two of its tyres are from two walls.
//!
//! A tape is laid square to a wall, from the middle of a tyre on the floor. So a wall serves if that line ends on it and meets no
//! other wall before; one whose line meets no thing that stands on the floor is taken rather than one that does.

use baywright_geometry::{DVec2, PlanPose, Segment, passes_through};

use crate::assessment::Subject;
use crate::model::{Arrangement, Id, Wheel};
use crate::scene::Scene;

/// Two walls whose directions differ by less of a right angle than this sine do not fix a place: 30°.
const ACROSS: f64 = 0.5;
/// What ends lower than this over the floor is no hindrance to a tape, mm, and what begins higher neither.
const TAPE_MM: f64 = 20.0;
/// As much longer a tape may be rather than go through a thing, mm: more than any hall is long.
const DETOUR_MM: f64 = 1e6;

/// How far something is from a wall, square to it.
#[derive(Clone, Debug, PartialEq)]
pub struct FromWall {
    /// The wall.
    pub wall: Id,
    /// mm.
    pub mm: f64,
}

/// The two tyres of one side from two walls.
#[derive(Clone, Debug, PartialEq)]
pub struct Tyres {
    /// The front one of the two.
    pub front: Wheel,
    /// Its middle on the floor from the wall that runs rather along the car, and from the one that runs rather across.
    pub walls: [FromWall; 2],
    /// The middle of the rear one of the same side from the first of these walls, if a tape reaches it there; it fixes the heading.
    pub rear: Option<(Wheel, f64)>,
}

/// What is told of a spot to whoever parks there.
#[derive(Clone, Debug, PartialEq)]
pub struct ByTape {
    /// The door, window, gap or wall that the nose looks at.
    pub nose: Option<Subject>,
    /// `None` where no two walls can be taped to.
    pub tyres: Option<Tyres>,
}

/// A wall that can be taped to from a place.
#[derive(Clone, Copy)]
struct Reached {
    wall: usize,
    along: DVec2,
    mm: f64,
    /// The same, made longer where a thing stands in the tape's way.
    cost: f64,
}

impl ByTape {
    /// How the car of an arrangement is parked at a pose, bay from vehicle; the scene tells what stands around.
    pub fn of(arrangement: &Arrangement, scene: &Scene, pose: PlanPose) -> Self {
        let walls: Vec<Segment> =
            arrangement.bay.room.edges().take(arrangement.bay.room.outer().len()).collect();
        let foremost = pose * DVec2::new(arrangement.vehicle.front(), 0.0);
        let nose = met(&walls, foremost, pose.forward()).and_then(|(wall, mm)| {
            let edge = walls.get(wall)?;
            let along_mm = (foremost + pose.forward() * mm).distance(edge.from);
            let is_there = |from_mm: f64, width_mm: f64| (from_mm..=from_mm + width_mm).contains(&along_mm);
            let openings = arrangement.bay.openings.iter().filter(|own| own.wall == wall);
            let opening = openings.clone().find(|own| is_there(own.from_mm, own.width_mm));
            let opening = opening.map(|own| Subject::Opening(own.id.clone()));
            opening.or_else(|| Some(Subject::Wall(arrangement.bay.walls.get(wall)?.id.clone())))
        });
        let sides = [(Wheel::FrontLeft, Wheel::RearLeft), (Wheel::FrontRight, Wheel::RearRight)].into_iter();
        let told = sides.filter_map(|(front, rear)| {
            let at = |wheel: Wheel| pose * arrangement.wheel_point(wheel);
            let all = reached(scene, &walls, at(front));
            let [beside, across] = two_of(&all, pose.forward())?;
            let own = |from: &Reached| {
                Some(FromWall { wall: arrangement.bay.walls.get(from.wall)?.id.clone(), mm: from.mm })
            };
            let rear_from = reached(scene, &walls, at(rear)).into_iter().find(|own| own.wall == beside.wall);
            let tyres = Tyres {
                front,
                walls: [own(&beside)?, own(&across)?],
                rear: rear_from.map(|own| (rear, own.mm)),
            };
            Some((beside.cost + across.cost, tyres))
        });
        let tyres = told.min_by(|a, b| a.0.total_cmp(&b.0)).map(|own| own.1);
        Self { nose, tyres }
    }
}

/// How far places on a floor are from two walls each, square to them, the one that runs rather along `forward` first. All are taped from
/// the same two walls as far as a tape reaches them there: what is not as drawn of a wall then shifts them all alike. `None` where no two
/// walls can be taped to.
pub fn from_two_walls(
    arrangement: &Arrangement,
    scene: &Scene,
    places: &[DVec2],
    forward: DVec2,
) -> Vec<Option<[FromWall; 2]>> {
    let walls: Vec<Segment> = arrangement.bay.room.edges().take(arrangement.bay.room.outer().len()).collect();
    let all: Vec<Vec<Reached>> = places.iter().map(|&at| reached(scene, &walls, at)).collect();
    let of = |own: &[Reached], wall: usize| {
        own.iter().find(|from| from.wall == wall && from.cost < DETOUR_MM).copied()
    };
    let both = |own: &[Reached], [a, b]: [usize; 2]| Some([of(own, a)?, of(own, b)?]);
    let pairs = (0..walls.len()).flat_map(|a| (a + 1..walls.len()).map(move |b| [a, b]));
    let ranked = pairs.filter_map(|pair| {
        let there: Vec<[Reached; 2]> = all.iter().filter_map(|own| both(own, pair)).collect();
        let [a, b] = *there.first()?;
        let sum: f64 = there.iter().map(|[a, b]| a.cost + b.cost).sum();
        (a.along.perp_dot(b.along).abs() >= ACROSS).then_some((there.len(), sum, pair))
    });
    let best = ranked.reduce(|best, own| {
        let is_better = own.0 > best.0 || (own.0 == best.0 && own.1 < best.1);
        if is_better { own } else { best }
    });
    let told = all.iter().map(|own| {
        let same = best.and_then(|(_, _, pair)| both(own, pair));
        let two = match same {
            Some(pair) => two_of(&pair, forward),
            None => two_of(own, forward),
        }?;
        let [a, b] = two
            .map(|own| Some(FromWall { wall: arrangement.bay.walls.get(own.wall)?.id.clone(), mm: own.mm }));
        Some([a?, b?])
    });
    told.collect()
}

/// How far it is from a place on a floor to the first wall that way, mm; `None` if there is none.
pub fn to_wall(arrangement: &Arrangement, from: DVec2, way: DVec2) -> Option<f64> {
    let walls: Vec<Segment> = arrangement.bay.room.edges().take(arrangement.bay.room.outer().len()).collect();
    met(&walls, from, way).map(|own| own.1)
}

/// The first wall that a ray meets, by position, and after how many mm.
fn met(walls: &[Segment], from: DVec2, way: DVec2) -> Option<(usize, f64)> {
    let all = walls.iter().enumerate().filter_map(|(at, wall)| {
        let along = wall.to - wall.from;
        let across = way.perp_dot(along);
        if across.abs() < 1e-9 {
            return None;
        }
        let by = wall.from - from;
        let (mm, share) = (by.perp_dot(along) / across, by.perp_dot(way) / across);
        (mm >= 0.0 && (0.0..=1.0).contains(&share)).then_some((at, mm))
    });
    all.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// The walls that a tape reaches square from a place.
fn reached(scene: &Scene, walls: &[Segment], from: DVec2) -> Vec<Reached> {
    let all = walls.iter().enumerate().filter_map(|(at, wall)| {
        let along = (wall.to - wall.from).try_normalize()?;
        // The room lies to the left of its walls.
        let (first, mm) = met(walls, from, -along.perp())?;
        let tape = Segment::new(from, from - along.perp() * mm);
        let is_in_way = |prism: &baywright_geometry::Prism| {
            prism.span.bottom() < TAPE_MM
                && prism.span.top() > TAPE_MM
                && passes_through(&prism.outline.as_polygon(), &tape)
        };
        let hindered = scene.things.iter().any(|own| is_in_way(&own.prism));
        let cost = mm + if hindered { DETOUR_MM } else { 0.0 };
        (first == at).then_some(Reached { wall: at, along, mm, cost })
    });
    all.collect()
}

/// The two nearest that run well across one another, the one that runs rather along the car first.
fn two_of(all: &[Reached], forward: DVec2) -> Option<[Reached; 2]> {
    let pairs = all.iter().enumerate().flat_map(|(nth, a)| all.iter().skip(nth + 1).map(move |b| (*a, *b)));
    let across = pairs.filter(|(a, b)| a.along.perp_dot(b.along).abs() >= ACROSS);
    let (a, b) = across.min_by(|a, b| (a.0.cost + a.1.cost).total_cmp(&(b.0.cost + b.1.cost)))?;
    let beside = |own: &Reached| own.along.dot(forward).abs();
    Some(if beside(&a) >= beside(&b) { [a, b] } else { [b, a] })
}

#[cfg(test)]
mod tests {
    use super::*;
    use baywright_geometry::Polygon;

    /// From two walls that are not parallel to the bay's axes nor square to one another: what is told is what a tape reads square to
    /// each, by the distance of a point to a line.
    #[test]
    fn distances_are_square_to_each_of_two_walls() {
        let ring = [(0.0, 0.0), (9_000.0, 0.0), (9_000.0, 6_000.0), (1_500.0, 6_000.0)];
        let room = Polygon::new(ring.map(DVec2::from).to_vec(), Vec::new()).unwrap();
        let walls: Vec<Segment> = room.edges().collect();
        let from = DVec2::new(3_000.0, 1_200.0);
        let (slant, floor) = (&walls[3], &walls[0]);
        let by_line = (slant.to - slant.from).perp_dot(from - slant.from) / slant.length();
        assert_eq!(met(&walls, from, DVec2::NEG_Y).map(|own| own.0), Some(0));
        let square = -(slant.to - slant.from).normalize().perp();
        let (wall, mm) = met(&walls, from, square).unwrap();
        assert_eq!(wall, 3);
        assert!((mm - by_line.abs()).abs() < 1e-9, "{mm} {by_line}");
        assert!((met(&walls, from, DVec2::NEG_Y).unwrap().1 - 1_200.0).abs() < 1e-9);
        let own = |wall: usize, along: DVec2, mm: f64| Reached { wall, along, mm, cost: mm };
        let along = (slant.to - slant.from).normalize();
        let floor_along = (floor.to - floor.from).normalize();
        let all = [own(0, floor_along, 1_200.0), own(3, along, mm), own(2, -floor_along, 4_800.0)];
        let two = two_of(&all, DVec2::X).unwrap();
        assert_eq!(two.map(|own| own.wall), [0, 3]);
        let two = two_of(&all, DVec2::Y).unwrap();
        assert_eq!(two.map(|own| own.wall), [3, 0]);
        assert!(two_of(&all[..1], DVec2::X).is_none());
        assert!(two_of(&[all[0], all[2]], DVec2::X).is_none(), "two that run the same way fix no place");
    }
}
