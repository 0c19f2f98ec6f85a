//! What mirrors and what hides in a room, and the ways through it.

use baywright_geometry::{DVec3, LineOfSight, Prism, first_blocker};

use super::mirror::Mirror;
use super::way::{Bounce, Way};

/// A way leaves a mirror so far before its face when it is asked what hides it, so that the rounding of the face's own thing does
/// not: a hundredth of a millimetre, far below what is measured in a bay.
const BEFORE_MM: f64 = 0.01;

/// What mirrors and what hides.
///
/// Every mirror hides what is behind it, too. The thing that carries the sensor (the car) and the thing that *is* the target are
/// left out of `blockers`, as a place inside a thing is seen from nowhere.
#[derive(Clone, Copy, Debug)]
pub struct Room<'a> {
    /// Flat faces that mirror: walls, doors, sides and tops of cabinets, floor, ceiling.
    pub mirrors: &'a [Mirror],
    /// Things that a wave does not pass.
    pub blockers: &'a [&'a Prism],
    /// Ways longer than this, one way, mm, are not followed: what the sensor's own range leaves of them.
    pub longest_mm: f64,
}

impl Room<'_> {
    /// The straight way; `None` if it is hidden, too long, or has no length.
    pub fn direct(&self, from: DVec3, to: DVec3) -> Option<Way> {
        let way = Way::straight(from, to)?;
        (way.length_mm <= self.longest_mm && self.is_clear(from, to)).then_some(way)
    }

    /// Every way by one mirror, in the order of the mirrors. From a place to itself it is there and back along the perpendicular.
    /// For `n` mirrors that is `n` short questions, and one of clearness for each that is answered by a place on the mirror.
    pub fn singles(&self, from: DVec3, to: DVec3) -> Vec<Way> {
        self.mirrors
            .iter()
            .enumerate()
            .filter_map(|(nth, mirror)| self.single(nth, mirror, from, to))
            .collect()
    }

    /// Every way by two different mirrors, ordered by the first of them, then by the second: [`Room::doubles_from`] for each first.
    ///
    /// From a place to itself each way is found in both directions. Two faces that meet at a right angle send a wave back from
    /// their common edge alone: that is no way by two mirrors but the echo of a dihedral.
    pub fn doubles(&self, from: DVec3, to: DVec3) -> Vec<Way> {
        (0..self.mirrors.len()).flat_map(|first| self.doubles_from(first, from, to)).collect()
    }

    /// Every way by two different mirrors whose first one is `first`: a slow answer can be stopped between firsts.
    pub fn doubles_from(&self, first: usize, from: DVec3, to: DVec3) -> Vec<Way> {
        let Some(one) = self.mirrors.get(first) else { return vec![] };
        let Some(from_off) = one.off(from) else { return vec![] };
        let image = one.image(from, from_off);
        let longest_squared = self.longest_mm * self.longest_mm;
        let mut found = Vec::new();
        for (second, other) in self.mirrors.iter().enumerate() {
            let Some(to_off) = other.off(to) else { continue };
            let image_off = other.face.in_front(image);
            // On one side of the second mirror, and not too far: both images' way there is as long as that to the second image.
            let squared = image.distance_squared(to) + 4.0 * image_off * to_off;
            if second == first || !(image_off * to_off > 0.0 && squared <= longest_squared) {
                continue;
            }
            if !other.reaches_before(&one.face, from_off) || !one.reaches_before(&other.face, to_off) {
                continue;
            }
            let Some(last) = other.touched(image, image_off, to, to_off) else { continue };
            let Some(last_off) = one.off(last).filter(|off| off * from_off > 0.0) else { continue };
            let Some(at) = one.touched(from, from_off, last, last_off) else { continue };
            found.extend(self.way(from, &[(first, at), (second, last)], to, squared.sqrt()));
        }
        found
    }

    fn single(&self, nth: usize, mirror: &Mirror, from: DVec3, to: DVec3) -> Option<Way> {
        let (from_off, to_off) = (mirror.off(from)?, mirror.off(to)?);
        let length = (from.distance_squared(to) + 4.0 * from_off * to_off).sqrt();
        if !(from_off * to_off > 0.0 && length <= self.longest_mm) {
            return None;
        }
        let at = mirror.touched(from, from_off, to, to_off)?;
        self.way(from, &[(nth, at)], to, length)
    }

    /// The way by these places on mirrors, if every leg of it is clear.
    fn way(&self, from: DVec3, by: &[(usize, DVec3)], to: DVec3, length_mm: f64) -> Option<Way> {
        let (first, last) = (by.first()?.1, by.last()?.1);
        let (mut bounces, mut start, mut before) = (Vec::with_capacity(by.len()), from, from);
        for &(mirror, at) in by {
            let normal = self.mirrors.get(mirror)?.face.normal();
            let comes = (before - at).try_normalize()?;
            let cosine = comes.dot(normal);
            let lifted = at + normal * BEFORE_MM.copysign(cosine);
            if !self.is_clear(start, lifted) {
                return None;
            }
            bounces.push(Bounce { mirror, at, incidence: libm::acos(cosine.abs().min(1.0)) });
            (start, before) = (lifted, at);
        }
        let (departs, comes_from) = ((first - from).try_normalize()?, (last - to).try_normalize()?);
        self.is_clear(start, to).then_some(Way { bounces, length_mm, departs, comes_from })
    }

    fn is_clear(&self, from: DVec3, to: DVec3) -> bool {
        if self.mirrors.iter().any(|mirror| mirror.hides(from, to, 0.5 * BEFORE_MM)) {
            return false;
        }
        matches!(first_blocker(from, to, self.blockers), LineOfSight::Clear | LineOfSight::Grazing { .. })
    }
}
