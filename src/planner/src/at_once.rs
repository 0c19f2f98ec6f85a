//! What is done at the same time in another bay of the hall: what of it stands in a set-up, as things that are neither moved nor
//! listed as the bay's own.
//!
//! Nothing else knows that they are another's but by [`Arrangement::part_beside`]: all checks see solids. One step only: what is done
//! beside the other is not looked at.

use std::sync::Arc;

use baywright_geometry::{Outline, PlanPose, Prism};

use crate::model::{
    Arrangement, Bay, BesidePart, DoneBeside, Effort, Footprint, Id, Known, Layout, Material, Other, Place,
    SavedArrangement, Shape, Thing, ThingKind,
};
use crate::scene::Scene;

/// An arrangement with what is done at the same time as it beside it. `made` makes another set-up of the layout alone; one that it cannot
/// make is told as that.
#[must_use]
pub fn beside(
    layout: &Layout,
    saved: &SavedArrangement,
    arrangement: Arrangement,
    made: impl Fn(&SavedArrangement) -> Option<Arrangement>,
) -> Arrangement {
    let others: Vec<&SavedArrangement> = layout.at_once(saved).collect();
    // What differs is asked of it as it is alone.
    let alone = if others.is_empty() { None } else { Some(arrangement.clone()) };
    others.into_iter().fold(arrangement, |mut own, other| {
        let (set_up, in_bay) = (other.id.clone(), other.in_bay.clone());
        let Some((made, alone)) = made(other).zip(alone.as_ref()) else {
            own.beside.push(DoneBeside {
                set_up,
                in_bay,
                parts: Vec::new(),
                only_here: Vec::new(),
                differs: Vec::new(),
                other: Other::Unknown,
            });
            return own;
        };
        let only = [only_in(saved, &made.bay), only_in(other, &alone.bay)];
        let differs = differs(saved, &alone.bay, other, &made.bay);
        pair(own, made, only, differs)
    })
}

/// An arrangement with another one, made alone, beside it: the things that only the one has and only the other, and the things and
/// doors that are not the same in both.
#[must_use]
pub fn pair(
    mut own: Arrangement,
    other: Arrangement,
    [only_here, only_there]: [Vec<Id>; 2],
    differs: Vec<Id>,
) -> Arrangement {
    let parts = stand(&mut own, &other, &only_there);
    own.beside.push(DoneBeside {
        set_up: other.id.clone(),
        in_bay: other.in_bay.clone(),
        parts,
        only_here,
        differs,
        other: Other::Known(Arc::new(other)),
    });
    own
}

/// A set-up with what stands of the one that asks about it in it, as that has it now.
pub(crate) fn with_who_asks(other: &Arrangement, asks: &Arrangement, only_there: &[Id]) -> Arrangement {
    let mut own = other.clone();
    let parts = stand(&mut own, asks, only_there);
    own.beside.push(DoneBeside {
        set_up: asks.id.clone(),
        in_bay: asks.in_bay.clone(),
        parts,
        only_here: Vec::new(),
        differs: Vec::new(),
        other: Other::Asks,
    });
    own
}

/// The things that a set-up has besides the bay's, and another does not have.
fn only_in(saved: &SavedArrangement, other: &Bay) -> Vec<Id> {
    let added = saved.added.iter().map(|own| &own.id);
    added.filter(|id| !other.things.iter().any(|own| own.id == **id)).cloned().collect()
}

/// What of the bay cannot be as both set-ups have it.
fn differs(one: &SavedArrangement, bay: &Bay, other: &SavedArrangement, there: &Bay) -> Vec<Id> {
    let at = |bay: &Bay, id: &Id| {
        let own = bay.things.iter().find(|own| own.id == *id);
        own.map(|own| (own.place.at, own.footprint.clone(), own.span))
    };
    let is_added = |id: &Id| one.added.iter().chain(&other.added).any(|own| own.id == *id);
    let mut all: Vec<Id> = Vec::new();
    for id in bay.things.iter().chain(&there.things).map(|own| &own.id) {
        let (here, there) = (at(bay, id), at(there, id));
        // What was added to one alone stands in the other.
        let is_alone = is_added(id) && (here.is_none() || there.is_none());
        if here != there && !is_alone && !all.contains(id) {
            all.push(id.clone());
        }
    }
    let doors = bay.openings.iter().filter(|own| {
        there.openings.iter().any(|other| other.id == own.id && other.is_open() != own.is_open())
    });
    all.extend(doors.map(|own| own.id.clone()));
    all
}

/// What of a set-up stands in others, bay frame: its car, its targets on their stands.
pub(crate) fn solids(arrangement: &Arrangement) -> Vec<(BesidePart, Thing)> {
    let scene = Scene::of(arrangement);
    let car = scene.car.iter().filter_map(|solid| {
        let body = (ThingKind::ParkedCar, Material::CarBody);
        Some((BesidePart::Car, thing(arrangement, solid, body)?))
    });
    // What a stand is made of is not told: of metal it stops whatever anything stops.
    let stands = scene.targets.iter().flat_map(|target| {
        let of = BesidePart::Stand(target.id.clone());
        target.solids.iter().filter_map(move |solid| {
            Some((of.clone(), thing(arrangement, solid, (ThingKind::Other, Material::Steel))?))
        })
    });
    car.chain(stands).collect()
}

/// Puts what of a set-up stands in another among its things; the names that these have there.
fn stand(own: &mut Arrangement, other: &Arrangement, added: &[Id]) -> Vec<(Id, BesidePart)> {
    let mut parts = solids(other);
    let theirs = other.own_things().filter(|theirs| added.contains(&theirs.id));
    parts.extend(theirs.map(|theirs| (BesidePart::Thing(theirs.id.clone()), theirs.clone())));
    let mut named = Vec::new();
    for (part, mut thing) in parts {
        thing.id = free_name(own, &other.id, named.len());
        (thing.effort, thing.locked) = (Effort::Fixed, true);
        named.push((thing.id.clone(), part));
        own.bay.things.push(thing);
    }
    named
}

/// A name that nothing in the bay has; what is read is made of whose part it is.
fn free_name(own: &Arrangement, set_up: &Id, number: usize) -> Id {
    let mut name = format!("{set_up} + {}", number + 1);
    while own.bay.names().any(|id| id.as_str() == name) {
        name.push('+');
    }
    Id::from(name.as_str())
}

/// A solid of a set-up as a thing; `None` if it makes no shape.
fn thing(arrangement: &Arrangement, solid: &Prism, made: (ThingKind, Material)) -> Option<Thing> {
    let at = solid.outline.bounds().centre();
    let from_axle = arrangement.parked.origin();
    let (shape, farthest) = match &solid.outline {
        Outline::Circle(own) => {
            let far = own.centre().distance(from_axle) + own.radius();
            (Shape::Round { diameter_mm: own.radius() * 2.0 }, far)
        }
        Outline::Polygon(own) => {
            let far = own.outer().iter().map(|p| p.distance(from_axle)).fold(0.0, f64::max);
            // A hole in what stands there helps nobody.
            (Shape::Outline(own.outer().iter().map(|p| *p - at).collect()), far)
        }
    };
    let (kind, material) = made;
    Some(Thing {
        id: Id::from(""),
        kind,
        footprint: Footprint::new(shape).ok()?,
        place: Place { at: PlanPose::new(at, 0.0), known: Known::Within(arrangement.sway_mm(farthest)) },
        span: solid.span,
        material,
        metal: None,
        effort: Effort::Fixed,
        locked: true,
    })
}
