//! Whether a car can be driven from a door to a spot: the way in.
//!
//! A car is driven slowly: it turns about a point on the line of its rear axle, no tighter than its turning circle, forwards
//! and
//! backwards. [`way_in`] looks for a way of arcs at full lock and straights on which its outline stays on the floor and
//! meets nothing.
//! What is found holds: all between two places is covered, never only sampled. What is not found is *not found*, never
//! impossible: the
//! search steps through a lattice of places and headings, and steers straight or at full lock only.
//!
//! Poses are those of the vehicle frame (origin under the middle of the front axle, x forward, y left) in the bay's frame;
//! mm and
//! radians. The search is in the manner of a lattice search with an analytic last piece (hybrid A*; Dolgov, Thrun,
//! Montemerlo, Diebel
//! 2008, from memory).

mod car;
mod cover;
mod drive;
mod far;
mod search;
mod solids;
mod words;

use glam::DVec2;

use crate::angle::wrapped;
use crate::convex::hull;
use crate::frame::PlanPose;
use crate::polygon::{ring_edges, signed_area};
use crate::region::Region;
use crate::segment::Segment;
use crate::way_in::search::{Outcome, Task};
use crate::way_in::solids::Solids;

pub use car::{Car, CarFault, Turning};
pub use drive::Piece;

/// By how much more than the car really covers [`swept`] may reach, mm.
pub const HEM_MM: f64 = 1.0;

/// A place in front of a door where a way may start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Start {
    /// How the car stands there.
    pub pose: PlanPose,
    /// The door's opening, from jamb to jamb: as the middle of the car last crosses it, it comes nose first or tail first.
    pub sill: Segment,
}

/// Where the car has to come to stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Goal {
    /// How.
    pub pose: PlanPose,
    /// How far its origin may be off, mm, in any direction; 0 or more.
    pub slack: f64,
    /// How far its heading may be off, radians, either way; 0 or more.
    pub slack_heading: f64,
}

/// How far the search goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// How often the way may change between forwards and backwards at most.
    pub most_changes: usize,
    /// How many places of the lattices are looked at at most.
    pub most_places: usize,
}

impl Default for Limits {
    /// Five changes, as often as a patient person turns the wheel; as many places as take a second or two.
    fn default() -> Self {
        Self { most_changes: 5, most_places: 30_000 }
    }
}

/// A way that is asked for.
#[derive(Clone, Copy, Debug)]
pub struct Question<'a> {
    /// What is driven.
    pub car: &'a Car,
    /// What stands there: convex rings, bay frame, in any direction (of others their hull counts); a line of two points is a
    /// wall.
    pub obstacles: &'a [Vec<DVec2>],
    /// Which rings of the car each of them is in the way of, bit by bit, the first ring in the lowest: what hangs over a bonnet
    /// may not pass under a roof. Of an obstacle that is missing here, and of rings past the 64th: all.
    pub meets: &'a [u64],
    /// All that may be driven on: the room, its doorways, and what lies before them.
    pub floor: &'a Region,
    /// How far the car keeps from all of it, mm; 0 or more, less counts as 0.
    pub keep: f64,
    /// Where it may come from.
    pub starts: &'a [Start],
    /// Where it has to stand.
    pub goal: Goal,
    /// How far it is looked.
    pub limits: Limits,
}

/// A way that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct WayIn {
    /// From which of the starts.
    pub start: usize,
    /// What is driven, one after another.
    pub pieces: Vec<Piece>,
    /// How the car stands at last.
    pub end: PlanPose,
    /// All that its outline passes over: at least that, and nowhere further than [`HEM_MM`] more.
    pub swept: Region,
    /// How near it comes to an obstacle, mm: never more than there is, at most half a millimetre less; infinite if there is
    /// none. The edge of the floor is none.
    pub room: f64,
    /// To which obstacle that is.
    pub nearest: Option<Nearest>,
    /// Whether it comes through the door nose first; if it never crosses the sill, whether it starts forwards.
    pub nose_first: bool,
    /// How often it changes between forwards and backwards.
    pub changes: usize,
    /// How long the way of the middle of the rear axle is, mm.
    pub length: f64,
}

