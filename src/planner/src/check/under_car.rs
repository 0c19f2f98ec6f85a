//! What stands under the car without being in it as drawn.
//!
//! Rule: nothing that can be carried away stands under the car's body, higher than a tape goes over: a jack or a stand may hold the
//! body up, so that the car does not stand on its own wheels, and nobody looks there; nor a lift's arm, for the same reason. Nor does
//! anybody lie there. What else is fixed is the building's. What the car is in is `car-clash`.
//! Limit: common practice, no source; and as much more as the places of thing and car are uncertain by. It needs care: somebody looks.

use baywright_geometry::DVec2;
use baywright_geometry::distance::{Separation, distance};
use baywright_geometry::{Outline, Prism, Span};

use super::claim::{Bars, Claim, GOES_OVER_MM, Volume, may_be_under};
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::in_one_place::depth;
use super::{
    Check, Context, Remedy, SPEAKS_FROM_MM, Seen, farthest_of, finding, is_aside, sway, thing_subject,
};
use crate::model::Arrangement;
use crate::scene::Scene;

pub(super) const CHECK: Check =
    Check { codes: &[Code::UnderCar], things, claims, remedy: |_| Remedy::ThingOut, ..Check::NONE };

/// The parts of the body that something can be under: a mirror is beside it.
fn bodies<'a>(arrangement: &'a Arrangement, scene: &'a Scene) -> impl Iterator<Item = &'a Prism> {
    scene.car.iter().filter(|solid| !is_aside(arrangement, scene, solid))
}

/// The space under the car's body, above what a tape goes over.
fn claims(arrangement: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    let under = |solid: &Prism| Span::new(GOES_OVER_MM, solid.span.bottom()).ok();
    let spaces = bodies(arrangement, scene);
    let spaces = spaces.filter_map(|solid| Some(Prism::new(solid.outline.clone(), under(solid)?)));
    claims.extend(spaces.map(|space| Claim::new(Subject::Car, Volume::Prism(space), Bars::Under)));
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for seen in context.things().filter(|seen| may_be_under(seen.thing)) {
        findings.extend(under(context, &seen));
    }
}

fn under(context: &Context<'_>, seen: &Seen<'_>) -> Option<Finding> {
    let own = &seen.placed.prism;
    if own.span.top() <= GOES_OVER_MM {
        return None;
    }
    let axle = context.arrangement.parked.origin();
    let unsure = seen.placed.known_mm + sway(context.arrangement, farthest_of(&own.outline, axle));
    if !seen.placed.bounds.grown(unsure).meets(&context.scene.car_bounds)
        || context.scene.car.iter().any(|solid| depth(solid, own).is_some())
    {
        return None;
    }
    let over = bodies(context.arrangement, context.scene);
    let over = over.filter(|solid| solid.span.bottom() >= own.span.top());
    let gaps = over.map(|solid| beside(&solid.outline, &own.outline, seen.placed.bounds.centre()));
    let (gap, at) = gaps.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let (is_under, may_be) = (gap < 0.0, gap < unsure - SPEAKS_FROM_MM);
    if !is_under && !may_be {
        return None;
    }
    let subjects = vec![thing_subject(&seen.thing.id), Subject::Car];
    let at = at.extend(own.span.top());
    let found = finding(Facts::UnderCar, Severity::Care, subjects, at, Basis::CommonPractice);
    Some(if is_under { found } else { found.against(Quantity::Length(gap), Quantity::Length(unsure)) })
}

