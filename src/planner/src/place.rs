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
        let (fits, undecided) = self.regions(&[Sweep::at(heading_rad)], true);
        Places { heading_rad, fits, undecided }
    }

    /// Where all of some sweeps fits, and, if that is asked of one, where it is not decided.
    fn regions(&self, sweeps: &[Sweep], ask: bool) -> (Region, Region) {
        let none = (Region::default(), Region::default());
        if !self.everywhere.is_empty() {
            return none;
        }
        let held = sweeps
            .iter()
            .flat_map(|sweep| self.held.iter().map(|own| moves_within(&own.ring, &sweep.of(&own.moves))));
        let Some(frame) = held.reduce(|a, b| common(&a, &b)).filter(|frame| frame.len() >= 3) else {
            return none;
        };
        let (mut taken, mut perhaps) = (Vec::new(), Vec::new());
        for sweep in sweeps {
            self.met(sweep, &frame, &mut taken, &mut perhaps);
        }
        let inside = || perhaps.iter().map(|own| common(own, &frame)).filter(|own| own.len() >= 3);
        let undecided = match perhaps.is_empty() || !ask {
            true => Region::default(),
            false => Region::left(&inside().collect::<Vec<_>>(), &taken),
        };
        taken.append(&mut perhaps);
        let (fits, undecided) = (Region::left(&[frame], &taken), undecided);
        let levelled = self.levels.iter().flat_map(|levels| sweeps.iter().map(move |own| (levels, own)));
        levelled
            .fold((fits, undecided), |(fits, undecided), (levels, own)| levels.refined(own, fits, undecided))
    }

    /// The rings of all places in a frame where something is met: surely, and perhaps.
    fn met(
        &self,
        sweep: &Sweep,
        frame: &[DVec2],
        taken: &mut Vec<Vec<DVec2>>,
        perhaps: &mut Vec<Vec<DVec2>>,
    ) {
        // What is met past the frame costs crossings and says nothing.
        let Some(around) = Bounds::around(frame.iter().copied()).map(|own| own.grown(PAST_MM)) else {
            return;
        };
        let Bounds { low, high } = around;
        let limits = [low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
        let moved = self.pairs.moves.iter().map(|ring| {
            let ring = sweep.of(ring);
            let bounds = Bounds::around(ring.iter().copied())?;
            Some((ring, bounds))
        });
        let moved: Vec<Option<(Vec<DVec2>, Bounds)>> = moved.collect();
        for pair in &self.pairs.all {
            let moves = moved.get(pair.moves).and_then(Option::as_ref);
            let Some(((stays, own), (moves, with))) = self.pairs.stays.get(pair.stays).zip(moves) else {
                continue;
            };
            let reach = Bounds { low: own.low - with.high, high: own.high - with.low };
            if !reach.meets(&around) {
                continue;
            }
            let met = moves_to_meet(stays, moves);
            let is_inside = around.holds(reach.low) && around.holds(reach.high);
            let met = if is_inside || met.len() < 3 { met } else { common(&met, &limits) };
            if met.len() >= 3 {
                if pair.sure { taken.push(met) } else { perhaps.push(met) }
            }
        }
        for on in &self.on_runways {
            taken.extend(on.off(frame, |ring| sweep.of(ring)));
        }
    }
}
