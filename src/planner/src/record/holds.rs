//! What of a record holds: of the same thing the last that was entered.

use jiff::civil::Date;

use crate::model::record::{
    Attachment, Decided, Entered, Entry, Instrument, MakersDocument, ParkedAt, Reading, RoutineResult,
    StepId, StepKind, StoodRead, ValueOf, VisitRecord, What,
};
use crate::model::{AlignmentSheet, Id};

/// Something that holds, with the entry that it comes from.
#[derive(Debug)]
pub struct Held<'a, T> {
    /// What.
    pub what: &'a T,
    /// Who entered it, and when.
    pub entry: &'a Entry,
    /// Its place among the entries, from 0.
    pub nth: usize,
}

impl<T> Clone for Held<'_, T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Held<'_, T> {}

/// A figure that was decided, and whether something was taped after it.
#[derive(Clone, Copy, Debug)]
pub struct DecidedNow<'a> {
    /// The figure.
    pub held: Held<'a, Decided>,
    /// A distance between marks of its aiming was taped after it: it is to be decided anew.
    pub is_older: bool,
}

/// What of a record holds.
#[derive(Clone, Copy, Debug)]
pub struct Holds<'a> {
    record: &'a VisitRecord,
}

/// Whether an instrument was to be checked before the day on which it was used; of one of which no such day is known it is not.
pub fn is_overdue(instrument: &Instrument, used: Date) -> bool {
    instrument.due.is_some_and(|due| due < used)
}

impl<'a> Holds<'a> {
    /// Of this record.
    pub const fn of(record: &'a VisitRecord) -> Self {
        Self { record }
    }

