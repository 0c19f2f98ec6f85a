//! A place for something new, near where it is wanted, where it is in nobody's way.

use baywright_geometry::overlap::overlaps;
use baywright_geometry::{Bounds, DVec2, Outline, Polygon, Span, angle, holds};

use crate::check::{self, Claim};
use crate::model::{Arrangement, OpeningKind, Thing};
use crate::scene::Scene;

/// Places are tried on rings so far apart, mm, in so many directions each.
const RING_MM: f64 = 250.0;
const DIRECTIONS: usize = 24;
/// Floor that is sought is so much of its size, if there is none of the whole.
const SHARES: [f64; 5] = [1.0, 0.75, 0.5, 0.25, 0.125];
/// As far as this, which no bay exceeds by much.
const MOST_RINGS: usize = 120;
/// Air around it, to walls and to other things.
const AIR_MM: f64 = 60.0;
/// Air around all that it may be in, where it may be, and where the car may be.
const MARGIN_MM: f64 = 1.0;

/// Where the middle of `thing` would stand, bay frame, mm, turned as it is: as near to `wanted` as there is a place in the
/// room where it stands in nothing, before no door or gap and in no region that a check claims, wherever within what is known of its
/// place and the car's both may be. If there is none, where that is so if both stand as they are drawn; then before a door; else where
/// it stands in nothing; if there is none either, `wanted` itself.
pub fn free_spot(arrangement: &Arrangement, scene: &Scene, thing: &Thing, wanted: DVec2) -> DVec2 {
    free_spot_beside(arrangement, scene, thing, wanted, &[])
}

/// The same for what is to lie on none of these places of the floor either.
pub fn free_spot_beside(
    arrangement: &Arrangement,
    scene: &Scene,
    thing: &Thing,
    wanted: DVec2,
    beside: &[Outline],
) -> DVec2 {
    let span = thing.span;
    let boxed = |own: Outline| (own.bounds(), own);
    let claims = check::claims(arrangement, scene);
    let (solid, claimed): (Vec<&Claim>, Vec<&Claim>) = claims.iter().partition(|claim| claim.is_solid());
    // A zone that would let it in is kept free all the same: there is room elsewhere.
    let at_its_heights = |claim: &&Claim| claim.volume.at(&span).map(boxed);
    let others = scene.things.iter().map(|own| &own.prism).filter(|own| own.span.shared(&span).is_some());
    let others = others.map(|own| own.outline.clone()).chain(beside.iter().cloned());
    let others: Vec<(Bounds, Outline)> = others.map(boxed).collect();
    let solids: Vec<(Bounds, Outline)> = solid.iter().filter_map(at_its_heights).collect();
    let wishes: Vec<(Bounds, Outline)> = claimed.iter().filter_map(at_its_heights).collect();
    let ways: Vec<(Bounds, Outline)> = ways(arrangement, &span).map(boxed).collect();

    let own = thing.prism().outline.bounds().moved(-thing.place.at.origin());
    let in_none = |others: &[(Bounds, Outline)], place: &Bounds, outline: &Outline| {
        others.iter().all(|(bounds, other)| !bounds.meets(place) || !overlaps(other, outline))
    };
    let axle = arrangement.parked.origin();
    let farthest = |at: DVec2| axle.distance(at + own.centre()) + own.size().length() * 0.5;
    let fits = |at: DVec2, wishes: &[(Bounds, Outline)], ways: &[(Bounds, Outline)], as_drawn: bool| {
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
            && in_none(ways, &beside, &outline)
            && in_none(&solids, &place, &unsure)
            && in_none(wishes, &place, &unsure)
    };
    let nearest = |wishes: &[(Bounds, Outline)], ways: &[(Bounds, Outline)], as_drawn| {
        spots(wanted).find(|&at| fits(at, wishes, ways, as_drawn))
    };
    nearest(&wishes, &ways, false)
        .or_else(|| nearest(&wishes, &ways, true))
        .or_else(|| nearest(&wishes, &[], false))
        .or_else(|| nearest(&wishes, &[], true))
        .or_else(|| nearest(&[], &ways, false))
        .or_else(|| nearest(&[], &[], false))
        .or_else(|| nearest(&[], &[], true))
        .unwrap_or(wanted)
}

