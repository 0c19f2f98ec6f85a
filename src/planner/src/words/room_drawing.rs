//! Words of the page on which a drawing of another program becomes a room, or a picture under the plan.

use super::Locale;

texts! {
    room_drawing: RoomDrawing, "Every fixed text of the page with a drawing of the room.";
    title, "The page's name, and the press that leads to it.";
    title_why, "What that does.";
    file, "Beside the path of the drawing.";
    file_hint, "What may stand there.";
    read, "Reads the drawing of that path.";
    look_for, "Asks the system for a drawing.";
    being_read, "While the drawing is being read.";
    being_made, "While it is worked out what comes of it.";
    none_read, "That no drawing was read yet, and how to come by one.";
    becomes, "Over what the drawing becomes.";
    new_bay, "A new bay.";
    new_bay_why, "What that is.";
    this_room, "The room of the bay that is open.";
    this_room_why, "What that is.";
    under_plan, "A picture under the plan.";
    under_plan_why, "What that is.";
    unit, "Over the unit that it is drawn in.";
    mm, "Millimetres, short.";
    cm, "Centimetres, short.";
    m, "Metres, short.";
    inch, "Inches, short.";
    foot, "Feet, short.";
    no_unit, "That the file does not say its unit.";
    layers, "Over the layers.";
    layers_hint, "What is to be done with them.";
    as_room, "A layer becomes the room's outline.";
    as_walls, "A layer becomes inner walls.";
    as_things, "A layer becomes things.";
    left_out, "A layer becomes nothing.";
    drawn, "A layer is drawn in the picture.";
    stays, "In the key: what stands in the bay and stays.";
    closed, "In the key: where a gap was closed.";
    outline, "Beside which outline is the room.";
    outline_hint, "Why there may be several.";
    gap, "Beside the largest gap that is closed.";
    gap_hint, "What that is.";
    wall_thick, "Beside the thickness of walls that are drawn as one line.";
    wall_thick_hint, "What that is.";
    ceiling, "Beside the clear height.";
    ceiling_hint, "That a drawing from above does not tell it.";
    known_length, "Over the check by a length that is known.";
    known_length_why, "What the check is good for.";
    which_wall, "Beside the wall whose length is known.";
    none, "No wall is chosen.";
    is_long, "Beside its length, as drawn and to be typed.";
    as_drawn, "The press that takes the drawing's own size again.";
    comes_of_it, "Over what comes of it.";
    not_read, "Over what could not be read.";
    take, "The main press.";
    no_size, "That a length to go by must be more than nothing.";
    no_room_layer, "That a layer has to be chosen as the room's outline.";
    too_far_apart, "That a picture would be too large for its lines.";
    preview, "The picture of what comes of it, for who cannot see it, before what that is.";
    leave, "Leaves the page.";
}

impl RoomDrawing {
    sentences! { room_drawing:
        /// The unit that the file says, in a press.
        as_file_says(unit: &str) -> String;
        /// How large all of it is.
        size(width_mm: f64, height_mm: f64, locale: Locale) -> String;
        /// What is on a layer: lines and arcs, notes.
        on_layer(lines: usize, notes: usize, is_hidden: bool) -> String;
        /// An outline that may be the room.
        outline_of(number: usize, width_mm: f64, height_mm: f64, locale: Locale) -> String;
        /// By how much the drawing was scaled.
        scaled(by: &str) -> String;
        /// That it was moved to the bay's corner.
        moved_to_bay() -> String;
        /// Doors, windows and gaps that are in no wall of the drawing.
        doors_lost(names: &[&str]) -> String;
        /// The picture was written there, and lies under the plan.
        picture_written(file: &str) -> String;
        /// What was taken, and what is to be done next; doors, windows and gaps that are in no wall of the drawing.
        taken(walls: usize, things: usize, lost: &[&str]) -> String;
        /// A ceiling that is taken, for a drawing tells none.
        ceiling_taken(mm: f64, locale: Locale) -> String;
        /// What may be typed.
        from_to(least_mm: f64, most_mm: f64, locale: Locale) -> String;
        /// So many further lines that are not told.
        and_more(count: usize) -> String;
    }
}
