//! What must move? The cheapest set of things that have to go so that an aiming fits somewhere, or at a place that is asked about,
//! where each of them goes, and where the car is parked then.
//!
//! What a set takes is the hands of its things, each by how hard it is to move ([`hands`]); of sets that take as many, the money that
//! the owner said that it costs to have them gone. Sets are taken in the order of
//! that. One that leaves the car no place even with all of it out of the room is none, and neither is any part of it: that is
//! known of regions ([`crate::place`]) for each heading looked at, and of every such set it is kept which things it lacks, so
//! that few have to be asked. Of one place that is asked about the checks say it, there and at the corners of what the car may be off.
//! Of a set that leaves the car a place the things are put somewhere, all together, for one spot
//! after the other; what comes of it is confirmed by the checks before it is given. So a set is *proven* to be the cheapest if
//! each cheaper one leaves no place in any heading looked at; if one does, and its things were put nowhere, the set is the best
//! that was found. How far things go is no part of that: of equal sets the one with the shortest ways found is given.
//!
//! Only where hands do nothing, things that no hands move but of which the owner said what it costs to have them gone are looked at
//! too: then money counts before hands, and what goes so needs a builder, which is told apart.
//!
//! Not asked is how a thing gets there, and whether it could be turned.

mod answer;
mod case;
mod cost;
mod freed;
mod movers;
mod put;
mod sets;
mod towards;

use baywright_geometry::PlanPose;

use crate::assessment::{Finding, Severity, Subject};
use crate::judge::judge;
use crate::model::{Arrangement, CostOf, Id, ParkedKnown};
use crate::place::{Margin, Search, Slack, Spot};

use case::{Case, Found};
use cost::By;
use freed::Freed;
use movers::Mover;

pub use answer::{Asked, Cleared, Money, Move, Surety, Way, Where};
pub use movers::{hands, hands_within};
pub use towards::Towards;

/// So many things are looked at: more that could go stay where they are.
const MOST_THINGS: usize = 64;

/// Looks for the cheapest way to make room. `tell` hears how many of [`looks`] are done; the putting comes after them.
pub fn cleared(
    arrangement: &Arrangement,
    asked: &Asked<'_>,
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(usize),
) -> Cleared {
    let before = judge(arrangement).findings;
    let by_hand = movers::by_hand(arrangement, asked.costs);
    let look = Look { arrangement, asked, before: &before, is_stopped };
    let answer = look.cleared(by_hand.clone(), By::Hands, tell);
    let by_builder = movers::by_builder(arrangement, asked.costs);
    if answer.way.is_some() || by_builder.is_empty() || is_stopped() {
        return answer;
    }
    // First those that hands do not move, so that none of them is cut off.
    let all = by_builder.into_iter().chain(by_hand).collect();
    let built = look.cleared(all, By::Money, &mut |_| {});
    if built.way.is_none() {
        return answer;
    }
    Cleared { not_by_hands: Some(answer.surety), least_money: None, movable: answer.movable, ..built }
}

/// How many looks are told of: the headings, or of one place the things that hands move.
pub fn looks(arrangement: &Arrangement, asked: &Asked<'_>) -> usize {
    match asked.at {
        Where::Anywhere => asked.headings.len(),
        Where::Here(_) => movers::by_hand(arrangement, asked.costs).len().min(MOST_THINGS),
    }
}

/// Whether any of these findings stops the aiming by a thing that could go, by hands or by a builder at a cost that was said.
pub fn may_help(arrangement: &Arrangement, findings: &[Finding], costs: &[CostOf]) -> bool {
    let by_hand = movers::by_hand(arrangement, costs);
    let all: Vec<Mover> = by_hand.into_iter().chain(movers::by_builder(arrangement, costs)).collect();
    let goes = |own: &Subject| matches!(own, Subject::Thing(id) if all.iter().any(|own| own.id == *id));
    let mut stops = findings.iter().filter(|own| own.severity == Severity::Stops);
    stops.any(|own| own.subjects.iter().any(goes))
}

