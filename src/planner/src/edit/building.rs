//! An arrangement's own building: begun as the bay's is, given up, or made the bay's.

use super::{EditFault, bay, saved};
use crate::model::{Bay, Id, Layout, SavedArrangement};

/// From here on what is built is this arrangement's own; as it is, nothing of it changes.
pub(super) fn plan(layout: &mut Layout, at: usize) -> Result<(), EditFault> {
    let (_, building) = bay::of(layout, at)?.into_parts();
    saved(layout, at)?.building = Some(Box::new(building));
    Ok(())
}

/// Back in the bay's building, the arrangement forgets what is not there.
pub(super) fn give_up(layout: &mut Layout, at: usize) -> Result<(), EditFault> {
    let Layout { bay, arrangements, .. } = layout;
    let own = arrangements.get_mut(at).ok_or(EditFault::NoArrangement)?;
    names_apart(own, bay)?;
    own.building = None;
    bay::forget(own, bay);
    Ok(())
}

/// The arrangement's building is the bay's from here on; those that have none of their own are in it then.
pub(super) fn adopt(layout: &mut Layout, at: usize) -> Result<(), EditFault> {
    let bay = bay::of(layout, at)?;
    saved(layout, at)?.building = None;
    layout.in_same_bay(at).try_for_each(|own| names_apart(own, &bay))?;
    bay::replace(layout, at, &bay, None);
    Ok(())
}

/// What other arrangements say of doors, runways, bays of a hall and things that an arrangement's own building does not have: each of them by
/// name, with those names. They would not say it any more once that building is the bay's ([`super::Edit::AdoptBuilding`]).
pub fn lost_by_adopting(layout: &Layout, arrangement: &Id) -> Vec<(Id, Vec<Id>)> {
    let Some(at) = layout.arrangements.iter().position(|own| own.id == *arrangement) else {
        return Vec::new();
    };
    let Ok(bay) = bay::of(layout, at) else { return Vec::new() };
    let others = layout.arrangements.iter().filter(|own| own.id != *arrangement && own.building.is_none());
    let lost = others.map(|own| {
        let mut after = own.clone();
        bay::forget(&mut after, &bay);
        let left: Vec<&Id> = spoken_of(&after).collect();
        let mut lost: Vec<Id> = spoken_of(own).filter(|id| !left.contains(id)).cloned().collect();
        lost.dedup();
        (own.id.clone(), lost)
    });
    lost.filter(|(_, lost)| !lost.is_empty()).collect()
}

/// The names of doors, runways, bays of a hall and things of its bay of which an arrangement says something.
fn spoken_of(own: &SavedArrangement) -> impl Iterator<Item = &Id> {
    let shut = own.shut.iter().map(|(id, _)| id);
    let moved = own.moved.iter().map(|moved| &moved.thing);
    let bays = own.in_bay.iter().chain(&own.kept_empty).chain(&own.kept_shut);
    own.on_runways.iter().chain(shut).chain(moved).chain(&own.away).chain(bays)
}

/// What is only in an arrangement must not go by a name that is the bay's.
fn names_apart(own: &SavedArrangement, bay: &Bay) -> Result<(), EditFault> {
    let twice = own.added.iter().find(|thing| bay.names().any(|id| *id == thing.id));
    twice.map_or(Ok(()), |thing| Err(EditFault::NameTaken(thing.id.clone())))
}

#[cfg(test)]
mod tests {
    use super::super::testing::{layout, place_of};
    use super::super::{BayDeed, BayPart, Deed, Edit, EditFault};
    use super::lost_by_adopting;
    use crate::assessment::Subject;
    use crate::geometry::{DVec2, PlanPose, Span};
    use crate::model::{Bay, Id, Known, Layout, Material, Place, Shape, validate};

    /// The arrangement, and a second one with a building of its own.
    fn two() -> (Layout, Id, Id) {
        let (layout, here) = layout();
        let planned = Id::from("as planned");
        let layout = Edit::Duplicate(planned.clone()).apply(&layout, &here).unwrap();
        (Edit::PlanBuilding.apply(&layout, &planned).unwrap(), here, planned)
    }

