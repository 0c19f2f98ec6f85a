//! What is at a place of the paper, and where on it a thing is shown: for pointers, keyboards and screen readers.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2, Segment, angle};

use crate::ink::odd;
use crate::list::{Drawing, Item, Placing, Shape, Text};
use crate::role::Role;
use crate::text::Align;

/// What is at a place of the paper.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picked {
    /// What it shows.
    pub subject: Option<Subject>,
    /// The finding whose flag it is, by position in [`baywright_planner::Assessment::findings`].
    pub finding: Option<usize>,
}

/// When something is meant by a place on it; the greater goes first, whatever is painted over what.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Meant {
    /// Inside a zone: only where nothing else is.
    Within,
    /// Ground, masonry, what hangs overhead: where nothing stands.
    Ground,
    /// A thin line: things stand on it and cover it, though it is painted over them.
    Line,
    /// What stands there; names and flags.
    Body,
}

/// What part of an item can be hit.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Whole,
    Edge,
}

/// What of an item of a role is meant, and when; nothing for what only explains: floor, net, beam, hatches, leaders,
/// dimensions of the aiming, emphasis, furniture.
const fn meant(role: Role) -> &'static [(Part, Meant)] {
    match role {
        Role::Flag(_)
        | Role::Label
        | Role::LabelSoft
        | Role::LabelZone
        | Role::Mark
        | Role::PermanentMark
        | Role::Sensor
        | Role::Target
        | Role::Mat
        | Role::Thing(_)
        | Role::QuietThing(_)
        | Role::ThingAside(_)
        | Role::StandFaced
        | Role::TargetRim
        | Role::TargetFace
        | Role::StandBase
        | Role::StandMast
        | Role::CarBody
        | Role::CarGlass
        | Role::Tyre
        | Role::Rim => &[(Part::Whole, Meant::Body)],
        // Only its outline is drawn, and what it hangs over is seen through it.
        Role::Overhead => &[(Part::Edge, Meant::Body), (Part::Whole, Meant::Ground)],
        Role::ZoneEdge | Role::OtherZoneEdge => &[(Part::Edge, Meant::Line), (Part::Whole, Meant::Within)],
        // A bay is large: what lies on its floor is pressed through it.
        Role::TargetMeant | Role::OtherBay | Role::OwnBay => &[(Part::Edge, Meant::Line)],
        Role::KeptDimension
        | Role::Run
        | Role::SightLine
        | Role::SightLineHidden
        | Role::DoorSwing
        | Role::OpeningLine => &[(Part::Edge, Meant::Line)],
        Role::KeepFree
        | Role::Runway
        | Role::FloorFeature(_)
        | Role::Wall(_)
        | Role::Opening
        | Role::WallFaced(_)
        | Role::OpeningFaced => &[(Part::Whole, Meant::Ground)],
        _ => &[],
    }
}

/// Whether an item of a role is part of the body of what it shows: not its name, its flags or what hints at it.
const fn is_body(role: Role) -> bool {
    matches!(
        role,
        Role::Mark
            | Role::PermanentMark
            | Role::Sensor
            | Role::Target
            | Role::Mat
            | Role::Thing(_)
            | Role::QuietThing(_)
            | Role::ThingAside(_)
            | Role::WallFaced(_)
            | Role::OpeningFaced
            | Role::StandFaced
            | Role::TargetRim
            | Role::TargetFace
            | Role::Overhead
            | Role::StandBase
            | Role::StandMast
            | Role::CarBody
            | Role::CarGlass
            | Role::Tyre
            | Role::Rim
            | Role::ZoneEdge
            | Role::OtherZoneEdge
            | Role::KeepFree
            | Role::OtherBay
            | Role::OwnBay
            | Role::Runway
            | Role::FloorFeature(_)
            | Role::Wall(_)
            | Role::Opening
            | Role::KeptDimension
    )
}

/// The subject of an item, if it is one that can be pointed at: the floor is everywhere.
fn subject(item: &Item) -> Option<&Subject> {
    item.subject.as_ref().filter(|subject| **subject != Subject::Floor)
}

