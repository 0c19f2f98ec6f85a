//! English of the same: see `words/record_page.rs`.

use super::Language;
use super::marks::wheel_name;
use crate::model::Wheel;
use crate::words::record_page::{PageBox, Reasons, RecordPageTexts, StepSign};
use crate::words::screen::cut;
use crate::words::sentence_start;

/// The fixed texts.
pub const TEXTS: RecordPageTexts = RecordPageTexts {
    language: Language::English,
    open: "Record\u{2026}",
    open_why: "Step by step through the visit, by the number pad: what to have, what to do, what was read, who accepted what",
    page: "Record of this visit",
    begin: "Begin",
    begin_new: "Begin a new record",
    these: "Records of this bay, the newest first",
    none_yet: "No record lies beside this bay yet.",
    no_place: "This bay has no file yet, and its records lie beside that. Save the bay first.",
    save_bay: "Save the bay",
    finish_car: "Finish the car that is being entered first.",
    next: "Done, next",
    back: "Back",
    more: "More",
    leave: "Back to the drawing",
    another: "Another record",
    have: "Have ready",
    to_do: "Do",
    mind: "Mind",
    enter_here: "Enter",
    choose: "Choose by its digit",
    keys: "Enter: done, next  \u{b7}  \u{2212}: one step back  \u{b7}  *: take back  \u{b7}  +: more",
    keys_of_list: "Enter: the first  \u{b7}  a digit chooses",
    keys_of_choice: "A digit chooses  \u{b7}  Enter or \u{2212}: back to the step",
    keys_of_answer: "A digit chooses, another one instead of it  \u{b7}  Enter: enter it  \u{b7}  \u{2212}: back",
    steps: "Steps",
    findings: "What was found",
    no_findings: "Nothing stops an aiming of this visit or needs care.",
    is_accepted: "Accepted",
    papers: "Photographs and sheets",
    no_papers: "Nothing is attached yet.",
    drop_here: "Files can be dropped on the window, too.",
    withdraw: "Withdraw",
    whole_visit: "The whole visit",
    is_worked_out: "Being worked out for all aimings \u{2026}",
    entries: "What was entered",
    left_out: "Leave this step out, because \u{2026}",
    signs_because: "Signs all the same, because",
    rest_of_sheet: "The rest of the sheet: front toes, cambers, thrust angle, day",
    less_of_sheet: "Less of the sheet",
    tape_in_use: "Read with",
    another_tape: "another tape, not in the shop's list",
    no_tapes: "The shop lists no tape yet: its settings have a list of instruments.",
    warm: "How warm it is",
    warm_hint: "a steel tape grows with warmth; may stay empty",
    what_standing_does: "Saying so is noted in this record. The set-up in the bay stays as it is: marks of this place are laid and taped anew, and \
                         what is read of them stands in this record alone.",
    not_applicable: "This step does not apply",
    strike: "Strike out",
    struck_out: "Struck out",
    nothing_to_undo: "Nothing was entered in this window that could be taken back.",
    nothing_to_redo: "Nothing was taken back last.",
    choose_first: "Choose a reason by its digit first; \u{2212} goes back without one.",
    enter_it: "Enter it",
    take_back: "Take this step back",
    nothing_to_take_back: "This step is open: there is nothing to take back.",
    somebody_else: "Somebody else enters now",
    close: "Close the record",
    close_now: "Close it",
    reopen: "Open it again",
    is_closed: "This record is closed: nothing more is entered.",
    sign: "Sign",
    copy_head: "Copy the hash",
    head_copied: "The record's hash is on the clipboard.",
    own_words: "In own words",
    why: "Why?",
    accept: "Goes on with it, because",
    saved: "Saved",
    saving: "Saving",
    save_again: "Try again",
    read_again: "Read what lies there",
    changed_on_disk: "Somebody else wrote this record meanwhile. Nothing is written over it: what was entered here since stands only in this window.",
    in_other_window: "Another window has this record open. Enter there, or close it there first.",
    goes_on: "Go on all the same",
    passed: "Passed",
    failed: "Failed",
    left: "Out to the car's left",
    right: "Out to the car's right",
    up: "Out upwards",
    down: "Out downwards",
    not_asked: "No drive is asked for",
    procedure_does_not_ask: "The maker's procedure does not ask for it.",
    technician: "technician",
    owner: "responsible for the shop",
    estimator: "estimator",
    choose_kind: "Attach a file that shows",
    other_set_up: "This bay shows another car or set-up: open the record's own to see its drawing, its marks and what was found.",
    enough: "Enough was taped: Enter goes on.",
    as_it_was: "Out of range: kept as it was entered, and told so.",
};

