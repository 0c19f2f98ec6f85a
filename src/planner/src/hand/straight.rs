//! How far something could go straight one way until it meets something else.
//!
//! Sums are done in a frame whose x axis runs that way and whose y axis to the left of it. The leading sides of what is in
//! hand are looked at against the trailing sides of the others: over the breadth that two sides share, the distance
//! between them is a convex function of the place across, since straight sides are linear and round ones bulge towards
//! each other, so that each pair has one least distance in closed form.

use baywright_geometry::distance::{Separation, distance_to_segment};
use baywright_geometry::overlap::overlaps;
use baywright_geometry::{Bounds, DVec2, Outline, Prism, Segment, Span};

use super::{Other, What};
use crate::assessment::Subject;
use crate::check::SPEAKS_FROM_MM;
use crate::model::Arrangement;

/// A distance from what is in hand to something else.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// On what is in hand, bay frame, mm.
    pub from: DVec2,
    /// On the other, bay frame, mm.
    pub to: DVec2,
    /// Between the two, mm; more than nothing.
    pub distance_mm: f64,
    /// What the other is.
    pub what: Subject,
}

/// Two that share no more breadth than this pass each other: what the planner does not speak of does not hold up either.
const GRAZE_MM: f64 = SPEAKS_FROM_MM;
/// Two ends of a pair of sides whose distances differ by less than this lie parallel, and their distance is shown in the
/// middle: far above rounding, far below what a tape shows.
const PARALLEL_MM: f64 = 1e-6;

/// The walls of the room that it does not reach through.
pub(super) struct Walls<'a> {
    walls: Vec<(Segment, What<'a>)>,
}

impl<'a> Walls<'a> {
    /// The walls of the arrangement around what is in hand.
    pub fn around(arrangement: &'a Arrangement, own: &[Prism], bounds: &Bounds) -> Self {
        let walls = arrangement.bay.room.edges().zip(&arrangement.bay.walls);
        let passed = |edge: &Segment| {
            Bounds::around([edge.from, edge.to]).is_some_and(|b| b.meets(bounds))
                && own
                    .iter()
                    .any(|solid| distance_to_segment(&solid.outline, edge) == Separation::Overlapping)
        };
        let walls = walls.filter(|(edge, _)| !passed(edge)).map(|(edge, wall)| (edge, What::Wall(&wall.id)));
        Self { walls: walls.collect() }
    }
}

/// The leading sides of what is in hand, one way.
pub(super) struct Front<'a> {
    /// That way, of length 1, bay frame.
    way: DVec2,
    own: &'a [Prism],
    /// For each solid its heights and its leading sides.
    sides: Vec<(Span, Vec<Side>)>,
    /// The box around them, own frame.
    bounds: Bounds,
}

/// The first that is met, and where.
struct Met<'a> {
    distance: f64,
    /// On what is in hand, own frame.
    from: DVec2,
    /// `None` for a wall from outside the room: no way to be measured.
    what: Option<What<'a>>,
}

impl<'a> Front<'a> {
    /// `None` if there is nothing in hand.
    pub fn of(own: &'a [Prism], way: DVec2) -> Option<Self> {
        let bounds = own.iter().map(|solid| turned_box(&solid.outline.bounds(), way));
        let bounds = bounds.reduce(Bounds::union)?;
        let leading = |solid: &Prism| {
            let mut sides = Vec::new();
            each_side(&solid.outline, way, true, |side| sides.push(side));
            (solid.span, sides)
        };
        Some(Self { way, own, sides: own.iter().map(leading).collect(), bounds })
    }

    /// The distance to what is met first; `None` if nothing is, or it is touched already.
    pub fn first(&self, walls: &Walls<'_>, others: &[Other<'_>]) -> Option<Gap> {
        let mut met: Option<Met<'_>> = None;
        for &(wall, what) in &walls.walls {
            let (from, to) = (self.own_point(wall.from), self.own_point(wall.to));
            // The room lies to the left of its walls: one that runs to the left is met from inside.
            let what = (to.y > from.y).then_some(what);
            let (low, high) = if from.y <= to.y { (from, to) } else { (to, from) };
            if high.y - low.y > GRAZE_MM {
                for (_, sides) in &self.sides {
                    self.meet(sides, &Side::Straight { low, high }, what, &mut met);
                }
            }
        }
        for other in others {
            let bounds = turned_box(&other.bounds, self.way);
            let least = met.as_ref().map_or(f64::INFINITY, |met| met.distance);
            if !self.may_meet(&bounds, least) || self.is_in(other) {
                continue;
            }
            for solid in other.solids {
                for (_, sides) in self.sides.iter().filter(|(span, _)| span.shared(&solid.span).is_some()) {
                    each_side(&solid.outline, self.way, false, |side| {
                        self.meet(sides, &side, Some(other.what), &mut met);
                    });
                }
            }
        }
        let met = met?;
        let from = self.way * met.from.x + self.way.perp() * met.from.y;
        let what = met.what?.subject();
        Some(Gap { from, to: from + self.way * met.distance, distance_mm: met.distance, what })
    }

    fn own_point(&self, p: DVec2) -> DVec2 {
        turned(p, self.way)
    }

    /// Whether something in this box (own frame) can be met before `least`.
    fn may_meet(&self, bounds: &Bounds, least: f64) -> bool {
        bounds.low.y < self.bounds.high.y
            && self.bounds.low.y < bounds.high.y
            && self.bounds.low.x <= bounds.high.x
            && bounds.low.x - self.bounds.high.x < least
    }

    /// Whether it shares plan and height with another: then there is no way to it.
    fn is_in(&self, other: &Other<'_>) -> bool {
        let own = self.own.iter().filter(|solid| solid.outline.bounds().meets(&other.bounds));
        own.flat_map(|solid| other.solids.iter().map(move |against| (solid, against))).any(
            |(solid, against)| {
                solid.span.shared(&against.span).is_some() && overlaps(&solid.outline, &against.outline)
            },
        )
    }

    fn meet<'b>(&self, own: &[Side], other: &Side, what: Option<What<'b>>, met: &mut Option<Met<'b>>) {
        let (from, to) = other.breadth();
        if to - self.bounds.low.y <= GRAZE_MM || self.bounds.high.y - from <= GRAZE_MM {
            return;
        }
        for side in own {
            if let Some((distance, across)) = between(side, other)
                && met.as_ref().is_none_or(|met| distance < met.distance)
            {
                *met = Some(Met { distance, from: DVec2::new(side.at(across), across), what });
            }
        }
    }
}

