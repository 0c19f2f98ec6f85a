//! Moves in plan that bring a shape clear of others.
//!
//! The moves that leave the mover in conflict are the inside of a *forbidden region*: the union of the Minkowski sums
//! of every convex part of an obstacle with every convex part of the mover turned about its origin. A shortest move
//! ends on the boundary of that region, at the foot of a perpendicular on one side or in the notch between two. These
//! places are computed and tried directly, so that a pocket which fits exactly is found too.

mod forbidden;
mod notch;

use std::borrow::Cow;

use glam::DVec2;

use crate::angle;
use crate::convex::{hull, parts, touch_within};
use crate::outline::Outline;
use crate::overlap::overlaps;
use forbidden::Forbidden;

/// The most pairs of convex parts, one of an obstacle and one of what moves, whose forbidden region is walked round: more
/// than the things, walls and zones around a thing in a full bay make, and few enough that the places where any two of
/// their sides meet can all be tried against all of them in a frame or two.
pub const MOST_SETS: usize = 256;

/// Two moves whose lengths differ by less count as equally short, and two that end nearer than this are one: a
/// millionth of a millimetre, far above rounding, far below anything that can be laid out.
pub const EQUAL_MOVES_MM: f64 = 1e-6;

/// How far to slide along a side to see whether that shortens a move, as a share of the move: small beside any shape
/// that matters to it.
const SLIDE_SHARE: f64 = 1e-6;

/// The same in units of the slack: large enough that the slack does not open a way that is shut.
const SLIDE_SLACKS: f64 = 1000.0;

/// The shortest ways out of a conflict.
#[derive(Clone, Debug, PartialEq)]
pub enum SeparatingMoves {
    /// There is no conflict.
    AlreadyApart,
    /// There is, and these moves end it.
    Moves {
        /// Their length, mm.
        length: f64,
        /// All moves of that length, by heading from 0 anticlockwise. A disc in the middle of a disc could leave in every
        /// direction: then the four along the axes.
        moves: Vec<DVec2>,
    },
}

/// The shortest moves after which `mover` shares no area with any of the obstacles. Afterwards they touch, or fit within
/// [`crate::tolerance::TOUCH_MM`].
///
/// Shapes that make more than [`MOST_SETS`] pairs of convex parts are taken as their convex hulls, and if these are still
/// more as one hull of them all: the moves given then still clear them, and a shorter one may.
///
/// ```rust
/// # use baywright_geometry::*;
/// let zone = Outline::from(Polygon::rectangle(DVec2::ZERO, DVec2::new(2000.0, 1500.0))?);
/// let cabinet = Outline::from(Polygon::rectangle(DVec2::new(1880.0, 200.0), DVec2::new(2400.0, 800.0))?);
/// let SeparatingMoves::Moves { length, moves } = separating_moves(&[&zone], &cabinet) else { unreachable!() };
/// assert!((length - 120.0).abs() < 1e-6 && moves.len() == 1);
/// assert!(!overlaps(&zone, &cabinet.moved(moves[0])));
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn separating_moves(obstacles: &[&Outline], mover: &Outline) -> SeparatingMoves {
    if !obstacles.iter().any(|obstacle| overlaps(obstacle, mover)) {
        return SeparatingMoves::AlreadyApart;
    }
    // Obstacles further than a move is long cannot be hit by it: look near first, further only if need be.
    let around = mover.bounds();
    let mut reach = around.size().max_element();
    loop {
        let within = around.grown(reach + EQUAL_MOVES_MM);
        let near: Vec<&Outline> = obstacles.iter().copied().filter(|o| o.bounds().meets(&within)).collect();
        let (length, moves) = shortest(&near, mover);
        if length <= reach || near.len() == obstacles.len() {
            return SeparatingMoves::Moves { length, moves };
        }
        reach = length.max(2.0 * reach);
    }
}

/// The length of the shortest moves, and all of them by heading.
fn shortest(obstacles: &[&Outline], mover: &Outline) -> (f64, Vec<DVec2>) {
    let simple = Simple::of(obstacles, mover);
    let region = match simple.few() {
        Some((obstacles, mover)) => Region::new(&obstacles, mover, None),
        None => Region::new(&[&simple.all_as_one(obstacles)], &simple.mover, None),
    };
    let mut moves = region.shortest_free(region.feet(), f64::INFINITY);
    let length = |moves: &[DVec2]| moves.iter().map(|t| t.length()).fold(f64::INFINITY, f64::min);
    let bound = length(&moves) + EQUAL_MOVES_MM;
    moves.extend(region.shortest_free(region.notches(bound), bound));
    let length = length(&moves);
    moves.retain(|t| t.length() <= length + EQUAL_MOVES_MM);
    (length, distinct(moves))
}

