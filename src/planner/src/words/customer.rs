//! What a customer reads: large, in few and short words. Each language's sentences are as easy as a child of thirteen reads
//! (grade 8); a test holds each language to it, by a formula of its own.

use super::Words;
use crate::assessment::Assessment;
use crate::customer::{Idea, Sense};
use crate::model::WorkStep;

texts! {
    customer: CustomerTexts, "Every fixed text of the page for the customer and of what the shop says there.";
    show, "A press that opens the page.";
    show_why, "What it is for.";
    page, "The page itself, to who does not see it.";
    back, "One screen back.";
    next, "The next screen.";
    leave, "Back to the drawing.";
    keys, "What the keys do there.";
    face, "A group of fields in the shop's settings.";
    face_about, "What they are for.";
    name, "A field: the shop's name.";
    picture, "A field: the file of the shop's picture.";
    picture_hint, "What to type there.";
    minutes_hint, "What to type in a field of minutes.";
    own_picture, "The shop's picture, to who does not see it.";
    made_up, "That the figures are no real ones.";
    sent_back, "The picture of what is sent back, to who does not see it.";
    sent_back_over, "Over its two discs.";
    our_part, "What the shop answers for, and what it does not.";
    older, "That what is shown is of an earlier state.";
}

impl CustomerTexts {
    sentences! { customer:
        /// Which screen of how many, from 1.
        screen_of(at: usize, all: usize) -> String;
        /// A field: how long a step takes, minutes.
        minutes_of(step: WorkStep) -> &'static str;
        /// Why a step is there, in a sentence.
        why_step(step: WorkStep) -> &'static str;
        /// What was typed is no number of minutes.
        no_minutes(text: &str) -> String;
        /// What the picture of why shows, to who does not see it.
        why_picture(sense: Sense) -> &'static str;
        /// The names in that picture: the sensor, the target, what stands about.
        why_names(sense: Sense) -> (&'static str, (&'static str, &'static str));
    }
}

impl Words<'_> {
    sentences! { about:
        /// The idea, in one sentence.
        idea(idea: &Idea) -> String;
        /// What else is told with it, a sentence each.
        idea_lines(idea: &Idea, assessment: &Assessment) -> Vec<String>;
    }
}
