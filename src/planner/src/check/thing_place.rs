//! Things that cannot be where they are said to be.
//!
//! Rule: a thing stands inside the room, and two things that fill the same heights are not in one another by more than
//! their places are known. Otherwise a figure was typed wrongly, and whatever is said of that thing is in doubt: care.
//! Limit: how well the places are known, as entered. The parts of a lift are hinged into one another and not looked at.

use baywright_geometry::clearance::{Clearance, clearance};
use baywright_geometry::{Bounds, DVec2};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, finding, middle_of_both, thing_subject};
use crate::model::{Thing, ThingKind};

/// A pilaster or a shelf let into a wall is not a mistake of typing (common practice, no source).
const INTO_WALL_MM: f64 = 50.0;

pub(super) const CHECK: Check = Check { codes: &[Code::ThingPlace], whole, ..Check::NONE };

/// A thing that is tried elsewhere goes only where it fits: this is asked of things as they were entered.
fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    outside(context, findings);
    in_one_another(context, findings);
}

fn outside(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let room = context.scene.room.walls().bounds();
    for seen in context.things() {
        let bounds = seen.placed.bounds;
        let protrusions = super::outside_room::protruding(context, &seen.placed.prism);
        let Some(deepest) = protrusions.first() else { continue };
        let limit = seen.placed.known_mm.max(INTO_WALL_MM);
        if deepest.depth <= limit {
            continue;
        }
        let at = place_of(&room, &bounds).extend(seen.placed.prism.span.bottom());
        let barrier = super::outside_room::barrier(context, deepest.deepest);
        let subjects = vec![thing_subject(&seen.thing.id), barrier];
        findings.push(
            finding(Facts::ThingPlace, Severity::Care, subjects, at, Basis::AsEntered)
                .against(Quantity::Length(deepest.depth), Quantity::Length(limit)),
        );
    }
}

/// Where to point: the thing's middle, brought into the room's box.
fn place_of(room: &Bounds, thing: &Bounds) -> DVec2 {
    thing.centre().clamp(room.low, room.high)
}

/// Pairs are found along x, so that a hall full of things costs no square of their number.
fn in_one_another(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let things: Vec<_> = context.things().filter(|seen| is_solid(seen.thing)).collect();
    let mut order: Vec<usize> = (0..things.len()).collect();
    let low = |i: usize| things.get(i).map_or(0.0, |seen| seen.placed.bounds.low.x);
    let high = |i: usize| things.get(i).map_or(0.0, |seen| seen.placed.bounds.high.x);
    order.sort_by(|&a, &b| low(a).total_cmp(&low(b)));
    for (k, &i) in order.iter().enumerate() {
        for &j in order.iter().skip(k + 1).take_while(|&&j| low(j) <= high(i)) {
            let (Some(one), Some(other)) = (things.get(i.min(j)), things.get(i.max(j))) else { continue };
            if !one.placed.bounds.meets(&other.placed.bounds) {
                continue;
            }
            let Clearance::Intrudes(shared) = clearance(&one.placed.prism, &other.placed.prism) else {
                continue;
            };
            let known = one.placed.known_mm + other.placed.known_mm;
            if shared.depth > known + super::SPEAKS_FROM_MM {
                let at = middle_of_both(&one.placed.bounds, &other.placed.bounds);
                let subjects: Vec<Subject> = [one, other].map(|seen| thing_subject(&seen.thing.id)).into();
                findings.push(
                    finding(
                        Facts::ThingPlace,
                        Severity::Care,
                        subjects,
                        at.extend(shared.heights.bottom()),
                        Basis::AsEntered,
                    )
                    .against(Quantity::Length(shared.depth), Quantity::Length(known)),
                );
            }
        }
    }
}

const fn is_solid(thing: &Thing) -> bool {
    !matches!(thing.kind, ThingKind::LiftPost | ThingKind::LiftArm)
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

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
        let mut above = both;
        above[1].span = span(1_000.0, 1_500.0);
        none(&with(above.into()), Code::ThingPlace);
    }
}
