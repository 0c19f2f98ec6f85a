//! Texts of the screen: names of buttons, fields and pages, short sentences beside them.
//!
//! The English table below makes the struct; another language fills the same struct, and one that lacks a text does not
//! compile. Names stand as a workshop says them; directions are the car's or the sensor's, never the paper's.

use super::Language;
use crate::model::{FloorFeatureKind, Id, Opening, OpeningKind};

texts! {
    Screen, "Every fixed text of the screen; sentences with something in them are methods.";
    // Bar and menus.
    car, "A picker, and the car in the list.": "Car";
    aiming, "A picker.": "Aiming";
    bay, "A picker.": "Bay";
    arrangement, "A picker.": "Arrangement";
    open, "Opens a file.": "Open …";
    save, "Saves.": "Save";
    save_as, "Saves under another name.": "Save as …";
    in_this_folder, "Over the files beside the one in hand.": "In this folder";
    built_in, "Over the shipped bays.": "Built-in examples";
    undo, "One step back.": "Undo";
    redo, "One step forth.": "Do again";
    measure, "The measuring tool.": "Measure";
    measure_why, "What it does.": "Measure between any two points (M)";
    units, "What the menu chooses.": "How lengths are shown";
    millimetres, "A unit, short.": "mm";
    millimetres_long, "A unit.": "Millimetres";
    metres, "A unit, short.": "m";
    metres_long, "A unit.": "Metres";
    feet, "A unit, short.": "ft";
    feet_long, "A unit.": "Feet and inches";
    show, "A menu: how things are shown.": "Show";
    light, "A theme.": "Light";
    dark, "A theme.": "Dark";
    bay_size, "Large, for arm's length.": "Bay size";
    bay_size_why, "What that does.": "Large letters, for reading at arm's length";
    turn_to_car, "How the paper lies.": "Paper turned to the car";
    turn_to_room, "How the paper lies.": "Paper as the room lies";
    help, "A page.": "Help";
    first_steps, "A page.": "First steps";
    licences, "A page.": "Licences";
    copy_diagnostics, "Puts versions and log on the clipboard.": "Copy diagnostics";
    diagnostics_why, "What it is for.": "For whoever helps you: versions, display and log, without names of files or people";
    diagnostics_copied, "Said when it was done.":
        "Versions, display and log are on the clipboard; no names of files or people are in them.";
    stop, "Stops long work.": "Stop";

    // The answer.
    do_all, "Does all that the promise names.": "Do all of this";
    do_all_why, "What that does.": "Make these changes on the drawing, in one step that can be undone";
    stale, "The answer is of an earlier state.": "older answer";
    stale_why, "What that means.":
        "The answer for what is drawn now could not be worked out; this is the last one. Undo, or save and report it.";
    in_the_way, "A tab.": "What is in the way";
    marks, "A tab.": "Marks";
    nothing_in_the_way, "No findings.": "Nothing found that stops the aiming or needs care.";
    show_place, "Shows a finding's place.": "Show";
    showing, "A finding's place is shown.": "Shown";
    why_this_limit, "Explains a limit.": "Why this limit?";
    move_it, "A cure.": "Move it";
    take_away, "A cure.": "Take it away";
    park_there, "A cure.": "Park it there";
    put_on_mark, "A cure.": "Put it on its mark";
    open_door, "A cure.": "Open it";
    enter_distance, "A cure: type what the tape reads.": "Enter the taped distance";
    how, "A cure that is done outside the program.": "How";
    looked_again, "A cure: the profile was looked at.": "I have looked at it";
    enter_taped, "Said when a taped distance is to be entered.":
        "Type what the tape reads on the left, then say how well its place is known.";
    enter_levels, "Where levels are entered.":
        "Enter the levels on the left, under Floor levels: one a line, along, across and level in mm.";
    enter_figures, "Where figures are entered.":
        "Enter the maker's own figures on the left, and say where they come from. What you keep is a car of your own.";
    enter_alignment, "Where a figure is entered.":
        "Enter the rear toe from the alignment sheet on the left, under Measured on this car.";
    no_marks, "An aiming without marks.": "This aiming lays no marks.";
    tape_must_read, "Over the distances between marks.": "The tape must read";
    laser_caution, "Beside the marks.":
        "Look away from the laser and keep it below eye level and off shiny panels. Chock the wheels before lying down near the car.";

    // What is in the bay.
    in_this_bay, "Over the list of things.": "In this bay";
    add, "Opens the shelf of things.": "+ Add";
    local_rules, "Beside an area that is to be kept free.": "keep free, local rules decide";
    name, "A fact about a thing.": "name";
    no_name, "A name that is none.": "It needs a name.";
    from_wall_hint, "What it means.": "From the wall to the nearest part of it, square to the wall";
    turned, "A figure.": "turned";
    turned_hint, "What it means.": "Against the bay's long side, anticlockwise seen from above";
    length, "A figure.": "length";
    length_hint, "What it means.": "Along its own long side";
    width, "A figure.": "width";
    diameter, "A figure.": "across";
    wheelbase, "A figure.": "wheelbase";
    bottom, "A figure of a thing.": "underside";
    bottom_hint, "What it means.": "From the floor to its lowest part; 0 if it stands on the floor";
    top, "A figure of a thing.": "top";
    top_hint, "What it means.": "From the floor to its highest part";
    upside_down, "Heights that make no sense.": "The top must be above the underside.";
    kind, "A fact about a thing.": "what it is";
    material, "A fact about a thing.": "made of";
    known, "A fact about a thing.": "place known";
    known_within, "A fact about a thing.": "known to ±";
    known_within_hint, "What it means.": "How far off its place may be, either way";
    to_move, "A fact about a thing.": "to move it";
    locked, "A fact about a thing.": "locked";
    locked_why, "What it means.": "The hand cannot move it on the drawing";
    is_locked, "A thing that the hand may not move.": "Locked: untick below to move it.";
    copy, "Makes a second one.": "Copy";
    copy_why, "What that does.": "Put a second one beside it (Ctrl+D)";
    remove, "Takes a thing away.": "Remove";
    remove_why, "What that does.": "Take it out of this arrangement (Delete); the bay keeps it";
    marks_go_with_car, "Under the car's figures.": "Marks, zones and targets on their marks go with the car.";
    on_its_mark, "A target in its place.": "It stands on its mark.";
    off_its_mark, "Over a target's figures.": "Against its mark, seen from the sensor:";
    further_away, "How a target stands off its mark.": "further away";
    further_away_hint, "What it means.": "Further from the sensor than its mark; minus is nearer";
    to_the_left, "How a target stands off its mark.": "to the left";
    to_the_left_hint, "What it means.": "To the left seen from the sensor; minus is to the right";
    stand_turned_hint, "What it means.": "Turned from square, anticlockwise seen from above";
    height, "A figure of a target.": "height";
    height_hint, "What it means.": "The middle of its face above the floor";
    tipped, "How a target stands.": "tipped";
    tipped_hint, "What it means.": "Positive if its face looks down";
    shut, "A door.": "shut";
    stands_open, "A door.": "open";
    nothing_to_type, "Something that has no figures here.":
        "It belongs to the room, the floor or the aiming; its figures are entered in the file.";
    no_shape, "Figures that make no shape.": "These figures make no shape; nothing was changed.";

    // The drawing and the foot.
    paper_to_car, "How the top view lies.": "paper turned to the car";
    paper_as_room, "How the top view lies.": "paper as the room lies";
    paper_to_sight_line, "How the top view lies.": "paper turned to the sight line";
    turn_paper, "What a press on the top view's title does.": "Turn the paper: to the car, or as the room lies";
    change_axis, "What a press on the side view's title does.":
        "Take the side view along the other line: the centreline, or the sight line";
    all, "Shows all of both views.": "All";
    all_why, "What that does.": "See all of both views (0)";
    larger, "Zooms in.": "Larger (+)";
    smaller, "Zooms out.": "Smaller (−)";
    nothing_in_hand, "What the hand can do.":
        "Drag a thing, the car or the stand. Drag the paper to shift it, turn the wheel to zoom.";
    nudging, "What the keys do.": "Arrows move it 10 mm, with Shift 100, with Alt 1; [ and ] turn it. Esc lets go.";
    while_dragging, "What the keys do.": "Hold Ctrl or Alt to keep it from snapping. Esc puts it back.";
    measure_from, "What to do next.":
        "Press where to measure from; corners, marks and wheels are found by themselves. Esc ends.";
    measure_to, "What to do next.": "Press where to measure to.";
    caution_short, "Where there is little room.": "The vehicle maker's procedure decides.";

    // Pages.
    close, "Takes a page away.": "Close";
    begin, "Leaves the first steps.": "Begin";
    keys, "Over the list of keys.": "Keys";
    question, "Over a question.": "One moment";
    path_of_layout, "A field.": "A bay layout (.ron)";
    path_to_save, "A field.": "Save as (.ron)";
    open_it, "Opens the file that was typed.": "Open";
    look_for_it, "Opens the system's own window.": "Look for it …";
    look_for_place, "Opens the system's own window.": "Look for a place …";
    changed_on_disk, "A question.":
        "Someone else has changed this file since it was opened. Saving now would replace what they wrote.";
    save_first, "Saves before leaving.": "Save first";
    do_not_save, "Leaves without saving.": "Do not save";
    stay, "Takes nothing back.": "Stay here";
    replace_it, "Replaces a file.": "Replace it";
    other_name, "Asks for another name.": "Another name";
    cannot_be_judged, "A layout that cannot be shown.":
        "this layout's first arrangement cannot be judged by this version; look at the figures of its car and its things";

    add_what, "Before the name of what was added.": "Add";

    // A car that is being entered.
    finish_car, "Why the bay does not change.": "Keep or drop the car that is being entered first; the bay waits.";
    drop_car_question, "A question.": "What was entered of this car is not kept yet. Drop it?";
    go_on_entering, "An answer.": "Go on entering it";
    drop_it, "An answer.": "Drop the car";
    no_home, "Why nothing can be kept.": "There is no home folder to keep it in; nothing was saved.";

    on_this_car, "Over what was measured.": "Measured on this car";
    sensor_measured, "A tick.": "The sensor's place as built";
    alignment_sheet, "A tick.": "Alignment sheet in hand";
    toe_left, "An angle.": "Rear left toe";
    toe_right, "An angle.": "Rear right toe";
    toe_hint, "What it is.":
        "Of one wheel, in degrees, positive if its front points to the middle of the car. Ask which way the sheet counts";

    // A visit.
    visit, "A page.": "What is it in for? …";
    change_list, "Changes the list.": "Change this list";
    change_list_why, "What it does.": "Which work asks for which sensors: kept as the shop's own list";
    work, "One kind of work.": "Work";
    to_mind, "A field.": "To mind";
    more_work, "Adds one.": "One more kind of work";
    keep_list, "Saves the list.": "Keep as the shop's own list";
    shop_list, "What the list is called.": "The shop's own list";
    this_shop, "Who says so.": "this shop";
    work_done, "Over the list of work.": "What is done on this car";
    maker_decides, "Under the list.": "The vehicle maker's procedure decides what is to be aimed after which work.";
    nothing_chosen, "While nothing is chosen.": "Nothing is ticked yet.";
    none_entered, "Over what is missing.": "This work asks for aimings, and none of them is entered for this car:";
    take_visit, "Takes the list.": "Aim these, in this order";
    in_for, "Over the aimings of the visit.": "In for";
    all_aimings, "Over all aimings.": "All aimings of this car";

    // All cars.
    all_cars, "A page.": "All cars …";
    search, "A field.": "Search by name, class, sensor or source";
    choose_it, "Chooses it.": "Choose it";
    no_car_found, "Said of an empty list.": "No car is like that.";

    // Arrangements.
    duplicate, "Makes another like it.": "Another like this one";
    duplicate_why, "What it is for.": "To try something: move things in the copy, then compare the two";
    compare, "A page.": "Compare …";
    compare_why, "What it is for.": "This arrangement and another, side by side, with what changed";
    compare_title, "A page.": "Before and after";
    compare_with, "A choice.": "Compared with";
    name_arrangement, "A page.": "Name this arrangement …";
    name_it, "Gives the name.": "Name it so";
    remove_arrangement, "Takes it away.": "Remove this arrangement";
    show_this, "Shows the other one.": "Show this one";
    gone, "Findings.": "Gone";
    new_here, "Findings.": "New";
    in_both, "Findings.": "In both";

    // So that nothing is lost.
    left_behind, "A page.": "Work that was not saved";
    left_behind_about, "Over the list.":
        "The program ended before this was saved, last time. Take it up where you left it, or throw it away. Closing this page \
         keeps it for the next start.";
    take_up, "Shows it.": "Take it up";
    throw_away, "Deletes it.": "Throw it away";
    nothing_left, "Said of an empty list.": "Nothing is left.";
    left_by_later, "Why it is not taken up.":
        "A later version of the program left this; take it up with that one. It stays where it is.";
    left_damaged, "Why it is not taken up.": "What is kept of this cannot be read any more.";
    bay_begun, "Work that is no bay yet.": "A bay that was begun";
    never_saved, "Of work that has no file.": "It was never saved as a file";
    open_elsewhere, "A warning.":
        "This file is open in another window too. Close it in one of them, or save under another name here.";
    changed_meanwhile, "A warning.":
        "Someone else changed this file since you opened it. Nothing of it is replaced without asking you when you save.";
    nothing_kept, "A warning.": "There is no home folder: unsaved work is not kept against a crash; save often.";

    // When something goes wrong.
    fault_title, "Over the page after a fault in the program.": "The program met a fault of its own";
    fault_why, "What that means.":
        "It is not yours. What was in hand is kept as it was after the last change; the drawing may be looked at again.";
    go_on, "Goes on after a fault.": "Go on";
}