/// The floor inside of each door and gap that is passed at these heights: as deep as the car is long where the car passes, else as
/// the opening is wide (common practice, no source).
fn ways<'a>(arrangement: &'a Arrangement, span: &'a Span) -> impl Iterator<Item = Outline> + 'a {
    let (bay, vehicle) = (&arrangement.bay, &arrangement.vehicle);
    let passed = bay.openings.iter().filter(|own| {
        own.kind != OpeningKind::Window
            && own.span.bottom() <= arrangement.shop.step_over_mm
            && own.span.shared(span).is_some()
    });
    passed.filter_map(move |own| {
        let (from, to) = bay.wall_ends(own.wall)?;
        let along = (to - from).normalize_or_zero();
        let deep = if own.width_mm >= vehicle.width_mm { vehicle.length_mm } else { own.width_mm };
        // The room lies to the left of its walls.
        let inward = along.perp() * deep;
        let (start, end) = (from + along * own.from_mm, from + along * (own.from_mm + own.width_mm));
        let corners = vec![start, end, end + inward, start + inward];
        Polygon::new(corners, Vec::new()).ok().map(Outline::Polygon)
    })
}

/// Floor of at most this size in a room, along its axes, as near to `wanted` as there is some on none of `others`: beside them, or
/// anywhere. Where there is none of the whole size it is smaller; `None` if there is none of an eighth of it.
pub fn free_floor(room: &Polygon, others: &[Polygon], size: DVec2, wanted: DVec2) -> Option<Polygon> {
    let outlines: Vec<Outline> = others.iter().cloned().map(Outline::Polygon).collect();
    let at = |middle: DVec2, size: DVec2| {
        let low = (middle - size * 0.5).round();
        let floor = Polygon::rectangle(low, low + size.floor()).ok()?;
        let outline = Outline::Polygon(floor.clone());
        let is_free = outlines.iter().all(|other| !overlaps(other, &outline));
        (is_free && holds(room, &outline)).then_some(floor)
    };
    SHARES.into_iter().find_map(|share| {
        let size = size * share;
        let mut beside: Vec<DVec2> = others.iter().flat_map(|own| beside(&own.bounds(), size)).collect();
        beside.sort_by(|a, b| a.distance(wanted).total_cmp(&b.distance(wanted)));
        let places = std::iter::once(wanted).chain(beside).chain(spots(wanted));
        places.into_iter().find_map(|middle| at(middle, size))
    })
}

/// The middles of what lies against the sides of a box, square to it.
fn beside(own: &Bounds, size: DVec2) -> [DVec2; 4] {
    let off = (own.size() + size) * 0.5;
    let middle = own.centre();
    [
        middle + DVec2::X * off.x,
        middle - DVec2::X * off.x,
        middle + DVec2::Y * off.y,
        middle - DVec2::Y * off.y,
    ]
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

#[cfg(test)]
mod tests {
    use super::free_spot;
    use crate::check::testing::*;
    use crate::geometry::overlap::overlaps;
    use crate::scene::Scene;

    /// Where it is wanted nothing is in its way but a shut door 900 mm wide, into which somebody walks: it goes beside that.
    #[test]
    fn nothing_new_stands_before_a_door() {
        let mut arrangement = clear();
        let bench = cabinet("bench", (0.0, 0.0), 600.0, 400.0);
        let wanted = DVec2::new(11_400.0, 900.0);
        let put = |arrangement: &Arrangement| free_spot(arrangement, &Scene::of(arrangement), &bench, wanted);
        assert_eq!(put(&arrangement), wanted);
        // From the corner at (12 000, 0) on.
        arrangement.bay.openings = vec![Opening { shut: true, ..open_door(1, 400.0, 900.0, 0.0) }];
        let at = put(&arrangement);
        let mut stands = bench.clone();
        stands.place.at = PlanPose::new(at, 0.0);
        let way = rectangle((11_100.0, 400.0), (12_000.0, 1_300.0));
        assert!(at != wanted && !overlaps(&stands.prism().outline, &way.into()), "{at}");
    }
}
