//! What the procedure wants met and ready before anything is measured.
//!
//! Rule: each is said, in the procedure's order. They are notes: the program cannot see them.
//! Limit: the aiming's own lists.

use super::finding::{Basis, Code, Facts, Finding, Severity, Subject};
use super::{Check, Context, finding};

pub(super) const CHECK: Check = Check { codes: &[Code::Condition, Code::HaveReady], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let aiming = &context.arrangement.aiming;
    let at = context.scene.bay_from_vehicle.origin().extend(0.0);
    let conditions = aiming.conditions.iter().cloned().map(Facts::Condition);
    let have_ready = aiming.have_ready.iter().cloned().map(Facts::HaveReady);
    for facts in conditions.chain(have_ready) {
        let basis = Basis::Procedure(aiming.provenance.clone());
        findings.push(finding(facts, Severity::Note, vec![Subject::Car], at, basis));
    }
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;
    use crate::model::assumed::BodyPart;

    #[test]
    fn conditions_and_examples_are_notes() {
        let mut arrangement = clear();
        arrangement.aiming.conditions = vec!["tyres at their pressures".into(), "boot empty".into()];
        arrangement.aiming.provenance = Provenance::Example;
        arrangement.loading.profile_changed = true;
        arrangement.vehicle.assumed = vec![BodyPart::TyreWidth.into()];
        let assessment = assess(&arrangement);
        assert!(assessment.on_example_figures);
        let texts: Vec<_> = of(&assessment, Code::Condition).iter().map(|f| f.facts.clone()).collect();
        assert_eq!(
            texts,
            [Facts::Condition("tyres at their pressures".into()), Facts::Condition("boot empty".into())]
        );
        check(&arrangement, Code::ProfileChanged, Severity::Care, None);
        check(&arrangement, Code::ExampleFigures, Severity::Note, None);
        check(&arrangement, Code::AssumedFigures, Severity::Note, None);
    }
}