/// What a way comes nearest to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// The obstacle, by position.
    pub obstacle: usize,
    /// The point of it that the car comes nearest to, bay frame.
    pub at: DVec2,
}

/// What is answered.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// This way.
    Found(Box<WayIn>),
    /// None was found. That there is none is not said.
    NotFound {
        /// How many places were looked at.
        places: usize,
        /// Whether the finest lattice was searched to its end, not only as far as [`Limits::most_places`].
        whole: bool,
    },
    /// The car cannot stand at any of the starts: there is none, or at each something is in the way or is no floor.
    NoStart,
    /// The car cannot stand at the goal.
    GoalNotClear,
    /// It was stopped.
    Stopped,
}

/// Looks for a way from one of the starts to the goal; `stop` is asked now and then whether to give up.
///
/// Of the ways it comes across it takes one of the cheapest, a change of gear counting as three metres: a short one, not
/// surely the
/// shortest. The same question has the same answer on every machine, and in a mirror the mirrored one.
///
/// ```rust
/// # use baywright_geometry::*;
/// # use baywright_geometry::way_in::*;
/// let rectangle = |x: (f64, f64), y: (f64, f64)| [(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)].map(DVec2::from).to_vec();
/// let car = Car::new(&[rectangle((-3400.0, 810.0), (-900.0, 900.0))], 2550.0, Turning::InnerRadius { radius: 4000.0 })?;
/// // A room of 12 by 8 m with a door in its left wall.
/// let floor = Region::left(
///     &[rectangle((0.0, 12e3), (0.0, 8e3)), rectangle((-300.0, 0.0), (2500.0, 5500.0)), rectangle((-8e3, -300.0), (0.0,
/// 8e3))],
///     &[],
/// );
/// let sill = Segment::new(DVec2::new(0.0, 2500.0), DVec2::new(0.0, 5500.0));
/// let start = Start { pose: PlanPose::new(DVec2::new(-2000.0, 4000.0), 0.0), sill };
/// let goal = Goal { pose: PlanPose::new(DVec2::new(9000.0, 5000.0), 0.0), slack: 30.0, slack_heading: 0.01 };
/// let question = Question {
///     car: &car, obstacles: &[], meets: &[], floor: &floor, keep: 100.0, starts: &[start], goal, limits: Limits::default(),
/// };
/// let Answer::Found(way) = way_in(&question, &|| false) else { panic!() };
/// assert!(way.nose_first && way.changes == 0);
/// # Ok::<(), CarFault>(())
/// ```
pub fn way_in(question: &Question<'_>, stop: &dyn Fn() -> bool) -> Answer {
    let Question { goal, limits, .. } = *question;
    let task = InGoal::of(question);
    let car = &task.car;
    let goal_rear = car.rear(&PlanPose::IDENTITY);
    if !task.solids.stands_clear(car.rings(), &goal_rear) {
        return Answer::GoalNotClear;
    }
    let clear: Vec<(usize, PlanPose)> = (question.starts.iter().enumerate())
        .map(|(i, start)| (i, car.rear(&task.pose(&start.pose))))
        .filter(|(_, rear)| task.solids.stands_clear(car.rings(), rear))
        .collect();
    if clear.is_empty() {
        return Answer::NoStart;
    }
    let starts: Vec<PlanPose> = clear.iter().map(|start| start.1).collect();
    let (disc, widest) = disc(car);
    let found = search::find(
        &Task {
            rings: car.rings(),
            radius: car.radius(),
            solids: &task.solids,
            starts: &starts,
            goal: goal_rear,
            wheelbase: goal_rear.origin().length(),
            slack: (goal.slack, goal.slack_heading),
            disc: (disc + question.keep.max(0.0), widest),
            most_changes: limits.most_changes,
            most_places: limits.most_places,
        },
        stop,
    );
    match found {
        Outcome::Stopped => Answer::Stopped,
        Outcome::NotFound { places, whole } => Answer::NotFound { places, whole },
        Outcome::Found { start, pieces } => {
            let Some(&(nth, rear)) = clear.get(start) else { return Answer::NoStart };
            let (room, near) = task.solids.least_room(car.rings(), &rear, &pieces);
            let nearest = near.map(|(obstacle, at)| Nearest { obstacle, at: task.bay(at) });
            let own = |piece: &Piece| if task.mirrored { piece.mirrored() } else { *piece };
            let pieces: Vec<Piece> = pieces.iter().map(own).collect();
            let Some(from) = question.starts.get(nth) else { return Answer::NoStart };
            Answer::Found(Box::new(WayIn {
                start: nth,
                end: driven(question.car, &from.pose, &pieces),
                swept: swept(question.car, &from.pose, &pieces),
                room,
                nearest,
                nose_first: nose_first(question.car, from, &pieces),
                changes: drive::changes(pieces.iter().copied()),
                length: pieces.iter().map(|piece| piece.length.abs()).sum(),
                pieces,
            }))
        }
    }
}

