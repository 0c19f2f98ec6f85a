//! What was done, as a value: the history keeps it, and the words say it in the language then chosen.

use std::borrow::Cow;

use super::{BayDeed, Edit};
use crate::assessment::Step;
use crate::model::{Id, Layout};

/// What a person did to a layout.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// Moved or turned a thing, or told how well its place is known.
    Move(Id),
    /// Changed a thing's size or heights.
    Size(Id),
    /// Changed what is known of a thing.
    Describe(Id),
    /// Gave a thing another name; the old one.
    Rename(Id),
    /// Put a thing there.
    Add(Id),
    /// Took a thing away.
    Remove(Id),
    /// Took a part of the building away, in every arrangement made in it.
    RemoveBuilt(Id),
    /// Made a thing a part of the building, in every arrangement made in it.
    Build(Id),
    /// Made what is of a thing in one arrangement so in all.
    InEvery(Id),
    /// Left a thing to one arrangement.
    HereAlone(Id),
    /// Parked the car elsewhere.
    Park,
    /// Said how well it is known where the car stands.
    ParkedKnown,
    /// Moved a target.
    Stand,
    /// Shut a door.
    Shut(Id),
    /// Opened a door.
    Open(Id),
    /// Keeps a door shut while this is aimed.
    KeepShut(Id),
    /// Lets a door be opened meanwhile.
    LetOpen(Id),
    /// Chose another car.
    Car(Id),
    /// Chose another aiming of the same car.
    Aiming(Id),
    /// Took the figures of a car as they are now.
    Remember(Id),
    /// Changed the bay.
    Bay(BayDeed),
    /// Moved a corner of the room.
    Corner,
    /// Gave the arrangement a building of its own.
    PlanBuilding,
    /// Gave that up.
    GiveUpBuilding,
    /// Made it the bay's.
    AdoptBuilding,
    /// Made another arrangement like this one.
    Duplicate(Id),
    /// Gave the arrangement another name.
    NameArrangement(Id),
    /// Took the arrangement away.
    RemoveArrangement,
    /// Chose the aimings of a visit.
    Visit,
    /// Entered what was measured on this car.
    OnThisCar,
    /// Entered what a tape read between two marks.
    Tape(Id, Id),
    /// Took all readings between marks away.
    LayAnew,
    /// Laid the marks once more.
    LayAgain,
    /// Entered what was read of the stand of this placement.
    ReadStand(Id),
    /// Changed the picture under the plan.
    Underlay,
    /// Changed what the owner says of the bay.
    Owner,
    /// Kept a dimension.
    KeepDimension(Id),
    /// Gave a dimension another name; the old one.
    RenameDimension(Id),
    /// Took a dimension away.
    RemoveDimension(Id),
    /// Put the car on runways, or on the floor.
    Carried,
    /// Chose the bay of the hall that it is made in, or those that are kept empty.
    InBay,
    /// Chose what is done at the same time.
    AtOnce,
    /// Moved or turned so many together.
    MoveSeveral(usize),
    /// Put so many things there.
    AddSeveral(usize),
    /// Took so many things away.
    RemoveSeveral(usize),
    /// Did what a cure says.
    Cure(Step),
    /// Did what several cures say.
    Cures(Vec<Step>),
}

