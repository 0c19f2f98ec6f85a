//! What must hold for every way in that is found, against a simulation of small steps that shares nothing with the search.

// A missing way fails the test, as it should.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use baywright_geometry::way_in::{
    Answer, Car, Goal, HEM_MM, Limits, Piece, Question, Start, Turning, WayIn, least_room, swept, way_in,
};
use baywright_geometry::{DVec2, Outline, PlanPose, Polygon, Region, Segment, angle, distance, overlaps_by};
use proptest::prelude::*;
use proptest::strategy::ValueTree;

/// references.md, swept path: inner radius, width, wheelbase, front overhang; and a rear overhang of our own.
const INNER: f64 = 4_000.0;
const WIDTH: f64 = 1_745.0;
const WHEELBASE: f64 = 2_550.0;
const FRONT: f64 = 810.0;
const REAR: f64 = 850.0;

fn rectangle(x: (f64, f64), y: (f64, f64)) -> Vec<DVec2> {
    [(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)].map(DVec2::from).to_vec()
}

fn outline() -> Vec<DVec2> {
    rectangle((-WHEELBASE - REAR, FRONT), (-0.5 * WIDTH, 0.5 * WIDTH))
}

fn car() -> Car {
    Car::new(&[outline()], WHEELBASE, Turning::InnerRadius { radius: INNER }).unwrap()
}

/// The outer circle of the front corner and of the rear one.
fn outer() -> (f64, f64) {
    ((INNER + WIDTH).hypot(WHEELBASE + FRONT), (INNER + WIDTH).hypot(REAR))
}

/// The pose of the vehicle frame when the middle of the rear axle is there.
fn by_rear(x: f64, y: f64, heading: f64) -> PlanPose {
    let (sin, cos) = libm::sincos(heading);
    PlanPose::new(DVec2::new(x + WHEELBASE * cos, y + WHEELBASE * sin), heading)
}

/// Every place of the outline at every millimetre of the rear axle and every twentieth of a degree, by integrating the motion.
fn driven(from: &PlanPose, pieces: &[Piece], mut each: impl FnMut(&[DVec2])) -> PlanPose {
    let (mut heading, (sin, cos)) = (from.heading(), libm::sincos(from.heading()));
    let (mut x, mut y) = (from.origin().x - WHEELBASE * cos, from.origin().y - WHEELBASE * sin);
    let placed = |x: f64, y: f64, heading: f64| -> Vec<DVec2> {
        let (sin, cos) = libm::sincos(heading);
        let point = |p: &DVec2| {
            let (along, left) = (p.x + WHEELBASE, p.y);
            DVec2::new(x + along * cos - left * sin, y + along * sin + left * cos)
        };
        outline().iter().map(point).collect()
    };
    each(&placed(x, y, heading));
    for piece in pieces {
        let turn = piece.curvature * piece.length;
        let steps = piece.length.abs().max(angle::degrees(turn.abs()) / 0.05).ceil().max(1.0);
        let (x0, y0, h0) = (x, y, heading);
        for i in 1..=steps as usize {
            let run = piece.length * (i as f64 / steps);
            let h1 = h0 + piece.curvature * run;
            (x, y, heading) = if piece.curvature == 0.0 {
                (x0 + run * libm::cos(h0), y0 + run * libm::sin(h0), h0)
            } else {
                let radius = 1.0 / piece.curvature;
                let (s0, c0) = libm::sincos(h0);
                let (s1, c1) = libm::sincos(h1);
                (x0 + radius * (s1 - s0), y0 - radius * (c1 - c0), h1)
            };
            each(&placed(x, y, heading));
        }
    }
    by_rear(x, y, heading)
}

/// Whether a point lies in the region or on its edge.
fn covers(region: &Region, p: DVec2) -> bool {
    region.holds(p) || region.to_edge(p) < 1e-6
}

fn outlined(ring: &[DVec2]) -> Outline {
    Polygon::simple(ring.to_vec()).unwrap().into()
}