    fn bay_in(layout: &Layout, arrangement: &Id) -> Bay {
        let own = layout.arrangements.iter().find(|own| own.id == *arrangement).unwrap();
        layout.bay_of(own).into_owned()
    }

    fn changed(layout: &Layout, of: &Id, change: impl Fn(&mut Bay)) -> Edit {
        let mut bay = bay_in(layout, of);
        change(&mut bay);
        Edit::Bay { bay: Box::new(bay), renamed: None }
    }

    /// Every kind of change of what is built, and of a thing itself, made in the one: the other is as it was.
    #[test]
    fn what_is_built_changes_here_only() {
        let (both, here, planned) = two();
        assert_eq!(bay_in(&both, &planned), bay_in(&both, &here), "nothing changes by planning it");
        for (of, other) in [(&planned, &here), (&here, &planned)] {
            let corner = bay_in(&both, of).room.outer()[2];
            let edits = [
                changed(&both, of, |bay| bay.push_wall(1, -600.0).unwrap()),
                changed(&both, of, |bay| bay.openings[0].from_mm += 300.0),
                changed(&both, of, |bay| bay.openings.clear()),
                changed(&both, of, |bay| bay.ceiling_mm += 200.0),
                changed(&both, of, |bay| bay.walls[0].material = Material::Mesh),
                Edit::Corner { corner: 2, to: corner + DVec2::new(250.0, 0.0), square: false },
                Edit::Reshape { thing: "cabinet".into(), shape: Shape::Round { diameter_mm: 300.0 } },
                Edit::Heights { thing: "cabinet".into(), span: Span::new(0.0, 900.0).unwrap() },
                Edit::Rename { thing: "cabinet".into(), name: "chest".into() },
            ];
            for edit in edits {
                let after = edit.apply(&both, of).unwrap();
                assert_ne!(bay_in(&after, of), bay_in(&both, of), "{edit:?}");
                assert_eq!(bay_in(&after, other), bay_in(&both, other), "{edit:?}");
                assert!(validate::layout(&after).is_empty(), "{edit:?}");
            }
        }
    }

    /// Names, levels and marks are the bay's wherever they are changed.
    #[test]
    fn what_was_measured_on_the_floor_is_the_bays() {
        let (both, here, planned) = two();
        let edit = changed(&both, &planned, |bay| {
            bay.name = "Hall".to_owned();
            bay.survey = None;
            bay.ceiling_mm += 100.0;
        });
        let after = edit.apply(&both, &planned).unwrap();
        assert!(both.bay.survey.is_some());
        for own in [&here, &planned] {
            let bay = bay_in(&after, own);
            assert_eq!((bay.name.as_str(), &bay.survey), ("Hall", &None), "{own}");
        }
        assert_eq!(after.bay.ceiling_mm, both.bay.ceiling_mm);
    }

    #[test]
    fn given_up_it_is_as_it_was_before() {
        let (both, _, planned) = two();
        let before = {
            let mut before = both.clone();
            before.arrangements[1].building = None;
            before
        };
        let other = changed(&both, &planned, |bay| {
            bay.push_wall(1, -600.0).unwrap();
            bay.openings[0].id = "gate".into();
        });
        let other = other.apply(&both, &planned).unwrap();
        let other = Edit::Door { door: "gate".into(), shut: false }.apply(&other, &planned).unwrap();
        assert_eq!(other.arrangements[1].shut, [("gate".into(), false)]);
        // The door of that name goes with the building: nothing is left said of it.
        assert_eq!(Edit::GiveUpBuilding.apply(&other, &planned).unwrap(), before);
        assert_eq!(
            Edit::GiveUpBuilding.apply(&before, &planned).unwrap(),
            before,
            "there is none to give up"
        );
    }

