//! Height: over the car, over the stands, over a person.
//!
//! Rule: the ceiling clears car and stands; it and what hangs over the car leave the shop's own `over_car_mm`; where a person works
//! around the car and the targets and between them, nothing hangs lower than a person may walk under. Beside the car what
//! hangs lower than a person's waist stands in the way of the work there, and that is another check's; beside a target it is
//! this one's. Of a car or a stand of another set-up no part hangs over anybody
//! unless all of it does.
//! Limits: over the car, the shop's own; over a person, 29 CFR 1910.36(g)(1): ceiling at least 7 ft 6 in
//! (2286 mm), projections at least 6 ft 8 in (2032 mm) - for exit routes; taken here as what a person may expect. Either with
//! as much more as the height is uncertain by.

use baywright_geometry::contain::holds;
use baywright_geometry::distance::{distance, distance_to_segment};
use baywright_geometry::{Outline, Prism, Segment, convex, overlap};

use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::{Check, Context, SPEAKS_FROM_MM, finding, middle_of_both, thing_subject};
use crate::model::ShopFigure;

/// Lowest thing over a person's way: 6 ft 8 in.
const OVER_PERSON_MM: f64 = 2032.0;
/// Lowest ceiling: 7 ft 6 in.
const CEILING_MM: f64 = 2286.0;
/// What hangs lower than this beside the car stands in the way rather than over it.
const HANGS_FROM_MM: f64 = 1000.0;

const RULE: &str = "29 CFR 1910.36(g)(1)";

pub(super) const CHECK: Check = Check { codes: &[Code::HeadRoom], things, whole: ceiling, ..Check::NONE };

/// What needs height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Under {
    /// The car.
    Car,
    /// A target or its stand.
    Stand,
    /// A person who walks there.
    Person,
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let room = context.arrangement.working_room_mm();
    let over_car = context.arrangement.shop.over_car_mm;
    let targets = context.scene.targets.iter().flat_map(|target| &target.solids);
    let around = targets
        .fold(context.scene.car_bounds, |all, solid| all.union(solid.outline.bounds()))
        .grown(room.max(0.0));
    for seen in context.things_near(around).filter(|seen| seen.placed.prism.span.bottom() > 0.0) {
        let (outline, bottom) = (&seen.placed.prism.outline, seen.placed.prism.span.bottom());
        let place = middle_of_both(&seen.placed.bounds, &around).extend(bottom);
        let over = roof_under(context, outline);
        if let Some(roof) = over {
            let gap = bottom - roof;
            let with_unsure = over_car + seen.placed.known_mm;
            if (0.0..with_unsure).contains(&gap) {
                let subjects = vec![thing_subject(&seen.thing.id), Subject::Car];
                findings.push(
                    finding(
                        Facts::HeadRoom(Under::Car),
                        Severity::Care,
                        subjects,
                        place,
                        Basis::Shop(ShopFigure::OverCar),
                    )
                    .against(Quantity::Length(gap), Quantity::Length(wanted(gap, over_car, with_unsure))),
                );
            }
        }
        // What of it is not over the car is over the people who work there.
        let over_person = OVER_PERSON_MM + seen.placed.known_mm;
        let targets = context.scene.targets.iter().flat_map(|target| &target.solids);
        let is_within = bottom < over_person
            && (is_near(targets, outline, room)
                || is_on_the_way(context, outline, room)
                || bottom >= HANGS_FROM_MM && is_near(&context.scene.car, outline, room));
        // What is stepped over hangs over nobody.
        let is_stepped_over = seen.placed.prism.span.top() <= context.arrangement.shop.step_over_mm;
        let stands_there =
            || context.arrangement.lowest_part_mm(&seen.thing.id).is_some_and(|low| low < HANGS_FROM_MM);
        if is_within && !is_stepped_over && !wholly_over_car(context, outline) && !stands_there() {
            let subjects = vec![thing_subject(&seen.thing.id)];
            findings.push(
                finding(
                    Facts::HeadRoom(Under::Person),
                    Severity::Care,
                    subjects,
                    place,
                    Basis::Published(RULE),
                )
                .against(
                    Quantity::Length(bottom),
                    Quantity::Length(wanted(bottom, OVER_PERSON_MM, over_person)),
                ),
            );
        }
    }
}

/// What a height falls short of: the limit itself, or that and what the height is uncertain by.
fn wanted(height: f64, limit: f64, with_unsure: f64) -> f64 {
    if height < limit { limit } else { with_unsure }
}

/// The highest part of the car under an outline.
fn roof_under(context: &Context<'_>, outline: &Outline) -> Option<f64> {
    let bounds = outline.bounds();
    context
        .scene
        .car
        .iter()
        .filter(|solid| solid.outline.bounds().meets(&bounds) && overlap::overlaps(&solid.outline, outline))
        .map(|solid| solid.span.top())
        .max_by(f64::total_cmp)
}

/// Whether it hangs over the way between the sensor and a target, along which everybody walks with tape and laser.
fn is_on_the_way(context: &Context<'_>, outline: &Outline, room: f64) -> bool {
    let from = context.scene.sensor().truncate();
    context.scene.targets.iter().any(|target| {
        let way = Segment::new(from, target.set.place.origin());
        distance_to_segment(outline, &way).gap() < room - SPEAKS_FROM_MM
    })
}

/// Whether people work under it, around these.
fn is_near<'a>(solids: impl IntoIterator<Item = &'a Prism>, outline: &Outline, room: f64) -> bool {
    solids.into_iter().any(|solid| distance(&solid.outline, outline).gap() < room - SPEAKS_FROM_MM)
}

