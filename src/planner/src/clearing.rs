//! What must move? The cheapest set of things that have to go so that an aiming fits somewhere, where each of them goes, and
//! where the car is parked then.
//!
//! What a set takes is the hands of its things, each by how hard it is to move ([`hands`]). Sets are taken in the order of
//! that. One that leaves the car no place even with all of it out of the room is none, and neither is any part of it: that is
//! known of regions ([`crate::place`]) for each heading looked at, and of every such set it is kept which things it lacks, so
//! that few have to be asked. Of a set that leaves the car a place the things are put somewhere, all together, for one spot
//! after the other; what comes of it is confirmed by the checks before it is given. So a set is *proven* to be the cheapest if
//! each cheaper one leaves no place in any heading looked at; if one does, and its things were put nowhere, the set is the best
//! that was found. How far things go is no part of that: of equal sets the one with the shortest ways found is given.
//!
//! Not asked is how a thing gets there, and whether it could be turned. What money it takes is not asked either.

mod freed;
mod movers;
mod put;
mod sets;
mod towards;

use baywright_geometry::{PlanPose, angle};

use crate::assessment::{Code, Finding, Severity, Step, Subject, Verdict};
use crate::cure::apply;
use crate::edit::Edit;
use crate::judge::judge;
use crate::model::{Arrangement, Id, ParkedKnown, StandSet};
use crate::place::{ByTape, Margin, Offer, Search, Slack, Spot, stood};
use crate::scene::Scene;

use freed::Freed;
use movers::Mover;
use put::{Floor, Keeps};
use sets::Sets;

pub use movers::hands;
pub use towards::Towards;

/// So many things are looked at: more that could go stay where they are.
const MOST_THINGS: usize = 64;
/// So many sets are taken, and of so many that leave the car a place the things are put somewhere.
const MOST_SETS: usize = 200_000;
const MOST_PUT: usize = 40;
/// So many sets that take equally many hands are compared.
const MOST_ALIKE: usize = 6;
/// In so many headings spots are tried, in each at so many, and so many in all.
const MOST_HEADINGS: usize = 24;
const MOST_IN_HEADING: usize = 8;
const MOST_SPOTS: usize = 48;
/// Two spots of a heading nearer than this, mm, are one.
const APART_MM: f64 = 300.0;
/// The least slack of a spot, mm, and what rounding a spot to whole mm takes of it.
const LEAST_MM: f64 = 1.0;
const ROUNDED_MM: f64 = 1.0;
/// A way that keeps clear of what only needs care too may be this much longer than one that does not.
const DETOUR: f64 = 2.0;
/// Two headings that differ by less, rad, are one.
const SAME_RAD: f64 = 1e-9;

/// What is known of it that no set of things takes less.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surety {
    /// No set that takes less leaves the car a place, in any heading looked at.
    Proven,
    /// One may, but its things were put nowhere, or something could go that is not looked at, as a lift's arm: what is given is
    /// the best that was found.
    BestFound,
}

/// A thing that goes.
#[derive(Clone, Debug, PartialEq)]
pub struct Move {
    /// Where to: moved by so much, or out of the bay.
    pub step: Step,
    /// Of a move, towards which walls.
    pub towards: Vec<Towards>,
}

/// A way to make room.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// What goes, by name.
    pub moves: Vec<Move>,
    /// Where the car is parked then.
    pub offer: Offer,
    /// The hands that it takes, on the scale of [`hands`]; out of the bay twice as many.
    pub hands: u32,
    /// How far all goes within the room, mm, each mm counted as often as hands carry.
    pub way_mm: f64,
    /// What is said of the space then: never "not ready".
    pub verdict: Verdict,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Cleared {
    /// The way; `None` if none was found.
    pub way: Option<Way>,
    /// Of a way, whether a cheaper one is ruled out; of none, whether each is: proven, it fits nowhere even with all gone that
    /// can go.
    pub surety: Surety,
    /// Whether it was stopped, or came to its limits, before all was looked at.
    pub is_partial: bool,
    /// What stops the aiming wherever the car stands: nothing that goes helps.
    pub everywhere: Vec<Finding>,
    /// How many things can go.
    pub movable: usize,
    /// How far off the shop parks a car.
    pub margin: Margin,
}