/// Every locally shortest move: one for each side of the forbidden region whose nearest point cannot be bettered
/// nearby, and one for each notch. Ascending by length; empty if there is no conflict.
///
/// Shapes that make more than [`MOST_SETS`] pairs of convex parts are taken as their convex hulls: every move given clears
/// them, and there may be others. Of more obstacles than that no move is given at all.
///
/// ```rust
/// # use baywright_geometry::*;
/// let zone = Outline::from(Polygon::rectangle(DVec2::ZERO, DVec2::new(2000.0, 1500.0))?);
/// let cabinet = Outline::from(Polygon::rectangle(DVec2::new(1880.0, 200.0), DVec2::new(2400.0, 800.0))?);
/// let all = exits(&[&zone], &cabinet);
/// // Ahead by 120 mm, to the right by 800 mm, to the left by 1300 mm, back by 2400 mm.
/// let lengths = [120.0, 800.0, 1300.0, 2400.0];
/// assert!(all.iter().zip(lengths).all(|(by, length)| (by.length() - length).abs() < 1e-6), "{all:?}");
/// assert_eq!(all.len(), 4);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn exits(obstacles: &[&Outline], mover: &Outline) -> Vec<DVec2> {
    if !obstacles.iter().any(|obstacle| overlaps(obstacle, mover)) {
        return Vec::new();
    }
    let simple = Simple::of(obstacles, mover);
    simple
        .few()
        .map_or_else(Vec::new, |(obstacles, mover)| Region::new(&obstacles, mover, None).local_minima())
}

/// Every locally shortest move of several movers *together* after which none of them shares area with the obstacle that it
/// is paired with: (what stays, what moves). Ascending by length; one zero vector if none is in conflict. Each mover may meet
/// what it is not paired with.
///
/// Shapes that make more than [`MOST_SETS`] pairs of convex parts are taken as their convex hulls: every move given clears
/// them, and there may be others. Of more pairs than that no move is given at all.
///
/// ```rust
/// # use baywright_geometry::*;
/// # use baywright_geometry::separate::exits_together;
/// let block = |x: f64, y: f64| Outline::from(Polygon::rectangle(DVec2::new(x, y), DVec2::new(x + 100.0, y + 100.0)).unwrap());
/// // Two blocks that move as one, the first 20 mm into a post ahead, the second 30 mm into a post on its left.
/// let moves = exits_together(&[(&block(80.0, 0.0), &block(0.0, 0.0)), (&block(500.0, 70.0), &block(500.0, 0.0))]);
/// assert!(moves[0].distance(DVec2::new(-20.0, -30.0)) < 1e-6);
/// ```
pub fn exits_together(pairs: &[(&Outline, &Outline)]) -> Vec<DVec2> {
    if !pairs.iter().any(|(stays, moves)| overlaps(stays, moves)) {
        return vec![DVec2::ZERO];
    }
    let sets = |pairs: &[(&Outline, &Outline)]| -> usize {
        pairs.iter().map(|(stays, moves)| parts(stays).count().saturating_mul(parts(moves).count())).sum()
    };
    if sets(pairs) <= MOST_SETS {
        return Region::together(pairs).local_minima();
    }
    let hulls: Vec<_> = pairs.iter().map(|(stays, moves)| (hulled(stays), hulled(moves))).collect();
    let hulls: Vec<(&Outline, &Outline)> =
        hulls.iter().map(|(stays, moves)| (stays.as_ref(), moves.as_ref())).collect();
    if sets(&hulls) <= MOST_SETS { Region::together(&hulls).local_minima() } else { Vec::new() }
}

/// As [`exits`], without asking whether there is a conflict, and with a touching tolerance of the caller's.
pub(crate) fn local_minima(obstacles: &[&Outline], mover: &Outline, touch: f64) -> Vec<DVec2> {
    if sets_of(obstacles, mover) > MOST_SETS {
        return Vec::new();
    }
    Region::new(obstacles, mover, Some(touch)).local_minima()
}

/// How many convex sets the forbidden region has: one for each part of an obstacle and each part of what moves.
fn sets_of(obstacles: &[&Outline], mover: &Outline) -> usize {
    let of_obstacles: usize = obstacles.iter().map(|obstacle| parts(obstacle).count()).sum();
    of_obstacles.saturating_mul(parts(mover).count())
}