impl Drawing {
    /// What is at a place of the paper (px, y down), if anything is.
    ///
    /// What stands there comes before thin lines, these before ground and masonry, and the inside of a zone last; among
    /// those the topmost, and of one layer the smaller. Whatever is thinner than `slack` px to both sides of the place is
    /// hit as if it were so thick. A flag gives its finding too.
    pub fn pick(&self, px: DVec2, slack: f64) -> Option<Picked> {
        if !(px.is_finite() && self.window().holds(px)) {
            return None;
        }
        let slack = if slack.is_finite() { slack.max(0.0) } else { 0.0 };
        let at = At { drawing: self, px, view: self.view_point(px), slack };
        let mut best: Option<(Meant, &Item, f64)> = None;
        for item in &self.items {
            let parts = meant(item.role);
            if parts.is_empty() || subject(item).is_none() {
                continue;
            }
            let Some(&(_, meant)) = parts.iter().find(|(part, _)| at.hits(&item.shape, *part)) else {
                continue;
            };
            let size = self.size_of(&item.shape);
            let wins = best.as_ref().is_none_or(|(known, other, least)| {
                let order = meant.cmp(known).then(item.role.layer().cmp(&other.role.layer()));
                // Of two that are as large the one painted later lies on top.
                order.then(least.total_cmp(&size)) != Ordering::Less
            });
            if wins {
                best = Some((meant, item, size));
            }
        }
        best.map(|(_, item, _)| Picked {
            subject: subject(item).cloned(),
            finding: item.finding.filter(|_| matches!(item.role, Role::Flag(_))),
        })
    }

    /// The box on the paper (px, y down) around what shows a subject: its body, not its name, dimensions or flags. It may
    /// reach past the paper. `None` if it is not shown.
    pub fn box_of(&self, subject: &Subject) -> Option<Bounds> {
        let body =
            self.items.iter().filter(|item| is_body(item.role) && self::subject(item) == Some(subject));
        body.filter_map(|item| self.bounds(&item.shape)).reduce(Bounds::union)
    }

    /// Everything whose body is drawn.
    pub fn subjects(&self) -> BTreeSet<&Subject> {
        self.items.iter().filter(|item| is_body(item.role)).filter_map(subject).collect()
    }

    /// The boxes of everything that can be pointed at, as [`Drawing::box_of`] gives them, each once, in the order in which
    /// they are painted first.
    pub fn boxes(&self) -> Vec<(Subject, Bounds)> {
        let bodies = bodies(self.items.iter(), self.placing()).into_iter();
        bodies.map(|(subject, bounds)| (subject.clone(), bounds)).collect()
    }

    /// The box around a shape on the paper, px; `None` for a text, which is no body, and for nothing.
    fn bounds(&self, shape: &Shape) -> Option<Bounds> {
        bounds(shape, self.placing())
    }

    /// How large a shape's box is on the paper, px²; texts are smaller than anything.
    fn size_of(&self, shape: &Shape) -> f64 {
        self.bounds(shape).map_or(0.0, |bounds| bounds.size().element_product())
    }
}

/// What an item is part of the body of, if that can be pointed at.
pub(crate) fn body_of(item: &Item) -> Option<&Subject> {
    if is_body(item.role) { subject(item) } else { None }
}

/// The boxes on the paper, px, of everything among some items that can be pointed at, each once.
pub(crate) fn bodies<'a>(
    items: impl Iterator<Item = &'a Item>,
    placing: Placing,
) -> Vec<(&'a Subject, Bounds)> {
    let mut places: BTreeMap<&Subject, usize> = BTreeMap::new();
    let mut bodies: Vec<(&Subject, Bounds)> = Vec::new();
    for item in items {
        let Some(subject) = body_of(item) else { continue };
        let Some(bounds) = bounds(&item.shape, placing) else { continue };
        let place = *places.entry(subject).or_insert(bodies.len());
        match bodies.get_mut(place) {
            Some((_, own)) => *own = own.union(bounds),
            None => bodies.push((subject, bounds)),
        }
    }
    bodies
}

