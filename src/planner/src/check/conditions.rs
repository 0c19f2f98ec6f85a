//! What the procedure wants met and ready before anything is measured.
//!
//! Rule: each is said, in the procedure's order. They are notes: the program cannot see them.
//! Limit: the aiming's own lists.

use super::{Context, finding};
use crate::assessment::{Basis, Code, Facts, Finding, Severity, Subject};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let aiming = &context.arrangement.aiming;
    let at = context.scene.bay_from_vehicle.origin().extend(0.0);
    let lists = [(Code::Condition, &aiming.conditions), (Code::HaveReady, &aiming.have_ready)];
    for (code, texts) in lists {
        for text in texts {
            let basis = Basis::Procedure(aiming.provenance.clone());
            findings.push(
                finding(code, Severity::Note, vec![Subject::Car], at, basis)
                    .knowing(Facts::Text(text.clone())),
            );
        }
    }
}
