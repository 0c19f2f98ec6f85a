//! What stands on the floor plans that are handed to who paints, pours or wires: beside what every sheet says.

texts! {
    floor_sheets: FloorTexts, "Every fixed text of the floor plans.";
    paint, "A sheet's name: the lines and marks that stay on the floor.";
    concrete, "A sheet's name: the floor itself.";
    electric, "A sheet's name: what is wired.";
    running, "How the figures along the walls are to be read.";
    number, "Over what something goes by on the drawing.";
    what, "Over what it is.";
    name, "Over its name.";
    starts, "Over where an opening starts.";
    ends, "Over where it ends.";
    wall, "Over the wall that it is in.";
    bottom, "Over the height of its lower edge.";
    top, "Over the height of its upper edge.";
    level, "Over a level.";
    proud, "Over how far something stands out of the floor.";
    survey, "Over whether it was surveyed.";
    openings, "A heading: doors, windows, gaps.";
    points, "A heading: points with their distances from two walls.";
    corners, "A heading: lines and areas, corner by corner.";
    no_points, "That there is no point, as a sentence.";
    colours, "That nobody entered the colours of lines.";
    may_reach, "That a zone may reach beyond the room, and that it is drawn as far as the walls only.";
    fixed, "A heading: columns and other things that stay.";
    asked_floor, "A heading: what the floor must be.";
    not_asked, "That the limit of the procedure is not entered.";
    level_marks, "A heading: the levels as surveyed.";
    in_millimetres, "Why levels are in millimetres where lengths are not.";
    not_surveyed, "That nobody surveyed the floor.";
    undated, "That a survey has no date.";
    is_surveyed, "In a table: it was.";
    is_not_surveyed, "In a table: it was not.";
    in_floor, "A heading: drains, pits, joints.";
    runways, "A heading: raised runways.";
    found_of_floor, "A heading: what is not known of the floor, or not right.";
    concrete_caution, "Who decides about concrete, and what to mind.";
    sockets, "A heading: sockets.";
    no_sockets, "That none are entered.";
    lights, "A heading: lamps.";
    hanging, "A heading: what else hangs or is fixed.";
    panels, "A heading: what is to stay clear before panels.";
    asked_light, "A heading: what is asked before an aiming, as entered.";
    none, "That none of these are entered, as a sentence.";
    electric_caution, "Who decides about electrical work, and what to mind.";
    paint_caution, "What to mind before lines are painted.";
    revisions, "A heading: the revisions of the sheet.";
    revisions_about, "That they are written in by hand.";
    revision, "Over which revision.";
    day, "Over its day.";
    changed, "Over what was changed.";
    by, "Over who did it.";
    where_from, "A heading: where the figures come from.";
}

impl FloorTexts {
    sentences! { floor_sheets:
        /// Over how far something is from a wall.
        from_wall(wall: &str) -> String;
        /// A permanent point by its number.
        permanent(number: usize) -> String;
        /// A surveyed point by its number, with its level where it is drawn.
        surveyed(number: usize, level: &str) -> String;
        /// A point of this set-up's mark plan.
        mark(number: usize) -> String;
        /// A corner of an area, by its name and number.
        corner(of: &str, number: usize) -> String;
        /// One of the two ends of the line straight ahead, which lie at walls.
        axis_end(is_ahead: bool) -> String;
        /// From where to where.
        from_to(from: &str, to: &str) -> String;
        /// By how much levels may differ under wheels and targets.
        floor_limit(level: &str) -> String;
        /// Where wheels and targets are, from the first wall and from the second.
        floor_area(walls: [&str; 2], first: [&str; 2], second: [&str; 2]) -> String;
        /// How slight a fall that is, over so long a way.
        floor_fall(over: &str, one_in: &str) -> String;
        /// How far the plane of the wheels may be tilted.
        tilt(pitch: Option<&str>, roll: Option<&str>) -> String;
        /// How many levels there are, the highest and the lowest of them, each with its number.
        levels(count: usize, highest: (usize, &str), lowest: (usize, &str)) -> String;
        /// Where levels come from, and when they were taken.
        levels_from(provenance: &str, taken: Option<&str>) -> String;
        /// The clear height under the ceiling.
        ceiling(height: &str) -> String;
        /// Where the walls' figures come from, and how well they are known.
        room_from(provenance: &str, known: &str) -> String;
        /// How many figures had no room beside the plan.
        left_out(count: usize) -> String;
        /// That there are more corners than are listed.
        more_corners(count: usize) -> String;
        /// What the plan shows, for who cannot see it.
        described(sheet: &str, bay: &str, scale: &str) -> String;
    }
}
