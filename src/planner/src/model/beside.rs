//! Set-ups that are done at the same time in one hall: which they are, and what of one stands in another.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::{Arrangement, Id, Layout, SavedArrangement, Thing};

/// What a thing that stands in an arrangement is of another set-up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BesidePart {
    /// A part of its car.
    Car,
    /// A part of the target of this placement, or of its stand.
    Stand(Id),
    /// A thing that stands there in that set-up and not in this one.
    Thing(Id),
}

/// What is known of a set-up that is done at the same time.
#[derive(Clone, Debug, PartialEq)]
pub enum Other {
    /// The set-up alone, without what is done beside it.
    Known(Arc<Arrangement>),
    /// Only what stands of it counts: it is the one that asks.
    Asks,
    /// It cannot be made: its car is not at hand, or does not go with it.
    Unknown,
}

/// A set-up that is done at the same time as an arrangement, in another bay of the hall.
#[derive(Clone, Debug, PartialEq)]
pub struct DoneBeside {
    /// The set-up's name.
    pub set_up: Id,
    /// The bay of the hall that it is made in.
    pub in_bay: Option<Id>,
    /// What of it stands among the things of the arrangement's bay, by the names that these have there.
    pub parts: Vec<(Id, BesidePart)>,
    /// The things that are not in the bay by themselves but only in the set-up that asks: they stand in the other one too.
    pub only_here: Vec<Id>,
    /// Things and doors that are there in one of the two only, elsewhere, or open in one and shut in the other: it cannot be both.
    pub differs: Vec<Id>,
    /// The set-up itself.
    pub other: Other,
}

impl Arrangement {
    /// Whose a thing of the bay is that stands there for a set-up that is done at the same time; `None` of the bay's own.
    pub fn part_beside(&self, thing: &Id) -> Option<(&DoneBeside, &BesidePart)> {
        self.beside.iter().find_map(|own| {
            let part = own.parts.iter().find(|(id, _)| id == thing);
            part.map(|(_, part)| (own, part))
        })
    }

    /// Whether a thing bears a name on a drawing: of the parts of one car, or of one stand, of another set-up only the first does.
    pub fn is_named(&self, thing: &Id) -> bool {
        self.part_beside(thing).is_none_or(|(beside, part)| {
            beside.parts.iter().find(|(_, own)| own == part).is_some_and(|(first, _)| first == thing)
        })
    }

    /// Whether two things are one, or parts of one car or of one stand of another set-up.
    pub fn is_one(&self, one: &Id, other: &Id) -> bool {
        one == other
            || self.part_beside(one).zip(self.part_beside(other)).is_some_and(
                |((one, part), (other, other_part))| one.set_up == other.set_up && part == other_part,
            )
    }

    /// How high the lowest part of the car or stand of another set-up lies that a thing is a part of, mm above the floor; `None` of the
    /// bay's own.
    pub fn lowest_part_mm(&self, thing: &Id) -> Option<f64> {
        self.part_beside(thing)?;
        let parts = self.bay.things.iter().filter(|own| self.is_one(&own.id, thing));
        parts.map(|own| own.span.bottom()).min_by(f64::total_cmp)
    }

    /// The things that are the bay's own, and none of another set-up's.
    pub fn own_things(&self) -> impl Iterator<Item = &Thing> {
        self.bay.things.iter().filter(|own| self.part_beside(&own.id).is_none())
    }

    /// The same arrangement without what is done beside it.
    #[must_use]
    pub fn alone(mut self) -> Self {
        let others = std::mem::take(&mut self.beside);
        let is_others = |id: &Id| others.iter().any(|own| own.parts.iter().any(|(part, _)| part == id));
        self.bay.things.retain(|own| !is_others(&own.id));
        self
    }

    /// Has beside it what another arrangement of the same bay has.
    #[must_use]
    pub(crate) fn beside_as(mut self, other: &Self) -> Self {
        let parts = other.bay.things.iter().filter(|own| other.part_beside(&own.id).is_some());
        self.bay.things.extend(parts.cloned());
        self.beside.clone_from(&other.beside);
        self
    }
}

impl Layout {
    /// The set-ups that are done at the same time as one, in the layout's order: those that it names, and those that name it.
    pub fn at_once<'a>(&'a self, saved: &'a SavedArrangement) -> impl Iterator<Item = &'a SavedArrangement> {
        let others = self.arrangements.iter().filter(|other| other.id != saved.id);
        others.filter(|other| saved.at_once.contains(&other.id) || other.at_once.contains(&saved.id))
    }

    /// The names of all set-ups that are done at the same time as others: of most layouts none.
    pub fn named_at_once(&self) -> BTreeSet<&Id> {
        let some = self.arrangements.iter().filter(|own| !own.at_once.is_empty());
        some.flat_map(|own| std::iter::once(&own.id).chain(&own.at_once)).collect()
    }

    /// The set-ups that may be done at the same time as one, in the layout's order: in the same building, each in another bay of the
    /// hall, or in none.
    pub fn may_be_at_once<'a>(
        &'a self,
        saved: &'a SavedArrangement,
    ) -> impl Iterator<Item = &'a SavedArrangement> {
        let others = self.arrangements.iter().filter(|other| other.id != saved.id);
        others.filter(|other| {
            other.building == saved.building && (saved.in_bay.is_none() || other.in_bay != saved.in_bay)
        })
    }
}
