//! The best spot: where whoever parks the car may be off the most, along, across and in heading at once, and nothing stops.
//!
//! Slack is a box about the spot: so many mm along and across the car, either way, and a turn either way that moves the car's end by
//! as much, with half the car's length as the lever ([`Search::lever_mm`]): 1° over 2.1 m is 37 mm. In no place of that box anything
//! stops, by the same regions made for all of its headings and shifts at once; and the checks are asked at the spot and at the
//! corners of the box before it is offered. More than [`MOST_MM`] is not looked for.

mod headings;

use baywright_geometry::{Bounds, PlanPose, Region, angle};

use super::sweep::Sweep;
use super::{Search, corners_of};

pub use headings::{headings, invited};

/// More slack than this nobody needs to park a car, mm.
pub const MOST_MM: f64 = 150.0;
/// Slack is told to a millimetre.
const WITHIN_MM: f64 = 1.0;
/// How closely it is looked how much there may be at most, mm.
const BOUND_MM: f64 = 8.0;
/// All headings within so much are taken together, rad: what a long set-up fills meanwhile is then hardly more than it is.
const TOGETHER_RAD: f64 = std::f64::consts::PI / 180.0;
/// So far apart, its turn counted by the lever, two spots are two, mm.
const APART_MM: f64 = 500.0;
/// A spot that leaves the car about as it stands goes first unless one that turns it has so much more slack, mm.
const AS_GOOD_MM: f64 = 5.0;
/// So much about a place is looked at where only the place itself is asked about, mm.
const HERE_MM: f64 = 0.5;
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
    /// Whether anywhere everything fits, be it without any slack; of the headings that had to be looked at for the spots.
    pub fits_somewhere: bool,
    /// Whether anywhere it is not decided whether everything fits, in the same way: no spot is looked for there.
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
/// Of those the best is the one that may be as far off as the margin and stands as the room invites; then the one with most slack,
/// where one that leaves the car about as it stands counts for [`AS_GOOD_MM`] more.
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
    let of = |is_invited: bool| all.iter().filter(move |own| own.1 == is_invited).map(|own| own.0);
    let (invited, mut others): (Vec<f64>, Vec<f64>) = (of(true).collect(), of(false).collect());
    others.sort_by(f64::total_cmp);
    // Some far apart first: what they have to give leaves out most of what lies between.
    let coarse: Vec<f64> = others.iter().copied().step_by(COARSE).collect();
    let between = others.chunks(COARSE).filter_map(|own| own.get(1..)).map(<[f64]>::to_vec);
    let mut seeker = Seeker::new(search, margin, is_stopped, tell);
    seeker.look(invited, true);
    seeker.look(coarse, false);
    seeker.look_between(between.collect());
    seeker.found
}

/// So many headings are looked at with one of them first.
const COARSE: usize = 6;

/// The spots that were found so far.
struct Seeker<'a> {
    search: &'a Search,
    margin: &'a Margin,
    is_stopped: &'a dyn Fn() -> bool,
    tell: &'a mut dyn FnMut(usize),
    order: Order,
    lever_mm: f64,
    done: usize,
    found: Found,
}

impl<'a> Seeker<'a> {
    fn new(
        search: &'a Search,
        margin: &'a Margin,
        is_stopped: &'a dyn Fn() -> bool,
        tell: &'a mut dyn FnMut(usize),
    ) -> Self {
        let now_rad = search.arrangements.first().map_or(0.0, |own| own.parked.heading());
        let order = Order { margin: *margin, now_rad };
        let lever_mm = search.lever_mm();
        Self { search, margin, is_stopped, tell, order, lever_mm, done: 0, found: Found::default() }
    }

    /// Looks at some headings.
    fn look(&mut self, headings: Vec<f64>, is_invited: bool) {
        let mut shapes = Vec::new();
        for heading_rad in headings {
            self.shapes(heading_rad, is_invited, &mut shapes);
        }
        self.try_all(shapes);
    }

