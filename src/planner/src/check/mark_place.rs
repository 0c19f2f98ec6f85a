//! Floor marks that cannot be found, or lie where no mark can be.
//!
//! Rule: every step of the mark plan can be done; every mark that a person makes lies on the floor of the room, under no
//! thing, on no drain or pit. Points under the car's own tyres are found, not made.
//! Limit: a hand with a pen must get there: a thing whose underside is lower than [`HAND_MM`] covers what is under it
//! (common practice, no source).

use baywright_geometry::contain::{Place, locate};
use baywright_geometry::marks::Construction;
use baywright_geometry::{Bounds, DVec2};

use super::{Context, finding, thing_subject};
use crate::assessment::{Basis, Code, Facts, Finding, Severity, Subject};
use crate::model::FloorFeatureKind;

/// A hand, a pen and an eye need this much height (common practice, no source).
pub(crate) const HAND_MM: f64 = 400.0;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let steps = &context.arrangement.aiming.mark_plan;
    for (step, mark) in steps.iter().zip(&context.scene.marks) {
        let subject = Subject::Mark(mark.id.clone());
        match mark.at {
            Err(fault) => {
                if context.is_whole() {
                    let at = context.scene.bay_from_vehicle.origin().extend(0.0);
                    findings.push(
                        finding(Code::MarkFault, Severity::Stops, vec![subject], at, Basis::Geometry)
                            .knowing(Facts::Fault(fault)),
                    );
                }
            }
            Ok(at) if !matches!(step.construction, Construction::WheelPoint { .. }) => {
                under_things(context, &subject, at, findings);
                if context.is_whole() {
                    on_the_floor(context, &subject, at, findings);
                }
            }
            Ok(_) => {}
        }
    }
}

fn under_things(context: &Context<'_>, mark: &Subject, at: DVec2, findings: &mut Vec<Finding>) {
    for seen in context.things_near(Bounds { low: at, high: at }) {
        let prism = &seen.placed.prism;
        if prism.span.bottom() < HAND_MM && locate(&prism.outline, at) == Place::Inside {
            let subjects = vec![thing_subject(&seen.thing.id), mark.clone()];
            let place = at.extend(prism.span.bottom());
            findings.push(finding(Code::MarkPlace, Severity::Stops, subjects, place, Basis::CommonPractice));
        }
    }
}

fn on_the_floor(context: &Context<'_>, mark: &Subject, at: DVec2, findings: &mut Vec<Finding>) {
    if !context.scene.on_floor(at) {
        let subjects = vec![super::outside_room::barrier(context, at), mark.clone()];
        findings.push(finding(Code::MarkPlace, Severity::Stops, subjects, at.extend(0.0), Basis::Geometry));
        return;
    }
    for (runway, prism) in context.idle_runways() {
        if locate(&prism.outline, at) == Place::Inside {
            let place = at.extend(prism.span.top());
            let subjects = vec![runway, mark.clone()];
            findings.push(finding(Code::MarkPlace, Severity::Stops, subjects, place, Basis::Geometry));
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
                Code::MarkPlace,
                severity,
                subjects,
                at.extend(0.0),
                Basis::CommonPractice,
            ));
        }
    }
}
