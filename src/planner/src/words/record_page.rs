//! The page of a visit's record: its presses, its headings, what its keys do. What a record itself says stands in `words/record.rs`.

/// Why something may stay as it is, or a step does not apply, offered to be chosen by a digit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reasons {
    /// A step does not apply.
    NotApplicable,
    /// A step that applies is left out.
    LeftOut,
    /// Somebody signs although something is missing.
    Signed,
    /// Somebody goes on with a finding.
    Accepted,
    /// An attachment counts no more.
    Withdrawn,
    /// An entry is struck out.
    Struck,
    /// A closed record is opened again.
    Reopened,
}

/// What is typed in a box of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PageBox {
    /// The job's number.
    Job,
    /// The car, as the shop refers to it.
    Car,
    /// The number plate.
    Plate,
    /// Who enters.
    By,
    /// The tape that is read, where it is none of the shop's list: name and serial number.
    Tape,
    /// Title or number of the maker's document.
    Document,
    /// Its edition.
    Edition,
    /// The date on it.
    Dated,
    /// By how much the routine said that it was out.
    Out,
    /// In a person's own words.
    Words,
}

texts! {
    record_page: RecordPageTexts, "Every fixed text of the page of a visit's record.";
    open, "A press that opens the page.";
    open_why, "What it is for.";
    page, "The page itself.";
    begin, "Begins a record.";
    begin_new, "A choice: to begin a new one.";
    these, "Over the records of this bay.";
    none_yet, "There is none yet.";
    no_place, "That the bay has no file beside which a record could lie.";
    save_bay, "A press: save the bay first.";
    finish_car, "That a car is being entered, and nothing is recorded meanwhile.";
    next, "The press that does the step and goes on.";
    back, "One step back.";
    more, "What else can be done.";
    leave, "Back to the drawing.";
    another, "Puts the record away: another one can be taken up.";
    have, "Over what to have ready.";
    to_do, "Over what to do.";
    mind, "Over the cautions.";
    enter_here, "Over the boxes.";
    choose, "Over what can be chosen by a digit.";
    keys, "What the keys do at a step.";
    keys_of_list, "What the keys do where records are listed.";
    keys_of_choice, "What the keys do where something is chosen.";
    keys_of_answer, "What the keys do where what is chosen is entered.";
    steps, "Over the list of steps.";
    findings, "What was found and is open.";
    no_findings, "Nothing is.";
    is_accepted, "Over by whom and why a finding was accepted.";
    papers, "Photographs and sheets.";
    no_papers, "None is attached yet.";
    drop_here, "That files may be dropped.";
    withdraw, "A press: an attachment counts no more.";
    whole_visit, "The one answer for the whole visit.";
    is_worked_out, "That it is still being worked out.";
    entries, "What was entered.";
    left_out, "A choice: the step is left out.";
    signs_because, "Over the reasons why it is signed all the same.";
    rest_of_sheet, "A choice: show the rest of the alignment sheet.";
    less_of_sheet, "A choice: show less of it.";
    tape_in_use, "A choice: with which tape distances are read.";
    another_tape, "A choice: none of the shop's list.";
    no_tapes, "That the shop lists none.";
    warm, "How warm it is.";
    warm_hint, "What for.";
    what_standing_does, "What it does to say that the car stands at another place.";
    not_applicable, "A choice: the step does not apply.";
    take_back, "A choice: the step is open again.";
    strike, "A press: an entry is struck out.";
    struck_out, "That an entry was struck out.";
    nothing_to_undo, "That nothing was entered in this window that could be taken back.";
    nothing_to_redo, "That nothing was taken back last.";
    choose_first, "That nothing was chosen yet, and how.";
    enter_it, "A press: enters what was chosen.";
    nothing_to_take_back, "That the step is open.";
    somebody_else, "A choice: somebody else enters.";
    close, "A choice: close the record.";
    close_now, "A press: close it all the same.";
    reopen, "A press: open it again.";
    is_closed, "That it is closed.";
    sign, "Over as what one signs.";
    copy_head, "A press: put the hash on the clipboard.";
    head_copied, "That it is there.";
    own_words, "A choice: type it in one's own words.";
    why, "Over the reasons.";
    accept, "Over the reasons why a finding may stay.";
    saved, "That all of it is on the disk.";
    saving, "That it is being written.";
    save_again, "A press: try it again.";
    read_again, "A press: read what lies on the disk now.";
    changed_on_disk, "That somebody else wrote the record meanwhile.";
    in_other_window, "That another window has it open.";
    goes_on, "A press: go on with a record that was changed.";
    passed, "A choice: the routine passed.";
    failed, "A choice: the routine failed.";
    left, "A choice: out to the left.";
    right, "A choice: out to the right.";
    up, "A choice: out upwards.";
    down, "A choice: out downwards.";
    not_asked, "A choice: no drive is asked for.";
    procedure_does_not_ask, "Why a step does not apply: the procedure does not ask for it.";
    technician, "As what one signs.";
    owner, "As what one signs.";
    estimator, "As what one signs.";
    choose_kind, "Over what an attached file may show.";
    other_set_up, "That the bay does not have the record's set-up any more.";
    enough, "That enough was taped: Enter goes on.";
    as_it_was, "That a figure was kept although it is out of its range.";
}