impl Edit {
    /// What is done by this edit of the named arrangement to a layout as it is before.
    pub fn deed(&self, before: &Layout, arrangement: &Id) -> Deed {
        match self {
            Self::Place { thing, .. } => Deed::Move(thing.clone()),
            Self::Reshape { thing, .. } | Self::Heights { thing, .. } => Deed::Size(thing.clone()),
            Self::Describe { thing, .. } => match self.of_building(before, arrangement).built.as_slice() {
                [] => Deed::Describe(thing.clone()),
                _ => Deed::Build(thing.clone()),
            },
            Self::Rename { thing, .. } => Deed::Rename(thing.clone()),
            Self::Add(thing) => Deed::Add(thing.id.clone()),
            Self::Remove(thing) => match self.of_building(before, arrangement).removed.as_slice() {
                [] => Deed::Remove(thing.clone()),
                _ => Deed::RemoveBuilt(thing.clone()),
            },
            Self::InEvery(thing) => Deed::InEvery(thing.clone()),
            Self::HereAlone(thing) => Deed::HereAlone(thing.clone()),
            Self::Park(_) => Deed::Park,
            Self::ParkedKnown(_) => Deed::ParkedKnown,
            Self::Stand { .. } => Deed::Stand,
            Self::Door { door, shut: true } => Deed::Shut(door.clone()),
            Self::Door { door, shut: false } => Deed::Open(door.clone()),
            Self::KeepShut { door, kept: true } => Deed::KeepShut(door.clone()),
            Self::KeepShut { door, kept: false } => Deed::LetOpen(door.clone()),
            Self::AtOnce(_) => Deed::AtOnce,
            Self::Car { vehicle, aiming, .. } => {
                let own = before.arrangements.iter().find(|own| own.id == *arrangement);
                match own.filter(|own| own.vehicle == *vehicle) {
                    Some(_) => Deed::Aiming(aiming.clone()),
                    None => Deed::Car(vehicle.clone()),
                }
            }
            Self::Remember(_) => {
                let own = before.arrangements.iter().find(|own| own.id == *arrangement);
                Deed::Remember(own.map_or_else(|| arrangement.clone(), |own| own.vehicle.clone()))
            }
            Self::Bay { bay, .. } => {
                let own = before.arrangements.iter().find(|own| own.id == *arrangement);
                let was = own.map_or(Cow::Borrowed(&before.bay), |own| before.bay_of(own));
                Deed::Bay(BayDeed::between(&was, bay))
            }
            Self::Corner { .. } => Deed::Corner,
            Self::Carried(_) => Deed::Carried,
            Self::InBay { .. } => Deed::InBay,
            Self::OnThisCar(_) => Deed::OnThisCar,
            Self::Tape { from, to, .. } => Deed::Tape(from.clone(), to.clone()),
            Self::LayAnew => Deed::LayAnew,
            Self::LayAgain => Deed::LayAgain,
            Self::ReadStand(read) => Deed::ReadStand(read.placement.clone()),
            Self::Underlay(_) => Deed::Underlay,
            Self::Owner(_) => Deed::Owner,
            Self::PlanBuilding => Deed::PlanBuilding,
            Self::GiveUpBuilding => Deed::GiveUpBuilding,
            Self::AdoptBuilding => Deed::AdoptBuilding,
            Self::Duplicate(name) | Self::Apart { name, .. } => Deed::Duplicate(name.clone()),
            Self::NameArrangement(name) => Deed::NameArrangement(name.clone()),
            Self::RemoveArrangement => Deed::RemoveArrangement,
            Self::Visit(_) => Deed::Visit,
            Self::KeepDimension(own) => Deed::KeepDimension(own.id.clone()),
            Self::RenameDimension { dimension, .. } => Deed::RenameDimension(dimension.clone()),
            Self::RemoveDimension(id) => Deed::RemoveDimension(id.clone()),
            Self::Do(step) => Deed::Cure(step.clone()),
            Self::All(edits) => of_several(edits, before, arrangement),
        }
    }
}

/// Cures are told together; of other edits the last one names them all.
fn of_several(edits: &[Edit], before: &Layout, arrangement: &Id) -> Deed {
    let steps =
        edits.iter().filter_map(|edit| if let Edit::Do(step) = edit { Some(step.clone()) } else { None });
    let steps: Vec<Step> = steps.collect();
    let all = |is_of: fn(&Edit) -> bool| edits.len() > 1 && edits.iter().all(is_of);
    if all(|own| matches!(own, Edit::Place { .. } | Edit::Park(_) | Edit::Stand { .. })) {
        return Deed::MoveSeveral(edits.len());
    }
    if all(|own| matches!(own, Edit::Add(_))) {
        return Deed::AddSeveral(edits.len());
    }
    if all(|own| matches!(own, Edit::Remove(_))) {
        return Deed::RemoveSeveral(edits.len());
    }
    match edits.last() {
        Some(last) if steps.is_empty() => last.deed(before, arrangement),
        _ => Deed::Cures(steps),
    }
}
