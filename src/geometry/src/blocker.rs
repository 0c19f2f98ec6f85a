//! The first thing that stands on a straight line between two points.

use glam::{DVec2, DVec3};

use crate::outline::Outline;
use crate::polygon::Polygon;
use crate::predicate;
use crate::prism::{Prism, Span};
use crate::segment::Segment;
use crate::tolerance::TOUCH_MM;

/// What an eye meets on the straight line to a target: in space, or in plan with `DVec2` for its places.
#[derive(Clone, Debug, PartialEq)]
pub enum LineOfSight<Point = DVec3> {
    /// Nothing, not even a touch.
    Clear,
    /// It passes through nothing, but touches something: the first touch from the eye.
    Grazing {
        /// Index of the thing.
        thing: usize,
        /// Where it touches.
        at: Point,
    },
    /// It passes through something: the first one from the eye.
    Blocked {
        /// Index of the thing.
        thing: usize,
        /// Where the line enters it.
        at: Point,
        /// From the eye to there, mm.
        distance: f64,
    },
    /// The eye lies inside a thing: the question has no answer.
    EyeInside {
        /// The lowest index of such a thing.
        thing: usize,
    },
    /// The target lies inside a thing, the eye in none: the question has no answer.
    TargetInside {
        /// The lowest index of such a thing.
        thing: usize,
    },
}

/// The first of `things` that the straight line from `eye` to `target` meets.
///
/// A line that comes no deeper than [`TOUCH_MM`] into a thing touches it. Touching blocks nothing.
///
/// ```rust
/// # use baywright_geometry::*;
/// let outline = Polygon::rectangle(DVec2::new(2000.0, -300.0), DVec2::new(2500.0, 300.0))?;
/// let bench = Prism::new(outline.into(), Span::new(0.0, 900.0)?);
/// let target = DVec3::new(4000.0, 0.0, 600.0);
/// assert_eq!(
///     first_blocker(DVec3::new(0.0, 0.0, 600.0), target, &[&bench]),
///     LineOfSight::Blocked { thing: 0, at: DVec3::new(2000.0, 0.0, 600.0), distance: 2000.0 }
/// );
/// // Over it.
/// assert_eq!(first_blocker(DVec3::new(0.0, 0.0, 2000.0), target, &[&bench]), LineOfSight::Clear);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn first_blocker(eye: DVec3, target: DVec3, things: &[&Prism]) -> LineOfSight {
    first_met(eye, target, things.iter().map(|thing| (&thing.outline, &thing.span)))
}

/// As [`first_blocker`], in plan only: every thing counts at every height.
///
/// ```rust
/// # use baywright_geometry::*;
/// let column = Outline::from(Circle::new(DVec2::new(2000.0, 0.0), 100.0)?);
/// assert_eq!(
///     first_blocker_in_plan(DVec2::ZERO, DVec2::new(4000.0, 0.0), &[&column]),
///     LineOfSight::Blocked { thing: 0, at: DVec2::new(1900.0, 0.0), distance: 1900.0 }
/// );
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn first_blocker_in_plan(eye: DVec2, target: DVec2, things: &[&Outline]) -> LineOfSight<DVec2> {
    let all = things.iter().map(|&outline| (outline, &Span::EVERY));
    match first_met(eye.extend(0.0), target.extend(0.0), all) {
        LineOfSight::Clear => LineOfSight::Clear,
        LineOfSight::Grazing { thing, at } => LineOfSight::Grazing { thing, at: at.truncate() },
        LineOfSight::Blocked { thing, at, distance } => {
            LineOfSight::Blocked { thing, at: at.truncate(), distance }
        }
        LineOfSight::EyeInside { thing } => LineOfSight::EyeInside { thing },
        LineOfSight::TargetInside { thing } => LineOfSight::TargetInside { thing },
    }
}

