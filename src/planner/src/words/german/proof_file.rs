//! German of the same: see `words/proof_file.rs`.

use super::Language;
use crate::model::Provenance;
use crate::record::{MOST_SHOWN, Shown};
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
    read: "Ist",
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
    in_short: "Kurz gesagt",
    figures_from: "Ihre Werte aus",
    must: "Soll",
    differs: "Ist minus Soll",
    must_about: "„Soll“ ist, was dieses Messgerät nach der Aufstellung anzeigen musste; „erlaubt“, wie weit es in 95 von 100 Fällen danebenliegen \
                 darf, wenn alles wie angenommen ist. Die Entscheidungen oben stützen sich auf alle Maße zusammen.",
    must_unknown: "„Soll“ ist, was dieses Messgerät nach der Aufstellung anzeigen musste; wo ein Strich steht, liegt die Aufstellung oder \
                   dieses Maß in ihr nicht vor.",
    checked: "Zuletzt geprüft",
    check_due: "Prüfung fällig",
    in_time: "in der Frist",
    no_check_known: "kein Prüftag bekannt",
    unlisted: "nicht in der Liste der Werkstatt",
    size: "Größe",
    smaller: "Aus einem kleineren Bild davon gedruckt.",
    by_pen: "Unterschrift mit Stift",
    pen_name: "Name",
    pen_role: "Unterschreibt als",
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

pub fn made_for(profile: &str, set_up: &str, bay: &str) -> String {
    format!("Fahrzeugprofil: {profile}. Aufstellung: {set_up}. Messplatz: {bay}.")
}

pub fn at_place(set_up: &str, place: usize) -> String {
    format!("{set_up}, Platz {place}")
}

pub fn decided_so(title: &str, [inside, outside]: [usize; 2], all: usize) -> String {
    if all == 0 {
        return format!("{title}: kein Wert entschieden.");
    }
    let figures = if all == 1 { "1 Wert".to_owned() } else { format!("{all} Werten") };
    let mut said = format!("{title}: von {figures} {inside} innerhalb");
    if outside > 0 {
        said.push_str(&format!(", {outside} außerhalb"));
    }
    let open = all.saturating_sub(inside + outside);
    if open > 0 {
        said.push_str(&format!(", {open} nicht entschieden"));
    }
    format!("{said}. Zuerst anzusehen:")
}

pub fn size_of(locale: Locale, bytes: u64) -> String {
    match bytes {
        0..1_000 => format!("{bytes} Bytes"),
        1_000..1_000_000 => format!("{} kB", locale.region.number(bytes as f64 / 1e3, 0)),
        _ => format!("{} MB", locale.region.number(bytes as f64 / 1e6, 1)),
    }
}

pub fn not_shown(file: &str, shown: &Shown) -> Option<String> {
    match shown {
        Shown::Picture(_) => None,
        Shown::ByName => Some(format!("{file} ist hier nicht gedruckt; die Datei liegt beim Protokoll.")),
        Shown::Lost => Some(format!("{file} ist nicht gedruckt: die Datei liegt nicht mehr beim Protokoll.")),
        Shown::Changed => Some(format!(
            "{file} ist nicht gedruckt: was beim Protokoll liegt, hat einen anderen Prüfwert als das, was angehängt wurde."
        )),
        Shown::NotRead => Some(format!("{file} ist nicht gedruckt: als Bild nicht lesbar.")),
        Shown::TooLarge(width, height) => Some(format!(
            "{file} ist nicht gedruckt: {width} × {height} Bildpunkte sind mehr, als gelesen werden."
        )),
        Shown::TooMany => Some(format!("{file} ist nicht gedruckt: {MOST_SHOWN} Bilder stehen davor.")),
    }
}
