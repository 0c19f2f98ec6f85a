//! Places drawn onto what is near.

use baywright_planner::geometry::{Bounds, DVec2, Outline, PlanPose, angle};
use baywright_planner::hand::{Snap, SnapKind, Snapped, gap_to_wall, own_outlines, pose_of, snapped};
use baywright_planner::model::*;
use baywright_planner::{Scene, Subject};
use proptest::prelude::*;

use crate::awkward::{arrangement, boundary, config, heading, movable, put, slack};
use crate::support::*;

fn snap(arrangement: &Arrangement, subject: &Subject, wanted: (f64, f64), reach: f64) -> Snapped {
    let scene = Scene::of(arrangement);
    let heading = pose_of(arrangement, &scene, subject).map_or(0.0, |pose| pose.heading());
    snapped(arrangement, &scene, subject, PlanPose::new(wanted.into(), heading), reach)
}

/// Where it ends, and what it is drawn onto.
fn told(arrangement: &Arrangement, subject: &Subject, wanted: (f64, f64)) -> (DVec2, Vec<SnapKind>) {
    let Snapped { place, onto } = snap(arrangement, subject, wanted, 50.0);
    (place.origin(), onto.into_iter().map(|snap| snap.kind).collect())
}

fn thing(name: &str) -> Subject {
    Subject::Thing(name.into())
}

fn wall(name: &str) -> SnapKind {
    SnapKind::Wall(name.into())
}

#[test]
fn into_a_corner() {
    // The edges of a stand that is far off draw nothing.
    let arrangement = with(vec![cabinet("cabinet", (3_000.0, 1_000.0), 900.0, 450.0)]);
    let subject = thing("cabinet");
    assert_eq!(
        told(&arrangement, &subject, (1_500.0, 5_760.0)),
        ((1_500.0, 5_775.0).into(), vec![wall("left wall")])
    );
    assert_eq!(
        told(&arrangement, &subject, (470.0, 5_760.0)),
        ((450.0, 5_775.0).into(), vec![wall("left wall"), wall("near wall")])
    );
    // A little through the wall it comes back; further off it stays.
    assert_eq!(told(&arrangement, &subject, (1_500.0, 5_820.0)).0, DVec2::new(1_500.0, 5_775.0));
    assert_eq!(told(&arrangement, &subject, (1_500.0, 5_724.0)), ((1_500.0, 5_724.0).into(), vec![]));
    // The guide is the wall.
    let Snap { from, to, .. } = snap(&arrangement, &subject, (1_500.0, 5_760.0), 50.0).onto[0].clone();
    assert_eq!((from, to), (DVec2::new(12_000.0, 6_000.0), DVec2::new(0.0, 6_000.0)));
}

#[test]
fn only_a_wall_that_it_stands_abreast_of_draws() {
    let mut arrangement = with(vec![cabinet("cabinet", (3_000.0, 1_000.0), 900.0, 450.0)]);
    let corners =
        [(0., 0.), (12_000., 0.), (12_000., 3_500.), (7_000., 3_500.), (7_000., 6_000.), (0., 6_000.)];
    arrangement.bay.room =
        baywright_planner::geometry::Polygon::simple(corners.map(DVec2::from).to_vec()).unwrap();
    arrangement.bay.walls =
        (0..6).map(|i| Wall { id: format!("wall {i}").into(), material: Material::Brick }).collect();
    // The wall from (7000, 3500) up ends where the cabinet's far side is at y = 3500.
    assert_eq!(told(&arrangement, &thing("cabinet"), (6_530.0, 4_000.0)).1, [wall("wall 3")]);
    assert_eq!(told(&arrangement, &thing("cabinet"), (6_530.0, 3_300.0)).1, [wall("wall 3")]);
    assert_eq!(told(&arrangement, &thing("cabinet"), (6_530.0, 3_270.0)).1, []);
}

