//! Where can it stand? For a car, an aiming and a bay: the places for each heading in which everything fits and nothing stops.
//!
//! A place is where the origin of the vehicle frame lies in the bay: on the floor under the middle of the front axle, mm. What is
//! known of a place is one of three: it *fits*, so that nothing is found that stops; it *does not fit*, so that something is,
//! but for a band of [`BAND_MM`] at the edge; or it is *undecided*, which [`Search::settle`] answers for one place by judging it.
//!
//! The set-up (car, targets on their stands, zones, marks, runs, what is looked through) moves as one. What stays is taken
//! away as the sums of its convex pieces with those of the set-up, reflected; what must lie in the room makes the room smaller.
//! Regions come from [`crate::check::claims`] and the checks' rules; [`bears`] says of each kind of finding how. Whether
//! something merely needs care is not asked here.

mod by_tape;
mod kept_in;
mod levels;
pub mod never;
mod offer;
mod pairs;
mod rule;
mod runways;
mod sight;
mod solids;
mod spot;
mod stood;
mod sweep;
mod walls;

use baywright_geometry::convex::{common, moves_to_meet, moves_within};
use baywright_geometry::polygon::signed_area;
use baywright_geometry::{Bounds, DVec2, PlanPose, Region};

use crate::assessment::{Finding, Severity};
use crate::judge::judge;
use crate::model::Arrangement;
use crate::scene::Scene;

use levels::Levels;
use pairs::Pairs;
use runways::OnRunways;
use solids::SetUp;
use sweep::Sweep;
use walls::Held;

pub use by_tape::{ByTape, FromWall, Tyres, from_two_walls, to_wall};
pub use kept_in::{Kept, reach};
pub(crate) use offer::in_whole_mm;
pub use offer::{Offer, Offered, all_headings, offered};
pub use rule::{Bears, bears};
pub use spot::{Found, MOST_MM, Margin, Slack, Spot, best_spots, best_spots_of, corners, headings, invited};
pub use stood::stood;

/// Nearer to the edge of what does not fit than this, mm, a place may be called so though nothing stops there yet: round things
/// are taken a little larger, and the planner speaks from a hundredth of a millimetre on.
pub const BAND_MM: f64 = 1.0;

/// So far past the frame of all places what is met is looked at, mm: its edges lie nowhere on the frame's.
const PAST_MM: f64 = 10.0;

/// What is known of a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// Nothing stops there.
    Fits,
    /// Something does.
    Not,
    /// Only judging it tells.
    Undecided,
}

/// The places for one heading.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Places {
    /// The car's heading, radians, anticlockwise from the bay's x axis.
    pub heading_rad: f64,
    /// Where everything fits: places of the vehicle frame's origin, bay frame, mm.
    pub fits: Region,
    /// Where that is not decided. What is in neither does not fit.
    pub undecided: Region,
}

impl Places {
    /// What is known of a place; of one on an edge rounding decides.
    pub fn at(&self, place: DVec2) -> Fit {
        if self.fits.holds(place) {
            Fit::Fits
        } else if self.undecided.holds(place) {
            Fit::Undecided
        } else {
            Fit::Not
        }
    }
}

/// All that does not change with the place, worked out once for a car, an aiming and a bay; or for several aimings of one car that
/// it is to stand still for.
#[derive(Clone, Debug)]
pub struct Search {
    /// The car parked anew where it stands, for each aiming.
    arrangements: Vec<Arrangement>,
    everywhere: Vec<Finding>,
    held: Vec<Held>,
    pairs: Pairs,
    on_runways: Vec<OnRunways>,
    levels: Vec<Levels>,
}

impl Search {
    /// Looks at an arrangement; where its car stands does not matter.
    pub fn new(arrangement: &Arrangement) -> Self {
        Self::of_all(std::slice::from_ref(arrangement))
    }

    /// Looks at all aimings of a visit, each with the same car in the same bay: a place fits if each of them fits there.
    pub fn of_all(arrangements: &[Arrangement]) -> Self {
        let mut all = Self {
            arrangements: arrangements.iter().map(|own| stood(own, own.parked)).collect(),
            everywhere: Vec::new(),
            held: Vec::new(),
            pairs: Pairs::default(),
            on_runways: Vec::new(),
            levels: Vec::new(),
        };
        for own in &all.arrangements {
            let stops = judge(own).findings.into_iter().filter(rule::stops_everywhere);
            all.everywhere.extend(stops);
            let at_origin = stood(own, PlanPose::IDENTITY);
            let scene = Scene::of(&at_origin);
            let set_up = SetUp::new(&at_origin, &scene);
            all.held.extend(walls::held(&set_up, &mut all.pairs));
            set_up.against_things(&mut all.pairs);
            set_up.against_beside(&mut all.pairs);
            set_up.against_runways(&mut all.pairs);
            set_up.against_floor(&mut all.pairs);
            all.on_runways.extend(OnRunways::of(&set_up));
            all.levels.extend(Levels::of(own));
        }
        all
    }

