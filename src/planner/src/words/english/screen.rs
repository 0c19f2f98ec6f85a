//! English of the same: see `words/screen.rs`.

use super::faults::{against_car, allowed, found};
use super::{Language, listed};
use crate::model::assumed::Assumed;
use crate::model::fault::Fault;
use crate::model::{FloorFeatureKind, Id, Opening, OpeningKind};
use crate::words::Lengths;
use crate::words::screen::{Diagnosis, Screen, cut};

/// The fixed texts.
pub const TEXTS: Screen = Screen {
    language: Language::English,
    // Bar and menus.
    car: "Car",
    aiming: "Aiming",
    bay: "Bay",
    arrangement: "Set-up",
    open: "Open …",
    save: "Save",
    save_as: "Save as …",
    recent: "Opened last",
    drop_it_here: "Let go of it: a bay opens, a car is entered, a picture lies under the plan.",
    not_to_be_dropped: "This file is no bay, no car, no picture and no drawing (DXF); nothing was opened.",
    one_at_a_time: "Several files were dropped; only the first one was looked at.",
    close_page_first: "Close this page first, then drop the file again.",
    car_was_read: "This car was read from its file. “Keep this car” saves it among your own.",
    in_this_folder: "In this folder",
    built_in: "Built-in examples",
    nothing_typed_here: "Nothing was typed in this field that could be undone; the bay waits until this page is closed.",
    nothing_to_undo: "Nothing to undo: nothing was changed since this was opened.",
    nothing_to_redo: "Nothing to do again: nothing was undone.",
    undo: "Undo",
    redo: "Do again",
    measure: "Measure",
    measure_why: "Measure between any two points (M)",
    in_english: "English",
    in_german: "Deutsch",
    language_why: "The language of the program and of what it prints, and its way of writing numbers and days",
    units: "How lengths are shown",
    millimetres: "mm",
    millimetres_long: "Millimetres",
    metres: "m",
    metres_long: "Metres",
    feet: "ft",
    feet_long: "Feet and inches",
    show: "Show",
    light: "Light",
    dark: "Dark",
    large_letters: "Large letters",
    large_letters_why: "Everything larger, for reading at arm's length (Ctrl and + or − in smaller steps)",
    as_system: "As the system",
    as_system_why: "Light or dark as the rest of the computer is, now and when that changes",
    full_screen: "Full screen",
    full_screen_why: "Without the window's frame, or with it again (F11)",
    letters_largest: "Letters are as large as they get.",
    letters_usual: "Letters are at their usual size, the smallest there is.",
    letters_no_room: "This window has no room for larger letters.",
    turn_to_car: "Paper turned to the car",
    turn_to_room: "Paper as the room lies",
    help: "Help",
    first_steps: "First steps",
    licences: "Licences",
    copy_picture: "Copy picture",
    copy_picture_why: "Both views, whole, to be pasted elsewhere",
    picture_being_made: "The picture is being made …",
    picture_copied: "The drawing is on the clipboard.",
    copy_diagnostics: "Copy diagnostics",
    diagnostics_why: "For whoever helps you: versions, display and log, without names of files or people",
    diagnostics_copied: "Versions, display and log are on the clipboard; no names of files or people are in them.",
    stop: "Stop",

    // The answer.
    do_all: "Do all of this",
    do_all_why: "Make these changes on the drawing, in one step that can be undone",
    do_all_apart: "In a new set-up",
    do_all_apart_why: "Makes a copy of this set-up and does all of this there; this one stays as it is",
    stale: "older answer",
    stale_why: "The answer for what is drawn now could not be worked out; this is the last one. Undo, or save and report it.",
    in_the_way: "What is in the way",
    marks: "Marks",
    what_was_said: "Message",
    nothing_in_the_way: "Nothing found that stops the aiming or needs care.",
    show_place: "Show",
    showing: "Shown",
    why_this_limit: "Why this limit?",
    turn_it: "Turn it",
    move_it: "Move it",
    take_away: "Take it away",
    park_there: "Park it there",
    put_on_mark: "Put it on its mark",
    open_door: "Open it",
    keep_empty: "Keep it empty",
    keep_shut: "Keep it shut",
    enter_distance: "Enter the taped distance",
    how: "How",
    enter_them: "Enter them",
    say_which: "Enter which",
    looked_again: "I have looked at it",
    after_moves: "after the moves",
    page_goes_on: "More below ↓",
    enter_taped: "Type what the tape reads on the left, then say how well its place is known.",
    enter_car_place: "Tape from the walls to three wheels, type on the left where the car stands, then say that it was taped.",
    enter_levels: "Enter the levels on the left, under Floor levels: one a line, along, across and level in mm.",
    enter_figures: "Enter the maker's own figures on the left, and say where they come from. What you keep is a car of your own.",
    enter_alignment: "Enter what the alignment sheet says on the left, under Measured on this car.",
    enter_zones: "Add the zones on the left, under Keep-clear zones. What you keep is a car of your own.",
    enter_heights_from: "Choose on the left, under Heights from, what the procedure means. What you keep is a car of your own.",
    no_marks: "This aiming lays no marks.",
    tape_must_read: "The tape must read",
    laser_caution: "Look away from the laser and keep it below eye level and off shiny panels. Chock the wheels before lying down near the car.",

    // What is in the bay.
    in_this_bay: "In this bay",
    add: "+ Add",
    local_rules: "keep free, local rules decide",
    name: "name",
    no_name: "It needs a name.",
    from_wall_hint: "From the wall to the nearest part of it, square to the wall",
    turned: "turned",
    turned_hint: "Against the bay's long side, anticlockwise seen from above",
    length: "length",
    length_hint: "Along its own long side",
    width: "width",
    diameter: "across",
    wheelbase: "wheelbase",
    bottom: "underside",
    bottom_hint: "From the floor to its lowest part; 0 if it stands on the floor",
    top: "top",
    top_hint: "From the floor to its highest part",
    upside_down: "The top must be above the underside.",
    kind: "what it is",
    material: "made of",
    metal: "metal in it",
    as_its_face: "as its face says",
    known: "place known",
    known_within: "known to ±",
    known_within_hint: "How far off its place may be, either way",
    to_move: "to move it",
    locked: "locked",
    locked_why: "The hand cannot move it on the drawing",
    is_locked: "Locked: the hand does not move it, figures typed here do.",
    copy: "Copy",
    copy_why: "Put a second one beside it (Ctrl+D)",
    remove: "Remove",
    remove_why: "Take it out of this set-up (Delete); the bay keeps it",
    marks_go_with_car: "Marks, zones and targets on their marks go with the car.",
    on_its_mark: "It stands on its mark.",
    off_its_mark: "Against its mark, seen from the sensor:",
    further_away: "further away",
    further_away_hint: "Further from the sensor than its mark; minus is nearer",
    to_the_left: "to the left",
    to_the_left_hint: "To the left seen from the sensor; minus is to the right",
    stand_turned_hint: "Turned from square, anticlockwise seen from above",
    height: "height",
    height_hint: "The middle of its face above the floor",
    tipped: "tipped",
    tipped_hint: "Positive if its face looks down",
    shut: "shut",
    stands_open: "open",
    nothing_to_type: "It belongs to the room, the floor or the aiming; its figures are entered in the file.",
    no_arrangement: "That set-up is not there, or it is the only one; nothing was changed.",
    no_shape: "These figures make no shape; nothing was changed.",

    // The drawing and the foot.
    paper_to_car: "paper turned to the car",
    paper_as_room: "paper as the room lies",
    paper_to_sight_line: "paper turned to the sight line",
    turn_paper: "Turn the paper: to the car, or as the room lies",
    change_axis: "Take the side view along the other line: the centreline, or the sight line",
    all: "All",
    all_why: "See all of both views (0, or a double press on empty paper)",
    larger: "Larger (+)",
    smaller: "Smaller (−)",
    nothing_in_hand: "Drag a thing or the car; a frame chooses several. Wheel zooms; Space and drag shifts.",
    nothing_in_hand_short: "Drag a thing or the car.",
    nudging: "Arrows move it, [ ] turn it; Tab: figures; right button: more.",
    nudging_short: "Arrows move it, [ ] turn it.",
    room_in_hand: "Drag a corner: its walls go along; with Alt the corner alone. Figures are on the left.",
    room_in_hand_short: "Drag a corner of the room.",
    fixed_in_hand: "What is known of it stands on the left.",
    while_dragging: "Hold Ctrl or Alt to keep it from snapping. Esc puts it back.",
    while_dragging_short: "Ctrl or Alt: no snapping.",
    measure_from: "Press where to measure from; corners, marks and wheels are found by themselves. Esc ends.",
    measure_from_short: "Press where to measure from.",
    measure_to: "Press where to measure to.",
    caution_short: "The vehicle maker's procedure decides.",

    // Pages.
    close: "Close",
    begin: "Begin",
    keys: "Keys",
    question: "One moment",
    save_changes: "Save changes?",
    welcome: "This is an invented shop",
    welcome_about: "The bay, the car and every figure behind this page are made up, so that you can look round. Your own car and your own \
         bay start here; what you open or save is there again at the next start.",
    who_aims: "I aim sensors",
    who_aims_how: "Is my bay clear enough for this car? Enter the car from the maker's sheet, or open a bay that you have.",
    enter_my_car: "Enter my car",
    open_my_bay: "Open my bay",
    who_plans: "I run the shop",
    who_plans_how: "Which jobs fit my room? Draw the room, then try one car and aiming after another.",
    draw_my_bay: "Draw my bay",
    who_shows: "I write the estimate",
    who_shows_how: "Why does this take a whole bay? Drag a thing into the blue dashed area: the answer at the top changes as you drag.",
    look_round: "Look round the invented shop",
    examples: "Figures that are invented",
    examples_about: "These figures were made up to show how the program works; no answer that rests on them holds for a real car or a \
         real room. Enter your own, say where they come from, and the note “on example figures” goes.",
    no_examples: "No figure here is invented any more.",
    enter_own: "Enter your own",
    path_of_layout: "A bay layout (.ron)",
    path_to_save: "Save as (.ron)",
    open_it: "Open",
    look_for_it: "Look for it …",
    look_for_place: "Look for a place …",
    changed_on_disk: "Someone else has changed this file since it was opened. Saving now would replace what they wrote.",
    save_open_elsewhere: "This file is open in another window too. Saved here, it is changed under that window, which is asked about it when it saves.",
    save_all_the_same: "Save it all the same",
    save_first: "Save first",
    do_not_save: "Do not save",
    stay: "Stay here",
    replace_it: "Replace it",
    open_theirs: "Open theirs",
    save_there_again: "Save it there again",
    other_name: "Another name",
    cannot_be_judged: "this layout's first set-up cannot be judged by this version; look at the figures of its car and its things",

    // A car that is being entered.
    finish_car: "Keep or drop the car that is being entered first; the bay waits.",
    drop_car_question: "What was entered of this car is not kept yet. Drop it?",
    drop_bay_question: "The bay that was begun is not made yet. Close the program without it?",
    drop_list_question: "What was changed in the list of work is not kept yet. Close the program without it?",
    go_on_with_it: "Go on with it",
    quit_without_it: "Close without it",
    go_on_entering: "Go on entering it",
    drop_it: "Drop the car",
    no_home: "There is no home folder to keep it in; nothing was saved.",

    on_this_car: "Measured on this car",
    sensor_measured: "The sensor's place as built",
    wheels_measured: "Wheel points as measured",
    centre_follows_hint: "As a tape reads it on this car: the sensor's centre follows",
    wheel_ahead: "ahead",
    wheel_left: "left",
    wheels_hint: "Under the middle of the tyre: how far ahead of the front axle, and left of the centreline, as the profile has them; negative: behind, right",
    toe_left: "Rear left toe",
    toe_right: "Rear right toe",
    set_back: "Set-back",
    set_back_hint: "From the alignment sheet: how far one front wheel stands further back than the other, without a sign. Empty: not known",
    turning_circle: "Turning circle",
    turning_circle_hint: "Between kerbs, its diameter. Empty: not known",
    other_toe: "The toe of one rear wheel alone says nothing yet: type the other one's too.",

    // A visit.
    visit: "What is it in for? …",
    change_list: "Change this list",
    change_list_why: "Which work asks for which sensors: kept as the shop's own list",
    work: "Work",
    to_mind: "To mind",
    more_work: "One more kind of work",
    keep_list: "Keep as the shop's own list",
    shop_list: "The shop's own list",
    this_shop: "this shop",
    work_done: "What is done on this car",
    maker_decides: "The vehicle maker's procedure decides what is to be aimed after which work.",
    nothing_chosen: "Nothing is ticked yet.",
    none_entered: "This work asks for aimings, and none of them is entered for this car:",
    take_visit: "Aim these, in this order",
    in_for: "In for",
    all_aimings: "All aimings of this car",

    // All cars.
    all_cars: "All cars …",
    search_list: "Search by name, kind or size (Ctrl+F); Enter takes the first in hand, Esc ends the search",
    nothing_like_that: "Nothing here is like that.",
    search: "Search by name, class, sensor or source",
    choose_it: "Choose it",
    no_car_found: "No car is like that.",

    // Arrangements.
    duplicate: "Another like this one",
    duplicate_why: "To try something: move things in the copy, then compare the two",
    compare: "Compare …",
    compare_why: "This set-up and another, or as it was opened, side by side, with what changed",
    compare_title: "Before and after",
    compare_with: "Compared with",
    as_opened: "As opened",
    name_arrangement: "Name this set-up …",
    name_it: "Name it so",
    remove_arrangement: "Remove this set-up",
    show_this: "Show this one",
    different: "Different",
    gone: "Gone",
    new_here: "New",
    in_both: "In both",

    // So that nothing is lost.
    left_behind: "Work that was not saved",
    work_list: "List of work",
    left_behind_about: "The program ended before this was saved, last time. Open it again where you left it, or discard it. Closing this page \
         keeps it for the next start.",
    take_up: "Open it again",
    throw_away: "Discard",
    nothing_left: "Nothing is left.",
    left_by_later: "A later version of the program left this; open it with that one. It stays where it is.",
    left_damaged: "What is kept of this cannot be read any more.",
    bay_begun: "A bay that was begun",
    left_is_saved: "Its file holds all of this already.",
    left_saved_since: "Its file was saved again since then: what lies there is something else. Saving asks first.",
    left_file_gone: "Its file is not there any more.",
    left_for_later: "It is kept, and offered under Bay, “Work that was not saved”.",
    never_saved: "It was never saved as a file",
    open_elsewhere: "This file is open in another window too. Close it in one of them, or save under another name here.",
    gone_meanwhile: "The file of this bay is not there any more: it was removed, moved or renamed. What is here stays; save it to keep it.",
    changed_meanwhile: "Someone else changed this file since you opened it. Saving asks which of the two stays, and can open theirs.",
    not_kept_now: "Unsaved work is not kept against a crash now: save soon.",
    list_changed_meanwhile: "Someone else changed the shop's list of work since it was read here. Keep it once more to replace theirs.",
    finish_list: "The list of work is being changed. Keep it, and then open this one again.",
    finish_bay: "Another bay is begun. Make it, or begin it anew, and then open this one again.",
    keeper_ended: "Nothing is kept against a crash any more. Save your work, close the program and start it again.",
    no_text_to_keep: "What is entered now cannot be kept against a crash: a figure or a text in it cannot be written. Undo it, \
                      or save.",
    undo_not_kept: "What was done before cannot be undone: only the last state was kept.",
    nothing_kept: "There is no home folder: unsaved work is not kept against a crash; save often.",

    // When something goes wrong.
    fault_title: "The program met a fault of its own",
    fault_why: "It is not yours. What was in hand is kept as it was after the last change; the drawing may be looked at again.",
    go_on: "Go on",
};

