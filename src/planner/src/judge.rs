//! From an arrangement to what is in the way.

use std::collections::BTreeSet;

use crate::assessment::{Assessment, Code, Finding, Severity, Subject, Verdict};
use crate::check::{self, Context};
use crate::model::{Arrangement, Id};
use crate::scene::Scene;

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
    // The other's own answer, with what asks in it: that asks no further.
    let of_other = |other: &Arrangement| self::findings(&Context::new(other, &Scene::of(other)));
    findings.extend(check::done_beside(context, &of_other));
    // What must go anyway is measured, and heard, where it goes.
    let stops = findings.iter().filter(|f| f.severity == Severity::Stops);
    let going: BTreeSet<Id> = stops.filter_map(Finding::culprit).cloned().collect();
    findings.retain(|f| {
        !((f.is_only_unsure() || f.is_of_echo()) && f.culprit().is_some_and(|id| going.contains(id)))
    });
    let goes = |subject: &Subject| matches!(subject, Subject::Thing(id) if going.contains(id));
    let mut findings: Vec<Finding> =
        findings.into_iter().filter_map(|found| check::without(found, goes)).collect();
    findings = check::once_for_each_part(context.arrangement, findings);
    findings.sort_by(|a, b| (a.severity, rank(a)).cmp(&(b.severity, rank(b))));
    findings
}

/// Conditions and things to have ready stay in the procedure's order: the sort is stable and they rank alike.
fn rank(finding: &Finding) -> (Code, &[Subject]) {
    (finding.code(), &finding.subjects)
}

fn verdict(findings: &[Finding]) -> Verdict {
    match findings.iter().map(|f| f.severity).min() {
        Some(Severity::Stops) => Verdict::NotReady,
        Some(Severity::Care) => Verdict::ReadyWithCare,
        Some(Severity::Note) | None => Verdict::Ready,
    }
}