/// How far one outline is from another, mm, and where; less than nought if it is in it.
fn beside(of: &Outline, other: &Outline, middle: DVec2) -> (f64, DVec2) {
    match distance(of, other) {
        Separation::Overlapping => (-1.0, middle),
        Separation::Touching { at } => (0.0, at),
        Separation::Apart { gap, to, .. } => (gap, to),
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// The car's left side lies at y = 3900, its underside 150 mm up. A box 300 mm across and 120 mm high, `out` mm beside that side.
    fn beside(out: f64) -> Arrangement {
        let mut arrangement = with(vec![cabinet("jack", (2_500.0, 3_900.0 + out + 150.0), 300.0, 300.0)]);
        arrangement.bay.things[0].span = span(0.0, 120.0);
        arrangement.bay.things[0].place.known = Known::Within(0.0);
        arrangement
    }

    #[test]
    fn what_stands_under_the_car() {
        let found = check(&beside(-300.0), Code::UnderCar, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Thing("jack".into()), Subject::Car]);
        assert!(
            matches!(found.cure.as_ref().map(|cure| &cure.step), Some(Step::MoveThing { .. })),
            "{found:?}"
        );
        check(&beside(-0.005), Code::UnderCar, Severity::Care, None);
        none(&beside(0.0), Code::UnderCar);
        // As far as its place is known, or the car's.
        let mut unsure = beside(60.0);
        none(&unsure, Code::UnderCar);
        unsure.bay.things[0].place.known = Known::Within(70.0);
        check(&unsure, Code::UnderCar, Severity::Care, Some(60.0));
        let mut parked = beside(25.0);
        parked.parked_known = ParkedKnown::Within { mm: 30.0, rad: 0.0 };
        check(&parked, Code::UnderCar, Severity::Care, Some(25.0));
    }

    /// A hose, a kerb of the building's, and what is so high that the car is in it.
    #[test]
    fn what_is_none_of_it() {
        let mut low = beside(-300.0);
        low.bay.things[0].span = span(0.0, 20.0);
        none(&low, Code::UnderCar);
        let mut fixed = beside(-300.0);
        fixed.bay.things[0].effort = Effort::Fixed;
        none(&fixed, Code::UnderCar);
        let mut high = beside(-300.0);
        high.bay.things[0].span = span(0.0, 200.0);
        none(&high, Code::UnderCar);
        check(&high, Code::CarClash, Severity::Stops, None);
    }

    #[test]
    fn somebody_lies_there() {
        let mut arrangement = beside(-900.0);
        let thing = &mut arrangement.bay.things[0];
        (thing.kind, thing.material) = (ThingKind::Person, Material::Person);
        let found = check(&arrangement, Code::UnderCar, Severity::Care, None);
        let words = words::Words::new(&arrangement, words::Locale::default());
        assert!(words.line(&found).starts_with("Jack is under the car"), "{}", words.line(&found));
    }

    /// Between the runways under a raised car, however low.
    #[test]
    fn between_runways() {
        let between = |top: f64, kind: ThingKind| {
            let mut arrangement = raised();
            let mut thing = cabinet("stand", (2_500.0, 3_000.0), 300.0, 300.0);
            (thing.span, thing.place.known, thing.kind) = (span(0.0, top), Known::Within(0.0), kind);
            arrangement.bay.things = vec![thing];
            arrangement
        };
        let runway = raised().bay.runways[0].top_mm;
        check(&between(runway + 100.0, ThingKind::Other), Code::UnderCar, Severity::Care, None);
        check(&between(300.0, ThingKind::Person), Code::UnderCar, Severity::Care, None);
        none(&between(20.0, ThingKind::Other), Code::UnderCar);
    }

    /// People are never the building's, and an arm of a lift holds a car up; what is beside the body under a mirror is not under it.
    #[test]
    fn who_and_what_counts() {
        let fixed = |kind: ThingKind| {
            let mut own = beside(-300.0);
            (own.bay.things[0].effort, own.bay.things[0].kind) = (Effort::Fixed, kind);
            own
        };
        check(&fixed(ThingKind::Person), Code::UnderCar, Severity::Care, None);
        check(&fixed(ThingKind::LiftArm), Code::UnderCar, Severity::Care, None);
        none(&fixed(ThingKind::Column), Code::UnderCar);
        let mirror = clear().vehicle.mirrors;
        let mut under_mirror = beside(5.0);
        under_mirror.bay.things[0].place.at =
            PlanPose::new(DVec2::new(4_000.0 + mirror.ahead_mm, 4_055.0), 0.0);
        none(&under_mirror, Code::UnderCar);
    }
}