impl Language {
    /// The texts of the screen.
    pub const fn screen(self) -> &'static Screen {
        match self {
            Self::English => &ENGLISH,
        }
    }
}

impl Screen {
    /// How many arrangements were looked at.
    pub fn looked_at(&self, done: usize, all: usize) -> String {
        format!("{done} of {all} looked at")
    }

    /// How many findings are out of sight below.
    pub fn more_below(&self, count: usize) -> String {
        format!("{count} more below")
    }

    /// A field's name: from a wall.
    pub fn from_wall(&self, wall: &str) -> String {
        format!("from {wall}")
    }

    /// An angle in degrees, as it can be typed.
    pub fn degrees(&self, degrees: f64) -> String {
        let rounded = (degrees * 100.0).round() / 100.0 + 0.0;
        let tenths = (rounded * 10.0).round() / 10.0;
        if (tenths - rounded).abs() < 1e-9 { format!("{tenths:.1}°") } else { format!("{rounded:.2}°") }
    }

    /// What was typed is no length.
    pub fn no_length(&self, text: &str) -> String {
        format!("“{}” is no length; type a number such as 1250, 1.25 m or 4 ft 1 1/4 in.", cut(text))
    }

    /// What was typed is no angle.
    pub fn no_angle(&self, text: &str) -> String {
        format!("“{}” is no angle; type degrees, such as 12.5.", cut(text))
    }

