//! Shapes of a drawing, in its own units: straight lines and arcs, and how they are put elsewhere.

use baywright_planner::geometry::{DVec2, angle};

/// A plan transform that may stretch and mirror: where the x axis, the y axis and the origin go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placing {
    pub x: DVec2,
    pub y: DVec2,
    pub at: DVec2,
}

impl Placing {
    pub const SAME: Self = Self { x: DVec2::X, y: DVec2::Y, at: DVec2::ZERO };
    /// Seen from below: what a drawing's frame is whose height axis points down.
    pub const MIRRORED: Self = Self { x: DVec2::NEG_X, y: DVec2::Y, at: DVec2::ZERO };

    pub fn point(&self, p: DVec2) -> DVec2 {
        self.at + self.way(p)
    }

    pub fn way(&self, p: DVec2) -> DVec2 {
        self.x * p.x + self.y * p.y
    }

    /// First the other, then this.
    pub fn after(&self, other: &Self) -> Self {
        Self { x: self.way(other.x), y: self.way(other.y), at: self.point(other.at) }
    }

    pub fn is_finite(&self) -> bool {
        self.x.is_finite() && self.y.is_finite() && self.at.is_finite()
    }
}

/// An arc of an ellipse, mostly of a circle: its points are `centre + u cos t + v sin t`, `t` from `from` on for `sweep` radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    pub centre: DVec2,
    pub u: DVec2,
    pub v: DVec2,
    pub from: f64,
    pub sweep: f64,
}

/// A straight line or an arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    Line(DVec2, DVec2),
    Arc(Arc),
}

/// No arc has more chords: enough for one of a circle of 5 km within a millimetre.
const MOST_CHORDS: f64 = 5_000.0;
const WHOLE: f64 = std::f64::consts::TAU;

impl Arc {
    /// A whole circle.
    pub const fn circle(centre: DVec2, radius: f64) -> Self {
        let (u, v) = (DVec2::new(radius, 0.0), DVec2::new(0.0, radius));
        Self { centre, u, v, from: 0.0, sweep: WHOLE }
    }

    /// From one angle anticlockwise to another, radians.
    pub fn between(self, from: f64, to: f64) -> Self {
        let sweep = (to - from).rem_euclid(WHOLE);
        // Nothing is a whole turn.
        Self { from, sweep: if sweep < 1e-9 { WHOLE } else { sweep }, ..self }
    }

    /// From one point to the next of a polyline with this bulge, the tangent of a quarter of the arc's angle, positive
    /// anticlockwise; `None` for a straight line.
    pub fn bulging(from: DVec2, to: DVec2, bulge: f64) -> Option<Self> {
        let chord = to - from;
        if bulge.abs() < 1e-9 || chord == DVec2::ZERO {
            return None;
        }
        let centre = (from + to) * 0.5 + chord.perp() * ((1.0 - bulge * bulge) / (4.0 * bulge));
        let u = from - centre;
        let own = Self { centre, u, v: u.perp(), from: 0.0, sweep: 4.0 * libm::atan(bulge) };
        (centre.is_finite() && u.is_finite()).then_some(own)
    }

    /// Whether it is all of a circle, and of which radius.
    pub fn whole_circle(&self) -> Option<f64> {
        let radius = self.u.length();
        let round = (self.v.length() - radius).abs() <= radius * 1e-6
            && self.u.dot(self.v).abs() <= radius * radius * 1e-6;
        (round && self.is_closed()).then_some(radius)
    }

    pub fn is_closed(&self) -> bool {
        self.sweep.abs() >= WHOLE - 1e-6
    }

    pub fn at(&self, angle: f64) -> DVec2 {
        let (sin, cos) = angle::sin_cos(angle);
        self.centre + self.u * cos + self.v * sin
    }

