//! The shadow that a prism throws on a face, seen from a point: convex rings in the face's own coordinates.
//!
//! Points are taken to the view's own axes: `a` along the face's left, `b` along its up, `w` towards its plane. A
//! point at depth `w` between the eye (0) and the plane (`reach`) is seen at `foot + (a, b) · reach / w`.

use glam::{DVec2, DVec3};

use super::remains::crossing;
use super::sliver_area;
use crate::angle;
use crate::bounds::Bounds;
use crate::circle::Circle;
use crate::convex;
use crate::face::Face;
use crate::outline::Outline;
use crate::polygon::{ring_edges, signed_area};
use crate::prism::{Prism, Span};
use crate::tolerance::{SAGITTA_MM, TOUCH_MM};

/// What comes nearer to the eye's own plane than this throws no shadow, mm. A thing that touches the eye would
/// else throw one without end. A thing would have to lie wholly within a tenth of a micrometre of the eye to be
/// missed; and it is large enough against [`TOUCH_MM`] that rounding cannot turn the shadow of a thing that touches it.
const NEAR_MM: f64 = 1e-4;

/// The widest stretch of a rim, rad, that one tangent may stand for.
const WIDEST_RAD: f64 = std::f64::consts::FRAC_PI_4;

/// How far outside the rim the corner of two tangents [`WIDEST_RAD`] apart lies: 1 / cos(π/8) of the radius, rounded
/// up.
const WIDEST_REACH: f64 = 1.083;

/// A eye in front of a face.
pub(super) struct EyeFrame {
    eye: DVec3,
    /// The three axes as rows: a, b, w.
    axes: [DVec3; 3],
    /// From the eye to the face's plane.
    reach: f64,
    /// Where the eye's perpendicular meets the face's plane.
    foot: DVec2,
    /// Half the face's width and height.
    half: DVec2,
    /// Inward normals of the four planes through the eye and the face's sides: right, left, bottom, top.
    sides: [DVec3; 4],
    /// What of the plan lies below or above the view: eye and face from above.
    plan: Vec<DVec2>,
    sliver: f64,
}

impl EyeFrame {
    /// `None` if the eye lies on or behind the face's plane.
    pub(super) fn new(eye: DVec3, face: &Face) -> Option<Self> {
        let reach = face.in_front(eye);
        if reach <= TOUCH_MM {
            return None;
        }
        let (left, up, towards) = (face.left(), face.up(), -face.normal());
        let off = eye - face.centre();
        let foot = DVec2::new(off.dot(left), off.dot(up));
        let half = DVec2::new(face.width(), face.height()) * 0.5;
        // Seen at u = foot.x + a reach / w <= half.x, so (half.x - foot.x) w - a reach >= 0; the others likewise.
        let sides = [
            towards * (half.x + foot.x) + left * reach,
            towards * (half.x - foot.x) - left * reach,
            towards * (half.y + foot.y) + up * reach,
            towards * (half.y - foot.y) - up * reach,
        ];
        let axes = [left, up, towards];
        let [a, b, c, d] = face.corners().map(|corner| corner.truncate());
        let plan =
            convex::hull(&[eye.truncate(), a, b, c, d]).map_or(Vec::new(), |hull| hull.outer().to_vec());
        Some(Self { eye, axes, reach, foot, half, sides, plan, sliver: sliver_area(face) })
    }

    /// The shadows of a prism's convex pieces within the face; none smaller than a sliver.
    pub(super) fn shadows(&self, thing: &Prism) -> Vec<Vec<DVec2>> {
        let span = &thing.span;
        if self.misses(&thing.outline.bounds(), span) {
            return Vec::new();
        }
        let shadows = match &thing.outline {
            Outline::Polygon(polygon) => {
                polygon.pieces().filter_map(|ring| self.of_ring(ring, span)).collect()
            }
            Outline::Circle(circle) => match self.of_drum(circle, span) {
                Some(points) => vec![points],
                None => self.of_ring(&self.ring_around(circle), span).into_iter().collect(),
            },
        };
        self.clipped(shadows)
    }

