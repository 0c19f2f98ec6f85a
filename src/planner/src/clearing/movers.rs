//! Who can go, and what that takes.

use crate::cure::leaves;
use crate::model::{Arrangement, CostOf, Effort, Id, Thing, ThingKind, cost_of};

/// Out of the bay a thing takes so many times the hands that it takes within it: a place is to be found for it there (the
/// project's own scale, no source).
const OUT_TIMES: u32 = 2;

/// The hands that it takes to move something, on the project's own scale (no source): one person, two people, and a fork lift,
/// which somebody has to fetch, as much as four; `None` for what stays where it is.
pub const fn hands(effort: Effort) -> Option<u32> {
    match effort {
        Effort::OnePerson => Some(1),
        Effort::TwoPeople => Some(2),
        Effort::ForkLift => Some(4),
        Effort::Fixed => None,
    }
}

/// A thing that can go.
#[derive(Clone, Debug)]
pub(super) struct Mover {
    pub id: Id,
    /// The hands for a move within the room, if it can be moved so.
    pub within: Option<u32>,
    /// The hands for taking it out of the bay, if it can leave: none of what a builder takes out.
    pub out: Option<u32>,
    /// What the owner said that it costs to have it gone, whichever way, in the owner's money.
    pub costs: Option<f64>,
    /// No hands move it: a builder takes it out.
    pub needs_builder: bool,
}

impl Mover {
    /// What it costs, in hundredths; what was not said is nothing.
    pub(super) fn hundredths(&self) -> u64 {
        self.costs.map_or(0, |own| (own * 100.0).round() as u64)
    }
}

/// All that hands move. A lift's arm is hinged and goes no way that is looked for here; people and parked cars leave.
pub(super) fn by_hand(arrangement: &Arrangement, costs: &[CostOf]) -> Vec<Mover> {
    let all = arrangement.bay.things.iter().filter(|own| own.kind != ThingKind::LiftArm);
    all.filter_map(|own| mover(arrangement, own, costs)).collect()
}

/// What no hands move, but of which the owner said what it costs to have it gone.
pub(super) fn by_builder(arrangement: &Arrangement, costs: &[CostOf]) -> Vec<Mover> {
    let all = arrangement.bay.things.iter();
    let stays = all.filter(|own| own.kind == ThingKind::LiftArm || hands(own.effort).is_none());
    let all = stays.filter(|own| !own.is_person()).filter_map(|own| {
        let costs = Some(cost_of(costs, &own.id)?);
        Some(Mover { id: own.id.clone(), within: None, out: Some(0), costs, needs_builder: true })
    });
    all.collect()
}

/// Whether an arm of a lift could be swung.
pub(super) fn has_arms(arrangement: &Arrangement) -> bool {
    arrangement.bay.things.iter().any(|own| own.kind == ThingKind::LiftArm && own.effort != Effort::Fixed)
}

/// The hands that shift a thing within the room; `None` of what is fixed or hinged, or goes by itself: people and parked cars.
pub fn hands_within(own: &Thing) -> Option<u32> {
    let is_shifted = !goes_by_itself(own) && own.kind != ThingKind::LiftArm;
    hands(own.effort).filter(|_| is_shifted)
}

fn goes_by_itself(own: &Thing) -> bool {
    own.is_person() || own.kind == ThingKind::ParkedCar
}

fn mover(arrangement: &Arrangement, own: &Thing, costs: &[CostOf]) -> Option<Mover> {
    let hands = hands(own.effort)?;
    let (goes_by_itself, within) = (goes_by_itself(own), hands_within(own));
    let times = if goes_by_itself { 1 } else { OUT_TIMES };
    let out = leaves(arrangement, own).map(|_| hands * times);
    let costs = cost_of(costs, &own.id);
    let id = own.id.clone();
    (within.is_some() || out.is_some()).then_some(Mover { id, within, out, costs, needs_builder: false })
}
