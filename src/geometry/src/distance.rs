//! How far apart two shapes are, and where they are nearest.

use glam::{DVec2, DVec3};

use crate::bounds::Bounds;
use crate::circle::Circle;
use crate::convex::{self, clip, parts, touch_within};
use crate::locate::{Located, locate_in};
use crate::outline::Outline;
use crate::overlap::overlaps;
use crate::polygon::Polygon;
use crate::predicate::{Meeting, meeting};
use crate::prism::{Prism, Span};
use crate::segment::Segment;

/// How two plan shapes lie to each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Separation {
    /// They share no point.
    Apart {
        /// The shortest distance, mm, more than [`crate::tolerance::TOUCH_MM`].
        gap: f64,
        /// The nearest point of the first shape.
        from: DVec2,
        /// The nearest point of the second shape.
        to: DVec2,
    },
    /// They touch: nearer than [`crate::tolerance::TOUCH_MM`], but share no area.
    Touching {
        /// One point where they do.
        at: DVec2,
    },
    /// They share area (or, for a segment or a point, it runs through the inside).
    Overlapping,
}

impl Separation {
    /// The distance, mm; 0 when touching or overlapping.
    pub const fn gap(&self) -> f64 {
        match self {
            Self::Apart { gap, .. } => *gap,
            Self::Touching { .. } | Self::Overlapping => 0.0,
        }
    }

    fn of(near: Near, slack: f64) -> Self {
        let gap = near.from.distance(near.to);
        if gap <= slack {
            Self::Touching { at: near.from }
        } else {
            Self::Apart { gap, from: near.from, to: near.to }
        }
    }
}

/// How two upright prisms lie to each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PrismSeparation {
    /// They share no point.
    Apart {
        /// The shortest distance in space, mm, more than [`crate::tolerance::TOUCH_MM`].
        gap: f64,
        /// The nearest point of the first prism.
        from: DVec3,
        /// The nearest point of the second prism.
        to: DVec3,
    },
    /// They touch: nearer than [`crate::tolerance::TOUCH_MM`], but share no volume.
    Touching {
        /// One point where they do.
        at: DVec3,
    },
    /// They share area in plan and height.
    Overlapping,
}

impl PrismSeparation {
    /// The distance in space, mm; 0 when touching or overlapping.
    pub const fn gap(&self) -> f64 {
        match self {
            Self::Apart { gap, .. } => *gap,
            Self::Touching { .. } | Self::Overlapping => 0.0,
        }
    }
}

/// Two points, the nearest found so far.
#[derive(Clone, Copy)]
struct Near {
    from: DVec2,
    to: DVec2,
    squared: f64,
}

impl Near {
    const NONE: Self = Self { from: DVec2::ZERO, to: DVec2::ZERO, squared: f64::INFINITY };

    fn between(from: DVec2, to: DVec2) -> Self {
        Self { from, to, squared: from.distance_squared(to) }
    }

    fn nearer(self, other: Self) -> Self {
        if other.squared < self.squared { other } else { self }
    }

    const fn swapped(self) -> Self {
        Self { from: self.to, to: self.from, squared: self.squared }
    }
}

/// How two outlines lie to each other in plan.
///
/// ```rust
/// # use baywright_geometry::*;
/// let car = Outline::from(Polygon::rectangle(DVec2::ZERO, DVec2::new(4500.0, 1800.0))?);
/// let column = Outline::from(Circle::new(DVec2::new(5000.0, 900.0), 150.0)?);
/// let (from, to) = (DVec2::new(4500.0, 900.0), DVec2::new(4850.0, 900.0));
/// assert_eq!(distance(&car, &column), Separation::Apart { gap: 350.0, from, to });
/// assert_eq!(distance(&car, &column.moved(DVec2::new(-400.0, 0.0))), Separation::Overlapping);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn distance(a: &Outline, b: &Outline) -> Separation {
    if overlaps(a, b) {
        return Separation::Overlapping;
    }
    let slack = touch_within(&a.bounds(), &b.bounds());
    match (a, b) {
        (Outline::Polygon(a), Outline::Polygon(b)) => polygons(a, b, slack),
        (Outline::Polygon(a), Outline::Circle(b)) => Separation::of(to_circle(a, b), slack),
        (Outline::Circle(a), Outline::Polygon(b)) => Separation::of(to_circle(b, a).swapped(), slack),
        (Outline::Circle(a), Outline::Circle(b)) => {
            let along = (b.centre() - a.centre()).normalize_or_zero();
            let near = Near::between(a.centre() + along * a.radius(), b.centre() - along * b.radius());
            Separation::of(near, slack)
        }
    }
}

