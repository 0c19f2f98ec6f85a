//! A region of the plan that is made anew many times: only its rings, without the checks and the pieces of a
//! [`Polygon`].

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use glam::DVec2;

use crate::boolean::{common_to, left_of};
use crate::bounds::Bounds;
use crate::polygon::{Polygon, ring_edges, signed_area};
use crate::segment::Segment;

/// A shape of less area is none, mm²: a strip of ten metres that is a hundredth of what no tape shows.
const SLIVER_MM2: f64 = 1e-3;

/// Some shapes that share no area, each with its holes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Region {
    /// Of each its outer ring, anticlockwise, then its holes, clockwise.
    shapes: Vec<Vec<Vec<DVec2>>>,
}

impl Region {
    /// What is left of some rings when others are taken away. Outer rings wind anticlockwise, their holes clockwise; of both lists
    /// rings may overlap.
    ///
    /// ```rust
    /// # use baywright_geometry::*;
    /// let square = |low: f64, high: f64| -> Vec<DVec2> {
    ///     [(low, low), (high, low), (high, high), (low, high)].map(DVec2::from).into()
    /// };
    /// let frame = Region::left(&[square(0.0, 20.0)], &[square(5.0, 15.0), square(10.0, 15.0)]);
    /// assert_eq!(frame.area(), 300.0);
    /// assert!(frame.holds(DVec2::new(1.0, 1.0)) && !frame.holds(DVec2::new(7.0, 7.0)));
    /// ```
    pub fn left(of: &[Vec<DVec2>], taken: &[Vec<DVec2>]) -> Self {
        Self::told(left_of(of, taken))
    }

    /// What some rings cover and others do too, in the same way.
    pub fn common(some: &[Vec<DVec2>], others: &[Vec<DVec2>]) -> Self {
        Self::told(common_to(some, others))
    }

    /// Without what rounding leaves between edges that meet.
    fn told(mut shapes: Vec<Vec<Vec<DVec2>>>) -> Self {
        shapes.retain(|rings| rings.first().is_some_and(|outer| signed_area(outer) > SLIVER_MM2));
        Self { shapes }
    }

    /// Both, of which each shares no area with the other.
    pub fn beside(mut self, other: Self) -> Self {
        self.shapes.extend(other.shapes);
        self
    }

    /// Whether there is nothing of it.
    pub fn is_empty(&self) -> bool {
        self.shapes.is_empty()
    }

    /// Its shapes: of each the outer ring, anticlockwise, then its holes, clockwise.
    pub fn shapes(&self) -> &[Vec<Vec<DVec2>>] {
        &self.shapes
    }

    /// One of its shapes alone; nothing if it has not so many.
    pub fn shape(&self, nth: usize) -> Self {
        Self { shapes: self.shapes.get(nth).cloned().into_iter().collect() }
    }

    /// All its rings.
    pub fn rings(&self) -> impl Iterator<Item = &[DVec2]> {
        self.shapes.iter().flatten().map(Vec::as_slice)
    }

    /// Its area, mm².
    pub fn area(&self) -> f64 {
        self.rings().map(signed_area).sum()
    }

    /// The box around it.
    pub fn bounds(&self) -> Option<Bounds> {
        Bounds::around(self.rings().flatten().copied())
    }

    /// Whether a point lies in it; of one on its edge rounding decides.
    pub fn holds(&self, p: DVec2) -> bool {
        let crosses = |e: &Segment| {
            (e.from.y > p.y) != (e.to.y > p.y)
                && p.x < e.from.x + (e.to.x - e.from.x) * ((p.y - e.from.y) / (e.to.y - e.from.y))
        };
        self.edges().filter(crosses).count() % 2 == 1
    }

    /// How far a point is from its edge, mm, inside or outside; infinite if there is nothing of it.
    pub fn to_edge(&self, p: DVec2) -> f64 {
        self.edges().map(|e| e.distance_to(p)).fold(f64::INFINITY, f64::min)
    }