pub fn of(what: &str, of: &str) -> String {
    format!("{what}: {of}")
}

pub fn with(name: &str, note: &str) -> String {
    format!("{name}, {note}")
}

pub fn numbered(what: &str, number: usize) -> String {
    format!("{what} {number}")
}

pub fn letters_now(percent: u32) -> String {
    format!("Letters: {percent} % of the usual size.")
}

pub fn counted(what: &str, count: usize) -> String {
    format!("{what} ({count})")
}

pub fn list_from(name: &str, source: &str) -> String {
    format!("{name}. {source}")
}

pub fn when_and_where(when: &str, place: &str) -> String {
    format!("{when}. {place}")
}

pub fn at_place(which: &str, along: &str, across: &str) -> String {
    format!("{which} ({along}, {across})")
}

pub fn diagnosis(of: &Diagnosis<'_>) -> String {
    let ([system, machine], [width, height]) = (of.system, of.window);
    format!(
        "Baywright {} ({system} {machine})\nscreen library: {}\nwindow: {width:.0} x {height:.0} points, {} px per point, \
         zoom {}\ngeneration {}, {} things, {} findings, stale: {}\n\nLog:\n{}",
        of.version,
        of.library,
        of.px_per_point,
        of.zoom,
        of.generation,
        of.things,
        of.findings,
        of.stale,
        of.log,
    )
}

