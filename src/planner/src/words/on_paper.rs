//! Words of the page on which sheets are chosen, seen and printed.

texts! {
    on_paper: OnPaper, "Every fixed text of the page with what is printed.";
    title, "The page's name, and the press that leads to it.";
    title_why, "What that does, and its key.";
    sheets, "Over the sheets that can be chosen.";
    none_chosen, "That no sheet is chosen.";
    paper, "Over the sizes of paper.";
    upright, "The long side upright.";
    level, "The long side level.";
    revision, "Beside what revision it is.";
    print, "The main press: opens it to be printed.";
    print_why, "What that does.";
    save_as, "Over where it is saved.";
    save_hint, "What the ending of the name decides.";
    save, "The press that saves.";
    look_for_place, "Asks the system for a place.";
    replace, "The press that replaces what is there.";
    replace_all, "The same of several files.";
    for_programs, "Over what is saved for other programs.";
    plan, "Saves the plan as DXF.";
    plan_why, "What that is.";
    marks, "Saves marks and distances as CSV.";
    marks_why, "What that is.";
    fits, "Saves which aimings fit where as CSV.";
    fits_why, "What that is.";
    everything, "Saves all that was found out as JSON.";
    everything_why, "What that is.";
    pages_name, "The pages, for who scrolls them by keys.";
    dpi, "Beside how many dots to the inch a picture has.";
    being_made, "While the pages are being made.";
    being_written, "While the file is being written.";
    before_now, "That the findings are told as opened and as they are now.";
    enlarge, "Larger pages.";
    reduce, "Smaller pages.";
    look_again, "That nothing was saved, for the pages are others by now.";
    leave, "Leaves the page.";
}

impl OnPaper {
    sentences! { on_paper:
        /// How many pages there are.
        pages(count: usize) -> String;
        /// That only the first so many are shown; all are saved and printed.
        first_shown(count: usize) -> String;
        /// Which page it is, for who cannot see it.
        page(at: usize, count: usize, title: &str, description: &str) -> String;
        /// What was written.
        written(files: &[String]) -> String;
        /// That it was given to the system to be shown, and where it lies.
        opened(file: &str) -> String;
        /// That the system shows it not; where it lies, and the system's words.
        not_opened(file: &str, why: &str) -> String;
        /// That files of these names are there: all of them are named, for each would be gone.
        are_there(files: &[String]) -> String;
        /// Why one could not be written, and which were before it.
        not_all_written(why: &str, written: &[String]) -> String;
        /// That the name does not end as it should.
        wrong_ending(file: &str) -> String;
        /// That a picture would have too many pixels.
        too_many_pixels(width: u64, height: u64, most: u64) -> String;
        /// That the pages could not be made; the writer's words.
        not_made(why: &str) -> String;
    }
}
