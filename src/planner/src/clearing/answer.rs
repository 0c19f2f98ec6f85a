//! What is asked, and what is answered.

use baywright_geometry::PlanPose;

use super::towards::Towards;
use crate::assessment::{Finding, Step, Verdict};
use crate::edit::Edit;
use crate::model::{Arrangement, CostOf, Id, StandSet};
use crate::place::{Margin, Offer};

/// Where the car is to stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Where {
    /// Anywhere in the room.
    Anywhere,
    /// At this very place (bay from vehicle), as far off as it may be parked.
    Here(PlanPose),
}

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked<'a> {
    /// Where the car is to stand.
    pub at: Where,
    /// For a car that may stand anywhere the headings that are looked at, radians, each with whether the room invites it.
    pub headings: &'a [(f64, bool)],
    /// What the owner said that it costs to have a thing gone.
    pub costs: &'a [CostOf],
}

/// What is known of it that no set of things takes less.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surety {
    /// No set that takes less leaves the car a place, in any heading looked at; at a place that is asked about, none clears it.
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
    /// No hands move it: a builder takes it out.
    pub needs_builder: bool,
}

/// What a way costs, by what the owner said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Money {
    /// The sum of what was said, in the owner's money.
    pub sum: f64,
    /// Of so many of the things that go nothing was said: they count as nothing.
    pub unsaid: usize,
}

/// A way to make room.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// What goes, by name.
    pub moves: Vec<Move>,
    /// Where the car is parked then.
    pub offer: Offer,
    /// The hands that it takes, by how hard each is to move; out of the bay twice as many. What a builder does takes none.
    pub hands: u32,
    /// What it costs; `None` if nothing was said of any thing that goes.
    pub money: Option<Money>,
    /// How far all goes within the room, mm, each mm counted as often as hands carry.
    pub way_mm: f64,
    /// What is said of the space then: never "not ready".
    pub verdict: Verdict,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Cleared {
    /// Where the car is to stand.
    pub at: Where,
    /// The way; `None` if none was found.
    pub way: Option<Way>,
    /// Of a way, whether one that takes fewer hands is ruled out, and of one that needs a builder, one that costs less; of none,
    /// whether each is: proven, it fits nowhere even with all gone that can go.
    pub surety: Surety,
    /// Of a way by hands, whether one that takes as many and costs less is ruled out; `None` if nothing was said of costs.
    pub least_money: Option<Surety>,
    /// Of a way that needs a builder, whether each is ruled out that hands alone make; else `None`.
    pub not_by_hands: Option<Surety>,
    /// Whether it was stopped, or came to its limits, before all was looked at.
    pub is_partial: bool,
    /// What stops the aiming whatever goes: wherever the car stands, or at the place that is asked about.
    pub remains: Vec<Finding>,
    /// How many things hands can move.
    pub movable: usize,
    /// How far off the shop parks a car; of one that stands where it is to, how far off it may be.
    pub margin: Margin,
}

impl Way {
    /// All of it as one edit: what goes, the car, and with it the stands that were put somewhere. A car that stands there already is
    /// left as it is, with all that was measured of its place.
    pub fn edit(&self, arrangement: &Arrangement) -> Edit {
        let pose = self.offer.spot.pose;
        let moves = self.moves.iter().map(|own| Edit::Do(own.step.clone()));
        if pose == arrangement.parked {
            return Edit::All(moves.collect());
        }
        let there_from_here = pose * arrangement.parked.inverse();
        let placements = arrangement.aiming.placements.iter().zip(&arrangement.stands);
        let carried = placements.filter_map(|(own, set)| {
            let StandSet::At { place, height_mm, pitch_rad } = *set else { return None };
            let set = StandSet::At { place: there_from_here * place, height_mm, pitch_rad };
            Some(Edit::Stand { placement: own.id.clone(), set })
        });
        Edit::All(moves.chain([Edit::Park(pose)]).chain(carried).collect())
    }

    /// What a builder takes out.
    pub fn by_builder(&self) -> impl Iterator<Item = &Id> {
        self.moves.iter().filter(|own| own.needs_builder).filter_map(|own| match &own.step {
            Step::TakeAway { thing } => Some(thing),
            _ => None,
        })
    }
}
