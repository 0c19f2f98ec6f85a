//! The best spot: where whoever parks the car may be off the most, along, across and in heading at once, and nothing stops.
//!
//! Slack is a box about the spot: so many mm along and across the car, either way, and a turn either way that moves the car's end by
//! as much, with half the car's length as the lever ([`Search::lever_mm`]): 1° over 2.1 m is 37 mm. In no place of that box anything
//! stops, by the same regions made for all of its headings and shifts at once; and the checks are asked at the spot and at the
//! corners of the box before it is offered. More than [`MOST_MM`] is not looked for.

mod headings;

use baywright_geometry::{PlanPose, Region, angle};

use super::sweep::Sweep;
use super::{Places, Search};

pub use headings::{headings, invited};

/// More slack than this nobody needs to park a car, mm.
pub const MOST_MM: f64 = 150.0;
/// Slack is told to a millimetre.
const WITHIN_MM: f64 = 1.0;
/// All headings within so much are taken together, rad: what a long set-up fills meanwhile is then hardly more than it is.
const TOGETHER_RAD: f64 = std::f64::consts::PI / 180.0;
/// So far apart, its turn counted by the lever, two spots are two, mm.
const APART_MM: f64 = 500.0;
/// So many spots are given.
const MOST_SPOTS: usize = 3;

/// How far off its place and heading a car is parked, either way (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margin {
    /// Along and across, mm.
    pub mm: f64,
    /// In heading, radians.
    pub rad: f64,
}

impl Default for Margin {
    fn default() -> Self {
        Self { mm: 30.0, rad: angle::radians(0.5) }
    }
}

/// How far off a spot a car may stand so that nothing stops, all at once, either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slack {
    /// Along and across the car as it is to stand, mm.
    pub mm: f64,
    /// In heading, radians.
    pub rad: f64,
}

/// A spot that is offered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Bay from vehicle.
    pub pose: PlanPose,
    /// How far off it may be.
    pub slack: Slack,
    /// Whether it stands along or across the room's walls, but for a few degrees.
    pub is_invited: bool,
}

impl Spot {
    /// Whether it may be as far off as the shop parks a car.
    pub fn meets(&self, margin: &Margin) -> bool {
        self.slack.mm >= margin.mm && self.slack.rad >= margin.rad
    }
}

/// What a search for spots found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// The best spot first, then others that are another place or another way round.
    pub spots: Vec<Spot>,
    /// Whether it was stopped before all headings were looked at.
    pub is_partial: bool,
    /// Whether anywhere everything fits, be it without any slack.
    pub fits_somewhere: bool,
    /// Whether anywhere it is not decided whether everything fits: no spot is looked for there.
    pub is_open_somewhere: bool,
}

/// A shape of places for a heading, with how far from its edge it has a place at most, mm.
struct Shape {
    heading_rad: f64,
    places: Region,
    most_mm: f64,
    is_invited: bool,
}

/// The best spots, of all headings; `tell` hears how many of them are done. Those that the room invites come first.
///
/// Of those the best is the one that may be as far off as the margin and stands as the room invites; then the one with most slack.
pub fn best_spots(
    search: &Search,
    margin: &Margin,
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(usize),
) -> Found {
    let all = search.arrangements.first().map(|own| headings(&own.bay.room)).unwrap_or_default();
    best_spots_of(search, &all, margin, is_stopped, tell)
}

