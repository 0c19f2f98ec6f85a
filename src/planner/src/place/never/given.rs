//! What a proof starts from: the solids of the set-up, what stands, what lies outside the room.

use baywright_geometry::convex::{common, hull};
use baywright_geometry::polygon::signed_area;
use baywright_geometry::{DVec2, Outline, PlanPose, Polygon, Segment, Span, boolean};

use super::super::stood::stood;
use super::solid::Convex;
use super::{PAST_MM, mm, um};
use crate::assessment::Subject;
use crate::check::Context;
use crate::model::{Arrangement, Effort};
use crate::never::{Area, MARGIN_UM, Proof, Solid};
use crate::scene::Scene;

/// Farther than anything reaches, mm.
const FAR_MM: f64 = 1e6;
/// Lines that are so near are one, mm.
const ON_MM: f64 = 1e-2;
/// What two outlines may share that only touch, mm²: what rounding makes of a long side.
const SHARED_MM2: f64 = 1.0;
/// Something round is taken for a polygon of so many corners inside of it.
const CORNERS: usize = 24;
/// Corners and heights of a proof are those of a layout if they are no farther apart than this, µm.
pub const APART_UM: i64 = 10;

/// What counts as standing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stays {
    /// The building and what the layout says cannot be moved.
    Fixed,
    /// All that stands there, where it stands now.
    All,
}

/// What a proof is looked for of: each solid with what it is a part of.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The set-up's, vehicle frame.
    pub set_up: Vec<(Subject, Solid)>,
    /// What stands, bay frame.
    pub stands: Vec<(Subject, Solid)>,
    /// A box about the room and the ground beyond its open doors.
    pub room: Area,
}

impl Given {
    /// Of an arrangement; where its car stands does not matter. Left out are zones that are no solids, runways that carry the car,
    /// and what is proud of the floor.
    pub fn of(arrangement: &Arrangement, stays: Stays) -> Self {
        let at_origin = stood(arrangement, PlanPose::IDENTITY);
        let scene = Scene::of(&at_origin);
        let mut set_up = Vec::new();
        for own in &scene.car {
            put(&mut set_up, &Subject::Car, rings(&own.outline), &own.span);
        }
        for target in &scene.targets {
            for own in &target.solids {
                put(&mut set_up, &Subject::Stand(target.id.clone()), rings(&own.outline), &own.span);
            }
        }
        let mut stands = Vec::new();
        outside(&at_origin, &scene, &mut stands);
        ceiling(&at_origin, &scene, &mut stands);
        let context = Context::new(&at_origin, &scene);
        for (subject, own) in context.idle_runways() {
            put(&mut stands, &subject, rings(&own.outline), &own.span);
        }
        for (thing, placed) in at_origin.bay.things.iter().zip(&scene.things) {
            // What stands there for another set-up is there for a while.
            let is_own = at_origin.part_beside(&thing.id).is_none();
            if is_own && (stays == Stays::All || thing.effort == Effort::Fixed) {
                let own = &placed.prism;
                put(&mut stands, &Subject::Thing(thing.id.clone()), rings(&own.outline), &own.span);
            }
        }
        let bounds = scene.room.with_open_doors().bounds();
        let along = |low: f64, high: f64| [um(low) - 1, um(high) + 1];
        let room = Area { x: along(bounds.low.x, bounds.high.x), y: along(bounds.low.y, bounds.high.y) };
        Self { set_up, stands, room }
    }

    /// The solids alone: of the set-up, and what stands.
    pub fn solids(&self) -> (Vec<Solid>, Vec<Solid>) {
        let only = |all: &[(Subject, Solid)]| all.iter().map(|own| own.1.clone()).collect();
        (only(&self.set_up), only(&self.stands))
    }

    /// All places at which the set-up may lie in the room's box: no farther out of it than its corner that is nearest to its
    /// origin.
    pub(super) fn places(&self) -> Area {
        let parts = self.set_up.iter().map(|own| Convex::of(&own.1));
        let corners = parts.flat_map(|own| own.ring).map(|p| p.length());
        let nearest = corners.reduce(f64::min).unwrap_or(0.0);
        let by = um(nearest + PAST_MM) + MARGIN_UM;
        let grown = |[from, to]: [i64; 2]| [from - by, to + by];
        Area { x: grown(self.room.x), y: grown(self.room.y) }
    }
}

