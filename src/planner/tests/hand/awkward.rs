//! Rooms, things and places biased to trouble: turned, tiny, huge, touching, flush, nested, half or wholly outside.

use baywright_planner::geometry::{Bounds, Circle, DVec2, Outline, PlanPose, Polygon, angle};
use baywright_planner::hand::pose_of;
use baywright_planner::model::*;
use baywright_planner::{Scene, Subject};
use proptest::prelude::*;

use crate::support::*;

/// So many cases, unless the environment asks for another number; a failure is printed, not filed.
pub fn config(cases: u32) -> ProptestConfig {
    let wanted = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(wanted.unwrap_or(cases)) }
}

/// A heading: along the axes as often as not.
pub fn heading() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => (-4..=4_i32).prop_map(|q| angle::radians(90.0 * f64::from(q))),
        1 => prop::sample::select(vec![1e-9, -1e-6, 0.01, angle::radians(45.0)]),
        3 => -4.0..4.0_f64,
    ]
}

/// A place in or about the room: on a grid of 50 mm as often as not, so that things touch.
pub fn place() -> impl Strategy<Value = DVec2> {
    prop_oneof![
        (-10..260_i32, -10..140_i32).prop_map(|(x, y)| DVec2::new(f64::from(x), f64::from(y)) * 50.0),
        (-500.0..12_500.0_f64, -500.0..6_500.0_f64).prop_map(|(x, y)| DVec2::new(x, y)),
        (0.0..12_000.0_f64, prop::sample::select(vec![0.0, 225.0, 5_775.0, 6_000.0])).prop_map(DVec2::from),
        (-1e5..1e5_f64, -1e5..1e5_f64).prop_map(DVec2::from),
    ]
}

fn size() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => (1..30_i32).prop_map(|n| 50.0 * f64::from(n)),
        2 => 5.0..2_000.0_f64,
        1 => prop::sample::select(vec![5.0, 5.5, 7_777.0, 20_000.0]),
    ]
}

fn shape() -> impl Strategy<Value = Shape> {
    let corners = |points: &[(f64, f64)]| Shape::Outline(points.iter().map(|&p| p.into()).collect());
    let l = corners(&[(0., 0.), (900., 0.), (900., 300.), (300., 300.), (300., 1_100.), (0., 1_100.)]);
    let c = corners(&[
        (0., 0.),
        (1_400., 0.),
        (1_400., 200.),
        (250., 200.),
        (250., 800.),
        (1_400., 800.),
        (1_400., 1_000.),
        (0., 1_000.),
    ]);
    let spike = corners(&[(-400., 0.), (600., -20.), (600., 20.)]);
    prop_oneof![
        5 => (size(), size()).prop_map(|(length, width)| Shape::Rectangle { length_mm: length, width_mm: width }),
        2 => size().prop_map(|diameter| Shape::Round { diameter_mm: diameter }),
        2 => prop::sample::select(vec![l, c, spike]),
    ]
}

prop_compose! {
    fn thing()(
        shape in shape(),
        at in place(),
        heading in heading(),
        bottom in prop_oneof![4 => Just(0.0), 1 => 0.0..2_800.0_f64],
        height in 3.0..2_000.0_f64,
    ) -> Thing {
        Thing {
            footprint: Footprint::new(shape).unwrap(),
            place: Place { at: PlanPose::new(at, heading), known: Known::Within(0.0) },
            span: span(bottom, bottom + height),
            ..cabinet("thing", (0.0, 0.0), 1.0, 1.0)
        }
    }
}

/// Rectangle, L, and a room without a right angle; their walls anticlockwise.
fn rooms() -> Vec<Polygon> {
    let room = |points: &[(f64, f64)]| Polygon::simple(points.iter().map(|&p| p.into()).collect()).unwrap();
    vec![
        rectangle((0.0, 0.0), (12_000.0, 6_000.0)),
        room(&[(0., 0.), (12_000., 0.), (12_000., 3_500.), (7_000., 3_500.), (7_000., 6_000.), (0., 6_000.)]),
        room(&[(0., 0.), (12_500., 800.), (11_000., 7_000.), (500., 5_000.), (-400., 2_000.)]),
        // One wall in two pieces, and a niche.
        room(&[
            (0., 0.),
            (6_000., 0.),
            (12_000., 0.),
            (12_000., 6_000.),
            (8_000., 6_000.),
            (8_000., 6_600.),
            (6_500., 6_600.),
            (6_500., 6_000.),
            (0., 6_000.),
        ]),
    ]
}

/// The same bay turned and carried off, everything in it too.
fn carried(mut arrangement: Arrangement, by: &PlanPose) -> Arrangement {
    arrangement.bay.room = arrangement.bay.room.placed(by);
    arrangement.parked = *by * arrangement.parked;
    for thing in &mut arrangement.bay.things {
        thing.place.at = *by * thing.place.at;
    }
    for mark in &mut arrangement.bay.marks {
        mark.at = *by * mark.at;
    }
    for set in &mut arrangement.stands {
        if let StandSet::At { place, .. } = set {
            *place = *by * *place;
        }
    }
    arrangement
}

/// An arrangement that prints short enough to paste into a test.
#[derive(Clone)]
pub struct Awkward(Arrangement);

impl std::ops::Deref for Awkward {
    type Target = Arrangement;

    fn deref(&self) -> &Arrangement {
        &self.0
    }
}