impl Way {
    /// All of it as one edit: what goes, the car, and with it the stands that were put somewhere.
    pub fn edit(&self, arrangement: &Arrangement) -> Edit {
        let pose = self.offer.spot.pose;
        let there_from_here = pose * arrangement.parked.inverse();
        let placements = arrangement.aiming.placements.iter().zip(&arrangement.stands);
        let carried = placements.filter_map(|(own, set)| {
            let StandSet::At { place, height_mm, pitch_rad } = *set else { return None };
            let set = StandSet::At { place: there_from_here * place, height_mm, pitch_rad };
            Some(Edit::Stand { placement: own.id.clone(), set })
        });
        let moves = self.moves.iter().map(|own| Edit::Do(own.step.clone()));
        Edit::All(moves.chain([Edit::Park(pose)]).chain(carried).collect())
    }
}

/// A thing moved within the room, or taken out.
struct Deed {
    thing: usize,
    is_out: bool,
    hands: u32,
}

/// What every look at a set shares.
struct Case<'a> {
    arrangement: &'a Arrangement,
    headings: &'a [(f64, bool)],
    /// What is found as it stands.
    before: Vec<Finding>,
    movers: Vec<Mover>,
    margin: Margin,
    is_stopped: &'a dyn Fn() -> bool,
}

/// Looks for the cheapest way to make room, with the car in any of these headings, radians, each with whether the room invites
/// it. `tell` hears how many headings are done; the putting comes after them.
pub fn cleared(
    arrangement: &Arrangement,
    headings: &[(f64, bool)],
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(usize),
) -> Cleared {
    let (mm, rad) = arrangement.shop.parked_within(ParkedKnown::Planned);
    let mut movers = movers::movers(arrangement);
    let is_cut = movers.len() > MOST_THINGS;
    movers.truncate(MOST_THINGS);
    let stays_open = is_cut || movers::has_arms(arrangement);
    let mut answer = Cleared {
        way: None,
        surety: Surety::BestFound,
        is_partial: is_cut,
        everywhere: Search::new(arrangement).everywhere().to_vec(),
        movable: movers.len(),
        margin: Margin { mm, rad },
    };
    if !answer.everywhere.is_empty() {
        answer.surety = Surety::Proven;
        return answer;
    }
    let things: Vec<&Id> = movers.iter().map(|own| &own.id).collect();
    let radians: Vec<f64> = headings.iter().map(|own| own.0).collect();
    let Some(freed) = Freed::new(arrangement, &things, &radians, is_stopped, tell) else {
        answer.is_partial = true;
        return answer;
    };
    let before = judge(arrangement).findings;
    let case = Case { arrangement, headings, before, movers, margin: answer.margin, is_stopped };
    case.search(&freed, &mut answer, stays_open);
    answer
}

/// Whether a thing is one of some, a bit for each.
const fn has(set: u64, nth: usize) -> bool {
    set >> nth & 1 == 1
}

