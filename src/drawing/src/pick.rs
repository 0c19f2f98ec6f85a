//! What is at a place of the paper, and where what is shown stands on it: for pointers, keyboards and screen readers.

use std::collections::BTreeMap;

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};

use crate::ink::odd;
use crate::list::{Drawing, Item, Shape};
use crate::role::Role;

/// What is at a place of the paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picked {
    /// What it shows.
    pub subject: Option<Subject>,
    /// The finding whose flag it is, by position in the assessment's list.
    pub finding: Option<usize>,
}

/// How an item can be hit.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Hit {
    /// Not at all: names, dimensions, the floor.
    Never,
    /// Anywhere on it.
    Solid,
    /// On its edge; inside only where nothing else is: zones, what hangs overhead, ground.
    Backdrop,
}

const fn hit_of(role: Role) -> Hit {
    match role {
        Role::Flag(_)
        | Role::Mark
        | Role::PermanentMark
        | Role::Sensor
        | Role::Target
        | Role::Mat
        | Role::Thing(_)
        | Role::ThingAside(_)
        | Role::StandBase
        | Role::StandMast
        | Role::Tyre
        | Role::CarGlass
        | Role::CarBody
        | Role::Opening => Hit::Solid,
        Role::Overhead | Role::ZoneEdge | Role::KeepFree | Role::Runway | Role::FloorFeature(_) => {
            Hit::Backdrop
        }
        _ => Hit::Never,
    }
}

impl Drawing {
    /// What is at a place of the paper (px, y down), topmost first: `slack` px beside thin lines and small signs count
    /// too. Of several on one layer the smallest is meant. `None` where only names, dimensions, walls or the floor are.
    pub fn pick(&self, px: DVec2, slack: f64) -> Option<Picked> {
        let hits = |wanted: &dyn Fn(&Item) -> bool| {
            let hit = self.items.iter().filter(|item| item.subject.is_some() || item.finding.is_some());
            hit.filter(|item| wanted(item))
                .max_by(|a, b| {
                    let layers = a.role.layer().cmp(&b.role.layer());
                    layers.then_with(|| self.reach(b).total_cmp(&self.reach(a)))
                })
                .map(picked)
        };
        hits(&|item| {
            hit_of(item.role) == Hit::Solid && (self.holds(item, px) || self.is_near(item, px, slack))
        })
        .or_else(|| hits(&|item| hit_of(item.role) == Hit::Backdrop && self.is_near(item, px, slack)))
        .or_else(|| hits(&|item| hit_of(item.role) == Hit::Backdrop && self.holds(item, px)))
    }

    /// The box on the paper (px, y down) around what shows a subject: its body only, not its name, dimensions or flags.
    pub fn box_of(&self, subject: &Subject) -> Option<Bounds> {
        let own = self.items.iter().filter(|item| item.subject.as_ref() == Some(subject) && is_body(item));
        own.filter_map(|item| self.bounds(item)).reduce(Bounds::union)
    }

    /// The boxes of everything that is shown, each once, in the order in which they are painted first.
    pub fn boxes(&self) -> Vec<(Subject, Bounds)> {
        let mut places: BTreeMap<&Subject, usize> = BTreeMap::new();
        let mut boxes: Vec<(Subject, Bounds)> = Vec::new();
        for item in self.items.iter().filter(|item| is_body(item)) {
            let (Some(subject), Some(bounds)) = (&item.subject, self.bounds(item)) else { continue };
            let at = *places.entry(subject).or_insert(boxes.len());
            match boxes.get_mut(at) {
                Some((_, own)) => *own = own.union(bounds),
                None => boxes.push((subject.clone(), bounds)),
            }
        }
        boxes
    }

    /// Whether a place lies inside an item.
    fn holds(&self, item: &Item, px: DVec2) -> bool {
        match &item.shape {
            Shape::Area(rings) => odd(self.view_point(px), rings),
            Shape::Line(points) if points.len() > 2 => odd(self.view_point(px), std::slice::from_ref(points)),
            Shape::Disc { centre, radius } => {
                self.paper_point(*centre).distance(px) <= radius * self.px_per_mm
            }
            _ => false,
        }
    }

    /// Whether a place lies on an item's edge, or so many px beside it.
    fn is_near(&self, item: &Item, px: DVec2, slack: f64) -> bool {
        let near = |a: DVec2, b: DVec2| to_segment(px, self.paper_point(a), self.paper_point(b)) <= slack;
        match &item.shape {
            Shape::Area(rings) => rings.iter().any(|ring| {
                let next = ring.iter().cycle().skip(1);
                ring.iter().zip(next).any(|(&a, &b)| near(a, b))
            }),
            Shape::Line(points) => points.windows(2).any(|pair| matches!(pair, &[a, b] if near(a, b))),
            Shape::Disc { centre, radius } => {
                (self.paper_point(*centre).distance(px) - radius * self.px_per_mm).abs() <= slack
            }
            Shape::Sign(sign) => self.paper_point(sign.at).distance(px) <= sign.reach + slack * 0.5,
            Shape::Dimension(_) | Shape::Text(_) => false,
        }
    }

    /// How large an item is on the paper: its box's area, px².
    fn reach(&self, item: &Item) -> f64 {
        self.bounds(item).map_or(f64::INFINITY, |bounds| bounds.size().element_product())
    }

    fn bounds(&self, item: &Item) -> Option<Bounds> {
        match &item.shape {
            Shape::Sign(sign) => {
                let (at, half) = (self.paper_point(sign.at), DVec2::splat(sign.reach));
                Some(Bounds { low: at - half, high: at + half })
            }
            Shape::Disc { centre, radius } => {
                let (at, half) = (self.paper_point(*centre), DVec2::splat(radius * self.px_per_mm));
                Some(Bounds { low: at - half, high: at + half })
            }
            Shape::Area(rings) => Bounds::around(rings.iter().flatten().map(|&p| self.paper_point(p))),
            Shape::Line(points) => Bounds::around(points.iter().map(|&p| self.paper_point(p))),
            Shape::Dimension(_) | Shape::Text(_) => None,
        }
    }
}

fn picked(item: &Item) -> Picked {
    // Only a flag stands for its finding: an overlap is seen, what overlaps is meant.
    let finding = item.finding.filter(|_| matches!(item.role, Role::Flag(_)));
    Picked { subject: item.subject.clone(), finding }
}

/// Whether an item is part of the body of what it shows.
fn is_body(item: &Item) -> bool {
    hit_of(item.role) != Hit::Never && !matches!(item.role, Role::Flag(_))
}

/// The distance of a point from a straight piece.
fn to_segment(p: DVec2, a: DVec2, b: DVec2) -> f64 {
    let along = b - a;
    let share = ((p - a).dot(along) / along.length_squared()).clamp(0.0, 1.0);
    // A piece without length is a point.
    if share.is_finite() { p.distance(a + along * share) } else { p.distance(a) }
}