/// What every look shares.
struct Look<'a> {
    arrangement: &'a Arrangement,
    asked: &'a Asked<'a>,
    before: &'a [Finding],
    is_stopped: &'a dyn Fn() -> bool,
}

impl Look<'_> {
    /// Looks with some things that may go.
    fn cleared(&self, mut movers: Vec<Mover>, by: By, tell: &mut dyn FnMut(usize)) -> Cleared {
        let is_cut = movers.len() > MOST_THINGS;
        movers.truncate(MOST_THINGS);
        let shop = &self.arrangement.shop;
        let (mm, rad) = match self.asked.at {
            Where::Here(pose) if pose == self.arrangement.parked => {
                shop.parked_within(self.arrangement.parked_known)
            }
            Where::Anywhere | Where::Here(_) => shop.parked_within(ParkedKnown::Planned),
        };
        let mut answer = Cleared {
            at: self.asked.at,
            way: None,
            surety: Surety::BestFound,
            least_money: None,
            not_by_hands: None,
            is_partial: is_cut,
            remains: Vec::new(),
            movable: movers.len(),
            margin: Margin { mm, rad },
        };
        let case = Case {
            arrangement: self.arrangement,
            asked: self.asked,
            before: self.before,
            movers: &movers,
            by,
            margin: answer.margin,
            needs_margin: true,
            stays_open: is_cut || movers::has_arms(self.arrangement),
            is_stopped: self.is_stopped,
        };
        let things: Vec<&Id> = movers.iter().map(|own| &own.id).collect();
        let found = match self.asked.at {
            Where::Anywhere => {
                answer.remains = Search::new(self.arrangement).everywhere().to_vec();
                if !answer.remains.is_empty() {
                    answer.surety = Surety::Proven;
                    return answer;
                }
                self.anywhere(&case, &things, tell)
            }
            Where::Here(pose) => {
                let found = self.here(case, (&things, pose), tell);
                if found.as_ref().is_some_and(|own| own.way.is_none()) {
                    let bare = freed::without(self.arrangement, |id| things.contains(&id));
                    let all = judge(&freed::with_car(&bare, pose)).findings;
                    answer.remains = all.into_iter().filter(|own| own.severity == Severity::Stops).collect();
                }
                found
            }
        };
        let Some(found) = found else {
            answer.is_partial = true;
            return answer;
        };
        let is_said = movers.iter().any(|own| own.costs.is_some());
        answer.least_money = (is_said && found.way.is_some()).then_some(found.among_equals);
        answer.is_partial |= found.is_partial;
        (answer.way, answer.surety) = (found.way, found.surety);
        answer
    }

    fn anywhere(&self, case: &Case<'_>, things: &[&Id], tell: &mut dyn FnMut(usize)) -> Option<Found> {
        let radians: Vec<f64> = self.asked.headings.iter().map(|own| own.0).collect();
        let freed = Freed::new(self.arrangement, things, &radians, self.is_stopped, tell)?;
        Some(case.search(&freed))
    }

    /// At one place: with as much to spare as cars are parked off, and where nothing gives that, just so that nothing stops.
    fn here(
        &self,
        case: Case<'_>,
        (things, pose): (&[&Id], PlanPose),
        tell: &mut dyn FnMut(usize),
    ) -> Option<Found> {
        let lever_mm = Search::new(self.arrangement).lever_mm().max(1.0);
        let mm = case.margin.mm.max(case.margin.rad * lever_mm);
        let slack = Slack { mm, rad: mm / lever_mm };
        let well = Spot { pose, slack, is_invited: false };
        let freed = Freed::at(self.arrangement, things, &well, self.is_stopped, tell)?;
        let found = case.search(&freed);
        if found.way.is_some() || (self.is_stopped)() {
            return Some(found);
        }
        let just = Spot { slack: Slack { mm: 0.0, rad: 0.0 }, ..well };
        let freed = Freed::at(self.arrangement, things, &just, self.is_stopped, &mut |_| {})?;
        Some(Case { needs_margin: false, ..case }.search(&freed))
    }
}
