//! The search: sets of things, the cheapest first, until one is put somewhere.

use baywright_geometry::{PlanPose, angle};

use super::answer::{Asked, Money, Move, Surety, Way, Where};
use super::cost::{By, Cost};
use super::freed::{self, Freed, with_car};
use super::movers::Mover;
use super::put::{Floor, Keeps};
use super::sets::Sets;
use super::towards;
use crate::assessment::{Code, Finding, Severity, Step, Subject};
use crate::cure::apply;
use crate::judge::judge;
use crate::model::{Arrangement, Id};
use crate::place::{ByTape, Margin, Offer, Search, Slack, Spot};
use crate::scene::Scene;

/// So many sets are taken, and of so many that leave the car a place the things are put somewhere.
const MOST_SETS: usize = 200_000;
const MOST_PUT: usize = 40;
/// So many sets that take equally much are compared.
const MOST_ALIKE: usize = 6;
/// In so many headings spots are tried, in each at so many, and so many in all.
const MOST_HEADINGS: usize = 24;
const MOST_IN_HEADING: usize = 8;
const MOST_SPOTS: usize = 48;
/// Two spots of a heading nearer than this, mm, are one.
const APART_MM: f64 = 300.0;
/// The least slack of a spot that is looked for, mm, and what rounding a spot to whole mm takes of it.
const LEAST_MM: f64 = 1.0;
const ROUNDED_MM: f64 = 1.0;
/// A way that keeps clear of what only needs care too may be this much longer than one that does not.
const DETOUR: f64 = 2.0;
/// Two headings that differ by less, rad, are one.
const SAME_RAD: f64 = 1e-9;

/// What every look at a set shares.
pub(super) struct Case<'a> {
    pub arrangement: &'a Arrangement,
    pub asked: &'a Asked<'a>,
    /// What is found as it stands.
    pub before: &'a [Finding],
    pub movers: &'a [Mover],
    /// What counts first.
    pub by: By,
    pub margin: Margin,
    /// Only a way that leaves the car as much as the margin is one.
    pub needs_margin: bool,
    /// Something that could go is not looked at: nothing is proven.
    pub stays_open: bool,
    pub is_stopped: &'a dyn Fn() -> bool,
}

/// What came of it.
pub(super) struct Found {
    pub way: Option<Way>,
    /// Whether each set that takes less of what counts first is ruled out, or without a way each.
    pub surety: Surety,
    /// Of a way the same of what counts among equals too.
    pub among_equals: Surety,
    pub is_partial: bool,
}

/// A thing moved within the room, or taken out. Of one that has to go either way the cheaper is done already, and this is done in its
/// stead.
struct Deed {
    thing: usize,
    is_out: bool,
    cost: Cost,
}

/// Whether a thing is one of some, a bit for each.
const fn has(set: u64, nth: usize) -> bool {
    set >> nth & 1 == 1
}

