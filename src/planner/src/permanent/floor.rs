//! What is on the floor for the places that cars are parked at: lines by their two ends, and points.

use baywright_geometry::locate::{Located, locate_in};
use baywright_geometry::marks::Construction;
use baywright_geometry::{DVec2, Segment};

use super::parking::{Asked, ParkingPlace};
use crate::assessment::Subject;
use crate::check::may_be_off;
use crate::matrix::Line;
use crate::model::{Arrangement, Id, Placement, ReferenceAxis, Wheel};
use crate::place::{FromWall, from_two_walls, stood, to_wall};
use crate::scene::{PlacedTarget, Scene};

/// No line or point need be laid worse than this, mm: a tape does much better (common practice, no source).
pub const MOST_MM: f64 = 10.0;
/// Points nearer than this are one, mm: a tape reads to a millimetre (common practice, no source).
const ONE_MM: f64 = 1.0;
/// The line under the cars' middle is seen so far before and behind the longest of them, and past the farthest target, mm.
const SEEN_MM: f64 = 1_000.0;
const PAST_TARGET_MM: f64 = 500.0;
/// The line under the front axles is seen so far beside the widest car, mm.
const BESIDE_MM: f64 = 300.0;
/// An end of a line stays so far from a wall, mm.
const FROM_WALL_MM: f64 = 100.0;
/// And so far from the marks of the aimings, mm, that nobody takes one for the other: more than a hand's breadth.
const FROM_MARK_MM: f64 = 150.0;
/// An end is put further out in steps of so much, mm, so many times at most, where it could not be painted.
const STEP_MM: f64 = 50.0;
const STEPS: u32 = 20;
/// Of what a target may be off a mark that stays, the lines and the car on them each get this share (ours, no source).
const SHARE: f64 = 1.0 / 3.0;
/// Points are at whole mm, as a tape has them: that moves them by less than this, mm, half a diagonal.
const MOVED_MM: f64 = 0.71;
/// What begins lower over the floor than this covers it, mm.
const ON_FLOOR_MM: f64 = 20.0;

/// What a point of the floor is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PointOf {
    /// An end of the line under the middle of the cars.
    LineEnd {
        /// Before them, else behind.
        is_ahead: bool,
    },
    /// An end of the line under their front axles.
    AxleEnd {
        /// On the cars' left.
        is_left: bool,
    },
    /// Under the middle of a rear axle.
    RearAxle {
        /// How far behind the front axle, mm.
        wheelbase_mm: f64,
    },
    /// A mark of a target, the so many'th of its place to park, from 1.
    Target {
        /// Which.
        nth: usize,
    },
}

/// For what a point is there.
#[derive(Clone, Debug, PartialEq)]
pub struct Serves {
    /// The line of the list, by position.
    pub line: usize,
    /// The mark of its aiming's plan; `None` for what its car is parked by, or where the target itself is the mark.
    pub mark: Option<Id>,
}

/// A point that stays.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// The place to park that it is of, by position; of several the first.
    pub place: usize,
    /// What it is there.
    pub of: PointOf,
    /// Where, bay frame, whole mm.
    pub at: DVec2,
    /// How far from there it may be laid, mm.
    pub within_mm: f64,
    /// How far it is from two walls; `None` where no two can be taped to.
    pub walls: Option<[FromWall; 2]>,
    /// For what it is there.
    pub serves: Vec<Serves>,
    /// What lies or stands there, so that nobody can paint it.
    pub lies_on: Option<Subject>,
}

/// A line that stays: from one point to another, by position.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FloorLine {
    /// Its ends.
    pub ends: [usize; 2],
}

/// How a target's direction is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// It does not aim.
    NotAsked,
    /// By two marks that stay.
    Stays,
    /// From the wheels each time: two marks that stay would have to be laid, or the car would have to stand, finer than a tape does.
    FromWheels,
}

/// Whether a target's mark can stay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stay {
    /// It can; it proves where the target belongs while each axle's middle is measured to lie within so many mm of its point.
    Stays {
        /// mm.
        car_mm: f64,
        /// How its direction is found.
        direction: Direction,
    },
    /// Something would have to be done finer than a tape does: to so many mm.
    TooFine {
        /// mm.
        needs_mm: f64,
    },
    /// It is found from this very car's thrust line.
    ThrustLine,
    /// It has no place, for its mark cannot be found.
    NoMark,
}

