//! English of the same: see `words/room_drawing.rs`.

use super::Language;
use crate::words::Locale;
use crate::words::room_drawing::RoomDrawing;

/// The fixed texts.
pub const TEXTS: RoomDrawing = RoomDrawing {
    language: Language::English,
    title: "A drawing of the room …",
    title_why: "Makes a room of a drawing from another program (DXF), or lays it under the plan",
    file: "Drawing (DXF)",
    file_hint: "A DXF file in the text form, with its whole path or beside the bay; or drop it on the window",
    read: "Read it",
    look_for: "Look for a drawing …",
    being_read: "The drawing is being read …",
    being_made: "What comes of it is being worked out …",
    none_read: "Choose a DXF drawing, or drop one on the window. What comes of it is shown here, to scale, before anything is taken.",
    becomes: "What becomes of it",
    new_bay: "A new bay",
    new_bay_why: "A bay of its own, with the car that is shown. The bay that is open is not changed",
    this_room: "The room of this bay",
    this_room_why: "Room and walls become the drawing's; inner walls and things are added. What stands in the bay stays, and doors stay where \
                    the drawing has a wall",
    under_plan: "A picture under the plan",
    under_plan_why: "Its lines only, faded, to draw along: nothing in the bay changes",
    unit: "Drawn in",
    mm: "mm",
    cm: "cm",
    m: "m",
    inch: "inches",
    foot: "feet",
    no_unit: "The file does not say its unit: choose the one that makes the size right.",
    layers: "Layers",
    layers_hint: "Choose what each becomes",
    as_room: "room's outline",
    as_walls: "inner walls",
    as_things: "things",
    left_out: "left out",
    drawn: "drawn",
    stays: "stays as it is",
    closed: "gap closed",
    outline: "Which is the room?",
    outline_hint: "Of both faces of a wall the inner one is the room",
    gap: "Close gaps up to",
    gap_hint: "Between ends of lines that should meet",
    wall_thick: "Walls of one line",
    wall_thick_hint: "How thick an inner wall is taken that is drawn as one line",
    ceiling: "Clear height",
    ceiling_hint: "Under the ceiling: a drawing from above does not tell it",
    known_length: "Is the size right?",
    known_length_why: "Choose a wall that you taped and type its length: the drawing is scaled by it.",
    which_wall: "Wall",
    none: "none",
    is_long: "Its length",
    as_drawn: "Take the drawing's own size",
    comes_of_it: "What comes of it",
    not_read: "What could not be read",
    take: "Take it",
    no_size: "A length of more than nothing is needed.",
    no_room_layer: "Choose the layer with the room's outline.",
    too_far_apart: "What is chosen lies too far apart for one picture: leave out the layer that is far away.",
    preview: "What comes of the drawing",
    leave: "Leave",
};

pub fn as_file_says(unit: &str) -> String {
    format!("{unit}, as the file says")
}

pub fn size(width: f64, height: f64, locale: Locale) -> String {
    format!("All that is drawn is {} by {}.", locale.length(width), locale.length(height))
}

pub fn on_layer(lines: usize, notes: usize, is_hidden: bool) -> String {
    let mut parts = vec![if lines == 1 { "1 line".to_owned() } else { format!("{lines} lines") }];
    match notes {
        0 => {}
        1 => parts.push("1 note".to_owned()),
        _ => parts.push(format!("{notes} notes")),
    }
    if is_hidden {
        parts.push("switched off".to_owned());
    }
    parts.join(", ")
}

pub fn outline_of(number: usize, width: f64, height: f64, locale: Locale) -> String {
    format!("{number}: {} by {}", locale.bare(width), locale.length(height))
}

pub fn scaled(by: &str) -> String {
    format!("All is drawn {by} times as large as the file has it, by the length that was typed.")
}

pub fn moved_to_bay() -> String {
    "The drawing lies elsewhere than this bay: it was moved to the bay's corner.".to_owned()
}

pub fn doors_lost(names: &[&str]) -> String {
    format!("In no wall of the drawing, and left out: {}. Enter them anew where they are.", names.join(", "))
}

pub fn picture_written(file: &str) -> String {
    format!("The drawing lies under the plan, as a picture: {file}")
}

pub fn taken(walls: usize, things: usize, lost: &[&str]) -> String {
    let walls = if walls == 1 { "1 wall".to_owned() } else { format!("{walls} walls") };
    let things = if things == 1 { "1 thing".to_owned() } else { format!("{things} things") };
    let taken = format!("Taken from the drawing: {walls}, {things}.");
    match lost {
        [] => format!("{taken} Tape what matters, then enter doors and heights."),
        lost => format!("{taken} {}", doors_lost(lost)),
    }
}

pub fn ceiling_taken(mm: f64, locale: Locale) -> String {
    format!("A drawing from above tells no ceiling: {} is taken until you type it.", locale.length(mm))
}

pub fn and_more(count: usize) -> String {
    format!("and {count} more")
}

pub fn from_to(least: f64, most: f64, locale: Locale) -> String {
    format!("Allowed are {} to {}.", locale.bare(least), locale.length(most))
}