/// The same of some headings, radians, each with whether the room invites it.
pub fn best_spots_of(
    search: &Search,
    all: &[(f64, bool)],
    margin: &Margin,
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(usize),
) -> Found {
    let mut shapes: Vec<Shape> = Vec::new();
    let (mut is_partial, mut fits_somewhere, mut is_open_somewhere) = (false, false, false);
    for (done, &(heading_rad, is_invited)) in all.iter().enumerate() {
        if is_stopped() {
            is_partial = true;
            break;
        }
        let Places { fits, undecided, .. } = search.places(heading_rad);
        fits_somewhere |= !fits.is_empty();
        is_open_somewhere |= !undecided.is_empty();
        for nth in 0..fits.shapes().len() {
            if let Some((_, most_mm)) = fits.shape(nth).deepest(2.0 * WITHIN_MM) {
                let most_mm = (most_mm + 2.0 * WITHIN_MM).min(MOST_MM);
                shapes.push(Shape { heading_rad, places: fits.shape(nth), most_mm, is_invited });
            }
        }
        tell(done + 1);
    }
    let mut spots: Vec<Spot> = Vec::new();
    let lever_mm = search.lever_mm();
    for is_invited in [true, false] {
        let mut own: Vec<&Shape> = shapes.iter().filter(|shape| shape.is_invited == is_invited).collect();
        own.sort_by(|a, b| b.most_mm.total_cmp(&a.most_mm));
        for shape in own {
            // Where the third best is no worse, or one that is nearly the same, nothing is to be gained.
            let alike = spots.iter().filter(|spot| is_alike(spot, shape, lever_mm)).map(|spot| spot.slack.mm);
            let least = alike.fold(worst_of(&spots, margin, is_invited), f64::max);
            if shape.most_mm <= least {
                continue;
            }
            if is_stopped() {
                is_partial = true;
                break;
            }
            if let Some(spot) = roomiest(search, shape, least) {
                put(&mut spots, spot, margin, lever_mm);
            }
        }
    }
    Found { spots, is_partial, fits_somewhere, is_open_somewhere }
}

/// Whether a spot stands nearly so, and in the same shape of places.
fn is_alike(spot: &Spot, shape: &Shape, lever_mm: f64) -> bool {
    let turn = angle::wrapped(spot.pose.heading() - shape.heading_rad).abs();
    let at = spot.pose.origin();
    lever_mm * turn < APART_MM
        && (shape.places.holds(at) || shape.places.to_edge(at) < APART_MM - lever_mm * turn)
}

/// What slack a further spot must have to be among those that are given, mm.
fn worst_of(spots: &[Spot], margin: &Margin, is_invited: bool) -> f64 {
    let last = spots.get(MOST_SPOTS - 1);
    let Some(last) = last else { return 0.0 };
    match (last.is_invited && last.meets(margin), is_invited) {
        // Nothing that is not invited goes before it.
        (true, false) => f64::INFINITY,
        _ => last.slack.mm,
    }
}

/// In which order spots are given.
fn before(a: &Spot, b: &Spot, margin: &Margin) -> std::cmp::Ordering {
    let first = |spot: &Spot| (spot.meets(margin), spot.meets(margin) && spot.is_invited);
    first(b).cmp(&first(a)).then(b.slack.mm.total_cmp(&a.slack.mm))
}

/// A spot goes in its place among others, if none of those near it is as good.
fn put(spots: &mut Vec<Spot>, spot: Spot, margin: &Margin, lever_mm: f64) {
    let is_near = |own: &Spot| {
        let turn = angle::wrapped(own.pose.heading() - spot.pose.heading()).abs();
        own.pose.origin().distance(spot.pose.origin()) + lever_mm * turn < APART_MM
    };
    if spots.iter().any(|own| is_near(own) && before(own, &spot, margin).is_le()) {
        return;
    }
    spots.retain(|own| !is_near(own));
    spots.push(spot);
    spots.sort_by(|a, b| before(a, b, margin));
    spots.truncate(MOST_SPOTS);
}

