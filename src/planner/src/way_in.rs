//! How the car comes to a spot: the one way to [`baywright_geometry::way_in`].
//!
//! It is driven in from before a door, nose or tail first. In the way is what stands on the floor up to the car's height: walls as
//! deep as walls are, things, runways that do not carry it, for its wheels open pits and kerbs. Not in the way are what is driven over
//! (drains, mats, what is no higher than a wheel goes over, the runways that carry it), people, and what is only set up once the car
//! stands there: targets and their stands. A door that is shut is opened for it, also one that is kept shut while it is aimed: the car
//! stands there by then. Before a door the ground is taken as free and level, and so are the ramps of a lift.
//!
//! What is found holds as drawn. What is not found is *not found*: it is never said that there is none. What is sure is that a door is
//! too narrow, too low or has too high a sill.

mod body;
mod door;
mod standing;
mod turns;

use std::sync::Arc;

use baywright_geometry::way_in::{Answer, Goal, Limits, Piece, Question, Start, WayIn, least_room, way_in};
use baywright_geometry::{DVec2, PlanPose, Region};

use crate::assessment::Subject;
use crate::check::SPEAKS_FROM_MM;
use crate::model::{Arrangement, Id};
use crate::scene::Scene;

use body::Body;
use door::{Door, Lack, WALL_MM, lack, openings};
use standing::{Standing, standing};

pub use crate::check::TooSmall;
pub use turns::Turns;

/// First a way is looked for that leaves a hand's room, the shop's own `over_car_mm`; then one that leaves so little, mm, that
/// somebody has to walk beside the car (common practice, no source).
const TIGHT_MM: f64 = 20.0;

/// A car comes to stand within so much of a spot, mm and radians: to the spot itself, but for rounding.
const SLACK: (f64, f64) = (1.0, 1e-3);

/// How many places are looked at for a way at most (measured: see DEVELOPERS); and how many for the straight way in by a door.
const PLACES: usize = 6_000;
const PLACES_STRAIGHT: usize = 60;

/// So far apart the points of a drawn arc are, radians.
const ARC_STEP: f64 = 0.05;

/// A jamb is met, and not the wall beside it, within this, mm.
const JAMB_MM: f64 = 1.0;

/// How near the car comes to what it comes nearest to.
#[derive(Clone, Debug, PartialEq)]
pub struct LeastRoom {
    /// As drawn, mm: never more than there is, at most half a millimetre less.
    pub mm: f64,
    /// To what.
    pub to: Subject,
    /// Where, bay frame.
    pub at: DVec2,
    /// How well its place is known, mm either way.
    pub known_mm: f64,
}

/// A way that was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Driven {
    /// By which door.
    pub door: Id,
    /// It is shut, and opened for that.
    pub is_opened: bool,
    /// Nose first through it, else tail first.
    pub nose_first: bool,
    /// How often it changes between forwards and backwards.
    pub changes: usize,
    /// `None` where nothing stands.
    pub least: Option<LeastRoom>,
    /// What is first rolled aside by hand.
    pub aside: Vec<Subject>,
    /// The mirrors are folded.
    pub mirrors_folded: bool,
    /// From where it starts, bay from vehicle, and what it drives.
    pub from: PlanPose,
    /// One after another.
    pub pieces: Vec<Piece>,
    /// All that its outline passes over, bay frame.
    pub swept: Region,
    /// The way of the middle of its rear axle, bay frame.
    pub axle: Vec<DVec2>,
}

