//! Everything that can be done to a layout on the screen: the screen sends an [`Edit`], one function applies it.

use baywright_planner::Step;
use baywright_planner::geometry::{DVec2, PlanPose, Span};
use baywright_planner::model::{
    Bay, Effort, Id, Known, Layout, Material, Moved, OnThisCar, SavedArrangement, Shape, StandSet, Thing,
    ThingKind, Underlay,
};
use baywright_planner::words::{Deed, Words};

/// One change of a layout, seen from one arrangement.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// A thing stands elsewhere in this arrangement, or turned.
    Place {
        /// Which.
        thing: Id,
        /// Bay from its own frame.
        place: PlanPose,
    },
    /// A thing has another shape, wherever it stands.
    Reshape {
        /// Which.
        thing: Id,
        /// Its new shape.
        shape: Shape,
    },
    /// A thing has other heights.
    Heights {
        /// Which.
        thing: Id,
        /// From its underside to its top.
        span: Span,
    },
    /// What is known of a thing.
    Describe {
        /// Which.
        thing: Id,
        /// What it is.
        kind: ThingKind,
        /// What it is made of.
        material: Material,
        /// How well its place is known.
        known: Known,
        /// What it takes to move it.
        effort: Effort,
        /// Whether the hand may move it.
        locked: bool,
    },
    /// A thing has another name.
    Rename {
        /// Which.
        thing: Id,
        /// Its new name.
        name: Id,
    },
    /// A new thing in this arrangement.
    Add(Thing),
    /// A thing leaves this arrangement.
    Remove(Id),
    /// The car stands elsewhere; targets that were put somewhere stay where they are.
    Park(PlanPose),
    /// A target stands elsewhere.
    Stand {
        /// Whose.
        placement: Id,
        /// Where.
        set: StandSet,
    },
    /// A door is open or shut in this arrangement.
    Door {
        /// Which.
        door: Id,
        /// Whether it is shut.
        shut: bool,
    },
    /// Another car stands there, for one of its aimings.
    Car {
        /// The profile's name.
        vehicle: Id,
        /// The aiming's name.
        aiming: Id,
        /// The profile's present fingerprint, to be remembered.
        fingerprint: String,
    },
    /// The profile was looked at again: this content is the one to remember.
    Remember(String),
    /// A thing was placed as it was taped: its place is known so now.
    Taped {
        /// The thing.
        thing: Id,
        /// Where it stands: bay from its own frame.
        place: PlanPose,
    },
    /// A thing was put somewhere by hand: its place is known by eye now.
    ByHand {
        /// The thing.
        thing: Id,
        /// Where it stands: bay from its own frame.
        place: PlanPose,
    },
    /// The bay itself is another: what was done to it, the bay, and what has another name now.
    Bay {
        /// What was done, as a person reads it.
        deed: String,
        /// The bay, with its things where they stand at home.
        bay: Box<Bay>,
        /// A door or runway that has another name.
        renamed: Option<(Id, Id)>,
    },
    /// A corner of the room elsewhere, bay frame, mm.
    Corner {
        /// Which corner.
        corner: usize,
        /// To here.
        to: DVec2,
    },
    /// Another arrangement like this one, under this name, after it.
    Duplicate(Id),
    /// This arrangement has another name.
    NameArrangement(Id),
    /// This arrangement is taken away.
    RemoveArrangement,
    /// The aimings of one visit, in their order.
    Visit(Vec<Id>),
    /// The picture under the plan; none to take it away.
    Underlay(Option<Underlay>),
    /// What was measured on this very car.
    OnThisCar(OnThisCar),
    /// The runways that carry the car; none for the floor.
    Carried(Vec<Id>),
    /// What a cure says.
    Do(Step),
    /// Several at once: one step to undo.
    All(Vec<Edit>),
}

/// Why an edit was not done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EditFault {
    /// There is no such arrangement, thing or door.
    NoSuch(Id),
    /// The name is taken.
    NameTaken(Id),
    /// The figures make no shape.
    NoShape,
}

