//! English of the same: see `words/command_line.rs`.

use super::Language;
use crate::words::command_line::CommandLine;

/// The fixed texts.
pub const TEXTS: CommandLine = CommandLine {
    language: Language::English,
    // Help.
    program: "Plans, checks and proves the floor space in which a car's driver-assistance sensors are aimed.\n\
              With a file and no command it opens that bay; with neither, the bay that was open last, at first the demo.",
    check: "Is the space ready for the aiming? The verdict, what is in the way, and what to do",
    draw: "Draw a set-up to scale, as SVG or PDF, or its plan as DXF",
    list_marks: "List floor marks, targets and the distances that a tape must read, as a table (CSV), or with all that a sheet tells as data (JSON)",
    import: "Make a bay of a DXF drawing; without --room, list its layers",
    open: "Open a bay layout in the window",
    print_licences: "Print the licence texts of what is inside",
    explain: "Say what the codes of findings mean",
    print_schema: "Print the JSON Schema of all that --json writes",
    print_completions: "Print what a shell needs to complete this command line",
    print_manual: "Print the manual page, of the program or of one command",
    codes: "Codes of findings, such as zone-object; without any, all of them",
    shell: "The shell that is to complete it",
    command: "The command whose page it is; without it, the program's",
    layout: "A bay layout (.ron), the name of a built-in one, such as crowded-bay, or - for standard input",
    layout_to_open: "A bay layout (.ron), or the name of a built-in one, such as crowded-bay",
    layouts: "Bay layouts (.ron), names of built-in ones, such as crowded-bay, or - for standard input",
    quiet: "Print nothing but what goes wrong; the exit status is the answer",
    check_arrangement: "Only this set-up; without it, every one in the file",
    draw_arrangement: "This set-up; without it, the first one in the file",
    in_language: "The language: en (English) or de (German), with its way of writing numbers and days",
    units: "Lengths in millimetres, metres, or feet and inches",
    shop: "The shop's settings to judge by, instead of the shop's own document",
    date: "The day to judge by, instead of today: dates the floor survey",
    no_day: "there is no such day; write a day as 2026-11-02",
    json: "The answer as data (JSON), and on standard error what goes wrong; see \"baywright schema\"",
    json_of_draw: "What goes wrong as data (JSON), on standard error; see \"baywright schema\"",
    strict: "\"Ready with care\" counts as not ready",
    marks: "Also how each mark is laid, and what the tape must read between them",
    view: "From above, or from the car's right; a DXF file holds the plan from above",
    output: "The file to write, or - for standard output (SVG)",
    output_of_marks: "The file to write, a table or data by how its name ends; without it, or with -, standard output",
    drawing: "A DXF drawing in the text form",
    room_layer: "The layer on which the room's outline is drawn",
    outline_number: "Which outline of that layer, the largest first, where several may be the room",
    wall_layers: "A layer of inner walls; may be given several times",
    thing_layers: "A layer of things; may be given several times",
    drawn_in_unit: "What one unit of the drawing is; without it, what the drawing says",
    gap: "Gaps between lines up to so many mm are closed, and told",
    wall_thickness: "An inner wall that is drawn as one line is so many mm thick",
    ceiling: "Clear height under the ceiling, mm; without it 2500 is taken, and said",
    vehicle: "The car of the first set-up, by its profile's name; without it, an example",
    aiming: "The aiming of the first set-up; without it, the car's first",
    output_of_import: "The bay layout to write (.ron); a file that is there is not replaced",
    no_length: "a length in mm is asked for, within what is sensible here",
    paper: "Turn the paper to the car, or to the room",
    dark: "Light lines on dark paper",
    a_file: "FILE",
    a_name: "NAME",
    a_day: "YYYY-MM-DD",
    a_code: "CODE",
    a_shell: "SHELL",
    a_command: "COMMAND",
    a_picture: "PICTURE.svg|.pdf|.dxf",
    format_of_marks: "What is written to standard output",
    a_table: "TABLE.csv|DATA.json",
    a_drawing: "DRAWING.dxf",
    a_layout: "BAY.ron",
    a_layer: "LAYER",
    a_number: "NUMBER",
    a_length: "MM",
    after: "Exit status: 0 space ready (with care too, unless --strict), 1 not ready, 2 something given could \
            not be read or found, 3 something could not be written; the worst over all files and set-ups.\n\n\
            The vehicle maker's procedure decides. Every shipped figure is an invented example.",

    // What comes through a pipe.
    standard_input: "standard input",

    // No window.
    no_display: "there is no display",
    no_graphics: "OpenGL could not be started",

    // Licences.
    typeface: "The typeface Inter, cut to the letters that are used:",
    other_fonts: "Letters that Inter lacks are set in Ubuntu Light (Ubuntu Font Licence 1.0), Hack (MIT and \
                  Bitstream Vera licences), Noto Emoji (SIL Open Font Licence 1.1) and emoji-icon-font (MIT), as \
                  the library epaint_default_fonts carries them.",
};

pub fn no_such_arrangement(file: &str, name: &str, there: &[&str], meant: Option<&str>) -> String {
    let meant = meant.map_or_else(String::new, |meant| format!(" Did you mean {meant:?}?"));
    format!("{file}: found no set-up {name:?}; {}.{meant}", it_has(there))
}

pub fn one_of(names: &[String]) -> String {
    super::faults::one_of(names)
}

pub fn nothing_to_answer(file: &str) -> String {
    format!("{file}: found no set-up to answer for; {}.", it_has(&[]))
}

fn it_has(names: &[&str]) -> String {
    if names.is_empty() {
        return "it has none".to_owned();
    }
    let names: Vec<String> = names.iter().map(|name| format!("{name:?}")).collect();
    format!("it has {}", names.join(", "))
}

pub fn nothing_to_show(file: &str) -> String {
    format!("{file}: found no set-up to show.")
}

pub fn no_picture(file: &str) -> String {
    format!("{file}: drawings are written as SVG, PDF or DXF; give a name that ends in .svg, .pdf or .dxf.")
}

pub fn no_side_in_dxf(file: &str) -> String {
    format!(
        "{file}: a DXF file holds the plan from above; for the side view give a name that ends in .svg or .pdf."
    )
}

pub fn no_table(file: &str) -> String {
    format!("{file}: marks are written as CSV or JSON; give a name that ends in .csv or .json.")
}

pub fn no_layout(file: &str) -> String {
    format!("{file}: a bay layout is written as RON; give a name that ends in .ron.")
}

pub fn no_pages(why: &str) -> String {
    format!("The pages could not be made: {why}.")
}

pub fn not_written(why: &str) -> String {
    format!("The answer could not be written: {why}.")
}

pub fn passed_over(fault: &str) -> String {
    let fault = fault.trim_end_matches('.');
    format!(
        "{fault}; the cars are those found elsewhere, and one of the same name in there is not looked at."
    )
}

pub fn cannot_be_judged(file: &str) -> String {
    format!("{file}: {}.", super::screen::TEXTS.cannot_be_judged)
}

pub fn no_window(why: &str) -> String {
    format!("No window can be opened ({why}); `baywright check` and `baywright draw` need none.")
}

pub fn no_window_for_demo(why: &str) -> String {
    format!(
        "No window can be opened ({why}), so here is the demo bay's answer; `baywright check` and `baywright draw` do \
         the same for your own files."
    )
}

pub fn part_missing(what: &str, install: &str) -> String {
    format!("a part of the system is missing: {what}; on Debian: {install}")
}

pub fn drawn(files: &[String]) -> String {
    format!("Drawn to scale: {}", files.join(" and "))
}