/// How the car comes to a spot.
#[derive(Clone, Debug, PartialEq)]
pub enum Way {
    /// It is driven so.
    Driven(Arc<Driven>),
    /// No driven way was found: it has to be pushed, or turned on dollies. The straight way in by this door is free.
    Pushed {
        /// The door.
        door: Id,
    },
    /// No driven way was found, nor the straight way in: this stands just inside of the door.
    Barred {
        /// The door.
        door: Id,
        /// What stands there.
        by: Vec<Subject>,
    },
    /// Something is in the way at the spot itself.
    Taken {
        /// What.
        by: Vec<Subject>,
    },
    /// No door lets it through; this one lacks the least. That is sure.
    NoDoorLetsIn {
        /// The door.
        door: Id,
        /// Of what it has too little.
        of: TooSmall,
        /// How much is missing, mm.
        mm: f64,
        /// It is the only one.
        is_only: bool,
    },
    /// No door or gap is entered.
    NoDoor,
    /// The car's figures make none that could be driven.
    NoCar,
    /// It was stopped before anything was known.
    Stopped,
}

/// The ways to some spots, and by what turning circle.
#[derive(Clone, Debug, PartialEq)]
pub struct Ways {
    /// How tight the car turns.
    pub turns: Turns,
    /// To each spot, in the order in which they were asked for.
    pub to: Vec<Way>,
}

/// The ways to some spots, bay from vehicle; `tell` hears how many of them are done.
pub fn ways(
    arrangement: &Arrangement,
    spots: &[PlanPose],
    is_stopped: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(usize),
) -> Ways {
    let turns = Turns::of(arrangement);
    let scene = Scene::of(arrangement);
    let out = Asked::of(arrangement, &scene, &turns, false);
    let folded = Asked::of(arrangement, &scene, &turns, true);
    let to = spots.iter().zip(1..).map(|(spot, done)| {
        let way = match (&out, &folded) {
            (Ok(out), folded) => {
                let folded = folded.as_ref().ok().filter(|_| out.body.has_mirrors());
                out.way_to(arrangement, *spot, folded, is_stopped)
            }
            (Err(_), Ok(folded)) => folded.way_to(arrangement, *spot, None, is_stopped),
            (Err(_), Err(way)) => way.clone(),
        };
        tell(done);
        way
    });
    Ways { turns, to: to.collect() }
}

/// What does not depend on the spot, for a car with its mirrors out or folded.
struct Asked {
    body: Body,
    /// A hand's room, mm.
    hand_mm: f64,
    folded: bool,
    doors: Vec<Door>,
    standing: Vec<Standing>,
    floor: Region,
}

/// How a way is looked for.
#[derive(Clone, Copy)]
struct Effort {
    keep_mm: f64,
    /// What one person rolls aside is left out.
    rolled_aside: bool,
}

impl Asked {
    /// `Err` if no door lets it through.
    fn of(arrangement: &Arrangement, scene: &Scene, turns: &Turns, folded: bool) -> Result<Self, Way> {
        let body = Body::of(arrangement, turns, folded).ok_or(Way::NoCar)?;
        let across = body.bounds().size().y;
        let lets_in = openings(arrangement)
            .filter(|own| lack(arrangement, own, &body).is_none() && (folded || own.width_mm > across));
        let doors: Vec<Door> = lets_in.filter_map(|own| Door::of(arrangement, own)).collect();
        if doors.is_empty() {
            return Err(no_door(arrangement, &body));
        }
        let standing = standing(arrangement, scene, &doors, &body);
        let room = scene.room.walls().rings().map(<[DVec2]>::to_vec);
        let grounds = doors.iter().map(|own| own.ground(&body));
        let floor = Region::left(&room.chain(grounds).collect::<Vec<_>>(), &[]);
        let hand_mm = arrangement.shop.over_car_mm.max(TIGHT_MM);
        Ok(Self { body, hand_mm, folded, doors, standing, floor })
    }