/// Shapes simple enough for their forbidden region to be walked round: as they are, or as their hulls.
struct Simple<'a> {
    obstacles: Vec<Cow<'a, Outline>>,
    mover: Cow<'a, Outline>,
}

impl<'a> Simple<'a> {
    fn of(obstacles: &[&'a Outline], mover: &'a Outline) -> Self {
        let mut simple = Self {
            obstacles: obstacles.iter().map(|&obstacle| Cow::Borrowed(obstacle)).collect(),
            mover: Cow::Borrowed(mover),
        };
        if sets_of(obstacles, mover) > MOST_SETS {
            simple.mover = hulled(mover);
            simple.obstacles = obstacles.iter().map(|&obstacle| hulled(obstacle)).collect();
        }
        simple
    }

    /// What to walk round, if that is not too much.
    fn few(&self) -> Option<(Vec<&Outline>, &Outline)> {
        let obstacles: Vec<&Outline> = self.obstacles.iter().map(AsRef::as_ref).collect();
        (sets_of(&obstacles, &self.mover) <= MOST_SETS).then_some((obstacles, self.mover.as_ref()))
    }

    /// The hull of all obstacles.
    fn all_as_one(&self, obstacles: &[&Outline]) -> Outline {
        let corners: Vec<DVec2> =
            self.obstacles.iter().flat_map(|obstacle| obstacle.as_polygon().outer().to_vec()).collect();
        let first = || obstacles.first().map_or_else(|| (*self.mover).clone(), |&first| first.clone());
        hull(&corners).map_or_else(first, Outline::from)
    }
}

/// The hull of an outline that is not convex.
fn hulled(outline: &Outline) -> Cow<'_, Outline> {
    match outline {
        Outline::Polygon(polygon) if !polygon.is_convex() => {
            hull(polygon.outer()).map_or(Cow::Borrowed(outline), |hull| Cow::Owned(hull.into()))
        }
        Outline::Polygon(_) | Outline::Circle(_) => Cow::Borrowed(outline),
    }
}

/// Shortest first; of those equally short, by heading from the frame's x anticlockwise, so that rounding does not choose.
pub fn by_length_then_heading(moves: &mut [DVec2]) {
    moves.sort_by(|a, b| a.length().total_cmp(&b.length()));
    let mut rest = moves;
    while let Some(first) = rest.first() {
        let longest = first.length() + EQUAL_MOVES_MM;
        let equal = rest.iter().take_while(|t| t.length() <= longest).count();
        let (ties, longer) = rest.split_at_mut(equal);
        ties.sort_by(|a, b| heading_from_x(*a).total_cmp(&heading_from_x(*b)));
        rest = longer;
    }
}

/// Heading from 0 anticlockwise; one that is short of 0 by rounding only is 0.
pub fn heading_from_x(t: DVec2) -> f64 {
    const ROUNDING: f64 = 1e-9;
    (angle::heading(t) + ROUNDING).rem_euclid(std::f64::consts::TAU)
}

/// Ascending by length, ties by heading; of those that end at one place, the shortest.
fn distinct(mut moves: Vec<DVec2>) -> Vec<DVec2> {
    by_length_then_heading(&mut moves);
    let mut kept: Vec<DVec2> = Vec::with_capacity(moves.len());
    for t in moves {
        let near = |k: &&DVec2| (t.length() - k.length()).abs() <= EQUAL_MOVES_MM;
        if !kept.iter().rev().take_while(near).any(|k| k.distance(t) <= EQUAL_MOVES_MM) {
            kept.push(t);
        }
    }
    kept
}

/// The forbidden region as the convex sets whose union it is.
struct Region {
    sets: Vec<Forbidden>,
    /// The largest slack of a set.
    slack: f64,
}

impl Region {
    /// With the given touching tolerance, or for each obstacle its own.
    fn new(obstacles: &[&Outline], mover: &Outline, touch: Option<f64>) -> Self {
        let mut region = Self { sets: Vec::new(), slack: 0.0 };
        for obstacle in obstacles {
            region.add(obstacle, mover, touch);
        }
        region
    }

    /// Of several movers that move as one, each against its own obstacle.
    fn together(pairs: &[(&Outline, &Outline)]) -> Self {
        let mut region = Self { sets: Vec::new(), slack: 0.0 };
        for (stays, moves) in pairs {
            region.add(stays, moves, None);
        }
        region
    }

