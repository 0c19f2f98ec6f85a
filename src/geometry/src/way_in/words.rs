//! Ways of arcs at full lock and straights from one pose to another, where nothing stands.
//!
//! The families of Reeds and Shepp 1990 (forwards and backwards), and of Dubins 1957 (one gear), which are the same words
//! with every
//! arc run in that gear; and one of our own: a straight, an arc, a straight. The formulas are from memory; a word is used
//! only after it was driven and ends where it should
//! ([`Word::pieces`]), so that a slip in one of them loses a way and never makes a wrong one.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use glam::DVec2;

use crate::angle::{sin_cos, wrapped};
use crate::frame::PlanPose;
use crate::way_in::drive::{Piece, changes};

/// How far from the goal a word may end, mm and radians: what rounding makes of it.
const ENDS_WITHIN: (f64, f64) = (1e-5, 1e-9);

/// Up to five pieces: which way is steered (1 left, -1 right, 0 straight) and how far, in radii.
#[derive(Clone, Copy, Debug)]
pub(super) struct Word {
    steps: [(f64, f64); 5],
    radius: f64,
}

impl Word {
    /// How long, mm.
    pub fn length(&self) -> f64 {
        self.steps.iter().map(|s| s.1.abs()).sum::<f64>() * self.radius
    }

    fn driven(&self) -> impl Iterator<Item = Piece> + '_ {
        let piece =
            |&(steer, far): &(f64, f64)| Piece { curvature: steer / self.radius, length: far * self.radius };
        self.steps.iter().map(piece).filter(|piece| piece.length.abs() > 1e-6)
    }

    /// How often it changes between forwards and backwards.
    pub fn changes(&self) -> usize {
        changes(self.driven())
    }

    /// In which gear it starts.
    pub fn starts_forwards(&self) -> bool {
        self.driven().next().is_none_or(|piece| piece.is_forwards())
    }

    /// Its pieces, if it leads from the one pose of the rear axle to the other.
    pub fn pieces(&self, from: &PlanPose, to: &PlanPose) -> Option<Vec<Piece>> {
        let pieces: Vec<Piece> = self.driven().collect();
        let end = pieces.iter().fold(*from, |pose, piece| piece.end(&pose));
        let off = (end.origin().distance(to.origin()), wrapped(end.heading() - to.heading()).abs());
        (off.0 < ENDS_WITHIN.0 && off.1 < ENDS_WITHIN.1).then_some(pieces)
    }
}

/// All words from one pose of the rear axle to another, in no order.
pub(super) fn all(from: &PlanPose, to: &PlanPose, radius: f64) -> Vec<Word> {
    let local = from.inverse() * *to;
    let (at, turn) = (local.origin() / radius, wrapped(local.heading()));
    let mut words = Vec::with_capacity(120);
    for (x, y, phi, gear, side) in [
        (at.x, at.y, turn, 1.0, 1.0),
        (-at.x, at.y, -turn, -1.0, 1.0),
        (at.x, -at.y, -turn, 1.0, -1.0),
        (-at.x, -at.y, turn, -1.0, -1.0),
    ] {
        let mut put = |steps: [(f64, f64); 5]| {
            let steps = steps.map(|(steer, far)| (steer * side, far * gear));
            words.push(Word { steps, radius });
            if let Some(same) = in_one_gear(&steps, gear) {
                words.push(Word { steps: same, radius });
            }
        };
        let target = Target::new(x, y, phi);
        target.forwards(&mut put);
        let (sin, cos) = target.turn;
        let back = Target::new(x * cos + y * sin, x * sin - y * cos, phi);
        back.reversible(&mut |steps: [(f64, f64); 5]| {
            let mut turned = steps;
            turned.reverse();
            put(turned);
        });
        target.reversible(&mut put);
        if gear > 0.0 && side > 0.0 {
            target.round_a_corner(&mut put);
        }
    }
    words
}

/// The same word with every arc run in one gear, if its straights are.
fn in_one_gear(steps: &[(f64, f64); 5], gear: f64) -> Option<[(f64, f64); 5]> {
    if steps.iter().any(|&(steer, far)| steer == 0.0 && far * gear < 0.0) {
        return None;
    }
    let run = |(steer, far): (f64, f64)| {
        let turned = if steer != 0.0 && far * gear < 0.0 { far + gear * TAU } else { far };
        (steer, turned)
    };
    let same = steps.map(run);
    (same != *steps).then_some(same)
}

