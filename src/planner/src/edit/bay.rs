//! What is done to the bay that an arrangement is made in, and to its doors in one arrangement.

use baywright_geometry::DVec2;

use super::{EditFault, dimensions, mark_checks, saved};
use crate::model::{Bay, Id, Layout, SavedArrangement};

/// Arrangements made in it forget what is no longer there, and follow doors, runways and bays of a hall that have another name.
pub(super) fn replace(layout: &mut Layout, at: usize, bay: &Bay, renamed: Option<&(Id, Id)>) {
    let before = of(layout, at).ok();
    layout.set_bay_of(at, bay.clone());
    if let Some(before) = before {
        dimensions::follow_bay(layout, &before, bay);
        mark_checks::follow_bay(layout, &before, bay);
    }
    let follow = |id: &mut Id| {
        if let Some((old, new)) = renamed
            && id == old
        {
            *id = new.clone();
        }
    };
    for own in layout.in_same_bay(at) {
        own.shut.iter_mut().for_each(|(id, _)| follow(id));
        own.kept_shut.iter_mut().for_each(follow);
        own.on_runways.iter_mut().for_each(follow);
        own.in_bay.iter_mut().chain(&mut own.kept_empty).for_each(follow);
        forget(own, bay);
    }
}

/// What an arrangement says of doors, runways, bays of a hall and things that are not in the bay any more is not said any more.
pub(super) fn forget(own: &mut SavedArrangement, bay: &Bay) {
    let is_opening = |id: &Id| bay.openings.iter().any(|opening| opening.id == *id);
    own.shut.retain(|(id, _)| is_opening(id));
    let is_door = |id: &Id| bay.openings.iter().any(|own| own.id == *id && own.kind.is_door());
    own.kept_shut.retain(is_door);
    let is_bay = |id: &Id| bay.bays.iter().any(|part| part.id == *id);
    own.in_bay = own.in_bay.take().filter(is_bay);
    own.kept_empty.retain(is_bay);
    own.on_runways.retain(|id| bay.runways.iter().any(|runway| runway.id == *id));
    let is_there = |id: &Id| bay.things.iter().any(|thing| thing.id == *id);
    own.moved.retain(|moved| is_there(&moved.thing));
    own.away.retain(is_there);
}

/// The bay that the arrangement is made in.
pub(super) fn of(layout: &Layout, at: usize) -> Result<Bay, EditFault> {
    let own = layout.arrangements.get(at).ok_or(EditFault::NoArrangement)?;
    Ok(layout.bay_of(own).into_owned())
}

pub(super) fn corner(
    layout: &mut Layout,
    at: usize,
    corner: usize,
    to: DVec2,
    square: bool,
) -> Result<(), EditFault> {
    let mut bay = of(layout, at)?;
    let moved = if square { bay.move_corner_square(corner, to) } else { bay.move_corner(corner, to) };
    moved.map_err(|_| EditFault::NoShape)?;
    layout.set_bay_of(at, bay);
    Ok(())
}

/// A door is open or shut in this arrangement; where that is as the bay says, nothing is left to say.
pub(super) fn door(layout: &mut Layout, at: usize, door: &Id, shut: bool) -> Result<(), EditFault> {
    let home = of(layout, at)?.openings.iter().find(|o| o.id == *door).map(|o| o.shut);
    let home = home.ok_or_else(|| EditFault::NoSuch(door.clone()))?;
    let own = saved(layout, at)?;
    own.shut.retain(|(id, _)| id != door);
    if shut != home {
        own.shut.push((door.clone(), shut));
    }
    if !shut {
        own.kept_shut.retain(|id| id != door);
    }
    Ok(())
}

/// A door is kept shut while this arrangement is aimed, or is not. One that stands open is shut for that.
pub(super) fn keep_shut(layout: &mut Layout, at: usize, id: &Id, kept: bool) -> Result<(), EditFault> {
    let bay = of(layout, at)?;
    let opening = bay.openings.iter().find(|own| own.id == *id);
    if !opening.is_some_and(|own| own.kind.is_door() || !kept) {
        return Err(EditFault::NoSuch(id.clone()));
    }
    if kept {
        door(layout, at, id, true)?;
    }
    let own = saved(layout, at)?;
    own.kept_shut.retain(|other| other != id);
    own.kept_shut.extend(kept.then(|| id.clone()));
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

    #[test]
    fn a_door_is_kept_shut_here_only_until_it_is_opened() {
        let (layout, here) = layout();
        let door = layout.bay.openings[0].id.clone();
        let keep = |kept| Edit::KeepShut { door: door.clone(), kept };
        // One that stands open is shut for it.
        let open = Edit::Door { door: door.clone(), shut: false }.apply(&layout, &here).unwrap();
        let kept = keep(true).apply(&open, &here).unwrap();
        assert_eq!(kept.arrangements[0].kept_shut, std::slice::from_ref(&door));
        assert!(kept.bay_of(&kept.arrangements[0]).openings[0].shut || kept.arrangements[0].shut[0].1);
        assert_eq!(keep(true).apply(&kept, &here).unwrap(), kept, "each once");
        assert!(keep(false).apply(&kept, &here).unwrap().arrangements[0].kept_shut.is_empty());
        let opened = Edit::Door { door: door.clone(), shut: false }.apply(&kept, &here).unwrap();
        assert!(opened.arrangements[0].kept_shut.is_empty());
        // It follows the door's name, and goes with it.
        let mut bay = kept.bay.clone();
        bay.openings[0].id = "gate".into();
        let renamed = Some((door.clone(), "gate".into()));
        let named = Edit::Bay { bay: Box::new(bay.clone()), renamed }.apply(&kept, &here).unwrap();
        assert_eq!(named.arrangements[0].kept_shut, ["gate".into()]);
        bay.openings[0].kind = crate::model::OpeningKind::Window;
        let window = Edit::Bay { bay: Box::new(bay.clone()), renamed: None }.apply(&named, &here).unwrap();
        assert!(window.arrangements[0].kept_shut.is_empty(), "a window is no door");
        let refused = Edit::KeepShut { door: "gate".into(), kept: true }.apply(&window, &here);
        assert_eq!(refused, Err(EditFault::NoSuch("gate".into())));
        bay.openings.clear();
        let gone = Edit::Bay { bay: Box::new(bay), renamed: None }.apply(&named, &here).unwrap();
        assert!(gone.arrangements[0].kept_shut.is_empty());
    }
}
