//! What may not share area: convex pieces of what stays, and convex pieces of what moves with the car.

use baywright_geometry::{Bounds, DVec2, Outline};

/// A polygon that stands for something round lies outside it by this at most, mm: of both it is less than [`super::BAND_MM`].
const ROUND_MM: f64 = 0.4;

/// The convex rings of an outline, a little outside of what is round.
pub(super) fn rings(outline: &Outline) -> Vec<Vec<DVec2>> {
    match outline {
        Outline::Circle(circle) => vec![circle.circumscribed_within(ROUND_MM).outer().to_vec()],
        Outline::Polygon(polygon) => polygon.pieces().map(<[DVec2]>::to_vec).collect(),
    }
}

/// A part of the set-up that may not meet something, vehicle frame.
#[derive(Clone, Debug)]
pub(super) struct Barred {
    /// A convex ring, a line of two points, or a point.
    pub ring: Vec<DVec2>,
    /// Whether it surely stops where the two share more than a hair; else it may.
    pub sure: bool,
}

impl Barred {
    /// Of an outline, all of its rings.
    pub(super) fn of(outline: &Outline) -> impl Iterator<Item = Self> {
        rings(outline).into_iter().map(|ring| Self { ring, sure: true })
    }
}

/// One convex ring that stays, bay frame, and one of the set-up.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair {
    /// Its position among those that stay.
    pub stays: usize,
    /// Its position among those that move.
    pub moves: usize,
    /// Whether it surely stops where they meet.
    pub sure: bool,
}

/// All of them, each ring once.
#[derive(Clone, Debug, Default)]
pub(super) struct Pairs {
    /// What stays, with a box around it.
    pub stays: Vec<(Vec<DVec2>, Bounds)>,
    /// What moves, vehicle frame.
    pub moves: Vec<Vec<DVec2>>,
    pub all: Vec<Pair>,
}

impl Pairs {
    /// Something that stays, against all of the set-up that it bars.
    pub(super) fn add(&mut self, stays: &[Vec<DVec2>], mut bars: Vec<Barred>) {
        // Of two, one in the other, the larger is enough.
        let mut kept: Vec<Barred> = Vec::new();
        bars.sort_by_key(|own| !own.sure);
        for (index, own) in bars.iter().enumerate() {
            let is_within = |other: &Barred| (other.sure || !own.sure) && holds(&other.ring, &own.ring);
            let later = bars.iter().skip(index + 1).any(|other| is_within(other) && !holds(&own.ring, &other.ring));
            if !later && !kept.iter().any(is_within) {
                kept.push(own.clone());
            }
        }
        for ring in stays {
            let Some(bounds) = Bounds::around(ring.iter().copied()) else { continue };
            let stays = self.stays.len();
            self.stays.push((ring.clone(), bounds));
            for Barred { ring, sure } in &kept {
                let moves = self.interned(ring);
                self.all.push(Pair { stays, moves, sure: *sure });
            }
        }
    }

    fn interned(&mut self, ring: &Vec<DVec2>) -> usize {
        let known = self.moves.iter().position(|own| own == ring);
        known.unwrap_or_else(|| {
            self.moves.push(ring.clone());
            self.moves.len() - 1
        })
    }
}

/// Whether a convex ring holds all of another, or of a line or point.
fn holds(ring: &[DVec2], inner: &[DVec2]) -> bool {
    let sides = || ring.iter().zip(ring.iter().cycle().skip(1));
    ring.len() >= 3 && inner.iter().all(|p| sides().all(|(&a, &b)| (b - a).perp_dot(*p - a) >= 0.0))
}
