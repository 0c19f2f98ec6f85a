//! German of the same: see `words/record_page.rs`.

use super::Language;
use super::marks::wheel_name;
use crate::model::Wheel;
use crate::words::record_page::{PageBox, Reasons, RecordPageTexts, StepSign};
use crate::words::screen::cut;

/// The fixed texts.
pub const TEXTS: RecordPageTexts = RecordPageTexts {
    language: Language::German,
    open: "Protokoll\u{2026}",
    open_why: "Schritt für Schritt durch den Auftrag, mit dem Ziffernblock: was bereitliegen soll, was zu tun ist, was gelesen wurde, wer was hingenommen hat",
    page: "Protokoll dieses Auftrags",
    begin: "Beginnen",
    begin_new: "Neues Protokoll beginnen",
    these: "Protokolle dieses Messplatzes, das neueste zuerst",
    none_yet: "Neben diesem Messplatz liegt noch kein Protokoll.",
    no_place: "Dieser Messplatz hat noch keine Datei, und seine Protokolle liegen daneben. Zuerst den Messplatz speichern.",
    save_bay: "Messplatz speichern",
    finish_car: "Zuerst das Fahrzeug abschließen, das gerade eingegeben wird.",
    next: "Erledigt, weiter",
    back: "Zurück",
    more: "Mehr",
    leave: "Zur Zeichnung",
    another: "Anderes Protokoll",
    have: "Bereitlegen",
    to_do: "Tun",
    mind: "Beachten",
    enter_here: "Eingeben",
    choose: "Mit der Ziffer wählen",
    keys: "Enter: erledigt, weiter  \u{b7}  \u{2212}: einen Schritt zurück  \u{b7}  *: zurücknehmen  \u{b7}  +: mehr",
    keys_of_list: "Enter: das Erste  \u{b7}  eine Ziffer wählt",
    keys_of_choice: "Eine Ziffer wählt  \u{b7}  Enter oder \u{2212}: zurück zum Schritt",
    keys_of_answer: "Eine Ziffer wählt, eine andere stattdessen  \u{b7}  Enter: eintragen  \u{b7}  \u{2212}: zurück",
    steps: "Schritte",
    findings: "Was gefunden wurde",
    no_findings: "Nichts verhindert eine Einstellung dieses Auftrags oder verlangt Vorsicht.",
    is_accepted: "Hingenommen",
    papers: "Fotos und Blätter",
    no_papers: "Noch ist nichts angehängt.",
    drop_here: "Dateien lassen sich auch auf das Fenster ziehen.",
    withdraw: "Zurückziehen",
    whole_visit: "Der ganze Auftrag",
    is_worked_out: "Wird für alle Einstellungen ausgerechnet \u{2026}",
    entries: "Was eingetragen wurde",
    left_out: "Diesen Schritt auslassen, weil \u{2026}",
    signs_because: "Unterschreibt trotzdem, weil",
    rest_of_sheet: "Der Rest des Protokolls: Spur vorn, Sturz, Fahrachswinkel, Tag",
    less_of_sheet: "Weniger vom Protokoll",
    tape_in_use: "Abgelesen mit",
    another_tape: "einem anderen Bandmaß, nicht auf der Liste",
    no_tapes: "Die Werkstatt führt noch kein Bandmaß: In ihren Einstellungen steht die Liste der Messmittel.",
    warm: "Wie warm es ist",
    warm_hint: "ein Stahlband wird mit der Wärme länger; darf leer bleiben",
    what_standing_does: "Das steht dann in diesem Protokoll. Die Aufstellung am Messplatz bleibt, wie sie ist: Die Marken dieses Platzes werden neu \
                         angelegt und gemessen, und was abgelesen wird, steht in diesem Protokoll allein.",
    not_applicable: "Dieser Schritt entfällt",
    strike: "Streichen",
    struck_out: "Gestrichen",
    nothing_to_undo: "In diesem Fenster wurde nichts eingetragen, das sich zurücknehmen lässt.",
    nothing_to_redo: "Zuletzt wurde nichts zurückgenommen.",
    choose_first: "Zuerst mit der Ziffer einen Grund wählen; \u{2212} geht ohne zurück.",
    enter_it: "Eintragen",
    take_back: "Diesen Schritt zurücknehmen",
    nothing_to_take_back: "Dieser Schritt ist offen: es gibt nichts zurückzunehmen.",
    somebody_else: "Jemand anderes trägt jetzt ein",
    close: "Protokoll schließen",
    close_now: "Schließen",
    reopen: "Wieder öffnen",
    is_closed: "Dieses Protokoll ist geschlossen: nichts wird mehr eingetragen.",
    sign: "Unterschreiben",
    copy_head: "Prüfwert kopieren",
    head_copied: "Der Prüfwert des Protokolls liegt in der Zwischenablage.",
    own_words: "Mit eigenen Worten",
    why: "Warum?",
    accept: "Geht damit weiter, denn",
    saved: "Gespeichert",
    saving: "Wird gespeichert",
    save_again: "Noch einmal versuchen",
    read_again: "Lesen, was dort liegt",
    changed_on_disk: "Jemand anderes hat dieses Protokoll inzwischen geschrieben. Nichts wird überschrieben: was hier seither eingetragen wurde, steht nur in diesem Fenster.",
    in_other_window: "Ein anderes Fenster hat dieses Protokoll offen. Dort eintragen oder es dort zuerst schließen.",
    goes_on: "Trotzdem weiter",
    passed: "Bestanden",
    failed: "Nicht bestanden",
    left: "Abweichung zur linken Fahrzeugseite",
    right: "Abweichung zur rechten Fahrzeugseite",
    up: "Abweichung nach oben",
    down: "Abweichung nach unten",
    not_asked: "Keine Fahrt verlangt",
    procedure_does_not_ask: "Die Anleitung des Herstellers verlangt es nicht.",
    technician: "Techniker",
    owner: "Verantwortlicher der Werkstatt",
    estimator: "Gutachter",
    choose_kind: "Eine Datei anhängen, sie zeigt",
    other_set_up: "Dieser Messplatz zeigt ein anderes Fahrzeug oder eine andere Aufstellung: erst die des Protokolls öffnen, dann sind Zeichnung, Marken und Befunde da.",
    enough: "Genug gemessen: Enter geht weiter.",
    as_it_was: "Außerhalb des Erlaubten: wie eingegeben behalten und so benannt.",
};

