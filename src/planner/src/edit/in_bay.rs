//! In which bay of a hall an arrangement is made, which others are kept empty for it, and a new one in a bay.

use baywright_geometry::{Bounds, DVec2, PlanPose, Segment, angle};

use super::{Edit, EditFault, bay, saved};
use crate::model::{Arrangement, HallBay, Id, Layout, StandSet};
use crate::scene::Scene;

pub(super) fn choose(
    layout: &mut Layout,
    at: usize,
    in_bay: Option<&Id>,
    kept_empty: &[Id],
) -> Result<(), EditFault> {
    let there = bay::of(layout, at)?.bays;
    let is_there = |id: &Id| there.iter().any(|own| own.id == *id);
    if let Some(missing) = in_bay.into_iter().chain(kept_empty).find(|id| !is_there(id)) {
        return Err(EditFault::NoSuch(missing.clone()));
    }
    let own = saved(layout, at)?;
    own.in_bay = in_bay.cloned();
    own.kept_empty.clear();
    for id in kept_empty.iter().filter(|id| Some(*id) != in_bay) {
        if !own.kept_empty.contains(id) {
            own.kept_empty.push(id.clone());
        }
    }
    Ok(())
}

/// Another arrangement under this name, with the same car and aiming in a bay of the hall: on the floor, along the bay's longest
/// side, the way of the two that is nearer to how it stands now, so that car and targets lie in the bay's middle. Targets are
/// on their marks, and nothing else is kept empty, nor any door shut.
pub fn set_up_in(arrangement: &Arrangement, bay: &HallBay, name: Id) -> Edit {
    let on_mark = arrangement.aiming.placements.iter();
    let on_mark = on_mark.map(|own| Edit::Stand { placement: own.id.clone(), set: StandSet::OnMark });
    let mut edits = vec![
        Edit::InBay { bay: Some(bay.id.clone()), kept_empty: Vec::new() },
        Edit::Carried(Vec::new()),
        Edit::Park(middle_of(arrangement, bay)),
    ];
    edits.extend(on_mark);
    let let_open = |door: &Id| Edit::KeepShut { door: door.clone(), kept: false };
    edits.extend(arrangement.kept_shut.iter().map(let_open));
    Edit::Apart { name, edits }
}

/// Where the car stands, bay from vehicle, if it and its targets are to lie in the middle of a bay, along its longest side.
fn middle_of(arrangement: &Arrangement, bay: &HallBay) -> PlanPose {
    let longest = bay.outline.edges().max_by(|a, b| a.length().total_cmp(&b.length()));
    let along = longest.map_or(DVec2::X, |edge: Segment| (edge.to - edge.from).normalize_or(DVec2::X));
    let along = if along.dot(arrangement.parked.forward()) < 0.0 { -along } else { along };
    let heading = angle::heading(along);
    let turned = PlanPose::new(DVec2::ZERO, heading);
    // In the direction of the bay's side.
    let frame = turned.inverse();
    let around = Bounds::around(bay.outline.outer().iter().map(|&corner| frame * corner));
    let middle = around.map_or(DVec2::ZERO, |around| around.centre());
    let on_mark = Arrangement {
        stands: vec![StandSet::OnMark; arrangement.stands.len()],
        on_runways: Vec::new(),
        parked: PlanPose::IDENTITY,
        ..arrangement.clone()
    };
    let scene = Scene::of(&on_mark);
    let solids = scene.car.iter().chain(scene.targets.iter().flat_map(|target| &target.solids));
    let reach = solids.map(|solid| solid.outline.bounds()).reduce(|all, own| all.union(own));
    let ahead = reach.map_or(0.0, |reach| reach.centre().x);
    let at = turned * (middle - DVec2::new(ahead, 0.0));
    PlanPose::new(at.round(), heading)
}

#[cfg(test)]
pub(super) mod testing {
    use super::super::testing::layout;
    use super::*;
    use crate::check::testing::rectangle;

    /// Bays "bay 1" and "bay 2", side by side.
    pub(in crate::edit) fn hall() -> (Layout, Id) {
        let (mut layout, here) = layout();
        let bay = |name: &str, low: f64| HallBay {
            id: name.into(),
            outline: rectangle((0.0, low), (9_000.0, low + 3_000.0)),
        };
        layout.bay.bays = vec![bay("bay 1", 0.0), bay("bay 2", 3_000.0)];
        (layout, here)
    }

