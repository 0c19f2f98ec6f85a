//! Texts of the forms in which a room and what belongs to it are entered.

use super::Language;
use crate::model::{FloorFeatureKind, KeepFreeKind, Known, OpeningKind};

texts! {
    Rooms, "Every fixed text of the forms for a bay.";
    new_bay, "Begins a bay.": "Draw a new bay …";
    new_bay_title, "A page.": "A new bay";
    room, "The room itself, in the list.": "Room";
    name_of_bay, "A field.": "Name of the bay";
    ceiling, "A figure.": "Clear height";
    ceiling_hint, "What it is.": "Under the ceiling; a low beam or duct is a thing of its own";
    walls_known, "A choice.": "Walls are";
    corners, "A list of points.": "Corners";
    corners_hint, "How it is typed.": "One corner a line: along, up the paper, in mm. Or drag them in the top view";
    wall, "A wall.": "Wall";
    wall_length, "A figure.": "Length";
    wall_length_hint, "What it is.": "Typed, its second corner moves along it";
    push, "A figure.": "Push into the room";
    push_hint, "What it is.": "Both its corners move square to it; negative: outwards";
    alcove, "A part of the form.": "Alcove or pier";
    alcove_from, "A figure.": "From its start";
    alcove_width, "A figure.": "Wide";
    alcove_depth, "A figure.": "Deep";
    alcove_depth_hint, "What it is.": "Outwards; negative: a pier into the room";
    build, "Builds it.": "Build it";
    remove_corner, "Takes a corner away.": "Remove its first corner";
    material, "A choice.": "Made of";
    name, "A field.": "Name";
    opening, "A choice.": "What it is";
    in_wall, "A choice.": "In the wall";
    from_corner_hint, "What it is.": "Along its own wall, from the corner with this one";
    width, "A figure.": "Width";
    bottom, "A figure.": "From above floor";
    top, "A figure.": "Up to";
    beyond, "A figure.": "Free beyond";
    beyond_hint, "What it is.": "How far the ground beyond it is free and level; 0 if not known";
    is_exit, "A tick.": "A way out in an emergency";
    stands, "A choice.": "Stands";
    open, "A choice.": "open";
    shut, "A choice.": "shut";
    kind, "A choice.": "What it is";
    from_x, "A figure.": "From, along";
    to_x, "A figure.": "To, along";
    from_y, "A figure.": "From, across";
    to_y, "A figure.": "To, across";
    area_hint, "What it is.": "From the room's corner, along and across the room";
    height, "A figure.": "Height";
    carries, "A tick.": "The car stands on it";
    remove, "Takes it away.": "Remove";
    draw_it, "Draws it with the pointer.": "Draw it";
    levels, "A list.": "Floor levels";
    levels_hint, "How they are typed.":
        "One a line: along, across, level in mm. Empty: not surveyed";
    surveyed_on, "A field.": "Surveyed on";
    not_levels, "Said of what is no list of levels.": "One level a line, three numbers each, such as 850, 1500, -2.5.";
    picture, "A part of the form.": "Picture of a plan";
    picture_file, "A field.": "Picture";
    picture_file_hint, "What it is.": "A PNG or JPEG file, beside the bay's own file or with its whole path. Empty: none";
    reading_picture, "While it is read.": "The picture is being read …";
    scale_picture, "Begins to scale it.": "Scale by two points";
    scale_picture_why, "What it does.": "Press on two points in the top view whose distance you know, then type it";
    scaling_now, "While points are pressed.": "Press on a point of the picture whose distance to another you know, then on the other. Esc: not now.";
    apart, "A figure.": "They are apart";
    apart_hint, "What it is.": "The distance between the two points, as taped or as written on the plan";
    mm_per_px, "A figure.": "mm for each pixel";
    picture_at_hint, "What it is.": "Where its lower left corner lies in the bay";
    picture_turned, "An angle.": "Turned to the left by";
    faded, "A share.": "Faded, %";
    faded_hint, "What it is.": "0: as it is; 100: not seen";
    // What can be added.
    roller_door, "Adds one.": "roller door";
    swing_door, "Adds one.": "swing door";
    window, "Adds one.": "window";
    gap, "Adds one.": "opening without a door";
    drain, "Adds one.": "drain";
    pit, "Adds one.": "pit";
    joint, "Adds one.": "joint";
    runway, "Adds one.": "runway";
    keep_exit, "Adds one.": "space before a way out";
    keep_panel, "Adds one.": "space before a panel";
    low_ceiling, "Adds one.": "low ceiling";
    keep_extinguisher, "Adds one.": "space before an extinguisher";
    // A room that is taped.
    rectangle, "A way to enter it.": "A rectangle";
    taped, "A way to enter it.": "Wall by wall";
    length, "A figure.": "Length";
    across, "A figure.": "Width";
    taped_about, "How it is done.":
        "Start in a corner and keep the room on your left. For each wall its length, and how far you turn left at its end: \
         90 at an ordinary corner, -90 where the wall sticks out into the room.";
    turn, "A column.": "turn left, °";
    wall_name, "A column.": "name";
    add_wall, "Adds a row.": "One more wall";
    closes, "Said of a walk without a gap.": "It closes.";
    spread, "A tick.": "Spread what is left over all walls, by their lengths";
    spread_why, "What it does.":
        "The compass rule of land surveying: each wall takes its share of the gap by its length. Right if all were taped equally well";
    use_it, "Takes an explanation.": "Use it";
    decide, "Why it cannot be made yet.": "Measure the wall in question again, take an explanation, or tick that what is left is to be spread.";
    begin_anew, "Empties the fields.": "Begin anew";
    go_on, "Said while walls are typed.": "Go on with the next wall.";
    within_tape, "Said of a small gap.": "That is what a tape does; it is spread over all walls by their lengths.";
    begin_here, "At the first corner of a sketch.": "start";
    make_it, "Makes the bay.": "Make this bay";
    turns_wrong, "Said of turns that do not go round.": "The turns do not make one full round:";
    no_room, "Why it cannot be made.": "These walls make no room: they cross, or two corners fall together.";
    needs_three, "Why it cannot be made.": "A room has three walls or more.";
    my_bay, "What a new bay is called.": "My bay";
    first_arrangement, "What its arrangement is called.": "As planned";
    alcove_too_long, "Why it was not built.": "It does not fit into this wall beside what is in it.";
    corner_in_use, "Why it was not removed.": "A door or window is in this wall; move it first.";
    crossing, "Why it was not changed.": "The walls would cross.";
    // Placing a thing by tape.
    by_tape, "A part of the form.": "Place it by tape";
    two_points, "A way.": "from two points";
    wall_and_corner, "A way.": "from a wall and a corner";
    from_wheel, "A way.": "from a wheel";
    first_point, "A choice.": "From";
    second_point, "A choice.": "And from";
    distance, "A figure.": "Distance";
    which_place, "Over the two places.": "Two places fit. Which one?";
    ahead, "A figure.": "Ahead";
    ahead_hint, "What it is.": "Along the car, from the wheel's middle; negative: behind";
    aside, "A figure.": "Aside";
    aside_hint, "What it is.": "Away from the car, from the wheel's middle";
    from_the_wall, "A figure.": "From the wall";
    along_the_wall, "A figure.": "Along it, from its corner";
    measured_to, "A choice.": "To its";
    middle, "A point.": "middle";
    nearest_side, "A point.": "nearest side";
    put_there, "Puts it there.": "Put it there";
    left_place, "One of two places.": "The left one";
    right_place, "One of two places.": "The right one";
}