    /// Something that is not there.
    pub fn no_such(&self, name: &Id) -> String {
        format!("There is no {name} here; nothing was changed.")
    }

    /// A name that is taken.
    pub fn name_taken(&self, name: &Id) -> String {
        format!("Something here is called “{name}” already; choose another name.")
    }

    /// A change that would leave figures that are not allowed.
    pub fn unsound(&self, found: &str, allowed: &str) -> String {
        format!("Nothing was changed: {found} is not possible here; allowed is {allowed}.")
    }

    /// A car that no aiming is entered for.
    pub fn no_aiming(&self, car: &str) -> String {
        format!("No aiming is entered for {car}; choose another car, or enter one in its profile.")
    }

    /// Said when it was saved.
    pub fn saved(&self, path: &str) -> String {
        format!("Saved: {path}")
    }

    /// Said when it was saved and a file with comments was kept.
    pub fn saved_with_backup(&self, path: &str, backup: &str) -> String {
        format!("Saved: {path}. Comments cannot be kept in it; the file with them is now {backup}")
    }

    /// Said when it was saved and the file of an older version was kept.
    pub fn saved_with_older(&self, path: &str, older: &str) -> String {
        format!("Saved: {path}. It was of an older version, which is now {older}")
    }

    /// An aiming's place in the visit.
    pub fn aiming_of(&self, place: usize, all: usize) -> String {
        format!("{} {place} of {all}", self.aiming)
    }

