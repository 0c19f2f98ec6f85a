//! What of a thing lies outside a room, through which wall and how far, and which moves bring it inside.

mod deepest;

use glam::DVec2;

use crate::boolean::difference;
use crate::bounds::Bounds;
use crate::contain::holds;
use crate::convex::touch_within;
use crate::distance::to_boundary;
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
/// The depth of a disc is exact where it lies squarely before an edge or a corner, elsewhere within
/// [`crate::tolerance::SAGITTA_MM`].
///
/// A wall of the room that is thinner than the thing has a front and a back: both are reported, each with the depth up
/// to the middle of the wall.
///
/// ```rust
/// # use baywright_geometry::*;
/// let room = Polygon::rectangle(DVec2::ZERO, DVec2::new(8000.0, 4000.0))?;
/// let cabinet = Outline::from(Polygon::rectangle(DVec2::new(7500.0, 1000.0), DVec2::new(8120.0, 2000.0))?);
/// // Through the wall that runs from corner 1 to corner 2, by 120 mm.
/// let found = protrusions(&room, &cabinet);
/// assert_eq!((found.len(), found[0].edge), (1, 1));
/// assert!((found[0].depth - 120.0).abs() < 1e-9);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn protrusions(room: &Polygon, inner: &Outline) -> Vec<Protrusion> {
    if holds(room, inner) {
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
        deepest.look_between_walls(region);
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

/// The same of what reaches out by more than this, mm: nothing of a shape that nowhere does. In a convex room that is quick to tell.
///
/// ```rust
/// # use baywright_geometry::*;
/// let room = Polygon::rectangle(DVec2::ZERO, DVec2::new(8000.0, 4000.0))?;
/// let cabinet = Outline::from(Polygon::rectangle(DVec2::new(7500.0, 1000.0), DVec2::new(8120.0, 2000.0))?);
/// assert_eq!(protrusions_deeper(&room, &cabinet, 119.0), protrusions(&room, &cabinet));
/// assert_eq!(protrusions_deeper(&room, &cabinet, 121.0), []);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn protrusions_deeper(room: &Polygon, inner: &Outline, than_mm: f64) -> Vec<Protrusion> {
    let found = if is_out_by_at_most(room, inner, than_mm) { Vec::new() } else { protrusions(room, inner) };
    if found.first().is_some_and(|deepest| deepest.depth > than_mm) { found } else { Vec::new() }
}

/// Whether a convex room is nowhere further from a shape's outside than this, mm. The distance from a convex room is greatest at
/// a corner.
fn is_out_by_at_most(room: &Polygon, inner: &Outline, most_mm: f64) -> bool {
    // What rounding makes of a corner on an edge is less than is ever said to reach out.
    let is_in = |p: DVec2| room.edges().all(|e| (e.to - e.from).perp_dot(p - e.from) >= 0.0);
    let is_near = |p: &DVec2| is_in(*p) || to_boundary(room, *p) <= most_mm;
    match inner {
        Outline::Polygon(polygon) => room.is_convex() && polygon.outer().iter().all(is_near),
        Outline::Circle(_) => false,
    }
}

/// The locally shortest moves that put `inner` wholly inside the room, ascending by length; no move at all (one zero
/// vector) if it is there already, and none if it fits nowhere, or if room and shape make more pairs of convex parts than
/// [`MOST_SETS`](crate::MOST_SETS).
///
/// ```rust
/// # use baywright_geometry::*;
/// let room = Polygon::rectangle(DVec2::ZERO, DVec2::new(8000.0, 4000.0))?;
/// let cabinet = Outline::from(Polygon::rectangle(DVec2::new(7500.0, 1000.0), DVec2::new(8120.0, 2000.0))?);
/// assert!(moves_inside(&room, &cabinet)[0].distance(DVec2::new(-120.0, 0.0)) < 1e-6);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn moves_inside(room: &Polygon, inner: &Outline) -> Vec<DVec2> {
    if holds(room, inner) {
        return vec![DVec2::ZERO];
    }
    // Wherever the thing is now, it will be within the room.
    let slack = touch_within(&room.bounds(), &room.bounds());
    let obstacles = beyond(room, inner);
    let obstacles: Vec<&Outline> = obstacles.iter().collect();
    let around = inner.bounds();
    let within = room.bounds().grown(slack);
    let mut moves = local_minima(&obstacles, inner, slack);
    moves.retain(|&t| {
        let moved = around.moved(t);
        within.holds(moved.low) && within.holds(moved.high)
    });
    moves
}