    /// Looks at groups of headings that the room does not invite, none of which has a place with more slack than is had already
    /// where all of the group together leaves none.
    fn look_between(&mut self, mut groups: Vec<Vec<f64>>) {
        let mut shapes = Vec::new();
        groups.reverse();
        while let Some(own) = groups.pop() {
            if own.is_empty() {
                continue;
            }
            if self.has_no_more(&own) {
                self.tell_done(own.len());
            } else if let [heading_rad] = own.as_slice() {
                self.shapes(*heading_rad, false, &mut shapes);
            } else {
                let (first, second) = own.split_at(own.len() / 2);
                groups.extend([second.to_vec(), first.to_vec()]);
            }
        }
        self.try_all(shapes);
    }

    fn tell_done(&mut self, count: usize) {
        self.done += count;
        (self.tell)(self.done);
    }

    fn is_stopped(&mut self) -> bool {
        self.found.is_partial = self.found.is_partial || (self.is_stopped)();
        self.found.is_partial
    }

    /// The shapes of a heading, unless nothing of it could be among the spots.
    fn shapes(&mut self, heading_rad: f64, is_invited: bool, shapes: &mut Vec<Shape>) {
        if self.is_stopped() {
            return;
        }
        let least = self.least(heading_rad, is_invited);
        let sweep = Sweep::at(heading_rad);
        let clear = (least < MOST_MM).then(|| self.search.regions(&sweep));
        // Levels take the longest and make no shape deeper; whether anything fits is known once there is a spot.
        let is_asked = |fits: &Region| {
            self.found.spots.is_empty()
                || self.search.levels.is_empty()
                || (0..fits.shapes().len()).any(|nth| most_mm(&fits.shape(nth)) > least)
        };
        if let Some(clear) = clear.filter(|own| is_asked(&own.0)) {
            let (fits, undecided) = self.search.levelled(&sweep, clear);
            self.found.fits_somewhere |= !fits.is_empty();
            self.found.is_open_somewhere |= !undecided.is_empty();
            for nth in 0..fits.shapes().len() {
                let places = fits.shape(nth);
                let most_mm = most_mm(&places);
                if most_mm > least {
                    shapes.push(Shape { heading_rad, places, most_mm, is_invited });
                }
            }
        }
        self.tell_done(1);
    }

    /// Tries shapes, those first that may have most to give.
    fn try_all(&mut self, mut shapes: Vec<Shape>) {
        shapes.sort_by(|a, b| b.most_mm.total_cmp(&a.most_mm));
        for shape in &shapes {
            // Where the third best is no worse, or one that is nearly the same, nothing is to be gained.
            let spots = &self.found.spots;
            let alike = spots.iter().filter(|spot| is_alike(spot, shape, self.lever_mm));
            let alike = alike.map(|spot| spot.slack.mm);
            let least = alike.fold(self.least(shape.heading_rad, shape.is_invited), f64::max);
            if shape.most_mm <= least {
                continue;
            }
            if self.is_stopped() {
                return;
            }
            if let Some(spot) = roomiest(self.search, shape, least) {
                put(&mut self.found.spots, spot, &self.order, self.lever_mm);
            }
        }
    }

    /// What slack a further spot must have to be among those that are given, mm.
    fn least(&self, heading_rad: f64, is_invited: bool) -> f64 {
        let Some(last) = self.found.spots.get(MOST_SPOTS - 1) else { return 0.0 };
        match (last.is_invited && last.meets(self.margin), is_invited) {
            // Nothing that is not invited goes before it.
            (true, false) => f64::INFINITY,
            _ => (self.order.worth_mm(last) - self.order.more_mm(heading_rad)).max(0.0),
        }
    }

