//! Words of the owner's report: what fits where, on paper, for a builder or a bank.

use super::Words;
use crate::assessment::Finding;
use crate::matrix::Strip;
use crate::place::Margin;

texts! {
    owner_report: OwnerReport, "Every fixed text of the owner's report.";
    title, "The report's name.";
    bay, "A field of the title block: the bay.";
    list, "A field: of how many aimings and places it is.";
    partial, "That not all was looked at.";
    in_short, "A heading.";
    in_room, "Before how many of the list are served in the room at all.";
    not_looked, "Of a part that was not looked at.";
    which_where, "A heading: the table of aimings by places.";
    number, "Over the number of a line.";
    place, "Over a place.";
    found, "Over what was found there.";
    by_tape, "Over how a car is parked there, what is moved or what stops.";
    each_place, "A heading: each line at its best place, by tape.";
    as_above, "What that best place is.";
    map, "A heading: how many each place serves.";
    least, "Over how many are served at least.";
    floor, "Over how much floor that is.";
    share, "Over what share of the room that is.";
    wider_or_longer, "Over the rooms that serve the same list.";
    area, "Over an area.";
    decides, "Over the line for which a room must be so long.";
    drawn, "What is drawn of the empty room.";
    changes, "A heading: what a change of the building would unlock.";
    change, "Over a change.";
    unlocks, "Over how many it unlocks.";
    which, "Over which.";
    eases, "Over which have less to mind.";
    costs, "Over what it costs.";
    not_asked, "A heading.";
    care_is_counted, "How much is told of what needs care.";
    no_proof, "That none was found is no proof.";
    never_so, "Of what it is said that a line never fits.";
    together, "Over what several changes unlock together.";
    way, "That the way in is not asked.";
    empty_is_empty, "What the size of an empty room leaves out.";
    entered, "Where costs come from.";
    who_decides, "Who decides on walls and floors.";
}

impl OwnerReport {
    sentences! { owner_report:
        /// Of which bay it is, how many aimings and how many places.
        of_list(bay: &str, aimings: usize, places: usize) -> String;
        /// How many aimings and how many places, in a field.
        counted(aimings: usize, places: usize) -> String;
        /// How many of a list are served somewhere: as it is, tightly, after moves; of how many no place was found, and how many were not
        /// looked at to the end.
        somewhere(some: [usize; 5], all: usize) -> String;
        /// Some of the places, of how many.
        places_of(from: usize, to: usize, all: usize) -> String;
        /// Lines by their numbers that are not served.
        not_there(numbers: &str) -> String;
        /// An area, its figure as it is written.
        square_metres(figure: &str) -> String;
        /// So many or more.
        at_least(count: usize, all: usize) -> String;
        /// The change that unlocks the most, and how many.
        first_change(change: &str, count: usize) -> String;
        /// Where changes were asked about, and how far out walls would stand.
        changes_at(place: &str, fit: usize, all: usize, further: &str) -> String;
        /// What several changes unlock together for no more than a sum: which, what they cost, how many of the list and which.
        together_for(sum: &str, changes: &[&str], costs: &str, count: usize, which: &str) -> String;
        /// That nothing for that sum unlocks any.
        together_none(sum: &str) -> String;
        /// How many other changes unlock none.
        others_unlock_none(count: usize) -> String;
        /// A cost beyond what can be spent.
        beyond(cost: &str) -> String;
        /// What a picture of the report shows, to who cannot see it.
        described(bay: &str, aimings: usize) -> String;
    }
}

impl Words<'_> {
    sentences! { about:
        /// What the words in the cells say.
        report_words(margin: &Margin) -> String;
        /// What the strip of a drawn room is.
        report_store(strip: &Strip) -> String;
        /// What is to be minded at a place.
        report_care(care: &[&Finding]) -> String;
    }
}
