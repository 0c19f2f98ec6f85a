//! The differences of two bays, part by part: the room, its walls and openings, the floor, what stands in it.

use std::collections::BTreeMap;

use super::parts::{self, WallAt};
use super::{Change, Difference, Figure};
use crate::assessment::Subject;
use crate::model::{Bay, Id, Opening, Wall};

/// Of so many that are in one bay only, more are not looked through for what has another name now.
const MOST_RENAMED: usize = 100;

/// How the second bay differs from the first: the room, walls, openings, floor features, runways, areas, bays of a hall, things, each list in its
/// order with what is gone at its end. Names of bays, floor levels and permanent marks are the same in all arrangements of one
/// layout and are not compared.
pub fn between(before: &Bay, now: &Bay) -> Vec<Difference> {
    let mut all = Vec::new();
    let room = [
        parts::length(Figure::Ceiling, before.ceiling_mm, now.ceiling_mm),
        (before.walls_known != now.walls_known)
            .then_some(Change::Known([before.walls_known, now.walls_known])),
        (before.provenance != now.provenance).then_some(Change::Source),
    ];
    all.extend(room.into_iter().flatten().map(|what| Difference { of: Subject::Floor, what }));
    let (walls_before, walls_now) = (walls(before), walls(now));
    let renamed = compare(
        (&walls_before, &walls_now),
        |(wall, _)| &wall.id,
        Subject::Wall,
        |was, now| parts::wall(&was.1, &now.1),
        &mut all,
    );
    let called = |bay: &Bay, own: &Opening| bay.walls.get(own.wall).map(|wall| wall.id.clone());
    let other_wall = |was: &Opening, own: &Opening| {
        let (was, own) = (called(before, was)?, called(now, own)?);
        (was != own && renamed.get(&was) != Some(&own)).then_some(Change::Wall([was, own]))
    };
    compare(
        (&before.openings, &now.openings),
        |own| &own.id,
        Subject::Opening,
        |was, own| parts::opening(was, own, other_wall(was, own)),
        &mut all,
    );
    compare(
        (&before.floor_features, &now.floor_features),
        |own| &own.id,
        Subject::FloorFeature,
        parts::feature,
        &mut all,
    );
    compare((&before.runways, &now.runways), |own| &own.id, Subject::Runway, parts::runway, &mut all);
    compare(
        (&before.keep_free, &now.keep_free),
        |own| &own.id,
        Subject::KeepFree,
        parts::keep_free,
        &mut all,
    );
    compare((&before.bays, &now.bays), |own| &own.id, Subject::HallBay, parts::hall_bay, &mut all);
    compare((&before.things, &now.things), |own| &own.id, Subject::Thing, parts::thing, &mut all);
    all
}

fn walls(bay: &Bay) -> Vec<(&Wall, WallAt)> {
    let all = bay.walls.iter().enumerate();
    all.filter_map(|(i, wall)| {
        let (from, to) = bay.wall_ends(i)?;
        Some((wall, WallAt { ends: [from, to], material: wall.material }))
    })
    .collect()
}

/// Compares a list with what it was; gives what has another name now, by its old one.
fn compare<T>(
    (before, now): (&[T], &[T]),
    id: impl Fn(&T) -> &Id,
    subject: impl Fn(Id) -> Subject,
    changes: impl Fn(&T, &T) -> Vec<Change>,
    all: &mut Vec<Difference>,
) -> BTreeMap<Id, Id> {
    let old: BTreeMap<&Id, &T> = before.iter().map(|own| (id(own), own)).collect();
    let new: BTreeMap<&Id, &T> = now.iter().map(|own| (id(own), own)).collect();
    let mut gone: Vec<&T> = before.iter().filter(|own| !new.contains_key(id(own))).collect();
    let mut renamed = BTreeMap::new();
    for own in now {
        let told = |what: Change| Difference { of: subject(id(own).clone()), what };
        if let Some(was) = old.get(id(own)) {
            all.extend(changes(was, own).into_iter().map(told));
            continue;
        }
        let like = gone.iter().take(MOST_RENAMED).position(|was| changes(was, own).is_empty());
        match like.map(|at| gone.remove(at)) {
            Some(was) => {
                all.push(told(Change::Name(id(was).clone())));
                renamed.insert(id(was).clone(), id(own).clone());
            }
            None => all.push(told(Change::New)),
        }
    }
    all.extend(gone.into_iter().map(|was| Difference { of: subject(id(was).clone()), what: Change::Gone }));
    renamed
}

#[cfg(test)]
mod tests {
    use baywright_geometry::{DVec2, PlanPose, Span, angle};

    use super::super::{Kind, between_arrangements};
    use super::*;
    use crate::check::testing::{bay as clear_bay, cabinet, clear};
    use crate::model::{Footprint, Known, Material, OpeningKind, Place, Shape};