    /// A point in the middle of its longer way, half way across its widest stretch there; `None` if there is nothing of it.
    ///
    /// ```rust
    /// # use baywright_geometry::*;
    /// let strip: Vec<DVec2> = [(0.0, 0.0), (90.0, 0.0), (90.0, 40.0), (0.0, 40.0)].map(DVec2::from).into();
    /// assert_eq!(Region::left(&[strip], &[]).middle(), Some(DVec2::new(45.0, 20.0)));
    /// ```
    pub fn middle(&self) -> Option<DVec2> {
        let bounds = self.bounds()?;
        let size = bounds.size();
        let turned = |p: DVec2| if size.x < size.y { DVec2::new(p.y, p.x) } else { p };
        let (low, high) = (turned(bounds.low).x, turned(bounds.high).x);
        // Off the middle only if nothing is there, as between two pieces.
        let stretch = |share: f64| {
            let x = low + (high - low) * share;
            let across = |e: Segment| {
                let (p, q) = (turned(e.from), turned(e.to));
                let crosses = (p.x > x) != (q.x > x);
                crosses.then(|| p.y + (q.y - p.y) * ((x - p.x) / (q.x - p.x)))
            };
            let mut crossed: Vec<f64> = self.edges().filter_map(across).collect();
            crossed.sort_by(f64::total_cmp);
            let inside = crossed.chunks_exact(2).filter_map(|pair| Some((*pair.first()?, *pair.last()?)));
            let widest = inside.max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))?;
            Some(turned(DVec2::new(x, (widest.0 + widest.1) * 0.5)))
        };
        [0.5, 0.45, 0.55, 0.3, 0.7, 0.1, 0.9].into_iter().find_map(stretch)
    }

    /// The point of it that is furthest from its edge, and how far, within so many mm, or one that is `enough_mm` from it; `None` if
    /// nothing of it is further than the former.
    ///
    /// ```rust
    /// # use baywright_geometry::*;
    /// let strip: Vec<DVec2> = [(0.0, 0.0), (90.0, 0.0), (90.0, 40.0), (0.0, 40.0)].map(DVec2::from).into();
    /// let (at, depth) = Region::left(&[strip], &[]).deepest(0.1, 1e3).unwrap();
    /// assert!((depth - 20.0).abs() < 0.1 && (at.y - 20.0).abs() < 0.1);
    /// ```
    pub fn deepest(&self, within_mm: f64, enough_mm: f64) -> Option<(DVec2, f64)> {
        let bounds = self.bounds()?;
        let edges: Vec<Segment> = self.edges().collect();
        let depth = |p: DVec2| {
            let far = edges.iter().map(|e| e.distance_to(p)).fold(f64::INFINITY, f64::min);
            if self.holds(p) { far } else { -far }
        };
        let cell = |middle: DVec2, half: f64| {
            let depth = depth(middle);
            Cell { middle, half, depth, most: depth + half * std::f64::consts::SQRT_2 }
        };
        let size = bounds.size();
        let half = (size.min_element() * 0.5).max(size.max_element() / 64.0);
        let mut best: Option<(DVec2, f64)> = None;
        let mut open = BinaryHeap::new();
        let counts = (size / (2.0 * half)).ceil().max(DVec2::ONE);
        for (i, j) in (0..counts.x as usize).flat_map(|i| (0..counts.y as usize).map(move |j| (i, j))) {
            let middle = bounds.low + DVec2::new(2.0 * i as f64 + 1.0, 2.0 * j as f64 + 1.0) * half;
            open.push(cell(middle, half));
        }
        while let Some(next) = open.pop() {
            let deepest = best.map_or(within_mm, |own| own.1);
            if next.depth > deepest {
                best = Some((next.middle, next.depth));
            }
            let deepest = best.map_or(0.0, |own| own.1);
            if deepest >= enough_mm || next.most <= deepest + within_mm {
                break;
            }
            let half = next.half * 0.5;
            for off in [(-half, -half), (half, -half), (half, half), (-half, half)] {
                open.push(cell(next.middle + DVec2::from(off), half));
            }
        }
        best
    }

    /// The same as polygons, to be drawn or asked.
    pub fn polygons(&self) -> Vec<Polygon> {
        let polygon = |rings: &Vec<Vec<DVec2>>| {
            let (outer, holes) = rings.split_first()?;
            Some(Polygon::trusted(outer.clone(), holes.to_vec()))
        };
        self.shapes.iter().filter_map(polygon).collect()
    }

    fn edges(&self) -> impl Iterator<Item = Segment> + '_ {
        self.rings().flat_map(ring_edges)
    }
}

