//! Words of the command that plans: which aimings fit where, the place that serves the most of them, how big a room must be.

use super::Words;
use crate::matrix::{BestPlace, Cell, Place, RoomSize, Stands};
use crate::place::Margin;

texts! {
    plan: PlanTexts, "Every fixed text of the command that plans.";
    plan, "The command.";
    arrangement, "A choice.";
    cars, "A choice: the cars that are asked about.";
    all_cars, "A flag: all of them.";
    a_car, "What stands for a car's name.";
    csv, "A flag.";
    moves, "A flag: what must move too.";
    json, "A flag.";
    report, "A file: the owner's report.";
    a_report, "What stands for its name.";
    changes, "A flag: what changes of the building unlock is asked too.";
    further, "A choice: how far out walls would stand.";
    after, "Under the help.";
    one_place, "Over the place that serves the most.";
    no_place_for_any, "None of the list was found a place.";
    not_served, "Over those that it does not serve.";
    empty_room, "Over the room's size.";
    no_size, "No empty room does.";
    never_so, "Under the lines that never fit: of what that is said.";
    searched, "What was looked at, and what not.";
}

impl PlanTexts {
    sentences! { plan:
        /// What is answered, of a bay and so many aimings.
        head(bay: &str, aimings: usize) -> String;
        /// How far it is.
        so_far(done: usize, all: usize, line: &str) -> String;
        /// A car that there is not.
        no_such_car(name: &str, there: &[&str], meant: Option<&str>) -> String;
        /// A car without aimings.
        no_aimings(car: &str) -> String;
    }
}

impl Words<'_> {
    sentences! { about:
        /// A line of the list: the set-up if it is one, its car and its aiming.
        plan_line(is_saved: bool) -> String;
        /// The same at the start of a sentence about one place.
        plan_place(place: &Place) -> String;
        /// What is found of the line at a place.
        plan_cell(cell: &Cell, margin: &Margin) -> String;
        /// What the verdict is where a car stands, and how much is to be minded there.
        plan_verdict(own: &Stands) -> String;
        /// How many of a list one place serves, and how a car parks there: the one that the words are of.
        plan_best(best: &BestPlace, of: usize, margin: &Margin) -> String;
        /// The smallest empty room for a list and the line that decides.
        plan_room(room: &RoomSize, margin: &Margin) -> String;
    }
}
