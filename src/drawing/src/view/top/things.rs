//! The things in the bay from above, their names, and where they are in the way.

use baywright_planner::geometry::{Bounds, DVec2, PlanPose};
use baywright_planner::model::{Id, Thing, ThingKind};
use baywright_planner::scene::PlacedThing;
use baywright_planner::{Code, Cure, Finding, Severity, Step, Subject};

use super::{Top, beside};
use crate::finding::{flagged, shared, stopping};
use crate::lettering::size;
use crate::list::{Item, Shape};
use crate::role::Role;
use crate::text::Weight;
use crate::thing_name::thing_name;
use crate::view::label::{NEEDED, TOO_DEAR, Wanted};
use crate::view::pen::{Pen, area};
use crate::view::space::Taken;

pub(super) fn draw(pen: &mut Pen<'_>, top: &Top<'_>) {
    let roof = top.scene.carried_at_mm + top.arrangement.vehicle.height_mm;
    for (thing, placed) in top.arrangement.bay.things.iter().zip(&top.scene.things) {
        let subject = Some(Subject::Thing(thing.id.clone()));
        let overhead = thing.span.bottom() >= roof;
        let told = is_told(top, thing);
        let loud = told || top.state.selected == subject;
        let box_px = box_px(pen, top, &placed.bounds);
        let role = match (overhead, loud) {
            (true, _) => Role::Overhead,
            (false, true) => Role::Thing(thing.material),
            (false, false) => Role::QuietThing(thing.material),
        };
        let is_part = beside::is_part(top, &thing.id);
        if !is_part {
            let shape = pen.outline(&placed.prism.outline, &top.view_from_bay);
            pen.push(role, subject.clone(), shape);
        }
        // What hangs above is seen through: nothing is read as its own for standing under it.
        if let (Some(subject), Some(place), true) = (&subject, box_px, told || !overhead) {
            pen.bodies.take(subject, place);
        }
        if is_part {
            // Nothing of its own is drawn in it.
        } else if overhead {
            for line in crossed(pen, top, thing, placed) {
                pen.line(Role::OverheadLine, subject.clone(), line);
            }
        } else {
            for line in inner_lines(thing) {
                let line = line.iter().map(|&p| top.at(thing.place.at * p)).collect();
                let role = if loud { Role::ThingLine } else { Role::QuietThingLine };
                pen.line(role, subject.clone(), line);
            }
        }
        if let Some(box_px) = box_px
            && (told || !overhead)
        {
            // With room for the ring around what is pointed out.
            let ringed = top.state.told.iter().any(|own| Some(own) == subject.as_ref());
            let box_px = if ringed { box_px.grown(RINGED_PX) } else { box_px };
            let how = match (ringed, told) {
                (true, _) => Taken::Ringed,
                (false, true) => Taken::Blamed,
                (false, false) => Taken::Body,
            };
            pen.space.take(box_px, how);
        }
    }
    let is_in_hand = |own: &Thing| matches!(&top.state.selected, Some(Subject::Thing(id)) if *id == own.id);
    beside::draw(pen, top, roof, |own| is_told(top, own) || is_in_hand(own));
}

/// Around what is pointed out no name stands nearer than this, px.
pub(super) const RINGED_PX: f64 = 9.0;

/// Whether a finding is about a thing, or it is pointed out.
fn is_told(top: &Top<'_>, thing: &Thing) -> bool {
    let is = |own: &Subject| matches!(own, Subject::Thing(id) if *id == thing.id);
    top.blamed.contains(&thing.id) || top.state.told.iter().any(is)
}

/// From corner to corner of what hangs above, so that it is told at a glance from what stands and from where something is to
/// go; none where it is too narrow for that.
fn crossed(pen: &Pen<'_>, top: &Top<'_>, thing: &Thing, placed: &PlacedThing) -> Vec<Vec<DVec2>> {
    let Bounds { low, high } = thing.footprint.outline().bounds();
    let size = (high - low) * pen.scale;
    if size.min_element() < CROSSED_PX
        || placed.prism.outline.area() * pen.scale * pen.scale < MOSTLY_FULL * size.x * size.y
    {
        return Vec::new();
    }
    let at = |p: DVec2| top.at(thing.place.at * p);
    let (left, right) = (DVec2::new(low.x, high.y), DVec2::new(high.x, low.y));
    vec![vec![at(low), at(high)], vec![at(left), at(right)]]
}

/// What hangs above and is narrower than this on the paper has no cross, px.
const CROSSED_PX: f64 = 12.0;

