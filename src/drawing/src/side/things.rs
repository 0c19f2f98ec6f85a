//! The things from the side: those on the axis full, those to its side lighter and behind.

use baywright_planner::geometry::{Bounds, DVec2, Outline};
use baywright_planner::scene::PlacedTarget;
use baywright_planner::{Code, Finding, Subject};

use super::{Side, rectangle};
use crate::clip;
use crate::finding::{flagged, shared};
use crate::label::Wanted;
use crate::list::{Item, Shape};
use crate::pen::{Pen, size};
use crate::role::Role;
use crate::space::Taken;
use crate::text::Weight;
use crate::top::overlap_role;

/// A thing as drawn, for its name.
pub(super) struct Drawn {
    /// Its position in the bay's list.
    index: usize,
    /// Its box, px.
    around: Bounds,
    /// Whether it stands on the axis.
    on_axis: bool,
}

pub(super) fn draw(pen: &mut Pen<'_>, side: &Side<'_>) -> Vec<Drawn> {
    let half = side.arrangement.vehicle.width * 0.5;
    let things = side.arrangement.bay.things.iter().zip(&side.scene.things);
    let mut order: Vec<(f64, usize, Bounds)> = things
        .clone()
        .enumerate()
        .map(|(i, (_, placed))| {
            let extent = side.extent(&placed.prism.outline);
            (extent.low.y.max(-extent.high.y).max(0.0), i, extent)
        })
        .collect();
    // The farthest from the axis first, so that the nearest lies on top; ties in the bay's order.
    order.sort_by(|a, b| b.0.total_cmp(&a.0));
    let things: Vec<_> = things.collect();
    let mut drawn = Vec::with_capacity(order.len());
    for (off, index, extent) in order {
        let Some((thing, placed)) = things.get(index) else { continue };
        // What reaches through an end wall stands in a part of the room that the axis does not cross.
        let (low, high) = (extent.low.x, extent.high.x);
        let on_axis = off <= half && side.room.0 - 1.0 <= low && high <= side.room.1 + 1.0;
        let role = if on_axis { Role::Thing(thing.material) } else { Role::ThingAside(thing.material) };
        let (bottom, top) = (placed.prism.span.bottom(), placed.prism.span.top());
        let ring = rectangle((extent.low.x, extent.high.x), (bottom, top));
        let Some(around) = Bounds::around(ring.iter().map(|&p| pen.px(p))) else { continue };
        pen.ring(role, Some(Subject::Thing(thing.id.clone())), ring);
        if on_axis {
            pen.space.take(around, Taken::Body);
        }
        drawn.push(Drawn { index, around, on_axis });
    }
    drawn
}

/// The heights that are shared and cannot be, over the length on which they are.
pub(super) fn overlaps(pen: &mut Pen<'_>, side: &Side<'_>, drawn: &[Drawn]) {
    for told in flagged(side.assessment) {
        let subject = told.finding.subjects.first().cloned();
        let thing = told.finding.culprit();
        let is_culprit = |d: &&Drawn| side.arrangement.bay.things.get(d.index).map(|t| &t.id) == thing;
        let aside = thing.is_some() && drawn.iter().find(is_culprit).is_some_and(|d| !d.on_axis);
        let severity = told.finding.severity;
        let role = if aside { Role::OverlapAside(severity) } else { overlap_role(told.finding) };
        let regions = shared(side.arrangement, side.assessment, told.finding);
        let bands = regions.into_iter().map(|region| {
            let x = side.along(&Outline::Polygon(region.region));
            rectangle(x, (region.heights.bottom(), region.heights.top()))
        });
        let rings: Vec<_> = if told.finding.code == Code::SightBlocked {
            hidden(side, told.finding)
        } else {
            bands.collect()
        };
        for ring in rings {
            let shape = Shape::Area(vec![ring]);
            pen.items.push(Item { role, subject: subject.clone(), finding: Some(told.index), shape });
        }
    }
}

/// The part of a thing that lies between sensor and target face.
fn hidden(side: &Side<'_>, finding: &Finding) -> Vec<Vec<DVec2>> {
    let [Subject::Thing(thing), Subject::Target(target), ..] = finding.subjects.as_slice() else {
        return Vec::new();
    };
    let mut things = side.arrangement.bay.things.iter().zip(&side.scene.things);
    let Some((_, placed)) = things.find(|(t, _)| t.id == *thing) else { return Vec::new() };
    let Some(target) = side.scene.targets.iter().find(|t| t.id == *target) else { return Vec::new() };
    let Some(wedge) = wedge(side, target) else { return Vec::new() };
    let x = side.along(&placed.prism.outline);
    let span = placed.prism.span;
    let area = Bounds { low: DVec2::new(x.0, span.bottom()), high: DVec2::new(x.1, span.top()) };
    let ring = clip::ring_in_box(&wedge, &area);
    if ring.len() >= 3 { vec![ring] } else { Vec::new() }
}

/// From the sensor to the upper and the lower edge of a target's face.
fn wedge(side: &Side<'_>, target: &PlacedTarget) -> Option<Vec<DVec2>> {
    let face = target.face.as_ref()?;
    let half = face.height() * 0.5;
    Some(vec![side.at(side.scene.sensor()), side.at(face.point(0.0, -half)), side.at(face.point(0.0, half))])
}

pub(super) fn names(pen: &mut Pen<'_>, side: &Side<'_>, drawn: &[Drawn]) {
    let strong = pen.style(size::LABEL, Weight::SemiBold);
    let soft = pen.style(size::SMALL, Weight::Regular);
    let told: Vec<_> = flagged(side.assessment).filter_map(|told| told.finding.culprit().cloned()).collect();
    // Things on the axis first, then the others, each from the nearest.
    let nearest = || drawn.iter().rev();
    for thing in nearest().filter(|d| d.on_axis).chain(nearest().filter(|d| !d.on_axis)) {
        let Some(own) = side.arrangement.bay.things.get(thing.index) else { continue };
        let Some(around) = overlap_box(&thing.around, &pen.placed.plan) else { continue };
        let subject = Some(Subject::Thing(own.id.clone()));
        let in_hand = subject == side.state.selected || subject == side.state.hovered;
        let strongly = thing.on_axis || in_hand || told.contains(&own.id);
        pen.name(Wanted {
            text: own.id.as_str(),
            role: if strongly { Role::Label } else { Role::LabelSoft },
            subject,
            style: if strongly { strong } else { soft },
            around,
            most_width: 150.0 * pen.enlarged,
            must: in_hand,
            inside: true,
        });
    }
}

/// What two boxes share.
fn overlap_box(a: &Bounds, b: &Bounds) -> Option<Bounds> {
    a.meets(b).then(|| Bounds { low: a.low.max(b.low), high: a.high.min(b.high) })
}
