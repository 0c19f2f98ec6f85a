//! Distances between any two points, and points worth measuring from.

use baywright_geometry::{DVec2, Outline};

use crate::assessment::Subject;
use crate::model::{Arrangement, Wheel};
use crate::scene::Scene;

/// A distance and its parts, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Straight.
    pub distance: f64,
    /// Ahead of the car.
    pub ahead: f64,
    /// To the car's left.
    pub left: f64,
}

/// From one point of the bay to another, straight and in the car's directions.
pub fn measured(scene: &Scene, from: DVec2, to: DVec2) -> Measured {
    let own = scene.in_car_directions(to - from);
    Measured { distance: own.length(), ahead: own.x, left: own.y }
}

/// The nearest point worth measuring from within `reach`, and what it is of: marks, wheel points, the sensor, the middle of
/// a target, corners and middles of things, corners of the room. Among equals the one named first.
pub fn measuring_point(
    arrangement: &Arrangement,
    scene: &Scene,
    at: DVec2,
    reach: f64,
) -> Option<(DVec2, Subject)> {
    let marks = scene.marks.iter().filter_map(|mark| Some((mark.at.ok()?, Subject::Mark(mark.id.clone()))));
    let permanent = arrangement.bay.marks.iter().map(|mark| (mark.at, Subject::Mark(mark.id.clone())));
    let wheels = Wheel::ALL.iter().zip(scene.wheels).map(|(_, at)| (at, Subject::Car));
    let sensor = std::iter::once((scene.sensor().truncate(), Subject::Sensor));
    let targets = scene.targets.iter().map(|t| (t.set.place.origin(), Subject::Target(t.id.clone())));
    let things = arrangement
        .bay
        .things
        .iter()
        .zip(&scene.things)
        .filter(|(_, placed)| placed.bounds.grown(reach.max(0.0)).holds(at));
    let things = things.flat_map(|(own, placed)| {
        points(&placed.prism.outline).into_iter().map(|p| (p, Subject::Thing(own.id.clone())))
    });
    let walls = arrangement.bay.room.edges().zip(&arrangement.bay.walls);
    let walls = walls.map(|(edge, wall)| (edge.from, Subject::Wall(wall.id.clone())));
    let all = marks.chain(permanent).chain(wheels).chain(sensor).chain(targets).chain(things).chain(walls);
    all.filter(|(p, _)| p.distance(at) <= reach)
        .min_by(|(a, _), (b, _)| a.distance(at).total_cmp(&b.distance(at)))
}

/// Corners, middles of edges and the middle of an outline; a circle's middle and its four quarters.
fn points(outline: &Outline) -> Vec<DVec2> {
    match outline {
        Outline::Polygon(polygon) => {
            let edges = polygon.edges().flat_map(|edge| [edge.from, edge.from.midpoint(edge.to)]);
            edges.chain([outline.bounds().centre()]).collect()
        }
        Outline::Circle(circle) => {
            let (c, r) = (circle.centre(), circle.radius());
            [DVec2::ZERO, DVec2::X, DVec2::Y, DVec2::NEG_X, DVec2::NEG_Y].map(|way| c + way * r).to_vec()
        }
    }
}
