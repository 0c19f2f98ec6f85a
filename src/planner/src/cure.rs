//! The cheapest way out of what stops the aiming, and what it would cause instead.
//!
//! A thing that stops the aiming is moved by the shortest move that clears *every* stop of it; a thing that cannot be
//! moved is cured by parking the car elsewhere. Every cure is tried before it is offered, and says what it would cause.

mod apply;
mod car;
mod promise;
mod thing;

use crate::assessment::{Assessment, Caused, Code, Cure, Finding, Severity, Subject};
use crate::model::{Arrangement, Id};

pub use apply::apply;
pub(crate) use promise::promise;

/// A length to go is rounded up to whole millimetres: no tape shows less.
const WHOLE_MM: f64 = 1.0;

/// Gives the first `most` findings that stop the aiming or need care their cures.
pub(crate) fn find(arrangement: &Arrangement, assessment: &mut Assessment, most: usize) {
    let before = assessment.findings.clone();
    let mut of_things: Vec<(Id, bool, Option<Cure>)> = Vec::new();
    let mut of_car = car::Moves::new(arrangement, &assessment.scene, &before);
    let scene = &assessment.scene;
    let open = assessment.findings.iter_mut().take(most).filter(|f| f.severity != Severity::Note);
    for finding in open {
        if finding.cure.is_some() {
            continue;
        }
        let culprit = finding.culprit().cloned();
        finding.cure = match culprit {
            Some(id) if worth_moving(finding) => {
                let care = finding.severity != Severity::Stops;
                let known = of_things.iter().find(|(known, for_care, _)| *known == id && *for_care == care);
                let cure = known.map(|(_, _, cure)| cure.clone());
                let cure = cure.unwrap_or_else(|| thing::cure(arrangement, scene, &before, &id, care));
                of_things.push((id.clone(), care, cure.clone()));
                if care { cure } else { cure.or_else(|| of_car.away_from(&id)) }
            }
            _ => of_car.cure(finding),
        };
    }
    // A set-up that no move of the car fits into the room says so instead.
    for finding in &mut assessment.findings {
        of_car.say_too_long(finding);
    }
}

/// A thing is moved for what stops, for what cannot be judged, and to make room; what is only near a zone is taped.
const fn worth_moving(finding: &Finding) -> bool {
    matches!(finding.severity, Severity::Stops)
        || matches!(
            finding.code,
            Code::ZoneUnjudged | Code::WorkingRoom | Code::KeepFree | Code::FresnelEntered
        )
}

/// What is there after and was not there before, or is worse.
fn caused(before: &[Finding], after: &[Finding]) -> Vec<Caused> {
    after
        .iter()
        .filter(|f| f.severity != Severity::Note)
        .filter(|f| {
            !before.iter().any(|b| b.code == f.code && b.subjects == f.subjects && b.severity <= f.severity)
        })
        .map(|f| Caused { code: f.code, severity: f.severity, subjects: f.subjects.clone() })
        .collect()
}

/// Whether a finding is about this thing first.
fn blames(finding: &Finding, id: &Id) -> bool {
    matches!(finding.subjects.first(), Some(Subject::Thing(culprit)) if culprit == id)
}
