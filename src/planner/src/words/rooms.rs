//! Texts of the forms in which a room and what belongs to it are entered.

use super::{Lengths, Units};
use crate::model::fault::Fault;
use crate::model::{AlcovePart, FloorFeatureKind, KeepFreeKind, Known, OpeningKind};

texts! {
    rooms: Rooms, "Every fixed text of the forms for a bay.";
    new_bay, "Begins a bay.";
    new_bay_title, "A page.";
    room, "The room itself, in the list.";
    name_of_bay, "A field.";
    ceiling, "A figure.";
    ceiling_hint, "What it is.";
    walls_known, "A choice.";
    corners, "A list of points.";
    wall, "A wall.";
    wall_length, "A figure.";
    wall_length_hint, "What it is.";
    corner_only, "A tick: how the length is meant.";
    push, "A figure.";
    push_hint, "What it is.";
    alcove, "A part of the form.";
    alcove_from, "A figure.";
    alcove_width, "A figure.";
    alcove_depth, "A figure.";
    alcove_depth_hint, "What it is.";
    build, "Builds it.";
    remove_corner, "Takes a corner away.";
    material, "A choice.";
    name, "A field.";
    opening, "A choice.";
    in_wall, "A choice.";
    from_corner_hint, "What it is.";
    width, "A figure.";
    bottom, "A figure.";
    top, "A figure.";
    beyond, "A figure.";
    beyond_hint, "What it is.";
    keep_shut, "A tick.";
    is_exit, "A tick.";
    stands, "A choice.";
    open, "A choice.";
    shut, "A choice.";
    kind, "A choice.";
    from_x, "A figure.";
    to_x, "A figure.";
    from_y, "A figure.";
    to_y, "A figure.";
    area_hint, "What it is.";
    height, "A figure.";
    carries, "A tick.";
    proud, "A figure.";
    proud_hint, "What it is.";
    remove, "Takes it away.";
    draw_it, "Draws it with the pointer.";
    levels, "A list.";
    runway_levels, "A heading.";
    surveyed_on, "A field.";
    surveyed_today, "Says that the levels were taken today.";
    surveyed_today_why, "What that does.";
    picture, "A part of the form.";
    picture_file, "A field.";
    picture_file_hint, "What it is.";
    reading_picture, "While it is read.";
    move_picture, "Begins to move it by hand.";
    move_picture_why, "What it does.";
    moving_now, "While it can be moved.";
    moving_now_short, "The same where there is little room.";
    picture_whole, "The picture on the drawing, while it can be moved.";
    picture_turns, "Its handle that turns it.";
    picture_sizes, "Its handle that sizes it.";
    scale_picture, "Begins to scale it.";
    scale_picture_why, "What it does.";
    scaling_now, "While points are pressed.";
    scaling_now_short, "The same where there is little room.";
    apart, "A figure.";
    apart_hint, "What it is.";
    mm_per_px, "A figure.";
    picture_at_hint, "What it is.";
    picture_turned, "An angle.";
    faded, "A share.";
    faded_hint, "What it is.";
    // Whose building it is.
    plan_building, "Gives the arrangement its own building.";
    plan_building_why, "What that does.";
    give_up_building, "Takes it back.";
    give_up_building_why, "What that does.";
    adopt_building, "Makes it the bay's.";
    adopt_building_why, "What that does.";
    adopting_forgets, "Asked before other arrangements lose something by it.";
    changes_own, "Over a form of the own building.";
    changes_all, "Over a form of the bay's, where no arrangement has its own.";
    changes_bays, "Over a form of the bay's.";
    thing_of_own, "Over the size of a thing.";
    thing_planned, "Over the size of a thing in an arrangement with a building of its own.";
    thing_built, "Over the size of a thing that is fixed.";
    thing_moved, "Over the size of a thing that stands elsewhere in this arrangement.";
    in_every, "Makes it so in every arrangement.";
    in_every_why, "What that does to a thing of one arrangement.";
    place_in_every_why, "What that does to a thing that was moved.";
    no_floor_for_bay, "Why a bay of the hall was not put there.";
    remove_built_of_several_why, "The same of several things, one of them a part of the building.";
    remove_built_why, "What taking away a part of the building does.";
    here_alone, "Leaves a thing to this arrangement.";
    here_alone_why, "What that does.";
    thing_of_bay, "Over the size of a thing.";
    // What can be added.
    roller_door, "Adds one.";
    swing_door, "Adds one.";
    window, "Adds one.";
    gap, "Adds one.";
    drain, "Adds one.";
    pit, "Adds one.";
    joint, "Adds one.";
    runway, "Adds one.";
    keep_exit, "Adds one.";
    keep_panel, "Adds one.";
    low_ceiling, "Adds one.";
    keep_extinguisher, "Adds one.";
    hall_bay, "Adds one.";
    hall_bay_name, "What one is called, before its number.";
    // The bays of a hall.
    in_this_hall, "Over the list of things, where the room is a hall.";
    bays_in_hall, "Over the bays.";
    to_bay_why, "What a press on one does.";
    no_set_up, "The same of one without arrangements.";
    hall_bay_of, "A choice: the bay that an arrangement is made in.";
    no_bay, "None of them.";
    in_no_bay, "Over the arrangements that are made in none.";
    keep_empty_of, "Over ticks: the other bays.";
    keep_empty, "A tick.";
    made_in_it, "A tick.";
    made_here, "Over the arrangements that are made in a bay.";
    set_up_in_why, "What that does.";
    at_once_of, "Over ticks: the arrangements that may be done at the same time in other bays.";
    at_once_why, "What a tick says.";
    show_set_up, "A press: shows another arrangement.";
    // A room that is taped.
    rectangle, "A way to enter it.";
    taped, "A way to enter it.";
    length, "A figure.";
    across, "A figure.";
    taped_about, "How it is done.";
    turn, "A column.";
    wall_name, "A column.";
    add_wall, "Adds a row.";
    closes, "Said of a walk without a gap.";
    spread, "A tick.";
    spread_why, "What it does.";
    use_it, "Takes an explanation.";
    decide, "Why it cannot be made yet.";
    begin_anew, "Empties the fields.";
    go_on, "Said while walls are typed.";
    within_tape, "Said of a small gap.";
    begin_here, "At the first corner of a sketch.";
    make_it, "Makes the bay.";
    turns_wrong, "Said of turns that do not go round.";
    no_room, "Why it cannot be made.";
    other_order, "Why corners in another order are not taken.";
    other_count, "Why more or fewer corners are not taken.";
    needs_three, "Why it cannot be made.";
    my_bay, "What a new bay is called.";
    first_arrangement, "What its arrangement is called.";
    alcove_too_long, "Why it was not built.";
    corner_in_use, "Why it was not removed.";
    crossing, "Why it was not changed.";
    // Placing a thing by tape.
    by_tape, "A part of the form.";
    two_points, "A way.";
    wall_and_corner, "A way.";
    from_wheel, "A way.";
    first_point, "A choice.";
    second_point, "A choice.";
    distance, "A figure.";
    which_place, "Over the two places.";
    ahead, "A figure.";
    ahead_hint, "What it is.";
    aside, "A figure.";
    aside_hint, "What it is.";
    from_the_wall, "A figure.";
    along_the_wall, "A figure.";
    measured_to, "A choice.";
    middle, "A point.";
    nearest_side, "A point.";
    put_there, "Puts it there.";
    left_place, "One of two places.";
    right_place, "One of two places.";
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

    sentences! { rooms:
        /// How a list of corners is typed, and in which unit a bare number is.
        corners_hint(units: Units) -> String;
        /// The same of levels.
        levels_hint(units: Units) -> String;
        /// Parts of the building that were removed, from every arrangement made in it.
        removed_from_every(things: &[&str]) -> String;
        /// A thing that became a part of the building, and the other arrangements that had it elsewhere, otherwise or away.
        now_built(thing: &str, otherwise: &[&str]) -> String;
        /// What a wall is called that got no name, by its number from 1.
        nth_wall(number: usize) -> String;
        /// Shows what is set up in a bay of the hall.
        to_bay(bay: &str) -> String;
        /// Makes an arrangement in a bay of the hall.
        set_up_in(bay: &str) -> String;
        /// What stands in the bay for another arrangement that is done at the same time.
        stands_for(set_up: &str) -> String;
        /// A tick: this arrangement is done at the same time.
        at_once(set_up: &str, bay: &str) -> String;
        /// What that one is called.
        set_up_of(bay: &str) -> String;
        /// What a part of an alcove in a wall is called.
        alcove_part(wall: &str, part: AlcovePart) -> String;
        /// Turns that do not go round, and what they make.
        turns_make(sum: &str) -> String;
        /// How well walls are known.
        known(known: Known) -> &'static str;
        /// Why a bay that was made is none.
        not_made(fault: &Fault, lengths: Lengths) -> String;
        /// What a walk round the room left open.
        gap_of(gap: &str, share: f64) -> String;
        /// Walls that do not come round yet.
        still_open(gap: &str) -> String;
        /// A wall that alone would explain it.
        explains(wall: &str, taped: &str, would_be: &str) -> String;
        /// A corner that alone would explain it.
        explains_turn(wall: &str, would_be: &str) -> String;
        /// Tapes that do not meet.
        too_short(by: &str) -> String;
        /// A tape that is too long.
        too_long(by: &str) -> String;
        /// A corner of the room.
        corner(wall: &str, next: &str) -> String;
        /// A floor mark.
        mark(name: &str) -> String;
        /// A wheel.
        wheel(name: &str) -> String;
    }
}