/// How a segment lies to an outline: overlapping when a stretch of it longer than [`crate::tolerance::TOUCH_MM`] runs through the inside.
/// `from` lies on the outline, `to` on the segment.
///
/// ```rust
/// # use baywright_geometry::*;
/// let bench = Outline::from(Polygon::rectangle(DVec2::ZERO, DVec2::new(2000.0, 700.0))?);
/// let tape = |y: f64| Segment::new(DVec2::new(-500.0, y), DVec2::new(2500.0, y));
/// assert_eq!(distance_to_segment(&bench, &tape(730.0)).gap(), 30.0);
/// assert!(matches!(distance_to_segment(&bench, &tape(700.0)), Separation::Touching { .. }));
/// assert_eq!(distance_to_segment(&bench, &tape(690.0)), Separation::Overlapping);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn distance_to_segment(a: &Outline, s: &Segment) -> Separation {
    let around = around(s);
    let slack = touch_within(&a.bounds(), &around);
    match a {
        Outline::Polygon(polygon) => {
            if runs_inside(polygon, s, slack) {
                return Separation::Overlapping;
            }
            let near = polygon.edges().fold(Near::NONE, |near, e| near.nearer(between_segments(&e, s)));
            crossing_touches(near, slack, || polygon.edges().find_map(|e| crossing(&e, s)))
        }
        Outline::Circle(circle) => {
            let nearest = s.nearest(circle.centre());
            let deep = circle.radius() - nearest.distance(circle.centre()) > slack;
            if deep && within_disc(circle, s) > slack {
                return Separation::Overlapping;
            }
            let out = (nearest - circle.centre()).normalize_or_zero();
            let rim = circle.centre() + out * circle.radius();
            if deep || nearest.distance(circle.centre()) <= circle.radius() {
                return Separation::Touching { at: nearest };
            }
            Separation::of(Near::between(rim, nearest), slack)
        }
    }
}

/// How a point lies to an outline: overlapping when inside by more than [`crate::tolerance::TOUCH_MM`]. `from` lies on the outline, `to`
/// is the point.
///
/// ```rust
/// # use baywright_geometry::*;
/// let column = Outline::from(Circle::new(DVec2::ZERO, 150.0)?);
/// assert_eq!(distance_to_point(&column, DVec2::new(200.0, 0.0)).gap(), 50.0);
/// assert_eq!(distance_to_point(&column, DVec2::new(100.0, 0.0)), Separation::Overlapping);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn distance_to_point(a: &Outline, p: DVec2) -> Separation {
    let slack = touch_within(&a.bounds(), &Bounds { low: p, high: p });
    match a {
        Outline::Polygon(polygon) => {
            let near = to_point(polygon, p);
            match locate_in(polygon, p) {
                Located::Inside if near.squared > slack * slack => Separation::Overlapping,
                Located::Inside => Separation::Touching { at: p },
                Located::OnEdge | Located::Outside => Separation::of(near, slack),
            }
        }
        Outline::Circle(circle) => {
            let off = p - circle.centre();
            if off.length() < circle.radius() - slack {
                return Separation::Overlapping;
            }
            let rim = circle.centre() + off.normalize_or_zero() * circle.radius();
            Separation::of(Near::between(rim, p), slack)
        }
    }
}

