//! What was done to a bay, found by comparing it with what it was.

use crate::assessment::Subject;
use crate::model::{Bay, FloorFeature, HallBay, Id, KeepFree, Opening, PermanentMark, Runway, Thing, Wall};

/// What was done to the bay itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BayDeed {
    /// This was put into it.
    Add(Subject),
    /// This was taken out of it.
    Remove(Subject),
    /// Something about this is other than it was; the floor stands for the room.
    Change(Subject, BayPart),
}

/// What about the room, or about a part of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BayPart {
    /// What it is called.
    Name,
    /// What it is.
    Kind,
    /// What it is made of.
    Material,
    /// Where it is, its outline, its width.
    Place,
    /// How high it is, or from where to where.
    Heights,
    /// Whether it is shut.
    Shut,
    /// How far the ground beyond it is free.
    FreeBeyond,
    /// Whether it is a way out.
    Exit,
    /// How well the walls' places are known.
    WallsKnown,
    /// The floor's levels.
    Levels,
    /// Where the figures come from.
    Source,
    /// Something else.
    Other,
}

impl BayDeed {
    /// What was done to make the one of the other: the first difference, the room's shape before its parts, which follow it.
    pub fn between(before: &Bay, after: &Bay) -> Self {
        if before.room != after.room || before.walls.len() != after.walls.len() {
            return Self::Change(Subject::Floor, BayPart::Place);
        }
        let parts = openings(&before.openings, &after.openings)
            .or_else(|| features(&before.floor_features, &after.floor_features))
            .or_else(|| runways(&before.runways, &after.runways))
            .or_else(|| areas(&before.keep_free, &after.keep_free))
            .or_else(|| bays(&before.bays, &after.bays))
            .or_else(|| things(&before.things, &after.things))
            .or_else(|| marks(&before.marks, &after.marks));
        parts
            .or_else(|| walls(&before.walls, &after.walls))
            .unwrap_or_else(|| Self::Change(Subject::Floor, room(before, after)))
    }
}

fn room(before: &Bay, after: &Bay) -> BayPart {
    let survey = |bay: &Bay| bay.survey.as_ref().map(|own| (own.points.clone(), own.taken, own.how.clone()));
    let sources = |bay: &Bay| (bay.provenance.clone(), bay.survey.as_ref().map(|own| own.provenance.clone()));
    if before.name != after.name {
        BayPart::Name
    } else if before.ceiling_mm != after.ceiling_mm {
        BayPart::Heights
    } else if before.walls_known != after.walls_known {
        BayPart::WallsKnown
    } else if survey(before) != survey(after) {
        BayPart::Levels
    } else if sources(before) != sources(after) {
        BayPart::Source
    } else {
        BayPart::Other
    }
}

/// The first part of a list that came, went or differs.
fn first<T: PartialEq>(
    before: &[T],
    after: &[T],
    id: impl Fn(&T) -> &Id,
    subject: impl Fn(Id) -> Subject,
    part: impl Fn(&T, &T) -> BayPart,
) -> Option<BayDeed> {
    let missing = |from: &[T], own: &&T| !from.iter().any(|other| id(other) == id(own));
    let told = |own: &T| subject(id(own).clone());
    if after.len() > before.len() {
        return after.iter().find(|own| missing(before, own)).map(|own| BayDeed::Add(told(own)));
    }
    if after.len() < before.len() {
        return before.iter().find(|own| missing(after, own)).map(|own| BayDeed::Remove(told(own)));
    }
    let (old, new) = before.iter().zip(after).find(|(old, new)| old != new)?;
    let part = if id(old) != id(new) { BayPart::Name } else { part(old, new) };
    Some(BayDeed::Change(told(new), part))
}

fn openings(before: &[Opening], after: &[Opening]) -> Option<BayDeed> {
    first(
        before,
        after,
        |own| &own.id,
        Subject::Opening,
        |old, new| {
            if old.kind != new.kind {
                BayPart::Kind
            } else if (old.wall, old.from_mm, old.width_mm) != (new.wall, new.from_mm, new.width_mm) {
                BayPart::Place
            } else if old.span != new.span {
                BayPart::Heights
            } else if old.material != new.material {
                BayPart::Material
            } else if old.shut != new.shut {
                BayPart::Shut
            } else if old.free_beyond_mm != new.free_beyond_mm {
                BayPart::FreeBeyond
            } else if old.is_exit != new.is_exit {
                BayPart::Exit
            } else {
                BayPart::Other
            }
        },
    )
}