    /// What stops an aiming wherever the car stands: then it fits nowhere.
    pub fn everywhere(&self) -> &[Finding] {
        &self.everywhere
    }

    /// Half the car's length, mm: the lever by which a turn counts as a way.
    pub fn lever_mm(&self) -> f64 {
        self.arrangements.first().map_or(0.0, |own| own.vehicle.length_mm * 0.5)
    }

    /// Whether nothing stops any of the aimings with the car at a pose: asked of the checks themselves.
    pub fn settle(&self, pose: PlanPose) -> bool {
        self.arrangements.iter().all(|own| judge(&stood(own, pose)).count(Severity::Stops) == 0)
    }

    /// The places for a heading, radians.
    pub fn places(&self, heading_rad: f64) -> Places {
        let sweep = Sweep::at(heading_rad);
        let (fits, undecided) = self.levelled(&sweep, self.regions(&sweep));
        Places { heading_rad, fits, undecided }
    }

    /// What fits and what is undecided, with what the levels say.
    fn levelled(&self, sweep: &Sweep, of: (Region, Region)) -> (Region, Region) {
        self.levels.iter().fold(of, |(fits, undecided), own| own.refined(sweep, fits, undecided))
    }

    /// Where all of a sweep fits, and where that is not decided, whatever the levels say.
    fn regions(&self, sweep: &Sweep) -> (Region, Region) {
        let frame = self.frame(sweep);
        let Some(around) = Bounds::around(frame.iter().copied()).map(|own| own.grown(PAST_MM)) else {
            return (Region::default(), Region::default());
        };
        let (mut taken, mut perhaps) = (Vec::new(), Vec::new());
        self.met(sweep, &around, &mut taken, &mut perhaps);
        let not_taken = carved(Region::left(&[frame], &[]), taken);
        let near = nearby(&not_taken, perhaps);
        let undecided = match near.is_empty() {
            true => Region::default(),
            false => Region::common(&rings_of(&not_taken), &near),
        };
        (carved(not_taken, near), undecided)
    }

    /// Where the room holds all of a sweep, but for its inner corners: a convex ring; empty if it does nowhere.
    fn frame(&self, sweep: &Sweep) -> Vec<DVec2> {
        if !self.everywhere.is_empty() {
            return Vec::new();
        }
        let held = self.held.iter().map(|own| moves_within(&own.ring, &sweep.of(&own.moves)));
        held.reduce(|a, b| common(&a, &b)).filter(|frame| frame.len() >= 3).unwrap_or_default()
    }

    /// What is left of some places where all of each sweep fits; `None` if nothing is. The levels cost the most and are asked last,
    /// of what all the sweeps leave.
    fn still(&self, sweeps: &[Sweep], of: Region) -> Option<Region> {
        self.still_level(sweeps, self.still_clear(sweeps, of)?)
    }

    /// The same, whatever the levels say.
    fn still_clear(&self, sweeps: &[Sweep], of: Region) -> Option<Region> {
        let some = |own: &Region| !own.is_empty();
        sweeps.iter().try_fold(of, |left, sweep| Some(self.clear(sweep, left)).filter(some))
    }

    /// The same, as far as the levels say.
    fn still_level(&self, sweeps: &[Sweep], of: Region) -> Option<Region> {
        let mut asked = sweeps.iter().flat_map(|sweep| self.levels.iter().map(move |own| (sweep, own)));
        asked.try_fold(of, |left, (sweep, levels)| {
            Some(levels.refined(sweep, left, Region::default()).0).filter(|own| !own.is_empty())
        })
    }

    /// What of some places a sweep leaves. Only what is met about them is looked at, so that it costs the less the fewer they are.
    fn clear(&self, sweep: &Sweep, of: Region) -> Region {
        let frame = self.frame(sweep);
        let Some(bounds) = of.bounds().filter(|_| !frame.is_empty()) else { return Region::default() };
        let around = bounds.grown(PAST_MM);
        let mut taken = beyond(&frame, &around);
        let mut perhaps = Vec::new();
        self.met(sweep, &around, &mut taken, &mut perhaps);
        taken.append(&mut perhaps);
        carved(of, taken)
    }