    fn bay() -> Bay {
        let mut bay = clear_bay();
        bay.things = vec![cabinet("cabinet", (8_000.0, 5_000.0), 600.0, 400.0)];
        bay.openings = vec![Opening {
            id: "door".into(),
            kind: OpeningKind::RollerDoor,
            wall: 0,
            from_mm: 1_000.0,
            width_mm: 2_000.0,
            span: Span::new(0.0, 2_500.0).unwrap(),
            material: Material::Steel,
            shut: true,
            free_beyond_mm: 0.0,
            is_exit: false,
        }];
        bay
    }

    fn told(change: impl Fn(&mut Bay)) -> Vec<Difference> {
        let before = bay();
        let mut now = before.clone();
        change(&mut now);
        let told = between(&before, &now);
        // What is told of a change is told of it the other way round, too.
        assert_eq!(told.is_empty(), between(&now, &before).is_empty());
        told
    }

    fn of_wall(at: usize, what: Change) -> Difference {
        Difference { of: Subject::Wall(bay().walls[at].id.clone()), what }
    }

    #[test]
    fn nothing_differs_from_itself() {
        assert_eq!(told(|_| ()), []);
        assert_eq!(told(|bay| bay.ceiling_mm += 0.001), [], "less than is spoken of");
    }

    /// A wall pushed out by 600: it runs as before, its neighbours are so much longer.
    #[test]
    fn a_wall_further_out() {
        let long = |at: usize| {
            let bay = bay();
            let (from, to) = bay.wall_ends(at).unwrap();
            from.distance(to)
        };
        let all = told(|bay| bay.push_wall(1, -600.0).unwrap());
        let longer = |at| of_wall(at, Change::Length(Figure::WallLength, [long(at), long(at) + 600.0]));
        assert_eq!(all, [longer(0), of_wall(1, Change::FurtherOut(600.0)), longer(2)]);
        let all = told(|bay| bay.push_wall(1, 250.0).unwrap());
        assert!(all.contains(&of_wall(1, Change::FurtherOut(-250.0))), "{all:?}");
    }

    #[test]
    fn a_corner_elsewhere_turns_two_walls() {
        let all = told(|bay| {
            let corner = bay.room.outer()[2];
            bay.move_corner(2, corner + DVec2::new(300.0, 400.0)).unwrap();
        });
        let ends: Vec<_> = all.iter().filter(|own| matches!(own.what, Change::Ends(_))).collect();
        assert_eq!(ends.len(), 2);
        assert_eq!(*ends[0], of_wall(1, Change::Ends([0.0, 500.0])));
        assert_eq!(*ends[1], of_wall(2, Change::Ends([500.0, 0.0])));
    }

    /// The whole room a metre along: no wall runs otherwise or is longer, and all stand elsewhere.
    #[test]
    fn a_wall_that_slides_is_elsewhere() {
        let all = told(|bay| {
            let corners = bay.room.outer().iter().map(|at| *at + DVec2::new(1_000.0, 0.0)).collect();
            bay.room = baywright_geometry::Polygon::simple(corners).unwrap();
        });
        assert!(all.contains(&of_wall(0, Change::Ends([1_000.0; 2]))), "{all:?}");
        assert!(all.contains(&of_wall(1, Change::FurtherOut(1_000.0))), "{all:?}");
        assert_eq!(all.len(), 4);
    }

    #[test]
    fn openings_with_their_figures() {
        let door = |what| Difference { of: Subject::Opening("door".into()), what };
        let kind = [OpeningKind::RollerDoor, OpeningKind::Gap].map(Kind::Opening);
        let all = told(|bay| {
            let door = &mut bay.openings[0];
            (door.kind, door.shut, door.from_mm, door.width_mm) = (OpeningKind::Gap, false, 1_300.0, 2_400.0);
            door.span = Span::new(0.0, 2_700.0).unwrap();
        });
        assert_eq!(
            all,
            [
                door(Change::Kind(kind)),
                door(Change::Length(Figure::FromCorner, [1_000.0, 1_300.0])),
                door(Change::Length(Figure::Width, [2_000.0, 2_400.0])),
                door(Change::Heights([[0.0, 2_500.0], [0.0, 2_700.0]])),
                door(Change::Shut(false)),
            ]
        );
        let walls = || [0, 2].map(|at| bay().walls[at].id.clone());
        assert_eq!(told(|bay| bay.openings[0].wall = 2), [door(Change::Wall(walls()))]);
        assert_eq!(told(|bay| bay.openings.clear()), [door(Change::Gone)]);
    }

    /// Another name is no other wall, and the door in it is where it was.
    #[test]
    fn a_name_is_a_name() {
        let was = bay().walls[0].id.clone();
        let all = told(|bay| bay.rename_wall(0, "new front".into()));
        assert_eq!(all, [Difference { of: Subject::Wall("new front".into()), what: Change::Name(was) }]);
        let all = told(|bay| bay.things[0].id = "chest".into());
        let named = Change::Name("cabinet".into());
        assert_eq!(all, [Difference { of: Subject::Thing("chest".into()), what: named }]);
        // With another name and in another place it cannot be told from another thing.
        let all = told(|bay| {
            bay.things[0].id = "chest".into();
            bay.things[0].place.at = PlanPose::new(DVec2::new(1_000.0, 1_000.0), 0.0);
        });
        let of = |id: &str, what| Difference { of: Subject::Thing(id.into()), what };
        assert_eq!(all, [of("chest", Change::New), of("cabinet", Change::Gone)]);
    }

