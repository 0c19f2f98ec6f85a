//! An aiming without keep-clear zones.
//!
//! Rule: the zones of the procedure are entered, or it is entered that it names none. Where neither is, nothing is judged for any and
//! nobody said that there is nothing to judge, so that it needs care. Where it is said, that stays a note: what was not judged is
//! told all the same.
//! Limit: common practice, no source; the procedure decides.

use super::finding::{Basis, Code, Facts, Finding, Severity, Step, Subject};
use super::{Check, Context, finding};

pub(super) const CHECK: Check =
    Check { codes: &[Code::ZonesMissing, Code::NoZoneNamed], whole, ..Check::NONE };

fn whole(context: &Context<'_>, findings: &mut Vec<Finding>) {
    if !context.arrangement.aiming.zones.is_empty() {
        return;
    }
    let at = context.scene.sensor();
    if context.arrangement.aiming.names_no_zone {
        let basis = Basis::Procedure(context.arrangement.aiming.provenance.clone());
        findings.push(finding(Facts::NoZoneNamed, Severity::Note, vec![Subject::Sensor], at, basis));
        return;
    }
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

    /// Once somebody looked and said that the procedure names none it is ready, and that nothing was judged stays told.
    #[test]
    fn a_procedure_that_names_none_is_told_and_needs_no_care() {
        let mut arrangement = clear();
        arrangement.aiming.zones.clear();
        arrangement.aiming.names_no_zone = true;
        none(&arrangement, Code::ZonesMissing);
        let found = check(&arrangement, Code::NoZoneNamed, Severity::Note, None);
        assert_eq!(found.cure, None);
        assert_eq!(assess(&arrangement).verdict, assess(&clear()).verdict);
        // What stops for other reasons stops still.
        arrangement.aiming.zones = clear().aiming.zones;
        arrangement.aiming.names_no_zone = false;
        none(&arrangement, Code::NoZoneNamed);
    }
}