impl Case<'_> {
    /// Takes set after set, the cheapest first. With `stays_open` something that could go is not looked at: nothing is proven.
    fn search(&self, freed: &Freed, answer: &mut Cleared, stays_open: bool) {
        let all: u64 = (0..self.movers.len()).map(|nth| 1_u64 << nth).sum();
        if !freed.may(all) {
            answer.surety = if stays_open { Surety::BestFound } else { Surety::Proven };
            return;
        }
        let deeds = self.deeds();
        let least = |own: &Mover| own.within.into_iter().chain(own.out).min().unwrap_or_default();
        let costs: Vec<u32> = self.movers.iter().map(least).collect();
        // Of each of these at least one thing has to go.
        let mut one_of: Vec<u64> = Vec::new();
        // The cheapest set of which it is not known that it is none, and that was put nowhere: what it takes, and its things.
        let mut open: Option<(u32, u64)> = None;
        let (mut put, mut alike) = (0, 0);
        for (taken, (cost, set)) in Sets::of(deeds.iter().map(|own| own.hands).collect()).enumerate() {
            if answer.way.as_ref().is_some_and(|own| cost > own.hands || alike >= MOST_ALIKE) {
                break;
            }
            if (self.is_stopped)() || taken >= MOST_SETS || put >= MOST_PUT {
                answer.is_partial = true;
                break;
            }
            let chosen = deeds.iter().enumerate().filter(|(nth, _)| set >> nth & 1 == 1).map(|own| own.1);
            let Some((within, out)) = split(chosen) else { continue };
            let gone = within | out;
            if one_of.iter().any(|own| own & gone == 0) {
                continue;
            }
            if !freed.may(gone) {
                one_of.push(freed.one_of(gone, &costs));
                continue;
            }
            (put, alike) = (put + 1, alike + usize::from(answer.way.is_some()));
            let found = self.put(freed, within, out);
            if found.is_none() {
                open = open.or(Some((cost, gone)));
            }
            let is_better = |own: &Way, than: &Way| {
                (own.hands, !own.offer.meets)
                    .cmp(&(than.hands, !than.offer.meets))
                    .then(own.way_mm.total_cmp(&than.way_mm))
                    .is_lt()
            };
            if let Some(own) = found
                && answer.way.as_ref().is_none_or(|than| is_better(&own, than))
            {
                answer.way = Some(own);
            }
        }
        let is_proven = |way: &Way| !stays_open && open.is_none_or(|(cost, _)| cost >= way.hands);
        match &answer.way {
            Some(way) if is_proven(way) => answer.surety = Surety::Proven,
            Some(_) => {}
            // Where so much has to go that no set that leaves the car a place was come to, one is made from above.
            None => {
                let gone = open.map_or_else(|| freed.few(all, &costs), |own| own.1);
                answer.way = self.mostly_out(freed, gone);
            }
        }
    }

    /// A way that needs little room: all of these things out of the bay that can leave, but those that can then be put within it.
    fn mostly_out(&self, freed: &Freed, gone: u64) -> Option<Way> {
        let can_leave = |nth: usize| self.movers.get(nth).is_some_and(|own| own.out.is_some());
        let can_stay = |nth: usize| self.movers.get(nth).is_some_and(|own| own.within.is_some());
        let all = || (0..self.movers.len()).filter(|&nth| has(gone, nth));
        let mut out: u64 = all().filter(|&nth| can_leave(nth)).map(|nth| 1_u64 << nth).sum();
        let mut way = self.put(freed, gone & !out, out)?;
        for nth in all().filter(|&nth| can_leave(nth) && can_stay(nth)) {
            let fewer = out & !(1 << nth);
            if let Some(own) = self.put(freed, gone & !fewer, fewer) {
                (way, out) = (own, fewer);
            }
        }
        Some(way)
    }

    /// All that can be done, the cheapest first.
    fn deeds(&self) -> Vec<Deed> {
        let all = self.movers.iter().enumerate().flat_map(|(thing, own)| {
            let within = own.within.map(|hands| Deed { thing, is_out: false, hands });
            within.into_iter().chain(own.out.map(|hands| Deed { thing, is_out: true, hands }))
        });
        let mut all: Vec<Deed> = all.collect();
        all.sort_by_key(|own| (own.hands, own.is_out, own.thing));
        all
    }

    fn ids(&self, set: u64) -> Vec<&Id> {
        let all = self.movers.iter().enumerate().filter(|(nth, _)| has(set, *nth));
        all.map(|(_, own)| &own.id).collect()
    }

    /// Puts the things of a set somewhere, those that leave aside, and parks the car: as well clear as can be, by the shortest
    /// ways.
    fn put(&self, freed: &Freed, within: u64, out: u64) -> Option<Way> {
        let headings = freed.fits(within | out);
        let (within, out) = (self.ids(within), self.ids(out));
        let left = freed::without(self.arrangement, |id| out.contains(&id));
        let search = Search::new(&freed::without(&left, |id| within.contains(&id)));
        let lever_mm = search.lever_mm().max(1.0);
        let slack = |mm: f64| Slack { mm, rad: mm / lever_mm };
        let margin = slack(self.margin.mm.max(self.margin.rad * lever_mm));
        let best = |slack: Slack, of_care: bool| {
            let keeps = Keeps { slack, of_care };
            let mut best: Option<Way> = None;
            for pose in spots(&search, &headings, &slack) {
                if (self.is_stopped)() {
                    break;
                }
                let parked = stood(&left, pose);
                let Some(put) = Floor::new(&parked, &within, keeps).put() else { continue };
                if best.as_ref().is_some_and(|own| own.way_mm < put.way_mm) {
                    continue;
                }
                let moves = put.moves.into_iter().map(|(thing, by)| Step::MoveThing { thing, by });
                let gone = out.iter().map(|&thing| Step::TakeAway { thing: thing.clone() });
                let Some(own) = self.confirmed(moves.chain(gone).collect(), pose, put.way_mm) else {
                    continue;
                };
                let is_better = |than: &Way| {
                    own.way_mm < than.way_mm || own.offer.spot.slack.mm > than.offer.spot.slack.mm
                };
                if best.as_ref().is_none_or(is_better) {
                    best = Some(own);
                }
            }
            best
        };
        let well = best(margin, true);
        if well.as_ref().is_some_and(|own| own.way_mm <= 0.0) {
            return well;
        }
        match (well, best(margin, false)) {
            // Nobody goes far out of the way for what only needs care.
            (Some(well), Some(short)) if well.way_mm > DETOUR * short.way_mm => Some(short),
            (Some(own), _) | (None, Some(own)) => Some(own),
            (None, None) => best(slack(LEAST_MM), false),
        }
    }

    /// The way, if the checks have nothing that stops then, and nothing to say of where a thing went.
    fn confirmed(&self, steps: Vec<Step>, pose: PlanPose, way_mm: f64) -> Option<Way> {
        let moved = steps.iter().fold(self.arrangement.clone(), |own, step| apply(&own, step));
        let search = Search::new(&moved);
        let after = stood(&moved, pose);
        let judged = judge(&after);
        let went = |subject: &Subject| {
            steps.iter().any(|step| {
                matches!((step, subject), (Step::MoveThing { thing, .. }, Subject::Thing(id)) if thing == id)
            })
        };
        let complains = |own: &Finding| {
            own.severity != Severity::Note
                && (own.subjects.iter().any(went) && is_of_room(own.code()) || is_of_ways(own.code()))
                && !self.before.iter().any(|old| old.code() == own.code() && old.subjects == own.subjects)
        };
        if judged.count(Severity::Stops) > 0 || judged.findings.iter().any(complains) {
            return None;
        }
        let slack = search.slack_at(pose).filter(|own| own.mm >= LEAST_MM)?;
        let is_invited =
            self.headings.iter().any(|own| own.1 && angle::wrapped(own.0 - pose.heading()).abs() < SAME_RAD);
        let spot = Spot { pose, slack, is_invited };
        let by_tape = ByTape::of(&after, &Scene::of(&after), pose);
        let of = |id: &Id| self.movers.iter().find(|own| own.id == *id);
        let taken = steps.iter().filter_map(|step| match step {
            Step::MoveThing { thing, .. } => of(thing)?.within,
            Step::TakeAway { thing } => of(thing)?.out,
            _ => None,
        });
        let hands = taken.sum();
        let moves = steps.into_iter().map(|step| {
            let towards = match &step {
                Step::MoveThing { thing, by } => towards::towards(self.arrangement, thing, *by),
                _ => Vec::new(),
            };
            Move { step, towards }
        });
        Some(Way {
            moves: moves.collect(),
            offer: Offer { meets: spot.meets(&self.margin), spot, by_tape },
            hands,
            way_mm,
            verdict: judged.verdict,
        })
    }
}