#[derive(Clone, Debug)]
struct Room {
    rings: Vec<Vec<DVec2>>,
    obstacles: Vec<Vec<DVec2>>,
    start: Start,
    goal: Goal,
    keep: f64,
}

impl Room {
    fn asked(&self, car: &Car, most_changes: usize, most_places: usize) -> Answer {
        let floor = Region::left(&self.rings, &[]);
        let limits = Limits { most_changes, most_places };
        let Self { obstacles, start, goal, keep, .. } = self;
        let (starts, keep, goal) = ([*start], *keep, *goal);
        let question =
            Question { car, obstacles, meets: &[], floor: &floor, keep, starts: &starts, goal, limits };
        way_in(&question, &|| false)
    }

    /// Seen in a mirror on the line x = 0, with the nose still in front.
    fn mirrored(&self) -> Self {
        let flip = |p: DVec2| DVec2::new(-p.x, p.y);
        let ring = |ring: &Vec<DVec2>| -> Vec<DVec2> { ring.iter().rev().map(|&p| flip(p)).collect() };
        let pose = |pose: PlanPose| PlanPose::new(flip(pose.origin()), angle::wrapped(PI - pose.heading()));
        let sill = Segment::new(flip(self.start.sill.from), flip(self.start.sill.to));
        Self {
            rings: self.rings.iter().map(ring).collect(),
            obstacles: self.obstacles.iter().map(ring).collect(),
            start: Start { pose: pose(self.start.pose), sill },
            goal: Goal { pose: pose(self.goal.pose), ..self.goal },
            keep: self.keep,
        }
    }

    /// What must hold of a way, by the small steps.
    fn holds(&self, way: &WayIn) {
        let floor = Region::left(&self.rings, &[]);
        let things: Vec<Outline> = self.obstacles.iter().map(|ring| outlined(ring)).collect();
        let mut nearest = f64::INFINITY;
        let mut count = 0_usize;
        let end = driven(&self.start.pose, &way.pieces, |placed| {
            assert!(placed.iter().all(|&p| covers(&floor, p)), "off the floor at {placed:?}");
            let own = outlined(placed);
            assert!(
                things.iter().all(|thing| !overlaps_by(thing, &own, 1e-6)),
                "meets a thing at {placed:?}"
            );
            count += 1;
            if count % 10 == 1 {
                assert!(Region::left(&[placed.to_vec()], &self.rings).area() < 1.0);
                assert!(placed.iter().all(|&p| covers(&way.swept, p)), "not covered: {placed:?}");
                let gaps = things.iter().map(|thing| distance(thing, &own).gap());
                nearest = gaps.fold(nearest, f64::min);
            }
        });
        let off = end.origin().distance(self.goal.pose.origin());
        let turned = angle::wrapped(end.heading() - self.goal.pose.heading()).abs();
        assert!(off <= self.goal.slack + 1e-4 && turned <= self.goal.slack_heading + 1e-8, "{off} {turned}");
        assert!(end.origin().distance(way.end.origin()) < 1e-4);
        assert!(way.room <= nearest + 1e-6, "{} told, {nearest} met", way.room);
        assert!(way.room >= (self.keep - 0.5).max(0.0) - 1e-6, "{} told, {} asked", way.room, self.keep);
    }
}

/// A hall of 15 by 9 m with a door in its left wall and a yard before it.
fn hall(obstacles: Vec<Vec<DVec2>>, goal: PlanPose, keep: f64) -> Room {
    let rings = vec![
        rectangle((0.0, 15e3), (0.0, 9e3)),
        rectangle((-301.0, 1.0), (3000.0, 6000.0)),
        rectangle((-9e3, -300.0), (0.0, 9e3)),
    ];
    let sill = Segment::new(DVec2::new(0.0, 3000.0), DVec2::new(0.0, 6000.0));
    let start = Start { pose: PlanPose::new(DVec2::new(-1500.0, 4500.0), 0.0), sill };
    Room { rings, obstacles, start, goal: Goal { pose: goal, slack: 20.0, slack_heading: 0.005 }, keep }
}