pub const fn name_of(of: PageBox) -> &'static str {
    match of {
        PageBox::Job => "Job number",
        PageBox::Car => "Car, by the shop's own reference",
        PageBox::Plate => "Number plate",
        PageBox::By => "Who enters",
        PageBox::Tape => "Its name",
        PageBox::Document => "Document",
        PageBox::Edition => "Edition",
        PageBox::Dated => "Date",
        PageBox::Out => "Out by",
        PageBox::Words => "In own words",
    }
}

pub const fn hint_of(of: PageBox) -> &'static str {
    match of {
        PageBox::Plate => "may stay empty",
        PageBox::Tape => "name and serial number; not in the shop's list, so nobody keeps its checks",
        PageBox::Document => "title or number of the maker's procedure",
        PageBox::Edition => "as it stands on it",
        PageBox::Dated => "on the document: year-month-day",
        PageBox::Out => "degrees; may stay empty",
        PageBox::Job | PageBox::Car | PageBox::By | PageBox::Words => "",
    }
}

pub fn chosen(text: &str) -> String {
    format!("Chosen: {text}. Enter enters it, another digit changes it, \u{2212} drops it.")
}

pub fn holds(text: &str) -> String {
    format!("Entered: {text}.")
}

pub fn taken_back(said: &str) -> String {
    format!("Taken back, and struck out in the record: {said}")
}

pub fn brought_back(said: &str) -> String {
    format!("It counts again: {said}")
}

pub fn nth_entry(nth: usize) -> String {
    format!("Entry {nth}")
}

pub fn tape_now(from: &str, to: &str, length: &str, allowance: &str) -> String {
    format!("Now {from}\u{2013}{to}: must read {length} ± {allowance}")
}

pub fn tape_read(
    from: &str,
    to: &str,
    read: &str,
    length: &str,
    allowance: &str,
    beyond: Option<&str>,
) -> String {
    let said = beyond.map_or_else(|| "within that".to_owned(), |by| format!("{by} beyond that"));
    format!("{from}\u{2013}{to} reads {read}, must read {length} ± {allowance}: {said}.")
}

pub fn arch(wheel: Wheel) -> String {
    format!("Arch above the wheel's middle, {}", wheel_name(wheel))
}

pub const fn reasons(of: Reasons) -> &'static [&'static str] {
    match of {
        Reasons::NotApplicable => &[
            "The maker's procedure does not ask for it.",
            "Done before this visit.",
            "This car does not have it.",
        ],
        Reasons::LeftOut => &[
            "Nothing is at hand to measure it with.",
            "Another shop has done it, and its sheet is attached.",
            "The one responsible for the shop decided so.",
        ],
        Reasons::Signed => &[
            "Looked through: what is missing does not bear on this aiming.",
            "It is made up for before the car is handed over.",
            "The one responsible for the shop decided so.",
        ],
        Reasons::Accepted => &[
            "Looked at on the spot: it is out of the way today.",
            "The maker's procedure allows it.",
            "The one responsible for the shop decided so.",
        ],
        Reasons::Withdrawn => &["The wrong file.", "Shows too little.", "Replaced by a better one."],
        Reasons::Struck => &["Read or typed wrong.", "Of another place or another car.", "Not needed."],
        Reasons::Reopened => &["Something was forgotten.", "The car came back.", "A paper came later."],
    }
}

