//! The mark plan against the stand-off: two ways to say where a target goes.
//!
//! Rule: the mark that a placement names lies where its stand-off puts the middle of the target's face. If the two
//! disagree, one of them was entered wrongly, or the plan follows another axis than the aiming does (a plan along the
//! wheels for an aiming along the thrust line).
//! Limit: [`AGREES_WITHIN_MM`], what a tape can read (common practice, no source).

use super::{Check, Context, finding};
use crate::assessment::{Basis, Code, Facts, Finding, Quantity, Severity, Subject};

/// A steel tape reads to a millimetre (common practice, no source).
const AGREES_WITHIN_MM: f64 = 1.0;

pub(super) const CHECK: Check = Check { codes: &[Code::MarkOffTarget], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (placement, target) in context.arrangement.aiming.placements.iter().zip(&context.scene.targets) {
        let named = context.scene.marks.iter().find(|mark| Some(&mark.id) == placement.mark.as_ref());
        // A mark that cannot be found is a finding of its own.
        let Some(at) = named.and_then(|mark| mark.at.ok()) else { continue };
        let apart = at.distance(target.meant.place.origin());
        if apart > AGREES_WITHIN_MM
            && let Some(mark) = named
        {
            findings.push(
                finding(
                    Facts::MarkOffTarget,
                    Severity::Stops,
                    vec![Subject::Mark(mark.id.clone()), Subject::Target(target.id.clone())],
                    at.extend(0.0),
                    Basis::CommonPractice,
                )
                .against(Quantity::Length(apart), Quantity::Length(AGREES_WITHIN_MM)),
            );
        }
    }
}
