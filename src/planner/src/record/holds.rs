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
        let entries = self.record.entries.iter().enumerate();
        entries.filter_map(move |(nth, entry)| Some(Held { what: pick(&entry.what)?, entry, nth }))
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
        let last = self.record.entries.iter().rev().find_map(|own| match own.what {
            What::Closed => Some(true),
            What::Reopened { .. } => Some(false),
            _ => None,
        });
        last.unwrap_or(false)
    }

    /// The last entry that settles a step, or opens it again.
    pub fn step(self, step: &StepId) -> Option<&'a Entry> {
        self.record.entries.iter().rev().find(|own| match &own.what {
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
        let read_last = self.readings(aiming).iter().map(|own| own.nth).max();
        let held = self.last_of_each(pick, same).into_iter();
        held.map(|held| DecidedNow { is_older: read_last.is_some_and(|read| read > held.nth), held })
            .collect()
    }

    /// What the routine of an aiming said last.
    pub fn routine(self, aiming: &Id) -> Option<(&'a RoutineResult, &'a str, &'a Entry)> {
        self.record.entries.iter().rev().find_map(|entry| match &entry.what {
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
        self.record.entries.iter().rev().find_map(|entry| match &entry.what {
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
        for entry in &self.record.entries {
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
        let is_paper =
            |own: &Entry| matches!(own.what, What::Signed { .. } | What::Closed | What::Reopened { .. });
        let signs_off =
            |own: &Entry| matches!(&own.what, What::StepDone { step } if step.kind == StepKind::Sign);
        let mut signed: Vec<(&'a str, &'a Entry)> = Vec::new();
        for entry in self.record.entries.iter().rev().take_while(|own| is_paper(own) || signs_off(own)) {
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
        let lines = self.record.entries.iter().filter_map(|entry| match &entry.what {
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