impl RecordPageTexts {
    sentences! { record_page:
        /// The name of a box.
        name_of(of: PageBox) -> &'static str;
        /// What may be typed there; empty where nothing is to be said.
        hint_of(of: PageBox) -> &'static str;
        /// What was chosen, and is entered by Enter.
        chosen(text: &str) -> String;
        /// What holds of what can be chosen.
        holds(text: &str) -> String;
        /// What was taken back.
        taken_back(said: &str) -> String;
        /// What was taken back and is there again.
        brought_back(said: &str) -> String;
        /// An entry by its number, from 1.
        nth_entry(nth: usize) -> String;
        /// The distance that is to be read now: its ends, what it must read and how far off it may be.
        tape_now(from: &str, to: &str, length: &str, allowance: &str) -> String;
        /// What was read last: its ends, what it read, what it must read, how far off it may be; and how far beyond that it is, if it is.
        tape_read(from: &str, to: &str, read: &str, length: &str, allowance: &str, beyond: Option<&str>) -> String;
        /// The box of a wheel's arch.
        arch(wheel: crate::model::Wheel) -> String;
        /// Reasons to choose from.
        reasons(of: Reasons) -> &'static [&'static str];
        /// That the car stands at this place now, from 1.
        stands_now(place: usize) -> String;
        /// A tape of the shop's list.
        listed_tape(name: &str, serial: &str, is_overdue: bool) -> String;
        /// Without what a step is not done.
        not_done_without(all: &str) -> String;
        /// A step, the how-manieth of how many.
        nth_step(nth: usize, of: usize) -> String;
        /// How many steps are settled of how many.
        so_many_done(done: usize, of: usize) -> String;
        /// How many findings are open of how many.
        so_many_open(open: usize, of: usize) -> String;
        /// How many attachments there are.
        so_many_papers(count: usize) -> String;
        /// A record of the bay, to be chosen: job, car, when.
        listed_record(job: &str, car: &str, at: &str, closed: bool) -> String;
        /// Whose record it is.
        job_and_car(job: &str, car: &str) -> String;
        /// Who enters from now on.
        enters(by: &str) -> String;
        /// Who has accepted a finding, when and why.
        accepted_by(by: &str, at: &str, why: &str) -> String;
        /// The allowed range beside a box.
        allowed(range: &str) -> String;
        /// A text that is no such figure.
        no_figure(text: &str) -> String;
        /// A text that is no date.
        no_date(text: &str) -> String;
        /// A length that can be read in two ways.
        two_lengths(one: &str, other: &str) -> String;
        /// A box that may not be empty.
        is_empty(of: PageBox) -> String;
        /// Why what was entered is not on the disk: it is tried again.
        not_saved(why: &str) -> String;
        /// A choice: sign as this.
        sign_as(role: &str, by: &str) -> String;
        /// A file was attached.
        attached(file: &str) -> String;
        /// That an entry was changed since it was written: which, from 1; `None`: the beginning.
        was_changed(entry: Option<usize>) -> String;
        /// The thrust angle against its limit, in degrees as written.
        thrust_beyond(angle: &str, limit: &str) -> String;
        /// The set-back against its limit.
        set_back_beyond(length: &str, limit: &str) -> String;
        /// What is still missing, counted.
        still_missing(count: usize) -> String;
        /// The hash's first digits.
        head_begins(head: &str) -> String;
        /// To who does not see it: a sign of the list of steps.
        sign_of(kind: StepSign) -> &'static str;
    }
}

/// The sign beside a step in the list: its shape, not its colour, tells how it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepSign {
    /// Nothing yet.
    Open,
    /// A tick.
    Done,
    /// A triangle.
    GonePast,
    /// A cross.
    LeftOut,
    /// A dash.
    NotApplicable,
    /// An octagon.
    OutOfRange,
    /// A ring with a stroke.
    TakenBack,
}
