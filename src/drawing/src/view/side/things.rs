//! The things from the side: those on the axis full, those to its side lighter and behind.

use baywright_planner::geometry::{Bounds, DVec2, Outline};
use baywright_planner::model::Thing;
use baywright_planner::scene::PlacedTarget;
use baywright_planner::{Code, Finding, Subject};

use super::{Side, rectangle, under_floor};
use crate::clip;
use crate::finding::{flagged, shared, stopping};
use crate::lettering::size;
use crate::list::{Item, Shape};
use crate::role::Role;
use crate::text::Weight;
use crate::thing_name::thing_name;
use crate::view::label::{NEEDED, TOO_DEAR, Wanted};
use crate::view::pen::Pen;
use crate::view::space::Taken;
use crate::view::top::CROWD;
use crate::view::top::overlap_role;

/// A thing that the view shows.
pub(super) struct Shown {
    /// Its position in the bay's list.
    index: usize,
    /// How far off the axis its near side stands, mm.
    off: f64,
    /// From where to where it is drawn along the axis, mm.
    pub along: (f64, f64),
    /// Whether it stands on the axis.
    on_axis: bool,
    /// Whether a finding is about it.
    blamed: bool,
}

/// A thing as drawn, for its name.
pub(super) struct Drawn {
    /// What is shown of it.
    shown: Shown,
    /// Its box, px.
    around: Bounds,
}

/// Beyond the set-up and its zones things are shown this far off the axis, mm: about as far as someone walks.
const AROUND_MM: f64 = 600.0;

/// The band on both sides of the axis that the view is about: the car, the set-up, the zones; y to the left, mm.
fn band(side: &Side<'_>) -> (f64, f64) {
    let targets = side.scene.targets.iter().flat_map(|t| &t.solids);
    let zones = side.scene.zones.iter().map(|z| &z.prism);
    let solids = side.scene.car.iter().chain(targets).chain(zones).map(|solid| side.extent(&solid.outline));
    let (low, high) = solids
        .fold((0.0, 0.0), |(low, high): (f64, f64), extent| (low.min(extent.low.y), high.max(extent.high.y)));
    (low - AROUND_MM, high + AROUND_MM)
}

/// The things that the view shows, the farthest from the axis first: what stands in the band about the axis and between
/// the end walls; what a finding is about and what is in hand, wherever it stands.
pub(super) fn shown(side: &Side<'_>) -> Vec<Shown> {
    let half = side.arrangement.vehicle.width_mm * 0.5;
    let (right, left) = band(side);
    let (from, to) = side.room;
    let things = side.arrangement.bay.things.iter().zip(&side.scene.things).enumerate();
    let mut shown: Vec<Shown> = things
        .filter_map(|(index, (thing, placed))| {
            let extent = side.extent(&placed.prism.outline);
            let off = extent.low.y.max(-extent.high.y).max(0.0);
            let (low, high) = (extent.low.x, extent.high.x);
            let in_hand = in_hand(side, thing);
            let blamed = side.blamed.contains(&thing.id);
            let between = from - 1.0 <= low && high <= to + 1.0;
            if !blamed && !in_hand {
                let near = extent.low.y <= left && right <= extent.high.y;
                // What reaches through an end wall stands in a part of the room that the axis does not cross.
                let most_of_it = high.min(to) - low.max(from) >= MOST_OF_IT * (high - low);
                if !near || !most_of_it {
                    return None;
                }
            }
            let along = if blamed || in_hand { (low, high) } else { (low.max(from), high.min(to)) };
            Some(Shown { index, off, along, on_axis: off <= half && between, blamed })
        })
        .collect();
    // Ties in the bay's order.
    shown.sort_by(|a, b| b.off.total_cmp(&a.off));
    shown
}

/// Whether it is in hand, or a part of what is.
fn in_hand(side: &Side<'_>, thing: &Thing) -> bool {
    matches!(&side.state.selected, Some(Subject::Thing(id)) if side.arrangement.is_one(id, &thing.id))
}

/// A thing of which less than this share stands between the end walls is left out; of others the rest is cut off.
const MOST_OF_IT: f64 = 0.5;

pub(super) fn draw(pen: &mut Pen<'_>, side: &Side<'_>, shown: Vec<Shown>) -> Vec<Drawn> {
    let mut drawn = Vec::with_capacity(shown.len());
    for shown in shown {
        let own = side.arrangement.bay.things.get(shown.index).zip(side.scene.things.get(shown.index));
        let Some((thing, placed)) = own else { continue };
        let on_axis = shown.on_axis;
        let subject = Some(Subject::Thing(thing.id.clone()));
        let loud = shown.blamed || in_hand(side, thing);
        let role = match (on_axis, loud) {
            (true, true) => Role::Thing(thing.material),
            (true, false) => Role::QuietThing(thing.material),
            (false, _) => Role::ThingAside(thing.material),
        };
        let ring = rectangle(shown.along, (placed.prism.span.bottom(), placed.prism.span.top()));
        let Some(around) = Bounds::around(ring.iter().map(|&p| pen.px(p))) else { continue };
        if let Some(subject) = &subject {
            pen.bodies.take(subject, around);
        }
        pen.ring(role, subject, ring);
        if shown.blamed {
            pen.space.take(around, Taken::Blamed);
        } else if on_axis {
            pen.space.take(around, Taken::Body);
        }
        drawn.push(Drawn { shown, around });
    }
    drawn
}