/// The box around a shape on the paper, px; `None` for a text, which is no body, and for nothing.
fn bounds(shape: &Shape, placing: Placing) -> Option<Bounds> {
    let px = |p: DVec2| placing.paper_point(p);
    let (at, half) = match shape {
        Shape::Area(rings) => return Bounds::around(rings.iter().flatten().map(|&p| px(p))),
        Shape::Line(points) => return Bounds::around(points.iter().map(|&p| px(p))),
        Shape::Disc { centre, radius } => (px(*centre), radius * placing.px_per_mm),
        Shape::Sign(sign) => (px(sign.at), sign.reach),
        Shape::Dimension(own) => return Bounds::around([own.line_from, own.line_to].map(px)),
        Shape::Text(_) => return None,
    };
    Some(Bounds { low: at - DVec2::splat(half), high: at + DVec2::splat(half) })
}

/// A place that is asked about.
struct At<'a> {
    drawing: &'a Drawing,
    /// On the paper.
    px: DVec2,
    /// In the view, mm.
    view: DVec2,
    /// How thick everything is at least to both sides, px.
    slack: f64,
}

impl At<'_> {
    fn hits(&self, shape: &Shape, part: Part) -> bool {
        match (shape, part) {
            (Shape::Area(rings), Part::Whole) => {
                odd(self.view, rings) || self.beside(rings, thickness(rings))
            }
            (Shape::Area(rings), Part::Edge) => self.beside(rings, 0.0),
            (Shape::Disc { centre, radius }, Part::Whole) => {
                self.off(*centre) <= (radius * self.drawing.px_per_mm).max(self.slack)
            }
            (Shape::Disc { centre, radius }, Part::Edge) => {
                (self.off(*centre) - radius * self.drawing.px_per_mm).abs() <= self.slack
            }
            (Shape::Line(points), _) => {
                points.windows(2).any(|pair| matches!(pair, &[a, b] if self.is_near(a, b, self.slack)))
            }
            (Shape::Sign(sign), _) => self.off(sign.at) <= sign.reach.max(self.slack),
            (Shape::Text(text), _) => self.is_on(text),
            (Shape::Dimension(own), _) => {
                self.is_near(own.line_from, own.line_to, self.slack) || self.is_on(&own.text)
            }
        }
    }

    /// Whether the place lies beside an edge of some rings, as near as makes up for so many mm of thickness.
    fn beside(&self, rings: &[Vec<DVec2>], thickness: f64) -> bool {
        let slack = self.slack - 0.5 * thickness * self.drawing.px_per_mm;
        slack >= 0.0
            && rings.iter().any(|ring| {
                let next = ring.iter().cycle().skip(1);
                ring.iter().zip(next).any(|(&a, &b)| self.is_near(a, b, slack))
            })
    }

    /// Whether the place lies within so many px of a straight piece of the view.
    fn is_near(&self, a: DVec2, b: DVec2, slack: f64) -> bool {
        Segment::new(a, b).distance_to(self.view) * self.drawing.px_per_mm <= slack
    }

    /// How far it is from a place of the view, px.
    fn off(&self, p: DVec2) -> f64 {
        self.drawing.paper_point(p).distance(self.px)
    }

    /// Whether it lies on a line of text.
    fn is_on(&self, text: &Text) -> bool {
        let off = self.px - self.drawing.paper_point(text.at);
        let (sin, cos) = angle::sin_cos(text.angle);
        let (along, down) = (DVec2::new(cos, -sin), DVec2::new(sin, cos));
        let start = match text.align {
            Align::Start => 0.0,
            Align::Middle => text.width * -0.5,
            Align::End => -text.width,
        };
        let at = off.dot(along) - start;
        (0.0..=text.width).contains(&at) && off.dot(down).abs() <= text.style.line_height() * 0.5
    }
}

/// How thick an area is: its width if it is long and narrow, view frame, mm.
fn thickness(rings: &[Vec<DVec2>]) -> f64 {
    let (mut area, mut round) = (0.0, 0.0);
    for ring in rings {
        let Some(&origin) = ring.first() else { continue };
        let mut twice = 0.0;
        for (&a, &b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            twice += (a - origin).perp_dot(b - origin);
            round += a.distance(b);
        }
        area += 0.5 * twice.abs();
    }
    if round > 0.0 { 2.0 * area / round } else { 0.0 }
}