pub fn looked_at(done: usize, all: usize) -> String {
    format!("{done} of {all} looked at")
}

pub fn after_the_moves(set_up: &str) -> String {
    format!("{set_up}, {}", TEXTS.after_moves)
}

pub fn more_below(count: usize) -> String {
    format!("{count} more below")
}

pub fn from_wall(wall: &str) -> String {
    format!("from {wall}")
}

pub fn no_length(text: &str) -> String {
    format!("“{}” is no length; type a number such as 1250, 1.25 m or 4 ft 1 1/4 in.", cut(text))
}

pub fn which(thousands: &str, decimal: &str) -> String {
    format!("{thousands} or {decimal}?")
}

pub fn not_answered(text: &str, which: &str) -> String {
    format!("“{}” was not taken: {which}", cut(text))
}

pub fn no_angle(text: &str) -> String {
    format!("“{}” is no angle; type degrees, such as 12.5.", cut(text))
}

pub fn no_such(name: &Id) -> String {
    format!("There is no {name} here; nothing was changed.")
}

pub fn name_taken(name: &Id) -> String {
    format!("Something here is called “{name}” already; choose another name.")
}

pub fn unsound(fault: &Fault, lengths: Lengths) -> String {
    let (found, allowed) = (found(fault, lengths), allowed(&fault.allowed, lengths));
    format!("Nothing was changed: {found} is not possible here; allowed is {allowed}.")
}