    fn all<T: 'a>(
        self,
        pick: impl Fn(&'a What) -> Option<&'a T>,
    ) -> impl DoubleEndedIterator<Item = Held<'a, T>> {
        let entries = self.entries().into_iter();
        entries.filter_map(move |(nth, entry)| Some(Held { what: pick(&entry.what)?, entry, nth }))
    }

    /// The entries that count, each with its place among all, from 0: those that nobody struck out.
    pub fn entries(self) -> Vec<(usize, &'a Entry)> {
        let all = &self.record.entries;
        let mut counts = vec![true; all.len()];
        // From the end: whether an entry counts is known once all after it were asked.
        for (nth, own) in all.iter().enumerate().rev() {
            let What::Struck { entry, .. } = own.what else { continue };
            let is_struck = counts.get(nth).is_some_and(|own| *own) && entry < nth;
            if let Some(own) = counts.get_mut(entry).filter(|_| is_struck) {
                *own = false;
            }
        }
        all.iter().enumerate().zip(counts).filter(|(_, counts)| *counts).map(|(own, _)| own).collect()
    }

    /// Whether an entry counts: it is there, and nobody struck it out.
    pub fn counts(self, nth: usize) -> bool {
        self.entries().iter().any(|(own, _)| *own == nth)
    }

    /// Whether an entry can be struck out now.
    pub fn can_be_struck(self, nth: usize) -> bool {
        self.counts(nth) && self.record.entries.get(nth).is_some_and(|own| own.what.can_be_struck())
    }

    /// What an entry strikes out, or brings back by striking out what struck it: the entry that is meant in the end. Any other entry is
    /// itself.
    pub fn meant(self, nth: usize) -> Option<&'a Entry> {
        let own = self.record.entries.get(nth)?;
        match own.what {
            What::Struck { entry, .. } if entry < nth => self.meant(entry),
            _ => Some(own),
        }
    }

    /// The entries that count, the last first.
    fn last_first(self) -> impl Iterator<Item = &'a Entry> {
        self.entries().into_iter().rev().map(|(_, own)| own)
    }

    /// The last of each that are of the same thing, in the order in which they were entered.
    fn last_of_each<T: 'a>(
        self,
        pick: impl Fn(&'a What) -> Option<&'a T>,
        same: impl Fn(&T, &T) -> bool,
    ) -> Vec<Held<'a, T>> {
        let all: Vec<Held<'a, T>> = self.all(pick).collect();
        let is_last = |(at, own): &(usize, &Held<'a, T>)| {
            !all.iter().skip(at + 1).any(|later| same(own.what, later.what))
        };
        all.iter().enumerate().filter(is_last).map(|(_, own)| *own).collect()
    }

    /// Whether nothing more is entered.
    pub fn is_closed(self) -> bool {
        let last = self.last_first().find_map(|own| match own.what {
            What::Closed => Some(true),
            What::Reopened { .. } => Some(false),
            _ => None,
        });
        last.unwrap_or(false)
    }

    /// The last entry that settles a step, or opens it again.
    pub fn step(self, step: &StepId) -> Option<&'a Entry> {
        self.last_first().find(|own| match &own.what {
            What::StepDone { step: own }
            | What::GonePast { step: own, .. }
            | What::LeftOut { step: own, .. }
            | What::NotApplicable { step: own, .. }
            | What::TakenBack { step: own, .. } => own == step,
            _ => false,
        })
    }

    /// Whether something was said of a step that can be taken back.
    pub fn is_settled(self, step: &StepId) -> bool {
        self.step(step).is_some_and(|own| !matches!(own.what, What::TakenBack { .. }))
    }

    /// The figure that holds of something that a step asks for.
    pub fn value(self, step: &StepId, of: &ValueOf) -> Option<Held<'a, Entered>> {
        let pick = |what: &'a What| match what {
            What::Value(own) if own.step == *step && own.of == *of => Some(own),
            _ => None,
        };
        self.all(pick).next_back()
    }

    /// All figures that hold, in the order in which they were entered.
    pub fn values(self) -> Vec<Held<'a, Entered>> {
        let pick = |what: &'a What| if let What::Value(own) = what { Some(own) } else { None };
        self.last_of_each(pick, |one, other| one.step == other.step && one.of == other.of)
    }

    /// The distances of an aiming, each as it was read last, whichever way.
    pub fn readings(self, aiming: &Id) -> Vec<Held<'a, Reading>> {
        let pick = |what: &'a What| match what {
            What::Reading(own) if own.aiming == *aiming => Some(own),
            _ => None,
        };
        let same = |one: &Reading, other: &Reading| {
            (one.from == other.from && one.to == other.to) || (one.from == other.to && one.to == other.from)
        };
        self.last_of_each(pick, same)
    }

    /// The figures of an aiming that were decided, each as it was last.
    pub fn decided(self, aiming: &Id) -> Vec<DecidedNow<'a>> {
        let pick = |what: &'a What| match what {
            What::Decided(own) if own.aiming == *aiming => Some(own),
            _ => None,
        };
        let same = |one: &Decided, other: &Decided| one.placement == other.placement && one.of == other.of;
        // What was read last, or struck out.
        let is_of = |nth: usize| matches!(self.meant(nth).map(|own| &own.what), Some(What::Reading(own)) if own.aiming == *aiming);
        let read_last = (0..self.record.entries.len()).rev().find(|nth| is_of(*nth));
        let held = self.last_of_each(pick, same).into_iter();
        held.map(|held| DecidedNow { is_older: read_last.is_some_and(|read| read > held.nth), held })
            .collect()
    }

    /// What the routine of an aiming said last.
    pub fn routine(self, aiming: &Id) -> Option<(&'a RoutineResult, &'a str, &'a Entry)> {
        self.last_first().find_map(|entry| match &entry.what {
            What::Routine { aiming: own, result, note } if own == aiming => {
                Some((result, note.as_str(), entry))
            }
            _ => None,
        })
    }

    /// The alignment sheet.
    pub fn alignment(self) -> Option<Held<'a, AlignmentSheet>> {
        self.all(|what| if let What::Alignment(own) = what { Some(&**own) } else { None }).next_back()
    }

    /// The distances to the car that were entered at a step of this aiming, each as it was last, in their order.
    pub fn stood(self, aiming: &Id) -> Vec<Held<'a, StoodRead>> {
        let pick = |what: &'a What| match what {
            What::Stood(own) if own.aiming == *aiming => Some(own),
            _ => None,
        };
        let mut all = self.last_of_each(pick, |one, other| one.nth == other.nth);
        all.sort_by_key(|own| own.what.nth);
        all
    }

    /// Where the car was parked last for an aiming that is done elsewhere than where it stood first.
    pub fn parked(self, aiming: &Id) -> Option<Held<'a, ParkedAt>> {
        let pick = |what: &'a What| match what {
            What::Parked(own) if own.aimings.contains(aiming) => Some(own),
            _ => None,
        };
        self.all(pick).next_back()
    }

    /// Ride heights, mm, in [`crate::model::Wheel::ALL`]'s order.
    pub fn ride_heights(self) -> Option<Held<'a, [Option<f64>; 4]>> {
        let pick = |what: &'a What| {
            if let What::RideHeights { heights_mm } = what { Some(heights_mm) } else { None }
        };
        self.all(pick).next_back()
    }

    /// The floor's survey: its day, with what, and who confirmed it.
    pub fn floor(self) -> Option<(Date, Option<&'a Instrument>, &'a Entry)> {
        self.last_first().find_map(|entry| match &entry.what {
            What::FloorConfirmed { surveyed, instrument } => Some((*surveyed, instrument.as_ref(), entry)),
            _ => None,
        })
    }

    /// The maker's documents of an aiming, each as it was entered last; several may serve one aiming.
    pub fn documents(self, aiming: &Id) -> Vec<Held<'a, MakersDocument>> {
        let pick = |what: &'a What| match what {
            What::Document(own) if own.aiming == *aiming => Some(own),
            _ => None,
        };
        self.last_of_each(pick, |one, other| one.document == other.document)
    }

    /// The attachments that count.
    pub fn attachments(self) -> Vec<Held<'a, Attachment>> {
        let attached = |what: &'a What| if let What::Attached(own) = what { Some(own) } else { None };
        let withdrawn = |own: &Held<'a, Attachment>| {
            self.record.entries.iter().skip(own.nth).any(
                |later| matches!(&later.what, What::Withdrawn { sha256, .. } if *sha256 == own.what.sha256),
            )
        };
        self.all(attached).filter(|own| !withdrawn(own)).collect()
    }

    /// The attachment that counts with this hash.
    pub fn attachment(self, sha256: &str) -> Option<&'a Attachment> {
        self.attachments().into_iter().map(|own| own.what).find(|own| own.sha256 == sha256)
    }

    /// How many were ever attached.
    pub(super) fn all_attached(self) -> usize {
        self.record.entries.iter().filter(|own| matches!(own.what, What::Attached(_))).count()
    }

    /// Every instrument that was used, each once, with the last day on which it was.
    pub fn instruments(self) -> Vec<(&'a Instrument, Date)> {
        let mut used: Vec<(&'a Instrument, Date)> = Vec::new();
        for (_, entry) in self.entries() {
            let own = match &entry.what {
                What::Reading(own) => own.instrument.as_ref(),
                What::FloorConfirmed { instrument, surveyed } => {
                    note(&mut used, instrument.as_ref(), *surveyed);
                    continue;
                }
                _ => None,
            };
            note(&mut used, own, entry.at.date());
        }
        used
    }

    /// Who signed, after the last entry that is of the work itself: the role, and the entry, which says what lacked and why it was signed
    /// all the same. What was signed before something else was entered no longer covers it.
    pub fn signed(self) -> Vec<(&'a str, &'a Entry)> {
        let is_paper = |own: &What| matches!(own, What::Signed { .. } | What::Closed | What::Reopened { .. });
        let signs_off = |own: &What| matches!(own, What::StepDone { step } if step.kind == StepKind::Sign);
        // A strike is of what it strikes out: with what was signed taken away by it the signature falls.
        let is_beside =
            |nth: usize| self.meant(nth).is_some_and(|own| is_paper(&own.what) || signs_off(&own.what));
        let after = (0..self.record.entries.len()).rev().take_while(|nth| is_beside(*nth)).last();
        let counted = self.entries().into_iter().rev();
        let mut signed: Vec<(&'a str, &'a Entry)> = Vec::new();
        for (_, entry) in counted.take_while(|(nth, _)| after.is_some_and(|after| *nth >= after)) {
            if let What::Signed { role, .. } = &entry.what {
                signed.insert(0, (role, entry));
            }
        }
        signed
    }

    pub(super) fn is_signed_last(self, by: &str, role: &str) -> bool {
        self.signed().iter().any(|(own, entry)| *own == role && entry.by == by)
    }

    /// The shop's own lines of labour.
    pub fn labour(self) -> Vec<(&'a str, f64, &'a Entry)> {
        let lines = self.entries().into_iter().filter_map(|(_, entry)| match &entry.what {
            What::Labour { work, minutes } => Some((work.as_str(), *minutes, entry)),
            _ => None,
        });
        lines.collect()
    }
}