fn thing() -> impl Strategy<Value = Vec<DVec2>> {
    (2e3..15e3_f64, 0.0..9e3_f64, 0.0..TAU, 200.0..1500.0_f64, 200.0..1200.0_f64).prop_map(
        |(x, y, turn, w, h)| {
            let own = PlanPose::new(DVec2::new(x, y), turn);
            rectangle((-0.5 * w, 0.5 * w), (-0.5 * h, 0.5 * h)).into_iter().map(|p| own * p).collect()
        },
    )
}

fn room() -> impl Strategy<Value = Room> {
    let goal = (4.5e3..12e3_f64, 1.5e3..7.5e3_f64, 0..4_u8, -0.05..0.05_f64);
    let things = prop::collection::vec(thing(), 0..6);
    (things, goal, 0..2_u8).prop_map(|(things, (x, y, quarter, off), keep)| {
        let pose = PlanPose::new(DVec2::new(x, y), FRAC_PI_2 * f64::from(quarter) + off);
        hall(things, pose, 80.0 * f64::from(keep))
    })
}

fn pieces() -> impl Strategy<Value = Vec<Piece>> {
    let piece = (-1..=1_i8, -9e3..9e3_f64, 1.0..2.0_f64).prop_map(|(steer, length, wider)| Piece {
        curvature: f64::from(steer) / (wider * (INNER + 0.5 * WIDTH)),
        length,
    });
    prop::collection::vec(piece, 1..4)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_mirrored_room_has_the_mirrored_way(room in room()) {
        let (own, other) = (room.asked(&car(), 5, 600), room.mirrored().asked(&car(), 5, 600));
        match (&own, &other) {
            (Answer::Found(own), Answer::Found(other)) => {
                prop_assert_eq!(own.pieces.len(), other.pieces.len());
                prop_assert_eq!((own.changes, own.nose_first), (other.changes, other.nose_first));
                // As near to things, if there are any.
                prop_assert!(own.room == other.room || (own.room - other.room).abs() < 1.0);
                for (a, b) in own.pieces.iter().zip(&other.pieces) {
                    prop_assert!((a.length - b.length).abs() < 1e-3, "{:?} {:?}", a, b);
                    prop_assert!((a.curvature + b.curvature).abs() < 1e-12);
                }
            }
            _ => prop_assert_eq!(own, other),
        }
    }

    /// All outlines lie in what is swept, and no point of its edge is further from the nearest of them than the hem, and what
    /// two places of the simulation leave between them.
    #[test]
    fn what_is_swept_is_what_the_small_steps_cover(pieces in pieces(), heading in 0.0..TAU) {
        const BETWEEN_STEPS_MM: f64 = 0.7;
        let from = by_rear(500.0, -300.0, heading);
        let region = swept(&car(), &from, &pieces);
        let mut all: Vec<Vec<DVec2>> = Vec::new();
        driven(&from, &pieces, |placed| all.push(placed.to_vec()));
        for placed in &all {
            prop_assert!(placed.iter().all(|&p| covers(&region, p)));
        }
        for placed in all.iter().step_by(400) {
            let rings: Vec<Vec<DVec2>> = region.rings().map(<[DVec2]>::to_vec).collect();
            prop_assert!(Region::left(std::slice::from_ref(placed), &rings).area() < 1.0);
        }
        for ring in region.rings() {
            for (i, &p) in ring.iter().enumerate() {
                let q = ring[(i + 1) % ring.len()];
                for p in [p, (p + q) * 0.5] {
                    let off = all.iter().map(|placed| outside(placed, p)).fold(f64::INFINITY, f64::min);
                    prop_assert!(off <= HEM_MM + BETWEEN_STEPS_MM, "{} at {}", off, p);
                }
            }
        }
    }
}

