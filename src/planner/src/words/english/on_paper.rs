//! English of the same: see `words/on_paper.rs`.

use super::Language;
use crate::words::on_paper::OnPaper;

/// The fixed texts.
pub const TEXTS: OnPaper = OnPaper {
    language: Language::English,
    title: "On paper …",
    title_why: "Sheets to print or to send: how the marks are laid, what is found, what the customer is told, the floor plan (Ctrl+P)",
    sheets: "Sheets",
    none_chosen: "Choose one sheet or more.",
    paper: "Paper",
    upright: "Upright",
    level: "Level",
    revision: "Revision",
    print: "Open to print",
    print_why: "Writes a PDF and opens it in the program that shows PDF on this computer; print it there at 100 %",
    save_as: "Save as",
    save_hint: "The ending decides: .pdf is one file of all pages; .svg and .png are one for each page",
    replace_all: "Replace them all",
    for_programs: "For other programs, under the same name",
    plan: "Plan (DXF)",
    plan_why: "The plan 1 : 1 in millimetres, on named layers, for a drawing program",
    marks: "Marks (CSV)",
    marks_why: "Marks, targets and distances of every set-up, as a table",
    fits: "What fits where (CSV)",
    fits_why: "Every aiming of the report by every place, as a table",
    everything: "All (JSON)",
    everything_why: "What was found out about every set-up, as data for programs",
    pages_name: "Pages, to scroll",
    save: "Save",
    look_for_place: "Look for a place …",
    replace: "Replace it",
    dpi: "Dots to the inch (.png)",
    being_made: "The pages are being made …",
    being_written: "It is being written …",
    before_now: "Findings are told as opened and as they are now.",
    enlarge: "Larger pages",
    reduce: "Smaller pages",
    look_again: "Nothing was saved: the pages are others by now. Look at them, then save again.",
    leave: "Leave",
};

pub fn pages(count: usize) -> String {
    if count == 1 { "1 page".to_owned() } else { format!("{count} pages") }
}

pub fn first_shown(count: usize) -> String {
    format!("The first {count} are shown; all are saved and printed.")
}

pub fn page(at: usize, count: usize, title: &str, description: &str) -> String {
    format!("Page {at} of {count}: {title}. {description}")
}

pub fn written(files: &[String]) -> String {
    match files {
        [] => "Nothing was written.".to_owned(),
        [one] => format!("Written: {one}"),
        [first, .., last] => format!("{} files written: {first} to {last}", files.len()),
    }
}

pub fn opened(file: &str) -> String {
    format!(
        "Given to the program that shows PDF here. Print at 100 %, then measure the bar. It lies in {file}"
    )
}

pub fn not_opened(file: &str, why: &str) -> String {
    format!("No program here opened the PDF ({why}). It lies in {file}")
}

pub fn are_there(files: &[String]) -> String {
    match files {
        [one] => format!("{one} is there already."),
        _ => format!("{} files are there already: {}.", files.len(), files.join(", ")),
    }
}

pub fn not_all_written(why: &str, written: &[String]) -> String {
    if written.is_empty() {
        why.to_owned()
    } else {
        format!("{why} Written before that: {}.", written.join(", "))
    }
}

pub fn wrong_ending(file: &str) -> String {
    format!("{file}: allowed are names that end in .pdf, .svg, .png, .dxf, .csv or .json.")
}

pub fn too_many_pixels(width: u64, height: u64, most: u64) -> String {
    format!(
        "A page would be {width} by {height} dots; allowed are {most} in all. Take fewer dots to the inch."
    )
}

pub fn not_made(why: &str) -> String {
    format!("The pages could not be made: {why}")
}
