//! English of the same: see `words/proof_file.rs`.

use super::Language;
use crate::model::Provenance;
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
    read: "Read, mm",
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