/// In random rooms where the goal is clear; a way is found in most, so that what must hold of it is asked.
#[test]
fn a_way_that_is_found_meets_nothing_and_ends_there() {
    let mut dice = proptest::test_runner::TestRunner::deterministic();
    let (mut found, mut asked) = (0, 0);
    while asked < 60 {
        let room = room().new_tree(&mut dice).unwrap().current();
        match room.asked(&car(), 5, 3_000) {
            Answer::Found(way) => {
                room.holds(&way);
                (found, asked) = (found + 1, asked + 1);
            }
            Answer::NotFound { .. } => asked += 1,
            _ => {}
        }
    }
    assert!(found >= 40, "found in {found} of {asked} rooms");
}

/// How far a point is from a rectangle given by its corners; 0 inside.
fn outside(placed: &[DVec2], p: DVec2) -> f64 {
    let (along, across) = (placed[1] - placed[0], placed[3] - placed[0]);
    let off = |axis: DVec2| {
        let share = (p - placed[0]).dot(axis) / axis.length();
        (share - axis.length()).max(-share).max(0.0)
    };
    off(along).hypot(off(across))
}

/// The ring between the circles of the innermost side and of the outermost corner.
#[test]
fn a_full_turn_sweeps_the_closed_annulus() {
    let circle = Piece { curvature: 1.0 / car().radius(), length: TAU * car().radius() };
    let region = swept(&car(), &by_rear(car().radius(), 0.0, FRAC_PI_2), &[circle]);
    let far = outer().0;
    assert!((far - 6655.42).abs() < 0.01 && (car().outer_radius() - far).abs() < 1e-9);
    assert!((car().inner_radius() - INNER).abs() < 1e-9);
    let exact = PI * (far * far - INNER * INNER);
    let hem = TAU * (far + INNER) * HEM_MM;
    assert!((exact - 1.0..exact + hem).contains(&region.area()), "{} not {exact}", region.area());
    for p in region.rings().flatten() {
        let off = p.length();
        assert!((INNER - HEM_MM..=far + HEM_MM).contains(&off), "{off}");
    }
    assert!(!region.holds(DVec2::ZERO) && region.shapes()[0].len() == 2);
}

/// The turning circle of a data sheet and the inner radius name the same car: (D/2)² = (R + t/2)² + L².
#[test]
fn a_turning_circle_is_an_inner_radius() {
    let (track, radius) = (1_700.0, INNER + 0.5 * WIDTH);
    let circle = 2.0 * (radius + 0.5 * track).hypot(WHEELBASE);
    let same = Car::new(&[outline()], WHEELBASE, Turning::KerbToKerb { circle, track }).unwrap();
    assert!((same.radius() - car().radius()).abs() < 1e-9);
    let none = Car::new(&[outline()], WHEELBASE, Turning::KerbToKerb { circle: 4_000.0, track });
    assert!(none.is_err());
}

/// Turning round between two long walls.
///
/// Without a change of gear the least width is √((Ri + w)² + (L + a)²) + √((Ri + w)² + b²), by proof: from the last time
/// that the heading
/// is along the one wall to the first time that it is along the other, the rear axle moves across by no less than at full lock.
fn half_turn(width: f64) -> Room {
    let (front, rear) = outer();
    let low = rear - (INNER + WIDTH) + 0.5 * WIDTH + 2.0;
    let high = width - (front - (INNER + WIDTH) + 0.5 * WIDTH + 2.0);
    let start = Start {
        pose: by_rear(8e3, low, 0.0),
        sill: Segment::new(DVec2::new(5e3, 0.0), DVec2::new(5e3, width)),
    };
    let goal = Goal { pose: by_rear(6e3, high, PI), slack: 5.0, slack_heading: 0.002 };
    Room { rings: vec![rectangle((0.0, 20e3), (0.0, width))], obstacles: Vec::new(), start, goal, keep: 0.0 }
}

