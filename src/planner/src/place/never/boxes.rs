//! Boxes of places and headings, and by how much two solids meet at every pose of one.

use baywright_geometry::{DVec2, PlanPose, angle};

use super::solid::Convex;
use super::{mm, towards};
use crate::never::{Area, ROUND_UDEG};

/// Of so many corners it is asked whether one alone lies inside; of more it is not told of the others.
const MOST_AT_ONCE: usize = 32;

/// A turn moves the ends of a car by so much, a radian, mm.
const LEVER_MM: f64 = 3_000.0;

/// A box of places and headings, in the units of a proof.
#[derive(Clone, Copy, Debug)]
pub(super) struct Boxed {
    pub places: Area,
    pub headings: [i64; 2],
}

fn halfway([from, to]: [i64; 2]) -> i64 {
    from + (to - from) / 2
}

impl Boxed {
    /// Its middle alone.
    pub(super) fn middle(&self) -> Self {
        let only = |own: [i64; 2]| [halfway(own); 2];
        Self {
            places: Area { x: only(self.places.x), y: only(self.places.y) },
            headings: only(self.headings),
        }
    }

    /// The pose of its lower ends: of a middle alone, that.
    pub(super) fn pose(&self) -> PlanPose {
        let Area { x: [x, _], y: [y, _] } = self.places;
        let [heading, _] = self.headings;
        PlanPose::new(DVec2::new(mm(x), mm(y)), angle::wrapped(angle::radians(heading as f64 * 1e-6)))
    }

    fn with(mut self, along: usize, own: [i64; 2]) -> Self {
        match along {
            0 => self.places.x = own,
            1 => self.places.y = own,
            _ => self.headings = own,
        }
        self
    }

    const fn along(&self, along: usize) -> [i64; 2] {
        match along {
            0 => self.places.x,
            1 => self.places.y,
            _ => self.headings,
        }
    }

    /// Both halves; `None` if it is too small to have any.
    pub(super) fn halves(&self, along: usize) -> Option<[Self; 2]> {
        let own @ [from, to] = self.along(along);
        let middle = halfway(own);
        (from < middle && middle < to)
            .then(|| [self.with(along, [from, middle]), self.with(along, [middle, to])])
    }

    /// How large it is, for shares of it.
    pub(super) fn size(&self) -> f64 {
        (0..3).map(|along| self.along(along)).map(|[from, to]| (to - from) as f64).product()
    }

    /// How long it is along x or y, mm, or in heading by what a turn moves.
    pub(super) fn extent(&self, along: usize) -> f64 {
        let [from, to] = self.along(along);
        if along < 2 { mm(to - from) } else { angle::radians((to - from) as f64 * 1e-6) * LEVER_MM }
    }

    /// How far a point so far from the vehicle's origin is at the most from where it is at the middle, mm.
    pub(super) fn moves_by(&self, from_origin: f64) -> f64 {
        let half = |along: usize| {
            let [from, to] = self.along(along);
            mm(to - from) * 0.5 + mm(1)
        };
        let [from, to] = self.headings;
        let turn = angle::radians((to - from) as f64 * 0.5e-6).min(std::f64::consts::PI);
        DVec2::new(half(0), half(1)).length() + 2.0 * from_origin * angle::sin_cos(turn * 0.5).0
    }
}

/// How far inside a side a corner of the other lies at its worst pose of a box, mm.
pub(super) struct Inside {
    turns: Turns,
    middle: DVec2,
    half: DVec2,
    corners: [DVec2; 4],
}

impl Inside {
    pub(super) fn new(own: &Boxed) -> Self {
        let [from, to] = own.headings;
        let turns = Turns { from: towards(from), to: towards(to), is_half: to - from >= ROUND_UDEG / 2 };
        let Area { x, y } = own.places;
        let (low, high) = (DVec2::new(mm(x[0]), mm(y[0])), DVec2::new(mm(x[1]), mm(y[1])));
        let corners = [low, high, DVec2::new(low.x, high.y), DVec2::new(high.x, low.y)];
        Self { turns, middle: (low + high) * 0.5, half: (high - low) * 0.5, corners }
    }

    /// By how much a part of the set-up and what stands are in one another at least, mm, at every pose of the box.
    ///
    /// Two convex outlines are apart only if they are across a side of one of them. Across a side, how far a corner of the other
    /// lies inside of it is asked at its worst pose, and the corner that is farthest inside counts. Of what is large and turned a
    /// little that says too little: there one corner that stays inside of the other says it all.
    pub(super) fn meets_by(&self, part: &Convex, other: &Convex) -> f64 {
        let of_other = deepest(&part.ring, &other.sides, |side, p| self.of_other(side, p));
        let of_part = deepest(&other.ring, &part.sides, |side, q| self.of_part(side, q));
        of_other.across.min(of_part.across).max(of_other.one).max(of_part.one)
    }

    /// A side of what stands and a corner of the set-up: the line turned against the corner is the corner turned against the line.
    fn of_other(&self, (out, lies): (DVec2, f64), p: DVec2) -> f64 {
        let moved = out.dot(self.middle) + out.abs().dot(self.half);
        lies - moved - self.turns.most(DVec2::new(out.dot(p), p.perp_dot(out)))
    }

    /// A side of the set-up and a corner of what stands.
    fn of_part(&self, (out, lies): (DVec2, f64), q: DVec2) -> f64 {
        let from = |t: &DVec2| self.turns.most(DVec2::new(out.dot(q - *t), out.perp_dot(q - *t)));
        lies - self.corners.iter().map(from).fold(f64::MIN, f64::max)
    }
}

/// How far inside sides corners are at their worst.
struct Deepest {
    /// Across each side the corner that is farthest inside, of the side where that is the least, mm.
    across: f64,
    /// Of the one corner that is farthest inside of all sides, mm.
    one: f64,
}

fn deepest(ring: &[DVec2], sides: &[(DVec2, f64)], inside: impl Fn((DVec2, f64), DVec2) -> f64) -> Deepest {
    let mut found = Deepest { across: f64::MAX, one: f64::MIN };
    let mut each = [f64::MAX; MOST_AT_ONCE];
    for &side in sides {
        let mut most = f64::MIN;
        for (nth, &p) in ring.iter().enumerate() {
            let by = inside(side, p);
            most = most.max(by);
            if let Some(own) = each.get_mut(nth) {
                *own = own.min(by);
            }
        }
        found.across = found.across.min(most);
    }
    found.one = each.iter().take(ring.len()).copied().fold(f64::MIN, f64::max);
    found
}

/// Some headings.
struct Turns {
    from: DVec2,
    to: DVec2,
    is_half: bool,
}

impl Turns {
    /// How far something reaches at the most along a line that turns through all of them.
    fn most(&self, along: DVec2) -> f64 {
        // Of one heading alone what points the other way lies between its ends too, but for this.
        let is_ahead = along.dot(self.from) + along.dot(self.to) >= 0.0;
        let points_between = is_ahead && self.from.perp_dot(along) >= 0.0 && along.perp_dot(self.to) >= 0.0;
        if self.is_half || points_between {
            return along.length();
        }
        along.dot(self.from).max(along.dot(self.to))
    }
}
