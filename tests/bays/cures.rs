//! What is offered helps: no cure and no promise is refuted.

use std::collections::BTreeSet;

use baywright_planner::cure::apply;
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::{Assessment, Code, Cure, Finding, Severity, Step, Subject, Verdict, assess, judge};

use crate::oracle::{self, Conflict, FRESNEL, UNJUDGED};
use crate::solid::{self, Solid};
use crate::{bays, generator, of_each};

/// What was looked at, and what was refuted.
#[derive(Default)]
struct Tally {
    moves: usize,
    sure_moves: usize,
    car_moves: usize,
    others: usize,
    promises: usize,
    promised_ready: usize,
    refuted: Vec<String>,
}

/// What stops, by code and subjects.
fn stops(of: &Assessment) -> BTreeSet<(Code, Vec<Subject>)> {
    let all = of.findings.iter().filter(|finding| finding.severity == Severity::Stops);
    all.map(|finding| (finding.code(), finding.subjects.clone())).collect()
}

fn name(subject: Option<&Subject>) -> String {
    match subject {
        Some(Subject::Thing(id) | Subject::Runway(id) | Subject::FloorFeature(id)) => id.to_string(),
        Some(Subject::Zone(id) | Subject::Target(id) | Subject::Stand(id) | Subject::Mark(id)) => {
            id.to_string()
        }
        Some(Subject::Car) => "car".into(),
        other => format!("{other:?}"),
    }
}

/// What is in the way by its own fault, but for what only needs care.
fn by<'a>(all: &'a [Conflict], name: &str) -> Vec<&'a Conflict> {
    all.iter().filter(|own| own.by == name && own.kind != FRESNEL && own.kind != UNJUDGED).collect()
}

/// Whether a thing was put into something, or out of the room, further than it was.
fn collides(before: &Arrangement, after: &Arrangement, id: &Id) -> Option<String> {
    fn find<'a>(all: &'a [Solid], name: &str) -> Option<&'a Solid> {
        all.iter().find(|own| own.name == name)
    }
    let (then, now) = (oracle::things(before), oracle::things(after));
    let (stood, stands) = (find(&then, id.as_str())?, find(&now, id.as_str())?);
    for other in now.iter().filter(|own| own.name != stands.name) {
        let was = find(&then, &other.name)?;
        if solid::stacked(stands, other, 0.03) && !solid::stacked(stood, was, 0.0) {
            return Some(format!("{id} goes into {}", other.name));
        }
    }
    let past = |all: &Arrangement, solid: &Solid| oracle::past_walls(all, solid).max(0.0);
    let (was, is) = (past(before, stood), past(after, stands));
    (is > was + 0.03).then(|| format!("{id} goes out of the room by {is}, from {was}"))
}

/// Asks of one cure; what is wrong with it.
fn refuted(
    before: &Arrangement,
    told: &Assessment,
    finding: &Finding,
    cure: &Cure,
    tally: &mut Tally,
) -> Vec<String> {
    let mut wrong = Vec::new();
    let after = apply(before, &cure.step);
    let judged = judge(&after);
    let same = |own: &&Finding| own.code() == finding.code() && own.subjects == finding.subjects;
    if judged.findings.iter().any(|own| same(&own) && own.severity <= finding.severity) {
        wrong.push("it is still found".to_owned());
    }
    let certain = oracle::certain(&after);
    let culprit = name(finding.subjects.first());
    let is_stop = finding.severity == Severity::Stops;
    match &cure.step {
        Step::MoveThing { thing, .. } => {
            tally.moves += 1;
            let left = by(&certain, thing.as_str());
            if !left.is_empty() {
                wrong.push(format!("it is still in the way: {left:?}"));
            }
            wrong.extend(collides(before, &after, thing));
            if cure.at_least.is_some() || finding.is_only_unsure() {
                tally.sure_moves += 1;
                let near = oracle::near(&after);
                let left = by(&near, thing.as_str());
                if !left.is_empty() {
                    wrong.push(format!("it may still be in the way: {left:?}"));
                }
            }
        }
        Step::MoveCar { .. } => {
            tally.car_moves += 1;
            let of = name(finding.subjects.get(1));
            let left: Vec<&Conflict> = match finding.subjects.first() {
                Some(Subject::Thing(_)) => by(&certain, &culprit),
                Some(Subject::FloorFeature(_)) => {
                    certain.iter().filter(|own| own.by == culprit && own.of == of).collect()
                }
                _ => certain.iter().filter(|own| own.by == "wall" && own.of == culprit).collect(),
            };
            // A move of the car is asked of what it is offered for, not of all that its new place causes.
            if is_stop && !left.is_empty() && cure.causes.is_empty() {
                wrong.push(format!("it is still in the way: {left:?}"));
            }
        }
        _ => tally.others += 1,
    }
    // What it causes is told.
    let was = stops(told);
    let causes: BTreeSet<_> = cure.causes.iter().map(|own| (own.code(), own.subjects.clone())).collect();
    let known = |own: &(Code, Vec<Subject>)| was.contains(own) || causes.contains(own);
    let untold: Vec<_> = stops(&judged).into_iter().filter(|own| !known(own)).collect();
    if !untold.is_empty() {
        wrong.push(format!("it causes {untold:?} and does not say so"));
    }
    wrong
}

