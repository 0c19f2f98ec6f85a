//! What an edit of one arrangement does to parts of the building in the others that are made in it: to be said, for nobody sees it.

use super::Edit;
use super::things::{is_built, seen};
use crate::model::{Id, Layout, Thing, ThingKind};

/// What is done to parts of the building in other arrangements too.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OfBuilding {
    /// What is removed from all of them.
    pub removed: Vec<Id>,
    /// What becomes a part of the building, each with the other arrangements that had it elsewhere, otherwise or away.
    pub built: Vec<(Id, Vec<Id>)>,
}

impl Edit {
    /// What this edit of the named arrangement does to parts of the building of a layout, as it is before, in other arrangements;
    /// nothing where none is made in the same building.
    pub fn of_building(&self, before: &Layout, arrangement: &Id) -> OfBuilding {
        let mut told = OfBuilding::default();
        let at = before.arrangements.iter().position(|own| own.id == *arrangement);
        if let Some(at) = at.filter(|at| !others(before, *at).is_empty()) {
            self.tell(before, at, &mut told);
        }
        told
    }

    fn tell(&self, before: &Layout, at: usize, told: &mut OfBuilding) {
        match self {
            Self::All(edits) => edits.iter().for_each(|edit| edit.tell(before, at, told)),
            Self::Remove(id) => {
                let is_own =
                    before.arrangements.get(at).is_some_and(|own| own.added.iter().any(|own| own.id == *id));
                told.removed
                    .extend(seen(before, at, id).filter(|own| is_built(own) && !is_own).map(|own| own.id));
            }
            Self::Describe { thing, kind, effort, .. } => {
                let Some(own) = seen(before, at, thing) else { return };
                let after = Thing { kind: *kind, effort: *effort, ..own.clone() };
                if is_built(&own) || !is_built(&after) {
                    return;
                }
                let swings = after.kind == ThingKind::LiftArm;
                let had_otherwise = |other: &usize| {
                    let Some(saved) = before.arrangements.get(*other) else { return false };
                    match seen(before, *other, thing) {
                        None => saved.away.contains(thing),
                        Some(there) if swings => Thing { place: own.place, ..there } != own,
                        Some(there) => there != own,
                    }
                };
                let otherwise = others(before, at).into_iter().filter(had_otherwise);
                let otherwise =
                    otherwise.filter_map(|at| before.arrangements.get(at)).map(|own| own.id.clone());
                told.built.push((thing.clone(), otherwise.collect()));
            }
            _ => {}
        }
    }
}

/// The positions of the other arrangements that are made in the same building.
fn others(layout: &Layout, at: usize) -> Vec<usize> {
    let is_in_bay = |at: usize| layout.arrangements.get(at).is_some_and(|own| own.building.is_none());
    if !is_in_bay(at) {
        return Vec::new();
    }
    (0..layout.arrangements.len()).filter(|other| *other != at && is_in_bay(*other)).collect()
}
