//! An upright box around a plan shape: the first, cheap question before any exact one.

use glam::DVec2;

/// The smallest axis-parallel rectangle around some points. `low <= high` always.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// The corner with the smallest x and y.
    pub low: DVec2,
    /// The corner with the largest x and y.
    pub high: DVec2,
}

impl Bounds {
    /// Around the given points; `None` if there are none.
    pub fn around(points: impl IntoIterator<Item = DVec2>) -> Option<Self> {
        let mut points = points.into_iter();
        let first = points.next()?;
        Some(points.fold(Self { low: first, high: first }, |all, p| Self {
            low: all.low.min(p),
            high: all.high.max(p),
        }))
    }

    /// Around both boxes.
    pub fn union(self, other: Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }

    /// Larger by `margin` on every side; smaller if it is negative, at most down to its middle.
    pub fn grown(self, margin: f64) -> Self {
        let middle = self.centre();
        Self {
            low: (self.low - DVec2::splat(margin)).min(middle),
            high: (self.high + DVec2::splat(margin)).max(middle),
        }
    }

    /// Moved by `by`.
    pub fn moved(self, by: DVec2) -> Self {
        Self { low: self.low + by, high: self.high + by }
    }

    /// Whether the boxes share a point, edges included.
    pub fn meets(&self, other: &Self) -> bool {
        self.low.x <= other.high.x
            && other.low.x <= self.high.x
            && self.low.y <= other.high.y
            && other.low.y <= self.high.y
    }

    /// Whether the point lies in the box, edges included.
    pub fn holds(&self, p: DVec2) -> bool {
        self.low.x <= p.x && p.x <= self.high.x && self.low.y <= p.y && p.y <= self.high.y
    }

    /// A lower bound of the squared distance between what the two boxes hold; zero if they meet.
    pub fn gap_squared(&self, other: &Self) -> f64 {
        let gap = (other.low - self.high).max(self.low - other.high).max(DVec2::ZERO);
        gap.length_squared()
    }

    /// The middle.
    pub fn centre(&self) -> DVec2 {
        (self.low + self.high) * 0.5
    }

    /// Width and height.
    pub fn size(&self) -> DVec2 {
        self.high - self.low
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_shrinks_no_further_than_to_its_middle() {
        let own = Bounds { low: DVec2::ZERO, high: DVec2::new(4.0, 10.0) };
        assert_eq!(own.grown(1.0), Bounds { low: -DVec2::ONE, high: DVec2::new(5.0, 11.0) });
        assert_eq!(own.grown(-3.0), Bounds { low: DVec2::new(2.0, 3.0), high: DVec2::new(2.0, 7.0) });
    }
}
