//! The fewest places to park that serve a list, at the headings along the walls.
//!
//! By greedy choice: the place that serves the weightiest part of the list (what comes in most often, if the owner says so), then of what
//! is left over, and so on. Of a list of up to
//! [`MOST_EXACT`] lines all ways to part it into fewer are looked at; whether that was done is told. What the regions leave undecided counts
//! as not served, and each place is confirmed by the checks at the spot and at the corners of its slack.

use std::collections::BTreeMap;

use baywright_geometry::{DVec2, PlanPose, Region};

use crate::assessment::Verdict;
use crate::judge::judge;
use crate::matrix::Line;
use crate::model::{ParkedKnown, Shop};
use crate::place::{Margin, Search, Slack, best_spots_of, in_whole_mm, invited, stood};

/// Of so many lines all ways to part them are looked at.
pub const MOST_EXACT: usize = 12;
/// What a spot loses of its slack as it is told to a millimetre and put at whole ones, mm.
const ROUNDED_MM: f64 = 2.0;

/// By what a place to park is chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// How far off its place a car is parked.
    pub margin: Margin,
    /// How far off a mark is laid by tape, mm.
    pub laid_mm: f64,
}

impl Asked {
    /// As a shop has it.
    pub fn of(shop: &Shop) -> Self {
        let (mm, rad) = shop.parked_within(ParkedKnown::Planned);
        Self { margin: Margin { mm, rad }, laid_mm: shop.mark_laid_mm }
    }

    /// The slack that a place must have at least, for a car with this lever: slack is a turn by its lever.
    fn slack(&self, lever_mm: f64) -> Slack {
        let lever = lever_mm.max(1.0);
        let mm = (self.margin.mm + self.laid_mm).max(self.margin.rad * lever + self.laid_mm) + ROUNDED_MM;
        Slack { mm, rad: mm / lever }
    }
}

/// Whether there could be fewer places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// At the headings along the walls no fewer serve what is served.
    Fewest,
    /// By greedy choice: there may be fewer.
    Greedy,
}

/// A place to park.
#[derive(Clone, Debug, PartialEq)]
pub struct ParkingPlace {
    /// Bay from vehicle.
    pub pose: PlanPose,
    /// How far off it each of its cars may stand.
    pub slack: Slack,
    /// The lines that it serves, by their position in the list, each with what the checks say there.
    pub serves: Vec<(usize, Verdict)>,
}

impl ParkingPlace {
    /// How often a month a car is parked there for the list that it is of.
    pub fn a_month(&self, lines: &[Line]) -> f64 {
        self.serves.iter().filter_map(|own| lines.get(own.0)).fold(0.0, |sum, own| sum + own.weight)
    }

    /// The lines that it serves, by their position in the list: what comes in most often first.
    pub fn most_often_first(&self, lines: &[Line]) -> Vec<usize> {
        let mut all: Vec<usize> = self.serves.iter().map(|own| own.0).collect();
        let weight = |nth: usize| lines.get(nth).map_or(0.0, |own| own.weight);
        all.sort_by(|&a, &b| weight(b).total_cmp(&weight(a)).then(a.cmp(&b)));
        all
    }
}

/// The places for a list.
#[derive(Clone, Debug, PartialEq)]
pub struct Parked {
    /// The one that serves most first; no line is served twice.
    pub places: Vec<ParkingPlace>,
    /// The lines for which no place was found with the slack that is asked, and those that are set up in another building.
    pub without: Vec<usize>,
    /// Whether there could be fewer.
    pub how: How,
    /// Whether it was stopped before its end.
    pub is_partial: bool,
}

/// Of one line where it fits with the slack that is asked, at each of the headings.
type Fits = [Region; 4];