/// Lines that tell a parked car or a cabinet from a box, in the thing's own frame.
fn inner_lines(thing: &Thing) -> Vec<Vec<DVec2>> {
    let Bounds { low, high } = thing.footprint.outline().bounds();
    let at = |along: f64, aside: f64| {
        let (middle, half) = ((low + high) * 0.5, (high - low) * 0.5);
        middle + half * DVec2::new(along, aside)
    };
    match thing.kind {
        ThingKind::ParkedCar => {
            // Windscreen and rear window, whichever end is the nose.
            let pane = |from: f64, to: f64| {
                let (wide, narrow) = (0.74, 0.56);
                let ring = [at(from, wide), at(to, narrow), at(to, -narrow), at(from, -wide)];
                ring.into_iter().chain([at(from, wide)]).collect::<Vec<_>>()
            };
            vec![pane(0.38, 0.14), pane(-0.78, -0.62)]
        }
        ThingKind::ToolChest | ThingKind::Cabinet => {
            // The front, with its doors or drawers.
            vec![vec![at(-1.0, -0.76), at(1.0, -0.76)]]
        }
        _ => Vec::new(),
    }
}

/// The box around a box of the bay on the paper, px.
fn box_px(pen: &Pen<'_>, top: &Top<'_>, b: &Bounds) -> Option<Bounds> {
    let corners = [b.low, DVec2::new(b.high.x, b.low.y), b.high, DVec2::new(b.low.x, b.high.y)];
    Bounds::around(corners.map(|p| pen.px(top.at(p))))
}

/// The box that a thing's name keeps to, px: its own, or, where the thing lies slantwise in a box mostly empty, a small one
/// about its middle.
fn named_box(pen: &Pen<'_>, top: &Top<'_>, placed: &PlacedThing) -> Option<Bounds> {
    let whole = box_px(pen, top, &placed.bounds)?;
    let size = whole.size();
    let area = placed.prism.outline.area() * pen.scale * pen.scale;
    if area >= MOSTLY_FULL * size.x * size.y {
        return Some(whole);
    }
    let thick = area / size.length().max(1.0);
    Some(crate::view::space::around(whole.centre(), DVec2::splat(thick)))
}

/// The share of its box that a thing fills when a name beside the box is still beside the thing.
const MOSTLY_FULL: f64 = 0.45;

/// From this cost on the name of what nobody asks about is left out: on another thing it would seem to be that one's.
const SOFT_COST: f64 = 110.0;

/// More things than this are a crowd.
pub(crate) const CROWD: usize = 120;
/// Smaller than this on the paper they are specks, px.
const SPECK_PX: f64 = 26.0;

/// Hatches what is shared and cannot be.
pub(super) fn overlaps(pen: &mut Pen<'_>, top: &Top<'_>) {
    for told in flagged(top.assessment) {
        let subject = told.finding.subjects.first().cloned();
        let role = overlap_role(told.finding);
        for region in shared(top.arrangement, top.assessment, told.finding) {
            let shape = area(&region.region, &top.view_from_bay);
            if let Some(place) = box_px(pen, top, &region.region.bounds()) {
                pen.space
                    .take(place, if matches!(role, Role::Overlap(_)) { Taken::Wall } else { Taken::Reach });
            }
            pen.items.push(Item { role, subject: subject.clone(), finding: Some(told.index), shape });
        }
    }
}

/// A thing that stops the aiming, and by how much it would be out of the way.
struct WayOut<'a> {
    thing: &'a Id,
    placed: &'a PlacedThing,
    by: DVec2,
    finding: usize,
}

/// Each thing that stops the aiming and can be moved out of the way, once.
fn ways<'a>(top: &Top<'a>) -> Vec<WayOut<'a>> {
    let mut ways: Vec<WayOut<'a>> = Vec::new();
    if top.state.other_moves {
        return ways;
    }
    for told in flagged(top.assessment).filter(|told| told.finding.severity == Severity::Stops) {
        let Some(Cure { step: Step::MoveThing { thing, by }, .. }) = &told.finding.cure else { continue };
        let things = top.arrangement.bay.things.iter().zip(&top.scene.things);
        let Some((_, placed)) = things.into_iter().find(|(own, _)| own.id == *thing) else { continue };
        if !ways.iter().any(|own| own.thing == thing) {
            ways.push(WayOut { thing, placed, by: *by, finding: told.index });
        }
    }
    ways
}

/// Where things are to go stays clear of what is written.
pub(super) fn keep_ways_out(pen: &mut Pen<'_>, top: &Top<'_>) {
    for way in ways(top) {
        let moved = Bounds { low: way.placed.bounds.low + way.by, high: way.placed.bounds.high + way.by };
        if let Some(place) = box_px(pen, top, &moved) {
            pen.space.take(place, Taken::There);
        }
        let from = top.at(way.placed.bounds.centre());
        pen.take_line(from, from + top.view_from_bay.turned(way.by), Taken::Way);
    }
}

/// Where each thing that stops the aiming would be out of the way, and an arrow from where it stands.
pub(super) fn ways_out(pen: &mut Pen<'_>, top: &Top<'_>) {
    for way in ways(top) {
        let there = PlanPose::new(way.by, 0.0);
        let shape = pen.outline(&way.placed.prism.outline, &(top.view_from_bay * there));
        let from = top.at(way.placed.bounds.centre());
        let lines = arrow(pen, from, from + top.view_from_bay.turned(way.by)).map(Shape::Line);
        let under = lines.iter().cloned().map(|line| (line, Role::WayOutUnder));
        let lines = under.chain(lines.iter().cloned().map(|line| (line, Role::WayOut)));
        for (shape, role) in std::iter::once((shape, Role::OutOfTheWay)).chain(lines) {
            let subject = Some(Subject::Thing(way.thing.clone()));
            pen.items.push(Item { role, subject, finding: Some(way.finding), shape });
        }
    }
}