    /// How many aimings follow from the work.
    pub fn to_be_aimed(&self, count: usize) -> String {
        match count {
            0 => "By this list, nothing is to be aimed after that.".to_owned(),
            1 => "To be aimed again: 1".to_owned(),
            _ => format!("To be aimed again, in this order: {count}"),
        }
    }

    /// How long ago something was, from seconds.
    pub fn ago(&self, seconds: u64) -> String {
        let (count, unit) = match seconds {
            0..60 => return "Less than a minute ago".to_owned(),
            60..3_600 => (seconds / 60, "minute"),
            3_600..86_400 => (seconds / 3_600, "hour"),
            _ => (seconds / 86_400, "day"),
        };
        format!("{count} {unit}{} ago", if count == 1 { "" } else { "s" })
    }

    /// Said when a journal was set aside at the start.
    pub fn not_understood(&self, path: &str) -> String {
        format!(
            "A part of the unsaved work of an earlier session is damaged, or a later version of the program wrote it; it is \
             kept as it is, in {path}."
        )
    }

    /// Said after a fault, when what was in hand was written beside.
    pub fn kept_at(&self, path: &str) -> String {
        format!("A copy of what was in hand was saved here: {path}")
    }

    /// Said after a fault, when it could not be written.
    pub fn not_kept(&self, why: &str) -> String {
        format!("No copy of what was in hand could be written: {why}")
    }