/// The first of the outlines over height ranges that the straight line meets.
fn first_met<'a>(
    eye: DVec3,
    target: DVec3,
    things: impl Iterator<Item = (&'a Outline, &'a Span)> + Clone,
) -> LineOfSight {
    let around = |end| things.clone().position(|(outline, span)| depth(outline, span, end) > TOUCH_MM);
    if let Some(thing) = around(eye) {
        return LineOfSight::EyeInside { thing };
    }
    if let Some(thing) = around(target) {
        return LineOfSight::TargetInside { thing };
    }
    let mut entered: Option<(f64, usize)> = None;
    let mut touched: Option<(f64, usize)> = None;
    for (thing, (outline, span)) in things.enumerate() {
        let (first, share) = match passage(outline, span, eye, target) {
            Passage::Apart => continue,
            Passage::Touches { share } => (&mut touched, share),
            Passage::Enters { share } => (&mut entered, share),
        };
        if first.is_none_or(|(nearest, _)| share < nearest) {
            *first = Some((share, thing));
        }
    }
    let at = |share: f64| eye + (target - eye) * share;
    match (entered, touched) {
        (Some((share, thing)), _) => {
            LineOfSight::Blocked { thing, at: at(share), distance: share * eye.distance(target) }
        }
        (None, Some((share, thing))) => LineOfSight::Grazing { thing, at: at(share) },
        (None, None) => LineOfSight::Clear,
    }
}

/// How a straight line meets one thing; `share` is the share of its length, 0 at its start, where it first does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Passage {
    /// They stay apart.
    Apart,
    /// It touches, no deeper than [`TOUCH_MM`].
    Touches { share: f64 },
    /// It comes deeper.
    Enters { share: f64 },
}

/// How the straight line from `from` to `to` meets an outline over a height range.
pub(crate) fn passage(outline: &Outline, span: &Span, from: DVec3, to: DVec3) -> Passage {
    let (a, b) = (from.truncate(), to.truncate());
    let bounds = outline.bounds().grown(TOUCH_MM);
    let (low, high) = (a.min(b), a.max(b));
    if low.cmpgt(bounds.high).any() || high.cmplt(bounds.low).any() {
        return Passage::Apart;
    }
    let Some((first, last)) = within_heights(span, from.z, to.z) else { return Passage::Apart };
    let at = |share: f64| from + (to - from) * share;
    let mut events = vec![first, last];
    // The lid and the floor of the thing themselves, not a touch before them.
    events.extend([span.bottom(), span.top()].map(|height| (height - from.z) / (to.z - from.z)));
    match outline {
        Outline::Polygon(polygon) => polygon_events(polygon, a, b, &mut events),
        Outline::Circle(circle) => {
            // Where it crosses the rim, and where it is nearest to the axis.
            let along = b - a;
            let squared = along.length_squared();
            if squared > 0.0 {
                let nearest = (circle.centre() - a).dot(along) / squared;
                let off = (a + along * nearest).distance_squared(circle.centre());
                let half = ((circle.radius() * circle.radius() - off).max(0.0) / squared).sqrt();
                events.extend([nearest - half, nearest, nearest + half]);
            }
        }
    }
    events.retain(|share| (first..=last).contains(share));
    events.sort_by(f64::total_cmp);
    for pair in events.windows(2) {
        if let [start, end] = *pair
            && depth(outline, span, at(0.5 * (start + end))) > TOUCH_MM
        {
            return Passage::Enters { share: start };
        }
    }
    match events.into_iter().find(|&share| depth(outline, span, at(share)) >= -2.0 * TOUCH_MM) {
        Some(share) => Passage::Touches { share },
        None => Passage::Apart,
    }
}

/// The stretch of the line whose heights the thing has, touching included, as shares of its length.
fn within_heights(span: &Span, from: f64, to: f64) -> Option<(f64, f64)> {
    let (bottom, top) = (span.bottom() - TOUCH_MM, span.top() + TOUCH_MM);
    let rise = to - from;
    if from.max(to) < bottom || from.min(to) > top {
        return None;
    }
    if rise == 0.0 {
        return Some((0.0, 1.0));
    }
    let (p, q) = ((bottom - from) / rise, (top - from) / rise);
    let (first, last) = (p.min(q).max(0.0), p.max(q).min(1.0));
    (first <= last).then_some((first, last))
}

/// Where, as shares of the line's length, it crosses an edge or passes a corner by a touch: between two of them it is
/// all inside, all outside, or all along an edge.
fn polygon_events(polygon: &Polygon, a: DVec2, b: DVec2, events: &mut Vec<f64>) {
    let along = b - a;
    let squared = along.length_squared();
    if squared == 0.0 {
        return;
    }
    let near = 2.0 * TOUCH_MM * squared.sqrt();
    for edge in polygon.edges() {
        let (p, q) = (predicate::turn(a, b, edge.from), predicate::turn(a, b, edge.to));
        if (p > 0.0) != (q > 0.0) && p != q {
            let meet = edge.at(p / (p - q));
            events.push((meet - a).dot(along) / squared);
        }
        if p.abs() <= near {
            events.push((edge.from - a).dot(along) / squared);
        }
        // The line's own ends may touch an edge from the side.
        for (end, share) in [(a, 0.0), (b, 1.0)] {
            if edge.distance_to(end) <= TOUCH_MM {
                events.push(share);
            }
        }
    }
}