/// The fewest places for a list; `tell` hears of how many lines it is known where they fit.
pub fn fewest(
    lines: &[Line],
    asked: &Asked,
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(usize),
) -> Parked {
    let nothing = Parked { places: Vec::new(), without: Vec::new(), how: How::Greedy, is_partial: true };
    let Some(room) = lines.first().map(|own| &own.arrangement.bay.room) else {
        return Parked { how: How::Fewest, is_partial: false, ..nothing };
    };
    let headings = invited(room);
    let mut fits: Vec<Fits> = Vec::new();
    for line in lines {
        if is_stopped() {
            return Parked { without: (0..lines.len()).collect(), ..nothing };
        }
        fits.push(match line.arrangement.bay.room == *room {
            true => {
                let search = Search::new(&line.arrangement);
                let slack = asked.slack(search.lever_mm());
                headings.map(|heading| search.clear_places(heading, &slack).unwrap_or_default())
            }
            false => Fits::default(),
        });
        tell(fits.len());
    }
    let of = List { lines, fits: &fits, headings, asked };
    let mut open: Vec<usize> =
        (0..lines.len()).filter(|&nth| of.at(nth).iter().any(|own| !own.is_empty())).collect();
    let mut places = Vec::new();
    let mut is_partial = false;
    while !open.is_empty() {
        let found = of.most(&open, is_stopped);
        is_partial = found.is_none() && is_stopped();
        let Some(found) = found else { break };
        open.retain(|nth| !found.serves.iter().any(|own| own.0 == *nth));
        places.push(found);
    }
    let served = |places: &[ParkingPlace]| {
        let mut all: Vec<usize> =
            places.iter().flat_map(|own| own.serves.iter().map(|served| served.0)).collect();
        all.sort_unstable();
        all
    };
    let all = served(&places);
    let how = match of.fewer(&all, places.len(), is_stopped) {
        Fewer::None => How::Fewest,
        Fewer::Unknown => How::Greedy,
        Fewer::These(fewer) => {
            places = fewer;
            How::Fewest
        }
    };
    let without = (0..lines.len()).filter(|nth| !all.contains(nth)).collect();
    Parked { places, without, how: if is_partial { How::Greedy } else { how }, is_partial }
}

/// Whether fewer places serve the same.
enum Fewer {
    None,
    These(Vec<ParkingPlace>),
    Unknown,
}

struct List<'a> {
    lines: &'a [Line],
    fits: &'a [Fits],
    headings: [f64; 4],
    asked: &'a Asked,
}

impl List<'_> {
    fn at(&self, nth: usize) -> &[Region] {
        self.fits.get(nth).map_or(&[], |own| own)
    }

    fn weight(&self, nth: usize) -> f64 {
        self.lines.get(nth).map_or(0.0, |own| own.weight)
    }

    /// Of the lines that are open the place that serves most; of several alike the one with most slack. `None` if it was stopped, too.
    fn most(&self, open: &[usize], is_stopped: &dyn Fn() -> bool) -> Option<ParkingPlace> {
        let mut sets: Vec<(f64, usize, Vec<usize>)> = Vec::new();
        for way in 0..self.headings.len() {
            for &seed in open {
                if is_stopped() {
                    return None;
                }
                for set in [self.grown(seed, open, way), vec![seed]] {
                    let is_place = self.at(seed).get(way).is_some_and(|own| !own.is_empty());
                    if is_place && !sets.iter().any(|own| own.1 == way && own.2 == set) {
                        sets.push((set.iter().map(|&nth| self.weight(nth)).sum(), way, set));
                    }
                }
            }
        }
        sets.sort_by(|a, b| {
            b.0.total_cmp(&a.0).then(b.2.len().cmp(&a.2.len())).then((a.1, &a.2).cmp(&(b.1, &b.2)))
        });
        let mut best: Option<(f64, ParkingPlace)> = None;
        for (weight, way, set) in sets {
            if best.as_ref().is_some_and(|own| weight < own.0) {
                break;
            }
            let Some(found) = self.confirmed(&set, way) else { continue };
            if best.as_ref().is_none_or(|own| found.slack.mm > own.1.slack.mm) {
                best = Some((weight, found));
            }
        }
        best.map(|own| own.1)
    }

    /// A line with all others that leave it a place at a heading, the weightiest first.
    fn grown(&self, seed: usize, open: &[usize], way: usize) -> Vec<usize> {
        let Some(mut common) = self.at(seed).get(way).cloned() else { return vec![seed] };
        let mut others: Vec<usize> = open.iter().copied().filter(|nth| *nth != seed).collect();
        others.sort_by(|&a, &b| self.weight(b).total_cmp(&self.weight(a)).then(a.cmp(&b)));
        let mut all = vec![seed];
        for nth in others {
            let Some(own) = self.at(nth).get(way) else { continue };
            let both = both(&common, own);
            if !both.is_empty() {
                all.push(nth);
                common = both;
            }
        }
        all.sort_unstable();
        all
    }

    /// The place with most slack for some lines at a heading, if it is as much as is asked and the checks agree.
    fn confirmed(&self, set: &[usize], way: usize) -> Option<ParkingPlace> {
        let own: Vec<_> =
            set.iter().filter_map(|&nth| self.lines.get(nth)).map(|own| own.arrangement.clone()).collect();
        let all = Search::of_all(&own);
        let least = Margin {
            mm: self.asked.margin.mm + self.asked.laid_mm,
            rad: self.asked.margin.rad + self.asked.laid_mm / all.lever_mm().max(1.0),
        };
        let heading = [(*self.headings.get(way)?, true)];
        let found = best_spots_of(&all, &heading, &least, &|| false, &mut |_| {});
        let spot = in_whole_mm(found.spots.first()?, all.lever_mm());
        let judged = set.iter().zip(&own).map(|(&nth, own)| (nth, judge(&stood(own, spot.pose)).verdict));
        let serves: Vec<(usize, Verdict)> = judged.collect();
        let is_so = spot.meets(&least) && serves.iter().all(|own| own.1 != Verdict::NotReady);
        is_so.then_some(ParkingPlace { pose: spot.pose, slack: spot.slack, serves })
    }

    /// Whether some lines can be served by fewer places than so many: all ways to part them are looked at.
    fn fewer(&self, all: &[usize], than: usize, is_stopped: &dyn Fn() -> bool) -> Fewer {
        if than <= 1 {
            return Fewer::None;
        }
        if all.len() > MOST_EXACT {
            return Fewer::Unknown;
        }
        let mut together = Together { of: self, all, known: BTreeMap::new() };
        for most in 1..than {
            let mut sets = Vec::new();
            match together.parted(0, most, &mut sets, is_stopped) {
                None => return Fewer::Unknown,
                Some(false) => continue,
                Some(true) => {}
            }
            let places: Option<Vec<ParkingPlace>> = sets
                .iter()
                .map(|&set| {
                    let own: Vec<usize> = members(all, set).collect();
                    let ways = (0..self.headings.len()).filter(|&way| together.fits(set, way));
                    let ways: Vec<usize> = ways.collect();
                    let found = ways.into_iter().filter_map(|way| self.confirmed(&own, way));
                    found.reduce(|a, b| if b.slack.mm > a.slack.mm { b } else { a })
                })
                .collect();
            return places.map_or(Fewer::Unknown, |mut places| {
                let weight = |own: &ParkingPlace| -> f64 {
                    own.serves.iter().map(|served| self.weight(served.0)).sum()
                };
                places.sort_by(|a, b| weight(b).total_cmp(&weight(a)));
                Fewer::These(places)
            });
        }
        Fewer::None
    }
}