/// A line with a head, all in mm of the view; short ways get a head of their own length.
pub(super) fn arrow(pen: &Pen<'_>, from: DVec2, to: DVec2) -> [Vec<DVec2>; 2] {
    /// Length of an arrow's head, px, and half its width as a share of that.
    const HEAD_PX: f64 = 10.0;
    const HALF_WIDTH: f64 = 0.5;
    let head = pen.length(HEAD_PX * pen.enlarged).min(from.distance(to));
    let back = (from - to).normalize_or_zero() * head;
    let aside = back.perp() * HALF_WIDTH;
    [vec![from, to], vec![to + back + aside, to, to + back - aside]]
}

/// A zone that reaches out of the room is large, and nothing is there: hatched lightly.
pub(crate) fn overlap_role(finding: &Finding) -> Role {
    match (finding.code(), finding.subjects.first()) {
        (Code::OutsideRoom, Some(Subject::Zone(_))) => Role::OverlapAside(finding.severity),
        _ => Role::Overlap(finding.severity),
    }
}

/// Whose names are put down.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Named {
    /// Of what stops the aiming: never left out.
    Stopping,
    /// Of what else findings are about, and of what is in hand.
    Told,
    /// Of what else hangs above, which one may run one's head into: how high.
    Hanging,
    /// Of all else.
    Rest,
}

/// The names of some of the things.
pub(super) fn names(pen: &mut Pen<'_>, top: &Top<'_>, which: Named) {
    let style = pen.style(size::LABEL, Weight::SemiBold);
    let soft = pen.style(size::SMALL, Weight::Regular);
    let roof = top.scene.carried_at_mm + top.arrangement.vehicle.height_mm;
    // What the pointer is over changes no place: nothing jumps under a moving pointer.
    let in_hand = |thing: &Thing| matches!(&top.state.selected, Some(Subject::Thing(id)) if *id == thing.id);
    let crowd = top.arrangement.bay.things.len() > CROWD;
    // What is in hand is named first.
    let first_round = |thing: &Thing| in_hand(thing) || is_told(top, thing);
    let stopping = stopping(top.assessment);
    let told = matches!(which, Named::Stopping | Named::Told);
    let things = || {
        let all = top.arrangement.bay.things.iter().zip(&top.scene.things);
        all.filter(|(thing, _)| {
            let stops = stopping.contains(&thing.id);
            match which {
                Named::Stopping => stops,
                Named::Told => first_round(thing) && !stops,
                Named::Hanging | Named::Rest => {
                    let hangs = thing.span.bottom() >= roof;
                    !first_round(thing) && !stops && hangs == (which == Named::Hanging)
                }
            }
        })
    };
    let first = things().filter(|(thing, _)| in_hand(thing));
    let rest = things().filter(|(thing, _)| !in_hand(thing));
    for (thing, placed) in first.chain(rest) {
        let Some(around) = named_box(pen, top, placed) else { continue };
        if !pen.window.meets(&around) {
            continue;
        }
        // In a crowd of specks a name belongs to none of them; whoever comes nearer sees the names.
        let speck = around.size().max_element() < SPECK_PX * pen.enlarged;
        if !told && crowd && speck {
            continue;
        }
        let overhead = thing.span.bottom() >= roof;
        let blamed = is_told(top, thing);
        let Some(name) = thing_name(top.arrangement, top.words, thing) else { continue };
        let (hangs, at);
        let (text, brief) = if overhead {
            let bottom = thing.span.bottom();
            (hangs, at) = (top.words.overhead(&name, bottom), top.words.at_height(bottom));
            (hangs.as_str(), (!blamed).then_some(at.as_str()))
        } else {
            (&*name, None)
        };
        let ringed = top.state.told.iter().any(|own| matches!(own, Subject::Thing(id) if *id == thing.id));
        let around = if ringed { around.grown(RINGED_PX) } else { around };
        let body = if ringed {
            Some(Taken::Ringed)
        } else if blamed {
            Some(Taken::Blamed)
        } else {
            (!overhead).then_some(Taken::Body)
        };
        let wanted = Wanted {
            text,
            brief,
            role: if first_round(thing) { Role::Label } else { Role::LabelSoft },
            subject: Some(Subject::Thing(thing.id.clone())),
            style: if first_round(thing) && !overhead { style } else { soft },
            around,
            most_width: if overhead { 240.0 } else { 150.0 } * pen.enlarged,
            must: false,
            inside: true,
            body,
            led: blamed || in_hand(thing) || overhead,
            most_cost: match which {
                Named::Stopping => NEEDED,
                Named::Told | Named::Hanging => TOO_DEAR,
                Named::Rest => SOFT_COST,
            },
            under: None,
        };
        pen.name(wanted);
    }
}