pub fn stands_now(place: usize) -> String {
    format!("The car stands at place {place} now")
}

pub fn listed_tape(name: &str, serial: &str, is_overdue: bool) -> String {
    let serial = if serial.is_empty() { String::new() } else { format!(", no. {serial}") };
    let overdue = if is_overdue { ", check overdue" } else { "" };
    format!("{name}{serial}{overdue}")
}

pub fn not_done_without(all: &str) -> String {
    format!("Not done without: {all}.")
}

pub fn nth_step(nth: usize, of: usize) -> String {
    format!("Step {nth} of {of}")
}

pub fn so_many_done(done: usize, of: usize) -> String {
    format!("{done} of {of} done")
}

pub fn so_many_open(open: usize, of: usize) -> String {
    match (open, of) {
        (_, 0) => "Found: nothing".to_owned(),
        (0, n) => format!("Found: {n}, all accepted"),
        (open, n) => format!("Found: {open} of {n} open"),
    }
}

pub fn so_many_papers(count: usize) -> String {
    match count {
        0 => "No photograph or sheet".to_owned(),
        1 => "One photograph or sheet".to_owned(),
        n => format!("{n} photographs and sheets"),
    }
}

pub fn listed_record(job: &str, car: &str, at: &str, closed: bool) -> String {
    let state = if closed { "closed" } else { "open" };
    format!("Job {job}, car {car}, {at}, {state}")
}

pub fn job_and_car(job: &str, car: &str) -> String {
    format!("Job {job}, car {car}")
}

pub fn enters(by: &str) -> String {
    format!("{by} enters")
}

pub fn accepted_by(by: &str, at: &str, why: &str) -> String {
    format!("Accepted by {by}, {at}: {why}")
}

pub fn allowed(range: &str) -> String {
    format!("Allowed: {range}")
}

pub fn no_figure(text: &str) -> String {
    format!("“{}” is no such figure.", cut(text))
}

pub fn no_date(text: &str) -> String {
    format!("“{}” is no date: type 2026-11-28.", cut(text))
}

pub fn two_lengths(one: &str, other: &str) -> String {
    format!("That can be {one} or {other}: type it without the sign between the figures, or with its unit.")
}

pub fn is_empty(of: PageBox) -> String {
    format!("{} is still missing.", sentence_start(name_of(of)))
}

pub fn not_saved(why: &str) -> String {
    format!("Not saved yet, and kept here; it is tried again. {why}")
}

pub fn sign_as(role: &str, by: &str) -> String {
    format!("{by} signs as {role}")
}

pub fn attached(file: &str) -> String {
    format!("{file} is attached.")
}

pub fn was_changed(entry: Option<usize>) -> String {
    let what = match entry {
        Some(nth) => {
            format!("Entry {nth} was changed since it was written, or one was taken out or moved before it.")
        }
        None => "How this record begins was changed since it was written.".to_owned(),
    };
    format!(
        "{what} The hashes show an edit, not a forger. Nothing more is entered until somebody goes on all the same; that is noted."
    )
}

pub fn thrust_beyond(angle: &str, limit: &str) -> String {
    format!("Thrust angle {angle}, allowed ± {limit}: the alignment comes first.")
}

pub fn set_back_beyond(length: &str, limit: &str) -> String {
    format!("Set-back {length}, allowed ± {limit}: the alignment comes first.")
}

pub fn still_missing(count: usize) -> String {
    match count {
        0 => "Nothing is missing.".to_owned(),
        1 => "One thing is still missing:".to_owned(),
        n => format!("{n} things are still missing:"),
    }
}

pub fn head_begins(head: &str) -> String {
    format!("Hash {head}\u{2026}")
}

pub const fn sign_of(kind: StepSign) -> &'static str {
    match kind {
        StepSign::Open => "open",
        StepSign::Done => "done",
        StepSign::GonePast => "gone past",
        StepSign::LeftOut => "left out",
        StepSign::NotApplicable => "does not apply",
        StepSign::OutOfRange => "out of range",
        StepSign::TakenBack => "taken back",
    }
}
