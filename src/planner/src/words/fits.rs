//! Words of the page that says what fits where: all aimings of a list by all places of the bay.

use super::Words;
use crate::assessment::Verdict;
use crate::matrix::{Cell, Change, DoorStays, Place, Planned, RoomSize, ground_mm};

texts! {
    fits: FitsTexts, "Every fixed text of the page that says what fits where.";
    page, "The page's name; leads to it.";
    page_why, "What it is for.";
    on_paper_why, "What the press does that leads to the report.";
    of_what, "Before the choice of the list.";
    set_ups, "A list: the set-ups of the bay.";
    their_cars, "A list: all aimings of the cars that stand in them.";
    all_cars, "A list: all aimings of all cars that there are.";
    visit, "A list: the aimings of the visit.";
    car_and_aiming, "Over the names of the lines.";
    anywhere, "A place: all of the room.";
    ready, "Of a cell.";
    with_care, "Of a cell.";
    tight, "Of a cell: nothing stops it, but a car is parked less surely than it must be.";
    after_moves, "Of a cell: things have to be moved.";
    elsewhere, "Of a cell: not there, but elsewhere in the room.";
    none_found, "Of a cell: no place was found.";
    never, "Of a cell: it is proven that it never fits.";
    stopped, "Of a cell: it is stopped wherever the car stands.";
    not_looked, "Of a cell: it was not looked at.";
    waiting, "Of a cell: it is not answered yet.";
    fit_here, "Below a column, before how many of the list it serves.";
    a_month, "Below that, before how many jobs a month it serves.";
    one, "A side of the page: the cell that is chosen.";
    most, "A side of the page: the place that serves the most, and the map.";
    how_big, "A side of the page: how big a room must be.";
    buys, "A side of the page: what a change of the building would unlock.";
    choose, "Before a cell is chosen.";
    choose_line, "Before a line is chosen, where a room is asked about.";
    show_it, "Shows what is chosen in the bay.";
    show_it_why, "What that does.";
    map_told, "What the shades of the map say.";
    point, "Below the map, while the pointer is elsewhere.";
    fewest, "Over the fewest places to park for all of the list.";
    fewest_proven, "That there are no fewer.";
    fewest_greedy, "That there may be fewer.";
    none_served, "The map shows nothing.";
    no_list, "There is nothing to look at.";
    rooms, "What the curve of rooms says.";
    wide, "Along an axis: the room's width.";
    long, "Along an axis: the room's length.";
    narrower, "Looks at the next narrower room of the curve.";
    wider, "Looks at the next wider room of the curve.";
    adds, "Over what each line adds to the room.";
    no_room, "Of a line that fits in no empty room.";
    comes_in, "The field for how often a line comes in.";
    weights_told, "What that is for.";
    price, "The field for the price of a square metre.";
    store, "The field for how deep what is in store is.";
    store_told, "What that is.";
    in_store, "What the strip is called on a drawing.";
    buys_told, "What is asked about changes.";
    further, "The field for how much further out a wall would stand.";
    look, "Looks at all changes.";
    costs_name, "The field for what a change costs.";
    to_spend, "The field for how much can be spent.";
    by_worth, "An order: what unlocks most first.";
    for_money, "An order: most for the money first.";
    beyond, "Of a change that costs more than can be spent.";
    nothing_locked, "All of the list fit there as it is.";
    unlocks_none, "No change unlocks any.";
    only_one, "Who decides on changes.";
    alone_none, "Over the changes that unlock none alone.";
    alone_none_told, "Why they have a price all the same.";
    together, "Over what several changes unlock together.";
    together_look, "Looks at them.";
    together_needs, "What has to be entered before that.";
    together_none, "Nothing within the sum unlocks any.";
    together_told, "What was looked at, and what not.";
    partial, "It was stopped.";
    again, "Looks once more.";
    searched, "What was looked at, and what not.";
}

