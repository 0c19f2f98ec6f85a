//! What is in hand: where it stands, how far it is from what, what it is drawn onto, how it is sized.
//!
//! Pure sums for whoever moves things on a screen: bay frame, millimetres, radians. What is in hand is named by a
//! [`Subject`]: the car, a thing, or a target with its stand, which go together. Nothing here judges, nothing can fail,
//! and a figure that is not a number changes nothing.

mod gaps;
mod kept;
mod measure;
mod several;
mod size;
mod snap;
mod spot;
mod square;
mod straight;
mod walls;

use baywright_geometry::{Bounds, Outline, PlanPose, Prism};

use crate::assessment::Subject;
use crate::model::{Arrangement, Id, StandSet};
use crate::scene::{self, Scene};

pub use gaps::gaps;
pub use kept::{KeptEnd, kept, kept_ends, lies_on};
pub use measure::{Measured, measured, measuring_end, measuring_point};
pub use several::{Order, ordered, turned_together};
pub use size::{least_size, resized, too_small};
pub use snap::{Snap, SnapKind, Snapped, snapped};
pub use spot::{free_floor, free_spot, free_spot_beside};
pub use square::squared;
pub use straight::Gap;
pub use walls::{WallGap, gap_to_wall, gives_a_place, wall_gaps};

/// Where what is in hand stands: bay from its own frame, which for the car is the vehicle frame, for a target and its
/// stand the target frame as set. `None` for what cannot be moved, or is not there.
///
/// A thing that is locked has a place too: whether it may be moved is for the hand to ask.
pub fn pose_of(arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Option<PlanPose> {
    match subject {
        Subject::Car => Some(scene.bay_from_vehicle),
        Subject::Thing(id) => arrangement.bay.things.iter().find(|own| own.id == *id).map(|own| own.place.at),
        Subject::Stand(id) | Subject::Target(id) => {
            scene.targets.iter().find(|own| own.id == *id).map(|own| own.set.place)
        }
        _ => None,
    }
}

/// Its outlines from above, in its own frame: of the car's solids, of target, feet and mast, of the thing. None for what
/// cannot be moved.
pub fn own_outlines(arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Vec<Outline> {
    own_solids(arrangement, scene, subject).into_iter().map(|solid| solid.outline).collect()
}

/// The solids that it fills, in its own frame; heights above the floor.
fn own_solids(arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Vec<Prism> {
    match subject {
        Subject::Car => {
            let body = arrangement.vehicle.solids().iter();
            body.map(|solid| Prism::new(solid.outline.clone(), solid.span.raised(scene.carried_at_mm)))
                .collect()
        }
        Subject::Thing(id) => {
            let thing = arrangement.bay.things.iter().find(|own| own.id == *id);
            thing.map(|own| Prism::new(own.footprint.outline().clone(), own.span)).into_iter().collect()
        }
        Subject::Stand(id) | Subject::Target(id) => {
            let mut placements = arrangement.aiming.placements.iter().zip(&scene.targets);
            let own = placements.find(|(_, target)| target.id == *id);
            own.map_or_else(Vec::new, |(placement, target)| scene::target_solids(placement, target))
        }
        _ => Vec::new(),
    }
}

/// The solids that it fills where it stands, bay frame; none for what cannot be moved.
fn solids<'a>(arrangement: &Arrangement, scene: &'a Scene, subject: &Subject) -> &'a [Prism] {
    match subject {
        Subject::Car => &scene.car,
        Subject::Thing(id) if arrangement.part_beside(id).is_none() => arrangement
            .bay
            .things
            .iter()
            .position(|own| own.id == *id)
            .and_then(|index| scene.things.get(index))
            .map_or(&[], |placed| std::slice::from_ref(&placed.prism)),
        Subject::Stand(id) | Subject::Target(id) => {
            scene.targets.iter().find(|own| own.id == *id).map_or(&[], |own| own.solids.as_slice())
        }
        _ => &[],
    }
}

/// Something that is not in hand, where it stands.
#[derive(Clone, Copy)]
struct Other<'a> {
    what: What<'a>,
    /// The box around it in plan.
    bounds: Bounds,
    solids: &'a [Prism],
}

/// Which; as a subject only once that is wanted.
#[derive(Clone, Copy)]
enum What<'a> {
    Car,
    Thing(&'a Id),
    Stand(&'a Id),
    /// A target without a stand.
    Target(&'a Id),
    Wall(&'a Id),
}

impl What<'_> {
    fn subject(&self) -> Subject {
        match *self {
            Self::Car => Subject::Car,
            Self::Thing(id) => Subject::Thing(id.clone()),
            Self::Stand(id) => Subject::Stand(id.clone()),
            Self::Target(id) => Subject::Target(id.clone()),
            Self::Wall(id) => Subject::Wall(id.clone()),
        }
    }
}

/// Everything that is not in hand and does not go along with it: things in the bay's order, the car, targets with their
/// stands. With the car go the targets that stand on their marks.
fn others<'a>(
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    subject: &Subject,
) -> impl Iterator<Item = Other<'a>> {
    let (car, thing, target) = match subject {
        Subject::Car => (true, None, None),
        Subject::Thing(id) => (false, Some(id.clone()), None),
        Subject::Stand(id) | Subject::Target(id) => (false, None, Some(id.clone())),
        _ => (false, None, None),
    };
    let in_hand = thing.and_then(|id| arrangement.bay.things.iter().position(|own| own.id == id));
    let things = arrangement.bay.things.iter().zip(&scene.things).enumerate();
    let things = things.filter(move |(index, _)| Some(*index) != in_hand).map(|(_, (own, placed))| Other {
        what: What::Thing(&own.id),
        bounds: placed.bounds,
        solids: std::slice::from_ref(&placed.prism),
    });
    let parked = (!car).then_some(Other { what: What::Car, bounds: scene.car_bounds, solids: &scene.car });
    let parked = parked.filter(|own| !own.solids.is_empty());
    let placed = arrangement.aiming.placements.iter().zip(&arrangement.stands).zip(&scene.targets);
    let targets = placed.filter_map(move |((placement, set), own)| {
        let goes_along = (car && *set == StandSet::OnMark) || target.as_ref() == Some(&own.id);
        let bounds = around(&own.solids).filter(|_| !goes_along)?;
        let has_stand = placement.target.stand.is_some();
        let what = if has_stand { What::Stand(&own.id) } else { What::Target(&own.id) };
        Some(Other { what, bounds, solids: &own.solids })
    });
    things.chain(parked).chain(targets)
}

/// The box around some solids in plan; `None` if there are none.
fn around(solids: &[Prism]) -> Option<Bounds> {
    solids.iter().map(|solid| solid.outline.bounds()).reduce(Bounds::union)
}
