//! What stands in the bay for a set-up that is done at the same time, each car and each stand as the one thing that it is: drawn part on part
//! its hatching says nothing.

use baywright_planner::geometry::{Outline, Polygon, boolean};
use baywright_planner::model::{BesidePart, Id};
use baywright_planner::scene::PlacedThing;
use baywright_planner::{Subject, model::Thing};

use super::Top;
use crate::role::Role;
use crate::view::pen::{Pen, area};

/// Whether a thing is drawn here, with others that are parts of the same.
pub(super) fn is_part(top: &Top<'_>, thing: &Id) -> bool {
    top.arrangement
        .part_beside(thing)
        .is_some_and(|(_, part)| matches!(part, BesidePart::Car | BesidePart::Stand(_)))
}

/// All of them; `is_loud` says of a thing whether it is in hand or a finding is about it.
pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>, roof_mm: f64, is_loud: impl Fn(&Thing) -> bool) {
    let placed = |id: &Id| {
        let mut all = top.arrangement.bay.things.iter().zip(&top.scene.things);
        all.find(|(own, _)| own.id == *id)
    };
    for parts in top.arrangement.beside.iter().flat_map(|own| own.parts.chunk_by(|a, b| a.1 == b.1)) {
        let all: Vec<(&Thing, &PlacedThing)> = parts.iter().filter_map(|(id, _)| placed(id)).collect();
        let Some((first, _)) = all.first().filter(|(own, _)| is_part(top, &own.id)) else { continue };
        let role = match (all.iter().all(|(own, _)| own.span.bottom() >= roof_mm), first.material) {
            (true, _) => Role::Overhead,
            (false, made) if all.iter().any(|(own, _)| is_loud(own)) => Role::Thing(made),
            (false, made) => Role::QuietThing(made),
        };
        // What is pointed at is the one that bears the name.
        let subject = Some(Subject::Thing(first.id.clone()));
        let mut polygons: Vec<Polygon> = Vec::new();
        for (_, own) in &all {
            match &own.prism.outline {
                Outline::Polygon(own) => polygons.push(own.clone()),
                circle @ Outline::Circle(_) => {
                    let shape = pen.outline(circle, &top.view_from_bay);
                    pen.push(role, subject.clone(), shape);
                }
            }
        }
        for own in boolean::union(&polygons) {
            pen.push(role, subject.clone(), area(&own, &top.view_from_bay));
        }
    }
}
