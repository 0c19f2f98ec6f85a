//! The file of proof in words: a visit on paper, for who pays for it.

use super::Locale;
use crate::model::Provenance;

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
}

impl ProofFile {
    sentences! { proof_file:
        /// Where something comes from.
        source_of(locale: Locale, provenance: &Provenance) -> String;
        /// Minutes.
        minutes_of(locale: Locale, minutes: f64) -> String;
        /// The list of work by which the aimings were chosen, and where it comes from.
        by_list(locale: Locale, name: &str, provenance: &Provenance) -> String;
    }
}