/// What of a target stays.
#[derive(Clone, Debug, PartialEq)]
pub struct Target {
    /// The line of the list, by position.
    pub line: usize,
    /// Its placement.
    pub placement: Id,
    /// Whether its mark can stay.
    pub stay: Stay,
}

/// All that is on the floor.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OnFloor {
    /// The points, those of one place to park after another.
    pub points: Vec<Point>,
    /// The lines between them.
    pub lines: Vec<FloorLine>,
    /// What of each target stays.
    pub targets: Vec<Target>,
}

/// A line before its ends are points.
struct Drawn {
    place: usize,
    of: [PointOf; 2],
    ends: [DVec2; 2],
    within_mm: f64,
    serves: Vec<usize>,
}

/// A mark of a target that can stay.
struct Marked {
    at: DVec2,
    within_mm: f64,
    serves: Serves,
}

impl OnFloor {
    /// For the places that the lines of a list are served at.
    pub fn of(lines: &[Line], places: &[ParkingPlace], asked: &Asked) -> Self {
        let (mut all, mut drawn, mut points) = (Self::default(), Vec::<Drawn>::new(), Vec::<Point>::new());
        for (nth, place) in places.iter().enumerate() {
            let own = There::of(lines, place, asked);
            let (targets, marked, within_mm) = own.targets();
            all.targets.extend(targets);
            for line in own.drawn(nth, within_mm) {
                join(&mut drawn, line);
            }
            points.extend(own.rear_axles(nth, within_mm));
            let marks = marked.into_iter().zip(1..).map(|(own, number)| {
                point(nth, PointOf::Target { nth: number }, own.at, own.within_mm, vec![own.serves])
            });
            points.extend(marks);
        }
        let mut ends: Vec<[usize; 2]> = Vec::new();
        let mut told: Vec<Point> = Vec::new();
        for line in drawn {
            let serves: Vec<Serves> = line.serves.iter().map(|&line| Serves { line, mark: None }).collect();
            let [a, b] = [0, 1].map(|end| {
                let of = line.of.get(end).copied().unwrap_or(PointOf::LineEnd { is_ahead: false });
                let at = line.ends.get(end).copied().unwrap_or_default();
                put(&mut told, point(line.place, of, at, line.within_mm, serves.clone()))
            });
            ends.push([a, b]);
        }
        for own in points {
            put(&mut told, own);
        }
        // Those of one place together, in the order in which they are laid.
        let mut order: Vec<usize> = (0..told.len()).collect();
        order.sort_by_key(|&nth| told.get(nth).map_or((0, 0), |own| (own.place, rank(own.of))));
        let now = |was: usize| order.iter().position(|own| *own == was).unwrap_or_default();
        all.lines = ends.into_iter().map(|[a, b]| FloorLine { ends: [now(a), now(b)] }).collect();
        all.points = order.iter().filter_map(|&nth| told.get(nth).cloned()).collect();
        all.taped(lines, places);
        all
    }

    /// How far each point is from two walls, and what lies there.
    fn taped(&mut self, lines: &[Line], places: &[ParkingPlace]) {
        for (nth, place) in places.iter().enumerate() {
            let Some(line) = place.serves.first().and_then(|own| lines.get(own.0)) else { continue };
            let own = stood(&line.arrangement, place.pose);
            let scene = Scene::of(&own);
            let here: Vec<&mut Point> = self.points.iter_mut().filter(|own| own.place == nth).collect();
            let at: Vec<DVec2> = here.iter().map(|own| own.at).collect();
            let walls = from_two_walls(&own, &scene, &at, place.pose.forward());
            for (point, walls) in here.into_iter().zip(walls) {
                (point.lies_on, point.walls) = (lies_on(&own, &scene, point.at), walls);
            }
        }
    }
}

const fn rank(of: PointOf) -> usize {
    match of {
        PointOf::LineEnd { is_ahead: false } => 0,
        PointOf::LineEnd { is_ahead: true } => 1,
        PointOf::AxleEnd { is_left: true } => 2,
        PointOf::AxleEnd { is_left: false } => 3,
        PointOf::RearAxle { .. } => 4,
        PointOf::Target { .. } => 5,
    }
}

