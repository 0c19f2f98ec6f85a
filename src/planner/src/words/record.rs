//! The record of a visit in words: its steps, what was entered, what is missing, what its chain says.

use jiff::civil::DateTime;

use super::{Locale, Units, Words};
use crate::assessment::Assessment;
use crate::model::Id;
use crate::model::record::{
    AcceptedFinding, AttachmentKind, Begun, ChainBreak, Decided, Decision, Entered, Entry, HeadSaid,
    Instrument, ProvenFigure, RoutineResult, StepId, StepKind, StoodRead, ValueOf, Within,
};
use crate::record::{Caution, Lack, Must, Need, PlaceAnswer, Refused, StepState, Task, VisitAnswer};

texts! {
    record: RecordTexts, "Every fixed text about the record of a visit.";
    title, "The record.";
    job, "The job's number.";
    car, "The car, as the shop refers to it.";
    plate, "The number plate.";
    by, "Who.";
    at, "When.";
    bay, "The bay.";
    set_up, "The set-up.";
    profile, "The car's profile.";
    begun, "Who began it, and when.";
    aimings, "The aimings of the visit.";
    entries, "What was entered.";
    head, "The hash of the last entry.";
    steps, "The steps.";
    missing, "Over what is still missing.";
    without_set_ups, "That the bay is not at hand.";
    nothing_missing, "Nothing is.";
    shows_an_edit, "What a chain of hashes shows, and what not.";
    says_nothing_of_sensor, "What the record is about, and what it is not.";
    rule, "By which rule figures are decided.";
    closed, "Nothing more is entered.";
}

impl RecordTexts {
    sentences! { record:
        /// A step, in few words.
        step(kind: StepKind) -> &'static str;
        /// A step with the aiming that it is of, by its name on the screen.
        step_of(begun: &Begun, step: &StepId) -> String;
        /// How a step stands.
        state(state: &StepState) -> String;
        /// Something to have ready.
        need(need: &Need) -> String;
        /// A caution.
        caution(caution: Caution) -> &'static str;
        /// Something to do. What a set-up's own names are needed for, [`Words::visit_task`] says; here it is said in general.
        task(locale: Locale, task: &Task) -> String;
        /// What a figure is of.
        value(of: &ValueOf) -> String;
        /// Something that a step must have.
        must(own: &Must) -> String;
        /// From where to where a distance to the car goes.
        distance_to_car(own: &crate::model::Stood) -> String;
        /// What was read of it.
        stood(locale: Locale, begun: &Begun, own: &StoodRead) -> String;
        /// That a step was gone past with so many figures open, in the middle of a sentence.
        gone_past(open: usize) -> String;
        /// A finding that somebody goes on with, as it was read then.
        accepted(own: &AcceptedFinding) -> String;
        /// That the car moved, and what becomes of the figure.
        moved(locale: Locale, own: &StoodRead) -> String;
        /// A figure with its unit.
        figure(locale: Locale, of: &ValueOf, value: f64) -> String;
        /// What a figure may be; empty where nothing is said of it.
        within(locale: Locale, of: &ValueOf, within: Within) -> String;
        /// That a figure is out of its range, and what becomes of it.
        out_of_range(locale: Locale, entered: &Entered) -> String;
        /// Why something is not entered.
        refused(begun: &Begun, refused: &Refused) -> String;
        /// What is missing, or not right.
        lack(begun: &Begun, lack: &Lack) -> String;
        /// What an entry says, in one sentence.
        entry(locale: Locale, begun: &Begun, entry: &Entry) -> String;
        /// A figure that was decided, with its decision.
        decided(locale: Locale, decided: &Decided) -> String;
        /// A figure of one that was decided, with its unit.
        decided_figure(locale: Locale, decided: &Decided, value: f64) -> String;
        /// How far off it is, and which way.
        decided_off(locale: Locale, decided: &Decided) -> String;
        /// What a figure comes to.
        decision(decision: Decision) -> &'static str;
        /// Which figure of a target.
        proven(of: ProvenFigure) -> &'static str;
        /// What the routine said.
        routine(locale: Locale, result: &RoutineResult) -> String;
        /// An instrument by what stands on it, with the day by which it is to be checked.
        instrument(locale: Locale, instrument: &Instrument) -> String;
        /// What an attached file shows.
        attachment_kind(kind: AttachmentKind) -> &'static str;
        /// What the chain says: of how many entries, with which last hash.
        chain(job: &str, entries: usize, head: &str, broken: Option<ChainBreak>) -> String;
        /// What a hash on paper says of a record of so many entries.
        head_said(said: HeadSaid, entries: usize) -> String;
        /// What was attached to a record and is not there as it was attached.
        attachment_lost(file: &str, is_changed: bool) -> String;
        /// A time of the shop's own clock.
        clock(locale: Locale, at: DateTime) -> String;
        /// How many aimings are done where the car stands, elsewhere, and not at all in this bay.
        visit_answer(answer: &VisitAnswer) -> String;
        /// That the order is another than the list's.
        regrouped() -> &'static str;
        /// The aimings for which no way is known, by their names.
        no_way(aimings: &[String]) -> String;
    }

    /// The name of an aiming on the screen.
    pub fn aiming<'a>(&self, begun: &'a Begun, aiming: &'a Id) -> &'a str {
        title_of(begun, aiming)
    }
}

/// The name of an aiming on the screen; its own where the record does not have it.
pub(super) fn title_of<'a>(begun: &'a Begun, aiming: &'a Id) -> &'a str {
    begun.line(aiming).map_or(aiming.as_str(), |own| own.title.as_str())
}

/// A length that was entered, mm: with its tenth where it has one, so that it does not look like a limit which it is beyond.
pub(super) fn entered_length(locale: Locale, mm: f64) -> String {
    let is_whole = (mm - mm.round()).abs() < 0.05;
    if is_whole || locale.units == Units::FeetInches {
        return locale.length(mm);
    }
    format!("{} mm", locale.region.number(mm, 1))
}

/// A figure as it is decided, to so many places that it does not look like its limit where it is not: degrees or mm, without unit.
pub(super) fn decided_number(locale: Locale, decided: &Decided, value: f64) -> String {
    let usual = if decided.of.is_angle() { 3 } else { 1 };
    let close = 10.0 * libm::exp10(-(usual as f64));
    let spare = decided.to_spare().abs();
    let places = if spare > 0.0 && spare < close { usual + 2 } else { usual };
    locale.region.number(value, places)
}

impl Words<'_> {
    sentences! { about:
        /// Something to do at a step of a visit; `found` is the set-up's own answer.
        visit_task(task: &Task, found: &Assessment) -> String;
        /// Where the car is parked, the how-manieth place from 1, what is aimed there, and what is moved before each.
        visit_place(begun: &Begun, nth: usize, place: &PlaceAnswer) -> Vec<String>;
    }
}
