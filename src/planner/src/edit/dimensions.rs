//! What is done to the dimensions that are kept with the bay, and how they follow what is done to everything else.

use std::borrow::Cow;

use baywright_geometry::DVec2;

use super::{EditFault, things};
use crate::model::{Bay, EndOn, Id, KeptDimension, Layout};

pub(super) fn keep(layout: &mut Layout, dimension: &KeptDimension) -> Result<(), EditFault> {
    is_free(layout, &dimension.id)?;
    layout.bay.dimensions.push(dimension.clone());
    Ok(())
}

pub(super) fn rename(layout: &mut Layout, id: &Id, name: &Id) -> Result<(), EditFault> {
    if id == name {
        return Ok(());
    }
    is_free(layout, name)?;
    let own = layout.bay.dimensions.iter_mut().find(|own| own.id == *id);
    own.ok_or_else(|| EditFault::NoSuch(id.clone()))?.id = name.clone();
    Ok(())
}

pub(super) fn remove(layout: &mut Layout, id: &Id) -> Result<(), EditFault> {
    let at = layout.bay.dimensions.iter().position(|own| own.id == *id);
    layout.bay.dimensions.remove(at.ok_or_else(|| EditFault::NoSuch(id.clone()))?);
    Ok(())
}

/// Dimensions have names of their own, as marks have.
fn is_free(layout: &Layout, name: &Id) -> Result<(), EditFault> {
    let is_taken = layout.bay.dimensions.iter().any(|own| own.id == *name);
    if is_taken { Err(EditFault::NameTaken(name.clone())) } else { Ok(()) }
}

/// What a thing is called now, for the ends on it; unless another building still has one of the old name.
pub(super) fn follow_thing(layout: &mut Layout, old: &Id, new: &Id) {
    if super::is_taken(layout, old) {
        return;
    }
    for cost in &mut layout.owner.without {
        if cost.name == *old {
            cost.name = new.clone();
        }
    }
    for on in ends_mut(layout) {
        if let EndOn::Thing { thing, .. } = on
            && thing == old
        {
            *thing = new.clone();
        }
    }
}

/// Walls and marks that have another name now: where there are as many as there were, each by its place.
pub(super) fn renamed(before: &Bay, after: &Bay) -> [Vec<(Id, Id)>; 2] {
    let pairs = |old: Vec<&Id>, new: Vec<&Id>| -> Vec<(Id, Id)> {
        let are_as_many = old.len() == new.len();
        let pairs = old.iter().zip(&new).filter(|(was, now)| are_as_many && was != now && !new.contains(was));
        pairs.map(|(was, now)| (Id::clone(was), Id::clone(now))).collect()
    };
    let walls = |bay: &'_ Bay| bay.walls.iter().map(|own| own.id.clone()).collect::<Vec<Id>>();
    let marks = |bay: &'_ Bay| bay.marks.iter().map(|own| own.id.clone()).collect::<Vec<Id>>();
    let both = |(old, new): (Vec<Id>, Vec<Id>)| pairs(old.iter().collect(), new.iter().collect());
    [both((walls(before), walls(after))), both((marks(before), marks(after)))]
}

/// What walls and marks of a bay that is replaced are called now. One that is another in the same position of a list that is as
/// long has another name.
pub(super) fn follow_bay(layout: &mut Layout, before: &Bay, after: &Bay) {
    let [walls, marks] = renamed(before, after);
    let follow = |id: &mut Id, list: &[(Id, Id)]| {
        if let Some((_, now)) = list.iter().find(|(was, _)| was == id) {
            *id = now.clone();
        }
    };
    for on in ends_mut(layout) {
        match on {
            EndOn::Corner(wall) | EndOn::Wall { wall, .. } | EndOn::SquareTo(wall) => follow(wall, &walls),
            EndOn::Mark(mark) => follow(mark, &marks),
            _ => {}
        }
    }
}

fn ends_mut(layout: &mut Layout) -> impl Iterator<Item = &mut EndOn> {
    layout.bay.dimensions.iter_mut().flat_map(|own| &mut own.ends).filter_map(|end| end.on.as_mut())
}

/// Where the ends of the dimensions lie in one arrangement, as far as bay and things say.
pub(super) type Places = Vec<(Id, [Option<DVec2>; 2])>;

/// Where they lie; nothing for an arrangement that is not there.
pub(super) fn places(layout: &Layout, at: usize) -> Places {
    let Some(saved) = layout.arrangements.get(at).filter(|_| !layout.bay.dimensions.is_empty()) else {
        return Places::new();
    };
    let bay: Cow<'_, Bay> = layout.bay_of(saved);
    let locate = |on: &EndOn, other: DVec2| match on {
        EndOn::Thing { thing, point } => {
            if saved.away.contains(thing) {
                return None;
            }
            let own = saved.added.iter().chain(&bay.things).find(|own| own.id == *thing)?;
            point.place(&own.footprint, &things::stands(layout, at, thing).ok()?.at)
        }
        on => on.on_room(&bay, other),
    };
    layout.bay.dimensions.iter().map(|own| (own.id.clone(), own.located(locate))).collect()
}