fn note<'a>(used: &mut Vec<(&'a Instrument, Date)>, instrument: Option<&'a Instrument>, day: Date) {
    let Some(own) = instrument else { return };
    match used.iter_mut().find(|(known, _)| *known == own) {
        Some((_, last)) => *last = (*last).max(day),
        None => used.push((own, day)),
    }
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::super::{BeginWith, Refused, Told, append, begin};
    use super::*;
    use crate::check::testing::clear;
    use crate::model::record::RoutineResult;

    fn enter(record: &mut VisitRecord, what: What) -> Result<Told, Refused> {
        append(record, Entry { by: "A".into(), at: date(2026, 11, 20).at(9, 0, 0, 0), what })
    }

    fn begun() -> (VisitRecord, Id) {
        let own = clear();
        let text = String::from;
        let at = date(2026, 11, 20).at(8, 0, 0, 0);
        let with =
            BeginWith { job: text("1"), car: text("grey"), plate: None, by: text("A"), at, layout: None };
        let aiming = own.aiming.id.clone();
        (begin(&with, &[own], &[], None).unwrap(), aiming)
    }

    fn read(aiming: &Id, read_mm: f64) -> What {
        let (from, to) = ("1".into(), "2".into());
        let aiming = aiming.clone();
        What::Reading(Reading { aiming, from, to, read_mm, instrument: None, temperature_c: None })
    }

    fn strike(entry: usize) -> What {
        What::Struck { entry, why: "read wrong".into() }
    }

    /// What is struck out counts no more, what was there before it holds again; a strike that is struck out brings it back. Nothing is
    /// lost by any of it.
    #[test]
    fn what_is_struck_out_counts_no_more() {
        let (mut record, aiming) = begun();
        let held = |record: &VisitRecord| {
            let all = Holds::of(record).readings(&aiming);
            all.iter().map(|own| own.what.read_mm).collect::<Vec<_>>()
        };
        enter(&mut record, read(&aiming, 1_900.0)).unwrap();
        enter(&mut record, read(&aiming, 1_912.0)).unwrap();
        enter(&mut record, strike(1)).unwrap();
        assert_eq!(held(&record), [1_900.0]);
        enter(&mut record, strike(0)).unwrap();
        assert!(held(&record).is_empty());
        assert_eq!(enter(&mut record, strike(0)), Err(Refused::NothingToStrike(0)), "it counts no more");
        assert_eq!(enter(&mut record, strike(9)), Err(Refused::NothingToStrike(9)), "there is none");
        enter(&mut record, strike(3)).unwrap();
        assert_eq!(held(&record), [1_900.0], "it is brought back");
        assert_eq!(record.entries.len(), 5);
        enter(&mut record, What::Closed).unwrap();
        enter(&mut record, What::Reopened { why: "more".into() }).unwrap();
        assert_eq!(enter(&mut record, strike(5)), Err(Refused::NothingToStrike(5)), "it is the record's own");
        assert!(crate::model::validate::visit_record(&record).is_empty());
        record.entries.swap(0, 2);
        assert!(!crate::model::validate::visit_record(&record).is_empty(), "only what stands before it");
    }

    /// A decision stands on what was read: with a reading struck out it is to be made anew, and so it is once that is brought back.
    #[test]
    fn a_decision_is_older_than_a_strike() {
        let (mut record, aiming) = begun();
        enter(&mut record, read(&aiming, 1_900.0)).unwrap();
        let decided = Decided {
            aiming: aiming.clone(),
            placement: "reflector".into(),
            of: crate::model::record::ProvenFigure::Direction,
            off: 0.03,
            u95: 0.05,
            allowed: 0.1,
            unseen: Some(0.07),
            taped: 1,
            decision: crate::model::record::Decision::Inside,
            rule: crate::model::record::DecisionRule::GuardedAcceptance,
        };
        enter(&mut record, What::Decided(decided)).unwrap();
        let is_older = |record: &VisitRecord| Holds::of(record).decided(&aiming)[0].is_older;
        assert!(!is_older(&record));
        enter(&mut record, strike(0)).unwrap();
        assert!(is_older(&record));
        enter(&mut record, strike(2)).unwrap();
        assert!(is_older(&record));
    }

    /// What the routine said, a step that was done and a signature are taken back in the same way. A strike of the work makes what was
    /// signed no longer cover it.
    #[test]
    fn answers_steps_and_signatures_are_struck_out() {
        let (mut record, aiming) = begun();
        let step = StepId::of_visit(StepKind::Why);
        enter(&mut record, What::StepDone { step: step.clone() }).unwrap();
        let passed =
            What::Routine { aiming: aiming.clone(), result: RoutineResult::Passed, note: String::new() };
        enter(&mut record, passed).unwrap();
        let signed = || What::Signed { role: "technician".into(), lacking: 0, why: String::new() };
        enter(&mut record, signed()).unwrap();
        let sign = StepId::of_visit(StepKind::Sign);
        enter(&mut record, What::StepDone { step: sign.clone() }).unwrap();
        enter(&mut record, strike(3)).unwrap();
        assert_eq!(Holds::of(&record).signed().len(), 1, "that the step is open again bears on no signature");
        assert!(Holds::of(&record).step(&sign).is_none());
        enter(&mut record, strike(1)).unwrap();
        assert!(Holds::of(&record).routine(&aiming).is_none());
        assert!(Holds::of(&record).signed().is_empty());
        enter(&mut record, signed()).unwrap();
        let last = record.entries.len() - 1;
        enter(&mut record, strike(last)).unwrap();
        assert!(Holds::of(&record).signed().is_empty());
        enter(&mut record, strike(0)).unwrap();
        assert!(Holds::of(&record).step(&step).is_none());
    }
}