pub const fn name_of(of: PageBox) -> &'static str {
    match of {
        PageBox::Job => "Auftragsnummer",
        PageBox::Car => "Fahrzeug, wie die Werkstatt es führt",
        PageBox::Plate => "Kennzeichen",
        PageBox::By => "Wer einträgt",
        PageBox::Tape => "Seine Bezeichnung",
        PageBox::Document => "Dokument",
        PageBox::Edition => "Ausgabe",
        PageBox::Dated => "Datum",
        PageBox::Out => "Abweichung",
        PageBox::Words => "Mit eigenen Worten",
    }
}

pub const fn hint_of(of: PageBox) -> &'static str {
    match of {
        PageBox::Plate => "darf leer bleiben",
        PageBox::Tape => "Name und Nummer; nicht auf der Liste, also führt niemand seine Prüfungen",
        PageBox::Document => "Titel oder Nummer der Anleitung des Herstellers",
        PageBox::Edition => "wie sie darauf steht",
        PageBox::Dated => "auf der Anleitung: Jahr-Monat-Tag",
        PageBox::Out => "Grad; darf leer bleiben",
        PageBox::Job | PageBox::Car | PageBox::By | PageBox::Words => "",
    }
}

pub fn chosen(text: &str) -> String {
    format!("Gewählt: {text}. Enter trägt es ein, eine andere Ziffer ändert es, \u{2212} verwirft es.")
}

pub fn holds(text: &str) -> String {
    format!("Eingetragen: {text}.")
}

pub fn taken_back(said: &str) -> String {
    format!("Zurückgenommen und im Protokoll gestrichen: {said}")
}

pub fn brought_back(said: &str) -> String {
    format!("Zählt wieder: {said}")
}

pub fn nth_entry(nth: usize) -> String {
    format!("Eintrag {nth}")
}

pub fn tape_now(from: &str, to: &str, length: &str, allowance: &str) -> String {
    format!("Jetzt {from}\u{2013}{to}: muss {length} ± {allowance} zeigen")
}

pub fn tape_read(
    from: &str,
    to: &str,
    read: &str,
    length: &str,
    allowance: &str,
    beyond: Option<&str>,
) -> String {
    let said = beyond.map_or_else(|| "im Erlaubten".to_owned(), |by| format!("{by} darüber hinaus"));
    format!("{from}\u{2013}{to} zeigt {read}, muss {length} ± {allowance} zeigen: {said}.")
}

pub fn arch(wheel: Wheel) -> String {
    format!("Radhaus über der Radmitte, {}", wheel_name(wheel))
}

pub const fn reasons(of: Reasons) -> &'static [&'static str] {
    match of {
        Reasons::NotApplicable => &[
            "Die Anleitung des Herstellers verlangt es nicht.",
            "Vor diesem Auftrag erledigt.",
            "Dieses Fahrzeug hat es nicht.",
        ],
        Reasons::LeftOut => &[
            "Es ist nichts zur Hand, um es zu messen.",
            "Ein anderer Betrieb hat es gemacht; sein Protokoll ist angehängt.",
            "Die Werkstattleitung hat es so entschieden.",
        ],
        Reasons::Signed => &[
            "Durchgesehen: Was fehlt, betrifft diese Ausrichtung nicht.",
            "Es wird vor der Übergabe nachgeholt.",
            "Die Werkstattleitung hat es so entschieden.",
        ],
        Reasons::Accepted => &[
            "An Ort und Stelle angesehen: heute ist es aus dem Weg.",
            "Die Anleitung des Herstellers erlaubt es.",
            "Der Verantwortliche der Werkstatt hat so entschieden.",
        ],
        Reasons::Withdrawn => &["Die falsche Datei.", "Zeigt zu wenig.", "Durch eine bessere ersetzt."],
        Reasons::Struck => &[
            "Falsch abgelesen oder eingegeben.",
            "Von einem anderen Platz oder Fahrzeug.",
            "Wird nicht gebraucht.",
        ],
        Reasons::Reopened => &["Etwas wurde vergessen.", "Das Fahrzeug kam zurück.", "Ein Blatt kam später."],
    }
}

