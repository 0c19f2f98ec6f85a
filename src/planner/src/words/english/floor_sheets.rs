//! English of the same: see `words/floor_sheets.rs`.

use super::Language;
use crate::words::floor_sheets::FloorTexts;

/// The fixed texts.
pub const TEXTS: FloorTexts = FloorTexts {
    language: Language::English,
    paint: "Floor plan: lines and marks",
    concrete: "Floor plan: concrete",
    electric: "Floor plan: electrical",
    running: "Figures along a wall run on from the 0 at the ring. Never add them up.",
    number: "No.",
    what: "What",
    name: "Name",
    starts: "Starts",
    ends: "Ends",
    wall: "Wall",
    bottom: "Lower edge",
    top: "Upper edge",
    level: "Level",
    proud: "Above floor",
    survey: "Surveyed",
    openings: "Doors, windows and gaps, each along its wall from the left end as seen from inside",
    points: "Points, square from two walls",
    corners: "Lines and areas, corner by corner",
    no_points: "No permanent point is entered, and this set-up has no mark to lay.",
    colours: "Line colours: none entered. Agree on them with the owner.",
    may_reach: "A keep-clear zone is drawn as far as the walls; its corners are listed where they lie, even outside.",
    fixed: "Columns and fixed things",
    asked_floor: "What the floor must be",
    not_asked: "This procedure's floor limit is not entered. Get it from the vehicle maker's procedure before you pour or grind.",
    in_millimetres: "Levels, what they may differ by and shims are in millimetres: a sixteenth of an inch is too coarse for them.",
    level_marks: "Levels as surveyed, against the bay's zero",
    not_surveyed: "The floor was not surveyed: no level is known.",
    undated: "The day of the survey is not entered.",
    is_surveyed: "yes",
    is_not_surveyed: "no",
    in_floor: "Drains, pits, joints",
    runways: "Raised runways",
    found_of_floor: "What is not known or not right",
    concrete_caution: "The local building code and whoever it licenses decide. Find buried pipes, cables and heating before you \
                       cut. Cover or fence an open pit. Drain falls belong outside the area that must be level.",
    sockets: "Sockets",
    no_sockets: "None entered: a layout has no sockets. Mark them on this sheet by hand.",
    lights: "Lights",
    hanging: "What else hangs or is fixed",
    panels: "To stay clear before panels",
    asked_light: "To be met before this aiming, as entered",
    none: "None entered.",
    electric_caution: "The local electrical code and a licensed electrician decide clearances, circuits and fittings. Switch off, \
                       lock out and test before you touch. Lights and steel must stay out of the keep-clear zones.",
    paint_caution: "Tape every point from both walls before you paint. Lay this set-up's marks anew from the car: they hold for \
                    a car parked as drawn.",
    revisions: "Revisions",
    revisions_about: "The layout keeps no list of revisions: write them in.",
    revision: "Rev.",
    day: "Date",
    changed: "What was changed",
    by: "By",
    where_from: "Where the figures come from",
};

pub fn from_wall(wall: &str) -> String {
    format!("From {wall}")
}

pub fn permanent(number: usize) -> String {
    format!("P{number}")
}

pub fn surveyed(number: usize, level: &str) -> String {
    format!("{number}: {level}")
}

pub fn mark(number: usize) -> String {
    format!("mark {number} of this set-up")
}

pub fn corner(of: &str, number: usize) -> String {
    format!("{of}, corner {number}")
}

pub fn axis_end(is_ahead: bool) -> String {
    if is_ahead { "middle line, at the wall ahead" } else { "middle line, at the wall behind" }.to_owned()
}

pub fn from_to(from: &str, to: &str) -> String {
    format!("{from} to {to}")
}

pub fn floor_limit(level: &str) -> String {
    format!(
        "Under the wheels and the targets the highest and the lowest point may differ by {level} at most."
    )
}

pub fn floor_area(walls: [&str; 2], first: [&str; 2], second: [&str; 2]) -> String {
    let one = |wall: &str, [from, to]: [&str; 2]| format!("{from} to {to} from {wall}");
    let [a, b] = walls;
    format!("As this set-up has them, they lie within {} and {}.", one(a, first), one(b, second))
}

pub fn floor_fall(over: &str, one_in: &str) -> String {
    format!("Across that area, {over} corner to corner, an even fall would be 1 in {one_in} at most.")
}

pub fn tilt(pitch: Option<&str>, roll: Option<&str>) -> String {
    let pitch = pitch.map(|most| format!("{most} nose up or down"));
    let roll = roll.map(|most| format!("{most} to either side"));
    let both: Vec<String> = pitch.into_iter().chain(roll).collect();
    format!("The car on its wheels may stand tilted by {} at most.", both.join(" and "))
}

pub fn levels(count: usize, (high, highest): (usize, &str), (low, lowest): (usize, &str)) -> String {
    if count == 1 {
        return format!("One level: {highest}. What lies between needs more points.");
    }
    format!("{count} levels: the highest {highest} at no. {high}, the lowest {lowest} at no. {low}.")
}

pub fn levels_from(provenance: &str, taken: Option<&str>) -> String {
    match taken {
        Some(day) => format!("Levels: {provenance}; taken {day}."),
        None => format!("Levels: {provenance}."),
    }
}

pub fn ceiling(height: &str) -> String {
    format!("Clear height under the ceiling: {height}.")
}

pub fn room_from(provenance: &str, known: &str) -> String {
    format!("The room: {provenance}. Its walls: {known}.")
}

pub fn left_out(count: usize) -> String {
    if count == 1 {
        return "One figure had no room beside the plan; the tables have it.".to_owned();
    }
    format!("{count} figures had no room beside the plan; the tables have them.")
}

pub fn more_corners(count: usize) -> String {
    format!("{count} more corners of rounded edges: take them from the drawing.")
}

pub fn described(sheet: &str, bay: &str, scale: &str) -> String {
    format!(
        "{sheet} of {bay} from above, scale {scale}: the walls, what is in them, and what this trade is to do."
    )
}