#[test]
fn beside_another_and_in_one_line_with_it() {
    let shelf = cabinet("shelf", (2_000.0, 5_000.0), 1_000.0, 450.0);
    let arrangement = with(vec![cabinet("cabinet", (3_000.0, 1_000.0), 900.0, 450.0), shelf]);
    let edge = || SnapKind::Edge(thing("shelf"));
    // Flush with its end at x = 2500, and both fronts at y = 4775.
    assert_eq!(
        told(&arrangement, &thing("cabinet"), (2_970.0, 5_010.0)),
        ((2_950.0, 5_000.0).into(), vec![edge(), edge()])
    );
    // In one line from further off: the line runs from the shelf to the cabinet's far end.
    let Snapped { place, onto } = snap(&arrangement, &thing("cabinet"), (4_000.0, 5_020.0), 50.0);
    assert_eq!((place.origin(), onto.len()), (DVec2::new(4_000.0, 5_000.0), 1));
    let (low, high) = (onto[0].from.min(onto[0].to), onto[0].from.max(onto[0].to));
    assert!((low.x, high.x) == (1_500.0, 4_450.0) && low.y == high.y, "{onto:?}");
    // A lamp overhead draws nothing.
    let mut overhead = arrangement.clone();
    overhead.bay.things[1].span = span(2_500.0, 2_600.0);
    assert_eq!(told(&overhead, &thing("cabinet"), (4_000.0, 5_020.0)).1, []);
    // Nor does an edge that is not parallel.
    let mut askew = arrangement;
    askew.bay.things[1].place.at = PlanPose::new(DVec2::new(2_000.0, 5_000.0), 0.1);
    assert_eq!(told(&askew, &thing("cabinet"), (2_970.0, 5_010.0)).1, []);
}

#[test]
fn the_middle_comes_onto_marks_and_the_centreline() {
    let mut arrangement = with(vec![cabinet("cabinet", (9_000.0, 1_000.0), 900.0, 450.0)]);
    arrangement.bay.marks = vec![PermanentMark::new("A".into(), DVec2::new(10_200.0, 2_950.0))];
    let mark = |id: &str| SnapKind::Mark(id.into());
    // Nearer to the centreline than to the mark: a mark is a place and comes first.
    assert_eq!(
        told(&arrangement, &thing("cabinet"), (10_180.0, 2_985.0)),
        ((10_200.0, 2_950.0).into(), vec![mark("A")])
    );
    assert_eq!(
        told(&arrangement, &thing("cabinet"), (10_400.0, 2_985.0)),
        ((10_400.0, 3_000.0).into(), vec![SnapKind::Centreline])
    );
    let line = &snap(&arrangement, &thing("cabinet"), (10_400.0, 2_985.0), 50.0).onto[0];
    assert_eq!((line.from, line.to), (DVec2::new(4_000.0, 3_000.0), DVec2::new(10_400.0, 3_000.0)));
    // A stand comes back to where it belongs, though a mark lies there too, whichever of its two names it goes by.
    for subject in [Subject::Stand("ahead".into()), Subject::Target("ahead".into())] {
        assert_eq!(
            told(&arrangement, &subject, (8_790.0, 3_030.0)),
            ((8_800.0, 3_000.0).into(), vec![SnapKind::Place("ahead".into())])
        );
    }
}

#[test]
fn the_car_comes_onto_permanent_marks_with_a_wheel_or_its_front_axle() {
    let mut arrangement = clear();
    let mark = |at: (f64, f64)| vec![PermanentMark::new("A".into(), at.into())];
    // None of the marks that are laid out from it, which are all about it.
    assert_eq!(told(&arrangement, &Subject::Car, (4_000.0, 3_000.0)), ((4_000.0, 3_000.0).into(), vec![]));
    arrangement.bay.marks = mark((4_020.0, 3_010.0));
    let on = vec![SnapKind::Mark("A".into())];
    assert_eq!(
        told(&arrangement, &Subject::Car, (4_000.0, 3_000.0)),
        ((4_020.0, 3_010.0).into(), on.clone())
    );
    // The rear left wheel stands at (-2600, 770) of the car.
    arrangement.bay.marks = mark((1_400.0, 3_740.0));
    assert_eq!(told(&arrangement, &Subject::Car, (4_000.0, 3_000.0)), ((4_000.0, 2_970.0).into(), on));
}

