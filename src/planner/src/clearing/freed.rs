//! Where the car could stand if some things were not there.
//!
//! What a thing takes of the places does not depend on the others: the places with some of them are what the places with each
//! alone have in common. So each is asked once, and every set of them is then a matter of regions. Of one place that is asked about
//! the checks are asked themselves, there and at the corners of what the car may be off.

use baywright_geometry::{Bounds, DVec2, PlanPose, Region};

use super::cost::Cost;
use crate::assessment::Severity;
use crate::judge::judge;
use crate::model::{Arrangement, Id};
use crate::place::{Places, Search, Spot, corners, stood};

/// A thing that takes less of the places than this takes none of them, mm²: what rounding makes of an edge.
const NOTHING_MM2: f64 = 1.0;
/// One place is a square of this half side, mm.
const HERE_MM: f64 = 1.0;

/// The places for a heading.
#[derive(Clone, Debug)]
struct Left {
    /// Where everything fits.
    fits: Region,
    /// Where it fits or may: outside of it something surely stops.
    may: Region,
}

impl Left {
    fn of(places: Places) -> Self {
        Self { may: places.fits.clone().beside(places.undecided), fits: places.fits }
    }

    fn and(&self, other: &Self) -> Self {
        Self { fits: common(&self.fits, &other.fits), may: common(&self.may, &other.may) }
    }
}

fn common(one: &Region, other: &Region) -> Region {
    let rings = |own: &Region| own.rings().map(<[DVec2]>::to_vec).collect::<Vec<_>>();
    if one.is_empty() || other.is_empty() {
        return Region::default();
    }
    Region::common(&rings(one), &rings(other))
}

/// The places for a heading without any of the things, and what each leaves of them; `None` for one that takes nothing.
struct Heading {
    rad: f64,
    without: Left,
    with: Vec<Option<Left>>,
}

/// All of it, for the headings in which anything may fit at all.
pub(super) struct Freed {
    headings: Vec<Heading>,
}

impl Freed {
    /// Looks at each heading, radians, with each thing; `None` if it was stopped. `tell` hears how many headings are done.
    pub(super) fn new(
        arrangement: &Arrangement,
        things: &[&Id],
        headings: &[f64],
        is_stopped: &dyn Fn() -> bool,
        tell: &mut dyn FnMut(usize),
    ) -> Option<Self> {
        let without = Search::new(&without(arrangement, |id| things.contains(&id)));
        let alone = things.iter().map(|thing| {
            let mut own = without_all_but(arrangement, thing);
            // They have nothing to do with a thing.
            own.bay.floor_features.clear();
            Search::new(&own)
        });
        let alone: Vec<Search> = alone.collect();
        let mut found = Vec::new();
        for (done, &rad) in headings.iter().enumerate() {
            if is_stopped() {
                return None;
            }
            let own = Left::of(without.places(rad));
            if !own.may.is_empty() {
                let with = alone.iter().map(|thing| {
                    let left = own.and(&Left::of(thing.places(rad)));
                    let takes = |whole: &Region, left: &Region| whole.area() - left.area() > NOTHING_MM2;
                    (takes(&own.may, &left.may) || takes(&own.fits, &left.fits)).then_some(left)
                });
                let with = with.collect();
                found.push(Heading { rad, without: own, with });
            }
            tell(done + 1);
        }
        Some(Self { headings: found })
    }

    /// Looks at one spot alone, with each thing: `tell` hears how many things are done.
    pub(super) fn at(
        arrangement: &Arrangement,
        things: &[&Id],
        spot: &Spot,
        is_stopped: &dyn Fn() -> bool,
        tell: &mut dyn FnMut(usize),
    ) -> Option<Self> {
        let (here, rad) = (spot.pose.origin(), spot.pose.heading());
        let Bounds { low, high } = Bounds { low: here, high: here }.grown(HERE_MM);
        let ring = vec![low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
        let is_clear = |own: &Arrangement| {
            let mut all = corners(spot);
            all.all(|pose| judge(&with_car(own, pose)).count(Severity::Stops) == 0)
        };
        let bare = without(arrangement, |id| things.contains(&id));
        let all = if is_clear(&bare) { Region::left(&[ring], &[]) } else { Region::default() };
        if all.is_empty() {
            return Some(Self { headings: Vec::new() });
        }
        let mut with = Vec::new();
        for (done, thing) in things.iter().enumerate() {
            if is_stopped() {
                return None;
            }
            let alone = without(arrangement, |id| id != *thing && things.contains(&id));
            let nowhere = || Left { fits: Region::default(), may: Region::default() };
            with.push((!is_clear(&alone)).then(nowhere));
            tell(done + 1);
        }
        let without = Left { fits: all.clone(), may: all };
        Some(Self { headings: vec![Heading { rad, without, with }] })
    }

    /// Whether the car may stand anywhere without these things, a bit for each.
    pub(super) fn may(&self, without: u64) -> bool {
        self.headings.iter().any(|own| !own.left(without, |own| &own.may).is_empty())
    }

    /// The headings, radians, in which it fits somewhere without these things.
    pub(super) fn fits(&self, without: u64) -> Vec<f64> {
        let fitting = self.headings.iter().filter(|own| !own.left(without, |own| &own.fits).is_empty());
        fitting.map(|own| own.rad).collect()
    }

    /// Of these things at least one has to go, if without the others it may stand nowhere: as few as can be told so, dear ones
    /// rather than cheap ones. `costs` has what each takes.
    pub(super) fn one_of(&self, without: u64, costs: &[Cost]) -> u64 {
        let mut gone = without;
        for nth in cheapest(costs) {
            let more = gone | 1 << nth;
            if more != gone && !self.may(more) {
                gone = more;
            }
        }
        (0..costs.len()).map(|nth| 1 << nth).filter(|own| gone & own == 0).sum()
    }

    /// Of these things as few as leave the car a place, dear ones left where they are first: none can be left out.
    pub(super) fn few(&self, of: u64, costs: &[Cost]) -> u64 {
        let mut gone = of;
        for nth in cheapest(costs).into_iter().rev() {
            let fewer = gone & !(1 << nth);
            if fewer != gone && self.may(fewer) {
                gone = fewer;
            }
        }
        gone
    }
}

/// The places of some costs among them, the cheapest first.
fn cheapest(costs: &[Cost]) -> Vec<usize> {
    let mut all: Vec<usize> = (0..costs.len()).collect();
    all.sort_by_key(|&nth| costs.get(nth));
    all
}

impl Heading {
    fn left(&self, without: u64, of: impl Fn(&Left) -> &Region) -> Region {
        let mut left = of(&self.without).clone();
        for (nth, own) in self.with.iter().enumerate() {
            if without >> nth & 1 == 1 {
                continue;
            }
            if let Some(own) = own {
                left = common(&left, of(own));
            }
            if left.is_empty() {
                break;
            }
        }
        left
    }
}

/// The same with the car at a pose; where it stands there already, with all that is known of its place.
pub(super) fn with_car(arrangement: &Arrangement, pose: PlanPose) -> Arrangement {
    if pose == arrangement.parked { arrangement.clone() } else { stood(arrangement, pose) }
}

/// The same without some things.
pub(super) fn without(arrangement: &Arrangement, gone: impl Fn(&Id) -> bool) -> Arrangement {
    let mut own = arrangement.clone();
    own.bay.things.retain(|thing| !gone(&thing.id));
    own
}

fn without_all_but(arrangement: &Arrangement, thing: &Id) -> Arrangement {
    without(arrangement, |id| id != thing)
}
