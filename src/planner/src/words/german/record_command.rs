//! German of the same: see `words/record_command.rs`.

use super::Language;
use crate::words::record_command::RecordCommand;

/// The fixed texts.
pub const TEXTS: RecordCommand = RecordCommand {
    language: Language::German,
    record: "Das Protokoll eines Auftrags ansehen: ob es ist, wie es geschrieben wurde, was darin steht, seine Nachweismappe",
    check: "Sagen, ob jeder Eintrag an den vorigen anschließt und ob der letzte den Prüfwert vom Papier hat",
    show: "Alles ausgeben, was in einem Protokoll steht",
    sheet: "Die Nachweismappe zum Drucken machen: PDF, SVG oder PNG",
    file: "Das Protokoll eines Auftrags (.visit.ron)",
    head: "Der Prüfwert vom Papier, mit oder ohne Leerzeichen: Dann muss das Protokoll damit enden",
    no_head: "die 64 Zeichen des Prüfwerts angeben, 0 bis 9 und a bis f; Leerzeichen und Großbuchstaben sind gleich, mit Leerzeichen in Anführungszeichen",
    a_hash: "PRÜFWERT",
    a_record: "AUFTRAG.visit.ron",
    format: "Was auf die Standardausgabe geschrieben wird",
    output_of_show: "Das ganze Protokoll als JSON in diese Datei schreiben",
    a_data_file: "DATEN.json",
    after: "Endestatus: 0 wie geschrieben, 1 etwas wurde geändert oder der Prüfwert ist ein anderer, 2 etwas Genanntes war nicht zu lesen \
            oder zu finden, 3 etwas war nicht zu schreiben.\n\n\
            Die Kette zeigt, dass etwas geändert wurde, nicht von wem. Nichts hier sagt, dass ein Sensor eingestellt ist.",
};
