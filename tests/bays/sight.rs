//! What hides a target from its sensor, and what is so near the line between them that it bends a radar's wave.

use baywright_planner::geometry::{DVec2, DVec3};

use crate::set_up::Sight;
use crate::shape::{Ring, edges, holds, nearest};
use crate::solid::Solid;

impl Sight {
    /// A point of the face, -1 to 1 each way.
    pub fn point(&self, u: f64, v: f64) -> DVec3 {
        self.centre + self.left * u + self.up * v
    }

    /// Eye and corners from above.
    pub fn plan(&self) -> Ring {
        let corners =
            [(-1.0, -1.0), (1.0, -1.0), (-1.0, 1.0), (1.0, 1.0)].map(|(u, v)| self.point(u, v).truncate());
        [&[self.eye.truncate()], corners.as_slice()].concat()
    }

    /// How many of so many points of the face, squared, a solid hides.
    pub fn hidden(&self, ring: &[DVec2], low: f64, high: f64, rays: u32) -> usize {
        let place = |i: u32| (f64::from(i) + 0.5) / f64::from(rays) * 2.0 - 1.0;
        let all = (0..rays).flat_map(|i| (0..rays).map(move |j| (i, j)));
        all.filter(|&(i, j)| self.is_cut(self.point(place(i), place(j)), ring, low, high)).count()
    }

    /// Whether the line from the eye to a point passes through a solid for a thousandth of a millimetre or more.
    fn is_cut(&self, to: DVec3, ring: &[DVec2], low: f64, high: f64) -> bool {
        let (eye, way) = (self.eye, to - self.eye);
        let mut cuts = vec![0.0, 1.0];
        for (a, b) in edges(ring) {
            let edge = b - a;
            let across = way.truncate().perp_dot(edge);
            if across != 0.0 {
                let off = a - eye.truncate();
                let (t, s) = (off.perp_dot(edge) / across, off.perp_dot(way.truncate()) / across);
                if (0.0..=1.0).contains(&t) && (0.0..=1.0).contains(&s) {
                    cuts.push(t);
                }
            }
        }
        cuts.sort_by(f64::total_cmp);
        let sliver = 1e-3 / way.length();
        cuts.windows(2).any(|pair| {
            let (from, till) = (pair[0], pair[1]);
            let middle = eye + way * ((from + till) * 0.5);
            if till - from < sliver || !holds(ring, middle.truncate()) {
                return false;
            }
            let (z0, z1) = (eye.z + way.z * from, eye.z + way.z * till);
            z0.min(z1) < high - 1e-3 && z0.max(z1) > low + 1e-3
        })
    }

    /// By how much less than half a wave longer a way over the solid is than the direct one, mm, with the solid so far off
    /// its place as it may be; `None` if it is not less.
    pub fn enters(&self, solid: &Solid, reach: f64, half_wave: f64) -> Option<f64> {
        let (eye, to) = (self.eye, self.centre);
        let direct = eye.distance(to);
        let over = |i: u32| {
            let on = eye + (to - eye) * (f64::from(i) / 200.0);
            let plan = on.truncate();
            let near = if holds(&solid.ring, plan) { plan } else { nearest(&solid.ring, plan) };
            let apart = near.distance(plan);
            let near = if apart > 0.0 { near + (plan - near) / apart * reach.min(apart) } else { near };
            let p = DVec3::new(near.x, near.y, on.z.clamp(solid.low, solid.high));
            half_wave - (eye.distance(p) + p.distance(to) - direct)
        };
        // A hundredth of a millimetre of a way is a few millimetres of the zone's edge: enough for corners between points.
        let most = (0..=200).map(over).fold(f64::NEG_INFINITY, f64::max);
        (most > 1e-4).then_some(most)
    }
}
