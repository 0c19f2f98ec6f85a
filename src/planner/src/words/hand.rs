//! Words for what the hand does with things: menus, several at once, the clipboard.

use super::Units;
use crate::hand::Order;

texts! {
    hand: Hand, "Every fixed text of what the hand does with things.";
    // The menu of what is in hand.
    menu, "What the menu is, for who cannot see it.";
    cut, "An entry.";
    copy_out, "An entry: to the clipboard.";
    paste_hint, "An entry that tells the key.";
    copy_beside, "An entry: a second one beside it.";
    turn_left, "An entry: a quarter turn anticlockwise.";
    turn_right, "An entry: a quarter turn clockwise.";
    rename, "An entry.";
    remove, "An entry.";
    lock, "An entry: the hand may not move it.";
    unlock, "An entry: the hand may move it again.";
    show_all, "An entry: shows all of both views.";
    choose_all, "An entry.";
    // Several in hand.
    line_up, "Over the orders of edges and middles.";
    fronts, "An order.";
    rears, "An order.";
    lefts, "An order.";
    rights, "An order.";
    along_car, "An order.";
    across_car, "An order.";
    spaced_out, "An order.";
    spaced_out_why, "What it does.";
    row, "An order.";
    row_why, "What it does.";
    by_the_car, "Under the orders: whose directions they are.";
    several_hint, "In the foot, while several are in hand.";
    several_hint_short, "The same where there is little room.";
    // The clipboard.
    not_things, "What is on the clipboard is no thing of a bay.";
    // On the shelf.
    inner_wall, "A wall that stands in the room.";
    pillar_row, "Three columns in a line.";
    booth, "Three walls about a work place.";
    booth_wall, "One of them.";
    lift, "Two posts with their arms.";
    // Measuring, levels, the picture under the plan.
    free_end, "Beside a measurement: an end of it lies on nothing.";
    keep_it, "Keeps what was measured with the bay.";
    keep_it_why, "What it does, and its key.";
    kept_dimension, "Beside its length, in the list.";
    loose_end, "Beside the length of one whose end has lost what it lay on, in the list.";
    from_end, "Before what the first end lies on.";
    to_end, "Before what the second end lies on.";
    not_kept_from_side, "What was measured in the side view cannot be kept.";
    nothing_measured, "There is nothing to keep yet.";
    read_levels, "Opens the system's own window for a file of levels.";
    read_levels_why, "What it does.";
    look_for_picture, "Opens the system's own window.";
    // Sizes.
    put_size_back, "An answer.";
    it_is_so_small, "An answer.";
}

/// What is wrong with a line of levels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BadLevel<'a> {
    /// It has so many columns.
    Columns(usize),
    /// No floor mark is called so.
    NoMark(&'a str),
    /// Two floor marks in different places are called so: one that stays there, and one of the aiming.
    TwoMarks(&'a str),
    /// This column is no number.
    NoNumber(LevelColumn, &'a str),
    /// This column has a comma before three figures, and nothing in the table tells whether it parts thousands: "1,200".
    Thousands(LevelColumn, &'a str),
}

/// A column of a table of levels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LevelColumn {
    /// Where along the bay.
    Along,
    /// Where across it.
    Across,
    /// The level.
    Level,
}

impl Hand {
    /// An order, short.
    pub const fn order(&self, order: Order) -> &'static str {
        match order {
            Order::Fronts => self.fronts,
            Order::Rears => self.rears,
            Order::Lefts => self.lefts,
            Order::Rights => self.rights,
            Order::AlongCar => self.along_car,
            Order::AcrossCar => self.across_car,
            Order::SpacedOut => self.spaced_out,
            Order::Row => self.row,
        }
    }

    sentences! { hand:
        /// So many things are in hand.
        several(count: usize) -> String;
        /// So many things were put on the clipboard.
        on_clipboard(count: usize) -> String;
        /// What a dimension is called until it is given a name.
        numbered_dimension(number: usize) -> String;
        /// Which end, and what it lies on.
        end_on(which: &str, on: &str) -> String;
        /// A dimension was kept, under this name.
        kept_as(name: &str) -> String;
        /// A line of levels that cannot be read: its number from 1, what stands there, and what of it is wrong.
        bad_level(number: usize, line: &str, what: BadLevel<'_>, units: Units) -> String;
        /// The same of a file.
        bad_level_in(file: &str, number: usize, line: &str, what: BadLevel<'_>, units: Units) -> String;
        /// A file held more levels than a survey may: how many, and the most.
        too_many_levels(file: &str, found: usize, most: usize) -> String;
        /// A file held a head at most, and no level.
        no_levels_in(file: &str, units: Units) -> String;
        /// So many levels were read from a file.
        levels_read(file: &str, count: usize) -> String;
        /// A thing became smaller than its kind ever is: its name and size, what it is, and the least that one is.
        too_small(thing: &str, size: &str, kind: &str, least: &str) -> String;
    }
}