impl Edit {
    /// What it is called in the list of things to undo.
    pub fn name(&self, words: &Words<'_>) -> String {
        words.deed(match self {
            Self::Place { thing, .. } | Self::Taped { thing, .. } | Self::ByHand { thing, .. } => {
                Deed::Move(thing)
            }
            Self::Reshape { thing, .. } | Self::Heights { thing, .. } => Deed::Size(thing),
            Self::Describe { thing, .. } => Deed::Describe(thing),
            Self::Rename { thing, .. } => Deed::Rename(thing),
            Self::Add(thing) => Deed::Add(&thing.id),
            Self::Remove(thing) => Deed::Remove(thing),
            Self::Park(_) => Deed::Park,
            Self::Stand { .. } => Deed::Stand,
            Self::Door { door, shut: true } => Deed::Shut(door),
            Self::Door { door, shut: false } => Deed::Open(door),
            Self::Car { .. } => Deed::Car,
            Self::Remember(_) => Deed::Remember,
            Self::Bay { deed, .. } => Deed::Bay(deed),
            Self::Corner { .. } => Deed::Corner,
            Self::Carried(_) => Deed::Carried,
            Self::OnThisCar(_) => Deed::OnThisCar,
            Self::Underlay(_) => Deed::Underlay,
            Self::Duplicate(name) => Deed::Duplicate(name),
            Self::NameArrangement(name) => Deed::NameArrangement(name),
            Self::RemoveArrangement => Deed::RemoveArrangement,
            Self::Visit(_) => Deed::Visit,
            Self::Do(step) => Deed::Cure(step),
            Self::All(edits) => {
                let steps: Vec<Step> = edits
                    .iter()
                    .filter_map(|edit| if let Self::Do(step) = edit { Some(step.clone()) } else { None })
                    .collect();
                if steps.is_empty() {
                    return edits.last().map_or_else(String::new, |last| last.name(words));
                }
                return words.deed(Deed::Cures(&steps));
            }
        })
    }

    /// The layout after this edit of the named arrangement.
    ///
    /// # Errors
    /// If it names something that is not there, a name that is taken, or figures that make no shape; the layout is
    /// then as it was.
    pub fn apply(&self, layout: &Layout, arrangement: &Id) -> Result<Layout, EditFault> {
        let mut after = layout.clone();
        self.apply_in(&mut after, arrangement)?;
        Ok(after)
    }

    /// The same on a layout of one's own.
    ///
    /// # Errors
    /// As [`Edit::apply`]; the layout may then be changed in part.
    pub(crate) fn apply_in(&self, layout: &mut Layout, arrangement: &Id) -> Result<(), EditFault> {
        let at = layout.arrangements.iter().position(|a| a.id == *arrangement);
        let at = at.ok_or_else(|| EditFault::NoSuch(arrangement.clone()))?;
        self.apply_to(layout, at)
    }

