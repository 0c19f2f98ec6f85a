//! The surveyed places joined to cells: triangles, or what of them lies on one circle.

use std::collections::BTreeMap;

use baywright_geometry::DVec2;
use spade::{DelaunayTriangulation, HasPosition, Point2, Triangulation};

use super::groups::root;
use super::spots::Spot;
use super::{Level, weights::weigh};
use crate::plane::Plane;

/// A triangle lower than this has no inside worth the name: on the edge of a survey, three points of one line, typed or
/// turned to the last digit but one, make such.
pub(super) const FLAT_MM: f64 = 1.0;

/// Corners off a circle by no more than this share of its radius, and no more than a tape tells, lie on it.
const SAME_CIRCLE_SHARE: f64 = 1e-3;
const SAME_CIRCLE_MM: f64 = 1.0;

/// A convex part of the floor between surveyed places.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Cell {
    /// Anticlockwise.
    corners: Vec<Spot>,
    middle: DVec2,
    slope: DVec2,
    /// How much steeper than its plane it is anywhere within.
    bent: f64,
    /// How much the floor's slope changes hereabouts, per mm.
    bend: f64,
    pub(super) low: DVec2,
    pub(super) high: DVec2,
}

impl Cell {
    /// How steep it is anywhere within, against a plane that falls so much along x and y.
    pub(super) fn steepest(&self, against: DVec2) -> f64 {
        (self.slope - against).length() + self.bent
    }

    /// Whether a place is as near to it as this, mm, or within.
    pub(super) fn is_near(&self, place: DVec2, reach_mm: f64) -> bool {
        let (low, high) = (self.low - reach_mm, self.high + reach_mm);
        place.cmpge(low).all() && place.cmple(high).all() && self.depth(place) >= -reach_mm
    }

    /// How deep a place lies within; negative: how far outside it is.
    pub(super) fn depth(&self, place: DVec2) -> f64 {
        let inside = self.within_lines(place);
        if inside < 0.0 { -self.nearest(place).distance(place) } else { inside }
    }

    /// How far a place lies within the edges, prolonged without end.
    fn within_lines(&self, place: DVec2) -> f64 {
        let depth = |(a, b): (&Spot, &Spot)| {
            let edge = b.at - a.at;
            edge.perp_dot(place - a.at) / edge.length()
        };
        self.corners.iter().zip(self.corners.iter().cycle().skip(1)).map(depth).fold(f64::INFINITY, f64::min)
    }

    /// The level at a place within it, or at the place of its edge nearest to one just outside; `depth` is how deep it lies.
    pub(super) fn level(&self, place: DVec2, depth: f64) -> Level {
        let place = if depth < 0.0 { self.nearest(place) } else { place };
        let [mut level, mut within, mut squares] = [0.0; 3];
        let sum = weigh(&self.corners, place, |corner, weight| {
            level += weight * corner.level_mm;
            within += weight * corner.within_mm;
            squares += weight * corner.at.distance_squared(place);
        });
        let bent = 0.5 * self.bend * squares;
        Level { level_mm: level / sum, within_mm: (within + bent) / sum, nearest_mm: 0.0 }
    }

    /// Triangles that make it up, each corner with its level: itself, or those from its middle to its edges.
    pub(super) fn triangles(&self) -> Vec<[(DVec2, f64); 3]> {
        let corner = |spot: &Spot| (spot.at, spot.level_mm);
        if let [a, b, c] = self.corners.as_slice() {
            return vec![[a, b, c].map(corner)];
        }
        let depth = self.within_lines(self.middle);
        let middle = (self.middle, self.level(self.middle, depth).level_mm);
        let edges = self.corners.iter().zip(self.corners.iter().cycle().skip(1));
        edges.map(|(a, b)| [middle, corner(a), corner(b)]).collect()
    }