    /// Hulls of projected points, cut down to the face.
    fn clipped(&self, shadows: Vec<Vec<DVec2>>) -> Vec<Vec<DVec2>> {
        let hulls = shadows.into_iter().filter_map(|points| convex::hull(&points));
        let within = hulls.filter_map(|hull| {
            let most = self.half;
            if hull.bounds().low.cmpge(-most).all() && hull.bounds().high.cmple(most).all() {
                return Some(hull.outer().to_vec());
            }
            // Cut, its new corners are rounded: only a hull of them is convex again, as the next step needs it.
            let ring = self.within_face(hull.outer().to_vec());
            convex::hull(&ring).map(|hull| hull.outer().to_vec())
        });
        within.filter(|ring| signed_area(ring) > self.sliver).collect()
    }

    /// Whether a whole box lies outside one of the six planes around the view.
    fn misses(&self, bounds: &Bounds, span: &Span) -> bool {
        let half = (bounds.size() * 0.5).extend(span.height() * 0.5);
        let centre = bounds.centre().extend(0.5 * (span.bottom() + span.top())) - self.eye;
        let furthest = |normal: DVec3| normal.dot(centre) + normal.abs().dot(half);
        let [_, _, towards] = self.axes;
        furthest(towards) <= NEAR_MM
            || -furthest(-towards) >= self.reach - TOUCH_MM
            || self.sides.iter().any(|&side| furthest(side) <= 0.0)
    }

    /// A point of space in the view's own axes.
    fn own(&self, p: DVec3) -> DVec3 {
        let off = p - self.eye;
        let [a, b, w] = self.axes;
        DVec3::new(off.dot(a), off.dot(b), off.dot(w))
    }

    /// Where a point in the view's own axes, before the eye, is seen.
    fn seen(&self, own: DVec3) -> DVec2 {
        self.foot + own.truncate() * (self.reach / own.z)
    }

    /// Where what lies between eye and plane of a prism over a convex ring is seen: points whose hull it is.
    /// `None` if all of it lies before the one or beyond the other.
    fn of_ring(&self, ring: &[DVec2], span: &Span) -> Option<Vec<DVec2>> {
        let low: Vec<DVec3> = ring.iter().map(|p| self.own(p.extend(span.bottom()))).collect();
        let high: Vec<DVec3> = ring.iter().map(|p| self.own(p.extend(span.top()))).collect();
        let depths = || low.iter().chain(&high).map(|p| p.z);
        let nearest = depths().fold(f64::INFINITY, f64::min);
        let furthest = depths().fold(f64::NEG_INFINITY, f64::max);
        if furthest <= NEAR_MM || nearest >= self.reach - TOUCH_MM {
            return None;
        }
        let mut points = Vec::with_capacity(2 * ring.len() + 4);
        let within = |p: &DVec3| p.z >= NEAR_MM && p.z <= self.reach;
        points.extend(low.iter().chain(&high).filter(|p| within(p)).map(|&p| self.seen(p)));
        if nearest < NEAR_MM || furthest > self.reach {
            let around = |ends: &[DVec3], points: &mut Vec<DVec2>| {
                for (i, &p) in ends.iter().enumerate() {
                    let q = ends.get(i + 1).or(ends.first()).copied().unwrap_or(p);
                    self.cross(p, q, points);
                }
            };
            around(&low, &mut points);
            around(&high, &mut points);
            low.iter().zip(&high).for_each(|(&p, &q)| self.cross(p, q, &mut points));
        }
        Some(points)
    }

    /// Where an edge passes the near plane and the face's plane.
    fn cross(&self, p: DVec3, q: DVec3, points: &mut Vec<DVec2>) {
        for depth in [NEAR_MM, self.reach] {
            let (at_p, at_q) = (p.z - depth, q.z - depth);
            if (at_p < 0.0 && at_q > 0.0) || (at_p > 0.0 && at_q < 0.0) {
                let meet = p + (q - p) * (at_p / (at_p - at_q));
                points.push(self.seen(meet.truncate().extend(depth)));
            }
        }
    }

