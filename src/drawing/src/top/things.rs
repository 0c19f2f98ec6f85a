//! The things in the bay from above, their names, and where they are in the way.

use baywright_planner::Subject;
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::{Shape as ThingShape, Thing, ThingKind};

use super::Top;
use crate::finding::{flagged, shared};
use crate::label::Wanted;
use crate::list::Item;
use crate::pen::{Pen, area, size};
use crate::role::Role;
use crate::space::Taken;
use crate::text::Weight;

pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>) {
    let roof = top.scene.carried_at + top.arrangement.vehicle.height;
    for (thing, placed) in top.arrangement.bay.things.iter().zip(&top.scene.things) {
        let subject = Some(Subject::Thing(thing.id.clone()));
        let overhead = thing.span.bottom() >= roof;
        let role = if overhead { Role::Overhead } else { Role::Thing(thing.material) };
        let shape = pen.outline(&placed.prism.outline, &top.view_from_bay);
        pen.push(role, subject.clone(), shape);
        if !overhead {
            for line in inner_lines(thing) {
                let line = line.iter().map(|&p| top.at(thing.place * p)).collect();
                pen.line(Role::ThingLine, subject.clone(), line);
            }
        }
        if let Some(box_px) = box_px(pen, top, &placed.bounds)
            && !overhead
        {
            pen.space.take(box_px, Taken::Body);
        }
    }
}

/// Lines that tell a parked car or a person from a box, in the thing's own frame.
fn inner_lines(thing: &Thing) -> Vec<Vec<DVec2>> {
    match (&thing.shape, thing.kind) {
        (ThingShape::Rectangle { length, width }, ThingKind::ParkedCar) => {
            let across = |at: f64, inset: f64| {
                let (x, y) = (length * at, width * (0.5 - inset));
                vec![DVec2::new(x, y), DVec2::new(x, -y)]
            };
            let along = |side: f64| {
                let y = side * width * 0.36;
                vec![DVec2::new(-length * 0.32, y), DVec2::new(length * 0.1, y)]
            };
            vec![across(0.2, 0.08), across(0.1, 0.14), across(-0.32, 0.14), across(-0.4, 0.1), along(1.0), along(-1.0)]
        }
        (ThingShape::Rectangle { length, width }, ThingKind::ToolChest | ThingKind::Cabinet) => {
            // The front, with its doors or drawers.
            let (x, y) = (length * 0.5, -width * 0.38);
            vec![vec![DVec2::new(-x, y), DVec2::new(x, y)]]
        }
        _ => Vec::new(),
    }
}

/// The box around a box of the bay on the paper, px.
fn box_px(pen: &Pen<'_>, top: &Top<'_>, b: &Bounds) -> Option<Bounds> {
    let corners = [b.low, DVec2::new(b.high.x, b.low.y), b.high, DVec2::new(b.low.x, b.high.y)];
    Bounds::around(corners.map(|p| pen.px(top.at(p))))
}

/// Hatches what is shared and cannot be; says how far things are in.
pub(super) fn overlaps(pen: &mut Pen<'_>, top: &Top<'_>) {
    for told in flagged(top.assessment) {
        let subject = told.finding.subjects.first().cloned();
        for region in shared(top.arrangement, top.assessment, told.finding) {
            let shape = area(&region.region, &top.view_from_bay);
            pen.items.push(Item { role: Role::Overlap, subject: subject.clone(), finding: Some(told.index), shape });
        }
        super::dimensions::so_far_in(pen, top, &told);
    }
}

pub(super) fn names(pen: &mut Pen<'_>, top: &Top<'_>) {
    let style = pen.style(size::LABEL, Weight::SemiBold);
    let soft = pen.style(size::SMALL, Weight::Regular);
    let roof = top.scene.carried_at + top.arrangement.vehicle.height;
    let in_hand = |thing: &Thing| {
        let subject = Some(Subject::Thing(thing.id.clone()));
        subject == top.state.selected || subject == top.state.hovered
    };
    // What is in hand is named first and whatever it covers.
    let things = || top.arrangement.bay.things.iter().zip(&top.scene.things);
    let first = things().filter(|(thing, _)| in_hand(thing));
    let rest = things().filter(|(thing, _)| !in_hand(thing));
    for (thing, placed) in first.chain(rest) {
        let Some(around) = box_px(pen, top, &placed.bounds) else { continue };
        if !pen.placed.plan.meets(&around) {
            continue;
        }
        let overhead = thing.span.bottom() >= roof;
        let told;
        let text = if overhead {
            told = top.words.overhead(thing.id.as_str(), thing.span.bottom());
            told.as_str()
        } else {
            thing.id.as_str()
        };
        let wanted = Wanted {
            text,
            role: if overhead { Role::LabelSoft } else { Role::Label },
            subject: Some(Subject::Thing(thing.id.clone())),
            style: if overhead { soft } else { style },
            around,
            most_width: 150.0 * pen.enlarged,
            must: in_hand(thing),
            inside: true,
        };
        pen.name(wanted);
    }
}
