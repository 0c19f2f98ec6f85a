//! English of the same: see `words/hand.rs`.

use super::rooms::three_lengths;
use super::{Language, sentence_start};
use crate::words::Units;
use crate::words::hand::{BadLevel, Hand, LevelColumn};

/// The fixed texts.
pub const TEXTS: Hand = Hand {
    language: Language::English,
    menu: "What can be done with it",
    cut: "Cut (Ctrl+X)",
    copy_out: "Copy (Ctrl+C)",
    paste_hint: "Ctrl+V pastes at the pointer",
    copy_beside: "A second one beside it (Ctrl+D)",
    turn_left: "Turn a quarter to the left",
    turn_right: "Turn a quarter to the right",
    rename: "Rename (F2)",
    remove: "Remove (Delete)",
    lock: "Lock in its place",
    unlock: "Unlock",
    show_all: "Show all (0)",
    choose_all: "Choose all things (Ctrl+A)",
    line_up: "Line up",
    fronts: "front edges",
    rears: "rear edges",
    lefts: "left edges",
    rights: "right edges",
    along_car: "in a line along the car",
    across_car: "in a line across the car",
    spaced_out: "Same gap between all",
    spaced_out_why: "The two outermost stay; the gaps between all become the same. It takes three or more.",
    row: "Side by side in a row",
    row_why: "One beside the other with 50 mm between.",
    by_the_car: "Front, rear, left and right are the car's.",
    several_hint_short: "Arrows and drag move all.",
    several_hint: "Arrows and drag move all; [ ] turn all; Shift and a press: one more or less; Esc lets go.",
    not_things: "What is on the clipboard is nothing that can be put into a bay.",
    inner_wall: "inner wall",
    pillar_row: "row of columns",
    booth: "booth",
    booth_wall: "booth wall",
    lift: "whole lift",
    free_end: "an end lies on no corner or mark",
    keep_it: "Keep",
    keep_it_why: "Keep this dimension with the bay. Its ends follow what they lie on. Key K",
    kept_dimension: "kept dimension",
    loose_end: "loose end",
    from_end: "From",
    to_end: "To",
    not_kept_from_side: "Only what is measured in the top view can be kept",
    nothing_measured: "Measure from one point to another first, then keep it",
    read_levels: "Read a file …",
    read_levels_why: "Reads a table from a text or CSV file, as it is pasted here, in place of these levels; undo brings them back",
    look_for_picture: "Look for it …",
    put_size_back: "Put the old size back",
    it_is_so_small: "It is that small",
};

pub fn several(count: usize) -> String {
    format!("{count} chosen")
}

pub fn numbered_dimension(number: usize) -> String {
    format!("dimension {number}")
}

pub fn end_on(which: &str, on: &str) -> String {
    format!("{which}: {on}")
}

pub fn kept_as(name: &str) -> String {
    format!("Kept as {name}. It is in the list of what is in this bay")
}

pub fn on_clipboard(count: usize) -> String {
    match count {
        1 => "One thing is on the clipboard; Ctrl+V puts it where the pointer is, in this bay or in another."
            .to_owned(),
        n => format!(
            "{n} things are on the clipboard; Ctrl+V puts them where the pointer is, in this bay or in another."
        ),
    }
}

pub fn bad_level(number: usize, line: &str, what: BadLevel<'_>, units: Units) -> String {
    let line: String = line.chars().take(40).collect();
    format!("Line {number}, “{line}”, is no level: {}. {}", of_bad_level(what), how_levels(units, ANY_MARK))
}

pub fn bad_level_in(file: &str, number: usize, line: &str, what: BadLevel<'_>, units: Units) -> String {
    let line: String = line.chars().take(40).collect();
    format!(
        "{file}, line {number}, “{line}”: {}. Nothing of the file was taken. {}",
        of_bad_level(what),
        how_levels(units, PERMANENT_MARK)
    )
}

pub fn too_many_levels(file: &str, found: usize, most: usize) -> String {
    format!("{file}: found {found} levels; allowed is at most {most}. Nothing of the file was taken.")
}

pub fn no_levels_in(file: &str, units: Units) -> String {
    format!("{file}: found no level. Nothing was changed. {}", how_levels(units, PERMANENT_MARK))
}

pub fn levels_read(file: &str, count: usize) -> String {
    let read = if count == 1 { "One level".to_owned() } else { format!("{count} levels") };
    format!("{read} read from {file}. Enter the day on which they were taken")
}

/// A mark that is typed may be one on the drawing; a file knows those alone that stay on the floor.
const ANY_MARK: &str = "a floor mark, by name or number";
const PERMANENT_MARK: &str = "a mark that stays on the floor, by its name";

fn how_levels(units: Units, mark: &str) -> String {
    let three = three_lengths(units);
    format!("Three numbers a line: along, across, level {three}; or {mark}, and its level.")
}

fn of_bad_level(what: BadLevel<'_>) -> String {
    let short = |text: &str| text.chars().take(40).collect::<String>();
    match what {
        BadLevel::Columns(1) => "it has one column".to_owned(),
        BadLevel::Columns(count) => format!("it has {count} columns"),
        BadLevel::NoMark(name) => format!("no floor mark is called “{}”", short(name)),
        BadLevel::TwoMarks(name) => format!(
            "two floor marks are called “{}”: one that stays on the floor, and one of this aiming; say where it is",
            short(name)
        ),
        BadLevel::NoNumber(column, text) => format!("{}, “{}”, is no number", of_column(column), short(text)),
        BadLevel::Thousands(column, text) => {
            let (column, text) = (of_column(column), short(text));
            let (thousands, decimals) = (text.replace(',', ""), text.replace(',', "."));
            format!("{column}, “{text}”, may be {thousands} or {decimals}: write it so")
        }
    }
}

const fn of_column(column: LevelColumn) -> &'static str {
    match column {
        LevelColumn::Along => "along",
        LevelColumn::Across => "across",
        LevelColumn::Level => "the level",
    }
}

pub fn too_small(thing: &str, size: &str, kind: &str, least: &str) -> String {
    format!(
        "{} is now {size}. A {kind} is hardly ever less than {least} across. Is that meant?",
        sentence_start(thing)
    )
}
