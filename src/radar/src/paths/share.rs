//! How much of a wave a mirror of its size sends on: one that is narrow beside the first Fresnel zone of the way, or that the way
//! grazes, is an opening in a screen for the image behind it.

use baywright_geometry::{DVec3, Wavelength};

use super::mirror::Mirror;
use super::way::Way;
use crate::fresnel_integral::fresnel;

impl Way {
    /// The share of the power that comes by this way, against mirrors without end: 1 for wide ones, a quarter for one whose edge the
    /// way just touches, up to 1.37 beside one edge, and more between two. `from` is where the way begins; `mirrors` are the room's.
    ///
    /// Each mirror is the opening through which its image is seen (Babinet and Huygens with the parabolic phase, as in Recommendation
    /// ITU-R P.526, section 4): ¼ ΔF² for each of its directions, ΔF² = (C(b) - C(a))² + (S(b) - S(a))², a and b its edges across the
    /// ray times √(2 (d₁ + d₂)/(λ d₁ d₂)), d₁ and d₂ the ways to it and on from it. For mirrors seen not too obliquely in both
    /// directions at once, as the mixed term of the phase is left out: exact where the ray runs across one of the sides. For several
    /// mirrors the product. `None` if a mirror is not there, or a way has no length.
    pub fn share(&self, from: DVec3, mirrors: &[Mirror], wave: Wavelength) -> Option<f64> {
        let (mut at, mut gone, mut share) = (from, 0.0, 1.0);
        for bounce in &self.bounces {
            let mirror = mirrors.get(bounce.mirror)?;
            let ray = (bounce.at - at).try_normalize()?;
            gone += bounce.at.distance(at);
            at = bounce.at;
            let left = self.length_mm - gone;
            if !(gone > 0.0 && left > 0.0) {
                return None;
            }
            let scale = libm::sqrt(2.0 * (gone + left) / (wave.mm() * gone * left));
            let own = bounce.at - mirror.face.centre();
            for (axis, half) in [
                (mirror.face.left(), 0.5 * mirror.face.width()),
                (mirror.face.up(), 0.5 * mirror.face.height()),
            ] {
                let across = (axis - ray * ray.dot(axis)).length() * scale;
                let middle = own.dot(axis);
                let (a, b) = (fresnel((-half - middle) * across), fresnel((half - middle) * across));
                let (c, s) = (b.c - a.c, b.s - a.s);
                share *= 0.5 * (c * c + s * s);
            }
        }
        Some(share)
    }
}