const L: f64 = 1.0;
const R: f64 = -1.0;
const S: f64 = 0.0;
const NONE: (f64, f64) = (S, 0.0);

/// Where a car at the origin, heading along x, has to be, in radii.
struct Target {
    phi: f64,
    turn: (f64, f64),
    /// The place less that of a goal reached by a last turn to the left, and to the right.
    left: DVec2,
    right: DVec2,
}

impl Target {
    fn new(x: f64, y: f64, phi: f64) -> Self {
        let (sin, cos) = sin_cos(phi);
        let left = DVec2::new(x - sin, y - 1.0 + cos);
        Self { phi, turn: (sin, cos), left, right: DVec2::new(x + sin, y - 1.0 - cos) }
    }

    /// One arc between the straights of both headings, as one drives round a corner.
    fn round_a_corner(&self, put: &mut impl FnMut([(f64, f64); 5])) {
        let (sin, cos) = self.turn;
        if sin.abs() < 1e-6 {
            return;
        }
        // To where the two lines cross, and from there on.
        let at = DVec2::new(self.left.x + sin, self.left.y + 1.0 - cos);
        let (before, after) = (at.x - at.y * cos / sin, at.y / sin);
        for (steer, turn) in [(L, self.phi), (R, -self.phi)] {
            let tangent = steer * libm::tan(0.5 * self.phi);
            put([(S, before - tangent), (steer, turn), (S, after - tangent), NONE, NONE]);
        }
    }

    /// The families that are their own reverse.
    fn forwards(&self, put: &mut impl FnMut([(f64, f64); 5])) {
        let phi = self.phi;
        let heading = |p: DVec2| libm::atan2(p.y, p.x);
        // C S C
        let t = heading(self.left);
        put([(L, t), (S, self.left.length()), (L, wrapped(phi - t)), NONE, NONE]);
        let squared = self.right.length_squared();
        if squared >= 4.0 {
            let u = libm::sqrt(squared - 4.0);
            let t = wrapped(heading(self.right) + libm::atan2(2.0, u));
            put([(L, t), (S, u), (R, wrapped(t - phi)), NONE, NONE]);
        }
        // C C | C C
        let rho = 0.25 * (2.0 + libm::sqrt(squared));
        if rho <= 1.0 {
            let u = libm::acos(rho);
            let (t, v) = self.two_arcs(u, -u);
            put([(L, t), (R, u), (L, -u), (R, v), NONE]);
        }
        // C | C C | C
        let rho = (20.0 - squared) / 16.0;
        if (0.0..=1.0).contains(&rho) {
            let u = -libm::acos(rho);
            let (t, v) = self.two_arcs(u, u);
            put([(L, t), (R, u), (L, u), (R, v), NONE]);
        }
        // C | C S C | C
        if squared >= 4.0 {
            let u = 4.0 - libm::sqrt(squared - 4.0);
            let (xi, eta) = (self.right.x, self.right.y);
            let t = libm::atan2((4.0 - u) * xi - 2.0 * eta, -2.0 * xi + (u - 4.0) * eta);
            put([(L, t), (R, -FRAC_PI_2), (S, u), (L, -FRAC_PI_2), (R, wrapped(t - phi))]);
        }
    }

    /// The families that differ from their reverse.
    fn reversible(&self, put: &mut impl FnMut([(f64, f64); 5])) {
        let phi = self.phi;
        // C | C C, and C C | C, C C C
        let far = self.left.length();
        let theta = libm::atan2(self.left.y, self.left.x);
        if far <= 4.0 {
            let u = -2.0 * libm::asin(0.25 * far);
            let t = wrapped(theta + 0.5 * u + PI);
            put([(L, t), (R, u), (L, wrapped(phi - t + u)), NONE, NONE]);
        }
        // C | C S C
        if far >= 2.0 {
            let r = libm::sqrt(far * far - 4.0);
            let t = wrapped(theta + libm::atan2(r, -2.0));
            put([(L, t), (R, -FRAC_PI_2), (S, 2.0 - r), (L, wrapped(phi - FRAC_PI_2 - t)), NONE]);
        }
        let far = self.right.length();
        if far >= 2.0 {
            let t = libm::atan2(self.right.x, -self.right.y);
            put([(L, t), (R, -FRAC_PI_2), (S, 2.0 - far), (R, wrapped(t + FRAC_PI_2 - phi)), NONE]);
        }
    }