    pub(in crate::edit) fn in_bay(bay: &str, layout: &Layout, which: &Id) -> Layout {
        Edit::InBay { bay: Some(bay.into()), kept_empty: Vec::new() }.apply(layout, which).unwrap()
    }
}

#[cfg(test)]
mod tests {
    use super::testing::hall;
    use super::*;
    use crate::check::testing::{clear, rectangle};
    use crate::model::validate;

    fn chosen(layout: &Layout, bay: &str, kept: &[&str]) -> Result<Layout, EditFault> {
        let here = layout.arrangements[0].id.clone();
        let kept_empty = kept.iter().map(|&id| id.into()).collect();
        Edit::InBay { bay: Some(bay.into()), kept_empty }.apply(layout, &here)
    }

    #[test]
    fn a_bay_is_chosen_and_the_others_are_kept_empty() {
        let (layout, _) = hall();
        let after = chosen(&layout, "bay 1", &["bay 2", "bay 1", "bay 2"]).unwrap();
        assert_eq!(after.arrangements[0].in_bay, Some("bay 1".into()));
        assert_eq!(after.arrangements[0].kept_empty, ["bay 2".into()], "its own is not, and each once");
        assert!(validate::layout(&after).is_empty());
        assert_eq!(chosen(&layout, "bay 3", &[]), Err(EditFault::NoSuch("bay 3".into())));
        assert_eq!(chosen(&layout, "bay 1", &["bay 3"]), Err(EditFault::NoSuch("bay 3".into())));
    }

    #[test]
    fn arrangements_follow_a_name_and_forget_what_is_gone() {
        let (layout, here) = hall();
        let layout = chosen(&layout, "bay 1", &["bay 2"]).unwrap();
        let mut bay = layout.bay.clone();
        bay.bays[0].id = "long bay".into();
        let renamed = Some(("bay 1".into(), "long bay".into()));
        let named = Edit::Bay { bay: Box::new(bay.clone()), renamed }.apply(&layout, &here).unwrap();
        assert_eq!(named.arrangements[0].in_bay, Some("long bay".into()));
        assert_eq!(named.arrangements[0].kept_empty, ["bay 2".into()]);
        bay.bays.clear();
        let gone = Edit::Bay { bay: Box::new(bay), renamed: None }.apply(&named, &here).unwrap();
        assert_eq!((&gone.arrangements[0].in_bay, gone.arrangements[0].kept_empty.len()), (&None, 0));
        assert!(validate::layout(&gone).is_empty());
    }

    /// A bay along y: the car stands along it, the way that is nearer, and what of car and target is foremost and rearmost is as
    /// far from its ends.
    #[test]
    fn a_set_up_in_the_middle_of_a_bay() {
        let arrangement = clear();
        let bay = HallBay { id: "b".into(), outline: rectangle((1_000.0, 0.0), (5_000.0, 9_000.0)) };
        for (heading, along) in [(1.0, DVec2::Y), (-1.0, -DVec2::Y)] {
            let parked = PlanPose::new(DVec2::ZERO, heading);
            let pose = middle_of(&Arrangement { parked, ..arrangement.clone() }, &bay);
            assert!((pose.forward() - along).length() < 1e-9, "{pose:?}");
            assert_eq!(pose.origin().x, 3_000.0);
            let scene = Scene::of(&Arrangement { parked: pose, ..arrangement.clone() });
            let solids = scene.car.iter().chain(scene.targets.iter().flat_map(|own| &own.solids));
            let reach = solids.map(|own| own.outline.bounds()).reduce(|all, own| all.union(own)).unwrap();
            assert!((reach.centre().y - 4_500.0).abs() < 1.0, "{reach:?}");
        }
    }

    #[test]
    fn a_set_up_in_a_bay_leaves_this_one_as_it_is() {
        let (layout, here) = hall();
        let edit = set_up_in(&clear(), &layout.bay.bays[1], "in bay 2".into());
        let after = edit.apply(&layout, &here).unwrap();
        assert_eq!(after.arrangements[0], layout.arrangements[0]);
        assert_eq!(after.arrangements[1].in_bay, Some("bay 2".into()));
        assert!(validate::layout(&after).is_empty());
    }
}