    /// A question before work is lost.
    pub fn unsaved(&self, bay: &str) -> String {
        format!("“{bay}” has changes that are not saved.")
    }

    /// A question before a file is replaced.
    pub fn file_is_there(&self, path: &str) -> String {
        format!("There is a file already: {path}")
    }

    /// What would be undone.
    pub fn undo_what(&self, name: Option<&str>) -> String {
        name.map_or_else(|| "Nothing to undo".to_owned(), |name| format!("Undo: {name} (Ctrl+Z)"))
    }

    /// What would be done again.
    pub fn redo_what(&self, name: Option<&str>) -> String {
        name.map_or_else(
            || "Nothing to do again".to_owned(),
            |name| format!("Do again: {name} (Ctrl+Shift+Z)"),
        )
    }

    /// The name of something on the canvas, for who cannot see it.
    pub fn on_canvas(&self, name: &str, in_top_view: bool) -> String {
        if in_top_view { format!("{name}, top view") } else { format!("{name}, side view") }
    }

    /// The scale bar, for who cannot see it.
    pub fn scale_bar(&self, length: &str) -> String {
        format!("scale bar, {length}")
    }

    /// What was measured.
    pub fn measured(&self, distance: &str, along: &str, other: &str, in_side_view: bool) -> String {
        if in_side_view {
            format!("{distance}: {along} along, {other} up or down")
        } else {
            format!("{distance}: {along} along the car, {other} across it")
        }
    }

    /// What a cure's button is called, for who cannot see beside which finding it stands.
    pub fn cure_of(&self, deed: &str, finding: &str) -> String {
        format!("{deed}: {finding}")
    }

    /// The same for the button that shows the place.
    pub fn show_place_of(&self, finding: &str) -> String {
        format!("Show: {finding}")
    }

    /// The same for the button that explains the limit.
    pub fn why_of(&self, finding: &str) -> String {
        format!("Why this limit? {finding}")
    }

    /// Two marks between which a tape reads.
    pub fn mark_to_mark(&self, from: &str, to: &str) -> String {
        format!("mark {from} to mark {to}")
    }

    /// Figures that were assumed.
    pub fn assumed(&self, names: &[String]) -> String {
        super::assumed(names)
    }

    /// A door's size.
    pub fn opening_size(&self, width: &str, bottom: &str, top: &str) -> String {
        format!("{width} wide, from {bottom} to {top} above the floor")
    }

    /// What a spot of the floor is.
    pub const fn floor_feature(&self, kind: FloorFeatureKind) -> &'static str {
        match kind {
            FloorFeatureKind::Drain => "drain in the floor",
            FloorFeatureKind::Pit => "pit in the floor",
            FloorFeatureKind::Joint => "joint in the floor",
        }
    }

    /// What an opening is, whether it is shut, and where.
    pub fn opening_note(&self, opening: &Opening, wall: Option<&str>) -> String {
        let what = match (opening.kind, opening.shut) {
            (OpeningKind::Window, _) => "window",
            (OpeningKind::Gap, _) => "gap",
            (_, true) => "shut",
            (_, false) => "open",
        };
        wall.map_or_else(|| what.to_owned(), |wall| format!("{what}, in the {wall}"))
    }
}

/// The beginning of what was typed.
fn cut(text: &str) -> String {
    const MOST: usize = 24;
    let text = text.trim();
    if text.chars().count() <= MOST {
        text.to_owned()
    } else {
        format!("{}…", text.chars().take(MOST).collect::<String>().trim())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn angles_are_shown_as_they_can_be_typed() {
        let texts = Language::English.screen();
        assert_eq!(texts.degrees(12.0), "12.0°");
        assert_eq!(texts.degrees(-0.001), "0.0°");
        assert_eq!(texts.degrees(0.25), "0.25°");
        assert_eq!(texts.degrees(179.999), "180.0°");
    }
}
