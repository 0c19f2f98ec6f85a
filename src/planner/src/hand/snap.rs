//! What is in hand drawn onto what is near: flush with walls, in line with other things, onto marks and the centreline;
//! square to the room and to the car.

use std::f64::consts::FRAC_PI_2;

use baywright_geometry::{Bounds, DVec2, Outline, PlanPose, Segment, angle};

use super::{others, own_outlines};
use crate::assessment::Subject;
use crate::model::{Arrangement, Id};
use crate::scene::Scene;

/// What something was drawn onto.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SnapKind {
    /// Flush with a wall.
    Wall(Id),
    /// Flush or in line with an edge of something.
    Edge(Subject),
    /// Its middle on a floor mark.
    Mark(Id),
    /// A target where it belongs.
    Place(Id),
    /// Its middle on the car's centreline.
    Centreline,
}

/// One thing that it was drawn onto, with a line that shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Snap {
    /// What.
    pub kind: SnapKind,
    /// One end of the line, bay frame, mm.
    pub from: DVec2,
    /// The other; the same for a point.
    pub to: DVec2,
}

/// Where it comes to stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Snapped {
    /// Bay from its own frame.
    pub place: PlanPose,
    /// What it was drawn onto: a point, or at most two lines that are not parallel.
    pub onto: Vec<Snap>,
}

/// Edges are parallel below this sine of the angle between them.
const PARALLEL: f64 = 1e-6;
/// Two lines fix a place if they are at least this far from parallel: 17°.
const APART: f64 = 0.3;
/// An edge of another thing counts while what is in hand is within this of it, mm: an eye sees no line across a hall.
const NEAR_MM: f64 = 1_500.0;

/// A shift along a direction that would bring it flush.
struct Line {
    /// The direction, of length 1.
    normal: DVec2,
    /// How far along it, mm.
    by: f64,
    snap: Snap,
}

/// The place nearest to the wanted one that is flush with, in line with or on what is within `reach` mm of it; it is shifted
/// only, never turned. The nearest point wins; without one the nearest line, and the next that is not parallel to it.
pub fn snapped(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    wanted: PlanPose,
    reach: f64,
) -> Snapped {
    let free = Snapped { place: wanted, onto: Vec::new() };
    if !(reach > 0.0 && reach.is_finite() && wanted.origin().is_finite()) {
        return free;
    }
    if let Some((shift, snap)) = nearest_point(arrangement, scene, subject, wanted, reach) {
        return Snapped { place: wanted.shifted(shift), onto: vec![snap] };
    }
    let mut lines = lines(arrangement, scene, subject, wanted, reach);
    lines.sort_by(|a, b| a.by.abs().total_cmp(&b.by.abs()));
    let mut lines = lines.into_iter();
    let Some(first) = lines.next() else { return free };
    let second = lines.find(|line| line.normal.perp_dot(first.normal).abs() >= APART);
    let Some(second) = second else {
        return Snapped { place: wanted.shifted(first.normal * first.by), onto: vec![first.snap] };
    };
    // The shift s with s·n₁ = b₁ and s·n₂ = b₂.
    let across = first.normal.perp_dot(second.normal);
    let shift = (first.normal.perp() * second.by - second.normal.perp() * first.by) / across;
    Snapped { place: wanted.shifted(shift), onto: vec![first.snap, second.snap] }
}

/// The nearest mark or place that a point of it could stand on.
fn nearest_point(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    wanted: PlanPose,
    reach: f64,
) -> Option<(DVec2, Snap)> {
    let permanent = arrangement.bay.marks.iter().map(|mark| (mark.at, SnapKind::Mark(mark.id.clone())));
    let own: Vec<DVec2> = match subject {
        // Wheel points, and the middle of the front axle.
        Subject::Car => {
            let vehicle_from_bay = scene.bay_from_vehicle.inverse();
            let wheels = scene.wheels.iter().map(|&wheel| wanted * (vehicle_from_bay * wheel));
            wheels.chain([wanted.origin()]).collect()
        }
        _ => vec![wanted.origin()],
    };
    let marks: Vec<(DVec2, SnapKind)> = match subject {
        // The car's own marks go with it.
        Subject::Car => permanent.collect(),
        _ => {
            let laid = scene.marks.iter().filter_map(|m| Some((m.at.ok()?, SnapKind::Mark(m.id.clone()))));
            let meant =
                scene.targets.iter().filter(|t| super::same_body(&Subject::Stand(t.id.clone()), subject));
            let meant = meant.map(|t| (t.meant.place.origin(), SnapKind::Place(t.id.clone())));
            meant.chain(laid).chain(permanent).collect()
        }
    };
    own.iter()
        .flat_map(|&from| marks.iter().map(move |(to, kind)| (*to - from, *to, kind)))
        .filter(|(shift, ..)| shift.length() <= reach)
        .min_by(|(a, ..), (b, ..)| a.length().total_cmp(&b.length()))
        .map(|(shift, at, kind)| (shift, Snap { kind: kind.clone(), from: at, to: at }))
}

