//! The set-ups of the visit with what is found of them, its steps, and the one answer for all of it.

use std::sync::Arc;

use baywright_planner::model::record::{StepId, VisitRecord};
use baywright_planner::model::{Arrangement, Id};
use baywright_planner::proof::Proof;
use baywright_planner::record::{Part, VisitAnswer, VisitStep, answer, in_order, set_up, steps};
use baywright_planner::{Assessment, assess};

use super::RecordPage;
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
    /// The same where the car stands in the bay, as the answer for the visit is asked for.
    base: Vec<Arc<Arrangement>>,
    steps: Vec<VisitStep>,
    proof: Option<(Arc<Arrangement>, Option<Proof>)>,
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

    /// What the marks of the step's own set-up prove.
    pub fn proof(&self) -> Option<&Proof> {
        self.proof.as_ref()?.1.as_ref()
    }

    /// The one answer for the visit, if it is known of what is there now.
    pub fn answer(&self) -> Option<&VisitAnswer> {
        let shown = self.answer.shown(self.asked.as_ref()?)?;
        (!shown.is_older).then_some(shown.found)
    }
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
            Self::follow_proof(page);
            return collected;
        }
        page.parts.of = Some(now);
        let parts = &mut page.parts;
        // What was read of another aiming stands in the record alone: with each entry they may be others.
        self.parts_of(record, parts);
        let lines: Vec<Id> = record.begun.lines.iter().map(|own| own.aiming.clone()).collect();
        self.ask_answer(&lines, parts, wake);
        let made = steps(record, &parts.parts());
        parts.steps = made;
        Self::follow_proof(page);
        collected
    }

    /// What the marks of the step's set-up prove follows the step.
    fn follow_proof(page: &mut RecordPage) {
        let aiming = page.at.as_ref().and_then(|own| own.aiming.as_ref());
        let Some(own) = aiming.and_then(|own| page.parts.part(own)) else {
            page.parts.proof = None;
            return;
        };
        let is_there = page.parts.proof.as_ref().is_some_and(|(of, _)| Arc::ptr_eq(of, &own.arrangement));
        if !is_there {
            let proof = Proof::of(&own.arrangement, &own.assessment.scene);
            page.parts.proof = Some((Arc::clone(&own.arrangement), proof));
        }
    }

    /// The record's aimings with their set-ups, as far as the bay has them, in the order of work. Nothing of the bay is changed by it: the
    /// set-up that is drawn there is its own, the others are made of it with what the record holds, where the car is parked for them.
    fn parts_of(&self, record: &VisitRecord, parts: &mut Parts) {
        let shown = &self.answer.judged;
        if shown.vehicle.id != record.begun.vehicle || self.answer.stale || self.answer.is_of_draft() {
            (parts.all, parts.base) = (Vec::new(), Vec::new());
            return;
        }
        let lines: Vec<Id> = record.begun.lines.iter().map(|own| own.aiming.clone()).collect();
        let others = self.document.layout().with_aimings(shown, &lines).into_iter().map(Arc::new);
        let own = lines.contains(&shown.aiming.id).then(|| Arc::clone(shown));
        let base: Vec<Arc<Arrangement>> = own.into_iter().chain(others).collect();
        let mut all: Vec<OwnPart> = base.iter().map(|own| self.part_of(record, parts, own)).collect();
        all.sort_by_key(|own| in_order(record, parts.answer(), &own.arrangement.aiming.id));
        (parts.all, parts.base) = (all, base);
    }

    /// One of them where its car is parked.
    fn part_of(&self, record: &VisitRecord, before: &Parts, base: &Arc<Arrangement>) -> OwnPart {
        let is_drawn = Arc::ptr_eq(base, &self.answer.judged);
        let as_set_up = |id: &Id| made(self.document.layout(), id, self.document.cars(), self.document.by());
        match set_up(record, base, is_drawn, before.answer(), as_set_up) {
            Some(own) => Self::judged(before, own),
            None => {
                OwnPart { arrangement: Arc::clone(base), assessment: Arc::clone(&self.answer.assessment) }
            }
        }
    }

    /// With what is found of it, which is not worked out again where it is known.
    fn judged(before: &Parts, own: Arrangement) -> OwnPart {
        let known = before.all.iter().find(|known| *known.arrangement == own);
        known
            .cloned()
            .unwrap_or_else(|| OwnPart { assessment: Arc::new(assess(&own)), arrangement: Arc::new(own) })
    }

    /// Has the answer worked out anew if it is of other set-ups than before; what was taped between marks is no part of it.
    fn ask_answer(&self, lines: &[Id], parts: &mut Parts, wake: &Wake) {
        let bare = |own: &Arc<Arrangement>| {
            let mut own = Arrangement::clone(own);
            own.marks_taped.clear();
            own.on_this_car.stood.clear();
            own
        };
        let line = |own: &Arrangement| lines.iter().position(|id| *id == own.aiming.id);
        let mut now: Vec<Arrangement> = parts.base.iter().map(bare).collect();
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
        // In the order of the record's lines, whatever order an earlier answer had.
        now.sort_by_key(line);
        let visit: Arc<Vec<Arrangement>> = Arc::new(now);
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
