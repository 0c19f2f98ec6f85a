//! What is done to the bay itself, and to its doors in one arrangement.

use super::{EditFault, saved};
use crate::model::{Bay, Id, Layout};

/// Arrangements forget doors and runways that are no longer there, and follow those that have another name.
pub(super) fn replace(layout: &mut Layout, bay: &Bay, renamed: Option<&(Id, Id)>) {
    layout.bay = bay.clone();
    let follow = |id: &mut Id| {
        if let Some((old, new)) = renamed
            && id == old
        {
            *id = new.clone();
        }
    };
    for own in &mut layout.arrangements {
        own.shut.iter_mut().for_each(|(id, _)| follow(id));
        own.on_runways.iter_mut().for_each(follow);
        own.shut.retain(|(id, _)| bay.openings.iter().any(|opening| opening.id == *id));
        own.on_runways.retain(|id| bay.runways.iter().any(|runway| runway.id == *id));
    }
}

/// A door is open or shut in this arrangement; where that is as the bay says, nothing is left to say.
pub(super) fn door(layout: &mut Layout, at: usize, door: &Id, shut: bool) -> Result<(), EditFault> {
    let home = layout.bay.openings.iter().find(|o| o.id == *door).map(|o| o.shut);
    let home = home.ok_or_else(|| EditFault::NoSuch(door.clone()))?;
    let own = saved(layout, at)?;
    own.shut.retain(|(id, _)| id != door);
    if shut != home {
        own.shut.push((door.clone(), shut));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::super::testing::layout;
    use super::super::{Edit, EditFault};

    #[test]
    fn a_door_is_open_here_only_and_follows_its_name() {
        let (layout, here) = layout();
        let door = layout.bay.openings[0].id.clone();
        let shut = !layout.bay.openings[0].shut;
        let set = Edit::Door { door: door.clone(), shut }.apply(&layout, &here).unwrap();
        assert_eq!(set.arrangements[0].shut, [(door.clone(), shut)]);
        assert_eq!(set.bay, layout.bay);
        assert_eq!(Edit::Door { door: door.clone(), shut: !shut }.apply(&set, &here).unwrap(), layout);
        let mut bay = set.bay.clone();
        bay.openings[0].id = "gate".into();
        let renamed = Some((door.clone(), "gate".into()));
        let named = Edit::Bay { bay: Box::new(bay.clone()), renamed }.apply(&set, &here).unwrap();
        assert_eq!(named.arrangements[0].shut, [("gate".into(), shut)]);
        bay.openings.clear();
        let gone = Edit::Bay { bay: Box::new(bay), renamed: None }.apply(&named, &here).unwrap();
        assert!(gone.arrangements[0].shut.is_empty());
        let refused = Edit::Door { door: door.clone(), shut }.apply(&gone, &here);
        assert_eq!(refused, Err(EditFault::NoSuch(door)));
    }
}