/// A point at whole mm: it may be laid as much less far off as that moves it.
fn point(place: usize, of: PointOf, at: DVec2, within_mm: f64, serves: Vec<Serves>) -> Point {
    let whole = at.round();
    let within_mm = told_mm(within_mm - whole.distance(at));
    Point { place, of, at: whole, within_mm, walls: None, serves, lies_on: None }
}

/// Puts a point among others, or makes it one of them that lies there; which.
fn put(all: &mut Vec<Point>, own: Point) -> usize {
    let found = all.iter_mut().enumerate().find(|(_, other)| other.at.distance(own.at) <= ONE_MM);
    if let Some((nth, other)) = found {
        let apart = other.at.distance(own.at);
        other.within_mm = other.within_mm.min(told_mm(own.within_mm - apart));
        for serves in own.serves {
            if !other.serves.contains(&serves) {
                other.serves.push(serves);
            }
        }
        return nth;
    }
    all.push(own);
    all.len() - 1
}

/// Puts a line among others, or makes one that lies on its line longer.
fn join(all: &mut Vec<Drawn>, own: Drawn) {
    let off = |of: &Drawn| -> Option<f64> {
        let [from, to] = of.ends;
        let way = (to - from).try_normalize()?;
        own.ends.map(|at| way.perp_dot(at - from).abs()).into_iter().reduce(f64::max)
    };
    let found =
        all.iter_mut().find_map(|other| off(other).filter(|off| *off <= ONE_MM).map(|off| (other, off)));
    let Some((other, off)) = found else {
        all.push(own);
        return;
    };
    let [from, to] = other.ends;
    let way = (to - from).normalize_or_zero();
    let along = own.ends.map(|at| way.dot(at - from));
    let (low, high) = (along[0].min(along[1]).min(0.0), along[0].max(along[1]).max(way.dot(to - from)));
    other.ends = [from + way * low, from + way * high];
    other.within_mm = other.within_mm.min(own.within_mm - off);
    for line in own.serves {
        if !other.serves.contains(&line) {
            other.serves.push(line);
        }
    }
}

/// As it is told: never more than it is.
fn told_mm(mm: f64) -> f64 {
    // A tenth that is one but for the last bits is one.
    let tenths = (mm * 10.0 + 1e-6).floor() / 10.0;
    tenths.clamp(0.0, MOST_MM)
}

/// What lies on the floor at a place, or stands there.
fn lies_on(arrangement: &Arrangement, scene: &Scene, at: DVec2) -> Option<Subject> {
    let bay = &arrangement.bay;
    let feature = bay.floor_features.iter().find(|own| locate_in(&own.outline, at) != Located::Outside);
    let runway = || bay.runways.iter().find(|own| locate_in(&own.outline, at) != Located::Outside);
    let thing = || {
        let stands = |own: &baywright_geometry::Prism| {
            own.span.bottom() < ON_FLOOR_MM && locate_in(&own.outline.as_polygon(), at) != Located::Outside
        };
        bay.things.iter().zip(&scene.things).find(|(_, placed)| stands(&placed.prism)).map(|own| own.0)
    };
    feature
        .map(|own| Subject::FloorFeature(own.id.clone()))
        .or_else(|| runway().map(|own| Subject::Runway(own.id.clone())))
        .or_else(|| thing().map(|own| Subject::Thing(own.id.clone())))
}

/// The aimings of a place, with their cars parked there.
struct There<'a> {
    place: &'a ParkingPlace,
    asked: &'a Asked,
    all: Vec<(usize, Arrangement, Scene)>,
    /// How far the line under the middle of the cars reaches: behind and ahead of the front axles, mm.
    reach: [f64; 2],
}