/// The place of one shape with most slack, if that is more than this, mm, and the checks agree.
fn roomiest(search: &Search, shape: &Shape, more_than_mm: f64) -> Option<Spot> {
    let own = &shape.places;
    let lever = search.lever_mm().max(1.0);
    let place = |slack_mm: f64| {
        let clear = search.clear(shape.heading_rad, slack_mm, slack_mm / lever)?;
        let in_shape = |nth: &usize| {
            let first = clear.shapes().get(*nth).and_then(|rings| rings.first()?.first());
            first.is_some_and(|&p| own.holds(p) || own.to_edge(p) < WITHIN_MM)
        };
        let inside = (0..clear.shapes().len()).filter(in_shape).map(|nth| clear.shape(nth));
        let largest = inside.max_by(|a, b| a.area().total_cmp(&b.area()))?;
        // In the middle of what is left of it.
        largest.deepest(0.05).map(|(at, _)| at)
    };
    let (mut low, mut high) = (more_than_mm + WITHIN_MM, shape.most_mm + WITHIN_MM);
    let mut at = Some(place(low)?);
    if let Some(all) = place(shape.most_mm) {
        (at, low, high) = (Some(all), shape.most_mm, shape.most_mm);
    }
    while high - low > WITHIN_MM {
        let middle = (low + high) * 0.5;
        match place(middle) {
            Some(found) => (at, low) = (Some(found), middle),
            None => high = middle,
        }
    }
    let pose = PlanPose::new(at?, shape.heading_rad);
    let mm = low.floor().max(0.0);
    let slack = Slack { mm, rad: mm / lever };
    let spot = Spot { pose, slack, is_invited: shape.is_invited };
    corners(&spot).all(|pose| search.settle(pose)).then_some(spot)
}

/// The spot itself and the corners of its slack.
pub fn corners(spot: &Spot) -> impl Iterator<Item = PlanPose> + use<> {
    let Spot { pose, slack, .. } = *spot;
    let turns = [-slack.rad, slack.rad].into_iter();
    let all = turns.flat_map(move |turn| {
        [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)].map(|(ahead, left)| {
            let by = pose.forward() * (ahead * slack.mm) + pose.left() * (left * slack.mm);
            PlanPose::new(pose.origin() + by, angle::wrapped(pose.heading() + turn))
        })
    });
    std::iter::once(pose).chain(all)
}

impl Search {
    /// How far off a pose the car may stand, either way, so that nothing stops, with the turn that goes with it: `None` where it does
    /// not fit at all.
    pub fn slack_at(&self, pose: PlanPose) -> Option<Slack> {
        let lever = self.lever_mm().max(1.0);
        let (heading, at) = (pose.heading(), pose.origin());
        let is_clear = |mm: f64| self.clear(heading, mm, mm / lever).is_some_and(|region| region.holds(at));
        if !self.settle(pose) {
            return None;
        }
        let (mut low, mut high) = (0.0, MOST_MM);
        if is_clear(MOST_MM) {
            low = MOST_MM;
        }
        while high - low > WITHIN_MM {
            let middle = (low + high) * 0.5;
            if is_clear(middle) { low = middle } else { high = middle }
        }
        let mm = low.floor();
        let slack = Slack { mm, rad: mm / lever };
        let spot = Spot { pose, slack, is_invited: false };
        // As with a spot that is offered, the checks have the last word.
        let is_so = corners(&spot).all(|pose| self.settle(pose));
        Some(if is_so { slack } else { Slack { mm: 0.0, rad: 0.0 } })
    }

    /// The places for a heading, radians, about which all is clear by a slack; `None` if there are none.
    pub fn clear_places(&self, heading_rad: f64, slack: &Slack) -> Option<Region> {
        if slack.mm <= 0.0 && slack.rad <= 0.0 {
            return Some(self.places(heading_rad).fits).filter(|own| !own.is_empty());
        }
        self.clear(heading_rad, slack.mm, slack.rad)
    }

    /// The places about which all is clear: along and across the car by so many mm, and by so much of a turn, radians, either way;
    /// `None` if there are none.
    fn clear(&self, heading_rad: f64, by_mm: f64, turn_rad: f64) -> Option<Region> {
        // What is not clear at one of three headings alone is not clear; that is soon told.
        let few = [-turn_rad, 0.0, turn_rad].map(|turn| heading_rad + turn);
        let few = few.map(|own| Sweep::between(own, own, heading_rad, by_mm));
        if self.regions(&few, false).0.is_empty() {
            return None;
        }
        let parts = (2.0 * turn_rad / TOGETHER_RAD).ceil().max(1.0) as usize;
        let at = |part: usize| heading_rad + turn_rad * (2.0 * part as f64 / parts as f64 - 1.0);
        let sweeps = (0..parts).map(|part| Sweep::between(at(part), at(part + 1), heading_rad, by_mm));
        let all = self.regions(&sweeps.collect::<Vec<_>>(), false).0;
        (!all.is_empty()).then_some(all)
    }
}
