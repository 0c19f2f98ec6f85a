//! A convex solid, with what is asked of it often worked out once.

use baywright_geometry::{DVec2, PlanPose};

use super::mm;
use crate::never::Solid;

/// A convex solid in millimetres.
#[derive(Clone, Debug)]
pub(super) struct Convex {
    /// Its corners, anticlockwise.
    pub ring: Vec<DVec2>,
    /// The lines out across its sides, and how far along each the side lies.
    pub sides: Vec<(DVec2, f64)>,
    /// How far its farthest corner is from the origin of its frame, mm.
    pub reach: f64,
    low: f64,
    high: f64,
}

/// A part of the set-up as it lies at a pose.
pub(super) struct Turned {
    ring: Vec<DVec2>,
    sides: Vec<(DVec2, f64)>,
}

impl Convex {
    pub(super) fn of(solid: &Solid) -> Self {
        let ring: Vec<DVec2> = solid.ring.iter().map(|&[x, y]| DVec2::new(mm(x), mm(y))).collect();
        let next = ring.iter().cycle().skip(1);
        let side = |(a, b): (&DVec2, &DVec2)| {
            let out = -(*b - *a).normalize_or_zero().perp();
            (out, out.dot(*a))
        };
        let sides = ring.iter().zip(next).map(side).collect();
        let [low, high] = solid.heights.map(mm);
        let reach = ring.iter().map(|p| p.length()).fold(0.0, f64::max);
        Self { ring, sides, reach, low, high }
    }

    /// Whether both have heights in common.
    pub(super) fn shares_height(&self, other: &Self) -> bool {
        self.high.min(other.high) - self.low.max(other.low) >= super::MEETS_MM
    }

    /// As it lies at a pose.
    pub(super) fn turned(&self, pose: &PlanPose) -> Turned {
        let side = |&(out, lies): &(DVec2, f64)| {
            let out = pose.turned(out);
            (out, lies + out.dot(pose.origin()))
        };
        Turned {
            ring: self.ring.iter().map(|&p| *pose * p).collect(),
            sides: self.sides.iter().map(side).collect(),
        }
    }

    /// How deep it is in another as it lies at a pose, mm, and the way that parts them; `None` if they are apart.
    pub(super) fn depth_at(&self, pose: &PlanPose, other: &Self) -> Option<(f64, DVec2)> {
        let turned = self.turned(pose);
        let of_other = other.sides.iter().map(|&(out, lies)| (lies - least(&turned.ring, out), out));
        let of_own = turned.sides.iter().map(|&(out, lies)| (lies - least(&other.ring, out), -out));
        of_other.chain(of_own).min_by(|a, b| a.0.total_cmp(&b.0)).filter(|own| own.0 > 0.0)
    }
}

impl Turned {
    /// How deep it is in another, mm, below 0 if they are apart; what is less than `enough` is told so, and no more.
    pub(super) fn depth_in(&self, other: &Convex, enough: f64) -> f64 {
        let mut depth = f64::MAX;
        let sides = |all: &[(DVec2, f64)], ring: &[DVec2], mut depth: f64| {
            for &(out, lies) in all {
                depth = depth.min(lies - least(ring, out));
                if depth < enough {
                    break;
                }
            }
            depth
        };
        depth = sides(&other.sides, &self.ring, depth);
        if depth < enough { depth } else { sides(&self.sides, &other.ring, depth) }
    }
}

/// How far a ring reaches against a way, mm.
fn least(ring: &[DVec2], out: DVec2) -> f64 {
    ring.iter().map(|p| out.dot(*p)).fold(f64::MAX, f64::min)
}