impl Case<'_> {
    /// Takes set after set, the cheapest first.
    pub(super) fn search(&self, freed: &Freed) -> Found {
        let all: u64 = self.bits(|_| true);
        let sure = |own: bool| if own && !self.stays_open { Surety::Proven } else { Surety::BestFound };
        let nothing = |surety: Surety, is_partial: bool| Found {
            way: None,
            surety,
            among_equals: Surety::BestFound,
            is_partial,
        };
        if !freed.may(all) {
            return nothing(sure(true), false);
        }
        // What leaves the car no place by itself goes in each set.
        let must = self.bits(|nth| !freed.may(all & !(1 << nth)));
        let (base, deeds) = self.deeds(must);
        let costs: Vec<Cost> = self.movers.iter().map(|own| self.least(own)).collect();
        // Of each of these at least one has to go.
        let mut one_of: Vec<u64> = Vec::new();
        // The cheapest set of which it is not known that it is none, and that was put nowhere: what it takes, and its things.
        let mut open: Option<(Cost, u64)> = None;
        let mut best: Option<(Cost, Way)> = None;
        let (mut put, mut alike, mut is_partial) = (0, 0, false);
        for (taken, (more, set)) in Sets::of(deeds.iter().map(|own| own.cost).collect()).enumerate() {
            let cost = base.cost + more;
            if best.as_ref().is_some_and(|own| cost > own.0 || alike >= MOST_ALIKE) {
                break;
            }
            if (self.is_stopped)() || taken >= MOST_SETS || put >= MOST_PUT {
                is_partial = true;
                break;
            }
            let chosen = deeds.iter().enumerate().filter(|(nth, _)| set >> nth & 1 == 1).map(|own| own.1);
            let Some((within, out)) = base.with(chosen, must) else { continue };
            let gone = within | out;
            if one_of.iter().any(|own| own & gone == 0) {
                continue;
            }
            if !freed.may(gone) {
                one_of.push(freed.one_of(gone, &costs));
                continue;
            }
            (put, alike) = (put + 1, alike + usize::from(best.is_some()));
            let Some(own) = self.put(freed, within, out) else {
                open = open.or(Some((cost, gone)));
                continue;
            };
            let took = self.cost(&own);
            let is_better = |(than_took, than): &(Cost, Way)| {
                (took, !own.offer.meets)
                    .cmp(&(*than_took, !than.offer.meets))
                    .then(own.way_mm.total_cmp(&than.way_mm))
                    .is_lt()
            };
            if best.as_ref().is_none_or(is_better) {
                best = Some((took, own));
            }
        }
        match best {
            Some((took, way)) => Found {
                surety: sure(open.is_none_or(|(cost, _)| cost.first >= took.first)),
                among_equals: sure(open.is_none_or(|(cost, _)| cost >= took)),
                way: Some(way),
                is_partial,
            },
            // Where so much has to go that no set that leaves the car a place was come to, one is made from above.
            None => {
                let gone = open.map_or_else(|| freed.few(all, &costs), |own| own.1);
                Found { way: self.mostly_out(freed, gone), ..nothing(Surety::BestFound, is_partial) }
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

    /// Those things of which something is so, a bit for each.
    fn bits(&self, is_so: impl Fn(usize) -> bool) -> u64 {
        (0..self.movers.len()).filter(|&nth| is_so(nth)).map(|nth| 1_u64 << nth).sum()
    }

    /// What it takes to move a thing within the room, and to take it out.
    fn takes(&self, own: &Mover) -> [Option<Cost>; 2] {
        [own.within, own.out].map(|hands| Some(self.by.cost(hands?, own.hundredths())))
    }

    fn least(&self, own: &Mover) -> Cost {
        self.takes(own).into_iter().flatten().min().unwrap_or_default()
    }

    /// What is done in any case, so that what must go goes, and all that can be done beside it, the cheapest first.
    fn deeds(&self, must: u64) -> (Base, Vec<Deed>) {
        let (mut base, mut all) = (Base::default(), Vec::new());
        for (thing, own) in self.movers.iter().enumerate() {
            let least = self.least(own);
            let [within, out] = self.takes(own);
            let is_base_out = out == Some(least) && within != Some(least);
            if has(must, thing) {
                let side = if is_base_out { &mut base.out } else { &mut base.within };
                *side |= 1 << thing;
                base.cost = base.cost + least;
            }
            for (is_out, cost) in [(false, within), (true, out)] {
                let Some(cost) = cost else { continue };
                if !has(must, thing) {
                    all.push(Deed { thing, is_out, cost });
                } else if is_out != is_base_out {
                    all.push(Deed { thing, is_out, cost: cost - least });
                }
            }
        }
        all.sort_by_key(|own| (own.cost, own.is_out, own.thing));
        (base, all)
    }

    /// What a way takes.
    fn cost(&self, way: &Way) -> Cost {
        let all = way.moves.iter().filter_map(|own| self.deed(&own.step));
        all.fold(Cost::default(), |sum, (own, hands)| sum + self.by.cost(hands, own.hundredths()))
    }

    /// The thing that a step is of, with the hands that the step takes.
    fn deed(&self, step: &Step) -> Option<(&Mover, u32)> {
        let of = |id: &Id| self.movers.iter().find(|own| own.id == *id);
        match step {
            Step::MoveThing { thing, .. } => of(thing).and_then(|own| Some((own, own.within?))),
            Step::TakeAway { thing } => of(thing).and_then(|own| Some((own, own.out?))),
            _ => None,
        }
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
            let poses = match self.asked.at {
                Where::Anywhere => spots(&search, &headings, &slack),
                Where::Here(pose) => vec![pose],
            };
            for pose in poses {
                if (self.is_stopped)() {
                    break;
                }
                let parked = with_car(&left, pose);
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
        let after = with_car(&moved, pose);
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
        let slack = Search::new(&moved).slack_at(pose)?;
        let is_invited = self
            .asked
            .headings
            .iter()
            .any(|own| own.1 && angle::wrapped(own.0 - pose.heading()).abs() < SAME_RAD);
        let spot = Spot { pose, slack, is_invited };
        let meets = spot.meets(&self.margin);
        let does = match self.asked.at {
            Where::Anywhere => slack.mm >= LEAST_MM,
            Where::Here(_) => meets || !self.needs_margin,
        };
        if !does {
            return None;
        }
        let by_tape = ByTape::of(&after, &Scene::of(&after), pose);
        let went: Vec<(&Mover, u32)> = steps.iter().filter_map(|step| self.deed(step)).collect();
        let said: Vec<f64> = went.iter().filter_map(|own| own.0.costs).collect();
        let unsaid = went.len() - said.len();
        let moves = steps.iter().map(|step| {
            let towards = match step {
                Step::MoveThing { thing, by } => towards::towards(self.arrangement, thing, *by),
                _ => Vec::new(),
            };
            let needs_builder = self.deed(step).is_some_and(|own| own.0.needs_builder);
            Move { step: step.clone(), towards, needs_builder }
        });
        Some(Way {
            moves: moves.collect(),
            offer: Offer { meets, spot, by_tape },
            hands: went.iter().map(|own| own.1).sum(),
            money: (!said.is_empty()).then(|| Money { sum: said.iter().sum(), unsaid }),
            way_mm,
            verdict: judged.verdict,
        })
    }
}

/// What is done in any case: which things are moved, which are taken out, a bit for each, and what that takes.
#[derive(Default)]
struct Base {
    within: u64,
    out: u64,
    cost: Cost,
}

impl Base {
    /// Which things are moved and which are taken out with some deeds beside; `None` if one is both.
    fn with<'a>(&self, deeds: impl Iterator<Item = &'a Deed>, must: u64) -> Option<(u64, u64)> {
        let (mut within, mut out) = (self.within, self.out);
        for deed in deeds {
            let bit = 1_u64 << deed.thing;
            if has(must, deed.thing) {
                (within, out) = (within & !bit, out & !bit);
            }
            let own = if deed.is_out { &mut out } else { &mut within };
            *own |= bit;
        }
        (within & out == 0).then_some((within, out))
    }
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
