//! What all steps together lead to: promised only after judging again with all of them done.
//!
//! Several sets of steps are worked out: moving the things, and parking the car elsewhere first. In each a thing is moved as the
//! others stand by then, so that no two come to one place. The set that leaves the least to do and to mind is
//! promised.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use baywright_geometry::DVec2;
use baywright_geometry::clearance::{Clearance, clearance};

use super::apply::apply_to;
use super::car::rounded;
use super::parking::places;
use super::{Case, minded, thing};
use crate::assessment::{Assessment, Finding, Promise, Severity, Step, Verdict};
use crate::check;
use crate::judge::judge;
use crate::model::{Arrangement, Effort, Id, Thing};
use crate::scene::Scene;

/// How many times steps are looked for: a step may bring another thing into play.
const MOST_ROUNDS: usize = 3;
/// Where more is to be minded no other place of the car is looked for: each is judged with all of it.
const MOST_MINDED: usize = 200;
/// Taking a thing out of the bay counts as carrying it so far.
const OUT_OF_BAY_MM: f64 = 10_000.0;

/// The steps that make the space ready, or ready with care, the car where it is unless nothing else is known; `None` if no
/// steps are known, or none are needed.
pub(crate) fn promise(arrangement: &Arrangement, assessment: &Assessment) -> Option<Promise> {
    as_it_stands(arrangement, assessment).map(Plan::promised)
}

/// The same, of all ways: the car parked elsewhere too, within [`super::LOOKED_WITHIN_MM`], if that leaves less to do and to
/// mind. It judges some dozen times as often.
pub(super) fn of_all_ways(arrangement: &Arrangement, assessment: &Assessment) -> Option<Promise> {
    // What is promised with the car where it is was found with the assessment.
    let known = assessment.promise.as_ref().map(|known| Plan::of(arrangement, known.steps.clone()));
    let mut plans: Vec<Plan<'_>> = known.into_iter().collect();
    let is_few = looks_elsewhere(arrangement, assessment);
    if assessment.verdict == Verdict::NotReady && is_few && plans.iter().all(|plan| plan.minded() > (0, 0)) {
        let parked = elsewhere(arrangement, assessment).into_iter();
        let parked = parked.map(|by| Plan::of(arrangement, vec![Step::MoveCar { by }]));
        plans.extend(parked.filter_map(Plan::worked_out));
    }
    plans.into_iter().min_by(Plan::in_order).map(Plan::promised)
}

/// Whether so little is in the way that another place is looked for at all.
pub fn looks_elsewhere(arrangement: &Arrangement, assessment: &Assessment) -> bool {
    let (stops, care) = minded(&assessment.findings);
    stopping(&assessment.findings) <= super::most_cures(arrangement) && stops + care <= MOST_MINDED
}

fn as_it_stands<'a>(arrangement: &'a Arrangement, assessment: &Assessment) -> Option<Plan<'a>> {
    let is_needed = assessment.verdict == Verdict::NotReady;
    is_needed.then(|| Plan::new(arrangement, assessment.clone()).worked_out()).flatten()
}

/// Where the car could stand instead: clear of everything, or of what cannot be moved at all.
fn elsewhere(arrangement: &Arrangement, assessment: &Assessment) -> Vec<DVec2> {
    let (before, scene) = (&assessment.findings, &assessment.scene);
    let case = Case::new(arrangement, scene, before, check::claims(arrangement, scene));
    let mut found = places(&case, |_| true);
    found.extend(places(&case, |thing| thing.effort == Effort::Fixed).first());
    found.into_iter().map(|by| rounded(scene, by)).collect()
}

/// A set of steps, with what the bay is after them.
struct Plan<'a> {
    from: &'a Arrangement,
    steps: Vec<Step>,
    now: Arrangement,
    /// What is said of it, with its cures if it is not ready.
    judged: Assessment,
    /// How many things stop the aiming to begin with.
    stopping: usize,
}

impl<'a> Plan<'a> {
    fn new(from: &'a Arrangement, judged: Assessment) -> Self {
        let stopping = stopping(&judged.findings);
        Self { from, steps: Vec::new(), now: from.clone(), judged, stopping }
    }

    /// That consists of these steps.
    fn of(from: &'a Arrangement, steps: Vec<Step>) -> Self {
        let mut now = from.clone();
        for step in &steps {
            apply_to(&mut now, step);
        }
        let judged = judge(&now);
        let stopping = stopping(&judged.findings);
        Self { from, steps, now, judged, stopping }
    }

    /// With all the steps that it takes; `None` if they do not suffice.
    fn worked_out(mut self) -> Option<Self> {
        // Each of them has to go, and for no more a way is looked for.
        if self.stopping > super::most_cures(self.from) {
            return None;
        }
        let begins_with = self.steps.len();
        for round in 0..MOST_ROUNDS {
            if self.judged.verdict != Verdict::NotReady {
                break;
            }
            if round > 0 || begins_with > 0 {
                super::find(&self.now, &mut self.judged);
            }
            let next = next_steps(&self.judged);
            if next.is_empty() {
                break;
            }
            for step in next {
                self.take(step);
            }
            self.judged = judge(&self.now);
        }
        let is_enough = self.judged.verdict != Verdict::NotReady;
        is_enough.then(|| self.without_the_needless())
    }

