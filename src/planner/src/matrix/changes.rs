//! Changes of the building: one thing taken away, one wall further out, one door walled up or open onto free ground; what a set-up is after
//! one, and of what they are asked.

use baywright_geometry::PlanPose;

use super::{Line, Place, Stands, in_that_bay, parked_at};
use crate::model::{Arrangement, Bay, Id, Opening, OpeningKind, OwnerFigures, cost_of};
use crate::place::{Margin, stood};

/// A change of what is built or stands there.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Change {
    /// A thing is gone: a column, an inner wall, a cabinet.
    Without(Id),
    /// A wall of the room stands further out; what stands along it stays.
    Further(Id),
    /// A door, a gap or a window is gone: its wall goes on there as it is beside it.
    WalledUp(Id),
    /// A door or a gap stands open while it is aimed, and the ground beyond it is kept free ([`ground_mm`]).
    OpenOnto(Id),
}

impl Change {
    /// What the owner says that it costs; `None` if that was not said.
    pub fn cost(&self, owner: &OwnerFigures) -> Option<f64> {
        match self {
            Self::Without(thing) => cost_of(&owner.without, thing),
            Self::Further(wall) => cost_of(&owner.further, wall),
            Self::WalledUp(opening) => cost_of(&owner.walled_up, opening),
            Self::OpenOnto(door) => cost_of(&owner.open_onto, door),
        }
    }
}

/// What is asked of changes: of which list, and at which place.
#[derive(Clone, Copy, Debug)]
pub struct OfChanges<'a> {
    /// The list.
    pub lines: &'a [Line],
    /// Of each line how it fits there now, with as much to spare as cars are parked off; `None` where it does not
    /// ([`super::Planned::fitting`]).
    pub now: &'a [Option<Stands>],
    /// Where.
    pub place: &'a Place,
    /// How much further out walls would stand, and how much more ground before doors would be free, mm.
    pub further_mm: f64,
    /// How far off its place the shop parks a car.
    pub margin: &'a Margin,
}

impl OfChanges<'_> {
    /// The bay whose parts are changed: that of the first of the list.
    pub fn bay(&self) -> Option<&Bay> {
        self.lines.first().map(|own| &own.arrangement.bay)
    }
}

/// How much ground beyond a door is free once it stands open and more of it is kept free, mm. Of a door that is shut now, with ground
/// beyond that is known to be free, no more is asked than that it is opened.
pub fn ground_mm(door: &Opening, further_mm: f64) -> f64 {
    let is_enough = !door.is_open() && door.free_beyond_mm > 0.0;
    if is_enough { door.free_beyond_mm } else { door.free_beyond_mm + further_mm }
}

/// A set-up after a change, its walls so much further out and so much more ground before its doors, mm; `None` where that makes no room, or
/// there is nothing of that name.
pub fn changed(own: &Arrangement, change: &Change, further_mm: f64) -> Option<Arrangement> {
    let mut after = own.clone();
    match change {
        Change::Without(id) => {
            let before = after.bay.things.len();
            after.bay.things.retain(|thing| thing.id != *id);
            (after.bay.things.len() < before).then_some(after)
        }
        Change::Further(id) => {
            let wall = after.bay.walls.iter().position(|own| own.id == *id)?;
            after.bay.push_wall(wall, -further_mm).ok()?;
            Some(after)
        }
        Change::WalledUp(id) => {
            let before = after.bay.openings.len();
            after.bay.openings.retain(|opening| opening.id != *id);
            after.kept_shut.retain(|door| door != id);
            (after.bay.openings.len() < before).then_some(after)
        }
        Change::OpenOnto(id) => {
            let mut doors = after.bay.openings.iter_mut().filter(|own| own.kind != OpeningKind::Window);
            let door = doors.find(|own| own.id == *id)?;
            (door.free_beyond_mm, door.shut) = (ground_mm(door, further_mm), false);
            after.kept_shut.retain(|door| door != id);
            Some(after)
        }
    }
}

/// A set-up with its car where it was found to fit at a place, as it was judged there.
pub(super) fn standing(own: &Arrangement, place: &Place, pose: PlanPose) -> Arrangement {
    match place {
        Place::Parked { .. } => parked_at(own, place).unwrap_or_else(|| own.clone()),
        Place::Bay(id) => stood(&in_that_bay(own, id).0, pose),
        Place::Room => stood(own, pose),
    }
}