    /// The rings of all places in a box where something is met: surely, and perhaps. What is met past it costs crossings and says
    /// nothing, and is cut off.
    fn met(
        &self,
        sweep: &Sweep,
        around: &Bounds,
        taken: &mut Vec<Vec<DVec2>>,
        perhaps: &mut Vec<Vec<DVec2>>,
    ) {
        let limits = corners_of(around);
        // Most of what moves meets nothing about here: its box tells that, and is made much sooner than its ring.
        let boxes: Vec<Option<Bounds>> = self.pairs.moves.iter().map(|ring| sweep.around(ring)).collect();
        let mut moved: Vec<Option<Vec<DVec2>>> = vec![None; boxes.len()];
        for pair in &self.pairs.all {
            let (Some((stays, own)), Some(Some(with)), Some(slot), Some(ring)) = (
                self.pairs.stays.get(pair.stays),
                boxes.get(pair.moves),
                moved.get_mut(pair.moves),
                self.pairs.moves.get(pair.moves),
            ) else {
                continue;
            };
            let reach = Bounds { low: own.low - with.high, high: own.high - with.low };
            if !reach.meets(around) {
                continue;
            }
            let moves = slot.get_or_insert_with(|| sweep.of(ring));
            let met = moves_to_meet(stays, moves);
            let is_inside = around.holds(reach.low) && around.holds(reach.high);
            let met = if is_inside || met.len() < 3 { met } else { common(&met, &limits) };
            if met.len() >= 3 {
                if pair.sure { taken.push(met) } else { perhaps.push(met) }
            }
        }
        for on in &self.on_runways {
            taken.extend(on.off(&limits, |ring| sweep.of(ring)));
        }
    }
}

/// The corners of a box, anticlockwise.
fn corners_of(own: &Bounds) -> [DVec2; 4] {
    let Bounds { low, high } = *own;
    [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)]
}

/// So many of the largest rings are taken away first, then of what is left twice as many.
const FIRST: usize = 16;

/// What is left of some places when rings are taken away, the largest first: most of the others then meet nothing any more.
fn carved(of: Region, mut taken: Vec<Vec<DVec2>>) -> Region {
    taken.sort_by(|a, b| signed_area(b).total_cmp(&signed_area(a)));
    let (mut left, mut rest, mut count) = (of, taken, FIRST);
    while !left.is_empty() {
        rest = nearby(&left, rest);
        if rest.is_empty() {
            break;
        }
        let others = rest.split_off(count.min(rest.len()));
        left = Region::left(&rings_of(&left), &rest);
        (rest, count) = (others, count * 2);
    }
    left
}

/// Those of some convex rings that lie about a shape of some places.
fn nearby(of: &Region, rings: Vec<Vec<DVec2>>) -> Vec<Vec<DVec2>> {
    let boxes = of.shapes().iter().filter_map(|own| Bounds::around(own.first()?.iter().copied()));
    let boxes: Vec<Bounds> = boxes.collect();
    let is_near = |ring: &Vec<DVec2>| {
        let around = Bounds::around(ring.iter().copied());
        around.is_some_and(|around| boxes.iter().any(|own| own.meets(&around)))
    };
    rings.into_iter().filter(is_near).collect()
}

/// All rings of some places, to be cut.
fn rings_of(places: &Region) -> Vec<Vec<DVec2>> {
    places.rings().map(<[DVec2]>::to_vec).collect()
}

/// Further than any place in a room is from another, mm.
const FAR_MM: f64 = 1e6;

/// What of a box lies beyond the sides of a convex ring: for each side a convex ring.
fn beyond(frame: &[DVec2], around: &Bounds) -> Vec<Vec<DVec2>> {
    let limits = corners_of(around);
    let sides = frame.iter().zip(frame.iter().cycle().skip(1));
    let outside = sides.filter_map(|(&from, &to)| {
        let along = (to - from).try_normalize()?;
        if limits.iter().all(|p| along.perp_dot(*p - from) >= 0.0) {
            return None;
        }
        let (from, to, out) = (from - along * FAR_MM, to + along * FAR_MM, along.perp() * -FAR_MM);
        let ring = common(&[to, from, from + out, to + out], &limits);
        (ring.len() >= 3).then_some(ring)
    });
    outside.collect()
}