impl<'a> There<'a> {
    fn of(lines: &[Line], place: &'a ParkingPlace, asked: &'a Asked) -> Self {
        let parked = place.serves.iter().filter_map(|&(nth, _)| {
            let own = stood(&lines.get(nth)?.arrangement, place.pose);
            let scene = Scene::of(&own);
            Some((nth, own, scene))
        });
        let mut own = Self { place, asked, all: parked.collect(), reach: [0.0; 2] };
        let vehicle_from_bay = place.pose.inverse();
        let (mut back, mut ahead) = (0.0_f64, 0.0_f64);
        for (_, arrangement, scene) in &own.all {
            back = back.min(arrangement.vehicle.rear() - SEEN_MM);
            ahead = ahead.max(arrangement.vehicle.front() + SEEN_MM);
            for target in &scene.targets {
                let x = (vehicle_from_bay * target.meant.place.origin()).x;
                (back, ahead) = (back.min(x - PAST_TARGET_MM), ahead.max(x + PAST_TARGET_MM));
            }
        }
        let way = place.pose.forward();
        own.reach = [-own.end(-way, -back), own.end(way, ahead)];
        own
    }

    /// How far out that way a line ends, mm: at least so far, where it can be painted, but not at a wall.
    fn end(&self, way: DVec2, least_mm: f64) -> f64 {
        let Some((_, arrangement, scene)) = self.all.first() else { return least_mm };
        let from = self.place.pose.origin();
        let most = to_wall(arrangement, from, way).map_or(least_mm, |mm| (mm - FROM_WALL_MM).max(0.0));
        // As a tape has it.
        let whole = |mm: f64| mm.min(most).floor();
        let can_be_painted = |mm: &f64| {
            let at = from + way * *mm;
            let marks = self.all.iter().flat_map(|own| &own.2.marks).filter_map(|own| own.at.ok());
            lies_on(arrangement, scene, at).is_none()
                && marks.map(|mark| mark.distance(at)).fold(f64::INFINITY, f64::min) >= FROM_MARK_MM
        };
        let steps = (0..=STEPS).map(|step| whole(least_mm.ceil() + f64::from(step) * STEP_MM));
        steps.into_iter().find(can_be_painted).unwrap_or(whole(least_mm.ceil()))
    }

    /// How far from its place a line may be laid so that nothing stops a car that is parked on it as the shop parks one, mm.
    fn clear_mm(&self) -> f64 {
        let (slack, margin) = (self.place.slack, self.asked.margin);
        let turn = (slack.rad - margin.rad) * self.long_mm() * 0.5;
        (slack.mm - margin.mm).min(turn)
    }

    fn long_mm(&self) -> f64 {
        self.reach[1] - self.reach[0]
    }

    /// What of each target stays, the marks that do, and how well the lines must be laid for all that.
    fn targets(&self) -> (Vec<Target>, Vec<Marked>, f64) {
        let (mut told, mut marked, mut within) = (Vec::new(), Vec::new(), self.clear_mm());
        for (line, arrangement, scene) in &self.all {
            let all = arrangement.aiming.placements.iter().zip(&scene.targets);
            for (placement, target) in all {
                let (stay, lines_mm, marks) = self.stays(*line, (arrangement, scene), placement, target);
                within = within.min(lines_mm);
                marked.extend(marks);
                told.push(Target { line: *line, placement: placement.id.clone(), stay });
            }
        }
        (told, marked, within)
    }