#[test]
fn without_reach_nothing_is_drawn() {
    let arrangement = with(vec![cabinet("cabinet", (3_000.0, 5_775.0), 900.0, 450.0)]);
    let scene = Scene::of(&arrangement);
    let wanted = PlanPose::new(DVec2::new(3_000.0, 5_775.0), 0.0);
    for reach in [0.0, -1.0, f64::NAN] {
        let got = snapped(&arrangement, &scene, &thing("cabinet"), wanted, reach);
        assert_eq!(got, Snapped { place: wanted, onto: vec![] });
    }
    let got = snapped(&arrangement, &scene, &Subject::Floor, wanted, 50.0);
    assert_eq!(got, Snapped { place: wanted, onto: vec![] });
    let wild = PlanPose::new(DVec2::new(f64::NAN, 0.0), 0.0);
    assert_eq!(snapped(&arrangement, &scene, &thing("cabinet"), wild, 50.0).place, wanted);
}

/// Places that are nearly somewhere.
fn nearly() -> impl Strategy<Value = (usize, f64, f64, f64, f64)> {
    (0..64_usize, -60.0..60.0_f64, -60.0..60.0_f64, heading(), prop_oneof![Just(50.0), 0.0..300.0_f64])
}

/// A wanted place near a wall, a mark, a thing or the centreline.
fn wanted(arrangement: &Arrangement, subject: &Subject, which: usize, off: DVec2, heading: f64) -> PlanPose {
    let scene = Scene::of(arrangement);
    let pose = pose_of(arrangement, &scene, subject).unwrap();
    let bounds =
        own_outlines(arrangement, &scene, subject).iter().map(Outline::bounds).reduce(Bounds::union).unwrap();
    let walls: Vec<_> = arrangement.bay.room.edges().collect();
    let edge = walls[which % walls.len()];
    let along = (edge.to - edge.from).normalize();
    match which % 4 {
        0 => {
            let turned = PlanPose::new(DVec2::ZERO, angle::heading(along));
            let at = edge.at(0.1 + 0.012 * which as f64) - turned * DVec2::new(0.0, bounds.low.y) + off;
            PlanPose::new(at, turned.heading())
        }
        1 => {
            let thing = &arrangement.bay.things[which % arrangement.bay.things.len()];
            let other = thing.footprint.outline().bounds();
            let beside = DVec2::new(other.high.x - bounds.low.x, other.high.y - bounds.high.y);
            PlanPose::new(thing.place.at * beside + off, thing.place.at.heading())
        }
        2 if !arrangement.bay.marks.is_empty() => {
            PlanPose::new(arrangement.bay.marks[which % arrangement.bay.marks.len()].at + off, heading)
        }
        2 => PlanPose::new(scene.bay_from_vehicle * DVec2::new(5_000.0, 0.0) + off, heading),
        _ => PlanPose::new(pose.origin() + off, heading),
    }
}

/// Where something lies along a direction.
fn extent(outlines: &[Outline], way: DVec2) -> (f64, f64) {
    let all = outlines.iter().map(|outline| match outline {
        Outline::Circle(c) => (c.centre().dot(way) - c.radius(), c.centre().dot(way) + c.radius()),
        Outline::Polygon(p) => {
            let at: Vec<f64> = p.outer().iter().map(|p| p.dot(way)).collect();
            (
                at.iter().copied().fold(f64::INFINITY, f64::min),
                at.iter().copied().fold(f64::NEG_INFINITY, f64::max),
            )
        }
    });
    all.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1))).unwrap()
}