    fn add(&mut self, obstacle: &Outline, mover: &Outline, touch: Option<f64>) {
        // A move may end in a set by half of what counts as touching: the moved shape, with its own rounding, then
        // touches too.
        let slack = 0.5 * touch.unwrap_or_else(|| touch_within(&obstacle.bounds(), &mover.bounds()));
        self.slack = self.slack.max(slack);
        self.sets.extend(forbidden::sets(obstacle, mover, slack));
    }

    fn is_free(&self, t: DVec2) -> bool {
        !self.sets.iter().any(|set| set.holds(t))
    }

    /// All locally shortest moves, ascending.
    fn local_minima(&self) -> Vec<DVec2> {
        let mut moves = self.feet();
        moves.extend(self.notches(f64::INFINITY));
        moves.retain(|&t| self.is_free(t) && !self.slides_shorter(t));
        distinct(moves)
    }

    /// The shortest of the candidates that are free, and those equally short; none longer than `bound`.
    fn shortest_free(&self, mut candidates: Vec<DVec2>, bound: f64) -> Vec<DVec2> {
        candidates.sort_by(|a, b| a.length_squared().total_cmp(&b.length_squared()));
        let mut bound = bound;
        let mut free = Vec::new();
        for t in candidates {
            let length = t.length();
            if length > bound {
                break;
            }
            if self.is_free(t) {
                bound = bound.min(length + EQUAL_MOVES_MM);
                free.push(t);
            }
        }
        free
    }

    /// Whether a small step along a side of the region at `t` shortens the move and stays free. Where two sets meet
    /// corner to corner, one can slip past what looks like a notch.
    fn slides_shorter(&self, t: DVec2) -> bool {
        let step = (SLIDE_SHARE * t.length()).max(SLIDE_SLACKS * self.slack);
        let near = self.sets.iter().filter(|set| set.bounds.grown(self.slack).holds(t));
        near.flat_map(|set| set.tangents(t, 4.0 * self.slack)).flat_map(|d| [d, -d]).any(|d| {
            let slid = t + d * step;
            slid.length() < t.length() - 0.01 * step
                && self.is_free(slid)
                && self.is_free(t + d * (0.5 * step))
        })
    }

    /// The boundary points of each set that are nearest to staying put, going outwards.
    fn feet(&self) -> Vec<DVec2> {
        self.sets.iter().flat_map(Forbidden::feet).collect()
    }

