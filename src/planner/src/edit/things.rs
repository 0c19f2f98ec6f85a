//! What is done to the things of a bay, in one arrangement or in all.

use super::{EditFault, is_taken, saved};
use crate::model::{
    Effort, Footprint, Id, Known, Layout, Moved, Place, SavedArrangement, Shape, Thing, ThingKind,
};

/// Whether a thing is a part of the building, and so there in every arrangement of it: what is fixed, and what belongs to what
/// is.
pub fn is_built(thing: &Thing) -> bool {
    thing.effort == Effort::Fixed
        || matches!(thing.kind, ThingKind::Column | ThingKind::LiftPost | ThingKind::LiftArm)
}

/// Whether there is one arrangement only: then nothing is to be kept apart from the bay.
const fn is_alone(layout: &Layout) -> bool {
    layout.arrangements.len() == 1
}

/// Where a thing stands in this arrangement.
pub(super) fn stands(layout: &Layout, at: usize, id: &Id) -> Result<Place, EditFault> {
    let here = layout.arrangements.get(at);
    let added = here.and_then(|own| own.added.iter().find(|thing| thing.id == *id)).map(|thing| thing.place);
    let moved =
        || here.and_then(|own| own.moved.iter().find(|moved| moved.thing == *id)).map(|own| own.place);
    let at_home = || layout.things_of(at).iter().find(|thing| thing.id == *id).map(|thing| thing.place);
    added.or_else(moved).or_else(at_home).ok_or_else(|| EditFault::NoSuch(id.clone()))
}

/// A thing of the bay is moved in this arrangement only; what is built is moved in all that are made in this bay, as a wall is,
/// unless it stands elsewhere here already. Where there is one arrangement only its place is the bay's. A thing that is only here
/// has no other place.
pub(super) fn place(layout: &mut Layout, at: usize, id: &Id, place: Place) -> Result<(), EditFault> {
    let at_home = layout.things_of(at).iter().find(|t| t.id == *id);
    // An arm is swung for each arrangement by itself.
    let is_fixed = at_home.is_some_and(|own| is_built(own) && own.kind != ThingKind::LiftArm);
    let at_home = at_home.map(|own| own.place);
    let is_moved = layout.arrangements.get(at).is_some_and(|own| own.moved.iter().any(|m| m.thing == *id));
    let is_alone = is_alone(layout);
    if (is_alone || (is_fixed && !is_moved))
        && let Some(thing) = layout.things_of_mut(at).iter_mut().find(|own| own.id == *id)
    {
        thing.place = place;
        saved(layout, at)?.moved.retain(|own| own.thing != *id);
        return Ok(());
    }
    let own = saved(layout, at)?;
    if let Some(thing) = own.added.iter_mut().find(|t| t.id == *id) {
        thing.place = place;
        return Ok(());
    }
    let home = at_home.ok_or_else(|| EditFault::NoSuch(id.clone()))?;
    let before = own.moved.iter().position(|m| m.thing == *id);
    own.moved.retain(|m| m.thing != *id);
    if place != home {
        let moved = Moved { thing: id.clone(), place };
        own.moved.insert(before.unwrap_or(own.moved.len()).min(own.moved.len()), moved);
    }
    Ok(())
}

/// Of a thing that was moved here, only its place here is known better or worse.
pub(super) fn know(layout: &mut Layout, at: usize, id: &Id, known: Known) -> Result<(), EditFault> {
    if let Some(moved) = saved(layout, at)?.moved.iter_mut().find(|m| m.thing == *id) {
        moved.place.known = known;
        return Ok(());
    }
    change(layout, at, id, |own| own.place.known = known)
}

/// A thing of this arrangement, or of the bay that it is made in.
pub(super) fn change(
    layout: &mut Layout,
    at: usize,
    id: &Id,
    change: impl FnOnce(&mut Thing),
) -> Result<(), EditFault> {
    if let Some(added) = saved(layout, at)?.added.iter_mut().find(|thing| thing.id == *id) {
        change(added);
        return Ok(());
    }
    let thing = layout.things_of_mut(at).iter_mut().find(|thing| thing.id == *id);
    thing.map(change).ok_or_else(|| EditFault::NoSuch(id.clone()))
}

