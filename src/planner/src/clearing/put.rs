//! Where the things that go can be put, all at once, with the car at a spot.
//!
//! Each is moved as it stands, without a turn: inside the room, clear of what stays, of the others that go, of what the set-up
//! claims, of ways that are kept free, of doorways and pits. The moves that leave it so are a region; of it the nearest places
//! and the corners are tried, in turn with those of the others. So what is found is so; what is not found may still be there.

use baywright_geometry::convex::{inset, moves_to_meet, moves_within};
use baywright_geometry::{DVec2, Outline, Polygon, Prism, Region, Span, boolean, hull, hull_grown};

use super::movers::hands;
use crate::check::{self, Claims, MovesWith};
use crate::cure::built;
use crate::model::{Arrangement, Id, OpeningKind, Thing};
use crate::place::Slack;
use crate::scene::Scene;

/// A thing stays clear of everything by this, mm: so it stands on whole millimetres.
const CLEAR_MM: f64 = 1.0;
/// So far into the room it stays free before a door or gap (common practice, no source), mm; before a door that swings as far
/// as its leaf, if that is more.
const DOORWAY_MM: f64 = 1_000.0;
/// So many places of a thing are tried, and no two within so many mm.
const MOST_TRIED: usize = 12;
const APART_MM: f64 = 120.0;
/// So many regions are made for one spot.
const MOST_LOOKS: usize = 60;
/// Things are put in each order up to so many of them.
const ALL_ORDERS: usize = 3;

/// How well clear everything is to be.
#[derive(Clone, Copy, Debug)]
pub(super) struct Keeps {
    /// How far off its spot the car may stand.
    pub slack: Slack,
    /// Whether of what only needs care too, and by what the thing's own place is uncertain by.
    pub of_care: bool,
}

/// A bay with the car at a spot, and what keeps things out of places there.
pub(super) struct Floor<'a> {
    arrangement: &'a Arrangement,
    scene: Scene,
    claims: Claims,
    built: Vec<Prism>,
    keeps: Keeps,
    moving: Vec<usize>,
}

/// The moves of things, with how far they go, each mm counted as often as hands carry.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Put {
    pub moves: Vec<(Id, DVec2)>,
    pub way_mm: f64,
}

impl<'a> Floor<'a> {
    /// Of an arrangement with the car at its spot, in which these things go.
    pub(super) fn new(arrangement: &'a Arrangement, moving: &[&Id], keeps: Keeps) -> Self {
        let scene = Scene::of(arrangement);
        let claims = check::claims(arrangement, &scene);
        let things = arrangement.bay.things.iter().enumerate();
        let moving = things.filter(|(_, own)| moving.contains(&&own.id)).map(|own| own.0).collect();
        let built = built(arrangement).map(|own| own.0).chain(doorways(arrangement)).collect();
        Self { arrangement, scene, claims, built, keeps, moving }
    }

    /// The shortest ways that were found for all of them together.
    pub(super) fn put(&self) -> Option<Put> {
        let mut looks = MOST_LOOKS;
        let mut best: Option<(f64, Vec<(usize, DVec2)>)> = None;
        for order in self.orders() {
            self.further(&order, &mut Vec::new(), 0.0, &mut best, &mut looks);
        }
        let (way_mm, moves) = best?;
        let moves = moves.into_iter().filter(|own| own.1 != DVec2::ZERO);
        let named = moves.filter_map(|(nth, by)| Some((self.thing(nth)?.id.clone(), by)));
        let mut moves: Vec<(Id, DVec2)> = named.collect();
        moves.sort_by(|a, b| a.0.cmp(&b.0));
        Some(Put { moves, way_mm })
    }

    fn thing(&self, nth: usize) -> Option<&Thing> {
        self.arrangement.bay.things.get(nth)
    }

    /// In which order they are put: the largest first; a few in every order.
    fn orders(&self) -> Vec<Vec<usize>> {
        let mut largest = self.moving.clone();
        let area = |nth: usize| self.thing(nth).map_or(0.0, |own| own.footprint.outline().area());
        largest.sort_by(|&a, &b| area(b).total_cmp(&area(a)).then(a.cmp(&b)));
        if largest.len() > ALL_ORDERS {
            return vec![largest];
        }
        let mut orders = vec![Vec::new()];
        for _ in 0..largest.len() {
            orders = orders
                .iter()
                .flat_map(|own: &Vec<usize>| {
                    let rest = largest.iter().filter(|nth| !own.contains(nth));
                    rest.map(|&nth| own.iter().copied().chain([nth]).collect()).collect::<Vec<Vec<usize>>>()
                })
                .collect();
        }
        orders
    }

    /// Puts the next, then those after it, in turn; keeps the shortest ways.
    fn further(
        &self,
        left: &[usize],
        put: &mut Vec<(usize, DVec2)>,
        way_mm: f64,
        best: &mut Option<(f64, Vec<(usize, DVec2)>)>,
        looks: &mut usize,
    ) {
        let is_longer =
            |way_mm: f64, best: &Option<(f64, _)>| best.as_ref().is_some_and(|own| way_mm >= own.0);
        let Some((&next, left)) = left.split_first() else {
            if !is_longer(way_mm, best) {
                *best = Some((way_mm, put.clone()));
            }
            return;
        };
        let Some(rest) = looks.checked_sub(1) else { return };
        *looks = rest;
        let hands = self.thing(next).and_then(|own| hands(own.effort)).map_or(1.0, f64::from);
        for by in self.moves(next, put) {
            let way_mm = way_mm + by.length() * hands;
            if is_longer(way_mm, best) {
                break;
            }
            put.push((next, by));
            self.further(left, put, way_mm, best, looks);
            put.pop();
        }
    }