    fn way_to(
        &self,
        arrangement: &Arrangement,
        spot: PlanPose,
        folded: Option<&Self>,
        is_stopped: &dyn Fn() -> bool,
    ) -> Way {
        let has_by_hand = self.standing.iter().any(|own| own.by_hand);
        let hand = Effort { keep_mm: self.hand_mm, rolled_aside: false };
        let mut tried = vec![(self, hand)];
        if has_by_hand {
            tried.push((self, Effort { rolled_aside: true, ..hand }));
        }
        let tight = Effort { keep_mm: TIGHT_MM, rolled_aside: true };
        tried.push((self, tight));
        tried.extend(folded.map(|own| (own, tight)));
        let mut is_taken = false;
        for (asked, effort) in tried {
            match asked.found(spot, effort, is_stopped) {
                Answer::Found(way) => {
                    let from = asked.starts(effort).into_iter().nth(way.start);
                    let told = from.map(|from| asked.told(arrangement, *way, &from, effort));
                    return told.map_or(Way::Stopped, |own| Way::Driven(Arc::new(own)));
                }
                Answer::Stopped => return Way::Stopped,
                Answer::GoalNotClear => is_taken = true,
                Answer::NotFound { .. } | Answer::NoStart => is_taken = false,
            }
        }
        let freest = folded.unwrap_or(self);
        if is_taken {
            return Way::Taken { by: freest.met_at(spot) };
        }
        freest.pushed(is_stopped)
    }

    /// What is in the way, with so much effort.
    fn against(&self, effort: Effort) -> Vec<&Standing> {
        self.standing.iter().filter(|own| !(own.by_hand && effort.rolled_aside)).collect()
    }

    fn asked(
        &self,
        starts: &[Start],
        goal: PlanPose,
        effort: Effort,
        limits: Limits,
        is_stopped: &dyn Fn() -> bool,
    ) -> Answer {
        let (obstacles, meets) = listed(&self.against(effort));
        let (slack, slack_heading) = SLACK;
        let question = Question {
            car: &self.body.car,
            obstacles: &obstacles,
            meets: &meets,
            floor: &self.floor,
            keep: effort.keep_mm,
            starts,
            goal: Goal { pose: goal, slack, slack_heading },
            limits,
        };
        way_in(&question, is_stopped)
    }

    fn found(&self, spot: PlanPose, effort: Effort, is_stopped: &dyn Fn() -> bool) -> Answer {
        let limits = Limits { most_places: PLACES, ..Limits::default() };
        self.asked(&self.starts(effort), spot, effort, limits, is_stopped)
    }

    fn starts(&self, effort: Effort) -> Vec<Start> {
        let starts = |own: &Door| own.starts(&self.body, effort.keep_mm, &door::ASKEW_DEG);
        self.doors.iter().flat_map(starts).collect()
    }

    /// What is told of a way that was found.
    fn told(&self, arrangement: &Arrangement, way: WayIn, from: &Start, effort: Effort) -> Driven {
        let room = |standing: &[&Standing]| {
            let (obstacles, meets) = listed(standing);
            least_room(&self.body.car, &from.pose, &way.pieces, &obstacles, &meets)
        };
        // What is left where it stands, though it could be rolled aside, counts.
        let mut aside: Vec<Subject> = Vec::new();
        for own in self.standing.iter().filter(|own| own.by_hand && effort.rolled_aside) {
            if !aside.contains(&own.of) && room(&[own]).0 < effort.keep_mm {
                aside.push(own.of.clone());
            }
        }
        let left: Vec<&Standing> = self.standing.iter().filter(|own| !aside.contains(&own.of)).collect();
        let (mm, nearest) = room(&left);
        let least = nearest.and_then(|near| {
            let own = left.get(near.obstacle)?;
            Some(LeastRoom { mm, to: self.jamb_at(own, near.at), at: near.at, known_mm: own.known_mm })
        });
        let door = self.doors.iter().find(|own| own.line == from.sill);
        Driven {
            is_opened: door.is_some_and(|own| own.is_shut),
            door: door.map_or_else(|| arrangement.bay.id.clone(), |own| own.id.clone()),
            nose_first: way.nose_first,
            changes: way.changes,
            least,
            aside,
            mirrors_folded: self.folded,
            axle: axle(arrangement, from.pose, &way.pieces),
            from: from.pose,
            pieces: way.pieces,
            swept: way.swept,
        }
    }