/// How the car stands after it drove some pieces.
pub fn driven(car: &Car, from: &PlanPose, pieces: &[Piece]) -> PlanPose {
    car.front(&pieces.iter().fold(car.rear(from), |pose, piece| piece.end(&pose)))
}

/// All that the car's outline passes over as it drives some pieces from a pose: at least that, and nowhere further than
/// [`HEM_MM`]
/// more, for a car that reaches up to 20 m from its turning centre.
pub fn swept(car: &Car, from: &PlanPose, pieces: &[Piece]) -> Region {
    let mut at = car.rear(from);
    // What lies within another ring adds nothing.
    let outer = solids::outermost(car.rings());
    let outline: Vec<Vec<DVec2>> = (car.rings().iter().enumerate())
        .filter(|(nth, _)| outer & solids::bit(*nth) != 0)
        .map(|(_, ring)| ring.clone())
        .collect();
    let mut rings: Vec<Vec<DVec2>> =
        outline.iter().map(|ring| ring.iter().map(|&p| at * p).collect()).collect();
    for piece in pieces {
        rings.extend(cover::rings(&outline, &at, piece));
        at = piece.end(&at);
    }
    Region::left(&rings, &[])
}

/// How near a car comes to some obstacles as it drives some pieces from a pose, mm, and to which: never more than there is, at most
/// half a millimetre less; infinite if there is none. `meets` as in [`Question::meets`].
pub fn least_room(
    car: &Car,
    from: &PlanPose,
    pieces: &[Piece],
    obstacles: &[Vec<DVec2>],
    meets: &[u64],
) -> (f64, Option<Nearest>) {
    let obstacles: Vec<Vec<DVec2>> = obstacles.iter().map(|ring| wound(ring)).collect();
    let solids = Solids::new(&obstacles, meets, Region::default(), car.rings(), 0.0);
    let (room, near) = solids.least_room(car.rings(), &car.rear(from), pieces);
    (room, near.map(|(obstacle, at)| Nearest { obstacle, at }))
}

/// The hull of a ring, which winds as it should; what has none is a wall.
fn wound(ring: &[DVec2]) -> Vec<DVec2> {
    hull(ring).map_or_else(|| ring.to_vec(), |hull| hull.outer().to_vec())
}

