//! What the owner of a bay says of it that no check asks: how often what comes in, what changes of the building would cost.

use super::Id;

/// Figures of the owner, kept with a bay.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnerFigures {
    /// What a square metre of floor costs, in whatever money.
    pub square_metre: Option<f64>,
    /// How much can be spent on changes, in the same money.
    pub to_spend: Option<f64>,
    /// How deep a strip along one wall a new room keeps for stands, boards and mats in store, mm.
    pub store_mm: Option<f64>,
    /// How often what comes in; what is not said counts as once.
    pub comes_in: Vec<ComesIn>,
    /// What it would cost to have a thing gone.
    pub without: Vec<CostOf>,
    /// What it would cost to have a wall of the room further out.
    pub further: Vec<CostOf>,
    /// What it would cost to have a door, a gap or a window walled up.
    pub walled_up: Vec<CostOf>,
    /// What it would cost to have the ground beyond a door free while it stands open.
    pub open_onto: Vec<CostOf>,
}

/// How often an aiming comes in.
#[derive(Clone, Debug, PartialEq)]
pub struct ComesIn {
    /// The car's profile.
    pub car: Id,
    /// Its aiming.
    pub aiming: Id,
    /// How often a month.
    pub a_month: f64,
}

/// What a change costs.
#[derive(Clone, Debug, PartialEq)]
pub struct CostOf {
    /// The thing, the wall or the opening. One that is not there any more is kept: it may be in another building of the bay.
    pub name: Id,
    /// In the owner's money.
    pub costs: f64,
}

impl OwnerFigures {
    /// How often an aiming of a car comes in a month, if it was said.
    pub fn a_month(&self, car: &Id, aiming: &Id) -> Option<f64> {
        self.comes_in.iter().find(|own| own.car == *car && own.aiming == *aiming).map(|own| own.a_month)
    }

    /// Says how often an aiming of a car comes in a month; `None`: it is not said.
    pub fn say_comes_in(&mut self, car: &Id, aiming: &Id, a_month: Option<f64>) {
        self.comes_in.retain(|own| own.car != *car || own.aiming != *aiming);
        let own = a_month.map(|a_month| ComesIn { car: car.clone(), aiming: aiming.clone(), a_month });
        self.comes_in.extend(own);
    }
}

/// What one of a list costs, if it was said.
pub fn cost_of(all: &[CostOf], name: &Id) -> Option<f64> {
    all.iter().find(|own| own.name == *name).map(|own| own.costs)
}

/// Says what one of a list costs; `None`: it is not said.
pub fn say_cost(all: &mut Vec<CostOf>, name: &Id, costs: Option<f64>) {
    all.retain(|own| own.name != *name);
    all.extend(costs.map(|costs| CostOf { name: name.clone(), costs }));
}
