//! Things that cannot be where they are said to be.
//!
//! Rule: a thing stands inside the room and under its ceiling, and two things that fill the same heights, or a thing and a
//! runway, are not in one another by more than their places are known. Otherwise a figure was typed wrongly, and whatever is said of that thing is in doubt: care.
//! Limit: how well the places are known, as entered; into a wall, at least the shop's own `into_wall_mm`: a pilaster or a
//! shelf let in is no mistake of typing. The parts of a lift are hinged into one another and not looked at.

use std::collections::{BTreeMap, BTreeSet};

use baywright_geometry::clearance::{Clearance, Intrusion, clearance};
use baywright_geometry::{Bounds, DVec2, Outline};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, Seen, finding, middle_of_both, thing_subject};
use crate::model::{ShopFigure, Thing, ThingKind};

pub(super) const CHECK: Check = Check { codes: &[Code::ThingPlace], whole, ..Check::NONE };

/// Why a thing cannot be where it is said to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misplaced {
    /// It is outside the room.
    Beyond,
    /// Things are in one another: all that the finding names.
    InOneAnother,
    /// So many things lie across one another that not every two of them were looked at.
    NotCompared,
}

/// A thing that is tried elsewhere goes only where it fits: this is asked of things as they were entered.
fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    outside(context, findings);
    through_ceiling(context, findings);
    in_runways(context, findings);
    in_one_another(context, findings);
}

/// The bay's own things: what stands there of another set-up is made of its figures, and told in its answer.
fn entered<'a>(context: &'a Context<'_>) -> impl Iterator<Item = Seen<'a>> {
    context.things().filter(move |seen| context.arrangement.part_beside(&seen.thing.id).is_none())
}

fn outside(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let room = context.scene.room.walls().bounds();
    for seen in entered(context) {
        let bounds = seen.placed.bounds;
        let (limit, basis) = into_shell(context, &seen);
        let found = super::outside_room::protruding_deeper(context, &seen.placed.prism, limit);
        let Some(deepest) = found.first() else { continue };
        let at = place_of(&room, &bounds).extend(seen.placed.prism.span.bottom());
        let barrier = super::outside_room::barrier(context, deepest.deepest);
        let subjects = vec![thing_subject(&seen.thing.id), barrier];
        findings.push(
            finding(Facts::ThingPlace(Misplaced::Beyond), Severity::Care, subjects, at, basis)
                .against(Quantity::Length(deepest.depth), Quantity::Length(limit)),
        );
    }
}

/// How far into the shell of the building a thing may reach, mm, and who says so.
fn into_shell(context: &Context<'_>, seen: &Seen<'_>) -> (f64, Basis) {
    let into_wall = context.arrangement.shop.into_wall_mm;
    let known = seen.placed.known_mm;
    if into_wall > known { (into_wall, Basis::Shop(ShopFigure::IntoWall)) } else { (known, Basis::AsEntered) }
}

/// A height with a nought too many, or from a ceiling that is none.
fn through_ceiling(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let ceiling = context.arrangement.bay.ceiling_mm;
    for seen in entered(context) {
        let over = seen.placed.prism.span.top() - ceiling;
        let (limit, basis) = into_shell(context, &seen);
        if over > limit {
            let subjects = vec![thing_subject(&seen.thing.id), Subject::Ceiling];
            let at = seen.placed.bounds.centre().extend(ceiling);
            findings.push(
                finding(Facts::ThingPlace(Misplaced::Beyond), Severity::Care, subjects, at, basis)
                    .against(Quantity::Length(over), Quantity::Length(limit)),
            );
        }
    }
}

