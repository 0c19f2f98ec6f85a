//! One way of a wave from one place to another.

use baywright_geometry::DVec3;

/// Where a way touches a mirror.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounce {
    /// The mirror's position in the room's list.
    pub mirror: usize,
    /// Where, in the bay's frame, mm.
    pub at: DVec3,
    /// The angle from the mirror's normal, radians, 0 to π/2: what reflectivity goes by.
    pub incidence: f64,
}

/// A way from one place to another, straight or by mirrors.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// The mirrors that it touches, in order: none, one or two.
    pub bounces: Vec<Bounce>,
    /// How long it is, mm.
    pub length_mm: f64,
    /// The direction in which it leaves, a unit vector of the bay's frame.
    pub departs: DVec3,
    /// The direction from its end to where it comes from, a unit vector of the bay's frame.
    pub comes_from: DVec3,
}

impl Way {
    /// The same way, walked from its end: a way is as long and as clear in both directions.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            bounces: self.bounces.iter().rev().copied().collect(),
            length_mm: self.length_mm,
            departs: self.comes_from,
            comes_from: self.departs,
        }
    }

    /// Straight from one place to another; `None` if they are one, or no numbers.
    pub(crate) fn straight(from: DVec3, to: DVec3) -> Option<Self> {
        let departs = (to - from).try_normalize()?;
        Some(Self { bounces: vec![], length_mm: from.distance(to), departs, comes_from: -departs })
    }
}