    #[test]
    fn made_the_bays_it_is_everyones_but_theirs_who_have_their_own() {
        let (both, here, planned) = two();
        let both = Edit::Duplicate("a third".into()).apply(&both, &planned).unwrap();
        let third = Id::from("a third");
        assert!(both.arrangements[2].building.is_some(), "a copy has the same building");
        let elsewhere = Place { at: PlanPose::new(DVec2::new(1_000.0, 1_500.0), 0.0), known: Known::Taped };
        let both = Edit::Place { thing: "cabinet".into(), place: elsewhere }.apply(&both, &here).unwrap();
        let both = Edit::Door { door: "door".into(), shut: false }.apply(&both, &here).unwrap();
        let without = changed(&both, &planned, |bay| {
            bay.push_wall(1, -600.0).unwrap();
            bay.openings.clear();
            bay.things.clear();
        });
        let without = without.apply(&both, &planned).unwrap();
        // What that takes from the others is known before: the third has its own building, and loses nothing.
        let lost = vec![(here.clone(), vec!["door".into(), "cabinet".into()])];
        assert_eq!(lost_by_adopting(&without, &planned), lost);
        assert_eq!(lost_by_adopting(&both, &planned), [], "as long as all of it is there");
        let adopted = Edit::AdoptBuilding.apply(&without, &planned).unwrap();
        assert!(adopted.arrangements[1].building.is_none());
        assert_eq!(adopted.bay, bay_in(&without, &planned));
        assert_eq!(bay_in(&adopted, &here), adopted.bay);
        assert!(adopted.arrangements[0].moved.is_empty() && adopted.arrangements[0].shut.is_empty());
        assert_eq!(bay_in(&adopted, &third), bay_in(&both, &third));
        assert!(validate::layout(&adopted).is_empty());
    }

    /// What is moved, taken away or opened here is said of the things and doors of the own building.
    #[test]
    fn an_arrangement_speaks_of_its_own_building() {
        let (both, here, planned) = two();
        let named =
            Edit::Rename { thing: "cabinet".into(), name: "chest".into() }.apply(&both, &planned).unwrap();
        let elsewhere = Place { at: PlanPose::new(DVec2::new(1_000.0, 1_500.0), 0.0), known: Known::Taped };
        let moved = Edit::Place { thing: "chest".into(), place: elsewhere };
        assert_eq!(moved.apply(&named, &here), Err(EditFault::NoSuch("chest".into())));
        let moved = moved.apply(&named, &planned).unwrap();
        assert_eq!(place_of(&moved, &planned, "chest"), Some(elsewhere));
        let gone = Edit::Remove("chest".into()).apply(&moved, &planned).unwrap();
        assert_eq!(place_of(&gone, &planned, "chest"), None);
        assert!(place_of(&gone, &here, "cabinet").is_some());
        assert!(validate::layout(&gone).is_empty());
    }

    /// A name of one building is free in none: what is added in one arrangement stays apart when another's building becomes
    /// the bay's. Where a file by hand has it otherwise, that is refused.
    #[test]
    fn names_stay_apart() {
        let (both, here, planned) = two();
        let door = changed(&both, &planned, |bay| bay.openings[0].id = "gate".into());
        let both = door.apply(&both, &planned).unwrap();
        let mut thing = both.bay.things[0].clone();
        thing.id = "gate".into();
        let taken = Err(EditFault::NameTaken("gate".into()));
        assert_eq!(Edit::Add(thing.clone()).apply(&both, &here), taken);
        let mut by_hand = both.clone();
        by_hand.arrangements[0].added.push(thing);
        assert!(validate::layout(&by_hand).is_empty());
        assert_eq!(Edit::AdoptBuilding.apply(&by_hand, &planned), taken);
        let mut by_hand = both;
        let mut second = by_hand.bay.things[0].clone();
        second.id = "second".into();
        by_hand.bay.things.push(second.clone());
        by_hand.arrangements[1].added.push(second);
        assert!(validate::layout(&by_hand).is_empty());
        assert_eq!(
            Edit::GiveUpBuilding.apply(&by_hand, &planned),
            Err(EditFault::NameTaken("second".into()))
        );
    }

    #[test]
    fn what_was_done_is_told_of_the_building_that_it_was_done_to() {
        let (both, here, planned) = two();
        let pushed = changed(&both, &planned, |bay| bay.push_wall(1, -600.0).unwrap());
        let both = pushed.apply(&both, &planned).unwrap();
        let ceiling = changed(&both, &planned, |bay| bay.ceiling_mm += 100.0);
        let told = Deed::Bay(BayDeed::Change(Subject::Floor, BayPart::Heights));
        assert_eq!(ceiling.deed(&both, &planned), told);
        assert_ne!(ceiling.deed(&both, &here), told);
    }
}