    fn apply_to(&self, layout: &mut Layout, at: usize) -> Result<(), EditFault> {
        match self {
            Self::Place { thing, place } => set_place(layout, at, thing, None, |_| *place),
            Self::Taped { thing, place } => set_place(layout, at, thing, Some(Known::Taped), |_| *place),
            Self::ByHand { thing, place } => set_place(layout, at, thing, Some(Known::ByEye), |_| *place),
            Self::Reshape { thing, shape } => {
                let outline = shape.outline().map_err(|_| EditFault::NoShape)?;
                change(layout, at, thing, |own| (own.shape, own.outline) = (shape.clone(), outline))
            }
            Self::Heights { thing, span } => change(layout, at, thing, |own| own.span = *span),
            Self::Describe { thing, kind, material, known, effort, locked } => {
                // Of a thing that was moved here, only its place here is known better or worse.
                let own = saved(layout, at)?;
                let moved = own.moved.iter_mut().find(|m| m.thing == *thing);
                let here_only = moved.is_some();
                if let Some(moved) = moved {
                    moved.known = Some(*known);
                }
                change(layout, at, thing, |own| {
                    (own.kind, own.material) = (*kind, *material);
                    (own.effort, own.locked) = (*effort, *locked);
                    if !here_only {
                        own.known = *known;
                    }
                })
            }
            Self::Rename { thing, name } => rename(layout, at, thing, name),
            Self::Add(thing) => {
                if taken(layout, &thing.id) {
                    return Err(EditFault::NameTaken(thing.id.clone()));
                }
                saved(layout, at)?.added.push(thing.clone());
                Ok(())
            }
            Self::Remove(thing) => remove(layout, at, thing),
            Self::Park(pose) => {
                saved(layout, at)?.parked = *pose;
                Ok(())
            }
            Self::Stand { placement, set } => set_stand(saved(layout, at)?, placement, *set),
            Self::Door { door, shut } => set_door(layout, at, door, *shut),
            Self::Remember(fingerprint) => {
                saved(layout, at)?.vehicle_fingerprint = Some(fingerprint.clone());
                Ok(())
            }
            Self::Car { vehicle, aiming, fingerprint } => {
                let own = saved(layout, at)?;
                let same_car = own.vehicle == *vehicle;
                (own.vehicle, own.aiming) = (vehicle.clone(), aiming.clone());
                // What was measured on the old car, and where its stands were, says nothing of the new one.
                own.vehicle_fingerprint = Some(fingerprint.clone());
                own.on_this_car = Default::default();
                own.stands.clear();
                if !same_car {
                    own.visit.clear();
                }
                Ok(())
            }
            Self::Bay { bay, renamed, .. } => {
                set_bay(layout, bay, renamed.as_ref());
                Ok(())
            }
            Self::Corner { corner, to } => {
                layout.bay.move_corner(*corner, *to).map_err(|_| EditFault::NoShape)
            }
            Self::Duplicate(name) => {
                free_arrangement(layout, name)?;
                let copy = SavedArrangement { id: name.clone(), ..saved(layout, at)?.clone() };
                layout.arrangements.insert(at + 1, copy);
                Ok(())
            }
            Self::NameArrangement(name) => {
                free_arrangement(layout, name)?;
                saved(layout, at)?.id = name.clone();
                Ok(())
            }
            Self::RemoveArrangement => {
                // Something must be left to show.
                if layout.arrangements.len() < 2 {
                    return Err(EditFault::NoSuch("arrangement".into()));
                }
                layout.arrangements.remove(at);
                Ok(())
            }
            Self::Underlay(picture) => {
                layout.underlay.clone_from(picture);
                Ok(())
            }
            Self::OnThisCar(measured) => {
                saved(layout, at)?.on_this_car = *measured;
                Ok(())
            }
            Self::Visit(aimings) => {
                saved(layout, at)?.visit.clone_from(aimings);
                Ok(())
            }
            Self::Carried(runways) => {
                saved(layout, at)?.on_runways.clone_from(runways);
                Ok(())
            }
            Self::All(edits) => edits.iter().try_for_each(|edit| edit.apply_to(layout, at)),
            Self::Do(step) => match step {
                Step::MoveThing { thing, by } => set_place(layout, at, thing, None, |old| old.shifted(*by)),
                Step::TakeAway { thing } => remove(layout, at, thing),
                Step::MoveCar { by } => move_car(saved(layout, at)?, *by),
                Step::StandOnMark { placement } => set_stand(saved(layout, at)?, placement, StandSet::OnMark),
                Step::OpenDoor { door } => set_door(layout, at, door, false),
                // These ask a person to find something out; nothing changes until it is entered.
                Step::Tape { .. }
                | Step::SurveyFloor
                | Step::EnterFigures
                | Step::EnterAlignment
                | Step::ReviewProfile => Ok(()),
            },
        }
    }
}

fn free_arrangement(layout: &Layout, name: &Id) -> Result<(), EditFault> {
    if layout.arrangements.iter().any(|own| own.id == *name) {
        return Err(EditFault::NameTaken(name.clone()));
    }
    Ok(())
}