    /// Whether surely none of some headings, a few degrees apart, has a place with more slack than it must.
    ///
    /// A box about a spot of any of them has the headings in it that the boxes of all of them have, and all shifts of the square
    /// that lies in each of their squares.
    fn has_no_more(&self, group: &[f64]) -> bool {
        let (Some(&first), Some(&last)) = (group.first(), group.last()) else { return true };
        let least = group.iter().map(|own| self.least(*own, false)).fold(f64::INFINITY, f64::min);
        if least >= MOST_MM {
            return true;
        }
        let (middle, half) = ((first + last) * 0.5, (last - first) * 0.5);
        let turn = least / self.lever_mm.max(1.0) - half;
        if turn < 0.0 || least < WITHIN_MM {
            return false;
        }
        let (sin, cos) = angle::sin_cos(half);
        let by_mm = least / (sin + cos);
        let ends = [middle - turn, middle + turn, middle];
        let sweeps = ends.map(|own| Sweep::between(own, own, middle, by_mm));
        let Some((one, others)) = sweeps.split_first() else { return false };
        let left = self.search.still_clear(others, self.search.regions(one).0);
        left.and_then(|left| self.search.still_level(&sweeps, left)).is_none()
    }
}

/// How far from its edge a shape of places has one at most, mm, as closely as it is looked.
fn most_mm(places: &Region) -> f64 {
    let deepest = places.deepest(BOUND_MM, MOST_MM).map_or(0.0, |own| own.1);
    (deepest + BOUND_MM).min(MOST_MM)
}

/// Whether a spot stands nearly so, and in the same shape of places.
fn is_alike(spot: &Spot, shape: &Shape, lever_mm: f64) -> bool {
    let turn = angle::wrapped(spot.pose.heading() - shape.heading_rad).abs();
    let at = spot.pose.origin();
    lever_mm * turn < APART_MM
        && (shape.places.holds(at) || shape.places.to_edge(at) < APART_MM - lever_mm * turn)
}

/// In which order spots are given.
struct Order {
    margin: Margin,
    /// The heading that the car has now, radians.
    now_rad: f64,
}

impl Order {
    /// How much more slack a spot of a heading counts for, if it meets the margin, mm.
    fn more_mm(&self, heading_rad: f64) -> f64 {
        let turn = angle::wrapped(heading_rad - self.now_rad).abs();
        if turn <= std::f64::consts::FRAC_PI_4 { AS_GOOD_MM } else { 0.0 }
    }

    /// For how much slack a spot counts, mm.
    fn worth_mm(&self, spot: &Spot) -> f64 {
        let more = if spot.meets(&self.margin) { self.more_mm(spot.pose.heading()) } else { 0.0 };
        spot.slack.mm + more
    }

    fn before(&self, a: &Spot, b: &Spot) -> std::cmp::Ordering {
        let first = |spot: &Spot| (spot.meets(&self.margin), spot.meets(&self.margin) && spot.is_invited);
        first(b).cmp(&first(a)).then(self.worth_mm(b).total_cmp(&self.worth_mm(a)))
    }
}

/// A spot goes in its place among others, if none of those near it is as good.
fn put(spots: &mut Vec<Spot>, spot: Spot, order: &Order, lever_mm: f64) {
    let is_near = |own: &Spot| {
        let turn = angle::wrapped(own.pose.heading() - spot.pose.heading()).abs();
        own.pose.origin().distance(spot.pose.origin()) + lever_mm * turn < APART_MM
    };
    if spots.iter().any(|own| is_near(own) && order.before(own, &spot).is_le()) {
        return;
    }
    spots.retain(|own| !is_near(own));
    spots.push(spot);
    spots.sort_by(|a, b| order.before(a, b));
    spots.truncate(MOST_SPOTS);
}