impl std::fmt::Debug for Awkward {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let pose = |pose: &PlanPose| (pose.origin().x, pose.origin().y, pose.heading());
        let corners: Vec<_> = self.bay.room.outer().iter().map(|p| (p.x, p.y)).collect();
        writeln!(f, "room {corners:?}")?;
        for thing in &self.bay.things {
            writeln!(
                f,
                "{:?} {:?} at {:?} {:?}",
                thing.id,
                thing.footprint.shape(),
                pose(&thing.place.at),
                thing.span
            )?;
        }
        for mark in &self.bay.marks {
            writeln!(f, "{:?} at {}", mark.id, mark.at)?;
        }
        if let [StandSet::At { place, .. }] = self.stands.as_slice() {
            writeln!(f, "stand at {:?}", pose(place))?;
        }
        write!(f, "parked {:?}", pose(&self.parked))
    }
}

prop_compose! {
    /// An arrangement with anything anywhere.
    pub fn arrangement()(
        room in prop::sample::select(rooms()),
        things in prop::collection::vec(thing(), 1..9),
        parked in prop_oneof![Just(DVec2::new(4_000.0, 3_000.0)), place()],
        car_heading in heading(),
        set in prop::option::of((place(), heading())),
        marks in prop::collection::vec(place(), 0..4),
        turned in prop_oneof![3 => Just(0.0), 1 => heading()],
        far in prop_oneof![3 => Just(DVec2::ZERO), 1 => (-1e5..1e5_f64, -1e5..1e5_f64).prop_map(DVec2::from)],
        // Some things are put exactly beside the one before them, or in one line with it.
        beside in prop::collection::vec(prop::option::weighted(0.3, 0..4_u8), 9),
    ) -> Awkward {
        let mut arrangement = with(things);
        for (i, thing) in arrangement.bay.things.iter_mut().enumerate() {
            thing.id = format!("thing {i}").into();
        }
        for (i, way) in (1..arrangement.bay.things.len()).zip(beside) {
            let Some(way) = way else { continue };
            let before = arrangement.bay.things[i - 1].clone();
            let own = &mut arrangement.bay.things[i];
            let (a, b) = (before.footprint.outline().bounds(), own.footprint.outline().bounds());
            let shift = match way {
                0 => DVec2::new(a.high.x - b.low.x, a.low.y - b.low.y),
                1 => DVec2::new(a.low.x - b.low.x, a.high.y - b.low.y),
                2 => DVec2::new(a.high.x - b.low.x + 300.0, a.high.y - b.high.y),
                _ => DVec2::ZERO,
            };
            own.place.at = PlanPose::new(before.place.at * shift, before.place.at.heading());
        }
        arrangement.bay.walls = (0..room.outer().len())
            .map(|i| Wall { id: format!("wall {i}").into(), material: Material::Brick })
            .collect();
        arrangement.bay.room = room;
        arrangement.parked = PlanPose::new(parked, car_heading);
        arrangement.bay.marks = (0..).zip(marks)
            .map(|(i, at)| PermanentMark::new(format!("fixed {i}").into(), at)).collect();
        if let Some((at, heading)) = set {
            let place = PlanPose::new(at, heading);
            arrangement.stands = vec![StandSet::At { place, height_mm: 500.0, pitch_rad: 0.0 }];
        }
        Awkward(carried(arrangement, &PlanPose::new(far, turned)))
    }
}

/// Everything that can be taken in hand.
pub fn movable(arrangement: &Arrangement) -> Vec<Subject> {
    let things = arrangement.bay.things.iter().map(|thing| Subject::Thing(thing.id.clone()));
    let stands = arrangement.aiming.placements.iter().map(|own| Subject::Stand(own.id.clone()));
    things.chain(stands).chain([Subject::Car]).collect()
}

/// The arrangement with something put elsewhere.
pub fn put(arrangement: &Arrangement, subject: &Subject, place: PlanPose) -> Arrangement {
    let mut after = arrangement.clone();
    match subject {
        Subject::Car => after.parked = place,
        Subject::Thing(id) => after.bay.things.iter_mut().find(|own| own.id == *id).unwrap().place.at = place,
        Subject::Stand(_) | Subject::Target(_) => {
            after.stands = vec![StandSet::At { place, height_mm: 500.0, pitch_rad: 0.0 }];
        }
        other => panic!("{other:?} cannot be moved"),
    }
    assert_eq!(pose_of(&after, &Scene::of(&after), subject), Some(place));
    after
}

/// The boundary of an outline as straight pieces so short that a rim is off by no more than 1e-3 mm or so.
pub fn boundary(outline: &Outline) -> Vec<(DVec2, DVec2)> {
    let ring: Vec<DVec2> = match outline {
        Outline::Polygon(polygon) => polygon.outer().to_vec(),
        Outline::Circle(circle) => rim(circle, 4_000),
    };
    let next: Vec<DVec2> = ring.iter().copied().cycle().skip(1).take(ring.len()).collect();
    ring.into_iter().zip(next).collect()
}

/// Points of a rim, the four outermost among them.
pub fn rim(circle: &Circle, count: u32) -> Vec<DVec2> {
    let step = std::f64::consts::TAU / f64::from(count);
    (0..count).map(|i| circle.centre() + angle::direction(step * f64::from(i)) * circle.radius()).collect()
}

/// What rounding may do to a length in an arrangement, mm.
pub fn slack(arrangement: &Arrangement) -> f64 {
    let things = arrangement.bay.things.iter().map(|thing| thing.prism().outline.bounds());
    let all = things.fold(arrangement.bay.room.bounds(), Bounds::union);
    1e-9 + 1e-13 * all.low.abs().max(all.high.abs()).max_element()
}
