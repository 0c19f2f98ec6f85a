//! What all cures together lead to: promised only after assessing again with all of them done, and never with two things
//! in one place.

use baywright_geometry::clearance::{Clearance, clearance};

use super::apply::apply_to;
use crate::assessment::{Assessment, Promise, Severity, Step, Verdict};
use crate::judge::judge;
use crate::model::{Arrangement, Thing};
use crate::scene::{PlacedThing, Scene};

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
            if stacked(&assessment.scene, arrangement, &judged.scene, &now) {
                return None;
            }
            return Some(Promise { steps, verdict: judged.verdict });
        }
        super::find(&now, &mut judged);
        next = next_steps(&judged)?;
    }
    None
}

/// Whether two things share a place after the steps that did not before: each move was looked for with the others where
/// they stand now.
fn stacked(scene: &Scene, before: &Arrangement, after: &Scene, now: &Arrangement) -> bool {
    let things: Vec<(&Thing, &PlacedThing)> = now.bay.things.iter().zip(&after.things).collect();
    let stood = |thing: &Thing| {
        let at = before.bay.things.iter().position(|own| own.id == thing.id)?;
        before.bay.things.get(at).zip(scene.things.get(at))
    };
    let has_moved = |thing: &Thing| stood(thing).is_none_or(|(own, _)| own.place.at != thing.place.at);
    let share = |a: &PlacedThing, b: &PlacedThing| {
        a.bounds.meets(&b.bounds) && matches!(clearance(&a.prism, &b.prism), Clearance::Intrudes(_))
    };
    things.iter().enumerate().any(|(i, (thing, place))| {
        has_moved(thing)
            && things.iter().enumerate().any(|(j, (other, beside))| {
                i != j
                    && share(place, beside)
                    && !stood(thing).zip(stood(other)).is_some_and(|((_, a), (_, b))| share(a, b))
            })
    })
}

/// One step for each thing that stops the aiming; parking the car elsewhere only if nothing else is known, since it
/// changes all the rest. `None` if there is nothing to do.
fn next_steps(judged: &Assessment) -> Option<Vec<Step>> {
    let mut steps: Vec<Step> = Vec::new();
    let mut car: Option<Step> = None;
    for finding in judged.findings.iter().filter(|f| f.severity == Severity::Stops) {
        // What has no cure of its own may go with another's.
        let Some(cure) = finding.cure.as_ref() else { continue };
        let step = cure.step.clone();
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