    /// A convex ring cut down to the face.
    fn within_face(&self, ring: Vec<DVec2>) -> Vec<DVec2> {
        let DVec2 { x, y } = self.half;
        let ring = cut(ring, |p| x - p.x, |p| DVec2::new(x, p.y));
        let ring = cut(ring, |p| x + p.x, |p| DVec2::new(-x, p.y));
        let ring = cut(ring, |p| y - p.y, |p| DVec2::new(p.x, y));
        cut(ring, |p| y + p.y, |p| DVec2::new(p.x, -y))
    }

    /// Where an upright cylinder that lies wholly between eye and plane is seen: its outline is two tangents and
    /// the near or far half of each rim, each as tangents fine enough where the face needs them. `None` if it does
    /// not lie wholly between.
    fn of_drum(&self, circle: &Circle, span: &Span) -> Option<Vec<DVec2>> {
        let [_, _, towards] = self.axes;
        let low = self.own(circle.centre().extend(span.bottom())).z;
        let high = self.own(circle.centre().extend(span.top())).z;
        let reach = circle.radius() * towards.truncate().length();
        if low.min(high) - WIDEST_REACH * reach < NEAR_MM || low.max(high) + reach > self.reach {
            return None;
        }
        let towards = self.eye.truncate() - circle.centre();
        let away = towards.length();
        let mut points = Vec::new();
        let mut rim = |height: f64, from: f64, to: f64| self.rim(circle, height, from, to, &mut points);
        let facing = angle::heading(towards);
        if away > circle.radius() {
            // Tangent points this far either side of the direction to the eye.
            let half = libm::acos(circle.radius() / away);
            let near = (facing - half, facing + half);
            let far = (facing + half, facing - half + std::f64::consts::TAU);
            let (from, to) = if self.eye.z > span.top() { far } else { near };
            rim(span.top(), from, to);
            let (from, to) = if self.eye.z < span.bottom() { far } else { near };
            rim(span.bottom(), from, to);
        } else {
            // Right above or below: only the lid is seen.
            let height =
                if self.eye.z > 0.5 * (span.bottom() + span.top()) { span.top() } else { span.bottom() };
            rim(height, facing, facing + std::f64::consts::TAU);
        }
        Some(points)
    }

    /// The tangents' corners around a rim between two angles, with the two ends.
    fn rim(&self, circle: &Circle, height: f64, from: f64, to: f64, points: &mut Vec<DVec2>) {
        let (first, last) = (angle_point(from), angle_point(to));
        let at = |way: DVec2| self.own((circle.centre() + way * circle.radius()).extend(height));
        points.push(self.seen(at(first)));
        for (from, to) in arcs(from, to) {
            let ends = [at(from), at(to)];
            self.stretch(circle, height, [from, to], ends, points);
        }
        points.push(self.seen(at(last)));
    }

    /// One stretch of a rim between two unit vectors, and its two ends in the view's own axes: halved until a single
    /// corner is near enough, or is of no concern to the face.
    fn stretch(
        &self,
        circle: &Circle,
        height: f64,
        [from, to]: [DVec2; 2],
        [start, end]: [DVec3; 2],
        points: &mut Vec<DVec2>,
    ) {
        let (out, far) = tangents_meet(from, to, circle.radius());
        let corner = self.own((circle.centre() + out).extend(height));
        if far - circle.radius() <= SAGITTA_MM || self.beside([corner, start, end]) {
            points.push(self.seen(corner));
        } else {
            let way = out / far;
            let middle = self.own((circle.centre() + way * circle.radius()).extend(height));
            self.stretch(circle, height, [from, way], [start, middle], points);
            self.stretch(circle, height, [way, to], [middle, end], points);
        }
    }

