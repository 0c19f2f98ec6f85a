//! The top view as a customer sees it beside one idea: only what the idea is about, the rest pale or left out.

use std::collections::BTreeSet;

use baywright_planner::customer::{Idea, Moves};
use baywright_planner::geometry::{Bounds, DVec2};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::{Assessment, Scene, Severity, Step, Subject};

use super::dimensions::line_cost;
use super::things::Named;
use super::{Top, aiming, car, room, things};
use crate::list::Dimension;
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
    let (zones, beam, rest) = match idea {
        Idea::OnlyTarget | Idea::Why(_) => (false, true, false),
        Idea::EmptyFloor(_) => (true, false, false),
        Idea::StandsIn(_) | Idea::Moves(_) => (true, true, true),
        Idea::SendsBack(_) => (false, true, true),
        Idea::Work(_) => (false, false, false),
    };
    let top = Top {
        arrangement: shown.arrangement,
        assessment: shown.assessment,
        scene: &shown.assessment.scene,
        state: shown.state,
        words: &shown.words,
        view_from_bay: shown.extents.bay_from_top.inverse(),
        blamed: named(idea, shown.assessment),
        has_things: rest,
    };
    room::draw(&mut pen, &top);
    // What local rules want free, and who is in the next bay, is another matter.
    pen.items.retain(|item| !matches!(item.role, Role::KeepFree | Role::OtherBay));
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
        things::names(&mut pen, &top, Named::Stopping);
        things::names(&mut pen, &top, Named::Told);
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
        Idea::SendsBack(own) => std::iter::once(&own.thing).collect(),
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
pub(super) fn pale(pen: &mut Pen<'_>, top: &Top<'_>) {
    for item in &mut pen.items {
        let Some(Subject::Thing(id)) = &item.subject else { continue };
        if top.blamed.contains(id) {
            continue;
        }
        if let Role::Thing(material) = item.role {
            item.role = Role::ThingAside(material);
        }
    }
    let is_line = |role: Role| matches!(role, Role::ThingLine | Role::Overhead | Role::OverheadLine);
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

/// A length or a width of zones: of one, or of several that begin and end alike.
struct Size<'a> {
    from: DVec2,
    to: DVec2,
    /// Along the dimension, of length 1.
    along: DVec2,
    /// Away from the zone, square to that, of length 1.
    out: DVec2,
    /// How far out the zone reaches, and how far the other way, mm.
    reach: [f64; 2],
    names: Vec<&'a str>,
}

impl Size<'_> {
    /// Whether another one begins and ends where this one does.
    fn is_same(&self, other: &Self) -> bool {
        let off = |p: DVec2, q: DVec2| (p - q).dot(self.along).abs();
        self.along.dot(other.along) > 1.0 - 1e-9
            && off(self.from, other.from) < ONE_SIZE_MM
            && off(self.to, other.to) < ONE_SIZE_MM
    }
}

/// Ends that differ by less are one, mm.
const ONE_SIZE_MM: f64 = 0.5;

/// How long and how wide each zone is, along its own frame. What several share is told once; of several zones each other figure
/// says whose it is.
fn sizes(pen: &mut Pen<'_>, top: &Top<'_>) {
    let mut all: Vec<Size<'_>> = Vec::new();
    for zone in &top.arrangement.aiming.zones {
        let Some(frame) = top.scene.bay_from_zone(top.arrangement, &zone.frame) else { continue };
        let Bounds { low, high } = zone.outline.bounds();
        let at = |p: DVec2| top.at(frame * p);
        let (along, across) = (at(DVec2::X) - at(DVec2::ZERO), at(DVec2::Y) - at(DVec2::ZERO));
        let corner = at(DVec2::new(high.x, low.y));
        for (from, to, along, out) in [(at(low), corner, along, -across), (corner, at(high), across, along)] {
            // Zones of the sensor and of the target lie the other way round: every size runs to the right or up.
            let runs_on = along.x > along.y.abs() || along.y > along.x.abs();
            let (from, to, along) = if runs_on { (from, to, along) } else { (to, from, -along) };
            let out = if out.x + out.y * 0.5 > 0.0 { out } else { -out };
            let ends = [corner, at(DVec2::new(low.x, high.y))].map(|p| p.dot(out));
            let reach = [ends[0].max(ends[1]), ends[0].min(ends[1])];
            let size = Size { from, to, along, out, reach, names: vec![zone.id.as_str()] };
            match all.iter_mut().find(|own| own.is_same(&size)) {
                Some(own) => {
                    own.reach = [own.reach[0].max(size.reach[0]), own.reach[1].min(size.reach[1])];
                    own.names.extend(size.names);
                }
                None => all.push(size),
            }
        }
    }
    let of_several = top.arrangement.aiming.zones.len() > 1;
    for size in all {
        let length = (size.to - size.from).dot(size.along);
        let bare = top.words.length(length);
        let named = match size.names.as_slice() {
            [name] if of_several => top.words.zone_size(length, name),
            _ => bare.clone(),
        };
        // Without its name where that has no room; the words beside the picture tell it too.
        let put = [named, bare]
            .into_iter()
            .find_map(|text| placed(pen, &size, &text).filter(|(cost, _)| *cost < MOST_SIZE_COST));
        if let Some((_, dimension)) = put {
            pen.put_dimension(Role::Dimension, None, dimension);
        }
    }
}

/// Where the figure of a size stands best, and what it costs there.
fn placed(pen: &Pen<'_>, size: &Size<'_>, text: &str) -> Option<(f64, Dimension)> {
    let mut best: Option<(f64, Dimension)> = None;
    for (side, reach) in [1.0, -1.0].into_iter().zip(size.reach) {
        for step in 0..SIZE_STEPS {
            let off = pen.length((SIZE_OFF_PX + SIZE_STEP_PX * f64::from(step)) * pen.enlarged);
            let through = size.from + size.out * (reach + side * off - size.from.dot(size.out));
            let dimension = pen.dimension(size.from, size.to, size.along, through, text);
            let (worse, dimension) = pen.text_freest(dimension);
            let extra = SIZE_STEP_COST * f64::from(step) + if side < 0.0 { SIZE_STEP_COST } else { 0.0 };
            let cost = line_cost(pen, &dimension) + worse + extra;
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, dimension));
            }
        }
    }
    best
}

/// From this cost on a size is left out: on the car, say, it would be the car's.
const MOST_SIZE_COST: f64 = 200.0;
/// How many places on each side of the zones are tried for a size, how far one is from the next, px, and what each step costs.
const SIZE_STEPS: u8 = 8;
const SIZE_STEP_PX: f64 = 18.0;
const SIZE_STEP_COST: f64 = 12.0;
