//! What stands on sheets of paper beside what every answer says: their names, their title blocks, what to do with them.

use super::{Units, Words};
use baywright_geometry::marks::{Construction, Wheel};

use crate::assessment::{Finding, Step};
use crate::model::Placement;

texts! {
    sheets: SheetTexts, "Every fixed text of the sheets that are printed.";
    marks, "A sheet's name: how the marks are laid and read.";
    blank, "A sheet's name: the same, to be filled in by hand.";
    findings, "A sheet's name: what is found, before and after.";
    customer, "A sheet's name: what a customer is told.";
    sheet, "A field of the title block: which sheet it is.";
    shop, "A field: the shop.";
    bay, "A field: the bay and the set-up in it.";
    car, "A field: the car.";
    aiming, "A field: the aiming.";
    procedure, "A field: the procedure that it follows, with its edition.";
    file, "A field: the file that it is made from.";
    day, "A field: the day.";
    revision, "A field: the revision.";
    record, "A field: the record of the visit, by its job and its hash.";
    page, "A field: which page of how many.";
    on_examples, "That figures are examples, as a sentence.";
    before_start, "A heading: what is met and ready before anything is measured.";
    move_first, "A heading: what is moved before that.";
    lay, "A heading: how the marks are laid.";
    set_targets, "A heading: at which height targets are set.";
    from_to, "Over the marks that a distance is between.";
    must_read, "Over what the tape must read.";
    was_read, "Over what it read.";
    read_by, "Beside the box for who read it.";
    read_at, "Beside the box for when.";
    running, "How the figures along a view's edges are to be used.";
    sketch, "A heading: room to draw in.";
    sketch_about, "What to draw there.";
    marks_by_hand, "A heading: where marks lie, to be written in.";
    mark, "Over a mark's number.";
    ahead, "Over how far ahead it lies.";
    aside, "Over how far aside it lies.";
    laid, "Over a box that is ticked when it is laid.";
    height_by_hand, "Beside the box for a target's height.";
    before, "Over how it is now, to a customer.";
    after, "Over how it is when all is moved, to a customer.";
    no_promise, "What the sheet for a customer does not say, sentence by sentence.";
    measure_bar, "What to do with the bar of 100 mm.";
    both_cautions, "The usual cautions and those of a laser, in as few words as tell them.";
}

impl SheetTexts {
    sentences! { sheets:
        /// The bay and the set-up in it.
        in_bay(bay: &str, set_up: &str) -> String;
        /// Which car it is told of, and by which shop, if that has a name.
        for_car(car: &str, shop: &str) -> String;
        /// Which page of how many.
        page_of(at: usize, all: usize) -> String;
        /// Between which two marks.
        between(from: &str, to: &str) -> String;
        /// A heading: what the tape must read, with the unit where figures have none.
        read_tape_in(units: Units) -> String;
        /// How a mark is laid that has a name: with its number before it.
        numbered(number: &str, said: &str) -> String;
        /// A figure and how far off it may read.
        within(figure: &str, allowance: &str) -> String;
        /// A figure that rests on what was assumed, with the sign of what is said below.
        starred(figure: &str) -> String;
        /// That these distances rest on what was assumed.
        rests(which: &str, rests_on: &str) -> String;
        /// The verdict of one of two set-ups.
        verdict_of(name: &str, verdict: &str) -> String;
        /// A page's title, as a list of contents has it: the sheet, the set-up if there is one, the page if there are several.
        page_title(sheet: &str, set_up: &str, page: (usize, usize)) -> String;
    }
}

impl Words<'_> {
    sentences! { about:
        /// One thing to do, as a sentence.
        step_sentence(step: &Step) -> String;
        /// How high the middle of a target's face is set over a level floor, mm: where its levels are not known.
        set_height(placement: &Placement, height_mm: f64) -> String;
        /// How several marks are laid that are laid alike, each at a wheel of its own; `None` of what is not laid at a wheel.
        laid_at_wheels(construction: &Construction) -> Option<String>;
        /// Which mark is laid so at which wheel.
        mark_at_wheel(id: &str, wheel: Wheel) -> String;
        /// What is wrong and by how much, without what else there is to know of it.
        short_line(finding: &Finding) -> String;
    }
}
