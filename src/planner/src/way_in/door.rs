//! The doors that a car may come through, and where before them it may start.

use baywright_geometry::way_in::Start;
use baywright_geometry::{DVec2, PlanPose, Segment, angle};

use super::body::Body;
use crate::check::{GOES_OVER_MM, TooSmall};
use crate::model::{Arrangement, Id, Opening, OpeningKind};

/// As deep a wall is taken to be beside a door, mm (common practice, no source).
pub(super) const WALL_MM: f64 = 250.0;
/// So far before the wall's outer side a way starts at least, mm (our own choice).
const BEFORE_MM: f64 = 300.0;
/// So much more ground than the car's own length is taken as free before a door, mm (our own choice).
const MORE_GROUND_MM: f64 = 2_500.0;
/// How far askew the car may start before a door, degrees: the ground there is taken as free, so that it comes up as it likes.
pub(super) const ASKEW_DEG: [f64; 7] = [0.0, 15.0, -15.0, 30.0, -30.0, 45.0, -45.0];
/// And how far from the door's middle, as a share of what the door has to spare.
pub(super) const ASIDE: [f64; 3] = [0.0, 0.35, -0.35];

/// A door that the car may come through.
#[derive(Clone, Debug)]
pub(super) struct Door {
    pub id: Id,
    /// The wall it is in, by position.
    pub wall: usize,
    /// Along the wall, the inside on its left.
    pub line: Segment,
    /// Outwards, of length 1.
    pub out: DVec2,
    /// It is shut now, or kept shut while this is aimed.
    pub is_shut: bool,
}

/// What of a door is too small for a car.
#[derive(Clone, Debug)]
pub(super) struct Lack {
    pub door: Id,
    pub of: TooSmall,
    pub mm: f64,
}

/// What most is missing of a door for the car to pass it at all, above nought if it is more than the walls' places are unsure by.
pub(super) fn lack(arrangement: &Arrangement, door: &Opening, body: &Body) -> Option<Lack> {
    let all = [
        (TooSmall::Narrow, body.least_width_mm() - door.width_mm),
        (TooSmall::Low, body.top_mm() - door.span.top()),
        (TooSmall::Sill, door.span.bottom() - GOES_OVER_MM),
    ];
    let (of, mm) = all.into_iter().max_by(|a, b| a.1.total_cmp(&b.1))?;
    let unsure =
        if of == TooSmall::Sill { 0.0 } else { arrangement.shop.within(arrangement.bay.walls_known) };
    (mm > unsure).then(|| Lack { door: door.id.clone(), of, mm })
}

/// The openings that a car could come through at all: no windows.
pub(super) fn openings(arrangement: &Arrangement) -> impl Iterator<Item = &Opening> {
    arrangement.bay.openings.iter().filter(|own| own.kind != OpeningKind::Window)
}

impl Door {
    pub fn of(arrangement: &Arrangement, opening: &Opening) -> Option<Self> {
        let line = arrangement.bay.opening_line(opening)?;
        let out = -(line.to - line.from).normalize_or_zero().perp();
        let is_shut = !opening.is_open() || arrangement.kept_shut.contains(&opening.id);
        Some(Self { id: opening.id.clone(), wall: opening.wall, line, out, is_shut })
    }

    /// The ground before it that is taken as free, and the door itself.
    pub fn ground(&self, body: &Body) -> Vec<DVec2> {
        let length = body.bounds().size().x;
        let along = (self.line.to - self.line.from).normalize_or_zero() * length;
        // A little way into the room, so that both are one.
        let (near, far) = (-self.out, self.out * (WALL_MM + BEFORE_MM + length + MORE_GROUND_MM));
        let (from, to) = (self.line.from - along, self.line.to + along);
        vec![from + near, from + far, to + far, to + near]
    }

    /// Where a way may start: so far askew before the door, nose first and tail first.
    pub fn starts(&self, body: &Body, keep_mm: f64, askew_deg: &[f64]) -> Vec<Start> {
        let inward = angle::heading(-self.out);
        let ways = [true, false].into_iter().flat_map(|nose| {
            let both = askew_deg.iter().flat_map(|&askew| ASIDE.into_iter().map(move |aside| (askew, aside)));
            both.map(move |(askew, aside)| (nose, askew, aside))
        });
        ways.filter_map(|(nose, askew, aside)| {
            let heading = inward + angle::radians(askew) + if nose { 0.0 } else { std::f64::consts::PI };
            let pose = self.before(body, heading, aside, WALL_MM + BEFORE_MM.max(keep_mm + 1.0))?;
            Some(Start { pose, sill: self.line })
        })
        .collect()
    }

    /// The car standing square in the door's middle, or aside of it, just inside of it.
    pub fn just_inside(&self, body: &Body, aside: f64, nose: bool, keep_mm: f64) -> Option<PlanPose> {
        let inward = angle::heading(-self.out);
        let heading = inward + if nose { 0.0 } else { std::f64::consts::PI };
        let length = body.bounds().size().x;
        self.before(body, heading, aside, -(length + keep_mm + 1.0))
    }

    /// A pose in which the car's axis runs through the door, and its nearest corner lies so far out of the wall's inner side.
    fn before(&self, body: &Body, heading: f64, aside: f64, out_mm: f64) -> Option<PlanPose> {
        let turned = PlanPose::new(DVec2::ZERO, heading);
        let way = if turned.forward().dot(self.out) < 0.0 { turned.forward() } else { -turned.forward() };
        let nearest = body.corners().map(|p| (turned * p).dot(self.out)).fold(f64::INFINITY, f64::min);
        let spare = (self.line.length() - body.bounds().size().y).max(0.0);
        let through =
            self.line.at(0.5) + (self.line.to - self.line.from).normalize_or_zero() * (spare * aside);
        let steep = -way.dot(self.out);
        let back = (out_mm - nearest) / steep;
        (steep > 0.1 && back.is_finite()).then(|| PlanPose::new(through - way * back, heading))
    }
}
