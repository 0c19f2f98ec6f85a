//! German of the same: see `words/on_paper.rs`.

use super::Language;
use crate::words::on_paper::OnPaper;

/// The fixed texts.
pub const TEXTS: OnPaper = OnPaper {
    language: Language::German,
    title: "Auf Papier …",
    title_why: "Blätter zum Drucken oder Verschicken: wie die Marken gelegt werden, was gefunden wurde, was Kunden erfahren, der Bodenplan (Strg+P)",
    sheets: "Blätter",
    none_chosen: "Mindestens ein Blatt wählen.",
    paper: "Papier",
    upright: "Hochformat",
    level: "Querformat",
    revision: "Fassung",
    print: "Zum Drucken öffnen",
    print_why: "Schreibt ein PDF und öffnet es im Programm, das auf diesem Rechner PDF zeigt; dort mit 100 % drucken",
    save_as: "Speichern als",
    save_hint: "Die Endung entscheidet: .pdf ist eine Datei mit allen Seiten; .svg und .png sind je eine für jede Seite",
    replace_all: "Alle ersetzen",
    for_programs: "Für andere Programme, unter demselben Namen",
    plan: "Grundriss (DXF)",
    plan_why: "Der Grundriss 1 : 1 in Millimetern, auf benannten Ebenen, für ein Zeichenprogramm",
    marks: "Marken (CSV)",
    marks_why: "Marken, Zieltafeln und Abstände jeder Aufstellung, als Tabelle",
    fits: "Was wohin passt (CSV)",
    fits_why: "Jede Einstellung des Berichts an jeder Stelle, als Tabelle",
    everything: "Alles (JSON)",
    everything_why: "Alle Ergebnisse zu jeder Aufstellung, als Daten für Programme",
    pages_name: "Seiten, zum Blättern",
    save: "Speichern",
    look_for_place: "Ort suchen …",
    replace: "Ersetzen",
    dpi: "Punkte je Zoll (.png)",
    being_made: "Die Seiten werden erstellt …",
    being_written: "Wird geschrieben …",
    before_now: "Befunde stehen darauf wie beim Öffnen und wie jetzt.",
    enlarge: "Seiten größer",
    reduce: "Seiten kleiner",
    look_again: "Nichts gespeichert: Die Seiten sind inzwischen andere. Ansehen, dann noch einmal speichern.",
    leave: "Verlassen",
};

pub fn pages(count: usize) -> String {
    if count == 1 { "1 Seite".to_owned() } else { format!("{count} Seiten") }
}

pub fn first_shown(count: usize) -> String {
    format!("Die ersten {count} sind zu sehen; gespeichert und gedruckt werden alle.")
}

pub fn page(at: usize, count: usize, title: &str, description: &str) -> String {
    format!("Seite {at} von {count}: {title}. {description}")
}

pub fn written(files: &[String]) -> String {
    match files {
        [] => "Nichts wurde geschrieben.".to_owned(),
        [one] => format!("Geschrieben: {one}"),
        [first, .., last] => format!("{} Dateien geschrieben: {first} bis {last}", files.len()),
    }
}

pub fn opened(file: &str) -> String {
    format!(
        "An das Programm übergeben, das hier PDF zeigt. Mit 100 % drucken, dann den Balken nachmessen. Die Datei ist {file}"
    )
}

pub fn not_opened(file: &str, why: &str) -> String {
    format!("Kein Programm hat das PDF geöffnet ({why}). Die Datei ist {file}")
}

pub fn are_there(files: &[String]) -> String {
    match files {
        [one] => format!("{one} gibt es schon."),
        _ => format!("{} Dateien gibt es schon: {}.", files.len(), files.join(", ")),
    }
}

pub fn not_all_written(why: &str, written: &[String]) -> String {
    if written.is_empty() {
        why.to_owned()
    } else {
        format!("{why} Vorher geschrieben: {}.", written.join(", "))
    }
}

pub fn wrong_ending(file: &str) -> String {
    format!("{file}: erlaubt sind Namen, die auf .pdf, .svg, .png, .dxf, .csv oder .json enden.")
}

pub fn too_many_pixels(width: u64, height: u64, most: u64) -> String {
    format!(
        "Eine Seite hätte {width} mal {height} Punkte; erlaubt sind insgesamt {most}. Weniger Punkte je Zoll nehmen."
    )
}

pub fn not_made(why: &str) -> String {
    format!("Die Seiten ließen sich nicht erstellen: {why}")
}