    /// Points along it from end to end, so that no chord between two of them is further than `within` from it; of all of an ellipse
    /// the last is the first.
    pub fn points(&self, within: f64) -> Vec<DVec2> {
        let radius = self.u.length().max(self.v.length());
        let step = if radius > within { 2.0 * libm::acos(1.0 - within / radius) } else { 1.0 };
        let count = (self.sweep.abs() / step.max(1e-9)).ceil().clamp(3.0, MOST_CHORDS) as usize;
        let on = |i: usize| self.at(self.from + self.sweep * (i as f64 / count as f64));
        let mut points: Vec<DVec2> = (0..=count).map(on).collect();
        if self.is_closed()
            && let (Some(&first), Some(last)) = (points.first().copied().as_ref(), points.last_mut())
        {
            *last = first;
        }
        points
    }
}

impl Piece {
    pub fn placed(&self, by: &Placing) -> Self {
        match self {
            Self::Line(from, to) => Self::Line(by.point(*from), by.point(*to)),
            Self::Arc(arc) => {
                Self::Arc(Arc { centre: by.point(arc.centre), u: by.way(arc.u), v: by.way(arc.v), ..*arc })
            }
        }
    }

    pub fn is_finite(&self) -> bool {
        match self {
            Self::Line(from, to) => from.is_finite() && to.is_finite(),
            Self::Arc(arc) => arc.centre.is_finite() && arc.u.is_finite() && arc.v.is_finite(),
        }
    }

    /// A few points that tell how far it reaches: its ends, of an arc points along it.
    pub fn reach(&self) -> Vec<DVec2> {
        match self {
            Self::Line(from, to) => vec![*from, *to],
            Self::Arc(arc) => (0..=16).map(|i| arc.at(arc.from + arc.sweep * f64::from(i) / 16.0)).collect(),
        }
    }

    /// Points along it from end to end, chords of an arc within so much of it.
    pub fn points(&self, within: f64) -> Vec<DVec2> {
        match self {
            Self::Line(from, to) => vec![*from, *to],
            Self::Arc(arc) => arc.points(within),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chords_are_within_a_millimetre_of_their_arc() {
        for radius in [0.5, 30.0, 1_000.0, 40_000.0] {
            let arc = Arc::circle(DVec2::new(7.0, -3.0), radius).between(0.3, 5.1);
            let points = arc.points(1.0);
            for pair in points.windows(2) {
                let middle = (pair[0] + pair[1]) * 0.5;
                assert!(radius - middle.distance(arc.centre) <= 1.0 + 1e-9, "{radius}");
            }
            assert!(points[0].distance(arc.at(0.3)) < 1e-9);
            assert!(points.last().unwrap().distance(arc.at(5.1)) < 1e-9);
        }
        assert_eq!(Arc::circle(DVec2::ZERO, 1e300).points(1.0).len(), 5_001);
    }

    /// A half circle on the left of the way, then a quarter on the right: sagitta and centre by plane trigonometry.
    #[test]
    fn a_bulge_is_the_tangent_of_a_quarter_of_its_angle() {
        let half = Arc::bulging(DVec2::ZERO, DVec2::new(200.0, 0.0), 1.0).unwrap();
        assert!(half.centre.distance(DVec2::new(100.0, 0.0)) < 1e-9);
        // Anticlockwise from the left end to the right one is below.
        assert!(half.at(half.sweep * 0.5).distance(DVec2::new(100.0, -100.0)) < 1e-9);
        let bulge = -(std::f64::consts::PI / 8.0).tan();
        let quarter = Arc::bulging(DVec2::new(0.0, 100.0), DVec2::new(100.0, 0.0), bulge).unwrap();
        assert!(quarter.centre.distance(DVec2::ZERO) < 1e-9, "{quarter:?}");
        assert!(quarter.at(quarter.from + quarter.sweep).distance(DVec2::new(100.0, 0.0)) < 1e-9);
        assert_eq!(Arc::bulging(DVec2::ZERO, DVec2::X, 0.0), None);
    }

    #[test]
    fn placings_follow_one_another() {
        let turned = Placing { x: DVec2::Y, y: DVec2::NEG_X, at: DVec2::new(10.0, 0.0) };
        let both = turned.after(&Placing::MIRRORED);
        let p = DVec2::new(3.0, 4.0);
        assert_eq!(both.point(p), turned.point(Placing::MIRRORED.point(p)));
        assert_eq!(Placing::SAME.after(&both), both);
    }
}
