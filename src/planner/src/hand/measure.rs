//! Distances between any two points, and points worth measuring from.

use baywright_geometry::{Bounds, DVec2};

use crate::model::{Arrangement, CarPoint, EndOn, ThingPoint, Wheel};
use crate::scene::Scene;

/// A distance on the floor and its parts, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Measured {
    /// Straight; never negative.
    pub distance_mm: f64,
    /// Ahead of the car; negative backwards.
    pub ahead_mm: f64,
    /// To the car's left; negative to its right.
    pub left_mm: f64,
}

/// From one point of the bay to another, straight and in the car's directions, mm. Nothing between points that are not
/// numbers.
pub fn measured(scene: &Scene, from: DVec2, to: DVec2) -> Measured {
    let by = to - from;
    // Two finite points can be further apart than a number can say.
    if !by.is_finite() || !by.length().is_finite() {
        return Measured::default();
    }
    let own = scene.in_car_directions(by);
    Measured { distance_mm: by.length(), ahead_mm: own.x, left_mm: own.y }
}

/// The nearest point worth measuring from within `reach` mm of a place of the bay, and what it is on: a mark, a wheel
/// point, the middle of the front axle or of a bumper, a named point of the body, the sensor, the middle of a target, a
/// corner, the middle or the middle of an edge of a thing, the rim of a round one, a corner of the room. Of several as near,
/// the one named first.
pub fn measuring_point(
    arrangement: &Arrangement,
    scene: &Scene,
    at: DVec2,
    reach: f64,
) -> Option<(DVec2, EndOn)> {
    if !(at.is_finite() && reach >= 0.0) {
        return None;
    }
    let mut best = Best { at, least: reach * reach, found: None };
    for mark in &scene.marks {
        best.look(mark.at.ok(), || EndOn::LaidMark(mark.id.clone()));
    }
    for mark in &arrangement.bay.marks {
        best.look(Some(mark.at), || EndOn::Mark(mark.id.clone()));
    }
    for point in CAR_POINTS {
        best.look(on_car(arrangement, scene, &point), || EndOn::Car(point.clone()));
    }
    for point in &arrangement.vehicle.body_points {
        let at = scene.bay_from_vehicle * point.at.truncate();
        best.look(Some(at), || EndOn::Car(CarPoint::Named(point.id.clone())));
    }
    best.look(Some(scene.sensor().truncate()), || EndOn::Sensor);
    for target in &scene.targets {
        best.look(Some(target.set.place.origin()), || EndOn::Target(target.id.clone()));
    }
    let here = Bounds { low: at, high: at }.grown(reach);
    for (thing, placed) in arrangement.bay.things.iter().zip(&scene.things) {
        if placed.bounds.meets(&here) {
            for point in ThingPoint::all(&thing.footprint) {
                best.look(point.place(&thing.footprint, &thing.place.at), || EndOn::Thing {
                    thing: thing.id.clone(),
                    point,
                });
            }
        }
    }
    for (edge, wall) in arrangement.bay.room.edges().zip(&arrangement.bay.walls) {
        best.look(Some(edge.from), || EndOn::Corner(wall.id.clone()));
    }
    best.found
}

/// The same, and where no such point is near, a place of the nearest wall within `reach` mm: square from the other end of the
/// dimension, `other`, if that is near too. To hundredths of a millimetre.
pub fn measuring_end(
    arrangement: &Arrangement,
    scene: &Scene,
    at: DVec2,
    reach: f64,
    other: Option<DVec2>,
) -> Option<(DVec2, EndOn)> {
    measuring_point(arrangement, scene, at, reach).or_else(|| on_wall(arrangement, at, reach, other))
}

fn on_wall(arrangement: &Arrangement, at: DVec2, reach: f64, other: Option<DVec2>) -> Option<(DVec2, EndOn)> {
    if !(at.is_finite() && reach >= 0.0) {
        return None;
    }
    let walls = arrangement.bay.room.edges().zip(&arrangement.bay.walls);
    let near = walls.filter_map(|(edge, wall)| {
        let (from, to) = (edge.from, edge.to);
        let along = (to - from).try_normalize()?;
        let foot = |p: DVec2| (p - from).dot(along).clamp(0.0, from.distance(to));
        let off = (from + along * foot(at)).distance(at);
        (off <= reach).then_some((off, wall, from, along, foot(at), other.map(foot)))
    });
    let (_, wall, from, along, here, square) = near.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let to_hundredths = |mm: f64| (mm * 100.0).round() / 100.0;
    match square.filter(|square| (square - here).abs() <= reach) {
        Some(square) => Some((from + along * square, EndOn::SquareTo(wall.id.clone()))),
        None => {
            let along_mm = to_hundredths(here);
            Some((from + along * along_mm, EndOn::Wall { wall: wall.id.clone(), along_mm }))
        }
    }
}

/// The points that every car has and that stand-offs are measured from.
const CAR_POINTS: [CarPoint; 7] = [
    CarPoint::Wheel(Wheel::FrontLeft),
    CarPoint::Wheel(Wheel::FrontRight),
    CarPoint::Wheel(Wheel::RearLeft),
    CarPoint::Wheel(Wheel::RearRight),
    CarPoint::FrontAxle,
    CarPoint::FrontBumper,
    CarPoint::RearBumper,
];

/// Where a point of the car is, bay frame, mm; `None` if this car has none of that name.
pub(super) fn on_car(arrangement: &Arrangement, scene: &Scene, point: &CarPoint) -> Option<DVec2> {
    let vehicle = &arrangement.vehicle;
    let ahead = |x: f64| DVec2::new(x, 0.0);
    let own = match point {
        CarPoint::Wheel(wheel) => arrangement.wheel_point(*wheel),
        CarPoint::FrontAxle => ahead(0.0),
        CarPoint::FrontBumper => ahead(vehicle.front()),
        CarPoint::RearBumper => ahead(vehicle.rear()),
        CarPoint::Named(id) => vehicle.body_points.iter().find(|own| own.id == *id)?.at.truncate(),
    };
    Some(scene.bay_from_vehicle * own)
}

/// The nearest point so far.
struct Best {
    at: DVec2,
    /// How far that is off, or at first the farthest that it may be, mm².
    least: f64,
    found: Option<(DVec2, EndOn)>,
}

impl Best {
    fn look(&mut self, point: Option<DVec2>, on: impl Fn() -> EndOn) {
        let Some(point) = point else { return };
        let off = point.distance_squared(self.at);
        // What is at the very reach is found, what is as near as another before it is not.
        if off < self.least || off == self.least && self.found.is_none() {
            (self.least, self.found) = (off, Some((point, on())));
        }
    }
}