/// How two upright prisms lie to each other in space.
///
/// ```rust
/// # use baywright_geometry::*;
/// let block = |x: f64, heights: Span| -> Result<Prism, ShapeFault> {
///     let low = DVec2::new(x, 0.0);
///     Ok(Prism::new(Polygon::rectangle(low, low + DVec2::splat(500.0))?.into(), heights))
/// };
/// let cabinet = block(0.0, Span::new(0.0, 1800.0)?)?;
/// // 300 mm beside it and 400 mm above its top.
/// let heater = block(800.0, Span::new(2200.0, 2600.0)?)?;
/// assert_eq!(prism_distance(&cabinet, &heater).gap(), 500.0);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn prism_distance(a: &Prism, b: &Prism) -> PrismSeparation {
    let plan = distance(&a.outline, &b.outline);
    if plan == Separation::Overlapping && a.span.shared(&b.span).is_some() {
        return PrismSeparation::Overlapping;
    }
    let (from, to) = match plan {
        Separation::Apart { from, to, .. } => (from, to),
        Separation::Touching { at } => (at, at),
        Separation::Overlapping => {
            let at = common_point(&a.outline, &b.outline);
            (at, at)
        }
    };
    let (z_from, z_to) = nearest_heights(&a.span, &b.span);
    let (from, to) = (from.extend(z_from), to.extend(z_to));
    let gap = from.distance(to);
    if gap <= touch_within(&a.outline.bounds(), &b.outline.bounds()) {
        PrismSeparation::Touching { at: from }
    } else {
        PrismSeparation::Apart { gap, from, to }
    }
}

/// The nearest heights of two ranges; the middle of what both have, if they meet.
fn nearest_heights(a: &Span, b: &Span) -> (f64, f64) {
    if b.bottom() > a.top() {
        (a.top(), b.bottom())
    } else if a.bottom() > b.top() {
        (a.bottom(), b.top())
    } else {
        let middle = 0.5 * (a.bottom().max(b.bottom()) + a.top().min(b.top()));
        (middle, middle)
    }
}

/// A point that lies in both of two overlapping outlines.
fn common_point(a: &Outline, b: &Outline) -> DVec2 {
    let slack = touch_within(&a.bounds(), &b.bounds());
    for p in parts(a) {
        for q in parts(b).filter(|q| p.shares_area(q, slack)) {
            match (p.core, q.core) {
                ([c], [d]) => {
                    let far = c.distance(*d);
                    let reach = ((-p.radius).max(far - q.radius), p.radius.min(far + q.radius));
                    return *c + (*d - *c).normalize_or_zero() * (0.5 * (reach.0 + reach.1));
                }
                ([c], ring) | (ring, [c]) => return nearest_in(ring, *c),
                (p, q) => {
                    let common = clip::common(p, q);
                    if !common.is_empty() {
                        return common.iter().sum::<DVec2>() / common.len() as f64;
                    }
                }
            }
        }
    }
    // Not reached for outlines that overlap.
    a.bounds().centre()
}

/// The point of a convex ring's inside nearest to `p`.
fn nearest_in(ring: &[DVec2], p: DVec2) -> DVec2 {
    if convex::holds(ring, p) {
        return p;
    }
    let near = crate::polygon::ring_edges(ring)
        .fold(Near::NONE, |near, e| near.nearer(Near::between(e.nearest(p), p)));
    near.from
}

/// The nearest corner and edge found so far; the nearest points themselves are worked out once, at the end.
struct NearestCorner {
    squared: f64,
    corner: DVec2,
    edge: Segment,
    /// Whether the corner is one of the first polygon's.
    of_first: bool,
}