pub(super) fn reshape(layout: &mut Layout, at: usize, id: &Id, shape: &Shape) -> Result<(), EditFault> {
    let footprint = Footprint::new(shape.clone()).map_err(|_| EditFault::NoShape)?;
    change(layout, at, id, |own| own.footprint = footprint)
}

pub(super) fn add(layout: &mut Layout, at: usize, thing: &Thing) -> Result<(), EditFault> {
    if is_taken(layout, &thing.id) {
        return Err(EditFault::NameTaken(thing.id.clone()));
    }
    if is_built(thing) || is_alone(layout) {
        layout.things_of_mut(at).push(thing.clone());
    } else {
        saved(layout, at)?.added.push(thing.clone());
    }
    Ok(())
}

/// A thing that is in this arrangement only, or stands elsewhere in it, is so in all that are made in this bay.
pub(super) fn in_every(layout: &mut Layout, at: usize, id: &Id) -> Result<(), EditFault> {
    let here = saved(layout, at)?.added.iter().find(|thing| thing.id == *id).cloned();
    if let Some(thing) = here {
        // A copy of the arrangement has a copy of it: that is the same thing, which may stand elsewhere there.
        let is_copy = |own: &Thing| Thing { place: thing.place, ..own.clone() } == thing;
        let copies = |own: &SavedArrangement| own.added.iter().find(|own| own.id == *id).cloned();
        if layout.in_same_bay(at).filter_map(|own| copies(own)).any(|own| !is_copy(&own)) {
            return Err(EditFault::NameTaken(id.clone()));
        }
        for own in layout.in_same_bay(at) {
            let place = copies(own).map(|copy| copy.place);
            own.added.retain(|own| own.id != *id);
            let elsewhere = place.filter(|place| *place != thing.place);
            own.moved.extend(elsewhere.map(|place| Moved { thing: id.clone(), place }));
        }
        layout.things_of_mut(at).push(thing);
        return Ok(());
    }
    let own = saved(layout, at)?;
    let missing = || EditFault::NoSuch(id.clone());
    let moved = own.moved.iter().position(|own| own.thing == *id).ok_or_else(missing)?;
    let place = own.moved.remove(moved).place;
    let thing = layout.things_of_mut(at).iter_mut().find(|own| own.id == *id);
    thing.map(|own| own.place = place).ok_or_else(missing)
}

/// A thing of the bay is in this arrangement only from here on, as it stands in it.
pub(super) fn here_alone(layout: &mut Layout, at: usize, id: &Id) -> Result<(), EditFault> {
    let missing = || EditFault::NoSuch(id.clone());
    let place = stands(layout, at, id)?;
    if saved(layout, at)?.away.contains(id) {
        return Err(missing());
    }
    let things = layout.things_of_mut(at);
    let home = things.iter().position(|own| own.id == *id).ok_or_else(missing)?;
    let thing = Thing { place, ..things.remove(home) };
    forget(layout, at, id);
    saved(layout, at)?.added.push(thing);
    Ok(())
}

/// What the arrangements of this bay say of a thing that is no longer in it.
fn forget(layout: &mut Layout, at: usize, id: &Id) {
    for own in layout.in_same_bay(at) {
        own.moved.retain(|moved| moved.thing != *id);
        own.away.retain(|away| away != id);
    }
}

/// A thing leaves this arrangement; what is built leaves the bay, as a wall would. So does everything where there is one arrangement
/// only.
pub(super) fn remove(layout: &mut Layout, at: usize, id: &Id) -> Result<(), EditFault> {
    let is_here = |own: &&Thing| own.id == *id;
    let in_bay = layout.things_of(at).iter().find(is_here).map(is_built);
    let own = saved(layout, at)?;
    let before = own.added.len();
    own.added.retain(|t| t.id != *id);
    if own.added.len() < before {
        return Ok(());
    }
    let missing = || EditFault::NoSuch(id.clone());
    let is_built = in_bay.filter(|_| !own.away.contains(id)).ok_or_else(missing)?;
    own.moved.retain(|m| m.thing != *id);
    if is_built || is_alone(layout) {
        layout.things_of_mut(at).retain(|own| own.id != *id);
        forget(layout, at, id);
    } else {
        saved(layout, at)?.away.push(id.clone());
    }
    Ok(())
}

