//! German of the same: see `words/command_line.rs`.

use super::Language;
use crate::words::command_line::CommandLine;

/// The fixed texts.
pub const TEXTS: CommandLine = CommandLine {
    language: Language::German,
    // Help.
    program: "Plant, prüft und belegt den Platz, an dem die Sensoren der Fahrerassistenz eines Fahrzeugs eingestellt werden.\n\
              Mit einer Datei und ohne Befehl öffnet es diesen Messplatz; ohne beides den zuletzt offenen, zuerst das Beispiel.",
    check: "Ist der Platz für die Einstellung bereit? Ergebnis, was im Weg ist und was zu tun ist",
    draw: "Eine Aufstellung maßstäblich zeichnen, als SVG oder PDF, oder ihren Grundriss als DXF",
    list_marks: "Bodenmarken, Ziele und die Abstände, die das Bandmaß zeigen muss, als Tabelle ausgeben (CSV), oder alles, was ein Blatt sagt, als Daten (JSON)",
    import: "Aus einer DXF-Zeichnung einen Messplatz machen; ohne --room ihre Ebenen nennen",
    open: "Einen Messplatz im Fenster öffnen",
    print_licences: "Die Lizenztexte dessen ausgeben, was enthalten ist",
    explain: "Sagen, was die Kürzel der Befunde bedeuten",
    print_schema: "Das JSON-Schema von allem ausgeben, was --json schreibt",
    print_completions: "Ausgeben, was eine Shell zum Ergänzen dieser Befehlszeile braucht",
    print_manual: "Die Handbuchseite ausgeben, des Programms oder eines Befehls",
    codes: "Kürzel von Befunden, wie zone-object; ohne eines alle",
    shell: "Die Shell, die ergänzen soll",
    command: "Der Befehl, dessen Seite es ist; ohne ihn die des Programms",
    layout: "Ein Messplatz (.ron), der Name eines mitgelieferten, wie crowded-bay, oder - für die Standardeingabe",
    layout_to_open: "Ein Messplatz (.ron), oder der Name eines mitgelieferten, wie crowded-bay",
    layouts: "Messplätze (.ron), Namen mitgelieferter, wie crowded-bay, oder - für die Standardeingabe",
    quiet: "Nur ausgeben, was schiefgeht; der Rückgabewert ist die Antwort",
    check_arrangement: "Nur diese Aufstellung; ohne Angabe jede in der Datei",
    draw_arrangement: "Diese Aufstellung; ohne Angabe die erste in der Datei",
    in_language: "Sprache: en (Englisch) oder de (Deutsch), mit ihrer Schreibweise von Zahlen und Tagen",
    units: "Längen in Millimetern, Metern, oder Fuß und Zoll",
    shop: "Die Vorgaben der Werkstatt, nach denen beurteilt wird, statt der eigenen Datei der Werkstatt",
    date: "Der Tag, nach dem beurteilt wird, statt heute: das Alter des Bodenaufmaßes",
    no_day: "diesen Tag gibt es nicht; einen Tag schreiben wie 2026-11-02",
    json: "Das Ergebnis als Daten (JSON), und auf der Fehlerausgabe, was schiefgeht; siehe \"baywright schema\"",
    json_of_draw: "Was schiefgeht, als Daten (JSON), auf der Fehlerausgabe; siehe \"baywright schema\"",
    strict: "„Bereit mit Vorsicht“ gilt als nicht bereit",
    marks: "Auch, wie jede Marke gelegt wird und was das Bandmaß zwischen ihnen zeigen muss",
    view: "Von oben, oder von rechts vom Fahrzeug; eine DXF-Datei enthält den Grundriss",
    output: "Die Datei, in die geschrieben wird, oder - für die Standardausgabe (SVG)",
    output_of_marks: "Die Datei, in die geschrieben wird, als Tabelle oder als Daten je nach Endung; ohne Angabe, oder mit -, die Standardausgabe",
    drawing: "Eine DXF-Zeichnung in Textform",
    room_layer: "Die Ebene, auf der der Umriss des Raums gezeichnet ist",
    outline_number: "Welcher Umriss dieser Ebene, der größte zuerst, wenn mehrere der Raum sein können",
    wall_layers: "Eine Ebene mit inneren Wänden; mehrmals möglich",
    thing_layers: "Eine Ebene mit Gegenständen; mehrmals möglich",
    drawn_in_unit: "Was eine Einheit der Zeichnung ist; ohne Angabe, was die Zeichnung sagt",
    gap: "Lücken zwischen Linien bis zu so vielen mm werden geschlossen und gemeldet",
    wall_thickness: "Eine innere Wand, die als eine Linie gezeichnet ist, ist so viele mm dick",
    ceiling: "Lichte Höhe unter der Decke, mm; ohne Angabe werden 2500 angenommen und gemeldet",
    vehicle: "Das Fahrzeug der ersten Aufstellung, nach dem Namen seines Profils; ohne Angabe ein Beispiel",
    aiming: "Die Einstellung der ersten Aufstellung; ohne Angabe die erste des Fahrzeugs",
    output_of_import: "Der Messplatz, der geschrieben wird (.ron); eine vorhandene Datei wird nicht ersetzt",
    no_length: "nötig ist eine Länge in mm, so groß, wie es hier sinnvoll ist",
    paper: "Das Blatt nach dem Fahrzeug oder nach dem Raum drehen",
    dark: "Helle Linien auf dunklem Blatt",
    a_file: "DATEI",
    a_name: "NAME",
    a_day: "JJJJ-MM-TT",
    a_code: "KÜRZEL",
    a_shell: "SHELL",
    a_command: "BEFEHL",
    a_picture: "BILD.svg|.pdf|.dxf",
    format_of_marks: "Was auf die Standardausgabe geschrieben wird",
    a_table: "TABELLE.csv|DATEN.json",
    a_drawing: "ZEICHNUNG.dxf",
    a_layout: "MESSPLATZ.ron",
    a_layer: "EBENE",
    a_number: "ZAHL",
    a_length: "MM",
    after: "Rückgabewert: 0 Platz bereit (auch mit Vorsicht, außer mit --strict), 1 nicht bereit, 2 etwas Angegebenes war \
            nicht zu lesen oder zu finden, 3 etwas war nicht zu schreiben; der schlechteste aller Dateien und Aufstellungen.\n\n\
            Die Anleitung des Herstellers entscheidet. Alle mitgelieferten Werte sind erfundene Beispiele.",

    // What comes through a pipe.
    standard_input: "Standardeingabe",

    // No window.
    no_display: "es gibt keine Anzeige",
    no_graphics: "OpenGL ließ sich nicht starten",

    // Licences.
    typeface: "Die Schrift Inter, auf die benutzten Zeichen gekürzt:",
    other_fonts: "Zeichen, die Inter fehlen, sind in Ubuntu Light (Ubuntu Font Licence 1.0), Hack (Lizenzen MIT und \
                  Bitstream Vera), Noto Emoji (SIL Open Font License 1.1) und emoji-icon-font (MIT) gesetzt, wie die \
                  Bibliothek epaint_default_fonts sie mitbringt.",
};

