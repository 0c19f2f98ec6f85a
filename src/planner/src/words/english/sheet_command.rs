//! English of the same: see `words/sheet_command.rs`.

use super::Language;
use crate::words::sheet_command::SheetCommand;

/// The fixed texts.
pub const TEXTS: SheetCommand = SheetCommand {
    language: Language::English,
    sheet: "Make sheets to print: PDF, SVG or PNG",
    layouts: "A bay layout (.ron), the name of a built-in one, such as crowded-bay, - for standard input, or a folder: all \
              layouts in it",
    arrangement: "Only this set-up; without it, every one in the file",
    kinds: "Which sheets, in this order: how the marks are laid and read, the same to fill in by hand, what is found, what \
            a customer is told",
    before: "Tell what is found beside this set-up of the same file: as it was before",
    paper: "The paper to print on; without it, A4, or Letter where lengths are in feet",
    landscape: "The paper's long side lies level",
    output: "The file to write, or - for standard output; for a folder, or several layouts, the folder to write into",
    format: "What is written for a folder, several layouts, or standard output",
    dpi: "Dots to the inch of a PNG, 50 to 600",
    revision: "The revision to stand in the title block",
    a_sheet: "SHEETS.pdf|.svg|.png|FOLDER",
    a_number: "NUMBER",
    a_text: "TEXT",
    no_dpi: "give a whole number from 50 to 600",
};

pub fn no_sheet(file: &str) -> String {
    format!("{file}: sheets are written as PDF, SVG or PNG; give a name that ends in .pdf, .svg or .png.")
}

pub fn no_layouts(folder: &str) -> String {
    format!("{folder}: found no bay layout in this folder; their names end in .ron.")
}

pub fn so_far(done: usize, all: usize, file: &str) -> String {
    format!("{done} of {all}: {file}")
}

pub fn failed(files: &[String], all: usize) -> String {
    format!("No sheets of {} of {all}: {}.", files.len(), files.join(", "))
}

pub fn too_many_layouts(most: usize) -> String {
    format!("More than {most} bay layouts are too many at once; name fewer of them, or a smaller folder.")
}

pub fn several_to_output(files: usize) -> String {
    format!(
        "Standard output takes one file, and these sheets would be {files}; give --format pdf, or a name to write them to."
    )
}

pub fn to_terminal() -> String {
    "Sheets are no text for a terminal; give a name to write them to, or lead standard output to a program."
        .to_owned()
}

pub fn too_many_pixels(width: u64, height: u64, most: u64) -> String {
    format!(
        "A picture of {width} by {height} pixels is too large, at most {} million in all; give fewer --dpi or smaller --paper.",
        most / 1_000_000
    )
}
