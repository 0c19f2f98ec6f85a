//! The cheapest way out of what stops the aiming, and what it would cause instead.
//!
//! A thing that stops the aiming is moved by the shortest move that clears *every* stop of it; a thing that cannot be
//! moved is cured by parking the car elsewhere. Every cure is tried before it is offered, and says what it would cause.

mod apply;
mod car;
mod promise;
mod thing;

use baywright_geometry::DVec2;

use crate::assessment::{Assessment, Cure, Finding, Quantity, Severity, Step, Subject};
use crate::check::{self, Claim, Remedy};
use crate::model::{Arrangement, Id};
use crate::scene::Scene;

pub use apply::apply;
pub(crate) use promise::promise;

/// How many findings get a cure with its consequences looked up; the others are notes or far down the list.
pub const MOST_CURES: usize = 10;

/// A length to go is rounded up to whole millimetres: no tape shows less.
const WHOLE_MM: f64 = 1.0;

/// What all cures of one arrangement are looked for with.
struct Case<'a> {
    arrangement: &'a Arrangement,
    scene: &'a Scene,
    /// What is found as it stands.
    before: &'a [Finding],
    /// What the checks keep things and car out of.
    claims: Vec<Claim>,
}

/// Gives findings that stop the aiming or need care their cures, until [`MOST_CURES`] things have been looked at: the worst
/// findings come first, and one thing's cure serves all that it stops.
pub(crate) fn find(arrangement: &Arrangement, assessment: &mut Assessment) {
    let Assessment { findings, scene, .. } = assessment;
    let before = findings.clone();
    let case = Case { arrangement, scene, before: &before, claims: check::claims(arrangement, scene) };
    let mut of_things: Vec<(Id, bool, Option<Cure>)> = Vec::new();
    let mut of_car = car::Moves::new(&case);
    for finding in findings.iter_mut().filter(|f| f.severity != Severity::Note) {
        let remedy = check::of(finding.code()).map_or(Remedy::None, |check| (check.remedy)(finding));
        if remedy == Remedy::ThingFurther {
            finding.cure = thing::further(&case, finding).or(finding.cure.take());
        }
        if finding.cure.is_some() {
            continue;
        }
        finding.cure = match (remedy, finding.culprit()) {
            (Remedy::ThingOut, Some(id)) => {
                let care = finding.severity != Severity::Stops;
                let known = of_things.iter().find(|(known, for_care, _)| known == id && *for_care == care);
                let cure = match known {
                    Some((_, _, cure)) => cure.clone(),
                    None if of_things.len() >= MOST_CURES => continue,
                    None => {
                        let cure = thing::cure(&case, id, care);
                        of_things.push((id.clone(), care, cure.clone()));
                        cure
                    }
                };
                if care { cure } else { cure.or_else(|| of_car.away_from(id)) }
            }
            _ => of_car.stand_on_mark(finding).or_else(|| of_car.cure(finding, remedy)),
        };
    }
    // A set-up that no move of the car fits into the room says so, once.
    for finding in findings.iter_mut() {
        if of_car.say_too_large(finding) {
            break;
        }
    }
}

impl Cure {
    /// The same move, but so far, which is sure: only nearness is then no consequence any more.
    fn further(self, by: Option<DVec2>) -> Self {
        let Some(further) = by else { return self };
        let (step, shorter) = match self.step {
            Step::MoveThing { thing, by } => (Step::MoveThing { thing, by: further }, by),
            Step::MoveCar { by } => (Step::MoveCar { by: further }, by),
            step => return Self { step, ..self },
        };
        let causes = self.causes.into_iter().filter(|caused| !caused.is_only_unsure()).collect();
        Self { step, at_least: Some(shorter), causes, ..self }
    }
}

/// What is there after and was not there before, or is worse; without the ways out of it.
fn caused(before: &[Finding], after: &[Finding]) -> Vec<Finding> {
    let there = |f: &Finding| {
        let same = |b: &&Finding| b.facts.code() == f.facts.code() && b.subjects == f.subjects;
        before.iter().filter(same).any(|b| b.severity <= f.severity && !deeper(f, b))
    };
    let new = after.iter().filter(|f| f.severity != Severity::Note && !there(f));
    new.map(|f| Finding { cure: None, ..f.clone() }).collect()
}

/// Whether a conflict is deeper than it was, by more than a tape shows.
fn deeper(now: &Finding, then: &Finding) -> bool {
    let is_depth = check::of(now.code()).is_some_and(|check| check.depths.contains(&now.code()));
    match (now.measured, then.measured) {
        (Some(Quantity::Length(now)), Some(Quantity::Length(then))) => is_depth && now > then + WHOLE_MM,
        _ => false,
    }
}

/// Whether a finding is of what is in the way, or near enough to be.
fn may_be_in_the_way(finding: &Finding) -> bool {
    finding.severity == Severity::Stops || finding.is_only_unsure()
}

/// Whether a finding is about this thing first.
fn blames(finding: &Finding, id: &Id) -> bool {
    matches!(finding.subjects.first(), Some(Subject::Thing(culprit)) if culprit == id)
}
