//! A wanted place drawn onto what is near it: marks, walls, edges of things, the centreline.

use baywright_geometry::{Bounds, DVec2, Outline, PlanPose, Prism, Segment};

use super::walls::{APART, Seen, reach as reach_of};
use super::{others, own_solids, pose_of};
use crate::assessment::Subject;
use crate::check::SPEAKS_FROM_MM;
use crate::model::{Arrangement, Id, Wheel};
use crate::scene::Scene;

/// What something is drawn onto.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SnapKind {
    /// Flush with a wall.
    Wall(Id),
    /// Flush or in line with an edge of something else.
    Edge(Subject),
    /// Its middle, or the car's wheel or front axle, on a floor mark.
    Mark(Id),
    /// A target where it belongs, by its placement's name.
    Place(Id),
    /// Its middle on the line straight ahead of the car.
    Centreline,
}

/// What something is drawn onto, with a line to show it; bay frame, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Snap {
    /// What it is.
    pub kind: SnapKind,
    /// Where the line starts.
    pub from: DVec2,
    /// Where it ends; the same place for a mark or where a target belongs.
    pub to: DVec2,
}

/// A place drawn onto what is near.
#[derive(Clone, Debug, PartialEq)]
pub struct Snapped {
    /// The place: bay from its own frame; the heading is the wanted one.
    pub place: PlanPose,
    /// What it was drawn onto: at most two, not parallel.
    pub onto: Vec<Snap>,
}

/// In line with an edge further along than this nobody sees that it is (common practice, no source), mm.
const IN_LINE_MM: f64 = 3000.0;
/// Sides are parallel up to this sine of the angle between them: a tenth of a degree, 1.7 mm over a metre.
const PARALLEL: f64 = 0.001_745;
/// Of an outline of many corners only sides this long count, as a share of its box: shorter ones are roundings.
const LONG_SIDE: f64 = 0.1;
/// Two lines together draw it no further than so many times the reach: square to each other √2 times at most, while two
/// at a sharp angle could draw it four times as far.
const FURTHEST: f64 = 1.5;

/// The wanted place (bay from its own frame), shifted onto what is near: no further than `reach` mm onto each.
///
/// A point comes first: a target onto where it belongs, a middle onto a floor mark, for the car a wheel point or the
/// middle of the front axle onto a permanent mark. Otherwise the nearest line, and the nearest one at least 30° from parallel to that: flush with
/// a wall; flush with an edge of a thing or stand at its own heights, or in line with it; the middle on the car's reference
/// axis. The car is drawn onto walls and permanent marks only.
///
/// Without reach, or for what cannot be moved, the place is as wanted; in the place of one that is not a number comes
/// where it stands.
pub fn snapped(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    wanted: PlanPose,
    reach: f64,
) -> Snapped {
    if !(wanted.origin().is_finite() && wanted.heading().is_finite()) {
        let place = pose_of(arrangement, scene, subject).unwrap_or(PlanPose::IDENTITY);
        return Snapped { place, onto: Vec::new() };
    }
    let own = own_solids(arrangement, scene, subject);
    let Some(around) = super::around(&own).filter(|_| reach > 0.0) else {
        return Snapped { place: wanted, onto: Vec::new() };
    };
    // The middle of a thing of any outline is that of its box; a target's is under the middle of its face.
    let middle = match subject {
        Subject::Thing(_) => wanted * around.centre(),
        _ => wanted.origin(),
    };
    if let Some((by, snap)) = on_point(arrangement, scene, subject, &wanted, middle, reach) {
        return Snapped { place: wanted.shifted(by), onto: vec![snap] };
    }
    let own: Vec<Prism> = own.iter().map(|solid| solid.placed(&wanted)).collect();
    let lines = Lines { own: &own, middle, reach, found: Vec::new() }.all(arrangement, scene, subject);
    let (by, onto) = together(&lines, reach);
    Snapped { place: wanted.shifted(by), onto: onto.iter().map(|line| line.snap(by)).collect() }
}

/// Points nearer to each other than this are one, and the first that is named is meant: far below what a tape shows, far
/// above rounding.
const SAME_MM: f64 = 1e-3;

