//! English of the same: see `words/proof_file.rs`.

use super::Language;
use crate::model::Provenance;
use crate::record::{MOST_SHOWN, Shown};
use crate::words::Locale;
use crate::words::proof_file::ProofFile;

/// The fixed texts.
pub const TEXTS: ProofFile = ProofFile {
    language: Language::English,
    title: "File of proof",
    work: "From the work to the sensors",
    documents: "Maker's documents",
    no_document: "none entered",
    conditions: "Conditions, as entered",
    attachments: "Print-outs, photographs, sheets",
    no_attachment: "None attached.",
    floor: "Floor",
    no_floor: "No floor survey was confirmed.",
    instruments: "Instruments",
    overdue: "overdue for its check",
    readings: "Distances taped between marks",
    decisions: "Measured against what is allowed",
    unchecked: "a mark out of place could go unseen",
    no_decision: "Nothing was decided.",
    older: "decided before the last tape",
    routine: "The maker's routine, as typed in",
    no_routine: "not entered",
    deviations: "Gone on with, by whom and why",
    no_deviation: "Nobody went on with anything that was found.",
    steps: "Steps",
    labour: "Labour, in the shop's own words",
    total: "Together",
    signatures: "Signed",
    line: "Work",
    aiming: "Aiming",
    sensor: "Sensor",
    source: "Source",
    document: "Document",
    edition: "Edition",
    date: "Date",
    what: "What",
    figure: "Figure",
    allowed: "Allowed",
    state: "State",
    kind: "Kind",
    file: "File",
    sha256: "SHA-256",
    name: "Instrument",
    used: "Last used",
    from_to: "Marks",
    read: "Read",
    with: "With",
    warm: "°C",
    who: "Who, when",
    target: "Target",
    off: "Off by",
    u95: "U (95 %)",
    decision: "Decision",
    result: "It said",
    finding: "What was found",
    why: "Why",
    step: "Step",
    minutes: "Time",
    role: "As",
    in_range: "in range",
    out_of_range: "out of range",
    in_short: "In short",
    figures_from: "Its figures from",
    must: "Must be",
    differs: "Reads more by",
    must_about: "“Must be” is what the tape in hand had to read by the set-up; “allowed” is how far off it may read in 95 of 100 cases if \
                 all is as assumed. The decisions above rest on all distances together.",
    must_unknown: "“Must be” is what the tape in hand had to read by the set-up; where there is a dash that set-up, or that distance in it, is \
                   not at hand.",
    checked: "Last checked",
    check_due: "Check due",
    in_time: "in time",
    no_check_known: "no check day known",
    unlisted: "not in the shop's list",
    size: "Size",
    smaller: "Printed from a smaller picture of it.",
    by_pen: "Signature by pen",
    pen_name: "Name",
    pen_role: "Signs as",
};

pub fn source_of(locale: Locale, provenance: &Provenance) -> String {
    let dated = |text: String, date: &Option<jiff::civil::Date>| match date {
        Some(date) => format!("{text}, {}", locale.region.day(*date)),
        None => text,
    };
    match provenance {
        Provenance::Example => "an invented example".to_owned(),
        Provenance::NotGiven => "not given".to_owned(),
        Provenance::Maker { document, date } => dated(format!("maker: {document}"), date),
        Provenance::Measured { by, date } => dated(by.clone(), date),
        Provenance::Published { source } => format!("published: {source}"),
    }
}

pub fn minutes_of(locale: Locale, minutes: f64) -> String {
    format!("{} min", locale.region.number(minutes, usize::from(minutes.fract() != 0.0)))
}

pub fn by_list(locale: Locale, name: &str, provenance: &Provenance) -> String {
    format!("Chosen by the list “{name}”; its source: {}.", source_of(locale, provenance))
}

pub fn made_for(profile: &str, set_up: &str, bay: &str) -> String {
    format!("Car profile: {profile}. Set-up: {set_up}. Bay: {bay}.")
}

pub fn at_place(set_up: &str, place: usize) -> String {
    format!("{set_up}, place {place}")
}

pub fn decided_so(title: &str, [inside, outside]: [usize; 2], all: usize) -> String {
    if all == 0 {
        return format!("{title}: no figure was decided.");
    }
    let figures = if all == 1 { "1 figure".to_owned() } else { format!("{all} figures") };
    let mut said = format!("{title}: of {figures} {inside} inside");
    if outside > 0 {
        said.push_str(&format!(", {outside} outside"));
    }
    let open = all.saturating_sub(inside + outside);
    if open > 0 {
        said.push_str(&format!(", {open} not decided"));
    }
    format!("{said}. To look at first:")
}

pub fn size_of(locale: Locale, bytes: u64) -> String {
    match bytes {
        0..1_000 => format!("{bytes} bytes"),
        1_000..1_000_000 => format!("{} kB", locale.region.number(bytes as f64 / 1e3, 0)),
        _ => format!("{} MB", locale.region.number(bytes as f64 / 1e6, 1)),
    }
}

pub fn not_shown(file: &str, shown: &Shown) -> Option<String> {
    match shown {
        Shown::Picture(_) => None,
        Shown::ByName => Some(format!("{file} is not printed here; it lies beside the record.")),
        Shown::Lost => Some(format!("{file} is not printed: it is not beside the record any more.")),
        Shown::Changed => Some(format!(
            "{file} is not printed: what lies beside the record has another hash than what was attached."
        )),
        Shown::NotRead => Some(format!("{file} is not printed: it cannot be read as a picture.")),
        Shown::TooLarge(width, height) => {
            Some(format!("{file} is not printed: {width} × {height} pixels are more than are read."))
        }
        Shown::TooMany => Some(format!("{file} is not printed: {MOST_SHOWN} pictures stand before it.")),
    }
}