    /// First and last arc of a word of four.
    fn two_arcs(&self, u: f64, v: f64) -> (f64, f64) {
        let delta = wrapped(u - v);
        let ((sin_u, cos_u), (sin_d, cos_d), (_, cos_v)) = (sin_cos(u), sin_cos(delta), sin_cos(v));
        let (a, b) = (sin_u - sin_d, cos_u - cos_d - 1.0);
        let (xi, eta) = (self.right.x, self.right.y);
        let first = libm::atan2(eta * a - xi * b, xi * a + eta * b);
        let behind = 2.0 * (cos_d - cos_v - cos_u) + 3.0 < 0.0;
        let tau = if behind { wrapped(first + PI) } else { wrapped(first) };
        (tau, wrapped(tau - u + v - self.phi))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::angle::radians;

    fn shortest(from: &PlanPose, to: &PlanPose, most_changes: usize) -> Option<f64> {
        let words = all(from, to, 1000.0);
        let ending = words.iter().filter(|word| word.pieces(from, to).is_some());
        let lengths = ending.filter(|word| word.changes() <= most_changes).map(Word::length);
        lengths.min_by(f64::total_cmp)
    }

    #[test]
    fn what_lies_ahead_on_an_arc_is_reached_by_it() {
        let from = PlanPose::new(DVec2::new(200.0, -70.0), 0.4);
        let arc = Piece { curvature: -1e-3, length: 700.0 };
        assert!((shortest(&from, &arc.end(&from), 9).unwrap() - 700.0).abs() < 1e-6);
        let straight = Piece { curvature: 0.0, length: -900.0 };
        assert!((shortest(&from, &straight.end(&from), 9).unwrap() - 900.0).abs() < 1e-6);
    }

    /// Closed forms: on the spot by a half turn, three arcs of 60° with two changes (Reeds and Shepp); a half turn beside
    /// the start at two
    /// radii is half a circle (Dubins); on the spot without a change, 60°, 300°, 60° one after another (Dubins).
    #[test]
    fn half_turns_have_their_known_lengths() {
        let from = PlanPose::IDENTITY;
        let on_the_spot = PlanPose::new(DVec2::ZERO, PI);
        assert!((shortest(&from, &on_the_spot, 9).unwrap() - 1000.0 * PI).abs() < 1e-6);
        let beside = PlanPose::new(DVec2::new(0.0, 2000.0), PI);
        assert!((shortest(&from, &beside, 0).unwrap() - 1000.0 * PI).abs() < 1e-6);
        let round = shortest(&from, &on_the_spot, 0).unwrap();
        assert!((round - 1000.0 * radians(420.0)).abs() < 1e-6, "{round}");
    }

    /// Nearly every pose has many words, also without a change of gear, and none is shorter than straight there.
    #[test]
    fn there_is_a_word_to_everywhere() {
        let from = PlanPose::new(DVec2::new(100.0, 50.0), -0.7);
        for (i, j, k) in (0..9).flat_map(|i| (0..9).flat_map(move |j| (0..12).map(move |k| (i, j, k)))) {
            let at = DVec2::new(f64::from(i) - 4.1, f64::from(j) - 3.9) * 900.0;
            let to = PlanPose::new(at, 0.52 * f64::from(k) + 0.1);
            let ends = all(&from, &to, 1000.0).iter().filter(|w| w.pieces(&from, &to).is_some()).count();
            assert!(ends >= 12, "{ends} ways to {to:?}");
            let (any, one_gear) = (shortest(&from, &to, 9).unwrap(), shortest(&from, &to, 0).unwrap());
            let straight = from.origin().distance(at);
            assert!(straight <= any && any <= one_gear + 1e-6 && any <= straight + 1000.0 * PI * 1.6);
        }
    }
}