/// Things in the steel of a runway, whether it carries the car or not: all of them as one finding, first the thing that is
/// deepest and its runway.
fn in_runways(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let walls = context.arrangement.shop.within(context.arrangement.bay.walls_known);
    let mut found: Vec<(Subject, Subject, Finding)> = Vec::new();
    let (mut deepest, mut at_deepest) = (0.0, 0);
    let mut left = MOST_LOOKS;
    'all: for (runway, steel) in context.idle_runways().chain(context.carrying_steel()) {
        let bounds = steel.outline.bounds();
        for seen in entered(context).filter(|seen| seen.placed.bounds.meets(&bounds) && is_solid(seen.thing))
        {
            let Some(rest) = left.checked_sub(looks(&seen.placed.prism.outline) * looks(&steel.outline))
            else {
                findings.push(not_compared(&seen));
                break 'all;
            };
            left = rest;
            let Clearance::Intrudes(shared) = clearance(&seen.placed.prism, &steel) else { continue };
            let known = seen.placed.known_mm + walls;
            if shared.depth <= known + super::SPEAKS_FROM_MM {
                continue;
            }
            let at = middle_of_both(&seen.placed.bounds, &bounds).extend(shared.heights.bottom());
            let facts = Facts::ThingPlace(Misplaced::InOneAnother);
            let own = finding(facts, Severity::Care, Vec::new(), at, Basis::AsEntered)
                .against(Quantity::Length(shared.depth), Quantity::Length(known));
            if shared.depth > deepest {
                (deepest, at_deepest) = (shared.depth, found.len());
            }
            found.push((thing_subject(&seen.thing.id), runway.clone(), own));
        }
    }
    let Some((thing, runway, worst)) = found.get(at_deepest).cloned() else { return };
    let mut subjects = vec![thing, runway];
    let rest: BTreeSet<Subject> = found.into_iter().flat_map(|(thing, runway, _)| [thing, runway]).collect();
    let rest: Vec<Subject> = rest.into_iter().filter(|own| !subjects.contains(own)).collect();
    subjects.extend(rest);
    findings.push(Finding { subjects, ..worst });
}

/// That not every two were looked at.
fn not_compared(first: &Seen<'_>) -> Finding {
    let at = first.placed.bounds.centre().extend(first.placed.prism.span.bottom());
    let subjects = vec![thing_subject(&first.thing.id)];
    finding(Facts::ThingPlace(Misplaced::NotCompared), Severity::Care, subjects, at, Basis::AsEntered)
}

/// Where to point: the thing's middle, brought into the room's box.
fn place_of(room: &Bounds, thing: &Bounds) -> DVec2 {
    thing.centre().clamp(room.low, room.high)
}

/// Things that are in one another, all of a heap as one finding: first the two of which one is deepest in the other as far
/// as they were looked at, then the rest in the bay's order.
fn in_one_another(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let things: Vec<Seen<'_>> = entered(context).filter(|seen| is_solid(seen.thing)).collect();
    let (heaps, looked_at_all) = heaps(&things);
    for heap in heaps {
        let (Some(one), Some(other)) = (things.get(heap.deepest.0), things.get(heap.deepest.1)) else {
            continue;
        };
        let first = [one, other].into_iter();
        let rest = heap.members.iter().filter(|&&own| own != heap.deepest.0 && own != heap.deepest.1);
        let all = first.chain(rest.filter_map(|&own| things.get(own)));
        let at = middle_of_both(&one.placed.bounds, &other.placed.bounds);
        findings.push(
            finding(
                Facts::ThingPlace(Misplaced::InOneAnother),
                Severity::Care,
                all.map(|seen| thing_subject(&seen.thing.id)).collect(),
                at.extend(heap.from_height),
                Basis::AsEntered,
            )
            .against(Quantity::Length(heap.depth), Quantity::Length(known_of(one, other))),
        );
    }
    if let Some(first) = things.first().filter(|_| !looked_at_all) {
        findings.push(not_compared(first));
    }
}

/// Things of which each is in another one of them, by their positions.
struct Heap {
    members: Vec<usize>,
    /// Of those that were looked at, the two that are deepest in one another beyond what their places are known by.
    deepest: (usize, usize),
    depth: f64,
    /// Where the heights begin that these two share, mm.
    from_height: f64,
}

/// How well two places are known together.
fn known_of(one: &Seen<'_>, other: &Seen<'_>) -> f64 {
    one.placed.known_mm + other.placed.known_mm
}