/// Which things are moved and which are taken out, a bit for each; `None` if one is both.
fn split<'a>(deeds: impl Iterator<Item = &'a Deed>) -> Option<(u64, u64)> {
    let (mut within, mut out) = (0, 0);
    for deed in deeds {
        let own = if deed.is_out { &mut out } else { &mut within };
        *own |= 1_u64 << deed.thing;
    }
    (within & out == 0).then_some((within, out))
}

/// Spots that are tried, those in the middle of a shape of places first: about each all is clear by a slack.
fn spots(search: &Search, headings: &[f64], slack: &Slack) -> Vec<PlanPose> {
    let lever_mm = search.lever_mm().max(1.0);
    let wants = Slack { mm: slack.mm + ROUNDED_MM, rad: slack.rad + ROUNDED_MM / lever_mm };
    let (mut middles, mut corners) = (Vec::new(), Vec::new());
    for &rad in headings.iter().take(MOST_HEADINGS) {
        let Some(clear) = search.clear_places(rad, &wants) else { continue };
        let middle = (0..clear.shapes().len()).filter_map(|nth| clear.shape(nth).middle());
        let mut own: Vec<PlanPose> = Vec::new();
        let edges = clear.rings().flatten().map(|&at| (false, at));
        for (is_middle, at) in middle.map(|at| (true, at)).chain(edges) {
            let pose = PlanPose::new(at.round(), rad);
            let is_near = |other: &PlanPose| other.origin().distance(pose.origin()) < APART_MM;
            if own.len() >= MOST_IN_HEADING || own.iter().any(is_near) {
                continue;
            }
            own.push(pose);
            if is_middle { middles.push(pose) } else { corners.push(pose) }
        }
    }
    middles.extend(corners);
    middles.truncate(MOST_SPOTS);
    middles
}

/// Whether a finding is of where a thing stands in the room, whatever is aimed there.
const fn is_of_room(code: Code) -> bool {
    matches!(
        code,
        Code::KeepFree
            | Code::DoorLeaf
            | Code::ShutDoor
            | Code::WalkIn
            | Code::ThingPlace
            | Code::BesidePermanentMark
    )
}

/// Whether a finding is of a way in, whatever it names.
const fn is_of_ways(code: Code) -> bool {
    matches!(code, Code::WayIn)
}