impl Language {
    /// The texts of the forms for a bay.
    pub const fn rooms(self) -> &'static Rooms {
        match self {
            Self::English => &ENGLISH,
        }
    }
}

impl Rooms {
    /// What closes an opening.
    pub const fn opening_of(&self, kind: OpeningKind) -> &'static str {
        match kind {
            OpeningKind::RollerDoor => self.roller_door,
            OpeningKind::SwingDoor => self.swing_door,
            OpeningKind::Window => self.window,
            OpeningKind::Gap => self.gap,
        }
    }

    /// A place in the floor.
    pub const fn feature_of(&self, kind: FloorFeatureKind) -> &'static str {
        match kind {
            FloorFeatureKind::Drain => self.drain,
            FloorFeatureKind::Pit => self.pit,
            FloorFeatureKind::Joint => self.joint,
        }
    }

    /// What is kept free.
    pub const fn kept_free(&self, kind: KeepFreeKind) -> &'static str {
        match kind {
            KeepFreeKind::Exit => self.keep_exit,
            KeepFreeKind::Panel => self.keep_panel,
            KeepFreeKind::Extinguisher => self.keep_extinguisher,
        }
    }

    /// How well walls are known.
    pub const fn known(&self, known: Known) -> &'static str {
        match known {
            Known::Taped => "taped",
            Known::ByEye => "paced or by eye",
            Known::Within(_) => "known otherwise",
        }
    }

    /// What a walk round the room left open.
    pub fn gap_of(&self, gap: &str, share: f64) -> String {
        format!("The last wall ends {gap} from where you began: 1 in {share:.0} of the way round.")
    }

    /// Walls that do not come round yet.
    pub fn still_open(&self, gap: &str) -> String {
        format!("It is {gap} from here to the start.")
    }

    /// A wall that alone would explain it.
    pub fn explains(&self, wall: &str, taped: &str, would_be: &str) -> String {
        format!("{wall} alone would explain it: {would_be} instead of {taped}.")
    }

    /// A corner that alone would explain it.
    pub fn explains_turn(&self, wall: &str, would_be: &str) -> String {
        format!("The corner after {wall} alone would explain it: a turn of {would_be}.")
    }

    /// Tapes that do not meet.
    pub fn too_short(&self, by: &str) -> String {
        format!("The two tapes do not meet: {by} is missing.")
    }

    /// A tape that is too long.
    pub fn too_long(&self, by: &str) -> String {
        format!("One tape is {by} too long for the other to reach its end.")
    }

    /// A corner of the room.
    pub fn corner(&self, wall: &str, next: &str) -> String {
        format!("corner of {wall} and {next}")
    }

    /// A floor mark.
    pub fn mark(&self, name: &str) -> String {
        format!("mark {name}")
    }

    /// A wheel.
    pub fn wheel(&self, name: &str) -> String {
        format!("middle of the {name} wheel")
    }
}
