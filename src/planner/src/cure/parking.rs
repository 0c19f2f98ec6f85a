//! Where else the car could stand with all of its set-up: clear of everything that stays where it is, and inside the room.
//!
//! The set-up moves as one. What is in conflict where it stands gives the first places; what these would run into is taken in
//! too, until the nearest place that is left runs into nothing: no nearer one can be.

use std::borrow::Cow;

use baywright_geometry::overlap::overlaps;
use baywright_geometry::protrude::beyond;
use baywright_geometry::separate::{by_length_then_heading, exits_together};
use baywright_geometry::{Bounds, DVec2, Outline, Polygon, Span, convex};

use super::{Case, grown};
use crate::assessment::Severity;
use crate::at_once;
use crate::check::{self, Claim, Volume, claim};
use crate::model::{Other, Thing};
use crate::scene::Scene;

/// Further than this no place is looked for: the whole bay is another question.
pub const LOOKED_WITHIN_MM: f64 = 2000.0;
/// How many places are given, and how often what they run into is taken in.
const MOST_PLACES: usize = 3;
const MOST_ROUNDS: usize = 10;

/// What stays, and what of the set-up may not share area with it.
struct Pair {
    stays: Outline,
    moves: Outline,
    /// Boxes around both.
    around: (Bounds, Bounds),
}

impl Pair {
    fn new(stays: Outline, moves: Outline) -> Self {
        let around = (stays.bounds(), moves.bounds());
        Self { stays, moves, around }
    }

    fn meets(&self, by: DVec2) -> bool {
        self.around.0.meets(&self.around.1.moved(by)) && overlaps(&self.stays, &self.moves.moved(by))
    }
}

/// The nearest places, the nearest first, as moves of the car: clear by what the places of things, walls and car are uncertain
/// by if there is such a place, else by what those of things and car are, else just clear.
pub(super) fn places(case: &Case<'_>, stays: impl Fn(&Thing) -> bool) -> Vec<DVec2> {
    let mut found: Vec<DVec2> = Vec::new();
    for room in rooms(case) {
        let walls_mm = case.arrangement.shop.within(case.arrangement.bay.walls_known);
        let mut ways = vec![Margins { sure: true, walls_mm }, Margins { sure: true, walls_mm: 0.0 }];
        ways.dedup();
        ways.push(Margins { sure: false, walls_mm: 0.0 });
        let places = ways.into_iter().map(|margins| clear_places(&pairs(case, &room, &stays, margins)));
        found.extend(places.into_iter().find(|own| !own.is_empty()).unwrap_or_default());
    }
    by_length_then_heading(&mut found);
    found.dedup();
    found
}

/// What of the plan counts as room for the set-up: with the ground beyond every open door, since a part of it may pass under a
/// lintel; and, if that is less, what lets all of it pass.
pub(super) fn rooms(case: &Case<'_>) -> Vec<Polygon> {
    let room = &case.scene.room;
    let spans = case.claims.iter().filter(|claim| claim.inside).filter_map(|claim| match &claim.volume {
        Volume::Prism(prism) => Some(prism.span),
        _ => None,
    });
    let tallest = spans.reduce(|a, b| {
        let (bottom, top) = (a.bottom().min(b.bottom()), a.top().max(b.top()));
        Span::new(bottom, top).unwrap_or(a)
    });
    let all = room.with_open_doors();
    let passed = tallest.map(|span| room.holding(&span)).filter(|passed| **passed != *all);
    std::iter::once(all.clone()).chain(passed.map(Cow::into_owned)).collect()
}

fn clear_places(pairs: &[Pair]) -> Vec<DVec2> {
    let (mut tried, mut left): (Vec<&Pair>, Vec<&Pair>) =
        pairs.iter().partition(|pair| pair.meets(DVec2::ZERO));
    for _ in 0..MOST_ROUNDS {
        let shapes: Vec<(&Outline, &Outline)> = tried.iter().map(|pair| (&pair.stays, &pair.moves)).collect();
        let mut moves = exits_together(&shapes);
        moves.retain(|by| *by != DVec2::ZERO && by.length() <= LOOKED_WITHIN_MM);
        moves.truncate(MOST_PLACES);
        let (met, apart): (Vec<&Pair>, Vec<&Pair>) =
            left.into_iter().partition(|pair| moves.iter().any(|by| pair.meets(*by)));
        if met.is_empty() {
            return moves;
        }
        tried.extend(met);
        left = apart;
    }
    Vec::new()
}