    /// The moves of a thing that are tried, the shortest first, with some others put already.
    fn moves(&self, nth: usize, put: &[(usize, DVec2)]) -> Vec<DVec2> {
        let region = self.region(nth, put).unwrap_or_default();
        if region.holds(DVec2::ZERO) {
            return vec![DVec2::ZERO];
        }
        let nearest = region.rings().flat_map(|ring| {
            ring.iter().zip(ring.iter().cycle().skip(1)).flat_map(|(&from, &to)| {
                let along = to - from;
                let share = (-from).dot(along) / along.length_squared().max(f64::MIN_POSITIVE);
                [from + along * share.clamp(0.0, 1.0), from]
            })
        });
        let mut all: Vec<DVec2> = nearest.filter_map(|by| whole(&region, by)).collect();
        all.sort_by(|a, b| {
            a.length_squared()
                .total_cmp(&b.length_squared())
                .then(a.x.total_cmp(&b.x))
                .then(a.y.total_cmp(&b.y))
        });
        let mut kept: Vec<DVec2> = Vec::new();
        for by in all {
            if kept.len() < MOST_TRIED && kept.iter().all(|own| own.distance(by) >= APART_MM) {
                kept.push(by);
            }
        }
        kept
    }

    /// The moves after which a thing stands where it may.
    fn region(&self, nth: usize, put: &[(usize, DVec2)]) -> Option<Region> {
        let (thing, placed) = (self.thing(nth)?, self.scene.things.get(nth)?);
        let own = placed.prism.outline.as_polygon();
        let pieces: Vec<&[DVec2]> = own.pieces().collect();
        let room = self.scene.room.walls();
        let around = hull(room.outer())?;
        let frame = moves_within(&inset(around.outer(), CLEAR_MM), own.outer());
        if frame.len() < 3 {
            return None;
        }
        let mut taken = Vec::new();
        let mut bar = |stays: &Polygon, by_mm: f64| {
            for ring in stays.pieces().filter_map(|ring| hull_grown(ring, by_mm)) {
                taken.extend(pieces.iter().map(|piece| moves_to_meet(ring.outer(), piece)));
            }
        };
        let known_mm = if self.keeps.of_care { placed.known_mm } else { 0.0 };
        for notch in boolean::difference(&around, room) {
            bar(&notch, CLEAR_MM);
        }
        for (other, (_, seen)) in self.arrangement.bay.things.iter().zip(&self.scene.things).enumerate() {
            if seen.prism.span.shared(&thing.span).is_none() {
                continue;
            }
            let both_mm = CLEAR_MM + if self.keeps.of_care { known_mm + seen.known_mm } else { 0.0 };
            if let Some((_, by)) = put.iter().find(|own| own.0 == other) {
                bar(&seen.prism.outline.moved(*by).as_polygon(), both_mm);
            } else if !self.moving.contains(&other) {
                bar(&seen.prism.outline.as_polygon(), both_mm);
            }
        }
        for solid in self.built.iter().filter(|own| own.span.shared(&thing.span).is_some()) {
            bar(&solid.outline.as_polygon(), CLEAR_MM);
        }
        for claim in self.claims.iter() {
            let of_room = claim.moves_with == MovesWith::Room;
            let is_minded = of_room || self.keeps.of_care;
            if claim.says(thing).is_none() || !claim.may_stop(thing) && !is_minded {
                continue;
            }
            let Some(outline) = claim.volume.at(&thing.span) else { continue };
            let sway_mm = if of_room { 0.0 } else { self.sway_mm(&outline) };
            bar(&outline.as_polygon(), CLEAR_MM + known_mm + sway_mm);
        }
        taken.retain(|ring| ring.len() >= 3);
        Some(Region::left(&[frame], &taken))
    }

    /// How far a part of the set-up may be from where it is, with the car as far off as it may stand, mm.
    fn sway_mm(&self, part: &Outline) -> f64 {
        let Slack { mm, rad } = self.keeps.slack;
        let far_mm = check::farthest_of(part, self.arrangement.parked.origin());
        mm * std::f64::consts::SQRT_2 + far_mm * rad
    }
}

/// The nearest move of whole millimetres along the bay's axes that is in a region.
fn whole(region: &Region, by: DVec2) -> Option<DVec2> {
    let round = by.round();
    let offs = (-1..=1).flat_map(|x| (-1..=1).map(move |y| DVec2::new(f64::from(x), f64::from(y))));
    let mut all: Vec<DVec2> = offs.map(|off| round + off).collect();
    all.sort_by(|a, b| a.distance_squared(by).total_cmp(&b.distance_squared(by)));
    all.into_iter().find(|own| region.holds(*own))
}

/// What is kept free before doors and gaps.
fn doorways(arrangement: &Arrangement) -> impl Iterator<Item = Prism> {
    let bay = &arrangement.bay;
    let doors = bay.openings.iter().filter(|own| own.kind != OpeningKind::Window);
    doors.filter_map(|door| {
        let wall = bay.room.edges().nth(door.wall)?;
        let along = (wall.to - wall.from).try_normalize()?;
        let (from, wide) = (wall.from + along * door.from_mm, along * door.width_mm);
        let leaf_mm = if door.kind == OpeningKind::SwingDoor { door.width_mm } else { 0.0 };
        // The inside lies left of an edge.
        let inwards = along.perp() * leaf_mm.max(DOORWAY_MM);
        let outline = Polygon::simple(vec![from, from + wide, from + wide + inwards, from + inwards]).ok()?;
        Some(Prism::new(outline.into(), Span::new(0.0, door.span.top().max(1.0)).ok()?))
    })
}
