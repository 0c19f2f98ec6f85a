//! The file of proof in words: a visit on paper, for who pays for it.

use super::Locale;
use crate::model::Provenance;
use crate::record::Shown;

texts! {
    proof_file: ProofFile, "Every fixed text of the file of proof.";
    title, "The sheet's name.";
    work, "A heading: from the repair's lines to the sensors.";
    documents, "A heading: the maker's documents.";
    no_document, "That none was entered for an aiming.";
    conditions, "A heading: figures that were entered.";
    attachments, "A heading: print-outs, photographs, sheets.";
    no_attachment, "That there are none.";
    floor, "A heading: the floor.";
    no_floor, "That no survey was confirmed.";
    instruments, "A heading: instruments.";
    overdue, "That one was to be checked before.";
    readings, "A heading: what was taped.";
    decisions, "A heading: what was decided.";
    unchecked, "Why what is inside by its figures is not said to be.";
    no_decision, "That nothing was.";
    older, "That something was taped since.";
    routine, "A heading: what the maker's routine said.";
    no_routine, "That nothing was entered of it.";
    deviations, "A heading: with what somebody went on.";
    no_deviation, "That nobody did with anything.";
    steps, "A heading: what was done.";
    labour, "A heading: labour.";
    total, "All of it.";
    signatures, "A heading: who signed.";
    line, "Over the work.";
    aiming, "Over an aiming.";
    sensor, "Over a sensor.";
    source, "Over where something comes from.";
    document, "Over a document.";
    edition, "Over its edition.";
    date, "Over its date.";
    what, "Over what a figure is of.";
    figure, "Over a figure.";
    allowed, "Over what it may be.";
    state, "Over how it stands.";
    kind, "Over a kind.";
    file, "Over a file's name.";
    sha256, "Over its hash.";
    name, "Over an instrument.";
    used, "Over the day on which it was used.";
    from_to, "Over two marks.";
    read, "Over what the tape read, with its unit.";
    with, "Over the instrument.";
    warm, "Over the temperature.";
    who, "Over who and when.";
    target, "Over a target.";
    off, "Over how far off it is.";
    u95, "Over its uncertainty.";
    decision, "Over what that comes to.";
    result, "Over what the routine said.";
    finding, "Over a finding, as it was read.";
    why, "Over why somebody went on.";
    step, "Over a step.";
    minutes, "Over minutes.";
    role, "Over as what somebody signed.";
    in_range, "That a figure is what it may be.";
    out_of_range, "That it is not.";
    in_short, "A heading: the answer for each aiming.";
    figures_from, "Over where an aiming's figures come from.";
    must, "Over what a distance had to be.";
    differs, "Over what it read more, with a sign.";
    must_about, "What those figures are, where all are known.";
    must_unknown, "The same where some are not known.";
    checked, "Over the day of the last check.";
    check_due, "Over the day by which the next is due.";
    in_time, "That an instrument's check was not over.";
    no_check_known, "That no day of its next check is known.";
    unlisted, "That it is none of the shop's list.";
    size, "Over how large a file is.";
    smaller, "That a picture is printed from a smaller one.";
    by_pen, "Over where somebody signs by pen.";
    pen_name, "Over the name of who signs.";
    pen_role, "Over as what somebody signs by pen.";
}

impl ProofFile {
    sentences! { proof_file:
        /// Where something comes from.
        source_of(locale: Locale, provenance: &Provenance) -> String;
        /// Minutes.
        minutes_of(locale: Locale, minutes: f64) -> String;
        /// The list of work by which the aimings were chosen, and where it comes from.
        by_list(locale: Locale, name: &str, provenance: &Provenance) -> String;
        /// By which car's profile, set-up and bay it was done.
        made_for(profile: &str, set_up: &str, bay: &str) -> String;
        /// A set-up at the how-manieth place of the visit.
        at_place(set_up: &str, place: usize) -> String;
        /// How many of an aiming's figures are inside and outside, of so many.
        decided_so(title: &str, counts: [usize; 2], all: usize) -> String;
        /// How large a file is.
        size_of(locale: Locale, bytes: u64) -> String;
        /// Why a file that belongs to the visit is not printed; `None` of a picture that is.
        not_shown(file: &str, shown: &Shown) -> Option<String>;
    }
}