pub fn no_such_arrangement(file: &str, name: &str, there: &[&str], meant: Option<&str>) -> String {
    let meant = meant.map_or_else(String::new, |meant| format!(" Ist {meant:?} gemeint?"));
    format!("{file}: keine Aufstellung {name:?} gefunden; {}.{meant}", it_has(there))
}

pub fn one_of(names: &[String]) -> String {
    super::faults::one_of(names)
}

pub fn nothing_to_answer(file: &str) -> String {
    format!("{file}: keine Aufstellung zu beurteilen; {}.", it_has(&[]))
}

fn it_has(names: &[&str]) -> String {
    if names.is_empty() {
        return "die Datei hat keine".to_owned();
    }
    let names: Vec<String> = names.iter().map(|name| format!("{name:?}")).collect();
    format!("vorhanden: {}", names.join(", "))
}

pub fn nothing_to_show(file: &str) -> String {
    format!("{file}: keine Aufstellung zu zeigen.")
}

pub fn no_picture(file: &str) -> String {
    format!(
        "{file}: Zeichnungen werden als SVG, PDF oder DXF geschrieben; einen Namen angeben, der auf .svg, .pdf oder .dxf endet."
    )
}

pub fn no_side_in_dxf(file: &str) -> String {
    format!(
        "{file}: eine DXF-Datei enthält den Grundriss; für die Seitenansicht einen Namen angeben, der auf .svg oder .pdf endet."
    )
}

pub fn no_table(file: &str) -> String {
    format!(
        "{file}: Marken werden als CSV oder JSON geschrieben; einen Namen angeben, der auf .csv oder .json endet."
    )
}

pub fn no_layout(file: &str) -> String {
    format!("{file}: ein Messplatz wird als RON geschrieben; einen Namen angeben, der auf .ron endet.")
}

pub fn no_pages(why: &str) -> String {
    format!("Die Seiten ließen sich nicht erstellen: {why}.")
}

pub fn not_written(why: &str) -> String {
    format!("Das Ergebnis ließ sich nicht ausgeben: {why}.")
}

pub fn passed_over(fault: &str) -> String {
    let fault = fault.trim_end_matches('.');
    format!(
        "{fault}; die Fahrzeuge sind die, die anderswo gefunden wurden, und ein gleichnamiges darin wird nicht angesehen."
    )
}

pub fn cannot_be_judged(file: &str) -> String {
    format!("{file}: {}.", super::screen::TEXTS.cannot_be_judged)
}

pub fn no_window(why: &str) -> String {
    format!(
        "Es lässt sich kein Fenster öffnen ({why}); `baywright check` und `baywright draw` brauchen keines."
    )
}

pub fn no_window_for_demo(why: &str) -> String {
    format!(
        "Es lässt sich kein Fenster öffnen ({why}); hier darum das Ergebnis des Beispiels. `baywright check` und \
         `baywright draw` tun dasselbe mit Ihren Dateien."
    )
}

pub fn part_missing(what: &str, install: &str) -> String {
    format!("ein Teil des Systems fehlt: {what}; auf Debian: {install}")
}

pub fn drawn(files: &[String]) -> String {
    format!("Maßstäblich gezeichnet: {}", files.join(" und "))
}
