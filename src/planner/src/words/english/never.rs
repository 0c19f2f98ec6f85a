//! English of the same: see `words/never.rs`.

use super::{About, Language};
use crate::never::{MOST_CELLS, Refused};
use crate::place::never::Short;
use crate::words::never::NeverTexts;

/// The fixed texts.
pub const TEXTS: NeverTexts = NeverTexts {
    language: Language::English,
    proof: "Check a proof that a set-up fits nowhere in a bay",
    check: "Say whether a proof holds: its cells leave out no place and no heading, and in each of them two solids are in one another",
    prove: "Instead of a plan: look for a proof that the set-up fits nowhere, be all that can be moved out of the way, and write it into \
            this file; exit status 0 it was written, 1 none was found",
    file: "The proof",
    a_proof: "PROOF.ron",
    of: "The layout that it is to be of: its solids are worked out anew and compared, to 0.01 mm",
    after: "Exit status: 0 it holds, 1 it does not or is of another layout, 2 something given could not be read or found, 3 something \
            could not be written.\n\n\
            A proof rests on solid against solid and on the room. Whether a sensor can be aimed is another question.",
    by_itself: "It was checked by itself only; whether its solids are those of a layout is not said. Name the layout with --of.",
    is_of: "Its solids are those of the layout.",
    larger_room: "It is not of this layout: the room is larger.",
    rests_on: "It rests on solid against solid and on the room only, its doors as they are: keep-clear zones, sights, marks, levels and what stands proud of \
               the floor are left out.",
    not_proven: "That it never fits here is not proven: it may fit or not.",
    free: "That it never fits here is not proven: there is a place where no solid of it meets anything that stays.",
    ask: "Is there really no way?",
    ask_why: "Looks for a proof that this car with its target fits nowhere in this room, even with everything that can be moved \
              taken out",
    found_so: "Proven for every place and every heading, and checked by a second routine. It is said of solids alone: the car and \
               its target with its stand against the room, its doors open or shut as they are now, and what cannot be moved, \
               where that stands now; everything that can be moved counts as gone. Sights, keep-clear zones, marks and levels are \
               left out: they only ask for more room.",
    weighing: "It never fits here; working out what is missing \u{2026}",
    not_said: "This says neither that it fits nor that it does not.",
    free_drawn: "The car is drawn there. Whether the aiming can be done there is not said: move what is in the way, and look \
                 again.",
    keep: "Keep the proof\u{2026}",
    keep_why: "Writes it into a file that anybody can have checked by the command baywright proof check",
    path: "Path of the proof",
    is_there: "There is a file of that name already.",
    replace: "Replace that file",
    gone: "The proof was of the bay as it was before: look for it again.",
};

pub fn ruled_out(percent: usize) -> String {
    format!("{percent} % of all places and headings ruled out")
}

pub fn kept(path: &str) -> String {
    format!("The proof is in {path}.")
}

pub fn holds(cells: usize) -> String {
    match cells {
        1 => "The proof holds: two solids are in one another at every place and heading.".to_owned(),
        _ => format!(
            "The proof holds: its {cells} cells leave out no place and no heading, and in each of them two solids are in one another."
        ),
    }
}

pub fn refused(why: Refused) -> String {
    let why = match why {
        Refused::Part(nth) => format!("solid {} of the set-up is not convex or has no size", nth + 1),
        Refused::Stands(nth) => format!("solid {} of what stands is not convex or has no size", nth + 1),
        Refused::Places => "it leaves out places in the room, or has no set-up".to_owned(),
        Refused::NoCell(nth) => format!("cell {} is empty or names what is not there", nth + 1),
        Refused::NotBarred(nth) => format!("in cell {} the two that it names need not meet", nth + 1),
        Refused::Uncovered([x, y, heading]) => format!(
            "no cell covers the place {} / {} mm with the heading {}°",
            x / 1_000,
            y / 1_000,
            heading / 1_000_000
        ),
        Refused::TooMany => format!("it has more than {MOST_CELLS} cells"),
    };
    format!("The proof does not hold: {why}.")
}

pub fn not_of(solid: &str) -> String {
    format!("It is not of this layout: \"{solid}\" is not there as the proof has it.")
}

impl About<'_> {
    pub fn never_fits(&self, short: Option<&Short>) -> String {
        let Some(own) = short else { return "It never fits here.".to_owned() };
        let [one, other] = [&own.between[0], &own.between[1]].map(|of| self.subject(of));
        let missing = self.length(own.at_least_mm.floor());
        format!("It never fits here: at least {missing} short between {one} and {other}.")
    }
}