/// The heights that are shared and cannot be, over the length on which they are.
pub(super) fn overlaps(pen: &mut Pen<'_>, side: &Side<'_>, drawn: &[Drawn]) {
    for told in flagged(side.assessment) {
        let subject = told.finding.subjects.first().cloned();
        let thing = told.finding.culprit();
        let is_culprit = |d: &&Drawn| side.arrangement.bay.things.get(d.shown.index).map(|t| &t.id) == thing;
        let aside = thing.is_some() && drawn.iter().find(is_culprit).is_some_and(|d| !d.shown.on_axis);
        let severity = told.finding.severity;
        let role = if aside { Role::OverlapAside(severity) } else { overlap_role(told.finding) };
        let regions = shared(side.arrangement, side.assessment, told.finding);
        let bands = regions.into_iter().map(|region| {
            let x = side.along(&Outline::Polygon(region.region));
            rectangle(x, (region.heights.bottom(), region.heights.top()))
        });
        let rings: Vec<_> = if told.finding.code() == Code::SightBlocked {
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

/// The names of the things that findings blame, those that stop the aiming first, or of all others.
pub(super) fn names(pen: &mut Pen<'_>, side: &Side<'_>, drawn: &[Drawn], told: bool) {
    let strong = pen.style(size::LABEL, Weight::SemiBold);
    let soft = pen.style(size::SMALL, Weight::Regular);
    // Things on the axis first, then the others, each from the nearest.
    let stopping = stopping(side.assessment);
    let thing_of = |d: &Drawn| side.arrangement.bay.things.get(d.shown.index);
    let stops = |d: &Drawn| thing_of(d).is_some_and(|own| stopping.contains(&own.id));
    let nearest = |on_axis: bool| {
        drawn.iter().rev().filter(move |d| d.shown.blamed == told && d.shown.on_axis == on_axis)
    };
    let all = || nearest(true).chain(nearest(false));
    let in_order = all().filter(|d| stops(d)).chain(all().filter(|d| !stops(d)));
    // Of a crowd behind one another only the nearest are named; the rest would cover one another's names.
    let most = if !told && drawn.len() > CROWD { MOST_NAMES } else { usize::MAX };
    for (place, thing) in in_order.enumerate() {
        let Some(own) = thing_of(thing) else { continue };
        let Some(name) = thing_name(side.arrangement, side.words, own) else { continue };
        let Some(around) = overlap_box(&thing.around, &pen.window) else { continue };
        let subject = Some(Subject::Thing(own.id.clone()));
        let in_hand = subject == side.state.selected;
        if place >= most && !in_hand {
            continue;
        }
        let strongly = thing.shown.blamed || in_hand;
        pen.name(Wanted {
            text: &name,
            brief: None,
            role: if strongly { Role::Label } else { Role::LabelSoft },
            subject,
            style: if strongly { strong } else { soft },
            around,
            most_width: 150.0 * pen.enlarged,
            must: false,
            inside: true,
            body: match (thing.shown.blamed, thing.shown.on_axis) {
                (true, _) => Some(Taken::Blamed),
                (false, true) => Some(Taken::Body),
                (false, false) => None,
            },
            led: thing.shown.blamed || in_hand,
            most_cost: match (stops(thing), strongly) {
                (true, _) => NEEDED,
                (false, true) => TOO_DEAR,
                (false, false) => NAME_COST,
            },
            under: stands_on_floor(own).then(|| under_floor(pen)),
        });
    }
}

/// Whether a thing stands on the floor, or so little above it that there is no room for a name.
fn stands_on_floor(thing: &Thing) -> bool {
    thing.span.bottom() < ON_FLOOR_MM
}

/// What is less above the floor stands on it to the eye, mm.
const ON_FLOOR_MM: f64 = 200.0;

/// So many things of a crowd are named, those that findings blame not counted.
const MOST_NAMES: usize = 40;

/// A name that would cover as much as this is left out: seen from the side much stands in one place.
const NAME_COST: f64 = 50.0;

/// What two boxes share.
fn overlap_box(a: &Bounds, b: &Bounds) -> Option<Bounds> {
    a.meets(b).then(|| Bounds { low: a.low.max(b.low), high: a.high.min(b.high) })
}
