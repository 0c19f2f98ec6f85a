//! Which set-ups are done at the same time as one. It counts both ways, and is kept with the set-up in which it was chosen.

use super::{EditFault, saved};
use crate::model::{Id, Layout};

/// These are done at the same time as the one at this position, and no others.
pub(super) fn choose(layout: &mut Layout, at: usize, others: &[Id]) -> Result<(), EditFault> {
    let own = saved(layout, at)?.id.clone();
    for (i, other) in layout.arrangements.iter_mut().enumerate() {
        if i != at {
            other.at_once.retain(|id| *id != own);
        }
    }
    saved(layout, at)?.at_once = Vec::new();
    for id in others {
        let this = layout.arrangements.get(at).ok_or(EditFault::NoArrangement)?;
        if !layout.may_be_at_once(this).any(|other| other.id == *id) {
            return Err(EditFault::NoSuch(id.clone()));
        }
        let own = saved(layout, at)?;
        if !own.at_once.contains(id) {
            own.at_once.push(id.clone());
        }
    }
    Ok(())
}

/// A set-up has another name.
pub(super) fn follow(layout: &mut Layout, old: &Id, new: &Id) {
    let named = layout.arrangements.iter_mut().flat_map(|own| &mut own.at_once);
    named.filter(|id| *id == old).for_each(|id| id.clone_from(new));
}

/// What is gone, or made in the same bay or in another building by now, is not done at the same time any more.
pub(super) fn forget(layout: &mut Layout) {
    for at in 0..layout.arrangements.len() {
        let Some(own) = layout.arrangements.get(at).filter(|own| !own.at_once.is_empty()) else { continue };
        let may: Vec<Id> = layout.may_be_at_once(own).map(|other| other.id.clone()).collect();
        if let Some(own) = layout.arrangements.get_mut(at) {
            own.at_once.retain(|id| may.contains(id));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::in_bay::testing::{hall, in_bay};
    use super::super::testing::layout;
    use super::super::{Edit, EditFault};
    use crate::model::{Id, Layout};

    fn names(layout: &Layout, at: usize) -> Vec<Id> {
        layout.at_once(&layout.arrangements[at]).map(|own| own.id.clone()).collect()
    }

    #[test]
    fn it_is_so_in_both_until_it_is_given_up_in_either() {
        let (bay, here) = layout();
        let other = bay.arrangements[1].id.clone();
        let both = Edit::AtOnce(vec![other.clone()]).apply(&bay, &here).unwrap();
        assert_eq!((names(&both, 0), names(&both, 1)), (vec![other.clone()], vec![here.clone()]));
        assert_eq!(Edit::AtOnce(Vec::new()).apply(&both, &other).unwrap(), bay, "given up in the other");
        assert_eq!(Edit::AtOnce(Vec::new()).apply(&both, &here).unwrap(), bay);
        for wrong in [here.clone(), "nowhere".into()] {
            let refused = Edit::AtOnce(vec![wrong.clone()]).apply(&bay, &here);
            assert_eq!(refused, Err(EditFault::NoSuch(wrong)));
        }
    }

    #[test]
    fn it_follows_names_and_goes_with_what_is_removed() {
        let (bay, here) = layout();
        let other = bay.arrangements[1].id.clone();
        let both = Edit::AtOnce(vec![other.clone()]).apply(&bay, &here).unwrap();
        let named = Edit::NameArrangement("beside".into()).apply(&both, &other).unwrap();
        assert_eq!(named.arrangements[0].at_once, ["beside".into()]);
        let named = Edit::NameArrangement("this".into()).apply(&both, &here).unwrap();
        assert_eq!(names(&named, 1), ["this".into()]);
        let gone = Edit::RemoveArrangement.apply(&both, &other).unwrap();
        assert!(gone.arrangements[0].at_once.is_empty());
        let copied = Edit::Duplicate("copy".into()).apply(&both, &here).unwrap();
        assert!(names(&copied, 1).is_empty(), "a copy is done alone");
        let planned = Edit::PlanBuilding.apply(&both, &here).unwrap();
        assert!(names(&planned, 0).is_empty(), "another building");
    }

    #[test]
    fn it_goes_with_what_is_made_in_the_same_bay() {
        let (bay, here) = hall();
        let other = Edit::Duplicate("other".into()).apply(&bay, &here).unwrap();
        let other = in_bay("bay 2", &other, &"other".into());
        let own = in_bay("bay 1", &other, &here);
        let both = Edit::AtOnce(vec!["other".into()]).apply(&own, &here).unwrap();
        assert_eq!(names(&both, 0), ["other".into()]);
        let same = in_bay("bay 1", &both, &"other".into());
        assert!(names(&same, 0).is_empty());
        let refused = Edit::AtOnce(vec!["other".into()]).apply(&same, &here);
        assert_eq!(refused, Err(EditFault::NoSuch("other".into())));
    }
}
