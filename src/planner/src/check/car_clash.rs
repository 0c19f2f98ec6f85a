//! The car and something else in one place.
//!
//! Rule: the car shares no volume with a thing, a runway that does not carry it, or a wall; its body none with what stands
//! proud of the floor, and its tyres none where they bulge over that beside their treads.
//! Limit: two things cannot be in one place.

use baywright_geometry::overlap::overlaps;
use baywright_geometry::{DVec2, Prism, Span};

use super::claim::Claim;
use super::finding::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};
use super::in_one_place::{Depth, Lacks, depth};
use super::{Check, Context, Remedy, finding, middle_of_both, thing_subject};
use crate::model::Arrangement;
use crate::scene::Scene;

pub(super) const CHECK: Check =
    Check { codes: &[Code::CarClash], things, whole, claims, remedy, depths: &[Code::CarClash] };

fn remedy(finding: &Finding) -> Remedy {
    match finding.subjects.first() {
        Some(Subject::FloorFeature(_)) => Remedy::OffFeature,
        _ => Remedy::of_obstacle(finding),
    }
}

fn claims(_: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    claims.extend(scene.car.iter().map(|solid| Claim::solid(Subject::Car, solid, Code::CarClash)));
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let scene = context.scene;
    for seen in context.things_near(scene.car_bounds) {
        let place = middle_of_both(&seen.placed.bounds, &scene.car_bounds);
        clash(scene.car.iter(), thing_subject(&seen.thing.id), &seen.placed.prism, place, findings);
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (subject, prism) in context.idle_runways() {
        let place = middle_of_both(&prism.outline.bounds(), &context.scene.car_bounds);
        clash(context.scene.car.iter(), subject, &prism, place, findings);
    }
    for (subject, prism) in context.proud_features() {
        let place = middle_of_both(&prism.outline.bounds(), &context.scene.car_bounds);
        let carried = context.scene.carried_at_mm;
        let body = context.scene.car.iter().filter(|own| own.span.bottom() > carried);
        let tyres = tyres_beside(context, &prism);
        clash(body.chain(&tyres), subject, &prism, place, findings);
    }
    walls(context, findings);
}

/// The tyres as far as they reach over something proud of the floor that their treads are beside: whose tread is on it is
/// another check's. None of a car that stands over it on runways.
fn tyres_beside(context: &Context<'_>, proud: &Prism) -> Vec<Prism> {
    let Ok(span) = Span::new(0.0, proud.span.top()) else { return Vec::new() };
    if context.is_raised() || !proud.outline.bounds().meets(&context.scene.car_bounds) {
        return Vec::new();
    }
    let tyres = context.scene.tyres_up_to(context.arrangement, proud.span.top());
    let beside = context.scene.treads.iter().zip(tyres);
    let beside = beside.filter(|(tread, _)| !overlaps(&(*tread).clone().into(), &proud.outline));
    beside.map(|(_, tyre)| Prism::new(tyre.into(), span)).collect()
}

fn clash<'a>(
    car: impl Iterator<Item = &'a Prism>,
    subject: Subject,
    other: &Prism,
    place: DVec2,
    findings: &mut Vec<Finding>,
) {
    let bounds = other.outline.bounds();
    let deepest = car
        .filter(|solid| solid.outline.bounds().meets(&bounds))
        .filter_map(|solid| depth(solid, other))
        .max_by(|a, b| a.mm.total_cmp(&b.mm));
    if let Some(Depth { mm, lacks, heights }) = deepest {
        let at = place.extend((heights.bottom() + heights.top()) * 0.5);
        let (facts, subjects) = (Facts::CarClash(lacks), vec![subject, Subject::Car]);
        findings.push(
            finding(facts, Severity::Stops, subjects, at, Basis::Geometry)
                .against(Quantity::Length(mm), Quantity::Length(0.0)),
        );
    }
}

fn walls(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (barrier, depth, at) in super::outside_room::passed(context, &context.scene.car) {
        let subjects = vec![barrier, Subject::Car];
        findings.push(
            finding(Facts::CarClash(Lacks::Room), Severity::Stops, subjects, at.extend(0.0), Basis::Geometry)
                .against(Quantity::Length(depth), Quantity::Length(0.0)),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    #[test]
    fn the_car_against_a_thing() {
        // The body's left side is at y = 3900; a bench that begins at 3880 is 20 mm too close.
        let mut arrangement = with(vec![cabinet("bench", (2_000.0, 4_180.0), 600.0, 600.0)]);
        check(&arrangement, Code::CarClash, Severity::Stops, Some(20.0));
        // Under the body's edge, lower than the sill.
        arrangement.bay.things[0].span = span(0.0, 149.0);
        none(&arrangement, Code::CarClash);
    }

    /// A rack over the rear end, 300 mm long there, whose underside is 4 mm lower than the roof at 1500: what is missing is
    /// 4 mm of height, whatever it is in plan. What is deeper in height than in plan is told in plan.
    #[test]
    fn a_rack_a_little_lower_than_the_roof() {
        let rack = |bottom: f64| {
            let mut rack = cabinet("rack", (750.0, 3_000.0), 300.0, 300.0);
            rack.span = span(bottom, 2_500.0);
            with(vec![rack])
        };
        let found = check(&rack(1_496.0), Code::CarClash, Severity::Stops, Some(4.0));
        assert_eq!(found.facts, Facts::CarClash(crate::Lacks::Height));
        let low = rack(1_496.0);
        let words = words::Words::new(&low, words::Locale::default());
        assert_eq!(words.measure(&found).unwrap(), "4 mm of height missing");
        let found = check(&rack(1_000.0), Code::CarClash, Severity::Stops, Some(300.0));
        assert_eq!(found.facts, Facts::CarClash(crate::Lacks::Room));
    }

    #[test]
    fn the_car_through_a_wall() {
        // The rear is 3400 behind the axle.
        let found = check(&parked_at(3_390.0), Code::CarClash, Severity::Stops, Some(10.0));
        assert_eq!(found.subjects[0], Subject::Wall("near wall".into()));
        check(&parked_at(3_500.0), Code::WorkingRoom, Severity::Care, Some(100.0));
    }

    /// The front right tyre, 660 mm across, treads the floor from x = 3850 to 4150. A kerb of 100 mm that begins 20 mm before that
    /// is under its bulge, which reaches 236.6 mm ahead at that height (√(100 · 560)); one of 30 mm is not.
    #[test]
    fn a_kerb_beside_a_tread() {
        let kerb = |proud_mm: f64| {
            let mut arrangement = clear();
            arrangement.vehicle.tyre_diameter_mm = 660.0;
            arrangement.vehicle.make_solids();
            let outline = rectangle((4_170.0, 2_000.0), (4_400.0, 2_600.0));
            let (kind, material) = (FloorFeatureKind::Joint, Material::Plastic);
            arrangement.bay.floor_features =
                vec![FloorFeature { id: "kerb".into(), kind, outline, material, proud_mm }];
            arrangement
        };
        let found = check(&kerb(100.0), Code::CarClash, Severity::Stops, Some(56_000.0_f64.sqrt() - 170.0));
        assert_eq!(found.subjects[0], Subject::FloorFeature("kerb".into()));
        none(&kerb(30.0), Code::CarClash);
        none(&kerb(30.0), Code::CarPlace);
        let mut planned = kerb(30.0);
        planned.parked_known = ParkedKnown::Planned;
        check(&planned, Code::CarPlace, Severity::Care, Some(20.0));
    }
}