    fn nearest(&self, place: DVec2) -> DVec2 {
        let on_edge = |(a, b): (&Spot, &Spot)| {
            let edge = b.at - a.at;
            a.at + edge * ((place - a.at).dot(edge) / edge.length_squared()).clamp(0.0, 1.0)
        };
        let edges = self.corners.iter().zip(self.corners.iter().cycle().skip(1));
        let nearer = |a: &DVec2, b: &DVec2| a.distance(place).total_cmp(&b.distance(place));
        edges.map(on_edge).min_by(nearer).unwrap_or(place)
    }

    /// `None` if these corners are not those of a convex polygon.
    fn of(mut corners: Vec<Spot>) -> Option<Self> {
        let count = corners.len() as f64;
        let middle = corners.iter().map(|corner| corner.at / count).sum::<DVec2>();
        let bearing = |corner: &Spot| libm::atan2(corner.at.y - middle.y, corner.at.x - middle.x);
        corners.sort_by(|a, b| bearing(a).total_cmp(&bearing(b)));
        let turns = |i: usize| {
            let at = |k: usize| corners.get((i + k) % corners.len()).map_or(middle, |corner| corner.at);
            (at(1) - at(0)).perp_dot(at(2) - at(1)) > 0.0
        };
        if corners.len() < 3 || !(0..corners.len()).all(turns) {
            return None;
        }
        let points: Vec<_> = corners.iter().map(|corner| corner.at.extend(corner.level_mm)).collect();
        let plane = Plane::through(&points)?;
        // A twist xy bends by twice its height at a corner over the square of the corner's distance.
        let twist = |corner: &Spot| {
            2.0 * (corner.level_mm - plane.at(corner.at)).abs() / corner.at.distance_squared(middle)
        };
        // And at a corner it rises or falls so much more steeply than the plane.
        let bent = |corner: &Spot| twist(corner) * corner.at.distance(middle);
        Some(Self {
            bent: corners.iter().map(bent).fold(0.0, f64::max),
            bend: if corners.len() > 3 { corners.iter().map(twist).fold(0.0, f64::max) } else { 0.0 },
            slope: plane.slope,
            middle,
            low: corners.iter().fold(DVec2::INFINITY, |low, corner| low.min(corner.at)),
            high: corners.iter().fold(DVec2::NEG_INFINITY, |high, corner| high.max(corner.at)),
            corners,
        })
    }
}

struct Corner {
    at: Point2<f64>,
    spot: usize,
}

impl HasPosition for Corner {
    type Scalar = f64;
    fn position(&self) -> Point2<f64> {
        self.at
    }
}

/// A triangle by its corners, and beyond each of its edges (from a corner to the next) its neighbour.
struct Triangle {
    corners: [usize; 3],
    beyond: [Option<usize>; 3],
}

/// The cells; none if the places make no triangle.
pub(super) fn of(spots: &[Spot]) -> Vec<Cell> {
    let triangles = triangles(spots);
    let groups = groups(&triangles, spots);
    let mut cells: Vec<Cell> = Vec::new();
    let mut cell_of: Vec<Option<usize>> = vec![None; triangles.len()];
    let spot = |index: &usize| spots.get(*index).copied();
    let corners = |members: &[usize]| {
        let mut all: Vec<usize> =
            members.iter().filter_map(|t| triangles.get(*t)).flat_map(|t| t.corners).collect();
        all.sort_unstable();
        all.dedup();
        all.iter().filter_map(spot).collect::<Vec<_>>()
    };
    for members in groups {
        let whole = Cell::of(corners(&members)).map(|cell| (members.clone(), cell));
        let parts = || members.iter().filter_map(|t| Some((vec![*t], Cell::of(corners(&[*t]))?))).collect();
        for (members, cell) in whole.map_or_else(parts, |whole| vec![whole]) {
            for member in members {
                if let Some(own) = cell_of.get_mut(member) {
                    *own = Some(cells.len());
                }
            }
            cells.push(cell);
        }
    }
    let mut bends: Vec<f64> = cells.iter().map(|cell| cell.bend).collect();
    for (triangle, own) in triangles.iter().zip(&cell_of) {
        for other in triangle.beyond.iter().flatten() {
            let (Some(own), Some(Some(other))) = (*own, cell_of.get(*other)) else { continue };
            let (Some(here), Some(there)) = (cells.get(own), cells.get(*other)) else { continue };
            let apart = here.middle.distance(there.middle).max(FLAT_MM);
            if let Some(bend) = bends.get_mut(own).filter(|_| own != *other) {
                *bend = bend.max((here.slope - there.slope).length() / apart);
            }
        }
    }
    for (cell, bend) in cells.iter_mut().zip(bends) {
        cell.bend = bend;
    }
    cells
}

