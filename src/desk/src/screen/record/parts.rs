//! The set-ups of the visit with what is found of them, its steps, and the one answer for all of it.

use std::sync::Arc;

use baywright_planner::model::record::{StepId, VisitRecord};
use baywright_planner::model::{Arrangement, Id, MarkTaped};
use baywright_planner::proof::Proof;
use baywright_planner::record::{Holds, Part, VisitAnswer, VisitStep, answer, steps};
use baywright_planner::{Assessment, assess};

use super::{RecordPage, reads};
use crate::screen::Desk;
use crate::session::document::made;
use crate::session::job::Wake;
use crate::session::slow::Slow;

/// One aiming of the visit as its set-up stands.
#[derive(Clone, Debug)]
pub(super) struct OwnPart {
    pub arrangement: Arc<Arrangement>,
    pub assessment: Arc<Assessment>,
}

/// What was worked out of the visit.
#[derive(Debug, Default)]
pub(super) struct Parts {
    of: Option<PartsOf>,
    all: Vec<OwnPart>,
    steps: Vec<VisitStep>,
    proof: Option<(u64, Option<Proof>)>,
    asked: Option<Arc<Vec<Arrangement>>>,
    answer: Slow<Arc<Vec<Arrangement>>, VisitAnswer>,
}

/// What the parts and the steps were made of.
#[derive(Clone, Debug)]
struct PartsOf {
    generation: u64,
    found: Arc<Assessment>,
    head: String,
    is_answered: bool,
}

impl Parts {
    /// The set-ups, in the order of work.
    pub fn all(&self) -> &[OwnPart] {
        &self.all
    }

    /// The same, as the record asks for them.
    pub fn parts(&self) -> Vec<Part<'_>> {
        self.all
            .iter()
            .map(|own| Part { arrangement: &own.arrangement, assessment: &own.assessment })
            .collect()
    }

    /// The set-up of an aiming.
    pub fn part(&self, aiming: &Id) -> Option<&OwnPart> {
        self.all.iter().find(|own| own.arrangement.aiming.id == *aiming)
    }

    /// The steps.
    pub fn steps(&self) -> &[VisitStep] {
        &self.steps
    }

    /// One of them.
    pub fn step(&self, id: &StepId) -> Option<&VisitStep> {
        self.steps.iter().find(|own| own.id == *id)
    }

    /// What the marks of the set-up that is shown prove.
    pub fn proof(&self) -> Option<&Proof> {
        self.proof.as_ref()?.1.as_ref()
    }

    /// The one answer for the visit, if it is known of what is there now.
    pub fn answer(&self) -> Option<&VisitAnswer> {
        let shown = self.answer.shown(self.asked.as_ref()?)?;
        (!shown.is_older).then_some(shown.found)
    }
}

/// What was taped for an aiming, as the record holds it.
pub(super) fn taped(record: &VisitRecord, aiming: &Id) -> Vec<MarkTaped> {
    Holds::of(record).readings(aiming).into_iter().map(|own| reads::taped(own.what, own.entry)).collect()
}

impl Desk {
    /// Has the set-ups, the steps and the answer follow what is open. What takes longer is worked out beside the frame.
    pub(super) fn follow_parts(&mut self, page: &mut RecordPage, wake: &Wake) -> Result<(), String> {
        let collected = page.parts.answer.collect();
        let Some(in_hand) = &page.in_hand else { return collected };
        let record = in_hand.record();
        let now = PartsOf {
            generation: self.answer.generation,
            found: Arc::clone(&self.answer.assessment),
            head: in_hand.head().to_owned(),
            is_answered: page.parts.answer().is_some(),
        };
        let is_same = page.parts.of.as_ref().is_some_and(|own| {
            own.generation == now.generation
                && Arc::ptr_eq(&own.found, &now.found)
                && own.head == now.head
                && own.is_answered == now.is_answered
        });
        if is_same {
            return collected;
        }
        let is_other = page.parts.of.as_ref().is_none_or(|own| {
            own.generation != now.generation
                || own.is_answered != now.is_answered
                || page.parts.all.is_empty()
        });
        page.parts.of = Some(now);
        let parts = &mut page.parts;
        if is_other {
            parts.all = self.parts_of(record, parts);
            self.ask_answer(parts, wake);
        } else if let Some(shown) =
            parts.all.iter_mut().find(|own| Arc::ptr_eq(&own.arrangement, &self.answer.judged))
        {
            // Another way was found meanwhile.
            shown.assessment = Arc::clone(&self.answer.assessment);
        }
        if parts.proof.as_ref().is_none_or(|(of, _)| *of != self.answer.generation) {
            let proof = Proof::of(&self.answer.judged, &self.answer.assessment.scene);
            parts.proof = Some((self.answer.generation, proof));
        }
        let made = steps(record, &parts.parts());
        parts.steps = made;
        collected
    }

