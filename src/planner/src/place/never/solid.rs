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
    low: f64,
    high: f64,
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
        Self { ring, sides, low, high }
    }

    /// Whether both have heights in common.
    pub(super) fn shares_height(&self, other: &Self) -> bool {
        self.high.min(other.high) - self.low.max(other.low) >= super::MEETS_MM
    }

    /// How deep it is in another as it lies at a pose, mm, and the way that parts them; `None` if they are apart.
    pub(super) fn depth_at(&self, pose: &PlanPose, other: &Self) -> Option<(f64, DVec2)> {
        let turned: Vec<DVec2> = self.ring.iter().map(|&p| *pose * p).collect();
        let least = |ring: &[DVec2], out: DVec2| ring.iter().map(|p| out.dot(*p)).fold(f64::MAX, f64::min);
        let of_other = other.sides.iter().map(|&(out, lies)| (lies - least(&turned, out), out));
        let of_own = self.sides.iter().map(|&(out, lies)| {
            let out = pose.turned(out);
            (lies + out.dot(pose.origin()) - least(&other.ring, out), -out)
        });
        of_other.chain(of_own).min_by(|a, b| a.0.total_cmp(&b.0)).filter(|own| own.0 > 0.0)
    }
}