/// The shift that brings it onto the nearest mark, or where it belongs.
fn on_point(
    arrangement: &Arrangement,
    scene: &Scene,
    subject: &Subject,
    wanted: &PlanPose,
    middle: DVec2,
    reach: f64,
) -> Option<(DVec2, Snap)> {
    let is_car = *subject == Subject::Car;
    let mut points = vec![middle];
    if is_car {
        points.extend(Wheel::ALL.map(|wheel| *wanted * arrangement.wheel_point(wheel)));
    }
    let mut best: Option<(f64, DVec2, DVec2, SnapKind)> = None;
    let mut look = |at: DVec2, kind: &dyn Fn() -> SnapKind| {
        for &point in &points {
            let off = point.distance(at);
            if off <= reach && best.as_ref().is_none_or(|(least, ..)| off < *least - SAME_MM) {
                best = Some((off, at - point, at, kind()));
            }
        }
    };
    if let Subject::Stand(id) | Subject::Target(id) = subject {
        for target in scene.targets.iter().filter(|target| target.id == *id) {
            look(target.meant.place.origin(), &|| SnapKind::Place(id.clone()));
        }
    }
    // The marks of the aiming are laid out from the car, and go where it goes.
    for mark in scene.marks.iter().filter(|_| !is_car) {
        if let Ok(at) = mark.at {
            look(at, &|| SnapKind::Mark(mark.id.clone()));
        }
    }
    for mark in &arrangement.bay.marks {
        look(mark.at, &|| SnapKind::Mark(mark.id.clone()));
    }
    let (_, by, at, kind) = best?;
    Some((by, Snap { kind, from: at, to: at }))
}

/// A line that it can be drawn onto.
#[derive(Clone, Debug)]
struct Line {
    kind: SnapKind,
    /// Square to the line, of length 1; the line runs to the left of it.
    normal: DVec2,
    /// How far it is to be shifted along the normal, mm.
    by: f64,
    /// The ends of what the line is of.
    stretch: Segment,
    /// From where to where it lies along the line itself, if the line is to be shown up to there.
    own: Option<(f64, f64)>,
}

impl Line {
    /// The line to show once it was shifted.
    fn snap(&self, shift: DVec2) -> Snap {
        let Segment { from, to } = self.stretch;
        let along = self.normal.perp();
        let (from, to) = self.own.map_or((from, to), |(low, high)| {
            let shift = shift.dot(along) - from.dot(along);
            let (low, high) = ((low + shift).min(0.0), (high + shift).max(from.distance(to)));
            (from + along * low, from + along * high)
        });
        Snap { kind: self.kind.clone(), from, to }
    }
}

/// The shift onto the nearest line and the nearest one not parallel to it.
fn together(lines: &[Line], reach: f64) -> (DVec2, Vec<&Line>) {
    let mut nearest: Vec<&Line> = lines.iter().collect();
    nearest.sort_by(|a, b| a.by.abs().total_cmp(&b.by.abs()));
    let Some((&first, rest)) = nearest.split_first() else { return (DVec2::ZERO, Vec::new()) };
    for &second in rest {
        let across = first.normal.perp_dot(second.normal);
        if across.abs() < APART {
            continue;
        }
        // The one shift that has both parts.
        let by = (second.normal.perp() * -first.by + first.normal.perp() * second.by) / across;
        if by.length() <= FURTHEST * reach {
            return (by, vec![first, second]);
        }
    }
    (first.normal * first.by, vec![first])
}

/// Looks for the lines within reach.
struct Lines<'a> {
    /// What is in hand, at the wanted place.
    own: &'a [Prism],
    middle: DVec2,
    reach: f64,
    found: Vec<Line>,
}

