//! German of the same: see `words/sheet_command.rs`.

use super::Language;
use crate::words::sheet_command::SheetCommand;

/// The fixed texts.
pub const TEXTS: SheetCommand = SheetCommand {
    language: Language::German,
    sheet: "Blätter zum Drucken erstellen: PDF, SVG oder PNG",
    layouts: "Ein Messplatz (.ron), der Name eines mitgelieferten, wie crowded-bay, - für die Standardeingabe, oder ein Ordner: alle \
              Messplätze darin",
    arrangement: "Nur diese Aufstellung; ohne Angabe jede in der Datei",
    kinds: "Welche Blätter, in dieser Reihenfolge: wie die Marken gelegt und gemessen werden, dasselbe zum Ausfüllen von Hand, \
            die Befunde, was Kunden gesagt wird",
    before: "Die Befunde neben denen dieser Aufstellung derselben Datei zeigen: wie es vorher war",
    paper: "Das Papier, auf dem gedruckt wird; ohne Angabe A4, bei Längen in Fuß Letter",
    landscape: "Querformat",
    output: "Die Datei, in die geschrieben wird; bei einem Ordner oder mehreren Messplätzen der Ordner",
    format: "Was bei einem Ordner, mehreren Messplätzen oder auf die Standardausgabe geschrieben wird",
    dpi: "Bildpunkte je Zoll eines PNG, 50 bis 600",
    revision: "Die Fassung, die im Schriftfeld steht",
    a_sheet: "BLÄTTER.pdf|.svg|.png|ORDNER",
    a_number: "ZAHL",
    a_text: "TEXT",
    no_dpi: "eine ganze Zahl von 50 bis 600 angeben",
};

pub fn no_sheet(file: &str) -> String {
    format!(
        "{file}: Blätter werden als PDF, SVG oder PNG geschrieben; einen Namen angeben, der auf .pdf, .svg oder .png endet."
    )
}

pub fn no_layouts(folder: &str) -> String {
    format!("{folder}: in diesem Ordner ist kein Messplatz; ihre Namen enden auf .ron.")
}

pub fn so_far(done: usize, all: usize, file: &str) -> String {
    format!("{done} von {all}: {file}")
}

pub fn failed(files: &[String], all: usize) -> String {
    format!("Keine Blätter von {} der {all}: {}.", files.len(), files.join(", "))
}

pub fn too_many_layouts(most: usize) -> String {
    format!(
        "Mehr als {most} Messplätze sind zu viele auf einmal; weniger davon oder einen kleineren Ordner angeben."
    )
}

pub fn several_to_output(files: usize) -> String {
    format!(
        "Die Standardausgabe nimmt eine Datei, und diese Blätter wären {files}; --format pdf oder einen Namen angeben, unter dem \
         sie geschrieben werden."
    )
}

pub fn to_terminal() -> String {
    "Blätter sind kein Text für ein Terminal; einen Namen angeben, unter dem sie geschrieben werden, oder die Standardausgabe an ein \
     Programm leiten."
        .to_owned()
}

pub fn too_many_pixels(width: u64, height: u64, most: u64) -> String {
    format!(
        "Ein Bild von {width} mal {height} Bildpunkten ist zu groß, höchstens {} Millionen insgesamt; kleineres --dpi oder \
         kleineres --paper angeben.",
        most / 1_000_000
    )
}
