//! What all cures together lead to: promised only after assessing again with all of them done.

use super::apply::apply_to;
use crate::assess::{MOST_CURES, judge};
use crate::assessment::{Assessment, Promise, Severity, Step, Verdict};
use crate::model::Arrangement;

/// How many times the list of steps may grow: a step may bring another thing into play.
const MOST_ROUNDS: usize = 3;

/// The steps that make the space ready, or ready with care; `None` if none are known, or none are needed.
pub(crate) fn promise(arrangement: &Arrangement, assessment: &Assessment) -> Option<Promise> {
    if assessment.verdict != Verdict::NotReady {
        return None;
    }
    let mut steps: Vec<Step> = Vec::new();
    let mut now = arrangement.clone();
    let mut next = next_steps(assessment)?;
    for _ in 0..MOST_ROUNDS {
        for step in &next {
            apply_to(&mut now, step);
        }
        steps.append(&mut next);
        let mut judged = judge(&now);
        if judged.verdict != Verdict::NotReady {
            return Some(Promise { steps, verdict: judged.verdict });
        }
        super::find(&now, &mut judged, MOST_CURES);
        next = next_steps(&judged)?;
    }
    None
}

/// One step for each thing that stops the aiming; parking the car elsewhere only if nothing else is known, since it
/// changes all the rest. `None` if there is nothing to do.
fn next_steps(judged: &Assessment) -> Option<Vec<Step>> {
    let mut steps: Vec<Step> = Vec::new();
    let mut car: Option<Step> = None;
    for finding in judged.findings.iter().filter(|f| f.severity == Severity::Stops) {
        // What has no cure of its own may go with another's.
        let Some(cure) = finding.cure.as_ref() else { continue };
        let step = match (&cure.step, cure.to_be_sure) {
            // Far enough that not even the uncertainty of its place is left.
            (Step::MoveThing { thing, .. }, Some(by)) => Step::MoveThing { thing: thing.clone(), by },
            (Step::MoveCar { .. }, Some(by)) => Step::MoveCar { by },
            (step, _) => step.clone(),
        };
        match step {
            Step::MoveCar { .. } => car = car.or(Some(step)),
            step if !steps.contains(&step) => steps.push(step),
            _ => {}
        }
    }
    if steps.is_empty() {
        steps.extend(car);
    }
    (!steps.is_empty()).then_some(steps)
}
