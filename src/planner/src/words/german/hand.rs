//! German of the same: see `words/hand.rs`.

use super::Language;
use super::rooms::three_lengths;
use crate::words::Units;
use crate::words::hand::{BadLevel, Hand, LevelColumn};

/// The fixed texts.
pub const TEXTS: Hand = Hand {
    language: Language::German,
    menu: "Was sich damit tun lässt",
    cut: "Ausschneiden (Strg+X)",
    copy_out: "Kopieren (Strg+C)",
    paste_hint: "Strg+V fügt am Zeiger ein",
    copy_beside: "Ein zweites daneben (Strg+D)",
    turn_left: "Vierteldrehung nach links",
    turn_right: "Vierteldrehung nach rechts",
    rename: "Umbenennen (F2)",
    remove: "Entfernen (Entf)",
    lock: "An seiner Stelle sperren",
    unlock: "Entsperren",
    show_all: "Alles zeigen (0)",
    choose_all: "Alle Gegenstände wählen (Strg+A)",
    line_up: "Ausrichten",
    fronts: "Vorderkanten",
    rears: "Hinterkanten",
    lefts: "linke Kanten",
    rights: "rechte Kanten",
    along_car: "in eine Linie längs zum Fahrzeug",
    across_car: "in eine Linie quer zum Fahrzeug",
    spaced_out: "Gleiche Lücken",
    spaced_out_why: "Die beiden äußersten bleiben; die Lücken zwischen allen werden gleich. Es braucht drei oder mehr.",
    row: "Nebeneinander in eine Reihe",
    row_why: "Eines neben das andere, mit 50 mm dazwischen.",
    by_the_car: "Vorn, hinten, links und rechts vom Fahrzeug aus.",
    several_hint_short: "Pfeiltasten und Ziehen schieben alle.",
    several_hint: "Pfeiltasten und Ziehen schieben alle; [ ] drehen alle; Umschalt und Klick: eines mehr oder weniger; Esc lässt los.",
    not_things: "Was in der Zwischenablage ist, lässt sich nicht auf einen Messplatz stellen.",
    inner_wall: "Innenwand",
    pillar_row: "Säulenreihe",
    booth: "Kabine",
    booth_wall: "Kabinenwand",
    lift: "ganze Hebebühne",
    free_end: "ein Ende liegt auf keiner Ecke oder Marke",
    keep_it: "Behalten",
    keep_it_why: "Dieses Maß am Messplatz behalten. Seine Enden folgen dem, worauf sie liegen. Taste K",
    kept_dimension: "Maß",
    loose_end: "loses Ende",
    from_end: "Von",
    to_end: "Bis",
    not_kept_from_side: "Behalten lässt sich nur, was in der Draufsicht gemessen ist",
    nothing_measured: "Zuerst von einem Punkt zu einem anderen messen, dann behalten",
    read_levels: "Datei lesen …",
    read_levels_why: "Liest eine Tabelle aus einer Text- oder CSV-Datei anstelle dieser Höhen, wie eine eingefügte; „Rückgängig“ holt sie zurück",
    look_for_picture: "Suchen …",
    put_size_back: "Alte Größe zurück",
    it_is_so_small: "Es ist so klein",
};

pub fn several(count: usize) -> String {
    format!("{count} gewählt")
}

pub fn numbered_dimension(number: usize) -> String {
    format!("Maß {number}")
}

pub fn end_on(which: &str, on: &str) -> String {
    format!("{which}: {on}")
}

pub fn kept_as(name: &str) -> String {
    format!("Behalten als „{name}“. Es steht in der Liste dieses Messplatzes")
}

pub fn on_clipboard(count: usize) -> String {
    match count {
        1 => "Ein Gegenstand ist in der Zwischenablage; Strg+V stellt ihn an den Zeiger, auf diesem Messplatz oder einem anderen."
            .to_owned(),
        n => format!(
            "{n} Gegenstände sind in der Zwischenablage; Strg+V stellt sie an den Zeiger, auf diesem Messplatz oder einem anderen."
        ),
    }
}

pub fn bad_level(number: usize, line: &str, what: BadLevel<'_>, units: Units) -> String {
    let line: String = line.chars().take(40).collect();
    format!(
        "Zeile {number}, „{line}“, ist keine Höhe: {}. {}",
        of_bad_level(what),
        how_levels(units, ANY_MARK)
    )
}

pub fn bad_level_in(file: &str, number: usize, line: &str, what: BadLevel<'_>, units: Units) -> String {
    let line: String = line.chars().take(40).collect();
    format!(
        "{file}, Zeile {number}, „{line}“: {}. Von der Datei wurde nichts übernommen. {}",
        of_bad_level(what),
        how_levels(units, PERMANENT_MARK)
    )
}

pub fn too_many_levels(file: &str, found: usize, most: usize) -> String {
    format!(
        "{file}: {found} Höhen gefunden; erlaubt: höchstens {most}. Von der Datei wurde nichts übernommen."
    )
}

pub fn no_levels_in(file: &str, units: Units) -> String {
    format!("{file}: keine Höhe gefunden. Nichts wurde geändert. {}", how_levels(units, PERMANENT_MARK))
}

pub fn levels_read(file: &str, count: usize) -> String {
    let read = if count == 1 { "Eine Höhe".to_owned() } else { format!("{count} Höhen") };
    format!("{read} aus {file} gelesen. Den Tag eintragen, an dem sie gemessen wurden")
}

/// A mark that is typed may be one on the drawing; a file knows those alone that stay on the floor.
const ANY_MARK: &str = "eine Marke, mit Namen oder Nummer";
const PERMANENT_MARK: &str = "eine Marke, die auf dem Boden bleibt, mit Namen";

fn how_levels(units: Units, mark: &str) -> String {
    format!("Drei Zahlen je Zeile: längs, quer, Höhe, {}; oder {mark}, und ihre Höhe.", three_lengths(units))
}

fn of_bad_level(what: BadLevel<'_>) -> String {
    let short = |text: &str| text.chars().take(40).collect::<String>();
    match what {
        BadLevel::Columns(1) => "sie hat eine Spalte".to_owned(),
        BadLevel::Columns(count) => format!("sie hat {count} Spalten"),
        BadLevel::NoMark(name) => format!("keine Marke heißt „{}“", short(name)),
        BadLevel::TwoMarks(name) => format!(
            "zwei Marken heißen „{}“: eine, die auf dem Boden bleibt, und eine dieser Einstellung; die Stelle angeben",
            short(name)
        ),
        BadLevel::NoNumber(column, text) => {
            format!("{}: „{}“ ist keine Zahl", of_column(column), short(text))
        }
        BadLevel::Thousands(column, text) => {
            let (column, text) = (of_column(column), short(text));
            let (thousands, decimals) = (text.replace(',', ""), text.replace(',', "."));
            format!(
                "{column}: „{text}“ kann {thousands} oder {decimals} heißen; so schreiben, wie es gemeint ist"
            )
        }
    }
}

const fn of_column(column: LevelColumn) -> &'static str {
    match column {
        LevelColumn::Along => "längs",
        LevelColumn::Across => "quer",
        LevelColumn::Level => "Höhe",
    }
}

pub fn too_small(thing: &str, size: &str, kind: &str, least: &str) -> String {
    format!("„{thing}“ misst jetzt {size}. Üblich ({kind}): kaum unter {least}. Ist das gemeint?")
}