/// Whether a proof is of this: each of its solids is one of these, and its box of the room is no smaller. What else there is makes
/// less room, not more. `Err` has the first solid that is not, or none for the box.
///
/// # Errors
/// It is of something else.
pub fn is_of<'a>(proof: &'a Proof, given: &Given) -> Result<(), Option<&'a Solid>> {
    let is_near = |a: i64, b: i64| (a - b).abs() <= APART_UM;
    let is_same = |a: &Solid, b: &Solid| {
        let points = |own: &Solid| own.ring.iter().flatten().copied().collect::<Vec<i64>>();
        let (ring, heights) = (points(a).into_iter().zip(points(b)), a.heights.into_iter().zip(b.heights));
        a.of == b.of && a.ring.len() == b.ring.len() && ring.chain(heights).all(|(a, b)| is_near(a, b))
    };
    let missing = |all: &'a [Solid], there: &[(Subject, Solid)]| {
        all.iter().find(|own| !there.iter().any(|(_, other)| is_same(own, other)))
    };
    let first = missing(&proof.set_up, &given.set_up).or_else(|| missing(&proof.stands, &given.stands));
    if let Some(own) = first {
        return Err(Some(own));
    }
    let holds = |own: [i64; 2], room: [i64; 2]| own[0] <= room[0] + APART_UM && own[1] >= room[1] - APART_UM;
    let is_whole = holds(proof.room.x, given.room.x) && holds(proof.room.y, given.room.y);
    is_whole.then_some(()).ok_or(None)
}

/// What of a proof a solid is of, for who reads the file: an English word and, after a colon, a typed name.
fn name(subject: &Subject) -> String {
    match subject {
        Subject::Car => "car".to_owned(),
        Subject::Stand(id) => format!("stand: {id}"),
        Subject::Wall(id) => format!("wall: {id}"),
        Subject::Opening(id) => format!("door: {id}"),
        Subject::Runway(id) => format!("runway: {id}"),
        Subject::Thing(id) => format!("thing: {id}"),
        Subject::Ceiling => "ceiling".to_owned(),
        _ => "other".to_owned(),
    }
}

/// Convex rings that lie in an outline and, but for what is round, fill it.
fn rings(outline: &Outline) -> Vec<Vec<DVec2>> {
    match outline {
        Outline::Circle(circle) => {
            let corner = |nth: usize| {
                let turn = std::f64::consts::TAU * nth as f64 / CORNERS as f64;
                circle.centre() + baywright_geometry::angle::direction(turn) * circle.radius()
            };
            vec![(0..CORNERS).map(corner).collect()]
        }
        Outline::Polygon(polygon) => polygon.pieces().map(<[DVec2]>::to_vec).collect(),
    }
}

/// Puts convex rings between two heights among others.
fn put(all: &mut Vec<(Subject, Solid)>, of: &Subject, rings: Vec<Vec<DVec2>>, span: &Span) {
    for ring in rings {
        if let Some(ring) = whole(&ring) {
            let heights = [um(span.bottom()), um(span.top())];
            all.push((of.clone(), Solid { of: name(of), ring, heights }));
        }
    }
}

/// The hull of a ring in whole micrometres; `None` if nothing is left of it.
fn whole(ring: &[DVec2]) -> Option<Vec<[i64; 2]>> {
    let mut points: Vec<[i64; 2]> = ring.iter().map(|p| [um(p.x), um(p.y)]).collect();
    points.sort_unstable();
    points.dedup();
    let turn = |a: [i64; 2], b: [i64; 2], c: [i64; 2]| {
        let by = |p: [i64; 2], q: [i64; 2]| [i128::from(q[0] - p[0]), i128::from(q[1] - p[1])];
        let (ab, ac) = (by(a, b), by(a, c));
        ab[0] * ac[1] - ab[1] * ac[0]
    };
    let chain = |points: &mut dyn Iterator<Item = [i64; 2]>| {
        let mut chain: Vec<[i64; 2]> = Vec::new();
        for point in points {
            while let [.., a, b] = chain[..]
                && turn(a, b, point) <= 0
            {
                chain.pop();
            }
            chain.push(point);
        }
        chain.pop();
        chain
    };
    let mut hull = chain(&mut points.iter().copied());
    hull.extend(chain(&mut points.iter().rev().copied()));
    (hull.len() >= 3).then_some(hull)
}

/// At any height.
fn anywhere() -> Option<Span> {
    Span::new(-FAR_MM, FAR_MM).ok()
}

/// All that lies outside the room and the ground beyond its open doors, as far as something reaches; and what of that ground is
/// over a lintel or under a sill.
fn outside(arrangement: &Arrangement, scene: &Scene, stands: &mut Vec<(Subject, Solid)>) {
    let Some(span) = anywhere() else { return };
    let room = scene.room.with_open_doors();
    let Some(around) = hull(room.outer()) else { return };
    for edge in around.edges() {
        let along = (edge.to - edge.from).normalize_or_zero() * FAR_MM;
        let out = -along.perp();
        let (from, to) = (edge.from - along, edge.to + along);
        put(stands, &barrier(arrangement, scene, &[edge]), vec![vec![from, from + out, to + out, to]], &span);
    }
    for notch in boolean::difference(&around, room) {
        for piece in notch.pieces() {
            let sides: Vec<Segment> = sides(piece).collect();
            let of = barrier(arrangement, scene, &sides);
            put(stands, &of, vec![piece.to_vec()], &span);
            put(stands, &of, outwards(&sides, &around, room).into_iter().collect(), &span);
        }
    }
    let grounds: Vec<_> = scene.room.grounds().collect();
    for (nth, (door, ground)) in grounds.iter().enumerate() {
        let others = grounds.iter().enumerate().filter(|(other, _)| *other != nth).map(|own| own.1.1);
        let mut own = boolean::difference(ground, scene.room.walls());
        for other in others {
            own = own.iter().flat_map(|piece| boolean::difference(piece, other)).collect();
        }
        let over = Span::new(door.span.top(), FAR_MM);
        let under = Span::new(-FAR_MM, door.span.bottom());
        for span in over.into_iter().chain(under) {
            for piece in &own {
                let all = piece.pieces().map(<[DVec2]>::to_vec).collect();
                put(stands, &Subject::Opening(door.id.clone()), all, &span);
            }
        }
    }
}