fn features(before: &[FloorFeature], after: &[FloorFeature]) -> Option<BayDeed> {
    first(
        before,
        after,
        |own| &own.id,
        Subject::FloorFeature,
        |old, new| {
            if old.kind != new.kind {
                BayPart::Kind
            } else if old.material != new.material {
                BayPart::Material
            } else if old.proud_mm != new.proud_mm {
                BayPart::Heights
            } else {
                BayPart::Place
            }
        },
    )
}

fn runways(before: &[Runway], after: &[Runway]) -> Option<BayDeed> {
    first(
        before,
        after,
        |own| &own.id,
        Subject::Runway,
        |old, new| {
            if old.top_mm != new.top_mm {
                BayPart::Heights
            } else if old.survey != new.survey {
                BayPart::Levels
            } else {
                BayPart::Place
            }
        },
    )
}

fn areas(before: &[KeepFree], after: &[KeepFree]) -> Option<BayDeed> {
    first(
        before,
        after,
        |own| &own.id,
        Subject::KeepFree,
        |old, new| {
            if old.kind != new.kind { BayPart::Kind } else { BayPart::Place }
        },
    )
}

fn bays(before: &[HallBay], after: &[HallBay]) -> Option<BayDeed> {
    first(before, after, |own| &own.id, Subject::HallBay, |_, _| BayPart::Place)
}

fn things(before: &[Thing], after: &[Thing]) -> Option<BayDeed> {
    first(before, after, |own| &own.id, Subject::Thing, |_, _| BayPart::Other)
}

fn marks(before: &[PermanentMark], after: &[PermanentMark]) -> Option<BayDeed> {
    let what = |old: &PermanentMark, new: &PermanentMark| {
        if old.at == new.at { BayPart::Other } else { BayPart::Place }
    };
    first(before, after, |own| &own.id, Subject::Mark, what)
}

fn walls(before: &[Wall], after: &[Wall]) -> Option<BayDeed> {
    first(before, after, |own| &own.id, Subject::Wall, |_, _| BayPart::Material)
}

#[cfg(test)]
mod tests {
    use super::super::testing::layout;
    use super::*;
    use crate::geometry::Span;
    use crate::model::{Known, Material};

    #[test]
    fn what_was_done_is_what_differs() {
        let bay = layout().0.bay;
        let door = Subject::Opening("door".into());
        let street = Subject::Wall(bay.walls[0].id.clone());
        type Change = fn(&mut Bay);
        let change = |change: Change| {
            let mut after = bay.clone();
            change(&mut after);
            BayDeed::between(&bay, &after)
        };
        let cases: [(Change, BayDeed); 10] = [
            (|bay| bay.ceiling_mm = 2_900.0, BayDeed::Change(Subject::Floor, BayPart::Heights)),
            (|bay| bay.name = "other".to_owned(), BayDeed::Change(Subject::Floor, BayPart::Name)),
            (|bay| bay.walls_known = Known::ByEye, BayDeed::Change(Subject::Floor, BayPart::WallsKnown)),
            (|bay| bay.walls[0].material = Material::Mesh, BayDeed::Change(street, BayPart::Material)),
            (|bay| bay.openings[0].width_mm += 1.0, BayDeed::Change(door.clone(), BayPart::Place)),
            (|bay| bay.openings[0].is_exit = true, BayDeed::Change(door.clone(), BayPart::Exit)),
            (
                |bay| bay.openings[0].span = Span::new(0.0, 2_000.0).unwrap(),
                BayDeed::Change(door.clone(), BayPart::Heights),
            ),
            (
                |bay| bay.openings[0].id = "gate".into(),
                BayDeed::Change(Subject::Opening("gate".into()), BayPart::Name),
            ),
            (|bay| bay.openings.clear(), BayDeed::Remove(door)),
            (
                |bay| {
                    let mut second = bay.openings[0].clone();
                    second.id = "second".into();
                    bay.openings.insert(0, second);
                },
                BayDeed::Add(Subject::Opening("second".into())),
            ),
        ];
        for (made, expected) in cases {
            assert_eq!(change(made), expected);
        }
        // A corner that moves, or goes with its wall, is told of the room.
        let mut pushed = bay.clone();
        pushed.push_wall(1, 500.0).unwrap();
        let told = BayDeed::Change(Subject::Floor, BayPart::Place);
        assert_eq!(BayDeed::between(&bay, &pushed), told);
    }
}