/// How deep a point lies in an outline over a height range: the distance to its nearest surface (a bound of it: the least
/// of plan depth and depth below top and above bottom, which is the same thing inside). Negative outside.
pub(crate) fn depth(outline: &Outline, span: &Span, p: DVec3) -> f64 {
    let upright = (p.z - span.bottom()).min(span.top() - p.z);
    if upright < -4.0 * TOUCH_MM {
        return upright;
    }
    upright.min(plan_depth(outline, p.truncate()))
}

/// How deep a point lies in a plan shape: the distance to its boundary, negative outside.
pub(crate) fn plan_depth(outline: &Outline, p: DVec2) -> f64 {
    match outline {
        Outline::Circle(circle) => circle.radius() - p.distance(circle.centre()),
        Outline::Polygon(polygon) => polygon_depth(polygon, p),
    }
}

/// As [`plan_depth`]. Which side is decided exactly; outside the box around the polygon the answer is a bound.
pub(crate) fn polygon_depth(polygon: &Polygon, p: DVec2) -> f64 {
    let bounds = polygon.bounds();
    if !bounds.grown(2.0 * TOUCH_MM).holds(p) {
        let out = (bounds.low - p).max(p - bounds.high).max(DVec2::ZERO);
        return -out.length();
    }
    let mut inside = false;
    let mut nearest = f64::INFINITY;
    for edge in polygon.edges() {
        inside ^= crosses_ray(&edge, p);
        nearest = nearest.min(edge.nearest(p).distance_squared(p));
    }
    let distance = nearest.sqrt();
    if inside { distance } else { -distance }
}