fn is_done_by_hand(step: &Step) -> bool {
    matches!(
        step,
        Step::MoveThing { .. }
            | Step::TakeAway { .. }
            | Step::MoveCar { .. }
            | Step::OpenDoor { .. }
            | Step::StandOnMark { .. }
    )
}

fn ask(seed: u64) -> Tally {
    let mut tally = Tally::default();
    let arrangement = generator::arrangement(seed);
    let told = assess(&arrangement);
    let mut tried: Vec<(&Step, Code, &[Subject])> = Vec::new();
    for finding in &told.findings {
        let Some(cure) = finding.cure.as_ref().filter(|cure| is_done_by_hand(&cure.step)) else { continue };
        let this = (&cure.step, finding.code(), finding.subjects.as_slice());
        if tried.contains(&this) {
            continue;
        }
        tried.push(this);
        for what in refuted(&arrangement, &told, finding, cure, &mut tally) {
            let about = (finding.code(), &finding.subjects, &cure.step, cure.at_least);
            tally.refuted.push(format!("seed {seed}: {about:?}: {what}"));
        }
    }
    if let Some(promise) = &told.promise {
        tally.promises += 1;
        let after = promise.steps.iter().fold(arrangement.clone(), |now, step| apply(&now, step));
        let verdict = judge(&after).verdict;
        if verdict != promise.verdict {
            tally.refuted.push(format!("seed {seed}: promised {:?}, it is {verdict:?}", promise.verdict));
        }
        let left = if promise.verdict == Verdict::Ready {
            tally.promised_ready += 1;
            oracle::possible(&after)
        } else {
            oracle::certain(&after)
        };
        if !left.is_empty() {
            tally.refuted.push(format!("seed {seed}: promised {:?}: {left:?}", promise.verdict));
        }
        let moved = promise.steps.iter().filter_map(|step| match step {
            Step::MoveThing { thing, .. } => Some(thing),
            _ => None,
        });
        for what in moved.filter_map(|thing| collides(&arrangement, &after, thing)) {
            tally.refuted.push(format!("seed {seed}: promised, but {what}"));
        }
    }
    tally
}

/// Bays of which something was refuted once: asked each time.
const REFUTED: [u64; 3] = [441, 899, 1_037];

#[test]
fn no_cure_and_no_promise_is_refuted() {
    let count = bays(100);
    let mut all = Tally::default();
    let again = |n: u64| ask(n.checked_sub(count).map_or(n, |once| REFUTED[once as usize]));
    for one in of_each(count + REFUTED.len() as u64, again) {
        all.moves += one.moves;
        all.sure_moves += one.sure_moves;
        all.car_moves += one.car_moves;
        all.others += one.others;
        all.promises += one.promises;
        all.promised_ready += one.promised_ready;
        all.refuted.extend(one.refuted);
    }
    let Tally { moves, sure_moves, car_moves, others, promises, promised_ready, refuted } = all;
    let asked = format!(
        "{moves} moves of things ({sure_moves} sure), {car_moves} of the car, {others} others; {promises} promises \
         ({promised_ready} of ready)"
    );
    println!("{asked}");
    assert!(refuted.is_empty(), "{} of {asked}:\n{}", refuted.len(), refuted.join("\n"));
    let hundredth = |count: usize| count as u64 * 100 / bays(100);
    assert!(hundredth(moves) >= 100, "{asked}");
    assert!(hundredth(sure_moves) >= 10, "{asked}");
    assert!(hundredth(car_moves) >= 10, "{asked}");
    assert!(hundredth(promises) >= 10, "{asked}");
}