pub fn stands_now(place: usize) -> String {
    format!("Das Fahrzeug steht jetzt an Platz {place}")
}

pub fn listed_tape(name: &str, serial: &str, is_overdue: bool) -> String {
    let serial = if serial.is_empty() { String::new() } else { format!(", Nr. {serial}") };
    let overdue = if is_overdue { ", Prüfung überfällig" } else { "" };
    format!("{name}{serial}{overdue}")
}

pub fn not_done_without(all: &str) -> String {
    format!("Nicht erledigt ohne: {all}.")
}

pub fn nth_step(nth: usize, of: usize) -> String {
    format!("Schritt {nth} von {of}")
}

pub fn so_many_done(done: usize, of: usize) -> String {
    format!("{done} von {of} erledigt")
}

pub fn so_many_open(open: usize, of: usize) -> String {
    match (open, of) {
        (_, 0) => "Gefunden: nichts".to_owned(),
        (0, n) => format!("Gefunden: {n}, alles hingenommen"),
        (open, n) => format!("Gefunden: {open} von {n} offen"),
    }
}

pub fn so_many_papers(count: usize) -> String {
    match count {
        0 => "Kein Foto oder Blatt".to_owned(),
        1 => "Ein Foto oder Blatt".to_owned(),
        n => format!("{n} Fotos und Blätter"),
    }
}

pub fn listed_record(job: &str, car: &str, at: &str, closed: bool) -> String {
    let state = if closed { "geschlossen" } else { "offen" };
    format!("Auftrag {job}, Fahrzeug {car}, {at}, {state}")
}

pub fn job_and_car(job: &str, car: &str) -> String {
    format!("Auftrag {job}, Fahrzeug {car}")
}

pub fn enters(by: &str) -> String {
    format!("Es trägt ein: {by}")
}

pub fn accepted_by(by: &str, at: &str, why: &str) -> String {
    format!("Hingenommen von {by}, {at}: {why}")
}

pub fn allowed(range: &str) -> String {
    format!("Erlaubt: {range}")
}

pub fn no_figure(text: &str) -> String {
    format!("„{}“ ist keine solche Zahl.", cut(text))
}

pub fn no_date(text: &str) -> String {
    format!("„{}“ ist kein Datum: 2026-11-28 schreiben.", cut(text))
}

pub fn two_lengths(one: &str, other: &str) -> String {
    format!(
        "Das kann {one} oder {other} heißen: ohne Zeichen zwischen den Ziffern schreiben, oder mit Einheit."
    )
}

pub fn is_empty(of: PageBox) -> String {
    format!("Es fehlt noch: {}.", name_of(of))
}

pub fn not_saved(why: &str) -> String {
    format!("Noch nicht gespeichert, hier aber behalten; es wird wieder versucht. {why}")
}

pub fn sign_as(role: &str, by: &str) -> String {
    format!("{by} unterschreibt als {role}")
}

pub fn attached(file: &str) -> String {
    format!("{file} ist angehängt.")
}

pub fn was_changed(entry: Option<usize>) -> String {
    let what = match entry {
        Some(nth) => format!(
            "Eintrag {nth} wurde geändert, seit er geschrieben wurde, oder davor wurde einer entfernt oder verschoben."
        ),
        None => "Der Anfang dieses Protokolls wurde geändert, seit er geschrieben wurde.".to_owned(),
    };
    format!(
        "{what} Die Prüfwerte zeigen eine Änderung, keinen Fälscher. Nichts wird mehr eingetragen, bis jemand trotzdem weitermacht; das wird vermerkt."
    )
}

pub fn thrust_beyond(angle: &str, limit: &str) -> String {
    format!("Fahrachswinkel {angle}, erlaubt ± {limit}: zuerst die Achsvermessung.")
}

pub fn set_back_beyond(length: &str, limit: &str) -> String {
    format!("Radversatz {length}, erlaubt ± {limit}: zuerst die Achsvermessung.")
}

pub fn still_missing(count: usize) -> String {
    match count {
        0 => "Nichts fehlt.".to_owned(),
        1 => "Eines fehlt noch:".to_owned(),
        n => format!("{n} Dinge fehlen noch:"),
    }
}

pub fn head_begins(head: &str) -> String {
    format!("Prüfwert {head}\u{2026}")
}

pub const fn sign_of(kind: StepSign) -> &'static str {
    match kind {
        StepSign::Open => "offen",
        StepSign::Done => "erledigt",
        StepSign::GonePast => "übergangen",
        StepSign::LeftOut => "ausgelassen",
        StepSign::NotApplicable => "entfällt",
        StepSign::OutOfRange => "außerhalb des Erlaubten",
        StepSign::TakenBack => "zurückgenommen",
    }
}