impl NearestCorner {
    /// Two corners that are probably near each other: the one of `a` nearest to the middle of `b`, and the one of `b`
    /// nearest to that.
    fn guess(a: &Polygon, b: &Polygon) -> Self {
        let nearest = |of: &Polygon, p: DVec2| {
            let corners = of.rings().flatten().map(|&q| (q, q.distance_squared(p)));
            corners.fold((DVec2::ZERO, f64::INFINITY), |best, q| if q.1 < best.1 { q } else { best })
        };
        let (corner, _) = nearest(a, b.bounds().centre());
        let (other, squared) = nearest(b, corner);
        Self { squared, corner, edge: Segment::new(other, other), of_first: true }
    }

    /// Looks at a corner `p` and an edge from `e.from` along `along`. The far end of the edge is left to the next edge,
    /// which starts there, so that no division is needed unless this is the nearest yet.
    fn look(&mut self, p: DVec2, e: &Segment, along: DVec2, of_first: bool) {
        let off = p - e.from;
        let share = off.dot(along);
        let length_squared = along.length_squared();
        if share > 0.0 && share < length_squared {
            let aside = off.perp_dot(along);
            if aside * aside < self.squared * length_squared {
                *self = Self { squared: aside * aside / length_squared, corner: p, edge: *e, of_first };
            }
        } else if share <= 0.0 {
            let squared = off.length_squared();
            if squared < self.squared {
                *self = Self { squared, corner: p, edge: *e, of_first };
            }
        }
    }

    fn near(&self) -> Near {
        let near = Near::between(self.corner, self.edge.nearest(self.corner));
        if self.of_first { near } else { near.swapped() }
    }
}

/// Two polygons known not to share area.
fn polygons(a: &Polygon, b: &Polygon, slack: f64) -> Separation {
    let mut best = NearestCorner::guess(a, b);
    // Edges whose box is further from the other polygon's box than two known corners are cannot win.
    let candidates = |of: &Polygon, other: Bounds| -> Vec<(Segment, DVec2)> {
        let near = |e: &Segment| around(e).gap_squared(&other) <= best.squared;
        of.edges().filter(near).map(|e| (e, e.to - e.from)).collect()
    };
    let (of_a, of_b) = (candidates(a, b.bounds()), candidates(b, a.bounds()));
    for (e, along_e) in &of_a {
        for (f, along_f) in &of_b {
            // Every corner starts one edge, so each corner meets each edge once.
            best.look(e.from, f, *along_f, true);
            best.look(f.from, e, *along_e, false);
        }
    }
    crossing_touches(best.near(), slack, || a.edges().find_map(|e| b.edges().find_map(|f| crossing(&e, &f))))
}

/// Shapes that share no area can have crossing edges only if they reach into each other by less than the tolerance, and
/// then a corner is near an edge: within the tolerance, or a little more where edges meet at a very sharp angle. Only
/// within so many tolerances is a crossing looked for.
const CROSSING_SLACKS: f64 = 1e6;

/// Edges that cross by less than the tolerance touch, however far their corners are.
fn crossing_touches(near: Near, slack: f64, crossing: impl Fn() -> Option<DVec2>) -> Separation {
    match Separation::of(near, slack) {
        Separation::Apart { gap, .. } if gap <= CROSSING_SLACKS * slack => {
            crossing().map_or(Separation::of(near, slack), |at| Separation::Touching { at })
        }
        other => other,
    }
}

/// The box around a segment.
fn around(s: &Segment) -> Bounds {
    Bounds { low: s.from.min(s.to), high: s.from.max(s.to) }
}

/// Where two edges cross, decided exactly.
fn crossing(e: &Segment, f: &Segment) -> Option<DVec2> {
    (meeting(e, f) == Meeting::Cross).then(|| {
        let (along, other) = (e.to - e.from, f.to - f.from);
        let cross = along.perp_dot(other);
        let share = if cross == 0.0 { 0.5 } else { (f.from - e.from).perp_dot(other) / cross };
        e.at(share.clamp(0.0, 1.0))
    })
}