/// A side of an outline as seen along the way.
#[derive(Clone, Copy, Debug)]
enum Side {
    /// Straight, from its right to its left end.
    Straight { low: DVec2, high: DVec2 },
    /// Half of a rim: the half that leads if `lead` is positive, else the one that trails.
    Rim { centre: DVec2, radius: f64, lead: f64 },
}

impl Side {
    /// From where to where it lies across the way.
    fn breadth(&self) -> (f64, f64) {
        match *self {
            Self::Straight { low, high } => (low.y, high.y),
            Self::Rim { centre, radius, .. } => (centre.y - radius, centre.y + radius),
        }
    }

    /// How far along the way it lies at a place across it.
    fn at(&self, across: f64) -> f64 {
        match *self {
            Self::Straight { low, high } => {
                let share = ((across - low.y) / (high.y - low.y)).clamp(0.0, 1.0);
                low.x + (high.x - low.x) * share
            }
            Self::Rim { centre, radius, lead } => {
                let off = across - centre.y;
                centre.x + lead * (radius * radius - off * off).max(0.0).sqrt()
            }
        }
    }
}

/// The least distance from a leading to a trailing side over the breadth that both share, and where across that is.
/// `None` if they share none, or the trailing one is passed already.
fn between(own: &Side, other: &Side) -> Option<(f64, f64)> {
    let (own_breadth, other_breadth) = (own.breadth(), other.breadth());
    let (low, high) = (own_breadth.0.max(other_breadth.0), own_breadth.1.min(other_breadth.1));
    if high - low <= GRAZE_MM {
        return None;
    }
    let gap = |across: f64| other.at(across) - own.at(across);
    let across = match (own, other) {
        (Side::Straight { .. }, Side::Straight { .. }) => {
            let (at_low, at_high) = (gap(low), gap(high));
            if (at_low - at_high).abs() <= PARALLEL_MM {
                0.5 * (low + high)
            } else if at_low < at_high {
                low
            } else {
                high
            }
        }
        // Where the rim runs as the straight side does.
        (Side::Straight { low, high }, Side::Rim { centre, radius, .. }) => {
            let along = *high - *low;
            centre.y + radius * along.x / along.length()
        }
        (Side::Rim { centre, radius, .. }, Side::Straight { low, high }) => {
            let along = *high - *low;
            centre.y - radius * along.x / along.length()
        }
        // On the line between the middles of two discs that touch.
        (Side::Rim { centre, radius, .. }, Side::Rim { centre: far, radius: reach, .. }) => {
            centre.y + (far.y - centre.y) * (radius / (radius + reach))
        }
    };
    let across = across.clamp(low, high);
    let distance = gap(across);
    // What is passed lies behind; what is touched is met at once.
    (distance >= -GRAZE_MM).then_some((distance.max(0.0), across))
}

/// The sides of an outline that lead, or those that trail, in the frame of a way.
fn each_side(outline: &Outline, way: DVec2, lead: bool, mut f: impl FnMut(Side)) {
    match outline {
        Outline::Polygon(polygon) => {
            for ring in polygon.rings() {
                let Some(&last) = ring.last() else { continue };
                let mut from = turned(last, way);
                for &corner in ring {
                    let to = turned(corner, way);
                    // The inside lies to the left of an edge, so those that run to the left lead.
                    let (low, high) = if lead { (from, to) } else { (to, from) };
                    if high.y - low.y > GRAZE_MM {
                        f(Side::Straight { low, high });
                    }
                    from = to;
                }
            }
        }
        Outline::Circle(circle) => f(Side::Rim {
            centre: turned(circle.centre(), way),
            radius: circle.radius(),
            lead: if lead { 1.0 } else { -1.0 },
        }),
    }
}

/// A point of the bay in the frame of a way: x along it, y to the left of it.
fn turned(p: DVec2, way: DVec2) -> DVec2 {
    DVec2::new(p.dot(way), p.dot(way.perp()))
}

/// The box in the frame of a way around a box of the bay.
fn turned_box(bounds: &Bounds, way: DVec2) -> Bounds {
    let middle = turned(bounds.centre(), way);
    let half = bounds.size() * 0.5;
    let (along, across) = (way.abs(), way.perp().abs());
    let half = DVec2::new(half.dot(along), half.dot(across));
    Bounds { low: middle - half, high: middle + half }
}
