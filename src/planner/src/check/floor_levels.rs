//! What is known of the floor.
//!
//! Rule: the floor's levels near wheels and targets are known, dated, not older than [`VALID_DAYS`], and differ by no
//! more than the aiming allows. Without levels the best verdict is "ready with care". Levels that differ by more than
//! the aiming allows anywhere in the survey are not judged further yet: what matters is the plane under the wheels.
//! Limit: the aiming's floor requirement; the age is common practice, no source.

use baywright_geometry::DVec2;

use super::{Context, finding};
use crate::assessment::{Basis, Code, Facts, Finding, FloorFact, Quantity, Severity, Step, Subject};
use crate::model::FloorSurvey;

/// Surveyed once a year (common practice, no source).
const VALID_DAYS: i64 = 365;
/// A wheel or target is covered if a level was taken within two paces of it: between points further apart a floor may
/// do anything (common practice, no source).
const COVERED_WITHIN_MM: f64 = 1500.0;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let at = context.scene.bay_from_vehicle.origin().extend(0.0);
    let care = |fact: FloorFact, basis: Basis| {
        finding(Code::FloorLevels, Severity::Care, vec![Subject::Floor], at, basis)
            .knowing(Facts::Floor(fact))
            .cured_by(Step::SurveyFloor)
    };
    let procedure = Basis::Procedure(context.arrangement.aiming.provenance.clone());
    let Some(survey) = &context.arrangement.bay.survey else {
        findings.push(care(FloorFact::Unknown, procedure));
        return;
    };
    match (survey.taken, context.arrangement.today) {
        (None, _) => findings.push(care(FloorFact::Undated, Basis::CommonPractice)),
        (Some(taken), Some(today)) => {
            let days = i64::from(taken.until(today).map_or(0, |span| span.get_days()));
            if days < 0 {
                findings.push(care(FloorFact::Future, Basis::AsEntered));
            } else if days > VALID_DAYS {
                findings.push(
                    care(FloorFact::OutOfDate, Basis::CommonPractice)
                        .against(Quantity::Days(days), Quantity::Days(VALID_DAYS)),
                );
            }
        }
        (Some(_), None) => {}
    }
    if !covers(context, survey) {
        findings.push(care(FloorFact::NotCovered, procedure.clone()));
    }
    let levels = || survey.points.iter().map(|point| point.level);
    let spread = levels().fold(f64::NEG_INFINITY, f64::max) - levels().fold(f64::INFINITY, f64::min);
    if let Some(floor) = context.arrangement.aiming.floor
        && spread > floor.level
    {
        let mut judged = care(FloorFact::NotJudged, procedure)
            .against(Quantity::Length(spread), Quantity::Length(floor.level));
        judged.cure = None;
        findings.push(judged);
    }
}

/// Whether the survey reaches all wheels and targets.
fn covers(context: &Context<'_>, survey: &FloorSurvey) -> bool {
    let targets = context.scene.targets.iter().map(|target| target.set.place.origin());
    let near = |p: DVec2| survey.points.iter().any(|point| point.at.distance(p) <= COVERED_WITHIN_MM);
    context.scene.wheels.iter().copied().chain(targets).all(near)
}