/// A square in which the deepest point is looked for.
struct Cell {
    middle: DVec2,
    half: f64,
    /// How deep its middle is; negative outside.
    depth: f64,
    /// How deep any point of it can be.
    most: f64,
}

impl PartialEq for Cell {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Cell {}

impl PartialOrd for Cell {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Cell {
    fn cmp(&self, other: &Self) -> Ordering {
        let by_place =
            || other.middle.x.total_cmp(&self.middle.x).then(other.middle.y.total_cmp(&self.middle.y));
        self.most.total_cmp(&other.most).then_with(by_place)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(low: f64, high: f64) -> Vec<DVec2> {
        [(low, low), (high, low), (high, high), (low, high)].map(DVec2::from).into()
    }

    #[test]
    fn the_deepest_point_of_a_frame_is_in_its_wider_side() {
        let hole = [(2.0, 2.0), (12.0, 2.0), (12.0, 12.0), (2.0, 12.0)].map(DVec2::from).to_vec();
        let frame = Region::left(&[square(0.0, 20.0)], &[hole]);
        let (at, depth) = frame.deepest(0.01, 1e3).unwrap();
        // In the corner (20, 20): as far from both sides as from the hole's corner (12, 12).
        let far = 8.0 * std::f64::consts::SQRT_2 / (1.0 + std::f64::consts::SQRT_2);
        assert!((depth - far).abs() < 0.02 && frame.holds(at), "{at} {depth}");
        assert!((frame.to_edge(at) - depth).abs() < 1e-9);
    }

    #[test]
    fn the_middle_lies_in_it() {
        let hole = [(2.0, 8.0), (18.0, 8.0), (18.0, 12.0), (2.0, 12.0)].map(DVec2::from).to_vec();
        let frame = Region::left(&[square(0.0, 20.0)], &[hole]);
        assert!(frame.middle().is_some_and(|at| frame.holds(at) && at.x == 10.0), "{:?}", frame.middle());
        // Two pieces with nothing half way.
        let apart = Region::left(&[square(0.0, 4.0), square(16.0, 20.0)], &[]);
        assert!(apart.middle().is_some_and(|at| apart.holds(at)), "{:?}", apart.middle());
    }

    #[test]
    fn nothing_is_nowhere() {
        let none = Region::left(&[square(0.0, 1.0)], &[square(-1.0, 2.0)]);
        assert!(none.is_empty() && none.deepest(0.1, 1e3).is_none() && !none.holds(DVec2::splat(0.5)));
        assert_eq!((none.area(), none.bounds()), (0.0, None));
        assert_eq!(none.to_edge(DVec2::ZERO), f64::INFINITY);
    }

    /// Outer ring and hole of what is taken away count together with what else is taken.
    #[test]
    fn a_ring_with_a_hole_is_taken_away_beside_others() {
        let mut hole = square(5.0, 15.0);
        hole.reverse();
        let taken = [square(-1.0, 21.0), hole, square(5.0, 10.0)];
        let left = Region::left(&[square(0.0, 20.0)], &taken);
        assert_eq!((left.area(), left.shapes().len()), (75.0, 1));
        assert_eq!(left.polygons()[0].area(), 75.0);
    }
}