    /// Does a step; a thing that would come into what was moved before goes another way, if there is one.
    fn take(&mut self, mut step: Step) {
        if let Step::MoveThing { thing, by } = &step
            && self.comes_into_what_was_moved(thing, *by)
        {
            let scene = Scene::of(&self.now);
            let before = judge(&self.now).findings;
            let claims = check::claims(&self.now, &scene);
            let case = Case::new(&self.now, &scene, &before, claims);
            let Some(cure) = thing::cure(&case, thing, false) else { return };
            step = cure.step;
        }
        apply_to(&mut self.now, &step);
        self.note(step);
    }

    /// Each way was found with the other things where they stood: whether this one ends in a thing that has been moved since.
    fn comes_into_what_was_moved(&self, id: &Id, by: DVec2) -> bool {
        let solid = |id: &Id| self.now.bay.things.iter().find(|thing| thing.id == *id).map(Thing::prism);
        let moved = self.steps.iter().filter_map(|step| match step {
            Step::MoveThing { thing, .. } if thing != id => solid(thing),
            _ => None,
        });
        let Some(own) = solid(id).map(|own| own.moved(by)) else { return false };
        moved.into_iter().any(|other| matches!(clearance(&own, &other), Clearance::Intrudes(_)))
    }

    /// What is moved twice goes there at once; what leaves the bay is not moved before.
    fn note(&mut self, step: Step) {
        match &step {
            Step::MoveThing { thing, by } => {
                let known = self.steps.iter_mut().find_map(|done| match done {
                    Step::MoveThing { thing: own, by } if own == thing => Some(by),
                    _ => None,
                });
                if let Some(first) = known {
                    *first += *by;
                    return;
                }
            }
            Step::TakeAway { thing } => {
                self.steps.retain(|done| !matches!(done, Step::MoveThing { thing: own, .. } if own == thing));
            }
            _ => {}
        }
        self.steps.push(step);
    }

    /// Without the steps that change nothing of the answer.
    fn without_the_needless(mut self) -> Self {
        // A thing that stops the aiming as it stands has to go; only with other steps beside it can its own be spared.
        let is_of_thing = |step: &Step| matches!(step, Step::MoveThing { .. } | Step::TakeAway { .. });
        if self.steps.iter().all(is_of_thing) && self.steps.len() <= self.stopping {
            return self;
        }
        for i in (0..self.steps.len()).rev() {
            let mut fewer = self.steps.clone();
            fewer.remove(i);
            let fewer = Self::of(self.from, fewer);
            if fewer.minded() <= self.minded() {
                self = fewer;
            }
        }
        self
    }

    fn promised(self) -> Promise {
        Promise { steps: self.steps, verdict: self.judged.verdict }
    }

    fn minded(&self) -> (usize, usize) {
        minded(&self.judged.findings)
    }

    /// The least to do and to mind first, then the least effort, the fewest steps, the shortest ways. A step more is worth it
    /// where it leaves two things less to be minded: who tapes one column does not park the car anew for it.
    fn in_order(&self, other: &Self) -> Ordering {
        let effort = |plan: &Self| plan.steps.iter().map(|step| plan.effort(step)).max();
        let length = |plan: &Self| plan.steps.iter().map(length).sum::<f64>();
        let in_all = |plan: &Self| plan.minded().1 + plan.steps.len();
        (in_all(self), effort(self), self.steps.len())
            .cmp(&(in_all(other), effort(other), other.steps.len()))
            .then_with(|| length(self).total_cmp(&length(other)))
    }

    fn effort(&self, step: &Step) -> Effort {
        let of =
            |id: &Id| self.from.bay.things.iter().find(|thing| thing.id == *id).map(|thing| thing.effort);
        match step {
            Step::MoveThing { thing, .. } | Step::TurnThing { thing, .. } | Step::TakeAway { thing } => {
                of(thing).unwrap_or(Effort::OnePerson)
            }
            _ => Effort::OnePerson,
        }
    }
}

/// The things that stop the aiming.
fn stopping(judged: &[Finding]) -> usize {
    let culprits = judged.iter().filter(|f| f.severity == Severity::Stops).filter_map(Finding::culprit);
    culprits.collect::<BTreeSet<_>>().len()
}

/// How far something goes.
fn length(step: &Step) -> f64 {
    match step {
        Step::MoveThing { by, .. } | Step::MoveCar { by } => by.length(),
        Step::TakeAway { .. } => OUT_OF_BAY_MM,
        _ => 0.0,
    }
}

/// What is put right first; then one step for each thing that stops the aiming; parking the car elsewhere only if nothing
/// else is known, since it changes all the rest. Steps that only ask a person to find something out are none.
fn next_steps(judged: &Assessment) -> Vec<Step> {
    let stops = judged.findings.iter().filter(|f| f.severity == Severity::Stops);
    let mut known: Vec<&Step> = stops.filter_map(|f| f.cure.as_ref()).map(|cure| &cure.step).collect();
    let is_first = |step: &&Step| matches!(step, Step::StandOnMark { .. } | Step::OpenDoor { .. });
    let is_of_thing = |step: &&Step| matches!(step, Step::MoveThing { .. } | Step::TakeAway { .. });
    let is_of_car = |step: &&Step| matches!(step, Step::MoveCar { .. });
    let mut steps: Vec<Step> = Vec::new();
    if known.iter().any(is_first) {
        known.retain(is_first);
    } else if known.iter().any(is_of_thing) {
        known.retain(is_of_thing);
    } else {
        known.retain(is_of_car);
        known.truncate(1);
    }
    for step in known {
        if !steps.contains(step) {
            steps.push(step.clone());
        }
    }
    steps
}