/// Arrangements forget doors and runways that are no longer there, and follow those that have another name.
fn set_bay(layout: &mut Layout, bay: &Bay, renamed: Option<&(Id, Id)>) {
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

fn saved(layout: &mut Layout, at: usize) -> Result<&mut SavedArrangement, EditFault> {
    layout.arrangements.get_mut(at).ok_or_else(|| EditFault::NoSuch("arrangement".into()))
}

/// Whether something in the bay, or in one of its arrangements, goes by this name.
pub(crate) fn taken(layout: &Layout, name: &Id) -> bool {
    let added = layout.arrangements.iter().flat_map(|a| &a.added);
    let bay = &layout.bay;
    bay.things.iter().chain(added).any(|t| t.id == *name)
        || bay.openings.iter().any(|o| o.id == *name)
        || bay.walls.iter().any(|w| w.id == *name)
        || bay.runways.iter().any(|r| r.id == *name)
        || bay.floor_features.iter().any(|f| f.id == *name)
        || bay.keep_free.iter().any(|k| k.id == *name)
}

/// A thing of this arrangement, or of the bay.
fn change(layout: &mut Layout, at: usize, id: &Id, f: impl FnOnce(&mut Thing)) -> Result<(), EditFault> {
    let Layout { bay, arrangements, .. } = layout;
    let added = arrangements.get_mut(at).into_iter().flat_map(|a| &mut a.added);
    let thing = added.chain(&mut bay.things).find(|t| t.id == *id);
    thing.map(f).ok_or_else(|| EditFault::NoSuch(id.clone()))
}

/// A thing of the bay is moved in this arrangement only; a thing that is only here has no other place. `known` says how well
/// its new place is known, if that changes.
fn set_place(
    layout: &mut Layout,
    at: usize,
    id: &Id,
    known: Option<Known>,
    f: impl FnOnce(PlanPose) -> PlanPose,
) -> Result<(), EditFault> {
    let at_home = layout.bay.things.iter().find(|t| t.id == *id).map(|t| (t.place, t.known));
    let own = saved(layout, at)?;
    if let Some(thing) = own.added.iter_mut().find(|t| t.id == *id) {
        thing.place = f(thing.place);
        thing.known = known.unwrap_or(thing.known);
        return Ok(());
    }
    let (home, known_at_home) = at_home.ok_or_else(|| EditFault::NoSuch(id.clone()))?;
    let before = own.moved.iter().position(|m| m.thing == *id);
    let there = before.and_then(|i| own.moved.get(i));
    let place = f(there.map_or(home, |m| m.place));
    let known = known.or_else(|| there.and_then(|m| m.known)).filter(|known| *known != known_at_home);
    own.moved.retain(|m| m.thing != *id);
    if place != home || known.is_some() {
        let moved = Moved { thing: id.clone(), place, known };
        own.moved.insert(before.unwrap_or(own.moved.len()).min(own.moved.len()), moved);
    }
    Ok(())
}

fn remove(layout: &mut Layout, at: usize, id: &Id) -> Result<(), EditFault> {
    let in_bay = layout.bay.things.iter().any(|t| t.id == *id);
    let own = saved(layout, at)?;
    let before = own.added.len();
    own.added.retain(|t| t.id != *id);
    if own.added.len() < before {
        return Ok(());
    }
    if !in_bay || own.away.contains(id) {
        return Err(EditFault::NoSuch(id.clone()));
    }
    own.moved.retain(|m| m.thing != *id);
    own.away.push(id.clone());
    Ok(())
}

fn rename(layout: &mut Layout, at: usize, id: &Id, name: &Id) -> Result<(), EditFault> {
    if id == name {
        return Ok(());
    }
    if taken(layout, name) {
        return Err(EditFault::NameTaken(name.clone()));
    }
    change(layout, at, id, |thing| thing.id = name.clone())?;
    for arrangement in &mut layout.arrangements {
        for moved in arrangement.moved.iter_mut().filter(|m| m.thing == *id) {
            moved.thing = name.clone();
        }
        for away in arrangement.away.iter_mut().filter(|a| **a == *id) {
            *away = name.clone();
        }
    }
    Ok(())
}

fn set_stand(own: &mut SavedArrangement, placement: &Id, set: StandSet) -> Result<(), EditFault> {
    own.stands.retain(|(id, _)| id != placement);
    if set != StandSet::OnMark {
        own.stands.push((placement.clone(), set));
    }
    Ok(())
}

fn set_door(layout: &mut Layout, at: usize, door: &Id, shut: bool) -> Result<(), EditFault> {
    let home = layout.bay.openings.iter().find(|o| o.id == *door).map(|o| o.shut);
    let home = home.ok_or_else(|| EditFault::NoSuch(door.clone()))?;
    let own = saved(layout, at)?;
    own.shut.retain(|(id, _)| id != door);
    if shut != home {
        own.shut.push((door.clone(), shut));
    }
    Ok(())
}

/// Marks and targets on their marks go with the car; a stand that was put somewhere is carried along.
fn move_car(own: &mut SavedArrangement, by: DVec2) -> Result<(), EditFault> {
    own.parked = own.parked.shifted(by);
    for (_, set) in &mut own.stands {
        if let StandSet::At { place, .. } = set {
            *place = place.shifted(by);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::*;

    fn demo() -> (Layout, Id) {
        let loaded = baywright_files::open(Path::new("crowded-bay"), None).unwrap();
        (loaded.layout, "As found".into())
    }

    fn place_of(layout: &Layout, arrangement: &Id, thing: &str) -> Option<PlanPose> {
        let library = baywright_files::Library::built_in();
        let resolved = baywright_files::resolve("test", layout, &library, None).unwrap();
        let (_, arrangement) = resolved.arrangements.into_iter().find(|(id, _)| id == arrangement)?;
        arrangement.bay.things.into_iter().find(|t| t.id.as_str() == thing).map(|t| t.place)
    }

    #[test]
    fn a_thing_moves_in_this_arrangement_only() {
        let (layout, here) = demo();
        let place = PlanPose::new(DVec2::new(1_000.0, 1_500.0), 0.5);
        let after = Edit::Place { thing: "trolley".into(), place }.apply(&layout, &here).unwrap();
        assert_eq!(place_of(&after, &here, "trolley"), Some(place));
        assert_eq!(after.bay.things, layout.bay.things);
        let other = layout.arrangements.last().unwrap().id.clone();
        assert_eq!(place_of(&after, &other, "trolley"), place_of(&layout, &other, "trolley"));
        // Back home nothing is left to save.
        let home = place_of(&layout, &here, "trolley").unwrap();
        let back = Edit::Place { thing: "trolley".into(), place: home }.apply(&after, &here).unwrap();
        assert_eq!(back, layout);
    }

    #[test]
    fn what_is_not_there_is_refused() {
        let (layout, here) = demo();
        for edit in [
            Edit::Remove("nothing".into()),
            Edit::Door { door: "nothing".into(), shut: true },
            Edit::Place { thing: "nothing".into(), place: PlanPose::IDENTITY },
            Edit::Rename { thing: "nothing".into(), name: "something".into() },
        ] {
            assert_eq!(edit.apply(&layout, &here), Err(EditFault::NoSuch("nothing".into())));
        }
        assert!(Edit::Remove("trolley".into()).apply(&layout, &"nowhere".into()).is_err());
        let twice = Edit::Rename { thing: "trolley".into(), name: "column".into() };
        assert_eq!(twice.apply(&layout, &here), Err(EditFault::NameTaken("column".into())));
    }

    #[test]
    fn added_renamed_and_removed() {
        let (layout, here) = demo();
        let mut thing = layout.bay.things[0].clone();
        thing.id = "second trolley".into();
        let with = Edit::Add(thing).apply(&layout, &here).unwrap();
        assert!(place_of(&with, &here, "second trolley").is_some());
        let named = Edit::Rename { thing: "second trolley".into(), name: "old trolley".into() };
        let named = named.apply(&with, &here).unwrap();
        assert!(place_of(&named, &here, "old trolley").is_some());
        assert_eq!(Edit::Remove("old trolley".into()).apply(&named, &here).unwrap(), layout);
        let without = Edit::Remove("trolley".into()).apply(&layout, &here).unwrap();
        assert_eq!(place_of(&without, &here, "trolley"), None);
    }

    /// After a step on the screen the answer is the one that the cure was tried with.
    #[test]
    fn a_cure_does_the_same_as_when_it_was_tried() {
        let loaded = baywright_files::open(Path::new("crowded-bay"), None).unwrap();
        let (here, arrangement) = loaded.arrangements[0].clone();
        let mut tried = 0;
        for finding in baywright_planner::assess(&arrangement).findings {
            let Some(cure) = finding.cure else { continue };
            let after = Edit::Do(cure.step.clone()).apply(&loaded.layout, &here).unwrap();
            let library = baywright_files::Library::built_in();
            let resolved = baywright_files::resolve("test", &after, &library, None).unwrap();
            let direct = baywright_planner::cure::apply(&arrangement, &cure.step);
            assert_eq!(resolved.arrangements[0].1.bay.things, direct.bay.things, "{:?}", cure.step);
            assert_eq!(resolved.arrangements[0].1.parked, direct.parked);
            tried += 1;
        }
        assert!(tried > 4);
    }

    #[test]
    fn every_edit_leaves_a_sound_layout() {
        use baywright_planner::model::validate;
        let (layout, here) = demo();
        assert_eq!(validate::layout(&layout), []);
        let edits = [
            Edit::Park(PlanPose::new(DVec2::new(4_000.0, 3_100.0), 0.1)),
            Edit::Door { door: "roller door".into(), shut: false },
            Edit::Reshape { thing: "trolley".into(), shape: Shape::Round { diameter: 500.0 } },
            Edit::Heights { thing: "trolley".into(), span: Span::new(0.0, 500.0).unwrap() },
            Edit::Do(Step::MoveCar { by: DVec2::new(10.0, 0.0) }),
            Edit::Remove("tool cabinet".into()),
        ];
        let last = edits.iter().fold(layout, |now, edit| {
            let after = edit.apply(&now, &here).unwrap();
            assert_eq!(validate::layout(&after), [], "{edit:?}");
            after
        });
        assert!(last.arrangements[0].shut.contains(&("roller door".into(), false)));
    }
}
