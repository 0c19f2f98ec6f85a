//! The share of a straight line that an eye sees past things, in plan only.

use glam::DVec2;

use crate::blocker::plan_depth;
use crate::outline::Outline;
use crate::segment::Segment;
use crate::tolerance::TOUCH_MM;

/// The answer of [`segment_share`].
#[derive(Clone, Debug, PartialEq)]
pub enum SegmentShare {
    /// The eye lies inside a thing: the question has no answer.
    EyeInside {
        /// The lowest index of such a thing.
        thing: usize,
    },
    /// The eye lies on the line on which the target lies, or the target has no length: it sees it edge on.
    InLine,
    /// What it sees.
    Seen(VisibleSegment),
}

/// What an eye sees of a straight line.
#[derive(Clone, Debug, PartialEq)]
pub struct VisibleSegment {
    /// The share of the line's length that is seen, 0 to 1; exactly 1 if nothing hides any of it.
    pub share: f64,
    /// The stretches of it that are hidden, in order from its start; they share no length.
    pub hidden: Vec<Stretch>,
    /// Each thing that hides some of it: the one that hides most first, equal ones by index.
    pub hidden_by: Vec<SegmentHider>,
}

/// A stretch of a straight line, as shares of its length: 0 at its start, 1 at its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Where it begins, as in [`Segment::at`].
    pub from: f64,
    /// Where it ends, beyond its beginning.
    pub to: f64,
}

impl Stretch {
    /// The share of the line's length that it is.
    pub fn share(&self) -> f64 {
        self.to - self.from
    }
}

/// A thing that hides some of a straight line.
#[derive(Clone, Debug, PartialEq)]
pub struct SegmentHider {
    /// Its index.
    pub thing: usize,
    /// The share of the line's length that it hides alone, 0 to 1.
    pub share: f64,
    /// The stretches that it hides alone, in order from the line's start; they share no length.
    pub hidden: Vec<Stretch>,
}

/// What comes nearer to the eye's own line than this throws no shadow, mm; see the same figure in space.
const NEAR_MM: f64 = 1e-4;

/// The share of `target`, by length, that `eye` sees past `things` in plan, and which stretches of it are hidden. A thing
/// that only touches the view, or lies on or beyond the target's line, hides nothing.
///
/// A column half way to a bar hides the stretch from 4/10 to 6/10 of it:
///
/// ```rust
/// # use baywright_geometry::*;
/// let bar = Segment::new(DVec2::new(4000.0, -500.0), DVec2::new(4000.0, 500.0));
/// let column = Outline::from(Polygon::rectangle(DVec2::new(2000.0, -50.0), DVec2::new(2100.0, 50.0))?);
/// let SegmentShare::Seen(seen) = segment_share(DVec2::ZERO, &bar, &[&column]) else { unreachable!() };
/// assert!((seen.share - 0.8).abs() < 1e-12);
/// assert!((seen.hidden[0].from - 0.4).abs() < 1e-12 && (seen.hidden[0].to - 0.6).abs() < 1e-12);
/// # Ok::<(), ShapeFault>(())
/// ```
pub fn segment_share(eye: DVec2, target: &Segment, things: &[&Outline]) -> SegmentShare {
    if let Some(thing) = things.iter().position(|thing| plan_depth(thing, eye) > TOUCH_MM) {
        return SegmentShare::EyeInside { thing };
    }
    let Some(view) = EyeFrame::new(eye, target) else { return SegmentShare::InLine };
    // A stretch that counts as none: shorter than a touch.
    let sliver = TOUCH_MM / view.length;
    let mut hidden_by = Vec::new();
    for (thing, outline) in things.iter().enumerate() {
        let hidden = joined(view.shadows(outline));
        let share = total(&hidden);
        if share > sliver {
            hidden_by.push(SegmentHider { thing, share: share.min(1.0), hidden });
        }
    }
    hidden_by.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.thing.cmp(&b.thing)));
    let hidden = joined(hidden_by.iter().flat_map(|hider| hider.hidden.iter().copied()).collect());
    let share = 1.0 - total(&hidden);
    let share = if share > sliver { share.min(1.0) } else { 0.0 };
    SegmentShare::Seen(VisibleSegment { share, hidden, hidden_by })
}