    #[test]
    fn things_with_their_figures() {
        let of = |what| Difference { of: Subject::Thing("cabinet".into()), what };
        let by = DVec2::new(-500.0, 200.0);
        let all = told(|bay| {
            let own = &mut bay.things[0];
            let at = PlanPose::new(own.place.at.origin() + by, angle::radians(30.0));
            own.place = Place { at, known: Known::ByEye };
            own.span = Span::new(0.0, 700.0).unwrap();
            own.footprint = Footprint::new(Shape::Round { diameter_mm: 500.0 }).unwrap();
            own.material = Material::Wood;
        });
        let [moved, shape, heights, material, known] = &all[..] else { panic!("{all:?}") };
        assert_eq!(*moved, of(Change::Moved(by, angle::radians(30.0))));
        assert!(
            matches!(&shape.what, Change::Shape([_, now]) if **now == Shape::Round { diameter_mm: 500.0 })
        );
        assert_eq!(*heights, of(Change::Heights([[0.0, 1_000.0], [0.0, 700.0]])));
        assert!(matches!(material.what, Change::Material([_, Material::Wood])));
        assert!(matches!(known.what, Change::Known([_, Known::ByEye])));
    }

    #[test]
    fn floor_runways_areas_and_the_room() {
        use crate::model::{
            FloorFeature, FloorFeatureKind, HallBay, KeepFree, KeepFreeKind, Provenance, Runway,
        };
        let square = |x: f64, size: f64| {
            baywright_geometry::Polygon::rectangle(DVec2::new(x, 500.0), DVec2::new(x + size, 500.0 + size))
                .unwrap()
        };
        let mut before = bay();
        before.floor_features = vec![FloorFeature {
            id: "drain".into(),
            kind: FloorFeatureKind::Drain,
            outline: square(500.0, 200.0),
            material: Material::Steel,
            proud_mm: 0.0,
        }];
        before.runways =
            vec![Runway { id: "left".into(), outline: square(1_000.0, 900.0), top_mm: 300.0, survey: None }];
        before.keep_free =
            vec![KeepFree { id: "exit".into(), kind: KeepFreeKind::Exit, outline: square(3_000.0, 900.0) }];
        before.bays = vec![HallBay { id: "bay 1".into(), outline: square(100.0, 3_000.0) }];
        let mut now = before.clone();
        now.bays[0].outline = square(100.0, 3_500.0);
        now.floor_features[0].outline = square(600.0, 200.0);
        now.floor_features[0].proud_mm = 12.0;
        now.runways[0].top_mm = 500.0;
        now.keep_free[0].outline = square(3_000.0, 1_200.0);
        now.ceiling_mm = before.ceiling_mm + 400.0;
        now.walls_known = Known::ByEye;
        now.provenance = Provenance::Published { source: "a drawing".into() };
        let of = |of: &Subject, what| Difference { of: of.clone(), what };
        let (drain, left, exit) = (
            Subject::FloorFeature("drain".into()),
            Subject::Runway("left".into()),
            Subject::KeepFree("exit".into()),
        );
        assert_eq!(
            between(&before, &now),
            [
                of(
                    &Subject::Floor,
                    Change::Length(Figure::Ceiling, [before.ceiling_mm, before.ceiling_mm + 400.0])
                ),
                of(&Subject::Floor, Change::Known([before.walls_known, Known::ByEye])),
                of(&Subject::Floor, Change::Source),
                of(&drain, Change::Moved(DVec2::new(100.0, 0.0), 0.0)),
                of(&drain, Change::Length(Figure::Proud, [0.0, 12.0])),
                of(&left, Change::Length(Figure::RunwayTop, [300.0, 500.0])),
                of(&exit, Change::Outline([DVec2::splat(900.0), DVec2::splat(1_200.0)])),
                of(
                    &Subject::HallBay("bay 1".into()),
                    Change::Outline([DVec2::splat(3_000.0), DVec2::splat(3_500.0)])
                ),
            ]
        );
    }

    #[test]
    fn the_car_is_told_of_while_it_is_the_same_one() {
        let before = clear();
        let mut now = before.clone();
        now.parked = now.parked.shifted(DVec2::new(0.0, 150.0));
        let moved = Change::Moved(DVec2::new(0.0, 150.0), 0.0);
        assert_eq!(between_arrangements(&before, &now), [Difference { of: Subject::Car, what: moved }]);
        now.vehicle.id = "another".into();
        assert_eq!(between_arrangements(&before, &now), []);
    }
}