/// Nearest points of two segments that do not cross.
fn between_segments(e: &Segment, f: &Segment) -> Near {
    Near::between(e.from, f.nearest(e.from))
        .nearer(Near::between(e.to, f.nearest(e.to)))
        .nearer(Near::between(e.nearest(f.from), f.from))
        .nearer(Near::between(e.nearest(f.to), f.to))
}

/// The boundary point of a polygon nearest to `p`, and `p`.
fn to_point(polygon: &Polygon, p: DVec2) -> Near {
    polygon.edges().fold(Near::NONE, |near, e| near.nearer(Near::between(e.nearest(p), p)))
}

/// Distance from `p` to the boundary of a polygon.
pub(crate) fn to_boundary(polygon: &Polygon, p: DVec2) -> f64 {
    to_point(polygon, p).squared.sqrt()
}

/// The shortest distance between the boundaries of two polygons; zero within `slack`, or if they cross.
pub(crate) fn between_boundaries(a: &Polygon, b: &Polygon, slack: f64) -> f64 {
    polygons(a, b, slack).gap()
}

/// A polygon and a circle whose middle lies outside it.
fn to_circle(polygon: &Polygon, circle: &Circle) -> Near {
    let near = to_point(polygon, circle.centre());
    let out = (near.from - circle.centre()).normalize_or_zero();
    // A rim that reaches a little over the edge touches it there.
    let reach = circle.radius().min(near.squared.sqrt());
    Near::between(near.from, circle.centre() + out * reach)
}

/// The length of a segment within a disc.
fn within_disc(circle: &Circle, s: &Segment) -> f64 {
    let along = (s.to - s.from).normalize_or_zero();
    let middle = (circle.centre() - s.from).dot(along);
    let off = (circle.centre() - s.from).perp_dot(along);
    let half = (circle.radius().powi(2) - off * off).max(0.0).sqrt();
    ((middle + half).min(s.length()) - (middle - half).max(0.0)).max(0.0)
}

/// Whether a straight run passes through the inside of the polygon, not only along its edge.
///
/// ```rust
/// # use baywright_geometry::*;
/// let tyre = Polygon::rectangle(DVec2::ZERO, DVec2::new(600.0, 200.0))?;
/// let run = |y: f64| Segment::new(DVec2::new(-100.0, y), DVec2::new(900.0, y));
/// assert!(passes_through(&tyre, &run(100.0)) && !passes_through(&tyre, &run(200.0)));
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn passes_through(polygon: &Polygon, run: &Segment) -> bool {
    let (own, around) = (polygon.bounds(), around(run));
    own.meets(&around) && runs_inside(polygon, run, touch_within(&own, &around))
}