proptest! {
    #![proptest_config(config(500))]

    #[test]
    fn what_is_said_holds_afterwards(
        arrangement in arrangement(),
        (which, x, y, heading, reach) in nearly(),
    ) {
        let scene = Scene::of(&arrangement);
        let slack = slack(&arrangement) * 100.0;
        for subject in movable(&arrangement) {
            let wanted = wanted(&arrangement, &subject, which, DVec2::new(x, y), heading);
            let Snapped { place, onto } = snapped(&arrangement, &scene, &subject, wanted, reach);
            prop_assert_eq!(place.heading(), wanted.heading());
            prop_assert!(place.origin().distance(wanted.origin()) <= 1.5 * reach + slack);
            prop_assert!(onto.len() <= 2);
            prop_assert!(!onto.is_empty() || place == wanted);
            let after = put(&arrangement, &subject, place);
            let scene_after = Scene::of(&after);
            let outlines = own_outlines(&after, &scene_after, &subject);
            let own: Vec<Outline> = outlines.iter().map(|own| own.placed(&place)).collect();
            let mut ways: Vec<DVec2> = Vec::new();
            for snap in &onto {
                prop_assert!(snap.from.is_finite() && snap.to.is_finite());
                // A line without length has no direction but that of rounding.
                let line = snap.to - snap.from;
                let along = if line.length() <= 1e-9 { DVec2::ZERO } else { line.normalize_or_zero() };
                match &snap.kind {
                    SnapKind::Wall(id) => {
                        let index = after.bay.walls.iter().position(|wall| wall.id == *id).unwrap();
                        let gap = gap_to_wall(&after, &scene_after, &subject, index).unwrap();
                        prop_assert!(gap.gap_mm.abs() < 1e-6, "{gap:?}");
                    }
                    SnapKind::Edge(other) => {
                        prop_assert!(*other != subject && subject != Subject::Car);
                        // One of its extreme sides lies on the line of one of the other's edges.
                        let normal = along.perp();
                        let (low, high) = extent(&own, normal);
                        let at = snap.from.dot(normal);
                        prop_assert!((low - at).abs().min((high - at).abs()) < 1e-6 + slack, "{snap:?}");
                        let edges: Vec<_> = match other {
                            Subject::Thing(id) => {
                                let other = after.bay.things.iter().find(|other| other.id == *id).unwrap();
                                boundary(&other.prism().outline)
                            }
                            _ => scene.targets[0].solids.iter().flat_map(|s| boundary(&s.outline)).collect(),
                        };
                        let on = |p: DVec2| (p.dot(normal) - at).abs() < 1e-6 + slack;
                        prop_assert!(edges.iter().any(|&(a, b)| on(a) && on(b)), "{snap:?}");
                        // The line reaches along both.
                        let (low, high) = extent(&own, along);
                        let (from, to) = (snap.from.dot(along), snap.to.dot(along));
                        prop_assert!(from <= low + slack && to >= high - slack);
                    }
                    SnapKind::Mark(id) => {
                        prop_assert_eq!(onto.len(), 1);
                        let permanent = after.bay.marks.iter().find(|mark| mark.id == *id);
                        let at = permanent.map_or_else(
                            || scene.marks.iter().find(|mark| mark.id == *id).unwrap().at.unwrap(),
                            |mark| mark.at,
                        );
                        let mut points = vec![place.origin()];
                        match &subject {
                            Subject::Car => {
                                prop_assert!(permanent.is_some());
                                points.extend(scene_after.wheels);
                            }
                            Subject::Thing(_) => {
                                points = vec![place * outlines[0].bounds().centre()];
                            }
                            _ => {}
                        }
                        prop_assert!(points.iter().any(|p| p.distance(at) < 1e-6), "{points:?} {at}");
                    }
                    SnapKind::Centreline => {
                        prop_assert!(subject != Subject::Car);
                        let middle = match &subject {
                            Subject::Thing(_) => place * outlines[0].bounds().centre(),
                            _ => place.origin(),
                        };
                        prop_assert!((scene.bay_from_vehicle.inverse() * middle).y.abs() < 1e-6);
                        prop_assert!(snap.from.distance(middle).min(snap.to.distance(middle)) < 1e-6 + slack);
                    }
                    SnapKind::Place(id) => {
                        prop_assert_eq!(&subject, &Subject::Stand(id.clone()));
                        prop_assert!(place.origin().distance(scene.targets[0].meant.place.origin()) < 1e-6);
                    }
                }
                if along != DVec2::ZERO {
                    prop_assert!(ways.iter().all(|way| way.perp_dot(along).abs() >= 0.49), "{onto:?}");
                    ways.push(along);
                }
            }
        }
    }

    /// Nothing within reach is passed over for something further off.
    #[test]
    fn the_nearest_wins(arrangement in arrangement(), (which, x, y, heading, reach) in nearly()) {
        let scene = Scene::of(&arrangement);
        for subject in movable(&arrangement) {
            let wanted = wanted(&arrangement, &subject, which, DVec2::new(x, y), heading);
            let Snapped { place, onto } = snapped(&arrangement, &scene, &subject, wanted, reach);
            let there = put(&arrangement, &subject, wanted);
            let scene_there = Scene::of(&there);
            let outlines = own_outlines(&there, &scene_there, &subject);
            let own: Vec<Outline> = outlines.iter().map(|own| own.placed(&wanted)).collect();
            let middle = if matches!(subject, Subject::Thing(_)) {
                wanted * outlines[0].bounds().centre()
            } else {
                wanted.origin()
            };
            let on_mark = onto.iter().any(|snap| matches!(snap.kind, SnapKind::Mark(_) | SnapKind::Place(_)));
            for mark in &arrangement.bay.marks {
                if reach > 0.0 && mark.at.distance(middle) < reach {
                    let by = place.origin().distance(wanted.origin());
                    prop_assert!(on_mark && by <= mark.at.distance(middle) + 2e-3);
                }
            }
            if on_mark {
                continue;
            }
            // How far each line would have drawn it, with the direction in which.
            let mut near: Vec<(f64, DVec2)> = Vec::new();
            for (i, edge) in arrangement.bay.room.edges().enumerate() {
                let gap = gap_to_wall(&there, &scene_there, &subject, i).unwrap();
                let along = (edge.to - edge.from).normalize();
                let (low, high) = extent(&own, along);
                if low < edge.to.dot(along) - 0.01 && high > edge.from.dot(along) + 0.01 {
                    near.push((gap.gap_mm.abs(), gap.inward));
                }
            }
            if subject != Subject::Car {
                let own = scene.bay_from_vehicle.inverse() * middle;
                near.push((own.y.abs(), scene.bay_from_vehicle.left()));
            }
            let by = place.origin() - wanted.origin();
            for (off, normal) in near.into_iter().filter(|(off, _)| *off < reach - 1e-6) {
                prop_assert!(!onto.is_empty());
                // What is drawn onto first is nearer than this one; and if nothing runs as this one does, the two are too
                // nearly parallel, or together too far.
                let first = &onto[0];
                let square = (first.to - first.from).normalize_or_zero().perp();
                prop_assert!(by.dot(square).abs() <= off + 1e-6, "{onto:?} {off} {normal}");
                if onto.len() == 1 && (first.to - first.from).normalize_or_zero().dot(normal).abs() > 0.99 {
                    let both = by.dot(square).hypot(off);
                    prop_assert!(both > 1.4 * reach, "{onto:?} {off} {normal}");
                }
            }
        }
    }

    #[test]
    fn it_may_be_asked_anything(
        arrangement in arrangement(),
        (x, y, heading, reach) in (any::<f64>(), any::<f64>(), prop::num::f64::ANY, prop::num::f64::ANY),
    ) {
        let scene = Scene::of(&arrangement);
        for subject in movable(&arrangement) {
            let wanted = PlanPose::new(DVec2::new(x, y), heading);
            let got = snapped(&arrangement, &scene, &subject, wanted, reach);
            prop_assert!(got.place.origin().is_finite() && got.place.heading().is_finite(), "{got:?}");
            for snap in got.onto {
                prop_assert!(snap.from.is_finite() && snap.to.is_finite());
            }
        }
    }
}
