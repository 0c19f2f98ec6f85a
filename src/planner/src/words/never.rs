//! That a set-up fits nowhere, in words, and the command that checks a proof of it.

use super::Words;
use crate::never::Refused;
use crate::place::never::Short;

texts! {
    never: NeverTexts, "Every fixed text about proofs that a set-up fits nowhere.";
    proof, "The command.";
    check, "A command of it.";
    prove, "What is asked of a plan instead.";
    file, "A file.";
    a_proof, "What stands for a proof's file.";
    of, "A layout.";
    after, "Under the help.";
    by_itself, "No layout was given.";
    is_of, "It is of the layout.";
    larger_room, "Why it is not.";
    rests_on, "What it rests on.";
    not_proven, "No proof was found.";
    free, "None can be found.";
    ask, "On the screen: looks for a proof.";
    ask_why, "What that is.";
    found_so, "On the screen, under that it never fits: who says so, and of what it is said.";
    weighing, "It is proven; what is missing is worked out.";
    not_said, "On the screen, under that nothing is proven: what that means.";
    free_drawn, "On the screen, under that there is a free place: it is drawn.";
    keep, "Writes the proof into a file.";
    keep_why, "What for.";
    path, "Over the field for its path.";
    is_there, "A file of that name is there.";
    replace, "Replaces it.";
    gone, "The proof was of something else than is shown now.";
}

impl NeverTexts {
    sentences! { never:
        /// It holds, with how many cells.
        holds(cells: usize) -> String;
        /// So much of all places and headings is ruled out so far, %.
        ruled_out(percent: usize) -> String;
        /// The proof was written into this file.
        kept(path: &str) -> String;
        /// It does not, and why.
        refused(why: Refused) -> String;
        /// It is of no set-up of that name in the layout, for that solid is not there as the proof has it.
        not_of(solid: &str) -> String;
    }
}

impl Words<'_> {
    sentences! { about:
        /// It never fits here, with what is missing between which two, if two decide it.
        never_fits(short: Option<&Short>) -> String;
    }
}