    /// Whether three points, in the view's own axes, all lie outside one side of the face.
    fn beside(&self, points: [DVec3; 3]) -> bool {
        let outside = |lies: fn(DVec2, DVec2) -> bool| points.iter().all(|&p| lies(self.seen(p), self.half));
        outside(|p, half| p.x >= half.x)
            || outside(|p, half| p.x <= -half.x)
            || outside(|p, half| p.y >= half.y)
            || outside(|p, half| p.y <= -half.y)
    }

    /// A polygon around the whole circle, fine where the view needs it. One of its edges is square to the eye, so
    /// that a eye outside the circle is outside the polygon too.
    fn ring_around(&self, circle: &Circle) -> Vec<DVec2> {
        let facing = angle::heading(self.eye.truncate() - circle.centre());
        let mut ring = Vec::new();
        for (from, to) in arcs(facing, facing + std::f64::consts::TAU) {
            self.plan_stretch(circle, from, to, &mut ring);
        }
        ring
    }

    /// As [`EyeFrame::stretch`], in plan.
    fn plan_stretch(&self, circle: &Circle, from: DVec2, to: DVec2, ring: &mut Vec<DVec2>) {
        let (out, far) = tangents_meet(from, to, circle.radius());
        let near = |way: DVec2| circle.centre() + way * circle.radius();
        let corner = circle.centre() + out;
        if far - circle.radius() <= SAGITTA_MM || self.plan_beside([corner, near(from), near(to)]) {
            ring.push(corner);
        } else {
            let way = out / far;
            self.plan_stretch(circle, from, way, ring);
            self.plan_stretch(circle, way, to, ring);
        }
    }

    /// Whether three plan points all lie outside one side of the view.
    fn plan_beside(&self, points: [DVec2; 3]) -> bool {
        ring_edges(&self.plan)
            .any(|side| points.iter().all(|&p| (side.to - side.from).perp_dot(p - side.from) <= 0.0))
    }
}

/// The part of a convex ring where `within` is positive. `onto` puts a point where it is zero exactly there: what comes
/// near the eye is seen so far out that the crossing of an edge alone would not land on the face's side.
fn cut(ring: Vec<DVec2>, within: impl Fn(DVec2) -> f64, onto: impl Fn(DVec2) -> DVec2) -> Vec<DVec2> {
    if ring.iter().all(|&p| within(p) >= 0.0) {
        return ring;
    }
    let mut kept = Vec::with_capacity(ring.len() + 1);
    for (i, &p) in ring.iter().enumerate() {
        let q = ring.get(i + 1).or(ring.first()).copied().unwrap_or(p);
        let (at_p, at_q) = (within(p), within(q));
        if at_p >= 0.0 {
            kept.push(p);
        }
        if (at_p > 0.0 && at_q < 0.0) || (at_p < 0.0 && at_q > 0.0) {
            kept.push(onto(crossing(p, at_p, q, at_q)));
        }
    }
    kept
}

/// The unit vector at an angle.
fn angle_point(turn: f64) -> DVec2 {
    let (sin, cos) = libm::sincos(turn);
    DVec2::new(cos, sin)
}

/// An arc between two angles as unit vectors, in equal parts no wider than [`WIDEST_RAD`].
fn arcs(from: f64, to: f64) -> impl Iterator<Item = (DVec2, DVec2)> {
    let parts = libm::ceil((to - from) / WIDEST_RAD).clamp(1.0, 8.0);
    let step = (to - from) / parts;
    let ends = (0..=parts as usize).map(move |i| angle_point(from + step * i as f64));
    ends.clone().zip(ends.skip(1))
}

/// Where the tangents at two unit vectors of a circle about the origin meet, and how far out that is: along their sum.
fn tangents_meet(from: DVec2, to: DVec2, radius: f64) -> (DVec2, f64) {
    let out = (from + to) * (radius / (1.0 + from.dot(to)));
    (out, out.length())
}