/// The place of one shape with most slack, if that is more than this, mm, and the checks agree.
///
/// What is left at three headings of the box, all of its shifts each, costs little and bounds what is left at all of them: so the
/// most is found for the three first, and then as little less as all of them leave.
fn roomiest(search: &Search, shape: &Shape, more_than_mm: f64) -> Option<Spot> {
    let heading = shape.heading_rad;
    let lever = search.lever_mm().max(1.0);
    let few = |mm: f64, of: &Region| search.clear_at_three(heading, mm, mm / lever, of);
    // Whole millimetres, as slack is told: what is as good for a millimetre is as good.
    let least = more_than_mm.floor() + WITHIN_MM;
    // Each with the places that three headings leave, more slack and less of them one after the other.
    let mut outer = vec![(least, few(least, &shape.places)?)];
    let outermost = |outer: &[(f64, Region)], mm: f64| {
        outer.iter().rev().find(|own| own.0 <= mm).map(|own| own.1.clone()).unwrap_or_default()
    };
    let mut high = shape.most_mm.ceil().max(least);
    if let Some(left) = few(high, &outermost(&outer, high)) {
        outer.push((high, left));
    }
    let top = |outer: &[(f64, Region)]| outer.last().map_or(least, |own| own.0);
    while high - top(&outer) > WITHIN_MM {
        let middle = ((top(&outer) + high) * 0.5).floor();
        match few(middle, &outermost(&outer, middle)) {
            Some(left) => outer.push((middle, left)),
            None => high = middle,
        }
    }
    let all = |mm: f64| {
        let of = few(mm, &outermost(&outer, mm))?;
        search.clear_between(heading, mm, mm / lever, of)
    };
    // Down from there by steps that double, then halving.
    let (mut step, mut at_mm) = (WITHIN_MM, top(&outer));
    let mut high = at_mm;
    let mut at = loop {
        if let Some(found) = all(at_mm) {
            break found;
        }
        if at_mm <= least {
            return None;
        }
        (high, at_mm) = (at_mm, (at_mm - step).max(least));
        step *= 2.0;
    };
    while high - at_mm > WITHIN_MM {
        let middle = ((at_mm + high) * 0.5).floor();
        match all(middle) {
            Some(found) => (at, at_mm) = (found, middle),
            None => high = middle,
        }
    }
    let shapes = (0..at.shapes().len()).map(|nth| at.shape(nth));
    let largest = shapes.max_by(|a, b| a.area().total_cmp(&b.area()))?;
    // In the middle of what is left of it.
    let pose = PlanPose::new(largest.middle()?, heading);
    let slack = Slack { mm: at_mm, rad: at_mm / lever };
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
        // Nothing but the place itself is asked about.
        let here = Region::left(&[corners_of(&Bounds { low: at, high: at }.grown(HERE_MM)).to_vec()], &[]);
        let is_clear = |mm: f64| {
            let few = self.clear_at_three(heading, mm, mm / lever, &here);
            let all = few.and_then(|few| self.clear_between(heading, mm, mm / lever, few));
            all.is_some_and(|region| region.holds(at))
        };
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
        // All at once the places that three headings leave are soon told; the others only see what is left.
        let first = Sweep::between(heading_rad, heading_rad, heading_rad, slack.mm);
        let of = self.regions(&first).0;
        let few = self.clear_at_three(heading_rad, slack.mm, slack.rad, &of)?;
        self.clear_between(heading_rad, slack.mm, slack.rad, few)
    }

    /// What of some places is clear at three headings, at a turn either way and at none, radians, with all shifts of so many mm along
    /// and across the car; `None` if nothing is. What is not clear there is not clear at all headings between.
    fn clear_at_three(&self, heading_rad: f64, by_mm: f64, turn_rad: f64, of: &Region) -> Option<Region> {
        let at = [-turn_rad, turn_rad, 0.0].map(|turn| heading_rad + turn);
        self.still(&at.map(|at| Sweep::between(at, at, heading_rad, by_mm)), of.clone())
    }

    /// What of some places is clear at all headings up to a turn either way, radians, in the same way.
    fn clear_between(&self, heading_rad: f64, by_mm: f64, turn_rad: f64, of: Region) -> Option<Region> {
        let parts = (2.0 * turn_rad / TOGETHER_RAD).ceil().max(1.0) as usize;
        let at = |part: usize| heading_rad + turn_rad * (2.0 * part as f64 / parts as f64 - 1.0);
        let sweeps = (0..parts).map(|part| Sweep::between(at(part), at(part + 1), heading_rad, by_mm));
        self.still(&sweeps.collect::<Vec<_>>(), of)
    }
}