/// By how much a place is clear.
#[derive(Clone, Copy, PartialEq)]
struct Margins {
    /// Whether by what the things' places and the car's own are uncertain by.
    sure: bool,
    /// Of the walls, mm.
    walls_mm: f64,
}

/// All of what stays against all of the set-up that minds it, what set-ups that are done at the same time keep clear against its car and
/// stands, and what is not room against what must be inside.
fn pairs(case: &Case<'_>, room: &Polygon, stays: impl Fn(&Thing) -> bool, margins: Margins) -> Vec<Pair> {
    let things = case.arrangement.bay.things.iter().zip(&case.scene.things);
    let mut pairs: Vec<Pair> = Vec::new();
    let heading = case.arrangement.parked.heading();
    let parked = super::parked_anew(case);
    for (thing, placed) in things.filter(|(thing, _)| stays(thing)) {
        let margin = if margins.sure { super::margin(case, placed, DVec2::ZERO, parked) } else { 0.0 };
        let Some(outline) = grown(&placed.prism.outline, margin, heading) else { continue };
        let near = outline.bounds().grown(LOOKED_WITHIN_MM);
        let of_car = claim::of_car(&case.claims, thing);
        let in_reach = of_car.filter(|(claim, _)| claim.around.meets(&near));
        pairs.extend(in_reach.map(|(_, region)| Pair::new(outline.clone(), region)));
    }
    pairs.extend(kept_by_others(case, margins, heading));
    if let Some(set_up) = set_up(&case.claims) {
        let set_up = Outline::from(set_up);
        let far = check::farthest_of(&set_up, case.arrangement.parked.origin());
        let margin = if margins.sure { check::sway_if(case.arrangement, parked, far) } else { 0.0 };
        if let Some(set_up) = grown(&set_up, margin + margins.walls_mm, heading) {
            pairs.extend(beyond(room, &set_up).into_iter().map(|wall| Pair::new(wall, set_up.clone())));
        }
    }
    pairs
}

/// What of the floor set-ups that are done at the same time keep clear of this one's car and stands, each against these.
fn kept_by_others(case: &Case<'_>, margins: Margins, heading: f64) -> Vec<Pair> {
    let arrangement = case.arrangement;
    let others = arrangement.beside.iter().filter_map(|own| match &own.other {
        Other::Known(other) => Some(other.as_ref()),
        Other::Asks | Other::Unknown => None,
    });
    let mut pairs = Vec::new();
    let (own, parked) = (at_once::solids(arrangement), super::parked_anew(case));
    for other in others {
        let claims = check::claims(other, &Scene::of(other));
        for (_, solid) in &own {
            let outline = solid.prism().outline;
            let sway = check::sway_if(
                arrangement,
                parked,
                check::farthest_of(&outline, arrangement.parked.origin()),
            );
            let near = outline.bounds().grown(LOOKED_WITHIN_MM + sway);
            let stopping = claims.iter().filter(|claim| {
                let says = claim.says(solid).is_some_and(|(_, severity)| severity == Severity::Stops);
                says && !claim.is_solid() && claim.around.meets(&near)
            });
            for claim in stopping {
                let Some(region) = claim.volume.at(&solid.span) else { continue };
                let theirs = other.sway_mm(check::farthest_of(&region, other.parked.origin()));
                let margin = if margins.sure { sway + theirs } else { 0.0 };
                let grown = grown(&region, margin, heading);
                pairs.extend(grown.map(|region| Pair::new(region, outline.clone())));
            }
        }
    }
    pairs
}

/// Everything of the set-up that must be inside the room, as one convex outline.
pub(super) fn set_up(claims: &[Claim]) -> Option<Polygon> {
    let inside = claims.iter().filter(|claim| claim.inside).filter_map(|claim| match &claim.volume {
        Volume::Prism(prism) => Some(prism.outline.as_polygon()),
        // What is between solids that are inside is inside a convex outline too.
        Volume::Within { .. }
        | Volume::Line { .. }
        | Volume::Spot { .. }
        | Volume::Sight { .. }
        | Volume::Fresnel { .. }
        | Volume::Picture(_) => None,
    });
    let corners: Vec<DVec2> = inside.flat_map(|outline| outline.outer().to_vec()).collect();
    convex::hull(&corners)
}