/// What is known of a thing is other. What is a part of the building by it, and was not before, is the bay's from here on: one
/// thing, in every arrangement that is made in the bay, where it stands in this one.
pub(super) fn describe(
    layout: &mut Layout,
    at: usize,
    id: &Id,
    known: Known,
    how: impl FnOnce(&mut Thing),
) -> Result<(), EditFault> {
    let was_built = seen(layout, at, id).is_some_and(|own| is_built(&own));
    know(layout, at, id, known)?;
    change(layout, at, id, how)?;
    match seen(layout, at, id) {
        Some(thing) if !was_built && is_built(&thing) => build_in(layout, at, thing),
        _ => Ok(()),
    }
}

/// A thing as it is in the arrangement at this position, standing where it stands there; `None` if it is not there.
pub(super) fn seen(layout: &Layout, at: usize, id: &Id) -> Option<Thing> {
    let own = layout.arrangements.get(at)?;
    if own.away.contains(id) {
        return None;
    }
    let thing = own.added.iter().chain(layout.things_of(at)).find(|thing| thing.id == *id)?;
    Some(Thing { place: stands(layout, at, id).ok()?, ..thing.clone() })
}

/// Puts what was made a part of the building into the bay. It cannot stand in two places: no arrangement has it elsewhere any more, or
/// away, or otherwise by its name. But an arm is swung for each arrangement by itself.
fn build_in(layout: &mut Layout, at: usize, thing: Thing) -> Result<(), EditFault> {
    let (id, swings) = (thing.id.clone(), thing.kind == ThingKind::LiftArm);
    if layout.arrangements.get(at).is_none() {
        return Err(EditFault::NoArrangement);
    }
    let home = thing.place;
    match layout.things_of_mut(at).iter_mut().find(|own| own.id == id) {
        Some(own) if !swings => own.place = home,
        Some(_) => {}
        None => layout.things_of_mut(at).push(thing),
    }
    for own in layout.in_same_bay(at) {
        let copy = own.added.iter().find(|own| own.id == id).map(|own| own.place);
        own.added.retain(|own| own.id != id);
        own.away.retain(|own| *own != id);
        if swings {
            let elsewhere = copy.filter(|place| *place != home);
            own.moved.extend(elsewhere.map(|place| Moved { thing: id.clone(), place }));
        } else {
            own.moved.retain(|own| own.thing != id);
        }
    }
    Ok(())
}

