//! What is taken back of what was entered: it is struck out by an entry of its own, and what the set-up has of it follows.

use baywright_planner::edit::Edit;
use baywright_planner::model::record::{Entry, StepId, StepKind, VisitRecord, What};
use baywright_planner::model::{Id, MarkTaped, Taken};
use baywright_planner::record::{Holds, append, taped};

use super::{OfRecord, RecordPage};
use crate::screen::Desk;
use crate::screen::command::{Command, OfBay};
use crate::session::clock;

impl Desk {
    /// Takes back what was chosen, else what stands in boxes and is not entered yet, else what was entered last in this window.
    pub(super) fn record_undo(&self, page: &mut RecordPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.record_page();
        if page.picked.take().is_some() {
            return;
        }
        if !page.typed.is_empty() {
            page.typed.clear();
            page.told.clear();
            return;
        }
        let Some(last) = page.deeds.last().filter(|_| self.can_enter(page)) else {
            out.push(Command::Tell(texts.nothing_to_undo.to_owned()));
            return;
        };
        let last: Vec<usize> = last.iter().rev().copied().collect();
        out.push(Command::Record(OfRecord::Undo));
        out.extend(self.after_strike(page, &last));
        out.extend(self.told_of(page, &last, |said| texts.taken_back(said)));
    }

    /// Brings back what was taken back last.
    pub(super) fn record_redo(&self, page: &mut RecordPage, out: &mut Vec<Command>) {
        let texts = self.view.locale.language.record_page();
        let Some((own, strikes)) = page.undone.last().filter(|_| self.can_enter(page)) else {
            out.push(Command::Tell(texts.nothing_to_redo.to_owned()));
            return;
        };
        let (own, strikes) = (own.clone(), strikes.iter().rev().copied().collect::<Vec<_>>());
        out.push(Command::Record(OfRecord::Redo));
        out.extend(self.after_strike(page, &strikes));
        out.extend(self.told_of(page, &own, |said| texts.brought_back(said)));
    }

    /// Strikes entries out, and has the set-up follow.
    pub(super) fn strike(&self, page: &RecordPage, entries: &[usize], why: &str) -> Vec<Command> {
        let what = |entry: &usize| What::Struck { entry: *entry, why: why.to_owned() };
        let entered = Command::Record(OfRecord::Enter(entries.iter().map(what).collect()));
        std::iter::once(entered).chain(self.after_strike(page, entries)).collect()
    }

    /// What the set-up has of these entries as it is once they are struck out; nothing where they cannot be.
    fn after_strike(&self, page: &RecordPage, entries: &[usize]) -> Vec<Command> {
        let Some(in_hand) = page.in_hand.as_ref().filter(|_| self.can_enter(page)) else { return Vec::new() };
        let mut then = in_hand.record().clone();
        for entry in entries {
            let what = What::Struck { entry: *entry, why: String::new() };
            if append(&mut then, Entry { by: page.by.clone(), at: clock::now(), what }).is_err() {
                return Vec::new();
            }
        }
        let holds = Holds::of(in_hand.record());
        let meant = entries.iter().filter_map(|own| holds.meant(*own));
        meant.filter_map(|own| self.set_up_then(page, &then, &own.what)).collect()
    }

