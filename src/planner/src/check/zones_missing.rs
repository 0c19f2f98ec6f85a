//! An aiming without keep-clear zones.
//!
//! Rule: the zones of the procedure are entered. Where none is, nothing is judged for any: whether that is because the procedure
//! names none, or because nobody entered them, is not told, so that it needs care.
//! Limit: common practice, no source; the procedure decides.

use super::finding::{Basis, Code, Facts, Finding, Severity, Step, Subject};
use super::{Check, Context, finding};

pub(super) const CHECK: Check = Check { codes: &[Code::ZonesMissing], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if !context.arrangement.aiming.zones.is_empty() {
        return;
    }
    let at = context.scene.sensor();
    let found =
        finding(Facts::ZonesMissing, Severity::Care, vec![Subject::Sensor], at, Basis::CommonPractice);
    findings.push(found.cured_by(Step::EnterZones));
}

#[cfg(test)]
mod tests {
    use crate::check::testing::*;

    /// A car whose sheet was entered without its zones is judged for none, and is not called ready.
    #[test]
    fn no_zone_is_no_ready_bay() {
        none(&clear(), Code::ZonesMissing);
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        let found = check(&arrangement, Code::ZonesMissing, Severity::Care, None);
        assert_eq!(found.subjects, [Subject::Sensor]);
        assert_eq!(assess(&arrangement).verdict, Verdict::ReadyWithCare);
        let line = words::Words::new(&arrangement, words::Locale::default()).line(&found);
        assert!(
            line.starts_with("No keep-clear zone is entered for this aiming. Nothing was judged"),
            "{line}"
        );
    }
}