/// What is not room, as obstacles for a shape in it or near it: a frame around the room that the shape cannot leap, and the
/// room's holes.
pub fn beyond(room: &Polygon, inner: &Outline) -> Vec<Outline> {
    let margin = 1.5 * inner.bounds().size().max_element() + 0.01 * room.bounds().size().max_element();
    let Bounds { low, high } = room.bounds().grown(margin);
    let corners = vec![low, DVec2::new(high.x, low.y), high, DVec2::new(low.x, high.y)];
    let frame = Outline::Polygon(Polygon::trusted(corners, vec![room.outer().to_vec()]));
    let holes = room.holes().iter().map(|hole| Outline::Polygon(Polygon::trusted(hole.clone(), Vec::new())));
    std::iter::once(frame).chain(holes).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circle::Circle;

    fn block(low: (f64, f64), high: (f64, f64)) -> Outline {
        Polygon::rectangle(low.into(), high.into()).unwrap().into()
    }

    fn room() -> Polygon {
        // 8 m by 6 m, a thin inner wall reaching up from the middle of the floor side, a pillar.
        let outer = [(0., 0.), (3950., 0.), (3950., 3000.), (4050., 3000.), (4050., 0.), (8000., 0.)];
        let mut outer = outer.map(DVec2::from).to_vec();
        outer.extend([DVec2::new(8000., 6000.), DVec2::new(0., 6000.)]);
        let pillar = [(6000., 4000.), (6400., 4000.), (6400., 4300.), (6000., 4300.)];
        Polygon::new(outer, vec![pillar.map(DVec2::from).to_vec()]).unwrap()
    }

    /// Ring, edge and depth of everything found.
    fn check(inner: &Outline, expected: &[(usize, usize, f64)]) {
        let found = protrusions(&room(), inner);
        let got: Vec<_> = found.iter().map(|p| (p.ring, p.edge, p.depth)).collect();
        assert_eq!(got.len(), expected.len(), "{got:?}");
        for (g, e) in got.iter().zip(expected) {
            assert!((g.0, g.1) == (e.0, e.1) && (g.2 - e.2).abs() < 1e-6, "{got:?}");
        }
    }

    #[test]
    fn walls_are_named_with_their_depth() {
        check(&block((100., 100.), (900., 900.)), &[]);
        check(&block((0., 0.), (900., 900.)), &[]);
        // Through the left side, edge 7, by 250.
        check(&block((-250., 100.), (900., 900.)), &[(0, 7, 250.)]);
        // Past the corner of left side and bottom.
        check(&block((-250., -40.), (900., 900.)), &[(0, 7, 250.0_f64.hypot(40.)), (0, 0, 40.)]);
        // Wholly outside, beyond the right side.
        check(&block((8100., 1000.), (8500., 2000.)), &[(0, 5, 500.)]);
        check(&Circle::new(DVec2::new(7900., 3000.), 300.).unwrap().into(), &[(0, 5, 200.)]);
    }

    #[test]
    fn a_thin_wall_and_a_pillar_inside_a_thing_are_found() {
        // Through the inner wall, 100 thick: its two faces are edges 1 and 3.
        check(&block((3500., 1000.), (4500., 2000.)), &[(0, 1, 50.), (0, 3, 50.)]);
        // Over the whole pillar: deepest half its shorter side.
        let found = protrusions(&room(), &block((5500., 3500.), (7000., 5000.)));
        assert!(found.iter().all(|p| p.ring == 1), "{found:?}");
        assert!((found[0].depth - 150.).abs() < 1e-6, "{found:?}");
    }

    /// Between the two faces of the inner wall it is as deep all along: the place named is where its end is as near, too,
    /// however the room lies.
    #[test]
    fn of_places_as_deep_the_one_between_most_walls_is_named() {
        let thing = block((3500., 1000.), (4500., 3500.));
        for turn in [0.0, 0.3, 1.1, 2.5, -2.9] {
            let pose = crate::frame::PlanPose::new(DVec2::new(700., -300.), turn);
            let found = protrusions(&room().placed(&pose), &thing.placed(&pose));
            assert_eq!(found.len(), 3, "{found:?}");
            for own in found {
                let at = pose.inverse() * own.deepest;
                assert!(at.distance(DVec2::new(4000., 2950.)) < 1e-5, "{turn}: {at}");
            }
        }
    }

    #[test]
    fn moves_put_things_inside() {
        let moves = moves_inside(&room(), &block((-250., 100.), (900., 900.)));
        assert!(moves[0].distance(DVec2::new(250., 0.)) < 1e-9, "{moves:?}");
        // The pocket between inner wall and left side is 3950 wide: this fits exactly.
        let exact = block((-10., -20.), (3940., 1000.));
        assert!(moves_inside(&room(), &exact)[0].distance(DVec2::new(10., 20.)) < 1e-9);
        assert!(moves_inside(&room(), &block((0., 0.), (9000., 100.))).is_empty());
        let far = moves_inside(&room(), &block((-9e5, 100.), (-9e5 + 500., 600.)));
        assert!((far[0].x - 9e5).abs() < 1e-6 && far[0].y.abs() < 1e-6, "{far:?}");
    }
}
