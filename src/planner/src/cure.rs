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

/// Gives findings that stop the aiming or need care their cures, until `most` things have been looked at: the worst
/// findings come first, and one thing's cure serves all that it stops.
pub(crate) fn find(arrangement: &Arrangement, assessment: &mut Assessment, most: usize) {
    let Assessment { findings, scene, .. } = assessment;
    let scene = &*scene;
    let before = findings.clone();
    let mut of_things: Vec<(Id, bool, Option<Cure>)> = Vec::new();
    let mut of_car = car::Moves::new(arrangement, scene, &before);
    for finding in findings.iter_mut().filter(|f| f.severity != Severity::Note) {
        if finding.code == Code::ZoneNear {
            finding.cure = thing::away_from_zone(arrangement, scene, finding).or(finding.cure.take());
        }
        if finding.cure.is_some() {
            continue;
        }
        let culprit = finding.culprit().cloned();
        finding.cure = match culprit {
            Some(id) if worth_moving(finding) => {
                let care = finding.severity != Severity::Stops;
                let known = of_things.iter().find(|(known, for_care, _)| *known == id && *for_care == care);
                let cure = match known {
                    Some((_, _, cure)) => cure.clone(),
                    None if of_things.len() >= most => continue,
                    None => {
                        let cure = thing::cure(arrangement, scene, &before, &id, care);
                        of_things.push((id.clone(), care, cure.clone()));
                        cure
                    }
                };
                if care { cure } else { cure.or_else(|| of_car.away_from(&id)) }
            }
            _ => of_car.stand_on_mark(finding).or_else(|| of_car.cure(finding)),
        };
    }
    // A set-up that no move of the car fits into the room says so, once.
    for finding in findings.iter_mut() {
        if of_car.say_too_long(finding) {
            break;
        }
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
            !before.iter().any(|b| {
                b.code == f.code && b.subjects == f.subjects && b.severity <= f.severity && !deeper(f, b)
            })
        })
        .map(|f| Caused { code: f.code, severity: f.severity, subjects: f.subjects.clone() })
        .collect()
}

/// Whether a conflict is deeper than it was, by more than a tape shows.
fn deeper(now: &Finding, then: &Finding) -> bool {
    use crate::assessment::Quantity::Length;
    let deep = matches!(
        now.code,
        Code::ZoneObject | Code::ZoneUnjudged | Code::OutsideRoom | Code::CarClash | Code::StandClash
    );
    match (now.measured, then.measured) {
        (Some(Length(now)), Some(Length(then))) => deep && now > then + WHOLE_MM,
        _ => false,
    }
}

/// Whether a finding is of what is in the way, or near enough to be.
fn may_be_in_the_way(finding: &Finding) -> bool {
    finding.severity == Severity::Stops || finding.code == Code::ZoneNear
}

/// Whether a finding is about this thing first.
fn blames(finding: &Finding, id: &Id) -> bool {
    matches!(finding.subjects.first(), Some(Subject::Thing(culprit)) if culprit == id)
}