/// The same stretches in order, those that meet made one.
fn joined(mut stretches: Vec<Stretch>) -> Vec<Stretch> {
    stretches.sort_by(|a, b| a.from.total_cmp(&b.from));
    let mut all: Vec<Stretch> = Vec::with_capacity(stretches.len());
    for next in stretches {
        match all.last_mut() {
            Some(last) if next.from <= last.to => last.to = last.to.max(next.to),
            _ => all.push(next),
        }
    }
    all
}

/// The length of stretches that share none.
fn total(stretches: &[Stretch]) -> f64 {
    // An empty sum would be a negative zero.
    stretches.iter().fold(0.0, |sum, stretch| sum + stretch.share())
}

/// An eye off a target's line. Points are taken to `(along, w)`: along the target from where the eye's perpendicular
/// meets its line, and from the eye (0) towards that line (`reach`).
struct EyeFrame {
    eye: DVec2,
    along: DVec2,
    towards: DVec2,
    reach: f64,
    length: f64,
    /// Where the target starts, along.
    start: f64,
}

impl EyeFrame {
    fn new(eye: DVec2, target: &Segment) -> Option<Self> {
        let length = target.length();
        if length <= TOUCH_MM {
            return None;
        }
        let along = (target.to - target.from) / length;
        let off = target.from - eye;
        let reach = along.perp_dot(off);
        let towards = if reach < 0.0 { -along.perp() } else { along.perp() };
        (reach.abs() > TOUCH_MM).then_some(Self {
            eye,
            along,
            towards,
            reach: reach.abs(),
            length,
            start: off.dot(along),
        })
    }

    fn own(&self, p: DVec2) -> DVec2 {
        let off = p - self.eye;
        DVec2::new(off.dot(self.along), off.dot(self.towards))
    }

    /// The share of the target at which a point is seen.
    fn seen(&self, own: DVec2) -> f64 {
        (own.x * (self.reach / own.y) - self.start) / self.length
    }

    /// What the thing hides of the target.
    fn shadows(&self, thing: &Outline) -> Vec<Stretch> {
        let found: Vec<(f64, f64)> = match thing {
            // Whoever looks into a polygon looks across an edge of it.
            Outline::Polygon(polygon) => polygon
                .edges()
                .filter_map(|edge| self.of_edge(self.own(edge.from), self.own(edge.to)))
                .collect(),
            Outline::Circle(circle) => {
                self.of_disc(self.own(circle.centre()), circle.radius()).into_iter().collect()
            }
        };
        let cut = found.into_iter().map(|(from, to)| Stretch { from: from.max(0.0), to: to.min(1.0) });
        cut.filter(|stretch| stretch.from < stretch.to).collect()
    }

    fn of_edge(&self, p: DVec2, q: DVec2) -> Option<(f64, f64)> {
        let (p, q) = if p.y <= q.y { (p, q) } else { (q, p) };
        if q.y <= NEAR_MM || p.y >= self.reach - TOUCH_MM {
            return None;
        }
        let at = |depth: f64| DVec2::new(p.x + (q.x - p.x) * ((depth - p.y) / (q.y - p.y)), depth);
        let low = if p.y < NEAR_MM { at(NEAR_MM) } else { p };
        let high = if q.y > self.reach { at(self.reach) } else { q };
        let (from, to) = (self.seen(low), self.seen(high));
        Some((from.min(to), from.max(to)))
    }

