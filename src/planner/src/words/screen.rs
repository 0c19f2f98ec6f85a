//! Texts of the screen: names of buttons, fields and pages, short sentences beside them.
//! Names stand as a workshop says them; directions are the car's or the sensor's, never the paper's.

use super::Lengths;
use crate::model::assumed::Assumed;
use crate::model::fault::Fault;
use crate::model::{FloorFeatureKind, Id, Opening};

texts! {
    screen: Screen, "Every fixed text of the screen; sentences with something in them are methods.";
    // Bar and menus.
    car, "A picker, and the car in the list.";
    aiming, "A picker.";
    bay, "A picker.";
    arrangement, "A picker.";
    open, "Opens a file.";
    save, "Saves.";
    save_as, "Saves under another name.";
    drop_it_here, "While a file is held over the window.";
    not_to_be_dropped, "Why nothing opens.";
    one_at_a_time, "What was not opened.";
    close_page_first, "Why nothing opens.";
    car_was_read, "Said of a car out of a file.";
    recent, "Over the files that were opened last.";
    in_this_folder, "Over the files beside the one in hand.";
    built_in, "Over the shipped bays.";
    nothing_to_undo, "Why undo did nothing.";
    nothing_typed_here, "Why undo did nothing in a field of a page.";
    nothing_to_redo, "Why doing again did nothing.";
    undo, "One step back.";
    redo, "One step forth.";
    measure, "The measuring tool.";
    measure_why, "What it does.";
    in_english, "A language, by its own name.";
    in_german, "A language, by its own name.";
    language_why, "What choosing a language does.";
    units, "What the menu chooses.";
    millimetres, "A unit, short.";
    millimetres_long, "A unit.";
    metres, "A unit, short.";
    metres_long, "A unit.";
    feet, "A unit, short.";
    feet_long, "A unit.";
    show, "A menu: how things are shown.";
    light, "A theme.";
    dark, "A theme.";
    large_letters, "Larger letters, for arm's length.";
    large_letters_why, "What that does.";
    as_system, "A theme.";
    as_system_why, "What that does.";
    full_screen, "The window without its frame.";
    full_screen_why, "What that does.";
    letters_largest, "Why they do not grow.";
    letters_usual, "Why they do not shrink.";
    letters_no_room, "Why they do not grow.";
    turn_to_car, "How the paper lies.";
    turn_to_room, "How the paper lies.";
    help, "A page.";
    first_steps, "A page.";
    licences, "A page.";
    copy_picture, "Puts the drawing on the clipboard.";
    copy_picture_why, "What it does.";
    picture_being_made, "It is not done yet.";
    picture_copied, "It is done.";
    copy_diagnostics, "Puts versions and log on the clipboard.";
    diagnostics_why, "What it is for.";
    diagnostics_copied, "Said when it was done.";
    stop, "Stops long work.";

    // The answer.
    do_all, "Does all that the promise names.";
    do_all_why, "What that does.";
    do_all_apart, "Does the same in a set-up of its own.";
    do_all_apart_why, "What that does.";
    stale, "The answer is of an earlier state.";
    stale_why, "What that means.";
    in_the_way, "A tab.";
    marks, "A tab.";
    what_was_said, "What was said last, where it is too long for its place.";
    nothing_in_the_way, "No findings.";
    show_place, "Shows a finding's place.";
    showing, "A finding's place is shown.";
    why_this_limit, "Explains a limit.";
    turn_it, "A cure.";
    move_it, "A cure.";
    take_away, "A cure.";
    park_there, "A cure.";
    put_on_mark, "A cure.";
    open_door, "A cure.";
    keep_empty, "A cure: another bay of the hall.";
    keep_shut, "A cure: a door.";
    enter_distance, "A cure: type what the tape reads.";
    how, "A cure that is done outside the program.";
    enter_them, "A cure: zones are to be entered.";
    say_which, "A cure: from which plane heights count is to be entered.";
    looked_again, "A cure: the profile was looked at.";
    after_moves, "The end of the name of a set-up in which everything that is proposed was done.";
    page_goes_on, "Scrolls a page on, where more of it is out of sight below.";
    enter_taped, "Said when a taped distance is to be entered.";
    enter_car_place, "Said when the car's place is to be taped.";
    enter_levels, "Where levels are entered.";
    enter_figures, "Where figures are entered.";
    enter_alignment, "Where a figure is entered.";
    enter_zones, "Where keep-clear zones are entered.";
    enter_heights_from, "Where it is entered from which plane heights count.";
    no_marks, "An aiming without marks.";
    tape_must_read, "Over the distances between marks.";
    laser_caution, "Beside the marks.";

    // What is in the bay.
    in_this_bay, "Over the list of things.";
    add, "Opens the shelf of things.";
    local_rules, "Beside an area that is to be kept free.";
    name, "A fact about a thing.";
    no_name, "A name that is none.";
    from_wall_hint, "What it means.";
    turned, "A figure.";
    turned_hint, "What it means.";
    length, "A figure.";
    length_hint, "What it means.";
    width, "A figure.";
    diameter, "A figure.";
    wheelbase, "A figure.";
    bottom, "A figure of a thing.";
    bottom_hint, "What it means.";
    top, "A figure of a thing.";
    top_hint, "What it means.";
    upside_down, "Heights that make no sense.";
    kind, "A fact about a thing.";
    material, "A fact about a thing.";
    metal, "A fact about a thing.";
    as_its_face, "How much metal: nothing else is known.";
    known, "A fact about a thing.";
    known_within, "A fact about a thing.";
    known_within_hint, "What it means.";
    to_move, "A fact about a thing.";
    locked, "A fact about a thing.";
    locked_why, "What it means.";
    is_locked, "A thing that the hand may not move.";
    copy, "Makes a second one.";
    copy_why, "What that does.";
    remove, "Takes a thing away.";
    remove_why, "What that does.";
    marks_go_with_car, "Under the car's figures.";
    on_its_mark, "A target in its place.";
    off_its_mark, "Over a target's figures.";
    further_away, "How a target stands off its mark.";
    further_away_hint, "What it means.";
    to_the_left, "How a target stands off its mark.";
    to_the_left_hint, "What it means.";
    stand_turned_hint, "What it means.";
    height, "A figure of a target.";
    height_hint, "What it means.";
    tipped, "How a target stands.";
    tipped_hint, "What it means.";
    shut, "A door.";
    stands_open, "A door.";
    nothing_to_type, "Something that has no figures here.";
    no_arrangement, "No arrangement stands there, or it is the only one.";
    no_shape, "Figures that make no shape.";

    // The drawing and the foot.
    paper_to_car, "How the top view lies.";
    paper_as_room, "How the top view lies.";
    paper_to_sight_line, "How the top view lies.";
    turn_paper, "What a press on the top view's title does.";
    change_axis, "What a press on the side view's title does.";
    all, "Shows all of both views.";
    all_why, "What that does.";
    larger, "Zooms in.";
    smaller, "Zooms out.";
    nothing_in_hand, "What the hand can do.";
    nothing_in_hand_short, "The same where there is little room.";
    nudging, "What the keys do.";
    nudging_short, "The same where there is little room.";
    room_in_hand, "What the hand can do with the room.";
    room_in_hand_short, "The same where there is little room.";
    fixed_in_hand, "What can be done with what no hand moves.";
    while_dragging, "What the keys do.";
    while_dragging_short, "The same where there is little room.";
    measure_from, "What to do next.";
    measure_from_short, "The same where there is little room.";
    measure_to, "What to do next.";
    caution_short, "Where there is little room.";

    // Pages.
    close, "Takes a page away.";
    begin, "Leaves the first steps.";
    keys, "Over the list of keys.";
    question, "Over a question.";
    save_changes, "Over the question before work would be lost.";
    welcome, "A page.";
    welcome_about, "Over the ways in.";
    who_aims, "Who aims.";
    who_aims_how, "What they ask.";
    enter_my_car, "Begins a car.";
    open_my_bay, "Opens a file.";
    who_plans, "Who owns the shop.";
    who_plans_how, "What they ask.";
    draw_my_bay, "Begins a bay.";
    who_shows, "Who estimates.";
    who_shows_how, "What they ask.";
    look_round, "Leaves the page.";
    examples, "A page.";
    examples_about, "Over the list of what is invented.";
    no_examples, "Where that list is empty.";
    enter_own, "Leads to where the figures are entered.";
    path_of_layout, "A field.";
    path_to_save, "A field.";
    open_it, "Opens the file that was typed.";
    look_for_it, "Opens the system's own window.";
    look_for_place, "Opens the system's own window.";
    changed_on_disk, "A question.";
    save_open_elsewhere, "A question.";
    save_all_the_same, "Saves though another window has the file.";
    save_first, "Saves before leaving.";
    do_not_save, "Leaves without saving.";
    stay, "Takes nothing back.";
    replace_it, "Replaces a file.";
    open_theirs, "Opens a file as somebody else left it.";
    save_there_again, "Writes a file that is gone where it was.";
    other_name, "Asks for another name.";
    cannot_be_judged, "A layout that cannot be shown.";


    // A car that is being entered.
    finish_car, "Why the bay does not change.";
    drop_car_question, "A question.";
    drop_bay_question, "A question, before the program closes.";
    drop_list_question, "A question, before the program closes.";
    go_on_with_it, "An answer.";
    quit_without_it, "An answer.";
    go_on_entering, "An answer.";
    drop_it, "An answer.";
    no_home, "Why nothing can be kept.";

    on_this_car, "Over what was measured.";
    sensor_measured, "A tick.";
    wheels_measured, "A tick.";
    wheel_ahead, "A figure of a wheel, after its name.";
    wheel_left, "A figure of a wheel, after its name.";
    wheels_hint, "What it is.";
    centre_follows_hint, "What it is.";
    toe_left, "An angle.";
    toe_right, "An angle.";
    set_back, "A figure.";
    set_back_hint, "What it is.";
    turning_circle, "A figure.";
    turning_circle_hint, "What it is.";
    other_toe, "While one of two is typed.";

    // A visit.
    visit, "A page.";
    change_list, "Changes the list.";
    change_list_why, "What it does.";
    work, "One kind of work.";
    to_mind, "A field.";
    more_work, "Adds one.";
    keep_list, "Saves the list.";
    shop_list, "What the list is called.";
    this_shop, "Who says so.";
    work_done, "Over the list of work.";
    maker_decides, "Under the list.";
    nothing_chosen, "While nothing is chosen.";
    none_entered, "Over what is missing.";
    take_visit, "Takes the list.";
    in_for, "Over the aimings of the visit.";
    all_aimings, "Over all aimings.";

    // All cars.
    all_cars, "A page.";
    search_list, "A field.";
    nothing_like_that, "Said of an empty list.";
    search, "A field.";
    choose_it, "Chooses it.";
    no_car_found, "Said of an empty list.";

    // Arrangements.
    duplicate, "Makes another like it.";
    duplicate_why, "What it is for.";
    compare, "A page.";
    compare_why, "What it is for.";
    compare_title, "A page.";
    compare_with, "A choice.";
    as_opened, "The state that the bay was in when it was opened.";
    name_arrangement, "A page.";
    name_it, "Gives the name.";
    remove_arrangement, "Takes it away.";
    show_this, "Shows the other one.";
    different, "What of the two is not the same.";
    gone, "Findings.";
    new_here, "Findings.";
    in_both, "Findings.";

    // So that nothing is lost.
    left_behind, "A page.";
    work_list, "What is left of the list of work.";
    left_behind_about, "Over the list.";
    take_up, "Shows it.";
    throw_away, "Deletes it.";
    nothing_left, "Said of an empty list.";
    left_by_later, "Why it is not taken up.";
    left_damaged, "Why it is not taken up.";
    bay_begun, "Work that is no bay yet.";
    left_is_saved, "Of work that its file holds.";
    left_saved_since, "Of work whose file was written since.";
    left_file_gone, "Of work whose file is gone.";
    left_for_later, "Said when the list is closed and not answered.";
    never_saved, "Of work that has no file.";
    open_elsewhere, "A warning.";
    changed_meanwhile, "A warning.";
    gone_meanwhile, "A warning.";
    nothing_kept, "A warning.";
    not_kept_now, "A short warning that stays in the foot.";
    no_text_to_keep, "A warning.";
    keeper_ended, "A warning.";
    finish_bay, "Why a bay that was begun cannot be taken up.";
    list_changed_meanwhile, "Why a list of work is not saved yet.";
    finish_list, "Why a list of work that was being changed cannot be taken up.";
    undo_not_kept, "Beside what was left behind.";

    // When something goes wrong.
    fault_title, "Over the page after a fault in the program.";
    fault_why, "What that means.";
    go_on, "Goes on after a fault.";
}