impl Lines<'_> {
    fn all(mut self, arrangement: &Arrangement, scene: &Scene, subject: &Subject) -> Vec<Line> {
        for (edge, wall) in arrangement.bay.room.edges().zip(&arrangement.bay.walls) {
            self.wall(&edge, &wall.id);
        }
        // The car is parked by walls and marks; a line through every shelf would only be in the way.
        if *subject != Subject::Car {
            self.edges(arrangement, scene, subject);
            self.centreline(scene);
        }
        self.found
    }

    /// Flush with a wall that it stands abreast of.
    fn wall(&mut self, edge: &Segment, id: &Id) {
        let Some(seen) = Seen::of(self.own.iter().map(|solid| &solid.outline), edge) else { return };
        let by = -seen.depth.0;
        if by.abs() <= self.reach && seen.is_abreast() {
            let kind = SnapKind::Wall(id.clone());
            self.found.push(Line { kind, normal: seen.inward, by, stretch: *edge, own: None });
        }
    }

    /// Flush or in line with edges of things and stands that share its heights.
    fn edges(&mut self, arrangement: &Arrangement, scene: &Scene, subject: &Subject) {
        let Some(around) = super::around(self.own) else { return };
        let near = around.grown(IN_LINE_MM + self.reach);
        let ways = straight_ways(self.own);
        for other in others(arrangement, scene, subject) {
            if matches!(other.what, super::What::Car) || !near.meets(&other.bounds) {
                continue;
            }
            for solid in other.solids {
                let Outline::Polygon(polygon) = &solid.outline else { continue };
                if !self.own.iter().any(|own| own.span.shared(&solid.span).is_some()) {
                    continue;
                }
                let least = least_side(&polygon.bounds());
                for edge in polygon.edges() {
                    let (Some(along), true) = ((edge.to - edge.from).try_normalize(), edge.length() >= least)
                    else {
                        continue;
                    };
                    if ways.as_ref().is_none_or(|ways| ways.iter().any(|way| is_parallel(*way, along))) {
                        self.edge(&edge, along, || SnapKind::Edge(other.what.subject()));
                    }
                }
            }
        }
    }

    fn edge(&mut self, edge: &Segment, along: DVec2, kind: impl Fn() -> SnapKind) {
        // The inside lies to the left of an edge.
        let normal = -along.perp();
        let outlines = self.own.iter().map(|solid| &solid.outline);
        let (Some(across), Some(own)) = (reach_of(outlines.clone(), normal), reach_of(outlines, along))
        else {
            return;
        };
        let at = edge.from.dot(normal);
        let (start, end) = (edge.from.dot(along), edge.to.dot(along));
        // How far apart they are along the edge; negative for the length that both share.
        let beside = (start - own.1).max(own.0 - end);
        let flush = (beside < -SPEAKS_FROM_MM).then_some(at - across.0);
        let in_line = (beside > -self.reach && beside <= IN_LINE_MM).then_some(at - across.1);
        for by in flush.into_iter().chain(in_line).filter(|by| by.abs() <= self.reach) {
            self.found.push(Line { kind: kind(), normal, by, stretch: *edge, own: Some(own) });
        }
    }

    /// The middle on the line straight ahead of the car.
    fn centreline(&mut self, scene: &Scene) {
        let axis = scene.bay_from_axis;
        let (normal, start) = (-axis.left(), axis.origin());
        let by = (start - self.middle).dot(normal);
        if by.abs() <= self.reach {
            // From the front axle on, as far as its middle.
            let stretch = Segment::new(start, start);
            let at = self.middle.dot(axis.forward());
            let kind = SnapKind::Centreline;
            self.found.push(Line { kind, normal, by, stretch, own: Some((at, at)) });
        }
    }
}

/// The directions of the long straight sides of some solids, each once; `None` if one of them is round and every edge
/// is along a tangent.
fn straight_ways(own: &[Prism]) -> Option<Vec<DVec2>> {
    let mut ways: Vec<DVec2> = Vec::new();
    for solid in own {
        let Outline::Polygon(polygon) = &solid.outline else { return None };
        let least = least_side(&polygon.bounds());
        for edge in polygon.edges().filter(|edge| edge.length() >= least) {
            if let Some(along) = (edge.to - edge.from).try_normalize()
                && !ways.iter().any(|way| is_parallel(*way, along))
            {
                ways.push(along);
            }
        }
    }
    Some(ways)
}

fn least_side(bounds: &Bounds) -> f64 {
    bounds.size().max_element() * LONG_SIDE
}

fn is_parallel(a: DVec2, b: DVec2) -> bool {
    a.perp_dot(b).abs() <= PARALLEL
}