    /// The record's aimings with their set-ups, as far as the bay has them, in the order of work.
    fn parts_of(&self, record: &VisitRecord, before: &Parts) -> Vec<OwnPart> {
        let shown = &self.answer.judged;
        if shown.vehicle.id != record.begun.vehicle || self.answer.stale || self.answer.is_of_draft() {
            return Vec::new();
        }
        let mut all =
            vec![OwnPart { arrangement: Arc::clone(shown), assessment: Arc::clone(&self.answer.assessment) }];
        for mut other in self.document.layout().others_of_visit(shown) {
            other.marks_taped = taped(record, &other.aiming.id);
            let known = before.all.iter().find(|own| *own.arrangement == other);
            all.push(known.cloned().unwrap_or_else(|| OwnPart {
                assessment: Arc::new(assess(&other)),
                arrangement: Arc::new(other),
            }));
        }
        all.retain(|own| record.begun.line(&own.arrangement.aiming.id).is_some());
        let lines: Vec<&Id> = record.begun.lines.iter().map(|own| &own.aiming).collect();
        let order: Vec<&Id> = before.answer().map(|own| own.order().collect()).unwrap_or_default();
        let at = |own: &OwnPart| {
            let id = &own.arrangement.aiming.id;
            let of = |all: &[&Id]| all.iter().position(|own| *own == id).unwrap_or(usize::MAX);
            (of(&order), of(&lines))
        };
        all.sort_by_key(at);
        all
    }

    /// Has the answer worked out anew if it is of other set-ups than before; what was taped between marks is no part of it.
    fn ask_answer(&self, parts: &mut Parts, wake: &Wake) {
        let bare =
            |own: &OwnPart| Arrangement { marks_taped: Vec::new(), ..Arrangement::clone(&own.arrangement) };
        let mut now: Vec<Arrangement> = parts.all.iter().map(bare).collect();
        // Whichever of them is shown: the same visit.
        now.sort_by(|one, other| one.aiming.id.cmp(&other.aiming.id));
        let is_same = parts.asked.as_ref().is_some_and(|own| {
            let mut own = Vec::clone(own);
            own.sort_by(|one, other| one.aiming.id.cmp(&other.aiming.id));
            own == now
        });
        if is_same || now.is_empty() {
            return;
        }
        let visit: Arc<Vec<Arrangement>> = Arc::new(parts.all.iter().map(bare).collect());
        parts.asked = Some(Arc::clone(&visit));
        let layout = Arc::clone(self.document.layout());
        let (cars, by, shown) =
            (self.document.cars().to_vec(), self.document.by().clone(), self.answer.judged.id.clone());
        let car = self.answer.judged.vehicle.id.clone();
        parts.answer.ask(Arc::clone(&visit), ("whole visit", 1), wake, move |_| {
            let others = layout.arrangements.iter().filter(|own| own.id != shown && own.vehicle == car);
            let elsewhere: Vec<Arrangement> =
                others.filter_map(|own| made(&layout, &own.id, &cars, &by)).collect();
            answer(&visit, &elsewhere)
        });
    }
}
