//! What of a thing lies outside a room, through which wall and how far, and which moves bring it inside.

mod deepest;

use glam::DVec2;

use crate::boolean::difference;
use crate::bounds::Bounds;
use crate::contain::{Containment, contains};
use crate::convex::touch_within;
use crate::outline::Outline;
use crate::polygon::Polygon;
use crate::separate::local_minima;

/// How far something reaches out of a room past one of its edges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Protrusion {
    /// Which ring of the room: 0 the outer one, then its holes.
    pub ring: usize,
    /// Which edge of that ring.
    pub edge: usize,
    /// The largest distance from the room, mm, of those points outside it that are nearest to this edge.
    pub depth: f64,
    /// A point at that distance.
    pub deepest: DVec2,
}

/// Where `inner` reaches out of the room, deepest first: at most one for each room edge. Empty when it is contained;
/// touching from inside, within [`crate::tolerance::TOUCH_MM`], is contained.
///
/// A wall of the room that is thinner than the thing has a front and a back: both are reported, each with the depth up
/// to the middle of the wall.
pub fn protrusions(room: &Polygon, inner: &Outline) -> Vec<Protrusion> {
    if matches!(contains(room, inner), Containment::Within | Containment::TouchingWithin) {
        return Vec::new();
    }
    let slack = touch_within(&room.bounds(), &inner.bounds());
    // A disc by a polygon inside it: its corners lie on the rim, and the rim's own extremes are added below.
    let stand_in = match inner {
        Outline::Polygon(polygon) => polygon.clone(),
        Outline::Circle(circle) => circle.inscribed(),
    };
    let outside = difference(&stand_in, room);
    let mut deepest = deepest::Deepest::new(room);
    for region in &outside {
        deepest.look_along(region);
        deepest.look_in_holes(region);
    }
    if let Outline::Circle(circle) = inner {
        deepest.look_at_rim(circle);
    }
    let mut found = deepest.into_found();
    let all = found.clone();
    found.retain(|p| p.depth > slack);
    if found.is_empty() {
        // It does reach out, but by so little that only the deepest place can be named.
        found.extend(all.into_iter().max_by(|a, b| a.depth.total_cmp(&b.depth)));
    }
    found.sort_by(|a, b| b.depth.total_cmp(&a.depth).then((a.ring, a.edge).cmp(&(b.ring, b.edge))));
    found
}

/// The locally shortest moves that put `inner` wholly inside the room, ascending by length; no move at all (one zero
/// vector) if it is there already, and none if it fits nowhere.
pub fn moves_inside(room: &Polygon, inner: &Outline) -> Vec<DVec2> {
    if matches!(contains(room, inner), Containment::Within | Containment::TouchingWithin) {
        return vec![DVec2::ZERO];
    }
    let slack = touch_within(&room.bounds(), &inner.bounds());
    // What is not room, as obstacles: a frame around it that the thing cannot leap, and its holes.
    let margin = 1.5 * inner.bounds().size().max_element() + 0.01 * room.bounds().size().max_element();
    let Bounds { low, high } = room.bounds().grown(margin);
    let corners = vec![low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
    let mut obstacles = vec![Outline::Polygon(Polygon::trusted(corners, vec![room.outer().to_vec()]))];
    let holes = room.holes().iter().map(|hole| Outline::Polygon(Polygon::trusted(hole.clone(), Vec::new())));
    obstacles.extend(holes);
    let obstacles: Vec<&Outline> = obstacles.iter().collect();
    let around = inner.bounds();
    let within = room.bounds().grown(slack);
    let mut moves = local_minima(&obstacles, inner);
    moves.retain(|&t| {
        let moved = around.moved(t);
        within.holds(moved.low) && within.holds(moved.high)
    });
    moves
}
