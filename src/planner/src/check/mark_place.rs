//! Floor marks that cannot be found, or lie where no mark can be.
//!
//! Rule: every step of the mark plan can be done; every mark that a person makes lies on the floor of the room, under no
//! thing, on no drain or pit. Points under the car's own tyres are found, not made.
//! Limit: a hand with a pen must get there: a thing whose underside is lower than [`HAND_MM`] covers what is under it
//! (common practice, no source).

use baywright_geometry::contain::{Place, locate};
use baywright_geometry::marks::Construction;
use baywright_geometry::{Bounds, DVec2};

use super::claim::{Claim, Volume};
use super::{Check, Context, Remedy, finding, thing_subject};
use crate::assessment::{Basis, Code, Facts, Finding, Severity, Subject};
use crate::model::{Arrangement, FloorFeatureKind};
use crate::scene::Scene;

/// A hand, a pen and an eye need this much height (common practice, no source).
const HAND_MM: f64 = 400.0;

pub(super) const CHECK: Check =
    Check { codes: &[Code::MarkFault, Code::MarkPlace], things, whole, claims, remedy, ..Check::NONE };

fn remedy(finding: &Finding) -> Remedy {
    match finding.subjects.first() {
        Some(Subject::FloorFeature(_)) => Remedy::OffFeature,
        _ => Remedy::of_obstacle(finding),
    }
}

/// Nothing low may stand on a mark.
fn claims(_: &Arrangement, scene: &Scene, claims: &mut Vec<Claim>) {
    claims.extend(scene.marks.iter().filter_map(|mark| {
        let volume = Volume::spot(mark.at.ok()?, HAND_MM)?;
        Some(Claim::with_car(Subject::Mark(mark.id.clone()), volume, Code::MarkPlace, Severity::Stops))
    }));
}

/// The marks that a person makes, where they can be found.
fn made<'a>(context: &Context<'a>) -> impl Iterator<Item = (Subject, DVec2)> + use<'a> {
    let steps = &context.arrangement.aiming.mark_plan;
    let made = steps.iter().zip(&context.scene.marks);
    let made = made.filter(|(step, _)| !matches!(step.construction, Construction::WheelPoint { .. }));
    made.filter_map(|(_, mark)| Some((Subject::Mark(mark.id.clone()), mark.at.ok()?)))
}

fn things(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (subject, at) in made(context) {
        under_things(context, &subject, at, findings);
    }
}

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for mark in &context.scene.marks {
        let Err(fault) = mark.at else { continue };
        let at = context.scene.bay_from_vehicle.origin().extend(0.0);
        let subjects = vec![Subject::Mark(mark.id.clone())];
        findings.push(finding(Facts::MarkFault(fault), Severity::Stops, subjects, at, Basis::Geometry));
    }
    for (subject, at) in made(context) {
        on_the_floor(context, &subject, at, findings);
    }
}

fn under_things(context: &Context<'_>, mark: &Subject, at: DVec2, findings: &mut Vec<Finding>) {
    for seen in context.things_near(Bounds { low: at, high: at }) {
        let prism = &seen.placed.prism;
        if prism.span.bottom() < HAND_MM && locate(&prism.outline, at) == Place::Inside {
            let subjects = vec![thing_subject(&seen.thing.id), mark.clone()];
            let place = at.extend(prism.span.bottom());
            findings.push(finding(Facts::MarkPlace, Severity::Stops, subjects, place, Basis::CommonPractice));
        }
    }
}

fn on_the_floor(context: &Context<'_>, mark: &Subject, at: DVec2, findings: &mut Vec<Finding>) {
    if !context.scene.on_floor(at) {
        let subjects = vec![super::outside_room::barrier(context, at), mark.clone()];
        findings.push(finding(Facts::MarkPlace, Severity::Stops, subjects, at.extend(0.0), Basis::Geometry));
        return;
    }
    for (runway, prism) in context.idle_runways() {
        if locate(&prism.outline, at) == Place::Inside {
            let place = at.extend(prism.span.top());
            let subjects = vec![runway, mark.clone()];
            findings.push(finding(Facts::MarkPlace, Severity::Stops, subjects, place, Basis::Geometry));
        }
    }
    for feature in &context.arrangement.bay.floor_features {
        let outline = feature.outline.clone().into();
        if locate(&outline, at) != Place::Outside {
            let severity = match feature.kind {
                FloorFeatureKind::Drain | FloorFeatureKind::Pit => Severity::Stops,
                FloorFeatureKind::Joint => Severity::Care,
            };
            let subjects = vec![Subject::FloorFeature(feature.id.clone()), mark.clone()];
            findings.push(finding(
                Facts::MarkPlace,
                severity,
                subjects,
                at.extend(0.0),
                Basis::CommonPractice,
            ));
        }
    }
}