#[test]
fn a_half_turn_between_walls_needs_its_known_width() {
    let least = outer().0 + outer().1;
    let above = half_turn(least + 6.0);
    let Answer::Found(way) = above.asked(&car(), 0, 5_000) else { panic!("not found above") };
    assert_eq!(way.changes, 0);
    above.holds(&way);
    let below = half_turn(least - 6.0);
    let answer = below.asked(&car(), 0, 5_000);
    assert!(matches!(answer, Answer::NotFound { .. }), "found below: {answer:?}");
    // With changes of gear there is a way, a good deal below too.
    let narrow = half_turn(least - 3_000.0);
    let Answer::Found(way) = narrow.asked(&car(), 4, 20_000) else { panic!("not found with changes") };
    assert!((1..=4).contains(&way.changes));
    narrow.holds(&way);
}

/// Round a corner, from a corridor of one width into one square to it. By one arc at full lock the corner has to lie within
/// the inner
/// circle and both walls beyond the outer ones: (R₁ - W₁)² + (R₂ - W₂)² = Ri² with R₁ the circle of the outer rear corner
/// and R₂ that of
/// the outer front one. Both corridors are wider than that by `more`.
fn corner(first: f64, more: f64) -> Room {
    let (front, rear) = outer();
    let across = rear - first;
    let along = (INNER * INNER - across * across).sqrt();
    // The turning centre is the origin, in the middle of what there is more.
    let (right, top) = (rear + 0.5 * more, front + 0.5 * more);
    let (left, bottom) = (across - 0.5 * more, along - 0.5 * more);
    let rings = vec![rectangle((left, right), (-9e3, top)), rectangle((-12e3, right), (bottom, top))];
    let radius = INNER + 0.5 * WIDTH;
    let start = Start {
        pose: by_rear(radius, -3e3, FRAC_PI_2),
        sill: Segment::new(DVec2::new(left, -1e3), DVec2::new(right, -1e3)),
    };
    let goal = Goal { pose: by_rear(-4e3, radius, PI), slack: 5.0, slack_heading: 0.002 };
    Room { rings, obstacles: Vec::new(), start, goal, keep: 0.0 }
}

#[test]
fn a_right_angle_is_passed_just_above_its_known_width_and_not_just_below() {
    for first in [WIDTH + 120.0, WIDTH + 500.0] {
        let above = corner(first, 10.0);
        let Answer::Found(way) = above.asked(&car(), 0, 5_000) else { panic!("{first}: not found above") };
        assert!(way.changes == 0 && way.nose_first);
        above.holds(&way);
        let answer = corner(first, -10.0).asked(&car(), 0, 5_000);
        assert!(matches!(answer, Answer::NotFound { .. }), "{first}: found below: {answer:?}");
    }
}

#[test]
fn what_is_no_way_is_said() {
    let goal = PlanPose::new(DVec2::new(10e3, 5e3), 0.0);
    // A row of pillars with gaps narrower than the car.
    let pillar = |i: usize| rectangle((5e3, 5.3e3), (1.5e3 * i as f64, 1.5e3 * i as f64 + 300.0));
    let shut = hall((0..7).map(pillar).collect(), goal, 0.0);
    assert_eq!(shut.asked(&car(), 5, 5_000), Answer::NotFound { places: 0, whole: true });
    let taken = hall(vec![rectangle((9e3, 9.2e3), (4e3, 5e3))], goal, 0.0);
    assert_eq!(taken.asked(&car(), 5, 5_000), Answer::GoalNotClear);
    let before = hall(vec![rectangle((-2e3, -1e3), (4e3, 5e3))], goal, 0.0);
    assert_eq!(before.asked(&car(), 5, 5_000), Answer::NoStart);
    let floor = Region::left(&shut.rings, &[]);
    let crooked = Goal { pose: PlanPose::new(DVec2::new(10e3, 5e3), FRAC_PI_2), ..shut.goal };
    let starts = [shut.start];
    let wide = hall((0..4).map(pillar).collect(), goal, 0.0);
    let question = Question {
        car: &car(),
        obstacles: &wide.obstacles,
        meets: &[],
        floor: &floor,
        keep: 0.0,
        starts: &starts,
        goal: crooked,
        limits: Limits::default(),
    };
    assert_eq!(way_in(&question, &|| true), Answer::Stopped);
}

