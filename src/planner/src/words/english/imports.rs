//! English of the same: see `words/imports.rs`.

use super::Language;
use crate::geometry::DVec2;
use crate::model::fault::LeftOut;
use crate::words::Lengths;
use crate::words::imports::{Imports, own, tenth};

/// The fixed texts.
pub const TEXTS: Imports = Imports {
    language: Language::English,
    unit_mm: "millimetres",
    unit_cm: "centimetres",
    unit_m: "metres",
    unit_in: "inches",
    unit_ft: "feet",
    choose_layers: "To make a bay of it, name the layer of the room's outline with --room, inner walls with --walls, things with \
                    --things, and the file to write with -o.",
    solid_and_by_eye: "Walls and things are taken as solid from the floor to the ceiling, of unknown material, placed by eye. \
                       Tape what matters, enter doors, heights and what things are made of, then check.",
    no_layers: "Nothing is drawn in it that is read.",
    set_up: "As drawn",
};

pub fn drawn_in(file: &str, unit: Option<&str>) -> String {
    match unit {
        Some(unit) => format!("{file}: drawn in {unit}."),
        None => format!("{file}: it does not say in which unit it is drawn; give it with --units."),
    }
}

pub fn layer(lines: usize, notes: usize, reach: Option<(DVec2, DVec2)>, is_hidden: bool) -> String {
    let mut parts = vec![counted(lines, "line or arc", "lines and arcs")];
    if notes > 0 {
        parts.push(counted(notes, "note", "notes"));
    }
    if let Some((low, high)) = reach {
        let (size, [w, h, x, y]) = (high - low, ["by", "from", "along", "across"]);
        parts.push(format!(
            "{} {w} {}, {h} {} {x}, {} {y}",
            own(size.x),
            own(size.y),
            own(low.x),
            own(low.y)
        ));
    }
    if is_hidden {
        parts.push("switched off in the drawing".to_owned());
    }
    parts.join(", ")
}

fn counted(count: usize, one: &str, more: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {more}") }
}

pub fn left_out(kind: Option<&str>, why: LeftOut, count: usize, lines: &[u32]) -> String {
    let kind = kind.unwrap_or("others");
    let why = match why {
        LeftOut::Kind => "of a kind that is not read",
        LeftOut::OnPaper => "on a sheet of paper, not in the building",
        LeftOut::Tilted => "in a plane that is not level",
        LeftOut::NoBlock => "of a block that is not in the file",
        LeftOut::TooDeep => "of blocks too deep in one another, or in themselves",
        LeftOut::Damaged => "with a figure missing or no number",
    };
    let told: Vec<String> = lines.iter().map(ToString::to_string).collect();
    let places = match (told.len(), count > told.len()) {
        (_, true) => format!("the first in lines {}", told.join(", ")),
        (1, false) => format!("line {}", told.join(", ")),
        (_, false) => format!("lines {}", told.join(", ")),
    };
    format!("Not read: {count} × {kind}, {why} ({places}).")
}

pub fn made(walls: usize, things: usize) -> String {
    format!(
        "A room of {}, with {} in it.",
        counted(walls, "wall", "walls"),
        counted(things, "inner wall or thing", "inner walls and things")
    )
}

fn at(place: DVec2, lengths: Lengths) -> String {
    format!("{} along, {} across", tenth(place.x, lengths), tenth(place.y, lengths))
}

pub fn closed(size_mm: f64, place: DVec2, lengths: Lengths) -> String {
    format!("Closed a gap of {}, at {}.", tenth(size_mm, lengths), at(place, lengths))
}

pub fn closed_more(count: usize) -> String {
    format!("Closed {} more, none larger than what was allowed.", counted(count, "gap", "gaps"))
}

pub fn moved(by: DVec2, lengths: Lengths) -> String {
    format!("The room lies far from the drawing's origin: all was moved by {}.", at(by, lengths))
}

pub fn other_unit(asked: &str, own: &str) -> String {
    format!("The drawing says that it is in {own}; it is read in {asked}, as asked for.")
}

pub fn ceiling_taken(height: f64, lengths: Lengths) -> String {
    format!(
        "A drawing from above tells no ceiling: {} is taken; measure it, and give it with --ceiling.",
        tenth(height, lengths)
    )
}

pub fn thickened(count: usize, thickness: f64, lengths: Lengths) -> String {
    format!(
        "{} drawn as one line, and taken {} thick.",
        counted(count, "stretch of inner wall is", "stretches of inner walls are"),
        tenth(thickness, lengths)
    )
}

pub fn by_hull(count: usize) -> String {
    let go = counted(count, "block encloses nothing, and is", "blocks enclose nothing, and are");
    format!("{go} taken with all that is drawn round about.")
}

pub fn inside_others(count: usize) -> String {
    format!("Left out {} inside of others.", counted(count, "outline", "outlines"))
}

pub fn outside(count: usize) -> String {
    format!("Left out {} outside of the room.", counted(count, "outline", "outlines"))
}

pub fn unclosed(count: usize) -> String {
    format!(
        "Left out {} of things that enclose nothing: see whether something is missing.",
        counted(count, "line", "lines")
    )
}

pub fn not_used(layers: &[&str]) -> String {
    format!(
        "Not used: what is on the layers {}. See whether any of it stands in the room.",
        layers.join(", ")
    )
}

pub fn set_up_with(car: &str, aiming: &str) -> String {
    format!("The first set-up is with {car}, {aiming}: choose your own.")
}

pub fn inner_wall(number: usize) -> String {
    format!("inner wall {number}")
}

pub fn thing(number: usize) -> String {
    format!("thing {number}")
}
