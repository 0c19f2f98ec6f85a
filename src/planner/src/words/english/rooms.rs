//! English of the same: see `words/rooms.rs`.

use super::faults::{allowed, found};
use super::{Language, sentence_start};

pub fn corners_hint(units: Units) -> String {
    let two = two_lengths(units);
    format!(
        "One corner a line: along, up the paper, {two}, or with its own unit. Or drag them in the top view"
    )
}

pub fn removed_from_every(things: &[&str]) -> String {
    match things {
        [one] => format!(
            "{} was a part of the building: it is removed from every set-up.",
            sentence_start(&the(&Id::from(*one)))
        ),
        _ => format!("Parts of the building are removed from every set-up: {}.", things.join(", ")),
    }
}

pub fn now_built(thing: &str, otherwise: &[&str]) -> String {
    let thing = sentence_start(&the(&Id::from(thing)));
    match otherwise {
        [] => format!("{thing} is a part of the building now: it is in every set-up, where it stands here."),
        _ => format!(
            "{thing} is a part of the building now: it is in every set-up, where it stands here. It was elsewhere, away or told \
             otherwise in {}; undo brings that back.",
            otherwise.join(", ")
        ),
    }
}

pub fn levels_hint(units: Units) -> String {
    let three = three_lengths(units);
    format!(
        "One a line: along, across, level, {three}, or with its own unit; or a floor mark, by name or number, and its level. A \
         table can be pasted. Empty: not surveyed"
    )
}

/// How a place and its level are typed, and what a bare number is.
pub(super) const fn three_lengths(units: Units) -> &'static str {
    match units {
        Units::Millimetres => "in mm, such as 850; 1500; -2.5",
        Units::Metres => "in m, such as 0.85; 1.5; -0.0025",
        Units::FeetInches => "in inches, such as 2' 9 1/2\"; 4' 11\"; -1/8\"",
    }
}

/// How two lengths are typed, and what a bare number is.
pub(super) const fn two_lengths(units: Units) -> &'static str {
    match units {
        Units::Millimetres => "in mm, such as 850, 1250",
        Units::Metres => "in m, such as 0.85; 1.25",
        Units::FeetInches => "in inches, such as 2' 9 1/2\"; 4' 1 1/4\"",
    }
}
use super::names::the;
use crate::model::fault::Fault;
use crate::model::{AlcovePart, Id, Known};
use crate::words::rooms::Rooms;
use crate::words::{Lengths, Units};