    /// The part of a disc between eye and line is seen between the outermost of its two tangents, if they touch it
    /// there, and of the points where its rim passes the near line and the target's.
    fn of_disc(&self, centre: DVec2, radius: f64) -> Option<(f64, f64)> {
        if centre.y + radius <= NEAR_MM || centre.y - radius >= self.reach - TOUCH_MM {
            return None;
        }
        let mut points = Vec::with_capacity(6);
        let squared = centre.length_squared();
        if squared > radius * radius {
            // The tangent points lie on the chord where the eye's polar cuts the disc.
            let foot = centre * (1.0 - radius * radius / squared);
            let half = centre.perp() * (radius * (squared - radius * radius).sqrt() / squared);
            points.extend(
                [foot + half, foot - half].into_iter().filter(|p| p.y >= NEAR_MM && p.y <= self.reach),
            );
        }
        for depth in [NEAR_MM, self.reach] {
            let off = depth - centre.y;
            if off.abs() < radius {
                let half = (radius * radius - off * off).sqrt();
                points.extend([centre.x - half, centre.x + half].map(|x| DVec2::new(x, depth)));
            }
        }
        let seen = points.iter().map(|&p| self.seen(p));
        let (from, to) =
            seen.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), s| (low.min(s), high.max(s)));
        (from < to).then_some((from, to))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circle::Circle;
    use crate::polygon::Polygon;

    fn rectangle(low: (f64, f64), high: (f64, f64)) -> Outline {
        Polygon::rectangle(low.into(), high.into()).unwrap().into()
    }

    fn check(eye: (f64, f64), things: &[&Outline], share: f64, alone: &[(usize, f64)]) {
        let target = Segment::new(DVec2::new(100.0, -10.0), DVec2::new(100.0, 10.0));
        for target in [target, Segment::new(target.to, target.from)] {
            match segment_share(eye.into(), &target, things) {
                SegmentShare::Seen(seen) => {
                    assert!((seen.share - share).abs() < 1e-9, "{seen:?} not {share}");
                    assert_eq!(seen.hidden_by.len(), alone.len(), "{seen:?}");
                    for (found, alone) in seen.hidden_by.iter().zip(alone) {
                        assert!(found.thing == alone.0 && (found.share - alone.1).abs() < 1e-9, "{seen:?}");
                    }
                }
                other => panic!("{other:?}"),
            }
        }
    }

    #[test]
    fn halves_and_quarters() {
        let left = rectangle((40.0, 0.0), (50.0, 30.0));
        let middle = rectangle((50.0, -2.5), (60.0, 2.5));
        check((0.0, 0.0), &[], 1.0, &[]);
        check((0.0, 0.0), &[&left], 0.5, &[(0, 0.5)]);
        check((0.0, 0.0), &[&middle, &left], 0.25, &[(0, 0.5), (1, 0.5)]);
        // On the target's line, beyond it, behind the eye, beside the view: nothing is hidden.
        let others = [
            rectangle((100.0, -50.0), (110.0, 50.0)),
            rectangle((-10.0, -50.0), (0.0, 50.0)),
            rectangle((40.0, 5.0), (50.0, 9.0)),
            rectangle((120.0, -5.0), (130.0, 5.0)),
        ];
        check((0.0, 0.0), &others.iter().collect::<Vec<_>>()[..2], 1.0, &[]);
        check((0.0, 0.0), &[&others[3]], 1.0, &[]);
        check((0.0, 0.0), &[&others[2]], 1.0, &[]);
        // Part of it beyond the target's line.
        check((0.0, 0.0), &[&rectangle((90.0, 0.0), (130.0, 50.0))], 0.5, &[(0, 0.5)]);
    }

    #[test]
    fn discs_in_closed_form() {
        let disc = |x: f64, y: f64, r: f64| Outline::from(Circle::new(DVec2::new(x, y), r).unwrap());
        // Tangents at ±asin(r / x): seen at ± 100 tan of it.
        let half = 100.0 * (2.0_f64 / 50.0).asin().tan();
        check((0.0, 0.0), &[&disc(50.0, 0.0, 2.0)], 1.0 - half / 10.0, &[(0, half / 10.0)]);
        // Touching the target's line from beyond, or the line of sight from the side.
        check((0.0, 0.0), &[&disc(110.0, 0.0, 10.0)], 1.0, &[]);
        // Centred on the target's line: it is still tangent to the view before that line.
        let half = 100.0 * 0.05_f64.asin().tan();
        check((0.0, 0.0), &[&disc(100.0, 0.0, 5.0)], 1.0 - half / 10.0, &[(0, half / 10.0)]);
        // So far beyond that only its front is before the line: it hides the chord there.
        check((0.0, 0.0), &[&disc(103.0, 0.0, 5.0)], 1.0 - 4.0 / 10.0, &[(0, 0.4)]);
    }

    #[test]
    fn no_answer() {
        let target = Segment::new(DVec2::new(100.0, -10.0), DVec2::new(100.0, 10.0));
        let around = rectangle((-5.0, -5.0), (5.0, 5.0));
        assert_eq!(segment_share(DVec2::ZERO, &target, &[&around]), SegmentShare::EyeInside { thing: 0 });
        assert_eq!(segment_share(DVec2::new(100.0, 50.0), &target, &[]), SegmentShare::InLine);
        // On the edge of a thing is not inside: the thing hides what it covers.
        let beside = rectangle((0.0, 0.0), (50.0, 5.0));
        check((0.0, 0.0), &[&beside], 0.5, &[(0, 0.5)]);
    }
}
