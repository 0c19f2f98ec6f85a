//! A place for something new, near where it is wanted, where it is in nobody's way.

use baywright_geometry::overlap::overlaps;
use baywright_geometry::{Bounds, DVec2, Outline, Polygon, angle, holds};

use crate::check::{self, Claim};
use crate::model::{Arrangement, Thing};
use crate::scene::Scene;

/// Places are tried on rings so far apart, mm, in so many directions each.
const RING_MM: f64 = 250.0;
const DIRECTIONS: usize = 24;
/// As far as this, which no bay exceeds by much.
const MOST_RINGS: usize = 120;
/// Air around it, to walls and to other things.
const AIR_MM: f64 = 60.0;
/// Air around all that it may be in, where it may be, and where the car may be.
const MARGIN_MM: f64 = 1.0;

/// Where the middle of `thing` would stand, bay frame, mm, turned as it is: as near to `wanted` as there is a place in the
/// room where it stands in nothing and in no region that a check claims, wherever within what is known of its place and the car's
/// both may be. If there is none, where that is so if both stand as they are drawn; else where it stands in nothing; if there is
/// none either, `wanted` itself.
pub fn free_spot(arrangement: &Arrangement, scene: &Scene, thing: &Thing, wanted: DVec2) -> DVec2 {
    let span = thing.span;
    let boxed = |own: Outline| (own.bounds(), own);
    let claims = check::claims(arrangement, scene);
    let (solid, claimed): (Vec<&Claim>, Vec<&Claim>) = claims.iter().partition(|claim| claim.is_solid());
    // A zone that would let it in is kept free all the same: there is room elsewhere.
    let at_its_heights = |claim: &&Claim| claim.volume.at(&span).map(boxed);
    let others = scene.things.iter().map(|own| &own.prism).filter(|own| own.span.shared(&span).is_some());
    let others: Vec<(Bounds, Outline)> = others.map(|own| boxed(own.outline.clone())).collect();
    let solids: Vec<(Bounds, Outline)> = solid.iter().filter_map(at_its_heights).collect();
    let wishes: Vec<(Bounds, Outline)> = claimed.iter().filter_map(at_its_heights).collect();

    let own = thing.prism().outline.bounds().moved(-thing.place.at.origin());
    let in_none = |others: &[(Bounds, Outline)], place: &Bounds, outline: &Outline| {
        others.iter().all(|(bounds, other)| !bounds.meets(place) || !overlaps(other, outline))
    };
    let axle = arrangement.parked.origin();
    let farthest = |at: DVec2| axle.distance(at + own.centre()) + own.size().length() * 0.5;
    let fits = |at: DVec2, wishes: &[(Bounds, Outline)], as_drawn: bool| {
        let with_air = |air: f64| {
            let place = own.moved(at).grown(air);
            Some((place, Outline::Polygon(Polygon::rectangle(place.low, place.high).ok()?)))
        };
        let known = arrangement.shop.within(thing.place.known);
        let off = if as_drawn { 0.0 } else { known + check::sway(arrangement, farthest(at)) };
        let unsure = off + MARGIN_MM;
        let (Some((beside, outline)), Some((place, unsure))) = (with_air(AIR_MM), with_air(unsure)) else {
            return false;
        };
        holds(scene.room.walls(), &outline)
            && in_none(&others, &beside, &outline)
            && in_none(&solids, &place, &unsure)
            && in_none(wishes, &place, &unsure)
    };
    let nearest =
        |wishes: &[(Bounds, Outline)], as_drawn| spots(wanted).find(|&at| fits(at, wishes, as_drawn));
    nearest(&wishes, false)
        .or_else(|| nearest(&wishes, true))
        .or_else(|| nearest(&[], false))
        .unwrap_or(wanted)
}

/// Places about one, from near to far.
fn spots(about: DVec2) -> impl Iterator<Item = DVec2> {
    let ring = move |ring: usize| {
        (0..DIRECTIONS).map(move |i| {
            let way = angle::direction(std::f64::consts::TAU * i as f64 / DIRECTIONS as f64);
            (about + way * (ring as f64 * RING_MM)).round()
        })
    };
    std::iter::once(about).chain((1..=MOST_RINGS).flat_map(ring))
}