/// The fixed texts.
pub const TEXTS: Rooms = Rooms {
    language: Language::English,
    new_bay: "Draw a new bay …",
    new_bay_title: "A new bay",
    room: "Room",
    name_of_bay: "Name of the bay",
    ceiling: "Clear height",
    ceiling_hint: "Under the ceiling; a low beam or duct is a thing of its own",
    walls_known: "Walls are",
    corners: "Corners",
    wall: "Wall",
    wall_length: "Length",
    wall_length_hint: "Typed, the next wall moves on with it and right angles stay",
    corner_only: "Move only its corner: the next wall goes askew",
    push: "Push into the room",
    push_hint: "Both its corners move square to it; negative: outwards",
    alcove: "Alcove or pier",
    alcove_from: "From its start",
    alcove_width: "Wide",
    alcove_depth: "Deep",
    alcove_depth_hint: "Outwards; negative: a pier into the room",
    build: "Build it",
    remove_corner: "Remove its first corner",
    material: "Made of",
    name: "Name",
    opening: "What it is",
    in_wall: "In the wall",
    from_corner_hint: "Along its own wall, from the corner with this one",
    width: "Width",
    bottom: "From above floor",
    top: "Up to",
    beyond: "Free beyond",
    beyond_hint: "How far the ground beyond it is free and level; 0 if not known",
    keep_shut: "Keep it shut while this set-up is aimed",
    is_exit: "A way out in an emergency",
    stands: "Stands",
    open: "open",
    shut: "shut",
    kind: "What it is",
    from_x: "From, along",
    to_x: "To, along",
    from_y: "From, across",
    to_y: "To, across",
    area_hint: "From the room's corner, along and across the room",
    height: "Height",
    carries: "The car stands on it",
    proud: "Proud of the floor",
    proud_hint: "How far it stands above the floor; 0 if it is flush",
    remove: "Remove",
    draw_it: "Draw it",
    levels: "Floor levels",
    runway_levels: "Levels, against its height",
    surveyed_on: "Surveyed on",
    surveyed_today: "Today",
    surveyed_today_why: "The levels were taken today",
    picture: "Picture of a plan",
    picture_file: "Picture",
    picture_file_hint: "A PNG or JPEG file, beside the bay's own file or with its whole path. Empty: none",
    reading_picture: "The picture is being read …",
    move_picture: "Move the picture",
    move_picture_why: "Drag it in the top view; the round handle turns it, the square one sizes it. The corner with the dot stays",
    moving_now: "Drag the picture; the round handle turns it, the square one sizes it. Esc puts it back, then leaves it.",
    moving_now_short: "Drag the picture or a handle.",
    picture_whole: "the picture under the plan",
    picture_turns: "the handle that turns the picture",
    picture_sizes: "the handle that sizes the picture",
    scale_picture: "Scale by two points",
    scale_picture_why: "Press on two points in the top view whose distance you know, then type it",
    scaling_now: "Press on a point of the picture whose distance to another you know, then on the other. Esc: not now.",
    scaling_now_short: "Press on two points of it.",
    apart: "They are apart",
    apart_hint: "The distance between the two points, as taped or as written on the plan",
    mm_per_px: "mm for each pixel",
    picture_at_hint: "Where its lower left corner lies in the bay",
    picture_turned: "Turned to the left by",
    faded: "Faded, %",
    faded_hint: "0: as it is; 100: not seen",
    // Whose building it is.
    plan_building: "Plan the building for this set-up only",
    plan_building_why: "Walls, doors, floor and fixed things are then changed in this set-up alone; the bay keeps what it has",
    give_up_building: "Back to the bay's building",
    give_up_building_why: "Drops what was planned here of walls, doors, floor and fixed things; this can be undone",
    adopt_building: "Make it the bay's building",
    adopting_forgets: "Other set-ups say where a door, a runway or a thing is that this building does not have. Made the bay's, they forget it, and a car that stood on such a runway stands on the floor:",
    adopt_building_why: "Every set-up without a building of its own is then in this one; this can be undone",
    changes_own: "As planned: changed in this set-up alone. Floor levels and the bay's name are the bay's, here too.",
    changes_all: "The bay's: changed in every set-up.",
    changes_bays: "The bay's: changed in every set-up that has no building of its own.",
    thing_of_own: "It is in this set-up alone.",
    thing_planned: "Size and facts: changed in this set-up alone.",
    thing_built: "Part of the building: place, size and facts are the bay's, in every set-up.",
    thing_moved: "It stands here in this set-up alone. Size and facts: changed in the bay.",
    in_every: "In every set-up",
    in_every_why: "Puts it into the bay, as it stands here",
    place_in_every_why: "Makes this its place in the bay",
    no_floor_for_bay: "The room has no floor in which a bay would lie along its axes.",
    remove_built_of_several_why: "Take them out of this set-up (Delete); parts of the building leave every set-up",
    remove_built_why: "Take it out of the bay, in every set-up (Delete)",
    here_alone: "In this set-up alone",
    here_alone_why: "It leaves the bay and its other set-ups, and stays here",
    thing_of_bay: "Size and facts: changed in the bay.",
    // What can be added.
    roller_door: "roller door",
    swing_door: "swing door",
    window: "window",
    gap: "opening without a door",
    drain: "drain",
    pit: "pit",
    joint: "joint",
    runway: "runway",
    keep_exit: "space before a way out",
    keep_panel: "space before a panel",
    low_ceiling: "low ceiling",
    keep_extinguisher: "space before an extinguisher",
    hall_bay: "bay of this hall",
    hall_bay_name: "bay",
    // The bays of a hall.
    in_this_hall: "In this hall",
    bays_in_hall: "Bays in this hall",
    to_bay_why: "Shows what is set up in this bay",
    no_set_up: "Nothing is set up in this bay yet",
    hall_bay_of: "In which bay",
    no_bay: "none chosen",
    in_no_bay: "No bay chosen",
    keep_empty_of: "Kept empty while this is aimed",
    keep_empty: "Keep it empty while this set-up is aimed",
    made_in_it: "This set-up is made in this bay",
    made_here: "Also set up here",
    at_once_of: "At the same time, in other bays",
    at_once_why: "Each of the two is judged with the other's car and targets standing there",
    show_set_up: "Show that set-up",
    set_up_in_why: "A new set-up with this car and aiming, the car and its targets in the middle of the bay; this can be undone",
    // A room that is taped.
    rectangle: "A rectangle",
    taped: "Wall by wall",
    length: "Length",
    across: "Width",
    taped_about: "Start in a corner and keep the room on your left. For each wall its length, and how far you turn left at its end: \
         90 at an ordinary corner, -90 where the wall sticks out into the room.",
    turn: "turn left, °",
    wall_name: "name",
    add_wall: "One more wall",
    closes: "It closes.",
    spread: "Spread what is left over all walls, by their lengths",
    spread_why: "The compass rule of land surveying: each wall takes its share of the gap by its length. Right if all were taped equally well",
    use_it: "Use it",
    decide: "Measure the wall in question again, take an explanation, or tick that what is left is to be spread.",
    begin_anew: "Begin anew",
    go_on: "Go on with the next wall.",
    within_tape: "That is what a tape does; it is spread over all walls by their lengths.",
    begin_here: "start",
    make_it: "Make this bay",
    turns_wrong: "The turns do not make one full round:",
    other_order: "Type the corners in the order in which they stood here: anticlockwise, from the same one on. Each wall keeps its name, its material and its openings by that.",
    other_count: "A room keeps its number of corners here: build an alcove into a wall, take a corner away, or make the bay anew.",
    no_room: "These walls make no room: they cross, or two corners fall together.",
    needs_three: "A room has three walls or more.",
    my_bay: "My bay",
    first_arrangement: "As planned",
    alcove_too_long: "It does not fit into this wall beside what is in it.",
    corner_in_use: "A door or window is in this wall; move it first.",
    crossing: "The walls would cross.",
    // Placing a thing by tape.
    by_tape: "Place it by tape",
    two_points: "from two points",
    wall_and_corner: "from a wall and a corner",
    from_wheel: "from a wheel",
    first_point: "From",
    second_point: "And from",
    distance: "Distance",
    which_place: "Two places fit. Which one?",
    ahead: "Ahead",
    ahead_hint: "Along the car, from the wheel's middle; negative: behind",
    aside: "Aside",
    aside_hint: "Away from the car, from the wheel's middle",
    from_the_wall: "From the wall",
    along_the_wall: "Along it, from its corner",
    measured_to: "To its",
    middle: "middle",
    nearest_side: "nearest side",
    put_there: "Put it there",
    left_place: "The left one",
    right_place: "The right one",
};