/// After an edit: an end remembers where it lies, or, if what it lay on is gone, where it lay just before.
pub(super) fn remember(layout: &mut Layout, at: usize, before: &Places) {
    let now = places(layout, at);
    for (own, (_, now)) in layout.bay.dimensions.iter_mut().zip(&now) {
        let was = before.iter().find(|(id, _)| *id == own.id).map_or([None, None], |(_, ends)| *ends);
        for ((end, now), was) in own.ends.iter_mut().zip(now).zip(was) {
            if end.on.is_some()
                && let Some(place) = now.or(was).filter(|place| place.is_finite())
            {
                end.at = place;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing::layout;
    use super::super::{Edit, EditFault};
    use crate::geometry::{DVec2, PlanPose};
    use crate::model::{DimensionEnd, EndOn, Id, KeptDimension, Place, ThingPoint};

    fn dimension(layout: &crate::model::Layout) -> KeptDimension {
        let thing = layout.bay.things[0].id.clone();
        let on_thing = EndOn::Thing { thing, point: ThingPoint::Corner(0) };
        let wall = layout.bay.walls[0].id.clone();
        KeptDimension {
            id: "one".into(),
            ends: [
                DimensionEnd { on: Some(on_thing), at: DVec2::ZERO },
                DimensionEnd { on: Some(EndOn::SquareTo(wall)), at: DVec2::ZERO },
            ],
        }
    }

    #[test]
    fn an_end_stays_where_the_thing_stood_that_is_gone() {
        let (layout, here) = layout();
        let own = dimension(&layout);
        let thing = layout.bay.things[0].clone();
        let kept = Edit::KeepDimension(own.clone()).apply(&layout, &here).unwrap();
        assert_eq!(kept.bay.dimensions[0].ends[0].on, own.ends[0].on);
        let again = Edit::KeepDimension(own).apply(&kept, &here);
        assert_eq!(again, Err(EditFault::NameTaken("one".into())));
        let by = DVec2::new(120.0, -40.0);
        let place = Place { at: thing.place.at.shifted(by), ..thing.place };
        let moved = Edit::Place { thing: thing.id.clone(), place }.apply(&kept, &here).unwrap();
        let corner = ThingPoint::Corner(0).place(&thing.footprint, &place.at).unwrap();
        assert_eq!(moved.bay.dimensions[0].ends[0].at, corner);
        let gone = Edit::Remove(thing.id.clone()).apply(&moved, &here).unwrap();
        assert_eq!(gone.bay.dimensions[0].ends[0].at, corner);
        // The other end is square to its wall from there.
        let (from, to) = layout.bay.wall_ends(0).unwrap();
        let foot = gone.bay.dimensions[0].ends[1].at;
        assert!((corner - foot).dot((to - from).normalize()).abs() < 1e-9);
        // All at once: where it was just before.
        let both = Edit::All(vec![
            Edit::Place { thing: thing.id.clone(), place: Place { at: PlanPose::IDENTITY, ..place } },
            Edit::Remove(thing.id.clone()),
        ]);
        assert_eq!(both.apply(&moved, &here).unwrap().bay.dimensions[0].ends[0].at, corner);
    }

    #[test]
    fn ends_follow_names() {
        let (layout, here) = layout();
        let kept = Edit::KeepDimension(dimension(&layout)).apply(&layout, &here).unwrap();
        let thing = kept.bay.things[0].id.clone();
        let renamed = Edit::Rename { thing, name: "other".into() }.apply(&kept, &here).unwrap();
        let on = renamed.bay.dimensions[0].ends[0].on.clone();
        assert_eq!(on, Some(EndOn::Thing { thing: "other".into(), point: ThingPoint::Corner(0) }));
        let mut bay = renamed.bay.clone();
        bay.walls[0].id = "new wall".into();
        let bay = Edit::Bay { bay: Box::new(bay), renamed: None }.apply(&renamed, &here).unwrap();
        assert_eq!(bay.bay.dimensions[0].ends[1].on, Some(EndOn::SquareTo("new wall".into())));
        let name: Id = "two".into();
        let named = Edit::RenameDimension { dimension: "one".into(), name: name.clone() };
        let named = named.apply(&bay, &here).unwrap();
        assert_eq!(named.bay.dimensions[0].id, name);
        let none = Edit::RemoveDimension(name.clone()).apply(&named, &here).unwrap();
        assert!(none.bay.dimensions.is_empty());
        assert_eq!(Edit::RemoveDimension(name.clone()).apply(&none, &here), Err(EditFault::NoSuch(name)));
    }
}