    /// The edit of the set-up by which it has of an entry what the record has then.
    fn set_up_then(&self, page: &RecordPage, then: &VisitRecord, what: &What) -> Option<Command> {
        let holds = Holds::of(then);
        if let What::Reading(own) = what {
            let part = page.parts.part(&own.aiming).filter(|_| self.is_drawn(page, &own.aiming))?;
            let is_own = |taped: &&MarkTaped| taped.is_between(&own.from, &own.to);
            let now = part.arrangement.marks_taped.iter().find(is_own).map(|own| own.read_mm);
            let held = taped(then, &own.aiming).into_iter().find(|taped| is_own(&taped));
            let (read_mm, taken) =
                held.map_or_else(|| (None, Taken::default()), |own| (Some(own.read_mm), own.taken));
            let edit = Edit::Tape { from: own.from.clone(), to: own.to.clone(), read_mm, taken };
            return (now != read_mm).then_some(Command::Bay(OfBay::Edit(edit)));
        }
        let saved = self.document.saved_arrangement().filter(|_| !page.parts.all().is_empty())?;
        let mut now = saved.on_this_car.clone();
        match what {
            What::Alignment(_) => {
                now.take_sheet(holds.alignment().map(|own| own.what.clone()).unwrap_or_default());
            }
            What::RideHeights { .. } => {
                now.arches_mm = holds.ride_heights().map_or([None; 4], |own| *own.what)
            }
            What::Stood(own) => {
                let step =
                    page.parts.steps().iter().find(|step| step.id.aiming.as_ref() == Some(&own.aiming))?;
                let at = own.nth.checked_sub(1).filter(|_| self.stands_as_drawn(page, step))?;
                let held = holds.stood(&own.aiming).into_iter().find(|held| held.what.nth == own.nth);
                let is_last = at + 1 == now.stood.len();
                match (held, now.stood.get_mut(at)) {
                    (Some(held), Some(stood)) => *stood = held.what.stood.clone(),
                    (Some(held), None) => now.stood.push(held.what.stood.clone()),
                    (None, Some(stood)) if own.stood.end_mm.is_some() => stood.end_mm = None,
                    (None, _) if is_last => drop(now.stood.pop()),
                    (None, _) => {}
                }
            }
            _ => return None,
        }
        (now != saved.on_this_car).then_some(Command::Bay(OfBay::Edit(Edit::OnThisCar(now))))
    }

    /// To the step where these entries were made, and in a sentence which they are.
    fn told_of(&self, page: &RecordPage, entries: &[usize], said: impl Fn(&str) -> String) -> Vec<Command> {
        let Some(in_hand) = &page.in_hand else { return Vec::new() };
        let own = in_hand.record();
        let holds = Holds::of(own);
        let all: Vec<&Entry> = entries.iter().filter_map(|nth| holds.meant(*nth)).collect();
        let step = all.iter().find_map(|own| step_of(&own.what));
        let go = step.filter(|id| page.parts.step(id).is_some()).map(|id| Command::Record(OfRecord::Go(id)));
        let record = self.view.locale.language.record();
        let told: Vec<String> =
            all.iter().map(|entry| record.entry(self.view.locale, &own.begun, entry)).collect();
        // Of a distance to the one that is to be read now.
        let is_read = all.iter().any(|own| matches!(own.what, What::Reading(_)));
        let next = is_read.then_some(Command::Record(OfRecord::NextTape));
        go.into_iter().chain(next).chain([Command::Tell(said(&told.join(" ")))]).collect()
    }

    /// The numbers of the entries that count and say what a tape read between two marks.
    pub(super) fn readings_between(page: &RecordPage, own: &MarkTaped, aiming: &Id) -> Vec<usize> {
        let Some(in_hand) = &page.in_hand else { return Vec::new() };
        let all = Holds::of(in_hand.record()).entries().into_iter();
        let of = all.filter(|(_, entry)| {
            matches!(&entry.what, What::Reading(read) if read.aiming == *aiming && own.is_between(&read.from, &read.to))
        });
        of.map(|(nth, _)| nth).collect()
    }
}

/// At which step something is entered.
fn step_of(what: &What) -> Option<StepId> {
    let of = |kind, aiming: &baywright_planner::model::Id| Some(StepId::of_aiming(kind, aiming.clone()));
    match what {
        What::StepDone { step }
        | What::GonePast { step, .. }
        | What::LeftOut { step, .. }
        | What::NotApplicable { step, .. }
        | What::TakenBack { step, .. } => Some(step.clone()),
        What::Value(own) => Some(own.step.clone()),
        What::Reading(own) => of(StepKind::CheckDistances, &own.aiming),
        What::Decided(own) => of(StepKind::CheckDistances, &own.aiming),
        What::Routine { aiming, .. } => of(StepKind::Result, aiming),
        What::Stood(own) if own.stood.end_mm.is_some() => of(StepKind::Result, &own.aiming),
        What::Stood(own) => of(StepKind::Park, &own.aiming),
        What::Parked(own) => own.aimings.first().and_then(|own| of(StepKind::Park, own)),
        What::Document(own) => of(StepKind::Procedure, &own.aiming),
        What::RideHeights { .. } => Some(StepId::of_visit(StepKind::RideHeights)),
        What::Alignment(_) => Some(StepId::of_visit(StepKind::Alignment)),
        What::FloorConfirmed { .. } => Some(StepId::of_visit(StepKind::Floor)),
        What::Signed { .. } => Some(StepId::of_visit(StepKind::Sign)),
        _ => None,
    }
}