fn triangles(spots: &[Spot]) -> Vec<Triangle> {
    // Relative to one of them, and not nearer to nothing than a thousandth of a millimetre's millionth: the library refuses
    // what would underflow.
    let first = spots.first().map_or(DVec2::ZERO, |spot| spot.at);
    let flushed = |value: f64| if value.abs() < 1e-9 { 0.0 } else { value };
    let corner = |(spot, own): (usize, &Spot)| {
        let at = own.at - first;
        Corner { at: Point2::new(flushed(at.x), flushed(at.y)), spot }
    };
    let corners = spots.iter().enumerate().map(corner).collect();
    let Ok(joined) = DelaunayTriangulation::<Corner>::bulk_load(corners) else { return Vec::new() };
    let number: BTreeMap<usize, usize> =
        joined.inner_faces().enumerate().map(|(number, face)| (face.fix().index(), number)).collect();
    let triangle = |edges: [spade::handles::DirectedEdgeHandle<'_, Corner, (), (), ()>; 3]| Triangle {
        corners: edges.map(|edge| edge.from().data().spot),
        beyond: edges.map(|edge| {
            let face = edge.rev().face().as_inner()?;
            number.get(&face.fix().index()).copied()
        }),
    };
    joined.inner_faces().map(|face| triangle(face.adjacent_edges())).collect()
}

/// Which triangles belong together, those that are flat left out; in the order of their first.
fn groups(triangles: &[Triangle], spots: &[Spot]) -> Vec<Vec<usize>> {
    let place = |index: usize| spots.get(index).map_or(DVec2::NAN, |spot| spot.at);
    let places: Vec<[DVec2; 3]> = triangles.iter().map(|t| t.corners.map(place)).collect();
    let circles: Vec<Option<(DVec2, f64)>> = places.iter().map(circle).collect();
    let mut group: Vec<usize> = (0..triangles.len()).collect();
    for (t, triangle) in triangles.iter().enumerate() {
        for other in triangle.beyond.iter().flatten().copied().filter(|other| *other > t) {
            let on = |circle: usize, corners: usize| {
                let Some(Some((middle, radius))) = circles.get(circle).copied() else { return false };
                let off = |corner: &DVec2| (corner.distance(middle) - radius).abs();
                let near = (SAME_CIRCLE_SHARE * radius).min(SAME_CIRCLE_MM);
                places.get(corners).is_some_and(|corners| corners.iter().all(|corner| off(corner) <= near))
            };
            if on(t, other) && on(other, t) {
                let (from, to) = (root(&group, t.max(other)), root(&group, t.min(other)));
                if let Some(own) = group.get_mut(from.max(to)) {
                    *own = from.min(to);
                }
            }
        }
    }
    let mut members: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for t in (0..triangles.len()).filter(|t| matches!(circles.get(*t), Some(Some(_)))) {
        members.entry(root(&group, t)).or_default().push(t);
    }
    members.into_values().collect()
}

/// Middle and radius of the circle through a triangle's corners; `None` if it is flat.
fn circle(corners: &[DVec2; 3]) -> Option<(DVec2, f64)> {
    let [a, b, c] = *corners;
    let (ab, ac) = (b - a, c - a);
    let twice = ab.perp_dot(ac);
    let longest = ab.length().max(ac.length()).max(b.distance(c));
    if twice.abs() < FLAT_MM * longest || !twice.is_finite() {
        return None;
    }
    let middle = (ac.length_squared() * ab.perp() - ab.length_squared() * ac.perp()) * (0.5 / twice);
    Some((a + middle, middle.length()))
}