/// In which gear the car's middle last crosses the sill inwards or outwards; that of the first piece if it never does.
fn nose_first(car: &Car, start: &Start, pieces: &[Piece]) -> bool {
    const LOOKED_AT: f64 = 50.0;
    let mut at = car.rear(&start.pose);
    let mut first = pieces.first().is_none_or(Piece::is_forwards);
    for piece in pieces {
        let count = (piece.length.abs() / LOOKED_AT).ceil().max(1.0);
        for _ in 0..count as usize {
            let next = piece.part(count).end(&at);
            let run = Segment::new(at * car.middle(), next * car.middle());
            if crate::predicate::meeting(&run, &start.sill) != crate::predicate::Meeting::Apart {
                first = piece.is_forwards();
            }
            at = next;
        }
    }
    first
}

/// The largest disc about the middle of the rear axle that lies in a ring of the outline, mm, and in which one; 0 if it lies
/// outside.
fn disc(car: &Car) -> (f64, usize) {
    let room = |ring: &Vec<DVec2>| {
        let sides = ring_edges(ring).map(|e| (e.to - e.from).normalize_or_zero().perp_dot(-e.from));
        sides.fold(f64::INFINITY, f64::min)
    };
    let all = car.rings().iter().map(room).zip(0..);
    all.fold((0.0, 0), |most, own| if own.0 > most.0 { own } else { most })
}

/// The question in the goal's frame, and in a mirror if it leans to the right: so that a room and its mirror image are
/// searched alike.
struct InGoal {
    car: Car,
    solids: Solids,
    goal_from_bay: PlanPose,
    mirrored: bool,
}

impl InGoal {
    fn of(question: &Question<'_>) -> Self {
        let goal_from_bay = question.goal.pose.inverse();
        let mirrored = leans_right(question, &goal_from_bay);
        let to_goal = |p: DVec2| {
            let own = goal_from_bay * p;
            if mirrored { DVec2::new(own.x, -own.y) } else { own }
        };
        let placed = |ring: &[DVec2]| {
            let mut ring: Vec<DVec2> = ring.iter().map(|&p| to_goal(p)).collect();
            if mirrored {
                ring.reverse();
            }
            ring
        };
        let obstacles: Vec<Vec<DVec2>> = question.obstacles.iter().map(|ring| wound(&placed(ring))).collect();
        let rings: Vec<Vec<DVec2>> = question.floor.rings().map(placed).collect();
        let floor = Region::left(&rings, &[]);
        let car = if mirrored { question.car.mirrored() } else { question.car.clone() };
        let solids = Solids::new(&obstacles, question.meets, floor, car.rings(), question.keep.max(0.0));
        Self { car, solids, goal_from_bay, mirrored }
    }

    /// A point of the goal's frame in the bay's.
    fn bay(&self, own: DVec2) -> DVec2 {
        let own = if self.mirrored { DVec2::new(own.x, -own.y) } else { own };
        self.goal_from_bay.inverse() * own
    }

    fn pose(&self, bay: &PlanPose) -> PlanPose {
        let own = self.goal_from_bay * *bay;
        if self.mirrored {
            PlanPose::new(DVec2::new(own.origin().x, -own.origin().y), -own.heading())
        } else {
            own
        }
    }
}

/// Whether the first of these that tells left from right says right: where the starts lie, how they head, and what stands
/// there.
fn leans_right(question: &Question<'_>, goal_from_bay: &PlanPose) -> bool {
    let starts = question.starts.iter().map(|start| *goal_from_bay * start.pose);
    let heads = starts.clone().map(|pose| wrapped(pose.heading()));
    let weights = |ring: &[DVec2]| {
        let middle = ring.iter().sum::<DVec2>() / ring.len().max(1) as f64;
        (*goal_from_bay * middle).y * signed_area(ring).abs()
    };
    let sides = [
        starts.map(|pose| pose.origin().y).sum::<f64>(),
        heads.filter(|turn| turn.abs() < std::f64::consts::PI).sum(),
        question.obstacles.iter().map(|ring| weights(ring)).sum(),
        question.floor.rings().map(weights).sum(),
    ];
    sides.iter().find(|side| side.abs() > 1e-6).is_some_and(|&side| side < 0.0)
}
