//! A place for something new, near where it is wanted, where it is in nobody's way.

use baywright_geometry::overlap::overlaps;
use baywright_geometry::{Bounds, Containment, DVec2, Outline, Polygon, Prism, angle, contains};

use crate::model::{Arrangement, Thing};
use crate::scene::Scene;

/// Places are tried on rings so far apart, mm, in so many directions each.
const RING_MM: f64 = 250.0;
const DIRECTIONS: usize = 24;
/// As far as this, which no bay exceeds by much.
const MOST_RINGS: usize = 120;
/// Air around it: more than a place known by eye is uncertain by.
const AIR_MM: f64 = 60.0;

/// Where the middle of `thing` would stand, bay frame, mm, turned as it is: as near to `wanted` as there is a place in the
/// room where it stands in nothing, in no keep-clear zone, in no area that is kept free, and leaves room to work about the
/// car. If there is none, where it stands in nothing; if there is none either, `wanted` itself.
pub fn free_spot(arrangement: &Arrangement, scene: &Scene, thing: &Thing, wanted: DVec2) -> DVec2 {
    let span = thing.span;
    let shares = |prism: &&Prism| prism.span.shared(&span).is_some();
    let outlined = |prism: &Prism| prism.outline.clone();
    let solids = scene.car.iter().chain(scene.targets.iter().flat_map(|own| &own.solids));
    let solids = solids.chain(scene.things.iter().map(|own| &own.prism)).filter(shares).map(outlined);
    let zones = scene.zones.iter().map(|own| &own.prism).filter(shares).map(outlined);
    let free = arrangement.bay.keep_free.iter().map(|own| Outline::Polygon(own.outline.clone()));
    // Room to work in about the car, where it is as high as people work.
    let about = scene.car_bounds.grown(arrangement.aiming.working_room);
    let about =
        Polygon::rectangle(about.low, about.high).ok().filter(|_| scene.car.iter().any(|own| shares(&own)));
    let wishes = zones.chain(free).chain(about.map(Outline::Polygon));
    let boxed = |own: Outline| (own.bounds(), own);
    let solids: Vec<(Bounds, Outline)> = solids.map(boxed).collect();
    let wishes: Vec<(Bounds, Outline)> = wishes.map(boxed).collect();

    let own = thing.prism().outline.bounds().moved(-thing.place.origin());
    let in_none = |others: &[(Bounds, Outline)], place: &Bounds, outline: &Outline| {
        others.iter().all(|(bounds, other)| !bounds.meets(place) || !overlaps(other, outline))
    };
    let fits = |at: DVec2, wishes: &[(Bounds, Outline)]| {
        let place = own.moved(at).grown(AIR_MM);
        let Ok(outline) = Polygon::rectangle(place.low, place.high).map(Outline::Polygon) else {
            return false;
        };
        let held = contains(scene.room.walls(), &outline);
        matches!(held, Containment::Within | Containment::TouchingWithin)
            && in_none(&solids, &place, &outline)
            && in_none(wishes, &place, &outline)
    };
    let nearest = |wishes: &[(Bounds, Outline)]| spots(wanted).find(|&at| fits(at, wishes));
    nearest(&wishes).or_else(|| nearest(&[])).unwrap_or(wanted)
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