/// What whoever helps needs to know: versions, display, log.
#[derive(Clone, Copy, Debug)]
pub struct Diagnosis<'a> {
    /// The program's version.
    pub version: &'a str,
    /// The system and the machine.
    pub system: [&'a str; 2],
    /// The screen library and its version.
    pub library: &'a str,
    /// The window, points.
    pub window: [f32; 2],
    /// px for each point.
    pub px_per_point: f32,
    /// How much larger than usual all is.
    pub zoom: f32,
    /// Of the answer.
    pub generation: u64,
    /// How many there are in the bay.
    pub things: usize,
    /// How many there are in the answer.
    pub findings: usize,
    /// Whether the answer is of an earlier state.
    pub stale: bool,
    /// What happened, line by line.
    pub log: &'a str,
}

impl Screen {
    sentences! { screen:
        // Names of controls and rows, where the place on the screen says it to who can see it.
        /// What a press or a field is, and of what.
        of(what: &str, of: &str) -> String;
        /// A name and what is added to it.
        with(name: &str, note: &str) -> String;
        /// One of several that have no names.
        numbered(what: &str, number: usize) -> String;
        /// How large letters are now.
        letters_now(percent: u32) -> String;
        /// How many there are of it.
        counted(what: &str, count: usize) -> String;
        /// A list and where it comes from.
        list_from(name: &str, source: &str) -> String;
        /// When and where.
        when_and_where(when: &str, place: &str) -> String;
        /// A place on the floor, among others.
        at_place(which: &str, along: &str, across: &str) -> String;
        /// What whoever helps needs to know.
        diagnosis(of: &Diagnosis<'_>) -> String;
        /// How many arrangements were looked at.
        looked_at(done: usize, all: usize) -> String;
        /// What a set-up is called in which everything that is proposed for this one was done.
        after_the_moves(set_up: &str) -> String;
        /// How many findings are out of sight below.
        more_below(count: usize) -> String;
        /// A field's name: from a wall.
        from_wall(wall: &str) -> String;
        /// What was typed is no length.
        no_length(text: &str) -> String;
        /// Which of two lengths was meant.
        which(thousands: &str, decimal: &str) -> String;
        /// That question was left without an answer.
        not_answered(text: &str, which: &str) -> String;
        /// What was typed is no angle.
        no_angle(text: &str) -> String;
        /// Something that is not there.
        no_such(name: &Id) -> String;
        /// A name that is taken.
        name_taken(name: &Id) -> String;
        /// A change that would leave figures that are not allowed.
        unsound(fault: &Fault, lengths: Lengths) -> String;
        /// A change after which an arrangement would not go with its car any more.
        would_shut(arrangement: &str, fault: &Fault, lengths: Lengths) -> String;
        /// An arrangement that does not go with its car and is not shown.
        not_shown(arrangement: &str, fault: &Fault, lengths: Lengths) -> String;
        /// A car that no aiming is entered for.
        no_aiming(car: &str) -> String;
        /// Said when it was saved.
        saved(path: &str) -> String;
        /// Said when it was saved where these cars of it are not found: it cannot be opened there.
        saved_without_cars(path: &str, cars: &[&Id]) -> String;
        /// Said when it was saved and a file with comments was kept.
        saved_with_backup(path: &str, backup: &str) -> String;
        /// Said when it was saved and the file of an older version was kept.
        saved_with_older(path: &str, older: &str) -> String;
        /// An aiming's place in the visit.
        aiming_of(place: usize, all: usize) -> String;
        /// How many aimings follow from the work.
        to_be_aimed(count: usize) -> String;
        /// How long ago something was, from seconds.
        ago(seconds: u64) -> String;
        /// Said when a journal was set aside at the start.
        not_understood(path: &str) -> String;
        /// Said after a fault in what is worked out beside the frames.
        failed_beside(words: &str) -> String;
        /// Said when a fault of the program keeps unsaved work from being kept.
        keeper_failed(words: &str) -> String;
        /// Said after a fault, when what was in hand was written beside.
        kept_at(path: &str) -> String;
        /// Said after a fault, when it could not be written.
        not_kept(why: &str) -> String;
        /// A question before work is lost.
        unsaved(bay: &str) -> String;
        /// Said when all of it is on the disk.
        nothing_to_save(path: &str) -> String;
        /// A question: the file to save to is not there any more.
        file_is_gone(path: &str) -> String;
        /// What is read and may be scrolled by the keyboard.
        to_scroll(what: &str) -> String;
        /// A question before a file is replaced.
        file_is_there(path: &str) -> String;
        /// What would be undone.
        undo_what(name: Option<&str>) -> String;
        /// What would be done again.
        redo_what(name: Option<&str>) -> String;
        /// The name of something on the canvas, for who cannot see it.
        on_canvas(name: &str, in_top_view: bool) -> String;
        /// The scale bar, for who cannot see it.
        scale_bar(length: &str) -> String;
        /// What was measured.
        measured(distance: &str, along: &str, other: &str, in_side_view: bool) -> String;
        /// The same for the button that shows the place.
        show_place_of(finding: &str) -> String;
        /// The same for the button that explains the limit.
        why_of(finding: &str) -> String;
        /// Two marks between which a tape reads.
        mark_to_mark(from: &str, to: &str) -> String;
        /// A figure of one wheel.
        of_wheel(wheel: &str, figure: &str) -> String;
        /// Figures that were assumed.
        assumed(figures: &[Assumed]) -> String;
        /// A door's size.
        opening_size(width: &str, bottom: &str, top: &str) -> String;
        /// What a spot of the floor is.
        floor_feature(kind: FloorFeatureKind) -> &'static str;
        /// What an opening is, whether it is shut, and where.
        opening_note(opening: &Opening, wall: Option<&str>) -> String;
    }
}

/// The beginning of what was typed.
pub(super) fn cut(text: &str) -> String {
    const MOST: usize = 24;
    let text = text.trim();
    if text.chars().count() <= MOST {
        text.to_owned()
    } else {
        format!("{}…", text.chars().take(MOST).collect::<String>().trim())
    }
}