/// The heaps, in the order of their first members, and whether every pair was looked at that might make one. Pairs are found
/// along x, so that a hall full of things costs no square of their number; two that are in one heap already are not looked
/// at again; of the rest so many are, and no more, as [`MOST_LOOKS`] allows.
fn heaps(things: &[Seen<'_>]) -> (Vec<Heap>, bool) {
    let low = |i: usize| things.get(i).map_or(0.0, |seen| seen.placed.bounds.low.x);
    let high = |i: usize| things.get(i).map_or(0.0, |seen| seen.placed.bounds.high.x);
    let mut order: Vec<usize> = (0..things.len()).collect();
    order.sort_by(|&a, &b| low(a).total_cmp(&low(b)));
    let mut of = Joined::new(things.len());
    let mut found: Vec<(usize, usize, Intrusion)> = Vec::new();
    let mut left = MOST_LOOKS;
    for (k, &i) in order.iter().enumerate() {
        for &j in order.iter().skip(k + 1).take_while(|&&j| low(j) <= high(i)) {
            let (Some(one), Some(other)) = (things.get(i.min(j)), things.get(i.max(j))) else { continue };
            let beyond = known_of(one, other) + super::SPEAKS_FROM_MM;
            // No way out is longer than that of the one's box out of the other's: of a narrow thing in the middle of a wide
            // one that is half the wide one and half its own, not its own width.
            let (a, b) = (one.placed.bounds, other.placed.bounds);
            let way_out = (a.high - b.low).min(b.high - a.low);
            if way_out.min_element() <= beyond || of.are_joined(i, j) {
                continue;
            }
            let Some(rest) =
                left.checked_sub(looks(&one.placed.prism.outline) * looks(&other.placed.prism.outline))
            else {
                return (told(found, of), false);
            };
            left = rest;
            if let Clearance::Intrudes(shared) = clearance(&one.placed.prism, &other.placed.prism)
                && shared.depth > beyond
            {
                of.join(i, j);
                found.push((i.min(j), i.max(j), shared));
            }
        }
    }
    (told(found, of), true)
}

/// So many pairs of corners are looked at in all: two thousand things that stand side by side need a hundredth of it, since
/// only things whose boxes are in one another are looked at.
const MOST_LOOKS: usize = 1_000_000;

/// What one of a pair makes of the work of looking at it: its corners.
fn looks(outline: &Outline) -> usize {
    match outline {
        Outline::Polygon(polygon) => polygon.rings().map(<[DVec2]>::len).sum(),
        Outline::Circle(_) => 1,
    }
}

fn told(found: Vec<(usize, usize, Intrusion)>, mut of: Joined) -> Vec<Heap> {
    let mut heaps: BTreeMap<usize, Heap> = BTreeMap::new();
    for (one, other, shared) in found {
        let heap = heaps.entry(of.first_of(one)).or_insert_with(|| Heap {
            members: Vec::new(),
            deepest: (one, other),
            depth: 0.0,
            from_height: 0.0,
        });
        heap.members.extend([one, other]);
        if shared.depth > heap.depth {
            heap.deepest = (one, other);
            heap.depth = shared.depth;
            heap.from_height = shared.heights.bottom();
        }
    }
    for heap in heaps.values_mut() {
        heap.members.sort_unstable();
        heap.members.dedup();
    }
    heaps.into_values().collect()
}

/// Which of a number of things hang together.
struct Joined {
    above: Vec<usize>,
}

impl Joined {
    fn new(count: usize) -> Self {
        Self { above: (0..count).collect() }
    }

    /// The first of those that one hangs together with.
    fn first_of(&mut self, of: usize) -> usize {
        let mut at = of;
        while let Some(&above) = self.above.get(at)
            && above != at
        {
            // Halving the way: the next question is shorter.
            let further = self.above.get(above).copied().unwrap_or(above);
            if let Some(own) = self.above.get_mut(at) {
                *own = further;
            }
            at = further;
        }
        at
    }

    fn are_joined(&mut self, a: usize, b: usize) -> bool {
        self.first_of(a) == self.first_of(b)
    }

    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.first_of(a), self.first_of(b));
        if let Some(own) = self.above.get_mut(a.max(b)) {
            *own = a.min(b);
        }
    }
}

const fn is_solid(thing: &Thing) -> bool {
    !matches!(thing.kind, ThingKind::LiftPost | ThingKind::LiftArm)
}

#[cfg(test)]
mod tests {
    use baywright_geometry::PlanPose;

    use super::*;
    use crate::check::testing::{assess, cabinet, check, none, raised, span, with};
    use crate::model::{Arrangement, Known, Place};

    /// A place typed with a nought too many, and two things in one place.
    #[test]
    fn things_that_cannot_be_there() {
        let found = check(
            &with(vec![cabinet("cabinet", (7_450.0, 44_750.0), 900.0, 450.0)]),
            Code::ThingPlace,
            Severity::Care,
            Some(44_750.0 + 225.0 - 6_000.0),
        );
        assert_eq!(found.subjects[1], Subject::Wall("left wall".into()));
        // Let into the wall by 50 mm it may be.
        none(&with(vec![cabinet("shelf", (7_450.0, 5_825.0), 900.0, 450.0)]), Code::ThingPlace);
        let both = [
            cabinet("one", (1_000.0, 500.0), 600.0, 400.0),
            cabinet("other", (1_550.0, 600.0), 600.0, 400.0),
        ];
        check(&with(both.clone().into()), Code::ThingPlace, Severity::Care, Some(50.0));
        // A narrow one through the middle of a wide one: 450 mm + 5 mm are the way out, far more than it is wide.
        let narrow =
            [cabinet("bench", (1_000.0, 500.0), 900.0, 900.0), cabinet("pipe", (1_000.0, 500.0), 10.0, 10.0)];
        let narrow = narrow.map(|own| Thing { place: Place { known: Known::ByEye, ..own.place }, ..own });
        check(&with(narrow.into()), Code::ThingPlace, Severity::Care, Some(455.0));
        let mut above = both;
        above[1].span = span(1_000.0, 1_500.0);
        none(&with(above.into()), Code::ThingPlace);
    }