pub const fn known(known: Known) -> &'static str {
    match known {
        Known::Taped => "taped",
        Known::ByEye => "paced or by eye",
        Known::ByEyeOlder => "by eye under an older rule",
        Known::Within(_) => "known otherwise",
    }
}

pub fn not_made(fault: &Fault, lengths: Lengths) -> String {
    let found = crate::words::sentence_start(&found(fault, lengths));
    format!("{found} is not possible; allowed is {}.", allowed(&fault.allowed, lengths))
}

pub fn turns_make(sum: &str) -> String {
    format!("{} {sum}", TEXTS.turns_wrong)
}

pub fn gap_of(gap: &str, share: f64) -> String {
    format!("The last wall ends {gap} from where you began: 1 in {share:.0} of the way round.")
}

pub fn still_open(gap: &str) -> String {
    format!("It is {gap} from here to the start.")
}

pub fn explains(wall: &str, taped: &str, would_be: &str) -> String {
    format!("{wall} alone would explain it: {would_be} instead of {taped}.")
}

pub fn explains_turn(wall: &str, would_be: &str) -> String {
    format!("The corner after {wall} alone would explain it: a turn of {would_be}.")
}

pub fn too_short(by: &str) -> String {
    format!("The two tapes do not meet: {by} is missing.")
}

pub fn too_long(by: &str) -> String {
    format!("One tape is {by} too long for the other to reach its end.")
}

pub fn corner(wall: &str, next: &str) -> String {
    format!("corner of {wall} and {next}")
}

pub fn mark(name: &str) -> String {
    format!("mark {name}")
}

pub fn wheel(name: &str) -> String {
    format!("middle of the {name} wheel")
}

pub fn nth_wall(number: usize) -> String {
    format!("wall {number}")
}

pub fn to_bay(bay: &str) -> String {
    format!("Go to {}", the(&bay.into()))
}

pub fn stands_for(set_up: &str) -> String {
    format!("Stands here for “{set_up}”, which is done at the same time. It is moved there.")
}

pub fn at_once(set_up: &str, bay: &str) -> String {
    format!("{set_up} ({bay})")
}

pub fn set_up_in(bay: &str) -> String {
    format!("Set up in {}", the(&bay.into()))
}

pub fn set_up_of(bay: &str) -> String {
    format!("In {}", the(&bay.into()))
}

pub fn alcove_part(wall: &str, part: AlcovePart) -> String {
    match part {
        AlcovePart::Side => format!("{wall} alcove, side"),
        AlcovePart::Back => format!("{wall} alcove, back"),
        AlcovePart::OtherSide => format!("{wall} alcove, other side"),
        AlcovePart::Beyond => format!("{wall} beyond alcove"),
    }
}
