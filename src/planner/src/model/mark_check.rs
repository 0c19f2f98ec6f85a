//! The history of a mark that stays: what was measured when it was checked, and where that puts it.

use baywright_geometry::DVec2;
use jiff::civil::Date;

use super::{Bay, Id, PermanentMark};

/// So many times a mark may have been checked.
pub const MOST_CHECKS: usize = 100;

/// One check of a mark: its distances from two things that stay.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkCheck {
    /// On which day.
    pub on: Date,
    /// By whom, if that was said.
    pub who: Option<Id>,
    /// With which instrument of the shop, by its name.
    pub with: Option<Id>,
    /// What was read.
    pub read: [CheckRead; 2],
}

/// A distance of a mark from something that stays.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckRead {
    /// From what.
    pub from: CheckFrom,
    /// How far, mm, 10 to 100 000; from a wall square to it.
    pub read_mm: f64,
}

/// What a mark is checked from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CheckFrom {
    /// The face of a wall of the bay.
    Wall(Id),
    /// Another mark that stays.
    Mark(Id),
}

/// Where a check puts a mark: bay frame, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CheckedAt {
    /// Where.
    pub at: DVec2,
    /// The direction in which each distance grows there, of length 1.
    pub grows: [DVec2; 2],
}

/// Two directions this near to one line do not cross in a point that anybody could tell: sine of 3° (common practice, no source).
const FLAT: f64 = 0.052;

/// Where a check puts a mark, of two places the one nearer to where it is entered. `None` if a wall or a mark that it names is not
/// there, if what was read does not meet, or meets too flat to say where.
pub fn checked_at(bay: &Bay, mark: &PermanentMark, check: &MarkCheck) -> Option<CheckedAt> {
    let [one, other] = [line_or_circle(bay, &check.read[0])?, line_or_circle(bay, &check.read[1])?];
    let both = one.meets(&other);
    let nearest = |a: &DVec2, b: &DVec2| a.distance(mark.at).total_cmp(&b.distance(mark.at));
    let at = both.into_iter().flatten().min_by(nearest)?;
    let grows = [one.grows(at)?, other.grows(at)?];
    (grows[0].perp_dot(grows[1]).abs() > FLAT).then_some(CheckedAt { at, grows })
}

/// All places so far from something.
enum Locus {
    /// Beside a wall: a point of it, and the direction square to it into the room.
    Line(DVec2, DVec2),
    /// Around a mark: its middle, and how far.
    Circle(DVec2, f64),
}

fn line_or_circle(bay: &Bay, read: &CheckRead) -> Option<Locus> {
    match &read.from {
        CheckFrom::Wall(id) => {
            let wall = bay.walls.iter().position(|own| own.id == *id)?;
            let (from, to) = bay.wall_ends(wall)?;
            // The room lies to the left of each of its edges.
            let inward = (to - from).perp().try_normalize()?;
            Some(Locus::Line(from + inward * read.read_mm, inward))
        }
        CheckFrom::Mark(id) => {
            let other = bay.marks.iter().find(|own| own.id == *id)?;
            Some(Locus::Circle(other.at, read.read_mm))
        }
    }
}

impl Locus {
    fn grows(&self, at: DVec2) -> Option<DVec2> {
        match self {
            Self::Line(_, inward) => Some(*inward),
            Self::Circle(middle, _) => (at - *middle).try_normalize(),
        }
    }

    fn meets(&self, other: &Self) -> [Option<DVec2>; 2] {
        match (self, other) {
            (Self::Line(p, n), Self::Line(q, m)) => {
                let (along, sine) = (n.perp(), n.perp_dot(*m));
                let on = (*q - *p).dot(*m) / along.dot(*m);
                [(sine != 0.0).then(|| *p + along * on), None]
            }
            (Self::Line(p, n), Self::Circle(middle, far)) | (Self::Circle(middle, far), Self::Line(p, n)) => {
                let foot = *middle + *n * (*p - *middle).dot(*n);
                chord(foot, n.perp(), far * far - foot.distance_squared(*middle))
            }
            (Self::Circle(a, r), Self::Circle(b, s)) => {
                let between = *b - *a;
                let Some(way) = between.try_normalize() else { return [None, None] };
                let far = between.length();
                let on = (far * far + r * r - s * s) / (2.0 * far);
                chord(*a + way * on, way.perp(), r * r - on * on)
            }
        }
    }
}

/// Both ends of a chord by its middle and the square of its half.
fn chord(middle: DVec2, way: DVec2, half_squared: f64) -> [Option<DVec2>; 2] {
    let half = (half_squared >= 0.0).then(|| half_squared.sqrt());
    [half.map(|half| middle + way * half), half.map(|half| middle - way * half)]
}
