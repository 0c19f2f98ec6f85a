//! From an arrangement to its assessment.

use crate::assessment::{Assessment, Finding, Severity, Verdict};
use crate::check::{self, Context};
use crate::cure;
use crate::model::Arrangement;
use crate::scene::Scene;

/// How many findings get a cure with its consequences looked up; the others are notes or far down the list.
pub const MOST_CURES: usize = 10;

/// What is in the way, with the cheapest cures and what they lead to.
///
/// Pure and total: no clock, no file, no panic; the same answer every time and on every machine.
pub fn assess(arrangement: &Arrangement) -> Assessment {
    let mut assessment = judge(arrangement);
    cure::find(arrangement, &mut assessment, MOST_CURES);
    assessment.promise = cure::promise(arrangement, &assessment);
    assessment
}

/// What is in the way, without cures: what a search asks a thousand times.
pub fn judge(arrangement: &Arrangement) -> Assessment {
    let scene = Scene::of(arrangement);
    let findings = findings(&Context::new(arrangement, &scene));
    Assessment {
        verdict: verdict(&findings),
        findings,
        promise: None,
        on_example_figures: check::on_examples(arrangement),
        scene,
    }
}

/// All findings, sorted: what stops first, then by kind, then by what they are about; among equals in the order found.
fn findings(context: &Context<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for check in check::ALL {
        (check.things)(context, &mut findings);
        (check.whole)(context, &mut findings);
    }
    findings.sort_by(|a, b| (a.severity, rank(a)).cmp(&(b.severity, rank(b))));
    findings
}

/// Conditions and things to have ready stay in the procedure's order: the sort is stable and they rank alike.
fn rank(finding: &Finding) -> (crate::assessment::Code, &[crate::assessment::Subject]) {
    (finding.code(), &finding.subjects)
}

fn verdict(findings: &[Finding]) -> Verdict {
    match findings.iter().map(|f| f.severity).min() {
        Some(Severity::Stops) => Verdict::NotReady,
        Some(Severity::Care) => Verdict::ReadyWithCare,
        Some(Severity::Note) | None => Verdict::Ready,
    }
}