/// Every line within reach.
fn lines(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    wanted: PlanPose,
    reach: f64,
) -> Vec<Line> {
    let own: Vec<Outline> =
        own_outlines(arrangement, scene, subject).iter().map(|outline| outline.placed(&wanted)).collect();
    let Some(bounds) = own.iter().map(Outline::bounds).reduce(Bounds::union) else { return Vec::new() };
    let mut lines = Vec::new();
    for (wall, edge) in arrangement.bay.walls.iter().zip(arrangement.bay.room.edges()) {
        flush(&own, &bounds, &edge, reach, SnapKind::Wall(wall.id.clone()), &mut lines);
    }
    // The car is parked by walls and marks; a line through every shelf would only be in the way.
    if *subject != Subject::Car {
        for (of, other) in others(arrangement, scene, subject) {
            if of == Subject::Car || !other.outline.bounds().grown(NEAR_MM).meets(&bounds) {
                continue;
            }
            if let Outline::Polygon(polygon) = &other.outline {
                for edge in polygon.edges() {
                    in_line(&own, &edge, reach, &of, &mut lines);
                }
            }
        }
        let axis = scene.bay_from_vehicle;
        let normal = axis.left();
        let by = (axis.origin() - wanted.origin()).dot(normal);
        if by.abs() <= reach {
            let at = wanted.origin() + normal * by;
            let snap = Snap { kind: SnapKind::Centreline, from: axis.origin(), to: at };
            lines.push(Line { normal, by, snap });
        }
    }
    lines
}

/// Flush with a wall from inside, while it stands abreast of it.
fn flush(
    own: &[Outline],
    bounds: &Bounds,
    wall: &Segment,
    reach: f64,
    kind: SnapKind,
    lines: &mut Vec<Line>,
) {
    let Some(along) = (wall.to - wall.from).try_normalize() else { return };
    let inward = along.perp();
    let at = (bounds.centre() - wall.from).dot(along);
    let length = wall.from.distance(wall.to);
    if !(0.0..=length).contains(&at) {
        return;
    }
    let depth = |p: DVec2| (p - wall.from).dot(inward);
    let nearest = own.iter().map(|outline| match outline {
        Outline::Circle(circle) => depth(circle.centre()) - circle.radius(),
        Outline::Polygon(polygon) => polygon.outer().iter().map(|&p| depth(p)).fold(f64::INFINITY, f64::min),
    });
    let Some(gap) = nearest.reduce(f64::min) else { return };
    if gap.abs() <= reach {
        lines.push(Line { normal: inward, by: -gap, snap: Snap { kind, from: wall.from, to: wall.to } });
    }
}

/// In line with an edge of another thing: an edge of its own on the same straight line.
fn in_line(own: &[Outline], edge: &Segment, reach: f64, of: &Subject, lines: &mut Vec<Line>) {
    let Some(along) = (edge.to - edge.from).try_normalize() else { return };
    let normal = along.perp();
    for outline in own {
        let Outline::Polygon(polygon) = outline else { continue };
        for mine in polygon.edges() {
            let Some(my_way) = (mine.to - mine.from).try_normalize() else { continue };
            if along.perp_dot(my_way).abs() > PARALLEL {
                continue;
            }
            let by = (edge.from - mine.from).dot(normal);
            if by.abs() <= reach {
                // From the edge on to what is in hand, on one line.
                let ends = [edge.from, edge.to, mine.from + normal * by, mine.to + normal * by];
                let at = |p: &DVec2| p.dot(along);
                let from = ends.into_iter().min_by(|a, b| at(a).total_cmp(&at(b))).unwrap_or(edge.from);
                let to = ends.into_iter().max_by(|a, b| at(a).total_cmp(&at(b))).unwrap_or(edge.to);
                lines.push(Line { normal, by, snap: Snap { kind: SnapKind::Edge(of.clone()), from, to } });
            }
        }
    }
}

/// The wanted heading, drawn onto a right angle to a wall or to the car if one is within `reach` radians: exactly square
/// then, else as wanted. The car itself is squared to the walls only.
pub fn squared(arrangement: &Arrangement, scene: &Scene, subject: &Subject, wanted: f64, reach: f64) -> f64 {
    let walls = arrangement.bay.room.edges().map(|edge| angle::heading(edge.to - edge.from));
    let car = (*subject != Subject::Car).then(|| scene.bay_from_vehicle.heading());
    let square = |base: f64| {
        let quarters = (angle::wrapped(wanted - base) / FRAC_PI_2).round();
        angle::wrapped(base + quarters * FRAC_PI_2)
    };
    let off = |heading: f64| angle::wrapped(heading - wanted).abs();
    let nearest = walls.chain(car).map(square).min_by(|a, b| off(*a).total_cmp(&off(*b)));
    nearest.filter(|&heading| off(heading) <= reach).unwrap_or(wanted)
}