fn wholly_over_car(context: &Context<'_>, outline: &Outline) -> bool {
    let corners = context.scene.car.iter().flat_map(|solid| solid.outline.as_polygon().outer().to_vec());
    let corners: Vec<_> = corners.collect();
    convex::hull(&corners).is_some_and(|car| holds(&car, outline))
}

fn ceiling(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let ceiling = context.arrangement.bay.ceiling_mm;
    let scene = context.scene;
    let top = |solids: &[Prism]| solids.iter().map(|solid| solid.span.top()).fold(0.0, f64::max);
    let parts = std::iter::once((Subject::Car, top(&scene.car), scene.car_bounds.centre(), Under::Car))
        .chain(scene.targets.iter().map(|target| {
            let at = target.set.place.origin();
            (Subject::Stand(target.id.clone()), top(&target.solids), at, Under::Stand)
        }));
    for (subject, top, at, under) in parts {
        if top > ceiling + SPEAKS_FROM_MM {
            findings.push(
                finding(
                    Facts::HeadRoom(under),
                    Severity::Stops,
                    vec![Subject::Ceiling, subject],
                    at.extend(ceiling),
                    Basis::Geometry,
                )
                .against(Quantity::Length(top), Quantity::Length(ceiling)),
            );
        }
    }
    let roof = top(&scene.car);
    let over_car = context.arrangement.shop.over_car_mm;
    let left = ceiling - roof;
    let unsure = context.arrangement.shop.within(context.arrangement.bay.walls_known);
    if (-SPEAKS_FROM_MM..over_car + unsure).contains(&left) {
        let subjects = vec![Subject::Ceiling, Subject::Car];
        let at = scene.car_bounds.centre().extend(ceiling);
        let basis = Basis::Shop(ShopFigure::OverCar);
        findings.push(finding(Facts::HeadRoom(Under::Car), Severity::Care, subjects, at, basis).against(
            Quantity::Length(left.max(0.0)),
            Quantity::Length(wanted(left, over_car, over_car + unsure)),
        ));
    }
    let over_person = CEILING_MM + unsure;
    if ceiling < over_person {
        let at = scene.car_bounds.centre().extend(ceiling);
        findings.push(
            finding(
                Facts::HeadRoom(Under::Person),
                Severity::Care,
                vec![Subject::Ceiling],
                at,
                Basis::Published(RULE),
            )
            .against(Quantity::Length(ceiling), Quantity::Length(wanted(ceiling, CEILING_MM, over_person))),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    #[test]
    fn head_room() {
        let mut arm = cabinet("hoist arm", (2_000.0, 3_000.0), 400.0, 400.0);
        arm.span = span(1560.0, 1700.0);
        check(&with(vec![arm.clone()]), Code::HeadRoom, Severity::Care, Some(60.0));
        arm.span = span(1490.0, 1700.0);
        check(&with(vec![arm.clone()]), Code::CarClash, Severity::Stops, None);
        arm.place.at = crate::geometry::PlanPose::new((2_000.0, 4_300.0).into(), 0.0);
        arm.span = span(1900.0, 2200.0);
        let found = check(&with(vec![arm]), Code::HeadRoom, Severity::Care, Some(1900.0));
        assert_eq!(number(found.limit.unwrap()), 2032.0);
    }

    /// The nose is at x = 4850, the plate at 8800: a beam over the axis between them, more than 600 mm from both.
    #[test]
    fn between_the_car_and_its_target() {
        let mut beam = cabinet("beam", (6_600.0, 3_000.0), 200.0, 4_000.0);
        beam.material = Material::Wood;
        beam.span = span(1_600.0, 1_800.0);
        let found = check(&with(vec![beam.clone()]), Code::HeadRoom, Severity::Care, Some(1_600.0));
        assert_eq!(found.facts, Facts::HeadRoom(super::Under::Person));
        beam.span = span(2_032.0, 2_200.0);
        none(&with(vec![beam]), Code::HeadRoom);
    }

    /// An arm of a lift is stepped over as long as its top is no higher than a person lifts a foot: 250 mm.
    #[test]
    fn what_is_stepped_over_hangs_over_nobody() {
        let arm = |top: f64| {
            let mut arm = cabinet("arm", (6_600.0, 3_600.0), 200.0, 200.0);
            (arm.span, arm.material) = (span(90.0, top), Material::Wood);
            with(vec![arm])
        };
        none(&arm(250.0), Code::HeadRoom);
        check(&arm(260.0), Code::HeadRoom, Severity::Care, Some(90.0));
    }

    #[test]
    fn low_ceilings() {
        let mut arrangement = clear();
        arrangement.bay.ceiling_mm = 1_450.0;
        let assessment = assess(&arrangement);
        let found = of(&assessment, Code::HeadRoom);
        assert!(found.iter().any(|f| f.severity == Severity::Stops && f.subjects.contains(&Subject::Car)));
        arrangement.bay.ceiling_mm = 2_200.0;
        check(&arrangement, Code::HeadRoom, Severity::Care, Some(2_200.0));
    }

    /// The roof is 1500 mm up, and the shop wants 100 mm over it.
    #[test]
    fn a_ceiling_close_over_the_car() {
        let mut arrangement = clear();
        arrangement.bay.ceiling_mm = 1_600.0;
        let over = |a: &Arrangement| {
            let found =
                assess(a).findings.into_iter().find(|f| f.facts == Facts::HeadRoom(super::Under::Car));
            found.map(|f| (f.severity, f.measured))
        };
        assert_eq!(over(&arrangement), None);
        arrangement.bay.ceiling_mm = 1_590.0;
        assert_eq!(over(&arrangement), Some((Severity::Care, Some(Quantity::Length(90.0)))));
        arrangement.bay.ceiling_mm = 1_490.0;
        assert_eq!(over(&arrangement).map(|own| own.0), Some(Severity::Stops));
    }
}