    /// A thousand things in one place are one finding, not half a million; two heaps are two; who only touches is in none.
    #[test]
    fn things_in_one_another_are_said_once_a_heap() {
        let mut things: Vec<_> =
            (0..1_000).map(|i| cabinet(&format!("one {i}"), (1_000.0, 500.0), 600.0, 400.0)).collect();
        // A chain: the first and the last are in no other but their neighbours.
        things.extend(
            (0..5).map(|i| {
                cabinet(&format!("chain {i}"), (3_000.0 + 500.0 * f64::from(i), 500.0), 600.0, 400.0)
            }),
        );
        things.push(cabinet("beside", (1_600.0, 500.0), 600.0, 400.0));
        let found = assess(&with(things)).findings;
        let found: Vec<_> = found.iter().filter(|f| f.code() == Code::ThingPlace).collect();
        let sizes: Vec<usize> = found.iter().map(|f| f.subjects.len()).collect();
        assert_eq!(sizes, [5, 1_000]);
        let named: BTreeSet<_> = found[1].subjects.iter().collect();
        assert_eq!(named.len(), 1_000, "each once");
        assert!(!found[1].subjects.contains(&Subject::Thing("beside".into())));
        // The first two are the deepest that were looked at.
        check(
            &with(vec![
                cabinet("a", (1_000.0, 500.0), 600.0, 400.0),
                cabinet("b", (1_560.0, 500.0), 600.0, 400.0),
                cabinet("c", (2_060.0, 500.0), 600.0, 400.0),
            ]),
            Code::ThingPlace,
            Severity::Care,
            Some(100.0),
        );
    }

    /// Slanted bars that lie in one another's boxes and not in one another: where not each pair can be looked at, that is
    /// said, and never taken for "nothing is wrong".
    #[test]
    fn what_was_not_looked_at_is_said() {
        let bars = |count: u32| {
            with(
                (0..count)
                    .map(|i| {
                        let at = DVec2::new(4_000.0 + 0.9 * f64::from(i), 3_600.0 - 0.9 * f64::from(i));
                        let bar = cabinet(&format!("bar {i}"), (0.0, 0.0), 3_000.0, 1.0);
                        let place = Place { at: PlanPose::new(at, 0.785), ..bar.place };
                        Thing { place, ..bar }
                    })
                    .collect(),
            )
        };
        none(&bars(200), Code::ThingPlace);
        let found = check(&bars(1_500), Code::ThingPlace, Severity::Care, None);
        assert_eq!(found.facts, Facts::ThingPlace(Misplaced::NotCompared));
    }

    /// A track that hangs at 20 m under a ceiling of 3 m, and one that goes 500 mm through it; 50 mm are let in.
    #[test]
    fn a_thing_through_the_ceiling() {
        let hangs = |bottom: f64, top: f64| {
            let mut arrangement = with(vec![cabinet("track", (10_500.0, 1_000.0), 900.0, 450.0)]);
            arrangement.bay.things[0].span = span(bottom, top);
            arrangement
        };
        for (bottom, top, over) in [(20_000.0, 20_100.0, 17_100.0), (2_500.0, 3_500.0, 500.0)] {
            let found = check(&hangs(bottom, top), Code::ThingPlace, Severity::Care, Some(over));
            assert_eq!(found.subjects, [Subject::Thing("track".into()), Subject::Ceiling]);
        }
        none(&hangs(2_500.0, 3_050.0), Code::ThingPlace);
    }

    /// A chest 99 mm into the side of a runway, whether that carries the car or not; on top of it, it stands.
    #[test]
    fn a_thing_in_a_runway() {
        let beside = |mut arrangement: Arrangement| {
            arrangement.bay.things = vec![cabinet("chest", (1_000.0, 4_000.0 + 200.0 - 99.0), 400.0, 400.0)];
            arrangement
        };
        let mut idle = beside(raised());
        idle.on_runways.clear();
        for arrangement in [idle, beside(raised())] {
            let found = check(&arrangement, Code::ThingPlace, Severity::Care, Some(99.0));
            assert_eq!(found.subjects[1], Subject::Runway("left runway".into()));
        }
        let mut on_top = beside(raised());
        on_top.bay.things[0].span = span(400.0, 900.0);
        none(&on_top, Code::ThingPlace);
    }
}
