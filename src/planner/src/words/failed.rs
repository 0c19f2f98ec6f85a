//! Why a routine failed, in words.

use super::Words;
use crate::failed::{Cause, Explained, Explains, Looked, Suspect, Unexplained, Whose};

texts! {
    failed: FailedTexts, "Every fixed text about a routine that failed.";
    title, "The page.";
    ask, "Leads to the page.";
    ask_why, "What it does.";
    intro, "What is typed here, and what comes of it.";
    whose, "Whose direction the routine tells.";
    of_sensor, "Where the sensor looks.";
    of_target, "Where the target is seen.";
    sideways, "What it said of left and right.";
    upright, "What it said of up and down.";
    not_said, "It does not say.";
    fine, "It is fine.";
    left, "It is out that way.";
    right, "It is out that way.";
    up, "It is out that way.";
    down, "It is out that way.";
    by_sideways, "How far, left or right.";
    by_upright, "How far, up or down.";
    by_why, "How that is typed.";
    limit, "The routine's own limit.";
    limit_why, "What stands there if nobody types one.";
    failed_at, "At which target it failed.";
    weighing, "While it is weighed.";
    of_before, "What is shown is of what was typed before.";
    could_be, "Over what could explain it.";
    as_it_was, "What a check found: nothing.";
    by_check, "How far out a check found it.";
    by_check_why, "How that is typed.";
    forget, "Takes back what a check found.";
    to_tape, "Leads to where a distance is typed.";
    separates_nothing, "No check separates the first two.";
    not_weighed, "What is not weighed, and what is not said.";
}

impl FailedTexts {
    sentences! { failed:
        /// Why there is nothing to say.
        unexplained(why: Unexplained) -> &'static str;
        /// Whose direction it is.
        whose_of(whose: Whose) -> &'static str;
        /// A cause, as it stands within a sentence.
        cause(cause: Cause) -> &'static str;
        /// What comes first: the likeliest, or that it cannot be told.
        headline(found: &Explained) -> String;
        /// The two ways in which a check may find something out: to the left, up or ahead first.
        ways_of(at: Suspect) -> (&'static str, &'static str);
        /// What to do about it.
        mend(own: &Explains) -> &'static str;
    }
}

impl Words<'_> {
    sentences! { about:
        /// What is out, which way and how far, with whether anything was read of it, and its place in the list.
        explains(place: usize, own: &Explains) -> String;
        /// What was looked at, and what was found.
        looked(own: &Looked) -> String;
        /// What to check first, and what it tells apart; `None` where nothing does.
        check_first(found: &Explained) -> Option<String>;
    }
}