/// The same way is nose first or tail first by how the car stands before the door.
#[test]
fn a_car_that_stands_before_the_door_the_other_way_comes_tail_first() {
    let mut room = hall(Vec::new(), PlanPose::new(DVec2::new(10e3, 4.5e3), 0.0), 50.0);
    let Answer::Found(way) = room.asked(&car(), 5, 5_000) else { panic!() };
    assert!(way.nose_first && way.changes == 0 && way.pieces.len() == 1);
    room.holds(&way);
    // Turned about: its tail towards the door.
    room.start.pose = PlanPose::new(DVec2::new(-4e3, 4.5e3), PI);
    room.goal.pose = PlanPose::new(DVec2::new(7e3, 4.5e3), PI);
    let Answer::Found(way) = room.asked(&car(), 0, 5_000) else { panic!() };
    assert!(!way.nose_first && way.changes == 0);
    room.holds(&way);
}

/// A bar right across the hall is met by the rings that it is said to meet, and by no other; the nearest is told with its point, and
/// the edge of the floor is nothing that is near.
#[test]
fn an_obstacle_is_in_the_way_of_the_rings_that_it_meets() {
    // The body, and a strip that reaches 200 mm further to either side.
    let strip = rectangle((-800.0, -600.0), (-0.5 * WIDTH - 200.0, 0.5 * WIDTH + 200.0));
    let car = Car::new(&[outline(), strip], WHEELBASE, Turning::InnerRadius { radius: INNER }).unwrap();
    let bar = rectangle((4e3, 4.2e3), (0.0, 9e3));
    let post = rectangle((7e3, 7.2e3), (5_800.0, 6_000.0));
    let room = hall(vec![bar, post], PlanPose::new(DVec2::new(10e3, 4.5e3), 0.0), 50.0);
    let floor = Region::left(&room.rings, &[]);
    let asked = |meets: &[u64]| {
        let limits = Limits { most_changes: 2, most_places: 300 };
        let (obstacles, starts) = (&room.obstacles, [room.start]);
        way_in(
            &Question {
                car: &car,
                obstacles,
                meets,
                floor: &floor,
                keep: 50.0,
                starts: &starts,
                goal: room.goal,
                limits,
            },
            &|| false,
        )
    };
    for met in [&[1][..], &[2], &[3], &[]] {
        assert!(matches!(asked(met), Answer::NotFound { .. }), "{met:?}");
    }
    // The post is 1300 mm from the middle line: 427.5 from the body, 227.5 from the strip.
    for (meets, gap) in [([0, 1], 427.5), ([0, 2], 227.5), ([0, 3], 227.5)] {
        let Answer::Found(way) = asked(&meets) else { panic!("not found, {meets:?}") };
        assert!((gap - 0.51..=gap).contains(&way.room), "{} is not {gap}", way.room);
        let near = way.nearest.unwrap();
        assert_eq!(near.obstacle, 1);
        assert!((near.at.y - 5_800.0).abs() < 1e-6 && (7e3..=7.2e3).contains(&near.at.x), "{near:?}");
        let again = least_room(&car, &room.start.pose, &way.pieces, &room.obstacles, &meets);
        assert!((again.0 - way.room).abs() < 0.51 && again.1.unwrap().obstacle == 1);
    }
    let Answer::Found(way) = asked(&[0, 0]) else { panic!("not found") };
    assert_eq!((way.room, way.nearest), (f64::INFINITY, None));
}