    /// What stands there, or the door whose jamb that is.
    fn jamb_at(&self, own: &Standing, at: DVec2) -> Subject {
        let is_jamb = |door: &&Door| {
            let along = (door.line.to - door.line.from).normalize_or_zero();
            let off = |end: DVec2| (at - end).dot(along).abs();
            let out = (at - door.line.from).dot(door.out);
            (-JAMB_MM..=WALL_MM + JAMB_MM).contains(&out)
                && off(door.line.from).min(off(door.line.to)) < JAMB_MM
        };
        match &own.of {
            Subject::Wall(_) => {
                let door = self.doors.iter().find(is_jamb);
                door.map_or_else(|| own.of.clone(), |door| Subject::Opening(door.id.clone()))
            }
            of => of.clone(),
        }
    }

    /// What the car meets where it would stand that nobody rolls aside by hand, each once.
    fn met_at(&self, pose: PlanPose) -> Vec<Subject> {
        let mut met: Vec<Subject> = Vec::new();
        for own in self.standing.iter().filter(|own| !own.by_hand) {
            let (mm, _) =
                least_room(&self.body.car, &pose, &[], std::slice::from_ref(&own.ring), &[own.meets]);
            if mm < SPEAKS_FROM_MM && !met.contains(&own.of) {
                met.push(own.of.clone());
            }
        }
        met
    }

    /// Where no driven way was found: whether the car can at least be put straight in by a door.
    fn pushed(&self, is_stopped: &dyn Fn() -> bool) -> Way {
        let tight = Effort { keep_mm: TIGHT_MM, rolled_aside: true };
        let limits = Limits { most_changes: 0, most_places: PLACES_STRAIGHT };
        for door in &self.doors {
            let starts = door.starts(&self.body, tight.keep_mm, &[0.0]);
            for (aside, nose) in door::ASIDE.into_iter().flat_map(|aside| [(aside, true), (aside, false)]) {
                let inside = door.just_inside(&self.body, aside, nose, tight.keep_mm);
                let is_free =
                    |goal| matches!(self.asked(&starts, goal, tight, limits, is_stopped), Answer::Found(_));
                if inside.is_some_and(is_free) {
                    return Way::Pushed { door: door.id.clone() };
                }
            }
        }
        if is_stopped() {
            return Way::Stopped;
        }
        let Some(door) = self.doors.first() else { return Way::NoDoor };
        let inside = door.just_inside(&self.body, 0.0, true, tight.keep_mm);
        let by = inside.map(|pose| self.met_at(pose)).unwrap_or_default();
        Way::Barred { door: door.id.clone(), by }
    }
}

/// The rings of what stands, and the rings of the car that each meets.
fn listed(standing: &[&Standing]) -> (Vec<Vec<DVec2>>, Vec<u64>) {
    standing.iter().map(|own| (own.ring.clone(), own.meets)).unzip()
}

/// The door that lacks least, if there is any.
fn no_door(arrangement: &Arrangement, body: &Body) -> Way {
    let lacks: Vec<Lack> = openings(arrangement).filter_map(|own| lack(arrangement, own, body)).collect();
    let is_only = lacks.len() == 1;
    match lacks.into_iter().min_by(|a, b| a.mm.total_cmp(&b.mm)) {
        Some(Lack { door, of, mm }) => Way::NoDoorLetsIn { door, of, mm, is_only },
        None => Way::NoDoor,
    }
}

/// The way of the middle of the rear axle, as points that lie close enough for an arc.
fn axle(arrangement: &Arrangement, from: PlanPose, pieces: &[Piece]) -> Vec<DVec2> {
    let rear = from * DVec2::new(-arrangement.vehicle.wheelbase_mm, 0.0);
    let mut pose = PlanPose::new(rear, from.heading());
    let mut points = vec![pose.origin()];
    for piece in pieces {
        let steps = libm::ceil(piece.turn().abs() / ARC_STEP).max(1.0);
        let start = pose;
        for step in 1..=steps as usize {
            let part = Piece { length: piece.length * (step as f64 / steps), ..*piece };
            pose = part.end(&start);
            points.push(pose.origin());
        }
    }
    points
}