fn sides(ring: &[DVec2]) -> impl Iterator<Item = Segment> + '_ {
    ring.iter().zip(ring.iter().cycle().skip(1)).map(|(&from, &to)| Segment::new(from, to))
}

/// A piece of what lies between the room and its hull, without the side on the hull: on as far as something reaches, where that
/// meets none of the room.
fn outwards(own: &[Segment], around: &Polygon, room: &Polygon) -> Option<Vec<DVec2>> {
    let is_on = |side: &Segment| {
        around.edges().any(|edge| edge.distance_to(side.from) < ON_MM && edge.distance_to(side.to) < ON_MM)
    };
    let far = DVec2::splat(FAR_MM);
    let all = Polygon::rectangle(-far, far).ok()?;
    let mut ring = all.outer().to_vec();
    for side in own.iter().filter(|side| !is_on(side)) {
        ring = left_of(&ring, side);
    }
    let shared = room.pieces().map(|piece| signed_area(&common(&ring, piece)).max(0.0)).sum::<f64>();
    (own.iter().any(is_on) && ring.len() >= 3 && shared < SHARED_MM2).then_some(ring)
}

/// What of a convex ring lies left of a line.
fn left_of(ring: &[DVec2], line: &Segment) -> Vec<DVec2> {
    let way = (line.to - line.from).normalize_or_zero();
    let left = |p: DVec2| way.perp_dot(p - line.from);
    let mut kept = Vec::new();
    for Segment { from, to } in sides(ring) {
        let (a, b) = (left(from), left(to));
        if a >= 0.0 {
            kept.push(from);
        }
        if (a > 0.0 && b < 0.0) || (a < 0.0 && b > 0.0) {
            kept.push(from.lerp(to, a / (a - b)));
        }
    }
    kept
}

/// The wall along one of some sides of what lies outside, or the door beyond which it lies.
fn barrier(arrangement: &Arrangement, scene: &Scene, sides: &[Segment]) -> Subject {
    let bay = &arrangement.bay;
    let walls = || scene.room.walls().edges().zip(&bay.walls);
    let is_along = |wall: &Segment| {
        let way = (wall.to - wall.from).normalize_or_zero();
        let off = |p: DVec2| way.perp_dot(p - wall.from).abs();
        let is_beside = |side: &Segment| {
            let (a, b) = ((side.from - wall.from).dot(way), (side.to - wall.from).dot(way));
            off(side.from) < ON_MM && off(side.to) < ON_MM && a.max(b) > 0.0 && a.min(b) < wall.length()
        };
        sides.iter().any(is_beside)
    };
    let along = walls().filter(|(wall, _)| is_along(wall));
    if let Some((_, wall)) = along.max_by(|a, b| a.0.length().total_cmp(&b.0.length())) {
        return Subject::Wall(wall.id.clone());
    }
    let middle = sides.iter().map(|own| own.from + own.to).sum::<DVec2>() / (2.0 * sides.len().max(1) as f64);
    let to_door = |line: Segment| line.distance_to(middle);
    let doors = scene.room.grounds().filter_map(|(door, _)| Some((to_door(bay.opening_line(door)?), door)));
    let door = doors.min_by(|a, b| a.0.total_cmp(&b.0));
    let wall = walls().map(|(line, wall)| (line.distance_to(middle), wall));
    let wall = wall.min_by(|a, b| a.0.total_cmp(&b.0));
    match (door, wall) {
        (Some((_, door)), _) => Subject::Opening(door.id.clone()),
        (None, Some((_, wall))) => Subject::Wall(wall.id.clone()),
        (None, None) => Subject::Floor,
    }
}

/// The ceiling: over the room, and over all if nothing leads out of it.
fn ceiling(arrangement: &Arrangement, scene: &Scene, stands: &mut Vec<(Subject, Solid)>) {
    let Ok(span) = Span::new(arrangement.bay.ceiling_mm, FAR_MM) else { return };
    let walls = scene.room.walls();
    let far = DVec2::splat(mm(um(FAR_MM)));
    let all = match scene.room.grounds().next() {
        None => Polygon::rectangle(-far, far).ok().map(|own| own.outer().to_vec()).into_iter().collect(),
        Some(_) => walls.pieces().map(<[DVec2]>::to_vec).collect(),
    };
    put(stands, &Subject::Ceiling, all, &span);
}