pub fn would_shut(arrangement: &str, fault: &Fault, lengths: Lengths) -> String {
    format!(
        "Nothing was changed: the set-up “{arrangement}” would not go with its car any more, {}.",
        against_car(fault, lengths)
    )
}

pub fn not_shown(arrangement: &str, fault: &Fault, lengths: Lengths) -> String {
    format!(
        "The set-up “{arrangement}” is kept as it is and cannot be shown: it does not go with its car, {}. Put that \
         right in the car, and it can be shown again.",
        against_car(fault, lengths)
    )
}

pub fn no_aiming(car: &str) -> String {
    format!("No aiming is entered for {car}; choose another car, or enter one in its profile.")
}

pub fn saved(path: &str) -> String {
    format!("Saved: {path}")
}

pub fn nothing_to_save(path: &str) -> String {
    format!("Nothing to save: {path} holds all of it.")
}

pub fn saved_without_cars(path: &str, cars: &[&Id]) -> String {
    let named: Vec<String> = cars.iter().map(|id| format!("“{id}”")).collect();
    let (car, is) = if named.len() == 1 { ("car", "is") } else { ("cars", "are") };
    format!(
        "Saved: {path}. From there its {car} {} {is} not found: put the {car}'s own file into a folder “vehicle-profiles” beside \
         the folder of the bay, or it cannot be shown there.",
        listed(&named)
    )
}