/// Whether a ray from `p` along x crosses the edge; crossings of all edges of a polygon are odd inside. Exact.
pub(crate) fn crosses_ray(edge: &Segment, p: DVec2) -> bool {
    if (edge.from.y > p.y) == (edge.to.y > p.y) {
        return false;
    }
    let left = predicate::side(edge.from, edge.to, p).is_gt();
    left == (edge.to.y > edge.from.y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circle::Circle;

    fn block(low: (f64, f64), high: (f64, f64), bottom: f64, top: f64) -> Prism {
        let polygon = Polygon::rectangle(low.into(), high.into()).unwrap();
        Prism::new(polygon.into(), Span::new(bottom, top).unwrap())
    }

    fn drum(at: (f64, f64), radius: f64, bottom: f64, top: f64) -> Prism {
        Prism::new(Circle::new(at.into(), radius).unwrap().into(), Span::new(bottom, top).unwrap())
    }

    fn check(from: (f64, f64, f64), to: (f64, f64, f64), things: &[Prism], expected: LineOfSight) {
        let found = first_blocker(from.into(), to.into(), &things.iter().collect::<Vec<_>>());
        // Where a line touches is only sharp to where it comes within a touch: a few of them along a slope.
        if let (LineOfSight::Grazing { thing: a, at: p }, LineOfSight::Grazing { thing: b, at: q }) =
            (&found, &expected)
        {
            assert!(a == b && p.distance(*q) < 20.0 * TOUCH_MM, "{found:?}");
        } else {
            assert_eq!(found, expected);
        }
    }

    #[test]
    fn the_nearer_thing_is_named_whatever_the_order() {
        let near = block((10., -5.), (20., 5.), 0., 10.);
        let far = block((30., -5.), (40., 5.), 0., 10.);
        let expected = |thing| LineOfSight::Blocked { thing, at: DVec3::new(10., 0., 5.), distance: 10.0 };
        check((0., 0., 5.), (100., 0., 5.), &[near.clone(), far.clone()], expected(0));
        check((0., 0., 5.), (100., 0., 5.), &[far, near], expected(1));
    }

    #[test]
    fn heights_count() {
        let low = block((10., -5.), (20., 5.), 0., 4.);
        let high = block((10., -5.), (20., 5.), 6., 10.);
        check((0., 0., 5.), (100., 0., 5.), &[low.clone(), high], LineOfSight::Clear);
        // Falling from 8 to -12 over 100 mm: at x = 20 the line is at height 4, just over the far edge.
        check(
            (0., 0., 8.),
            (100., 0., -12.),
            std::slice::from_ref(&low),
            LineOfSight::Grazing { thing: 0, at: DVec3::new(20., 0., 4.) },
        );
        let steeper = LineOfSight::Blocked {
            thing: 0,
            at: DVec3::new(16., 0., 4.),
            distance: 16.0 * 1.0625_f64.sqrt(),
        };
        check((0., 0., 8.), (32., 0., 0.), &[low], steeper);
    }

    #[test]
    fn touching_blocks_nothing() {
        let side = block((10., 0.), (20., 5.), 0., 10.);
        check(
            (0., 0., 5.),
            (100., 0., 5.),
            std::slice::from_ref(&side),
            LineOfSight::Grazing { thing: 0, at: DVec3::new(10., 0., 5.) },
        );
        let top = block((10., -5.), (20., 5.), 0., 5.);
        check(
            (0., 0., 5.),
            (100., 0., 5.),
            &[top],
            LineOfSight::Grazing { thing: 0, at: DVec3::new(10., 0., 5.) },
        );
        let corner = Prism::new(
            Polygon::simple(vec![DVec2::new(10., 0.), DVec2::new(15., 5.), DVec2::new(5., 5.)])
                .unwrap()
                .into(),
            Span::new(0.0, 10.0).unwrap(),
        );
        check(
            (0., 0., 5.),
            (100., 0., 5.),
            &[corner],
            LineOfSight::Grazing { thing: 0, at: DVec3::new(10., 0., 5.) },
        );
        check(
            (0., 0., 5.),
            (100., 0., 5.),
            &[drum((50., 7.), 7., 0., 10.)],
            LineOfSight::Grazing { thing: 0, at: DVec3::new(50., 0., 5.) },
        );
        // A thing behind the start or beyond the end only touches it.
        check(
            (20., 2., 5.),
            (100., 2., 5.),
            &[side],
            LineOfSight::Grazing { thing: 0, at: DVec3::new(20., 2., 5.) },
        );
    }

    #[test]
    fn round_things() {
        let expected = LineOfSight::Blocked { thing: 0, at: DVec3::new(40., 0., 5.), distance: 40.0 };
        check((0., 0., 5.), (100., 0., 5.), &[drum((50., 0.), 10., 0., 10.)], expected);
        check((0., 0., 5.), (100., 0., 5.), &[drum((50., 10.5), 10., 0., 10.)], LineOfSight::Clear);
        // Straight down into the lid.
        let lid = LineOfSight::Blocked { thing: 0, at: DVec3::new(52., 0., 10.), distance: 5.0 };
        check((52., 0., 15.), (52., 0., -5.), &[drum((50., 0.), 10., 0., 10.)], lid);
    }

    #[test]
    fn ends_inside_are_named() {
        let thing = block((-5., -5.), (5., 5.), 0., 10.);
        let (eye, target) = (LineOfSight::EyeInside { thing: 0 }, LineOfSight::TargetInside { thing: 0 });
        check((0., 0., 5.), (100., 0., 5.), std::slice::from_ref(&thing), eye.clone());
        check((100., 0., 5.), (0., 0., 5.), std::slice::from_ref(&thing), target);
        check((0., 0., 5.), (0., 0., 5.), std::slice::from_ref(&thing), eye);
        check((9., 0., 5.), (9., 0., 5.), &[thing], LineOfSight::Clear);
    }

    #[test]
    fn a_line_through_a_notch_or_a_hole_meets_the_far_wall() {
        let ring = Polygon::new(
            vec![DVec2::new(0., 0.), DVec2::new(10., 0.), DVec2::new(10., 10.), DVec2::new(0., 10.)],
            vec![vec![DVec2::new(2., 2.), DVec2::new(8., 2.), DVec2::new(8., 8.), DVec2::new(2., 8.)]],
        )
        .unwrap();
        let ring = Prism::new(ring.into(), Span::new(0.0, 10.0).unwrap());
        check(
            (5., 5., 5.),
            (50., 5., 5.),
            std::slice::from_ref(&ring),
            LineOfSight::Blocked { thing: 0, at: DVec3::new(8., 5., 5.), distance: 3.0 },
        );
        check((3., 3., 5.), (7., 7., 5.), &[ring], LineOfSight::Clear);
    }
}
