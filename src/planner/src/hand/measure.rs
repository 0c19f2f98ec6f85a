//! Distances between any two points, and points worth measuring from.

use baywright_geometry::{Bounds, DVec2, Outline};

use crate::assessment::Subject;
use crate::model::{Arrangement, Wheel};
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

/// The nearest point worth measuring from within `reach` mm of a place of the bay, and what it is of: a mark, a wheel
/// point, the middle of the front axle or of a bumper, a named point of the body, the sensor, the middle of a target, a
/// corner or the middle of an edge of a thing, the middle or the rim of a round one, a corner of the room. Of several as
/// near, the one named first.
pub fn measuring_point(
    arrangement: &Arrangement,
    scene: &Scene,
    at: DVec2,
    reach: f64,
) -> Option<(DVec2, Subject)> {
    if !(at.is_finite() && reach >= 0.0) {
        return None;
    }
    let mut best = Best { at, reach, found: None };
    for mark in &scene.marks {
        best.look(mark.at.ok(), || Subject::Mark(mark.id.clone()));
    }
    for mark in &arrangement.bay.marks {
        best.look([mark.at], || Subject::Mark(mark.id.clone()));
    }
    best.look(on_car(arrangement, scene), || Subject::Car);
    best.look([scene.sensor().truncate()], || Subject::Sensor);
    for target in &scene.targets {
        best.look([target.set.place.origin()], || Subject::Target(target.id.clone()));
    }
    let here = Bounds { low: at, high: at }.grown(reach);
    for (thing, placed) in arrangement.bay.things.iter().zip(&scene.things) {
        if placed.bounds.meets(&here) {
            let subject = || Subject::Thing(thing.id.clone());
            match &placed.prism.outline {
                Outline::Polygon(polygon) => {
                    best.look(polygon.edges().flat_map(|edge| [edge.from, edge.at(0.5)]), subject);
                }
                Outline::Circle(circle) => {
                    let ways =
                        [DVec2::X, DVec2::Y, DVec2::NEG_X, DVec2::NEG_Y].map(|q| thing.place.at.turned(q));
                    let rim = ways.map(|way| circle.centre() + way * circle.radius());
                    best.look(std::iter::once(circle.centre()).chain(rim), subject);
                }
            }
        }
    }
    for (edge, wall) in arrangement.bay.room.edges().zip(&arrangement.bay.walls) {
        best.look([edge.from], || Subject::Wall(wall.id.clone()));
    }
    best.found.map(|(_, point, subject)| (point, subject))
}

/// Points of the car that stand-offs are measured from, bay frame.
fn on_car<'a>(arrangement: &'a Arrangement, scene: &'a Scene) -> impl Iterator<Item = DVec2> + 'a {
    let vehicle = &arrangement.vehicle;
    let wheels = Wheel::ALL.into_iter().map(|wheel| arrangement.wheel_point(wheel));
    let middles = [0.0, vehicle.front(), vehicle.rear()].map(|x| DVec2::new(x, 0.0));
    let named = vehicle.body_points.iter().map(|point| point.at.truncate());
    wheels.chain(middles).chain(named).map(|p| scene.bay_from_vehicle * p)
}

/// The nearest point so far.
struct Best {
    at: DVec2,
    reach: f64,
    found: Option<(f64, DVec2, Subject)>,
}

impl Best {
    fn look(&mut self, points: impl IntoIterator<Item = DVec2>, subject: impl Fn() -> Subject) {
        for point in points {
            let off = point.distance(self.at);
            if off <= self.reach && self.found.as_ref().is_none_or(|(least, ..)| off < *least) {
                self.found = Some((off, point, subject()));
            }
        }
    }
}