pub fn saved_with_backup(path: &str, backup: &str) -> String {
    format!("Saved: {path}. Comments cannot be kept in it; the file with them is now {backup}")
}

pub fn saved_with_older(path: &str, older: &str) -> String {
    format!("Saved: {path}. It was of an older version, which is now {older}")
}

pub fn aiming_of(place: usize, all: usize) -> String {
    format!("{} {place} of {all}", TEXTS.aiming)
}

pub fn to_be_aimed(count: usize) -> String {
    match count {
        0 => "By this list, nothing is to be aimed after that.".to_owned(),
        1 => "To be aimed again: 1".to_owned(),
        _ => format!("To be aimed again, in this order: {count}"),
    }
}

pub fn ago(seconds: u64) -> String {
    let (count, unit) = match seconds {
        0..60 => return "Less than a minute ago".to_owned(),
        60..3_600 => (seconds / 60, "minute"),
        3_600..86_400 => (seconds / 3_600, "hour"),
        _ => (seconds / 86_400, "day"),
    };
    format!("{count} {unit}{} ago", if count == 1 { "" } else { "s" })
}

pub fn not_understood(path: &str) -> String {
    format!(
        "A part of the unsaved work of an earlier session is damaged, or a later version of the program wrote it; it is \
         kept as it is, in {path}."
    )
}