/// Whether a stretch of `s` longer than `slack` runs through the inside of the polygon, deeper than `slack`.
pub(crate) fn runs_inside(polygon: &Polygon, s: &Segment, slack: f64) -> bool {
    let around = around(s);
    let length = s.length();
    if length <= slack || !polygon.bounds().meets(&around) {
        return false;
    }
    let along = s.to - s.from;
    // Around a place deeper inside than the slack the polygon has corners on both sides of the run, further off than that.
    let aside = |p: &DVec2| along.perp_dot(*p - s.from);
    let (left, right) = polygon
        .outer()
        .iter()
        .map(aside)
        .fold((0.0, 0.0), |(left, right): (f64, f64), off| (left.max(off), right.max(-off)));
    if left.min(right) <= slack * length {
        return false;
    }
    // Between two neighbours of these shares the segment is wholly inside or wholly outside.
    let mut shares = vec![0.0, 1.0];
    for e in polygon.edges() {
        if s.distance_to(e.from) <= 2.0 * slack {
            shares.push(s.nearest_share(e.from));
        }
        if meeting(s, &e) != Meeting::Apart {
            let side = e.to - e.from;
            let cross = along.perp_dot(side);
            if cross != 0.0 {
                shares.push(((e.from - s.from).perp_dot(side) / cross).clamp(0.0, 1.0));
            }
        }
    }
    shares.sort_by(f64::total_cmp);
    shares.windows(2).any(|pair| {
        let &[from, to] = pair else { return false };
        let middle = s.at(0.5 * (from + to));
        (to - from) * length > slack
            && locate_in(polygon, middle) == Located::Inside
            && to_boundary(polygon, middle) > slack
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::overlap::overlap_area;

    fn ring(points: &[(f64, f64)]) -> Vec<DVec2> {
        points.iter().map(|&p| p.into()).collect()
    }

    fn outline(points: &[(f64, f64)]) -> Outline {
        Polygon::simple(ring(points)).unwrap().into()
    }

    const C: &[(f64, f64)] =
        &[(0., 0.), (4., 0.), (4., 1.), (1., 1.), (1., 3.), (4., 3.), (4., 4.), (0., 4.)];

    /// Shapes, gap, and shared area; `None` for the gap where they overlap.
    fn check(a: &Outline, b: &Outline, gap: Option<f64>, area: f64) {
        for (a, b) in [(a, b), (b, a)] {
            let got = distance(a, b);
            assert_eq!(got == Separation::Overlapping, gap.is_none(), "{got:?}");
            assert!((got.gap() - gap.unwrap_or(0.0)).abs() < 1e-9, "{got:?}");
            assert_eq!(matches!(got, Separation::Touching { .. }), gap == Some(0.0), "{got:?}");
            assert!((overlap_area(a, b) - area).abs() < 1e-9, "{}", overlap_area(a, b));
        }
    }

    /// Values computed with shapely 2.2.0 / GEOS 3.14.1.
    #[test]
    fn pairs_worked_by_another_library() {
        let c = outline(C);
        let in_mouth = outline(&[(3., 1.5), (3., 2.5), (2., 2.5), (2., 1.5)]);
        check(&c, &in_mouth, Some(0.5), 0.0);
        check(&c, &outline(&[(5., 5.), (7., 6.), (6., 8.)]), Some(2.0_f64.sqrt()), 0.0);
        let turned = outline(&[
            (7.116025403784438, 2.0669872981077804),
            (6.616025403784438, 2.933012701892219),
            (4.883974596215562, 1.9330127018922194),
            (5.383974596215562, 1.0669872981077808),
        ]);
        check(&c, &turned, Some(1.2320508075688776), 0.0);
        let frame = Polygon::new(
            ring(&[(0., 0.), (6., 0.), (6., 6.), (0., 6.)]),
            vec![ring(&[(2., 2.), (2., 4.), (4., 4.), (4., 2.)])],
        );
        let in_hole = outline(&[(3.5, 2.5), (3.5, 3.5), (2.5, 3.5), (2.5, 2.5)]);
        check(&frame.unwrap().into(), &in_hole, Some(0.5), 0.0);
        let unit = outline(&[(1., 0.), (1., 1.), (0., 1.), (0., 0.)]);
        check(&unit, &outline(&[(2., 1.), (2., 2.), (1., 2.), (1., 1.)]), Some(0.0), 0.0);
        check(&unit, &outline(&[(2., 0.25), (2., 0.75), (1., 0.75), (1., 0.25)]), Some(0.0), 0.0);
        let root = 2.0_f64.sqrt();
        check(
            &outline(&[(1., -1.), (1., 1.), (-1., 1.), (-1., -1.)]),
            &outline(&[(root, 0.), (0., root), (-root, 0.), (0., -root)]),
            None,
            8.0 * (root - 1.0),
        );
        let car = outline(&[(4.8, -0.95), (4.8, 0.95), (0., 0.95), (0., -0.95)]);
        let pillar = outline(&[(5.7, 0.7), (5.7, 1.1), (5.3, 1.1), (5.3, 0.7)]);
        check(&car, &pillar, Some(0.5), 0.0);
    }

    /// Values computed with shapely 2.2.0 / GEOS 3.14.1.
    #[test]
    fn segments_worked_by_another_library() {
        let through = Segment::new(DVec2::new(2., -1.), DVec2::new(2., 5.));
        assert_eq!(distance_to_segment(&outline(C), &through), Separation::Overlapping);
        let turned_car = outline(&[
            (4.892042983242182, -0.102056112560332),
            (4.562111445675014, 1.769078618162863),
            (-0.1649657687835838, 0.9355673653615976),
            (0.1649657687835838, -0.9355673653615976),
        ]);
        let wall = Segment::new(DVec2::new(-1., 2.5), DVec2::new(6., 2.5));
        assert!((distance_to_segment(&turned_car, &wall).gap() - 0.730921381837137).abs() < 1e-9);
    }

    #[test]
    fn a_segment_along_an_edge_or_past_a_corner_touches() {
        let c = outline(C);
        for (from, to) in
            [((1., 0.), (3., 0.)), ((1., -1.), (1., 0.)), ((-1., 1.), (1., -1.)), ((4., 1.), (4., 3.))]
        {
            let got = distance_to_segment(&c, &Segment::new(from.into(), to.into()));
            assert!(matches!(got, Separation::Touching { .. }), "{got:?}");
        }
        // Along the line on which the C falls into pieces.
        let inside = Segment::new(DVec2::new(0.5, 1.), DVec2::new(0.5, 3.));
        assert_eq!(distance_to_segment(&c, &inside), Separation::Overlapping);
        let disc: Outline = Circle::new(DVec2::ZERO, 2.0).unwrap().into();
        let tangent = Segment::new(DVec2::new(-3., 2.), DVec2::new(3., 2.));
        assert!(matches!(distance_to_segment(&disc, &tangent), Separation::Touching { .. }));
        let chord = Segment::new(DVec2::new(-3., 1.), DVec2::new(3., 1.));
        assert_eq!(distance_to_segment(&disc, &chord), Separation::Overlapping);
        let beyond = Segment::new(DVec2::new(3., 0.), DVec2::new(5., 0.));
        let got = distance_to_segment(&disc, &beyond);
        assert_eq!(got, Separation::Apart { gap: 1.0, from: DVec2::new(2., 0.), to: DVec2::new(3., 0.) });
    }

    #[test]
    fn points() {
        let c = outline(C);
        assert_eq!(distance_to_point(&c, DVec2::new(0.5, 2.)), Separation::Overlapping);
        assert!(matches!(distance_to_point(&c, DVec2::new(1., 2.)), Separation::Touching { .. }));
        assert_eq!(distance_to_point(&c, DVec2::new(2.5, 2.)).gap(), 1.0);
    }

    #[test]
    fn prisms_pass_over_each_other() {
        let square = outline(&[(0., 0.), (100., 0.), (100., 100.), (0., 100.)]);
        let low = Prism::new(square.clone(), Span::new(0., 50.).unwrap());
        let high = Prism::new(square.moved(DVec2::new(50., 0.)), Span::new(90., 120.).unwrap());
        let PrismSeparation::Apart { gap, from, to } = prism_distance(&low, &high) else { panic!() };
        assert_eq!((gap, from.z, to.z, from.truncate()), (40., 50., 90., to.truncate()));
        let aside = Prism::new(square.moved(DVec2::new(130., 0.)), Span::new(90., 120.).unwrap());
        assert_eq!(prism_distance(&low, &aside).gap(), 50.0);
        let on_top = Prism::new(square.clone(), Span::new(50., 60.).unwrap());
        assert!(matches!(prism_distance(&low, &on_top), PrismSeparation::Touching { .. }));
        let within = Prism::new(square, Span::new(49., 60.).unwrap());
        assert_eq!(prism_distance(&low, &within), PrismSeparation::Overlapping);
    }
}