/// Which of some lines fit at one place: sets of them as bits, each with where they all fit, at each heading.
struct Together<'a> {
    of: &'a List<'a>,
    all: &'a [usize],
    known: BTreeMap<u32, Fits>,
}

impl Together<'_> {
    /// Parts the lines from one on into at most so many sets that each fit at one place; `None` if it was stopped.
    fn parted(
        &mut self,
        from: usize,
        most: usize,
        sets: &mut Vec<u32>,
        is_stopped: &dyn Fn() -> bool,
    ) -> Option<bool> {
        if from >= self.all.len() {
            return Some(true);
        }
        if is_stopped() {
            return None;
        }
        let bit = 1_u32 << from;
        for nth in 0..sets.len() {
            let set = sets.get(nth).copied().unwrap_or_default();
            if !(0..4).any(|way| self.fits(set | bit, way)) {
                continue;
            }
            if let Some(own) = sets.get_mut(nth) {
                *own = set | bit;
            }
            if self.parted(from + 1, most, sets, is_stopped)? {
                return Some(true);
            }
            if let Some(own) = sets.get_mut(nth) {
                *own = set;
            }
        }
        if sets.len() < most {
            sets.push(bit);
            if self.parted(from + 1, most, sets, is_stopped)? {
                return Some(true);
            }
            sets.pop();
        }
        Some(false)
    }

    fn fits(&mut self, set: u32, way: usize) -> bool {
        self.region(set).get(way).is_some_and(|own| !own.is_empty())
    }

    fn region(&mut self, set: u32) -> Fits {
        if let Some(known) = self.known.get(&set) {
            return known.clone();
        }
        let last = 31_u32.saturating_sub(set.leading_zeros());
        let own =
            self.all.get(last as usize).and_then(|&nth| self.of.fits.get(nth)).cloned().unwrap_or_default();
        let rest = set & !(1 << last);
        let told = if rest == 0 {
            own
        } else {
            let before = self.region(rest);
            std::array::from_fn(|way| match (before.get(way), own.get(way)) {
                (Some(a), Some(b)) => both(a, b),
                _ => Region::default(),
            })
        };
        self.known.insert(set, told.clone());
        told
    }
}

fn members(all: &[usize], set: u32) -> impl Iterator<Item = usize> {
    all.iter().enumerate().filter(move |(nth, _)| set & (1 << nth) != 0).map(|(_, own)| *own)
}

fn both(a: &Region, b: &Region) -> Region {
    let rings = |own: &Region| own.rings().map(<[DVec2]>::to_vec).collect::<Vec<_>>();
    if a.is_empty() || b.is_empty() {
        return Region::default();
    }
    Region::common(&rings(a), &rings(b))
}