pub fn failed_beside(words: &str) -> String {
    format!("The program met a fault of its own in the background; nothing of your work is lost: {words}")
}

pub fn keeper_failed(words: &str) -> String {
    format!(
        "The program met a fault of its own, and a change was not kept against a crash; save your work soon: {words}"
    )
}

pub fn kept_at(path: &str) -> String {
    format!("A copy of what was in hand was saved here: {path}")
}

pub fn not_kept(why: &str) -> String {
    format!("No copy of what was in hand could be written: {why}")
}

pub fn unsaved(bay: &str) -> String {
    format!("“{bay}” has changes that are not saved.")
}

pub fn file_is_gone(path: &str) -> String {
    format!(
        "{path} is not there any more: it was removed, moved or renamed since it was opened. What is here is not lost; it can be \
         saved there again, or under another name."
    )
}

pub fn to_scroll(what: &str) -> String {
    format!("{what}, to scroll with the arrow keys")
}

pub fn file_is_there(path: &str) -> String {
    format!("There is a file already: {path}")
}

pub fn undo_what(name: Option<&str>) -> String {
    name.map_or_else(|| "Nothing to undo".to_owned(), |name| format!("Undo: {name} (Ctrl+Z)"))
}

pub fn redo_what(name: Option<&str>) -> String {
    name.map_or_else(|| "Nothing to do again".to_owned(), |name| format!("Do again: {name} (Ctrl+Shift+Z)"))
}

pub fn on_canvas(name: &str, in_top_view: bool) -> String {
    if in_top_view { format!("{name}, top view") } else { format!("{name}, side view") }
}

pub fn scale_bar(length: &str) -> String {
    format!("scale bar, {length}")
}

pub fn measured(distance: &str, along: &str, other: &str, in_side_view: bool) -> String {
    if in_side_view {
        format!("{distance}: {along} along, {other} up or down")
    } else {
        format!("{distance}: {along} along the car, {other} across it")
    }
}

pub fn of_wheel(wheel: &str, figure: &str) -> String {
    format!("{wheel}, {figure}")
}

pub fn show_place_of(finding: &str) -> String {
    format!("Show: {finding}")
}

pub fn why_of(finding: &str) -> String {
    format!("Why this limit? {finding}")
}

pub fn mark_to_mark(from: &str, to: &str) -> String {
    format!("mark {from} to mark {to}")
}

pub fn assumed(figures: &[Assumed]) -> String {
    super::assumed::sentence(figures)
}

pub fn opening_size(width: &str, bottom: &str, top: &str) -> String {
    format!("{width} wide, from {bottom} to {top} above the floor")
}

pub const fn floor_feature(kind: FloorFeatureKind) -> &'static str {
    match kind {
        FloorFeatureKind::Drain => "drain in the floor",
        FloorFeatureKind::Pit => "pit in the floor",
        FloorFeatureKind::Joint => "joint in the floor",
    }
}

pub fn opening_note(opening: &Opening, wall: Option<&str>) -> String {
    let what = match (opening.kind, opening.shut) {
        (OpeningKind::Window, _) => "window",
        (OpeningKind::Gap, _) => "gap",
        (_, true) => "shut",
        (_, false) => "open",
    };
    wall.map_or_else(|| what.to_owned(), |wall| format!("{what}, in the {wall}"))
}
