//! German of the same: see `words/proof_file.rs`.

use super::Language;
use crate::model::Provenance;
use crate::words::Locale;
use crate::words::proof_file::ProofFile;

/// The fixed texts.
pub const TEXTS: ProofFile = ProofFile {
    language: Language::German,
    title: "Nachweismappe",
    work: "Von der Arbeit zu den Sensoren",
    documents: "Anleitungen des Herstellers",
    no_document: "keine eingetragen",
    conditions: "Bedingungen, wie eingetragen",
    attachments: "Ausdrucke, Fotos, Blätter",
    no_attachment: "Nichts angehängt.",
    floor: "Boden",
    no_floor: "Keine Bodenvermessung bestätigt.",
    instruments: "Messgeräte",
    overdue: "Prüfung überfällig",
    readings: "Maße zwischen Marken",
    decisions: "Gemessen und erlaubt",
    unchecked: "eine falsch liegende Marke könnte unbemerkt bleiben",
    no_decision: "Nichts entschieden.",
    older: "vor dem letzten Maß entschieden",
    routine: "Routine des Herstellers, wie eingetippt",
    no_routine: "nicht eingetragen",
    deviations: "Trotzdem weiter, von wem und warum",
    no_deviation: "Niemand hat etwas Gefundenes hingenommen.",
    steps: "Schritte",
    labour: "Arbeitszeit, in den Worten der Werkstatt",
    total: "Zusammen",
    signatures: "Unterschrieben",
    line: "Arbeit",
    aiming: "Einstellung",
    sensor: "Sensor",
    source: "Quelle",
    document: "Dokument",
    edition: "Ausgabe",
    date: "Datum",
    what: "Was",
    figure: "Wert",
    allowed: "Erlaubt",
    state: "Stand",
    kind: "Art",
    file: "Datei",
    sha256: "SHA-256",
    name: "Messgerät",
    used: "Zuletzt benutzt",
    from_to: "Marken",
    read: "Abgelesen, mm",
    with: "Womit",
    warm: "°C",
    who: "Wer, wann",
    target: "Ziel",
    off: "Abweichung",
    u95: "U (95 %)",
    decision: "Entscheidung",
    result: "Meldung",
    finding: "Was gefunden wurde",
    why: "Warum",
    step: "Schritt",
    minutes: "Zeit",
    role: "Als",
    in_range: "wie erlaubt",
    out_of_range: "außerhalb",
};

pub fn source_of(locale: Locale, provenance: &Provenance) -> String {
    let dated = |text: String, date: &Option<jiff::civil::Date>| match date {
        Some(date) => format!("{text}, {}", locale.region.day(*date)),
        None => text,
    };
    match provenance {
        Provenance::Example => "ein erfundenes Beispiel".to_owned(),
        Provenance::NotGiven => "nicht angegeben".to_owned(),
        Provenance::Maker { document, date } => dated(format!("Hersteller: {document}"), date),
        Provenance::Measured { by, date } => dated(by.clone(), date),
        Provenance::Published { source } => format!("veröffentlicht: {source}"),
    }
}

pub fn minutes_of(locale: Locale, minutes: f64) -> String {
    format!("{} min", locale.region.number(minutes, usize::from(minutes.fract() != 0.0)))
}

pub fn by_list(locale: Locale, name: &str, provenance: &Provenance) -> String {
    format!("Gewählt nach der Liste „{name}“; ihre Quelle: {}.", source_of(locale, provenance))
}
