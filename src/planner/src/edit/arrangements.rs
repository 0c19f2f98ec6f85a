//! What is done to the list of arrangements.

use super::{EditFault, saved};
use crate::model::{Id, Layout, SavedArrangement};

/// Another one like this, after it.
pub(super) fn duplicate(layout: &mut Layout, at: usize, name: &Id) -> Result<(), EditFault> {
    is_free(layout, name)?;
    // The copy stands in the same bay: what is done beside the one is not said to be done beside both.
    let copy = SavedArrangement { id: name.clone(), at_once: Vec::new(), ..saved(layout, at)?.clone() };
    layout.arrangements.insert(at + 1, copy);
    Ok(())
}

pub(super) fn rename(layout: &mut Layout, at: usize, name: &Id) -> Result<(), EditFault> {
    is_free(layout, name)?;
    let old = std::mem::replace(&mut saved(layout, at)?.id, name.clone());
    super::at_once::follow(layout, &old, name);
    Ok(())
}

pub(super) fn remove(layout: &mut Layout, at: usize) -> Result<(), EditFault> {
    // Something must be left to show.
    if layout.arrangements.len() < 2 {
        return Err(EditFault::NoArrangement);
    }
    layout.arrangements.remove(at);
    Ok(())
}

fn is_free(layout: &Layout, name: &Id) -> Result<(), EditFault> {
    if layout.arrangements.iter().any(|own| own.id == *name) {
        return Err(EditFault::NameTaken(name.clone()));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use baywright_geometry::{DVec2, PlanPose};

    use super::super::testing::layout;
    use super::super::{Edit, EditFault};

    #[test]
    fn another_like_this_one_and_away_again() {
        let (bay, here) = layout();
        let twice = Edit::Duplicate("as planned".into()).apply(&bay, &here).unwrap();
        assert_eq!(twice.arrangements.len(), bay.arrangements.len() + 1);
        assert_eq!(twice.arrangements[1].parked, bay.arrangements[0].parked);
        for edit in [Edit::Duplicate(here.clone()), Edit::NameArrangement(here.clone())] {
            let refused = edit.apply(&twice, &"as planned".into());
            assert_eq!(refused, Err(EditFault::NameTaken(here.clone())), "{edit:?}");
        }
        let named = Edit::NameArrangement("later".into()).apply(&twice, &"as planned".into()).unwrap();
        assert_eq!(Edit::RemoveArrangement.apply(&named, &"later".into()).unwrap(), bay);
        let alone = Edit::RemoveArrangement.apply(&bay, &bay.arrangements[1].id).unwrap();
        assert!(Edit::RemoveArrangement.apply(&alone, &here).is_err(), "something is left to show");
    }

    #[test]
    fn what_is_done_apart_leaves_this_one_as_it_is() {
        let (bay, here) = layout();
        let there = PlanPose::new(DVec2::new(4_321.0, 3_000.0), 0.0);
        let apart = Edit::Apart { name: "apart".into(), edits: vec![Edit::Park(there)] };
        let after = apart.apply(&bay, &here).unwrap();
        let names: Vec<&str> = after.arrangements.iter().map(|own| own.id.as_str()).collect();
        assert_eq!(names, [here.as_str(), "apart", bay.arrangements[1].id.as_str()]);
        assert_eq!(after.arrangements[0], bay.arrangements[0]);
        assert_eq!(after.arrangements[1].parked, there);
        assert_eq!(after.bay, bay.bay);
        let taken = Edit::Apart { name: here.clone(), edits: Vec::new() };
        assert_eq!(taken.apply(&bay, &here), Err(EditFault::NameTaken(here)));
    }
}