    /// The notches between two sets, no further than `bound`.
    fn notches(&self, bound: f64) -> Vec<DVec2> {
        notch::between(&self.sets, bound, self.slack)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circle::Circle;
    use crate::frame::PlanPose;
    use crate::polygon::Polygon;

    /// A rectangle by its middle, width, height and heading in degrees.
    fn turned([cx, cy, w, h, degrees]: [f64; 5]) -> Outline {
        let half = DVec2::new(w, h) * 0.5;
        let rectangle = Outline::from(Polygon::rectangle(-half, half).unwrap());
        rectangle.placed(&PlanPose::new(DVec2::new(cx, cy), angle::radians(degrees)))
    }

    fn rectangle(low: (f64, f64), high: (f64, f64)) -> Outline {
        Polygon::rectangle(low.into(), high.into()).unwrap().into()
    }

    fn moves(obstacles: &[&Outline], mover: &Outline) -> Vec<DVec2> {
        match separating_moves(obstacles, mover) {
            SeparatingMoves::AlreadyApart => Vec::new(),
            SeparatingMoves::Moves { moves, .. } => moves,
        }
    }

    /// One mover against several obstacles is the same question; and moves of several are clear of all, none shorter on a grid.
    #[test]
    fn together_is_as_exits_and_clears_all() {
        let mover = turned([0., 0., 200., 90., 20.]);
        let posts = [
            turned([80., 30., 60., 60., 0.]),
            turned([-120., 0., 100., 40., 70.]),
            turned([10., 90., 50., 50., 45.]),
        ];
        let all: Vec<&Outline> = posts.iter().collect();
        let pairs: Vec<(&Outline, &Outline)> = posts.iter().map(|post| (post, &mover)).collect();
        assert_eq!(exits(&all, &mover), exits_together(&pairs));
        let disc = Outline::from(Circle::new(DVec2::new(300., 100.), 40.).unwrap());
        let pairs = [
            (&posts[0], &mover),
            (&posts[1], &mover),
            (&disc, &turned([290., 60., 30., 90., 10.])),
            (&posts[2], &disc),
        ];
        let moves = exits_together(&pairs);
        let is_clear = |by: DVec2| pairs.iter().all(|(stays, moves)| !overlaps(stays, &moves.moved(by)));
        assert!(moves.len() > 1 && moves.iter().all(|&by| is_clear(by)), "{moves:?}");
        let shortest = moves[0].length();
        let steps = || (-60..=60).map(|i| f64::from(i) * shortest / 60.0);
        let nearer = steps().flat_map(|x| steps().map(move |y| DVec2::new(x, y)));
        assert!(nearer.filter(|by| by.length() < shortest - 1e-6).all(|by| !is_clear(by)));
        assert_eq!(exits_together(&[(&posts[0], &disc)]), [DVec2::ZERO]);
    }

    /// Minimum translations computed as the distance of the origin to the boundary of the Minkowski difference with
    /// shapely 2.2.0 / GEOS 3.14.1; overlap areas with them.
    #[test]
    fn rectangles_worked_by_another_library() {
        let s = [
            ([0., 0., 4., 2., 0.], [2.5, 0., 2., 2., 0.], 0.5, (1., 0.), 1.),
            ([0., 0., 4., 2., 0.], [2.5, 1.2, 2., 2., 0.], 0.5, (1., 0.), 0.4),
            (
                [0., 0., 4.8, 1.9, 0.],
                [2.6, 0.6, 0.6, 0.6, 45.],
                0.2242640687119284,
                (1., 0.),
                0.050294372515228516,
            ),
            (
                [0., 0., 4.8, 1.9, 7.],
                [2.2, 1., 1.2, 0.5, -20.],
                0.493896461251482,
                (0.34202014332566866, 0.9396926207859084),
                0.2632633867551363,
            ),
            ([0., 0., 2., 2., 0.], [0.3, 0.1, 0.5, 0.5, 30.], 1.0415063509461098, (1., 0.), 0.25),
            (
                [0., 0., 3., 1., 30.],
                [1., 1., 2., 1., 75.],
                1.189468690981506,
                (0.2588190451025208, 0.9659258262890683),
                0.9015859980688896,
            ),
        ];
        for (a, b, depth, push, area) in s {
            let (a, b) = (turned(a), turned(b));
            let SeparatingMoves::Moves { length, moves } = separating_moves(&[&a], &b) else { panic!() };
            assert!((length - depth).abs() < 1e-9, "{length} {depth}");
            assert!(moves.iter().any(|m| m.distance(DVec2::from(push) * depth) < 1e-9), "{moves:?}");
            assert!((crate::overlap::overlap_area(&a, &b) - area).abs() < 1e-9);
        }
        let apart = (turned([0., 0., 2., 1., 0.]), turned([3., 0., 1., 1., 0.]));
        assert_eq!(separating_moves(&[&apart.0], &apart.1), SeparatingMoves::AlreadyApart);
        assert!((crate::distance::distance(&apart.0, &apart.1).gap() - 1.5).abs() < 1e-9);
    }

    #[test]
    fn all_equally_short_moves_are_given() {
        let (a, b) = (rectangle((0., 0.), (4., 4.)), rectangle((1., 1.), (3., 3.)));
        assert_eq!(moves(&[&a], &b).len(), 4);
        let disc: Outline = Circle::new(DVec2::new(2., 2.), 1.).unwrap().into();
        assert_eq!(moves(&[&a], &disc), [(3., 0.), (0., 3.), (-3., 0.), (0., -3.)].map(DVec2::from));
        let middle: Outline = Circle::new(DVec2::new(2., 2.), 2.).unwrap().into();
        assert_eq!(moves(&[&middle], &disc).len(), 4);
    }

    #[test]
    fn of_equally_short_moves_rounding_does_not_choose() {
        let hair = 1e-9;
        let mut moves: Vec<DVec2> = vec![
            DVec2::new(0., -3. + hair),
            DVec2::new(-3., 0.),
            DVec2::new(0., 3. - 2. * hair),
            DVec2::new(3. + hair, -hair),
            DVec2::new(2., 0.),
        ];
        by_length_then_heading(&mut moves);
        let headings: Vec<f64> = moves.iter().map(|t| angle::heading(*t).to_degrees().round()).collect();
        assert_eq!(headings, [0., 0., 90., 180., -90.]);
    }

    #[test]
    fn a_pocket_that_fits_exactly_is_found() {
        // A comb with a slot of width 2; a block of width 2 lies on one tooth.
        let comb = [(0., 0.), (5., 0.), (5., 4.), (4., 4.), (4., 1.), (2., 1.), (2., 4.), (0., 4.)];
        let comb: Outline = Polygon::simple(comb.map(DVec2::from).to_vec()).unwrap().into();
        let block = rectangle((1.25, 1.5), (3.25, 3.5));
        assert_eq!(moves(&[&comb], &block), [DVec2::new(0.75, 0.)]);
        // A larger block does not fit: it leaves upwards.
        let block = rectangle((1.25, 2.), (3.5, 4.5));
        assert_eq!(moves(&[&comb], &block), [DVec2::new(0., 2.)]);
    }

    #[test]
    fn the_notch_between_two_columns() {
        let columns = [(0., 0.), (3., 0.)].map(|c| Outline::from(Circle::new(c.into(), 1.).unwrap()));
        let disc: Outline = Circle::new(DVec2::new(1.5, 0.1), 1.).unwrap().into();
        // Two discs of radius 1 must be 2 apart: it rests in the notch at height √(4 - 1.5²).
        let height = 1.75_f64.sqrt();
        let found = moves(&[&columns[0], &columns[1]], &disc);
        assert_eq!(found.len(), 1);
        assert!(found[0].distance(DVec2::new(0., height - 0.1)) < 1e-9, "{found:?}");
    }

    #[test]
    fn a_hole_is_a_way_out() {
        let ring = |r: f64| [(-r, -r), (r, -r), (r, r), (-r, r)].map(DVec2::from).to_vec();
        let frame: Outline = Polygon::new(ring(10.), vec![ring(3.)]).unwrap().into();
        let block = rectangle((-4., -1.), (-2., 1.));
        assert_eq!(moves(&[&frame], &block), [DVec2::new(1., 0.)]);
        let all = exits(&[&frame], &block);
        assert_eq!(all.first(), Some(&DVec2::new(1., 0.)));
        assert!(all.contains(&DVec2::new(-8., 0.)), "{all:?}");
    }

    /// A comb of many teeth lying up, its lower left corner at a place.
    fn comb(at: (f64, f64), teeth: u32) -> Outline {
        let mut ring = vec![DVec2::ZERO, DVec2::new(2.0 * f64::from(teeth) - 1.0, 0.0)];
        for tooth in (0..teeth).rev() {
            let left = 2.0 * f64::from(tooth);
            let right = left + 1.0;
            ring.extend([(right, 5.0), (left, 5.0)].map(DVec2::from));
            if tooth > 0 {
                ring.extend([(left, 1.0), (left - 1.0, 1.0)].map(DVec2::from));
            }
        }
        Outline::from(Polygon::simple(ring).unwrap()).placed(&PlanPose::new(at.into(), 0.0))
    }

    /// What is too intricate to be walked round is cleared all the same, and at once: by its hull.
    #[test]
    fn intricate_shapes_are_cleared_by_their_hulls() {
        let (a, b) = (comb((0., 0.), 60), comb((0.25, 0.5), 60));
        assert!(sets_of(&[&a], &b) > MOST_SETS);
        let found = moves(&[&a], &b);
        assert!(!found.is_empty());
        for by in found.iter().chain(&exits(&[&a], &b)) {
            assert!(!overlaps(&a, &b.moved(*by)), "{by}");
        }
        // Out over its teeth: nothing shorter clears the hull.
        assert!((found[0].length() - 4.5).abs() < 1e-9, "{found:?}");
        // As it is, a comb of fewer teeth, which is not simplified, leaves by the same way.
        let (a, b) = (comb((0., 0.), 6), comb((0.25, 0.5), 6));
        assert!(sets_of(&[&a], &b) <= MOST_SETS);
        assert_eq!(found, moves(&[&a], &b));
    }

    /// More obstacles than can be walked round: one move for all of them, and no list of exits.
    #[test]
    fn a_crowd_is_cleared_as_one() {
        let crowd: Vec<Outline> = (0..2_000)
            .map(|i| {
                let low = 0.01 * f64::from(i % 50);
                rectangle((low, low), (4.0 + low, 3.0 + 0.01 * f64::from(i / 50)))
            })
            .collect();
        let obstacles: Vec<&Outline> = crowd.iter().collect();
        let block = rectangle((1., 1.), (2., 2.));
        let by = moves(&obstacles, &block)[0];
        assert!(!obstacles.iter().any(|o| overlaps(o, &block.moved(by))));
        assert_eq!(exits(&obstacles, &block), []);
    }
}