impl FitsTexts {
    sentences! { fits:
        /// How many of how many steps are done.
        looked_at(done: usize, all: usize) -> String;
        /// So many of so many.
        of_all(some: &str, all: &str) -> String;
        /// How many of a list the place serves that is pointed at.
        served_there(some: usize, all: usize) -> String;
        /// One of the fewest places, from 0, what it serves and how one parks there.
        park_for(nth: usize, lines: &[&str], spot: &str) -> String;
        /// Lines that no place was found for with room enough to park.
        nowhere_for(lines: &[&str]) -> String;
        /// A line at a place, and what was found of it, for who listens.
        cell(line: &str, place: &str, found: &str) -> String;
        /// What so large a floor costs, in the money in which the price is, as it is written.
        costs(sum: &str) -> String;
        /// A room, as it is said to who listens.
        by(long: &str, wide: &str) -> String;
        /// What was typed for a number is none.
        no_number(typed: &str) -> String;
        /// What was typed for how deep what is in store is, is none: up to how much it may be.
        no_depth(typed: &str, most: &str) -> String;
        /// A thing taken away.
        without(thing: &str) -> String;
        /// A wall further out, and by how much.
        wall_further(wall: &str, by: &str) -> String;
        /// A door, a gap or a window walled up.
        walled_up(opening: &str) -> String;
        /// A door that stands open, and how far the ground beyond it is free then.
        open_onto(door: &str, free: &str) -> String;
        /// Why a door, a gap or a window is not asked to be walled up.
        door_stays(opening: &str, why: DoorStays) -> String;
        /// What a change unlocks: how many, and which.
        unlocks(lines: &[&str]) -> String;
        /// Which lines that fit anyway have less to mind after a change.
        eases(lines: &[&str]) -> String;
        /// Changes that are made together, what they cost and what they unlock.
        together_are(changes: &[&str], costs: &str, lines: &[&str]) -> String;
        /// The place at which it is asked.
        asked_at(place: &str, fit: usize, all: usize) -> String;
        /// The name of a set-up that is made of one to show another place.
        parked_there(of: &str) -> String;
    }
}

impl FitsTexts {
    /// The word of a cell that was answered, or that it was not looked at.
    pub const fn of_cell(&self, cell: Option<&Cell>) -> &'static str {
        match cell {
            None => self.not_looked,
            Some(Cell::Fits(own)) => match (own.meets_margin, own.verdict) {
                (false, _) => self.tight,
                (true, Verdict::Ready) => self.ready,
                (true, _) => self.with_care,
            },
            Some(Cell::AfterMoves { .. }) => self.after_moves,
            Some(Cell::Elsewhere(_)) => self.elsewhere,
            Some(Cell::NoneFound(own)) if own.is_partial => self.not_looked,
            Some(Cell::NoneFound(own)) if own.is_everywhere => self.stopped,
            Some(Cell::NoneFound(_)) => self.none_found,
        }
    }
}

impl FitsTexts {
    /// The word of a cell of what was found, by line and place.
    pub fn word(&self, found: &Planned, line: usize, place: usize) -> &'static str {
        if found.never(line, place).is_some() { self.never } else { self.of_cell(found.cell(line, place)) }
    }
}

impl Words<'_> {
    /// A change by its name, walls so much further out and so much more ground before doors, mm.
    pub fn fits_change(&self, change: &Change, further_mm: f64) -> String {
        let texts = self.locale.language.fits();
        match change {
            Change::Without(thing) => texts.without(thing.as_str()),
            Change::Further(wall) => texts.wall_further(wall.as_str(), &self.locale.length(further_mm)),
            Change::WalledUp(opening) => texts.walled_up(opening.as_str()),
            Change::OpenOnto(id) => {
                let door = self.arrangement.bay.openings.iter().find(|own| own.id == *id);
                let free = door.map_or(further_mm, |door| ground_mm(door, further_mm));
                texts.open_onto(id.as_str(), &self.locale.length(free))
            }
        }
    }

    sentences! { about:
        /// A place, as short as over a column.
        fits_place(place: &Place) -> String;
        /// A room of the curve and which line decides it: the one that the words are of.
        fits_room(room: &RoomSize) -> String;
        /// By how much the area of the smallest room would be less without a line, mm², and the room that it needs alone.
        fits_adds(adds_mm2: f64, alone: &RoomSize) -> String;
    }
}