pub(super) fn rename(layout: &mut Layout, at: usize, id: &Id, name: &Id) -> Result<(), EditFault> {
    if id == name {
        return Ok(());
    }
    if is_taken(layout, name) {
        return Err(EditFault::NameTaken(name.clone()));
    }
    change(layout, at, id, |thing| thing.id = name.clone())?;
    for arrangement in layout.in_same_bay(at) {
        for moved in arrangement.moved.iter_mut().filter(|m| m.thing == *id) {
            moved.thing = name.clone();
        }
        for away in arrangement.away.iter_mut().filter(|a| **a == *id) {
            *away = name.clone();
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::super::testing::{layout, place_of};
    use super::super::{Edit, EditFault};
    use crate::geometry::{DVec2, PlanPose};
    use crate::model::{Effort, Known, Place, Shape, ThingKind};

    fn place(x: f64, y: f64, known: Known) -> Place {
        Place { at: PlanPose::new(DVec2::new(x, y), 0.5), known }
    }

    #[test]
    fn a_thing_moves_in_this_arrangement_only() {
        let (layout, here) = layout();
        let elsewhere = place(1_000.0, 1_500.0, Known::Taped);
        let after = Edit::Place { thing: "cabinet".into(), place: elsewhere }.apply(&layout, &here).unwrap();
        assert_eq!(place_of(&after, &here, "cabinet"), Some(elsewhere));
        assert_eq!(after.bay.things, layout.bay.things);
        // Back home nothing is left to save; where only the knowledge differs, that is.
        let home = place_of(&layout, &here, "cabinet").unwrap();
        let back = Edit::Place { thing: "cabinet".into(), place: home }.apply(&after, &here).unwrap();
        assert_eq!(back, layout);
        let by_eye = Place { known: Known::ByEye, ..home };
        let less = Edit::Place { thing: "cabinet".into(), place: by_eye }.apply(&layout, &here).unwrap();
        assert_eq!(place_of(&less, &here, "cabinet"), Some(by_eye));
    }

    /// What is entered of how well a place is known goes to the place where the thing stands here.
    #[test]
    fn a_moved_things_place_is_known_by_itself() {
        let (layout, here) = layout();
        let thing = layout.bay.things[0].clone();
        let describe = |known: Known| Edit::Describe {
            thing: thing.id.clone(),
            kind: thing.kind,
            material: thing.material,
            metal: thing.metal,
            known,
            effort: thing.effort,
            locked: true,
        };
        let at_home = describe(Known::Taped).apply(&layout, &here).unwrap();
        assert_eq!(at_home.bay.things[0].place.known, Known::Taped);
        let moved = place(1_000.0, 1_500.0, Known::ByEye);
        let moved = Edit::Place { thing: thing.id.clone(), place: moved }.apply(&at_home, &here).unwrap();
        let entered = describe(Known::Within(7.0)).apply(&moved, &here).unwrap();
        assert_eq!(entered.bay.things[0].place.known, Known::Taped);
        assert!(entered.bay.things[0].locked);
        assert_eq!(place_of(&entered, &here, "cabinet").unwrap().known, Known::Within(7.0));
    }

    #[test]
    fn what_is_not_there_is_refused() {
        let (layout, here) = layout();
        for edit in [
            Edit::Remove("nothing".into()),
            Edit::Place { thing: "nothing".into(), place: place(0.0, 0.0, Known::Taped) },
            Edit::Reshape { thing: "nothing".into(), shape: Shape::Round { diameter_mm: 300.0 } },
            Edit::Rename { thing: "nothing".into(), name: "something".into() },
        ] {
            assert_eq!(edit.apply(&layout, &here), Err(EditFault::NoSuch("nothing".into())), "{edit:?}");
        }
        assert!(Edit::Remove("cabinet".into()).apply(&layout, &"nowhere".into()).is_err());
        let none = Edit::Reshape { thing: "cabinet".into(), shape: Shape::Round { diameter_mm: 0.0 } };
        assert_eq!(none.apply(&layout, &here), Err(EditFault::NoShape));
        let wall = layout.bay.walls[0].id.clone();
        let twice = Edit::Rename { thing: "cabinet".into(), name: wall.clone() };
        assert_eq!(twice.apply(&layout, &here), Err(EditFault::NameTaken(wall)));
    }

    #[test]
    fn added_renamed_and_removed() {
        let (layout, here) = layout();
        let mut thing = layout.bay.things[0].clone();
        thing.id = "second".into();
        let with = Edit::Add(thing.clone()).apply(&layout, &here).unwrap();
        assert!(place_of(&with, &here, "second").is_some());
        assert_eq!(Edit::Add(thing).apply(&with, &here), Err(EditFault::NameTaken("second".into())));
        let named = Edit::Rename { thing: "second".into(), name: "old".into() }.apply(&with, &here).unwrap();
        assert!(place_of(&named, &here, "old").is_some());
        assert_eq!(Edit::Remove("old".into()).apply(&named, &here).unwrap(), layout);
        let without = Edit::Remove("cabinet".into()).apply(&layout, &here).unwrap();
        assert_eq!(place_of(&without, &here, "cabinet"), None);
    }

    /// What is a part of the building is put in for every set-up, and moved in each of them; what is movable is this one's.
    #[test]
    fn what_is_built_is_the_bays() {
        let (layout, here) = layout();
        let other = layout.arrangements[1].id.clone();
        let mut pillar = layout.bay.things[0].clone();
        (pillar.id, pillar.effort) = ("pillar".into(), Effort::Fixed);
        let with = Edit::Add(pillar.clone()).apply(&layout, &here).unwrap();
        assert_eq!(with.bay.things.last(), Some(&pillar));
        let there = place(3_000.0, 1_000.0, Known::Taped);
        let moved = Edit::Place { thing: "pillar".into(), place: there }.apply(&with, &here).unwrap();
        assert_eq!(place_of(&moved, &other, "pillar"), Some(there));
        assert_eq!(moved.arrangements, layout.arrangements, "nothing of it is one set-up's");
        // The arm of a lift goes with it, and swings in each set-up by itself.
        let mut arm = layout.bay.things[0].clone();
        (arm.id, arm.kind, arm.effort) = ("arm".into(), ThingKind::LiftArm, Effort::OnePerson);
        let with = Edit::Add(arm).apply(&layout, &here).unwrap();
        let swung = Edit::Place { thing: "arm".into(), place: there }.apply(&with, &here).unwrap();
        assert!(place_of(&swung, &other, "arm").is_some_and(|own| own != there));
        // What was moved in one set-up before it was known to be fixed stays moved there alone.
        let away = Edit::Place { thing: "cabinet".into(), place: there }.apply(&layout, &here).unwrap();
        let mut fixed = away.clone();
        fixed.bay.things[0].effort = Effort::Fixed;
        let again = place(4_000.0, 1_000.0, Known::Taped);
        let again_there = Edit::Place { thing: "cabinet".into(), place: again }.apply(&fixed, &here).unwrap();
        assert_eq!(again_there.bay.things, fixed.bay.things);
        let bench = Edit::Add(crate::model::Thing { id: "bench".into(), ..layout.bay.things[0].clone() });
        let with = bench.apply(&layout, &here).unwrap();
        assert_eq!((with.bay.things.len(), with.arrangements[0].added.len()), (1, 1));
        assert_eq!(place_of(&with, &other, "bench"), None);
    }

    /// What is built leaves the bay in one act, whatever the other set-ups say of it.
    #[test]
    fn what_is_built_is_removed_from_every_set_up() {
        let (layout, here) = layout();
        let other = layout.arrangements[1].id.clone();
        let mut pillar = layout.bay.things[0].clone();
        (pillar.id, pillar.effort) = ("pillar".into(), Effort::Fixed);
        let mut with = Edit::Add(pillar).apply(&layout, &here).unwrap();
        // As an older file may have it.
        with.arrangements[1].away.push("pillar".into());
        assert_eq!(Edit::Remove("pillar".into()).apply(&with, &here).unwrap(), layout);
        assert_eq!(
            Edit::Remove("pillar".into()).apply(&with, &other),
            Err(EditFault::NoSuch("pillar".into())),
            "it is not there"
        );
        // What is movable stays in the other one, and what stands in a building of its own in the bay.
        let without = Edit::Remove("cabinet".into()).apply(&layout, &here).unwrap();
        assert!(place_of(&without, &other, "cabinet").is_some());
        with.arrangements[1].away.clear();
        let planned = Edit::PlanBuilding.apply(&with, &other).unwrap();
        let gone = Edit::Remove("pillar".into()).apply(&planned, &other).unwrap();
        assert_eq!(place_of(&gone, &other, "pillar"), None);
        assert_eq!(gone.bay, with.bay);
    }

    /// The edit that makes a thing fixed.
    fn fixed(layout: &crate::model::Layout, here: &crate::model::Id, thing: &str) -> Edit {
        let at = layout.arrangements.iter().position(|own| own.id == *here).unwrap();
        let own = super::seen(layout, at, &thing.into()).unwrap();
        Edit::Describe {
            thing: own.id,
            kind: own.kind,
            material: own.material,
            metal: own.metal,
            known: own.place.known,
            effort: Effort::Fixed,
            locked: own.locked,
        }
    }

    #[test]
    fn what_is_made_fixed_is_the_bays_in_every_set_up() {
        let (layout, here) = layout();
        let other = layout.arrangements[1].id.clone();
        let bench = Edit::Add(crate::model::Thing { id: "bench".into(), ..layout.bay.things[0].clone() });
        let added = bench.apply(&layout, &here).unwrap();
        let built = fixed(&added, &here, "bench").apply(&added, &here).unwrap();
        assert_eq!(place_of(&built, &other, "bench"), place_of(&added, &here, "bench"));
        assert_eq!(built.arrangements, layout.arrangements, "nothing of it is one set-up's");
        assert_eq!(built.bay.things[1].effort, Effort::Fixed);
        assert!(crate::model::validate::layout(&built).is_empty());
        // Where it stands in this set-up, which is what was fixed: the others have it neither elsewhere nor away.
        let (there, elsewhere) =
            (place(3_000.0, 1_000.0, Known::Taped), place(1_000.0, 1_500.0, Known::Taped));
        let moved =
            |layout, place, of| Edit::Place { thing: "cabinet".into(), place }.apply(layout, of).unwrap();
        let moved_here = moved(&layout, there, &here);
        let gone_there = Edit::Remove("cabinet".into()).apply(&moved_here, &other).unwrap();
        for before in [moved_here.clone(), moved(&moved_here, elsewhere, &other), gone_there] {
            let built = fixed(&before, &here, "cabinet").apply(&before, &here).unwrap();
            for own in [&here, &other] {
                assert_eq!(place_of(&built, own, "cabinet"), Some(there), "{own}");
            }
            assert_eq!(built.arrangements, layout.arrangements);
        }
        // A copy of a set-up has the same thing, be it told otherwise there.
        let copy = Edit::Duplicate("copy".into()).apply(&added, &here).unwrap();
        let span = crate::geometry::Span::new(0.0, 77.0).unwrap();
        let copy = Edit::Heights { thing: "bench".into(), span }.apply(&copy, &"copy".into()).unwrap();
        let built = fixed(&copy, &here, "bench").apply(&copy, &here).unwrap();
        assert!(built.arrangements.iter().all(|own| own.added.is_empty() && own.moved.is_empty()));
        assert!(crate::model::validate::layout(&built).is_empty());
        // A building of a set-up's own is its own.
        let planned = Edit::PlanBuilding.apply(&copy, &here).unwrap();
        let built = fixed(&planned, &here, "bench").apply(&planned, &here).unwrap();
        assert_eq!((&built.bay, &built.arrangements[1..]), (&planned.bay, &planned.arrangements[1..]));
        assert!(built.arrangements[0].added.is_empty());
        assert!(place_of(&built, &here, "bench").is_some());
    }

    /// What others had otherwise is known before, so that it can be said.
    #[test]
    fn what_is_done_to_the_building_in_every_set_up_is_told() {
        use super::super::{Deed, OfBuilding};
        let (layout, here) = layout();
        let other = layout.arrangements[1].id.clone();
        let told = |edit: &Edit, layout: &crate::model::Layout| edit.of_building(layout, &here);
        let there = place(3_000.0, 1_000.0, Known::Taped);
        let make = fixed(&layout, &here, "cabinet");
        let built = |others: &[&crate::model::Id]| OfBuilding {
            removed: Vec::new(),
            built: vec![("cabinet".into(), others.iter().map(|own| (*own).clone()).collect())],
        };
        assert_eq!(told(&make, &layout), built(&[]));
        assert_eq!(make.deed(&layout, &here), Deed::Build("cabinet".into()));
        let moved = Edit::Place { thing: "cabinet".into(), place: there };
        for apart in [moved.apply(&layout, &other).unwrap(), moved.apply(&layout, &here).unwrap()] {
            assert_eq!(told(&make, &apart), built(&[&other]));
        }
        let gone = Edit::Remove("cabinet".into()).apply(&layout, &other).unwrap();
        assert_eq!(told(&make, &gone), built(&[&other]));
        let is = make.apply(&layout, &here).unwrap();
        assert_eq!(told(&make, &is), OfBuilding::default(), "it is fixed already");
        let remove = Edit::All(vec![Edit::Remove("cabinet".into())]);
        assert_eq!(told(&remove, &layout), OfBuilding::default());
        assert_eq!(told(&remove, &is).removed, ["cabinet".into()]);
        assert_eq!(Edit::Remove("cabinet".into()).deed(&is, &here), Deed::RemoveBuilt("cabinet".into()));
        // Nothing is done to others where there are none.
        let mut alone = is.clone();
        alone.arrangements.pop();
        assert_eq!(told(&remove, &alone), OfBuilding::default());
        let planned = Edit::PlanBuilding.apply(&is, &here).unwrap();
        assert_eq!(told(&remove, &planned), OfBuilding::default());
    }

    #[test]
    fn what_is_one_set_ups_becomes_the_bays_and_back() {
        let (layout, here) = layout();
        let other = layout.arrangements[1].id.clone();
        let bench = Edit::Add(crate::model::Thing { id: "bench".into(), ..layout.bay.things[0].clone() });
        let added = bench.apply(&layout, &here).unwrap();
        let every = Edit::InEvery("bench".into()).apply(&added, &here).unwrap();
        assert_eq!(place_of(&every, &other, "bench"), place_of(&added, &here, "bench"));
        assert!(every.arrangements[0].added.is_empty());
        assert_eq!(Edit::HereAlone("bench".into()).apply(&every, &here).unwrap(), added, "and back");
        // Its place here goes along, either way; what others say of it is forgotten.
        let there = place(3_000.0, 1_000.0, Known::Taped);
        let moved = Edit::Place { thing: "cabinet".into(), place: there }.apply(&layout, &here).unwrap();
        let every = Edit::InEvery("cabinet".into()).apply(&moved, &here).unwrap();
        assert_eq!(every.bay.things[0].place, there);
        assert_eq!(every.arrangements, layout.arrangements);
        let gone = Edit::Remove("cabinet".into()).apply(&moved, &other).unwrap();
        let alone = Edit::HereAlone("cabinet".into()).apply(&gone, &here).unwrap();
        assert!(alone.bay.things.is_empty() && alone.arrangements[1].away.is_empty());
        assert_eq!(place_of(&alone, &here, "cabinet"), Some(there));
        for (edit, of) in [
            (Edit::InEvery("cabinet".into()), &layout),
            (Edit::HereAlone("bench".into()), &added),
            (Edit::HereAlone("nothing".into()), &layout),
        ] {
            assert!(matches!(edit.apply(of, &here), Err(EditFault::NoSuch(_))), "{edit:?}");
        }
        assert!(Edit::HereAlone("cabinet".into()).apply(&gone, &other).is_err(), "it is not there");
    }

    /// A copy of a set-up has a copy of what is in it alone: in the bay that is one thing, which may stand elsewhere there.
    #[test]
    fn what_was_copied_with_its_set_up_is_one_thing_in_the_bay() {
        let (layout, here) = layout();
        let bench = Edit::Add(crate::model::Thing { id: "bench".into(), ..layout.bay.things[0].clone() });
        let added = bench.apply(&layout, &here).unwrap();
        let copy = Edit::Duplicate("copy".into()).apply(&added, &here).unwrap();
        let every = Edit::InEvery("bench".into()).apply(&copy, &here).unwrap();
        assert!(crate::model::validate::layout(&every).is_empty());
        assert!(every.arrangements.iter().all(|own| own.added.is_empty() && own.moved.is_empty()));
        let there = place(3_000.0, 1_000.0, Known::Taped);
        let apart = Edit::Place { thing: "bench".into(), place: there }.apply(&copy, &"copy".into()).unwrap();
        let every = Edit::InEvery("bench".into()).apply(&apart, &here).unwrap();
        assert!(crate::model::validate::layout(&every).is_empty());
        assert_eq!(place_of(&every, &"copy".into(), "bench"), Some(there));
        assert_eq!(place_of(&every, &here, "bench"), place_of(&copy, &here, "bench"));
        // What is another thing by the same name is no copy.
        let span = crate::geometry::Span::new(0.0, 77.0).unwrap();
        let other = Edit::Heights { thing: "bench".into(), span }.apply(&copy, &"copy".into()).unwrap();
        assert_eq!(
            Edit::InEvery("bench".into()).apply(&other, &here),
            Err(EditFault::NameTaken("bench".into()))
        );
    }

    /// Where there is one set-up nothing is kept apart from the bay.
    #[test]
    fn of_one_set_up_the_file_is_the_simplest() {
        let (mut layout, here) = layout();
        layout.arrangements.pop();
        let bench = Edit::Add(crate::model::Thing { id: "bench".into(), ..layout.bay.things[0].clone() });
        let there = place(3_000.0, 1_000.0, Known::Taped);
        let with = bench.apply(&layout, &here).unwrap();
        let with = Edit::Place { thing: "bench".into(), place: there }.apply(&with, &here).unwrap();
        assert_eq!(with.bay.things[1].place, there);
        assert_eq!(with.arrangements, layout.arrangements);
        assert_eq!(Edit::Remove("bench".into()).apply(&with, &here).unwrap(), layout);
    }
}
