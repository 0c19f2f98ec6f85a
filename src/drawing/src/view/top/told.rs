//! The top view as a customer sees it beside one idea: only what the idea is about, the rest pale or left out.

use std::collections::BTreeSet;

use baywright_planner::customer::{Idea, Moves};
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::{Assessment, Scene, Severity, Step, Subject};

use super::{Top, aiming, car, room, things};
use crate::role::Role;
use crate::view::Shown;
use crate::view::fit::Window;
use crate::view::pen::Pen;

/// From a zone's edge out to the line that says its size, px before it is enlarged.
const SIZE_OFF_PX: f64 = 12.0;

/// Draws what belongs to an idea into a window. `before` is where everything stood before something was moved; `shown` is as
/// it is then.
pub(crate) fn draw<'a>(
    shown: &Shown<'a>,
    window: Window,
    idea: &'a Idea,
    before: Option<(&Arrangement, &Scene)>,
) -> Pen<'a> {
    let mut pen = Pen::new(shown.lettering, window);
    let top = Top {
        arrangement: shown.arrangement,
        assessment: shown.assessment,
        scene: &shown.assessment.scene,
        state: shown.state,
        words: &shown.words,
        view_from_bay: shown.extents.bay_from_top.inverse(),
        blamed: named(idea, shown.assessment),
    };
    room::draw(&mut pen, &top);
    // What local rules want free is another matter.
    pen.items.retain(|item| item.role != Role::KeepFree);
    let (zones, beam, rest) = match idea {
        Idea::OnlyTarget | Idea::Why(_) => (false, true, false),
        Idea::EmptyFloor(_) => (true, false, false),
        Idea::StandsIn(_) | Idea::Moves(_) => (true, true, true),
        Idea::Work(_) => (false, false, false),
    };
    if zones {
        aiming::zones(&mut pen, &top);
    }
    if beam {
        aiming::beam(&mut pen, &top);
    }
    if matches!(idea, Idea::Work(_)) {
        aiming::axis(&mut pen, &top);
        aiming::runs(&mut pen, &top);
        aiming::marks(&mut pen, &top);
    }
    aiming::targets(&mut pen, &top);
    car::draw(&mut pen, &top);
    if rest {
        things::draw(&mut pen, &top);
        pale(&mut pen, &top);
    }
    if matches!(idea, Idea::StandsIn(_)) {
        things::overlaps(&mut pen, &top);
    }
    if let (Idea::Moves(Moves::Known(_)), Some(before)) = (idea, before) {
        moved(&mut pen, &top, before);
    }
    if matches!(idea, Idea::EmptyFloor(_)) {
        sizes(&mut pen, &top);
    }
    if rest {
        things::names(&mut pen, &top, true);
    }
    if matches!(idea, Idea::Work(_)) {
        aiming::mark_numbers(&mut pen, &top);
    }
    aiming::target_names(&mut pen, &top);
    pen
}

/// The things that an idea names.
fn named<'a>(idea: &'a Idea, assessment: &'a Assessment) -> BTreeSet<&'a Id> {
    match idea {
        Idea::Moves(Moves::Known(after)) => after.steps.iter().filter_map(moved_thing).collect(),
        Idea::StandsIn(_) => {
            let stops = assessment.findings.iter().filter(|own| own.severity == Severity::Stops);
            stops.filter_map(|own| own.culprit()).collect()
        }
        _ => BTreeSet::new(),
    }
}

const fn moved_thing(step: &Step) -> Option<&Id> {
    match step {
        Step::MoveThing { thing, .. } => Some(thing),
        _ => None,
    }
}

/// What is not named stands pale: it is there, and nothing is said of it.
fn pale(pen: &mut Pen<'_>, top: &Top<'_>) {
    for item in &mut pen.items {
        let Some(Subject::Thing(id)) = &item.subject else { continue };
        if top.blamed.contains(id) {
            continue;
        }
        if let Role::Thing(material) = item.role {
            item.role = Role::ThingAside(material);
        }
    }
    let is_line = |role: Role| matches!(role, Role::ThingLine | Role::Overhead);
    pen.items.retain(|item| match &item.subject {
        Some(Subject::Thing(id)) => top.blamed.contains(id) || !is_line(item.role),
        _ => true,
    });
}

/// Where what was moved stood before, and the way from there.
fn moved(pen: &mut Pen<'_>, top: &Top<'_>, (was, before): (&Arrangement, &Scene)) {
    for (thing, placed) in was.bay.things.iter().zip(&before.things) {
        let own = top.arrangement.bay.things.iter().zip(&top.scene.things);
        let now = own.into_iter().find(|(own, _)| own.id == thing.id).map(|(_, now)| now);
        if now.is_some_and(|now| now.prism == placed.prism) {
            continue;
        }
        let shape = pen.outline(&placed.prism.outline, &top.view_from_bay);
        pen.push(Role::OutOfTheWay, None, shape);
        // What was taken out leads nowhere.
        if let Some(now) = now {
            way(pen, top.at(placed.bounds.centre()), top.at(now.bounds.centre()));
        }
    }
    if before.bay_from_vehicle != top.scene.bay_from_vehicle {
        for solid in &before.car {
            let shape = pen.outline(&solid.outline, &top.view_from_bay);
            pen.push(Role::OutOfTheWay, None, shape);
        }
        let [from, to] = [before, top.scene].map(|scene| top.at(scene.bay_from_vehicle.origin()));
        way(pen, from, to);
    }
}

fn way(pen: &mut Pen<'_>, from: DVec2, to: DVec2) {
    for line in things::arrow(pen, from, to) {
        pen.line(Role::WayOut, None, line);
    }
}

/// How long and how wide each zone is, along its own frame.
fn sizes(pen: &mut Pen<'_>, top: &Top<'_>) {
    let off = SIZE_OFF_PX * pen.enlarged;
    for zone in &top.arrangement.aiming.zones {
        let Some(frame) = top.scene.bay_from_zone(top.arrangement, &zone.frame) else { continue };
        let Bounds { low, high } = zone.outline.bounds();
        let at = |p: DVec2| top.at(frame * p);
        let (along, across) = (at(DVec2::X) - at(DVec2::ZERO), at(DVec2::Y) - at(DVec2::ZERO));
        let (length, width) = (top.words.length(high.x - low.x), top.words.length(high.y - low.y));
        let corner = at(DVec2::new(high.x, low.y));
        let below = corner - across * pen.length(off);
        let beyond = corner + along * pen.length(off);
        for (from, to, way, through, text) in
            [(at(low), corner, along, below, length), (corner, at(high), across, beyond, width)]
        {
            let dimension = pen.dimension(from, to, way, through, &text);
            let (_, dimension) = pen.text_freest(dimension);
            pen.put_dimension(Role::Dimension, Some(Subject::Zone(zone.id.clone())), dimension);
        }
    }
}