    /// Whether one target's mark can stay; how well the lines must be laid then, mm; and the marks.
    fn stays(
        &self,
        line: usize,
        (arrangement, scene): (&Arrangement, &Scene),
        placement: &Placement,
        target: &PlacedTarget,
    ) -> (Stay, f64, Vec<Marked>) {
        let no = |stay: Stay| (stay, f64::INFINITY, Vec::new());
        if arrangement.aiming.axis == ReferenceAxis::ThrustLine {
            return no(Stay::ThrustLine);
        }
        let step = placement.mark.as_ref().and_then(|id| scene.marks.iter().position(|own| own.id == *id));
        let own = step.and_then(|step| scene.marks.get(step));
        let Some(at) = own.map_or(Some(target.meant.place.origin()), |own| own.at.ok()) else {
            return no(Stay::NoMark);
        };
        let ([along, aside], turned) = may_be_off(arrangement, scene, placement, target);
        let third = along.min(aside) * SHARE;
        let wheelbase = arrangement.vehicle.wheelbase_mm.max(1.0);
        // An axle that is off by one puts what lies past the axles off by more; a line's end likewise what lies beside it.
        let here = self.place.pose.inverse() * at;
        let from_axles = Segment::new(DVec2::new(-wheelbase, 0.0), DVec2::ZERO).distance_to(here);
        let car = third / (1.0 + 2.0 * from_axles / wheelbase);
        let lines = third / (std::f64::consts::SQRT_2 * (1.0 + 2.0 * here.y.abs() / self.long_mm().max(1.0)));
        let finest = car.min(lines).min(third);
        let tape = self.asked.laid_mm + MOVED_MM;
        if finest < tape {
            return no(Stay::TooFine { needs_mm: finest });
        }
        let serves = |mark: Option<Id>| Serves { line, mark };
        let mut marks = vec![Marked { at, within_mm: third, serves: serves(own.map(|own| own.id.clone())) }];
        let Some(turned) = turned else {
            return (Stay::Stays { car_mm: car, direction: Direction::NotAsked }, lines, marks);
        };
        // Two points so far apart that are each off by t turn what lies on both by 2 t over that.
        let for_turn = |apart: f64| turned * SHARE * apart * 0.5;
        let pair = step.and_then(|step| pair_of(arrangement, scene, step, target));
        let of_pair = pair.as_ref().map_or(0.0, |pair| for_turn(pair.1));
        let [car_turn, line_turn] = [wheelbase, self.long_mm()].map(for_turn);
        if car_turn.min(line_turn).min(of_pair) < tape {
            return (Stay::Stays { car_mm: car, direction: Direction::FromWheels }, lines, marks);
        }
        let pair = pair.into_iter().flat_map(|own| own.0);
        marks.extend(pair.map(|(id, at)| Marked { at, within_mm: of_pair, serves: serves(Some(id)) }));
        let stay = Stay::Stays { car_mm: car.min(car_turn), direction: Direction::Stays };
        (stay, lines.min(line_turn), marks)
    }

    /// The two lines of a place.
    fn drawn(&self, nth: usize, within_mm: f64) -> [Drawn; 2] {
        let (pose, [back, ahead]) = (self.place.pose, self.reach);
        let half = self.all.iter().map(|own| own.1.vehicle.width_mm * 0.5).fold(0.0, f64::max) + BESIDE_MM;
        let on = |along: f64| pose.origin() + pose.forward() * along;
        let beside = |way: DVec2| pose.origin() + way * self.end(way, half);
        let serves: Vec<usize> = self.all.iter().map(|own| own.0).collect();
        let drawn = |of: [PointOf; 2], ends: [DVec2; 2]| Drawn {
            place: nth,
            of,
            ends,
            within_mm,
            serves: serves.clone(),
        };
        [
            drawn([false, true].map(|is_ahead| PointOf::LineEnd { is_ahead }), [on(back), on(ahead)]),
            drawn(
                [true, false].map(|is_left| PointOf::AxleEnd { is_left }),
                [beside(pose.left()), beside(-pose.left())],
            ),
        ]
    }

    /// A point for each wheelbase.
    fn rear_axles(&self, nth: usize, within_mm: f64) -> Vec<Point> {
        let mut all: Vec<Point> = Vec::new();
        for (line, arrangement, _) in &self.all {
            let rear = [Wheel::RearLeft, Wheel::RearRight].map(|own| arrangement.wheel_point(own));
            let at = self.place.pose * ((rear[0] + rear[1]) * 0.5);
            let of = PointOf::RearAxle { wheelbase_mm: arrangement.vehicle.wheelbase_mm };
            put(&mut all, point(nth, of, at, within_mm, vec![Serves { line: *line, mark: None }]));
        }
        all
    }
}

/// The two marks whose join gives a target its direction, with how far they are apart across it, mm.
fn pair_of(
    arrangement: &Arrangement,
    scene: &Scene,
    step: usize,
    target: &PlacedTarget,
) -> Option<([(Id, DVec2); 2], f64)> {
    let Construction::Middle { first, second } = arrangement.aiming.mark_plan.get(step)?.construction else {
        return None;
    };
    let mark = |nth: usize| {
        let own = scene.marks.get(nth)?;
        Some((own.id.clone(), own.at.ok()?))
    };
    let pair = [mark(first)?, mark(second)?];
    let across = (pair[1].1 - pair[0].1).perp_dot(target.meant.place.forward()).abs();
    Some((pair, across))
}
